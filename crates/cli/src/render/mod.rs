//! Printing a report: one file a form. Nothing is computed here.

pub(crate) mod csv;
pub(crate) mod html;
pub(crate) mod json;
pub(crate) mod text;
pub(crate) mod xlsx;

use std::io::Write;

use crate::args::Format;
use crate::context::Settings;
use crate::exit::Stop;
use crate::output::{self, Output};
use crate::report::Report;

/// Prints the report, or writes the file that it is.
pub(crate) fn print(report: &Report, settings: &Settings) -> Result<(), Stop> {
    for document in &report.beside {
        output::write(Some(&document.path), &document.text)?;
    }
    if let Some(document) = &report.document {
        return output::write(Some(&document.path), &document.text);
    }
    if settings.format == Format::Svg && report.drawing.is_none() {
        let what =
            "there is no drawing of this; group and repair have one, and joint with --rows 2 or more and --pitch";
        return Err(Stop::wrong(format_args!("--format svg: {what}")));
    }
    if settings.format == Format::Xlsx && report.book.is_none() {
        return Err(Stop::wrong("--format xlsx: there is no workbook of this; order has one"));
    }
    if settings.format == Format::Html && report.working.as_ref().is_none_or(|working| working.steps.is_empty()) {
        let what =
            "there is no working of this; joint, group, splice, hole, length and repair have one where they answer";
        return Err(Stop::wrong(format_args!("--format html: {what}")));
    }
    let mut output = Output::open(settings.output.as_deref())?;
    if settings.format == Format::Xlsx && output.is_terminal() {
        return Err(Stop::wrong("--format xlsx: a workbook is no text; right would be --output order.xlsx"));
    }
    let printed = match settings.format {
        Format::Text => output.write_styled(&text::render(report, settings.width)),
        Format::Json => {
            let is_seen = output.is_terminal();
            json::render(report, &mut output, is_seen)
        }
        Format::Svg => output.write_all(report.drawing.as_deref().unwrap_or_default().as_bytes()),
        Format::Xlsx => match &report.book {
            Some(book) => xlsx::render(book).and_then(|bytes| output.write_all(&bytes)),
            None => Ok(()),
        },
        Format::Html => output.write_all(html::render(report).as_bytes()),
        Format::Csv => csv::render(report, &mut output),
    };
    output.finish(printed)
}
