//! The plan of a job: what goes into every row and hole, from which position, in which order it comes out.
//!
//! Everything here is asked of the core; this module only keeps the answers together and says which row or hole they belong to.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use shophead::access::{
    Clearance, PositionWork, RowWork, SolidBecause, cannot_buck, clearance_needed, lacks_less, least_effort,
    solid_required, weigh,
};
use shophead::basis::{Basis, Status};
use shophead::damage::{self, Damaged};
use shophead::drill::Drill;
use shophead::finding::{Code, Finding, Findings, Severity};
use shophead::hole::{AsFound, Disposition, HoleJudgement, HoleQuery, check_seat};
use shophead::joint::compare::{Comparison, check_substitute, compare};
use shophead::joint::pack::strength_through;
use shophead::joint::row::{RowAsMade, RowStrength, compare_rows, row_strength, weaker};
use shophead::joint::strength::{JointStrength, Shear};
use shophead::layout::{RowLayout, check_edge, check_points_sorted, check_row};
use shophead::length::{Interval, Length, Toleranced};
use shophead::pattern::{Demand, PatternLimits, choose as choose_steps, room_needed, tally};
use shophead::practice::{Case, Given, Practice};
use shophead::removal::{Removal, removal};
use shophead::rivet::part::Part;
use shophead::select::{LengthChoice, LengthQuery, check_alloy, check_diameter};
use shophead::stack::Stack;
use shophead::trim::{Curve, Cut, Station};
use shophead::upset::FitError;

use crate::model::{DamageFound, EdgeShape, Exception, Job, MeasuredHole, PanelEdge, Position, Row};

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
    /// The patterns of several rows, in the order in which the rows name them.
    pub patterns: Vec<PatternPlan<'j>>,
    /// The edges that the panel is cut to, in the order of the job.
    pub edges: Vec<EdgePlan<'j>>,
    /// Damage beside the holes, in the order of the job.
    pub damage: Vec<DamagePlan<'j>>,
    /// What was found about the job as a whole.
    pub findings: Vec<Finding<'j>>,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Subject<'j> {
    /// The whole job.
    Job,
    /// A row.
    Row(&'j str),
    /// A hole of a row.
    Hole(&'j str, u32),
    /// A pattern of several rows.
    Pattern(&'j str),
    /// An edge that the panel is cut to.
    Edge(&'j str),
    /// Damage, counted from 1, and where it is.
    Damage(u32, &'j str),
}

impl std::fmt::Display for Subject<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Subject::Job => f.write_str("job"),
            Subject::Row(row) => write!(f, "row {row}"),
            Subject::Hole(row, hole) => write!(f, "row {row} hole {hole}"),
            Subject::Pattern(pattern) => write!(f, "pattern {pattern}"),
            Subject::Edge(edge) => write!(f, "edge {edge}"),
            Subject::Damage(number, place) => write!(f, "damage {number}, {place}"),
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
    /// Its distances: as the job gives them, the pitch from the points where it gives those instead, the edge distance that to the
    /// nearest cut where that is shorter or the only one.
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
    /// Its distances to the cuts that it is held against.
    pub cuts: Vec<RowCut>,
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
    pub judgement: Option<Arc<HoleJudgement<'j>>>,
    /// The layers under it.
    pub stack: &'j Stack,
    /// What goes into it; `None` when it has to be referred.
    pub choice: Option<Arc<Choice<'j>>>,
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
        self.judgement.as_deref().and_then(HoleJudgement::chosen).and_then(|step| step.cut)
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

impl<'j> RowPlan<'j> {
    /// What is planned for one of its holes by itself; `None` for a hole like the most.
    #[must_use]
    pub fn hole(&self, number: u32) -> Option<&HolePlan<'j>> {
        self.holes.binary_search_by_key(&number, |hole| hole.number).ok().and_then(|index| self.holes.get(index))
    }

    /// What goes into one of its holes; `None` where the hole is referred.
    #[must_use]
    pub fn choice_for(&self, number: u32) -> Option<&Choice<'j>> {
        match self.hole(number) {
            Some(hole) => hole.choice.as_deref(),
            None => Some(&self.choice),
        }
    }

    /// The exception that a hole is in.
    #[must_use]
    pub fn exception(&self, number: u32) -> Option<&'j Exception> {
        self.row.exceptions.iter().find(|exception| exception.holes.contains(&number))
    }

    /// The question what becomes of a hole, with its own layers and distances where the job gives any.
    #[must_use]
    pub fn query(&self, number: u32, practice: &'j Practice<'j>) -> HoleQuery<'j, 'j> {
        let exception = self.exception(number);
        HoleQuery {
            rivet: self.choice.part.without_length(),
            stack: Some(exception.map_or(&self.row.stack, |exception| &exception.stack)),
            layout: hole_layout(number, self, exception),
            rows: self.row.rows_in_pattern,
            member: self.row.member,
            practice,
        }
    }

    /// What a rivet of this row is held against.
    #[must_use]
    pub fn case(&self, rivet: &Part<'_>) -> Case {
        case_of(rivet, self.row)
    }
}

/// How far the holes of a row stand from a cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowCut {
    /// Which edge: its place in [`Job::edges`].
    pub edge: usize,
    /// One distance a hole, from hole 1 on; never too long.
    pub distances: Vec<Length>,
    /// The hole that stands closest, and how close.
    pub closest: (u32, Length),
    /// The holes that stand closer than allowed.
    pub short: Vec<u32>,
    /// The holes beyond the ends of the cut, where nothing was measured.
    pub beyond: Vec<u32>,
}

/// The plan of one edge.
#[derive(Clone, Debug)]
pub struct EdgePlan<'j> {
    /// The edge.
    pub edge: &'j PanelEdge,
    /// Where the panel is cut.
    pub cut: Cut<'j>,
    /// What it is marked out from: stations with offsets, or the corners.
    pub table: Vec<Station>,
    /// The holes on either side of a measured edge: with lesser offsets, and with greater ones.
    pub sides: (u32, u32),
    /// What was found about it; what was found about its rows stands with them.
    pub findings: Vec<Finding<'j>>,
}

