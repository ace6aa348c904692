//! One worker: pieces of input in, rows with their answers out.

use std::borrow::Cow;

use csv::{ByteRecord, StringRecord};
use shophead::practice::Case;
use shophead_job::ahead::Ahead;
use shophead_job::cell::original;

use super::answer::{AnswerCells, Kept};
use super::cache::{Cache, Outcome};
use super::chunks::{Form, Piece};
use super::header::Header;
use super::json::{self, Beginning, Object};
use super::question::{Asking, RowTo, Rules};
use super::text::{may_be_formula, push_cell};
use crate::cells::Codes;
use crate::context::Context;
use crate::exit::Stop;
use crate::form::bases::{self, Way, Written};
use crate::report::Report;

/// What holds for every row.
pub(super) struct Layout<'l> {
    pub(super) rules: &'l Rules,
    /// The columns of the input; `None` where every row is an object and goes out as one.
    pub(super) header: Option<Header>,
    /// How many columns the answer has, the error not counted.
    pub(super) answer_columns: usize,
    pub(super) from: Form,
    pub(super) to: Form,
}

/// How many rows, and what became of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Tally {
    pub(super) rows: u64,
    pub(super) wrong: u64,
    pub(super) refers: bool,
    /// Which of them is the first wrong one, counted from 1.
    pub(super) first_wrong: Option<u64>,
}

impl Tally {
    pub(super) fn add(&mut self, later: Tally) {
        self.first_wrong = self.first_wrong.or(later.first_wrong.map(|row| row + self.rows));
        self.rows += later.rows;
        self.wrong += later.wrong;
        self.refers |= later.refers;
    }

    fn count(&mut self, outcome: Outcome) {
        self.rows += 1;
        match outcome {
            Outcome::Answered => {}
            Outcome::Refers => self.refers = true,
            Outcome::Wrong => {
                self.wrong += 1;
                self.first_wrong = self.first_wrong.or(Some(self.rows));
            }
        }
    }
}

/// Answers rows.
pub(super) struct Worker<'l> {
    layout: &'l Layout<'l>,
    answerer: Answerer<'l>,
    cache: Cache,
    /// What tells a question from others.
    key: Vec<u8>,
    /// What many answers in JSON name is kept in this thread.
    _bases: Written,
}

