//! Driven rivets judged against the plan: what may stay, what becomes of the rest, what has to be ordered again.

use std::collections::HashMap;

use shophead::finding::{Finding, Findings};
use shophead::hole::{AsFound, Damage};
use shophead::length::Length;
use shophead::practice::Given;
use shophead::rivet::part::Part;
use shophead::upset::{Defect, Remedy, check_sample, driven_where_referred, judge_seen, nothing_looked_at};

use crate::model::Look;
use crate::order::{OrderLine, order_of};
use crate::plan::{Choice, Plan, RowPlan, choose};
use crate::read::{DrivenFile, DrivenLine};

/// How a job stands once its rivets were inspected.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum State {
    /// Every rivet of the job was looked at and may stay, and so was every other place to look at.
    Accepted,
    /// What was looked at may stay.
    AcceptedSoFar,
    /// Some may not stay.
    Rejected,
    /// Nobody looked at any rivet, so nothing is accepted.
    NotLookedAt,
}

impl State {
    /// The word used in output.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            State::Accepted => "accepted",
            State::AcceptedSoFar => "accepted-so-far",
            State::Rejected => "rejected",
            State::NotLookedAt => "not-looked-at",
        }
    }
}

/// An inspection.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Inspection<'p, 'j> {
    /// Every rivet that was looked at, row by row.
    pub rivets: Vec<Inspected<'p, 'j>>,
    /// Every row of the job, in its order.
    pub rows: Vec<RowTally<'j>>,
    /// How many holes the job has.
    pub holes: u32,
    /// How many heads were measured, both ways.
    pub measured: u32,
    /// The other places to look at of which the job does not say yet what was found.
    pub open_looks: Vec<&'j Look>,
}

/// A rivet that was looked at.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Inspected<'p, 'j> {
    /// Its row.
    pub row: &'p RowPlan<'j>,
    /// What the file says of it; where it says several things, the last one.
    pub line: &'p DrivenLine,
    /// How many earlier lines the file has for it.
    pub earlier: u32,
    /// The rivet planned there.
    pub planned: Option<Part<'j>>,
    /// What was found.
    pub findings: Findings,
    /// What to do about it; `None` where it may stay.
    pub remedy: Option<Given<Remedy>>,
    /// What goes in instead; `None` where it may stay or is referred.
    pub replacement: Option<Part<'j>>,
}

impl Inspected<'_, '_> {
    /// Whether it may stay.
    #[must_use]
    pub const fn is_accepted(&self) -> bool {
        self.remedy.is_none()
    }
}

/// What was found in one row.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct RowTally<'j> {
    /// Its name.
    pub name: &'j str,
    /// How many holes it has.
    pub holes: u32,
    /// How many of its rivets were looked at.
    pub looked_at: u32,
    /// How many of those may not stay.
    pub rejected: u32,
    /// What that says about the others.
    pub sample: Option<Finding>,
}

