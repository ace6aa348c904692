//! How many rivets a splice needs.
//!
//! Two ways, to be shown side by side:
//!
//! - AC 43.13-1B tables 4-9 to 4-11 ([`per_inch`]): so many 2117 rivets an inch of width that they carry as much as the sheet.
//!   Their rule is `N = max(t / (s π H² / 4), 1 / (b H))`, with H the nominal hole and s and b the shear and bearing strengths as
//!   parts of the sheet's tensile strength. The notes of the tables allow fewer in some members ([`SpliceMember`]).
//! - One's own strengths ([`needed`]): the load of the sheet over what one rivet carries.
//!
//! # Printed cell or formula
//!
//! 119 of the 131 rivet cells are the formula to the printed decimal. Of the others the print is higher in seven and lower in
//! five, by less than 0.07 but for one (table 4-9, .032 sheet with 5/32: printed 3.9, formula 4.03, as if shear had not been
//! looked at). One bolt cell is lower by more: table 4-9, .128 with AN-3, printed 3.2 where its own note d gives 4.2.
//! [`PerInch::used`] takes the printed cell unless the formula, rounded to the printed decimal, asks for more. A dash in the table is no
//! offer: the formula is not put in its place.

use super::ac43_table::{COLUMNS, PrintedLine, TABLE_4_9, TABLE_4_10, TABLE_4_11};
use super::{hole_table, modes};
use crate::basis::Basis;
use crate::length::{Length, quotient};
use crate::material::RivetAlloy;
use crate::quantity::{Force, Stress};
use crate::rivet::Head;

/// A part of the sheet's tensile strength, and where it stands.
pub type SheetShare = (f64, Basis);

crate::words::words! {
    /// One of the circular's tables, by its number as printed.
    #[non_exhaustive]
    SpliceTable, "splice table" {
        T4_9 = 1, "4-9", "Bare and clad 2014-T6, 2024-T3, 2024-T36 and 7075-T6 sheet.";
        T4_10 = 2, "4-10", "2017, clad 2017 and clad 2024-T3.";
        T4_11 = 3, "4-11", "5052 sheet of every hardness.";
    }
}

impl SpliceTable {
    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            SpliceTable::T4_9 => "table 4-9",
            SpliceTable::T4_10 => "table 4-10",
            SpliceTable::T4_11 => "table 4-11",
        }
    }

    /// Its source.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            SpliceTable::T4_9 => Basis::AC43_T4_9,
            SpliceTable::T4_10 => Basis::AC43_T4_10,
            SpliceTable::T4_11 => Basis::AC43_T4_11,
        }
    }

    /// Its lines in printed order.
    #[must_use]
    pub const fn lines(self) -> &'static [PrintedLine] {
        match self {
            SpliceTable::T4_9 => TABLE_4_9,
            SpliceTable::T4_10 => TABLE_4_10,
            SpliceTable::T4_11 => TABLE_4_11,
        }
    }

    /// Shear strength of the rivet as a part of the sheet's tensile strength. The figure of table 4-10 is missing in the copy
    /// that was read; its cells give 0.50.
    #[must_use]
    pub const fn shear_part(self) -> SheetShare {
        match self {
            SpliceTable::T4_9 => (0.40, Basis::AC43_T4_9_NOTE_B),
            SpliceTable::T4_10 => (0.50, Basis::AC43_T4_10_CELLS),
            SpliceTable::T4_11 => (0.70, Basis::AC43_T4_11_NOTE_B),
        }
    }

    /// Bearing strength of the sheet as a part of its tensile strength. Table 4-11 prints 160 % in its note, but its cells were
    /// made with 165 %, which is used here; see [`SpliceTable::printed_bearing_part`].
    #[must_use]
    pub const fn bearing_part(self) -> SheetShare {
        match self {
            SpliceTable::T4_9 | SpliceTable::T4_10 => self.printed_bearing_part(),
            SpliceTable::T4_11 => (1.65, Basis::AC43_T4_11_CELLS),
        }
    }

    /// The same as the note of the table prints it.
    #[must_use]
    pub const fn printed_bearing_part(self) -> SheetShare {
        match self {
            SpliceTable::T4_9 => (1.60, Basis::AC43_T4_9_NOTE_B),
            SpliceTable::T4_10 => (1.60, Basis::AC43_T4_10_NOTE_B),
            SpliceTable::T4_11 => (1.60, Basis::AC43_T4_11_NOTE_B),
        }
    }

    /// Tensile strength of the sheet behind the bolt column; table 4-11 names none.
    pub(crate) const fn bolt_sheet(self) -> Option<Stress> {
        match self {
            SpliceTable::T4_9 => Some(Stress::from_psi(70_000.0)),
            SpliceTable::T4_10 => Some(Stress::from_psi(55_000.0)),
            SpliceTable::T4_11 => None,
        }
    }
}

