//! Where holes may stand: edge distance, pitch, distance between rows.
//!
//! Distances run from centre to centre, or from a centre to the nearest edge. They are compared as whole numbers, squared where
//! both coordinates count, so that a hole exactly at a limit is within it.

use crate::basis::Basis;
use crate::finding::{Code, Finding, Severity, Sink};
use crate::length::{Length, product, product_within, quotient, whole_root, wide_quotient};
use crate::practice::{ForCase, Given, Name};
use crate::setters::setters;
use crate::sort::sort_by_key;

/// The distances of a row that are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct RowLayout {
    /// From the row to the nearest edge of any layer.
    pub edge: Option<Length>,
    /// From hole to hole.
    pub pitch: Option<Length>,
    /// To the neighbouring row.
    pub transverse_pitch: Option<Length>,
}

impl RowLayout {
    setters! {
        /// From the middle of a hole to the nearest edge.
        edge: Option<Length>;
        /// Along the row, middle to middle.
        pitch: Option<Length>;
        /// Between the rows.
        transverse_pitch: Option<Length>;
    }
}

/// One edge distance. As the maker built it a short one is copied, down to [`Name::EdgeDistanceAsBuiltLeast`].
#[inline(never)]
pub(crate) fn check_edge(edge: Length, limits: &ForCase<'_>, as_built: bool, push: &mut Sink<'_>) {
    let kept_least = limits.length(Name::EdgeDistanceAsBuiltLeast).filter(|_| as_built);
    let kept = kept_least.is_some_and(|least| edge >= least.value);
    let least = limits.length(Name::EdgeDistanceLeast);
    let least = if kept { least } else { kept_least.or(least) };
    let is_short = short(push, (Code::EdgeDistanceShort, Code::EdgeAsBuilt), edge, least, kept);
    if let Some(preferred) = limits.length(Name::EdgeDistancePreferred)
        && !is_short
        && edge < preferred.value
    {
        push(Finding::against(Code::EdgeBelowPreferred, Severity::Note, edge, &preferred));
    }
    long(push, Code::EdgeDistanceLong, edge, limits.length(Name::EdgeDistanceGreatest));
}

/// One pitch. As the maker built it a short one is copied.
#[inline(never)]
pub(crate) fn check_pitch(pitch: Length, limits: &ForCase<'_>, as_built: bool, push: &mut Sink<'_>) {
    short(push, (Code::PitchShort, Code::PitchAsBuilt), pitch, limits.length(Name::PitchLeast), as_built);
    long(push, Code::PitchLong, pitch, limits.length(Name::PitchGreatest));
}

/// The distance to the next row: so many diameters, and after a step up a share of the pitch. As the maker built it a short one is copied.
pub(crate) fn check_row_spacing(
    spacing: Length,
    pitch: Option<Length>,
    limits: &ForCase<'_>,
    as_built: bool,
    push: &mut Sink<'_>,
) {
    let least = limits.length(Name::TransversePitchLeast);
    short(push, (Code::TransversePitchShort, Code::PitchAsBuilt), spacing, least, as_built);
    if let Some((pitch, share)) = pitch.zip(limits.fraction(Name::TransversePitchShare)) {
        let least = Given { value: pitch.times(share.value.0, share.value.1), basis: share.basis };
        short(push, (Code::TransversePitchShort, Code::PitchAsBuilt), spacing, Some(least), as_built);
    }
}

/// Says that a distance is short, or that the maker built it so, whichever it is.
fn short(
    push: &mut Sink<'_>,
    (changed, as_built): (Code, Code),
    measured: Length,
    least: Option<Given<Length>>,
    is_as_built: bool,
) -> bool {
    let Some(least) = least.filter(|least| measured < least.value) else { return false };
    push(if is_as_built {
        let copied = Given { value: least.value, basis: Basis::AC43_COPY_ORIGINAL };
        Finding::against(as_built, Severity::Caution, measured, &copied)
    } else {
        Finding::against(changed, Severity::Refer, measured, &least)
    });
    true
}

