//! Sheet strengths and rivet alloys.

use shophead::basis::{Basis, Status};
use shophead::length::Length;
use shophead::material::{Guarantee, HeatTreatment, Material, RivetAlloy, sheets};
use shophead::quantity::Stress;
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
            (
                "basis",
                match column.guarantee() {
                    Guarantee::A => "A",
                    Guarantee::B => "B",
                    Guarantee::S => "S",
                },
            ),
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
    cells.finish(82 * 29 + 1);
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
        let alloy = rivet(row.text("alloy")).unwrap_or_else(|| panic!("{place}: no such rivet alloy"));
        let carried = |basis: Basis| basis.status() == status(&row);
        for temper in words(row.text("temper_supplied")) {
            assert_eq!(alloy.temper_supplied(), Some(temper), "{place}");
            compared += 1;
        }
        for temper in words(row.text("temper_driven")) {
            let has = alloy.driven_shears().iter().any(|shear| shear.temper == Some(temper));
            assert!(has, "{place}: driven temper {temper}");
            compared += 1;
        }
        for mark in words(row.text("head_marking")) {
            let (product, basis) = alloy.head_mark().unwrap_or_else(|| panic!("{place}: no head mark"));
            assert!(product == mark && carried(basis), "{place}: {product}, {basis:?}");
            compared += 1;
        }
        for ksi in words(row.text("fsu_driven_ksi")) {
            let ksi: f64 = ksi.parse().expect("a strength");
            let has = alloy.driven_shears().iter().any(|shear| shear.fsu.ksi() == ksi && carried(shear.basis));
            assert!(has, "{place}: {ksi} ksi");
            compared += 1;
        }
        if let Some(density) = row.number("density_lb_in3") {
            let has = alloy.densities_lb_in3().iter().any(|&(product, basis)| product == density && carried(basis));
            assert!(has, "{place}: {density} lb/in3");
            compared += 1;
        }
        // `49 also recalled`: a second figure for the same rivet.
        if let Some((ksi, _)) = row.text("note").split_once(" also recalled") {
            let ksi: f64 = ksi.parse().expect("a strength");
            assert!(alloy.driven_shears().iter().any(|shear| shear.fsu.ksi() == ksi), "{place}: {ksi} ksi");
            compared += 1;
        }
    }
    assert!(compared >= 65, "{compared} compared");
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
        let alloys = ["1100", "5056", "2117", "2017", "2024"].map(|name| (row.text("alloy").contains(name), name));
        let condition = row.text("condition_to_drive");
        let cold = row.text("cold_storage");
        // `delays ageing 24 h` follows the temperature; `up to 2 weeks` has none.
        let keeps = cold.split("ageing ").last().and_then(minutes).map(|minutes| minutes / 60);
        let solution = row.text("solution_temp_F").split_once(" to ");
        let solution = solution.map(|(low, high)| (low.parse().expect("low"), high.parse().expect("high")));
        let above = condition.split_once("as received up to ").and_then(|(_, size)| Length::parse(size).ok());
        let drive_within = minutes(row.text("drive_within"));
        let soak = minutes(row.text("soak").split([';', ',']).next().unwrap_or_default());
        let keep_at = fahrenheit(cold);
        let nothing = (drive_within, keeps, solution, soak, above) == (None, None, None, None, None);
        for name in alloys.into_iter().filter_map(|(named, name)| named.then_some(name)) {
            let alloy = rivet(name).expect("a rivet alloy");
            let as_received = matches!(condition, "as fabricated" | "as received");
            if as_received {
                let basis = alloy.driven_as_received();
                assert_eq!(basis.map(|basis| basis.status()), Some(status(&row)), "{place}: {name}");
                carried += 1;
            }
            if as_received || nothing {
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
            assert!(known.iter().any(same), "{place}: {name}: none of {known:#?}");
            carried += 1;
        }
    }
    assert!(carried >= 15, "{carried} carried");
}
