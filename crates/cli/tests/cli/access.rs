//! Where a single hole has other room than its row, and where no single position does for all.

use std::fs;

use crate::shophead;

/// A row with a bracket behind its hole 7, and one that another position is needed for.
fn job(bracket: &str, frame: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let row = |name: &str, member: &str, clearance: &str| {
        format!(
            "[[row]]\nname = \"{name}\"\nstructure = \"primary\"\nmember = \"{member}\"\ninstalled = \"MS20470AD4-5\"\n\
             layers = [{{ role = \"skin\", material = \"clad 2024-T3\", thickness = \".040\" }}, \
             {{ role = \"cap\", material = \"2024-T3\", thickness = \".063\" }}]\n\
             count = 20\npitch = \"3/4\"\nedge = \"3/8\"\nclearance = {{ {clearance} }}\n"
        )
    };
    let text = format!(
        "title = \"Mixed\"\n[[position]]\nname = \"upright\"\n[[position]]\nname = \"rolled\"\n\
         [[position]]\nname = \"nose-up\"\n{}[[row.exception]]\nholes = [7]\nabout = \"a bracket\"\nclearance = {{ {bracket} }}\n{}",
        row("K1", "spar-cap", "upright = \"open\", rolled = \"3/8\", nose-up = \"closed\""),
        row("F3", "frame", frame),
    );
    fs::write(folder.path().join("job.toml"), text).expect("written");
    folder
}

fn plan(folder: &tempfile::TempDir, more: &str) -> crate::Run {
    shophead(&format!("plan {} {more}", folder.path().join("job.toml").display()))
}

#[test]
fn positions_are_taken_in_turn_where_no_single_one_does_for_all() {
    let folder = job("upright = \"3/8\", rolled = \"1\"", "upright = \"closed\", rolled = \"1\", nose-up = \"open\"");
    let told = plan(&folder, "");
    let text = told.printed(0).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains("No single position works for every row. First rolled: K1 7, F3; then upright: K1 except 7."),
        "{told}"
    );
    let told = plan(&folder, "--only work");
    assert!(told.printed(0).contains("Then in upright: K1 except 7."), "{told}");

    let json = plan(&folder, "--format json").json(0);
    let positions = json["result"]["positions"].as_array().expect("positions").clone();
    let length = |value: &serde_json::Value| value["in"].as_f64().expect("a length");
    let turns = json["result"]["in_turn"].as_array().expect("turns");
    assert_eq!(turns.len(), 2);
    // Everything is bucked once, and where it is it can be.
    let mut bucked = Vec::new();
    for turn in turns {
        let position = positions.iter().find(|position| position["name"] == turn["position"]).expect("a position");
        for there in turn["rows"].as_array().expect("rows") {
            let row = there["row"].as_str().expect("a row");
            let alone = !there["holes"].as_array().expect("holes").is_empty();
            let list = &position[if alone { "holes" } else { "rows" }];
            let seen = list.as_array().expect("a list").iter().find(|seen| seen["row"] == row).expect("the row");
            assert_eq!(seen["reachable"], true, "{turn}");
            bucked.push((row.to_owned(), alone));
        }
    }
    bucked.sort();
    assert_eq!(bucked, [("F3".to_owned(), false), ("K1".to_owned(), false), ("K1".to_owned(), true)]);
    // Bar and tail fill the room.
    let rolled = &positions[1]["holes"][0];
    let tail = length(&rolled["needed"]) - 0.5;
    assert!((length(&rolled["bar"]) + tail - length(&rolled["clearance"])).abs() < 1e-9, "{rolled}");
    assert_eq!((&positions[0]["serves"], &positions[2]["holes"][0]["bar"]), (&false.into(), &"closed".into()));
}

#[test]
fn a_hole_that_no_position_lets_one_buck_is_referred_and_not_ordered() {
    let folder = job("upright = \"3/8\"", "upright = \"open\", rolled = \"1\", nose-up = \"open\"");
    let told = plan(&folder, "--format json");
    let json = told.json(1);
    let of_hole = |code: &str| {
        let findings = json["findings"].as_array().expect("findings").iter();
        findings.filter(|found| found["code"] == code).map(|found| found["subject"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(of_hole("must-be-solid"), ["row K1 hole 7"]);
    assert_eq!(of_hole("no-position-serves"), ["job"]);
    assert_eq!(json["result"]["order"][0]["needed"], 39);
    // The others of the row are not held up by it.
    let told = plan(&folder, "");
    let text = told.printed(1).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("K1 hole 7: Only driven solid rivets may go here"), "{told}");
    assert!(text.contains("upright lacks least: K1 7: .345 more room."), "{told}");
}

#[test]
fn a_row_of_secondary_structure_that_cannot_be_bucked_needs_the_manual_for_a_blind_rivet() {
    let folder = job("upright = \"closed\"", "upright = \"closed\", rolled = \"closed\", nose-up = \"closed\"");
    let path = folder.path().join("job.toml");
    let text = fs::read_to_string(&path).expect("the job");
    let (before, frame) = text.split_once("name = \"F3\"").expect("the frame's row");
    fs::write(&path, format!("{before}name = \"F3\"{}", frame.replacen("primary", "secondary", 1))).expect("written");
    let told = plan(&folder, "--format json");
    let json = told.json(1);
    let findings = json["findings"].as_array().expect("findings").iter();
    let of_row: Vec<_> = findings.filter(|found| found["code"] == "blind-needs-approval").collect();
    assert_eq!(of_row.len(), 1, "{told}");
    assert_eq!((&of_row[0]["subject"], &of_row[0]["severity"]), (&"row F3".into(), &"refer".into()));
    // Nothing of it is ordered.
    assert!(!json["result"]["order"].to_string().contains("F3"), "{told}");
}

#[test]
fn the_bar_behind_a_hole_is_named() {
    let folder = job("upright = \"1\"", "upright = \"open\", rolled = \"1\", nose-up = \"open\"");
    let told = plan(&folder, "--only positions");
    assert!(told.printed(0).contains("K1 7: a bar up to .7805 thick goes in, 3 to 4 lb*."), "{told}");
    assert!(told.printed(0).contains("Work in upright: every row can be bucked there."), "{told}");
    let told = plan(&folder, "--row K1");
    assert!(told.printed(0).contains("K1 hole 7"), "{told}");
    let card = folder.path().join("card.html");
    let told = shophead(&format!("card {} -o {}", folder.path().join("job.toml").display(), card.display()));
    told.printed(0);
    let card = fs::read_to_string(card).expect("a card");
    assert!(card.contains("K1 7: a bar up to .7805 thick goes in, 3 to 4 lb*."), "{card}");
}

#[test]
fn room_in_an_exception_that_says_nothing_is_refused() {
    let folder = job("", "upright = \"open\", rolled = \"1\", nose-up = \"open\"");
    let told = plan(&folder, "");
    assert!(told.refused().contains("clearance says nothing"), "{told}");
    let folder = job("sideways = \"1\"", "upright = \"open\", rolled = \"1\", nose-up = \"open\"");
    let told = plan(&folder, "");
    assert!(told.refused().contains("the job has no position \"sideways\""), "{told}");
}
