//! The plan of a job: what goes into every row and hole, from which position, in which order it comes out.
//!
//! Everything here is asked of the core; this module only keeps the answers together and says which row or hole they belong to.

mod answers;
mod choice;
mod edges;
mod holes;
mod make;
mod patterns;
mod positions;
mod rows;
mod ruling;

use std::collections::HashSet;
use std::sync::Arc;

use shophead::access::{Bar, Mix, PositionWork, RowWork, SolidBecause, lacks_less, least_effort};
use shophead::basis::{Basis, Citation, Status};
use shophead::damage::Damaged;
use shophead::drill::Drill;
use shophead::fact::Facts;
use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::hole::Disposition;
use shophead::installation::{HoleAnswer, Installation, Step};
use shophead::joint::compare::Comparison;
use shophead::joint::row::RowStrength;
use shophead::joint::strength::JointStrength;
use shophead::layout::RowLayout;
use shophead::length::{Interval, Length, Toleranced};
use shophead::pattern::PatternLimits;
use shophead::practice::{Case, Given, Practice};
use shophead::removal::Removal;
use shophead::rivet::part::Part;
use shophead::select::LengthAnswer;
use shophead::stack::Stack;
use shophead::trim::{BaseLine, Cut, Station};
use shophead::upset::FitError;
use shophead::words::Units;

pub use answers::{AnswerPlan, HoleAnswered, HoleRuling, Standing, hole_answered, in_words, measure_of};
pub(crate) use choice::{choose, head_of, serving};
pub(crate) use patterns::beyond;
pub use positions::{Bucked, Stand, There};

use self::holes::{closer, hole_layout};
use crate::grouped::grouped;
use crate::model::{Answer, DamageFound, EdgeShape, Exception, Job, MeasuredHole, PanelEdge, Position, Row};
use crate::words;

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
    /// The few positions that together let everything be bucked that takes driven rivets only, where no single one does.
    pub mix: Option<Mix>,
    /// The patterns of several rows, in the order in which the rows name them.
    pub patterns: Vec<PatternPlan<'j>>,
    /// The edges that the panel is cut to, in the order of the job.
    pub edges: Vec<EdgePlan<'j>>,
    /// Damage beside the holes, in the order of the job.
    pub damage: Vec<DamagePlan<'j>>,
    /// What was found about the job as a whole.
    pub findings: Vec<Finding>,
    /// Every answer of the job, and whether it counts.
    pub answers: Vec<AnswerPlan<'j>>,
    /// Which answer counts for which referral.
    answered: answers::Answered<'j>,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
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
#[non_exhaustive]
pub struct Choice<'j> {
    /// The rivet; without length where none fits.
    pub part: Part<'j>,
    /// The hole that was counted on.
    pub hole: Given<Interval>,
    /// How the length was chosen; an error where the rivet's dimensions are not known or the head is deeper than the pack.
    pub length: Result<LengthAnswer<'j>, FitError>,
}

impl Choice<'_> {
    /// Whether there is a rivet to order.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.part.length().is_some()
    }

    /// The farthest that the rivet reaches behind the pack before driving.
    fn longest_tail(&self, grip: Toleranced) -> Option<Length> {
        Some(self.length.as_ref().ok()?.reach(grip))
    }
}

/// The plan of one row.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct RowPlan<'j> {
    /// The row.
    pub row: &'j Row,
    /// Its distances: as the job gives them, the pitch from the points where it gives those instead, the edge distance that to the
    /// nearest cut where that is shorter or the only one.
    pub layout: RowLayout,
    /// What goes into most of its holes.
    pub choice: Choice<'j>,
    /// Why it takes driven solid rivets only, if it does.
    pub solid: Option<Given<SolidBecause>>,
    /// What becomes of the hole of the whole row, where the job gives one.
    pub answer: Option<HoleAnswer<'j>>,
    /// What one rivet carries; `None` where that cannot be asked (no edge distance, fewer than two layers).
    pub strength: Option<JointStrength>,
    /// The new rivet against the one it replaces, where it is not the same.
    pub comparison: Option<Comparison>,
    /// The whole row, as installed and as planned.
    pub before_and_after: Result<BeforeAndAfter, NotCompared>,
    /// The holes that were measured or that differ, by rising number.
    pub holes: Vec<HolePlan<'j>>,
    /// Its distances to the cuts that it is checked against.
    pub cuts: Vec<RowCut>,
    /// How to take the installed rivets out.
    pub removal: Removal,
    /// What was found about the row as a whole.
    pub findings: Vec<Finding>,
    /// Whether somebody still has to answer for the row as a whole.
    pub referred: bool,
    /// What somebody answered for the row as a whole, where it was referred and every referral is answered.
    pub ruling: Option<&'j Answer>,
    /// Whether that leaves no rivet yet: a repair comes first.
    pub waits: bool,
}

