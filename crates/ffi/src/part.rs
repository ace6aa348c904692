//! Part numbers and the rivets that they name.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::material::RivetAlloy;
use shophead::practice::Case;
use shophead::rivet::part::{BuildPartError, Part, PartWarning};
use shophead::rivet::{
    Head, MS20426, MS20427, MS20470, MS20613, MS20615, NAS1097, NAS1198, NAS1241, NAS1242, NAS9313, Series,
};
use shophead::select::check_part;

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{put_findings, shophead_finding, shophead_span};
use crate::length::{SHOPHEAD_NONE, optional, or_none, shophead_range};
use crate::numbers::{numbered, value_of};
use crate::text::print;

/// A rivet alloy.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_alloy {
    /// None, or in a scope any; also an alloy that this list does not have yet.
    SHOPHEAD_ALLOY_NONE = 0,
    /// 1100-F, code A.
    SHOPHEAD_ALLOY_1100 = 1,
    /// 2117-T4, code AD.
    SHOPHEAD_ALLOY_2117 = 2,
    /// 5056-H32, code B.
    SHOPHEAD_ALLOY_5056 = 3,
    /// 2017-T4, code D.
    SHOPHEAD_ALLOY_2017 = 4,
    /// 2024-T4, code DD.
    SHOPHEAD_ALLOY_2024 = 5,
    /// 7050-T73, code E (MS) or KE (NAS).
    SHOPHEAD_ALLOY_7050 = 6,
    /// Titanium-niobium 45Cb, code T.
    SHOPHEAD_ALLOY_TI_45CB = 7,
    /// Nickel-copper, code M.
    SHOPHEAD_ALLOY_NICKEL_COPPER = 8,
    /// A-286 heat-resistant steel.
    SHOPHEAD_ALLOY_A286 = 9,
    /// Carbon steel.
    SHOPHEAD_ALLOY_CARBON_STEEL = 10,
    /// Corrosion-resistant steel.
    SHOPHEAD_ALLOY_CORROSION_RESISTANT_STEEL = 11,
    /// Copper.
    SHOPHEAD_ALLOY_COPPER = 12,
}

numbered! {
    RivetAlloy, shophead_alloy [
        Al1100 = SHOPHEAD_ALLOY_1100,
        Al2117 = SHOPHEAD_ALLOY_2117,
        Al5056 = SHOPHEAD_ALLOY_5056,
        Al2017 = SHOPHEAD_ALLOY_2017,
        Al2024 = SHOPHEAD_ALLOY_2024,
        Al7050 = SHOPHEAD_ALLOY_7050,
        Ti45Cb = SHOPHEAD_ALLOY_TI_45CB,
        NickelCopper = SHOPHEAD_ALLOY_NICKEL_COPPER,
        A286 = SHOPHEAD_ALLOY_A286,
        CarbonSteel = SHOPHEAD_ALLOY_CARBON_STEEL,
        CorrosionResistantSteel = SHOPHEAD_ALLOY_CORROSION_RESISTANT_STEEL,
        Copper = SHOPHEAD_ALLOY_COPPER,
    ] else shophead_alloy::SHOPHEAD_ALLOY_NONE
}

/// A part standard.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_series {
    /// None, or one that this list does not have yet.
    SHOPHEAD_SERIES_NONE = 0,
    /// MS20470, universal head.
    SHOPHEAD_SERIES_MS20470 = 1,
    /// MS20426, 100 degree flush head.
    SHOPHEAD_SERIES_MS20426 = 2,
    /// NAS1097, 100 degree flush head of reduced size.
    SHOPHEAD_SERIES_NAS1097 = 3,
    /// NAS1241, oversize shank.
    SHOPHEAD_SERIES_NAS1241 = 4,
    /// NAS1242, oversize shank.
    SHOPHEAD_SERIES_NAS1242 = 5,
    /// NAS9313.
    SHOPHEAD_SERIES_NAS9313 = 6,
    /// MS20427.
    SHOPHEAD_SERIES_MS20427 = 7,
    /// MS20615.
    SHOPHEAD_SERIES_MS20615 = 8,
    /// MS20613.
    SHOPHEAD_SERIES_MS20613 = 9,
    /// NAS1198.
    SHOPHEAD_SERIES_NAS1198 = 10,
}

