//! Where the holes of a row are.

use shophead::layout::Point;
use shophead::length::Length;
use shophead::rivet::{Series, Size};

use super::cursor::{Divided, Value};
use super::holes::length;
use super::keys::{GROUP_FILE, Keys, POINTS_FILE};
use super::sheet::{Record, records};
use super::source::Source;
use super::{Folder, MAX_COUNT};

/// A list of points, or the file that has them.
pub(super) fn points(value: &Value<'_>, folder: &Folder<'_>) -> Option<Vec<Point>> {
    // A cell has room for both: the name of a file ends in letters behind a point, a coordinate never does.
    let ends_in_letters =
        |cell: &str| cell.rsplit_once('.').is_some_and(|(_, end)| end.chars().all(|c| c.is_ascii_alphabetic()));
    let points = if value.cell().is_some_and(|cell| !ends_in_letters(cell)) {
        let list = value.list_in("a point", Divided::Semicolons)?;
        let points: Vec<Option<Point>> = list.iter().map(point).collect();
        points.into_iter().collect::<Option<Vec<Point>>>()?
    } else if value.is_text() {
        let source = folder.open(value)?;
        from_file(&source)?
    } else if value.is_list() {
        let list = value.list("a point")?;
        let points: Vec<Option<Point>> = list.iter().map(point).collect();
        points.into_iter().collect::<Option<Vec<Point>>>()?
    } else {
        value.mistake(
            "points is neither a list nor a file",
            "right would be [[\"1\", \"0\"], [\"2\", \"0\"]] or \"points.csv\"",
        );
        return None;
    };
    if points.is_empty() || u32::try_from(points.len()).map_or(true, |count| count > MAX_COUNT) {
        value.mistake(format!("these are {} points", points.len()), format!("right would be 1 to {MAX_COUNT}"));
        return None;
    }
    Some(points)
}

pub(super) fn point(value: &Value<'_>) -> Option<Point> {
    let both = value.list_in("a coordinate", Divided::Blanks)?;
    let [x, y] = both.as_slice() else {
        value.mistake(format!("a point has two coordinates, not {}", both.len()), "right would be [\"1\", \"1/2\"]");
        return None;
    };
    let (x, y) = (x.length(), y.length());
    Some(Point { x: x?, y: y? })
}

fn from_file(source: &Source<'_>) -> Option<Vec<Point>> {
    let pairs = pairs(source, &POINTS_FILE)?;
    Some(pairs.into_iter().map(|(x, y)| Point { x, y }).collect())
}

/// Two lengths a line, from the two columns of a file.
pub(super) fn pairs(source: &Source<'_>, keys: &Keys) -> Option<Vec<(Length, Length)>> {
    let [first, second] = keys.names else { return None };
    let records = records(source, keys, keys.names)?;
    Some(records.iter().filter_map(|record| pair(source, record, first, second)).collect())
}

/// The two lengths of a line, whose columns come first.
fn pair(source: &Source<'_>, record: &Record, first: &str, second: &str) -> Option<(Length, Length)> {
    let coordinate = |column: usize, name: &str| match record.filled(column) {
        Some(cell) => length(source, cell, name),
        None => {
            let message = format!("this line has no {name}");
            source.mistake(record.span.clone(), message, "fill the cell or delete the line");
            None
        }
    };
    let (one, other) = (coordinate(0, first), coordinate(1, second));
    one.zip(other)
}

/// A rivet of a group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroupPoint {
    /// Its source.
    pub at: Point,
    /// Its size, where the file gives a diameter.
    pub size: Option<&'static Size>,
    /// Its hole as measured.
    pub hole: Option<Length>,
    /// To the nearest edge on any side.
    pub edge: Option<Length>,
    /// To the edges on the left, on the right, below and above; where one is empty, `edge` counts.
    pub sides: [Option<Length>; 4],
}

/// Its columns.
pub(super) const GROUP_COLUMNS: [&str; 9] = ["x", "y", "diameter", "hole", "edge", "left", "right", "below", "above"];

/// A hole or a distance to an edge, where the cell is filled.
fn above_nothing(source: &Source<'_>, record: &Record, column: usize) -> Option<Length> {
    let name = GROUP_COLUMNS.get(column).copied().unwrap_or_default();
    let cell = record.filled(column)?;
    let length = length(source, cell, name)?;
    if length <= Length::ZERO {
        source.mistake(cell.span.clone(), format!("{name} must be above zero"), "right would be .25");
        return None;
    }
    Some(length)
}

/// The rivets of a group; diameters are sizes of the series.
pub(super) fn group(source: &Source<'_>, series: &'static Series<'static>) -> Option<Vec<GroupPoint>> {
    let records = records(source, &GROUP_FILE, &["x", "y"])?;
    let mut points = Vec::with_capacity(records.len());
    for record in &records {
        let at = pair(source, record, "x", "y").map(|(x, y)| Point { x, y });
        let size = record.filled(2).map(|cell| {
            let diameter = length(source, cell, "diameter")?;
            let size = series.size_for_diameter(diameter);
            if size.is_none() {
                let known: Vec<String> =
                    series.sizes.iter().map(|size| size.shank_nominal.to_64ths().to_string()).collect();
                let message = format!("{} does not come in this diameter", series.name);
                source.mistake(cell.span.clone(), message, format!("right would be one of {}", known.join(", ")));
            }
            size
        });
        // A cell that was filled and could not be read is a mistake already.
        if let (Some(at), None | Some(Some(_))) = (at, size) {
            let [hole, edge, sides @ ..] = [3, 4, 5, 6, 7, 8].map(|column| above_nothing(source, record, column));
            points.push(GroupPoint { at, size: size.flatten(), hole, edge, sides });
        }
    }
    if records.is_empty() && !source.mistakes.is_full() {
        source.mistake(0..0, "there is no point in this file", "right would be one line for each rivet");
    }
    if u32::try_from(points.len()).map_or(true, |count| count > MAX_COUNT) {
        source.mistake(0..0, format!("these are {} points", points.len()), format!("right would be 1 to {MAX_COUNT}"));
    }
    Some(points)
}
