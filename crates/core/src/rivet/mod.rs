//! Rivets: the part standards, their dimensions, their part numbers.

use crate::basis::Basis;
use crate::length::{Interval, Length};
use crate::material::RivetAlloy;

/// The shape of the manufactured head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Head {
    /// Universal protruding head.
    Universal,
    /// 100 degree flush head.
    Flush,
    /// 100 degree flush head of reduced size, for shear.
    ReducedFlush,
}

impl Head {
    /// Whether the head lies in the sheet, so that the rivet's length counts it.
    #[must_use]
    pub const fn is_flush(self) -> bool {
        matches!(self, Head::Flush | Head::ReducedFlush)
    }
}

/// One diameter of a series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Size {
    /// The dash number: thirty-seconds of an inch of the standard diameter.
    pub dash: u8,
    /// Nominal shank diameter, which in an oversize series is larger than the dash number says.
    pub shank_nominal: Length,
    /// Least and greatest shank diameter.
    pub shank: Interval,
    /// Nominal head diameter.
    pub head_diameter_nominal: Length,
    /// Least and greatest head diameter; both nominal where no tolerance is known.
    pub head_diameter: Interval,
    /// Nominal head height.
    pub head_height_nominal: Length,
    /// Least and greatest head height; both nominal where the standard gives a reference value only.
    pub head_height: Interval,
    /// Where the dimensions come from.
    pub basis: Basis<'static>,
}

/// A part standard. A caller can define one of their own: every field is public, and everything that takes a series takes it by
/// reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Series<'a> {
    /// As it stands at the start of the part number: `MS20470`.
    pub name: &'a str,
    /// The same parts under other names that are still in force: `NASM20470`.
    pub also: &'a [&'a str],
    /// Older names, superseded by this series: `AN470`.
    pub supersedes: &'a [&'a str],
    /// The manufactured head.
    pub head: Head,
    /// Material letters in printed order, each with its alloy.
    pub materials: &'a [(&'a str, RivetAlloy)],
    /// Diameters in rising order.
    pub sizes: &'a [Size],
    /// How much a rivet may be longer or shorter than its part number says.
    pub length_tolerance: Length,
    /// Where the length tolerance comes from.
    pub length_tolerance_basis: Basis<'a>,
    /// Shortest and longest length tabulated, where known.
    pub tabulated_lengths: Option<Interval>,
    /// Whether half lengths (odd thirty-seconds) exist.
    pub half_lengths: bool,
    /// How much the shank is over the standard size; zero for a standard series.
    pub oversize: Length,
    /// The series with the same head and the next oversize shank, for stepping up a hole.
    pub oversize_series: Option<&'a Series<'a>>,
}
