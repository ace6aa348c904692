//! A hole as it was found, and what to do about it.
//!
//! The ladder is climbed from the least change: keep the hole; clean it up for the same rivet; take the same rivet with an oversize
//! shank; take the next larger diameter; refer. Every step is checked again for what a larger rivet changes: edge distance, pitch,
//! countersink or dimple, strength, and whether a rivet of some length still makes a sound head. Each step that does not do says why.
//!
//! An elongated hole that is opened up until it is round again has moved: its centre lies in the middle of the elongation, half
//! the difference of both axes from where it was. Every distance is taken that much shorter.

use crate::basis::Basis;
use crate::drill::Drill;
use crate::finding::{Code, Figure, Finding, Findings, Severity, Sink};
use crate::joint::compare::compare_into;
use crate::joint::pack::carried_through;
use crate::layout::{RowLayout, check_edge_into, check_pitch_into};
use crate::length::{Interval, Length, Toleranced};
use crate::practice::{Case, Given, Name, Practice};
use crate::rivet::part::Part;
use crate::select::LengthQuery;
use crate::stack::{Preparation, Stack};
use crate::structure::Member;
use crate::upset::FitError;

crate::words::words! {
    /// What is wrong with a hole besides its size.
    #[derive(Default)]
    #[non_exhaustive]
    Damage, "damage" {
        #[default] None = 1, "sound", "It is sound.";
        Cracked = 2, "cracked", "A crack starts from it.";
        Corroded = 3, "corroded", "Its wall is corroded.";
        FigureEight = 4, "figure-eight", "It was drilled twice, side by side; the major axis goes over both.";
        Gouged = 5, "gouged", "Its wall is scored; the major axis goes over the score.";
        DeepCountersink = 6, "deep-countersink", "Its countersink is too deep or too wide for the head.";
    }
}

crate::words::words! {
    /// Which way a hole is longer than wide.
    Direction, "direction" {
        Along = 1, "along", "Along the nearest edge.";
        Across = 2, "across", "Across it: towards the edge and away from it.";
    }
}

crate::words::errors! {
    /// Why measures are not those of a hole.
    AsFoundError {
        NotPositive = 70, "hole-not-positive", "An axis is zero or less.",
            "a hole needs a diameter above zero; right would be .1285";
        AxesSwapped = 71, "hole-axes-swapped", "The minor axis is longer than the major one.",
            "the minor axis is longer than the major one; enter the longer one as major";
    }
}

/// A hole as it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct AsFound {
    major: Length,
    minor: Length,
    damage: Damage,
}

impl AsFound {
    /// A hole with both axes measured.
    ///
    /// # Errors
    /// [`AsFoundError`] when these are no measures of a hole.
    pub fn new(major: Length, minor: Length, damage: Damage) -> Result<AsFound, AsFoundError> {
        if minor <= Length::ZERO {
            Err(AsFoundError::NotPositive)
        } else if minor > major {
            Err(AsFoundError::AxesSwapped)
        } else {
            Ok(AsFound { major, minor, damage })
        }
    }

    /// The longest axis.
    #[must_use]
    pub const fn major(&self) -> Length {
        self.major
    }

    /// The shortest axis; the same as the major one for a round hole.
    #[must_use]
    pub const fn minor(&self) -> Length {
        self.minor
    }

    /// What else is wrong with it.
    #[must_use]
    pub const fn damage(&self) -> Damage {
        self.damage
    }

    /// How far its centre has moved, at most.
    #[must_use]
    pub const fn shift(&self) -> Length {
        self.major.minus(self.minor).times(1, 2)
    }
}

crate::words::words! {
    /// What becomes of a hole.
    Disposition, "disposition" {
        Keep = 1, "keep", "Keep the hole as it is.";
        CleanUp = 2, "clean-up", "Clean up the hole: drill or ream it for the same rivet.";
        Oversize = 3, "oversize", "Open the hole for an oversize shank.";
        NextSize = 4, "next-size", "Open the hole for the next larger diameter.";
        Refer = 5, "refer", "Stop and refer.";
    }
}

impl Disposition {
    /// Whether the hole takes a larger rivet than before.
    #[must_use]
    pub const fn is_step_up(self) -> bool {
        matches!(self, Disposition::Oversize | Disposition::NextSize)
    }
}

