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

use core::fmt;
use core::num::NonZeroU8;
use core::ops::Range;

use super::{CATALOGUE, Finish, HalfMark, Material, NumberForm, Series, Size};
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
    material: &'a Material<'a>,
    size: &'a Size<'a>,
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
        (core::ptr::eq(self.series, other.series) || self.series == other.series)
            && self.material == other.material
            && self.size == other.size
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

/// Why a part cannot be put together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BuildPartError {
    /// The series has no such material letters.
    UnknownMaterial,
    /// The size is not one of the series.
    UnknownSize,
}

impl fmt::Display for BuildPartError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            BuildPartError::UnknownMaterial => "the series has no such material; take one of its materials",
            BuildPartError::UnknownSize => "this size is not one of the series; take one of its sizes",
        })
    }
}

impl core::error::Error for BuildPartError {}

/// Why a rivet of a series cannot have a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum PartLengthError {
    /// Nothing, or less.
    NoShank,
    /// More than [`MAX_SIXTEENTHS`].
    TooLong,
    /// Between two sixteenths, or halves where the series has them.
    NotInSteps,
    /// An odd thirty-second in a series that is not known to have half lengths.
    NoHalfLengths,
    /// A flush rivet no longer than its own head.
    ShorterThanHead {
        /// The height of the head.
        head: Length,
    },
    /// The finish that a number without a letter means is not allowed on this alloy, so a letter is needed.
    FinishNeeded,
}

impl fmt::Display for PartLengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PartLengthError::NoShank => f.write_str("a rivet needs a shank: the length is more than nothing"),
            PartLengthError::TooLong => {
                write!(f, "the length counts sixteenths of an inch and has at most two digits ({MAX_SIXTEENTHS})")
            }
            PartLengthError::NotInSteps => f.write_str("lengths go in sixteenths of an inch, or halves of a sixteenth"),
            PartLengthError::NoHalfLengths => {
                f.write_str("no half lengths are known for this series; take a whole number")
            }
            PartLengthError::ShorterThanHead { head } => {
                write!(f, "a flush rivet's length counts its head, which alone is {head:.3} in high; take a longer one")
            }
            PartLengthError::FinishNeeded => f.write_str(
                "a number without a finish letter means a finish that is not allowed on this alloy; add a letter",
            ),
        }
    }
}

