//! Number, letter and fraction drills.
//!
//! A shop names a hole by the drill that makes it: `#30`, `F`, `11/64`. [`Drill`] gives the diameter, exactly; [`parse_hole`] reads
//! a hole in either way, as a drill or as a length.
//!
//! A drill's diameter is not the diameter of the hole that it leaves: that one is measured.

mod table;

use core::fmt;

use crate::basis::Basis;
use crate::length::{Bare, Length, ParseLengthError, is_letter};
use crate::words::Units;
use table::{DRILLS, OTHER_READINGS};

/// What a drill is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
enum Name {
    Number(u8),
    Letter(char),
    SixtyFourths(u8),
}

/// A twist drill: #80 to #1, A to Z, or 1/64 in to 1/2 in in steps of 1/64 in.
///
/// Two drills are equal when they have the same name. One diameter has two names: E is a quarter of an inch, and so is 1/4.
///
/// ```
/// use shophead::drill::Drill;
/// use shophead::length::Length;
/// let drill = Drill::parse("#30")?;
/// assert_eq!(drill.diameter(), Length::parse("0.1285").unwrap());
/// // The next drill up from a 3/16 in shank.
/// let drill = Drill::nearest_at_or_above(Length::parse("3/16 in").unwrap()).unwrap();
/// assert_eq!(drill.to_string(), "3/16");
/// # Ok::<(), shophead::drill::ParseDrillError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Drill {
    name: Name,
    diameter: Length,
}

/// A row of the table: number and ten-thousandths.
const fn number(number: u8, ten_thousandths: u16) -> Drill {
    Drill { name: Name::Number(number), diameter: Length::from_ten_thousandths(ten_thousandths) }
}

/// A row of the table: letter and ten-thousandths.
const fn letter(letter: char, ten_thousandths: u16) -> Drill {
    Drill { name: Name::Letter(letter), diameter: Length::from_ten_thousandths(ten_thousandths) }
}

/// A row of the table: sixty-fourths.
const fn fraction(count: u8) -> Drill {
    Drill { name: Name::SixtyFourths(count), diameter: Length::from_64ths(count as i16) }
}

impl Drill {
    /// Every drill in rising order of diameter; 1/4 stands before E, which has the same diameter.
    pub fn all() -> impl DoubleEndedIterator<Item = Drill> + ExactSizeIterator {
        DRILLS.iter().copied()
    }

    /// The drill's diameter.
    #[must_use]
    pub const fn diameter(self) -> Length {
        self.diameter
    }

    /// Another diameter that a list prints for this drill: only #69 has one (0.02925 in for 0.0292 in).
    #[must_use]
    pub fn also_printed(self) -> Option<Length> {
        let Name::Number(number) = self.name else { return None };
        OTHER_READINGS.iter().find(|(other, _)| *other == number).and_then(|(_, length)| *length)
    }

    /// Where the diameter comes from.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self.name {
            Name::Number(_) | Name::Letter(_) => Basis::DRILL_TABLES,
            Name::SixtyFourths(_) => Basis::FRACTION_DRILLS,
        }
    }

    /// The smallest drill that is not smaller than this diameter, or `None` above 1/2 in.
    ///
    /// Of two drills with the same diameter the fraction is returned: 1/4, not E.
    #[must_use]
    pub fn nearest_at_or_above(diameter: Length) -> Option<Drill> {
        DRILLS.get(DRILLS.partition_point(|drill| drill.diameter < diameter)).copied()
    }

    /// The largest drill that is not larger than this diameter, or `None` below #80.
    ///
    /// Of two drills with the same diameter the fraction is returned: 1/4, not E.
    #[must_use]
    pub fn nearest_at_or_below(diameter: Length) -> Option<Drill> {
        let largest = DRILLS.iter().rev().find(|drill| drill.diameter <= diameter)?;
        // The first of its diameter, which is the fraction.
        Drill::nearest_at_or_above(largest.diameter)
    }

    /// Reads a drill: `#30`, `No. 30`, `F` or `f`, `11/64`.
    ///
    /// A fraction may be written in any terms (`2/8`) and with `in` or `"`. A bare `30` is refused, since it could be a length.
    ///
    /// # Errors
    /// [`ParseDrillError`] says which drills there are.
    ///
    /// ```
    /// use shophead::drill::{Drill, ParseDrillError};
    /// assert_eq!(Drill::parse("No. 30")?, Drill::parse("#30")?);
    /// assert_eq!(Drill::parse("f")?.to_string(), "F");
    /// assert_eq!(Drill::parse("#81"), Err(ParseDrillError::NoSuchNumber));
    /// # Ok::<(), ParseDrillError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Drill, ParseDrillError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(ParseDrillError::Empty);
        }
        if let Some(digits) = after_number_mark(text) {
            return numbered(digits.trim_start());
        }
        let mut chars = text.chars();
        if let (Some(only), None) = (chars.next(), chars.next()) {
            let name = Name::Letter(only.to_ascii_uppercase());
            if let Some(drill) = DRILLS.iter().find(|drill| drill.name == name) {
                return Ok(*drill);
            }
        }
        if text.contains('/') {
            return fractional(text);
        }
        Err(if text.chars().all(|c| c.is_ascii_digit()) { ParseDrillError::NoMark } else { ParseDrillError::NotADrill })
    }
}

