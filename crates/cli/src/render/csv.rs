//! CSV: a header line and rows. What somebody named or noted is written so that no spreadsheet takes it for a formula.

use std::borrow::Cow;
use std::io::{self, Write};

use shophead_job::cell;

use crate::report::Report;

pub(crate) fn render(report: &Report, mut to: impl Write) -> io::Result<()> {
    if let Some(made) = &report.made_rows {
        return made(&mut to);
    }
    let mut writer = csv::Writer::from_writer(to);
    for row in std::iter::once(&report.rows.columns).chain(&report.rows.rows) {
        writer.write_record(row.iter().map(|cell| harmless(cell).into_owned()))?;
    }
    writer.flush()
}

/// A number may begin with a sign.
pub(crate) fn harmless(cell: &str) -> Cow<'_, str> {
    if cell.parse::<f64>().is_ok() { Cow::Borrowed(cell) } else { cell::harmless(cell) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_neutral_and_numbers_stay_numbers() {
        for (cell, written) in [("=1+1", "'=1+1"), ("-1.5", "-1.5"), ("-5 deg", "'-5 deg"), ("#30", "#30"), ("+", "'+")]
        {
            assert_eq!(harmless(cell), written);
        }
    }
}