/// What a row carries an inch, as installed and as planned.
///
/// Holes of the row that are stepped up are counted on the safe side: as if every hole of the row were like the weakest of them. Holes
/// that are referred have no rivet yet and do not count, and neither do holes with layers of their own.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct BeforeAndAfter {
    /// As installed, in sound nominal holes.
    pub before: RowStrength,
    /// As planned.
    pub after: RowStrength,
    /// After over before; 1 where neither rivet nor sheets change, `None` where a strength is not published.
    pub ratio: Option<f64>,
    /// Whether rivet or holes change.
    pub changed: bool,
    /// How many holes of the row are stepped up and counted as said above.
    pub stepped: u32,
}

/// Why a row as installed cannot be compared with the row as planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
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
    pub const fn as_str(self) -> &'static str {
        match self {
            NotCompared::NoEdge => "no-edge",
            NotCompared::NoPitch => "no-pitch",
            NotCompared::NoJoint => "no-joint",
        }
    }
}

/// What becomes of a hole, and the drill or reamer for it.
pub type HoleOutcome = (Disposition, Option<Drill>);

/// The plan of one hole that was measured or that differs from its row.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct HolePlan<'j> {
    /// Its number.
    pub number: u32,
    /// What the job says about it; empty where it says nothing.
    pub about: &'j str,
    /// What was measured.
    pub measured: Option<&'j MeasuredHole>,
    /// How far the centre of a neighbour moves, at most: the pitch between them is counted that much shorter.
    pub neighbour_moves: Length,
    /// What to do about it.
    pub answer: Option<Arc<HoleAnswer<'j>>>,
    /// The layers under it.
    pub stack: &'j Stack,
    /// What goes into it; `None` when it has to be referred.
    pub choice: Option<Arc<Choice<'j>>>,
    /// How to take the installed rivet out, where that is not as in the row.
    pub removal: Option<Removal>,
    /// What was found about it.
    pub findings: Vec<Finding>,
    /// What somebody answered, where it was referred and every referral is answered.
    pub ruling: Option<HoleRuling<'j>>,
}

impl HolePlan<'_> {
    /// What to do about it; a hole that was not measured is kept.
    #[must_use]
    pub fn disposition(&self) -> Disposition {
        self.answer.as_ref().map_or(Disposition::Keep, |answer| answer.disposition)
    }

    /// The drill or reamer to open it with.
    #[must_use]
    pub fn cut(&self) -> Option<Drill> {
        match self.ruling {
            Some(ruling) => ruling.cut,
            None => self.answer.as_deref().and_then(|answer| answer.cut),
        }
    }

    /// Whether it was opened for its rivet before it was measured, so that nothing is left to open.
    #[must_use]
    pub fn is_opened(&self) -> bool {
        self.cut().is_none() && self.measured.is_some_and(|measured| measured.opened.is_some())
    }

    /// What is to be minded here and is not said of its row as well.
    pub fn own_cautions(&self, row: &RowPlan<'_>) -> impl Iterator<Item = &Finding> {
        let cautions = self.findings.iter().filter(|finding| finding.severity() >= Severity::Caution);
        cautions.filter(|finding| !row.findings.contains(finding))
    }

    /// Whether the mechanic does anything here that the row does not say.
    #[must_use]
    pub fn differs_from(&self, row: &RowPlan<'_>) -> bool {
        self.disposition() != Disposition::Keep
            || self.choice.as_ref().is_none_or(|choice| choice.part != row.choice.part)
            || self.removal.is_some()
            || row.exception(self.number).is_some_and(Exception::has_own_room)
            || self.own_cautions(row).next().is_some()
    }
}

impl<'j> RowPlan<'j> {
    /// Whether somebody has to answer for the row as a whole before it goes ahead, or something else comes before its rivets.
    #[must_use]
    pub const fn is_held(&self) -> bool {
        self.referred || self.waits
    }

    /// Its holes by what becomes of them and the drill for it.
    #[must_use]
    pub fn by_cut(&self) -> Vec<(HoleOutcome, Vec<u32>)> {
        grouped(self.holes.iter().map(|hole| ((hole.disposition(), hole.cut()), hole.number)))
    }

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