/// What follows `#`, `No.` or `No` with a number; `None` where the text has no such mark.
fn after_number_mark(text: &str) -> Option<&str> {
    if let Some(rest) = text.strip_prefix('#') {
        return Some(rest);
    }
    let (mark, rest) = text.split_at_checked(2)?;
    mark.eq_ignore_ascii_case("no").then(|| rest.strip_prefix('.').unwrap_or(rest))
}

fn numbered(digits: &str) -> Result<Drill, ParseDrillError> {
    if digits.is_empty() || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return Err(ParseDrillError::NotANumber);
    }
    // A number too long for u8 names no drill either.
    let number: u8 = digits.parse().map_err(|_| ParseDrillError::NoSuchNumber)?;
    let name = Name::Number(number);
    DRILLS.iter().find(|drill| drill.name == name).copied().ok_or(ParseDrillError::NoSuchNumber)
}

fn fractional(text: &str) -> Result<Drill, ParseDrillError> {
    use crate::length::LengthErrorKind;
    let diameter = Length::parse(text).map_err(|error| match error.kind {
        LengthErrorKind::FractionNotExact | LengthErrorKind::ZeroDenominator => ParseDrillError::NotSixtyFourths,
        LengthErrorKind::TooLarge => ParseDrillError::NoSuchFraction,
        _ => ParseDrillError::NotADrill,
    })?;
    if !diameter.to_64ths().is_exact() {
        return Err(ParseDrillError::NotSixtyFourths);
    }
    let found = DRILLS.iter().find(|drill| matches!(drill.name, Name::SixtyFourths(_)) && drill.diameter == diameter);
    found.copied().ok_or(ParseDrillError::NoSuchFraction)
}

/// `#30`, `F`, `11/64`: what [`Drill::parse`] reads back.
impl fmt::Display for Drill {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.name {
            Name::Number(number) => write!(f, "#{number}"),
            Name::Letter(letter) => write!(f, "{letter}"),
            Name::SixtyFourths(_) => write!(f, "{}", self.diameter.to_64ths()),
        }
    }
}

impl Drill {
    /// The drill with its diameter behind it: `#27 (.144)`.
    ///
    /// ```
    /// use shophead::drill::Drill;
    /// use shophead::words::Units;
    /// let drill = Drill::parse("#27")?;
    /// assert_eq!(drill.sized(Units::Inches).to_string(), "#27 (.144)");
    /// assert_eq!(drill.sized(Units::Millimetres).to_string(), "#27 (3.66 mm)");
    /// # Ok::<(), shophead::drill::ParseDrillError>(())
    /// ```
    #[must_use]
    pub const fn sized(self, units: Units) -> WithSize {
        WithSize { drill: self, units }
    }
}

/// A drill with its diameter: made by [`Drill::sized`].
#[derive(Clone, Copy, Debug)]
pub struct WithSize {
    drill: Drill,
    units: Units,
}

impl fmt::Display for WithSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({})", self.drill, self.units.length(self.drill.diameter()))
    }
}

impl core::str::FromStr for Drill {
    type Err = ParseDrillError;
    fn from_str(text: &str) -> Result<Drill, ParseDrillError> {
        Drill::parse(text)
    }
}

