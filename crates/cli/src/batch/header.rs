//! The first line: which cell of a row is which column, and what the columns of the answer are called.

use shophead_job::cell::original;

use super::question::{Column, Rules};
use super::text::push_cell;
use crate::exit::Stop;

/// The columns of the input.
#[derive(Debug)]
pub(super) struct Header {
    /// Every name as it was given.
    pub(super) names: Vec<String>,
    /// The columns that are read: their number among the command's, and the cell they stand in.
    pub(super) read: Vec<(usize, usize)>,
}

impl Header {
    /// Sorts the names of a first line.
    pub(super) fn of(cells: &[&str], rules: &Rules) -> Result<Header, Stop> {
        if let [only] = cells
            && let Some(mark) = only.chars().find(|c| matches!(c, ';' | '\t' | '|'))
        {
            let mark = match mark {
                ';' => "semicolons",
                '|' => "bars",
                _ => "tabs",
            };
            return Err(Stop::wrong(format_args!(
                "the columns are separated by {mark}; separate them by commas, and write decimals with a point"
            )));
        }
        if cells.first().is_some_and(|first| first.trim_start().starts_with('{')) {
            return Err(Stop::wrong("the first line is JSON; say so with --from json"));
        }
        let names: Vec<String> = cells.iter().map(|cell| original(cell.trim()).to_owned()).collect();
        let mut read = Vec::new();
        for (cell, name) in names.iter().enumerate() {
            if let Some(column) = rules.place(name) {
                if read.iter().any(|(known, _)| *known == column) {
                    return Err(Stop::wrong(format_args!("there are two columns {name}; keep one of both")));
                }
                read.push((column, cell));
            }
        }
        let header = Header { names, read };
        for (number, column) in rules.columns().iter().enumerate() {
            if column.needed.is_some() && !header.read.iter().any(|(known, _)| *known == number) {
                return Err(Stop::wrong(header.missing(column, rules)));
            }
        }
        Ok(header)
    }

    fn missing(&self, column: &Column, rules: &Rules) -> String {
        let needed = rules.columns().iter().filter(|column| column.needed.is_some()).map(|column| column.name);
        let right = needed.collect::<Vec<_>>().join(",");
        let unread = |cell: &usize| !self.read.iter().any(|(_, read)| read == cell);
        let likeness = |name: &str| strsim::jaro_winkler(&plain(name), column.name);
        let names = self.names.iter().enumerate().filter(|(cell, _)| unread(cell)).map(|(_, name)| name);
        let meant = names.filter(|name| likeness(name) >= ALIKE).max_by(|a, b| likeness(a).total_cmp(&likeness(b)));
        let meant = meant.map_or_else(String::new, |name| format!("; is it the one that is called {name:?}?"));
        format!("the column {} is missing{meant}; right would be a first line {right}", column.name)
    }

    /// Sentences about columns that are carried through but are called almost like one that would be read.
    pub(super) fn almost(&self, rules: &Rules) -> Vec<String> {
        let unread = self.names.iter().enumerate().filter(|(cell, _)| !self.read.iter().any(|(_, read)| read == cell));
        let meant = |name: &String| {
            let free = |number: usize| !self.read.iter().any(|(read, _)| *read == number);
            let mut columns = rules.columns().iter().enumerate();
            columns.find(|(number, column)| free(*number) && is_slip(name, column.name)).map(|(_, column)| column.name)
        };
        unread
            .filter_map(|(_, name)| Some((name, meant(name)?)))
            .map(|(name, meant)| format!("the column {name:?} is carried through and not read; is it {meant}?"))
            .collect()
    }

    /// Whether the input has a column of the answer all the same.
    pub(super) fn refuse_prefix(&self, prefix: &str, answer: &[String]) -> Result<(), Stop> {
        let taken = self.names.iter().find(|name| answer.iter().any(|taken| taken.eq_ignore_ascii_case(name)));
        match taken {
            Some(name) => Err(Stop::wrong(format_args!(
                "--prefix \"{prefix}\": the input has a column {name} already; take another prefix"
            ))),
            None => Ok(()),
        }
    }

    /// The names under which the columns of the input go out: one that the answer has too gets a mark behind it.
    pub(super) fn carried(&self, answer: &[String]) -> Vec<String> {
        let is_taken = |name: &str| answer.iter().any(|taken| taken.eq_ignore_ascii_case(name));
        let carried = |given: &String| {
            let mut name = given.clone();
            // A name that the input itself has twice is its own affair.
            while is_taken(&name) || (name != *given && self.names.contains(&name)) {
                name.push_str("_given");
            }
            name
        };
        self.names.iter().map(carried).collect()
    }
}

fn plain(name: &str) -> String {
    name.to_lowercase().replace(['-', ' '], "_")
}

/// Where a column is missing a name may stand for it from here on.
const ALIKE: f64 = 0.8;

/// Whether a name looks like a slip of the pen: one letter off. Short words are one letter off too many others.
fn is_slip(given: &str, known: &str) -> bool {
    const SHORT: usize = 4;
    given.len() >= SHORT && strsim::osa_distance(&plain(given), known) <= 1
}

/// A line of names.
pub(super) fn line<'n>(out: &mut Vec<u8>, names: impl IntoIterator<Item = &'n String>) {
    for (index, name) in names.into_iter().enumerate() {
        if index > 0 {
            out.push(b',');
        }
        push_cell(out, name.as_bytes());
    }
    out.push(b'\n');
}