    /// The distances of a hole: its own before its row's, and the nearest cut where that is closer.
    #[must_use]
    pub fn layout_of(&self, number: u32) -> RowLayout {
        hole_layout(number, self, self.exception(number))
    }

    /// The question about a hole, with its own layers and distances where the job gives any, and with the rivet that goes into most holes of
    /// the row.
    #[must_use]
    pub fn question(&self, number: u32, practice: &'j Practice<'j>) -> Installation<'j, 'j> {
        let exception = self.exception(number);
        let stack = exception.map_or(&self.row.stack, |exception| &exception.stack);
        let moves = self.hole(number).map_or(Length::ZERO, |hole| hole.neighbour_moves);
        let layout = closer(hole_layout(number, self, exception), moves);
        question_of(self.row, self.choice.part.without_length(), stack, layout, practice)
    }

    /// Each step that was tried for a measured hole, the least change first.
    #[must_use]
    pub fn steps(&self, hole: &HolePlan<'j>, practice: &'j Practice<'j>) -> Vec<Step<'j>> {
        let mut steps = Vec::new();
        if let Some(measured) = hole.measured {
            self.question(hole.number, practice)
                .hole_step_by_step(measured.as_found, &mut |step| steps.push(step.clone()));
        }
        steps
    }

    /// What a rivet of this row is checked against.
    #[must_use]
    pub fn case(&self, rivet: &Part<'_>) -> Case {
        case_of(rivet, self.row)
    }
}

/// How far the holes of a row stand from a cut.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
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
#[non_exhaustive]
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
    pub findings: Vec<Finding>,
}

impl EdgePlan<'_> {
    /// The line that its stations are measured along; `None` for the x axis, and for corners.
    #[must_use]
    pub fn line(&self) -> Option<BaseLine> {
        match &self.cut {
            Cut::Corners(_) => None,
            Cut::Measured(curve) => curve.line(),
        }
    }

    /// Whether a mark of its table was measured, or is a corner; otherwise it lies between such.
    #[must_use]
    pub fn is_measured_at(&self, mark: Station) -> bool {
        match &self.edge.shape {
            EdgeShape::Stations(stations, _) => stations.binary_search_by_key(&mark.at, |station| station.at).is_ok(),
            EdgeShape::Corners(_) => true,
        }
    }
}

/// The plan of a pattern of several rows.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct PatternPlan<'j> {
    /// Its name.
    pub name: &'j str,
    /// Its rows, by their place in the plan.
    pub rows: Vec<usize>,
    /// How many rivets it has.
    pub total: u32,
    /// Its limits.
    pub limits: PatternLimits,
    /// How many of its holes want a larger rivet.
    pub wanting: u32,
    /// How many get one.
    pub stepped: u32,
    /// What was found about it.
    pub findings: Vec<Finding>,
}

/// What becomes of damage.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct DamagePlan<'j> {
    /// What was found.
    pub damage: &'j DamageFound,
    /// The same with the thickness of the layer, where the row tells it.
    pub held: Damaged,
    /// What it comes to.
    pub findings: Vec<Finding>,
}

/// What a work position allows.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct PositionPlan<'j> {
    /// The position.
    pub position: &'j Position,
    /// What stops each row from being bucked, in the order of the rows; `None` where nothing does.
    pub blocked: Vec<Option<Finding>>,
    /// Every row as seen from it, in the order of the rows, without its holes that have room of their own.
    pub rows: Vec<RowWork>,
    /// Holes with room of their own, in the order of the rows.
    pub holes: Vec<HolesThere<'j>>,
    /// What it comes to, to be compared with the others.
    pub work: PositionWork,
    /// Whether every row that takes driven rivets only can be bucked.
    pub serves: bool,
}

/// Holes with room of their own, in a work position.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct HolesThere<'j> {
    /// The row, by its place in the plan.
    pub row: usize,
    /// The exception that says so.
    pub own: &'j Exception,
    /// What their rivets are checked against.
    pub case: Case,
    /// As seen from the position.
    pub work: RowWork,
    /// What stops them from being bucked; `None` where nothing does.
    pub blocked: Option<Finding>,
    /// The bar that goes in behind their longest tail.
    pub bar: Bar,
}

/// How many of what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[non_exhaustive]
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
#[non_exhaustive]
pub struct RemovalNote<'p, 'j> {
    /// The row.
    pub row: &'p RowPlan<'j>,
    /// The hole, where the note is for one hole only.
    pub hole: Option<u32>,
    /// How.
    pub removal: &'p Removal,
}

