//! The answer of `shophead hole`.

use serde::Serialize;

use super::{Disposition, HoleStep, Interval, Length};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// What becomes of the hole.
    pub(crate) disposition: Disposition,
    /// The rivet that goes in, without its length; null where the hole is referred.
    pub(crate) rivet: Option<String>,
    /// The drill or reamer that the hole is opened with; null where nothing is cut.
    pub(crate) drill: Option<String>,
    /// The diameter of that drill.
    pub(crate) drill_diameter: Option<Length>,
    /// The hole in the end.
    pub(crate) hole: Option<Interval>,
    /// What the hole was opened to before it was measured; null where it is as it came out.
    pub(crate) opened: Option<Length>,
    /// Each step that was tried, from the least change, and why not.
    pub(crate) steps: Vec<HoleStep<'a>>,
}
