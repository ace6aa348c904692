//! Rivets: the part standards, their dimensions, their part numbers, their mass.
//!
//! A [`Series`] is one part standard as plain data. The built-in ones stand in [`CATALOGUE`], one row each; nearly all of
//! their dimensions could only be recalled, and their [`Basis`] says so. A dimension that is not known is `None`: it is never
//! filled in from a sister standard. Only between which heads an oversize flush one lies is worked out: [`Series::head_between`].
//!
//! [`part`] reads and prints part numbers, [`mass`] weighs.

pub mod mass;
pub mod other;
pub mod part;
mod series;

pub(crate) use series::NAMES;
pub use series::{CATALOGUE, MS20426, MS20427, MS20470, MS20613, MS20615, NAS1097, NAS1198, NAS1241, NAS1242, NAS9313};

use core::fmt;

use crate::basis::Basis;
use crate::length::{Interval, Length};
use crate::material::RivetAlloy;
use crate::setters::setters;

crate::words::words! {
    /// The shape of the manufactured head.
    #[non_exhaustive]
    Head, "head" {
        Universal = 1, "universal", "Universal protruding head.";
        Flush = 2, "flush", "100 degree flush head.";
        ReducedFlush = 3, "reduced-flush", "100 degree flush head of reduced size, for shear.";
    }
}

impl Head {
    /// Whether the head lies in the sheet, so that the rivet's length counts it.
    #[must_use]
    pub const fn is_flush(self) -> bool {
        matches!(self, Head::Flush | Head::ReducedFlush)
    }

    /// The included angle of the cone in degrees; `None` for a protruding head.
    #[must_use]
    pub const fn cone_degrees(self) -> Option<u16> {
        if self.is_flush() { Some(100) } else { None }
    }

    /// The height of the cone between a head and a shank diameter, to the nearest nanometre.
    ///
    /// k = (A - D) / (2 tan 50°), with A the head and D the shank diameter. `None` for a protruding head, and where the head is
    /// not wider than the shank.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::rivet::Head;
    /// let k = Head::Flush.cone_height(Length::parse(".225")?, Length::parse("1/8")?);
    /// assert_eq!(k.map(|k| format!("{k:.4}")), Some("0.0420".into()));
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    #[must_use]
    pub fn cone_height(self, head_diameter: Length, shank: Length) -> Option<Length> {
        // 1 / (2 tan 50°) to nine digits: exact to the nanometre for heads up to an inch, with no floating point.
        const HALF_COTANGENT: (u32, u32) = (419_549_816, 1_000_000_000);
        let flare = head_diameter.checked_sub(shank)?;
        (self.is_flush() && flare > Length::ZERO).then(|| flare.times(HALF_COTANGENT.0, HALF_COTANGENT.1))
    }

    /// The diameter of the head whose cone is this high over a shank: [`Head::cone_height`] the other way round. `None` for a protruding head.
    #[must_use]
    pub fn cone_diameter(self, height: Length, shank: Length) -> Option<Length> {
        // 2 tan 50° to nine digits.
        const TWICE_TANGENT: (u32, u32) = (2_383_507_185, 1_000_000_000);
        (self.is_flush() && height > Length::ZERO).then(|| shank.plus(height.times(TWICE_TANGENT.0, TWICE_TANGENT.1)))
    }
}

/// The manufactured head of one diameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct HeadSize {
    /// Nominal diameter, to the sharp corner for a flush head.
    pub diameter_nominal: Length,
    /// Least and greatest diameter, where the tolerance is known.
    pub diameter: Option<Interval>,
    /// Nominal height; a reference value for a flush head.
    pub height_nominal: Length,
    /// Least and greatest height, where the tolerance is known.
    pub height: Option<Interval>,
    /// Where the head's dimensions come from.
    pub basis: Basis,
}

impl HeadSize {
    /// Of these nominal dimensions; their tolerances are not known.
    #[must_use]
    pub const fn new(diameter_nominal: Length, height_nominal: Length, basis: Basis) -> HeadSize {
        HeadSize { diameter_nominal, diameter: None, height_nominal, height: None, basis }
    }

    setters! {
        /// Least and greatest diameter.
        const diameter: Option<Interval>;
        /// Least and greatest height.
        const height: Option<Interval>;
    }
}

