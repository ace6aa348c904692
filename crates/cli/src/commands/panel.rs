//! What a plan says about the panel round its rows: patterns, edges, damage, places to look at, positions compared.

use serde_json::{Value, json};
use shophead::access::{Clearance, Minutes};
use shophead::basis::Basis;
use shophead::finding::Finding;
use shophead::practice::Practice;
use shophead::trim::Cut;
use shophead::words::Units;
use shophead_job::model::{Job, Look};
use shophead_job::plan::{DamagePlan, EdgePlan, PatternPlan, Plan, PositionPlan, RowCut};
use shophead_job::words;

use crate::json;
use crate::report::{Block, Table};

fn said(finding: &Finding, units: Units, practice: &Practice<'_>) -> String {
    words::finding(finding, units, practice)
}

fn holes(numbers: &[u32]) -> String {
    if numbers.len() == 1 {
        format!("hole {}", words::ranges(numbers))
    } else {
        format!("holes {}", words::ranges(numbers))
    }
}

/// The patterns of several rows.
pub(super) fn patterns(plan: &Plan<'_>, text: &mut Vec<Block>) {
    if plan.patterns.is_empty() {
        return;
    }
    text.push(Block::Heading("Patterns of several rows".into()));
    for pattern in &plan.patterns {
        let wanting = match pattern.wanting {
            0 => "No hole needs a larger rivet.".to_owned(),
            1 => "1 hole needs a larger rivet.".to_owned(),
            count => format!("{count} holes need a larger rivet."),
        };
        let limits: Vec<String> = [
            pattern.limits.steps.map(|limit| format!("at most {} [{}]", limit.value, plan.practice.cite(limit.basis))),
            pattern
                .limits
                .neighbours
                .map(|limit| format!("at most {} neighbours [{}]", limit.value, plan.practice.cite(limit.basis))),
        ]
        .into_iter()
        .flatten()
        .collect();
        let mut lines = vec![format!("{wanting} Allowed: {}.", limits.join("; "))];
        if pattern.stepped < pattern.wanting {
            let referred = pattern.wanting.saturating_sub(pattern.stepped);
            let (get, are) = (pattern.stepped, if referred == 1 { "is" } else { "are" });
            lines.push(format!("Within the limits {get} can have one; {referred} {are} referred."));
        }
        let rows: Vec<&str> = names(plan, pattern);
        text.push(Block::Entry(format!("{}: {}, {} holes", pattern.name, rows.join(", "), pattern.total), lines));
    }
}

fn names<'p>(plan: &'p Plan<'_>, pattern: &PatternPlan<'_>) -> Vec<&'p str> {
    pattern.rows.iter().filter_map(|index| plan.rows.get(*index)).map(|row| row.row.name.as_str()).collect()
}

/// The edges, what they are marked out from, and the distances to them.
pub(super) fn edges(plan: &Plan<'_>, units: Units, text: &mut Vec<Block>) {
    for (index, edge) in plan.edges.iter().enumerate() {
        let about = if edge.edge.about.is_empty() { String::new() } else { format!(": {}", edge.edge.about) };
        text.push(Block::Heading(format!("Cutting the {}{about}", edge.edge.name)));
        if edge.table.is_empty() {
            continue;
        }
        let measured = matches!(edge.cut, Cut::Measured(_));
        let columns = if measured { vec!["station", "offset", ""] } else { vec!["x", "y", ""] };
        let rows = edge.table.iter().map(|mark| {
            let how = if measured && !edge.is_measured_at(*mark) {
                "between"
            } else if measured {
                "measured"
            } else {
                "corner"
            };
            vec![
                units.length(words::to_mark(mark.at, units)).to_string(),
                units.length(words::to_mark(mark.offset, units)).to_string(),
                how.into(),
            ]
        });
        let unit = match units {
            Units::Inches => "inches",
            Units::Millimetres => "millimetres",
        };
        text.push(Block::Paragraph(format!("Mark out from these, in {unit}:")));
        text.push(Block::Table(Table { columns, rows: rows.collect() }));
        if measured {
            text.push(Block::Paragraph(format!(
                "Between stations the edge is a smooth line that stays between the two offsets [{}].",
                plan.practice.cite(Basis::MONOTONE_INTERPOLATION)
            )));
        }
        let cuts: Vec<(&str, &RowCut)> = plan
            .rows
            .iter()
            .filter_map(|row| Some((row.row.name.as_str(), row.cuts.iter().find(|cut| cut.edge == index)?)))
            .collect();
        if cuts.is_empty() {
            text.push(Block::Paragraph("No row with coordinates is checked against it.".into()));
        }
        for (name, cut) in cuts {
            let (hole, distance) = cut.closest;
            let mut lines = Vec::new();
            if !cut.short.is_empty() {
                lines.push(format!("Too close: {}.", holes(&cut.short)));
            }
            if !cut.beyond.is_empty() {
                lines.push(format!("Beyond the stations: {}.", holes(&cut.beyond)));
            }
            let verdict = if cut.short.is_empty() { "clear" } else { "too close" };
            let distance = units.length(distance).about();
            text.push(Block::Entry(format!("{name}: {verdict}, closest hole {hole} at {distance}"), lines));
        }
        let findings: Vec<String> = edge.findings.iter().map(|finding| said(finding, units, plan.practice)).collect();
        if !findings.is_empty() {
            text.push(Block::Entry("The edge itself:".into(), findings));
        }
    }
}

