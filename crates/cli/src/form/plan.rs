//! The answer of `shophead plan`.

use serde::Serialize;

use super::bases::NumberedBasis;
use super::{
    Allowable, Answer as Answered, Basis, Code, DamageKind, Direction, Disposition, DrivenHead, Figure, GivenInterval,
    GivenLength, HoleDamage, HoleStep, Interval, Length, Lengths, List, Look, Member, Mode, NotCompared, Nth,
    OrderLine, Place, Role, RowMode, RunningLoad, Standing, Structure, Toleranced, Usable,
};

/// The answer.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The title of the job.
    pub(crate) title: &'a str,
    /// What the shop's own limits of the job are called; empty without any.
    pub(crate) own_limits: &'a str,
    /// The holes file that the job names; null where it names none.
    pub(crate) holes_file: Option<HolesFile<'a>>,
    /// How many there are.
    pub(crate) counts: Counts,
    /// The rows in the order of the job file.
    pub(crate) rows: List<'a, Row<'a>>,
    /// The positions in the order of the job file.
    pub(crate) positions: List<'a, Position<'a>>,
    /// Where everything that takes driven rivets only is bucked, in the order of the work, where no single position does; otherwise empty.
    pub(crate) in_turn: Vec<Stand<'a>>,
    /// Patterns of several rows.
    pub(crate) patterns: Vec<Pattern<'a>>,
    /// The edges that are cut.
    pub(crate) edges: Vec<Edge<'a>>,
    /// Damage.
    pub(crate) damage: Vec<Damage<'a>>,
    /// Where else to look.
    pub(crate) looks: Vec<Look<'a>>,
    /// Every answer of the answers file, and whether it counts.
    pub(crate) answers: List<'a, AnswerGiven<'a>>,
    /// How the old rivets come out, the risky ones first.
    pub(crate) removal: List<'a, RemovalOf<'a>>,
    /// The parts that the job takes.
    pub(crate) order: Vec<OrderLine<'a>>,
}

/// A file with what was measured.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HolesFile<'a> {
    /// Its name, as the job has it.
    pub(crate) name: &'a str,
    /// Whether it is there; the survey makes it.
    pub(crate) is_there: bool,
}

/// How many there are.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Counts {
    /// Rows.
    pub(crate) rows: u32,
    /// Holes.
    pub(crate) holes: u32,
    /// Holes that were measured.
    pub(crate) measured: u32,
    /// Measured holes that are kept.
    pub(crate) keep: u32,
    /// Measured holes that are cleaned up.
    pub(crate) clean_up: u32,
    /// Measured holes that take an oversize shank.
    pub(crate) oversize: u32,
    /// Measured holes that take the next diameter.
    pub(crate) next_size: u32,
    /// Measured holes that are referred.
    pub(crate) refer: u32,
    /// Holes that have no rivet yet.
    pub(crate) without_rivet: u32,
    /// Findings that say refer.
    pub(crate) referrals: usize,
    /// Those of them that nobody has answered: the exit status counts these.
    pub(crate) unanswered: usize,
}

/// One row.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Row<'a> {
    /// Its name.
    pub(crate) name: &'a str,
    /// What it is; may be empty.
    pub(crate) about: &'a str,
    /// How much hangs on it.
    pub(crate) structure: Structure,
    /// What it runs along.
    pub(crate) member: Member,
    /// Where it lies.
    pub(crate) places: Vec<Place>,
    /// The rivet that was in.
    pub(crate) installed: String,
    /// The rivet that is asked for, without its length.
    pub(crate) rivet: String,
    /// How many holes it has.
    pub(crate) count: u32,
    /// Thickness of the pack.
    pub(crate) grip: Toleranced,
    /// That only driven solid rivets may go here; null where others may.
    pub(crate) solid_required: Option<SolidRequired<'a>>,
    /// What one rivet carries; null where it could not be worked out.
    pub(crate) per_rivet: Option<PerRivet<'a>>,
    /// Strength as planned over strength as installed, without unit; null where it is not known.
    pub(crate) strength_ratio: Option<f64>,
    /// The row compared with itself as installed.
    pub(crate) before_and_after: BeforeAndAfter<'a>,
    /// How the old rivets come out.
    pub(crate) removal: Removal<'a>,
    /// The holes that were measured or differ from the row.
    pub(crate) holes: List<'a, Hole<'a>>,
    #[serde(flatten)]
    pub(crate) choice: Choice<'a>,
}

