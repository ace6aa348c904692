//! The value of a limit, and how it is written in a limits file.

use core::fmt;

use super::{Case, LimitKind, Name};
use crate::length::{Length, ParseLengthError, split_once};
use crate::words::thousandths;

crate::words::words! {
    /// How a computed rivet length is rounded to one that exists.
    LengthRounding, "way of rounding" {
        Longer = 1, "next longer", "To the next longer standard length.";
        Nearest = 2, "nearest", "To the nearest standard length; midway, to the longer.";
    }
}

/// The value of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Value {
    /// A length by itself: `.163`.
    Length(Length),
    /// So many nominal shank diameters and a length: `1.5 D`, `2 D + 1/16`. The multiple is `num / den`.
    Diameters {
        /// Top of the multiple.
        num: u32,
        /// Bottom of the multiple; not zero.
        den: u32,
        /// What is added.
        plus: Length,
    },
    /// The largest shank and a length: `shank + .004`.
    OverShank(Length),
    /// A ratio or a share: `2/3`, `20 %`, `3`.
    Fraction {
        /// Top.
        num: u32,
        /// Bottom; not zero.
        den: u32,
    },
    /// A whole number: `10`.
    Count(u32),
    /// `next longer` or `nearest`.
    Rounding(LengthRounding),
}

crate::words::errors! {
    /// Why a text is not the value of a limit.
    ParseValueError = (26, "not-a-value", "A text is not the value of this limit.",
        "not the value of such a limit", "right would be .163, 1.5 D, 2/3 or 10")
    {
        Length(error: ParseLengthError), "value-length", "The length in it cannot be read.",
            "{error}, 1.5 D, 2 D + 1/16 or shank + .004", "";
        Negative, "value-negative", "A length must not be below zero.",
            "a limit cannot be below zero", "right would be .163 or 1.5 D";
        NoPlus, "value-no-plus", "A length behind the diameters or the shank without a plus sign.",
            "a length is added with a plus sign", "right would be 2 D + 1/16";
        NotARatio, "value-not-a-ratio", "A multiple, ratio or share that cannot be read.",
            "not a ratio", "right would be 3, 2/3, 1.5 or 20 %";
        NotACount, "value-not-a-count", "Not a whole number.",
            "not a whole number", "right would be 10";
        NotARounding, "value-not-a-rounding", "Not a way of rounding.",
            "rounding is \"next longer\" or \"nearest\"", "";
    }
}

impl Value {
    /// The same for one rivet: what is counted in its diameters, or from its shank, as the length that it comes to.
    pub(super) const fn for_case(self, case: &Case) -> Value {
        match self {
            Value::Diameters { num, den, plus } => Value::Length(case.diameter.times(num, den).plus(plus)),
            Value::OverShank(plus) => match case.shank_max {
                Some(shank) => Value::Length(shank.plus(plus)),
                None => self,
            },
            _ => self,
        }
    }

    /// As the C interface holds it: the number of its kind, which never changes, top and bottom of a ratio, or a count and 0, and
    /// nanometres. What its kind does not use is 0.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::practice::Value;
    /// assert_eq!(Value::Length(Length::SIXTEENTH).for_c(), (1, 0, 0, 1_587_500));
    /// assert_eq!(Value::Diameters { num: 3, den: 2, plus: Length::ZERO }.for_c(), (2, 3, 2, 0));
    /// ```
    #[must_use]
    pub const fn for_c(self) -> (u32, u32, u32, i64) {
        match self {
            Value::Length(length) => (1, 0, 0, length.nanometres()),
            Value::Diameters { num, den, plus } => (2, num, den, plus.nanometres()),
            Value::OverShank(plus) => (3, 0, 0, plus.nanometres()),
            Value::Fraction { num, den } => (4, num, den, 0),
            Value::Count(count) => (5, count, 0, 0),
            Value::Rounding(rounding) => (6, rounding.number(), 0, 0),
        }
    }

    /// Reads a value of the kind that the limit asks for.
    ///
    /// # Errors
    /// [`ParseValueError`] says what would be right.
    ///
    /// ```
    /// use shophead::practice::{Name, Value};
    /// use shophead::length::Length;
    /// let value = Value::parse(Name::EdgeDistancePreferred, "2 D + 1/16")?;
    /// assert_eq!(value, Value::Diameters { num: 2, den: 1, plus: Length::from_64ths(4) });
    /// assert_eq!(value.to_string(), "2 D + 1/16");
    /// # Ok::<(), shophead::practice::ParseValueError>(())
    /// ```
    pub fn parse(name: Name, text: &str) -> Result<Value, ParseValueError> {
        let text = text.trim();
        match name.kind() {
            LimitKind::Count => text.parse().map(Value::Count).map_err(|_| ParseValueError::NotACount),
            LimitKind::Fraction => {
                let (num, den) = ratio(text).ok_or(ParseValueError::NotARatio)?;
                Ok(Value::Fraction { num, den })
            }
            LimitKind::Rounding => text.parse().map(Value::Rounding).map_err(|_| ParseValueError::NotARounding),
            LimitKind::Length => {
                if let Some(rest) = text.strip_prefix("shank") {
                    return Ok(Value::OverShank(added(rest)?));
                }
                let Some((multiple, rest)) = split_once(text, |c| matches!(c, 'D' | 'd')) else {
                    return Ok(Value::Length(length(text)?));
                };
                let (num, den) = ratio(multiple.trim()).ok_or(ParseValueError::NotARatio)?;
                Ok(Value::Diameters { num, den, plus: added(rest)? })
            }
        }
    }
}

