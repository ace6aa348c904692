//! The answer of `shophead sources`.

use serde::Serialize;

use super::Basis;

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// How many there are of each status.
    pub(crate) counts: Counts,
    /// The figures.
    pub(crate) sources: Vec<Source<'a>>,
    /// What is promised; only where that was asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) promises: Vec<Promise>,
    /// What the figures leave out; only where the promises were asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) left_out: Vec<&'static str>,
}

/// Something that holds, and what shows it.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Promise {
    /// What it belongs to.
    pub(crate) group: &'static str,
    /// What holds.
    pub(crate) promise: String,
    /// The test or the command.
    pub(crate) shown_by: String,
    /// What that last showed; may be empty.
    pub(crate) last_figure: String,
}

/// How many figures there are of each status.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Counts {
    /// How many are the shop's own.
    pub(crate) shop: usize,
    /// How many were read in the document.
    pub(crate) published: usize,
    /// How many are rules of thumb.
    pub(crate) practice: usize,
    /// How many were recalled.
    pub(crate) memory: usize,
}

/// One figure.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Source<'a> {
    /// What it belongs to.
    pub(crate) group: &'static str,
    /// What it is.
    pub(crate) what: String,
    /// The figure, in the units asked for; for people.
    pub(crate) value: String,
    #[serde(flatten, serialize_with = "super::bases::fields")]
    pub(crate) from: Basis<'a>,
}
