//! The plan of a job: what goes into every row and hole, from which position, in which order it comes out.
//!
//! Everything here is asked of the core; this module only keeps the answers together and says which row or hole they belong to.

use shophead::access::{Clearance, SolidBecause, cannot_buck, solid_required};
use shophead::basis::Basis;
use shophead::drill::Drill;
use shophead::finding::{Code, Finding, Findings, Severity};
use shophead::hole::{AsFound, Disposition, HoleJudgement, HoleQuery, check_pattern, check_seat};
use shophead::joint::compare::{Comparison, check_substitute, compare};
use shophead::joint::pack::strength_through;
use shophead::joint::row::{RowAsMade, RowStrength, compare_rows, row_strength, weaker};
use shophead::joint::strength::{JointStrength, Shear};
use shophead::layout::{RowLayout, check_points, check_row};
use shophead::length::{Interval, Length, Toleranced};
use shophead::practice::{Case, Given, Practice};
use shophead::removal::{Removal, removal};
use shophead::rivet::part::Part;
use shophead::select::{LengthChoice, LengthQuery, check_alloy, check_diameter};
use shophead::stack::Stack;
use shophead::upset::FitError;

use crate::model::{Job, MeasuredHole, Position, Row};

/// The plan of a job.
#[derive(Clone, Debug)]
pub struct Plan<'j> {
    /// The job.
    pub job: &'j Job,
    /// The limits that it was made with.
    pub practice: &'j Practice<'j>,
    /// One plan a row, in the order of the job.
    pub rows: Vec<RowPlan<'j>>,
    /// One a position, in the order of the job.
    pub positions: Vec<PositionPlan<'j>>,
    /// What was found about the job as a whole.
    pub findings: Vec<Finding<'j>>,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject<'j> {
    /// The whole job.
    Job,
    /// A row.
    Row(&'j str),
    /// A hole of a row.
    Hole(&'j str, u32),
}

impl std::fmt::Display for Subject<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Subject::Job => f.write_str("job"),
            Subject::Row(row) => write!(f, "row {row}"),
            Subject::Hole(row, hole) => write!(f, "row {row} hole {hole}"),
        }
    }
}

/// A rivet with the length chosen for it.
#[derive(Clone, Debug)]
pub struct Choice<'j> {
    /// The rivet; without length where none fits.
    pub part: Part<'j>,
    /// The hole that was counted on.
    pub hole: Given<'j, Interval>,
    /// How the length was chosen; an error where the rivet's dimensions are not known or the head is deeper than the pack.
    pub length: Result<LengthChoice<'j>, FitError>,
}

impl Choice<'_> {
    /// Whether there is a rivet to order.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.part.length().is_some()
    }

    /// The longest that the tail stands out before driving; where no length was found, that of the rule of thumb.
    fn longest_tail(&self, grip: Toleranced) -> Option<Length> {
        let choice = self.length.as_ref().ok()?;
        match choice.protrusion {
            Some(protrusion) => Some(protrusion.max),
            None => choice.rule_of_thumb_length.checked_sub(grip.min()),
        }
    }
}

/// The plan of one row.
#[derive(Clone, Debug)]
pub struct RowPlan<'j> {
    /// The row.
    pub row: &'j Row,
    /// Its distances: as the job gives them, the pitch from the points where it gives those instead.
    pub layout: RowLayout,
    /// What goes into most of its holes.
    pub choice: Choice<'j>,
    /// Why it takes driven solid rivets only, if it does.
    pub solid: Option<Given<'static, SolidBecause>>,
    /// What was done about the hole of the whole row, where the job gives one.
    pub judgement: Option<HoleJudgement<'j>>,
    /// What one rivet carries; `None` where that cannot be asked (no edge distance, fewer than two layers).
    pub strength: Option<JointStrength<'static>>,
    /// The new rivet against the one it replaces, where it is not the same.
    pub comparison: Option<Comparison<'static>>,
    /// The whole row, as installed and as planned.
    pub before_and_after: Result<BeforeAndAfter, NotCompared>,
    /// The holes that were measured or that differ, by rising number.
    pub holes: Vec<HolePlan<'j>>,
    /// How to take the installed rivets out.
    pub removal: Removal<'j>,
    /// What was found about the row as a whole.
    pub findings: Vec<Finding<'j>>,
}

