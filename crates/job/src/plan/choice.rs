//! A rivet, its hole and the length for them.

use shophead::finding::{Code, Finding, Severity};
use shophead::length::{Interval, Toleranced};
use shophead::practice::{Case, Given, Practice};
use shophead::rivet::part::Part;
use shophead::select::LengthQuery;
use shophead::stack::Stack;
use shophead::upset::{HeadLimits, PredictedHead};

use super::Choice;
use super::make::{push, push_all};

/// A rivet of the length that this pack and this hole need.
#[must_use]
pub fn choice_in<'j>(part: Part<'j>, stack: &Stack, hole: Given<Interval>, practice: &'j Practice<'j>) -> Choice<'j> {
    let length = length_query(&part, stack, hole.value, practice).choose();
    let chosen = length.as_ref().ok().and_then(|choice| choice.length);
    let part = chosen.and_then(|length| part.with_length(length).ok()).unwrap_or(part);
    Choice { part, hole, length }
}

/// Whether a rivet of another length does as well in this pack and this hole.
#[must_use]
pub fn is_within_limits(part: &Part<'_>, stack: &Stack, hole: Interval, practice: &Practice<'_>) -> bool {
    let Some(length) = part.length() else { return false };
    length_query(part, stack, hole, practice).assess(length).is_ok_and(|findings| !findings.must_refer())
}

/// The driven heads that a rivet makes in this pack and this hole at the height of the practice; `None` where that cannot be told.
#[must_use]
pub fn head_of(
    part: &Part<'_>,
    stack: &Stack,
    hole: Interval,
    practice: &Practice<'_>,
    case: &Case,
) -> Option<PredictedHead> {
    let height = HeadLimits::of(practice, case).height_target?;
    let fit = length_query(part, stack, hole, practice).fit().ok()?;
    Some(fit.predict(part.length()?, height.value))
}

pub(super) fn does_for(choice: &Choice<'_>, stack: &Stack, hole: Given<Interval>, practice: &Practice<'_>) -> bool {
    is_within_limits(&choice.part, stack, hole.value, practice)
}

fn length_query<'a>(part: &Part<'a>, stack: &Stack, hole: Interval, practice: &'a Practice<'a>) -> LengthQuery<'a> {
    LengthQuery {
        series: part.series(),
        alloy: part.alloy(),
        size: part.size(),
        grip: stack.grip(),
        hole: Toleranced::from_least(hole),
        practice,
    }
}

pub(super) fn push_choice<'j>(findings: &mut Vec<Finding>, choice: &Choice<'j>) {
    match &choice.length {
        Ok(length) => push_all(findings, &length.findings),
        Err(_) => push(findings, Finding::new(Code::NoLengthFits, Severity::Refer, choice.part.size().basis)),
    }
}
