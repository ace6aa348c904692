//! Sheet materials.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::material::Material;

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::length::length;
use crate::text::print;

/// The material under a number: its place in the core's list, counted from 1.
pub(crate) fn material(number: u32) -> Result<Material, E> {
    let index = number.checked_sub(1).and_then(|index| usize::try_from(index).ok());
    index.and_then(|index| Material::known().nth(index)).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)
}

/// The number of a material; 0 where it is not known.
pub(crate) fn number(material: Option<Material>) -> u32 {
    let index = material.and_then(|material| Material::known().position(|known| known == material));
    index.and_then(|index| u32::try_from(index).ok()).map_or(0, |index| index.saturating_add(1))
}

/// Reads a sheet material: `2024-T3`, `clad 2024-T3`, `alclad 2024-T3`, `bare 7075-T6`.
///
/// The number holds while the library is loaded and may be another in another version of it: keep the text, not the number.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `material`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_MATERIAL`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_material_parse(text: In<c_char>, length: usize, material: Out<u32>) -> shophead_error {
    answer(|| {
        let place = material.place()?;
        let read = Material::parse(text.text(length)?)?;
        place.put(number(Some(read)));
        Ok(())
    })
}

/// Prints a sheet material: `clad 2024-T3`.
///
/// Takes: `material`, a number from `shophead_material_parse`; materials are numbered from 1 without a gap, so counting up until
/// `SHOPHEAD_ERROR_UNKNOWN_NUMBER` lists them all. Writes: the text into `buffer`, which has room for `capacity` bytes, with a zero byte
/// after it; its length without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_material_print(
    material: u32,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    answer(|| print(&self::material(material)?, buffer, capacity, length))
}

/// What a sheet carries in tension, and where it stands.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_tension {
    /// Ultimate tension in pounds per square inch, the lesser of along and across the grain.
    pub ultimate_psi: f64,
    /// Yield in tension in pounds per square inch, likewise; 0 where it is not published.
    pub yield_psi: f64,
    /// Where they come from.
    pub basis: shophead_basis,
}

/// The design minimum tension strength of a sheet material in one thickness.
///
/// Takes: `material`, a number from `shophead_material_parse`; `thickness_nm`. Writes: `tension`.
///
/// Errors: `SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_material_tension(
    material: u32,
    thickness_nm: i64,
    tension: Out<shophead_tension>,
) -> shophead_error {
    answer(|| {
        let place = tension.place()?;
        let material = self::material(material)?;
        let properties = material.properties(length(thickness_nm)?).ok_or(E::SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED)?;
        let ultimate = properties.ftu().ok_or(E::SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED)?;
        place.put(shophead_tension {
            ultimate_psi: ultimate.psi(),
            yield_psi: properties.fty().map_or(0.0, |stress| stress.psi()),
            basis: shophead_basis::of(properties.basis(), &[]),
        });
        Ok(())
    })
}
