//! A hole as it was found, and what to do about it.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::hole::{AsFound, Damage, Direction};
use shophead::installation::{Installation, MAX_STEPS, Step};
use shophead::layout::RowLayout;
use shophead::structure::Member;

use crate::border::{In, Out, answer};
use crate::drill::shophead_drill;
use crate::error::shophead_error;
use crate::finding::{Sink, shophead_finding, shophead_span};
use crate::length::{length, optional, shophead_range};
use crate::numbers::value_of;
use crate::part::{rows, shophead_part};
use crate::practice::shophead_practice;
use crate::stack::{shophead_layer, stack};

/// What is wrong with a hole besides its size.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_damage(pub u32);

/// The member that a row runs along.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_member(pub u32);

/// Which way the longest axis of a hole lies.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_direction(pub u32);

/// What to do about a hole, from the least change on.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_disposition(pub u32);

/// A hole as it was measured.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_hole {
    /// The longest axis.
    pub major_nm: i64,
    /// The shortest axis; the same for a round hole.
    pub minor_nm: i64,
    /// What else is wrong with it, one of `enum shophead_damage`.
    pub damage: u32,
    /// Not used; 0.
    pub unused: u32,
}

/// A hole as it was found, with all that can be said of it.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_found_hole {
    /// The longest axis.
    pub major_nm: i64,
    /// The shortest axis; the same for a round hole. `SHOPHEAD_NONE` where it was measured one way only.
    pub minor_nm: i64,
    /// What else is wrong with it, one of `enum shophead_damage`.
    pub damage: u32,
    /// Which way the longest axis lies, one of `enum shophead_direction`; 0 where that is not known, which counts as across.
    pub direction: u32,
    /// 1 where it was opened before it was measured, so that it is no longer as the maker built it; otherwise 0.
    pub opened: u32,
    /// Not used; 0.
    pub unused: u32,
}

/// A hole's surroundings: what decides which steps it can take.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_hole_query {
    /// The rivet that is to go in; its length does not matter.
    pub part: shophead_part,
    /// The layers, the caller's, the side of the manufactured head first. NULL where they are not known: then no length is tried and no
    /// countersink and no strength is checked, and a finding says so.
    pub layers: In<shophead_layer>,
    /// How many; 0 where they are not known.
    pub layer_count: usize,
    /// From the row to the nearest edge of any layer; `SHOPHEAD_NONE` where it is not known.
    pub edge_nm: i64,
    /// From hole to hole; `SHOPHEAD_NONE` where it is not known.
    pub pitch_nm: i64,
    /// To the neighbouring row; `SHOPHEAD_NONE` where there is none or it is not known.
    pub transverse_pitch_nm: i64,
    /// How many rows the pattern has, 1 to 255.
    pub rows: u32,
    /// The member that the row runs along, one of `enum shophead_member`.
    pub member: u32,
    /// The limits.
    pub practice: shophead_practice,
}

/// One step that was tried.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_step {
    /// Which.
    pub kind: shophead_disposition,
    /// 1 where it does, otherwise 0.
    pub does: u32,
    /// The rivet that it would take, without a length; its series is 0 where there is none.
    pub part: shophead_part,
    /// The drill or reamer to open the hole with; its diameter is `SHOPHEAD_NONE` where the hole stays as it is.
    pub cut: shophead_drill,
    /// The hole that the step leaves; `SHOPHEAD_NONE` where there is none.
    pub hole: shophead_range,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// The verdict on a hole.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_hole_judgement {
    /// What to do.
    pub disposition: shophead_disposition,
    /// How many of the caller's steps are written; the last one does unless the verdict is to refer.
    pub steps: u32,
    /// Which of the caller's findings hold for the verdict itself; why each step before it does not do stands with the step.
    pub findings: shophead_span,
}

/// The steps below refer: an array of so many always suffices.
pub const SHOPHEAD_MAX_STEPS: usize = 4;

const _: () = assert!(MAX_STEPS == SHOPHEAD_MAX_STEPS, "the core has another number of steps");

/// An array of so many findings holds those of a verdict on a hole and of all its steps.
pub const SHOPHEAD_MAX_HOLE_FINDINGS: usize = 180;

const _: () = assert!(SHOPHEAD_MAX_HOLE_FINDINGS == (SHOPHEAD_MAX_STEPS + 1) * crate::finding::SHOPHEAD_MAX_FINDINGS);

