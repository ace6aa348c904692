//! NAS1242, universal head, shank 1/64 in over the standard size: the step up from MS20470.
//!
//! As recalled of NAS1242: the document was not seen. Which dash numbers and lengths it tabulates, whether it has half lengths, and the
//! dimensions of its head are not known. Shank: nominal and 1/64 in, with the tolerance of the standard shank.

use super::{OVERSIZE_STEP, material, oversize};
use crate::basis::Basis;
use crate::material::RivetAlloy;
use crate::rivet::{Head, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// Universal head rivets with a shank 1/64 in over size.
pub static NAS1242: Series<'static> = Series {
    name: "NAS1242",
    also: &[],
    supersedes: &[],
    head: Head::Universal,
    form: NumberForm::MaterialFirst,
    materials: MATERIALS,
    finishes: &[],
    sizes: SIZES,
    length_tolerance: None,
    half_lengths: None,
    oversize: OVERSIZE_STEP,
    oversize_series: None,
    standard_sizes: super::ms20470::SIZES,
    basis: Basis::NAS1242_SHEET,
    unknown: StandardPlaces {
        head: Basis::NAS1242_HEAD_DIMENSIONS,
        shank: Basis::NAS1242_SHANK_LIMITS,
        fit: Basis::NAS1242_FIT,
    },
};

/// Other alloys exist; their letters are not known.
const MATERIALS: &[MaterialLetter<'static>] = &[material("AD", RivetAlloy::Al2117, Basis::NAS1242_MATERIAL_LETTERS)];

const SIZES: &[Size] = &[
    oversize(3, Basis::NAS1242_OVERSIZE),
    oversize(4, Basis::NAS1242_OVERSIZE),
    oversize(5, Basis::NAS1242_OVERSIZE),
    oversize(6, Basis::NAS1242_OVERSIZE),
    oversize(8, Basis::NAS1242_OVERSIZE),
];
