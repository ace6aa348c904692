//! Answers to what was referred, from a CSV file.

use std::collections::HashMap;

use shophead::answer::Ruling;
use shophead::drill::Drill;
use shophead::finding::Code;
use shophead::hole::{AsFound, Damage};
use shophead::length::Length;
use shophead::rivet::part::Part;

use super::holes::{GAUGED, date, refuse_cut_off, required};
use super::keys::ANSWERS_FILE;
use super::sheet::{Cell, Record, sheet};
use super::source::{Source, nearest_or_all, quoted};
use crate::cell::original;
use crate::model::{Answer, AnswerTo, GivenFor, Row};
use crate::words;

/// The columns of an answers file.
pub const ANSWER_COLUMNS: [&str; 11] =
    ["row", "hole", "answer", "by", "document", "date", "finding", "measured", "rivet", "drill", "note"];
const REQUIRED: [&str; 8] = ["row", "hole", "answer", "by", "document", "date", "finding", "measured"];

/// What answers may be about besides rows and their holes.
pub(super) struct Known<'k> {
    pub(super) rows: &'k [Row],
    pub(super) edges: Vec<&'k str>,
    pub(super) damage: usize,
}

/// Every line of an answers file, in its order.
pub(super) fn answers(source: &Source<'_>, known: &Known<'_>) -> Vec<Answer> {
    let Some(sheet) = sheet(source, &ANSWERS_FILE, &REQUIRED) else { return Vec::new() };
    refuse_cut_off(source);
    let rows: HashMap<&str, usize> =
        known.rows.iter().enumerate().map(|(index, row)| (row.name.as_str(), index)).collect();
    let mut answers = Vec::with_capacity(sheet.records.len());
    for record in &sheet.records {
        if source.mistakes.is_full() {
            break;
        }
        answers.extend(line(source, record, known, &rows));
    }
    answers
}

fn line(source: &Source<'_>, record: &Record, known: &Known<'_>, rows: &HashMap<&str, usize>) -> Option<Answer> {
    let column = |name: &str| ANSWER_COLUMNS.iter().position(|known| *known == name).unwrap_or(usize::MAX);
    let cell = |name: &str| record.filled(column(name));
    let needed = |name: &'static str| required(source, record, column(name), name);
    let text = |name: &'static str| needed(name).map(|cell| original(&cell.text).to_owned());
    let to = needed("row").and_then(|row| about(source, row, cell("hole"), known, rows));
    let ruling = needed("answer").and_then(|cell| word(source, cell, "answer", Ruling::ALL.iter().copied()));
    let (by, document) = (text("by"), text("document"));
    let date = needed("date").and_then(|cell| date(source, cell));
    let findings = needed("finding").and_then(|cell| {
        let codes: Vec<Option<Code>> = cell.text.split_whitespace().map(|code| code_of(source, cell, code)).collect();
        codes.into_iter().collect::<Option<Vec<Code>>>()
    });
    let given_for = needed("measured").map(|cell| given_for(source, cell));
    let rivet = cell("rivet").map(|cell| original(&cell.text).to_owned());
    let part = match (ruling, cell("rivet")) {
        // A blind rivet is none that is known here.
        (Some(Ruling::Blind), _) | (_, None) => Some(None),
        (_, Some(cell)) => Part::parse(original(&cell.text))
            .map_err(|error| source.refused(cell.span.clone(), "rivet", &error))
            .ok()
            .map(Some),
    };
    let drill = match cell("drill") {
        None => Some(None),
        Some(cell) => {
            Drill::parse(&cell.text).map_err(|error| source.refused(cell.span.clone(), "drill", &error)).ok().map(Some)
        }
    };
    let answer = Answer {
        to: to?,
        ruling: ruling?,
        by: by?,
        document: document?,
        date: date?,
        findings: findings?,
        given_for: given_for?,
        rivet: part?,
        blind: rivet.filter(|_| ruling == Some(Ruling::Blind)),
        drill: drill?,
        note: cell("note").map(|cell| original(&cell.text).to_owned()).unwrap_or_default(),
    };
    let span = cell("answer").map_or(record.span.clone(), |cell| cell.span.clone());
    holds_together(source, span, &answer, known).then_some(answer)
}

