//! `--units mm` is for what is typed as well; a job and its files keep to their own units.

use std::fs;

use serde_json::Value;

use crate::depth::codes;
use crate::{bare, shophead, shophead_with};

/// The answer and what was found, without the words for it.
fn answer(typed: &str) -> (Option<i32>, Value) {
    let run = shophead(typed);
    let json: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{run}"));
    (run.status, json)
}

#[test]
fn a_number_without_a_unit_is_millimetres_or_newtons() {
    for (bare, with_units) in [
        (
            "hole --rivet MS20470AD4 --major 3.3 --minor 3.2 --edge 4 --pitch 20 --layers 2024-T3:1,2024-T3:1",
            "hole --rivet MS20470AD4 --major 3.3mm --minor 3.2mm --edge 4mm --pitch 20mm --layers 2024-T3:1mm,2024-T3:1mm",
        ),
        (
            "joint --rivet MS20470AD4 --sheets 2024-T3:1.6,2024-T3:1.6 --edge 5 --pitch 20 --load 1000",
            "joint --rivet MS20470AD4 --sheets 2024-T3:1.6mm,2024-T3:1.6mm --edge 5mm --pitch 20mm --load 1000N",
        ),
        (
            "length --layers 0.8+-.05,3.2 --diameter 3.175 --tolerance .1 --hole 3.3",
            "length --layers 0.8mm+-.05mm,3.2mm --diameter 1/8 --tolerance .1mm --hole 3.3mm",
        ),
        (
            "head --diameter 1/8 --measured-diameter 4.6,4.8 --measured-height 1.5 --length 8 --grip 4",
            "head --diameter 1/8 --measured-diameter 4.6mm,4.8mm --measured-height 1.5mm --length 8mm --grip 4mm",
        ),
        (
            "splice --sheet clad_2024-T3:1 --width 250 --rivet AD4",
            "splice --sheet clad_2024-T3:1mm --width 250mm --rivet AD4",
        ),
    ] {
        let (status, json) = answer(&format!("{bare} --units mm --format json"));
        assert_eq!((status, json), answer(&format!("{with_units} --units mm --format json")), "{bare}");
    }
    // The slip that was silent: an edge distance of 5 mm was read as 5 in.
    let hole = "hole --rivet MS20470AD4 --major 3.3 --edge 5 --pitch 20 --layers 2024-T3:1,2024-T3:1 --units mm";
    assert!(codes(&answer(&format!("{hole} --format json")).1).contains(&"edge-as-built"));
}

#[test]
fn a_cell_of_a_batch_is_read_as_the_option_of_the_command() {
    let rows = "rivet,major,edge,pitch,layers\nMS20470AD4,3.3,5,20,\"2024-T3:1,2024-T3:1\"\n";
    let batch = |rows: &'static str, units: &str| {
        let run = shophead_with(&format!("batch hole --units {units}"), |command| command.write_stdin(rows));
        run.stdout.lines().nth(1).unwrap_or_default().rsplit("\",").next().unwrap_or_default().to_owned()
    };
    let told = batch(rows, "mm");
    assert!(told.contains("edge-as-built"), "{told}");
    let inches = "rivet,major,edge,pitch,layers\nMS20470AD4,3.3mm,5mm,20mm,\"2024-T3:1mm,2024-T3:1mm\"\n";
    assert_eq!(told, batch(inches, "mm"));
}

#[test]
fn the_points_of_a_group_follow_the_option_too() {
    let of = |points: &'static str, units: &str, at: &str| {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("points.csv");
        fs::write(&path, points).expect("written");
        let more = "--rivet MS20470AD4 --sheets 2024-T3:1mm,2024-T3:1mm --edge 10mm --units";
        answer(&format!("group {} --load 0,1000N --at {at} {more} {units} --format json", path.display()))
    };
    let (status, inches) = of("x,y\n0,0\n1,0\n", "in", "2,0");
    let (as_well, millimetres) = of("x,y\n0,0\n25.4,0\n", "mm", "50.8,0");
    assert_eq!((status, &inches["result"]), (as_well, &millimetres["result"]));
}

