//! Margins of safety.
//!
//! `margin = allowable / (limit load × factor of safety × fitting factor) - 1`; it must not be negative.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Severity};
use crate::quantity::Force;
use crate::setters::setters;

crate::words::words! {
    /// Which load is meant.
    LoadKind, "kind of load" {
        Limit = 1, "limit", "The greatest load expected in service: the factor of safety is still to come.";
        Ultimate = 2, "ultimate", "The factor of safety is already in it.";
    }
}

/// A load on one rivet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Load {
    /// How much; above zero.
    pub force: Force,
    /// Limit or ultimate.
    pub kind: LoadKind,
}

/// One factor and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Factor {
    /// The factor, 1 or more.
    pub value: f64,
    /// Where it comes from.
    pub basis: Basis,
}

/// The factors between a limit load and the strength it needs.
///
/// [`Factors::FITTING`] is the default: the higher of both. [`Factors::SEAM`] leaves the fitting factor out, for joints such as
/// continuous seams in metal plating made under approved practices and based on comprehensive test data (14 CFR 25.625(b)(1)).
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Factors {
    /// Limit to ultimate load.
    pub safety: Factor,
    /// On fittings, their attachments and bearing; `None` where it is not asked for.
    pub fitting: Option<Factor>,
}

impl Factors {
    setters! {
        /// The factor of safety.
        safety: Factor;
        /// The fitting factor.
        fitting: Option<Factor>;
    }
}

impl Factors {
    /// Factor of safety 1.5, no fitting factor.
    pub const SEAM: Factors = Factors { safety: Factor { value: 1.5, basis: Basis::CFR14_25_303 }, fitting: None };

    /// Factor of safety 1.5 and fitting factor 1.15.
    pub const FITTING: Factors =
        Factors { fitting: Some(Factor { value: 1.15, basis: Basis::CFR14_25_625 }), ..Factors::SEAM };
}

impl Default for Factors {
    fn default() -> Factors {
        Factors::FITTING
    }
}

/// A margin of safety with everything that makes it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Margin {
    /// The margin; negative when the joint does not carry the load.
    pub value: f64,
    /// The load with the factors that apply to it.
    pub factored_load: Force,
    /// The load as given.
    pub load: Load,
    /// The factors as given; the factor of safety is not applied again to an ultimate load.
    pub factors: Factors,
}

impl Margin {
    /// The finding of a margin that is not there; `None` where there is one.
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::joint::margin::{Factors, Load, LoadKind, margin};
    /// use shophead::quantity::Force;
    /// let load = Load { force: Force::from_lbf(300.0), kind: LoadKind::Limit };
    /// let found = margin(Force::from_lbf(388.0), load, Factors::default())?;
    /// assert_eq!(found.negative().map(|finding| finding.code()), Some(Code::MarginNegative));
    /// # Ok::<(), shophead::joint::margin::MarginError>(())
    /// ```
    #[must_use]
    pub fn negative(&self) -> Option<Finding> {
        let finding = Finding::new(Code::MarginNegative, Severity::Refer, self.factors.safety.basis);
        let finding = finding.with_measured(Figure::Ratio(self.value)).with_limit(Figure::Ratio(0.0));
        (self.value < 0.0).then_some(finding)
    }

    /// The finding of a joint that yields under its limit load; asked of [`yield_margin`].
    pub(crate) fn yields(&self) -> Option<Finding> {
        let finding = Finding::new(Code::YieldsAtLimit, Severity::Refer, Basis::CFR14_25_305);
        let finding = finding.with_measured(Figure::Ratio(self.value)).with_limit(Figure::Ratio(0.0));
        (self.value < 0.0).then_some(finding)
    }
}

crate::words::errors! {
    /// Why there is no margin.
    MarginError {
        LoadNotPositive = 110, "margin-load-not-positive", "The load is zero, negative or not a number.",
            "the load must be above zero; right would be 250lbf";
        AllowableNotValid = 111, "margin-allowable-not-valid", "The allowable is negative or not a number.",
            "the allowable must be zero or more";
        FactorBelowOne = 112, "margin-factor-below-one", "A factor is below 1 or not a number.",
            "a factor must be 1 or more; right would be 1.5";
        OutOfRange = 113, "margin-out-of-range", "Load and allowable are so far apart that the ratio is not a number.",
            "no margin comes out of this load and this allowable; check their units";
    }
}

