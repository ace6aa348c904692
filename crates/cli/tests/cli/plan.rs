//! `plan` and `order` on the demo job, and on jobs that are wrong.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::{Run, shophead, shophead_with};

fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../job/demo/keel-skin/job.toml")
}

/// Paths may hold blanks and underscores, so they do not go through the words of [`shophead`].
fn on_demo(command: &str, more: &str) -> Run {
    shophead_with(&format!("{command} {more}"), |run| run.arg(demo()))
}

/// A folder with a job in it, and the run on that job.
fn on_job(command: &str, files: &[(&str, &str)]) -> Run {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).expect("written");
    }
    shophead_with(command, |run| run.current_dir(folder.path()))
}

const BRACKET: &str = r#"
title = "Bracket"

[[position]]
name = "on the bench"

[[row]]
name = "B1"
structure = "secondary"
member = "other"
installed = "MS20470AD4-5"
layers = [
    { role = "rib-flange", material = "2024-T3", thickness = ".063" },
    { role = "tab", material = "2024-T3", thickness = ".063" },
]
count = 10
pitch = "3/4"
edge = "3/8"
clearance = { "on the bench" = "open" }
"#;

fn row<'v>(plan: &'v Value, name: &str) -> &'v Value {
    let rows = plan["result"]["rows"].as_array().expect("rows");
    rows.iter().find(|row| row["name"] == name).unwrap_or_else(|| panic!("no row {name}"))
}

fn hole(row: &Value, number: u64) -> &Value {
    let holes = row["holes"].as_array().expect("holes");
    holes.iter().find(|hole| hole["hole_number"] == number).unwrap_or_else(|| panic!("no hole {number}"))
}

#[test]
fn the_demo_is_told_in_the_order_in_which_it_is_needed() {
    let run = on_demo("plan", "--full");
    let text = run.printed(1);
    let headings = [
        "Keel skin panel, frames 2 to 6",
        "What stops the work",
        "Rows",
        "Holes that differ",
        "Positions",
        "Taking the old rivets out, the risky ones first",
        "Order",
        "Recalled, not read: check these against your own documents",
        "Advisory only",
    ];
    let mut at = 0;
    for heading in headings {
        let found = text[at..].find(heading).unwrap_or_else(|| panic!("{heading} is missing or out of order\n{text}"));
        at += found;
    }
    assert_eq!(text.matches("Advisory only").count(), 1, "said once");
}

#[test]
fn no_line_of_the_demo_is_longer_than_asked_for() {
    for width in [80, 40] {
        let run = on_demo("plan", &format!("--full --width {width}"));
        for line in run.printed(1).lines() {
            assert!(line.chars().count() <= width, "{width} columns: {line:?}");
        }
    }
}

/// Puts every basis in the place of its number.
fn spell_out(value: &mut Value, bases: &HashMap<u64, Value>) {
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                match value.as_u64().filter(|_| key == "basis" || key == "interpolation") {
                    Some(number) => *value = bases.get(&number).expect("a basis that was told").clone(),
                    None => spell_out(value, bases),
                }
            }
        }
        Value::Array(values) => values.iter_mut().for_each(|value| spell_out(value, bases)),
        _ => {}
    }
}

