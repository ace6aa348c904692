//! `shophead splice`.

use shophead::joint::modes;
use shophead::joint::splice::{
    self, Count, Critical, Fastener, Member, Needed, PerInch, Rows, SpliceError, Table, Tables,
};
use shophead::joint::strength::{Governing, JointStrength, Mode};
use shophead::layout::RowLayout;
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{Case, Given, Name, Practice};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Preparation, Stack, StackError};
use shophead_job::words;

use super::memory_mark;
use crate::args::{MemberWord, SpliceArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::{Facts, PlaceArgs};
use crate::report::{Block, Record, Report};
use crate::{form, input};

pub(super) fn run<'a>(args: &SpliceArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let (material, thickness) = input::sheet("--sheet", &args.sheet, context.bare)?;
    let width = input::length("--width", &args.width, context.bare)?;
    let rivet = input::rivet_or_letters("--rivet", &args.rivet)?.without_length();
    let case = Case::for_part(&rivet).in_rows(rows_of(args));
    let member = match args.member {
        MemberWord::Other => Member::Other,
        MemberWord::Lap => Member::SingleLap,
        MemberWord::Stringer => Member::Stringer,
        MemberWord::Frame => Member::IntermediateFrame,
    };

    let tables = splice::tables(material.alloy(), material.temper(), material.is_clad());
    let by_table = tables.and_then(|tables| by_table(tables.first, thickness, &rivet, width, member));
    let also = tables.and_then(|tables| by_table_also(tables, thickness, &rivet, width, member));
    let by_table = by_table.transpose().map_err(Stop::wrong)?;
    let also = also.transpose().map_err(Stop::wrong)?;
    let facts = Facts {
        stack: Some(lap_of(material, thickness, &rivet).map_err(Stop::wrong)?),
        ..Facts::of(rivet, &PlaceArgs::default(), context)?
    };
    let strength = by_strength(material, thickness, width, &facts, context).map_err(Stop::wrong)?;

    let mut report = Report::new("splice", context);
    let subject = rivet.to_string();
    let own_count = strength.as_ref().and_then(|found| found.needed);
    let total = by_table.as_ref().map(|found| found.count.total).or(own_count.map(|needed| needed.total));
    let least_pitch = context.practice.length(Name::PitchLeast, &case);
    let laid = match total {
        Some(total) => {
            // Without a number of rows, the fewest that keep the least pitch.
            let fewest = fewest_rows(total, width, case, context);
            let rows = args.rows.or(fewest).map(|rows| splice::rows(total, rows, width).map_err(Stop::wrong));
            rows.transpose()?
        }
        None => None,
    };
    let rows_given = args.rows.is_some();
    let pattern = laid.and_then(|laid| {
        let apart = context.practice.length(Name::TransversePitchLeast, &case)?;
        let edge = context.practice.length(Name::EdgeDistanceLeast, &case)?;
        Some(Pattern {
            edge,
            apart,
            overlap: splice::overlap(laid.rows, edge.value, apart.value).ok()?,
            first: laid.first(),
        })
    });
    let gross = material.properties(thickness).and_then(|properties| properties.ftu());
    // The splice as it is laid out, asked as any rivet in its row is.
    let mut facts = facts;
    facts.layout = RowLayout {
        edge: strength.as_ref().map(|found| found.edge.value),
        pitch: laid.map(|laid| laid.pitch),
        transverse_pitch: laid.filter(|laid| laid.rows > 1).zip(pattern).map(|(_, pattern)| pattern.apart.value),
    };
    (facts.rows, facts.staggered) = (laid.map_or(1, |laid| laid.rows), args.staggered);
    let question = facts.question(context.practice);
    let in_row = question.row().ok();
    match (&in_row, &strength) {
        (Some(row), _) => report.find_all(context, &subject, &row.findings),
        (None, Some(found)) => report.find_all(context, &subject, &found.joint.findings),
        (None, None) => report.find_all(context, &subject, &question.findings()),
    }
    let efficiency = in_row.and_then(|row| {
        Some(modes::efficiency(row.per_inch?.force, modes::gross_section(gross?, thickness, Length::INCH)))
    });
    let answer =
        Answer { rivet, width, by_table, also, strength, laid, rows_given, pattern, efficiency, least_pitch, member };
    report.give(answer.form(context.practice));
    answer.text(&mut report, context);
    report.rows.push(answer.record(&report, context));
    Ok(report)
}

