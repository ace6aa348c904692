//! What is on the shelf, from a CSV file.

use std::collections::HashMap;

use shophead::rivet::part::Part;

use super::keys::STOCK_FILE;
use super::sheet::{Cell, Record, records};
use super::source::{Said, Source, quoted};
use crate::order::Stock;

/// Reads every line of a stock file.
pub(super) fn stock(source: &Source<'_>) -> Vec<Stock> {
    let mut said: HashMap<Part<'static>, Said> = HashMap::new();
    let mut stock = Vec::new();
    for record in records(source, &STOCK_FILE, &["part", "on_hand"]).unwrap_or_default() {
        if source.mistakes.is_full() {
            break;
        }
        let Some(line) = line(source, &record) else { continue };
        let here = Said::at(source, record.span.start);
        if let Some(earlier) = said.insert(line.part, here) {
            let message = format!("{} stands twice, first at {earlier}", line.part);
            source.mistake(record.span.clone(), message, "add both up in one line");
        }
        stock.push(line);
    }
    stock
}

fn line(source: &Source<'_>, record: &Record) -> Option<Stock> {
    let required = |column: usize, name: &str| {
        let found = record.filled(column);
        if found.is_none() {
            source.mistake(record.span.clone(), format!("this line has no {name}"), "fill the cell or delete the line");
        }
        found
    };
    let part = required(0, "part").and_then(|cell| part(source, cell));
    let on_hand = required(1, "on_hand").and_then(|cell| whole(source, cell, "on_hand", 0));
    let pack = record.filled(2).map_or(Some(1), |cell| whole(source, cell, "pack", 1));
    Some(Stock { part: part?, on_hand: on_hand?, pack: pack? })
}

fn part(source: &Source<'_>, cell: &Cell) -> Option<Part<'static>> {
    let part = Part::parse(&cell.text).map_err(|error| source.refused(cell.span.clone(), "part", &error)).ok()?;
    if part.length().is_none() {
        let message = format!("{part} has no length");
        source.mistake(cell.span.clone(), message, format!("right would be {part}-5"));
        return None;
    }
    Some(part)
}

fn whole(source: &Source<'_>, cell: &Cell, name: &str, least: u32) -> Option<u32> {
    let number = cell.text.parse().ok().filter(|number| *number >= least);
    if number.is_none() {
        let message = format!("{name} cannot be {}", quoted(&cell.text));
        source.mistake(cell.span.clone(), message, format!("right would be a whole number, {least} or more"));
    }
    number
}