impl core::error::Error for PartLengthError {}

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
        basis: Basis<'a>,
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
            PartWarning::Recalled { basis } => write!(f, "check against the document: {basis}"),
        }
    }
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
    pub fn new(series: &'a Series<'a>, material: &str, size: &Size<'_>) -> Result<Part<'a>, BuildPartError> {
        let material = series.material(material).ok_or(BuildPartError::UnknownMaterial)?;
        let size = series.sizes.iter().find(|own| *own == size).ok_or(BuildPartError::UnknownSize)?;
        Ok(Part { series, material, size, finish: None, length: None, written: Written::default() })
    }

    /// The part standard.
    #[must_use]
    pub const fn series(&self) -> &'a Series<'a> {
        self.series
    }

    /// The material letters and what they stand for.
    #[must_use]
    pub const fn material(&self) -> &'a Material<'a> {
        self.material
    }

    /// The alloy.
    #[must_use]
    pub const fn alloy(&self) -> RivetAlloy {
        self.material.alloy
    }

    /// The size.
    #[must_use]
    pub const fn size(&self) -> &'a Size<'a> {
        self.size
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
    pub fn in_size(&self, size: &Size<'_>) -> Option<Part<'a>> {
        let size = self.series.sizes.iter().find(|own| *own == size)?;
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
        say((basis.status == crate::basis::Status::Memory).then_some(PartWarning::Recalled { basis }));
        warnings
    }

    fn superseded_name(&self) -> Option<&'a str> {
        self.series.supersedes.get(usize::from(self.written.superseded?)).copied()
    }

    /// Diameter and length in words, for reading a number back to the person who wrote it.
    #[must_use]
    pub const fn in_words(&self) -> InWords<'a> {
        InWords(*self)
    }

    fn write(&self, f: &mut fmt::Formatter<'_>, name: &str) -> fmt::Result {
        let (code, dash) = (self.material.code, self.size.dash);
        f.write_str(name)?;
        match (self.series.form, code) {
            (NumberForm::MaterialFirst, "") | (NumberForm::DiameterFirst, _) => write!(f, "-{dash}")?,
            (NumberForm::MaterialFirst, _) => write!(f, "{code}{dash}")?,
        }
        if self.series.form == NumberForm::DiameterFirst {
            f.write_str(code)?;
        }
        let Some(length) = self.length else { return Ok(()) };
        if self.series.form == NumberForm::MaterialFirst || code.is_empty() {
            f.write_str("-")?;
        }
        let (whole, half) = (length.get().saturating_div(2), length.get().checked_rem(2) == Some(1));
        write!(f, "{whole}")?;
        let letter = self.finish_letter();
        if half && self.series.half_lengths != Some(HalfMark::Five) {
            f.write_str(".5")?;
        }
        if let Some(letter) = letter {
            write!(f, "{letter}")?;
        }
        match (half && self.series.half_lengths == Some(HalfMark::Five), letter) {
            (true, Some(_)) => f.write_str("5"),
            (true, None) => f.write_str("-5"),
            (false, _) => Ok(()),
        }
    }
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
fn check_length(series: &Series<'_>, size: &Size<'_>, count: i64) -> Result<NonZeroU8, PartLengthError> {
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

/// Why a text is not a part number, where, and what it may have meant.
///
/// ```
/// use shophead::rivet::part::{Part, PartErrorKind};
/// let error = Part::parse("MS20470AD7-5").unwrap_err();
/// assert_eq!(error.at, 10);
/// let nearest: Vec<String> = error.nearest().map(|part| part.to_string()).collect();
/// assert_eq!(nearest, ["MS20470AD6-5", "MS20470AD8-5"]);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParsePartError<'a> {
    /// The character where the fault begins, counted from 1.
    pub at: usize,
    /// What is wrong there.
    pub kind: PartErrorKind<'a>,
    nearest: [Option<Part<'a>>; 2],
}

/// What is wrong in a [`ParsePartError`].
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum PartErrorKind<'a> {
    /// Nothing but spaces.
    Empty,
    /// A character that has no place there.
    UnexpectedCharacter(char),
    /// No series: head and alloy are unknown, and the digits could mean more than one rivet.
    SeriesMissing,
    /// Not a series of the catalogue.
    SeriesUnknown {
        /// The series whose name is nearest, where one is near.
        nearest: Option<&'a str>,
    },
    /// No material letters where the series has them.
    MaterialMissing(&'a Series<'a>),
    /// Letters that are no material of the series.
    MaterialUnknown(&'a Series<'a>),
    /// Letters that are a material of another series with the same head.
    MaterialOfOther {
        /// The series that was written.
        series: &'a Series<'a>,
        /// The series that has this material.
        other: &'a Series<'a>,
    },
    /// Material letters before the diameter in a series that writes them after it.
    MaterialAfterDiameter(&'a Series<'a>),
    /// A dash between material letters and diameter.
    DashBeforeDiameter,
    /// No digit where the diameter stands.
    DiameterMissing,
    /// A decimal where the diameter stands: it counts whole thirty-seconds.
    DiameterNotWhole,
    /// Not a diameter of the series.
    DiameterUnknown(&'a Series<'a>),
    /// Sixty-fourths where the digit of an oversize series counts thirty-seconds of the standard size.
    DiameterIsShank(&'a Series<'a>),
    /// A number with a zero before it.
    LeadingZero,
    /// No dash between diameter and length.
    DashMissing,
    /// A dash without a length after it.
    LengthMissing,
    /// A decimal other than .5.
    NotAHalf,
    /// Something other than 5 where the mark of a half stands.
    NotTheHalfMark,
    /// The half written twice.
    HalfTwice,
    /// A length that the series does not have.
    Length(PartLengthError),
    /// A letter after the length of a series that has no finish letters known here; it is not a half either.
    LetterAfterLength(&'a Series<'a>),
    /// Not a finish letter of the series.
    FinishUnknown(&'a Series<'a>),
    /// More than one finish letter.
    FinishTwice,
    /// A finish letter after the mark of the half instead of before it.
    FinishAfterHalf,
    /// A finish that the series does not allow on this alloy.
    FinishBarred {
        /// The finish.
        finish: &'a Finish<'a>,
    },
}

impl<'a> ParsePartError<'a> {
    /// The valid numbers that are nearest, at most two; none where any would be a guess.
    pub fn nearest(&self) -> impl Iterator<Item = Part<'a>> + use<'a> {
        self.nearest.into_iter().flatten()
    }
}

impl core::error::Error for ParsePartError<'_> {}

/// What, where, and what would be right.
impl fmt::Display for ParsePartError<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} (character {})", self.kind, self.at)?;
        let [Some(first), second] = self.nearest else { return self.kind.advise(f) };
        f.write_str("; right would be ")?;
        write_offer(f, &first)?;
        if let Some(second) = second {
            f.write_str(" or ")?;
            write_offer(f, &second)?;
        }
        Ok(())
    }
}

/// A nearest number as the writer would have written it, and as it is now called.
fn write_offer(f: &mut fmt::Formatter<'_>, part: &Part<'_>) -> fmt::Result {
    match part.superseded_name() {
        Some(name) => {
            part.write(f, name)?;
            write!(f, " (now {part})")
        }
        None => write!(f, "{part}"),
    }
}