impl EdgePlan<'_> {
    /// Whether a mark of its table was measured, or is a corner; otherwise it lies between such.
    #[must_use]
    pub fn is_measured_at(&self, mark: Station) -> bool {
        match &self.edge.shape {
            EdgeShape::Stations(stations) => stations.binary_search_by_key(&mark.at, |station| station.at).is_ok(),
            EdgeShape::Corners(_) => true,
        }
    }
}

/// The plan of a pattern of several rows.
#[derive(Clone, Debug)]
pub struct PatternPlan<'j> {
    /// Its name.
    pub name: &'j str,
    /// Its rows, by their place in the plan.
    pub rows: Vec<usize>,
    /// How many rivets it has.
    pub total: u32,
    /// Its limits.
    pub limits: PatternLimits<'j>,
    /// How many of its holes want a larger rivet.
    pub wanting: u32,
    /// How many get one.
    pub stepped: u32,
    /// What was found about it.
    pub findings: Vec<Finding<'j>>,
}

/// What becomes of damage.
#[derive(Clone, Debug)]
pub struct DamagePlan<'j> {
    /// What was found.
    pub damage: &'j DamageFound,
    /// The same with the thickness of the layer, where the row tells it.
    pub held: Damaged,
    /// What it comes to.
    pub findings: Vec<Finding<'j>>,
}

