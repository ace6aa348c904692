//! `shophead inspect`.

use std::collections::HashMap;

use shophead::finding::Severity;
use shophead::practice::Practice;
use shophead::upset::Remedy;
use shophead_job::inspect::{Inspected, Inspection, RowTally, State};
use shophead_job::model::{Job, Look};
use shophead_job::order::OrderLine;
use shophead_job::plan::Plan;
use shophead_job::read::{DrivenFile, read_driven_from};
use shophead_job::words;

use super::order::{line_forms, order_table};
use crate::args::InspectArgs;
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::report::{Block, Record, Report, Table, Told};

pub(super) fn run<'a>(args: &InspectArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let driven = context.inputs.read(&args.driven, "the driven rivets")?;
    let file = read_driven_from(driven.bytes, &driven.name, job)?;
    let plan = Plan::make(job, context.practice);
    let inspection = Inspection::make(&plan, &file);
    let lines = inspection.order(job.spares_percent);
    let mut report = Report::new("inspect", context);
    for rivet in &inspection.rivets {
        report.find_all(context, &subject(rivet), &rivet.findings);
    }
    for row in &inspection.rows {
        report.find(context, &format!("row {}", row.name), &row.sample);
    }
    report.find(context, "the job", &inspection.finding());
    report.findings_in_text = false;
    report.give(form(job, &inspection, &lines, context.practice));
    text(&mut report, job, &inspection, &lines, context);
    records(&mut report, &inspection, &file, context);
    Ok(report)
}

fn subject(rivet: &Inspected<'_, '_>) -> String {
    format!("row {} hole {}", rivet.row.row.name, rivet.line.number)
}

/// The state of the whole job, in a sentence.
fn state(inspection: &Inspection<'_, '_>) -> String {
    match inspection.state() {
        State::Accepted => "Every rivet of the job is accepted.".into(),
        State::AcceptedSoFar => match inspection.holes.saturating_sub(inspection.looked_at()) {
            0 => "Every rivet is accepted, but not every other place was looked at.".into(),
            rivets => format!("Accepted as far as it was looked at; {rivets} rivets were not."),
        },
        State::Rejected => "Not accepted: rejected rivets come out first.".into(),
        State::NotLookedAt => {
            "Not accepted: the driven file names no rivet. Look at the rivets, enter them, inspect again.".into()
        }
        other => format!("Not accepted: {}.", other.as_str()),
    }
}

fn text(
    report: &mut Report,
    job: &Job,
    inspection: &Inspection<'_, '_>,
    lines: &[OrderLine<'_>],
    context: &Context<'_>,
) {
    if inspection.state() == State::NotLookedAt {
        report.answer(format!("{}: nothing was looked at", job.title));
        report.paragraph(state(inspection));
        return;
    }
    let (accepted, rejected) = (inspection.accepted(), inspection.rejected());
    report.answer(format!("{}: {accepted} accepted, {rejected} rejected", job.title));
    let (looked_at, holes) = (inspection.looked_at(), inspection.holes);
    let share = if looked_at == holes {
        format!("Every one of {holes} rivets was looked at")
    } else {
        format!("A sample: {looked_at} of {holes} rivets were looked at")
    };
    report.paragraph(format!("{share}; {} heads were measured both ways.", inspection.measured));
    report.paragraph(state(inspection));
    if rejected > 0 {
        report.heading("Rejected");
    }
    for rivet in inspection.rivets.iter().filter(|rivet| !rivet.is_accepted()) {
        report.text.push(rejected_entry(rivet, context));
    }
    report.heading("Row by row");
    let rows = inspection.rows.iter().filter(|row| row.looked_at > 0);
    let rows = rows.map(|row| {
        vec![row.name.to_owned(), row.holes.to_string(), row.looked_at.to_string(), row.rejected.to_string()]
    });
    report
        .text
        .push(Block::Table(Table { columns: vec!["row", "rivets", "looked at", "rejected"], rows: rows.collect() }));
    let untouched: Vec<&str> = inspection.rows.iter().filter(|row| row.looked_at == 0).map(|row| row.name).collect();
    if !untouched.is_empty() {
        report.paragraph(format!("Nobody looked at {}.", untouched.join(", ")));
    }
    if !inspection.open_looks.is_empty() {
        report.heading("Still to look at");
    }
    for Look { place, why, .. } in &inspection.open_looks {
        report.text.push(Block::Entry(place.clone(), vec![why.clone()]));
    }
    let sampled = |row: &&RowTally<'_>| row.sample.is_some();
    let names: Vec<&str> = inspection.rows.iter().filter(sampled).map(|row| row.name).collect();
    if let Some(sample) = inspection.rows.iter().find_map(|row| row.sample) {
        report.paragraph(format!(
            "Look at every rivet of {}. [{}]",
            names.join(", "),
            context.practice.cite(sample.basis())
        ));
    }
    if !lines.is_empty() {
        report.heading("To order again");
        report.text.push(Block::Table(order_table(lines, context.units)));
    }
}

fn rejected_entry(rivet: &Inspected<'_, '_>, context: &Context<'_>) -> Block {
    let planned = rivet.planned.map_or_else(|| "no rivet planned".into(), |part| part.to_string());
    let mut lines: Vec<String> = rivet
        .findings
        .iter()
        .filter(|finding| finding.severity() == Severity::Refer)
        .map(|finding| words::finding(finding, context.units, context.practice))
        .collect();
    if let Some(remedy) = rivet.remedy {
        let part = rivet.replacement.filter(|_| remedy.value == Remedy::NextSize);
        let part = part.map_or_else(String::new, |part| format!(", {part}"));
        lines.push(format!("{}{part}. [{}]", words::phrase(remedy.value), context.practice.cite(remedy.basis)));
    }
    if !rivet.line.remark.is_empty() {
        lines.push(format!("Noted: {}", rivet.line.remark));
    }
    Block::Entry(format!("{}: {planned}", subject(rivet)), lines)
}

fn form<'a>(
    job: &'a Job,
    inspection: &Inspection<'_, 'a>,
    lines: &[OrderLine<'a>],
    practice: &Practice<'a>,
) -> form::inspect::Answer<'a> {
    let row = |row: &RowTally<'a>| form::inspect::Row {
        row: row.name,
        holes: row.holes,
        looked_at: row.looked_at,
        accepted: row.looked_at.saturating_sub(row.rejected),
        rejected: row.rejected,
    };
    form::inspect::Answer {
        title: &job.title,
        accepted: inspection.accepted(),
        rejected: inspection.rejected(),
        looked_at: inspection.looked_at(),
        measured: inspection.measured,
        holes: inspection.holes,
        state: inspection.state().into(),
        lines: inspection.rivets.iter().map(|rivet| line_form(rivet, practice)).collect(),
        rows: inspection.rows.iter().map(row).collect(),
        looks: job.looks.iter().map(form::Look::from).collect(),
        order: line_forms(lines, None),
    }
}

