//! Printing a report: one file a form. Nothing is computed here.

pub(crate) mod csv;
pub(crate) mod json;
pub(crate) mod text;

use std::io::{self, Write};
use std::path::Path;

use shophead_job::diagnostic::escaped;

use crate::args::Format;
use crate::context::Settings;
use crate::exit::Stop;
use crate::report::{Document, Report};

/// Prints the report on the standard output, or writes the file that it is.
pub(crate) fn print(report: &Report, settings: &Settings) -> Result<(), Stop> {
    if let Some(document) = report.document.as_ref() {
        return keep(document);
    }
    let printed = match settings.format {
        // Colours are taken out where the output is no terminal or NO_COLOR is set.
        Format::Text => write(anstream::AutoStream::auto(io::stdout().lock()), &text::render(report, settings.width)),
        Format::Json => {
            let mut out = io::BufWriter::new(io::stdout().lock());
            json::render(report, &mut out).and_then(|()| out.flush())
        }
        Format::Svg => match &report.drawing {
            Some(drawing) => write(io::stdout().lock(), drawing),
            None => {
                let what = "there is no drawing of this; group has one, and joint with --rows 2 or more and --pitch";
                return Err(Stop::wrong(format_args!("--format svg: {what}")));
            }
        },
        Format::Csv => csv::render(report).and_then(|rows| write(io::stdout().lock(), &rows)),
    };
    printed.map_err(not_printed)
}

/// Prints a text as it stands.
pub(crate) fn print_text(text: &str) -> Result<(), Stop> {
    write(io::stdout().lock(), text).map_err(not_printed)
}

/// Writes a file, as a whole or not at all.
pub(crate) fn write_file(path: &Path, text: &str) -> Result<(), Stop> {
    let written = shophead_job::file::replace(path, text.as_bytes());
    written.map_err(|error| Stop::Failed(format!("cannot write {}: {error}", escaped(&path.display().to_string()))))
}

fn not_printed(error: io::Error) -> Stop {
    match error.kind() {
        io::ErrorKind::BrokenPipe => Stop::ReaderGone,
        _ => Stop::Failed(format!("the answer could not be written: {error}")),
    }
}

fn keep(Document { path, text }: &Document) -> Result<(), Stop> {
    if path.as_os_str() == "-" {
        return write(io::stdout().lock(), text).map_err(not_printed);
    }
    // A device or a pipe takes what is written into it; a file must not be put in its place.
    let is_special = std::fs::metadata(path).is_ok_and(|there| !there.is_file() && !there.is_dir());
    let kept = if is_special { std::fs::write(path, text) } else { shophead_job::file::replace(path, text.as_bytes()) };
    kept.map_err(|error| Stop::Failed(format!("cannot write {}: {error}", escaped(&path.display().to_string()))))
}

fn write(mut to: impl Write, text: &str) -> io::Result<()> {
    to.write_all(text.as_bytes())?;
    to.flush()
}
