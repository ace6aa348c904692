//! The same code on the emulated microcontroller: the same answers, the same sessions.
//!
//! `crates/firmware/emulate test` builds the images and sets `SHOPHEAD_IMAGES`. Every process started here is stopped with the test.

use std::io::{BufReader, Read, Write};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::Duration;

use defmt_decoder::{DecodeError, Table};
use shophead_answers::{Case, Kind, Record};
use shophead_tests::person::{SIZES, converse, scripts};

/// Generated cases, all kinds together.
const CASES: u32 = 100_000;
/// Emulators that run side by side.
const EMULATORS: u32 = 2;
/// Differing cases told before the rest is only counted.
const TOLD: usize = 20;
/// Stack that a whole session may take on the target; see benches/budgets.md.
const SESSION_STACK: u32 = 10 * 1024;
/// Stack that a question may take, its answer included.
const QUESTION_STACK: u32 = 4 * 1024;
/// The questions that take more, and what they may take; see the aims in benches/budgets.md.
const TAKE_MORE: [&str; 4] = ["hole judged", "hole judged step by step", "strength of a rivet", "two rows"];
const MORE_STACK: u32 = 5 * 1024 + 512;
/// Asks the session for its log.
const LOGGED: u32 = 1;

/// A running image, stopped when it is dropped.
struct Board(Child);

impl Drop for Board {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn image(name: &str) -> PathBuf {
    let folder =
        std::env::var_os("SHOPHEAD_IMAGES").expect("run crates/firmware/emulate test, which sets SHOPHEAD_IMAGES");
    PathBuf::from(folder).join(name)
}

/// Starts an image; `port` is what the emulator joins to its first serial port. What it logs goes to the process's standard output.
fn board(name: &str, arguments: &[u32], port: &str) -> Board {
    let arguments: String = arguments.iter().map(|argument| format!(",arg={argument}")).collect();
    let child = Command::new("qemu-system-arm")
        .args(["-machine", "lm3s6965evb", "-display", "none", "-monitor", "none"])
        // One nanosecond an instruction, which the image that measures counts by.
        .args(if name == "measure" { ["-icount", "shift=0"].as_slice() } else { &[] })
        .args(["-chardev", &format!("{port},id=port"), "-serial", "chardev:port"])
        .args(["-semihosting-config", &format!("enable=on,target=native,arg={name}{arguments}")])
        .arg("-kernel")
        .arg(image(name))
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("qemu-system-arm starts");
    Board(child)
}

impl Board {
    fn output(&mut self) -> ChildStdout {
        self.0.stdout.take().expect("piped")
    }

