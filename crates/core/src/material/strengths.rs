//! What is known of one sheet: what a shop entered of it, else what is published.

use super::{Guarantee, Material, SheetHeading, SheetProperties};
use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::Stress;

crate::words::words! {
    /// A strength or a modulus of a sheet, by the word that a limits file has for it.
    #[non_exhaustive]
    Property, "property of a sheet" {
        TensionUltimate = 1, "tension_ultimate", "Ultimate tension, the lesser of both directions.";
        TensionYield = 2, "tension_yield", "Tension yield, the lesser of both directions.";
        CompressionYield = 3, "compression_yield", "Compression yield, the lesser of both directions.";
        ShearUltimate = 4, "shear_ultimate", "Ultimate shear.";
        BearingUltimate15 = 5, "bearing_ultimate_15", "Ultimate bearing at an edge margin e/D of 1.5.";
        BearingUltimate20 = 6, "bearing_ultimate_20", "Ultimate bearing at an edge margin e/D of 2.0.";
        BearingYield15 = 7, "bearing_yield_15", "Bearing yield at an edge margin e/D of 1.5.";
        BearingYield20 = 8, "bearing_yield_20", "Bearing yield at an edge margin e/D of 2.0.";
        Modulus = 9, "modulus", "Modulus in tension.";
        CompressionModulus = 10, "modulus_compression", "Modulus in compression.";
    }
}

/// How many properties there are.
const PROPERTIES: usize = Property::ALL.len();

/// What a shop entered of one material in a range of thickness. A figure that was not entered stays as published.
///
/// ```
/// use shophead::basis::Basis;
/// use shophead::length::Length;
/// use shophead::material::{EnteredSheet, Material, Property};
/// use shophead::quantity::Stress;
/// let cap = Material::parse("2024-T3511")?;
/// let entered = EnteredSheet::new(cap, Basis::own(0))
///     .between(Length::parse(".050")?, Length::parse(".249")?)
///     .with(Property::ShearUltimate, Stress::from_ksi(30.0));
/// assert_eq!(entered.figure(Property::ShearUltimate), Some(Stress::from_ksi(30.0)));
/// assert!(entered.covers(cap, Length::parse(".125")?) && !entered.covers(cap, Length::parse(".250")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct EnteredSheet {
    material: Material,
    t_min: Length,
    t_max: Length,
    figures: [Option<Stress>; PROPERTIES],
    bend_radius: Option<Length>,
    density_lb_in3: Option<f64>,
    guarantee: Option<Guarantee>,
    basis: Basis,
}

impl EnteredSheet {
    /// Of this material in any thickness, from this document; no figure yet.
    #[must_use]
    pub const fn new(material: Material, basis: Basis) -> EnteredSheet {
        EnteredSheet {
            material,
            t_min: Length::ZERO,
            t_max: Length::MAX,
            figures: [None; PROPERTIES],
            bend_radius: None,
            density_lb_in3: None,
            guarantee: None,
            basis,
        }
    }

    /// The same for sheets from one thickness to another, both of them counted.
    #[must_use]
    pub const fn between(self, t_min: Length, t_max: Length) -> EnteredSheet {
        EnteredSheet { t_min, t_max, ..self }
    }

    /// The same with this figure.
    #[must_use]
    pub fn with(mut self, property: Property, stress: Stress) -> EnteredSheet {
        if let Some(figure) = self.figures.get_mut(property as usize) {
            *figure = Some(stress);
        }
        self
    }

    /// The same with the least radius that it is bent to.
    #[must_use]
    pub const fn with_bend_radius(self, radius: Length) -> EnteredSheet {
        EnteredSheet { bend_radius: Some(radius), ..self }
    }

    /// The same with its density, in pounds per cubic inch.
    #[must_use]
    pub const fn with_density_lb_in3(self, density: f64) -> EnteredSheet {
        EnteredSheet { density_lb_in3: Some(density), ..self }
    }

    /// The same with how its figures are guaranteed.
    #[must_use]
    pub const fn guaranteed(self, guarantee: Guarantee) -> EnteredSheet {
        EnteredSheet { guarantee: Some(guarantee), ..self }
    }

    /// The material.
    #[must_use]
    pub const fn material(&self) -> Material {
        self.material
    }

    /// One figure, where it was entered.
    #[must_use]
    pub fn figure(&self, property: Property) -> Option<Stress> {
        self.figures.get(property as usize).copied().flatten()
    }

    /// The least radius that it is bent to, where it was entered.
    #[must_use]
    pub const fn bend_radius(&self) -> Option<Length> {
        self.bend_radius
    }

    /// Its density in pounds per cubic inch, where it was entered.
    #[must_use]
    pub const fn density_lb_in3(&self) -> Option<f64> {
        self.density_lb_in3
    }

    /// How its figures are guaranteed, where that was entered.
    #[must_use]
    pub const fn guarantee(&self) -> Option<Guarantee> {
        self.guarantee
    }

    /// The document.
    #[must_use]
    pub const fn basis(&self) -> Basis {
        self.basis
    }

    /// Least and greatest thickness.
    #[must_use]
    pub const fn thickness(&self) -> (Length, Length) {
        (self.t_min, self.t_max)
    }

    /// Whether it is for this material in this thickness.
    #[must_use]
    pub fn covers(&self, material: Material, thickness: Length) -> bool {
        self.material == material && self.t_min <= thickness && thickness <= self.t_max
    }

