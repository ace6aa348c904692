//! The plug is pulled, the disk is full, the folder can only be read, at every call to the system that can change a file, one run for each: nothing
//! that was said to be saved is lost, and nothing is half there. And files that go, break or change while they are read.
//!
//! Needs strace, which does both to a program: `cargo test -p shophead-cli --test faults -- --ignored`.
#![cfg(target_os = "linux")]

mod hostile;

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use shophead_job::survey::prepare;
use tempfile::TempDir;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

/// Between two of these nothing on the disk changes, nor what somebody was told.
const CALLS: [&str; 15] = [
    "openat",
    "write",
    "writev",
    "pwrite64",
    "fsync",
    "fdatasync",
    "ftruncate",
    "rename",
    "renameat2",
    "link",
    "linkat",
    "unlink",
    "unlinkat",
    "fchmod",
    "flock",
];

#[derive(Clone, Copy, Debug, PartialEq)]
enum Fault {
    Killed,
    DiskFull,
    /// Nothing can be made or changed there.
    ReadOnly,
    /// What was there a moment ago is not.
    Gone,
    /// A disk that gives nothing back.
    Broken,
}

impl Fault {
    /// What the tracer does to a call.
    const fn does(self) -> &'static str {
        match self {
            Fault::Killed => "signal=KILL",
            Fault::DiskFull => "error=ENOSPC",
            Fault::ReadOnly => "error=EROFS",
            Fault::Gone => "error=ENOENT",
            Fault::Broken => "error=EIO",
        }
    }

    /// The calls that it happens at.
    const fn calls(self) -> &'static [&'static str] {
        match self {
            Fault::Killed | Fault::DiskFull => &CALLS,
            Fault::ReadOnly => {
                &["openat", "rename", "renameat2", "link", "linkat", "unlink", "unlinkat", "fchmod", "ftruncate"]
            }
            Fault::Gone => &["openat", "statx", "newfstatat", "rename", "renameat2", "readlink", "unlink"],
            Fault::Broken => &["read", "pread64", "lseek"],
        }
    }
}

/// What a command is for, on files of its own.
struct Case {
    command: &'static str,
    typed: &'static str,
    /// The file that it changes.
    file: &'static str,
    before: Option<&'static str>,
}

const ANSWER: &str =
    "answer job.toml --row K1 --hole 31 --answer repair --by A._Example --document concession_18 --date 2026-11-25";
const ANSWERS: &str = "row,hole,answer,by,document,date,finding,measured,rivet,drill,note\n\
                       K1,19,keep,A. Example,concession 17,2026-11-25,hole-over-limit,0.171 0.161,,,\n";

/// The demo in a folder of its own, and its job file.
fn demo() -> (TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    for file in ["job.toml", "shop-limits.toml", "holes.csv", "stock.csv", "trim.csv", "driven.csv"] {
        fs::copy(Path::new(DEMO).join(file), folder.path().join(file)).expect("copied");
    }
    let job = fs::read_to_string(folder.path().join("job.toml")).expect("a job");
    (folder, job)
}

fn bench(case: &Case) -> TempDir {
    let (folder, job) = demo();
    let job = job.replace("holes = \"holes.csv\"", "holes = \"holes.csv\"\nanswers = \"answers.csv\"");
    fs::write(folder.path().join("job.toml"), job).expect("written");
    fs::write(folder.path().join("answers.csv"), ANSWERS).expect("written");
    let rows: String = (0..400).map(|row| format!("1/8,\".032,.0{}\"\n", 32 + row % 50)).collect();
    fs::write(folder.path().join("rows.csv"), format!("diameter,layers\n{rows}")).expect("written");
    if let Some(before) = case.before {
        fs::write(folder.path().join(case.file), before).expect("written");
    }
    folder
}

