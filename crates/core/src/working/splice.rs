//! How many rivets a splice needs and in which rows, step by step.

use super::joint::{self, of_sheet};
use super::repair::{BY_ITSELF, LAID_OUT};
use super::{About, Input, Kind, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::joint::hole_table;
use crate::joint::splice::{AN3_DIAMETER, AN3_SHEAR, CountRounding, SpliceMember};
use crate::length::Length;
use crate::material::{Material, Property};
use crate::practice::Practice;
use crate::repair::count::{By, ByTable, Rate};
use crate::repair::seam::{Seam, SeamFastener, SeamQuery};

symbols! {
    THICKNESS = "t", "thickness of the sheet";
    TABULATED = "tt", "thickness of the line of the table";
    HOLE = "Hn", "nominal hole of the rivet";
    SHEAR_PART = "s", "shear of the rivet as a part of the sheet's tensile strength";
    BEARING_PART = "b", "bearing of the sheet as a part of its tensile strength";
    BOLT_SHEET = "Fs", "tensile strength of the sheet behind the bolt column";
    BOLT_SHEAR = "V", "shear of the bolt";
    BOLT = "Db", "diameter of the bolt";
    RULE_COUNT = "N", "count for every unit of width by the rule of the table";
    CELL = "Nt", "count as printed in the table";
    DECIMAL = "z", "the decimal that the table prints";
    USED = "u", "count to use";
    PART = "c", "part of the count that the member needs";
    REDUCED = "Nr", "count for the member";
    STRENGTH_COUNT = "Ns", "count for every unit of width by the strengths";
    FTU = "Ftu", "tension strength of the sheet";
    ONE = "P", "what one rivet carries";
    WIDTH = "B", "width that is spliced";
    SHEET_LOAD = "S", "what the whole sheet carries over the width";
    TOTAL = "n", "rivets on each side";
    ROWS = "r", "rows";
    PER_ROW = "m", "rivets in a row";
    LAID = "nl", "rivets as laid out";
    PITCH = "p", "distance from rivet to rivet";
    EDGE = "e", "edge distance";
    SPACING = "a", "distance from row to row";
    OVERLAP = "lap", "least lap";
    CARRIES = "W", "what the rows carry for every unit of width";
    DEVELOPS = "E", "what the seam carries over what the whole sheet does";
}

rules! { LIST:
    BY_RULE = "table-rule", "Rivets by the rule of the table", RULE_COUNT, "max(tt / (s × π / 4 × Hn²), 1 / (b × Hn))";
    BY_BOLT_RULE = "table-rule-bolts", "Bolts by the rule of the table", RULE_COUNT, "max(Fs × tt / V, 1 / (b × Db))";
    BY_BOLT_BEARING = "table-rule-bolts-bearing", "Bolts by the rule of the table", RULE_COUNT, "1 / (b × Db)";
    TO_USE = "table-count", "Count to use: the printed cell, or the rule where it asks for more", USED, "max(Nt, near(N / z) × z)";
    FOR_MEMBER = "table-count-member", "Count for the member", REDUCED, "u × c";
    OVER_WIDTH = "table-rivets", "Rivets over the width by the table", TOTAL, "up(u × B × c)";
    OVER_WIDTH_TWICE = "table-rivets-twice", "Rivets over the width by the table, rounded up before and after the part", TOTAL, "up(up(u × B) × c)";
    BY_STRENGTH = "strength-count", "Count by the strengths", STRENGTH_COUNT, "Ftu × t / P";
    STRENGTH_OVER_WIDTH = "strength-rivets", "Rivets over the width by the strengths", TOTAL, "up(S / P)";
    STRENGTH_RATE_OVER_WIDTH = "strength-rate-rivets", "Rivets over the width by the strengths", TOTAL, "up(Ns × B)";
    WHOLE_SHEET = "sheet-load", "What the whole sheet carries over the width", SHEET_LOAD, "Ftu × t × B";
    GREATER = "rivets", "Rivets on each side: the greater count", TOTAL, "max(…)";
    IN_A_ROW = "rivets-in-a-row", "Rivets in a row", PER_ROW, "up(n / r)";
    AS_LAID = "rivets-laid-out", "Rivets as laid out", LAID, "m × r";
    OF_PITCH = "pitch", "Pitch, each rivet with an equal part of the width", PITCH, "B / m";
    OF_LAP = "lap", "Least lap", OVERLAP, "2 × e + (r - 1) × a";
    OF_SHEET = "develops", "How much of the sheet it develops", DEVELOPS, "W / (Ftu × t)", SPLICE_DEVELOPS;
}

fn per_inch(count: f64) -> Quantity {
    Quantity::new(Kind::PerUnit, count)
}

/// The count by one table: for every unit of width, before and after the part for the member.
pub(crate) fn by_table(
    found: &ByTable,
    diameter: Option<Length>,
    work: &mut Working<'_>,
) -> (Input<'static>, Input<'static>) {
    let about = About::Named(found.table.name());
    let thickness = Input::new(TABULATED, found.thickness, found.table.basis());
    let (bearing, bearing_basis) = found.table.bearing_part();
    let bearing = Input::new(BEARING_PART, Quantity::number(bearing), bearing_basis);
    let formula = per_inch(found.cell.formula);
    let rule = match diameter.and_then(hole_table::nominal_hole) {
        Some(row) => {
            let (shear, basis) = found.table.shear_part();
            let shear = Input::new(SHEAR_PART, Quantity::number(shear), basis);
            let hole = Input::new(HOLE, row.hole, row.basis);
            work.step(&BY_RULE, about, &[thickness, shear, hole, bearing], formula)
        }
        None => {
            let bolt = Input::new(BOLT, AN3_DIAMETER, Basis::AN3_DIAMETER);
            match found.table.bolt_sheet() {
                Some(sheet) => {
                    let sheet = Input::new(BOLT_SHEET, sheet, found.table.basis());
                    let shear = Input::new(BOLT_SHEAR, AN3_SHEAR, found.table.basis());
                    work.step(&BY_BOLT_RULE, about, &[sheet, thickness, shear, bearing, bolt], formula)
                }
                None => work.step(&BY_BOLT_BEARING, about, &[bearing, bolt], formula),
            }
        }
    };
    let cell = Input::new(CELL, per_inch(found.cell.printed.unwrap_or(found.used)), found.table.basis());
    let decimal = Input::new(DECIMAL, per_inch(0.1), found.table.basis());
    let used = work.step(&TO_USE, about, &[cell, rule, decimal], per_inch(found.used));
    let (_, part) = part_of(found.member);
    let reduced = work.step(&FOR_MEMBER, about, &[used, part], per_inch(found.per_inch));
    (used, reduced)
}

fn part_of(member: SpliceMember) -> (f64, Input<'static>) {
    let (percent, basis) = member.percent();
    let part = f64::from(percent) / 100.0;
    (part, Input::new(PART, Quantity::number(part), basis))
}

/// Whole rivets over a width by a table's count.
pub(crate) fn over_width(
    found: &ByTable,
    used: Input<'static>,
    width: Input<'static>,
    total: u32,
    work: &mut Working<'_>,
) -> Input<'static> {
    let about = About::Named(found.table.name());
    let (_, part) = part_of(found.member);
    let rule = match found.member.rounding() {
        CountRounding::Once => &OVER_WIDTH,
        CountRounding::BeforeAndAfter => &OVER_WIDTH_TWICE,
    };
    work.step(rule, about, &[used, width.called(WIDTH), part], Quantity::count(total))
}

