//! The `shophead` command.
//!
//! Arguments in, a report out. What a rivet may or may not do is decided in the `shophead` library, how it is said in `shophead-job`;
//! here the two are put on a command line.

mod args;
mod batch;
mod cells;
mod commands;
mod completions;
mod context;
mod exit;
mod handheld;
mod input;
mod json;
mod man;
mod progress;
mod render;
mod report;
mod schema;
mod typed;

use std::process::ExitCode;

use args::{Arguments, Command};
use context::{Context, Settings};
use exit::{Exit, Stop};
use report::Report;

fn main() -> ExitCode {
    let arguments = typed::arguments();
    let settings = Settings::of(&arguments);
    let outcome = match &arguments.command {
        // A session prints as it goes; it has no report.
        Command::Handheld(args) => handheld::run(args).map(|()| Exit::Done),
        // Nor has a batch: its rows go out while others come in.
        Command::Batch(args) => batch::run(args, &arguments.common),
        // About the program itself.
        Command::Schema(args) => schema::run(args).map(|()| Exit::Done),
        Command::Completions(args) => completions::run(args).map(|()| Exit::Done),
        Command::Man(args) => man::run(args).map(|()| Exit::Done),
        _ => answer(&arguments, |report| {
            render::print(report, &settings)?;
            exit::tell(&report.refused);
            Ok(report.exit())
        }),
    };
    match outcome {
        Ok(exit) => exit,
        Err(Stop::Wrong(sentences)) => {
            exit::tell(&sentences);
            Exit::Wrong
        }
        Err(Stop::WrongFile(mistakes)) => {
            exit::show(&mistakes);
            Exit::Wrong
        }
        Err(Stop::Failed(sentence)) => {
            exit::tell(&[sentence]);
            Exit::Failed
        }
        // Whoever read the output has seen enough.
        Err(Stop::ReaderGone) => Exit::Done,
    }
    .into()
}

/// Everything between the command line and the printed page; what is done with the answer is done while the job is there.
fn answer<T>(arguments: &Arguments, done: impl FnOnce(&Report) -> Result<T, Stop>) -> Result<T, Stop> {
    let Arguments { command, common } = arguments;
    let mut job = commands::job(command, common.format)?;
    let own = context::own_limits(common, job.as_ref())?;
    if let Some(job) = &mut job {
        // The minutes stand in the same file as the limits: --limits replaces both.
        job.own_limits.minutes = own.minutes.clone();
    }
    let limits = own.limits();
    let practice = context::practice(common, job.as_ref()).with_own(&limits);
    let context = Context {
        practice: &practice,
        units: context::units(common, job.as_ref()),
        bare: context::bare(common),
        own_title: &own.title,
        job_file: command.job(),
        format: common.format,
    };
    commands::run(command, job.as_ref(), &context).and_then(|report| done(&report))
}
