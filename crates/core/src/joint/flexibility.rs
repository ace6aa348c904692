//! How far one fastener gives under load: the published formulas for the spring in a chain of rows.
//!
//! Flexibility C is movement between the plates over load. With d the diameter of shank or hole, t and E thickness and modulus of the
//! plates, Ef that of the fastener, n = 1 in single and 2 in double shear (plate 1 in the middle, plate 2 one of the outer ones):
//!
//! | formula | C |
//! |---|---|
//! | [`Formula::Stp486`] | 5 / (d Ef) + 0.8 (1/(t1 E1) + 1/(t2 E2)) |
//! | [`Formula::Stp927Riveted`], [`Formula::Stp927Bolted`] | ((t1 + t2)/(2 d))^a (b/n) (1/(t1 E1) + 1/(n t2 E2) + 1/(2 t1 Ef) + 1/(2 n t2 Ef)) |
//! | [`Formula::ThicknessSquared`] | (t1 + t2)² / (Ef d³) + 3.72 (1/(t1 E1) + 1/(t2 E2)) |
//! | [`Formula::Exponential`] | Σ B^((t/d)^0.85) / t (1/E + 3/(8 Ef)) |
//! | [`Formula::Tn1051`] | shear, bending and bearing of the bolt and bearing of the plates, term by term |
//!
//! The formulas differ by a factor of two to three for the same joint, and rivets that are nominally alike by 35 %. Say which one was
//! used, or take the envelope of all that are for the joint, as [`super::sharing::Envelope`] does. A print of STP 927 has n in the third term; the form
//! here is the one that is symmetric in the plates in single shear. C in double shear is for both planes together.

use core::f64::consts::PI;

use super::strength::Shear;
use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::{Flexibility, Stress};
use crate::setters::setters;

crate::words::words! {
    /// A published formula, named by its publication; where that is not known, by its shape.
    #[non_exhaustive]
    Formula, "formula" {
        Stp927Riveted = 1, "stp-927-riveted", "ASTM STP 927 (1986), riveted metal.";
        Stp927Bolted = 2, "stp-927-bolted", "ASTM STP 927 (1986), bolted metal.";
        Stp486 = 3, "stp-486", "ASTM STP 486 (1971).";
        ThicknessSquared = 4, "thickness-squared", "Thickness squared over diameter cubed; its publication is not known.";
        Exponential = 5, "exponential", "A base raised to a power of t/d; never published by its makers.";
        Tn1051 = 6, "tn-1051", "NACA TN 1051 (1946).";
    }
}

impl Formula {
    /// Every formula that is for rivets in such a joint: those for bolts are left out.
    pub fn for_rivets(shear: Shear) -> impl Iterator<Item = Formula> + Clone {
        let riveted = |formula: &Formula| !matches!(formula, Formula::Stp927Bolted | Formula::Tn1051);
        Formula::ALL.iter().copied().filter(riveted).filter(move |formula| formula.is_for(shear))
    }

    /// Its source.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Formula::Stp927Riveted => Basis::STP927_RIVETED,
            Formula::Stp927Bolted => Basis::STP927_BOLTED,
            Formula::Stp486 => Basis::STP486,
            Formula::ThicknessSquared => Basis::FLEXIBILITY_SEC_9_4,
            Formula::Exponential => Basis::FLEXIBILITY_SEC_9_3,
            Formula::Tn1051 => Basis::TN1051,
        }
    }

    /// What it was fitted to.
    #[must_use]
    pub const fn fitted_to(self) -> &'static str {
        match self {
            Formula::Stp927Riveted => "riveted aluminium in single and double shear",
            Formula::Stp927Bolted => "bolted metal in single and double shear",
            Formula::Stp486 => "aluminium rivets in thin aluminium sheet in single shear",
            Formula::ThicknessSquared => "fasteners in single shear",
            Formula::Exponential => "fasteners in single and double shear",
            Formula::Tn1051 => "steel bolts in 24S-T plate in double shear",
        }
    }

    /// Whether it is for such a joint.
    #[must_use]
    pub const fn is_for(self, shear: Shear) -> bool {
        match self {
            Formula::Stp927Riveted | Formula::Stp927Bolted | Formula::Exponential => true,
            Formula::Stp486 | Formula::ThicknessSquared => matches!(shear, Shear::Single),
            Formula::Tn1051 => matches!(shear, Shear::Double),
        }
    }
}

/// One plate at the fastener.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct JoinedPlate {
    /// Thickness; above zero.
    pub thickness: Length,
    /// Modulus in tension; above zero.
    pub modulus: Stress,
}

impl JoinedPlate {
    /// A plate of this thickness and modulus.
    #[must_use]
    pub const fn new(thickness: Length, modulus: Stress) -> JoinedPlate {
        JoinedPlate { thickness, modulus }
    }
}

