//! Rivet alloys: strength when driven, density, treatment before driving, marks.

use super::rivet_alloy_table as table;
use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::Stress;

/// A rivet alloy in the temper in which it is supplied.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum RivetAlloy {
    /// 1100-F, code A.
    Al1100,
    /// 2117-T4, code AD.
    Al2117,
    /// 5056-H32, code B.
    Al5056,
    /// 2017-T4, code D.
    Al2017,
    /// 2024-T4, code DD.
    Al2024,
    /// 7050-T73, code E (MS) or KE (NAS).
    Al7050,
    /// Titanium-niobium 45Cb, code T.
    Ti45Cb,
    /// Nickel-copper, code M.
    NickelCopper,
    /// A-286 heat-resistant steel.
    A286,
    /// Carbon steel.
    CarbonSteel,
    /// Corrosion-resistant steel.
    CorrosionResistantSteel,
    /// Copper.
    Copper,
}

/// What rivets of an alloy are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum RivetUse {
    /// Nonstructural parts of soft sheet (1100, 3003, 5052) only.
    Nonstructural,
    /// Aluminium structure.
    Structure,
    /// Aluminium structure where 2117 is not strong enough.
    StrongerStructure,
    /// Magnesium structure, for which there is no other rivet.
    MagnesiumStructure,
    /// Steel parts mainly.
    SteelParts,
    /// Parts of corrosion-resistant steel, such as firewalls and exhaust stack brackets.
    CorrosionResistantParts,
    /// High-nickel steel and nickel alloys.
    NickelAlloys,
}

/// The ultimate shear strength of a rivet once driven.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct DrivenShear {
    /// The temper that driving leaves, where it is known.
    pub temper: Option<&'static str>,
    /// How the rivet was driven or what else tells this strength from the others; may be empty.
    pub driven: &'static str,
    /// Ultimate shear stress.
    pub fsu: Stress,
    /// Where it comes from.
    pub basis: Basis,
}

impl DrivenShear {
    /// One that a shop entered, however the rivet was driven.
    #[must_use]
    pub const fn entered(fsu: Stress, basis: Basis) -> DrivenShear {
        DrivenShear { temper: None, driven: "entered by the shop", fsu, basis }
    }
}

crate::words::words! {
    /// What is done to rivets before they are driven.
    #[non_exhaustive]
    Treatment, "treatment" {
        HeatTreat = 1, "heat treat", "Heat treated and quenched, again whenever the time has run out.";
        KeepCold = 2, "keep cold", "Heat treated, then kept cold until driven.";
        HeatTreatOrKeepCold = 3, "heat treat or keep cold", "Either of both.";
    }
}

/// One published treatment before driving. Times and temperatures are `None` where the document gives none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct HeatTreatment {
    /// What is done.
    pub treatment: Treatment,
    /// Only rivets with a larger diameter than this need it.
    pub above: Option<Length>,
    /// Minutes from the quench, or from leaving the cold, within which the rivet is driven; the shortest of a printed range.
    pub drive_within_minutes: Option<u16>,
    /// The temperature at or below which rivets are kept straight after the quench, in degrees Fahrenheit.
    pub keep_at_f: Option<i16>,
    /// For how many hours the cold keeps them soft.
    pub keeps_hours: Option<u16>,
    /// Least and greatest temperature of the heat treatment, in degrees Fahrenheit.
    pub solution_f: Option<(u16, u16)>,
    /// Minutes at that temperature, about.
    pub soak_minutes: Option<u16>,
    /// What the document adds; may be empty.
    pub note: &'static str,
    /// The document.
    pub basis: Basis,
}

