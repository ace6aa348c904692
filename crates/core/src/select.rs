//! Choosing a rivet: its diameter from the sheets, its length from the pack, the hole and the practice.
//!
//! # Length
//!
//! The published rule, grip plus one and a half diameters rounded as the practice says, is the starting point. It is then held against
//! the volume balance ([`crate::upset`]) at the ends of all tolerances:
//!
//! - **long enough**: with the thinnest shank, the largest hole, the thickest pack and the shortest rivet there is still metal for the
//!   least driven head;
//! - **short enough**: with the thickest shank, the smallest hole, the thinnest pack and the longest rivet the tail does not stand
//!   out further than it can be driven without folding, and holds no more metal than the largest head allowed.
//!
//! If the rule's length is not good, the nearest good length is taken, in whole sixteenths first and in half lengths only if no whole
//! sixteenth will do. If no length is good, that is the answer. A longer grip never gets a shorter rivet: all bounds rise with the
//! grip, and so does the nearest length between them.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity, Sink};
use crate::length::{Interval, Length, Toleranced};
use crate::material::RivetAlloy;
use crate::practice::{Case, Given, Name, Practice, Rounding};
use crate::rivet::part::{Part, PartWarning};
use crate::rivet::{Series, Size};
use crate::structure::Structure;
use crate::upset::{Fit, FitError, HeadLimits, PredictedHead};

crate::words::words! {
    /// Why the chosen length is not the one that the rule of thumb gives.
    Difference, "difference" {
        FillTakesTail = 1, "fill-takes-tail", "Filling the hole takes the tail.";
        TailWouldFold = 2, "tail-would-fold", "The tail would fold over.";
        HeadWouldBeTooLarge = 3, "head-would-be-too-large", "The driven head would come out too large.";
    }
}

/// What a bound of the usable lengths comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum UpperBound {
    /// The tail that can be driven without folding.
    Tail,
    /// The metal in the largest head.
    Head,
}

/// The lengths whose driven head is sound at every end of the tolerances.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Usable {
    /// The shortest; below it the worst case lacks metal for the least head.
    pub shortest: Given<Length>,
    /// The longest.
    pub longest: Given<Length>,
    /// What limits the longest.
    pub longest_by: UpperBound,
}

impl Usable {
    /// Whether a nominal length lies inside.
    #[must_use]
    pub fn contains(&self, length: Length) -> bool {
        self.shortest.value <= length && length <= self.longest.value
    }
}

/// A chosen length and everything that it rests on; made by [`Installation::length`](crate::installation::Installation::length).
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct LengthAnswer<'a> {
    /// The rivet to order; `None` when no length of the series is good in every case.
    pub part: Option<Part<'a>>,
    /// Its length.
    pub length: Option<Length>,
    /// The lengths that are good, before they are cut to the series' steps; `None` when a limit or a dimension for it is not known.
    pub usable: Option<Usable>,
    /// Grip plus one and a half diameters, as it is before rounding.
    pub rule_of_thumb: Length,
    /// The same, rounded to the series' steps as the practice says.
    pub rule_of_thumb_length: Length,
    /// Why the two differ, when they do.
    pub difference: Option<Difference>,
    /// How far the tail stands out before driving, for the chosen length.
    pub protrusion: Option<Interval>,
    /// The driven head of the chosen length at the height to aim at.
    pub head: Option<PredictedHead>,
    /// The part of the tail that goes into filling the hole, at nominal sizes; `None` when a dimension for it is not known.
    pub fill: Option<Length>,
    /// Notes, cautions and reasons to refer.
    pub findings: Findings,
}

/// What a length is chosen for: the inside of [`Installation::length`](crate::installation::Installation::length).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wanted<'a> {
    /// The rivet; its length does not count.
    pub(crate) rivet: Part<'a>,
    /// What limits are asked for.
    pub(crate) case: Case,
    /// The pack.
    pub(crate) grip: Toleranced,
    /// The hole.
    pub(crate) hole: Toleranced,
    /// The limits.
    pub(crate) practice: &'a Practice<'a>,
}

impl<'a> Wanted<'a> {
    pub(crate) fn fit(&self) -> Result<Fit, FitError> {
        Fit::new(self.rivet.series(), self.rivet.size(), self.hole, self.grip)
    }

    /// The lengths that are good in every case; `None` when the practice lacks the least head or the longest tail.
    fn usable(&self, fit: &Fit, limits: &HeadLimits) -> Option<Usable> {
        let (diameter, height) = (limits.diameter_least?, limits.height_least?);
        let tail = self.practice.length(Name::TailGreatest, &self.case)?;
        let shortest =
            Given { value: fit.shortest_for(diameter.value, height.value), basis: diameter.basis.weaker(height.basis) };
        let by_tail = Given { value: fit.longest_for_tail(tail.value), basis: tail.basis };
        let by_head = limits.diameter_greatest.zip(limits.metal_height_greatest).map(|(diameter, height)| Given {
            value: fit.longest_for(diameter.value, height.value),
            basis: diameter.basis.weaker(height.basis),
        });
        let (longest, longest_by) = match by_head {
            Some(by_head) if by_head.value < by_tail.value => (by_head, UpperBound::Head),
            _ => (by_tail, UpperBound::Tail),
        };
        Some(Usable { shortest, longest, longest_by })
    }

