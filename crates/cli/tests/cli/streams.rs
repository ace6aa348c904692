//! Colours, closed pipes, full disks.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

use crate::{EXAMPLES, shophead, shophead_with};

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

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

/// Runs it until its first bytes are read, then leaves: as before `| head -1`. The status and what was told.
fn left_early(typed: &str) -> (Option<i32>, String) {
    let mut child = Command::new(assert_cmd::cargo::cargo_bin!("shophead"))
        .args(typed.split_whitespace().map(|word| word.replace('_', " ")))
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the binary runs");
    let mut first = String::new();
    BufReader::new(child.stdout.take().expect("piped")).read_line(&mut first).expect("a line");
    assert!(!first.is_empty(), "{typed}");
    let output = child.wait_with_output().expect("it ends");
    (output.status.code(), String::from_utf8(output.stderr).expect("UTF-8"))
}

/// Whether the reader leaves before, while or after the rest is written is chance: the status is not.
#[test]
fn a_reader_that_has_seen_enough_changes_no_status() {
    for (typed, status) in [
        ("sources --format json".to_owned(), 0),
        ("--help".to_owned(), 0),
        ("schema plan".to_owned(), 0),
        ("man".to_owned(), 0),
        ("completions bash".to_owned(), 0),
        ("part MS20470AD4-5".to_owned(), 0),
        (format!("plan {DEMO}/job.toml"), 1),
        (format!("plan {DEMO}/job.toml --format json"), 1),
        (format!("plan {DEMO}/job.toml --format csv"), 1),
        (format!("order {DEMO}/job.toml"), 1),
        (format!("inspect {DEMO}/job.toml {DEMO}/driven.csv --format json"), 1),
        (format!("card {DEMO}/job.toml -o -"), 1),
        (format!("map {DEMO}/job.toml --output -"), 1),
        (format!("template {DEMO}/job.toml --output -"), 1),
        ("splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4 --rows 2 --member lap".to_owned(), 1),
    ] {
        for _ in 0..5 {
            assert_eq!(left_early(&typed), (Some(status), String::new()), "{typed}");
        }
    }
}

/// One run a command that answers on the standard output.
fn that_answer() -> Vec<String> {
    let mut all: Vec<String> = EXAMPLES.iter().map(|(typed, _)| (*typed).to_owned()).collect();
    all.extend([
        format!("plan {DEMO}/job.toml"),
        format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv"),
        format!("inspect {DEMO}/job.toml {DEMO}/driven.csv"),
        format!("card {DEMO}/job.toml -o -"),
        format!("map {DEMO}/job.toml -o -"),
        format!("template {DEMO}/job.toml -o -"),
        "batch length /dev/stdin".to_owned(),
        "handheld".to_owned(),
        format!("survey {DEMO}/job.toml holes.csv"),
        "new panel --ask".to_owned(),
        "schema".to_owned(),
        "man".to_owned(),
        "completions bash".to_owned(),
        "--help".to_owned(),
        "--version".to_owned(),
        "plan --help".to_owned(),
        "help plan".to_owned(),
    ]);
    all
}

/// Runs a command under a shell that does something with its output: status, output, error stream.
#[cfg(target_os = "linux")]
fn under_shell(typed: &str, output: &str) -> (Option<i32>, String) {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let words: Vec<String> = typed.split_whitespace().map(|word| word.replace('_', " ")).collect();
    let run = Command::new("sh")
        .args(["-c", &format!("exec \"$@\" {output}"), "sh"])
        .arg(assert_cmd::cargo::cargo_bin!("shophead"))
        .args(words)
        .current_dir(folder.path())
        .stdin(Stdio::null())
        .stderr(Stdio::piped())
        .output()
        .expect("a shell");
    (run.status.code(), String::from_utf8(run.stderr).expect("UTF-8"))
}

