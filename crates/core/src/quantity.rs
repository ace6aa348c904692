//! Forces, stresses and masses as `f64` with their unit in every name.
//!
//! The table quantities are held in the unit in which the tables print them (pounds force, pounds per square inch, pounds),
//! so a printed value comes back unchanged. The factors are exact by definition: the pound is 0.453 592 37 kg (international
//! yard and pound agreement of 1959), standard gravity 9.806 65 m/s² (3rd CGPM, 1901), the inch 25.4 mm.
//!
//! Constructors do not check: a NaN put in stays visible to the end. What reads text ([`Force::parse`]) refuses it, and so do
//! the calculations that take a load.

use core::ops::{Add, Div, Mul, Sub};

use crate::length::Bare;

const NEWTONS_PER_LBF: f64 = 0.453_592_37 * 9.806_65;
const PASCALS_PER_PSI: f64 = NEWTONS_PER_LBF / (0.0254 * 0.0254);
const GRAMS_PER_LB: f64 = 453.592_37;

/// One line a unit: constructor, reader, how many of the held unit make one of it, and words.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident { $( $make:ident, $read:ident, $factor:expr, $unit:literal; )+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(transparent))]
        pub struct $name(f64);

        impl $name {
            /// None at all.
            pub const ZERO: $name = $name(0.0);
            $(
                #[doc = concat!("From ", $unit, ".")]
                #[must_use]
                pub const fn $make(value: f64) -> $name { $name(value * $factor) }

                #[doc = concat!("In ", $unit, ".")]
                #[must_use]
                pub const fn $read(self) -> f64 { self.0 / $factor }
            )+

            /// Whether this is a number at all: neither NaN nor infinite.
            #[must_use]
            pub const fn is_finite(self) -> bool { self.0.is_finite() }

            /// The smaller of the two; if one is NaN, the other.
            #[must_use]
            pub const fn min(self, other: $name) -> $name { $name(self.0.min(other.0)) }

            /// The larger of the two; if one is NaN, the other.
            #[must_use]
            pub const fn max(self, other: $name) -> $name { $name(self.0.max(other.0)) }
        }

        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name { $name(self.0 + other.0) }
        }

        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name { $name(self.0 - other.0) }
        }

        impl Mul<f64> for $name {
            type Output = $name;
            fn mul(self, factor: f64) -> $name { $name(self.0 * factor) }
        }

        /// The ratio of two of a kind is a plain number.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: $name) -> f64 { self.0 / other.0 }
        }
    };
}

quantity! {
    /// A force; held in pounds.
    ///
    /// ```
    /// use shophead::quantity::Force;
    /// assert_eq!(Force::from_lbf(388.0).lbf(), 388.0);
    /// assert!((Force::from_newtons(1_000.0).lbf() - 224.808_943).abs() < 1e-6);
    /// ```
    Force {
        from_lbf, lbf, 1.0, "pounds force";
        from_newtons, newtons, (1.0 / NEWTONS_PER_LBF), "newtons";
    }
}

quantity! {
    /// A stress or a modulus; held in pounds per square inch.
    Stress {
        from_psi, psi, 1.0, "pounds per square inch";
        from_ksi, ksi, 1_000.0, "thousand pounds per square inch";
        from_msi, msi, 1_000_000.0, "million pounds per square inch";
        from_megapascals, megapascals, (1_000_000.0 / PASCALS_PER_PSI), "megapascals";
    }
}

quantity! {
    /// A mass; held in pounds.
    Mass {
        from_lb, lb, 1.0, "pounds";
        from_grams, grams, (1.0 / GRAMS_PER_LB), "grams";
    }
}

quantity! {
    /// How far something gives under load; held in inches per pound force.
    Flexibility {
        from_in_per_lbf, in_per_lbf, 1.0, "inches per pound force";
        from_mm_per_newton, mm_per_newton, (NEWTONS_PER_LBF / 25.4), "millimetres per newton";
    }
}

crate::words::errors! {
    /// Why a text is not a force.
    ParseForceError = (21, "not-a-force", "A text is not a force.", "not a force", "right would be 250, 250lbf or 1100N") {
        NotANumber, "force-not-a-number", "No finite number at the start.",
            "not a number";
        UnknownUnit, "force-unit", "A unit other than `lbf`, `lb` and `N`.",
            "the units of force are lbf and N", "right would be 250lbf or 1100N";
    }
}

impl Force {
    /// Reads a force; pounds unless it says `N`.
    ///
    /// # Errors
    /// [`ParseForceError`]; NaN and infinities are not numbers here, nor is what has more digits than an `f64` can hold (15 always fit).
    ///
    /// ```
    /// use shophead::quantity::{Force, ParseForceError};
    /// assert_eq!(Force::parse("250")?, Force::from_lbf(250.0));
    /// assert_eq!(Force::parse("1100 N")?, Force::from_newtons(1100.0));
    /// assert_eq!(Force::parse("NaN"), Err(ParseForceError::NotANumber));
    /// # Ok::<(), ParseForceError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Force, ParseForceError> {
        Force::parse_as(text, Bare::Inches)
    }

    /// The same beside lengths of which one without a unit is what `bare` says: beside millimetres a force without one is newtons.
    ///
    /// # Errors
    /// As [`Force::parse`].
    ///
    /// ```
    /// use shophead::length::Bare;
    /// use shophead::quantity::Force;
    /// assert_eq!(Force::parse_as("1100", Bare::Millimetres), Force::parse("1100N"));
    /// assert_eq!(Force::parse_as("250lbf", Bare::Millimetres), Force::parse("250"));
    /// ```
    pub fn parse_as(text: &str, bare: Bare) -> Result<Force, ParseForceError> {
        let text = text.trim();
        let end = text.find(|c: char| !matches!(c, '0'..='9' | '.' | '-' | '+')).unwrap_or(text.len());
        let (number, unit) = text.split_at_checked(end).unwrap_or((text, ""));
        let value = decimal(number).ok_or(ParseForceError::NotANumber)?;
        match (unit.trim(), bare) {
            ("", Bare::Inches) | ("lbf" | "lb", _) => Ok(Force::from_lbf(value)),
            ("", Bare::Millimetres) | ("N", _) => Ok(Force::from_newtons(value)),
            _ => Err(ParseForceError::UnknownUnit),
        }
    }
}

