//! How figures look in JSON.
//!
//! | what | is |
//! |---|---|
//! | a length | `{"in": 0.3125, "mm": 7.9375}` |
//! | a least and a greatest length | `{"min": ..., "max": ...}`, with `nominal` between them where there is one |
//! | a force | `{"lbf": ..., "n": ...}`, with its `basis` where it was computed |
//! | a basis | `{"document": "...", "place": "...", "status": "..."}` |
//! | what is not known | `null` |

use serde_json::{Value, json};
use shophead::basis::{Basis, Citation};
use shophead::fact::Fact;
use shophead::finding::Figure;
use shophead::joint::margin::{LoadKind, Margin};
use shophead::joint::strength::Allowable;
use shophead::length::{Interval, Length, Toleranced};
use shophead::practice::{Given, Practice};
use shophead::quantity::{Force, Stress};
use shophead::select::LengthAnswer;
use shophead::upset::{PredictedHead, Spread, Window, Within};
use shophead_job::model::Answer;

pub(crate) fn length(length: Length) -> Value {
    json!({ "in": length.to_inches_f64(), "mm": length.to_millimetres_f64() })
}

pub(crate) fn interval(interval: Interval) -> Value {
    json!({ "min": length(interval.min()), "max": length(interval.max()) })
}

pub(crate) fn toleranced(given: Toleranced) -> Value {
    json!({ "min": length(given.min()), "nominal": length(given.nominal()), "max": length(given.max()) })
}

pub(crate) fn spread(spread: Spread) -> Value {
    json!({ "min": length(spread.min), "nominal": length(spread.nominal), "max": length(spread.max) })
}

pub(crate) fn driven_head(head: PredictedHead) -> Value {
    json!({ "diameter": spread(head.diameter), "height": length(head.height) })
}

/// What to drive a head to.
pub(crate) fn window(window: Window) -> Value {
    json!({
        "height": interval(window.height),
        "diameter": { "min": length(window.diameter_least), "max": or_null(window.diameter_greatest, length) },
    })
}

/// The hole and the shank within which there would be a window.
pub(crate) fn within(within: Within) -> Value {
    json!({
        "hole_max": or_null(within.hole_greatest, length),
        "shank_min": or_null(within.shank_least, length),
    })
}

/// What to drive the chosen rivet to, what else is within limits, and what goes into which hole: what every answer about a length has.
pub(crate) fn add_lengths(object: &mut Value, found: Option<&LengthAnswer<'_>>) {
    let serves = found.into_iter().flat_map(LengthAnswer::serves).map(|other| {
        json!({
            "part": other.part.to_string(),
            "length": length(other.length),
            "window": or_null(other.window, window),
            "head": or_null(other.head, driven_head),
        })
    });
    let by_hole = found.into_iter().flat_map(LengthAnswer::by_hole).map(|range| {
        json!({
            "hole": interval(range.hole),
            "part": range.part.map(|part| part.to_string()),
            "length": or_null(range.length, length),
            "cut": or_null(range.cut, interval),
            "window": or_null(range.window, window),
        })
    });
    let nearest = found.and_then(LengthAnswer::nearest).map(|nearest| {
        let mut value = within(nearest.within);
        with(&mut value, "length", length(nearest.length));
        value
    });
    with(object, "window", or_null(found.and_then(|found| found.window), window));
    with(object, "serves", serves.collect());
    with(object, "by_hole", by_hole.collect());
    with(object, "within", nearest.unwrap_or_default());
}

pub(crate) fn force(force: Force) -> Value {
    json!({ "lbf": force.lbf(), "n": force.newtons() })
}

pub(crate) fn stress(stress: Stress) -> Value {
    json!({ "psi": stress.psi(), "mpa": stress.megapascals() })
}

/// A margin with everything that makes it.
pub(crate) fn margin(worked: Margin, practice: &Practice<'_>) -> Value {
    json!({
        "value": worked.value,
        "load": force(worked.load.force),
        "load_kind": match worked.load.kind { LoadKind::Limit => "limit", LoadKind::Ultimate => "ultimate" },
        "safety_factor": { "value": worked.factors.safety.value, "basis": basis(worked.factors.safety.basis, practice) },
        "fitting_factor": or_null(worked.factors.fitting, |factor| {
            json!({ "value": factor.value, "basis": basis(factor.basis, practice) })
        }),
        "factored_load": force(worked.factored_load),
    })
}

pub(crate) fn allowable(allowable: Allowable, practice: &Practice<'_>) -> Value {
    json!({ "lbf": allowable.force.lbf(), "n": allowable.force.newtons(), "basis": basis(allowable.basis, practice) })
}

pub(crate) fn basis(basis: Basis, practice: &Practice<'_>) -> Value {
    citation(practice.cite(basis))
}

pub(crate) fn citation(cited: Citation<'_>) -> Value {
    json!({ "document": cited.document, "place": cited.place, "status": cited.status.as_str() })
}

/// A length with its basis beside the figures.
pub(crate) fn given(given: Given<Length>, practice: &Practice<'_>) -> Value {
    let mut value = length(given.value);
    with(&mut value, "basis", basis(given.basis, practice));
    value
}

/// A figure of a finding: an object that names its unit.
pub(crate) fn figure(figure: Figure) -> Value {
    match figure {
        Figure::Length(value) => length(value),
        Figure::Force(value) => force(value),
        Figure::Stress(value) => stress(value),
        Figure::Ratio(ratio) => json!({ "ratio": ratio }),
        Figure::Count(count) => json!({ "count": count }),
        Figure::Facts(facts) => json!({ "facts": facts.iter().map(Fact::as_str).collect::<Vec<_>>() }),
    }
}

/// `null` for what is not there.
pub(crate) fn or_null<T>(value: Option<T>, show: impl FnOnce(T) -> Value) -> Value {
    value.map_or(Value::Null, show)
}

/// Adds a key to an object.
pub(crate) fn with(object: &mut Value, key: &str, value: Value) {
    if let Some(object) = object.as_object_mut() {
        object.insert(key.to_owned(), value);
    }
}

/// An answer to something that was referred.
pub(crate) fn answer(answer: &Answer) -> Value {
    json!({
        "answer": answer.ruling.as_str(),
        "by": answer.by,
        "document": answer.document,
        "date": answer.date.to_string(),
        "rivet": answer.rivet.map(|part| part.to_string()).or_else(|| answer.blind.clone()),
        "drill": answer.drill.map(|drill| drill.to_string()),
        "note": answer.note,
    })
}
