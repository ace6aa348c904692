//! MS20427, 100 degree flush head, of metals other than aluminium.
//!
//! As recalled: the document was not seen. Its dimensions are not known.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// 100 degree flush rivets of steel, nickel-copper or copper.
pub static MS20427: Series<'static> = Series {
    name: "MS20427",
    also: &[],
    supersedes: &["AN427"],
    head: Head::Flush,
    form: NumberForm::MaterialFirst,
    materials: MATERIALS,
    finishes: &[],
    sizes: SIZES,
    length_tolerance: None,
    half_lengths: None,
    oversize: Length::ZERO,
    oversize_series: None,
    standard_sizes: &[],
    basis: Basis::MS20427_SHEET,
    unknown: StandardPlaces {
        head: Basis::MS20427_HEAD_DIMENSIONS,
        shank: Basis::MS20427_SHANK_LIMITS,
        fit: Basis::MS20427_FIT,
    },
};

#[rustfmt::skip]
const MATERIALS: &[MaterialLetter<'static>] = &[
    material("",  RivetAlloy::CarbonSteel, Basis::AC43_T4_8_LETTERS),
    material("F", RivetAlloy::CorrosionResistantSteel, Basis::AC43_T4_8_LETTERS),
    material("M", RivetAlloy::NickelCopper, Basis::AC43_T4_8_LETTERS),
    material("C", RivetAlloy::Copper, Basis::AC43_T4_8_LETTERS),
];

const SIZES: &[Size] = &[
    bare(2, Basis::MS20427_SHEET),
    bare(3, Basis::MS20427_SHEET),
    bare(4, Basis::MS20427_SHEET),
    bare(5, Basis::MS20427_SHEET),
    bare(6, Basis::MS20427_SHEET),
    bare(8, Basis::MS20427_SHEET),
    bare(10, Basis::MS20427_SHEET),
    bare(12, Basis::MS20427_SHEET),
];