/// The counts of a rate: the figures to use, by the first table, by the other one, and by the strengths.
pub(crate) struct Counts {
    pub(crate) first: Option<(Input<'static>, Input<'static>)>,
    pub(crate) also: Option<(Input<'static>, Input<'static>)>,
    pub(crate) strength: Option<Input<'static>>,
}

impl Counts {
    /// The count that is laid out.
    pub(crate) fn laid(&self, rate: &Rate) -> Option<Input<'static>> {
        match rate.from? {
            By::Table => self.first.map(|(_, reduced)| reduced),
            By::Example => self.also.or(self.first).map(|(_, reduced)| reduced),
            By::Strength => self.strength,
            By::Greater => None,
        }
    }

    /// Whole rivets over a width by the count that is laid out.
    pub(crate) fn over(
        &self,
        rate: &Rate,
        width: Input<'static>,
        total: u32,
        work: &mut Working<'_>,
    ) -> Option<Input<'static>> {
        let by_table =
            |found: Option<ByTable>, counts: Option<(Input<'static>, Input<'static>)>, work: &mut Working<'_>| {
                Some(over_width(&found?, counts?.0, width, total, work))
            };
        match rate.from? {
            By::Table => by_table(rate.by_table, self.first, work),
            By::Example => by_table(rate.also.or(rate.by_table), self.also.or(self.first), work),
            By::Strength => {
                let count = self.strength?;
                let figures = [count, width.called(WIDTH)];
                Some(work.step(&STRENGTH_RATE_OVER_WIDTH, About::Whole, &figures, Quantity::count(total)))
            }
            By::Greater => None,
        }
    }
}

