//! Laws of strips whose rows are not alike: the weakest line against every line there is.

use proptest::prelude::*;
use shophead::basis::Basis;
use shophead::joint::strip::{Hole, Pulled, StripSheet, weakest_line};
use shophead::layout::Point;
use shophead::length::Length;
use shophead::quantity::{Force, Stress};
use shophead_tests::prelude::nm;

use crate::common::config;

const GIVEN: Basis = Basis::own(0);
/// Across the strip, in nanometres: two inches and a bit.
const WIDTH: i64 = 60_000_000;

/// Few enough that every set of them can be tried.
fn holes() -> impl Strategy<Value = Vec<Hole>> {
    let hole = (0_i64..4, 5_000_000_i64..55_000_000, 2_000_000_i64..6_000_000, 50.0_f64..500.0);
    prop::collection::vec(hole, 1..11).prop_map(|holes| {
        let hole = |(row, y, diameter, carries): (i64, i64, i64, f64)| {
            Hole::new(Point { x: nm(row * 9_000_000), y: nm(y) }, nm(diameter), Force::from_lbf(carries))
        };
        holes.into_iter().map(hole).collect()
    })
}

fn sheet(pulled: Pulled) -> StripSheet {
    StripSheet::new(nm(1_000_000), (Stress::from_ksi(60.0), GIVEN), pulled)
}

fn inches(length: Length) -> f64 {
    length.to_inches_f64()
}

/// Every set of holes as one line from side to side, with the rivets of the rows before the first row on it.
fn by_trying(holes: &[Hole], pulled: Pulled) -> f64 {
    let mut least = f64::MAX;
    for set in 1_u32..1 << holes.len() {
        let mut line: Vec<&Hole> = (0..holes.len()).filter(|i| set >> i & 1 == 1).map(|i| &holes[i]).collect();
        line.sort_by_key(|hole| hole.at.y);
        if line.windows(2).any(|pair| pair[0].at.y == pair[1].at.y) {
            continue;
        }
        let along = |hole: &Hole| match pulled {
            Pulled::AtFirst => inches(hole.at.x),
            Pulled::AtLast => -inches(hole.at.x),
        };
        let first = line.iter().map(|hole| along(hole)).fold(f64::MAX, f64::min);
        let before: f64 = holes.iter().filter(|hole| along(hole) < first).map(|hole| hole.carries.lbf()).sum();
        let cut: f64 = line.iter().map(|hole| inches(hole.diameter)).sum();
        let legs: f64 = line
            .windows(2)
            .map(|pair| {
                let (s, g) = (along(pair[0]) - along(pair[1]), inches(pair[1].at.y) - inches(pair[0].at.y));
                s * s / (4.0 * g)
            })
            .sum();
        let net = (inches(nm(WIDTH)) - cut + legs).max(0.0);
        least = least.min(60_000.0 * inches(nm(1_000_000)) * net + before);
    }
    least
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn no_line_is_weaker_than_the_weakest(holes in holes(), at_first in any::<bool>()) {
        let pulled = if at_first { Pulled::AtFirst } else { Pulled::AtLast };
        let found = weakest_line(&holes, nm(WIDTH), &sheet(pulled)).expect("a strip");
        let tried = by_trying(&holes, pulled);
        prop_assert!((found.load.force.lbf() - tried).abs() < 1e-9 * (1.0 + tried), "{:?} {}", found, tried);
    }

    #[test]
    fn a_larger_hole_strengthens_no_sheet(holes in holes(), which in any::<prop::sample::Index>()) {
        let before = weakest_line(&holes, nm(WIDTH), &sheet(Pulled::AtFirst)).expect("a strip");
        let mut larger = holes;
        let index = which.index(larger.len());
        larger[index].diameter = nm(larger[index].diameter.nanometres() + 1_000_000);
        let after = weakest_line(&larger, nm(WIDTH), &sheet(Pulled::AtFirst)).expect("a strip");
        prop_assert!(after.load.force.lbf() <= before.load.force.lbf() + 1e-9);
    }
}