/// The lines say what the whole plan says; tells how many holes there are, and of how many kinds.
#[track_caller]
fn lines_say_the_same(mut whole: Value, lines: &str) -> (usize, usize) {
    let lines: Vec<Value> = lines.lines().map(crate::schema::read_plan_line).collect();
    let mut bases: HashMap<u64, Value> = HashMap::new();
    for line in lines.iter().filter(|line| line.get("document").is_some()) {
        let told = json!({ "document": line["document"], "place": line["place"], "status": line["status"] });
        assert!(!bases.values().any(|known| *known == told), "twice: {told}");
        assert!(bases.insert(line["basis"].as_u64().expect("a number"), told).is_none());
    }
    let mut first = lines[0].clone();
    spell_out(&mut first, &bases);
    let rows: HashMap<String, Value> = first["result"]["rows"]
        .as_array()
        .expect("rows")
        .iter()
        .cloned()
        .map(|row| (row["name"].as_str().expect("a name").to_owned(), row))
        .collect();
    // Its holes, put together again.
    let mut alike: HashMap<u64, Value> = HashMap::new();
    let mut holes: HashMap<String, Vec<Value>> = HashMap::new();
    for line in &lines[1..] {
        let mut line = line.clone();
        spell_out(&mut line, &bases);
        if line.get("disposition").is_some() {
            alike.insert(line["alike"].as_u64().expect("a number"), line);
        } else if line.get("row").is_some() {
            let like = alike.get(&line["alike"].as_u64().expect("a number")).expect("told before");
            let row = line["row"].as_str().expect("a row").to_owned();
            let mut hole = line.clone();
            let fields = hole.as_object_mut().expect("an object");
            for key in ["row", "alike"] {
                fields.remove(key);
            }
            for key in ["disposition", "drill", "drill_diameter", "steps"] {
                fields.insert(key.to_owned(), like[key].clone());
            }
            match (like["as_row"].as_bool(), like["choice"].as_object()) {
                (Some(true), None) => {
                    let of_row =
                        ["part", "length", "rule_of_thumb_length", "difference", "usable", "protrusion", "head"];
                    for key in of_row.into_iter().chain(["window", "serves", "by_hole", "within"]) {
                        fields.insert(key.to_owned(), rows[&row][key].clone());
                    }
                    fields.insert("hole".to_owned(), like["hole"].clone());
                }
                (_, Some(choice)) => fields.extend(choice.clone()),
                _ => drop(fields.insert("part".to_owned(), Value::Null)),
            }
            holes.entry(row).or_default().push(hole);
        }
    }
    let told = holes.values().map(Vec::len).sum();
    for row in first["result"]["rows"].as_array_mut().expect("rows") {
        assert_eq!(row["holes"], json!([]));
        row["holes"] = holes.remove(row["name"].as_str().expect("a name")).unwrap_or_default().into();
    }
    let of_holes = |finding: &Value| finding["subject"].as_str().is_some_and(|subject| subject.contains(" hole "));
    whole["findings"].as_array_mut().expect("findings").retain(|finding| !of_holes(finding));
    assert_eq!(first, whole);
    (told, alike.len())
}

#[test]
fn a_plan_in_lines_says_what_the_whole_one_says() {
    let whole = on_demo("plan", "--format json").json(1);
    let lines = on_demo("plan", "--format json --lines");
    let (holes, kinds) = lines_say_the_same(whole, lines.printed(1));
    assert!(holes > 20 && kinds > 10, "{holes} {kinds}");
    // Holes that are alike stand in one line.
    let job = BRACKET.replacen("title", "holes = \"holes.csv\"\ntitle", 1);
    let holes: String =
        (1..=10).map(|hole| format!("B1,{hole},{},.129\n", if hole < 4 { ".131" } else { ".129" })).collect();
    let files = [("job.toml", &*job), ("holes.csv", &*format!("row,hole,major,minor\n{holes}"))];
    let whole = on_job("plan job.toml --format json", &files);
    let lines = on_job("plan job.toml --format json --lines", &files);
    let status = whole.status.expect("a status");
    assert_eq!(lines_say_the_same(whole.json(status), lines.printed(status)), (10, 2));
}

#[test]
fn a_plan_in_lines_is_json() {
    let run = on_demo("plan", "--lines");
    assert_eq!(run.refused(), "error: --lines: the plan in lines is JSON; right would be --format json --lines\n");
}