impl fmt::Display for PartErrorKind<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PartErrorKind::Empty => f.write_str("a part number is missing"),
            PartErrorKind::UnexpectedCharacter(c) => write!(f, "{c:?} does not belong here"),
            PartErrorKind::SeriesMissing => f.write_str(
                "the series is missing, so head and alloy are unknown; digits alone such as 4-5 may mean diameter 4 and length 5, \
                 or a length of 4 1/2",
            ),
            PartErrorKind::SeriesUnknown { .. } => f.write_str("this is not a series known here"),
            PartErrorKind::MaterialMissing(series) => write!(f, "the material of {} is missing", series.name),
            PartErrorKind::MaterialUnknown(series) => write!(f, "this is not a material of {}", series.name),
            PartErrorKind::MaterialOfOther { series, other } => {
                write!(f, "{} does not come in this material, {} does", series.name, other.name)
            }
            PartErrorKind::MaterialAfterDiameter(series) => {
                write!(f, "{} writes the material after the diameter", series.name)
            }
            PartErrorKind::DashBeforeDiameter => f.write_str("no dash stands between the material and the diameter"),
            PartErrorKind::DiameterMissing => {
                f.write_str("the diameter is missing, a whole number of thirty-seconds of an inch")
            }
            PartErrorKind::DiameterNotWhole => f.write_str(
                "the diameter is a whole number of thirty-seconds of an inch; an oversize shank is told by the series, not by the digit",
            ),
            PartErrorKind::DiameterUnknown(series) => write!(f, "this is not a diameter known for {}", series.name),
            PartErrorKind::DiameterIsShank(series) => {
                write!(f, "the digit of {} counts thirty-seconds of the standard size, not sixty-fourths of its shank", series.name)
            }
            PartErrorKind::LeadingZero => f.write_str("numbers are written without leading zeros"),
            PartErrorKind::DashMissing => f.write_str("a dash belongs between diameter and length"),
            PartErrorKind::LengthMissing => f.write_str("a length in sixteenths of an inch is missing after the dash"),
            PartErrorKind::NotAHalf => f.write_str("a length goes in sixteenths of an inch and halves of one, written .5"),
            PartErrorKind::NotTheHalfMark => f.write_str("here only 5 is known, the mark of a half sixteenth"),
            PartErrorKind::HalfTwice => f.write_str("the half is written twice"),
            PartErrorKind::Length(error) => write!(f, "{error}"),
            PartErrorKind::LetterAfterLength(series) => write!(
                f,
                "no letter is known after the length of {}, neither for a finish nor for a half: ask what was meant",
                series.name
            ),
            PartErrorKind::FinishUnknown(series) => write!(f, "this is not a finish of {}", series.name),
            PartErrorKind::FinishTwice => f.write_str("a number has one finish letter only"),
            PartErrorKind::FinishAfterHalf => f.write_str("the finish letter stands before the mark of the half"),
            PartErrorKind::FinishBarred { finish } => {
                match finish.letter {
                    Some(letter) => write!(f, "{letter}"),
                    None => f.write_str("no letter"),
                }?;
                write!(f, " means {}, which is not allowed on this alloy", finish.name)
            }
        }
    }
}

impl PartErrorKind<'_> {
    /// What would be right, where no number can be offered.
    fn advise(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PartErrorKind::SeriesUnknown { nearest: Some(name) } => write!(f, "; the nearest is {name}"),
            PartErrorKind::Empty | PartErrorKind::SeriesMissing | PartErrorKind::SeriesUnknown { nearest: None } => {
                f.write_str("; right would be a full number such as MS20470AD4-5")
            }
            PartErrorKind::MaterialMissing(series) | PartErrorKind::MaterialUnknown(series) => {
                f.write_str("; right would be ")?;
                write_list(
                    f,
                    series.materials.iter().map(|material| match material.code {
                        "" => Listed::Text("no letter"),
                        code => Listed::Text(code),
                    }),
                )
            }
            PartErrorKind::DiameterUnknown(series) | PartErrorKind::DiameterIsShank(series) => {
                f.write_str("; right would be ")?;
                write_list(f, series.sizes.iter().map(|size| Listed::Number(size.dash)))
            }
            PartErrorKind::FinishUnknown(series) => {
                f.write_str("; right would be ")?;
                write_list(
                    f,
                    series.finishes.iter().map(|finish| match finish.letter {
                        Some(letter) => Listed::Letter(letter),
                        None => Listed::Text("no letter"),
                    }),
                )
            }
            _ => Ok(()),
        }
    }
}

enum Listed<'a> {
    Text(&'a str),
    Letter(char),
    Number(u8),
}

/// `A, B or C`.
fn write_list<'a>(f: &mut fmt::Formatter<'_>, items: impl ExactSizeIterator<Item = Listed<'a>>) -> fmt::Result {
    let last = items.len().saturating_sub(1);
    for (index, item) in items.enumerate() {
        f.write_str(match index {
            0 => "",
            _ if index == last => " or ",
            _ => ", ",
        })?;
        match item {
            Listed::Text(text) => f.write_str(text)?,
            Listed::Letter(letter) => write!(f, "{letter}")?,
            Listed::Number(number) => write!(f, "{number}")?,
        }
    }
    Ok(())
}

impl core::str::FromStr for Part<'static> {
    type Err = ParsePartError<'static>;
    fn from_str(text: &str) -> Result<Part<'static>, ParsePartError<'static>> {
        Part::parse(text)
    }
}

