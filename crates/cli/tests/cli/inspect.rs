//! `shophead inspect` on the demo job.

use serde_json::{Value, json};

use crate::card::SOUND;
use crate::{Run, shophead, shophead_with};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

fn inspected(text: &str, more: &str) -> Run {
    shophead_with(&format!("inspect {DEMO}/job.toml driven.csv {more}"), |command| {
        let folder = command.get_current_dir().expect("a folder").join("driven.csv");
        std::fs::write(folder, text).expect("written");
        command
    })
}

fn line<'v>(result: &'v Value, row: &str, hole: u32) -> &'v Value {
    let lines = result["lines"].as_array().expect("lines");
    lines.iter().find(|line| line["row"] == row && line["hole"] == hole).unwrap_or_else(|| panic!("no {row} {hole}"))
}

#[test]
fn every_reason_has_its_remedy_and_the_replacements_are_ordered() {
    let value = shophead(&format!("inspect {DEMO}/job.toml {DEMO}/driven.csv --format json")).json(1);
    let result = &value["result"];
    assert_eq!((&result["accepted"], &result["rejected"]), (&json!(7), &json!(7)));
    assert_eq!((&result["looked_at"], &result["holes"], &result["measured"]), (&json!(14), &json!(488), &json!(12)));
    assert_eq!(result["state"], "rejected");
    for (row, hole, reasons, remedy, replacement) in [
        ("K1", 8, json!(["head-too-narrow", "head-too-high"]), json!("replace"), json!("MS20426AD5-9")),
        ("C1", 2, json!(["head-too-high"]), json!("replace"), json!("MS20426AD4-5")),
        ("A1", 3, json!(["shank-notched"]), json!("next-size"), json!("MS20470AD6-7")),
        ("F4", 22, json!(["sheet-damaged"]), json!("refer"), Value::Null),
        ("F2", 3, json!(["driven-where-referred"]), json!("refer"), Value::Null),
        ("S1", 5, json!([]), Value::Null, Value::Null),
        ("K1", 7, json!([]), Value::Null, Value::Null),
    ] {
        let line = line(result, row, hole);
        assert_eq!(line["reasons"], reasons, "{row} {hole}");
        assert_eq!(line["remedy"].get("do").cloned().unwrap_or_default(), remedy, "{row} {hole}");
        assert_eq!(line["replacement"], replacement, "{row} {hole}");
        assert_eq!(line["accepted"], json!(remedy.is_null()), "{row} {hole}");
        if !remedy.is_null() {
            assert!(line["remedy"]["basis"]["document"].is_string());
        }
    }
    let order: Vec<(&str, u64)> = result["order"]
        .as_array()
        .expect("an order")
        .iter()
        .map(|line| (line["part"].as_str().expect("a part"), line["needed"].as_u64().expect("a number")))
        .collect();
    assert_eq!(
        order,
        [("MS20426AD4-5", 1), ("MS20426AD5-9", 1), ("MS20470AD4-5", 1), ("MS20470AD5-6", 1), ("MS20470AD6-7", 1)]
    );
    // A sample with rejects says so for its row, and only there.
    let sampled: Vec<&Value> =
        value["findings"].as_array().expect("findings").iter().filter(|one| one["code"] == "sample-rejects").collect();
    assert_eq!(sampled.len(), 6);
    assert_eq!(sampled[0]["subject"], "row K1");
}

#[test]
fn the_text_says_how_many_of_how_many() {
    let run = shophead(&format!("inspect {DEMO}/job.toml {DEMO}/driven.csv"));
    let text = run.printed(1);
    assert!(text.starts_with("Keel skin panel, frames 2 to 6: 7 accepted, 7 rejected\n"), "{run}");
    assert!(text.contains("A sample: 14 of 488 rivets were looked at; 12 heads were measured both ways.\n"), "{run}");
    assert!(text.contains("drive the next larger diameter, MS20470AD6-7."), "{run}");
    let narrow = shophead(&format!("inspect {DEMO}/job.toml {DEMO}/driven.csv --width 40"));
    assert!(narrow.printed(1).lines().all(|line| line.chars().count() <= 40), "{narrow}");
}

