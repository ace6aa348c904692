//! The panel round its rows: patterns, damage, positions, cuts; in the job where everything goes wrong, and in one where it does not.

use serde_json::Value;

use crate::{Run, shophead, shophead_with};

const MARSH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/marsh-float/job.toml");

/// A job with one row that stands against its cut.
const SMALL: &str = r#"
title = "Tab"
[minutes]
set-up = { hung = 10, stood = 25 }
drill-out = 1
drive-open = 1.5
drive-close = 4
[[position]]
name = "hung"
[[position]]
name = "stood"
[[row]]
name = "T1"
structure = "primary"
member = "skin"
installed = "MS20470AD4-4"
layers = [
    { role = "skin", material = "2024-T3", thickness = ".040" },
    { role = "doubler", material = "2024-T3", thickness = ".040" },
]
count = 10
start = ["1", "1/2"]
along = ["1", "0"]
pitch = "3/4"
clearance = { hung = "2", stood = "open" }
[[edge]]
name = "lower edge"
stations = [["0", "0"], ["4", "1/8"], ["9", "0.1"]]
every = "3"
[[damage]]
kind = "corrosion"
place = "skin at T1"
row = "T1"
member = "skin"
depth = ".003"
[[look]]
place = "behind the doubler"
why = "it was wet"
"#;

fn plan(job: &str, limits: Option<&str>, more: &str) -> Run {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let path = folder.path().join("job.toml");
    std::fs::write(&path, job).expect("written");
    let mut options = more.to_owned();
    if let Some(limits) = limits {
        let limits_path = folder.path().join("limits.toml");
        std::fs::write(&limits_path, limits).expect("written");
        options.push_str(&format!(" --limits {}", limits_path.display()));
    }
    shophead(&format!("plan {} {options}", path.display()))
}

fn codes<'v>(value: &'v Value, subject: &str) -> Vec<&'v str> {
    let findings = value["findings"].as_array().expect("a list").iter();
    findings.filter(|found| found["subject"] == subject).filter_map(|found| found["code"].as_str()).collect()
}