impl<'p, 'j> Inspection<'p, 'j> {
    /// Judges every rivet of a driven file against the plan.
    #[must_use]
    pub fn make(plan: &'p Plan<'j>, file: &'p DrivenFile) -> Inspection<'p, 'j> {
        let mut latest: HashMap<(usize, u32), (&'p DrivenLine, u32)> = HashMap::with_capacity(file.lines.len());
        for line in &file.lines {
            latest
                .entry((line.row, line.number))
                .and_modify(|(last, earlier)| {
                    *last = line;
                    *earlier += 1;
                })
                .or_insert((line, 0));
        }
        let mut lines: Vec<(&'p DrivenLine, u32)> = latest.into_values().collect();
        lines.sort_by_key(|(line, _)| (line.row, line.number));
        let rivets: Vec<Inspected<'p, 'j>> = lines
            .into_iter()
            .filter_map(|(line, earlier)| Some(inspect(plan, plan.rows.get(line.row)?, line, earlier)))
            .collect();
        let mut rows: Vec<RowTally<'j>> = plan
            .rows
            .iter()
            .map(|row| RowTally { name: &row.row.name, holes: row.row.count, looked_at: 0, rejected: 0, sample: None })
            .collect();
        for rivet in &rivets {
            if let Some(row) = rows.get_mut(rivet.line.row) {
                row.looked_at += 1;
                row.rejected += u32::from(!rivet.is_accepted());
            }
        }
        for row in &mut rows {
            row.sample = check_sample(row.rejected, row.looked_at, row.holes);
        }
        let measured =
            |rivet: &&Inspected<'_, '_>| rivet.line.head.diameter.is_some() && rivet.line.head.height.is_some();
        let measured = rivets.iter().filter(measured).count() as u32;
        let open_looks = plan.job.looks.iter().filter(|look| look.found.is_none()).collect();
        Inspection { rivets, rows, holes: plan.counts().holes, measured, open_looks }
    }

    /// How many rivets were looked at.
    #[must_use]
    pub fn looked_at(&self) -> u32 {
        self.rivets.len() as u32
    }

    /// How many of them may stay.
    #[must_use]
    pub fn accepted(&self) -> u32 {
        self.rivets.iter().filter(|rivet| rivet.is_accepted()).count() as u32
    }

    /// How many may not stay.
    #[must_use]
    pub fn rejected(&self) -> u32 {
        self.looked_at() - self.accepted()
    }

    /// The state of the whole job.
    #[must_use]
    pub fn state(&self) -> State {
        if self.rivets.is_empty() {
            State::NotLookedAt
        } else if self.rejected() > 0 {
            State::Rejected
        } else if self.looked_at() < self.holes || !self.open_looks.is_empty() {
            State::AcceptedSoFar
        } else {
            State::Accepted
        }
    }

    /// What holds of the whole job: that nobody looked at any rivet.
    #[must_use]
    pub fn finding(&self) -> Option<Finding> {
        (self.state() == State::NotLookedAt).then(nothing_looked_at)
    }

    /// The rivets that go in where a rejected one comes out.
    #[must_use]
    pub fn replacements(&self) -> Vec<Part<'j>> {
        self.rivets.iter().filter_map(|rivet| rivet.replacement).collect()
    }

    /// What to order for the rejected rivets.
    #[must_use]
    pub fn order(&self, spares_percent: u32) -> Vec<OrderLine<'j>> {
        order_of(self.replacements().into_iter().map(|part| (part, 1)), spares_percent, None)
    }
}

fn inspect<'p, 'j>(plan: &'p Plan<'j>, row: &'p RowPlan<'j>, line: &'p DrivenLine, earlier: u32) -> Inspected<'p, 'j> {
    let choice = row.choice_for(line.number).filter(|choice| choice.is_complete());
    let planned = choice.map(|choice| choice.part);
    let rivet = plan.practice.rivet(planned.unwrap_or(row.choice.part));
    let head = &line.head;
    let seen: Vec<Defect> = head.seen.iter().map(|defect| with_head_height(*defect, &rivet)).collect();
    let judged = judge_seen(head.diameter, head.height, &seen, plan.practice, &row.case(&rivet));
    let (mut findings, mut remedy) = (judged.findings, judged.remedy);
    if choice.is_none() {
        let finding = driven_where_referred();
        findings.push(finding);
        remedy = Some(Given { value: Remedy::Refer, basis: finding.basis() });
    }
    let mut replacement = None;
    match (remedy.map(|remedy| remedy.value), choice) {
        (Some(Remedy::Replace), Some(choice)) => replacement = Some(choice.part),
        (Some(Remedy::NextSize), Some(choice)) => {
            replacement = next_size(plan, row, line.number, choice, &mut findings);
            if replacement.is_none() {
                // No step up is to be had here, so somebody has to decide.
                remedy = remedy.map(|remedy| Given { value: Remedy::Refer, ..remedy });
            }
        }
        _ => {}
    }
    Inspected { row, line, earlier, planned, findings, remedy, replacement }
}

/// A tool mark is checked against the height of the manufactured head. Where that is not known no depth of mark is accepted.
fn with_head_height(defect: Defect, rivet: &Part<'_>) -> Defect {
    match defect {
        Defect::ToolMark { depth, .. } => {
            Defect::ToolMark { depth, head_height: rivet.size().head_height_nominal().unwrap_or(Length::ZERO) }
        }
        other => other,
    }
}

