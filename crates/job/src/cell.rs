//! Cells of a CSV file as they are written.
//!
//! People open these files in a spreadsheet, and a spreadsheet takes a cell that begins with `=`, `+`, `-`, `@` or a tab for a formula.
//! A text that does so, perhaps behind apostrophes, is written with one apostrophe more in front, and read back without it.
//!
//! ```
//! use shophead_job::cell::{harmless, original};
//! assert_eq!(harmless("=1+1"), "'=1+1");
//! assert_eq!(harmless("'=1+1"), "''=1+1");
//! assert_eq!(harmless("it's fine"), "it's fine");
//! assert_eq!(original("'=1+1"), "=1+1");
//! ```

use std::borrow::Cow;

use shophead::length::{Bare, Length};

/// Whether a spreadsheet would take this text for a formula, were the apostrophes in front of it away.
fn looks_like_formula(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(['=', '+', '-', '@', '\t'])
}

/// A text that no spreadsheet takes for a formula.
#[must_use]
pub fn harmless(text: &str) -> Cow<'_, str> {
    if looks_like_formula(text) { Cow::Owned(format!("'{text}")) } else { Cow::Borrowed(text) }
}

/// What [`harmless`] was made from.
#[must_use]
pub fn original(text: &str) -> &str {
    text.strip_prefix('\'').filter(|rest| looks_like_formula(rest)).unwrap_or(text)
}

/// A cell in quotes; a quote in it is written twice.
#[must_use]
pub fn in_quotes(text: &str) -> String {
    format!("\"{}\"", text.replace('"', "\"\""))
}

/// A cell as short as it can be: in quotes where it needs them.
#[must_use]
pub fn bare_or_in_quotes(text: &str) -> Cow<'_, str> {
    let needs = text.contains([',', '"', '\n', '\r']) || text.starts_with([' ', '\t']) || text.ends_with([' ', '\t']);
    if needs { Cow::Owned(in_quotes(text)) } else { Cow::Borrowed(text) }
}

/// A length that reads back to the nanometre in a file where a number without a unit is what `bare` says: decimal inches where they can be
/// exact, else millimetres. Never a fraction, which a spreadsheet would take for a date.
///
/// ```
/// use shophead::length::{Bare, Length};
/// use shophead_job::cell::exact;
/// assert_eq!(exact(Length::parse("9/64").unwrap(), Bare::Inches), "0.140625");
/// assert_eq!(exact(Length::parse("4.1mm").unwrap(), Bare::Inches), "4.1mm");
/// assert_eq!(exact(Length::parse("4.1mm").unwrap(), Bare::Millimetres), "4.1");
/// ```
#[must_use]
pub fn exact(length: Length, bare: Bare) -> String {
    /// A nanometre is no decimal of an inch, 127 of them are one of seven places: no decimal that is whole in nanometres has more.
    const PLACES: usize = 7;
    const NM_PER_MM: i64 = 1_000_000;
    let nm_per_inch = Length::INCH.nanometres();
    let nanometres = i128::from(length.nanometres());
    let (scale, unit, mark) = match (bare, nanometres * 10_i128.pow(PLACES as u32) % i128::from(nm_per_inch)) {
        (Bare::Millimetres, _) => (6, NM_PER_MM, ""),
        (Bare::Inches, 0) => (PLACES, nm_per_inch, ""),
        (Bare::Inches, _) => (6, NM_PER_MM, "mm"),
    };
    let scaled = nanometres * 10_i128.pow(scale as u32) / i128::from(unit);
    let sign = if scaled < 0 { "-" } else { "" };
    let digits = format!("{:0width$}", scaled.abs(), width = scale + 1);
    let (whole, decimals) = digits.split_at(digits.len() - scale);
    let decimals = decimals.trim_end_matches('0');
    let point = if decimals.is_empty() { "" } else { "." };
    format!("{sign}{whole}{point}{decimals}{mark}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn formulas_are_neutral_and_nothing_else_changes() {
        for (text, written) in [
            ("", ""),
            ("-5 deg", "'-5 deg"),
            ("+", "'+"),
            ("@x", "'@x"),
            ("\tx", "'\tx"),
            ("'", "'"),
            ("''=", "'''="),
            ("'quoted'", "'quoted'"),
            ("a=b", "a=b"),
        ] {
            assert_eq!(harmless(text), written, "{text:?}");
            assert_eq!(original(written), text, "{written:?}");
        }
    }

    proptest! {
        #[test]
        fn what_was_written_is_read_back(text in "['=+@\t-]{0,3}[a-z']{0,3}") {
            let written = harmless(&text);
            prop_assert!(!written.starts_with(['=', '+', '-', '@', '\t']), "{written:?}");
            prop_assert_eq!(original(&written), text.as_str());
        }

        #[test]
        fn a_length_reads_back_to_the_nanometre(nanometres in -1_000_000_000_i64..1_000_000_000) {
            let length = Length::from_nanometres(nanometres).expect("in range");
            for bare in [Bare::Inches, Bare::Millimetres] {
                let written = exact(length, bare);
                prop_assert!(!written.contains('/'), "{written}");
                prop_assert_eq!(Length::parse_as(&written, bare), Ok(length), "{}", written);
            }
        }
    }
}
