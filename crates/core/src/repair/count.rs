//! How many rivets an inch of a splice needs: by the circular's tables, by computation, and the greater of the two.
//!
//! | count | from |
//! |---|---|
//! | by the table | AC 43.13-1B tables 4-9 to 4-11: the printed cell of the next tabulated thickness, reduced for the member |
//! | by computation | tension strength of the sheet × its thickness / what one rivet carries; nothing is taken off for the member |
//!
//! The tables are for protruding heads. Flush rivets are counted by their strengths; where those are not published either, the count of the
//! protruding rivet is laid out and referred.
//!
//! A thickness between two lines of a table takes the next one (para 4-58m(1): 1/16 takes .064). A dash in the table is no offer: the
//! formula behind the table is not put in its place.

use super::in_row::InRow;
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::joint::splice::{
    self, Critical, Fastener, PerInch, SpliceError, SpliceMember, SpliceTable, needed, tables, tables_hold_for,
};
use crate::joint::strength::{Allowable, nominal_hole};
use crate::joint::thin_sheet;
use crate::length::Length;
use crate::material::{Material, Property};
use crate::practice::{Key, Name, Practice};
use crate::rivet::Head;
use crate::rivet::part::Part;

crate::words::words! {
    /// Which count is laid out.
    #[non_exhaustive]
    By, "count" {
        Greater = 1, "greater", "The greater of table and computation.";
        Table = 2, "table", "That of the table that names the sheet and asks for more.";
        Example = 3, "example", "That of the table that the circular's own example takes: 4-10 for clad 2024-T3.";
        Strength = 4, "strength", "That of the computation.";
    }
}

/// The count by one table.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct ByTable {
    /// Which.
    pub table: SpliceTable,
    /// The line that was taken.
    pub thickness: Length,
    /// Its cell and what the rule of the table gives.
    pub cell: PerInch,
    /// The count to use before the reduction for the member.
    pub used: f64,
    /// Rivets an inch after the reduction for the member.
    pub per_inch: f64,
    /// What the reduction is for.
    pub member: SpliceMember,
}

/// The count by computation.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct ByStrength {
    /// What one rivet carries.
    pub per_rivet: Allowable,
    /// Rivets an inch.
    pub per_inch: f64,
}

/// Rivets an inch of width, both ways.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Rate {
    /// By the table that names the sheet; of two, the one that asks for more.
    pub by_table: Option<ByTable>,
    /// By another table that names it too.
    pub also: Option<ByTable>,
    /// By computation, where every strength is published.
    pub by_strength: Option<ByStrength>,
    /// The count that is laid out; `None` where there is none.
    pub per_inch: Option<f64>,
    /// What that count comes from.
    pub from: Option<By>,
    /// What was found.
    pub findings: Findings,
}

impl Rate {
    fn by_first(&self) -> Option<(f64, By)> {
        self.by_table.map(|found| (found.per_inch, By::Table))
    }

    /// By the table of the worked example, where it is another one.
    fn by_example(&self) -> Option<(f64, By)> {
        self.also.map(|found| (found.per_inch, By::Example)).or_else(|| self.by_first())
    }

    /// What was found of the rivets: where the table counts them and no strength is published, theirs is not asked.
    pub(super) fn of_rivets<'r>(&self, row: &'r InRow) -> &'r Findings {
        let by_table_alone = self.by_table.is_some() && self.by_strength.is_none();
        if by_table_alone { &row.fitted } else { &row.findings }
    }

    /// What to enter in the limits file for a count by strength, where that is what is missing.
    #[must_use]
    pub fn key(&self) -> Option<Key> {
        self.findings.iter().find_map(Finding::key)
    }

    /// What decides the count: shear of the rivet or bearing of the sheet; `None` where the computation does.
    #[must_use]
    pub fn critical(&self) -> Option<Critical> {
        match self.from? {
            By::Table => self.by_table.map(|found| found.cell.critical),
            By::Example => self.also.or(self.by_table).map(|found| found.cell.critical),
            By::Greater | By::Strength => None,
        }
    }

    /// Whole rivets over a width; for the member's own rounding see [`splice::count`].
    ///
    /// # Errors
    /// [`SpliceError`].
    pub fn over(&self, width: Length) -> Result<Option<u32>, SpliceError> {
        let by_table = |found: Option<ByTable>| {
            let found = found?;
            Some(splice::count(found.used, width, found.member, found.member.rounding()).map(|count| count.total))
        };
        let by_strength = || {
            let found = self.by_strength?;
            Some(
                splice::count(found.per_inch, width, SpliceMember::Other, splice::CountRounding::Once)
                    .map(|count| count.total),
            )
        };
        match self.from {
            None | Some(By::Greater) => Ok(None),
            Some(By::Table) => by_table(self.by_table).transpose(),
            Some(By::Example) => by_table(self.also.or(self.by_table)).transpose(),
            Some(By::Strength) => by_strength().transpose(),
        }
    }
}

