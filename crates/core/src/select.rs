//! Choosing a rivet: its diameter from the sheets, its length from the stack, the hole and the practice.
//!
//! # Length
//!
//! The published rule, grip plus one and a half diameters rounded as the practice says, is the starting point. It is then checked against
//! the volume balance ([`crate::upset`]). Too little metal is judged in the worst case, too much at nominal sizes:
//!
//! - **long enough**: with the thinnest shank, the largest hole, the thickest stack and the shortest rivet there is still metal for the
//!   least driven head;
//! - **short enough**: at nominal sizes the tail does not stand out further than it can be driven without folding, and holds no more metal than
//!   the largest head.
//!
//! The rule's length stands where it is both. Where it is not, the nearest length that is both is taken, in whole sixteenths first and in half
//! lengths only if no whole sixteenth will do. That a length is too long only at the ends of all tolerances is a note. Whatever else is both is
//! listed with it: [`LengthAnswer::serves`].
//!
//! Through a thick stack the largest holes can ask for a longer rivet than the smallest ones allow. The answer then goes by the hole as measured:
//! [`LengthAnswer::by_hole`].
//!
//! A longer grip never gets a shorter rivet: all bounds rise with the grip, and so does the nearest length between them.

mod length;

#[cfg(feature = "words")]
pub(crate) use length::Gauge;
pub(crate) use length::Wanted;
pub use length::{Assessed, ByHole, Difference, LengthAnswer, MAX_HOLE_RANGES, Nearest, Serving, UpperBound, Usable};

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity, Sink};
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::practice::{Case, ForCase, Given, Key, Name, Practice};
use crate::rivet::part::{Part, PartWarning};
use crate::rivet::{Series, Size};
use crate::structure::Structure;

/// What is found of a part number by itself: its alloy, and a length beyond those of its standard.
///
/// ```
/// use shophead::finding::Code;
/// use shophead::rivet::part::Part;
/// use shophead::select::check_part;
/// assert!(check_part(&Part::parse("MS20470DD5-8")?).has(Code::HeatTreatFirst));
/// assert!(check_part(&Part::parse("MS20470A3-4")?).has(Code::NotStructural));
/// assert!(check_part(&Part::parse("MS20470AD4-5")?).worst().is_none_or(|worst| worst < shophead::finding::Severity::Caution));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn check_part(part: &Part<'_>) -> Findings {
    let mut findings = Findings::new();
    check_alloy(part, None, &mut |finding| findings.push(finding));
    for warning in part.warnings() {
        let end = match warning {
            PartWarning::BelowTable { shortest } => Some(shortest),
            PartWarning::AboveTable { longest } => Some(longest),
            PartWarning::Recalled { basis } => {
                findings.push(Finding::new(Code::LimitFromMemory, Severity::Note, basis));
                None
            }
            _ => None,
        };
        if let (Some(value), Some(length)) = (end, part.length()) {
            let end = Given { value, basis: part.size().basis };
            findings.push(Finding::against(Code::LengthNotTabulated, Severity::Note, length, &end));
        }
    }
    findings
}

/// A diameter chosen from the sheets.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct DiameterChoice<'s> {
    /// The size; `None` when the series has none that large.
    pub size: Option<&'s Size>,
    /// The diameter that the rule asks for, before it is taken up to a size of the series.
    pub wanted: Length,
    /// What does not agree with the rules.
    pub findings: Findings,
}

