//! Sheet strengths and rivet alloys.

use shophead::basis::{Basis, Status};
use shophead::length::Length;
use shophead::material::{DrivenShear, EnteredSheet, HeatTreatment, Material, RivetAlloy, RivetUse, sheets};
use shophead::practice::{EnterError, Entered};
use shophead::quantity::Stress;
use shophead::rivet::CATALOGUE;
use shophead_tests::prelude::{length, material};
use shophead_tests::{Comparison, Row, fixture};

/// Exact: a printed ksi or msi comes back from the library as it was put in.
#[test]
fn every_sheet_cell_is_the_printed_one() {
    let rows = fixture("sheet-properties");
    let mut cells = Comparison::with_misfits(&[]);
    cells.equal("columns", rows.len(), sheets().len());
    for (row, column) in rows.iter().zip(sheets()) {
        assert!(row.is_read(), "{}", row.place());
        let place = row.place();
        let cell = |name: &str| format!("{place} {name}");
        for (name, product) in [
            ("alloy", column.alloy()),
            ("temper", column.temper()),
            ("form", column.heading().form),
            ("clad", if column.heading().clad { "yes" } else { "no" }),
            ("specification", column.heading().specification),
            ("note", column.heading().note),
            ("basis", column.guarantee().as_str()),
            (
                "bearing_dry_pin",
                match column.heading().bearing_dry_pin {
                    Some(true) => "yes",
                    Some(false) => "no",
                    None => "not stated",
                },
            ),
        ] {
            cells.equal(&cell(name), row.text(name), product);
        }
        for (name, product) in [("t_min_in", column.t_min()), ("t_max_in", column.t_max())] {
            cells.equal(&cell(name), Length::parse(row.text(name)), Ok(product));
        }
        for (name, product) in [
            ("ftu_l_ksi", column.ftu_l()),
            ("ftu_lt_ksi", column.ftu_lt()),
            ("fty_l_ksi", column.fty_l()),
            ("fty_lt_ksi", column.fty_lt()),
            ("fcy_l_ksi", column.fcy_l()),
            ("fcy_lt_ksi", column.fcy_lt()),
            ("fsu_ksi", column.fsu()),
            ("fbru_e15_ksi", column.fbru_15()),
            ("fbru_e20_ksi", column.fbru_20()),
            ("fbry_e15_ksi", column.fbry_15()),
            ("fbry_e20_ksi", column.fbry_20()),
        ] {
            cells.equal(&cell(name), row.number(name), product.map(Stress::ksi));
        }
        for (property, product) in [("ftu", column.ftu()), ("fty", column.fty()), ("fcy", column.fcy())] {
            let printed =
                ["l", "lt"].into_iter().filter_map(|direction| row.number(&format!("{property}_{direction}_ksi")));
            cells.equal(&cell(property), printed.reduce(f64::min), product.map(Stress::ksi));
        }
        for (name, product) in [
            ("e_msi", column.e()),
            ("e_secondary_msi", column.e_secondary()),
            ("ec_msi", column.ec()),
            ("g_msi", column.g()),
        ] {
            cells.equal(&cell(name), row.number(name), product.map(Stress::msi));
        }
        cells.equal(&cell("poisson"), row.number("poisson"), column.poisson());
        cells.equal(&cell("density"), row.number("density_lb_in3"), Some(column.density_lb_in3()));
        // The edition's date stands above the table, not in every row of it.
        let source = row.text("source").replace(" (31 January 2003) Table", ", table");
        cells.equal(&cell("source"), source, column.basis().citation().expect("built in").to_string());
        cells.equal(&cell("status"), Status::Published, column.basis().status());
    }
    cells.finish(82 * 32 + 1);
}

