//! Repairs from damage to points and order, and every worked example of the circular and of the lap joints through the command.

use std::path::Path;

use serde_json::Value;

use crate::depth::codes;
use crate::{Run, shophead, shophead_with};

/// Within the digits of a print.
#[track_caller]
fn near(value: &Value, wanted: f64, within: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

fn sized(typed: &str, status: i32) -> Value {
    shophead(&format!("repair {typed} --format json")).json(status)["result"].clone()
}

/// Runs in a folder; `_` in a word stands for a blank.
fn within(folder: &Path, typed: &str) -> Run {
    shophead_with(typed, |command| command.current_dir(folder))
}

/// AC 43.13-1B para 4-58g(2): 3 x .032 takes 1/8, 4.9 x 75 % an inch, 37 on 10 in, two equal rows of 19. So long a tear is a major repair.
#[test]
fn the_lap_of_para_4_58g() {
    let patch = &sized("patch --sheet clad_2024-T3:.032 --opening 2x10 --pattern in-line --by example", 1)["patch"];
    assert_eq!(patch["rivet"], "MS20470AD4-4");
    let table = &patch["rate"]["also_named_by"];
    assert_eq!((&table["table"], &table["printed"], &table["percent"]), (&"4-10".into(), &4.9.into(), &75.into()));
    let across = &patch["across"];
    let counted = |side: &Value| ["needed", "rows", "per_row", "counted"].map(|field| side[field].as_u64());
    assert_eq!(counted(across), [37, 2, 19, 38].map(Some));
    near(&patch["least_pitch"]["in"], 0.5, 0.0);
}

/// AC 43.13-1B figure 4-20: 3, 8 and 3 rivets each side of the cut.
#[test]
fn the_frame_of_figure_4_20() {
    for shape in ["channel", "zee"] {
        let typed = format!("splice frame --shape {shape} --material 2017 --leg .6x.040 --leg 2x.040 --leg .6x.040");
        let splice = &sized(&typed, 0)["splice"];
        let needed: Vec<u64> =
            splice["legs"].as_array().unwrap().iter().map(|leg| leg["needed"].as_u64().unwrap()).collect();
        assert_eq!(needed, [3, 8, 3], "{shape}");
        for leg in splice["legs"].as_array().unwrap() {
            assert_eq!(leg["rate"]["table"]["printed"], 6.2);
        }
    }
}

/// AC 43.13-1B figure 4-18: 5 rivets in the upper leg, 4 AN-3 bolts in the bulb leg; on the lower wing end rivets as the skin's.
#[test]
fn the_stringer_of_figure_4_18() {
    let legs = "--shape bulb-angle --material 2017 --leg .5x1/16 --leg 1x1/16,bolts";
    let answer = sized(&format!("splice stringer {legs}"), 0);
    let [upper, bulb] = [0, 1].map(|leg| answer["splice"]["legs"][leg].clone());
    near(&upper["diameter"]["in"], 0.125, 0.0);
    assert_eq!((&upper["rate"]["table"]["printed"], &upper["needed"]), (&9.9.into(), &5.into()));
    assert_eq!((&bulb["bolts"]["printed"], &bulb["needed"]), (&3.3.into(), &4.into()));
    assert_eq!(answer["order"]["others"][0]["count"], 8, "both sides of the cut");
    let lower = sized(&format!("splice lower-stringer {legs} --skin-rivet 3/32"), 0);
    near(&lower["splice"]["legs"][0]["end_rivet"]["in"], 0.09375, 0.0);
    // A bar narrower than its leg is thickened until it has the area.
    for (plate, short) in [(".071", true), (".078", true), (".080", false)] {
        let typed = format!(
            "repair splice stringer --shape bulb-angle --material 2017 --leg .5x1/16,plate=.4x{plate} --leg 1x1/16,bolts"
        );
        let run = shophead(&format!("{typed} --format json"));
        let value: Value = serde_json::from_str(&run.stdout).unwrap();
        assert_eq!(codes(&value).contains(&"splice-area-short"), short, "{plate}");
    }
}

/// AC 43.13-1B para 4-55c, 4-56b and 4-57a(3).
#[test]
fn the_bends_and_the_part_number() {
    for (angle, setback) in [("45", 0.130), ("135", 0.758)] {
        let bend = &sized(&format!("bend --material 2024-T3 --thickness .064 --radius .25 --angle {angle}"), 0)["bend"];
        near(&bend["setback"]["in"], setback, 0.0005);
    }
    let bend = &sized("bend --material 2024-T6 --thickness .016", 0)["bend"];
    near(&bend["radius_least"]["in"], 0.032, 0.0);
    near(&bend["radius_most"]["in"], 0.064, 0.0);
    let tight = shophead("repair bend --material 2024-T6 --thickness .016 --radius .03");
    assert!(tight.printed(1).contains("REFER    Bend of .030 is too tight, needs .032."), "{tight}");
    let part = shophead("part MS20470AD3-5");
    assert_eq!(part.printed(0).lines().next(), Some("MS20470AD3-5   3/32 diameter, 5/16 long"));
}

/// The lap joints of a course: one rivet, then three, then one.
#[test]
fn the_lap_joints_of_the_course() {
    let joint = "rows --rivet MS20470AD5 --sheets .025,.025 --counts 1-3-1 --across 1-3/8 --row-spacing 1 --edge 1 --hole 5/32 \
                 --ftu 70ksi --fbru 124ksi --fsu 41ksi --rivet-fsu 30ksi --load 1640 --ultimate-load";
    // 3 rivets on 1-3/8 in stand closer than the handbook's least.
    let strip = &sized(joint, 1)["rows"]["strip"];
    near(&strip["shear_efficiency"], 1.20, 0.005);
    near(&strip["bearing_efficiency"], 1.01, 0.005);
    near(&strip["tear_out_efficiency"], 0.85, 0.005);
    let first = &strip["lines"][0];
    assert_eq!((&first["sheet"], &first["from_row"]), (&1.into(), &1.into()));
    near(&first["efficiency"], 0.89, 0.005);
    near(&strip["shear_stress"]["psi"], 17_106.0, 0.5);
    near(&strip["bearing_stress"]["psi"], 83_968.0, 0.5);
    near(&strip["all_rivets_in_shear"]["lbf"], 2_876.0, 0.5);
    near(&strip["all_rivets_in_bearing"]["lbf"], 2_422.0, 0.5);
    // The joint that was pulled apart: where it parted, and an eighth more than it carried.
    let pulled = "rows --rivet MS20470AD4 --sheets .025,.025 --counts 4-4 --across 2 --hole 1/8 --ftu 27ksi";
    let strip = &sized(pulled, 1)["rows"]["strip"];
    near(&strip["lines"][0]["load"]["lbf"], 1_012.5, 0.05);
    assert_eq!((&strip["lines"][0]["holes"], &strip["lines"][0]["from_row"]), (&4.into(), &1.into()));
    assert_eq!(strip["carries"], Value::Null, "nobody gave what the rivets carry");
    let text = shophead(&format!("repair {pulled}"));
    assert!(text.stdout.replace('\n', " ").contains("carried 13 % less than this counts"), "{text}");
}

/// What is found, asked again as anybody asks, has the margin that was wanted, and one step weaker has not.
#[test]
fn what_is_solved_holds_when_it_is_asked_again() {
    let sheets = "--sheets 2024-T3:.040,2024-T3:.063 --load 500 --ultimate-load --fitting-factor 1";
    let ask = |rivet: &str, pitch: f64| {
        let typed = format!("rows --rivet {rivet} {sheets} --pitch {pitch}");
        sized(&typed, 0)["rows"]["as_asked"]["margin"].as_f64().unwrap()
    };
    let solved = &sized(&format!("rows --rivet MS20470AD4 {sheets} --solve pitch --margin .1"), 0)["rows"]["solved"];
    let pitch = solved["found"]["pitch"]["in"].as_f64().unwrap();
    assert_eq!(pitch, 0.6875);
    assert!(ask("MS20470AD4", pitch) >= 0.1 && ask("MS20470AD4", pitch + 1.0 / 32.0) < 0.1);
    near(&solved["found"]["margin"], ask("MS20470AD4", pitch), 1e-9);
    assert_eq!((&solved["why"], &solved["beside"]["pitch"]["in"]), (&"margin".into(), &0.71875.into()));
    let text = shophead(&format!("repair rows --rivet MS20470AD4 {sheets} --solve pitch --margin .1"));
    assert!(text.printed(0).contains("Next weaker: pitch 23/32: margin +0.07, wanted +0.10.\n"), "{text}");
    let solved = &sized(&format!("rows --rivet MS20470AD4 {sheets} --solve diameter"), 0)["rows"]["solved"];
    assert_eq!((&solved["found"]["rivet"], &solved["beside"]["rivet"]), (&"MS20470AD3-4".into(), &"MS20470AD2".into()));
    for what in ["rows", "edge", "gauge:1", "gauge:2", "least-rivets", "best-share"] {
        let typed = format!("rows --rivet MS20470AD4 {sheets} --solve {what} --margin .1");
        let found = &sized(&typed, 0)["rows"]["solved"]["found"];
        assert!(found["margin"].as_f64().unwrap() >= 0.1 && found["refers"].is_null(), "{what}: {found}");
    }
    let nothing =
        shophead(&format!("repair rows --rivet MS20470AD4 {sheets} --solve rows --margin 1000 --format json")).json(1);
    assert_eq!(codes(&nothing), ["margin-short"]);
    assert_eq!(nothing["result"]["rows"]["solved"]["found"], Value::Null);
}

/// Rows are looked for at a pitch that every number of them may have, and what gives way is said where nothing holds.
#[test]
fn rows_are_looked_for_at_a_pitch_of_theirs() {
    let sheets = "--rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --solve rows";
    let found = &sized(&format!("rows {sheets} --load 700"), 0)["rows"]["solved"]["found"];
    assert_eq!((&found["rows"], &found["pitch"]["in"]), (&2.into(), &0.5.into()));
    let text = shophead(&format!("repair rows {sheets} --load 1200"));
    assert!(
        text.printed(1).replace('\n', " ").contains("wanted +0.00; the sheet fails between the holes, sheet 1."),
        "{text}"
    );
}

/// A sheet too thin to be countersunk is dimpled; a crack that stays has no opening and no filler.
#[test]
fn a_flush_patch_has_the_seats_that_its_sheets_take() {
    let value = shophead("repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2 --style flush --format json").json(1);
    assert!(!codes(&value).contains(&"countersink-too-deep"), "{:?}", codes(&value));
    let crack = "patch --sheet clad_2024-T3:.032 --crack 1-1/2 --style flush";
    let crack = sized(crack, 1);
    assert!(crack["patch"]["filler"].is_null());
    let told = crack["told"].as_array().unwrap();
    assert!(told.iter().all(|told| told["word"] != "turn-in"), "{told:?}");
}

/// How far the plate runs out, and how its rivet follows from the sheets.
#[test]
fn a_patch_tells_its_run_out_and_its_size() {
    let patch = &sized("patch --sheet clad_2024-T3:.050 --hole 2x1-1/2 --style doubler", 0)["patch"];
    for side in ["along", "across"] {
        let [plate, opening, out] = ["plate", "opening", "run_out"].map(|of| patch[of][side]["in"].as_f64().unwrap());
        assert!((plate - opening - 2.0 * out).abs() < 1e-6, "{side}: {plate} {opening} {out}");
    }
    let size = &patch["size"];
    near(&size["thickest"]["in"], 0.063, 0.0);
    near(&size["wanted"]["in"], 0.189, 1e-9);
    assert_eq!((&patch["rivet"], &size["smaller"]), (&"MS20470AD8-8".into(), &"MS20470AD6".into()));
    let named = &sized("patch --sheet clad_2024-T3:.050 --hole 2x1-1/2 --style doubler --rivet MS20470AD6", 0)["patch"];
    assert!(named["size"].is_null() && named["rivet"].as_str().unwrap().starts_with("MS20470AD6"));
}

#[test]
fn layers_and_tension() {
    let layers = "rows --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040,2024-T3:.063 --pitch 3/4 --rows 4 --load 500 --from 1 --to 3";
    let both = sized(layers, 0)["rows"]["layers"].clone();
    for shared in both.as_array().unwrap() {
        let gone: f64 =
            shared["rows"].as_array().unwrap().iter().map(|row| row["planes"][0]["lbf"].as_f64().unwrap()).sum();
        assert!((gone - 375.0).abs() < 1e-6, "all of the load on one pitch leaves the skin: {gone}");
    }
    assert!(shophead(&format!("repair {layers}")).printed(0).starts_with("MS20470AD4   4 rows: margin +"));
    let rivet = "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --pitch 3/4 --load 200 --tension 20";
    let untested = shophead(&format!("repair {rivet} --format json")).json(1);
    assert!(
        untested["result"]["rows"]["combined"]["margin"].is_null()
            && codes(&untested).contains(&"strength-not-published")
    );
    let tested = &sized(&format!("{rivet} --tension-tested 90"), 0)["rows"]["combined"];
    let [shear, tension, margin] = ["shear", "tension", "margin"].map(|field| tested[field].as_f64().unwrap());
    assert!((margin - (1.0 / shear.hypot(tension) - 1.0)).abs() < 1e-9);
}

#[test]
fn where_no_handbook_sizes_a_repair_nothing_is_sized() {
    for site in
        ["pressurised", "fatigue-critical", "spar-cap", "control", "main-fitting", "rib", "edge", "tube", "casting"]
    {
        for repair in [
            "patch --sheet clad_2024-T3:.032 --crack 1",
            "splice stringer --shape angle --material 2024-T3 --leg .6x.040 --leg .6x.040",
        ] {
            let value = shophead(&format!("repair {repair} --site skin,{site} --format json")).json(1);
            assert_eq!(codes(&value), ["no-published-method"], "{site}");
            let result = &value["result"];
            assert!(result["patch"].is_null() && result["splice"].is_null(), "{site}");
            assert_eq!(result["points"], Value::Array(Vec::new()), "{site}");
        }
    }
    let text = shophead("repair patch --sheet clad_2024-T3:.032 --crack 1 --site pressurised");
    assert!(text.printed(1).starts_with("Nothing is sized\n"), "{text}");
}

#[test]
fn what_is_mistyped_is_told_with_what_would_be_right() {
    let patch = "repair patch --sheet clad_2024-T3:.032";
    for (typed, told) in [
        (format!("{patch} --hole 2"), "--hole \"2\": this takes two lengths with an x between; right would be 2x1-1/2"),
        (format!("{patch} --hole 2x1 --site wing"), "--site \"wing\": no such site; right would be skin,"),
        (
            format!("{patch} --hole 2x1 --style stuck"),
            "--style \"stuck\": no such patch; right would be lap, doubler or flush",
        ),
        (
            format!("{patch} --crack 1 --runs up"),
            "--runs \"up\": a crack runs across or along the load; right would be across",
        ),
        (
            format!("{patch} --hole 2x1 --taper thin"),
            "--taper \"thin\": right would be plain, feathered:.016 or stepped:.020",
        ),
        (
            format!("{patch} --hole 2x1 --taper stepped:.032"),
            "--taper \"stepped:.032\": the plate is .032: it thins out to less",
        ),
        (format!("{patch} --hole 2x1 --crack 2"), "cannot be used with"),
        (patch.to_owned(), "required"),
        ("repair splice stringer --shape angle --material 2024-T3 --leg .6x.040".to_owned(), "legs"),
        (
            "repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --load 1 --solve luck".to_owned(),
            "--solve \"luck\": this is nothing to look for; right would be pitch, rows,",
        ),
        (
            "repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --across 2 --counts 1-x".to_owned(),
            "--counts \"1-x\": this takes a number of rivets for every row",
        ),
        (
            "repair bend --material 2024-T3 --thickness .064 --angle 190".to_owned(),
            "a bend is more than 0 and less than 180",
        ),
    ] {
        let run = shophead(&typed);
        assert!(run.refused().contains(told), "want {told}\n{run}");
    }
}

/// From the damage to the files, and the points into `group`.
#[test]
fn the_points_are_a_points_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let typed = "repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2 --spares 10 --out .";
    let run = within(folder.path(), typed);
    assert!(run.printed(0).contains("Written: points.csv, order.csv and repair.svg in .."), "{run}");
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).expect(name);
    let points = read("points.csv");
    let rivets = sized("patch --sheet clad_2024-T3:.032 --hole 2x1-1/2", 0)["patch"]["rivets"].as_u64().unwrap();
    assert_eq!(points.lines().count() as u64, rivets + 1);
    assert!(read("order.csv").contains(&format!("MS20470AD4-4,{rivets},")), "{}", read("order.csv"));
    let svg = read("repair.svg");
    assert_eq!(svg, within(folder.path(), "repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2 --format svg").stdout);
    assert!(svg.starts_with("<svg ") && svg.trim_end().ends_with("</svg>"), "{svg}");
    let group =
        "group points.csv --load 100,0 --at 0,0 --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.032 --format json";
    let value = within(folder.path(), group).json(0);
    assert_eq!(value["result"]["rivets"].as_array().unwrap().len() as u64, rivets);
    // In millimetres the same places.
    let millimetres =
        within(folder.path(), &format!("{typed} --units mm").replace(".032", ".032in").replace("2x1-1/2", "2inx1-1/2"));
    assert_eq!(millimetres.status, Some(0), "{millimetres}");
    let metric = within(folder.path(), group).json(0);
    for (one, other) in
        value["result"]["rivets"].as_array().unwrap().iter().zip(metric["result"]["rivets"].as_array().unwrap())
    {
        near(&one["x"]["mm"], other["x"]["mm"].as_f64().unwrap(), 1e-5);
    }
    // CSV on the output is the same list, and --output takes it.
    let csv =
        within(folder.path(), "repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2 --format csv --output out.csv");
    assert_eq!(csv.printed(0), "");
    let csv = std::fs::read_to_string(folder.path().join("out.csv")).unwrap();
    assert!(csv.starts_with("x_in,y_in,diameter_in,part,row,counts,severity,findings\n"), "{csv}");
    assert_eq!(csv.lines().count() as u64, rivets + 1);
}