impl RemovalNote<'_, '_> {
    /// Which rivets: `K1`, `K1 hole 7`.
    #[must_use]
    pub fn name(&self) -> String {
        let row = &self.row.row.name;
        self.hole.map_or_else(|| row.clone(), |hole| format!("{row} hole {hole}"))
    }
}

impl<'j> Plan<'j> {
    /// Every finding with what it is about: the job, then row by row, hole by hole.
    pub fn all_findings(&self) -> impl Iterator<Item = (Subject<'j>, &Finding)> {
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

    /// Why each step for a hole cannot be taken; `None` for anything but a hole that was measured.
    #[must_use]
    pub fn why_not(&self, subject: Subject<'j>, units: Units) -> Option<Vec<String>> {
        let Subject::Hole(row, number) = subject else { return None };
        let row = self.rows.iter().find(|plan| plan.row.name == row)?;
        let hole = row.hole(number)?;
        let steps = row.steps(hole, self.practice);
        (!steps.is_empty()).then(|| words::why_not(&steps, &hole.findings, units, self.practice))
    }

    /// What stops the work: every finding that says refer.
    pub fn stops(&self) -> impl Iterator<Item = (Subject<'j>, &Finding)> {
        self.all_findings().filter(|(_, finding)| finding.severity() == Severity::Refer)
    }

    /// What was not given, each with its rows.
    #[must_use]
    pub fn not_given(&self) -> Vec<(Facts, Vec<&'j str>)> {
        let lacking = |finding: &Finding| match finding.measured() {
            Some(Figure::Facts(facts)) if finding.code() == Code::NotChecked => Some(facts),
            _ => None,
        };
        let of_row = |row: &RowPlan<'j>| {
            let rivet = row.choice.part.without_length();
            let asked = question_of(row.row, rivet, &row.row.stack, row.layout, self.practice).not_given();
            let facts = std::iter::once(asked).chain(row.findings.iter().filter_map(lacking));
            let facts = facts.fold(Facts::NONE, Facts::or);
            (!facts.is_empty()).then_some((facts, row.row.name.as_str()))
        };
        grouped(self.rows.iter().filter_map(of_row))
    }

    /// Whether every hole was measured, everything was given and the room behind the rows is known: only then does silence mean that nothing stops
    /// the work.
    #[must_use]
    pub fn is_known(&self) -> bool {
        let Counts { holes, measured, .. } = self.counts();
        measured == holes && self.not_given().is_empty() && !self.positions.is_empty()
    }

    /// The documents of everything that decided something and could only be recalled, each once.
    #[must_use]
    pub fn recalled(&self) -> Vec<String> {
        let recalled = self.all_findings().map(|(_, finding)| finding.basis());
        let recalled: HashSet<Basis> = recalled.filter(|basis| basis.status() == Status::Memory).collect();
        let plain = |basis: Basis| Citation { status: Status::Published, ..self.practice.cite(basis) }.to_string();
        let mut texts: Vec<String> = recalled.into_iter().map(plain).collect();
        texts.sort_unstable();
        texts.dedup();
        texts
    }

    /// The position of least effort in which every row that takes driven rivets only can be bucked.
    #[must_use]
    pub fn serving_position(&self) -> Option<&PositionPlan<'j>> {
        let works: Vec<PositionWork> = self.positions.iter().map(|position| position.work).collect();
        least_effort(&works).and_then(|index| self.positions.get(index))
    }

    /// The unusable positions, the one that lacks least first.
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

/// The question about a rivet of a row.
fn question_of<'j>(
    row: &'j Row,
    rivet: Part<'j>,
    stack: &'j Stack,
    layout: RowLayout,
    practice: &'j Practice<'j>,
) -> Installation<'j, 'j> {
    Installation::new(rivet, stack)
        .by(practice)
        .layout(layout)
        .rows(u16::from(row.rows_in_pattern))
        .structure(row.structure)
        .member(row.member)
        .in_place_of(row.installed)
        .in_place_of_layers(if std::ptr::eq(stack, &raw const row.stack) { row.stack_before() } else { stack })
}

/// Every case whose limits the rows of a job and their holes ask for, but those of exceptions; some of them several times.
pub(crate) fn each_case<'j>(job: &'j Job, practice: &'j Practice<'j>, each: &mut dyn FnMut(Case)) {
    for row in &job.rows {
        for rivet in [row.installed, row.rivet] {
            question_of(row, rivet, &row.stack, row.layout, practice).cases(each);
        }
    }
}

fn case_of(rivet: &Part<'_>, row: &Row) -> Case {
    Case::of(rivet.series().head, rivet.alloy(), rivet.size()).in_rows(row.rows_in_pattern)
}