/// Nothing, or `+ length`.
fn added(text: &str) -> Result<Length, ParseValueError> {
    let text = text.trim();
    match text.strip_prefix('+') {
        None if text.is_empty() => Ok(Length::ZERO),
        None => length(text).and(Err(ParseValueError::NoPlus)),
        Some(rest) => length(rest),
    }
}

fn length(text: &str) -> Result<Length, ParseValueError> {
    let length = Length::parse(text).map_err(ParseValueError::Length)?;
    if length < Length::ZERO { Err(ParseValueError::Negative) } else { Ok(length) }
}

/// `3`, `1.5`, `2/3`, `20 %` in lowest terms.
fn ratio(text: &str) -> Option<(u32, u32)> {
    let (text, hundredths) = match text.strip_suffix('%') {
        Some(share) => (share.trim(), true),
        None => (text, false),
    };
    let (num, den) = match split_once(text, |c| c == '/') {
        Some((top, bottom)) => (top.trim().parse().ok()?, bottom.trim().parse().ok()?),
        None => decimal(text)?,
    };
    let den: u32 = if hundredths { den.checked_mul(100)? } else { den };
    if den == 0 { None } else { Some(lowest(num, den)) }
}

fn decimal(text: &str) -> Option<(u32, u32)> {
    let (whole, places) = split_once(text, |c| c == '.').unwrap_or((text, ""));
    if whole.is_empty() && places.is_empty() || places.starts_with('+') {
        return None;
    }
    let den = 10_u32.checked_pow(u32::try_from(places.len()).ok()?)?;
    let whole: u32 = if whole.is_empty() { 0 } else { whole.parse().ok()? };
    let part: u32 = if places.is_empty() { 0 } else { places.parse().ok()? };
    Some((whole.checked_mul(den)?.checked_add(part)?, den))
}

/// A fraction in lowest terms, by Euclid's algorithm.
pub(super) const fn lowest(num: u32, den: u32) -> (u32, u32) {
    let (mut divisor, mut rest) = (num, den);
    while let Some(next) = divisor.checked_rem(rest) {
        (divisor, rest) = (rest, next);
    }
    match (num.checked_div(divisor), den.checked_div(divisor)) {
        (Some(num), Some(den)) => (num, den),
        _ => (num, den),
    }
}

/// As it is written in a limits file; [`Value::parse`] reads it back, to the places of a length that are printed.
impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Value::Length(length) => write!(f, "{length}"),
            Value::Diameters { num, den, plus } => {
                multiple(f, num, den)?;
                f.write_str(" D")?;
                plus_length(f, plus)
            }
            Value::OverShank(plus) => {
                f.write_str("shank")?;
                plus_length(f, plus)
            }
            Value::Fraction { num, den } => multiple(f, num, den),
            Value::Count(count) => write!(f, "{count}"),
            Value::Rounding(rounding) => f.write_str(rounding.as_str()),
        }
    }
}

fn plus_length(f: &mut fmt::Formatter<'_>, plus: Length) -> fmt::Result {
    if plus == Length::ZERO {
        Ok(())
    } else if plus.to_64ths().is_exact() {
        write!(f, " + {}", plus.to_64ths())
    } else {
        write!(f, " + {plus}")
    }
}

