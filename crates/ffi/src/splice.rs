//! How many rivets a splice needs, by the published tables and by one's own strengths.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::joint::splice::{self, Critical, Fastener, SpliceMember, SpliceTable, per_inch, tables, tables_hold_for};
use shophead::quantity::Stress;

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::force::{finite, force};
use crate::length::length;
use crate::material::material;
use crate::numbers::{numbered, value_of};
use crate::part::shophead_part;

/// A splice table of AC 43.13-1B.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_table {
    /// No table.
    SHOPHEAD_TABLE_NONE = 0,
    /// 4-9: bare and clad 2014-T6, 2024-T3, 2024-T36 and 7075-T6 sheet.
    SHOPHEAD_TABLE_4_9 = 1,
    /// 4-10: 2017, clad 2017 and clad 2024-T3.
    SHOPHEAD_TABLE_4_10 = 2,
    /// 4-11: 5052 sheet of every hardness.
    SHOPHEAD_TABLE_4_11 = 3,
}

numbered! {
    SpliceTable, shophead_table [
        T4_9 = SHOPHEAD_TABLE_4_9,
        T4_10 = SHOPHEAD_TABLE_4_10,
        T4_11 = SHOPHEAD_TABLE_4_11,
    ] else shophead_table::SHOPHEAD_TABLE_NONE
}

/// The tables for a material.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_tables {
    /// The one to use: where two name the material, the one that asks for more rivets.
    pub first: shophead_table,
    /// Another one that names it too, or none.
    pub also: shophead_table,
}

/// Which table names a material.
///
/// Takes: `material`, a number from `shophead_material_parse`. Writes: `tables`.
///
/// Errors: `SHOPHEAD_ERROR_NO_SPLICE_TABLE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_splice_tables(material: u32, tables: Out<shophead_tables>) -> shophead_error {
    answer(|| {
        let place = tables.place()?;
        let sheet = self::material(material)?;
        let found =
            self::tables(sheet.alloy(), sheet.temper(), sheet.is_clad()).ok_or(E::SHOPHEAD_ERROR_NO_SPLICE_TABLE)?;
        place.put(shophead_tables {
            first: found.first.into(),
            also: found.also.map_or(shophead_table::SHOPHEAD_TABLE_NONE, Into::into),
        });
        Ok(())
    })
}

/// What decides a count.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_critical {
    /// Shear of the rivet.
    SHOPHEAD_CRITICAL_SHEAR = 1,
    /// Bearing of the sheet.
    SHOPHEAD_CRITICAL_BEARING = 2,
}

numbered! {
    Critical, shophead_critical [
        Shear = SHOPHEAD_CRITICAL_SHEAR,
        Bearing = SHOPHEAD_CRITICAL_BEARING,
    ]
}

/// Rivets an inch of width, before any reduction.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_per_inch {
    /// The cell as printed; 0 where the table has none.
    pub printed: f64,
    /// What the rule of the table gives.
    pub formula: f64,
    /// The count to use: the printed cell, or the formula rounded to the printed decimal where that is more; 0 where nothing is printed:
    /// the table offers no figure there.
    pub used: f64,
    /// What decides the formula.
    pub critical: shophead_critical,
    /// What the count to use rests on.
    pub basis: shophead_basis,
}

/// Rivets an inch of width by a published table.
///
/// Takes: `table`, one of `enum shophead_table`; `thickness_nm` of the sheet; `part`, the caller's, whose length does not matter. Writes:
/// `per_inch`.
///
/// Errors: `SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET`: the tables are for 2117 rivets with protruding heads; those named
/// `SHOPHEAD_ERROR_SPLICE_...`; those of a part; `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_splice_per_inch(
    table: u32,
    thickness_nm: i64,
    part: In<shophead_part>,
    per_inch: Out<shophead_per_inch>,
) -> shophead_error {
    answer(|| {
        let place = per_inch.place()?;
        let rivet = part.one()?.read()?;
        if !tables_hold_for(rivet.alloy(), rivet.series().head) {
            return Err(E::SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET);
        }
        let found =
            self::per_inch(value_of::<SpliceTable>(table)?, length(thickness_nm)?, Fastener::Rivet(rivet.diameter()))?;
        place.put(shophead_per_inch {
            printed: found.printed.unwrap_or(0.0),
            formula: found.formula,
            used: found.used.unwrap_or(0.0),
            critical: found.critical.into(),
            basis: shophead_basis::of(found.basis, &[]),
        });
        Ok(())
    })
}

/// The member that is spliced, which decides how much of the table's count it needs.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_splice_member {
    /// Anything the notes of the tables do not name: the whole count.
    SHOPHEAD_SPLICE_OTHER = 1,
    /// A stringer in the upper surface of a wing or in a fuselage: 80 %.
    SHOPHEAD_SPLICE_STRINGER = 2,
    /// An intermediate frame: 60 %.
    SHOPHEAD_SPLICE_INTERMEDIATE_FRAME = 3,
    /// A single-lap sheet joint: 75 %.
    SHOPHEAD_SPLICE_SINGLE_LAP = 4,
}

