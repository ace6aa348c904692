//! NAS9313, 100 degree flush head, close tolerance.
//!
//! NAS9313 (2011), text of the sheet without its dimension table: letters, finishes and half lengths (note 4). Of the diameters it names 2, 3,
//! and "4 and larger".

use super::{bare, material};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;
use crate::rivet::{Finish, HalfMark, Head, Material, NumberForm, Series, Size, Unknown};

const SHEET: Basis<'static> = Basis::published("NAS9313 (2011)", "text of the sheet");
const NOTE_4: Basis<'static> = Basis::published("NAS9313 (2011)", "note 4");
const LARGER: Basis<'static> = Basis::memory("NAS9313 (2011)", "which diameters are larger than 4");

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
    basis: NOTE_4,
    unknown: Unknown::of("NAS9313"),
};

#[rustfmt::skip]
const MATERIALS: &[Material<'static>] = &[
    material("AD", RivetAlloy::Al2117, SHEET),
    material("B",  RivetAlloy::Al5056, SHEET),
    material("D",  RivetAlloy::Al2017, SHEET),
    material("DD", RivetAlloy::Al2024, SHEET),
    material("KE", RivetAlloy::Al7050, SHEET),
    material("T",  RivetAlloy::Ti45Cb, SHEET),
];

/// The finishes are for aluminium; chemical film is not allowed on 2024.
#[rustfmt::skip]
const FINISHES: &[Finish<'static>] = &[
    Finish { letter: Some('A'), name: "anodize, clear",          alloys: ALUMINIUM,   basis: SHEET },
    Finish { letter: Some('D'), name: "anodize, dichromate",     alloys: ALUMINIUM,   basis: SHEET },
    Finish { letter: Some('S'), name: "chemical film, clear",    alloys: BUT_NOT_2024, basis: SHEET },
    Finish { letter: None,      name: "chemical film, coloured", alloys: BUT_NOT_2024, basis: SHEET },
];

const ALUMINIUM: &[RivetAlloy] =
    &[RivetAlloy::Al2117, RivetAlloy::Al5056, RivetAlloy::Al2017, RivetAlloy::Al2024, RivetAlloy::Al7050];

const BUT_NOT_2024: &[RivetAlloy] = &[RivetAlloy::Al2117, RivetAlloy::Al5056, RivetAlloy::Al2017, RivetAlloy::Al7050];

const SIZES: &[Size<'static>] =
    &[bare(2, SHEET), bare(3, SHEET), bare(4, SHEET), bare(5, LARGER), bare(6, LARGER), bare(8, LARGER)];
