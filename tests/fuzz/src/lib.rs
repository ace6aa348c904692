//! What each target does with its bytes, and what has to hold: nothing panics or overflows, what is printed reads back as the same,
//! what is told has a place and steers no terminal, and whatever reads without a mistake is planned, drawn and ordered. Readers that
//! need no job stand in `targets` by themselves: their programs are smaller, and so faster.

mod said;

use std::io;
use std::path::Path;
use std::sync::LazyLock;

use shophead::length::Bare;
use shophead::rivet::MS20470;
use shophead::words::Units;
use shophead_job::card::{Card, card};
use shophead_job::diagnostic::is_unseen;
use shophead_job::drawing;
use shophead_job::inspect::Inspection;
use shophead_job::labels;
use shophead_job::model::{Job, OwnLimits};
use shophead_job::order::{alternatives, order, order_again};
use shophead_job::plan::Plan;
use shophead_job::read::{self, ReadError};
use shophead_job::tools::tools;
use shophead_job::work::work;

use crate::said::said;

const JOB: &str = include_str!("../../../crates/job/demo/marsh-float/job.toml");
const HOLES: &str = include_str!("../../../crates/job/demo/marsh-float/holes.csv");
const TRIM: &str = include_str!("../../../crates/job/demo/marsh-float/trim.csv");
/// More would only be slower.
const LONGEST: usize = 64 * 1024;

fn told<T>(read: Result<T, ReadError>) -> Option<T> {
    match read {
        Ok(read) => Some(read),
        Err(ReadError::Content(mistakes)) => {
            assert!(!mistakes.is_empty() && mistakes.len() <= read::MAX_MISTAKES);
            for mistake in &mistakes {
                let line = mistake.one_line();
                assert!(!line.chars().any(is_unseen), "{line:?}");
                let shown = mistake.render(false);
                assert!(!shown.chars().any(|c| is_unseen(c) && c != '\n'), "{shown:?}");
            }
            None
        }
        Err(ReadError::Io { .. }) => None,
    }
}

fn beside(path: &Path) -> io::Result<Vec<u8>> {
    match path.to_str() {
        Some("holes.csv") => Ok(HOLES.into()),
        Some("trim.csv") => Ok(TRIM.into()),
        _ => Err(io::ErrorKind::NotFound.into()),
    }
}

/// Everything that is made of a job.
fn made(job: &Job) {
    // What takes long with many holes is measured in benches/.
    if job.rows.iter().map(|row| u64::from(row.count)).sum::<u64>() > 2_000 {
        return;
    }
    let (limits, documents) = job.own_limits.lists();
    let practice = job.practice.with_own(&limits, &documents).with_entered(&job.own_limits.entered);
    let plan = Plan::make(job, &practice);
    for (_, finding) in plan.all_findings() {
        said(finding, is_unseen);
    }
    drawn(&plan, None, &[]);
}

/// Everything that is made of a plan.
fn drawn(plan: &Plan, driven: Option<&read::DrivenFile>, shelf: &[shophead_job::order::Stock]) {
    let job = plan.job;
    let inspection = driven.map(|driven| Inspection::make(plan, driven));
    let again = inspection.as_ref().map(Inspection::replacements).unwrap_or_default();
    let lines = if again.is_empty() {
        order(plan, job.spares_percent, Some(shelf))
    } else {
        order_again(plan, &again, job.spares_percent, Some(shelf))
    };
    let others = alternatives(plan, &lines, shelf);
    for units in [Units::Inches, Units::Millimetres] {
        let html = card(&Card {
            plan: plan,
            order: &lines,
            alternatives: &others,
            inspection: inspection.as_ref(),
            tools: &tools(plan),
            own_limits: &job.own_limits.title,
            units,
        });
        assert!(!html.contains("<script") && html.trim_end().ends_with("</html>"));
        assert!(drawing::map(plan, units).contains("</svg>"));
        let _ = work(plan, units);
    }
    let _ = labels::sheet(plan, &lines);
}

fn file(bytes: &[u8]) -> Option<Vec<u8>> {
    (bytes.len() <= LONGEST).then(|| bytes.to_vec())
}

/// A job file beside the demo's holes and marks.
pub fn job(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if let Some(job) = told(Job::read_from(text, Path::new("job.toml"), &beside)) {
        made(&job);
    }
}

/// A file beside the demo's job, named in it under a key.
fn with_named(key: &str, replaced: &str, bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    let job = match replaced {
        "" => format!("{key} = \"named\"\n{JOB}"),
        replaced => JOB.replace(replaced, &format!("{key} = \"named\"")),
    };
    let files = |path: &Path| if path == Path::new("named") { Ok(text.clone()) } else { beside(path) };
    if let Some(job) = told(Job::read_from(job.into(), Path::new("job.toml"), &files)) {
        made(&job);
    }
}

/// A limits file, alone and in the job.
pub fn limits(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if told(OwnLimits::read_from(text, Path::new("limits.toml"))).is_some() {
        with_named("limits", "", bytes);
    }
}

/// A job whose rows stand in a spreadsheet's file.
pub fn rows(bytes: &[u8]) {
    const BEFORE_ROWS: &str = "title = \"a\"\nrows = \"rows.csv\"\n[materials]\nskin = \"clad 2024-T3\"\n";
    let Some(text) = file(bytes) else { return };
    let files = |path: &Path| if path == Path::new("rows.csv") { Ok(text.clone()) } else { beside(path) };
    if let Some(job) = told(Job::read_from(BEFORE_ROWS.into(), Path::new("job.toml"), &files)) {
        made(&job);
    }
}

/// A survey.
pub fn holes(bytes: &[u8]) {
    with_named("holes", "holes = \"holes.csv\"", bytes);
}

/// Answers to referrals.
pub fn answers(bytes: &[u8]) {
    with_named("answers", "", bytes);
}

/// The marks that a panel is cut by.
pub fn trim(bytes: &[u8]) {
    with_named("stations", "stations = \"trim.csv\"", bytes);
}

static DEMO: LazyLock<Job> =
    LazyLock::new(|| Job::read_from(JOB.into(), Path::new("job.toml"), &beside).expect("the demo reads"));
static PLAN: LazyLock<Plan> = LazyLock::new(|| Plan::make(&DEMO, DEMO.practice));

/// Driven rivets.
pub fn driven(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if let Some(driven) = told(read::read_driven_from(text, Path::new("driven.csv"), &DEMO)) {
        drawn(&PLAN, Some(&driven), &[]);
    }
}

/// A shelf.
pub fn stock(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    if let Some(shelf) = told(read::read_stock_from(text, Path::new("stock.csv"), &[])) {
        drawn(&PLAN, None, &shelf.stock);
    }
}

/// Rivets of a group, and seams to be copied.
pub fn points(bytes: &[u8]) {
    let Some(text) = file(bytes) else { return };
    for bare in [Bare::Inches, Bare::Millimetres] {
        told(read::read_group_from(text.clone(), Path::new("points.csv"), &MS20470, bare));
        told(read::read_seams_from(text.clone(), Path::new("seams.csv"), bare, &[]));
    }
}

