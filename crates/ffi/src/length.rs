//! Lengths: read, printed, with a tolerance.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;
use core::fmt;

use shophead::length::{Interval, Length, Toleranced};

use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::text::print;

/// In the place of a length: none was given, or there is none. It is no length itself.
pub const SHOPHEAD_NONE: i64 = i64::MIN;

/// A length with its tolerance, in nanometres. Handed in, the three must be in this order; a length without tolerance has all three
/// alike.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_toleranced {
    /// The least.
    pub min_nm: i64,
    /// The nominal one.
    pub nominal_nm: i64,
    /// The greatest.
    pub max_nm: i64,
}

/// A least and a greatest length, in nanometres; `SHOPHEAD_NONE` both where there is none.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_range {
    /// The least.
    pub min_nm: i64,
    /// The greatest.
    pub max_nm: i64,
}

/// How a length is printed.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_form {
    /// Decimal inches without the unit: `0.3125`.
    SHOPHEAD_FORM_INCHES = 1,
    /// Millimetres without the unit: `7.9375`.
    SHOPHEAD_FORM_MILLIMETRES = 2,
    /// The nearest sixty-fourth of an inch: `5/16`.
    SHOPHEAD_FORM_FRACTION = 3,
}

/// A length that is always given.
pub(crate) fn length(nanometres: i64) -> Result<Length, E> {
    Length::from_nanometres(nanometres).ok_or(E::SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE)
}

/// A length that may be missing.
pub(crate) fn optional(nanometres: i64) -> Result<Option<Length>, E> {
    if nanometres == SHOPHEAD_NONE { Ok(None) } else { length(nanometres).map(Some) }
}

/// A length that may be missing, on its way out.
pub(crate) fn or_none(length: Option<Length>) -> i64 {
    length.map_or(SHOPHEAD_NONE, Length::nanometres)
}

impl shophead_toleranced {
    pub(crate) fn read(&self) -> Result<Toleranced, E> {
        let (min, nominal, max) = (length(self.min_nm)?, length(self.nominal_nm)?, length(self.max_nm)?);
        let far = E::SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE;
        let (below, above) = (nominal.checked_sub(min).ok_or(far)?, max.checked_sub(nominal).ok_or(far)?);
        Toleranced::new(nominal, below, above).map_err(|_| E::SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER)
    }

    pub(crate) const fn of(toleranced: Toleranced) -> shophead_toleranced {
        shophead_toleranced {
            min_nm: toleranced.min().nanometres(),
            nominal_nm: toleranced.nominal().nanometres(),
            max_nm: toleranced.max().nanometres(),
        }
    }
}

impl shophead_range {
    pub(crate) fn of(interval: Option<Interval>) -> shophead_range {
        shophead_range {
            min_nm: or_none(interval.map(|interval| interval.min())),
            max_nm: or_none(interval.map(|interval| interval.max())),
        }
    }

    /// `None` where both ends are none.
    pub(crate) fn read(&self) -> Result<Option<Interval>, E> {
        match (optional(self.min_nm)?, optional(self.max_nm)?) {
            (None, None) => Ok(None),
            (Some(min), Some(max)) => {
                Interval::new(min, max).map(Some).map_err(|_| E::SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER)
            }
            _ => Err(E::SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE),
        }
    }
}

/// Reads a length as the trade writes it: `.125`, `1/8`, `1-1/2`, `0.125 in`, `3.2mm`; inches where no unit is named.
///
/// Takes: `text`, `length` bytes of UTF-8, without a zero byte at the end; the caller's, not kept. Writes: `nanometres`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_LENGTH`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_parse(text: In<c_char>, length: usize, nanometres: Out<i64>) -> shophead_error {
    answer(|| {
        let place = nanometres.place()?;
        let read = Length::parse(text.text(length)?)?;
        place.put(read.nanometres());
        Ok(())
    })
}

/// Reads a length that may have a tolerance: `.032`, `.032+-.002`, `.125+.003-.001`.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `toleranced`.
///
/// Errors: as `shophead_length_parse`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_toleranced_parse(
    text: In<c_char>,
    length: usize,
    toleranced: Out<shophead_toleranced>,
) -> shophead_error {
    answer(|| {
        let place = toleranced.place()?;
        let read = Toleranced::parse(text.text(length)?)?;
        place.put(shophead_toleranced::of(read));
        Ok(())
    })
}

/// Prints a length.
///
/// Takes: `nanometres`; `form`, one of `enum shophead_form`. Writes: the text into `buffer`, which has room for `capacity` bytes, with a
/// zero byte after it; its length without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_length_print(
    nanometres: i64,
    form: u32,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    const INCHES: u32 = shophead_form::SHOPHEAD_FORM_INCHES as u32;
    const MILLIMETRES: u32 = shophead_form::SHOPHEAD_FORM_MILLIMETRES as u32;
    const FRACTION: u32 = shophead_form::SHOPHEAD_FORM_FRACTION as u32;
    answer(|| {
        let value = self::length(nanometres)?;
        let (millimetres, fraction) = (value.in_millimetres(), value.to_64ths());
        let text: &dyn fmt::Display = match form {
            INCHES => &value,
            MILLIMETRES => &millimetres,
            FRACTION => &fraction,
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        print(text, buffer, capacity, length)
    })
}
