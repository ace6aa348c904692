//! Damage beside the holes: the published rules for stop drilling.

use shophead::damage::{DamageKind, Damaged, judge};
use shophead::drill::Drill;
use shophead::finding::{Code, Figure, Finding};
use shophead::length::Length;
use shophead::practice::BUILT_IN;
use shophead_tests::{Row, fixture};

fn row(name: &str, id: &str) -> Row {
    fixture(name).iter().find(|row| row.text("rule_id") == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

/// The two diameters of a rule, from the note that names its document.
fn stop_drill(document: &str) -> [Length; 2] {
    let crack = Damaged::new(DamageKind::Crack);
    let findings = judge(&crack, None, BUILT_IN[0]);
    let is_rule = |finding: &&Finding| {
        finding.code() == Code::StopDrill && finding.basis().citation().expect("built in").document == document
    };
    let rule = findings.iter().find(is_rule).expect(document);
    match (rule.measured(), rule.limit()) {
        (Some(Figure::Length(one)), Some(Figure::Length(other))) => [one, other],
        figures => panic!("{figures:?}"),
    }
}

/// Exact: both documents print sizes of drills.
#[test]
fn cracks_are_stop_drilled_as_either_document_prints_it() {
    let circular = row("ac43-rules", "HOLE-09");
    assert!(circular.is_read());
    let printed = circular.text("value").split(" or ").map(|size| Length::parse(size).expect(size));
    assert_eq!(printed.collect::<Vec<_>>(), stop_drill("AC 43.13-1B"));
    let navy = row("layout-rules", "PATCH-02");
    assert!(navy.is_read());
    let mut printed: Vec<Length> =
        navy.text("says").split(" or ").map(|drill| Drill::parse(drill).expect(drill).diameter()).collect();
    printed.sort_unstable();
    assert_eq!(printed, stop_drill("NAVEDTRA 14018"));
}
