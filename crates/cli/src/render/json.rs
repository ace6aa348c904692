//! JSON: one object, schema 1.

use std::io::{self, Write};

use serde::{Serialize, Serializer};
use serde_json::Value;
use shophead_job::words::ADVISORY;

use crate::context::Settled;
use crate::report::{Report, SCHEMA, Told};

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
pub(crate) fn render(report: &Report, mut to: impl Write) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut to, &envelope(report))?;
    to.write_all(b"\n")
}

pub(crate) fn envelope<'r>(report: &'r Report<'_>) -> Envelope<'r> {
    Envelope {
        schema: SCHEMA,
        command: report.command,
        practice: &report.practice,
        own_limits: &report.own_limits,
        settled: &report.settled,
        advisory: ADVISORY,
        result: match &report.long_result {
            Some(long) => Answer::Long(&**long),
            None => Answer::Short(&report.result),
        },
        findings: Findings(&report.findings),
    }
}

/// What is printed, piece by piece: nothing of a long job is held as text.
#[derive(Serialize)]
pub(crate) struct Envelope<'r> {
    schema: u32,
    command: &'r str,
    practice: &'r str,
    #[serde(skip_serializing_if = "str::is_empty")]
    own_limits: &'r str,
    #[serde(skip_serializing_if = "<[Settled]>::is_empty")]
    settled: &'r [Settled],
    advisory: &'r str,
    result: Answer<'r>,
    findings: Findings<'r>,
}

/// Each made when its turn comes.
struct Findings<'r>(&'r [Told<'r>]);

impl Serialize for Findings<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().map(Told::json))
    }
}

#[derive(Serialize)]
#[serde(untagged)]
enum Answer<'r> {
    Short(&'r Value),
    Long(&'r (dyn erased_serde::Serialize + 'r)),
}
