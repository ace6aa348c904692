//! Edge distance and pitch as published, and the worked examples that use them.

use shophead::finding::{Code, Severity};
use shophead::installation::Installation;
use shophead::layout::{Edge, Point, RowLayout, closest};
use shophead::length::Length;
use shophead::material::RivetAlloy;
use shophead::practice::{Case, HANDBOOK, Name, PROCESS, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{Head, MS20426, MS20470, Size};
use shophead_tests::prelude::length;
use shophead_tests::{Row, fixture};

fn by(length: Length, nanometres: i64) -> Length {
    Length::from_nanometres(length.nanometres() + nanometres).expect("in range")
}

fn row(fixture_name: &str, id: &str) -> Row {
    let column = match fixture_name {
        "handbook-worked-examples" => "example_id",
        "layout-rules" => "rule_id",
        _ => "id",
    };
    let rows = fixture(fixture_name);
    rows.iter().find(|row| row.text(column) == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

/// So many tenths of a diameter; every diameter of the series is a multiple of ten nanometres.
fn times(diameter: Length, multiple: f64) -> Length {
    Length::from_nanometres(diameter.nanometres() / 10 * (multiple * 10.0).round() as i64).expect("in range")
}

enum What {
    Edge,
    Pitch,
    Transverse,
}

/// A rivet in so many rows.
fn installation<'a>(head: Head, size: &'static Size, rows: u16, practice: &'a Practice<'a>) -> Installation<'a, 'a> {
    let series = if head.is_flush() { &MS20426 } else { &MS20470 };
    let size = series.size(size.dash).expect("both series have the sizes");
    Installation::without_layers(Part::new(series, "AD", size).expect("a part")).rows(rows).by(practice)
}

fn found(what: &What, at: Length, question: &Installation<'_, '_>, code: Code) -> Option<Severity> {
    let layout = match what {
        What::Edge => RowLayout::default().edge(at),
        What::Pitch => RowLayout::default().pitch(at),
        What::Transverse => RowLayout::default().transverse_pitch(at),
    };
    let findings = question.layout(layout).findings();
    findings.iter().find(|finding| finding.code() == code).map(|finding| finding.severity())
}

/// Each row for every diameter: at the limit it holds, a nanometre beyond it does not.
#[test]
fn published_distances_hold_to_the_nanometre_for_every_diameter() {
    use What::{Edge, Pitch, Transverse};
    let (universal, flush) = (Head::Universal, Head::Flush);
    let mut compared = 0;
    for (id, most, practice, head, rows, what, code) in [
        ("ED-02", false, &HANDBOOK, universal, 1, Edge, Code::EdgeDistanceShort),
        ("EDGE-01a", false, &HANDBOOK, flush, 1, Edge, Code::EdgeDistanceShort),
        ("EDGE-01b", true, &HANDBOOK, flush, 1, Edge, Code::EdgeDistanceLong),
        ("EDGE-02b", true, &HANDBOOK, universal, 1, Edge, Code::EdgeDistanceLong),
        ("EDGE-01a", false, &PROCESS, flush, 1, Edge, Code::EdgeDistanceShort),
        ("EDGE-02a", false, &PROCESS, universal, 1, Edge, Code::EdgeDistanceShort),
        ("ED-03", false, &HANDBOOK, universal, 1, Pitch, Code::PitchShort),
        ("ED-03", false, &HANDBOOK, flush, 3, Pitch, Code::PitchShort),
        ("ED-08", false, &HANDBOOK, universal, 2, Pitch, Code::PitchShort),
        ("ED-08", false, &PROCESS, flush, 2, Pitch, Code::PitchShort),
        ("PITCH-02", true, &HANDBOOK, universal, 1, Pitch, Code::PitchLong),
        ("ED-03", false, &PROCESS, universal, 1, Pitch, Code::PitchShort),
        ("ROW-04", false, &HANDBOOK, universal, 2, Transverse, Code::TransversePitchShort),
        ("ROW-04", false, &PROCESS, flush, 2, Transverse, Code::TransversePitchShort),
    ] {
        let says = row("practice-limits", id).text("says").to_owned();
        let multiple: f64 = says.split(" D").next().expect("a multiple").parse().expect("a multiple");
        let outwards = if most { 1 } else { -1 };
        let severity = if most { Severity::Note } else { Severity::Refer };
        for size in MS20470.sizes {
            let question = installation(head, size, rows, practice);
            let limit = times(size.shank_nominal, multiple);
            assert_eq!(found(&what, limit, &question, code), None, "{id} -{}", size.dash);
            let beyond = by(limit, outwards);
            assert_eq!(found(&what, beyond, &question, code), Some(severity), "{id} -{}", size.dash);
            compared += 1;
        }
    }
    assert_eq!(compared, 14 * 8);
}

/// 3.4.1: after a step up the rows stand at least 0.866 of the pitch apart; before it, and in the handbooks, two and a half diameters do.
#[test]
fn rows_stand_a_share_of_the_pitch_apart_after_a_step_up() {
    let share: f64 =
        row("practice-limits", "EM-02").text("says").trim_end_matches(" x drawing pitch").parse().expect("one");
    let size = |dash| MS20470.size(dash).expect("a size");
    let pitch = length("1");
    let apart = Length::from_nanometres((share * 1_000.0).round() as i64 * 25_400).expect("in range");
    let short = |transverse, before: u8, practice| {
        let before = Part::new(&MS20470, "AD", size(before)).expect("a part");
        let layout = RowLayout::default().transverse_pitch(transverse).pitch(pitch);
        let question = installation(Head::Universal, size(4), 2, practice).layout(layout).in_place_of(before);
        question.findings().has(Code::TransversePitchShort)
    };
    assert!(!short(apart, 3, &PROCESS) && short(by(apart, -1), 3, &PROCESS));
    assert!(!short(by(apart, -1), 4, &PROCESS) && !short(by(apart, -1), 3, &HANDBOOK));
}

/// 4-57c: edge distance and spacing duplicate the original unless a deficiency is suspected. What is kept is cautioned under the minima of
/// 4-57c(1) and referred under 1.5 D, where a rivet may not stay.
#[test]
fn what_the_maker_built_is_cautioned_down_to_one_and_a_half_diameters() {
    assert_eq!(row("practice-limits", "ED-05").text("source"), "AC 43.13-1B, para 4-57c");
    for size in MS20470.sizes {
        let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
        let (least, minimum, pitch) = (times(case.diameter, 1.5), times(case.diameter, 2.0), times(case.diameter, 3.0));
        for practice in [&HANDBOOK, &PROCESS] {
            let question = installation(Head::Universal, size, 1, practice);
            let question = question.in_place_of(question.rivet());
            let worst = |edge, pitch| {
                let found = question.edge(edge).pitch(pitch).distances();
                let as_built = |code| matches!(code, Code::EdgeAsBuilt | Code::PitchAsBuilt);
                let copied = found.iter().find(|found| as_built(found.code()));
                assert!(copied.is_none_or(|found| practice.cite(found.basis()).place.starts_with("para 4-57c: ")));
                (copied.is_some(), found.must_refer())
            };
            assert_eq!(worst(minimum, pitch), (false, false));
            assert_eq!(worst(by(minimum, -1), pitch), (true, false));
            assert_eq!(worst(minimum, by(pitch, -1)), (true, false));
            assert_eq!(worst(least, pitch), (true, false));
            assert_eq!(worst(by(least, -1), pitch), (false, true));
        }
    }
}

/// W20 and W21, the lap patches of FAA-H-8083-31B fig 4-174: edge, pitch and rows as printed keep every limit, and the edge is the least.
#[test]
fn the_printed_lap_patches_keep_every_limit() {
    for (id, dash) in [("W20", 4), ("W21", 5)] {
        let printed = row("handbook-worked-examples", id).text("printed_answer").to_owned();
        let mut figures =
            printed.split("; ").map(|part| length(part.trim_start_matches("rows ").trim_end_matches(" in")));
        let mut next = || figures.next().expect("a figure");
        let (edge, pitch, transverse) = (next(), next(), next());
        let layout = RowLayout::default().edge(edge).pitch(pitch).transverse_pitch(transverse);
        let size = MS20470.size(dash).expect("a size");
        let question = installation(Head::Universal, size, 2, &HANDBOOK).layout(layout);
        let found = question.findings();
        assert!(!found.must_refer(), "{id}: {found:?}");
        assert!(question.edge(by(edge, -1)).findings().has(Code::EdgeDistanceShort), "{id}");
    }
}

/// W03 and ROW-05: the least overlap of a two-row lap, 2 D + 2.5 D + 2 D, is 13/16 in.
#[test]
fn the_least_overlap_of_a_two_row_lap_is_the_printed_one() {
    let printed = row("handbook-worked-examples", "W03").text("printed_answer").to_owned();
    assert_eq!(printed, format!("{} in", row("layout-rules", "ROW-05").text("says")));
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8")).in_rows(2);
    let of = |name| HANDBOOK.length(name, &case).expect("a limit").value.nanometres();
    let overlap = 2 * of(Name::EdgeDistanceLeast) + of(Name::TransversePitchLeast);
    assert_eq!(Some(length(&printed)), Length::from_nanometres(overlap));
}

/// W04: 56 rivets of 1/8 in a single row round a plate of 10 by 5 in at the least edge distance, four diameters apart. Laid out as
/// points, with the plate's edges, they keep every limit; on a line a nanometre further out they do not.
#[test]
fn a_row_round_a_plate_has_the_printed_number_of_rivets() {
    let example = row("handbook-worked-examples", "W04");
    let part = Part::parse("MS20470AD4-6").expect("a part number");
    assert!(example.text("given").contains("MS20470AD4-6"));
    let case = Case::of(part.series().head, part.alloy(), part.size());
    let edge = HANDBOOK.length(Name::EdgeDistanceLeast, &case).expect("a limit").value;
    let pitch = times(case.diameter, 4.0);
    let rivets = |edge: Length| {
        let (wide, high, step) = (length("10").nanometres(), length("5").nanometres(), pitch.nanometres());
        let edge = edge.nanometres();
        let (right, top) = (wide - edge, high - edge);
        let mut points = Vec::new();
        let mut at = |x, y| {
            let of = |nm| Length::from_nanometres(nm).expect("in range");
            points.push(Point { x: of(x), y: of(y) });
        };
        for along in (edge..right).step_by(usize::try_from(step).expect("a step")) {
            at(along, edge);
            at(wide - along, top);
        }
        for along in (edge..top).step_by(usize::try_from(step).expect("a step")) {
            at(right, along);
            at(edge, high - along);
        }
        points
    };
    let corner = |x: &str, y: &str| Point { x: length(x), y: length(y) };
    let corners = [corner("0", "0"), corner("10", "0"), corner("10", "5"), corner("0", "5")];
    let edges: Vec<Edge> = (0..4).map(|side| Edge { from: corners[side], to: corners[(side + 1) % 4] }).collect();
    let points = rivets(edge);
    assert_eq!(points.len().to_string(), example.text("printed_answer"));
    let check = |points: &[Point]| {
        let found = closest(points, &edges);
        let (edge, pitch) = (found.to_edge.map(|(_, edge)| edge), found.pair.map(|(_, _, pitch)| pitch));
        let layout = RowLayout::default().edge(edge).pitch(pitch);
        (layout, Installation::without_layers(part).layout(layout).findings())
    };
    let (layout, findings) = check(&points);
    assert_eq!((layout.pitch, layout.edge), (Some(pitch), Some(edge)));
    assert!(!findings.must_refer(), "{findings:?}");
    assert!(check(&rivets(by(edge, -1))).1.has(Code::EdgeDistanceShort));
}

/// W15 and W16, recalled: both methods give a quarter inch for 3/32, and so does the practice.
#[test]
fn the_preferred_edge_distance_leaves_room_for_the_next_size() {
    let printed = length(row("handbook-worked-examples", "W15").text("printed_answer").trim_end_matches(" in"));
    assert_eq!(row("handbook-worked-examples", "W16").text("printed_answer"), "1/4 in");
    let case = Case::of(Head::Universal, RivetAlloy::Al2117, MS20470.size(3).expect("a size"));
    let preferred = HANDBOOK.length(Name::EdgeDistancePreferred, &case).expect("a limit").value;
    assert_eq!(preferred, printed);
    let next = MS20470.next_size(MS20470.size(3).expect("a size")).expect("a next size");
    let after = Case::of(Head::Universal, RivetAlloy::Al2117, next);
    assert_eq!(HANDBOOK.length(Name::EdgeDistanceLeast, &after).map(|least| least.value), Some(printed));
    let question = installation(Head::Universal, MS20470.size(3).expect("a size"), 1, &HANDBOOK);
    assert_eq!(found(&What::Edge, printed, &question, Code::EdgeBelowPreferred), None);
    let short = found(&What::Edge, by(printed, -1), &question, Code::EdgeBelowPreferred);
    assert_eq!(short, Some(Severity::Note));
}
