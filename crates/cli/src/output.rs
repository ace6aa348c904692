//! Where the answer goes: to the standard output, or into a file that is written whole or not at all.
//!
//! A reader that leaves has seen enough: that is no failure, and changes no exit status. An output that was closed before the program
//! began, or is full, is one.

use std::fs::{self, File};
use std::io::{self, BufWriter, IsTerminal, StdoutLock, Write};
use std::path::{Path, PathBuf};

use shophead_job::diagnostic::escaped;
use shophead_job::file::Replacement;

use crate::closed;
use crate::exit::Stop;

/// Where an answer goes.
pub(crate) struct Output {
    to: BufWriter<To>,
    /// The file, where it is one.
    path: Option<PathBuf>,
}

enum To {
    Standard(StdoutLock<'static>),
    /// Written aside until it is whole.
    File(Replacement),
    /// A device or a pipe takes what is written into it; a file must not be put in its place.
    Special(File),
}

/// Bytes that are handed to the system at a time: a long answer is a thousand of them, not a hundred thousand.
const AT_ONCE: usize = 64 * 1024;

impl Output {
    /// Opens a file, or the standard output for none and for `-`.
    pub(crate) fn open(path: Option<&Path>) -> Result<Output, Stop> {
        let Some(path) = path.filter(|path| path.as_os_str() != "-") else {
            standard_is_open()?;
            return Ok(Output { to: BufWriter::with_capacity(AT_ONCE, To::Standard(io::stdout().lock())), path: None });
        };
        let is_special = fs::metadata(path).is_ok_and(|there| !there.is_file() && !there.is_dir());
        let opened = if is_special {
            File::options().write(true).open(path).map(To::Special)
        } else {
            Replacement::of(path).map(To::File)
        };
        let to = opened.map_err(|error| not_written(Some(path), &error))?;
        Ok(Output { to: BufWriter::with_capacity(AT_ONCE, to), path: Some(path.to_owned()) })
    }

    /// Whether somebody reads it on a terminal.
    pub(crate) fn is_terminal(&self) -> bool {
        match self.to.get_ref() {
            To::Standard(out) => out.is_terminal(),
            To::File(_) => false,
            To::Special(file) => file.is_terminal(),
        }
    }

    /// Writes a text with its colours, which are taken out where the output is no terminal or NO_COLOR is set.
    pub(crate) fn write_styled(&mut self, text: &str) -> io::Result<()> {
        match self.to.get_mut() {
            To::Standard(out) => anstream::AutoStream::auto(out).write_all(text.as_bytes()),
            To::File(_) | To::Special(_) => self.write_all(anstream::adapter::strip_str(text).to_string().as_bytes()),
        }
    }

    /// Ends the answer: everything is on its way, a file in its place. What went wrong with writing it is told now.
    pub(crate) fn finish(mut self, written: io::Result<()>) -> Result<(), Stop> {
        let sent = written.and_then(|()| self.to.flush());
        let (to, _) = self.to.into_parts();
        let finished = sent.and_then(|()| match to {
            To::Standard(_) | To::Special(_) => Ok(()),
            To::File(file) => file.finish(),
        });
        match finished {
            Err(error) if !is_reader_gone(&error) => Err(not_written(self.path.as_deref(), &error)),
            _ => Ok(()),
        }
    }
}

impl Write for Output {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.to.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}

impl Write for To {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self {
            To::Standard(out) => out.write(bytes),
            To::File(file) => file.write(bytes),
            To::Special(file) => file.write(bytes),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        match self {
            To::Standard(out) => out.flush(),
            To::File(file) => file.flush(),
            To::Special(file) => file.flush(),
        }
    }
}

/// Writes a whole text.
pub(crate) fn write(path: Option<&Path>, text: &str) -> Result<(), Stop> {
    let mut output = Output::open(path)?;
    let written = output.write_all(text.as_bytes());
    output.finish(written)
}

/// Whether whoever read the output has closed it.
pub(crate) fn is_reader_gone(error: &io::Error) -> bool {
    error.kind() == io::ErrorKind::BrokenPipe
}

/// What is said where the answer could not be written.
pub(crate) fn not_written(path: Option<&Path>, error: &io::Error) -> Stop {
    Stop::Failed(match path {
        None => format!("the answer could not be written: {error}"),
        Some(path) => format!("cannot write {}: {error}", escaped(&path.display().to_string())),
    })
}

/// Nobody hears what is said into an output that was closed before the program began.
pub(crate) fn standard_is_open() -> Result<(), Stop> {
    if closed::at_start() {
        Err(Stop::Failed("the answer could not be written: the output is closed".into()))
    } else {
        Ok(())
    }
}