/// The thickness of the line that a table answers with: the sheet's own or the next; `None` above the last.
///
/// ```
/// use shophead::joint::splice::SpliceTable;
/// use shophead::length::Length;
/// use shophead::repair::count::tabulated;
/// let sixteenth = Length::parse("1/16").unwrap();
/// assert_eq!(tabulated(SpliceTable::T4_10, sixteenth), Length::parse(".064").ok());
/// assert_eq!(tabulated(SpliceTable::T4_10, Length::INCH), None);
/// ```
#[must_use]
pub fn tabulated(table: SpliceTable, thickness: Length) -> Option<Length> {
    table.lines().iter().map(|line| line.thickness()).find(|line| *line >= thickness)
}

/// The count by one table, where its cell is printed.
///
/// # Errors
/// [`SpliceError`].
pub fn by_table(
    table: SpliceTable,
    thickness: Length,
    fastener: Fastener,
    member: SpliceMember,
) -> Result<Option<ByTable>, SpliceError> {
    let Some(thickness) = tabulated(table, thickness) else { return Ok(None) };
    let cell = match splice::per_inch(table, thickness, fastener) {
        Err(SpliceError::DiameterNotTabulated) => return Ok(None),
        cell => cell?,
    };
    let Some(used) = cell.used else { return Ok(None) };
    let (percent, _) = member.percent();
    Ok(Some(ByTable { table, thickness, cell, used, per_inch: used * f64::from(percent) / 100.0, member }))
}

/// AN-3 bolts an inch for a sheet, by its tables: nothing else counts them.
///
/// # Errors
/// [`SpliceError`].
pub fn bolt_rate(material: Material, thickness: Length, member: SpliceMember, by: By) -> Result<Rate, SpliceError> {
    let mut found =
        Rate { by_table: None, also: None, by_strength: None, per_inch: None, from: None, findings: Findings::new() };
    if let Some(named) = tables(material.alloy(), material.temper(), material.is_clad()) {
        found.by_table = by_table(named.first, thickness, Fastener::An3Bolt, member)?;
        let also = named.also.map(|table| by_table(table, thickness, Fastener::An3Bolt, member));
        found.also = also.transpose()?.flatten();
    }
    let counted = match by {
        By::Example => found.by_example(),
        By::Table | By::Greater => found.by_first(),
        By::Strength => None,
    };
    (found.per_inch, found.from) = (counted.map(|(per_inch, _)| per_inch), counted.map(|(_, from)| from));
    if counted.is_none() {
        found.findings.push(no_table(thickness));
    }
    Ok(found)
}

/// Rivets an inch for a sheet, by its tables and by computation.
///
/// `per_rivet` is what one rivet carries in the splice; `None` where that is not published.
///
/// # Errors
/// [`SpliceError`].
///
/// ```
/// use shophead::joint::splice::SpliceMember;
/// use shophead::length::Length;
/// use shophead::material::Material;
/// use shophead::practice::HANDBOOK;
/// use shophead::repair::count::{By, rate};
/// use shophead::rivet::part::Part;
/// // AC 43.13-1B para 4-58g(2): clad 2024 .032, 1/8 rivets, a lap: 4.9 × 0.75 an inch, 37 over 10 in.
/// let (clad, rivet) = (Material::parse("clad 2024-T3")?, Part::parse("MS20470AD4")?);
/// let lap = rate(clad, Length::parse(".032")?, &rivet, SpliceMember::SingleLap, None, By::Example, &HANDBOOK)?;
/// assert_eq!(lap.over(Length::parse("10")?)?, Some(37));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rate(
    material: Material,
    thickness: Length,
    rivet: &Part<'_>,
    member: SpliceMember,
    per_rivet: Option<Allowable>,
    by: By,
    practice: &Practice<'_>,
) -> Result<Rate, SpliceError> {
    let carries = per_rivet.ok_or_else(|| first_missing(material, thickness, rivet, practice));
    rate_of(material, thickness, rivet, member, carries, by, practice)
}

/// What one rivet carries, or what to enter so that it is known.
pub(super) type Carries = Result<Allowable, Option<Key>>;

/// What one rivet of a row carries.
pub(super) fn carries(row: &InRow) -> Carries {
    let joint = &row.strength.joint;
    joint.allowable.ok_or_else(|| joint.findings.iter().find_map(Finding::key))
}

