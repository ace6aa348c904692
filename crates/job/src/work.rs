//! The work of a job in the order in which it is done.
//!
//! The steps and the figures are the core's; here they get the names of this job's rows and holes.

use shophead::basis::{Basis, Status};
use shophead::hole::Disposition;
use shophead::length::Length;
use shophead::rivet::part::Part;
use shophead::squeeze::{flow_law, squeeze};
use shophead::words::Units;
use shophead::work::{Step, bar_weight};

use crate::plan::Plan;
use crate::words::ranges;

/// One step of the work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkStep {
    /// What it is.
    pub step: Step,
    /// What it means in this job, line by line; none where the step says all.
    pub lines: Vec<String>,
}

/// The work of a plan, in order. A step that this job does not need is left out.
#[must_use]
pub fn work(plan: &Plan<'_>, units: Units) -> Vec<WorkStep> {
    let steps = Step::ALL.iter().map(|step| {
        let lines = match step {
            Step::Support => support(plan),
            Step::DrillOut => drill_out(plan),
            Step::Neighbours => neighbours(plan),
            Step::Open => open(plan, units),
            Step::Drive => drive(plan, units),
            Step::Gauge => gauge(plan, units),
            Step::Inspect => inspect(plan),
            _ => Vec::new(),
        };
        WorkStep { step: *step, lines }
    });
    steps.filter(|step| step.step != Step::Neighbours || !step.lines.is_empty()).collect()
}

fn support(plan: &Plan<'_>) -> Vec<String> {
    match plan.serving_position() {
        Some(best) => vec![format!("Work in {}.", best.position.name)],
        None if plan.positions.is_empty() => Vec::new(),
        None => vec!["No position works for every row: see positions first.".into()],
    }
}

/// Rows that ask for the same, the risky ones first.
fn drill_out(plan: &Plan<'_>) -> Vec<String> {
    let mut groups: Vec<(Vec<String>, String)> = Vec::new();
    for note in plan.removals() {
        let name = match note.hole {
            Some(hole) => format!("{} hole {hole}", note.row.row.name),
            None => note.row.row.name.clone(),
        };
        let asks: Vec<&str> = note.removal.risks.iter().map(|risk| risk.value.meaning()).collect();
        let asks = asks.join(" ");
        match groups.iter_mut().find(|(_, told)| *told == asks) {
            Some((names, _)) => names.push(name),
            None => groups.push((vec![name], asks)),
        }
    }
    let line = |(names, asks): (Vec<String>, String)| match asks.as_str() {
        "" => format!("Then {}.", names.join(", ")),
        asks => format!("{}: {asks}", names.join(", ")),
    };
    groups.into_iter().map(line).collect()
}

fn neighbours(plan: &Plan<'_>) -> Vec<String> {
    let place = |damage: &crate::plan::DamagePlan<'_>| damage.damage.place.clone();
    plan.damage.iter().map(place).collect()
}

/// The holes that are cleaned up or opened, by what is done to them.
fn open(plan: &Plan<'_>, units: Units) -> Vec<String> {
    let mut groups: Vec<(Disposition, String, Vec<String>)> = Vec::new();
    for row in &plan.rows {
        let mut by_cut: Vec<(Disposition, String, Vec<u32>)> = Vec::new();
        for hole in &row.holes {
            let Some(cut) = hole.cut() else { continue };
            let (what, cut) = (hole.disposition(), cut.sized(units).to_string());
            match by_cut.iter_mut().find(|(of, with, _)| *of == what && *with == cut) {
                Some((.., numbers)) => numbers.push(hole.number),
                None => by_cut.push((what, cut, vec![hole.number])),
            }
        }
        for (what, cut, numbers) in by_cut {
            let holes = format!("{} {}", row.row.name, ranges(&numbers));
            match groups.iter_mut().find(|(of, with, _)| *of == what && *with == cut) {
                Some((.., told)) => told.push(holes),
                None => groups.push((what, cut, vec![holes])),
            }
        }
    }
    groups.sort_by_key(|(what, ..)| *what);
    groups.into_iter().map(|(_, cut, holes)| format!("{cut}: {}", holes.join("; "))).collect()
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
    parts.iter().filter_map(|part| driven_with(part, units)).collect()
}

fn star(basis: Basis) -> &'static str {
    if basis.status() == Status::Memory { "*" } else { "" }
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
    let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
    for row in &plan.rows {
        let Some(window) = row.choice.length.as_ref().ok().and_then(|choice| choice.window) else { continue };
        let window = window.shown(units).to_string();
        match groups.iter_mut().find(|(told, _)| *told == window) {
            Some((_, rows)) => rows.push(&row.row.name),
            None => groups.push((window, vec![&row.row.name])),
        }
    }
    groups.into_iter().map(|(window, rows)| format!("{}: {window}.", rows.join(", "))).collect()
}

fn inspect(plan: &Plan<'_>) -> Vec<String> {
    let open = plan.open_stops().count();
    if open > 0 { vec!["First have an answer to everything that is referred.".into()] } else { Vec::new() }
}
