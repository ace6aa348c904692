//! The answer of `shophead part`.

use serde::Serialize;

use super::{Basis, Head, Interval, Length, Mass};

/// The answer: for one part number that part, for more a list. A number that cannot be read is reported on the error stream, with exit status 2.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(untagged)]
pub(crate) enum Answer<'a> {
    One(Box<Part<'a>>),
    /// Several part numbers.
    Several {
        /// Those that could be read, in the order of the command line.
        parts: Vec<Part<'a>>,
    },
}

/// One part number.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Part<'a> {
    /// As it was written.
    pub(crate) written: String,
    /// The part number.
    pub(crate) part: String,
    /// The part number in words.
    pub(crate) words: String,
    /// The part standard.
    pub(crate) series: &'a str,
    /// The manufactured head.
    pub(crate) head: Head,
    /// The alloy and temper.
    pub(crate) alloy: String,
    /// The letters for it; may be empty.
    pub(crate) alloy_letters: &'a str,
    /// The finish, where the number says one.
    pub(crate) finish: Option<&'a str>,
    /// Diameter of the shank.
    pub(crate) diameter: Length,
    /// The length; null for a number without one.
    pub(crate) length: Option<Length>,
    /// The shank at the ends of its tolerance.
    pub(crate) shank: Option<Interval>,
    /// The manufactured head.
    pub(crate) head_size: Option<HeadSize>,
    /// The mark on the head.
    pub(crate) head_mark: Option<&'a str>,
    /// The mass of one; null where it is not known.
    pub(crate) mass: Option<Mass>,
    /// What should be said about the number, in sentences.
    pub(crate) warnings: Vec<String>,
    /// Source of the series.
    pub(crate) basis: Basis<'a>,
    /// Source of the dimensions.
    pub(crate) size_basis: Basis<'a>,
}

/// The size of a manufactured head.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HeadSize {
    /// Its diameter.
    pub(crate) diameter: Length,
    /// Its height.
    pub(crate) height: Length,
}
