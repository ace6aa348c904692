//! How the program ends.

use std::fmt;
use std::process::ExitCode;

use shophead_job::read::ReadError;

use crate::context::Settled;

/// The exit statuses; scripts rely on them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Exit {
    /// Done, nothing stops the work.
    Done = 0,
    /// Done, and at least one finding says refer.
    Refer = 1,
    /// The command line or an input file is wrong.
    Wrong = 2,
    /// Reading or writing failed.
    Failed = 3,
}

/// What each status means, for help and manual.
pub(crate) const STATUSES: [(u8, &str); 4] = [
    (Exit::Done as u8, "done, nothing stops the work"),
    (Exit::Refer as u8, "done, and something must be referred first; the same when the reader leaves early"),
    (
        Exit::Wrong as u8,
        "the command line or an input file is wrong; the error stream says where and what would be right",
    ),
    (
        Exit::Failed as u8,
        "reading or writing failed, or the output was closed from the start; what --output names is as it was",
    ),
];

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> ExitCode {
        ExitCode::from(exit as u8)
    }
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Stop {
    /// The command line or a file is wrong; each sentence says where and what would be right.
    Wrong(Vec<String>),
    /// The command line is not understood: a complaint with its colours.
    WrongLine(String),
    /// A file is wrong: its mistakes with their lines, in colours that are taken out where nobody sees them.
    WrongFile(String),
    /// Reading or writing failed.
    Failed(String),
}

impl Stop {
    /// One thing is wrong.
    pub(crate) fn wrong(sentence: impl fmt::Display) -> Stop {
        Stop::Wrong(vec![sentence.to_string()])
    }
}

impl From<ReadError> for Stop {
    fn from(error: ReadError) -> Stop {
        match error {
            ReadError::Io { .. } => Stop::Failed(error.to_string()),
            ReadError::Content(_) => Stop::WrongFile(error.render(true)),
        }
    }
}

/// Shows what has colours on the error stream.
pub(crate) fn show(mistakes: &str) {
    // As with sentences: the status tells too.
    let _ = std::io::Write::write_all(&mut anstream::stderr(), mistakes.as_bytes());
}

/// Says each sentence on the error stream.
pub(crate) fn tell(sentences: &[String]) {
    say("error", sentences);
}

/// Says what is no mistake for sure on the error stream.
pub(crate) fn note(sentences: &[String]) {
    say("note", sentences);
}

/// Says what neither the command line nor the job says, where the answer has no room for it.
pub(crate) fn note_settled(settled: &[Settled]) {
    note(&settled.iter().map(Settled::to_string).collect::<Vec<_>>());
}

fn say(what: &str, sentences: &[String]) {
    for sentence in sentences {
        // Where nobody can be told, the exit status still tells.
        let _ = std::io::Write::write_fmt(&mut std::io::stderr(), format_args!("{what}: {sentence}\n"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_statuses_are_those_that_scripts_rely_on() {
        for (exit, status) in [(Exit::Done, 0), (Exit::Refer, 1), (Exit::Wrong, 2), (Exit::Failed, 3)] {
            assert_eq!(exit as u8, status);
        }
    }
}
