//! Joints in depth: groups, rows that share a load, drawings, and rows of a plan before and after.

use serde_json::Value;

use crate::{Run, shophead_with};

/// Runs in a scratch folder with these files in it; `_` in a word stands for a blank.
pub(crate) fn with_files(files: &[(&str, &str)], typed: &str) -> Run {
    let folder = tempfile::tempdir().expect("a scratch folder");
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).expect("a file");
    }
    shophead_with(typed, |command| command.current_dir(folder.path()))
}

pub(crate) fn codes(value: &Value) -> Vec<&str> {
    value["findings"].as_array().unwrap().iter().map(|finding| finding["code"].as_str().unwrap()).collect()
}

/// Within the digits of a print.
#[track_caller]
pub(crate) fn near(value: &Value, wanted: f64, within: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

const SHEETS: &str = "--rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.125";

/// Handbook of Civil Engineering Calculations, 2nd ed., p 1.84: two columns of three, 15 kip 6 in from their middle; the printed
/// 5680 lb is rounded to 10 lb.
#[test]
fn a_published_group_comes_out_as_printed() {
    let points = "x,y\n-3,4\n-3,0\n-3,-4\n3,4\n3,0\n3,-4\n";
    let run = with_files(&[("p.csv", points)], &format!("group p.csv --load 0,-15000 --at 6,0 {SHEETS} --format json"));
    let value = run.json(1);
    let result = &value["result"];
    near(&result["centroid"]["x"]["in"], 0.0, 1e-9);
    near(&result["moment"]["in_lbf"], -90_000.0, 1e-6);
    let corner = &result["rivets"][3];
    near(&corner["load"]["lbf"], 5_680.0, 5.0);
    near(&corner["direct"]["fy"]["lbf"], -2_500.0, 1e-6);
    assert_eq!((&result["worst"]["rivet"], &result["most_loaded"]), (&4.into(), &4.into()));
    // Forces balance the load.
    let sum = |key: &str| -> f64 {
        result["rivets"].as_array().unwrap().iter().map(|rivet| rivet[key]["lbf"].as_f64().unwrap()).sum()
    };
    assert!(sum("fx").abs() < 1e-6 && (sum("fy") + 15_000.0).abs() < 1e-6);
    // 388 / (5677 × 1.5 × 1.15) - 1.
    near(&result["margin"]["value"], 388.0 / (5_677.5 * 1.5 * 1.15) - 1.0, 1e-4);
    assert!(codes(&value).contains(&"margin-negative"));
}

/// Machine design textbook, example 9.14: seven rivets, 50 kN beside them; centroid 114.3 mm and 30 033 N on the third, rounded on the way
/// by 0.2 %.
#[test]
fn a_published_group_in_millimetres_comes_out_as_printed() {
    let points = "x,y\n0mm,200mm\n100mm,200mm\n200mm,200mm\n200mm,100mm\n200mm,0mm\n0mm,0mm\n0mm,100mm\n";
    let typed = format!("group p.csv --load 0,-50000N --at 500mm,0 {SHEETS} --format json");
    let result = with_files(&[("p.csv", points)], &typed).json(1)["result"].clone();
    near(&result["centroid"]["y"]["mm"], 114.3, 0.05);
    near(&result["rivets"][2]["load"]["n"], 30_033.0, 0.002 * 30_033.0);
    near(&result["rivets"][3]["load"]["n"], 25_684.0, 0.002 * 25_684.0);
}

#[test]
fn mixed_diameters_share_by_area() {
    let points = "y,x,diameter\n0,0,1/8\n0,2,1/4\n";
    let typed = format!("group p.csv --load 100,0 --at 0,0 {SHEETS} --format json");
    let result = with_files(&[("p.csv", points)], &typed).json(0)["result"].clone();
    near(&result["rivets"][0]["load"]["lbf"], 20.0, 1e-9);
    near(&result["rivets"][1]["load"]["lbf"], 80.0, 1e-9);
    near(&result["centroid"]["x"]["in"], 1.6, 1e-6);
    let names: Vec<&str> =
        result["strengths"].as_array().unwrap().iter().map(|size| size["rivet"].as_str().unwrap()).collect();
    assert_eq!(names, ["MS20470AD4", "MS20470AD8"]);
    assert_eq!(result["basis"]["status"], "memory", "weights of rivets that differ are recalled");
}

#[test]
fn a_mistake_in_the_points_is_told_with_its_place() {
    for (points, place, what) in [
        ("x,y\n1,2\n1,z\n", "p.csv:3:3", "y"),
        ("x,y,diameter\n1,2,.130\n", "p.csv:2:5", "MS20470 does not come in this diameter"),
        ("x\n1\n", "p.csv:1:1", "the column y is missing"),
        ("x,y\n", "p.csv", "there is no point in this file"),
        ("", "p.csv", "is empty"),
    ] {
        let run = with_files(&[("p.csv", points)], &format!("group p.csv --load 0,-1 --at 1,1 {SHEETS}"));
        let told = run.refused();
        assert!(told.contains(place) && told.contains(what), "{points:?}\n{run}");
    }
    let run = with_files(&[], &format!("group none.csv --load 0,-1 --at 1,1 {SHEETS}"));
    assert_eq!(run.status, Some(3), "{run}");
    for (typed, what) in [
        ("--load 5 --at 1,1", "--load \"5\": this takes two values with a comma between; right would be 0,-1500"),
        ("--load 0,0 --at 1,1", "the load is zero"),
        ("--load 1,0 --at 1,1in,2", "--at"),
    ] {
        let run = with_files(&[("p.csv", "x,y\n0,0\n1,0\n")], &format!("group p.csv {typed} {SHEETS}"));
        assert!(run.refused().contains(what), "{run}");
    }
}

#[test]
fn a_group_of_unknown_strength_has_shares_but_no_margin() {
    let typed = "group p.csv --load 0,-100 --at 1,1 --rivet MS20470AD4 --sheets .064,.125 --format json";
    let value = with_files(&[("p.csv", "x,y\n0,0\n1,0\n")], typed).json(1);
    assert_eq!(value["result"]["margin"], Value::Null);
    assert!(value["result"]["rivets"][1]["load"]["lbf"].as_f64().unwrap() > 0.0);
    assert!(codes(&value).contains(&"strength-not-published"));
}

/// Computed with a linear solver: four rows .75 in apart in .040 sheet of 10.5 msi.
#[test]
fn rows_share_a_load_as_the_spring_chain_has_it() {
    let typed = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --pitch .75 --rows 4 --strip-load 400 --format json";
    let value = with_files(&[], typed).json(0);
    let sharing = &value["result"]["row"]["sharing"];
    let formulas = sharing["formulas"].as_array().unwrap();
    let names: Vec<&str> = formulas.iter().map(|formula| formula["formula"].as_str().unwrap()).collect();
    // Every formula that is for rivets, not those for bolts.
    assert_eq!(names, ["stp-927-riveted", "stp-486", "thickness-squared", "exponential"]);
    let stiff = &formulas[1];
    for (row, wanted) in [0.309086737, 0.190913263, 0.190913263, 0.309086737].into_iter().enumerate() {
        near(&stiff["rows"][row]["share"], wanted, 1e-6);
        near(&stiff["rows"][row]["load"]["lbf"], wanted * 400.0, 1e-3);
    }
    // The envelope holds every formula, and the rivet that carries most is judged by the one that gives it most: here the second.
    let shares = formulas.iter().map(|formula| formula["rows"][0]["share"].as_f64().unwrap());
    let greatest = shares.fold(0.0, f64::max);
    near(&stiff["rows"][0]["share"], greatest, 1e-12);
    near(&sharing["shares"][0]["greatest"], greatest, 1e-12);
    near(&value["result"]["row"]["peak"]["load"]["lbf"], greatest * 400.0, 1e-9);
    assert_eq!((&sharing["peak_row"], &sharing["equal_share"]), (&1.into(), &0.25.into()));
    // Rows share alike at failure: 100 lbf a rivet.
    near(&value["result"]["margin"]["load"]["lbf"], 100.0, 1e-9);
    let typed = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --pitch .75 --rows 4 --flexibility stp-927-riveted --format json";
    let value = with_files(&[], typed).json(0);
    let formulas = value["result"]["row"]["sharing"]["formulas"].as_array().unwrap().clone();
    assert_eq!(formulas.len(), 1);
    near(&formulas[0]["rows"][0]["share"], 0.3363047648, 1e-6);
    assert_eq!(formulas[0]["rows"][0]["load"], Value::Null, "no load was given");
}

#[test]
fn a_row_has_a_strength_an_inch_and_buckles_between_its_rivets() {
    let typed =
        "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.125 --pitch 1 --compression 20ksi --format json";
    let value = with_files(&[], typed).json(1);
    let row = &value["result"]["row"];
    // The rivets govern: 373.9 lbf, one an inch.
    near(&row["per_inch"]["lbf"], 373.935, 0.01);
    near(&row["net_sections"][0]["per_inch"]["lbf"], 63_000.0 * 0.032 * (1.0 - 0.1285), 0.01);
    // Of 39 and 45 ksi in compression the lower one halves.
    near(&row["buckling"][0]["elastic_up_to"]["psi"], 19_500.0, 1e-6);
    assert!(codes(&value).contains(&"buckling-not-elastic"));
    let wide = typed.replace("--pitch 1 ", "--pitch 2 ").replace("20ksi", "10ksi");
    let value = with_files(&[], &wide).json(1);
    assert!(codes(&value).contains(&"buckles-between-rivets"));
    let limit = value["result"]["row"]["buckling"][0]["largest_pitch"]["in"].as_f64().unwrap();
    assert!((1.5..2.0).contains(&limit), "{limit}");
    // Without --pitch there is no row.
    let value = with_files(&[], "joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064 --format json").json(0);
    assert_eq!(value["result"]["row"], Value::Null);
    near(
        &value["result"]["squeeze"]["greatest"]["lbf"],
        1.2 * value["result"]["squeeze"]["force"]["lbf"].as_f64().unwrap(),
        1e-6,
    );
}

#[test]
fn rows_that_cannot_be_worked_out_say_why() {
    for (typed, told) in [
        ("joint --rivet MS20615-4M6 --sheets 2024-T3:.064,2024-T3:.064 --pitch .75 --rows 3", "--rivet-modulus 26msi"),
        (
            "joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064 --pitch .75 --rows 3 --flexibility tn-1051",
            "double shear",
        ),
        (
            "joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064 --pitch .75 --rows 3 --flexibility soft",
            "right would be all or stp-927-riveted",
        ),
        (
            "joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064 --pitch .75 --compression 20",
            "a stress needs its unit",
        ),
        ("joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064 --pitch .75 --rows 0", "--rows"),
        ("joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064 --rows 2", "--pitch"),
    ] {
        let run = with_files(&[], typed);
        assert!(run.refused().contains(told), "{run}");
    }
    let three = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.064,2024-T3:.064 --pitch .75 --rows 3";
    let run = with_files(&[], three);
    assert!(run.printed(0).contains("What one rivet is sheared by between each two layers, by stp-486"), "{run}");
    for sheets in ["2024-T3:.040,2017:.064", "2024-T3:.040,2024-T3:.040,2017:.064"] {
        let run = with_files(&[], &format!("joint --rivet MS20470AD4 --sheets {sheets} --pitch .75 --rows 3"));
        assert!(run.stdout.contains("Not worked out: no modulus on file for a sheet"), "{run}");
    }
    let run = with_files(&[], &format!("{three} --shear double --flexibility tn-1051"));
    assert!(run.printed(0).contains("How the 3 rows share the load"), "{run}");
}

#[test]
fn a_group_reads_at_any_width_and_as_rows() {
    let points = [("p.csv", "x,y\n0,0\n1,0\n2,1\n")];
    let typed = format!("group p.csv --load 0,-100 --at 3,1 {SHEETS}");
    for columns in [80, 40, 30] {
        let run = with_files(&points, &format!("{typed} --width {columns}"));
        for line in run.printed(0).lines() {
            assert!(line.chars().count() <= columns && line == line.trim_end(), "{columns}: {line:?}");
        }
    }
    let run = with_files(&points, &typed);
    assert!(run.stdout.starts_with("MS20470AD4   rivet 3 is the worst: "), "{run}");
    let run = with_files(&points, &format!("{typed} --format csv"));
    let lines: Vec<&str> = run.printed(0).lines().collect();
    assert_eq!(lines.len(), 4);
    assert!(lines[0].starts_with("rivet,part,x_in,y_in,fx_lbf,fy_lbf,load_lbf,allowable_lbf,margin,worst,"), "{run}");
    assert!(lines[3].starts_with("3,MS20470AD4,2.000,1.000,") && lines[3].contains(",true,"), "{run}");
    let inches = [("p.csv", "x,y\n0,0\n1in,0\n2in,1in\n")];
    let (inches, millimetres) = (
        with_files(&points, &format!("{typed} --format json")),
        with_files(
            &inches,
            "group p.csv --load 0,-100lbf --at 3in,1in --rivet MS20470AD4 --sheets 2024-T3:.064in,2024-T3:.125in --format json --units mm",
        ),
    );
    assert_eq!(inches.json(0)["result"], millimetres.json(0)["result"]);
}

/// Well enough formed for a reader of XML: every element closed in turn.
fn is_well_formed(svg: &str) -> bool {
    let mut open = Vec::new();
    for tag in svg.split('<').skip(1) {
        let Some((tag, _)) = tag.split_once('>') else { return false };
        let name = tag.trim_start_matches('/').split([' ', '/']).next().unwrap_or_default();
        if tag.starts_with('/') {
            if open.pop() != Some(name) {
                return false;
            }
        } else if !tag.ends_with('/') {
            open.push(name);
        }
    }
    open.is_empty()
}

#[test]
fn groups_and_rows_can_be_drawn() {
    let group = format!("group p.csv --load 0,-100 --at 3,1 {SHEETS} --format svg");
    let run = with_files(&[("p.csv", "x,y\n0,0\n1,0\n2,1\n")], &group);
    let svg = run.printed(0);
    assert!(is_well_formed(svg), "{svg}");
    assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 640 "), "{svg}");
    assert!(
        svg.contains("<title>3 rivets, MS20470AD4</title>") && svg.contains("<desc>Load 100 lbf; rivet 3"),
        "{svg}"
    );
    // The load and one arrow a rivet; a circle each.
    assert_eq!(svg.matches("<polygon").count(), 4, "{svg}");
    let rows = format!("joint {SHEETS} --pitch .75 --rows 3 --strip-load 300 --format svg");
    let run = with_files(&[], &rows);
    let svg = run.printed(0);
    assert!(is_well_formed(svg) && svg.contains(">row 3</text>"), "{svg}");
    assert!(svg.contains("stp-927-riveted and stp-486"), "{svg}");
    // The figure of the drawing is that of the answer.
    let value = with_files(&[], &rows.replace("svg", "json")).json(0);
    let greatest = value["result"]["row"]["sharing"]["shares"][0]["greatest"].as_f64().unwrap();
    assert!(svg.contains(&format!("{:.1} %", greatest * 100.0)), "{svg}");
    for (typed, status) in
        [(rows.replace("--rows 3 ", ""), 2), ("length --layers .032,.04 --diameter 1/8 --format svg".into(), 2)]
    {
        let run = with_files(&[], &typed);
        assert_eq!((run.status, run.stdout.as_str()), (Some(status), ""), "{run}");
        assert!(run.stderr.contains("there is no drawing of this"), "{run}");
    }
}

/// A job of one row.
fn job(installed: &str, more: &str) -> String {
    format!(
        "title = \"t\"\n[[row]]\nname = \"R\"\nstructure = \"secondary\"\nmember = \"other\"\ninstalled = \"{installed}\"\n\
         layers = [{{ role = \"skin\", material = \"2024-T3\", thickness = \".063\" }}, {{ role = \"tab\", material = \"2024-T3\", \
         thickness = \".063\" }}]\ncount = 20\n{more}"
    )
}

/// The row and the codes of its findings with severity.
fn planned(text: &str, status: i32) -> (Value, Vec<String>) {
    let value = with_files(&[("job.toml", text)], "plan job.toml --format json").json(status);
    let codes = value["findings"].as_array().unwrap().iter();
    let codes =
        codes.map(|finding| format!("{} {}", finding["severity"].as_str().unwrap(), finding["code"].as_str().unwrap()));
    (value["result"]["rows"][0].clone(), codes.collect())
}

#[test]
fn an_unchanged_row_is_as_strong_as_it_was() {
    let (row, codes) = planned(&job("MS20470AD4-5", "pitch = \"3/4\"\nedge = \"3/8\"\n"), 0);
    assert_eq!((&row["strength_ratio"], &row["before_and_after"]["changed"]), (&1.0.into(), &false.into()));
    near(&row["before_and_after"]["installed"]["per_inch"]["lbf"], 388.0 / 0.75, 1e-6);
    assert!(!codes.iter().any(|code| code.contains("weaker") || code.contains("substitute")), "{codes:?}");
}

#[test]
fn a_row_of_larger_rivets_is_compared_an_inch_with_modes_on_both_sides() {
    let (row, _) = planned(&job("MS20470AD4-5", "rivet = \"MS20470AD5\"\npitch = \"3/4\"\nedge = \"7/16\"\n"), 0);
    let both = &row["before_and_after"];
    assert!(row["strength_ratio"].as_f64().unwrap() > 1.4, "{row}");
    assert_eq!(both["ratio"], row["strength_ratio"]);
    for side in ["installed", "planned"] {
        assert_eq!(both[side]["governing"]["mode"], "rivet-shear", "{side}");
    }
    let text = with_files(
        &[("job.toml", &job("MS20470AD4-5", "rivet = \"MS20470AD5\"\npitch = \"3/4\"\nedge = \"7/16\"\n"))],
        "plan job.toml --full --width 200",
    );
    assert!(text.printed(0).contains("The row as installed carries "), "{text}");
}

#[test]
fn a_substitute_of_the_same_size_refers_and_one_of_the_next_does_not() {
    let substitute =
        |rivet: &str| job("MS20470D4-5", &format!("rivet = \"{rivet}\"\npitch = \"3/4\"\nedge = \"7/16\"\n"));
    let (row, codes) = planned(&substitute("MS20470AD4"), 1);
    assert!(row["strength_ratio"].as_f64().unwrap() < 1.0);
    for code in ["refer substitute-too-small", "refer weaker-than-before"] {
        assert_eq!(codes.iter().filter(|other| *other == code).count(), 1, "{codes:?}");
    }
    let (row, codes) = planned(&substitute("MS20470AD5"), 0);
    assert!(
        row["strength_ratio"].as_f64().unwrap() > 1.0 && !codes.iter().any(|code| code.contains("substitute")),
        "{codes:?}"
    );
    // Harder than before: no document names it, and it is no weaker.
    let (_, codes) = planned(&job("MS20470AD4-5", "rivet = \"MS20470D4\"\npitch = \"3/4\"\nedge = \"3/8\"\n"), 0);
    assert!(codes.contains(&"caution substitute-not-named".to_owned()), "{codes:?}");
}

#[test]
fn a_row_that_cannot_be_compared_says_why() {
    for (more, why, words) in [
        ("edge = \"3/8\"\n", "no-pitch", "enter the pitch"),
        ("pitch = \"3/4\"\n", "no-edge", "enter the edge distance"),
    ] {
        let run = with_files(&[("job.toml", &job("MS20470AD4-5", more))], "plan job.toml --width 200 --format json");
        let value = crate::schema::read(&run.stdout);
        let row = &value["result"]["rows"][0];
        assert_eq!(
            (&row["before_and_after"]["not_compared"], &row["strength_ratio"]),
            (&why.into(), &Value::Null),
            "{run}"
        );
        // The same rivet in the same sheets is as strong as before, whatever is not known; another one is not.
        let other = job("MS20470AD4-5", &format!("rivet = \"MS20470AD5\"\n{more}"));
        let run = with_files(&[("job.toml", &other)], "plan job.toml --full --width 200");
        assert!(run.stdout.contains(&format!("Not compared with the row as installed: {words}.")), "{run}");
    }
}

#[test]
fn stepped_holes_are_counted_as_if_every_hole_were_like_the_weakest() {
    let hole = "pitch = \"3/4\"\nedge = \"7/16\"\n[[row.hole]]\nnumber = 3\nmajor = \".150\"\n";
    let value = with_files(&[("job.toml", &job("MS20470AD4-5", hole))], "plan job.toml --format json");
    let value = crate::schema::read(&value.stdout);
    let row = &value["result"]["rows"][0];
    let both = &row["before_and_after"];
    assert_eq!((&both["stepped_holes"], &both["changed"]), (&1.into(), &true.into()), "{row}");
    // The other nineteen stay as they were, and so does what is counted.
    assert_eq!(both["ratio"], 1.0);
}

#[test]
fn the_demo_stops_for_its_holes_only() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin/job.toml");
    let run = shophead_with("plan", |command| command.arg(path).args(["--format", "json"]));
    let value = run.json(1);
    for finding in value["findings"].as_array().unwrap().iter().filter(|finding| finding["severity"] == "refer") {
        assert!(finding["subject"].as_str().unwrap().contains(" hole "), "{finding}");
    }
    for row in value["result"]["rows"].as_array().unwrap() {
        assert_eq!(row["strength_ratio"], 1.0, "{}", row["name"]);
    }
}

