//! A row of rivets.

use std::collections::{BTreeMap, HashMap};

use shophead::access::Clearance;
use shophead::drill::Drill;
use shophead::hole::{AsFound, Damage};
use shophead::layout::{Point, RowLayout, in_line};
use shophead::length::Length;
use shophead::material::{Material, ParseMaterialError};
use shophead::rivet::Head;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, MAX_LAYERS, Preparation, Stack, StackError};
use shophead::structure::{Member, Place, Structure};

use super::cursor::{Divided, Table, Value};
use super::holes::{SaidHoles, measured_twice};
use super::job::{Names, about};
use super::layer::read_layer;
use super::points::{point, points};
use super::source::{Said, nearest, nearest_or_all, one_of, quoted};
use super::{Folder, MAX_COUNT, keys};
use crate::model::{Exception, Line, MeasuredHole, Position, Row, Taken};

/// Names for materials; `None` for one whose material could not be read.
pub(super) type Materials = BTreeMap<String, Option<Material>>;

/// What a row refers to.
pub(super) struct Around<'a> {
    pub(super) materials: &'a Materials,
    /// Materials of the shop's own, from its limits.
    pub(super) own: &'a [Material],
    /// `None` when they could not be read.
    pub(super) positions: Option<&'a [Position]>,
    pub(super) folder: &'a Folder<'a>,
}

/// A row as far as it could be read.
pub(super) struct RowDraft {
    /// Its name; empty when it has none of its own.
    pub(super) name: String,
    pub(super) count: Option<u32>,
    /// `None` when anything in it is wrong.
    pub(super) row: Option<Row>,
}

/// The words for the heads.
const HEADS: [(&str, Head); 3] =
    [("universal", Head::Universal), ("flush", Head::Flush), ("reduced-flush", Head::ReducedFlush)];

pub(super) fn row(
    value: &Value<'_>,
    index: usize,
    names: &mut Names,
    around: &Around<'_>,
    said: &mut SaidHoles,
) -> RowDraft {
    let Some(table) = value.table("this row".into(), &keys::ROW) else {
        return RowDraft { name: String::new(), count: None, row: None };
    };
    let exceptions = match table.optional("exception") {
        Some(value) => value.list("exception").map(|list| {
            list.iter().map(|value| value.table("this exception".into(), &keys::EXCEPTION)).collect::<Vec<_>>()
        }),
        None => Some(Vec::new()),
    };
    row_of(table, exceptions, index, names, around, said)
}

/// A row and its exceptions as far as they are tables, in a job file or in a rows file.
pub(super) fn row_of(
    mut table: Table<'_>,
    exceptions: Option<Vec<Option<Table<'_>>>>,
    index: usize,
    names: &mut Names,
    around: &Around<'_>,
    said: &mut SaidHoles,
) -> RowDraft {
    let name = names.own(&table);
    let shown = name.clone().unwrap_or_default();
    if name.is_some() {
        table.subject = format!("row {shown}");
    }
    let about = about(&table);
    let structure: Option<Structure> = table.required("structure").and_then(|value| value.listed());
    let member: Option<Member> = table.required("member").and_then(|value| value.listed());
    let places = places(&table);
    let installed = table.required("installed").and_then(|value| part(&value));
    let rivet = match table.optional("rivet") {
        Some(value) => family(&value),
        None => installed.map(|installed| installed.without_length()),
    };
    let head_agrees = head(&table, rivet);
    let stack = table.required("layers").and_then(|value| stack(&value, rivet, around));
    let installed_stack = match table.optional("installed-layers") {
        Some(value) => self::stack(&value, installed, around).map(Some),
        None => Some(None),
    };
    let points = match table.optional("points") {
        Some(value) => points(&value, around.folder).map(Some),
        None => Some(None),
    };
    let count = count(&table, points.as_ref());
    let layout = layout(&table);
    let line = line(&table, layout, count);
    let pattern = table.optional("pattern").map_or(Some(None), |value| value.filled_text().map(Some));
    let rows_in_pattern = table.optional("rows-in-pattern").map_or(Some(1), |value| value.whole(1..=u8::MAX.into()));
    let clearance = clearance(&table, around);
    let hole = table.optional("hole-size").map_or(Some(None), |value| value.toleranced().map(Some));
    let measured = match table.optional("hole") {
        Some(value) => measured(&value, index, &table.subject, count, said),
        None => Some(Vec::new()),
    };
    let exceptions = exceptions.and_then(|tables| read_exceptions(&tables, count, rivet, stack.as_ref(), around));
    let row = || {
        head_agrees?;
        Some(Row {
            name: name?,
            about: about?,
            structure: structure?,
            member: member?,
            places: places?,
            installed: installed?,
            rivet: rivet?,
            stack: stack?,
            installed_stack: installed_stack?,
            count: count?,
            points: points?,
            line: line?,
            pattern: pattern?.map(str::to_owned),
            rows_in_pattern: u8::try_from(rows_in_pattern?).ok()?,
            layout: layout?,
            hole: hole?,
            measured: measured?,
            exceptions: exceptions?,
            clearance: clearance?,
        })
    };
    RowDraft { name: shown, count, row: row() }
}

