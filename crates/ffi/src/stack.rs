//! The layers under one rivet.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::material::Material;
use shophead::stack::{Layer, MAX_LAYERS, Preparation, Role, Stack};

use crate::border::{In, Out, Place, Places, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::length::shophead_toleranced;
use crate::material::{material, number};
use crate::numbers::value_of;
use crate::practice::{SHOPHEAD_OWN_MATERIAL, shophead_practice};

/// What a layer is.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_role(pub u32);

/// How the hole in a layer takes a flush head.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_preparation(pub u32);

/// One layer.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_layer {
    /// How thick it is; above zero.
    pub thickness: shophead_toleranced,
    /// What it is made of, a number from `shophead_material_parse`, or one of the practice's own: `SHOPHEAD_OWN_MATERIAL`; 0 where it is not
    /// known.
    pub material: u32,
    /// What it is, one of `enum shophead_role`.
    pub role: u32,
    /// How its hole takes a flush head, one of `enum shophead_preparation`.
    pub preparation: u32,
    /// Not used; 0.
    pub unused: u32,
}

/// The most layers under one rivet.
pub const SHOPHEAD_MAX_LAYERS: usize = 8;

const _: () = assert!(MAX_LAYERS == SHOPHEAD_MAX_LAYERS, "the core takes another number of layers");

/// The pack, the side of the manufactured head first.
pub(crate) fn stack(
    layers: In<shophead_layer>,
    count: usize,
    material: &dyn Fn(u32) -> Result<Option<Material>, E>,
) -> Result<Stack, E> {
    let mut stack = Stack::new();
    for layer in layers.list(count)? {
        let (role, material) = (value_of::<Role>(layer.role)?, material(layer.material)?);
        let (thickness, preparation) = (layer.thickness.read()?, value_of::<Preparation>(layer.preparation)?);
        stack.push(Layer::of(thickness).role(role).material(material).preparation(preparation))?;
    }
    Ok(stack)
}

impl shophead_layer {
    fn of(layer: &Layer, material: u32) -> shophead_layer {
        shophead_layer {
            thickness: shophead_toleranced::of(layer.thickness),
            material,
            role: layer.role.number(),
            preparation: layer.preparation.number(),
            unused: 0,
        }
    }
}

/// A material that is on file, or 0 for one that is not known.
pub(crate) fn on_file(number: u32) -> Result<Option<Material>, E> {
    if number == 0 { Ok(None) } else { self::material(number).map(Some) }
}

/// Puts layers into the caller's array, each with the number of its material.
fn put(
    read: &Stack,
    mut places: Places<'_, shophead_layer>,
    count: Place<'_, usize>,
    number: impl Fn(Option<Material>) -> Result<u32, E>,
) -> Result<(), E> {
    places.need(read.layers().len())?;
    for (index, layer) in read.layers().iter().enumerate() {
        places.put(index, shophead_layer::of(layer, number(layer.material)?));
    }
    count.put(read.layers().len());
    Ok(())
}

/// Reads a list of layers, the side of the manufactured head first: `2024-T3:.032:countersunk, clad 2024-T3:.125+-.004, .005:sealant`.
/// A layer may leave out its material.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `layers`, an array of the caller's with room for `capacity`
/// (`SHOPHEAD_MAX_LAYERS` always suffices); `count`, how many of them.
///
/// Errors: `SHOPHEAD_ERROR_NOT_LAYERS` (`shophead_explain` says which layer, and what is wrong with it), `SHOPHEAD_ERROR_NOT_UTF8`,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_layers_parse(
    text: In<c_char>,
    length: usize,
    layers: Out<shophead_layer>,
    capacity: usize,
    count: Out<usize>,
) -> shophead_error {
    answer(|| {
        let (places, count) = (layers.places(capacity)?, count.place()?);
        put(&Stack::parse(text.text(length)?)?, places, count, |material| Ok(number(material)))
    })
}

/// Reads a list of layers as `shophead_layers_parse`, whose materials may also be a shop's own: those that figures by their keys are of.
///
/// Takes: as `shophead_layers_parse`; `practice`, the caller's: the numbers of the shop's own materials are good with this one. Writes: as
/// `shophead_layers_parse`.
///
/// Errors: as `shophead_layers_parse`; those of a practice.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_layers_parse_by(
    text: In<c_char>,
    length: usize,
    practice: In<shophead_practice>,
    layers: Out<shophead_layer>,
    capacity: usize,
    count: Out<usize>,
) -> shophead_error {
    answer(|| {
        let (places, count) = (layers.places(capacity)?, count.place()?);
        let (text, asked) = (text.text(length)?, practice.one()?);
        let read = asked.with(|practice| Ok(practice.layers(text)?))?;
        put(&read, places, count, |material| material.map_or(Ok(0), |material| asked.number_of(material)))
    })
}

/// The thickness of a whole pack; tolerances add up.
///
/// Takes: `layers`, an array of `count`, the caller's, the side of the manufactured head first. Writes: `grip`.
///
/// Errors: those named `SHOPHEAD_ERROR_STACK_...`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_stack_grip(
    layers: In<shophead_layer>,
    count: usize,
    grip: Out<shophead_toleranced>,
) -> shophead_error {
    answer(|| {
        let place = grip.place()?;
        // What a shop's own material is made of does not count in how thick it is.
        let known = |number| if number < SHOPHEAD_OWN_MATERIAL { on_file(number) } else { Ok(None) };
        place.put(shophead_toleranced::of(stack(layers, count, &known)?.grip()));
        Ok(())
    })
}
