//! `shophead splice`.

use shophead::joint::splice::{Critical, SpliceMember};
use shophead::joint::strength::Mode;
use shophead::practice::Practice;
use shophead::repair::count::{By, ByTable};
use shophead::repair::seam::{Laid, Seam, SeamFastener, SeamQuery, seam};
use shophead::working;
use shophead_job::words;

use super::{memory_mark, percent};
use crate::args::{MemberWord, SpliceArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Record, Report};
use crate::{form, input};

/// What an AN-3 bolt is called here.
const BOLT: &str = "AN3";

pub(super) fn run<'a>(args: &SpliceArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let (material, thickness) = input::sheet("--sheet", &args.sheet, context.bare, context.practice)?;
    let held = held(&args.rivet)?;
    let driven = match &held {
        SeamFastener::Rivets(rivet) => Facts::driven(rivet, args.driven.as_deref())?,
        SeamFastener::An3Bolts => None,
    };
    let member = match args.member {
        MemberWord::Other => SpliceMember::Other,
        MemberWord::Lap => SpliceMember::SingleLap,
        MemberWord::Stringer => SpliceMember::Stringer,
        MemberWord::Frame => SpliceMember::IntermediateFrame,
    };
    let query = SeamQuery::new(material, thickness, input::length("--width", &args.width, context.bare)?, held)
        .driven(driven)
        .member(member)
        .by(input::word("--count", &args.count)?)
        .rows(args.rows)
        .staggered(args.staggered)
        .practice(context.practice);
    let found = seam(&query).map_err(Stop::wrong)?;
    let mut report = Report::new("splice", context);
    let answer = Answer { query, found, rows_given: args.rows.is_some() };
    report.find_all(context, &answer.name(), &answer.found.findings);
    report.give(answer.form(context.practice));
    answer.text(&mut report, context);
    report.work(context, |work| working::splice::of(&answer.query, &answer.found, work));
    report.rows.push(answer.record(&report, context));
    Ok(report)
}

fn held(text: &str) -> Result<SeamFastener, Stop> {
    let is_bolt = text.trim().replace('-', "").eq_ignore_ascii_case(BOLT);
    if is_bolt {
        Ok(SeamFastener::An3Bolts)
    } else {
        Ok(SeamFastener::Rivets(input::rivet_or_letters("--rivet", text)?.without_length()))
    }
}

struct Answer<'a> {
    query: SeamQuery<'a>,
    found: Seam,
    rows_given: bool,
}

/// What gave the count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CountFrom {
    /// A published table.
    Table,
    /// The strengths of sheet and rivet.
    Strength,
}

impl CountFrom {
    pub(crate) const fn as_str(self) -> &'static str {
        match self {
            CountFrom::Table => "table",
            CountFrom::Strength => "strength",
        }
    }
}

/// How a joint fails that the cell is for.
pub(crate) const fn critical(critical: Critical) -> Mode {
    match critical {
        Critical::Shear => Mode::RivetShear,
        Critical::Bearing => Mode::Bearing,
    }
}

