//! The limits of both built-in practices, each against the row that it comes from.

use std::collections::BTreeMap;

use shophead::basis::{Basis, Status};
use shophead::length::Length;
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, HANDBOOK, Limit, Name, Practice, Value};
use shophead::rivet::Head;
use shophead_tests::{Comparison, Row, fixture};

/// How the limit's value stands in its row.
#[derive(Clone, Copy)]
enum Stands {
    /// The row says this, word for word, and it means this value.
    Says(&'static str, &'static str),
    /// In another fixture: the cell is the value as a plain ratio or number.
    AsIs(&'static str, &'static str),
    /// In another fixture: the column, the words that must stand there, the value that they mean.
    InWords(&'static str, &'static str, &'static str, &'static str),
}

use Stands::{AsIs, InWords, Says};

/// Limit, row, what stands there. The limit is named as [`key`] does; `both` is short for a line in either practice.
type Line = (&'static str, &'static str, Stands);

const GAP: &str =
    "reject: any gap inside a continuous 60 % of the circumference; in the other 40 % a feeler over 0.002 in enters";
const STEP: &str = "next diameter listed in the part standard; not over 1/32 in up to 1/4, 1/16 in above";
const CLEARANCE: &str = "usual clearance of hole over shank 0.002 to 0.004 in";
const PATTERN: &str = "20 % of the rivets or 10, whichever is less";
const STRETCH: &str = "half of the rivets in any 10 in length";
const FLUSHNESS: &str = "0.010 above to 0.005 below";