/// As [`rate`], with what is missing where a rivet's strength is not known.
pub(super) fn rate_of(
    material: Material,
    thickness: Length,
    rivet: &Part<'_>,
    member: SpliceMember,
    per_rivet: Carries,
    by: By,
    practice: &Practice<'_>,
) -> Result<Rate, SpliceError> {
    let (per_rivet, missing) = (per_rivet.ok(), per_rivet.err().flatten());
    let mut found =
        Rate { by_table: None, also: None, by_strength: None, per_inch: None, from: None, findings: Findings::new() };
    let (head, alloy) = (rivet.series().head, rivet.alloy());
    // Flush rivets of the tables' alloy are laid out by them, for approval, where no strength of theirs is published.
    let stands_in = head.is_flush() && tables_hold_for(alloy, Head::Universal) && per_rivet.is_none();
    let named = tables(material.alloy(), material.temper(), material.is_clad())
        .filter(|_| tables_hold_for(alloy, head) || stands_in);
    if stands_in && named.is_some() {
        found.findings.push(Finding::new(Code::NoSpliceTable, Severity::Refer, Basis::AC43_SPLICES_SCOPE));
    }
    match named {
        None => found.findings.push(Finding::new(Code::NoSpliceTable, Severity::Note, Basis::AC43_SPLICES_SCOPE)),
        Some(named) => {
            let fastener = Fastener::Rivet(rivet.diameter());
            found.by_table = by_table(named.first, thickness, fastener, member)?;
            found.also = named.also.map(|table| by_table(table, thickness, fastener, member)).transpose()?.flatten();
            if found.by_table.is_none() {
                let dash = Finding::new(Code::NoSpliceTable, Severity::Caution, Basis::AC43_SPLICES_DASH);
                found
                    .findings
                    .push(dash.with_measured(Figure::Length(thickness)).with_limit(Figure::Length(rivet.diameter())));
            }
        }
    }
    let ftu = practice.sheet(material, thickness).ftu();
    if let (Some(ftu), Some(per_rivet)) = (ftu, per_rivet) {
        let by_strength = needed(ftu, thickness, Length::INCH, per_rivet.force)?;
        found.by_strength = Some(ByStrength { per_rivet, per_inch: by_strength.per_inch });
    }
    let (table, example) = (found.by_first(), found.by_example());
    let strength = found.by_strength.map(|found| (found.per_inch, By::Strength));
    let chosen = match by {
        By::Table => table,
        By::Example => example,
        By::Strength => strength,
        By::Greater => match (table, strength) {
            (Some(table), Some(strength)) => Some(if strength.0 > table.0 { strength } else { table }),
            (table, strength) => table.or(strength),
        },
    };
    let ftu_key = ftu.is_none().then(|| Key::of_sheet(material, Property::TensionUltimate));
    let key = ftu_key.or(missing);
    let not_published = |severity| Finding::unknown(Code::StrengthNotPublished, severity, material.basis(), key);
    if found.by_strength.is_none() && found.by_table.is_some() {
        found.findings.push(not_published(Severity::Caution));
    }
    (found.per_inch, found.from) = (chosen.map(|(per_inch, _)| per_inch), chosen.map(|(_, from)| from));
    if chosen.is_none() {
        // By the tables alone no strength would help.
        found.findings.push(match by {
            By::Table | By::Example => no_table(thickness),
            By::Greater | By::Strength => not_published(Severity::Refer),
        });
    }
    Ok(found)
}

/// That no table counts for a sheet, and nothing else was asked.
fn no_table(thickness: Length) -> Finding {
    let none = Finding::new(Code::NoSpliceTable, Severity::Refer, Basis::AC43_SPLICES_DASH);
    none.with_measured(Figure::Length(thickness))
}

/// That there is no count in this material at all, and what to enter for one.
pub(super) fn no_count(material: &Material, key: Option<Key>) -> Finding {
    match key {
        Some(key) => Finding::unknown(Code::StrengthNotPublished, Severity::Refer, material.basis(), Some(key)),
        None => Finding::new(Code::NoSpliceTable, Severity::Refer, Basis::AC43_SPLICES_DASH),
    }
}

/// That the practice has no such limit for a rivet.
pub(super) fn no_limit(limit: Name) -> Finding {
    Finding::unknown(Code::NoLimit, Severity::Refer, Basis::ROWS_OF_PATCH, Some(Key::of_limit(limit)))
}

/// The first figure that is missing for a count by strength, where the rivet was not asked in its row.
fn first_missing(material: Material, thickness: Length, rivet: &Part<'_>, practice: &Practice<'_>) -> Option<Key> {
    if practice.driven_shear(rivet.alloy()).is_none() {
        Some(Key::of_shear(rivet.alloy()))
    } else if rivet.series().head.is_flush() {
        Key::of_flush_joint(rivet)
    } else if practice.sheet(material, thickness).fbru_20().is_none() {
        Some(Key::of_sheet(material, Property::BearingUltimate20))
    } else if !thin_sheet::is_covered(thickness, nominal_hole(rivet.size().shank_nominal)) {
        Key::of_plain_joint(rivet)
    } else {
        None
    }
}