const SEAMS: &str = "side,length,layers,rivet,pitch,edge,rows,row_spacing,staggered\n\
                     front,14,\"clad 2024-T3:.032,2024-T3:.050\",MS20470AD4,3/4,1/4,1,,\n\
                     rear,14,\"clad 2024-T3:.032,2024-T3:.050\",MS20470AD4,3/4,1/4,1,,\n\
                     rear,14,\"clad 2024-T3:.032,2024-T3:.050\",MS20470AD4,1/2,1/4,1,,\n\
                     left,10,\"clad 2024-T3:.032,2024-T3:.040\",MS20470AD4,3/4,1/4,2,1/2,yes\n";

/// A panel from member to member: the seams are copied, the stronger where two differ.
#[test]
fn a_panel_copies_its_seams() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("seams.csv"), SEAMS).unwrap();
    let value =
        within(folder.path(), "repair panel seams.csv --skin clad_2024-T3:.032 --size 14x10 --format json").json(0);
    let sides = &value["result"]["panel"]["sides"];
    let told: Vec<_> = sides
        .as_array()
        .unwrap()
        .iter()
        .map(|side| (side["side"].as_str().unwrap(), side["copied"].as_u64().unwrap()))
        .collect();
    assert_eq!(told, [("front", 1), ("rear", 2), ("left", 1)]);
    near(&sides[1]["pitch"]["in"], 0.5, 0.0);
    assert_eq!((&sides[1]["differ"], &sides[2]["rows"]), (&true.into(), &2.into()));
    assert!(codes(&value).contains(&"seams-differ"));
    assert_eq!(value["result"]["order"]["sheets"][0]["what"], "new skin");
    // The skin of an undamaged cap is the main job's joint; moved holes in it are for the type's data.
    let cap: String =
        SEAMS.lines().take(2).map(|line| line.replace("2024-T3:.050", "2024-T3:.250:cap") + "\n").collect();
    std::fs::write(folder.path().join("cap.csv"), cap).unwrap();
    assert_eq!(within(folder.path(), "repair panel cap.csv").status, Some(0));
    assert_eq!(within(folder.path(), "repair panel cap.csv --holes-changed").status, Some(1));
    let wrong = SEAMS.replace("MS20470AD4,1/2", "MS20470AD7,1/2");
    std::fs::write(folder.path().join("wrong.csv"), wrong).unwrap();
    let run = within(folder.path(), "repair panel wrong.csv");
    assert!(run.refused().contains("wrong.csv:4:"), "{run}");
}

