//! A job as it is read: checked values only, in the words of `JOB-FILE.md`.

use jiff::civil::Date;
use shophead::access::{Clearance, Minutes, Rates};
use shophead::answer::Ruling;
use shophead::basis::{Basis, Document};
use shophead::damage::Damaged;
use shophead::drill::Drill;
use shophead::finding::Code;
use shophead::hole::AsFound;
use shophead::layout::{Point, RowLayout, in_line};
use shophead::length::{Bare, Length, Toleranced};
use shophead::practice::{Entered, Limit, Name, Practice, Scope, Value};
use shophead::rivet::part::Part;
use shophead::stack::{Role, Stack};
use shophead::structure::{Member, Place, Structure};
use shophead::trim::{BaseLine, Station};

/// A job: one panel, from its job file.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Job {
    /// What the job is.
    pub title: String,
    /// The built-in practice that it follows.
    pub practice: &'static Practice<'static>,
    /// Whether it says so itself; otherwise the practice is the usual one.
    pub names_practice: bool,
    /// The shop's own limits on top of it.
    pub own_limits: OwnLimits,
    /// What a number without a unit is in the job and in its CSV files.
    pub bare: Bare,
    /// The holes file that it names.
    pub holes_file: Option<NamedFile>,
    /// The answers file that it names.
    pub answers_file: Option<NamedFile>,
    /// Answers to what was referred, in the order of that file.
    pub answers: Vec<Answer>,
    /// Spare rivets in percent of those needed.
    pub spares_percent: u32,
    /// The work positions, in the order in which they are named.
    pub positions: Vec<Position>,
    /// Which way the axes of its coordinates point.
    pub axes: Axes,
    /// The rows, in the order in which they are named.
    pub rows: Vec<Row>,
    /// The edges that the panel is cut to.
    pub edges: Vec<PanelEdge>,
    /// Damage beside the holes.
    pub damage: Vec<DamageFound>,
    /// Where else to look.
    pub looks: Vec<Look>,
    /// The shop's minutes as the job has them; those of the limits file count where it says nothing.
    pub minutes: ShopMinutes,
}

/// Which way the axes of the coordinates of a job point, where it says so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Axes {
    /// Towards the nose.
    pub forward: Option<Axis>,
    /// Towards the middle of the airframe.
    pub inboard: Option<Axis>,
}

/// A direction along an axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// Greater x.
    X,
    /// Lesser x.
    MinusX,
    /// Greater y.
    Y,
    /// Lesser y.
    MinusY,
}

impl Axis {
    /// The words for them.
    pub const WORDS: [(&'static str, Axis); 4] =
        [("x", Axis::X), ("-x", Axis::MinusX), ("y", Axis::Y), ("-y", Axis::MinusY)];

    /// Along x and along y: one of them is 0.
    #[must_use]
    pub const fn along(self) -> (i8, i8) {
        match self {
            Axis::X => (1, 0),
            Axis::MinusX => (-1, 0),
            Axis::Y => (0, 1),
            Axis::MinusY => (0, -1),
        }
    }

    /// Whether both lie on one line.
    #[must_use]
    pub const fn is_along(self, other: Axis) -> bool {
        (self.along().0 == 0) == (other.along().0 == 0)
    }
}

/// A file that a job names and that need not be there yet.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct NamedFile {
    /// Its name, as the job has it.
    pub name: String,
    /// Whether it was there.
    pub is_there: bool,
}

/// An answer to something that was referred.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Answer {
    /// What it is to.
    pub to: AnswerTo,
    /// What is to be done.
    pub ruling: Ruling,
    /// Who answered.
    pub by: String,
    /// Under which document.
    pub document: String,
    /// When.
    pub date: Date,
    /// The findings that it answers.
    pub findings: Vec<Code>,
    /// The measure that it was given for.
    pub given_for: GivenFor,
    /// The rivet that is to go in; with a length where that is part of the answer.
    pub rivet: Option<Part<'static>>,
    /// The blind rivet that is to go in, as it is written: none is known here.
    pub blind: Option<String>,
    /// The drill or reamer to open the hole with.
    pub drill: Option<Drill>,
    /// What else was said; may be empty.
    pub note: String,
}

/// What an answer is to.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum AnswerTo {
    /// The job as a whole.
    Job,
    /// A row, by its place in [`Job::rows`].
    Row(usize),
    /// A hole of a row.
    Hole(usize, u32),
    /// An edge, by its place in [`Job::edges`].
    Edge(usize),
    /// Damage, by its place in [`Job::damage`].
    Damage(usize),
    /// A pattern.
    Pattern(String),
}

/// The measure that an answer was given for.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct GivenFor {
    /// As it is written; `none` where the finding has no figure.
    pub text: String,
    /// The same as the measure of a hole, where it is one.
    pub hole: Option<AsFound>,
}