/// A decimal where three places hold it and it is read back, a fraction otherwise.
fn multiple(f: &mut fmt::Formatter<'_>, num: u32, den: u32) -> fmt::Result {
    let in_thousandths = num.checked_mul(1_000).filter(|of_thousand| of_thousand.checked_rem(den) == Some(0));
    match in_thousandths.and_then(|of_thousand| of_thousand.checked_div(den)) {
        _ if den == 1 => write!(f, "{num}"),
        Some(scaled) => {
            write!(f, "{}", scaled.div_euclid(1_000))?;
            thousandths(f, scaled.rem_euclid(1_000))
        }
        None => write!(f, "{num}/{den}"),
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;

    #[test]
    fn reads_every_kind() {
        for (name, text, printed) in [
            (Name::HeadDiameterLeast, ".163", "0.163"),
            (Name::HeadDiameterLeast, "1.30 D", "1.3 D"),
            (Name::HeadDiameterLeast, "3/2 d", "1.5 D"),
            (Name::EdgeDistancePreferred, "2 D + .0625", "2 D + 1/16"),
            (Name::HoleGreatest, "shank + .004", "shank + 0.004"),
            (Name::HoleGreatest, "shank", "shank"),
            (Name::PatternStepsShare, "20 %", "0.2"),
            (Name::CountersinkDepthShare, "2/3", "2/3"),
            (Name::PatternStepsCount, "10", "10"),
            (Name::LengthRounding, "next longer", "next longer"),
            // More figures than are read of a decimal.
            (Name::BarThickness, "666616616/64 D + 99", "83327077/8 D + 99"),
        ] {
            let value = Value::parse(name, text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(value.to_string(), printed, "{text}");
            assert_eq!(Value::parse(name, printed).map(|value| value.to_string()).as_deref(), Ok(printed), "{text}");
        }
    }

    #[test]
    fn refuses_the_wrong_kind() {
        use ParseValueError::{Negative, NoPlus, NotACount, NotARatio, NotARounding};
        for (name, text, why) in [
            (Name::HeadDiameterLeast, "-1.5 D", NotARatio),
            (Name::HeadDiameterLeast, "-.163", Negative),
            (Name::HeadDiameterLeast, "1.5 D + -.001", Negative),
            (Name::HoleGreatest, "shank + -.001", Negative),
            (Name::HeadDiameterLeast, "D", NotARatio),
            (Name::HeadDiameterLeast, ". D", NotARatio),
            (Name::PatternStepsShare, "1/0", NotARatio),
            (Name::PatternStepsShare, "0/0 %", NotARatio),
            (Name::PatternStepsShare, "1/", NotARatio),
            (Name::PatternStepsShare, "%", NotARatio),
            (Name::PatternStepsShare, "99999999999", NotARatio),
            (Name::PatternStepsShare, "99999999.99", NotARatio),
            (Name::PatternStepsShare, "1/99999999 %", NotARatio),
            (Name::CountersinkDepthShare, "1.+5", NotARatio),
            (Name::CountersinkDepthShare, "1.5.", NotARatio),
            (Name::PatternStepsCount, "2.5", NotACount),
            (Name::PatternStepsCount, "-1", NotACount),
            (Name::LengthRounding, "up", NotARounding),
            // Not a tenth over the diameter and a half: nobody knows what was meant.
            (Name::HeadDiameterLeast, "1.5 D .1", NoPlus),
            (Name::HoleGreatest, "shank .004", NoPlus),
        ] {
            assert_eq!(Value::parse(name, text), Err(why), "{text}");
        }
        for text in ["thick", "1.5 D + thick", "1.5 D thick", "1.5 D +", ""] {
            assert!(matches!(Value::parse(Name::HeadDiameterLeast, text), Err(ParseValueError::Length(_))), "{text}");
        }
    }

    #[test]
    fn what_is_read_is_what_was_typed() {
        let mil = |mils: u16| Length::from_ten_thousandths(10 * mils);
        for (name, text, value) in [
            (Name::HeadDiameterLeast, "0", Value::Length(Length::ZERO)),
            (Name::HeadDiameterLeast, "0 D", Value::Diameters { num: 0, den: 1, plus: Length::ZERO }),
            (Name::HeadDiameterLeast, " 1.50 D ", Value::Diameters { num: 3, den: 2, plus: Length::ZERO }),
            (Name::HeadDiameterLeast, ".5 D + .004", Value::Diameters { num: 1, den: 2, plus: mil(4) }),
            (Name::HeadDiameterLeast, "2.D", Value::Diameters { num: 2, den: 1, plus: Length::ZERO }),
            (Name::HeadDiameterLeast, "6 / 4 D", Value::Diameters { num: 3, den: 2, plus: Length::ZERO }),
            (Name::HoleGreatest, "shank+.004", Value::OverShank(mil(4))),
            (Name::HoleGreatest, "shank + 0", Value::OverShank(Length::ZERO)),
            (Name::PatternStepsShare, "12.5 %", Value::Fraction { num: 1, den: 8 }),
            (Name::PatternStepsShare, "1/2%", Value::Fraction { num: 1, den: 200 }),
            (Name::PatternStepsShare, "0", Value::Fraction { num: 0, den: 1 }),
            (Name::PatternStepsCount, "0", Value::Count(0)),
            (Name::LengthRounding, "nearest", Value::Rounding(LengthRounding::Nearest)),
        ] {
            assert_eq!(Value::parse(name, text), Ok(value), "{text}");
        }
    }

    #[test]
    fn an_instrument_holds_each_kind_by_its_number() {
        let mil = Length::from_ten_thousandths(10);
        for (value, held) in [
            (Value::Length(mil), (1, 0, 0, 25_400)),
            (Value::Diameters { num: 3, den: 2, plus: mil }, (2, 3, 2, 25_400)),
            (Value::OverShank(mil), (3, 0, 0, 25_400)),
            (Value::Fraction { num: 2, den: 3 }, (4, 2, 3, 0)),
            (Value::Count(10), (5, 10, 0, 0)),
            (Value::Rounding(LengthRounding::Longer), (6, LengthRounding::Longer.number(), 0, 0)),
        ] {
            assert_eq!(value.for_c(), held);
        }
        assert_ne!(LengthRounding::Longer.number(), LengthRounding::Nearest.number());
    }
}