impl Part<'static> {
    /// Reads a part number of the built-in series. Lower case and spaces around it are accepted.
    ///
    /// # Errors
    /// [`ParsePartError`] with what is wrong, where, and the nearest valid numbers.
    ///
    /// ```
    /// use shophead::rivet::part::Part;
    /// let error = Part::parse("AN470AD-4-5").unwrap_err();
    /// assert_eq!(
    ///     error.to_string(),
    ///     "no dash stands between the material and the diameter (character 8); \
    ///      right would be AN470AD4-5 (now MS20470AD4-5)"
    /// );
    /// ```
    pub fn parse(text: &str) -> Result<Part<'static>, ParsePartError<'static>> {
        Part::parse_in(text, CATALOGUE)
    }
}

impl<'a> Part<'a> {
    /// Reads a part number of these series; where a name stands in two of them the first counts.
    ///
    /// # Errors
    /// As [`Part::parse`].
    pub fn parse_in(text: &str, catalogue: &[&'a Series<'a>]) -> Result<Part<'a>, ParsePartError<'a>> {
        let mut edits = Edits::new();
        let mut error = match read(text, catalogue, &mut edits) {
            Ok(part) => return Ok(part),
            Err(error) => error,
        };
        let mut offers = edits.iter().filter_map(|edit| mend(text, edit, catalogue));
        let first = offers.next();
        let second = offers.find(|offer| Some(offer) != first.as_ref());
        error.nearest = [first, second];
        Err(error)
    }
}

/// Room for a part number. A longer text is read too, but no other is offered for it.
type Text = heapless::String<48>;

/// A change that might make a text a part number: these bytes replaced.
struct Edit {
    bytes: Range<usize>,
    with: Text,
}

#[derive(Default)]
struct Edits(heapless::Vec<Edit, 2>);

impl Edits {
    fn new() -> Edits {
        Edits::default()
    }

    fn iter(&self) -> core::slice::Iter<'_, Edit> {
        self.0.iter()
    }

    /// Keeps a change, unless there are two already or it is too long.
    fn add(&mut self, bytes: Range<usize>, with: fmt::Arguments<'_>) {
        let mut text = Text::new();
        if fmt::write(&mut text, with).is_ok() {
            let _ = self.0.push(Edit { bytes, with: text });
        }
    }
}

impl Edit {
    fn applied(&self, text: &str) -> Option<Text> {
        let mut changed = Text::new();
        for piece in [text.get(..self.bytes.start)?, self.with.as_str(), text.get(self.bytes.end..)?] {
            changed.push_str(piece).ok()?;
        }
        Some(changed)
    }
}

/// The number that a change leads to, if need be with one or two more.
fn mend<'a>(text: &str, edit: &Edit, catalogue: &[&'a Series<'a>]) -> Option<Part<'a>> {
    const MORE: usize = 2;
    let mut changed = edit.applied(text)?;
    for _ in 0..=MORE {
        let mut edits = Edits::new();
        match read(&changed, catalogue, &mut edits) {
            Ok(part) => return Some(part),
            Err(_) => changed = edits.iter().next()?.applied(&changed)?,
        }
    }
    None
}

/// A place in the text, with the character count an error message needs.
#[derive(Clone, Copy)]
struct Scan<'t> {
    whole: &'t str,
    rest: &'t str,
    byte: usize,
    at: usize,
}

/// A part of the text.
#[derive(Clone, Copy)]
struct Piece<'t> {
    text: &'t str,
    start: usize,
    at: usize,
}

impl Piece<'_> {
    fn bytes(&self) -> Range<usize> {
        self.start..self.start.saturating_add(self.text.len())
    }

    fn error<'a>(&self, kind: PartErrorKind<'a>) -> ParsePartError<'a> {
        ParsePartError { at: self.at, kind, nearest: [None; 2] }
    }

    /// The number, or one that is no part of any number.
    fn number(&self) -> u16 {
        self.text.parse().unwrap_or(u16::MAX)
    }

    /// Without its leading zeros, where it has any.
    fn without_zeros(&self) -> Option<&str> {
        let stripped = self.text.trim_start_matches('0');
        let stripped = if stripped.is_empty() { "0" } else { stripped };
        (stripped.len() < self.text.len()).then_some(stripped)
    }
}

impl<'t> Scan<'t> {
    fn peek(&self) -> Option<char> {
        self.rest.chars().next()
    }