#[test]
fn the_demo_in_json_by_key_and_value() {
    let plan = on_demo("plan", "--format json").json(1);
    assert_eq!(plan["schema"], 1);
    assert_eq!((&plan["command"], &plan["practice"]), (&"plan".into(), &"handbook".into()));
    let counts = &plan["result"]["counts"];
    assert!(counts["rows"].as_u64() >= Some(12) && counts["holes"].as_u64() >= Some(400), "{counts}");
    let measured = ["keep", "clean_up", "oversize", "next_size", "refer"].map(|key| counts[key].as_u64().expect(key));
    assert_eq!(Some(measured.iter().sum::<u64>()), counts["measured"].as_u64());
    assert!(measured.iter().all(|count| *count > 0), "every disposition occurs: {counts}");

    // The thick cap row: five layers, half an inch.
    let keel = row(&plan, "K3");
    assert_eq!(keel["part"], "MS20470AD6-13");
    assert_eq!(keel["grip"]["nominal"]["in"], 0.51);
    assert_eq!(keel["solid_required"]["basis"]["status"], "published");
    // Where two skins overlap over a tab, the same row takes a longer rivet.
    let last = row(&plan, "F5");
    assert_eq!((&last["part"], &hole(last, 22)["part"]), (&"MS20426AD4-5".into(), &"MS20426AD4-6".into()));
    // A crack is referred without a ladder; an elongated hole climbs it.
    let cracked = hole(row(&plan, "K1"), 31);
    assert_eq!((&cracked["disposition"], &cracked["steps"]), (&"refer".into(), &Value::Array(vec![])));
    let opened = hole(row(&plan, "A1"), 5);
    assert_eq!(
        (&opened["disposition"], &opened["part"], &opened["drill"]),
        (&"oversize".into(), &"NAS1242AD5-6".into(), &"#16".into())
    );
    let steps: Vec<&Value> = opened["steps"].as_array().expect("steps").iter().map(|step| &step["step"]).collect();
    assert_eq!(steps, ["keep", "clean-up", "oversize"]);

    // One row cannot be reached in two of the three positions.
    let positions = plan["result"]["positions"].as_array().expect("positions");
    let blocks_f3 = |position: &&Value| {
        position["blocked"].as_array().expect("a list").iter().any(|blocked| blocked["row"] == "F3")
    };
    assert_eq!(positions.iter().filter(blocks_f3).count(), 2);
    let serves: Vec<&Value> =
        positions.iter().filter(|position| position["serves"] == true).map(|position| &position["name"]).collect();
    assert_eq!(serves, ["floor-out"]);

    // Holes and order agree: what is not ordered is what has no rivet.
    let ordered: u64 = plan["result"]["order"]
        .as_array()
        .expect("lines")
        .iter()
        .map(|line| line["needed"].as_u64().expect("a count"))
        .sum();
    assert_eq!(Some(ordered + counts["without_rivet"].as_u64().expect("a count")), counts["holes"].as_u64());
    let refers = plan["findings"].as_array().expect("findings").iter().filter(|finding| finding["severity"] == "refer");
    let subjects: std::collections::BTreeSet<&str> =
        refers.map(|found| found["subject"].as_str().expect("text")).collect();
    assert_eq!(subjects.len() as u64, measured[4], "{subjects:?}");
}

#[test]
fn the_demo_in_csv_counts_every_hole_once() {
    let run = on_demo("plan", "--format csv");
    let mut reader = csv::Reader::from_reader(run.printed(1).as_bytes());
    let headings = reader.headers().expect("a header").clone();
    let column = |name: &str| headings.iter().position(|heading| heading == name).expect(name);
    let holes: u32 =
        reader.records().map(|record| record.expect("a row")[column("count")].parse::<u32>().expect("a count")).sum();
    assert_eq!(holes, 488);
}

#[test]
fn what_was_not_given_is_said_first_and_nothing_is_called_clear() {
    let job = "holes = \"holes.csv\"\n".to_owned() + BRACKET;
    let holes = (1..=10).map(|hole| format!("B1,{hole},.129,.129\n")).collect::<String>();
    let holes = format!("row,hole,major,minor\n{holes}");
    let position = job.find("[[position]]").map(|at| &job[at..job[at..].find("[[row]]").expect("a row") + at]);
    let without_position = position.map(|text| {
        job.replace(text, "").lines().filter(|line| !line.starts_with("clearance")).collect::<Vec<_>>().join("\n")
    });
    let mut cases = vec![(job.replace("pitch = ", "# pitch = "), "Not given, so not checked: pitch (B1).")];
    cases.push((job.replacen("material = \"2024-T3\", ", "", 1), "Not given, so not checked: material (B1)."));
    cases.extend(without_position.map(|job| (job, "No position given: not checked whether each row can be bucked.")));
    assert_eq!(cases.len(), 3);
    for (job, told) in cases {
        let run = on_job("plan job.toml", &[("job.toml", &job), ("holes.csv", &holes)]);
        let text = run.printed(0);
        let place = text.find(told).unwrap_or_else(|| panic!("{told}\n{run}"));
        assert!(place < text.find("Nothing is referred so far").expect("the heading"), "{run}");
        assert!(!text.contains("Nothing stops"), "{run}");
    }
}

