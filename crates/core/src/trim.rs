//! The cut along an edge of a panel, and how far holes stand from it.
//!
//! An edge is known in one of two ways: as corners with straight lines between them, or as offsets that were measured from the old part
//! at stations along a line. Between stations the edge is drawn as a monotone piecewise cubic ([`Basis::MONOTONE_INTERPOLATION`]): it
//! goes through every station, rises only where the offsets rise, and never swings beyond two neighbours. A plain spline would bulge
//! between stations, and the bulge would be cut into the sheet.

use core::cmp::Ordering;

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Severity};
use crate::layout::{Edge, Point};
use crate::length::Length;

/// The most stations of one edge.
pub const MAX_STATIONS: usize = 256;

/// A place along the panel with the measured offset of the edge there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Station {
    /// Along the panel.
    pub at: Length,
    /// Across it, from the line that everything is measured from.
    pub offset: Length,
}

crate::words::errors! {
    /// Why an edge cannot be drawn.
    TrimError {
        TooFew = _, "edge-too-few-points", "Fewer than two stations.",
            "an edge needs at least two points, one at each end";
        TooMany = _, "edge-too-many-stations", "More than [`MAX_STATIONS`].",
            "at most {MAX_STATIONS} stations on one edge; take fewer, further apart";
        NotRising { station: usize, "Which, counted from 1." } = _, "edge-not-rising", "A station is not past the one before it.",
            "station {station} is not past the one before it; give rising stations";
        NoDirection = _, "edge-line-no-direction", "Both points of the line are one.",
            "both points of the line are the same; give two that are apart";
    }
}

/// The line that stations are measured along, from its first point on. Offsets are square to it, those to the left of it positive.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BaseLine {
    from: Point,
    to: Point,
    /// One long.
    along: (f64, f64),
}

impl BaseLine {
    /// The line from one point through another.
    ///
    /// ```
    /// use shophead::layout::Point;
    /// use shophead::length::Length;
    /// use shophead::trim::BaseLine;
    /// let inches = |x: i16, y: i16| Point { x: Length::from_64ths(x * 64), y: Length::from_64ths(y * 64) };
    /// // Up along the panel: an offset to the left is one towards lesser x.
    /// let line = BaseLine::through(inches(2, 1), inches(2, 9))?;
    /// let seen = line.seen(inches(1, 5));
    /// assert_eq!((seen.at, seen.offset), (Length::from_64ths(4 * 64), Length::from_64ths(64)));
    /// assert_eq!(line.place(seen), inches(1, 5));
    /// assert!(BaseLine::through(inches(2, 1), inches(2, 1)).is_err());
    /// # Ok::<(), shophead::trim::TrimError>(())
    /// ```
    ///
    /// # Errors
    /// [`TrimError::NoDirection`].
    pub fn through(from: Point, to: Point) -> Result<BaseLine, TrimError> {
        let (dx, dy) = (nm(to.x) - nm(from.x), nm(to.y) - nm(from.y));
        let length = libm::hypot(dx, dy);
        if length > 0.0 {
            Ok(BaseLine { from, to, along: (dx / length, dy / length) })
        } else {
            Err(TrimError::NoDirection)
        }
    }

    /// Its two points.
    #[must_use]
    pub const fn points(&self) -> (Point, Point) {
        (self.from, self.to)
    }

    /// A point as station and offset, each to a nanometre.
    #[must_use]
    pub fn seen(&self, point: Point) -> Station {
        let (dx, dy) = (nm(point.x) - nm(self.from.x), nm(point.y) - nm(self.from.y));
        let (x, y) = self.along;
        Station { at: whole(dx * x + dy * y), offset: whole(dy * x - dx * y) }
    }

    /// Where a station with its offset is, to a nanometre.
    #[must_use]
    pub fn place(&self, station: Station) -> Point {
        let (at, offset) = (nm(station.at), nm(station.offset));
        let (x, y) = self.along;
        Point { x: whole(nm(self.from.x) + at * x - offset * y), y: whole(nm(self.from.y) + at * y + offset * x) }
    }
}

