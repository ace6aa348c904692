//! Part numbers: reading, printing, and what a number does not say aloud.
//!
//! A number is read against a catalogue of [`Series`], by default the built-in one. Nothing is guessed: a number that could mean
//! two rivets is refused with the ones it could mean. What is accepted but should be said stands in [`Part::warnings`].
//!
//! | written | is |
//! |---|---|
//! | `MS20470AD4-5` | universal head, 2117-T4, 1/8 in, 5/16 in under the head |
//! | `MS20470AD4-3.5`, `NAS9313AD5-6-5`, `NAS9313AD5-6A5` | half lengths: 7/32, 13/32, and 13/32 with finish A |
//! | `NAS9313AD5-6A` | 3/8 with finish A; a letter is never a half |
//! | `MS20615-4M6`, `NAS1198-4-6` | series with the material after the diameter, or none |
//! | `MS20470AD4` | a family without length: enough for strength, not for an order |
//! | `4-5`, `4-5A` | refused: diameter 4, length 5, or length 4 1/2? |

mod error;
mod parse;

pub use error::{ParsePartError, PartErrorKind};

use core::fmt;
use core::num::NonZeroU8;

use super::{Finish, HalfMark, HeadSize, MaterialLetter, NumberForm, Series, Size};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;

/// The longest length read, in sixteenths of an inch. Our choice: a length has at most two digits, and more is a slip of the
/// keyboard. No document seen gives the longest length of any series.
pub const MAX_SIXTEENTHS: u8 = 99;

/// What a part number names: a rivet, or without a length a family of rivets.
///
/// Two parts are equal when they are the same rivet, however they were written. [`Display`](fmt::Display) prints the number as the
/// standard in force writes it.
///
/// ```
/// use shophead::length::Length;
/// use shophead::rivet::part::Part;
/// let part = Part::parse("an470ad4-3.5")?;
/// assert_eq!(part.to_string(), "MS20470AD4-3.5");
/// assert_eq!(part.length(), Some(Length::parse("7/32").unwrap()));
/// assert_eq!(part.in_words().to_string(), "1/8 in diameter, 7/32 in long under the head");
/// assert_eq!(part, Part::parse("NASM20470AD4-3.5")?);
/// # Ok::<(), shophead::rivet::part::ParsePartError>(())
/// ```
#[derive(Clone, Copy)]
pub struct Part<'a> {
    series: &'a Series<'a>,
    material: &'a MaterialLetter<'a>,
    size: &'a Size,
    finish: Option<&'a Finish<'a>>,
    /// In thirty-seconds of an inch.
    length: Option<NonZeroU8>,
    written: Written,
}

/// How a number was written, where that differs from how it is printed.
#[derive(Clone, Copy, Default)]
struct Written {
    /// Which of the superseded names.
    superseded: Option<u8>,
    lower_case: bool,
    /// A half length in the form that other series use.
    other_half: bool,
}

impl PartialEq for Part<'_> {
    fn eq(&self, other: &Part<'_>) -> bool {
        // By name: the dimensions that a shop enters make no other rivet of it.
        self.size.dash == other.size.dash
            && (core::ptr::eq(self.series, other.series) || self.series.name == other.series.name)
            && (core::ptr::eq(self.material, other.material)
                || (self.material.code, self.material.alloy) == (other.material.code, other.material.alloy))
            && self.finish_letter() == other.finish_letter()
            && self.length == other.length
    }
}

impl Eq for Part<'_> {}

impl core::hash::Hash for Part<'_> {
    fn hash<H: core::hash::Hasher>(&self, state: &mut H) {
        self.series.name.hash(state);
        self.material.code.hash(state);
        self.size.dash.hash(state);
        self.finish_letter().hash(state);
        self.length.hash(state);
    }
}

/// The printed number.
impl fmt::Debug for Part<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Part({self})")
    }
}

#[cfg(feature = "defmt")]
impl defmt::Format for Part<'_> {
    fn format(&self, f: defmt::Formatter<'_>) {
        defmt::write!(f, "{}", defmt::Display2Format(self));
    }
}

impl fmt::Display for Part<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, self.series.name)
    }
}