/// Whatever stands in a row of the handbook is found under the name that a mechanic types.
#[test]
fn every_sheet_row_is_found_by_name_and_thickness() {
    let mut found = 0;
    for row in fixture("sheet-properties") {
        let clad = if row.text("clad") == "yes" { "clad " } else { "" };
        for temper in row.text("temper").split(" and ") {
            let text = format!("{clad}{}-{temper}", row.text("alloy"));
            let material = Material::parse(&text).unwrap_or_else(|error| panic!("{}: {error}", row.place()));
            assert_eq!(material.to_string(), text);
            for end in ["t_min_in", "t_max_in"] {
                let thickness = Length::parse(row.text(end)).expect("a thickness");
                let b = row.text("basis") == "B";
                let column = if b { material.properties_b(thickness) } else { material.properties(thickness) };
                let column = column.unwrap_or_else(|| panic!("{}: {text} at {thickness}", row.place()));
                // Another specification may be weaker; none may be stronger than what is printed.
                let printed = row.number("ftu_lt_ksi");
                assert!(column.ftu_lt().map(Stress::ksi) <= printed, "{}: {text} at {thickness}", row.place());
                found += 1;
            }
        }
    }
    assert!(found >= 200, "{found}");
}

fn rivet(alloy: &str) -> Option<RivetAlloy> {
    let alloy = alloy.trim_end_matches(", second grade");
    let number = alloy.split([',', '-']).next().unwrap_or(alloy);
    let same = |known: &&RivetAlloy| [alloy, number].contains(&known.alloy());
    RivetAlloy::ALL.iter().find(same).copied()
}

/// What a row that was read may rest on, and what one that was recalled must.
fn status(row: &Row) -> Status {
    if row.is_read() { Status::Published } else { Status::Memory }
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    // `T3 (aged) / T31 (fresh)`, `raised ring (E); confidence low`.
    text.split(" / ").map(|part| part.split([';', '(']).next().unwrap_or(part).trim()).filter(|part| !part.is_empty())
}

/// Materials of table 4-8 that no series of the catalogue has, and why.
const NOT_CARRIED: &[(&str, &str)] = &[
    ("7075", "no letter and no strength is printed; it is not the 7050 of the letter E"),
    ("brass", "no letter and no strength is printed"),
    ("titanium", "the alloy is not named; it is not Ti-45Cb"),
];

/// The circular's words for a mark, and those of the Navy's table that the product carries.
const SAME_MARK: &[(&str, &str)] = &[("dimpled", "indented dimple"), ("raised dot", "raised teat")];

/// Whether some series has this letter for the alloy; a letter that is not printed is one that it has not.
fn has_letter(alloy: RivetAlloy, code: &str) -> bool {
    let of_alloy = CATALOGUE.iter().flat_map(|series| series.materials).filter(|material| material.alloy == alloy);
    let mut letters = of_alloy.map(|material| material.code);
    match code {
        "none printed" | "none" => letters.any(str::is_empty),
        code => letters.any(|letters| letters == code),
    }
}

