//! MS20615, universal head, of nickel-copper or copper.
//!
//! As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of
//! its sister standards.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, Material, NumberForm, Series, Size, Unknown};

const RECALLED: Basis<'static> = Basis::memory("MS20615", "");
const DIAMETERS: Basis<'static> = Basis::memory("MS20615", "which diameters it tabulates");

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
    basis: RECALLED,
    unknown: Unknown::of("MS20615"),
};

const MATERIALS: &[Material<'static>] =
    &[material("M", RivetAlloy::NickelCopper, RECALLED), material("CU", RivetAlloy::Copper, RECALLED)];

const SIZES: &[Size<'static>] = &[
    bare(2, DIAMETERS),
    bare(3, DIAMETERS),
    bare(4, DIAMETERS),
    bare(5, DIAMETERS),
    bare(6, DIAMETERS),
    bare(8, DIAMETERS),
    bare(10, DIAMETERS),
    bare(12, DIAMETERS),
];
