//! Driven heads as measured and looked at, from a CSV file.

use std::collections::HashMap;

use shophead::length::{Interval, Length};
use shophead::upset::{Defect, DefectKind};

use super::holes::{RowKey, by_name, is_condition_read, length, refuse_cut_off, taken, which_hole};
use super::keys::DRIVEN_FILE;
use super::sheet::{Cell, Record, sheet};
use super::source::{Source, nearest_or_all, quoted};
use crate::cell::original;
use crate::model::Taken;

/// A whole driven file.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct DrivenFile {
    /// The names of the columns that nothing is judged by.
    pub other_columns: Vec<String>,
    /// Its lines, in its order; a later line for a hole replaces an earlier one.
    pub lines: Vec<DrivenLine>,
}

/// A driven rivet, from one line of the file.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct DrivenLine {
    /// Which row: its place in the list of rows.
    pub row: usize,
    /// Which hole of it.
    pub number: u32,
    /// What was measured and seen.
    pub head: DrivenHead,
    /// What was seen, as it is written; may be empty.
    pub condition: String,
    /// What somebody noted; may be empty.
    pub remark: String,
    /// Who looked at it, when and with what.
    pub taken: Taken,
    /// The batch that the rivet came from; may be empty.
    pub batch: String,
    /// Who drove it; may be empty.
    pub driven_by: String,
    /// What the other columns say, one cell each.
    pub others: Vec<String>,
}

/// What was measured and seen on a driven rivet.
#[derive(Clone, Debug, PartialEq, Default)]
#[non_exhaustive]
pub struct DrivenHead {
    /// The diameter of its driven head; of one out of round the least and the greatest. `None` where it was not measured.
    pub diameter: Option<Interval>,
    /// The height; of a tipped one the least and the greatest.
    pub height: Option<Interval>,
    /// What was seen on it, with the height of the manufactured head still to come where that counts.
    pub seen: Vec<Defect>,
}

/// So many of the columns that are known, the first ones, are judged; the others are for the record.
const JUDGED: usize = 6;

/// Nothing was seen that is wrong.
const SOUND: &str = "sound";

/// The words for what is seen, and whether a figure follows.
const SEEN: [(&str, Figures); 21] = [
    (SOUND, Figures::None),
    (DefectKind::Cracks.as_str(), Figures::Cracks),
    ("cracks-meet", Figures::Cracks),
    (DefectKind::HeadCracked.as_str(), Figures::MaybeLength),
    (DefectKind::ToolMark.as_str(), Figures::Length),
    (DefectKind::Flattened.as_str(), Figures::Length),
    (DefectKind::Proud.as_str(), Figures::Length),
    (DefectKind::Low.as_str(), Figures::Length),
    (DefectKind::Shaved.as_str(), Figures::Length),
    (DefectKind::Gap.as_str(), Figures::None),
    (DefectKind::GapManufactured.as_str(), Figures::None),
    (DefectKind::GapDriven.as_str(), Figures::Gap),
    (APART, Figures::MaybeLength),
    (DefectKind::SheetsApartEdge.as_str(), Figures::Length),
    (DefectKind::Buckled.as_str(), Figures::None),
    (DefectKind::Clinched.as_str(), Figures::None),
    (DefectKind::Tipped.as_str(), Figures::None),
    (DefectKind::Stepped.as_str(), Figures::None),
    (DefectKind::Loose.as_str(), Figures::None),
    (DefectKind::SheetDamaged.as_str(), Figures::None),
    (NOTCHED, Figures::None),
];
/// By which feeler may follow.
const APART: &str = DefectKind::SheetsApart.as_str();
/// Told by the shank, once it is out.
const NOTCHED: &str = DefectKind::Notched.as_str();

/// What follows a word, behind colons.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Figures {
    None,
    /// `proud:.003`
    Length,
    /// `head-cracked` or `head-cracked:.180`, `sheets-apart` or `sheets-apart:.003`
    MaybeLength,
    /// `gap-driven:.002:30`
    Gap,
    /// `cracks:2` or `cracks:2:.150`
    Cracks,
}

/// Every word for what is seen on a driven rivet.
pub fn seen_words() -> impl Iterator<Item = &'static str> + Clone {
    SEEN.iter().map(|(word, _)| *word)
}

