//! The limits of both built-in practices, each against the row that it comes from.

use std::collections::BTreeMap;

use shophead::basis::Status;
use shophead::length::Length;
use shophead::practice::{BUILT_IN, HeadScope, Limit, Practice, Value};
use shophead_tests::{Comparison, Row, fixture};

/// How the limit's value stands in its row.
#[derive(Clone, Copy)]
enum Stands {
    /// The cell is the value in inches, or as a plain ratio or number.
    AsIs(&'static str),
    /// The cell is a multiple of the shank diameter.
    TimesD(&'static str),
    /// The cell says it in words: the column, the words that must stand there, the value that they mean.
    InWords(&'static str, &'static str, &'static str),
}

use Stands::{AsIs, InWords, TimesD};

/// Limit, fixture, row in it, cell. The limit is named as [`key`] does; `both` is short for a line in either practice.
type Line = (&'static str, &'static str, &'static str, Stands);

#[rustfmt::skip]
const LINES: &[Line] = &[
    // choosing a rivet
    ("both rule-of-thumb-tail", "layout-rules", "LEN-02", InWords("preferred", "grip + 1.5 D", "1.5 D")),
    ("both length-rounding", "handbook-worked-examples", "W02", InWords("check", "the answer is the NEAREST 1/16", "nearest")),
    ("both diameter-per-thickness-least", "layout-rules", "DIA-01", InWords("min", "t thickest", "1")),
    ("both diameter-per-thickness-greatest", "layout-rules", "DIA-01", InWords("max", "3 t thickest", "3")),
    ("handbook diameter-per-thickness-target", "ac43-rules", "DIA-01", InWords("value", "about 3", "3")),
    ("process diameter-per-thickness-target", "layout-rules", "DIA-02", InWords("preferred", "3 t thickest", "3")),
    ("both diameter-structural-least", "layout-rules", "DIA-04", AsIs("min")),
    // driven heads
    ("handbook driven-head-diameter-least", "upset-head-limits", "UH-09", TimesD("dia_min_D")),
    ("handbook driven-head-diameter-least 7050", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("both driven-head-diameter-target", "driven-head", "DH-04", TimesD("head_dia_nominal")),
    ("handbook driven-head-diameter-greatest 1100", "driven-head", "DH-07", TimesD("head_dia_max")),
    ("handbook driven-head-diameter-greatest 2117", "driven-head", "DH-07", TimesD("head_dia_max")),
    ("handbook driven-head-diameter-greatest 5056", "driven-head", "DH-07", TimesD("head_dia_max")),
    ("handbook driven-head-diameter-greatest 2017", "driven-head", "DH-07", TimesD("head_dia_max")),
    ("handbook driven-head-diameter-greatest 2024", "driven-head", "DH-08", TimesD("head_dia_max")),
    ("handbook driven-head-height-least", "upset-head-limits", "UH-09", TimesD("height_min_D")),
    ("both driven-head-height-target", "ac43-rules", "DRV-04", InWords("value", "height 0.5", "0.5 D")),
    ("both driven-head-height-greatest", "driven-head", "DH-07", TimesD("head_height_max")),
    ("process driven-head-diameter-least 1/16", "upset-head-limits", "UH-01", AsIs("head_dia_min_in")),
    ("process driven-head-diameter-least 3/32", "upset-head-limits", "UH-02", AsIs("head_dia_min_in")),
    ("process driven-head-diameter-least 1/8", "upset-head-limits", "UH-03", AsIs("head_dia_min_in")),
    ("process driven-head-diameter-least 5/32", "upset-head-limits", "UH-04", AsIs("head_dia_min_in")),
    ("process driven-head-diameter-least 3/16", "upset-head-limits", "UH-05", AsIs("head_dia_min_in")),
    ("process driven-head-diameter-least 1/4", "upset-head-limits", "UH-06", AsIs("head_dia_min_in")),
    ("process driven-head-diameter-least", "upset-head-limits", "UH-07", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 1/16", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 3/32", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 1/8", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 5/32", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 3/16", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 1/4", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 5/16", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-diameter-least 7050 3/8", "upset-head-limits", "UH-10", TimesD("dia_min_D")),
    ("process driven-head-height-least 1/16", "upset-head-limits", "UH-01", AsIs("head_height_min_in")),
    ("process driven-head-height-least 3/32", "upset-head-limits", "UH-02", AsIs("head_height_min_in")),
    ("process driven-head-height-least 1/8", "upset-head-limits", "UH-03", AsIs("head_height_min_in")),
    ("process driven-head-height-least 5/32", "upset-head-limits", "UH-04", AsIs("head_height_min_in")),
    ("process driven-head-height-least 3/16", "upset-head-limits", "UH-05", AsIs("head_height_min_in")),
    ("process driven-head-height-least 1/4", "upset-head-limits", "UH-06", AsIs("head_height_min_in")),
    ("process driven-head-height-least", "upset-head-limits", "UH-07", TimesD("height_min_D")),
    ("process driven-head-height-greatest 3/32", "upset-head-limits", "UH-02", AsIs("head_height_max_in")),
    ("process driven-head-height-greatest 1/8", "upset-head-limits", "UH-03", AsIs("head_height_max_in")),
    ("process driven-head-height-greatest 5/32", "upset-head-limits", "UH-04", AsIs("head_height_max_in")),
    ("process crack-free-circle", "upset-head-limits", "UH-11", InWords("limit", "1.10 times the nominal shank diameter", "1.1 D")),
    ("process cracks-greatest", "upset-head-limits", "UH-13", InWords("note", "up to four separate cracks", "4")),
    ("both tool-mark-depth-greatest protruding", "upset-head-limits", "UH-14", InWords("limit", "one quarter of the head height", "1/4")),
    ("process flush-head-proud-greatest flush 3/32", "layout-rules", "FLUSH-02", AsIs("max")),
    // holes
    ("handbook hole-drill 1/16", "rivet-hole-drills", "RD-12", AsIs("final_drill_in")),
    ("handbook hole-drill 3/32", "rivet-hole-drills", "RD-07", AsIs("final_drill_in")),
    ("handbook hole-drill 1/8", "rivet-hole-drills", "RD-08", AsIs("final_drill_in")),
    ("handbook hole-drill 5/32", "rivet-hole-drills", "RD-09", AsIs("final_drill_in")),
    ("handbook hole-drill 3/16", "rivet-hole-drills", "RD-10", AsIs("final_drill_in")),
    ("handbook hole-drill 1/4", "rivet-hole-drills", "RD-11", AsIs("final_drill_in")),
    ("handbook hole-drill 5/16", "rivet-hole-drills", "RD-18", AsIs("final_drill_in")),
    ("handbook hole-drill 3/8", "rivet-hole-drills", "RD-19", AsIs("final_drill_in")),
    ("process hole-drill 1/16", "hdbk5-hole-diameters", "1/16", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 3/32", "hdbk5-hole-diameters", "3/32", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 1/8", "hdbk5-hole-diameters", "1/8", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 5/32", "hdbk5-hole-diameters", "5/32", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 3/16", "hdbk5-hole-diameters", "3/16", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 1/4", "hdbk5-hole-diameters", "1/4", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 5/16", "hdbk5-hole-diameters", "5/16", AsIs("nominal_hole_dia_in")),
    ("process hole-drill 3/8", "hdbk5-hole-diameters", "3/8", AsIs("nominal_hole_dia_in")),
    ("both hole-drill", "hole-limits", "HL-12", InWords("source", "smallest number or letter drill that is not smaller than the largest shank", "shank")),
    ("process hole-least 3/32", "hole-limits", "HL-01", AsIs("hole_min_in")),
    ("process hole-greatest 3/32", "hole-limits", "HL-01", AsIs("hole_max_in")),
    ("both hole-greatest 5/16", "hdbk5-hole-diameters", "5/16", AsIs("nominal_hole_dia_in")),
    ("both hole-greatest 3/8", "hdbk5-hole-diameters", "3/8", AsIs("nominal_hole_dia_in")),
    ("both hole-greatest", "rivet-hole-drills", "RD-20", InWords("note", "0.002 to 0.004 in", "shank + .004")),
    ("both countersink-sheet-least 3/32", "countersink-dimple", "CD-04", AsIs("value")),
    ("both countersink-sheet-least 1/8", "countersink-dimple", "CD-05", AsIs("value")),
    ("both countersink-sheet-least 5/32", "countersink-dimple", "CD-06", AsIs("value")),
    ("both countersink-sheet-least 3/16", "countersink-dimple", "CD-07", AsIs("value")),
    ("both countersink-sheet-least 1/4", "countersink-dimple", "CD-08", AsIs("value")),
    ("both countersink-depth-share flush", "countersink-dimple", "CD-01", InWords("value", "countersink where the sheet is thicker than the rivet head", "1")),
    ("both countersink-depth-preferred flush", "countersink-dimple", "CD-09", InWords("value", "2/3 of the sheet", "2/3")),
    ("both dimple-sheet-greatest flush", "countersink-dimple", "CD-02", AsIs("value")),
    ("both pattern-steps-share", "repair-limits", "RL-05", InWords("value", "20 % of the rivets", "20 %")),
    ("both pattern-steps-count", "repair-limits", "RL-05", InWords("value", "or 10, whichever is less", "10")),
    ("both neighbours-stepped", "repair-limits", "RL-06", AsIs("value")),
    // layout
    ("handbook edge-distance-least protruding", "ac43-rules", "ED-02", TimesD("value")),
    ("handbook edge-distance-least flush", "layout-rules", "EDGE-01", TimesD("min")),
    ("handbook edge-distance-preferred protruding", "layout-rules", "EDGE-07", InWords("preferred", "2 + 1/16 in", "2 D + 1/16")),
    ("handbook edge-distance-preferred flush", "layout-rules", "EDGE-08", InWords("preferred", "2.5 + 1/16 in", "2.5 D + 1/16")),
    ("handbook edge-distance-greatest", "layout-rules", "EDGE-02", TimesD("max")),
    ("process edge-distance-least protruding 3/32", "edge-margin-limits", "EM-01", AsIs("min")),
    ("process edge-distance-least protruding", "layout-rules", "EDGE-02", TimesD("min")),
    ("process edge-distance-least flush", "layout-rules", "EDGE-01", TimesD("min")),
    ("handbook pitch-least protruding", "ac43-rules", "ED-03", TimesD("value")),
    ("handbook pitch-least protruding 2 rows", "ac43-rules", "ED-08", TimesD("value")),
    ("handbook pitch-least flush", "layout-rules", "PITCH-16", TimesD("min")),
    ("handbook pitch-least flush 2 rows", "layout-rules", "PITCH-14", TimesD("min")),
    ("handbook pitch-greatest", "layout-rules", "PITCH-02", TimesD("max")),
    ("process pitch-least", "layout-rules", "PITCH-01", TimesD("min")),
    ("process pitch-greatest", "layout-rules", "PITCH-01", TimesD("max")),
    ("both transverse-pitch-least", "layout-rules", "ROW-04", TimesD("min")),
    // strength
    ("both inter-rivet-fixity protruding", "inter-rivet-rules", "JR-01", AsIs("protruding")),
    ("both inter-rivet-fixity flush", "inter-rivet-rules", "JR-01", AsIs("flush")),
    ("both inter-rivet-elastic-share", "inter-rivet-rules", "JR-02", AsIs("share")),
    // removal
    ("both removal-drill-below", "removal", "RM-02", InWords("value", "one size smaller than the shank", "1")),
];

/// Limits that no document read gives: each is a rule of thumb and has to say so.
const NO_ROW: &[(&str, &str)] = &[
    ("both tail-greatest", "no document gives a length at which a tail folds over; forging rules give 3 D"),
    ("both bar-thickness", "a bar is what the shop has"),
    ("both removal-thick-pack", "experience"),
    ("both removal-many-layers", "experience"),
    ("both removal-thin-far-side", "experience"),
];

/// Limits that are held weaker than their row, and why. Never the other way round.
const WEAKER_THAN_ITS_ROW: &[(&str, &str)] = &[(
    "process flush-head-proud-greatest flush 3/32",
    "the quotation was read, but it names no document and no clause",
)];

/// What a basis calls a document, and what the fixtures call it.
const DOCUMENTS: &[(&str, &str)] = &[
    ("FAA airframe question bank", "FAA airframe mechanic question bank"),
    ("US Army AL0992", "US Army subcourse AL0992"),
    ("computed", "smallest number or letter drill that is not smaller than the largest shank"),
    ("MIL-HDBK-5", "MIL-HDBK-5H/5J"),
];

/// `practice name [head] [alloy] [diameter] [rows]`, only what the limit's scope names.
fn key(practice: &Practice<'_>, limit: &Limit) -> String {
    let mut key = format!("{} {}", practice.name(), limit.name.as_str());
    let scope = limit.scope;
    let head = scope.head.map(|head| match head {
        HeadScope::Protruding => "protruding".to_owned(),
        HeadScope::Flush => "flush".to_owned(),
    });
    let alloy = scope.alloy.map(|alloy| format!("{alloy:?}").trim_start_matches("Al").to_owned());
    let diameter = scope.diameter.map(|diameter| diameter.to_64ths().to_string());
    let rows = scope.rows.map(|rows| format!("{rows} rows"));
    for part in [head, alloy, diameter, rows].into_iter().flatten() {
        key.push(' ');
        key.push_str(&part);
    }
    key
}

/// `both` as one name a practice.
fn written_out(name: &str) -> Vec<String> {
    match name.strip_prefix("both ") {
        Some(rest) => BUILT_IN.iter().map(|practice| format!("{} {rest}", practice.name())).collect(),
        None => vec![name.to_owned()],
    }
}

fn built_in() -> BTreeMap<String, Limit> {
    let mut limits = BTreeMap::new();
    for practice in BUILT_IN {
        for limit in practice.limits() {
            let twice = limits.insert(key(practice, &limit), limit);
            assert!(twice.is_none(), "{} stands twice: the second could never apply", key(practice, &limit));
        }
    }
    limits
}

fn row_of<'r>(rows: &'r [Row], id: &str) -> &'r Row {
    let column = ["id", "rule_id", "example_id", "rivet_dia"];
    let found = rows.iter().find(|row| column.iter().any(|column| row.has(column) && row.text(column) == id));
    found.unwrap_or_else(|| panic!("no row {id}"))
}

/// What stands in the row: common practice where it names no document, memory where it was recalled or computed.
fn status_of(row: &Row) -> Status {
    if row.text("source").starts_with("common practice") {
        Status::Practice
    } else if row.is_read() {
        Status::Published
    } else {
        Status::Memory
    }
}

/// Exact: a limit is either the printed figure or it is not.
#[test]
fn every_limit_carries_its_printed_value_its_document_and_its_status() {
    let limits = built_in();
    let mut cells = Comparison::with_misfits(&[]);
    for (names, name_of_fixture, id, stands) in LINES {
        let rows = fixture(name_of_fixture);
        let row = row_of(&rows, id);
        for name in written_out(names) {
            let limit = limits.get(&name).unwrap_or_else(|| panic!("{name}: no such limit any more"));
            let printed = match *stands {
                AsIs(column) => row.text(column).to_owned(),
                TimesD(column) => format!("{} D", row.text(column)),
                InWords(column, words, meaning) => {
                    assert!(row.text(column).contains(words), "{}: {column} does not say {words}", row.place());
                    meaning.to_owned()
                }
            };
            cells.equal(&format!("{name} value"), Value::parse(limit.name, &printed), Ok(limit.value));
            if WEAKER_THAN_ITS_ROW.iter().any(|(weaker, _)| *weaker == name) {
                cells.equal(&format!("{name} weaker"), true, limit.basis.status() > status_of(row));
            } else {
                cells.equal(&format!("{name} status"), status_of(row), limit.basis.status());
                let document = limit.basis.citation().expect("built in").document;
                let known = DOCUMENTS.iter().find(|(ours, _)| *ours == document).map_or(document, |(_, theirs)| theirs);
                cells.equal(&format!("{name} names its document"), known, names_document(row, known));
            }
        }
    }
    cells.finish(2 * LINES.len());
}

/// The document if the row names it, else the row's source. A row that continues the pattern of a document names that document in
/// a column of its own.
fn names_document<'r>(row: &'r Row, document: &'r str) -> &'r str {
    let continues = row.has("document") && row.text("document") == format!("pattern of {document} table III");
    if continues || row.text("source").starts_with(document) { document } else { row.text("source") }
}

#[test]
fn no_limit_stands_without_a_row_or_a_reason() {
    let mut accounted = BTreeMap::new();
    for name in LINES.iter().map(|(names, ..)| names).chain(NO_ROW.iter().map(|(names, _)| names)) {
        for name in written_out(name) {
            assert_eq!(accounted.insert(name.clone(), ()), None, "{name} is accounted for twice");
        }
    }
    let limits = built_in();
    let without: Vec<&String> = limits.keys().filter(|name| !accounted.contains_key(*name)).collect();
    assert!(without.is_empty(), "limits without a source in the fixtures: {without:#?}");
    let gone: Vec<&String> = accounted.keys().filter(|name| !limits.contains_key(*name)).collect();
    assert!(gone.is_empty(), "accounted for but no longer there: {gone:#?}");
    for (names, reason) in NO_ROW {
        for name in written_out(names) {
            assert_eq!(limits[&name].basis.status(), Status::Practice, "{name}: {reason}");
        }
    }
}

/// Figure 4-97 and figure 4-81 were recalled twice, with different figures; the circular and the strength handbook are firmer.
/// What the practice does with each contradiction stands here, so that a change of it is seen.
#[test]
fn contradictions_are_settled_as_said() {
    let limits = built_in();
    let value = |name: &str| limits[name].value;
    let cell = |fixture_name: &str, id: &str, column: &str| {
        let rows = fixture(fixture_name);
        let text = format!("{} D", row_of(&rows, id).text(column));
        Value::parse(shophead::practice::Name::PitchLeast, &text).expect("a multiple")
    };
    // The circular's 3 D was read, the handbook's 3.5 D was not; of the two recalled flush pitches the stricter is held.
    for (held, recalled) in
        [("handbook pitch-least protruding", "PITCH-15"), ("handbook pitch-least flush", "PITCH-13")]
    {
        let recalled = cell("layout-rules", recalled, "min");
        assert_eq!(recalled.to_string(), "3.5 D");
        assert_ne!(value(held), recalled);
    }
    // 0.66 D is the larger of the two recalled heights.
    assert_ne!(value("handbook driven-head-height-greatest"), cell("driven-head", "DH-09", "head_height_max"));
    // The least width of the strength handbook was read, and lies between the two that were recalled.
    let least = |value: Value| match value {
        Value::Diameters { num, den, .. } => f64::from(num) / f64::from(den),
        other => panic!("{other}"),
    };
    let recalled = ["DH-07", "DH-09"].map(|id| least(cell("driven-head", id, "head_dia_min")));
    let held = least(value("handbook driven-head-diameter-least"));
    assert!(recalled[0] < held && held < recalled[1], "{recalled:?} {held}");
}

/// The same rows stand in two of the surveys: they have to agree before either is proof.
#[test]
fn the_two_surveys_of_one_rule_agree() {
    let (layout, rules) = (fixture("layout-rules"), fixture("ac43-rules"));
    let number = |rows: &[Row], id: &str, column: &str| {
        let text = row_of(rows, id).text(column).to_owned();
        Length::parse(text.split(' ').next().expect("a word")).expect("a figure")
    };
    assert_eq!(number(&layout, "DIA-04", "min"), number(&rules, "X-01", "value"));
    assert_eq!(number(&layout, "PITCH-01", "min"), number(&rules, "X-05", "value"));
    let (margins, dimples) = (fixture("edge-margin-limits"), fixture("countersink-dimple"));
    assert_eq!(number(&layout, "EDGE-06", "min"), number(&margins, "EM-01", "min"));
    assert_eq!(number(&dimples, "CD-02", "value"), number(&rules, "X-10", "value"));
    assert_eq!(row_of(&layout, "LEN-01").text("preferred"), row_of(&rules, "X-04").text("value"));
}
