//! What the laws share.

use proptest::prelude::ProptestConfig;

/// As many cases as `PROPTEST_CASES` asks for, few where it is not set. No file of failed seeds is kept: a failure that was met becomes a test of its own.
pub(crate) fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::default() }
}
