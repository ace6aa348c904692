//! The force that squeezes a driven head.
//!
//! The tail is taken as a cylinder pressed flat without friction: at head diameter d, from shank diameter D, the metal has been
//! strained by ε = 2 ln(d/D) and the press holds F = (π/4) d² K εᵐ. K and m are fitted, so the answer comes with the scatter of the
//! fit. It is for choosing a squeezer, not for a strength.

use core::f64::consts::FRAC_PI_4;

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::quantity::{Force, Stress};

/// How a rivet alloy hardens as it is upset: stress = K εᵐ.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct FlowLaw {
    /// The alloy.
    pub alloy: RivetAlloy,
    /// K.
    pub strength: Stress,
    /// m.
    pub hardening: f64,
    /// How far tests lay below the law, as a part of it.
    pub below: f64,
    /// How far tests lay above it.
    pub above: f64,
    /// Head over shank diameter in the tests, least and greatest.
    pub heads: (f64, f64),
    /// Shank diameters in the tests, least and greatest.
    pub shanks: (Length, Length),
    /// Its source.
    pub basis: Basis,
}

/// 2117 as received.
///
/// Fitted to the model column of the results table of Materials 17 (2024) 2756 within 1.5 %. Its tests with flush rivets of 3.208 mm lie
/// within 16 % of that column; two tests with rivets of 3.96 mm, of another heat, up to 20 % above. A second pair of figures is recalled for
/// 2117-T4 (544 MPa and 0.23 up to a strain of 0.10, 551 MPa and 0.15 up to 1.0); at d/D of 1.5 it lies 15 to 20 % above the tests.
pub const FLOW_2117: FlowLaw = FlowLaw {
    alloy: RivetAlloy::Al2117,
    strength: Stress::from_megapascals(519.0),
    hardening: 0.278,
    below: 0.16,
    above: 0.20,
    heads: (1.07, 1.81),
    shanks: (millimetre_thousandths(3_208), millimetre_thousandths(3_960)),
    basis: Basis::SQUEEZE_TESTS,
};

const fn millimetre_thousandths(count: i64) -> Length {
    match Length::from_nanometres(count.saturating_mul(1_000)) {
        Some(length) => length,
        None => Length::ZERO,
    }
}

/// The law for an alloy; `None` where no tests are at hand.
#[must_use]
pub fn flow_law(alloy: RivetAlloy) -> Option<&'static FlowLaw> {
    static LAWS: [FlowLaw; 1] = [FLOW_2117];
    LAWS.iter().find(|law| law.alloy == alloy)
}

/// The force and how far it may be off.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Squeeze {
    /// By the law.
    pub force: Force,
    /// With the scatter of the tests below it.
    pub least: Force,
    /// With the scatter of the tests above it: the one to choose a squeezer by.
    pub greatest: Force,
    /// The strain ε.
    pub strain: f64,
    /// Source of the law.
    pub basis: Basis,
    /// What was found.
    pub findings: Findings,
}

crate::words::errors! {
    /// Why there is no force.
    SqueezeError {
        ShankNotPositive = 36, "squeeze-shank", "The shank is zero or less.",
            "the shank must be above zero; right would be .125";
        HeadNotWider = 37, "squeeze-head", "The head is no wider than the shank.",
            "the driven head must be wider than the shank; right would be .188 on .125";
    }
}

/// The force that squeezes a head of this diameter from a shank of that.
///
/// # Errors
/// [`SqueezeError`].
///
/// ```
/// use shophead::length::Length;
/// use shophead::squeeze::{FLOW_2117, squeeze};
/// // A 1/8 rivet to one and a half diameters: about 8 kN.
/// let found = squeeze(&FLOW_2117, Length::parse("3.208mm")?, Length::parse("4.78mm")?).expect("wider");
/// assert!((found.force.newtons() - 8_745.0).abs() < 10.0);
/// assert!(found.greatest > found.force && found.findings.is_empty());
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn squeeze(law: &FlowLaw, shank: Length, head: Length) -> Result<Squeeze, SqueezeError> {
    if shank <= Length::ZERO {
        return Err(SqueezeError::ShankNotPositive);
    }
    if head <= shank {
        return Err(SqueezeError::HeadNotWider);
    }
    let d = head.to_inches_f64();
    let ratio = d / shank.to_inches_f64();
    let strain = 2.0 * libm::log(ratio);
    let force = FRAC_PI_4 * d * d * law.strength.psi() * libm::pow(strain, law.hardening);
    let mut findings = Findings::new();
    let outside = Finding::new(Code::SqueezeOutsideTests, Severity::Caution, law.basis);
    // The tests print their ratio to two places.
    let (least, greatest) = (law.heads.0 - 0.005, law.heads.1 + 0.005);
    let limit = match ratio {
        _ if ratio < least => Some(law.heads.0),
        _ if ratio > greatest => Some(law.heads.1),
        _ => None,
    };
    if let Some(limit) = limit {
        findings.push(outside.with_measured(Figure::Ratio(ratio)).with_limit(Figure::Ratio(limit)));
    }
    // A nominal 1/8 or 5/32 in is within the shanks tested.
    let (thin, thick) = law.shanks;
    let limit = match shank {
        _ if shank < thin.minus(SAME_SHANK) => Some(thin),
        _ if shank > thick.plus(SAME_SHANK) => Some(thick),
        _ => None,
    };
    if let Some(limit) = limit {
        findings.push(outside.with_measured(Figure::Length(shank)).with_limit(Figure::Length(limit)));
    }
    Ok(Squeeze {
        force: Force::from_lbf(force),
        least: Force::from_lbf(force * (1.0 - law.below)),
        greatest: Force::from_lbf(force * (1.0 + law.above)),
        strain,
        basis: law.basis,
        findings,
    })
}

