//! Drill sizes.

use shophead::basis::Status;
use shophead::drill::{Drill, parse_hole};
use shophead::length::Length;
use shophead_tests::{Comparison, fixture};

/// Exact: the tables print no more than a whole number of ten-thousandths, and a fraction is exact to the sixth decimal.
#[test]
fn every_drill_has_its_printed_diameter() {
    let rows = fixture("drill-sizes");
    let mut cells = Comparison::with_misfits(&[]);
    for row in &rows {
        let size = row.text("size");
        let text = if row.text("series") == "number" { format!("#{size}") } else { size.to_owned() };
        let printed = Length::parse(row.text("decimal_in")).expect("a decimal");
        let drill = Drill::parse(&text).unwrap_or_else(|error| panic!("{}: {text}: {error}", row.place()));
        cells.equal(&format!("{text} diameter"), printed, drill.diameter());
        cells.equal(&format!("{text} name"), text.as_str(), &drill.to_string());
        cells.equal(&format!("{text} as a hole"), Ok(printed), parse_hole(&text));
        // Number and letter drills were read in tables; a fraction needs no table.
        let status = if row.is_read() { Status::Published } else { Status::Practice };
        cells.equal(&format!("{text} status"), status, drill.basis().status());
    }
    cells.equal("count", rows.len(), Drill::all().len());
    cells.finish(138 * 4 + 1);
}

#[test]
fn the_list_that_differs_is_kept_too() {
    let rows = fixture("drill-sizes");
    let row = rows.iter().find(|row| row.text("size") == "69").expect("#69");
    let other = row.text("note").split(' ').next().expect("a figure");
    let drill = Drill::parse("#69").expect("a drill");
    assert_eq!(drill.also_printed(), Length::parse(other).ok());
}

/// The hole diameters of the strength handbook are drill diameters. The rows are recalled: they prove nothing about the
/// handbook, only that the drills named beside them have these diameters.
#[test]
fn the_drills_of_the_strength_handbook_have_its_hole_diameters() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("hdbk5-hole-diameters") {
        let name = row.text("drill");
        let text = if name.starts_with(|c: char| c.is_ascii_digit()) { format!("#{name}") } else { name.to_owned() };
        cells.equal(&text, Length::parse(row.text("nominal_hole_dia_in")).ok(), parse_hole(&text).ok());
    }
    cells.finish(8);
}
