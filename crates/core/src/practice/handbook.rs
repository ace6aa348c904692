//! Limits of the aviation authority's handbooks.
//!
//! AC 43.13-1B (Acceptable Methods, Techniques, and Practices) and FAA-H-8083-31 (Aviation Maintenance Technician Handbook,
//! Airframe), filled up from MIL-HDBK-5 to which they refer, from the Navy training manual NAVEDTRA 14018 and the Army
//! subcourse AL0992 where they give no figure. Where documents contradict each other, one that was read stands before one
//! that was recalled, and of two that are equally well supported the stricter; the other is named beside it.

use super::common::*;
use super::{Name, Rounding};
use crate::basis::Basis;
use crate::material::RivetAlloy;

#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // choosing a rivet
    diameters(Name::RuleOfThumbTail, ANY, 3, 2, Basis::FAA_31_F4_76),
    rounding(Name::LengthRounding, Rounding::Nearest, Basis::QUESTION_BANK_LENGTH),
    fraction(Name::DiameterPerThicknessTarget, ANY, 3, 1, Basis::AC43_DIAMETER),
    // driven heads; figure 4-97 was also recalled as 1.4 to 1.6 D by 0.4 to 0.65 D, and an examination question, whose authority is not
    // named, asks for at least 1.5 D by 0.5 D
    diameters(Name::HeadDiameterLeast, ANY, 13, 10, Basis::HDBK5H_DRIVEN_HEADS),
    diameters(Name::HeadDiameterLeast, of_alloy(RivetAlloy::Al7050), 14, 10, Basis::HDBK5H_DRIVEN_HEADS),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al1100), 166, 100, Basis::FAA_31_F4_97),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al2117), 166, 100, Basis::FAA_31_F4_97),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al5056), 166, 100, Basis::FAA_31_F4_97),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al2017), 166, 100, Basis::FAA_31_F4_97),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al2024), 150, 100, Basis::FAA_31_F4_97),
    diameters(Name::HeadHeightLeast, ANY, 3, 10, Basis::HDBK5H_DRIVEN_HEADS),
    // holes
    sized(Name::HoleDrill, 2, 670, Basis::NAVY_14018_T13_2),
    sized(Name::HoleDrill, 3, 980, Basis::FAA_31_DRILLS),
    sized(Name::HoleDrill, 4, 1285, Basis::FAA_31_DRILLS),
    sized(Name::HoleDrill, 5, 1590, Basis::FAA_31_DRILLS),
    sized(Name::HoleDrill, 6, 1910, Basis::FAA_31_DRILLS),
    sized(Name::HoleDrill, 8, 2570, Basis::FAA_31_DRILLS),
    sized(Name::HoleDrill, 10, 3230, Basis::NAVY_14018_T13_2),
    sized(Name::HoleDrill, 12, 3860, Basis::NAVY_14018_T13_2),
    // layout
    diameters(Name::EdgeDistanceLeast, PROTRUDING, 2, 1, Basis::AC43_EDGE),
    diameters(Name::EdgeDistanceLeast, FLUSH, 5, 2, Basis::ARMY_0992_LAYOUT),
    diameters_plus(Name::EdgeDistancePreferred, PROTRUDING, 2, 1, 4, Basis::FAA_31_LAYOUT),
    diameters_plus(Name::EdgeDistancePreferred, FLUSH, 5, 2, 4, Basis::FAA_31_LAYOUT),
    diameters(Name::EdgeDistanceGreatest, ANY, 4, 1, Basis::ARMY_0992_LAYOUT),
    diameters(Name::PitchLeast, PROTRUDING, 3, 1, Basis::AC43_EDGE),
    diameters(Name::PitchLeast, RowScope { rows: 2, ..PROTRUDING }, 4, 1, Basis::AC43_TWO_ROWS),
    // a protruding pitch of 3.5 D was recalled from the same chapter
    diameters(Name::PitchLeast, FLUSH, 4, 1, Basis::FAA_31_FLUSH_PITCH),
    diameters(Name::PitchLeast, RowScope { rows: 2, ..FLUSH }, 9, 2, Basis::FAA_31_LAYOUT),
    // NAVEDTRA 14018 says seldom over 8 D
    diameters(Name::PitchGreatest, ANY, 10, 1, Basis::ARMY_0992_LAYOUT),
];

const fn of_alloy(alloy: RivetAlloy) -> RowScope {
    RowScope { alloy: Some(alloy), ..ANY }
}
