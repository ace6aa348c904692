//! `shophead survey`: the terminal and the file round a session.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use shophead_job::diagnostic::{escaped, is_unseen};
use shophead_job::file::{Held, Lines};
use shophead_job::model::{Job, Taken};
use shophead_job::plan::Plan;
use shophead_job::read::{Files, bytes_of, read_holes_file_from};
use shophead_job::survey::{HEADER, Survey, prepare};

use super::date;
use crate::args::{Common, Format, SurveyArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::files::{Inputs, cannot, is_standard};
use crate::input;
use crate::output;
use crate::report::Report;
use crate::talk::Talk;

/// What has no place in a conversation.
pub(super) fn refuse(args: &SurveyArgs, common: &Common, inputs: &Inputs) -> Result<(), Stop> {
    if common.format != Format::Text || common.output.is_some() || args.output.is_some() {
        return Err(Stop::wrong("survey talks in text only; what it measures is in the holes file"));
    }
    if is_standard(&args.holes) {
        return Err(Stop::wrong("- is no holes file; right would be a file that the measures are added to"));
    }
    inputs.take_standard("what is typed")?;
    output::standard_is_open()
}

/// The files of a job but for the holes of one of them, which need not be there yet.
pub(super) struct WithoutHoles<'f> {
    holes: PathBuf,
    files: &'f dyn Files,
}

impl<'f> WithoutHoles<'f> {
    pub(super) fn of(args: &SurveyArgs, files: &'f dyn Files) -> WithoutHoles<'f> {
        WithoutHoles { holes: real(&args.holes), files }
    }
}

impl Files for WithoutHoles<'_> {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        if real(path) == self.holes { Ok(HEADER.into()) } else { self.files.read(path) }
    }

    fn may_name(&self, path: &Path) -> bool {
        self.files.may_name(path)
    }
}

/// A path by which two names of one file are known for one, also when it is not there yet.
fn real(path: &Path) -> PathBuf {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::canonicalize(path)
        .or_else(|_| Ok::<_, io::Error>(fs::canonicalize(folder)?.join(path.file_name().unwrap_or_default())))
        .unwrap_or_else(|_| path.to_owned())
}

pub(super) fn run<'a>(args: &SurveyArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let path = &args.holes;
    let old = match File::open(path).and_then(bytes_of) {
        Ok(old) => Some(old),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(Stop::Failed(cannot("read", path, &error))),
    };
    let prepared = prepare(old.as_deref());
    let file = read_holes_file_from(prepared.content.clone(), path, job)?;
    let plan = Plan::make(job, context.practice);
    let taken = Taken {
        by: one_line("--by", args.by.as_deref())?,
        date: Some(date(args.date.as_deref())?),
        gauge: one_line("--gauge", args.gauge.as_deref())?,
    };
    let mut survey = Survey::new(&plan, &file, prepared.line_end, context.prompts).taken(taken);
    let mut talk = Talk::of(args.screen.width);
    let not_written = |error: io::Error| Stop::Failed(cannot("write", path, &error));
    // Everything has been read and understood: only now is anything written, and only if it is still as it was read.
    let held = Held::of(path, old.as_deref()).map_err(not_written)?;
    if let Some(torn) = &prepared.torn {
        let aside = put_aside(path, torn)?;
        talk.say(&format!(
            "The last line was cut off and is put aside in {}: {}",
            escaped(&aside.display().to_string()),
            escaped(String::from_utf8_lossy(torn).trim_end())
        ))?;
    }
    let mut lines = held.with(&prepared.content).map_err(not_written)?;
    talk.say_all(&survey.greeting())?;
    let talked = converse(&mut survey, &mut lines, &mut talk, path);
    if let Err(stop) = talked {
        talk.say_all(&survey.farewell())?;
        return Err(stop);
    }
    Ok(report(&survey, context))
}

/// A text that goes into a cell.
fn one_line(option: &str, text: Option<&str>) -> Result<String, Stop> {
    let text = text.unwrap_or_default().trim();
    if text.contains(is_unseen) {
        return Err(input::wrong(option, text, "it has a character that cannot be seen; leave it out"));
    }
    Ok(text.to_owned())
}

/// What was cut off goes to a file of its own; it is never thrown away.
fn put_aside(path: &Path, torn: &[u8]) -> Result<PathBuf, Stop> {
    let mut aside = path.as_os_str().to_owned();
    aside.push(".torn");
    let aside = PathBuf::from(aside);
    let write = || {
        let mut file = OpenOptions::new().create(true).append(true).open(&aside)?;
        file.write_all(&[torn, b"\n"].concat())?;
        file.sync_all()
    };
    write().map_err(|error| Stop::Failed(cannot("write", &aside, &error)))?;
    Ok(aside)
}

fn converse(survey: &mut Survey<'_, '_>, lines: &mut Lines, talk: &mut Talk, path: &Path) -> Result<(), Stop> {
    let mut input = io::stdin().lock();
    loop {
        talk.say_all(&survey.introduction())?;
        let Some(typed) = talk.ask(&survey.prompt(), &mut input)? else { return Ok(()) };
        let reply = survey.hear(&typed);
        talk.say_all(&reply.say)?;
        for entry in reply.entries {
            lines.append(&entry.line).map_err(|error| {
                Stop::Failed(format!("{}; the last measure is not saved", cannot("write", path, &error)))
            })?;
            let said = survey.saved(entry);
            talk.say_all(&said)?;
        }
        if reply.is_over || talk.is_gone {
            return Ok(());
        }
    }
}

fn report<'a>(survey: &Survey<'_, 'a>, context: &Context<'a>) -> Report<'a> {
    let mut report = Report::new("survey", context);
    report.findings_in_text = false;
    report.text.extend(survey.farewell().into_iter().map(crate::report::Block::Paragraph));
    let rows = survey.referred_rows();
    for (row, findings) in &rows {
        report.find(context, &format!("row {row}"), findings);
    }
    let referred = survey.referred();
    for (row, number) in &referred {
        if let Some(judged) = survey.answer(row, *number) {
            report.find(context, &format!("row {row} hole {number}"), judged.findings.iter());
        }
    }
    if !referred.is_empty() || !rows.is_empty() {
        let holes = referred.iter().map(|(row, number)| format!("{row} {number}"));
        let names: Vec<String> = rows.iter().map(|(row, _)| format!("row {row}")).chain(holes).collect();
        report.paragraph(format!("To be referred: {}.", names.join(", ")));
    }
    report
}
