//! MS20427, 100 degree flush head, of metals other than aluminium.
//!
//! As recalled: the document was not seen. Its dimensions are not known.

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Head, Material, NumberForm, Series, Size, Unknown};

const RECALLED: Basis<'static> = Basis::memory("MS20427", "");

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
    basis: RECALLED,
    unknown: Unknown::of("MS20427"),
};

#[rustfmt::skip]
const MATERIALS: &[Material<'static>] = &[
    material("",  RivetAlloy::CarbonSteel, RECALLED),
    material("F", RivetAlloy::CorrosionResistantSteel, RECALLED),
    material("M", RivetAlloy::NickelCopper, RECALLED),
    material("C", RivetAlloy::Copper, RECALLED),
];

const SIZES: &[Size<'static>] = &[
    bare(2, RECALLED),
    bare(3, RECALLED),
    bare(4, RECALLED),
    bare(5, RECALLED),
    bare(6, RECALLED),
    bare(8, RECALLED),
    bare(10, RECALLED),
    bare(12, RECALLED),
];