/// The number of each series.
pub(crate) static SERIES: [(shophead_series, &Series<'static>); 10] = [
    (shophead_series::SHOPHEAD_SERIES_MS20470, &MS20470),
    (shophead_series::SHOPHEAD_SERIES_MS20426, &MS20426),
    (shophead_series::SHOPHEAD_SERIES_NAS1097, &NAS1097),
    (shophead_series::SHOPHEAD_SERIES_NAS1241, &NAS1241),
    (shophead_series::SHOPHEAD_SERIES_NAS1242, &NAS1242),
    (shophead_series::SHOPHEAD_SERIES_NAS9313, &NAS9313),
    (shophead_series::SHOPHEAD_SERIES_MS20427, &MS20427),
    (shophead_series::SHOPHEAD_SERIES_MS20615, &MS20615),
    (shophead_series::SHOPHEAD_SERIES_MS20613, &MS20613),
    (shophead_series::SHOPHEAD_SERIES_NAS1198, &NAS1198),
];

/// A rivet, or without a length a family of rivets. `shophead_part_parse` makes one from its number.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_part {
    /// The part standard, one of `enum shophead_series`.
    pub series: u32,
    /// The alloy, one of `enum shophead_alloy`.
    pub alloy: u32,
    /// The dash number: thirty-seconds of an inch of the standard diameter.
    pub dash: u32,
    /// The finish letter, a capital in ASCII; 0 without one.
    pub finish: u32,
    /// The length as the series measures it: under a protruding head, overall for a flush one. `SHOPHEAD_NONE` for a family.
    pub length_nm: i64,
}

impl shophead_part {
    pub(crate) const NONE: shophead_part =
        shophead_part { series: 0, alloy: 0, dash: 0, finish: 0, length_nm: SHOPHEAD_NONE };

    pub(crate) fn of(part: &Part<'_>) -> shophead_part {
        let series = SERIES.iter().find(|(_, series)| series.name == part.series().name);
        let letter = part.finish().and_then(|finish| finish.letter);
        shophead_part {
            series: series.map_or(0, |(number, _)| *number as u32),
            alloy: shophead_alloy::from(part.alloy()) as u32,
            dash: u32::from(part.size().dash),
            finish: letter.map_or(0, u32::from),
            length_nm: or_none(part.length()),
        }
    }

    pub(crate) fn read(&self) -> Result<Part<'static>, E> {
        let (_, series) =
            SERIES.iter().find(|(number, _)| *number as u32 == self.series).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        let material = series.material_of(value_of(self.alloy)?).ok_or(BuildPartError::UnknownMaterial)?;
        let size = u8::try_from(self.dash).ok().and_then(|dash| series.size(dash));
        let mut part = Part::new(series, material.code, size.ok_or(BuildPartError::UnknownSize)?)?;
        if self.finish != 0 {
            let letter = char::from_u32(self.finish).ok_or(E::SHOPHEAD_ERROR_PART_FINISH)?;
            part = part.with_finish(letter).ok_or(E::SHOPHEAD_ERROR_PART_FINISH)?;
        }
        if let Some(length) = optional(self.length_nm)? {
            part = part.with_length(length)?;
        }
        Ok(part)
    }
}

/// What a practice is asked for: this rivet in a pattern of so many rows.
pub(crate) fn case(part: &Part<'_>, rows: u32) -> Result<Case, E> {
    Ok(Case::of(part.series().head, part.alloy(), part.size()).in_rows(crate::part::rows(rows)?))
}

/// Rows of a pattern: 1 to 255.
pub(crate) fn rows(rows: u32) -> Result<u8, E> {
    u8::try_from(rows).ok().filter(|rows| *rows > 0).ok_or(E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)
}