/// The fewest rows that keep the least pitch of a pattern with so many rows.
fn fewest_rows(total: u32, width: Length, case: Case, context: &Context<'_>) -> Option<u16> {
    (1..=u8::MAX).map(|rows| (rows, case.in_rows(rows))).find_map(|(rows, case)| {
        let pitch = context.practice.length(Name::PitchLeast, &case)?;
        let needed = splice::fewest_rows(total, width, pitch.value).ok()?;
        (needed <= u16::from(rows)).then_some(u16::from(rows))
    })
}

fn rows_of(args: &SpliceArgs) -> u8 {
    args.rows.map_or(1, |rows| u8::try_from(rows).unwrap_or(u8::MAX))
}

/// The count by one published table.
struct ByTable {
    table: Table,
    per_inch: PerInch,
    count: Count,
}

fn by_table(
    table: Table,
    thickness: Length,
    rivet: &Part<'_>,
    width: Length,
    member: Member,
) -> Option<Result<ByTable, SpliceError>> {
    if !splice::tables_hold_for(rivet.alloy(), rivet.series().head) {
        return None;
    }
    let per_inch = match splice::per_inch(table, thickness, Fastener::Rivet(rivet.diameter())) {
        Ok(per_inch) => per_inch,
        Err(SpliceError::DiameterNotTabulated) => return None,
        Err(error) => return Some(Err(error)),
    };
    let count = splice::count(per_inch.used, width, member, member.rounding());
    Some(count.map(|count| ByTable { table, per_inch, count }))
}

fn by_table_also(
    tables: Tables,
    thickness: Length,
    rivet: &Part<'_>,
    width: Length,
    member: Member,
) -> Option<Result<ByTable, SpliceError>> {
    by_table(tables.also?, thickness, rivet, width, member)
}

/// The count by the strengths of sheet and rivet.
struct ByStrength {
    joint: JointStrength,
    edge: Given<Length>,
    needed: Option<Needed>,
}

fn by_strength(
    material: Material,
    thickness: Length,
    width: Length,
    facts: &Facts,
    context: &Context<'_>,
) -> Result<Option<ByStrength>, SpliceError> {
    let question = facts.question(context.practice);
    let Some(edge) = question.edge_or_least() else { return Ok(None) };
    let Ok(joint) = question.strength() else { return Ok(None) };
    let per_rivet = joint.allowable.map(|allowable| allowable.force);
    let ftu = material.properties(thickness).and_then(|properties| properties.ftu());
    let needed = match (ftu, per_rivet) {
        (Some(ftu), Some(per_rivet)) => Some(splice::needed(ftu, thickness, width, per_rivet)?),
        _ => None,
    };
    Ok(Some(ByStrength { joint, edge, needed }))
}

/// Two such sheets, one over the other; a flush head is sunk into the outer one.
fn lap_of(material: Material, thickness: Length, rivet: &Part<'_>) -> Result<Stack, StackError> {
    let preparation = if rivet.series().head.is_flush() { Preparation::Countersunk } else { Preparation::Plain };
    let plain = Layer { material: Some(material), ..Layer::of(Toleranced::exactly(thickness)) };
    let mut stack = Stack::new();
    stack.push(Layer { preparation, ..plain })?;
    stack.push(plain)?;
    Ok(stack)
}

/// Where the rows of one side go.
#[derive(Clone, Copy)]
struct Pattern {
    edge: Given<Length>,
    apart: Given<Length>,
    overlap: Length,
    /// From the side of the sheet to the first rivet of a row.
    first: Length,
}

