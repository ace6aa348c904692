//! A job made into its plan.

use std::collections::HashMap;

use shophead::access::{PositionWork, check_positions};
use shophead::damage;
use shophead::finding::{Finding, Findings};
use shophead::practice::Practice;
use shophead::trim::check_sides;

use super::answers::settle;
use super::edges::plan_edge;
use super::holes::Known;
use super::patterns::plan_patterns;
use super::positions::{mix, plan_positions, refer_unreachable};
use super::rows::{before_and_after, plan_row, push_before_and_after};
use super::{DamagePlan, EdgePlan, Plan, RowPlan, case_of};
use crate::model::{DamageFound, Job};

impl<'j> Plan<'j> {
    /// Plans a job with a set of limits: the job's practice, with the job's own limits on top.
    ///
    /// ```
    /// # fn main() -> Result<(), Box<dyn std::error::Error>> {
    /// use shophead_job::model::Job;
    /// use shophead_job::plan::Plan;
    /// let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/keel-skin/job.toml");
    /// let job = Job::read(path.as_ref()).expect("the demo job reads");
    /// let (own, documents) = job.own_limits.lists();
    /// let practice = job.practice.with_own(&own, &documents);
    /// let plan = Plan::make(&job, &practice);
    /// assert_eq!(plan.counts().rows as usize, job.rows.len());
    /// # Ok(())
    /// # }
    /// ```
    #[must_use]
    pub fn make(job: &'j Job, practice: &'j Practice<'j>) -> Plan<'j> {
        Plan::make_watched(job, practice, &mut |_| {})
    }

    /// The same; `done` is called with the number of holes planned so far, often.
    #[must_use]
    pub fn make_watched(job: &'j Job, practice: &'j Practice<'j>, done: &mut dyn FnMut(u32)) -> Plan<'j> {
        let mut edges: Vec<EdgePlan<'j>> = job.edges.iter().filter_map(plan_edge).collect();
        let mut before = 0;
        let mut known = Known::default();
        let mut rows: Vec<RowPlan<'j>> = Vec::with_capacity(job.rows.len());
        for (index, row) in job.rows.iter().enumerate() {
            let watched = &mut |planned| done(before + planned);
            let plan = plan_row((index, row), (&rows, &mut known), &mut edges, practice, watched);
            rows.push(plan);
            before += row.count;
            done(before);
        }
        for edge in &mut edges {
            let (below, above) = edge.sides;
            edge.findings.extend(check_sides(below, above));
        }
        let patterns = plan_patterns(&mut rows, practice);
        // Only now is it known which holes are stepped up.
        for row in &mut rows {
            row.before_and_after = before_and_after(row, practice);
            push_before_and_after(row);
        }
        let positions = plan_positions(job, &rows, practice);
        refer_unreachable(&mut rows, &positions);
        let mix = mix(job, &positions);
        let damage = job.damage.iter().map(|damage| plan_damage(damage, &rows, practice)).collect();
        let works: Vec<PositionWork> = positions.iter().map(|position| position.work).collect();
        let findings = check_positions(&works, mix.as_ref()).into_iter().collect();
        let mut plan = Plan {
            job,
            practice,
            rows,
            positions,
            mix,
            patterns,
            edges,
            damage,
            findings,
            answers: Vec::new(),
            answered: HashMap::new(),
        };
        settle(&mut plan, practice);
        plan
    }
}

fn plan_damage<'j>(damage: &'j DamageFound, rows: &[RowPlan<'j>], practice: &'j Practice<'j>) -> DamagePlan<'j> {
    let plan = damage.row.and_then(|row| rows.get(row));
    let case = plan.map(|plan| case_of(&plan.choice.part, plan.row));
    // Of several layers of one kind the thinnest.
    let layers = plan.map(|plan| plan.row.stack.layers()).unwrap_or_default();
    let thickness =
        layers.iter().filter(|layer| Some(layer.role) == damage.member).map(|layer| layer.thickness.min()).min();
    let held = damage.found.thickness(damage.found.thickness.or(thickness));
    let mut findings = Vec::new();
    push_all(&mut findings, &damage::judge(&held, case.as_ref(), practice));
    DamagePlan { damage, held, findings }
}

pub(super) fn push(findings: &mut Vec<Finding>, finding: Finding) {
    if !findings.contains(&finding) {
        findings.push(finding);
    }
}

pub(super) fn push_all(findings: &mut Vec<Finding>, others: &Findings) {
    for finding in others {
        push(findings, *finding);
    }
}
