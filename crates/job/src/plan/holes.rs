//! What becomes of each hole that was measured or that differs from its row.

use std::collections::HashMap;
use std::sync::Arc;

use shophead::basis::Basis;
use shophead::finding::Finding;
use shophead::hole::{AsFound, Damage, HoleJudgement, HoleQuery};
use shophead::layout::{RowLayout, check_row};
use shophead::length::Length;
use shophead::practice::{Given, Practice};
use shophead::removal::{Removal, removal};
use shophead::stack::Stack;

use super::choice::{choice_in, does_for, push_choice};
use super::make::push_all;
use super::{Choice, HolePlan, RowPlan, case_of};
use crate::model::Exception;

/// What two holes of a row have in common when the same comes of both.
type Alike = (Option<(Length, Length, Damage)>, [Option<Length>; 3], Option<usize>);

/// What comes of holes that are alike; kept once for all of them.
struct Outcome<'j> {
    judgement: Option<Arc<HoleJudgement<'j>>>,
    choice: Option<Arc<Choice<'j>>>,
    removal: Option<Removal>,
    findings: Vec<Finding>,
}

pub(super) fn plan_holes<'j>(
    plan: &RowPlan<'j>,
    practice: &'j Practice<'j>,
    done: &mut dyn FnMut(u32),
) -> Vec<HolePlan<'j>> {
    let row = plan.row;
    let mut exceptions: HashMap<u32, usize> = HashMap::new();
    for (index, exception) in row.exceptions.iter().enumerate() {
        for number in &exception.holes {
            exceptions.entry(*number).or_insert(index);
        }
    }
    let mut numbers: Vec<u32> = row.measured.iter().map(|hole| hole.number).collect();
    numbers.extend(exceptions.keys());
    numbers.sort_unstable();
    numbers.dedup();
    let mut known: HashMap<Alike, Outcome<'j>> = HashMap::new();
    let mut holes = Vec::with_capacity(numbers.len());
    for number in numbers {
        done(number);
        let measured = row.measured.binary_search_by_key(&number, |hole| hole.number).ok();
        let measured = measured.and_then(|index| row.measured.get(index));
        let exception = exceptions.get(&number).and_then(|index| Some((*index, row.exceptions.get(*index)?)));
        let layout = hole_layout(number, plan, exception.map(|(_, exception)| exception));
        let stack = exception.map_or(&row.stack, |(_, exception)| &exception.stack);
        let found = measured.map(|hole| hole.as_found);
        let alike = (
            found.map(|found| (found.major(), found.minor(), found.damage())),
            [layout.edge, layout.pitch, layout.transverse_pitch],
            exception.map(|(index, _)| index),
        );
        let outcome =
            known.entry(alike).or_insert_with(|| plan_hole(found, layout, stack, exception.is_some(), plan, practice));
        holes.push(HolePlan {
            number,
            about: exception.map_or("", |(_, exception)| exception.about.as_str()),
            measured,
            judgement: outcome.judgement.clone(),
            stack,
            choice: outcome.choice.clone(),
            removal: outcome.removal.clone(),
            findings: outcome.findings.clone(),
        });
    }
    holes
}

/// The distances of one hole: its own before its row's, and the nearest cut where that is closer.
pub(super) fn hole_layout(number: u32, plan: &RowPlan<'_>, exception: Option<&Exception>) -> RowLayout {
    let own = exception.map(|exception| exception.layout).unwrap_or_default();
    let index = number.saturating_sub(1) as usize;
    let cuts = plan.cuts.iter().filter_map(|cut| cut.distances.get(index)).copied();
    RowLayout {
        edge: cuts.chain(own.edge.or(plan.row.layout.edge)).min(),
        pitch: own.pitch.or(plan.layout.pitch),
        transverse_pitch: own.transverse_pitch.or(plan.layout.transverse_pitch),
    }
}

fn plan_hole<'j>(
    found: Option<AsFound>,
    layout: RowLayout,
    stack: &'j Stack,
    is_exception: bool,
    plan: &RowPlan<'j>,
    practice: &'j Practice<'j>,
) -> Outcome<'j> {
    let row = plan.row;
    let rivet = plan.choice.part.without_length();
    let mut findings = Vec::new();
    let query =
        HoleQuery { rivet, stack: Some(stack), layout, rows: row.rows_in_pattern, member: row.member, practice };
    let judgement = found.map(|found| query.judge(found));
    if let Some(judgement) = &judgement {
        push_all(&mut findings, &judgement.findings);
    } else {
        // Not measured, so it is here because of its layers or its edge.
        let case = case_of(&rivet, row);
        push_all(&mut findings, &check_row(layout, &case, practice));
    }
    let choice = match &judgement {
        None => Some(choice_in(rivet, stack, plan.choice.hole, practice)),
        Some(judgement) => judgement.chosen().and_then(|step| {
            let (part, hole) = (step.rivet?, step.hole?);
            let hole = Given { value: hole, basis: Basis::HOLE_AS_MEASURED };
            // The row's own length is kept where it does for this hole too: one length fewer to mix up.
            let same = !is_exception && part.without_length() == rivet && does_for(&plan.choice, stack, hole, practice);
            Some(if same { Choice { hole, ..plan.choice.clone() } } else { choice_in(part, stack, hole, practice) })
        }),
    };
    if let Some(choice) = &choice {
        push_choice(&mut findings, choice);
    }
    let removal = is_exception.then(|| removal(&row.installed, stack, layout.edge, practice));
    Outcome { judgement: judgement.map(Arc::new), choice: choice.map(Arc::new), removal, findings }
}