/// One rung of the ladder.
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
    /// What was found; the step does when nothing in it says refer.
    pub findings: Findings,
}

impl<'a> Step<'a> {
    /// Where a step is filled in, for [`HoleQuery::climb`].
    #[must_use]
    pub const fn nothing_yet() -> Step<'a> {
        Step { kind: Disposition::Refer, rivet: None, cut: None, hole: None, findings: Findings::new() }
    }

    fn clear(&mut self, kind: Disposition) {
        (self.kind, self.rivet, self.cut, self.hole) = (kind, None, None, None);
        self.findings.clear();
    }

    /// Whether the step can be taken.
    #[must_use]
    pub fn does(&self) -> bool {
        self.rivet.is_some() && !self.findings.must_refer()
    }
}

/// Where a ladder ended; made by [`HoleQuery::climb`].
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Climbed {
    /// What to do; the last step tried says how, unless it is to refer.
    pub disposition: Disposition,
    /// Why the hole is referred, where it is.
    pub finding: Option<Finding>,
}

/// Rungs below refer.
pub const MAX_STEPS: usize = 4;

/// The verdict on a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleJudgement<'a> {
    /// What to do.
    pub disposition: Disposition,
    /// Each step tried, from the least change on; the last one does unless the verdict is to refer.
    pub steps: heapless::Vec<Step<'a>, MAX_STEPS>,
    /// What holds for the verdict itself; why each step before it does not do stands with the step.
    pub findings: Findings,
}

impl<'a> HoleJudgement<'a> {
    /// Where a verdict is filled in, for [`HoleQuery::judge_into`].
    #[must_use]
    pub const fn nothing_yet() -> HoleJudgement<'a> {
        HoleJudgement { disposition: Disposition::Refer, steps: heapless::Vec::new(), findings: Findings::new() }
    }

    fn clear(&mut self) {
        self.disposition = Disposition::Refer;
        self.steps.clear();
        self.findings.clear();
    }

    /// The same hole, referred for a reason that lies outside it: its pattern takes no more steps.
    pub fn refer(&mut self, finding: Finding) {
        self.disposition = Disposition::Refer;
        self.findings.push(finding);
    }

    /// The step that does.
    #[must_use]
    pub fn chosen(&self) -> Option<&Step<'a>> {
        self.steps.last().filter(|step| step.kind == self.disposition)
    }
}

/// The limits of the hole for a rivet, which a hole gauge is made to. `None` where the practice gives no such limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HoleLimits {
    /// The smallest: the end of the gauge that goes in. Where no least hole is given it is the drill's.
    pub least: Option<Given<Length>>,
    /// The largest: the end of the gauge that does not go in is just above it.
    pub greatest: Option<Given<Length>>,
}

impl HoleLimits {
    /// What the practice says for this case.
    ///
    /// ```
    /// use shophead::hole::HoleLimits;
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::Head;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(6));
    /// let limits = HoleLimits::of(&PROCESS, &case);
    /// assert_eq!(limits.least.map(|limit| limit.value), Length::parse(".093").ok());
    /// assert_eq!(limits.greatest.map(|limit| limit.value), Length::parse(".103").ok());
    /// ```
    #[must_use]
    pub fn of(practice: &Practice<'_>, case: &Case) -> HoleLimits {
        let limit = |name| practice.length(name, case);
        HoleLimits {
            least: limit(Name::HoleLeast).or_else(|| limit(Name::HoleDrill)),
            greatest: limit(Name::HoleGreatest),
        }
    }
}