#[test]
fn nothing_stops_a_sound_job_that_was_measured() {
    let job = BRACKET.replacen("title", "holes = \"holes.csv\"\ntitle", 1);
    let holes = (1..=10).map(|hole| format!("B1,{hole},.129,.129\n")).collect::<String>();
    let holes = format!("row,hole,major,minor\n{holes}");
    for (more, first) in [("", "1 row, 10 holes, all measured."), (" --full", "1 row, 10 holes.")] {
        let run = on_job(&format!("plan job.toml{more}"), &[("job.toml", &job), ("holes.csv", &holes)]);
        let text = run.printed(0);
        assert!(text.contains(first) && text.contains("\nNothing stops the work\n"), "{text}");
        // What nobody measured may stop it yet.
        let text = on_job(&format!("plan job.toml{more}"), &[("job.toml", BRACKET)]);
        let text = text.printed(0);
        assert!(text.contains("Nothing is referred so far\n") && !text.contains("Nothing stops"), "{text}");
    }
    let text = on_job("plan job.toml --full", &[("job.toml", BRACKET)]);
    assert!(text.printed(0).contains("B1   MS20470AD4-5, 5/16 long   10 holes"));
}

#[test]
fn the_first_page_of_the_demo_fits_a_screen_and_says_what_is_not_known_first() {
    let run = on_demo("plan", "");
    let text = run.printed(1);
    let lines: Vec<&str> = text.lines().collect();
    assert!(lines.len() <= 48, "{} lines\n{text}", lines.len());
    assert!(lines.iter().all(|line| line.chars().count() <= 80), "{text}");
    assert!(lines[1].starts_with("15 rows, 488 holes: 23 of 488 measured."), "{text}");
    let mut at = 0;
    for heading in
        ["What stops the work", "Position", "Rows", "Holes to work", "Buy", "More: shophead plan", "Advisory only"]
    {
        at += text[at..].find(heading).unwrap_or_else(|| panic!("{heading} is missing or out of order\n{text}"));
    }
    // Whatever is referred stands on it, row by row, and so does every rivet that is ordered.
    let plan = on_demo("plan", "--format json").json(1);
    let run: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for line in plan["result"]["order"].as_array().expect("lines") {
        let (part, buy) = (line["part"].as_str().expect("a part"), &line["buy"]);
        assert!(run.contains(&format!("{buy} {part}")), "{part}\n{text}");
    }
    for finding in plan["findings"].as_array().expect("findings").iter().filter(|found| found["severity"] == "refer") {
        let subject = finding["subject"].as_str().expect("a subject");
        if let Some((row, hole)) = subject.strip_prefix("row ").and_then(|rest| rest.split_once(" hole ")) {
            let line = lines.iter().position(|line| line.starts_with(&format!("{row} "))).expect(row);
            let said = lines[line..].iter().take(3).any(|line| line.contains(&format!("hole {hole}:")));
            assert!(said, "{subject}\n{text}");
        }
    }
}

#[test]
fn a_row_or_a_part_of_the_plan_can_be_asked_for() {
    let row = on_demo("plan", "--row K3");
    let text = row.printed(1);
    assert!(text.starts_with("K3   MS20470AD6-13") && !text.contains("K1"), "{text}");
    let wrong = on_demo("plan", "--row K9");
    assert!(wrong.refused().contains("no row \"K9\"; the job has K1, K2"), "{wrong}");
    for (part, heading) in [
        ("stops", "What stops the work"),
        ("rows", "Rows"),
        ("holes", "Holes that differ"),
        ("damage", "There is nothing of that in this job."),
        ("positions", "Positions"),
        ("work", "The work, step by step"),
        ("removal", "Taking the old rivets out"),
        ("cuts", "Cutting the"),
        ("order", "Order"),
        ("recalled", "Recalled, not read"),
    ] {
        let run = on_demo("plan", &format!("--only {part}"));
        assert!(run.printed(1).contains(heading), "{run}");
    }
    assert!(on_demo("plan", "--full --format json").refused().contains("--full, --row and --only shape the text"));
}

