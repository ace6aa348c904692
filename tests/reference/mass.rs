//! Rivet masses: two published tables for the formulas, and the computed table of the series.

use shophead::length::Length;
use shophead::rivet::mass::{mass_of_size, rivet_in3};
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Head, MS20470};
use shophead_tests::{Comparison, Misfit, Row, fixture};

/// DIN 660 prints three figures of a mass computed with a head that is not quite a cap: 1.3 %.
const ROUND_HEAD: f64 = 0.013;
/// DIN 661 prints three figures: half a unit in the last of .269 and .626 is 0.2 and 0.1 %, and the head has a small land: 0.4 %.
const COUNTERSUNK: f64 = 0.004;

#[test]
fn published_mass_tables() {
    const MISFITS: &[Misfit] = &[Misfit {
        cell: "M-03",
        reason: "3 x 22 printed 1.129 where its neighbours 1.18 (20) and 1.46 (25) show 1.29: a misprint",
    }];
    let mut table = Comparison::with_misfits(MISFITS);
    for row in fixture("mass-worked-examples") {
        let mm = |column: &str| Length::parse(&format!("{}mm", row.text(column))).expect("millimetres");
        let (head, tolerance) = match row.text("head") {
            "spherical cap" => (Head::Universal, ROUND_HEAD),
            "countersunk frustum" => (Head::Flush, COUNTERSUNK),
            other => panic!("{}: {other}", row.place()),
        };
        let volume =
            rivet_in3(head, mm("head_diameter_mm"), mm("head_height_mm"), mm("shank_mm"), mm("length_mm")).unwrap();
        let density = row.number("density_g_mm3").unwrap();
        // Grams each are kilograms a thousand.
        let computed = volume * 25.4_f64.powi(3) * density;
        let printed = row.number("kg_per_thousand").unwrap();
        table.close(row.text("example_id"), printed, computed, printed * tolerance);
        if row.text("example_id") == "M-03" {
            // The misprint, and what its neighbours show.
            assert_eq!(printed, 1.129);
            assert!((computed - 1.2916).abs() < 0.000_05, "{computed}");
        }
    }
    table.finish(19);
}

/// Not proof of the masses: the rows are computed from the same recalled dimensions. Proof that the product carries them.
#[test]
fn the_computed_masses_of_the_series_are_carried() {
    // The factors by alloy are ratios of densities, which are not this module's to know.
    const AD: f64 = 0.099;
    // Half a unit in the last printed decimal.
    let half_unit = |row: &Row| match row.text("lb_per_1000").split_once('.') {
        Some((_, decimals)) => 0.5 * 10_f64.powi(-(decimals.len() as i32)) + 1e-9,
        None => panic!("{}: no decimals", row.place()),
    };
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("rivet-weights") {
        assert!(!row.is_read(), "{}: read by now: compare it as proof", row.place());
        if row.text("standard") == "any" {
            // What the figure for AD is multiplied by for another alloy: the ratio of their densities, to four decimals.
            let alloy = MS20470.material(row.text("alloy_code")).expect("a material").alloy;
            let printed = row.number("lb_per_1000").expect("a ratio");
            let is_ratio = |density: f64| (density / AD - printed).abs() <= 0.000_05;
            let carried = alloy.densities_lb_in3().iter().any(|&(density, _)| is_ratio(density));
            table.equal(&row.place(), true, carried);
            continue;
        }
        let name = row.text("standard");
        let series = CATALOGUE.iter().find(|series| series.name == name).expect("a series");
        let dash = row.text("dash_dia").parse().expect("a dash number");
        let size = series.size(dash).expect("a size");
        let at = |sixteenths: i16| {
            let length = Length::from_64ths(sixteenths * 4);
            mass_of_size(series, size, length, AD).expect("a mass").lb() * 1000.0
        };
        let computed = match row.text("length_16ths") {
            "per 1/16" => at(17) - at(16),
            // Carried back from a rivet long enough for its head.
            "0" => at(16) - 16.0 * (at(17) - at(16)),
            count => {
                let part = format!("{name}AD{dash}-{count}");
                assert_eq!(Part::parse(&part).map(|part| part.to_string()).as_deref(), Ok(part.as_str()));
                at(count.parse().expect("sixteenths"))
            }
        };
        let cell = format!("{name} {dash} {}", row.text("length_16ths"));
        table.close(&cell, row.number("lb_per_1000").unwrap(), computed, half_unit(&row));
    }
    table.finish(178);
}
