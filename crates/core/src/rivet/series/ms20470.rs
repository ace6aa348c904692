//! MS20470, universal head.
//!
//! Dimensions as recalled of MS20470: the document was not seen. Head 2 D wide, ±5 %; 0.43 D high, +.010 -0. Shank +.003 -.001, over
//! 1/4 in +.004; there the largest shank is doubtful, since the drills of the process specification would not let it pass. The shortest
//! lengths are those of the AN470 table; MS20470 allows others in steps of 1/16 in.

use super::{NAS1242, between, material, shank, thousandths};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{
    HalfMark, Head, HeadSize, LengthTolerance, MaterialLetter, NumberForm, Series, Size, StandardPlaces,
};

/// Universal head rivets.
pub static MS20470: Series<'static> = Series {
    name: "MS20470",
    also: &["NASM20470"],
    supersedes: &["AN430", "AN442", "AN455", "AN456", "AN470"],
    head: Head::Universal,
    form: NumberForm::MaterialFirst,
    materials: MATERIALS,
    finishes: &[],
    sizes: SIZES,
    length_tolerance: Some(LengthTolerance { either_way: thousandths(10), basis: Basis::MS20470_LENGTH_TOLERANCE }),
    half_lengths: Some(HalfMark::Point),
    oversize: Length::ZERO,
    oversize_series: Some(&NAS1242),
    standard_sizes: &[],
    basis: Basis::AC43_UNIVERSAL,
    unknown: StandardPlaces {
        head: Basis::MS20470_HEAD_DIMENSIONS,
        shank: Basis::MS20470_SHANK_LIMITS,
        fit: Basis::MS20470_FIT,
    },
};

/// In the order of the sheet, which names A, AD, B and E and keeps D and DD out of new designs.
#[rustfmt::skip]
const MATERIALS: &[MaterialLetter<'static>] = &[
    material("A",  RivetAlloy::Al1100, Basis::NAVY_14315_T3_1),
    material("AD", RivetAlloy::Al2117, Basis::NAVY_14315_T3_1),
    material("B",  RivetAlloy::Al5056, Basis::NAVY_14315_T3_1),
    material("E",  RivetAlloy::Al7050, Basis::MS20470_DESCRIPTION_SHEET),
    MaterialLetter { code: "D",  alloy: RivetAlloy::Al2017, new_design: false, basis: Basis::MS20470_DESCRIPTION_SHEET },
    MaterialLetter { code: "DD", alloy: RivetAlloy::Al2024, new_design: false, basis: Basis::MS20470_DESCRIPTION_SHEET },
];

/// Thousandths of an inch: nominal, least and greatest head diameter; nominal, least and greatest head height.
const fn head(nominal: u16, min: u16, max: u16, height: u16, height_min: u16, height_max: u16) -> HeadSize {
    HeadSize {
        diameter_nominal: thousandths(nominal),
        diameter: between(min, max),
        height_nominal: thousandths(height),
        height: between(height_min, height_max),
        basis: Basis::MS20470_DIMENSIONS,
    }
}

/// The shortest length of the AN470 table for diameters 2, 3 and 4 (AN470, diameter-length table, secondary quotation).
const FROM_3: Option<Length> = Some(Length::from_64ths(12));

#[rustfmt::skip]
pub(super) const SIZES: &[Size] = &[
    //            dash shank      head diameter       head height
    Size { shortest_tabulated: FROM_3, ..shank(2,  61,  65, head(125, 119, 131,  27,  27,  37), Basis::MS20470_DIMENSIONS) },
    Size { shortest_tabulated: FROM_3, ..shank(3,  93,  97, head(187, 178, 196,  40,  40,  50), Basis::MS20470_DIMENSIONS) },
    Size { shortest_tabulated: FROM_3, ..shank(4, 124, 128, head(250, 238, 262,  54,  54,  64), Basis::MS20470_DIMENSIONS) },
    shank( 5, 155, 159, head(312, 296, 328,  67,  67,  77), Basis::MS20470_DIMENSIONS),
    shank( 6, 186, 190, head(375, 356, 394,  80,  80,  90), Basis::MS20470_DIMENSIONS),
    shank( 8, 249, 253, head(500, 475, 525, 107, 107, 117), Basis::MS20470_DIMENSIONS),
    shank(10, 311, 316, head(625, 594, 656, 134, 134, 144), Basis::MS20470_DOUBTFUL),
    shank(12, 374, 379, head(750, 713, 787, 161, 161, 171), Basis::MS20470_DOUBTFUL),
];
