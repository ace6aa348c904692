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
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::{Interval, Length, Toleranced};
use crate::material::RivetAlloy;
use crate::practice::{Case, Given, Name, Practice, Rounding};
use crate::rivet::part::Part;
use crate::rivet::{Series, Size};
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

/// A chosen length and everything that it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct LengthChoice {
    /// The length; `None` when no length of the series is good in every case.
    pub length: Option<Length>,
    /// The lengths that are good, before they are cut to the series' steps; `None` when the practice lacks a limit for it.
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
    /// The part of the tail that goes into filling the hole, at nominal sizes.
    pub fill: Length,
    /// Notes, cautions and reasons to refer.
    pub findings: Findings,
}

/// What a length is chosen for.
#[derive(Clone, Copy, Debug)]
pub struct LengthQuery<'a> {
    /// The part standard.
    pub series: &'a Series<'a>,
    /// The rivet alloy.
    pub alloy: RivetAlloy,
    /// The diameter.
    pub size: &'a Size,
    /// The pack.
    pub grip: Toleranced,
    /// The hole: as measured, or as [`Practice::hole_for`] assumes it.
    pub hole: Toleranced,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'a> LengthQuery<'a> {
    fn case(&self) -> Case {
        Case::of(self.series.head, self.alloy, self.size)
    }

    /// The fit that this query describes.
    ///
    /// # Errors
    /// [`FitError`] for sizes that are no sizes.
    pub fn fit(&self) -> Result<Fit, FitError> {
        Fit::new(self.series, self.size, self.hole, self.grip)
    }

    /// The lengths that are good in every case; `None` when the practice lacks the least head or the longest tail.
    fn usable(&self, fit: &Fit, limits: &HeadLimits) -> Option<Usable> {
        let (diameter, height) = (limits.diameter_least?, limits.height_least?);
        let tail = self.practice.length(Name::TailGreatest, &self.case())?;
        let shortest =
            Given { value: fit.shortest_for(diameter.value, height.value), basis: diameter.basis.weaker(height.basis) };
        let by_tail = Given { value: fit.longest_for_tail(tail.value), basis: tail.basis };
        let by_head = limits.diameter_greatest.zip(limits.height_greatest).map(|(diameter, height)| Given {
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
    /// [`FitError`] for sizes that are no sizes. That nothing fits is not an error but an answer: [`LengthChoice::length`] is then
    /// `None` and a finding says so.
    ///
    /// ```
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::HANDBOOK;
    /// use shophead::rivet::MS20470;
    /// use shophead::select::LengthQuery;
    /// // Two sheets of .032 with a 1/8 rivet: the answer printed for it is MS20470AD4-4.
    /// let choice = LengthQuery {
    ///     series: &MS20470,
    ///     alloy: RivetAlloy::Al2117,
    ///     size: MS20470.size(4).unwrap(),
    ///     grip: Toleranced::parse(".064")?,
    ///     hole: Toleranced::parse(".1285")?,
    ///     practice: &HANDBOOK,
    /// }
    /// .choose()?;
    /// assert_eq!(choice.length, Some(Length::parse("1/4")?));
    /// assert_eq!(choice.rule_of_thumb, Length::parse(".2515")?);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn choose(&self) -> Result<LengthChoice, FitError> {
        let fit = self.fit()?;
        let case = self.case();
        let limits = HeadLimits::of(self.practice, &case);
        let usable = self.usable(&fit, &limits);
        let mut findings = Findings::new();
        let (rule_of_thumb, rule_of_thumb_length) = self.rule_of_thumb(&case, &mut findings);
        if usable.is_none() {
            let basis = Basis::LEAST_HEAD_AND_LONGEST_TAIL;
            findings.push(Finding::new(Code::NoLimit, Severity::Refer, basis));
        }
        let length = usable.and_then(|usable| self.nearest_good(&usable, rule_of_thumb_length));
        let mut choice = LengthChoice {
            length,
            usable,
            rule_of_thumb,
            rule_of_thumb_length,
            difference: None,
            protrusion: length.map(|length| fit.protrusion(length)),
            head: length.zip(limits.height_target).map(|(length, height)| fit.predict(length, height.value)),
            fill: fit.tail_taken_by_fill(),
            findings,
        };
        if let Some(usable) = usable {
            self.explain(&mut choice, &usable);
        }
        self.warn_of_entry(&fit, &mut choice.findings);
        Ok(choice)
    }

    /// Why nothing fits, where nothing does: the findings of [`LengthQuery::choose`] that say so, without the rest of its answer.
    ///
    /// # Errors
    /// [`FitError`] for sizes that are no sizes.
    #[inline(never)]
    pub(crate) fn refusal(&self) -> Result<Option<Finding>, FitError> {
        let fit = self.fit()?;
        let Some(usable) = self.usable(&fit, &HeadLimits::of(self.practice, &self.case())) else {
            return Ok(Some(Finding::new(Code::NoLimit, Severity::Refer, Basis::LEAST_HEAD_AND_LONGEST_TAIL)));
        };
        // Where one length is good the one nearest to any other is good too.
        let fits = self.nearest_good(&usable, Length::ZERO).is_some();
        Ok(if fits { None } else { Some(no_length_fits(&usable)) })
    }

    /// Judges a length that somebody else chose: the findings that [`LengthQuery::choose`] would have avoided.
    ///
    /// # Errors
    /// [`FitError`] for sizes that are no sizes.
    pub fn assess(&self, length: Length) -> Result<Findings, FitError> {
        let fit = self.fit()?;
        let mut findings = Findings::new();
        match self.usable(&fit, &HeadLimits::of(self.practice, &self.case())) {
            Some(usable) => findings.extend(&outside(&usable, length, Severity::Refer)),
            None => {
                let basis = Basis::LEAST_HEAD_AND_LONGEST_TAIL;
                findings.push(Finding::new(Code::NoLimit, Severity::Refer, basis));
            }
        }
        self.warn_of_entry(&fit, &mut findings);
        Ok(findings)
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
            .or_else(|| if self.series.half_lengths.is_some() { within(Length::THIRTY_SECOND) } else { None })
    }

    /// Says why the rule's length was not taken, or why nothing was.
    fn explain(&self, choice: &mut LengthChoice, usable: &Usable) {
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
                Finding::new(Code::LengthNotTabulated, Severity::Note, self.series.basis)
                    .with_measured(Figure::Length(length))
                    .with_limit(Figure::Length(limit)),
            );
        }
    }

    /// The end of the tabulated lengths that a length lies beyond.
    fn beyond_tabulated(&self, length: Length) -> Option<Length> {
        let shortest = self.size.shortest_tabulated.filter(|shortest| length < *shortest);
        shortest.or(self.size.longest_tabulated.filter(|longest| length > *longest))
    }

    fn warn_of_entry(&self, fit: &Fit, findings: &mut Findings) {
        if fit.hole().min() < fit.shank().max() {
            findings.push(
                Finding::new(Code::ShankMayNotEnter, Severity::Note, self.size.basis)
                    .with_measured(Figure::Length(fit.hole().min()))
                    .with_limit(Figure::Length(fit.shank().max())),
            );
        }
    }
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
        Some(size) => findings.extend(&check_diameter(&Case::of(series.head, alloy, size), thickest, practice)),
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

/// Holds a diameter against the rules for the thickest sheet and for structure.
#[must_use]
pub fn check_diameter(case: &Case, thickest: Length, practice: &Practice<'_>) -> Findings {
    let mut findings = Findings::new();
    let outside = |basis, limit| {
        Finding::new(Code::DiameterOutsideRule, Severity::Note, basis)
            .with_measured(Figure::Length(case.diameter))
            .with_limit(Figure::Length(limit))
    };
    if let Some(least) = practice.fraction(Name::DiameterPerThicknessLeast, case) {
        let limit = thickest.times(least.value.0, least.value.1);
        if case.diameter < limit {
            findings.push(outside(least.basis, limit));
        }
    }
    if let Some(greatest) = practice.fraction(Name::DiameterPerThicknessGreatest, case) {
        let limit = thickest.times(greatest.value.0, greatest.value.1);
        if case.diameter > limit {
            findings.push(outside(greatest.basis, limit));
        }
    }
    if let Some(least) = practice.length(Name::DiameterStructuralLeast, case)
        && case.diameter < least.value
    {
        findings.push(Finding::against(Code::NotStructural, Severity::Caution, case.diameter, &least));
    }
    findings
}

/// What a rivet's alloy asks for, whatever the pack: that it does not go into structure, or is heat treated before it is driven.
///
/// ```
/// use shophead::finding::Code;
/// use shophead::rivet::part::Part;
/// use shophead::select::check_alloy;
/// assert!(check_alloy(&Part::parse("MS20470DD5-8")?).has(Code::HeatTreatFirst));
/// assert!(check_alloy(&Part::parse("MS20470A3-4")?).has(Code::NotStructural));
/// assert!(check_alloy(&Part::parse("MS20470AD4-5")?).is_empty());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn check_alloy(rivet: &Part<'_>) -> Findings {
    let mut findings = Findings::new();
    if let Some((false, basis)) = rivet.alloy().is_structural() {
        findings.push(Finding::new(Code::NotStructural, Severity::Caution, basis));
    }
    let asked = |above: Option<Length>| above.is_none_or(|above| rivet.diameter() > above);
    if let Some(treatment) = rivet.alloy().heat_treatments().iter().find(|treatment| asked(treatment.above)) {
        findings.push(Finding::new(Code::HeatTreatFirst, Severity::Caution, treatment.basis));
    }
    findings
}
