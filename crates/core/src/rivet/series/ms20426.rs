//! MS20426, 100 degree flush head.
//!
//! Dimensions and letters as recalled of MS20426: the document was not seen. The height is a reference value. Shank +.003 -.001,
//! over 1/4 in +.004.

use super::{NAS1241, between, material, shank, thousandths};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{HalfMark, Head, HeadSize, LengthTolerance, Material, NumberForm, Series, Size, Unknown};

const RECALLED: Basis<'static> = Basis::memory("MS20426", "dimensions");
const LETTERS: Basis<'static> = Basis::memory("MS20426", "material letters");

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
    length_tolerance: Some(LengthTolerance {
        either_way: thousandths(10),
        basis: Basis::memory("MS20426", "length tolerance"),
    }),
    half_lengths: Some(HalfMark::Point),
    oversize: Length::ZERO,
    oversize_series: Some(&NAS1241),
    basis: Basis::published("AC 43.13-1B", "para 4-57, p 4-16"),
    unknown: Unknown::of("MS20426"),
};

#[rustfmt::skip]
const MATERIALS: &[Material<'static>] = &[
    material("A",  RivetAlloy::Al1100, LETTERS),
    material("AD", RivetAlloy::Al2117, LETTERS),
    material("B",  RivetAlloy::Al5056, LETTERS),
    material("D",  RivetAlloy::Al2017, LETTERS),
    material("DD", RivetAlloy::Al2024, LETTERS),
    material("E",  RivetAlloy::Al7050, LETTERS),
];

/// Thousandths of an inch: nominal, least and greatest head diameter; head height for reference.
const fn head(nominal: u16, min: u16, max: u16, height: u16) -> HeadSize {
    HeadSize {
        diameter_nominal: thousandths(nominal),
        diameter: between(min, max),
        height_nominal: thousandths(height),
        height: None,
    }
}

#[rustfmt::skip]
const SIZES: &[Size<'static>] = &[
    // dash shank          head diameter   height
    shank( 2,  61,  65, head(114, 110, 118,  22), RECALLED),
    shank( 3,  93,  97, head(179, 175, 183,  36), RECALLED),
    shank( 4, 124, 128, head(225, 221, 229,  42), RECALLED),
    shank( 5, 155, 159, head(286, 282, 290,  55), RECALLED),
    shank( 6, 186, 190, head(353, 349, 357,  70), RECALLED),
    shank( 8, 249, 253, head(476, 472, 480,  95), RECALLED),
    shank(10, 311, 316, head(566, 562, 570, 106), RECALLED),
    shank(12, 374, 379, head(695, 691, 699, 134), RECALLED),
];
