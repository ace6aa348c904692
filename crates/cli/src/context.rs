//! What the options that every command takes come to.

use std::io::IsTerminal;

use shophead::practice::{HANDBOOK, Practice};
use shophead::words::Units;
use shophead_job::model::{Job, OwnLimits};

use crate::args::{Arguments, Common, Format, PracticeWord};
use crate::exit::Stop;

/// What a command calculates with.
pub(crate) struct Context<'a> {
    /// The limits: a built-in practice with the shop's own on top.
    pub(crate) practice: &'a Practice<'a>,
    /// The units of sentences and of CSV columns.
    pub(crate) units: Units,
    /// What the shop's own limits are called; empty when there are none.
    pub(crate) own_title: &'a str,
    /// How the answer is printed: what makes a long one makes no other form of it.
    pub(crate) format: Format,
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
    pub(crate) fn of(arguments: &Arguments) -> Settings {
        Settings { format: arguments.common.format, width: width(arguments.command.columns()) }
    }
}

/// Columns of text: as asked for, else those of the terminal.
pub(crate) fn width(asked: Option<u16>) -> usize {
    let terminal = || if std::io::stdout().is_terminal() { textwrap::termwidth() } else { USUAL_WIDTH };
    asked.map_or_else(terminal, usize::from).max(NARROWEST)
}

/// The shop's own limits: those of `--limits`, else those that the job names, else none.
pub(crate) fn own_limits(common: &Common, job: Option<&Job>) -> Result<OwnLimits, Stop> {
    match (&common.limits, job) {
        (Some(path), _) => Ok(OwnLimits::read(path)?),
        (None, Some(job)) => Ok(job.own_limits.clone()),
        (None, None) => Ok(OwnLimits::default()),
    }
}

/// The built-in practice: that of `--practice`, else the job's, else the handbooks'.
pub(crate) fn practice(common: &Common, job: Option<&Job>) -> &'static Practice<'static> {
    common.practice.map(PracticeWord::built_in).or(job.map(|job| job.practice)).unwrap_or(&HANDBOOK)
}