/// The tables for a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Tables {
    /// The one to use: where two name the material, the one that asks for more rivets.
    pub first: SpliceTable,
    /// Another one that names it too.
    pub also: Option<SpliceTable>,
}

/// Which table names a material; `None` when none does.
///
/// Table 4-9 names some alloys as sections only (plate, bar, rod, tube, extrusion): 2024-T4, and 2014-T6 as an extrusion too. 2017 stands in
/// table 4-10 in any temper.
///
/// Clad 2024-T3 stands in the heading of table 4-9 and in that of table 4-10. Table 4-9 asks for more rivets and comes first
/// here; the worked example of para 4-58g takes table 4-10, which stands in [`Tables::also`].
///
/// ```
/// use shophead::joint::splice::{SpliceTable, tables};
/// let clad = tables("2024", "T3", true).expect("a common skin");
/// assert_eq!((clad.first, clad.also), (SpliceTable::T4_9, Some(SpliceTable::T4_10)));
/// assert_eq!(tables("6061", "T6", false), None);
/// ```
#[must_use]
pub fn tables(alloy: &str, temper: &str, clad: bool) -> Option<Tables> {
    let only = |first| Some(Tables { first, also: None });
    match (alloy, temper) {
        ("2024", "T3") if clad => Some(Tables { first: SpliceTable::T4_9, also: Some(SpliceTable::T4_10) }),
        ("2014", "T6") | ("2024", "T3" | "T36" | "T361") | ("7075", "T6" | "T6 and T62") => only(SpliceTable::T4_9),
        ("2024", "T4") if !clad => only(SpliceTable::T4_9),
        ("2017", _) => only(SpliceTable::T4_10),
        ("5052", _) => only(SpliceTable::T4_11),
        _ => None,
    }
}

/// Whether the published tables hold for a rivet: they are for 2117-T4 rivets with protruding heads (AC 43.13-1B tables 4-9 to 4-11).
#[must_use]
pub fn tables_hold_for(alloy: RivetAlloy, head: Head) -> bool {
    alloy == RivetAlloy::Al2117 && !head.is_flush()
}

/// What holds the splice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Fastener {
    /// A 2117-T4 protruding-head rivet of this nominal diameter.
    Rivet(Length),
    /// An AN-3 bolt.
    An3Bolt,
}

crate::words::words! {
    /// What decides the count.
    Critical, "what decides" {
        Shear = 1, "shear", "Shear of the rivet or bolt.";
        Bearing = 2, "bearing", "Bearing of the sheet.";
    }
}

/// Rivets or bolts an inch of width, before any reduction.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct PerInch {
    /// The cell as printed; `None` where the table has none.
    pub printed: Option<f64>,
    /// What the rule of the table gives.
    pub formula: f64,
    /// The count to use: the printed cell, or the formula rounded to the printed decimal where that is more. `None` where nothing is
    /// printed: the table offers no figure there, whatever its rule gives.
    pub used: Option<f64>,
    /// What decides the formula.
    pub critical: Critical,
    /// What the count to use rests on.
    pub basis: Basis,
}

