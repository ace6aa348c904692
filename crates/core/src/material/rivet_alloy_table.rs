//! Rivet alloys.
//!
//! Tempers, head marks: NAVEDTRA 14315, ch 3, table 3-1; of other metals than aluminium AC 43.13-1B, table 4-8. Shear strengths of driven
//! rivets: AC 43.13-1B, table 4-8, read, and where it differs or is silent MIL-HDBK-5, table 8.1.2(b), recalled: the table was not seen.
//! Uses: AC 43.13-1B, para 7-2. Treatment before driving: AC 43.13-1B, FAA-H-8083-30 and NAVEDTRA 14315, which contradict each other in
//! their times. Strengths in ksi, densities in lb/in3, temperatures in degrees Fahrenheit.

use super::rivet_alloy::{DrivenShear, HeatTreatment, RivetUse, Row, Treatment};
use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::Stress;

const fn shear(temper: Option<&'static str>, driven: &'static str, ksi: f64, basis: Basis) -> DrivenShear {
    DrivenShear { temper, driven, fsu: Stress::from_ksi(ksi), basis }
}

/// A treatment of which nothing but the document is known.
const fn treatment(treatment: Treatment, basis: Basis) -> HeatTreatment {
    HeatTreatment {
        treatment,
        above: None,
        drive_within_minutes: None,
        keep_at_f: None,
        keeps_hours: None,
        solution_f: None,
        soak_minutes: None,
        note: "",
        basis,
    }
}

/// An alloy of which nothing but the name is known.
const fn alloy(alloy: &'static str) -> Row {
    Row {
        alloy,
        temper_supplied: None,
        driven: &[],
        temper_driven: None,
        densities: &[],
        as_received: None,
        treatments: &[],
        head_mark: None,
        used_for: None,
        new_design: None,
    }
}

pub(super) const AL_1100: Row = Row {
    temper_supplied: Some("F"),
    driven: &[shear(None, "", 10.0, Basis::AC43_T4_8), shear(Some("F"), "", 9.0, Basis::HDBK5_PLACE_NOT_KNOWN)],
    temper_driven: Some("F"),
    densities: &[(0.098, Basis::HDBK5_PLACE_NOT_KNOWN)],
    as_received: Some(Basis::FAA_30_HEAT_TREATMENT),
    head_mark: Some(("plain", Basis::NAVY_14315_T3_1)),
    used_for: Some((RivetUse::Nonstructural, Basis::AC43_P7_2C)),
    new_design: Some((true, Basis::MS20470_DESCRIPTION)),
    ..alloy("1100")
};

pub(super) const AL_2117: Row = Row {
    temper_supplied: Some("T4"),
    driven: &[shear(Some("T3"), "", 30.0, Basis::AC43_T4_8)],
    temper_driven: Some("T3"),
    densities: &[(0.0994, Basis::MATERIALS_QUOTED), (0.099, Basis::HDBK5_T8_1_2B)],
    as_received: Some(Basis::AC43_AS_RECEIVED),
    head_mark: Some(("indented dimple", Basis::NAVY_14315_T3_1)),
    used_for: Some((RivetUse::Structure, Basis::AC43_P7_2A)),
    new_design: Some((true, Basis::MS20470_DESCRIPTION)),
    ..alloy("2117")
};

pub(super) const AL_5056: Row = Row {
    temper_supplied: Some("H32"),
    driven: &[shear(None, "", 27.0, Basis::AC43_T4_8), shear(Some("H321"), "", 28.0, Basis::HDBK5_T8_1_2B)],
    densities: &[(0.095, Basis::HDBK5_T8_1_2B)],
    as_received: Some(Basis::FAA_30_HEAT_TREATMENT),
    head_mark: Some(("raised cross", Basis::NAVY_14315_T3_1)),
    used_for: Some((RivetUse::MagnesiumStructure, Basis::AC43_P7_2D)),
    new_design: Some((true, Basis::MS20470_DESCRIPTION)),
    ..alloy("5056")
};

