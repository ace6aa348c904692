//! A seam of two sheets that are alike: how many fasteners, in how many rows, and how much of the whole sheet they develop.
//!
//! The count is the greater of the circular's table and of the computation ([`super::count`]), and what the circular's own example does
//! stands beside it. The seam as it is laid out is asked like any rivet in its row, so every check of an [`Installation`] runs. How much of
//! the sheet it develops is always said, and a number of rows that develops more, with as many rivets, is offered.

use super::count::{self, By, Rate};
use super::splice::BOLT_DIAMETER;
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::installation::Installation;
use crate::joint::modes;
use crate::joint::row::RowStrength;
use crate::joint::splice::{self, EqualRows, SpliceError, SpliceMember};
use crate::joint::strength::{Allowable, Governing, JointStrength};
use crate::length::{Length, Toleranced};
use crate::material::{DrivenShear, Material, RivetAlloy};
use crate::practice::{Case, Given, HANDBOOK, Name, Practice};
use crate::quantity::Force;
use crate::rivet::MS20470;
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::stack::{Layer, Preparation, Stack, StackError};

/// The most rows that are tried.
pub const MOST_ROWS: u16 = 12;

/// A layout is offered where it develops at least so much more of the sheet, as a part of it.
pub const WORTH_OFFERING: f64 = 0.01;

/// Of the layouts that develop more the one with the fewest rows is offered that comes so near the best of them.
pub const NEAR_THE_BEST: f64 = 0.9;

/// What holds the seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SeamFastener {
    /// Rivets of this family; the length does not count.
    Rivets(Part<'static>),
    /// AN-3 bolts: only the tables count them.
    An3Bolts,
}

/// What is asked.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct SeamQuery<'a> {
    /// Both sheets.
    pub material: Material,
    /// Thickness of each.
    pub thickness: Length,
    /// How wide the seam is.
    pub width: Length,
    /// What holds it.
    pub held: SeamFastener,
    /// How the rivets are driven; the least strength of their alloy where nothing is said.
    pub driven: Option<&'static DrivenShear>,
    /// What is spliced; the tables allow fewer in some members.
    pub member: SpliceMember,
    /// Which count is laid out.
    pub by: By,
    /// In so many rows; otherwise the fewest that keep the least pitch.
    pub rows: Option<u16>,
    /// Whether each rivet stands against the gap of the next row.
    pub staggered: bool,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'a> SeamQuery<'a> {
    /// In a member without a rule of its own, rows in line, by the greater count and the limits of the handbooks.
    #[must_use]
    pub const fn new(material: Material, thickness: Length, width: Length, held: SeamFastener) -> Self {
        SeamQuery {
            material,
            thickness,
            width,
            held,
            driven: None,
            member: SpliceMember::Other,
            by: By::Greater,
            rows: None,
            staggered: false,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// How the rivets are driven.
        driven: Option<&'static DrivenShear>;
        /// What is spliced.
        member: SpliceMember;
        /// Which count is laid out.
        by: By;
        /// So many rows.
        rows: Option<u16>;
        /// Whether each rivet stands against the gap of the next row.
        staggered: bool;
        /// The limits.
        practice: &'a Practice<'a>;
    }
}

/// Whole fasteners over the width, on each side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Totals {
    /// By the table, reduced for the member.
    pub table: Option<u32>,
    /// By another table that names the sheet too.
    pub also: Option<u32>,
    /// By the strengths: whatever the whole sheet carries, not reduced.
    pub strength: Option<u32>,
}

/// A layout.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Laid {
    /// The rows.
    pub rows: EqualRows,
    /// From row to row, where the practice gives a least.
    pub apart: Option<Given<Length>>,
    /// How far the sheets lap at least.
    pub overlap: Option<Length>,
    /// What it carries over what the whole sheet does, by the strengths; `None` where they are not published.
    pub develops: Option<f64>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Seam {
    /// Fasteners an inch, by table and by strength.
    pub rate: Rate,
    /// The same over the width.
    pub totals: Totals,
    /// The count that is laid out; `None` where there is none.
    pub total: Option<u32>,
    /// The edge distance that counts.
    pub edge: Option<Given<Length>>,
    /// What fails first at one rivet.
    pub governing: Option<Governing>,
    /// What the whole sheet carries over the width.
    pub sheet_load: Option<Force>,
    /// The least pitch of the rows that were asked for.
    pub least_pitch: Option<Given<Length>>,
    /// As laid out.
    pub laid: Option<Laid>,
    /// What the circular's own example does: the count of its table alone, in the fewest rows that keep the least pitch.
    pub example: Option<Laid>,
    /// A number of rows that develops more with as many rivets.
    pub better: Option<Laid>,
    /// The seam as laid out, an inch of it.
    pub row: Option<RowStrength>,
    /// What was found.
    pub findings: Findings,
}