crate::words::errors! {
    /// Why there is no count.
    SpliceError {
        LengthNotPositive = 120, "splice-length-not-positive", "A thickness, width or pitch of zero or less.",
            "thickness, width and pitch must be above zero; right would be .032";
        DiameterNotTabulated = 121, "splice-diameter-not-tabulated", "No nominal hole is known for the rivet.",
            "the tables are for standard rivets; right would be 3/32 to 1/4";
        NotPositive = 122, "splice-not-positive", "A stress, a load or a count an inch is not above zero.",
            "a strength must be above zero";
        NoRows = 123, "splice-no-rows", "No row to put the rivets in.",
            "a splice needs at least one row";
        OutOfRange = 124, "splice-out-of-range", "More rivets than can be counted.",
            "more rivets than any splice has; check the width and the load";
    }
}

/// Shear strength of an AN-3 bolt (tables 4-9 and 4-10, note d).
pub(crate) const AN3_SHEAR: Force = Force::from_lbf(2_126.0);

/// Diameter of an AN-3 bolt.
pub(crate) const AN3_DIAMETER: Length = Length::from_ten_thousandths(1_900);

/// Fasteners an inch of width by a table of the circular.
///
/// # Errors
/// [`SpliceError::LengthNotPositive`], [`SpliceError::DiameterNotTabulated`].
///
/// ```
/// use shophead::joint::splice::{Critical, Fastener, SpliceTable, per_inch};
/// use shophead::length::Length;
/// let eighth = Fastener::Rivet(Length::parse("1/8")?);
/// let count = per_inch(SpliceTable::T4_10, Length::parse(".040")?, eighth).expect("in the table");
/// assert_eq!((count.used, count.critical), (Some(6.2), Critical::Shear));
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn per_inch(table: SpliceTable, thickness: Length, fastener: Fastener) -> Result<PerInch, SpliceError> {
    if thickness <= Length::ZERO {
        return Err(SpliceError::LengthNotPositive);
    }
    let t = thickness.to_inches_f64();
    let (bearing_part, bearing_basis) = table.bearing_part();
    let (shear, bearing, rule_basis) = match fastener {
        Fastener::Rivet(rivet) => {
            let row = hole_table::nominal_hole(rivet).ok_or(SpliceError::DiameterNotTabulated)?;
            let h = row.hole.to_inches_f64();
            let (shear_part, shear_basis) = table.shear_part();
            let area = core::f64::consts::FRAC_PI_4 * h * h;
            let basis = shear_basis.weaker(bearing_basis).weaker(row.basis);
            (t / (shear_part * area), 1.0 / (bearing_part * h), basis)
        }
        Fastener::An3Bolt => {
            let shear = table.bolt_sheet().map_or(0.0, |sheet| sheet.psi() * t / AN3_SHEAR.lbf());
            let bearing = 1.0 / (bearing_part * AN3_DIAMETER.to_inches_f64());
            (shear, bearing, bearing_basis.weaker(Basis::AN3_DIAMETER))
        }
    };
    let formula = shear.max(bearing);
    let printed = printed(table, thickness, fastener);
    let (used, basis) = match printed {
        None => (None, rule_basis),
        Some(cell) => {
            let rounded = libm::round(formula * TENTHS) / TENTHS;
            if rounded > cell { (Some(rounded), table.basis().weaker(rule_basis)) } else { (Some(cell), table.basis()) }
        }
    };
    let critical = if shear > bearing { Critical::Shear } else { Critical::Bearing };
    Ok(PerInch { printed, formula, used, critical, basis })
}

/// The tables print one decimal.
const TENTHS: f64 = 10.0;

