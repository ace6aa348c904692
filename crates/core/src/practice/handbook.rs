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

const AC_EDGE: Basis<'static> = Basis::published("AC 43.13-1B", "para 4-57c(1), secondary quotation");
const FAA_LAYOUT: Basis<'static> = Basis::memory("FAA-H-8083-31", "ch 4, rivet layout figures");
const FAA_DRILLS: Basis<'static> = Basis::memory("FAA-H-8083-31", "ch 4, table of drill sizes for standard rivets");
const FAA_DRIVEN: Basis<'static> = Basis::memory("FAA-H-8083-31", "ch 4 fig 4-97, driven rivet standards");
const ARMY_LAYOUT: Basis<'static> =
    Basis::published("US Army AL0992", "Rivet Selection, Rivet Spacing and Edge Distance");
const HDBK5_HEADS: Basis<'static> = Basis::published("MIL-HDBK-5H", "para 8.1.2, p 8-9");

#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // choosing a rivet
    diameters(Name::RuleOfThumbTail, ANY, 3, 2, &Basis::published("FAA-H-8083-31", "ch 4 fig 4-76; also NAVEDTRA 14018 ch 13")),
    rounding(Name::LengthRounding, Rounding::Nearest, &Basis::published("FAA airframe question bank", "rivet length for two sheets of .032, as reprinted")),
    fraction(Name::DiameterPerThicknessTarget, ANY, 3, 1, &Basis::published("AC 43.13-1B", "para 4-58g(2)(a), p 4-27")),
    // driven heads; figure 4-97 was also recalled as 1.4 to 1.6 D by 0.4 to 0.65 D, and an examination question, whose authority is not
    // named, asks for at least 1.5 D by 0.5 D
    diameters(Name::HeadDiameterLeast, ANY, 13, 10, &HDBK5_HEADS),
    diameters(Name::HeadDiameterLeast, of_alloy(RivetAlloy::Al7050), 14, 10, &HDBK5_HEADS),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al1100), 166, 100, &FAA_DRIVEN),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al2117), 166, 100, &FAA_DRIVEN),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al5056), 166, 100, &FAA_DRIVEN),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al2017), 166, 100, &FAA_DRIVEN),
    diameters(Name::HeadDiameterGreatest, of_alloy(RivetAlloy::Al2024), 150, 100, &FAA_DRIVEN),
    diameters(Name::HeadHeightLeast, ANY, 3, 10, &HDBK5_HEADS),
    // holes
    sized(Name::HoleDrill, 2, 670, &Basis::memory("NAVEDTRA 14018", "table 13-2")),
    sized(Name::HoleDrill, 3, 980, &FAA_DRILLS),
    sized(Name::HoleDrill, 4, 1285, &FAA_DRILLS),
    sized(Name::HoleDrill, 5, 1590, &FAA_DRILLS),
    sized(Name::HoleDrill, 6, 1910, &FAA_DRILLS),
    sized(Name::HoleDrill, 8, 2570, &FAA_DRILLS),
    sized(Name::HoleDrill, 10, 3230, &Basis::memory("NAVEDTRA 14018", "table 13-2")),
    sized(Name::HoleDrill, 12, 3860, &Basis::memory("NAVEDTRA 14018", "table 13-2")),
    // layout
    diameters(Name::EdgeDistanceLeast, PROTRUDING, 2, 1, &AC_EDGE),
    diameters(Name::EdgeDistanceLeast, FLUSH, 5, 2, &ARMY_LAYOUT),
    diameters_plus(Name::EdgeDistancePreferred, PROTRUDING, 2, 1, 4, &FAA_LAYOUT),
    diameters_plus(Name::EdgeDistancePreferred, FLUSH, 5, 2, 4, &FAA_LAYOUT),
    diameters(Name::EdgeDistanceGreatest, ANY, 4, 1, &ARMY_LAYOUT),
    diameters(Name::PitchLeast, PROTRUDING, 3, 1, &AC_EDGE),
    diameters(Name::PitchLeast, RowScope { rows: 2, ..PROTRUDING }, 4, 1, &Basis::published("AC 43.13-1B", "para 4-58g(2)(c), p 4-27, derived from its example")),
    // a protruding pitch of 3.5 D was recalled from the same chapter
    diameters(Name::PitchLeast, FLUSH, 4, 1, &Basis::memory("FAA-H-8083-31", "ch 4, rivet spacing; its layout figure recalled as 3.5 D")),
    diameters(Name::PitchLeast, RowScope { rows: 2, ..FLUSH }, 9, 2, &FAA_LAYOUT),
    // NAVEDTRA 14018 says seldom over 8 D
    diameters(Name::PitchGreatest, ANY, 10, 1, &ARMY_LAYOUT),
];

const fn of_alloy(alloy: RivetAlloy) -> RowScope {
    RowScope { alloy: Some(alloy), ..ANY }
}
