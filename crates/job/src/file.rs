//! Writing files so that pulling the plug loses nothing: replaced whole, or made longer by one whole line at a time.
//!
//! A reader sees the old file or the new one and never half of either; what was reported as written is on the disk.
//!
//! - [`replace`] and [`Replacement`] put a new file in the place of an old one.
//! - [`Held`] keeps others from changing a file between reading it and writing to it; [`Lines`] adds lines to one that is held.

use std::ffi::{OsStr, OsString};
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

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
    let mut replacement = Replacement::of(path)?;
    replacement.write_all(content)?;
    replacement.finish()
}

/// A file that is being written aside. Dropped before [`Replacement::finish`] it leaves the old one as it was, and nothing beside it.
///
/// ```
/// use std::io::Write;
/// let path = std::env::temp_dir().join(format!("shophead-replacement-{}.txt", std::process::id()));
/// let mut replacement = shophead_job::file::Replacement::of(&path)?;
/// replacement.write_all(b"row after row")?;
/// assert!(!path.exists());
/// replacement.finish()?;
/// assert_eq!(std::fs::read(&path)?, b"row after row");
/// # std::fs::remove_file(&path)?;
/// # Ok::<(), std::io::Error>(())
/// ```
#[derive(Debug)]
pub struct Replacement {
    target: PathBuf,
    aside: PathBuf,
    file: File,
    is_finished: bool,
}

impl Replacement {
    /// Begins with nothing in it, in the folder of the file that it is to replace.
    ///
    /// What a killed program left beside that file is removed.
    ///
    /// # Errors
    /// What the system said.
    pub fn of(path: &Path) -> io::Result<Replacement> {
        let target = behind_links(path);
        let name = target.file_name().ok_or(io::ErrorKind::InvalidInput)?;
        remove_left_overs(&target, name);
        let (aside, file) = open_aside(&target, name)?;
        Ok(Replacement { target, aside, file, is_finished: false })
    }

    /// Brings it to the disk and gives it a name that nobody has.
    ///
    /// # Errors
    /// What the system said, [`io::ErrorKind::AlreadyExists`] where there is such a file. Nothing is left beside it.
    fn finish_new(self) -> io::Result<()> {
        self.file.sync_all()?;
        match fs::hard_link(&self.aside, &self.target) {
            Ok(()) => {}
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => return Err(error),
            // Some file systems have no second names. Whoever reads the file now may see a part of it.
            Err(_) => {
                let mut file = OpenOptions::new().write(true).create_new(true).open(&self.target)?;
                file.write_all(&fs::read(&self.aside)?)?;
                file.sync_all()?;
            }
        }
        sync_folder(&self.target)
    }

    /// Brings it to the disk and puts it in the place of the old file.
    ///
    /// # Errors
    /// What the system said; the old file is then as it was, and nothing is left beside it.
    pub fn finish(mut self) -> io::Result<()> {
        if let Ok(old) = fs::metadata(&self.target) {
            self.file.set_permissions(old.permissions())?;
        }
        self.file.sync_all()?;
        fs::rename(&self.aside, &self.target)?;
        self.is_finished = true;
        sync_folder(&self.target)
    }
}

