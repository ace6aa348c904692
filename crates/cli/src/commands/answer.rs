//! `shophead answer`: enters an answer into the answers file of a job.

use std::fs;
use std::io;

use shophead::finding::Code;
use shophead_job::answers::{AnswerLine, referrals, with_lines};
use shophead_job::file::Held;
use shophead_job::model::Job;
use shophead_job::plan::{Plan, Subject};
use shophead_job::read::read_answers_from;

use super::date;
use crate::args::{AnswerArgs, Format};
use crate::context::Context;
use crate::exit::Stop;
use crate::files::cannot;
use crate::input;
use crate::report::Report;

pub(super) fn run<'a>(args: &AnswerArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    if context.format != Format::Text {
        return Err(Stop::wrong("answer writes a file and answers in text only"));
    }
    let Some(named) = &job.answers_file else {
        return Err(Stop::wrong("the job names no answers file; right would be answers = \"answers.csv\" in it"));
    };
    let Some(file) = context.job_file.map(|job| job.with_file_name(&named.name)) else {
        return Err(Stop::wrong("a job from the standard input has no answers file beside it; right would be a file"));
    };
    let plan = Plan::make(job, context.practice);
    let subject = subject(&plan, args)?;
    let codes = args.finding.as_deref().map(codes).transpose()?.unwrap_or_default();
    let mut lines = referrals(&plan, subject, &codes);
    if lines.is_empty() {
        return Err(Stop::wrong(format_args!("{subject}: no open referral; see shophead plan")));
    }
    let said = said(args)?;
    for line in &mut lines {
        line.extend(said.iter().cloned());
    }
    let old = match fs::read(&file) {
        Ok(old) => Some(old),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(Stop::Failed(cannot("read", &file, &error))),
    };
    let text = old.as_ref().map(|old| String::from_utf8_lossy(old).into_owned());
    let new = with_lines(text.as_deref(), &lines).map_err(|column| {
        let name = file.display();
        Stop::wrong(format_args!("{name} has no column {column}; right would be one more in its first line"))
    })?;
    // What is entered is what the plan will read, or it is not entered.
    read_answers_from(new.clone().into_bytes(), &file, job)?;
    let not_written = |error: io::Error| Stop::Failed(cannot("write", &file, &error));
    Held::of(&file, old.as_deref()).and_then(|held| held.with(new.as_bytes())).map_err(not_written)?;

    let mut report = Report::new("answer", context);
    report.answer(format!("{subject}: answered"));
    for line in &lines {
        let of = |name: &str| line.iter().find(|(column, _)| *column == name).map_or("", |(_, value)| value.as_str());
        report.paragraph(format!("{}, measured {}.", of("finding"), of("measured")));
    }
    Ok(report)
}

/// What the answer is to, as the plan names it.
fn subject<'j>(plan: &Plan<'j>, args: &AnswerArgs) -> Result<Subject<'j>, Stop> {
    let row = args.row.trim();
    if let Some(known) = plan.rows.iter().find(|plan| plan.row.name == row) {
        return match args.hole {
            Some(number) if number <= known.row.count => Ok(Subject::Hole(&known.row.name, number)),
            Some(_) => Err(Stop::wrong(format_args!("--hole: row {row} has holes 1 to {}", known.row.count))),
            None => Ok(Subject::Row(&known.row.name)),
        };
    }
    let name = |subject: &Subject<'_>| subject.to_string();
    let mut others = plan.stops().map(|(subject, _)| subject);
    let is_meant = |subject: &Subject<'_>| name(subject) == row || name(subject).split(',').next() == Some(row);
    others.find(is_meant).ok_or_else(|| {
        let rows: Vec<&str> = plan.rows.iter().map(|plan| plan.row.name.as_str()).collect();
        input::wrong("--row", row, format_args!("the job has no such row; right would be {}", input::or(&rows)))
    })
}

fn codes(text: &str) -> Result<Vec<Code>, Stop> {
    let code = |word: &str| word.parse::<Code>().map_err(|error| input::wrong("--finding", word, error));
    text.split([' ', ',']).filter(|word| !word.is_empty()).map(code).collect()
}

/// What is the same in every line.
fn said(args: &AnswerArgs) -> Result<AnswerLine, Stop> {
    let text = |text: &Option<String>| text.clone().unwrap_or_default();
    Ok(vec![
        ("answer", args.answer.clone()),
        ("by", args.by.clone()),
        ("document", args.document.clone()),
        ("date", date(args.date.as_deref())?.to_string()),
        ("rivet", text(&args.rivet)),
        ("drill", text(&args.drill)),
        ("note", text(&args.note)),
    ])
}