/// An edge through measured stations.
///
/// Computed in `f64` nanometres. On a panel of up to ten metres whose edge is nowhere steeper than one in one, an offset is off by less
/// than a thousandth of a nanometre before it is rounded to a whole one.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve<'s> {
    stations: &'s [Station],
    /// The slope at each station.
    slopes: heapless::Vec<f64, MAX_STATIONS>,
    /// What the stations are measured along, where that is not the x axis.
    line: Option<BaseLine>,
}

fn nm(length: Length) -> f64 {
    // Exact: no length has more digits than an f64.
    length.nanometres() as f64
}

fn whole(nanometres: f64) -> Length {
    let within = nanometres.max(nm(Length::MIN)).min(nm(Length::MAX));
    Length::from_nanometres(libm::round(within) as i64).unwrap_or_default()
}

/// One piece of the curve, between two stations.
#[derive(Clone, Copy)]
struct Piece {
    from: (f64, f64),
    to: (f64, f64),
    slopes: (f64, f64),
}

impl Piece {
    fn width(&self) -> f64 {
        self.to.0 - self.from.0
    }

    /// The offset at a place in it: Hermite's cubic, kept between its ends.
    fn at(&self, x: f64) -> f64 {
        let width = self.width();
        let t = (x - self.from.0) / width;
        let rise = self.to.1 - self.from.1;
        let (start, end) = (self.slopes.0 * width, self.slopes.1 * width);
        // Written from the near end, so that both ends come out exactly.
        let offset = if t <= 0.5 {
            self.from.1 + t * (start + t * ((3.0 * rise - 2.0 * start - end) + t * (start + end - 2.0 * rise)))
        } else {
            let u = 1.0 - t;
            self.to.1 - u * (end + u * ((3.0 * rise - 2.0 * end - start) + u * (start + end - 2.0 * rise)))
        };
        offset.max(self.from.1.min(self.to.1)).min(self.from.1.max(self.to.1))
    }

    /// How far the curve strays from its chord between two places at most: an eighth of the width squared times the sharpest bend, which
    /// a cubic has at an end.
    fn stray(&self, from: f64, to: f64) -> f64 {
        let width = self.width();
        let rise = self.to.1 - self.from.1;
        let (start, end) = (self.slopes.0 * width, self.slopes.1 * width);
        let bend = |x: f64| {
            let t = (x - self.from.0) / width;
            (2.0 * (3.0 * rise - 2.0 * start - end) + 6.0 * t * (start + end - 2.0 * rise)) / (width * width)
        };
        let sharpest = libm::fabs(bend(from)).max(libm::fabs(bend(to)));
        (to - from) * (to - from) * sharpest / 8.0
    }
}

