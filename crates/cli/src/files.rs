//! The files that a run reads: by name, or one of them from the standard input.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use shophead_job::diagnostic::escaped;
use shophead_job::read::{Disk, Files, bytes_of};

use crate::exit::Stop;

/// What the standard input is called in messages.
const STANDARD: &str = "standard input";

/// What was read.
pub(crate) struct Text {
    pub(crate) bytes: Vec<u8>,
    /// What it is called in messages; what it names is looked for beside it.
    pub(crate) name: PathBuf,
}

/// The files of a run.
#[derive(Debug, Default)]
pub(crate) struct Inputs {
    /// By their full names.
    read: Mutex<Vec<PathBuf>>,
    /// Who reads the standard input.
    standard: Mutex<Option<String>>,
}

/// Whether a file of this name is the standard input.
pub(crate) fn is_standard(path: &Path) -> bool {
    path.as_os_str() == "-"
}

impl Inputs {
    /// Reads a file, or the standard input for `-`. `what` is what stands in it, for messages.
    pub(crate) fn read(&self, path: &Path, what: &str) -> Result<Text, Stop> {
        if is_standard(path) {
            self.take_standard(what)?;
            let bytes = bytes_of(io::stdin().lock());
            let bytes = bytes.map_err(|error| Stop::Failed(format!("cannot read the {STANDARD}: {error}")))?;
            return Ok(Text { bytes, name: STANDARD.into() });
        }
        let bytes = Beside { inputs: self, disk: Disk::anywhere() }.read(path);
        let bytes = bytes.map_err(|error| Stop::Failed(cannot("read", path, &error)))?;
        Ok(Text { bytes, name: path.to_owned() })
    }

    /// The standard input is one file, and nothing is left of it for another.
    pub(crate) fn take_standard(&self, what: &str) -> Result<(), Stop> {
        let mut taken = self.standard.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        if let Some(taken) = taken.as_deref() {
            return Err(Stop::wrong(format_args!(
                "- cannot be {what}: the standard input is {taken} already; right would be a file"
            )));
        }
        *taken = Some(what.to_owned());
        Ok(())
    }

    /// Where a job looks for the files that it names.
    pub(crate) fn beside(&self, disk: Disk) -> Beside<'_> {
        Beside { inputs: self, disk }
    }

    /// A file is read that is not opened here.
    pub(crate) fn note(&self, path: &Path) {
        if let Ok(real) = path.canonicalize() {
            let mut read = self.read.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
            // The rows of a batch name the same few again and again.
            if !read.contains(&real) {
                read.push(real);
            }
        }
    }

    /// A slip of the keyboard must not cost the job file, nor what was measured.
    pub(crate) fn refuse_as_output(&self, output: &Path, is_csv: bool) -> Result<(), Stop> {
        let read = self.read.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        let ending = output.extension().map(|ending| ending.to_string_lossy().to_ascii_lowercase());
        let what = if output.canonicalize().is_ok_and(|output| read.contains(&output)) {
            "is a file that is read here"
        } else if ending.as_deref() == Some("toml") || (ending.as_deref() == Some("csv") && !is_csv) {
            "has the ending of an input file"
        } else {
            return Ok(());
        };
        let name = escaped(&output.display().to_string()).into_owned();
        Err(Stop::wrong(format_args!("--output {name} {what}; name another file")))
    }
}

/// The files that a job names.
pub(crate) struct Beside<'i> {
    inputs: &'i Inputs,
    disk: Disk,
}

impl Files for Beside<'_> {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        let bytes = self.disk.read(path)?;
        self.inputs.note(path);
        Ok(bytes)
    }

    fn may_name(&self, path: &Path) -> bool {
        self.disk.may_name(path)
    }
}

/// `cannot read job.toml: No such file or directory`.
pub(crate) fn cannot(what: &str, path: &Path, error: &io::Error) -> String {
    format!("cannot {what} {}: {error}", escaped(&path.display().to_string()))
}
