//! What most tests of the core begin with: a text made into what it says.

use crate::length::Length;
use crate::quantity::Force;

/// `.125`, `1/8`, `3.2mm`.
pub(crate) fn length(text: &str) -> Length {
    Length::parse(text).expect(text)
}

/// Pounds.
pub(crate) fn lbf(value: f64) -> Force {
    Force::from_lbf(value)
}
