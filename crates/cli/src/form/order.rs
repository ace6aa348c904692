//! The answer of `shophead order`.

use serde::Serialize;

use super::{Answer as Answered, Code, HolesOfRow, Interval, Length, Nth, OrderLine, Window};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The title of the job.
    pub(crate) title: &'a str,
    /// The date of the order: year, month, day.
    pub(crate) date: String,
    /// Spare rivets in percent of those needed.
    pub(crate) spares_percent: u32,
    /// How many holes the job has.
    pub(crate) holes: u32,
    /// How many of them were measured: the rivets of the others may change.
    pub(crate) measured: u32,
    /// How many holes have no rivet yet and are not in the order.
    pub(crate) without_rivet: u32,
    /// The parts, by number.
    pub(crate) lines: Vec<OrderLine<'a>>,
    /// What is not in the order, and why.
    pub(crate) not_ordered: Vec<NotOrdered<'a>>,
    /// What else on the shelf would do; empty without a stock list.
    pub(crate) alternatives: Vec<Alternative<'a>>,
    /// The tools that the job takes.
    pub(crate) tools: Vec<Tool<'a>>,
    /// What was read of the stock list; null without one.
    pub(crate) shelf: Option<Shelf>,
}

/// Holes that wait for the same answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct NotOrdered<'a> {
    /// The row.
    pub(crate) row: &'a str,
    /// Their numbers.
    pub(crate) holes: Vec<Nth>,
    /// Whether it is every hole of the row.
    pub(crate) whole_row: bool,
    /// The codes of what was found.
    pub(crate) codes: Vec<Code>,
    /// The same in sentences.
    pub(crate) why: String,
    /// The answer that leaves no rivet to order; null where there is none.
    pub(crate) answer: Option<Answered<'a>>,
}

/// One part instead of another.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Alternative<'a> {
    /// The part that is wanting.
    pub(crate) part: String,
    /// Another length on the shelf that is within limits too.
    pub(crate) alternative: String,
    /// How many of it are left over on the shelf.
    pub(crate) free: u32,
    /// For how many holes it would do.
    pub(crate) holes: u32,
    /// In which rows.
    pub(crate) rows: Vec<&'a str>,
    /// The driven head that it makes there, from the least case to the greatest; null where it is not known.
    pub(crate) head: Option<HeadMade>,
    /// What to drive its head to there; null where no one height is right for all.
    pub(crate) window: Option<Window>,
    /// The holes of the part that it would not do for.
    pub(crate) not_for: Vec<HolesOfRow<'a>>,
}

/// Driven heads, from the least case to the greatest.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct HeadMade {
    /// Its diameter.
    pub(crate) diameter: Interval,
    /// The height that it is driven to.
    pub(crate) height: Length,
}

/// One tool. Kinds are added.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub(crate) enum Tool<'a> {
    /// Drills the manufactured head off.
    HeadDrill {
        /// For how many holes.
        holes: u32,
        /// For which rows.
        rows: Vec<&'a str>,
        /// The drill.
        drill: String,
        /// Its diameter.
        diameter: Length,
    },
    /// Opens a hole.
    HoleDrillOrReamer {
        /// For how many holes.
        holes: u32,
        /// For which rows.
        rows: Vec<&'a str>,
        /// The drill or reamer.
        drill: String,
        /// Its diameter.
        diameter: Length,
    },
    /// Drives the shank out.
    Punch {
        /// For how many holes.
        holes: u32,
        /// For which rows.
        rows: Vec<&'a str>,
        /// It is thinner than this.
        under: Length,
    },
    /// Tells whether a hole is within its limits.
    HoleGauge {
        /// For how many holes.
        holes: u32,
        /// For which rows.
        rows: Vec<&'a str>,
        /// The rivet that the hole is for.
        rivet: String,
        /// The least hole; null where it is not known.
        min: Option<Length>,
        /// The greatest hole; null where it is not known.
        max: Option<Length>,
    },
}

/// A stock list as it was read.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Shelf {
    /// How many different rivets are on it.
    pub(crate) parts: usize,
    /// How many lines are about other parts and left out.
    pub(crate) foreign: u32,
    /// Lines that were changed in reading, or left out.
    pub(crate) notes: Vec<Note>,
}

/// One line of a stock list.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Note {
    /// The line of the file.
    pub(crate) line: Nth,
    /// What is to be said of it.
    pub(crate) what: String,
}
