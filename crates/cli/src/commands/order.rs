//! `shophead order`.

use shophead::quantity::Mass;
use shophead::rivet::part::Part;
use shophead::words::Units;
use shophead_job::inspect::Inspection;
use shophead_job::labels;
use shophead_job::model::Job;
use shophead_job::order::{
    Alternative, Holes, NotOrdered, OrderLine, Shelf, ShelfNote, alternatives, goes_into, not_ordered, order_again,
};
use shophead_job::plan::{Counts, Plan};
use shophead_job::read::{DrivenFile, read_driven_from, read_stock_from};
use shophead_job::tools::{Tool, ToolKind, tools};
use shophead_job::words;

use super::date;
use super::part::{alloy, head_words};
use crate::args::{LookedAtArgs, OrderArgs, ShelfArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::form::Nth;
use crate::input;
use crate::render::xlsx::{Book, Cell, Sheet};
use crate::report::{Block, Document, Record, Report, Table, Told};

/// What is ordered beyond the need: as given, else as the job says.
pub(super) fn spares_percent(given: Option<&str>, job: &Job) -> Result<u32, Stop> {
    given.map_or(Ok(job.spares_percent), |text| input::percent("--spares", text))
}

/// What is on the shelf, where a list of it is given.
pub(super) fn shelf(args: &ShelfArgs, context: &Context<'_>) -> Result<Option<Shelf>, Stop> {
    let columns = args.columns.as_deref().map(column_names).transpose()?.unwrap_or_default();
    let text = args.stock.as_deref().map(|path| context.inputs.read(path, "the stock list")).transpose()?;
    Ok(text.map(|text| read_stock_from(text.bytes, &text.name, &columns)).transpose()?)
}

/// The driven rivets that were looked at, where there is a list of them.
pub(super) fn looked_at(args: &LookedAtArgs, job: &Job, context: &Context<'_>) -> Result<Option<DrivenFile>, Stop> {
    let text = args.driven.as_deref().map(|path| context.inputs.read(path, "the driven rivets")).transpose()?;
    Ok(text.map(|text| read_driven_from(text.bytes, &text.name, job)).transpose()?)
}

/// `part=Part Number,on_hand=Qty On Hand`.
fn column_names(text: &str) -> Result<Vec<(&'static str, String)>, Stop> {
    const KNOWN: [&str; 3] = ["part", "on_hand", "pack"];
    let pair = |pair: &str| {
        let (ours, theirs) = pair.split_once('=').ok_or_else(|| {
            input::wrong("--columns", pair, "this names no column; right would be part=Part Number,on_hand=Qty On Hand")
        })?;
        let ours = ours.trim().replace([' ', '-'], "_");
        let known = KNOWN.into_iter().find(|known| known.eq_ignore_ascii_case(&ours)).ok_or_else(|| {
            let right = input::or(&KNOWN);
            input::wrong("--columns", &ours, format_args!("a stock list has no such column; right would be {right}"))
        })?;
        Ok((known, theirs.trim().to_owned()))
    };
    text.split(',').map(pair).collect()
}

/// Everything of one order.
struct Whole<'p, 'j> {
    plan: &'p Plan<'j>,
    date: String,
    lines: Vec<OrderLine<'j>>,
    left: Vec<NotOrdered<'j>>,
    alternatives: Vec<Alternative<'j>>,
    tools: Vec<Tool<'j>>,
    shelf: Option<Shelf>,
}

pub(super) fn run<'a>(args: &OrderArgs, job: &'a Job, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let spares = spares_percent(args.shelf.spares.as_deref(), job)?;
    let date = date(args.date.as_deref())?;
    let shelf = shelf(&args.shelf, context)?;
    let plan = Plan::make(job, context.practice);
    let stock = shelf.as_ref().map(|shelf| shelf.stock.as_slice());
    let driven = looked_at(&args.looked_at, job, context)?;
    let inspection = driven.as_ref().map(|driven| Inspection::make(&plan, driven));
    let again = inspection.as_ref().map_or_else(Vec::new, Inspection::replacements);
    let lines = order_again(&plan, &again, spares, stock);
    let alternatives = stock.map_or_else(Vec::new, |stock| alternatives(&plan, &lines, stock));
    let whole = Whole {
        plan: &plan,
        date: date.to_string(),
        left: not_ordered(&plan),
        tools: tools(&plan),
        lines,
        alternatives,
        shelf,
    };
    let mut report = Report::new("order", context);
    for (subject, finding) in plan.stops() {
        report.find_in(&plan, context, subject, finding);
    }
    report.findings_in_text = false;
    report.give(whole.form(spares, context));
    whole.text(&mut report, context);
    whole.rows(&mut report, context);
    report.notes = whole.notes(context);
    report.book = Some(whole.book((date.year(), date.month(), date.day()), context));
    if let Some(path) = &args.labels {
        report.beside.push(Document { path: path.clone(), text: labels::sheet(&plan, &whole.lines) });
    }
    Ok(report)
}

