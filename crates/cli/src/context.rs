//! What the options that every command takes come to.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use shophead::length::Bare;
use shophead::practice::{HANDBOOK, Practice};
use shophead::words::Units;
use shophead_job::diagnostic::escaped;
use shophead_job::model::{Job, OwnLimits};

use crate::args::{Arguments, Common, Format, PracticeWord, UnitsWord};
use crate::exit::Stop;
use crate::files::{Inputs, is_standard};

/// What a command calculates with.
pub(crate) struct Context<'a> {
    /// The limits: a built-in practice with the shop's own on top.
    pub(crate) practice: &'a Practice<'a>,
    /// The units of sentences and of CSV columns.
    pub(crate) units: Units,
    /// What a number is that somebody typed without a unit: as `--units` says, whatever the output is in.
    pub(crate) bare: Bare,
    /// The units of a conversation.
    pub(crate) prompts: Units,
    /// What neither the command line nor the job says.
    pub(crate) settled: &'a [Settled],
    /// What the shop's own limits are called; empty when there are none.
    pub(crate) own_title: &'a str,
    /// The job file as it was typed, where the command takes one.
    pub(crate) job_file: Option<&'a Path>,
    /// How the answer is printed: what makes a long one makes no other form of it.
    pub(crate) format: Format,
    /// Whether the steps behind the answer are wanted.
    pub(crate) working: bool,
    /// Where the rows of a batch look for the files that they name; `None` for a question of the command line.
    pub(crate) rows_in: Option<&'a Path>,
    /// The files that are read.
    pub(crate) inputs: &'a Inputs,
}

impl Context<'_> {
    /// What to type to enter an answer to something of the job that was referred.
    pub(crate) fn answer_of(&self) -> String {
        let job = self.job_file.unwrap_or(Path::new("job.toml"));
        format!("shophead answer {} --row ROW --hole N --answer WORD --by NAME --document TEXT", job.display())
    }

    /// What to type for the plan of the job.
    pub(crate) fn plan_of(&self) -> String {
        let job = self.job_file.unwrap_or(Path::new("job.toml"));
        format!("shophead plan {}", job.display())
    }

    /// Behind what says that holes are not measured: how to measure them, where the job names a file for it.
    pub(crate) fn measure(&self, job: &Job) -> String {
        job.holes_file.as_ref().map_or_else(String::new, |file| format!(" Measure: {}", self.survey_of(&file.name)))
    }

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

/// The environment variables that settle something for every run.
const PRACTICE: &str = "SHOPHEAD_PRACTICE";
const LIMITS: &str = "SHOPHEAD_LIMITS";
const UNITS: &str = "SHOPHEAD_UNITS";
/// Names a settings file.
const SETTINGS: &str = "SHOPHEAD_SETTINGS";

/// Something that neither the command line nor the job says.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Settled {
    /// What is set.
    #[cfg_attr(test, schemars(schema_with = "crate::form::schema::settled"))]
    pub(crate) what: &'static str,
    /// To what.
    pub(crate) value: String,
    /// The variable or the file that says so.
    pub(crate) by: String,
}

impl std::fmt::Display for Settled {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {} by {}", self.what, self.value, self.by)
    }
}

/// What a run goes by: the command line, then the job, then the environment, then the settings file.
///
/// Only `--units` and the job say how a number without a unit is read.
pub(crate) struct Chosen {
    pub(crate) practice: &'static Practice<'static>,
    /// The shop's own limits.
    pub(crate) own: OwnLimits,
    /// The units of the output.
    pub(crate) units: Units,
    /// The units of a conversation: those of `--units`, else of the job, else inches.
    pub(crate) prompts: Units,
    /// What a typed number without a unit is.
    pub(crate) bare: Bare,
    /// What neither the command line nor the job says.
    pub(crate) settled: Vec<Settled>,
}

impl Chosen {
    pub(crate) fn of(common: &Common, job: Option<&Job>, given: Given, inputs: &Inputs) -> Result<Chosen, Stop> {
        let mut settled = Settling::begin(inputs)?;
        let practice = match (common.practice, job) {
            (Some(word), _) => word.built_in(),
            (None, Some(job)) if job.names_practice => job.practice,
            (None, _) => settled.practice()?.unwrap_or(&HANDBOOK),
        };
        let own = match (given.by_option, job) {
            (Some(own), _) => own,
            (None, Some(job)) if !job.own_limits.title.is_empty() => job.own_limits.clone(),
            (None, _) => settled.limits()?.map(|path| limits_of(&path, inputs)).transpose()?.unwrap_or_default(),
        };
        let of_job = job.filter(|job| job.bare == Bare::Millimetres).map(|_| Units::Millimetres);
        let asked = common.units.map(UnitsWord::words);
        let units = match asked {
            Some(asked) => asked,
            None => settled.units()?.or(of_job).unwrap_or(Units::Inches),
        };
        Ok(Chosen {
            practice,
            own,
            units,
            prompts: asked.or(of_job).unwrap_or(Units::Inches),
            bare: common.units.map_or(Bare::Inches, UnitsWord::bare),
            settled: settled.settled,
        })
    }
}