fn long(push: &mut Sink<'_>, code: Code, measured: Length, greatest: Option<Given<Length>>) {
    if let Some(greatest) = greatest
        && measured > greatest.value
    {
        push(Finding::against(code, Severity::Note, measured, &greatest));
    }
}

/// A place on the panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Point {
    /// Along the panel.
    pub x: Length,
    /// Across it.
    pub y: Length,
}

impl Point {
    fn difference(self, other: Point) -> (i128, i128) {
        let across = |a: Length, b: Length| i128::from(a.nanometres()).wrapping_sub(i128::from(b.nanometres()));
        (across(self.x, other.x), across(self.y, other.y))
    }

    /// Distance, cut off at a whole nanometre.
    ///
    /// ```
    /// use shophead::layout::Point;
    /// use shophead::length::Length;
    /// let at = |x, y| Point { x: Length::from_64ths(x), y: Length::from_64ths(y) };
    /// assert_eq!(at(0, 0).distance(at(3, 4)), Length::from_64ths(5));
    /// ```
    #[must_use]
    pub fn distance(self, other: Point) -> Length {
        let (x, y) = self.difference(other);
        root(dot((x, y), (x, y)))
    }

    /// Distance to the nearest point of a straight edge, cut off at a whole nanometre or the one before it: never too long.
    #[must_use]
    pub fn distance_to_edge(self, edge: Edge) -> Length {
        let along = edge.to.difference(edge.from);
        let out = self.difference(edge.from);
        let (reach, whole) = (dot(out, along), dot(along, along));
        if reach <= 0 {
            return self.distance(edge.from);
        }
        if reach >= whole {
            return self.distance(edge.to);
        }
        let cross = product(out.0, along.1).wrapping_sub(product(out.1, along.0)).unsigned_abs();
        // The edge's length is taken to as many binary places as fit: rounded to whole nanometres it would spoil the distance from an
        // edge that is short against it. Rounded up, it makes the distance a hair too short, which is the safe side.
        let whole = whole.unsigned_abs();
        let places = whole.leading_zeros().saturating_sub(2) >> 1;
        let scaled = whole.wrapping_shl(places.saturating_mul(2));
        let cut = whole_root(scaled);
        let length = if cut.wrapping_mul(cut) == scaled { cut } else { cut.wrapping_add(1) };
        let distance = wide_quotient(cross.wrapping_shl(places), length);
        i64::try_from(distance).ok().and_then(Length::from_nanometres).unwrap_or(Length::MAX)
    }
}

#[inline(never)]
fn dot(a: (i128, i128), b: (i128, i128)) -> i128 {
    product(a.0, b.0).wrapping_add(product(a.1, b.1))
}

fn root(square: i128) -> Length {
    let root = whole_root(u128::try_from(square).unwrap_or(0));
    i64::try_from(root).ok().and_then(Length::from_nanometres).unwrap_or(Length::MAX)
}

/// A straight edge of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Edge {
    /// One end.
    pub from: Point,
    /// The other.
    pub to: Point,
}

/// What stands closest in a pattern of points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Closest {
    /// The two points that stand closest, by their place in the list, and how close.
    pub pair: Option<(usize, usize, Length)>,
    /// The point that stands closest to an edge, and how close.
    pub to_edge: Option<(usize, Length)>,
}

/// The closest pair of a pattern of points, and the point closest to an edge.
///
/// Every pair is looked at, so the time grows with the square of the number of points: see [`closest_sorted`] for many.
#[must_use]
pub fn closest(points: &[Point], edges: &[Edge]) -> Closest {
    let mut pair: Option<(usize, usize, Length)> = None;
    for (index, point) in points.iter().enumerate() {
        for (other_index, other) in points.iter().enumerate().skip(index.saturating_add(1)) {
            nearer(&mut pair, (index, other_index, point.distance(*other)));
        }
    }
    Closest { pair, to_edge: closest_to_edge(points, edges) }
}