/// What a work position allows.
#[derive(Clone, Debug)]
pub struct PositionPlan<'j> {
    /// The position.
    pub position: &'j Position,
    /// What stops each row from being bucked, in the order of the rows; `None` where nothing does.
    pub blocked: Vec<Option<Finding<'j>>>,
    /// Every row as seen from it, in the order of the rows.
    pub rows: Vec<RowWork>,
    /// What it comes to, to be compared with the others.
    pub work: PositionWork,
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
        Plan::make_watched(job, practice, &mut |_| {})
    }

    /// The same; `done` is called with the number of holes planned so far, often.
    #[must_use]
    pub fn make_watched(job: &'j Job, practice: &'j Practice<'j>, done: &mut dyn FnMut(u32)) -> Plan<'j> {
        let mut edges: Vec<EdgePlan<'j>> = job.edges.iter().filter_map(plan_edge).collect();
        let mut before = 0;
        let mut rows: Vec<RowPlan<'j>> = Vec::with_capacity(job.rows.len());
        for (index, row) in job.rows.iter().enumerate() {
            rows.push(plan_row(index, row, &mut edges, practice, &mut |planned| done(before + planned)));
            before += row.count;
            done(before);
        }
        for edge in &mut edges {
            let (below, above) = edge.sides;
            let fewer = below.min(above);
            if fewer > 0 {
                let basis = const { &Basis::practice("the holes of a panel lie on one side of its edge") };
                let finding = Finding::new(Code::HoleBeyondCut, Severity::Refer, basis);
                edge.findings.push(finding.measured(shophead::finding::Figure::Count(fewer)));
            }
        }
        let patterns = plan_patterns(&mut rows, practice);
        // Only now is it known which holes are stepped up.
        for row in &mut rows {
            row.before_and_after = before_and_after(row);
            push_before_and_after(row);
        }
        let positions = plan_positions(job, &rows, practice);
        let damage = job.damage.iter().map(|damage| plan_damage(damage, &rows, practice)).collect();
        let mut findings = Vec::new();
        if !positions.is_empty() && !positions.iter().any(|position| position.serves) {
            let basis = const { &Basis::practice("rows on primary structure take driven solid rivets") };
            findings.push(Finding::new(Code::NoPositionServes, Severity::Refer, basis));
        }
        Plan { job, practice, rows, positions, patterns, edges, damage, findings }
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
        let of_patterns = self
            .patterns
            .iter()
            .flat_map(|plan| plan.findings.iter().map(|finding| (Subject::Pattern(plan.name), finding)));
        let of_edges = self
            .edges
            .iter()
            .flat_map(|plan| plan.findings.iter().map(|finding| (Subject::Edge(plan.edge.name.as_str()), finding)));
        let of_damage = self.damage.iter().zip(1_u32..).flat_map(|(plan, number)| {
            plan.findings.iter().map(move |finding| (Subject::Damage(number, plan.damage.place.as_str()), finding))
        });
        of_job.chain(of_rows).chain(of_patterns).chain(of_edges).chain(of_damage)
    }

    /// What stops the work: every finding that says refer.
    pub fn stops(&self) -> impl Iterator<Item = (Subject<'j>, &Finding<'j>)> {
        self.all_findings().filter(|(_, finding)| finding.severity == Severity::Refer)
    }

    /// The documents of everything that decided something and could only be recalled, each once.
    #[must_use]
    pub fn recalled(&self) -> Vec<String> {
        let recalled = self.all_findings().map(|(_, finding)| finding.basis);
        let recalled: HashSet<&Basis<'_>> = recalled.filter(|basis| basis.status == Status::Memory).collect();
        let mut texts: Vec<String> =
            recalled.into_iter().map(|basis| Basis { status: Status::Published, ..*basis }.to_string()).collect();
        texts.sort_unstable();
        texts.dedup();
        texts
    }

    /// The position of least effort in which everything can be driven that must be.
    #[must_use]
    pub fn serving_position(&self) -> Option<&PositionPlan<'j>> {
        let works: Vec<PositionWork> = self.positions.iter().map(|position| position.work).collect();
        least_effort(&works).and_then(|index| self.positions.get(index))
    }

    /// The positions that do not serve, the one that lacks least first.
    #[must_use]
    pub fn lacking_positions(&self) -> Vec<&PositionPlan<'j>> {
        let mut lacking: Vec<&PositionPlan<'j>> = self.positions.iter().filter(|position| !position.serves).collect();
        lacking.sort_by(|one, other| lacks_less(&one.work, &other.work));
        lacking
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
                let complete = hole.choice.as_deref().is_some_and(Choice::is_complete);
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

