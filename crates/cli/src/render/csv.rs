//! CSV: a header line and rows. What somebody named or noted is written so that no spreadsheet takes it for a formula.

use std::io;

use std::borrow::Cow;

use shophead_job::cell;

use crate::report::Report;

pub(crate) fn render(report: &Report) -> io::Result<String> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in std::iter::once(&report.rows.columns).chain(&report.rows.rows) {
        writer.write_record(row.iter().map(|cell| harmless(cell).into_owned()))?;
    }
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    String::from_utf8(bytes).map_err(io::Error::other)
}

/// A number may begin with a sign.
fn harmless(cell: &str) -> Cow<'_, str> {
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
