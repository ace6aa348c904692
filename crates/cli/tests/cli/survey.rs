//! `shophead survey`: conversations through a pipe, and what is left when the plug is pulled.

use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use shophead_job::model::Job;
use shophead_job::read::read_holes_file_from;
use shophead_job::survey::prepare;
use tempfile::TempDir;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

const JOB: &str = r#"
title = "Panel"
holes = "found.csv"
[[row]]
name = "K1"
about = "long edge"
structure = "secondary"
member = "skin"
installed = "MS20470AD5-6"
layers = [{ role = "skin", thickness = ".063" }, { role = "rib-flange", thickness = ".050" }]
count = 1000
edge = "7/16"
pitch = "7/8"
"#;

/// A folder with a job in it.
struct Bench {
    folder: TempDir,
}

impl Bench {
    fn new(job: &str) -> Bench {
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join("job.toml"), job).expect("written");
        Bench { folder }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn found(&self) -> String {
        fs::read_to_string(self.path("found.csv")).unwrap_or_default()
    }

    fn command(&self, typed: &str) -> Command {
        let mut command = Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
        command.current_dir(self.folder.path()).args(typed.split_whitespace());
        // 24 November 2026.
        command.env("SOURCE_DATE_EPOCH", "1795521600");
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// Runs to the end with this input: status, standard output, error stream.
    fn run(&self, typed: &str, input: &str) -> (Option<i32>, String, String) {
        let mut child = self.command(typed).spawn().expect("the binary runs");
        // It may end before it has read everything.
        let _ = child.stdin.take().expect("an input").write_all(input.as_bytes());
        let Output { status, stdout, stderr } = child.wait_with_output().expect("an end");
        let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
        (status.code(), text(stdout), text(stderr))
    }

    fn survey(&self, input: &str) -> (Option<i32>, String, String) {
        self.run("survey job.toml found.csv", input)
    }
}

/// Holes that their pattern cannot take are referred as they are measured, and once somebody has answered about them no more.
#[test]
fn a_full_pattern_that_was_answered_is_full_no_more() {
    let job = JOB.replace("holes =", "answers = \"answers.csv\"\nholes =").replace("count = 1000", "count = 60");
    let bench = Bench::new(&job);
    let typed: Vec<String> = (1..60).step_by(2).map(|hole| format!("j {hole}\n.172 .168\n")).collect();
    let referred = |out: &str| {
        let out = out.split_whitespace().collect::<Vec<_>>().join(" ");
        Some(out.rsplit_once("To be referred: ")?.1.split_once('.')?.0.to_owned())
    };
    let (status, out, _) = bench.survey(&(typed.concat() + "q\n"));
    assert!(status == Some(1) && out.contains("PATTERN FULL. Refer K1 "), "{out}");
    let names = referred(&out).expect("too many steps for a pattern");
    for name in names.split(", ") {
        let hole = name.strip_prefix("K1 ").expect("a hole of the row");
        let typed =
            format!("answer job.toml --row K1 --hole {hole} --answer oversize --by A --document c17 --date 2026-11-24");
        assert!(bench.command(&typed).output().expect("it runs").status.success(), "{name}");
    }
    // Measured again, the pattern is gone through again.
    let (status, out, _) = bench.survey("j 1\n.172 .168\nq\n");
    assert_eq!((status, referred(&out)), (Some(0), None), "{out}");
    assert!(!out.contains("PATTERN FULL"), "{out}");
}

/// A row that has to be referred is what a survey ends with, whatever its holes measure.
#[test]
fn a_row_that_is_referred_is_said_at_the_end() {
    let job = JOB.replace("secondary", "primary").replace("edge = \"7/16\"\n", "");
    let (status, out, _) = Bench::new(&job).survey("q\n");
    assert!(status == Some(1) && out.contains("To be referred: row K1."), "{status:?} {out}");
    let (status, out, _) = Bench::new(JOB).survey("q\n");
    assert!(status == Some(0) && !out.contains("To be referred"), "{status:?} {out}");
}

#[test]
fn a_conversation_reads_the_same_through_a_pipe() {
    let bench = Bench::new(JOB);
    let (status, out, err) = bench.survey(".172 .168 g burr\n\n.159\nq\n");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    let talk = "\
Panel
0 of 1000 holes are measured.
Nobody is named. Type by and your name to have it written with each measure.
Type what you measure, in inches; ? helps.
Row K1, long edge: 1000 holes for MS20470AD5.
K1 1/1000 > .172 .168 g burr
K1 1 saved: .172 x .168, gouged, \"burr\"
OVERSIZE: NAS1242AD5, drill #16 (.177)
not keep: The hole is damaged.
not clean-up: Hole .173 is too large for this rivet, greatest .171.
K1 2/1000 > 
K1 2 skipped.
K1 3/1000 > .159
K1 3 saved: .159
KEEP: MS20470AD5
K1 4/1000 > q
2 lines saved. 2 of 1000 holes are measured.
";
    assert!(out.starts_with(talk), "{out}");
    assert_eq!(
        bench.found(),
        "row,hole,major,minor,condition,direction,opened,by,date,gauge,remark\n\
         K1,1,0.172,0.168,gouged,,,,2026-11-24,,\"burr\"\nK1,3,0.159,,sound,,,,2026-11-24,,\"\"\n"
    );
    // On it goes, corrects, and the plan takes the last line.
    let (_, out, _) = bench.survey("b\n.160 c\n");
    assert!(out.contains("K1 4/1000 > b\nK1 3 was .159 (2026-11-24). Enter keeps it.\n"), "{out}");
    assert!(out.contains("REFER. The hole is cracked. Stop"), "{out}");
    assert!(out.contains("The earlier .159 stays in the file.\n"), "{out}");
    let (status, plan, _) = bench.run("plan job.toml --format json", "");
    assert_eq!(status, Some(1));
    let plan = crate::schema::read(&plan);
    assert_eq!(plan["result"]["counts"]["measured"], 2);
    assert_eq!(plan["result"]["counts"]["refer"], 1);
}

#[test]
fn it_fits_forty_columns() {
    let bench = Bench::new(JOB);
    let (_, out, _) =
        bench.run("survey job.toml found.csv --width 40", "?\n.163 .160 g\nj\n.9\n171\nb\n.171\nj K9\nq\n");
    for line in out.lines() {
        assert!(line.chars().count() <= 40, "{line:?}");
    }
}

#[test]
fn a_cracked_hole_ends_with_status_one() {
    let bench = Bench::new(JOB);
    let (status, out, _) = bench.survey(".159 c\n");
    assert_eq!(status, Some(1), "{out}");
    assert!(out.contains("To be referred: K1 1.\n"), "{out}");
}

#[test]
fn a_last_line_without_enter_is_not_taken() {
    let bench = Bench::new(JOB);
    let (status, out, _) = bench.survey(".159\n.16");
    assert_eq!(status, Some(0));
    assert!(out.contains("The last line had no Enter and is not taken.\n"), "{out}");
    assert_eq!(bench.found().lines().count(), 2, "the header and one hole");
}

#[test]
fn nothing_is_written_before_everything_is_understood() {
    let bench = Bench::new("title = 5\n");
    let (status, _, err) = bench.survey(".159\n");
    assert_eq!(status, Some(2), "{err}");
    assert!(!bench.path("found.csv").exists());
    let bench = Bench::new(JOB);
    let wrong = "row,hole,major\nK9,1,.159\nK1,1,.1";
    fs::write(bench.path("found.csv"), wrong).expect("written");
    let (status, _, err) = bench.survey(".159\n");
    assert_eq!(status, Some(2), "{err}");
    assert!(err.contains("the job has no row \"K9\""), "{err}");
    assert_eq!(bench.found(), wrong);
    let (status, _, err) = bench.run("survey job.toml found.csv --format json", "");
    assert_eq!(
        (status, err.as_str()),
        (Some(2), "error: survey talks in text only; what it measures is in the holes file\n")
    );
    let (status, _, _) = bench.run("survey nowhere.toml found.csv", "");
    assert_eq!(status, Some(3));
}

#[test]
fn a_line_that_was_cut_off_is_put_aside_and_told() {
    let bench = Bench::new(JOB);
    bench.survey(".159\n");
    let before = bench.found();
    fs::write(bench.path("found.csv"), format!("{before}K1,2,0.16")).expect("written");
    let (status, _, err) = bench.run("plan job.toml", "");
    assert_eq!(status, Some(2), "a plan does not count on half a line: {err}");
    let (status, out, _) = bench.survey("");
    assert_eq!(status, Some(0));
    assert!(out.starts_with("The last line was cut off and is put aside in found.csv.torn: K1,2,0.16\n"), "{out}");
    assert_eq!(bench.found(), before);
    assert_eq!(fs::read_to_string(bench.path("found.csv.torn")).expect("kept"), "K1,2,0.16\n");
}

#[test]
fn a_file_that_somebody_else_changes_stops_the_survey() {
    let bench = Bench::new(JOB);
    let mut child = bench.command("survey job.toml found.csv").spawn().expect("the binary runs");
    let mut input = child.stdin.take().expect("an input");
    let mut output = child.stdout.take().expect("an output");
    // Begun once it has asked.
    up_to_prompt(&mut output);
    let other = "row,hole,major,minor,condition,remark\nK1,9,.2,,,\n";
    fs::write(bench.path("found.csv"), other).expect("written");
    input.write_all(b".159\n.160\n").expect("typed");
    drop(input);
    let mut rest = String::new();
    output.read_to_string(&mut rest).expect("an end");
    let end = child.wait_with_output().expect("an end");
    assert_eq!(end.status.code(), Some(3), "{rest}");
    assert!(!rest.contains("saved:"), "{rest}");
    let err = String::from_utf8_lossy(&end.stderr);
    assert!(err.contains("another program has changed it meanwhile; the last measure is not saved"), "{err}");
    assert_eq!(bench.found(), other);
}

/// Reads what is shown up to the next prompt.
fn up_to_prompt(output: &mut impl Read) -> String {
    let mut shown = Vec::new();
    while !shown.ends_with(b"> ") {
        let mut byte = [0];
        output.read_exact(&mut byte).expect("a prompt");
        shown.extend(byte);
    }
    String::from_utf8(shown).expect("UTF-8")
}

#[cfg(unix)]
#[test]
fn a_second_survey_of_the_same_file_is_refused() {
    let bench = Bench::new(JOB);
    let mut first = bench.command("survey job.toml found.csv").spawn().expect("the binary runs");
    up_to_prompt(first.stdout.as_mut().expect("an output"));
    let (status, out, err) = bench.survey(".170\n");
    assert_eq!((status, out.as_str()), (Some(3), ""), "{err}");
    assert_eq!(err, "error: cannot write found.csv: another survey is writing to it\n");
    first.stdin.take().expect("an input").write_all(b".159\n").expect("typed");
    let first = first.wait_with_output().expect("an end");
    assert!(first.status.success());
    assert!(bench.found().ends_with("K1,1,0.159,,sound,,,,2026-11-24,,\"\"\n"), "{}", bench.found());
    // A plan may be made meanwhile, and the next survey goes on.
    assert_eq!(bench.run("plan job.toml", "").0, Some(0));
    assert_eq!(bench.survey(".160\n").0, Some(0));
    assert_eq!(bench.found().lines().count(), 3);
}

/// Both read the file, or that there is none, before either has written. A large job gives them time for it.
#[test]
fn surveys_that_start_together_lose_nothing_that_was_saved() {
    let large = format!("{JOB}\n").replace("count = 1000", "count = 20000").replace("\"found.csv\"", "\"other.csv\"");
    let olds = [
        None,
        Some("row,hole,major\nK1,20000,.159\n".to_owned()),
        Some("row,hole,major,minor,condition,remark\nK1,20000,.159,,sound,\"\"\nK1,1999,.1".to_owned()),
    ];
    let measured: String = (1..=3_000).map(|hole| format!("K1,{hole},.159\n")).collect();
    let mut saved = 0;
    for round in 0..12 {
        let bench = Bench::new(&large);
        fs::write(bench.path("other.csv"), format!("row,hole,major\n{measured}")).expect("written");
        if let Some(old) = &olds[round % olds.len()] {
            fs::write(bench.path("found.csv"), old).expect("written");
        }
        let both: Vec<(usize, std::process::Child)> = (0..2)
            .map(|who| (who, bench.command("survey job.toml found.csv").spawn().expect("the binary runs")))
            .collect();
        let both: Vec<_> = both
            .into_iter()
            .map(|(who, mut child)| {
                thread::spawn(move || {
                    let mut input = child.stdin.take().expect("an input");
                    for hole in 0..3 {
                        // One that was refused has gone.
                        let typed = format!("j {}\n.16{}\n", 4_000 + 10 * hole + who, who + 1);
                        if input.write_all(typed.as_bytes()).is_err() {
                            break;
                        }
                    }
                    drop(input);
                    String::from_utf8(child.wait_with_output().expect("an end").stdout).expect("UTF-8")
                })
            })
            .collect();
        let outs: Vec<String> = both.into_iter().map(|one| one.join().expect("an output")).collect();
        let found = bench.found();
        for told in outs.iter().flat_map(|out| told(out)) {
            let (hole, measure) = told.split_once(' ').expect("a hole and its measure");
            assert!(found.contains(&format!("K1,{hole},{measure},")), "round {round}: {told} is lost\n{found}");
            saved += 1;
        }
        assert!(found.ends_with('\n'), "round {round}");
    }
    assert!(saved >= 3 * 12, "only {saved} were saved");
}

#[test]
fn the_demo_goes_from_survey_to_signature() {
    let bench = Bench::new(
        &fs::read_to_string(format!("{DEMO}/job.toml")).expect("the demo").replace("holes.csv", "found.csv"),
    );
    for file in ["shop-limits.toml", "stock.csv", "trim.csv", "driven.csv"] {
        fs::copy(format!("{DEMO}/{file}"), bench.path(file)).expect("copied");
    }

    // Survey: every hole of the demo's holes file, jumped to one after the other.
    let holes = fs::read_to_string(format!("{DEMO}/holes.csv")).expect("the demo");
    let mut typed = "by A. Example\ngauge PG-14\n".to_owned();
    for line in holes.lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let damage = if cells[4].is_empty() { "s" } else { cells[4] };
        typed.push_str(&format!("j {} {}\n{} {} {damage} {}\n", cells[0], cells[1], cells[2], cells[3], cells[5]));
    }
    let (status, out, err) = bench.survey(&typed);
    assert_eq!((status, err.as_str()), (Some(1), ""), "{out}");
    assert_eq!(out.matches(" saved: ").count(), holes.lines().count() - 1, "{out}");

