//! Laws of cuts: an edge through stations, distances to it, straight rows of holes.

use num_bigint::BigInt;
use proptest::prelude::*;
use shophead::layout::{Edge, Point, closest, closest_sorted, in_line};
use shophead::length::Length;
use shophead::trim::{BaseLine, Curve, Cut, Station};
use shophead_tests::prelude::nm;

use crate::common::config;

/// Some metres of edge, stations a tenth of a millimetre apart or more, offsets of up to half a metre.
fn stations() -> impl Strategy<Value = Vec<Station>> {
    let step = 100_000_i64..1_000_000_000;
    (-1_000_000_000_i64..1_000_000_000, prop::collection::vec((step, -500_000_000_i64..500_000_000), 2..12)).prop_map(
        |(start, steps)| {
            let mut at = start;
            let mut stations = Vec::new();
            for (step, offset) in steps {
                stations.push(Station { at: nm(at), offset: nm(offset) });
                at += step;
            }
            stations
        },
    )
}

/// The same with offsets that rise.
fn rising() -> impl Strategy<Value = Vec<Station>> {
    stations().prop_map(|mut stations| {
        let mut offsets: Vec<Length> = stations.iter().map(|station| station.offset).collect();
        offsets.sort_unstable();
        for (station, offset) in stations.iter_mut().zip(offsets) {
            station.offset = offset;
        }
        stations
    })
}

fn between(stations: &[Station], share: f64) -> Length {
    let (first, last) = (stations[0].at.nanometres(), stations[stations.len() - 1].at.nanometres());
    nm(first + ((last - first) as f64 * share) as i64)
}

fn point() -> impl Strategy<Value = Point> {
    let at = || -2_000_000_000_i64..8_000_000_000;
    (at(), at()).prop_map(|(x, y)| Point { x: nm(x), y: nm(y) })
}

/// The slopes of the paper: at a station the mean of both secants, none where they turn; then each pair brought into its circle of radius three.
fn slopes(places: &[(f64, f64)]) -> Vec<f64> {
    let secants: Vec<f64> = places.windows(2).map(|pair| (pair[1].1 - pair[0].1) / (pair[1].0 - pair[0].0)).collect();
    let last = secants.len() - 1;
    let mut slopes = vec![secants[0]];
    for pair in secants.windows(2) {
        let turns = pair[0].signum() != pair[1].signum() || pair[0] == 0.0 || pair[1] == 0.0;
        slopes.push(if turns { 0.0 } else { pair.iter().sum::<f64>() / 2.0 });
    }
    slopes.push(secants[last]);
    for (piece, secant) in secants.iter().enumerate() {
        if *secant == 0.0 {
            slopes[piece] = 0.0;
            slopes[piece + 1] = 0.0;
            continue;
        }
        let square = (slopes[piece] / secant).powi(2) + (slopes[piece + 1] / secant).powi(2);
        if square > 9.0 {
            slopes[piece] *= 3.0 / square.sqrt();
            slopes[piece + 1] *= 3.0 / square.sqrt();
        }
    }
    slopes
}

/// The cubic of a piece, from Hermite's four polynomials.
fn cubic(piece: [(f64, f64); 2], slopes: &[f64], x: f64) -> f64 {
    let width = piece[1].0 - piece[0].0;
    let t = (x - piece[0].0) / width;
    let (square, cube) = (t * t, t * t * t);
    piece[0].1 * (2.0 * cube - 3.0 * square + 1.0)
        + piece[1].1 * (3.0 * square - 2.0 * cube)
        + width * (slopes[0] * (cube - 2.0 * square + t) + slopes[1] * (cube - square))
}

/// The offset of an edge, computed apart.
fn offset_apart(stations: &[Station], x: f64) -> f64 {
    let places = places(stations);
    let slopes = slopes(&places);
    let piece = places.windows(2).position(|pair| x <= pair[1].0).expect("between the ends");
    cubic([places[piece], places[piece + 1]], &slopes[piece..piece + 2], x)
}

fn places(stations: &[Station]) -> Vec<(f64, f64)> {
    stations.iter().map(|station| (station.at.nanometres() as f64, station.offset.nanometres() as f64)).collect()
}

