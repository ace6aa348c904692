//! Where the bytes come from.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf, absolute};

use super::MAX_BYTES;

/// Where a job looks for the files that it names. A closure from a path to the bytes will do.
pub trait Files {
    /// The bytes of a file.
    ///
    /// # Errors
    /// What the system said.
    fn read(&self, path: &Path) -> io::Result<Vec<u8>>;

    /// Whether a job may name this file at all.
    fn may_name(&self, _path: &Path) -> bool {
        true
    }
}

impl<F: Fn(&Path) -> io::Result<Vec<u8>>> Files for F {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        self(path)
    }
}

/// Files on the disk: any, or only those in one folder.
///
/// ```
/// use shophead_job::read::{Disk, Files};
/// use std::path::Path;
/// let folder = std::env::temp_dir();
/// let within = Disk::within(&folder);
/// assert!(within.may_name(&folder.join("holes.csv")));
/// assert!(!within.may_name(&folder.join("../holes.csv")));
/// assert!(Disk::anywhere().may_name(Path::new("/etc/passwd")));
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Disk {
    folder: Option<PathBuf>,
}

impl Disk {
    /// Any file that the system lets us read.
    #[must_use]
    pub const fn anywhere() -> Disk {
        Disk { folder: None }
    }

    /// Only files in this folder and in those below it, links followed: for a service that reads the jobs of others.
    #[must_use]
    pub fn within(folder: &Path) -> Disk {
        let here = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        Disk { folder: Some(here.to_owned()) }
    }
}

impl Files for Disk {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        bytes_of(File::open(path)?)
    }

    fn may_name(&self, path: &Path) -> bool {
        self.folder.as_deref().is_none_or(|folder| is_within(folder, path))
    }
}

/// The bytes up to the end, or as many as tell that there are too many: one more than [`MAX_BYTES`].
///
/// # Errors
/// What the system said.
pub fn bytes_of(from: impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take((MAX_BYTES as u64).saturating_add(1)).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// First as it is written, so that nobody learns what is elsewhere; then with links followed.
fn is_within(folder: &Path, path: &Path) -> bool {
    let (Some(written_folder), Some(written), Ok(real_folder)) = (plain(folder), plain(path), fs::canonicalize(folder))
    else {
        return false;
    };
    if !(written.starts_with(&written_folder) || written.starts_with(&real_folder)) {
        return false;
    }
    // Of a file that is not there the folder counts.
    let real = fs::canonicalize(path).or_else(|_| fs::canonicalize(path.parent().unwrap_or(path)));
    real.map_or(true, |real| real.starts_with(&real_folder))
}

/// A path from the root on, every `..` taken for the step back that it is.
fn plain(path: &Path) -> Option<PathBuf> {
    let mut plain = PathBuf::new();
    for part in absolute(path).ok()?.components() {
        match part {
            Component::ParentDir => {
                plain.pop();
            }
            part => plain.push(part),
        }
    }
    Some(plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_left_neither_by_a_path_nor_by_a_link() {
        let around = tempfile::tempdir().expect("a folder");
        let folder = around.path().join("job");
        fs::create_dir_all(folder.join("below")).expect("made");
        fs::write(around.path().join("secret"), "").expect("written");
        let within = Disk::within(&folder);
        for (name, may) in [
            ("holes.csv", true),
            ("./below/../holes.csv", true),
            ("below/holes.csv", true),
            ("nowhere/holes.csv", true),
            ("..", false),
            ("../secret", false),
            ("../not-there", false),
            ("below/../../secret", false),
            ("../jobs/holes.csv", false),
            ("/etc/passwd", false),
            ("/not-there", false),
        ] {
            assert_eq!(within.may_name(&folder.join(name)), may, "{name}");
        }
        assert!(within.may_name(&fs::canonicalize(&folder).expect("there").join("holes.csv")), "by its full name");
        assert!(!Disk::within(&around.path().join("not-there")).may_name(&around.path().join("not-there/x")));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_folder_is_no_way_out() {
        use std::os::unix::fs::symlink;
        let around = tempfile::tempdir().expect("a folder");
        let folder = around.path().join("job");
        fs::create_dir(&folder).expect("made");
        fs::write(around.path().join("secret"), "").expect("written");
        symlink(around.path().join("secret"), folder.join("file")).expect("linked");
        symlink(around.path(), folder.join("up")).expect("linked");
        symlink(&folder, around.path().join("job-too")).expect("linked");
        let within = Disk::within(&folder);
        for name in ["file", "up/secret", "up/not-there"] {
            assert!(!within.may_name(&folder.join(name)), "{name}");
        }
        // The folder itself may be reached by a link.
        let by_link = around.path().join("job-too");
        assert!(Disk::within(&by_link).may_name(&by_link.join("holes.csv")));
    }

    #[test]
    fn no_more_is_read_than_tells_that_it_is_too_much() {
        assert_eq!(bytes_of(io::repeat(0)).expect("endless").len(), MAX_BYTES + 1);
        assert_eq!(bytes_of(&b"abc"[..]).expect("three"), b"abc");
    }
}
