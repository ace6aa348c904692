//! The answer of `shophead splice`.

use serde::Serialize;

use super::{Allowable, Basis, CountFrom, Force, GivenLength, Length, Mode, Nth};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The rivet without its length.
    pub(crate) rivet: String,
    /// The width that is spliced.
    pub(crate) width: Length,
    /// Rivets on an inch of width, each side of the splice.
    pub(crate) rivets_per_inch: Option<f64>,
    /// Rivets in all, each side of the splice.
    pub(crate) rivets_total: Option<u32>,
    /// What the count comes from.
    pub(crate) governing: Option<Mode>,
    /// Whether a published table or the strengths gave the count; null where neither could.
    pub(crate) from: Option<CountFrom>,
    /// The count by the published table; null where none covers the case.
    pub(crate) table: Option<Table<'a>>,
    /// The count by a second table that names the same sheet.
    pub(crate) also_named_by: Option<Table<'a>>,
    /// The count by the strengths; null where there is none to work with.
    pub(crate) strength: Option<Strength<'a>>,
    /// As laid out; null where there is no count.
    pub(crate) rows: Option<Rows<'a>>,
    /// What the circular's own example does: the count of its table alone; null where no table counts.
    pub(crate) example: Option<Rows<'a>>,
    /// More rows that develop more of the sheet with as many rivets; null where none do.
    pub(crate) better: Option<Rows<'a>>,
    /// How many rivets one row takes at the least pitch.
    pub(crate) most_per_row: Option<u32>,
    /// The least pitch.
    pub(crate) least_pitch: Option<GivenLength<'a>>,
}

/// The count by a published table.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Table<'a> {
    /// The document.
    pub(crate) document: &'a str,
    /// The table in it.
    pub(crate) place: &'a str,
    /// Rivets on an inch of width, with the reduction for the member.
    pub(crate) rivets_per_inch: f64,
    /// Rivets in all.
    pub(crate) rivets_total: u32,
    /// Rivets on an inch of width before it.
    pub(crate) before_reduction: f64,
    /// The printed cell, in rivets on an inch; null where the table has none.
    pub(crate) printed: Option<f64>,
    /// The formula of the table, in rivets on an inch.
    pub(crate) formula: Option<f64>,
    /// What the cell comes from.
    pub(crate) governing: Mode,
    /// The line of the table: the thickness of the sheet or the next one.
    pub(crate) thickness: Length,
    /// Source of the cell.
    pub(crate) basis: Basis<'a>,
    /// Source of the reduction.
    pub(crate) reduction_basis: Basis<'a>,
}

/// The count by the strengths.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Strength<'a> {
    /// What one rivet carries.
    pub(crate) per_rivet: Option<Allowable<'a>>,
    /// Distance from the centre to the nearest edge.
    pub(crate) edge: GivenLength<'a>,
    /// What the sheet carries over the whole width.
    pub(crate) sheet_load: Option<Force>,
    /// Rivets on an inch of width.
    pub(crate) rivets_per_inch: Option<f64>,
    /// Rivets in all.
    pub(crate) rivets_total: Option<u32>,
    /// What fails first.
    pub(crate) governing: Option<Mode>,
}

/// The splice as laid out.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Rows<'a> {
    /// How many rows.
    pub(crate) rows: Nth,
    /// Rivets in a row.
    pub(crate) per_row: u32,
    /// Rivets in all rows.
    pub(crate) total: u32,
    /// From hole to hole.
    pub(crate) pitch: Length,
    /// Whether the number of rows was given.
    pub(crate) given: bool,
    /// Where the rows go; null where the practice has no limits.
    pub(crate) pattern: Option<Pattern<'a>>,
    /// What the splice carries over what the sheet does, by the strengths, without unit.
    pub(crate) efficiency: Option<f64>,
}

/// Where the rows go.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Pattern<'a> {
    /// From the edge to the first row.
    pub(crate) edge: GivenLength<'a>,
    /// From row to row.
    pub(crate) transverse_pitch: GivenLength<'a>,
    /// How far the sheets lap at least.
    pub(crate) overlap: Length,
    /// From the side of the sheet to the first rivet.
    pub(crate) first: Length,
}
