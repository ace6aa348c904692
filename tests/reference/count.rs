//! Rivets an inch of width: by which table, by which strengths, and what is missing where there is none.

use shophead::basis::Basis;
use shophead::finding::{Code, Severity};
use shophead::joint::splice::{Critical, SpliceMember};
use shophead::joint::strength::Allowable;
use shophead::practice::HANDBOOK;
use shophead::quantity::Force;
use shophead::repair::count::{By, Rate, bolt_rate, rate};
use shophead_tests::prelude::{length, material, part};

fn counted(sheet: &str, thickness: &str, rivet: &str, carries: Option<Allowable>, by: By) -> Rate {
    rate(material(sheet), length(thickness), &part(rivet), SpliceMember::SingleLap, carries, by, &HANDBOOK)
        .expect("a count")
}

fn said(rate: &Rate) -> Vec<(Code, Severity)> {
    rate.findings.iter().map(|found| (found.code(), found.severity())).collect()
}

/// What one rivet carries, as a test of such a joint might give it.
fn carries(lbf: f64) -> Option<Allowable> {
    Some(Allowable { force: Force::from_lbf(lbf), basis: Basis::AS_GIVEN })
}

/// AC 43.13-1B, tables 4-9 and 4-10: clad 2024-T3 .040 takes 7.7 and 6.2 rivets of 1/8 an inch, three quarters of it in a lap.
#[test]
fn a_count_says_what_decides_it() {
    let by = |by| counted("clad 2024-T3", ".040", "MS20470AD4", carries(300.0), by);
    let (table, example, strength) = (by(By::Table), by(By::Example), by(By::Strength));
    assert_eq!((table.per_inch, table.from), (Some(7.7 * 0.75), Some(By::Table)));
    assert_eq!((example.per_inch, example.from), (Some(6.2 * 0.75), Some(By::Example)));
    assert_eq!((table.critical(), example.critical()), (Some(Critical::Shear), Some(Critical::Shear)));
    assert_eq!((strength.from, strength.critical()), (Some(By::Strength), None));
    // Nothing is missing, and nothing is said.
    for found in [&table, &example, &strength] {
        assert_eq!((said(found), found.key()), (vec![], None));
    }
    // Where bearing decides, and where no other table names the sheet.
    let soft = counted("5052-H32", ".040", "MS20470AD4", carries(300.0), By::Example);
    assert_eq!((soft.from, soft.critical()), (Some(By::Table), Some(Critical::Bearing)));
}

#[test]
fn the_greater_count_is_that_of_the_weaker_rivet() {
    let greater = |lbf| counted("clad 2024-T3", ".040", "MS20470AD4", carries(lbf), By::Greater);
    let (weak, strong) = (greater(100.0), greater(10_000.0));
    assert_eq!((weak.from, weak.critical()), (Some(By::Strength), None));
    assert_eq!((strong.from, strong.critical()), (Some(By::Table), Some(Critical::Shear)));
    let both =
        |found: &Rate| (found.by_table.expect("a table").per_inch, found.by_strength.expect("strengths").per_inch);
    let (table, strength) = both(&weak);
    assert!(strength > table && weak.per_inch == Some(strength), "{weak:?}");
    let (table, strength) = both(&strong);
    assert!(strength < table && strong.per_inch == Some(table), "{strong:?}");
}

/// The tables are for protruding heads of 2117-T4. Flush rivets of it stand in for approval where nothing better is known.
#[test]
fn flush_rivets_are_counted_by_the_tables_for_approval_only() {
    let by_table = |rivet, carries| counted("clad 2024-T3", ".040", rivet, carries, By::Table);
    let stands_in = by_table("MS20426AD4", None);
    assert_eq!(stands_in.per_inch, by_table("MS20470AD4", None).per_inch);
    assert_eq!(
        said(&stands_in),
        [(Code::NoSpliceTable, Severity::Refer), (Code::StrengthNotPublished, Severity::Caution)]
    );
    // With a strength of its own it needs no table; another alloy has none.
    for other in [by_table("MS20426AD4", carries(300.0)), by_table("MS20426D4", None), by_table("MS20470D4", None)] {
        assert_eq!(other.per_inch, None);
        assert_eq!(said(&other), [(Code::NoSpliceTable, Severity::Note), (Code::NoSpliceTable, Severity::Refer)]);
    }
    let own = counted("clad 2024-T3", ".040", "MS20426AD4", carries(300.0), By::Greater);
    assert_eq!((own.from, said(&own)), (Some(By::Strength), vec![(Code::NoSpliceTable, Severity::Note)]));
}

#[test]
fn what_is_missing_for_a_count_by_strength_is_named() {
    for (material, thickness, rivet, key) in [
        ("clad 2024-T3", ".040", "MS20426AD4", Some("flush.MS20426AD4")),
        ("clad 2024-T3", ".040", "MS20426D4", Some("flush.MS20426D4")),
        ("clad 2024-T3", ".010", "MS20470AD6", Some("plain.MS20470AD6")),
        ("2024-O", ".040", "MS20470AD4", Some("material.2024-O.tension_ultimate")),
        ("2014-T6", ".040", "MS20470AD4", Some("material.2014-T6.tension_ultimate")),
        // Everything is there but what one rivet carries, which was not asked.
        ("clad 2024-T3", ".040", "MS20470AD4", None),
    ] {
        let found = counted(material, thickness, rivet, None, By::Strength);
        assert_eq!(found.key().map(|key| key.to_string()).as_deref(), key, "{rivet} in {material} {thickness}");
        assert_eq!(said(&found).last(), Some(&(Code::StrengthNotPublished, Severity::Refer)), "{rivet} in {material}");
    }
}

/// AC 43.13-1B, tables 4-9 and 4-10: an AN-3 bolt in clad 2024-T3 .102 takes 3.4 and 3.3 an inch; table 4-10 has none for .040.
#[test]
fn bolts_are_counted_by_the_table_that_is_asked() {
    let bolts = |thickness, by| {
        bolt_rate(material("clad 2024-T3"), length(thickness), SpliceMember::Other, by).expect("a count")
    };
    let counted = |thickness, by| (bolts(thickness, by).per_inch, bolts(thickness, by).from);
    assert_eq!(counted(".102", By::Table), (Some(3.4), Some(By::Table)));
    assert_eq!(counted(".102", By::Example), (Some(3.3), Some(By::Example)));
    assert_eq!(counted(".040", By::Example), (Some(3.3), Some(By::Table)));
    let none = bolts(".102", By::Strength);
    assert_eq!((none.per_inch, none.from, said(&none)), (None, None, vec![(Code::NoSpliceTable, Severity::Refer)]));
}