crate::words::errors! {
    /// Why a part cannot be put together.
    BuildPartError {
        UnknownMaterial = 40, "part-material", "The series has no such material letters.",
            "the series has no such material";
        UnknownSize = 41, "part-size", "The size is not one of the series.",
            "the series has no such size";
    }
}

crate::words::errors! {
    /// Why a rivet of a series cannot have a length.
    PartLengthError {
        NoShank = 43, "part-no-shank", "Zero or less.",
            "a rivet needs a length above zero";
        TooLong = 44, "part-too-long", "More than [`MAX_SIXTEENTHS`].",
            "the length counts sixteenths of an inch and has at most two digits ({MAX_SIXTEENTHS})";
        NotInSteps = 45, "part-not-in-steps", "Between two sixteenths, or halves where the series has them.",
            "lengths go in sixteenths of an inch, or halves of a sixteenth";
        NoHalfLengths = 46, "part-no-half-lengths", "An odd thirty-second in a series that is not known to have half lengths.",
            "no half lengths are known for this series; take a whole number";
        ShorterThanHead { head: Length, "The height of the head." } = 47, "part-shorter-than-head", "A flush rivet no longer than its own head.",
            "a flush rivet's length counts its head, which alone is {head:.3} in high; take a longer one";
        FinishNeeded = 48, "part-finish-needed", "The finish that a number without a letter means is not allowed on this alloy, so a letter is needed.",
            "without a letter the finish is one that this alloy does not allow; add a letter";
    }
}

/// What is accepted but should be said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum PartWarning<'a> {
    /// Written under an older name.
    SupersededName {
        /// The name written.
        written: &'a str,
        /// The name in force.
        now: &'a str,
    },
    /// Written in lower case.
    LowerCase,
    /// A half length written in the form of another series.
    HalfWrittenOtherwise,
    /// So many sixteenths that a half length without its point was perhaps meant: `-85` for `-8.5`.
    PerhapsHalf {
        /// What that would be.
        half: Length,
    },
    /// The shank is larger than the diameter digit says.
    OversizeShank {
        /// The diameter that the digit counts.
        standard: Length,
        /// The shank's nominal diameter.
        shank: Length,
    },
    /// Shorter than the table of the standard begins: it can be ordered but may not be in stock.
    BelowTable {
        /// Where the table begins.
        shortest: Length,
    },
    /// Longer than the table of the standard ends: it can be ordered but may not be in stock.
    AboveTable {
        /// Where the table ends.
        longest: Length,
    },
    /// The alloy is not for structure.
    NonStructural,
    /// The alloy is heat treated, or kept cold after it, before driving.
    HeatTreatFirst,
    /// The standard keeps this alloy out of new designs.
    NotForNewDesign,
    /// The series, its letters or its diameters could only be recalled.
    Recalled {
        /// What was recalled.
        basis: Basis,
    },
}

impl fmt::Display for PartWarning<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PartWarning::SupersededName { written, now } => write!(f, "{written} is superseded by {now}"),
            PartWarning::LowerCase => f.write_str("part numbers are written in capitals"),
            PartWarning::HalfWrittenOtherwise => {
                f.write_str("this series writes a half length in another form; the printed number shows it")
            }
            PartWarning::PerhapsHalf { half } => {
                write!(f, "a half length is written with its point; with it this would be {} in", half.to_64ths())
            }
            PartWarning::OversizeShank { standard, shank } => {
                write!(f, "the shank is {:.3} in, over the {} in that the digit counts", shank, standard.to_64ths())
            }
            PartWarning::BelowTable { shortest } => {
                write!(f, "the table begins at {} in; shorter ones can be ordered", shortest.to_64ths())
            }
            PartWarning::AboveTable { longest } => {
                write!(f, "the table ends at {} in; longer ones can be ordered", longest.to_64ths())
            }
            PartWarning::NonStructural => f.write_str("this alloy is not for structure"),
            PartWarning::HeatTreatFirst => {
                f.write_str("this alloy is heat treated, or kept cold after it, before driving")
            }
            PartWarning::NotForNewDesign => f.write_str("the standard keeps this alloy out of new designs"),
            PartWarning::Recalled { basis } => {
                f.write_str("check against the document")?;
                cited(*basis, f)
            }
        }
    }
}

/// The document of a built-in basis, after a colon.
#[cfg(feature = "words")]
fn cited(basis: Basis, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    basis.citation().map_or(Ok(()), |citation| write!(f, ": {citation}"))
}

