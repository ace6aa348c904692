//! Words: the one shape of every list of words, and how sentences and figures are written.
//!
//! Every finding, limit name, error and list of words has one line in one table. The line holds the variant, its number for the C
//! interface, the word for scripts and, for people, a sentence; a finding also has a shorter form for small screens. The tables stand
//! beside their types ([`Code`](crate::finding::Code), [`Name`](crate::practice::Name)); all of them are made by the macros here.
//!
//! Nothing here allocates: what is written is a [`Display`](core::fmt::Display).
//!
//! ```
//! use shophead::finding::Code;
//! use shophead::installation::Installation;
//! use shophead::length::Length;
//! use shophead::rivet::part::Part;
//! use shophead::stack::Stack;
//! use shophead::words::Units;
//!
//! let skins = Stack::parse("2024-T3:.040, 2024-T3:.063")?;
//! let findings = Installation::new(Part::parse("MS20470AD4")?, &skins).edge(Length::parse(".2")?).findings();
//! let finding = findings.iter().find(|finding| finding.code() == Code::EdgeDistanceShort).unwrap();
//! # #[cfg(feature = "words")] {
//! assert_eq!(finding.sentence(Units::Inches).to_string(), "Edge distance .200 is short, needs .250. Refer.");
//! assert_eq!(finding.sentence(Units::Millimetres).to_string(), "Edge distance 5.08 mm is short, needs 6.35 mm. Refer.");
//! assert_eq!(finding.reason(Units::Inches).to_string(), "Edge distance .200 is short, needs .250.");
//! assert_eq!(finding.short(Units::Inches).to_string(), "edge short: .200, needs .250");
//! # }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # Without sentences
//!
//! The feature `words` is on by default. Without it the sentences of findings and errors are left out: an instrument that shows codes
//! of its own has no use for them. The words for scripts, the numbers and the units stay; an error then prints its word.

mod errors;
mod figures;
#[cfg(feature = "words")]
mod template;

use core::fmt;

pub use errors::ErrorLine;
#[cfg(feature = "words")]
pub(crate) use errors::right;
pub(crate) use errors::{OTHER, errors, line, nested, number, of_kind, say};
pub use figures::{Shown, Units};
pub(crate) use figures::{Toward, thousandths};
#[cfg(feature = "words")]
pub(crate) use template::{Place, Sentence, fill};

/// A list of words: what every one of them has.
///
/// ```
/// use shophead::structure::Member;
/// use shophead::words::Word;
/// fn words<T: Word>() -> Vec<&'static str> {
///     T::ALL.iter().map(|value| value.as_str()).collect()
/// }
/// assert!(words::<Member>().contains(&"spar-cap"));
/// assert_eq!("spar-cap".parse(), Ok(Member::SparCap));
/// ```
pub trait Word: Copy + PartialEq + fmt::Debug + 'static {
    /// Every value, in the order of the table.
    const ALL: &'static [Self];

    /// The word for it, as in a job file, in JSON and in CSV. It never changes.
    fn as_str(self) -> &'static str;

    /// The number for it in the C interface. It never changes and is never used again.
    fn number(self) -> u32;

    /// What it means, in one sentence.
    fn meaning(self) -> &'static str;

    /// The value with this number.
    #[must_use]
    fn from_number(number: u32) -> Option<Self> {
        Self::ALL.iter().copied().find(|value| value.number() == number)
    }
}

/// A word that is not in its list.
///
/// ```
/// use shophead::structure::Structure;
/// let error = "main".parse::<Structure>().unwrap_err();
/// # #[cfg(feature = "words")]
/// assert_eq!(error.to_string(), "no such structure; right would be primary or secondary");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ParseWordError {
    what: &'static str,
    known: &'static [&'static str],
}

impl ParseWordError {
    /// What C knows it by.
    pub const LINE: ErrorLine = ErrorLine {
        number: 27,
        word: "unknown-word",
        meaning: "A word is not in the list.",
        say: |f| f.write_str("this word is not in the list"),
    };

    /// Its number in the C interface.
    #[must_use]
    pub const fn number(&self) -> u32 {
        ParseWordError::LINE.number
    }

