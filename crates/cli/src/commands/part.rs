//! `shophead part`.

use shophead::basis::Status;
use shophead::practice::Practice;
use shophead::quantity::Mass;
use shophead::rivet::Head;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::{Part, PartWarning};
use shophead::select::check_part;
use shophead::words::Units;

use super::memory_mark;
use crate::args::PartArgs;
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Block, Record, Report};
use crate::{form, input};

pub(super) fn run<'a>(args: &PartArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let mut report = Report::new("part", context);
    let mut results = Vec::new();
    for text in &args.parts {
        let part = match input::part("part", text) {
            Ok(part) => part,
            Err(Stop::Wrong(sentences)) => {
                report.refused.extend(sentences);
                continue;
            }
            Err(stop) => return Err(stop),
        };
        let subject = part.to_string();
        report.find_all(context, &subject, &check_part(&part));
        results.push(form(text, &part, context.practice));
        tell(&mut report, text, &part, context);
        report.rows.push(record(text, &part, context.units));
    }
    if results.is_empty() {
        return Err(Stop::Wrong(report.refused));
    }
    // The shape follows the command line, so that a script that asks for two always gets a list.
    report.give(match results.pop() {
        Some(only) if args.parts.len() == 1 => form::part::Answer::One(Box::new(only)),
        last => {
            results.extend(last);
            form::part::Answer::Several { parts: results }
        }
    });
    Ok(report)
}

pub(super) const fn head_words(head: Head) -> &'static str {
    match head {
        Head::Universal => "universal head",
        Head::Flush => "100 degree flush head",
        Head::ReducedFlush => "100 degree flush head of reduced size",
        _ => head.as_str(),
    }
}

pub(super) fn alloy(part: &Part<'_>) -> String {
    let temper = part.alloy().temper_supplied().map_or_else(String::new, |temper| format!("-{temper}"));
    format!("{}{temper}", part.alloy().alloy())
}

/// Its mass; for a family, or where density or head are not known, nothing.
fn mass(part: &Part<'_>) -> Option<Mass> {
    let (density, _) = part.alloy().density_lb_in3()?;
    mass_each(part, density)
}

fn form<'a>(written: &str, part: &Part<'static>, practice: &Practice<'a>) -> form::part::Part<'a> {
    let size = practice.size(part.series(), part.size());
    form::part::Part {
        written: written.to_owned(),
        part: part.to_string(),
        words: part.in_words().to_string(),
        series: part.series().name,
        head: part.series().head.into(),
        alloy: alloy(part),
        alloy_letters: part.material().code,
        finish: part.finish().map(|finish| finish.name),
        diameter: part.diameter().into(),
        length: part.length().map(form::Length::from),
        shank: size.shank.map(form::Interval::from),
        head_size: size.head.map(|head| form::part::HeadSize {
            diameter: head.diameter_nominal.into(),
            height: head.height_nominal.into(),
        }),
        head_mark: part.alloy().head_mark().map(|(mark, _)| mark),
        mass: mass(part).map(form::Mass::from),
        warnings: part.warnings().iter().map(|warning| warning.to_string()).collect(),
        basis: form::Basis::of(part.series().basis, practice),
        size_basis: form::Basis::of(size.basis, practice),
    }
}

fn tell(report: &mut Report, written: &str, part: &Part<'static>, context: &Context<'_>) {
    let units = context.units;
    let long = part.length().map_or_else(
        || "no length".to_owned(),
        |length| {
            format!(
                "{} {}",
                units.size(length),
                if part.series().head.is_flush() { "long, head included" } else { "long" }
            )
        },
    );
    report.answer(format!("{part}   {} diameter, {long}", units.size(part.diameter())));
    let mut pairs = Vec::new();
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    if written.trim() != part.to_string() {
        pair("written", format!("{:?}", written.trim()));
    }
    pair(
        "series",
        format!("{}, {}{}", part.series().name, head_words(part.series().head), memory_mark(part.series().basis)),
    );
    pair("alloy", format!("{} ({}){}", alloy(part), letters(part), memory_mark(part.material().basis)));
    if let Some(finish) = part.finish() {
        pair("finish", format!("{}{}", finish.name, memory_mark(finish.basis)));
    }
    let size = context.practice.size(part.series(), part.size());
    if let Some(shank) = size.shank {
        pair("shank", format!("{}{}", units.interval(shank), memory_mark(size.basis)));
    }
    if let Some(head) = size.head {
        let (wide, high) = (units.length(head.diameter_nominal), units.length(head.height_nominal));
        pair("manufactured head", format!("{wide} wide, {high} high{}", memory_mark(head.basis)));
    }
    if let Some((mark, basis)) = part.alloy().head_mark() {
        pair("mark on the head", format!("{mark}{}", memory_mark(basis)));
    }
    if let Some(mass) = mass(part) {
        pair(
            "mass",
            match units {
                Units::Inches => format!("about {:.2} lb a thousand", mass.lb() * 1000.0),
                Units::Millimetres => format!("about {:.0} g a thousand", mass.grams() * 1000.0),
            },
        );
    }
    report.text.push(Block::Pairs(pairs));
    // What has a code stands with the findings.
    for warning in part.warnings() {
        let coded = matches!(
            warning,
            PartWarning::NonStructural
                | PartWarning::HeatTreatFirst
                | PartWarning::BelowTable { .. }
                | PartWarning::AboveTable { .. }
        );
        let recalled = matches!(warning, PartWarning::Recalled { basis } if basis.status() == Status::Memory);
        if !coded && !recalled {
            report.paragraph(format!("Mind: {warning}."));
        }
    }
}

fn letters(part: &Part<'_>) -> String {
    match part.material().code {
        "" => "no letters".to_owned(),
        code => code.to_owned(),
    }
}

fn record(written: &str, part: &Part<'_>, units: Units) -> Record {
    let mut record = Record::new(units);
    record.text("written", written).text("part", part).text("series", part.series().name);
    record.text("head", part.series().head.as_str()).text("alloy", alloy(part));
    record.text("alloy_letters", part.material().code).length("diameter", part.diameter());
    record.length("length", part.length());
    let warnings: Vec<String> = part.warnings().iter().map(|warning| warning.to_string()).collect();
    record.text("warnings", warnings.join("; "));
    record
}
