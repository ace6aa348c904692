//! The terminal: words wrapped to its columns, pages held until they are read, entries read a line at a time.
//!
//! Nothing that is sent is wider than the terminal, what is typed included where this sends it back. A page that is held can be turned or
//! skipped; whatever else is typed there skips it and is the next entry. What must be read is never skipped.

use core::fmt;

use embedded_io::{Error as _, ErrorKind, Read, Write};
use heapless::String;

use crate::settings::Settings;

/// The longest entry.
pub(crate) const MAX_ENTRY: usize = 32;

/// The most columns there are; a longer word is broken.
const MAX_WORD: usize = 40;

/// Stands on the last line while a page waits to be read: enter turns it, a point skips what is left of the answer.
pub(crate) const PAGE_END: &str = "more .=skip> ";

/// Stands before an entry.
const ENTRY: &str = "> ";

/// So many errors one behind the other, with nothing read between them, and the terminal counts as broken.
const MOST_ERRORS: u8 = 16;

/// Printed as a space at which no line is broken.
pub(crate) const FIXED_SPACE: char = '\u{a0}';

/// What the terminal answered with an error.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum TerminalError<R, W> {
    /// It could not be read.
    Read(R),
    /// It could not be written.
    Write(W),
}

impl<R: fmt::Display, W: fmt::Display> fmt::Display for TerminalError<R, W> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TerminalError::Read(error) => write!(f, "the terminal cannot be read: {error}"),
            TerminalError::Write(error) => write!(f, "the terminal cannot be written: {error}"),
        }
    }
}

impl<R: core::error::Error, W: core::error::Error> core::error::Error for TerminalError<R, W> {}

/// What was typed on one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Entry {
    /// The text, without spaces around it.
    Text(String<MAX_ENTRY>),
    /// More than [`MAX_ENTRY`] characters.
    TooLong,
    /// Something other than printable ASCII.
    NotText,
    /// The terminal made a mistake in it.
    Unread,
    /// The terminal is closed.
    End,
}

/// A terminal with a place on its page.
pub(crate) struct Screen<R: Read, W: Write> {
    input: R,
    output: W,
    settings: Settings,
    /// The word that is being put together; where it goes is known only at its end.
    word: String<MAX_WORD>,
    space_before: bool,
    /// Characters on the line so far.
    column: u8,
    /// Lines shown since the last entry.
    row: u8,
    /// The reader of this page wants no more of it.
    skipping: bool,
    /// What is written now is not skipped.
    must_be_read: bool,
    /// What was typed at a page instead of turning it.
    waiting: Option<Entry>,
    ended: bool,
    after_return: bool,
    failure: Option<TerminalError<R::Error, W::Error>>,
}

impl<R: Read, W: Write> Screen<R, W> {
    pub(crate) fn new(input: R, output: W, settings: Settings) -> Screen<R, W> {
        Screen {
            input,
            output,
            settings,
            word: String::new(),
            space_before: false,
            column: 0,
            row: 0,
            skipping: false,
            must_be_read: false,
            waiting: None,
            ended: false,
            after_return: false,
            failure: None,
        }
    }

    /// What went wrong with the terminal, if anything did; afterwards nothing is sent to it any more.
    pub(crate) fn into_failure(mut self) -> Option<TerminalError<R::Error, W::Error>> {
        if self.failure.is_none() {
            self.failure = self.output.flush().err().map(TerminalError::Write);
        }
        self.failure
    }

    /// Whether nothing more can be read or shown.
    pub(crate) fn is_over(&self) -> bool {
        self.ended || self.failure.is_some()
    }

    /// Whether what is written from here on is shown even to somebody who skips the rest.
    pub(crate) fn must_be_read(&mut self, must: bool) {
        self.finish_line();
        self.must_be_read = must;
    }

    /// Asks, and reads a line, unless it was typed already.
    pub(crate) fn ask(&mut self, prompt: fmt::Arguments<'_>) -> Entry {
        self.finish_line();
        self.skipping = false;
        // The question and its entry must not push away what was not read yet.
        const ASKING: u8 = 2;
        if self.row > 0 && self.row.saturating_add(ASKING) > self.settings.lines() {
            self.pause();
        }
        self.skipping = false;
        let _ = fmt::Write::write_fmt(self, prompt);
        self.finish_line();
        self.send(ENTRY);
        let entry = match self.waiting.take() {
            Some(entry) => {
                self.send_back(&entry);
                entry
            }
            None => self.read_line(ENTRY),
        };
        self.row = 0;
        entry
    }

    /// Shows what was typed before it was asked for.
    fn send_back(&mut self, entry: &Entry) {
        let mut column = width(ENTRY);
        if let Entry::Text(text) = entry {
            for typed in text.chars() {
                self.send_typed(typed, &mut column);
            }
        }
        self.send(self.settings.line_end());
    }