#[test]
fn a_splice_in_clad_sheet_names_both_tables_and_lays_out_its_rows() {
    let run = with_files(&[], "splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4 --member lap --rows 2");
    let text = run.stdout.as_str();
    for words in
        ["table 4-9 ", "table 4-10", "by the strengths", "reduced to", "2 of 31", "rows .3125 apart", "develops 60.1 %"]
    {
        assert!(text.contains(words), "{words}\n{run}");
    }
    let value =
        with_files(&[], "splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4 --member lap --format json").json(0);
    let rows = &value["result"]["rows"];
    let pattern = &rows["pattern"];
    let inches = |value: &Value| value["in"].as_f64().unwrap();
    let between = rows["rows"].as_f64().unwrap() - 1.0;
    near(
        &pattern["overlap"]["in"],
        2.0 * inches(&pattern["edge"]) + between * inches(&pattern["transverse_pitch"]),
        1e-6,
    );
    near(&pattern["first"]["in"], inches(&rows["pitch"]) / 2.0, 1e-6);
    let develops = |of: &str| value["result"][of]["efficiency"].as_f64().unwrap();
    assert!(develops("rows") < 1.0 && develops("better") > develops("rows"));
}

#[test]
fn staggered_rows_are_counted_along_the_zigzag_too() {
    let asked = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --pitch 3/4 --rows 4 --transverse-pitch .2 --format json";
    let net = |more: &str| {
        // Rows as close as these are referred, and counted all the same.
        let value = with_files(&[], &format!("{asked} {more}")).json(1);
        assert!(value["findings"].as_array().unwrap().iter().any(|found| found["code"] == "transverse-pitch-short"));
        value["result"]["row"]["net_sections"][0]["per_inch"]["lbf"].as_f64().unwrap()
    };
    let inline = 63_000.0 * 0.040 * (0.75 - 0.1285) / 0.75;
    let zigzag = 63_000.0 * 0.040 * (0.75 - 2.0 * 0.1285 + 0.04 / 0.75) / 0.75;
    assert!((net("") - inline).abs() < 1e-6 && (net("--staggered") - zigzag).abs() < 1e-6);
    // Rows apart as the practice's least: the straight line is the weaker one, so nothing is lost.
    let splice = "splice --sheet 2024-T3:.040 --width 10 --rivet AD4 --rows 6 --format json";
    let efficiency = |more: &str| {
        let value = with_files(&[], &format!("{splice} {more}")).json(0);
        value["result"]["rows"]["efficiency"].as_f64().unwrap()
    };
    assert!(efficiency("--staggered") <= efficiency(""));
}

#[test]
fn a_row_says_how_much_it_bears_and_how_much_goes_by() {
    let asked = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --pitch 3/4 --rows 4 --strip-load 400";
    let value = with_files(&[], &format!("{asked} --flexibility stp-486 --format json")).json(0);
    let row = &value["result"]["row"]["sharing"]["formulas"][0]["rows"][0]["first_plate"];
    // 0.309 of the load leaves the first sheet in row 1.
    near(&row["bearing_bypass"], 0.309_086_737 / (1.0 - 0.309_086_737), 1e-6);
    let run = with_files(&[], asked);
    assert!(
        run.stdout.contains("Bearing over bypass load in row 1: ") && run.stdout.contains("No life follows"),
        "{run}"
    );
}
