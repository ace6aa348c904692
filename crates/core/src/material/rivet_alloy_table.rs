//! Rivet alloys.
//!
//! Tempers, head marks: NAVEDTRA 14315, ch 3, table 3-1, read; recalled where marked. Shear strengths of driven rivets: MIL-HDBK-5, table
//! 8.1.2(b), recalled: the table was not seen. Uses: AC 43.13-1B, para 7-2. Treatment before driving: FAA-H-8083-30 and NAVEDTRA
//! 14315, which contradict each other in their times. Strengths in ksi, densities in lb/in3, temperatures in degrees Fahrenheit.

use super::rivet_alloy::{DrivenShear, HeatTreatment, RivetUse, Row, Treatment};
use crate::basis::Basis;
use crate::length::Length;
use crate::quantity::Stress;

const NAVY_TABLE: Basis<'static> = Basis::published("NAVEDTRA 14315", "ch 3, table 3-1");
const FAA_RIVETS: Basis<'static> = Basis::published("FAA-H-8083-30", "Heat Treatment of Aluminum Alloy Rivets");
const FAA_RIVETS_QUOTED: Basis<'static> =
    Basis::published("FAA-H-8083-30", "Heat Treatment of Aluminum Alloy Rivets, secondary quotation");
const FAA_COLD_QUOTED: Basis<'static> = Basis::published("FAA-H-8083-30B", "p 296, secondary quotation");
const FAA_HARDWARE: Basis<'static> = Basis::memory("FAA-H-8083-30", "hardware chapter; AC 65-9A");
const AC_HARD_RIVETS: Basis<'static> = Basis::memory("AC 43.13-1B", "para 4-57d; page not found");
const SHEAR_TABLE: Basis<'static> = Basis::memory("MIL-HDBK-5", "table 8.1.2(b)");
const SHEAR_TABLE_FAINT: Basis<'static> = Basis::memory("MIL-HDBK-5", "table 8.1.2(b), recalled with low confidence");
const HANDBOOK: Basis<'static> = Basis::memory("MIL-HDBK-5", "place not known");
const MARK_FAINT: Basis<'static> = Basis::memory("part standards", "head marks, recalled with low confidence");
const MARK: Basis<'static> = Basis::memory("part standards", "head marks");
const MATERIALS_DATA: Basis<'static> = Basis::published("materials data", "secondary quotation");
const MATERIALS_RECALLED: Basis<'static> = Basis::memory("materials data", "place not known");
const NEW_DESIGNS: Basis<'static> = Basis::published("MS20470", "description, secondary quotation");