/// [`closest`] for many points: the same answer, in the time that sorting takes for holes in rows and grids.
///
/// `order` is room to work in, one place a point; what stands in it does not matter. Points beyond it are not looked at.
///
/// ```
/// use shophead::layout::{Point, closest_sorted};
/// use shophead::length::Length;
/// let at = |x| Point { x: Length::from_64ths(x), y: Length::ZERO };
/// let points = [at(0), at(96), at(48), at(80)];
/// let closest = closest_sorted(&points, &mut [0; 4], &[]);
/// assert_eq!(closest.pair, Some((1, 3, Length::from_64ths(16))));
/// ```
#[must_use]
pub fn closest_sorted(points: &[Point], order: &mut [u32], edges: &[Edge]) -> Closest {
    let at = |index: u32| usize::try_from(index).ok().and_then(|index| points.get(index)).copied().unwrap_or_default();
    for (place, index) in order.iter_mut().zip(0_u32..) {
        *place = index;
    }
    let count = order.len().min(points.len());
    let order = order.get_mut(..count).unwrap_or_default();
    // Sorted along the longer side of the pattern: holes of a row that runs the other way would all stand at one place.
    let spread = |of: fn(&Point) -> Length| {
        let all = || points.iter().map(|point| of(point).nanometres());
        all().max().unwrap_or(0).abs_diff(all().min().unwrap_or(0))
    };
    let is_long = spread(|point| point.x) >= spread(|point| point.y);
    let along = |point: Point| if is_long { point.x } else { point.y };
    let across = |point: Point| if is_long { point.y } else { point.x };
    sort_by_key(order, |index| (along(at(*index)), across(at(*index)), *index));
    let mut closest: Option<(usize, usize, Length)> = None;
    for (place, index) in order.iter().enumerate() {
        let point = at(*index);
        for other_index in order.iter().skip(place.saturating_add(1)) {
            let other = at(*other_index);
            // The rest stands further along than the closest pair is wide.
            if closest.is_some_and(|(_, _, distance)| along(other).minus(along(point)) > distance) {
                break;
            }
            let (first, second) = (index.min(other_index), index.max(other_index));
            let pair = usize::try_from(*first).ok().zip(usize::try_from(*second).ok());
            if let Some((first, second)) = pair {
                nearer(&mut closest, (first, second, point.distance(other)));
            }
        }
    }
    Closest { pair: closest, to_edge: closest_to_edge(points, edges) }
}

/// Keeps the closer pair; of two that are equally close the one that stands first in the list.
fn nearer(closest: &mut Option<(usize, usize, Length)>, pair: (usize, usize, Length)) {
    let rank = |(first, second, distance): (usize, usize, Length)| (distance, first, second);
    if closest.is_none_or(|closest| rank(pair) < rank(closest)) {
        *closest = Some(pair);
    }
}

fn closest_to_edge(points: &[Point], edges: &[Edge]) -> Option<(usize, Length)> {
    let mut closest: Option<(usize, Length)> = None;
    for (index, point) in points.iter().enumerate() {
        for edge in edges {
            let distance = point.distance_to_edge(*edge);
            if closest.is_none_or(|(_, closest)| distance < closest) {
                closest = Some((index, distance));
            }
        }
    }
    closest
}

