//! `shophead repair rows --counts 1-3-1`: rows that are not alike.

use shophead::basis::Basis;
use shophead::finding::{Code, Finding};
use shophead::installation::Installation;
use shophead::joint::margin::margin;
use shophead::joint::modes;
use shophead::joint::strength::Allowable;
use shophead::joint::strip::{
    Hole, Pulled, StripSheet, WeakestLine, all_rivets, even_row, line_of_row, net_hole, no_strength,
};
use shophead::layout::Point;
use shophead::length::Length;
use shophead::material::Property;
use shophead::quantity::{Force, Stress};
use shophead::rivet::part::Part;

use super::answer::{self, LineAnswer, StripAnswer};
use super::check_points;
use super::rows::Asked;
use crate::commands::memory_mark;
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::RowsArgs;
use crate::report::{Block, Record, Report, Table};

/// Strengths as given.
struct Given {
    ftu: Option<Stress>,
    fbru: Option<Stress>,
    fsu: Option<Stress>,
    rivet_fsu: Option<Stress>,
    hole: Option<Length>,
}

impl Given {
    fn of(args: &RowsArgs, context: &Context<'_>) -> Result<Given, Stop> {
        let given = &args.given;
        let stress =
            |option, text: &Option<String>| text.as_deref().map(|text| input::stress(option, text)).transpose();
        Ok(Given {
            ftu: stress("--ftu", &given.ftu)?,
            fbru: stress("--fbru", &given.fbru)?,
            fsu: stress("--fsu", &given.fsu)?,
            rivet_fsu: stress("--rivet-fsu", &given.rivet_fsu)?,
            hole: given.hole.as_deref().map(|text| input::hole_diameter("--hole", text, context.bare)).transpose()?,
        })
    }
}

impl Given {
    /// Whether a finding is about a strength that is given.
    fn replaces(&self, finding: &Finding) -> bool {
        match finding.code() {
            Code::NotChecked => self.ftu.is_some() && self.fbru.is_some(),
            Code::StrengthNotPublished
            | Code::SheetTooThinForTable
            | Code::EdgeMarginBelowTable
            | Code::LimitFromMemory => {
                if finding.layer().is_some() {
                    self.fbru.is_some()
                } else {
                    self.rivet_fsu.is_some()
                }
            }
            _ => false,
        }
    }
}

/// A row: how many, which, and what one of them carries in each way.
struct Row {
    count: u16,
    hole: Length,
    shear: Option<Allowable>,
    /// Of the weakest sheet.
    bearing: Option<Allowable>,
    /// Where the row is the last before the end of a sheet.
    tear_out: Option<Force>,
}

impl Row {
    fn carries(&self) -> Option<Force> {
        let least = self.shear?.force.min(self.bearing?.force);
        Some(self.tear_out.map_or(least, |tear_out| least.min(tear_out)))
    }
}

/// `1-3:5/32-1`: rivets in each row, and the rivet where its size is its own.
fn counts(text: &str, rivet: Part<'static>, context: &Context<'_>) -> Result<Vec<(u16, Part<'static>)>, Stop> {
    const MOST: u16 = 96;
    let row = |item: &str| {
        let (count, size) = item.split_once(':').map_or((item, None), |(count, size)| (count, Some(size)));
        let count = count.trim().parse().ok().filter(|count| (1..=MOST).contains(count));
        let count = count.ok_or_else(|| {
            input::wrong(
                "--counts",
                text,
                "this takes a number of rivets for every row, with - between; right would be 1-3-1",
            )
        })?;
        let Some(size) = size else { return Ok((count, rivet)) };
        let diameter = input::length("--counts", size, context.bare)?;
        let series = rivet.series();
        let size = series.size_for_diameter(diameter).and_then(|size| rivet.in_size(size)).ok_or_else(|| {
            input::wrong("--counts", size, format_args!("{} does not come in this diameter", series.name))
        })?;
        Ok((count, size))
    };
    text.split('-').map(row).collect()
}

