//! Parts of a joint one by one: which table holds for a sheet or a substitute, how many rivets a splice needs.

use shophead::basis::Basis;
use shophead::joint::compare::substitute;
use shophead::joint::flush_table::flush_row;
use shophead::joint::splice::{
    CountRounding, Fastener, SpliceError, SpliceMember, SpliceTable, count, most_per_row, needed, overlap, per_inch,
    rows, tables,
};
use shophead::joint::strength::Preparation;
use shophead::material::{EnteredSheet, Material, Property, RivetAlloy};
use shophead::practice::{Entered, HANDBOOK};
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
fn a_shops_sheet_serves_a_flush_joint_where_each_of_its_strengths_reaches_the_tested_one() {
    let (own, thickness) = (Material::own("2219-T87").unwrap(), length(".063"));
    let serves = |ftu: Option<f64>, fbru_15: Option<f64>, fbru_20: Option<f64>| {
        let figures = [
            (Property::TensionUltimate, ftu),
            (Property::BearingUltimate15, fbru_15),
            (Property::BearingUltimate20, fbru_20),
        ];
        let sheet = figures.into_iter().filter_map(|(property, ksi)| Some((property, Stress::from_ksi(ksi?))));
        let sheet =
            sheet.fold(EnteredSheet::new(own, Basis::own(0)), |sheet, (property, stress)| sheet.with(property, stress));
        let mut entered = Entered::new();
        entered.sheet(sheet).unwrap();
        let practice = HANDBOOK.with_entered(&entered);
        flush_row(length("1/8"), Preparation::Countersunk, &practice.sheet(own, thickness), thickness).is_some()
    };
    // Clad 2024-T42 from .063 on: 60, 96, 119 ksi.
    assert!(serves(Some(60.0), Some(96.0), Some(119.0)));
    for low in [None, Some(50.0)] {
        assert!(!serves(low, Some(96.0), Some(119.0)));
        assert!(!serves(Some(60.0), low, Some(119.0)));
        assert!(!serves(Some(60.0), Some(96.0), low));
    }
}

#[test]
fn of_rules_for_a_substitute_the_strictest_holds_and_of_two_alike_the_first() {
    use RivetAlloy::{Al2017, Al2024, Al2117};
    for (original, new, diameter, larger) in [
        (Al2017, Al2117, "3/16", Some(("7/32", Basis::AC43_NOT_WEAKER))),
        (Al2017, Al2117, "1/4", None),
        (Al2024, Al2117, "5/32", Some(("3/16", Basis::AC43_NOT_WEAKER))),
        (Al2024, Al2117, "3/16", None),
        (Al2024, Al2017, "3/16", Some(("7/32", Basis::NAVY_14018_SELECTION))),
        (Al2024, Al2017, "1/4", Some(("5/16", Basis::NAVY_14018_SELECTION))),
        (Al2024, Al2024, "1/4", Some(("1/4", Basis::AC43_NOT_WEAKER))),
        (Al2117, Al2024, "1/8", None),
    ] {
        let found = substitute(original, new, length(diameter)).map(|found| (found.diameter, found.basis));
        assert_eq!(found, larger.map(|(larger, basis)| (length(larger), basis)), "{original:?} {new:?} {diameter}");
    }
}

/// Table 4-10 gives 6.2 rivets of 1/8 for .040, and so does its rule: 0.040 / (0.5 π 0.1285² / 4) = 6.17.
#[test]
fn a_cell_that_its_rule_gives_as_well_rests_on_the_table() {
    let eighth = Fastener::Rivet(length("1/8"));
    let found = per_inch(SpliceTable::T4_10, length(".040"), eighth).unwrap();
    assert_eq!((found.printed, found.used, found.basis), (Some(6.2), Some(6.2), Basis::AC43_T4_10));
    assert!((found.formula - 6.168_7).abs() < 1e-4, "{found:?}");
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
    for (thickness, width) in [("0", "2.5"), (".040", "0"), ("-.040", "2.5"), (".040", "-2.5")] {
        let found = needed(Stress::from_ksi(75.0), length(thickness), length(width), Force::from_lbf(300.0));
        assert_eq!(found, Err(SpliceError::LengthNotPositive), "{thickness} {width}");
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
fn a_count_says_what_was_before_the_reduction_and_after_it() {
    let ask = |member: SpliceMember, rounding| count(6.2, length("2"), member, rounding).unwrap();
    for (member, part) in [
        (SpliceMember::Other, 1.0),
        (SpliceMember::Stringer, 0.8),
        (SpliceMember::IntermediateFrame, 0.6),
        (SpliceMember::SingleLap, 0.75),
    ] {
        let found = ask(member, CountRounding::Once);
        assert!((found.unreduced - 12.4).abs() < 1e-9 && (found.per_inch - 6.2 * part).abs() < 1e-9, "{found:?}");
        assert_eq!(f64::from(found.total), (12.4 * part).ceil());
        assert_eq!(f64::from(ask(member, CountRounding::BeforeAndAfter).total), (13.0 * part).ceil());
    }
}

#[test]
fn equal_rows_have_equal_parts_of_the_width() {
    let laid = rows(37, 2, length("9.5")).unwrap();
    assert_eq!((laid.rows, laid.per_row, laid.total), (2, 19, 38));
    assert_eq!((laid.pitch, laid.first()), (length("1/2"), length("1/4")));
    assert_eq!(rows(0, 2, length("10")), Err(SpliceError::NotPositive));
    assert_eq!(rows(5, 0, length("10")), Err(SpliceError::NoRows));
    for none in ["0", "-1"] {
        assert_eq!(rows(5, 1, length(none)), Err(SpliceError::LengthNotPositive));
    }
}

#[test]
fn a_splice_table_is_named_by_its_number() {
    for table in SpliceTable::ALL {
        assert_eq!(table.name(), format!("table {table}"));
    }
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

#[test]
fn a_row_takes_as_many_rivets_as_there_are_pitches_in_its_width() {
    let most = |width: &str, pitch: &str| most_per_row(length(width), length(pitch));
    assert_eq!((most("10", "1/2"), most("10", ".501"), most("1/4", "1/2")), (Ok(20), Ok(19), Ok(0)));
    for (width, pitch) in [("0", "1/2"), ("10", "0"), ("-10", "1/2"), ("10", "-1/2")] {
        assert_eq!(most(width, pitch), Err(SpliceError::LengthNotPositive), "{width} {pitch}");
    }
}
