//! The answer of `shophead length`.

use serde::Serialize;

use super::{BasedInterval, DrivenHead, GivenInterval, GivenLength, Interval, Length, Lengths, Toleranced, Usable};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The rivet without its length.
    pub(crate) rivet: String,
    /// The part number with the chosen length; null where no length fits.
    pub(crate) part: Option<String>,
    /// The chosen length.
    pub(crate) length: Option<Length>,
    /// Thickness of the pack.
    pub(crate) grip: Toleranced,
    /// How far the tail stands out before driving.
    pub(crate) protrusion: Option<Interval>,
    /// Grip and one and a half diameters.
    pub(crate) rule_of_thumb: Option<Length>,
    /// The length of the series nearest to that.
    pub(crate) rule_of_thumb_length: Option<Length>,
    /// Why the chosen length is another, in a sentence; null where it is the same.
    pub(crate) difference: Option<&'static str>,
    /// The good lengths.
    pub(crate) usable: Option<Usable<'a>>,
    /// How much of the tail goes into filling the hole.
    pub(crate) fill: Option<Length>,
    /// The driven head that comes out.
    pub(crate) head: Option<DrivenHead>,
    /// Everything that the choice rests on, so that anyone can redo the sum.
    pub(crate) assumed: Assumed<'a>,
    #[serde(flatten)]
    pub(crate) lengths: Lengths,
}

/// Everything that the choice rests on.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Assumed<'a> {
    /// The part standard.
    pub(crate) series: &'a str,
    /// The letters of the rivet alloy; may be empty.
    pub(crate) alloy: &'a str,
    /// Whether the alloy was given.
    pub(crate) alloy_given: bool,
    /// Diameter of the shank.
    pub(crate) shank: Option<BasedInterval<'a>>,
    /// Diameter of the hole.
    pub(crate) hole: AssumedHole<'a>,
    /// The chosen length at the ends of its tolerance.
    pub(crate) length: Option<BasedInterval<'a>>,
    /// Height of a flush head, which is part of the length; null for a protruding one.
    pub(crate) sunk_head: Option<BasedInterval<'a>>,
    /// The limits of the choice, by name; a limit that the practice lacks is left out.
    pub(crate) limits: Limits<'a>,
}

/// The hole that a length was chosen for.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct AssumedHole<'a> {
    #[serde(flatten)]
    pub(crate) hole: GivenInterval<'a>,
    /// Whether it was given as measured.
    pub(crate) measured: bool,
}

/// Limits by name; a limit that the practice lacks is left out.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Limits<'a> {
    /// Least diameter of the driven head.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) driven_head_diameter_least: Option<GivenLength<'a>>,
    /// Least height of the driven head.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) driven_head_height_least: Option<GivenLength<'a>>,
    /// Greatest diameter of the driven head.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) driven_head_diameter_greatest: Option<GivenLength<'a>>,
    /// Greatest height of the driven head.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) driven_head_height_greatest: Option<GivenLength<'a>>,
    /// Height that, with the greatest diameter, bounds the metal of a tail.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) metal_height_greatest: Option<GivenLength<'a>>,
    /// Height that the head is driven to.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) driven_head_height_target: Option<GivenLength<'a>>,
    /// Longest tail that does not fold over.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) tail_greatest: Option<GivenLength<'a>>,
    /// Tail of the rule of thumb.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "GivenLength<'static>"))]
    pub(crate) rule_of_thumb_tail: Option<GivenLength<'a>>,
}