fn plan_edge(edge: &PanelEdge) -> Option<EdgePlan<'_>> {
    let (cut, table) = match &edge.shape {
        EdgeShape::Corners(corners) => {
            let table = corners.iter().map(|corner| Station { at: corner.x, offset: corner.y }).collect();
            (Cut::Corners(corners), table)
        }
        // The reader has let only such stations through as make an edge.
        EdgeShape::Stations(stations) => {
            let curve = Curve::through(stations).ok()?;
            let table = curve.table(edge.every).collect();
            (Cut::Measured(curve), table)
        }
    };
    Some(EdgePlan { edge, cut, table, sides: (0, 0), findings: Vec::new() })
}

/// The distances of a row to every cut that it is held against, with what is found about the closest hole.
fn row_cuts<'j>(
    index: usize,
    row: &Row,
    edges: &mut [EdgePlan<'j>],
    case: &Case,
    practice: &'j Practice<'j>,
    findings: &mut Vec<Finding<'j>>,
) -> Vec<RowCut> {
    let mut cuts = Vec::new();
    if !row.has_places() {
        return cuts;
    }
    for (number, plan) in edges.iter_mut().enumerate() {
        if plan.edge.rows.as_ref().is_some_and(|rows| !rows.contains(&index)) {
            continue;
        }
        let mut cut = RowCut {
            edge: number,
            distances: Vec::with_capacity(row.count as usize),
            closest: (1, Length::MAX),
            short: Vec::new(),
            beyond: Vec::new(),
        };
        for hole in 1..=row.count {
            let Some((point, distance)) = row.place_of(hole).and_then(|point| Some((point, plan.cut.distance(point)?)))
            else {
                break;
            };
            match plan.cut.is_above(point) {
                Some(true) => plan.sides.1 += 1,
                Some(false) => plan.sides.0 += 1,
                None => {}
            }
            if plan.cut.is_beyond(point) {
                cut.beyond.push(hole);
            }
            if distance < cut.closest.1 {
                cut.closest = (hole, distance);
            }
            if check_edge(distance, case, practice).has(Code::EdgeDistanceShort) {
                cut.short.push(hole);
            }
            cut.distances.push(distance);
        }
        push_all(findings, &check_edge(cut.closest.1, case, practice));
        if !cut.beyond.is_empty() {
            let basis = const { &Basis::practice("beyond the stations nobody measured the edge") };
            let finding = Finding::new(Code::HoleBeyondCut, Severity::Caution, basis);
            push(findings, finding.measured(shophead::finding::Figure::Count(cut.beyond.len() as u32)));
        }
        cuts.push(cut);
    }
    cuts
}

fn plan_row<'j>(
    index: usize,
    row: &'j Row,
    edges: &mut [EdgePlan<'j>],
    practice: &'j Practice<'j>,
    done: &mut dyn FnMut(u32),
) -> RowPlan<'j> {
    let case = case_of(&row.rivet, row);
    let mut findings = Vec::new();
    let points = row
        .points
        .as_deref()
        .map(|points| check_points_sorted(points, &mut vec![0; points.len()], &[], &case, practice));
    let closest = points.as_ref().and_then(|points| points.closest_pair).map(|(_, _, distance)| distance);
    let mut of_cuts = Vec::new();
    let cuts = row_cuts(index, row, edges, &case, practice, &mut of_cuts);
    let edge = cuts.iter().map(|cut| cut.closest.1).chain(row.layout.edge).min();
    let layout = RowLayout { pitch: row.layout.pitch.or(closest), edge, ..row.layout };
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
            let hole = hole.map(|value| Given { value, basis: const { &Basis::shop("job file", "hole as measured") } });
            choose(rivet, &row.stack, hole.unwrap_or_else(|| practice.assumed_hole(&case_of(&rivet, row))), practice)
        }
        None => choose(row.rivet, &row.stack, practice.assumed_hole(&case), practice),
    };
    push_choice(&mut findings, &choice);
    push_all(&mut findings, &check_row(row.layout, &case, practice));
    if let Some(points) = &points {
        push_all(&mut findings, &points.findings);
    }
    for finding in of_cuts {
        push(&mut findings, finding);
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
        cuts,
        removal: removal(&row.installed, &row.stack, layout.edge, practice),
        findings,
    };
    plan.holes = plan_holes(&plan, practice, done);
    push_all(&mut plan.findings, &check_substitute(&row.installed, &row.rivet));
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

