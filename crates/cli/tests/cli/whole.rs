//! A job from nothing to its signed record, as somebody plays it at a terminal.

use std::fs;
use std::process::{Command, Stdio};

use tempfile::TempDir;

/// What is typed at `new`.
const ASKED: &str = "Hatch\nA1\nMS20470AD4-5\nclad 2024-T3:.063,2024-T3:.063\n12\n3/4\n3/8\ns\nl\nopen\n\
                     A2\n\n\n20\n\n\n\no\n\n\n";

/// What is typed into, and how wide it is.
#[derive(Clone, Copy, Debug)]
pub(crate) enum At {
    /// A terminal.
    #[cfg(unix)]
    Terminal(u16),
    /// A pipe, whose width is an option.
    Pipe(u16),
}

/// A job that is played to its end in a folder of its own.
pub(crate) struct Played {
    pub(crate) folder: TempDir,
    at: At,
}

impl Played {
    /// Runs a command with something typed: status and what was shown.
    #[track_caller]
    fn run(&self, words: &[&str], typed: &str) -> (Option<i32>, String) {
        let mut command = Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
        // 25 November 2026.
        command.current_dir(self.folder.path()).env("SOURCE_DATE_EPOCH", "1795608000").args(words);
        match self.at {
            #[cfg(unix)]
            At::Terminal(columns) => crate::terminal::in_terminal(&mut command, columns, typed),
            At::Pipe(columns) => piped(command.env("COLUMNS", columns.to_string()), typed),
        }
    }

    /// The same; every line that it shows fits.
    #[track_caller]
    fn shown(&self, words: &[&str], typed: &str) -> (Option<i32>, String) {
        let (status, out) = match self.at {
            #[cfg(unix)]
            At::Terminal(_) => self.run(words, typed),
            At::Pipe(width) => self.run(&[words, &["--width", &width.to_string()]].concat(), typed),
        };
        let width = match self.at {
            #[cfg(unix)]
            At::Terminal(width) => width,
            At::Pipe(width) => width,
        };
        for line in out.lines() {
            assert!(line.chars().count() <= usize::from(width), "{words:?}: {line:?}");
        }
        (status, out)
    }

    fn survey(&self, typed: &str) -> (Option<i32>, String) {
        let (status, out) = self.shown(&["survey", "panel/job.toml", "panel/holes.csv", "--gauge", "PG-14"], typed);
        // A line that was folded reads as one.
        (status, out.split_whitespace().collect::<Vec<_>>().join(" "))
    }

    fn inspect(&self) -> (Option<i32>, String) {
        let (status, out) = self.shown(&["inspect", "panel/job.toml", "panel/driven.csv"], "");
        (status, out.split_whitespace().collect::<Vec<_>>().join(" "))
    }

