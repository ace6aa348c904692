//! Why a text is not a part number, in words.

use core::fmt;
#[cfg(feature = "words")]
use core::fmt::Write;

use super::{Part, PartLengthError};
use crate::rivet::other::NotRead;
use crate::rivet::{Finish, Series};
#[cfg(feature = "words")]
use crate::words::write_list;

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

crate::words::errors! {
    /// What is wrong in a [`ParsePartError`].
    PartErrorKind<'a> = (24, "not-a-part", "A text is not a part number.",
        "not a part number", "right would be a full number such as MS20470AD4-5")
    {
        Empty, "part-missing", "Nothing but spaces.",
            "a part number is missing";
        UnexpectedCharacter(c: char), "unexpected-character", "A character that has no place there.",
            "{} does not belong here" (Quoted(*c));
        SeriesMissing, "series-missing", "No series: head and alloy are unknown, and the digits could mean more than one rivet.",
            "the series is missing, so head and alloy are unknown; digits alone such as 4-5 may mean diameter 4 and length 5, or a length of 4 1/2";
        SeriesUnknown { nearest: Option<&'a str>, "The series whose name is nearest, where one is near." },
            "series-unknown", "Not a series of the catalogue.",
            "this is not a series known here", "{}" (Nearest(*nearest));
        SeriesNotRead(other: &'static NotRead),
            "series-not-read", "A series that is known, but whose numbers are not read: blind, or superseded without a single successor.",
            "{other}", "";
        MaterialMissing(series: &'a Series<'a>), "material-letters-missing", "No material letters where the series has them.",
            "the material of {} is missing" (series.name), "right would be {}" (Materials(series));
        MaterialUnknown(series: &'a Series<'a>), "material-unknown", "Letters that are no material of the series.",
            "this is not a material of {}" (series.name), "right would be {}" (Materials(series));
        MaterialOfOther { series: &'a Series<'a>, "The series that was written."; other: &'a Series<'a>, "The series that has this material." },
            "material-of-other", "Letters that are a material of another series with the same head.",
            "{} does not come in this material, {} does" (series.name, other.name), "";
        MaterialAfterDiameter(series: &'a Series<'a>),
            "material-after-diameter", "Material letters before the diameter in a series that writes them after it.",
            "{} writes the material after the diameter" (series.name), "";
        DashBeforeDiameter, "dash-before-diameter", "A dash between material letters and diameter.",
            "no dash belongs between the material and the diameter", "";
        DiameterMissing, "diameter-missing", "No digit where the diameter stands.",
            "the diameter is missing, a whole number of thirty-seconds of an inch", "";
        DiameterNotWhole, "diameter-not-whole", "A decimal where the diameter stands: it counts whole thirty-seconds.",
            "the diameter is a whole number of thirty-seconds of an inch; the series, not the digit, says whether a shank is oversize", "";
        DiameterUnknown(series: &'a Series<'a>), "diameter-unknown", "Not a diameter of the series.",
            "this is not a diameter known for {}" (series.name), "right would be {}" (Sizes(series));
        DiameterIsShank(series: &'a Series<'a>),
            "diameter-is-shank", "Sixty-fourths where the digit of an oversize series counts thirty-seconds of the standard size.",
            "the digit of {} counts thirty-seconds of the standard size, not sixty-fourths of its shank" (series.name),
            "right would be {}" (Sizes(series));
        LeadingZero, "leading-zero", "A number with a zero before it.",
            "numbers are written without leading zeros", "";
        DashMissing, "dash-missing", "No dash between diameter and length.",
            "a dash belongs between diameter and length", "";
        LengthMissing, "length-after-dash-missing", "A dash without a length after it.",
            "a length in sixteenths of an inch is missing after the dash", "";
        NotAHalf, "not-a-half", "A decimal other than .5.",
            "a length goes in sixteenths of an inch and halves of one, written .5", "";
        NotTheHalfMark, "not-the-half-mark", "Something other than 5 where the mark of a half stands.",
            "here only 5 is known, the mark of a half sixteenth", "";
        HalfTwice, "half-twice", "The half written twice.",
            "the half is written twice", "";
        Length(error: PartLengthError), "part-length", "A length that the series does not have.",
            "{error}", "";
        LetterAfterLength(series: &'a Series<'a>),
            "letter-after-length", "A letter after the length of a series that has no finish letters known here; it is not a half either.",
            "no letter is known after the length of {}, neither for a finish nor for a half: ask what was meant" (series.name), "";
        FinishUnknown(series: &'a Series<'a>), "finish-unknown", "Not a finish letter of the series.",
            "this is not a finish of {}" (series.name), "right would be {}" (Finishes(series));
        FinishTwice, "finish-twice", "More than one finish letter.",
            "a number has one finish letter only", "";
        FinishAfterHalf, "finish-after-half", "A finish letter after the mark of the half instead of before it.",
            "the finish letter stands before the mark of the half", "";
        FinishBarred { finish: &'a Finish<'a>, "The finish." }, "finish-barred", "A finish that the series does not allow on this alloy.",
            "{} means {}, which is not allowed on this alloy" (Letter(finish), finish.name), "";
    }
}

crate::words::of_kind!(ParsePartError<'_>, PartErrorKind);

impl<'a> ParsePartError<'a> {
    /// The valid numbers that are nearest, at most two; none where any would be a guess.
    pub fn nearest(&self) -> impl Iterator<Item = Part<'a>> + use<'a> {
        self.nearest.into_iter().flatten()
    }
}

impl core::error::Error for ParsePartError<'_> {}

/// What, where, and what would be right.
impl fmt::Display for ParsePartError<'_> {
    #[cfg(not(feature = "words"))]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }

    #[cfg(feature = "words")]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.kind.write_what(f)?;
        write!(f, " (character {})", self.at)?;
        let [Some(first), second] = self.nearest else { return self.kind.write_right(f) };
        f.write_str("; right would be ")?;
        write_offer(f, &first)?;
        if let Some(second) = second {
            f.write_str(" or ")?;
            write_offer(f, &second)?;
        }
        Ok(())
    }
}

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