/// Holds every pattern against its limits, and refers the holes that it cannot take. What is found about a row that is a pattern by
/// itself stands with the row.
fn plan_patterns<'j>(rows: &mut [RowPlan<'j>], practice: &'j Practice<'j>) -> Vec<PatternPlan<'j>> {
    let mut groups: Vec<(Option<&'j str>, Vec<usize>)> = Vec::new();
    let mut by_name: HashMap<&'j str, usize> = HashMap::new();
    for (index, plan) in rows.iter().enumerate() {
        let row: &'j Row = plan.row;
        let name = row.pattern.as_deref();
        let known = name.and_then(|name| by_name.get(name)).and_then(|group| groups.get_mut(*group));
        match (known, name) {
            (Some((_, members)), _) => members.push(index),
            (None, name) => {
                if let Some(name) = name {
                    by_name.insert(name, groups.len());
                }
                groups.push((name, vec![index]));
            }
        }
    }
    let mut patterns = Vec::new();
    for (name, members) in groups {
        let pattern = plan_pattern(rows, name.unwrap_or_default(), members, practice);
        if name.is_some() {
            patterns.push(pattern);
        } else if let Some(row) = pattern.rows.first().and_then(|index| rows.get_mut(*index)) {
            for finding in pattern.findings {
                push(&mut row.findings, finding);
            }
        }
    }
    patterns
}

fn plan_pattern<'j>(
    rows: &mut [RowPlan<'j>],
    name: &'j str,
    members: Vec<usize>,
    practice: &'j Practice<'j>,
) -> PatternPlan<'j> {
    let of = |index: &usize| rows.get(*index);
    let total = members.iter().filter_map(of).map(|plan| plan.row.count).fold(0, u32::saturating_add);
    // As the rows ask, before any of their holes is opened.
    let cases = members.iter().filter_map(of).map(|plan| case_of(&plan.row.rivet, plan.row));
    let limits = PatternLimits::of(total, practice, cases);
    // The ladder is climbed from the least change on, so that a hole which is stepped up can do with nothing less: its one step is all
    // that there is to choose from.
    let demands: Vec<Demand> = members
        .iter()
        .zip(0_u32..)
        .filter_map(|(index, place)| Some((of(index)?, place)))
        .flat_map(|(plan, place)| {
            let stepped = plan.holes.iter().filter(|hole| hole.disposition().is_step_up());
            stepped.map(move |hole| Demand::of(place, hole.number, [hole.disposition()]))
        })
        .collect();
    let (mut wanting, mut run) = tally(demands.iter().map(|demand| (demand.row, demand.number)));
    // A row whose every hole is stepped up.
    for plan in members.iter().filter_map(of) {
        if plan.judgement.as_ref().is_some_and(|judgement| judgement.disposition.is_step_up()) {
            let own = plan.holes.iter().filter(|hole| hole.disposition().is_step_up()).count() as u32;
            wanting = wanting.saturating_add(plan.row.count.saturating_sub(own));
            run = run.max(plan.row.count);
        }
    }
    let found = limits.check(wanting, run);
    let mut stepped = wanting;
    let mut chosen = vec![Disposition::Refer; demands.len()];
    let weighed = !found.is_empty()
        && room_needed(&demands, &limits).is_ok_and(|needed| {
            choose_steps(&demands, &limits, &mut vec![0; needed], |index, step| {
                if let Some(chosen) = chosen.get_mut(index) {
                    *chosen = step;
                }
            })
            .is_ok()
        });
    if weighed {
        for (demand, _) in demands.iter().zip(&chosen).filter(|(_, step)| **step == Disposition::Refer) {
            stepped = stepped.saturating_sub(1);
            let row = members.get(demand.row as usize).and_then(|index| rows.get_mut(*index));
            let Some(holes) = row.map(|row| &mut row.holes) else { continue };
            let Ok(place) = holes.binary_search_by_key(&demand.number, |hole| hole.number) else { continue };
            let Some(hole) = holes.get_mut(place) else { continue };
            if let Some(judgement) = &mut hole.judgement {
                Arc::make_mut(judgement).refer(limits.full());
            }
            hole.choice = None;
            push(&mut hole.findings, limits.full());
        }
    }
    let mut findings = Vec::new();
    push_all(&mut findings, &found);
    PatternPlan { name, rows: members, total, limits, wanting, stepped, findings }
}