/// The next larger rivet for a hole whose rivet came out notched, of the length that it needs there; `None`, with what speaks against it
/// among the findings, where there is none.
fn next_size<'j>(
    plan: &Plan<'j>,
    row: &RowPlan<'j>,
    number: u32,
    choice: &Choice<'j>,
    findings: &mut Findings,
) -> Option<Part<'j>> {
    let question = row.question(number, plan.practice).with_rivet(choice.part.without_length());
    // Nobody has measured the hole since; at best it is as it was planned.
    let hole = choice.hole.value.max();
    let found = AsFound::new(hole, hole, Damage::None).ok()?;
    let answer = question.next_size(found);
    findings.extend(&answer.findings);
    let larger = choose(&question.after(found, &answer)?);
    larger.is_complete().then_some(larger.part)
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use shophead::finding::{Code, Severity};

    use super::*;
    use crate::prelude::demo;
    use crate::read::read_driven_from;

    /// What becomes of one line against the demo job: remedy and replacement.
    fn judged(line: &str) -> (Option<Remedy>, Option<String>, Vec<Code>) {
        let job = demo("keel-skin");
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        let plan = Plan::make(&job, &practice);
        let text = format!("row,hole,diameter,height,condition\n{line}\n");
        let file = read_driven_from(text.into(), Path::new("d.csv"), &job).unwrap_or_else(|error| panic!("{error}"));
        let inspection = Inspection::make(&plan, &file);
        let rivet = &inspection.rivets[0];
        assert_eq!(inspection.accepted() + inspection.rejected(), 1);
        let refer = rivet.findings.iter().filter(|finding| finding.severity() == Severity::Refer);
        let codes = refer.map(|finding| finding.code()).collect();
        (rivet.remedy.map(|remedy| remedy.value), rivet.replacement.map(|part| part.to_string()), codes)
    }

    #[test]
    fn a_rivet_is_held_against_what_is_planned_for_its_own_hole() {
        // A1 5 takes an oversize shank, A2 14 the next size; the same head that is wide enough for one is narrow for the other.
        assert_eq!(judged("A1,5,.230,.070,").0, None);
        let (remedy, replacement, codes) = judged("A2,14,.230,.070,");
        assert_eq!((remedy, codes), (Some(Remedy::Replace), vec![Code::HeadTooNarrow]));
        assert_eq!(replacement.as_deref(), Some("MS20470AD6-7"));
    }

    #[test]
    fn a_step_that_the_hole_does_not_allow_is_referred() {
        let (remedy, replacement, codes) = judged("A1,1,,,notched");
        assert_eq!((remedy, replacement.as_deref()), (Some(Remedy::NextSize), Some("MS20470AD6-7")));
        assert_eq!(codes, [Code::ShankNotched]);
        // A spar cap: stepping up needs approval, and nothing is ordered before that.
        let (remedy, replacement, codes) = judged("K1,1,,,notched");
        assert_eq!((remedy, replacement), (Some(Remedy::Refer), None));
        assert!(codes.contains(&Code::StepNeedsApproval), "{codes:?}");
    }

    #[test]
    fn a_tool_mark_is_held_against_the_height_of_the_head_that_is_planned() {
        assert_eq!(judged("D1,1,,,tool-mark:.013").0, None);
        assert_eq!(judged("D1,1,,,tool-mark:.014").0, Some(Remedy::Replace));
        assert_eq!(judged("C1,1,,,tool-mark:.001").0, Some(Remedy::Replace), "a flush head takes none");
    }

    /// Table and place of the limits: MIL-R-47196A(MI), 4.2.1g and 4.2.1m.
    #[test]
    fn a_gap_is_judged_where_it_is() {
        let replace = |code| (Some(Remedy::Replace), vec![code]);
        for (seen, (remedy, codes)) in [
            ("gap", replace(Code::GapUnderHead)),
            ("gap-manufactured", replace(Code::GapUnderManufacturedHead)),
            ("gap-driven:.002:40", (None, Vec::new())),
            ("gap-driven:.003:40", replace(Code::GapUnderHead)),
            ("gap-driven:.002:41", replace(Code::GapAlongRim)),
            ("sheets-apart", replace(Code::SheetsApart)),
            ("sheets-apart:.002", replace(Code::SheetsApart)),
            ("sheets-apart:.0015", (None, Vec::new())),
            ("sheets-apart-edge:.010", (None, Vec::new())),
        ] {
            let (found, _, named) = judged(&format!("D1,1,,,{seen}"));
            assert_eq!((found, named), (remedy, codes), "{seen}");
        }
    }

    #[test]
    fn where_the_plan_has_no_rivet_none_is_accepted() {
        assert_eq!(judged("K1,31,.236,.081,sound"), (Some(Remedy::Refer), None, vec![Code::DrivenWhereReferred]));
    }
}
