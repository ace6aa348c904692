//! A table of a TOML file, and a value in it, each with its place in the text.
//!
//! A line of a rows file is such a table too, and a cell such a value: what a row may say is read by the same lines, however it is written.

use std::ops::{Range, RangeInclusive};

use shophead::length::{Bare, Length, ParseLengthError, Toleranced};
use shophead::words::Word;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::MAX_TOML;
use super::keys::Keys;
use super::sheet::Cell;
use super::source::{Source, nearest_or_all, quoted};
use crate::cell::original;
use crate::diagnostic::is_unseen;

/// Reads the whole file as a table; `None` when it is not TOML.
pub(super) fn root<'a>(source: &Source<'_>, text: &'a str) -> Option<Spanned<DeTable<'a>>> {
    if text.len() > MAX_TOML {
        source.too_large(MAX_TOML);
        return None;
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    let is_twice = |error: &toml::de::Error| error.message() == "duplicate key";
    let readable = errors.iter().all(is_twice);
    let mut last = None;
    for error in errors {
        let span = error.span().unwrap_or_default();
        if readable {
            let key = text.get(span.clone()).unwrap_or_default();
            source.mistake(span, format!("{} is already said in this table", quoted(key)), "keep one of both");
        } else if !is_twice(&error) {
            // The parser may have more than one opinion about one line. What follows from them, keys said twice too, is not told.
            let last = last.replace(span.start);
            let between = last.and_then(|last: usize| text.get(last.min(span.start)..last.max(span.start)));
            if between.is_none_or(|between| between.contains('\n')) {
                syntax(source, text, span, error.message());
            }
        }
    }
    readable.then_some(table)
}

/// The parser's words, or ours where a mistake is usual.
fn syntax(source: &Source<'_>, text: &str, span: Range<usize>, message: &str) {
    let written = text.get(span.clone()).unwrap_or_default();
    let rest = text.get(span.start..).unwrap_or_default();
    if message.starts_with("string values must be quoted") {
        if written.is_empty() {
            source.mistake(span, "a value is missing", "right would be a text in quotes, a number or a list");
        } else {
            let help = format!("right would be {}", quoted(written));
            source.mistake(span, format!("{written} needs quotes"), help);
        }
    } else if (message.starts_with("invalid basic string") || message.starts_with("invalid literal string"))
        && (rest.is_empty() || rest.starts_with(['\r', '\n']))
    {
        source.mistake(span, "this text is not closed", "close it with a quote before the end of the line");
    } else if message.starts_with("unexpected key or value") {
        let help = if rest.starts_with(',') {
            "right would be a decimal with a point, or a list in [ ]"
        } else {
            "right would be each key on its own line, and a text in quotes"
        };
        source.mistake(span, "there is text after the value", help);
    } else if message.starts_with("invalid mantissa") {
        let help = "right would be 0.75 or \".75\"";
        source.mistake(span, "a number without quotes has digits before and after its point", help);
    } else {
        source.mistake(span, format!("this is not TOML: {message}"), "");
    }
}

/// What a table is made of.
#[derive(Clone, Copy)]
enum Entries<'a> {
    Toml(&'a DeTable<'a>),
    /// The filled cells of a line, by the name of their column.
    Line(&'a [(&'static str, &'a Cell)]),
}

/// The column that a key of a row stands in.
pub(super) fn column_of(key: &'static str) -> &'static str {
    match key {
        "name" => "row",
        "transverse-pitch" => "transverse_pitch",
        "rows-in-pattern" => "rows_in_pattern",
        "clearance" => "clearances",
        "hole-size" => "hole_size",
        "installed-layers" => "installed_layers",
        key => key,
    }
}

/// What divides the items of a list that stands in one cell.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Divided {
    /// Commas or semicolons: items may have blanks in them.
    Commas,
    /// Semicolons: items may have commas in them.
    Semicolons,
    /// Blanks as well.
    Blanks,
}

impl Divided {
    fn divides(self, c: char) -> bool {
        match self {
            Divided::Commas => matches!(c, ',' | ';'),
            Divided::Semicolons => c == ';',
            Divided::Blanks => matches!(c, ',' | ';') || c.is_whitespace(),
        }
    }

    /// Where each item stands.
    fn parts(self, text: &str) -> Vec<Range<usize>> {
        let mut start = 0;
        let mut parts = Vec::new();
        for (at, mark) in text.match_indices(|c| self.divides(c)) {
            parts.push(start..at);
            start = at + mark.len();
        }
        parts.push(start..text.len());
        parts
    }
}

/// A table whose keys are known.
pub(super) struct Table<'a> {
    pub(super) source: &'a Source<'a>,
    entries: Entries<'a>,
    pub(super) span: Range<usize>,
    /// What it describes, for messages: `the job`, `row "K1"`.
    pub(super) subject: String,
    keys: &'static Keys,
}