crate::words::errors! {
    /// Why there is no answer.
    SeamError {
        | Splice(SpliceError), "The count could not be worked out.";
        | Stack(StackError), "The sheets are no pack.";
    }
}

impl<'a> SeamQuery<'a> {
    /// The rivet; `None` for bolts.
    fn rivet(&self) -> Option<Part<'static>> {
        match self.held {
            SeamFastener::Rivets(rivet) => Some(rivet.without_length()),
            SeamFastener::An3Bolts => None,
        }
    }

    /// The case that limits are asked for, in so many rows.
    #[cfg(feature = "words")]
    pub(crate) fn case_of(&self, rows: u16) -> Case {
        self.case(rows)
    }

    fn case(&self, rows: u16) -> Case {
        let rows = u8::try_from(rows).unwrap_or(u8::MAX);
        match self.held {
            SeamFastener::Rivets(rivet) => Case::for_part(&self.practice.rivet(rivet)).in_rows(rows),
            SeamFastener::An3Bolts => Case::new(MS20470.head, RivetAlloy::Al2117, BOLT_DIAMETER).in_rows(rows),
        }
    }

    /// Two such sheets, one over the other; a flush head is sunk into the outer one.
    pub(crate) fn stack(&self) -> Result<Stack, StackError> {
        let flush = self.rivet().is_some_and(|rivet| rivet.series().head.is_flush());
        let preparation = if flush { Preparation::Countersunk } else { Preparation::Plain };
        let plain = Layer { material: Some(self.material), ..Layer::of(Toleranced::exactly(self.thickness)) };
        let mut stack = Stack::new();
        stack.push(Layer { preparation, ..plain })?;
        stack.push(plain)?;
        Ok(stack)
    }

    /// One rivet of it, by itself.
    pub(crate) fn question<'q>(
        &self,
        rivet: Part<'static>,
        stack: &'q Stack,
        counted_by_table: bool,
    ) -> Installation<'q, 'a> {
        let question = Installation::new(rivet, stack).by(self.practice);
        let question = self.driven.map_or(question, |driven| question.driven(driven));
        if counted_by_table { question.counted_by_table() } else { question }
    }

    /// One rivet of it as it is laid out.
    pub(crate) fn laid_question<'q>(
        &self,
        rivet: Part<'static>,
        stack: &'q Stack,
        laid: &EqualRows,
        counted_by_table: bool,
    ) -> Installation<'q, 'a> {
        let case = self.case(laid.rows);
        let question = self.question(rivet, stack, counted_by_table).pitch(laid.pitch).rows(laid.rows);
        let question = match self.practice.length(Name::EdgeDistanceLeast, &case) {
            Some(edge) => question.edge(edge.value),
            None => question,
        };
        let question = match self.practice.length(Name::TransversePitchLeast, &case).filter(|_| laid.rows > 1) {
            Some(apart) => question.row_spacing(apart.value),
            None => question,
        };
        if self.staggered { question.staggered() } else { question }
    }

    /// What the whole sheet carries on an inch.
    fn sheet(&self) -> Option<Force> {
        let ftu = self.practice.sheet(self.material, self.thickness).ftu()?;
        Some(modes::gross_section(ftu, self.thickness, Length::INCH))
    }
}

