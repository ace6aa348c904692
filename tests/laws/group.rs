//! Laws of rivet groups.

use proptest::prelude::*;
use shophead::basis::Basis;
use shophead::finding::Code;
use shophead::joint::group::{Group, GroupRivet, PlaneLoad, share};
use shophead::joint::margin::{Factors, LoadKind};
use shophead::joint::strength::Allowable;
use shophead::layout::Point;
use shophead::length::Length;
use shophead::quantity::Force;
use shophead::words::Units;
use shophead_tests::prelude::nm;

/// A few hundred sums of doubles agree to far more than this beside the greatest share.
const RELATIVE: f64 = 1e-9;

fn point() -> impl Strategy<Value = Point> {
    // A panel of a quarter of a metre, to the micrometre.
    (0_i64..250_000, 0_i64..250_000).prop_map(|(x, y)| Point { x: nm(x * 1_000), y: nm(y * 1_000) })
}

fn members() -> impl Strategy<Value = Vec<GroupRivet>> {
    prop::collection::vec((point(), 0.1_f64..10.0), 2..40).prop_filter_map("spread out", |points| {
        let first = points.first()?.0;
        // Rivets a hair apart would turn a moment into loads without bound.
        points
            .iter()
            .any(|(at, _)| at.distance(first) > nm(10_000_000))
            .then(|| points.into_iter().map(|(at, weight)| GroupRivet::alike(at).weight(weight)).collect())
    })
}

fn load() -> impl Strategy<Value = PlaneLoad> {
    (-1e4_f64..1e4, -1e4_f64..1e4, point(), -1e4_f64..1e4).prop_map(|(x, y, at, moment_in_lbf)| {
        PlaneLoad::new(Force::from_lbf(x), Force::from_lbf(y), at, LoadKind::Ultimate).moment_in_lbf(moment_in_lbf)
    })
}

fn group(rivets: &[GroupRivet], load: PlaneLoad) -> Group<'_> {
    share(rivets, load, None).expect("a group")
}

/// Totals in pounds.
fn totals(group: &Group<'_>) -> Vec<(f64, f64)> {
    group.shares().map(|share| (share.total().x.lbf(), share.total().y.lbf())).collect()
}

fn greatest(totals: &[(f64, f64)]) -> f64 {
    totals.iter().map(|(x, y)| x.hypot(*y)).fold(0.0, f64::max)
}

fn inches(point: Point) -> (f64, f64) {
    (point.x.to_inches_f64(), point.y.to_inches_f64())
}

/// A rivet, a force of whole tenths of a pound, and how far along its line it is said to act, in thousandths of an inch a tenth.
fn through_one() -> impl Strategy<Value = (Point, i64, i64, i64)> {
    (point(), -50_000_i64..50_000, -50_000_i64..50_000, -1_000_i64..1_000)
        .prop_filter("a load", |(_, x, y, _)| (*x, *y) != (0, 0))
}

proptest! {
    /// One place carries any load whose line goes through it, wherever on that line somebody has named its point.
    #[test]
    fn a_load_exactly_through_its_one_rivet_is_carried_by_it((rivet, x, y, along) in through_one(), newtons in any::<bool>(), count in 1_usize..4) {
        const THOUSANDTH: i64 = 25_400;
        let at = Point {
            x: nm(rivet.x.nanometres() + x * along * THOUSANDTH / 100),
            y: nm(rivet.y.nanometres() + y * along * THOUSANDTH / 100),
        };
        let force = |tenths: i64| {
            let size = tenths as f64 / 10.0;
            if newtons { Force::from_newtons(size) } else { Force::from_lbf(size) }
        };
        let rivets = vec![GroupRivet::alike(rivet); count];
        let load = PlaneLoad::new(force(x), force(y), at, LoadKind::Ultimate);
        let group = share(&rivets, load, None);
        prop_assert!(group.is_ok(), "{load:?}: {group:?}");
        let group = group.expect("checked");
        prop_assert_eq!(group.moment_in_lbf, 0.0);
        for (fx, fy) in totals(&group) {
            prop_assert!((fx * count as f64 - load.x.lbf()).abs() <= RELATIVE * load.x.lbf().abs());
            prop_assert!((fy * count as f64 - load.y.lbf()).abs() <= RELATIVE * load.y.lbf().abs());
        }
        // A hair beside it is a moment that nothing resists.
        let beside = Point { x: nm(at.x.nanometres() + if y == 0 { 0 } else { 1_000 }), y: nm(at.y.nanometres() + if y == 0 { 1_000 } else { 0 }) };
        let refused = share(&rivets, load.at(beside), None);
        prop_assert!(refused.is_err(), "{load:?}");
    }
}

