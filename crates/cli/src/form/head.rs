//! The answer of `shophead head`.

use serde::Serialize;

use super::{GivenLength, Interval, Length, Toleranced, Window, Within};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The rivet without its length.
    pub(crate) rivet: String,
    /// Limits of its diameter; null where the practice has none.
    pub(crate) diameter: HeadLimits<'a>,
    /// Limits of its height; null where the practice has none.
    pub(crate) height: HeadLimits<'a>,
    /// Whether the measured head is sound; null where none was measured.
    pub(crate) accepted: Option<bool>,
    /// The head that a rivet of a given length makes; not there where none was asked for or the dimensions are not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, schemars(with = "Predicted"))]
    pub(crate) predicted: Option<Predicted>,
}

/// Limits of a driven head.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HeadLimits<'a> {
    /// The least.
    pub(crate) min: Option<GivenLength<'a>>,
    /// The one to aim at.
    pub(crate) nominal: Option<GivenLength<'a>>,
    /// The greatest.
    pub(crate) max: Option<GivenLength<'a>>,
}

/// The head that a rivet makes.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Predicted {
    /// Length of the rivet.
    pub(crate) length: Length,
    /// Thickness of the pack.
    pub(crate) grip: Toleranced,
    /// The hole.
    pub(crate) hole: Interval,
    /// Width of the head at the ends of all tolerances.
    pub(crate) diameter: Toleranced,
    /// The height that it is driven to.
    pub(crate) height: Length,
    /// What to drive the head to; null where no height is right for every such rivet.
    pub(crate) window: Option<Window>,
    /// The hole or the shank within which there would be such a height, where there is none; either alone is enough.
    pub(crate) within: Option<Within>,
}