/// Judges a hole: climbs from the least change until a step does.
///
/// Takes: `query` and `found`, the caller's. Writes: `judgement`; `steps`, an array of the caller's with room for `step_capacity`
/// (`SHOPHEAD_MAX_STEPS` always suffices); `findings`, an array of the caller's with room for `finding_capacity`
/// (`SHOPHEAD_MAX_HOLE_FINDINGS` always suffices).
///
/// Errors: those named `SHOPHEAD_ERROR_HOLE_...` and `SHOPHEAD_ERROR_STACK_...`; those of a part and of a practice;
/// `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_hole_judge(
    query: In<shophead_hole_query>,
    found: In<shophead_hole>,
    judgement: Out<shophead_hole_judgement>,
    steps: Out<shophead_step>,
    step_capacity: usize,
    findings: Out<shophead_finding>,
    finding_capacity: usize,
) -> shophead_error {
    let found = || {
        let found = found.one()?;
        let (major, minor) = (length(found.major_nm)?, length(found.minor_nm)?);
        Ok(AsFound::new(major, minor, value_of::<Damage>(found.damage)?)?)
    };
    judge(query, &found, (judgement, steps, step_capacity), (findings, finding_capacity))
}

/// Judges a hole of which more may be said: measured one way only, which way it is worn, opened before it was measured.
///
/// Takes: `query` and `found`, the caller's. Writes: `judgement`; `steps`, an array of the caller's with room for `step_capacity`
/// (`SHOPHEAD_MAX_STEPS` always suffices); `findings`, an array of the caller's with room for `finding_capacity`
/// (`SHOPHEAD_MAX_HOLE_FINDINGS` always suffices).
///
/// Errors: as `shophead_hole_judge`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_found_hole_judge(
    query: In<shophead_hole_query>,
    found: In<shophead_found_hole>,
    judgement: Out<shophead_hole_judgement>,
    steps: Out<shophead_step>,
    step_capacity: usize,
    findings: Out<shophead_finding>,
    finding_capacity: usize,
) -> shophead_error {
    let found = || {
        let found = found.one()?;
        let (major, minor) = (length(found.major_nm)?, optional(found.minor_nm)?);
        let damage = value_of::<Damage>(found.damage)?;
        let direction = if found.direction == 0 { None } else { Some(value_of::<Direction>(found.direction)?) };
        let opened = match found.opened {
            0 => false,
            1 => true,
            _ => return Err(shophead_error::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        Ok(AsFound::of(major, minor, damage)?.lying(direction).opened(opened))
    };
    judge(query, &found, (judgement, steps, step_capacity), (findings, finding_capacity))
}

/// What both calls do: looks at the outputs, then reads the inputs, asks, and writes.
fn judge(
    query: In<shophead_hole_query>,
    found: &dyn Fn() -> Result<AsFound, shophead_error>,
    (judgement, steps, step_capacity): (Out<shophead_hole_judgement>, Out<shophead_step>, usize),
    (findings, finding_capacity): (Out<shophead_finding>, usize),
) -> shophead_error {
    answer(|| {
        let place = judgement.place()?;
        let mut places = steps.places(step_capacity)?;
        let mut sink = Sink::new(&findings, finding_capacity)?;
        let asked = query.one()?;
        let found = found()?;
        let stack = if asked.layer_count == 0 {
            None
        } else {
            Some(stack(asked.layers, asked.layer_count, &|number| asked.practice.material(number))?)
        };
        let layout = RowLayout::default()
            .edge(optional(asked.edge_nm)?)
            .pitch(optional(asked.pitch_nm)?)
            .transverse_pitch(optional(asked.transverse_pitch_nm)?);
        let (rivet, rows, member) = (asked.part.read()?, rows(asked.rows)?, value_of::<Member>(asked.member)?);
        asked.practice.with(|practice| {
            let question = match &stack {
                Some(stack) => Installation::new(rivet, stack),
                None => Installation::without_layers(rivet),
            };
            let question = question.by(practice).layout(layout).rows(u16::from(rows)).member(member);
            // No more than one step is kept. Where the room might not suffice it is asked twice: once how much all of it takes, once to write it.
            if places.need(SHOPHEAD_MAX_STEPS).is_err() || sink.need_room(SHOPHEAD_MAX_HOLE_FINDINGS).is_err() {
                let mut count = 0_usize;
                let mut needed = 0_usize;
                let answer = question.hole_step_by_step(found, &mut |step: &Step<'_>| {
                    count = count.saturating_add(1);
                    needed = needed.saturating_add(step.findings.iter().len());
                });
                places.need(count)?;
                sink.need_room(needed.saturating_add(answer.findings.iter().len()))?;
            }
            let mut index = 0_usize;
            let answer = question.hole_step_by_step(found, &mut |step: &Step<'_>| {
                let written = shophead_step {
                    kind: step.kind.into(),
                    does: u32::from(step.does()),
                    part: step.rivet.as_ref().map_or(shophead_part::NONE, shophead_part::of),
                    cut: shophead_drill::of(step.cut),
                    hole: shophead_range::of(step.hole),
                    findings: sink.put(&step.findings, practice.documents()),
                };
                places.put(index, written);
                index = index.saturating_add(1);
            });
            place.put(shophead_hole_judgement {
                disposition: answer.disposition.into(),
                steps: u32::try_from(index).unwrap_or(u32::MAX),
                findings: sink.put(&answer.findings, practice.documents()),
            });
            Ok(())
        })
    })
}
