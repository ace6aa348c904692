//! The sheet materials that a document names, whether or not it gives strengths for them.
//!
//! First MIL-HDBK-5J (31 January 2003), tables 3.2.3.0(b1) to 3.7.6.0(c2), in printed order, each material with the first table in which
//! it stands; a column for two tempers makes two materials. Then what AC 43.13-1B, tables 4-9 to 4-11, names beyond those: strengths
//! for them were not read; so too of 2024-O, whose bends table 4-6 gives, and of the extrusions and the steel of a spar, which are named from
//! memory. An empty temper stands where the table names none: 2017, 5052 in all hardnesses, 4130.

use super::named::Named;
use crate::basis::Basis;

const fn named(alloy: &'static str, temper: &'static str, clad: bool, basis: Basis) -> Named {
    Named {
        alloy,
        temper,
        clad,
        basis,
        #[cfg(target_pointer_width = "64")]
        columns: super::named::columns(alloy, temper, clad),
    }
}

/// Every material known by name.
#[rustfmt::skip]
pub(super) const NAMES: &[Named] = &[
    // alloy, temper, clad, where it is named
    named("2024", "T3", false, Basis::HDBK5J_T3_2_3_0_B1),
    named("2024", "T351", false, Basis::HDBK5J_T3_2_3_0_B1),
    named("2024", "T361", false, Basis::HDBK5J_T3_2_3_0_B1),
    named("2024", "T4", false, Basis::HDBK5J_T3_2_3_0_B2),
    named("2024", "T42", false, Basis::HDBK5J_T3_2_3_0_B2),
    named("2024", "T62", false, Basis::HDBK5J_T3_2_3_0_B2),
    named("2024", "T81", false, Basis::HDBK5J_T3_2_3_0_B3),
    named("2024", "T3", true, Basis::HDBK5J_T3_2_3_0_E1),
    named("2024", "T351", true, Basis::HDBK5J_T3_2_3_0_E1),
    named("2024", "T361", true, Basis::HDBK5J_T3_2_3_0_E2),
    named("2024", "T4", true, Basis::HDBK5J_T3_2_3_0_E2),
    named("2024", "T42", true, Basis::HDBK5J_T3_2_3_0_E3),
    named("2024", "T62", true, Basis::HDBK5J_T3_2_3_0_E3),
    named("2024", "T81", true, Basis::HDBK5J_T3_2_3_0_E4),
    named("5052", "O", false, Basis::HDBK5J_T3_5_1_0_B1),
    named("5052", "H32", false, Basis::HDBK5J_T3_5_1_0_B1),
    named("5052", "H34", false, Basis::HDBK5J_T3_5_1_0_B1),
    named("5052", "H36", false, Basis::HDBK5J_T3_5_1_0_B1),
    named("5052", "H38", false, Basis::HDBK5J_T3_5_1_0_B1),
    named("6061", "T4", false, Basis::HDBK5J_T3_6_2_0_B1),
    named("6061", "T42", false, Basis::HDBK5J_T3_6_2_0_B1),
    named("6061", "T6", false, Basis::HDBK5J_T3_6_2_0_B1),
    named("6061", "T62", false, Basis::HDBK5J_T3_6_2_0_B1),
    named("7075", "T6", false, Basis::HDBK5J_T3_7_6_0_B1),
    named("7075", "T62", false, Basis::HDBK5J_T3_7_6_0_B1),
    named("7075", "T651", false, Basis::HDBK5J_T3_7_6_0_B1),
    named("7075", "T73", false, Basis::HDBK5J_T3_7_6_0_B3),
    named("7075", "T76", false, Basis::HDBK5J_T3_7_6_0_B4),
    named("7075", "T6", true, Basis::HDBK5J_T3_7_6_0_C1),
    named("7075", "T62", true, Basis::HDBK5J_T3_7_6_0_C2),
    named("2014", "T6", false, Basis::AC43_T4_9),
    named("2014", "T6", true, Basis::AC43_T4_9),
    named("2017", "", false, Basis::AC43_T4_10),
    named("2017", "", true, Basis::AC43_T4_10),
    named("2024", "T36", false, Basis::AC43_T4_9),
    named("2024", "T36", true, Basis::AC43_T4_9),
    named("5052", "", false, Basis::AC43_T4_11),
    named("2024", "O", false, Basis::AC43_T4_6),
    named("2024", "O", true, Basis::AC43_T4_6),
    named("2024", "T3511", false, Basis::EXTRUSION_2024),
    named("7075", "T6511", false, Basis::EXTRUSION_7075),
    named("4130", "", false, Basis::SHEET_4130),
];
