//! A person at a handheld terminal: enters the lines of a script, turns the page when the terminal waits for it.

use std::cell::RefCell;
use std::convert::Infallible;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use embedded_io::{ErrorType, Read, Write};
use shophead_handheld::{Settings, run};

/// What a terminal shows when it waits for the page to be turned.
pub const PAGE_END: &str = "more .=skip> ";

/// What somebody does at the end of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// Turns it.
    Turns,
    /// Skips what is left of the answer.
    Skips,
    /// Types the next entry, or turns it where that is enter alone.
    TypesOn,
}

/// What was typed and what was shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Conversation {
    /// Every byte that went in, page turns included.
    pub typed: Vec<u8>,
    /// Every byte that came out.
    pub shown: Vec<u8>,
    /// What was shown, in bytes, each time that the terminal waited for a line, and what was typed then.
    pub waits: Vec<(usize, String)>,
}

struct Keys<'s> {
    script: std::str::Lines<'s>,
    manner: Manner,
    waits: Vec<(usize, String)>,
    pending: Vec<u8>,
    typed: Vec<u8>,
    shown: Rc<RefCell<Vec<u8>>>,
}

struct Display(Rc<RefCell<Vec<u8>>>);

impl ErrorType for Keys<'_> {
    type Error = Infallible;
}

impl ErrorType for Display {
    type Error = Infallible;
}

impl Read for Keys<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> Result<usize, Infallible> {
        if self.pending.is_empty() {
            let at_page = self.shown.borrow().ends_with(PAGE_END.as_bytes());
            let line = match self.manner {
                Manner::Turns if at_page => Some(""),
                Manner::Skips if at_page => Some("."),
                // Enter alone turns the page.
                Manner::TypesOn if at_page && self.script.clone().next() == Some("") => Some(""),
                _ => self.script.next(),
            };
            let Some(line) = line else { return Ok(0) };
            self.waits.push((self.shown.borrow().len(), line.to_owned()));
            self.pending = format!("{line}\r").into_bytes();
            self.typed.extend(&self.pending);
        }
        buffer[0] = self.pending.remove(0);
        Ok(1)
    }
}

impl Write for Display {
    fn write(&mut self, bytes: &[u8]) -> Result<usize, Infallible> {
        self.0.borrow_mut().extend(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<(), Infallible> {
        Ok(())
    }
}

/// The whole session of a script on a terminal of this size that shows only what it is sent.
///
/// # Panics
/// When the size is none, or the terminal breaks, which this one does not.
#[must_use]
pub fn converse(script: &str, columns: u8, lines: u8) -> Conversation {
    converse_as(Manner::Turns, script, columns, lines)
}

/// The same with somebody of another manner.
///
/// # Panics
/// As [`converse`].
#[must_use]
pub fn converse_as(manner: Manner, script: &str, columns: u8, lines: u8) -> Conversation {
    let settings = Settings::new(columns, lines).expect("a size").with_echo().with_carriage_return();
    let shown = Rc::new(RefCell::new(Vec::new()));
    let (pending, typed, waits) = (Vec::new(), Vec::new(), Vec::new());
    let mut keys = Keys { script: script.lines(), manner, waits, pending, typed, shown: Rc::clone(&shown) };
    run(&mut keys, Display(Rc::clone(&shown)), settings).expect("nothing can break");
    Conversation { typed: keys.typed, waits: keys.waits, shown: shown.take() }
}

/// The sizes on which every script is replayed: the smallest, a common one, the largest.
pub const SIZES: [(u8, u8); 3] = [(16, 2), (20, 4), (40, 8)];

/// Name and text of every script.
///
/// # Panics
/// When there is none.
#[must_use]
pub fn scripts() -> Vec<(String, String)> {
    let mut scripts: Vec<(String, String)> = std::fs::read_dir(folder())
        .expect("the folder of transcripts")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "keys"))
        .map(|path| {
            let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
            (name, std::fs::read_to_string(path).expect("a script"))
        })
        .collect();
    scripts.sort();
    assert!(!scripts.is_empty(), "no script");
    scripts
}

/// The file of a recorded transcript.
#[must_use]
pub fn transcript(name: &str, columns: u8, lines: u8) -> PathBuf {
    folder().join(format!("{name}.{columns}x{lines}.txt"))
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("transcripts")
}
