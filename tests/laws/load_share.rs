//! Laws of load sharing along rows, and the chain against a dense solution of the equations as they are printed.

use proptest::prelude::*;
use shophead::finding::Code;
use shophead::joint::flexibility::{Fastening, Formula, JoinedPlate, flexibility};
use shophead::joint::sharing::{Bay, Envelope, MAX_ROWS, Sharing, SharingRow, Transfer, share};
use shophead::joint::strength::Shear;
use shophead::length::Length;
use shophead::quantity::{Flexibility, Force, Stress};
use shophead::words::Units;
use shophead_tests::prelude::changed;

use crate::wide::{Equations, Wide};

/// The chain loses some digits with the spread of the stiffnesses: this part of the load at most.
const LOST: f64 = 1e-12;
/// Sums of the chain itself.
const ROUNDING: f64 = 1e-12;

const LOAD: f64 = 1_000.0;

fn flexibility_of(value: f64) -> Flexibility {
    Flexibility::from_in_per_lbf(value)
}

fn row() -> impl Strategy<Value = SharingRow> {
    (-7.0_f64..-4.0, 1_u16..5)
        .prop_map(|(exponent, fasteners)| SharingRow::new(flexibility_of(10_f64.powf(exponent)), fasteners))
}

fn bay() -> impl Strategy<Value = Bay> {
    (1_i64..100, 4.0_f64..7.0, 4.0_f64..7.0).prop_map(|(millimetres, a, b)| {
        Bay::new(
            Length::from_nanometres(millimetres * 1_000_000).expect("small"),
            Force::from_lbf(10_f64.powf(a)),
            Force::from_lbf(10_f64.powf(b)),
        )
    })
}

fn chain() -> impl Strategy<Value = (Vec<SharingRow>, Vec<Bay>)> {
    (2..=MAX_ROWS).prop_flat_map(|rows| (prop::collection::vec(row(), rows), prop::collection::vec(bay(), rows - 1)))
}

fn transfer() -> impl Strategy<Value = Transfer> {
    prop_oneof![Just(Transfer::Lap), Just(Transfer::Doubler)]
}

fn solve(rows: &[SharingRow], bays: &[Bay], transfer: Transfer) -> Sharing {
    share(rows, bays, transfer, Force::from_lbf(LOAD)).expect("a chain")
}

fn loads(sharing: &Sharing) -> Vec<f64> {
    sharing.rows().map(|row| row.load.lbf()).collect()
}

/// The equations as printed, with the row loads as unknowns: `C F + (p/EA_B) S = (p/EA_A)(P - S) + C' F'`, and the sum. To ninety digits.
fn dense(rows: &[SharingRow], bays: &[Bay], transfer: Transfer) -> Vec<f64> {
    let n = rows.len();
    let mut equations = Equations::of(n);
    let compliance =
        |row: &SharingRow| Wide::of(row.flexibility.in_per_lbf()).over(&Wide::of(f64::from(row.fasteners)));
    for (i, bay) in bays.iter().enumerate() {
        let long = Wide::of(bay.length.nanometres() as f64).over(&Wide::of(25_400_000.0));
        let stretch = |ea: Force| long.over(&Wide::of(ea.lbf()));
        let (a, b) = (stretch(bay.ea_a), stretch(bay.ea_b));
        equations.add(i, i, &compliance(&rows[i]));
        equations.add(i, i + 1, &Wide::zero().minus(&compliance(&rows[i + 1])));
        for j in 0..=i {
            equations.add(i, j, &a.plus(&b));
        }
        equations.add_right(i, &a.times(&Wide::of(LOAD)));
    }
    for j in 0..n {
        equations.add(n - 1, j, &Wide::of(1.0));
    }
    equations.add_right(n - 1, &Wide::of(if transfer == Transfer::Lap { LOAD } else { 0.0 }));
    equations.solve().expect("regular").iter().map(Wide::to_f64).collect()
}

