//! Choosing the length of a rivet, and judging one that somebody else chose.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::basis::Document;
use shophead::installation::Installation;
use shophead::length::Toleranced;
use shophead::practice::Practice;
use shophead::rivet::part::Part;
use shophead::select::{LengthAnswer, UpperBound, choose_diameter};

use crate::basis::shophead_given;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::finding::{Sink, put_findings, shophead_finding, shophead_span};
use crate::head::shophead_predicted;
use crate::length::{length, or_none, shophead_range, shophead_toleranced};
use crate::numbers::numbered;
use crate::part::shophead_part;
use crate::practice::shophead_practice;

/// The diameter for a sheet.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_diameter_choice {
    /// The rivet in this diameter, without a length; its series is 0 where the series has none that large.
    pub part: shophead_part,
    /// The diameter that the rule asks for, before it is taken up to a size of the series.
    pub wanted_nm: i64,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// Chooses the diameter for a sheet: the smallest of the series that is not below the rule of thumb for the thickest sheet, nor below the
/// least for structure.
///
/// Takes: `part`, the caller's: its series and alloy; its diameter and length do not matter. `sheet_nm`, the thickest sheet; `practice`, the
/// caller's. Writes: `choice`; `findings`, an array of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: those of a part and of a practice; `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`,
/// `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_diameter_choose(
    part: In<shophead_part>,
    sheet_nm: i64,
    practice: In<shophead_practice>,
    choice: Out<shophead_diameter_choice>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = choice.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        let (part, sheet) = (part.one()?.read()?, length(sheet_nm)?);
        practice.one()?.with(|practice| {
            let chosen = choose_diameter(part.series(), part.alloy(), sheet, practice);
            sink.need([&chosen.findings])?;
            let sized = chosen.size.and_then(|size| part.in_size(size));
            place.put(shophead_diameter_choice {
                part: sized.as_ref().map_or(shophead_part::NONE, shophead_part::of),
                wanted_nm: chosen.wanted.nanometres(),
                findings: sink.put(&chosen.findings, practice.documents()),
            });
            Ok(())
        })
    })
}

/// What a length is chosen for.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_length_query {
    /// The rivet; its length does not matter.
    pub part: shophead_part,
    /// The pack; `shophead_stack_grip` adds it up.
    pub grip: shophead_toleranced,
    /// The hole as measured, or as `shophead_practice_hole` assumes it.
    pub hole: shophead_toleranced,
    /// The limits.
    pub practice: shophead_practice,
}

/// What limits the longest length that is good.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_bound {
    /// The practice lacks a limit, so no length can be called good.
    SHOPHEAD_BOUND_NONE = 0,
    /// The tail that can be driven without folding.
    SHOPHEAD_BOUND_TAIL = 1,
    /// The metal in the largest head.
    SHOPHEAD_BOUND_HEAD = 2,
}

numbered! {
    UpperBound, shophead_bound [
        Tail = SHOPHEAD_BOUND_TAIL,
        Head = SHOPHEAD_BOUND_HEAD,
    ]
}

/// Why the chosen length is not the one that the rule of thumb gives.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_difference(pub u32);

/// A chosen length and what it rests on.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_length_choice {
    /// The length; `SHOPHEAD_NONE` when no one length is within limits in every hole: see `shophead_length_by_hole`.
    /// `shophead_part_with_length` makes it a part.
    pub length_nm: i64,
    /// The shortest length that is good, before it is cut to the series' steps.
    pub shortest: shophead_given,
    /// The longest.
    pub longest: shophead_given,
    /// What limits the longest.
    pub longest_by: shophead_bound,
    /// Why length and rule of thumb differ.
    pub difference: shophead_difference,
    /// Grip plus one and a half diameters, as it is before rounding.
    pub rule_of_thumb_nm: i64,
    /// The same, rounded to the series' steps as the practice says.
    pub rule_of_thumb_length_nm: i64,
    /// The part of the tail that goes into filling the hole, at nominal sizes.
    pub fill_nm: i64,
    /// How far the tail stands out before driving.
    pub protrusion: shophead_range,
    /// The driven head of the chosen length at the height to aim at.
    pub head: shophead_predicted,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// The rivet for a pack.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_fitted {
    /// The rivet, with the length to order; without a length where none fits.
    pub part: shophead_part,
    /// Its length, and what that rests on.
    pub choice: shophead_length_choice,
}

/// The question of the core.
pub(crate) fn question<'a>(
    part: &Part<'a>,
    grip: Toleranced,
    hole: Toleranced,
    practice: &'a Practice<'a>,
) -> Installation<'static, 'a> {
    Installation::through(*part, grip).in_hole(hole).by(practice)
}

