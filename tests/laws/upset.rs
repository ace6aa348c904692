//! Laws of the volume balance, against exact rational arithmetic.

use num_bigint::BigInt;
use num_rational::BigRational;
use proptest::prelude::*;
use shophead::basis::Basis;
use shophead::length::{Length, Toleranced};
use shophead::rivet::{Head, HeadSize, LengthTolerance, NumberForm, Series, Size};
use shophead::upset::Fit;
use shophead_tests::prelude::nm;

use crate::common::config;

/// Whole nanometres, as the shop has them: shank, hole, pack, flush head, tolerance of the length.
#[derive(Clone, Copy, Debug)]
struct Sizes {
    shank: [i64; 3],
    hole: [i64; 3],
    grip: [i64; 3],
    sunk: Option<[i64; 3]>,
    /// Whether every layer is dimpled; counts for a flush head only.
    dimpled: bool,
    length_off: i64,
}

impl Sizes {
    fn fit(self) -> Fit {
        let basis = Basis::own(0);
        let around =
            |[below, nominal, above]: [i64; 3]| Toleranced::new(nm(nominal), nm(below), nm(above)).expect("tolerances");
        let ends = |sizes| around(sizes).interval();
        let head =
            self.sunk.map(|sunk| HeadSize::new(nm(2 * self.shank[1]), nm(sunk[1]), basis).height(Some(ends(sunk))));
        let size = Size::new(0, basis).shank_nominal(nm(self.shank[1])).shank(Some(ends(self.shank))).head(head);
        let series = Series::new(
            "OWN",
            if self.sunk.is_some() { Head::Flush } else { Head::Universal },
            NumberForm::MaterialFirst,
            &[],
            &[],
            basis,
        )
        .length_tolerance(Some(LengthTolerance { either_way: nm(self.length_off), basis }));
        if self.dimpled {
            Fit::through_dimples(&series, &size, around(self.hole), around(self.grip)).expect("sizes")
        } else {
            Fit::new(&series, &size, around(self.hole), around(self.grip)).expect("sizes")
        }
    }

    fn ends([below, nominal, above]: [i64; 3]) -> [i64; 2] {
        [nominal - below, nominal + above]
    }

    /// Metal that every corner leaves to a rivet of this nominal length: d² h = D² (L - k) - H² (G - k).
    fn metal(self, length: i64) -> Vec<BigRational> {
        let mut left = Vec::new();
        for rivet in [length - self.length_off, length + self.length_off] {
            for shank in Self::ends(self.shank) {
                for hole in Self::ends(self.hole) {
                    for grip in Self::ends(self.grip) {
                        for sunk in self.sunk.map_or([0, 0], Self::ends) {
                            left.push(self.balance(shank, hole, rivet, grip, sunk));
                        }
                    }
                }
            }
        }
        left
    }

    /// Metal that one rivet leaves: d² h = D² (L - k) - H² (G - k), and through dimples d² h = D² (L - k) - H² G.
    fn balance(self, shank: i64, hole: i64, length: i64, grip: i64, sunk: i64) -> BigRational {
        let straight = if self.dimpled && self.sunk.is_some() { grip } else { grip - sunk };
        let (shank, hole) = (whole(shank), whole(hole.max(shank)));
        &shank * &shank * whole(length - sunk) - &hole * &hole * whole(straight)
    }

    fn nominal(self, length: i64) -> BigRational {
        self.balance(self.shank[1], self.hole[1], length, self.grip[1], self.sunk.map_or(0, |sunk| sunk[1]))
    }

    /// How far the far side bulges, least and greatest.
    fn bulge(self) -> [i64; 2] {
        self.sunk.filter(|_| self.dimpled).map_or([0, 0], Self::ends)
    }
}

fn whole(nanometres: i64) -> BigRational {
    BigRational::from_integer(BigInt::from(nanometres))
}

fn head_metal(diameter: i64, height: i64) -> BigRational {
    whole(diameter) * whole(diameter) * whole(height)
}

/// Shanks of 1 to 10 mm, holes up to half a millimetre wider or a little narrower, packs up to 60 mm.
fn sizes() -> impl Strategy<Value = Sizes> {
    let off = || 0_i64..100_000;
    let shank = (off(), 1_000_000_i64..10_000_000, off()).prop_map(|(below, nominal, above)| [below, nominal, above]);
    let grip = (off(), 2_000_000_i64..60_000_000, off()).prop_map(|(below, nominal, above)| [below, nominal, above]);
    let hole = (off(), -50_000_i64..500_000, off());
    let sunk = proptest::option::of((off(), 200_000_i64..1_500_000, off()));
    (shank, hole, grip, sunk, any::<bool>(), 0_i64..300_000).prop_map(
        |(shank, hole, grip, sunk, dimpled, length_off)| Sizes {
            shank,
            hole: [hole.0, shank[1] + hole.1, hole.2],
            grip,
            sunk: sunk.map(|(below, nominal, above)| [below, nominal, above]),
            dimpled,
            length_off,
        },
    )
}

