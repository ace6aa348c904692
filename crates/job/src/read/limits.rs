//! A shop's own limits.

use std::ops::Range;

use shophead::basis::Basis;
use shophead::length::{Bare, Length};
use shophead::material::RivetAlloy;
use shophead::practice::{Entered, HeadScope, Name, ParseValueError, Scope, Value as LimitValue};
use shophead::rivet::CATALOGUE;

use super::cursor::{Table, Value, root};
use super::figures::Figures;
use super::keys;
use super::panel::minutes;
use super::source::{Said, Source, nearest_or_all, quoted};
use crate::model::{OwnLimit, OwnLimits};

pub(super) fn own_limits(source: &Source<'_>) -> Option<OwnLimits> {
    // A job in millimetres may name one: whatever a limits file is named by, it says mm where it means it.
    source.bare.set(Bare::Inches);
    let document = root(source, &source.text)?;
    let table = Table::new(source, document.get_ref(), 0..0, "the limits file".into(), &keys::LIMITS);
    let title = table.required("title").and_then(|value| value.filled_text());
    let text = |key| table.optional(key).map_or(Some(None), |value| value.filled_text().map(Some));
    let (document, place) = (text("document"), text("place"));
    let minutes = minutes(&table, None);
    let said = table.optional("limit");
    let listed = said.as_ref().filter(|value| !value.is_table());
    let list = listed.map_or(Some(Vec::new()), |value| value.list("limit"))?;
    let named = said.filter(Value::is_table).map_or(Some(Vec::new()), |value| value.entries("a table"))?;
    let count = list.len() + named.len();
    let has_figures = FIGURES.iter().any(|key| table.optional(key).is_some());
    if count == 0 && !has_figures {
        source.mistake(0..0, "the limits file has no limit", "begin one with [[limit]]");
    }
    if count > Basis::OWN_MOST {
        let message = format!("the limits file has {count} limits");
        source.mistake(0..0, message, format!("at most {} are read", Basis::OWN_MOST));
        return None;
    }
    let mut limits: Vec<Option<OwnLimit>> = Vec::with_capacity(count);
    let mut said: Vec<(Name, Scope, Said)> = Vec::with_capacity(count);
    for value in &list {
        let Some(table) = value.table("this limit".into(), &keys::LIMIT) else { continue };
        let limit = limit(&table, document);
        if let Some(limit) = &limit {
            let same = said.iter().find(|(name, scope, _)| (*name, *scope) == (limit.name, limit.scope));
            if let Some((name, _, earlier)) = same {
                value.mistake(
                    format!("{name} is said twice for the same rivets, first at {earlier}"),
                    "keep one of both",
                );
            }
            said.push((limit.name, limit.scope, Said::at(source, table.span.start)));
        }
        limits.push(limit);
    }
    for (key, value) in &named {
        limits.push(short_limit(source, key, value, document, place));
    }
    let mut figures = Figures {
        file: (document.flatten(), place.flatten()),
        before: count,
        documents: Vec::new(),
        entered: Entered::new(),
    };
    figures.read(&table);
    Some(OwnLimits {
        title: title?.to_owned(),
        limits: limits.into_iter().collect::<Option<_>>()?,
        minutes: minutes?,
        entered: Box::new(figures.entered),
        cited: figures.documents,
    })
}

/// The keys that figures stand under.
const FIGURES: [&str; 6] = ["series", "material", "rivet", "flush", "plain", "tension"];

/// A limit for every rivet as one line: `limit.hole-greatest = ".135"`.
fn short_limit(
    source: &Source<'_>,
    key: &Range<usize>,
    value: &Value<'_>,
    document: Option<Option<&str>>,
    place: Option<Option<&str>>,
) -> Option<OwnLimit> {
    let name = Name::ALL.iter().copied().find(|name| name.as_str() == value.name);
    let Some(name) = name else {
        let help = nearest_or_all(&value.name, Name::ALL.iter().map(|name| name.as_str()));
        source.mistake(key.clone(), format!("{} is no limit", quoted(&value.name)), help);
        return None;
    };
    let read = limit_value(value, Some(name));
    if document == Some(None) {
        value.mistake(
            format!("{name} has no document"),
            "right would be document = \"structural repair manual\" for the whole file",
        );
    }
    let place = place?.unwrap_or_default().to_owned();
    Some(OwnLimit { name, scope: Scope::ANY, value: read?, document: document.flatten()?.to_owned(), place })
}