#[test]
#[cfg(target_os = "linux")]
fn an_output_that_is_closed_from_the_start_or_full_is_a_failure() {
    for typed in that_answer() {
        let typed = typed.replace("/dev/stdin", "/dev/null --header layers,diameter");
        // A batch of no rows without a header line answers nothing.
        let answers = !typed.starts_with("batch");
        let (status, told) = under_shell(&typed, ">&-");
        assert_eq!(
            (status, told.as_str()),
            (Some(3), "error: the answer could not be written: the output is closed\n"),
            "{typed}"
        );
        let (status, told) = under_shell(&typed, ">/dev/full");
        if answers {
            assert_eq!(status, Some(3), "{typed}");
            assert!(told.starts_with("error: the answer could not be written: No space"), "{typed}: {told}");
        }
        // Nobody wants it, which is another thing. Some programs open the null device for reading as well.
        for nobody in [">/dev/null", "1<>/dev/null"] {
            let (status, told) = under_shell(&typed, nobody);
            let ended = match status {
                // Nobody answers the questions either, so there is nothing to begin a job with.
                Some(2) => typed.starts_with("new"),
                status => matches!(status, Some(0 | 1)) && told.is_empty(),
            };
            assert!(ended, "{typed}: {status:?} {told}");
        }
    }
}

#[test]
fn every_answer_can_be_written_to_a_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let run = |typed: &str| shophead_with(typed, |command| command.current_dir(folder.path()).write_stdin(""));
    for typed in that_answer() {
        let is_talk = ["handheld", "survey", "new", "batch", "help", "--version", "--help"]
            .iter()
            .any(|word| typed.starts_with(word));
        if is_talk || typed.ends_with("--help") {
            continue;
        }
        let (typed, plain) = (typed.replace(" -o -", ""), typed);
        for format in ["", " --format json", " --format csv"] {
            let forms = ["schema", "man", "completions", "card", "map", "template"];
            if !format.is_empty() && forms.iter().any(|command| typed.starts_with(command)) {
                continue;
            }
            let printed = run(&format!("{plain}{format}"));
            std::fs::write(folder.path().join("answer.txt"), "an older and longer one\n".repeat(2_000))
                .expect("written");
            let file = if format.ends_with("csv") { "answer.csv" } else { "answer.txt" };
            let written = run(&format!("{typed}{format} --output {file}"));
            assert_eq!((written.status, written.stdout.as_str()), (printed.status, ""), "{written}");
            let kept = std::fs::read_to_string(folder.path().join(file)).expect("there");
            assert_eq!(kept, printed.stdout, "{typed}");
        }
    }
    // A colour that is forced is for the screen.
    let forced = shophead_with("part MS20470AD4-5 -o a.txt", |command| {
        command.current_dir(folder.path()).env("CLICOLOR_FORCE", "1")
    });
    assert_eq!(forced.printed(0), "");
    assert!(!std::fs::read_to_string(folder.path().join("a.txt")).expect("there").contains('\u{1b}'));
    for (typed, told) in [
        ("handheld -o a.txt".to_owned(), "handheld is a conversation"),
        (format!("survey {DEMO}/job.toml holes.csv --output a.txt"), "survey talks in text only"),
        (format!("plan {DEMO}/job.toml -o {DEMO}/holes.csv --format csv"), "is a file that is read here"),
        (
            format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv -o {DEMO}/stock.csv --format csv"),
            "is a file that is read here",
        ),
        ("part MS20470AD4-5 -o job.toml".to_owned(), "has the ending of an input file"),
        ("part MS20470AD4-5 -o holes.csv".to_owned(), "has the ending of an input file"),
    ] {
        let refused = run(&typed);
        assert!(refused.refused().contains(told), "{refused}");
    }
    assert!(!folder.path().join("holes.csv").exists());
    let failed = run("part MS20470AD4-5 -o nowhere/a.txt");
    assert_eq!((failed.status, failed.stdout.as_str()), (Some(3), ""), "{failed}");
}