/// One diameter of a series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Size {
    /// The dash number: thirty-seconds of an inch of the standard diameter.
    pub dash: u8,
    /// Nominal shank diameter, which in an oversize series is larger than the dash number says.
    pub shank_nominal: Length,
    /// Least and greatest shank diameter, where the tolerance is known.
    pub shank: Option<Interval>,
    /// The manufactured head, where its dimensions are known.
    pub head: Option<HeadSize>,
    /// The shortest length in the table of the standard for this diameter, where known. Shorter ones can be ordered.
    pub shortest_tabulated: Option<Length>,
    /// The longest length in the table of the standard for this diameter, where known.
    pub longest_tabulated: Option<Length>,
    /// Where the shank and the tabulated lengths come from; the head has its own.
    pub basis: Basis,
}

impl Size {
    /// Of which only the dash number is known, with the shank that it says.
    #[must_use]
    pub const fn new(dash: u8, basis: Basis) -> Size {
        Size {
            dash,
            shank_nominal: Length::THIRTY_SECOND.times(dash as u32, 1),
            shank: None,
            head: None,
            shortest_tabulated: None,
            longest_tabulated: None,
            basis,
        }
    }

    setters! {
        /// The nominal shank diameter, where the dash number does not say it.
        const shank_nominal: Length;
        /// Least and greatest shank diameter.
        const shank: Option<Interval>;
        /// The manufactured head.
        const head: Option<HeadSize>;
        /// The shortest length in the table of the standard.
        const shortest_tabulated: Option<Length>;
        /// The longest length in the table of the standard.
        const longest_tabulated: Option<Length>;
    }
}

impl Size {
    /// The diameter that the dash number counts: the hole's and the table's standard size, not the shank of an oversize rivet.
    #[must_use]
    pub const fn standard_diameter(&self) -> Length {
        Length::THIRTY_SECOND.times(self.dash as u32, 1)
    }

    /// The nominal head diameter, where known.
    #[must_use]
    pub fn head_diameter_nominal(&self) -> Option<Length> {
        self.head.map(|head| head.diameter_nominal)
    }

    /// The nominal head height, where known; for the volume balance of a flush rivet.
    #[must_use]
    pub fn head_height_nominal(&self) -> Option<Length> {
        self.head.map(|head| head.height_nominal)
    }

    /// The height of the cone that the nominal diameters give under this head; see [`Head::cone_height`].
    #[must_use]
    pub fn cone_height(&self, head: Head) -> Option<Length> {
        head.cone_height(self.head_diameter_nominal()?, self.shank_nominal)
    }
}

/// A material letter of a series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct MaterialLetter<'a> {
    /// The letters, capitals only; empty where the standard gives this alloy no letter.
    pub code: &'a str,
    /// What they stand for.
    pub alloy: RivetAlloy,
    /// Whether the standard still wants it in new designs.
    pub new_design: bool,
    /// Where the letters come from.
    pub basis: Basis,
}

impl<'a> MaterialLetter<'a> {
    /// Letters of an alloy, still wanted in new designs.
    #[must_use]
    pub const fn new(code: &'a str, alloy: RivetAlloy, basis: Basis) -> MaterialLetter<'a> {
        MaterialLetter { code, alloy, new_design: true, basis }
    }

    setters! {
        /// Whether the standard still wants it in new designs.
        const new_design: bool;
    }
}

/// A finish mark of a series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Finish<'a> {
    /// The capital letter; `None` for the finish that a number without a letter means.
    pub letter: Option<char>,
    /// What it is.
    pub name: &'a str,
    /// The alloys on which the standard allows it.
    pub alloys: &'a [RivetAlloy],
    /// Where it comes from.
    pub basis: Basis,
}

impl<'a> Finish<'a> {
    /// A finish and the alloys on which the standard allows it; no letter means the finish that a number without one means.
    #[must_use]
    pub const fn new(letter: Option<char>, name: &'a str, alloys: &'a [RivetAlloy], basis: Basis) -> Finish<'a> {
        Finish { letter, name, alloys, basis }
    }
}

/// The order of a part number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum NumberForm {
    /// `MS20470AD4-5`; with an empty material code `MS20427-4-6`.
    MaterialFirst,
    /// `MS20615-4M6`; with an empty material code `NAS1198-4-6`.
    DiameterFirst,
}

