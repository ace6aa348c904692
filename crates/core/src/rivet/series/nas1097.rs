//! NAS1097, 100 degree flush head of reduced size.
//!
//! Dimensions as recalled of NAS1097: the document was not seen, and the confidence is low (dash 3 is also recalled as .146 by .022). No
//! tolerance of head or length is known.

use super::{NAS1241, material, shank, thousandths};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{HalfMark, Head, HeadSize, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// 100 degree flush rivets with a reduced head.
pub static NAS1097: Series<'static> = Series {
    name: "NAS1097",
    also: &[],
    supersedes: &[],
    head: Head::ReducedFlush,
    form: NumberForm::MaterialFirst,
    materials: MATERIALS,
    finishes: &[],
    sizes: SIZES,
    length_tolerance: None,
    half_lengths: Some(HalfMark::Point),
    oversize: Length::ZERO,
    oversize_series: Some(&NAS1241),
    standard_sizes: &[],
    basis: Basis::NAS1097_PART_NUMBERS,
    unknown: StandardPlaces {
        head: Basis::NAS1097_HEAD_DIMENSIONS,
        shank: Basis::NAS1097_SHANK_LIMITS,
        fit: Basis::NAS1097_FIT,
    },
};

#[rustfmt::skip]
const MATERIALS: &[MaterialLetter<'static>] = &[
    material("AD", RivetAlloy::Al2117, Basis::NAS1097_PART_NUMBERS),
    material("D",  RivetAlloy::Al2017, Basis::NAS1097_MATERIAL_LETTERS),
    material("DD", RivetAlloy::Al2024, Basis::NAS1097_MATERIAL_LETTERS),
    material("KE", RivetAlloy::Al7050, Basis::NAS1097_MATERIAL_LETTERS),
];

/// Thousandths of an inch: head diameter, head height.
const fn head(diameter: u16, height: u16) -> HeadSize {
    HeadSize {
        diameter_nominal: thousandths(diameter),
        diameter: None,
        height_nominal: thousandths(height),
        height: None,
        basis: Basis::NAS1097_DIMENSIONS,
    }
}

#[rustfmt::skip]
const SIZES: &[Size] = &[
    // dash shank        head
    shank(3,  93,  97, head(141, 20), Basis::NAS1097_DIMENSIONS),
    shank(4, 124, 128, head(192, 28), Basis::NAS1097_DIMENSIONS),
    shank(5, 155, 159, head(243, 36), Basis::NAS1097_DIMENSIONS),
    shank(6, 186, 190, head(297, 46), Basis::NAS1097_DIMENSIONS),
    shank(8, 249, 253, head(393, 60), Basis::NAS1097_DIMENSIONS),
];