    // Plan and order: as with the demo's own holes.
    let result = |typed: &str| {
        let (status, out, err) = bench.run(&format!("{typed} --format json"), "");
        assert_eq!((status, err.as_str()), (Some(1), ""), "{typed}");
        let value = crate::schema::read(&out);
        value["result"].clone()
    };
    let in_demo = |typed: &str| typed.replace("job.toml", &format!("{DEMO}/job.toml"));
    let (plan, order) = (result("plan job.toml"), result("order job.toml --stock stock.csv"));
    let mut of_demo = result(&in_demo("plan job.toml"));
    of_demo["holes_file"]["name"] = "found.csv".into();
    assert_eq!(plan, of_demo);
    assert_eq!(order, result(&in_demo("order job.toml --stock stock.csv")));

    // Card: what plan and order say, for every row, every hole that differs, every part.
    assert_eq!(bench.run("card job.toml --stock stock.csv -o card.html", ""), (Some(1), String::new(), String::new()));
    let card = scraper::Html::parse_document(&fs::read_to_string(bench.path("card.html")).expect("a card"));
    let texts = |selector: &str| -> Vec<String> {
        let selector = scraper::Selector::parse(selector).expect("a selector");
        let words = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
        card.select(&selector).map(|found| words(found.text().collect::<Vec<_>>().join(" "))).collect()
    };
    let lines = texts("tr");
    let has_line = |pieces: &[&str]| lines.iter().any(|line| pieces.iter().all(|piece| line.contains(piece)));
    let word = |value: &serde_json::Value| value.as_str().expect("a text").to_owned();
    for row in plan["rows"].as_array().expect("rows") {
        let (name, part) = (word(&row["name"]), word(&row["part"]));
        assert!(has_line(&[&name, &part]), "row {name} with {part}");
        for hole in row["holes"].as_array().expect("holes") {
            let number = &hole["hole_number"];
            let told = match word(&hole["disposition"]).as_str() {
                "refer" => "Found ",
                "clean-up" => "Clean up the hole",
                "oversize" => "oversize shank",
                "next-size" => "next larger diameter",
                // One that is kept as it is, is like the others of its row.
                "keep" => continue,
                other => panic!("{other}"),
            };
            assert!(has_line(&[&format!("{name} hole {number} "), told]), "row {name} hole {number}: {told}");
        }
    }
    for line in order["lines"].as_array().expect("lines") {
        assert!(has_line(&[&word(&line["part"]), &line["buy"].to_string()]), "{line}");
    }

