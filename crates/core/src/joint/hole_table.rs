//! Nominal hole diameters for driven solid rivets.
//!
//! MIL-HDBK-5H/5J and MMPDS-01, table 8.1.2(a): recalled, not read. The diameters equal the standard drill gauge diameters, and
//! those from 3/32 to 1/4 reproduce the cells of AC 43.13-1B tables 4-9 to 4-11, which were read.

use crate::length::Length;

/// One row: a rivet, its drill and the diameter that its strength counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct NominalHole {
    /// Nominal rivet diameter.
    pub rivet: Length,
    /// The drill, as the trade writes it without its sign: `30`, `F`.
    pub drill: &'static str,
    /// Nominal hole diameter.
    pub hole: Length,
}

const fn row(rivet_64ths: i16, drill: &'static str, hole_ten_thousandths: u16) -> NominalHole {
    NominalHole {
        rivet: Length::from_64ths(rivet_64ths),
        drill,
        hole: Length::from_ten_thousandths(hole_ten_thousandths),
    }
}

/// The table, in printed order. Rivet in sixty-fourths, drill, hole in ten-thousandths of an inch.
#[rustfmt::skip]
pub const HOLES: &[NominalHole] = &[
    row(4, "51", 670), // 1/16
    row(6, "41", 960), // 3/32
    row(8, "30", 1285), // 1/8
    row(10, "21", 1590), // 5/32
    row(12, "11", 1910), // 3/16
    row(16, "F", 2570), // 1/4
    row(20, "P", 3230), // 5/16
    row(24, "W", 3860), // 3/8
];

/// The row for a nominal rivet diameter; `None` for a size that the table does not have, such as an oversize shank.
///
/// ```
/// use shophead::joint::hole_table;
/// use shophead::length::Length;
/// let eighth = hole_table::nominal_hole(Length::parse("1/8")?).expect("a standard size");
/// assert_eq!((eighth.drill, eighth.hole), ("30", Length::parse(".1285")?));
/// assert!(hole_table::nominal_hole(Length::parse(".141")?).is_none());
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn nominal_hole(rivet: Length) -> Option<&'static NominalHole> {
    HOLES.iter().find(|row| row.rivet == rivet)
}
