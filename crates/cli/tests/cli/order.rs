//! `shophead order` on the demo job: the shelf, what else on it would do, the tools.

use serde_json::Value;

use crate::shophead;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

fn ordered(more: &str) -> Value {
    shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv --format json {more}")).json(1)["result"].clone()
}

fn line<'v>(result: &'v Value, part: &str) -> &'v Value {
    let lines = result["lines"].as_array().expect("lines");
    lines.iter().find(|line| line["part"] == part).unwrap_or_else(|| panic!("no {part}"))
}

#[test]
fn what_is_bought_comes_in_packs_and_stepped_holes_get_their_oversize_rivets() {
    let result = ordered("");
    let of = |part: &str| ["needed", "spares", "stock", "buy"].map(|key| line(&result, part)[key].as_u64().expect(key));
    assert_eq!(of("MS20426AD5-8"), [93, 10, 140, 0]);
    assert_eq!(of("MS20426AD4-5"), [117, 12, 60, 100], "69 are missing, a pack holds 100");
    assert_eq!(of("MS20470AD5-6"), [56, 6, 0, 100], "62 are missing, a pack holds 50");
    assert_eq!(of("NAS1242AD5-6")[0], 2, "two holes of row A1 take an oversize shank");
}

#[test]
fn another_length_on_the_shelf_is_named_where_it_is_within_limits() {
    let result = ordered("");
    let alternatives = result["alternatives"].as_array().expect("alternatives");
    let named: Vec<(&str, &str, u64, u64)> = alternatives
        .iter()
        .map(|one| {
            let text = |key: &str| one[key].as_str().expect("text");
            let number = |key: &str| one[key].as_u64().expect("a number");
            (text("part"), text("alternative"), number("free"), number("holes"))
        })
        .collect();
    // The long -6 is on the shelf too, but its tail would fold in these packs; nothing is said of -8, which is not short.
    assert_eq!(named, [("MS20426AD4-4", "MS20426AD4-4.5", 80, 163), ("MS20426AD4-5", "MS20426AD4-4.5", 80, 117)]);
    assert_eq!(alternatives[1]["rows"], serde_json::json!(["C1", "C2"]));
    let without = shophead(&format!("order {DEMO}/job.toml --format json")).json(1);
    assert_eq!(without["result"]["alternatives"], serde_json::json!([]), "no shelf, no alternatives");
    let text = shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv"));
    assert!(text.printed(1).contains("MS20426AD4-4.5 for MS20426AD4-5: 80 free\n  for 117 holes: C1, C2\n"), "{text}");
}

#[test]
fn every_tool_is_listed_once() {
    let result = ordered("");
    let tools = result["tools"].as_array().expect("tools");
    let kinds: Vec<&str> = tools.iter().map(|tool| tool["kind"].as_str().expect("a kind")).collect();
    let mut seen: Vec<&str> = Vec::new();
    for kind in &kinds {
        if seen.last() != Some(kind) {
            assert!(!seen.contains(kind), "{kind} stands in two places");
            seen.push(kind);
        }
    }
    assert_eq!(seen, ["head-drill", "punch", "hole-drill-or-reamer", "hole-gauge"]);
    let of = |kind: &str, key: &str, value: &str| {
        tools.iter().find(|tool| tool["kind"] == kind && tool[key] == value).unwrap_or_else(|| panic!("{kind} {value}"))
    };
    assert_eq!(of("head-drill", "drill", "#31")["holes"], 296);
    assert_eq!(of("hole-drill-or-reamer", "drill", "#27")["rows"], serde_json::json!(["D1"]));
    let gauge = of("hole-gauge", "rivet", "MS20426AD4");
    assert_eq!((&gauge["min"]["in"], &gauge["max"]["in"]), (&0.1285.into(), &0.133.into()), "the shop's own limit");
    let text = shophead(&format!("order {DEMO}/job.toml"));
    assert!(text.printed(1).contains("\nTools\n"), "{text}");
    assert!(text.stdout.contains("drill or reamer #27 (.144) to open up: 1 hole\n  D1\n"), "{text}");
}

#[test]
fn a_row_of_csv_is_a_part() {
    let run = shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv --format csv"));
    let rows = run.printed(1).lines().skip(1).count();
    assert_eq!(rows, ordered("")["lines"].as_array().expect("lines").len());
    assert!(run.stdout.starts_with("part,needed,spares,stock,buy,mass_lb\n"), "{run}");
}
