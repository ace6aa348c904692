//! The `shophead` command.
//!
//! Arguments in, a report out. What a rivet may or may not do is decided in the `shophead` library, how it is said in `shophead-job`;
//! here the two are put on a command line.

mod args;
mod batch;
mod cells;
mod closed;
mod commands;
mod completions;
mod context;
mod exit;
mod facts;
mod files;
mod form;
mod handheld;
mod input;
mod man;
mod output;
mod progress;
mod render;
mod repair_args;
mod report;
mod schema;
mod talk;
mod typed;

use std::process::ExitCode;

use args::{Arguments, Command, Format};
use context::{Chosen, Context, Given, Settings};
use exit::{Exit, Stop};
use files::Inputs;
use report::Report;
use shophead_job::ahead::Ahead;

fn main() -> ExitCode {
    match typed::arguments().and_then(|arguments| arguments.map_or(Ok(Exit::Done), |arguments| run(&arguments))) {
        Ok(exit) => exit,
        Err(Stop::Wrong(sentences)) => {
            exit::tell(&sentences);
            Exit::Wrong
        }
        Err(Stop::WrongLine(told) | Stop::WrongFile(told)) => {
            exit::show(&told);
            Exit::Wrong
        }
        Err(Stop::Failed(sentence)) => {
            exit::tell(&[sentence]);
            Exit::Failed
        }
    }
    .into()
}

fn run(arguments: &Arguments) -> Result<Exit, Stop> {
    let output = arguments.common.output.as_deref();
    match &arguments.command {
        // A session prints as it goes; it has no report.
        Command::Handheld(args) => handheld::run(args, &arguments.common).map(|()| Exit::Done),
        // Nor has a batch: its rows go out while others come in.
        Command::Batch(args) => batch::run(args, &arguments.common),
        // About the program itself.
        Command::Schema(args) => schema::run(args, output).map(|()| Exit::Done),
        Command::Completions(args) => completions::run(args, output).map(|()| Exit::Done),
        Command::Man(args) => man::run(args, output).map(|()| Exit::Done),
        _ => answer(arguments, |report| {
            render::print(report, &Settings::of(arguments))?;
            exit::tell(&report.refused);
            Ok(report.exit())
        }),
    }
}

/// Everything between the command line and the printed page; what is done with the answer is done while the job is there.
fn answer<T>(arguments: &Arguments, done: impl FnOnce(&Report) -> Result<T, Stop>) -> Result<T, Stop> {
    let Arguments { command, common, typed } = arguments;
    let inputs = Inputs::default();
    let given = Given::of(common, command.job().map(|file| &*file.job), &inputs)?;
    let mut job = commands::job(command, common, given.limits(), &inputs)?;
    let chosen = Chosen::of(common, job.as_ref(), given, &inputs)?;
    if let Some(job) = &mut job {
        // The minutes stand in the same file as the limits: --limits replaces both.
        job.own_limits.minutes = chosen.own.minutes.clone();
    }
    let (limits, documents) = chosen.own.lists();
    let practice = chosen.practice.with_own(&limits, &documents).with_entered(&chosen.own.entered);
    let ahead = job.as_ref().map_or_else(Ahead::default, |job| Ahead::of_job(job, &practice));
    let practice = practice.with_cases(ahead.cases());
    let context = Context {
        practice: &practice,
        units: chosen.units,
        bare: chosen.bare,
        prompts: chosen.prompts,
        settled: &chosen.settled,
        own_title: &chosen.own.title,
        job_file: command.job().map(|file| &*file.job).filter(|file| !files::is_standard(file)),
        format: common.format,
        working: command.working() || common.format == Format::Html,
        rows_in: None,
        inputs: &inputs,
    };
    let mut report = commands::run(command, job.as_ref(), &context)?;
    if let Some(working) = &mut report.working {
        working.inputs.clone_from(typed);
    }
    // All that is read was read, and nothing is written yet.
    let outputs = common.output.as_deref().into_iter().chain(report.document.iter().map(|document| &*document.path));
    outputs.into_iter().try_for_each(|output| inputs.refuse_as_output(output, common.format == Format::Csv))?;
    // What is written beside the answer has a name that says what is in it.
    report.beside.iter().try_for_each(|beside| inputs.refuse_as_output(&beside.path, true))?;
    if common.format != Format::Text && common.format != Format::Json || report.document.is_some() {
        exit::note_settled(&chosen.settled);
        exit::note(&report.notes);
    }
    done(&report)
}