#[test]
fn every_rivet_material_row_is_carried_with_its_status() {
    let mut compared = 0;
    for row in fixture("rivet-materials") {
        let place = row.place();
        if row.text("code").is_empty() {
            // The list of the procurement specification; the 2219 alloys stand in no part standard at hand.
            for one in row.text("alloy").split(", ").filter(|one| !one.starts_with("2219")) {
                let Some((alloy, temper)) = one.split_once('-') else {
                    assert_eq!(one, "45Cb", "{place}");
                    continue;
                };
                assert_eq!(rivet(alloy).and_then(RivetAlloy::temper_supplied), Some(temper), "{place}: {one}");
                compared += 1;
            }
            continue;
        }
        if NOT_CARRIED.iter().any(|(alloy, _)| *alloy == row.text("alloy")) {
            let cells = (row.text("code"), row.text("fsu_driven_ksi"));
            assert!(matches!(cells, ("none printed", "" | "95")), "{place}: {cells:?}");
            continue;
        }
        let alloy = rivet(row.text("alloy")).unwrap_or_else(|| panic!("{place}: no such rivet alloy"));
        for code in row.text("code").split(" / ").flat_map(|codes| codes.split(" or ")) {
            let code = code.split(" (").next().unwrap_or(code);
            // The second grade of nickel-copper has the letter of copper; no series of the catalogue has it.
            let second_grade = row.text("alloy").ends_with("second grade") && code == "C";
            assert!(second_grade || has_letter(alloy, code), "{place}: letter {code}");
            compared += 1;
        }
        let carried = |basis: Basis| basis.status() == status(&row);
        for temper in words(row.text("temper_supplied")) {
            // The circular prints T for every temper of heat treated rivets, and T-HD for those that are driven hard.
            let as_printed = match temper {
                "T" if alloy == RivetAlloy::Al5056 => alloy.temper_supplied() == Some("H32"),
                "T" => alloy.temper_supplied() == Some("T4"),
                "T-HD" => alloy.driven_shears().iter().any(|shear| shear.driven.contains("HD")),
                temper => alloy.temper_supplied() == Some(temper),
            };
            assert!(as_printed, "{place}: {temper}");
            compared += 1;
        }
        for temper in words(row.text("temper_driven")) {
            let has = alloy.driven_shears().iter().any(|shear| shear.temper == Some(temper));
            assert!(has, "{place}: driven temper {temper}");
            compared += 1;
        }
        for mark in words(row.text("head_marking")) {
            let (product, basis) = alloy.head_mark().unwrap_or_else(|| panic!("{place}: no head mark"));
            let mark = SAME_MARK.iter().find(|(other, _)| *other == mark).map_or(mark, |(_, ours)| *ours);
            // A mark that was read stands before one that was recalled.
            let superseded = !row.is_read() && basis.status() == Status::Published;
            let same = product.split(", or ").any(|known| known == mark);
            assert!(superseded || same && carried(basis), "{place}: {product}, {basis:?}");
            compared += 1;
        }
        for ksi in words(row.text("fsu_driven_ksi")) {
            let ksi: f64 = ksi.parse().expect("a strength");
            let same = |shear: &&DrivenShear| shear.fsu.ksi() == ksi;
            let known = alloy.driven_shears().iter().find(same).unwrap_or_else(|| panic!("{place}: {ksi} ksi"));
            // A recalled strength that was read since is carried once, as read.
            assert!(carried(known.basis) || known.basis.status() == Status::Published, "{place}: {ksi} ksi");
            compared += 1;
        }
        if let Some(density) = row.number("density_lb_in3") {
            let has = alloy
                .densities_lb_in3()
                .iter()
                .any(|&(product, basis)| product == density && (carried(basis) || basis.status() == Status::Published));
            assert!(has, "{place}: {density} lb/in3");
            compared += 1;
        }
    }
    assert!(compared >= 110, "{compared} compared");
}

/// Of a strength that was read and one that was recalled the lower is the default, and both are named.
#[test]
fn the_lower_strength_is_the_default_and_both_are_named() {
    for (alloy, read, recalled, default) in [
        (RivetAlloy::Al1100, 10.0, Some(9.0), 9.0),
        (RivetAlloy::Al5056, 27.0, Some(28.0), 27.0),
        (RivetAlloy::NickelCopper, 49.0, Some(52.0), 49.0),
        (RivetAlloy::Al2117, 30.0, None, 30.0),
        (RivetAlloy::Al2024, 41.0, None, 41.0),
        (RivetAlloy::Copper, 23.0, None, 23.0),
    ] {
        let named = |ksi: f64| {
            let shear = alloy.driven_shears().iter().find(|shear| shear.fsu.ksi() == ksi);
            shear.map(|shear| shear.basis.status())
        };
        assert_eq!(named(read), Some(Status::Published), "{}", alloy.alloy());
        assert_eq!(recalled.and_then(named), recalled.map(|_| Status::Memory), "{}", alloy.alloy());
        assert_eq!(alloy.fsu_driven().map(|(fsu, _)| fsu.ksi()), Some(default), "{}", alloy.alloy());
    }
    // 2017 by how it is driven: heat treated 34, hard as received 38.
    let driven: Vec<(f64, &str)> =
        RivetAlloy::Al2017.driven_shears().iter().map(|shear| (shear.fsu.ksi(), shear.driven)).collect();
    assert!(driven.contains(&(34.0, "heat treated before driving")));
    assert!(driven.contains(&(38.0, "driven hard, as received (HD)")));
    assert_eq!(
        RivetAlloy::Al2017.fsu_driven().map(|(fsu, basis)| (fsu.ksi(), basis.status())),
        Some((34.0, Status::Published))
    );
}

