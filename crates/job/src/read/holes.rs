//! Holes as measured, from a CSV file or from the job itself.

use std::collections::HashMap;

use jiff::civil::Date;
use shophead::drill::Drill;
use shophead::hole::{AsFound, Damage, Direction};
use shophead::length::{Length, ParseLengthError};

use super::keys::HOLES_FILE;
use super::sheet::{Cell, Columns, Record, sheet};
use super::source::{Said, Source, nearest_or_all, quoted};
use crate::cell::original;
use crate::model::{MeasuredHole, Taken};

/// A hole of a row, from a holes file.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct HoleLine {
    /// Which row: its place in the list of rows.
    pub row: usize,
    /// What was measured.
    pub hole: MeasuredHole,
}

/// The condition of a line that clears what earlier lines say of its hole.
pub const CLEARED: &str = "cleared";
/// The condition of a hole that was tried with gauges: the go gauge as minor, the no-go gauge as major.
pub const GAUGED: &str = "gauged";

/// What a row must be known by to read its holes.
pub(super) struct RowKey {
    pub(super) name: String,
    /// `None` when the job's own count could not be read.
    pub(super) count: Option<u32>,
}

/// Holes that were said: where, and in a holes file by which of its lines last.
#[derive(Default)]
pub(super) struct SaidHoles(HashMap<(usize, u32), (Said, Option<usize>)>);

impl SaidHoles {
    /// Notes a hole; the earlier place when it is already said. In a file that corrects a later line replaces an earlier one: that is how
    /// a survey does it.
    pub(super) fn note(&mut self, row: usize, number: u32, here: Said, corrects: bool) -> Option<Said> {
        match self.0.entry((row, number)) {
            std::collections::hash_map::Entry::Occupied(said) => {
                let (said, _) = said.get();
                (!corrects || !said.is_beside(&here)).then(|| said.clone())
            }
            std::collections::hash_map::Entry::Vacant(free) => {
                free.insert((here, None));
                None
            }
        }
    }

    /// Puts a line of a holes file in the place of the one that counted for its hole so far, which is told.
    fn replace(&mut self, row: usize, number: u32, line: usize) -> Option<usize> {
        self.0.get_mut(&(row, number))?.1.replace(line)
    }
}

/// What to say about a hole that was already said.
pub(super) fn measured_twice(number: u32, row: &str, earlier: &Said) -> String {
    format!("hole {number} of row {row} is measured twice, first at {earlier}")
}

/// A line of a holes file with what other columns say.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct HoleRecord {
    /// Which row: its place in the list of rows.
    pub row: usize,
    /// Which hole of it.
    pub number: u32,
    /// What was measured; `None` where an earlier entry is cleared.
    pub hole: Option<MeasuredHole>,
    /// Cells of columns that this program does not know, with the place of the column. Empty ones are left out.
    pub others: Vec<(usize, String)>,
}

/// The columns of a holes file that this program knows.
pub const COLUMNS: [&str; 11] =
    ["row", "hole", "major", "minor", "condition", "direction", "opened", "by", "date", "gauge", "remark"];

/// A whole holes file: every line, also those that a later one replaces.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct HolesFile {
    /// How many columns it has.
    pub width: usize,
    /// Where each of [`COLUMNS`] stands.
    pub columns: [Option<usize>; COLUMNS.len()],
    /// Its lines, in its order.
    pub records: Vec<HoleRecord>,
}

/// Reads a holes file: of several lines for one hole the last one, in the order of the file. A hole that was cleared is left out.
pub(super) fn lines(source: &Source<'_>, rows: &[RowKey], said: &mut SaidHoles) -> Vec<HoleLine> {
    let mut lines: Vec<Option<HoleLine>> = Vec::new();
    every_line(source, rows, said, |line, replaced| {
        let earlier = replaced.and_then(|place| lines.get_mut(place)?.take());
        let hole = line.hole.map(|hole| hole.after(earlier.as_ref().map(|earlier| &earlier.hole)));
        lines.push(hole.map(|hole| HoleLine { row: line.row, hole }));
    });
    lines.into_iter().flatten().collect()
}

/// Reads a holes file whole.
pub(super) fn file(source: &Source<'_>, rows: &[RowKey]) -> Option<HolesFile> {
    let mut records = Vec::new();
    let (width, columns) = every_line(source, rows, &mut SaidHoles::default(), |line, _| {
        let Line { row, number, hole, record } = line;
        let others = record.others().map(|(index, cell)| (index, cell.text.clone())).collect();
        records.push(HoleRecord { row, number, hole, others });
    })?;
    Some(HolesFile { width, columns: std::array::from_fn(|column| *columns.get(column)?), records })
}

