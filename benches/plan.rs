//! Reading and planning the demo job: some 500 holes.
//!
//! `cargo bench --bench plan`

use std::path::Path;

use divan::{Bencher, black_box};
use shophead_job::model::Job;
use shophead_job::order::order;
use shophead_job::plan::Plan;

fn main() {
    divan::main();
}

fn demo() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../crates/job/demo/keel-skin/job.toml"))
}

#[divan::bench]
fn read(bencher: Bencher) {
    bencher.bench(|| Job::read(black_box(demo())).expect("the demo job reads"));
}

#[divan::bench]
fn plan_and_order(bencher: Bencher) {
    let job = Job::read(demo()).expect("the demo job reads");
    let (own, documents) = job.own_limits.lists();
    let practice = job.practice.with_own(&own, &documents);
    bencher.bench(|| {
        let plan = Plan::make(black_box(&job), &practice);
        assert!(plan.counts().holes >= 400);
        order(&plan, job.spares_percent, None).len()
    });
}
