//! Where the holes of a row are.

use shophead::layout::Point;

use super::cursor::Value;
use super::holes::length;
use super::keys::POINTS_FILE;
use super::sheet::records;
use super::source::Source;
use super::{Folder, MAX_COUNT};

/// A list of points, or the file that has them.
pub(super) fn points(value: &Value<'_>, folder: &Folder<'_>) -> Option<Vec<Point>> {
    let points = if value.is_text() {
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

fn point(value: &Value<'_>) -> Option<Point> {
    let both = value.list("a coordinate")?;
    let [x, y] = both.as_slice() else {
        value.mistake(format!("a point has two coordinates, not {}", both.len()), "right would be [\"1\", \"1/2\"]");
        return None;
    };
    let (x, y) = (x.length(), y.length());
    Some(Point { x: x?, y: y? })
}

fn from_file(source: &Source<'_>) -> Option<Vec<Point>> {
    let mut points = Vec::new();
    for record in records(source, &POINTS_FILE, POINTS_FILE.names)? {
        let coordinate = |column: usize, name: &str| match record.filled(column) {
            Some(cell) => length(source, cell, name),
            None => {
                source.mistake(
                    record.span.clone(),
                    format!("this line has no {name}"),
                    "fill the cell or delete the line",
                );
                None
            }
        };
        let (x, y) = (coordinate(0, "x"), coordinate(1, "y"));
        points.extend(x.zip(y).map(|(x, y)| Point { x, y }));
    }
    Some(points)
}