impl<'s> Curve<'s> {
    /// The edge through these stations.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::trim::{Curve, Station};
    /// let at = |at, offset| Station { at: Length::from_64ths(at), offset: Length::from_64ths(offset) };
    /// let stations = [at(0, 32), at(640, 32), at(1280, 64), at(1920, 64)];
    /// let edge = Curve::through(&stations)?;
    /// // It stays flat where the offsets are, instead of swinging below them.
    /// assert_eq!(edge.offset(Length::from_64ths(320)), Length::from_64ths(32));
    /// assert_eq!(edge.offset(Length::from_64ths(960)), Length::from_64ths(48));
    /// # Ok::<(), shophead::trim::TrimError>(())
    /// ```
    ///
    /// # Errors
    /// [`TrimError`].
    pub fn through(stations: &'s [Station]) -> Result<Curve<'s>, TrimError> {
        if stations.len() < 2 {
            return Err(TrimError::TooFew);
        }
        if stations.len() > MAX_STATIONS {
            return Err(TrimError::TooMany);
        }
        for (pair, station) in stations.windows(2).zip(2_usize..) {
            if let [one, next] = pair
                && one.at >= next.at
            {
                return Err(TrimError::NotRising { station });
            }
        }
        let secants = || {
            stations.windows(2).filter_map(|pair| match pair {
                [one, next] => Some((nm(next.offset) - nm(one.offset)) / (nm(next.at) - nm(one.at))),
                _ => None,
            })
        };
        // First the mean of both secants, nothing where they differ in sign; at the ends the one there is.
        let mut slopes: heapless::Vec<f64, MAX_STATIONS> = heapless::Vec::new();
        let before = core::iter::once(None).chain(secants().map(Some));
        let after = secants().map(Some).chain(core::iter::once(None));
        for (before, after) in before.zip(after) {
            let slope = match (before, after) {
                (Some(before), Some(after)) if before * after <= 0.0 => 0.0,
                (Some(before), Some(after)) => before / 2.0 + after / 2.0,
                (one, other) => one.or(other).unwrap_or(0.0),
            };
            // As many places as stations.
            let _ = slopes.push(slope);
        }
        // Then both ends of a piece are brought into the circle of radius three that keeps it monotone.
        for (piece, secant) in secants().enumerate() {
            let Some([start, end]) = slopes.get_mut(piece..).and_then(|rest| rest.first_chunk_mut::<2>()) else {
                continue;
            };
            if secant == 0.0 {
                (*start, *end) = (0.0, 0.0);
                continue;
            }
            let part = (3.0 / libm::hypot(*start / secant, *end / secant)).min(1.0);
            *start *= part;
            *end *= part;
        }
        Ok(Curve { stations, slopes, line: None })
    }

    /// The same edge, its stations measured along this line instead of the x axis.
    ///
    /// ```
    /// use shophead::layout::Point;
    /// use shophead::length::Length;
    /// use shophead::trim::{BaseLine, Curve, Station};
    /// let inches = |count: i16| Length::from_64ths(count * 64);
    /// let stations = [0, 10].map(|at| Station { at: inches(at), offset: inches(1) });
    /// let up = BaseLine::through(Point { x: inches(0), y: inches(0) }, Point { x: inches(0), y: inches(1) })?;
    /// let edge = Curve::through(&stations)?.along(up);
    /// assert_eq!(edge.place(inches(4)), Point { x: inches(-1), y: inches(4) });
    /// assert!(edge.distance(Point { x: inches(2), y: inches(4) }) <= inches(3));
    /// # Ok::<(), shophead::trim::TrimError>(())
    /// ```
    #[must_use]
    pub fn along(self, line: BaseLine) -> Curve<'s> {
        Curve { line: Some(line), ..self }
    }

    /// The line that its stations are measured along; `None` for the x axis.
    #[must_use]
    pub const fn line(&self) -> Option<BaseLine> {
        self.line
    }

    /// Where a point of the panel is as station and offset.
    #[must_use]
    pub fn seen(&self, point: Point) -> Station {
        self.line.map_or(Station { at: point.x, offset: point.y }, |line| line.seen(point))
    }

    /// The place of the edge on the panel at a station.
    #[must_use]
    pub fn place(&self, at: Length) -> Point {
        let station = Station { at, offset: self.offset(at) };
        self.line.map_or(Point { x: at, y: station.offset }, |line| line.place(station))
    }

