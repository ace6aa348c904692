//! `shophead repair rows --counts 1-3-1`: rows that are not alike.

use shophead::finding::{Code, Finding};
use shophead::joint::modes;
use shophead::joint::strip::WeakestLine;
use shophead::layout::Point;
use shophead::length::Length;
use shophead::quantity::{Force, Stress};
use shophead::repair::strip::{CountedQuery, CountedRow, CountedStrip, InPlace, RowOfStrip, counted};
use shophead::rivet::part::Part;
use shophead::working;

use super::answer::{self, LineAnswer, StripAnswer};
use super::check_points;
use super::rows::Asked;
use crate::commands::{memory_mark, percent};
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::RowsArgs;
use crate::report::{Block, Record, Report, Table};

/// Strengths as given.
fn given(args: &RowsArgs, context: &Context<'_>) -> Result<InPlace, Stop> {
    let given = &args.given;
    let stress = |option, text: &Option<String>| text.as_deref().map(|text| input::stress(option, text)).transpose();
    let hole = given.hole.as_deref().map(|text| input::hole_diameter("--hole", text, context.bare)).transpose()?;
    Ok(InPlace::default()
        .ftu(stress("--ftu", &given.ftu)?)
        .fbru(stress("--fbru", &given.fbru)?)
        .fsu(stress("--fsu", &given.fsu)?)
        .rivet_fsu(stress("--rivet-fsu", &given.rivet_fsu)?)
        .hole(hole))
}

/// `1-3:5/32-1`: rivets in each row, and the rivet where its size is its own.
fn counts(text: &str, rivet: Part<'static>, context: &Context<'_>) -> Result<Vec<CountedRow>, Stop> {
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
        let Some(size) = size else { return Ok(CountedRow::new(count, rivet)) };
        let diameter = input::length("--counts", size, context.bare)?;
        let series = rivet.series();
        let size = series.size_for_diameter(diameter).and_then(|size| rivet.in_size(size)).ok_or_else(|| {
            input::wrong("--counts", size, format_args!("{} does not come in this diameter", series.name))
        })?;
        Ok(CountedRow::new(count, size))
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
    let counts = counts(text, asked.rivet, context)?;
    let query = CountedQuery::new(asked.rivet, &counts, &asked.stack, asked.across, asked.apart, asked.edge)
        .shear(args.shear.shear())
        .given(given(args, context)?)
        .load(asked.load)
        .practice(context.practice);
    let mut said: Vec<(Part<'static>, Finding)> = Vec::new();
    let strip = counted(&query, &mut |rivet, finding| said.push((*rivet, *finding))).map_err(Stop::wrong)?;
    // The rivets first, then how they stand, then the strip as a whole.
    let of_strip = |finding: &Finding| matches!(finding.code(), Code::MarginNegative);
    for (rivet, finding) in said.iter().filter(|(_, finding)| !of_strip(finding)) {
        report.find(context, &rivet.to_string(), [finding]);
    }
    check(&counts, &strip, asked, report, context);
    for (rivet, finding) in said.iter().filter(|(_, finding)| of_strip(finding)) {
        report.find(context, &rivet.to_string(), [finding]);
    }
    report.work(context, |work| working::strip::of(&query, &strip, work));
    let lines = strip.lines().collect::<Result<Vec<_>, _>>().map_err(Stop::wrong)?;
    let (gross, carries, carries_all, found) = (strip.gross, strip.all_rivets, strip.carries, strip.margin);
    let (weakest_sheet, weakest) = &strip.weakest;
    let place = lines.iter().position(|line| *line == strip.weakest);
    let by_rivets = carries.is_some_and(|carries| carries < weakest.load.force);
    let governing = if by_rivets {
        "the rivets, all together".to_owned()
    } else {
        let from = strip.row_of(weakest);
        format!("sheet {weakest_sheet} through {} of row {from}{}", holes_word(weakest.holes), zigzag(weakest))
    };
    let efficiency = |force: Force| modes::efficiency(force, gross);
    let rows = &strip.rows;
    let shear = strip.all(|row| row.shear.map(|shear| shear.force));
    let bearing = strip.all(|row| row.bearing.map(|bearing| bearing.force));
    let end_rows = rows.iter().filter_map(|row| Some(row.tear_out? * f64::from(row.row.count))).reduce(Force::min);
    let stresses = stresses(rows, asked);
    let answer = StripAnswer {
        counts: rows.iter().map(|row| row.row.count).collect(),
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
        lines: lines.iter().map(|(sheet, line)| self::line((*sheet, line), &strip, context)).collect(),
        carries: carries_all.map(Into::into),
        governing: if by_rivets { answer::Parts::Rivets } else { answer::Parts::Sheet },
        governing_line: place.filter(|_| !by_rivets).map(|place| place + 1),
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
    told.text(&strip, &lines, asked, report, context);
    record(&answer, &told, report, context);
    Ok(answer)
}

/// How the rivets stand: from each other, from the ends and from the sides.
fn check<'a>(
    counts: &[CountedRow],
    strip: &CountedStrip,
    asked: &Asked,
    report: &mut Report<'a>,
    context: &Context<'a>,
) {
    let points: Vec<Point> = strip.points().collect();
    // The largest of them keeps the others away.
    let largest = counts.iter().map(|row| row.rivet).max_by_key(|rivet| rivet.diameter());
    let rivet = largest.unwrap_or(asked.rivet);
    check_points(&rivet.to_string(), &points, &rivet, report, context);
}

fn holes_word(holes: u16) -> String {
    if holes == 1 { "the hole".to_owned() } else { format!("{holes} holes") }
}

fn zigzag(line: &WeakestLine) -> &'static str {
    if line.zigzag { ", zigzag" } else { "" }
}

