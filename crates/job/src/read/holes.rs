//! Holes as measured, from a CSV file or from the job itself.

use std::collections::HashMap;

use shophead::hole::{AsFound, Damage};
use shophead::length::{Length, ParseLengthError};

use super::keys::HOLES_FILE;
use super::sheet::{Cell, Record, records};
use super::source::{Said, Source, nearest_or_all, quoted};
use crate::model::MeasuredHole;

/// A hole of a row, from a holes file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HoleLine {
    /// Which row: its place in the list of rows.
    pub row: usize,
    /// What was measured.
    pub hole: MeasuredHole,
}

/// What a row must be known by to read its holes.
pub(super) struct RowKey {
    pub(super) name: String,
    /// `None` when the job's own count could not be read.
    pub(super) count: Option<u32>,
}

/// Holes that were said, with the place where.
#[derive(Default)]
pub(super) struct SaidHoles(HashMap<(usize, u32), Said>);

impl SaidHoles {
    /// Notes a hole; the earlier place when it is already said.
    pub(super) fn note(&mut self, row: usize, number: u32, here: Said) -> Option<Said> {
        match self.0.entry((row, number)) {
            std::collections::hash_map::Entry::Occupied(said) => Some(said.get().clone()),
            std::collections::hash_map::Entry::Vacant(free) => {
                free.insert(here);
                None
            }
        }
    }
}

/// What to say about a hole that was already said.
pub(super) fn measured_twice(number: u32, row: &str, earlier: &Said) -> String {
    format!("hole {number} of row {row} is measured twice, first at {earlier}")
}

/// The words for what is wrong with a hole.
pub(super) fn conditions() -> impl Iterator<Item = (&'static str, Damage)> + Clone {
    Damage::ALL.iter().map(|(damage, word)| (*word, *damage))
}

/// Reads every line of a holes file.
pub(super) fn lines(source: &Source<'_>, rows: &[RowKey], said: &mut SaidHoles) -> Vec<HoleLine> {
    let by_name: HashMap<&str, usize> =
        rows.iter().enumerate().rev().map(|(index, row)| (row.name.as_str(), index)).collect();
    let records = records(source, &HOLES_FILE, &["row", "hole", "major"]).unwrap_or_default();
    let mut lines = Vec::with_capacity(records.len());
    for record in records {
        if source.mistakes.is_full() {
            break;
        }
        lines.extend(line(source, &record, rows, &by_name, said));
    }
    lines
}

fn line(
    source: &Source<'_>,
    record: &Record,
    rows: &[RowKey],
    by_name: &HashMap<&str, usize>,
    said: &mut SaidHoles,
) -> Option<HoleLine> {
    let cell = |name: &str| record.filled(HOLES_FILE.names.iter().position(|known| *known == name)?);
    let required = |name: &str| {
        let found = cell(name);
        if found.is_none() {
            source.mistake(record.span.clone(), format!("this line has no {name}"), "fill the cell or delete the line");
        }
        found
    };
    let row = required("row").and_then(|cell| {
        let found = by_name.get(cell.text.as_str()).and_then(|index| Some((*index, rows.get(*index)?)));
        if found.is_none() {
            let help = nearest_or_all(&cell.text, rows.iter().map(|row| row.name.as_str()));
            source.mistake(cell.span.clone(), format!("the job has no row {}", quoted(&cell.text)), help);
        }
        found
    });
    let number = required("hole").and_then(|cell| {
        let count = row.and_then(|(_, row)| row.count).unwrap_or(super::MAX_COUNT);
        let number = cell.text.parse().ok().filter(|number| (1..=count).contains(number));
        if number.is_none() {
            let help = format!("right would be a whole number from 1 to {count}");
            source.mistake(cell.span.clone(), format!("hole cannot be {}", quoted(&cell.text)), help);
        }
        number
    });
    let axes_span = cell("minor").or(cell("major")).map_or(record.span.clone(), |cell| cell.span.clone());
    let major = required("major").and_then(|cell| length(source, cell, "major"));
    let minor = cell("minor").map_or(Some(None), |cell| length(source, cell, "minor").map(Some));
    let damage = cell("condition").map_or(Some(Damage::None), |cell| {
        let damage = Damage::from_word(&cell.text);
        if damage.is_none() {
            let help = nearest_or_all(&cell.text, conditions().map(|(word, _)| word));
            source.mistake(cell.span.clone(), format!("condition cannot be {}", quoted(&cell.text)), help);
        }
        damage
    });
    let (row, key) = row?;
    let number = number?;
    if let Some(earlier) = said.note(row, number, Said::at(source, record.span.start)) {
        source.mistake(record.span.clone(), measured_twice(number, &key.name, &earlier), "keep one of both");
        return None;
    }
    let major = major?;
    let as_found = AsFound::new(major, minor?.unwrap_or(major), damage?);
    let as_found = as_found.map_err(|error| source.refused(axes_span, "hole", &error)).ok()?;
    let remark = cell("remark").map(|cell| cell.text.clone()).unwrap_or_default();
    Some(HoleLine { row, hole: MeasuredHole { number, as_found, remark } })
}

/// A length in a cell.
pub(super) fn length(source: &Source<'_>, cell: &Cell, name: &str) -> Option<Length> {
    Length::parse(&cell.text).map_err(|error: ParseLengthError| source.refused(cell.span.clone(), name, &error)).ok()
}
