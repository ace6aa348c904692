//! A terminal of a given size, with the program at its other end.

use std::fs::File;
use std::io::{Read, Write};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use rustix::event::{PollFd, PollFlags, Timespec, poll};
use rustix::fs::OFlags;
use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};
use rustix::termios::{Winsize, tcsetwinsize};

/// Nothing more is shown for so long: whoever sits before it begins to type.
const QUIET: Timespec = Timespec { tv_sec: 0, tv_nsec: 20_000_000 };
/// No command takes so long.
const PATIENCE: Duration = Duration::from_secs(120);

/// Runs a command in a terminal of so many columns, with these lines typed into it: status and what stood on the screen, without colours.
///
/// A line is typed once the program waits behind a prompt, and behind the last one the end of the input. What is typed shows, as on any
/// terminal.
pub(crate) fn in_terminal(command: &mut Command, columns: u16, typed: &str) -> (Option<i32>, String) {
    let master = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).expect("a terminal");
    grantpt(&master).expect("granted");
    unlockpt(&master).expect("unlocked");
    let name = ptsname(&master, Vec::new()).expect("a name");
    let size = Winsize { ws_row: 50, ws_col: columns, ws_xpixel: 0, ws_ypixel: 0 };
    tcsetwinsize(&master, size).expect("a size");
    let end = || {
        let file = rustix::fs::open(name.as_c_str(), OFlags::RDWR | OFlags::NOCTTY, rustix::fs::Mode::empty());
        Stdio::from(file.expect("its other end"))
    };
    command.env_remove("COLUMNS").env("TERM", "xterm").stdin(end()).stdout(end()).stderr(end());
    let mut child = command.spawn().expect("the binary runs");
    // Only the child holds the other end now, so that reading ends with it.
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let mut screen = File::from(master);
    let mut lines = typed.lines();
    let mut shown = Vec::new();
    let mut answered = 0;
    let mut piece = [0; 4096];
    let begun = Instant::now();
    loop {
        if begun.elapsed() > PATIENCE {
            child.kill().expect("its end");
            panic!("it waits for something: {}", String::from_utf8_lossy(&shown));
        }
        let is_quiet = poll(&mut [PollFd::new(&screen, PollFlags::IN)], Some(&QUIET)).expect("a terminal") == 0;
        if is_quiet {
            // The end of the input shows nothing: it is typed once behind a prompt, however long the program takes to see it.
            if shown.ends_with(b" ") && shown.len() > answered {
                answered = shown.len();
                let line = lines.next().map_or_else(|| "\u{4}".to_owned(), |line| format!("{line}\n"));
                // It may have ended meanwhile.
                let _ = screen.write_all(line.as_bytes());
            }
            continue;
        }
        // A terminal whose other end is closed is an error to read, or empty.
        let Ok(count @ 1..) = screen.read(&mut piece) else { break };
        shown.extend_from_slice(&piece[..count]);
    }
    let status = child.wait().expect("an end").code();
    (status, plain(&String::from_utf8(shown).expect("UTF-8")))
}

/// Without what colours and moves, and with the line ends of a file.
fn plain(shown: &str) -> String {
    let mut text = String::new();
    let mut chars = shown.chars();
    while let Some(c) = chars.next() {
        match c {
            '\u{1b}' => {
                // `ESC [ figures letter`
                if chars.next() == Some('[') {
                    let _ = chars.find(char::is_ascii_alphabetic);
                }
            }
            '\r' | '\u{4}' | '\u{8}' => {}
            c => text.push(c),
        }
    }
    text
}
