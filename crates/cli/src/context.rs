//! What the options that every command takes come to.

use std::io::IsTerminal;

use shophead::practice::Practice;
use shophead_job::model::OwnLimits;
use shophead_job::words::Units;

use crate::args::{Common, Format};
use crate::exit::Stop;

/// What a command calculates with.
pub(crate) struct Context<'a> {
    /// The limits: a built-in practice with the shop's own on top.
    pub(crate) practice: &'a Practice<'a>,
    /// The units of sentences and of CSV columns.
    pub(crate) units: Units,
    /// What the shop's own limits are called; empty when there are none.
    pub(crate) own_title: &'a str,
}

/// How the report is printed.
pub(crate) struct Settings {
    pub(crate) format: Format,
    /// Columns of text.
    pub(crate) width: usize,
}

/// Narrower than this no word fits.
const NARROWEST: usize = 20;
/// Where no terminal tells.
const USUAL_WIDTH: usize = 80;

impl Settings {
    pub(crate) fn of(common: &Common) -> Settings {
        let terminal = || if std::io::stdout().is_terminal() { textwrap::termwidth() } else { USUAL_WIDTH };
        let width = common.columns.map_or_else(terminal, usize::from);
        Settings { format: common.format, width: width.max(NARROWEST) }
    }
}

/// The shop's own limits; none without `--limits`.
pub(crate) fn own_limits(common: &Common) -> Result<OwnLimits, Stop> {
    match &common.limits {
        Some(path) => Ok(OwnLimits::read(path)?),
        None => Ok(OwnLimits::default()),
    }
}
