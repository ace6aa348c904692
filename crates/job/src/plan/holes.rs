//! What becomes of each hole that was measured or that differs from its row.

use std::collections::HashMap;
use std::sync::Arc;

use shophead::finding::{Finding, Severity};
use shophead::hole::AsFound;
use shophead::installation::HoleAnswer;
use shophead::layout::RowLayout;
use shophead::length::Length;
use shophead::practice::Practice;
use shophead::removal::{Removal, removal};
use shophead::stack::Stack;

use super::choice::{choose, fits, push_choice};
use super::make::push_all;
use super::{Choice, HolePlan, RowPlan, question_of};
use crate::model::Exception;

/// What two holes have in common when the same comes of both: the first row that asks as theirs does, the hole, its distances, its exception.
type Alike = (usize, Option<AsFound>, [Option<Length>; 3], Option<usize>);

/// What came of the holes so far, row after row: a job has many rows of few kinds.
#[derive(Default)]
pub(super) struct Known<'j>(HashMap<Alike, Outcome<'j>>);

/// Whether the holes of two rows are asked about alike, where the holes themselves are alike.
pub(super) fn ask_alike(one: &RowPlan<'_>, other: &RowPlan<'_>) -> bool {
    let (row, own) = (one.row, other.row);
    // An exception belongs to its row.
    row.exceptions.is_empty()
        && own.exceptions.is_empty()
        && (row.installed, row.structure, row.member, row.rows_in_pattern)
            == (own.installed, own.structure, own.member, own.rows_in_pattern)
        && row.stack == own.stack
        && row.stack_before() == own.stack_before()
        && (one.choice.part, one.choice.hole) == (other.choice.part, other.choice.hole)
        && one.choice.length == other.choice.length
        && one.removal == other.removal
}

/// What comes of holes that are alike; kept once for all of them.
struct Outcome<'j> {
    answer: Option<Arc<HoleAnswer<'j>>>,
    choice: Option<Arc<Choice<'j>>>,
    removal: Option<Removal>,
    findings: Vec<Finding>,
}

pub(super) fn plan_holes<'j>(
    plan: &RowPlan<'j>,
    kind: usize,
    Known(known): &mut Known<'j>,
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
    let mut holes: Vec<HolePlan<'j>> = Vec::with_capacity(numbers.len());
    for number in &numbers {
        done(*number);
        holes.push(hole_plan(*number, Length::ZERO, (plan, kind), &exceptions, known, practice));
    }
    // A hole that is drilled round again moves, and so does its neighbour: of the pitch between them both take their part.
    let moves = |hole: &HolePlan<'_>| {
        let answer = hole.answer.as_deref()?;
        Some(answer.moves(&hole.measured?.as_found)).filter(|moves| *moves > Length::ZERO)
    };
    let moved: HashMap<u32, Length> = holes.iter().filter_map(|hole| Some((hole.number, moves(hole)?))).collect();
    for hole in holes.iter_mut().filter(|hole| hole.measured.is_some()) {
        let beside = [hole.number.checked_sub(1), hole.number.checked_add(1)];
        if let Some(moves) = beside.into_iter().flatten().filter_map(|number| moved.get(&number)).max() {
            *hole = hole_plan(hole.number, *moves, (plan, kind), &exceptions, known, practice);
        }
    }
    holes
}

/// The same distances with a neighbour that may come so much closer.
pub(super) fn closer(layout: RowLayout, neighbour_moves: Length) -> RowLayout {
    let pitch = layout.pitch.map(|pitch| pitch.checked_sub(neighbour_moves).unwrap_or(Length::ZERO));
    layout.pitch(pitch)
}

/// What becomes of one hole.
fn hole_plan<'j>(
    number: u32,
    neighbour_moves: Length,
    (plan, kind): (&RowPlan<'j>, usize),
    exceptions: &HashMap<u32, usize>,
    known: &mut HashMap<Alike, Outcome<'j>>,
    practice: &'j Practice<'j>,
) -> HolePlan<'j> {
    let row = plan.row;
    let measured = row.measured.binary_search_by_key(&number, |hole| hole.number).ok();
    let measured = measured.and_then(|index| row.measured.get(index));
    let exception = exceptions.get(&number).and_then(|index| Some((*index, row.exceptions.get(*index)?)));
    let layout = hole_layout(number, plan, exception.map(|(_, exception)| exception));
    let layout = closer(layout, neighbour_moves);
    let stack = exception.map_or(&row.stack, |(_, exception)| &exception.stack);
    let found = measured.map(|hole| hole.as_found);
    let alike = (kind, found, [layout.edge, layout.pitch, layout.transverse_pitch], exception.map(|(index, _)| index));
    let outcome =
        known.entry(alike).or_insert_with(|| plan_hole(found, layout, stack, exception.is_some(), plan, practice));
    HolePlan {
        number,
        about: exception.map_or("", |(_, exception)| exception.about.as_str()),
        measured,
        neighbour_moves,
        answer: outcome.answer.clone(),
        stack,
        choice: outcome.choice.clone(),
        removal: outcome.removal.clone(),
        findings: outcome.findings.clone(),
        ruling: None,
    }
}

