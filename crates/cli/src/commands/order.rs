//! `shophead order`.

use std::path::Path;

use serde_json::{Value, json};
use shophead::finding::Severity;
use shophead::quantity::Mass;
use shophead::words::Units;
use shophead_job::model::Job;
use shophead_job::order::{Alternative, OrderLine, Stock, alternatives, order};
use shophead_job::plan::Plan;
use shophead_job::read::read_stock_from;
use shophead_job::tools::{Tool, ToolKind, tools};
use shophead_job::words;

use super::plan::holes_without_rivet;
use crate::args::OrderArgs;
use crate::context::Context;
use crate::exit::Stop;
use crate::input;
use crate::json;
use crate::report::{Block, Record, Report, Table};

/// What is ordered beyond the need: as given, else as the job says.
pub(super) fn spares_percent(given: Option<&str>, job: &Job) -> Result<u32, Stop> {
    given.map_or(Ok(job.spares_percent), |text| input::percent("--spares", text))
}

/// What is on the shelf, where a list of it is given.
pub(super) fn stock(path: Option<&Path>, context: &Context<'_>) -> Result<Option<Vec<Stock>>, Stop> {
    let text = path.map(|path| context.inputs.read(path, "the stock list")).transpose()?;
    Ok(text.map(|text| read_stock_from(text.bytes, &text.name)).transpose()?)
}

pub(super) fn run<'a>(args: &OrderArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let spares = spares_percent(args.spares.as_deref(), job)?;
    let stock = stock(args.stock.as_deref(), context)?;
    let plan = Plan::make(job, context.practice);
    let lines = order(&plan, spares, stock.as_deref());
    let alternatives = stock.as_deref().map_or_else(Vec::new, |stock| alternatives(&plan, &lines, stock));
    let tools = tools(&plan);
    let mut report = Report::new("order", context);
    for (subject, finding) in plan.stops() {
        report.find(context, &subject.to_string(), [finding]);
    }
    report.findings_in_text = false;
    report.result = json!({
        "title": job.title,
        "spares_percent": spares,
        "without_rivet": plan.counts().without_rivet,
        "lines": lines_json(&lines),
        "alternatives": alternatives.iter().map(alternative_json).collect::<Vec<Value>>(),
        "tools": tools.iter().map(tool_json).collect::<Vec<Value>>(),
    });
    report.answer(format!("Order for {}", job.title));
    report.text.push(Block::Table(order_table(&lines, context.units)));
    let without = plan.counts().without_rivet;
    if without > 0 {
        report.paragraph(format!("Not in the order: {}.", holes_without_rivet(without)));
    }
    let refer = report.findings.iter().filter(|told| told.severity == Severity::Refer).count();
    if refer > 0 {
        report.paragraph("Something stops the work: see the plan before ordering.");
    }
    if !alternatives.is_empty() {
        report.heading("On the shelf, and within limits as well");
        for alternative in &alternatives {
            report.text.push(alternative_entry(alternative));
        }
    }
    report.heading("Tools");
    for tool in &tools {
        report.text.push(Block::Entry(words::tool(tool, context.units), vec![tool.rows.join(", ")]));
    }
    for line in &lines {
        let mut record = Record::new(context.units);
        record.text("part", line.part).text("needed", line.needed).text("spares", line.spares);
        record.optional("stock", line.stock).text("buy", line.buy);
        let (unit, mass) = match context.units {
            Units::Inches => ("mass_lb", line.mass.map(|mass| format!("{:.4}", mass.lb()))),
            Units::Millimetres => ("mass_g", line.mass.map(|mass| format!("{:.1}", mass.grams()))),
        };
        record.optional(unit, mass);
        report.rows.push(record);
    }
    Ok(report)
}

fn alternative_entry(alternative: &Alternative<'_>) -> Block {
    let Alternative { part, other, free, holes, rows } = alternative;
    let holes = if *holes == 1 { "1 hole".into() } else { format!("{holes} holes") };
    Block::Entry(format!("{other} for {part}: {free} free"), vec![format!("for {holes}: {}", rows.join(", "))])
}

fn alternative_json(alternative: &Alternative<'_>) -> Value {
    let Alternative { part, other, free, holes, rows } = alternative;
    json!({ "part": part.to_string(), "alternative": other.to_string(), "free": free, "holes": holes, "rows": rows })
}

fn tool_json(tool: &Tool<'_>) -> Value {
    let mut value = json!({ "kind": tool.kind.as_str(), "holes": tool.holes, "rows": tool.rows });
    match tool.kind {
        ToolKind::HeadDrill(drill) | ToolKind::HoleCutter(drill) => {
            json::with(&mut value, "drill", drill.to_string().into());
            json::with(&mut value, "diameter", json::length(drill.diameter()));
        }
        ToolKind::Punch(under) => json::with(&mut value, "under", json::length(under)),
        ToolKind::HoleGauge { rivet, least, greatest } => {
            json::with(&mut value, "rivet", rivet.to_string().into());
            json::with(&mut value, "min", json::or_null(least, json::length));
            json::with(&mut value, "max", json::or_null(greatest, json::length));
        }
    }
    value
}

pub(super) fn lines_json(lines: &[OrderLine<'_>]) -> Value {
    let line = |line: &OrderLine<'_>| {
        json!({
            "part": line.part.to_string(),
            "needed": line.needed,
            "spares": line.spares,
            "stock": line.stock,
            "buy": line.buy,
            "mass": json::or_null(line.mass, |mass| json!({ "lb": mass.lb(), "g": mass.grams() })),
        })
    };
    lines.iter().map(line).collect()
}

/// The order as a table; the column of the shelf only where a stock list was given.
pub(super) fn order_table(lines: &[OrderLine<'_>], units: Units) -> Table {
    let with_stock = lines.iter().any(|line| line.stock.is_some());
    let mut columns = vec!["part", "needed", "spares"];
    columns.extend(with_stock.then_some("stock"));
    columns.extend(["buy", "mass"]);
    let row = |line: &OrderLine<'_>| {
        let mut cells = vec![line.part.to_string(), line.needed.to_string(), line.spares.to_string()];
        cells.extend(line.stock.map(|stock| stock.to_string()));
        cells.extend([line.buy.to_string(), line.mass.map_or_else(|| "not known".into(), |mass| weight(mass, units))]);
        cells
    };
    Table { columns, rows: lines.iter().map(row).collect() }
}

fn weight(mass: Mass, units: Units) -> String {
    match units {
        Units::Inches => format!("{:.3} lb", mass.lb()),
        Units::Millimetres => format!("{:.1} g", mass.grams()),
    }
}
