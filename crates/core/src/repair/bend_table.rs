//! Least inside radius of a bend of 90 degrees, in sheet thicknesses.
//!
//! AC 43.13-1B table 4-6, p 4-15: two figures a cell, the least that is advised and where it may have to be more. Clad sheet bends slightly
//! tighter; 2024 just after quenching much tighter.

/// The thicknesses at the heads of the columns, in thousandths of an inch.
pub const COLUMNS: [u16; 6] = [16, 32, 64, 128, 182, 258];

/// One printed line: alloy and temper with the cells of its columns, in halves of a thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct BendLine {
    /// The alloy.
    pub alloy: &'static str,
    /// The temper.
    pub temper: &'static str,
    /// Least and greatest figure of each cell, in halves of a thickness.
    pub halves: [(u8, u8); 6],
}

const fn line(alloy: &'static str, temper: &'static str, halves: [(u8, u8); 6]) -> BendLine {
    BendLine { alloy, temper, halves }
}

/// The lines in printed order.
#[rustfmt::skip]
pub const LINES: &[BendLine] = &[
    //                     .016      .032      .064      .128      .182       .258
    line("2024", "O",   [( 0,  0), ( 0,  2), ( 0,  2), ( 0,  2), ( 0,  2), ( 0,  2)]),
    line("2024", "T3",  [( 3,  6), ( 4,  8), ( 6, 10), ( 8, 12), ( 8, 12), (10, 14)]),
    line("2024", "T6",  [( 4,  8), ( 6, 10), ( 6, 10), ( 8, 12), (10, 14), (12, 20)]),
    line("5052", "O",   [( 0,  0), ( 0,  0), ( 0,  2), ( 0,  2), ( 0,  2), ( 0,  2)]),
    line("5052", "H32", [( 0,  0), ( 0,  0), ( 1,  2), ( 1,  3), ( 1,  3), ( 1,  3)]),
    line("5052", "H34", [( 0,  0), ( 0,  0), ( 1,  3), ( 3,  5), ( 3,  5), ( 4,  6)]),
    line("5052", "H36", [( 0,  2), ( 1,  3), ( 2,  4), ( 3,  6), ( 4,  8), ( 4,  8)]),
    line("5052", "H38", [( 1,  3), ( 2,  4), ( 3,  6), ( 4,  8), ( 6, 10), ( 8, 12)]),
    line("6061", "O",   [( 0,  0), ( 0,  2), ( 0,  2), ( 0,  2), ( 0,  2), ( 0,  2)]),
    line("6061", "T4",  [( 0,  2), ( 0,  2), ( 1,  3), ( 2,  4), ( 3,  6), ( 5,  8)]),
    line("6061", "T6",  [( 0,  2), ( 1,  3), ( 2,  4), ( 3,  6), ( 4,  8), ( 6,  8)]),
    line("7075", "O",   [( 0,  0), ( 0,  2), ( 0,  2), ( 1,  3), ( 2,  4), ( 3,  6)]),
    line("7075", "T6",  [( 4,  8), ( 6, 10), ( 8, 12), (10, 14), (10, 14), (12, 20)]),
];