/// A shop's own minutes per operation.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct ShopMinutes {
    /// Getting into any position.
    pub set_up: Option<Minutes>,
    /// Getting into single positions, by their names.
    pub set_up_of: Vec<(String, Minutes)>,
    /// For each rivet.
    pub rates: Rates,
}

impl ShopMinutes {
    /// Getting into a position; what one position says comes before what holds for any.
    fn set_up(&self, position: &str) -> Option<Minutes> {
        let own = self.set_up_of.iter().find(|(name, _)| name == position);
        own.map(|(_, minutes)| *minutes).or(self.set_up)
    }
}

impl Job {
    /// The minutes for getting into a position.
    #[must_use]
    pub fn set_up(&self, position: &Position) -> Option<Minutes> {
        self.minutes.set_up(&position.name).or_else(|| self.own_limits.minutes.set_up(&position.name))
    }

    /// The minutes for each rivet.
    #[must_use]
    pub fn rates(&self) -> Rates {
        let (job, shop) = (self.minutes.rates, self.own_limits.minutes.rates);
        Rates::default()
            .drill_out(job.drill_out.or(shop.drill_out))
            .drive_open(job.drive_open.or(shop.drive_open))
            .drive_close(job.drive_close.or(shop.drive_close))
    }
}

/// An edge that the panel is cut to.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct PanelEdge {
    /// Its name.
    pub name: String,
    /// What it is; may be empty.
    pub about: String,
    /// Where it runs.
    pub shape: EdgeShape,
    /// How far apart the marks are that it is marked out from; at the stations only where it does not say.
    pub every: Option<Length>,
    /// The rows that are checked against it, by their place in [`Job::rows`]; every row whose holes have coordinates where it does not say.
    pub rows: Option<Vec<usize>>,
}

/// Where an edge runs.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum EdgeShape {
    /// Corners with straight lines between them, at least two.
    Corners(Vec<Point>),
    /// Offsets that were measured from the old part, checked by the core, and the line that they were measured along where it is not the x axis.
    Stations(Vec<Station>, Option<BaseLine>),
}

/// Damage beside the holes.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct DamageFound {
    /// Where, in words.
    pub place: String,
    /// The row that it lies beside, by its place in [`Job::rows`].
    pub row: Option<usize>,
    /// The hole of that row.
    pub hole: Option<u32>,
    /// Where, in coordinates.
    pub at: Option<Point>,
    /// What it is in.
    pub member: Option<Role>,
    /// What was measured.
    pub found: Damaged,
}

/// A place to look at as well.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Look {
    /// Where.
    pub place: String,
    /// Why.
    pub why: String,
    /// What was found there; nothing until somebody has looked.
    pub found: Option<String>,
}

/// A shop's own limits, from a limits file.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct OwnLimits {
    /// What the set is called.
    pub title: String,
    /// The limits in the order of the file.
    pub limits: Vec<OwnLimit>,
    /// Its minutes per operation.
    pub minutes: ShopMinutes,
    /// Its figures of series, materials, rivets and flush joints; their documents stand behind those of the limits.
    pub entered: Box<Entered>,
    /// The documents of those figures.
    pub cited: Vec<Cited>,
}

/// A document that figures were entered from.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Cited {
    /// The document, and that the shop entered it.
    pub document: String,
    /// The place in it; may be empty.
    pub place: String,
}

/// One of a shop's own limits.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct OwnLimit {
    /// Which limit.
    pub name: Name,
    /// What it holds for.
    pub scope: Scope,
    /// How much.
    pub value: Value,
    /// The shop's document.
    pub document: String,
    /// The place in it.
    pub place: String,
}

impl OwnLimits {
    /// All limits and the documents of limits and figures, as [`Practice::with_own`] takes them. The documents borrow their texts from here.
    /// The figures themselves are `entered`, as [`Practice::with_entered`] takes them.
    #[must_use]
    pub fn lists(&self) -> (Vec<Limit>, Vec<Document<'_>>) {
        let in_core =
            |(place, limit): (usize, &OwnLimit)| Limit::new(limit.name, limit.scope, limit.value, Basis::own(place));
        let limits = self.limits.iter().enumerate().map(in_core).collect();
        let documents = self.limits.iter().map(|limit| Document { document: &limit.document, place: &limit.place });
        let cited = self.cited.iter().map(|cited| Document { document: &cited.document, place: &cited.place });
        (limits, documents.chain(cited).collect())
    }
}

/// A position of the assembly in which work is done.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Position {
    /// Its name.
    pub name: String,
    /// What it means; may be empty.
    pub about: String,
}

