//! Every figure of every fixture is compared with something: a changed one fails a test.
//!
//! The suite runs itself once for each figure that is changed in memory ([`CHANGE`]), with the tests that read its fixture
//! ([`TRACE`]). A figure that can be changed without a test noticing proves nothing: it is compared, or it goes.

use std::collections::{BTreeMap, BTreeSet};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::{env, fs, thread};

use shophead_tests::{CHANGE, TRACE, cells, fixtures};

/// Columns that say what a row is about and where it comes from, what its figure is in, and how near is near enough.
const ABOUT: &[&str] =
    &["subject", "condition", "source", "status", "note", "derivation", "paragraph", "section", "unit", "tolerance"];

/// This suite again, with some of its tests.
fn suite(tests: &BTreeSet<String>) -> Command {
    let mut command = Command::new(env::current_exe().expect("a path"));
    command.args(["--exact", "-q"]).args(tests).stdout(Stdio::null()).stderr(Stdio::null());
    command
}

/// Which tests read which fixture.
fn readers() -> BTreeMap<String, BTreeSet<String>> {
    let trace = tempfile::NamedTempFile::new().expect("a file");
    let mut command = Command::new(env::current_exe().expect("a path"));
    // Two threads and more are named after the tests that they run.
    command.args(["-q", "--skip", "cells::", "--test-threads", "2"]).env(TRACE, trace.path());
    let status = command.stdout(Stdio::null()).status().expect("the suite runs");
    assert!(status.success(), "the suite passes while nothing is changed");
    let mut readers: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for line in fs::read_to_string(trace.path()).expect("a trace").lines() {
        let (fixture, test) = line.split_once(' ').expect("two words");
        readers.entry(fixture.to_owned()).or_default().insert(test.to_owned());
    }
    readers
}

/// Another figure in the place of this one, half as large again: no tolerance is as wide. `None` for what is no figure.
fn changed(cell: &str) -> Option<String> {
    if let Some((first, rest)) = cell.split_once('|') {
        return Some(format!("{}|{rest}", changed(first)?));
    }
    if let Some((top, bottom)) = cell.split_once('/') {
        // 1/8, 1-1/2
        let digits = top.len() - top.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        let (whole, top) = top.split_at(top.len() - digits);
        let (top, _) = (top.parse::<u32>().ok()?, bottom.parse::<u32>().ok()?);
        return whole.chars().all(|c| c.is_ascii_digit() || c == '-').then(|| format!("{whole}{}/{bottom}", top + 1));
    }
    let number: f64 = cell.parse().ok()?;
    Some(match number {
        0.0 => "1".to_owned(),
        whole if whole.fract() == 0.0 && !cell.contains(['.', 'e']) => {
            format!("{}", whole + (whole.abs() / 2.0).ceil())
        }
        other => format!("{}", other * 1.5),
    })
}

/// The figures that can be changed without a test noticing, as `FIXTURE.csv:LINE COLUMN VALUE`. `is_asked` is told whether a figure is
/// the first of its column.
fn unnoticed(is_asked: impl Fn(bool) -> bool) -> Vec<String> {
    let readers = readers();
    let mut asked = Vec::new();
    for fixture in fixtures() {
        let tests = readers.get(&fixture).unwrap_or_else(|| panic!("no test reads {fixture}"));
        let mut seen = BTreeSet::new();
        for (line, column, cell) in cells(&fixture) {
            let Some(other) = changed(&cell).filter(|_| !ABOUT.contains(&&*column)) else { continue };
            if is_asked(!seen.contains(&column)) {
                asked.push((
                    format!("{fixture}.csv:{line} {column} {cell}"),
                    format!("{fixture} {line} {column} {other}"),
                    tests,
                ));
            }
            seen.insert(column);
        }
    }
    assert!(asked.len() > 80, "only {} figures are asked about", asked.len());
    let next = AtomicUsize::new(0);
    let mut found = thread::scope(|scope| {
        let workers: Vec<_> = (0..thread::available_parallelism().map_or(1, usize::from))
            .map(|_| {
                scope.spawn(|| {
                    let mut found = Vec::new();
                    while let Some((cell, change, tests)) = asked.get(next.fetch_add(1, Ordering::Relaxed)) {
                        if suite(tests).env(CHANGE, change).status().expect("the suite runs").success() {
                            found.push(cell.clone());
                        }
                    }
                    found
                })
            })
            .collect();
        workers.into_iter().flat_map(|worker| worker.join().expect("a worker")).collect::<Vec<_>>()
    });
    found.sort();
    found
}

#[test]
fn the_first_figure_of_every_column_is_compared() {
    let found = unnoticed(|is_first| is_first);
    assert!(found.is_empty(), "{} figures:\n{}", found.len(), found.join("\n"));
}

#[test]
#[ignore = "runs the suite some thousand times: a minute or two"]
fn no_figure_of_a_fixture_can_be_changed_unnoticed() {
    let found = unnoticed(|_| true);
    assert!(found.is_empty(), "{} figures:\n{}", found.len(), found.join("\n"));
}