    fn piece(&self, len: usize) -> Piece<'t> {
        Piece { text: self.rest.get(..len).unwrap_or(""), start: self.byte, at: self.at }
    }

    fn advance(&mut self, piece: Piece<'t>) {
        self.rest = self.rest.get(piece.text.len()..).unwrap_or("");
        self.byte = piece.bytes().end;
        self.at = self.at.saturating_add(piece.text.chars().count());
    }

    /// The characters up to the first one that does not belong.
    fn run(&mut self, belongs: impl Fn(char) -> bool) -> Piece<'t> {
        let piece = self.piece(self.rest.find(|c| !belongs(c)).unwrap_or(self.rest.len()));
        self.advance(piece);
        piece
    }

    fn letters(&mut self) -> Piece<'t> {
        self.run(|c| c.is_ascii_alphabetic())
    }

    fn digits(&mut self) -> Piece<'t> {
        self.run(|c| c.is_ascii_digit())
    }

    fn take(&mut self, wanted: char) -> bool {
        let found = self.rest.starts_with(wanted);
        if found {
            self.advance(self.piece(wanted.len_utf8()));
        }
        found
    }

    /// The next character.
    fn here(&self) -> Piece<'t> {
        self.piece(self.peek().map_or(0, char::len_utf8))
    }

    /// From here to a later place.
    fn up_to(&self, later: &Scan<'t>) -> Piece<'t> {
        self.piece(later.byte.saturating_sub(self.byte))
    }

    /// Whether leaving out the next character would run two numbers into one.
    fn parts_digits(&self) -> bool {
        let before = self.whole.get(..self.byte).and_then(|before| before.chars().next_back());
        let after = self.rest.chars().nth(1);
        [before, after].iter().all(|c| c.is_some_and(|c| c.is_ascii_digit()))
    }

    /// The error for a character that has no place here, or for a text that ends too soon.
    fn unexpected<'a>(&self, edits: &mut Edits, at_end: PartErrorKind<'a>) -> ParsePartError<'a> {
        let Some(c) = self.peek() else { return self.here().error(at_end) };
        match c {
            // Dashes that word processors put for the plain one.
            '\u{2010}'..='\u{2015}' | '\u{2212}' => edits.add(self.here().bytes(), format_args!("-")),
            ',' => edits.add(self.here().bytes(), format_args!(".")),
            c if (c == '-' || c.is_whitespace()) && !self.parts_digits() => {
                edits.add(self.here().bytes(), format_args!(""));
            }
            _ => {}
        }
        self.here().error(PartErrorKind::UnexpectedCharacter(c))
    }
}

/// Reads a number; on an error keeps the changes that may mend it.
fn read<'a>(text: &str, catalogue: &[&'a Series<'a>], edits: &mut Edits) -> Result<Part<'a>, ParsePartError<'a>> {
    let mut scan = Scan { whole: text, rest: text.trim_end(), byte: 0, at: 1 };
    scan.run(char::is_whitespace);
    if scan.rest.is_empty() {
        return Err(scan.here().error(PartErrorKind::Empty));
    }
    let start = scan.byte;
    let (series, superseded) = read_series(&mut scan, catalogue, edits)?;
    let named = Named { start, series, catalogue };
    let (material, size) = match series.form {
        NumberForm::MaterialFirst => read_material_first(&mut scan, named, edits)?,
        NumberForm::DiameterFirst => read_diameter_first(&mut scan, named, edits)?,
    };
    let lower_case = text.contains(|c: char| c.is_ascii_lowercase());
    let written = Written { superseded, lower_case, other_half: false };
    let family = Part { series, material, size, finish: None, length: None, written };
    if scan.rest.is_empty() {
        return Ok(family);
    }
    if series.form == NumberForm::MaterialFirst || material.code.is_empty() {
        read_dash(&mut scan, edits)?;
    }
    read_length(&mut scan, family, edits)
}

/// The series, and which of its superseded names was written.
fn read_series<'a>(
    scan: &mut Scan<'_>,
    catalogue: &[&'a Series<'a>],
    edits: &mut Edits,
) -> Result<(&'a Series<'a>, Option<u8>), ParsePartError<'a>> {
    let mut found: Option<(&'a Series<'a>, usize, Option<u8>)> = None;
    for &series in catalogue {
        let current = [series.name].into_iter().chain(series.also.iter().copied()).map(|name| (name, None));
        let older = (0..=u8::MAX).zip(series.supersedes).map(|(index, name)| (*name, Some(index)));
        for (name, superseded) in current.chain(older) {
            let Some((start, rest)) = scan.rest.split_at_checked(name.len()) else { continue };
            // MS2047 is no name for the start of MS20470.
            let ends_here = !rest.starts_with(|c: char| c.is_ascii_digit());
            if !name.is_empty()
                && start.eq_ignore_ascii_case(name)
                && ends_here
                && found.is_none_or(|(_, len, _)| name.len() > len)
            {
                found = Some((series, name.len(), superseded));
            }
        }
    }
    if let Some((series, len, superseded)) = found {
        scan.advance(scan.piece(len));
        return Ok((series, superseded));
    }
    let start = *scan;
    let letters = scan.letters();
    let digits = scan.digits();
    if letters.text.is_empty() && digits.text.is_empty() {
        return Err(scan.unexpected(edits, PartErrorKind::Empty));
    }
    // `4-5` and `AD4-5`: what follows a series, without the series.
    let is_material = catalogue.iter().any(|series| series.material(letters.text).is_some());
    if letters.text.is_empty() || is_material && (1..=2).contains(&digits.text.len()) {
        return Err(letters.error(PartErrorKind::SeriesMissing));
    }
    if digits.text.is_empty() && scan.peek().is_some_and(|c| c == '-' || c.is_whitespace()) {
        // `MS 20470` and `MS-20470`.
        edits.add(scan.here().bytes(), format_args!(""));
        return Err(letters.error(PartErrorKind::SeriesUnknown { nearest: None }));
    }
    let len = letters.text.len().saturating_add(digits.text.len());
    let token = start.piece(len);
    let distances = || {
        let names = catalogue
            .iter()
            .flat_map(|series| [series.name].into_iter().chain(series.also.iter().chain(series.supersedes).copied()));
        names.filter_map(|name| Some((distance(token.text, name)?, name)))
    };
    // Up to a third of the name may be wrong: more is another name.
    let least = distances().map(|(distance, _)| distance).min().filter(|least| least.saturating_mul(3) <= len);
    let mut nearest = None;
    for (_, name) in distances().filter(|(distance, _)| Some(*distance) == least) {
        nearest = nearest.or(Some(name));
        edits.add(token.bytes(), format_args!("{name}"));
    }
    Err(token.error(PartErrorKind::SeriesUnknown { nearest }))
}

