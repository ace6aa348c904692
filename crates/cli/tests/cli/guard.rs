//! Joints that an answer once let through, or judged by less than all that counts.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::depth::{codes, near, with_files};
use crate::{Run, shophead};

const LAP: &str = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040";

/// A run whose answer refers, with these codes.
#[track_caller]
fn refers(typed: &str, wanted: &[&str]) -> Value {
    let value = shophead(&format!("{typed} --format json")).json(1);
    for code in wanted {
        assert!(codes(&value).contains(code), "{code}: {:?}", codes(&value));
    }
    value
}

fn group(points: &str, typed: &str) -> Run {
    with_files(&[("p.csv", points)], &format!("group p.csv --load 0,-100 --at 2,1 {typed}"))
}

fn planned(installed: &str, rivet: &str, more: &str) -> (Run, String) {
    let job = format!(
        "title = \"t\"\n[[row]]\nname = \"R\"\nstructure = \"primary\"\nmember = \"other\"\ninstalled = \"{installed}\"\n\
         rivet = \"{rivet}\"\nlayers = [{{ role = \"skin\", material = \"2024-T3\", thickness = \".063\" }}, \
         {{ role = \"tab\", material = \"2024-T3\", thickness = \".063\" }}]\ncount = 20\n{more}"
    );
    let run = with_files(&[("job.toml", &job)], "plan job.toml --full");
    let told = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    (run, told)
}

#[test]
fn a_smaller_shank_in_a_larger_hole_is_referred() {
    for more in ["", "edge = \".5\"\npitch = \"1\"\n"] {
        let (run, told) = planned("MS20470AD6-6", "MS20470AD4", more);
        assert_eq!(run.status, Some(1), "{run}");
        assert!(told.contains("Shank .125 is smaller than the one it replaces, .1875"), "{run}");
        assert!(!told.contains("Nothing stops the work"), "{run}");
    }
    let (run, told) = planned("MS20470AD4-6", "MS20470AD4", "edge = \".5\"\npitch = \"1\"\n");
    assert_eq!(run.status, Some(0), "{run}");
    assert!(told.contains("as installed"), "{run}");
    // Without a published strength the same rivet in the same sheets is as strong as before.
    let (run, told) = planned("MS20470AD4-6", "MS20470AD4", "edge = \".5\"\n");
    assert!(told.contains("As strong as before: same rivet, same sheets."), "{run}");
}

#[test]
fn a_gauge_that_goes_in_thinner_is_compared_with_the_one_before() {
    let before = |thickness: &str| {
        format!(
            "edge = \".5\"\npitch = \"1\"\ninstalled-layers = [{{ role = \"skin\", material = \"2024-T3\", thickness = \"{thickness}\" }}, \
             {{ role = \"tab\", material = \"2024-T3\", thickness = \"{thickness}\" }}]\n"
        )
    };
    let (run, told) = planned("MS20470AD8-8", "MS20470AD8", &before(".125"));
    assert!(run.status == Some(1) && told.contains("Weaker than as installed"), "{run}");
    let (run, told) = planned("MS20470AD8-8", "MS20470AD8", &before(".050"));
    assert!(!told.contains("Weaker than as installed"), "{run}");
}

#[test]
fn a_hole_beyond_the_rivets_greatest_is_no_joint() {
    let value =
        refers(&format!("{LAP} --hole .25 --edge .25 --load 200"), &["hole-over-limit", "sheet-too-thin-for-table"]);
    assert_eq!(value["result"]["per_rivet"]["allowable"], Value::Null);
    assert_eq!(value["result"]["margin"], Value::Null);
}

/// Edge .25 from a hole of .134: e/D is 1.866, not 2, and bearing 104 + .7313 × 25 = 122.3 ksi on the published hole of .1285.
#[test]
fn an_edge_margin_counts_the_larger_of_hole_and_shank() {
    let value = shophead(&format!("{LAP} --hole .134 --edge .25 --format json")).json(0);
    let bearing = &value["result"]["per_rivet"]["bearing"][0];
    near(&bearing["edge_margin"], 0.25 / 0.134, 1e-9);
    near(&bearing["ultimate"]["lbf"], (104_000.0 + (0.25 / 0.134 - 1.5) / 0.5 * 25_000.0) * 0.1285 * 0.040, 1e-6);
}

/// AC 43.13-1B table 4-9 has a dash there.
#[test]
fn a_dash_in_a_splice_table_counts_nothing() {
    let value = refers("splice --sheet 2024-T3:.016 --rivet MS20470AD6 --width 10", &["no-splice-table"]);
    assert_eq!((&value["result"]["rivets_total"], &value["result"]["table"]), (&Value::Null, &Value::Null));
}