/// What a row carries an inch, as installed and as planned.
///
/// Holes of the row that are stepped up are counted on the safe side: as if every hole of the row were like the weakest of them. Holes
/// that are referred have no rivet yet and do not count, and neither do holes with layers of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct BeforeAndAfter {
    /// As installed, in sound nominal holes.
    pub before: RowStrength<'static>,
    /// As planned.
    pub after: RowStrength<'static>,
    /// After over before; 1 where nothing that counts changes, `None` where a strength is not published.
    pub ratio: Option<f64>,
    /// Whether rivet or holes change.
    pub changed: bool,
    /// How many holes of the row are stepped up and counted as said above.
    pub stepped: u32,
}

/// Why a row as installed cannot be held against the row as planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotCompared {
    /// The job gives no edge distance.
    NoEdge,
    /// The job gives no pitch.
    NoPitch,
    /// As installed or as planned it is no joint that can be worked out, such as a single layer.
    NoJoint,
}

impl NotCompared {
    /// The word used in output.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            NotCompared::NoEdge => "no-edge",
            NotCompared::NoPitch => "no-pitch",
            NotCompared::NoJoint => "no-joint",
        }
    }
}

/// The plan of one hole that was measured or that differs from its row.
#[derive(Clone, Debug)]
pub struct HolePlan<'j> {
    /// Its number.
    pub number: u32,
    /// What the job says about it; empty where it says nothing.
    pub about: &'j str,
    /// What was measured.
    pub measured: Option<&'j MeasuredHole>,
    /// What to do about it.
    pub judgement: Option<HoleJudgement<'j>>,
    /// The layers under it.
    pub stack: &'j Stack,
    /// What goes into it; `None` when it has to be referred.
    pub choice: Option<Choice<'j>>,
    /// How to take the installed rivet out, where that is not as in the row.
    pub removal: Option<Removal<'j>>,
    /// What was found about it.
    pub findings: Vec<Finding<'j>>,
}

impl HolePlan<'_> {
    /// What to do about it; a hole that was not measured is kept.
    #[must_use]
    pub fn disposition(&self) -> Disposition {
        self.judgement.as_ref().map_or(Disposition::Keep, |judgement| judgement.disposition)
    }

    /// The drill or reamer to open it with.
    #[must_use]
    pub fn cut(&self) -> Option<Drill> {
        self.judgement.as_ref().and_then(HoleJudgement::chosen).and_then(|step| step.cut)
    }

    /// Whether the mechanic does anything here that the row does not say.
    #[must_use]
    pub fn differs_from(&self, row: &RowPlan<'_>) -> bool {
        self.disposition() != Disposition::Keep
            || self.choice.as_ref().is_none_or(|choice| choice.part != row.choice.part)
            || self.removal.is_some()
            || self.findings.iter().any(|finding| finding.severity >= Severity::Caution)
    }
}

/// What a work position allows.
#[derive(Clone, Debug)]
pub struct PositionPlan<'j> {
    /// The position.
    pub position: &'j Position,
    /// What stops each row from being bucked, in the order of the rows; `None` where nothing does.
    pub blocked: Vec<Option<Finding<'j>>>,
    /// Whether every row that takes driven rivets only can be bucked.
    pub serves: bool,
}

/// How many of what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Counts {
    /// Rows.
    pub rows: u32,
    /// Holes.
    pub holes: u32,
    /// Holes that were measured.
    pub measured: u32,
    /// Measured holes that are kept as they are.
    pub keep: u32,
    /// Measured holes that are cleaned up.
    pub clean_up: u32,
    /// Measured holes that take an oversize shank.
    pub oversize: u32,
    /// Measured holes that take the next size.
    pub next_size: u32,
    /// Measured holes that are referred.
    pub refer: u32,
    /// Holes for which no rivet can be ordered yet.
    pub without_rivet: u32,
}

/// The way out of a row: how to take its rivets out, and one hole if it is about that hole only.
#[derive(Clone, Debug)]
pub struct RemovalNote<'p, 'j> {
    /// The row.
    pub row: &'p RowPlan<'j>,
    /// The hole, where the note is for one hole only.
    pub hole: Option<u32>,
    /// How.
    pub removal: &'p Removal<'j>,
}