impl<'l> Worker<'l> {
    pub(super) fn new(layout: &'l Layout<'l>, context: &'l Context<'l>, asking: Box<dyn Asking>) -> Worker<'l> {
        let beginning = Beginning::of(&Report::new(asking.command(), context));
        let (codes, kept, ahead, new) = (Codes::default(), Kept::default(), Ahead::default(), Vec::new());
        Worker {
            layout,
            answerer: Answerer { asking, context, layout, codes, kept, ahead, new, beginning },
            cache: Cache::new(),
            key: Vec::new(),
            _bases: bases::written(Way::Kept),
        }
    }

    /// Answers every row of a piece.
    pub(super) fn work(&mut self, piece: &Piece, out: &mut Vec<u8>) -> Tally {
        match self.layout.from {
            Form::Csv => self.csv(piece, out),
            Form::Lines => self.lines(piece, out),
        }
    }

    fn csv(&mut self, piece: &Piece, out: &mut Vec<u8>) -> Tally {
        let mut tally = Tally::default();
        let Some(header) = &self.layout.header else { return tally };
        let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(&piece.bytes[..]);
        let mut at = 0;
        let mut record = ByteRecord::new();
        while let Ok(true) = reader.read_byte_record(&mut record) {
            let end = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
            let raw = without_line_ends(piece.bytes.get(at..end).unwrap_or_default());
            at = end;
            // Whether it is UTF-8 is looked at once for the whole row, which is plain letters as a rule.
            record = match StringRecord::from_byte_record(record) {
                Ok(text) => {
                    let cells = header.read.iter().map(|(column, cell)| (*column, text.get(*cell).or(Some(""))));
                    tally.count(self.csv_row(header, text.as_byte_record(), cells, raw, piece, out));
                    text.into_byte_record()
                }
                Err(error) => {
                    let record = error.into_byte_record();
                    let cell = |cell: usize| str::from_utf8(record.get(cell).unwrap_or_default()).ok();
                    let cells = header.read.iter().map(|(column, place)| (*column, cell(*place)));
                    tally.count(self.csv_row(header, &record, cells, raw, piece, out));
                    record
                }
            };
        }
        tally
    }

    fn csv_row<'c>(
        &mut self,
        header: &Header,
        record: &ByteRecord,
        cells: impl AskedCells<'c>,
        raw: &[u8],
        piece: &Piece,
        out: &mut Vec<u8>,
    ) -> Outcome {
        let columns = header.names.len();
        let says_nothing = record.iter().all(|cell| cell.trim_ascii().is_empty());
        let wrong = if let Some(broken) = piece.broken {
            Some(broken.to_owned())
        } else if says_nothing {
            None
        } else if piece.has_text_behind_quote && has_text_behind_quote(raw) {
            Some("there is text after a closing quote; put the whole cell in quotes, and any quote in it twice".into())
        } else if record.len() != columns {
            Some(wrong_count(record, columns))
        } else {
            let is_long = |(_, cell): &(usize, usize)| record.get(*cell).is_some_and(|cell| cell.len() > LONGEST_CELL);
            let has_long = record.as_slice().len() > LONGEST_CELL && header.read.iter().any(is_long);
            has_long.then(|| CELL_TOO_LONG.to_owned())
        };
        if self.layout.to == Form::Csv {
            if piece.broken.is_none() && record.len() == columns && !record.iter().any(may_be_formula) {
                out.extend_from_slice(raw);
            } else {
                push_cells(out, (0..columns).map(|cell| record.get(cell).unwrap_or_default()));
            }
        }
        let outcome = self.answer(says_nothing, wrong, cells, out);
        if self.layout.to == Form::Lines {
            let cells =
                header.names.iter().zip(record).map(|(name, cell)| (name.as_str(), String::from_utf8_lossy(cell)));
            push_object(out, cells);
        }
        out.push(b'\n');
        outcome
    }

    fn lines(&mut self, piece: &Piece, out: &mut Vec<u8>) -> Tally {
        let mut tally = Tally::default();
        let lines = piece.bytes.split(|byte| *byte == b'\n').map(<[u8]>::trim_ascii).filter(|line| !line.is_empty());
        for line in lines {
            let outcome = self.line(line, piece.broken, out);
            tally.count(outcome);
        }
        tally
    }

    fn line(&mut self, line: &[u8], broken: Option<&'static str>, out: &mut Vec<u8>) -> Outcome {
        let mut wrong = broken.map(str::to_owned);
        let text = String::from_utf8_lossy(line);
        let mut object = Object::default();
        if wrong.is_none() {
            let read = if matches!(text, Cow::Borrowed(_)) { Object::read(&text) } else { Err(NOT_UTF8.to_owned()) };
            match read {
                Ok(read) => object = read,
                Err(told) => wrong = Some(told),
            }
        }
        let is_object = wrong.is_none();
        // As a row of CSV: where nothing stands nothing is asked. A key that the columns do not have is wrong all the same.
        let stray = self.layout.header.as_ref().and_then(|header| object.stray(&header.names));
        let says_nothing = is_object && stray.is_none() && object.says_nothing();
        let mut asked = Vec::new();
        if let Some(key) = stray {
            wrong = Some(format!("the key {key:?} is not in the first row, whose keys are the columns"));
        } else if is_object && !says_nothing {
            match self.cells_of(&object) {
                Ok(read) => asked = read,
                Err(told) => wrong = Some(told),
            }
        }
        let asked = asked.iter().enumerate().map(|(column, cell)| (column, cell.as_deref().or(Some(""))));
        match (self.layout.to, &self.layout.header) {
            (Form::Csv, Some(header)) => {
                let cell = |name: &String| {
                    let value = object.0.iter().find(|(key, _)| key == name).map(|(_, value)| *value);
                    value.map_or(Cow::Borrowed(""), |value| json::cell(value).unwrap_or(Cow::Borrowed(value.get())))
                };
                let cells: Vec<Cow<'_, str>> = header.names.iter().map(cell).collect();
                push_cells(out, cells.iter().map(|cell| cell.as_bytes()));
                let outcome = self.answer(says_nothing, wrong, asked, out);
                out.push(b'\n');
                outcome
            }
            _ => {
                let outcome = self.answer(says_nothing, wrong, asked, out);
                out.extend_from_slice(b",\"input\":");
                if is_object {
                    out.extend_from_slice(text.as_bytes());
                } else {
                    json::string(out, &text);
                }
                out.extend_from_slice(b"}\n");
                outcome
            }
        }
    }

    /// The cells of the question that an object asks.
    fn cells_of<'o>(&self, object: &'o Object<'_>) -> Result<Vec<Option<Cow<'o, str>>>, String> {
        let rules = self.layout.rules;
        let mut cells: Vec<Option<Cow<'_, str>>> = vec![None; rules.columns().len()];
        for (key, value) in &object.0 {
            let Some(column) = rules.place(key.trim()) else { continue };
            let cell = json::cell(value).map_err(|told| format!("{key}: {told}"))?;
            if cells.get_mut(column).and_then(|known| known.replace(cell)).is_some() {
                return Err(format!("{key}: this is given twice; keep one of both"));
            }
        }
        let is_long = |cell: &Option<Cow<'_, str>>| cell.as_ref().is_some_and(|cell| cell.len() > LONGEST_CELL);
        if cells.iter().any(is_long) { Err(CELL_TOO_LONG.to_owned()) } else { Ok(cells) }
    }

    /// Writes the answer to the question that these cells ask, or what is wrong with the row.
    fn answer<'c>(
        &mut self,
        says_nothing: bool,
        wrong: Option<String>,
        cells: impl AskedCells<'c>,
        out: &mut Vec<u8>,
    ) -> Outcome {
        let Worker { answerer, cache, key, .. } = self;
        if says_nothing || wrong.is_some() {
            return answerer.without_answer(wrong.as_deref(), out);
        }
        if !cache.is_of_use() {
            return answerer.answer(cells, out);
        }
        key.clear();
        for (_, cell) in cells.clone() {
            let Some(cell) = cell else { return answerer.answer(cells, out) };
            key.extend_from_slice(cell.as_bytes());
            // No text has a byte like this.
            key.push(u8::MAX);
        }
        cache.answer(key, out, |out| answerer.answer(cells, out))
    }
}