/// The rivet that goes in.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Choice<'a> {
    /// The part number; null where no length fits.
    pub(crate) part: Option<String>,
    /// Its length.
    pub(crate) length: Option<Length>,
    /// The hole that it goes in.
    pub(crate) hole: GivenInterval<'a>,
    /// The length by the rule of thumb.
    pub(crate) rule_of_thumb_length: Option<Length>,
    /// Why the length is another, in a sentence; null where it is the same.
    pub(crate) difference: Option<&'static str>,
    /// The good lengths.
    pub(crate) usable: Option<Usable<'a>>,
    /// How far the tail stands out before driving.
    pub(crate) protrusion: Option<Interval>,
    /// The driven head that comes out.
    pub(crate) head: Option<DrivenHead>,
    #[serde(flatten)]
    pub(crate) lengths: Lengths,
}

/// Why only driven solid rivets may go somewhere.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SolidRequired<'a> {
    /// Why, in a sentence.
    pub(crate) because: String,
    /// Its source.
    pub(crate) basis: Basis<'a>,
}

/// What one rivet carries.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PerRivet<'a> {
    /// What it carries; null where no document covers the case.
    pub(crate) allowable: Option<Allowable<'a>>,
    /// What fails first.
    pub(crate) governing: Option<Mode>,
}

/// A row compared with itself as installed.
#[derive(Default, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct BeforeAndAfter<'a> {
    /// As installed.
    pub(crate) installed: Option<Side<'a>>,
    /// As planned.
    pub(crate) planned: Option<Side<'a>>,
    /// Planned over installed, without unit.
    pub(crate) ratio: Option<f64>,
    /// Whether anything is different.
    pub(crate) changed: Option<bool>,
    /// How many holes are stepped up.
    pub(crate) stepped_holes: Option<u32>,
    /// Why nothing could be compared; null where it was.
    pub(crate) not_compared: Option<NotCompared>,
}

/// A row, installed or planned.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Side<'a> {
    /// What the row carries on an inch.
    pub(crate) per_inch: Option<RunningLoad<'a>>,
    /// What it carries before a sheet yields.
    pub(crate) yield_per_inch: Option<RunningLoad<'a>>,
    /// Rivets on an inch.
    pub(crate) rivets_per_inch: Option<f64>,
    /// What fails first.
    pub(crate) governing: Option<Governing>,
}

/// What fails in a row.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Governing {
    /// How it fails.
    pub(crate) mode: RowMode,
    /// In which layer; null for the shank.
    pub(crate) layer: Option<Nth>,
}

/// One hole.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(untagged)]
pub(crate) enum Hole<'a> {
    Planned(Box<PlannedHole<'a>>),
    WithoutRivet(Box<HoleWithoutRivet<'a>>),
}

/// A hole with the rivet that goes in.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PlannedHole<'a> {
    #[serde(flatten)]
    pub(crate) hole: HoleInRow<'a>,
    #[serde(flatten)]
    pub(crate) choice: Choice<'a>,
}

/// One of the lines of `--lines` behind the first.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(untagged)]
pub(crate) enum Line<'a> {
    Basis(NumberedBasis),
    Alike(Box<HolesAlike<'a>>),
    Hole(Box<HoleLine<'a>>),
}

/// What becomes of holes that are alike.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HolesAlike<'a> {
    /// Its number, by which the holes name it.
    pub(crate) alike: Nth,
    /// What becomes of them.
    pub(crate) disposition: Disposition,
    /// The drill or reamer; null where nothing is cut.
    pub(crate) drill: Option<String>,
    /// Its diameter.
    pub(crate) drill_diameter: Option<Length>,
    /// Each step that was tried; empty where they were not measured.
    pub(crate) steps: Vec<HoleStep<'a>>,
    /// Whether the rivet goes in that goes into most of the row, with all that the row says of it.
    pub(crate) as_row: bool,
    /// The hole that the rivet of the row goes in; null where another rivet goes in, or none.
    pub(crate) hole: Option<GivenInterval<'a>>,
    /// Another rivet that goes in; null where that of the row does, and where none is planned.
    pub(crate) choice: Option<Choice<'a>>,
    /// What was found about each of them.
    pub(crate) findings: Vec<super::Finding<'a>>,
}

/// One hole.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HoleLine<'a> {
    /// Its row.
    pub(crate) row: &'a str,
    /// Its number in the row.
    pub(crate) hole_number: Nth,
    /// What is special about it; may be empty.
    pub(crate) about: &'a str,
    /// As measured; null where it was not.
    pub(crate) measured: Option<Measured<'a>>,
    /// The answer, where it was referred and every referral is answered; null otherwise.
    pub(crate) answer: Option<Answered<'a>>,
    /// The number of the holes that it is like, itself among them.
    pub(crate) alike: Nth,
}

/// A hole that has no rivet yet; nothing is said about one.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HoleWithoutRivet<'a> {
    #[serde(flatten)]
    pub(crate) hole: HoleInRow<'a>,
    /// Null: no rivet is planned.
    pub(crate) part: (),
}

