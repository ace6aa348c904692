//! A question-and-answer session for the terminals that hang on a bench instrument or in a hangar: 16 to 40 columns, 2 to 8 lines, a
//! keypad with digits, a point and a few letters.
//!
//! `no_std`, no heap, no unsafe code, no panics. It reads and writes through [`embedded_io`], so that the same code runs on a serial
//! port and on a desktop's standard streams. It decides nothing: every figure, every limit and every verdict comes from [`shophead`].
//!
//! # A session
//!
//! ```
//! use shophead_handheld::{Settings, run};
//! // The bytes of a person's entries, and room for what the terminal shows.
//! let mut keys: &[u8] = b"5\nMS20470AD4-6\nQ\n";
//! let mut room = [0_u8; 2048];
//! let mut shown: &mut [u8] = &mut room;
//! run(&mut keys, &mut shown, Settings::new(32, 8)?).expect("room enough");
//! let left = shown.len();
//! let text = core::str::from_utf8(&room[..room.len() - left])?;
//! assert!(text.contains("1/8 in diameter, 3/8 in long"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # Keys
//!
//! A letter alone is a key; anything longer is an entry.
//!
//! | key | does |
//! |---|---|
//! | `B` | back one question; from the menu, back into the last job |
//! | `R` | repeats the question, or at the menu the last answer |
//! | `U` | changes units: decimal inches, thirty-seconds, millimetres |
//! | `W` | why: the basis of each figure of the last answer |
//! | `P` | changes the practice |
//! | `M` | drops the job, back to the menu |
//! | `?` | what may be entered here |
//! | `Q` | ends the session |
//!
//! # Pages
//!
//! A text that is longer than the screen waits on its last line, `more .=skip>`, until it is read. Enter turns the page, a point skips the
//! rest, and whatever else is typed there is the next entry. What stops the work, and what asks for care, stands before the answer and is
//! never skipped. Nothing is wider than the screen.
//!
//! # Lengths
//!
//! A number is in the units that the session is in: `.125`, or `4` thirty-seconds, or `3.2` millimetres. In thirty-seconds a number with a
//! point stays inches, since sheet goes in decimals. `1/8`, `1-1/2`, `3.2mm` and `.125in` mean the same in all units. `T` adds a tolerance either
//! way: `.032T.002`.
//!
//! # What this crate does not do
//!
//! - It keeps no record: print what has to be signed with the desktop program.
//! - It sends no control codes: what scrolls off a line terminal is gone, so it waits for `enter` before that happens.
//!
//! # Features
//!
//! `defmt` derives `defmt::Format` on public types.

#![no_std]
#![forbid(unsafe_code)]
#![deny(missing_docs)]
#![cfg_attr(
    not(test),
    deny(
        clippy::arithmetic_side_effects,
        clippy::expect_used,
        clippy::indexing_slicing,
        clippy::integer_division,
        clippy::panic,
        clippy::string_slice,
        clippy::unreachable,
        clippy::unwrap_used
    )
)]

// In the order in which a session uses them.
mod settings;
mod screen;
mod units;
mod dialog;
mod report;
mod answer;
mod session;

pub use screen::TerminalError;
pub use session::{Session, run};
pub use settings::{COLUMNS, LINES, Settings, SettingsError};