/// `-` is the standard input wherever a file is read; it is one file.
#[test]
fn every_input_can_come_from_the_standard_input() {
    let group = "--load 100,0 --at 0,0 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040";
    let limits = "length --layers .05,.05 --diameter 1/8";
    let folder = tempfile::tempdir().expect("a folder");
    for entry in std::fs::read_dir(DEMO).expect("the demo") {
        let entry = entry.expect("an entry");
        std::fs::copy(entry.path(), folder.path().join(entry.file_name())).expect("copied");
    }
    std::fs::write(folder.path().join("points.csv"), "x,y\n0,0\n1,0\n").expect("written");
    let run = |typed: &str, input: Vec<u8>| {
        shophead_with(typed, |command| command.current_dir(folder.path()).write_stdin(input))
    };
    for (typed, file) in [
        ("plan FILE".to_owned(), "job.toml"),
        ("order FILE --stock stock.csv".to_owned(), "job.toml"),
        ("order job.toml --stock FILE".to_owned(), "stock.csv"),
        ("card FILE -o -".to_owned(), "job.toml"),
        ("card job.toml -o - --stock FILE".to_owned(), "stock.csv"),
        ("map FILE -o -".to_owned(), "job.toml"),
        ("inspect FILE driven.csv".to_owned(), "job.toml"),
        ("inspect job.toml FILE".to_owned(), "driven.csv"),
        (format!("group FILE {group}"), "points.csv"),
        (format!("{limits} --limits FILE"), "shop-limits.toml"),
    ] {
        let by_name = run(&typed.replace("FILE", file), Vec::new());
        let bytes = std::fs::read(folder.path().join(file)).expect("there");
        let piped = run(&typed.replace("FILE", "-"), bytes);
        assert_eq!((piped.status, &piped.stdout), (by_name.status, &by_name.stdout), "{piped}");
        assert!(matches!(piped.status, Some(0 | 1)) && piped.stderr.is_empty(), "{piped}");
        let wrong = run(&typed.replace("FILE", "-"), b"\"".to_vec());
        assert!(wrong.refused().contains("standard input:1:"), "{wrong}");
    }
    for typed in ["order - --stock -", "plan - --limits -", "inspect - -", "batch length --limits -"] {
        let refused = run(typed, std::fs::read(folder.path().join("job.toml")).expect("there"));
        let told = refused.refused();
        assert!(told.contains("- cannot be ") && told.ends_with(" already; right would be a file\n"), "{refused}");
    }
    for typed in ["survey - holes.csv", "survey job.toml -", "survey job.toml found.csv --limits -"] {
        assert_eq!(run(typed, Vec::new()).status, Some(2), "{typed}");
    }
    assert!(!folder.path().join("found.csv").exists());
}

#[test]
fn a_job_may_be_kept_to_its_own_folder() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::create_dir(folder.path().join("jobs")).expect("made");
    std::fs::write(folder.path().join("secret.csv"), "row,hole,major,hush\n").expect("written");
    let job = std::fs::read_to_string(format!("{DEMO}/job.toml")).expect("the demo");
    for file in ["shop-limits.toml", "trim.csv", "holes.csv"] {
        std::fs::copy(format!("{DEMO}/{file}"), folder.path().join("jobs").join(file)).expect("copied");
    }
    std::fs::write(folder.path().join("jobs/job.toml"), &job).expect("written");
    let outside = job.replace("\"holes.csv\"", "\"../secret.csv\"");
    assert_ne!(outside, job);
    std::fs::write(folder.path().join("jobs/outside.toml"), outside).expect("written");
    let run = |typed: &str| shophead_with(typed, |command| command.current_dir(folder.path()).write_stdin(""));
    for command in [
        "plan JOB",
        "order JOB",
        "card JOB -o -",
        "map JOB -o -",
        "inspect JOB jobs/driven.csv",
        "survey JOB jobs/new.csv",
    ] {
        let typed = format!("{} --job-folder-only", command.replace("JOB", "jobs/outside.toml"));
        let run = run(&typed);
        assert!(run.refused().contains("this file lies outside the folder of the job"), "{run}");
        assert!(!run.stderr.contains("hush"), "{run}");
    }
    assert_eq!(run("plan jobs/job.toml --job-folder-only").status, Some(1));
    assert_eq!(run("plan jobs/outside.toml").status, Some(0), "whoever wrote it himself may");
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