    /// Whether two are for the same material in a common thickness.
    #[must_use]
    pub fn overlaps(&self, other: &EnteredSheet) -> bool {
        self.material == other.material && self.t_min <= other.t_max && other.t_min <= self.t_max
    }
}

/// What is known of one sheet in its thickness: each figure as the shop entered it, else as published.
///
/// [`Practice::sheet`](crate::practice::Practice::sheet) finds it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Strengths<'a> {
    material: Option<Material>,
    published: Option<&'a SheetProperties>,
    entered: Option<&'a EnteredSheet>,
}

/// A published column and nothing else.
impl<'a> From<&'a SheetProperties> for Strengths<'a> {
    fn from(published: &'a SheetProperties) -> Strengths<'a> {
        Strengths { material: None, published: Some(published), entered: None }
    }
}

/// One line a figure: what reads it, what it is called, which is the published one, what it means.
macro_rules! figures {
    ($( $read:ident = $property:ident, $doc:literal; )+) => {
        impl Strengths<'_> {
            $(
                #[doc = $doc]
                #[must_use]
                pub fn $read(&self) -> Option<Stress> {
                    self.figure(Property::$property).map(|(stress, _)| stress)
                }
            )+
        }

        fn published(column: &SheetProperties, property: Property) -> Option<Stress> {
            match property { $( Property::$property => column.$read(), )+ }
        }
    };
}

figures! {
    ftu = TensionUltimate, "Ultimate tension, the lesser of both directions.";
    fty = TensionYield, "Tension yield, the lesser of both directions.";
    fcy = CompressionYield, "Compression yield, the lesser of both directions.";
    fsu = ShearUltimate, "Ultimate shear.";
    fbru_15 = BearingUltimate15, "Ultimate bearing at an edge margin e/D of 1.5.";
    fbru_20 = BearingUltimate20, "Ultimate bearing at an edge margin e/D of 2.0.";
    fbry_15 = BearingYield15, "Bearing yield at an edge margin e/D of 1.5.";
    fbry_20 = BearingYield20, "Bearing yield at an edge margin e/D of 2.0.";
    e = Modulus, "Modulus in tension.";
    ec = CompressionModulus, "Modulus in compression.";
}

impl<'a> Strengths<'a> {
    pub(crate) const fn of(
        material: Material,
        published: Option<&'a SheetProperties>,
        entered: Option<&'a EnteredSheet>,
    ) -> Strengths<'a> {
        Strengths { material: Some(material), published, entered }
    }

    /// One figure and where it stands: the shop's before the published one.
    #[must_use]
    pub fn figure(&self, property: Property) -> Option<(Stress, Basis)> {
        let entered = self.entered.and_then(|sheet| Some((sheet.figure(property)?, sheet.basis())));
        entered.or_else(|| self.published.and_then(|sheet| Some((published(sheet, property)?, sheet.basis()))))
    }

    /// Secondary modulus of clad sheet in tension, where it is published.
    #[must_use]
    pub fn e_secondary(&self) -> Option<Stress> {
        self.published.and_then(SheetProperties::e_secondary)
    }

    /// The material; `None` of a published column by itself.
    #[must_use]
    pub const fn material(&self) -> Option<Material> {
        self.material
    }

    /// The published column.
    #[must_use]
    pub const fn published(&self) -> Option<&'a SheetProperties> {
        self.published
    }

    /// What the shop entered.
    #[must_use]
    pub const fn entered(&self) -> Option<&'a EnteredSheet> {
        self.entered
    }

    /// The words over the published column.
    #[must_use]
    pub fn heading(&self) -> Option<&'static SheetHeading> {
        self.published.map(SheetProperties::heading)
    }

    /// The document of the sheet: that of the published column, else of what was entered.
    #[must_use]
    pub fn basis(&self) -> Basis {
        let entered = self.entered.map_or(Basis::HDBK5J_CHAPTER_3, EnteredSheet::basis);
        self.published.map_or(entered, SheetProperties::basis)
    }

    /// Where one figure stands; where there is none, the document that should have it.
    #[must_use]
    pub fn basis_of(&self, property: Property) -> Basis {
        self.figure(property).map_or_else(|| self.basis(), |(_, basis)| basis)
    }

    /// The alloy's number, such as `2024`.
    #[must_use]
    pub fn alloy(&self) -> Option<&'static str> {
        self.published.map(SheetProperties::alloy).or(self.material.map(Material::alloy))
    }

    /// The temper, such as `T3`.
    #[must_use]
    pub fn temper(&self) -> Option<&'static str> {
        self.published.map(SheetProperties::temper).or(self.material.map(Material::temper))
    }

    /// Density in pounds per cubic inch, where it is known, and where it stands.
    #[must_use]
    pub fn density_lb_in3(&self) -> Option<(f64, Basis)> {
        let entered = self.entered.and_then(|sheet| Some((sheet.density_lb_in3()?, sheet.basis())));
        entered.or_else(|| self.published.map(|sheet| (sheet.density_lb_in3(), sheet.basis())))
    }

    /// The same without a column that is not for this thickness; `None` where nothing is left.
    #[must_use]
    pub(crate) fn within(self, thickness: Length) -> Option<Strengths<'a>> {
        let in_column = |sheet: &&SheetProperties| sheet.t_min() <= thickness && thickness <= sheet.t_max();
        let left = Strengths { published: self.published.filter(in_column), ..self };
        (left.published.is_some() || left.entered.is_some()).then_some(left)
    }
}
