//! Splice counts: AC 43.13-1B tables 4-9 to 4-11 cell by cell, its worked examples, reductions and substitution.

use shophead::basis::Status;
use shophead::joint::compare::substitute;
use shophead::joint::splice::{
    CountRounding, Fastener, SpliceMember, SpliceTable, count, most_per_row, needed, per_inch, rows, tables,
};
use shophead::joint::substitution_table::{RULES, SizeUp, SubstitutionRule};
use shophead::length::Length;
use shophead::material::RivetAlloy;
use shophead::quantity::{Force, Stress};
use shophead_tests::{Comparison, Misfit, Row, fixture};

use crate::joint::length;

fn table(row: &Row) -> SpliceTable {
    let number = row.text("table");
    SpliceTable::ALL.iter().copied().find(|table| table.as_str() == number).expect("a table of the circular")
}

fn fastener(row: &Row) -> Fastener {
    match row.text("rivet_dia_in") {
        "AN-3 bolt" => Fastener::An3Bolt,
        _ => Fastener::Rivet(length(row, "rivet_dia_in")),
    }
}

fn cell(row: &Row) -> String {
    format!("{} {} {}", row.text("table"), row.text("thickness_in"), row.text("rivet_dia_in"))
}

#[test]
fn every_cell_is_carried_as_printed() {
    let mut cells = Comparison::with_misfits(&[]);
    let all = fixture("ac43-rivets-per-inch");
    for row in &all {
        let found = per_inch(table(row), length(row, "thickness_in"), fastener(row)).expect("a standard size");
        cells.equal(&cell(row), row.number("rivets_per_inch"), found.printed);
    }
    let carried = |table: SpliceTable| {
        table
            .lines()
            .iter()
            .map(|line| line.rivets().iter().flatten().count() + usize::from(line.an3().is_some()))
            .sum::<usize>()
    };
    assert_eq!(
        all.len(),
        SpliceTable::ALL.iter().copied().map(carried).sum::<usize>(),
        "no cell is carried that was not printed"
    );
    cells.finish(148);
}

/// Cells that are not the rule of their own notes to the printed decimal.
const MISFITS: &[Misfit] = &[
    Misfit { cell: "4-9 0.032 0.15625", reason: "printed 3.9 is the bearing count; shear asks for 4.03" },
    Misfit { cell: "4-9 0.036 0.09375", reason: "12.43, rounded up to 12.5 in print" },
    Misfit { cell: "4-9 0.036 0.125", reason: "6.94, rounded up to 7.0 in print" },
    Misfit { cell: "4-9 0.051 0.1875", reason: "4.450, a hair below the half" },
    Misfit { cell: "4-9 0.091 0.15625", reason: "11.46, printed 11.4: lower than its rule" },
    Misfit { cell: "4-9 0.128 AN-3 bolt", reason: "4.21 by note d, printed 3.2: lower than its rule" },
    Misfit { cell: "4-10 0.032 0.09375", reason: "8.84, rounded up to 8.9 in print" },
    Misfit { cell: "4-10 0.036 0.09375", reason: "9.95, printed 10.0" },
    Misfit { cell: "4-10 0.064 0.15625", reason: "6.447, printed 6.5" },
    Misfit { cell: "4-10 0.081 0.15625", reason: "8.16, printed 8.1: lower than its rule" },
    Misfit { cell: "4-10 0.091 0.15625", reason: "9.17, printed 9.1: lower than its rule" },
    Misfit { cell: "4-10 0.091 0.1875", reason: "6.35, printed 6.3: lower than its rule" },
    Misfit { cell: "4-11 0.064 0.09375", reason: "12.63, printed 12.7" },
];

#[test]
fn the_rule_gives_the_printed_cell_to_its_decimal() {
    let mut cells = Comparison::with_misfits(MISFITS);
    for row in fixture("ac43-rivets-per-inch") {
        let found = per_inch(table(&row), length(&row, "thickness_in"), fastener(&row)).expect("a standard size");
        let rounded = (found.formula * 10.0).round() / 10.0;
        cells.equal(&cell(&row), row.number("rivets_per_inch"), Some(rounded));
    }
    cells.finish(148);
}

#[test]
fn a_cell_lower_than_its_rule_is_not_used() {
    let mut raised = 0;
    for row in fixture("ac43-rivets-per-inch") {
        let found = per_inch(table(&row), length(&row, "thickness_in"), fastener(&row)).expect("a standard size");
        let printed = row.number("rivets_per_inch").expect("a cell");
        let used = found.used.expect("a printed cell");
        assert!(used >= printed, "{}", cell(&row));
        // Half of the printed decimal.
        assert!(used >= found.formula - 0.05, "{}: {used} used, {} by rule", cell(&row), found.formula);
        if used > printed {
            raised += 1;
            // The cells rest on the rule as read, but for those of table 4-10, whose note lacks its figure, and the bolt's diameter.
            let read = table(&row) != SpliceTable::T4_10 && fastener(&row) != Fastener::An3Bolt;
            assert_eq!(found.basis.status() == Status::Published, read, "{}", cell(&row));
        } else {
            assert_eq!(found.basis.status(), Status::Published);
        }
    }
    assert_eq!(raised, 6, "five rivet cells and a bolt cell");
}

