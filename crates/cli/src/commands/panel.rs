//! What a plan says about the panel round its rows: patterns, edges, damage, places to look at, positions compared.

use shophead::access::{Bar, Minutes};
use shophead::basis::Basis;
use shophead::finding::{Finding, Severity};
use shophead::practice::{Given, Practice};
use shophead::trim::{Cut, Station};
use shophead::words::Units;
use shophead_job::model::Look;
use shophead_job::plan::{Bucked, DamagePlan, EdgePlan, PatternPlan, Plan, PositionPlan, RowCut, Stand, There};
use shophead_job::words;

use crate::form;
use crate::form::plan::{EdgeKind, OpenOrClosed};
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
        let along = words::base_line(edge, units).map_or_else(String::new, |line| format!(", {line}"));
        text.push(Block::Paragraph(format!("Mark out from these, in {unit}{along}:")));
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
    for Look { place, why, found, .. } in &plan.job.looks {
        let found = found.iter().map(|found| format!("Found: {found}"));
        text.push(Block::Entry(place.clone(), std::iter::once(why.clone()).chain(found).collect()));
    }
}

/// The time of a position, on one line; nothing where no minutes were given.
pub(super) fn time(plan: &Plan<'_>, position: &PositionPlan<'_>) -> Option<String> {
    let time = position.work.time;
    let total = time.total()?;
    // What it takes to do nothing helps nobody.
    if !plan.seen_from(position).any(|there| there.work.is_reachable()) {
        return None;
    }
    let parts: Vec<String> = [("set-up", time.set_up), ("drilling out", time.drill_out), ("driving", time.drive)]
        .into_iter()
        .filter_map(|(what, minutes)| minutes.map(|minutes| format!("{what} {minutes}")))
        .collect();
    let what =
        if plan.rows.iter().any(|row| row.solid.is_some()) { " for the rows that take driven rivets only" } else { "" };
    let left_out: Vec<String> = blocking(plan, position).map(|there| there.name()).collect();
    let but = match left_out.as_slice() {
        [] => String::new(),
        [row] => format!("; row {row} cannot be bucked here"),
        rows => format!("; rows {} cannot be bucked here", rows.join(", ")),
    };
    Some(format!("{total} min{what}: {}{but}.", parts.join(", ")))
}

/// How large the job is: `15 rows, 488 holes`.
pub(super) fn size(rows: u32, holes: u32) -> String {
    let of = |count: u32, what: &str| if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") };
    format!("{}, {}", of(rows, "row"), of(holes, "hole"))
}

/// What takes driven rivets only and cannot be bucked in this position.
fn blocking<'p, 'j>(plan: &'p Plan<'j>, position: &'p PositionPlan<'j>) -> impl Iterator<Item = There<'p, 'j>> {
    plan.seen_from(position).filter(|there| there.work.must && !there.work.is_reachable())
}

/// The same, each with what it lacks.
pub(super) fn lacks(plan: &Plan<'_>, position: &PositionPlan<'_>, units: Units) -> Vec<String> {
    blocking(plan, position).map(|there| format!("{}: {}", there.name(), words::lack(&there.work, units))).collect()
}

/// Where to work in turn, where no single position suits.
pub(super) fn in_turn(plan: &Plan<'_>) -> Option<String> {
    let stands = plan.stands();
    let told = stands.iter().map(|stand| {
        let there: Vec<String> = stand.there.iter().map(Bucked::name).collect();
        format!("{}: {}", stand.position.position.name, there.join(", "))
    });
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| format!("No single position works for every row. First {}.", told.join("; then ")))
}

/// Where to work, where a position suits every row that takes driven rivets only.
pub(super) fn best(plan: &Plan<'_>) -> Option<String> {
    let best = plan.serving_position()?;
    let serving = plan.positions.iter().filter(|position| position.serves).count();
    Some(match (serving, best.work.time.total()) {
        (1, _) if plan.seen_from(best).all(|there| there.blocked.is_none()) => {
            format!("Work in {}: every row can be bucked there.", best.position.name)
        }
        (1, _) => {
            format!("Work in {}: every row that takes driven rivets only can be bucked there.", best.position.name)
        }
        (_, Some(total)) => format!("Least effort: {}, {total} min.", best.position.name),
        (_, None) => format!("Least effort: {}.", best.position.name),
    })
}

/// The best position, or what would make one suit.
pub(super) fn verdict(plan: &Plan<'_>, units: Units, text: &mut Vec<Block>) {
    if let Some(best) = best(plan).or_else(|| in_turn(plan)) {
        text.push(Block::Paragraph(best));
        return;
    }
    text.push(Block::Heading("What each position lacks, least first".into()));
    for position in plan.lacking_positions() {
        let lines = lacks(plan, position, units);
        let rows = if lines.len() == 1 { "1 row blocks".into() } else { format!("{} rows block", lines.len()) };
        text.push(Block::Entry(format!("{}: {rows}", position.position.name), lines));
    }
}

fn minutes(minutes: Option<Minutes>) -> Option<f64> {
    // Thousandths of a minute are far below what an f64 holds exactly.
    minutes
        .and_then(|minutes| u32::try_from(minutes.thousandths()).ok())
        .map(|thousandths| f64::from(thousandths) / 1000.0)
}

