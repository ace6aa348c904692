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

/// An enum of errors, from one line an error: variant, number for C (`_` where C does not tell it apart), word, what it means, what it says.
/// Behind a bar stand the errors of something asked on the way, which speak for themselves.
macro_rules! errors {
    ($(#[$doc:meta])* $name:ident {
        $( $variant:ident $({ $field:ident: $type:ty, $about:literal })? = $number:tt, $word:literal, $meaning:literal, $sentence:literal; )*
        $( | $nested:ident($inner:ty), $why:literal; )*
    }) => {
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        $(#[$doc])*
        pub enum $name {
            $( #[doc = $meaning] $variant $({ #[doc = $about] $field: $type })?, )*
            $( #[doc = $why] $nested($inner), )*
        }

        impl $name {
            /// Its errors, one line each.
            pub const LINES: &'static [$crate::words::ErrorLine] = &[$(
                $crate::words::ErrorLine {
                    number: $crate::words::number!($number),
                    word: $word,
                    meaning: $meaning,
                    say: $crate::words::say!($word, $meaning, $sentence $(, $field)?),
                },
            )*];

            /// Its number in the C interface.
            #[must_use]
            pub const fn number(&self) -> u32 {
                match self {
                    $( $name::$variant $({ $field: _ })? => $crate::words::number!($number), )*
                    $( $name::$nested(error) => error.number(), )*
                }
            }

            /// Its word, which never changes.
            #[must_use]
            pub const fn as_str(&self) -> &'static str {
                match self {
                    $( $name::$variant $({ $field: _ })? => $word, )*
                    $( $name::$nested(error) => error.as_str(), )*
                }
            }
        }

        impl core::fmt::Display for $name {
            #[cfg(feature = "words")]
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                match self {
                    $( $name::$variant $({ $field })? => write!(f, $sentence), )*
                    $( $name::$nested(error) => error.fmt(f), )*
                }
            }

            #[cfg(not(feature = "words"))]
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str(self.as_str())
            }
        }

        impl core::error::Error for $name {}

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

/// What an error line says.
macro_rules! say {
    ($word:literal, $meaning:literal, $sentence:literal) => {
        |f| {
            #[cfg(feature = "words")]
            return write!(f, $sentence);
            #[cfg(not(feature = "words"))]
            return f.write_str($word);
        }
    };
    ($word:literal, $meaning:literal, $sentence:literal, $field:ident) => {
        |f| f.write_str($meaning)
    };
}
pub(crate) use say;

/// The number of an error line.
macro_rules! number {
    (_) => {
        $crate::words::OTHER
    };
    ($number:literal) => {
        $number
    };
}
pub(crate) use number;

/// What an error that is written by hand prints without the feature `words`: its word.
macro_rules! wordless {
    ($name:ty, $word:literal) => {
        #[cfg(not(feature = "words"))]
        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str($word)
            }
        }
    };
}
pub(crate) use wordless;
