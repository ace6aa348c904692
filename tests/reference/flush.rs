//! Flush joints: every row is carried as it stands, and the strength of a joint is never more than its row or its rivet.

use shophead::basis::{Basis, Status};
use shophead::finding::Code;
use shophead::joint::flush_table::{self, FlushRow};
use shophead::joint::strength::{Joint, JointStrength, Mode, Preparation, Rivet, Sheet, strength};
use shophead::length::Length;
use shophead::material::{Guarantee, SheetHeading, SheetProperties, Strengths};
use shophead::quantity::Stress;
use shophead::rivet::Head;
use shophead_tests::prelude::material;
use shophead_tests::{Comparison, Row, fixture};

use crate::joint::length;

fn preparation(row: &Row) -> Preparation {
    match row.text("preparation") {
        "dimpled" => Preparation::Dimpled,
        "machine countersunk" => Preparation::Countersunk,
        other => panic!("{}: {other}", row.place()),
    }
}

fn carried(row: &Row) -> Option<&'static FlushRow> {
    flush_table::ROWS.iter().find(|found| {
        found.rivet == length(row, "rivet_dia")
            && found.preparation == preparation(row)
            && found.thickness == length(row, "sheet_t_in")
    })
}

#[test]
fn every_row_is_carried() {
    let mut cells = Comparison::with_misfits(&[]);
    let rows = fixture("hdbk5-flush-joints");
    for row in &rows {
        let found = carried(row).unwrap_or_else(|| panic!("{} is not carried", row.place()));
        cells.equal(&format!("{} ultimate", row.place()), row.number("ult_lb"), Some(found.ultimate.lbf()));
        let yield_load = found.yield_load.map(|load| load.lbf());
        cells.equal(&format!("{} yield", row.place()), row.number("yield_lb"), yield_load);
        cells.equal(
            &format!("{} status", row.place()),
            if row.is_read() { Status::Published } else { Status::Memory },
            found.basis.status(),
        );
        cells.equal(&format!("{} knife edge", row.place()), row.text("note").contains("knife edge"), found.knife_edge);
    }
    assert_eq!(rows.len(), flush_table::ROWS.len());
    cells.finish(4 * 33);
}

const fn heading(alloy: &'static str, temper: &'static str) -> SheetHeading {
    SheetHeading::new([alloy, temper, "sheet", "AMS-QQ-A-250/4"], 0, 100, Basis::HDBK5J_T3_2_3_0_B1)
        .bearing_dry_pin(Some(true))
}

static BARE_2024_T3: SheetHeading = heading("2024", "T3");
static WEAKER: SheetHeading = heading("6061", "T6");
static STRONGER: SheetHeading = heading("7075", "T6");

/// Of these in hundreds of psi: tension, bearing at 1.5 and at 2.0.
fn sheet_of(heading: &'static SheetHeading, ftu: [u16; 2], fbru: [u16; 2]) -> SheetProperties {
    let strengths = [ftu[0], ftu[1], 470, 420, 390, 450, 390, fbru[0], fbru[1], 730, 880];
    SheetProperties::new(heading, (100, 2_490), Guarantee::A, strengths, [0; 4])
}

/// MIL-HDBK-5J table 3.2.3.0(b1), p 3-71, basis A; the range is widened to what these joints ask for.
fn sheet_2024_t3() -> SheetProperties {
    sheet_of(&BARE_2024_T3, [640, 630], [1_040, 1_290])
}

const DRIVEN_2117: (Stress, Basis) = (Stress::from_ksi(30.0), Basis::HDBK5J_T8_1_2B);

/// A flush rivet through this sheet into a thick one.
fn flush(properties: &SheetProperties, preparation: Preparation, rivet: Length, thickness: Length) -> JointStrength {
    let edge = rivet.checked_mul(2).expect("a length");
    let skin = Sheet::new(thickness, edge).properties(Strengths::from(properties)).preparation(preparation);
    let under = skin.thickness(Length::from_ten_thousandths(1_250)).preparation(Preparation::Plain);
    let rivet = Rivet::new(rivet, Head::Flush).driven_shear(DRIVEN_2117);
    let sheets = [skin, under];
    let joint = Joint::new(&sheets, rivet);
    strength(&joint).expect("a joint")
}

#[test]
fn a_joint_carries_its_row_but_not_more_than_its_rivet() {
    let properties = sheet_2024_t3();
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("hdbk5-flush-joints") {
        let (rivet, thickness) = (length(&row, "rivet_dia"), length(&row, "sheet_t_in"));
        let found = flush(&properties, preparation(&row), rivet, thickness);
        let allowable = found.allowable.expect("a published joint").force.lbf();
        let printed = row.number("ult_lb").expect("a load");
        let shear = found.shear.expect("2117").force.lbf();
        cells.equal(&row.place(), printed.min(shear), allowable);
        cells.equal(&format!("{} refer", row.place()), false, found.findings.has(Code::StrengthNotPublished));
    }
    cells.finish(66);
}

#[test]
fn between_two_rows_the_thinner_one_counts() {
    let properties = sheet_2024_t3();
    let eighth = Length::from_64ths(8);
    let found = flush(&properties, Preparation::Countersunk, eighth, Length::from_ten_thousandths(600));
    assert_eq!(found.allowable.map(|load| load.force.lbf()), Some(340.0), "the row of .050, not of .063");
    assert_eq!(found.governing.map(|governing| governing.mode), Some(Mode::FlushJoint));
    let thick = flush(&properties, Preparation::Countersunk, eighth, Length::from_ten_thousandths(1_600));
    assert_eq!(thick.allowable.map(|load| load.force.lbf()), Some(373.0), "the last row, .071, and no further");
}

