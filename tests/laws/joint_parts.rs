//! Parts of a joint one by one: which table holds for a sheet, how many rivets a splice needs.

use shophead::joint::flush_table::flush_row;
use shophead::joint::splice::{CountRounding, SpliceError, SpliceMember, SpliceTable, count, needed, overlap, tables};
use shophead::joint::strength::Preparation;
use shophead::practice::HANDBOOK;
use shophead::quantity::{Force, Stress};
use shophead_tests::prelude::{length, material};

#[test]
fn a_sheet_of_another_alloy_serves_a_flush_joint_only_where_it_is_as_strong() {
    let ultimate = |sheet: &str| {
        let thickness = length(".063");
        let strengths = HANDBOOK.sheet(material(sheet), thickness);
        let row = flush_row(length("1/8"), Preparation::Countersunk, &strengths, thickness);
        row.map(|(row, _)| row.ultimate.lbf())
    };
    assert_eq!(ultimate("clad 2024-T3"), Some(363.0));
    assert_eq!(ultimate("7075-T6"), Some(363.0));
    // A temper of the same name, weaker.
    for weak in ["6061-T4", "6061-T42", "6061-T62"] {
        assert_eq!(ultimate(weak), None, "{weak}");
    }
}

#[test]
fn the_splice_tables_name_2024_t4_bare_only() {
    let first = |clad| tables("2024", "T4", clad).map(|tables| tables.first);
    assert_eq!((first(false), first(true)), (Some(SpliceTable::T4_9), None));
}

#[test]
fn a_splice_needs_as_many_rivets_as_carry_its_sheet() {
    let ask = |psi: f64, lbf: f64| needed(Stress::from_psi(psi), length(".040"), length("2.5"), Force::from_lbf(lbf));
    // 7500 lbf over 300: ten an inch.
    let found = ask(75_000.0, 300.0).unwrap();
    assert_eq!(found.total, 25);
    assert!((found.exact - 25.0).abs() < 1e-9 && (found.per_inch - 10.0).abs() < 1e-9, "{found:?}");
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        for found in [ask(bad, 300.0), ask(75_000.0, bad)] {
            assert_eq!(found, Err(SpliceError::NotPositive), "{bad}");
        }
    }
    // More than can be counted, and more than is a number.
    for (psi, lbf) in [(75_000.0, 1e-6), (f64::MAX, 1.0), (1e300, 1e-300)] {
        assert_eq!(ask(psi, lbf), Err(SpliceError::OutOfRange), "{psi} {lbf}");
    }
}

#[test]
fn a_count_an_inch_is_above_zero_and_can_be_counted() {
    let ask = |per_inch: f64| {
        let found = count(per_inch, length("2"), SpliceMember::Other, CountRounding::Once);
        found.map(|found| found.total)
    };
    assert_eq!(ask(6.2), Ok(13));
    for none in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(ask(none), Err(SpliceError::NotPositive), "{none}");
    }
    // A billionth is forgiven: 4.29 of so many.
    assert_eq!(ask(4_294_967_299.0 / 2.0), Ok(u32::MAX));
    assert_eq!(ask(4_294_967_300.0 / 2.0), Err(SpliceError::OutOfRange));
}

#[test]
fn a_lap_has_an_edge_at_either_end_and_its_rows_between() {
    let lap = |rows, edge: &str, apart: &str| overlap(rows, length(edge), length(apart));
    assert_eq!(lap(1, "1/4", "1/2"), Ok(length("1/2")));
    assert_eq!(lap(3, "1/4", "1/2"), Ok(length("1-1/2")));
    assert_eq!(lap(0, "1/4", "1/2"), Err(SpliceError::NoRows));
    for (edge, apart) in [("0", "1/2"), ("1/4", "0"), ("-1/4", "1/2"), ("1/4", "-1/2")] {
        assert_eq!(lap(2, edge, apart), Err(SpliceError::LengthNotPositive), "{edge} {apart}");
    }
}