fn line<'a>((sheet, line): (u8, &WeakestLine), strip: &CountedStrip, context: &Context<'a>) -> LineAnswer<'a> {
    LineAnswer {
        sheet,
        load: form::Allowable::of(line.load, context.practice),
        efficiency: modes::efficiency(line.load.force, strip.gross),
        net_width: Length::try_from_inches_f64(line.net_width).unwrap_or_default().into(),
        holes: line.holes,
        from_row: u16::try_from(strip.row_of(line)).unwrap_or(u16::MAX),
        before: line.before.into(),
        zigzag: line.zigzag,
    }
}

/// What an equal part of the load is to a rivet, and what it makes in the hole of the first row, in shear and in the thinnest sheet.
fn stresses(rows: &[RowOfStrip], asked: &Asked) -> Option<(Force, Stress, Stress)> {
    let ((load, _), first) = asked.load.zip(rows.first())?;
    let rivets: u32 = rows.iter().map(|row| u32::from(row.row.count)).sum();
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
        strip: &CountedStrip,
        lines: &[(u8, WeakestLine)],
        asked: &Asked,
        report: &mut Report<'a>,
        context: &Context<'a>,
    ) {
        let units = context.units;
        let of_gross = |force: Force| percent(modes::efficiency(force, self.gross));
        let counts: Vec<String> = strip.rows.iter().map(|row| row.row.count.to_string()).collect();
        let carries = self.carries.map_or_else(
            || "strength not published".to_owned(),
            |carries| format!("carries {}, {} of the sheet", units.force(carries), of_gross(carries)),
        );
        report.text.insert(0, Block::Answer(format!("{}   {carries}", counts.join("-"))));
        let mut pairs = vec![("fails first".to_owned(), self.governing.clone())];
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        if let (Some(margin), Some((load, _))) = (self.margin, asked.load) {
            pair("margin", format!("{margin:+.2} under {} {} load", units.force(load.force), load.kind.as_str()));
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
                strip.row_of(line).to_string(),
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
