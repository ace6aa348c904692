//! The work of a job in the order in which it is done.
//!
//! The steps and the figures are the core's; here they get the names of this job's rows and holes.

use shophead::length::Length;
use shophead::rivet::part::Part;
use shophead::squeeze::{flow_law, squeeze};
use shophead::words::Units;
use shophead::work::{WorkStep, bar_weight};

use crate::grouped::grouped;
use crate::plan::{Bucked, Plan, Stand, There};
use crate::words::{self, ranges, star};

/// One step of the work.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct StepWithLines {
    /// What it is.
    pub step: WorkStep,
    /// What it means in this job, line by line; none where the step says all.
    pub lines: Vec<String>,
}

/// The work of a plan, in order. A step that this job does not need is left out.
#[must_use]
pub fn work(plan: &Plan<'_>, units: Units) -> Vec<StepWithLines> {
    let steps = WorkStep::ALL.iter().map(|step| {
        let lines = match step {
            WorkStep::Support => support(plan),
            WorkStep::DrillOut => drill_out(plan),
            WorkStep::Neighbours => neighbours(plan),
            WorkStep::Open => open(plan, units),
            WorkStep::Drive => drive(plan, units),
            WorkStep::Gauge => gauge(plan, units),
            WorkStep::Inspect => inspect(plan),
            _ => Vec::new(),
        };
        StepWithLines { step: *step, lines }
    });
    steps.filter(|step| step.step != WorkStep::Neighbours || !step.lines.is_empty()).collect()
}

fn support(plan: &Plan<'_>) -> Vec<String> {
    match plan.serving_position() {
        Some(best) => vec![format!("Work in {}.", best.position.name)],
        None if plan.positions.is_empty() => Vec::new(),
        None if plan.mix.is_some() => stands(plan),
        None => vec!["No position works for every row: see positions first.".into()],
    }
}

/// Where each row is bucked, where no single position does for all.
fn stands(plan: &Plan<'_>) -> Vec<String> {
    let line = |(stand, word): (Stand<'_, '_>, &str)| {
        let there: Vec<String> = stand.there.iter().map(Bucked::name).collect();
        format!("{word} in {}: {}.", stand.position.position.name, there.join(", "))
    };
    plan.stands().into_iter().zip(std::iter::once("Work").chain(std::iter::repeat("Then"))).map(line).collect()
}

/// Rows that ask for the same, the risky ones first.
fn drill_out(plan: &Plan<'_>) -> Vec<String> {
    let notes = plan.removals().into_iter().map(|note| {
        let asks: Vec<&str> = note.removal.risks.iter().map(|risk| risk.value.meaning()).collect();
        (asks.join(" "), note.name())
    });
    let line = |(asks, names): (String, Vec<String>)| match asks.as_str() {
        "" => format!("Then {}.", names.join(", ")),
        asks => format!("{}: {asks}", names.join(", ")),
    };
    grouped(notes).into_iter().map(line).collect()
}

fn neighbours(plan: &Plan<'_>) -> Vec<String> {
    let place = |damage: &crate::plan::DamagePlan<'_>| damage.damage.place.clone();
    plan.damage.iter().map(place).collect()
}

/// The holes that are cleaned up or opened, by what is done to them.
fn open(plan: &Plan<'_>, units: Units) -> Vec<String> {
    // What is referred as a whole is left alone until it is answered.
    let worked = plan.rows.iter().filter(|row| !row.is_held()).flat_map(|row| {
        row.by_cut()
            .into_iter()
            .filter_map(|((what, cut), numbers)| Some(((what, cut?), format!("{} {}", row.row.name, ranges(&numbers)))))
    });
    let mut groups = grouped(worked);
    groups.sort_by_key(|((what, _), _)| *what);
    groups.into_iter().map(|((_, cut), holes)| format!("{}: {}", cut.sized(units), holes.join("; "))).collect()
}

/// Bar and squeezer for each diameter.
fn drive(plan: &Plan<'_>, units: Units) -> Vec<String> {
    let mut parts: Vec<Part<'_>> = Vec::new();
    let rows = plan.rows.iter().map(|row| row.choice.part);
    let holes =
        plan.rows.iter().flat_map(|row| &row.holes).filter_map(|hole| hole.choice.as_deref()).map(|choice| choice.part);
    for part in rows.chain(holes) {
        let key = |part: &Part<'_>| (part.size().shank_nominal, part.alloy());
        if !parts.iter().any(|known| key(known) == key(&part)) {
            parts.push(part);
        }
    }
    parts.sort_by_key(|part| part.size().shank_nominal);
    let mut lines: Vec<String> = parts.iter().filter_map(|part| driven_with(part, units)).collect();
    if plan.mix.is_some() {
        lines.splice(0..0, stands(plan));
    }
    lines.extend(bars(plan, units));
    lines
}

/// The bar for holes with room of their own, where they are bucked.
fn bars(plan: &Plan<'_>, units: Units) -> Vec<String> {
    let serving = plan.serving_position().into_iter();
    let mixed = plan.stands();
    let mut lines = Vec::new();
    for position in serving.chain(mixed.iter().map(|stand| stand.position)) {
        let is_bucked = |there: &There<'_, '_>| {
            let Some(own) = there.own else { return false };
            let here = mixed.iter().find(|stand| std::ptr::eq(stand.position, position));
            there.work.is_reachable() && here.is_none_or(|stand| stand.has(own))
        };
        let there = plan.seen_from(position).filter(is_bucked);
        lines.extend(there.filter_map(|there| {
            Some(format!("{} in {}: {}.", there.name(), position.position.name, words::bar(there.own?, units)))
        }));
    }
    lines
}

fn driven_with(part: &Part<'_>, units: Units) -> Option<String> {
    let shank = part.size().shank_nominal;
    let bar = bar_weight(shank).map(|bar| {
        let (least, greatest) = bar.value;
        format!("bar of {least} to {greatest} lb{}", star(bar.basis))
    });
    // The head that the trade aims at: one and a half shanks wide.
    let head = Length::from_nanometres(shank.nanometres().checked_mul(3)?.checked_div(2)?)?;
    let force = flow_law(part.alloy()).and_then(|law| {
        let found = squeeze(law, shank, head).ok()?;
        Some(format!("squeezer of {} or more{}", units.force(found.greatest), star(law.basis)))
    });
    let with: Vec<String> = bar.into_iter().chain(force).collect();
    (!with.is_empty()).then(|| format!("{} {}: {}.", units.size(shank), part.alloy().alloy(), with.join(", or a ")))
}

fn gauge(plan: &Plan<'_>, units: Units) -> Vec<String> {
    let windows = plan.rows.iter().filter_map(|row| {
        let window = row.choice.length.as_ref().ok()?.window?;
        Some((window.shown(units).to_string(), row.row.name.as_str()))
    });
    grouped(windows).into_iter().map(|(window, rows)| format!("{}: {window}.", rows.join(", "))).collect()
}

fn inspect(plan: &Plan<'_>) -> Vec<String> {
    let open = plan.open_stops().count();
    if open > 0 { vec!["First have an answer to everything that is referred.".into()] } else { Vec::new() }
}
