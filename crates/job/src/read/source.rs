//! A file that is being read, and the mistakes found so far.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::fmt::Display;
use std::io;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use shophead::length::Bare;

use super::{Files, MAX_BYTES, MAX_MISTAKES, ReadError};
use crate::diagnostic::{Diagnostic, escaped};

/// File, place in it, and the order in which mistakes at one place were found.
type Key = (usize, usize, usize);

/// What is wrong in all files of one job, the first [`MAX_MISTAKES`] in file order.
#[derive(Default)]
pub(super) struct Mistakes {
    kept: RefCell<BTreeMap<Key, Diagnostic>>,
    found: Cell<usize>,
    files: Cell<usize>,
    io: RefCell<Option<ReadError>>,
}

impl Mistakes {
    fn keep(&self, rank: usize, mistake: Diagnostic) {
        let found = self.found.get();
        self.found.set(found + 1);
        let mut kept = self.kept.borrow_mut();
        kept.insert((rank, mistake.span.start, found), mistake);
        if kept.len() > MAX_MISTAKES {
            kept.pop_last();
        }
    }

    /// Whether a mistake in the file opened last, further down than any so far, would still be kept.
    pub(super) fn is_full(&self) -> bool {
        self.found.get() >= MAX_MISTAKES
    }

    /// What was read, if nothing was wrong.
    pub(super) fn result<T>(self, read: Option<T>) -> Result<T, ReadError> {
        if let Some(error) = self.io.into_inner() {
            return Err(error);
        }
        let kept: Vec<Diagnostic> = self.kept.into_inner().into_values().collect();
        match read {
            Some(read) if kept.is_empty() => Ok(read),
            _ => Err(ReadError::Content(kept)),
        }
    }

    /// Opens a file. That it cannot be read, or is no text, is kept as what went wrong.
    pub(super) fn open(&self, path: PathBuf, files: &dyn Files) -> Option<Source<'_>> {
        match files.read(&path) {
            Ok(bytes) => self.source(&path, bytes),
            Err(source) => {
                self.io.borrow_mut().get_or_insert(ReadError::Io { path, source });
                None
            }
        }
    }

    /// Opens a file that need not be there yet: `Some(None)` where it is not.
    pub(super) fn open_if_there(&self, path: PathBuf, files: &dyn Files) -> Option<Option<Source<'_>>> {
        match files.read(&path) {
            Ok(bytes) => self.source(&path, bytes).map(Some),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Some(None),
            Err(source) => {
                self.io.borrow_mut().get_or_insert(ReadError::Io { path, source });
                None
            }
        }
    }

    pub(super) fn source(&self, path: &Path, bytes: Vec<u8>) -> Option<Source<'_>> {
        let rank = self.files.get();
        self.files.set(rank + 1);
        if bytes.len() > MAX_BYTES {
            let name = path.display().to_string().into();
            // Nobody wants to see a line of it.
            let source = Source { name, text: "".into(), bare: Cell::default(), rank, mistakes: self };
            source.too_large(MAX_BYTES);
            return None;
        }
        let (text, wrong_at) = match String::from_utf8(bytes) {
            Ok(text) => (text, None),
            Err(error) => {
                let at = error.utf8_error().valid_up_to();
                (String::from_utf8_lossy(error.as_bytes()).into_owned(), Some(at))
            }
        };
        let name = path.display().to_string().into();
        let (text, skipped) = match text.strip_prefix('\u{feff}') {
            Some(rest) => (rest.into(), '\u{feff}'.len_utf8()),
            None => (text.into(), 0),
        };
        let source = Source { name, text, bare: Cell::default(), rank, mistakes: self };
        match wrong_at {
            None => Some(source),
            Some(at) => {
                let at = at.saturating_sub(skipped);
                source.mistake(at..at, "this is not UTF-8 text", "save the file as UTF-8");
                None
            }
        }
    }
}

/// A file that is being read.
pub(super) struct Source<'m> {
    pub(super) name: Arc<str>,
    pub(super) text: Arc<str>,
    /// What a number without a unit is in it.
    pub(super) bare: Cell<Bare>,
    rank: usize,
    pub(super) mistakes: &'m Mistakes,
}