/// One limit. `document` is the file's own: `None` when it could not be read, so that no limit is blamed for it.
fn limit(table: &Table<'_>, document: Option<Option<&str>>) -> Option<OwnLimit> {
    let name = table.required("name").and_then(|value| value.listed::<Name>());
    let value = table.required("value").and_then(|value| limit_value(&value, name));
    let place = table.required("place").and_then(|value| value.filled_text());
    let document = match (table.optional("document"), document) {
        (Some(value), _) => value.filled_text(),
        (None, Some(None)) => {
            table.missing("document");
            None
        }
        (None, document) => document.flatten(),
    };
    let scope = scope(table);
    Some(OwnLimit {
        name: name?,
        scope: scope?,
        value: value?,
        document: document?.to_owned(),
        place: place?.to_owned(),
    })
}

fn limit_value(value: &Value<'_>, name: Option<Name>) -> Option<LimitValue> {
    let written = value.written()?;
    let name = name?;
    let refused = |error: ParseValueError| value.source.refused(value.span.clone(), name.as_str(), &error);
    LimitValue::parse(name, written).map_err(refused).ok()
}

fn scope(table: &Table<'_>) -> Option<Scope> {
    let heads = HeadScope::ALL.iter().map(|head| (head.as_str(), *head));
    let head = table.optional("head").map_or(Some(None), |value| value.word(heads).map(Some));
    let alloy = table.optional("alloy").map_or(Some(None), |value| alloy(&value).map(Some));
    let diameter = table.optional("diameter").map_or(Some(None), |value| diameter(&value).map(Some));
    let rows = table.optional("rows").map_or(Some(None), |value| value.whole(1..=u8::MAX.into()).map(Some));
    let rows = rows?.map_or(Some(None), |rows| u8::try_from(rows).ok().map(Some));
    let stepped = table.optional("after").map_or(Some(false), |value| value.word([("step-up", true)].into_iter()));
    Some(Scope::ANY.head(head?).alloy(alloy?).diameter(diameter?).rows(rows?).stepped(stepped?))
}

/// A rivet alloy by its number, or by the letters that part numbers have for it.
fn alloy(value: &Value<'_>) -> Option<RivetAlloy> {
    let written = value.written()?.trim();
    let by_number = RivetAlloy::ALL.iter().copied().find(|alloy| alloy.alloy().eq_ignore_ascii_case(written));
    if by_number.is_some() {
        return by_number;
    }
    let materials = CATALOGUE.iter().flat_map(|series| series.materials).filter(|material| !material.code.is_empty());
    let mut meant: Vec<RivetAlloy> = Vec::new();
    for material in materials.filter(|material| material.code.eq_ignore_ascii_case(written)) {
        if !meant.contains(&material.alloy) {
            meant.push(material.alloy);
        }
    }
    match meant.as_slice() {
        [one] => Some(*one),
        [] => {
            let known: Vec<&str> = RivetAlloy::ALL.iter().map(|alloy| alloy.alloy()).collect();
            let help = format!("right would be letters such as AD, or one of {}", known.join(", "));
            value.mistake(format!("{} is no rivet alloy", quoted(written)), help);
            None
        }
        [..] => {
            let known: Vec<String> = meant.iter().map(|alloy| quoted(alloy.alloy())).collect();
            let message = format!("the letters {} mean another alloy in each series", quoted(written));
            value.mistake(message, format!("right would be {}", known.join(" or ")));
            None
        }
    }
}

/// The nominal diameter of some series: a limit for any other would never hold.
fn diameter(value: &Value<'_>) -> Option<Length> {
    let written = value.distance()?;
    let size = CATALOGUE.iter().find_map(|series| series.size_for_diameter(written));
    if size.is_none() {
        let message = format!("no series has a shank of {}", quoted(value.written().unwrap_or_default()));
        value.mistake(message, "right would be a nominal shank diameter such as \"1/8\"");
    }
    size.map(|size| size.shank_nominal)
}
