//! Patterns of rows, and which of their holes cannot be stepped up.

use std::collections::HashMap;
use std::sync::Arc;

use shophead::finding::Findings;
use shophead::hole::Disposition;
use shophead::installation::HoleAnswer;
use shophead::pattern::{Demand, PatternLimits, choose, room_needed, tally};
use shophead::practice::Practice;

use super::make::{push, push_all};
use super::{PatternPlan, RowPlan, case_of};

/// Holds every pattern against its limits, and refers the holes that it cannot take. What is found about a row that is a pattern by
/// itself stands with the row.
pub(super) fn plan_patterns<'j>(rows: &mut [RowPlan<'j>], practice: &'j Practice<'j>) -> Vec<PatternPlan<'j>> {
    let mut groups: Vec<(Option<&'j str>, Vec<usize>)> = Vec::new();
    let mut by_name: HashMap<&'j str, usize> = HashMap::new();
    for (index, plan) in rows.iter().enumerate() {
        let row = plan.row;
        let name = row.pattern.as_deref();
        let known = name.and_then(|name| by_name.get(name)).and_then(|group| groups.get_mut(*group));
        match (known, name) {
            (Some((_, members)), _) => members.push(index),
            (None, name) => {
                if let Some(name) = name {
                    by_name.insert(name, groups.len());
                }
                groups.push((name, vec![index]));
            }
        }
    }
    let mut patterns = Vec::new();
    for (name, members) in groups {
        let pattern = plan_pattern(rows, name.unwrap_or_default(), members, practice);
        if name.is_some() {
            patterns.push(pattern);
        } else if let Some(row) = pattern.rows.first().and_then(|index| rows.get_mut(*index)) {
            for finding in pattern.findings {
                push(&mut row.findings, finding);
            }
        }
    }
    patterns
}

/// What speaks against so many holes that are stepped up, and those of them that the pattern cannot take.
pub(crate) fn beyond(limits: &PatternLimits, demands: &[Demand], wanting: u32, run: u32) -> (Findings, Vec<Demand>) {
    let found = limits.check(wanting, run);
    let mut refused = Vec::new();
    if !found.is_empty()
        && let Ok(needed) = room_needed(demands, limits)
    {
        let weighed = choose(demands, limits, &mut vec![0; needed], |index, step| {
            refused.extend(demands.get(index).filter(|_| step == Disposition::Refer).copied());
        });
        if weighed.is_err() {
            refused.clear();
        }
    }
    (found, refused)
}

fn plan_pattern<'j>(
    rows: &mut [RowPlan<'j>],
    name: &'j str,
    members: Vec<usize>,
    practice: &'j Practice<'j>,
) -> PatternPlan<'j> {
    let of = |index: &usize| rows.get(*index);
    let total = members.iter().filter_map(of).map(|plan| plan.row.count).fold(0, u32::saturating_add);
    // As the rows ask, before any of their holes is opened.
    let cases = members.iter().filter_map(of).map(|plan| case_of(&plan.row.rivet, plan.row));
    let limits = PatternLimits::of(total, practice, cases);
    // The ladder is climbed from the least change on, so that a hole which is stepped up can do with nothing less: its one step is all
    // that there is to choose from.
    let demands: Vec<Demand> = members
        .iter()
        .zip(0_u32..)
        .filter_map(|(index, place)| Some((of(index)?, place)))
        .flat_map(|(plan, place)| {
            let stepped = plan.holes.iter().filter(|hole| hole.disposition().is_step_up());
            stepped.map(move |hole| Demand::of(place, hole.number, [hole.disposition()]))
        })
        .collect();
    let (mut wanting, mut run) = tally(demands.iter().map(|demand| (demand.row, demand.number)));
    // A row whose every hole is stepped up.
    for plan in members.iter().filter_map(of) {
        if plan.answer.as_ref().is_some_and(|answer| answer.disposition.is_step_up()) {
            let own = plan.holes.iter().filter(|hole| hole.disposition().is_step_up()).count() as u32;
            wanting = wanting.saturating_add(plan.row.count.saturating_sub(own));
            run = run.max(plan.row.count);
        }
    }
    let (found, beyond) = beyond(&limits, &demands, wanting, run);
    let mut stepped = wanting;
    // Alike before, alike after.
    let mut referred: HashMap<*const HoleAnswer<'j>, Arc<HoleAnswer<'j>>> = HashMap::new();
    for demand in &beyond {
        stepped = stepped.saturating_sub(1);
        let row = members.get(demand.row as usize).and_then(|index| rows.get_mut(*index));
        let Some(holes) = row.map(|row| &mut row.holes) else { continue };
        let Ok(place) = holes.binary_search_by_key(&demand.number, |hole| hole.number) else { continue };
        let Some(hole) = holes.get_mut(place) else { continue };
        if let Some(answer) = &mut hole.answer {
            let of_it = referred.entry(Arc::as_ptr(answer)).or_insert_with(|| {
                let mut own = HoleAnswer::clone(answer);
                own.refer(limits.full());
                Arc::new(own)
            });
            *answer = Arc::clone(of_it);
        }
        hole.choice = None;
        push(&mut hole.findings, limits.full());
    }
    let mut findings = Vec::new();
    push_all(&mut findings, &found);
    for plan in members.iter().filter_map(|index| rows.get(*index)) {
        let stepped: Vec<u32> =
            plan.holes.iter().filter(|hole| hole.disposition().is_step_up()).map(|hole| hole.number).collect();
        // A job's pitch was read as above zero.
        let crowded = plan.layout.pitch.map(|pitch| limits.check_stretch(&stepped, pitch, plan.row.count));
        if let Some(Ok(Some(finding))) = crowded {
            push(&mut findings, finding);
        }
    }
    PatternPlan { name, rows: members, total, limits, wanting, stepped, findings }
}
