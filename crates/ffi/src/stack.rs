//! The layers under one rivet.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::stack::{Layer, MAX_LAYERS, Preparation, Role, Stack};

use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::length::shophead_toleranced;
use crate::material::{number, optional};
use crate::numbers::value_of;

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
    /// What it is made of, a number from `shophead_material_parse`; 0 where it is not known.
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
pub(crate) fn stack(layers: In<shophead_layer>, count: usize) -> Result<Stack, E> {
    let mut stack = Stack::new();
    for layer in layers.list(count)? {
        let (role, material) = (value_of::<Role>(layer.role)?, optional(layer.material)?);
        let (thickness, preparation) = (layer.thickness.read()?, value_of::<Preparation>(layer.preparation)?);
        stack.push(Layer::of(thickness).role(role).material(material).preparation(preparation))?;
    }
    Ok(stack)
}

impl shophead_layer {
    fn of(layer: &Layer) -> shophead_layer {
        shophead_layer {
            thickness: shophead_toleranced::of(layer.thickness),
            material: number(layer.material),
            role: layer.role.number(),
            preparation: layer.preparation.number(),
            unused: 0,
        }
    }
}

/// The pack that a text says.
pub(crate) fn read(text: &str) -> Result<Stack, E> {
    Ok(Stack::parse(text)?)
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
        let (mut places, count) = (layers.places(capacity)?, count.place()?);
        let read = self::read(text.text(length)?)?;
        places.need(read.layers().len())?;
        for (index, layer) in read.layers().iter().enumerate() {
            places.put(index, shophead_layer::of(layer));
        }
        count.put(read.layers().len());
        Ok(())
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
        place.put(shophead_toleranced::of(stack(layers, count)?.grip()));
        Ok(())
    })
}
