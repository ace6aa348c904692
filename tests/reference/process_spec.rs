//! MIL-R-47196A(MI), tables I to VIII: every printed cell, for every size, against the limits of the practice.

use std::collections::BTreeMap;

use shophead::basis::{Basis, Status};
use shophead::drill::Drill;
use shophead::length::Length;
use shophead::material::RivetAlloy;
use shophead::practice::{Case, HANDBOOK, Name, PROCESS, Practice};
use shophead::rivet::Head;
use shophead_tests::{Comparison, Row, fixture};

/// A printed column and the limit that carries it.
struct Column {
    quantity: &'static str,
    table: &'static str,
    page: &'static str,
    name: Name,
    head: Head,
    dimpled: bool,
    /// Only after a step up.
    stepped: bool,
    /// Whether the handbooks are silent here, so that both practices carry it.
    both: bool,
}

const ANYWHERE: Column = Column {
    quantity: "",
    table: "",
    page: "",
    name: Name::HoleDrill,
    head: Head::Universal,
    dimpled: false,
    stepped: false,
    both: true,
};

const COLUMNS: &[Column] = &[
    Column { quantity: "hole diameter min", table: "I", page: "9", name: Name::HoleLeast, ..ANYWHERE },
    Column { quantity: "hole diameter max", table: "I", page: "9", name: Name::HoleGreatest, ..ANYWHERE },
    Column {
        quantity: "flattened universal manufactured head, height min",
        table: "II",
        page: "10",
        name: Name::FlattenedHeadHeightLeast,
        ..ANYWHERE
    },
    Column {
        quantity: "driven head diameter min",
        table: "III",
        page: "11",
        name: Name::HeadDiameterLeast,
        both: false,
        ..ANYWHERE
    },
    Column {
        quantity: "driven head thickness min",
        table: "III",
        page: "11",
        name: Name::HeadHeightLeast,
        both: false,
        ..ANYWHERE
    },
    Column {
        quantity: "driven head thickness max",
        table: "III",
        page: "11",
        name: Name::HeadHeightGreatest,
        ..ANYWHERE
    },
    Column {
        quantity: "H, flush head protrusion before shaving max",
        table: "IV",
        page: "12",
        name: Name::FlushHeadProudGreatest,
        head: Head::Flush,
        ..ANYWHERE
    },
    Column {
        quantity: "D, flush head diameter after shaving min",
        table: "IV",
        page: "12",
        name: Name::ShavedHeadDiameterLeast,
        head: Head::Flush,
        ..ANYWHERE
    },
    Column {
        quantity: "countersink diameter",
        table: "VI",
        page: "12",
        name: Name::CountersinkDiameter,
        head: Head::Flush,
        ..ANYWHERE
    },
    Column {
        quantity: "pitch min, dimpled countersunk",
        table: "VII",
        page: "13",
        name: Name::PitchLeast,
        head: Head::Flush,
        dimpled: true,
        stepped: true,
        both: false,
    },
    Column {
        quantity: "pitch min, machine countersunk flush",
        table: "VII",
        page: "13",
        name: Name::PitchLeast,
        head: Head::Flush,
        stepped: true,
        both: false,
        ..ANYWHERE
    },
    Column {
        quantity: "pitch min, universal head",
        table: "VII",
        page: "13",
        name: Name::PitchLeast,
        stepped: true,
        both: false,
        ..ANYWHERE
    },
    Column {
        quantity: "edge margin min A and B",
        table: "VIII",
        page: "14",
        name: Name::EdgeDistanceLeast,
        stepped: true,
        both: false,
        ..ANYWHERE
    },
    Column {
        quantity: "edge margin min C and D",
        table: "VIII",
        page: "14",
        name: Name::EdgeDistanceLeast,
        head: Head::Flush,
        stepped: true,
        both: false,
        ..ANYWHERE
    },
];