struct Answer {
    rivet: Part<'static>,
    width: Length,
    by_table: Option<ByTable>,
    also: Option<ByTable>,
    strength: Option<ByStrength>,
    laid: Option<Rows>,
    rows_given: bool,
    pattern: Option<Pattern>,
    /// What the splice carries as laid out, over the whole sheet; by the strengths.
    efficiency: Option<f64>,
    member: Member,
    least_pitch: Option<Given<Length>>,
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

const fn critical(critical: Critical) -> Mode {
    match critical {
        Critical::Shear => Mode::RivetShear,
        Critical::Bearing => Mode::Bearing,
    }
}

impl Answer {
    fn needed(&self) -> Option<Needed> {
        self.strength.as_ref().and_then(|found| found.needed)
    }

    fn own_governing(&self) -> Option<Governing> {
        self.strength.as_ref().and_then(|found| found.joint.governing)
    }

    /// By the table where there is one, else by the strengths.
    fn per_inch(&self) -> Option<f64> {
        self.by_table.as_ref().map(|found| found.count.per_inch).or(self.needed().map(|needed| needed.per_inch))
    }

    fn total(&self) -> Option<u32> {
        self.by_table.as_ref().map(|found| found.count.total).or(self.needed().map(|needed| needed.total))
    }

    fn governing(&self) -> Option<Mode> {
        match &self.by_table {
            Some(found) => Some(critical(found.per_inch.critical)),
            None => self.needed().and(self.own_governing()).map(|governing| governing.mode),
        }
    }

    fn from(&self) -> Option<CountFrom> {
        match &self.by_table {
            Some(_) => Some(CountFrom::Table),
            None => self.needed().map(|_| CountFrom::Strength),
        }
    }

    /// How many rivets one row takes at the least pitch.
    fn most_per_row(&self) -> Option<u32> {
        self.least_pitch.and_then(|pitch| splice::most_per_row(self.width, pitch.value).ok())
    }

