//! Single-shear strengths of driven solid rivets.
//!
//! MIL-HDBK-5H/5J and MMPDS-01, table 8.1.2(b): the cells that could be recalled; rows for 2017-T31 stood in earlier editions. Of 2117 the
//! cell of 5/32 was read in a quotation of the table, and that of 1/8 as the most that a tested flush joint carries. Every cell lies within
//! 0.4 % of shear stress times the area of the table's own hole. A cell is a ceiling: what a rivet carries is worked out from figures that
//! were read, and never counted higher than the cell.

use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::{Force, Stress};

/// One cell of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct ShearCell {
    /// Rivet alloy and its temper after driving.
    pub alloy_temper: &'static str,
    /// The letters in the part number.
    pub code: &'static str,
    /// Ultimate shear stress of the driven rivet.
    pub driven_shear: Stress,
    /// Nominal rivet diameter.
    pub rivet: Length,
    /// Ultimate load in single shear.
    pub ultimate: Force,
    /// Source of the cell.
    pub basis: Basis,
}

const fn cell(
    alloy_temper: &'static str,
    code: &'static str,
    ksi: f64,
    rivet_64ths: i16,
    lbf: f64,
    basis: Basis,
) -> ShearCell {
    ShearCell {
        alloy_temper,
        code,
        driven_shear: Stress::from_ksi(ksi),
        rivet: Length::from_64ths(rivet_64ths),
        ultimate: Force::from_lbf(lbf),
        basis,
    }
}

/// The recalled cells. Alloy and temper, code, driven shear in ksi, rivet in sixty-fourths of an inch, pounds force.
#[rustfmt::skip]
pub const CELLS: &[ShearCell] = &[
    cell("5056-H32", "B", 28.0, 4, 99.0, Basis::HDBK5J_T8_1_2B), // 1/16
    cell("5056-H32", "B", 28.0, 6, 203.0, Basis::HDBK5J_T8_1_2B), // 3/32
    cell("5056-H32", "B", 28.0, 24, 3275.0, Basis::HDBK5J_T8_1_2B), // 3/8
    cell("2117-T3", "AD", 30.0, 4, 106.0, Basis::HDBK5J_T8_1_2B), // 1/16
    cell("2117-T3", "AD", 30.0, 8, 388.0, Basis::HDBK5F_FLUSH_CAP), // 1/8
    cell("2117-T3", "AD", 30.0, 10, 596.0, Basis::MMPDS_T8_1_2B), // 5/32
    cell("2117-T3", "AD", 30.0, 12, 862.0, Basis::HDBK5J_T8_1_2B), // 3/16
    cell("2117-T3", "AD", 30.0, 20, 2460.0, Basis::HDBK5J_T8_1_2B), // 5/16
    cell("2117-T3", "AD", 30.0, 24, 3510.0, Basis::HDBK5J_T8_1_2B), // 3/8
    cell("2017-T31", "D", 34.0, 4, 120.0, Basis::HDBK5_EARLIER_T8_1_2B), // 1/16
    cell("2017-T31", "D", 34.0, 6, 247.0, Basis::HDBK5_EARLIER_T8_1_2B), // 3/32
    cell("2017-T31", "D", 34.0, 8, 442.0, Basis::HDBK5_EARLIER_T8_1_2B), // 1/8
    cell("2017-T31", "D", 34.0, 10, 675.0, Basis::HDBK5_EARLIER_T8_1_2B), // 5/32
    cell("2017-T31", "D", 34.0, 16, 1765.0, Basis::HDBK5_EARLIER_T8_1_2B), // 1/4
    cell("2017-T31", "D", 34.0, 20, 2785.0, Basis::HDBK5_EARLIER_T8_1_2B), // 5/16
    cell("2017-T3", "D", 38.0, 4, 134.0, Basis::HDBK5J_T8_1_2B), // 1/16
    cell("2017-T3", "D", 38.0, 8, 494.0, Basis::HDBK5J_T8_1_2B), // 1/8
    cell("2017-T3", "D", 38.0, 12, 1090.0, Basis::HDBK5J_T8_1_2B), // 3/16
    cell("2017-T3", "D", 38.0, 16, 1970.0, Basis::HDBK5J_T8_1_2B), // 1/4
    cell("2017-T3", "D", 38.0, 20, 3115.0, Basis::HDBK5J_T8_1_2B), // 5/16
    cell("2017-T3", "D", 38.0, 24, 4445.0, Basis::HDBK5J_T8_1_2B), // 3/8
    cell("2024-T31", "DD", 41.0, 6, 296.0, Basis::HDBK5J_T8_1_2B), // 3/32
    cell("2024-T31", "DD", 41.0, 10, 815.0, Basis::HDBK5J_T8_1_2B), // 5/32
    cell("2024-T31", "DD", 41.0, 12, 1175.0, Basis::HDBK5J_T8_1_2B), // 3/16
    cell("2024-T31", "DD", 41.0, 20, 3360.0, Basis::HDBK5J_T8_1_2B), // 5/16
    cell("2024-T31", "DD", 41.0, 24, 4800.0, Basis::HDBK5J_T8_1_2B), // 3/8
    cell("7050-T73", "E/KE", 43.0, 4, 152.0, Basis::HDBK5J_T8_1_2B), // 1/16
    cell("7050-T73", "E/KE", 43.0, 8, 558.0, Basis::HDBK5J_T8_1_2B), // 1/8
    cell("7050-T73", "E/KE", 43.0, 12, 1230.0, Basis::HDBK5J_T8_1_2B), // 3/16
    cell("7050-T73", "E/KE", 43.0, 16, 2230.0, Basis::HDBK5J_T8_1_2B), // 1/4
    cell("7050-T73", "E/KE", 43.0, 20, 3525.0, Basis::HDBK5J_T8_1_2B), // 5/16
    cell("7050-T73", "E/KE", 43.0, 24, 5030.0, Basis::HDBK5J_T8_1_2B), // 3/8
];

/// The cell for a driven shear stress and a nominal rivet diameter, where one was recalled.
#[must_use]
pub fn shear_cell(driven_shear: Stress, rivet: Length) -> Option<&'static ShearCell> {
    CELLS.iter().find(|cell| cell.driven_shear == driven_shear && cell.rivet == rivet)
}
