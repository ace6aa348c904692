//! What this crate's own tests share.

use std::path::Path;

use crate::model::Job;

/// A demo job by the name of its folder.
pub(crate) fn demo(name: &str) -> Job {
    Job::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("demo/{name}/job.toml"))).expect("the demo reads")
}