/// The margin of an allowable over a load.
///
/// # Errors
/// [`MarginError`]; a NaN or an infinity never comes out.
///
/// ```
/// use shophead::joint::margin::{Factors, Load, LoadKind, margin};
/// use shophead::quantity::Force;
/// let load = Load { force: Force::from_lbf(200.0), kind: LoadKind::Limit };
/// // 388 / (200 × 1.5 × 1.15) - 1
/// let fitting = margin(Force::from_lbf(388.0), load, Factors::FITTING)?;
/// assert!((fitting.value - 0.1246).abs() < 1e-4);
/// let seam = margin(Force::from_lbf(388.0), load, Factors::SEAM)?;
/// assert!((seam.value - 0.2933).abs() < 1e-4);
/// # Ok::<(), shophead::joint::margin::MarginError>(())
/// ```
pub fn margin(allowable: Force, load: Load, factors: Factors) -> Result<Margin, MarginError> {
    if !(load.force.is_finite() && load.force > Force::ZERO) {
        return Err(MarginError::LoadNotPositive);
    }
    if !(allowable.is_finite() && allowable >= Force::ZERO) {
        return Err(MarginError::AllowableNotValid);
    }
    let fitting = factors.fitting.map_or(1.0, |factor| factor.value);
    if ![factors.safety.value, fitting].iter().all(|value| value.is_finite() && *value >= 1.0) {
        return Err(MarginError::FactorBelowOne);
    }
    let safety = match load.kind {
        LoadKind::Limit => factors.safety.value,
        LoadKind::Ultimate => 1.0,
    };
    let factored_load = Force::from_lbf(load.force.lbf() * safety * fitting);
    let value = allowable.lbf() / factored_load.lbf() - 1.0;
    if !(factored_load.is_finite() && value.is_finite()) {
        return Err(MarginError::OutOfRange);
    }
    Ok(Margin { value, factored_load, load, factors })
}

/// The margin of a yield strength over a limit load: no factor of safety, the fitting factor where there is one.
///
/// An ultimate load is first divided by the factor of safety.
///
/// # Errors
/// As [`margin`].
///
/// ```
/// use shophead::joint::margin::{Factors, Load, LoadKind, yield_margin};
/// use shophead::quantity::Force;
/// let load = Load { force: Force::from_lbf(300.0), kind: LoadKind::Ultimate };
/// // 250 / (300 / 1.5) - 1
/// let found = yield_margin(Force::from_lbf(250.0), load, Factors::SEAM)?;
/// assert!((found.value - 0.25).abs() < 1e-12);
/// # Ok::<(), shophead::joint::margin::MarginError>(())
/// ```
pub fn yield_margin(yield_load: Force, load: Load, factors: Factors) -> Result<Margin, MarginError> {
    if !(factors.safety.value.is_finite() && factors.safety.value >= 1.0) {
        return Err(MarginError::FactorBelowOne);
    }
    let limit = match load.kind {
        LoadKind::Limit => load.force,
        LoadKind::Ultimate => Force::from_lbf(load.force.lbf() / factors.safety.value),
    };
    // The limit load goes in as one that takes no further factor of safety.
    let found = margin(yield_load, Load { force: limit, kind: LoadKind::Ultimate }, factors)?;
    Ok(Margin { load, ..found })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prelude::lbf;

    #[test]
    fn an_ultimate_load_does_not_take_the_factor_of_safety_again() {
        let limit = margin(lbf(300.0), Load { force: lbf(100.0), kind: LoadKind::Limit }, Factors::FITTING).unwrap();
        let ultimate =
            margin(lbf(300.0), Load { force: lbf(150.0), kind: LoadKind::Ultimate }, Factors::FITTING).unwrap();
        assert!((limit.value - ultimate.value).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_load_is_refused() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let load = Load { force: lbf(bad), kind: LoadKind::Limit };
            assert_eq!(margin(lbf(1.0), load, Factors::SEAM), Err(MarginError::LoadNotPositive));
        }
        let load = Load { force: lbf(1.0), kind: LoadKind::Limit };
        for bad in [-1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(margin(lbf(bad), load, Factors::SEAM), Err(MarginError::AllowableNotValid), "{bad}");
        }
        assert_eq!(margin(lbf(0.0), load, Factors::SEAM).map(|found| found.value), Ok(-1.0));
        let mut factors = Factors::SEAM;
        factors.safety.value = 0.5;
        assert_eq!(margin(lbf(1.0), load, factors), Err(MarginError::FactorBelowOne));
        for bad in [0.5, f64::NAN, f64::INFINITY] {
            factors.safety.value = bad;
            for kind in [LoadKind::Limit, LoadKind::Ultimate] {
                let found = yield_margin(lbf(1.0), Load { kind, ..load }, factors);
                assert_eq!(found, Err(MarginError::FactorBelowOne), "{bad} {kind}");
            }
        }
        let tiny = Load { force: lbf(f64::MIN_POSITIVE), kind: LoadKind::Ultimate };
        assert_eq!(margin(lbf(f64::MAX), tiny, Factors::SEAM), Err(MarginError::OutOfRange));
    }

    #[test]
    fn what_carries_just_the_load_is_not_referred() {
        for (carries, said) in [(100.0, false), (99.999, true)] {
            let load = Load { force: lbf(100.0), kind: LoadKind::Ultimate };
            let found = margin(lbf(carries), load, Factors::SEAM).unwrap();
            assert_eq!((found.negative().is_some(), found.yields().is_some()), (said, said), "{carries}");
        }
    }
}