impl<'a> Table<'a> {
    /// Takes a table and refuses the keys that it cannot have.
    pub(super) fn new(
        source: &'a Source<'a>,
        entries: &'a DeTable<'a>,
        span: Range<usize>,
        subject: String,
        keys: &'static Keys,
    ) -> Table<'a> {
        for (key, _) in entries {
            let name = key.get_ref().as_ref();
            if !keys.names.contains(&name) {
                let help = nearest_or_all(name, keys.names.iter().copied());
                source.mistake(key.span(), format!("{} has no key {}", keys.of, quoted(name)), help);
            }
        }
        Table { source, entries: Entries::Toml(entries), span, subject, keys }
    }

    /// A line of a CSV file as the table that it stands for.
    pub(super) fn of_line(
        source: &'a Source<'a>,
        cells: &'a [(&'static str, &'a Cell)],
        span: Range<usize>,
        subject: String,
        keys: &'static Keys,
    ) -> Table<'a> {
        Table { source, entries: Entries::Line(cells), span, subject, keys }
    }

    /// The value of a key, if there is one.
    pub(super) fn optional(&self, key: &'static str) -> Option<Value<'a>> {
        debug_assert!(self.keys.names.contains(&key), "{key} is not a key of {}", self.keys.of);
        match self.entries {
            Entries::Toml(entries) => {
                let value = entries.get(key)?;
                let given = Given::Toml(value.get_ref());
                Some(Value { source: self.source, name: key.into(), value: given, span: value.span() })
            }
            Entries::Line(cells) => {
                let column = column_of(key);
                let (_, cell) = cells.iter().find(|(name, _)| *name == column)?;
                Some(Value {
                    source: self.source,
                    name: column.into(),
                    value: Given::Cell(original(&cell.text)),
                    span: cell.span.clone(),
                })
            }
        }
    }

    /// The value of a key that is needed.
    pub(super) fn required(&self, key: &'static str) -> Option<Value<'a>> {
        let value = self.optional(key);
        if value.is_none() {
            self.missing(key);
        }
        value
    }

    /// Says that a key is missing.
    pub(super) fn missing(&self, key: &'static str) {
        let (key, help) = match self.entries {
            Entries::Toml(_) => (key, self.keys.example(key)),
            Entries::Line(_) => (column_of(key), format!("fill its cell in the column {}", column_of(key))),
        };
        self.source.mistake(self.span.clone(), format!("{} has no {key}", self.subject), help);
    }
}

/// A value with its place.
#[derive(Clone)]
pub(super) struct Value<'a> {
    pub(super) source: &'a Source<'a>,
    /// What it is called in messages: its key, or what a list is made of.
    pub(super) name: String,
    value: Given<'a>,
    pub(super) span: Range<usize>,
}

/// How a value is written.
#[derive(Clone, Copy)]
enum Given<'a> {
    Toml(&'a DeValue<'a>),
    /// A cell, or a part of one.
    Cell(&'a str),
}

impl<'a> Value<'a> {
    pub(super) fn mistake(&self, message: impl Into<String>, help: impl Into<String>) {
        self.source.mistake(self.span.clone(), message, help);
    }

    fn not_a<T>(&self, wanted: &str) -> Option<T> {
        let found = match self.value {
            Given::Toml(DeValue::String(_)) => "a text",
            Given::Toml(DeValue::Integer(_) | DeValue::Float(_)) => "a number",
            Given::Toml(DeValue::Boolean(_)) => "true or false",
            Given::Toml(DeValue::Datetime(_)) => "a date",
            Given::Toml(DeValue::Array(_)) => "a list",
            Given::Toml(DeValue::Table(_)) => "a table",
            Given::Cell(_) => "a cell",
        };
        self.mistake(format!("{} is {found}", self.name), format!("right would be {wanted}"));
        None
    }

    pub(super) fn is_text(&self) -> bool {
        match self.value {
            Given::Toml(value) => value.is_str(),
            Given::Cell(_) => true,
        }
    }

    pub(super) fn is_table(&self) -> bool {
        matches!(self.value, Given::Toml(value) if value.is_table())
    }

    pub(super) fn is_list(&self) -> bool {
        matches!(self.value, Given::Toml(value) if value.is_array())
    }

