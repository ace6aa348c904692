//! Sheet that buckles between its rivets under compression.
//!
//! A strip of sheet between two rivets is a column as long as the pitch. How firmly the heads hold its ends is the fixity c: 1 for
//! pinned ends, 4 for clamped ones.
//!
//! ```text
//! F = c π² E / 12 (t / p)²          p = π t √(c E / (12 F))
//! ```
//!
//! The form is read as an effective length K, with c = 1/K² (a text on aircraft structures, secondary quotation). A plate form divides by
//! 1 - ν² and comes out about a tenth higher; it is recalled and offered to compare. Both are elastic and hold only while F is below about
//! half of the compression yield stress. Above that the tangent modulus takes the place of E; its curve must be taken from the
//! handbook of the material: there is no answer here, only the finding [`Code::BucklingNotElastic`].
//!
//! Sources contradict each other on c, see [`FIXITIES`]. The practice decides; the built-in ones take the low figures.

use core::f64::consts::PI;

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::Length;
use crate::material::{Material, Property, Strengths};
use crate::practice::{Case, Key, Name, Practice};
use crate::quantity::Stress;

/// A fixity that a document gives, for the rivet or weld it names.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Fixity {
    /// What holds the sheet.
    pub fastening: &'static str,
    /// The fixity c.
    pub value: f64,
    /// Its source.
    pub basis: Basis,
}

/// The fixities found. They contradict each other, and about the side of the driven head nothing sure is known (2 to 3).
pub const FIXITIES: &[Fixity] = &[
    Fixity { fastening: "flat head", value: 4.0, basis: Basis::TN3785_P15 },
    Fixity { fastening: "spot weld", value: 3.5, basis: Basis::TN3785_P15 },
    Fixity { fastening: "brazier head", value: 3.0, basis: Basis::TN3785_P15 },
    Fixity { fastening: "countersunk head", value: 1.0, basis: Basis::TN3785_P15 },
    Fixity { fastening: "rivets, head not named", value: 4.0, basis: Basis::STRUCTURES_C7_12 },
    Fixity { fastening: "brazier and round heads", value: 3.0, basis: Basis::AGAINST_C7_12 },
    Fixity { fastening: "bolts", value: 4.0, basis: Basis::EFFECTIVE_LENGTH_05 },
    Fixity { fastening: "fasteners other than bolts", value: 2.37, basis: Basis::EFFECTIVE_LENGTH_065 },
];

/// The elastic stress at which the sheet buckles between its rivets, as a column.
///
/// ```
/// use shophead::joint::buckling::stress;
/// use shophead::length::Length;
/// use shophead::quantity::Stress;
/// let found = stress(3.0, Stress::from_msi(10.7), Length::parse(".032")?, Length::parse("1")?);
/// assert!((found.psi() - 27_035.0).abs() < 0.5);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn stress(fixity: f64, modulus: Stress, thickness: Length, pitch: Length) -> Stress {
    let slenderness = thickness.to_inches_f64() / pitch.to_inches_f64();
    Stress::from_psi(fixity * PI * PI * modulus.psi() / 12.0 * slenderness * slenderness)
}

/// The largest pitch at which the sheet, as a column, does not buckle below a stress; elastic. `None` where it is no length.
///
/// ```
/// use shophead::joint::buckling::largest_pitch;
/// use shophead::length::Length;
/// use shophead::quantity::Stress;
/// let pitch = largest_pitch(3.0, Stress::from_msi(10.7), Length::parse(".032")?, Stress::from_ksi(20.0));
/// assert_eq!(pitch.map(|pitch| format!("{pitch:.3}")), Some("1.163".into()));
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn largest_pitch(fixity: f64, modulus: Stress, thickness: Length, stress: Stress) -> Option<Length> {
    let slenderness = libm::sqrt(fixity * modulus.psi() / (12.0 * stress.psi()));
    Length::try_from_inches_f64(PI * thickness.to_inches_f64() * slenderness)
}

