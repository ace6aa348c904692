//! What becomes of a hole: the steps from the least change on.
//!
//! Keep the hole; clean it up for the same rivet; take the same rivet with an oversize shank; take the next larger diameter; refer. Each step
//! is the same question asked again of the rivet, the hole and the place that the step leaves, so it is checked for everything that a rivet in
//! its stack is checked for. A step that refers to nobody is taken.
//!
//! A step is tried with the hole as it is before it is tried with a drill: a sound hole that was measured both ways and lies within the limits
//! of the larger rivet is used as it is. Of a hole that was measured one way only the drill comes first, which makes it round; only where the
//! drill would leave the limits is it used as it is, with a caution, so that a measure which is missing opens no hole further.
//!
//! A hole within the limits of its rivet is round for it. An elongated hole that is drilled round again has moved: its centre lies in the middle
//! of the elongation, half the difference of both axes from where it was. Pitch is taken that much shorter; edge distance and row spacing too,
//! unless the hole is known to be long along the edge.

use super::Installation;
use super::ask::CarriedBefore;
use super::checks::no_hole_limit;
use crate::answer::{Answered, Ruling};
use crate::basis::Basis;
use crate::drill::Drill;
use crate::fact::Fact;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::hole::{AsFound, Damage, Disposition, HoleLimits};
use crate::layout::RowLayout;
use crate::length::{Interval, Length, Toleranced};
use crate::practice::{Case, Given, Name};
use crate::rivet::part::Part;
use crate::stack::{Preparation, Stack};
use crate::structure::Member;

