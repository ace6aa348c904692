//! Work positions taken in turn.

use proptest::prelude::*;
use shophead::access::{Clearance, MOST_POSITIONS, Mix, Reach, RowWork};

/// What is reached from which position, one list for each row.
fn seen() -> impl Strategy<Value = (usize, Vec<(u32, Vec<bool>)>)> {
    (1_usize..8).prop_flat_map(|positions| {
        let row = (1_u32..50, prop::collection::vec(any::<bool>(), positions));
        (Just(positions), prop::collection::vec(row, 1..10))
    })
}

fn reach((rivets, from): &(u32, Vec<bool>)) -> Reach {
    Reach::of(
        from.iter()
            .map(|is_open| RowWork::new(true, *rivets, if *is_open { Clearance::Open } else { Clearance::Closed })),
    )
}

proptest! {
    #[test]
    fn a_mix_leaves_nothing_out_and_no_smaller_one_would_do((positions, rows) in seen()) {
        let reaches: Vec<Reach> = rows.iter().map(reach).collect();
        let covers = |set: &[usize]| rows.iter().all(|(_, from)| set.iter().any(|index| from[*index]));
        match Mix::fewest(&vec![None; positions], &reaches) {
            None => prop_assert!(rows.iter().any(|(_, from)| !from.contains(&true))),
            Some(mix) => {
                let order: Vec<usize> = mix.positions().collect();
                prop_assert!(covers(&order));
                for subset in 0_u32..1 << positions {
                    let set: Vec<usize> = (0..positions).filter(|index| subset >> index & 1 == 1).collect();
                    prop_assert!(set.len() >= order.len() || !covers(&set), "{set:?} would do");
                }
                for ((_, from), reach) in rows.iter().zip(&reaches) {
                    let first = order.iter().copied().find(|index| from[*index]);
                    prop_assert_eq!(mix.position_for(*reach), first);
                }
                let rivets = |index: usize| rows.iter().filter(|(_, from)| from[index]).map(|(rivets, _)| rivets).sum::<u32>();
                prop_assert!(order.windows(2).all(|pair| rivets(pair[0]) >= rivets(pair[1])));
            }
        }
    }
}

#[test]
fn positions_beyond_those_that_are_weighed_do_no_harm() {
    let only_last: Vec<bool> = (0..40).map(|index| index == 39).collect();
    assert_eq!(Mix::fewest(&[None; 40], &[reach(&(1, only_last))]), None);
    let first: Vec<bool> = (0..40).map(|index| index == MOST_POSITIONS - 1).collect();
    assert!(
        Mix::fewest(&[None; 40], &[reach(&(1, first))]).is_some_and(|mix| mix.positions().eq([MOST_POSITIONS - 1]))
    );
}