/// Every way in which a rate was counted.
pub(crate) fn counts(
    rate: &Rate,
    (material, thickness, practice): (Material, Length, &Practice<'_>),
    diameter: Option<Length>,
    one: Option<Input<'static>>,
    work: &mut Working<'_>,
) -> Counts {
    let first = rate.by_table.map(|found| by_table(&found, diameter, work));
    let also = rate.also.map(|found| by_table(&found, diameter, work));
    let strength = rate.by_strength.and_then(|found| {
        let ftu = of_sheet(FTU, Property::TensionUltimate, &practice.sheet(material, thickness))?;
        let one = one.unwrap_or_else(|| Input::new(ONE, found.per_rivet.force, found.per_rivet.basis));
        let figures = [ftu, Input::given(THICKNESS, thickness), one.called(ONE)];
        Some(work.step(&BY_STRENGTH, About::Whole, &figures, per_inch(found.per_inch)))
    });
    Counts { first, also, strength }
}

/// A seam, as [`seam`](crate::repair::seam::seam) found it.
///
/// ```
/// use shophead::joint::splice::SpliceMember;
/// use shophead::length::Length;
/// use shophead::material::Material;
/// use shophead::repair::count::By;
/// use shophead::repair::seam::{SeamFastener, SeamQuery, seam};
/// use shophead::rivet::part::Part;
/// use shophead::words::Units;
/// use shophead::working::{Working, splice};
/// let (clad, held) = (Material::parse("clad 2024-T3")?, SeamFastener::Rivets(Part::parse("MS20470AD4")?));
/// let query = SeamQuery::new(clad, Length::parse(".032")?, Length::parse("10")?, held).member(SpliceMember::SingleLap).by(By::Example);
/// let found = seam(&query)?;
/// let mut said = Vec::new();
/// splice::of(&query, &found, &mut Working::new(&mut |step| {
///     said.push((step.rule.word, step.result.shown(Units::Inches).to_string()));
/// }));
/// // The circular's own example: 4.9 an inch, 37 rivets.
/// assert!(said.contains(&("table-count", "4.9".into())) && said.contains(&("table-rivets", "37".into())));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn of(query: &SeamQuery<'_>, found: &Seam, work: &mut Working<'_>) {
    let Ok(stack) = query.stack() else { return };
    let width = Input::given(WIDTH, query.width);
    let thickness = Input::given(THICKNESS, query.thickness);
    let sheet = query.practice.sheet(query.material, query.thickness);
    let ftu = of_sheet(FTU, Property::TensionUltimate, &sheet);
    let rivet = match query.held {
        SeamFastener::Rivets(rivet) => Some(rivet.without_length()),
        SeamFastener::An3Bolts => None,
    };
    // One rivet is counted by itself, at the practice's least edge distance.
    let one = rivet.filter(|_| found.rate.by_strength.is_some()).and_then(|rivet| {
        let question = query.question(rivet, &stack, false);
        let strength = question.strength().ok()?;
        work.of(About::Named(BY_ITSELF));
        let one = joint::one_rivet(&question, &strength, work).allowable;
        work.of(About::Whole);
        one
    });
    let diameter = rivet.map(|rivet| rivet.diameter());
    let counts = counts(&found.rate, (query.material, query.thickness, query.practice), diameter, one, work);
    let totals = found.totals;
    let by_table =
        |table: Option<ByTable>, counted: Option<(Input<'static>, Input<'static>)>, total, work: &mut Working<'_>| {
            Some(over_width(&table?, counted?.0, width, total?, work))
        };
    let table = by_table(found.rate.by_table, counts.first, totals.table, work);
    let also = by_table(found.rate.also, counts.also, totals.also, work);
    let strength = ftu.zip(found.sheet_load).and_then(|(ftu, load)| {
        let load = work.step(&WHOLE_SHEET, About::Whole, &[ftu, thickness, width], load);
        let one = counts.strength.and(one)?;
        let total = Quantity::count(totals.strength?);
        Some(work.step(&STRENGTH_OVER_WIDTH, About::Whole, &[load, one.called(ONE)], total))
    });
    let total = match query.by {
        By::Table => table,
        By::Example => also.or(table),
        By::Strength => strength,
        By::Greater => match (table, strength, found.total) {
            (Some(table), Some(strength), Some(total)) => {
                Some(work.step(&GREATER, About::Whole, &[table, strength], Quantity::count(total)))
            }
            (table, strength, _) => table.or(strength),
        },
    };
    let (Some(total), Some(laid)) = (total, found.laid) else { return };
    let rows = Input::given(ROWS, Quantity::count(laid.rows.rows));
    let per_row = work.step(&IN_A_ROW, About::Whole, &[total, rows], Quantity::count(laid.rows.per_row));
    work.step(&AS_LAID, About::Whole, &[per_row, rows], Quantity::count(laid.rows.total));
    work.step(&OF_PITCH, About::Whole, &[width, per_row], laid.rows.pitch);
    let edge = query.practice.length(crate::practice::Name::EdgeDistanceLeast, &query.case_of(laid.rows.rows));
    if let (Some(edge), Some(apart), Some(overlap)) = (edge, laid.apart, laid.overlap) {
        let edge = Input::new(EDGE, edge.value, edge.basis);
        let apart = Input::new(SPACING, apart.value, apart.basis);
        work.step(&OF_LAP, About::Whole, &[edge, rows, apart], overlap);
    }
    if let (Some(row), Some(rivet)) = (&found.row, rivet) {
        let question = query.laid_question(rivet, &stack, &laid.rows, found.rate.by_table.is_some());
        work.of(About::Named(LAID_OUT));
        let carried = joint::one_rivet(&question, &row.joint, work);
        let carries = joint::rows(&question, row, &carried, (None, None, None), work);
        work.of(About::Whole);
        if let (Some(carries), Some(ftu), Some(develops)) = (carries, ftu, laid.develops) {
            let figures = [carries.called(CARRIES), ftu, thickness];
            work.step(&OF_SHEET, About::Whole, &figures, Quantity::number(develops));
        }
    }
}

/// What a row carries over what the sheet does without holes.
pub(crate) fn develops(
    carries: Input<'static>,
    (material, thickness, practice): (Material, Length, &Practice<'_>),
    share: f64,
    work: &mut Working<'_>,
) {
    let Some(ftu) = of_sheet(FTU, Property::TensionUltimate, &practice.sheet(material, thickness)) else { return };
    let figures = [carries.called(CARRIES), ftu, Input::given(THICKNESS, thickness)];
    work.step(&OF_SHEET, About::Whole, &figures, Quantity::number(share));
}
