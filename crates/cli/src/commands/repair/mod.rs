//! `shophead repair`: a patch, a splice, a panel's seams, rows for a margin.

mod bend;
mod panel;
mod patch;
mod rows;
mod splice;
mod strip;
mod through;

use shophead::finding::Finding;
use shophead::installation::Installation;
use shophead::layout::{Point, closest_sorted};
use shophead::length::{Bare, Length};
use shophead::practice::Given;
use shophead::quantity::Mass;
use shophead::repair::count::{By, Rate};
use shophead::repair::site::Site;
use shophead::repair::told::{Tell, ToldKind};
use shophead::rivet::part::Part;
use shophead::words::Units;
use shophead_job::order::{OrderLine, order_of};
use shophead_job::repair::{Other, Piece, PlacedRivet, order_csv, points_csv};

use self::answer::{OrderAnswer, Repair, Which, told};
use super::memory_mark;
use crate::context::Context;
use crate::exit::Stop;
use crate::form::repair as answer;
use crate::input;
use crate::repair_args::{OutArgs, RepairArgs, RepairWhat, SiteArgs};
use crate::report::{Block, Document, Record, Report, Table};

pub(super) fn run<'a>(args: &RepairArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    match &args.what {
        RepairWhat::Patch(args) => patch::run(args, context),
        RepairWhat::Splice(args) => splice::run(args, context),
        RepairWhat::Panel(args) => panel::run(args, context),
        RepairWhat::Rows(args) => rows::run(args, context),
        RepairWhat::Bend(args) => bend::run(args, context),
    }
}

/// What a sized repair comes to, beside its own figures.
struct Sized {
    places: Vec<PlacedRivet>,
    rivets: Vec<OrderLine<'static>>,
    pieces: Vec<Piece>,
    others: Vec<Other>,
    mass: Option<Mass>,
    told: Tell,
    drawing: String,
}

impl Sized {
    /// Puts it into the report and into the folder that was named.
    fn finish<'a>(
        self,
        mut answer: Repair<'a>,
        out: &OutArgs,
        report: &mut Report<'a>,
        context: &Context<'a>,
    ) -> Result<(), Stop> {
        answer.mass = self.mass.map(Into::into);
        answer.points = self.places.iter().map(Into::into).collect();
        answer.order = OrderAnswer::of(&self.rivets, &self.pieces, &self.others);
        answer.told = told(&self.told, context.practice);
        report.give(answer);
        self.order_text(report, context.units);
        told_text(&self.told, report, context);
        for place in &self.places {
            let mut record = Record::new(context.units);
            record.length("x", place.at.x).length("y", place.at.y).length("diameter", place.diameter);
            record.text("part", &place.part).text("row", place.row).text("counts", place.counts);
            record.findings(&report.findings);
            report.rows.push(record);
        }
        if let Some(folder) = &out.out {
            let units = context.units;
            for (name, text) in [
                ("points.csv", points_csv(&self.places, units)),
                ("order.csv", order_csv(&self.rivets, &self.pieces, &self.others, units)),
                ("repair.svg", self.drawing.clone()),
            ] {
                report.beside.push(Document { path: folder.join(name), text });
            }
            report.paragraph(format!("Written: points.csv, order.csv and repair.svg in {}.", folder.display()));
        }
        report.drawing = Some(self.drawing);
        Ok(())
    }

    fn order_text(&self, report: &mut Report<'_>, units: Units) {
        report.heading("Order");
        let mut rows: Vec<Vec<String>> = Vec::new();
        for line in &self.rivets {
            let spares = if line.spares > 0 { format!(" and {} spare", line.spares) } else { String::new() };
            rows.push(vec![line.part.to_string(), format!("{}{spares}", line.needed)]);
        }
        for other in &self.others {
            rows.push(vec![other.what.clone(), other.count.to_string()]);
        }
        for piece in &self.pieces {
            let [thickness, along, across] =
                [piece.thickness, piece.along, piece.across].map(|length| units.length(length).to_string());
            let what = format!("{} {} {}", thickness, piece.material, piece.what);
            let count = if piece.count > 1 { format!("{} of ", piece.count) } else { String::new() };
            rows.push(vec![what, format!("{count}{along} by {across}")]);
        }
        report.text.push(Block::Table(Table { columns: vec!["item", "how many"], rows }));
        if let Some(mass) = self.mass {
            report.paragraph(format!("Adds {} to the aircraft, estimated.", weight(mass, units)));
        }
    }
}

/// What is told, each kind under its heading.
fn told_text(tell: &Tell, report: &mut Report<'_>, context: &Context<'_>) {
    for (kind, heading) in [
        (ToldKind::Ask, "Ask first"),
        (ToldKind::Design, "See to it"),
        (ToldKind::Work, "Do the work in this order"),
        (ToldKind::Inspect, "Look at it when it is done"),
    ] {
        let mut sentences = tell.of(kind).peekable();
        if sentences.peek().is_none() {
            continue;
        }
        report.heading(heading);
        for told in sentences {
            let cited = context.practice.cite(told.basis());
            report.text.push(Block::Entry(format!("{} [{cited}]", told.meaning()), Vec::new()));
        }
    }
}

