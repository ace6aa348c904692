//! `shophead card` and `shophead map`: a plan as a file.

use shophead_job::card::{self, Card};
use shophead_job::drawing;
use shophead_job::model::Job;
use shophead_job::order::{alternatives, order};
use shophead_job::plan::Plan;
use shophead_job::tools::tools;

use super::order::{shelf, spares_percent};
use super::plan_watched;
use crate::args::{CardArgs, MapArgs, PaperArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Document, Report};

pub(super) fn run<'a>(args: &CardArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let spares = spares_percent(args.shelf.spares.as_deref(), job)?;
    let shelf = shelf(&args.shelf, context)?;
    let stock = shelf.as_ref().map(|shelf| shelf.stock.as_slice());
    report("card", &args.paper, job, context, |plan| {
        let lines = order(plan, spares, stock);
        card::card(&Card {
            plan,
            order: &lines,
            alternatives: &stock.map_or_else(Vec::new, |stock| alternatives(plan, &lines, stock)),
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
    let plan = plan_watched(job, context);
    let mut report = Report::new(command, context);
    for (subject, finding) in plan.stops() {
        report.find_in(&plan, context, subject, finding);
    }
    report.document = Some(Document { path: paper.output.clone(), text: draw(&plan) });
    Ok(report)
}