/// A sheet between its rivets.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct InterRivet {
    /// The fixity that the practice gives for the head.
    pub fixity: f64,
    /// The stress by the elastic formula, whether it holds that far or not.
    pub elastic: Stress,
    /// Where the elastic formula ends, by the practice.
    pub elastic_up_to: Stress,
    /// The largest pitch for the stress asked for; `None` where none was asked for or the formula does not reach it.
    pub largest_pitch: Option<Length>,
    /// The weakest basis in it.
    pub basis: Basis,
    /// What was found.
    pub findings: Findings<MAX_BUCKLING_FINDINGS>,
}

/// The most that is found of a sheet between its rivets: that it buckles, that the formula does not hold so far, or that a figure is missing.
pub const MAX_BUCKLING_FINDINGS: usize = 4;

impl InterRivet {
    /// What the sheet is sure to stand: the elastic stress, but not more than the end of the elastic range. Where the elastic stress
    /// lies above that end the sheet stands at least that much, since up to there its modulus is the elastic one.
    #[must_use]
    pub fn stands(&self) -> Stress {
        self.elastic.min(self.elastic_up_to)
    }
}

/// One layer of a stack between the rivets of a row: made by [`Installation::buckling`](crate::installation::Installation::buckling).
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct LayerBuckling {
    /// Its number in the stack, counted from 1 on the side of the manufactured head.
    pub layer: u8,
    /// What it stands; `None` where that is not published.
    pub found: Option<InterRivet>,
    /// What was found about a compression that was asked about; nothing without one.
    pub findings: Findings<MAX_BUCKLING_FINDINGS>,
}

impl LayerBuckling {
    pub(crate) fn of(
        layer: u8,
        sheet: Option<&Strengths<'_>>,
        found: Option<InterRivet>,
        compressed: bool,
    ) -> LayerBuckling {
        let mut findings = Findings::new();
        if compressed {
            let missing = if found.is_none() { sheet.map(not_published) } else { None };
            let of_sheet = found.iter().flat_map(|found| &found.findings).copied().chain(missing);
            of_sheet.for_each(|finding| findings.push(finding.in_layer(layer)));
        }
        LayerBuckling { layer, found, findings }
    }
}

crate::words::errors! {
    /// Why there is no answer.
    BucklingError {
        ThicknessNotPositive = _, "buckling-thickness", "The thickness is zero or less.",
            "the sheet needs a thickness above zero; right would be .032";
        PitchNotPositive = _, "buckling-pitch", "The pitch is zero or less.",
            "the pitch must be above zero; right would be 1";
        StressNotPositive = _, "buckling-stress", "The applied stress is zero, negative or not a number.",
            "the compression must be above zero; right would be 20 ksi";
    }
}