/// A row of rivets.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Row {
    /// Its name.
    pub name: String,
    /// What it joins; may be empty.
    pub about: String,
    /// How much hangs on it.
    pub structure: Structure,
    /// The member it runs along.
    pub member: Member,
    /// Places with rules of their own that it lies in.
    pub places: Vec<Place>,
    /// What is installed.
    pub installed: Part<'static>,
    /// What is to be installed, without length: the plan chooses it.
    pub rivet: Part<'static>,
    /// The layers under most of its rivets.
    pub stack: Stack,
    /// The layers that the installed rivets go through, where those are others.
    pub installed_stack: Option<Stack>,
    /// How many holes it has; they are numbered from 1.
    pub count: u32,
    /// Where its holes are, when the job says so: one point a hole.
    pub points: Option<Vec<Point>>,
    /// Where its first hole is and which way it runs, when the job says that instead: the holes follow by the pitch.
    pub line: Option<Line>,
    /// The pattern that it belongs to, when it is not one by itself.
    pub pattern: Option<String>,
    /// How many rows its pattern has.
    pub rows_in_pattern: u8,
    /// Its distances.
    pub layout: RowLayout,
    /// The hole that most of its rivets sit in, where it was measured; otherwise the practice's hole is assumed.
    pub hole: Option<Toleranced>,
    /// Holes that were measured, by rising number.
    pub measured: Vec<MeasuredHole>,
    /// Holes with layers or an edge distance of their own.
    pub exceptions: Vec<Exception>,
    /// The room behind it in each position of the job, in the order of [`Job::positions`].
    pub clearance: Vec<Clearance>,
}

impl Row {
    /// The layers that the installed rivets go through.
    #[must_use]
    pub fn stack_before(&self) -> &Stack {
        self.installed_stack.as_ref().unwrap_or(&self.stack)
    }

    /// Whether the same family of rivet goes into the same layers.
    #[must_use]
    pub fn is_unchanged(&self) -> bool {
        self.installed.without_length() == self.rivet && *self.stack_before() == self.stack
    }

    /// Where a hole is, counted from 1, if the job says.
    #[must_use]
    pub fn place_of(&self, hole: u32) -> Option<Point> {
        let before = hole.checked_sub(1)?;
        match (&self.points, self.line) {
            (Some(points), _) => points.get(usize::try_from(before).ok()?).copied(),
            (None, Some(line)) => in_line(line.start, line.along, self.layout.pitch?, before),
            (None, None) => None,
        }
    }

    /// Whether the job says where its holes are.
    #[must_use]
    pub fn has_places(&self) -> bool {
        self.place_of(1).is_some()
    }
}

/// A straight row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Line {
    /// Where hole 1 is.
    pub start: Point,
    /// Which way the others follow; how long it is does not matter.
    pub along: Point,
}

/// A hole as somebody measured it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct MeasuredHole {
    /// Its number in the row.
    pub number: u32,
    /// What was found.
    pub as_found: AsFound,
    /// The drill or reamer that it was opened with before it was measured; `None` where it is as it came out.
    pub opened: Option<Drill>,
    /// How it was before it was opened, where that was measured, too.
    pub before: Option<AsFound>,
    /// What somebody noted; may be empty.
    pub remark: String,
    /// Who measured it, when and with what.
    pub taken: Taken,
}

/// Who measured something, when and with what, as far as it was written down.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Taken {
    /// Who; may be empty.
    pub by: String,
    /// When.
    pub date: Option<Date>,
    /// The gauge, by its number; may be empty.
    pub gauge: String,
}

impl Taken {
    /// Whether nothing was written down.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Taken::default()
    }
}

/// `A. Example, 2026-11-25, gauge PG-14`.
impl std::fmt::Display for Taken {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let by = Some(self.by.clone()).filter(|by| !by.is_empty());
        let date = self.date.map(|date| date.to_string());
        let gauge = Some(format!("gauge {}", self.gauge)).filter(|_| !self.gauge.is_empty());
        let parts: Vec<String> = [by, date, gauge].into_iter().flatten().collect();
        f.write_str(&parts.join(", "))
    }
}

impl MeasuredHole {
    /// The same hole measured once more: what it was before it was opened comes from the measure before.
    #[must_use]
    pub fn after(mut self, earlier: Option<&MeasuredHole>) -> MeasuredHole {
        self.before = earlier
            .filter(|_| self.opened.is_some())
            .and_then(|earlier| if earlier.opened == self.opened { earlier.before } else { Some(earlier.as_found) });
        self
    }
}

/// Holes of a row that differ from the others.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Exception {
    /// Their numbers.
    pub holes: Vec<u32>,
    /// Why; may be empty.
    pub about: String,
    /// The layers under them.
    pub stack: Stack,
    /// Their distances where they differ from the row's.
    pub layout: RowLayout,
    /// The room behind them in each position of the job, where it is not as behind the row; empty where none differs.
    pub clearance: Vec<Option<Clearance>>,
}

impl Exception {
    /// Whether the room behind these holes is not as behind the row.
    #[must_use]
    pub fn has_own_room(&self) -> bool {
        self.clearance.iter().any(Option::is_some)
    }
}