/// Runs the command, with a fault at its `at`th call of a name where one is given. Whether it happened.
fn run(case: &Case, folder: &Path, fault: Option<(Fault, &str, usize)>) -> (Output, bool) {
    let log = folder.join("strace.log");
    let mut command = Command::new("strace");
    command.args(["-f", "-qq", "-o"]).arg(&log);
    if let Some((fault, call, at)) = fault {
        let does = fault.does();
        command.arg(format!("--trace={call}")).arg(format!("--inject={call}:{does}:when={at}"));
    } else {
        command.arg("--trace=openat");
    }
    command
        .arg(assert_cmd::cargo::cargo_bin!("shophead"))
        .args(case.command.split(' ').map(|word| word.replace('_', " ")));
    command.current_dir(folder).env("SOURCE_DATE_EPOCH", "1795521600").env_remove("RUST_BACKTRACE");
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("strace, which this test needs");
    let mut input = child.stdin.take().expect("an input");
    // Whoever was killed reads nothing.
    let _ = input.write_all(case.typed.as_bytes());
    drop(input);
    let output = child.wait_with_output().expect("an end");
    let log = fs::read_to_string(log).expect("a log");
    let happened = log.contains("(INJECTED)") || log.contains("killed by SIGKILL");
    (output, happened)
}

fn content(path: &PathBuf) -> Option<String> {
    fs::read(path).ok().map(|bytes| String::from_utf8(bytes).expect("UTF-8"))
}

/// Every call in turn, until the command ends before the fault; each time what is left is judged.
fn at_every_call(case: &Case, fault: Fault, judge: impl Fn(&Output, Option<&str>, Option<&str>)) -> usize {
    let whole = bench(case);
    let (output, _) = run(case, whole.path(), None);
    assert!(matches!(output.status.code(), Some(0 | 1)), "{output:?}");
    let after = content(&whole.path().join(case.file));
    assert_ne!(after.as_deref(), case.before, "the command changes its file");
    let mut faults = 0;
    for call in fault.calls() {
        for at in 1.. {
            let folder = bench(case);
            let (output, happened) = run(case, folder.path(), Some((fault, call, at)));
            if !happened {
                break;
            }
            faults += 1;
            let told = || format!("{call} {at}: {output:?}");
            let left = content(&folder.path().join(case.file));
            judge(&output, left.as_deref(), after.as_deref());
            let names =
                fs::read_dir(folder.path()).expect("a folder").map(|entry| entry.expect("an entry").file_name());
            let beside = names.filter(|name| name.to_string_lossy().ends_with(".new")).count();
            // What is left aside is in nobody's way, and goes with the first run after ten minutes: another program may be writing it.
            assert!(beside <= 1, "{}", told());
            if fault != Fault::Killed {
                let said = String::from_utf8_lossy(&output.stderr);
                // Of what the system lets it read before it begins.
                let never_began = said.contains("error while loading shared libraries");
                assert!(matches!(output.status.code(), Some(0..=3)) || never_began, "{}", told());
                assert!(!said.contains("panicked"), "{}", told());
                assert!(beside == 0 || call.starts_with("unlink"), "{}", told());
            }
            // The next run of the same command finds its way.
            let (again, _) = run(case, folder.path(), None);
            let is_done = left == after && case.command.starts_with("answer");
            assert!(matches!(again.status.code(), Some(0 | 1)) || is_done, "after {}: {again:?}", told());
        }
    }
    faults
}

/// A file that is replaced: the old one or the new one.
fn old_or_new(case: &Case, fault: Fault) {
    let faults = at_every_call(case, fault, |output, left, after| {
        // A job whose survey or answers are not there has none yet, and gets the card of such a job, whole.
        let is_new = left.is_some_and(|left| fault == Fault::Gone && left.trim_end().ends_with("</html>"));
        let after = if is_new { left } else { after };
        assert!(left == case.before || left == after, "{output:?}\n{left:?}");
        if fault != Fault::Killed && output.status.code() != Some(3) {
            // Not said to have failed, so it is there; unless the question could not even be read.
            assert!(left == after || matches!(output.status.code(), Some(2 | 127)), "{output:?}\n{left:?}");
        }
    });
    println!("{}: {faults} times {fault:?}", case.command);
    assert!(faults > 10, "{faults}");
}

macro_rules! under {
    ($case:expr; $($test:ident: $fault:ident;)+) => { $(
        #[test]
        #[ignore = "needs strace, and a minute"]
        fn $test() {
            old_or_new(&$case, Fault::$fault);
        }
    )+ };
}

macro_rules! replaced {
    ($($name:ident: $case:expr;)+) => { $(
        mod $name {
            use super::*;

            under! { $case;
                is_the_old_or_the_new_when_the_plug_is_pulled: Killed;
                is_the_old_or_the_new_on_a_full_disk: DiskFull;
                is_the_old_or_the_new_where_nothing_can_be_written: ReadOnly;
                is_the_old_or_the_new_when_a_file_goes: Gone;
                is_the_old_or_the_new_when_the_disk_gives_nothing_back: Broken;
            }
        }
    )+ };
}

