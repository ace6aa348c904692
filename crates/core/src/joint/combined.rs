//! Shear and tension on one rivet together.
//!
//! Solid rivets are not chosen for tension, and no public table gives what one carries in it: a formula from shank and sheet
//! ([`super::modes::pull_through`]) is an indication, no allowable. So tension counts here only with an allowable that somebody tested or
//! published; without one the answer is a referral.
//!
//! With R the load with its factors over the allowable, in shear and in tension:
//!
//! | curve | holds while |
//! |---|---|
//! | [`Interaction::Circle`] | Rs² + Rt² is at most 1 |
//! | [`Interaction::Bolt`] | Rs³ + Rt² is at most 1 |
//!
//! The circle is the stricter one and the default.

use super::margin::{Factors, Load, LoadKind, MarginError, margin};
use super::strength::Allowable;
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::practice::{Key, Practice};
use crate::quantity::Force;
use crate::rivet::part::Part;
use crate::setters::setters;

/// A published interaction of shear and tension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Interaction {
    /// Rs² + Rt² = 1.
    #[default]
    Circle,
    /// Rs³ + Rt² = 1.
    Bolt,
}

impl Interaction {
    /// Its source.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Interaction::Circle => Basis::SHEAR_AND_TENSION_RIVETS,
            Interaction::Bolt => Basis::SHEAR_AND_TENSION_BOLTS,
        }
    }
}

/// Both loads on one rivet, both of the same kind.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Loads {
    /// Across the rivet; zero or more.
    pub shear: Force,
    /// Along it; zero or more.
    pub tension: Force,
    /// Limit or ultimate.
    pub kind: LoadKind,
}

impl Loads {
    /// Both, of one kind.
    #[must_use]
    pub const fn new(shear: Force, tension: Force, kind: LoadKind) -> Loads {
        Loads { shear, tension, kind }
    }
}

/// What the rivet carries.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Carries {
    /// In shear and bearing: the allowable of [`super::strength`].
    pub shear: Allowable,
    /// In tension, tested or published; `None` where there is none.
    pub tension: Option<Allowable>,
    /// What to enter where there is none.
    pub key: Option<Key>,
}

impl Carries {
    /// So much in shear; in tension nothing is known.
    #[must_use]
    pub const fn new(shear: Allowable) -> Carries {
        Carries { shear, tension: None, key: None }
    }

    setters! {
        /// In tension, tested or published.
        tension: Option<Allowable>;
    }
}