impl<'j> Plan<'j> {
    /// Plans a job with a set of limits: the job's practice, with the job's own limits on top.
    ///
    /// ```
    /// # fn main() -> Result<(), Box<dyn std::error::Error>> {
    /// use shophead_job::model::Job;
    /// use shophead_job::plan::Plan;
    /// let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/keel-skin/job.toml");
    /// let job = Job::read(path.as_ref()).expect("the demo job reads");
    /// let own = job.own_limits.limits();
    /// let practice = job.practice.with_own(&own);
    /// let plan = Plan::make(&job, &practice);
    /// assert_eq!(plan.counts().rows as usize, job.rows.len());
    /// # Ok(())
    /// # }
    /// ```
    #[must_use]
    pub fn make(job: &'j Job, practice: &'j Practice<'j>) -> Plan<'j> {
        let rows: Vec<RowPlan<'j>> = job.rows.iter().map(|row| plan_row(row, practice)).collect();
        let positions = plan_positions(job, &rows, practice);
        let mut findings = Vec::new();
        if !positions.is_empty() && !positions.iter().any(|position| position.serves) {
            let basis = Basis::practice("rows on primary structure take driven solid rivets");
            findings.push(Finding::new(Code::NoPositionServes, Severity::Refer, basis));
        }
        Plan { job, practice, rows, positions, findings }
    }

    /// Every finding with what it is about: the job, then row by row, hole by hole.
    pub fn all_findings(&self) -> impl Iterator<Item = (Subject<'j>, &Finding<'j>)> {
        let of_job = self.findings.iter().map(|finding| (Subject::Job, finding));
        let of_rows = self.rows.iter().flat_map(|plan| {
            let name = plan.row.name.as_str();
            let own = plan.findings.iter().map(move |finding| (Subject::Row(name), finding));
            let holes = plan.holes.iter().flat_map(move |hole| {
                hole.findings.iter().map(move |finding| (Subject::Hole(name, hole.number), finding))
            });
            own.chain(holes)
        });
        of_job.chain(of_rows)
    }

    /// What stops the work: every finding that says refer.
    pub fn stops(&self) -> impl Iterator<Item = (Subject<'j>, &Finding<'j>)> {
        self.all_findings().filter(|(_, finding)| finding.severity == Severity::Refer)
    }

    /// The first position in which everything can be done.
    #[must_use]
    pub fn serving_position(&self) -> Option<&PositionPlan<'j>> {
        self.positions.iter().find(|position| position.serves)
    }

    /// How many of what.
    #[must_use]
    pub fn counts(&self) -> Counts {
        let mut counts = Counts { rows: self.rows.len() as u32, ..Counts::default() };
        for plan in &self.rows {
            counts.holes += plan.row.count;
            let special = plan.holes.len() as u32;
            if !plan.choice.is_complete() {
                counts.without_rivet += plan.row.count - special;
            }
            for hole in &plan.holes {
                let complete = hole.choice.as_ref().is_some_and(Choice::is_complete);
                counts.without_rivet += u32::from(!complete);
                if hole.measured.is_none() {
                    continue;
                }
                counts.measured += 1;
                let counter = match hole.disposition() {
                    Disposition::Keep => &mut counts.keep,
                    Disposition::CleanUp => &mut counts.clean_up,
                    Disposition::Oversize => &mut counts.oversize,
                    Disposition::NextSize => &mut counts.next_size,
                    Disposition::Refer => &mut counts.refer,
                };
                *counter += 1;
            }
        }
        counts
    }

    /// How to take the old rivets out, the most risky first; of equal risk in the order of the job.
    #[must_use]
    pub fn removals(&self) -> Vec<RemovalNote<'_, 'j>> {
        let mut notes = Vec::new();
        for row in &self.rows {
            notes.push(RemovalNote { row, hole: None, removal: &row.removal });
            for hole in &row.holes {
                if let Some(removal) = &hole.removal {
                    notes.push(RemovalNote { row, hole: Some(hole.number), removal });
                }
            }
        }
        notes.sort_by_key(|note| std::cmp::Reverse(note.removal.risks.len()));
        notes
    }
}

