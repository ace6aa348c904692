//! Entering an answer: the lines that say it in an answers file, with the findings and measures as the plan has them now.

use shophead::finding::Code;

use crate::cell::{bare_or_in_quotes, harmless};
use crate::plan::{Plan, Subject, measure_of};
use crate::read::{ANSWER_COLUMNS, cells_of};

/// The first line of a new answers file.
#[must_use]
pub fn header() -> String {
    ANSWER_COLUMNS.join(",") + "\n"
}

/// A line of an answers file, by the names of its columns.
pub type AnswerLine = Vec<(&'static str, String)>;

/// What an answer to everything, or to these findings, of a subject is to: a line for each measure, with its findings. What is answered
/// already is left out where no finding is named.
#[must_use]
pub fn referrals<'j>(plan: &Plan<'j>, subject: Subject<'j>, codes: &[Code]) -> Vec<AnswerLine> {
    let found = plan.found(subject);
    let mut by_measure: Vec<(String, Vec<&'static str>)> = Vec::new();
    for (_, finding) in plan.stops().filter(|(of, _)| *of == subject) {
        let wanted = match codes {
            [] => plan.answer_to(subject, finding).is_none(),
            codes => codes.contains(&finding.code()),
        };
        if !wanted {
            continue;
        }
        let (measure, code) = (measure_of(found, finding, plan.job.bare), finding.code().as_str());
        match by_measure.iter_mut().find(|(known, _)| *known == measure) {
            Some((_, codes)) if codes.contains(&code) => {}
            Some((_, codes)) => codes.push(code),
            None => by_measure.push((measure, vec![code])),
        }
    }
    let lines = by_measure.into_iter().map(|(measure, codes)| {
        let (row, hole) = match subject {
            Subject::Row(row) => (row.to_owned(), String::new()),
            Subject::Hole(row, number) => (row.to_owned(), number.to_string()),
            other => (other.to_string(), String::new()),
        };
        vec![("row", row), ("hole", hole), ("finding", codes.join(" ")), ("measured", measure)]
    });
    lines.collect()
}

/// An answers file with more lines, its columns in their order; without an old one, a new file.
///
/// # Errors
/// The name of a column that the old file lacks and a line fills.
pub fn with_lines(old: Option<&str>, lines: &[AnswerLine]) -> Result<String, &'static str> {
    let mut text = old.filter(|old| !old.trim().is_empty()).map_or_else(header, str::to_owned);
    let first = text.trim_start_matches('\u{feff}').lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let columns = cells_of(first).unwrap_or_default();
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    if !text.ends_with('\n') {
        text.push_str(line_end);
    }
    for line in lines {
        let is_there = |name: &str| columns.iter().any(|column| column.eq_ignore_ascii_case(name));
        if let Some((name, _)) = line.iter().find(|(name, value)| !value.is_empty() && !is_there(name)) {
            return Err(name);
        }
        let cell = |column: &String| {
            let value = line.iter().find(|(name, _)| name.eq_ignore_ascii_case(column)).map_or("", |(_, value)| value);
            bare_or_in_quotes(&harmless(value)).into_owned()
        };
        text.push_str(&columns.iter().map(cell).collect::<Vec<_>>().join(","));
        text.push_str(line_end);
    }
    Ok(text)
}
