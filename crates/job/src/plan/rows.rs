//! What goes into a row, and the row as it was against the row as it will be.

use shophead::access::solid_required;
use shophead::finding::Code;
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::joint::row::{compare_rows, weaker};
use shophead::layout::closest_sorted;
use shophead::length::{Length, Toleranced};
use shophead::practice::Practice;
use shophead::removal::removal;
use shophead::rivet::part::Part;
use shophead::stack::Stack;

use super::choice::{choose, push_choice};
use super::edges::row_cuts;
use super::holes::{Known, ask_alike, plan_holes};
use super::make::{push, push_all};
use super::{BeforeAndAfter, EdgePlan, NotCompared, RowPlan, question_of};
use crate::model::Row;

pub(super) fn plan_row<'j>(
    (index, row): (usize, &'j Row),
    (before, known): (&[RowPlan<'j>], &mut Known<'j>),
    edges: &mut [EdgePlan<'j>],
    practice: &'j Practice<'j>,
    done: &mut dyn FnMut(u32),
) -> RowPlan<'j> {
    let rivet = row.rivet.without_length();
    let mut findings = Vec::new();
    let closest = row.points.as_deref().and_then(|points| {
        let closest = closest_sorted(points, &mut vec![0; points.len()], &[]).pair;
        closest.map(|(_, _, distance)| distance)
    });
    let mut of_cuts = Vec::new();
    let at_row = question_of(row, rivet, &row.stack, row.layout, practice);
    let cuts = row_cuts(index, row, edges, &at_row, &mut of_cuts);
    let cut = cuts.iter().map(|cut| cut.closest.1).min();
    let edge = cut.into_iter().chain(row.layout.edge).min();
    // The points say how close the closest stand, whatever the pitch is said to be.
    let pitch = closest.into_iter().chain(row.layout.pitch).min();
    let layout = row.layout.pitch(pitch).edge(edge);
    let mut question = question_of(row, rivet, &row.stack, layout, practice);
    if let Some(cut) = cut.filter(|cut| edge == Some(*cut)) {
        question = question.new_edge(cut);
    }
    let found = row.hole.and_then(|hole| AsFound::new(hole.max(), hole.min(), Damage::None).ok());
    let answer = found.map(|found| question.hole(found));
    let choice = match found.zip(answer.as_ref()) {
        Some((found, answer)) => {
            push_all(&mut findings, &answer.findings);
            // A hole that is referred is planned as it is found, so that the rest of the plan can be read.
            choose(&question.after(found, answer).unwrap_or(question.in_hole(Toleranced::from_least(found.interval()))))
        }
        None => choose(&question),
    };
    push_choice(&mut findings, &choice);
    for finding in of_cuts {
        push(&mut findings, finding);
    }
    let strength = question.strength();
    // What the strengths of a row lack is said by the comparison; what they need and were not given is said here.
    if let Ok(strength) = &strength {
        let said = |code| matches!(code, Code::NotChecked | Code::AsStrongAsBefore | Code::WeakerThanBefore);
        for finding in strength.findings.iter().filter(|finding| said(finding.code())) {
            push(&mut findings, *finding);
        }
    }
    let comparison = if row.is_unchanged() { None } else { question.compare().ok().flatten() };
    if let Some(comparison) = &comparison {
        push_all(&mut findings, &comparison.findings);
    }
    let mut plan = RowPlan {
        row,
        layout,
        choice,
        solid: solid_required(row.structure, row.member, &row.places),
        answer,
        strength: strength.ok(),
        comparison,
        before_and_after: Err(NotCompared::NoJoint),
        holes: Vec::new(),
        cuts,
        removal: removal(&row.installed, row.stack_before(), layout.edge, practice),
        findings,
        referred: false,
        ruling: None,
        waits: false,
    };
    // The first row that asks alike, or this one.
    let kind = before.iter().position(|other| ask_alike(other, &plan)).unwrap_or(index);
    plan.holes = plan_holes(&plan, kind, known, practice, done);
    plan
}

pub(super) fn before_and_after<'j>(
    plan: &RowPlan<'j>,
    practice: &'j Practice<'j>,
) -> Result<BeforeAndAfter, NotCompared> {
    let row = plan.row;
    plan.layout.edge.ok_or(NotCompared::NoEdge)?;
    plan.layout.pitch.ok_or(NotCompared::NoPitch)?;
    let made_through = |rivet: Part<'j>, stack: &'j Stack, hole: Option<Length>| {
        let question = question_of(row, rivet, stack, plan.layout, practice);
        let question = hole.map_or(question, |hole| question.in_hole(Toleranced::exactly(hole)));
        question.row().map_err(|_| NotCompared::NoJoint)
    };
    let made_of = |rivet: Part<'j>, hole: Option<Length>| made_through(rivet, &row.stack, hole);
    let before = made_through(row.installed.without_length(), row.stack_before(), None)?;
    let planned = plan.choice.part.without_length();
    let opened = plan.answer.as_ref().filter(|answer| answer.disposition != Disposition::Keep);
    let mut after = made_of(planned, opened.map(|_| plan.choice.hole.value.max()))?;
    let mut stepped = 0;
    let own_layers = |number: u32| row.exceptions.iter().any(|exception| exception.holes.contains(&number));
    for hole in plan.holes.iter().filter(|hole| hole.disposition().is_step_up() && !own_layers(hole.number)) {
        let Some(choice) = &hole.choice else { continue };
        stepped += 1;
        after = weaker(after, made_of(choice.part.without_length(), Some(choice.hole.value.max()))?);
    }
    let same_layers = *row.stack_before() == row.stack;
    let changed = row.installed.without_length() != planned || !same_layers || opened.is_some() || stepped > 0;
    let ratio = if changed { compare_rows(&before, &after).ratio } else { Some(1.0) };
    Ok(BeforeAndAfter { before, after, ratio, changed, stepped })
}

/// What the comparison of the whole row says, once.
pub(super) fn push_before_and_after(plan: &mut RowPlan<'_>) {
    let Ok(found) = &plan.before_and_after else { return };
    if !found.changed {
        return;
    }
    for finding in &compare_rows(&found.before, &found.after).findings {
        if !plan.findings.iter().any(|said| said.code() == finding.code()) {
            plan.findings.push(*finding);
        }
    }
}