/// The text as one line, wherever it broke.
fn running(run: &Run) -> String {
    run.printed(1).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_job_where_everything_goes_wrong_says_so() {
    let run = shophead(&format!("plan {MARSH} --full"));
    let text = run.printed(1);
    for said in [
        "No position lets every row be bucked",
        "Too many holes opened in one pattern: 8, most 6.",
        "Too many neighbours opened: 4, most 2.",
        "Within the limits 6 can have one; 2 are referred.",
        "No limit on file for this damage",
        "The hole is cracked.",
        "Also look here",
        "What each position lacks, least first\nhoisted: 3 rows block",
        "L1: .237 more room.",
        "K1: no bar goes behind it; open it up to .742.",
        "L1: too close, closest hole 8 at .221\n  Too close: holes 7-9.\n  Beyond the stations: holes 15-16.",
        "Mark out from these, in inches:",
    ] {
        assert!(text.contains(said), "{said}\n{text}");
    }
    assert!(!text.contains("Least effort"), "none serves");
}

#[test]
fn holes_of_a_row_that_is_referred_are_left_alone() {
    let text = shophead(&format!("plan {MARSH}"));
    assert!(!text.printed(1).contains("Holes to work"), "{text}");
    let work = shophead(&format!("plan {MARSH} --only work"));
    assert!(work.printed(1).contains("Open the holes square") && !work.stdout.contains("L1 2-3"), "{work}");
}

#[test]
fn it_fits_a_narrow_screen() {
    for width in [40, 80] {
        let run = shophead(&format!("plan {MARSH} --full --width {width}"));
        for line in run.printed(1).lines() {
            assert!(line.chars().count() <= width, "{width}: {line}");
        }
    }
}

#[test]
fn the_pattern_refers_as_few_holes_as_it_can() {
    let value = shophead(&format!("plan {MARSH} --format json")).json(1);
    let pattern = &value["result"]["patterns"][0];
    assert_eq!((&pattern["wanting"], &pattern["stepped"]), (&8.into(), &6.into()));
    assert_eq!(pattern["rows"], serde_json::json!(["L1", "L2"]));
    assert_eq!(codes(&value, "pattern aft lap"), ["too-many-steps", "neighbours-stepped"]);
    // Of holes 2 to 5 of L1 two neighbours may be stepped up at most.
    let full: Vec<&Value> =
        value["findings"].as_array().expect("a list").iter().filter(|found| found["code"] == "pattern-full").collect();
    let subjects: Vec<&str> = full.iter().filter_map(|found| found["subject"].as_str()).collect();
    assert_eq!(subjects, ["row L1 hole 4", "row L2 hole 8"]);
    let hole =
        value["result"]["rows"][0]["holes"].as_array().expect("holes").iter().find(|hole| hole["hole_number"] == 4);
    let hole = hole.expect("hole 4");
    assert_eq!((&hole["disposition"], &hole["part"]), (&"refer".into(), &Value::Null));
}

#[test]
fn a_cut_is_told_with_its_distances_and_its_marks() {
    let value = plan(SMALL, None, "--format json").json(1);
    let edge = &value["result"]["edges"][0];
    let stations: Vec<f64> =
        edge["table"].as_array().expect("marks").iter().filter_map(|mark| mark["station"]["in"].as_f64()).collect();
    assert_eq!(stations, [0.0, 3.0, 4.0, 6.0, 9.0]);
    let row = &edge["rows"][0];
    assert_eq!(row["distances"].as_array().map(Vec::len), Some(10));
    // The nearest to the highest place of the edge, 1/8 at station 4.
    assert_eq!(row["closest"]["hole_number"], 5);
    assert!((row["closest"]["distance"]["in"].as_f64().expect("a length") - 0.375).abs() < 1e-6);
    assert_eq!(row["too_close"], serde_json::json!([]));
    assert!(codes(&value, "row T1").iter().all(|code| *code != "edge-distance-short"));
    let short = SMALL.replace("\"1/2\"]", "\"3/8\"]").replace("MS20470AD4-4", "MS20470AD5-5");
    let value = plan(&short, None, "--format json").json(1);
    assert!(codes(&value, "row T1").contains(&"edge-distance-short"), "2 D is now more than 1/4");
    let crossed = SMALL.replace("[\"9\", \"0.1\"]", "[\"9\", \"2\"]");
    let value = plan(&crossed, None, "--format json").json(1);
    assert!(codes(&value, "edge lower edge").contains(&"hole-beyond-cut"), "{value}");
}

#[test]
fn stations_are_measured_along_any_line() {
    // The row of SMALL turned by three to four, with everything round it.
    let turned = SMALL
        .replace("start = [\"1\", \"1/2\"]", "start = [\".2\", \"1.1\"]")
        .replace("along = [\"1\", \"0\"]", "along = [\"3\", \"4\"]")
        .replace("every = \"3\"", "every = \"3\"\nline = [[\"0\", \"0\"], [\".3\", \".4\"]]");
    let [straight, along] = [SMALL, &turned].map(|job| plan(job, None, "--format json").json(1));
    let [before, after] = [&straight, &along].map(|value| &value["result"]["edges"][0]);
    assert_eq!((&before["line"], &after["line"][1]["y"]["in"]), (&Value::Null, &0.4.into()));
    assert_eq!(before["table"], after["table"], "the marks are those of the line");
    let distances = |edge: &Value| -> Vec<f64> {
        let list = edge["rows"][0]["distances"].as_array().expect("distances").iter();
        list.map(|length| length["in"].as_f64().expect("a length")).collect()
    };
    for (one, other) in distances(before).iter().zip(distances(after)) {
        assert!((one - other).abs() < 1e-6, "{one} {other}");
    }
    let text = running(&plan(&turned, None, "--only cuts"));
    assert!(text.contains("stations along the line from .000 by .000 to .300 by .400, offsets to its left:"), "{text}");
    for (line, told) in [
        ("[[\"1\", \"1\"], [\"1\", \"1\"]]", "both points of the line are the same"),
        ("[[\"1\", \"1\"]]", "a line has two points, here are 1"),
    ] {
        let wrong = turned.replace("[[\"0\", \"0\"], [\".3\", \".4\"]]", line);
        let run = plan(&wrong, None, "");
        assert!(run.refused().contains(told), "{run}");
    }
}

#[test]
fn the_axes_of_a_job_are_two() {
    for (axes, told) in [
        ("forward = \"y\"\ninboard = \"-y\"", "forward and inboard lie along one axis"),
        ("forward = \"up\"", "forward cannot be \"up\""),
    ] {
        let run = plan(&SMALL.replacen("title =", &format!("{axes}\ntitle ="), 1), None, "");
        assert!(run.refused().contains(told), "{run}");
    }
}

#[test]
fn a_template_is_for_an_edge_of_the_job() {
    let drawn = |job: &str, more: &str| {
        let folder = tempfile::tempdir().expect("a scratch folder");
        let path = folder.path().join("job.toml");
        std::fs::write(&path, job).expect("written");
        shophead(&format!("template {} -o - {more}", path.display()))
    };
    let run = drawn(SMALL, "--edge lower_edge --paper a4");
    assert!(run.printed(1).contains("lower edge: sheet 1 of 1. Tab"), "{run}");
    assert!(run.stdout.contains("size: A4 landscape"), "{run}");
    let run = drawn(SMALL, "--units mm");
    assert!(run.printed(1).contains("Both bars measure 100 mm") && run.stdout.contains("size: A4 landscape"), "{run}");
    let run = drawn(SMALL, "");
    assert!(
        run.printed(1).contains("Both bars measure 4 in") && run.stdout.contains("size: letter landscape"),
        "{run}"
    );
    let run = drawn(SMALL, "--edge upper");
    assert!(run.refused().contains("the job has no such edge; it has lower edge"), "{run}");
    let none = SMALL.replace("[[edge]]\nname = \"lower edge\"\nstations = [[\"0\", \"0\"], [\"4\", \"1/8\"], [\"9\", \"0.1\"]]\nevery = \"3\"\n", "");
    let run = drawn(&none, "");
    assert!(run.refused().contains("the job has no edge to cut"), "{run}");
    let long = SMALL.replace("[\"9\", \"0.1\"]", "[\"1500\", \"0.1\"]");
    let run = drawn(&long, "");
    assert!(run.refused().contains("lower edge takes more than 100 sheets at full size"), "{run}");
}

#[test]
fn positions_are_compared_by_the_shop_s_own_minutes() {
    let text = running(&plan(SMALL, None, "--full"));
    assert!(
        text.contains("60 min for the rows that take driven rivets only: set-up 10, drilling out 10, driving 40."),
        "{text}"
    );
    assert!(
        text.contains("50 min for the rows that take driven rivets only: set-up 25, drilling out 10, driving 15."),
        "{text}"
    );
    assert!(text.contains("Least effort: stood, 50 min."), "{text}");
    let value = plan(SMALL, None, "--format json").json(1);
    let positions = &value["result"]["positions"];
    assert_eq!((&positions[0]["least_effort"], &positions[1]["least_effort"]), (&false.into(), &true.into()));
    assert_eq!(positions[0]["minutes"]["total"].as_f64(), Some(60.0));
    assert_eq!(positions[0]["rows"][0]["clearance"]["in"].as_f64(), Some(2.0));
    let untimed = SMALL.replace(
        "[minutes]\nset-up = { hung = 10, stood = 25 }\ndrill-out = 1\ndrive-open = 1.5\ndrive-close = 4\n",
        "",
    );
    let text = running(&plan(&untimed, None, ""));
    assert!(!text.contains(" min") && text.contains("Least effort: hung."), "{text}");
}

#[test]
fn damage_is_held_against_the_shop_s_own_limits() {
    let limits = |share: &str| {
        format!(
            "title = \"own\"\ndocument = \"repair manual\"\n[[limit]]\nname = \"corrosion-depth-share\"\nvalue = \"{share}\"\nplace = \"51-10\"\n"
        )
    };
    let subject = "damage 1, skin at T1";
    let none = plan(SMALL, None, "--format json").json(1);
    assert_eq!(codes(&none, subject), ["damage-not-limited"]);
    // .003 of .040 is 7.5 %.
    let within = plan(SMALL, Some(&limits("8 %")), "--format json").json(0);
    assert_eq!(codes(&within, subject), ["damage-within-limit"]);
    let over = plan(SMALL, Some(&limits("7 %")), "--format json").json(1);
    assert_eq!(codes(&over, subject), ["damage-over-limit"]);
    assert_eq!(over["result"]["looks"][0]["place"], "behind the doubler");
}

#[test]
fn a_hundred_thousand_holes_are_planned_in_seconds() {
    use std::fmt::Write as _;
    let folder = tempfile::tempdir().expect("a scratch folder");
    let mut job = "title = \"Hangar\"\nholes = \"holes.csv\"\n".to_owned();
    let mut holes = "row,hole,major,minor\n".to_owned();
    for row in 0..100 {
        let _ = write!(
            job,
            "[[row]]\nname = \"R{row}\"\nstructure = \"secondary\"\nmember = \"skin\"\ninstalled = \"MS20470AD4-4\"\nlayers = [\n\
             {{ role = \"skin\", material = \"2024-T3\", thickness = \".040\" }},\n\
             {{ role = \"skin\", material = \"2024-T3\", thickness = \".040\" }},\n]\ncount = 1000\npitch = \"3/4\"\nedge = \"1/2\"\n"
        );
        for hole in 1..=1000 {
            let _ = writeln!(holes, "R{row},{hole},.13{},.129", (row + hole) % 10);
        }
    }
    std::fs::write(folder.path().join("job.toml"), job).expect("written");
    std::fs::write(folder.path().join("holes.csv"), holes).expect("written");
    let started = std::time::Instant::now();
    let run = shophead_with("plan job.toml --format csv", |command| command.current_dir(folder.path()));
    let lines = run.printed(1).lines().count();
    // Holes that are referred or differ, and a line a row.
    assert!(lines > 10_000, "{lines}");
    // Seconds in a build for use; this one is not, and the machine may be busy. What is squared takes an hour.
    assert!(started.elapsed() < std::time::Duration::from_secs(60), "{:?}", started.elapsed());
}
