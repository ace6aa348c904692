//! What a function answers: one list of numbers, and the sentence for each.
//!
//! Most errors are the core's, with its number and its sentence. The border's own are listed here. `tests/header.rs` prints both into the
//! header.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;
use core::fmt;

use shophead::drill::{ParseDrillError, ParseHoleError};
use shophead::hole::AsFoundError;
use shophead::joint::group::GroupError;
use shophead::joint::margin::MarginError;
use shophead::joint::splice::SpliceError;
use shophead::joint::strength::StrengthError;
use shophead::length::ParseLengthError;
use shophead::material::ParseMaterialError;
use shophead::practice::{ParseKeyError, ParseValueError};
use shophead::quantity::ParseForceError;
use shophead::rivet::part::{BuildPartError, ParsePartError, PartLengthError};
use shophead::squeeze::SqueezeError;
use shophead::stack::{ParseStackError, StackError};
use shophead::upset::FitError;
use shophead::words::{ErrorLine, ParseWordError};

use crate::border::{Out, answer};
use crate::text::print;

/// What every function answers that can fail: `SHOPHEAD_OK`, or why it did nothing. The numbers never change their meaning.
/// `shophead_error_message` gives the sentence.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_error(pub u32);

use shophead_error as E;

/// One line an error of the border's own: name, number, what it means, the sentence.
macro_rules! own_errors {
    ($( $name:ident = $number:literal, $meaning:literal, $sentence:literal; )+) => {
        impl shophead_error {
            $(
                #[doc = $meaning]
                pub const $name: shophead_error = shophead_error($number);
            )+
        }

        /// The border's own errors: name in the header, number, what it means, the sentence.
        pub static OWN: &[(&str, u32, &str, &str)] = &[$( (stringify!($name), $number, $meaning, $sentence), )+];
    };
}

own_errors! {
    SHOPHEAD_OK = 0, "Done; every output is written.",
        "done";
    SHOPHEAD_ERROR_NULL = 1, "A pointer is NULL that may not be.",
        "a pointer is NULL that may not be";
    SHOPHEAD_ERROR_MISALIGNED = 2, "A pointer is not aligned for what it points to.",
        "a pointer is not aligned for what it points to";
    SHOPHEAD_ERROR_UNKNOWN_NUMBER = 3, "A number is not one of its enumeration, or there is nothing under it.",
        "a number is not one of its enumeration; the header lists them";
    SHOPHEAD_ERROR_BUFFER_TOO_SMALL = 4, "A buffer or an array of the caller's is too short for the answer.",
        "a buffer is too short for the answer; the header says how long is long enough";
    SHOPHEAD_ERROR_NOT_UTF8 = 5, "A text is not UTF-8.",
        "a text is not UTF-8";
    SHOPHEAD_ERROR_NOT_FINITE = 6, "A floating-point number is NaN or infinite.",
        "a number is NaN or infinite";
    SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE = 7, "A length is more than a kilometre, or `SHOPHEAD_NONE` where it is needed.",
        "a length is missing or more than a kilometre";
    SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER = 8, "The least, the nominal and the greatest length are not in this order.",
        "a least length is more than its nominal or its greatest one";
    SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE = 9, "A count is more than memory can hold, or more than the function takes.",
        "a count is more than the function takes";
    SHOPHEAD_ERROR_OTHER = 10, "Refused for a reason that this list does not have yet.",
        "refused for a reason that this interface has no number for";
    SHOPHEAD_ERROR_NO_SUCH_DRILL = 30, "No drill is so small or so large.",
        "no drill is so small or so large; they go from #80 to 1/2";
    SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED = 31, "No strength of this material in this thickness is published.",
        "no published strength of this material in this thickness";
    SHOPHEAD_ERROR_NO_SPLICE_TABLE = 32, "No published splice table names this material.",
        "no published splice table names this material";
    SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET = 33, "The published splice tables are not for this rivet.",
        "the published splice tables are not for this rivet";
    SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT = 34, "A limit has a value of a kind that it does not take.",
        "this limit takes a value of another kind";
    SHOPHEAD_ERROR_NO_SQUEEZE_TESTS = 35, "No squeeze tests of this rivet alloy are on file.",
        "no squeeze tests of this rivet alloy on file; try one on scrap";
    SHOPHEAD_ERROR_PART_FINISH = 42, "The series does not have this finish for this alloy.",
        "the series does not have this finish for this alloy";
    SHOPHEAD_ERROR_PART_WITHOUT_LENGTH = 49, "A rivet without a length where one with a length is needed.",
        "the rivet needs a length here; right would be MS20470AD4-5";
    SHOPHEAD_ERROR_FIT_NO_HEIGHT = 66, "The height of a driven head is zero or less.",
        "a driven head needs a height above zero";
}