fn plan_damage<'j>(damage: &'j DamageFound, rows: &[RowPlan<'j>], practice: &'j Practice<'j>) -> DamagePlan<'j> {
    let plan = damage.row.and_then(|row| rows.get(row));
    let case = plan.map(|plan| case_of(&plan.choice.part, plan.row));
    // Of several layers of one kind the thinnest.
    let layers = plan.map(|plan| plan.row.stack.layers()).unwrap_or_default();
    let thickness =
        layers.iter().filter(|layer| Some(layer.role) == damage.member).map(|layer| layer.thickness.min()).min();
    let held = Damaged { thickness: damage.found.thickness.or(thickness), ..damage.found };
    let mut findings = Vec::new();
    push_all(&mut findings, &damage::judge(&held, case.as_ref(), practice));
    DamagePlan { damage, held, findings }
}

/// What two holes of a row have in common when the same comes of both.
type Alike = (Option<(Length, Length, shophead::hole::Damage)>, [Option<Length>; 3], Option<usize>);

/// What comes of holes that are alike; kept once for all of them.
struct Outcome<'j> {
    judgement: Option<Arc<HoleJudgement<'j>>>,
    choice: Option<Arc<Choice<'j>>>,
    removal: Option<Removal<'j>>,
    findings: Vec<Finding<'j>>,
}

fn plan_holes<'j>(plan: &RowPlan<'j>, practice: &'j Practice<'j>, done: &mut dyn FnMut(u32)) -> Vec<HolePlan<'j>> {
    let row = plan.row;
    let mut exceptions: HashMap<u32, usize> = HashMap::new();
    for (index, exception) in row.exceptions.iter().enumerate() {
        for number in &exception.holes {
            exceptions.entry(*number).or_insert(index);
        }
    }
    let mut numbers: Vec<u32> = row.measured.iter().map(|hole| hole.number).collect();
    numbers.extend(exceptions.keys());
    numbers.sort_unstable();
    numbers.dedup();
    let mut known: HashMap<Alike, Outcome<'j>> = HashMap::new();
    let mut holes = Vec::with_capacity(numbers.len());
    for number in numbers {
        done(number);
        let measured = row.measured.binary_search_by_key(&number, |hole| hole.number).ok();
        let measured = measured.and_then(|index| row.measured.get(index));
        let exception = exceptions.get(&number).and_then(|index| Some((*index, row.exceptions.get(*index)?)));
        let layout = hole_layout(number, plan, exception.map(|(_, exception)| exception));
        let stack = exception.map_or(&row.stack, |(_, exception)| &exception.stack);
        let found = measured.map(|hole| hole.as_found);
        let alike = (
            found.map(|found| (found.major(), found.minor(), found.damage())),
            [layout.edge, layout.pitch, layout.transverse_pitch],
            exception.map(|(index, _)| index),
        );
        let outcome =
            known.entry(alike).or_insert_with(|| plan_hole(found, layout, stack, exception.is_some(), plan, practice));
        holes.push(HolePlan {
            number,
            about: exception.map_or("", |(_, exception)| exception.about.as_str()),
            measured,
            judgement: outcome.judgement.clone(),
            stack,
            choice: outcome.choice.clone(),
            removal: outcome.removal.clone(),
            findings: outcome.findings.clone(),
        });
    }
    holes
}

/// The distances of one hole: its own before its row's, and the nearest cut where that is closer.
fn hole_layout(number: u32, plan: &RowPlan<'_>, exception: Option<&Exception>) -> RowLayout {
    let own = exception.map(|exception| exception.layout).unwrap_or_default();
    let index = number.saturating_sub(1) as usize;
    let cuts = plan.cuts.iter().filter_map(|cut| cut.distances.get(index)).copied();
    RowLayout {
        edge: cuts.chain(own.edge.or(plan.row.layout.edge)).min(),
        pitch: own.pitch.or(plan.layout.pitch),
        transverse_pitch: own.transverse_pitch.or(plan.layout.transverse_pitch),
    }
}

