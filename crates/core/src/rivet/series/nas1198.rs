//! NAS1198, universal head, of A-286.
//!
//! As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of
//! its sister standards.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// Universal head rivets of A-286.
pub static NAS1198: Series<'static> = Series {
    name: "NAS1198",
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
    basis: Basis::NAS1198_SHEET,
    unknown: StandardPlaces {
        head: Basis::NAS1198_HEAD_DIMENSIONS,
        shank: Basis::NAS1198_SHANK_LIMITS,
        fit: Basis::NAS1198_FIT,
    },
};

const MATERIALS: &[MaterialLetter<'static>] = &[material("", RivetAlloy::A286, Basis::NAS1198_SHEET)];

const SIZES: &[Size] = &[
    bare(2, Basis::NAS1198_DIAMETERS),
    bare(3, Basis::NAS1198_DIAMETERS),
    bare(4, Basis::NAS1198_DIAMETERS),
    bare(5, Basis::NAS1198_DIAMETERS),
    bare(6, Basis::NAS1198_DIAMETERS),
    bare(8, Basis::NAS1198_DIAMETERS),
    bare(10, Basis::NAS1198_DIAMETERS),
    bare(12, Basis::NAS1198_DIAMETERS),
];