#[test]
fn the_work_is_one_list_of_this_job_with_where_each_rule_stands() {
    let run = on_demo("plan", "--only work --width 200");
    let text = run.printed(1);
    let steps: Vec<&str> = text.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_digit())).collect();
    for (step, number) in steps.iter().zip(1..) {
        assert!(step.starts_with(&format!("{number}. ")) && step.ends_with(']'), "{step}");
    }
    assert!(steps.len() >= 10, "{text}");
    // Where this job's metal is dear the list says so, and what is opened has its drill.
    for said in [
        "K3: Thick member",
        "B1: Tab or bracket foot",
        "#11 (.191): A2 14-15",
        "1/8 2117: bar of 3 to 4 lb*",
        "* recalled, not read",
    ] {
        assert!(text.contains(said), "{said}\n{text}");
    }
}

#[test]
fn options_come_before_what_the_job_says() {
    let job = BRACKET.replacen("title", "practice = \"process\"\ntitle", 1);
    let practice = |typed: &str| on_job(typed, &[("job.toml", &job)]).json(0)["practice"].clone();
    assert_eq!(practice("plan job.toml --format json"), "process");
    assert_eq!(practice("plan job.toml --format json --practice handbook"), "handbook");
}

#[test]
fn an_order_takes_the_shelf_and_the_spares_into_account() {
    let stock = "part,on_hand,pack\nMS20470AD4-5,4,50\n";
    let files = [("job.toml", BRACKET), ("stock.csv", stock)];
    let order = on_job("order job.toml --stock stock.csv --spares 15 --format json", &files).json(0);
    let line = &order["result"]["lines"][0];
    let figures = ["needed", "spares", "stock", "buy"].map(|key| line[key].as_u64().expect(key));
    // Ten holes, one and a half spares rounded up, four on the shelf, packs of fifty.
    assert_eq!((&line["part"], figures), (&"MS20470AD4-5".into(), [10, 2, 4, 50]));
    assert!(line["mass"]["g"].as_f64().is_some_and(|grams| (2.0..4.0).contains(&grams)), "{line}");
    let csv = on_job("order job.toml --stock stock.csv --format csv", &files);
    assert_eq!(csv.status, Some(0), "{csv}");
    assert_eq!(csv.stderr, "note: 10 of 10 holes not measured yet: they may take other rivets.\n", "{csv}");
    assert!(csv.stdout.starts_with("part,needed,spares,stock,buy,mass_lb,"), "{csv}");
    assert!(csv.stdout.contains("\nMS20470AD4-5,10,0,4,50,"), "{csv}");
}

#[test]
fn a_mistake_in_a_job_is_shown_where_it_stands_and_nothing_is_printed() {
    for (slip, correct, line, help) in [
        ("ptich = ", "pitch = ", "job.toml:17:1", "right would be \"pitch\""),
        ("\"3/4,\"", "\"3/4\"", "job.toml:17:", "a decimal is written with a point"),
        ("MS20470AD7-5", "MS20470AD4-5", "job.toml:11:", "MS20470AD6-5"),
        ("\"othr\"", "\"other\"", "job.toml:10:10", "\"other\""),
        ("= 0\n", "= 10\n", "job.toml:16:", "1 to 100000"),
        ("\"2024-T9\"", "\"2024-T3\"", "job.toml:13:", "T3"),
    ] {
        let job = BRACKET.replacen(correct, slip, 1);
        assert_ne!(job, BRACKET);
        for command in ["plan job.toml", "order job.toml", "plan job.toml --format json"] {
            let run = on_job(command, &[("job.toml", &job)]);
            let told = run.refused();
            assert!(told.contains(line) && told.contains(help), "{slip}: {told}");
            let shown = job.lines().find(|line| line.contains(slip.trim())).expect("the line");
            assert!(told.contains(shown), "the line itself: {told}");
        }
    }
}

#[test]
fn a_file_that_is_not_there_is_a_failure_of_reading() {
    for (typed, named) in [
        ("plan gone.toml", "gone.toml"),
        ("order gone.toml", "gone.toml"),
        ("order job.toml --stock gone.csv", "gone.csv"),
        ("plan job.toml --limits gone.toml", "gone.toml"),
    ] {
        let run = on_job(typed, &[("job.toml", BRACKET)]);
        assert_eq!((run.status, run.stdout.as_str()), (Some(3), ""), "{run}");
        assert!(run.stderr.contains(named) && run.stderr.lines().count() == 1, "{run}");
    }
}

#[test]
fn a_job_file_is_needed() {
    assert!(shophead("plan").refused().contains("JOB.toml"));
    assert!(on_job("order job.toml --spares many", &[("job.toml", BRACKET)]).refused().contains("right would be 10"));
}