/// Reads every line of a driven file.
pub(super) fn file(source: &Source<'_>, rows: &[RowKey]) -> Option<DrivenFile> {
    let by_name = by_name(rows);
    let sheet = sheet(source, &DRIVEN_FILE, &["row", "hole"])?;
    refuse_cut_off(source);
    // What is only kept on record goes through like the columns that nobody here knows.
    let known = |index: usize| sheet.columns.iter().take(JUDGED).any(|place| *place == Some(index));
    let others: Vec<usize> = (0..sheet.header.len()).filter(|index| !known(*index)).collect();
    let mut lines = Vec::with_capacity(sheet.records.len());
    for record in &sheet.records {
        if source.mistakes.is_full() {
            break;
        }
        lines.extend(line(source, record, rows, &by_name, &others));
    }
    let name = |index: &usize| sheet.header.get(*index).map(|cell| cell.text.clone()).unwrap_or_default();
    Some(DrivenFile { other_columns: others.iter().map(name).collect(), lines })
}

fn line(
    source: &Source<'_>,
    record: &Record,
    rows: &[RowKey],
    by_name: &HashMap<&str, usize>,
    others: &[usize],
) -> Option<DrivenLine> {
    let cell = |name: &str| record.filled(DRIVEN_FILE.names.iter().position(|known| *known == name)?);
    let (row, number) = which_hole(source, record, rows, by_name);
    let measure = |name: &str| cell(name).map_or(Some(None), |cell| measure(source, cell, name).map(Some));
    let (diameter, height) = (measure("diameter"), measure("height"));
    let taken = taken(source, cell);
    let is_bad = |text: &str| text.split_whitespace().all(|word| word.parse::<DefectKind>().is_ok());
    if !is_condition_read(source, record, cell("condition"), is_bad) {
        return None;
    }
    let seen = cell("condition").map_or(Some(Vec::new()), |cell| seen(source, cell));
    if ["diameter", "height", "condition"].iter().all(|name| cell(name).is_none()) {
        let help = "measure the head, or write sound in the column condition when it was looked at only";
        source.mistake(record.span.clone(), "this line says nothing about its rivet", help);
        return None;
    }
    let text = |name: &str| cell(name).map(|cell| original(&cell.text).to_owned()).unwrap_or_default();
    let other = |index: &usize| record.cells.get(*index).map(|cell| cell.text.clone()).unwrap_or_default();
    Some(DrivenLine {
        row: row?.0,
        number: number?,
        head: DrivenHead { diameter: diameter?, height: height?, seen: seen? },
        condition: cell("condition").map(|cell| cell.text.clone()).unwrap_or_default(),
        remark: text("remark"),
        taken: taken?,
        batch: text("batch"),
        driven_by: text("driven_by"),
        others: others.iter().map(other).collect(),
    })
}

/// One measure, or the least and the greatest with a comma between them.
fn measure(source: &Source<'_>, cell: &Cell, name: &str) -> Option<Interval> {
    let (one, other) = cell.text.split_once(',').unwrap_or((&cell.text, &cell.text));
    let part = |text: &str| length(source, &Cell { text: text.trim().into(), span: cell.span.clone() }, name);
    let (one, other) = (part(one)?, part(other)?);
    if one.min(other) <= Length::ZERO {
        let help = "right would be .180, or \".180,.190\" where the head is out of round or tipped";
        source.mistake(cell.span.clone(), format!("{name} must be above zero"), help);
        return None;
    }
    Some(Interval::of(one, other))
}

/// Words with blanks between them.
fn seen(source: &Source<'_>, cell: &Cell) -> Option<Vec<Defect>> {
    let mut all = Some(Vec::new());
    let words: Vec<&str> = cell.text.split_whitespace().collect();
    for written in &words {
        match one_seen(source, cell, written) {
            // Whoever writes that a rivet is sound and loose means one of both.
            Some(None) if words.len() > 1 => {
                source.mistake(cell.span.clone(), "condition says sound and something else too", "keep one of both");
                all = None;
            }
            Some(defect) => {
                if let Some(all) = &mut all {
                    all.extend(defect);
                }
            }
            None => all = None,
        }
    }
    all
}