replaced! {
    a_card: Case { command: "card job.toml -o card.html", typed: "", file: "card.html", before: Some("<p>old</p>\n") };
    a_file_of_answers: Case { command: ANSWER, typed: "", file: "answers.csv", before: Some(ANSWERS) };
    a_file_of_rows: Case { command: "batch length rows.csv --output out.csv", typed: "", file: "out.csv", before: None };
}

const SURVEY: Case = Case {
    command: "survey job.toml found.csv",
    typed: "j 5\n.161\n.162\nj 40\n.163\nq\n",
    file: "found.csv",
    before: Some("row,hole,major\nK1,1,.1600\n"),
};

/// Holes that a survey said it saved.
fn told(output: &Output) -> Vec<String> {
    let shown = String::from_utf8_lossy(&output.stdout);
    let whole = &shown[..shown.rfind('\n').map_or(0, |end| end + 1)];
    whole.lines().filter_map(|line| line.split_once(" saved: ")).map(|(hole, _)| hole.replace(' ', ",")).collect()
}

fn survey_keeps_what_it_said(fault: Fault) {
    // The demo names its survey's file itself.
    let faults = at_every_call(&SURVEY, fault, |output, left, _| {
        let left = left.expect("the file never goes");
        let prepared = prepare(Some(left.as_bytes()));
        let left = String::from_utf8(prepared.content).expect("UTF-8");
        assert!(left.contains("K1,1,.1600") || left.contains("K1,1,0.16"), "what was there before: {left}");
        for hole in told(output) {
            assert!(left.lines().any(|line| line.starts_with(&format!("{hole},"))), "{hole} is lost: {left}");
        }
        assert!(left.is_empty() || left.ends_with('\n'), "{left:?}");
    });
    println!("{}: {faults} times {fault:?}", SURVEY.command);
    assert!(faults > 15, "{faults}");
}

#[test]
#[ignore = "needs strace, and a minute"]
fn a_survey_keeps_what_it_said_when_the_plug_is_pulled() {
    survey_keeps_what_it_said(Fault::Killed);
}

#[test]
#[ignore = "needs strace, and a minute"]
fn a_survey_keeps_what_it_said_on_a_full_disk() {
    survey_keeps_what_it_said(Fault::DiskFull);
}

/// Somebody else writes into the files that a command reads, as badly as can be: each answer is one of a whole file, or a sentence.
#[test]
#[ignore = "takes a minute"]
fn files_that_change_while_they_are_read_are_answered_or_refused() {
    use std::sync::atomic::{AtomicBool, Ordering};
    let (folder, _) = demo();
    let at = |name: &str| folder.path().join(name);
    let whole: Vec<(PathBuf, Vec<u8>)> =
        ["job.toml", "holes.csv", "shop-limits.toml"].map(|name| (at(name), fs::read(at(name)).expect("read"))).into();
    let is_done = AtomicBool::new(false);
    let (mut answered, mut refused) = (0, 0);
    std::thread::scope(|scope| {
        scope.spawn(|| {
            for turn in 0_usize.. {
                if is_done.load(Ordering::Relaxed) {
                    break;
                }
                // Emptied, written in two pieces, taken away.
                let (path, content) = &whole[turn % whole.len()];
                let (first, rest) = content.split_at(content.len() * (turn % 7) / 7);
                let mut file = fs::File::create(path).expect("made");
                file.write_all(first).expect("written");
                std::thread::yield_now();
                file.write_all(rest).expect("written");
                if turn % 5 == 0 {
                    fs::remove_file(path).expect("taken away");
                    fs::write(path, content).expect("written");
                }
            }
        });
        for _ in 0..150 {
            let mut command = Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
            let output = command.args(["plan", "job.toml"]).current_dir(folder.path()).output().expect("run");
            let said = String::from_utf8_lossy(&output.stderr).into_owned();
            match output.status.code() {
                Some(0 | 1) => answered += 1,
                Some(2 | 3) if output.stdout.is_empty() && !said.is_empty() => refused += 1,
                _ => {
                    is_done.store(true, Ordering::Relaxed);
                    panic!("{output:?}");
                }
            }
        }
        is_done.store(true, Ordering::Relaxed);
    });
    assert!(answered > 0 && refused > 0, "{answered} answered, {refused} refused");
}
