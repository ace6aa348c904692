//! A CSV file in memory: cells by column name, each with its place.
//!
//! Read by hand rather than with the `csv` crate, which tells where a line begins but not a cell, and takes a quote that is never
//! closed for a cell up to the end of the file.

use std::ops::Range;
use std::path::Path;
use std::rc::Rc;

use super::keys::Keys;
use super::source::{Mistakes, Source, beginning, quoted};
use super::{MAX_COLUMNS, MAX_LINE};
use crate::diagnostic::is_unseen;

/// The most columns named of a file that lacks one.
const MOST_NAMED: usize = 24;

/// One cell: what it says, trimmed, and where it stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Cell {
    pub(super) text: String,
    pub(super) span: Range<usize>,
}

/// Which cell of a line holds each of the columns asked for.
pub(super) type Columns = Rc<[Option<usize>]>;

/// One line.
#[derive(Debug)]
pub(super) struct Record {
    pub(super) span: Range<usize>,
    /// Every cell, in the order of the file.
    pub(super) cells: Vec<Cell>,
    columns: Columns,
}

impl Record {
    /// What stands in columns that were not asked for, with their places.
    pub(super) fn others(&self) -> impl Iterator<Item = (usize, &Cell)> {
        let is_known = |index: usize| self.columns.contains(&Some(index));
        self.cells.iter().enumerate().filter(move |(index, cell)| !is_known(*index) && !cell.text.is_empty())
    }

    /// The cell of the n-th column asked for, if the file has it and anything stands in it.
    pub(super) fn filled(&self, column: usize) -> Option<&Cell> {
        let index = (*self.columns.get(column)?)?;
        self.cells.get(index).filter(|cell| !cell.text.is_empty())
    }
}

/// A whole file.
#[derive(Debug)]
pub(super) struct Sheet {
    /// The cells of the first line.
    pub(super) header: Vec<Cell>,
    /// Where each of the columns asked for stands in it, if it does.
    pub(super) columns: Columns,
    /// Every line that says anything.
    pub(super) records: Vec<Record>,
}

/// Reads every line that says anything. `None` when the columns cannot be told; mistakes in single lines leave those out.
pub(super) fn records(source: &Source<'_>, keys: &Keys, required: &[&str]) -> Option<Vec<Record>> {
    sheet(source, keys, required).map(|sheet| sheet.records)
}

/// The same with the header.
pub(super) fn sheet(source: &Source<'_>, keys: &Keys, required: &[&str]) -> Option<Sheet> {
    read(source, keys, required, None, ',')
}

