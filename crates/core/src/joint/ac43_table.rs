//! Rivets or bolts required for each inch of width in splices.
//!
//! AC 43.13-1B tables 4-9 (p 4-37), 4-10 (p 4-38) and 4-11 (p 4-39), for 2117-T4 protruding-head rivets and AN-3 bolts: every
//! printed cell. A place without a figure is `None`.

use crate::length::Length;

/// One printed line: a sheet thickness with the counts for each fastener, in printed column order. The tables print one decimal, so that
/// a count is held as tenths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PrintedLine {
    /// In thousandths of an inch.
    thickness: u16,
    rivets: [u8; 5],
    an3: u8,
}

impl PrintedLine {
    /// Sheet thickness.
    #[must_use]
    pub const fn thickness(&self) -> Length {
        Length::from_ten_thousandths(self.thickness.saturating_mul(10))
    }

    /// Rivets of 3/32, 1/8, 5/32, 3/16 and 1/4 an inch of width.
    #[must_use]
    pub fn rivets(&self) -> [Option<f64>; 5] {
        self.rivets.map(count)
    }

    /// AN-3 bolts an inch of width.
    #[must_use]
    pub fn an3(&self) -> Option<f64> {
        count(self.an3)
    }
}

fn count(tenths: u8) -> Option<f64> {
    (tenths > 0).then(|| f64::from(tenths) / 10.0)
}

/// The rivet diameters at the heads of the columns.
pub const COLUMNS: [Length; 5] = [
    Length::from_64ths(6),
    Length::from_64ths(8),
    Length::from_64ths(10),
    Length::from_64ths(12),
    Length::from_64ths(16),
];

const fn line(mils: u16, rivets: [f64; 5], an3: f64) -> PrintedLine {
    let [a, b, c, d, e] = rivets;
    PrintedLine { thickness: mils, rivets: [tenths(a), tenths(b), tenths(c), tenths(d), tenths(e)], an3: tenths(an3) }
}

/// The nearest whole number of tenths.
const fn tenths(cell: f64) -> u8 {
    (cell * 10.0 + 0.5) as u8
}

/// A place without a figure.
const NO: f64 = 0.0;

/// Table 4-9, p 4-37: bare and clad 2014-T6, 2024-T3, 2024-T36 and 7075-T6 sheet, and other forms. Thickness in
/// thousandths of an inch.
#[rustfmt::skip]
pub const TABLE_4_9: &[PrintedLine] = &[
    //         3/32  1/8   5/32  3/16  1/4    AN-3
    line( 16, [ 6.5,  4.9,   NO,   NO,   NO],   NO),
    line( 20, [ 6.9,  4.9,  3.9,   NO,   NO],   NO),
    line( 25, [ 8.6,  4.9,  3.9,   NO,   NO],   NO),
    line( 32, [11.1,  6.2,  3.9,  3.3,   NO],   NO),
    line( 36, [12.5,  7.0,  4.5,  3.3,  2.4],   NO),
    line( 40, [13.8,  7.7,  5.0,  3.5,  2.4],  3.3),
    line( 51, [  NO,  9.8,  6.4,  4.5,  2.5],  3.3),
    line( 64, [  NO, 12.3,  8.1,  5.6,  3.1],  3.3),
    line( 81, [  NO,   NO, 10.2,  7.1,  3.9],  3.3),
    line( 91, [  NO,   NO, 11.4,  7.9,  4.4],  3.3),
    line(102, [  NO,   NO, 12.8,  8.9,  4.9],  3.4),
    line(128, [  NO,   NO,   NO, 11.2,  6.2],  3.2),
];

/// Table 4-10, p 4-38: 2017, clad 2017 and clad 2024-T3. Thickness in thousandths of an inch.
#[rustfmt::skip]
pub const TABLE_4_10: &[PrintedLine] = &[
    //         3/32  1/8   5/32  3/16  1/4    AN-3
    line( 16, [ 6.5,  4.9,   NO,   NO,   NO],   NO),
    line( 20, [ 6.5,  4.9,  3.9,   NO,   NO],   NO),
    line( 25, [ 6.9,  4.9,  3.9,   NO,   NO],   NO),
    line( 32, [ 8.9,  4.9,  3.9,  3.3,   NO],   NO),
    line( 36, [10.0,  5.6,  3.9,  3.3,  2.4],   NO),
    line( 40, [11.1,  6.2,  4.0,  3.3,  2.4],   NO),
    line( 51, [  NO,  7.9,  5.1,  3.6,  2.4],  3.3),
    line( 64, [  NO,  9.9,  6.5,  4.5,  2.5],  3.3),
    line( 81, [  NO, 12.5,  8.1,  5.7,  3.1],  3.3),
    line( 91, [  NO,   NO,  9.1,  6.3,  3.5],  3.3),
    line(102, [  NO,   NO, 10.3,  7.1,  3.9],  3.3),
    line(128, [  NO,   NO, 12.9,  8.9,  4.9],  3.3),
];

/// Table 4-11, p 4-39: 5052 sheet of every hardness. Thickness in thousandths of an inch.
#[rustfmt::skip]
pub const TABLE_4_11: &[PrintedLine] = &[
    //         3/32  1/8   5/32  3/16  1/4    AN-3
    line( 16, [ 6.3,  4.7,   NO,   NO,   NO],   NO),
    line( 20, [ 6.3,  4.7,  3.8,   NO,   NO],   NO),
    line( 25, [ 6.3,  4.7,  3.8,   NO,   NO],   NO),
    line( 32, [ 6.3,  4.7,  3.8,  3.2,   NO],   NO),
    line( 36, [ 7.1,  4.7,  3.8,  3.2,  2.4],   NO),
    line( 40, [ 7.9,  4.7,  3.8,  3.2,  2.4],   NO),
    line( 51, [10.1,  5.6,  3.8,  3.2,  2.4],   NO),
    line( 64, [12.7,  7.0,  4.6,  3.2,  2.4],   NO),
    line( 81, [  NO,  8.9,  5.8,  4.0,  2.4],  3.2),
    line( 91, [  NO, 10.0,  6.5,  4.5,  2.5],  3.2),
    line(102, [  NO, 11.2,  7.3,  5.1,  2.8],  3.2),
    line(128, [  NO,   NO,  9.2,  6.4,  3.5],  3.2),
];