proptest! {
    #[test]
    fn the_chain_agrees_with_a_solution_to_ninety_digits((rows, bays) in chain(), transfer in transfer()) {
        let found = loads(&solve(&rows, &bays, transfer));
        for (found, dense) in found.iter().zip(dense(&rows, &bays, transfer)) {
            prop_assert!((found - dense).abs() < LOST * LOAD, "{} {}", found, dense);
        }
    }

    #[test]
    fn the_shares_of_a_lap_sum_to_one_and_those_of_a_doubler_to_nothing((rows, bays) in chain(), transfer in transfer()) {
        let sum: f64 = solve(&rows, &bays, transfer).rows().map(|row| row.share).sum();
        let whole = if transfer == Transfer::Lap { 1.0 } else { 0.0 };
        prop_assert!((sum - whole).abs() < ROUNDING);
    }

    #[test]
    fn both_plates_together_carry_the_load_past_every_row((rows, bays) in chain(), transfer in transfer()) {
        let found = solve(&rows, &bays, transfer);
        let mut in_b = 0.0;
        for row in found.rows() {
            let (before, after) = (in_b, in_b + row.load.lbf());
            in_b = after;
            let (more, less) = (before.max(after), before.min(after));
            let allowed = ROUNDING * LOAD * found.rows().len() as f64;
            prop_assert!((row.in_b.gross.lbf() - more).abs() < allowed && (row.in_b.bypass.lbf() - less).abs() < allowed);
            prop_assert!((row.in_a.gross.lbf() - (LOAD - less)).abs() < allowed);
            prop_assert!((row.in_a.bypass.lbf() - (LOAD - more)).abs() < allowed);
            prop_assert!((row.in_a.bearing.lbf() - row.load.lbf().abs()).abs() < allowed);
            prop_assert!(more <= LOAD * (1.0 + ROUNDING) && less >= -ROUNDING * LOAD, "no plate is pushed");
        }
    }

    #[test]
    fn a_joint_turned_end_for_end_shares_the_same((rows, bays) in chain(), transfer in transfer()) {
        // From the other end of a lap plate B is the one that brings the load; a doubler keeps its plates.
        let swap = transfer == Transfer::Lap;
        let turned_bays: Vec<Bay> = bays
            .iter()
            .rev()
            .map(|bay| if swap { bay.ea_a(bay.ea_b).ea_b(bay.ea_a) } else { *bay })
            .collect();
        let turned_rows: Vec<SharingRow> = rows.iter().rev().copied().collect();
        let here = loads(&solve(&rows, &bays, transfer));
        let there = loads(&solve(&turned_rows, &turned_bays, transfer));
        let sign = if swap { 1.0 } else { -1.0 };
        for (here, there) in here.iter().zip(there.iter().rev()) {
            prop_assert!((here - sign * there).abs() < ROUNDING * LOAD * rows.len() as f64);
        }
    }

    #[test]
    fn equal_pitch_and_plates_follow_the_hyperbolic_cosine(
        count in 2..=MAX_ROWS,
        exponent in -7.0_f64..-4.0,
        bay in bay(),
    ) {
        let bay = bay.ea_b(bay.ea_a);
        let flexibility = 10_f64.powf(exponent);
        let found = solve(
            &vec![SharingRow::new(flexibility_of(flexibility), 1); count],
            &vec![bay; count - 1],
            Transfer::Lap,
        );
        // cosh θ = 1 + B/2 with B = (p/C)(2/EA), as 2 asinh(√B/2) to keep its digits when B is small.
        let b = bay.length.to_inches_f64() / flexibility * 2.0 / bay.ea_a.lbf();
        let theta = 2.0 * (b.sqrt() / 2.0).asinh();
        // Over the end row, so that nothing overflows.
        let middle = (count as f64 + 1.0) / 2.0;
        let farthest = theta * (middle - 1.0);
        let shape = |i: usize| {
            let at = theta * (i as f64 + 1.0 - middle).abs();
            (at - farthest).exp() * (1.0 + (-2.0 * at).exp()) / (1.0 + (-2.0 * farthest).exp())
        };
        let sum: f64 = (0..count).map(shape).sum();
        for (i, row) in found.rows().enumerate() {
            prop_assert!((row.share - shape(i) / sum).abs() < 1e-12, "row {}: {} {}", i, row.share, shape(i) / sum);
        }
    }

    #[test]
    fn a_symmetric_joint_shares_symmetrically_and_peaks_at_its_first_row(count in 3..=MAX_ROWS, row in row(), bay in bay()) {
        let bay = bay.ea_b(bay.ea_a);
        let found = solve(&vec![row; count], &vec![bay; count - 1], Transfer::Lap);
        for (one, other) in found.rows().zip(found.rows().rev()) {
            prop_assert!((one.share - other.share).abs() < ROUNDING * count as f64);
        }
        prop_assert_eq!(found.peak, 0);
        prop_assert!(found.row(0).unwrap().share >= found.equal_share * (1.0 - ROUNDING));
    }

    #[test]
    fn stiff_plates_share_by_the_flexibility_of_the_fasteners((rows, bays) in chain()) {
        let stiff: Vec<Bay> =
            bays.iter().map(|bay| bay.ea_a(Force::from_lbf(1e30)).ea_b(Force::from_lbf(1e30))).collect();
        let stiffness = |row: &SharingRow| f64::from(row.fasteners) / row.flexibility.in_per_lbf();
        let whole: f64 = rows.iter().map(stiffness).sum();
        for (found, row) in solve(&rows, &stiff, Transfer::Lap).rows().zip(&rows) {
            prop_assert!((found.share - stiffness(row) / whole).abs() < ROUNDING * rows.len() as f64);
        }
    }

    #[test]
    fn stiff_fasteners_in_like_plates_leave_all_to_the_end_rows(count in 3..=MAX_ROWS, bay in bay()) {
        let bay = bay.ea_b(bay.ea_a);
        let row = SharingRow::new(flexibility_of(1e-20), 1);
        let found = solve(&vec![row; count], &vec![bay; count - 1], Transfer::Lap);
        prop_assert!((found.row(0).unwrap().share - 0.5).abs() < 1e-9 && (found.row(count - 1).unwrap().share - 0.5).abs() < 1e-9);
    }

    #[test]
    fn only_ratios_of_flexibility_and_load_in_proportion((rows, bays) in chain(), power in -20_i32..20) {
        let factor = 2_f64.powi(power);
        let softer: Vec<SharingRow> = rows
            .iter()
            .map(|row| row.flexibility(flexibility_of(row.flexibility.in_per_lbf() * factor)))
            .collect();
        let weaker: Vec<Bay> = bays
            .iter()
            .map(|bay| bay.ea_a(Force::from_lbf(bay.ea_a.lbf() / factor)).ea_b(Force::from_lbf(bay.ea_b.lbf() / factor)))
            .collect();
        let here = solve(&rows, &bays, Transfer::Lap);
        let there = share(&softer, &weaker, Transfer::Lap, Force::from_lbf(-2.0 * LOAD)).expect("a chain");
        for (here, there) in here.rows().zip(there.rows()) {
            prop_assert_eq!(-2.0 * here.load.lbf(), there.load.lbf(), "powers of two are exact");
        }
    }

    #[test]
    fn the_envelope_of_two_formulas_holds_both(
        thickness in (4_i16..20, 4_i16..20),
        diameter in 6_i16..16,
        count in 2_usize..12,
    ) {
        let plate = |at: i16| JoinedPlate::new(Length::from_ten_thousandths(100 * at as u16), Stress::from_msi(10.5));
        let fastening = Fastening::new(Length::from_64ths(diameter), Stress::from_msi(10.3), Shear::Single, [plate(thickness.0), plate(thickness.1)]);
        let rows = |formula| {
            let flexibility = flexibility(formula, &fastening).expect("a fastening");
            vec![SharingRow::new(flexibility, 1); count]
        };
        let bay = Bay::new(Length::INCH, Force::from_lbf(4e5), Force::from_lbf(3e5));
        let bays = vec![bay; count - 1];
        let by = |formula| share(&rows(formula), &bays, Transfer::Lap, Force::from_lbf(LOAD)).expect("a chain");
        let all: Vec<Sharing> = Formula::for_rivets(Shear::Single).map(by).collect();
        prop_assert_eq!(all.len(), 4);
        let mut found = Envelope::new();
        all.iter().for_each(|sharing| found.add(sharing));
        for i in 0..count {
            let (least, greatest) = found.row(i).expect("a row");
            let loads: Vec<Force> = all.iter().map(|sharing| sharing.row(i).expect("a row").load).collect();
            prop_assert!(loads.iter().all(|load| least <= *load && *load <= greatest && *load <= found.peak().expect("rows").1));
            prop_assert!(loads.contains(&least) && loads.contains(&greatest), "both ends come from a formula");
        }
    }

    /// Both plates alike in single shear: which is called the first must not matter.
    #[test]
    fn single_shear_flexibility_does_not_ask_which_plate_is_first(one in 1_u16..50, other in 1_u16..50, diameter in 4_i16..32) {
        let plate = |thousandths: u16, msi| JoinedPlate::new(Length::from_ten_thousandths(10 * thousandths), Stress::from_msi(msi));
        let plates = [plate(one, 10.5), plate(other, 16.0)];
        let fastening = Fastening::new(Length::from_64ths(diameter), Stress::from_msi(10.3), Shear::Single, plates);
        let turned = changed(fastening, |it| it.plates = [plates[1], plates[0]]);
        for formula in Formula::ALL.iter().filter(|formula| formula.is_for(Shear::Single)) {
            let [here, there] = [fastening, turned].map(|one| flexibility(*formula, &one).expect("a fastening").in_per_lbf());
            prop_assert!((here - there).abs() <= ROUNDING * here, "{}", formula);
        }
    }
}

/// A longer doubler takes more out of the sheet: its first row is loaded more by every row behind it. The rows say that they can be.
#[test]
fn a_row_more_can_load_another_more_and_the_rows_say_so() {
    let row = SharingRow::new(flexibility_of(5e-6), 1);
    let ea = Force::from_lbf(3e5);
    let bay = Bay::new(Length::from_64ths(48), ea, ea);
    let first = |rows: usize| {
        let sharing = solve(&vec![row; rows], &vec![bay; rows - 1], Transfer::Doubler);
        let said = sharing.findings.iter().find(|finding| finding.code() == Code::ElasticSharesOnly).expect("said");
        assert!(said.sentence(Units::Inches).to_string().contains("a rivet more can load another more"));
        loads(&sharing)[0].abs()
    };
    assert!(first(2) < first(3) && first(3) < first(6), "{} {} {}", first(2), first(3), first(6));
}