crate::words::errors! {
    /// Why a text is not a drill.
    ParseDrillError = (22, "not-a-drill", "A text is not a drill.", "not a drill", "right would be #30, F or 11/64") {
        Empty, "drill-missing", "Nothing but spaces.",
            "a drill is missing";
        NotANumber, "drill-not-a-number", "Something other than a whole number after `#` or `No.`.",
            "a whole number follows the #, as in #30", "";
        NoSuchNumber, "no-such-number-drill", "A number other than 1 to 80.",
            "no such number drill", "they go from #80 to #1";
        NoMark, "drill-without-mark", "A number without its mark.",
            "a number drill needs its mark, as in #30", "";
        NotSixtyFourths, "drill-not-sixty-fourths", "A fraction that is not a whole number of sixty-fourths.",
            "fraction drills come in sixty-fourths, as in 11/64", "";
        NoSuchFraction, "no-such-fraction-drill", "A fraction below 1/64 in or above 1/2 in.",
            "the fraction drills on file go from 1/64 to 1/2", "";
        NotADrill, "no-drill-at-all", "Neither a number, nor a letter, nor a fraction.",
            "not a drill";
    }
}

/// Reads the diameter of a hole: a drill (`#30`, `No. 30`, `F`) or any length that [`Length::parse`] reads (`.1285`, `11/64`,
/// `3.26mm`).
///
/// What begins with a letter or `#` is read as a drill, all else as a length; a fraction is the same either way.
///
/// # Errors
/// [`ParseHoleError`]: what the drill or the length lacks, or that a hole needs a diameter above zero.
///
/// ```
/// use shophead::drill::parse_hole;
/// use shophead::length::Length;
/// assert_eq!(parse_hole("#30")?, Length::parse("0.1285").unwrap());
/// assert_eq!(parse_hole("11/64")?, Length::parse("0.171875").unwrap());
/// assert!(parse_hole("0").is_err());
/// # Ok::<(), shophead::drill::ParseHoleError>(())
/// ```
pub fn parse_hole(text: &str) -> Result<Length, ParseHoleError> {
    parse_hole_as(text, Bare::Inches)
}

/// The same, where a number without a unit is what `bare` says.
///
/// # Errors
/// As [`parse_hole`].
pub fn parse_hole_as(text: &str, bare: Bare) -> Result<Length, ParseHoleError> {
    let diameter = if text.trim_start().starts_with(|c: char| c == '#' || is_letter(c)) {
        Drill::parse(text).map_err(ParseHoleError::Drill)?.diameter()
    } else {
        Length::parse_as(text, bare).map_err(ParseHoleError::Length)?
    };
    if diameter > Length::ZERO { Ok(diameter) } else { Err(ParseHoleError::NotPositive) }
}