numbered! {
    SpliceMember, shophead_splice_member [
        Other = SHOPHEAD_SPLICE_OTHER,
        Stringer = SHOPHEAD_SPLICE_STRINGER,
        IntermediateFrame = SHOPHEAD_SPLICE_INTERMEDIATE_FRAME,
        SingleLap = SHOPHEAD_SPLICE_SINGLE_LAP,
    ] else shophead_splice_member::SHOPHEAD_SPLICE_OTHER
}

/// Rivets over a width.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_count {
    /// An inch of width, after the reduction.
    pub per_inch: f64,
    /// Over the width before the reduction, not rounded.
    pub unreduced: f64,
    /// Whole rivets, on each side of the splice.
    pub total: u32,
    /// Not used; 0.
    pub unused: u32,
    /// Source of the reduction.
    pub basis: shophead_basis,
}

/// Whole rivets over a width, reduced and rounded as the notes and examples of the tables do for the member.
///
/// Takes: `per_inch`, the count to use from `shophead_splice_per_inch`; `width_nm`; `member`, one of `enum shophead_splice_member`.
/// Writes: `count`.
///
/// Errors: those named `SHOPHEAD_ERROR_SPLICE_...`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_FINITE`,
/// `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_splice_count(
    per_inch: f64,
    width_nm: i64,
    member: u32,
    count: Out<shophead_count>,
) -> shophead_error {
    answer(|| {
        let place = count.place()?;
        let member = value_of::<SpliceMember>(member)?;
        let found = splice::count(finite(per_inch)?, length(width_nm)?, member, member.rounding())?;
        place.put(shophead_count {
            per_inch: found.per_inch,
            unreduced: found.unreduced,
            total: found.total,
            unused: 0,
            basis: shophead_basis::of(found.basis, &[]),
        });
        Ok(())
    })
}

/// The rivets that one's own strengths ask for.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct shophead_needed {
    /// What the sheet carries without holes over the width, in pounds.
    pub load_lbf: f64,
    /// Rivets an inch of width.
    pub per_inch: f64,
    /// Rivets over the width, not rounded.
    pub exact: f64,
    /// Whole rivets, on each side of the splice.
    pub total: u32,
    /// Not used; 0.
    pub unused: u32,
}

/// Rivets that carry as much as the sheet: `stress × thickness × width / what one rivet carries`.
///
/// Takes: `stress_psi`, from `shophead_material_tension` or what the splice is designed for; `thickness_nm`; `width_nm`; `per_rivet_lbf`,
/// the allowable from `shophead_strength_find`. Writes: `needed`.
///
/// Errors: those named `SHOPHEAD_ERROR_SPLICE_...`, `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_splice_needed(
    stress_psi: f64,
    thickness_nm: i64,
    width_nm: i64,
    per_rivet_lbf: f64,
    needed: Out<shophead_needed>,
) -> shophead_error {
    answer(|| {
        let place = needed.place()?;
        let stress = Stress::from_psi(finite(stress_psi)?);
        let found = splice::needed(stress, length(thickness_nm)?, length(width_nm)?, force(per_rivet_lbf)?)?;
        place.put(shophead_needed {
            load_lbf: found.load.lbf(),
            per_inch: found.per_inch,
            exact: found.exact,
            total: found.total,
            unused: 0,
        });
        Ok(())
    })
}

/// Rivets in equal rows.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_laid {
    /// Rivets in each row.
    pub per_row: u32,
    /// Rivets in all rows; not fewer than asked for.
    pub total: u32,
    /// The pitch if each rivet takes an equal part of the width, rounded down to the nanometre.
    pub pitch_nm: i64,
    /// From the side of the sheet to the first rivet of a row.
    pub first_nm: i64,
}

/// Lays rivets out in equal rows across a width.
///
/// Takes: `rivets`; `rows`, 1 to 65535; `width_nm`. Writes: `laid`.
///
/// Errors: those named `SHOPHEAD_ERROR_SPLICE_...`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_splice_lay(
    rivets: u32,
    rows: u32,
    width_nm: i64,
    laid: Out<shophead_laid>,
) -> shophead_error {
    answer(|| {
        let place = laid.place()?;
        let rows = u16::try_from(rows).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
        let found = splice::rows(rivets, rows, length(width_nm)?)?;
        place.put(shophead_laid {
            per_row: found.per_row,
            total: found.total,
            pitch_nm: found.pitch.nanometres(),
            first_nm: found.first().nanometres(),
        });
        Ok(())
    })
}