/// Damage, then where else to look.
pub(super) fn damage(plan: &Plan<'_>, units: Units, text: &mut Vec<Block>) {
    if !plan.damage.is_empty() {
        text.push(Block::Heading("Damage".into()));
    }
    for (plan_of, number) in plan.damage.iter().zip(1_u32..) {
        let lines = plan_of.findings.iter().map(|finding| said(finding, units, plan.practice)).collect();
        text.push(Block::Entry(format!("{number}. {}", words::damage(plan, plan_of, units)), lines));
    }
    if !plan.job.looks.is_empty() {
        text.push(Block::Heading("Also look here".into()));
    }
    for Look { place, why, found } in &plan.job.looks {
        let found = found.iter().map(|found| format!("Found: {found}"));
        text.push(Block::Entry(place.clone(), std::iter::once(why.clone()).chain(found).collect()));
    }
}

/// The time of a position, on one line; nothing where no minutes were given.
pub(super) fn time(plan: &Plan<'_>, position: &PositionPlan<'_>) -> Option<String> {
    let time = position.work.time;
    let total = time.total()?;
    // What it takes to do nothing helps nobody.
    if !position.rows.iter().any(|work| work.is_reachable()) {
        return None;
    }
    let parts: Vec<String> = [("set-up", time.set_up), ("drilling out", time.drill_out), ("driving", time.drive)]
        .into_iter()
        .filter_map(|(what, minutes)| minutes.map(|minutes| format!("{what} {minutes}")))
        .collect();
    let what =
        if plan.rows.iter().any(|row| row.solid.is_some()) { " for the rows that take driven rivets only" } else { "" };
    let left_out: Vec<String> = plan
        .rows
        .iter()
        .zip(&position.rows)
        .filter(|(_, work)| work.must && !work.is_reachable())
        .map(|(row, _)| row.row.name.clone())
        .collect();
    let but = match left_out.as_slice() {
        [] => String::new(),
        [row] => format!("; row {row} cannot be bucked here"),
        rows => format!("; rows {} cannot be bucked here", rows.join(", ")),
    };
    Some(format!("{total} min{what}: {}{but}.", parts.join(", ")))
}

/// The best position, or what would make one suit.
pub(super) fn verdict(plan: &Plan<'_>, units: Units, text: &mut Vec<Block>) {
    if let Some(best) = plan.serving_position() {
        let serving = plan.positions.iter().filter(|position| position.serves).count();
        let sentence = match (serving, best.work.time.total()) {
            (1, _) if best.blocked.iter().all(Option::is_none) => {
                format!("Work in {}: every row can be bucked there.", best.position.name)
            }
            (1, _) => {
                format!("Work in {}: every row that takes driven rivets only can be bucked there.", best.position.name)
            }
            (_, Some(total)) => format!("Least effort: {}, {total} min.", best.position.name),
            (_, None) => format!("Least effort: {}.", best.position.name),
        };
        text.push(Block::Paragraph(sentence));
        return;
    }
    text.push(Block::Heading("What each position lacks, least first".into()));
    for position in plan.lacking_positions() {
        let blocking = plan.rows.iter().zip(&position.rows).filter(|(_, work)| work.must && !work.is_reachable());
        let lines: Vec<String> =
            blocking.map(|(row, work)| format!("{}: {}", row.row.name, words::lack(work, units))).collect();
        let rows = if lines.len() == 1 { "1 row blocks".into() } else { format!("{} rows block", lines.len()) };
        text.push(Block::Entry(format!("{}: {rows}", position.position.name), lines));
    }
}

fn minutes(minutes: Option<Minutes>) -> Value {
    json::or_null(minutes, |minutes| {
        // Thousandths of a minute are far below what an f64 holds exactly.
        let thousandths = u32::try_from(minutes.thousandths()).map_or(f64::INFINITY, f64::from);
        json!(thousandths / 1000.0)
    })
}