#[test]
fn the_parts_of_the_notes() {
    let rules = fixture("joint-rules");
    let value = |id: &str| {
        let row = rules.iter().find(|row| row.text("rule_id") == id).unwrap_or_else(|| panic!("no rule {id}"));
        let number = row.text("value").split(['%', ' ', ';']).next().and_then(|text| text.parse::<f64>().ok());
        (number.unwrap_or_else(|| panic!("{id} is no number")), row.is_read())
    };
    for (id, member) in [
        ("RED-01", SpliceMember::Stringer),
        ("RED-02", SpliceMember::IntermediateFrame),
        ("RED-03", SpliceMember::SingleLap),
    ] {
        let (percent, basis) = member.percent();
        assert_eq!(value(id), (f64::from(percent), true));
        assert_eq!(basis.status(), Status::Published);
    }
    for (id, table) in [("DES-04", SpliceTable::T4_9), ("DES-05", SpliceTable::T4_10), ("DES-06", SpliceTable::T4_11)] {
        let (part, basis) = table.shear_part();
        let (percent, read) = value(id);
        assert!((percent - part * 100.0).abs() < 1e-9, "{id}");
        assert_eq!(read, basis.status() == Status::Published, "{id}");
    }
    for table in SpliceTable::ALL.iter().copied() {
        let (part, _) = table.printed_bearing_part();
        assert!((part * 100.0 - value("DES-07").0).abs() < 1e-9);
    }
    assert_eq!(SpliceTable::T4_11.bearing_part().1.status(), Status::Memory, "165 % stands nowhere in print");
}

fn parse(text: &str) -> Length {
    Length::parse(text).expect("a length")
}

/// The answers stand in the fixture in words; each test names its row and the words it rests on.
fn answer(name: &str, id: &str) -> String {
    let rows = fixture(name);
    let row = rows.iter().find(|row| row.text("example_id") == id).unwrap_or_else(|| panic!("no example {id}"));
    row.text(if name == "ac43-worked-examples" { "answer" } else { "printed_answer" }).to_owned()
}

const EIGHTH: &str = "1/8";

fn by_table(table: SpliceTable, thickness: &str, member: SpliceMember, width: &str) -> (f64, u32) {
    let found = per_inch(table, parse(thickness), Fastener::Rivet(parse(EIGHTH))).expect("in the table");
    let counted = count(found.used.expect("a cell"), parse(width), member, member.rounding()).expect("a width");
    (counted.per_inch, counted.total)
}

#[test]
fn example_of_the_lap_joint() {
    assert_eq!(answer("ac43-worked-examples", "E1b"), "4.9 x 0.75 = 3.7 per in; 37 rivets");
    let (per_inch, total) = by_table(SpliceTable::T4_10, ".032", SpliceMember::SingleLap, "10");
    assert!((per_inch - 3.7).abs() < 0.05, "3.675 printed as 3.7");
    assert_eq!(total, 37);
    // The other table that names clad 2024-T3 asks for more.
    assert_eq!(tables("2024", "T3", true).and_then(|found| found.also), Some(SpliceTable::T4_10));
    assert!(by_table(SpliceTable::T4_9, ".032", SpliceMember::SingleLap, "10").1 > total);
}

#[test]
fn example_of_two_equal_rows() {
    assert_eq!(
        answer("ac43-worked-examples", "E1c"),
        "minimum pitch gives 40; two equal rows of 19 (38) accepted for 37 needed"
    );
    let least_pitch = parse(".5");
    assert_eq!(most_per_row(parse("10"), least_pitch), Ok(20), "40 in two rows");
    let laid = rows(37, 2, parse("10")).expect("a layout");
    assert_eq!((laid.per_row, laid.total), (19, 38));
    assert!(laid.pitch >= least_pitch);
}

#[test]
fn examples_of_the_frame() {
    assert_eq!(answer("ac43-worked-examples", "E2a"), "6.2/in; 3.72 -> 4; 60 % = 2.4 -> 3");
    assert_eq!(answer("ac43-worked-examples", "E2b"), "6.2/in; 12.4 -> 13; 60 % = 7.8 -> 8");
    let frame = SpliceMember::IntermediateFrame;
    assert_eq!(by_table(SpliceTable::T4_10, ".040", frame, ".6").1, 3);
    assert_eq!(by_table(SpliceTable::T4_10, ".040", frame, "2").1, 8);
    // Both examples come out alike either way; a flange of 0.52 in does not.
    assert_eq!(count(6.2, parse(".52"), frame, CountRounding::Once).expect("a width").total, 2);
    assert_eq!(count(6.2, parse(".52"), frame, CountRounding::BeforeAndAfter).expect("a width").total, 3);
}