/// A file that was not made for this: semicolons or tabulators may stand for commas, and its columns may have other names.
pub(super) fn sheet_as_it_comes(
    source: &Source<'_>,
    keys: &Keys,
    required: &[&str],
    names: &[(&'static str, String)],
) -> Option<Sheet> {
    let first = source.text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let separator = [',', ';', '\t'].into_iter().max_by_key(|mark| (first.matches(*mark).count(), *mark == ','));
    read(source, keys, required, Some(names), separator.unwrap_or(','))
}

fn read(
    source: &Source<'_>,
    keys: &Keys,
    required: &[&str],
    names: Option<&[(&'static str, String)]>,
    separator: char,
) -> Option<Sheet> {
    if let Some(start) = long_line(&source.text) {
        source.mistake(
            start..start,
            "this line is longer than a mebibyte",
            "name the file that is meant; no row of a list is that long",
        );
        return None;
    }
    let mut scan = Scan { source, at: 0, separator };
    let header = loop {
        let header = scan.line()?;
        if header.iter().any(|cell| !cell.text.is_empty()) {
            break header;
        }
        if scan.is_at_end() {
            source.mistake(0..0, format!("{} is empty", keys.of), format!("right would be {}", heading(keys)));
            return None;
        }
    };
    if header.len() > MAX_COLUMNS {
        let message = format!("these are {} columns", header.len());
        source.mistake(0..0, message, format!("right would be no more than {MAX_COLUMNS}"));
        return None;
    }
    let columns: Columns = columns(source, &header, keys, required, names)?.into();
    let mut records = Vec::new();
    while !scan.is_at_end() && !source.mistakes.is_full() {
        let start = scan.at;
        let Some(cells) = scan.line() else { break };
        if cells.iter().all(|cell| cell.text.is_empty()) {
            continue;
        }
        for cell in cells.iter().filter(|cell| cell.text.contains(is_unseen)) {
            let message = format!("this cell holds a control or direction character: {}", quoted(&cell.text));
            source.mistake(cell.span.clone(), message, "write it on one line, without hidden characters");
        }
        let span = start..cells.last().map_or(start, |cell| cell.span.end);
        if cells.len() != header.len() {
            let message = format!("this line has {}, the header {}", cells_in_words(cells.len()), header.len());
            source.mistake(span, message, "a decimal is written with a point, and a text with a comma in it in quotes");
            continue;
        }
        records.push(Record { span, cells, columns: Rc::clone(&columns) });
    }
    Some(Sheet { header, columns, records })
}

/// Where a line begins that is longer than any.
fn long_line(text: &str) -> Option<usize> {
    let mut start = 0;
    for line in text.split_inclusive(['\n', '\r']) {
        if line.len() > MAX_LINE {
            return Some(start);
        }
        start += line.len();
    }
    None
}

/// The cells of one line by itself, without its line end; `None` when its quotes do not hold together.
pub(super) fn cells_of(line: &str) -> Option<Vec<String>> {
    let mistakes = Mistakes::default();
    let source = mistakes.source(Path::new(""), line.into())?;
    let mut scan = Scan { source: &source, at: 0, separator: ',' };
    let cells = scan.line()?;
    scan.is_at_end().then(|| cells.into_iter().map(|cell| cell.text).collect())
}

fn cells_in_words(count: usize) -> String {
    if count == 1 { "1 cell".into() } else { format!("{count} cells") }
}

fn heading(keys: &Keys) -> String {
    format!("a first line {}", keys.names.join(","))
}

/// Which cell of a line holds each of the columns asked for.
fn columns(
    source: &Source<'_>,
    header: &[Cell],
    keys: &Keys,
    required: &[&str],
    names: Option<&[(&'static str, String)]>,
) -> Option<Vec<Option<usize>>> {
    let span = header.first().map_or(0, |cell| cell.span.start)..header.last().map_or(0, |cell| cell.span.end);
    if let [only] = header
        && let Some(mark) = only.text.chars().find(|c| matches!(c, ';' | '\t' | '|'))
    {
        let what = match mark {
            ';' => "semicolons",
            '|' => "bars",
            _ => "tabs",
        };
        let message = format!("the columns are separated by {what}");
        source.mistake(span, message, "separate them by commas, and write decimals with a point");
        return None;
    }
    let mut complete = true;
    let mut columns = Vec::new();
    for key in keys.names {
        let given = names.and_then(|names| names.iter().find(|(known, _)| known == key)).map(|(_, name)| name.trim());
        let name = given.unwrap_or(key);
        let mut named = header.iter().enumerate().filter(|(_, cell)| cell.text.eq_ignore_ascii_case(name));
        let first = named.next();
        if let Some((_, again)) = named.next() {
            complete = false;
            source.mistake(again.span.clone(), format!("there are two columns {name}"), "keep one of both");
        }
        if first.is_none() && (required.contains(key) || given.is_some()) {
            complete = false;
            let there =
                || header.iter().take(MOST_NAMED).map(|cell| beginning(&cell.text)).collect::<Vec<_>>().join(", ");
            let help = match names {
                Some(_) => format!("the columns here are {}; name the one that is meant: {key}=NAME", there()),
                None => format!("right would be {}", heading(keys)),
            };
            source.mistake(span.clone(), format!("the column {name} is missing"), help);
        }
        columns.push(first.map(|(index, _)| index));
    }
    complete.then_some(columns)
}

struct Scan<'s> {
    source: &'s Source<'s>,
    at: usize,
    separator: char,
}

impl Scan<'_> {
    fn rest(&self) -> &str {
        self.source.text.get(self.at..).unwrap_or_default()
    }

    fn is_at_end(&self) -> bool {
        self.rest().is_empty()
    }

    /// The cells up to the end of the line. `None` when a quote makes the rest of the file unreadable.
    fn line(&mut self) -> Option<Vec<Cell>> {
        let mut cells = Vec::new();
        loop {
            let cell = self.cell()?;
            cells.push(cell);
            let rest = self.rest();
            let line_end = ["\r\n", "\n", "\r"].into_iter().find(|end| rest.starts_with(end));
            if let Some(end) = line_end {
                self.at += end.len();
                return Some(cells);
            }
            if !rest.starts_with(self.separator) {
                return Some(cells);
            }
            self.at += 1;
        }
    }

    fn cell(&mut self) -> Option<Cell> {
        let is_blank = |c: char| matches!(c, ' ' | '\t') && c != self.separator;
        let blank = self.rest().len() - self.rest().trim_start_matches(is_blank).len();
        if self.rest().get(blank..).is_some_and(|rest| rest.starts_with('"')) {
            self.at += blank;
            return self.quoted_cell();
        }
        let rest = self.rest();
        let raw = rest.get(..rest.find([self.separator, '\r', '\n']).unwrap_or(rest.len())).unwrap_or_default();
        let text = raw.trim();
        let start = self.at + (raw.len() - raw.trim_start().len());
        let span = start..start + text.len();
        let (text, length) = (text.to_owned(), raw.len());
        self.at += length;
        Some(Cell { text, span })
    }

    /// A cell in quotes; two quotes in it stand for one.
    fn quoted_cell(&mut self) -> Option<Cell> {
        let start = self.at;
        let mut text = String::new();
        let mut chars = self.rest().char_indices().skip(1).peekable();
        let mut end = None;
        while let Some((at, c)) = chars.next() {
            if c != '"' {
                text.push(c);
            } else if chars.next_if(|(_, next)| *next == '"').is_some() {
                text.push('"');
            } else {
                end = Some(start + at + 1);
                break;
            }
        }
        let Some(end) = end else {
            self.source.mistake(start..start + 1, "this quote is never closed", "close it before the end of the cell");
            return None;
        };
        self.at = end;
        let rest = self.rest();
        let separator = self.separator;
        let is_blank = |c: char| matches!(c, ' ' | '\t') && c != separator;
        let after = rest.len() - rest.trim_start_matches(is_blank).len();
        self.at += after;
        if !(self.is_at_end() || self.rest().starts_with([self.separator, '\r', '\n'])) {
            let help = "put the whole cell in quotes, and write a quote in it twice";
            self.source.mistake(self.at..self.at + 1, "there is text after the closing quote", help);
            return None;
        }
        Some(Cell { text: text.trim().to_owned(), span: start..end })
    }
}