/// What is accepted in a part number but should be said; one bit each.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_warning {
    /// Written under an older name.
    SHOPHEAD_WARNING_SUPERSEDED_NAME = 1,
    /// Written in lower case.
    SHOPHEAD_WARNING_LOWER_CASE = 2,
    /// A half length written in the form of another series.
    SHOPHEAD_WARNING_HALF_WRITTEN_OTHERWISE = 4,
    /// The shank is larger than the diameter digit says.
    SHOPHEAD_WARNING_OVERSIZE_SHANK = 8,
    /// Shorter than the table of the standard begins: it can be ordered but may not be in stock.
    SHOPHEAD_WARNING_BELOW_TABLE = 16,
    /// Longer than the table of the standard ends: it can be ordered but may not be in stock.
    SHOPHEAD_WARNING_ABOVE_TABLE = 32,
    /// The alloy is not for structure.
    SHOPHEAD_WARNING_NON_STRUCTURAL = 64,
    /// The alloy is heat treated, or kept cold after it, before driving.
    SHOPHEAD_WARNING_HEAT_TREAT_FIRST = 128,
    /// The standard keeps this alloy out of new designs.
    SHOPHEAD_WARNING_NOT_FOR_NEW_DESIGN = 256,
    /// The series, its letters or its diameters could only be recalled.
    SHOPHEAD_WARNING_RECALLED = 512,
    /// Something that this list does not have yet.
    SHOPHEAD_WARNING_OTHER = 1024,
}

fn warnings(part: &Part<'_>) -> u32 {
    use shophead_warning as W;
    let bit = |warning: &PartWarning<'_>| match warning {
        PartWarning::SupersededName { .. } => W::SHOPHEAD_WARNING_SUPERSEDED_NAME,
        PartWarning::LowerCase => W::SHOPHEAD_WARNING_LOWER_CASE,
        PartWarning::HalfWrittenOtherwise => W::SHOPHEAD_WARNING_HALF_WRITTEN_OTHERWISE,
        PartWarning::OversizeShank { .. } => W::SHOPHEAD_WARNING_OVERSIZE_SHANK,
        PartWarning::BelowTable { .. } => W::SHOPHEAD_WARNING_BELOW_TABLE,
        PartWarning::AboveTable { .. } => W::SHOPHEAD_WARNING_ABOVE_TABLE,
        PartWarning::NonStructural => W::SHOPHEAD_WARNING_NON_STRUCTURAL,
        PartWarning::HeatTreatFirst => W::SHOPHEAD_WARNING_HEAT_TREAT_FIRST,
        PartWarning::NotForNewDesign => W::SHOPHEAD_WARNING_NOT_FOR_NEW_DESIGN,
        PartWarning::Recalled { .. } => W::SHOPHEAD_WARNING_RECALLED,
        _ => W::SHOPHEAD_WARNING_OTHER,
    };
    part.warnings().iter().fold(0, |bits, warning| bits | bit(warning) as u32)
}

/// Reads a part number: `MS20470AD4-5`, `an470ad4-3.5`; without a length a family, `MS20470AD4`.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `part`; `warnings`, bits of `enum shophead_warning`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_PART` (`shophead_explain` says why, and what it may have meant), `SHOPHEAD_ERROR_NOT_UTF8`,
/// `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_part_parse(
    text: In<c_char>,
    length: usize,
    part: Out<shophead_part>,
    warnings: Out<u32>,
) -> shophead_error {
    answer(|| {
        let (part, warnings) = (part.place()?, warnings.place()?);
        let read = Part::parse(text.text(length)?)?;
        part.put(shophead_part::of(&read));
        warnings.put(self::warnings(&read));
        Ok(())
    })
}

/// Prints a part number as the standard in force writes it.
///
/// Takes: `part`, the caller's. Writes: the number into `buffer`, which has room for `capacity` bytes, with a zero byte after it; its length
/// without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER` and those named `SHOPHEAD_ERROR_PART_...` where there is no such rivet,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_part_print(
    part: In<shophead_part>,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    answer(|| print(&part.one()?.read()?, buffer, capacity, length))
}

