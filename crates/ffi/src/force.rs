//! Forces: pounds as floating-point numbers, as the tables print them.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::quantity::Force;

use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;

/// A floating-point number that is one.
pub(crate) fn finite(number: f64) -> Result<f64, E> {
    if number.is_finite() { Ok(number) } else { Err(E::SHOPHEAD_ERROR_NOT_FINITE) }
}

/// A force of so many pounds.
pub(crate) fn force(lbf: f64) -> Result<Force, E> {
    finite(lbf).map(Force::from_lbf)
}

/// Reads a force: `250`, `250lbf`, `1100 N`; pounds where no unit is named.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `lbf`, in pounds.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_FORCE`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_force_parse(text: In<c_char>, length: usize, lbf: Out<f64>) -> shophead_error {
    answer(|| {
        let place = lbf.place()?;
        let read = Force::parse(text.text(length)?)?;
        place.put(read.lbf());
        Ok(())
    })
}

/// Pounds from newtons.
///
/// Takes: `newtons`. Writes: `lbf`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_force_from_newtons(newtons: f64, lbf: Out<f64>) -> shophead_error {
    answer(|| {
        let place = lbf.place()?;
        place.put(finite(Force::from_newtons(finite(newtons)?).lbf())?);
        Ok(())
    })
}

/// Newtons from pounds.
///
/// Takes: `lbf`. Writes: `newtons`.
///
/// Errors: as `shophead_force_from_newtons`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_force_to_newtons(lbf: f64, newtons: Out<f64>) -> shophead_error {
    answer(|| {
        let place = newtons.place()?;
        place.put(finite(force(lbf)?.newtons())?);
        Ok(())
    })
}
