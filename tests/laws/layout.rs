//! Laws of distances.

use num_bigint::BigInt;
use proptest::prelude::*;
use shophead::finding::{Code, Findings};
use shophead::installation::Installation;
use shophead::layout::{Edge, Point, RowLayout, closest};
use shophead::length::Length;
use shophead::practice::{BUILT_IN, Name, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{MS20426, MS20470};
use shophead_tests::prelude::nm;

use crate::common::config;

/// On a panel of some metres, to the nanometre.
fn point() -> impl Strategy<Value = Point> {
    let at = -3_000_000_000_i64..3_000_000_000;
    (at.clone(), at).prop_map(|(x, y)| Point { x: nm(x), y: nm(y) })
}

/// A rivet in so many rows.
fn rivet() -> impl Strategy<Value = (Part<'static>, u16)> {
    let of = |series: &'static shophead::rivet::Series<'static>| {
        prop::sample::select(series.sizes)
            .prop_map(|size| Part::new(series, "AD", &size).expect("a material and a size of the series"))
    };
    (prop_oneof![of(&MS20470), of(&MS20426)], 1_u16..4)
}

fn check((rivet, rows): (Part<'static>, u16), layout: RowLayout, practice: &'static Practice<'static>) -> Findings {
    Installation::without_layers(rivet).rows(rows).layout(layout).by(practice).findings()
}

/// What is found of the two holes that stand closest and of the one closest to an edge.
fn check_points(
    points: &[Point],
    edges: &[Edge],
    rivet: (Part<'static>, u16),
    practice: &'static Practice<'static>,
) -> Findings {
    let found = closest(points, edges);
    let (edge, pitch) = (found.to_edge.map(|(_, edge)| edge), found.pair.map(|(_, _, pitch)| pitch));
    check(rivet, RowLayout::default().edge(edge).pitch(pitch), practice)
}

/// The exact square of a distance.
fn square(a: Point, b: Point) -> i128 {
    let across = |a: Length, b: Length| i128::from(a.nanometres() - b.nanometres());
    across(a.x, b.x).pow(2) + across(a.y, b.y).pow(2)
}

/// The square of the distance to an edge times [`square_of`] the edge, so that nothing is divided.
fn exact(at: Point, edge: Edge) -> BigInt {
    let away = |a: Point, b: Point| {
        [a.x, a.y]
            .map(Length::nanometres)
            .into_iter()
            .zip([b.x, b.y])
            .map(|(a, b)| BigInt::from(a - b.nanometres()))
            .collect::<Vec<_>>()
    };
    let (out, along) = (away(at, edge.from), away(edge.to, edge.from));
    let whole = &along[0] * &along[0] + &along[1] * &along[1];
    let reach = &out[0] * &along[0] + &out[1] * &along[1];
    if reach <= BigInt::ZERO {
        return BigInt::from(square(at, edge.from)) * square_of(edge);
    }
    if reach >= whole {
        return BigInt::from(square(at, edge.to)) * square_of(edge);
    }
    (&out[0] * &along[1] - &out[1] * &along[0]).pow(2)
}

fn square_of(edge: Edge) -> BigInt {
    // A point is an edge too; its distance is that of the point.
    BigInt::from(square(edge.from, edge.to).max(1))
}

/// An edge of one nanometre each way and a hole far off: the length of the edge must not be rounded before it divides.
#[test]
fn a_short_edge_is_as_far_as_a_long_one() {
    let at = Point { x: nm(1_000_000_001), y: nm(-1_000_000_000) };
    let edge = Edge { from: Point::default(), to: Point { x: nm(1), y: nm(1) } };
    // √2 thousand million, and half a diagonal of the odd nanometre.
    assert_eq!(at.distance_to_edge(edge).nanometres(), 1_414_213_563);
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_distance_is_the_whole_part_of_the_root(a in point(), b in point()) {
        let distance = i128::from(a.distance(b).nanometres());
        prop_assert!(distance.pow(2) <= square(a, b) && square(a, b) < (distance + 1).pow(2));
        prop_assert_eq!(a.distance(b), b.distance(a));
        prop_assert_eq!(a.distance(a), Length::ZERO);
    }

    #[test]
    fn no_way_round_is_shorter_than_straight_on(a in point(), b in point(), c in point()) {
        let of = |a: Point, b: Point| a.distance(b).nanometres();
        // Each distance is cut off by less than a nanometre.
        prop_assert!(of(a, c) <= of(a, b) + of(b, c) + 1);
    }

    #[test]
    fn an_edge_is_as_far_as_its_nearest_point(at in point(), from in point(), to in point(), share in 0_i128..=1_000) {
        let edge = Edge { from, to };
        let distance = at.distance_to_edge(edge).nanometres();
        prop_assert_eq!(at.distance_to_edge(Edge { from: to, to: from }).nanometres(), distance);
        // No point of the edge is nearer; a point between its ends is a whole one only to within a nanometre either way.
        let between = |a: Length, b: Length| {
            let step = i128::from(b.nanometres() - a.nanometres()) * share / 1_000;
            nm(a.nanometres() + i64::try_from(step).expect("in range"))
        };
        let on = Point { x: between(from.x, to.x), y: between(from.y, to.y) };
        prop_assert!(distance <= at.distance(on).nanometres() + 3);
        prop_assert!(distance <= at.distance(from).nanometres().min(at.distance(to).nanometres()));
    }

    #[test]
    fn an_edge_is_never_said_to_be_further_than_it_is_and_at_most_two_nanometres_nearer(at in point(), from in point(), to in point(), size in 0_u32..10, share in 0_i64..=1_000, beside in prop::bool::ANY) {
        // Edges of every length down to a few nanometres: a trimmed outline may come as many short pieces.
        let along = [(from.x, to.x), (from.y, to.y)].map(|(a, b)| (b.nanometres() - a.nanometres()) / 10_i64.pow(size));
        let moved = |point: Point, x: i64, y: i64| Point { x: nm(point.x.nanometres() + x), y: nm(point.y.nanometres() + y) };
        let edge = Edge { from, to: moved(from, along[0], along[1]) };
        // Chance hardly ever puts a point beside a short edge.
        let times = 3_000_000_000 / along[0].abs().max(along[1].abs()).max(1);
        let opposite = moved(from, along[0] * share / 1_000 - along[1] * times, along[1] * share / 1_000 + along[0] * times);
        let at = if beside { opposite } else { at };
        let distance = at.distance_to_edge(edge);
        prop_assert!(BigInt::from(distance.nanometres()).pow(2) * square_of(edge) <= exact(at, edge));
        prop_assert!(BigInt::from(distance.nanometres() + 2).pow(2) * square_of(edge) > exact(at, edge));
    }

    #[test]
    fn moving_everything_changes_no_distance(a in point(), b in point(), c in point(), by in point()) {
        let moved = |point: Point| Point {
            x: nm(point.x.nanometres() + by.x.nanometres()),
            y: nm(point.y.nanometres() + by.y.nanometres()),
        };
        prop_assert_eq!(a.distance(b), moved(a).distance(moved(b)));
        let edge = |a, b| Edge { from: a, to: b };
        prop_assert_eq!(a.distance_to_edge(edge(b, c)), moved(a).distance_to_edge(edge(moved(b), moved(c))));
    }

    #[test]
    fn the_closest_pair_does_not_hang_on_the_order(mut points in prop::collection::vec(point(), 2..20), turn in 0_usize..20) {
        let (one, other, nearest) = closest(&points, &[]).pair.expect("two points");
        prop_assert_eq!(points[one].distance(points[other]), nearest);
        for (index, a) in points.iter().enumerate() {
            for b in &points[index + 1..] {
                prop_assert!(a.distance(*b) >= nearest);
            }
        }
        let turn = turn % points.len();
        points.rotate_left(turn);
        prop_assert_eq!(closest(&points, &[]).pair.map(|pair| pair.2), Some(nearest));
    }

    #[test]
    fn one_hole_more_never_makes_a_pattern_better(points in prop::collection::vec(point(), 1..15), more in point(), edge in (point(), point()), rivet in rivet()) {
        let edges = [Edge { from: edge.0, to: edge.1 }];
        let mut larger = points.clone();
        larger.push(more);
        for practice in BUILT_IN {
            let before = check_points(&points, &edges, rivet, practice);
            let after = check_points(&larger, &edges, rivet, practice);
            for code in [Code::PitchShort, Code::EdgeDistanceShort] {
                prop_assert!(after.has(code) || !before.has(code));
            }
        }
    }

    #[test]
    fn a_longer_distance_is_never_short_where_a_shorter_one_is_not(rivet in rivet(), at in 0_i64..100_000_000, further in 0_i64..10_000_000) {
        let (near, far) = (nm(at), nm(at + further));
        for practice in BUILT_IN {
            let at = |edge| check(rivet, RowLayout::default().edge(edge), practice);
            let (short, long) = (at(near), at(far));
            prop_assert!(short.has(Code::EdgeDistanceShort) || !long.has(Code::EdgeDistanceShort));
            prop_assert!(long.has(Code::EdgeDistanceLong) || !short.has(Code::EdgeDistanceLong));
            let case = Installation::without_layers(rivet.0).rows(rivet.1).case();
            let least = practice.length(Name::EdgeDistanceLeast, &case).expect("a limit").value;
            prop_assert_eq!(short.has(Code::EdgeDistanceShort), near < least);
            let at = |pitch| check(rivet, RowLayout::default().pitch(pitch), practice);
            let (short, long) = (at(near), at(far));
            prop_assert!(short.has(Code::PitchShort) || !long.has(Code::PitchShort));
            prop_assert!(long.has(Code::PitchLong) || !short.has(Code::PitchLong));
        }
    }
}
