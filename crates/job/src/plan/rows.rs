//! What goes into a row, and the row as it was against the row as it will be.

use shophead::access::solid_required;
use shophead::basis::Basis;
use shophead::finding::{Code, Finding};
use shophead::hole::{AsFound, Damage, Disposition, HoleQuery, check_seat};
use shophead::joint::compare::{Comparison, check_substitute, compare};
use shophead::joint::pack::strength_through;
use shophead::joint::row::{RowAsMade, compare_rows, row_strength, weaker};
use shophead::joint::strength::{JointStrength, Shear};
use shophead::layout::{RowLayout, check_points_sorted, check_row};
use shophead::length::{Length, Toleranced};
use shophead::practice::{Given, Practice};
use shophead::removal::removal;
use shophead::rivet::part::Part;
use shophead::select::{check_alloy, check_diameter};

use super::choice::{choice_in, push_choice};
use super::edges::row_cuts;
use super::holes::plan_holes;
use super::make::{push, push_all};
use super::{BeforeAndAfter, EdgePlan, NotCompared, RowPlan, case_of};
use crate::model::Row;

pub(super) fn plan_row<'j>(
    index: usize,
    row: &'j Row,
    edges: &mut [EdgePlan<'j>],
    practice: &'j Practice<'j>,
    done: &mut dyn FnMut(u32),
) -> RowPlan<'j> {
    let case = case_of(&row.rivet, row);
    let mut findings = Vec::new();
    let points = row
        .points
        .as_deref()
        .map(|points| check_points_sorted(points, &mut vec![0; points.len()], &[], &case, practice));
    let closest = points.as_ref().and_then(|points| points.closest_pair).map(|(_, _, distance)| distance);
    let mut of_cuts = Vec::new();
    let cuts = row_cuts(index, row, edges, &case, practice, &mut of_cuts);
    let edge = cuts.iter().map(|cut| cut.closest.1).chain(row.layout.edge).min();
    let layout = RowLayout { pitch: row.layout.pitch.or(closest), edge, ..row.layout };
    let query = HoleQuery {
        rivet: row.rivet,
        stack: Some(&row.stack),
        layout,
        rows: row.rows_in_pattern,
        member: row.member,
        practice,
    };
    let judgement = row
        .hole
        .and_then(|hole| AsFound::new(hole.max(), hole.min(), Damage::None).ok())
        .map(|found| query.judge(found));
    let choice = match &judgement {
        Some(judgement) => {
            push_all(&mut findings, &judgement.findings);
            let step = judgement.chosen();
            let rivet = step.and_then(|step| step.rivet).unwrap_or(row.rivet);
            let hole = step.and_then(|step| step.hole).or(row.hole.map(Toleranced::interval));
            let hole = hole.map(|value| Given { value, basis: Basis::HOLE_AS_MEASURED });
            choice_in(rivet, &row.stack, hole.unwrap_or_else(|| practice.assumed_hole(&case_of(&rivet, row))), practice)
        }
        None => choice_in(row.rivet, &row.stack, practice.assumed_hole(&case), practice),
    };
    push_choice(&mut findings, &choice);
    push_all(&mut findings, &check_row(row.layout, &case, practice));
    if let Some(points) = &points {
        push_all(&mut findings, &points.findings);
    }
    for finding in of_cuts {
        push(&mut findings, finding);
    }
    if let Some(thickest) = row.stack.thickest() {
        push_all(&mut findings, &check_diameter(&case, thickest, practice));
    }
    if let Some(height) = row.rivet.size().head_height_nominal() {
        push_all(&mut findings, &check_seat(&row.stack, height, &case, practice));
    }
    push_all(&mut findings, &check_alloy(&row.rivet));
    let (strength, comparison) = strengths(row, layout);
    if let Some(comparison) = &comparison {
        push_all(&mut findings, &comparison.findings);
    }
    let solid = solid_required(row.structure, row.member, &row.places);
    let mut plan = RowPlan {
        row,
        layout,
        choice,
        solid,
        judgement,
        strength,
        comparison,
        before_and_after: Err(NotCompared::NoJoint),
        holes: Vec::new(),
        cuts,
        removal: removal(&row.installed, &row.stack, layout.edge, practice),
        findings,
    };
    plan.holes = plan_holes(&plan, practice, done);
    push_all(&mut plan.findings, &check_substitute(&row.installed, &row.rivet));
    plan
}

pub(super) fn before_and_after(plan: &RowPlan<'_>) -> Result<BeforeAndAfter, NotCompared> {
    let row = plan.row;
    let edge = plan.layout.edge.ok_or(NotCompared::NoEdge)?;
    let pitch = plan.layout.pitch.ok_or(NotCompared::NoPitch)?;
    let made_of = |rivet: &Part<'_>, hole: Option<Length>| {
        let rows = u16::from(row.rows_in_pattern);
        let made =
            RowAsMade { rivet, stack: &row.stack, edge, hole, pitch, rows, staggered: None, shear: Shear::Single };
        row_strength(&made).map_err(|_| NotCompared::NoJoint)
    };
    let before = made_of(&row.installed.without_length(), None)?;
    let planned = plan.choice.part.without_length();
    let opened = plan.judgement.as_ref().filter(|judgement| judgement.disposition != Disposition::Keep);
    let mut after = made_of(&planned, opened.map(|_| plan.choice.hole.value.max))?;
    let mut stepped = 0;
    let own_layers = |number: u32| row.exceptions.iter().any(|exception| exception.holes.contains(&number));
    for hole in plan.holes.iter().filter(|hole| hole.disposition().is_step_up() && !own_layers(hole.number)) {
        let Some(choice) = &hole.choice else { continue };
        stepped += 1;
        after = weaker(after, made_of(&choice.part.without_length(), Some(choice.hole.value.max))?);
    }
    let changed = row.installed.without_length() != planned || opened.is_some() || stepped > 0;
    let ratio = if changed { compare_rows(&before, &after).ratio } else { Some(1.0) };
    Ok(BeforeAndAfter { before, after, ratio, changed, stepped })
}

/// A changed rivet refers as the comparison says. Where only holes change, an unpublished strength is no reason to stop: the ladder of
/// each hole has already looked at it.
pub(super) fn push_before_and_after(plan: &mut RowPlan<'_>) {
    let Ok(found) = &plan.before_and_after else { return };
    if !found.changed {
        return;
    }
    let another = plan.row.installed.without_length() != plan.row.rivet.without_length();
    let told = |findings: &[Finding], code| findings.iter().any(|finding| finding.code() == code);
    let comparison = compare_rows(&found.before, &found.after);
    for finding in &comparison.findings {
        let counts = another || finding.code() == Code::WeakerThanBefore;
        if counts && !told(&plan.findings, finding.code()) {
            plan.findings.push(*finding);
        }
    }
}

/// The strength of the row's rivet, and against the installed one where it is another.
fn strengths(row: &Row, layout: RowLayout) -> (Option<JointStrength>, Option<Comparison>) {
    let Some(edge) = layout.edge else { return (None, None) };
    let of = |part: &Part<'_>| strength_through(part, &row.stack, edge, None, layout.pitch, Shear::Single, None).ok();
    let planned = of(&row.rivet);
    let changed = row.installed.without_length() != row.rivet.without_length();
    let comparison = if changed {
        of(&row.installed).zip(planned.as_ref()).map(|(before, after)| compare(&before, after))
    } else {
        None
    };
    (planned, comparison)
}
