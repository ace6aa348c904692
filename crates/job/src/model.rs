//! A job as it is read: checked values only, in the words of `JOB-FILE.md`.

use shophead::access::Clearance;
use shophead::basis::Basis;
use shophead::hole::AsFound;
use shophead::layout::{Point, RowLayout};
use shophead::length::Toleranced;
use shophead::practice::{Limit, Name, Practice, Scope, Value};
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::structure::{Member, Place, Structure};

/// A job: one panel, from its job file.
#[derive(Clone, Debug)]
pub struct Job {
    /// What the job is.
    pub title: String,
    /// The built-in practice that it follows.
    pub practice: &'static Practice<'static>,
    /// The shop's own limits on top of it.
    pub own_limits: OwnLimits,
    /// Spare rivets in percent of those needed.
    pub spares_percent: u32,
    /// The work positions, in the order in which they are named.
    pub positions: Vec<Position>,
    /// The rows, in the order in which they are named.
    pub rows: Vec<Row>,
}

/// A shop's own limits, from a limits file.
#[derive(Clone, Debug, Default)]
pub struct OwnLimits {
    /// What the set is called.
    pub title: String,
    /// The limits in the order of the file.
    pub limits: Vec<OwnLimit>,
}

/// One of a shop's own limits.
#[derive(Clone, Debug)]
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
    /// The limits as core takes them; they borrow the texts of this set.
    #[must_use]
    pub fn limits(&self) -> Vec<Limit<'_>> {
        let limit = |own| {
            let OwnLimit { name, scope, value, document, place } = own;
            Limit { name: *name, scope: *scope, value: *value, basis: Basis::shop(document, place) }
        };
        self.limits.iter().map(limit).collect()
    }
}

/// A position of the assembly in which work is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Position {
    /// Its name.
    pub name: String,
    /// What it means; may be empty.
    pub about: String,
}

/// A row of rivets.
#[derive(Clone, Debug)]
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
    /// How many holes it has; they are numbered from 1.
    pub count: u32,
    /// Where its holes are, when the job says so: one point a hole.
    pub points: Option<Vec<Point>>,
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

/// A hole as somebody measured it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasuredHole {
    /// Its number in the row.
    pub number: u32,
    /// What was found.
    pub as_found: AsFound,
    /// What somebody noted; may be empty.
    pub remark: String,
}

/// Holes of a row that differ from the others.
#[derive(Clone, Debug)]
pub struct Exception {
    /// Their numbers.
    pub holes: Vec<u32>,
    /// Why; may be empty.
    pub about: String,
    /// The layers under them.
    pub stack: Stack,
    /// Their distances where they differ from the row's.
    pub layout: RowLayout,
}
