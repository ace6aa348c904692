//! What becomes of a hole: the steps from the least change on.
//!
//! Keep the hole; clean it up for the same rivet; take the same rivet with an oversize shank; take the next larger diameter; refer. Each step
//! is the same question asked again of the rivet, the hole and the place that the step leaves, so it is checked for everything that a rivet in
//! its pack is checked for. A step that refers to nobody is taken.
//!
//! An elongated hole that is opened until it is round again has moved: its centre lies in the middle of the elongation, half the difference of
//! both axes from where it was. Every distance is taken that much shorter.

use super::Installation;
use crate::answer::{Answered, Ruling};
use crate::basis::Basis;
use crate::drill::Drill;
use crate::fact::Fact;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::hole::{AsFound, Damage, Disposition, HoleLimits};
use crate::layout::RowLayout;
use crate::length::{Interval, Toleranced};
use crate::practice::Name;
use crate::rivet::part::Part;
use crate::structure::Member;

/// One step of the ladder.
#[derive(Clone, Debug, PartialEq)]
pub struct Step<'a> {
    /// Which.
    pub kind: Disposition,
    /// The rivet that it would take; `None` when there is none.
    pub rivet: Option<Part<'a>>,
    /// The drill or reamer to open the hole with; `None` when it stays as it is.
    pub cut: Option<Drill>,
    /// The hole that the step leaves.
    pub hole: Option<Interval>,
    /// What was found; the step can be taken when nothing in it says refer.
    pub findings: Findings,
}

impl<'a> Step<'a> {
    const fn new(kind: Disposition) -> Step<'a> {
        Step { kind, rivet: None, cut: None, hole: None, findings: Findings::new() }
    }

    /// Whether the step can be taken.
    #[must_use]
    pub fn does(&self) -> bool {
        self.rivet.is_some() && !self.findings.must_refer()
    }
}

/// Steps below refer.
pub const MAX_STEPS: usize = 4;

/// What becomes of a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleAnswer<'a> {
    /// What to do.
    pub disposition: Disposition,
    /// The rivet to take; `None` when the hole is referred.
    pub rivet: Option<Part<'a>>,
    /// The drill or reamer to open the hole with; `None` when it stays as it is or is referred.
    pub cut: Option<Drill>,
    /// The hole in the end; `None` when it is referred.
    pub hole: Option<Interval>,
    /// What was found of the step to take; of a hole that is referred what was found of it as it is.
    pub findings: Findings,
}

impl HoleAnswer<'_> {
    /// The same hole, referred for a reason that lies outside it: its pattern takes no more steps.
    pub fn refer(&mut self, finding: Finding) {
        (self.disposition, self.rivet, self.cut, self.hole) = (Disposition::Refer, None, None, None);
        self.findings.push(finding);
    }
}