pub(super) fn run<'a>(
    args: &RowsArgs,
    text: &str,
    asked: &Asked,
    report: &mut Report<'a>,
    context: &Context<'a>,
) -> Result<StripAnswer<'a>, Stop> {
    let given = Given::of(args, context)?;
    let counts = counts(text, asked.rivet, context)?;
    let sheets = sheets(asked, &given, context)?;
    let rows = rows(args, &counts, asked, &given, report, context)?;
    let width = asked.across;
    let holes = holes(&rows, asked)?;
    check(&counts, &holes, asked, report, context);

    let all = |way: fn(&Row) -> Option<Force>| -> Option<Force> {
        rows.iter()
            .try_fold(Force::ZERO, |sum, row| Some(Force::from_lbf(sum.lbf() + way(row)?.lbf() * f64::from(row.count))))
    };
    let carries = all(Row::carries);
    // Also where a strength is missing: whether the strip is one at all.
    all_rivets(&holes, width).map_err(Stop::wrong)?;
    let mut lines: Vec<(u8, WeakestLine)> = Vec::new();
    for (number, sheet) in &sheets {
        for index in 0..rows.len() {
            let x = row_at(index, asked)?;
            lines.push((*number, line_of_row(&holes, width, sheet, x).map_err(Stop::wrong)?));
        }
    }
    let gross = sheets.iter().map(|(_, sheet)| modes::gross_section(sheet.ftu.0, sheet.thickness, width));
    let gross = gross.reduce(Force::min).unwrap_or(Force::ZERO);
    let load_of = |line: &(usize, &(u8, WeakestLine))| line.1.1.load.force.lbf();
    let weakest = lines.iter().enumerate().min_by(|one, other| load_of(one).total_cmp(&load_of(other)));
    let (place, (weakest_sheet, weakest)) = weakest.ok_or_else(|| Stop::wrong("a strip has at least one sheet"))?;
    let by_rivets = carries.is_some_and(|carries| carries < weakest.load.force);
    let carries_all = carries.map(|carries| carries.min(weakest.load.force));
    let governing = if by_rivets {
        "the rivets, all together".to_owned()
    } else {
        let from = row_of(weakest, rows.len(), asked);
        format!("sheet {weakest_sheet} through {} of row {from}{}", holes_word(weakest.holes), zigzag(weakest))
    };
    let found = asked.load.zip(carries_all).and_then(|((load, factors), carries)| margin(carries, load, factors).ok());
    report.find(context, &asked.rivet.to_string(), &found.and_then(|found| found.negative()));
    if carries.is_none() {
        // A strength that is missing in the tables has been said; one that nobody gave has not.
        report.find(context, &asked.rivet.to_string(), [&no_strength(&asked.rivet)]);
    }
    let efficiency = |force: Force| modes::efficiency(force, gross);
    let shear = all(|row| row.shear.map(|shear| shear.force));
    let bearing = all(|row| row.bearing.map(|bearing| bearing.force));
    let end_rows = rows.iter().filter_map(|row| Some(row.tear_out? * f64::from(row.count))).reduce(Force::min);
    let stresses = stresses(&rows, asked);
    let answer = StripAnswer {
        counts: rows.iter().map(|row| row.count).collect(),
        gross: gross.into(),
        all_rivets: carries.map(Into::into),
        all_rivets_in_shear: shear.map(Into::into),
        all_rivets_in_bearing: bearing.map(Into::into),
        rivet_efficiency: carries.map(efficiency),
        shear_efficiency: shear.map(efficiency),
        bearing_efficiency: bearing.map(efficiency),
        tear_out_efficiency: end_rows.map(efficiency),
        shear_stress: stresses.map(|(_, shear, _)| shear.into()),
        bearing_stress: stresses.map(|(_, _, bearing)| bearing.into()),
        lines: lines.iter().map(|(sheet, line)| self::line(*sheet, line, rows.len(), gross, asked, context)).collect(),
        carries: carries_all.map(Into::into),
        governing: if by_rivets { answer::Parts::Rivets } else { answer::Parts::Sheet },
        governing_line: (!by_rivets).then_some(place + 1),
        efficiency: carries_all.map(efficiency),
        margin: found.map(|found| found.value),
    };
    let told = Told {
        carries: carries_all,
        gross,
        shear,
        bearing,
        end_rows,
        stresses,
        governing,
        margin: found.map(|found| found.value),
    };
    told.text(&rows, &lines, asked, report, context);
    record(&answer, &told, report, context);
    Ok(answer)
}

/// Every load-carrying sheet: the first is pulled before the first row, the others behind the last.
fn sheets(asked: &Asked, given: &Given, context: &Context<'_>) -> Result<Vec<(u8, StripSheet)>, Stop> {
    let mut sheets = Vec::new();
    for (number, layer) in asked.stack.numbered_load_carrying() {
        let thickness = layer.thickness.nominal();
        let known = layer.material.map(|material| context.practice.sheet(material, thickness));
        let published = known.and_then(|sheet| sheet.figure(Property::TensionUltimate));
        let ftu = given.ftu.map(|ftu| (ftu, Basis::AS_GIVEN)).or(published).ok_or_else(|| {
            Stop::wrong(format_args!(
                "the tension strength of sheet {number} is not published; give it, as in --ftu 62ksi"
            ))
        })?;
        let pulled = if sheets.is_empty() { Pulled::AtFirst } else { Pulled::AtLast };
        sheets.push((number, StripSheet { thickness, ftu, pulled }));
    }
    Ok(sheets)
}