    /// What a cell says; `None` for a value of a TOML file.
    pub(super) fn cell(&self) -> Option<&'a str> {
        match self.value {
            Given::Toml(_) => None,
            Given::Cell(text) => Some(text),
        }
    }

    fn as_str(&self) -> Option<&'a str> {
        match self.value {
            Given::Toml(value) => value.as_str(),
            Given::Cell(text) => Some(text),
        }
    }

    /// A text that can be shown as it is: on one line, no character unseen.
    pub(super) fn text(&self) -> Option<&'a str> {
        let Some(text) = self.as_str() else { return self.not_a("a text in quotes") };
        if text.contains(is_unseen) {
            let help = "write it on one line, without hidden characters";
            self.mistake(format!("{} holds a control or direction character: {}", self.name, quoted(text)), help);
            return None;
        }
        Some(text)
    }

    /// A text that says something.
    pub(super) fn filled_text(&self) -> Option<&'a str> {
        let text = self.text()?.trim();
        if text.is_empty() {
            self.mistake(format!("{} is empty", self.name), "write something or leave the key out");
            return None;
        }
        Some(text)
    }

    /// What a text says, or a number exactly as in the file.
    pub(super) fn written(&self) -> Option<&'a str> {
        match self.value {
            Given::Cell(text) => Some(text),
            Given::Toml(DeValue::String(text)) => Some(text),
            Given::Toml(DeValue::Integer(_) | DeValue::Float(_)) => self.source.text.get(self.span.clone()),
            _ => self.not_a("a text in quotes or a number"),
        }
    }

    /// The place of the n-th character of what is written, counted from 1.
    pub(super) fn character(&self, at: usize) -> Range<usize> {
        let Some(raw) = self.source.text.get(self.span.clone()) else { return self.span.clone() };
        let quotes = match (self.value, raw.chars().next()) {
            (Given::Toml(DeValue::String(text)), Some('"' | '\'')) if raw.len() == text.len() + 2 => 1,
            (Given::Toml(DeValue::Integer(_) | DeValue::Float(_)), _) => 0,
            (Given::Cell(text), _) if raw == text => 0,
            (Given::Cell(text), Some('"')) if raw.len() == text.len() + 2 => 1,
            // Written with escapes or over several lines: characters cannot be counted off.
            _ => return self.span.clone(),
        };
        let Some((start, c)) = raw.char_indices().nth(quotes + at.saturating_sub(1)) else { return self.span.clone() };
        self.span.start + start..self.span.start + start + c.len_utf8()
    }

    fn measured<T>(&self, parse: fn(&str, Bare) -> Result<T, ParseLengthError>) -> Option<T> {
        match parse(self.written()?, self.source.bare.get()) {
            Ok(read) => Some(read),
            Err(error) => {
                self.source.refused(self.character(error.at), &self.name, &error);
                None
            }
        }
    }

    /// A length, perhaps negative.
    pub(super) fn length(&self) -> Option<Length> {
        self.measured(Length::parse_as)
    }

    /// How wide a hole is: a length, and no slip such as 161 for .161.
    pub(super) fn width(&self) -> Option<Length> {
        self.measured(Length::parse_hole)
    }

    /// A length above zero.
    pub(super) fn distance(&self) -> Option<Length> {
        let length = self.length()?;
        if length <= Length::ZERO {
            self.mistake(format!("{} must be above zero", self.name), "right would be \"3/8\"");
            return None;
        }
        Some(length)
    }

    /// A length with a tolerance that leaves it above zero.
    pub(super) fn toleranced(&self) -> Option<Toleranced> {
        self.more_than_nothing(Toleranced::parse_as)
    }

    /// How thick a layer is: the same, and no slip such as 40 for .040.
    pub(super) fn thickness(&self) -> Option<Toleranced> {
        self.more_than_nothing(Toleranced::parse_thickness)
    }

    fn more_than_nothing(&self, parse: fn(&str, Bare) -> Result<Toleranced, ParseLengthError>) -> Option<Toleranced> {
        let length = self.measured(parse)?;
        if length.min() <= Length::ZERO {
            let message = format!("{} must be above zero, also at the lower end of its tolerance", self.name);
            self.mistake(message, "right would be \".032+-.002\"");
            return None;
        }
        Some(length)
    }

    /// A whole number.
    pub(super) fn whole(&self, range: RangeInclusive<u32>) -> Option<u32> {
        let wanted = format!("a whole number from {} to {}", range.start(), range.end());
        let read = match self.value {
            Given::Toml(DeValue::Integer(number)) => u32::from_str_radix(number.as_str(), number.radix()).ok(),
            Given::Cell(text) => text.parse().ok(),
            Given::Toml(_) => return self.not_a(&wanted),
        };
        let read = read.filter(|read| range.contains(read));
        if read.is_none() {
            let written = self.source.text.get(self.span.clone()).unwrap_or_default();
            self.mistake(format!("{} cannot be {written}", self.name), format!("right would be {wanted}"));
        }
        read
    }

    /// One of a few words.
    pub(super) fn word<T: Copy>(&self, known: impl Iterator<Item = (&'static str, T)> + Clone) -> Option<T> {
        let Some(written) = self.as_str() else { return self.not_a("a word in quotes") };
        // A spreadsheet makes capitals on its own.
        let is_cell = self.cell().is_some();
        let says = |word: &str| word == written || is_cell && word.eq_ignore_ascii_case(written);
        let found = known.clone().find(|(word, _)| says(word));
        if found.is_none() {
            let help = nearest_or_all(written, known.map(|(word, _)| word));
            self.mistake(format!("{} cannot be {}", self.name, quoted(written)), help);
        }
        found.map(|(_, value)| value)
    }

    /// One word of a list of core's.
    pub(super) fn listed<T: Word>(&self) -> Option<T> {
        self.word(T::ALL.iter().map(|value| (value.as_str(), *value)))
    }

    /// The values of a list; each is called `each` in messages. In a cell they are divided as it says.
    pub(super) fn list_in(&self, each: &str, divided: Divided) -> Option<Vec<Value<'a>>> {
        match self.value {
            Given::Toml(_) => self.list(each),
            Given::Cell(text) => {
                let parts = divided.parts(text).into_iter().map(|part| self.part(part).named(each));
                // Blanks behind a comma divide nothing.
                let is_item = |part: &Value<'_>| divided != Divided::Blanks || part.as_str() != Some("");
                Some(parts.filter(is_item).collect())
            }
        }
    }

    /// A part of a cell, by its bytes, without the blanks round it.
    fn part(&self, part: Range<usize>) -> Value<'a> {
        let whole = self.as_str().unwrap_or_default();
        let untrimmed = whole.get(part.clone()).unwrap_or_default();
        let before = part.start + (untrimmed.len() - untrimmed.trim_start().len());
        let part = untrimmed.trim();
        let raw = self.source.text.get(self.span.clone()).unwrap_or_default();
        let quote = match raw.len().checked_sub(whole.len()) {
            Some(0) => Some(0),
            Some(2) if raw.starts_with('"') => Some(1),
            // Written with quotes in it: places cannot be counted off.
            _ => None,
        };
        let span = match quote {
            Some(quote) => {
                let start = self.span.start + quote + before;
                start..start + part.len()
            }
            None => self.span.clone(),
        };
        Value { value: Given::Cell(part), span, name: self.name.clone(), source: self.source }
    }

    fn named(self, name: &str) -> Value<'a> {
        Value { name: name.into(), ..self }
    }

    /// The values of a list in a TOML file; each is called `each` in messages.
    pub(super) fn list(&self, each: &str) -> Option<Vec<Value<'a>>> {
        let Given::Toml(DeValue::Array(items)) = self.value else { return self.not_a("a list in [ ]") };
        let item = |item: &'a Spanned<DeValue<'a>>| Value {
            source: self.source,
            name: each.into(),
            value: Given::Toml(item.get_ref()),
            span: item.span(),
        };
        Some(items.iter().map(item).collect())
    }

    /// A table with known keys.
    pub(super) fn table(&self, subject: String, keys: &'static Keys) -> Option<Table<'a>> {
        let Given::Toml(DeValue::Table(entries)) = self.value else { return self.not_a(keys.form) };
        Some(Table::new(self.source, entries, self.span.clone(), subject, keys))
    }

    /// Every key of a table whose keys the writer chooses, with its value and the place of the key.
    pub(super) fn entries(&self, form: &str) -> Option<Vec<(Range<usize>, Value<'a>)>> {
        if let Given::Cell(text) = self.value {
            return Divided::Commas.parts(text).into_iter().map(|part| self.part(part).entry()).collect();
        }
        let Given::Toml(DeValue::Table(entries)) = self.value else { return self.not_a(form) };
        let entry = |(key, value): (&'a Spanned<_>, &'a Spanned<DeValue<'a>>)| {
            let name: &std::borrow::Cow<'_, str> = key.get_ref();
            let name = name.clone().into_owned();
            (key.span(), Value { source: self.source, name, value: Given::Toml(value.get_ref()), span: value.span() })
        };
        Some(entries.iter().map(entry).collect())
    }

    /// `upright=1.5` in a cell.
    fn entry(&self) -> Option<(Range<usize>, Value<'a>)> {
        let text = self.as_str()?;
        let Some(equals) = text.find('=') else {
            let help = "right would be upright=1.5; rolled=open";
            self.mistake(format!("{} cannot be {}", self.name, quoted(text)), help);
            return None;
        };
        let key = self.part(0..equals);
        Some((key.span.clone(), self.part(equals + 1..text.len()).named(key.as_str().unwrap_or_default())))
    }
}