    // Map: every row, every hole that is marked, the cut.
    assert_eq!(bench.run("map job.toml -o map.svg", ""), (Some(1), String::new(), String::new()));
    let map = fs::read_to_string(bench.path("map.svg")).expect("a map");
    for row in plan["rows"].as_array().expect("rows") {
        assert!(map.contains(&format!(">{}<", word(&row["name"]))), "{}", row["name"]);
    }
    let counts = &plan["counts"];
    assert!(map.contains("aft edge"), "the cut");
    assert!(counts["refer"].as_u64() > Some(0), "{counts}");

    // Inspection, and what it says has to be ordered again.
    let inspected = result("inspect job.toml driven.csv");
    assert_eq!(inspected["rejected"], 7);
    let ordered: u64 =
        inspected["order"].as_array().expect("an order").iter().filter_map(|line| line["needed"].as_u64()).sum();
    let replaced = inspected["lines"].as_array().expect("lines").iter().filter(|line| !line["replacement"].is_null());
    assert_eq!(ordered, replaced.count() as u64);
    assert!(ordered > 0);
}

/// Numbers that look random, always the same ones; only when the kill comes is left to chance.
struct Numbers(u64);

impl Numbers {
    fn next(&mut self, below: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % below
    }
}

/// What somebody was told is saved, as `hole measure`.
fn told(out: &str) -> Vec<String> {
    let saved = out.lines().filter_map(|line| line.strip_prefix("K1 ")?.split_once(" saved: "));
    saved
        .map(|(hole, found)| format!("{hole} {}", found.split(' ').next().unwrap_or_default().replacen('.', "0.", 1)))
        .collect()
}