#[rustfmt::skip]
const LINES: &[Line] = &[
    // choosing a rivet
    ("both rule-of-thumb-tail", "LEN-02", Says("grip + 1.5 D", "1.5 D")),
    ("both length-rounding", "W02", InWords("handbook-worked-examples", "check", "the answer is the NEAREST 1/16", "nearest")),
    ("both diameter-per-thickness-least", "DIA-01a", Says("t thickest", "1")),
    ("both diameter-per-thickness-target", "DIA-07", Says("next larger size above 3 t", "3")),
    ("both diameter-per-thickness-greatest", "DIA-01b", Says("3 t thickest", "3")),
    ("both diameter-structural-least", "DIA-04", Says("3/32", "3/32")),
    // driven heads
    ("both driven-head-diameter-least", "HD-01a", Says("1.3 D", "1.3 D")),
    ("handbook driven-head-diameter-least 7050", "HD-01b", Says("1.4 D", "1.4 D")),
    ("both driven-head-diameter-for-strength 7050", "HD-01b", Says("1.4 D", "1.4 D")),
    ("both driven-head-diameter-target", "HD-03", Says("1.5 D", "1.5 D")),
    ("handbook driven-head-height-least", "HD-02a", Says("0.3 D", "0.3 D")),
    ("both driven-head-height-target", "HD-04", Says("diameter 1.5; height 0.5", "0.5 D")),
    ("both out-of-round-greatest", "UH-21", Says("reject: longest dimension over 1.5 times the shortest", "1.5")),
    ("process crack-free-circle", "UH-28", Says("reject: any crack inside a concentric circle of 1.10 D nominal", "1.1 D")),
    ("handbook cracks-greatest", "RC-20", Says("any crack", "0")),
    ("process cracks-greatest", "UH-30", Says("reject: five or more", "4")),
    ("process cracks-greatest 2024", "UH-27", Says("reject: any crack", "0")),
    ("handbook crack-within-circle", "UH-42", Says("length inside a circle of at most 1.25 D", "1.25 D")),
    ("process manufactured-crack-free-circle protruding", "UH-31", Says("reject: inside a concentric circle of 1.40 D nominal", "1.4 D")),
    ("handbook manufactured-cracks-greatest", "RC-20", Says("any crack", "0")),
    ("both gap-under-head-greatest", "UH-33", Says(GAP, ".002")),
    ("both gap-rim-share", "UH-33", Says(GAP, "40 %")),
    ("both gap-between-sheets", "UH-35", Says("reject: a 0.002 in feeler enters from any side as far as the shank", ".002")),
    ("both tool-mark-depth-greatest protruding", "UH-14", Says("accept if no deeper than one quarter of the head height", "1/4")),
    ("both flush-head-above-greatest flush", "RL-21", Says(FLUSHNESS, ".010")),
    ("both flush-head-below-greatest flush", "RL-21", Says(FLUSHNESS, ".005")),
    // holes
    ("both hole-drill", "1/8 + 1/64", InWords("hole-limits", "source", "smallest number or letter drill that is not smaller than the largest shank", "shank")),
    ("both hole-drilled-greatest", "RD-20", Says(CLEARANCE, "shank + .004")),
    ("both hole-greatest", "RD-20", Says(CLEARANCE, "shank + .004")),
    ("both countersink-depth-share flush", "CD-01", Says("countersink where the sheet is thicker than the rivet head, else dimple", "1")),
    ("both countersink-depth-preferred flush", "CD-09", Says("2/3 of the sheet", "2/3")),
    ("both dimple-sheet-greatest flush", "CD-02", Says("0.040", ".040")),
    ("process step-greatest 1/16", "RL-01", Says(STEP, "1/32")),
    ("process step-greatest 3/32", "RL-01", Says(STEP, "1/32")),
    ("process step-greatest 1/8", "RL-01", Says(STEP, "1/32")),
    ("process step-greatest 5/32", "RL-01", Says(STEP, "1/32")),
    ("process step-greatest 3/16", "RL-01", Says(STEP, "1/32")),
    ("process step-greatest 7/32", "RL-01", Says(STEP, "1/32")),
    ("process step-greatest", "RL-01", Says(STEP, "1/16")),
    ("both pattern-steps-share", "RL-05", Says(PATTERN, "20 %")),
    ("both pattern-steps-count", "RL-05", Says(PATTERN, "10")),
    ("both neighbours-stepped", "RL-06", Says("2", "2")),
    ("both pattern-stretch", "RL-06c", Says(STRETCH, "10")),
    ("both pattern-stretch-share", "RL-06c", Says(STRETCH, "1/2")),
    // layout
    ("both edge-distance-least protruding", "ED-02", Says("2 D", "2 D")),
    ("both edge-distance-least flush", "EDGE-01a", Says("2.5 D", "2.5 D")),
    ("both edge-distance-as-built-least", "EDGE-03", Says("1.5 D: under 1.5 D the rivet may not stay: bolt instead (battle-damage manual)", "1.5 D")),
    ("both edge-distance-preferred protruding", "EDGE-07", Says("2 + 1/16 in", "2 D + 1/16")),
    ("both edge-distance-preferred flush", "EDGE-08", Says("2.5 + 1/16 in", "2.5 D + 1/16")),
    ("both edge-distance-greatest", "EDGE-02b", Says("4 D", "4 D")),
    ("both pitch-least", "ED-03", Says("3 D", "3 D")),
    ("both pitch-least 2 rows", "ED-08", Says("4 D; derived: 40 rivets of 1/8 in two rows over 10 in = 0.5 in pitch", "4 D")),
    ("both pitch-greatest", "PITCH-02", Says("10 D", "10 D")),
    ("both transverse-pitch-least", "ROW-04", Says("2.5 D", "2.5 D")),
    ("process transverse-pitch-share after a step up", "EM-02", Says("0.866 x drawing pitch", "0.866")),
    // strength
    ("both inter-rivet-fixity protruding", "JR-01", AsIs("inter-rivet-rules", "protruding")),
    ("both inter-rivet-fixity flush", "JR-01", AsIs("inter-rivet-rules", "flush")),
    ("both inter-rivet-elastic-share", "JR-02", AsIs("inter-rivet-rules", "share")),
    // removal
    ("both removal-drill-below", "RM-02", Says("one size smaller than the shank", "1")),
];