    /// Chooses the length.
    ///
    /// # Errors
    /// [`FitError`] for a pack, a hole or a shank without a size.
    pub(crate) fn choose(&self) -> Result<LengthAnswer<'a>, FitError> {
        let mut findings = Findings::new();
        let (rule_of_thumb, rule_of_thumb_length) = self.rule_of_thumb(&self.case, &mut findings);
        let mut answer = LengthAnswer {
            part: None,
            length: None,
            usable: None,
            rule_of_thumb,
            rule_of_thumb_length,
            difference: None,
            protrusion: None,
            head: None,
            fill: None,
            findings,
        };
        let fit = match self.fit() {
            Ok(fit) => fit,
            Err(error) => {
                answer.findings.push(self.cannot_fit(error)?);
                return Ok(answer);
            }
        };
        answer.fill = Some(fit.tail_taken_by_fill());
        let limits = HeadLimits::of(self.practice, &self.case);
        let Some(usable) = self.usable(&fit, &limits) else {
            answer.findings.push(no_head_limits());
            return Ok(answer);
        };
        let length = self.nearest_good(&usable, rule_of_thumb_length);
        answer.usable = Some(usable);
        answer.length = length;
        answer.part = length.and_then(|length| self.rivet.with_length(length).ok());
        answer.protrusion = length.map(|length| fit.protrusion(length));
        answer.head = length.zip(limits.height_target).map(|(length, height)| fit.predict(length, height.value));
        self.explain(&mut answer, &usable);
        Ok(answer)
    }

    /// What is wrong with a length that somebody else chose.
    ///
    /// # Errors
    /// As [`Wanted::choose`].
    pub(crate) fn assess(&self, length: Length) -> Result<Findings, FitError> {
        let mut findings = Findings::new();
        let fit = match self.fit() {
            Ok(fit) => fit,
            Err(error) => {
                findings.push(self.cannot_fit(error)?);
                return Ok(findings);
            }
        };
        match self.usable(&fit, &HeadLimits::of(self.practice, &self.case)) {
            Some(usable) => findings.extend(&outside(&usable, length, Severity::Refer)),
            None => findings.push(no_head_limits()),
        }
        Ok(findings)
    }

    /// What is not known of the rivet is not invented: the standard has to be opened. A pack, hole or shank without a size stays an error.
    fn cannot_fit(&self, error: FitError) -> Result<Finding, FitError> {
        let unknown = &self.rivet.series().unknown;
        let (code, basis) = match error {
            FitError::HeadNotKnown => (Code::NoLimit, unknown.head),
            FitError::ShankNotKnown => (Code::NoLimit, unknown.shank),
            FitError::HeadDeeperThanPack => (Code::NoLengthFits, unknown.fit),
            FitError::NoGrip | FitError::NoHole | FitError::NoShank => return Err(error),
        };
        Ok(Finding::new(code, Severity::Refer, basis))
    }

    fn rule_of_thumb(&self, case: &Case, findings: &mut Findings) -> (Length, Length) {
        let tail = self.practice.length(Name::RuleOfThumbTail, case);
        let rounding = self.practice.rounding(case);
        let (Some(tail), Some(rounding)) = (tail, rounding) else {
            findings.push(Finding::new(Code::NoLimit, Severity::Caution, Basis::RULE_OF_THUMB));
            return (self.grip.nominal(), self.grip.nominal().ceil_to(Length::SIXTEENTH));
        };
        let exact = self.grip.nominal().plus(tail.value);
        let rounded = match rounding.value {
            Rounding::Longer => exact.ceil_to(Length::SIXTEENTH),
            Rounding::Nearest => exact.round_to(Length::SIXTEENTH),
        };
        (exact, rounded)
    }

    /// The good length nearest to the wanted one: in sixteenths, else in thirty-seconds where the series has them.
    fn nearest_good(&self, usable: &Usable, wanted: Length) -> Option<Length> {
        let within = |step: Length| {
            let shortest = usable.shortest.value.max(step).ceil_to(step);
            let longest = usable.longest.value.floor_to(step);
            (shortest <= longest).then(|| wanted.clamp(shortest, longest))
        };
        within(Length::SIXTEENTH)
            .or_else(|| if self.rivet.series().half_lengths.is_some() { within(Length::THIRTY_SECOND) } else { None })
    }

    /// Says why the rule's length was not taken, or why nothing was.
    fn explain(&self, choice: &mut LengthAnswer<'a>, usable: &Usable) {
        let rule = choice.rule_of_thumb_length;
        if rule < usable.shortest.value {
            choice.difference = Some(Difference::FillTakesTail);
        } else if rule > usable.longest.value {
            choice.difference = Some(match usable.longest_by {
                UpperBound::Tail => Difference::TailWouldFold,
                UpperBound::Head => Difference::HeadWouldBeTooLarge,
            });
        }
        let Some(length) = choice.length else {
            choice.findings.push(no_length_fits(usable));
            return;
        };
        if length != rule {
            let bound = if rule < usable.shortest.value { usable.shortest.basis } else { usable.longest.basis };
            choice.findings.push(
                Finding::new(Code::DiffersFromRule, Severity::Note, bound)
                    .with_measured(Figure::Length(length))
                    .with_limit(Figure::Length(rule)),
            );
        }
        choice.findings.push_some(Finding::from_memory(&usable.shortest));
        choice.findings.push_some(Finding::from_memory(&usable.longest));
        if length != length.floor_to(Length::SIXTEENTH) {
            let basis = Basis::AC43_HALF_LENGTHS;
            choice
                .findings
                .push(Finding::new(Code::HalfLength, Severity::Note, basis).with_measured(Figure::Length(length)));
        }
        if let Some(limit) = self.beyond_tabulated(length) {
            choice.findings.push(
                Finding::new(Code::LengthNotTabulated, Severity::Note, self.rivet.series().basis)
                    .with_measured(Figure::Length(length))
                    .with_limit(Figure::Length(limit)),
            );
        }
    }

    /// The end of the tabulated lengths that a length lies beyond.
    fn beyond_tabulated(&self, length: Length) -> Option<Length> {
        let shortest = self.rivet.size().shortest_tabulated.filter(|shortest| length < *shortest);
        shortest.or(self.rivet.size().longest_tabulated.filter(|longest| length > *longest))
    }
}

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