    /// Its word, which never changes.
    #[must_use]
    pub const fn as_str(&self) -> &'static str {
        ParseWordError::LINE.word
    }

    pub(crate) const fn new(what: &'static str, known: &'static [&'static str]) -> ParseWordError {
        ParseWordError { what, known }
    }

    /// What the list is a list of.
    #[must_use]
    pub const fn what(self) -> &'static str {
        self.what
    }

    /// The words of the list.
    #[must_use]
    pub const fn known(self) -> &'static [&'static str] {
        self.known
    }
}

impl fmt::Display for ParseWordError {
    #[cfg(not(feature = "words"))]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }

    #[cfg(feature = "words")]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no such {}; right would be ", self.what)?;
        write_list(f, self.known.iter())
    }
}

impl core::error::Error for ParseWordError {}

/// `A, B or C`.
#[cfg(feature = "words")]
pub(crate) fn write_list(f: &mut fmt::Formatter<'_>, items: impl Iterator<Item = impl fmt::Display>) -> fmt::Result {
    let mut items = items.peekable();
    let mut is_first = true;
    while let Some(item) = items.next() {
        let before = match items.peek() {
            _ if is_first => "",
            Some(_) => ", ",
            None => " or ",
        };
        write!(f, "{before}{item}")?;
        is_first = false;
    }
    Ok(())
}

/// What every list of words has, from one line a value: variant, number for C, word, what it means.
///
/// After the name stands what the list is a list of, for the message about a word that is not in it.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident, $what:literal {
        $( $(#[$attribute:meta])* $variant:ident = $number:literal, $word:literal, $meaning:literal; )+
    }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum $name { $( #[doc = $meaning] $(#[$attribute])* $variant, )+ }

        $crate::words::worded! { $name, $what { $( $variant = $number, $word, $meaning; )+ } }
    };
}
pub(crate) use words;

/// The members of a list of words, for a type that a table of its own has defined.
macro_rules! worded {
    ($name:ident, $what:literal { $( $variant:ident = $number:literal, $word:literal, $meaning:literal; )+ }) => {
        impl $name {
            /// Every value, in the order of the table.
            pub const ALL: &'static [$name] = &[$( $name::$variant, )+];

            /// The word for it, as in a job file, in JSON and in CSV.
            #[must_use]
            pub const fn as_str(self) -> &'static str {
                match self { $( $name::$variant => $word, )+ }
            }

            /// The number for it in the C interface.
            #[must_use]
            pub const fn number(self) -> u32 {
                match self { $( $name::$variant => $number, )+ }
            }

            /// What it means, in one sentence.
            #[must_use]
            pub const fn meaning(self) -> &'static str {
                match self { $( $name::$variant => $meaning, )+ }
            }
        }

        impl $crate::words::Word for $name {
            const ALL: &'static [$name] = $name::ALL;
            fn as_str(self) -> &'static str {
                $name::as_str(self)
            }
            fn number(self) -> u32 {
                $name::number(self)
            }
            fn meaning(self) -> &'static str {
                $name::meaning(self)
            }
        }

        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.pad(self.as_str())
            }
        }

        #[cfg(feature = "serde")]
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.as_str())
            }
        }

        #[cfg(feature = "serde")]
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<$name, D::Error> {
                $crate::serial::word(deserializer)
            }
        }

        impl core::str::FromStr for $name {
            type Err = $crate::words::ParseWordError;
            fn from_str(word: &str) -> Result<$name, $crate::words::ParseWordError> {
                let found = $name::ALL.iter().copied().find(|known| known.as_str() == word);
                found.ok_or($crate::words::ParseWordError::new($what, &[$( $word, )+]))
            }
        }
    };
}
pub(crate) use worded;

#[cfg(test)]
mod tests {
    use crate::finding::{Code, Severity};
    use crate::structure::Member;

    use super::Word;

    fn read_back<T: Word>() {
        for word in T::ALL {
            assert_eq!(T::from_number(word.number()), Some(*word), "{}", word.as_str());
        }
        assert_eq!((T::from_number(0), T::from_number(u32::MAX)), (None, None));
    }

    #[test]
    fn a_number_is_that_of_its_word_and_of_no_other() {
        read_back::<Severity>();
        read_back::<Member>();
        read_back::<Code>();
    }
}