/// The limits that are known before the job is read: its layers may be of materials that stand there.
#[derive(Default)]
pub(crate) struct Given {
    by_option: Option<OwnLimits>,
    /// Those of the environment or the settings file. Where they cannot be read, that is said once they are needed.
    settled: Option<OwnLimits>,
}

impl Given {
    /// For a command that takes this job.
    pub(crate) fn of(common: &Common, job: Option<&Path>, inputs: &Inputs) -> Result<Given, Stop> {
        if job.is_some_and(is_standard) && common.limits.as_deref().is_some_and(is_standard) {
            // Reading the limits says so.
            inputs.take_standard("the job")?;
        }
        let by_option = common.limits.as_deref().map(|path| limits_of(path, inputs)).transpose()?;
        let settled = if job.is_some() && by_option.is_none() {
            let path = Settling::begin(inputs)?.limits()?.filter(|path| !is_standard(path));
            path.and_then(|path| limits_of(&path, inputs).ok())
        } else {
            None
        };
        Ok(Given { by_option, settled })
    }

    pub(crate) fn limits(&self) -> Option<&OwnLimits> {
        self.by_option.as_ref().or(self.settled.as_ref())
    }
}

pub(crate) fn limits_of(path: &Path, inputs: &Inputs) -> Result<OwnLimits, Stop> {
    let text = inputs.read(path, "the limits")?;
    Ok(OwnLimits::read_from(text.bytes, &text.name)?)
}

/// The environment and the settings file, and what was taken from them so far.
struct Settling {
    file: Option<(PathBuf, shophead_job::read::Settings)>,
    settled: Vec<Settled>,
}

impl Settling {
    fn begin(inputs: &Inputs) -> Result<Settling, Stop> {
        let path = variable(SETTINGS).map(PathBuf::from);
        let read = |path: PathBuf| {
            let text = inputs.read(&path, "the settings")?;
            let settings = shophead_job::read::Settings::read_from(text.bytes, &text.name)?;
            Ok::<_, Stop>((path, settings))
        };
        Ok(Settling { file: path.map(read).transpose()?, settled: Vec::new() })
    }

    fn take(&mut self, what: &'static str, value: &str, by: &str) {
        self.settled.push(Settled { what, value: value.to_owned(), by: by.to_owned() });
    }

    /// The name of the settings file.
    fn file_name(&self) -> String {
        self.file.as_ref().map(|(path, _)| escaped(&path.display().to_string()).into_owned()).unwrap_or_default()
    }

    fn practice(&mut self) -> Result<Option<&'static Practice<'static>>, Stop> {
        let (word, by) = match variable(PRACTICE) {
            Some(word) => (word_of::<PracticeWord>(PRACTICE, &word)?.built_in(), PRACTICE.to_owned()),
            None => match self.file.as_ref().and_then(|(_, settings)| settings.practice) {
                Some(practice) => (practice, self.file_name()),
                None => return Ok(None),
            },
        };
        self.take("practice", word.name(), &by);
        Ok(Some(word))
    }

    /// A limits file; one that the settings file names is looked for beside it.
    fn limits(&mut self) -> Result<Option<PathBuf>, Stop> {
        let (path, by) = match variable(LIMITS) {
            Some(path) => (PathBuf::from(path), LIMITS.to_owned()),
            None => match &self.file {
                Some((file, settings)) => match &settings.limits {
                    Some(limits) => (file.with_file_name(limits), self.file_name()),
                    None => return Ok(None),
                },
                None => return Ok(None),
            },
        };
        let shown = escaped(&path.display().to_string()).into_owned();
        self.take("limits", &shown, &by);
        Ok(Some(path))
    }

    fn units(&mut self) -> Result<Option<Units>, Stop> {
        let (word, by) = match variable(UNITS) {
            Some(word) => (word_of::<UnitsWord>(UNITS, &word)?.words(), UNITS.to_owned()),
            None => match self.file.as_ref().and_then(|(_, settings)| settings.units) {
                Some(Bare::Inches) => (Units::Inches, self.file_name()),
                Some(Bare::Millimetres) => (Units::Millimetres, self.file_name()),
                None => return Ok(None),
            },
        };
        self.take("units", word.length_unit(), &by);
        Ok(Some(word))
    }
}

/// A variable that says something.
fn variable(name: &str) -> Option<std::ffi::OsString> {
    std::env::var_os(name).filter(|value| !value.is_empty())
}

/// One of the words that the option takes as well.
fn word_of<W: ValueEnum>(variable: &str, value: &std::ffi::OsStr) -> Result<W, Stop> {
    let value = value.to_string_lossy();
    W::from_str(value.trim(), true).map_err(|_| {
        let known: Vec<String> = W::value_variants()
            .iter()
            .filter_map(W::to_possible_value)
            .map(|word| word.get_name().to_owned())
            .collect();
        Stop::wrong(format_args!("{variable} is {value:?}; right would be {}", known.join(" or ")))
    })
}
