//! What the laws share.

use proptest::prelude::ProptestConfig;
use shophead::length::Length;

/// As many cases as `PROPTEST_CASES` asks for, few where it is not set. No file of failed seeds is kept: a failure that was met becomes a test of its own.
pub(crate) fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::default() }
}

/// A length in nanometres that is known to be in range.
pub(crate) fn nm(nanometres: i64) -> Length {
    Length::from_nanometres(nanometres).expect("in range")
}
