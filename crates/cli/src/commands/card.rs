//! `shophead card` and `shophead map`: a plan as a file.

use std::path::Path;

use shophead_job::card::{self, Card};
use shophead_job::drawing;
use shophead_job::model::Job;
use shophead_job::order::{alternatives, order};
use shophead_job::plan::Plan;
use shophead_job::read::read_stock;
use shophead_job::tools::tools;

use super::order::spares_percent;
use super::plan_watched;
use crate::args::{CardArgs, MapArgs, PaperArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Document, Report};

pub(super) fn run<'a>(args: &CardArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let spares = spares_percent(args.spares.as_deref(), job)?;
    let stock = args.stock.as_deref().map(read_stock).transpose()?;
    report("card", &args.paper, job, context, |plan| {
        let lines = order(plan, spares, stock.as_deref());
        card::card(&Card {
            plan,
            order: &lines,
            alternatives: &stock.as_deref().map_or_else(Vec::new, |stock| alternatives(plan, &lines, stock)),
            tools: &tools(plan),
            own_limits: context.own_title,
            units: context.units,
        })
    })
}

pub(super) fn run_map<'a>(args: &MapArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    report("map", &args.paper, job, context, |plan| drawing::map(plan, context.units))
}

fn report<'a>(
    command: &'static str,
    paper: &PaperArgs,
    job: &'a Job,
    context: &Context<'a>,
    draw: impl FnOnce(&Plan<'_>) -> String,
) -> Result<Report<'a>, Stop> {
    refuse_own_input(paper)?;
    let plan = plan_watched(job, context);
    let mut report = Report::new(command, context);
    for (subject, finding) in plan.stops() {
        report.find(context, &subject.to_string(), [finding]);
    }
    report.document = Some(Document { path: paper.output.clone(), text: draw(&plan) });
    Ok(report)
}

/// A slip of the keyboard must not cost the job file, nor what was measured.
fn refuse_own_input(paper: &PaperArgs) -> Result<(), Stop> {
    let is_input = |end: &std::ffi::OsStr| ["csv", "toml"].iter().any(|input| end.eq_ignore_ascii_case(input));
    let real = |path: &Path| path.canonicalize().ok();
    if real(&paper.output).is_some_and(|output| real(&paper.job) == Some(output)) {
        return Err(Stop::wrong("--output is the job file itself; name another file"));
    }
    if paper.output.extension().is_some_and(is_input) {
        return Err(Stop::wrong("--output has the ending of an input file; cards end in .html, maps in .svg"));
    }
    Ok(())
}
