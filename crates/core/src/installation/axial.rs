//! What a rivet does along its axis: how much it is to be pulled with, and the force that forms its head.

use super::Installation;
use crate::joint::modes;
use crate::joint::strength::{Allowable, JointStrength};
use crate::length::Length;
use crate::practice::{Case, Given, Name};
use crate::quantity::Force;
use crate::squeeze::{Squeeze, flow_law, squeeze};
use crate::stack::Layer;

/// Along the axis of a rivet.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Axial {
    /// Pull that tears the manufactured head through the first sheet and a least driven head through the last: upper bounds. A flush head sits in
    /// its sheet, not on it: nothing is said about how it pulls through.
    pub pull: [Option<Force>; 2],
    /// The most that the rivet is to be pulled with: a part of its shear, and never more than the sheets hold its heads with.
    pub tension: Option<Allowable>,
    /// The driven head to aim at, and the force that forms it; `None` for an alloy that nobody has tested.
    pub squeeze: Option<(Length, Squeeze)>,
}

impl Installation<'_, '_> {
    /// The head on this side, and the sheet that it holds: the manufactured one on the first, a least driven one on the last.
    pub(crate) fn held(&self) -> [Option<(Given<Length>, u8, Layer)>; 2] {
        let size = self.rivet.size();
        let manufactured = size
            .head
            .filter(|_| !self.rivet.series().head.is_flush())
            .map(|head| Given { value: head.diameter_nominal, basis: head.basis });
        let driven = self.practice.length(Name::HeadDiameterLeast, &Case::for_part(&self.rivet));
        let mut layers = self.stack.into_iter().flat_map(crate::stack::Stack::numbered_load_carrying);
        let first = layers.next();
        let last = layers.last().or(first);
        [(manufactured, first), (driven, last)].map(|(head, layer)| {
            let (head, (number, layer)) = head.zip(layer)?;
            Some((head, number, *layer))
        })
    }

    /// The driven head to aim at.
    pub(crate) fn head_wanted(&self) -> Option<Given<Length>> {
        self.practice.length(Name::HeadDiameterTarget, &Case::for_part(&self.rivet))
    }

    /// What the rivet does along its axis, from what it carries in shear.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.040, 2024-T3:.064")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers);
    /// let found = question.axial(&question.strength()?);
    /// // A fifth of the 388 lbf that it is sheared at: long before a head comes through.
    /// assert!((found.tension.unwrap().force.lbf() - 77.6).abs() < 0.5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn axial(&self, found: &JointStrength) -> Axial {
        let pull = self.held().map(|held| {
            let (head, _, layer) = held?;
            let thickness = layer.thickness.nominal();
            let fsu = self.practice.sheet(layer.material?, thickness).fsu()?;
            Some(modes::pull_through(fsu, head.value, thickness))
        });
        let squeeze = self.head_wanted().and_then(|head| {
            let law = flow_law(self.rivet.alloy())?;
            Some((head.value, squeeze(law, self.rivet.size().shank_nominal, head.value).ok()?))
        });
        let tension = modes::tension(found.shear_of_one_plane(), pull.iter().flatten().copied().reduce(Force::min));
        Axial { pull, tension, squeeze }
    }
}
