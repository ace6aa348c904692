//! Single-rivet strength: hole and shear tables, thin-sheet factor, bearing, and worked examples of the failure modes.
//!
//! Most rows here are recalled. Those tests show only that the product carries what the row says and calls it memory; the proof
//! is in the rows that were read: the worked examples and the rules of MIL-HDBK-5H page 8-9.

use shophead::basis::{Basis, Status};
use shophead::drill::Drill;
use shophead::finding::Code;
use shophead::joint::strength::{Joint, Rivet, Shear, Sheet, strength};
use shophead::joint::{hole_table, modes, shear_table, thin_sheet};
use shophead::length::Length;
use shophead::material::{Material, RivetAlloy, Strengths, sheets};
use shophead::quantity::{Force, Stress};
use shophead::rivet::Head;
use shophead_tests::prelude::inches;
use shophead_tests::{Comparison, Row, fixture};

/// A decimal or a fraction as it stands in the fixture.
pub(crate) fn length(row: &Row, column: &str) -> Length {
    Length::parse(row.text(column)).unwrap_or_else(|error| panic!("{}: {error}", row.place()))
}

/// The drills were read; the table of the strength handbook is recalled and only a ceiling.
#[test]
fn nominal_holes() {
    let mut cells = Comparison::with_misfits(&[]);
    let row_of = |row: &Row| hole_table::nominal_hole(length(row, "rivet_dia")).expect("a standard size");
    let printed = |text: &str| {
        let is_number = text.starts_with(|c: char| c.is_ascii_digit());
        let drill = if is_number { format!("#{text}") } else { text.to_owned() };
        Drill::parse(&drill).expect("a drill").diameter()
    };
    for row in fixture("strength-hole-drills") {
        let (found, place) = (row_of(&row), row.place());
        assert!(row.is_read());
        cells.equal(&format!("{place} hole"), length(&row, "hole_in"), found.hole);
        cells.equal(&format!("{place} drill"), row.text("drill"), found.drill);
        cells.equal(&format!("{place} diameter"), found.hole, printed(found.drill));
        cells.equal(&format!("{place} status"), Status::Published, found.basis.status());
        let also = row.text("also_printed");
        cells.equal(&format!("{place} smaller"), true, also.is_empty() || printed(also) > found.hole);
    }
    for row in fixture("hdbk5-hole-diameters") {
        let (found, place) = (row_of(&row), row.place());
        assert!(!row.is_read());
        cells.equal(&format!("{place} hole"), length(&row, "nominal_hole_dia_in"), found.recalled);
        cells.equal(&format!("{place} ceiling"), true, found.hole <= found.recalled);
        cells.equal(&format!("{place} drill"), printed(row.text("drill")), found.recalled);
    }
    assert_eq!(hole_table::HOLES.len(), 8);
    cells.finish(64);
}

#[test]
fn driven_rivet_shear() {
    let mut cells = Comparison::with_misfits(&[]);
    let rows = fixture("hdbk5-rivet-shear");
    let dimpled = |row: &Row| row.is_read() && row.text("preparation") == "dimpled" && row.text("rivet_dia") == "1/8";
    let cap = fixture("hdbk5-flush-joints").iter().find(|row| dimpled(row)).and_then(|row| row.number("ult_lb"));
    for row in &rows {
        let stress = Stress::from_ksi(row.number("fsu_driven_ksi").expect("a stress"));
        let printed = row.number("ult_single_shear_lb").expect("a load");
        let rivet = length(row, "rivet_dia");
        let cell = shear_table::shear_cell(stress, rivet).expect("every recalled cell is carried");
        cells.equal(&row.place(), printed, cell.ultimate.lbf());
        assert_eq!(cell.alloy_temper, row.text("alloy_temper"));
        // The cell of 1/8 in 2117 was read as the most that a flush joint carries.
        let is_cap = rivet == Length::from_64ths(8) && row.text("rivet_code") == "AD";
        assert!(!is_cap || cap == Some(printed), "{}", row.place());
        let status = if row.is_read() || is_cap { Status::Published } else { Status::Memory };
        assert_eq!(cell.basis.status(), status, "{}", row.place());
        // Rule SH-04: the recalled cells agree with stress times area of the table's own hole within 0.4 %.
        let formula = modes::rivet_shear(stress, length(row, "hole_dia_in"), 1.0).lbf();
        cells.close(&format!("{} by formula", row.place()), printed, formula, 0.004 * printed);
    }
    assert_eq!(rows.len(), shear_table::CELLS.len());
    cells.finish(64);
}

