//! Laws of the drill table.

use proptest::prelude::*;
use shophead::drill::{Drill, parse_hole};
use shophead::length::Length;

/// Diameters from below #80 to above 1/2 in, to the nanometre.
fn diameter() -> impl Strategy<Value = Length> {
    let anywhere = (0_i64..14_000_000).prop_map(|nm| Length::from_nanometres(nm).expect("in range"));
    // A random nanometre hardly ever meets a drill: these are drills and their next neighbours.
    let drills: Vec<Drill> = Drill::all().collect();
    let at_a_drill = (prop::sample::select(drills), -1_i64..=1)
        .prop_map(|(drill, off)| Length::from_nanometres(drill.diameter().nanometres() + off).expect("in range"));
    prop_oneof![anywhere, at_a_drill]
}

#[test]
fn every_drill_reads_back_as_printed() {
    for drill in Drill::all() {
        let printed = drill.to_string();
        assert_eq!(Drill::parse(&printed), Ok(drill), "{printed}");
        assert_eq!(Drill::parse(&printed.to_lowercase()), Ok(drill), "{printed}");
        assert_eq!(parse_hole(&printed), Ok(drill.diameter()), "{printed}");
    }
}

proptest! {
    #[test]
    fn the_nearest_at_or_above_is_never_below_and_nothing_lies_between(wanted in diameter()) {
        let found = Drill::nearest_at_or_above(wanted);
        // Counted over the whole table, without relying on its order.
        let least = Drill::all().map(Drill::diameter).filter(|diameter| *diameter >= wanted).min();
        prop_assert_eq!(found.map(Drill::diameter), least);
    }

    #[test]
    fn the_nearest_at_or_below_is_never_above_and_nothing_lies_between(wanted in diameter()) {
        let found = Drill::nearest_at_or_below(wanted);
        let greatest = Drill::all().map(Drill::diameter).filter(|diameter| *diameter <= wanted).max();
        prop_assert_eq!(found.map(Drill::diameter), greatest);
    }

    #[test]
    fn the_nearest_of_the_nearest_is_itself(wanted in diameter()) {
        for found in [Drill::nearest_at_or_above(wanted), Drill::nearest_at_or_below(wanted)].into_iter().flatten() {
            prop_assert_eq!(Drill::nearest_at_or_above(found.diameter()), Some(found));
            prop_assert_eq!(Drill::nearest_at_or_below(found.diameter()), Some(found));
        }
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,12}") {
        if let Ok(drill) = Drill::parse(&text) {
            prop_assert_eq!(Drill::parse(&drill.to_string()), Ok(drill));
        }
        if let Ok(hole) = parse_hole(&text) {
            prop_assert!(hole > Length::ZERO);
        }
    }
}
