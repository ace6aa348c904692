//! Why a text could not be read, in the core's own words.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;
use core::fmt;

use shophead::drill::{Drill, parse_hole};
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{Key, Value};
use shophead::quantity::Force;
use shophead::rivet::part::Part;
use shophead::stack::Stack;

use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::numbers::value_of;
use crate::text::print;

/// What a text was read as.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_reading {
    /// By `shophead_length_parse`.
    SHOPHEAD_READING_LENGTH = 1,
    /// By `shophead_toleranced_parse`.
    SHOPHEAD_READING_TOLERANCED = 2,
    /// By `shophead_force_parse`.
    SHOPHEAD_READING_FORCE = 3,
    /// By `shophead_drill_parse`.
    SHOPHEAD_READING_DRILL = 4,
    /// By `shophead_hole_parse`.
    SHOPHEAD_READING_HOLE = 5,
    /// By `shophead_part_parse`.
    SHOPHEAD_READING_PART = 6,
    /// By `shophead_material_parse`.
    SHOPHEAD_READING_MATERIAL = 7,
    /// By `shophead_value_parse`.
    SHOPHEAD_READING_VALUE = 8,
    /// By `shophead_layers_parse` or `shophead_length_fit`.
    SHOPHEAD_READING_LAYERS = 9,
    /// By `shophead_key_parse`.
    SHOPHEAD_READING_KEY = 10,
}

const LENGTH: u32 = shophead_reading::SHOPHEAD_READING_LENGTH as u32;
const TOLERANCED: u32 = shophead_reading::SHOPHEAD_READING_TOLERANCED as u32;
const FORCE: u32 = shophead_reading::SHOPHEAD_READING_FORCE as u32;
const DRILL: u32 = shophead_reading::SHOPHEAD_READING_DRILL as u32;
const HOLE: u32 = shophead_reading::SHOPHEAD_READING_HOLE as u32;
const PART: u32 = shophead_reading::SHOPHEAD_READING_PART as u32;
const MATERIAL: u32 = shophead_reading::SHOPHEAD_READING_MATERIAL as u32;
const VALUE: u32 = shophead_reading::SHOPHEAD_READING_VALUE as u32;
const LAYERS: u32 = shophead_reading::SHOPHEAD_READING_LAYERS as u32;
const KEY: u32 = shophead_reading::SHOPHEAD_READING_KEY as u32;

/// Why a text could not be read: what is wrong, mostly at which character, and what would be right. The text is read once more for it, so
/// it can be called at any time, by any thread. Of a text that can be read there is nothing to say: the sentence is empty.
///
/// Takes: `reading`, one of `enum shophead_reading`; `name`, one of `enum shophead_limit_name` with `SHOPHEAD_READING_VALUE`, otherwise 0;
/// `text`, `text_length` bytes of UTF-8; the caller's, not kept. Writes: the sentence into `buffer`, which has room for `capacity` bytes
/// (`SHOPHEAD_TEXT_MAX` always suffices), with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_explain(
    reading: u32,
    name: u32,
    text: In<c_char>,
    text_length: usize,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    answer(|| {
        let text = text.text(text_length)?;
        let say = |error: Option<&dyn fmt::Display>| print(error.unwrap_or(&""), buffer, capacity, length);
        /// The error of a reading, if there is one.
        macro_rules! why {
            ($read:expr) => {{
                let error = $read.err();
                say(error.as_ref().map(|error| -> &dyn fmt::Display { error }))
            }};
        }
        match reading {
            LENGTH => why!(Length::parse(text)),
            TOLERANCED => why!(Toleranced::parse(text)),
            FORCE => why!(Force::parse(text)),
            DRILL => why!(Drill::parse(text)),
            HOLE => why!(parse_hole(text)),
            PART => why!(Part::parse(text)),
            MATERIAL => why!(Material::parse(text)),
            VALUE => why!(Value::parse(value_of(name)?, text)),
            LAYERS => why!(Stack::parse(text)),
            KEY => why!(Key::parse(text)),
            _ => Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        }
    })
}
