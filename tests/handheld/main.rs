//! The handheld session, replayed against recorded transcripts.
//!
//! `tests/transcripts/NAME.keys` is what a person enters, `NAME.16x2.txt` and the like what a terminal of that size shows, entries
//! echoed. To accept a change, `SHOPHEAD_RECORD=1 cargo test --test handheld`, and read the difference.

use std::fs;

use shophead_tests::person::{SIZES, converse, scripts, transcript};

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

#[test]
fn no_line_is_wider_than_the_terminal_and_no_page_longer() {
    for (name, script) in scripts() {
        for columns in 16..=40_u8 {
            for lines in 2..=8_u8 {
                let shown = String::from_utf8(converse(&script, columns, lines).shown).expect("ASCII");
                let mut since_entry = 0;
                for line in shown.split("\r\n") {
                    // What is typed is the person's, and a page turn overwrites nothing.
                    let is_entry = line.starts_with("> ") || line.starts_with("enter=more .=skip");
                    assert!(is_entry || line.len() <= usize::from(columns), "{name} {columns}x{lines}: {line:?}");
                    since_entry = if is_entry { 0 } else { since_entry + 1 };
                    assert!(since_entry < lines + 1, "{name} {columns}x{lines}: {line:?} pushed a line away unread");
                }
            }
        }
    }
}

#[test]
fn every_session_asks_the_same_whatever_the_terminal() {
    // Without spaces, line ends and page turns the words are the same at every size.
    let words = |shown: Vec<u8>| {
        let text = String::from_utf8(shown).expect("ASCII").replace("enter=more .=skip", "");
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