#[test]
fn splices_and_groups_are_held_to_every_check() {
    refers("splice --sheet 2024-T3:.032 --rivet MS20426AD4 --width 5", &["countersink-too-deep"]);
    let square = "x,y\n0,0\n1,0\n1,1\n0,1\n";
    let seat = group(square, "--rivet MS20426AD4 --sheets 2024-T3:.020:countersunk,2024-T3:.040 --format json").json(1);
    assert!(codes(&seat).contains(&"countersink-too-deep"));
    let lap = "--rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040";
    let short = group(square, &format!("{lap} --edge .2 --format json")).json(1);
    assert!(codes(&short).contains(&"edge-distance-short"));
    let close = group("x,y\n0,0\n.2,0\n", &format!("{lap} --edge .5 --format json")).json(1);
    assert!(codes(&close).contains(&"rivets-touch"));
    let overlap = group("x,y\n0,0\n.12,0\n", lap);
    assert!(overlap.refused().contains("rivets 1 and 2 are 0.120 apart"), "{overlap}");
    let stacked = group("x,y\n0,0\n0,0\n0,0\n", lap);
    assert!(stacked.refused().contains("on one point"), "{stacked}");
}

/// A doubler's shares sum to nothing: its end rivet takes 243 to 269 lbf, not an eighth of 800.
#[test]
fn a_doubler_is_judged_by_its_end_rivet() {
    let typed = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.080 --strip-load 800 --rows 8 --pitch .75 --transfer doubler \
                 --ultimate-load --edge .25 --format json";
    let value = shophead(typed).json(0);
    let margin = &value["result"]["margin"];
    let most = &value["result"]["row"]["sharing"]["shares"][0]["greatest"];
    near(&margin["load"]["lbf"], most.as_f64().unwrap() * 800.0, 1e-6);
    near(&margin["value"], 0.25, 0.01);
    let told = shophead(&typed.replace(" --format json", ""));
    assert!(told.stdout.contains("margin +0.25 on its end rivet"), "{told}");
}

#[test]
fn a_joint_that_yields_under_its_limit_load_is_referred() {
    let typed = "joint --rivet MS20470AD4 --sheets 6061-T4:.040,6061-T4:.063 --edge .25 --load 185";
    let value = refers(typed, &["yields-at-limit"]);
    near(&value["result"]["yield"]["margin"]["value"], -0.37, 0.005);
    let told = shophead(typed);
    assert!(told.stdout.contains("yields under limit load"), "{told}");
    let square = "x,y\n0,0\n1,0\n1,1\n0,1\n";
    let lap = "--rivet MS20470AD4 --sheets 6061-T4:.040,6061-T4:.063 --edge .25";
    let value =
        with_files(&[("p.csv", square)], &format!("group p.csv --load 0,-740 --at .5,.5 {lap} --format json")).json(1);
    assert!(codes(&value).contains(&"yields-at-limit"));
    near(&value["result"]["yield_margin"]["value"], -0.37, 0.005);
}

#[test]
fn a_row_over_its_ultimate_at_limit_load_is_referred() {
    let typed = "joint --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.080 --strip-load 1792 --rows 8 --pitch 1 --transverse-pitch .75 \
                 --edge .25";
    let value = refers(typed, &["row-over-ultimate"]);
    near(&value["result"]["row"]["peak"]["load"]["lbf"], 454.0, 1.0);
    let told = shophead(typed).stdout;
    let answer = told.lines().take(2).collect::<Vec<_>>().join(" ");
    assert!(answer.contains("row 1 takes") && answer.contains("454 lbf"), "{told}");
}

#[test]
fn rows_that_touch_are_no_joint() {
    let value = refers(
        &format!("{LAP} --rows 3 --pitch .5 --transverse-pitch .13"),
        &["rivets-touch", "transverse-pitch-short"],
    );
    assert_eq!(value["result"]["per_rivet"]["allowable"], Value::Null);
}

#[test]
fn a_seat_under_a_plain_sheet_is_no_joint() {
    let typed = "joint --rivet MS20426AD4 --sheets 2024-T3:.040,2024-T3:.063:countersunk --edge .3125";
    let value = refers(typed, &["seat-in-wrong-layer"]);
    assert_eq!(value["result"]["per_rivet"]["allowable"], Value::Null);
}