fn plan_row<'j>(row: &'j Row, practice: &'j Practice<'j>) -> RowPlan<'j> {
    let case = case_of(&row.rivet, row);
    let mut findings = Vec::new();
    let points = row.points.as_deref().map(|points| check_points(points, &[], &case, practice));
    let closest = points.as_ref().and_then(|points| points.closest_pair).map(|(_, _, distance)| distance);
    let layout = RowLayout { pitch: row.layout.pitch.or(closest), ..row.layout };
    let query = HoleQuery {
        rivet: row.rivet,
        stack: Some(&row.stack),
        layout,
        rows: row.rows_in_pattern,
        member: row.member,
        practice,
    };
    let judgement = row
        .hole
        .and_then(|hole| AsFound::new(hole.max(), hole.min(), shophead::hole::Damage::None).ok())
        .map(|found| query.judge(found));
    let choice = match &judgement {
        Some(judgement) => {
            push_judgement(&mut findings, judgement);
            let step = judgement.chosen();
            let rivet = step.and_then(|step| step.rivet).unwrap_or(row.rivet);
            let hole = step.and_then(|step| step.hole).or(row.hole.map(Toleranced::interval));
            let hole = hole.map(|value| Given { value, basis: Basis::shop("job file", "hole as measured") });
            choose(rivet, &row.stack, hole.unwrap_or_else(|| practice.assumed_hole(&case_of(&rivet, row))), practice)
        }
        None => choose(row.rivet, &row.stack, practice.assumed_hole(&case), practice),
    };
    push_choice(&mut findings, &choice);
    push_all(&mut findings, &check_row(row.layout, &case, practice));
    if let Some(points) = &points {
        push_all(&mut findings, &points.findings);
    }
    if let Some(thickest) = row.stack.thickest() {
        push_all(&mut findings, &check_diameter(&case, thickest, practice));
    }
    if let Some(height) = row.rivet.size().head_height_nominal() {
        push_all(&mut findings, &check_seat(&row.stack, height, &case, practice));
    }
    push_all(&mut findings, &check_alloy(&row.rivet));
    let (strength, comparison) = strengths(row, layout);
    if let Some(comparison) = &comparison {
        push_all(&mut findings, &comparison.findings);
    }
    let solid = solid_required(row.structure, row.member, &row.places);
    let mut plan = RowPlan {
        row,
        layout,
        choice,
        solid,
        judgement,
        strength,
        comparison,
        before_and_after: Err(NotCompared::NoJoint),
        holes: Vec::new(),
        removal: removal(&row.installed, &row.stack, row.layout.edge, practice),
        findings,
    };
    plan.holes = plan_holes(&plan, practice);
    let stepped = plan.holes.iter().filter(|hole| hole.disposition().is_step_up()).map(|hole| hole.number);
    push_all(&mut plan.findings, &check_pattern(stepped, row.count, practice, &case));
    push_all(&mut plan.findings, &check_substitute(&row.installed, &row.rivet));
    plan.before_and_after = before_and_after(&plan);
    push_before_and_after(&mut plan);
    plan
}

fn before_and_after(plan: &RowPlan<'_>) -> Result<BeforeAndAfter, NotCompared> {
    let row = plan.row;
    let edge = plan.layout.edge.ok_or(NotCompared::NoEdge)?;
    let pitch = plan.layout.pitch.ok_or(NotCompared::NoPitch)?;
    let made_of = |rivet: &Part<'_>, hole: Option<Length>| {
        let rows = u16::from(row.rows_in_pattern);
        let made = RowAsMade { rivet, stack: &row.stack, edge, hole, pitch, rows, shear: Shear::Single };
        row_strength(&made).map_err(|_| NotCompared::NoJoint)
    };
    let before = made_of(&row.installed.without_length(), None)?;
    let planned = plan.choice.part.without_length();
    let opened = plan.judgement.as_ref().filter(|judgement| judgement.disposition != Disposition::Keep);
    let mut after = made_of(&planned, opened.map(|_| plan.choice.hole.value.max))?;
    let mut stepped = 0;
    let own_layers = |number: u32| row.exceptions.iter().any(|exception| exception.holes.contains(&number));
    for hole in plan.holes.iter().filter(|hole| hole.disposition().is_step_up() && !own_layers(hole.number)) {
        let Some(choice) = &hole.choice else { continue };
        stepped += 1;
        after = weaker(after, made_of(&choice.part.without_length(), Some(choice.hole.value.max))?);
    }
    let changed = row.installed.without_length() != planned || opened.is_some() || stepped > 0;
    let ratio = if changed { compare_rows(&before, &after).ratio } else { Some(1.0) };
    Ok(BeforeAndAfter { before, after, ratio, changed, stepped })
}