    /// Ends the line that was begun.
    pub(crate) fn finish_line(&mut self) {
        self.end_word();
        self.space_before = false;
        if self.column > 0 {
            self.end_line();
        }
    }

    fn end_line(&mut self) {
        if self.is_shown() {
            self.send(self.settings.line_end());
            self.row = self.row.saturating_add(1);
        }
        self.column = 0;
    }

    /// Puts the word on the line, on the next one where it does not fit.
    fn end_word(&mut self) {
        if self.word.is_empty() {
            return;
        }
        let word = core::mem::take(&mut self.word);
        let length = u8::try_from(word.len()).unwrap_or(u8::MAX);
        let gap = u8::from(self.space_before && self.column > 0);
        if self.column > 0 && self.column.saturating_add(gap).saturating_add(length) > self.settings.columns() {
            self.end_line();
        } else if gap > 0 {
            self.send_unless_skipping(" ");
            self.column = self.column.saturating_add(gap);
        }
        if self.column == 0 && self.row.saturating_add(1) >= self.settings.lines() {
            self.pause();
        }
        self.send_unless_skipping(&word);
        self.column = self.column.saturating_add(length);
        self.space_before = false;
    }

    /// Waits on the last line until the page is read.
    fn pause(&mut self) {
        // Who has typed the next entry does not wait to be asked for it.
        if !self.is_shown() || (self.waiting.is_some() && !self.must_be_read) {
            return;
        }
        self.send(PAGE_END);
        match self.read_line(PAGE_END) {
            Entry::Text(text) if text.is_empty() => {}
            Entry::Text(text) if text == "." => self.skipping = true,
            // Nobody is there; whatever still comes begins on a line of its own.
            Entry::End => self.send(self.settings.line_end()),
            other => {
                self.skipping = true;
                self.waiting = Some(other);
            }
        }
        self.row = 0;
    }

    const fn is_shown(&self) -> bool {
        !self.skipping || self.must_be_read
    }

    fn send_unless_skipping(&mut self, text: &str) {
        if self.is_shown() {
            self.send(text);
        }
    }

    fn send(&mut self, text: &str) {
        if self.failure.is_none() {
            self.failure = self.output.write_all(text.as_bytes()).err().map(TerminalError::Write);
        }
    }

    /// The next byte; `None` at the end. Says in `unread` that the terminal made a mistake before it.
    fn read_byte(&mut self, unread: &mut bool) -> Option<u8> {
        let mut errors = 0_u8;
        while !self.is_over() {
            let mut byte = [0];
            let sent = self.output.flush().map_err(TerminalError::Write);
            match sent.and_then(|()| self.input.read(&mut byte).map_err(TerminalError::Read)) {
                Ok(0) => self.ended = true,
                Ok(_) => return byte.first().copied(),
                // Nothing was lost: nobody has typed for a while, or something else had to be done first.
                Err(TerminalError::Read(error))
                    if matches!(error.kind(), ErrorKind::Interrupted | ErrorKind::TimedOut) => {}
                Err(TerminalError::Read(_)) if errors < MOST_ERRORS => {
                    errors = errors.saturating_add(1);
                    *unread = true;
                }
                Err(error) => self.failure = Some(error),
            }
        }
        None
    }

    /// Sends a character back to whoever typed it, on a line of its own where this one is full.
    fn send_typed(&mut self, typed: char, column: &mut u8) {
        if *column >= self.settings.columns() {
            self.send(self.settings.line_end());
            *column = 0;
        }
        let mut bytes = [0; 4];
        self.send(typed.encode_utf8(&mut bytes));
        *column = column.saturating_add(1);
    }

    /// Takes the last character away from the screen. A line that was ended stays: what is left of the entry begins another.
    fn take_back(&mut self, left: &str, column: &mut u8) {
        if *column > 0 {
            self.send("\u{8} \u{8}");
            *column = column.saturating_sub(1);
            return;
        }
        self.send(self.settings.line_end());
        let fits = usize::from(self.settings.columns()).saturating_sub(1);
        let start = left.len().saturating_sub(fits);
        for typed in left.chars().skip(start) {
            self.send_typed(typed, column);
        }
    }