#[cfg(not(feature = "words"))]
fn cited(_: Basis, _: &mut fmt::Formatter<'_>) -> fmt::Result {
    Ok(())
}

/// The warnings of one number: at most one of a kind.
pub type PartWarnings<'a> = heapless::Vec<PartWarning<'a>, 10>;

impl<'a> Part<'a> {
    /// A family of a series: material letters and a size of it, no length yet.
    ///
    /// # Errors
    /// [`BuildPartError`] when the letters or the size are not of the series.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::rivet::{MS20470, part::Part};
    /// let family = Part::new(&MS20470, "AD", MS20470.size(4).unwrap())?;
    /// let part = family.with_length(Length::parse("5/16").unwrap()).unwrap();
    /// assert_eq!(part.to_string(), "MS20470AD4-5");
    /// # Ok::<(), shophead::rivet::part::BuildPartError>(())
    /// ```
    pub fn new(series: &'a Series<'a>, material: &str, size: &Size) -> Result<Part<'a>, BuildPartError> {
        let material = series.material(material).ok_or(BuildPartError::UnknownMaterial)?;
        let size = series
            .sizes
            .iter()
            .find(|own| core::ptr::eq(*own, size) || *own == size)
            .ok_or(BuildPartError::UnknownSize)?;
        Ok(Part { series, material, size, finish: None, length: None, written: Written::default() })
    }

    /// The part standard.
    #[must_use]
    pub const fn series(&self) -> &'a Series<'a> {
        self.series
    }

    /// The material letters and what they stand for.
    #[must_use]
    pub const fn material(&self) -> &'a MaterialLetter<'a> {
        self.material
    }

    /// The alloy.
    #[must_use]
    pub const fn alloy(&self) -> RivetAlloy {
        self.material.alloy
    }

    /// The size.
    #[must_use]
    pub const fn size(&self) -> &'a Size {
        self.size
    }

    /// The same rivet with these dimensions of its size.
    pub(crate) const fn with_dimensions(&self, size: &'a Size) -> Part<'a> {
        Part { size, ..*self }
    }

    /// The manufactured head; of an oversize flush rivet whose head is not known, between which others it lies:
    /// [`Series::head_between`].
    #[must_use]
    pub fn head_counted(&self) -> Option<HeadSize> {
        self.size.head.or_else(|| self.series.head_between(self.size))
    }

    /// The nominal shank diameter: of an oversize rivet, larger than its digit says.
    #[must_use]
    pub const fn diameter(&self) -> Length {
        self.size.shank_nominal
    }

    /// The length as the series measures it: under a protruding head, overall for a flush one. `None` for a family.
    #[must_use]
    pub fn length(&self) -> Option<Length> {
        self.length.map(of_32nds)
    }

    /// The finish: of a number without a letter the one that it means, where the series says. `None` for a family.
    #[must_use]
    pub fn finish(&self) -> Option<&'a Finish<'a>> {
        let bare = || self.series.finish(None).filter(|finish| finish.alloys.contains(&self.alloy()));
        self.length.and_then(|_| self.finish.or_else(bare))
    }

    /// Whether it was given a finish letter, counted or not.
    #[must_use]
    pub const fn has_finish_letter(&self) -> bool {
        self.finish.is_some()
    }

    fn finish_letter(&self) -> Option<char> {
        self.length.and(self.finish).and_then(|finish| finish.letter)
    }

    /// The same rivet with this length, in whole sixteenths of an inch or, where the series has them, halves.
    ///
    /// # Errors
    /// [`PartLengthError`] when the series has no such length.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::rivet::part::{Part, PartLengthError};
    /// let part = Part::parse("NAS1242AD4").unwrap();
    /// assert_eq!(part.with_length(Length::parse("7/32").unwrap()), Err(PartLengthError::NoHalfLengths));
    /// assert_eq!(part.with_length(Length::parse(".2").unwrap()), Err(PartLengthError::NotInSteps));
    /// ```
    pub fn with_length(&self, length: Length) -> Result<Part<'a>, PartLengthError> {
        if length.floor_to(Length::THIRTY_SECOND) != length {
            return Err(PartLengthError::NotInSteps);
        }
        let count = length.to_64ths().count().saturating_div(2);
        let length = check_length(self.series, self.size, count)?;
        if self.finish.is_none() && bare_finish_is_barred(self.series, self.alloy()) {
            return Err(PartLengthError::FinishNeeded);
        }
        Ok(Part { length: Some(length), ..*self })
    }

    /// The family of this rivet.
    #[must_use]
    pub const fn without_length(&self) -> Part<'a> {
        Part { length: None, ..*self }
    }

    /// The same with a finish letter; `None` when the series does not have it for this alloy. The number of a family cannot carry
    /// it: it counts once there is a length.
    #[must_use]
    pub fn with_finish(&self, letter: char) -> Option<Part<'a>> {
        let finish = self.series.finish(Some(letter))?;
        finish.alloys.contains(&self.alloy()).then_some(Part { finish: Some(finish), ..*self })
    }

    /// The family of the same alloy in another size of the series; `None` when the size is not one of it. Without a length, since
    /// another diameter needs another length.
    #[must_use]
    pub fn in_size(&self, size: &Size) -> Option<Part<'a>> {
        let size = self.series.sizes.iter().find(|own| core::ptr::eq(*own, size) || *own == size)?;
        Some(Part { size, length: None, ..*self })
    }

    /// The family of the same alloy and dash number in another series, such as the oversize one; `None` when that series is not
    /// known to have it.
    ///
    /// ```
    /// use shophead::rivet::part::Part;
    /// let part = Part::parse("MS20470AD4-5").unwrap();
    /// let oversize = part.series().oversize_series.and_then(|series| part.in_series(series)).unwrap();
    /// assert_eq!(oversize.to_string(), "NAS1242AD4");
    /// ```
    #[must_use]
    pub fn in_series<'b>(&self, series: &'b Series<'b>) -> Option<Part<'b>> {
        let material = series.material_of(self.alloy())?;
        let size = series.size(self.size.dash)?;
        Some(Part { series, material, size, finish: None, length: None, written: Written::default() })
    }

    /// What should be said about this number and how it was written.
    ///
    /// ```
    /// use shophead::rivet::part::{Part, PartWarning};
    /// let part = Part::parse("AN470D6-10").unwrap();
    /// assert!(part.warnings().contains(&PartWarning::SupersededName { written: "AN470", now: "MS20470" }));
    /// assert!(part.warnings().contains(&PartWarning::HeatTreatFirst));
    /// ```
    #[must_use]
    pub fn warnings(&self) -> PartWarnings<'a> {
        let mut warnings = PartWarnings::new();
        let mut say = |warning: Option<PartWarning<'a>>| {
            if let Some(warning) = warning {
                // One of each kind fits.
                let _ = warnings.push(warning);
            }
        };
        let superseded = self.superseded_name();
        say(superseded.map(|written| PartWarning::SupersededName { written, now: self.series.name }));
        say(self.written.lower_case.then_some(PartWarning::LowerCase));
        say(self.written.other_half.then_some(PartWarning::HalfWrittenOtherwise));
        say(self.perhaps_half().map(|half| PartWarning::PerhapsHalf { half }));
        let (standard, shank) = (self.size.standard_diameter(), self.size.shank_nominal);
        say((shank != standard).then_some(PartWarning::OversizeShank { standard, shank }));
        if let Some(length) = self.length() {
            let below = self.size.shortest_tabulated.filter(|shortest| length < *shortest);
            say(below.map(|shortest| PartWarning::BelowTable { shortest }));
            let above = self.size.longest_tabulated.filter(|longest| length > *longest);
            say(above.map(|longest| PartWarning::AboveTable { longest }));
        }
        say(matches!(self.alloy(), RivetAlloy::Al1100).then_some(PartWarning::NonStructural));
        let heat_treated = matches!(self.alloy(), RivetAlloy::Al2017 | RivetAlloy::Al2024);
        say(heat_treated.then_some(PartWarning::HeatTreatFirst));
        say((!self.material.new_design).then_some(PartWarning::NotForNewDesign));
        let basis = self.series.basis.weaker(self.material.basis);
        say((basis.status() == crate::basis::Status::Memory).then_some(PartWarning::Recalled { basis }));
        warnings
    }

    /// The half length that a dash of two figures may have been meant for: from `-45` on, near three inches, where the last is a five.
    fn perhaps_half(&self) -> Option<Length> {
        const FEWEST: u8 = 45;
        let sixteenths = (FEWEST..=95).step_by(10);
        let mut long = sixteenths.filter(|count| self.length() == Some(Length::SIXTEENTH.times(u32::from(*count), 1)));
        long.next()
            .filter(|_| self.series.half_lengths.is_some())
            .map(|count| Length::SIXTEENTH.times(u32::from(count), 10))
    }

    fn superseded_name(&self) -> Option<&'a str> {
        self.series.supersedes.get(usize::from(self.written.superseded?)).copied()
    }

    /// Diameter and length in words, for reading a number back to the person who wrote it.
    #[must_use]
    pub const fn in_words(&self) -> InWords<'a> {
        InWords(*self)
    }

    /// Writes the number under one of the series' names. Whole texts and single figures only: a format is worth ten of them in time.
    fn write(&self, f: &mut impl fmt::Write, name: &str) -> fmt::Result {
        let (code, dash) = (self.material.code, self.size.dash);
        f.write_str(name)?;
        match (self.series.form, code) {
            (NumberForm::MaterialFirst, "") | (NumberForm::DiameterFirst, _) => f.write_str("-")?,
            (NumberForm::MaterialFirst, _) => f.write_str(code)?,
        }
        write_count(f, dash)?;
        if self.series.form == NumberForm::DiameterFirst {
            f.write_str(code)?;
        }
        let Some(length) = self.length else { return Ok(()) };
        if self.series.form == NumberForm::MaterialFirst || code.is_empty() {
            f.write_str("-")?;
        }
        let (whole, half) = (length.get().saturating_div(2), length.get().checked_rem(2) == Some(1));
        write_count(f, whole)?;
        let letter = self.finish_letter();
        if half && self.series.half_lengths != Some(HalfMark::Five) {
            f.write_str(".5")?;
        }
        if let Some(letter) = letter {
            f.write_char(letter)?;
        }
        match (half && self.series.half_lengths == Some(HalfMark::Five), letter) {
            (true, Some(_)) => f.write_str("5"),
            (true, None) => f.write_str("-5"),
            (false, _) => Ok(()),
        }
    }

    /// Writes what [`Display`](fmt::Display) does, without a formatter between.
    ///
    /// # Errors
    /// Those of what is written to.
    ///
    /// ```
    /// use shophead::rivet::part::Part;
    /// let mut row = String::from("K1,");
    /// Part::parse("MS20470AD4-5")?.write_to(&mut row).expect("a text takes it");
    /// assert_eq!(row, "K1,MS20470AD4-5");
    /// # Ok::<(), shophead::rivet::part::ParsePartError>(())
    /// ```
    pub fn write_to(&self, f: &mut impl fmt::Write) -> fmt::Result {
        self.write(f, self.series.name)
    }
}