pub(crate) fn put(
    choice: &LengthAnswer<'_>,
    findings: shophead_span,
    documents: &[Document<'_>],
) -> shophead_length_choice {
    shophead_length_choice {
        length_nm: or_none(choice.length),
        shortest: shophead_given::of(choice.usable.map(|usable| usable.shortest), documents),
        longest: shophead_given::of(choice.usable.map(|usable| usable.longest), documents),
        longest_by: choice.usable.map_or(shophead_bound::SHOPHEAD_BOUND_NONE, |usable| usable.longest_by.into()),
        difference: choice.difference.map_or(shophead_difference(0), Into::into),
        rule_of_thumb_nm: choice.rule_of_thumb.nanometres(),
        rule_of_thumb_length_nm: choice.rule_of_thumb_length.nanometres(),
        fill_nm: or_none(choice.fill),
        protrusion: shophead_range::of(choice.protrusion),
        head: shophead_predicted::of(choice.head),
        findings,
    }
}

/// Chooses the length of a rivet: the published rule, checked against the volume of metal: too little in the worst case, too much at nominal
/// sizes. That nothing fits is not an error but an answer. What to drive the head to says `shophead_head_window`, what else is within limits
/// `shophead_length_serves`, and which length goes into which hole `shophead_length_by_hole`.
///
/// Takes: `query`, the caller's. Writes: `choice`; `findings`, an array of the caller's with room for `capacity`
/// (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: those named `SHOPHEAD_ERROR_FIT_...` for a size of zero or less, or out of order; those of a part and of a practice;
/// `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`,
/// `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_choose(
    query: In<shophead_length_query>,
    choice: Out<shophead_length_choice>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = choice.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        let asked = query.one()?;
        let part = asked.part.read()?;
        let (grip, hole) = (asked.grip.read()?, asked.hole.read()?);
        asked.practice.with(|practice| {
            let chosen = self::question(&part, grip, hole, practice).length()?;
            sink.need([&chosen.findings])?;
            place.put(put(&chosen, sink.put(&chosen.findings, practice.documents()), practice.documents()));
            Ok(())
        })
    })
}

/// Chooses the rivet for a pack, from texts: the whole question in one call, with every finding about this rivet in these layers. The hole is
/// the practice's. Edge distance and pitch are not part of it: `shophead_row_check`.
///
/// Takes: `part`, `part_length` bytes of UTF-8, such as `MS20470AD5`; a length in it does not matter. `layers`, `layers_length` bytes, as
/// `shophead_layers_parse_by` reads them. `practice`. All are the caller's, not kept. Writes: `fitted`; `findings`, an array of the caller's with
/// room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices). `shophead_finding_say` makes a sentence of each.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_PART` and `SHOPHEAD_ERROR_NOT_LAYERS` (`shophead_explain` says why); those named `SHOPHEAD_ERROR_FIT_...`;
/// those of a practice; `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_fit(
    part: In<c_char>,
    part_length: usize,
    layers: In<c_char>,
    layers_length: usize,
    practice: In<shophead_practice>,
    fitted: Out<shophead_fitted>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = fitted.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        let rivet = Part::parse(part.text(part_length)?)?;
        let layers = layers.text(layers_length)?;
        practice.one()?.with(|practice| {
            let stack = practice.layers(layers)?;
            let chosen = Installation::new(rivet, &stack).by(practice).length()?;
            sink.need([&chosen.findings])?;
            let family = rivet.without_length();
            place.put(shophead_fitted {
                part: shophead_part::of(chosen.part.as_ref().unwrap_or(&family)),
                choice: put(&chosen, sink.put(&chosen.findings, practice.documents()), practice.documents()),
            });
            Ok(())
        })
    })
}

/// Judges a length that somebody else chose: what `shophead_length_choose` would have avoided.
///
/// Takes: `query`, the caller's; `length_nm`. Writes: `findings`, an array of the caller's with room for `capacity`; `span`, which of
/// them. The length is good where none of them says refer.
///
/// Errors: as `shophead_length_choose`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_assess(
    query: In<shophead_length_query>,
    length_nm: i64,
    findings: Out<shophead_finding>,
    capacity: usize,
    span: Out<shophead_span>,
) -> shophead_error {
    answer(|| {
        let asked = query.one()?;
        let part = asked.part.read()?;
        let (grip, hole, length) = (asked.grip.read()?, asked.hole.read()?, length(length_nm)?);
        asked.practice.with(|practice| {
            let assessed = self::question(&part, grip, hole, practice).assess(length)?;
            put_findings(&assessed.findings, practice.documents(), findings, capacity, span)
        })
    })
}