/// The same rivet with another length.
///
/// Takes: `part`, the caller's; `length_nm`, or `SHOPHEAD_NONE` for its family. Writes: `changed`.
///
/// Errors: those named `SHOPHEAD_ERROR_PART_...` where the series has no such length; otherwise as `shophead_part_print`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_part_with_length(
    part: In<shophead_part>,
    length_nm: i64,
    changed: Out<shophead_part>,
) -> shophead_error {
    answer(|| {
        let place = changed.place()?;
        let part = part.one()?.read()?;
        let with = match optional(length_nm)? {
            Some(length) => part.with_length(length)?,
            None => part.without_length(),
        };
        // The letter of a family counts once there is a length, so it is kept here as the core keeps it.
        let changed = shophead_part::of(&with);
        place.put(changed);
        Ok(())
    })
}

/// The shape of the manufactured head.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_head {
    /// Another head, without a number here.
    SHOPHEAD_HEAD_OTHER = 0,
    /// Universal protruding head.
    SHOPHEAD_HEAD_UNIVERSAL = 1,
    /// 100 degree flush head.
    SHOPHEAD_HEAD_FLUSH = 2,
    /// 100 degree flush head of reduced size, for shear.
    SHOPHEAD_HEAD_REDUCED_FLUSH = 3,
}

numbered! {
    Head, shophead_head [
        Universal = SHOPHEAD_HEAD_UNIVERSAL,
        Flush = SHOPHEAD_HEAD_FLUSH,
        ReducedFlush = SHOPHEAD_HEAD_REDUCED_FLUSH,
    ] else shophead_head::SHOPHEAD_HEAD_OTHER
}

/// The dimensions of a rivet. `SHOPHEAD_NONE` stands where one is not known.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_dimensions {
    /// The manufactured head.
    pub head: shophead_head,
    /// Nominal shank diameter: of an oversize rivet, larger than its digit says.
    pub diameter_nm: i64,
    /// The diameter that the dash number counts.
    pub standard_diameter_nm: i64,
    /// Least and greatest shank diameter.
    pub shank: shophead_range,
    /// Nominal head diameter, to the sharp corner for a flush head.
    pub head_diameter_nm: i64,
    /// Nominal head height; a reference value for a flush head.
    pub head_height_nm: i64,
    /// The step in which the lengths of the series go.
    pub length_step_nm: i64,
    /// Where the dimensions come from.
    pub basis: shophead_basis,
}

/// The dimensions of a rivet.
///
/// Takes: `part`, the caller's; its length does not matter. Writes: `dimensions`.
///
/// Errors: as `shophead_part_print`, but for the buffer.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_part_dimensions(
    part: In<shophead_part>,
    dimensions: Out<shophead_dimensions>,
) -> shophead_error {
    answer(|| {
        let place = dimensions.place()?;
        let part = part.one()?.read()?;
        let size = part.size();
        place.put(shophead_dimensions {
            head: part.series().head.into(),
            diameter_nm: part.diameter().nanometres(),
            standard_diameter_nm: size.standard_diameter().nanometres(),
            shank: shophead_range::of(size.shank),
            head_diameter_nm: or_none(size.head_diameter_nominal()),
            head_height_nm: or_none(size.head_height_nominal()),
            length_step_nm: part.series().length_step().nanometres(),
            basis: shophead_basis::of(size.basis, &[]),
        });
        Ok(())
    })
}

/// What a rivet's alloy asks for, whatever the pack: that it does not go into structure, or is heat treated before it is driven.
///
/// Takes: `part`, the caller's; its length does not matter. Writes: `findings`, an array of the caller's with room for `capacity`
/// (`SHOPHEAD_MAX_FINDINGS` always suffices); `span`, which of them.
///
/// Errors: as `shophead_part_print`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_part_check(
    part: In<shophead_part>,
    findings: Out<shophead_finding>,
    capacity: usize,
    span: Out<shophead_span>,
) -> shophead_error {
    answer(|| put_findings(&check_part(&part.one()?.read()?), &[], findings, capacity, span))
}