/// How far a point is off an edge: every piece sampled, and each dip between two samples gone down into.
fn distance_apart(stations: &[Station], point: Point) -> f64 {
    let (px, py) = (point.x.nanometres() as f64, point.y.nanometres() as f64);
    let places = places(stations);
    let slopes = slopes(&places);
    let mut nearest = f64::MAX;
    for (index, pair) in places.windows(2).enumerate() {
        let piece = [pair[0], pair[1]];
        let off = |x: f64| (x - px).hypot(cubic(piece, &slopes[index..index + 2], x) - py);
        let samples = 200;
        let at = |sample: i32| pair[0].0 + (pair[1].0 - pair[0].0) * f64::from(sample) / f64::from(samples);
        let seen: Vec<f64> = (0..=samples).map(|sample| off(at(sample))).collect();
        for sample in 0..=samples {
            let here = seen[sample as usize];
            let (before, after) = ((sample - 1).max(0), (sample + 1).min(samples));
            if seen[before as usize] < here || seen[after as usize] < here {
                continue;
            }
            let (mut from, mut to) = (at(before), at(after));
            for _ in 0..60 {
                let (one, other) = (from + (to - from) / 3.0, to - (to - from) / 3.0);
                if off(one) < off(other) { to = other } else { from = one }
            }
            nearest = nearest.min(here).min(off(from / 2.0 + to / 2.0));
        }
    }
    nearest
}

/// A point within some hundredths of an inch to some inches of an edge, where holes are.
fn beside(stations: &[Station], share: f64, off: i64) -> Point {
    let x = between(stations, share);
    Point { x, y: nm(Curve::through(stations).unwrap().offset(x).nanometres() + off) }
}