#[test]
fn a_job_is_accepted_when_all_of_it_was_looked_at() {
    let mut all = String::from("row,hole,condition\n");
    let plan = shophead(&format!("plan {DEMO}/job.toml --format json")).json(1);
    let mut referred = 0;
    for row in plan["result"]["rows"].as_array().expect("rows") {
        for hole in 1..=row["count"].as_u64().expect("a count") {
            all.push_str(&format!("{},{hole},sound\n", row["name"].as_str().expect("a name")));
        }
        let holes = row["holes"].as_array().expect("holes");
        referred += holes.iter().filter(|hole| hole["disposition"] == "refer").count();
    }
    let result = inspected(&all, "--format json").json(1)["result"].clone();
    assert_eq!(
        (&result["looked_at"], &result["rejected"]),
        (&json!(488), &json!(referred)),
        "those were to be referred"
    );
    assert!(inspected(&all, "").stdout.contains("Every one of 488 rivets was looked at; 0 heads"));
    let result = inspected("row,hole,condition\nK1,1,sound\n", "--format json").json(0)["result"].clone();
    assert_eq!(result["state"], "accepted-so-far");
}

/// A file that was not filled in yet must not pass for an inspection.
#[test]
fn nothing_is_accepted_where_nothing_was_looked_at() {
    for nothing in ["row,hole,condition\n", "row,hole,condition,remark\n\n,,,\n"] {
        let value = inspected(nothing, "--format json").json(1);
        let result = &value["result"];
        assert_eq!((&result["state"], &result["looked_at"]), (&json!("not-looked-at"), &json!(0)));
        let findings = value["findings"].as_array().expect("findings");
        let told: Vec<_> = findings.iter().map(|one| (&one["code"], &one["severity"], &one["subject"])).collect();
        assert_eq!(told, [(&json!("not-checked"), &json!("refer"), &json!("the job"))]);
        let run = inspected(nothing, "");
        let text = run.printed(1);
        assert!(text.starts_with("Keel skin panel, frames 2 to 6: nothing was looked at\n"), "{text}");
        assert!(!text.contains("Accepted") && text.contains("Not accepted"), "{text}");
    }
}

#[test]
fn a_rivet_that_was_replaced_is_judged_by_its_last_line() {
    let text = "row,hole,diameter,height\nC1,1,.150,.060\nC1,1,.190,.060\n";
    let result = inspected(text, "--format json").json(0)["result"].clone();
    assert_eq!((&result["accepted"], &result["rejected"]), (&json!(1), &json!(0)));
    assert_eq!(line(&result, "C1", 1)["earlier"], 1);
    assert_eq!(result["order"], json!([]));
}

#[test]
fn csv_carries_other_columns_and_no_formulas() {
    let text = "row,hole,condition,remark,by,=x\nC1,1,sound,\"'=1+1\",JB,-y\n";
    let run = inspected(text, "--format csv");
    assert_eq!(
        run.printed(0),
        "row,hole,rivet,diameter_min_in,diameter_max_in,height_min_in,height_max_in,condition,remark,accepted,remedy,\
         replacement,severity,findings,by,'=x\n\
         C1,1,MS20426AD4-5,,,,,sound,'=1+1,true,,,note,not-checked,JB,'-y\n"
    );
    let empty = inspected("row,hole,by\n", "--format csv");
    assert!(empty.printed(1).ends_with(",findings,by\n"), "{empty}");
    assert_eq!(empty.stdout.lines().count(), 1);
}

#[test]
fn a_wrong_driven_file_is_refused() {
    let run = inspected("row,hole,condition\nK1,1,lose\n", "");
    assert!(run.refused().contains("condition cannot be \"lose\""), "{run}");
    assert_eq!(shophead(&format!("inspect {DEMO}/job.toml nowhere.csv")).status, Some(3));
}

#[test]
fn a_job_is_not_accepted_before_every_other_place_was_looked_at() {
    let look = "[[look]]\nplace = \"behind the tank\"\nwhy = \"sealant loose\"\n";
    let inspected = |found: &str, more: &str| {
        let job = format!("{SOUND}{look}{found}");
        shophead_with(&format!("inspect job.toml driven.csv {more}"), |command| {
            let folder = command.get_current_dir().expect("a folder").to_owned();
            std::fs::write(folder.join("job.toml"), job).expect("written");
            let driven: String = (1..=12).map(|hole| format!("B1,{hole},sound\n")).collect();
            std::fs::write(folder.join("driven.csv"), format!("row,hole,condition\n{driven}")).expect("written");
            command
        })
    };
    let open = inspected("", "--format json").json(0)["result"].clone();
    assert_eq!((&open["state"], &open["looks"][0]["found"]), (&json!("accepted-so-far"), &Value::Null));
    let run = inspected("", "");
    let text = run.printed(0);
    assert!(text.contains("Every rivet is accepted, but not every other place was looked at.\n"), "{text}");
    assert!(text.contains("Still to look at\nbehind the tank\n"), "{text}");
    let seen = inspected("found = \"sound\"\n", "--format json").json(0)["result"].clone();
    assert_eq!((&seen["state"], &seen["looks"][0]["found"]), (&json!("accepted"), &json!("sound")));
}