/// How many characters must be changed, put in or left out; `None` for a name too long to compare.
fn distance(one: &str, other: &str) -> Option<usize> {
    const LONGEST: usize = 16;
    if one.len() > LONGEST {
        return None;
    }
    let mut row = heapless::Vec::<usize, LONGEST>::new();
    for count in 1..=other.len() {
        row.push(count).ok()?;
    }
    let mut last = other.len();
    for (index, c) in one.bytes().enumerate() {
        let (mut diagonal, mut left) = (index, index.saturating_add(1));
        for (cell, d) in row.iter_mut().zip(other.bytes()) {
            let above = *cell;
            let changed = diagonal.saturating_add(usize::from(!c.eq_ignore_ascii_case(&d)));
            *cell = changed.min(above.saturating_add(1)).min(left.saturating_add(1));
            (diagonal, left) = (above, *cell);
        }
        last = left;
    }
    Some(last)
}

/// The series that was named, where its name starts, and the catalogue it was found in.
#[derive(Clone, Copy)]
struct Named<'a, 'c> {
    start: usize,
    series: &'a Series<'a>,
    catalogue: &'c [&'a Series<'a>],
}

impl<'a> Named<'a, '_> {
    /// Offers the number under another name or in another order. Its diameter and length are still to be read.
    fn offer(&self, scan: &Scan<'_>, series: &Series<'_>, code: &str, edits: &mut Edits) {
        let mut ahead = *scan;
        let diameter = ahead.digits().text;
        if diameter.is_empty() {
            return;
        }
        let name = series.name;
        let dash = if ahead.take('-') { "-" } else { "" };
        let bytes = self.start..ahead.byte;
        match series.form {
            NumberForm::MaterialFirst => edits.add(bytes, format_args!("{name}{code}{diameter}{dash}")),
            NumberForm::DiameterFirst => edits.add(bytes, format_args!("{name}-{diameter}{code}")),
        }
    }

    /// The error for letters before the diameter that are no material of the series: perhaps they are one of a sister series.
    fn unknown_material(&self, scan: &Scan<'_>, letters: Piece<'_>, edits: &mut Edits) -> ParsePartError<'a> {
        let series = self.series;
        let sister = self
            .catalogue
            .iter()
            .copied()
            .filter(|other| other.head == series.head && other.oversize == series.oversize);
        let found = sister.filter_map(|other| Some((other, other.material(letters.text)?))).next();
        let Some((other, material)) = found else {
            return letters.error(PartErrorKind::MaterialUnknown(series));
        };
        self.offer(scan, other, material.code, edits);
        letters.error(PartErrorKind::MaterialOfOther { series, other })
    }
}

type MaterialAndSize<'a> = (&'a Material<'a>, &'a Size<'a>);

/// `AD4`, or `-4` where the material has no letter.
fn read_material_first<'a>(
    scan: &mut Scan<'_>,
    named: Named<'a, '_>,
    edits: &mut Edits,
) -> Result<MaterialAndSize<'a>, ParsePartError<'a>> {
    let series = named.series;
    let letters = scan.letters();
    let material = if letters.text.is_empty() {
        let dash = scan.here();
        match series.material("") {
            Some(material) if scan.take('-') => material,
            Some(_) if scan.peek().is_none() => return Err(dash.error(PartErrorKind::DiameterMissing)),
            _ => {
                let beyond = scan.rest.strip_prefix(|c: char| c == '-' || c.is_whitespace());
                return Err(match beyond {
                    // `MS20470-AD4-5`
                    Some(beyond) if beyond.starts_with(|c: char| c.is_ascii_alphabetic()) => {
                        scan.unexpected(edits, PartErrorKind::MaterialMissing(series))
                    }
                    _ => dash.error(PartErrorKind::MaterialMissing(series)),
                });
            }
        }
    } else {
        match series.material(letters.text) {
            Some(material) => material,
            None => return Err(named.unknown_material(scan, letters, edits)),
        }
    };
    let size = read_diameter(scan, series, edits)?;
    Ok((material, size))
}