/// Stress and drill were read, so that what they give needs no star; a recalled cell lowers it and never raises it.
#[test]
fn shear_stands_on_what_was_read_and_never_above_a_recalled_cell() {
    let mut decided = 0;
    for row in hole_table::HOLES {
        for (alloy, ksi) in [("A", 10.0), ("AD", 30.0), ("D", 34.0), ("D", 38.0), ("DD", 41.0), ("B", 27.0)] {
            let stress = Stress::from_ksi(ksi);
            let thick = row.rivet.checked_mul(2).expect("small");
            let sheet = Sheet::new(Length::from_64ths(8), thick).properties(
                Material::parse("2024-T3").expect("a material").properties(Length::from_64ths(8)).map(Into::into),
            );
            let rivet = Rivet::new(row.rivet, Head::Universal).driven_shear((stress, Basis::AC43_T4_8));
            let sheets = [sheet; 2];
            let joint = Joint::new(&sheets, rivet);
            let found = strength(&joint).expect("a joint");
            let shear = found.shear.expect("a stress");
            let read = modes::rivet_shear(stress, row.hole, 1.0).lbf() * found.thin_sheet_factor.expect("plain sheets");
            let ceiling = shear_table::shear_cell(stress, row.rivet).map(|cell| cell.ultimate.lbf());
            let limit = ceiling.unwrap_or(f64::MAX) * found.thin_sheet_factor.expect("plain sheets");
            assert!(shear.force.lbf() <= read && shear.force.lbf() <= limit, "{alloy} {:?}", row.rivet);
            assert_eq!(found.ceiling.map(|ceiling| ceiling.force.lbf()), ceiling);
            if read <= limit {
                assert_eq!(shear.basis.status(), Status::Published, "{alloy} {:?} rests on read figures", row.rivet);
                assert!(!found.findings.has(Code::LimitFromMemory));
                decided += 1;
            }
        }
    }
    assert!(decided >= 35, "{decided} of 48 need no recalled cell");
}

#[test]
fn there_is_no_thin_sheet_factor_for_what_is_no_sheet_or_no_rivet() {
    let [none, negative, sheet, rivet] =
        ["0", "-.04", ".04", "1/8"].map(|text| text.parse::<Length>().expect("a length"));
    for (thickness, diameter) in
        [(none, rivet), (negative, rivet), (sheet, none), (sheet, negative), (none, none), (negative, negative)]
    {
        for shear in [Shear::Single, Shear::Double] {
            assert_eq!(thin_sheet::factor(shear, thickness, diameter), None, "{thickness} {diameter}");
        }
    }
}

