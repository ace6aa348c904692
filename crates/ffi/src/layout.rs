//! Where holes may stand: edge distance, pitch, distance between rows.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::installation::Installation;
use shophead::layout::{Edge, Point, RowLayout, closest_sorted};

use crate::border::{In, Out, answer, shophead_room};
use crate::error::shophead_error;
use crate::finding::{Sink, put_findings, shophead_finding, shophead_span};
use crate::length::{SHOPHEAD_NONE, length, optional};
use crate::part::{rows, shophead_part};
use crate::practice::shophead_practice;

/// The distances of a row; `SHOPHEAD_NONE` for one that is not known and so not checked.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_row {
    /// From the row to the nearest edge of any layer.
    pub edge_nm: i64,
    /// From hole to hole.
    pub pitch_nm: i64,
    /// To the neighbouring row.
    pub transverse_pitch_nm: i64,
}

/// Checks a row's distances against a practice.
///
/// Takes: `row`; `part`, whose length does not matter; `rows` of the pattern, 1 to 255; `practice`; structures are the caller's. Writes:
/// `findings`, an array of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices); `span`, which of them.
///
/// Errors: those of a part and of a practice, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_row_check(
    row: In<shophead_row>,
    part: In<shophead_part>,
    rows: u32,
    practice: In<shophead_practice>,
    findings: Out<shophead_finding>,
    capacity: usize,
    span: Out<shophead_span>,
) -> shophead_error {
    answer(|| {
        let row = row.one()?;
        let layout = RowLayout::default()
            .edge(optional(row.edge_nm)?)
            .pitch(optional(row.pitch_nm)?)
            .transverse_pitch(optional(row.transverse_pitch_nm)?);
        let question =
            Installation::without_layers(part.one()?.read()?).layout(layout).rows(u16::from(self::rows(rows)?));
        practice.one()?.with(|practice| {
            put_findings(&question.by(practice).findings(), practice.documents(), findings, capacity, span)
        })
    })
}

/// A place on the panel, in nanometres.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_point {
    /// Along the panel.
    pub x_nm: i64,
    /// Across it.
    pub y_nm: i64,
}

impl shophead_point {
    pub(crate) fn read(&self) -> Result<Point, shophead_error> {
        Ok(Point { x: length(self.x_nm)?, y: length(self.y_nm)? })
    }

    pub(crate) fn of(point: Option<Point>) -> shophead_point {
        match point {
            Some(point) => shophead_point { x_nm: point.x.nanometres(), y_nm: point.y.nanometres() },
            None => shophead_point { x_nm: SHOPHEAD_NONE, y_nm: SHOPHEAD_NONE },
        }
    }
}

/// A straight edge of a sheet.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_edge {
    /// One end.
    pub from: shophead_point,
    /// The other.
    pub to: shophead_point,
}

/// What a pattern of points comes to.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_pattern {
    /// The two points that stand closest, by their place in the array, counted from 0. 0 both with fewer than two points.
    pub closest_pair: [usize; 2],
    /// How close; `SHOPHEAD_NONE` with fewer than two points.
    pub pitch_nm: i64,
    /// The point that stands closest to an edge, by its place in the array. 0 without points or edges.
    pub closest_to_edge: usize,
    /// How close; `SHOPHEAD_NONE` without points or edges.
    pub edge_nm: i64,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

const _: () = assert!(size_of::<Edge>() <= size_of::<shophead_room>());
const _: () = assert!(size_of::<Point>() + size_of::<u32>() <= size_of::<shophead_room>());

/// Checks a pattern of points against a practice: the closest pair against the least pitch, the point closest to an edge against the
/// least edge distance.
///
/// Takes: `points`, an array of `point_count`; `edges`, an array of `edge_count`; NULL where there are none; `part`, whose length does not
/// matter; `rows` of the pattern, 1 to 255; `practice`; all the caller's. `room`, an array of `room_count`, is the caller's to work in:
/// one for each point and each edge suffice; what stands in it before and after does not matter. Writes: `pattern`; `findings`, an array
/// of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: as `shophead_row_check`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_points_check(
    points: In<shophead_point>,
    point_count: usize,
    edges: In<shophead_edge>,
    edge_count: usize,
    part: In<shophead_part>,
    rows: u32,
    practice: In<shophead_practice>,
    room: Out<shophead_room>,
    room_count: usize,
    pattern: Out<shophead_pattern>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = pattern.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        let (points, edges) = (points.list(point_count)?, edges.list(edge_count)?);
        let question = Installation::without_layers(part.one()?.read()?).rows(u16::from(self::rows(rows)?));
        let mut room = room.room(room_count)?;
        let edges = room.lay(edges.iter().map(|edge| Ok(Edge { from: edge.from.read()?, to: edge.to.read()? })))?;
        let points = room.lay(points.iter().map(shophead_point::read))?;
        let order = room.lay(points.iter().map(|_| Ok(0_u32)))?;
        practice.one()?.with(|practice| {
            let closest = closest_sorted(points, order, edges);
            let layout = RowLayout::default()
                .edge(closest.to_edge.map(|(_, edge)| edge))
                .pitch(closest.pair.map(|(_, _, pitch)| pitch));
            let found = question.by(practice).layout(layout).findings();
            sink.need([&found])?;
            place.put(shophead_pattern {
                closest_pair: closest.pair.map_or([0, 0], |(first, second, _)| [first, second]),
                pitch_nm: closest.pair.map_or(SHOPHEAD_NONE, |(_, _, pitch)| pitch.nanometres()),
                closest_to_edge: closest.to_edge.map_or(0, |(index, _)| index),
                edge_nm: closest.to_edge.map_or(SHOPHEAD_NONE, |(_, edge)| edge.nanometres()),
                findings: sink.put(&found, practice.documents()),
            });
            Ok(())
        })
    })
}