fn no_head_limits() -> Finding {
    Finding::new(Code::NoLimit, Severity::Refer, Basis::LEAST_HEAD_AND_LONGEST_TAIL)
}

fn no_length_fits(usable: &Usable) -> Finding {
    let weaker = usable.shortest.basis.weaker(usable.longest.basis);
    let longest = Given { value: usable.longest.value, basis: weaker };
    Finding::against(Code::NoLengthFits, Severity::Refer, usable.shortest.value, &longest)
}

/// Why a length is not among the usable ones.
fn outside(usable: &Usable, length: Length, severity: Severity) -> Findings {
    let mut findings = Findings::new();
    if length < usable.shortest.value {
        findings.push(
            Finding::new(Code::TailTooShort, severity, usable.shortest.basis)
                .with_measured(Figure::Length(length))
                .with_limit(Figure::Length(usable.shortest.value)),
        );
    }
    if length > usable.longest.value {
        let code = match usable.longest_by {
            UpperBound::Tail => Code::TailTooLong,
            UpperBound::Head => Code::HeadTooLarge,
        };
        findings.push(
            Finding::new(code, severity, usable.longest.basis)
                .with_measured(Figure::Length(length))
                .with_limit(Figure::Length(usable.longest.value)),
        );
    }
    findings
}

/// A diameter chosen from the sheets.
#[derive(Clone, Debug, PartialEq)]
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
            findings.push(Finding::new(Code::NoLimit, Severity::Refer, Basis::DIAMETER_FOR_SHEET));
            thickest
        }
    };
    let least = practice.length(Name::DiameterStructuralLeast, &case).map_or(Length::ZERO, |least| least.value);
    let size = series.sizes.iter().find(|size| size.shank_nominal >= wanted && size.shank_nominal >= least);
    match size {
        Some(size) => {
            let case = Case::of(series.head, alloy, size);
            check_diameter(series, &case, thickest, None, practice, &mut |finding| findings.push(finding));
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
    case: &Case,
    thickest: Length,
    structure: Option<Structure>,
    practice: &Practice<'_>,
    push: &mut Sink<'_>,
) {
    let mut outside = |basis, limit| {
        push(Finding::against(
            Code::DiameterOutsideRule,
            Severity::Note,
            case.diameter,
            &Given { value: limit, basis },
        ));
    };
    if let Some(least) = practice.fraction(Name::DiameterPerThicknessLeast, case) {
        let limit = thickest.times(least.value.0, least.value.1);
        if case.diameter < limit {
            outside(least.basis, limit);
        }
    }
    let structural = practice.length(Name::DiameterStructuralLeast, case);
    if let Some(greatest) = practice.fraction(Name::DiameterPerThicknessGreatest, case) {
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

/// What a rivet's alloy asks for, whatever the pack: that it does not go into structure, or is heat treated before it is driven.
pub(crate) fn check_alloy(rivet: &Part<'_>, structure: Option<Structure>, push: &mut Sink<'_>) {
    if let Some((false, basis)) = rivet.alloy().is_structural() {
        push(Finding::new(Code::NotStructural, not_structural(structure), basis));
    }
    let asked = |above: Option<Length>| above.is_none_or(|above| rivet.diameter() > above);
    if let Some(treatment) = rivet.alloy().heat_treatments().iter().find(|treatment| asked(treatment.above)) {
        push(Finding::new(Code::HeatTreatFirst, Severity::Caution, treatment.basis));
    }
}

/// How serious it is that a rivet is not for structure.
fn not_structural(structure: Option<Structure>) -> Severity {
    if structure == Some(Structure::Primary) { Severity::Refer } else { Severity::Caution }
}