impl<'q, 'a> Installation<'q, 'a> {
    /// What becomes of a hole as found, of which this rivet was taken or into which it is to go.
    ///
    /// ```
    /// use shophead::hole::{AsFound, Damage, Disposition};
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("clad 2024-T3:.032, clad 2024-T3:.040")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers)
    ///     .edge(Length::parse("3/8")?)
    ///     .pitch(Length::parse("3/4")?);
    /// let found = AsFound::new(Length::parse(".141")?, Length::parse(".130")?, Damage::None)?;
    /// let answer = question.hole(found);
    /// assert_eq!(answer.disposition, Disposition::Oversize);
    /// assert_eq!(answer.rivet.unwrap().to_string(), "NAS1242AD4");
    /// assert_eq!(answer.cut.unwrap().to_string(), "#27");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn hole(&self, found: AsFound) -> HoleAnswer<'a> {
        self.hole_step_by_step(found, &mut |_| {})
    }

    /// The same, and each step as it was tried, the least change first.
    ///
    /// ```
    /// use shophead::hole::{AsFound, Damage, Disposition};
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// let question = Installation::without_layers(Part::parse("MS20470AD4")?);
    /// let found = AsFound::new(Length::parse(".141")?, Length::parse(".130")?, Damage::None)?;
    /// let mut tried = Vec::new();
    /// let answer = question.hole_step_by_step(found, &mut |step| tried.push(step.kind));
    /// assert_eq!(tried, [Disposition::Keep, Disposition::CleanUp, Disposition::Oversize]);
    /// assert_eq!(answer.disposition, Disposition::Oversize);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn hole_step_by_step(&self, found: AsFound, tried: &mut dyn FnMut(&Step<'a>)) -> HoleAnswer<'a> {
        let mut answer = HoleAnswer {
            disposition: Disposition::Refer,
            rivet: None,
            cut: None,
            hole: None,
            findings: Findings::new(),
        };
        if let Some(finding) = beyond_repair(found) {
            answer.findings.push(finding);
            self.kept(found).check(&mut |finding| answer.findings.push(finding));
            return answer;
        }
        for kind in LADDER {
            let mut step = Step::new(kind);
            self.try_step(found, &mut step);
            tried(&step);
            if step.does() {
                let Step { rivet, cut, hole, findings, .. } = step;
                return HoleAnswer { disposition: kind, rivet, cut, hole, findings };
            }
            if kind == Disposition::Keep {
                answer.findings = step.findings;
            }
        }
        answer
    }

    /// The question that an answer about a hole leaves: its rivet in its hole, where that then stands. `None` where the hole is referred.
    #[must_use]
    pub fn after(&self, found: AsFound, answer: &HoleAnswer<'a>) -> Option<Installation<'q, 'a>> {
        let (rivet, hole) = (answer.rivet?, answer.hole?);
        Some(match answer.disposition {
            Disposition::Keep => self.kept(found),
            _ => self.changed(rivet, hole, found),
        })
    }

    /// The step to the next larger diameter by itself, for a hole that a notched shank came out of.
    #[must_use]
    pub fn next_size(&self, found: AsFound) -> HoleAnswer<'a> {
        let mut step = Step::new(Disposition::NextSize);
        self.try_step(found, &mut step);
        let does = step.does();
        let Step { kind, rivet, cut, hole, findings } = step;
        if does {
            HoleAnswer { disposition: kind, rivet, cut, hole, findings }
        } else {
            HoleAnswer { disposition: Disposition::Refer, rivet: None, cut: None, hole: None, findings }
        }
    }

    /// The step that a referral was answered with: their rivet in their hole. It is carried as it was
    /// given; what it breaks is a caution. `None` where it leaves no rivet: the sheet is repaired first, or the rivet is none known here.
    ///
    /// ```
    /// use shophead::answer::{Answered, Ruling};
    /// use shophead::finding::{Code, Severity};
    /// use shophead::hole::{AsFound, Damage, Disposition};
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// use shophead::structure::Member;
    /// let layers = Stack::parse("2024-T3:.063, 7075-T6:.190")?;
    /// let question = Installation::new(Part::parse("MS20470AD5")?, &layers)
    ///     .edge(Length::parse(".30")?)
    ///     .pitch(Length::parse("7/8")?)
    ///     .member(Member::SparCap);
    /// let found = AsFound::new(Length::parse(".175")?, Length::parse(".161")?, Damage::None)?;
    /// assert_eq!(question.hole(found).disposition, Disposition::Refer);
    /// let answered = Answered { ruling: Ruling::NextSize, rivet: None, drill: None };
    /// let step = question.as_answered(Some(found), &answered).unwrap();
    /// assert_eq!((step.rivet.unwrap().to_string(), step.cut.unwrap().to_string()), ("MS20470AD6".into(), "#11".into()));
    /// // The short edge distance is said, and stops nothing any more.
    /// assert!(step.findings.has(Code::EdgeDistanceShort) && !step.findings.must_refer());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn as_answered(&self, found: Option<AsFound>, answered: &Answered<'a>) -> Option<Step<'a>> {
        let family = self.rivet.without_length();
        let kind = match answered.ruling {
            Ruling::Keep => Disposition::Keep,
            Ruling::Oversize => Disposition::Oversize,
            Ruling::NextSize => Disposition::NextSize,
            Ruling::CleanUp | Ruling::Hole | Ruling::Rivet | Ruling::Repair | Ruling::Blind => Disposition::CleanUp,
        };
        let rivet = match (answered.rivet, answered.ruling) {
            (Some(rivet), _) => rivet,
            (None, Ruling::Keep | Ruling::CleanUp | Ruling::Hole) => family,
            (None, Ruling::Oversize) => family.series().oversize_series.and_then(|series| family.in_series(series))?,
            (None, Ruling::NextSize) => {
                family.series().next_size(family.size()).and_then(|size| family.in_size(size))?
            }
            (None, Ruling::Rivet | Ruling::Repair | Ruling::Blind) => return None,
        };
        let mut step = Step::new(kind);
        step.rivet = Some(rivet);
        let greatest =
            |rivet: &Part<'_>| HoleLimits::of(self.practice, &Installation { rivet: *rivet, ..*self }.case()).greatest;
        let as_it_is = |found: &AsFound| greatest(&rivet).is_some_and(|greatest| found.major() <= greatest.value);
        step.hole = match (answered.drill, found) {
            (Some(drill), _) => {
                step.cut = Some(drill);
                let most = greatest(&rivet).map_or(drill.diameter(), |greatest| greatest.value.max(drill.diameter()));
                Some(Interval::of(drill.diameter(), most))
            }
            (None, Some(found)) if kind == Disposition::Keep => Some(found.interval()),
            // A rivet that the hole is good for as it is goes in as it is.
            (None, Some(found)) if answered.ruling == Ruling::Rivet && as_it_is(&found) => Some(found.interval()),
            (None, Some(found)) => self.opened(&rivet, found, &mut step),
            (None, None) => None,
        };
        let after = match (step.hole, found) {
            (Some(hole), Some(found)) if step.cut.is_some() => self.changed(rivet, hole, found),
            (Some(hole), Some(found)) => {
                Installation { rivet, hole: Some(Toleranced::from_least(hole)), ..self.kept(found) }
            }
            (Some(hole), None) => {
                Installation { rivet, hole: Some(Toleranced::from_least(hole)), opened: true, ..*self }
            }
            (None, _) => Installation { rivet, installed: Some(self.before()), ..*self },
        };
        let mut found_of_it: Findings = Findings::new();
        after.check(&mut |finding| found_of_it.push(finding));
        if let Some(Ok(assessed)) = rivet.length().map(|length| after.assess(length)) {
            found_of_it.extend(&assessed.findings);
        }
        if step.cut.is_none() && step.hole.is_none() {
            step.hole = Some(after.hole_or_drilled().value.interval());
        }
        let earlier = core::mem::take(&mut step.findings);
        for finding in earlier.iter().chain(&found_of_it) {
            step.findings.push(finding.answered());
        }
        Some(step)
    }

    /// The rivet that is in place, or that goes in when nothing is changed.
    fn before(&self) -> Part<'a> {
        self.installed.unwrap_or(self.rivet.without_length())
    }

    /// Fills in one step.
    #[inline(never)]
    fn try_step(&self, found: AsFound, step: &mut Step<'a>) {
        let rivet = match step.kind {
            Disposition::Keep | Disposition::CleanUp => Some(self.rivet.without_length()),
            Disposition::Oversize => {
                let series = self.rivet.series().oversize_series;
                series.and_then(|series| self.rivet.without_length().in_series(series))
            }
            Disposition::NextSize => {
                let size = self.rivet.series().next_size(self.rivet.size());
                size.and_then(|size| self.rivet.without_length().in_size(size))
            }
            Disposition::Refer => None,
        };
        let Some(rivet) = rivet else {
            step.findings.push(Finding::new(Code::NoLargerRivet, Severity::Refer, self.rivet.series().basis));
            return;
        };
        step.rivet = Some(rivet);
        if step.kind == Disposition::NextSize
            && let Some(most) = self.practice.length(Name::StepGreatest, &self.case())
        {
            let larger = rivet.size().standard_diameter().minus(self.rivet.size().standard_diameter());
            if larger > most.value {
                step.findings.push(Finding::against(Code::StepTooLarge, Severity::Refer, larger, &most));
            }
        }
        let mends = match step.kind {
            Disposition::Keep => found.damage() == Damage::None,
            Disposition::CleanUp | Disposition::Oversize => found.damage() != Damage::DeepCountersink,
            Disposition::NextSize | Disposition::Refer => true,
        };
        if !mends {
            step.findings.push(Finding::new(Code::HoleDamaged, Severity::Refer, Basis::AC43_SOUND_HOLES));
        }
        if step.kind.is_step_up() && matches!(self.member, Some(Member::SparCap | Member::Longeron | Member::Stringer))
        {
            step.findings.push(Finding::new(Code::StepNeedsApproval, Severity::Refer, Basis::AC43_APPROVAL));
        }
        let opened = step.kind != Disposition::Keep;
        step.hole = if opened { self.opened(&rivet, found, step) } else { Some(found.interval()) };
        let Some(hole) = step.hole else { return };
        let after = if opened { self.changed(rivet, hole, found) } else { self.kept(found) };
        let findings = &mut step.findings;
        after.check(&mut |finding| findings.push(finding));
        if step.kind.is_step_up() {
            after.check_not_weaker(&mut |finding| findings.push(finding));
        }
        let mut missing = after.missing();
        if !step.kind.is_step_up() {
            missing = missing.without(Fact::Material);
        }
        after.say_missing(missing, &mut |finding| findings.push(finding));
    }

    /// The same rivet in the hole as found. Only the edge is that much nearer.
    fn kept(&self, found: AsFound) -> Installation<'q, 'a> {
        let edge = self.layout.edge.map(|edge| edge.minus(found.shift()));
        let layout = RowLayout { edge, ..self.layout };
        Installation {
            rivet: self.rivet.without_length(),
            hole: Some(Toleranced::from_least(found.interval())),
            layout,
            installed: Some(self.before()),
            installed_layout: Some(self.layout),
            ..*self
        }
    }

    /// A rivet in the hole that was opened for it.
    fn changed(&self, rivet: Part<'a>, hole: Interval, found: AsFound) -> Installation<'q, 'a> {
        let pitch = self.layout.pitch.map(|pitch| pitch.minus(found.shift()));
        let kept = self.kept(found);
        let layout = RowLayout { pitch, ..kept.layout };
        Installation { rivet, hole: Some(Toleranced::from_least(hole)), layout, opened: true, ..kept }
    }

    /// The drill that makes the hole round again, and the hole that it leaves.
    #[inline(never)]
    fn opened(&self, rivet: &Part<'a>, found: AsFound, step: &mut Step<'a>) -> Option<Interval> {
        let case = Installation { rivet: *rivet, installed: Some(self.before()), ..*self }.case();
        let drill = self.practice.length(Name::HoleDrill, &case);
        let greatest = HoleLimits::of(self.practice, &case).greatest;
        let (Some(drill), Some(greatest)) = (drill, greatest) else {
            step.findings.push(Finding::new(Code::NoLimit, Severity::Refer, Basis::NO_HOLE));
            return None;
        };
        // Opening up removes what is out of round and what is scored: the new hole goes over the longest axis.
        let Some(cut) = Drill::nearest_at_or_above(drill.value.max(found.major())) else {
            step.findings.push(Finding::against(Code::HoleOverLimit, Severity::Refer, found.major(), &greatest));
            return None;
        };
        step.cut = Some(cut);
        // What a drill leaves is less than what is accepted.
        let drilled = self.practice.hole_for(&case).map_or(greatest.value, |hole| hole.value.max());
        Some(Interval::of(cut.diameter(), drilled.max(cut.diameter())))
    }
}

const LADDER: [Disposition; MAX_STEPS] =
    [Disposition::Keep, Disposition::CleanUp, Disposition::Oversize, Disposition::NextSize];

/// What no rivet mends.
fn beyond_repair(found: AsFound) -> Option<Finding> {
    let code = match found.damage() {
        Damage::Cracked => Code::HoleCracked,
        Damage::Corroded => Code::HoleDamaged,
        _ => return None,
    };
    Some(Finding::new(code, Severity::Refer, Basis::AC43_SOUND_HOLES).with_measured(Figure::Length(found.major())))
}