/// Cells that the product carries nowhere. Table V says which cutter shaves a flush head, and nothing here chooses a shaver.
const NOT_USED: &str = "shaver cutter diameter";

/// Table V as it is printed, p 12: for whoever does.
const TABLE_V: &[(&str, &str)] = &[
    ("1/16", "3/8"),
    ("3/32", "3/8"),
    ("1/8", "3/8"),
    ("5/32", "3/8"),
    ("3/16", "7/16"),
    ("7/32", "1/2"),
    ("1/4", "9/16"),
    ("9/32", "9/16"),
    ("5/16", "5/8"),
    ("11/32", "5/8"),
    ("3/8", "3/4"),
    ("13/32", "3/4"),
];

/// What a note in the fixture says that the limit's own basis has to say too.
const SAID_OF_A_CELL: &[(&str, &str)] =
    &[("misprint suspected", "misprint"), ("for repair using oversize rivets only", "oversize rivets only")];

/// Notes that say nothing of the figure.
const OF_THE_SIZE: &[&str] = &[
    "oversize replacement size",
    "size normally used for oversize replacement only",
    "not starred in table VII, starred in VIII",
];

fn diameter(row: &Row) -> Length {
    let diameter = Length::parse(row.text("rivet_dia")).expect("a size");
    assert_eq!(Length::parse(row.text("rivet_dia_in")), Ok(diameter), "{}", row.place());
    diameter
}

fn case(column: &Column, diameter: Length) -> Case {
    let case = Case::new(column.head, RivetAlloy::Al2117, diameter);
    let case = if column.dimpled { case.in_dimples() } else { case };
    if column.stepped { case.stepped_up() } else { case }
}

fn cited(basis: Basis) -> (String, String) {
    let citation = basis.citation().expect("a built-in document");
    (citation.document.to_owned(), citation.place.to_owned())
}