    /// The stations that it goes through.
    #[must_use]
    pub const fn stations(&self) -> &'s [Station] {
        self.stations
    }

    fn pieces(&self) -> impl Iterator<Item = Piece> {
        let point = |station: &Station| (nm(station.at), nm(station.offset));
        self.stations.windows(2).zip(self.slopes.windows(2)).filter_map(move |(stations, slopes)| {
            match (stations, slopes) {
                ([from, to], [start, end]) => Some(Piece { from: point(from), to: point(to), slopes: (*start, *end) }),
                _ => None,
            }
        })
    }

    /// The offset at a place along the panel, to a nanometre; beyond an end that of the end.
    #[must_use]
    pub fn offset(&self, at: Length) -> Length {
        let beyond = |station: Option<&Station>, is_beyond: fn(Length, Length) -> bool| {
            station.filter(|station| is_beyond(at, station.at)).map(|station| station.offset)
        };
        let end =
            beyond(self.stations.first(), |at, end| at <= end).or(beyond(self.stations.last(), |at, end| at >= end));
        if let Some(end) = end {
            return end;
        }
        let x = nm(at);
        let piece = self.pieces().find(|piece| x <= piece.to.0);
        piece.map_or(Length::ZERO, |piece| whole(piece.at(x)))
    }

    /// Whether a point lies beyond the first or the last station, where nothing was measured.
    #[must_use]
    pub fn is_beyond(&self, point: Point) -> bool {
        let at = self.seen(point).at;
        self.stations.first().is_none_or(|first| at < first.at) || self.stations.last().is_none_or(|last| at > last.at)
    }

    /// How far a point stands from it: never too long, and short by less than four nanometres.
    ///
    /// The curve is halved until every part that could be the nearest is straight to within a nanometre. A part is left alone when its
    /// chord, less the most that the curve strays from it, is already further off than the nearest found.
    #[must_use]
    pub fn distance(&self, point: Point) -> Length {
        /// Straight enough.
        const STRAY: f64 = 1.0;
        /// A halved part stands on this; the deepest halving of a piece of ten metres leaves parts under a nanometre.
        const DEPTH: usize = 64;
        let seen = self.seen(point);
        let to = (nm(seen.at), nm(seen.offset));
        let ends = self.stations.iter().map(|station| libm::hypot(nm(station.at) - to.0, nm(station.offset) - to.1));
        let mut nearest = ends.fold(f64::INFINITY, f64::min);
        for piece in self.pieces() {
            // Further off along the panel than the nearest found.
            if piece.from.0 - to.0 >= nearest || to.0 - piece.to.0 >= nearest {
                continue;
            }
            let mut parts: heapless::Vec<(f64, f64), DEPTH> = heapless::Vec::new();
            let _ = parts.push((piece.from.0, piece.to.0));
            while let Some((from, end)) = parts.pop() {
                let stray = piece.stray(from, end);
                let chord = to_chord(to, (from, piece.at(from)), (end, piece.at(end)));
                if chord - stray >= nearest {
                    continue;
                }
                let middle = from / 2.0 + end / 2.0;
                // No room is left for halving only where the part is far thinner than a nanometre.
                if stray <= STRAY || parts.len().saturating_add(2) > DEPTH {
                    nearest = nearest.min(chord - stray);
                } else {
                    let (near, far) =
                        if to.0 < middle { ((from, middle), (middle, end)) } else { ((middle, end), (from, middle)) };
                    let _ = parts.push(far);
                    let _ = parts.push(near);
                }
            }
        }
        // What the arithmetic may be off by, taken off so that no hole seems safer than it is.
        let turned = if self.line.is_some() { 1.0 } else { 0.0 };
        let whole = libm::floor((nearest - STRAY - turned).max(0.0)) as i64;
        Length::from_nanometres(whole).unwrap_or(Length::MAX)
    }

    /// The offsets to mark out from: at the measured stations, and between them at every whole multiple of a spacing, as a scale laid along the
    /// line has them. Without a spacing at the stations only.
    pub fn table(&self, every: Option<Length>) -> impl Iterator<Item = Station> {
        // Of nothing and less there are no multiples.
        let every = every.map(|every| every.max(Length::ZERO));
        let last = self.stations.last().map(|last| last.at);
        let mut stations = self.stations.iter().peekable();
        let mut mark = self.stations.first().zip(every).and_then(|(first, every)| {
            let over = first.at.nanometres().checked_rem_euclid(every.nanometres())?;
            let short = if over == 0 { 0 } else { every.nanometres().checked_sub(over)? };
            first.at.checked_add(Length::from_nanometres(short)?)
        });
        core::iter::from_fn(move || {
            let next_station = stations.peek().map(|station| station.at);
            let next_mark = mark.filter(|mark| last.is_some_and(|last| *mark <= last));
            let at = match (next_station, next_mark) {
                (Some(station), Some(mark)) => station.min(mark),
                (one, other) => one.or(other)?,
            };
            if next_station == Some(at) {
                stations.next();
            }
            if next_mark == Some(at) {
                mark = every.and_then(|every| at.checked_add(every));
            }
            Some(Station { at, offset: self.offset(at) })
        })
    }
}

