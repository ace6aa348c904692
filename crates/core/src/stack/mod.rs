//! The layers under one rivet.
//!
//! Layers are counted from 1 on the side of the manufactured head. Every layer counts towards the grip, sealant too: what lies
//! between the heads has to be filled.

mod parse;

pub use parse::{LayerErrorKind, ParseStackError};

use crate::length::{Length, Toleranced};
use crate::material::Material;
use crate::setters::setters;

/// The most layers under one rivet.
pub const MAX_LAYERS: usize = 8;

crate::words::words! {
    /// What a layer is.
    #[derive(Default)]
    #[non_exhaustive]
    Role, "role of a layer" {
        #[default] Skin = 1, "skin", "Outer skin.";
        Doubler = 2, "doubler", "A sheet that doubles another.";
        Cap = 3, "cap", "The cap of a spar, keel or beam.";
        RibFlange = 4, "rib-flange", "The flange of a rib or frame.";
        Stringer = 5, "stringer", "A stringer or stiffener.";
        Tab = 6, "tab", "A tab or bracket foot.";
        Shim = 7, "shim", "A shim or filler that carries no load.";
        Sealant = 8, "sealant", "Sealant between faying surfaces, as thick as it is when clamped.";
    }
}

impl Role {
    /// Whether the layer carries load, so that its thickness counts for rivet diameter, bearing and countersink.
    #[must_use]
    pub const fn carries_load(self) -> bool {
        !matches!(self, Role::Shim | Role::Sealant)
    }
}

crate::words::words! {
    /// How the hole in a layer takes a flush head.
    #[derive(Default)]
    #[non_exhaustive]
    Preparation, "preparation" {
        #[default] Plain = 1, "plain", "A plain hole.";
        Countersunk = 2, "countersunk", "Cut away to the cone of the head.";
        Dimpled = 3, "dimpled", "Pressed to the cone of the head.";
    }
}

/// One layer.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Layer {
    /// What it is.
    pub role: Role,
    /// What it is made of, where known.
    pub material: Option<Material>,
    /// How thick it is.
    pub thickness: Toleranced,
    /// How its hole takes a flush head.
    pub preparation: Preparation,
}

impl Layer {
    setters! {
        /// What it is: skin, doubler, filler, member.
        role: Role;
        /// Its metal.
        material: Option<Material>;
        /// Its thickness.
        thickness: Toleranced;
        /// Plain, countersunk or dimpled.
        preparation: Preparation;
    }
}

impl Layer {
    /// A skin of unknown material with a plain hole.
    #[must_use]
    pub const fn of(thickness: Toleranced) -> Layer {
        Layer { role: Role::Skin, material: None, thickness, preparation: Preparation::Plain }
    }
}

crate::words::errors! {
    /// Why a layer cannot go on a stack.
    StackError {
        TooManyLayers = 80, "stack-too-many-layers", "There are already [`MAX_LAYERS`].",
            "at most {MAX_LAYERS} layers in one pack";
        NotPositive = 81, "stack-not-positive", "The layer may be zero thick or less.",
            "a layer needs a thickness above zero, at the low end of its tolerance too";
        TooThick = 82, "stack-too-thick", "The pack would leave the range of [`Length`].",
            "the pack is thicker than a kilometre";
    }
}

/// The layers under one rivet, the side of the manufactured head first.
///
/// ```
/// use shophead::length::{Length, Toleranced};
/// use shophead::stack::{Layer, Stack};
/// let mut stack = Stack::new();
/// stack.push(Layer::of(Toleranced::parse(".032+-.002")?))?;
/// stack.push(Layer::of(Toleranced::parse(".125+-.005")?))?;
/// let grip = stack.grip();
/// assert_eq!((grip.min(), grip.max()), (Length::parse(".150")?, Length::parse(".164")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stack {
    layers: heapless::Vec<Layer, MAX_LAYERS>,
}

impl Stack {
    /// No layers yet.
    #[must_use]
    pub const fn new() -> Stack {
        Stack { layers: heapless::Vec::new() }
    }

