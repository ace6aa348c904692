//! What is on the shelf, from a CSV file: a list made for this, or an export of a whole shelf as it comes.

use std::collections::HashMap;

use shophead::rivet::part::Part;

use super::keys::STOCK_FILE;
use super::sheet::{Record, sheet_as_it_comes};
use super::source::{Source, quoted};
use crate::cell::original;
use crate::order::{Shelf, ShelfNote, Stock};

/// What the columns of a stock file are called there, by our names for them.
pub type ColumnNames = [(&'static str, String)];

/// Reads every line of a stock file.
pub(super) fn shelf(source: &Source<'_>, names: &ColumnNames) -> Option<Shelf> {
    let sheet = sheet_as_it_comes(source, &STOCK_FILE, &["part", "on_hand"], names)?;
    let mut reader = Reader { source, shelf: Shelf::default(), places: HashMap::new() };
    for record in &sheet.records {
        if source.mistakes.is_full() {
            break;
        }
        reader.line(record);
    }
    Some(reader.shelf)
}

struct Reader<'s, 'm> {
    source: &'s Source<'m>,
    shelf: Shelf,
    /// Where each part stands in the shelf.
    places: HashMap<Part<'static>, usize>,
}

impl Reader<'_, '_> {
    fn note(&mut self, record: &Record, what: String) {
        let line = self.source.text.get(..record.span.start).map_or(0, |before| before.matches('\n').count()) + 1;
        self.shelf.notes.push(ShelfNote { line, what });
    }

    fn line(&mut self, record: &Record) {
        let Some(cell) = record.filled(0) else {
            self.note(record, "no part number: left out".into());
            return;
        };
        let written = original(&cell.text);
        let part = match Part::parse(written) {
            Ok(part) => part,
            Err(error) => {
                self.shelf.foreign += 1;
                // Most of a shelf is something else. What is nearly a rivet is said, so that a slip does not empty the shelf.
                if error.nearest().next().is_some() {
                    self.note(record, format!("{}: {error}: left out", quoted(written)));
                }
                return;
            }
        };
        if part.length().is_none() {
            self.note(record, format!("{part} has no length: left out"));
            return;
        }
        let on_hand = match record.filled(1).map(|cell| (cell, count(original(&cell.text)))) {
            Some((_, Some(count))) if count >= 0 => u32::try_from(count).unwrap_or(u32::MAX),
            Some((cell, Some(_))) => {
                let what = format!("{part}: {} on hand is below zero: counted as none", original(&cell.text));
                self.note(record, what);
                0
            }
            Some((cell, None)) => {
                let message = format!("on_hand cannot be {}", quoted(&cell.text));
                self.source.mistake(cell.span.clone(), message, "right would be a whole number, such as 40");
                return;
            }
            None => {
                self.note(record, format!("{part}: on hand is empty: counted as none"));
                0
            }
        };
        let pack = match record.filled(2).map(|cell| (cell, count(original(&cell.text)))) {
            Some((_, Some(pack))) if pack >= 1 => Some(u32::try_from(pack).unwrap_or(u32::MAX)),
            Some((cell, _)) => {
                let message = format!("pack cannot be {}", quoted(&cell.text));
                self.source.mistake(cell.span.clone(), message, "right would be a whole number, 1 or more");
                return;
            }
            None => None,
        };
        match self.places.get(&part).and_then(|place| self.shelf.stock.get_mut(*place)) {
            Some(lot) => {
                lot.on_hand = lot.on_hand.saturating_add(on_hand);
                let before = lot.pack;
                if let Some(pack) = pack
                    && pack != before
                {
                    // What is bought comes in the larger pack: nobody is then short.
                    lot.pack = before.max(pack);
                    let what = format!("{part}: a pack of {pack} here, of {before} before: {} counts", lot.pack);
                    self.note(record, what);
                }
            }
            None => {
                self.places.insert(part, self.shelf.stock.len());
                self.shelf.stock.push(Stock { part, on_hand, pack: pack.unwrap_or(1) });
            }
        }
    }
}

/// A whole number as an export writes it: `40`, `40.0`, `1,200`, `40 EA`.
fn count(text: &str) -> Option<i64> {
    let number = text.trim_end_matches(|c: char| c.is_ascii_alphabetic()).trim();
    let whole = match number.split_once('.') {
        Some((whole, rest)) if rest.chars().all(|c| c == '0') => whole,
        Some(_) => return None,
        None => number,
    };
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or_default();
    let mut digits = first.to_owned();
    for group in groups {
        // Only a comma before three digits is one between thousands.
        if group.len() != 3 {
            return None;
        }
        digits.push_str(group);
    }
    digits.parse().ok()
}