#[test]
fn no_sentence_says_where_the_truth_lies_between_formulas() {
    let told = shophead(&format!("{LAP} --rows 3 --pitch .75 --edge .25")).stdout;
    assert!(!told.contains("between the soft one and the stiff one"), "{told}");
    for formula in ["stp-927-riveted", "stp-486", "thickness-squared", "exponential"] {
        assert!(told.contains(formula), "{formula}: {told}");
    }
}

/// 7075-T6 .040 with 1/8 rivets: table 4-9, made for 70 ksi, asks for 77, the strengths for 81.
#[test]
fn the_greater_count_is_laid_out_and_what_it_develops_is_said() {
    let value = shophead("splice --sheet 7075-T6:.040 --rivet AD4 --width 10 --format json").json(0);
    let result = &value["result"];
    let count = |of: &Value| of["rivets_total"].as_u64().unwrap();
    assert_eq!((count(&result["table"]), count(&result["strength"]), count(result)), (77, 81, 81));
    let told = shophead("splice --sheet 2024-T3:.040 --rivet AD4 --width 10").stdout;
    assert!(
        told.contains("develops 66.5 %") && told.contains("6 of 13, 78 in all") && told.contains("develops 83.2 %"),
        "{told}"
    );
    let value = shophead("splice --sheet clad_2024-T3:.032 --rivet AD4 --width 10 --member lap --format json").json(0);
    let example = &value["result"]["example"];
    assert_eq!(["rows", "per_row"].map(|field| example[field].as_u64()), [Some(2), Some(19)]);
    assert_eq!(count(&value["result"]["also_named_by"]), 37);
}

#[test]
fn sections_and_bolts_find_their_tables() {
    for (sheet, rivet, table) in [
        ("2024-T4:.064", "AD5", "4-9"),
        ("2014-T6:.064", "AD5", "4-9"),
        ("2017-T4:.064", "AD5", "4-10"),
        ("2024-T3:.064", "AN3", "4-9"),
        ("2017:.064", "AN-3", "4-10"),
    ] {
        let value = shophead(&format!("splice --sheet {sheet} --rivet {rivet} --width 10 --format json")).json(0);
        let place = value["result"]["table"]["place"].as_str().unwrap().to_owned();
        assert!(place.contains(table), "{sheet} {rivet}: {place}");
    }
}

/// 4.5 is millimetres with --units mm: e/D 1.417, not 36.
#[test]
fn a_bare_number_is_of_the_units_that_were_asked_for() {
    let value = refers(
        "joint --units mm --rivet MS20470AD4 --sheets 2024-T3:1,2024-T3:1 --edge 4.5 --load 200",
        &["edge-margin-below-table"],
    );
    near(&value["result"]["edge"]["mm"], 4.5, 1e-9);
}

#[test]
fn a_flush_joint_nearer_to_the_edge_than_its_tests_is_an_indication() {
    let typed = "joint --rivet MS20426AD4 --sheets 2024-T3:.063:countersunk,2024-T3:.063 --edge";
    let value = refers(&format!("{typed} .19"), &["edge-margin-below-table"]);
    assert_eq!(value["result"]["per_rivet"]["allowable"], Value::Null);
    let indication = value["result"]["per_rivet"]["indication"]["lbf"].as_f64().unwrap();
    let full = shophead(&format!("{typed} .3125 --format json")).json(0);
    assert!(indication < full["result"]["per_rivet"]["allowable"]["lbf"].as_f64().unwrap());
}

/// A fifth of the shear of the shank: it parts before a head comes through.
#[test]
fn a_pull_is_at_most_a_fifth_of_the_shear() {
    let value = shophead(&format!("{LAP} --edge .25 --format json")).json(0);
    let shear = 30_000.0 * std::f64::consts::FRAC_PI_4 * 0.1285 * 0.1285;
    let most = value["result"]["tension"]["most"]["lbf"].as_f64().unwrap();
    assert!(most <= 0.2 * shear && most > 0.19 * shear, "{most}");
}