/// `-4M`, or `-4` where the material has no letter.
fn read_diameter_first<'a>(
    scan: &mut Scan<'_>,
    named: Named<'a, '_>,
    edits: &mut Edits,
) -> Result<MaterialAndSize<'a>, ParsePartError<'a>> {
    let series = named.series;
    let before = scan.letters();
    if !before.text.is_empty() {
        let Some(material) = series.material(before.text) else {
            return Err(named.unknown_material(scan, before, edits));
        };
        named.offer(scan, series, material.code, edits);
        return Err(before.error(PartErrorKind::MaterialAfterDiameter(series)));
    }
    if !scan.take('-') {
        return Err(scan.unexpected(edits, PartErrorKind::DiameterMissing));
    }
    let size = read_diameter(scan, series, edits)?;
    let letters = scan.letters();
    match series.material(letters.text) {
        Some(material) => Ok((material, size)),
        None if letters.text.is_empty() => Err(letters.error(PartErrorKind::MaterialMissing(series))),
        None => Err(letters.error(PartErrorKind::MaterialUnknown(series))),
    }
}

fn read_diameter<'a>(
    scan: &mut Scan<'_>,
    series: &'a Series<'a>,
    edits: &mut Edits,
) -> Result<&'a Size<'a>, ParsePartError<'a>> {
    // A wrong digit is near one that is at most this far from it.
    const NEAR: u16 = 4;
    let before = *scan;
    if scan.take('-') && scan.peek().is_some_and(|c| c.is_ascii_digit()) {
        edits.add(before.here().bytes(), format_args!(""));
        return Err(before.here().error(PartErrorKind::DashBeforeDiameter));
    }
    *scan = before;
    let digits = scan.digits();
    if digits.text.is_empty() {
        return Err(match scan.peek() {
            Some(c) if c.is_ascii_alphabetic() => digits.error(PartErrorKind::DiameterMissing),
            _ => scan.unexpected(edits, PartErrorKind::DiameterMissing),
        });
    }
    if let Some(stripped) = digits.without_zeros() {
        edits.add(digits.bytes(), format_args!("{stripped}"));
        return Err(digits.error(PartErrorKind::LeadingZero));
    }
    let point = *scan;
    if scan.take('.') && !scan.digits().text.is_empty() {
        let decimal = point.up_to(scan);
        edits.add(decimal.bytes(), format_args!(""));
        return Err(digits.error(PartErrorKind::DiameterNotWhole));
    }
    *scan = point;
    let number = digits.number();
    if let Some(size) = u8::try_from(number).ok().and_then(|dash| series.size(dash)) {
        return Ok(size);
    }
    let shank = i16::try_from(number).ok().map(Length::from_64ths);
    if let Some(size) = series
        .sizes
        .iter()
        .find(|size| Some(size.shank_nominal) == shank && size.shank_nominal != size.standard_diameter())
    {
        edits.add(digits.bytes(), format_args!("{}", size.dash));
        return Err(digits.error(PartErrorKind::DiameterIsShank(series)));
    }
    let near = |size: &&Size<'_>| number.abs_diff(u16::from(size.dash)) <= NEAR;
    let below = series.sizes.iter().rev().find(|size| u16::from(size.dash) < number).filter(near);
    let above = series.sizes.iter().find(|size| u16::from(size.dash) > number).filter(near);
    for size in [below, above].into_iter().flatten() {
        edits.add(digits.bytes(), format_args!("{}", size.dash));
    }
    Err(digits.error(PartErrorKind::DiameterUnknown(series)))
}

/// The dash before the length.
fn read_dash<'a>(scan: &mut Scan<'_>, edits: &mut Edits) -> Result<(), ParsePartError<'a>> {
    if scan.take('-') {
        return Ok(());
    }
    let mut ahead = *scan;
    let gap = ahead.run(char::is_whitespace);
    if !gap.text.is_empty() && ahead.peek().is_some_and(|c| c.is_ascii_digit()) {
        edits.add(gap.bytes(), format_args!("-"));
        return Err(gap.error(PartErrorKind::DashMissing));
    }
    Err(scan.unexpected(edits, PartErrorKind::DashMissing))
}