/// A number of at most two digits, or of three.
fn write_count(f: &mut impl fmt::Write, count: u8) -> fmt::Result {
    let digit = |of: u8| char::from(b'0'.wrapping_add(of));
    let (tens, last) = (count.saturating_div(10), count.checked_rem(10).unwrap_or(0));
    if tens > 0 {
        let (hundreds, middle) = (tens.saturating_div(10), tens.checked_rem(10).unwrap_or(0));
        if hundreds > 0 {
            f.write_char(digit(hundreds))?;
        }
        f.write_char(digit(middle))?;
    }
    f.write_char(digit(last))
}

/// Shows diameter and length in words; made by [`Part::in_words`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InWords<'a>(Part<'a>);

impl fmt::Display for InWords<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let part = &self.0;
        write_inches(f, part.diameter())?;
        f.write_str(" in diameter")?;
        let standard = part.size.standard_diameter();
        if part.diameter() != standard {
            write!(f, " ({} and {} oversize)", standard.to_64ths(), part.diameter().minus(standard).to_64ths())?;
        }
        let Some(length) = part.length() else { return f.write_str(", no length") };
        f.write_str(", ")?;
        write_inches(f, length)?;
        f.write_str(if part.series.head.is_flush() { " in long, head included" } else { " in long under the head" })
    }
}

