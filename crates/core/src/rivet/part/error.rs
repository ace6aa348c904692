//! Why a text is not a part number, in words.

#[cfg(feature = "words")]
use core::fmt;

use super::{Part, PartLengthError};
use crate::rivet::other::NotRead;
use crate::rivet::{Finish, Series};

/// Why a text is not a part number, where, and what it may have meant.
///
/// ```
/// use shophead::rivet::part::Part;
/// let error = Part::parse("MS20470AD7-5").unwrap_err();
/// assert_eq!(error.at, 10);
/// let nearest: Vec<String> = error.nearest().map(|part| part.to_string()).collect();
/// assert_eq!(nearest, ["MS20470AD6-5", "MS20470AD8-5"]);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct ParsePartError<'a> {
    /// The character where the fault begins, counted from 1.
    pub at: usize,
    /// What is wrong there.
    pub kind: PartErrorKind<'a>,
    pub(super) nearest: [Option<Part<'a>>; 2],
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
    /// A series that is known, but whose numbers are not read: blind, or superseded without a single successor.
    SeriesNotRead(&'static NotRead),
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
#[cfg(feature = "words")]
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

crate::words::wordless!(ParsePartError<'_>, "not-a-part");

/// A character between quotes: as it is where that can do no harm on a terminal, otherwise by its number.
///
/// `Debug` of a character does the same for all of Unicode, but brings its tables, four kilobytes of flash, and code that can panic
/// as far as a linker can tell.
#[cfg(feature = "words")]
struct Quoted(char);

#[cfg(feature = "words")]
impl fmt::Display for Quoted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            // ASCII, the letters of Western Europe, and the dashes that come with copied text.
            ' '..='~' | '\u{a1}'..='\u{ac}' | '\u{ae}'..='\u{24f}' | '\u{2010}'..='\u{2015}' => {
                write!(f, "'{}'", self.0)
            }
            other => write!(f, "'{}'", other.escape_unicode()),
        }
    }
}

/// A nearest number as the writer would have written it, and as it is now called.
#[cfg(feature = "words")]
fn write_offer(f: &mut fmt::Formatter<'_>, part: &Part<'_>) -> fmt::Result {
    match part.superseded_name() {
        Some(name) => {
            part.write(f, name)?;
            write!(f, " (now {part})")
        }
        None => write!(f, "{part}"),
    }
}

#[cfg(feature = "words")]
impl fmt::Display for PartErrorKind<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PartErrorKind::Empty => f.write_str("a part number is missing"),
            PartErrorKind::UnexpectedCharacter(c) => write!(f, "{} does not belong here", Quoted(*c)),
            PartErrorKind::SeriesMissing => f.write_str(
                "the series is missing, so head and alloy are unknown; digits alone such as 4-5 may mean diameter 4 and length 5, \
                 or a length of 4 1/2",
            ),
            PartErrorKind::SeriesUnknown { .. } => f.write_str("this is not a series known here"),
            PartErrorKind::SeriesNotRead(other) => write!(f, "{other}"),
            PartErrorKind::MaterialMissing(series) => write!(f, "the material of {} is missing", series.name),
            PartErrorKind::MaterialUnknown(series) => write!(f, "this is not a material of {}", series.name),
            PartErrorKind::MaterialOfOther { series, other } => {
                write!(f, "{} does not come in this material, {} does", series.name, other.name)
            }
            PartErrorKind::MaterialAfterDiameter(series) => {
                write!(f, "{} writes the material after the diameter", series.name)
            }
            PartErrorKind::DashBeforeDiameter => f.write_str("no dash belongs between the material and the diameter"),
            PartErrorKind::DiameterMissing => {
                f.write_str("the diameter is missing, a whole number of thirty-seconds of an inch")
            }
            PartErrorKind::DiameterNotWhole => f.write_str(
                "the diameter is a whole number of thirty-seconds of an inch; the series, not the digit, says whether a shank is oversize",
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

crate::words::wordless!(PartErrorKind<'_>, "not-a-part");

#[cfg(feature = "words")]
impl PartErrorKind<'_> {
    /// What would be right, where no number can be offered.
    fn advise(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PartErrorKind::SeriesUnknown { nearest: Some(name) } => write!(f, "; the nearest is {name}"),
            PartErrorKind::Empty
            | PartErrorKind::UnexpectedCharacter(_)
            | PartErrorKind::SeriesMissing
            | PartErrorKind::SeriesUnknown { nearest: None } => {
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

#[cfg(feature = "words")]
enum Listed<'a> {
    Text(&'a str),
    Letter(char),
    Number(u8),
}

/// `A, B or C`.
#[cfg(feature = "words")]
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
