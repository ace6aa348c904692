//! NAS1198, universal head, of A-286.
//!
//! As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of
//! its sister standards.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, Material, NumberForm, Series, Size, Unknown};

const RECALLED: Basis<'static> = Basis::memory("NAS1198", "");
const DIAMETERS: Basis<'static> = Basis::memory("NAS1198", "which diameters it tabulates");

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
    basis: RECALLED,
    unknown: Unknown::of("NAS1198"),
};

const MATERIALS: &[Material<'static>] = &[material("", RivetAlloy::A286, RECALLED)];

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
