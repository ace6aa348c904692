//! A worked 1-3-1 lap joint with printed answers, and one joint that was pulled apart.

use shophead::basis::Basis;
use shophead::joint::modes;
use shophead::joint::strip::{Hole, Pulled, StripSheet, WeakestLine, all_rivets, even_row, weakest_line};
use shophead::length::Length;
use shophead::quantity::{Force, Stress};
use shophead_tests::{Comparison, Row, fixture, list};

const PRINTED: Basis = Basis::own(0);

fn inches(row: &Row, key: &str) -> Length {
    Length::try_from_inches_f64(row.figure(key)).expect("a length of a joint")
}

fn ksi(row: &Row, key: &str) -> Stress {
    Stress::from_ksi(row.figure(key))
}

/// The holes with what each rivet carries; the example takes the shank for the hole.
fn holes(row: &Row, carries: Force) -> Vec<Hole> {
    let width = inches(row, "width_in");
    let counts = list(row.given("counts").expect("counts")).expect("numbers");
    let at = |(index, count): (usize, &f64)| {
        let x = Length::INCH.checked_mul(index as i64).expect("a few inches");
        even_row(*count as u16, width, x).collect::<Vec<_>>()
    };
    let places = counts.iter().enumerate().flat_map(at);
    places.map(|at| Hole::new(at, inches(row, "d_in"), carries)).collect()
}

fn line(row: &Row, carries: Force, pulled: Pulled) -> WeakestLine {
    let sheet = StripSheet::new(inches(row, "t_in"), (ksi(row, "ftu_ksi"), PRINTED), pulled);
    weakest_line(&holes(row, carries), inches(row, "width_in"), &sheet).expect("a strip")
}

/// Printed to three or four figures, efficiencies to two places.
#[test]
fn the_worked_joint_comes_out_as_printed() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("lap-joint-examples").iter().filter(|row| row.text("example_id") != "U-12") {
        assert!(row.is_read(), "{}", row.place());
        let (width, thickness, diameter) = (inches(row, "width_in"), inches(row, "t_in"), inches(row, "d_in"));
        let gross = modes::gross_section(ksi(row, "ftu_ksi"), thickness, width);
        let shear = modes::rivet_shear(ksi(row, "rivet_fsu_ksi"), diameter, 1.0);
        let bearing = modes::bearing(ksi(row, "fbru_ksi"), diameter, thickness);
        let all = |carries| all_rivets(&holes(row, carries), width).expect("a strip");
        let each = 1_640.0 / 5.0;
        let (computed, tolerance) = match row.text("example_id") {
            "U-01" => (modes::efficiency(all(shear), gross), 0.005),
            "U-02" => (modes::efficiency(all(bearing), gross), 0.005),
            "U-03" => {
                (modes::efficiency(modes::tear_out(ksi(row, "fsu_ksi"), thickness, inches(row, "e_in")), gross), 0.005)
            }
            "U-04" => {
                // The first row: the weakest line of the strip.
                let line = line(row, shear, Pulled::AtFirst);
                assert_eq!((line.holes, line.row, line.before), (1, Length::ZERO, Force::ZERO));
                (modes::efficiency(line.load.force, gross), 0.005)
            }
            "U-07" => (each / modes::rivet_shear(Stress::from_psi(1.0), diameter, 1.0).lbf(), 0.5),
            "U-08" => (each / modes::bearing(Stress::from_psi(1.0), diameter, thickness).lbf(), 0.5),
            "U-10" => (all(shear).lbf(), 0.5),
            "U-11" => (all(bearing).lbf(), 0.5),
            other => panic!("no such example: {other}"),
        };
        cells.close(row.text("example_id"), row.number("printed_answer").expect("an answer"), computed, tolerance);
    }
    cells.finish(8);
}

/// One joint, poorly driven, says where it parts and how far a joint can fall below its formula; it proves no strength.
#[test]
fn the_joint_that_was_pulled_parted_where_the_weakest_line_is() {
    let rows = fixture("lap-joint-examples");
    let row = rows.iter().find(|row| row.text("example_id") == "U-12").expect("the test");
    let line = line(row, Force::from_lbf(300.0), Pulled::AtFirst);
    assert_eq!((line.holes, line.row, line.before), (4, Length::ZERO, Force::ZERO), "row 1 net section");
    assert!((line.load.force.lbf() - 1_012.5).abs() < 0.05, "as the report predicts");
    let measured = row.number("printed_answer").expect("a load");
    let scatter = measured / line.load.force.lbf() - 1.0;
    assert!((scatter + 0.128).abs() < 0.0005, "{scatter}: it carried an eighth less than the formula");
}
