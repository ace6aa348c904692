//! JSON: one object, schema 1.

use serde::Serialize;
use serde_json::Value;
use serde_json::value::RawValue;
use shophead_job::words::ADVISORY;

use crate::report::{Report, SCHEMA, Told};

/// # Format
///
/// | key | is |
/// |---|---|
/// | `schema` | 1 |
/// | `command` | the command |
/// | `practice` | the name of the practice |
/// | `own_limits` | what the shop's own limits are called; only where there are any |
/// | `advisory` | one sentence |
/// | `result` | the answer of the command |
/// | `findings` | `code`, `severity`, `subject`, `message`, `layer`, `measured`, `limit`, `basis` of each |
pub(crate) fn render(report: &Report) -> String {
    // Values of strings and numbers always print.
    serde_json::to_string_pretty(&envelope(report)).unwrap_or_default() + "\n"
}

pub(crate) fn envelope(report: &Report) -> Envelope<'_> {
    Envelope {
        schema: SCHEMA,
        command: report.command,
        practice: &report.practice,
        own_limits: &report.own_limits,
        advisory: ADVISORY,
        result: match &report.long_result {
            Some(printed) => Answer::Printed(printed),
            None => Answer::Value(&report.result),
        },
        findings: report.findings.iter().map(|Told { json, .. }| json).collect(),
    }
}

/// The answer borrowed from the report: that of a long job is not copied.
#[derive(Serialize)]
pub(crate) struct Envelope<'r> {
    schema: u32,
    command: &'r str,
    practice: &'r str,
    #[serde(skip_serializing_if = "str::is_empty")]
    own_limits: &'r str,
    advisory: &'r str,
    result: Answer<'r>,
    findings: Vec<&'r Value>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Answer<'r> {
    Value(&'r Value),
    Printed(&'r RawValue),
}
