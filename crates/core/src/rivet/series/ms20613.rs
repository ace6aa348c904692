//! MS20613, universal head, of steel.
//!
//! As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of
//! its sister standards.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// Universal head rivets of steel.
pub static MS20613: Series<'static> = Series {
    name: "MS20613",
    also: &[],
    supersedes: &[],
    head: Head::Universal,
    form: NumberForm::DiameterFirst,
    materials: MATERIALS,
    finishes: &[],
    sizes: SIZES,
    length_tolerance: None,
    half_lengths: None,
    oversize: Length::ZERO,
    oversize_series: None,
    standard_sizes: &[],
    basis: Basis::MS20613_SHEET,
    unknown: StandardPlaces {
        head: Basis::MS20613_HEAD_DIMENSIONS,
        shank: Basis::MS20613_SHANK_LIMITS,
        fit: Basis::MS20613_FIT,
    },
};

const MATERIALS: &[MaterialLetter<'static>] = &[
    material("P", RivetAlloy::CarbonSteel, Basis::MS20613_SHEET),
    material("C", RivetAlloy::CorrosionResistantSteel, Basis::MS20613_SHEET),
];

const SIZES: &[Size] = &[
    bare(2, Basis::MS20613_DIAMETERS),
    bare(3, Basis::MS20613_DIAMETERS),
    bare(4, Basis::MS20613_DIAMETERS),
    bare(5, Basis::MS20613_DIAMETERS),
    bare(6, Basis::MS20613_DIAMETERS),
    bare(8, Basis::MS20613_DIAMETERS),
    bare(10, Basis::MS20613_DIAMETERS),
    bare(12, Basis::MS20613_DIAMETERS),
];
