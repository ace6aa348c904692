//! The panel round its rows: edges, damage, places to look at, minutes.

use std::collections::HashMap;

use shophead::access::{Minutes, Rates};
use shophead::damage::Damaged;
use shophead::trim::{BaseLine, Curve, Station};

use super::cursor::{Table, Value};
use super::holes::RowKey;
use super::job::{Names, about};
use super::keys::TRIM_FILE;
use super::points::{pairs, point, points};
use super::source::{nearest_or_all, quoted};
use super::{Folder, MAX_COUNT, MAX_MARKS, keys};
use crate::model::{DamageFound, EdgeShape, Look, PanelEdge, Position, ShopMinutes};

/// The minutes per operation. A limits file knows no positions.
pub(super) fn minutes(table: &Table<'_>, positions: Option<&[Position]>) -> Option<ShopMinutes> {
    let Some(value) = table.optional("minutes") else { return Some(ShopMinutes::default()) };
    let table = value.table("the minutes".into(), &keys::MINUTES)?;
    let rate = |key: &'static str| table.optional(key).map_or(Some(None), |value| minutes_of(&value).map(Some));
    let (drill_out, drive_open, drive_close) = (rate("drill-out"), rate("drive-open"), rate("drive-close"));
    let (set_up, set_up_of) = match table.optional("set-up") {
        None => (None, Vec::new()),
        Some(value) if !value.is_table() => (Some(minutes_of(&value)?), Vec::new()),
        Some(value) => (None, set_up_of(&value, positions)?),
    };
    let rates = Rates::default().drill_out(drill_out?).drive_open(drive_open?).drive_close(drive_close?);
    Some(ShopMinutes { set_up, set_up_of, rates })
}

fn set_up_of(value: &Value<'_>, positions: Option<&[Position]>) -> Option<Vec<(String, Minutes)>> {
    let Some(positions) = positions else {
        value.mistake("a limits file knows no positions", "right would be one number for all of them, such as 30");
        return None;
    };
    let mut read = Vec::new();
    for (key, value) in value.entries("{ upright = 30 }, or one number for every position")? {
        if !positions.iter().any(|position| position.name == value.name) {
            let help = nearest_or_all(&value.name, positions.iter().map(|position| position.name.as_str()));
            value.source.mistake(key, format!("the job has no position {}", quoted(&value.name)), help);
            continue;
        }
        let minutes = minutes_of(&value);
        read.push(minutes.map(|minutes| (value.name, minutes)));
    }
    read.into_iter().collect()
}

fn minutes_of(value: &Value<'_>) -> Option<Minutes> {
    let written = value.written()?;
    Minutes::parse(written.trim()).map_err(|error| value.source.refused(value.span.clone(), &value.name, &error)).ok()
}

