//! Errors as one line each.

use core::fmt;

/// One line of the table of errors. It prints its sentence, as the error itself does, but for figures that only the error has.
///
/// ```
/// use shophead::stack::StackError;
/// let line = StackError::LINES.first().unwrap();
/// assert_eq!((line.number, line.word), (80, "stack-too-many-layers"));
/// assert_eq!(line.to_string(), StackError::TooManyLayers.to_string());
/// ```
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct ErrorLine {
    /// Its number in the C interface; several may share 10, which says no more than that something was refused.
    pub number: u32,
    /// Its word: the end of its name in the header, and what it prints without the feature `words`.
    pub word: &'static str,
    /// What it means, in one sentence.
    pub meaning: &'static str,
    pub(crate) say: fn(&mut fmt::Formatter<'_>) -> fmt::Result,
}

impl fmt::Display for ErrorLine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        (self.say)(f)
    }
}

/// The number of an error that the C interface does not tell apart.
pub(crate) const OTHER: u32 = 10;

/// An enum of errors, from one line an error: variant, number for C (`_` where C does not tell it apart), word, what it means, what it says,
/// and what would be right where that is said apart. Behind a sentence stand, in brackets, the values that it takes beside its fields.
///
/// The errors of one text are told apart by their words only: behind the name of the enum stands the line that C knows all of them by, with what
/// is said to be right where an error does not say it; `""` is for one that does not know.
///
/// Behind a bar stand the errors of something asked on the way, which speak for themselves.
macro_rules! errors {
    ($(#[$doc:meta])* $name:ident $(= $group:tt)? { $($body:tt)* }) => {
        $crate::words::errors! { @of
            #[derive(Eq)]
            #[cfg_attr(feature = "defmt", derive(defmt::Format))]
            $(#[$doc])* $name, ($($group)?) { $($body)* }
        }
    };
    ($(#[$doc:meta])* $name:ident<$life:lifetime> = $group:tt { $($body:tt)* }) => {
        $crate::words::errors! { @of $(#[$doc])* $name<$life>, ($group) { $($body)* } }
    };
    (@of $(#[$doc:meta])* $name:ident $(<$life:lifetime>)?, $group:tt {
        $(
            $variant:ident $({ $($field:ident: $type:ty, $about:literal);+ })? $(($only:ident: $held:ty))? $(= $number:tt)?,
            $word:literal, $meaning:literal, $sentence:literal $(($($value:expr),+))? $(, $right:tt $(($($given:expr),+))?)?;
        )*
        $( | $nested:ident($inner:ty), $why:literal; )*
    }) => {
        #[derive(Clone, Copy, Debug, PartialEq)]
        #[non_exhaustive]
        $(#[$doc])*
        pub enum $name $(<$life>)? {
            $( #[doc = $meaning] $variant $({ $( #[doc = $about] $field: $type ),+ })? $(($held))?, )*
            $( #[doc = $why] $nested($inner), )*
        }

        $crate::words::line! { [$name $(<$life>)?] $group }

        impl $(<$life>)? $name $(<$life>)? {
            /// Its errors, one line each.
            pub const LINES: &'static [$crate::words::ErrorLine] = &[$(
                $crate::words::ErrorLine {
                    number: $crate::words::number!($group $($number)?),
                    word: $word,
                    meaning: $meaning,
                    say: $crate::words::say!(
                        [$($($field)+)? $($only)?] $word, $meaning, [$sentence $(, $($value),+)?], $group [$($right $(, $($given),+)?)?]
                    ),
                },
            )*];

            /// Its number in the C interface.
            #[must_use]
            pub const fn number(&self) -> u32 {
                match self {
                    $( $name::$variant { .. } => $crate::words::number!($group $($number)?), )*
                    $( $name::$nested(error) => $crate::words::nested!($group error), )*
                }
            }

            /// Its word, which never changes.
            #[must_use]
            pub const fn as_str(&self) -> &'static str {
                match self {
                    $( $name::$variant { .. } => $word, )*
                    $( $name::$nested(error) => error.as_str(), )*
                }
            }

            /// What is wrong.
            #[cfg(feature = "words")]
            pub(crate) fn write_what(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                match self {
                    $(
                        #[allow(unused_variables, reason = "a sentence need not say everything")]
                        $name::$variant $({ $($field),+ })? $(($only))? => write!(f, $sentence $(, $($value),+)?),
                    )*
                    $( $name::$nested(error) => core::fmt::Display::fmt(error, f), )*
                }
            }

            /// What would be right, behind a semicolon; nothing where that is not said apart.
            #[cfg(feature = "words")]
            #[allow(unused_variables, reason = "nobody says what is right where the sentence holds it")]
            pub(crate) fn write_right(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                match self {
                    $(
                        $name::$variant $({ $($field),+ })? $(($only))? => {
                            $crate::words::right!(f, $group [$($right $(, $($given),+)?)?])
                        }
                    )*
                    $( $name::$nested(_) => Ok(()), )*
                }
            }
        }

        impl $(<$life>)? core::fmt::Display for $name $(<$life>)? {
            #[cfg(feature = "words")]
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                self.write_what(f)?;
                self.write_right(f)
            }

            #[cfg(not(feature = "words"))]
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str(self.as_str())
            }
        }

        impl $(<$life>)? core::error::Error for $name $(<$life>)? {}

        $(
            impl From<$inner> for $name {
                fn from(error: $inner) -> $name {
                    $name::$nested(error)
                }
            }
        )*
    };
}
pub(crate) use errors;

/// What an error line says; of an error with figures what it means, since only the error has them.
macro_rules! say {
    ([] $word:literal, $meaning:literal, [$($said:tt)+], $group:tt $right:tt) => {
        |f| {
            #[cfg(feature = "words")]
            {
                write!(f, $($said)+)?;
                $crate::words::right!(f, $group $right)
            }
            #[cfg(not(feature = "words"))]
            f.write_str($word)
        }
    };
    ([$($field:ident)+] $word:literal, $meaning:literal, $said:tt, $group:tt $right:tt) => {
        |f| f.write_str($meaning)
    };
}
pub(crate) use say;

/// Number and word of an error that says where it is beside what it is: those of its kind.
macro_rules! of_kind {
    ($name:ty, $kind:ty) => {
        impl $name {
            /// What C knows all of them by.
            pub const LINE: $crate::words::ErrorLine = <$kind>::LINE;

            /// Its number in the C interface.
            #[must_use]
            pub const fn number(&self) -> u32 {
                self.kind.number()
            }

            /// Its word, which never changes.
            #[must_use]
            pub const fn as_str(&self) -> &'static str {
                self.kind.as_str()
            }
        }
    };
}
pub(crate) use of_kind;

/// Writes what would be right.
#[cfg(feature = "words")]
macro_rules! right {
    ($f:ident, $group:tt [""]) => {
        Ok(())
    };
    ($f:ident, $group:tt [$($right:tt)+]) => {{
        $f.write_str("; ")?;
        write!($f, $($right)+)
    }};
    ($f:ident, () []) => {
        Ok(())
    };
    ($f:ident, (($number:literal, $word:literal, $meaning:literal, $what:literal, $right:literal)) []) => {
        $f.write_str(concat!("; ", $right))
    };
}
#[cfg(feature = "words")]
pub(crate) use right;

/// The number of an error line.
macro_rules! number {
    (() _) => {
        $crate::words::OTHER
    };
    (() $number:literal) => {
        $number
    };
    (($group:tt)) => {
        $crate::words::nested!(($group) none)
    };
}
pub(crate) use number;

/// The number of an error that was met on the way.
macro_rules! nested {
    (() $error:ident) => {
        $error.number()
    };
    ((($number:literal, $($rest:tt)+)) none) => {
        $number
    };
    ((($number:literal, $($rest:tt)+)) $error:ident) => {{
        let _ = $error;
        $number
    }};
}
pub(crate) use nested;

/// The line that stands for every error of one text.
macro_rules! line {
    ([$($name:tt)+] ()) => {};
    ([$name:ident] $group:tt) => {
        impl $name {
            $crate::words::line! { $group }
        }
    };
    ([$name:ident<$life:lifetime>] $group:tt) => {
        impl $name<'_> {
            $crate::words::line! { $group }
        }
    };
    ((($number:literal, $word:literal, $meaning:literal, $what:literal, $right:literal))) => {
        /// What C knows all of them by: that the text is not what was asked for, and what would be right.
        pub const LINE: $crate::words::ErrorLine = $crate::words::ErrorLine {
            number: $number,
            word: $word,
            meaning: $meaning,
            say: |f| f.write_str(concat!($what, "; ", $right)),
        };
    };
}
pub(crate) use line;

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use crate::access::ParseMinutesError;
    use crate::drill::{ParseDrillError, ParseHoleError};
    use crate::length::LengthErrorKind;
    use crate::material::ParseMaterialError;
    use crate::practice::{ParseKeyError, ParseValueError};
    use crate::quantity::{ParseForceError, ParseStressError};
    use crate::rivet::part::PartErrorKind;
    use crate::stack::LayerErrorKind;
    use crate::words::ParseWordError;
    use std::string::ToString;

    #[test]
    fn what_is_wrong_with_a_text_has_a_word_and_a_sentence_of_its_own() {
        let of_texts: [&[ErrorLine]; 11] = [
            LengthErrorKind::LINES,
            PartErrorKind::LINES,
            ParseMaterialError::LINES,
            LayerErrorKind::LINES,
            ParseDrillError::LINES,
            ParseHoleError::LINES,
            ParseValueError::LINES,
            ParseKeyError::LINES,
            ParseForceError::LINES,
            ParseStressError::LINES,
            ParseMinutesError::LINES,
        ];
        let texts = [
            LengthErrorKind::LINE,
            PartErrorKind::LINE,
            ParseMaterialError::LINE,
            LayerErrorKind::LINE,
            ParseDrillError::LINE,
            ParseHoleError::LINE,
            ParseValueError::LINE,
            ParseKeyError::LINE,
            ParseForceError::LINE,
            ParseWordError::LINE,
        ];
        let all: std::vec::Vec<&ErrorLine> = of_texts.into_iter().flatten().chain(&texts).collect();
        for (index, line) in all.iter().enumerate() {
            assert!(line.word.bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{}", line.word);
            assert!(line.meaning.ends_with('.') && !line.to_string().is_empty(), "{}", line.word);
            let again = all.iter().skip(index + 1).find(|other| other.word == line.word);
            assert!(again.is_none(), "{} twice", line.word);
        }
        for (index, line) in texts.iter().enumerate() {
            assert!(texts.iter().skip(index + 1).all(|other| other.number != line.number), "{}", line.word);
        }
    }
}