/// The place of a hole in a straight row: so many pitches from the first hole, in the direction of a vector whose length does not matter.
///
/// Each coordinate is off by less than a nanometre. `None` where the vector is nothing or the place lies off any panel.
///
/// ```
/// use shophead::layout::{Point, in_line};
/// use shophead::length::Length;
/// let at = |x, y| Point { x: Length::from_64ths(x), y: Length::from_64ths(y) };
/// assert_eq!(in_line(at(64, 0), at(3, 4), Length::from_64ths(50), 2), Some(at(124, 80)));
/// assert_eq!(in_line(at(64, 0), at(0, 0), Length::from_64ths(50), 2), None);
/// ```
#[must_use]
pub fn in_line(first: Point, along: Point, pitch: Length, pitches: u32) -> Option<Point> {
    let vector = along.difference(Point::default());
    let square = u128::try_from(dot(vector, vector)).ok()?;
    // The vector's length to as many binary places as there is room for: 64 bits of it, however short or long it is.
    let places = square.leading_zeros() >> 1;
    let length = i128::try_from(whole_root(square.wrapping_shl(places << 1))).ok()?;
    if length == 0 {
        return None;
    }
    let way = product(i128::from(pitch.nanometres()), i128::from(pitches));
    let coordinate = |start: Length, part: i128| {
        let scaled = product_within(way, part.wrapping_shl(places))?;
        let moved = quotient(scaled, length).checked_add(i128::from(start.nanometres()))?;
        i64::try_from(moved).ok().and_then(Length::from_nanometres)
    };
    Some(Point { x: coordinate(first.x, vector.0)?, y: coordinate(first.y, vector.1)? })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: i16, y: i16) -> Point {
        Point { x: Length::from_64ths(x), y: Length::from_64ths(y) }
    }

    #[test]
    fn distance_to_an_edge_is_perpendicular_inside_and_to_the_corner_outside() {
        let edge = Edge { from: at(0, 0), to: at(100, 0) };
        assert_eq!(at(50, 16).distance_to_edge(edge), Length::from_64ths(16));
        assert_eq!(at(-3, 4).distance_to_edge(edge), Length::from_64ths(5));
        assert_eq!(at(103, 4).distance_to_edge(edge), Length::from_64ths(5));
        let point = Edge { from: at(0, 0), to: at(0, 0) };
        assert_eq!(at(3, 4).distance_to_edge(point), Length::from_64ths(5));
        let slanted = Edge { from: at(0, 0), to: at(64, 48) };
        let exact = at(0, 20).distance_to_edge(slanted);
        assert_eq!(exact, Length::from_64ths(16));
    }

    #[test]
    fn the_closest_pair_is_found_in_any_order() {
        let points = [at(0, 0), at(200, 0), at(100, 0), at(110, 0)];
        let found = closest(&points, &[]);
        assert_eq!(found.pair, Some((2, 3, Length::from_64ths(10))));
        assert_eq!(closest_sorted(&points, &mut [0; 4], &[]), found);
    }

    #[test]
    fn the_closest_edge_is_found_wherever_it_stands() {
        let edges =
            [(0, 100), (0, 40), (0, 60)].map(|(x, y)| Edge { from: at(x, y), to: at(x.saturating_add(200), y) });
        let points = [at(50, 0), at(100, 10), at(150, 5)];
        let found = closest(&points, &edges).to_edge;
        assert_eq!(found, Some((1, Length::from_64ths(30))));
        // Of two that are as close the first.
        let points = [at(50, 0), at(100, 30), at(150, 50)];
        assert_eq!(closest(&points, &edges).to_edge, Some((1, Length::from_64ths(10))));
        assert_eq!(closest(&points, &[]).to_edge, None);
    }

    #[test]
    fn the_shortest_vector_and_the_longest_point_the_same_way() {
        let nm = |nanometres| Length::from_nanometres(nanometres).expect("in range");
        let reached = |x, y| in_line(at(64, 0), Point { x, y }, nm(50_000_000), 10_000);
        // Half a kilometre, straight and in the diagonal: over √2, which is 1.414213562373095.
        let straight = Some(Point { x: Length::INCH.plus(nm(500_000_000_000)), y: Length::ZERO });
        let slanted = nm(353_553_390_593);
        let diagonal = Some(Point { x: Length::INCH.plus(slanted), y: slanted });
        for length in [1, 2, 1_000, 999_999_999_999, 1_000_000_000_000] {
            assert_eq!(reached(nm(length), Length::ZERO), straight, "{length}");
            assert_eq!(reached(nm(length), nm(length)), diagonal, "{length}");
        }
        assert_eq!(reached(Length::ZERO, Length::ZERO), None);
    }
}
