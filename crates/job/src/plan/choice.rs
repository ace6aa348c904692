//! A rivet, its hole and the length for them.

use shophead::finding::Finding;
use shophead::installation::Installation;
use shophead::length::{Interval, Toleranced};
use shophead::practice::{Given, Practice};
use shophead::rivet::part::Part;
use shophead::select::Assessed;
use shophead::upset::{HeadLimits, PredictedHead};

use super::Choice;
use super::make::{push, push_all};

/// The rivet of a question in the length that its pack and its hole need.
#[must_use]
pub(crate) fn choose<'j>(question: &Installation<'_, 'j>) -> Choice<'j> {
    let Given { value, basis } = question.hole_or_drilled();
    let hole = Given { value: value.interval(), basis };
    let length = question.length();
    let chosen = length.as_ref().ok().and_then(|answer| answer.part);
    Choice { part: chosen.unwrap_or(question.rivet().without_length()), hole, length }
}

/// Whether a rivet of another length does as well in this hole.
#[must_use]
pub(crate) fn fits(question: &Installation<'_, '_>, part: &Part<'_>, hole: Interval) -> bool {
    let question = question.in_hole(Toleranced::from_least(hole));
    part.length().is_some_and(|length| question.length_fits(length) == Ok(true))
}

/// What becomes of a rivet of another length in this hole, where it does as well.
#[must_use]
pub(crate) fn serving(question: &Installation<'_, '_>, part: &Part<'_>, hole: Interval) -> Option<Assessed> {
    let assessed = question.in_hole(Toleranced::from_least(hole)).assess(part.length()?).ok()?;
    assessed.serves.then_some(assessed)
}

/// The driven heads that a rivet of this length makes in its pack and this hole at the height of the practice; `None` where that cannot be
/// told.
#[must_use]
pub(crate) fn head_of(
    question: &Installation<'_, '_>,
    hole: Interval,
    practice: &Practice<'_>,
) -> Option<PredictedHead> {
    let height = HeadLimits::of(practice, &question.case()).height_target?;
    let fit = question.in_hole(Toleranced::from_least(hole)).fit().ok()?;
    Some(fit.predict(question.rivet().length()?, height.value))
}

pub(super) fn push_choice(findings: &mut Vec<Finding>, choice: &Choice<'_>) {
    match &choice.length {
        Ok(length) => push_all(findings, &length.findings),
        Err(error) => push(findings, error.finding(&choice.part)),
    }
}