#[test]
fn the_part_standard_says_which_alloys_are_for_new_designs() {
    let rows = fixture("rivet-materials");
    let row = rows.iter().find(|row| row.text("note").contains("new designs")).expect("the row");
    assert!(row.is_read());
    assert!(row.text("note").starts_with("the sheet lists A, AD, B and E"));
    for (alloy, offered) in [
        (RivetAlloy::Al1100, true),
        (RivetAlloy::Al2117, true),
        (RivetAlloy::Al5056, true),
        (RivetAlloy::Al7050, true),
        (RivetAlloy::Al2017, false),
        (RivetAlloy::Al2024, false),
    ] {
        assert_eq!(alloy.for_new_design().map(|(offered, _)| offered), Some(offered), "{}", alloy.alloy());
    }
}

/// AC 43.13-1B, para 7-2a to g; of titanium, A-286 and 7050 the handbook's strengths.
#[test]
fn what_rivets_of_each_alloy_are_for() {
    use RivetUse::{
        CorrosionResistantParts, MagnesiumStructure, NickelAlloys, Nonstructural, SteelParts, StrongerStructure,
        Structure,
    };
    for (alloy, used_for) in [
        ("1100", Some(Nonstructural)),
        ("2117", Some(Structure)),
        ("5056", Some(MagnesiumStructure)),
        ("2017", Some(StrongerStructure)),
        ("2024", Some(StrongerStructure)),
        ("7050", Some(Structure)),
        ("Ti-45Cb", Some(Structure)),
        ("nickel-copper", Some(NickelAlloys)),
        ("A-286", Some(Structure)),
        ("carbon steel", Some(SteelParts)),
        ("corrosion-resistant steel", Some(CorrosionResistantParts)),
        ("copper", None),
    ] {
        let known = RivetAlloy::ALL.iter().find(|known| known.alloy() == alloy).expect(alloy);
        assert_eq!(known.used_for().map(|(used_for, _)| used_for), used_for, "{alloy}");
    }
}

/// Of every alloy it is known how heavy it is and what it is sheared at, and of those that change by driving into which temper; of treatments
/// whose document gives no figure, what it says instead.
#[test]
fn nothing_that_is_known_of_an_alloy_is_left_out() {
    for alloy in RivetAlloy::ALL {
        assert!(!alloy.densities_lb_in3().is_empty() && alloy.fsu_driven().is_some(), "{}", alloy.alloy());
        for treatment in alloy.heat_treatments() {
            let by_circular = [Basis::AC43_P4_57D, Basis::AC43_T4_8].contains(&treatment.basis);
            let of_any_size = alloy == &RivetAlloy::Al2024;
            assert_eq!(treatment.note.is_empty(), by_circular && of_any_size, "{}: {treatment:?}", alloy.alloy());
        }
    }
    for (alloy, temper) in [
        (RivetAlloy::Al1100, Some("F")),
        (RivetAlloy::Al2117, Some("T3")),
        (RivetAlloy::Al2017, Some("T31")),
        (RivetAlloy::Al2024, Some("T31")),
        (RivetAlloy::Al7050, Some("T731")),
        (RivetAlloy::Copper, None),
    ] {
        assert_eq!(alloy.temper_driven(), temper, "{}", alloy.alloy());
    }
    let tables = |alloy: RivetAlloy| alloy.densities_lb_in3().len();
    assert_eq!((tables(RivetAlloy::Al2117), tables(RivetAlloy::Al2024)), (2, 1));
}

/// The first number of a text, in the unit that follows: `about 1 h`, `10 to 20 min`, `up to 2 weeks`.
fn minutes(text: &str) -> Option<u16> {
    let number: u16 = text.split(' ').find_map(|word| word.parse().ok())?;
    let factor = text.split(' ').find_map(|word| match word {
        "min" => Some(1),
        "h" => Some(60),
        "weeks" => Some(7 * 24 * 60),
        _ => None,
    })?;
    Some(number * factor)
}

/// The number before `F`: `below 32 F straight after quench: several days`.
fn fahrenheit(text: &str) -> Option<i16> {
    text.split_once(" F").and_then(|(before, _)| before.rsplit(' ').next()?.parse().ok())
}