/// Shanks of one dash number differ by less than this.
const SAME_SHANK: Length = Length::from_ten_thousandths(40);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prelude::length;

    #[test]
    fn outside_the_tests_it_says_so() {
        let outside = |shank, head| squeeze(&FLOW_2117, length(shank), length(head)).unwrap().findings;
        assert!(outside("1/8", "3/16").is_empty());
        assert!(outside("5/32", "15/64").is_empty());
        assert!(outside("1/8", "1/4").has(Code::SqueezeOutsideTests));
        assert!(outside("3/32", "9/64").has(Code::SqueezeOutsideTests));
        assert!(outside("1/4", "3/8").has(Code::SqueezeOutsideTests));
    }

    #[test]
    fn only_tested_alloys_have_a_law() {
        assert_eq!(flow_law(RivetAlloy::Al2117), Some(&FLOW_2117));
        assert_eq!(flow_law(RivetAlloy::Al2024), None);
    }

    #[test]
    fn what_is_no_head_is_an_error() {
        assert_eq!(squeeze(&FLOW_2117, Length::ZERO, length("1/8")), Err(SqueezeError::ShankNotPositive));
        assert_eq!(squeeze(&FLOW_2117, length("1/8"), length("1/8")), Err(SqueezeError::HeadNotWider));
    }

    /// The figure that lies outside and the limit beside it.
    fn outside(shank: Length, head: Length) -> Option<(Option<Figure>, Option<Figure>)> {
        let found = squeeze(&FLOW_2117, shank, head).unwrap().findings;
        found.iter().next().map(|found| (found.measured(), found.limit()))
    }

    /// The tests print heads of 1.07 to 1.81 shank diameters, to two places.
    #[test]
    fn a_head_is_within_the_tests_as_far_as_their_last_place_says() {
        let shank = length("3.208mm");
        let head = |ratio: f64| Length::try_from_inches_f64(shank.to_inches_f64() * ratio).unwrap();
        for within in [1.066, 1.07, 1.5, 1.81, 1.814] {
            assert_eq!(outside(shank, head(within)), None, "{within}");
        }
        for (beyond, limit) in [(1.05, 1.07), (1.064, 1.07), (1.816, 1.81), (2.5, 1.81)] {
            let Some((Some(Figure::Ratio(measured)), Some(Figure::Ratio(nearest)))) = outside(shank, head(beyond))
            else {
                panic!("{beyond}")
            };
            assert!((measured - beyond).abs() < 1e-6 && nearest == limit, "{beyond}: {measured} {nearest}");
        }
    }

    #[test]
    fn a_head_at_the_limit_itself_is_within_the_tests() {
        // Twice the shank, exactly.
        let at =
            |heads| squeeze(&FlowLaw { heads, ..FLOW_2117 }, length("1/8"), length("1/4")).unwrap().findings.is_empty();
        assert!(at((2.005, 3.0)) && at((1.0, 1.995)) && !at((2.006, 3.0)) && !at((1.0, 1.994)));
    }

    /// Shanks of 3.208 and 3.960 mm were tested; what is within .0040 in of either is of the same dash number.
    #[test]
    fn a_shank_is_within_the_tests_as_far_as_its_dash_number_goes() {
        let (thin, thick, near) = (length("3.208mm"), length("3.960mm"), length(".0040"));
        let hair = Length::from_nanometres(1).unwrap();
        let one_and_a_half = |shank: Length| outside(shank, shank.times(3, 2));
        for within in [thin.minus(near), thin, length("3.5mm"), thick, thick.plus(near)] {
            assert_eq!(one_and_a_half(within), None, "{within}");
        }
        for (beyond, limit) in [
            (thin.minus(near).minus(hair), thin),
            (length("3/32"), thin),
            (thick.plus(near).plus(hair), thick),
            (length("1/4"), thick),
        ] {
            let figures = (Some(Figure::Length(beyond)), Some(Figure::Length(limit)));
            assert_eq!(one_and_a_half(beyond), Some(figures), "{beyond}");
        }
    }

    #[test]
    fn the_least_and_the_greatest_force_are_those_of_the_scatter() {
        let found = squeeze(&FLOW_2117, length("1/8"), length("3/16")).unwrap();
        let part = |force: Force| force.lbf() / found.force.lbf();
        assert!((part(found.least) - 0.84).abs() < 1e-12 && (part(found.greatest) - 1.2).abs() < 1e-12);
        // 2 ln 1.5
        assert!((found.strain - 0.810_930_216_216_328_8).abs() < 1e-12);
    }
}