/// One word; `Some(None)` for a sound rivet.
fn one_seen(source: &Source<'_>, cell: &Cell, written: &str) -> Option<Option<Defect>> {
    let mut parts = written.split(':');
    let word = parts.next().unwrap_or_default();
    let figures: Vec<&str> = parts.collect();
    let Some((word, kind)) = SEEN.iter().copied().find(|(known, _)| *known == word) else {
        source.mistake(
            cell.span.clone(),
            format!("condition cannot be {}", quoted(word)),
            nearest_or_all(word, seen_words()),
        );
        return None;
    };
    let figure = |text: &str| {
        let length = length(source, &Cell { text: text.into(), span: cell.span.clone() }, word)?;
        if length <= Length::ZERO {
            source.mistake(
                cell.span.clone(),
                format!("{word} must be above zero"),
                format!("right would be {word}:.010"),
            );
            return None;
        }
        Some(length)
    };
    match (kind, figures.as_slice()) {
        (Figures::None, []) => Some(plain(word)),
        (Figures::Length, [one]) => {
            let by = figure(one)?;
            Some(Some(match word {
                "proud" => Defect::Proud(by),
                "low" => Defect::Low(by),
                "shaved" => Defect::Shaved(by),
                "flattened" => Defect::Flattened(by),
                "sheets-apart-edge" => Defect::SheetsApartAtEdge(by),
                // How high the manufactured head is stands with the rivet, which the file does not know.
                _ => Defect::ToolMark { depth: by, head_height: Length::ZERO },
            }))
        }
        (Figures::MaybeLength, [] | [_]) => {
            let given = match figures.first() {
                Some(given) => Some(figure(given)?),
                None => None,
            };
            Some(Some(match given {
                Some(feeler) if word == APART => Defect::SheetsApartBy(feeler),
                None if word == APART => Defect::SheetsApart,
                innermost => Defect::ManufacturedCracks { innermost },
            }))
        }
        (Figures::Gap, [feeler, percent]) => {
            let feeler = figure(feeler)?;
            let Some(rim_percent) = percent.parse().ok().filter(|percent| *percent <= 100) else {
                let help = format!("right would be {word}:.002:30, with a percentage of the rim from 0 to 100");
                source.mistake(cell.span.clone(), format!("{} lacks the part of the rim", quoted(written)), help);
                return None;
            };
            Some(Some(Defect::GapUnderDrivenHead { feeler, rim_percent }))
        }
        (Figures::Cracks, [] | [_] | [_, _]) => {
            let count = figures.first().map_or(Some(1), |count| count.parse().ok());
            let Some(count) = count else {
                let help =
                    format!("right would be {word}:2, or {word}:2:.150 with the circle that the innermost reaches");
                source.mistake(cell.span.clone(), format!("{} lacks the number of cracks", quoted(written)), help);
                return None;
            };
            let innermost = match figures.get(1) {
                Some(reach) => Some(figure(reach)?),
                None => None,
            };
            Some(Some(Defect::Cracks { count, innermost, meeting: word == "cracks-meet" }))
        }
        _ => {
            let help = match kind {
                Figures::None => format!("right would be {word}"),
                Figures::Length => format!("right would be {word}:.010"),
                Figures::MaybeLength if word == APART => format!("right would be {word} or {word}:.003"),
                Figures::MaybeLength => format!("right would be {word} or {word}:.180"),
                Figures::Gap => format!("right would be {word}:.002:30"),
                Figures::Cracks => format!("right would be {word}:2 or {word}:2:.150"),
            };
            let message = format!("{} does not say what belongs to {word}", quoted(written));
            source.mistake(cell.span.clone(), message, help);
            None
        }
    }
}

/// The words without figures.
fn plain(word: &str) -> Option<Defect> {
    Some(match word {
        "gap" => Defect::GapUnderHead,
        "gap-manufactured" => Defect::GapUnderManufacturedHead,
        "buckled" => Defect::BuckledShank,
        "clinched" => Defect::Clinched,
        "tipped" => Defect::Tipped,
        "stepped" => Defect::Stepped,
        "loose" => Defect::Loose,
        "sheet-damaged" => Defect::SheetDamaged,
        NOTCHED => Defect::NotchedShank,
        _ => return None,
    })
}
