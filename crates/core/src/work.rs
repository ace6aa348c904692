//! The order of work on a panel, and the bar that a rivet is bucked with.

use crate::basis::Basis;
use crate::length::Length;
use crate::practice::Given;

crate::words::words! {
    /// A step of the work on a panel, in the order in which they are taken.
    #[non_exhaustive]
    WorkStep, "step of the work" {
        Support = 1, "support", "Support the structure before any part that keeps it straight comes out.";
        DrillOut = 2, "drill-out", "Centre punch, drill to the base of the head, snap the head off, punch the shank out. No cold chisel.";
        Neighbours = 3, "neighbours", "Take out a rivet or two beside each damage: look for long holes and shanks that have begun to shear.";
        Clean = 4, "clean", "Clean and deburr the members, and look at what the old skin covered.";
        FitSkin = 5, "fit-skin", "Keep the old skin whole: it is the template for the holes of the new one.";
        Tack = 6, "tack", "Pilot the holes, then tack every fifth or sixth one.";
        Open = 7, "open", "Open the holes square to the skin, step by step, and measure each one that was opened.";
        Protect = 8, "protect", "Take the sheets apart, deburr both sides, treat and prime bare metal; unlike metals go together wet.";
        Drive = 9, "drive", "Rivet from a fixed edge or from the middle outwards.";
        Gauge = 10, "gauge", "Stop each driven head inside its window; gauge the first of each size.";
        Inspect = 11, "inspect", "Inspect every driven rivet and write down what was found.";
        Close = 12, "close", "Take the tack fasteners out, seal and refinish, have the record signed, then close up.";
    }
}

impl WorkStep {
    /// Where it stands.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            WorkStep::Support | WorkStep::DrillOut | WorkStep::Neighbours => Basis::AC43_REMOVAL,
            WorkStep::FitSkin => Basis::ARMY_OLD_SKIN,
            _ => Basis::SHOP_SEQUENCE,
        }
    }
}

/// The weight of a bucking bar in pounds, the least and the greatest, for a rivet of this diameter; `None` for a diameter that no list at hand
/// names.
///
/// ```
/// use shophead::length::Length;
/// use shophead::work::bar_weight;
/// let bar = bar_weight(Length::from_64ths(8)).unwrap();
/// assert_eq!(bar.value, (3.0, 4.0));
/// assert_eq!(bar.basis.status(), shophead::basis::Status::Memory);
/// assert!(bar_weight(Length::from_64ths(7)).is_none());
/// ```
#[must_use]
pub fn bar_weight(diameter: Length) -> Option<Given<(f64, f64)>> {
    /// Sixty-fourths of an inch, pounds.
    const BARS: [(i16, (f64, f64)); 5] =
        [(6, (2.0, 3.0)), (8, (3.0, 4.0)), (10, (3.0, 4.5)), (12, (4.0, 5.0)), (16, (5.0, 6.5))];
    let (_, value) = BARS.into_iter().find(|(sixty_fourths, _)| Length::from_64ths(*sixty_fourths) == diameter)?;
    Some(Given { value, basis: Basis::BAR_WEIGHT })
}