#[test]
fn every_cell_of_the_eight_tables_is_carried_or_listed_as_not_used() {
    let rows = fixture("process-spec-tables");
    let mut cells = Comparison::with_misfits(&[]);
    let mut drills: BTreeMap<Length, Vec<&Row>> = BTreeMap::new();
    let mut not_used = Vec::new();
    for row in &rows {
        let (quantity, diameter) = (row.text("quantity"), diameter(row));
        assert!(row.is_read(), "{}", row.place());
        assert_eq!((row.text("document"), row.text("unit")), ("MIL-R-47196A(MI)", "in"), "{}", row.place());
        if quantity == NOT_USED {
            assert_eq!((row.text("table"), row.text("page")), ("V", "12"), "{}", row.place());
            not_used.push((row.text("rivet_dia"), row.text("value")));
            continue;
        }
        if quantity == "recommended drill" {
            assert_eq!((row.text("table"), row.text("page"), row.text("note")), ("I", "9", ""), "{}", row.place());
            drills.entry(diameter).or_default().push(row);
            continue;
        }
        let column = COLUMNS.iter().find(|column| column.quantity == quantity);
        let column = column.unwrap_or_else(|| panic!("{}: {quantity} is carried nowhere", row.place()));
        let practices: &[&Practice<'_>] = if column.both { &[&PROCESS, &HANDBOOK] } else { &[&PROCESS] };
        for practice in practices {
            let name = format!("{} {} {quantity}", practice.name(), row.text("rivet_dia"));
            let given = practice.length(column.name, &case(column, diameter)).unwrap_or_else(|| panic!("{name}"));
            cells.equal(&name, Length::parse(row.text("value")), Ok(given.value));
            cells.equal(&format!("{name} status"), Status::Published, given.basis.status());
            let (document, place) = cited(given.basis);
            cells.equal(&format!("{name} document"), "MIL-R-47196A(MI)".to_owned(), document);
            assert_eq!((row.text("page"), row.text("table")), (column.page, column.table), "{}", row.place());
            let printed = format!("p {}, table {}", column.page, column.table);
            let of_a_figure = place.strip_prefix(&printed).is_some_and(|rest| !rest.starts_with(char::is_alphabetic));
            cells.equal(&format!("{name} place"), true, of_a_figure);
            let of_the_size = OF_THE_SIZE.iter().any(|note| row.text("note").starts_with(note));
            let mut said = row.text("note").is_empty() || of_the_size;
            for (note, words) in SAID_OF_A_CELL.iter().filter(|(note, _)| row.text("note").contains(note)) {
                assert!(place.contains(words), "{}: {note} is not told: {place}", row.place());
                said = true;
            }
            assert!(said, "{}: nobody looked at the note {:?}", row.place(), row.text("note"));
        }
    }
    // Two drills are printed for 5/32 and 3/16: the practice aims at the smaller one. Both must lie within the limits of the hole.
    for (diameter, printed) in drills {
        let sizes: Vec<Length> = printed
            .iter()
            .map(|row| {
                let (name, decimal) = row.text("value").split_once(' ').expect("a drill and its decimal");
                let drill = Drill::parse(name).expect("a drill").diameter();
                // Three places are printed, cut off or rounded.
                let off = drill.nanometres().abs_diff(Length::parse(decimal).expect("a decimal").nanometres());
                assert!(off <= 12_700, "{}: {name} is {drill}", row.place());
                drill
            })
            .collect();
        for practice in [&PROCESS, &HANDBOOK] {
            let case = Case::new(Head::Universal, RivetAlloy::Al2117, diameter);
            let aim = practice.length(Name::HoleDrill, &case).expect("a drill");
            cells.equal(&format!("{} {diameter} drill", practice.name()), sizes.iter().min().copied(), Some(aim.value));
            cells.equal(
                &format!("{} {diameter} place", practice.name()),
                "p 9, table I".to_owned(),
                cited(aim.basis).1,
            );
            let least = practice.length(Name::HoleLeast, &case).expect("a limit").value;
            let greatest = practice.length(Name::HoleGreatest, &case).expect("a limit").value;
            assert!(sizes.iter().all(|drill| least <= *drill && *drill < greatest), "{diameter}");
        }
    }
    cells.finish(12 * (7 * 2 + 7) * 4 + 12 * 2 * 2);
    assert_eq!((rows.len(), &*not_used), (194, TABLE_V));
}

/// The headings of tables VII and VIII: for repair with oversize rivets only. A rivet of the drawing's own size keeps to other figures,
/// and in the other practice so does every rivet.
#[test]
fn pitch_and_edge_of_the_specification_hold_after_a_step_up_only() {
    for column in COLUMNS.iter().filter(|column| column.stepped) {
        for row in fixture("process-spec-tables").iter().filter(|row| row.text("quantity") == column.quantity) {
            let mut case = case(column, diameter(row));
            case.stepped = false;
            let before = PROCESS.length(column.name, &case).expect("a limit");
            assert_ne!(cited(before.basis).0, "MIL-R-47196A(MI)", "{}", row.place());
            let stepped = case.stepped_up();
            let handbook = HANDBOOK.length(column.name, &stepped).expect("a limit");
            assert_eq!(HANDBOOK.length(column.name, &case), Some(handbook), "{}", row.place());
        }
    }
}

/// For an oversize shank between two printed sizes no height is printed: midway between both.
#[test]
fn between_two_printed_sizes_the_greatest_height_is_midway() {
    let height = |sixty_fourths: i16| {
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(sixty_fourths));
        PROCESS.length(Name::HeadHeightGreatest, &case).expect("a limit")
    };
    let nanometres = |sixty_fourths| height(sixty_fourths).value.nanometres();
    for between in (5..=25).step_by(2) {
        assert_eq!(nanometres(between) * 2, nanometres(between - 1) + nanometres(between + 1), "{between}/64");
        assert_eq!(height(between).basis.status(), Status::Practice, "{between}/64");
    }
}