proptest! {
    #![proptest_config(config())]

    /// To a nanometre: the computation apart takes differences of large figures, a hundredth of one.
    #[test]
    fn the_edge_is_that_of_the_paper(stations in stations(), rising in rising(), share in 0.0..1.0) {
        for stations in [stations, rising] {
            let at = between(&stations, share);
            let apart = offset_apart(&stations, at.nanometres() as f64);
            let offset = Curve::through(&stations).unwrap().offset(at).nanometres() as f64;
            prop_assert!((offset - apart).abs() <= 0.51, "{} {}", offset, apart);
        }
    }

    /// Never too long and short by less than four nanometres, as it is promised; where holes are and far away.
    #[test]
    fn a_distance_is_that_to_the_nearest_place_of_the_edge(
        stations in stations(), far in point(), share in -0.1..1.1, off in -80_000_000_i64..80_000_000,
    ) {
        let edge = Curve::through(&stations).unwrap();
        for point in [beside(&stations, share, off), beside(&stations, share, off / 1_000), far] {
            let (told, apart) = (edge.distance(point).nanometres() as f64, distance_apart(&stations, point));
            prop_assert!(told <= apart + 0.01, "{} {}", told, apart);
            prop_assert!(told > apart - 4.0 || told == 0.0 && apart < 4.0, "{} {}", told, apart);
        }
    }

    /// Upside down: as far, and with the same offsets. (Drawn from the other end a steep edge is another one by less than a thousandth of a
    /// millimetre: the slopes of a station are brought into the circles of both pieces one after the other.)
    #[test]
    fn an_edge_upside_down_is_as_far(stations in stations(), share in 0.0..1.0, off in -80_000_000_i64..80_000_000) {
        let point = beside(&stations, share, off);
        let turn = |length: Length| nm(-length.nanometres());
        let turned: Vec<Station> = stations.iter().map(|station| Station { at: station.at, offset: turn(station.offset) }).collect();
        let (edge, turned) = (Curve::through(&stations).unwrap(), Curve::through(&turned).unwrap());
        prop_assert_eq!(turned.distance(Point { x: point.x, y: turn(point.y) }), edge.distance(point));
        let at = between(&stations, share);
        prop_assert_eq!(turned.offset(at), turn(edge.offset(at)));
    }

    #[test]
    fn the_edge_goes_through_every_station(stations in stations()) {
        let edge = Curve::through(&stations).unwrap();
        for station in &stations {
            prop_assert_eq!(edge.offset(station.at), station.offset);
        }
    }

    #[test]
    fn the_edge_never_swings_beyond_two_neighbours(stations in stations(), share in 0.0..1.0) {
        let edge = Curve::through(&stations).unwrap();
        let at = between(&stations, share);
        let offset = edge.offset(at);
        let around = stations.windows(2).find(|pair| pair[0].at <= at && at <= pair[1].at).unwrap();
        let (low, high) = (around[0].offset.min(around[1].offset), around[0].offset.max(around[1].offset));
        prop_assert!(low <= offset && offset <= high, "{low:?} {offset:?} {high:?}");
    }

    #[test]
    fn the_edge_rises_where_the_offsets_rise(stations in rising(), one in 0.0..1.0, other in 0.0..1.0) {
        let edge = Curve::through(&stations).unwrap();
        let (near, far) = (between(&stations, f64::min(one, other)), between(&stations, f64::max(one, other)));
        // Rounding to a whole nanometre may turn two offsets that are equal to a thousandth of one.
        prop_assert!(edge.offset(near).nanometres() <= edge.offset(far).nanometres() + 1);
    }

    /// A sampled point of the edge is never nearer than the distance told, and that is reached to within what the sampling misses.
    #[test]
    fn a_distance_is_never_too_long_and_hardly_short(stations in stations(), point in point()) {
        let edge = Curve::through(&stations).unwrap();
        let told = edge.distance(point);
        let mut nearest = i64::MAX;
        let count = 2_000;
        let mut before: Option<Point> = None;
        let mut gap = 0;
        for index in 0..=count {
            let x = between(&stations, f64::from(index) / f64::from(count));
            let sample = Point { x, y: edge.offset(x) };
            nearest = nearest.min(point.distance(sample).nanometres());
            if let Some(before) = before {
                gap = gap.max(before.distance(sample).nanometres());
            }
            before = Some(sample);
        }
        // The edge lies to the nanometre, and so does a sampled distance.
        prop_assert!(told.nanometres() <= nearest + 2, "{told:?} {nearest}");
        // From the true nearest point a sample is not further than the widest gap between two, nor the distance longer by more.
        prop_assert!(told.nanometres() + gap + 5 >= nearest, "{told:?} {nearest} {gap}");
    }

    #[test]
    fn a_straight_edge_of_stations_is_one_of_corners(
        (from, to) in (0_i64..500_000_000, 0_i64..500_000_000),
        middle in 1_i64..9,
        point in point(),
    ) {
        // Stations on one line: a multiple of ten keeps the middle on it.
        let rise = (to - from) / 10;
        let station = |tenths: i64| Station { at: nm(tenths * 100_000_000), offset: nm(from + rise * tenths) };
        let stations = [station(0), station(middle), station(10)];
        let edge = Curve::through(&stations).unwrap();
        let corner = |station: Station| Point { x: station.at, y: station.offset };
        let straight = [corner(stations[0]), corner(stations[2])];
        let corners = Cut::Corners(&straight).distance(point).unwrap();
        let measured = edge.distance(point);
        let short = corners.nanometres() - measured.nanometres();
        prop_assert!((-1..=3).contains(&short), "{short}");
    }

    /// A line of three to four has places that are whole: exactly there and back.
    #[test]
    fn a_line_puts_a_station_where_a_square_puts_it(
        from in point(),
        (k, m, n) in (1_i64..100_000_000, -100_000_000_i64..100_000_000, -100_000_000_i64..100_000_000),
        turned in 0_usize..4,
    ) {
        let turn = |(x, y): (i64, i64)| match turned { 0 => (x, y), 1 => (-y, x), 2 => (-x, -y), _ => (y, -x) };
        let add = |(x, y): (i64, i64)| Point { x: nm(from.x.nanometres() + x), y: nm(from.y.nanometres() + y) };
        let line = BaseLine::through(from, add(turn((3 * k, 4 * k)))).unwrap();
        // So far along, and to the left of it.
        let place = add(turn((3 * m - 4 * n, 4 * m + 3 * n)));
        let station = Station { at: nm(5 * m), offset: nm(5 * n) };
        prop_assert_eq!(line.place(station), place);
        prop_assert_eq!(line.seen(place), station);
    }

    /// An edge that is turned with everything round it is no nearer: never too long, and short by what turning rounds.
    #[test]
    fn a_turned_edge_is_as_far(stations in stations(), line in (point(), point()), share in 0.0..1.0, off in -500_000_000_i64..500_000_000) {
        prop_assume!(line.0 != line.1);
        let line = BaseLine::through(line.0, line.1).unwrap();
        let edge = Curve::through(&stations).unwrap();
        let turned = edge.clone().along(line);
        let seen = Station { at: between(&stations, share), offset: nm(off) };
        let straight = edge.distance(Point { x: seen.at, y: seen.offset });
        let place = line.place(seen);
        let short = straight.nanometres() - turned.distance(place).nanometres();
        // The place is rounded to a nanometre in each coordinate.
        prop_assert!((-1..=4).contains(&short), "{short}");
        for index in 0..=200 {
            let sample = turned.place(between(&stations, f64::from(index) / 200.0));
            prop_assert!(turned.distance(place).nanometres() <= place.distance(sample).nanometres() + 2);
        }
        if (edge.offset(seen.at).nanometres() - off).abs() > 2 {
            let side = |edge: &Curve<'_>, point| Cut::Measured(edge.clone()).is_above(point);
            let straight = Point { x: seen.at, y: seen.offset };
            prop_assert!(side(&edge, straight) == side(&turned, place) || edge.is_beyond(straight) != turned.is_beyond(place));
        }
    }

    #[test]
    fn an_edge_of_corners_is_as_near_as_its_nearest_side(corners in prop::collection::vec(point(), 2..6), point in point()) {
        let sides = corners.windows(2).map(|side| point.distance_to_edge(Edge { from: side[0], to: side[1] }));
        prop_assert_eq!(Cut::Corners(&corners).distance(point), sides.min());
    }

    #[test]
    fn the_table_rises_from_the_first_station_to_the_last(stations in stations(), every in prop::option::of(10_000_000_i64..900_000_000)) {
        let edge = Curve::through(&stations).unwrap();
        let table: Vec<Station> = edge.table(every.map(nm)).collect();
        prop_assert!(table.windows(2).all(|pair| pair[0].at < pair[1].at));
        prop_assert!(stations.iter().all(|station| table.contains(station)));
        prop_assert_eq!((table.first(), table.last()), (stations.first(), stations.last()));
        if let Some(every) = every {
            prop_assert!(table.windows(2).all(|pair| pair[1].at.nanometres() - pair[0].at.nanometres() <= every));
            let is_marked = |mark: &&Station| !stations.iter().any(|station| station.at == mark.at);
            prop_assert!(table.iter().filter(is_marked).all(|mark| mark.at.nanometres() % every == 0));
        }
    }

    /// Exactly: the square of the way gone is the square of so many pitches, to a nanometre in each coordinate.
    #[test]
    fn holes_in_line_are_so_many_pitches_away(
        first in point(),
        (x, y) in (-1_000_000_000_i64..1_000_000_000, -1_000_000_000_i64..1_000_000_000),
        pitch in 1_000_000_i64..50_000_000,
        pitches in 0_u32..1_000,
    ) {
        prop_assume!((x, y) != (0, 0));
        let along = Point { x: nm(x), y: nm(y) };
        let place = in_line(first, along, nm(pitch), pitches).unwrap();
        let (dx, dy) = (place.x.nanometres() - first.x.nanometres(), place.y.nanometres() - first.y.nanometres());
        let way = BigInt::from(pitch) * pitches;
        let square = BigInt::from(dx) * dx + BigInt::from(dy) * dy;
        let (low, high) = (&way - BigInt::from(2), &way + BigInt::from(2));
        let low = if low < BigInt::ZERO { BigInt::ZERO } else { low };
        prop_assert!(&low * &low <= square && square <= &high * &high);
        // The same way round as the vector, and off its line by less than two nanometres.
        prop_assert!(BigInt::from(dx) * x + BigInt::from(dy) * y >= BigInt::ZERO);
        let cross = BigInt::from(dx) * y - BigInt::from(dy) * x;
        let length = BigInt::from(x) * x + BigInt::from(y) * y;
        prop_assert!(&cross * &cross <= length * 4);
    }

    #[test]
    fn sorting_the_points_finds_the_same_pair(
        places in prop::collection::vec((0_i64..12, 0_i64..12), 0..40),
        scale in (1_i64..4, 1_i64..4),
    ) {
        let points: Vec<Point> = places.iter().map(|(x, y)| Point { x: nm(x * scale.0 * 7_000_000), y: nm(y * scale.1 * 7_000_000) }).collect();
        prop_assert_eq!(closest(&points, &[]), closest_sorted(&points, &mut vec![9; points.len()], &[]));
    }
}
