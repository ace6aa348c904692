//! The strength of a rivet through a stack of layers.

use super::strength::{Joint, JointStrength, Rivet, Shear, Sheet, StrengthError};
use crate::length::Length;
use crate::rivet::part::Part;
use crate::stack::{MAX_LAYERS, Stack};

/// What one rivet carries through a stack, every layer at the same edge distance.
///
/// Shims and sealant carry nothing and are left out. A layer of unknown material leaves the strength unpublished.
///
/// # Errors
/// As [`super::strength::strength`].
///
/// ```
/// use shophead::joint::pack::strength_through;
/// use shophead::joint::strength::Shear;
/// use shophead::length::{Length, Toleranced};
/// use shophead::material::Material;
/// use shophead::rivet::part::Part;
/// use shophead::stack::{Layer, Stack};
/// let material = Some(Material::parse("2024-T3")?);
/// let mut stack = Stack::new();
/// stack.push(Layer { material, ..Layer::of(Toleranced::parse(".064")?) })?;
/// stack.push(Layer { material, ..Layer::of(Toleranced::parse(".125")?) })?;
/// let found = strength_through(&Part::parse("MS20470AD4")?, &stack, Length::parse(".25")?, None, None, Shear::Single)?;
/// assert!((found.allowable.unwrap().force.lbf() - 388.0).abs() < 1.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn strength_through(
    rivet: &Part<'_>,
    stack: &Stack,
    edge: Length,
    hole: Option<Length>,
    pitch: Option<Length>,
    shear: Shear,
) -> Result<JointStrength<'static>, StrengthError> {
    let mut found = JointStrength::nothing_yet();
    strength_through_into(&mut found, rivet, stack, edge, hole, pitch, shear)?;
    Ok(found)
}

/// As [`strength_through`], into an answer that the caller keeps: it is two and a half kilobytes, and one returned by value stands on
/// the stack twice.
///
/// # Errors
/// As [`strength_through`]; what was filled in until then is no answer.
pub fn strength_through_into(
    found: &mut JointStrength<'static>,
    rivet: &Part<'_>,
    stack: &Stack,
    edge: Length,
    hole: Option<Length>,
    pitch: Option<Length>,
    shear: Shear,
) -> Result<(), StrengthError> {
    let mut sheets = heapless::Vec::<Sheet<'static>, MAX_LAYERS>::new();
    for layer in stack.load_carrying() {
        let thickness = layer.thickness.nominal();
        let properties = layer.material.and_then(|material| material.properties(thickness));
        let sheet = Sheet { properties, thickness, edge, preparation: layer.preparation };
        sheets.push(sheet).map_err(|_| StrengthError::TooManySheets)?;
    }
    let rivet = Rivet {
        diameter: rivet.size().shank_nominal,
        head: rivet.series().head,
        driven_shear: rivet.alloy().fsu_driven(),
    };
    found.fill(&Joint { sheets: &sheets, rivet, hole, shear, pitch, load: None })
}
