//! Colours, closed pipes, full disks.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

use crate::{shophead, shophead_with};

#[test]
fn colours_are_for_terminals_and_for_whoever_forces_them() {
    let typed = "splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4 --rows 2";
    let plain = shophead(typed);
    assert!(!plain.stdout.contains('\u{1b}'), "{plain}");
    let forced = shophead_with(typed, |command| command.env("CLICOLOR_FORCE", "1"));
    assert!(forced.stdout.contains("\u{1b}[1m") && forced.stdout.contains("\u{1b}[31m"), "{forced}");
    let without = shophead_with(typed, |command| command.env("CLICOLOR_FORCE", "1").env("NO_COLOR", "1"));
    assert_eq!(without.stdout, plain.stdout);
    // What scripts read has no colours whatever is forced.
    for format in ["json", "csv"] {
        let typed = format!("{typed} --format {format}");
        let forced = shophead_with(&typed, |command| command.env("CLICOLOR_FORCE", "1"));
        assert!(!forced.stdout.contains('\u{1b}'), "{forced}");
    }
}

#[test]
fn what_was_typed_cannot_colour_the_complaint() {
    let run = shophead("part \u{1b}[31mred");
    assert!(!run.refused().contains('\u{1b}'), "{run}");
}

/// As `shophead sources --format json | head -1`: more than a pipe holds.
#[test]
fn a_reader_that_has_seen_enough_ends_it_quietly() {
    let mut child = Command::new(assert_cmd::cargo::cargo_bin!("shophead"))
        .args(["sources", "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the binary runs");
    let mut first = String::new();
    BufReader::new(child.stdout.take().expect("piped")).read_line(&mut first).expect("a line");
    assert_eq!(first, "{\n");
    let output = child.wait_with_output().expect("it ends");
    assert_eq!((output.status.code(), String::from_utf8_lossy(&output.stderr).as_ref()), (Some(0), ""));
}

#[test]
#[cfg(target_os = "linux")]
fn an_answer_that_cannot_be_written_is_a_failure() {
    let full = std::fs::File::options().write(true).open("/dev/full").expect("the device that is always full");
    for format in ["text", "json", "csv"] {
        let output = Command::new(assert_cmd::cargo::cargo_bin!("shophead"))
            .args(["part", "MS20470AD4-5", "--format", format])
            .stdout(full.try_clone().expect("a second handle"))
            .output()
            .expect("the binary runs");
        assert_eq!(output.status.code(), Some(3), "{format}");
        let told = String::from_utf8_lossy(&output.stderr);
        assert!(told.starts_with("error: the answer could not be written: "), "{told}");
    }
}