/// The distances of one hole: its own before its row's, and the nearest cut where that is closer.
pub(super) fn hole_layout(number: u32, plan: &RowPlan<'_>, exception: Option<&Exception>) -> RowLayout {
    let own = exception.map(|exception| exception.layout).unwrap_or_default();
    let index = number.saturating_sub(1) as usize;
    let cuts = plan.cuts.iter().filter_map(|cut| cut.distances.get(index)).copied();
    RowLayout::default()
        .edge(cuts.chain(own.edge.or(plan.row.layout.edge)).min())
        .pitch(own.pitch.or(plan.layout.pitch))
        .transverse_pitch(own.transverse_pitch.or(plan.layout.transverse_pitch))
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
    let question = question_of(row, rivet, stack, layout, practice);
    let answer = found.map(|found| question.hole(found));
    let choice = match found.zip(answer.as_ref()) {
        // Not measured, so it is here because of its layers or its edge.
        None => Some(choose(&question)),
        Some((found, answer)) => question.after(found, answer).map(|after| {
            // The row's own length is kept where it does for this hole too: one length fewer to mix up.
            let hole = after.hole_or_drilled().value.interval();
            let same = !is_exception && after.rivet() == rivet && fits(&after, &plan.choice.part, hole);
            let own = choose(&after);
            if same { Choice { hole: own.hole, ..plan.choice.clone() } } else { own }
        }),
    };
    match &answer {
        Some(answer) => push_all(&mut findings, &answer.findings),
        None => {
            if let Some(choice) = &choice {
                push_choice(&mut findings, choice);
            }
        }
    }
    if let Some(Ok(length)) = choice.as_ref().map(|choice| &choice.length) {
        push_all(&mut findings, &length.findings);
    }
    // What was not measured and has to be referred has no rivet yet, either.
    let choice = choice.filter(|_| answer.is_some() || findings.iter().all(|found| found.severity() < Severity::Refer));
    let removal = is_exception.then(|| removal(&row.installed, stack, layout.edge, practice));
    let removal = removal.filter(|own| *own != plan.removal);
    Outcome { answer: answer.map(Arc::new), choice: choice.map(Arc::new), removal, findings }
}

#[cfg(test)]
mod tests {
    use super::super::Plan;
    use super::*;
    use crate::prelude::demo;

    #[test]
    fn a_hole_takes_little_room_and_what_becomes_of_it_is_kept_once_for_all_that_are_alike() {
        let mut job = demo("keel-skin");
        let row = job.rows.iter_mut().find(|row| row.name == "F3").expect("a row of the demo");
        let [one, other] = &mut row.measured[..] else { panic!("two holes of F3 were measured") };
        other.as_found = one.as_found;
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        let plan = Plan::make(&job, &practice);
        let [one, other] = &plan.rows.iter().find(|plan| plan.row.name == "F3").expect("the same row").holes[..] else {
            panic!("two holes")
        };
        let (answers, choices) =
            (one.answer.as_ref().zip(other.answer.as_ref()), one.choice.as_ref().zip(other.choice.as_ref()));
        assert!(answers.is_some_and(|(one, other)| Arc::ptr_eq(one, other)));
        assert!(choices.is_some_and(|(one, other)| Arc::ptr_eq(one, other)), "{choices:?}");
        // Its answer; what stands for each hole besides; and the choice of its rivet, with the lengths that will do.
        assert!(size_of::<HoleAnswer<'_>>() <= 600, "{}", size_of::<HoleAnswer<'_>>());
        assert!(size_of::<HolePlan<'_>>() <= 200, "{}", size_of::<HolePlan<'_>>());
        assert!(size_of::<Choice<'_>>() <= 1_136, "{}", size_of::<Choice<'_>>());
    }
}
