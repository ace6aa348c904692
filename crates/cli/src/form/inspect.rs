//! The answer of `shophead inspect`.

use serde::Serialize;

use super::{Basis, Code, Interval, Look, Nth, OrderLine, Remedy, State};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The title of the job.
    pub(crate) title: &'a str,
    /// How many rivets are accepted.
    pub(crate) accepted: u32,
    /// How many are rejected.
    pub(crate) rejected: u32,
    /// How many were looked at.
    pub(crate) looked_at: u32,
    /// How many heads were measured both ways.
    pub(crate) measured: u32,
    /// How many holes the job has.
    pub(crate) holes: u32,
    /// The state of the whole job.
    pub(crate) state: State,
    /// The rivets that were looked at, in the order of the file.
    pub(crate) lines: Vec<Line<'a>>,
    /// Row by row.
    pub(crate) rows: Vec<Row<'a>>,
    /// Where else to look, and what was found there.
    pub(crate) looks: Vec<Look<'a>>,
    /// What to order again.
    pub(crate) order: Vec<OrderLine<'a>>,
}

/// One driven rivet.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Line<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// The hole in it.
    pub(crate) hole: Nth,
    /// The rivet planned there; null where there is none.
    pub(crate) rivet: Option<String>,
    /// Diameter of the driven head as measured.
    pub(crate) diameter: Option<Interval>,
    /// Its height as measured.
    pub(crate) height: Option<Interval>,
    /// What was seen, as written; may be empty.
    pub(crate) condition: String,
    /// What was noted; may be empty.
    pub(crate) remark: String,
    /// Who looked at it, when and with what.
    pub(crate) taken: super::Taken,
    /// The batch that the rivet came from; may be empty.
    pub(crate) batch: String,
    /// Who drove it; may be empty.
    pub(crate) driven_by: String,
    /// How many earlier lines there are for the same hole.
    pub(crate) earlier: u32,
    /// Whether it is accepted.
    pub(crate) accepted: bool,
    /// Why not.
    pub(crate) reasons: Vec<Code>,
    /// What to do about a rejected rivet.
    pub(crate) remedy: Option<ToDo<'a>>,
    /// The part that goes in instead.
    pub(crate) replacement: Option<String>,
}

/// What to do about a rejected rivet.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct ToDo<'a> {
    /// What to do.
    pub(crate) r#do: Remedy,
    /// Its source.
    pub(crate) basis: Basis<'a>,
}

/// One row.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Row<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// How many holes it has.
    pub(crate) holes: u32,
    /// How many were looked at.
    pub(crate) looked_at: u32,
    /// How many are accepted.
    pub(crate) accepted: u32,
    /// How many are rejected.
    pub(crate) rejected: u32,
}
