//! Strengths of joints with flush rivets: test values, not shear-or-bearing sums.
//!
//! Two sources. Rows for 2024-T3 were read in a secondary quotation of the flush-head table of MIL-HDBK-5F (yield at a
//! permanent set of 0.005 in). Rows for clad 2024-T42 and stronger 2024 tempers are recalled from the table of MIL-HDBK-5
//! section 8.1.2.2 for MS20426AD in machine-countersunk sheet; its letter is not recalled. Both follow one series: in the 3/32
//! column they alternate without a step.

use super::strength::Preparation;
use crate::basis::Basis;
use crate::length::Length;
use crate::material::Strengths;
use crate::quantity::{Force, Stress};

crate::words::words! {
    /// The sheet that a row stands for.
    #[non_exhaustive]
    FlushSheet, "sheet of a flush joint" {
        Al2024T3 = 1, "2024-T3", "2024-T3; the quotation does not say whether clad.";
        Clad2024T42 = 2, "clad 2024-T42 and stronger", "Clad 2024-T42 and stronger 2024 tempers.";
    }
}

/// One row: a flush rivet in a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct FlushRow {
    /// The sheet.
    pub sheet: FlushSheet,
    /// How the sheet takes the head: countersunk or dimpled.
    pub preparation: Preparation,
    /// Nominal rivet diameter.
    pub rivet: Length,
    /// Thickness of the countersunk or dimpled sheet.
    pub thickness: Length,
    /// Ultimate load of the joint, a rivet.
    pub ultimate: Force,
    /// Yield load of the joint, a rivet, where known.
    pub yield_load: Option<Force>,
    /// Whether the table marks the countersink as a knife edge, undesirable and not approved. Thinner sheet is worse.
    pub knife_edge: bool,
    /// Where the row stands.
    pub basis: Basis,
}

/// The driven shear stress of the rivets of this table, 2117-T3; no other alloy is covered.
pub const DRIVEN_SHEAR: Stress = Stress::from_ksi(30.0);

const fn read(
    preparation: Preparation,
    rivet_64ths: i16,
    mils: u16,
    ultimate: f64,
    yield_load: Option<f64>,
) -> FlushRow {
    let yield_load = match yield_load {
        Some(lbf) => Some(Force::from_lbf(lbf)),
        None => None,
    };
    FlushRow {
        sheet: FlushSheet::Al2024T3,
        yield_load,
        basis: Basis::HDBK5F_FLUSH_HEADS,
        ..recalled(preparation, rivet_64ths, mils, ultimate)
    }
}

const fn recalled(preparation: Preparation, rivet_64ths: i16, mils: u16, ultimate: f64) -> FlushRow {
    FlushRow {
        sheet: FlushSheet::Clad2024T42,
        preparation,
        rivet: Length::from_64ths(rivet_64ths),
        thickness: Length::from_ten_thousandths(mils.saturating_mul(10)),
        ultimate: Force::from_lbf(ultimate),
        yield_load: None,
        knife_edge: false,
        basis: Basis::HDBK5_FLUSH_JOINTS,
    }
}

const fn knife_edge(row: FlushRow) -> FlushRow {
    FlushRow { knife_edge: true, ..row }
}

use Preparation::{Countersunk, Dimpled};

/// The rows: preparation, rivet in sixty-fourths of an inch, sheet in thousandths, pounds force ultimate and yield.
#[rustfmt::skip]
pub const ROWS: &[FlushRow] = &[
    recalled(Countersunk, 6, 20, 132.0), // 3/32
    recalled(Countersunk, 6, 25, 156.0), // 3/32
    knife_edge(read(Countersunk, 6, 32, 178.0, Some(132.0))), // 3/32
    read(Countersunk, 6, 40, 193.0, Some(153.0)), // 3/32
    recalled(Countersunk, 6, 50, 206.0), // 3/32
    read(Countersunk, 6, 63, 216.0, Some(213.0)), // 3/32
    recalled(Countersunk, 8, 20, 163.0), // 1/8
    recalled(Countersunk, 8, 25, 221.0), // 1/8
    recalled(Countersunk, 8, 32, 272.0), // 1/8
    recalled(Countersunk, 8, 40, 309.0), // 1/8
    recalled(Countersunk, 8, 50, 340.0), // 1/8
    recalled(Countersunk, 8, 63, 363.0), // 1/8
    recalled(Countersunk, 8, 71, 373.0), // 1/8
    recalled(Countersunk, 10, 25, 250.0), // 5/32
    recalled(Countersunk, 10, 32, 348.0), // 5/32
    recalled(Countersunk, 10, 40, 418.0), // 5/32
    recalled(Countersunk, 10, 50, 479.0), // 5/32
    recalled(Countersunk, 10, 63, 523.0), // 5/32
    recalled(Countersunk, 10, 71, 542.0), // 5/32
    recalled(Countersunk, 10, 80, 560.0), // 5/32
    recalled(Countersunk, 10, 90, 575.0), // 5/32
    recalled(Countersunk, 12, 40, 525.0), // 3/16
    recalled(Countersunk, 12, 50, 628.0), // 3/16
    recalled(Countersunk, 12, 63, 705.0), // 3/16
    recalled(Countersunk, 12, 71, 739.0), // 3/16
    recalled(Countersunk, 12, 80, 769.0), // 3/16
    recalled(Countersunk, 12, 90, 795.0), // 3/16
    recalled(Countersunk, 12, 100, 818.0), // 3/16
    recalled(Countersunk, 12, 125, 853.0), // 3/16
    read(Dimpled, 6, 32, 217.0, Some(209.0)), // 3/32
    read(Dimpled, 6, 40, 217.0, Some(209.0)), // 3/32
    read(Dimpled, 6, 63, 217.0, Some(209.0)), // 3/32
    read(Dimpled, 8, 40, 388.0, None), // 1/8
];