#[test]
fn a_knife_edge_is_referred() {
    let properties = sheet_2024_t3();
    let small = Length::from_64ths(6);
    let found = flush(&properties, Preparation::Countersunk, small, Length::from_ten_thousandths(320));
    assert!(found.findings.has(Code::CountersinkTooDeep) && found.findings.must_refer());
    let deeper = flush(&properties, Preparation::Countersunk, small, Length::from_ten_thousandths(400));
    assert!(!deeper.findings.has(Code::CountersinkTooDeep));
    let dimpled = flush(&properties, Preparation::Dimpled, small, Length::from_ten_thousandths(320));
    assert!(!dimpled.findings.has(Code::CountersinkTooDeep));
}

#[test]
fn what_no_row_covers_is_referred() {
    let properties = sheet_2024_t3();
    let mils = |count: u16| Length::from_ten_thousandths(count * 10);
    let no_figure = |found: &JointStrength| {
        found.allowable.is_none() && found.findings.has(Code::StrengthNotPublished) && found.findings.must_refer()
    };
    // Thinner than the first row; a size without rows; a dimple that was not tested.
    assert!(no_figure(&flush(&properties, Preparation::Countersunk, Length::from_64ths(12), mils(32))));
    assert!(no_figure(&flush(&properties, Preparation::Countersunk, Length::from_64ths(16), mils(100))));
    assert!(no_figure(&flush(&properties, Preparation::Dimpled, Length::from_64ths(10), mils(40))));
    // A sheet weaker than those tested.
    let weak = sheet_of(&WEAKER, [420, 420], [670, 880]);
    assert!(no_figure(&flush(&weak, Preparation::Countersunk, Length::from_64ths(8), mils(50))));
    // A stronger one of another alloy may use the rows, as practice at best.
    let strong = sheet_of(&STRONGER, [740, 740], [1_150, 1_480]);
    let found = flush(&strong, Preparation::Dimpled, Length::from_64ths(6), mils(40));
    let bearing = found.sheets[0].bearing().expect("a row");
    assert_eq!((bearing.ultimate.force.lbf(), bearing.ultimate.basis.status()), (217.0, Status::Practice));
}

/// The rows' words name their sheet; another one takes a row where none of its strengths is less: those of clad 2024-T42 from .063, 60, 96 and
/// 119 ksi (MIL-HDBK-5J table 3.2.3.0(e3), p 3-77), or of bare 2024-T3, 63, 104 and 129 (table 3.2.3.0(b1), p 3-71).
#[test]
fn a_sheet_that_lacks_one_strength_takes_no_row() {
    let mils = |count: u16| Length::from_ten_thousandths(count * 10);
    let figure = |preparation, rivet, thickness, [ftu, at_15, at_20]: [u16; 3]| {
        let sheet = sheet_of(&STRONGER, [ftu, ftu], [at_15, at_20]);
        flush(&sheet, preparation, rivet, thickness).allowable.map(|load| load.force.lbf())
    };
    for (preparation, thickness, least, ultimate) in [
        (Preparation::Countersunk, mils(63), [600, 960, 1_190], 363.0),
        (Preparation::Dimpled, mils(40), [630, 1_040, 1_290], 388.0),
    ] {
        let eighth = Length::from_64ths(8);
        assert_eq!(figure(preparation, eighth, thickness, least), Some(ultimate));
        for weaker in 0..3 {
            let mut lacks = least;
            lacks[weaker] -= 1;
            assert_eq!(figure(preparation, eighth, thickness, lacks), None, "{preparation:?} {lacks:?}");
        }
    }
}

/// In the sheet that a row names, or a temper of it that is at least as strong, the row's own words carry it; in another that is only stronger
/// it is practice.
#[test]
fn a_row_names_its_sheet() {
    let eighth = Length::from_64ths(8);
    let rests_on = |sheet: &str, preparation, thickness: &str| {
        let thickness = Length::parse(thickness).expect("a thickness");
        let sheet = Strengths::from(material(sheet).properties(thickness).expect("published"));
        let (row, basis) = flush_table::flush_row(eighth, preparation, &sheet, thickness)?;
        Some(if basis == row.basis { "its row" } else { "practice" })
    };
    for (sheet, preparation, wanted) in [
        ("2024-T3", Preparation::Countersunk, Some("its row")),
        ("clad 2024-T3", Preparation::Countersunk, Some("its row")),
        ("clad 2024-T42", Preparation::Countersunk, Some("its row")),
        // A recalled row is no more than practice makes of it.
        ("7075-T6", Preparation::Countersunk, Some("its row")),
        ("6061-T6", Preparation::Countersunk, None),
        ("2024-T3", Preparation::Dimpled, Some("its row")),
        ("7075-T6", Preparation::Dimpled, Some("practice")),
        // Dimpled, the rows name T3 alone, and this is weaker.
        ("clad 2024-T42", Preparation::Dimpled, None),
    ] {
        assert_eq!(rests_on(sheet, preparation, ".063"), wanted, "{sheet} {preparation:?}");
    }
}