pub(super) const AL_2017: Row = Row {
    temper_supplied: Some("T4"),
    driven: &[
        shear(Some("T31"), "heat treated before driving", 34.0, Basis::AC43_T4_8),
        shear(Some("T3"), "driven hard, as received (HD)", 38.0, Basis::AC43_T4_8),
        // A least strength, for an alloy modified against cracks.
        shear(None, "modified, crack-free", 34.0, Basis::NOT_NAMED),
    ],
    temper_driven: Some("T31"),
    densities: &[(0.101, Basis::MATERIALS_QUOTED)],
    treatments: &[
        HeatTreatment {
            drive_within_minutes: Some(60),
            keep_at_f: Some(32),
            note: "about an hour; the cold keeps them for several days; anodize before the first treatment",
            ..treatment(Treatment::HeatTreatOrKeepCold, Basis::FAA_30_HEAT_TREATMENT)
        },
        HeatTreatment {
            solution_f: Some((930, 950)),
            soak_minutes: Some(30),
            note: "cold-water quench; full strength about 9 days after driving",
            ..treatment(Treatment::HeatTreat, Basis::FAA_30_HEAT_TREATMENT_QUOTED)
        },
        HeatTreatment {
            drive_within_minutes: Some(20),
            keep_at_f: Some(32),
            keeps_hours: Some(24),
            note: "heat treat again when either time has passed",
            ..treatment(Treatment::HeatTreatOrKeepCold, Basis::NAVY_14315_T3_1)
        },
        HeatTreatment {
            keeps_hours: Some(336),
            note: "soft enough for up to two weeks",
            ..treatment(Treatment::KeepCold, Basis::FAA_30B_P296)
        },
        HeatTreatment {
            drive_within_minutes: Some(60),
            note: "about an hour; half the gain in the first hour after driving, full strength in about 4 days",
            ..treatment(Treatment::KeepCold, Basis::EUROPEAN_NOTES)
        },
        HeatTreatment {
            above: Some(Length::from_64ths(12)),
            note: "just before driving; no times given",
            ..treatment(Treatment::HeatTreatOrKeepCold, Basis::AC43_P4_57D)
        },
        HeatTreatment {
            note: "of any diameter; those driven hard (HD) are not",
            ..treatment(Treatment::HeatTreat, Basis::AC43_T4_8)
        },
    ],
    head_mark: Some(("raised teat", Basis::NAVY_14315_T3_1)),
    used_for: Some((RivetUse::StrongerStructure, Basis::AC43_P7_2B)),
    new_design: Some((false, Basis::MS20470_DESCRIPTION)),
    ..alloy("2017")
};

pub(super) const AL_2024: Row = Row {
    temper_supplied: Some("T4"),
    driven: &[shear(Some("T31"), "heat treated before driving", 41.0, Basis::AC43_T4_8)],
    temper_driven: Some("T31"),
    // The first is of sheet and plate.
    densities: &[(0.100, Basis::HDBK5J_T3_2_3_0_B1)],
    treatments: &[
        HeatTreatment {
            drive_within_minutes: Some(10),
            keep_at_f: Some(32),
            note: "the cold keeps them for several days; anodize before the first treatment",
            ..treatment(Treatment::HeatTreatOrKeepCold, Basis::FAA_30_HEAT_TREATMENT)
        },
        HeatTreatment {
            drive_within_minutes: Some(20),
            keep_at_f: Some(32),
            keeps_hours: Some(24),
            note: "heat treat again when either time has passed",
            ..treatment(Treatment::HeatTreatOrKeepCold, Basis::NAVY_14315_T3_1)
        },
        HeatTreatment {
            keeps_hours: Some(336),
            note: "soft enough for up to two weeks",
            ..treatment(Treatment::KeepCold, Basis::FAA_30B_P296)
        },
        HeatTreatment {
            drive_within_minutes: Some(10),
            note: "10 to 20 minutes; a rivet taken out is not put back among cold ones",
            ..treatment(Treatment::KeepCold, Basis::EUROPEAN_NOTES)
        },
        HeatTreatment {
            solution_f: Some((910, 930)),
            soak_minutes: Some(30),
            note: "about 30 minutes in a salt bath, an hour in an air furnace",
            ..treatment(Treatment::HeatTreat, Basis::FAA_30_PLACE_NOT_KNOWN)
        },
        treatment(Treatment::HeatTreatOrKeepCold, Basis::AC43_P4_57D),
        treatment(Treatment::HeatTreat, Basis::AC43_T4_8),
    ],
    head_mark: Some(("raised double dash", Basis::NAVY_14315_T3_1)),
    used_for: Some((RivetUse::StrongerStructure, Basis::AC43_P7_2B)),
    new_design: Some((false, Basis::MS20470_DESCRIPTION)),
    ..alloy("2024")
};

