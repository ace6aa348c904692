//! The strength of a rivet through a stack of layers.

use super::compare::Carried;
use super::margin::{Factors, Load};
use super::strength::{Governing, Joint, JointStrength, Rivet, Shear, Sheet, StrengthError, weakest};
use crate::finding::{Code, Finding};
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
/// let found = strength_through(&Part::parse("MS20470AD4")?, &stack, Length::parse(".25")?, None, None, Shear::Single, None)?;
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
    load: Option<(Load, Factors)>,
) -> Result<JointStrength, StrengthError> {
    let mut found = JointStrength::nothing_yet();
    strength_through_into(&mut found, rivet, stack, edge, hole, pitch, shear, load)?;
    Ok(found)
}

/// As [`strength_through`], into an answer that the caller keeps: it is two and a half kilobytes, and one returned by value stands on
/// the stack twice.
///
/// # Errors
/// As [`strength_through`]; what was filled in until then is no answer.
#[expect(clippy::too_many_arguments, reason = "those of strength_through and the place of the answer")]
pub fn strength_through_into(
    found: &mut JointStrength,
    rivet: &Part<'_>,
    stack: &Stack,
    edge: Length,
    hole: Option<Length>,
    pitch: Option<Length>,
    shear: Shear,
    load: Option<(Load, Factors)>,
) -> Result<(), StrengthError> {
    let mut sheets = heapless::Vec::new();
    put_sheets(stack, edge, &mut sheets)?;
    found.fill(&Joint { sheets: &sheets, rivet: rivet_of(rivet), hole, shear, pitch, load })?;
    number_as_in(stack, found);
    Ok(())
}

/// What is compared of a strength through a stack in single shear, and the first finding of an edge margin below the tables.
#[inline(never)]
pub(crate) fn carried_through(
    rivet: &Part<'_>,
    stack: &Stack,
    edge: Length,
    hole: Option<Length>,
    pitch: Option<Length>,
) -> Result<(Carried, Option<Finding>), StrengthError> {
    let mut sheets = heapless::Vec::new();
    put_sheets(stack, edge, &mut sheets)?;
    let joint = Joint { sheets: &sheets, rivet: rivet_of(rivet), hole, shear: Shear::Single, pitch, load: None };
    let mut below_table = None;
    let found = weakest(&joint, &mut |_| (), &mut |finding: Finding| {
        if finding.code() == Code::EdgeMarginBelowTable && below_table.is_none() {
            below_table = Some(finding.renumbered(|sheet| number_in(stack, sheet)));
        }
    })?;
    let carried = Carried { allowable: found.load().0, basis: found.basis };
    Ok((carried, below_table))
}

fn put_sheets(
    stack: &Stack,
    edge: Length,
    sheets: &mut heapless::Vec<Sheet<'static>, MAX_LAYERS>,
) -> Result<(), StrengthError> {
    for layer in stack.load_carrying() {
        let thickness = layer.thickness.nominal();
        let properties = layer.material.and_then(|material| material.properties(thickness));
        let sheet = Sheet { properties, thickness, edge, preparation: layer.preparation };
        sheets.push(sheet).map_err(|_| StrengthError::TooManySheets)?;
    }
    Ok(())
}

fn rivet_of(rivet: &Part<'_>) -> Rivet {
    Rivet { diameter: rivet.size().shank_nominal, head: rivet.series().head, driven_shear: rivet.alloy().fsu_driven() }
}

/// The number in the whole stack of a sheet that was counted among those that carry load.
fn number_in(stack: &Stack, sheet: u8) -> u8 {
    let mut layers = stack.numbered_load_carrying().map(|(number, _)| number);
    layers.nth(usize::from(sheet.saturating_sub(1))).unwrap_or(sheet)
}

/// Numbers the sheets of an answer as layers of the whole stack, shims and sealant counted.
fn number_as_in(stack: &Stack, found: &mut JointStrength) {
    let number = |sheet: u8| number_in(stack, sheet);
    for sheet in &mut found.sheets {
        sheet.layer = number(sheet.layer);
    }
    found.governing = found.governing.map(|governing| Governing { layer: governing.layer.map(number), ..governing });
    found.net_section = found.net_section.map(|(net, sheet)| (net, number(sheet)));
    found.findings.renumber(number);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::Toleranced;
    use crate::material::Material;
    use crate::stack::{Layer, Role};

    #[test]
    fn layers_keep_their_numbers_past_sealant_and_shims() {
        let length = |text| Length::parse(text).expect("a length");
        let layer = |material: Option<&str>, role, thickness| Layer {
            role,
            material: material.map(|material| Material::parse(material).expect("a material")),
            ..Layer::of(Toleranced::exactly(length(thickness)))
        };
        let mut stack = Stack::new();
        for layer in [
            layer(Some("2024-T3"), Role::Skin, ".125"),
            layer(None, Role::Sealant, ".005"),
            layer(Some("5052-H32"), Role::Tab, ".032"),
            layer(None, Role::Tab, ".040"),
        ] {
            stack.push(layer).expect("room");
        }
        let rivet = Part::parse("MS20470AD4").expect("a part");
        let found = strength_through(&rivet, &stack, length(".25"), None, None, Shear::Single, None).expect("a joint");
        let numbers: heapless::Vec<u8, 8> = found.sheets.iter().map(|sheet| sheet.layer).collect();
        assert_eq!(numbers, [1, 3, 4]);
        assert!(found.findings.iter().any(|finding| finding.layer() == Some(4)), "the tab without material");
    }
}
