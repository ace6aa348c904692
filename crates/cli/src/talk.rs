//! A conversation with whoever types: a prompt, a line, what is said to it.

use std::io::{self, BufRead, IsTerminal, Read, Write};

use shophead_job::diagnostic::escaped;

use crate::exit::Stop;
use crate::{context, output};

/// Nobody types a longer line.
const LONGEST_LINE: u64 = 4_096;

/// Both sides of the conversation.
pub(crate) struct Talk {
    width: usize,
    /// Whether what is typed does not show by itself.
    echoes: bool,
    /// Nobody reads what is said any more. What was measured by then stays.
    pub(crate) is_gone: bool,
}

impl Talk {
    /// With the terminal, or through a pipe.
    pub(crate) fn of(width: Option<u16>) -> Talk {
        Talk { width: context::width(width), echoes: !io::stdin().is_terminal(), is_gone: false }
    }

    pub(crate) fn say(&mut self, line: &str) -> Result<(), Stop> {
        let options = textwrap::Options::new(self.width).subsequent_indent("  ");
        let options = options.word_splitter(textwrap::WordSplitter::NoHyphenation);
        let mut text = textwrap::fill(line, options);
        text.push('\n');
        self.show(&text)
    }

    pub(crate) fn say_all(&mut self, lines: &[String]) -> Result<(), Stop> {
        lines.iter().try_for_each(|line| self.say(line))
    }

    /// Asks for a line; `None` at the end of the input.
    pub(crate) fn ask(&mut self, prompt: &str, input: &mut impl BufRead) -> Result<Option<String>, Stop> {
        self.show(prompt)?;
        if self.is_gone {
            return Ok(None);
        }
        let mut bytes = Vec::new();
        let read = input.take(LONGEST_LINE).read_until(b'\n', &mut bytes);
        read.map_err(|error| Stop::Failed(format!("the input could not be read: {error}")))?;
        if bytes.last() != Some(&b'\n') {
            // It may be half of what somebody wanted to say.
            let what = match bytes.len() as u64 {
                0 => "",
                LONGEST_LINE => "\nA line as long as this is not taken, nor is what follows.",
                _ => "\nThe last line had no Enter and is not taken.",
            };
            self.show(what)?;
            self.show("\n")?;
            return Ok(None);
        }
        let typed = String::from_utf8_lossy(&bytes).trim().to_owned();
        if self.echoes {
            self.show(&format!("{}\n", escaped(&typed)))?;
        }
        Ok(Some(typed))
    }

    fn show(&mut self, text: &str) -> Result<(), Stop> {
        let mut out = io::stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Err(error) if output::is_reader_gone(&error) => {
                self.is_gone = true;
                Ok(())
            }
            shown => shown.map_err(|error| output::not_written(None, &error)),
        }
    }
}
