//! The commands: each reads its arguments, asks the library, and fills a report.

mod head;
mod hole;
mod joint;
mod length;
mod part;
mod sources;
mod splice;

use shophead::basis::Basis;
use shophead::finding::{Code, Finding, Severity};
use shophead::length::Length;
use shophead::rivet::part::Part;

use crate::args::Command;
use crate::context::Context;
use crate::exit::Stop;
use crate::report::Report;

/// Runs a command.
pub(crate) fn run(command: &Command, context: &Context<'_>) -> Result<Report, Stop> {
    match command {
        Command::Length(args) => length::run(args, context),
        Command::Head(args) => head::run(args, context),
        Command::Hole(args) => hole::run(args, context),
        Command::Joint(args) => joint::run(args, context),
        Command::Splice(args) => splice::run(args, context),
        Command::Part(args) => part::run(args, context),
        Command::Sources(args) => sources::run(args, context),
    }
}

/// What a rivet's alloy asks for, whatever the pack: no structure, or heat treatment first.
fn alloy_findings(rivet: &Part<'_>) -> Vec<Finding<'static>> {
    let mut findings = Vec::new();
    if let Some((false, basis)) = rivet.alloy().is_structural() {
        findings.push(Finding::new(Code::NotStructural, Severity::Caution, basis));
    }
    let asked = |above: Option<Length>| above.is_none_or(|above| rivet.diameter() > above);
    if let Some(treatment) = rivet.alloy().heat_treatments().iter().find(|treatment| asked(treatment.above)) {
        findings.push(Finding::new(Code::HeatTreatFirst, Severity::Caution, treatment.basis));
    }
    findings
}

/// ` (memory)` behind a figure that could only be recalled.
fn memory_mark(basis: Basis<'_>) -> &'static str {
    if basis.status == shophead::basis::Status::Memory { " (memory)" } else { "" }
}
