//! Where the documents bar blind rivets.

use shophead::access::{Clearance, SolidBecause, cannot_buck, solid_required};
use shophead::basis::Status;
use shophead::length::Length;
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, Name};
use shophead::rivet::Head;
use shophead::structure::{Member, Place, Structure};
use shophead_tests::{Comparison, fixture};

/// The rows BLD-01 to BLD-06, and the place that stands for each.
const BARRED: [(&str, Place, &str); 6] = [
    ("BLD-01", Place::FluidTight, "fluid-tight"),
    ("BLD-02", Place::AirIntake, "air intake"),
    ("BLD-03", Place::Control, "control"),
    ("BLD-04", Place::MainFitting, "wing attach and landing gear fittings"),
    ("BLD-05", Place::BelowWaterLine, "below waterline"),
    ("BLD-06", Place::HeavilyStressed, "heavily stressed"),
];

#[test]
fn every_barred_place_takes_solid_rivets_and_says_how_well_that_is_known() {
    let rows = fixture("ac43-rules");
    let mut cells = Comparison::with_misfits(&[]);
    for (id, place, words) in BARRED {
        let row = rows.iter().find(|row| row.text("rule_id") == id).expect(id);
        assert_eq!(row.text("subject"), "blind rivets barred");
        assert!(row.text("value").contains(words), "{}", row.place());
        let given = solid_required(Structure::Secondary, Member::Skin, &[place]).expect("barred");
        cells.equal(&format!("{id} reason"), SolidBecause::Place(place), given.value);
        let status = if row.is_read() { Status::Published } else { Status::Memory };
        cells.equal(&format!("{id} status"), status, given.basis.status());
        cells.equal(
            &format!("{id} document"),
            true,
            row.text("source").starts_with(given.basis.citation().expect("built in").document),
        );
    }
    cells.finish(BARRED.len() * 3);
    let named: Vec<Place> = BARRED.iter().map(|(_, place, _)| *place).collect();
    assert!(Place::ALL.iter().all(|place| named.contains(place)), "a place without a row");
    let hull = fixture("layout-rules");
    let hull = hull.iter().find(|row| row.text("rule_id") == "BLIND-01").expect("the row");
    assert!(hull.is_read() && hull.text("says") == "none below the water line");
}

#[test]
fn the_best_supported_reason_is_given() {
    let both = solid_required(Structure::Primary, Member::SparCap, &[Place::Control, Place::BelowWaterLine]);
    assert_eq!(
        both.map(|given| given.value),
        Some(SolidBecause::Place(Place::Control)),
        "the first where several are equal"
    );
    // What was read comes before common practice.
    let read = solid_required(Structure::Primary, Member::SparCap, &[Place::HeavilyStressed]);
    assert_eq!(read.map(|given| given.basis.status()), Some(Status::Published));
    let common = solid_required(Structure::Primary, Member::Skin, &[]);
    assert_eq!(common.map(|given| given.basis.status()), Some(Status::Practice));
    for member in Member::ALL {
        let line = solid_required(Structure::Secondary, *member, &[]);
        assert_eq!(line.is_some(), matches!(member, Member::SparCap | Member::Longeron), "{member:?}");
    }
}

#[test]
fn bucking_needs_the_tail_and_the_bar() {
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
    for practice in BUILT_IN {
        let bar = practice.length(Name::BarThickness, &case).expect("a bar").value;
        let tail = Length::from_64ths(12);
        let needed = bar.checked_add(tail).expect("a length");
        let hair = Length::from_nanometres(1).expect("in range");
        let less = needed.checked_sub(hair).expect("a length");
        assert!(cannot_buck(Clearance::Room(needed), tail, practice, &case).is_none());
        assert!(cannot_buck(Clearance::Room(less), tail, practice, &case).is_some());
        assert!(cannot_buck(Clearance::Closed, Length::ZERO, practice, &case).is_some());
        assert!(cannot_buck(Clearance::Open, Length::MAX, practice, &case).is_none());
    }
}