#[test]
fn thin_sheet_factors() {
    let mut cells = Comparison::with_misfits(&[]);
    let rows = fixture("hdbk5-shear-correction");
    let rows: Vec<&Row> = rows.iter().filter(|row| row.text("row_kind") == "cell").collect();
    for row in &rows {
        let shear = if row.text("shear") == "single" { Shear::Single } else { Shear::Double };
        let printed = row.number("factor").expect("a factor");
        let found = thin_sheet::factor(shear, length(row, "sheet_t_in"), length(row, "rivet_dia")).expect("covered");
        // The cells have three decimals; those that were read differ from the formulas by up to .002, one of them by so much.
        let tolerance = if row.is_read() { 0.002_5 } else { 0.000_5 };
        cells.close(&row.place(), printed, found, tolerance + 1e-12);
        // Each column ends at the first of the gauges that takes nothing off.
        let thinner =
            rows.iter().map(|row| length(row, "sheet_t_in")).filter(|gauge| *gauge < length(row, "sheet_t_in"));
        let whole = thinner
            .filter_map(|gauge| thin_sheet::factor(shear, gauge, length(row, "rivet_dia")))
            .any(|one| one >= 0.999_5);
        cells.equal(&format!("{} first", row.place()), false, whole);
    }
    let far = |row: &&&Row| {
        let shear = if row.text("shear") == "single" { Shear::Single } else { Shear::Double };
        let found = thin_sheet::factor(shear, length(row, "sheet_t_in"), length(row, "rivet_dia")).expect("covered");
        (row.number("factor").expect("a factor") - found).abs() > 0.001_5
    };
    assert_eq!(rows.iter().filter(|row| row.is_read()).count(), 49, "cells that were read");
    assert_eq!(rows.iter().filter(far).count(), 1, "cells more than .0015 off");
    let case = |row: &&Row| (row.text("shear").to_owned(), length(row, "rivet_dia"), length(row, "sheet_t_in"));
    let cases: std::collections::BTreeSet<_> = rows.iter().map(case).collect();
    assert_eq!(cases.len(), rows.len(), "one row a case");
    // The two ratios from which on nothing is taken off, in hundredths.
    let rules = fixture("joint-rules");
    for (id, shear) in [("TH-01", Shear::Single), ("TH-02", Shear::Double)] {
        let ratio =
            rules.iter().find(|row| row.text("rule_id") == id).and_then(|row| row.number("value")).expect("a ratio");
        let at = |ratio: f64| thin_sheet::factor(shear, inches(ratio), Length::INCH).expect("covered");
        cells.close(&format!("{id} below"), 1.0, at(ratio + 0.01), 0.0);
        cells.equal(&format!("{id} above"), true, at(ratio - 0.01) < 1.0);
    }
    assert_eq!(Basis::HDBK5J_T8_1_2_1B.status(), Status::Published);
    cells.finish(144);
}

#[test]
fn unit_bearing() {
    let mut cells = Comparison::with_misfits(&[]);
    let rules = fixture("joint-rules");
    let unit_stress = rules.iter().find(|row| row.text("rule_id") == "BR-05").expect("the rule").number("value");
    let mut read = 0;
    for row in fixture("hdbk5-unit-bearing") {
        let hole = hole_table::nominal_hole(length(&row, "rivet_dia")).expect("a standard size");
        assert_eq!(row.number("fbr_ksi"), unit_stress, "{}", row.place());
        let stress = Stress::from_ksi(row.number("fbr_ksi").expect("a stress"));
        let printed = row.number("unit_bearing_lb").expect("a load");
        // The cells are whole pounds of the table's own hole.
        let found = modes::bearing(stress, hole.recalled, length(&row, "sheet_t_in")).lbf();
        cells.close(&row.place(), printed, found, 0.5 + 1e-9);
        let counted = modes::bearing(stress, hole.hole, length(&row, "sheet_t_in")).lbf();
        cells.equal(&format!("{} never more", row.place()), true, counted <= printed + 0.5 + 1e-9);
        read += usize::from(row.is_read());
    }
    assert_eq!(read, 46, "cells that were read");
    cells.finish(140);
}

/// The gauges of the handbook's tables.
const GAUGES: [&str; 12] =
    [".012", ".016", ".020", ".025", ".032", ".036", ".040", ".045", ".050", ".063", ".071", ".080"];