#[test]
fn more_damage_never_takes_a_smaller_patch() {
    let mut last: Option<(f64, f64, u64)> = None;
    for size in ["1/4x1/4", "1/2x1/2", "1x1", "1x2", "2x2", "2x5", "3x5"] {
        let patch = &sized(&format!("patch --sheet clad_2024-T3:.032 --hole {size}"), 0)["patch"];
        let side = |name: &str| patch["plate"][name]["in"].as_f64().unwrap();
        let now = (side("along"), side("across"), patch["rivets"].as_u64().unwrap());
        if let Some(last) = last {
            assert!(now.0 >= last.0 && now.1 >= last.1 && now.2 >= last.2, "{size}: {now:?} after {last:?}");
        }
        last = Some(now);
    }
}

/// The demonstration: its files are what the commands in its README make, and every command there runs.
#[test]
fn the_demonstration_is_made_again_as_it_is() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../job/demo/hull-side");
    let read = |folder: &Path, name: &str| std::fs::read_to_string(folder.join(name)).expect(name);
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("seams.csv"), read(&demo, "seams.csv")).unwrap();
    let readme = read(&demo, "README.md");
    let commands: Vec<&str> = readme.split("```sh\n").skip(1).filter_map(|block| block.split("```").next()).collect();
    assert_eq!(commands.len(), 4);
    for command in commands {
        let typed = command.replace("\\\n", " ");
        // Blanks in quotes become marks, as the other tests write them.
        let typed: String = typed
            .split('\'')
            .enumerate()
            .map(|(index, part)| if index % 2 == 1 { part.replace(' ', "_") } else { part.to_owned() })
            .collect();
        let run = within(folder.path(), typed.trim().strip_prefix("shophead ").expect("a command"));
        assert!(matches!(run.status, Some(0)), "{run}");
        assert_eq!(run.stderr, "", "{run}");
    }
    for name in ["points.csv", "order.csv", "repair.svg"] {
        if std::env::var_os("SHOPHEAD_WRITE").is_some() {
            std::fs::write(demo.join(name), read(folder.path(), name)).unwrap();
        }
        assert_eq!(read(folder.path(), name), read(&demo, name), "{name}; SHOPHEAD_WRITE=1 writes it");
    }
}