/// `K1 1-30, 32; K2 5`.
fn places(holes: &[Holes<'_>]) -> String {
    let row = |holes: &Holes<'_>| format!("{} {}", holes.row, words::ranges(&holes.numbers));
    holes.iter().map(row).collect::<Vec<_>>().join("; ")
}

/// What the part is, in words.
fn description(part: &Part<'_>) -> String {
    format!("solid rivet, {}, {}, {}", head_words(part.series().head), alloy(part), part.in_words())
}

impl<'j> Whole<'_, 'j> {
    fn form(&self, spares: u32, context: &Context<'_>) -> form::order::Answer<'j> {
        let counts = self.plan.counts();
        form::order::Answer {
            title: &self.plan.job.title,
            date: self.date.clone(),
            spares_percent: spares,
            holes: counts.holes,
            measured: counts.measured,
            without_rivet: counts.without_rivet,
            lines: line_forms(&self.lines, Some(self.plan)),
            not_ordered: self.left.iter().map(|left| not_ordered_form(left, context)).collect(),
            alternatives: self.alternatives.iter().map(alternative_form).collect(),
            tools: self.tools.iter().map(tool_form).collect(),
            shelf: self.shelf.as_ref().map(|shelf| form::order::Shelf {
                parts: shelf.stock.len(),
                foreign: shelf.foreign,
                notes: shelf.notes.iter().map(note_form).collect(),
            }),
        }
    }

    fn text(&self, report: &mut Report, context: &Context<'_>) {
        report.answer(format!("Order for {}", self.plan.job.title));
        report.paragraph(self.date.clone());
        if let Some(unknown) = self.not_measured(context) {
            report.paragraph(unknown);
        }
        report.text.push(Block::Table(order_table(&self.lines, context.units)));
        not_in_the_order(&self.left, report, context);
        if report.findings.iter().any(Told::is_open) {
            report.paragraph("Something stops the work: see the plan before ordering.");
        }
        if !self.alternatives.is_empty() {
            report.heading("On the shelf, and within limits as well");
            for alternative in &self.alternatives {
                report.text.push(alternative_entry(alternative, context));
            }
        }
        if let Some(shelf) = &self.shelf
            && let Some(counted) = foreign(shelf)
        {
            report.heading("The stock list");
            report.paragraph(counted);
        }
        for note in self.shelf.iter().flat_map(|shelf| &shelf.notes) {
            report.paragraph(format!("Line {}: {}.", note.line, note.what));
        }
        report.heading("Tools");
        for tool in &self.tools {
            report.text.push(Block::Entry(words::tool(tool, context.units), vec![tool.rows.join(", ")]));
        }
    }

    /// What is said on the error stream where the answer is rows.
    fn notes(&self, context: &Context<'_>) -> Vec<String> {
        let left = self.left.iter().map(|left| {
            let holes = holes_in_words(left.count());
            format!(
                "not in the order: {}, {holes}: {}",
                left.subject(),
                left.because(context.units, context.practice).join(" ")
            )
        });
        let shelf = self.shelf.iter().flat_map(|shelf| {
            let lines = shelf.notes.iter().map(|note| format!("stock list, line {}: {}", note.line, note.what));
            foreign(shelf).into_iter().chain(lines)
        });
        self.not_measured(context).into_iter().chain(left).chain(shelf).collect()
    }

    /// Whose rivets may still change; nothing where every hole was measured.
    fn not_measured(&self, context: &Context<'_>) -> Option<String> {
        let Counts { holes, measured, .. } = self.plan.counts();
        let left = holes - measured;
        (left > 0).then(|| {
            format!(
                "{left} of {holes} holes not measured yet: they may take other rivets.{}",
                context.measure(self.plan.job)
            )
        })
    }

    /// A row for each part, then one for what is not in the order: no part, and why.
    fn rows(&self, report: &mut Report, context: &Context<'_>) {
        for line in &self.lines {
            let goes_into = goes_into(self.plan, &line.part);
            report.rows.push(self.record(Some(line), &places(&goes_into), None, context));
        }
        for left in &self.left {
            report.rows.push(self.record(None, &places(std::slice::from_ref(&left.holes)), Some(left), context));
        }
        if report.rows.columns.is_empty() {
            report.rows.columns = self.record(None, "", None, context).into_columns();
        }
    }

    fn record(
        &self,
        line: Option<&OrderLine<'j>>,
        holes: &str,
        left: Option<&NotOrdered<'j>>,
        context: &Context<'_>,
    ) -> Record {
        let mut record = Record::new(context.units);
        record.optional("part", line.map(|line| line.part));
        record.optional("needed", line.map(|line| line.needed)).optional("spares", line.map(|line| line.spares));
        record.optional("stock", line.and_then(|line| line.stock)).optional("buy", line.map(|line| line.buy));
        let mass = line.and_then(|line| line.mass);
        let (unit, mass) = match context.units {
            Units::Inches => ("mass_lb", mass.map(|mass| format!("{:.4}", mass.lb()))),
            Units::Millimetres => ("mass_g", mass.map(|mass| format!("{:.1}", mass.grams()))),
        };
        record.optional(unit, mass);
        record.optional("pack", line.and_then(|line| line.pack)).optional("packs", line.map(OrderLine::packs));
        record.optional("description", line.map(|line| description(&line.part)));
        record.optional("also_called", line.map(|line| line.also_called().join(" ")));
        record.optional("alloy", line.map(|line| alloy(&line.part)));
        record.optional("head", line.map(|line| line.part.series().head.as_str()));
        record.length("diameter", line.map(|line| line.part.diameter()));
        record.length("length", line.and_then(|line| line.part.length()));
        record.text("holes", holes).text("job", &self.plan.job.title).text("date", &self.date);
        record.optional("not_ordered", left.map(NotOrdered::count));
        record.optional("why", left.map(|left| left.because(context.units, context.practice).join(" ")));
        record.optional("again", line.map(|line| line.again));
        record
    }

    fn book(&self, date: (i16, i8, i8), context: &Context<'_>) -> Book {
        let units = context.units;
        let optional = |count: Option<u32>| count.map_or(Cell::Empty, Cell::count);
        let of_line = |line: &OrderLine<'j>| {
            let part = &line.part;
            let mass = match (line.mass, units) {
                (None, _) => Cell::Empty,
                (Some(mass), Units::Inches) => Cell::Number(thousandths(mass.lb())),
                (Some(mass), Units::Millimetres) => Cell::Number(thousandths(mass.grams())),
            };
            vec![
                Cell::text(&self.plan.job.title),
                Cell::text(&self.date),
                Cell::text(part),
                Cell::text(description(part)),
                Cell::text(line.also_called().join(", ")),
                Cell::text(alloy(part)),
                Cell::text(head_words(part.series().head)),
                Cell::text(units.size(part.diameter())),
                part.length().map_or(Cell::Empty, |length| Cell::text(units.size(length))),
                Cell::count(line.needed),
                Cell::count(line.spares),
                optional(line.stock),
                optional(line.pack),
                Cell::count(line.packs()),
                Cell::count(line.buy),
                mass,
                Cell::text(places(&goes_into(self.plan, part))),
            ]
        };
        let mass = match units {
            Units::Inches => "mass, lb",
            Units::Millimetres => "mass, g",
        };
        let order = Sheet {
            name: "Order",
            columns: vec![
                "job",
                "date",
                "part",
                "description",
                "also called",
                "alloy",
                "head",
                "diameter",
                "length",
                "needed",
                "spares",
                "on hand",
                "pack",
                "packs",
                "buy",
                mass,
                "goes into",
            ],
            rows: self.lines.iter().map(of_line).collect(),
        };
        let left = Sheet {
            name: "Not ordered",
            columns: vec!["row", "holes", "count", "why"],
            rows: self
                .left
                .iter()
                .map(|left| {
                    vec![
                        Cell::text(left.holes.row),
                        Cell::text(words::ranges(&left.holes.numbers)),
                        Cell::count(left.count()),
                        Cell::text(left.because(units, context.practice).join(" ")),
                    ]
                })
                .collect(),
        };
        let alternatives = Sheet {
            name: "Alternatives",
            columns: vec!["part", "instead", "free", "for holes", "in rows", "head it makes", "drive to", "not for"],
            rows: self
                .alternatives
                .iter()
                .map(|one| {
                    vec![
                        Cell::text(one.part),
                        Cell::text(one.other),
                        Cell::count(one.free),
                        Cell::count(one.holes),
                        Cell::text(one.rows.join(", ")),
                        head_made(one, context).map_or(Cell::Empty, Cell::Text),
                        one.window.map_or(Cell::Empty, |window| Cell::text(window.shown(context.units))),
                        Cell::text(places(&one.not_for)),
                    ]
                })
                .collect(),
        };
        let tools = Sheet {
            name: "Tools",
            columns: vec!["tool", "holes", "rows"],
            rows: self
                .tools
                .iter()
                .map(|tool| {
                    vec![
                        Cell::text(words::tool(tool, units)),
                        Cell::count(tool.holes),
                        Cell::text(tool.rows.join(", ")),
                    ]
                })
                .collect(),
        };
        let about = [
            ("job", self.plan.job.title.clone()),
            ("date", self.date.clone()),
            ("practice", self.plan.practice.name().to_owned()),
            ("own limits", context.own_title.to_owned()),
            ("set", context.settled.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")),
            ("note", words::ADVISORY.to_owned()),
        ];
        let about = Sheet {
            name: "About",
            columns: vec!["what", "said"],
            rows: about.into_iter().map(|(what, said)| vec![Cell::text(what), Cell::Text(said)]).collect(),
        };
        Book {
            title: format!("Order for {}", self.plan.job.title),
            date,
            sheets: vec![order, left, alternatives, tools, about],
        }
    }
}

/// To three decimals, as the text has it.
fn thousandths(number: f64) -> f64 {
    libm::round(number * 1e3) / 1e3
}

/// How many lines of a stock list are about something else; nothing where none is.
fn foreign(shelf: &Shelf) -> Option<String> {
    match shelf.foreign {
        0 => None,
        1 => Some("1 line of the stock list is about another part and left out.".to_owned()),
        count => Some(format!("{count} lines of the stock list are about other parts and left out.")),
    }
}

fn holes_in_words(count: u32) -> String {
    if count == 1 { "1 hole".into() } else { format!("{count} holes") }
}

/// What is not in the order, and why.
pub(super) fn not_in_the_order(left: &[NotOrdered<'_>], report: &mut Report, context: &Context<'_>) {
    if left.is_empty() {
        return;
    }
    report.heading("Not in the order");
    for left in left {
        let holes = holes_in_words(left.count());
        report
            .text
            .push(Block::Entry(format!("{}: {holes}", left.subject()), left.because(context.units, context.practice)));
    }
}

/// `.178 to .203 wide at .062 high`.
fn head_made(alternative: &Alternative<'_>, context: &Context<'_>) -> Option<String> {
    let (head, height) = alternative.head.zip(alternative.height)?;
    let height = context.units.length(height).about();
    Some(format!("{} wide at {height} high", context.units.interval(head).about()))
}

fn alternative_entry(alternative: &Alternative<'_>, context: &Context<'_>) -> Block {
    let Alternative { part, other, free, holes, rows, window, not_for, .. } = alternative;
    let mut lines = vec![format!("for {}: {}", holes_in_words(*holes), rows.join(", "))];
    lines.extend(window.map(|window| format!("drive to {}", window.shown(context.units))));
    if !not_for.is_empty() {
        lines.push(format!("not for {}", places(not_for)));
    }
    Block::Entry(format!("{other} for {part}: {free} free"), lines)
}

fn not_ordered_form<'j>(left: &NotOrdered<'j>, context: &Context<'_>) -> form::order::NotOrdered<'j> {
    form::order::NotOrdered {
        row: left.holes.row,
        holes: form::numbers(&left.holes.numbers),
        whole_row: left.whole_row,
        codes: left.why.iter().map(|finding| finding.code().into()).collect(),
        why: left.because(context.units, context.practice).join(" "),
        answer: left.answer.map(form::Answer::from),
    }
}

fn note_form(note: &ShelfNote) -> form::order::Note {
    form::order::Note { line: Nth::of(note.line), what: note.what.clone() }
}

fn alternative_form<'j>(alternative: &Alternative<'j>) -> form::order::Alternative<'j> {
    let Alternative { part, other, free, holes, rows, head, height, window, not_for, .. } = alternative;
    form::order::Alternative {
        part: part.to_string(),
        alternative: other.to_string(),
        free: *free,
        holes: *holes,
        rows: rows.clone(),
        head: head
            .zip(*height)
            .map(|(diameter, height)| form::order::HeadMade { diameter: diameter.into(), height: height.into() }),
        window: window.map(form::Window::from),
        not_for: not_for.iter().map(form::HolesOfRow::from).collect(),
    }
}