/// A changed rivet refers as the comparison says. Where only holes change, an unpublished strength is no reason to stop: the ladder of
/// each hole has already looked at it.
fn push_before_and_after(plan: &mut RowPlan<'_>) {
    let Ok(found) = &plan.before_and_after else { return };
    if !found.changed {
        return;
    }
    let another = plan.row.installed.without_length() != plan.row.rivet.without_length();
    let told = |findings: &[Finding<'_>], code| findings.iter().any(|finding| finding.code == code);
    let comparison = compare_rows(&found.before, &found.after);
    for finding in &comparison.findings {
        let counts = another || finding.code == Code::WeakerThanBefore;
        if counts && !told(&plan.findings, finding.code) {
            plan.findings.push(*finding);
        }
    }
}

fn plan_holes<'j>(plan: &RowPlan<'j>, practice: &'j Practice<'j>) -> Vec<HolePlan<'j>> {
    let row = plan.row;
    let mut numbers: Vec<u32> = row.measured.iter().map(|hole| hole.number).collect();
    numbers.extend(row.exceptions.iter().flat_map(|exception| &exception.holes));
    numbers.sort_unstable();
    numbers.dedup();
    numbers.into_iter().map(|number| plan_hole(number, plan, practice)).collect()
}

fn plan_hole<'j>(number: u32, plan: &RowPlan<'j>, practice: &'j Practice<'j>) -> HolePlan<'j> {
    let row = plan.row;
    let measured = row.measured.iter().find(|hole| hole.number == number);
    let exception = row.exceptions.iter().find(|exception| exception.holes.contains(&number));
    let (stack, layout) = match exception {
        Some(exception) => {
            let (own, row) = (exception.layout, plan.layout);
            let layout = RowLayout {
                edge: own.edge.or(row.edge),
                pitch: own.pitch.or(row.pitch),
                transverse_pitch: own.transverse_pitch.or(row.transverse_pitch),
            };
            (&exception.stack, layout)
        }
        None => (&row.stack, plan.layout),
    };
    let rivet = plan.choice.part.without_length();
    let mut findings = Vec::new();
    let judgement = measured.map(|measured| {
        let query =
            HoleQuery { rivet, stack: Some(stack), layout, rows: row.rows_in_pattern, member: row.member, practice };
        query.judge(measured.as_found)
    });
    if let Some(judgement) = &judgement {
        push_judgement(&mut findings, judgement);
    } else {
        // Not measured, so it is here because of its layers or its edge.
        let case = case_of(&rivet, row);
        push_all(&mut findings, &check_row(layout, &case, practice));
    }
    let choice = match &judgement {
        None => Some(choose(rivet, stack, plan.choice.hole, practice)),
        Some(judgement) => judgement.chosen().and_then(|step| {
            let (part, hole) = (step.rivet?, step.hole?);
            let hole = Given { value: hole, basis: Basis::shop("job file", "hole as measured") };
            // The row's own length is kept where it does for this hole too: one length fewer to mix up.
            let same =
                exception.is_none() && part.without_length() == rivet && does_for(&plan.choice, stack, hole, practice);
            Some(if same { Choice { hole, ..plan.choice.clone() } } else { choose(part, stack, hole, practice) })
        }),
    };
    if let Some(choice) = &choice {
        push_choice(&mut findings, choice);
    }
    let removal = exception.map(|_| removal(&row.installed, stack, layout.edge, practice));
    let about = exception.map_or("", |exception| exception.about.as_str());
    HolePlan { number, about, measured, judgement, stack, choice, removal, findings }
}