fn places(table: &Table<'_>) -> Option<Vec<Place>> {
    let Some(value) = table.optional("places") else { return Some(Vec::new()) };
    let places: Vec<Option<Place>> =
        value.list_in("a place", Divided::Blanks)?.iter().map(|value| value.listed()).collect();
    places.into_iter().collect()
}

fn part(value: &Value<'_>) -> Option<Part<'static>> {
    let text = value.text()?;
    let refused = |error: shophead::rivet::part::ParsePartError<'_>| {
        value.source.refused(value.character(error.at), &value.name, &error);
    };
    Part::parse(text).map_err(refused).ok()
}

/// A part number without length.
fn family(value: &Value<'_>) -> Option<Part<'static>> {
    let part = part(value)?;
    if part.length().is_some() {
        let help = format!("right would be \"{}\"", part.without_length());
        value.mistake("rivet has a length, but the plan chooses lengths", help);
        return None;
    }
    Some(part)
}

/// Checks the word for the head against the rivet that goes in.
fn head(table: &Table<'_>, rivet: Option<Part<'_>>) -> Option<()> {
    let Some(value) = table.optional("head") else { return Some(()) };
    let written = value.word(HEADS.iter().copied())?;
    let own = rivet?.series().head;
    if written != own {
        let word = HEADS.iter().find(|(_, head)| *head == own).map_or("", |(word, _)| *word);
        let rivet = rivet.map(|rivet| rivet.series().name).unwrap_or_default();
        value.mistake(format!("the head of {rivet} is {word}"), format!("right would be \"{word}\", or another rivet"));
        return None;
    }
    Some(())
}

fn count(table: &Table<'_>, points: Option<&Option<Vec<Point>>>) -> Option<u32> {
    let has_points = table.optional("points").is_some();
    match (table.optional("count"), has_points) {
        (Some(value), false) => value.whole(1..=MAX_COUNT),
        (None, true) => points?.as_ref().and_then(|points| u32::try_from(points.len()).ok()),
        (Some(value), true) => {
            let help = "leave one of both out: every point is a hole";
            value.mistake(format!("{} has count and points", table.subject), help);
            None
        }
        (None, false) => {
            let help = "right would be count = 48, or points";
            table.source.mistake(table.span.clone(), format!("{} has neither count nor points", table.subject), help);
            None
        }
    }
}

/// A straight row by its first hole, direction and pitch.
fn line(table: &Table<'_>, layout: Option<RowLayout>, count: Option<u32>) -> Option<Option<Line>> {
    let (start, along) = (table.optional("start"), table.optional("along"));
    let (Some(start), Some(along)) = (&start, &along) else {
        if let Some(lone) = start.or(along) {
            let help = "right would be start = [\"1\", \"0\"] and along = [\"1\", \"0\"]";
            lone.mistake("start and along go together", help);
            return None;
        }
        return Some(None);
    };
    let line = Line { start: point(start)?, along: point(along)? };
    if table.optional("points").is_some() {
        start.mistake(format!("{} has points and start", table.subject), "leave one of both out: points say it all");
        return None;
    }
    if line.along == Point::default() {
        along.mistake("along is zero and gives no direction", "right would be [\"1\", \"0\"]");
        return None;
    }
    let Some(pitch) = layout?.pitch else {
        start.mistake(format!("{} has a start but no pitch", table.subject), "right would be pitch = \"3/4\"");
        return None;
    };
    let last = count.unwrap_or(1).saturating_sub(1);
    if in_line(line.start, line.along, pitch, last).is_none() {
        start.mistake("the last hole lies more than a kilometre away", "right would be a shorter pitch or fewer holes");
        return None;
    }
    Some(Some(line))
}

fn layout(table: &Table<'_>) -> Option<RowLayout> {
    let distance = |key: &'static str| table.optional(key).map_or(Some(None), |value| value.distance().map(Some));
    let (edge, pitch, transverse) = (distance("edge"), distance("pitch"), distance("transverse-pitch"));
    Some(RowLayout::default().edge(edge?).pitch(pitch?).transverse_pitch(transverse?))
}

fn stack(value: &Value<'_>, rivet: Option<Part<'_>>, around: &Around<'_>) -> Option<Stack> {
    let list = value.list_in("a layer", Divided::Commas)?;
    if list.is_empty() {
        value.mistake("there are no layers", "right would be one for each sheet, that under the head first");
        return None;
    }
    if list.len() > MAX_LAYERS {
        value.source.refused(value.span.clone(), &value.name, &StackError::TooManyLayers);
    }
    let list_name = value.name.clone();
    let mut stack = Stack::new();
    let mut complete = list.len() <= MAX_LAYERS;
    for value in list.iter().take(MAX_LAYERS) {
        let Some(layer) = layer(value, around) else {
            complete = false;
            continue;
        };
        if let Err(error) = stack.push(layer) {
            complete = false;
            value.source.refused(value.span.clone(), &list_name, &error);
        }
    }
    if !complete {
        return None;
    }
    takes_head(value, &stack, rivet?.series().head).then_some(stack)
}

fn is_sunk(layer: &Layer) -> bool {
    layer.preparation != Preparation::Plain
}

/// Whether the layers take this head: a flush one needs its cone, a protruding one must have none.
fn takes_head(value: &Value<'_>, stack: &Stack, head: Head) -> bool {
    let sunk = stack.layers().iter().any(is_sunk);
    if head.is_flush() && !sunk {
        let help = "the layer that takes the head needs preparation = \"countersunk\" or \"dimpled\"";
        value.mistake("the head is flush, but no layer is countersunk or dimpled", help);
    } else if !head.is_flush() && sunk {
        let help = "leave the preparation out, or take a rivet with a flush head";
        value.mistake("the head is protruding, but a layer is countersunk or dimpled", help);
    }
    head.is_flush() == sunk
}

fn layer(value: &Value<'_>, around: &Around<'_>) -> Option<Layer> {
    if let Some(text) = value.cell() {
        return layer_in_cell(text, value, around);
    }
    let table = value.table("this layer".into(), &keys::LAYER)?;
    let role = table.required("role").and_then(|value| value.listed());
    let material = table.optional("material").map_or(Some(None), |value| material(&value, around).map(Some));
    let thickness = table.required("thickness").and_then(|value| value.thickness());
    let preparation = table.optional("preparation").map_or(Some(Preparation::Plain), |value| value.listed());
    Some(Layer::of(thickness?).role(role?).material(material?).preparation(preparation?))
}

/// `clad 2024-T3:.063+-.002:countersunk`, with the job's own names for materials.
fn layer_in_cell(text: &str, value: &Value<'_>, around: &Around<'_>) -> Option<Layer> {
    if text.is_empty() {
        value.mistake("a layer is missing", "right would be .032,.040 or 2024-T3:.032,clad 2024-T3:.125");
        return None;
    }
    let material = |text: &str| match around.materials.get(text) {
        // What is wrong with it was told where it is named.
        Some(named) => named.ok_or_else(|| "this material could not be read".to_owned()),
        None => read_material(text, around.own).map_err(|error| {
            match nearest(text, around.materials.keys().map(String::as_str)).as_slice() {
                [] => error.to_string(),
                near => format!(
                    "{} is neither named in [materials] nor a material; {}",
                    quoted(text),
                    one_of(near.iter().copied())
                ),
            }
        }),
    };
    let layer = read_layer(text, value.source.bare.get(), &material).and_then(|layer| {
        let is_something = layer.thickness.min() > Length::ZERO;
        is_something.then_some(layer).ok_or_else(|| {
            "the thickness must be above zero, also at the lower end of its tolerance; right would be .032+-.002".into()
        })
    });
    layer.map_err(|told| value.source.refused(value.span.clone(), &quoted(text), &told)).ok()
}

/// A material by the job's own name for it, or as it is.
fn material(value: &Value<'_>, around: &Around<'_>) -> Option<Material> {
    let text = value.text()?;
    if let Some(named) = around.materials.get(text) {
        return *named;
    }
    let refused = |error: ParseMaterialError| {
        let near = nearest(text, around.materials.keys().map(String::as_str));
        if near.is_empty() {
            value.source.refused(value.span.clone(), &quoted(text), &error);
        } else {
            let message = format!("{} is neither named in [materials] nor a material", quoted(text));
            value.mistake(message, one_of(near.into_iter()));
        }
    };
    read_material(text, around.own).map_err(refused).ok()
}

/// A material that is on file, or one of the shop's own.
pub(super) fn read_material(text: &str, own: &[Material]) -> Result<Material, ParseMaterialError> {
    Material::among(text, own.iter().copied())
}

/// The room in each position, in their order.
fn clearance(table: &Table<'_>, around: &Around<'_>) -> Option<Vec<Clearance>> {
    let value = table.optional("clearance");
    let mut rooms = match &value {
        Some(value) => rooms(value, around)?,
        None => HashMap::new(),
    };
    let span = value.map_or(table.span.clone(), |value| value.span);
    let mut clearance = Vec::new();
    for position in around.positions? {
        let room = rooms.remove(&position.name).unwrap_or_else(|| {
            let message = format!("{} has no clearance in position {}", table.subject, position.name);
            table.source.mistake(span.clone(), message, "right would be \"closed\", \"open\" or a length");
            None
        });
        clearance.push(room);
    }
    clearance.into_iter().collect()
}

/// The room of some holes in each position where it is not as behind their row, in the order of the positions.
fn own_clearance(table: &Table<'_>, around: &Around<'_>) -> Option<Vec<Option<Clearance>>> {
    let Some(value) = table.optional("clearance") else { return Some(Vec::new()) };
    if value.entries(ROOMS)?.is_empty() {
        value.mistake(
            "clearance says nothing",
            "right would be \"closed\", \"open\" or a length in one position at least",
        );
        return None;
    }
    let mut rooms = rooms(&value, around)?;
    // What could not be read was told.
    let of = |position: &Position| rooms.remove(&position.name).map_or(Some(None), |room| room.map(Some));
    around.positions?.iter().map(of).collect()
}

/// How the room in each position is written.
const ROOMS: &str = "{ position = \"1.5\" }, with \"closed\", \"open\" or a length for each position";

/// The rooms that are given, by their positions; `None` for one that could not be read.
fn rooms(value: &Value<'_>, around: &Around<'_>) -> Option<HashMap<String, Option<Clearance>>> {
    let entries = value.entries(ROOMS)?;
    let positions = around.positions?;
    let mut rooms: HashMap<String, Option<Clearance>> = HashMap::with_capacity(entries.len());
    for (key, value) in entries {
        if !positions.iter().any(|position| position.name == value.name) {
            let help = nearest_or_all(&value.name, positions.iter().map(|position| position.name.as_str()));
            value.source.mistake(key, format!("the job has no position {}", quoted(&value.name)), help);
            continue;
        }
        let room = match value.written() {
            Some("closed") => Some(Clearance::Closed),
            Some("open") => Some(Clearance::Open),
            Some(written) if value.is_text() && written.chars().all(|c| c.is_alphabetic()) => {
                let near = nearest(written, ["closed", "open"].into_iter());
                let help = if near.is_empty() {
                    "right would be \"closed\", \"open\" or a length".into()
                } else {
                    one_of(near.into_iter())
                };
                value.mistake(format!("clearance cannot be {}", quoted(written)), help);
                None
            }
            Some(_) => value.distance().map(Clearance::Room),
            None => None,
        };
        rooms.insert(value.name, room);
    }
    Some(rooms)
}

/// The holes that are measured in the job itself.
fn measured(
    value: &Value<'_>,
    row: usize,
    subject: &str,
    count: Option<u32>,
    said: &mut SaidHoles,
) -> Option<Vec<MeasuredHole>> {
    let list = value.list("hole")?;
    let mut holes = Vec::with_capacity(list.len());
    for value in &list {
        holes.push(measured_hole(value, row, subject, count, said));
    }
    holes.into_iter().collect()
}

fn measured_hole(
    value: &Value<'_>,
    row: usize,
    subject: &str,
    count: Option<u32>,
    said: &mut SaidHoles,
) -> Option<MeasuredHole> {
    let table = value.table("this hole".into(), &keys::HOLE)?;
    let number = table.required("number").and_then(|value| {
        let number = value.whole(1..=count.unwrap_or(MAX_COUNT))?;
        let earlier = said.note(row, number, Said::at(value.source, table.span.start), false);
        if let Some(earlier) = &earlier {
            let row = subject.strip_prefix("row ").unwrap_or("this");
            value.mistake(measured_twice(number, row, earlier), "keep one of both");
        }
        earlier.is_none().then_some(number)
    });
    let (major, minor) = (table.required("major"), table.optional("minor"));
    let axes_span = minor.as_ref().or(major.as_ref()).map_or(table.span.clone(), |value| value.span.clone());
    let major = major.and_then(|value| value.width());
    let minor = minor.map_or(Some(None), |value| value.width().map(Some));
    let damage = table.optional("condition").map_or(Some(Damage::None), |value| value.listed());
    let direction = table.optional("direction").map_or(Some(None), |value| value.listed().map(Some));
    let opened = table.optional("opened").map_or(Some(None), |value| {
        Drill::parse(value.text()?)
            .map_err(|error| value.source.refused(value.span.clone(), &value.name, &error))
            .ok()
            .map(Some)
    });
    let text = |key: &'static str| table.optional(key).map_or(Some(""), |value| value.text());
    let (by, gauge, remark) = (text("by"), text("gauge"), text("remark"));
    let date = table.optional("date").map_or(Some(None), |value| {
        let written = value.text()?;
        let date = written.parse().ok();
        if date.is_none() {
            value.mistake(format!("{} is no date", quoted(written)), "right would be \"2026-11-25\"");
        }
        date.map(Some)
    });
    let major: Length = major?;
    let as_found = AsFound::of(major, minor?, damage?);
    let as_found = as_found.map_err(|error| value.source.refused(axes_span, "hole", &error)).ok();
    let opened = opened?;
    Some(MeasuredHole {
        before: None,
        number: number?,
        as_found: as_found?.lying(direction?).opened(opened.is_some()),
        opened,
        remark: remark?.trim().to_owned(),
        taken: Taken { by: by?.trim().to_owned(), date: date?, gauge: gauge?.trim().to_owned() },
    })
}

/// Holes that differ from the others of the row.
fn read_exceptions(
    tables: &[Option<Table<'_>>],
    count: Option<u32>,
    rivet: Option<Part<'_>>,
    row_stack: Option<&Stack>,
    around: &Around<'_>,
) -> Option<Vec<Exception>> {
    let mut taken: HashMap<u32, Said> = HashMap::new();
    let mut exceptions = Vec::with_capacity(tables.len());
    for table in tables {
        let read = |table: &Table<'_>| exception(table, count, rivet, row_stack, around, &mut taken);
        exceptions.push(table.as_ref().and_then(read));
    }
    exceptions.into_iter().collect()
}

fn exception(
    table: &Table<'_>,
    count: Option<u32>,
    rivet: Option<Part<'_>>,
    row_stack: Option<&Stack>,
    around: &Around<'_>,
    taken: &mut HashMap<u32, Said>,
) -> Option<Exception> {
    let holes = table.required("holes").and_then(|value| hole_numbers(&value, count, taken));
    let about = about(table);
    let stack = match table.optional("layers") {
        Some(value) => stack(&value, rivet, around),
        None => row_stack.cloned(),
    };
    let layout = layout(table);
    let clearance = own_clearance(table, around);
    let own = ["layers", "edge", "pitch", "transverse-pitch", "clearance"];
    if !own.iter().any(|key| table.optional(key).is_some()) {
        let help = "right would be layers, edge, pitch, transverse-pitch or clearance of its own";
        table.source.mistake(table.span.clone(), "this exception is the same as its row", help);
    }
    Some(Exception { holes: holes?, about: about?, stack: stack?, layout: layout?, clearance: clearance? })
}

/// Numbers such as 3 and ranges such as "5-8", by rising number; none of them said before.
fn hole_numbers(value: &Value<'_>, count: Option<u32>, taken: &mut HashMap<u32, Said>) -> Option<Vec<u32>> {
    let greatest = count.unwrap_or(MAX_COUNT);
    let list = value.list_in("a hole", Divided::Blanks)?;
    if list.is_empty() {
        value.mistake("there are no holes", "right would be [3, \"5-8\"]");
        return None;
    }
    let mut holes = Vec::new();
    let mut complete = true;
    for value in &list {
        let range = if value.is_text() { range(value, greatest) } else { value.whole(1..=greatest).map(|n| n..=n) };
        let Some(range) = range else {
            complete = false;
            continue;
        };
        let here = Said::at(value.source, value.span.start);
        for number in range {
            if let Some(earlier) = taken.get(&number) {
                complete = false;
                value.mistake(format!("hole {number} is already excepted, at {earlier}"), "keep one of both");
                // One hole of a range is enough to find the overlap.
                break;
            }
            taken.insert(number, here.clone());
            holes.push(number);
        }
        if value.source.mistakes.is_full() {
            return None;
        }
    }
    holes.sort_unstable();
    complete.then_some(holes)
}

/// `"5-8"` or `"5"`.
fn range(value: &Value<'_>, greatest: u32) -> Option<std::ops::RangeInclusive<u32>> {
    let written = value.text()?;
    // What an office program makes of a hyphen does as well.
    let (from, to) = written.split_once(['-', '\u{2013}']).unwrap_or((written, written));
    let number = |text: &str| text.trim().parse().ok().filter(|number| (1..=greatest).contains(number));
    let range = number(from).zip(number(to)).filter(|(from, to)| from <= to);
    if range.is_none() {
        let help = format!("right would be a number from 1 to {greatest}, or a range such as \"5-8\"");
        value.mistake(format!("a hole cannot be {}", quoted(written)), help);
    }
    range.map(|(from, to)| from..=to)
}
