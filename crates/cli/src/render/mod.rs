//! Printing a report: one file a form. Nothing is computed here.

pub(crate) mod csv;
pub(crate) mod json;
pub(crate) mod text;

use std::io::Write;

use crate::args::Format;
use crate::context::Settings;
use crate::exit::Stop;
use crate::output::{self, Output};
use crate::report::Report;

/// Prints the report, or writes the file that it is.
pub(crate) fn print(report: &Report, settings: &Settings) -> Result<(), Stop> {
    if let Some(document) = &report.document {
        return output::write(Some(&document.path), &document.text);
    }
    if settings.format == Format::Svg && report.drawing.is_none() {
        let what = "there is no drawing of this; group has one, and joint with --rows 2 or more and --pitch";
        return Err(Stop::wrong(format_args!("--format svg: {what}")));
    }
    let mut output = Output::open(settings.output.as_deref())?;
    let printed = match settings.format {
        Format::Text => output.write_styled(&text::render(report, settings.width)),
        Format::Json => json::render(report, &mut output),
        Format::Svg => output.write_all(report.drawing.as_deref().unwrap_or_default().as_bytes()),
        Format::Csv => csv::render(report).and_then(|rows| output.write_all(rows.as_bytes())),
    };
    output.finish(printed)
}