/// Chooses the smallest diameter of a series that is not less than the rule for the thicker sheet asks for, nor than the least for
/// structure.
///
/// ```
/// use shophead::length::Length;
/// use shophead::material::RivetAlloy;
/// use shophead::practice::HANDBOOK;
/// use shophead::rivet::MS20470;
/// use shophead::select::choose_diameter;
/// // The example of AC 43.13-1B para 4-58g(2)(a): three times .032 is .096, so 1/8.
/// let choice = choose_diameter(&MS20470, RivetAlloy::Al2117, Length::parse(".032")?, &HANDBOOK);
/// assert_eq!(choice.size.map(|size| size.dash), Some(4));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn choose_diameter<'s, 'a>(
    series: &Series<'s>,
    alloy: RivetAlloy,
    thickest: Length,
    practice: &Practice<'a>,
) -> DiameterChoice<'s> {
    let case = Case::new(series.head, alloy, thickest);
    let mut findings = Findings::new();
    let wanted = match practice.fraction(Name::DiameterPerThicknessTarget, &case) {
        Some(target) => thickest.times(target.value.0, target.value.1),
        None => {
            let key = Key::of_limit(Name::DiameterPerThicknessTarget);
            findings.push(Finding::unknown(Code::NoLimit, Severity::Refer, Basis::DIAMETER_FOR_SHEET, Some(key)));
            thickest
        }
    };
    let least = practice.length(Name::DiameterStructuralLeast, &case).map_or(Length::ZERO, |least| least.value);
    let size = series.sizes.iter().find(|size| size.shank_nominal >= wanted && size.shank_nominal >= least);
    match size {
        Some(size) => {
            let case = Case::of(series.head, alloy, practice.size(series, size));
            let limits = practice.for_case(&case);
            check_diameter(series, &limits, (None, thickest), None, &mut |finding| findings.push(finding));
        }
        None => {
            let largest = series.sizes.last().map_or(Length::ZERO, |size| size.shank_nominal);
            let basis = Basis::LARGEST_OF_SERIES;
            findings.push(
                Finding::new(Code::DiameterOutsideRule, Severity::Caution, basis)
                    .with_measured(Figure::Length(wanted))
                    .with_limit(Figure::Length(largest)),
            );
        }
    }
    DiameterChoice { size, wanted, findings }
}

/// A rivet too thin or too thick for its sheet, or too thin for structure. The greatest diameter is not three times the sheet, but the next
/// larger one of the series: three times .040 is .120, so 1/8.
pub(crate) fn check_diameter(
    series: &Series<'_>,
    limits: &ForCase<'_>,
    (layer, thickest): (Option<u8>, Length),
    structure: Option<Structure>,
    push: &mut Sink<'_>,
) {
    let case = limits.case();
    let mut outside = |basis, limit| {
        let limit = Given { value: limit, basis };
        let found = Finding::against(Code::DiameterOutsideRule, Severity::Note, case.diameter, &limit);
        push(layer.map_or(found, |layer| found.in_layer(layer)));
    };
    if let Some(least) = limits.fraction(Name::DiameterPerThicknessLeast) {
        let limit = thickest.times(least.value.0, least.value.1);
        if case.diameter < limit {
            outside(least.basis, limit);
        }
    }
    let structural = limits.length(Name::DiameterStructuralLeast);
    if let Some(greatest) = limits.fraction(Name::DiameterPerThicknessGreatest) {
        let rule = thickest.times(greatest.value.0, greatest.value.1);
        let least = structural.map_or(rule, |least| least.value.max(rule));
        let next = series.sizes.iter().map(|size| size.shank_nominal).find(|shank| *shank >= least);
        if let Some(limit) = next.filter(|next| case.diameter > *next) {
            outside(greatest.basis, limit);
        }
    }
    if let Some(least) = structural.filter(|least| case.diameter < least.value) {
        push(Finding::against(Code::NotStructural, not_structural(structure), case.diameter, &least));
    }
}

/// What a rivet's alloy asks for, whatever the stack: that it does not go into structure, or is heat treated before it is driven.
pub(crate) fn check_alloy(rivet: &Part<'_>, structure: Option<Structure>, push: &mut Sink<'_>) {
    if let Some((false, basis)) = rivet.alloy().is_structural() {
        push(Finding::new(Code::NotStructural, not_structural(structure), basis));
    }
    // The first is asked for at any diameter.
    if let Some(treatment) = rivet.alloy().heat_treatments().first() {
        push(Finding::new(Code::HeatTreatFirst, Severity::Caution, treatment.basis));
    }
}

/// How serious it is that a rivet is not for structure.
fn not_structural(structure: Option<Structure>) -> Severity {
    if structure == Some(Structure::Primary) { Severity::Refer } else { Severity::Caution }
}
