//! Lengths and forces in the units of the session.

use heapless::String;
use shophead::length::{Interval, Length, LengthErrorKind, ParseLengthError, Toleranced};
use shophead::quantity::Force;
use shophead::words::{self, Shown};

use crate::screen::MAX_ENTRY;

/// The units in which lengths are entered and shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Units {
    Inches,
    ThirtySeconds,
    Millimetres,
}

const HUNDREDTH_OF_A_MILLIMETRE: Length = match Length::from_nanometres(10_000) {
    Some(step) => step,
    None => Length::ZERO,
};

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

    pub(crate) const fn as_str(self) -> &'static str {
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
                Toleranced::new(nominal, either_way, either_way).map_err(|_| {
                    let at = text.find(['T', 't']).unwrap_or(0).saturating_add(2);
                    ParseLengthError::new(at, LengthErrorKind::NoDigits)
                })
            }
        }
    }

    /// The core's units that figures are written in.
    pub(crate) const fn written(self) -> words::Units {
        match self {
            Units::Millimetres => words::Units::Millimetres,
            Units::Inches | Units::ThirtySeconds => words::Units::Inches,
        }
    }

    /// The greatest hole of a range as it is measured: never more than it is.
    pub(crate) const fn show_fine(self, hole: Length) -> Shown {
        let (step, units) = match self.written() {
            words::Units::Inches => (Length::from_ten_thousandths(1), words::Units::Inches),
            words::Units::Millimetres => (HUNDREDTH_OF_A_MILLIMETRE, words::Units::Millimetres),
        };
        units.length(hole.floor_to(step)).tight()
    }

    /// A length as it is shown; in thirty-seconds as a fraction where it is one.
    pub(crate) const fn show(self, length: Length) -> Shown {
        match self {
            Units::ThirtySeconds => self.written().size(length),
            Units::Inches | Units::Millimetres => self.written().length(length).tight(),
        }
    }

    /// A least and a greatest length.
    pub(crate) const fn show_range(self, interval: Interval) -> Shown {
        self.written().interval(interval).tight()
    }

    /// The same as limits, rounded inwards.
    pub(crate) const fn show_limits(self, interval: Interval) -> Shown {
        self.written().limits(Some(interval.min()), Some(interval.max())).tight()
    }

    /// A least length: `from .163`.
    pub(crate) const fn show_least(self, least: Length) -> Shown {
        self.written().limits(Some(least), None).tight()
    }

    pub(crate) const fn show_force(self, force: Force) -> Shown {
        self.written().force(force).tight()
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
        assert_eq!(Units::Inches.show(length).to_string(), ".094");
        assert_eq!(Units::ThirtySeconds.show(length).to_string(), "3/32");
        assert_eq!(Units::Millimetres.show(length).to_string(), "2.38mm");
        let force = Force::from_lbf(388.2);
        assert_eq!(Units::Inches.show_force(force).to_string(), "388lbf");
        assert_eq!(Units::Millimetres.show_force(force).to_string(), "1727N");
    }
}
