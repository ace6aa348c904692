//! How far long work has come, for somebody who waits at a terminal.

use std::io::{IsTerminal, Write};
use std::time::{Duration, Instant};

/// Shorter work says nothing.
const LONG: Duration = Duration::from_secs(1);
/// Between two words.
const PAUSE: Duration = Duration::from_millis(250);

/// Tells on the error stream, if that is a terminal and the work is long; what it wrote is wiped away at the end.
pub(crate) struct Progress {
    /// How many there are, where that is known.
    total: Option<u32>,
    next: Option<Instant>,
    has_spoken: bool,
}

impl Progress {
    pub(crate) fn of(total: u32) -> Progress {
        let next = std::io::stderr().is_terminal().then(|| Instant::now() + LONG);
        Progress { total: Some(total), next, has_spoken: false }
    }

    /// Of rows that come in while others go out; tells nothing where they go to the terminal themselves.
    pub(crate) fn rows(are_seen: bool) -> Progress {
        let is_seen = std::io::stderr().is_terminal() && !are_seen;
        Progress { total: None, next: is_seen.then(|| Instant::now() + LONG), has_spoken: false }
    }

    /// So many are done.
    pub(crate) fn at(&mut self, done: u32) {
        let Some(next) = self.next else { return };
        let now = Instant::now();
        if now < next {
            return;
        }
        self.next = Some(now + PAUSE);
        self.has_spoken = true;
        // Whether it can be told does not matter to the work.
        let _ = write!(std::io::stderr(), "\r{}", line(done, self.total));
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.has_spoken {
            let _ = write!(std::io::stderr(), "\r{:width$}\r", "", width = line(u32::MAX, self.total).len());
        }
    }
}

fn line(done: u32, total: Option<u32>) -> String {
    match total {
        Some(total) => format!("{done} of {total} holes planned"),
        None => format!("{done} rows answered"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_told_before_it_is_long_nor_where_nobody_looks() {
        let mut early = Progress { total: Some(9), next: Some(Instant::now() + LONG), has_spoken: false };
        early.at(1);
        assert!(!early.has_spoken);
        let mut unseen = Progress { total: Some(9), next: None, has_spoken: false };
        unseen.at(9);
        assert!(!unseen.has_spoken);
        let mut late = Progress { total: Some(9), next: Some(Instant::now()), has_spoken: false };
        late.at(5);
        assert!(late.has_spoken);
        assert!(late.next.is_some_and(|next| next > Instant::now()), "not again at once");
    }
}