impl Carries {
    /// A rivet that carries so much in shear; in tension what the shop entered for it.
    #[must_use]
    pub fn of(rivet: &Part<'_>, shear: Allowable, practice: &Practice<'_>) -> Carries {
        let tension = practice.entered_tension(rivet).map(|(force, basis)| Allowable { force, basis });
        Carries { shear, tension, key: Key::of_tension(rivet) }
    }
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Combined {
    /// Factored shear over its allowable.
    pub shear: f64,
    /// Factored tension over its allowable; `None` without one.
    pub tension: Option<f64>,
    /// How far both loads can grow together, less one; `None` without an allowable for a tension that is there.
    pub margin: Option<f64>,
    /// The weakest basis in it.
    pub basis: Basis,
    /// What was found.
    pub findings: Findings,
}

crate::words::errors! {
    /// Why there is no answer.
    CombinedError {
        LoadNotValid = _, "combined-load", "A load is negative or not a number, or both are zero.",
            "shear and tension must be zero or more, and one of them above zero";
        | Margin(MarginError), "A margin of one of them could not be worked out.";
    }
}

/// Shear and tension on one rivet by a published interaction.
///
/// # Errors
/// [`CombinedError`].
///
/// ```
/// use shophead::basis::Basis;
/// use shophead::joint::combined::{Carries, Interaction, Loads, combine};
/// use shophead::joint::margin::{Factors, LoadKind};
/// use shophead::joint::strength::Allowable;
/// use shophead::quantity::Force;
/// let tested = Basis::own(0);
/// let carries = |lbf| Allowable { force: Force::from_lbf(lbf), basis: tested };
/// let loads = Loads::new(Force::from_lbf(120.0), Force::from_lbf(40.0), LoadKind::Ultimate);
/// let both = Carries::new(carries(200.0)).tension(carries(80.0));
/// // 1 / sqrt(0.6² + 0.5²) - 1, without a fitting factor.
/// let found = combine(loads, &both, Factors::SEAM, Interaction::Circle)?;
/// assert!((found.margin.unwrap() - (1.0 / 0.61_f64.sqrt() - 1.0)).abs() < 1e-12);
/// let untested = combine(loads, &both.tension(None), Factors::SEAM, Interaction::Circle)?;
/// assert!(untested.margin.is_none() && untested.findings.must_refer());
/// # Ok::<(), shophead::joint::combined::CombinedError>(())
/// ```
pub fn combine(
    loads: Loads,
    carries: &Carries,
    factors: Factors,
    curve: Interaction,
) -> Result<Combined, CombinedError> {
    let valid = |force: Force| force.is_finite() && force >= Force::ZERO;
    if !valid(loads.shear) || !valid(loads.tension) || (loads.shear == Force::ZERO && loads.tension == Force::ZERO) {
        return Err(CombinedError::LoadNotValid);
    }
    let over = |force: Force, allowable: Allowable| {
        if force == Force::ZERO {
            return Ok(0.0);
        }
        let found = margin(allowable.force, Load { force, kind: loads.kind }, factors)?;
        Ok::<f64, MarginError>(1.0 / (found.value + 1.0))
    };
    let shear = over(loads.shear, carries.shear)?;
    let tension = carries.tension.map(|allowable| over(loads.tension, allowable)).transpose()?;
    let mut found = Combined {
        shear,
        tension,
        margin: None,
        basis: carries.shear.basis.weaker(curve.basis()),
        findings: Findings::new(),
    };
    let in_tension = if loads.tension == Force::ZERO { Some(0.0) } else { tension };
    let Some(in_tension) = in_tension else {
        found.findings.push(
            Finding::unknown(Code::StrengthNotPublished, Severity::Refer, Basis::AC43_NO_TENSION, carries.key)
                .with_measured(Figure::Force(loads.tension)),
        );
        return Ok(found);
    };
    if let Some(allowable) = carries.tension {
        found.basis = found.basis.weaker(allowable.basis);
    }
    let margin = grows(curve, shear, in_tension) - 1.0;
    found.margin = Some(margin);
    if margin < 0.0 {
        found.findings.push(
            Finding::new(Code::MarginNegative, Severity::Refer, factors.safety.basis)
                .with_measured(Figure::Ratio(margin))
                .with_limit(Figure::Ratio(0.0)),
        );
    }
    Ok(found)
}

/// By how much both ratios can be multiplied until the sum is 1. The sum grows with the factor, so that halving finds it.
fn grows(curve: Interaction, shear: f64, tension: f64) -> f64 {
    if curve == Interaction::Circle {
        return 1.0 / libm::hypot(shear, tension);
    }
    let greatest = shear.max(tension);
    if !greatest.is_finite() {
        return 0.0;
    }
    // The curve lies outside the straight line and inside the square.
    let (mut low, mut high) = (0.0, 1.0 / greatest);
    for _ in 0..80 {
        let middle = (low + high) / 2.0;
        let (shear, tension) = (middle * shear, middle * tension);
        if shear * shear * shear + tension * tension <= 1.0 { low = middle } else { high = middle }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::*;

    const TESTED: Basis = Basis::own(0);

    fn carries(shear: f64, tension: f64) -> Carries {
        let allowable = |lbf| Allowable { force: Force::from_lbf(lbf), basis: TESTED };
        Carries { shear: allowable(shear), tension: Some(allowable(tension)), key: None }
    }

    fn loads(shear: f64, tension: f64) -> Loads {
        Loads { shear: Force::from_lbf(shear), tension: Force::from_lbf(tension), kind: LoadKind::Ultimate }
    }

    #[test]
    fn one_load_alone_is_its_own_margin() {
        for curve in [Interaction::Circle, Interaction::Bolt] {
            let shear = combine(loads(100.0, 0.0), &carries(150.0, 50.0), Factors::SEAM, curve).unwrap();
            assert!((shear.margin.unwrap() - 0.5).abs() < 1e-12);
            let tension = combine(loads(0.0, 20.0), &carries(150.0, 50.0), Factors::SEAM, curve).unwrap();
            assert!((tension.margin.unwrap() - 1.5).abs() < 1e-12);
        }
        let no_tension = Carries { tension: None, ..carries(150.0, 50.0) };
        assert!(
            combine(loads(100.0, 0.0), &no_tension, Factors::SEAM, Interaction::Circle).unwrap().findings.is_empty()
        );
    }

    #[test]
    fn what_carries_just_the_load_is_not_referred() {
        for (shear, tension) in [(150.0, 0.0), (0.0, 50.0)] {
            let found = combine(loads(shear, tension), &carries(150.0, 50.0), Factors::SEAM, Interaction::Circle);
            let found = found.unwrap();
            assert_eq!((found.margin, found.findings.len()), (Some(0.0), 0));
        }
    }

    #[test]
    fn a_point_on_the_curve_has_no_margin_and_beyond_it_is_referred() {
        // 0.8³ + t² = 1
        let on = combine(
            loads(80.0, libm::sqrt(1.0 - 0.512) * 100.0),
            &carries(100.0, 100.0),
            Factors::SEAM,
            Interaction::Bolt,
        )
        .unwrap();
        assert!(on.margin.unwrap().abs() < 1e-12);
        let circle = combine(loads(80.0, 61.0), &carries(100.0, 100.0), Factors::SEAM, Interaction::Circle).unwrap();
        assert!(circle.margin.unwrap() < 0.0 && circle.findings.has(Code::MarginNegative));
        assert_eq!(circle.basis, Basis::SHEAR_AND_TENSION_RIVETS);
    }

    #[test]
    fn what_is_no_load_is_an_error() {
        for bad in [loads(0.0, 0.0), loads(-1.0, 0.0), loads(f64::NAN, 1.0)] {
            let found = combine(bad, &carries(1.0, 1.0), Factors::SEAM, Interaction::Circle);
            assert_eq!(found, Err(CombinedError::LoadNotValid));
        }
        for curve in [Interaction::Circle, Interaction::Bolt] {
            let nothing = combine(loads(1.0, 1.0), &carries(0.0, 0.0), Factors::SEAM, curve).unwrap();
            assert_eq!(nothing.margin, Some(-1.0));
        }
    }
}
