//! What each work position allows, and which few of them together allow everything.

use shophead::access::{
    Clearance, Mix, Reach, RowWork, bar_that_goes_in, cannot_buck, check_row, clearance_needed, weigh,
};
use shophead::finding::Finding;
use shophead::length::Length;
use shophead::practice::{Case, Practice};

use super::{HolePlan, HolesThere, Plan, PositionPlan, RowPlan, case_of};
use crate::model::{Exception, Job, Position};
use crate::words::ranges;

/// Rivets that are bucked alike: most of a row, or holes of it with room of their own.
struct Seen<'p, 'j> {
    row: usize,
    plan: &'p RowPlan<'j>,
    own: Option<&'j Exception>,
    tail: Length,
    case: Case,
    rivets: u32,
}

impl<'p, 'j> Seen<'p, 'j> {
    fn of_row(row: usize, plan: &'p RowPlan<'j>) -> Seen<'p, 'j> {
        let is_like = |hole: &&HolePlan<'_>| !plan.exception(hole.number).is_some_and(Exception::has_own_room);
        let own: usize = plan.row.exceptions.iter().filter(|own| own.has_own_room()).map(|own| own.holes.len()).sum();
        let tails = plan.holes.iter().filter(is_like).filter_map(tail_of);
        let tail = tails.chain(plan.choice.longest_tail(plan.row.stack.grip())).max();
        let rivets = plan.row.count.saturating_sub(own as u32);
        Seen {
            row,
            plan,
            own: None,
            tail: tail.unwrap_or(Length::ZERO),
            case: case_of(&plan.choice.part, plan.row),
            rivets,
        }
    }

    fn of_holes(row: usize, plan: &'p RowPlan<'j>, own: &'j Exception) -> Seen<'p, 'j> {
        let holes = || own.holes.iter().filter_map(|number| plan.hole(*number));
        let tail = holes().filter_map(tail_of).chain(plan.choice.longest_tail(own.stack.grip())).max();
        let largest = holes().filter_map(|hole| hole.choice.as_deref()).map(|choice| choice.part);
        let part = largest.max_by_key(|part| part.size().shank_nominal).unwrap_or(plan.choice.part);
        let case = case_of(&part, plan.row);
        Seen { row, plan, own: Some(own), tail: tail.unwrap_or(Length::ZERO), case, rivets: own.holes.len() as u32 }
    }

    /// From one position, by its place in the job.
    fn from(&self, position: usize, practice: &Practice<'_>) -> (RowWork, Option<Finding>) {
        let of_row = self.plan.row.clearance.get(position).copied().unwrap_or(Clearance::Closed);
        let clearance = self.own.and_then(|own| own.clearance.get(position).copied().flatten()).unwrap_or(of_row);
        let work = RowWork::new(self.plan.solid.is_some(), self.rivets, clearance)
            .needed(clearance_needed(self.tail, practice, &self.case).map(|needed| needed.value));
        let blocked = cannot_buck(clearance, self.tail, practice, &self.case).filter(|_| !work.is_reachable());
        (work, blocked)
    }
}

/// The longest tail in a hole before it is driven.
fn tail_of(hole: &HolePlan<'_>) -> Option<Length> {
    hole.choice.as_ref()?.longest_tail(hole.stack.grip())
}

/// What each position allows.
pub(super) fn plan_positions<'j>(
    job: &'j Job,
    rows: &[RowPlan<'j>],
    practice: &'j Practice<'j>,
) -> Vec<PositionPlan<'j>> {
    let rates = job.rates();
    let of_rows: Vec<Seen<'_, 'j>> = rows.iter().enumerate().map(|(index, row)| Seen::of_row(index, row)).collect();
    let of_holes: Vec<Seen<'_, 'j>> = rows
        .iter()
        .enumerate()
        .flat_map(|(index, row)| {
            let own = row.row.exceptions.iter().filter(|own| own.has_own_room());
            own.map(move |own| Seen::of_holes(index, row, own))
        })
        .collect();
    let plan = |(index, position): (usize, &'j Position)| {
        let (works, blocked): (Vec<RowWork>, Vec<Option<Finding>>) =
            of_rows.iter().map(|seen| seen.from(index, practice)).unzip();
        let holes = of_holes.iter().filter_map(|seen| {
            let (work, blocked) = seen.from(index, practice);
            let bar = bar_that_goes_in(work.clearance, seen.tail);
            Some(HolesThere { row: seen.row, own: seen.own?, case: seen.case, work, blocked, bar })
        });
        let holes: Vec<HolesThere<'j>> = holes.collect();
        let all: Vec<RowWork> = works.iter().copied().chain(holes.iter().map(|holes| holes.work)).collect();
        let work = weigh(job.set_up(position), &rates, all);
        PositionPlan { position, blocked, work, serves: work.serves, rows: works, holes }
    };
    job.positions.iter().enumerate().map(plan).collect()
}