/// How a series writes half a sixteenth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum HalfMark {
    /// `MS20470AD4-3.5`.
    Point,
    /// `NAS9313AD5-6-5`, and with a finish letter `NAS9313AD5-6A5`.
    Five,
}

/// How much a rivet may be longer or shorter than its part number says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LengthTolerance {
    /// This much either way.
    pub either_way: Length,
    /// Where it comes from.
    pub basis: Basis,
}

/// A part standard. A caller can define one of their own: every field is public, and everything that takes a series takes it by
/// reference.
#[derive(Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Series<'a> {
    /// As at the start of the part number, in capitals: `MS20470`.
    pub name: &'a str,
    /// The same parts under other names that are still in force: `NASM20470`.
    pub also: &'a [&'a str],
    /// Series that this one alone supersedes: `AN470`.
    pub supersedes: &'a [&'a str],
    /// The manufactured head.
    pub head: Head,
    /// The order of the part number.
    pub form: NumberForm,
    /// Material letters in printed order.
    pub materials: &'a [MaterialLetter<'a>],
    /// Finish marks; empty where the standard is not known to have any.
    pub finishes: &'a [Finish<'a>],
    /// Diameters in rising order.
    pub sizes: &'a [Size],
    /// The tolerance of the length, where known.
    pub length_tolerance: Option<LengthTolerance>,
    /// How half lengths (odd thirty-seconds) are written; `None` where they are not known to exist.
    pub half_lengths: Option<HalfMark>,
    /// How much the shank is over the standard size; zero for a standard series.
    pub oversize: Length,
    /// The series with the same head and the next oversize shank, for stepping up a hole.
    pub oversize_series: Option<&'a Series<'a>>,
    /// Of an oversize series: the sizes of the one with standard shanks and the same head, else none. Not the series itself, which names this one:
    /// two that name each other could never be compared.
    pub standard_sizes: &'a [Size],
    /// Where the series itself comes from: its head, and how its number is built.
    pub basis: Basis,
    /// Where to look for what is not known of its rivets.
    pub unknown: StandardPlaces,
}

impl<'a> Series<'a> {
    /// A part standard with standard shanks, lengths in steps of 1/16 in, and nothing else known. A shop's own names the place of its drawing for
    /// what is missing.
    #[must_use]
    pub const fn new(
        name: &'a str,
        head: Head,
        form: NumberForm,
        materials: &'a [MaterialLetter<'a>],
        sizes: &'a [Size],
        basis: Basis,
    ) -> Series<'a> {
        Series {
            name,
            also: &[],
            supersedes: &[],
            head,
            form,
            materials,
            finishes: &[],
            sizes,
            length_tolerance: None,
            half_lengths: None,
            oversize: Length::ZERO,
            oversize_series: None,
            standard_sizes: &[],
            basis,
            unknown: StandardPlaces::new(basis, basis, basis),
        }
    }

    setters! {
        /// The same parts under other names that are still in force.
        const also: &'a [&'a str];
        /// Series that this one alone supersedes.
        const supersedes: &'a [&'a str];
        /// Finish marks.
        const finishes: &'a [Finish<'a>];
        /// The tolerance of the length.
        const length_tolerance: Option<LengthTolerance>;
        /// How half lengths are written.
        const half_lengths: Option<HalfMark>;
        /// How much the shank is over the standard size.
        const oversize: Length;
        /// The series with the same head and the next oversize shank.
        const oversize_series: Option<&'a Series<'a>>;
        /// The sizes of the series with standard shanks and the same head.
        const standard_sizes: &'a [Size];
        /// Where to look for what is not known of its rivets.
        const unknown: StandardPlaces;
    }
}

/// The places of a part standard that are to be opened where its tables here lack something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct StandardPlaces {
    /// For the dimensions of a head.
    pub head: Basis,
    /// For the limits of a shank.
    pub shank: Basis,
    /// For a rivet that fits a stack.
    pub fit: Basis,
}

impl StandardPlaces {
    /// For head, shank and fit.
    #[must_use]
    pub const fn new(head: Basis, shank: Basis, fit: Basis) -> StandardPlaces {
        StandardPlaces { head, shank, fit }
    }
}