#[test]
fn every_published_treatment_before_driving_is_carried_with_its_figures() {
    let mut carried = 0;
    for row in fixture("heat-treat") {
        let place = row.place();
        let condition = row.text("condition_to_drive");
        let metals = ["carbon steel", "corrosion-resistant steel", "copper", "nickel-copper"];
        let aluminium = ["1100", "5056", "2117", "2017", "2024"];
        let listed: Vec<&str> = row.text("alloy").split(", ").collect();
        let named: Vec<&str> = if listed.len() > 1 {
            metals.into_iter().filter(|name| listed.contains(name)).collect()
        } else {
            aluminium.into_iter().filter(|name| row.text("alloy").contains(name)).collect()
        };
        // 7075, which the catalogue does not have.
        assert!(!named.is_empty() || row.text("alloy") == "7075-T73", "{place}");
        let cold = row.text("cold_storage");
        // `delays ageing 24 h` follows the temperature; `up to 2 weeks` has none; of three figures for one thing the Navy's hours come first.
        let keeps = cold.split("ageing ").last().filter(|_| !cold.starts_with("about")).and_then(minutes);
        let keeps = keeps.map(|minutes| minutes / 60);
        let solution = row.text("solution_temp_F").split_once(" to ");
        let solution = solution.map(|(low, high)| (low.parse().expect("low"), high.parse().expect("high")));
        let above = row.text("note").strip_prefix("above ").and_then(|rest| rest.split_once(" in"));
        let above = above.and_then(|(size, _)| Length::parse(size).ok());
        let drive_within = minutes(row.text("drive_within"));
        let soak = minutes(row.text("soak").split([';', ',']).next().unwrap_or_default());
        let keep_at = fahrenheit(cold);
        for name in named {
            let alloy = rivet(name).expect("a rivet alloy");
            let hard = row.text("alloy").contains("HD");
            if matches!(condition, "as fabricated" | "as received" | "heat treat before use: No") && !hard {
                let basis = alloy.driven_as_received();
                assert_eq!(basis.map(|basis| basis.status()), Some(status(&row)), "{place}: {name}");
                carried += 1;
                continue;
            }
            if hard {
                assert_eq!(condition, "heat treat before use: No", "{place}");
                assert!(alloy.heat_treatments().iter().any(|treatment| treatment.note.contains("HD")), "{place}");
                carried += 1;
                continue;
            }
            let same = |treatment: &HeatTreatment| {
                treatment.drive_within_minutes == drive_within
                    && treatment.keeps_hours == keeps
                    && treatment.solution_f == solution
                    && treatment.soak_minutes == soak
                    && treatment.above == above
                    && treatment.keep_at_f == keep_at
                    && treatment.basis.status() == status(&row)
            };
            let known = alloy.heat_treatments();
            // The third figure for keeping cold, of the lowest rank, is only listed.
            let listed_only = row.text("note").starts_with("three figures for the same thing");
            assert!(listed_only || known.iter().any(same), "{place}: {name}: none of {known:#?}");
            carried += 1;
        }
    }
    assert!(carried >= 25, "{carried} carried");
}

/// Of one material a thickness has one figure: two that a shop enters may lie beside each other, not share as much as an end.
#[test]
fn two_entered_sheets_have_no_thickness_in_common() {
    let sheet =
        |name: &str, from, to| EnteredSheet::new(material(name), Basis::own(0)).between(length(from), length(to));
    let first = sheet("2024-O", ".020", ".040");
    for (other, is_twice) in [
        (sheet("2024-O", ".040", ".063"), true),
        (sheet("2024-O", ".010", ".020"), true),
        (sheet("2024-O", ".025", ".032"), true),
        (sheet("2024-O", ".010", ".063"), true),
        (sheet("2024-O", ".041", ".063"), false),
        (sheet("2024-O", ".010", ".019"), false),
        (sheet("2014-T6", ".020", ".040"), false),
    ] {
        let mut entered = Entered::new();
        entered.sheet(first).expect("the first");
        let wanted = if is_twice { Err(EnterError::SaidTwice) } else { Ok(()) };
        assert_eq!(entered.sheet(other), wanted, "{other:?}");
    }
}