#[test]
fn shims_unequal_sheets_and_sealant_are_said() {
    let shim = shophead(
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.125:shim,2024-T3:.040 --edge .25 --format json",
    )
    .json(0);
    assert!(codes(&shim).contains(&"shim-in-pack"));
    let unequal = "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.063,2024-T3:.125 --shear double --edge .25 --format json";
    assert!(codes(&shophead(unequal).json(0)).contains(&"unequal-sheets"));
    let wet = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,.005:sealant,2024-T3:.040 --edge .25 --format json";
    let value = shophead(wet).json(0);
    assert!(codes(&value).contains(&"wet-bearing"));
    let sheet = &value["result"]["sheets"][0];
    assert_eq!(["form", "guarantee"].map(|field| sheet[field].as_str()), [Some("sheet"), Some("A")]);
    assert_eq!((&sheet["clad"], &sheet["dry_pin"]), (&false.into(), &true.into()));
    for (temper, ksi) in [("T3", 38.0), ("T31", 34.0)] {
        let typed = format!(
            "joint --rivet MS20470D4 --sheets 2024-T3:.063,2024-T3:.063 --edge .25 --driven {temper} --format json"
        );
        let run = shophead(&typed);
        let value: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{run}"));
        near(&value["result"]["driven"]["fsu"]["psi"], ksi * 1_000.0, 1e-9);
    }
}

#[test]
fn a_batch_has_the_margins_of_the_row_and_at_yield() {
    let rows = "rivet,sheets,edge,pitch,rows,strip_load\nMS20470AD4,\"2024-T3:.040,2024-T3:.040\",.25,.75,4,800\n\
                MS20470AD4,\"6061-T4:.040,6061-T4:.063\",.25,,,\n";
    let run = with_files(&[("rows.csv", rows)], "batch joint rows.csv");
    let mut lines = run.stdout.lines().map(|line| line.split(',').map(str::to_owned).collect::<Vec<_>>());
    let header = lines.next().expect("a header");
    assert!(["row_margin", "yield_margin"].iter().all(|column| header.iter().any(|known| known == column)), "{run}");
    let mut reader = csv::Reader::from_reader(run.stdout.as_bytes());
    let names = reader.headers().unwrap().clone();
    let first = reader.records().next().unwrap().unwrap();
    let cell = |name: &str| first.get(names.iter().position(|known| known == name).unwrap()).unwrap().to_owned();
    let single = shophead(&format!("{LAP} --edge .25 --pitch .75 --rows 4 --strip-load 800 --format json"));
    let value: Value = serde_json::from_str(&single.stdout).unwrap();
    near(&value["result"]["row"]["margin"]["value"], cell("row_margin").parse().unwrap(), 1e-4);
    assert!(cell("yield_margin").parse::<f64>().is_ok(), "{run}");
}

#[test]
fn a_shank_that_cannot_enter_carries_nothing() {
    let value = refers(&format!("{LAP} --edge .25 --hole .10"), &["shank-does-not-enter"]);
    assert_eq!(value["result"]["per_rivet"]["allowable"], Value::Null);
}

/// The load on rivet 2 points down and a little to the side: the edge below counts, the one beside it hardly.
#[test]
fn a_group_counts_the_edge_in_the_direction_of_each_load() {
    let typed =
        "group p.csv --load 0,-100 --at .5,0 --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.063 --format json";
    let points = "x,y,hole,edge,left,below\n0,0,.130,1,.25,\n1,0,,1,,.20\n";
    let value = with_files(&[("p.csv", points)], typed).json(1);
    let rivet = |index: usize| value["result"]["rivets"][index].clone();
    near(&rivet(0)["edge_in_load"]["in"], 1.0, 1e-9);
    near(&rivet(1)["edge_in_load"]["in"], 0.20, 1e-9);
    assert!(rivet(1)["allowable"]["lbf"].as_f64() <= rivet(0)["allowable"]["lbf"].as_f64());
    near(&value["result"]["strengths"][0]["hole"]["in"], 0.130, 1e-9);
    near(&value["result"]["closest"]["distance"]["in"], 1.0, 1e-9);
    // A moment alone turns it about its middle.
    let typed = "group p.csv --load 0,0 --at 0,0 --moment 100 --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.063 --edge .5 --format json";
    let value = with_files(&[("p.csv", "x,y\n0,0\n2,0\n")], typed).json(0);
    near(&value["result"]["rivets"][0]["fy"]["lbf"], -50.0, 1e-9);
    near(&value["result"]["load"]["moment"]["in_lbf"], 100.0, 1e-9);
    let metric =
        with_files(&[("p.csv", "x,y\n0,0\n2,0\n")], &typed.replace("--moment 100", "--moment 11.2984829Nm")).json(0);
    near(&metric["result"]["rivets"][0]["fy"]["lbf"], -50.0, 1e-5);
}