/// A mass with its unit.
fn weight(mass: Mass, units: Units) -> String {
    match units {
        Units::Inches => format!("{:.3} lb", mass.lb()),
        Units::Millimetres => format!("{:.0} g", mass.grams()),
    }
}

/// The places where it is.
fn sites(args: &SiteArgs) -> Result<Vec<Site>, Stop> {
    args.site.split(',').map(|word| input::word("--site", word.trim())).collect()
}

/// Nothing is sized in this place.
fn refused<'a>(repair: Which, site: Site, report: &mut Report<'a>, context: &Context<'a>) {
    report.find(context, site.as_str(), &site.refusal());
    report.answer("Nothing is sized");
    report.paragraph(format!("{} No handbook on file sizes a repair there.", site.meaning()));
    report.give(Repair { repair, ..Repair::default() });
}

/// No count, or no limit to lay out by: nothing is sized.
fn not_sized<'a>(
    repair: Which,
    subject: &str,
    found: Option<Finding>,
    why: &str,
    report: &mut Report<'a>,
    context: &Context<'a>,
) {
    report.find(context, subject, &found);
    report.answer("Nothing is sized");
    report.paragraph(format!("{}.", sentence(why)));
    report.give(Repair { repair, ..Repair::default() });
}

/// With a capital, and without the full stop.
fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// Half of a length, and the same on the other side of nothing; what is drawn or cut is never so long that either leaves the range.
fn half(length: Length) -> Length {
    Length::from_nanometres(length.nanometres() / 2).unwrap_or_default()
}

fn minus(length: Length) -> Length {
    Length::from_nanometres(-length.nanometres()).unwrap_or_default()
}

fn add(one: Length, other: Length) -> Length {
    one.checked_add(other).unwrap_or(one)
}

/// `2x1-1/2`: two lengths.
fn by(option: &str, text: &str, bare: Bare) -> Result<(Length, Length), Stop> {
    let Some((one, other)) = text.split_once(['x', 'X', '×']) else {
        return Err(input::wrong(option, text, "this takes two lengths with an x between; right would be 2x1-1/2"));
    };
    Ok((input::length(option, one, bare)?, input::length(option, other, bare)?))
}

/// The rivets of places that all take the same part; a part without length is not ordered.
fn rivets(parts: Vec<(Part<'static>, u32)>, spares: &str) -> Result<Vec<OrderLine<'static>>, Stop> {
    let spares = input::percent("--spares", spares)?;
    let known = parts.into_iter().filter(|(part, count)| part.length().is_some() && *count > 0);
    Ok(order_of(known, spares, None))
}

/// How closely the rivets stand, compared with the least spacing of a single row.
fn check_places<'a>(
    subject: &str,
    places: &[PlacedRivet],
    rivet: &Part<'static>,
    report: &mut Report<'a>,
    context: &Context<'a>,
) {
    let points: Vec<Point> = places.iter().map(|place| place.at).collect();
    check_points(subject, &points, rivet, report, context);
}

/// The least spacing of a single row, compared with the two that are closest.
fn check_points<'a>(
    subject: &str,
    points: &[Point],
    rivet: &Part<'static>,
    report: &mut Report<'a>,
    context: &Context<'a>,
) {
    let Some((_, _, closest)) = closest_sorted(points, &mut vec![0; points.len()], &[]).pair else { return };
    let question = Installation::without_layers(*rivet).pitch(closest).by(context.practice);
    report.find_all(context, subject, &question.distances());
}

/// A limit with where it stands.
fn given(limit: Given<Length>, context: &Context<'_>) -> String {
    format!("{} ({})", context.units.length(limit.value), context.practice.cite(limit.basis))
}

/// Rivets an inch, every way that there is, as lines of the answer.
fn rate_pairs(rate: &Rate, context: &Context<'_>) -> Vec<(String, String)> {
    let units = context.units;
    let mut pairs = Vec::new();
    for (found, is_laid) in [(rate.by_table, rate.from == Some(By::Table)), (rate.also, rate.from == Some(By::Example))]
    {
        let Some(found) = found else { continue };
        let (percent, _) = found.member.percent();
        let part = if percent < 100 { format!(" x {percent} %") } else { String::new() };
        let laid = if is_laid { "; laid out" } else { "" };
        pairs.push((
            format!("table {}", found.table.as_str()),
            format!("{} an inch: {}{part}{laid}", units.ratio(found.per_inch), units.ratio(found.used)),
        ));
    }
    if let Some(found) = rate.by_strength {
        let laid = if rate.from == Some(By::Strength) { "; laid out" } else { "" };
        pairs.push((
            "by strength".to_owned(),
            format!(
                "{} an inch: {} a rivet{}{laid}",
                units.ratio(found.per_inch),
                units.force(found.per_rivet.force),
                memory_mark(found.per_rivet.basis)
            ),
        ));
    }
    pairs
}