/// One step of the ladder.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Step<'a> {
    /// Which.
    pub kind: Disposition,
    /// The rivet that it would take; `None` when there is none.
    pub rivet: Option<Part<'a>>,
    /// The drill or reamer to open the hole with; `None` when it stays as it is. A flush seat is cut for the new head all the same.
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
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
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

    /// How far the centre of the hole moves, at most: not where it stays as it is. Where it is referred nobody knows what becomes of it, so
    /// that counts as drilled.
    #[must_use]
    pub const fn moves(&self, found: &AsFound) -> Length {
        let is_kept = self.cut.is_none() && !matches!(self.disposition, Disposition::Refer);
        if is_kept { Length::ZERO } else { found.shift() }
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
            let rivet = self.rivet.without_length();
            self.kept(rivet, found).check(&mut |finding| answer.findings.push(finding));
            return answer;
        }
        let mut before = None;
        for kind in LADDER {
            let mut step = Step::new(kind);
            self.try_step(found, &mut before, &mut step);
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
        Some(match answer.cut {
            None => self.kept(rivet, found),
            Some(_) => self.drilled(rivet, hole, found),
        })
    }

    /// The step to the next larger diameter by itself, for a hole that a notched shank came out of.
    #[must_use]
    pub fn next_size(&self, found: AsFound) -> HoleAnswer<'a> {
        let mut step = Step::new(Disposition::NextSize);
        self.try_step(found, &mut None, &mut step);
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
    /// let answered = Answered::new(Ruling::NextSize);
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
            (Some(rivet), _) => self.practice.rivet(rivet),
            (None, Ruling::Keep | Ruling::CleanUp | Ruling::Hole) => family,
            (None, Ruling::Oversize) => self.rivet_of(Disposition::Oversize)?,
            (None, Ruling::NextSize) => self.rivet_of(Disposition::NextSize)?,
            (None, Ruling::Rivet | Ruling::Repair | Ruling::Blind) => return None,
        };
        let mut step = Step::new(kind);
        step.rivet = Some(rivet);
        step.hole = match (answered.drill, found) {
            (Some(drill), _) => {
                step.cut = Some(drill);
                Some(self.hole_of(&rivet, drill))
            }
            (None, Some(found)) if kind == Disposition::Keep => Some(found.interval()),
            // A rivet that the hole is good for as it is goes in as it is.
            (None, Some(found)) if answered.ruling != Ruling::CleanUp && self.takes_as_it_is(&rivet, &found) => {
                Some(found.interval())
            }
            (None, Some(found)) => self.cut(&rivet, &found).map(|cut| {
                step.cut = Some(cut);
                self.hole_of(&rivet, cut)
            }),
            (None, None) => None,
        };
        let after = match (step.hole, found) {
            (Some(hole), Some(found)) if step.cut.is_some() => self.drilled(rivet, hole, found),
            (Some(_), Some(found)) => self.kept(rivet, found),
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
        if step.hole.is_none() {
            step.hole = Some(after.hole_or_drilled().value.interval());
        }
        let earlier = core::mem::take(&mut step.findings);
        for finding in earlier.iter().chain(&found_of_it) {
            step.findings.push(finding.answered());
        }
        Some(step)
    }

    /// The rivet of an answer for a hole that has been opened as it said: with its drill, sound, and wide as that rivet wants it. `None` where
    /// the hole as it is now is another than the answer was given for.
    ///
    /// ```
    /// use shophead::answer::{Answered, Ruling};
    /// use shophead::drill::Drill;
    /// use shophead::hole::{AsFound, Damage};
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// let question = Installation::without_layers(Part::parse("MS20470AD5")?);
    /// let hole = |major, minor| AsFound::new(Length::parse(major).unwrap(), Length::parse(minor).unwrap(), Damage::None).unwrap();
    /// let answered = Answered::new(Ruling::Oversize);
    /// let opened = |now| question.opened_as_answered(hole(".172", ".161"), &answered, Drill::parse("#16").unwrap(), now);
    /// assert_eq!(opened(hole(".1775", ".177")).unwrap().to_string(), "NAS1242AD5");
    /// assert_eq!(opened(hole(".190", ".177")), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn opened_as_answered(
        &self,
        before: AsFound,
        answered: &Answered<'a>,
        drill: Drill,
        now: AsFound,
    ) -> Option<Part<'a>> {
        let step = self.as_answered(Some(before), answered)?;
        let (rivet, hole) = (step.rivet?, step.hole?);
        let limits = HoleLimits::of(self.practice, &Installation { rivet, ..*self }.case());
        // What somebody answered may go beyond the limits, as far as their drill does.
        let least = limits.least.map_or(hole.min(), |least| least.value.min(hole.min()));
        let greatest = limits.greatest.map_or(hole.max(), |greatest| greatest.value.max(hole.max()));
        let is_as_answered =
            step.cut == Some(drill) && now.damage() == Damage::None && least <= now.minor() && now.major() <= greatest;
        is_as_answered.then_some(rivet)
    }

    /// The rivet that is in place, or that goes in when nothing is changed.
    fn before(&self) -> Part<'a> {
        self.installed.unwrap_or(self.rivet.without_length())
    }

    /// The rivet of one step.
    fn rivet_of(&self, kind: Disposition) -> Option<Part<'a>> {
        let rivet = self.rivet.without_length();
        let larger = match kind {
            Disposition::Keep | Disposition::CleanUp => return Some(rivet),
            Disposition::Oversize => rivet.series().oversize_series.and_then(|series| rivet.in_series(series)),
            Disposition::NextSize => rivet.series().next_size(rivet.size()).and_then(|size| rivet.in_size(size)),
            Disposition::Refer => None,
        };
        larger.map(|larger| self.practice.rivet(larger))
    }

    /// Fills in one step.
    #[inline(never)]
    fn try_step(&self, found: AsFound, before: &mut CarriedBefore, step: &mut Step<'a>) {
        let Some(rivet) = self.rivet_of(step.kind) else {
            step.findings.push(Finding::new(Code::NoLargerRivet, Severity::Refer, self.rivet.series().basis));
            return;
        };
        match step.kind {
            Disposition::Keep => self.fill_step(rivet, found, true, before, step),
            Disposition::Oversize | Disposition::NextSize if self.takes_as_it_is(&rivet, &found) => {
                let drill_does = |cut| self.accepts(&rivet, self.hole_of(&rivet, cut));
                if !found.is_measured_both_ways() && self.cut(&rivet, &found).is_some_and(drill_does) {
                    self.fill_step(rivet, found, false, before, step);
                    if step.does() {
                        return;
                    }
                    *step = Step::new(step.kind);
                }
                self.fill_step(rivet, found, true, before, step);
            }
            _ => self.fill_step(rivet, found, false, before, step),
        }
    }

    /// Fills in a step with this rivet: in the hole as it is, or drilled.
    #[inline(never)]
    fn fill_step(
        &self,
        rivet: Part<'a>,
        found: AsFound,
        is_kept: bool,
        before: &mut CarriedBefore,
        step: &mut Step<'a>,
    ) {
        step.rivet = Some(rivet);
        self.check_step(found, step);
        let cut = if is_kept { None } else { self.cut(&rivet, &found) };
        let after = match cut {
            _ if is_kept => {
                step.hole = Some(found.interval());
                self.as_it_is(rivet, found, step.kind)
            }
            Some(cut) => {
                let hole = self.hole_of(&rivet, cut);
                (step.cut, step.hole) = (Some(cut), Some(hole));
                if found.damage() != Damage::None {
                    let off = Figure::Length(cut.diameter().minus(found.major()).times(1, 2));
                    let comes_out = Finding::new(Code::DamageComesOut, Severity::Caution, Basis::AC43_SOUND_HOLES);
                    step.findings.push(comes_out.with_measured(off));
                }
                self.drilled(rivet, hole, found)
            }
            None => {
                step.findings.push(self.no_drill(&rivet, &found));
                return;
            }
        };
        let findings = &mut step.findings;
        after.check(&mut |finding| findings.push(finding));
        let is_other = rivet != self.before();
        let compares = step.kind.is_step_up() || found.was_opened() && is_other;
        if compares {
            after.check_not_weaker(before, &mut |finding| findings.push(finding));
        }
        if step.kind.is_step_up() && rivet.series().head.is_flush() {
            let seat = Finding::new(Code::SeatForNewHead, Severity::Note, Basis::SEAT);
            let head = rivet.size().head.map(|head| Given { value: head.diameter_nominal, basis: head.basis });
            let across = self.practice.length(Name::CountersinkDiameter, &after.case()).or(head);
            let seat = across.map_or(seat, |across| {
                Finding::new(Code::SeatForNewHead, Severity::Note, across.basis)
                    .with_limit(Figure::Length(across.value))
            });
            let layer = after.stack.and_then(only_seat);
            findings.push(layer.map_or(seat, |layer| seat.in_layer(layer)));
        }
        let mut missing = after.not_given();
        if !compares {
            missing = missing.without(Fact::Material);
        }
        let one_axis = is_kept && step.kind.is_step_up() && !found.is_measured_both_ways();
        after.say_missing(missing.with_if(one_axis, Fact::MinorAxis), &mut |finding| findings.push(finding));
    }

    /// Whether the step may be taken at all: how much larger it is than what was installed, what it mends, what it is taken in.
    fn check_step(&self, found: AsFound, step: &mut Step<'a>) {
        let before = self.before();
        if step.kind == Disposition::NextSize
            && let Some(rivet) = step.rivet
            && let Some(most) = self.practice.length(Name::StepGreatest, &self.with_rivet(before).case())
        {
            let larger = rivet.size().standard_diameter().minus(before.size().standard_diameter());
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
    }

    /// Every case that an answer may look limits up for: that of the rivet, and those of the rivets that a hole may be stepped up to. For
    /// [`Practice::case_limits`](crate::practice::Practice::case_limits).
    pub fn cases(&self, each: &mut dyn FnMut(Case)) {
        let before = self.before();
        let steps = [Disposition::Oversize, Disposition::NextSize].map(|step| self.rivet_of(step));
        for rivet in [self.rivet, before] {
            each(self.case_of(&rivet, None));
            each(self.case_of(&rivet, Some(&before)));
        }
        // Not those of their own: a rivet whose case is known is taken for one of which all this was said.
        for rivet in steps.into_iter().flatten() {
            each(self.case_of(&rivet, Some(&before)));
        }
    }

    /// What limits are asked for with another rivet in the hole.
    fn case_with(&self, rivet: &Part<'a>) -> Case {
        self.case_of(rivet, Some(&self.before()))
    }

    /// Whether a sound hole is good for a rivet as it is: every shank enters, and it is not too large.
    fn takes_as_it_is(&self, rivet: &Part<'a>, found: &AsFound) -> bool {
        found.damage() == Damage::None && self.accepts(rivet, found.interval())
    }

    fn accepts(&self, rivet: &Part<'a>, hole: Interval) -> bool {
        let case = self.case_with(rivet);
        // Where the printed drill is smaller than a recalled shank, the hole that it makes will do.
        let limits = self.practice.for_case(&case);
        let drill = limits.length(Name::HoleDrill).map_or(Length::MAX, |drill| drill.value);
        let promised = limits.promised_hole();
        promised
            .is_some_and(|promised| promised.value.min().min(drill) <= hole.min() && hole.max() <= promised.value.max())
    }

    /// A rivet in the hole as found.
    #[inline(never)]
    fn kept(&self, rivet: Part<'a>, found: AsFound) -> Installation<'q, 'a> {
        Installation {
            rivet,
            hole: Some(Toleranced::from_least(found.interval())),
            installed: Some(self.before()),
            installed_layout: Some(self.layout),
            gauged: found.is_gauged(),
            // A hole that takes a step's rivet as it is was changed as much as one that was drilled for it.
            opened: self.opened || found.was_opened() || rivet != self.rivet.without_length(),
            ..*self
        }
    }

    /// A step's rivet in the hole as found. One that was not opened for it counts as wide as a drilled one may come out: a larger hole gets no
    /// milder answer than a smaller one that is drilled.
    #[inline(never)]
    fn as_it_is(&self, rivet: Part<'a>, found: AsFound, kind: Disposition) -> Installation<'q, 'a> {
        let mut kept = self.kept(rivet, found);
        if kind.is_step_up() && !found.was_opened() {
            let drilled = self.cut(&rivet, &found).map(|cut| self.hole_of(&rivet, cut));
            let promised = || self.practice.promised_hole(&self.case_with(&rivet)).map(|promised| promised.value);
            let widest = drilled.filter(|hole| self.accepts(&rivet, *hole)).or_else(promised).map(Interval::max);
            let (least, greatest) = (found.interval().min(), found.interval().max());
            let hole = Interval::of(least, widest.map_or(greatest, |widest| greatest.max(widest)));
            kept.hole = Some(Toleranced::from_least(hole));
        }
        kept
    }

    /// A rivet in the hole that was drilled for it.
    #[inline(never)]
    fn drilled(&self, rivet: Part<'a>, hole: Interval, found: AsFound) -> Installation<'q, 'a> {
        let less = |distance: Option<Length>, shift: Length| distance.map(|distance| distance.minus(shift));
        let layout = RowLayout {
            edge: less(self.layout.edge, found.shift_to_edge()),
            pitch: less(self.layout.pitch, found.shift()),
            transverse_pitch: less(self.layout.transverse_pitch, found.shift_to_edge()),
        };
        let kept = self.kept(rivet, found);
        Installation { hole: Some(Toleranced::from_least(hole)), layout, opened: true, gauged: false, ..kept }
    }

    /// The drill that makes the hole round again and takes its damage out; `None` where the practice has no limits for the rivet, and where no
    /// drill is as large.
    fn cut(&self, rivet: &Part<'a>, found: &AsFound) -> Option<Drill> {
        let case = self.case_with(rivet);
        let limits = self.practice.for_case(&case);
        let drill = limits.length(Name::HoleDrill)?;
        limits.length(Name::HoleGreatest)?;
        // What is out of round is gone with the longest axis; a score or a second hole only with more than that.
        let over = match found.damage() {
            Damage::None => Length::ZERO,
            _ => limits.length(Name::CleanUpLeast).map_or(Length::ZERO, |over| over.value),
        };
        Drill::nearest_at_or_above(drill.value.max(found.major().plus(over)))
    }

    fn no_drill(&self, rivet: &Part<'a>, found: &AsFound) -> Finding {
        let limits = HoleLimits::of(self.practice, &self.case_with(rivet));
        match limits.greatest.filter(|greatest| found.major() > greatest.value) {
            Some(greatest) => Finding::against(Code::HoleOverLimit, Severity::Refer, found.major(), &greatest),
            None => no_hole_limit(),
        }
    }

    /// The hole that a drill leaves: larger than it by no more than the practice's own drill leaves, and within the limits where it can be.
    fn hole_of(&self, rivet: &Part<'a>, cut: Drill) -> Interval {
        let case = self.case_with(rivet);
        let least = cut.diameter();
        let limits = self.practice.for_case(&case);
        let over = limits.hole().map_or(Length::ZERO, |hole| hole.value.max().minus(hole.value.min()));
        let greatest = limits.length(Name::HoleGreatest).map_or(Length::MAX, |greatest| greatest.value);
        Interval::of(least, least.plus(over).min(greatest).max(least))
    }
}

const LADDER: [Disposition; MAX_STEPS] =
    [Disposition::Keep, Disposition::CleanUp, Disposition::Oversize, Disposition::NextSize];

/// The layer that takes the head, where only one is countersunk or dimpled.
fn only_seat(stack: &Stack) -> Option<u8> {
    let mut seats = (1..).zip(stack.layers()).filter(|(_, layer)| layer.preparation != Preparation::Plain);
    let (number, _) = seats.next()?;
    seats.next().is_none().then_some(number)
}

/// What no rivet mends.
fn beyond_repair(found: AsFound) -> Option<Finding> {
    let code = match found.damage() {
        Damage::Cracked => Code::HoleCracked,
        Damage::Corroded => Code::HoleDamaged,
        _ => return None,
    };
    Some(Finding::new(code, Severity::Refer, Basis::AC43_SOUND_HOLES).with_measured(Figure::Length(found.major())))
}
