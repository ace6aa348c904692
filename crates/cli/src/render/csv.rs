//! CSV: a header line and rows.

use std::io;

use crate::report::Report;

pub(crate) fn render(report: &Report) -> io::Result<String> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(&report.rows.columns)?;
    for row in &report.rows.rows {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    String::from_utf8(bytes).map_err(io::Error::other)
}