fn tool_form<'j>(tool: &Tool<'j>) -> form::order::Tool<'j> {
    let (holes, rows) = (tool.holes, tool.rows.clone());
    match tool.kind {
        ToolKind::HeadDrill(drill) => {
            form::order::Tool::HeadDrill { holes, rows, drill: drill.to_string(), diameter: drill.diameter().into() }
        }
        ToolKind::HoleCutter(drill) => form::order::Tool::HoleDrillOrReamer {
            holes,
            rows,
            drill: drill.to_string(),
            diameter: drill.diameter().into(),
        },
        ToolKind::Punch(under) => form::order::Tool::Punch { holes, rows, under: under.into() },
        ToolKind::HoleGauge { rivet, least, greatest } => form::order::Tool::HoleGauge {
            holes,
            rows,
            rivet: rivet.to_string(),
            min: least.map(form::Length::from),
            max: greatest.map(form::Length::from),
        },
    }
}

/// The lines; where they go stands with them where the plan is given.
pub(super) fn line_forms<'j>(lines: &[OrderLine<'j>], plan: Option<&Plan<'j>>) -> Vec<form::OrderLine<'j>> {
    let line = |line: &OrderLine<'_>| {
        let part = &line.part;
        let goes_into = |plan| goes_into(plan, part).iter().map(form::HolesOfRow::from).collect();
        form::OrderLine {
            part: part.to_string(),
            needed: line.needed,
            again: line.again,
            spares: line.spares,
            stock: line.stock,
            buy: line.buy,
            pack: line.pack.map(Nth::from),
            packs: line.packs(),
            mass: line.mass.map(form::Mass::from),
            description: description(part),
            also_called: line.also_called(),
            alloy: alloy(part),
            head: part.series().head.into(),
            diameter: part.diameter().into(),
            length: part.length().map(form::Length::from),
            goes_into: plan.map(goes_into),
        }
    };
    lines.iter().map(line).collect()
}

/// The order as a table; the column of the shelf only where a stock list was given.
pub(super) fn order_table(lines: &[OrderLine<'_>], units: Units) -> Table {
    let with_stock = lines.iter().any(|line| line.stock.is_some());
    let with_again = lines.iter().any(|line| line.again > 0);
    let mut columns = vec!["part", "needed"];
    columns.extend(with_again.then_some("of them again"));
    columns.push("spares");
    columns.extend(with_stock.then_some("stock"));
    columns.extend(["buy", "mass"]);
    let row = |line: &OrderLine<'_>| {
        let mut cells = vec![line.part.to_string(), line.needed.to_string()];
        cells.extend(with_again.then(|| line.again.to_string()));
        cells.push(line.spares.to_string());
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