/// Whether a sheet buckles between its rivets, by the column form and the fixity of the practice.
///
/// Clad sheet counts its lowest published modulus. `None` where modulus or compression yield of the sheet are not published, or where
/// the practice has no such limit.
///
/// # Errors
/// [`BucklingError`] for what is no sheet between rivets.
///
/// ```
/// use shophead::joint::buckling::inter_rivet;
/// use shophead::length::Length;
/// use shophead::material::{Material, RivetAlloy};
/// use shophead::practice::{Case, HANDBOOK};
/// use shophead::quantity::Stress;
/// use shophead::rivet::Head;
/// let (thickness, pitch) = (Length::parse(".032")?, Length::parse("1.25")?);
/// let sheet = HANDBOOK.sheet(Material::parse("2024-T3")?, thickness);
/// let case = Case::new(Head::Flush, RivetAlloy::Al2117, Length::parse("1/8")?);
/// let found = inter_rivet(&sheet, thickness, pitch, Some(Stress::from_ksi(10.0)), &case, &HANDBOOK)?.expect("published");
/// assert!(found.findings.must_refer(), "flush heads hold it too loosely");
/// assert!(found.largest_pitch.expect("elastic") < pitch);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn inter_rivet(
    sheet: &Strengths<'_>,
    thickness: Length,
    pitch: Length,
    applied: Option<Stress>,
    case: &Case,
    practice: &Practice<'_>,
) -> Result<Option<InterRivet>, BucklingError> {
    if thickness <= Length::ZERO {
        return Err(BucklingError::ThicknessNotPositive);
    }
    if pitch <= Length::ZERO {
        return Err(BucklingError::PitchNotPositive);
    }
    if applied.is_some_and(|applied| !(applied.is_finite() && applied > Stress::ZERO)) {
        return Err(BucklingError::StressNotPositive);
    }
    let quotient = |(num, den): (u32, u32)| f64::from(num) / f64::from(den);
    let limits = practice.for_case(case);
    let (Some(fixity), Some(share), Some(modulus), Some(yield_stress)) = (
        limits.fraction(Name::InterRivetFixity),
        limits.fraction(Name::InterRivetElasticShare),
        lowest_modulus(sheet),
        sheet.fcy(),
    ) else {
        return Ok(None);
    };
    let mut found = InterRivet {
        fixity: quotient(fixity.value),
        elastic: stress(quotient(fixity.value), modulus, thickness, pitch),
        elastic_up_to: Stress::from_psi(yield_stress.psi() * quotient(share.value)),
        largest_pitch: None,
        basis: fixity
            .basis
            .weaker(share.basis)
            .weaker(sheet.basis_of(Property::Modulus))
            .weaker(sheet.basis_of(Property::CompressionYield))
            .weaker(Basis::BUCKLING_COLUMN),
        findings: Findings::new(),
    };
    let against = |code, severity, measured, limit, basis| {
        Finding::new(code, severity, basis).with_measured(Figure::Stress(measured)).with_limit(Figure::Stress(limit))
    };
    match applied {
        Some(applied) if applied > found.elastic_up_to => found.findings.push(against(
            Code::BucklingNotElastic,
            Severity::Refer,
            applied,
            found.elastic_up_to,
            share.basis,
        )),
        Some(applied) => {
            found.largest_pitch = largest_pitch(found.fixity, modulus, thickness, applied);
            if applied > found.elastic {
                found.findings.push(against(
                    Code::BucklesBetweenRivets,
                    Severity::Refer,
                    applied,
                    found.elastic,
                    fixity.basis,
                ));
            }
        }
        None if found.elastic > found.elastic_up_to => found.findings.push(against(
            Code::BucklingNotElastic,
            Severity::Note,
            found.elastic,
            found.elastic_up_to,
            share.basis,
        )),
        None => {}
    }
    Ok(Some(found))
}

/// The finding for a sheet of which modulus or compression yield is not on file: names the first that is missing.
#[must_use]
fn not_published(sheet: &Strengths<'_>) -> Finding {
    let missing = |property: &Property| sheet.figure(*property).is_none();
    let property = [Property::Modulus, Property::CompressionYield].into_iter().find(missing);
    let key =
        property.zip(sheet.material()).map(|(property, material): (_, Material)| Key::of_sheet(material, property));
    Finding::unknown(Code::StrengthNotPublished, Severity::Refer, Basis::BUCKLING_FIGURES, key)
}

