//! Printing a report: one file a form. Nothing is computed here.

pub(crate) mod csv;
pub(crate) mod json;
pub(crate) mod text;

use std::io::{self, Write};

use crate::args::Format;
use crate::context::Settings;
use crate::exit::Stop;
use crate::report::Report;

/// Prints the report on the standard output.
pub(crate) fn print(report: &Report, settings: &Settings) -> Result<(), Stop> {
    let printed = match settings.format {
        // Colours are taken out where the output is no terminal or NO_COLOR is set.
        Format::Text => write(anstream::AutoStream::auto(io::stdout().lock()), &text::render(report, settings.width)),
        Format::Json => write(io::stdout().lock(), &json::render(report)),
        Format::Svg => match &report.drawing {
            Some(drawing) => write(io::stdout().lock(), drawing),
            None => {
                let what = "there is no drawing of this; group has one, and joint with --rows 2 or more and --pitch";
                return Err(Stop::wrong(format_args!("--format svg: {what}")));
            }
        },
        Format::Csv => csv::render(report).and_then(|rows| write(io::stdout().lock(), &rows)),
    };
    printed.map_err(|error| match error.kind() {
        io::ErrorKind::BrokenPipe => Stop::ReaderGone,
        _ => Stop::Failed(format!("the answer could not be written: {error}")),
    })
}

fn write(mut to: impl Write, text: &str) -> io::Result<()> {
    to.write_all(text.as_bytes())?;
    to.flush()
}
