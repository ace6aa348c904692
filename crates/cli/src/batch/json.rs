//! Rows of JSON Lines, read and written.

use std::borrow::Cow;
use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;

use crate::render::json::{Findings, envelope};
use crate::report::{Few, Form, Report};

/// One object: its keys and values, in their order.
#[derive(Debug, Default)]
pub(super) struct Object<'t>(pub(super) Vec<(Cow<'t, str>, &'t RawValue)>);

impl<'t> Object<'t> {
    pub(super) fn read(line: &'t str) -> Result<Object<'t>, String> {
        serde_json::from_str(line).map_err(|error| {
            // The place is told as the row; what stands behind it is the line of a text of one line.
            let what = error.to_string();
            let what = what.rsplit_once(" at line ").map_or(what.as_str(), |(what, _)| what);
            format!(
                "this row is no JSON object (character {}: {what}); right would be {{\"diameter\": \"1/8\"}}",
                error.column()
            )
        })
    }

    /// Whether every value is one of an empty cell.
    pub(super) fn says_nothing(&self) -> bool {
        self.0.iter().all(|(_, value)| cell(value).is_ok_and(|cell| cell.trim().is_empty()))
    }

    /// The first key that is not among these names.
    pub(super) fn stray(&self, names: &[String]) -> Option<&str> {
        self.0.iter().map(|(key, _)| key.as_ref()).find(|key| !names.iter().any(|name| name == key))
    }
}

/// A text, borrowed where nothing in it is escaped.
struct Text<'t>(Cow<'t, str>);

impl<'de> Deserialize<'de> for Text<'de> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Text<'de>, D::Error> {
        struct Texts;
        impl<'de> Visitor<'de> for Texts {
            type Value = Text<'de>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a text")
            }
            fn visit_borrowed_str<E>(self, text: &'de str) -> Result<Text<'de>, E> {
                Ok(Text(Cow::Borrowed(text)))
            }
            fn visit_str<E>(self, text: &str) -> Result<Text<'de>, E> {
                Ok(Text(Cow::Owned(text.to_owned())))
            }
        }
        from.deserialize_str(Texts)
    }
}

impl<'de> Deserialize<'de> for Object<'de> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Object<'de>, D::Error> {
        struct Objects;
        impl<'de> Visitor<'de> for Objects {
            type Value = Object<'de>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Object<'de>, A::Error> {
                let mut object = Object::default();
                while let Some((Text(key), value)) = map.next_entry()? {
                    object.0.push((key, value));
                }
                Ok(object)
            }
        }
        from.deserialize_map(Objects)
    }
}

/// A value as the text of a cell: a number as it is written, nothing for null, a list with commas between, a list of lists with semicolons.
pub(super) fn cell<'t>(value: &'t RawValue) -> Result<Cow<'t, str>, String> {
    let raw = value.get();
    match raw.as_bytes().first() {
        Some(b'"') => {
            let Text(text) = serde_json::from_str(raw).map_err(|error| error.to_string())?;
            Ok(text)
        }
        Some(b'[') => {
            let items: Vec<&RawValue> = serde_json::from_str(raw).map_err(|error| error.to_string())?;
            let has_lists = items.iter().any(|item| item.get().starts_with('['));
            let items: Result<Vec<Cow<'_, str>>, String> = items.into_iter().map(cell).collect();
            Ok(Cow::Owned(items?.join(if has_lists { ";" } else { "," })))
        }
        Some(b'{') => Err("an object has no place here; right would be a text, \".125\"".to_owned()),
        Some(b'n') => Ok(Cow::Borrowed("")),
        _ => Ok(Cow::Borrowed(raw)),
    }
}

/// What every answer of a command begins with.
pub(super) struct Beginning(Vec<u8>);

impl Beginning {
    /// Of a report without an answer.
    pub(super) fn of(report: &Report<'_>) -> Beginning {
        let whole = serde_json::to_string(&envelope(report)).unwrap_or_default();
        // In a text a quote has a backslash in front.
        let before = whole.split_once(Beginning::NO_RESULT).map_or("", |(before, _)| before);
        Beginning([before.as_bytes(), b"\"result\":"].concat())
    }

    const NO_RESULT: &str = "\"result\":null";

    /// The answer without the brace at its end: the row as it came is still to follow.
    pub(super) fn answer(&self, out: &mut Vec<u8>, report: &Report<'_>, error: Option<&str>) {
        out.extend_from_slice(&self.0);
        match &report.result {
            Some(form) => form.put(&mut Few(out)),
            None => out.extend_from_slice(b"null"),
        }
        out.extend_from_slice(b",\"findings\":");
        Findings(&report.findings).put(&mut Few(out));
        out.extend_from_slice(b",\"error\":");
        error.put(&mut Few(out));
    }
}

/// A string.
pub(super) fn string(out: &mut Vec<u8>, text: &str) {
    let _ = serde_json::to_writer(out, text);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_object_keeps_order_and_figures_as_they_are_written() {
        let line = r#"{"b":"1/8","a\u0041":0.1250,"list":[".032",".040",0.05],"none":null,"yes":true,"points":[[0,"1/2"],[1.50,-2]]}"#;
        let object = Object::read(line).expect("an object");
        let cells: Vec<_> = object.0.iter().map(|(key, value)| (key.as_ref(), cell(value).expect("a cell"))).collect();
        let want = [
            ("b", "1/8"),
            ("aA", "0.1250"),
            ("list", ".032,.040,0.05"),
            ("none", ""),
            ("yes", "true"),
            ("points", "0,1/2;1.50,-2"),
        ];
        assert_eq!(cells, want.map(|(key, cell)| (key, Cow::from(cell))));
    }

    #[test]
    fn what_is_no_object_is_told() {
        for line in ["", "[1]", "{\"a\":1", "7", "{\"a\":1} x"] {
            let told = Object::read(line).expect_err(line);
            assert!(told.starts_with("this row is no JSON object (character "), "{told}");
        }
    }
}
