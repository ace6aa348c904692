//! `shophead new`: a folder to begin a job in.

use std::fs;
use std::io;
use std::path::Path;

use shophead_job::diagnostic::escaped;
use shophead_job::file::make_folder;
use shophead_job::read::Disk;
use shophead_job::start::{Ask, JOB, ROWS, Start};

use crate::args::{Format, NewArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::output::standard_is_open;
use crate::report::Report;
use crate::talk::Talk;

pub(super) fn run<'a>(args: &NewArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    if context.format != Format::Text {
        return Err(Stop::wrong("new writes a folder and answers in text only"));
    }
    let shown = escaped(&args.folder.display().to_string()).into_owned();
    // Before anybody has typed for nothing.
    let is_taken = match fs::read_dir(&args.folder) {
        Ok(mut entries) => entries.next().is_some(),
        Err(error) => error.kind() != io::ErrorKind::NotFound,
    };
    if is_taken {
        return Err(Stop::wrong(format_args!("{shown} is there and not empty; name a new folder")));
    }
    let title = args.title.clone().unwrap_or_else(|| {
        let name = args.folder.file_name().unwrap_or_default().to_string_lossy();
        if name.trim().is_empty() { "New job".to_owned() } else { name.into_owned() }
    });
    let start = match &args.from {
        Some(file) => from_rows(&title, file, context)?,
        None if args.ask => asked(args)?,
        None => Start::empty(&title),
    };
    let files = start.files();
    make_folder(&args.folder, &files)
        .map_err(|error| Stop::Failed(format!("cannot make {shown}: {error}; nothing was written")))?;

    let mut report = Report::new("new", context);
    let names: Vec<String> = files.iter().map(|(name, _)| name.display().to_string()).collect();
    report.answer(format!("{shown}: {}", names.join(", ")));
    let plan = format!("shophead plan {}", args.folder.join(JOB).display());
    report.paragraph(if args.from.is_none() && !args.ask {
        format!("Fill in {ROWS}, one line a row; README.txt says how. Then: {plan}")
    } else {
        format!("Next: {plan}")
    });
    Ok(report)
}

fn from_rows(title: &str, file: &Path, context: &Context<'_>) -> Result<Start, Stop> {
    let rows = context.inputs.read(file, "the rows")?;
    Ok(Start::from_rows(title, rows.bytes, &rows.name, &context.inputs.beside(Disk::anywhere()))?)
}

/// Ten questions; rows that are whole when the input ends are kept.
fn asked(args: &NewArgs) -> Result<Start, Stop> {
    standard_is_open()?;
    let mut talk = Talk::of(args.screen.width);
    let mut ask = Ask::new();
    let mut input = io::stdin().lock();
    talk.say_all(&ask.greeting())?;
    while !ask.is_over() {
        let Some(typed) = talk.ask(&ask.prompt(), &mut input)? else { break };
        talk.say_all(&ask.hear(&typed))?;
    }
    if ask.rows() == 0 {
        return Err(Stop::wrong("the input ended before the first row was whole; nothing was written"));
    }
    Ok(ask.start())
}