#[test]
fn rules_that_were_read() {
    let rules = fixture("joint-rules");
    let rule = |id: &str| rules.iter().find(|row| row.text("rule_id") == id).unwrap_or_else(|| panic!("no rule {id}"));
    assert!(rule("BR-01").is_read());
    assert_eq!(rule("BR-01").number("value"), Some(thin_sheet::LEAST_RATIO));
    assert_eq!(Basis::HDBK5H_LEAST_RATIO.status(), Status::Published);
    // t/D of exactly 0.18 is covered, a nanometre less is not.
    let diameter = Length::from_64ths(16);
    let least = Length::parse(".045").expect("a length");
    assert!(thin_sheet::is_covered(least, diameter));
    let thinner = Length::from_nanometres(least.nanometres() - 1).expect("a length");
    assert!(!thin_sheet::is_covered(thinner, diameter));
    // The first cell that is printed for each size is the first gauge that reaches it by the hole.
    let first: Vec<Length> =
        rule("BR-17").text("value").split(' ').map(|text| Length::parse(text).expect("a gauge")).collect();
    let sizes = [6, 8, 10, 12, 16, 20, 24].map(Length::from_64ths);
    for (size, first) in sizes.into_iter().zip(first) {
        let hole = hole_table::nominal_hole(size).expect("a standard size").hole;
        let gauges = GAUGES.map(|gauge| Length::parse(gauge).expect("a gauge"));
        assert_eq!(gauges.into_iter().find(|gauge| thin_sheet::is_covered(*gauge, hole)), Some(first), "{size:?}");
    }
    // Read since: bearing between the edge margins, below them, and the range of its tests.
    for id in ["BR-08", "BR-09", "BR-12", "BR-13", "TN-01", "TN-02"] {
        assert!(rule(id).is_read(), "{id}");
    }
    let share = modes::TENSION_SHARE.0 * 100.0;
    assert_eq!(rule("TN-01").number("value"), Some(share.round()));
}

/// One figure out of `pitch=75 d=25 ...`.
fn given(row: &Row, key: &str) -> Option<f64> {
    let text = row.text("given").split(' ').find_map(|pair| pair.strip_prefix(key)?.strip_prefix('='))?;
    Some(text.parse().unwrap_or_else(|_| panic!("{}: {key}={text}", row.place())))
}

fn list(row: &Row, key: &str) -> Option<Vec<u16>> {
    let text = row.text("given").split(' ').find_map(|pair| pair.strip_prefix(key)?.strip_prefix('='))?;
    Some(text.split('|').map(|item| item.parse().expect("a count")).collect())
}

/// The formulas are homogeneous, so an example in millimetres and megapascals, or in inches and tons, is worked in inches and
/// pounds.
/// Modes of a repeating pitch.
fn pitch_mode(row: &Row, pitch: f64, asked: &str) -> f64 {
    let figure = |key: &str| given(row, key).unwrap_or_else(|| panic!("{}: no {key}", row.place()));
    let (tension, shear, bearing) = (figure("tension"), figure("shear"), figure("bearing"));
    let (pitch, d, t) = (inches(pitch), inches(figure("d")), inches(figure("t")));
    let rivets = figure("rivets_per_pitch");
    let net = modes::net_section(Stress::from_psi(tension), t, pitch, d, 1);
    let sheared = modes::rivet_shear(Stress::from_psi(shear), d, figure("shear_planes")).lbf() * rivets;
    let crushed = modes::bearing(Stress::from_psi(bearing), d, t).lbf() * rivets;
    match asked {
        "Pt" => net.lbf(),
        "Ps" => sheared,
        "Pc" => crushed,
        "eta" => {
            let weakest = Force::from_lbf(net.lbf().min(sheared).min(crushed));
            modes::efficiency(weakest, modes::gross_section(Stress::from_psi(tension), t, pitch))
        }
        other => panic!("{}: {other}", row.place()),
    }
}

