//! The strength of a rivet through a stack of layers.

use super::compare::Carried;
use super::margin::{Factors, Load};
use super::strength::{
    Governing, Joint, JointStrength, Rivet, RivetKeys, Shear, Sheet, StrengthError, counted_in_tests, weakest,
};
use crate::basis::Basis;
use crate::finding::{Code, Finding, Severity};
use crate::length::Length;
use crate::practice::Practice;
use crate::quantity::Stress;
use crate::rivet::part::Part;
use crate::stack::{MAX_LAYERS, Stack};

/// A rivet in its row: the inside of [`Installation::strength`](crate::installation::Installation::strength).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Made<'s, 'p> {
    /// The rivet.
    pub(crate) rivet: &'s Part<'p>,
    /// What it goes through; every layer has the same edge distance.
    pub(crate) stack: &'s Stack,
    /// To the nearest edge in the direction of the load.
    pub(crate) edge: Length,
    /// The hole as it is, when known; otherwise the nominal hole.
    pub(crate) hole: Option<Length>,
    /// From rivet to rivet in the row; greater than the hole.
    pub(crate) pitch: Option<Length>,
    /// Rows behind each other, all alike; at least one.
    pub(crate) rows: u16,
    /// From row to row where each rivet stands against the gap of the next row; `None` for rows in line.
    pub(crate) staggered: Option<Length>,
    /// Single or double shear.
    pub(crate) shear: Shear,
    /// The load on one rivet.
    pub(crate) load: Option<(Load, Factors)>,
    /// The strength of the driven rivet and where it stands.
    pub(crate) driven: Option<(Stress, Basis)>,
    /// The limits, with what the shop entered.
    pub(crate) practice: &'p Practice<'p>,
    /// How serious it is where a strength is not published.
    pub(crate) unpublished: Severity,
}

impl<'p> Made<'_, 'p> {
    /// What one rivet carries, into an answer that the caller keeps: it is two kilobytes, and one returned by value stands on the stack twice.
    ///
    /// Shims and sealant carry nothing and are left out. A layer of unknown material leaves the strength unpublished.
    ///
    /// # Errors
    /// As [`super::strength::strength`]; what was filled in until then is no answer.
    #[inline(never)]
    pub(crate) fn strength_into(&self, found: &mut JointStrength) -> Result<(), StrengthError> {
        let mut sheets = heapless::Vec::new();
        found.fill(&self.joint(&mut sheets)?)?;
        number_as_in(self.stack, found);
        Ok(())
    }

    /// What is compared of it, and the first finding of an edge margin below the tables.
    #[inline(never)]
    pub(crate) fn carried(&self) -> Result<(Carried, Option<Finding>), StrengthError> {
        let mut sheets = heapless::Vec::new();
        let joint = self.joint(&mut sheets)?;
        let (mut below_table, mut key) = (None, None);
        let found = weakest(&joint, &mut |_| (), &mut |finding: Finding| {
            key = key.or(finding.key());
            if finding.code() == Code::EdgeMarginBelowTable && below_table.is_none() {
                below_table = Some(finding.renumbered(|sheet| number_in(self.stack, sheet)));
            }
        })?;
        let carried = Carried { allowable: found.load().0, basis: found.basis, key };
        Ok((carried, below_table))
    }

    fn joint<'j>(&self, sheets: &'j mut heapless::Vec<Sheet<'p>, MAX_LAYERS>) -> Result<Joint<'j>, StrengthError> {
        self.put_sheets(sheets)?;
        let Made { hole, pitch, shear, load, unpublished, .. } = *self;
        let (diameter, head) = (self.rivet.size().shank_nominal, self.rivet.series().head);
        let rivet = Rivet { diameter, head, driven_shear: self.driven, keys: RivetKeys::of(self.rivet) };
        Ok(Joint { sheets, rivet, hole, shear, pitch, load, unpublished })
    }

    fn put_sheets(&self, sheets: &mut heapless::Vec<Sheet<'p>, MAX_LAYERS>) -> Result<(), StrengthError> {
        let shank = self.rivet.size().shank_nominal;
        for layer in self.stack.load_carrying() {
            let (thickness, preparation) = (layer.thickness.nominal(), layer.preparation);
            let properties = layer.material.map(|material| self.practice.sheet(material, thickness));
            let tested = |material| {
                let edge = (self.edge, counted_in_tests(shank, self.hole));
                self.practice.entered_joint(self.rivet, preparation, (material, thickness), edge)
            };
            let entered_joint = layer.material.and_then(tested);
            let sheet = Sheet { properties, thickness, edge: self.edge, preparation, entered_joint };
            sheets.push(sheet).map_err(|_| StrengthError::TooManySheets)?;
        }
        Ok(())
    }
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
    use crate::practice::HANDBOOK;
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
        let made = Made {
            rivet: &rivet,
            stack: &stack,
            edge: length(".25"),
            hole: None,
            pitch: None,
            rows: 1,
            staggered: None,
            shear: Shear::Single,
            load: None,
            driven: rivet.alloy().fsu_driven(),
            practice: &HANDBOOK,
            unpublished: Severity::Refer,
        };
        let mut found = JointStrength::nothing_yet();
        made.strength_into(&mut found).expect("a joint");
        let numbers: heapless::Vec<u8, 8> = found.sheets.iter().map(|sheet| sheet.layer).collect();
        assert_eq!(numbers, [1, 3, 4]);
        assert!(found.findings.iter().any(|finding| finding.layer() == Some(4)), "the tab without material");
    }
}
