//! What the laws share.

use proptest::prelude::ProptestConfig;

/// As many cases as `PROPTEST_CASES` asks for, few where it is not set. No file of failed seeds is kept: a failure that was met becomes a test of its own.
///
/// Proptest gives up after so many rejected cases in all, however many are asked for: a law that leaves out one case in two would end with two
/// thousand.
pub(crate) fn config() -> ProptestConfig {
    let default = ProptestConfig::default();
    let rejects = default.cases.saturating_mul(16);
    let (max_global_rejects, max_local_rejects) =
        (default.max_global_rejects.max(rejects), default.max_local_rejects.max(rejects));
    ProptestConfig { failure_persistence: None, max_global_rejects, max_local_rejects, ..default }
}