impl Source<'_> {
    /// Something is wrong: what, and what would be right (may be empty).
    pub(super) fn mistake(&self, span: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        let help = Some(help.into()).filter(|help| !help.is_empty());
        let (file, text) = (Arc::clone(&self.name), Arc::clone(&self.text));
        self.mistakes.keep(self.rank, Diagnostic { message: message.into(), help, file, text, span });
    }

    /// It has more bytes than any that is meant.
    pub(super) fn too_large(&self, most: usize) {
        let message = format!("this file is larger than {} MiB", most / (1024 * 1024));
        self.mistake(0..0, message, "name the file that is meant; no job, list or record is that long");
    }

    /// The same in the words of core, which end with what would be right.
    pub(super) fn refused(&self, span: Range<usize>, what: &str, error: &impl Display) {
        let sentence = error.to_string();
        let (message, help) = sentence.rsplit_once("; ").unwrap_or((&sentence, ""));
        self.mistake(span, format!("{what}: {message}"), help);
    }
}

/// A line of a file, to be named when a later one says the same.
#[derive(Clone)]
pub(super) struct Said {
    file: Arc<str>,
    text: Arc<str>,
    at: usize,
}

impl Said {
    pub(super) fn at(source: &Source<'_>, at: usize) -> Said {
        Said { file: Arc::clone(&source.name), text: Arc::clone(&source.text), at }
    }
}

/// `file:line`.
impl Display for Said {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let line = self.text.get(..self.at).map_or(0, |before| before.matches('\n').count()) + 1;
        write!(f, "{}:{line}", escaped(&self.file))
    }
}

/// A text from a file as it is shown in a message: in quotes, cut when it is long.
pub(super) fn quoted(text: &str) -> String {
    format!("\"{}\"", beginning(text))
}

/// As much of somebody's own words as can be shown.
pub(super) fn beginning(text: &str) -> String {
    const MOST: usize = 40;
    let cut: String = text.chars().take(MOST).collect();
    let more = if cut.len() < text.len() { "..." } else { "" };
    format!("{}{more}", escaped(&cut))
}

/// What would be right where a word is not known: the nearest ones, or all when none is near.
pub(super) fn nearest_or_all<'w>(written: &str, known: impl Iterator<Item = &'w str> + Clone) -> String {
    let near = nearest(written, known.clone());
    if near.is_empty() { one_of(known) } else { one_of(near.into_iter()) }
}

/// `right would be "a", "b" or "c"`.
pub(super) fn one_of<'w>(words: impl Iterator<Item = &'w str> + Clone) -> String {
    /// Longer lists are no help.
    const MOST: usize = 24;
    let mut shown: Vec<String> = words.clone().take(MOST).map(quoted).collect();
    if words.count() > MOST {
        shown.push("another".into());
    }
    match shown.as_slice() {
        [] => "none is known".into(),
        [one] => format!("right would be {one}"),
        [first @ .., last] => format!("right would be {} or {last}", first.join(", ")),
    }
}

/// The words that may have been meant: those at the least distance, if that is small.
pub(super) fn nearest<'w>(written: &str, known: impl Iterator<Item = &'w str>) -> Vec<&'w str> {
    /// Distances are computed in a square of both lengths; nobody means a word by a text as long as this.
    const LONGEST: usize = 64;
    if written.len() > LONGEST {
        return Vec::new();
    }
    let plain = |word: &str| word.to_lowercase().replace(['_', ' '], "-");
    let meant = plain(written);
    let (mut least, mut near) = (usize::MAX, Vec::new());
    for word in known.filter(|word| word.len() <= LONGEST) {
        let distance = strsim::osa_distance(&meant, &plain(word));
        // Two of three letters must stand: in a word of three one slip, in one of six two.
        if distance > least || distance * 3 > word.chars().count().max(3) {
            continue;
        }
        if distance < least {
            near.clear();
        }
        least = distance;
        near.push(word);
    }
    near
}
