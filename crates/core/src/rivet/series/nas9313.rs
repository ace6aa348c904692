//! NAS9313, 100 degree flush head, close tolerance.
//!
//! NAS9313 (2011), text of the sheet without its dimension table: letters, finishes and half lengths (note 4). Of the diameters it names 2, 3,
//! and "4 and larger".

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Finish, HalfMark, Head, MaterialLetter, NumberForm, Series, Size, StandardPlaces};

/// Close-tolerance 100 degree flush rivets.
pub static NAS9313: Series<'static> = Series {
    name: "NAS9313",
    also: &[],
    supersedes: &[],
    head: Head::Flush,
    form: NumberForm::MaterialFirst,
    materials: MATERIALS,
    finishes: FINISHES,
    sizes: SIZES,
    length_tolerance: None,
    half_lengths: Some(HalfMark::Five),
    oversize: Length::ZERO,
    oversize_series: None,
    standard_sizes: &[],
    basis: Basis::NAS9313_NOTE_4,
    unknown: StandardPlaces {
        head: Basis::NAS9313_HEAD_DIMENSIONS,
        shank: Basis::NAS9313_SHANK_LIMITS,
        fit: Basis::NAS9313_FIT,
    },
};

#[rustfmt::skip]
const MATERIALS: &[MaterialLetter<'static>] = &[
    material("AD", RivetAlloy::Al2117, Basis::NAS9313_TEXT),
    material("B",  RivetAlloy::Al5056, Basis::NAS9313_TEXT),
    material("D",  RivetAlloy::Al2017, Basis::NAS9313_TEXT),
    material("DD", RivetAlloy::Al2024, Basis::NAS9313_TEXT),
    material("KE", RivetAlloy::Al7050, Basis::NAS9313_TEXT),
    material("T",  RivetAlloy::Ti45Cb, Basis::NAS9313_TEXT),
];

/// The finishes are for aluminium; chemical film is not allowed on 2024.
#[rustfmt::skip]
const FINISHES: &[Finish<'static>] = &[
    Finish { letter: Some('A'), name: "anodize, clear",          alloys: ALUMINIUM,   basis: Basis::NAS9313_TEXT },
    Finish { letter: Some('D'), name: "anodize, dichromate",     alloys: ALUMINIUM,   basis: Basis::NAS9313_TEXT },
    Finish { letter: Some('S'), name: "chemical film, clear",    alloys: BUT_NOT_2024, basis: Basis::NAS9313_TEXT },
    Finish { letter: None,      name: "chemical film, coloured", alloys: BUT_NOT_2024, basis: Basis::NAS9313_TEXT },
];

const ALUMINIUM: &[RivetAlloy] =
    &[RivetAlloy::Al2117, RivetAlloy::Al5056, RivetAlloy::Al2017, RivetAlloy::Al2024, RivetAlloy::Al7050];

const BUT_NOT_2024: &[RivetAlloy] = &[RivetAlloy::Al2117, RivetAlloy::Al5056, RivetAlloy::Al2017, RivetAlloy::Al7050];

const SIZES: &[Size] = &[
    bare(2, Basis::NAS9313_TEXT),
    bare(3, Basis::NAS9313_TEXT),
    bare(4, Basis::NAS9313_TEXT),
    bare(5, Basis::NAS9313_LARGER),
    bare(6, Basis::NAS9313_LARGER),
    bare(8, Basis::NAS9313_LARGER),
];
