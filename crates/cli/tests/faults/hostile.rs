//! Files that nobody means: each is refused with one sentence, in little time and memory, whichever command reads it.

use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use super::demo;

/// Address space in KiB: the program, its threads and what a file of the greatest size that is taken needs.
const ROOM: u32 = 900_000;
/// What it may hold beside the file, in bytes.
const HELD: u64 = 200 << 20;
/// A tenth of this is what it takes where it is built to be fast.
const PATIENCE: Duration = Duration::from_secs(100);

/// The commands that read a file of somebody's, and where it stands in them.
const READERS: [&str; 14] = [
    "plan FILE",
    "plan job.toml --limits FILE",
    "plan with-holes.toml",
    "plan with-answers.toml",
    "plan with-stations.toml",
    "plan with-rows.toml",
    "card FILE",
    "order job.toml --stock FILE",
    "inspect job.toml FILE",
    "survey job.toml FILE",
    "group FILE --diameter 1/8 --load 100,0 --at 0,0",
    "batch length FILE",
    "batch hole FILE --from json",
    "repair panel --seams FILE",
];

fn bench() -> tempfile::TempDir {
    let (folder, job) = demo();
    let replaced = [("holes", "holes = \"holes.csv\""), ("stations", "stations = \"trim.csv\""), ("answers", "")];
    for (key, line) in replaced {
        let named = format!("{key} = \"hostile\"");
        let text = if line.is_empty() { format!("{named}\n{job}") } else { job.replacen(line, &named, 1) };
        assert_ne!(text, job);
        fs::write(folder.path().join(format!("with-{key}.toml")), text).expect("written");
    }
    fs::write(folder.path().join("with-rows.toml"), "title = \"a\"\nrows = \"hostile\"\n").expect("written");
    folder
}