/// A fastener in its plates.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Fastening {
    /// Diameter of shank or hole; above zero.
    pub diameter: Length,
    /// Modulus of the fastener in tension; above zero.
    pub modulus: Stress,
    /// Its modulus in shear; `None` takes E / 2.6, Poisson's ratio 0.3. Only [`Formula::Tn1051`] asks for it.
    pub shear_modulus: Option<Stress>,
    /// Single or double shear.
    pub shear: Shear,
    /// The plates; in double shear the middle one first, then one of the outer ones.
    pub plates: [JoinedPlate; 2],
}

impl Fastening {
    /// With the shear modulus that follows from the other one.
    #[must_use]
    pub const fn new(diameter: Length, modulus: Stress, shear: Shear, plates: [JoinedPlate; 2]) -> Fastening {
        Fastening { diameter, modulus, shear_modulus: None, shear, plates }
    }

    setters! {
        /// Its modulus in shear.
        shear_modulus: Option<Stress>;
    }
}

/// Shear modulus from tension modulus where it is not given: 2 (1 + 0.3). The quotation of TN 1051 does not state it.
const MODULI_RATIO: f64 = 2.0 * (1.0 + 0.3);

crate::words::errors! {
    /// Why there is no flexibility.
    FlexibilityError {
        LengthNotPositive = _, "flexibility-length", "A diameter or thickness is zero or less.",
            "diameter and thicknesses must be above zero; right would be .032";
        ModulusNotPositive = _, "flexibility-modulus", "A modulus is zero, negative or not a number.",
            "a modulus must be above zero; right would be 10.5 msi";
        SingleShearOnly = _, "single-shear-only", "The formula is for single shear.",
            "this formula is for single shear; stp-927-riveted has both";
        DoubleShearOnly = _, "double-shear-only", "The formula is for double shear.",
            "this formula is for double shear; stp-927-riveted has both";
        OutOfRange = _, "flexibility-out-of-range", "No flexibility comes out of these figures.",
            "no flexibility comes out of these sizes and moduli; check their units";
    }
}

/// The flexibility of one fastener.
///
/// # Errors
/// [`FlexibilityError`]; what comes out is a number above zero.
///
/// ```
/// use shophead::joint::flexibility::{Fastening, Formula, JoinedPlate, flexibility};
/// use shophead::joint::strength::Shear;
/// use shophead::length::Length;
/// use shophead::quantity::Stress;
/// let sheet = JoinedPlate::new(Length::parse(".063")?, Stress::from_msi(10.5));
/// let rivet = Fastening::new(Length::parse(".156")?, Stress::from_msi(10.3), Shear::Single, [sheet, sheet]);
/// let found = flexibility(Formula::Stp927Riveted, &rivet).expect("sizes above zero");
/// assert!((found.in_per_lbf() - 6.987e-6).abs() < 0.5e-9);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn flexibility(formula: Formula, fastening: &Fastening) -> Result<Flexibility, FlexibilityError> {
    check(formula, fastening)?;
    let d = fastening.diameter.to_inches_f64();
    let ef = fastening.modulus.psi();
    let [(t1, e1), (t2, e2)] = fastening.plates.map(|plate| (plate.thickness.to_inches_f64(), plate.modulus.psi()));
    let plates = 1.0 / (t1 * e1) + 1.0 / (t2 * e2);
    let stp_927 = |a: f64, b: f64| {
        let n = fastening.shear.planes();
        let terms = 1.0 / (t1 * e1) + 1.0 / (n * t2 * e2) + 1.0 / (2.0 * t1 * ef) + 1.0 / (2.0 * n * t2 * ef);
        libm::pow((t1 + t2) / (2.0 * d), a) * b / n * terms
    };
    let found = match formula {
        Formula::Stp927Riveted => stp_927(2.0 / 5.0, 2.2),
        Formula::Stp927Bolted => stp_927(2.0 / 3.0, 3.0),
        Formula::Stp486 => 5.0 / (d * ef) + 0.8 * plates,
        Formula::ThicknessSquared => (t1 + t2) * (t1 + t2) / (ef * d * d * d) + 3.72 * plates,
        Formula::Exponential => {
            let base = match fastening.shear {
                Shear::Single => 2.0,
                Shear::Double => 1.25,
            };
            let term = |t: f64, e: f64| libm::pow(base, libm::pow(t / d, 0.85)) / t * (1.0 / e + 3.0 / (8.0 * ef));
            term(t1, e1) + term(t2, e2)
        }
        Formula::Tn1051 => {
            let gf = fastening.shear_modulus.map_or(ef / MODULI_RATIO, Stress::psi);
            tn_1051(Bolt { d, ef, gf }, (t1, e1), (t2, e2))
        }
    };
    if found.is_finite() && found > 0.0 {
        Ok(Flexibility::from_in_per_lbf(found))
    } else {
        Err(FlexibilityError::OutOfRange)
    }
}

#[derive(Clone, Copy)]
struct Bolt {
    d: f64,
    ef: f64,
    gf: f64,
}