fn job_of(path: &Path) -> Job {
    let none = |_: &Path| Ok(b"row,hole,major\n".to_vec());
    Job::read_from(fs::read(path).expect("a job"), path, &none).expect("a job")
}

#[test]
fn two_hundred_kills_lose_nothing_that_was_saved() {
    let bench = Bench::new(JOB);
    let job = job_of(&bench.path("job.toml"));
    let mut numbers = Numbers(0x5DEE_CE66_D123_4567);
    let mut saved: Vec<String> = Vec::new();
    let (mut killed, mut torn) = (0, 0);
    let mut half: Option<&str> = None;
    for round in 0..200 {
        let mut child = bench.command("survey job.toml found.csv").spawn().expect("the binary runs");
        let mut typed = String::new();
        for _ in 0..2000 {
            typed.push_str(&format!("j {}\n.{}\n", numbers.next(1000) + 1, 1000 + numbers.next(1000)));
        }
        let mut input = child.stdin.take().expect("an input");
        let mut output = child.stdout.take().expect("an output");
        let typist = thread::spawn(move || {
            // Until nobody reads any more.
            let _ = input.write_all(typed.as_bytes());
        });
        let (tells, hears) = mpsc::channel();
        let reader = thread::spawn(move || {
            let (mut shown, mut piece) = (Vec::new(), [0; 4096]);
            loop {
                let count = output.read(&mut piece).expect("readable");
                if count == 0 {
                    return String::from_utf8(shown).expect("UTF-8");
                }
                shown.extend_from_slice(&piece[..count]);
                // Nobody hears it once the plug is pulled.
                let _ = tells.send(());
            }
        });
        // Every fourth is killed while it begins, the others after they have said something; a busy machine must not kill all too soon.
        for _ in 0..if round % 4 == 0 { 0 } else { 1 + numbers.next(6) } {
            let _ = hears.recv_timeout(Duration::from_secs(10));
        }
        thread::sleep(Duration::from_micros(numbers.next(4_000)));
        child.kill().expect("killed");
        killed += i32::from(child.wait().expect("an end").code().is_none());
        typist.join().expect("typed");
        // A last line that is not whole was not told.
        let shown = reader.join().expect("read");
        let shown = &shown[..shown.rfind('\n').map_or(0, |end| end + 1)];
        saved.extend(told(shown));

        let Ok(content) = fs::read(bench.path("found.csv")) else { continue };
        // Killed before it had begun, it may have left the half line of the power cut before; it never leaves one itself.
        let prepared = prepare(Some(&content));
        if prepared.torn.is_none() {
            half = None;
        }
        assert_eq!(prepared.torn.as_deref(), half.map(str::as_bytes), "round {round}");
        let file = read_holes_file_from(prepared.content, Path::new("found.csv"), &job);
        let file = file.unwrap_or_else(|error| panic!("round {round}: {error}"));
        // Whatever was told stands in the file, in that order; beside it at most the last line of each round.
        let mut lines = file.records.iter().map(|record| {
            let hole = record.hole.as_ref().expect("a measure");
            format!("{} {}", hole.number, hole.as_found.major())
        });
        for told in &saved {
            assert!(lines.any(|line| line == *told), "round {round}: {told} is lost");
        }
        assert!(file.records.len() <= saved.len() + round + 1, "round {round}");
        // What a power cut can do and a kill cannot: half a line.
        if round % 5 == 0 && half.is_none() {
            let mut file = fs::OpenOptions::new().append(true).open(bench.path("found.csv")).expect("there");
            let cut = &"K1,1000,0.1999,0.1888,sound,\"half\""[..1 + numbers.next(33) as usize];
            file.write_all(cut.as_bytes()).expect("written");
            half = Some(cut);
            torn += 1;
        }
    }
    let (_, _, err) = bench.survey("q\n");
    assert_eq!(err, "");
    assert!(!bench.found().contains("half"));
    let aside = fs::read_to_string(bench.path("found.csv.torn")).unwrap_or_default();
    // A survey that was killed between putting aside and cutting off puts aside once more.
    assert!(aside.lines().count() >= torn, "{torn} of {aside}");
    assert!(killed > 150, "only {killed} were killed");
    assert!(saved.len() > 100, "only {} were saved", saved.len());
}