fn printed(table: SpliceTable, thickness: Length, fastener: Fastener) -> Option<f64> {
    let line = table.lines().iter().find(|line| line.thickness() == thickness)?;
    match fastener {
        Fastener::An3Bolt => line.an3(),
        Fastener::Rivet(rivet) => {
            let (_, cell) = COLUMNS.iter().zip(line.rivets()).find(|(column, _)| **column == rivet)?;
            cell
        }
    }
}

crate::words::words! {
    /// The member that is spliced, which decides how much of the table's count it needs.
    #[non_exhaustive]
    SpliceMember, "spliced member" {
        Other = 1, "other", "Anything the notes do not name: the whole count.";
        Stringer = 2, "stringer", "A stringer in the upper surface of a wing or in a fuselage: 80 %.";
        IntermediateFrame = 3, "intermediate-frame", "An intermediate frame: 60 %.";
        SingleLap = 4, "single-lap", "A single-lap sheet joint: 75 %.";
    }
}

impl SpliceMember {
    /// How many hundredths of the table's count, and where that stands.
    #[must_use]
    pub const fn percent(self) -> (u8, Basis) {
        match self {
            SpliceMember::Other => (100, Basis::AC43_SPLICES),
            SpliceMember::Stringer => (80, Basis::AC43_SPLICES_NOTE_A),
            SpliceMember::IntermediateFrame => (60, Basis::AC43_SPLICES_NOTE_B),
            SpliceMember::SingleLap => (75, Basis::AC43_SPLICES_NOTE_C),
        }
    }

    /// The rounding of the circular's worked example for such a member.
    #[must_use]
    pub const fn rounding(self) -> CountRounding {
        match self {
            SpliceMember::IntermediateFrame => CountRounding::BeforeAndAfter,
            SpliceMember::Other | SpliceMember::Stringer | SpliceMember::SingleLap => CountRounding::Once,
        }
    }
}

crate::words::words! {
    /// When a count is rounded up to whole rivets.
    #[non_exhaustive]
    CountRounding, "rounding of a count" {
        /// As in the lap joint of para 4-58g: 10 × 4.9 × 0.75 = 36.75, 37 rivets.
        Once = 1, "once", "After the reduction only.";
        /// As in the frame of figure 4-20: 0.6 × 6.2 = 3.72, 4; 60 % of 4 = 2.4, 3. Never fewer than [`CountRounding::Once`].
        BeforeAndAfter = 2, "before-and-after", "Before the reduction and after it.";
    }
}

/// Rivets over a width.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Count {
    /// An inch of width, after the reduction.
    pub per_inch: f64,
    /// Over the width before the reduction, not rounded.
    pub unreduced: f64,
    /// Whole rivets, on each side of the splice.
    pub total: u32,
    /// How it was rounded.
    pub rounding: CountRounding,
    /// Source of the reduction.
    pub basis: Basis,
}

/// Whole rivets over a width, reduced for the member.
///
/// `per_inch` is what [`PerInch::used`] holds. Use [`SpliceMember::rounding`] unless there is a reason not to.
///
/// # Errors
/// [`SpliceError::NotPositive`], [`SpliceError::LengthNotPositive`], [`SpliceError::OutOfRange`].
///
/// ```
/// use shophead::joint::splice::{SpliceMember, count};
/// use shophead::length::Length;
/// // AC 43.13-1B figure 4-20: the web of a frame, 2 in wide.
/// let member = SpliceMember::IntermediateFrame;
/// let web = count(6.2, Length::parse("2")?, member, member.rounding()).expect("a width");
/// assert_eq!(web.total, 8);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn count(
    per_inch: f64,
    width: Length,
    member: SpliceMember,
    rounding: CountRounding,
) -> Result<Count, SpliceError> {
    if !(per_inch.is_finite() && per_inch > 0.0) {
        return Err(SpliceError::NotPositive);
    }
    if width <= Length::ZERO {
        return Err(SpliceError::LengthNotPositive);
    }
    let (percent, basis) = member.percent();
    let part = f64::from(percent) / 100.0;
    let unreduced = per_inch * width.to_inches_f64();
    let before = match rounding {
        CountRounding::Once => unreduced,
        CountRounding::BeforeAndAfter => f64::from(whole(unreduced)?),
    };
    let total = whole(before * part)?;
    Ok(Count { per_inch: per_inch * part, unreduced, total, rounding, basis })
}