proptest! {
    #[test]
    fn the_shares_hold_the_load_and_its_moment(rivets in members(), load in load()) {
        let group = group(&rivets, load);
        let totals = totals(&group);
        let allowed = RELATIVE * (1.0 + greatest(&totals)) * rivets.len() as f64;
        let (x, y) = totals.iter().fold((0.0, 0.0), |(x, y), share| (x + share.0, y + share.1));
        prop_assert!((x - load.x.lbf()).abs() < allowed && (y - load.y.lbf()).abs() < allowed);
        // About the corner of the panel, which the method knows nothing of.
        let moment: f64 = rivets.iter().zip(&totals).map(|(rivet, share)| {
            let (px, py) = inches(rivet.at);
            px * share.1 - py * share.0
        }).sum();
        let (lx, ly) = inches(load.at);
        let applied = load.moment_in_lbf + lx * load.y.lbf() - ly * load.x.lbf();
        prop_assert!((moment - applied).abs() < 20.0 * allowed, "{} {}", moment, applied);
    }

    #[test]
    fn where_the_panel_lies_changes_nothing_at_all(
        rivets in members(),
        load in load(),
        by in (-500_000_000_000_i64..500_000_000_000, -500_000_000_000_i64..500_000_000_000),
    ) {
        let moved = |at: Point| Point { x: nm(at.x.nanometres() + by.0), y: nm(at.y.nanometres() + by.1) };
        let there: Vec<_> = rivets.iter().map(|rivet| rivet.at(moved(rivet.at))).collect();
        let (here, there) = (group(&rivets, load), group(&there, load.at(moved(load.at))));
        prop_assert_eq!(totals(&here), totals(&there));
        prop_assert_eq!(moved(here.centroid), there.centroid);
        prop_assert_eq!(here.most_loaded, there.most_loaded);
    }

    #[test]
    fn a_quarter_turn_turns_the_shares_with_it(rivets in members(), load in load()) {
        let turned = |at: Point| Point { x: nm(-at.y.nanometres()), y: at.x };
        let there: Vec<_> = rivets.iter().map(|rivet| rivet.at(turned(rivet.at))).collect();
        let turned_load =
            load.x(Force::from_lbf(-load.y.lbf())).y(load.x).at(turned(load.at));
        let (here, there) = (totals(&group(&rivets, load)), totals(&group(&there, turned_load)));
        let allowed = RELATIVE * (1.0 + greatest(&here));
        for (here, there) in here.iter().zip(&there) {
            prop_assert!((here.0 - there.1).abs() < allowed && (here.1 + there.0).abs() < allowed);
        }
    }

    /// The 3-4-5 triangle: a turn that whole nanometres survive when every coordinate is a multiple of five.
    #[test]
    fn a_slanting_turn_leaves_every_resultant_as_it_was(rivets in members(), load in load()) {
        let turned = |at: Point| {
            let (x, y) = (at.x.nanometres() / 5, at.y.nanometres() / 5);
            Point { x: nm(3 * x - 4 * y), y: nm(4 * x + 3 * y) }
        };
        let there: Vec<_> = rivets.iter().map(|rivet| rivet.at(turned(rivet.at))).collect();
        let (fx, fy) = (load.x.lbf(), load.y.lbf());
        let turned_load = load.x(Force::from_lbf(0.6 * fx - 0.8 * fy)).y(Force::from_lbf(0.8 * fx + 0.6 * fy)).at(turned(load.at));
        let (here, there) = (totals(&group(&rivets, load)), totals(&group(&there, turned_load)));
        let allowed = RELATIVE * (1.0 + greatest(&here));
        for (here, there) in here.iter().zip(&there) {
            prop_assert!((here.0.hypot(here.1) - there.0.hypot(there.1)).abs() < allowed);
        }
    }

    #[test]
    fn twice_the_load_is_twice_every_share(rivets in members(), load in load()) {
        let twice = load.x(Force::from_lbf(2.0 * load.x.lbf())).y(Force::from_lbf(2.0 * load.y.lbf())).moment_in_lbf(2.0 * load.moment_in_lbf);
        let doubled: Vec<_> = totals(&group(&rivets, load)).iter().map(|(x, y)| (2.0 * x, 2.0 * y)).collect();
        prop_assert_eq!(doubled, totals(&group(&rivets, twice)), "powers of two are exact");
    }

    #[test]
    fn only_the_ratios_of_weights_count(rivets in members(), load in load(), power in -200_i32..200) {
        let scaled: Vec<_> =
            rivets.iter().map(|rivet| rivet.weight(rivet.weight * 2.0_f64.powi(power))).collect();
        prop_assert_eq!(totals(&group(&rivets, load)), totals(&group(&scaled, load)));
    }

    #[test]
    fn a_group_k_times_as_large_shares_a_force_alike(rivets in members(), load in load(), k in 2_i64..50) {
        let load = load.moment_in_lbf(0.0);
        let grown = |at: Point| Point { x: nm(at.x.nanometres() * k), y: nm(at.y.nanometres() * k) };
        let there: Vec<_> = rivets.iter().map(|rivet| rivet.at(grown(rivet.at))).collect();
        let here = totals(&group(&rivets, load));
        let there = totals(&group(&there, load.at(grown(load.at))));
        let allowed = RELATIVE * (1.0 + greatest(&here));
        for (here, there) in here.iter().zip(&there) {
            prop_assert!((here.0 - there.0).abs() < allowed && (here.1 - there.1).abs() < allowed);
        }
    }

    #[test]
    fn every_resultant_is_square_to_its_arm_from_the_rotation_centre(rivets in members(), load in load()) {
        let group = group(&rivets, load);
        let Some(centre) = group.rotation_centre else { return Ok(()) };
        let (cx, cy) = inches(centre);
        // Beyond some metres the rounding of the centre to a nanometre is no longer small beside the arms.
        prop_assume!(cx.abs() < 200.0 && cy.abs() < 200.0);
        let turn = group.moment_in_lbf / group.polar_in2;
        let heaviest = rivets.iter().map(|rivet| rivet.weight).fold(0.0, f64::max);
        for (rivet, share) in rivets.iter().zip(totals(&group)) {
            let (px, py) = inches(rivet.at);
            let (ax, ay) = (px - cx, py - cy);
            let part = rivet.weight / heaviest * turn;
            // A nanometre in the centre, and rounding in sums of hundreds of inches.
            let allowed = 1e-7 * part.abs() + 1e-9 * (1.0 + greatest(&[share]));
            prop_assert!((share.0 + part * ay).abs() < allowed && (share.1 - part * ax).abs() < allowed);
        }
    }

    #[test]
    fn no_rivet_has_a_lower_margin_than_the_worst(
        rivets in members(),
        load in load(),
        strengths in prop::collection::vec(1.0_f64..5_000.0, 40),
    ) {
        let basis = Basis::own(0);
        let rivets: Vec<_> = rivets.iter().zip(&strengths).map(|(rivet, lbf)| rivet.allowable(Allowable { force: Force::from_lbf(*lbf), basis })).collect();
        let group = share(&rivets, load, Some(Factors::SEAM)).expect("a group");
        let worst = group.worst.expect("every strength is known");
        for (rivet, (x, y)) in rivets.iter().zip(totals(&group)) {
            let own = rivet.allowable.expect("given").force.lbf() / x.hypot(y) - 1.0;
            prop_assert!(worst.margin.value <= own + RELATIVE * (1.0 + own.abs()));
        }
    }

    /// With equal shares of a load through the middle: only there is it true.
    #[test]
    fn a_pair_more_about_the_middle_of_a_centred_load_loads_no_rivet_more(
        pairs in prop::collection::vec(point(), 1..20), more in point(), load in load(),
    ) {
        let about = |at: &Point| [*at, Point { x: nm(-at.x.nanometres()), y: nm(-at.y.nanometres()) }].map(GroupRivet::alike);
        let before: Vec<GroupRivet> = pairs.iter().flat_map(about).collect();
        let after: Vec<GroupRivet> = before.iter().copied().chain(about(&more)).collect();
        let load = load.at(Point::default()).moment_in_lbf(0.0);
        // All on one place have no arms at all.
        prop_assume!(before.iter().any(|rivet| rivet.at != Point::default()));
        let (before, after) = (totals(&group(&before, load)), totals(&group(&after, load)));
        let allowed = RELATIVE * (1.0 + greatest(&before));
        for (one, other) in before.iter().zip(&after) {
            prop_assert!(other.0.hypot(other.1) <= one.0.hypot(one.1) + allowed);
        }
    }
}

/// Off the middle it is not: a rivet to the side moves the middle away from the load. The group says that it can.
#[test]
fn a_rivet_more_can_load_another_more_and_the_group_says_so() {
    let at = |x: i64| GroupRivet::alike(Point { x: nm(x * 25_400_000), y: Length::ZERO });
    let lbf = Force::from_lbf;
    let load = PlaneLoad::new(lbf(0.0), lbf(-600.0), Point::default(), LoadKind::Ultimate);
    let (two, three) = ([at(-1), at(1)], [at(-1), at(1), at(4)]);
    let (before, after) = (group(&two, load), group(&three, load));
    let size = |group: &Group<'_>| totals(group)[0].1.abs();
    // Half of it before; a third of it and what the moment adds after.
    assert!((size(&before) - 300.0).abs() < 1e-9 && size(&after) > 340.0, "{} {}", size(&before), size(&after));
    for group in [&before, &after] {
        let said = group.findings.iter().find(|finding| finding.code() == Code::ElasticSharesOnly).expect("said");
        assert!(said.sentence(Units::Inches).to_string().contains("a rivet more can load another more"));
    }
}
