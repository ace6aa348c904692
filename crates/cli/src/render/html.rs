//! HTML: the working as a sheet to print and sign.

use shophead_job::working::{WorkingSheet, sheet};

use crate::report::{Block, Report};

pub(crate) fn render(report: &Report) -> String {
    let Some(working) = &report.working else { return String::new() };
    let answers = report.text.iter().filter_map(|block| match block {
        Block::Answer(answer) => Some(answer.clone()),
        _ => None,
    });
    let findings = report
        .findings
        .iter()
        .map(|told| [told.severity.as_str().to_owned(), told.subject.clone(), told.message.clone(), told.basis()]);
    let own = if report.own_limits.is_empty() { String::new() } else { format!(" with {}", report.own_limits) };
    sheet(&WorkingSheet {
        command: report.command,
        answer: &answers.collect::<Vec<_>>(),
        inputs: &working.inputs,
        findings: &findings.collect::<Vec<_>>(),
        steps: &working.steps,
        practice_name: &format!("{}{own}", report.practice),
        practice: working.practice,
        units: working.units,
    })
}
