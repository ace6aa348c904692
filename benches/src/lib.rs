//! The cases that the benchmarks share. Every benchmark asserts its answer, so that a fast wrong one does not count.

use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::stack::{Layer, Stack};

/// A skin, a doubler and a cap: an ordinary pack.
///
/// # Panics
/// Never; the texts are right.
#[must_use]
pub fn pack() -> Stack {
    let mut stack = Stack::new();
    for (material, thickness) in [("clad 2024-T3", ".032+-.002"), ("2024-T3", ".040+-.002"), ("7075-T6", ".125+-.003")]
    {
        let material = Some(Material::parse(material).expect("a material"));
        let thickness = Toleranced::parse(thickness).expect("a thickness");
        stack.push(Layer::of(thickness).material(material)).expect("room");
    }
    stack
}

/// Reads a length that is known to be one.
///
/// # Panics
/// When it is not.
#[must_use]
pub fn inches(text: &str) -> Length {
    Length::parse(text).expect(text)
}
