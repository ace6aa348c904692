//! What the laws share.

use proptest::prelude::ProptestConfig;
use shophead::length::Length;

/// No file of failed seeds is kept: a failure that was met becomes a test of its own.
pub(crate) fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::default() }
}

/// For the laws that the product stands on: a hundred thousand cases, unless the environment asks for another number.
pub(crate) fn many() -> ProptestConfig {
    let asked = std::env::var_os("PROPTEST_CASES").is_some();
    let config = config();
    ProptestConfig { cases: if asked { config.cases } else { 100_000 }, ..config }
}

/// A length in nanometres that is known to be in range.
pub(crate) fn nm(nanometres: i64) -> Length {
    Length::from_nanometres(nanometres).expect("in range")
}
