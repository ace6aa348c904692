//! Lengths and forces in the units of the session.

use core::fmt;

use heapless::String;
use shophead::length::{Length, ParseLengthError, Toleranced};
use shophead::quantity::Force;

use crate::screen::MAX_ENTRY;

/// The units in which lengths are entered and shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Units {
    Inches,
    ThirtySeconds,
    Millimetres,
}

/// Room for an entry and `mm`.
const WITH_UNIT: usize = MAX_ENTRY + 2;

impl Units {
    pub(crate) const fn next(self) -> Units {
        match self {
            Units::Inches => Units::ThirtySeconds,
            Units::ThirtySeconds => Units::Millimetres,
            Units::Millimetres => Units::Inches,
        }
    }

    pub(crate) const fn word(self) -> &'static str {
        match self {
            Units::Inches => "inches",
            Units::ThirtySeconds => "32nds of an inch",
            Units::Millimetres => "millimetres",
        }
    }

    /// Reads a length in these units.
    pub(crate) fn length(self, text: &str) -> Result<Length, ParseLengthError> {
        let whole = text.bytes().all(|byte| byte.is_ascii_digit());
        let decimal = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
        match self {
            Units::ThirtySeconds if whole => {
                let count = text.parse::<u16>().ok();
                match count.and_then(|count| Length::THIRTY_SECOND.checked_mul(i64::from(count))) {
                    Some(length) => Ok(length),
                    None => Length::parse(text),
                }
            }
            Units::Millimetres if decimal => {
                let mut with_unit: String<WITH_UNIT> = String::new();
                // Both fit: an entry is no longer than MAX_ENTRY.
                let _ = with_unit.push_str(text);
                let _ = with_unit.push_str("mm");
                Length::parse(&with_unit)
            }
            _ => Length::parse(text),
        }
    }

    /// Reads a length with an optional tolerance either way after `T`.
    pub(crate) fn toleranced(self, text: &str) -> Result<Toleranced, ParseLengthError> {
        match text.split_once(['T', 't']) {
            None if text.contains('+') => Toleranced::parse(text),
            None => self.length(text).map(Toleranced::exactly),
            Some((nominal, tolerance)) => {
                let nominal = self.length(nominal.trim())?;
                let either_way = self.length(tolerance.trim())?;
                Ok(Toleranced::new(nominal, either_way, either_way))
            }
        }
    }

    pub(crate) const fn show(self, length: Length) -> Shown {
        Shown { length, units: self }
    }

    pub(crate) const fn show_force(self, force: Force) -> ShownForce {
        ShownForce { force, units: self }
    }
}

/// A length in the units of the session.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Shown {
    length: Length,
    units: Units,
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let fraction = self.length.to_64ths();
        match self.units {
            Units::ThirtySeconds if fraction.is_exact() => write!(f, "{fraction}"),
            Units::Inches | Units::ThirtySeconds => write!(f, "{:.4}", self.length),
            Units::Millimetres => write!(f, "{:.2}", self.length.in_millimetres()),
        }
    }
}

/// A force in whole pounds, or in newtons in a session in millimetres. What is left over is dropped: the lower figure is the safe one.
#[derive(Clone, Copy)]
pub(crate) struct ShownForce {
    force: Force,
    units: Units,
}

impl fmt::Display for ShownForce {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Printing whole numbers keeps the large float printer of the standard library out of a small image.
        match self.units {
            Units::Millimetres => write!(f, "{}{}N", self.force.newtons() as i32, crate::screen::FIXED_SPACE),
            _ => write!(f, "{}{}lb", self.force.lbf() as i32, crate::screen::FIXED_SPACE),
        }
    }
}

/// A plain ratio with two decimals, the rest dropped.
pub(crate) struct ShownRatio(pub(crate) f64);

impl fmt::Display for ShownRatio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = (self.0 * 100.0) as i32;
        let sign = if hundredths < 0 { "-" } else { "" };
        let size = hundredths.unsigned_abs();
        let (whole, rest) = (size.saturating_div(100), size.checked_rem(100).unwrap_or(0));
        write!(f, "{sign}{whole}.{rest:02}")
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;

    #[test]
    fn a_number_is_in_the_units_of_the_session() {
        let eighth = Length::from_64ths(8);
        assert_eq!(Units::Inches.length(".125"), Ok(eighth));
        assert_eq!(Units::ThirtySeconds.length("4"), Ok(eighth));
        assert_eq!(Units::ThirtySeconds.length(".125"), Ok(eighth), "sheet goes in decimals");
        assert_eq!(Units::Millimetres.length("3.175"), Ok(eighth));
        for units in [Units::Inches, Units::ThirtySeconds, Units::Millimetres] {
            assert_eq!(units.length("1/8"), Ok(eighth));
            assert_eq!(units.length("3.175mm"), Ok(eighth));
            assert_eq!(units.length(".125in"), Ok(eighth));
            assert!(units.length("").is_err());
            assert!(units.length("1..2").is_err());
        }
    }

    #[test]
    fn a_tolerance_goes_either_way() {
        let sheet = Units::Inches.toleranced(".032T.002").expect("a sheet");
        assert_eq!((sheet.min(), sheet.max()), (Length::from_ten_thousandths(300), Length::from_ten_thousandths(340)));
        assert_eq!(Units::Inches.toleranced(".032+-.002"), Ok(sheet));
    }

    #[test]
    fn lengths_and_forces_are_shown_in_the_units_of_the_session() {
        let length = Length::from_64ths(6);
        assert_eq!(Units::Inches.show(length).to_string(), "0.0938");
        assert_eq!(Units::ThirtySeconds.show(length).to_string(), "3/32");
        assert_eq!(Units::Millimetres.show(length).to_string(), "2.38");
        let force = Force::from_lbf(388.9);
        assert_eq!(Units::Inches.show_force(force).to_string(), "388\u{a0}lb");
        assert_eq!(Units::Millimetres.show_force(force).to_string(), "1729\u{a0}N");
        assert_eq!(ShownRatio(1.429).to_string(), "1.42");
        assert_eq!(ShownRatio(-0.07).to_string(), "-0.07");
    }
}
