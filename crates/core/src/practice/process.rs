//! Limits of the process specification.
//!
//! MIL-R-47196A (now NASM47196), Rivets, Buck Type, Preparation for and Installation of, with the strength handbook MIL-HDBK-5.
//! The specification could only be read in quotations: every row that was not among them is marked as memory, and a shop
//! replaces it from its own copy.

use super::common::*;
use super::{HeadScope, Name, Rounding};
use crate::basis::Basis;
use crate::material::RivetAlloy;

const SPEC_TABLE_1: Basis<'static> =
    Basis::published("MIL-R-47196A", "para 3.2.1.3 and table I, 3/32 row, secondary quotation");
const SPEC_TABLE_3: Basis<'static> = Basis::published("MIL-R-47196A", "table III, secondary quotation");
const SPEC_TABLE_3_PATTERN: Basis<'static> =
    Basis::memory("MIL-R-47196A", "table III, this row not seen; the rows seen follow 1.3 D by 0.4 D");
const SPEC_CRACKS: Basis<'static> = Basis::published("MIL-R-47196A", "driven-head rejects, secondary quotation");
const HARD_ALLOY: Basis<'static> = Basis::published("MIL-HDBK-5H", "para 8.1.2, p 8-9");

#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // choosing a rivet
    diameters(Name::RuleOfThumbTail, ANY, 3, 2, &NAVY_SPACING),
    rounding(Name::LengthRounding, Rounding::Longer, &Basis::practice("to the next longer standard length")),
    fraction(Name::DiameterPerThicknessTarget, ANY, 3, 1, &Basis::published("FAA airframe question bank", "rivet diameter for a sheet, as reprinted")),
    // driven heads: least width, least height, greatest height; no greatest width is quoted
    sized(Name::HeadDiameterLeast, 2,  810, &SPEC_TABLE_3),
    sized(Name::HeadDiameterLeast, 3, 1220, &SPEC_TABLE_3),
    sized(Name::HeadDiameterLeast, 4, 1630, &SPEC_TABLE_3),
    sized(Name::HeadDiameterLeast, 5, 2030, &SPEC_TABLE_3),
    sized(Name::HeadDiameterLeast, 6, 2440, &SPEC_TABLE_3_PATTERN),
    sized(Name::HeadDiameterLeast, 8, 3250, &SPEC_TABLE_3_PATTERN),
    diameters(Name::HeadDiameterLeast, ANY, 13, 10, &SPEC_TABLE_3_PATTERN),
    // 7050 needs a wider head whatever the diameter: named with the diameter so that it wins over the rows above
    hard(2, 14), hard(3, 14), hard(4, 14), hard(5, 14), hard(6, 14), hard(8, 14), hard(10, 14), hard(12, 14),
    sized(Name::HeadHeightLeast, 2, 250, &SPEC_TABLE_3),
    sized(Name::HeadHeightLeast, 3, 380, &SPEC_TABLE_3),
    sized(Name::HeadHeightLeast, 4, 500, &SPEC_TABLE_3),
    sized(Name::HeadHeightLeast, 5, 620, &SPEC_TABLE_3),
    sized(Name::HeadHeightLeast, 6, 750, &SPEC_TABLE_3_PATTERN),
    sized(Name::HeadHeightLeast, 8, 1000, &SPEC_TABLE_3_PATTERN),
    diameters(Name::HeadHeightLeast, ANY, 2, 5, &SPEC_TABLE_3_PATTERN),
    sized(Name::HeadHeightGreatest, 3, 500, &SPEC_TABLE_3),
    sized(Name::HeadHeightGreatest, 4, 700, &SPEC_TABLE_3),
    sized(Name::HeadHeightGreatest, 5, 920, &SPEC_TABLE_3),
    diameters(Name::CrackFreeCircle, ANY, 11, 10, &SPEC_CRACKS),
    count(Name::CracksGreatest, ANY, 4, &SPEC_CRACKS),
    length(Name::FlushHeadProudGreatest, RowScope { head: Some(HeadScope::Flush), ..of_size(3) }, 60, &Basis::memory("MIL-R-47196A", "3/32 flush head before shaving, clause not named")),
    // holes
    sized(Name::HoleDrill, 2,  670, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 3,  960, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 4, 1285, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 5, 1590, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 6, 1910, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 8, 2570, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 10, 3230, &HDBK5_DRILLS),
    sized(Name::HoleDrill, 12, 3860, &HDBK5_DRILLS),
    sized(Name::HoleLeast, 3, 930, &SPEC_TABLE_1),
    sized(Name::HoleGreatest, 3, 1030, &SPEC_TABLE_1),
    // layout: the design's own minima hold; these are the published ones that a design starts from
    length(Name::EdgeDistanceLeast, RowScope { head: Some(HeadScope::Protruding), ..of_size(3) }, 1560, &Basis::published("MIL-R-47196A", "edge margin, universal head, 3/32 row, secondary quotation")),
    diameters(Name::EdgeDistanceLeast, PROTRUDING, 2, 1, &Basis::published("US Army AL0992", "Rivet Selection, Rivet Spacing and Edge Distance")),
    diameters(Name::EdgeDistanceLeast, FLUSH, 5, 2, &Basis::published("US Army AL0992", "Rivet Selection, Rivet Spacing and Edge Distance")),
    diameters(Name::PitchLeast, ANY, 3, 1, &NAVY_SPACING),
    diameters(Name::PitchGreatest, ANY, 8, 1, &NAVY_SPACING),
];

const fn hard(dash: u8, tenths: u8) -> Row {
    let scope = RowScope { alloy: Some(RivetAlloy::Al7050), ..of_size(dash) };
    diameters(Name::HeadDiameterLeast, scope, tenths, 10, &HARD_ALLOY)
}
