//! What becomes of a hole, asked as a shop asks it: measured, opened as told, measured again.

use std::fs;

use serde_json::Value;

use crate::shophead;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

#[track_caller]
fn hole(typed: &str) -> Value {
    let run = shophead(&format!("hole {typed} --format json"));
    let value: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{error}\n{run}"));
    value["result"].clone()
}

/// Disposition, rivet and drill.
#[track_caller]
fn becomes(typed: &str) -> (String, Option<String>, Option<String>) {
    let result = hole(typed);
    let text = |name: &str| result[name].as_str().map(str::to_owned);
    (text("disposition").expect("one"), text("rivet"), text("drill"))
}

#[test]
fn a_hole_that_is_good_for_a_larger_rivet_is_not_drilled_again() {
    for (rivet, major, step, larger) in [
        ("MS20470AD4", ".1445", "oversize", "NAS1242AD4"),
        ("MS20470AD4", ".147", "oversize", "NAS1242AD4"),
        ("MS20470AD4", ".1475", "oversize", "NAS1242AD4"),
        ("MS20470AD5", ".1775", "oversize", "NAS1242AD5"),
        ("MS20470AD5", ".1785", "oversize", "NAS1242AD5"),
        ("MS20470AD3", ".130", "next-size", "MS20470AD4"),
        ("NAS1242AD5", ".1775", "keep", "NAS1242AD5"),
        ("MS20470AD6", ".1915", "keep", "MS20470AD6"),
        ("MS20470AD6", ".194", "keep", "MS20470AD6"),
    ] {
        for practice in ["handbook", "process"] {
            let typed = format!("--rivet {rivet} --major {major} --minor {major} --practice {practice}");
            assert_eq!(becomes(&typed), (step.to_owned(), Some(larger.to_owned()), None), "{typed}");
        }
    }
    let run = shophead("hole --rivet MS20470AD5 --major .1775 --minor .1775");
    assert!(run.stdout.starts_with("Oversize rivet, hole as it is   NAS1242AD5\n"), "{run}");
}

#[test]
fn a_hole_above_its_drill_and_within_the_table_is_kept_in_every_size() {
    for (rivet, major) in [
        ("MS20470AD3", ".102"),
        ("MS20470AD4", ".134"),
        ("MS20470AD5", ".170"),
        ("MS20470AD6", ".201"),
        ("MS20470AD8", ".260"),
        ("MS20470AD10", ".325"),
        ("MS20470AD12", ".388"),
        ("MS20426AD8", ".260"),
    ] {
        let typed = format!("--rivet {rivet} --major {major} --minor {major}");
        assert_eq!(becomes(&typed), ("keep".to_owned(), Some(rivet.to_owned()), None), "{typed}");
        let run = shophead(&format!("hole {typed}"));
        assert!(run.stdout.contains("MIL-R-47196A(MI)"), "the caution names the document\n{run}");
    }
}

#[test]
fn a_hole_that_was_measured_one_way_is_drilled_round_where_the_drill_does() {
    let (step, _, drill) = becomes("--rivet MS20470AD5 --major .176");
    assert_eq!((step.as_str(), drill.as_deref()), ("oversize", Some("#16")));
    let (step, _, drill) = becomes("--rivet MS20470AD5 --major .1775");
    assert_eq!((step.as_str(), drill), ("oversize", None));
    let run = shophead("hole --rivet MS20470AD5 --major .1775 --layers 2024-T3:.063,2024-T3:.063 --edge .5 --pitch 1");
    assert!(run.stdout.contains("minor axis"), "{run}");
}

#[test]
fn an_elongation_counts_towards_the_edge_unless_it_lies_along_it() {
    let at = |direction: &str| {
        let typed =
            "--rivet MS20470AD5 --layers 2024-T3:.063,2024-T3:.063 --major .180 --minor .160 --edge .38 --pitch 1";
        becomes(&format!("{typed}{direction}")).0
    };
    assert_eq!(at(" --direction along"), "next-size");
    assert_eq!(at(" --direction across"), "refer");
    assert_eq!(at(""), "refer", "unknown counts");
}

