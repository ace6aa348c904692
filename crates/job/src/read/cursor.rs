//! A table of a TOML file, and a value in it, each with its place in the text.

use std::ops::{Range, RangeInclusive};

use shophead::length::{Bare, Length, ParseLengthError, Toleranced};
use shophead::words::Word;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::keys::Keys;
use super::source::{Source, nearest_or_all, quoted};
use crate::diagnostic::is_unseen;

/// Reads the whole file as a table; `None` when it is not TOML.
pub(super) fn root<'a>(source: &Source<'_>, text: &'a str) -> Option<Spanned<DeTable<'a>>> {
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
        source.mistake(span, "something stands after the value", help);
    } else if message.starts_with("invalid mantissa") {
        let help = "right would be 0.75 or \".75\"";
        source.mistake(span, "a number without quotes has digits before and after its point", help);
    } else {
        source.mistake(span, format!("this is not TOML: {message}"), "");
    }
}

/// A table whose keys are known.
pub(super) struct Table<'a> {
    pub(super) source: &'a Source<'a>,
    entries: &'a DeTable<'a>,
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
        Table { source, entries, span, subject, keys }
    }

    /// The value of a key, if there is one.
    pub(super) fn optional(&self, key: &'static str) -> Option<Value<'a>> {
        debug_assert!(self.keys.names.contains(&key), "{key} is not a key of {}", self.keys.of);
        let value = self.entries.get(key)?;
        Some(Value { source: self.source, name: key.into(), value: value.get_ref(), span: value.span() })
    }

    /// The value of a key that must be there.
    pub(super) fn required(&self, key: &'static str) -> Option<Value<'a>> {
        let value = self.optional(key);
        if value.is_none() {
            self.missing(key);
        }
        value
    }

    /// Says that a key is missing.
    pub(super) fn missing(&self, key: &'static str) {
        let example = self.keys.example(key);
        self.source.mistake(self.span.clone(), format!("{} has no {key}", self.subject), example);
    }
}

/// A value with its place.
#[derive(Clone)]
pub(super) struct Value<'a> {
    pub(super) source: &'a Source<'a>,
    /// What it is called in messages: its key, or what a list is made of.
    pub(super) name: String,
    value: &'a DeValue<'a>,
    pub(super) span: Range<usize>,
}

impl<'a> Value<'a> {
    pub(super) fn mistake(&self, message: impl Into<String>, help: impl Into<String>) {
        self.source.mistake(self.span.clone(), message, help);
    }

    fn not_a<T>(&self, wanted: &str) -> Option<T> {
        let found = match self.value {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) | DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        self.mistake(format!("{} is {found}", self.name), format!("right would be {wanted}"));
        None
    }

    pub(super) fn is_text(&self) -> bool {
        self.value.is_str()
    }

    pub(super) fn is_table(&self) -> bool {
        self.value.is_table()
    }

    pub(super) fn is_list(&self) -> bool {
        self.value.is_array()
    }

    /// A text that can be shown as it is: on one line, no character unseen.
    pub(super) fn text(&self) -> Option<&'a str> {
        let Some(text) = self.value.as_str() else { return self.not_a("a text in quotes") };
        if text.contains(is_unseen) {
            let help = "write it on one line, without characters that cannot be seen";
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

    /// What a text says, or a number exactly as it stands in the file.
    pub(super) fn written(&self) -> Option<&'a str> {
        match self.value {
            DeValue::String(text) => Some(text),
            DeValue::Integer(_) | DeValue::Float(_) => self.source.text.get(self.span.clone()),
            _ => self.not_a("a text in quotes or a number"),
        }
    }

    /// The place of the n-th character of what is written, counted from 1.
    pub(super) fn character(&self, at: usize) -> Range<usize> {
        let Some(raw) = self.source.text.get(self.span.clone()) else { return self.span.clone() };
        let quotes = match (self.value, raw.chars().next()) {
            (DeValue::String(text), Some('"' | '\'')) if raw.len() == text.len() + 2 => 1,
            (DeValue::Integer(_) | DeValue::Float(_), _) => 0,
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

    /// A length, perhaps less than nothing.
    pub(super) fn length(&self) -> Option<Length> {
        self.measured(Length::parse_as)
    }

    /// A length that is more than nothing.
    pub(super) fn distance(&self) -> Option<Length> {
        let length = self.length()?;
        if length <= Length::ZERO {
            self.mistake(format!("{} is not more than nothing", self.name), "right would be \"3/8\"");
            return None;
        }
        Some(length)
    }

    /// A length with a tolerance that leaves more than nothing.
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
            let message = format!("{} is not more than nothing at the lower end of its tolerance", self.name);
            self.mistake(message, "right would be \".032+-.002\"");
            return None;
        }
        Some(length)
    }

    /// A whole number.
    pub(super) fn whole(&self, range: RangeInclusive<u32>) -> Option<u32> {
        let wanted = format!("a whole number from {} to {}", range.start(), range.end());
        let DeValue::Integer(number) = self.value else { return self.not_a(&wanted) };
        let read = u32::from_str_radix(number.as_str(), number.radix()).ok().filter(|read| range.contains(read));
        if read.is_none() {
            let written = self.source.text.get(self.span.clone()).unwrap_or_default();
            self.mistake(format!("{} cannot be {written}", self.name), format!("right would be {wanted}"));
        }
        read
    }

    /// One of a few words.
    pub(super) fn word<T: Copy>(&self, known: impl Iterator<Item = (&'static str, T)> + Clone) -> Option<T> {
        let Some(written) = self.value.as_str() else { return self.not_a("a word in quotes") };
        let found = known.clone().find(|(word, _)| *word == written);
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

    /// The values of a list; each is called `each` in messages.
    pub(super) fn list(&self, each: &str) -> Option<Vec<Value<'a>>> {
        let DeValue::Array(items) = self.value else { return self.not_a("a list in [ ]") };
        let item = |item: &'a Spanned<DeValue<'a>>| Value {
            source: self.source,
            name: each.into(),
            value: item.get_ref(),
            span: item.span(),
        };
        Some(items.iter().map(item).collect())
    }

    /// A table with known keys.
    pub(super) fn table(&self, subject: String, keys: &'static Keys) -> Option<Table<'a>> {
        let DeValue::Table(entries) = self.value else { return self.not_a(keys.form) };
        Some(Table::new(self.source, entries, self.span.clone(), subject, keys))
    }

    /// Every key of a table whose keys the writer chooses, with its value and the place of the key.
    pub(super) fn entries(&self, form: &str) -> Option<Vec<(Range<usize>, Value<'a>)>> {
        let DeValue::Table(entries) = self.value else { return self.not_a(form) };
        let entry = |(key, value): (&'a Spanned<_>, &'a Spanned<DeValue<'a>>)| {
            let name: &std::borrow::Cow<'_, str> = key.get_ref();
            let name = name.clone().into_owned();
            (key.span(), Value { source: self.source, name, value: value.get_ref(), span: value.span() })
        };
        Some(entries.iter().map(entry).collect())
    }
}