    fn form<'a>(&self, practice: &Practice<'a>) -> form::splice::Answer<'a> {
        let table = |found: &ByTable| {
            let basis = practice.cite(found.table.basis());
            form::splice::Table {
                document: basis.document,
                place: basis.place,
                rivets_per_inch: found.count.per_inch,
                rivets_total: found.count.total,
                before_reduction: found.per_inch.used,
                printed: found.per_inch.printed,
                formula: form::finite(found.per_inch.formula),
                governing: critical(found.per_inch.critical).into(),
                basis: form::Basis::of(found.per_inch.basis, practice),
                reduction_basis: form::Basis::of(found.count.basis, practice),
            }
        };
        let strength = |found: &ByStrength| form::splice::Strength {
            per_rivet: found.joint.allowable.map(|known| form::Allowable::of(known, practice)),
            edge: form::GivenLength::of(found.edge, practice),
            sheet_load: found.needed.map(|needed| needed.load.into()),
            rivets_per_inch: found.needed.map(|needed| needed.per_inch),
            rivets_total: found.needed.map(|needed| needed.total),
            governing: found.joint.governing.map(|governing| governing.mode.into()),
        };
        let pattern = |pattern: Pattern| form::splice::Pattern {
            edge: form::GivenLength::of(pattern.edge, practice),
            transverse_pitch: form::GivenLength::of(pattern.apart, practice),
            overlap: pattern.overlap.into(),
            first: pattern.first.into(),
        };
        form::splice::Answer {
            rivet: self.rivet.to_string(),
            width: self.width.into(),
            rivets_per_inch: self.per_inch(),
            rivets_total: self.total(),
            governing: self.governing().map(form::Mode::from),
            from: self.from().map(form::CountFrom::from),
            table: self.by_table.as_ref().map(table),
            also_named_by: self.also.as_ref().map(table),
            strength: self.strength.as_ref().map(strength),
            rows: self.laid.map(|laid| form::splice::Rows {
                rows: u32::from(laid.rows).into(),
                per_row: laid.per_row,
                total: laid.total,
                pitch: laid.pitch.into(),
                given: self.rows_given,
                pattern: self.pattern.map(pattern),
                efficiency: self.efficiency.and_then(form::finite),
            }),
            most_per_row: self.most_per_row(),
            least_pitch: self.least_pitch.map(|known| form::GivenLength::of(known, practice)),
        }
    }

    fn text(&self, report: &mut Report, context: &Context<'_>) {
        let units = context.units;
        let rivet = self.rivet;
        let width = units.length(self.width);
        report.answer(match self.total() {
            Some(total) => format!("{rivet}   {total} rivets on each side of the splice, over {width}"),
            None => format!("{rivet}   no count can be given"),
        });
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        if let Some(laid) = self.laid {
            let (rows, per_row, total) = (laid.rows, laid.per_row, laid.total);
            let fewest = if self.rows_given { "" } else { "; the fewest that keep the least pitch" };
            pair("rows", format!("{rows} of {per_row}, {total} in all, pitch {}{fewest}", units.length(laid.pitch)));
        }
        if let Some(pattern) = self.pattern {
            pair(
                "pattern",
                format!(
                    "first rivet {} from the side, rows {} apart, {} to the edge: {} of lap at least",
                    units.length(pattern.first),
                    units.length(pattern.apart.value),
                    units.length(pattern.edge.value),
                    units.length(pattern.overlap),
                ),
            );
        }
        if let Some(efficiency) = self.efficiency {
            pair(
                "as laid out",
                format!("carries {:.0} % of what the sheet does, by the strengths", efficiency * 100.0),
            );
        }
        let (percent, reduction) = self.member.percent();
        if self.by_table.is_some() && percent < 100 {
            pair("reduced to", format!("{percent} % of the table ({})", context.practice.cite(reduction)));
        }
        for found in [&self.by_table, &self.also].into_iter().flatten() {
            let what = match found.per_inch.critical {
                Critical::Shear => "shear of the rivet",
                Critical::Bearing => "bearing of the sheet",
            };
            let (per_inch, total) = (units.ratio(found.count.per_inch), found.count.total);
            let mark = memory_mark(found.per_inch.basis);
            pair(
                &format!("table {}", found.table.number()),
                format!(
                    "{per_inch} an inch, {total} in all, by {what}{mark} ({})",
                    context.practice.cite(found.table.basis())
                ),
            );
        }
        match (self.needed(), self.own_governing()) {
            (Some(needed), Some(governing)) => pair(
                "by the strengths",
                format!(
                    "{} an inch, {} in all: {} a rivet, {}{}",
                    units.ratio(needed.per_inch),
                    needed.total,
                    units.force(governing.load.force),
                    words::lower(governing.mode),
                    memory_mark(governing.load.basis),
                ),
            ),
            _ => pair("by the strengths", "not published for this case".to_owned()),
        }
        if let (Some(most), Some(pitch)) = (self.most_per_row(), self.least_pitch) {
            pair("one row takes", format!("{most} rivets at the least pitch, {}", units.length(pitch.value)));
        }
        report.text.push(Block::Pairs(pairs));
        if self.by_table.is_some() {
            report.paragraph(
                "The count is that of the table. The strengths count whatever the whole sheet carries, without any reduction for the member.",
            );
        }
        if self.also.is_some() {
            report.paragraph("Two tables name this sheet; the first asks for more rivets.");
        }
    }

    fn record(&self, report: &Report, context: &Context<'_>) -> Record {
        let mut record = Record::new(context.units);
        record.text("rivet", self.rivet).length("width", self.width);
        record.optional("rivets_per_inch", self.per_inch()).optional("rivets_total", self.total());
        record.optional("governing", self.governing()).optional("from", self.from().map(CountFrom::as_str));
        record.optional("table", self.by_table.as_ref().map(|found| found.table.number()));
        record.optional("strength_rivets_total", self.needed().map(|needed| needed.total));
        record.optional("rows", self.laid.map(|laid| laid.rows));
        record.optional("per_row", self.laid.map(|laid| laid.per_row));
        record.length("pitch", self.laid.map(|laid| laid.pitch));
        record.findings(&report.findings);
        record
    }
}
