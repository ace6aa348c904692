//! Sheet alloys and rivet alloys, and their strengths.
//!
//! [`Material`] is a sheet by name, [`SheetProperties`] one column of the handbook's strengths, [`Strengths`] what is known of one sheet with
//! what a shop entered of it, [`RivetAlloy`] what a rivet is made of.

mod name_table;
mod named;
mod rivet_alloy;
mod rivet_alloy_table;
mod sheet_table;
mod strengths;

use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::Stress;
use crate::setters::setters;

pub use named::{LONGEST_OWN_NAME, Material, ParseMaterialError};
pub use rivet_alloy::{DrivenShear, HeatTreatment, RivetAlloy, RivetUse, Treatment};
pub use strengths::{EnteredSheet, Property, Strengths};

/// Every column of the handbook's tables that was read, in printed order. To find the one for a sheet see
/// [`Material::properties`].
#[must_use]
pub const fn sheets() -> &'static [SheetProperties] {
    sheet_table::SHEETS
}

crate::words::words! {
    /// How a handbook guarantees a strength.
    #[non_exhaustive]
    Guarantee, "guarantee" {
        A = 1, "A", "At least 99 % of values, with 95 % confidence.";
        B = 2, "B", "At least 90 % of values, with 95 % confidence.";
        S = 3, "S", "The minimum of the material specification.";
    }
}

/// The words over one or several columns of the handbook's table.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct SheetHeading {
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
    /// Poisson's ratio in hundredths; zero where none is printed.
    pub poisson_hundredths: u16,
    /// Density in thousandths of a pound per cubic inch.
    pub density_thousandths: u16,
    /// Whether the table says that its bearing values are dry pin values; `None` where it says neither.
    pub bearing_dry_pin: Option<bool>,
    /// What the table or its reader adds; may be empty.
    pub note: &'static str,
    /// The table.
    pub basis: Basis,
}

impl SheetHeading {
    /// The heading of a table as printed: alloy, temper, form and specification, then Poisson's ratio in hundredths and the density in thousandths of
    /// a pound per cubic inch.
    #[must_use]
    pub const fn new(
        [alloy, temper, form, specification]: [&'static str; 4],
        poisson_hundredths: u16,
        density_thousandths: u16,
        basis: Basis,
    ) -> SheetHeading {
        SheetHeading {
            alloy,
            temper,
            form,
            clad: false,
            specification,
            poisson_hundredths,
            density_thousandths,
            bearing_dry_pin: None,
            note: "",
            basis,
        }
    }

    setters! {
        /// Whether the sheet is clad.
        const clad: bool;
        /// Whether its bearing strengths are those of a dry pin.
        const bearing_dry_pin: Option<bool>;
        /// What the table says at its foot.
        const note: &'static str;
    }
}

/// One column of the handbook's table of design mechanical properties: an alloy, temper and form in a range of thickness.
///
/// A strength is `None` where the table leaves the cell empty. The columns are held as whole hundreds of psi, which every figure of
/// the handbook is, and a strength is worked out when it is asked for.
///
/// ```
/// use shophead::basis::Basis;
/// use shophead::material::{Guarantee, SheetHeading, SheetProperties};
/// static PLATE: SheetHeading = SheetHeading::new(["2219", "T87", "plate", "as ordered"], 33, 103, Basis::own(0));
/// // 63 ksi along and across, everything else unknown, from .250 to .500.
/// let plate = SheetProperties::new(&PLATE, (2_500, 5_000), Guarantee::S, [630, 630, 0, 0, 0, 0, 0, 0, 0, 0, 0], [0; 4]);
/// assert_eq!(plate.ftu().unwrap().ksi(), 63.0);
/// assert_eq!(plate.fsu(), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SheetProperties {
    heading: &'static SheetHeading,
    t_min: u16,
    t_max: u16,
    strengths: [u16; 11],
    moduli: [u16; 4],
    guarantee: Guarantee,
}

/// One line a cell: what reads it, in which list it stands, its place there, what one of it is, what it means.
macro_rules! cells {
    ($( $read:ident, $list:ident, $place:literal, $unit:ident, $doc:literal; )+) => {
        impl SheetProperties {
            $(
                #[doc = $doc]
                #[must_use]
                pub fn $read(&self) -> Option<Stress> {
                    let [.., cell] = self.$list.first_chunk::<{ $place + 1 }>()?;
                    $unit(*cell)
                }
            )+
        }
    };
}