/// In compression where published; of clad sheet the secondary one, which holds once the cladding yields.
pub(crate) fn lowest_modulus(sheet: &Strengths<'_>) -> Option<Stress> {
    let primary = sheet.ec().or(sheet.e())?;
    Some(sheet.e_secondary().map_or(primary, |secondary| primary.min(secondary)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::{EnteredSheet, Material, RivetAlloy, sheets};
    use crate::practice::{BUILT_IN, Entered, HANDBOOK};
    use crate::prelude::length;
    use crate::rivet::Head;

    #[test]
    fn the_built_in_practices_take_three_and_one() {
        for practice in BUILT_IN {
            for (head, fixity) in [(Head::Universal, (3, 1)), (Head::Flush, (1, 1)), (Head::ReducedFlush, (1, 1))] {
                let case = Case::new(head, RivetAlloy::Al2117, length("1/8"));
                assert_eq!(practice.fraction(Name::InterRivetFixity, &case).unwrap().value, fixity);
            }
        }
    }

    #[test]
    fn above_half_of_yield_the_formula_does_not_speak() {
        let sheet = Material::parse("2024-T3").unwrap().properties(length(".063")).unwrap();
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
        let ask = |pitch, applied: Option<f64>| {
            inter_rivet(&sheet.into(), length(".063"), length(pitch), applied.map(Stress::from_ksi), &case, &HANDBOOK)
        };
        // Half of 39 ksi; the formula gives 3 π² 10.7e6 / 12 (.063/.75)² = 186 ksi.
        let close = ask(".75", None).unwrap().unwrap();
        assert_eq!(close.stands(), Stress::from_ksi(19.5));
        assert_eq!(close.findings.worst(), Some(Severity::Note));
        let stressed = ask(".75", Some(25.0)).unwrap().unwrap();
        assert!(stressed.findings.has(Code::BucklingNotElastic) && stressed.findings.must_refer());
        assert_eq!(stressed.largest_pitch, None);
        let carried = ask(".75", Some(15.0)).unwrap().unwrap();
        assert!(carried.findings.is_empty());
        let pitch = carried.largest_pitch.unwrap();
        let back = stress(3.0, Stress::from_msi(10.7), length(".063"), pitch);
        assert!((back.psi() - 15_000.0).abs() < 0.1);
        // Under the very stress at which it buckles it does not yet.
        let wide = ask("3", None).unwrap().unwrap().elastic;
        let at = |ksi| ask("3", Some(ksi)).unwrap().unwrap().findings.has(Code::BucklesBetweenRivets);
        assert_eq!((at(wide.ksi()), at(wide.ksi() * 1.000_001)), (false, true));
        // Half of yield is still elastic.
        let half = |ksi| ask(".75", Some(ksi)).unwrap().unwrap().findings.has(Code::BucklingNotElastic);
        assert_eq!((half(19.5), half(19.5 * 1.000_001)), (false, true));
        assert_eq!(ask("0", None), Err(BucklingError::PitchNotPositive));
        assert_eq!(ask("1", Some(0.0)), Err(BucklingError::StressNotPositive));
    }

    #[test]
    fn clad_sheet_counts_its_secondary_modulus() {
        let clad = sheets().iter().find(|sheet| sheet.e_secondary().is_some()).unwrap();
        assert_eq!(lowest_modulus(&clad.into()), clad.e_secondary());
        assert!(clad.e_secondary() < clad.ec());
    }

    #[test]
    fn a_sheet_that_buckles_where_the_formula_ends_is_within_it() {
        let (material, thickness, pitch) = (Material::parse("2024-T3").unwrap(), length(".032"), length("1"));
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
        let elastic = stress(3.0, Stress::from_msi(10.7), thickness, pitch).psi();
        for (fcy, said) in [(2.0 * elastic, false), (1.999_999 * elastic, true)] {
            let mut entered = Entered::new();
            let sheet = EnteredSheet::new(material, Basis::own(0));
            entered.sheet(sheet.with(Property::CompressionYield, Stress::from_psi(fcy))).unwrap();
            let practice = HANDBOOK.with_entered(&entered);
            let sheet = practice.sheet(material, thickness);
            let found = inter_rivet(&sheet, thickness, pitch, None, &case, &practice).unwrap().unwrap();
            assert_eq!(found.elastic, Stress::from_psi(elastic));
            assert_eq!(found.findings.has(Code::BucklingNotElastic), said, "{fcy}");
        }
    }
}