/// Sizes a seam.
///
/// # Errors
/// [`SeamError`].
///
/// ```
/// use shophead::joint::splice::SpliceMember;
/// use shophead::length::Length;
/// use shophead::material::Material;
/// use shophead::repair::seam::{SeamFastener, SeamQuery, seam};
/// use shophead::rivet::part::Part;
/// // AC 43.13-1B para 4-58g(2): clad 2024 .032 lapped over 10 in with 1/8 rivets. Its example takes 37 rivets and lays out two rows of 19;
/// // the strengths ask for more.
/// let (clad, held) = (Material::parse("clad 2024-T3")?, SeamFastener::Rivets(Part::parse("MS20470AD4")?));
/// let query = SeamQuery::new(clad, Length::parse(".032")?, Length::parse("10")?, held).member(SpliceMember::SingleLap);
/// let found = seam(&query)?;
/// let example = found.example.expect("a table names the sheet").rows;
/// assert_eq!((found.totals.also, example.rows, example.per_row), (Some(37), 2, 19));
/// assert!(found.total > found.totals.also);
/// assert!(found.laid.unwrap().develops.unwrap() < found.better.unwrap().develops.unwrap());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn seam(query: &SeamQuery<'_>) -> Result<Seam, SeamError> {
    let stack = query.stack()?;
    let joint = one_rivet(query, &stack);
    let mut found = Seam {
        rate: rate(query, joint.as_ref().and_then(|joint| joint.allowable))?,
        totals: Totals::default(),
        total: None,
        edge: query.practice.length(Name::EdgeDistanceLeast, &query.case(query.rows.unwrap_or(1))),
        governing: None,
        sheet_load: query.sheet().map(|sheet| Force::from_lbf(sheet.lbf() * query.width.to_inches_f64())),
        least_pitch: query.practice.length(Name::PitchLeast, &query.case(query.rows.unwrap_or(1))),
        laid: None,
        example: None,
        better: None,
        row: None,
        findings: Findings::new(),
    };
    found.totals = totals(query, &found.rate)?;
    found.governing = joint.and_then(|joint| joint.governing.filter(|_| joint.allowable.is_some()));
    let Totals { table, also, strength } = found.totals;
    found.total = match query.by {
        By::Table => table,
        By::Example => also.or(table),
        By::Strength => strength,
        By::Greater => table.max(strength),
    };
    for finding in &found.rate.findings {
        found.findings.push(*finding);
    }
    let by_table = found.rate.by_table.is_some();
    if let Some(total) = found.total {
        let rows = query.rows.or_else(|| fewest_rows(query, total));
        if let Some(rows) = rows {
            let (laid, row) = lay(query, &stack, total, rows, by_table)?;
            (found.laid, found.row) = (Some(laid), row);
            found.better = better(query, &stack, total, &laid, by_table)?;
        }
    }
    let example = also.or(table);
    if let Some(example) = example
        && let Some(rows) = fewest_rows(query, example)
    {
        found.example = Some(lay(query, &stack, example, rows, by_table)?.0);
    }
    say(query, &stack, by_table, &mut found);
    Ok(found)
}

/// What is found about the seam as it is laid out, or about one rivet of it, and how much of the sheet it develops.
fn say(query: &SeamQuery<'_>, stack: &Stack, by_table: bool, found: &mut Seam) {
    let findings = &mut found.findings;
    match (&found.row, query.rivet()) {
        (Some(row), _) => row.joint.findings.iter().for_each(|finding| findings.push(*finding)),
        (None, Some(rivet)) => query.question(rivet, stack, by_table).findings().iter().for_each(|finding| {
            findings.push(*finding);
        }),
        (None, None) => {}
    }
    let percent = |laid: Option<Laid>| {
        let percent = libm::floor(laid?.develops? * 100.0);
        (0.0..=f64::from(u16::MAX)).contains(&percent).then_some(Figure::Count(percent as u32))
    };
    if let Some(develops) = percent(found.laid) {
        let finding =
            Finding::new(Code::SpliceDevelops, Severity::Note, Basis::SPLICE_DEVELOPS).with_measured(develops);
        findings.push(percent(found.better).map_or(finding, |better| finding.with_limit(better)));
    }
}

/// Fasteners an inch, by table and by strength.
fn rate(query: &SeamQuery<'_>, per_rivet: Option<Allowable>) -> Result<Rate, SpliceError> {
    let (material, thickness) = (query.material, query.thickness);
    let Some(rivet) = query.rivet() else {
        return count::bolt_rate(material, thickness, query.member, query.by);
    };
    count::rate(material, thickness, &rivet, query.member, per_rivet, query.by, query.practice)
}

/// What one rivet of the seam carries.
fn one_rivet(query: &SeamQuery<'_>, stack: &Stack) -> Option<JointStrength> {
    query.question(query.rivet()?, stack, false).strength().ok()
}