/// What an answer must say to be one, and that it is not one that is barred.
fn holds_together(source: &Source<'_>, span: std::ops::Range<usize>, answer: &Answer, known: &Known<'_>) -> bool {
    let row = match answer.to {
        AnswerTo::Row(row) | AnswerTo::Hole(row, _) => known.rows.get(row),
        _ => None,
    };
    if let Some(row) = row
        && let Some(barred) = answer.ruling.barred(row.structure, row.member, &row.places)
    {
        let because = words::solid_because(barred.value);
        let message = format!("a blind rivet is not taken in row {}, not even as an answer: {because}", row.name);
        source.mistake(span, message, "right would be a driven solid rivet, or repair");
        return false;
    }
    let lacks = match answer.ruling {
        Ruling::Rivet if answer.rivet.is_none() => Some(("rivet", "MS20470AD5")),
        Ruling::Blind if answer.blind.is_none() => Some(("rivet", "the part number of the blind rivet")),
        Ruling::Hole if answer.drill.is_none() => Some(("drill", "#21")),
        _ => None,
    };
    if let Some((column, example)) = lacks {
        let message = format!("the answer {} names no {column}", answer.ruling);
        source.mistake(span, message, format!("right would be {example} in the column {column}"));
    }
    lacks.is_none()
}

/// What the answer is to: a row or a hole of it, or by the name that the plan gives it, the job, an edge, damage or a pattern.
fn about(
    source: &Source<'_>,
    row: &Cell,
    hole: Option<&Cell>,
    known: &Known<'_>,
    rows: &HashMap<&str, usize>,
) -> Option<AnswerTo> {
    let name = original(&row.text);
    if let Some((index, of)) = rows.get(name).and_then(|index| Some((*index, known.rows.get(*index)?))) {
        let Some(cell) = hole else { return Some(AnswerTo::Row(index)) };
        let number = cell.text.parse().ok().filter(|number| (1..=of.count).contains(number));
        if number.is_none() {
            let help = format!("right would be a whole number from 1 to {}", of.count);
            source.mistake(cell.span.clone(), format!("hole cannot be {}", quoted(&cell.text)), help);
        }
        return number.map(|number| AnswerTo::Hole(index, number));
    }
    let other = match name.split_once(' ') {
        None if name == "job" => Some(AnswerTo::Job),
        Some(("edge", edge)) => known.edges.iter().position(|known| *known == edge).map(AnswerTo::Edge),
        Some(("damage", rest)) => {
            let number = rest.split(',').next().and_then(|number| number.trim().parse::<usize>().ok());
            number.filter(|number| (1..=known.damage).contains(number)).map(|number| AnswerTo::Damage(number - 1))
        }
        Some(("pattern", pattern)) => {
            let is_known = known.rows.iter().any(|row| row.pattern.as_deref() == Some(pattern));
            is_known.then(|| AnswerTo::Pattern(pattern.to_owned()))
        }
        _ => None,
    };
    if other.is_none() {
        let help = nearest_or_all(name, known.rows.iter().map(|row| row.name.as_str()));
        source.mistake(row.span.clone(), format!("the job has no row {}", quoted(name)), help);
    }
    other
}

/// One of a list of words.
fn word<W: shophead::words::Word>(
    source: &Source<'_>,
    cell: &Cell,
    name: &str,
    known: impl Iterator<Item = W> + Clone,
) -> Option<W> {
    let found = known.clone().find(|word| word.as_str().eq_ignore_ascii_case(&cell.text));
    if found.is_none() {
        let help = nearest_or_all(&cell.text, known.map(|word| word.as_str()));
        source.mistake(cell.span.clone(), format!("{name} cannot be {}", quoted(&cell.text)), help);
    }
    found
}

fn code_of(source: &Source<'_>, cell: &Cell, written: &str) -> Option<Code> {
    let found = Code::ALL.iter().find(|code| code.as_str() == written).copied();
    if found.is_none() {
        let help = nearest_or_all(written, Code::ALL.iter().map(|code| code.as_str()));
        source.mistake(cell.span.clone(), format!("{} is no finding", quoted(written)), help);
    }
    found
}

/// `.171`, `.171 .161 gouged`, `none`: the measure of a hole, or the figure of a finding. What is neither is that of no finding, so that the
/// answer does not count.
fn given_for(source: &Source<'_>, cell: &Cell) -> GivenFor {
    let bare = source.bare.get();
    let text = original(&cell.text).trim();
    if text == "none" {
        return GivenFor { text: text.to_owned(), hole: None };
    }
    let mut words = text.split_whitespace().filter(|word| *word != "x").peekable();
    let mut axis = || words.next_if(|word| *word != GAUGED && word.parse::<Damage>().is_err());
    let (first, second) = (axis(), axis());
    let is_gauged = words.next_if(|word| *word == GAUGED).is_some();
    let damage = match words.next() {
        None => Some(Damage::None),
        Some(word) => word.parse().ok(),
    };
    let length = |text: &str| Length::parse_as(text, bare).ok();
    let hole = first.and_then(length).and_then(|major| {
        let minor = second.map_or(Some(major), length)?;
        if is_gauged {
            return AsFound::gauged(major.min(minor), major.max(minor));
        }
        AsFound::new(major.max(minor), major.min(minor), damage?).ok()
    });
    GivenFor { text: text.to_owned(), hole }
}
