//! What the options that every command takes come to.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};

use shophead::length::Bare;
use shophead::practice::{HANDBOOK, Practice};
use shophead_job::model::{Job, OwnLimits};
use shophead_job::words::Units;

use crate::args::{Arguments, Common, Format, PracticeWord, UnitsWord};
use crate::exit::Stop;
use crate::files::Inputs;

/// What a command calculates with.
pub(crate) struct Context<'a> {
    /// The limits: a built-in practice with the shop's own on top.
    pub(crate) practice: &'a Practice<'a>,
    /// The units of sentences and of CSV columns.
    pub(crate) units: Units,
    /// What a number is that somebody typed without a unit: as `--units` says, whatever the output is in.
    pub(crate) bare: Bare,
    /// What the shop's own limits are called; empty when there are none.
    pub(crate) own_title: &'a str,
    /// The job file as it was typed, where the command takes one.
    pub(crate) job_file: Option<&'a Path>,
    /// How the answer is printed: what makes a long one makes no other form of it.
    pub(crate) format: Format,
    /// The files that are read.
    pub(crate) inputs: &'a Inputs,
}

impl Context<'_> {
    /// What to type to measure the holes of the job into its holes file.
    pub(crate) fn survey_of(&self, holes: &str) -> String {
        let job = self.job_file.unwrap_or(Path::new("job.toml"));
        let shown = |path: &Path| {
            let path = path.display().to_string();
            if path.contains(char::is_whitespace) { format!("{path:?}") } else { path }
        };
        format!("shophead survey {} {}", shown(job), shown(&job.with_file_name(holes)))
    }
}

/// How the report is printed.
pub(crate) struct Settings {
    pub(crate) format: Format,
    /// Columns of text.
    pub(crate) width: usize,
    /// The file that it goes to; without one the standard output.
    pub(crate) output: Option<PathBuf>,
}

/// Narrower than this no word fits.
const NARROWEST: usize = 20;
/// Where no terminal tells.
const USUAL_WIDTH: usize = 80;

impl Settings {
    pub(crate) fn of(arguments: &Arguments) -> Settings {
        let output = arguments.common.output.clone();
        let asked = arguments.command.columns();
        // A file is as wide wherever it is written.
        let asked = asked.or(output.is_some().then_some(USUAL_WIDTH as u16));
        Settings { format: arguments.common.format, width: width(asked), output }
    }
}

/// Columns of text: as asked for, else those of the terminal.
pub(crate) fn width(asked: Option<u16>) -> usize {
    let terminal = || if std::io::stdout().is_terminal() { textwrap::termwidth() } else { USUAL_WIDTH };
    asked.map_or_else(terminal, usize::from).max(NARROWEST)
}

/// The shop's own limits: those of `--limits`, else those that the job names, else none.
pub(crate) fn own_limits(common: &Common, job: Option<&Job>, inputs: &Inputs) -> Result<OwnLimits, Stop> {
    match (&common.limits, job) {
        (Some(path), _) => {
            let text = inputs.read(path, "the limits")?;
            Ok(OwnLimits::read_from(text.bytes, &text.name)?)
        }
        (None, Some(job)) => Ok(job.own_limits.clone()),
        (None, None) => Ok(OwnLimits::default()),
    }
}

/// The units of the output: those of `--units`, else those of the job, else inches.
pub(crate) fn units(common: &Common, job: Option<&Job>) -> Units {
    let of_job = job.map_or(Units::Inches, |job| match job.bare {
        Bare::Inches => Units::Inches,
        Bare::Millimetres => Units::Millimetres,
    });
    common.units.map_or(of_job, UnitsWord::words)
}

/// What a typed number without a unit is: only `--units` decides it.
pub(crate) fn bare(common: &Common) -> Bare {
    common.units.map_or(Bare::Inches, UnitsWord::bare)
}

/// The built-in practice: that of `--practice`, else the job's, else the handbooks'.
pub(crate) fn practice(common: &Common, job: Option<&Job>) -> &'static Practice<'static> {
    common.practice.map(PracticeWord::built_in).or(job.map(|job| job.practice)).unwrap_or(&HANDBOOK)
}