/// A fraction where it is exact, otherwise a decimal.
fn write_inches(f: &mut fmt::Formatter<'_>, length: Length) -> fmt::Result {
    let fraction = length.to_64ths();
    if fraction.is_exact() { write!(f, "{fraction}") } else { write!(f, "{length}") }
}

fn of_32nds(count: NonZeroU8) -> Length {
    Length::THIRTY_SECOND.times(u32::from(count.get()), 1)
}

/// Checks a length in thirty-seconds of an inch.
fn check_length(series: &Series<'_>, size: &Size, count: i64) -> Result<NonZeroU8, PartLengthError> {
    if count <= 0 {
        return Err(PartLengthError::NoShank);
    }
    if count > i64::from(MAX_SIXTEENTHS).saturating_mul(2).saturating_add(1) {
        return Err(PartLengthError::TooLong);
    }
    if series.half_lengths.is_none() && count.checked_rem(2) != Some(0) {
        return Err(PartLengthError::NoHalfLengths);
    }
    let count = u8::try_from(count).ok().and_then(NonZeroU8::new).ok_or(PartLengthError::TooLong)?;
    match size.head_height_nominal().filter(|head| series.head.is_flush() && of_32nds(count) <= *head) {
        Some(head) => Err(PartLengthError::ShorterThanHead { head }),
        None => Ok(count),
    }
}