/// Which few positions together let everything be bucked that takes driven rivets only, where no single one does.
pub(super) fn mix(job: &Job, positions: &[PositionPlan<'_>]) -> Option<Mix> {
    if positions.iter().any(|position| position.serves) {
        return None;
    }
    let set_up: Vec<_> = positions.iter().map(|position| job.set_up(position.position)).collect();
    let first = positions.first()?;
    let is_must = |work: &RowWork| work.must && work.rivets > 0;
    let rows =
        first.rows.iter().enumerate().filter(|(_, work)| is_must(work)).map(|(row, _)| reach_of_row(positions, row));
    let holes = first.holes.iter().enumerate().filter(|(_, holes)| is_must(&holes.work));
    // Many are reached alike.
    let mut reaches: Vec<Reach> = Vec::new();
    for reach in rows.chain(holes.map(|(index, _)| reach_of_holes(positions, index))) {
        match reaches.iter_mut().find_map(|known| known.joined(reach).map(|joined| (known, joined))) {
            Some((known, joined)) => *known = joined,
            None => reaches.push(reach),
        }
    }
    Mix::fewest(&set_up, &reaches)
}

pub(super) fn reach_of_row(positions: &[PositionPlan<'_>], row: usize) -> Reach {
    Reach::of(positions.iter().filter_map(|position| position.rows.get(row).copied()))
}

/// By their place in [`PositionPlan::holes`].
pub(super) fn reach_of_holes(positions: &[PositionPlan<'_>], index: usize) -> Reach {
    Reach::of(positions.iter().filter_map(|position| Some(position.holes.get(index)?.work)))
}

/// Refers rows, and holes with room of their own, that can be bucked in no position.
pub(super) fn refer_unreachable(rows: &mut [RowPlan<'_>], positions: &[PositionPlan<'_>]) {
    for (index, row) in rows.iter_mut().enumerate() {
        let works: Vec<RowWork> = positions.iter().filter_map(|position| position.rows.get(index).copied()).collect();
        row.findings.extend(check_row(row.solid, &works));
    }
    let Some(first) = positions.first() else { return };
    for (index, holes) in first.holes.iter().enumerate() {
        let works: Vec<RowWork> =
            positions.iter().filter_map(|position| Some(position.holes.get(index)?.work)).collect();
        let Some(row) = rows.get_mut(holes.row) else { continue };
        let Some(finding) = check_row(row.solid, &works) else { continue };
        for hole in row.holes.iter_mut().filter(|hole| holes.own.holes.contains(&hole.number)) {
            hole.findings.push(finding);
            hole.choice = None;
        }
    }
}

/// What is bucked in one of the positions of a mix.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Stand<'p, 'j> {
    /// The position.
    pub position: &'p PositionPlan<'j>,
    /// The rows and holes, in the order of the job.
    pub there: Vec<Bucked<'p, 'j>>,
}

impl Stand<'_, '_> {
    /// Whether holes with room of their own are bucked in it.
    #[must_use]
    pub fn has(&self, own: &HolesThere<'_>) -> bool {
        let Some(first) = own.own.holes.first() else { return false };
        let of_row = self.there.iter().find(|bucked| bucked.index == own.row);
        of_row.is_some_and(|bucked| {
            if bucked.holes.is_empty() { !bucked.but.contains(first) } else { bucked.holes.contains(first) }
        })
    }
}

/// A row, or holes of it, that is bucked somewhere.
#[derive(Clone, Debug)]
pub struct Bucked<'p, 'j> {
    /// The row.
    pub row: &'p RowPlan<'j>,
    /// Its place in the plan.
    index: usize,
    /// The holes, where it is not the row as a whole, rising.
    pub holes: Vec<u32>,
    /// Holes of the row that are bucked elsewhere or nowhere, rising.
    pub but: Vec<u32>,
}

impl Bucked<'_, '_> {
    /// `K1`, `K1 7`, `K1 except 7`.
    #[must_use]
    pub fn name(&self) -> String {
        let name = &self.row.row.name;
        match (self.holes.as_slice(), self.but.as_slice()) {
            ([], []) => name.clone(),
            ([], but) => format!("{name} except {}", ranges(but)),
            (holes, _) => format!("{name} {}", ranges(holes)),
        }
    }
}

impl<'j> Plan<'j> {
    /// Where each row and hole is bucked, position by position in the order of the work, where no single position does; empty otherwise.
    #[must_use]
    pub fn stands(&self) -> Vec<Stand<'_, 'j>> {
        let Some(mix) = &self.mix else { return Vec::new() };
        let first = self.positions.first().map(|position| position.holes.as_slice()).unwrap_or_default();
        let own: Vec<(&HolesThere<'j>, Option<usize>)> = first
            .iter()
            .enumerate()
            .map(|(index, holes)| (holes, mix.position_for(reach_of_holes(&self.positions, index))))
            .collect();
        let stand = |index: usize| {
            let mut there = Vec::new();
            for (row, plan) in self.rows.iter().enumerate() {
                let of_row = || own.iter().filter(|(holes, _)| holes.row == row);
                let numbers = |is_here: bool| {
                    let chosen = of_row().filter(|(_, at)| (*at == Some(index)) == is_here);
                    let mut numbers: Vec<u32> = chosen.flat_map(|(holes, _)| &holes.own.holes).copied().collect();
                    numbers.sort_unstable();
                    numbers
                };
                let is_like_here = mix.position_for(reach_of_row(&self.positions, row)) == Some(index);
                let holes = if is_like_here { Vec::new() } else { numbers(true) };
                if is_like_here || !holes.is_empty() {
                    there.push(Bucked {
                        row: plan,
                        index: row,
                        holes,
                        but: if is_like_here { numbers(false) } else { Vec::new() },
                    });
                }
            }
            Some(Stand { position: self.positions.get(index)?, there })
        };
        mix.positions().filter_map(stand).collect()
    }
}

/// A row, or holes of it with room of their own, as seen from a position.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct There<'p, 'j> {
    /// The row.
    pub row: &'p RowPlan<'j>,
    /// The holes, where they have room of their own.
    pub own: Option<&'p HolesThere<'j>>,
    /// As seen from the position.
    pub work: RowWork,
    /// What stops it from being bucked; `None` where nothing does.
    pub blocked: Option<Finding>,
}

impl There<'_, '_> {
    /// `K1`, `K1 7`.
    #[must_use]
    pub fn name(&self) -> String {
        let name = &self.row.row.name;
        self.own.map_or_else(|| name.clone(), |own| format!("{name} {}", ranges(&own.own.holes)))
    }
}

impl<'j> Plan<'j> {
    /// Every row as seen from a position, each followed by its holes that have room of their own.
    pub fn seen_from<'p>(&'p self, position: &'p PositionPlan<'j>) -> impl Iterator<Item = There<'p, 'j>> {
        let rows = self.rows.iter().zip(position.rows.iter().zip(&position.blocked)).enumerate();
        rows.flat_map(move |(index, (row, (work, blocked)))| {
            let like = There { row, own: None, work: *work, blocked: *blocked };
            let own = position.holes.iter().filter(move |holes| holes.row == index);
            let own = own.map(move |own| There { row, own: Some(own), work: own.work, blocked: own.blocked });
            std::iter::once(like).filter(|like| like.work.rivets > 0).chain(own)
        })
    }
}