/// The core's errors that come through as they are: those that are told apart here, and those of a text, which have one number.
macro_rules! core_errors {
    ($( $core:ty, )+ | $( $text:ty, )+) => {
        $( come_through!($core); )+
        $( come_through!($text); )+

        /// The lines of the core's errors. In the header a name is `SHOPHEAD_ERROR_` and the word in capitals.
        pub static CORE: &[&[ErrorLine]] = &[$( <$core>::LINES, )+ &[$( <$text>::LINE, )+]];
    };
}

macro_rules! come_through {
    ($core:ty) => {
        impl From<$core> for shophead_error {
            fn from(error: $core) -> shophead_error {
                shophead_error(error.number())
            }
        }
    };
}

core_errors! {
    BuildPartError, PartLengthError, FitError, AsFoundError, StackError, StrengthError, MarginError, SpliceError, GroupError,
    SqueezeError,
    | ParseLengthError, ParseForceError, ParseDrillError, ParseHoleError, ParsePartError<'_>, ParseMaterialError, ParseValueError,
    ParseWordError, ParseStackError, ParseKeyError,
}

impl shophead_error {
    /// The sentence for it; `None` where nothing has this number.
    fn sentence(&self) -> Option<&'static dyn fmt::Display> {
        if let Some((_, _, _, sentence)) = OWN.iter().find(|(_, number, _, _)| *number == self.0) {
            return Some(sentence);
        }
        let mut lines = CORE.iter().copied().flatten();
        lines.find(|line| line.number == self.0).map(|line| line as &dyn fmt::Display)
    }
}

impl fmt::Display for shophead_error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.sentence() {
            Some(sentence) => sentence.fmt(f),
            None => write!(f, "error {}", self.0),
        }
    }
}

/// Writes the sentence for an error: what is wrong, and mostly what would be right. Of a text that could not be read
/// `shophead_explain` tells more.
///
/// Takes: `error`, any number of `enum shophead_error`. Writes: the sentence into `buffer`, which has room for `capacity` bytes,
/// with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_error_message(
    error: u32,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    answer(|| {
        let known = shophead_error(error);
        print(known.sentence().ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?, buffer, capacity, length)
    })
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;
    use std::vec::Vec;

    #[test]
    fn every_error_has_a_number_and_a_sentence_of_its_own() {
        let own = OWN.iter().map(|(_, number, _, sentence)| (*number, sentence.to_string()));
        let all: Vec<_> =
            own.chain(CORE.iter().copied().flatten().map(|line| (line.number, line.to_string()))).collect();
        for (index, (number, sentence)) in all.iter().enumerate() {
            assert!(!sentence.is_empty() && sentence.len() < crate::text::SHOPHEAD_TEXT_MAX);
            assert_eq!(shophead_error(*number).to_string(), *sentence);
            for (other, says) in &all[index + 1..] {
                assert!(number != other, "{number} twice: {sentence} / {says}");
                assert!(sentence != says, "{number} and {other} say the same");
            }
        }
        assert_eq!(shophead_error(9_999).to_string(), "error 9999");
    }

    #[test]
    fn an_error_on_the_way_keeps_its_number() {
        let head = shophead::length::Length::INCH;
        assert_eq!(E::from(PartLengthError::ShorterThanHead { head }).0, 47);
        let factor = MarginError::FactorBelowOne;
        assert_eq!(E::from(StrengthError::from(factor)), E::from(factor));
        assert_eq!(E::from(GroupError::from(factor)), E::from(factor));
        assert_eq!(E::from(factor).0, 112);
    }
}