/// A line that could be read.
struct Line<'r> {
    row: usize,
    number: u32,
    hole: Option<MeasuredHole>,
    record: &'r Record,
}

/// Calls `each` for every line that could be read, with which of them it replaces; tells how many columns there are, and where.
fn every_line(
    source: &Source<'_>,
    rows: &[RowKey],
    said: &mut SaidHoles,
    mut each: impl FnMut(Line<'_>, Option<usize>),
) -> Option<(usize, Columns)> {
    let by_name = by_name(rows);
    let sheet = sheet(source, &HOLES_FILE, &["row", "hole", "major"])?;
    refuse_cut_off(source);
    let mut lines = 0;
    for record in &sheet.records {
        if source.mistakes.is_full() {
            break;
        }
        if let Some((row, number, hole)) = line(source, record, rows, &by_name, said) {
            let replaced = said.replace(row, number, lines);
            each(Line { row, number, hole, record }, replaced);
            lines += 1;
        }
    }
    Some((sheet.header.len(), sheet.columns))
}

/// A line counts once its line end is there. One without is taken all the same when it looks whole: some editors leave the last line
/// end out. One that ends with a comma or a quote could be a line that a crash cut off.
pub(super) fn refuse_cut_off(source: &Source<'_>) {
    let last = source.text.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let text = source.text.get(last..).unwrap_or_default();
    if last > 0 && may_be_cut_off(text) {
        let message = "this line has no line end, so it may have been cut off";
        let help = "complete it and end it; a survey that goes on with this file puts such a line aside by itself";
        source.mistake(last..source.text.len(), message, help);
    }
}

/// Whether a line without its line end could be a part of one that was written with its last cell in quotes.
pub(super) fn may_be_cut_off(line: &str) -> bool {
    line.trim_end().ends_with([',', '"'])
}

/// The cell of a column that must say something.
pub(super) fn required<'r>(source: &Source<'_>, record: &'r Record, column: usize, name: &str) -> Option<&'r Cell> {
    let found = record.filled(column);
    if found.is_none() {
        source.mistake(record.span.clone(), format!("this line has no {name}"), "fill the cell or delete the line");
    }
    found
}

/// Which row and which hole of it a line is about, from its first two columns.
pub(super) fn which_hole<'k>(
    source: &Source<'_>,
    record: &Record,
    rows: &'k [RowKey],
    by_name: &HashMap<&str, usize>,
) -> (Option<(usize, &'k RowKey)>, Option<u32>) {
    let row = required(source, record, 0, "row").and_then(|cell| {
        let found = by_name.get(original(&cell.text)).and_then(|index| Some((*index, rows.get(*index)?)));
        if found.is_none() {
            let help = nearest_or_all(&cell.text, rows.iter().map(|row| row.name.as_str()));
            source.mistake(cell.span.clone(), format!("the job has no row {}", quoted(&cell.text)), help);
        }
        found
    });
    let number = required(source, record, 1, "hole").and_then(|cell| {
        let count = row.and_then(|(_, row)| row.count).unwrap_or(super::MAX_COUNT);
        let number = cell.text.parse().ok().filter(|number| (1..=count).contains(number));
        if number.is_none() {
            let help = format!("right would be a whole number from 1 to {count}");
            source.mistake(cell.span.clone(), format!("hole cannot be {}", quoted(&cell.text)), help);
        }
        number
    });
    (row, number)
}

/// The rows by their names; of two with one name the first.
pub(super) fn by_name(rows: &[RowKey]) -> HashMap<&str, usize> {
    rows.iter().enumerate().rev().map(|(index, row)| (row.name.as_str(), index)).collect()
}

fn line(
    source: &Source<'_>,
    record: &Record,
    rows: &[RowKey],
    by_name: &HashMap<&str, usize>,
    said: &mut SaidHoles,
) -> Option<(usize, u32, Option<MeasuredHole>)> {
    let cell = |name: &str| record.filled(HOLES_FILE.names.iter().position(|known| *known == name)?);
    let (row, number) = which_hole(source, record, rows, by_name);
    let axes_span = cell("minor").or(cell("major")).map_or(record.span.clone(), |cell| cell.span.clone());
    let is_cleared = cell("condition").is_some_and(|cell| cell.text == CLEARED);
    if is_cleared && let Some(measure) = cell("major").or(cell("minor")) {
        let help = "leave the measure out, or the word cleared";
        source.mistake(measure.span.clone(), "this line clears its hole and measures it", help);
        return None;
    }
    if is_cleared {
        return Some((row?.0, number?, None));
    }
    if !is_condition_read(source, record, cell("condition"), |text| {
        text.parse().is_ok_and(|found: Damage| found != Damage::None)
    }) {
        return None;
    }
    let is_gauged = cell("condition").is_some_and(|cell| cell.text == GAUGED);
    let major = required(source, record, 2, "major").and_then(|cell| width(source, cell, "major"));
    let minor = cell("minor").map_or(Some(None), |cell| width(source, cell, "minor").map(Some));
    let damage = cell("condition").filter(|_| !is_gauged).map_or(Some(Damage::None), |cell| {
        let damage = cell.text.parse().ok();
        if damage.is_none() {
            let words = Damage::ALL.iter().map(|damage| damage.as_str()).chain([GAUGED, CLEARED]);
            let help = nearest_or_all(&cell.text, words);
            source.mistake(cell.span.clone(), format!("condition cannot be {}", quoted(&cell.text)), help);
        }
        damage
    });
    let direction = cell("direction").map_or(Some(None), |cell| {
        let direction = cell.text.parse().ok();
        if direction.is_none() {
            let help = nearest_or_all(&cell.text, Direction::ALL.iter().map(|direction| direction.as_str()));
            source.mistake(cell.span.clone(), format!("direction cannot be {}", quoted(&cell.text)), help);
        }
        direction.map(Some)
    });
    let taken = taken(source, cell);
    let opened = cell("opened").map_or(Some(None), |cell| {
        Drill::parse(&cell.text).map_err(|error| source.refused(cell.span.clone(), "opened", &error)).ok().map(Some)
    });
    let (row, key) = row?;
    let number = number?;
    if let Some(earlier) = said.note(row, number, Said::at(source, record.span.start), true) {
        source.mistake(record.span.clone(), measured_twice(number, &key.name, &earlier), "keep one of both");
        return None;
    }
    let major = major?;
    let minor = minor?;
    let as_found = if is_gauged {
        let gauged = minor.and_then(|go| AsFound::gauged(go, major));
        if gauged.is_none() {
            let help = "right would be the go gauge in minor and a larger no-go gauge in major";
            source.mistake(axes_span, "a gauged hole needs both gauges", help);
        }
        gauged?
    } else {
        let as_found = AsFound::of(major, minor, damage?);
        as_found.map_err(|error| source.refused(axes_span, "hole", &error)).ok()?
    };
    let opened = opened?;
    let as_found = as_found.lying(direction?).opened(opened.is_some());
    let remark = cell("remark").map(|cell| original(&cell.text).to_owned()).unwrap_or_default();
    let hole = MeasuredHole { number, as_found, opened, before: None, remark, taken: taken? };
    Some((row, number, Some(hole)))
}

/// A column by another name is carried through unread: not where it says that something is bad and the column `condition` says nothing. False then.
pub(super) fn is_condition_read(
    source: &Source<'_>,
    record: &Record,
    condition: Option<&Cell>,
    is_bad: impl Fn(&str) -> bool,
) -> bool {
    let unread = record.others().map(|(_, cell)| cell).find(|cell| condition.is_none() && is_bad(&cell.text));
    if let Some(unread) = unread {
        let message = format!("{} is a condition, but this column is not read", quoted(&unread.text));
        source.mistake(unread.span.clone(), message, "name the column condition");
    }
    unread.is_none()
}

/// Who measured something, when and with what: the columns by, date and gauge.
pub(super) fn taken<'r>(source: &Source<'_>, cell: impl Fn(&str) -> Option<&'r Cell>) -> Option<Taken> {
    let text = |name: &str| cell(name).map(|cell| original(&cell.text).to_owned()).unwrap_or_default();
    let date = cell("date").map_or(Some(None), |cell| date(source, cell).map(Some));
    Some(Taken { by: text("by"), date: date?, gauge: text("gauge") })
}

/// A date in a cell.
pub(super) fn date(source: &Source<'_>, cell: &Cell) -> Option<Date> {
    let date = cell.text.parse().ok();
    if date.is_none() {
        source.mistake(cell.span.clone(), format!("{} is no date", quoted(&cell.text)), "right would be 2026-11-25");
    }
    date
}

/// How wide a hole is.
fn width(source: &Source<'_>, cell: &Cell, name: &str) -> Option<Length> {
    Length::parse_hole(&cell.text, source.bare.get())
        .map_err(|error: ParseLengthError| source.refused(cell.span.clone(), name, &error))
        .ok()
}

/// A length in a cell.
pub(super) fn length(source: &Source<'_>, cell: &Cell, name: &str) -> Option<Length> {
    Length::parse_as(&cell.text, source.bare.get())
        .map_err(|error: ParseLengthError| source.refused(cell.span.clone(), name, &error))
        .ok()
}
