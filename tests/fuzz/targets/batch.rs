#![no_main]
//! Rows of CSV and of JSON Lines, through the command itself: its modules are built into this program, which has no other part of it.
#![allow(dead_code, unsafe_code, reason = "only the batch is run")]

#[path = "../../../crates/cli/src/args.rs"]
mod args;
#[path = "../../../crates/cli/src/batch/mod.rs"]
mod batch;
#[path = "../../../crates/cli/src/cells.rs"]
mod cells;
#[path = "../../../crates/cli/src/closed.rs"]
mod closed;
#[path = "../../../crates/cli/src/commands/mod.rs"]
mod commands;
#[path = "../../../crates/cli/src/completions.rs"]
mod completions;
#[path = "../../../crates/cli/src/context.rs"]
mod context;
#[path = "../../../crates/cli/src/exit.rs"]
mod exit;
#[path = "../../../crates/cli/src/facts.rs"]
mod facts;
#[path = "../../../crates/cli/src/files.rs"]
mod files;
#[path = "../../../crates/cli/src/form/mod.rs"]
mod form;
#[path = "../../../crates/cli/src/handheld.rs"]
mod handheld;
#[path = "../../../crates/cli/src/input.rs"]
mod input;
#[path = "../../../crates/cli/src/man.rs"]
mod man;
#[path = "../../../crates/cli/src/output.rs"]
mod output;
#[path = "../../../crates/cli/src/progress.rs"]
mod progress;
#[path = "../../../crates/cli/src/render/mod.rs"]
mod render;
#[path = "../../../crates/cli/src/repair_args.rs"]
mod repair_args;
#[path = "../../../crates/cli/src/report.rs"]
mod report;
#[path = "../../../crates/cli/src/schema.rs"]
mod schema;
#[path = "../../../crates/cli/src/talk.rs"]
mod talk;
#[path = "../../../crates/cli/src/typed.rs"]
mod typed;

use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use args::Arguments;
use clap::Parser;
use exit::Exit;

static ROWS: LazyLock<PathBuf> = LazyLock::new(|| {
    let memory = PathBuf::from("/dev/shm");
    let folder = if memory.is_dir() { memory } else { std::env::temp_dir() };
    folder.join(format!("shophead-fuzz-{}", std::process::id()))
});

/// Each question, from each form to each.
static COMMANDS: LazyLock<Vec<Arguments>> = LazyLock::new(|| {
    let command = |which: usize| {
        let question = ["length", "head", "hole", "joint"][which % 4];
        let from = ["--from=csv", "--from=json"][which / 4 % 2];
        let to = ["--format=csv", "--format=json"][which / 8 % 2];
        let typed = ["shophead", "batch", question, from, to, "--threads=1", "--output=/dev/null"];
        let arguments = typed.iter().map(|word| word.into()).chain([ROWS.clone().into_os_string()]);
        Arguments::try_parse_from(arguments).expect("a command line")
    };
    (0..16).map(command).collect()
});

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Some((which, rows)) = bytes.split_first() else { return };
    fs::write(&*ROWS, rows).expect("room in memory");
    let arguments = &COMMANDS[usize::from(which % 16)];
    let args::Command::Batch(asked) = &arguments.command else { unreachable!("a batch was asked for") };
    match batch::run(asked, &arguments.common) {
        Ok(Exit::Done | Exit::Refer | Exit::Wrong) | Err(exit::Stop::Wrong(_) | exit::Stop::WrongLine(_) | exit::Stop::WrongFile(_)) => {}
        other => panic!("{other:?}"),
    }
});