/// Status and what was said, or what was wrong with either.
fn run(folder: &Path, typed: &str) -> Result<(i32, String), String> {
    let program = assert_cmd::cargo::cargo_bin!("shophead");
    let words: Vec<String> = typed.split(' ').map(|word| format!("'{}'", word.replace("FILE", "hostile"))).collect();
    let mut command = Command::new("sh");
    command.arg("-c").arg(format!("ulimit -v {ROOM}; exec '{}' {}", program.display(), words.join(" ")));
    command.current_dir(folder).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("a shell");
    let (began, mut peak) = (Instant::now(), 0);
    let mut said = child.stderr.take().expect("what it says");
    let reader = std::thread::spawn(move || {
        let mut text = Vec::new();
        said.read_to_end(&mut text).map(|_| String::from_utf8_lossy(&text).into_owned())
    });
    let status = loop {
        if let Some(status) = child.try_wait().expect("a state") {
            break status;
        }
        peak = peak.max(held(child.id()));
        if began.elapsed() > PATIENCE {
            child.kill().expect("killed");
            return Err(format!("{typed}: not done after {} s", PATIENCE.as_secs()));
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    let said = reader.join().expect("read").expect("read");
    // Of what is larger than any file that is taken nothing is to be kept.
    let own = fs::metadata(folder.join("hostile")).map_or(0, |file| file.len().min(100 << 20));
    if peak > HELD + own {
        return Err(format!("{typed}: {peak} bytes held"));
    }
    match status.code() {
        Some(code @ 0..=3) => Ok((code, said)),
        _ => Err(format!("{typed}: {status}: {said:.300}")),
    }
}

/// What a running program has held at most, in bytes.
fn held(process: u32) -> u64 {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB")?.parse().ok());
    most.map_or(0, |kibibytes: u64| kibibytes * 1_024)
}

/// A file that every command must refuse, in words that steer no terminal.
fn refused_by_all(make: impl Fn(&PathBuf)) {
    let folder = bench();
    make(&folder.path().join("hostile"));
    let mut wrong = Vec::new();
    for typed in READERS {
        match run(folder.path(), typed) {
            // A batch says in each row what is wrong with it.
            Ok((2, said))
                if (1..20_000).contains(&said.len()) && said.chars().all(|c| c == '\n' || !c.is_control()) => {}
            Ok(other) => wrong.push(format!("{typed}: {other:.300?}")),
            Err(told) => wrong.push(told),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn written(path: &PathBuf, pieces: impl Iterator<Item = Vec<u8>>) {
    let mut file = std::io::BufWriter::new(File::create(path).expect("made"));
    pieces.for_each(|piece| file.write_all(&piece).expect("written"));
    file.flush().expect("written");
}

#[test]
#[ignore = "takes a minute"]
fn a_gigabyte_without_a_line_end_is_refused() {
    refused_by_all(|path| {
        File::create(path).and_then(|file| file.set_len(1 << 30)).expect("a file with nothing in it");
    });
    refused_by_all(|path| written(path, (0..80).map(|_| vec![b'x'; 1 << 20])));
}

#[test]
#[ignore = "takes a minute"]
fn a_file_without_an_end_is_refused() {
    refused_by_all(|path| std::os::unix::fs::symlink("/dev/zero", path).expect("a link"));
}

#[test]
#[ignore = "takes a minute"]
fn what_is_nested_without_an_end_is_refused() {
    for open in ["[", "{", "a=[", "a.", "\"", "[[a]]\nb={c="] {
        refused_by_all(|path| written(path, (0..200_000).map(|_| open.as_bytes().to_vec())));
    }
}

#[test]
#[ignore = "takes a minute"]
fn a_million_rows_of_nonsense_are_refused() {
    refused_by_all(|path| written(path, (0..1_000_000).map(|row| format!("{row},{row},x\n").into_bytes())));
}

#[test]
#[ignore = "takes a minute"]
fn every_control_character_is_refused_or_shown_harmless() {
    for code in (0..0x20).chain(0x7f..0xa0).chain([0x200b, 0x200e, 0x202e, 0x2028, 0xfeff]) {
        let c = char::from_u32(code).expect("a character");
        if !matches!(c, '\n' | '\r' | '\t') {
            refused_by_all(|path| written(path, [format!("a{c}b,{c}\n{c},{c}]0;x{c}\n").into_bytes()].into_iter()));
        }
    }
}

/// Numbers that no shop has ever measured, each in a cell where a number belongs.
#[test]
#[ignore = "takes a minute"]
fn numbers_beyond_everything_are_refused_or_answered_with_numbers() {
    let folder = bench();
    let zeroes = "0".repeat(100_000);
    for number in [
        "1e308",
        "-1e308",
        "99999999999999999999",
        "nan",
        "inf",
        "0x7f",
        "1e-400",
        &format!("1{zeroes}"),
        &format!(".{zeroes}1"),
    ] {
        for (typed, text) in [
            ("batch length FILE", format!("diameter,layers\n1/8,\"{number},{number}\"\n{number},\".032,.040\"\n")),
            ("batch hole FILE", format!("rivet,major\nMS20470AD4-5,{number}\n")),
            ("batch joint FILE", format!("rivet,layers,load,edge\nMS20470AD4,\".04,.04\",{number},{number}\n")),
            ("group FILE --diameter 1/8 --load 100,0 --at 0,0", format!("x,y\n{number},0\n0,1\n")),
            ("inspect job.toml FILE", format!("row,hole,condition,diameter\nK1,{number},sound,{number}\n")),
            ("survey job.toml FILE", format!("row,hole,major\nK1,1,{number}\n")),
            ("order job.toml --stock FILE", format!("part,on_hand\nMS20470AD4-5,{number}\n")),
        ] {
            fs::write(folder.path().join("hostile"), text).expect("written");
            let (status, said) = run(folder.path(), typed).unwrap_or_else(|wrong| panic!("{number:.20}: {wrong}"));
            assert!(status != 3 && said.len() < 20_000, "{typed} with {number:.20}: {status} {said:.300}");
        }
    }
}