    /// One of the pages that it left.
    pub(crate) fn page(&self, name: &str) -> String {
        fs::read_to_string(self.folder.path().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }
}

/// Through pipes.
#[track_caller]
fn piped(command: &mut Command, typed: &str) -> (Option<i32>, String) {
    let child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn();
    let mut child = child.expect("the binary runs");
    // It may end before it has read everything.
    let _ = std::io::Write::write_all(&mut child.stdin.take().expect("an input"), typed.as_bytes());
    let output = child.wait_with_output().expect("an end");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    let (out, err) = (text(output.stdout), text(output.stderr));
    assert_eq!(err, "", "{command:?}\n{out}");
    (output.status.code(), out)
}

/// From `new` to the record, with a referral that is answered and closed, a hole that is opened and measured again, and a rejected head that
/// is driven again.
pub(crate) fn play(at: At) -> Played {
    let job = Played { folder: tempfile::tempdir().expect("a folder"), at };
    let (status, out) = job.run(&["new", "panel", "--ask"], ASKED);
    assert_eq!(status, Some(0), "{out}");
    assert!(out.contains("Next: shophead plan panel/job.toml"), "{out}");

    // Measure: gauges for most, two holes too large, one of them where nobody here may decide.
    let (status, out) =
        job.survey("by A. Example\nj A1 4\n145 140\ny\nj A1 1\nrest good\nj A2 3\n.145 .140\nj A2 1\nrest good\nq\n");
    assert_eq!(status, Some(1), "{out}");
    for told in [
        "Did you mean .145 .140? y takes it.",
        "REFER. Do not open it.",
        "OVERSIZE: NAS1242AD4, drill #26 (.147)",
        "32 of 32 holes are measured.",
        "To be referred: A1 4.",
    ] {
        assert!(out.contains(told), "{told}: {out}");
    }
    let (status, out) = job.shown(&["plan", "panel/job.toml"], "");
    assert_eq!(status, Some(1), "{out}");

    // Refer, and enter what was answered.
    let answer = ["answer", "panel/job.toml", "--row", "A1", "--hole", "4", "--answer", "oversize", "--drill", "#26"];
    let by = ["--by", "A. Example", "--document", "concession 17", "--date", "2026-11-25"];
    let (status, out) = job.run(&[&answer[..], &by[..]].concat(), "");
    assert_eq!(status, Some(0), "{out}");

    // Open both holes, measure again: nothing is left to refer or to open.
    let (status, out) = job.survey("by B. Sample\ncorrect A1 4 .1475 .147 o #26\ncorrect A2 3 .1475 .147 o\nq\n");
    assert_eq!(status, Some(0), "{out}");
    assert!(out.contains("ANSWERED: Open the hole for an oversize shank"), "{out}");
    assert!(out.contains("OVERSIZE: NAS1242AD4, hole as it is"), "{out}");
    let (status, out) = job.shown(&["plan", "panel/job.toml"], "");
    assert_eq!(status, Some(0), "{out}");

    // Drive and look: one head is rejected.
    let mut driven = String::from("row,hole,diameter,height,condition,by,date,gauge,batch,driven_by,remark\n");
    for (row, count) in [("A1", 12), ("A2", 20)] {
        for hole in 1..=count {
            driven.push_str(&format!("{row},{hole},.200,.060,sound,B. Sample,2026-11-27,HG-3,B 4471,C. Model,\n"));
        }
    }
    let file = job.folder.path().join("panel/driven.csv");
    fs::write(
        &file,
        driven.replace(
            "A2,5,.200,.060,sound,B. Sample,2026-11-27,HG-3,B 4471,C. Model,",
            "A2,5,.165,.110,sound,B. Sample,2026-11-27,HG-3,B 4471,C. Model,underdriven",
        ),
    )
    .expect("written");
    let (status, out) = job.inspect();
    assert_eq!(status, Some(1), "{out}");
    assert!(out.contains("31 accepted, 1 rejected"), "{out}");
    let (status, out) = job.run(&["order", "panel/job.toml", "--driven", "panel/driven.csv", "--format", "json"], "");
    assert_eq!(status, Some(0), "{out}");
    let order = crate::schema_of(&out);
    let lines = order["result"]["lines"].as_array().expect("lines").iter();
    let again: Vec<(&str, u64, u64)> = lines
        .map(|line| {
            let count = |name: &str| line[name].as_u64().expect("a count");
            (line["part"].as_str().expect("a part"), count("needed"), count("again"))
        })
        .collect();
    assert_eq!(again, [("MS20470AD4-5", 31, 1), ("NAS1242AD4-5", 2, 0)]);

    // Drive it again, look again: everything is accepted, and the record says so.
    fs::write(
        &file,
        format!(
            "{}A2,5,.200,.060,sound,B. Sample,2026-11-28,HG-3,B 4480,D. Pattern,driven again\n",
            fs::read_to_string(&file).expect("a file")
        ),
    )
    .expect("written");
    let (status, out) = job.inspect();
    assert_eq!(status, Some(0), "{out}");
    assert!(out.contains("Every rivet of the job is accepted."), "{out}");
    let (status, out) = job.run(&["card", "panel/job.toml", "--driven", "panel/driven.csv", "-o", "card.html"], "");
    assert_eq!((status, out.as_str()), (Some(0), ""));
    let (status, out) = job.run(&["map", "panel/job.toml", "-o", "map.svg"], "");
    assert_eq!((status, out.as_str()), (Some(0), ""));
    let (status, out) = job.run(&["order", "panel/job.toml", "--labels", "labels.html"], "");
    assert_eq!(status, Some(0), "{out}");
    // The strength of the answered hole's rivet, as whoever signs it can work it out again.
    let rivet = ["joint", "--rivet", "NAS1242AD4", "--sheets", "clad 2024-T3:.063,2024-T3:.063", "--hole", ".147"];
    let row = ["--edge", "3/8", "--pitch", "3/4", "--structure", "secondary", "--member", "skin", "--load", "200"];
    let sheet = ["--format", "html", "-o", "working.html"];
    let (status, out) = job.run(&[&rivet[..], &row[..], &sheet[..]].concat(), "");
    assert_eq!((status, out.as_str()), (Some(0), ""));
    job
}

/// What whoever closes the job looks for on its card: what was found and after, the answer, the results of both looks, the names.
pub(crate) fn record_says_it_all(card: &str) {
    let card = scraper::Html::parse_document(card);
    let text = |selector: &str| {
        let selector = scraper::Selector::parse(selector).expect("a selector");
        let texts = card.select(&selector).flat_map(|found| found.text().collect::<Vec<_>>());
        texts.collect::<Vec<_>>().join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let record = text(".record");
    for told in [
        "Hatch : 32 holes, 32 measured.",
        "Nothing is left to be referred.",
        "row A1 hole 4: Open the hole for an oversize shank, drill #26. A. Example, concession 17, 2026-11-25.",
        "32 of 32 rivets looked at: 32 accepted, 0 rejected.",
        "A. Example, 2026-11-25, gauge PG-14: A1 1-3, 5-12; A2 1-2, 4-20",
        "B. Sample, 2026-11-25, gauge PG-14: A1 4; A2 3",
        "B. Sample, 2026-11-27, gauge HG-3: A1 1-12; A2 1-4, 6-20",
        "B. Sample, 2026-11-28, gauge HG-3: A2 5",
        "B 4471, B 4480 C. Model, D. Pattern",
    ] {
        assert!(record.contains(told), "{told}: {record}");
    }
    let holes = text("section[aria-labelledby=holes] tbody");
    assert!(holes.contains(".140 by .145"), "what was found first: {holes}");
    assert!(holes.contains(".147 by .1475"), "what was found after: {holes}");
    assert!(holes.contains("It is opened."), "{holes}");
    let stops = text("section[aria-labelledby=stops] tbody");
    assert!(stops.contains("row A1 hole 4") && stops.contains("A. Example, concession 17, 2026-11-25"), "{stops}");
    let map = text("section[aria-labelledby=map] svg");
    assert!(map.contains("answered: go by the answer") && !map.contains("refer, do not open"), "{map}");
    let heads = text("section[aria-labelledby=heads] tbody");
    assert!(heads.contains("sound: driven again stays"), "{heads}");
}