/// A driven head in proportion to the shank.
fn head(sizes: &Sizes, wide: i64, high: i64) -> (i64, i64) {
    (sizes.shank[1] * wide / 100, sizes.shank[1] * high / 100)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn the_shortest_is_the_first_length_that_leaves_enough_in_every_corner(sizes in sizes(), wide in 100_i64..200, high in 20_i64..80) {
        let (diameter, height) = head(&sizes, wide, high);
        let shortest = sizes.fit().shortest_for(nm(diameter), nm(height)).nanometres();
        let needed = head_metal(diameter, height);
        prop_assert!(sizes.metal(shortest).iter().all(|metal| *metal >= needed));
        prop_assert!(sizes.metal(shortest - 1).iter().any(|metal| *metal < needed));
    }

    #[test]
    fn the_longest_is_the_last_length_that_leaves_no_more_in_any_corner(sizes in sizes(), wide in 100_i64..200, high in 20_i64..80) {
        let (diameter, height) = head(&sizes, wide, high);
        let longest = sizes.fit().longest_for(nm(diameter), nm(height)).nanometres();
        let allowed = head_metal(diameter, height);
        prop_assert!(sizes.metal(longest).iter().all(|metal| *metal <= allowed));
        prop_assert!(sizes.metal(longest + 1).iter().any(|metal| *metal > allowed));
    }

    #[test]
    fn the_longest_at_nominal_sizes_is_the_last_that_leaves_no_more_there(sizes in sizes(), wide in 100_i64..200, high in 20_i64..80, tail in 100_i64..300) {
        let (diameter, height) = head(&sizes, wide, high);
        let longest = sizes.fit().longest_nominal_for(nm(diameter), nm(height)).nanometres();
        let allowed = head_metal(diameter, height);
        prop_assert!(sizes.nominal(longest) <= allowed && sizes.nominal(longest + 1) > allowed);
        let tail = sizes.shank[1] * tail / 100;
        let bulge = sizes.sunk.filter(|_| sizes.dimpled).map_or(0, |sunk| sunk[1]);
        prop_assert_eq!(sizes.fit().longest_nominal_for_tail(nm(tail)), nm(sizes.grip[1] + bulge + tail));
    }

    /// The hole and the shank that are named are the last that will do: a nanometre wider, or thinner, will not.
    #[test]
    fn the_hole_and_the_shank_that_are_named_are_the_last_that_will_do(sizes in sizes(), wide in 120_i64..170, high in 20_i64..60, tail in -50_i64..250) {
        let (diameter, height) = head(&sizes, wide, high);
        let length = sizes.grip[1] + sizes.shank[1] * tail / 100;
        let needed = head_metal(diameter, height);
        let within = sizes.fit().within(nm(length), nm(diameter), nm(height));
        let enough = |sizes: Sizes| sizes.metal(length).iter().all(|metal| *metal >= needed);
        let in_holes_to = |greatest: i64| Sizes { hole: [0, greatest, 0], ..sizes };
        let [thin, thick] = Sizes::ends(sizes.shank);
        match within.hole_greatest.map(Length::nanometres) {
            Some(hole) => prop_assert!(enough(in_holes_to(hole)) && !enough(in_holes_to(hole + 1))),
            None => prop_assert!(!enough(in_holes_to(thin))),
        }
        let with_shanks_from = |least: i64| Sizes { shank: [thick - least, thick, 0], ..sizes };
        match within.shank_least.map(Length::nanometres) {
            // A shank below the least of its tolerance is thin enough to be of no use here.
            Some(shank) => prop_assert!(shank <= thick && enough(with_shanks_from(shank)) && !enough(with_shanks_from(shank - 1))),
            None => prop_assert!(!enough(with_shanks_from(thick))),
        }
    }

    #[test]
    fn the_predicted_head_is_the_largest_whole_one_that_the_metal_makes(sizes in sizes(), high in 20_i64..80, tail in 50_i64..250) {
        let height = sizes.shank[1] * high / 100;
        let length = sizes.grip[1] + sizes.shank[1] * tail / 100;
        let made = sizes.fit().predict(nm(length), nm(height)).diameter;
        let nominal = sizes.nominal(length);
        let corners = sizes.metal(length);
        let least = corners.iter().min().expect("corners").clone();
        let most = corners.iter().max().expect("corners").clone();
        for (diameter, metal) in [(made.min, least), (made.nominal, nominal), (made.max, most)] {
            let diameter = diameter.nanometres();
            prop_assert!(head_metal(diameter, height) <= metal || diameter == 0);
            prop_assert!(head_metal(diameter + 1, height) > metal);
        }
        prop_assert!(made.min <= made.nominal && made.nominal <= made.max);
    }

    #[test]
    fn the_protrusion_is_what_stands_out_at_either_end(sizes in sizes(), tail in 0_i64..30_000_000) {
        let length = sizes.grip[1] + tail;
        let out = sizes.fit().protrusion(nm(length));
        let [thin, thick] = Sizes::ends(sizes.grip);
        let [flat, deep] = sizes.bulge();
        prop_assert_eq!(out.min(), nm(length - sizes.length_off - thick - deep));
        prop_assert_eq!(out.max(), nm(length + sizes.length_off - thin - flat));
        prop_assert_eq!(sizes.fit().reach(nm(length)), nm(length + sizes.length_off - thin), "behind the flat of the pack");
        prop_assert_eq!(sizes.fit().longest_for_tail(out.max()), nm(length), "the same statement the other way round");
    }

    #[test]
    fn more_tolerance_never_makes_more_lengths_usable(sizes in sizes(), more in [0_i64..50_000, 0_i64..50_000, 0_i64..50_000, 0_i64..50_000, 0_i64..50_000, 0_i64..50_000], wide in 110_i64..140, high in 20_i64..50) {
        let mut wider = sizes;
        for (tolerance, more) in [&mut wider.shank, &mut wider.hole, &mut wider.grip].into_iter().zip(more.chunks(2)) {
            tolerance[0] += more[0];
            tolerance[2] += more[1];
        }
        wider.length_off += more[0];
        let (diameter, height) = head(&sizes, wide, high);
        let (before, after) = (sizes.fit(), wider.fit());
        prop_assert!(after.shortest_for(nm(diameter), nm(height)) >= before.shortest_for(nm(diameter), nm(height)));
        prop_assert!(after.longest_for(nm(diameter), nm(height)) <= before.longest_for(nm(diameter), nm(height)));
        prop_assert!(after.longest_for_tail(nm(2 * diameter)) <= before.longest_for_tail(nm(2 * diameter)));
    }

    #[test]
    fn a_wider_hole_wants_a_longer_rivet_and_makes_a_smaller_head(sizes in sizes(), wider in 0_i64..500_000, wide in 100_i64..170, high in 20_i64..70, tail in 50_i64..250) {
        let mut larger = sizes;
        larger.hole[1] += wider;
        let (diameter, height) = head(&sizes, wide, high);
        let (close, loose) = (sizes.fit(), larger.fit());
        prop_assert!(loose.shortest_for(nm(diameter), nm(height)) >= close.shortest_for(nm(diameter), nm(height)));
        prop_assert!(loose.longest_for(nm(diameter), nm(height)) >= close.longest_for(nm(diameter), nm(height)));
        prop_assert!(loose.tail_taken_by_fill() >= close.tail_taken_by_fill());
        let length = nm(sizes.grip[1] + sizes.shank[1] * tail / 100);
        let (close, loose) = (close.predict(length, nm(height)).diameter, loose.predict(length, nm(height)).diameter);
        prop_assert!(loose.min <= close.min && loose.nominal <= close.nominal && loose.max <= close.max);
    }

    #[test]
    fn everything_so_many_times_larger_gives_lengths_so_many_times_larger(sizes in sizes(), times in 2_i64..20, wide in 100_i64..170, high in 20_i64..70) {
        let scaled = |tolerance: [i64; 3]| tolerance.map(|length| length * times);
        let larger = Sizes {
            shank: scaled(sizes.shank),
            hole: scaled(sizes.hole),
            grip: scaled(sizes.grip),
            sunk: sizes.sunk.map(scaled),
            dimpled: sizes.dimpled,
            length_off: sizes.length_off * times,
        };
        let (diameter, height) = head(&sizes, wide, high);
        let (one, many) = (sizes.fit(), larger.fit());
        // The shortest is rounded up to a nanometre and the longest down, so that a multiple of it may be up to so many too far.
        let shortest = one.shortest_for(nm(diameter), nm(height)).nanometres() * times;
        let long = many.shortest_for(nm(diameter * times), nm(height * times)).nanometres();
        prop_assert!(shortest - times < long && long <= shortest);
        let longest = one.longest_for(nm(diameter), nm(height)).nanometres() * times;
        let long = many.longest_for(nm(diameter * times), nm(height * times)).nanometres();
        prop_assert!(longest <= long && long < longest + times);
        let length = sizes.grip[1] + 2 * sizes.shank[1];
        let made = one.predict(nm(length), nm(height)).diameter.nominal.nanometres() * times;
        let large = many.predict(nm(length * times), nm(height * times)).diameter.nominal.nanometres();
        prop_assert!(made <= large && large < made + times);
    }
}

/// A head of 1.5 D by 0.5 D is 1.125 D of shank, to the nanometre and in both directions.
#[test]
fn a_head_that_comes_out_whole_is_whole() {
    for eighths in [297_656_i64, 396_875, 595_312] {
        let shank = 8 * eighths;
        let sizes = Sizes {
            shank: [0, shank, 0],
            hole: [0, shank, 0],
            grip: [0, 5_000_000, 0],
            sunk: None,
            dimpled: false,
            length_off: 0,
        };
        let (diameter, height, length) = (nm(shank * 3 / 2), nm(shank / 2), nm(5_000_000 + 9 * eighths));
        let fit = sizes.fit();
        assert_eq!(fit.predict(length, height).diameter.nominal, diameter);
        assert_eq!(fit.shortest_for(diameter, height), length);
        assert_eq!(fit.longest_for(diameter, height), length);
    }
}
