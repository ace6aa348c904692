//! The hole that a driven rivet's strength counts, for the standard diameters.
//!
//! A driven rivet fills its hole, so its shear and its bearing count the hole. What the drill for it is was read: MIL-R-47196A(MI) table I,
//! the smaller drill where it prints two, and for 3/32 the drill of a repair manual, which is smaller than the specification's #40. The table
//! of MIL-HDBK-5 itself, 8.1.2(a), is recalled: a ceiling and a cross-check. Up to 1/4 both are the same, and those from 3/32 to 1/4 reproduce
//! the cells of AC 43.13-1B tables 4-9 to 4-11; for 5/16 and 3/8 the recalled hole is larger and does not count.

use crate::basis::Basis;
use crate::length::Length;

/// One row: a rivet, its drill and the diameter that its strength counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct NominalHole {
    /// Nominal rivet diameter.
    pub rivet: Length,
    /// The smallest drill printed for it, as the trade writes it without its sign: `30`, `F`.
    pub drill: &'static str,
    /// The diameter of that drill, which counts.
    pub hole: Length,
    /// Where the drill is printed.
    pub basis: Basis,
    /// The hole of MIL-HDBK-5 table 8.1.2(a), recalled; never smaller than the one that counts.
    pub recalled: Length,
}

const fn row(
    rivet_64ths: i16,
    drill: &'static str,
    hole_ten_thousandths: u16,
    basis: Basis,
    recalled_ten_thousandths: u16,
) -> NominalHole {
    NominalHole {
        rivet: Length::from_64ths(rivet_64ths),
        drill,
        hole: Length::from_ten_thousandths(hole_ten_thousandths),
        basis,
        recalled: Length::from_ten_thousandths(recalled_ten_thousandths),
    }
}

/// The table, by diameter. Rivet in sixty-fourths; drill, its diameter in ten-thousandths of an inch, where it is printed; the recalled hole.
#[rustfmt::skip]
pub const HOLES: &[NominalHole] = &[
    row(4, "51", 670, Basis::SPEC_47196_DRILLS, 670), // 1/16
    row(6, "41", 960, Basis::MANUAL_1940S_DRILLS, 960), // 3/32
    row(8, "30", 1285, Basis::SPEC_47196_DRILLS, 1285), // 1/8
    row(10, "21", 1590, Basis::SPEC_47196_DRILLS, 1590), // 5/32
    row(12, "11", 1910, Basis::SPEC_47196_DRILLS, 1910), // 3/16
    row(16, "F", 2570, Basis::SPEC_47196_DRILLS, 2570), // 1/4
    row(20, "O", 3160, Basis::SPEC_47196_DRILLS, 3230), // 5/16
    row(24, "V", 3770, Basis::SPEC_47196_DRILLS, 3860), // 3/8
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
