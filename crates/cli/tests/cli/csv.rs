//! CSV: a header line, rows, lengths in the units asked for.

use crate::{EXAMPLES, shophead, with_units};

/// Header and rows of a run.
#[track_caller]
fn table(typed: &str, status: i32) -> (Vec<String>, Vec<Vec<String>>) {
    let run = shophead(&format!("{typed} --format csv"));
    let mut reader = csv::Reader::from_reader(run.printed(status).as_bytes());
    let strings = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect::<Vec<_>>();
    let header = strings(reader.headers().expect("a header line"));
    let rows = reader.records().map(|record| strings(&record.expect("as many cells as columns"))).collect();
    (header, rows)
}

#[track_caller]
fn cell(typed: &str, status: i32, column: &str) -> String {
    let (header, rows) = table(typed, status);
    let index = header.iter().position(|name| name == column).unwrap_or_else(|| panic!("no {column} in {header:?}"));
    rows[0][index].clone()
}

#[test]
fn every_command_has_one_header_and_rows_to_match() {
    for (typed, status) in EXAMPLES {
        let (header, rows) = table(typed, *status);
        assert!(!rows.is_empty(), "{typed}");
        for (index, name) in header.iter().enumerate() {
            assert!(!name.is_empty() && !header[..index].contains(name), "{typed}: {name}");
        }
    }
}

#[test]
fn cells_say_what_the_text_says() {
    let (length, head, hole, joint, splice, part) =
        (EXAMPLES[0].0, EXAMPLES[1].0, EXAMPLES[2].0, EXAMPLES[3].0, EXAMPLES[4].0, EXAMPLES[5].0);
    for (typed, status, column, wanted) in [
        (length, 0, "part", "MS20470AD4-6"),
        (length, 0, "length_in", "0.375"),
        (length, 0, "protrusion_max_in", "0.232"),
        (length, 0, "window_height_min_in", "0.0375"),
        (length, 0, "window_height_max_in", "0.070"),
        (length, 0, "window_diameter_min_in", "0.1625"),
        (length, 0, "also_good", "MS20470AD4-4.5 MS20470AD4-5 MS20470AD4-5.5"),
        (length, 0, "by_hole", ""),
        (length, 0, "severity", "note"),
        (head, 0, "accepted", "true"),
        (head, 0, "diameter_min_in", "0.1625"),
        (hole, 0, "disposition", "oversize"),
        (hole, 0, "drill", "#27"),
        (hole, 0, "steps_tried", "keep clean-up oversize"),
        (joint, 0, "allowable_lbf", "373.935"),
        (joint, 0, "governing", "rivet-shear"),
        (splice, 1, "rivets_total", "62"),
        (splice, 1, "example_total", "48"),
        (splice, 1, "severity", "refer"),
        (part, 0, "part", "MS20470D6-10"),
        (part, 0, "written", "AN470D6-10"),
    ] {
        assert_eq!(cell(typed, status, column), wanted, "{typed}: {column}");
    }
}

#[test]
fn units_are_named_in_the_columns() {
    assert_eq!(cell(&format!("{} --units mm", with_units(EXAMPLES[0].0)), 0, "length_mm"), "9.525");
    assert_eq!(cell(&format!("{} --units mm", with_units(EXAMPLES[3].0)), 0, "allowable_n"), "1663.346");
}

#[test]
fn a_list_without_rows_still_has_its_header() {
    let (header, rows) = table("sources --status shop", 0);
    assert_eq!(header, ["group", "what", "value", "document", "place", "status"]);
    assert!(rows.is_empty());
}

#[test]
fn one_row_a_part() {
    assert_eq!(table("part MS20470AD4-5 MS20426AD3-4", 0).1.len(), 2);
}
