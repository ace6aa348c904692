//! Laws of a load shared over several layers, and the chain against a displacement solution with every place as an unknown.

use proptest::prelude::*;
use shophead::joint::layers::{LayerBay, LayerRow, Layers, MAX_PLATES, share};
use shophead::quantity::{Flexibility, Force};
use shophead_tests::prelude::nm;

use crate::common::config;
use crate::wide::{Equations, Wide};

const LOAD: f64 = 1_000.0;
/// The chain loses digits with the spread of the stiffnesses: this part of the load at most.
const LOST: f64 = 1e-10;

#[derive(Clone, Debug)]
struct Chain {
    rows: Vec<LayerRow>,
    bays: Vec<LayerBay>,
    start: Vec<Force>,
    end: Vec<Force>,
}

fn chain() -> impl Strategy<Value = Chain> {
    let row = (prop::array::uniform4(-6.0_f64..-4.5), 1_u16..4).prop_map(|(exponents, fasteners)| {
        LayerRow::new(exponents.map(|exponent| Flexibility::from_in_per_lbf(10_f64.powf(exponent))), fasteners)
    });
    let bay = (5_i64..60, prop::array::uniform5(4.5_f64..6.5)).prop_map(|(millimetres, exponents)| {
        LayerBay::new(nm(millimetres * 1_000_000), exponents.map(|exponent| Force::from_lbf(10_f64.powf(exponent))))
    });
    (2..=MAX_PLATES, 2_usize..10).prop_flat_map(move |(plates, rows)| {
        let loads = prop::collection::vec(0.0_f64..1.0, plates);
        let (row, bay) = (row.clone(), bay.clone());
        (prop::collection::vec(row, rows), prop::collection::vec(bay, rows - 1), loads.clone(), loads).prop_map(
            |(rows, bays, start, end)| {
                let scaled = |loads: Vec<f64>| {
                    let sum: f64 = loads.iter().sum::<f64>().max(1e-3);
                    loads.into_iter().map(|load| Force::from_lbf(load / sum * LOAD)).collect::<Vec<Force>>()
                };
                Chain { rows, bays, start: scaled(start), end: scaled(end) }
            },
        )
    })
}

fn solve(chain: &Chain) -> Option<Layers> {
    // A vector of zeros only has no load to share.
    share(&chain.rows, &chain.bays, &chain.start, &chain.end).ok()
}

/// Displacements of every plate at every row, to ninety digits; the shear of one fastener in each plane.
fn dense(chain: &Chain) -> Vec<Vec<f64>> {
    let (rows, plates) = (chain.rows.len(), chain.start.len());
    let at = |row: usize, plate: usize| row * plates + plate;
    let mut equations = Equations::of(rows * plates);
    let mut spring = |one: usize, other: usize, stiffness: &Wide| {
        let less = Wide::zero().minus(stiffness);
        equations.add(one, one, stiffness);
        equations.add(other, other, stiffness);
        equations.add(one, other, &less);
        equations.add(other, one, &less);
    };
    let fastener = |row: &LayerRow, plane: usize| Wide::of(1.0).over(&Wide::of(row.flexibility[plane].in_per_lbf()));
    for (i, row) in chain.rows.iter().enumerate() {
        for plane in 0..plates - 1 {
            let together = fastener(row, plane).times(&Wide::of(f64::from(row.fasteners)));
            spring(at(i, plane), at(i, plane + 1), &together);
        }
    }
    for (i, bay) in chain.bays.iter().enumerate() {
        let long = Wide::of(bay.length.nanometres() as f64).over(&Wide::of(25_400_000.0));
        for plate in 0..plates {
            spring(at(i, plate), at(i + 1, plate), &Wide::of(bay.ea[plate].lbf()).over(&long));
        }
    }
    for plate in 0..plates {
        equations.add_right(at(0, plate), &Wide::of(-chain.start[plate].lbf()));
        equations.add_right(at(rows - 1, plate), &Wide::of(chain.end[plate].lbf()));
    }
    // Held at one place.
    equations.hold(0);
    let moved = equations.solve().expect("regular");
    let plane = |i: usize, plane: usize| {
        let slip = moved[at(i, plane + 1)].minus(&moved[at(i, plane)]);
        slip.times(&fastener(&chain.rows[i], plane)).to_f64()
    };
    (0..rows).map(|i| (0..plates - 1).map(|k| plane(i, k)).collect()).collect()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn the_chain_agrees_with_every_place_as_an_unknown(chain in chain()) {
        let Some(found) = solve(&chain) else { return Ok(()) };
        for (index, dense) in dense(&chain).iter().enumerate() {
            let row = found.row(index).expect("a row");
            for (plane, dense) in row.planes.iter().zip(dense) {
                prop_assert!((plane.lbf() - dense).abs() < LOST * LOAD, "{} {}", plane.lbf(), dense);
            }
        }
    }

    #[test]
    fn what_comes_in_goes_out_past_every_row(chain in chain()) {
        let Some(found) = solve(&chain) else { return Ok(()) };
        let mut tension: Vec<f64> = chain.start.iter().map(|load| load.lbf()).collect();
        for (index, row) in chain.rows.iter().enumerate() {
            let share = found.row(index).expect("a row");
            let on_rivet: f64 = share.bearing.iter().map(|load| load.lbf()).sum();
            prop_assert!(on_rivet.abs() < 1e-9 * LOAD, "a rivet is in balance");
            for (tension, bearing) in tension.iter_mut().zip(&share.bearing) {
                *tension -= bearing.lbf() * f64::from(row.fasteners);
            }
            prop_assert!((tension.iter().sum::<f64>() - LOAD).abs() < 1e-9 * LOAD);
        }
        for (tension, end) in tension.iter().zip(&chain.end) {
            prop_assert!((tension - end.lbf()).abs() < 1e-6 * LOAD);
        }
    }
}