/// Rows that are no limit's figure, word for word, and what holds the product against them.
const ELSEWHERE: &[(&str, &str, &str)] = &[
    ("HD-02b", "0.3 D", "the limit for every alloy"),
    ("UH-20", "reject: shortest dimension under the table III least diameter", "heads"),
    ("UH-22", "reject: height over table III", "heads"),
    ("UH-23", "reject: least or greatest height outside table III", "heads"),
    (
        "UH-24",
        "reject: least or greatest height outside table III; the high part may be removed to come within",
        "heads",
    ),
    (
        "UH-26",
        "reject: hole or deburred surface visible; or periphery not upset all round; or clubbed part over table III height",
        "heads",
    ),
    ("UH-29", "reject: intersecting cracks", "heads"),
    ("UH-32", "reject: cracked, cut or ringed", "heads"),
    ("UH-34", "reject: any gap", "heads"),
    ("UH-36", "reject", "heads"),
    ("UH-40", "depth under D/8", "printed beside the circular's rule"),
    ("UH-41", "width under D/16", "printed beside the circular's rule"),
    ("UH-43", "cracks must not intersect", "printed beside the circular's rule"),
    ("UH-15", "a cut or ring is not accepted", "heads"),
    (
        "RL-03",
        "row spacing, pitch (VII) and edge margin (VIII) minima kept; 3.4.3 kept (printed 3.5.3, misprint)",
        "holes",
    ),
    ("RL-04", "pitch and edge margin kept, sheet thick enough, 3.4.3 kept", "holes"),
    ("RL-10", "edge distance and spacing minima kept; same or greater strength", "holes"),
    ("RL-30", "after reworking the hole; edge distance of the larger rivet kept", "holes"),
    ("CD-03", "0.032", "holes"),
    ("ED-05", "duplicate the original, unless a structural deficiency is suspected", "layout"),
    ("EDGE-01b", "4 D", "the limit for every head"),
    ("EDGE-02a", "2 D", "the circular's figure, which comes first"),
    ("PITCH-01", "8 D", "the Army's 10 D is taken for a note; the Navy says seldom over 8 D"),
];

/// Limits that no document read gives: each is a rule of thumb and has to say so.
const NO_ROW: &[(&str, &str)] = &[
    ("both tail-greatest", "no document gives a length at which a tail folds over; forging rules give 3 D"),
    ("process driven-head-height-least", "for shanks between the sizes of table III"),
    ("both driven-head-diameter-greatest", "for sizes that the training sheet leaves out"),
    ("both driven-head-height-greatest", "for sizes that table III leaves out"),
    ("both metal-height-greatest", "for sizes that the training sheet leaves out"),
    ("both clean-up-least", "documents say that the damage comes out, not by how much: what a gauge tells apart"),
    ("both bar-thickness", "a bar is what the shop has"),
    ("both removal-thick-pack", "experience"),
    ("both removal-many-layers", "experience"),
    ("both removal-thin-far-side", "experience"),
];

/// Printed tables, each cell of which another test compares: `process_spec`, and the sheet below.
const TABLES: &[Basis] = &[
    Basis::SPEC_47196_TABLE_1,
    Basis::SPEC_47196_TABLE_2,
    Basis::SPEC_47196_TABLE_3,
    Basis::SPEC_47196_TABLE_3_MIDWAY,
    Basis::SPEC_47196_TABLE_4,
    Basis::SPEC_47196_TABLE_6,
    Basis::SPEC_47196_TABLE_7,
    Basis::SPEC_47196_TABLE_7_MISPRINT,
    Basis::SPEC_47196_TABLE_8_AB,
    Basis::SPEC_47196_TABLE_8_CD,
    Basis::TRAINING_SHEET,
];

/// What a basis calls a document, and what the fixtures call it.
const DOCUMENTS: &[(&str, &str)] = &[
    ("FAA airframe question bank", "FAA airframe mechanic question bank"),
    ("computed", "smallest number or letter drill that is not smaller than the largest shank"),
];

