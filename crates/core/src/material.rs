//! Sheet alloys and rivet alloys, and their strengths.
//!
//! [`Material`] is a sheet by name, [`SheetProperties`] one column of the handbook's strengths, [`RivetAlloy`] what a rivet is
//! made of.

mod name_table;
mod named;
mod rivet_alloy;
mod rivet_alloy_table;
mod sheet_table;

use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::Stress;

pub use named::{Material, ParseMaterialError};
pub use rivet_alloy::{DrivenShear, HeatTreatment, RivetAlloy, RivetUse, Treatment};

/// Every column of the handbook's tables that was read, in printed order. To find the one for a sheet see
/// [`Material::properties`].
#[must_use]
pub const fn sheets() -> &'static [SheetProperties] {
    sheet_table::SHEETS
}

/// How a handbook guarantees a strength.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Guarantee {
    /// At least 99 % of values, with 95 % confidence.
    A,
    /// At least 90 % of values, with 95 % confidence.
    B,
    /// The minimum of the material specification.
    S,
}

/// One column of the handbook's table of design mechanical properties: an alloy, temper and form in a range of thickness.
///
/// A value is `None` where the table leaves the cell empty.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SheetProperties {
    /// The alloy's number, such as `2024`.
    pub alloy: &'static str,
    /// The temper, such as `T3`. A column for two tempers has both, as printed: `T6 and T62`.
    pub temper: &'static str,
    /// The form as printed: `sheet`, `flat sheet`, `coiled sheet`, `plate`.
    pub form: &'static str,
    /// Whether the sheet is clad.
    pub clad: bool,
    /// The material specification.
    pub specification: &'static str,
    /// Least thickness of the column.
    pub t_min: Length,
    /// Greatest thickness of the column.
    pub t_max: Length,
    /// What the values guarantee.
    pub guarantee: Guarantee,
    /// Ultimate tension, along the grain.
    pub ftu_l: Option<Stress>,
    /// Ultimate tension, across the grain.
    pub ftu_lt: Option<Stress>,
    /// Tension yield, along.
    pub fty_l: Option<Stress>,
    /// Tension yield, across.
    pub fty_lt: Option<Stress>,
    /// Compression yield, along.
    pub fcy_l: Option<Stress>,
    /// Compression yield, across.
    pub fcy_lt: Option<Stress>,
    /// Ultimate shear.
    pub fsu: Option<Stress>,
    /// Ultimate bearing at an edge margin e/D of 1.5.
    pub fbru_15: Option<Stress>,
    /// Ultimate bearing at an edge margin e/D of 2.0.
    pub fbru_20: Option<Stress>,
    /// Bearing yield at an edge margin e/D of 1.5.
    pub fbry_15: Option<Stress>,
    /// Bearing yield at an edge margin e/D of 2.0.
    pub fbry_20: Option<Stress>,
    /// Modulus in tension (the primary modulus of clad sheet).
    pub e: Option<Stress>,
    /// Secondary modulus of clad sheet in tension.
    pub e_secondary: Option<Stress>,
    /// Modulus in compression.
    pub ec: Option<Stress>,
    /// Modulus in shear.
    pub g: Option<Stress>,
    /// Poisson's ratio.
    pub poisson: Option<f64>,
    /// Density in pounds per cubic inch.
    pub density_lb_in3: f64,
    /// Whether the table says that its bearing values are dry pin values; `None` where it says neither.
    pub bearing_dry_pin: Option<bool>,
    /// What the table or its reader adds; may be empty.
    pub note: &'static str,
    /// The table.
    pub basis: Basis<'static>,
}

impl SheetProperties {
    /// The lesser of both directions of ultimate tension, which holds whichever way the sheet was cut.
    #[must_use]
    pub fn ftu(&self) -> Option<Stress> {
        lesser(self.ftu_l, self.ftu_lt)
    }

    /// The lesser of both directions of tension yield.
    #[must_use]
    pub fn fty(&self) -> Option<Stress> {
        lesser(self.fty_l, self.fty_lt)
    }

    /// The lesser of both directions of compression yield.
    #[must_use]
    pub fn fcy(&self) -> Option<Stress> {
        lesser(self.fcy_l, self.fcy_lt)
    }
}

fn lesser(one: Option<Stress>, other: Option<Stress>) -> Option<Stress> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.min(other)),
        (one, other) => one.or(other),
    }
}