    /// Reads a line that begins behind a prompt.
    fn read_line(&mut self, behind: &str) -> Entry {
        const LAST_ASCII: u8 = 0x7e;
        let mut text: String<MAX_ENTRY> = String::new();
        let (mut too_long, mut not_text, mut unread) = (false, false, false);
        let mut column = width(behind);
        loop {
            let Some(byte) = self.read_byte(&mut unread) else { return Entry::End };
            let after_return = core::mem::replace(&mut self.after_return, byte == b'\r');
            match byte {
                b'\n' if after_return => {}
                b'\r' | b'\n' => break,
                // Backspace and delete.
                0x08 | 0x7f => {
                    if text.pop().is_some() && self.settings.echo() {
                        self.take_back(&text, &mut column);
                    }
                }
                b' '..=LAST_ASCII => {
                    let typed = char::from(byte);
                    if text.push(typed).is_err() {
                        too_long = true;
                    } else if self.settings.echo() {
                        self.send_typed(typed, &mut column);
                    }
                }
                _ => not_text = true,
            }
        }
        if self.settings.echo() {
            self.send(self.settings.line_end());
        }
        if unread {
            Entry::Unread
        } else if too_long {
            Entry::TooLong
        } else if not_text {
            Entry::NotText
        } else {
            Entry::Text(String::try_from(text.trim()).unwrap_or_default())
        }
    }
}

fn width(text: &str) -> u8 {
    u8::try_from(text.len()).unwrap_or(u8::MAX)
}

/// Wraps what is written. It never fails: a terminal that does is remembered, and nothing more is sent to it.
impl<R: Read, W: Write> fmt::Write for Screen<R, W> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for typed in text.chars() {
            match typed {
                '\n' => {
                    self.end_word();
                    self.space_before = false;
                    self.end_line();
                }
                ' ' => {
                    self.end_word();
                    self.space_before = true;
                }
                FIXED_SPACE => self.push(' '),
                '±' => {
                    self.push('+');
                    self.push('-');
                }
                ' '..='~' => self.push(typed),
                // A line terminal has no other characters.
                _ => self.push('?'),
            }
        }
        Ok(())
    }
}

impl<R: Read, W: Write> Screen<R, W> {
    fn push(&mut self, typed: char) {
        if self.word.len() >= usize::from(self.settings.columns()) {
            self.end_word();
        }
        // Room was made; columns are no more than the word holds.
        let _ = self.word.push(typed);
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use core::fmt::Write as _;
    use std::string::String as Text;
    use std::vec::Vec;

    fn shown(columns: u8, lines: u8, keys: &str, write: impl Fn(&mut Screen<&[u8], &mut Vec<u8>>)) -> Text {
        let mut output = Vec::new();
        let settings = Settings::new(columns, lines).expect("a size").with_echo();
        let mut screen = Screen::new(keys.as_bytes(), &mut output, settings);
        write(&mut screen);
        assert_eq!(screen.into_failure(), None);
        Text::from_utf8(output).expect("text")
    }

    #[test]
    fn words_are_wrapped_and_long_ones_broken() {
        let text = shown(16, 8, "", |screen| {
            let _ = write!(screen, "the edge distance is 1234567890123456789 short");
            screen.finish_line();
        });
        assert_eq!(text, "the edge\ndistance is\n1234567890123456\n789 short\n");
    }

    #[test]
    fn a_fixed_space_breaks_no_line() {
        let text = shown(16, 8, "", |screen| {
            let _ = write!(screen, "1\u{a0}length 2\u{a0}driven");
            screen.finish_line();
        });
        // 8 + 1 + 8 are one more than 16.
        assert_eq!(text, "1 length\n2 driven\n");
    }

    #[test]
    fn a_page_waits_on_its_last_line() {
        let text = shown(16, 3, "\n\n", |screen| {
            for line in 1..=5 {
                let _ = writeln!(screen, "line {line}");
            }
        });
        assert_eq!(text, "line 1\nline 2\nmore .=skip> \nline 3\nline 4\nmore .=skip> \nline 5\n");
    }

    #[test]
    fn a_point_skips_to_the_next_question() {
        let text = shown(20, 3, ".\nyes\n", |screen| {
            for line in 1..=5 {
                let _ = writeln!(screen, "line {line}");
            }
            let entry = screen.ask(format_args!("well?"));
            assert_eq!(entry, Entry::Text("yes".try_into().expect("short")));
        });
        assert_eq!(text, "line 1\nline 2\nmore .=skip> .\nwell?\n> yes\n");
    }

    #[test]
    fn what_is_typed_at_a_page_is_the_next_entry() {
        let text = shown(20, 3, "yes\nno\n", |screen| {
            for line in 1..=5 {
                let _ = writeln!(screen, "line {line}");
            }
            assert_eq!(screen.ask(format_args!("well?")), Entry::Text("yes".try_into().expect("short")));
            assert_eq!(screen.ask(format_args!("sure?")), Entry::Text("no".try_into().expect("short")));
        });
        assert_eq!(text, "line 1\nline 2\nmore .=skip> yes\nwell?\n> yes\nsure?\n> no\n");
        // Also what is no entry at all: it is told where it was asked for.
        shown(20, 3, "\u{1b}\n", |screen| {
            let _ = write!(screen, "line 1\nline 2\nline 3");
            assert_eq!(screen.ask(format_args!("well?")), Entry::NotText);
        });
    }

    #[test]
    fn what_must_be_read_is_neither_skipped_nor_pushed_away() {
        let write = |screen: &mut Screen<&[u8], &mut Vec<u8>>| {
            let _ = writeln!(screen, "line 1\nline 2\nline 3");
            screen.must_be_read(true);
            let _ = writeln!(screen, "STOP 1\nSTOP 2\nSTOP 3");
            screen.must_be_read(false);
            let _ = writeln!(screen, "line 4");
            assert_eq!(screen.ask(format_args!("well?")), Entry::Text("9".try_into().expect("short")));
        };
        let text = shown(20, 3, ".\n\n9\n", write);
        assert_eq!(text, "line 1\nline 2\nmore .=skip> .\nSTOP 1\nSTOP 2\nmore .=skip> \nSTOP 3\nwell?\n> 9\n");
        // The last of what is typed at the pages counts.
        let text = shown(20, 3, "8\n9\n", write);
        assert_eq!(text, "line 1\nline 2\nmore .=skip> 8\nSTOP 1\nSTOP 2\nmore .=skip> 9\nSTOP 3\nwell?\n> 9\n");
    }

    #[test]
    fn what_is_typed_is_wrapped_and_taken_back_on_the_line_where_it_stands() {
        let text = shown(16, 8, "123456789012345678\u{8}\u{8}\u{8}\u{8}\u{8}x\n", |screen| {
            assert_eq!(screen.ask(format_args!("?")), Entry::Text("1234567890123x".try_into().expect("short")));
        });
        // 14 fit behind the sign. Four are taken back where they stand, the fifth stood on the line before.
        assert_eq!(text, "?\n> 12345678901234\n5678\u{8} \u{8}\u{8} \u{8}\u{8} \u{8}\u{8} \u{8}\n1234567890123x\n");
    }

    /// A line on which bytes get lost.
    struct Noisy<'b>(&'b [Result<u8, ErrorKind>]);