/// `practice name [head] [alloy] [diameter] [rows] [after a step up]`, only what the limit's scope names.
fn key(practice: &Practice<'_>, limit: &Limit) -> String {
    let mut key = format!("{} {}", practice.name(), limit.name.as_str());
    let scope = limit.scope;
    let head = scope.head.map(|head| head.as_str().to_owned());
    let alloy = scope.alloy.map(|alloy| format!("{alloy:?}").trim_start_matches("Al").to_owned());
    let diameter = scope.diameter.map(|diameter| diameter.to_64ths().to_string());
    let rows = scope.rows.map(|rows| format!("{rows} rows"));
    let stepped = scope.stepped.then(|| "after a step up".to_owned());
    for part in [head, alloy, diameter, rows, stepped].into_iter().flatten() {
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

fn row_of(stands: Stands, id: &str) -> Row {
    let (name, column) = match stands {
        Says(..) => ("practice-limits", "id"),
        AsIs(name, _) => (name, "id"),
        InWords("hole-limits", ..) => ("hole-limits", "rivet_dia"),
        InWords(name, ..) => (name, "example_id"),
    };
    let rows = fixture(name);
    rows.iter().find(|row| row.text(column) == id).unwrap_or_else(|| panic!("no row {id}")).clone()
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

/// Documents of which page and paragraph are known.
const WITH_PLACES: &[&str] = &["MIL-R-47196A(MI)", "AC 43.13-1B", "FAA-H-8083-31B", "MIL-HDBK-5H"];

/// Exact: a limit is either the printed figure or it is not.
#[test]
fn every_limit_carries_its_printed_value_its_document_and_its_status() {
    let limits = built_in();
    let mut cells = Comparison::with_misfits(&[]);
    for (names, id, stands) in LINES {
        let row = row_of(*stands, id);
        for name in written_out(names) {
            let limit = limits.get(&name).unwrap_or_else(|| panic!("{name}: no such limit any more"));
            let printed = match *stands {
                Says(words, meaning) => {
                    assert_eq!(row.text("says"), words, "{}", row.place());
                    meaning.to_owned()
                }
                AsIs(_, column) => row.text(column).to_owned(),
                InWords(_, column, words, meaning) => {
                    assert!(row.text(column).contains(words), "{}: {column} does not say {words}", row.place());
                    meaning.to_owned()
                }
            };
            cells.equal(&format!("{name} value"), Value::parse(limit.name, &printed), Ok(limit.value));
            cells.equal(&format!("{name} status"), status_of(&row), limit.basis.status());
            let cited = limit.basis.citation().expect("built in");
            let alias = DOCUMENTS.iter().find(|(ours, _)| *ours == cited.document);
            let aliases = [Some(cited.document), alias.map(|(_, theirs)| *theirs)];
            let source = row.text("source");
            let named = aliases.into_iter().flatten().any(|name| source.starts_with(name) || source.contains(name));
            cells.equal(&format!("{name} names its document"), (source, true), (source, named));
            if WITH_PLACES.contains(&cited.document) {
                let place = cited.place.split([':', ';']).next().unwrap_or_default();
                let place = place.split(", which").next().unwrap_or_default();
                let place = place.split(", derived").next().unwrap_or_default();
                cells.equal(&format!("{name} place"), (source, true), (source, source.contains(place)));
            }
        }
    }
    cells.finish(3 * LINES.len());
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
    let of_a_table = |name: &String| TABLES.contains(&limits[name].basis);
    let without: Vec<&String> =
        limits.keys().filter(|name| !accounted.contains_key(*name) && !of_a_table(name)).collect();
    assert!(without.is_empty(), "limits without a source in the fixtures: {without:#?}");
    let gone: Vec<&String> = accounted.keys().filter(|name| !limits.contains_key(*name)).collect();
    assert!(gone.is_empty(), "accounted for but no longer there: {gone:#?}");
    for (names, reason) in NO_ROW {
        for name in written_out(names) {
            assert_eq!(limits[&name].basis.status(), Status::Practice, "{name}: {reason}");
        }
    }
}

/// Nothing in the fixture goes unnoticed: every row is some limit's, or listed with what else it is checked against.
#[test]
fn every_row_of_the_fixture_is_compared_word_for_word() {
    for row in fixture("practice-limits") {
        let id = row.text("id");
        let by_limit = LINES.iter().any(|(_, known, stands)| *known == id && matches!(stands, Says(..)));
        let elsewhere = ELSEWHERE.iter().find(|(known, ..)| *known == id);
        match elsewhere {
            Some((_, says, _)) => assert_eq!((row.text("says"), row.is_read()), (*says, true), "{}", row.place()),
            None => assert!(by_limit, "{}: nothing is checked against {id}", row.place()),
        }
    }
}

/// The largest driven head of the training sheet, width and height as one volume. Its issuer is not named, and which column is which is
/// inferred: it bounds the metal of a tail and cautions, but rejects nothing.
#[test]
fn the_largest_head_is_that_of_the_training_sheet() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("training-sheet-heads") {
        assert!(row.is_read() && row.text("note").contains("inferred"), "{}", row.place());
        let diameter = Length::parse(row.text("rivet_dia")).expect("a size");
        let case = Case::new(Head::Universal, RivetAlloy::Al2024, diameter);
        for practice in BUILT_IN {
            for (column, name) in
                [("head_dia_max_in", Name::HeadDiameterGreatest), ("head_height_max_in", Name::MetalHeightGreatest)]
            {
                let given = practice.length(name, &case).expect("a limit");
                let cell = format!("{} {column} {}", practice.name(), row.text("rivet_dia"));
                cells.equal(&cell, Length::parse(row.text(column)), Ok(given.value));
                let document = given.basis.citation().expect("built in").document;
                cells.equal(&format!("{cell} source"), true, row.text("source").starts_with(document));
            }
        }
    }
    cells.finish(8 * 2 * 2 * 2);
    // The pattern for other sizes is the least multiple of the sheet.
    let rows = fixture("training-sheet-heads");
    let least = |column: &str| {
        let multiple = |row: &Row| {
            let part = |text: &str| Length::parse(text).expect("a length").to_inches_f64();
            part(row.text(column)) / part(row.text("rivet_dia"))
        };
        rows.iter().map(multiple).fold(f64::INFINITY, f64::min)
    };
    assert_eq!(format!("{:.2} {:.2}", least("head_dia_max_in"), least("head_height_max_in")), "1.68 0.64");
    let other = Case::new(Head::Universal, RivetAlloy::Al2117, Length::INCH);
    for (name, multiple) in [(Name::HeadDiameterGreatest, "1.68"), (Name::MetalHeightGreatest, ".64")] {
        let given = HANDBOOK.length(name, &other).expect("a limit");
        assert_eq!((given.value, given.basis.status()), (Length::parse(multiple).expect("one"), Status::Practice));
    }
}

/// Where a handbook answers a question, the specification is not asked; where it is silent, it is, and before anything recalled.
#[test]
fn each_practice_says_what_its_own_documents_say() {
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
    let document = |practice: &Practice<'_>, name| {
        let given = practice.find(name, &case).unwrap_or_else(|| panic!("{name}"));
        given.basis.citation().expect("built in").document
    };
    for name in [Name::HeadDiameterLeast, Name::HeadHeightLeast] {
        assert_eq!((document(BUILT_IN[0], name), document(BUILT_IN[1], name)), ("MIL-HDBK-5H", "MIL-R-47196A(MI)"));
    }
    for name in
        [Name::HoleDrill, Name::HoleLeast, Name::HoleGreatest, Name::HeadHeightGreatest, Name::PatternStepsCount]
    {
        for practice in BUILT_IN {
            assert_eq!(document(practice, name), "MIL-R-47196A(MI)", "{} {name}", practice.name());
        }
    }
    assert_eq!(document(BUILT_IN[0], Name::CracksGreatest), "AC 43.13-1B");
    assert_eq!(
        BUILT_IN[0].find(Name::StepGreatest, &case),
        None,
        "the circular says the next larger size, and no more"
    );
}

/// A recalled limit is there only where nothing that was read answers the same question.
#[test]
fn no_recalled_limit_stands_beside_one_that_was_read() {
    for practice in BUILT_IN {
        let limits: Vec<Limit> = practice.limits().collect();
        for recalled in limits.iter().filter(|limit| limit.basis.status() == Status::Memory) {
            let answered = limits.iter().any(|read| {
                let at_least_as_wide = read.scope.diameter.is_none() || read.scope.diameter == recalled.scope.diameter;
                read.name == recalled.name
                    && read.basis.status() != Status::Memory
                    && read.scope.head == recalled.scope.head
                    && !read.scope.stepped
                    && at_least_as_wide
            });
            assert!(!answered, "{} {}", practice.name(), recalled.name);
        }
    }
}
