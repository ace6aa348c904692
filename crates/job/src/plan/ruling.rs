//! What an answer puts into a hole or a row: asked of the core, and kept as it was given.

use shophead::answer::{Answered, Ruling};
use shophead::drill::Drill;
use shophead::finding::Finding;
use shophead::hole::AsFound;
use shophead::installation::Installation;
use shophead::length::Toleranced;
use shophead::practice::Practice;
use shophead::rivet::part::Part;

use super::choice::{choose, head_of};
use super::{Choice, HolePlan, RowPlan, question_of};
use crate::model::{Answer, MeasuredHole};

/// What goes in by an answer.
pub(super) struct Ruled<'j> {
    pub(super) choice: Choice<'j>,
    /// The drill or reamer to open the hole with; `None` when it stays as it is.
    pub(super) cut: Option<Drill>,
    /// What the answer breaks, as cautions.
    pub(super) findings: Vec<Finding>,
}

/// The rivet of one hole; `None` where the answer leaves none.
pub(super) fn in_hole<'j>(
    row: &RowPlan<'j>,
    hole: &HolePlan<'j>,
    answer: &'j Answer,
    practice: &'j Practice<'j>,
) -> Option<Ruled<'j>> {
    let question = row.question(hole.number, practice);
    let opened = hole.measured.and_then(|measured| opened_for(row, measured, answer, practice));
    let answered = match opened {
        Some(rivet) => Answered::new(Ruling::Keep).rivet(rivet),
        None => as_said(answer),
    };
    ruled(&question, hole.measured.map(|measured| measured.as_found), &answered, practice)
}

/// The rivet of an answer for a hole that was opened as it said, and was before as the answer was given for.
pub(super) fn opened_for<'j>(
    row: &RowPlan<'j>,
    hole: &MeasuredHole,
    answer: &'j Answer,
    practice: &'j Practice<'j>,
) -> Option<Part<'j>> {
    let (before, drill) = (
        hole.before.filter(|before| answer.given_for.hole.is_some_and(|given| given.measures_as(before)))?,
        hole.opened?,
    );
    row.question(hole.number, practice).opened_as_answered(before, &as_said(answer), drill, hole.as_found)
}

fn as_said(answer: &Answer) -> Answered<'_> {
    Answered::new(answer.ruling).rivet(answer.rivet).drill(answer.drill)
}

/// The rivet of most holes of a row, where the answer names another or another hole.
pub(super) fn in_row<'j>(row: &RowPlan<'j>, answer: &'j Answer, practice: &'j Practice<'j>) -> Option<Ruled<'j>> {
    if answer.rivet.is_none() && answer.drill.is_none() {
        return None;
    }
    let rivet = row.choice.part.without_length();
    let question = question_of(row.row, rivet, &row.row.stack, row.layout, practice);
    ruled(&question, None, &as_said(answer), practice)
}

fn ruled<'j>(
    question: &Installation<'j, 'j>,
    found: Option<AsFound>,
    answered: &Answered<'j>,
    practice: &'j Practice<'j>,
) -> Option<Ruled<'j>> {
    let step = question.as_answered(found, answered)?;
    let (rivet, hole) = (step.rivet?, step.hole?);
    let in_hole = question.with_rivet(rivet).in_hole(Toleranced::from_least(hole));
    let mut choice = choose(&in_hole);
    // A length that is part of the answer is not ours to change.
    if let Some(length) = rivet.length() {
        choice.part = rivet;
        if let Ok(chosen) = &mut choice.length {
            chosen.part = Some(rivet);
            chosen.length = Some(length);
            chosen.protrusion = in_hole.fit().ok().map(|fit| fit.protrusion(length));
            chosen.head = head_of(&in_hole, hole, practice);
        }
    }
    Some(Ruled { choice, cut: step.cut, findings: step.findings.iter().copied().collect() })
}
