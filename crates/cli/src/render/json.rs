//! JSON: one object, schema 1.

use serde_json::{Map, Value};
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
    let mut envelope = Map::new();
    let mut put = |key: &str, value: Value| envelope.insert(key.to_owned(), value);
    put("schema", SCHEMA.into());
    put("command", report.command.into());
    put("practice", report.practice.clone().into());
    if !report.own_limits.is_empty() {
        put("own_limits", report.own_limits.clone().into());
    }
    put("advisory", ADVISORY.into());
    put("result", report.result.clone());
    put("findings", report.findings.iter().map(|Told { json, .. }| json.clone()).collect());
    // The alternate form is the indented one; a value of strings and numbers always prints.
    format!("{:#}\n", Value::Object(envelope))
}
