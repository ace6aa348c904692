//! A job: its own keys, then its positions, rows and holes.

use std::collections::HashMap;

use shophead::length::Bare;
use shophead::material::Material;
use shophead::practice::{BUILT_IN, Practice};

use super::answers::{self, Known};
use super::cursor::{Table, Value, root};
use super::holes::{self, RowKey, SaidHoles};
use super::row::{Around, Materials, RowDraft, read_material, row};
use super::source::{Said, Source};
use super::{Folder, MAX_SPARES_PERCENT, is_unseen, keys, limits, panel, quoted, rows_file};
use crate::model::{Axes, Axis, Job, NamedFile, OwnLimits, Position, Row};

/// Reads a job. `others` are limits that stand beside its own: their materials may be named, too.
pub(super) fn job(source: &Source<'_>, folder: &Folder<'_>, others: Option<&OwnLimits>) -> Option<Job> {
    let document = root(source, &source.text)?;
    let table = Table::new(source, document.get_ref(), 0..0, "the job".into(), &keys::JOB);
    let bare = table.optional("units").map_or(Some(Bare::Inches), |value| value.word(UNITS.into_iter()));
    // Whatever follows is read in these, and so are the CSV files that it names.
    source.bare.set(bare.unwrap_or_default());
    let title = table.required("title").and_then(|value| value.filled_text());
    let practice = practice(&table);
    let own_limits = match table.optional("limits") {
        Some(value) => folder.open(&value).and_then(|source| limits::own_limits(&source)),
        None => Some(OwnLimits::default()),
    };
    let spares_percent = table.optional("spares").map_or(Some(0), |value| spares(&value));
    let axes = axes(&table);
    let own: Vec<Material> = own_limits.iter().chain(others).flat_map(|own| own.entered.materials()).collect();
    let materials = materials(&table, &own);
    let positions = positions(&table);
    let around = Around { materials: &materials, own: &own, positions: positions.as_deref(), folder };
    let mut said = SaidHoles::default();
    let mut drafts = rows(&table, &around, folder, &mut said)?;
    let keys: Vec<RowKey> =
        drafts.iter().map(|draft| RowKey { name: draft.name.clone(), count: draft.count }).collect();
    let mut holes_file = None;
    if let Some(value) = table.optional("holes")
        && let Some(file) = folder.open_if_there(&value)
    {
        holes_file = value.filled_text().map(|name| NamedFile { name: name.to_owned(), is_there: file.is_some() });
        for line in file.iter().flat_map(|file| holes::lines(file, &keys, &mut said)) {
            if let Some(RowDraft { row: Some(row), .. }) = drafts.get_mut(line.row) {
                row.measured.push(line.hole);
            }
        }
    }
    let minutes = panel::minutes(&table, positions.as_deref());
    let edges = panel::edges(&table, &keys, folder);
    let damage = panel::damage(&table, &keys);
    let looks = panel::looks(&table);
    let mut rows = drafts.into_iter().map(|draft| draft.row).collect::<Option<Vec<Row>>>()?;
    for row in &mut rows {
        row.measured.sort_by_key(|hole| hole.number);
    }
    let mut answers_file = None;
    let mut answers = Vec::new();
    if let Some(value) = table.optional("answers")
        && let Some(file) = folder.open_if_there(&value)
    {
        answers_file = value.filled_text().map(|name| NamedFile { name: name.to_owned(), is_there: file.is_some() });
        let known = Known {
            rows: &rows,
            edges: edges.iter().flatten().map(|edge| edge.name.as_str()).collect(),
            damage: damage.as_ref().map_or(0, Vec::len),
        };
        answers = file.map_or_else(Vec::new, |file| answers::answers(&file, &known));
    }
    Some(Job {
        title: title?.to_owned(),
        practice: practice?,
        names_practice: table.optional("practice").is_some(),
        own_limits: own_limits?,
        bare: bare?,
        holes_file,
        answers_file,
        answers,
        spares_percent: spares_percent?,
        positions: positions?,
        axes: axes?,
        rows,
        edges: edges?,
        damage: damage?,
        looks: looks?,
        minutes: minutes?,
    })
}

/// The words for the units of a job.
pub(super) const UNITS: [(&str, Bare); 2] = [("in", Bare::Inches), ("mm", Bare::Millimetres)];

/// The built-in practices by their names.
pub(super) fn built_in() -> impl Iterator<Item = (&'static str, &'static Practice<'static>)> + Clone {
    BUILT_IN.iter().map(|practice| (practice.name(), *practice))
}

fn practice(table: &Table<'_>) -> Option<&'static Practice<'static>> {
    let [default, ..] = BUILT_IN;
    table.optional("practice").map_or(Some(default), |value| value.word(built_in()))
}

