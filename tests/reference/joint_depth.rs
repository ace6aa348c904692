//! Inter-rivet buckling, tear-out and oversize holes against figures that were computed apart from this code.
//!
//! None of these was read anywhere, so none is proof of a rule; they show that the arithmetic is the one stated.

use shophead::basis::Basis;
use shophead::joint::strength::{Joint, Rivet, Sheet, strength};
use shophead::joint::{buckling, modes};
use shophead::length::Length;
use shophead::material::{Guarantee, RivetAlloy, SheetHeading, SheetProperties, Strengths};
use shophead::quantity::Stress;
use shophead::rivet::Head;
use shophead_tests::prelude::inches;
use shophead_tests::{Comparison, Row, fixture};

/// Ten digits are given. A computed length is rounded to the nanometre, 4e-8 in.
const RELATIVE: f64 = 1e-9;
const NANOMETRE: f64 = 4e-8;

static TEST: SheetHeading = SheetHeading::new(["2024", "T3", "sheet", ""], 0, 100, Basis::own(0));

/// The bearing of a sheet with these stresses, by the strength of a joint in which the hole is as wide as the example says.
fn bearing(row: &Row) -> f64 {
    // In hundreds of psi, as the examples have them.
    let cell = |key| {
        let hundreds = row.figure(key) / 100.0;
        assert_eq!(hundreds.fract(), 0.0, "{}", row.place());
        hundreds as u16
    };
    let mut strengths = [0; 11];
    (strengths[7], strengths[8]) = (cell("Fbru_at_1.5"), cell("Fbru_at_2.0"));
    let properties = SheetProperties::new(&TEST, (0, u16::MAX), Guarantee::S, strengths, [0; 4]);
    let diameter = inches(row.figure("D_in"));
    let edge = inches(row.figure("D_in") * row.figure("e_over_D"));
    let sheet = Sheet::new(inches(row.figure("t_in")), edge).properties(Strengths::from(&properties));
    let rivet = Rivet::new(diameter, Head::Universal).driven_shear(RivetAlloy::Al2117.fsu_driven());
    let sheets = [sheet; 2];
    let joint = Joint::new(&sheets, rivet).hole(diameter);
    strength(&joint).expect("a joint").sheets[0].bearing().expect("covered").ultimate.force.lbf()
}

fn answers(row: &Row) -> Vec<f64> {
    let length = |key| inches(row.figure(key));
    let modulus = || Stress::from_psi(row.figure("Ec_psi"));
    match row.text("example_id") {
        "J-30.1" | "J-30.2" => {
            vec![buckling::stress(row.figure("c"), modulus(), length("t_in"), length("pitch_in")).psi()]
        }
        "J-31" => {
            let (c, nu) = (row.figure("c"), row.figure("nu"));
            // As a plate.
            vec![buckling::stress(c, modulus(), length("t_in"), length("pitch_in")).psi() / (1.0 - nu * nu)]
        }
        "J-32" => {
            let stress = Stress::from_psi(row.figure("Fc_psi"));
            let pitch = buckling::largest_pitch(row.figure("c"), modulus(), length("t_in"), stress);
            vec![pitch.expect("a length").to_inches_f64()]
        }
        "J-33" => vec![bearing(row)],
        "J-34" => {
            let (fsu, t, e) = (Stress::from_psi(row.figure("Fsu_sheet_psi")), length("t_in"), length("e_in"));
            vec![modes::tear_out(fsu, t, e).lbf(), modes::tear_out_with_relief(fsu, t, e, length("D_in")).lbf()]
        }
        "F-01.1" => {
            let unit = Stress::from_psi(1.0);
            let pitch = length("pitch_in");
            let gross = modes::gross_section(unit, Length::INCH, pitch);
            ["hole_from_in", "hole_to_in"]
                .map(|hole| modes::efficiency(modes::net_section(unit, Length::INCH, pitch, length(hole), 1), gross))
                .to_vec()
        }
        "F-02" => {
            ["D_from_in", "D_to_in"].map(|d| length("edge_in").to_inches_f64() / length(d).to_inches_f64()).to_vec()
        }
        other => panic!("{other}"),
    }
}

#[test]
fn figures_computed_apart() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("joint-depth-examples") {
        assert_eq!(row.text("status"), "computed", "{}", row.place());
        let computed = row.numbers("computed_answer");
        let found = answers(&row);
        assert_eq!(computed.len(), found.len());
        for (computed, found) in computed.iter().zip(found) {
            let tolerance = if row.text("unit") == "in" { NANOMETRE } else { RELATIVE * computed };
            cells.close(row.text("example_id"), *computed, found, tolerance);
        }
    }
    cells.finish(11);
}