    /// Puts a layer under those already there.
    ///
    /// # Errors
    /// [`StackError`]; the stack is then unchanged.
    pub fn push(&mut self, layer: Layer) -> Result<(), StackError> {
        if layer.thickness.min() <= Length::ZERO {
            return Err(StackError::NotPositive);
        }
        self.grip().max().checked_add(layer.thickness.max()).ok_or(StackError::TooThick)?;
        self.layers.push(layer).map_err(|_| StackError::TooManyLayers)
    }

    /// The layers, the side of the manufactured head first.
    #[must_use]
    pub fn layers(&self) -> &[Layer] {
        &self.layers
    }

    /// The thickness of the whole stack; tolerances add up, since the worst case is what counts.
    #[must_use]
    pub fn grip(&self) -> Toleranced {
        let none = Toleranced::exactly(Length::ZERO);
        self.layers.iter().fold(none, |grip, layer| grip.plus(layer.thickness))
    }

    /// Whether every layer is dimpled for a flush head, so that the far side bulges. Sealant takes the form of what lies about it.
    ///
    /// ```
    /// use shophead::stack::Stack;
    /// assert!(Stack::parse(".032:dimpled, .032:dimpled")?.is_dimpled_through());
    /// // A dimple that nests in a countersink leaves the far side flat.
    /// assert!(!Stack::parse(".025:dimpled, .063:countersunk")?.is_dimpled_through());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn is_dimpled_through(&self) -> bool {
        let mut formed = self.layers.iter().filter(|layer| layer.role != Role::Sealant).peekable();
        formed.peek().is_some() && formed.all(|layer| layer.preparation == Preparation::Dimpled)
    }

    /// The thinnest nominal thickness among the layers that carry load.
    #[must_use]
    pub fn thinnest(&self) -> Option<Length> {
        self.load_carrying().map(|layer| layer.thickness.nominal()).min()
    }

    /// The thickest nominal thickness among the layers that carry load.
    #[must_use]
    pub fn thickest(&self) -> Option<Length> {
        self.thickest_layer().map(|(_, thickness)| thickness)
    }

    /// The number of the thickest layer among those that carry load, the first of several, and its nominal thickness.
    pub(crate) fn thickest_layer(&self) -> Option<(u8, Length)> {
        let all = self.numbered_load_carrying().map(|(number, layer)| (number, layer.thickness.nominal()));
        all.reduce(|thickest, next| if next.1 > thickest.1 { next } else { thickest })
    }

    /// The layers that carry load.
    pub fn load_carrying(&self) -> impl Iterator<Item = &Layer> {
        self.numbered_load_carrying().map(|(_, layer)| layer)
    }

    /// The layers that carry load, each with its number in the whole stack.
    pub fn numbered_load_carrying(&self) -> impl Iterator<Item = (u8, &Layer)> {
        (1..).zip(&self.layers).filter(|(_, layer)| layer.role.carries_load())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layer(ten_thousandths: u16) -> Layer {
        Layer::of(Toleranced::exactly(Length::from_ten_thousandths(ten_thousandths)))
    }

    #[test]
    fn a_full_stack_refuses_one_more_and_stays_as_it_was() {
        let mut stack = Stack::new();
        for _ in 0..MAX_LAYERS {
            stack.push(layer(320)).expect("room");
        }
        let before = stack.clone();
        assert_eq!(stack.push(layer(320)), Err(StackError::TooManyLayers));
        assert_eq!(stack.push(layer(0)), Err(StackError::NotPositive));
        assert_eq!(stack, before);
    }

    #[test]
    fn sealant_fills_the_grip_but_carries_nothing() {
        let mut stack = Stack::new();
        stack.push(layer(400)).expect("room");
        stack.push(Layer { role: Role::Sealant, ..layer(50) }).expect("room");
        stack.push(layer(1250)).expect("room");
        assert_eq!(stack.grip().nominal(), Length::from_ten_thousandths(1700));
        assert_eq!(stack.thinnest(), Some(Length::from_ten_thousandths(400)));
        assert_eq!(stack.thickest(), Some(Length::from_ten_thousandths(1250)));
    }
}
