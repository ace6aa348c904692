//! What each work position allows.

use shophead::access::{Clearance, RowWork, cannot_buck, clearance_needed, weigh};
use shophead::length::Length;
use shophead::practice::{Case, Practice};

use super::{PositionPlan, RowPlan, case_of};
use crate::model::{Job, Position};

pub(super) fn plan_positions<'j>(
    job: &'j Job,
    rows: &[RowPlan<'j>],
    practice: &'j Practice<'j>,
) -> Vec<PositionPlan<'j>> {
    let rates = job.rates();
    let tails: Vec<(Length, Case)> =
        rows.iter().map(|plan| (longest_tail(plan), case_of(&plan.choice.part, plan.row))).collect();
    let plan = |(index, position): (usize, &'j Position)| {
        let clearance = |plan: &RowPlan<'_>| plan.row.clearance.get(index).copied().unwrap_or(Clearance::Closed);
        let blocked =
            rows.iter().zip(&tails).map(|(plan, (tail, case))| cannot_buck(clearance(plan), *tail, practice, case));
        let works = rows.iter().zip(&tails).map(|(plan, (tail, case))| RowWork {
            must: plan.solid.is_some(),
            rivets: plan.row.count,
            clearance: clearance(plan),
            needed: clearance_needed(*tail, practice, case).map(|needed| needed.value),
        });
        let works: Vec<RowWork> = works.collect();
        let work = weigh(job.set_up(position), &rates, works.iter().copied());
        PositionPlan { position, blocked: blocked.collect(), work, serves: work.serves, rows: works }
    };
    job.positions.iter().enumerate().map(plan).collect()
}

/// The longest tail in a row before it is driven.
fn longest_tail(plan: &RowPlan<'_>) -> Length {
    let row_tail = plan.choice.longest_tail(plan.row.stack.grip());
    let hole_tails = plan.holes.iter().filter_map(|hole| hole.choice.as_ref()?.longest_tail(hole.stack.grip()));
    hole_tails.chain(row_tail).max().unwrap_or(Length::ZERO)
}