crate::words::errors! {
    /// Why a text is not the diameter of a hole.
    ParseHoleError = (23, "not-a-hole", "A text is neither a drill nor the width of a hole.",
        "not a hole", "right would be #30, F or .1285")
    {
        NotPositive, "hole-not-positive", "A length of nothing or less.",
            "a hole needs a diameter above zero";
        | Drill(ParseDrillError), "It begins like a drill but is none.";
        | Length(ParseLengthError), "It begins like a length but is none.";
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::format;

    fn inch(text: &str) -> Length {
        Length::parse(text).expect(text)
    }

    #[test]
    fn the_table_rises_and_only_e_shares_its_diameter() {
        for (one, next) in Drill::all().zip(Drill::all().skip(1)) {
            assert!(one.diameter() <= next.diameter(), "{one} before {next}");
            if one.diameter() == next.diameter() {
                assert_eq!(format!("{one} {next}"), "1/4 E");
            }
        }
        assert_eq!(Drill::all().len(), 80 + 26 + 32);
    }

    #[test]
    fn reads_every_way_of_writing() {
        for (text, printed) in [
            ("#30", "#30"),
            ("# 30", "#30"),
            (" #30 ", "#30"),
            ("#030", "#30"),
            ("No. 30", "#30"),
            ("no.30", "#30"),
            ("NO 30", "#30"),
            ("#1", "#1"),
            ("#80", "#80"),
            ("F", "F"),
            ("f", "F"),
            ("n", "N"),
            ("11/64", "11/64"),
            ("22/128", "11/64"),
            ("2/8", "1/4"),
            ("1/4 in", "1/4"),
            ("1/2\"", "1/2"),
        ] {
            assert_eq!(Drill::parse(text).map(|drill| format!("{drill}")).as_deref(), Ok(printed), "{text:?}");
        }
    }

    #[test]
    fn says_which_drills_there_are() {
        use ParseDrillError::*;
        for (text, error) in [
            ("", Empty),
            ("  ", Empty),
            ("#", NotANumber),
            ("#3O", NotANumber),
            ("#+3", NotANumber),
            ("#3.0", NotANumber),
            ("North", NotANumber),
            ("#0", NoSuchNumber),
            ("#81", NoSuchNumber),
            ("#99999999999999999999", NoSuchNumber),
            ("30", NoMark),
            ("7", NoMark),
            ("3/65", NotSixtyFourths),
            ("1/127", NotSixtyFourths),
            ("1/128", NotSixtyFourths),
            ("1/0", NotSixtyFourths),
            ("0/64", NoSuchFraction),
            ("-1/64", NoSuchFraction),
            ("33/64", NoSuchFraction),
            ("1-1/4", NoSuchFraction),
            ("99999999999999999999999999999/2", NoSuchFraction),
            ("1/4mm", NotADrill),
            ("0.1285", NotADrill),
            ("FF", NotADrill),
            ("É", NotADrill),
            ("½", NotADrill),
        ] {
            assert_eq!(Drill::parse(text), Err(error), "{text:?}");
        }
    }

    #[test]
    fn the_nearest_drill_of_two_names_is_the_fraction() {
        let quarter = Some(Drill::parse("1/4").expect("a drill"));
        assert_eq!(Drill::nearest_at_or_above(inch("1/4")), quarter);
        assert_eq!(Drill::nearest_at_or_below(inch("1/4")), quarter);
        assert_eq!(Drill::nearest_at_or_below(inch(".2501")), quarter);
        assert_eq!(Drill::nearest_at_or_above(inch(".2499")), quarter);
        assert_ne!(Drill::parse("E").ok(), quarter);
    }

    #[test]
    fn beyond_the_table_there_is_no_nearest() {
        assert_eq!(Drill::nearest_at_or_above(inch("1/2")).map(|drill| format!("{drill}")).as_deref(), Some("1/2"));
        assert_eq!(Drill::nearest_at_or_above(inch(".50001")), None);
        assert_eq!(Drill::nearest_at_or_below(inch(".0134")), None);
        assert_eq!(Drill::nearest_at_or_above(Length::MIN), Drill::parse("#80").ok());
        assert_eq!(Drill::nearest_at_or_below(Length::MAX), Drill::parse("1/2").ok());
    }

    #[test]
    fn a_hole_is_a_drill_or_a_length() {
        use crate::length::LengthErrorKind;
        for (text, length) in [
            ("#30", ".1285"),
            ("F", ".257"),
            (" f ", ".257"),
            ("11/64", ".171875"),
            (".129", ".129"),
            ("25/32", ".78125"),
        ] {
            assert_eq!(parse_hole(text), Ok(inch(length)), "{text:?}");
        }
        assert_eq!(parse_hole("3.2mm"), Ok(inch("3.2mm")));
        assert_eq!(parse_hole("#81"), Err(ParseHoleError::Drill(ParseDrillError::NoSuchNumber)));
        assert_eq!(parse_hole("-.1"), Err(ParseHoleError::NotPositive));
        assert_eq!(parse_hole("0"), Err(ParseHoleError::NotPositive));
        assert!(matches!(parse_hole(""), Err(ParseHoleError::Length(e)) if e.kind == LengthErrorKind::Empty));
        assert!(
            matches!(parse_hole("0,125"), Err(ParseHoleError::Length(e)) if e.kind == LengthErrorKind::DecimalComma)
        );
    }

    #[test]
    fn only_one_drill_is_printed_in_two_ways() {
        let two_ways: std::vec::Vec<_> = Drill::all().filter(|drill| drill.also_printed().is_some()).collect();
        assert_eq!(two_ways, [Drill::parse("#69").expect("a drill")]);
        assert_eq!(two_ways.first().and_then(|drill| drill.also_printed()), Some(inch(".02925")));
    }
}