/// The name only: the tables would drown any message.
impl fmt::Debug for Series<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Series").field("name", &self.name).finish_non_exhaustive()
    }
}

/// The name only, as in `Debug`. By hand, since a series points to another and a derived bound would never end.
#[cfg(feature = "defmt")]
impl defmt::Format for Series<'_> {
    fn format(&self, f: defmt::Formatter<'_>) {
        defmt::write!(f, "{=str}", self.name);
    }
}

impl<'a> Series<'a> {
    /// The size with this dash number.
    ///
    /// ```
    /// use shophead::rivet::{MS20470, NAS1242};
    /// assert!(MS20470.size(7).is_none());
    /// let oversize = NAS1242.size(4).unwrap();
    /// assert_eq!(oversize.shank_nominal.to_64ths().to_string(), "9/64");
    /// ```
    #[must_use]
    pub fn size(&self, dash: u8) -> Option<&'a Size> {
        self.sizes.iter().find(|size| size.dash == dash)
    }

    /// The size with this nominal shank diameter, written in full or to three decimals as the trade does: 3/32, .09375 or .094.
    #[must_use]
    pub fn size_for_diameter(&self, diameter: Length) -> Option<&'a Size> {
        const HALF_A_THOUSANDTH: Length = Length::from_ten_thousandths(5);
        self.sizes.iter().find(|size| {
            size.shank_nominal.minus(diameter) <= HALF_A_THOUSANDTH
                && diameter.minus(size.shank_nominal) <= HALF_A_THOUSANDTH
        })
    }

    /// The next larger diameter that the series lists. How large a step may be is a limit of a practice.
    ///
    /// ```
    /// use shophead::rivet::MS20470;
    /// let next = |dash| MS20470.size(dash).and_then(|size| MS20470.next_size(size)).map(|size| size.dash);
    /// assert_eq!((next(4), next(6), next(12)), (Some(5), Some(8), None));
    /// ```
    #[must_use]
    pub fn next_size(&self, size: &Size) -> Option<&'a Size> {
        next_of(self.sizes, size)
    }

    /// The material with these letters, capital or not.
    #[must_use]
    pub fn material(&self, code: &str) -> Option<&'a MaterialLetter<'a>> {
        self.materials.iter().find(|material| material.code.eq_ignore_ascii_case(code))
    }

    /// The material of this alloy.
    #[must_use]
    pub fn material_of(&self, alloy: RivetAlloy) -> Option<&'a MaterialLetter<'a>> {
        self.materials.iter().find(|material| material.alloy == alloy)
    }

    /// The finish with this letter, capital or not, or the one that no letter means.
    #[must_use]
    pub fn finish(&self, letter: Option<char>) -> Option<&'a Finish<'a>> {
        let letter = letter.map(|letter| letter.to_ascii_uppercase());
        self.finishes.iter().find(|finish| finish.letter == letter)
    }

    /// The head of an oversize flush rivet where it is not known: from the least head of the standard rivet of its size to the greatest of the next
    /// size, its cone over the oversize shank. Counted until somebody enters its own.
    ///
    /// ```
    /// use shophead::rivet::{MS20426, NAS1241};
    /// let head = NAS1241.head_between(NAS1241.size(4).unwrap()).unwrap();
    /// let diameter = head.diameter.unwrap();
    /// let (own, next) = (MS20426.size(4).unwrap().head.unwrap(), MS20426.size(5).unwrap().head.unwrap());
    /// assert_eq!((diameter.min(), diameter.max()), (own.diameter.unwrap().min(), next.diameter.unwrap().max()));
    /// assert!(MS20426.head_between(MS20426.size(4).unwrap()).is_none());
    /// ```
    #[must_use]
    pub fn head_between(&self, size: &Size) -> Option<HeadSize> {
        if size.head.is_some() || !self.head.is_flush() {
            return None;
        }
        let own = self.standard_sizes.iter().find(|own| own.dash == size.dash)?;
        let (own, next) = (own.head?, next_of(self.standard_sizes, own)?.head?);
        let least = own.diameter.map_or(own.diameter_nominal, Interval::min);
        let greatest = next.diameter.map_or(next.diameter_nominal, Interval::max);
        let cone = |diameter| self.head.cone_height(diameter, size.shank_nominal);
        let (low, high) = (cone(least)?, cone(greatest)?);
        Some(HeadSize {
            diameter_nominal: own.diameter_nominal,
            diameter: Some(Interval::of(least, greatest)),
            height_nominal: cone(own.diameter_nominal)?,
            height: Some(Interval::of(low, high)),
            basis: Basis::OVERSIZE_HEAD_BETWEEN,
        })
    }

    /// The step of its lengths: 1/32 in where half lengths are known, otherwise 1/16 in.
    #[must_use]
    pub const fn length_step(&self) -> Length {
        if self.half_lengths.is_some() { Length::THIRTY_SECOND } else { Length::SIXTEENTH }
    }
}