/// `10` or `"10 %"`.
fn spares(value: &Value<'_>) -> Option<u32> {
    if !value.is_text() {
        return value.whole(0..=MAX_SPARES_PERCENT);
    }
    let written = value.text()?;
    let number = written.strip_suffix('%').unwrap_or(written).trim();
    let percent = number.parse().ok().filter(|percent| *percent <= MAX_SPARES_PERCENT);
    if percent.is_none() {
        let help = format!("right would be a whole percentage from 0 to {MAX_SPARES_PERCENT}, such as \"10 %\"");
        value.mistake(format!("spares cannot be {}", quoted(written)), help);
    }
    percent
}

/// Which way the axes point.
fn axes(table: &Table<'_>) -> Option<Axes> {
    let axis = |key: &'static str| {
        table.optional(key).map_or(Some(None), |value| value.word(Axis::WORDS.into_iter()).map(Some))
    };
    let (forward, inboard) = (axis("forward"), axis("inboard"));
    let axes = Axes { forward: forward?, inboard: inboard? };
    if let (Some(forward), Some(inboard), Some(value)) = (axes.forward, axes.inboard, table.optional("inboard"))
        && forward.is_along(inboard)
    {
        value.mistake(
            "forward and inboard lie along one axis",
            "right would be x for one and y for the other, or leave one out",
        );
        return None;
    }
    Some(axes)
}

/// The names that the job gives to materials; `None` for one that could not be read.
fn materials(table: &Table<'_>, own: &[Material]) -> Materials {
    let entries = table.optional("materials").and_then(|value| value.entries("a table [materials]"));
    let mut materials = Materials::new();
    for (key, value) in entries.into_iter().flatten() {
        let name = value.name.clone();
        let material = value.text().and_then(|text| {
            read_material(text, own)
                .map_err(|error| value.source.refused(value.span.clone(), &quoted(&name), &error))
                .ok()
        });
        let says_another = |known: Material| material.is_some_and(|material| material != known);
        if name.trim().is_empty() || name.contains(is_unseen) {
            table.source.mistake(key, "a material needs a name", "right would be skin = \"clad 2024-T3\"");
        } else if let Ok(known) = read_material(&name, own)
            && says_another(known)
        {
            table.source.mistake(key, format!("{} is itself a material", quoted(&name)), "give another name");
        }
        materials.insert(name, material);
    }
    materials
}

/// The positions, if all of them could be read.
fn positions(table: &Table<'_>) -> Option<Vec<Position>> {
    let Some(value) = table.optional("position") else { return Some(Vec::new()) };
    let mut names = Names::default();
    let positions = value.list("position")?.into_iter().map(|value| {
        let table = value.table("this position".into(), &keys::POSITION)?;
        let name = names.own(&table);
        let about = about(&table);
        Some(Position { name: name?, about: about? })
    });
    // All are read before the first bad one ends the list, so that every mistake is told.
    let positions: Vec<Option<Position>> = positions.collect();
    positions.into_iter().collect()
}

fn rows(table: &Table<'_>, around: &Around<'_>, folder: &Folder<'_>, said: &mut SaidHoles) -> Option<Vec<RowDraft>> {
    let list = match table.optional("row") {
        Some(value) => value.list("row")?,
        None => Vec::new(),
    };
    let file = table.optional("rows");
    if list.is_empty() && file.is_none() {
        table.source.mistake(0..0, "the job has no row", "begin one with [[row]], or name a rows file");
    }
    let mut names = Names::default();
    let mut drafts = Vec::with_capacity(list.len());
    for (index, value) in list.iter().enumerate() {
        drafts.push(row(value, index, &mut names, around, said));
    }
    if let Some(file) = file
        && let Some(source) = folder.open(&file)
    {
        drafts.extend(rows_file::rows(&source, drafts.len(), &mut names, around, said)?);
    }
    Some(drafts)
}

/// The names of one kind of thing, each of which must be its own.
#[derive(Default)]
pub(super) struct Names(HashMap<String, Said>);

impl Names {
    /// The name in a table.
    pub(super) fn own(&mut self, table: &Table<'_>) -> Option<String> {
        let value = table.required("name")?;
        let name = value.filled_text()?.to_owned();
        let here = Said::at(table.source, value.span.start);
        if let Some(earlier) = self.0.get(&name) {
            value.mistake(format!("the name {} is already taken, at {earlier}", quoted(&name)), "give another name");
            return None;
        }
        self.0.insert(name.clone(), here);
        Some(name)
    }
}

/// What something is about; nothing when it does not say.
pub(super) fn about(table: &Table<'_>) -> Option<String> {
    table.optional("about").map_or(Some(String::new()), |value| value.text().map(|text| text.trim().to_owned()))
}