/// A hole's surroundings: what decides which steps it can take.
#[derive(Clone, Copy, Debug)]
pub struct HoleQuery<'q, 'a> {
    /// The rivet that is to go in; its length does not matter.
    pub rivet: Part<'a>,
    /// The layers, where known. Without them no length is tried, no countersink and no strength is checked, and a finding says so.
    pub stack: Option<&'q Stack>,
    /// Distances, where known. An unknown one is not checked, and a finding says so.
    pub layout: RowLayout,
    /// How many rows the pattern has.
    pub rows: u8,
    /// The member that the row runs along.
    pub member: Member,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'q, 'a> HoleQuery<'q, 'a> {
    fn case_of(&self, rivet: &Part<'_>) -> Case {
        Case::of(rivet.series().head, rivet.alloy(), rivet.size()).in_rows(self.rows)
    }

    /// Judges a hole: climbs the ladder until a step does.
    ///
    /// ```
    /// use shophead::hole::{AsFound, Damage, Disposition, HoleQuery};
    /// use shophead::layout::RowLayout;
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::material::Material;
    /// use shophead::practice::HANDBOOK;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::{Layer, Stack};
    /// use shophead::structure::Member;
    /// let material = Some(Material::parse("clad 2024-T3")?);
    /// let mut stack = Stack::new();
    /// for thickness in [".032", ".040"] {
    ///     stack.push(Layer { material, ..Layer::of(Toleranced::parse(thickness)?) })?;
    /// }
    /// let query = HoleQuery {
    ///     rivet: Part::parse("MS20470AD4")?,
    ///     stack: Some(&stack),
    ///     layout: RowLayout { edge: Some(Length::parse("3/8")?), pitch: Some(Length::parse("3/4")?), ..RowLayout::default() },
    ///     rows: 1,
    ///     member: Member::Skin,
    ///     practice: &HANDBOOK,
    /// };
    /// let found = AsFound::new(Length::parse(".141")?, Length::parse(".130")?, Damage::None)?;
    /// let verdict = query.judge(found);
    /// assert_eq!(verdict.disposition, Disposition::Oversize);
    /// let step = verdict.chosen().unwrap();
    /// assert_eq!(step.rivet.unwrap().to_string(), "NAS1242AD4");
    /// assert_eq!(step.cut.unwrap().to_string(), "#27");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn judge(&self, found: AsFound) -> HoleJudgement<'a> {
        let mut verdict = HoleJudgement::nothing_yet();
        self.judge_into(found, &mut verdict);
        verdict
    }

    /// As [`HoleQuery::judge`], into a verdict that the caller keeps: a verdict is three kilobytes, and one returned by value stands on the
    /// stack twice.
    pub fn judge_into(&self, found: AsFound, verdict: &mut HoleJudgement<'a>) {
        verdict.clear();
        if let Some(finding) = beyond_repair(found) {
            verdict.findings.push(finding);
            return;
        }
        for (kind, rung) in HoleQuery::ladder() {
            // As many places as rungs.
            let Some(step) = begin(&mut verdict.steps, kind) else { break };
            rung(self, found, step);
            if step.does() {
                verdict.findings.extend(&step.findings);
                verdict.disposition = kind;
                return;
            }
        }
        verdict.findings.push(over_every_limit(found));
    }

