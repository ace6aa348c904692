//! The tools that a job needs: drills for the old heads, punches, drills or reamers for the holes that are opened, gauges for the holes.

use shophead::drill::Drill;
use shophead::hole::HoleLimits;
use shophead::length::Length;
use shophead::rivet::part::Part;

use crate::plan::{Choice, Plan};

/// What a tool is, and its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ToolKind<'j> {
    /// A drill for the heads of the installed rivets.
    HeadDrill(Drill),
    /// A punch for their shanks, thinner than this.
    Punch(Length),
    /// A drill or a reamer for holes that are opened.
    HoleCutter(Drill),
    /// A gauge for the hole of a rivet: what goes in, and what the hole may not exceed.
    HoleGauge {
        /// The rivet, without length.
        rivet: Part<'j>,
        /// The smallest hole that every shank enters; `None` where the practice gives none.
        least: Option<Length>,
        /// The largest hole; `None` where the practice gives none.
        greatest: Option<Length>,
    },
}

impl ToolKind<'_> {
    /// The word used in output.
    #[must_use]
    pub const fn as_str(&self) -> &'static str {
        match self {
            ToolKind::HeadDrill(_) => "head-drill",
            ToolKind::Punch(_) => "punch",
            ToolKind::HoleCutter(_) => "hole-drill-or-reamer",
            ToolKind::HoleGauge { .. } => "hole-gauge",
        }
    }

    fn rank(&self) -> (u8, Length) {
        match self {
            ToolKind::HeadDrill(drill) => (0, drill.diameter()),
            ToolKind::Punch(under) => (1, *under),
            ToolKind::HoleCutter(drill) => (2, drill.diameter()),
            ToolKind::HoleGauge { least, greatest, .. } => (3, least.or(*greatest).unwrap_or(Length::ZERO)),
        }
    }
}

/// A tool of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Tool<'j> {
    /// What it is.
    pub kind: ToolKind<'j>,
    /// How many holes it is used at.
    pub holes: u32,
    /// The rows of those holes.
    pub rows: Vec<&'j str>,
}

/// The tools of a plan, kind by kind, the thinnest first.
#[must_use]
pub fn tools<'j>(plan: &Plan<'j>) -> Vec<Tool<'j>> {
    let mut tools: Vec<Tool<'j>> = Vec::new();
    let mut need = |kind: ToolKind<'j>, row: &'j str, holes: u32| {
        if holes == 0 {
            return;
        }
        match tools.iter_mut().find(|tool| tool.kind == kind) {
            Some(tool) => {
                tool.holes = tool.holes.saturating_add(holes);
                // Row by row, so it can only be the last one.
                if tool.rows.last() != Some(&row) {
                    tool.rows.push(row);
                }
            }
            None => tools.push(Tool { kind, holes, rows: vec![row] }),
        }
    };
    let gauge = |choice: &Choice<'j>, case: shophead::practice::Case| {
        let limits = HoleLimits::of(plan.practice, &case);
        let promised = plan.practice.promised_hole(&case).map(|hole| hole.value.min());
        ToolKind::HoleGauge {
            rivet: choice.part.without_length(),
            least: promised.or(limits.least.map(|limit| limit.value)),
            greatest: limits.greatest.map(|limit| limit.value),
        }
    };
    for row in &plan.rows {
        let name = row.row.name.as_str();
        let apart = row.holes.iter().filter(|hole| hole.removal.is_some()).count() as u32;
        let removals = std::iter::once((&row.removal, row.row.count.saturating_sub(apart)))
            .chain(row.holes.iter().filter_map(|hole| Some((hole.removal.as_ref()?, 1))));
        for (removal, holes) in removals {
            if let Some(drill) = removal.drill {
                need(ToolKind::HeadDrill(drill.value), name, holes);
            }
            need(ToolKind::Punch(removal.punch_under), name, holes);
        }
        let most = row.row.count.saturating_sub(row.holes.len() as u32);
        let cut = row.answer.as_ref().and_then(|answer| answer.cut);
        if let Some(cut) = cut {
            need(ToolKind::HoleCutter(cut), name, most);
        }
        need(gauge(&row.choice, row.case(&row.choice.part)), name, most);
        for hole in &row.holes {
            if let Some(choice) = hole.choice.as_deref() {
                need(gauge(choice, row.case(&choice.part)), name, 1);
                if let Some(cut) = hole.cut() {
                    need(ToolKind::HoleCutter(cut), name, 1);
                }
            }
        }
    }
    tools.sort_by_key(|tool| tool.kind.rank());
    tools
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prelude::demo;

    #[test]
    fn the_demo_needs_each_tool_once_and_every_hole_is_counted() {
        let job = demo("keel-skin");
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        let plan = Plan::make(&job, &practice);
        let tools = tools(&plan);
        for (index, tool) in tools.iter().enumerate() {
            assert!(!tools.iter().take(index).any(|other| other.kind == tool.kind), "{tool:?}");
        }
        let holes =
            |word: &str| -> u32 { tools.iter().filter(|tool| tool.kind.as_str() == word).map(|tool| tool.holes).sum() };
        let counts = plan.counts();
        assert_eq!((holes("head-drill"), holes("punch")), (counts.holes, counts.holes), "every old rivet comes out");
        assert_eq!(holes("hole-gauge"), counts.holes - counts.refer, "every hole that is not referred is gauged");
        let opened =
            plan.rows.iter().flat_map(|row| &row.holes).filter(|hole| hole.choice.is_some() && hole.cut().is_some());
        assert_eq!(holes("hole-drill-or-reamer") as usize, opened.count());
    }
}
