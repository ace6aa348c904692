//! Sentences with places for figures.
//!
//! | in a template | stands for |
//! |---|---|
//! | `{m}`, `{l}` | the measured and the limiting figure; `{m/}`, `{l/}` as a fraction where it is one, for sizes of parts |
//! | `{l?}` | nothing, but known where the limit is |
//! | `{layer}` | `layer 2`; `{sheet}` adds how thick it was measured: `layer 2, .063` |
//! | `{what}` | what is not on file or not given |
//! | `[a]` | `a`, if every place in it has something to say |
//! | `[a\|b]` | the same, else `b` |
//! | `<a\|b>` | `a` where the finding says refer, else `b`; may hold groups, not other choices |
//!
//! A sentence begins with a small letter; the first one written is made a capital.

use core::fmt::{self, Write};

/// A place of a template, by the letter or word in its braces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Place {
    Measured,
    Limit,
    MeasuredSize,
    LimitSize,
    HasLimit,
    Layer,
    Sheet,
    What,
    Key,
}

impl Place {
    pub(crate) fn of(name: &str) -> Option<Place> {
        Some(match name {
            "m" => Place::Measured,
            "l" => Place::Limit,
            "m/" => Place::MeasuredSize,
            "l/" => Place::LimitSize,
            "l?" => Place::HasLimit,
            "layer" => Place::Layer,
            "sheet" => Place::Sheet,
            "what" => Place::What,
            "key" => Place::Key,
            _ => return None,
        })
    }
}

/// Writes what a place stands for, or nothing and says so; without a writer only says whether there is something.
pub(crate) type Fill<'f> = dyn Fn(Place, Option<&mut dyn Write>) -> Result<bool, fmt::Error> + 'f;

/// Writes a template with its places filled.
pub(crate) fn fill(out: &mut dyn Write, template: &str, refer: bool, place: &Fill<'_>) -> fmt::Result {
    let mut rest = template;
    while let Some((before, inner, after)) = between(rest, b'<', b'>') {
        groups(out, before, place)?;
        let (first, second) = cut(inner, b'|').unwrap_or((inner, ""));
        groups(out, if refer { first } else { second }, place)?;
        rest = after;
    }
    groups(out, rest, place)
}

fn groups(out: &mut dyn Write, template: &str, place: &Fill<'_>) -> fmt::Result {
    let mut rest = template;
    while let Some((before, inner, after)) = between(rest, b'[', b']') {
        places(out, before, place)?;
        let (first, second) = cut(inner, b'|').unwrap_or((inner, ""));
        places(out, if is_known(first, place)? { first } else { second }, place)?;
        rest = after;
    }
    places(out, rest, place)
}

fn is_known(template: &str, place: &Fill<'_>) -> Result<bool, fmt::Error> {
    let mut rest = template;
    while let Some((_, name, after)) = between(rest, b'{', b'}') {
        match Place::of(name) {
            Some(name) if place(name, None)? => rest = after,
            _ => return Ok(false),
        }
    }
    Ok(true)
}

fn places(out: &mut dyn Write, template: &str, place: &Fill<'_>) -> fmt::Result {
    let mut rest = template;
    while let Some((before, name, after)) = between(rest, b'{', b'}') {
        out.write_str(before)?;
        if let Some(name) = Place::of(name) {
            place(name, Some(out))?;
        }
        rest = after;
    }
    out.write_str(rest)
}

/// What stands before, between and behind the first pair of marks.
fn between(text: &str, open: u8, close: u8) -> Option<(&str, &str, &str)> {
    let (before, rest) = cut(text, open)?;
    let (inner, after) = cut(rest, close)?;
    Some((before, inner, after))
}

/// What stands before and behind the first such ASCII mark.
fn cut(text: &str, mark: u8) -> Option<(&str, &str)> {
    let at = text.bytes().position(|byte| byte == mark)?;
    Some((text.get(..at)?, text.get(at.saturating_add(1)..)?))
}

/// Makes the first letter that is written a capital, and writes something before it.
pub(crate) struct Sentence<'w> {
    out: &'w mut dyn Write,
    before: &'static str,
    begun: bool,
}

impl<'w> Sentence<'w> {
    pub(crate) fn new(out: &'w mut dyn Write, before: &'static str) -> Sentence<'w> {
        Sentence { out, before, begun: false }
    }
}

impl Write for Sentence<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        let mut rest = text.chars();
        match rest.next() {
            Some(first) if !self.begun => {
                self.begun = true;
                self.out.write_str(self.before)?;
                self.out.write_char(first.to_ascii_uppercase())?;
                self.out.write_str(rest.as_str())
            }
            _ => self.out.write_str(text),
        }
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::String;

    fn filled(template: &str, refer: bool, known: &[(Place, &str)]) -> String {
        let mut text = String::new();
        let place = |wanted: Place, out: Option<&mut dyn Write>| {
            let found = known.iter().find(|(place, _)| *place == wanted);
            if let (Some((_, text)), Some(out)) = (found, out) {
                out.write_str(text)?;
            }
            Ok(found.is_some())
        };
        fill(&mut Sentence::new(&mut text, ""), template, refer, &place).expect("a string takes everything");
        text
    }

    #[test]
    fn a_group_is_left_out_with_any_place_in_it_unknown() {
        let template = "hole[ {m}] is large[: at most {l}, found {m}| here].";
        let (m, l) = ((Place::Measured, ".130"), (Place::Limit, ".128"));
        assert_eq!(filled(template, false, &[m, l]), "Hole .130 is large: at most .128, found .130.");
        assert_eq!(filled(template, false, &[m]), "Hole .130 is large here.");
        assert_eq!(filled(template, false, &[l]), "Hole is large here.");
    }

    #[test]
    fn a_choice_follows_the_severity_and_may_hold_groups() {
        let template = "<stop[ at {m}]|go on[ from {l}]>. {what}";
        let known = [(Place::Measured, "1"), (Place::What, "Ask.")];
        assert_eq!(filled(template, true, &known), "Stop at 1. Ask.");
        assert_eq!(filled(template, false, &known), "Go on. Ask.");
    }
}