/// From a point to the nearest point of a chord.
fn to_chord(to: (f64, f64), from: (f64, f64), end: (f64, f64)) -> f64 {
    let (along, out) = ((end.0 - from.0, end.1 - from.1), (to.0 - from.0, to.1 - from.1));
    let square = along.0 * along.0 + along.1 * along.1;
    let reach = ((out.0 * along.0 + out.1 * along.1) / square).clamp(0.0, 1.0);
    // A chord without length has no direction; its end is the nearest.
    let reach = if square > 0.0 { reach } else { 0.0 };
    libm::hypot(out.0 - reach * along.0, out.1 - reach * along.1)
}

/// The edge of a panel.
#[derive(Clone, Debug, PartialEq)]
#[expect(clippy::large_enum_variant, reason = "there is no heap to put the curve on")]
pub enum Cut<'s> {
    /// Corners, with straight lines between them.
    Corners(&'s [Point]),
    /// Through measured stations.
    Measured(Curve<'s>),
}

impl Cut<'_> {
    /// How far a point stands from it; never too long. `None` for an edge of fewer than two corners.
    #[must_use]
    pub fn distance(&self, point: Point) -> Option<Length> {
        match self {
            Cut::Corners(corners) => corners
                .windows(2)
                .filter_map(|pair| match pair {
                    [from, to] => Some(point.distance_to_edge(Edge { from: *from, to: *to })),
                    _ => None,
                })
                .min(),
            Cut::Measured(curve) => Some(curve.distance(point)),
        }
    }

    /// Whether a point lies where nothing was measured; an edge of corners ends where it ends.
    #[must_use]
    pub fn is_beyond(&self, point: Point) -> bool {
        match self {
            Cut::Corners(_) => false,
            Cut::Measured(curve) => curve.is_beyond(point),
        }
    }

    /// On which side of a measured edge a point lies: whether its offset is greater. `None` for an edge of corners, on the edge, and
    /// beyond its ends.
    #[must_use]
    pub fn is_above(&self, point: Point) -> Option<bool> {
        match self {
            Cut::Corners(_) => None,
            Cut::Measured(curve) if curve.is_beyond(point) => None,
            Cut::Measured(curve) => {
                let seen = curve.seen(point);
                let offset = curve.offset(seen.at);
                match seen.offset.cmp(&offset) {
                    Ordering::Less => Some(false),
                    Ordering::Equal => None,
                    Ordering::Greater => Some(true),
                }
            }
        }
    }
}

/// What it means that some holes of a panel lie beyond the ends of its edge, where nobody measured.
#[must_use]
pub fn check_beyond(holes: u32) -> Option<Finding> {
    let finding = Finding::new(Code::HoleBeyondCut, Severity::Caution, Basis::BEYOND_STATIONS);
    (holes > 0).then(|| finding.with_measured(Figure::Count(holes)))
}

