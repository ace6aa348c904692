//! The handheld session, replayed against recorded transcripts.
//!
//! `tests/transcripts/NAME.keys` is what a person enters, `NAME.16x2.txt` and the like what a terminal of that size shows, entries
//! echoed. To accept a change, `SHOPHEAD_RECORD=1 cargo test --test handheld`, and read the difference.

mod alike;

use std::fs;

use proptest::prelude::*;
use shophead_tests::person::{Conversation, Manner, PAGE_END, SIZES, converse, converse_as, scripts, transcript};

#[test]
fn every_script_replays_as_it_was_recorded() {
    let record = std::env::var_os("SHOPHEAD_RECORD").is_some();
    let mut differing = Vec::new();
    for (name, script) in scripts() {
        for (columns, lines) in SIZES {
            let shown = String::from_utf8(converse(&script, columns, lines).shown).expect("ASCII");
            assert!(shown.is_ascii(), "{name}: a line terminal has no other characters");
            let shown = shown.replace("\r\n", "\n");
            let path = transcript(&name, columns, lines);
            if record {
                fs::write(&path, &shown).expect("a transcript is written");
            } else if fs::read_to_string(&path).unwrap_or_default() != shown {
                differing.push(format!("{}:\n{shown}", path.display()));
            }
        }
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

/// What a terminal shows: its lines without their ends, a character taken back taken away.
fn lines_of(shown: &[u8]) -> Vec<String> {
    let mut lines = vec![String::new()];
    for byte in String::from_utf8_lossy(shown).replace("\r\n", "\n").chars() {
        let line = lines.last_mut().expect("one at least");
        match byte {
            '\n' => lines.push(String::new()),
            // Sent as back, space, back.
            '\u{8}' => {
                line.pop();
            }
            typed => line.push(typed),
        }
    }
    lines
}

/// Nothing is wider than the terminal, its own prompts and what is typed included, and nothing is pushed away before it was read: from
/// one wait to the next no more lines are begun than there are.
fn fits(conversation: &Conversation, columns: u8, lines: u8) -> Result<(), String> {
    for line in lines_of(&conversation.shown) {
        if line.len() > usize::from(columns) {
            return Err(format!("{columns}x{lines}: {line:?} is wider"));
        }
    }
    for (before, after) in conversation.waits.iter().zip(conversation.waits.iter().skip(1)) {
        let page = lines_of(&conversation.shown[before.0..after.0]);
        // What was typed the person has seen; at a page, also the question that it answers and that it is taken there.
        let taken = page.iter().take(page.len() - 1).rposition(|line| line.starts_with("> "));
        let at_page = conversation.shown[..before.0].ends_with(PAGE_END.as_bytes());
        let (first, behind) = match taken {
            Some(at) => (at, 2),
            None => (0, if at_page { PAGE_END.len() } else { 2 }),
        };
        let width = usize::from(columns) - behind;
        // One that was too long is not repeated.
        let is_repeated = taken.is_none_or(|at| page[at].len() > 2);
        let typed = if is_repeated { before.1.chars().take(MAX_ENTRY).count() } else { 0 };
        let wrapped = typed.saturating_sub(width).div_ceil(usize::from(columns));
        let new = page.len() - 1 - first - wrapped.min(page.len() - 1 - first);
        if new > usize::from(lines) {
            return Err(format!("{columns}x{lines}: {page:?} does not fit a page"));
        }
    }
    Ok(())
}

/// The longest entry that is sent back.
const MAX_ENTRY: usize = 32;

#[test]
fn no_line_is_wider_than_the_terminal_and_no_page_longer() {
    for (name, script) in scripts() {
        for columns in 16..=40_u8 {
            for lines in 2..=8_u8 {
                for manner in [Manner::Turns, Manner::Skips, Manner::TypesOn] {
                    let conversation = converse_as(manner, &script, columns, lines);
                    fits(&conversation, columns, lines).unwrap_or_else(|wrong| panic!("{name}, {manner:?}, {wrong}"));
                }
            }
        }
    }
}

/// What people key in, right and wrong, at whatever question comes.
#[rustfmt::skip]
const TYPED: &[&str] = &[
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "", "", "", ".", "B", "R", "U", "W", "P", "M", "?", "MS20470AD4", "MS20426AD5-8",
    "NAS9313AD5-6-5", "AD", ".040", ".063T.003", "1/8", "3.2mm", "#30", "#21", "40", "040", "0", "1/3", "2024-T3", "C7075-T6", "9/16", "xyz",
    "12345678901234567890123456789012", "1234567890123456789012345678901234567890",
];

proptest! {
    /// Also in a session of which nobody has written a script, to somebody who turns the pages, skips them or types on.
    #[test]
    fn whatever_is_typed_fits_the_screen(
        typed in prop::collection::vec(prop::sample::select(TYPED), 1..60),
        columns in 16_u8..=40,
        lines in 2_u8..=8,
        manner in prop::sample::select(&[Manner::Turns, Manner::Skips, Manner::TypesOn][..]),
    ) {
        let conversation = converse_as(manner, &typed.join("\n"), columns, lines);
        let fits = fits(&conversation, columns, lines);
        prop_assert!(fits.is_ok(), "{manner:?}, {fits:?}");
    }
}

/// How often each warning is told.
fn warnings(conversation: &Conversation) -> [usize; 2] {
    let text = lines_of(&conversation.shown).join("\n");
    ["STOP:", "care:"].map(|word| text.matches(word).count())
}

#[test]
fn who_skips_an_answer_has_seen_what_stops_the_work() {
    let mut all = [0, 0];
    for (name, script) in scripts() {
        let told = warnings(&converse(&script, 40, 8));
        for (columns, lines) in SIZES {
            let skipped = converse_as(Manner::Skips, &script, columns, lines);
            assert_eq!(warnings(&skipped), told, "{name} {columns}x{lines}");
        }
        all = [all[0] + told[0], all[1] + told[1]];
    }
    assert!(all.iter().all(|told| *told > 1), "the scripts have {all:?}");
}

#[test]
fn what_stops_the_work_stands_before_the_answer() {
    // Wide enough that most lines stand whole; a line that goes on begins with no such word.
    const ANSWERS: &[&str] = &[
        "use ",
        "no length",
        "keep ",
        "clean ",
        "oversize ",
        "next ",
        "REFER",
        "rivet ",
        "accept",
        "REJECT",
        "one rivet",
        "within",
        "NOT ",
    ];
    let mut checked = 0;
    for (name, script) in scripts() {
        let mut answered = false;
        for line in lines_of(&converse(&script, 40, 8).shown) {
            if line.starts_with("> ") {
                answered = false;
            } else if ANSWERS.iter().any(|answer| line.starts_with(answer)) {
                answered = true;
            } else if line.starts_with("STOP:") || line.starts_with("care:") {
                assert!(!answered, "{name}: {line} stands behind the answer");
                checked += 1;
            }
        }
    }
    assert!(checked > 5, "only {checked} were met");
}

/// Somebody who knows the questions types on without turning a page, and gets the same answers.
#[test]
fn what_is_typed_at_a_page_is_taken() {
    let script = "1\nMS20470AD5\n.032T.002\n.040T.002\n.250T.005\n\n\nR\nQ\n";
    for (columns, lines) in SIZES {
        let shown = converse_as(Manner::TypesOn, script, columns, lines).shown;
        let text = lines_of(&shown).join("\n");
        assert!(text.contains("use MS20470AD5-9"), "{columns}x{lines}:\n{text}");
        assert!(!text.contains("enter 1 to"), "{columns}x{lines}:\n{text}");
    }
}

#[test]
fn every_session_asks_the_same_whatever_the_terminal() {
    // Without spaces, line ends and page turns the words are the same at every size.
    let words = |shown: Vec<u8>| {
        let text = String::from_utf8(shown).expect("ASCII").replace(PAGE_END, "");
        text.replace([' ', '\r', '\n'], "")
    };
    for (name, script) in scripts() {
        let at_largest = words(converse(&script, 40, 8).shown);
        for (columns, lines) in SIZES {
            assert_eq!(words(converse(&script, columns, lines).shown), at_largest, "{name} {columns}x{lines}");
        }
    }
}

#[test]
fn anything_may_be_typed() {
    // Every printable character, alone and in pairs, at every question that a script reaches.
    for (name, script) in scripts() {
        let lines: Vec<&str> = script.lines().collect();
        for upto in 0..lines.len() {
            let mut typed = lines[..upto].join("\n");
            typed.push('\n');
            for first in ' '..='~' {
                if !"QqMmBb".contains(first) {
                    typed.push_str(&format!("{first}9\n{first}\u{7f}{first}.\nB\n"));
                }
            }
            let shown = converse(&typed, 20, 4).shown;
            assert!(!shown.is_empty(), "{name}");
        }
    }
}
