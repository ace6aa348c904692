//! What to drive a head to, what other lengths are within limits, and which length goes into which hole.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::installation::Installation;
use shophead::length::Toleranced;
use shophead::practice::Practice;
use shophead::rivet::part::Part;
use shophead::select::MAX_HOLE_RANGES;
use shophead::stack::Stack;
use shophead::upset::{Window, Within};

use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{Sink, shophead_finding};
use crate::head::shophead_predicted;
use crate::length::{or_none, shophead_range};
use crate::select::{put, question, shophead_length_choice, shophead_length_query};
use crate::stack::{shophead_layer, stack};

/// What to drive a head to, so that it is accepted whatever its shank, hole, pack and length are within their tolerances.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_window {
    /// The heights to stop at; `SHOPHEAD_NONE` both where no one height is right for every rivet.
    pub height: shophead_range,
    /// The least diameter; `SHOPHEAD_NONE` where there is no window.
    pub diameter_least_nm: i64,
    /// The greatest diameter named, else `SHOPHEAD_NONE`. A wider head is worth a look; that alone does not reject it.
    pub diameter_greatest_nm: i64,
    /// Where there is no window: the greatest hole with which there would be one; `SHOPHEAD_NONE` where there is no such hole.
    pub hole_greatest_nm: i64,
    /// Where there is no window: the least shank with which there would be one; `SHOPHEAD_NONE` where there is no such shank.
    pub shank_least_nm: i64,
}

impl shophead_window {
    fn of(window: Option<Window>, within: Option<Within>) -> shophead_window {
        shophead_window {
            height: shophead_range::of(window.map(|window| window.height)),
            diameter_least_nm: or_none(window.map(|window| window.diameter_least)),
            diameter_greatest_nm: or_none(window.and_then(|window| window.diameter_greatest)),
            hole_greatest_nm: or_none(within.and_then(|within| within.hole_greatest)),
            shank_least_nm: or_none(within.and_then(|within| within.shank_least)),
        }
    }
}

/// Another length within limits, and what it makes.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_serving {
    /// The length; `shophead_part_with_length` makes it a part.
    pub length_nm: i64,
    /// What to drive its head to.
    pub window: shophead_window,
    /// The driven head at the height to aim at.
    pub head: shophead_predicted,
}

/// What goes into holes of one range of sizes.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_by_hole {
    /// The holes, both ends included.
    pub hole: shophead_range,
    /// The length; `SHOPHEAD_NONE` where no standard length is within limits in these holes.
    pub length_nm: i64,
    /// What a longer rivet is cut to, as closely as standard ones are made, where that is within limits and no standard length is; else
    /// `SHOPHEAD_NONE` both.
    pub cut: shophead_range,
    /// What to drive the head of the standard length to.
    pub window: shophead_window,
}

/// The most ranges that `shophead_length_by_hole` writes.
pub const SHOPHEAD_MAX_HOLE_RANGES: usize = 32;

const _: () = assert!(MAX_HOLE_RANGES == SHOPHEAD_MAX_HOLE_RANGES, "the core tells another number of ranges apart");

/// The most lengths within limits that a built-in rivet has by a built-in practice.
pub const SHOPHEAD_MAX_SERVINGS: usize = 32;

/// The question with its layers where they are given: they count in place of the query's grip.
fn with_question<T>(
    query: In<shophead_length_query>,
    layers: In<shophead_layer>,
    layer_count: usize,
    ask: impl FnOnce(&Installation<'_, '_>, &Part<'_>, &Practice<'_>) -> Result<T, E>,
) -> Result<T, E> {
    let asked = query.one()?;
    let part = asked.part.read()?;
    let hole = asked.hole.read()?;
    let pack = stack(layers, layer_count, &|number| asked.practice.material(number))?;
    let grip = if layer_count == 0 { asked.grip.read()? } else { pack.grip() };
    asked.practice.with(|practice| ask(&through(&part, &pack, grip, hole, practice), &part, practice))
}

fn through<'q, 'a>(
    part: &Part<'a>,
    pack: &'q Stack,
    grip: Toleranced,
    hole: Toleranced,
    practice: &'a Practice<'a>,
) -> Installation<'q, 'a> {
    if pack.layers().is_empty() {
        question(part, grip, hole, practice)
    } else {
        Installation::new(*part, pack).in_hole(hole).by(practice)
    }
}