    /// As [`HoleQuery::judge`], for little memory: hands out each step when it was tried, all in the same place, and keeps none of them.
    ///
    /// ```
    /// use shophead::hole::{AsFound, Damage, Disposition, HoleQuery, Step};
    /// use shophead::layout::RowLayout;
    /// use shophead::length::Length;
    /// use shophead::practice::HANDBOOK;
    /// use shophead::rivet::part::Part;
    /// use shophead::structure::Member;
    /// let query = HoleQuery {
    ///     rivet: Part::parse("MS20470AD4")?,
    ///     stack: None,
    ///     layout: RowLayout::default(),
    ///     rows: 1,
    ///     member: Member::Skin,
    ///     practice: &HANDBOOK,
    /// };
    /// let found = AsFound::new(Length::parse(".141")?, Length::parse(".130")?, Damage::None)?;
    /// let mut tried = Vec::new();
    /// let climbed = query.climb(found, &mut Step::nothing_yet(), &mut |step| tried.push(step.kind));
    /// assert_eq!(tried, [Disposition::Keep, Disposition::CleanUp, Disposition::Oversize]);
    /// assert_eq!(climbed.disposition, Disposition::Oversize);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn climb(&self, found: AsFound, step: &mut Step<'a>, tried: &mut dyn FnMut(&Step<'a>)) -> Climbed {
        if let Some(finding) = beyond_repair(found) {
            return Climbed { disposition: Disposition::Refer, finding: Some(finding) };
        }
        for (kind, rung) in HoleQuery::ladder() {
            step.clear(kind);
            rung(self, found, step);
            tried(step);
            if step.does() {
                return Climbed { disposition: kind, finding: None };
            }
        }
        Climbed { disposition: Disposition::Refer, finding: Some(over_every_limit(found)) }
    }

    const fn ladder() -> [Rung<'q, 'a>; MAX_STEPS] {
        [
            (Disposition::Keep, HoleQuery::keep),
            (Disposition::CleanUp, HoleQuery::clean_up),
            (Disposition::Oversize, HoleQuery::oversize),
            (Disposition::NextSize, HoleQuery::next_size),
        ]
    }

    /// The step to the next larger diameter by itself, for a hole that a notched shank came out of.
    #[must_use]
    pub fn step_to_next_size(&self, found: AsFound) -> Step<'a> {
        let mut step = Step::nothing_yet();
        step.clear(Disposition::NextSize);
        self.next_size(found, &mut step);
        step
    }

    // Each rung fills in its step where it stands in the verdict, and what takes much stack is kept out of line: a step with its
    // findings is the better part of a kilobyte, a strength three.

    fn keep(&self, found: AsFound, step: &mut Step<'a>) {
        let case = self.case_of(&self.rivet);
        let findings = &mut step.findings;
        if found.damage != Damage::None {
            findings.push(Finding::new(Code::HoleDamaged, Severity::Refer, Basis::AC43_SOUND_HOLES));
        }
        self.hold_against_greatest(found.major, &case, findings);
        if let Some(least) = HoleLimits::of(self.practice, &case).least
            && found.minor < least.value
        {
            findings.push(Finding::against(Code::HoleUnderLimit, Severity::Refer, found.minor, &least));
        }
        // An edge distance that was always short is the pattern's; it does not condemn the hole, but it has to be said.
        if let Some(edge) = self.layout.edge {
            check_edge_into(edge.minus(found.shift()), &case, self.practice, &mut |finding| {
                findings.push(finding.at_most(Severity::Caution));
            });
        }
        let hole = Interval { min: found.minor, max: found.major };
        self.check_length(&self.rivet, hole, findings);
        step.rivet = Some(self.rivet);
        step.hole = Some(hole);
    }

    fn clean_up(&self, found: AsFound, step: &mut Step<'a>) {
        if found.damage == Damage::DeepCountersink {
            step.findings.push(Finding::new(Code::HoleDamaged, Severity::Refer, Basis::AC43_SOUND_HOLES));
        }
        self.opened(self.rivet, found, step);
    }

    fn oversize(&self, found: AsFound, step: &mut Step<'a>) {
        if found.damage == Damage::DeepCountersink {
            step.findings.push(Finding::new(Code::HoleDamaged, Severity::Refer, Basis::AC43_SOUND_HOLES));
        }
        let series = self.rivet.series().oversize_series;
        self.stepped(series.and_then(|series| self.rivet.in_series(series)), found, step);
    }

    fn next_size(&self, found: AsFound, step: &mut Step<'a>) {
        let size = self.rivet.series().next_size(self.rivet.size());
        self.stepped(size.and_then(|size| self.rivet.in_size(size)), found, step);
    }

    /// A step to a larger rivet.
    fn stepped(&self, rivet: Option<Part<'a>>, found: AsFound, step: &mut Step<'a>) {
        let Some(rivet) = rivet else {
            step.findings.push(Finding::new(Code::NoLargerRivet, Severity::Refer, self.rivet.series().basis));
            return;
        };
        if matches!(self.member, Member::SparCap | Member::Longeron | Member::Stringer) {
            step.findings.push(Finding::new(Code::StepNeedsApproval, Severity::Refer, Basis::AC43_APPROVAL));
        }
        let case = self.case_of(&rivet);
        self.check_distances(&case, found, &mut step.findings);
        self.check_seat(&rivet, &case, &mut step.findings);
        self.opened(rivet, found, step);
        self.compare_strength(found, step);
    }

    #[inline(never)]
    fn check_distances(&self, case: &Case, found: AsFound, findings: &mut Findings) {
        let moved = |distance: Length| distance.minus(found.shift());
        match self.layout.edge {
            Some(edge) => check_edge_into(moved(edge), case, self.practice, &mut |finding| findings.push(finding)),
            None => findings.push(Finding::new(Code::NotChecked, Severity::Caution, Basis::EDGE_NOT_GIVEN)),
        }
        match self.layout.pitch {
            Some(pitch) => check_pitch_into(moved(pitch), case, self.practice, &mut |finding| findings.push(finding)),
            None => findings.push(Finding::new(Code::NotChecked, Severity::Caution, Basis::PITCH_NOT_GIVEN)),
        }
    }

    /// The hole opened up until it is round, for a rivet.
    fn opened(&self, rivet: Part<'a>, found: AsFound, step: &mut Step<'a>) {
        step.rivet = Some(rivet);
        let findings = &mut step.findings;
        let case = self.case_of(&rivet);
        let drill = self.practice.length(Name::HoleDrill, &case);
        let greatest = self.practice.length(Name::HoleGreatest, &case);
        let (Some(drill), Some(greatest)) = (drill, greatest) else {
            findings.push(no_hole_limit());
            return;
        };
        // Opening up removes what is out of round and what is scored: the new hole goes over the longest axis.
        let cut = Drill::nearest_at_or_above(drill.value.max(found.major));
        let Some(cut) = cut else {
            findings.push(Finding::against(Code::HoleOverLimit, Severity::Refer, found.major, &greatest));
            return;
        };
        self.hold_against_greatest(cut.diameter(), &case, findings);
        let hole = Interval { min: cut.diameter(), max: greatest.value.max(cut.diameter()) };
        self.check_length(&rivet, hole, findings);
        step.cut = Some(cut);
        step.hole = Some(hole);
    }

    fn hold_against_greatest(&self, diameter: Length, case: &Case, findings: &mut Findings) {
        match self.practice.length(Name::HoleGreatest, case) {
            Some(greatest) if diameter <= greatest.value => findings.push_some(Finding::from_memory(&greatest)),
            Some(greatest) => {
                findings.push(Finding::against(Code::HoleOverLimit, Severity::Refer, diameter, &greatest));
            }
            None => findings.push(no_hole_limit()),
        }
    }

    /// Whether a rivet of some length fills this hole and makes a sound head.
    #[inline(never)]
    fn check_length(&self, rivet: &Part<'a>, hole: Interval, findings: &mut Findings) {
        let Some(stack) = self.stack else {
            findings.push(Finding::new(Code::NotChecked, Severity::Caution, Basis::LAYERS_NOT_GIVEN));
            return;
        };
        let query = LengthQuery {
            series: rivet.series(),
            alloy: rivet.alloy(),
            size: rivet.size(),
            grip: stack.grip(),
            hole: Toleranced::from_least(hole),
            practice: self.practice,
        };
        match query.refusal() {
            Ok(refusal) => findings.push_some(refusal),
            // What is not known of the rivet is not invented: the standard has to be opened.
            Err(error) => {
                let unknown = &rivet.series().unknown;
                let basis = match error {
                    FitError::HeadNotKnown => unknown.head,
                    FitError::ShankNotKnown => unknown.shank,
                    _ => unknown.fit,
                };
                findings.push(Finding::new(Code::NoLimit, Severity::Refer, basis));
            }
        }
    }

    /// Whether the sheets still take the head.
    #[inline(never)]
    fn check_seat(&self, rivet: &Part<'a>, case: &Case, findings: &mut Findings) {
        if !rivet.series().head.is_flush() {
            return;
        }
        let Some(height) = rivet.size().head_height_nominal() else {
            findings.push(Finding::new(Code::NoLimit, Severity::Refer, rivet.series().unknown.head));
            return;
        };
        if let Some(stack) = self.stack {
            check_seat_into(stack, height, case, self.practice, &mut |finding| findings.push(finding));
        }
    }

    /// The new rivet in its new hole against the old one in a sound hole.
    #[inline(never)]
    fn compare_strength(&self, found: AsFound, step: &mut Step<'a>) {
        let (Some(rivet), Some(hole), Some(edge), Some(stack)) = (step.rivet, step.hole, self.layout.edge, self.stack)
        else {
            return;
        };
        let (pitch, shift) = (self.layout.pitch, found.shift());
        let before = carried_through(&self.rivet, stack, edge, None, pitch);
        let moved = pitch.map(|pitch| pitch.minus(shift));
        let after = carried_through(&rivet, stack, edge.minus(shift), Some(hole.max), moved);
        let (Ok((before, _)), Ok((after, below_table))) = (before, after) else {
            step.findings.push(Finding::new(Code::StrengthNotPublished, Severity::Caution, Basis::AC43_NEXT_SIZE));
            return;
        };
        compare_into(&before, &after, &mut |finding| {
            // The circular allows the next size without a published strength; that it could not be shown has to be said.
            step.findings.push(match finding.code() {
                Code::StrengthNotPublished => finding.at_most(Severity::Caution),
                _ => finding,
            });
        });
        step.findings.push_some(below_table);
    }
}