/// Whether the series has finishes for this alloy, but not the one that a bare number means.
fn bare_finish_is_barred(series: &Series<'_>, alloy: RivetAlloy) -> bool {
    series.finish(None).is_some_and(|bare| !bare.alloys.contains(&alloy))
        && series.finishes.iter().any(|finish| finish.alloys.contains(&alloy))
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use crate::length::Interval;
    use crate::rivet::{Head, MS20426, MS20470, NAS1242};
    use std::string::{String, ToString};

    fn kind(text: &str) -> PartErrorKind<'static> {
        Part::parse(text).unwrap_err().kind
    }

    #[test]
    fn a_bare_number_is_refused_because_it_may_mean_two_rivets() {
        for text in ["4-5", "4-5A", "AD4-5", "ad4-4-5", "5-4.5"] {
            let error = Part::parse(text).unwrap_err();
            assert_eq!((error.at, error.kind), (1, PartErrorKind::SeriesMissing), "{text}");
            assert_eq!(error.nearest().count(), 0, "{text}");
        }
    }

    #[test]
    fn a_letter_after_the_length_is_never_a_half() {
        let whole = Part::parse("NAS9313AD5-6A").unwrap();
        assert_eq!(whole.length(), Some(Length::from_64ths(24)));
        assert_eq!(whole.finish().map(|finish| finish.name), Some("anodize, clear"));
        let half = Part::parse("NAS9313AD5-6A5").unwrap();
        assert_eq!(half.length(), Some(Length::from_64ths(26)));
        assert_eq!(kind("MS20470AD4-5A"), PartErrorKind::LetterAfterLength(&MS20470));
        assert_eq!(Part::parse("MS20470AD4-5A").unwrap_err().nearest().count(), 0);
    }

    #[test]
    fn no_offer_runs_two_numbers_into_one() {
        for text in ["MS20470AD4-5 6", "MS20470AD4-5 5"] {
            assert_eq!(Part::parse(text).unwrap_err().nearest().count(), 0, "{text}");
        }
    }

    #[test]
    fn positions_count_characters() {
        let error = Part::parse("  MS20470AD4\u{2013}5").unwrap_err();
        assert_eq!((error.at, error.kind), (13, PartErrorKind::UnexpectedCharacter('\u{2013}')));
        assert_eq!(error.nearest().next(), Part::parse("MS20470AD4-5").ok());
    }

    #[test]
    fn a_finish_must_suit_the_alloy() {
        let family = Part::parse("NAS9313DD5").unwrap();
        let length = Length::from_64ths(24);
        assert_eq!(family.with_length(length), Err(PartLengthError::FinishNeeded));
        assert_eq!(family.with_finish('S'), None);
        let part = family.with_finish('d').and_then(|part| part.with_length(length).ok()).unwrap();
        assert_eq!(part.to_string(), "NAS9313DD5-6D");
        // The finishes are for aluminium: titanium has none, and needs none.
        let titanium = Part::parse("NAS9313T5-6").unwrap();
        assert_eq!(titanium.finish(), None);
        assert!(matches!(kind("NAS9313T5-6A"), PartErrorKind::FinishBarred { .. }));
    }

    #[test]
    fn changing_the_size_drops_the_length() {
        let part = Part::parse("MS20426AD4-6").unwrap();
        let next = MS20426.next_size(part.size()).and_then(|size| part.in_size(size)).unwrap();
        assert_eq!(next.to_string(), "MS20426AD5");
        assert_eq!(part.in_size(NAS1242.size(4).unwrap()), None);
        // The letters of 2017 in the oversize series are not known.
        assert_eq!(Part::parse("MS20470D6-10").unwrap().in_series(&NAS1242), None);
    }

    #[test]
    fn a_length_is_in_steps_and_longer_than_the_head() {
        let part = Part::parse("MS20426AD4").unwrap();
        let with = |text| part.with_length(Length::parse(text).unwrap());
        assert_eq!(with("3/16").map(|part| part.to_string()), Ok("MS20426AD4-3".into()));
        assert_eq!(with("7/32").map(|part| part.to_string()), Ok("MS20426AD4-3.5".into()));
        assert_eq!(with(".2"), Err(PartLengthError::NotInSteps));
        assert_eq!(with("0"), Err(PartLengthError::NoShank));
        assert_eq!(with("-1/4"), Err(PartLengthError::NoShank));
        assert_eq!(with("1/32"), Err(PartLengthError::ShorterThanHead { head: Length::from_ten_thousandths(420) }));
        assert_eq!(with("6-7/32").map(|part| part.to_string()), Ok("MS20426AD4-99.5".into()));
        assert_eq!(with("6-1/4"), Err(PartLengthError::TooLong));
        assert_eq!(with("100"), Err(PartLengthError::TooLong));
    }

    #[test]
    fn a_series_of_the_callers_own_is_read_and_printed() {
        let name = String::from("SHOP-77");
        let shop = Basis::own(0);
        let materials = [MaterialLetter { code: "AD", alloy: RivetAlloy::Al2117, new_design: true, basis: shop }];
        let shank = Length::from_64ths(9);
        let head = HeadSize {
            diameter_nominal: Length::from_64ths(18),
            diameter: None,
            height_nominal: Length::from_64ths(4),
            height: None,
            basis: Basis::own(0),
        };
        let sizes = [Size {
            dash: 4,
            shank_nominal: shank,
            shank: Some(Interval::exactly(shank)),
            head: Some(head),
            shortest_tabulated: Some(Length::from_64ths(16)),
            longest_tabulated: Some(Length::from_64ths(64)),
            basis: shop,
        }];
        let series = Series {
            name: &name,
            also: &[],
            supersedes: &["SHOP-7"],
            head: Head::Universal,
            form: NumberForm::MaterialFirst,
            materials: &materials,
            finishes: &[],
            sizes: &sizes,
            length_tolerance: None,
            half_lengths: Some(HalfMark::Point),
            oversize: Length::from_64ths(1),
            oversize_series: None,
            standard_sizes: &[],
            basis: shop,
            unknown: crate::rivet::StandardPlaces { head: shop, shank: shop, fit: shop },
        };
        let catalogue = [&series, &MS20470];
        let part = Part::parse_in("shop-7AD4-20", &catalogue).unwrap();
        assert_eq!(part.to_string(), "SHOP-77AD4-20");
        assert_eq!(
            part.warnings().as_slice(),
            [
                PartWarning::SupersededName { written: "SHOP-7", now: "SHOP-77" },
                PartWarning::LowerCase,
                PartWarning::OversizeShank { standard: Length::from_64ths(8), shank },
                PartWarning::AboveTable { longest: Length::INCH },
            ]
        );
        assert_eq!(Part::parse_in("MS20470AD4-5", &catalogue), Part::parse("MS20470AD4-5"));
        assert!(Part::parse_in("MS20470AD4-5", &[]).is_err());
        // A shop's own series before the standard one of the same name takes its place.
        let own = Series { name: "MS20470", ..series };
        let basis = |catalogue| Part::parse_in("MS20470AD4-20", catalogue).unwrap().series().basis;
        assert_eq!([basis(&[&own, &MS20470]), basis(&[&MS20470, &own])], [shop, MS20470.basis]);
    }
}