cells! {
    ftu_l, strengths, 0, hundreds, "Ultimate tension, along the grain.";
    ftu_lt, strengths, 1, hundreds, "Ultimate tension, across the grain.";
    fty_l, strengths, 2, hundreds, "Tension yield, along.";
    fty_lt, strengths, 3, hundreds, "Tension yield, across.";
    fcy_l, strengths, 4, hundreds, "Compression yield, along.";
    fcy_lt, strengths, 5, hundreds, "Compression yield, across.";
    fsu, strengths, 6, hundreds, "Ultimate shear.";
    fbru_15, strengths, 7, hundreds, "Ultimate bearing at an edge margin e/D of 1.5.";
    fbru_20, strengths, 8, hundreds, "Ultimate bearing at an edge margin e/D of 2.0.";
    fbry_15, strengths, 9, hundreds, "Bearing yield at an edge margin e/D of 1.5.";
    fbry_20, strengths, 10, hundreds, "Bearing yield at an edge margin e/D of 2.0.";
    e, moduli, 0, ten_thousands, "Modulus in tension (the primary modulus of clad sheet).";
    e_secondary, moduli, 1, ten_thousands, "Secondary modulus of clad sheet in tension.";
    ec, moduli, 2, ten_thousands, "Modulus in compression.";
    g, moduli, 3, ten_thousands, "Modulus in shear.";
}

/// A strength from its cell; an empty one is zero.
fn hundreds(cell: u16) -> Option<Stress> {
    (cell > 0).then(|| Stress::from_psi(f64::from(cell) * 100.0))
}

/// A modulus from its cell.
fn ten_thousands(cell: u16) -> Option<Stress> {
    (cell > 0).then(|| Stress::from_psi(f64::from(cell) * 10_000.0))
}

impl SheetProperties {
    /// A column: the words over it; least and greatest thickness in ten-thousandths of an inch; what it guarantees; strengths in
    /// hundreds of psi (ultimate tension, tension yield and compression yield, each along and across; ultimate shear; ultimate
    /// bearing and bearing yield, each at 1.5 and 2.0); moduli in tens of thousands of psi (tension, secondary, compression, shear).
    /// Zero is an empty cell.
    #[must_use]
    pub const fn new(
        heading: &'static SheetHeading,
        (t_min, t_max): (u16, u16),
        guarantee: Guarantee,
        strengths: [u16; 11],
        moduli: [u16; 4],
    ) -> SheetProperties {
        SheetProperties { heading, t_min, t_max, strengths, moduli, guarantee }
    }

    /// The words over the column.
    #[must_use]
    pub const fn heading(&self) -> &'static SheetHeading {
        self.heading
    }

    /// The alloy's number, such as `2024`.
    #[must_use]
    pub const fn alloy(&self) -> &'static str {
        self.heading.alloy
    }

    /// The temper, such as `T3`; of a column for two tempers both, as printed: `T6 and T62`.
    #[must_use]
    pub const fn temper(&self) -> &'static str {
        self.heading.temper
    }

    /// The table.
    #[must_use]
    pub const fn basis(&self) -> Basis {
        self.heading.basis
    }

    /// What the values guarantee.
    #[must_use]
    pub const fn guarantee(&self) -> Guarantee {
        self.guarantee
    }

    /// Least thickness of the column.
    #[must_use]
    pub const fn t_min(&self) -> Length {
        Length::from_ten_thousandths(self.t_min)
    }

    /// Greatest thickness of the column.
    #[must_use]
    pub const fn t_max(&self) -> Length {
        Length::from_ten_thousandths(self.t_max)
    }

    /// Poisson's ratio.
    #[must_use]
    pub fn poisson(&self) -> Option<f64> {
        let hundredths = self.heading.poisson_hundredths;
        (hundredths > 0).then(|| f64::from(hundredths) / 100.0)
    }

    /// Density in pounds per cubic inch.
    #[must_use]
    pub fn density_lb_in3(&self) -> f64 {
        f64::from(self.heading.density_thousandths) / 1_000.0
    }

    /// The lesser of both directions of ultimate tension, which holds whichever way the sheet was cut.
    #[must_use]
    pub fn ftu(&self) -> Option<Stress> {
        let [l, lt, ..] = self.strengths;
        hundreds(lesser(l, lt))
    }

    /// The lesser of both directions of tension yield.
    #[must_use]
    pub fn fty(&self) -> Option<Stress> {
        let [_, _, l, lt, ..] = self.strengths;
        hundreds(lesser(l, lt))
    }

    /// The lesser of both directions of compression yield.
    #[must_use]
    pub fn fcy(&self) -> Option<Stress> {
        let [_, _, _, _, l, lt, ..] = self.strengths;
        hundreds(lesser(l, lt))
    }

    /// What [`Material::properties`] compares two columns by, most weighty first.
    fn ranked(&self) -> [u16; 8] {
        let [ftu_l, ftu_lt, fty_l, fty_lt, fcy_l, fcy_lt, fsu, fbru_15, fbru_20, fbry_15, fbry_20] = self.strengths;
        let (ftu, fty, fcy) = (lesser(ftu_l, ftu_lt), lesser(fty_l, fty_lt), lesser(fcy_l, fcy_lt));
        [fbru_15, fbru_20, ftu, fsu, fbry_15, fbry_20, fty, fcy]
    }
}

/// The lesser of two cells; of an empty one and another, the other.
fn lesser(one: u16, other: u16) -> u16 {
    if one == 0 || other == 0 { one.max(other) } else { one.min(other) }
}
