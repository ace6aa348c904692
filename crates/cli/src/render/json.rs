//! JSON: one object, schema 1.

use std::io::{self, Write};

use serde::{Serialize, Serializer};
use shophead_job::words::ADVISORY;

use crate::context::Settled;
use crate::form;
use crate::form::bases::{self, Way};
use crate::form::{PracticeName, Version};
use crate::report::{Report, Told};

/// # Format
///
/// | key | is |
/// |---|---|
/// | `schema` | 1 |
/// | `command` | the command |
/// | `practice` | the name of the practice |
/// | `own_limits` | what the shop's own limits are called; only where there are any |
/// | `settled` | what neither the command line nor the job says: `what`, `value`, and the variable or file that it is set `by`; only where there is such |
/// | `advisory` | one sentence |
/// | `result` | the answer of the command |
/// | `findings` | `code`, `severity`, `subject`, `message`, `layer`, `measured`, `limit`, `basis` of each |
/// | `working` | with `--working`: what was typed, and `step`, `rule`, `formula`, `put_in`, `figures`, `result` of each step |
///
/// With line ends and blanks only where somebody reads it: they are half of a long plan.
pub(crate) fn render(report: &Report, mut to: impl Write, is_seen: bool) -> io::Result<()> {
    if let Some(made) = &report.made_rows {
        return made(&mut to);
    }
    if is_seen {
        serde_json::to_writer_pretty(&mut to, &envelope(report))?;
    } else {
        let _kept = bases::written(Way::Kept);
        serde_json::to_writer(&mut to, &envelope(report))?;
    }
    to.write_all(b"\n")
}

pub(crate) fn envelope<'r>(report: &'r Report<'_>) -> Envelope<'r> {
    Envelope {
        schema: Version,
        command: report.command,
        practice: PracticeName(&report.practice),
        own_limits: &report.own_limits,
        settled: &report.settled,
        advisory: ADVISORY,
        result: report.result.as_deref().map(|form| form as &dyn erased_serde::Serialize),
        findings: Findings(&report.findings),
        working: report.working.as_ref().map(form::working::Working::of),
    }
}

/// What is printed, piece by piece: nothing of a long job is held as text.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Envelope<'r> {
    /// The version of this form; fields are added without raising it.
    schema: Version,
    /// The command that answers.
    command: &'r str,
    /// The practice whose limits held.
    practice: PracticeName<'r>,
    /// What the shop's own limits on top of the practice are called; not there without any.
    #[serde(skip_serializing_if = "str::is_empty")]
    own_limits: &'r str,
    /// What neither the command line nor the job says; not there without any.
    #[serde(skip_serializing_if = "<[Settled]>::is_empty")]
    settled: &'r [Settled],
    /// That the answer advises only, in one sentence.
    advisory: &'r str,
    /// The answer.
    #[cfg_attr(test, schemars(with = "()"))]
    result: Option<&'r (dyn erased_serde::Serialize + 'r)>,
    /// What was found, each about one subject. With a finding of severity refer the exit status is 1.
    #[cfg_attr(test, schemars(with = "Vec<form::Finding<'static>>"))]
    findings: Findings<'r>,
    /// The steps behind the answer; not there unless they were asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    working: Option<form::working::Working<'r>>,
}

/// Each made when its turn comes.
pub(crate) struct Findings<'r>(pub(crate) &'r [Told<'r>]);

impl Serialize for Findings<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().map(Told::form))
    }
}