/// What the table holds of one alloy.
pub(super) struct Row {
    pub(super) alloy: &'static str,
    pub(super) temper_supplied: Option<&'static str>,
    pub(super) driven: &'static [DrivenShear],
    pub(super) temper_driven: Option<&'static str>,
    pub(super) densities: &'static [(f64, Basis)],
    pub(super) as_received: Option<Basis>,
    pub(super) treatments: &'static [HeatTreatment],
    pub(super) head_mark: Option<(&'static str, Basis)>,
    pub(super) used_for: Option<(RivetUse, Basis)>,
    pub(super) new_design: Option<(bool, Basis)>,
}

impl RivetAlloy {
    /// Every alloy.
    pub const ALL: &'static [RivetAlloy] = &[
        RivetAlloy::Al1100,
        RivetAlloy::Al2117,
        RivetAlloy::Al5056,
        RivetAlloy::Al2017,
        RivetAlloy::Al2024,
        RivetAlloy::Al7050,
        RivetAlloy::Ti45Cb,
        RivetAlloy::NickelCopper,
        RivetAlloy::A286,
        RivetAlloy::CarbonSteel,
        RivetAlloy::CorrosionResistantSteel,
        RivetAlloy::Copper,
    ];

    const fn row(self) -> &'static Row {
        match self {
            RivetAlloy::Al1100 => &table::AL_1100,
            RivetAlloy::Al2117 => &table::AL_2117,
            RivetAlloy::Al5056 => &table::AL_5056,
            RivetAlloy::Al2017 => &table::AL_2017,
            RivetAlloy::Al2024 => &table::AL_2024,
            RivetAlloy::Al7050 => &table::AL_7050,
            RivetAlloy::Ti45Cb => &table::TI_45CB,
            RivetAlloy::NickelCopper => &table::NICKEL_COPPER,
            RivetAlloy::A286 => &table::A_286,
            RivetAlloy::CarbonSteel => &table::CARBON_STEEL,
            RivetAlloy::CorrosionResistantSteel => &table::CORROSION_RESISTANT_STEEL,
            RivetAlloy::Copper => &table::COPPER,
        }
    }

    /// The alloy's number or name, such as `2117`.
    #[must_use]
    pub const fn alloy(self) -> &'static str {
        self.row().alloy
    }

    /// The temper in which the rivet is supplied, such as `T4`.
    #[must_use]
    pub const fn temper_supplied(self) -> Option<&'static str> {
        self.row().temper_supplied
    }

    /// The temper of the driven rivet: that of [`RivetAlloy::fsu_driven`].
    #[must_use]
    pub const fn temper_driven(self) -> Option<&'static str> {
        self.row().temper_driven
    }

    /// Every shear strength given for the driven rivet; 2017 has one for rivets heat treated before driving and one for rivets driven hard, as
    /// received.
    #[must_use]
    pub const fn driven_shears(self) -> &'static [DrivenShear] {
        self.row().driven
    }

    /// The ultimate shear strength of the driven rivet: the least of [`RivetAlloy::driven_shears`], first named.
    ///
    /// ```
    /// use shophead::material::RivetAlloy;
    /// // Heat treated before driving 34 ksi, driven hard 38 ksi: without knowing which, the lower one holds.
    /// let (fsu, _) = RivetAlloy::Al2017.fsu_driven().unwrap();
    /// assert_eq!(fsu.ksi(), 34.0);
    /// assert!(RivetAlloy::Al2017.driven_shears().iter().any(|shear| shear.temper == Some("T3") && shear.fsu.ksi() == 38.0));
    /// ```
    #[must_use]
    pub fn fsu_driven(self) -> Option<(Stress, Basis)> {
        self.least_driven_shear().map(|least| (least.fsu, least.basis))
    }

    /// The least of [`RivetAlloy::driven_shears`], first named, with the temper that it is for.
    #[must_use]
    pub fn least_driven_shear(self) -> Option<&'static DrivenShear> {
        self.driven_shears().iter().min_by(|one, other| one.fsu.psi().total_cmp(&other.fsu.psi()))
    }

    /// Every density given, in pounds per cubic inch, the best supported first.
    #[must_use]
    pub const fn densities_lb_in3(self) -> &'static [(f64, Basis)] {
        self.row().densities
    }

    /// The density in pounds per cubic inch: the best supported one.
    #[must_use]
    pub fn density_lb_in3(self) -> Option<(f64, Basis)> {
        self.row().densities.first().copied()
    }

    /// The document that lets this alloy be driven as received, without any treatment.
    #[must_use]
    pub const fn driven_as_received(self) -> Option<Basis> {
        self.row().as_received
    }

    /// Every published treatment before driving. They contradict each other in their times; each names its document.
    ///
    /// ```
    /// use shophead::material::RivetAlloy;
    /// let minutes = RivetAlloy::Al2024.heat_treatments().iter().filter_map(|treatment| treatment.drive_within_minutes);
    /// assert_eq!(minutes.min(), Some(10));
    /// assert!(RivetAlloy::Al2117.heat_treatments().is_empty());
    /// ```
    #[must_use]
    pub const fn heat_treatments(self) -> &'static [HeatTreatment] {
        self.row().treatments
    }

    /// The mark on the manufactured head that tells this alloy.
    #[must_use]
    pub const fn head_mark(self) -> Option<(&'static str, Basis)> {
        self.row().head_mark
    }

    /// What rivets of this alloy are for; `None` where no document at hand says.
    #[must_use]
    pub const fn used_for(self) -> Option<(RivetUse, Basis)> {
        self.row().used_for
    }

    /// Whether this alloy may carry load; `None` where no document at hand says. For 5056 see [`RivetAlloy::used_for`]: it
    /// carries load in magnesium structure.
    #[must_use]
    pub const fn is_structural(self) -> Option<(bool, Basis)> {
        match self.row().used_for {
            Some((used_for, basis)) => Some((!matches!(used_for, RivetUse::Nonstructural), basis)),
            None => None,
        }
    }

    /// Whether the part standard still offers this alloy for new designs; `None` where none at hand says.
    #[must_use]
    pub const fn for_new_design(self) -> Option<(bool, Basis)> {
        self.row().new_design
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::Status;

    #[test]
    fn the_default_temper_is_that_of_the_default_strength() {
        for alloy in RivetAlloy::ALL {
            let Some((fsu, basis)) = alloy.fsu_driven() else { continue };
            let same = |shear: &&DrivenShear| shear.fsu == fsu && shear.basis == basis;
            let chosen = alloy.driven_shears().iter().find(same).expect("one of them");
            assert_eq!(alloy.temper_driven(), chosen.temper, "{}", alloy.alloy());
            assert!(alloy.driven_shears().iter().all(|shear| shear.fsu >= fsu));
        }
        assert_eq!(RivetAlloy::Al2017.temper_driven(), Some("T31"));
        assert_eq!(RivetAlloy::Al2117.temper_driven(), Some("T3"));
    }

    #[test]
    fn the_best_supported_density_stands_first() {
        for alloy in RivetAlloy::ALL {
            let statuses = alloy.densities_lb_in3().iter().map(|(_, basis)| basis.status());
            assert!(statuses.is_sorted(), "{}", alloy.alloy());
        }
        let (density, basis) = RivetAlloy::Al2117.density_lb_in3().expect("a density");
        assert_eq!((density, basis.status()), (0.0994, Status::Published));
    }

    #[test]
    fn an_alloy_is_driven_as_received_or_treated_but_never_both() {
        for alloy in RivetAlloy::ALL {
            let both = alloy.driven_as_received().is_some() && !alloy.heat_treatments().is_empty();
            assert!(!both, "{}", alloy.alloy());
            // What `select` says of every diameter.
            assert_eq!(alloy.heat_treatments().first().and_then(|first| first.above), None, "{}", alloy.alloy());
        }
        assert!(RivetAlloy::Al2117.driven_as_received().is_some());
    }

    #[test]
    fn what_carries_no_load_is_told_apart_from_what_is_not_known() {
        let structural = |alloy: RivetAlloy| alloy.is_structural().map(|(structural, _)| structural);
        assert_eq!(structural(RivetAlloy::Al1100), Some(false));
        assert_eq!(structural(RivetAlloy::Al2117), Some(true));
        assert_eq!(RivetAlloy::Al5056.used_for().map(|(used, _)| used), Some(RivetUse::MagnesiumStructure));
        assert_eq!(structural(RivetAlloy::Copper), None);
    }
}
