//! The factory seams of a panel that is replaced, from a CSV file.

use shophead::length::{Length, ParseLengthError};
use shophead::material::Material;
use shophead::rivet::part::Part;
use shophead::stack::Stack;

use super::keys::SEAMS_FILE;
use super::layer::read_layer;
use super::row::read_material;
use super::sheet::{Cell, Record, records};
use super::source::Source;

/// A seam as the factory made it, and the side of the new panel that may copy it. Lines of one side stand for it together.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct FactorySeam {
    /// The side of the new panel.
    pub side: String,
    /// How long the side is.
    pub length: Length,
    /// What the seam goes through, the manufactured head first.
    pub stack: Stack,
    /// Its rivet; a length does not count.
    pub rivet: Part<'static>,
    /// From rivet to rivet.
    pub pitch: Length,
    /// From the row to the nearest edge.
    pub edge: Length,
    /// How many rows.
    pub rows: u8,
    /// From row to row; the pitch where it is not given.
    pub apart: Length,
    /// Whether each rivet stands against the gap of the next row.
    pub staggered: bool,
}

/// Reads every line.
pub(super) fn seams(source: &Source<'_>, own: &[Material]) -> Option<Vec<FactorySeam>> {
    let records = records(source, &SEAMS_FILE, &["side", "length", "layers", "rivet", "pitch", "edge"])?;
    if records.is_empty() && !source.mistakes.is_full() {
        source.mistake(0..0, "there is no seam in this file", "right would be one line for each factory seam");
    }
    Some(records.iter().filter_map(|record| seam(source, record, own)).collect())
}

fn seam(source: &Source<'_>, record: &Record, own: &[Material]) -> Option<FactorySeam> {
    let required = |column: usize, name: &str| {
        let found = record.filled(column);
        if found.is_none() {
            source.mistake(record.span.clone(), format!("this line has no {name}"), "fill the cell or delete the line");
        }
        found
    };
    let length = |column: usize, name: &str| required(column, name).and_then(|cell| above_zero(source, cell, name));
    let side = required(0, "side").map(|cell| cell.text.clone());
    let long = length(1, "length");
    let stack = required(2, "layers").and_then(|cell| layers(source, cell, own));
    let rivet = required(3, "rivet").and_then(|cell| {
        let part = Part::parse(&cell.text).map_err(|error| source.refused(cell.span.clone(), "rivet", &error));
        part.ok().map(|part| part.without_length())
    });
    let (pitch, edge) = (length(4, "pitch"), length(5, "edge"));
    let rows = record.filled(6).map_or(Some(1), |cell| rows(source, cell));
    let apart = record.filled(7).map(|cell| above_zero(source, cell, "row_spacing"));
    let staggered = record.filled(8).map_or(Some(false), |cell| staggered(source, cell));
    let (pitch, rows) = (pitch?, rows?);
    Some(FactorySeam {
        side: side?,
        length: long?,
        stack: stack?,
        rivet: rivet?,
        pitch,
        edge: edge?,
        rows,
        apart: apart.unwrap_or(Some(pitch))?,
        staggered: staggered?,
    })
}

fn above_zero(source: &Source<'_>, cell: &Cell, name: &str) -> Option<Length> {
    let length = Length::parse_as(&cell.text, source.bare.get())
        .map_err(|error: ParseLengthError| source.refused(cell.span.clone(), name, &error))
        .ok()?;
    if length <= Length::ZERO {
        source.mistake(cell.span.clone(), format!("{name} must be above zero"), "right would be .75");
        return None;
    }
    Some(length)
}

fn layers(source: &Source<'_>, cell: &Cell, own: &[Material]) -> Option<Stack> {
    let known = |text: &str| read_material(text, own).map_err(|error| error.to_string());
    let mut stack = Stack::new();
    for item in cell.text.split(',') {
        let layer = read_layer(item.trim(), source.bare.get(), &known);
        let pushed = layer.and_then(|layer| stack.push(layer).map_err(|error| error.to_string()));
        if let Err(error) = pushed {
            let (what, right) = error.split_once("; ").unwrap_or((&error, "right would be 2024-T3:.032,2024-T3:.040"));
            source.mistake(cell.span.clone(), format!("layer {item:?}: {what}"), right);
            return None;
        }
    }
    Some(stack)
}

fn rows(source: &Source<'_>, cell: &Cell) -> Option<u8> {
    let rows = cell.text.parse().ok().filter(|rows| *rows > 0 && *rows <= 12);
    if rows.is_none() {
        source.mistake(cell.span.clone(), "rows is no whole number from 1 to 12", "right would be 2");
    }
    rows
}

fn staggered(source: &Source<'_>, cell: &Cell) -> Option<bool> {
    match cell.text.as_str() {
        "yes" => Some(true),
        "no" => Some(false),
        _ => {
            source.mistake(cell.span.clone(), "staggered is neither yes nor no", "right would be yes");
            None
        }
    }
}