#[test]
fn question_on_a_clad_2017_splice() {
    assert_eq!(answer("splice-examples", "W07"), "3.7 per inch");
    assert_eq!(tables("2017", "T3", true).map(|found| found.first), Some(SpliceTable::T4_10));
    let (per_inch, _) = by_table(SpliceTable::T4_10, ".040", SpliceMember::IntermediateFrame, "1");
    assert!((per_inch - 3.7).abs() < 0.05, "6.2 x 0.60 = 3.72");
}

/// Recalled, so this shows only that the formula of the handbook is what the product works by.
#[test]
fn break_by_own_strengths_carries_the_recalled_example() {
    assert_eq!(answer("splice-examples", "W13"), "21 each side");
    let found =
        needed(Stress::from_ksi(75.0), parse(".040"), parse("2-1/4"), Force::from_lbf(331.0)).expect("a splice");
    assert!((found.load.lbf() - 6_750.0).abs() < 1e-9);
    assert!((found.exact - 20.39).abs() < 0.005);
    assert_eq!(found.total, 21);
}

#[test]
fn substitutes() {
    let rules = fixture("joint-rules");
    let value = |id: &str| {
        let row = rules.iter().find(|row| row.text("rule_id") == id).unwrap_or_else(|| panic!("no rule {id}"));
        assert!(row.is_read());
        row.text("value").to_owned()
    };
    assert_eq!(value("REP-04"), "+1/32 (0.03125)");
    assert_eq!(value("REP-05"), "+1/32 (0.03125)");
    let ad = |original, diameter: &str| {
        substitute(original, RivetAlloy::Al2117, parse(diameter)).map(|found| found.diameter)
    };
    assert_eq!(ad(RivetAlloy::Al2017, "5/32"), Some(parse("3/16")));
    assert_eq!(ad(RivetAlloy::Al2017, "3/16"), Some(parse("7/32")));
    assert_eq!(ad(RivetAlloy::Al2017, "7/32"), None, "the circular stops at 3/16");
    assert_eq!(ad(RivetAlloy::Al2024, "5/32"), Some(parse("3/16")));
    assert_eq!(ad(RivetAlloy::Al2024, "3/16"), None, "the circular stops at 5/32");
    assert_eq!(ad(RivetAlloy::Al7050, "1/8"), None, "no document speaks of it");
    // 2017 for 2024, one size larger: above 1/4 the sizes step by 1/16.
    let d = |diameter| substitute(RivetAlloy::Al2024, RivetAlloy::Al2017, parse(diameter)).map(|found| found.diameter);
    assert_eq!(d("3/16"), Some(parse("7/32")));
    assert_eq!(d("1/4"), Some(parse("5/16")));
    // Every rule of the fixture for these alloys is carried; rows that say the same in other words share one.
    let read: Vec<Row> = fixture("joint-substitution").into_iter().filter(Row::is_read).collect();
    let circular = read.iter().filter(|row| row.text("source").starts_with("AC 43.13-1B")).count();
    assert_eq!(RULES.iter().filter(|rule| rule.step == SizeUp::ThirtySecond).count(), circular);
    assert!(RULES.iter().all(|rule| rule.basis.status() == Status::Published));
    // Each by its alloys; of the circular's also the largest diameter.
    let alloy = |text: &str| {
        let number = text.split([' ', '-', ',']).next().unwrap_or_default();
        let found = RivetAlloy::ALL.iter().find(|known| known.alloy() == number).copied();
        found.unwrap_or_else(|| panic!("no alloy {text}"))
    };
    let alloys = |text: &str| {
        // What stands behind them is for which sizes.
        let text = text.split([',', '(']).next().unwrap_or_default().trim();
        text.split(" and ").flat_map(|part| part.split(" or ")).map(alloy).collect::<Vec<_>>()
    };
    for row in &read {
        let step = if row.text("size_rule") == "1/32 larger" { SizeUp::ThirtySecond } else { SizeUp::NextSize };
        let up_to =
            row.text("original").split_once('(').and_then(|(_, rest)| Length::parse(rest.split(' ').next()?).ok());
        for original in alloys(row.text("original")) {
            for substitute in alloys(row.text("substitute")) {
                let same = |rule: &&SubstitutionRule| {
                    (rule.original, rule.substitute, rule.step) == (original, substitute, step)
                        && (step == SizeUp::NextSize || rule.up_to == up_to)
                };
                assert!(
                    RULES.iter().any(|rule| same(&rule)),
                    "{}: {} for {}",
                    row.place(),
                    substitute.alloy(),
                    original.alloy()
                );
            }
        }
    }
}