const fn ac(place: &'static str) -> Basis<'static> {
    Basis::published("AC 43.13-1B", place)
}

const fn shear(temper: Option<&'static str>, driven: &'static str, ksi: f64, basis: Basis<'static>) -> DrivenShear {
    DrivenShear { temper, driven, fsu: Stress::from_ksi(ksi), basis }
}

/// A treatment of which nothing but the document is known.
const fn treatment(treatment: Treatment, basis: Basis<'static>) -> HeatTreatment {
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
    driven: &[shear(Some("F"), "", 9.0, HANDBOOK)],
    temper_driven: Some("F"),
    densities: &[(0.098, HANDBOOK)],
    as_received: Some(FAA_RIVETS),
    head_mark: Some(("plain", NAVY_TABLE)),
    used_for: Some((RivetUse::Nonstructural, ac("para 7-2c, p 7-1"))),
    new_design: Some((true, NEW_DESIGNS)),
    ..alloy("1100")
};

pub(super) const AL_2117: Row = Row {
    temper_supplied: Some("T4"),
    driven: &[shear(Some("T3"), "", 30.0, SHEAR_TABLE)],
    temper_driven: Some("T3"),
    densities: &[(0.0994, MATERIALS_DATA), (0.099, SHEAR_TABLE)],
    as_received: Some(FAA_RIVETS),
    head_mark: Some(("indented dimple", NAVY_TABLE)),
    used_for: Some((RivetUse::Structure, ac("para 7-2a, p 7-1"))),
    new_design: Some((true, NEW_DESIGNS)),
    ..alloy("2117")
};

pub(super) const AL_5056: Row = Row {
    temper_supplied: Some("H32"),
    driven: &[shear(Some("H321"), "", 28.0, SHEAR_TABLE)],
    temper_driven: Some("H321"),
    densities: &[(0.095, SHEAR_TABLE)],
    as_received: Some(FAA_RIVETS),
    head_mark: Some(("raised cross", NAVY_TABLE)),
    used_for: Some((RivetUse::MagnesiumStructure, ac("para 7-2d, p 7-1"))),
    new_design: Some((true, NEW_DESIGNS)),
    ..alloy("5056")
};

pub(super) const AL_2017: Row = Row {
    temper_supplied: Some("T4"),
    driven: &[
        shear(Some("T31"), "fresh from the quench", 34.0, SHEAR_TABLE),
        shear(Some("T3"), "after ageing", 38.0, SHEAR_TABLE),
        // A least strength, for an alloy modified against cracks.
        shear(None, "modified, crack-free", 34.0, Basis::published("document not named", "secondary quotation")),
    ],
    temper_driven: Some("T31"),
    densities: &[(0.101, MATERIALS_DATA), (0.101, SHEAR_TABLE)],
    treatments: &[
        HeatTreatment {
            drive_within_minutes: Some(60),
            keep_at_f: Some(32),
            note: "about an hour; the cold keeps them for several days; anodize before the first treatment",
            ..treatment(Treatment::HeatTreatOrKeepCold, FAA_RIVETS)
        },
        HeatTreatment {
            solution_f: Some((930, 950)),
            soak_minutes: Some(30),
            note: "cold-water quench; full strength about 9 days after driving",
            ..treatment(Treatment::HeatTreat, FAA_RIVETS_QUOTED)
        },
        HeatTreatment {
            drive_within_minutes: Some(20),
            keep_at_f: Some(32),
            keeps_hours: Some(24),
            note: "heat treat again when either time has passed",
            ..treatment(Treatment::HeatTreatOrKeepCold, NAVY_TABLE)
        },
        HeatTreatment {
            keeps_hours: Some(336),
            note: "soft enough for up to two weeks",
            ..treatment(Treatment::KeepCold, FAA_COLD_QUOTED)
        },
        HeatTreatment {
            drive_within_minutes: Some(60),
            note: "about an hour; half strength about an hour after driving, full strength in about 4 days",
            ..treatment(Treatment::KeepCold, FAA_HARDWARE)
        },
        HeatTreatment {
            above: Some(Length::from_64ths(12)),
            note: "up to 3/16 in as received",
            ..treatment(Treatment::HeatTreatOrKeepCold, AC_HARD_RIVETS)
        },
    ],
    head_mark: Some(("raised teat", NAVY_TABLE)),
    used_for: Some((RivetUse::StrongerStructure, ac("para 7-2b, p 7-1"))),
    new_design: Some((false, NEW_DESIGNS)),
    ..alloy("2017")
};

pub(super) const AL_2024: Row = Row {
    temper_supplied: Some("T4"),
    driven: &[shear(Some("T31"), "fresh from the quench", 41.0, SHEAR_TABLE)],
    temper_driven: Some("T31"),
    // The first is of sheet and plate.
    densities: &[(0.100, Basis::published("MIL-HDBK-5J", "table 3.2.3.0(b1), p 3-71")), (0.100, SHEAR_TABLE)],
    treatments: &[
        HeatTreatment {
            drive_within_minutes: Some(10),
            keep_at_f: Some(32),
            note: "the cold keeps them for several days; anodize before the first treatment",
            ..treatment(Treatment::HeatTreatOrKeepCold, FAA_RIVETS)
        },
        HeatTreatment {
            drive_within_minutes: Some(20),
            keep_at_f: Some(32),
            keeps_hours: Some(24),
            note: "heat treat again when either time has passed",
            ..treatment(Treatment::HeatTreatOrKeepCold, NAVY_TABLE)
        },
        HeatTreatment {
            keeps_hours: Some(336),
            note: "soft enough for up to two weeks",
            ..treatment(Treatment::KeepCold, FAA_COLD_QUOTED)
        },
        HeatTreatment {
            drive_within_minutes: Some(10),
            note: "10 to 20 minutes; a rivet taken out is not put back among cold ones",
            ..treatment(Treatment::KeepCold, FAA_HARDWARE)
        },
        HeatTreatment {
            solution_f: Some((910, 930)),
            soak_minutes: Some(30),
            note: "about 30 minutes in a salt bath, an hour in an air furnace",
            ..treatment(Treatment::HeatTreat, Basis::memory("FAA-H-8083-30", "place not known"))
        },
        treatment(Treatment::HeatTreatOrKeepCold, AC_HARD_RIVETS),
    ],
    head_mark: Some(("raised double dash", NAVY_TABLE)),
    used_for: Some((RivetUse::StrongerStructure, ac("para 7-2b, p 7-1"))),
    new_design: Some((false, NEW_DESIGNS)),
    ..alloy("2024")
};

pub(super) const AL_7050: Row = Row {
    temper_supplied: Some("T73"),
    driven: &[shear(Some("T731"), "", 43.0, SHEAR_TABLE)],
    temper_driven: Some("T731"),
    densities: &[(0.102, SHEAR_TABLE)],
    head_mark: Some(("raised ring", MARK_FAINT)),
    // A rivet whose strength the handbook gives carries load.
    used_for: Some((RivetUse::Structure, SHEAR_TABLE)),
    new_design: Some((true, NEW_DESIGNS)),
    ..alloy("7050")
};

pub(super) const TI_45CB: Row = Row {
    // 50 is recalled as the strength before driving.
    driven: &[shear(None, "", 53.0, SHEAR_TABLE)],
    densities: &[(0.206, SHEAR_TABLE)],
    used_for: Some((RivetUse::Structure, SHEAR_TABLE)),
    ..alloy("Ti-45Cb")
};

pub(super) const NICKEL_COPPER: Row = Row {
    driven: &[shear(None, "", 52.0, SHEAR_TABLE), shear(None, "", 49.0, SHEAR_TABLE_FAINT)],
    densities: &[(0.319, SHEAR_TABLE)],
    head_mark: Some(("plain or two dimples", MARK_FAINT)),
    used_for: Some((RivetUse::Structure, SHEAR_TABLE)),
    ..alloy("nickel-copper")
};

pub(super) const A_286: Row = Row {
    driven: &[shear(None, "", 90.0, SHEAR_TABLE)],
    densities: &[(0.287, SHEAR_TABLE)],
    used_for: Some((RivetUse::Structure, SHEAR_TABLE)),
    ..alloy("A-286")
};

pub(super) const CARBON_STEEL: Row = Row {
    densities: &[(0.283, MATERIALS_RECALLED)],
    head_mark: Some(("recessed triangle", MARK_FAINT)),
    used_for: Some((RivetUse::SteelParts, ac("para 7-2e, p 7-1"))),
    ..alloy("carbon steel")
};

pub(super) const CORROSION_RESISTANT_STEEL: Row = Row {
    densities: &[(0.286, MATERIALS_RECALLED)],
    head_mark: Some(("recessed dash", MARK_FAINT)),
    ..alloy("corrosion-resistant steel")
};

pub(super) const COPPER: Row =
    Row { densities: &[(0.322, MATERIALS_RECALLED)], head_mark: Some(("plain", MARK)), ..alloy("copper") };