/// The length with its half and finish: the end of the number.
fn read_length<'a>(scan: &mut Scan<'_>, family: Part<'a>, edits: &mut Edits) -> Result<Part<'a>, ParsePartError<'a>> {
    let series = family.series;
    let start = *scan;
    let digits = scan.digits();
    if digits.text.is_empty() {
        return Err(match scan.peek() {
            Some('.') => {
                edits.add(digits.bytes(), format_args!("0"));
                digits.error(PartErrorKind::LengthMissing)
            }
            _ => scan.unexpected(edits, PartErrorKind::LengthMissing),
        });
    }
    if let Some(stripped) = digits.without_zeros() {
        edits.add(digits.bytes(), format_args!("{stripped}"));
        return Err(digits.error(PartErrorKind::LeadingZero));
    }
    let whole = digits.number();
    let mut half = read_point_five(scan, digits, edits)?.then_some(HalfMark::Point);

    let letters = scan.letters();
    let finish = match letters.text.chars().next() {
        None => None,
        Some(_) if series.finishes.is_empty() => {
            return Err(letters.error(PartErrorKind::LetterAfterLength(series)));
        }
        Some(letter) => {
            if let Some(second) = letters.text.chars().nth(1) {
                edits.add(letters.bytes(), format_args!("{letter}"));
                edits.add(letters.bytes(), format_args!("{second}"));
                return Err(letters.error(PartErrorKind::FinishTwice));
            }
            let finish = series.finish(Some(letter));
            Some(finish.ok_or_else(|| letters.error(PartErrorKind::FinishUnknown(series)))?)
        }
    };

    // `6A5` or `6-5`.
    let mark = *scan;
    let dashed = finish.is_none() && scan.take('-');
    let five = scan.digits();
    let with_dash = mark.up_to(scan);
    match five.text {
        "" if dashed => return Err(scan.unexpected(edits, PartErrorKind::LengthMissing)),
        "" => {}
        "5" if half.is_some() => {
            edits.add(with_dash.bytes(), format_args!(""));
            return Err(with_dash.error(PartErrorKind::HalfTwice));
        }
        "5" => half = Some(HalfMark::Five),
        _ => {
            edits.add(with_dash.bytes(), format_args!(""));
            return Err(five.error(PartErrorKind::NotTheHalfMark));
        }
    }
    let late = scan.letters();
    if !late.text.is_empty() {
        if series.finishes.is_empty() {
            return Err(late.error(PartErrorKind::LetterAfterLength(series)));
        }
        if finish.is_some() {
            return Err(late.error(PartErrorKind::FinishTwice));
        }
        edits.add(mark.up_to(scan).bytes(), format_args!("{}5", late.text));
        return Err(late.error(PartErrorKind::FinishAfterHalf));
    }
    if !scan.rest.is_empty() {
        return Err(scan.unexpected(edits, PartErrorKind::LengthMissing));
    }

    // Each of these shows the length without the mark of its half.
    let number = start.piece(start.rest.len());
    let count = i64::from(whole).saturating_mul(2).saturating_add(i64::from(half.is_some()));
    let length = check_length(series, family.size, count).map_err(|error| {
        match error {
            PartLengthError::NoHalfLengths => {
                edits.add(number.bytes(), format_args!("{whole}"));
                edits.add(number.bytes(), format_args!("{}", whole.saturating_add(1)));
            }
            PartLengthError::ShorterThanHead { head } => {
                let least = head.floor_to(Length::SIXTEENTH).plus(Length::SIXTEENTH).to_64ths().count();
                edits.add(number.bytes(), format_args!("{}", least.saturating_div(4)));
            }
            _ => {}
        }
        digits.error(PartErrorKind::Length(error))
    })?;
    let barred = finish.or(series.finish(None)).filter(|finish| !finish.alloys.contains(&family.alloy()));
    if let Some(barred) = barred.filter(|_| finish.is_some() || bare_finish_is_barred(series, family.alloy())) {
        let place = if finish.is_some() { letters } else { mark.piece(0) };
        for allowed in series.finishes.iter().filter(|finish| finish.alloys.contains(&family.alloy())) {
            if let Some(letter) = allowed.letter {
                match half {
                    Some(HalfMark::Five) if finish.is_none() => edits.add(with_dash.bytes(), format_args!("{letter}5")),
                    _ => edits.add(place.bytes(), format_args!("{letter}")),
                }
            }
        }
        if !series.finishes.iter().any(|finish| finish.alloys.contains(&family.alloy())) {
            // `6A5` without its letter is `6-5`.
            let instead = if five.text.is_empty() { "" } else { "-" };
            edits.add(letters.bytes(), format_args!("{instead}"));
        }
        return Err(place.error(PartErrorKind::FinishBarred { finish: barred }));
    }
    let other_half = half.is_some() && half != series.half_lengths;
    let written = Written { other_half, ..family.written };
    Ok(Part { finish, length: Some(length), written, ..family })
}

/// Reads `.5`, and tells whether it was there.
fn read_point_five<'a>(scan: &mut Scan<'_>, whole: Piece<'_>, edits: &mut Edits) -> Result<bool, ParsePartError<'a>> {
    let point = *scan;
    if !scan.take('.') {
        return Ok(false);
    }
    let decimals = scan.digits().text;
    if decimals == "5" {
        return Ok(true);
    }
    let decimal = point.piece(decimals.len().saturating_add(1));
    // Texts of digits behind the point compare as the numbers do.
    let significant = decimals.trim_end_matches('0');
    if significant < "5" {
        edits.add(decimal.bytes(), format_args!(""));
    }
    if !significant.is_empty() {
        edits.add(decimal.bytes(), format_args!(".5"));
    }
    if significant > "5" {
        let next = whole.number().saturating_add(1);
        edits.add(whole.start..decimal.bytes().end, format_args!("{next}"));
    }
    Err(decimal.error(PartErrorKind::NotAHalf))
}