/// What it means that the holes of a panel lie on both sides of its edge: so many with lesser offsets, so many with greater ones.
#[must_use]
pub fn check_sides(below: u32, above: u32) -> Option<Finding> {
    let finding = Finding::new(Code::HoleBeyondCut, Severity::Refer, Basis::ONE_SIDE_OF_EDGE);
    let fewer = below.min(above);
    (fewer > 0).then(|| finding.with_measured(Figure::Count(fewer)))
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;

    #[test]
    fn a_chord_without_length_is_as_far_as_its_end() {
        assert_eq!(to_chord((3.0, 4.0), (0.0, 0.0), (0.0, 0.0)), 5.0);
        assert_eq!(to_chord((3.0, 4.0), (0.0, 0.0), (10.0, 0.0)), 4.0);
        assert_eq!(to_chord((-3.0, 4.0), (0.0, 0.0), (10.0, 0.0)), 5.0);
        assert_eq!(to_chord((13.0, 4.0), (0.0, 0.0), (10.0, 0.0)), 5.0);
    }
    use std::vec::Vec;

    fn station(at: i16, offset: i16) -> Station {
        Station { at: Length::from_64ths(at), offset: Length::from_64ths(offset) }
    }

    fn point(x: i16, y: i16) -> Point {
        Point { x: Length::from_64ths(x), y: Length::from_64ths(y) }
    }

    #[test]
    fn stations_that_are_no_edge_are_refused() {
        assert_eq!(Curve::through(&[station(0, 0)]), Err(TrimError::TooFew));
        let twice = [station(0, 0), station(10, 0), station(10, 1)];
        assert_eq!(Curve::through(&twice), Err(TrimError::NotRising { station: 3 }));
        let many: Vec<Station> = (0..=256).map(|at| station(at, 0)).collect();
        assert_eq!(Curve::through(&many), Err(TrimError::TooMany));
        assert!(Curve::through(&many[1..]).is_ok());
    }

    #[test]
    fn a_straight_edge_is_as_far_as_its_line() {
        let stations = [station(0, 0), station(320, 0), station(640, 0)];
        let edge = Curve::through(&stations).expect("an edge");
        let distance = edge.distance(point(100, 16));
        // A nanometre is taken off for the arithmetic, and another where the line turns it: here by 3, 4 and 5.
        assert_eq!(Length::from_64ths(16).minus(distance).nanometres(), 1);
        let line = BaseLine::through(point(0, 0), point(3, 4)).expect("a line");
        let distance = edge.clone().along(line).distance(point(192 - 16, 256 + 12));
        assert_eq!(Length::from_64ths(20).minus(distance).nanometres(), 2);
        assert_eq!(Cut::Measured(edge.clone()).is_above(point(100, 16)), Some(true));
        assert!(edge.is_beyond(point(-1, 0)) && !edge.is_beyond(point(640, 9)));
    }

    #[test]
    fn an_edge_that_comes_near_only_in_a_piece_ahead_is_as_near_as_that() {
        // A straight edge, twenty down for one along, that passes the point at 42: 840 / √401 away.
        let exact = 840.0 / libm::sqrt(401.0) * 396_875.0;
        let ahead = [station(-64, 2_120), station(10, 640), station(74, -640)];
        let behind = [station(-74, -640), station(-10, 640), station(64, 2_120)];
        for stations in [ahead, behind] {
            let near = Curve::through(&stations).expect("an edge").distance(point(0, 0));
            let short = exact - near.nanometres() as f64;
            assert!((0.0..4.0).contains(&short), "{short}");
        }
    }

    #[test]
    fn an_edge_ends_at_its_stations() {
        let stations = [station(10, 5), station(40, 8), station(70, 2)];
        let edge = Curve::through(&stations).expect("an edge");
        let beside = |at: i16, more: i64| Point { x: moved(at, more), y: Length::INCH };
        for (at, more, is_beyond) in [(10, 0, false), (10, -1, true), (70, 0, false), (70, 1, true), (40, 0, false)] {
            let (point, cut) = (beside(at, more), Cut::Measured(edge.clone()));
            assert_eq!((edge.is_beyond(point), cut.is_beyond(point)), (is_beyond, is_beyond), "{at} {more}");
            assert_eq!(cut.is_above(point), (!is_beyond).then_some(true), "{at} {more}");
        }
        // The offset of the end goes on.
        assert_eq!(
            (edge.offset(Length::ZERO), edge.offset(Length::INCH.times(2, 1))),
            (stations[0].offset, stations[2].offset)
        );
        assert!(!Cut::Corners(&[point(0, 0), point(1, 0)]).is_beyond(point(9, 9)));
    }

    fn moved(at: i16, more: i64) -> Length {
        Length::from_nanometres(Length::from_64ths(at).nanometres() + more).expect("in range")
    }

    #[test]
    fn a_point_is_above_an_edge_below_it_or_neither() {
        let stations = [station(0, 5), station(64, 5)];
        let cut = Cut::Measured(Curve::through(&stations).expect("an edge"));
        let is_above = |more: i64| cut.is_above(Point { x: Length::from_64ths(9), y: moved(5, more) });
        assert_eq!((is_above(-1), is_above(0), is_above(1)), (Some(false), None, Some(true)));
        assert_eq!(Cut::Corners(&[point(0, 0), point(64, 0)]).is_above(point(9, 9)), None);
    }

    #[test]
    fn corners_are_as_near_as_the_nearest_side() {
        let corners = [point(0, 0), point(64, 0), point(64, 32)];
        assert_eq!(Cut::Corners(&corners).distance(point(60, 20)), Some(Length::from_64ths(4)));
        assert_eq!(Cut::Corners(&corners[..1]).distance(point(60, 20)), None);
    }

    #[test]
    fn holes_beyond_the_ends_are_a_caution_and_holes_on_both_sides_are_referred() {
        assert_eq!((check_beyond(0), check_sides(7, 0), check_sides(0, 7)), (None, None, None));
        let figures = |found: Option<Finding>| found.map(|found| (found.code(), found.severity(), found.measured()));
        let count = |count| Some(Figure::Count(count));
        assert_eq!(figures(check_beyond(1)), Some((Code::HoleBeyondCut, Severity::Caution, count(1))));
        let fewer = Some((Code::HoleBeyondCut, Severity::Refer, count(2)));
        assert_eq!((figures(check_sides(2, 7)), figures(check_sides(7, 2))), (fewer, fewer));
    }

    #[test]
    fn what_is_further_than_any_length_is_as_far_as_the_longest_on_its_side() {
        let line = BaseLine::through(point(0, 0), point(64, 64)).expect("a line");
        let far = |length| line.seen(Point { x: length, y: length }).at;
        assert_eq!((far(Length::MIN), far(Length::MAX)), (Length::MIN, Length::MAX));
    }

    #[test]
    fn an_edge_along_a_slanted_line_is_never_further_off_than_it_is() {
        let nm = |x, y| Point {
            x: Length::from_nanometres(x).expect("in range"),
            y: Length::from_nanometres(y).expect("in range"),
        };
        let stations = [station(-640, 0), station(640, 0)];
        let slanted = BaseLine::through(nm(0, 0), nm(1_000_000, 1_000_000)).expect("a line");
        let edge = Curve::through(&stations).expect("an edge").along(slanted);
        // x / √2: 707106.78, 707107.49, 707108.20, 707108.90.
        for (x, whole) in [(1_000_000, 707_106), (1_000_001, 707_107), (1_000_002, 707_108), (1_000_003, 707_108)] {
            for place in [nm(x, 0), nm(0, x)] {
                let short = whole - edge.distance(place).nanometres();
                assert!((0..4).contains(&short), "{x} {short}");
            }
        }
    }

    #[test]
    fn a_point_level_with_the_end_of_an_edge_is_as_far_as_that() {
        // A bent piece that is nowhere nearer than its end takes nothing more off.
        let stations = [station(0, 0), station(100, 10), station(200, 100)];
        let edge = Curve::through(&stations).expect("an edge");
        let far = |point: Point, exact: i16| Length::from_64ths(exact).minus(edge.distance(point)).nanometres();
        assert_eq!((far(point(-50, 0), 50), far(point(250, 100), 50)), (1, 1));
    }

    #[test]
    fn an_edge_before_a_flat_piece_leaves_it_flat_and_is_steep_until_then() {
        // Steep, one in one, flat: at 100 the mean of both slopes, 2.98, at 200 none, so half-way between an eighth of 298 over the mean.
        let stations = [station(0, 0), station(100, 496), station(200, 596), station(300, 596)];
        let edge = Curve::through(&stations).expect("an edge");
        let off = edge.offset(Length::from_64ths(150)).nanometres() - 58_325 * 396_875 / 100;
        assert!(off.abs() < 2, "{off}");
        assert_eq!(edge.offset(Length::from_64ths(250)), Length::from_64ths(596));
        // A peak and a trough are flat as well, and leave the pieces beside them within their stations.
        let stations = [station(0, 0), station(100, 50), station(200, 0), station(300, 50)];
        let edge = Curve::through(&stations).expect("an edge");
        assert_eq!(edge.offset(Length::from_64ths(150)), Length::from_64ths(25));
    }

    #[test]
    fn the_table_has_the_stations_and_the_marks_between() {
        let stations = [station(0, 0), station(100, 10), station(150, 20)];
        let edge = Curve::through(&stations).expect("an edge");
        let at = |every: Option<i16>| -> Vec<i64> {
            edge.table(every.map(Length::from_64ths)).map(|mark| mark.at.to_64ths().count()).collect()
        };
        assert_eq!(at(None), [0, 100, 150]);
        assert_eq!(at(Some(50)), [0, 50, 100, 150]);
        assert_eq!(at(Some(64)), [0, 64, 100, 128, 150]);
        // Whole multiples, wherever the first station is.
        let stations = [station(-70, 0), station(70, 10)];
        let edge = Curve::through(&stations).expect("an edge");
        let at: Vec<i64> = edge.table(Some(Length::from_64ths(64))).map(|mark| mark.at.to_64ths().count()).collect();
        assert_eq!(at, [-70, -64, 0, 64, 70]);
        let stations = [station(0, 0), station(100, 10), station(150, 20)];
        let edge = Curve::through(&stations).expect("an edge");
        for none in [None, Some(Length::ZERO), Some(Length::from_64ths(-50))] {
            assert_eq!(edge.table(none).collect::<Vec<_>>(), stations);
        }
    }

    #[test]
    fn a_cubic_strays_as_far_as_its_second_derivative_says() {
        // y = x³, whose second derivative is 6 x: between two places it strays by an eighth of their distance squared times the greater of it.
        let piece = |from: f64, to: f64| Piece {
            from: (from, from * from * from),
            to: (to, to * to * to),
            slopes: (3.0 * from * from, 3.0 * to * to),
        };
        for (whole, from, to, stray) in [
            ((1.0, 3.0), 1.0, 3.0, 9.0),
            ((1.0, 3.0), 1.0, 2.0, 1.5),
            ((1.0, 3.0), 2.0, 3.0, 2.25),
            ((-3.0, -1.0), -3.0, -1.0, 9.0),
            ((-3.0, -1.0), -2.0, -1.0, 1.5),
            ((-2.0, 2.0), -2.0, 0.0, 6.0),
            ((-2.0, 2.0), 0.0, 1.0, 0.75),
        ] {
            assert_eq!(piece(whole.0, whole.1).stray(from, to), stray, "{whole:?} {from} {to}");
        }
        let straight = Piece { from: (1.0, 5.0), to: (9.0, 9.0), slopes: (0.5, 0.5) };
        assert_eq!(straight.stray(2.0, 7.0), 0.0);
    }
}
