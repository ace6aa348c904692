//! Limits of the aviation authority's handbooks.
//!
//! AC 43.13-1B (Acceptable Methods, Techniques, and Practices), chapters 4 to 7, and FAA-H-8083-31B (Aviation Maintenance Technician
//! Handbook, Airframe), pages 4-85 to 4-96, both read; figures of them that were not in the text stay recalled. The least driven head is
//! that of MIL-HDBK-5, to which they refer. Where they are silent the process specification is taken.

use super::Name;
use super::common::*;
use crate::basis::Basis;
use crate::material::RivetAlloy;

#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // driven heads; an examination question, whose authority is not named, asks for at least 1.5 D by 0.5 D
    diameters(Name::HeadDiameterLeast, ANY, 13, 10, Basis::HDBK5H_DRIVEN_HEADS),
    diameters(Name::HeadDiameterLeast, of_alloy(RivetAlloy::Al7050), 14, 10, Basis::HDBK5H_DRIVEN_HEADS),
    diameters(Name::HeadHeightLeast, ANY, 3, 10, Basis::HDBK5H_DRIVEN_HEADS),
    // the circular takes no crack at all; the handbook prints what it would take, beside it
    count(Name::CracksGreatest, ANY, 0, Basis::AC43_CRACKED_RIVETS),
    diameters(Name::CrackWithinCircle, ANY, 5, 4, Basis::FAA_31B_CRACKED_HEADS),
    count(Name::ManufacturedCracksGreatest, ANY, 0, Basis::AC43_CRACKED_RIVETS),
];
