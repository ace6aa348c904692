//! Laws of lengths: reading, printing, rounding.

use proptest::prelude::*;
use shophead::length::{Length, Toleranced};
use shophead_tests::prelude::nm;

use crate::common::config;

fn step() -> impl Strategy<Value = Length> {
    prop_oneof![Just(Length::SIXTEENTH), Just(Length::THIRTY_SECOND), (1_i64..60_000_000).prop_map(nm)]
}

/// Anywhere in the range, and on a multiple of a step and its neighbours, which chance hardly ever meets.
fn length_and_step() -> impl Strategy<Value = (Length, Length)> {
    let anywhere = (-500_000_000_000_i64..500_000_000_000, step()).prop_map(|(at, step)| (nm(at), step));
    let near = (-3_000_i64..3_000, step(), -1_i64..=1, prop::bool::ANY).prop_map(|(count, step, off, midway)| {
        let half = if midway { step.nanometres() / 2 } else { 0 };
        (nm(count * step.nanometres() + half + off), step)
    });
    prop_oneof![anywhere, near]
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn nine_decimals_of_an_inch_read_back_to_the_nanometre(at in -1_000_000_000_000_i64..=1_000_000_000_000) {
        let length = nm(at);
        prop_assert_eq!(Length::parse(&format!("{length:.9}")), Ok(length));
        prop_assert_eq!(Length::parse(&format!("{length:.9} in")), Ok(length));
        prop_assert_eq!(Length::parse(&format!("{:.6}mm", length.in_millimetres())), Ok(length));
    }

    #[test]
    fn what_is_shown_by_default_reads_back_when_it_is_not_cut(hundred_thousandths in -400_000_i64..400_000, tenths_of_a_micron in -9_000_000_i64..9_000_000) {
        let inches = nm(hundred_thousandths * 254);
        prop_assert_eq!(Length::parse(&inches.to_string()), Ok(inches));
        let millimetres = nm(tenths_of_a_micron * 100);
        prop_assert_eq!(Length::parse(&format!("{} mm", millimetres.in_millimetres())), Ok(millimetres));
    }

    #[test]
    fn a_fraction_reads_back_and_is_the_nearest(at in -30_000_000_000_i64..30_000_000_000) {
        const SIXTY_FOURTH: i64 = 396_875;
        let fraction = nm(at).to_64ths();
        let read = Length::parse(&fraction.to_string()).expect("what is printed is read");
        prop_assert_eq!(read.nanometres(), fraction.count() * SIXTY_FOURTH);
        prop_assert_eq!(fraction.is_exact(), read == nm(at));
        prop_assert!(2 * (read.nanometres() - at).abs() <= SIXTY_FOURTH);
    }

    #[test]
    fn a_tolerance_reads_back(nominal in 0_i64..4_000_000, below in 0_i64..10_000, above in 0_i64..10_000) {
        let [nominal, below, above] = [nominal, below, above].map(|count| nm(count * 254));
        let text = format!("{nominal}+{above}-{below}");
        prop_assert_eq!(Toleranced::parse(&text), Ok(Toleranced::new(nominal, below, above).expect("magnitudes")));
        let both = Toleranced::parse(&format!("{nominal}+-{above}")).expect("a tolerance");
        prop_assert_eq!(both, Toleranced::parse(&format!("{nominal}±{above}")).expect("a tolerance"));
        prop_assert_eq!((both.min(), both.max()), (nm(nominal.nanometres() - above.nanometres()), nm(nominal.nanometres() + above.nanometres())));
    }

    #[test]
    fn rounding_takes_the_neighbouring_multiple((length, step) in length_and_step()) {
        let (at, one) = (length.nanometres(), step.nanometres());
        // Counted up from below, not by the remainder that the crate uses.
        let below = at.div_euclid(one) * one;
        let above = if below == at { at } else { below + one };
        prop_assert_eq!(length.floor_to(step), nm(below));
        prop_assert_eq!(length.ceil_to(step), nm(above));
        let nearest = if at - below < above - at { below } else { above };
        prop_assert_eq!(length.round_to(step), nm(nearest), "midway goes to the longer");
    }

    #[test]
    fn rounding_twice_is_rounding_once_and_keeps_the_order((length, step) in length_and_step(), further in 0_i64..60_000_000) {
        let longer = nm(length.nanometres() + further);
        for round in [Length::floor_to, Length::ceil_to, Length::round_to] {
            let once = round(length, step);
            prop_assert_eq!(round(once, step), once);
            prop_assert!(round(longer, step) >= once);
        }
        prop_assert_eq!(length.ceil_to(Length::ZERO), length);
    }

    #[test]
    fn no_text_reads_as_a_length_outside_the_range(text in "[-+0-9./ ]{0,14}(in|mm|\")?") {
        if let Ok(length) = Length::parse(&text) {
            prop_assert!(Length::MIN <= length && length <= Length::MAX);
            prop_assert_eq!(Length::parse(&format!("{length:.9}")), Ok(length));
        }
    }

    #[test]
    fn an_error_points_into_the_text_or_just_behind_it(text in "\\PC{0,12}") {
        if let Err(error) = Length::parse(&text) {
            prop_assert!((1..=text.chars().count() + 1).contains(&error.at), "{}", error.at);
        }
        if let Err(error) = Toleranced::parse(&text) {
            prop_assert!((1..=text.chars().count() + 1).contains(&error.at), "{}", error.at);
        }
    }

    #[test]
    fn sums_are_exact_or_refused(a in -1_000_000_000_000_i64..=1_000_000_000_000, b in -1_000_000_000_000_i64..=1_000_000_000_000, count in any::<i64>()) {
        let within = |sum: i128| i64::try_from(sum).ok().and_then(Length::from_nanometres);
        prop_assert_eq!(nm(a).checked_add(nm(b)), within(i128::from(a) + i128::from(b)));
        prop_assert_eq!(nm(a).checked_sub(nm(b)), within(i128::from(a) - i128::from(b)));
        prop_assert_eq!(nm(a).checked_mul(count), within(i128::from(a) * i128::from(count)));
    }
}