/// Middle plate p, side plate s. The terms in the order of the note: shear and bending of the bolt, bearing of the bolt, bearing of
/// the plates.
fn tn_1051(Bolt { d, ef, gf }: Bolt, (tp, ep): (f64, f64), (ts, es): (f64, f64)) -> f64 {
    let area = PI / 4.0 * d * d;
    let inertia = PI / 64.0 * d * d * d * d;
    let shear = (2.0 * ts + tp) / (3.0 * gf * area);
    let bending =
        (8.0 * ts * ts * ts + 16.0 * ts * ts * tp + 8.0 * ts * tp * tp + tp * tp * tp) / (192.0 * ef * inertia);
    let bolt_bearing = (2.0 * ts + tp) / (ts * tp * ef);
    shear + bending + bolt_bearing + 1.0 / (ts * es) + 1.0 / (tp * ep)
}

fn check(formula: Formula, fastening: &Fastening) -> Result<(), FlexibilityError> {
    let positive = |stress: Stress| stress.is_finite() && stress > Stress::ZERO;
    let [one, other] = fastening.plates;
    if ![fastening.diameter, one.thickness, other.thickness].iter().all(|length| *length > Length::ZERO) {
        return Err(FlexibilityError::LengthNotPositive);
    }
    let moduli = [fastening.modulus, fastening.shear_modulus.unwrap_or(fastening.modulus), one.modulus, other.modulus];
    if !moduli.into_iter().all(positive) {
        return Err(FlexibilityError::ModulusNotPositive);
    }
    match (formula.is_for(fastening.shear), fastening.shear) {
        (true, _) => Ok(()),
        (false, Shear::Double) => Err(FlexibilityError::SingleShearOnly),
        (false, Shear::Single) => Err(FlexibilityError::DoubleShearOnly),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fastening(shear: Shear) -> Fastening {
        let sheet = JoinedPlate { thickness: Length::from_64ths(4), modulus: Stress::from_msi(10.5) };
        Fastening {
            diameter: Length::from_64ths(8),
            modulus: Stress::from_msi(10.3),
            shear_modulus: None,
            shear,
            plates: [sheet; 2],
        }
    }

    #[test]
    fn every_formula_answers_for_what_it_was_fitted_to() {
        for formula in Formula::ALL {
            for shear in [Shear::Single, Shear::Double] {
                assert_eq!(flexibility(*formula, &fastening(shear)).is_ok(), formula.is_for(shear), "{formula}");
            }
        }
        let error = |formula, shear| flexibility(formula, &fastening(shear)).unwrap_err();
        assert_eq!(error(Formula::Stp486, Shear::Double), FlexibilityError::SingleShearOnly);
        assert_eq!(error(Formula::Tn1051, Shear::Single), FlexibilityError::DoubleShearOnly);
    }

    /// No print has an example of these two: t 1/16, d 1/8, E 10.5 and Ef 10.3 msi, worked with a desk calculator.
    #[test]
    fn double_shear_and_thickness_squared_by_hand() {
        let one = 1.0 / (0.0625 * 10.5e6);
        let other = 1.0 / (2.0 * 0.0625 * 10.3e6);
        // (t1 + t2)/(2 d) is one half; the outer plate counts half as much as the middle one.
        let by_hand = 0.757_858_283 * 2.2 / 2.0 * 1.5 * (one + other);
        let found = flexibility(Formula::Stp927Riveted, &fastening(Shear::Double)).unwrap().in_per_lbf();
        assert!((found - by_hand).abs() < 1e-8 * by_hand);
        let by_hand = 0.125 * 0.125 / (10.3e6 * 0.125 * 0.125 * 0.125) + 3.72 * 2.0 * one;
        let found = flexibility(Formula::ThicknessSquared, &fastening(Shear::Single)).unwrap().in_per_lbf();
        assert!((found - by_hand).abs() < 1e-12 * by_hand);
    }

    #[test]
    fn what_is_no_fastening_is_an_error() {
        let good = fastening(Shear::Single);
        let error = |fastening: &Fastening| flexibility(Formula::Stp927Riveted, fastening).unwrap_err();
        assert_eq!(error(&Fastening { diameter: Length::ZERO, ..good }), FlexibilityError::LengthNotPositive);
        for modulus in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let modulus = Stress::from_psi(modulus);
            assert_eq!(error(&Fastening { modulus, ..good }), FlexibilityError::ModulusNotPositive);
        }
        let tiny = Fastening { modulus: Stress::from_psi(f64::MIN_POSITIVE), ..good };
        assert_eq!(error(&tiny), FlexibilityError::OutOfRange);
        // So stiff that nothing gives.
        let endless = Stress::from_psi(f64::MAX);
        let block = JoinedPlate { thickness: Length::from_64ths(256), modulus: endless };
        assert_eq!(error(&Fastening { modulus: endless, plates: [block; 2], ..good }), FlexibilityError::OutOfRange);
    }
}