/// What is said of every hole.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HoleInRow<'a> {
    /// Its number in the row.
    pub(crate) hole_number: Nth,
    /// What is special about it; may be empty.
    pub(crate) about: &'a str,
    /// As measured; null where it was not.
    pub(crate) measured: Option<Measured<'a>>,
    /// What becomes of it.
    pub(crate) disposition: Disposition,
    /// The drill or reamer; null where nothing is cut.
    pub(crate) drill: Option<String>,
    /// Its diameter.
    pub(crate) drill_diameter: Option<Length>,
    /// The answer, where it was referred and every referral is answered; null otherwise.
    pub(crate) answer: Option<Answered<'a>>,
    /// Each step that was tried; empty where it was not measured.
    pub(crate) steps: Vec<HoleStep<'a>>,
}

/// A hole as measured.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Measured<'a> {
    /// Longest axis.
    pub(crate) major: Length,
    /// Shortest axis.
    pub(crate) minor: Length,
    /// What else is wrong.
    pub(crate) condition: HoleDamage,
    /// Which way the longest axis lies to the nearest edge; null where nobody said it.
    pub(crate) direction: Option<Direction>,
    /// The drill that it was opened with before it was measured; null where it is as it came out.
    pub(crate) opened: Option<String>,
    /// What was noted; may be empty.
    pub(crate) remark: &'a str,
    /// Who measured it, when and with what.
    pub(crate) taken: super::Taken,
}

/// One position.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Position<'a> {
    /// Its name.
    pub(crate) name: &'a str,
    /// What it is; may be empty.
    pub(crate) about: &'a str,
    /// Whether every row that takes driven rivets only can be bucked.
    pub(crate) serves: bool,
    /// The rows that cannot be bucked.
    pub(crate) blocked: Vec<BlockedRow<'a>>,
    /// Row by row, without the holes that have room of their own.
    pub(crate) rows: Vec<RowThere<'a>>,
    /// Holes with room of their own.
    pub(crate) holes: Vec<HolesThere<'a>>,
    /// Whether it takes the least effort of those in which every such row can be bucked.
    pub(crate) least_effort: bool,
    /// The time that it takes; null where no minutes were given.
    pub(crate) minutes: Minutes,
}

/// One row that cannot be bucked.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct BlockedRow<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// Whether only driven solid rivets may go there.
    pub(crate) must_be_driven: bool,
    /// The room behind it; null where there is none.
    pub(crate) room: Option<Figure>,
    /// The room that is needed; null where it is not known.
    pub(crate) needed: Option<Figure>,
}

/// One row in a position.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowThere<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// Whether only driven solid rivets may go there.
    pub(crate) must_be_driven: bool,
    /// Whether it can be bucked.
    pub(crate) reachable: bool,
    /// The room behind it.
    pub(crate) clearance: Clearance,
    /// The room that is needed.
    pub(crate) needed: Option<Length>,
    /// The room that is missing; null where none is or it is not known.
    pub(crate) missing: Option<Length>,
}

/// Holes of a row with room of their own, in a position.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HolesThere<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// The holes.
    pub(crate) holes: &'a [u32],
    /// Whether only driven solid rivets may go there.
    pub(crate) must_be_driven: bool,
    /// Whether they can be bucked.
    pub(crate) reachable: bool,
    /// The room behind them.
    pub(crate) clearance: Clearance,
    /// The room that is needed.
    pub(crate) needed: Option<Length>,
    /// The room that is missing; null where none is or it is not known.
    pub(crate) missing: Option<Length>,
    /// The thickest bar that goes in behind the tail: open for any, closed for none.
    pub(crate) bar: Clearance,
}

/// A position in the order of the work, where no single one lets everything be bucked.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Stand<'a> {
    /// The position.
    pub(crate) position: &'a str,
    /// What is bucked there.
    pub(crate) rows: Vec<Bucked<'a>>,
}

/// A row, or holes of it, bucked in one position.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Bucked<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// Only these holes; empty for the row as a whole.
    pub(crate) holes: Vec<u32>,
    /// Without these holes.
    pub(crate) except: Vec<u32>,
}

/// The room behind a row: open is as much as anybody needs, closed none.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(untagged)]
pub(crate) enum Clearance {
    Word(OpenOrClosed),
    Room(Length),
}

impl From<shophead::access::Clearance> for Clearance {
    fn from(clearance: shophead::access::Clearance) -> Clearance {
        match clearance {
            shophead::access::Clearance::Open => Clearance::Word(OpenOrClosed::Open),
            shophead::access::Clearance::Closed => Clearance::Word(OpenOrClosed::Closed),
            shophead::access::Clearance::Room(room) => Clearance::Room(room.into()),
        }
    }
}

/// As much as anybody needs, or none.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub(crate) enum OpenOrClosed {
    Open,
    Closed,
}