/// Bare 2024-T3, the strictest reading of the quoted rows. MIL-HDBK-5J table 3.2.3.0(b1), p 3-71.
const BARE_2024_T3: Least =
    Least { ftu: Stress::from_ksi(63.0), fbru_15: Stress::from_ksi(104.0), fbru_20: Stress::from_ksi(129.0) };

/// Clad 2024-T42 from 0.063 in, the stronger of its columns. MIL-HDBK-5J table 3.2.3.0(e3), p 3-77.
const CLAD_2024_T42: Least =
    Least { ftu: Stress::from_ksi(60.0), fbru_15: Stress::from_ksi(96.0), fbru_20: Stress::from_ksi(119.0) };

/// Strengths that a sheet of another alloy must reach to stand in for the sheet of a row.
struct Least {
    ftu: Stress,
    fbru_15: Stress,
    fbru_20: Stress,
}

impl Least {
    fn reached_by(&self, sheet: &Strengths<'_>) -> bool {
        let reaches = |value: Option<Stress>, least: Stress| value.is_some_and(|value| value >= least);
        reaches(sheet.ftu(), self.ftu)
            && reaches(sheet.fbru_15(), self.fbru_15)
            && reaches(sheet.fbru_20(), self.fbru_20)
    }
}

/// Tempers of 2024 that stand in the handbook's tables as sheet and are T42 or stronger.
const T42_OR_STRONGER: &[&str] = &["T42", "T3", "T4", "T351", "T361", "T62", "T81"];

impl FlushSheet {
    /// Whether a row for this sheet may serve another, and on what that rests besides the row: the row's own words, or practice
    /// when the other sheet is only stronger.
    fn serves(self, sheet: &Strengths<'_>) -> Option<Option<Basis>> {
        let (named, least) = match self {
            FlushSheet::Al2024T3 => (sheet.alloy() == Some("2024") && sheet.temper() == Some("T3"), BARE_2024_T3),
            FlushSheet::Clad2024T42 => {
                let is_temper = sheet.temper().is_some_and(|temper| T42_OR_STRONGER.contains(&temper));
                (sheet.alloy() == Some("2024") && is_temper, CLAD_2024_T42)
            }
        };
        if named {
            Some(None)
        } else if least.reached_by(sheet) {
            Some(Some(Basis::STRONGER_SHEET))
        } else {
            None
        }
    }
}

/// The row that covers a flush rivet of 2117 in a sheet, and what the value rests on.
///
/// Never more than a test showed: the row of the same rivet and preparation with the thickest sheet that is not thicker than
/// this one, so that nothing is interpolated and the last row's value holds for all thicker sheet. `None` where no row is thin
/// enough or the sheet is weaker than those tested.
#[must_use]
pub fn flush_row(
    rivet: Length,
    preparation: Preparation,
    sheet: &Strengths<'_>,
    thickness: Length,
) -> Option<(&'static FlushRow, Basis)> {
    ROWS.iter()
        .filter(|row| row.rivet == rivet && row.preparation == preparation && row.thickness <= thickness)
        .filter_map(|row| Some((row, row.sheet.serves(sheet)?)))
        .max_by_key(|(row, _)| row.thickness)
        .map(|(row, also)| (row, also.map_or(row.basis, |also| row.basis.weaker(also))))
}