impl Write for Replacement {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.file.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

impl Drop for Replacement {
    fn drop(&mut self) {
        if !self.is_finished {
            let _ = fs::remove_file(&self.aside);
        }
    }
}

/// What a path stands for, links followed to their end, also where nothing is there yet.
fn behind_links(path: &Path) -> PathBuf {
    /// As many as the system itself follows.
    const MOST: usize = 40;
    let mut target = path.to_owned();
    for _ in 0..MOST {
        let Ok(next) = fs::read_link(&target) else { break };
        target = target.parent().unwrap_or(Path::new("")).join(next);
    }
    fs::canonicalize(&target).unwrap_or(target)
}

/// How the name of a file ends while it is written aside.
const ASIDE: &str = ".new";

/// How the name begins.
fn aside_stem(name: &OsStr) -> OsString {
    let mut stem = OsString::from(".");
    stem.push(name);
    stem.push(".");
    stem
}

/// A new file in the same folder, under a name that nobody has.
fn open_aside(target: &Path, name: &OsStr) -> io::Result<(PathBuf, File)> {
    /// A folder does not hold as many left-over files as this.
    const TRIES: u32 = 100;
    let mut last = io::Error::from(io::ErrorKind::AlreadyExists);
    for number in 0..TRIES {
        let mut aside = aside_stem(name);
        aside.push(format!("{}-{number}{ASIDE}", std::process::id()));
        let aside = target.with_file_name(aside);
        match OpenOptions::new().write(true).create_new(true).open(&aside) {
            Ok(file) => return Ok((aside, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

/// Nobody is still writing a file that was not written to for so long.
const LEFT_OVER_AFTER: Duration = Duration::from_secs(600);

/// Removes what programs that were killed have left beside a file. Where that cannot be done it stays: it is in nobody's way.
fn remove_left_overs(target: &Path, name: &OsStr) {
    let stem = aside_stem(name);
    let Some(entries) = fs::read_dir(folder_of(target)).ok() else { return };
    for entry in entries.flatten() {
        let found = entry.file_name();
        let rest = found.as_encoded_bytes().strip_prefix(stem.as_encoded_bytes());
        let numbers = rest.and_then(|rest| rest.strip_suffix(ASIDE.as_bytes()));
        let is_ours = numbers.is_some_and(|numbers| {
            !numbers.is_empty() && numbers.iter().all(|byte| byte.is_ascii_digit() || *byte == b'-')
        });
        let is_old = || {
            let written = entry.metadata().ok().filter(fs::Metadata::is_file)?.modified().ok()?;
            written.elapsed().ok().map(|age| age > LEFT_OVER_AFTER)
        };
        if is_ours && is_old() == Some(true) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Brings the new name itself to the disk, where the system has such a thing.
fn sync_folder(path: &Path) -> io::Result<()> {
    if !cfg!(unix) {
        return Ok(());
    }
    match File::open(folder_of(path))?.sync_all() {
        // Some file systems cannot do this for a folder; the file itself is safe.
        Err(error) if matches!(error.kind(), io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported) => Ok(()),
        other => other,
    }
}

/// Makes a folder with these files, or none of it: written aside, brought to the disk, then renamed. A folder of that name may be there as
/// long as it is empty.
///
/// # Errors
/// What the system said; nothing is left of it then.
///
/// ```
/// let folder = std::env::temp_dir().join(format!("shophead-folder-{}", std::process::id()));
/// let files = [("a.txt".into(), b"one".to_vec()), ("in/b.txt".into(), b"two".to_vec())];
/// shophead_job::file::make_folder(&folder, &files)?;
/// assert_eq!(std::fs::read(folder.join("in/b.txt"))?, b"two");
/// # std::fs::remove_dir_all(&folder)?;
/// # Ok::<(), std::io::Error>(())
/// ```
pub fn make_folder(path: &Path, files: &[(PathBuf, Vec<u8>)]) -> io::Result<()> {
    let name = path.file_name().ok_or(io::ErrorKind::InvalidInput)?;
    let mut aside = aside_stem(name);
    aside.push(std::process::id().to_string());
    aside.push(ASIDE);
    let aside = path.with_file_name(aside);
    fs::create_dir(&aside)?;
    let fill = || {
        for (name, content) in files {
            let file = aside.join(name);
            fs::create_dir_all(folder_of(&file))?;
            let mut file = OpenOptions::new().write(true).create_new(true).open(file)?;
            file.write_all(content)?;
            file.sync_all()?;
        }
        match fs::remove_dir(path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => fs::rename(&aside, path)?,
        }
        sync_folder(path)
    };
    fill().inspect_err(|_| {
        let _ = fs::remove_dir_all(&aside);
    })
}

/// A file that no other program of this kind can hold until this one lets go of it.
///
/// On Unix it is locked, where the file system has locks; other programs can still read it. Elsewhere only its content is watched.
///
/// ```
/// use shophead_job::file::Held;
/// let path = std::env::temp_dir().join(format!("shophead-held-{}.csv", std::process::id()));
/// let mut lines = Held::of(&path, None)?.with(b"row,hole\n")?;
/// lines.append("K1,7\n")?;
/// // Whoever has read it before that line was added does not get it.
/// drop(lines);
/// assert!(Held::of(&path, Some(b"row,hole\n")).is_err());
/// assert_eq!(std::fs::read(&path)?, b"row,hole\nK1,7\n");
/// # std::fs::remove_file(&path)?;
/// # Ok::<(), std::io::Error>(())
/// ```
#[derive(Debug)]
pub struct Held {
    path: PathBuf,
    /// The file and what stands in it; `None` where there is none yet.
    old: Option<(File, Vec<u8>)>,
}

impl Held {
    /// Holds a file that was read before: `old` is what stood in it, `None` where there was none.
    ///
    /// # Errors
    /// What the system said; [`io::ErrorKind::Other`] where another program holds the file, or has changed it since it was read.
    pub fn of(path: &Path, old: Option<&[u8]>) -> io::Result<Held> {
        let old = match old {
            Some(old) => Some((hold(path, old)?, old.to_vec())),
            None => None,
        };
        Ok(Held { path: path.to_owned(), old })
    }

    /// Puts `content` into it, whole, and goes on with it line by line.
    ///
    /// # Errors
    /// As [`Held::of`]; the file is then as it was.
    pub fn with(self, content: &[u8]) -> io::Result<Lines> {
        let Held { path, old } = self;
        let file = match old {
            Some((file, old)) if old == content => file,
            Some((file, _)) => {
                replace(&path, content)?;
                let new = hold(&path, content)?;
                // Until here nobody else could replace the old one.
                drop(file);
                new
            }
            None => {
                let mut new = Replacement::of(&path)?;
                new.write_all(content)?;
                new.finish_new().map_err(|error| match error.kind() {
                    io::ErrorKind::AlreadyExists => changed(),
                    _ => error,
                })?;
                hold(&path, content)?
            }
        };
        Ok(Lines { path, file, length: content.len() as u64 })
    }
}

fn changed() -> io::Error {
    io::Error::other("another program has changed it meanwhile")
}

/// Opens and locks a file in which this must stand.
fn hold(path: &Path, content: &[u8]) -> io::Result<File> {
    let opened = OpenOptions::new().read(true).append(true).open(path);
    let file = opened.map_err(|error| if error.kind() == io::ErrorKind::NotFound { changed() } else { error })?;
    lock(&file)?;
    let mut found = Vec::new();
    (&file).take((content.len() as u64).saturating_add(1)).read_to_end(&mut found)?;
    // It may also have been replaced between opening and locking.
    if found == content && is_named(&file, path)? { Ok(file) } else { Err(changed()) }
}

#[cfg(unix)]
fn lock(file: &File) -> io::Result<()> {
    use rustix::fs::{FlockOperation, flock};
    use rustix::io::Errno;
    match flock(file, FlockOperation::NonBlockingLockExclusive) {
        Err(Errno::WOULDBLOCK) => Err(io::Error::other("another survey is writing to it")),
        // A file system without locks is no reason not to work; what is in the file is still watched.
        _ => Ok(()),
    }
}

#[cfg(not(unix))]
fn lock(_: &File) -> io::Result<()> {
    Ok(())
}

/// Whether a name stands for this file.
fn is_named(file: &File, name: &Path) -> io::Result<bool> {
    match fs::metadata(name) {
        Ok(named) => Ok(is_same(&named, &file.metadata()?)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

#[cfg(unix)]
fn is_same(one: &fs::Metadata, other: &fs::Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    (one.dev(), one.ino()) == (other.dev(), other.ino())
}

#[cfg(not(unix))]
fn is_same(one: &fs::Metadata, other: &fs::Metadata) -> bool {
    one.len() == other.len()
}

/// A file that is held and made longer by whole lines.
#[derive(Debug)]
pub struct Lines {
    path: PathBuf,
    file: File,
    length: u64,
}

impl Lines {
    /// Adds one line, its line end included, and brings it to the disk.
    ///
    /// # Errors
    /// What the system said, or [`io::ErrorKind::Other`] when the file is not as this left it, or its name stands for another one. The
    /// line is then not in the file, as far as the system lets us take it out again.
    pub fn append(&mut self, line: &str) -> io::Result<()> {
        if self.file.metadata()?.len() != self.length || !is_named(&self.file, &self.path)? {
            return Err(changed());
        }
        let written = self.file.write_all(line.as_bytes()).and_then(|()| self.file.sync_all());
        if let Err(error) = written {
            // A disk that is full may have taken half a line.
            let _ = self.file.set_len(self.length).and_then(|()| self.file.sync_all());
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
    fn a_left_over_from_a_crash_is_in_nobodys_way_and_goes_when_it_is_old() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        let left = [format!(".a.csv.{}-0.new", std::process::id()), ".a.csv.7-12.new".to_owned()];
        for left in &left {
            fs::write(folder.path().join(left), "half").expect("written");
        }
        // Not ours, whatever their age.
        for other in [".a.csv.new", ".a.csv.-x.new", ".b.csv.7-0.new", ".a.csv.7-0.newer"] {
            fs::write(folder.path().join(other), "").expect("written");
        }
        replace(&path, b"whole").expect("replaced");
        assert_eq!(fs::read(&path).expect("read"), b"whole");
        assert_eq!(fs::read(folder.path().join(&left[0])).expect("somebody may be writing it"), b"half");
        let all = names(folder.path());
        for entry in fs::read_dir(folder.path()).expect("a folder") {
            let file = File::options().write(true).open(entry.expect("an entry").path()).expect("a file");
            file.set_modified(std::time::SystemTime::now() - 2 * LEFT_OVER_AFTER).expect("an earlier time");
        }
        replace(&path, b"again").expect("replaced");
        let kept: Vec<String> = all.into_iter().filter(|name| !left.contains(name)).collect();
        assert_eq!(names(folder.path()), kept);
    }

    #[test]
    fn what_is_not_finished_changes_nothing() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        fs::write(&path, "old").expect("written");
        let mut replacement = Replacement::of(&path).expect("begun");
        replacement.write_all(b"half").expect("written");
        assert_eq!(names(folder.path()).len(), 2);
        drop(replacement);
        assert_eq!((names(folder.path()), fs::read(&path).expect("read")), (vec!["a.csv".to_owned()], b"old".to_vec()));
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
        // A link to a file that is still to be made.
        let (later, link) = (folder.path().join("later.csv"), folder.path().join("to-later.csv"));
        symlink("later.csv", &link).expect("linked");
        replace(&link, b"three").expect("made");
        assert_eq!(fs::read(&later).expect("read"), b"three");
        assert!(fs::symlink_metadata(&link).expect("a link").is_symlink());
    }

    #[test]
    fn lines_follow_each_other() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        for (old, content) in [(None, "head\n"), (Some("head\none\ntwo\n"), "head\none\ntwo\n")] {
            let mut lines =
                Held::of(&path, old.map(str::as_bytes)).expect("held").with(content.as_bytes()).expect("lines");
            lines.append("one\n").expect("appended");
            lines.append("two\n").expect("appended");
            assert_eq!(fs::read_to_string(&path).expect("read"), format!("{content}one\ntwo\n"));
            assert_eq!(names(folder.path()), ["a.csv"]);
        }
        // A header that lacked a column.
        let old = fs::read(&path).expect("read");
        let mut lines = Held::of(&path, Some(&old)).expect("held").with(b"wider head\n").expect("lines");
        lines.append("one\n").expect("appended");
        assert_eq!(fs::read_to_string(&path).expect("read"), "wider head\none\n");
    }

    #[test]
    fn a_file_that_somebody_changed_is_not_written_to() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        fs::write(&path, "head\n").expect("written");
        let lines = || Held::of(&path, Some(b"head\n")).and_then(|held| held.with(b"head\n"));
        let mut first = lines().expect("there");
        fs::write(&path, "other head\n").expect("written");
        first.append("one\n").expect_err("it was changed");
        assert_eq!(fs::read_to_string(&path).expect("read"), "other head\n");
        drop(first);
        // As long as before, but another file.
        fs::write(&path, "head\n").expect("written");
        let mut second = lines().expect("there");
        replace(&path, b"HEAD\n").expect("replaced");
        second.append("one\n").expect_err("it was replaced");
        assert_eq!(fs::read_to_string(&path).expect("read"), "HEAD\n");
        fs::remove_file(&path).expect("removed");
        second.append("one\n").expect_err("it is gone, and not made again without its header");
        assert!(!path.exists());
    }

    #[test]
    fn what_was_changed_since_it_was_read_is_not_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        // Read as not there, made by somebody else before the first line.
        let held = Held::of(&path, None).expect("held");
        fs::write(&path, "head\nline\n").expect("written");
        let told = held.with(b"head\n").expect_err("somebody made it").to_string();
        assert_eq!(told, "another program has changed it meanwhile");
        for old in [&b"head\n"[..], b"head\nline\nline\n", b""] {
            let told = Held::of(&path, Some(old)).expect_err("somebody changed it").to_string();
            assert_eq!(told, "another program has changed it meanwhile");
        }
        assert_eq!(fs::read_to_string(&path).expect("read"), "head\nline\n");
        fs::remove_file(&path).expect("removed");
        Held::of(&path, Some(b"head\n")).expect_err("it is gone");
        assert_eq!(names(folder.path()), [""; 0]);
    }

    #[cfg(unix)]
    #[test]
    fn only_one_holds_a_file() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.csv");
        fs::write(&path, "head\n").expect("written");
        let first = Held::of(&path, Some(b"head\n")).expect("held");
        let told = Held::of(&path, Some(b"head\n")).expect_err("held by the first").to_string();
        assert_eq!(told, "another survey is writing to it");
        let lines = first.with(b"head\nline\n").expect("replaced");
        Held::of(&path, Some(b"head\nline\n")).expect_err("the new file is held as well");
        drop(lines);
        Held::of(&path, Some(b"head\nline\n")).expect("let go of");
    }
}