/// Rows far apart leave the load to the outer ones: what the most loaded rivet takes is judged, not only told.
#[test]
fn a_row_of_a_patch_above_what_its_rivets_carry_is_referred() {
    let typed = "patch --sheet 2024-T3:.040 --opening 1x5 --rows 6 --by strength --format json --row-spacing";
    let close = shophead(&format!("repair {typed} .5")).json(0);
    assert!(!codes(&close).contains(&"row-over-ultimate"));
    let far = shophead(&format!("repair {typed} 4")).json(1);
    let found =
        far["findings"].as_array().unwrap().iter().find(|finding| finding["code"] == "row-over-ultimate").unwrap();
    let patch = &far["result"]["patch"];
    let number = |value: &Value| value.as_f64().unwrap();
    let shares = patch["shares"].as_array().unwrap().iter().flat_map(|by| by["plain"].as_array().unwrap());
    let most = shares.map(|row| number(&row["share"])).fold(0.0, f64::max);
    let takes = most * number(&patch["carries_per_inch"]["lbf"]) * number(&patch["pitch"]["in"]) / 1.5;
    near(&found["measured"]["lbf"], takes, 1e-6);
    assert!(number(&found["measured"]["lbf"]) > number(&found["limit"]["lbf"]));
}

/// What of the handbooks' rules is not used is listed with the reason.
#[test]
fn rules_that_are_not_used_are_listed_with_the_reason() {
    let sources = shophead("sources --format json").json(0);
    let listed = sources["result"]["sources"].as_array().unwrap();
    let unused: Vec<&Value> =
        listed.iter().filter(|source| source["group"] == "repair rules that are not used").collect();
    assert_eq!(unused.len(), 33);
    for source in unused {
        assert!(
            source["value"].as_str().unwrap().len() > 20 && source["what"].as_str().unwrap().contains(": "),
            "{source}"
        );
    }
}
