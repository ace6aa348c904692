//! Rows from a CSV file: a line a row, as a spreadsheet keeps them.
//!
//! A line is read by what reads a table `[[row]]`, its cells standing for the keys. A line with holes is an exception of its row.

use std::collections::HashMap;
use std::ops::Range;

use super::cursor::Table;
use super::holes::SaidHoles;
use super::job::Names;
use super::keys;
use super::row::{Around, RowDraft, row_of};
use super::sheet::{Cell, Record, sheet};
use super::source::{Source, nearest, quoted};

/// Reads every row of the file; `before` is how many rows the job has already.
pub(super) fn rows(
    source: &Source<'_>,
    before: usize,
    names: &mut Names,
    around: &Around<'_>,
    said: &mut SaidHoles,
) -> Option<Vec<RowDraft>> {
    let sheet = sheet(source, &keys::ROWS_FILE, &["row"])?;
    near_misses(source, &sheet.header, &sheet.columns);
    let lines: Vec<Line<'_>> = sheet.records.iter().map(Line::of).collect();
    let mut exceptions: HashMap<&str, Vec<&Line<'_>>> = HashMap::new();
    for line in lines.iter().filter(|line| line.is_exception()) {
        let name = line.name().map_or("", |cell| cell.text.as_str());
        let of_row = |other: &&Line<'_>| !other.is_exception() && other.name().is_some_and(|cell| cell.text == name);
        match line.name() {
            None => source.mistake(line.span.clone(), "this exception has no row", "fill its cell in the column row"),
            Some(cell) if !lines.iter().any(|other| of_row(&other)) => {
                let help = "the line of a row has no holes; that of an exception names the holes of a row in this file";
                source.mistake(cell.span.clone(), format!("no line of this file is row {}", quoted(name)), help);
            }
            Some(_) => exceptions.entry(name).or_default().push(line),
        }
    }
    let mut drafts = Vec::new();
    for line in lines.iter().filter(|line| !line.is_exception()) {
        if source.mistakes.is_full() {
            break;
        }
        let own = line.name().and_then(|cell| exceptions.get(cell.text.as_str()));
        let tables = own.into_iter().flatten().map(|line| Some(line.exception(source))).collect();
        let table = Table::of_line(source, &line.cells, line.span.clone(), "this row".into(), &keys::ROW);
        drafts.push(row_of(table, Some(tables), before + drafts.len(), names, around, said));
    }
    if drafts.is_empty() && !source.mistakes.is_full() {
        let help =
            "fill in one line a row, such as K1,\"2024-T3:.032,2024-T3:.040\",MS20470AD4-5,48,3/4,3/8,primary,frame";
        source.mistake(0..0, "there is no row in this file yet", help);
    }
    Some(drafts)
}

/// A line, and what it says.
struct Line<'r> {
    cells: Vec<(&'static str, &'r Cell)>,
    span: Range<usize>,
}

impl<'r> Line<'r> {
    fn of(record: &'r Record) -> Line<'r> {
        let cell = |(column, name): (usize, &&'static str)| Some((*name, record.filled(column)?));
        Line { cells: keys::ROWS_FILE.names.iter().enumerate().filter_map(cell).collect(), span: record.span.clone() }
    }

    fn cell(&self, column: &str) -> Option<&'r Cell> {
        self.cells.iter().find(|(name, _)| *name == column).map(|(_, cell)| *cell)
    }

    fn name(&self) -> Option<&'r Cell> {
        self.cell("row")
    }

    fn is_exception(&self) -> bool {
        self.cell("holes").is_some()
    }

    /// The exception that it is. What an exception cannot have is refused.
    fn exception<'t>(&'t self, source: &'t Source<'t>) -> Table<'t> {
        for (name, cell) in self.cells.iter().filter(|(name, _)| *name != "row") {
            let is_key = keys::EXCEPTION.names.iter().any(|key| super::cursor::column_of(key) == *name);
            if !is_key {
                let help = "leave the cell empty, or take the holes out where this is a row";
                source.mistake(cell.span.clone(), format!("an exception has no {name} of its own"), help);
            }
        }
        Table::of_line(source, &self.cells, self.span.clone(), "this exception".into(), &keys::EXCEPTION)
    }
}

/// Other columns are the spreadsheet's own. One that is nearly called like a column that is not there is a slip.
fn near_misses(source: &Source<'_>, header: &[Cell], columns: &[Option<usize>]) {
    let known = keys::ROWS_FILE.names;
    for (index, cell) in header.iter().enumerate().filter(|(index, _)| !columns.contains(&Some(*index))) {
        let missing = known.iter().zip(columns).filter(|(_, place)| place.is_none()).map(|(name, _)| *name);
        if let [meant, ..] = nearest(&cell.text, missing).as_slice() {
            let message = format!("column {} is {}", index + 1, quoted(&cell.text));
            source.mistake(cell.span.clone(), message, format!("right would be {meant}, or a name less like it"));
        }
    }
}
