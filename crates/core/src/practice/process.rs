//! Limits of the process specification.
//!
//! MIL-R-47196A (now NASM47196), Rivets, Buck Type, Preparation for and Installation of, with the strength handbook MIL-HDBK-5.
//! The specification could only be read in quotations: every row that was not among them is marked as memory, and a shop
//! replaces it from its own copy.

use super::common::*;
use super::{HeadScope, Name, Rounding};
use crate::basis::Basis;
use crate::material::RivetAlloy;

#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // choosing a rivet; the specification prints no length, so the handbook's rule is taken
    diameters(Name::RuleOfThumbTail, ANY, 3, 2, Basis::FAA_31_F4_76),
    rounding(Name::LengthRounding, Rounding::Nearest, Basis::QUESTION_BANK_LENGTH),
    fraction(Name::DiameterPerThicknessTarget, ANY, 3, 1, Basis::QUESTION_BANK_DIAMETER),
    // driven heads: least width, least height, greatest height; no greatest width is quoted
    sized(Name::HeadDiameterLeast, 2,  810, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadDiameterLeast, 3, 1220, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadDiameterLeast, 4, 1630, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadDiameterLeast, 5, 2030, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadDiameterLeast, 6, 2440, Basis::SPEC_47196_TABLE_3_NOT_SEEN),
    sized(Name::HeadDiameterLeast, 8, 3250, Basis::SPEC_47196_TABLE_3_NOT_SEEN),
    diameters(Name::HeadDiameterLeast, ANY, 13, 10, Basis::SPEC_47196_TABLE_3_NOT_SEEN),
    // 7050 needs a wider head whatever the diameter: named with the diameter so that it wins over the rows above
    hard(2, 14), hard(3, 14), hard(4, 14), hard(5, 14), hard(6, 14), hard(8, 14), hard(10, 14), hard(12, 14),
    sized(Name::HeadHeightLeast, 2, 250, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadHeightLeast, 3, 380, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadHeightLeast, 4, 500, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadHeightLeast, 5, 620, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadHeightLeast, 6, 750, Basis::SPEC_47196_TABLE_3_NOT_SEEN),
    sized(Name::HeadHeightLeast, 8, 1000, Basis::SPEC_47196_TABLE_3_NOT_SEEN),
    diameters(Name::HeadHeightLeast, ANY, 2, 5, Basis::SPEC_47196_TABLE_3_NOT_SEEN),
    sized(Name::HeadHeightGreatest, 3, 500, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadHeightGreatest, 4, 700, Basis::SPEC_47196_TABLE_3),
    sized(Name::HeadHeightGreatest, 5, 920, Basis::SPEC_47196_TABLE_3),
    diameters(Name::CrackFreeCircle, ANY, 11, 10, Basis::SPEC_47196_REJECTS),
    count(Name::CracksGreatest, ANY, 4, Basis::SPEC_47196_REJECTS),
    length(Name::FlushHeadProudGreatest, RowScope { head: Some(HeadScope::Flush), ..of_size(3) }, 60, Basis::SPEC_47196_SHAVING),
    // holes
    sized(Name::HoleDrill, 2,  670, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 3,  960, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 4, 1285, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 5, 1590, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 6, 1910, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 8, 2570, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 10, 3230, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleDrill, 12, 3860, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleLeast, 3, 930, Basis::SPEC_47196_TABLE_1),
    sized(Name::HoleGreatest, 3, 1030, Basis::SPEC_47196_TABLE_1),
    // layout: the design's own minima hold; these are the published ones that a design starts from
    length(Name::EdgeDistanceLeast, RowScope { head: Some(HeadScope::Protruding), ..of_size(3) }, 1560, Basis::SPEC_47196_EDGE),
    diameters(Name::EdgeDistanceLeast, PROTRUDING, 2, 1, Basis::ARMY_0992_LAYOUT),
    diameters(Name::EdgeDistanceLeast, FLUSH, 5, 2, Basis::ARMY_0992_LAYOUT),
    diameters(Name::PitchLeast, ANY, 3, 1, Basis::NAVY_14018_SPACING),
    diameters(Name::PitchGreatest, ANY, 8, 1, Basis::NAVY_14018_SPACING),
];

const fn hard(dash: u8, tenths: u8) -> Row {
    let scope = RowScope { alloy: Some(RivetAlloy::Al7050), ..of_size(dash) };
    diameters(Name::HeadDiameterLeast, scope, tenths, 10, Basis::HDBK5H_DRIVEN_HEADS)
}