fn does_for(choice: &Choice<'_>, stack: &Stack, hole: Given<'_, Interval>, practice: &Practice<'_>) -> bool {
    let Some(length) = choice.part.length() else { return false };
    let query = length_query(&choice.part, stack, hole.value, practice);
    query.assess(length).is_ok_and(|findings| !findings.must_refer())
}

fn length_query<'a>(part: &Part<'a>, stack: &Stack, hole: Interval, practice: &'a Practice<'a>) -> LengthQuery<'a> {
    LengthQuery {
        series: part.series(),
        alloy: part.alloy(),
        size: part.size(),
        grip: stack.grip(),
        hole: Toleranced::from_least(hole),
        practice,
    }
}

fn choose<'j>(part: Part<'j>, stack: &Stack, hole: Given<'j, Interval>, practice: &'j Practice<'j>) -> Choice<'j> {
    let length = length_query(&part, stack, hole.value, practice).choose();
    let chosen = length.as_ref().ok().and_then(|choice| choice.length);
    let part = chosen.and_then(|length| part.with_length(length).ok()).unwrap_or(part);
    Choice { part, hole, length }
}

/// The strength of the row's rivet, and against the installed one where it is another.
fn strengths(row: &Row, layout: RowLayout) -> (Option<JointStrength<'static>>, Option<Comparison<'static>>) {
    let Some(edge) = layout.edge else { return (None, None) };
    let of = |part: &Part<'_>| strength_through(part, &row.stack, edge, None, layout.pitch, Shear::Single, None).ok();
    let planned = of(&row.rivet);
    let changed = row.installed.without_length() != row.rivet.without_length();
    let comparison = if changed {
        of(&row.installed).zip(planned.as_ref()).map(|(before, after)| compare(&before, after))
    } else {
        None
    };
    (planned, comparison)
}

fn plan_positions<'j>(job: &'j Job, rows: &[RowPlan<'j>], practice: &'j Practice<'j>) -> Vec<PositionPlan<'j>> {
    let plan = |(index, position): (usize, &'j Position)| {
        let blocked: Vec<Option<Finding<'j>>> = rows.iter().map(|plan| blocked(plan, index, practice)).collect();
        let serves = rows.iter().zip(&blocked).all(|(plan, blocked)| plan.solid.is_none() || blocked.is_none());
        PositionPlan { position, blocked, serves }
    };
    job.positions.iter().enumerate().map(plan).collect()
}

fn blocked<'j>(plan: &RowPlan<'j>, position: usize, practice: &'j Practice<'j>) -> Option<Finding<'j>> {
    let clearance = plan.row.clearance.get(position).copied().unwrap_or(Clearance::Closed);
    let row_tail = plan.choice.longest_tail(plan.row.stack.grip());
    let hole_tails = plan.holes.iter().filter_map(|hole| hole.choice.as_ref()?.longest_tail(hole.stack.grip()));
    let tail = hole_tails.chain(row_tail).max().unwrap_or(Length::ZERO);
    cannot_buck(clearance, tail, practice, &case_of(&plan.choice.part, plan.row))
}

fn case_of(rivet: &Part<'_>, row: &Row) -> Case {
    Case::of(rivet.series().head, rivet.alloy(), rivet.size()).in_rows(row.rows_in_pattern)
}

fn push<'j>(findings: &mut Vec<Finding<'j>>, finding: Finding<'j>) {
    if !findings.contains(&finding) {
        findings.push(finding);
    }
}

fn push_all<'j>(findings: &mut Vec<Finding<'j>>, others: &Findings<'j>) {
    for finding in others {
        push(findings, *finding);
    }
}

fn push_judgement<'j>(findings: &mut Vec<Finding<'j>>, judgement: &HoleJudgement<'j>) {
    push_all(findings, &judgement.findings);
}

fn push_choice<'j>(findings: &mut Vec<Finding<'j>>, choice: &Choice<'j>) {
    match &choice.length {
        Ok(length) => push_all(findings, &length.findings),
        Err(_) => push(findings, Finding::new(Code::NoLengthFits, Severity::Refer, choice.part.size().basis)),
    }
}