pub(super) fn position_form<'a>(plan: &'a Plan<'a>, position: &'a PositionPlan<'a>) -> form::plan::Position<'a> {
    let blocked = plan.rows.iter().zip(&position.blocked).filter_map(|(row, blocked)| {
        let blocked = (*blocked)?;
        Some(form::plan::BlockedRow {
            row: &row.row.name,
            must_be_driven: row.solid.is_some(),
            room: blocked.measured().map(form::Figure::from),
            needed: blocked.limit().map(form::Figure::from),
        })
    });
    let rows = plan.rows.iter().zip(&position.rows).map(|(row, work)| form::plan::RowThere {
        row: &row.row.name,
        must_be_driven: work.must,
        reachable: work.is_reachable(),
        clearance: work.clearance.into(),
        needed: work.needed.map(form::Length::from),
        missing: work.missing().map(form::Length::from),
    });
    let holes = position.holes.iter().filter_map(|there| {
        Some(form::plan::HolesThere {
            row: &plan.rows.get(there.row)?.row.name,
            holes: &there.own.holes,
            must_be_driven: there.work.must,
            reachable: there.work.is_reachable(),
            clearance: there.work.clearance.into(),
            needed: there.work.needed.map(form::Length::from),
            missing: there.work.missing().map(form::Length::from),
            bar: match there.bar {
                Bar::Any => form::plan::Clearance::Word(OpenOrClosed::Open),
                Bar::None => form::plan::Clearance::Word(OpenOrClosed::Closed),
                Bar::UpTo(thick) => form::plan::Clearance::Room(thick.into()),
            },
        })
    });
    let time = position.work.time;
    form::plan::Position {
        name: &position.position.name,
        about: &position.position.about,
        serves: position.serves,
        blocked: blocked.collect(),
        rows: rows.collect(),
        holes: holes.collect(),
        least_effort: plan.serving_position().is_some_and(|best| std::ptr::eq(best, position)),
        minutes: form::plan::Minutes {
            set_up: minutes(time.set_up),
            drill_out: minutes(time.drill_out),
            drive: minutes(time.drive),
            total: minutes(time.total()),
        },
    }
}

/// Where everything is bucked in turn; nothing where one position does for all, or none.
pub(super) fn mix_forms<'a>(plan: &'a Plan<'a>) -> Vec<form::plan::Stand<'a>> {
    let stand = |stand: Stand<'a, 'a>| form::plan::Stand {
        position: &stand.position.position.name,
        rows: stand
            .there
            .into_iter()
            .map(|bucked| form::plan::Bucked { row: &bucked.row.row.name, holes: bucked.holes, except: bucked.but })
            .collect(),
    };
    plan.stands().into_iter().map(stand).collect()
}

pub(super) fn pattern_forms<'a>(plan: &'a Plan<'a>) -> Vec<form::plan::Pattern<'a>> {
    let limit = |limit: Given<u32>| form::plan::CountLimit {
        value: limit.value,
        basis: form::Basis::of(limit.basis, plan.practice),
    };
    let pattern = |pattern: &PatternPlan<'a>| form::plan::Pattern {
        name: pattern.name,
        rows: names(plan, pattern),
        holes: pattern.total,
        wanting: pattern.wanting,
        stepped: pattern.stepped,
        steps_limit: pattern.limits.steps.map(limit),
        neighbours_limit: pattern.limits.neighbours.map(limit),
    };
    plan.patterns.iter().map(pattern).collect()
}

pub(super) fn edge_forms<'a>(plan: &'a Plan<'a>) -> Vec<form::plan::Edge<'a>> {
    let edge = |(index, edge): (usize, &'a EdgePlan<'a>)| {
        let rows = plan.rows.iter().filter_map(|row| {
            let cut = row.cuts.iter().find(|cut| cut.edge == index)?;
            Some(form::plan::RowAtEdge {
                row: &row.row.name,
                closest: form::plan::ClosestHole { hole_number: cut.closest.0.into(), distance: cut.closest.1.into() },
                too_close: &cut.short,
                beyond: &cut.beyond,
                distances: cut.distances.iter().copied().map(form::Length::from).collect(),
            })
        });
        let mark = |mark: &Station| form::plan::Mark {
            station: mark.at.into(),
            offset: mark.offset.into(),
            measured: edge.is_measured_at(*mark),
        };
        let (kind, interpolation) = match edge.cut {
            Cut::Corners(_) => (EdgeKind::Points, None),
            Cut::Measured(_) => (EdgeKind::Stations, Some(Basis::MONOTONE_INTERPOLATION)),
        };
        form::plan::Edge {
            name: &edge.edge.name,
            about: &edge.edge.about,
            kind,
            line: edge.line().map(|line| {
                let (from, to) = line.points();
                [from.into(), to.into()]
            }),
            table: edge.table.iter().map(mark).collect(),
            interpolation: interpolation.map(|basis| form::Basis::of(basis, plan.practice)),
            rows: rows.collect(),
        }
    };
    plan.edges.iter().enumerate().map(edge).collect()
}

pub(super) fn damage_forms<'a>(plan: &'a Plan<'a>) -> Vec<form::plan::Damage<'a>> {
    let damage = |damage: &DamagePlan<'a>| {
        let (found, held) = (damage.damage, &damage.held);
        form::plan::Damage {
            kind: held.kind.into(),
            place: &found.place,
            row: found.row.and_then(|row| plan.rows.get(row)).map(|row| row.row.name.as_str()),
            hole: found.hole.map(form::Nth::from),
            at: found.at.map(form::Point::from),
            member: found.member.map(form::Role::from),
            length: held.length.map(form::Length::from),
            depth: held.depth.map(form::Length::from),
            thickness: held.thickness.map(form::Length::from),
            must_refer: damage.findings.iter().any(|finding| finding.severity() == Severity::Refer),
        }
    };
    plan.damage.iter().map(damage).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_are_told_as_a_range() {
        assert_eq!(holes(&[4]), "hole 4");
    }
}