/// A hole that somebody opened is no longer as the maker built it: its short edge is not copied.
#[test]
fn an_opened_hole_is_not_as_the_maker_built_it() {
    let typed = "--rivet MS20470AD4 --installed MS20470AD4 --layers 2024-T3:.063,2024-T3:.063 --major .130 --minor .130 \
                 --edge .22 --pitch 1";
    assert_eq!(becomes(typed).0, "keep");
    for opened in ["#30", ".1285", "9/64"] {
        assert_eq!(becomes(&format!("{typed} --opened {opened}")).0, "refer", "{opened}");
    }
    let run = shophead(&format!("hole {typed} --opened #30 --format json"));
    assert_eq!(run.json(1)["result"]["opened"]["in"], 0.1285);
    let text = shophead(&format!("hole {typed} --opened #30"));
    assert!(text.stdout.contains(".1285 before it was measured"), "{text}");
    let refused = shophead(&format!("hole {typed} --opened #99"));
    assert!(refused.stderr.contains("--opened \"#99\""), "{refused}");
    // A batch has the job's column.
    let rows = "rivet,installed,layers,major,minor,edge,pitch,opened\n\
                MS20470AD4,MS20470AD4,\"2024-T3:.063,2024-T3:.063\",.130,.130,.22,1,\n\
                MS20470AD4,MS20470AD4,\"2024-T3:.063,2024-T3:.063\",.130,.130,.22,1,#30\n";
    let run = crate::shophead_with("batch hole", |command| command.write_stdin(rows));
    let found: Vec<&str> =
        run.stdout.lines().skip(1).map(|line| if line.contains(",keep,") { "keep" } else { "refer" }).collect();
    assert_eq!(found, ["keep", "refer"], "{run}");
}

/// The demo's row A1 with other holes: number, disposition, drill and part of each, and how many its pattern steps up.
#[track_caller]
fn planned(holes: &str, pitch: &str) -> Vec<(u64, String, Option<String>, Option<String>)> {
    let folder = tempfile::tempdir().expect("a folder");
    for file in ["job.toml", "shop-limits.toml", "stock.csv", "trim.csv", "driven.csv"] {
        fs::copy(format!("{DEMO}/{file}"), folder.path().join(file)).expect("copied");
    }
    let job = folder.path().join("job.toml");
    let text = fs::read_to_string(&job).expect("read");
    let (before, row) = text.split_once("name = \"A1\"").expect("the row");
    let row = row.replacen("pitch = \"7/8\"", &format!("pitch = \"{pitch}\""), 1);
    fs::write(&job, format!("{before}name = \"A1\"{row}")).expect("written");
    let header = "row,hole,major,minor,condition,direction,opened\n";
    fs::write(folder.path().join("holes.csv"), format!("{header}{holes}\n")).expect("written");
    let run = shophead(&format!("plan {} --format json", job.display()));
    let value: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{error}\n{run}"));
    let rows = value["result"]["rows"].as_array().expect("rows");
    let row = rows.iter().find(|row| row["row"] == "A1" || row["name"] == "A1").expect("A1");
    let text = |value: &Value| value.as_str().map(str::to_owned);
    let holes = row["holes"].as_array().expect("holes").iter();
    holes
        .map(|hole| {
            let number = hole["hole_number"].as_u64().expect("a number");
            (number, text(&hole["disposition"]).expect("one"), text(&hole["drill"]), text(&hole["part"]))
        })
        .collect()
}

#[test]
fn a_hole_that_was_opened_as_told_and_measured_again_is_opened_no_more() {
    let told = planned("A1,5,.173,.159,sound,,", "7/8");
    let [(5, step, Some(drill), Some(part))] = told.as_slice() else { panic!("{told:?}") };
    assert_eq!((step.as_str(), drill.as_str()), ("oversize", "#16"));
    // The earlier line stays, the last one counts.
    let again = planned("A1,5,.173,.159,sound,,\nA1,5,.1775,.177,sound,,#16", "7/8");
    assert_eq!(again, [(5, "oversize".to_owned(), None, Some(part.clone()))]);
    // Opened holes count among the neighbours: of three the pattern takes two.
    let opened = |number: u32| format!("A1,{number},.1775,.177,sound,,#16");
    let three: Vec<String> = [5, 6, 7].map(opened).into();
    let three = planned(&three.join("\n"), "7/8");
    assert_eq!(three.iter().filter(|(_, step, ..)| step == "refer").count(), 1, "{three:?}");
}

#[test]
fn the_centre_shifts_of_neighbours_add_up() {
    // Four diameters of 5/32 are .625: one shift of .005 leaves .6275, two leave .6225.
    let gouged = |number: u32| format!("A1,{number},.160,.150,gouged,,");
    let step = |planned: &[(u64, String, Option<String>, Option<String>)]| -> Vec<String> {
        planned.iter().map(|(_, step, ..)| step.clone()).collect()
    };
    assert_eq!(step(&planned(&gouged(5), ".6325")), ["clean-up"]);
    assert_eq!(step(&planned(&format!("{}\n{}", gouged(5), gouged(7)), ".6325")), ["clean-up", "clean-up"]);
    let side_by_side = step(&planned(&format!("{}\n{}", gouged(5), gouged(6)), ".6325"));
    assert!(side_by_side.iter().all(|step| step == "refer"), "{side_by_side:?}");
}