    /// All that is logged until the image ends.
    fn log(&mut self) -> Vec<u8> {
        let mut log = Vec::new();
        self.output().read_to_end(&mut log).expect("the log is read");
        log
    }
}

/// The other end of a board's serial port, which listens on this socket.
fn plug_in(socket: &Path) -> UnixStream {
    for _ in 0..200 {
        match UnixStream::connect(socket) {
            Ok(stream) => return stream,
            Err(_) => std::thread::sleep(Duration::from_millis(25)),
        }
    }
    panic!("the board does not listen on {}", socket.display());
}

/// Compares the answers to `count` cases of each kind from `first` on; gives the number of answers compared.
fn compare(first: u32, count: u32) -> Result<u32, String> {
    let mut board = board("answers", &[first, count], "stdio,signal=off");
    let mut answers = BufReader::new(board.output());
    let (mut differing, mut compared) = (Vec::new(), 0);
    for kind in Kind::ALL {
        for number in first..first + count {
            let case = Case::make(kind, number);
            let expected = Record::of(&case);
            let mut header = [0; Record::HEADER];
            answers.read_exact(&mut header).map_err(|error| format!("{kind:?} {number}: no answer: {error}"))?;
            if header[..5] != expected.header()[..5] {
                return Err(format!("{kind:?} {number}: the answer to another case came: {header:?}"));
            }
            let mut bytes = vec![0; usize::from(u16::from_le_bytes([header[5], header[6]]))];
            answers.read_exact(&mut bytes).map_err(|error| format!("{kind:?} {number}: cut off: {error}"))?;
            compared += 1;
            if bytes[..] != expected.bytes[..] {
                let at = bytes.iter().zip(&expected.bytes).take_while(|(target, host)| target == host).count();
                differing.push(format!("{kind:?} {number}, byte {at}: {case:?}"));
            }
        }
    }
    if differing.is_empty() {
        return Ok(compared);
    }
    let total = differing.len();
    differing.truncate(TOLD);
    Err(format!("{total} answers differ\n{}", differing.join("\n")))
}

#[test]
fn host_and_target_answer_every_case_alike() {
    let each = CASES / EMULATORS / Kind::ALL.len() as u32;
    let compared = std::thread::scope(|scope| {
        let parts: Vec<_> = (0..EMULATORS).map(|part| scope.spawn(move || compare(part * each, each))).collect();
        parts
            .into_iter()
            .map(|part| part.join().expect("no panic").unwrap_or_else(|error| panic!("{error}")))
            .sum::<u32>()
    });
    assert_eq!(compared, CASES);
}

#[test]
fn every_question_keeps_to_its_stack() {
    let mut told = String::new();
    board("measure", &[50], "stdio,signal=off").output().read_to_string(&mut told).expect("the image's table");
    let mut lines = told.lines();
    assert_eq!(lines.next(), Some("question,instructions mean,instructions most,stack most"), "{told}");
    let mut questions = 0;
    for line in lines {
        let (name, figures) = line.split_once(',').expect(line);
        let stack: u32 = figures.rsplit(',').next().and_then(|stack| stack.parse().ok()).expect(line);
        let allowed = if TAKE_MORE.contains(&name) { MORE_STACK } else { QUESTION_STACK };
        assert!(stack <= allowed, "{name}: {stack} bytes of stack, at most {allowed} are allowed");
        questions += 1;
    }
    assert_eq!(questions, 15, "{told}");
}

/// The text frames of a log.
fn decode(log: &[u8]) -> Vec<String> {
    let elf = std::fs::read(image("session")).expect("the image");
    let table = Table::parse(&elf).expect("log texts in the image").expect("a table of them");
    let mut decoder = table.new_stream_decoder();
    decoder.received(log);
    let mut frames = Vec::new();
    loop {
        match decoder.decode() {
            Ok(frame) => frames.push(format!("{:?} {}", frame.level(), frame.display_message())),
            Err(DecodeError::UnexpectedEof) => return frames,
            Err(DecodeError::Malformed) => panic!("a malformed frame after {frames:?}"),
        }
    }
}

#[test]
fn every_session_replays_on_the_target_and_is_logged() {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let mut deepest = 0;
    for (name, script) in scripts() {
        for (columns, lines) in SIZES {
            let host = converse(&script, columns, lines);
            let socket = folder.path().join(format!("{name}.{columns}x{lines}"));
            let port = format!("socket,server=on,wait=on,path={}", socket.display());
            let mut board = board("session", &[u32::from(columns), u32::from(lines), LOGGED], &port);
            let mut terminal = plug_in(&socket);
            // What is typed before the board has set up its serial port is lost: wait until it says something.
            let mut shown = vec![0];
            terminal.read_exact(&mut shown).expect("the board greets");
            terminal.write_all(&host.typed).expect("the board takes what is typed");
            terminal.read_to_end(&mut shown).expect("the board's output");
            assert_eq!(
                String::from_utf8_lossy(&shown),
                String::from_utf8_lossy(&host.shown),
                "{name} on a terminal of {columns} by {lines}"
            );
            let frames = decode(&board.log());
            let status = board.0.wait().expect("an end");
            assert!(status.success(), "{name}: {status}");
            let [begins, ends] = &frames[..] else { panic!("{name}: {frames:?}") };
            assert!(
                begins.starts_with("Some(Info) session begins") && begins.contains(&columns.to_string()),
                "{begins}"
            );
            let stack =
                ends.strip_prefix("Some(Info) session ends: ").and_then(|rest| rest.strip_suffix(" bytes of stack"));
            let stack: u32 = stack.and_then(|bytes| bytes.parse().ok()).unwrap_or_else(|| panic!("{name}: {ends}"));
            deepest = deepest.max(stack);
        }
    }
    println!("the deepest session used {deepest} bytes of stack");
    assert!(deepest <= SESSION_STACK, "{deepest} bytes of stack, at most {SESSION_STACK} are allowed");
}

#[test]
fn a_terminal_too_small_is_refused_in_the_log() {
    let mut board = board("session", &[10, 4, LOGGED], "null");
    let frames = decode(&board.log());
    assert!(!board.0.wait().expect("an end").success());
    assert_eq!(frames, ["Some(Error) no session: Columns"]);
}
