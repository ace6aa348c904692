//! The whole job, at both widths of a terminal, and what its record says.

use crate::whole::{At, play, record_says_it_all};

#[cfg(unix)]
#[test]
fn the_whole_job_is_played_in_a_terminal() {
    for columns in [40, 80] {
        record_says_it_all(&play(At::Terminal(columns)).page("card.html"));
    }
}

#[test]
fn the_whole_job_goes_through_pipes() {
    record_says_it_all(&play(At::Pipe(40)).page("card.html"));
}
