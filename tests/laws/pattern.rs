//! Laws of patterns: the choice against every choice there is.

use proptest::prelude::*;
use shophead::basis::Basis;
use shophead::hole::Disposition;
use shophead::pattern::{Demand, PatternError, PatternLimits, choose, room_needed, tally};
use shophead::practice::Given;

use crate::common::config;

const STEPS: [Disposition; 4] = [Disposition::Keep, Disposition::CleanUp, Disposition::Oversize, Disposition::NextSize];

fn demands() -> impl Strategy<Value = Vec<Demand>> {
    let place = (0_u32..3, 1_u32..9);
    let steps = prop::collection::vec(prop::sample::select(STEPS.as_slice()), 1..3);
    prop::collection::btree_map(place, steps, 0..9)
        .prop_map(|holes| holes.into_iter().map(|((row, number), steps)| Demand::of(row, number, steps)).collect())
}

fn limits() -> impl Strategy<Value = PatternLimits> {
    let given = |value: Option<u32>| value.map(|value| Given { value, basis: Basis::own(0) });
    (prop::option::of(0_u32..8), prop::option::of(0_u32..4))
        .prop_map(move |(steps, neighbours)| PatternLimits::default().steps(given(steps)).neighbours(given(neighbours)))
}

fn keeps(demands: &[Demand], choice: &[Disposition], limits: &PatternLimits) -> bool {
    let stepped = demands.iter().zip(choice).filter(|(_, step)| step.is_step_up());
    let (count, run) = tally(stepped.map(|(demand, _)| (demand.row, demand.number)));
    limits.check(count, run).is_empty()
}

/// What is optimised, in its order: referred, changed, then the earlier holes stepped up.
fn cost(choice: &[Disposition]) -> (usize, usize, Vec<bool>) {
    let referred = choice.iter().filter(|step| **step == Disposition::Refer).count();
    let changed = choice.iter().filter_map(|step| STEPS.iter().position(|known| known == step)).sum();
    (referred, changed, choice.iter().map(|step| !step.is_step_up()).collect())
}

/// Every choice: the least step with the same rivet, the least with a larger one, or refer.
fn best(demands: &[Demand], limits: &PatternLimits) -> Vec<Disposition> {
    let mut choices: Vec<Vec<Disposition>> = vec![Vec::new()];
    for demand in demands {
        let steps = [demand.same, demand.larger, Some(Disposition::Refer)];
        choices = choices
            .into_iter()
            .flat_map(|choice| {
                steps.into_iter().flatten().map(move |step| {
                    let mut choice = choice.clone();
                    choice.push(step);
                    choice
                })
            })
            .collect();
    }
    choices.into_iter().filter(|choice| keeps(demands, choice, limits)).min_by_key(|choice| cost(choice)).unwrap()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn no_choice_within_the_limits_is_better(demands in demands(), limits in limits()) {
        let mut room = vec![0xff; room_needed(&demands, &limits).unwrap()];
        let mut chosen = vec![Disposition::Refer; demands.len()];
        choose(&demands, &limits, &mut room, |index, step| chosen[index] = step).unwrap();
        prop_assert!(keeps(&demands, &chosen, &limits));
        prop_assert_eq!(cost(&chosen), cost(&best(&demands, &limits)));
    }

    #[test]
    fn what_stands_in_the_room_does_not_matter_and_a_byte_less_is_refused(
        demands in demands(), limits in limits(), filled in any::<u8>(),
    ) {
        let needed = room_needed(&demands, &limits).unwrap();
        let choice = |filled: u8, room: usize| {
            let mut chosen = Vec::new();
            choose(&demands, &limits, &mut vec![filled; room], |_, step| chosen.push(step)).map(|()| chosen)
        };
        prop_assert_eq!(choice(filled, needed).unwrap(), choice(0, needed + 9).unwrap());
        prop_assert_eq!(choice(filled, needed - 1), Err(PatternError::TooLittleRoom { needed }));
    }

    #[test]
    fn a_pattern_within_its_limits_takes_every_hole_as_it_would_be_alone(demands in demands(), limits in limits()) {
        let alone: Vec<Disposition> = demands.iter().map(Demand::alone).collect();
        prop_assume!(keeps(&demands, &alone, &limits));
        let mut room = vec![0; room_needed(&demands, &limits).unwrap()];
        let mut chosen = vec![Disposition::Refer; demands.len()];
        choose(&demands, &limits, &mut room, |index, step| chosen[index] = step).unwrap();
        prop_assert_eq!(chosen, alone);
    }
}