const NOT_UTF8: &str = "this row is not UTF-8; save the file as UTF-8";
const CELL_TOO_LONG: &str = "a cell of this row is longer than any list of layers";
const LONGEST_CELL: usize = u16::MAX as usize;

/// The cells that a command reads of a row, each with the number of its column; `None` where it is not UTF-8.
trait AskedCells<'c>: Iterator<Item = (usize, Option<&'c str>)> + Clone {}

impl<'c, C: Iterator<Item = (usize, Option<&'c str>)> + Clone> AskedCells<'c> for C {}

/// Answers questions.
struct Answerer<'l> {
    asking: Box<dyn Asking>,
    context: &'l Context<'l>,
    layout: &'l Layout<'l>,
    codes: Codes,
    kept: Kept,
    /// The limits of the cases that rows asked about so far, and cases that are still to be looked up.
    ahead: Ahead,
    new: Vec<Case>,
    /// Of every answer in JSON.
    beginning: Beginning,
}

impl Answerer<'_> {
    fn answer<'c>(&mut self, cells: impl AskedCells<'c>, out: &mut Vec<u8>) -> Outcome {
        let start = out.len();
        let answered = self.fill(cells).and_then(|()| self.ask(out));
        while let Some(case) = self.new.pop() {
            self.ahead.look_up(self.context.practice, &case);
        }
        answered.unwrap_or_else(|told| {
            out.truncate(start);
            self.without_answer(Some(&told), out)
        })
    }

    /// Takes the cells for the options that they are.
    fn fill<'c>(&mut self, cells: impl AskedCells<'c>) -> Result<(), String> {
        let mut filled = 0;
        for (column, cell) in cells {
            let text = cell.ok_or_else(|| NOT_UTF8.to_owned())?;
            let given = self.asking.set(column, said(text))?;
            filled |= u64::from(given) << column;
        }
        self.layout.rules.check(filled)
    }

    fn ask(&mut self, out: &mut Vec<u8>) -> Result<Outcome, String> {
        let words = |stop: Stop| match stop {
            Stop::Wrong(sentences) => self.layout.rules.about_columns(sentences.join(" ")),
            Stop::WrongLine(told) | Stop::WrongFile(told) | Stop::Failed(told) => told,
        };
        let refers = match self.layout.to {
            Form::Csv => {
                self.codes.clear();
                let mut cells = AnswerCells::new(out, &mut self.kept, self.context.units);
                let practice = self.context.practice.with_cases(self.ahead.cases());
                let context = Context { practice: &practice, ..*self.context };
                let mut to = RowTo { cells: &mut cells, codes: &mut self.codes, new: &mut self.new };
                self.asking.row(&context, &mut to).map_err(words)?;
                cells.tell(&self.codes);
                // No error.
                out.push(b',');
                self.codes.worst == Some(shophead::finding::Severity::Refer)
            }
            Form::Lines => {
                let practice = self.context.practice.with_cases(self.ahead.cases());
                let context = Context { practice: &practice, ..*self.context };
                let report = self.asking.report(&context, &mut self.new).map_err(words)?;
                self.beginning.answer(out, &report, None);
                report.exit() == crate::exit::Exit::Refer
            }
        };
        Ok(if refers { Outcome::Refers } else { Outcome::Answered })
    }

    /// Where there is no answer: why, or nothing where nothing was asked.
    fn without_answer(&self, wrong: Option<&str>, out: &mut Vec<u8>) -> Outcome {
        match self.layout.to {
            Form::Csv => {
                out.resize(out.len() + self.layout.answer_columns + 1, b',');
                push_cell(out, wrong.unwrap_or_default().as_bytes());
            }
            Form::Lines => {
                self.beginning.answer(out, &Report::new(self.asking.command(), self.context), wrong);
            }
        }
        if wrong.is_some() { Outcome::Wrong } else { Outcome::Answered }
    }
}