/// The next larger of sizes in order.
fn next_of<'a>(sizes: &'a [Size], size: &Size) -> Option<&'a Size> {
    sizes.iter().find(|other| other.standard_diameter() > size.standard_diameter())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_series_is_in_order() {
        for series in CATALOGUE {
            assert!(!series.sizes.is_empty() && !series.materials.is_empty(), "{series:?}");
            assert!(series.sizes.is_sorted_by(|one, next| one.dash < next.dash), "{series:?}");
            for size in series.sizes {
                assert_eq!(size.shank_nominal, size.standard_diameter().plus(series.oversize), "{series:?}");
                assert!(size.shank.is_none_or(|shank| shank.contains(size.shank_nominal)), "{series:?} {}", size.dash);
                if let Some(head) = size.head {
                    assert!(head.diameter.is_none_or(|limits| limits.contains(head.diameter_nominal)));
                    assert!(head.height.is_none_or(|limits| limits.contains(head.height_nominal)));
                    assert!(head.diameter_nominal > size.shank_nominal);
                }
            }
            for material in series.materials {
                assert!(material.code.bytes().all(|b| b.is_ascii_uppercase()), "{series:?} {}", material.code);
            }
            if let Some(oversize) = series.oversize_series {
                assert_eq!(oversize.head.is_flush(), series.head.is_flush());
                assert!(oversize.oversize > series.oversize);
            }
        }
    }

    #[test]
    fn no_name_is_used_twice() {
        let names = || {
            CATALOGUE.iter().flat_map(|series| {
                [series.name].into_iter().chain(series.also.iter().chain(series.supersedes).copied())
            })
        };
        for name in names() {
            assert_eq!(names().filter(|other| *other == name).count(), 1, "{name}");
        }
    }

    #[test]
    fn the_recalled_flush_heads_are_cones_of_100_degrees() {
        // The heights are printed to three decimals: half a thousandth, and as much again for the rounding of the diameter.
        let allowance = Length::from_ten_thousandths(10);
        for series in [&MS20426, &NAS1097] {
            for size in series.sizes {
                let (cone, printed) = (size.cone_height(series.head).unwrap(), size.head_height_nominal().unwrap());
                assert!(cone.minus(printed) <= allowance && printed.minus(cone) <= allowance, "{} {cone}", size.dash);
            }
        }
    }

    #[test]
    fn a_diameter_may_be_written_to_three_decimals() {
        for (text, dash) in [("3/32", 3), (".094", 3), (".156", 5), (".188", 6), (".312", 10), (".313", 10)] {
            let size = MS20470.size_for_diameter(Length::parse(text).unwrap());
            assert_eq!(size.map(|size| size.dash), Some(dash), "{text}");
        }
        assert_eq!(MS20470.size_for_diameter(Length::parse(".141").unwrap()), None);
        assert_eq!(NAS1242.size_for_diameter(Length::parse(".141").unwrap()).map(|size| size.dash), Some(4));
        assert_eq!(NAS1242.size_for_diameter(Length::parse("1/8").unwrap()), None);
    }

    #[test]
    fn sizes_step_up_one_after_another_to_the_last() {
        let mut dashes = Vec::new();
        let mut size = MS20470.size(2);
        while let Some(at) = size {
            dashes.push(at.dash);
            size = MS20470.next_size(at);
        }
        assert_eq!(dashes, [2, 3, 4, 5, 6, 8, 10, 12]);
    }

    extern crate std;
    use std::vec::Vec;
}