/// A rung of the ladder: what it is, and what fills in its step.
type Rung<'q, 'a> = (Disposition, fn(&HoleQuery<'q, 'a>, AsFound, &mut Step<'a>));

/// A step that nothing was found of yet, at its place in the verdict.
#[inline(never)]
fn begin<'s, 'a>(steps: &'s mut heapless::Vec<Step<'a>, MAX_STEPS>, kind: Disposition) -> Option<&'s mut Step<'a>> {
    steps.push(Step::nothing_yet()).ok()?;
    let step = steps.last_mut()?;
    step.kind = kind;
    Some(step)
}

/// What no rivet mends.
fn beyond_repair(found: AsFound) -> Option<Finding> {
    let code = match found.damage {
        Damage::Cracked => Code::HoleCracked,
        Damage::Corroded => Code::HoleDamaged,
        _ => return None,
    };
    Some(Finding::new(code, Severity::Refer, Basis::AC43_SOUND_HOLES))
}

fn over_every_limit(found: AsFound) -> Finding {
    Finding::new(Code::HoleOverLimit, Severity::Refer, Basis::AC43_NEXT_SIZE).with_measured(Figure::Length(found.major))
}

fn no_hole_limit() -> Finding {
    Finding::new(Code::NoLimit, Severity::Refer, Basis::NO_HOLE)
}

/// Whether the sheets that are countersunk or dimpled take a flush head of this height.
#[must_use]
pub fn check_seat(stack: &Stack, head_height: Length, case: &Case, practice: &Practice<'_>) -> Findings {
    let mut findings = Findings::new();
    check_seat_into(stack, head_height, case, practice, &mut |finding| findings.push(finding));
    findings
}

#[inline(never)]
fn check_seat_into(stack: &Stack, head_height: Length, case: &Case, practice: &Practice<'_>, push: &mut Sink<'_>) {
    for (layer, number) in stack.layers().iter().zip(1_u8..) {
        let sheet = layer.thickness.nominal();
        let mut hold = |code, severity, basis, limit| {
            push(Finding::against(code, severity, sheet, &Given { value: limit, basis }).in_layer(number));
        };
        match layer.preparation {
            Preparation::Plain => {}
            Preparation::Countersunk => {
                // The sheet that a head needs: its height over the share of the sheet that it may take.
                for (name, severity) in [
                    (Name::CountersinkDepthShare, Severity::Refer),
                    (Name::CountersinkDepthPreferred, Severity::Caution),
                ] {
                    if let Some(share) = practice.fraction(name, case) {
                        let needed = head_height.times(share.value.1, share.value.0);
                        if sheet < needed {
                            hold(Code::CountersinkTooDeep, severity, share.basis, needed);
                            break;
                        }
                    }
                }
                if let Some(least) = practice.length(Name::CountersinkSheetLeast, case)
                    && sheet < least.value
                {
                    hold(Code::CountersinkTooDeep, Severity::Refer, least.basis, least.value);
                }
            }
            Preparation::Dimpled => {
                if let Some(greatest) = practice.length(Name::DimpleSheetGreatest, case)
                    && sheet > greatest.value
                {
                    hold(Code::DimpleTooThick, Severity::Caution, greatest.basis, greatest.value);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::Material;
    use crate::practice::HANDBOOK;
    use crate::stack::Layer;

    fn length(text: &str) -> Length {
        Length::parse(text).expect(text)
    }

    fn stack(layers: &[(&str, Preparation)]) -> Stack {
        let mut stack = Stack::new();
        for (thickness, preparation) in layers {
            let material = Some(Material::parse("clad 2024-T3").expect("a material"));
            let thickness = Toleranced::parse(thickness).expect("a thickness");
            stack.push(Layer { material, preparation: *preparation, ..Layer::of(thickness) }).expect("room");
        }
        stack
    }

    fn query<'q>(rivet: &str, stack: &'q Stack, edge: &str, member: Member) -> HoleQuery<'q, 'static> {
        HoleQuery {
            rivet: Part::parse(rivet).expect(rivet),
            stack: Some(stack),
            layout: RowLayout { edge: Some(length(edge)), pitch: Some(length("3/4")), ..RowLayout::default() },
            rows: 1,
            member,
            practice: &HANDBOOK,
        }
    }

    fn found(major: &str, minor: &str, damage: Damage) -> AsFound {
        AsFound::new(length(major), length(minor), damage).expect("a hole")
    }

    #[test]
    fn climbs_the_ladder_rung_by_rung() {
        let stack = stack(&[(".040", Preparation::Plain), (".050", Preparation::Plain)]);
        let query = query("MS20470AD4", &stack, "1/2", Member::Skin);
        for (major, minor, damage, disposition, cut) in [
            (".1285", ".1285", Damage::None, Disposition::Keep, None),
            (".132", ".1285", Damage::None, Disposition::Keep, None),
            (".120", ".120", Damage::None, Disposition::CleanUp, Some("#30")),
            (".1285", ".1285", Damage::Gouged, Disposition::CleanUp, Some("#30")),
            (".1321", ".129", Damage::None, Disposition::Oversize, Some("#27")),
            (".150", ".130", Damage::FigureEight, Disposition::NextSize, Some("#21")),
            (".170", ".130", Damage::None, Disposition::Refer, None),
            (".1285", ".1285", Damage::Cracked, Disposition::Refer, None),
            (".1285", ".1285", Damage::DeepCountersink, Disposition::NextSize, Some("#21")),
        ] {
            let verdict = query.judge(found(major, minor, damage));
            assert_eq!(verdict.disposition, disposition, "{major} {damage:?} {:?}", verdict.steps);
            let expected = cut.map(|cut| Drill::parse(cut).expect(cut));
            assert_eq!(verdict.chosen().and_then(|step| step.cut), expected, "{major}");
            assert!(verdict.steps.iter().rev().skip(1).all(|step| !step.does()), "every step before the last says why");
        }
    }

    #[test]
    fn the_centre_moves_with_the_elongation() {
        let stack = stack(&[(".040", Preparation::Plain), (".050", Preparation::Plain)]);
        // 2 D of the oversize shank is .28125; the elongation of .010 takes .005 off the edge distance.
        let at = |edge| query("MS20470AD4", &stack, edge, Member::Skin).judge(found(".140", ".130", Damage::None));
        assert_eq!(at(".28625").disposition, Disposition::Oversize);
        let short = at(".2862");
        assert!(
            short
                .steps
                .iter()
                .any(|step| { step.kind == Disposition::Oversize && step.findings.has(Code::EdgeDistanceShort) })
        );
        assert_eq!(short.disposition, Disposition::Refer);
    }

    #[test]
    fn a_spar_cap_is_not_stepped_up_without_approval() {
        let stack = stack(&[(".040", Preparation::Plain), (".125", Preparation::Plain)]);
        let verdict = query("MS20470AD5", &stack, "1/2", Member::SparCap).judge(found(".170", ".160", Damage::None));
        assert_eq!(verdict.disposition, Disposition::Refer);
        assert!(verdict.steps.iter().skip(2).all(|step| step.findings.has(Code::StepNeedsApproval)));
    }

    #[test]
    fn a_thin_countersunk_skin_cannot_take_the_next_head() {
        let stack = stack(&[(".050", Preparation::Countersunk), (".063", Preparation::Plain)]);
        let verdict = query("MS20426AD4", &stack, "1/2", Member::Skin).judge(found(".150", ".140", Damage::None));
        let next = verdict.steps.iter().find(|step| step.kind == Disposition::NextSize).expect("tried");
        assert!(next.findings.has(Code::CountersinkTooDeep));
        assert_eq!(verdict.disposition, Disposition::Refer);
    }

    #[test]
    fn measures_that_are_no_hole_are_refused() {
        assert_eq!(AsFound::new(length(".1"), length(".2"), Damage::None), Err(AsFoundError::AxesSwapped));
        assert_eq!(AsFound::new(length(".1"), Length::ZERO, Damage::None), Err(AsFoundError::NotPositive));
    }
}