/// Modes of a joint with several rows of different numbers of rivets.
fn row_mode(row: &Row, holes: &[u16], asked: &str) -> f64 {
    let figure = |key: &str| given(row, key).unwrap_or_else(|| panic!("{}: no {key}", row.place()));
    let (width, hole, t) = (inches(figure("width")), inches(figure("hole")), inches(figure("t")));
    let tension = Stress::from_psi(figure("tension"));
    let shear = modes::rivet_shear(Stress::from_psi(figure("shear")), hole, figure("shear_factor"));
    let bearing = modes::bearing(Stress::from_psi(figure("bearing")), hole, t);
    let rivets = f64::from(holes.iter().sum::<u16>());
    let at_row = |index: usize| {
        let before = f64::from(holes[..index].iter().sum::<u16>()) * shear.min(bearing).lbf();
        modes::net_section(tension, t, width, hole, holes[index]).lbf() + before
    };
    match asked {
        "rivet_shear" => shear.lbf(),
        "rivet_bearing" => bearing.lbf(),
        "row1" => at_row(0),
        "row2" => at_row(1),
        "row3" => at_row(2),
        "shear_all" => shear.lbf() * rivets,
        "bearing_all" => bearing.lbf() * rivets,
        "eta" => {
            let rows = (0..holes.len()).map(at_row);
            let weakest = rows.fold((shear.lbf() * rivets).min(bearing.lbf() * rivets), f64::min);
            modes::efficiency(Force::from_lbf(weakest), modes::gross_section(tension, t, width))
        }
        other => panic!("{}: {other}", row.place()),
    }
}

/// The tolerance is the fixture's own: the examples were worked with a rounded pi or with rounded steps between.
fn tolerance(row: &Row, printed: f64) -> f64 {
    let text = row.text("tolerance");
    let number = |end: &str| text.split_once(end).and_then(|(number, _)| number.trim().parse::<f64>().ok());
    match (number("%"), number("absolute")) {
        (Some(percent), _) => printed * percent / 100.0,
        (None, Some(absolute)) => absolute,
        _ => panic!("{}: tolerance {text:?}", row.place()),
    }
}

#[test]
fn worked_examples_of_the_failure_modes() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("joint-modes-examples").iter().filter(|row| row.is_read()) {
        let id = row.text("example_id");
        let printed = row.number("printed_answer").expect("an answer");
        let (_, asked) = id.split_once('.').expect("J-01.Pt");
        let found = if let Some(pitch) = given(row, "pitch") {
            pitch_mode(row, pitch, asked)
        } else if let Some(holes) = list(row, "holes_per_row") {
            row_mode(row, &holes, asked)
        } else {
            let rivets = given(row, "rivets").expect("J-15");
            let d = inches(given(row, "d_in").expect("J-15"));
            let one = match asked {
                "shear" => modes::rivet_shear(Stress::from_psi(given(row, "shear_psi").expect("J-15")), d, 1.0),
                _ => modes::bearing(
                    Stress::from_psi(given(row, "bearing_psi").expect("J-15")),
                    d,
                    inches(given(row, "t_in").expect("J-15")),
                ),
            };
            one.lbf() * rivets
        };
        cells.close(id, printed, found, tolerance(row, printed));
    }
    cells.finish(34);
}

/// Every column of the sheet tables in a lap joint with a rivet that suits its thinnest sheet: an allowable exactly where the
/// bearing strength at both edge margins is published, and otherwise a finding that stops.
#[test]
fn every_published_sheet_has_an_allowable_or_says_why_not() {
    let (mut with, mut without) = (0, 0);
    for properties in sheets() {
        let thickness = properties.t_max().min(Length::from_ten_thousandths(1_250)).max(properties.t_min());
        let diameter = Length::from_64ths(if thickness < Length::from_ten_thousandths(170) { 2 } else { 4 });
        let edge = diameter.checked_mul(2).expect("small");
        let sheet = Sheet::new(thickness, edge).properties(Strengths::from(properties));
        let rivet = Rivet::new(diameter, Head::Universal).driven_shear(RivetAlloy::Al2117.fsu_driven());
        let sheets = [sheet, sheet];
        let joint = Joint::new(&sheets, rivet);
        let found =
            strength(&joint).unwrap_or_else(|error| panic!("{} {}: {error}", properties.alloy(), properties.temper()));
        let published = properties.fbru_15().is_some() && properties.fbru_20().is_some();
        assert_eq!(
            found.allowable.is_some(),
            published,
            "{} {} {}",
            properties.alloy(),
            properties.temper(),
            properties.basis().citation().expect("built in")
        );
        assert_eq!(found.findings.must_refer(), !published);
        if published { with += 1 } else { without += 1 }
    }
    assert_eq!((with, without), (77, 5), "columns with and without bearing strength");
}