pub(super) const AL_7050: Row = Row {
    temper_supplied: Some("T73"),
    driven: &[shear(Some("T731"), "", 43.0, Basis::HDBK5_T8_1_2B)],
    temper_driven: Some("T731"),
    densities: &[(0.102, Basis::HDBK5_T8_1_2B)],
    head_mark: Some(("raised ring", Basis::HEAD_MARKS_FAINT)),
    // A rivet whose strength the handbook gives carries load.
    used_for: Some((RivetUse::Structure, Basis::HDBK5_T8_1_2B)),
    new_design: Some((true, Basis::MS20470_DESCRIPTION)),
    ..alloy("7050")
};

pub(super) const TI_45CB: Row = Row {
    // 50 is recalled as the strength before driving.
    driven: &[shear(None, "", 53.0, Basis::HDBK5_T8_1_2B)],
    densities: &[(0.206, Basis::HDBK5_T8_1_2B)],
    used_for: Some((RivetUse::Structure, Basis::HDBK5_T8_1_2B)),
    ..alloy("Ti-45Cb")
};

pub(super) const NICKEL_COPPER: Row = Row {
    driven: &[shear(None, "", 49.0, Basis::AC43_T4_8), shear(None, "", 52.0, Basis::HDBK5_T8_1_2B)],
    densities: &[(0.319, Basis::HDBK5_T8_1_2B)],
    as_received: Some(Basis::AC43_T4_8),
    // Two grades: letter M plain, letter C with the dots.
    head_mark: Some(("plain, or recessed double dots", Basis::AC43_T4_8)),
    used_for: Some((RivetUse::NickelAlloys, Basis::AC43_P7_2G)),
    ..alloy("nickel-copper")
};

pub(super) const A_286: Row = Row {
    driven: &[shear(None, "", 90.0, Basis::HDBK5_T8_1_2B)],
    densities: &[(0.287, Basis::HDBK5_T8_1_2B)],
    used_for: Some((RivetUse::Structure, Basis::HDBK5_T8_1_2B)),
    ..alloy("A-286")
};

pub(super) const CARBON_STEEL: Row = Row {
    driven: &[shear(None, "", 35.0, Basis::AC43_T4_8)],
    densities: &[(0.283, Basis::MATERIALS_RECALLED)],
    as_received: Some(Basis::AC43_T4_8),
    head_mark: Some(("recessed triangle", Basis::AC43_T4_8)),
    used_for: Some((RivetUse::SteelParts, Basis::AC43_P7_2E)),
    ..alloy("carbon steel")
};

pub(super) const CORROSION_RESISTANT_STEEL: Row = Row {
    driven: &[shear(None, "", 65.0, Basis::AC43_T4_8)],
    densities: &[(0.286, Basis::MATERIALS_RECALLED)],
    as_received: Some(Basis::AC43_T4_8),
    head_mark: Some(("recessed dash", Basis::AC43_T4_8)),
    used_for: Some((RivetUse::CorrosionResistantParts, Basis::AC43_P7_2F)),
    ..alloy("corrosion-resistant steel")
};

pub(super) const COPPER: Row = Row {
    driven: &[shear(None, "", 23.0, Basis::AC43_T4_8)],
    densities: &[(0.322, Basis::MATERIALS_RECALLED)],
    as_received: Some(Basis::AC43_T4_8),
    head_mark: Some(("plain", Basis::AC43_T4_8)),
    ..alloy("copper")
};