fn line_form<'a>(rivet: &Inspected<'_, 'a>, practice: &Practice<'a>) -> form::inspect::Line<'a> {
    let reasons = rivet.findings.iter().filter(|finding| finding.severity() == Severity::Refer);
    form::inspect::Line {
        row: &rivet.row.row.name,
        hole: rivet.line.number.into(),
        rivet: rivet.planned.map(|part| part.to_string()),
        diameter: rivet.line.head.diameter.map(form::Interval::from),
        height: rivet.line.head.height.map(form::Interval::from),
        condition: rivet.line.condition.clone(),
        remark: rivet.line.remark.clone(),
        taken: (&rivet.line.taken).into(),
        batch: rivet.line.batch.clone(),
        driven_by: rivet.line.driven_by.clone(),
        earlier: rivet.earlier,
        accepted: rivet.is_accepted(),
        reasons: reasons.map(|finding| finding.code().into()).collect(),
        remedy: rivet.remedy.map(|remedy| form::inspect::ToDo {
            r#do: remedy.value.into(),
            basis: form::Basis::of(remedy.basis, practice),
        }),
        replacement: rivet.replacement.map(|part| part.to_string()),
    }
}

fn records(report: &mut Report, inspection: &Inspection<'_, '_>, file: &DrivenFile, context: &Context<'_>) {
    let mut told: HashMap<&str, Vec<Told>> = HashMap::new();
    for finding in &report.findings {
        told.entry(&finding.subject).or_default().push(finding.clone());
    }
    let of = |rivet: &Inspected<'_, '_>| told.get(subject(rivet).as_str()).map(Vec::as_slice).unwrap_or_default();
    let records: Vec<Record> =
        inspection.rivets.iter().map(|rivet| record(Some(rivet), of(rivet), file, context)).collect();
    // Where nothing was looked at the header stands alone.
    report.rows.columns = record(None, &[], file, context).into_columns();
    for record in records {
        report.rows.push(record);
    }
}

fn record(rivet: Option<&Inspected<'_, '_>>, told: &[Told], file: &DrivenFile, context: &Context<'_>) -> Record {
    let line = rivet.map(|rivet| rivet.line);
    let (diameter, height) = (line.and_then(|line| line.head.diameter), line.and_then(|line| line.head.height));
    let mut record = Record::new(context.units);
    record.optional("row", rivet.map(|rivet| &rivet.row.row.name)).optional("hole", line.map(|line| line.number));
    record.optional("rivet", rivet.and_then(|rivet| rivet.planned));
    record.length("diameter_min", diameter.map(|diameter| diameter.min()));
    record.length("diameter_max", diameter.map(|diameter| diameter.max()));
    record.length("height_min", height.map(|height| height.min()));
    record.length("height_max", height.map(|height| height.max()));
    record.optional("condition", line.map(|line| &line.condition));
    record.optional("remark", line.map(|line| &line.remark));
    record.optional("accepted", rivet.map(Inspected::is_accepted));
    record.optional("remedy", rivet.and_then(|rivet| rivet.remedy).map(|remedy| remedy.value));
    record.optional("replacement", rivet.and_then(|rivet| rivet.replacement));
    record.findings(told);
    for (index, name) in file.other_columns.iter().enumerate() {
        record.other(name, line.and_then(|line| line.others.get(index)).map_or("", String::as_str));
    }
    record
}
