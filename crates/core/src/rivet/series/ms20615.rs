//! MS20615, universal head, of nickel-copper or copper.
//!
//! As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of
//! its sister standards.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// Universal head rivets of nickel-copper or copper.
pub static MS20615: Series<'static> = Series {
    name: "MS20615",
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
    basis: Basis::MS20615_SHEET,
    unknown: StandardPlaces {
        head: Basis::MS20615_HEAD_DIMENSIONS,
        shank: Basis::MS20615_SHANK_LIMITS,
        fit: Basis::MS20615_FIT,
    },
};

const MATERIALS: &[MaterialLetter<'static>] = &[
    material("M", RivetAlloy::NickelCopper, Basis::MS20615_SHEET),
    material("CU", RivetAlloy::Copper, Basis::MS20615_SHEET),
];

const SIZES: &[Size] = &[
    bare(2, Basis::MS20615_DIAMETERS),
    bare(3, Basis::MS20615_DIAMETERS),
    bare(4, Basis::MS20615_DIAMETERS),
    bare(5, Basis::MS20615_DIAMETERS),
    bare(6, Basis::MS20615_DIAMETERS),
    bare(8, Basis::MS20615_DIAMETERS),
    bare(10, Basis::MS20615_DIAMETERS),
    bare(12, Basis::MS20615_DIAMETERS),
];