fn rows<'a>(
    args: &RowsArgs,
    counts: &[(u16, Part<'static>)],
    asked: &Asked,
    given: &Given,
    report: &mut Report<'a>,
    context: &Context<'a>,
) -> Result<Vec<Row>, Stop> {
    let Asked { stack, edge, .. } = asked;
    let shear = args.shear.shear();
    let last = counts.len().saturating_sub(1);
    let mut rows = Vec::new();
    for (index, &(count, rivet)) in counts.iter().enumerate() {
        let hole = given.hole.unwrap_or_else(|| net_hole(&rivet));
        let question = Installation::new(rivet, stack).edge(*edge).shear(shear).by(context.practice);
        let found = question.strength().map_err(Stop::wrong)?;
        report.find(context, &rivet.to_string(), found.findings.iter().filter(|finding| !given.replaces(finding)));
        let as_given = |force| Allowable { force, basis: Basis::AS_GIVEN };
        let by_table = found.sheets.iter().map(|sheet| sheet.bearing().map(|bearing| bearing.ultimate));
        let by_table = by_table.reduce(|one, other| {
            let (one, other) = one.zip(other)?;
            Some(if one.force <= other.force { one } else { other })
        });
        let thicknesses = stack.load_carrying().map(|layer| layer.thickness.nominal());
        let thinnest = thicknesses.min().unwrap_or(Length::ZERO);
        let bearing = given.fbru.map(|fbru| as_given(modes::bearing(fbru, hole, thinnest)));
        // A sheet tears out behind the row next to its end: the first sheet behind the last row, the others before the first.
        let tears = |number: usize| if number == 0 { index == last } else { index == 0 };
        let tear_out =
            stack.load_carrying().enumerate().filter(|(number, _)| tears(*number)).filter_map(|(_, layer)| {
                let thickness = layer.thickness.nominal();
                let published = || context.practice.sheet(layer.material?, thickness).fsu();
                given.fsu.or_else(published).map(|fsu| modes::tear_out(fsu, thickness, *edge))
            });
        rows.push(Row {
            count,
            hole,
            shear: given.rivet_fsu.map(|fsu| as_given(modes::rivet_shear(fsu, hole, shear.planes()))).or(found.shear),
            bearing: bearing.or(by_table.flatten()),
            tear_out: tear_out.reduce(Force::min),
        });
    }
    Ok(rows)
}

/// How far behind the first row a row stands.
fn row_at(index: usize, asked: &Asked) -> Result<Length, Stop> {
    let times = i64::try_from(index).ok();
    times
        .and_then(|times| asked.apart.checked_mul(times))
        .ok_or_else(|| Stop::wrong("the rows stand too far apart to be counted"))
}

fn holes(rows: &[Row], asked: &Asked) -> Result<Vec<Hole>, Stop> {
    let mut holes = Vec::new();
    for (index, row) in rows.iter().enumerate() {
        let x = row_at(index, asked)?;
        let carries = row.carries().unwrap_or(Force::ZERO);
        holes.extend(even_row(row.count, asked.across, x).map(|at| Hole { at, diameter: row.hole, carries }));
    }
    Ok(holes)
}

/// How the rivets stand: from each other, from the ends and from the sides.
fn check<'a>(
    counts: &[(u16, Part<'static>)],
    holes: &[Hole],
    asked: &Asked,
    report: &mut Report<'a>,
    context: &Context<'a>,
) {
    let points: Vec<Point> = holes.iter().map(|hole| hole.at).collect();
    // The largest of them keeps the others away.
    let largest = counts.iter().map(|(_, rivet)| *rivet).max_by_key(|rivet| rivet.diameter());
    let rivet = largest.unwrap_or(asked.rivet);
    check_points(&rivet.to_string(), &points, &rivet, report, context);
}

/// The number of the row that a line touches first, counted from the first one.
fn row_of(line: &WeakestLine, rows: usize, asked: &Asked) -> usize {
    let apart = asked.apart.nanometres().max(1);
    usize::try_from(line.row.nanometres() / apart).unwrap_or(0).saturating_add(1).min(rows)
}

fn holes_word(holes: u16) -> String {
    if holes == 1 { "the hole".to_owned() } else { format!("{holes} holes") }
}

fn zigzag(line: &WeakestLine) -> &'static str {
    if line.zigzag { ", zigzag" } else { "" }
}

fn line<'a>(
    sheet: u8,
    line: &WeakestLine,
    rows: usize,
    gross: Force,
    asked: &Asked,
    context: &Context<'a>,
) -> LineAnswer<'a> {
    LineAnswer {
        sheet,
        load: form::Allowable::of(line.load, context.practice),
        efficiency: modes::efficiency(line.load.force, gross),
        net_width: Length::try_from_inches_f64(line.net_width).unwrap_or_default().into(),
        holes: line.holes,
        from_row: u16::try_from(row_of(line, rows, asked)).unwrap_or(u16::MAX),
        before: line.before.into(),
        zigzag: line.zigzag,
    }
}