/// The `f64` nearest to a plain decimal such as `-12.5`.
///
/// The digits and the power of ten are both held exactly, so their one division is correctly rounded: the same value as the
/// standard library's reader gives, without its ten kilobytes of flash and its code that can panic as far as a linker can tell.
fn decimal(text: &str) -> Option<f64> {
    /// Every whole number up to this one is an `f64`.
    const EXACT: u64 = 1 << 53;
    /// The largest power of ten that is an `f64`.
    const MOST_PLACES: u32 = 22;
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let (mut digits, mut places, mut point, mut any) = (0_u64, 0_u32, false, false);
    for c in text.chars() {
        if c == '.' && !point {
            point = true;
            continue;
        }
        digits = digits.checked_mul(10)?.checked_add(u64::from(c.to_digit(10)?))?;
        places = places.saturating_add(u32::from(point));
        any = true;
    }
    let scale = (0..places).fold(1.0, |scale, _| scale * 10.0);
    (any && digits <= EXACT && places <= MOST_PLACES).then_some(sign * digits as f64 / scale)
}

crate::words::errors! {
    /// Why a text is not a stress.
    ParseStressError {
        NotANumber = _, "stress-not-a-number", "No finite number at the start.",
            "not a number; right would be 20ksi or 140MPa";
        UnknownUnit = _, "stress-unit", "No unit, or another than `psi`, `ksi`, `msi`, `MPa` and `GPa`.",
            "a stress needs its unit: psi, ksi, msi, MPa or GPa; right would be 20ksi or 140MPa";
    }
}

impl Stress {
    /// Reads a stress or a modulus with its unit: `20ksi`, `10.3 msi`, `140MPa`.
    ///
    /// # Errors
    /// [`ParseStressError`]; NaN and infinities are not numbers here.
    ///
    /// ```
    /// use shophead::quantity::{ParseStressError, Stress};
    /// assert_eq!(Stress::parse("20 ksi")?, Stress::from_psi(20_000.0));
    /// assert!((Stress::parse("140MPa")?.ksi() - 20.305).abs() < 0.001);
    /// assert_eq!(Stress::parse("20"), Err(ParseStressError::UnknownUnit));
    /// # Ok::<(), ParseStressError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Stress, ParseStressError> {
        const MPA_IN_GPA: f64 = 1_000.0;
        let text = text.trim();
        let end = text.find(|c: char| !matches!(c, '0'..='9' | '.' | '-' | '+')).unwrap_or(text.len());
        let (number, unit) = text.split_at_checked(end).unwrap_or((text, ""));
        let value = decimal(number).ok_or(ParseStressError::NotANumber)?;
        let stress = match unit.trim() {
            "psi" => Stress::from_psi(value),
            "ksi" => Stress::from_ksi(value),
            "msi" => Stress::from_msi(value),
            "MPa" => Stress::from_megapascals(value),
            "GPa" => Stress::from_megapascals(value * MPA_IN_GPA),
            _ => return Err(ParseStressError::UnknownUnit),
        };
        if stress.is_finite() { Ok(stress) } else { Err(ParseStressError::NotANumber) }
    }
}

impl core::str::FromStr for Force {
    type Err = ParseForceError;
    fn from_str(text: &str) -> Result<Force, ParseForceError> {
        Force::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_are_read_as_the_standard_library_reads_them() {
        for text in [
            "0",
            "-0",
            "+1",
            ".5",
            "5.",
            "0.1",
            "388.25",
            "1100",
            "-12.375",
            "123456789.012345",
            "0.000000000000000000001",
        ] {
            assert_eq!(decimal(text).map(f64::to_bits), text.parse::<f64>().ok().map(f64::to_bits), "{text}");
        }
        let mut digits = 1_u64;
        for places in 0..=22_usize {
            for last in 0..10 {
                digits = (digits * 10 + last) % (1 << 53);
                extern crate std;
                let text = std::format!("{digits:0>width$}", width = places + 1);
                let (whole, fraction) = text.split_at(text.len() - places);
                let text = std::format!("{whole}.{fraction}");
                assert_eq!(decimal(&text), text.parse().ok(), "{text}");
            }
        }
    }

    #[test]
    fn every_unit_is_so_many_of_the_smaller_one() {
        assert_eq!("250".parse(), Ok(Force::from_lbf(250.0)));
        assert_eq!("1100 N".parse(), Ok(Force::from_newtons(1100.0)));
        assert_eq!("1100 kN".parse::<Force>(), Err(ParseForceError::UnknownUnit));
        for (large, small) in
            [("71GPa", "71000MPa"), ("0.5 GPa", "500 MPa"), ("10.5msi", "10500ksi"), ("20ksi", "20000psi")]
        {
            let read = |text| Stress::parse(text).map(Stress::psi);
            assert_eq!(read(large), read(small));
            assert!(read(large).is_ok_and(|psi| psi > 0.0), "{large}");
        }
    }

    #[test]
    fn what_is_no_decimal_is_refused() {
        for text in ["", "+", "-", ".", "1.2.3", "+-1", "1-", "9007199254740993", "0.00000000000000000000001"] {
            assert_eq!(decimal(text), None, "{text}");
        }
    }
}