/// Chooses the length of a rivet as `shophead_length_choose`, through layers that are known: dimples count, and so does whatever else is
/// found of the layers.
///
/// Takes: `query`, of which the grip is not looked at; `layers`, an array of `layer_count`, the side of the manufactured head first; both the
/// caller's. Writes: as `shophead_length_choose`.
///
/// Errors: those named `SHOPHEAD_ERROR_STACK_...`; `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE` without layers; otherwise as `shophead_length_choose`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_choose_through(
    query: In<shophead_length_query>,
    layers: In<shophead_layer>,
    layer_count: usize,
    choice: Out<shophead_length_choice>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = choice.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        if layer_count == 0 {
            return Err(E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE);
        }
        with_question(query, layers, layer_count, |question, _, practice| {
            let chosen = question.length()?;
            sink.need([&chosen.findings])?;
            place.put(put(&chosen, sink.put(&chosen.findings, practice.documents()), practice.documents()));
            Ok(())
        })
    })
}

/// What to drive the head of a rivet to. Left at any height of the window, it is accepted.
///
/// Takes: `query`, of which the part must have a length; `layers`, an array of `layer_count` that counts in place of the query's grip, or NULL
/// and 0; both the caller's. Writes: `window`.
///
/// Errors: `SHOPHEAD_ERROR_PART_WITHOUT_LENGTH`; those named `SHOPHEAD_ERROR_STACK_...`; otherwise as `shophead_length_choose`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_head_window(
    query: In<shophead_length_query>,
    layers: In<shophead_layer>,
    layer_count: usize,
    window: Out<shophead_window>,
) -> shophead_error {
    answer(|| {
        let place = window.place()?;
        with_question(query, layers, layer_count, |question, part, _| {
            let length = part.length().ok_or(E::SHOPHEAD_ERROR_PART_WITHOUT_LENGTH)?;
            let assessed = question.assess(length)?;
            place.put(shophead_window::of(assessed.window, assessed.within));
            Ok(())
        })
    })
}

/// Every standard length within limits but the one that `shophead_length_choose` takes, the shortest first; none where that takes none.
///
/// Takes: `query`; `layers`, an array of `layer_count` that counts in place of the query's grip, or NULL and 0; both the caller's. Writes:
/// `count`, how many there are; `servings`, an array of the caller's with room for `capacity` (`SHOPHEAD_MAX_SERVINGS` suffices for every
/// built-in rivet and practice).
///
/// Errors: `SHOPHEAD_ERROR_BUFFER_TOO_SMALL` where there are more than `capacity`; those named `SHOPHEAD_ERROR_STACK_...`; otherwise as
/// `shophead_length_choose`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_serves(
    query: In<shophead_length_query>,
    layers: In<shophead_layer>,
    layer_count: usize,
    servings: Out<shophead_serving>,
    capacity: usize,
    count: Out<usize>,
) -> shophead_error {
    answer(|| {
        let place = count.place()?;
        let mut places = servings.places(capacity)?;
        with_question(query, layers, layer_count, |question, _, _| {
            let chosen = question.length()?;
            let needed = chosen.serves().count();
            places.need(needed)?;
            place.put(needed);
            for (index, other) in chosen.serves().enumerate() {
                places.put(
                    index,
                    shophead_serving {
                        length_nm: other.length.nanometres(),
                        window: shophead_window::of(other.window, None),
                        head: shophead_predicted::of(other.head),
                    },
                );
            }
            Ok(())
        })
    })
}

/// Which length goes into which hole, the smallest holes first, where no one length is within limits in all of them; nothing where one is.
///
/// Takes: `query`; `layers`, an array of `layer_count` that counts in place of the query's grip, or NULL and 0; both the caller's. Writes:
/// `count`, how many ranges there are; `ranges`, an array of the caller's with room for `capacity`
/// (`SHOPHEAD_MAX_HOLE_RANGES` always suffices).
///
/// Errors: as `shophead_length_serves`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_by_hole(
    query: In<shophead_length_query>,
    layers: In<shophead_layer>,
    layer_count: usize,
    ranges: Out<shophead_by_hole>,
    capacity: usize,
    count: Out<usize>,
) -> shophead_error {
    answer(|| {
        let place = count.place()?;
        let mut places = ranges.places(capacity)?;
        with_question(query, layers, layer_count, |question, _, _| {
            let chosen = question.length()?;
            let needed = chosen.by_hole().count();
            places.need(needed)?;
            place.put(needed);
            for (index, range) in chosen.by_hole().enumerate() {
                places.put(
                    index,
                    shophead_by_hole {
                        hole: shophead_range::of(Some(range.hole)),
                        length_nm: or_none(range.length),
                        cut: shophead_range::of(range.cut),
                        window: shophead_window::of(range.window, None),
                    },
                );
            }
            Ok(())
        })
    })
}