/// What an equal part of the load is to a rivet, and what it makes in the hole of the first row, in shear and in the thinnest sheet.
fn stresses(rows: &[Row], asked: &Asked) -> Option<(Force, Stress, Stress)> {
    let ((load, _), first) = asked.load.zip(rows.first())?;
    let rivets: u32 = rows.iter().map(|row| u32::from(row.count)).sum();
    let each = load.force * f64::from(rivets).recip();
    let thinnest = asked.stack.load_carrying().map(|layer| layer.thickness.nominal()).min()?;
    let one = Stress::from_psi(1.0);
    let stress = |of_one_psi: Force| Stress::from_psi(each.lbf() / of_one_psi.lbf());
    Some((each, stress(modes::rivet_shear(one, first.hole, 1.0)), stress(modes::bearing(one, first.hole, thinnest))))
}

/// What the text says of the strip.
struct Told {
    carries: Option<Force>,
    gross: Force,
    shear: Option<Force>,
    bearing: Option<Force>,
    end_rows: Option<Force>,
    stresses: Option<(Force, Stress, Stress)>,
    governing: String,
    margin: Option<f64>,
}

impl Told {
    fn text<'a>(
        &self,
        rows: &[Row],
        lines: &[(u8, WeakestLine)],
        asked: &Asked,
        report: &mut Report<'a>,
        context: &Context<'a>,
    ) {
        let units = context.units;
        let of_gross = |force: Force| format!("{:.0} %", modes::efficiency(force, self.gross) * 100.0);
        let counts: Vec<String> = rows.iter().map(|row| row.count.to_string()).collect();
        let carries = self.carries.map_or_else(
            || "strength not published".to_owned(),
            |carries| format!("carries {}, {} of the sheet", units.force(carries), of_gross(carries)),
        );
        report.text.insert(0, Block::Answer(format!("{}   {carries}", counts.join("-"))));
        let mut pairs = vec![("fails first".to_owned(), self.governing.clone())];
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        if let (Some(margin), Some((load, _))) = (self.margin, asked.load) {
            pair(
                "margin",
                format!(
                    "{margin:+.2} under {} {} load",
                    units.force(load.force),
                    crate::commands::load_word(load.kind)
                ),
            );
        }
        pair("sheet without holes", units.force(self.gross).to_string());
        for (name, force) in
            [("rivets in shear", self.shear), ("in bearing", self.bearing), ("end row alone", self.end_rows)]
        {
            let text = force.map(|force| format!("{}, {}", units.force(force), of_gross(force)));
            pair(name, text.unwrap_or_else(|| "not published".to_owned()));
        }
        if let Some((each, shear, bearing)) = self.stresses {
            let [shear, bearing] = [shear, bearing].map(|stress| units.stress(stress).to_string());
            pair("a rivet's part", format!("{}: {shear} in shear, {bearing} in bearing", units.force(each)));
        }
        report.text.push(Block::Pairs(pairs));
        report.heading("Where a sheet parts");
        let table = lines.iter().map(|(sheet, line)| {
            let before = if line.before > Force::ZERO { units.force(line.before).to_string() } else { String::new() };
            vec![
                sheet.to_string(),
                row_of(line, rows.len(), asked).to_string(),
                format!("{}{}", holes_word(line.holes), zigzag(line)),
                format!("{}{}", units.force(line.load.force), memory_mark(line.load.basis)),
                of_gross(line.load.force),
                before,
            ]
        });
        let rows = table.collect();
        let columns = vec!["sheet", "row", "through", "at", "of the sheet", "gone before"];
        report.text.push(Block::Table(Table { columns, rows }));
        report.paragraph(
            "All rivets are counted at their full strength together, as ductile joints are at failure. A poorly driven joint of \
             two rows of four, pulled apart, carried 13 % less than this counts.",
        );
    }
}

fn record(answer: &StripAnswer, told: &Told, report: &mut Report<'_>, context: &Context<'_>) {
    let mut record = Record::new(context.units);
    let counts: Vec<String> = answer.counts.iter().map(ToString::to_string).collect();
    record.text("counts", counts.join("-")).force("carries", told.carries).text("gives_way", &told.governing);
    record.optional("efficiency", answer.efficiency).force("shear", told.shear).force("bearing", told.bearing);
    record.optional("margin", told.margin).findings(&report.findings);
    report.rows.push(record);
}