/// What is forgiven before a rivet is added, so that 10 × 0.75 × 6.0 in binary fractions is not 46 rivets.
const FORGIVEN: f64 = 1e-9;

/// Rounds up to whole rivets.
fn whole(rivets: f64) -> Result<u32, SpliceError> {
    let up = libm::ceil(rivets * (1.0 - FORGIVEN));
    if up >= 0.0 && up <= f64::from(u32::MAX) { Ok(up as u32) } else { Err(SpliceError::OutOfRange) }
}

/// The rivets that one's own strengths ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Needed {
    /// What the sheet carries without holes over the width.
    pub load: Force,
    /// Rivets an inch of width.
    pub per_inch: f64,
    /// Rivets over the width, not rounded.
    pub exact: f64,
    /// Whole rivets, on each side of the splice.
    pub total: u32,
}

/// Rivets that carry as much as the sheet: `stress × t × width / what one rivet carries`.
///
/// `stress` is the tensile strength of the sheet, or whatever the splice is designed for; `per_rivet` the allowable of
/// [`super::strength::strength`].
///
/// # Errors
/// [`SpliceError::NotPositive`], [`SpliceError::LengthNotPositive`], [`SpliceError::OutOfRange`].
///
/// ```
/// use shophead::joint::splice::needed;
/// use shophead::length::Length;
/// use shophead::quantity::{Force, Stress};
/// // A break 2-1/4 in long in .040 sheet at 75,000 psi, with rivets of 331 lbf.
/// let rivets = needed(Stress::from_ksi(75.0), Length::parse(".040")?, Length::parse("2-1/4")?, Force::from_lbf(331.0));
/// assert_eq!(rivets.expect("a splice").total, 21);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn needed(stress: Stress, thickness: Length, width: Length, per_rivet: Force) -> Result<Needed, SpliceError> {
    if thickness <= Length::ZERO || width <= Length::ZERO {
        return Err(SpliceError::LengthNotPositive);
    }
    let positive = stress.is_finite() && stress > Stress::ZERO && per_rivet.is_finite() && per_rivet > Force::ZERO;
    if !positive {
        return Err(SpliceError::NotPositive);
    }
    let load = modes::gross_section(stress, thickness, width);
    let exact = load.lbf() / per_rivet.lbf();
    // A load or a count that is no number has no whole rivets either.
    let total = whole(exact)?;
    Ok(Needed { load, per_inch: exact / width.to_inches_f64(), exact, total })
}

/// Rivets in equal rows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct EqualRows {
    /// How many rows.
    pub rows: u16,
    /// Rivets in each.
    pub per_row: u32,
    /// Rivets in all of them; not fewer than asked for.
    pub total: u32,
    /// The pitch if each rivet takes an equal part of the width, rounded down to the nanometre.
    pub pitch: Length,
}