fn totals(query: &SeamQuery<'_>, rate: &Rate) -> Result<Totals, SpliceError> {
    let by_table = |found: Option<count::ByTable>| {
        let counted = found.map(|found| splice::count(found.used, query.width, found.member, found.member.rounding()));
        counted.transpose().map(|count| count.map(|count| count.total))
    };
    let by_strength = rate.by_strength.zip(query.practice.sheet(query.material, query.thickness).ftu());
    let needed = by_strength
        .map(|(strength, ftu)| splice::needed(ftu, query.thickness, query.width, strength.per_rivet.force))
        .transpose()?;
    Ok(Totals {
        table: by_table(rate.by_table)?,
        also: by_table(rate.also)?,
        strength: needed.map(|needed| needed.total),
    })
}

/// The fewest rows that keep the least pitch of a pattern with so many rows.
fn fewest_rows(query: &SeamQuery<'_>, total: u32) -> Option<u16> {
    (1..=u16::from(u8::MAX)).find(|rows| {
        let pitch = query.practice.length(Name::PitchLeast, &query.case(*rows));
        let needed = pitch.and_then(|pitch| splice::fewest_rows(total, query.width, pitch.value).ok());
        needed.is_some_and(|needed| needed <= *rows)
    })
}

/// The fasteners in so many rows, and what they then carry.
fn lay(
    query: &SeamQuery<'_>,
    stack: &Stack,
    total: u32,
    rows: u16,
    by_table: bool,
) -> Result<(Laid, Option<RowStrength>), SpliceError> {
    let laid = splice::rows(total, rows, query.width)?;
    let case = query.case(rows);
    let apart = query.practice.length(Name::TransversePitchLeast, &case);
    let edge = query.practice.length(Name::EdgeDistanceLeast, &case);
    let overlap = edge.zip(apart).and_then(|(edge, apart)| splice::overlap(rows, edge.value, apart.value).ok());
    let row = query.rivet().and_then(|rivet| query.laid_question(rivet, stack, &laid, by_table).row().ok());
    let carried = row.as_ref().and_then(|row| row.per_inch);
    let develops = carried.zip(query.sheet()).map(|(carried, sheet)| modes::efficiency(carried.force, sheet));
    Ok((Laid { rows: laid, apart, overlap, develops }, row))
}

/// The fewest rows that come near the best that any number of rows develops with as many rivets, where that is worth offering.
fn better(
    query: &SeamQuery<'_>,
    stack: &Stack,
    total: u32,
    laid: &Laid,
    by_table: bool,
) -> Result<Option<Laid>, SpliceError> {
    let Some(develops) = laid.develops else { return Ok(None) };
    let mut tried = heapless::Vec::<Laid, { MOST_ROWS as usize }>::new();
    let mut best = 0.0_f64;
    for rows in 1..=MOST_ROWS {
        let (one, row) = lay(query, stack, total, rows, by_table)?;
        if row.is_some_and(|row| !row.joint.findings.must_refer()) {
            best = best.max(one.develops.unwrap_or(0.0));
            // Cannot fail: there is room for every number of rows.
            let _ = tried.push(one);
        }
    }
    let enough = (develops + WORTH_OFFERING).max(best * NEAR_THE_BEST);
    Ok(tried.into_iter().find(|one| one.develops.is_some_and(|share| share >= enough)))
}

#[cfg(all(test, feature = "words"))]
mod tests {
    use super::*;
    use crate::prelude::length;

    #[test]
    fn a_seam_is_asked_at_its_least_distances_and_a_single_row_is_from_none() {
        let rivet = Part::parse("MS20470AD4").expect("a part");
        let material = Material::parse("clad 2024-T3").expect("known");
        let query = SeamQuery::new(material, length(".032"), length("10"), SeamFastener::Rivets(rivet));
        let stack = query.stack().expect("two sheets");
        for rows in 1..=3 {
            let laid = splice::rows(36, rows, query.width).expect("rows");
            let asked = query.laid_question(rivet, &stack, &laid, false);
            let limit = |name| query.practice.length(name, &query.case(rows)).map(|limit| limit.value);
            let given = asked.distances_given();
            assert_eq!((given.pitch, given.edge), (Some(laid.pitch), limit(Name::EdgeDistanceLeast)), "{rows}");
            let apart = limit(Name::TransversePitchLeast);
            assert!(apart.is_some());
            assert_eq!(given.transverse_pitch, if rows == 1 { None } else { apart }, "{rows}");
        }
    }
}
