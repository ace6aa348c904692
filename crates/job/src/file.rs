//! Writing files so that pulling the plug loses nothing: replaced whole, or made longer by one whole line at a time.
//!
//! A reader sees the old file or the new one and never half of either; what was reported as written is on the disk.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Replaces a file, or makes it: written aside in the same folder, brought to the disk, then renamed over the old one.
///
/// A file that is a link stays one: what it points to is replaced. The rights of an old file are kept.
///
/// # Errors
/// What the system said; the old file is then as it was, and nothing is left beside it.
///
/// ```
/// let folder = std::env::temp_dir();
/// let path = folder.join(format!("shophead-replace-{}.txt", std::process::id()));
/// shophead_job::file::replace(&path, b"first")?;
/// shophead_job::file::replace(&path, b"second")?;
/// assert_eq!(std::fs::read(&path)?, b"second");
/// # std::fs::remove_file(&path)?;
/// # Ok::<(), std::io::Error>(())
/// ```
pub fn replace(path: &Path, content: &[u8]) -> io::Result<()> {
    // Where there is no file yet there is nothing to follow either.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let (aside, mut file) = open_aside(&target)?;
    let written = file
        .write_all(content)
        .and_then(|()| match fs::metadata(&target) {
            Ok(old) => file.set_permissions(old.permissions()),
            Err(_) => Ok(()),
        })
        .and_then(|()| file.sync_all())
        .and_then(|()| fs::rename(&aside, &target));
    if let Err(error) = written {
        let _ = fs::remove_file(&aside);
        return Err(error);
    }
    sync_folder(&target)
}

/// A new file in the same folder, under a name that nobody has.
fn open_aside(target: &Path) -> io::Result<(PathBuf, File)> {
    /// A folder does not hold as many left-over files as this.
    const TRIES: u32 = 100;
    let name = target.file_name().ok_or(io::ErrorKind::InvalidInput)?;
    let mut last = io::Error::from(io::ErrorKind::AlreadyExists);
    for number in 0..TRIES {
        let mut aside = OsString::from(".");
        aside.push(name);
        aside.push(format!(".{}-{number}.new", std::process::id()));
        let aside = target.with_file_name(aside);
        match OpenOptions::new().write(true).create_new(true).open(&aside) {
            Ok(file) => return Ok((aside, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

/// Brings the new name itself to the disk, where the system has such a thing.
fn sync_folder(path: &Path) -> io::Result<()> {
    if !cfg!(unix) {
        return Ok(());
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match File::open(folder)?.sync_all() {
        // Some file systems cannot do this for a folder; the file itself is safe.
        Err(error) if matches!(error.kind(), io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported) => Ok(()),
        other => other,
    }
}

/// A file that is made longer by whole lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lines {
    path: PathBuf,
    length: u64,
}

impl Lines {
    /// Goes on with a file that is there and ends with a line end.
    ///
    /// # Errors
    /// What the system said.
    pub fn of(path: &Path) -> io::Result<Lines> {
        Ok(Lines { path: path.to_owned(), length: fs::metadata(path)?.len() })
    }

    /// Adds one line, its line end included, and brings it to the disk.
    ///
    /// The file is opened by its name every time, so that a line never goes into a file that somebody else has replaced meanwhile.
    ///
    /// # Errors
    /// What the system said, or [`io::ErrorKind::Other`] when the file is not as this left it. The line is then not in the file, as
    /// far as the system lets us take it out again.
    pub fn append(&mut self, line: &str) -> io::Result<()> {
        let mut file = OpenOptions::new().append(true).open(&self.path)?;
        if file.metadata()?.len() != self.length {
            return Err(io::Error::other("another program has changed it meanwhile"));
        }
        let written = file.write_all(line.as_bytes()).and_then(|()| file.sync_all());
        if let Err(error) = written {
            // A disk that is full may have taken half a line.
            let _ = file.set_len(self.length).and_then(|()| file.sync_all());
            return Err(error);
        }
        self.length += line.len() as u64;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).expect("a folder");
        let mut names: Vec<String> =
            entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    #[test]
    fn a_file_is_made_and_replaced_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        for content in [&b"one\n"[..], b"", b"two, longer\n"] {
            replace(&path, content).expect("replaced");
            assert_eq!(fs::read(&path).expect("read"), content);
            assert_eq!(names(folder.path()), ["a.csv"]);
        }
    }

    #[test]
    fn a_left_over_from_a_crash_is_in_nobodys_way() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        let left = folder.path().join(format!(".a.csv.{}-0.new", std::process::id()));
        fs::write(&left, "half").expect("written");
        replace(&path, b"whole").expect("replaced");
        assert_eq!(fs::read(&path).expect("read"), b"whole");
        assert_eq!(fs::read(&left).expect("read"), b"half");
    }

    #[test]
    fn what_cannot_be_replaced_is_as_it_was() {
        let folder = tempfile::tempdir().expect("a folder");
        // A folder with something in it cannot be renamed over.
        let path = folder.path().join("a");
        fs::create_dir(&path).expect("made");
        fs::write(path.join("inside"), "x").expect("written");
        replace(&path, b"whole").expect_err("a folder is no file");
        assert_eq!(names(folder.path()), ["a"]);
        replace(&folder.path().join("missing/a.csv"), b"whole").expect_err("there is no such folder");
    }

    #[cfg(unix)]
    #[test]
    fn links_and_rights_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().expect("a folder");
        let (path, link) = (folder.path().join("a.csv"), folder.path().join("link.csv"));
        fs::write(&path, "one").expect("written");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("set");
        symlink(&path, &link).expect("linked");
        replace(&link, b"two").expect("replaced");
        assert_eq!(fs::read(&path).expect("read"), b"two");
        assert!(fs::symlink_metadata(&link).expect("a link").is_symlink());
        assert_eq!(fs::metadata(&path).expect("a file").permissions().mode() & 0o777, 0o640);
    }

    #[test]
    fn lines_follow_each_other() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        fs::write(&path, "head\n").expect("written");
        let mut lines = Lines::of(&path).expect("there");
        lines.append("one\n").expect("appended");
        lines.append("two\n").expect("appended");
        assert_eq!(fs::read_to_string(&path).expect("read"), "head\none\ntwo\n");
    }

    #[test]
    fn a_file_that_somebody_changed_is_not_written_to() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        fs::write(&path, "head\n").expect("written");
        let mut lines = Lines::of(&path).expect("there");
        fs::write(&path, "other head\n").expect("written");
        lines.append("one\n").expect_err("it was changed");
        assert_eq!(fs::read_to_string(&path).expect("read"), "other head\n");
        fs::remove_file(&path).expect("removed");
        lines.append("one\n").expect_err("it is gone, and not made again without its header");
        assert!(!path.exists());
    }
}
