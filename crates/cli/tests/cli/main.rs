//! The real binary in a scratch folder: one short test a promise.

mod access;
mod alike;
mod answers;
mod batch;
mod by_hand;
mod card;
mod csv;
mod columns;
mod depth;
mod drawn;
mod errors;
mod facts;
mod examples;
mod guard;
mod inspect;
mod handheld;
mod holes;
mod json;
mod listed;
mod lengths;
mod limits;
mod new;
mod order;
mod manual;
mod mended;
mod plan;
mod played;
mod promises;
mod repair;
mod riddles;
mod said;
mod schema;
mod settings;
mod streams;
mod strict;
mod survey;
#[cfg(unix)]
mod terminal;
mod text;
mod trim;
mod units;
mod whole;
mod working;

use std::process::Output;

use assert_cmd::Command;

/// An answer, held against its schema.
fn schema_of(json: &str) -> serde_json::Value {
    schema::read(json)
}

/// What a run left.
struct Run {
    typed: String,
    status: Option<i32>,
    stdout: String,
    stderr: String,
}

/// Runs the binary; words are separated by spaces, and `_` in a word stands for one.
#[track_caller]
fn shophead(typed: &str) -> Run {
    shophead_with(typed, |command| command)
}

/// Every answer in JSON is checked against its schema, whether the test reads it or not.
#[track_caller]
fn shophead_with(typed: &str, more: impl FnOnce(&mut Command) -> &mut Command) -> Run {
    let run = run(typed, more);
    if run.stdout.starts_with("{\n  \"schema\"") {
        schema::read(&run.stdout);
    }
    run
}

/// The variables that set something for every run.
const SETTING: [&str; 4] = ["SHOPHEAD_PRACTICE", "SHOPHEAD_LIMITS", "SHOPHEAD_UNITS", "SHOPHEAD_SETTINGS"];

/// Runs a command that prints something else than an answer.
fn bare(typed: &str) -> Run {
    run(typed, |command| command)
}

fn run(typed: &str, more: impl FnOnce(&mut Command) -> &mut Command) -> Run {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
    command.current_dir(folder.path()).args(typed.split_whitespace().map(|word| word.replace('_', " ")));
    for variable in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS"].into_iter().chain(SETTING) {
        command.env_remove(variable);
    }
    let Output { status, stdout, stderr } = more(&mut command).output().expect("the binary runs");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    Run { typed: typed.to_owned(), status: status.code(), stdout: text(stdout), stderr: text(stderr) }
}

impl Run {
    /// The output of a run that ended with this status and had nothing to complain of.
    #[track_caller]
    fn printed(&self, status: i32) -> &str {
        assert_eq!(self.status, Some(status), "{self}");
        assert_eq!(self.stderr, "", "{self}");
        &self.stdout
    }

    /// The complaint of a run that was refused and printed nothing.
    #[track_caller]
    fn refused(&self) -> &str {
        assert_eq!(self.status, Some(2), "{self}");
        assert_eq!(self.stdout, "", "{self}");
        &self.stderr
    }

    #[track_caller]
    fn json(&self, status: i32) -> serde_json::Value {
        schema::read(self.printed(status))
    }
}

impl std::fmt::Display for Run {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Run { typed, status, stdout, stderr } = self;
        write!(f, "shophead {typed}\nstatus {status:?}\nstdout:\n{stdout}\nstderr:\n{stderr}")
    }
}

/// The same with its unit at every number that could be one of millimetres or newtons.
fn with_units(typed: &str) -> String {
    const LENGTHS: &[&str] = &[
        "--layers",
        "--sheets",
        "--sheet",
        "--tolerance",
        "--measured-diameter",
        "--measured-height",
        "--length",
        "--grip",
        "--major",
        "--minor",
        "--edge",
        "--pitch",
        "--width",
    ];
    let mut option = "";
    let words = typed.split(' ').map(|word| {
        let unit = match option {
            "--load" => "lbf",
            option if LENGTHS.contains(&option) => "in",
            _ => "",
        };
        option = word;
        let is_bare = |item: &str| {
            let number = item.rsplit(':').next().unwrap_or(item);
            number.chars().all(|c| c.is_ascii_digit() || c == '.')
        };
        let items = word.split(',').map(|item| if is_bare(item) { format!("{item}{unit}") } else { item.to_owned() });
        items.collect::<Vec<_>>().join(",")
    });
    words.collect::<Vec<_>>().join(" ")
}

/// One run a command, with the status that it ends with.
const EXAMPLES: &[(&str, i32)] = &[
    ("length --layers .032,.125 --diameter 1/8 --tolerance .002", 0),
    ("head --diameter 1/8 --measured-diameter .180 --measured-height .060 --length 5/16 --grip .157", 0),
    (
        "hole --rivet MS20470AD4 --major .141 --minor .130 --edge 3/8 --pitch 3/4 --layers clad_2024-T3:.032,clad_2024-T3:.040",
        0,
    ),
    ("joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.125 --load 200 --pitch 1/2", 0),
    ("splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4 --rows 2 --member lap", 1),
    ("part AN470D6-10", 0),
    ("sources", 0),
    ("repair patch --sheet clad_2024-T3:.032 --hole 2inx1-1/2 --taper stepped:.020in", 0),
    (
        "repair splice stringer --shape angle --material 2024-T3 --leg .6inx.040in --leg .6inx.040in,skin=.032in --gap 1in",
        0,
    ),
    ("repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --load 500 --solve pitch", 0),
    ("repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --counts 1-2-1 --across 1-1/2 --load 500", 0),
    ("repair bend --material 2024-T3 --thickness .040in", 0),
];
