//! Drills, and holes named by them.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::drill::{Drill, parse_hole};

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::length::{SHOPHEAD_NONE, length};
use crate::text::fixed;

/// A drill.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_drill {
    /// Its diameter; `SHOPHEAD_NONE` where there is no drill.
    pub diameter_nm: i64,
    /// What it is called, with a zero byte at the end: `#30`, `F`, `11/64`; empty where there is no drill.
    pub name: [c_char; 8],
    /// Where the diameter comes from.
    pub basis: shophead_basis,
}

impl shophead_drill {
    pub(crate) fn of(drill: Option<Drill>) -> shophead_drill {
        match drill {
            Some(drill) => shophead_drill {
                diameter_nm: drill.diameter().nanometres(),
                name: fixed(&drill),
                basis: shophead_basis::of(drill.basis(), &[]),
            },
            None => shophead_drill { diameter_nm: SHOPHEAD_NONE, name: [0; 8], basis: shophead_basis::NONE },
        }
    }
}

/// Reads a drill: `#30`, `No. 30`, `F`, `11/64`.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `drill`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_DRILL`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_drill_parse(text: In<c_char>, length: usize, drill: Out<shophead_drill>) -> shophead_error {
    answer(|| {
        let place = drill.place()?;
        let read = Drill::parse(text.text(length)?)?;
        place.put(shophead_drill::of(Some(read)));
        Ok(())
    })
}

/// The smallest drill that is not smaller than a diameter.
///
/// Takes: `diameter_nm`. Writes: `drill`.
///
/// Errors: `SHOPHEAD_ERROR_NO_SUCH_DRILL`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_drill_at_or_above(diameter_nm: i64, drill: Out<shophead_drill>) -> shophead_error {
    nearest(diameter_nm, drill, Drill::nearest_at_or_above)
}

/// The largest drill that is not larger than a diameter.
///
/// Takes: `diameter_nm`. Writes: `drill`.
///
/// Errors: as `shophead_drill_at_or_above`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_drill_at_or_below(diameter_nm: i64, drill: Out<shophead_drill>) -> shophead_error {
    nearest(diameter_nm, drill, Drill::nearest_at_or_below)
}

fn nearest(
    diameter_nm: i64,
    drill: Out<shophead_drill>,
    find: fn(shophead::length::Length) -> Option<Drill>,
) -> shophead_error {
    answer(|| {
        let place = drill.place()?;
        let found = find(length(diameter_nm)?).ok_or(E::SHOPHEAD_ERROR_NO_SUCH_DRILL)?;
        place.put(shophead_drill::of(Some(found)));
        Ok(())
    })
}

/// Reads the width of a hole: a drill, or any length that `shophead_length_parse` reads. A bare `30` is a length.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `nanometres`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_HOLE`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_hole_parse(text: In<c_char>, length: usize, nanometres: Out<i64>) -> shophead_error {
    answer(|| {
        let place = nanometres.place()?;
        let read = parse_hole(text.text(length)?)?;
        place.put(read.nanometres());
        Ok(())
    })
}