/// Time.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Minutes {
    /// To set it up, in minutes.
    pub(crate) set_up: Option<f64>,
    /// To drill the old rivets out, in minutes.
    pub(crate) drill_out: Option<f64>,
    /// To drive the new ones, in minutes.
    pub(crate) drive: Option<f64>,
    /// Together, in minutes; null where one of them is not known.
    pub(crate) total: Option<f64>,
}

/// One pattern.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Pattern<'a> {
    /// Its name.
    pub(crate) name: &'a str,
    /// Its rows.
    pub(crate) rows: Vec<&'a str>,
    /// How many holes it has.
    pub(crate) holes: u32,
    /// How many need a larger rivet.
    pub(crate) wanting: u32,
    /// How many can have one within the limits.
    pub(crate) stepped: u32,
    /// How many may be stepped up; null without a limit.
    pub(crate) steps_limit: Option<CountLimit<'a>>,
    /// How many neighbours may be; null without a limit.
    pub(crate) neighbours_limit: Option<CountLimit<'a>>,
}

/// How many may be.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct CountLimit<'a> {
    /// How many.
    pub(crate) value: u32,
    /// Its source.
    pub(crate) basis: Basis<'a>,
}

/// One edge.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Edge<'a> {
    /// Its name.
    pub(crate) name: &'a str,
    /// What it is; may be empty.
    pub(crate) about: &'a str,
    /// Given by corners, or measured at stations.
    pub(crate) kind: EdgeKind,
    /// The two points of the line that its stations are measured along; null for the x axis, and for corners.
    pub(crate) line: Option<[super::Point; 2]>,
    /// What it is marked out from.
    pub(crate) table: Vec<Mark>,
    /// The rule between stations; null for corners.
    pub(crate) interpolation: Option<Basis<'a>>,
    /// The rows with coordinates that are checked against it.
    pub(crate) rows: Vec<RowAtEdge<'a>>,
}

/// Given by corners, or measured at stations.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub(crate) enum EdgeKind {
    Points,
    Stations,
}

/// One mark.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Mark {
    /// Along the edge, or x.
    pub(crate) station: Length,
    /// Across it, or y.
    pub(crate) offset: Length,
    /// Whether it was measured there, not worked out.
    pub(crate) measured: bool,
}

/// One row beside an edge.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowAtEdge<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// The closest hole.
    pub(crate) closest: ClosestHole,
    /// The holes that are too close.
    pub(crate) too_close: &'a [u32],
    /// The holes beyond the ends of the edge.
    pub(crate) beyond: &'a [u32],
    /// The distance of each hole, in order.
    pub(crate) distances: Vec<Length>,
}

/// The closest hole to an edge.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct ClosestHole {
    /// The hole.
    pub(crate) hole_number: Nth,
    /// Its distance to the edge.
    pub(crate) distance: Length,
}

/// One place that is damaged.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Damage<'a> {
    /// What it is.
    pub(crate) kind: DamageKind,
    /// Where it is.
    pub(crate) place: &'a str,
    /// The row beside it.
    pub(crate) row: Option<&'a str>,
    /// The hole beside it.
    pub(crate) hole: Option<Nth>,
    /// Where it is, in coordinates.
    pub(crate) at: Option<super::Point>,
    /// The layer that it is in.
    pub(crate) member: Option<Role>,
    /// How long it is.
    pub(crate) length: Option<Length>,
    /// How deep it is.
    pub(crate) depth: Option<Length>,
    /// How thick the layer is.
    pub(crate) thickness: Option<Length>,
    /// Whether it has to be referred.
    pub(crate) must_refer: bool,
}

/// One answer of the answers file.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct AnswerGiven<'a> {
    #[serde(flatten)]
    pub(crate) answer: Answered<'a>,
    /// What it is to.
    pub(crate) subject: String,
    /// The codes that it answers.
    pub(crate) findings: Vec<Code>,
    /// The measure that it was given for, as it is written.
    pub(crate) measured: &'a str,
    /// Whether it counts; if not, why.
    pub(crate) standing: Standing,
}

/// How a rivet comes out.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Removal<'a> {
    /// The drill for the head; null where none is that small.
    pub(crate) drill: Option<String>,
    /// Its diameter.
    pub(crate) drill_diameter: Option<Length>,
    /// How deep, to the base of the head; null where it is not known.
    pub(crate) depth: Option<GivenLength<'a>>,
    /// The punch is thinner than this.
    pub(crate) punch_under: Length,
    /// Whether the sheet is held beside the driven head.
    pub(crate) support: bool,
    /// What makes it risky, in sentences; empty where nothing does.
    pub(crate) risks: Vec<&'static str>,
}

/// How the rivets of a row come out, or that of one hole.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RemovalOf<'a> {
    #[serde(flatten)]
    pub(crate) removal: Removal<'a>,
    /// The row.
    pub(crate) row: &'a str,
    /// The hole; null for the whole row.
    pub(crate) hole: Option<Nth>,
}