fn plan_hole<'j>(
    found: Option<AsFound>,
    layout: RowLayout,
    stack: &'j Stack,
    is_exception: bool,
    plan: &RowPlan<'j>,
    practice: &'j Practice<'j>,
) -> Outcome<'j> {
    let row = plan.row;
    let rivet = plan.choice.part.without_length();
    let mut findings = Vec::new();
    let query =
        HoleQuery { rivet, stack: Some(stack), layout, rows: row.rows_in_pattern, member: row.member, practice };
    let judgement = found.map(|found| query.judge(found));
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
            let hole = Given { value: hole, basis: const { &Basis::shop("job file", "hole as measured") } };
            // The row's own length is kept where it does for this hole too: one length fewer to mix up.
            let same = !is_exception && part.without_length() == rivet && does_for(&plan.choice, stack, hole, practice);
            Some(if same { Choice { hole, ..plan.choice.clone() } } else { choose(part, stack, hole, practice) })
        }),
    };
    if let Some(choice) = &choice {
        push_choice(&mut findings, choice);
    }
    let removal = is_exception.then(|| removal(&row.installed, stack, layout.edge, practice));
    Outcome { judgement: judgement.map(Arc::new), choice: choice.map(Arc::new), removal, findings }
}

/// A rivet of the length that this pack and this hole need.
#[must_use]
pub fn choice_in<'j>(
    part: Part<'j>,
    stack: &Stack,
    hole: Given<'j, Interval>,
    practice: &'j Practice<'j>,
) -> Choice<'j> {
    choose(part, stack, hole, practice)
}

/// Whether a rivet of another length does as well in this pack and this hole.
#[must_use]
pub fn is_within_limits(part: &Part<'_>, stack: &Stack, hole: Interval, practice: &Practice<'_>) -> bool {
    let Some(length) = part.length() else { return false };
    length_query(part, stack, hole, practice).assess(length).is_ok_and(|findings| !findings.must_refer())
}

fn does_for(choice: &Choice<'_>, stack: &Stack, hole: Given<'_, Interval>, practice: &Practice<'_>) -> bool {
    is_within_limits(&choice.part, stack, hole.value, practice)
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
    let rates = job.rates();
    let tails: Vec<(Length, Case)> =
        rows.iter().map(|plan| (longest_tail(plan), case_of(&plan.choice.part, plan.row))).collect();
    let plan = |(index, position): (usize, &'j Position)| {
        let clearance = |plan: &RowPlan<'_>| plan.row.clearance.get(index).copied().unwrap_or(Clearance::Closed);
        let blocked =
            rows.iter().zip(&tails).map(|(plan, (tail, case))| cannot_buck(clearance(plan), *tail, practice, case));
        let works = rows.iter().zip(&tails).map(|(plan, (tail, case))| RowWork {
            must: plan.solid.is_some(),
            rivets: plan.row.count,
            clearance: clearance(plan),
            needed: clearance_needed(*tail, practice, case).map(|needed| needed.value),
        });
        let works: Vec<RowWork> = works.collect();
        let work = weigh(job.set_up(position), &rates, works.iter().copied());
        PositionPlan { position, blocked: blocked.collect(), work, serves: work.serves, rows: works }
    };
    job.positions.iter().enumerate().map(plan).collect()
}

/// The longest tail in a row before it is driven.
fn longest_tail(plan: &RowPlan<'_>) -> Length {
    let row_tail = plan.choice.longest_tail(plan.row.stack.grip());
    let hole_tails = plan.holes.iter().filter_map(|hole| hole.choice.as_ref()?.longest_tail(hole.stack.grip()));
    hole_tails.chain(row_tail).max().unwrap_or(Length::ZERO)
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
        Err(_) => push(findings, Finding::new(Code::NoLengthFits, Severity::Refer, &choice.part.size().basis)),
    }
}