/// The series whose name is nearest.
#[cfg(feature = "words")]
struct Nearest<'a>(Option<&'a str>);

#[cfg(feature = "words")]
impl fmt::Display for Nearest<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Some(name) => write!(f, "the nearest is {name}"),
            None => f.write_str("right would be a full number such as MS20470AD4-5"),
        }
    }
}

/// The material letters of a series.
#[cfg(feature = "words")]
struct Materials<'a>(&'a Series<'a>);

#[cfg(feature = "words")]
impl fmt::Display for Materials<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let codes = self.0.materials.iter().map(|material| material.code);
        write_list(f, codes.map(|code| if code.is_empty() { NO_LETTER } else { code }))
    }
}

/// The digits of its sizes.
#[cfg(feature = "words")]
struct Sizes<'a>(&'a Series<'a>);

#[cfg(feature = "words")]
impl fmt::Display for Sizes<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_list(f, self.0.sizes.iter().map(|size| size.dash))
    }
}

/// Its finish letters.
#[cfg(feature = "words")]
struct Finishes<'a>(&'a Series<'a>);

#[cfg(feature = "words")]
impl fmt::Display for Finishes<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_list(f, self.0.finishes.iter().map(Letter))
    }
}

/// The letter of a finish.
#[cfg(feature = "words")]
struct Letter<'a>(&'a Finish<'a>);

#[cfg(feature = "words")]
impl fmt::Display for Letter<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.letter {
            Some(letter) => f.write_char(letter),
            None => f.write_str(NO_LETTER),
        }
    }
}

#[cfg(feature = "words")]
const NO_LETTER: &str = "no letter";