/// Skin, doubler and cap: what the rows share plane by plane is what `repair rows` has of the same pack, and the rivet that carries most is judged.
#[test]
fn rows_through_a_pack_share_plane_by_plane() {
    let pack = "--rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040,2024-T3:.063";
    let run = shophead(&format!(
        "joint {pack} --edge .3 --pitch .75 --rows 4 --transverse-pitch .5 --strip-load 900 --format json"
    ));
    let joint = run.json(run.status.expect("a status"));
    let rows = shophead(&format!(
        "repair rows {pack} --edge .3 --pitch .75 --rows 4 --row-spacing .5 --load 900 --across .75 --from 1 --to 3 --format json"
    ));
    let rows = rows.json(rows.status.expect("a status"));
    // What is said of the rivet and of the shares is the same, whoever asks.
    let [of_joint, of_rows] = [&joint, &rows].map(|answer| codes(answer).into_iter().collect::<BTreeSet<_>>());
    assert_eq!(of_joint, of_rows, "{run}");
    assert!(of_rows.contains("elastic-shares-only") && of_rows.len() > 1, "{run}");
    let sharing = &joint["result"]["row"]["sharing"];
    let (ours, theirs) =
        (sharing["layers"].as_array().expect("a list"), rows["result"]["rows"]["layers"].as_array().expect("a list"));
    assert_eq!((ours.len(), theirs.len(), sharing["formulas"].as_array().map(Vec::len)), (4, 4, Some(0)), "{run}");
    let mut most = 0.0_f64;
    for (ours, theirs) in ours.iter().zip(theirs) {
        assert_eq!(ours["formula"], theirs["formula"]);
        let mut in_planes = [0.0; 2];
        for (row, wanted) in
            ours["rows"].as_array().expect("a list").iter().zip(theirs["rows"].as_array().expect("a list"))
        {
            for plane in 0..2 {
                let load = row["planes"][plane]["load"]["lbf"].as_f64().expect("a load");
                assert!((load - wanted["planes"][plane]["lbf"].as_f64().expect("a load")).abs() < 1e-9, "{run}");
                in_planes[plane] += load;
                most = most.max(load.abs());
            }
            for sheet in 0..3 {
                most = most.max(row["bearing"][sheet]["load"]["lbf"].as_f64().expect("a load").abs());
            }
        }
        // All of it goes through both planes.
        assert!(in_planes.iter().all(|all| (all - 900.0).abs() < 1e-6), "{in_planes:?}");
    }
    let peak = &joint["result"]["row"]["peak"]["load"]["lbf"];
    assert!((peak.as_f64().expect("a load") - most).abs() < 1e-9, "{peak} {most}");
    // Over what a rivet carries at limit load: referred, and said in the answer.
    refers(
        &format!("joint {pack} --edge .3 --pitch .75 --rows 4 --transverse-pitch .5 --strip-load 1400"),
        &["row-over-ultimate"],
    );
    assert!(
        shophead(&format!("joint {pack} --edge .3 --pitch .75 --rows 4 --strip-load 900")).stdout.contains("plane 2")
    );
}

/// Two doublers on a skin: the load comes and goes by the skin, and what lies on it takes a part for a while.
#[test]
fn a_pack_of_doublers_is_judged_by_its_end_rivet() {
    let pack = "joint --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.040,2024-T3:.032 --edge .3 --pitch .75 --rows 6 --strip-load 600";
    let run = shophead(&format!("{pack} --transfer doubler --format json"));
    let joint = run.json(run.status.expect("a status"));
    let row = &joint["result"]["row"];
    for by in row["sharing"]["layers"].as_array().expect("a list") {
        let rows = by["rows"].as_array().expect("a list");
        for plane in 0..2 {
            let all: f64 = rows.iter().map(|row| row["planes"][plane]["load"]["lbf"].as_f64().expect("a load")).sum();
            assert!(all.abs() < 1e-6, "what goes over comes back: {all}");
        }
    }
    let (margin, load) = (&joint["result"]["margin"], row["peak"]["load"]["lbf"].as_f64().expect("a load"));
    assert!((margin["load"]["lbf"].as_f64().expect("a load") - load).abs() < 1e-9 && load > 600.0 / 6.0, "{run}");
    let two = shophead("joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --pitch .75 --rows 3 --from 1");
    assert_eq!(two.status, Some(2), "{two}");
    assert!(
        two.stderr.contains("--from and --to are for more than two sheets in single shear; leave them out"),
        "{two}"
    );
    let absent = shophead(&format!("{pack} --from 7"));
    assert!(
        absent.status == Some(2) && absent.stderr.contains("layers that carry load; they count from 1"),
        "{absent}"
    );
}