    impl embedded_io::ErrorType for Noisy<'_> {
        type Error = ErrorKind;
    }

    impl Read for Noisy<'_> {
        fn read(&mut self, to: &mut [u8]) -> Result<usize, ErrorKind> {
            let Some((first, rest)) = self.0.split_first() else { return Ok(0) };
            self.0 = rest;
            to[0] = (*first)?;
            Ok(1)
        }
    }

    fn asked(
        bytes: &[Result<u8, ErrorKind>],
    ) -> (Vec<Entry>, Option<TerminalError<ErrorKind, core::convert::Infallible>>) {
        let mut output = Vec::new();
        let mut screen = Screen::new(Noisy(bytes), &mut output, Settings::new(20, 4).expect("a size"));
        let mut entries = Vec::new();
        while !screen.is_over() {
            entries.push(screen.ask(format_args!("?")));
        }
        (entries, screen.into_failure())
    }

    #[test]
    fn an_error_of_the_line_costs_the_entry_and_nothing_else() {
        let text = |text: &str| Entry::Text(text.try_into().expect("short"));
        let bytes = [Err(ErrorKind::TimedOut), Ok(b'1'), Err(ErrorKind::Interrupted), Ok(b'2'), Ok(b'\r')];
        assert_eq!(asked(&bytes), (std::vec![text("12"), Entry::End], None));
        let bytes = [Ok(b'1'), Err(ErrorKind::Other), Ok(b'2'), Ok(b'\r'), Ok(b'3'), Ok(b'\r')];
        assert_eq!(asked(&bytes), (std::vec![Entry::Unread, text("3"), Entry::End], None));
        let waits = [Err(ErrorKind::TimedOut); 1_000];
        assert_eq!(asked(&waits), (std::vec![Entry::End], None), "nobody typed anything for a long time");
        let broken = [Err(ErrorKind::Other); 1_000];
        assert_eq!(asked(&broken), (std::vec![Entry::End], Some(TerminalError::Read(ErrorKind::Other))));
    }

    #[test]
    fn both_line_ends_and_backspace_are_read() {
        let text = shown(20, 3, "1\r\n2\r3\n4x\u{8}\u{8}\u{8}5\n", |screen| {
            for expected in ["1", "2", "3", "5"] {
                assert_eq!(screen.ask(format_args!("?")), Entry::Text(expected.try_into().expect("short")));
            }
            assert_eq!(screen.ask(format_args!("?")), Entry::End);
            assert!(screen.is_over());
        });
        assert!(text.ends_with("4x\u{8} \u{8}\u{8} \u{8}5\n?\n> "), "{text:?}");
    }

    #[test]
    fn an_entry_too_long_or_no_text_is_told_apart() {
        shown(20, 8, "123456789012345678901234567890123\n\u{1b}[A\n", |screen| {
            assert_eq!(screen.ask(format_args!("?")), Entry::TooLong);
            assert_eq!(screen.ask(format_args!("?")), Entry::NotText);
        });
    }
}