const JOB: &str = r#"
title = "Panel"
UNITS
[[row]]
name = "K1"
structure = "secondary"
member = "skin"
installed = "MS20470AD5-6"
layers = [{ role = "skin", thickness = "1.6" }, { role = "rib-flange", thickness = "1.2" }]
count = 10
edge = 11
pitch = 22
"#;

#[test]
fn a_job_keeps_to_its_own_units_whatever_the_option_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("job.toml");
    fs::write(&path, JOB.replace("UNITS", "units = \"mm\"\nholes = \"h.csv\"")).expect("written");
    fs::write(folder.path().join("h.csv"), "row,hole,major\nK1,3,4.1\n").expect("written");
    let [inches, millimetres] = ["in", "mm"].map(|units| {
        answer(&format!("plan {} --units {units} --format json", path.display())).1["result"]["rows"][0].clone()
    });
    for row in [&inches, &millimetres] {
        assert_eq!(row["grip"]["nominal"]["mm"], 2.8);
        assert_eq!(row["holes"][0]["measured"]["major"]["mm"], 4.1);
    }
    // Its text is in its own units where nothing else is asked for.
    let text = bare(&format!("plan {} --full", path.display()));
    assert!(text.stdout.contains("grip 2.80 mm"), "{text}");
    let text = bare(&format!("plan {} --full --units in", path.display()));
    assert!(text.stdout.contains("grip .110"), "{text}");
    // Without a word about units it is in inches, and so thick a layer is a slip.
    fs::write(&path, JOB.replace("UNITS", "")).expect("written");
    let run = bare(&format!("plan {} --full --units mm", path.display()));
    assert!(run.refused().contains("1.600 in is thick for a layer"), "{run}");
}

#[test]
fn a_slip_of_the_keyboard_in_a_thickness_is_answered_with_what_was_meant() {
    for (layers, told) in [
        ("040,.032", "item 1 \"040\": the point is missing (character 1); did you mean .040?"),
        ("40,.032", "item 1 \"40\": 40 in is thick for a layer (character 1); did you mean .040? If it is so thick"),
        (".032,2024-T3:63", "item 2 \"2024-T3:63\": 63 in is thick for a layer (character 9); did you mean .063?"),
        ("1.25,.032", "1.250 in is thick for a layer (character 1); if it is so thick, write 1.250in"),
    ] {
        let run = shophead(&format!("length --layers {layers} --diameter 1/8"));
        assert!(run.refused().contains(told), "{run}");
    }
    for layers in [".032+/-.002,.125", ".032±.002,.125", ".032+–.002,.125", ".032+.002–.002,.125"] {
        let run = shophead(&format!("length --layers {layers} --diameter 1/8 --format json"));
        let plain = shophead("length --layers .032+-.002,.125 --diameter 1/8 --format json");
        assert_eq!(run.json(0), plain.json(0), "{layers}");
    }
    assert_eq!(shophead("length --layers 1.25in,.063 --diameter 1/4").status, Some(0));
    assert_eq!(shophead("length --layers .032,.125 --diameter 1/8 --tolerance +/-.002").status, Some(0));
}

#[test]
fn before_the_survey_the_plan_says_what_to_type() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("job.toml");
    fs::write(&path, JOB.replace("UNITS", "units = \"mm\"\nholes = \"holes.csv\"")).expect("written");
    let run = bare(&format!("plan {} --full --width 400", path.display()));
    let survey = format!("shophead survey {} {}", path.display(), folder.path().join("holes.csv").display());
    assert!(run.printed(0).contains(&format!("0 of 10 measured; {survey}\n")), "{run}");
    let json = answer(&format!("plan {} --format json", path.display())).1;
    assert_eq!(json["result"]["holes_file"], serde_json::json!({ "name": "holes.csv", "is_there": false }));
    // What it says works.
    let run = shophead_with(&survey["shophead ".len()..], |command| command.write_stdin("4.1\nq\n"));
    assert_eq!(run.status, Some(0), "{run}");
    let json = answer(&format!("plan {} --format json", path.display())).1;
    assert_eq!(
        (&json["result"]["counts"]["measured"], &json["result"]["holes_file"]["is_there"]),
        (&1.into(), &true.into())
    );
}
