//! Fastener flexibility and load sharing along rows: every worked example.
//!
//! The formulas are homogeneous, so an example in millimetres and newtons is worked in inches and pounds.

use shophead::basis::Status;
use shophead::joint::flexibility::{Fastening, Formula, JoinedPlate, flexibility};
use shophead::joint::sharing::{Bay, SharingRow as Fasteners, Transfer, share, stiffness};
use shophead::joint::strength::Shear;
use shophead::quantity::{Flexibility, Force, Stress};
use shophead_tests::prelude::inches;
use shophead_tests::{Comparison, Row, fixture};

fn plate(row: &Row, thickness: &str, modulus: &str) -> JoinedPlate {
    JoinedPlate::new(inches(row.figure(thickness)), Stress::from_psi(row.figure(modulus)))
}

fn fastening(row: &Row, formula: Formula) -> Fastening {
    let modulus = Stress::from_psi(row.figure("ef"));
    let plates = if formula == Formula::Tn1051 {
        [plate(row, "tp", "ep"), plate(row, "ts", "es")]
    } else {
        [plate(row, "t1", "e1"), plate(row, "t2", "e2")]
    };
    let double = formula == Formula::Tn1051 || row.given("shear") == Some("double");
    let shear = if double { Shear::Double } else { Shear::Single };
    Fastening::new(inches(row.figure("d")), modulus, shear, plates)
}

fn relative(row: &Row) -> f64 {
    let (percent, _) = row.text("tolerance").split_once('%').expect("a percentage");
    percent.parse::<f64>().expect("a percentage") / 100.0
}

/// Tolerances as in the fixture: the prints have three or four figures.
#[test]
fn worked_examples_of_flexibility() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("load-share-examples").iter().filter(|row| row.given("ef").is_some()) {
        assert!(row.is_read(), "{}", row.place());
        let formula = match row.given("formula") {
            Some(word) => word.parse().unwrap_or_else(|_| panic!("{}: {word}", row.place())),
            None => Formula::Stp927Riveted,
        };
        assert_eq!(formula.basis().status(), Status::Published);
        let found = flexibility(formula, &fastening(row, formula)).expect("a fastening");
        let printed = row.number("printed_answer").expect("an answer");
        let found = match row.text("unit") {
            // Worked in inches and pounds, printed in newtons for a millimetre.
            "N/mm" => 1.0 / found.mm_per_newton(),
            _ => found.in_per_lbf(),
        };
        cells.close(row.text("example_id"), printed, found, relative(row) * printed);
        // Computed apart to ten figures.
        let apart = row.number("computed_answer").expect("a figure");
        cells.close(&format!("{} apart", row.text("example_id")), apart, found, 1e-6 * apart);
    }
    cells.finish(14);
}

/// The print says only that the flexibility goes to nothing.
const TOWARD_0: f64 = 1e-15;

fn chain(row: &Row) -> (Fasteners, Bay) {
    let number = row.figure("rows");
    assert!(number >= 3.0);
    let one = |flexibility| Fasteners::new(Flexibility::from_in_per_lbf(flexibility), 1);
    if let Some(ratio) = row.given("kf_over_EA_per_p") {
        let plate = Force::from_lbf(1.0);
        let ratio: f64 = ratio.parse().expect("a ratio");
        return (one(1.0 / ratio), Bay::new(inches(1.0), plate, plate));
    }
    if let Some(flexibility) = row.given("C_mm_per_N") {
        let flexibility = if flexibility == "toward_0" { TOWARD_0 } else { row.figure("C_mm_per_N") };
        let (ea_a, ea_b) = (Force::from_lbf(row.figure("EA_A_N")), Force::from_lbf(row.figure("EA_B_N")));
        return (one(flexibility), Bay::new(inches(row.figure("pitch_mm")), ea_a, ea_b));
    }
    let formula: Formula = row.given("formula").expect("a formula").parse().expect("a formula");
    let modulus = Stress::from_psi(row.figure("E_psi"));
    let plates = ["t_A_in", "t_B_in"].map(|key| JoinedPlate::new(inches(row.figure(key)), modulus));
    let fastening =
        Fastening::new(inches(row.figure("d_in")), Stress::from_psi(row.figure("Ef_psi")), Shear::Single, plates);
    let found = flexibility(formula, &fastening).expect("a fastening");
    let width = inches(row.figure("strip_width_in"));
    let [ea_a, ea_b] = plates.map(|plate| stiffness(plate.modulus, width, plate.thickness));
    (Fasteners::new(found, 1), Bay::new(inches(row.figure("row_pitch_in")), ea_a, ea_b))
}

fn shares(row: &Row) -> Vec<f64> {
    let (fasteners, bay) = chain(row);
    let rows = row.figure("rows") as usize;
    let found = share(&vec![fasteners; rows], &vec![bay; rows - 1], Transfer::Lap, Force::from_lbf(1_000.0))
        .unwrap_or_else(|error| panic!("{}: {error}", row.place()));
    found.rows().map(|row| row.share).collect()
}

/// Tolerances as in the fixture: the prints have two or three figures.
#[test]
fn worked_examples_of_shares() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("load-share-examples").iter().filter(|row| row.given("rows").is_some() && row.is_read()) {
        let tolerance = row.text("tolerance").split(' ').next().and_then(|text| text.parse().ok()).expect("a number");
        for (index, (printed, found)) in row.numbers("printed_answer").iter().zip(shares(row)).enumerate() {
            cells.close(&format!("{} row {index}", row.text("example_id")), *printed, found, tolerance);
        }
        for (index, (apart, found)) in row.numbers("computed_answer").iter().zip(shares(row)).enumerate() {
            // Ten digits given.
            cells.close(&format!("{} row {index} apart", row.text("example_id")), *apart, found, 1e-9);
        }
    }
    cells.finish(40);
}

/// Computed apart from this code, with a solver for full systems; no print to hold it against.
#[test]
fn shares_agree_with_a_computation_apart() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("load-share-examples").iter().filter(|row| row.text("status") == "computed") {
        for (index, (computed, found)) in row.numbers("computed_answer").iter().zip(shares(row)).enumerate() {
            // Ten digits given.
            cells.close(&format!("{} row {index}", row.text("example_id")), *computed, found, 1e-9);
        }
    }
    cells.finish(13);
}