/// What a cell says: without blanks around it, and without the apostrophe in front of what would be a formula.
fn said(text: &str) -> &str {
    let is_plain = |byte: &u8| byte.is_ascii_graphic() && *byte != b'\'';
    match text.as_bytes() {
        [first, .., last] if is_plain(first) && is_plain(last) => text,
        _ => original(text.trim()).trim(),
    }
}

fn wrong_count(record: &ByteRecord, columns: usize) -> String {
    let count = record.len();
    let cells = if count == 1 { "1 cell".to_owned() } else { format!("{count} cells") };
    let left_out: Vec<Cow<'_, str>> = record.iter().skip(columns).map(String::from_utf8_lossy).collect();
    let left_out =
        if left_out.is_empty() { String::new() } else { format!("; left out here: {:?}", left_out.join(",")) };
    format!(
        "this row has {cells}, the header {columns}; a decimal is written with a point, and a text with a comma in it in quotes{left_out}"
    )
}

/// A record without the line ends before and behind it.
fn without_line_ends(raw: &[u8]) -> &[u8] {
    let is_end = |byte: &u8| matches!(byte, b'\n' | b'\r');
    let start = raw.iter().position(|byte| !is_end(byte)).unwrap_or(raw.len());
    let end = raw.iter().rposition(|byte| !is_end(byte)).map_or(start, |last| last + 1);
    raw.get(start..end).unwrap_or_default()
}

/// Whether something stands between the quote that closes a cell and the next comma.
fn has_text_behind_quote(raw: &[u8]) -> bool {
    let mut at = 0;
    while at < raw.len() {
        if raw[at] == b'"' {
            at += 1;
            while at < raw.len() && (raw[at] != b'"' || raw.get(at + 1) == Some(&b'"')) {
                at += if raw[at] == b'"' { 2 } else { 1 };
            }
            at += 1;
            if raw.get(at).is_some_and(|next| *next != b',') {
                return true;
            }
        } else {
            at += raw[at..].iter().position(|byte| *byte == b',').unwrap_or(raw.len());
        }
        at += 1;
    }
    false
}

fn push_cells<'c>(out: &mut Vec<u8>, cells: impl Iterator<Item = &'c [u8]>) {
    for (index, cell) in cells.enumerate() {
        if index > 0 {
            out.push(b',');
        }
        push_cell(out, cell);
    }
}

/// The row as it came, behind the answer.
fn push_object<'c>(out: &mut Vec<u8>, cells: impl Iterator<Item = (&'c str, Cow<'c, str>)>) {
    out.extend_from_slice(b",\"input\":{");
    for (index, (name, cell)) in cells.enumerate() {
        if index > 0 {
            out.push(b',');
        }
        json::string(out, name);
        out.push(b':');
        json::string(out, original(&cell));
    }
    out.extend_from_slice(b"}}");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quote_that_closes_too_early_is_seen() {
        for (raw, wanted) in [
            ("a,b", false),
            ("\"a\",b", false),
            ("\"a\"\"b\",\"c\"", false),
            ("5\" long,x", false),
            ("\"a\"b,c", true),
            ("x,\"a\" ,c", true),
            ("x,\"\"\"a\" ", true),
        ] {
            assert_eq!(has_text_behind_quote(raw.as_bytes()), wanted, "{raw}");
        }
    }

    #[test]
    fn tallies_add_up_and_remember_the_first_wrong_row() {
        let mut all = Tally { rows: 3, wrong: 0, refers: false, first_wrong: None };
        all.add(Tally { rows: 2, wrong: 1, refers: true, first_wrong: Some(2) });
        all.add(Tally { rows: 1, wrong: 1, refers: false, first_wrong: Some(1) });
        assert_eq!(all, Tally { rows: 6, wrong: 2, refers: true, first_wrong: Some(5) });
    }
}