/// Every table of a list; all are read before the first bad one ends the list, so that every mistake is told.
fn each<T>(table: &Table<'_>, key: &'static str, mut read: impl FnMut(&Value<'_>) -> Option<T>) -> Option<Vec<T>> {
    let Some(value) = table.optional(key) else { return Some(Vec::new()) };
    let read: Vec<Option<T>> = value.list(key)?.iter().map(&mut read).collect();
    read.into_iter().collect()
}

pub(super) fn edges(table: &Table<'_>, rows: &[RowKey], folder: &Folder<'_>) -> Option<Vec<PanelEdge>> {
    let by_name = by_name(rows);
    let mut names = Names::default();
    each(table, "edge", |value| {
        let mut table = value.table("this edge".into(), &keys::EDGE)?;
        let name = names.own(&table);
        if let Some(name) = &name {
            table.subject = format!("edge {name}");
        }
        let about = about(&table);
        let shape = shape(&table, folder);
        if let (Some(value), Some(EdgeShape::Corners(_))) = (table.optional("line"), &shape) {
            value
                .mistake("an edge of points has no line that it is measured along", "leave line out, or give stations");
            return None;
        }
        let every = table.optional("every").map_or(Some(None), |value| value.distance().map(Some));
        if let (Some(value), Some(EdgeShape::Corners(_))) = (table.optional("every"), &shape) {
            value.mistake("an edge of points is marked out from its points", "leave every out, or give stations");
            return None;
        }
        if let (Some(value), Some(Some(every)), Some(EdgeShape::Stations(stations, _))) =
            (table.optional("every"), every, &shape)
            && let (Some(first), Some(last)) = (stations.first(), stations.last())
        {
            let marks = last.at.nanometres().abs_diff(first.at.nanometres()) / every.nanometres().unsigned_abs().max(1);
            if marks > u64::from(MAX_MARKS) {
                value.mistake(format!("that makes {marks} marks"), format!("right would be at most {MAX_MARKS}"));
                return None;
            }
        }
        let rows = table.optional("rows").map_or(Some(None), |value| {
            let found: Vec<Option<usize>> =
                value.list("a row")?.iter().map(|value| row(value, rows, &by_name)).collect();
            found.into_iter().collect::<Option<Vec<usize>>>().map(Some)
        });
        Some(PanelEdge { name: name?, about: about?, shape: shape?, every: every?, rows: rows? })
    })
}

fn shape(table: &Table<'_>, folder: &Folder<'_>) -> Option<EdgeShape> {
    match (table.optional("points"), table.optional("stations")) {
        (Some(value), None) => {
            let corners = points(&value, folder)?;
            if corners.len() < 2 {
                value.mistake("an edge has at least two points", "right would be one at each end");
                return None;
            }
            Some(EdgeShape::Corners(corners))
        }
        (None, Some(value)) => {
            let stations: Vec<Station> = if value.is_text() {
                let source = folder.open(&value)?;
                pairs(&source, &TRIM_FILE)?.into_iter().map(|(at, offset)| Station { at, offset }).collect()
            } else {
                let read: Vec<_> = value.list("a station")?.iter().map(point).collect();
                let read = read.into_iter().collect::<Option<Vec<_>>>()?;
                read.into_iter().map(|point| Station { at: point.x, offset: point.y }).collect()
            };
            let refused =
                |error: shophead::trim::TrimError| value.source.refused(value.span.clone(), "stations", &error);
            Curve::through(&stations).map_err(refused).ok()?;
            let line = match table.optional("line") {
                Some(value) => Some(base_line(&value)?),
                None => None,
            };
            Some(EdgeShape::Stations(stations, line))
        }
        (Some(value), Some(_)) => {
            value.mistake(format!("{} has points and stations", table.subject), "leave one of both out");
            None
        }
        (None, None) => {
            let help = "right would be stations = \"trim.csv\", or points";
            let message = format!("{} has neither points nor stations", table.subject);
            table.source.mistake(table.span.clone(), message, help);
            None
        }
    }
}

/// The line that stations are measured along, by two points.
fn base_line(value: &Value<'_>) -> Option<BaseLine> {
    let points: Vec<_> = value.list("a point")?.iter().map(point).collect();
    let points = points.into_iter().collect::<Option<Vec<_>>>()?;
    let [from, to] = points.as_slice() else {
        let help = "right would be [[\"0\", \"0\"], [\"12\", \"3\"]]";
        value.mistake(format!("a line has two points, here are {}", points.len()), help);
        return None;
    };
    BaseLine::through(*from, *to).map_err(|error| value.source.refused(value.span.clone(), "line", &error)).ok()
}

fn by_name(rows: &[RowKey]) -> HashMap<&str, usize> {
    rows.iter().enumerate().rev().map(|(index, row)| (row.name.as_str(), index)).collect()
}

/// A row by its name.
fn row(value: &Value<'_>, rows: &[RowKey], by_name: &HashMap<&str, usize>) -> Option<usize> {
    let name = value.filled_text()?;
    let found = by_name.get(name).copied();
    if found.is_none() {
        let help = nearest_or_all(name, rows.iter().map(|row| row.name.as_str()));
        value.mistake(format!("the job has no row {}", quoted(name)), help);
    }
    found
}

pub(super) fn damage(table: &Table<'_>, rows: &[RowKey]) -> Option<Vec<DamageFound>> {
    let by_name = by_name(rows);
    each(table, "damage", |value| {
        let table = value.table("this damage".into(), &keys::DAMAGE)?;
        let kind = table.required("kind").and_then(|value| value.listed());
        let place = table.required("place").and_then(|value| value.filled_text());
        let row = table.optional("row").map_or(Some(None), |value| row(&value, rows, &by_name).map(Some));
        let hole = match (table.optional("hole"), row) {
            (None, _) => Some(None),
            (Some(value), Some(None)) => {
                value.mistake("a hole needs its row", "right would be row = \"K1\" beside it");
                None
            }
            (Some(value), row) => {
                let count = row.flatten().and_then(|row| rows.get(row)?.count).unwrap_or(MAX_COUNT);
                value.whole(1..=count).map(Some)
            }
        };
        let at = table.optional("at").map_or(Some(None), |value| point(&value).map(Some));
        let member = table.optional("member").map_or(Some(None), |value| value.listed().map(Some));
        let measure = |key: &'static str| table.optional(key).map_or(Some(None), |value| value.distance().map(Some));
        let (length, depth, thickness) = (measure("length"), measure("depth"), measure("thickness"));
        let found = Damaged::new(kind?).length(length?).depth(depth?).thickness(thickness?);
        Some(DamageFound { place: place?.to_owned(), row: row?, hole: hole?, at: at?, member: member?, found })
    })
}

pub(super) fn looks(table: &Table<'_>) -> Option<Vec<Look>> {
    each(table, "look", |value| {
        let table = value.table("this place to look at".into(), &keys::LOOK)?;
        let place = table.required("place").and_then(|value| value.filled_text());
        let why = table.required("why").and_then(|value| value.filled_text());
        let found = table.optional("found").map_or(Some(None), |value| value.filled_text().map(Some));
        Some(Look { place: place?.to_owned(), why: why?.to_owned(), found: found?.map(str::to_owned) })
    })
}