/// Lays rivets out in equal rows across a width.
///
/// # Errors
/// [`SpliceError::NoRows`], [`SpliceError::NotPositive`] for no rivets, [`SpliceError::LengthNotPositive`],
/// [`SpliceError::OutOfRange`].
///
/// ```
/// use shophead::joint::splice::rows;
/// use shophead::length::Length;
/// // AC 43.13-1B para 4-58g: 37 rivets over 10 in become two equal rows of 19.
/// let laid = rows(37, 2, Length::parse("10")?).expect("a layout");
/// assert_eq!((laid.per_row, laid.total), (19, 38));
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn rows(rivets: u32, rows: u16, width: Length) -> Result<EqualRows, SpliceError> {
    if rows == 0 {
        return Err(SpliceError::NoRows);
    }
    if rivets == 0 {
        return Err(SpliceError::NotPositive);
    }
    if width <= Length::ZERO {
        return Err(SpliceError::LengthNotPositive);
    }
    let per_row = shared_among(rivets, u32::from(rows));
    let total = per_row.checked_mul(u32::from(rows)).ok_or(SpliceError::OutOfRange)?;
    let pitch = quotient(i128::from(width.nanometres()), i128::from(per_row));
    let pitch = i64::try_from(pitch).ok().and_then(Length::from_nanometres).ok_or(SpliceError::OutOfRange)?;
    Ok(EqualRows { rows, per_row, total, pitch })
}

impl EqualRows {
    /// From the side of the sheet to the first rivet of a row: half a pitch, so that each has an equal part of the width.
    #[must_use]
    pub fn first(&self) -> Length {
        self.pitch.times(1, 2)
    }
}

/// The fewest equal rows that hold so many rivets at a least pitch.
///
/// # Errors
/// As [`most_per_row`]; [`SpliceError::NotPositive`] where not even one rivet fits in a row.
///
/// ```
/// use shophead::joint::splice::fewest_rows;
/// use shophead::length::Length;
/// // 20 go into one row over 10 in at 1/2 in.
/// assert_eq!(fewest_rows(37, Length::parse("10")?, Length::parse("1/2")?), Ok(2));
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn fewest_rows(rivets: u32, width: Length, least_pitch: Length) -> Result<u16, SpliceError> {
    let most = most_per_row(width, least_pitch)?;
    if most == 0 || rivets == 0 {
        return Err(SpliceError::NotPositive);
    }
    u16::try_from(shared_among(rivets, most)).map_err(|_| SpliceError::OutOfRange)
}

/// How many each of these rows has at most; none of no rows. The standard library's own keeps its panic for no rows.
pub(crate) fn shared_among(rivets: u32, rows: u32) -> u32 {
    let even = rivets.checked_div(rows).unwrap_or(0);
    even.saturating_add(u32::from(even.saturating_mul(rows) < rivets && rows > 0))
}

/// The least lap of one side of a splice: an edge distance at both ends and the rows between them.
///
/// # Errors
/// [`SpliceError::NoRows`], [`SpliceError::LengthNotPositive`].
pub fn overlap(rows: u16, edge: Length, apart: Length) -> Result<Length, SpliceError> {
    let between = u32::from(rows.checked_sub(1).ok_or(SpliceError::NoRows)?);
    if edge <= Length::ZERO || apart <= Length::ZERO {
        return Err(SpliceError::LengthNotPositive);
    }
    Ok(edge.plus(edge).plus(apart.times(between, 1)))
}

/// How many rivets one row takes at a least pitch, each with an equal part of the width: 20 over 10 in at 1/2 in.
///
/// # Errors
/// [`SpliceError::LengthNotPositive`], [`SpliceError::OutOfRange`].
pub fn most_per_row(width: Length, least_pitch: Length) -> Result<u32, SpliceError> {
    if width <= Length::ZERO || least_pitch <= Length::ZERO {
        return Err(SpliceError::LengthNotPositive);
    }
    let most = quotient(i128::from(width.nanometres()), i128::from(least_pitch.nanometres()));
    u32::try_from(most).map_err(|_| SpliceError::OutOfRange)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_share_what_does_not_go_evenly_and_no_rows_nothing() {
        let shared = [(6, 3, 2), (7, 3, 3), (0, 3, 0), (1, 3, 1), (5, 0, 0), (0, 0, 0), (u32::MAX, 1, u32::MAX)];
        for (rivets, rows, each) in shared {
            assert_eq!(shared_among(rivets, rows), each, "{rivets} {rows}");
        }
    }
}
