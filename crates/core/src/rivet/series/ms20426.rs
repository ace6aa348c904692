//! MS20426, 100 degree flush head.
//!
//! Dimensions and letters as recalled of MS20426: the document was not seen. The height is a reference value. Shank +.003 -.001,
//! over 1/4 in +.004; there the largest shank is doubtful, since the drills of the process specification would not let it pass.

use super::{NAS1241, between, material, shank, thousandths};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{
    HalfMark, Head, HeadSize, LengthTolerance, MaterialLetter, NumberForm, Series, Size, StandardPlaces,
};

/// 100 degree flush head rivets.
pub static MS20426: Series<'static> = Series {
    name: "MS20426",
    also: &["NASM20426"],
    supersedes: &["AN426"],
    head: Head::Flush,
    form: NumberForm::MaterialFirst,
    materials: MATERIALS,
    finishes: &[],
    sizes: SIZES,
    length_tolerance: Some(LengthTolerance { either_way: thousandths(10), basis: Basis::MS20426_LENGTH_TOLERANCE }),
    half_lengths: Some(HalfMark::Point),
    oversize: Length::ZERO,
    oversize_series: Some(&NAS1241),
    standard_sizes: &[],
    basis: Basis::AC43_FLUSH,
    unknown: StandardPlaces {
        head: Basis::MS20426_HEAD_DIMENSIONS,
        shank: Basis::MS20426_SHANK_LIMITS,
        fit: Basis::MS20426_FIT,
    },
};

#[rustfmt::skip]
const MATERIALS: &[MaterialLetter<'static>] = &[
    material("A",  RivetAlloy::Al1100, Basis::AC43_T4_8_LETTERS),
    material("AD", RivetAlloy::Al2117, Basis::AC43_T4_8_LETTERS),
    material("B",  RivetAlloy::Al5056, Basis::AC43_T4_8_LETTERS),
    material("D",  RivetAlloy::Al2017, Basis::AC43_T4_8_LETTERS),
    material("DD", RivetAlloy::Al2024, Basis::AC43_T4_8_LETTERS),
    material("E",  RivetAlloy::Al7050, Basis::MS20426_MATERIAL_LETTERS),
];

/// Thousandths of an inch: nominal, least and greatest head diameter; head height for reference.
const fn head(nominal: u16, min: u16, max: u16, height: u16) -> HeadSize {
    HeadSize {
        diameter_nominal: thousandths(nominal),
        diameter: between(min, max),
        height_nominal: thousandths(height),
        height: None,
        basis: Basis::MS20426_DIMENSIONS,
    }
}

#[rustfmt::skip]
pub(super) const SIZES: &[Size] = &[
    // dash shank          head diameter   height
    shank( 2,  61,  65, head(114, 110, 118,  22), Basis::MS20426_DIMENSIONS),
    shank( 3,  93,  97, head(179, 175, 183,  36), Basis::MS20426_DIMENSIONS),
    shank( 4, 124, 128, head(225, 221, 229,  42), Basis::MS20426_DIMENSIONS),
    shank( 5, 155, 159, head(286, 282, 290,  55), Basis::MS20426_DIMENSIONS),
    shank( 6, 186, 190, head(353, 349, 357,  70), Basis::MS20426_DIMENSIONS),
    shank( 8, 249, 253, head(476, 472, 480,  95), Basis::MS20426_DIMENSIONS),
    shank(10, 311, 316, head(566, 562, 570, 106), Basis::MS20426_DOUBTFUL),
    shank(12, 374, 379, head(695, 691, 699, 134), Basis::MS20426_DOUBTFUL),
];
