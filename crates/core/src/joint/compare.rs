//! Whether a new rivet is as strong as the one it replaces.
//!
//! A weaker one may not take its place unless a larger size or more rivets make up for it (AC 43.13-1B para 4-57b).

use super::strength::{Allowable, Governing, JointStrength};
use super::substitution_table::{RULES, SizeUp};
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity, Sink};
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::practice::{Given, Key};
use crate::rivet::part::Part;

/// Two joints side by side; made by [`Installation::compare`](crate::installation::Installation::compare).
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Comparison {
    /// New allowable over old; `None` where one of them is not published.
    pub ratio: Option<f64>,
    /// What fails first in the old joint.
    pub before: Option<Governing>,
    /// What fails first in the new joint.
    pub after: Option<Governing>,
    /// The weakest basis of both.
    pub basis: Basis,
    /// What the comparison found; the joints keep their own findings.
    pub findings: Findings,
}

/// The new joint beside the old one.
#[must_use]
pub fn compare(before: &JointStrength, after: &JointStrength) -> Comparison {
    let mut findings = Findings::new();
    let ratio = compare_into(&Carried::of(before), &Carried::of(after), &mut |finding| findings.push(finding));
    let basis = before.basis.weaker(after.basis);
    Comparison { ratio, before: before.governing, after: after.governing, basis, findings }
}

/// What of a strength is compared: a small part of it, so that two of them need not be kept at once.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Carried {
    pub(super) allowable: Option<Allowable>,
    pub(super) basis: Basis,
    /// What to enter, where it is not known what is carried.
    pub(super) key: Option<Key>,
}

impl Carried {
    fn of(found: &JointStrength) -> Carried {
        let key = found.findings.iter().find_map(Finding::key);
        Carried { allowable: found.allowable, basis: found.basis, key }
    }
}

/// The ratio of a comparison; its findings go elsewhere.
pub(crate) fn compare_into(before: &Carried, after: &Carried, push: &mut Sink<'_>) -> Option<f64> {
    let forces = before.allowable.zip(after.allowable).map(|(before, after)| (before.force, after.force));
    let ratio = forces.map(|(before, after)| after.lbf() / before.lbf()).filter(|ratio| ratio.is_finite());
    match (ratio, forces) {
        (Some(ratio), Some((before, after))) if ratio < 1.0 => push(
            Finding::new(Code::WeakerThanBefore, Severity::Refer, Basis::AC43_NOT_WEAKER)
                .with_measured(Figure::Force(after))
                .with_limit(Figure::Force(before)),
        ),
        (Some(_), _) => {}
        (None, _) => {
            let missing = [before, after].into_iter().filter(|carried| carried.allowable.is_none());
            let (code, basis) = (Code::StrengthNotPublished, before.basis.weaker(after.basis));
            push(Finding::unknown(code, Severity::Refer, basis, missing.filter_map(|carried| carried.key).next()));
        }
    }
    ratio
}

/// The least diameter at which a substitute alloy may take the place of a rivet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Substitute {
    /// Least nominal diameter of the substitute.
    pub diameter: Length,
    /// Source of the rule.
    pub basis: Basis,
}

/// How large a rivet of another alloy must be, by the published rules; edge distance and pitch must be checked again for it.
///
/// The same alloy keeps its diameter. Where several documents speak, the strictest decides: 2117 stands in for 2017 only up to
/// 3/16 and for 2024 only up to 5/32 (AC 43.13-1B), although NAVEDTRA 14018 and 14315 name no bound. `None` where no document
/// allows it.
///
/// ```
/// use shophead::joint::compare::substitute;
/// use shophead::length::Length;
/// use shophead::material::RivetAlloy;
/// let larger = substitute(RivetAlloy::Al2017, RivetAlloy::Al2117, Length::parse("3/16")?);
/// assert_eq!(larger.map(|rule| rule.diameter), Some(Length::parse("7/32")?));
/// assert_eq!(substitute(RivetAlloy::Al2024, RivetAlloy::Al2117, Length::parse("3/16")?), None);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn substitute(original: RivetAlloy, substitute: RivetAlloy, diameter: Length) -> Option<Substitute> {
    if original == substitute {
        return Some(Substitute { diameter, basis: Basis::AC43_NOT_WEAKER });
    }
    let mut rules = RULES.iter().filter(|rule| rule.original == original && rule.substitute == substitute).peekable();
    rules.peek()?;
    let mut strictest: Option<Substitute> = None;
    for rule in rules {
        if rule.up_to.is_some_and(|up_to| diameter > up_to) {
            return None;
        }
        let found = Substitute { diameter: stepped(rule.step, diameter), basis: rule.basis };
        if strictest.is_none_or(|so_far| found.diameter > so_far.diameter) {
            strictest = Some(found);
        }
    }
    strictest
}

/// Whether a rivet of another alloy may take the place of one, by [`substitute`].
///
/// Too small a diameter refers. A pair that no document names refers too where the new alloy is the weaker one when driven, or where
/// that is not known; a stronger one is a caution, because it is harder to drive and no rule was found for it. The same alloy finds
/// nothing.
pub(crate) fn check_substitute(original: &Part<'_>, new: &Part<'_>, push: &mut Sink<'_>) {
    if original.alloy() == new.alloy() {
        return;
    }
    match substitute(original.alloy(), new.alloy(), original.diameter()) {
        Some(Substitute { diameter, basis }) if new.diameter() < diameter => {
            let least = Given { value: diameter, basis };
            push(Finding::against(Code::SubstituteTooSmall, Severity::Refer, new.diameter(), &least));
        }
        Some(_) => {}
        None => {
            let driven = original.alloy().fsu_driven().zip(new.alloy().fsu_driven());
            let as_strong = driven.is_some_and(|((old, _), (new, _))| new >= old);
            let severity = if as_strong { Severity::Caution } else { Severity::Refer };
            push(Finding::new(Code::SubstituteNotNamed, severity, Basis::AC43_NOT_WEAKER));
        }
    }
}

/// A shank that is smaller than the one before does not fill the hole that one left.
pub(crate) fn check_shank(original: &Part<'_>, new: &Part<'_>, push: &mut Sink<'_>) {
    let (was, is) = (original.size().shank_nominal, new.size().shank_nominal);
    if is < was {
        let least = Given { value: was, basis: Basis::AC43_SHANK_NOT_SMALLER };
        push(Finding::against(Code::ShankSmaller, Severity::Refer, is, &least));
    }
}

/// See [`Basis::SPEC_47196_STEP`].
const FINE_STEPS_UP_TO: Length = Length::from_64ths(16);

fn stepped(step: SizeUp, diameter: Length) -> Length {
    match step {
        SizeUp::ThirtySecond => diameter.plus(Length::THIRTY_SECOND),
        SizeUp::NextSize if diameter < FINE_STEPS_UP_TO => diameter.plus(Length::THIRTY_SECOND),
        SizeUp::NextSize => diameter.plus(Length::SIXTEENTH),
    }
}