/// A position, beside its blocked rows.
pub(super) fn position_json(plan: &Plan<'_>, position: &PositionPlan<'_>, value: &mut Value) {
    let best = plan.serving_position().is_some_and(|best| std::ptr::eq(best, position));
    let rows = plan.rows.iter().zip(&position.rows).map(|(row, work)| {
        json!({
            "row": row.row.name,
            "must_be_driven": work.must,
            "reachable": work.is_reachable(),
            "clearance": match work.clearance {
                Clearance::Open => json!("open"),
                Clearance::Closed => json!("closed"),
                Clearance::Room(room) => json::length(room),
            },
            "needed": json::or_null(work.needed, json::length),
            "missing": json::or_null(work.missing(), json::length),
        })
    });
    json::with(value, "rows", rows.collect::<Vec<Value>>().into());
    json::with(value, "least_effort", best.into());
    let time = position.work.time;
    let time = json!({
        "set_up": minutes(time.set_up),
        "drill_out": minutes(time.drill_out),
        "drive": minutes(time.drive),
        "total": minutes(time.total()),
    });
    json::with(value, "minutes", time);
}

pub(super) fn patterns_json(plan: &Plan<'_>) -> Value {
    let pattern = |pattern: &PatternPlan<'_>| {
        let limit = |limit: Option<shophead::practice::Given<u32>>| {
            json::or_null(
                limit,
                |limit| json!({ "value": limit.value, "basis": json::basis(limit.basis, plan.practice) }),
            )
        };
        json!({
            "name": pattern.name,
            "rows": names(plan, pattern),
            "holes": pattern.total,
            "wanting": pattern.wanting,
            "stepped": pattern.stepped,
            "steps_limit": limit(pattern.limits.steps),
            "neighbours_limit": limit(pattern.limits.neighbours),
        })
    };
    plan.patterns.iter().map(pattern).collect()
}

pub(super) fn edges_json(plan: &Plan<'_>) -> Value {
    let edge = |(index, edge): (usize, &EdgePlan<'_>)| {
        let rows = plan.rows.iter().filter_map(|row| {
            let cut = row.cuts.iter().find(|cut| cut.edge == index)?;
            Some(json!({
                "row": row.row.name,
                "closest": { "hole_number": cut.closest.0, "distance": json::length(cut.closest.1) },
                "too_close": cut.short,
                "beyond": cut.beyond,
                "distances": cut.distances.iter().map(|distance| json::length(*distance)).collect::<Vec<Value>>(),
            }))
        });
        json!({
            "name": edge.edge.name,
            "about": edge.edge.about,
            "kind": match edge.cut { Cut::Corners(_) => "points", Cut::Measured(_) => "stations" },
            "table": edge.table.iter().map(|mark| json!({
                "station": json::length(mark.at),
                "offset": json::length(mark.offset),
                "measured": edge.is_measured_at(*mark),
            })).collect::<Vec<Value>>(),
            "interpolation": match edge.cut { Cut::Corners(_) => Value::Null, Cut::Measured(_) => json::basis(Basis::MONOTONE_INTERPOLATION, plan.practice) },
            "rows": rows.collect::<Vec<Value>>(),
        })
    };
    plan.edges.iter().enumerate().map(edge).collect()
}

pub(super) fn damage_json(plan: &Plan<'_>) -> Value {
    let damage = |damage: &DamagePlan<'_>| {
        let found = &damage.held;
        json!({
            "kind": found.kind.as_str(),
            "place": damage.damage.place,
            "row": damage.damage.row.and_then(|row| plan.rows.get(row)).map(|row| &row.row.name),
            "hole": damage.damage.hole,
            "at": json::or_null(damage.damage.at, |at| json!({ "x": json::length(at.x), "y": json::length(at.y) })),
            "member": damage.damage.member.map(shophead::stack::Role::as_str),
            "length": json::or_null(found.length, json::length),
            "depth": json::or_null(found.depth, json::length),
            "thickness": json::or_null(found.thickness, json::length),
            "must_refer": damage.findings.iter().any(|finding| finding.severity() == shophead::finding::Severity::Refer),
        })
    };
    plan.damage.iter().map(damage).collect()
}

pub(super) fn looks_json(job: &Job) -> Value {
    job.looks.iter().map(|look| json!({ "place": look.place, "why": look.why, "found": look.found })).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_are_told_as_a_range() {
        assert_eq!(holes(&[4]), "hole 4");
    }
}
