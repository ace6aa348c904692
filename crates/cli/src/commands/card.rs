//! `shophead card`, `map` and `template`: a plan as a file.

use shophead::words::Units;
use shophead_job::card::{self, Card};
use shophead_job::drawing::{self, Paper};
use shophead_job::inspect::Inspection;
use shophead_job::model::Job;
use shophead_job::order::{alternatives, order_again};
use shophead_job::plan::Plan;
use shophead_job::tools::tools;

use super::order::{looked_at, shelf, spares_percent};
use super::plan_watched;
use crate::args::{CardArgs, MapArgs, PaperArgs, PaperSize, TemplateArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Document, Report};

pub(super) fn run<'a>(args: &CardArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let spares = spares_percent(args.shelf.spares.as_deref(), job)?;
    let shelf = shelf(&args.shelf, context)?;
    let stock = shelf.as_ref().map(|shelf| shelf.stock.as_slice());
    let driven = looked_at(&args.looked_at, job, context)?;
    report("card", &args.paper, job, context, |plan| {
        let inspection = driven.as_ref().map(|driven| Inspection::make(plan, driven));
        let again = inspection.as_ref().map_or_else(Vec::new, Inspection::replacements);
        let lines = order_again(plan, &again, spares, stock);
        Ok(card::card(&Card {
            plan,
            order: &lines,
            alternatives: &stock.map_or_else(Vec::new, |stock| alternatives(plan, &lines, stock)),
            inspection: inspection.as_ref(),
            tools: &tools(plan),
            own_limits: context.own_title,
            units: context.units,
        }))
    })
}

pub(super) fn run_map<'a>(args: &MapArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    report("map", &args.paper, job, context, |plan| Ok(drawing::map(plan, context.units)))
}

pub(super) fn run_template<'a>(args: &TemplateArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let paper = match (args.sheet, context.units) {
        (Some(PaperSize::Letter), _) | (None, Units::Inches) => Paper::Letter,
        (Some(PaperSize::A4), _) | (None, Units::Millimetres) => Paper::A4,
    };
    report("template", &args.paper, job, context, |plan| {
        drawing::template(plan, args.edge.as_deref(), paper, context.units).map_err(Stop::wrong)
    })
}

fn report<'a>(
    command: &'static str,
    paper: &PaperArgs,
    job: &'a Job,
    context: &Context<'a>,
    draw: impl FnOnce(&Plan<'_>) -> Result<String, Stop>,
) -> Result<Report<'a>, Stop> {
    let plan = plan_watched(job, context);
    let mut report = Report::new(command, context);
    for (subject, finding) in plan.stops() {
        report.find_in(&plan, context, subject, finding);
    }
    report.document = Some(Document { path: paper.output.clone(), text: draw(&plan)? });
    Ok(report)
}