impl Answer<'_> {
    fn name(&self) -> String {
        match &self.query.held {
            SeamFastener::Rivets(rivet) => rivet.without_length().to_string(),
            SeamFastener::An3Bolts => BOLT.to_owned(),
        }
    }

    fn what(&self) -> &'static str {
        match self.query.held {
            SeamFastener::Rivets(_) => "rivets",
            SeamFastener::An3Bolts => "bolts",
        }
    }

    /// Where the count comes from: `None` where there is none.
    fn from(&self) -> Option<By> {
        let totals = self.found.totals;
        self.found.total?;
        Some(match self.query.by {
            By::Greater if totals.strength > totals.table => By::Strength,
            By::Greater => By::Table,
            by => by,
        })
    }

    /// The table that the count comes from.
    fn counted_by(&self) -> Option<ByTable> {
        let rate = &self.found.rate;
        match self.from()? {
            By::Example => rate.also.or(rate.by_table),
            By::Table => rate.by_table,
            _ => None,
        }
    }

    fn governing(&self) -> Option<Mode> {
        self.from()?;
        let by_table = self.counted_by().map(|found| critical(found.cell.critical));
        by_table.or(self.found.governing.map(|governing| governing.mode))
    }

    /// Whether a table or the strengths gave the count.
    fn counted_from(&self) -> Option<CountFrom> {
        Some(if self.from()? == By::Strength { CountFrom::Strength } else { CountFrom::Table })
    }

    fn per_inch(&self) -> Option<f64> {
        self.from()?;
        let by_table = self.counted_by().map(|found| found.per_inch);
        by_table.or(self.found.rate.by_strength.map(|found| found.per_inch))
    }

    fn most_per_row(&self) -> Option<u32> {
        let least = self.found.least_pitch?;
        shophead::joint::splice::most_per_row(self.query.width, least.value).ok()
    }

    fn form<'p>(&self, practice: &Practice<'p>) -> form::splice::Answer<'p> {
        let found = &self.found;
        let table = |by_table: Option<ByTable>, total: Option<u32>| {
            let (by_table, total) = by_table.zip(total)?;
            let cited = practice.cite(by_table.table.basis());
            let (_, reduction) = by_table.member.percent();
            Some(form::splice::Table {
                document: cited.document,
                place: cited.place,
                rivets_per_inch: by_table.per_inch,
                rivets_total: total,
                before_reduction: by_table.used,
                printed: by_table.cell.printed,
                formula: form::finite(by_table.cell.formula),
                governing: critical(by_table.cell.critical).into(),
                thickness: by_table.thickness.into(),
                basis: form::Basis::of(by_table.cell.basis, practice),
                reduction_basis: form::Basis::of(reduction, practice),
            })
        };
        let strength = found.edge.map(|edge| form::splice::Strength {
            per_rivet: found.rate.by_strength.map(|by| form::Allowable::of(by.per_rivet, practice)),
            edge: form::GivenLength::of(edge, practice),
            sheet_load: found.sheet_load.map(form::Force::from),
            rivets_per_inch: found.rate.by_strength.map(|by| by.per_inch),
            rivets_total: found.totals.strength,
            governing: found.governing.map(|governing| governing.mode.into()),
        });
        form::splice::Answer {
            rivet: self.name(),
            width: self.query.width.into(),
            rivets_per_inch: self.per_inch(),
            rivets_total: found.total,
            governing: self.governing().map(form::Mode::from),
            from: self.counted_from().map(form::CountFrom::from),
            table: table(found.rate.by_table, found.totals.table),
            also_named_by: table(found.rate.also, found.totals.also),
            strength,
            rows: found.laid.map(|laid| self.laid_form(&laid, practice)),
            example: found.example.map(|laid| self.laid_form(&laid, practice)),
            better: found.better.map(|laid| self.laid_form(&laid, practice)),
            most_per_row: self.most_per_row(),
            least_pitch: found.least_pitch.map(|known| form::GivenLength::of(known, practice)),
        }
    }

    fn laid_form<'p>(&self, laid: &Laid, practice: &Practice<'p>) -> form::splice::Rows<'p> {
        let rows = laid.rows;
        let pattern = self.found.edge.zip(laid.apart).zip(laid.overlap);
        form::splice::Rows {
            rows: u32::from(rows.rows).into(),
            per_row: rows.per_row,
            total: rows.total,
            pitch: rows.pitch.into(),
            given: self.rows_given,
            pattern: pattern.map(|((edge, apart), overlap)| form::splice::Pattern {
                edge: form::GivenLength::of(edge, practice),
                transverse_pitch: form::GivenLength::of(apart, practice),
                overlap: overlap.into(),
                first: rows.first().into(),
            }),
            efficiency: laid.develops.and_then(form::finite),
        }
    }

    fn text(&self, report: &mut Report, context: &Context<'_>) {
        let (units, found) = (context.units, &self.found);
        let (name, what) = (self.name(), self.what());
        let width = units.length(self.query.width);
        let develops = found.laid.and_then(|laid| laid.develops);
        let develops = develops.map_or_else(String::new, |share| format!("; develops {} of the sheet", percent(share)));
        report.answer(match found.total {
            Some(total) => format!("{name}   {total} {what} on each side of the splice, over {width}{develops}"),
            None => format!("{name}   no count can be given"),
        });
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        let shown = |laid: &Laid| {
            let (rows, pitch) = (laid.rows, units.length(laid.rows.pitch));
            format!("{} of {}, {} in all, pitch {pitch}", rows.rows, rows.per_row, rows.total)
        };
        if let Some(laid) = &found.laid {
            let fewest = if self.rows_given { "" } else { "; the fewest that keep the least pitch" };
            pair("rows", format!("{}{fewest}", shown(laid)));
            if let (Some(edge), Some(overlap)) = (found.edge, laid.overlap) {
                let apart = laid
                    .apart
                    .filter(|_| laid.rows.rows > 1)
                    .map_or_else(String::new, |apart| format!("rows {} apart, ", units.length(apart.value)));
                pair(
                    "pattern",
                    format!(
                        "first {} from the side, {apart}{} to the edge: {} of lap at least",
                        units.length(laid.rows.first()),
                        units.length(edge.value),
                        units.length(overlap),
                    ),
                );
            }
            pair(
                "develops",
                laid.develops.map_or_else(
                    || "not known: the strengths are not published".to_owned(),
                    |share| format!("{} of the sheet, by the strengths", percent(share)),
                ),
            );
        }
        if let Some(better) = &found.better {
            let share = better.develops.map_or_else(String::new, |share| format!(": develops {}", percent(share)));
            pair("better", format!("{}{share}", shown(better)));
        }
        let (percent_of_table, reduction) = self.query.member.percent();
        if found.rate.by_table.is_some() && percent_of_table < 100 {
            pair("reduced to", format!("{percent_of_table} % of the table ({})", context.practice.cite(reduction)));
        }
        let by_tables = [(found.rate.by_table, found.totals.table), (found.rate.also, found.totals.also)];
        for (by_table, total) in by_tables.into_iter().filter_map(|(found, total)| found.zip(total)) {
            pair(&format!("table {}", by_table.table.as_str()), self.by_table(by_table, total, context));
        }
        match (found.rate.by_strength, found.totals.strength, found.governing) {
            (Some(by_strength), Some(total), Some(governing)) => pair(
                "by the strengths",
                format!(
                    "{} an inch, {total} in all: {} a rivet, {}{}; the whole sheet, not reduced",
                    units.ratio(by_strength.per_inch),
                    units.force(by_strength.per_rivet.force),
                    words::lower(governing.mode),
                    memory_mark(by_strength.per_rivet.basis),
                ),
            ),
            _ => pair("by the strengths", "not published for this case".to_owned()),
        }
        if let Some(example) = &found.example {
            let table = found.rate.also.or(found.rate.by_table).map_or("", |by_table| by_table.table.as_str());
            let share = example.develops.map_or_else(String::new, |share| format!(": develops {}", percent(share)));
            pair("as in para 4-58g", format!("table {table} alone: {}{share}", shown(example)));
        }
        if let (Some(most), Some(pitch)) = (self.most_per_row(), found.least_pitch) {
            pair("one row takes", format!("{most} {what} at the least pitch, {}", units.length(pitch.value)));
        }
        report.text.push(Block::Pairs(pairs));
        match self.from() {
            Some(By::Strength) if self.query.by == By::Greater && found.totals.table.is_some() => {
                report.paragraph("The greater count is laid out: the strengths ask for more than the table.");
            }
            Some(By::Table) if self.query.by == By::Greater && found.totals.strength.is_some() => {
                report.paragraph("The greater count is laid out: the table asks for more than the strengths.");
            }
            _ => {}
        }
        if found.rate.also.is_some() {
            report.paragraph(
                "Two tables name this sheet; the first asks for more, the circular's example takes the other.",
            );
        }
    }

    fn by_table(&self, by_table: ByTable, total: u32, context: &Context<'_>) -> String {
        let what = match by_table.cell.critical {
            Critical::Shear => "shear",
            Critical::Bearing => "bearing of the sheet",
        };
        let units = context.units;
        let line = if by_table.thickness == self.query.thickness {
            String::new()
        } else {
            format!(", line {}", units.length(by_table.thickness))
        };
        let (per_inch, mark) = (units.ratio(by_table.per_inch), memory_mark(by_table.cell.basis));
        let cited = context.practice.cite(by_table.table.basis());
        format!("{per_inch} an inch, {total} in all, by {what}{mark}{line} ({cited})")
    }

    fn record(&self, report: &Report, context: &Context<'_>) -> Record {
        let found = &self.found;
        let mut record = Record::new(context.units);
        record.text("rivet", self.name()).length("width", self.query.width);
        record.optional("rivets_per_inch", self.per_inch()).optional("rivets_total", found.total);
        record.optional("governing", self.governing());
        record.optional("from", self.counted_from().map(CountFrom::as_str));
        record.optional("table", found.rate.by_table.map(|by_table| by_table.table.as_str()));
        record.optional("strength_rivets_total", found.totals.strength);
        let rows = found.laid.map(|laid| laid.rows);
        record.optional("rows", rows.map(|rows| rows.rows));
        record.optional("per_row", rows.map(|rows| rows.per_row));
        record.length("pitch", rows.map(|rows| rows.pitch));
        record.findings(&report.findings);
        let laid = |laid: Option<Laid>| laid.and_then(|laid| laid.develops);
        record.optional("develops", laid(found.laid)).optional("better_rows", found.better.map(|laid| laid.rows.rows));
        record.optional("better_develops", laid(found.better));
        record.optional("example_total", found.example.map(|laid| laid.rows.total));
        record
    }
}
