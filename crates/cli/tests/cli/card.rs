//! `card`, `map` and `template`: what they write, where, and what they say about it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use crate::{Run, shophead};

fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../job/demo/{name}"))
}

/// Runs the binary with words as they are, in a folder.
fn run_in(folder: &Path, words: &[&str]) -> Run {
    let mut command = assert_cmd::Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
    let Output { status, stdout, stderr } = command.current_dir(folder).args(words).output().expect("the binary runs");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    Run { typed: words.join(" "), status: status.code(), stdout: text(stdout), stderr: text(stderr) }
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> =
        entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

pub(crate) const SOUND: &str = r#"
title = "Bracket"
[[row]]
name = "B1"
structure = "secondary"
member = "other"
installed = "MS20470AD3-4"
layers = [{ role = "rib-flange", thickness = ".040" }, { role = "tab", thickness = ".032" }]
count = 12
pitch = "1/2"
edge = "1/4"
[[edge]]
name = "lower edge"
points = [["0", "0"], ["6", "0"]]
"#;

#[test]
fn a_file_is_written_and_nothing_is_printed() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = demo("keel-skin").join("job.toml");
    let job = job.to_str().expect("a path of text");
    for (command, file, begin) in [("card", "card.html", "<!DOCTYPE html>"), ("map", "map.svg", "<svg xmlns=")] {
        // These have one form: a script that gives every command the same options goes on.
        for format in ["text", "json", "csv"] {
            let run = run_in(folder.path(), &[command, job, "-o", file, "--format", format]);
            // Holes of the demo must be referred: the file is there all the same.
            assert_eq!(run.printed(1), "", "{run}");
        }
        let text = fs::read_to_string(folder.path().join(file)).expect("written");
        assert!(
            text.starts_with(begin) && text.trim_end().ends_with(&format!("</{}>", &begin_name(begin))),
            "{command}"
        );
        assert_eq!(
            run_in(folder.path(), &[command, job, "--output", "-"]).printed(1),
            text,
            "the same on the standard output"
        );
    }
    assert_eq!(names(folder.path()), ["card.html", "map.svg"], "nothing is left beside them");
}

fn begin_name(begin: &str) -> &'static str {
    if begin.starts_with("<svg") { "svg" } else { "html" }
}

#[test]
fn where_nothing_is_referred_the_status_is_0() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("job.toml"), SOUND).expect("written");
    for command in ["card", "map", "template"] {
        assert_eq!(run_in(folder.path(), &[command, "job.toml", "-o", "out"]).printed(0), "");
    }
}

#[test]
fn units_limits_and_stock_go_into_the_card() {
    let folder = tempfile::tempdir().expect("a folder");
    let (job, stock) = (demo("keel-skin").join("job.toml"), demo("keel-skin").join("stock.csv"));
    let words = [
        "card",
        job.to_str().expect("a path of text"),
        "-o",
        "-",
        "--units",
        "mm",
        "--stock",
        stock.to_str().expect("a path of text"),
        "--spares",
        "50",
    ];
    let run = run_in(folder.path(), &words);
    let html = run.printed(1);
    assert!(html.contains("<td class=\"number\">140</td>"), "half of 280 more: {run}");
    assert!(html.contains("on the shelf") && html.contains("with Boat shed limits"), "{run}");
    assert!(html.contains("drive the head to") && !html.contains(" in long"), "{run}");
}

#[test]
fn what_cannot_be_written_is_a_failure_and_leaves_the_old_file() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("job.toml"), SOUND).expect("written");
    fs::create_dir(folder.path().join("taken")).expect("made");
    fs::write(folder.path().join("taken/inside"), "x").expect("written");
    for command in ["card", "map", "template"] {
        for file in ["missing/out", "taken"] {
            let run = run_in(folder.path(), &[command, "job.toml", "-o", file]);
            assert_eq!((run.status, run.stdout.as_str()), (Some(3), ""), "{run}");
            assert!(run.stderr.starts_with(&format!("error: cannot write {file}: ")), "{run}");
        }
    }
    assert_eq!(names(folder.path()), ["job.toml", "taken"]);
}

#[test]
fn the_job_file_is_not_written_over() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("job.toml"), SOUND).expect("written");
    for command in ["card", "map", "template"] {
        let run = run_in(folder.path(), &[command, "job.toml", "-o", "./job.toml"]);
        assert_eq!(run.refused(), "error: --output ./job.toml is a file that is read here; name another file\n");
    }
    assert_eq!(fs::read_to_string(folder.path().join("job.toml")).expect("there"), SOUND);
    fs::write(folder.path().join("holes.csv"), "row,hole,major\n").expect("written");
    let run = run_in(folder.path(), &["map", "job.toml", "-o", "holes.csv"]);
    assert!(run.refused().contains("the ending of an input file"), "{run}");
    assert_eq!(fs::read_to_string(folder.path().join("holes.csv")).expect("there"), "row,hole,major\n");
}

#[test]
fn a_mistake_in_the_job_leaves_the_old_card() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("job.toml"), SOUND.replace("secondary", "tertiary")).expect("written");
    fs::write(folder.path().join("card.html"), "old").expect("written");
    let run = run_in(folder.path(), &["card", "job.toml", "-o", "card.html"]);
    assert!(run.refused().contains("tertiary"), "{run}");
    assert_eq!(fs::read_to_string(folder.path().join("card.html")).expect("there"), "old");
}

#[cfg(unix)]
#[test]
fn a_device_is_written_to_and_not_replaced() {
    use std::os::unix::fs::FileTypeExt;
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("job.toml"), SOUND).expect("written");
    let pipe = folder.path().join("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    if !made.is_ok_and(|status| status.success()) {
        return;
    }
    let reader = std::thread::spawn({
        let pipe = pipe.clone();
        move || fs::read_to_string(pipe).expect("something to read")
    });
    assert_eq!(run_in(folder.path(), &["map", "job.toml", "-o", "pipe"]).printed(0), "");
    assert!(reader.join().expect("read").starts_with("<svg "));
    assert!(fs::metadata(&pipe).expect("there").file_type().is_fifo());
}

#[test]
fn help_says_what_the_exit_status_means() {
    for command in ["card", "map", "template"] {
        let run = shophead(&format!("{command} --help"));
        assert!(run.printed(0).contains("exit status is 1 when something in the job has to be referred"), "{run}");
        assert_eq!(shophead(command).status, Some(2));
    }
}
