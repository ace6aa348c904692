//! What a function answers: one list of numbers, and the sentence for each.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;
use core::fmt;

use shophead::hole::AsFoundError;
use shophead::joint::group::GroupError;
use shophead::joint::margin::MarginError;
use shophead::joint::splice::SpliceError;
use shophead::joint::strength::StrengthError;
use shophead::rivet::part::{BuildPartError, PartLengthError};
use shophead::stack::StackError;
use shophead::upset::FitError;

use crate::border::{Out, answer};
use crate::text::print;

/// What every function answers that can fail: `SHOPHEAD_OK`, or why it did nothing. The numbers never change their meaning.
/// `shophead_error_message` gives the sentence.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_error {
    /// Done; every output is written.
    SHOPHEAD_OK = 0,

    /// A pointer is NULL that must not be.
    SHOPHEAD_ERROR_NULL = 1,
    /// A pointer is not aligned for what it points to.
    SHOPHEAD_ERROR_MISALIGNED = 2,
    /// A number is not one of its enumeration, or there is nothing under it.
    SHOPHEAD_ERROR_UNKNOWN_NUMBER = 3,
    /// A buffer or an array of the caller's is too short for the answer.
    SHOPHEAD_ERROR_BUFFER_TOO_SMALL = 4,
    /// A text is not UTF-8.
    SHOPHEAD_ERROR_NOT_UTF8 = 5,
    /// A floating-point number is NaN or infinite.
    SHOPHEAD_ERROR_NOT_FINITE = 6,
    /// A length is more than a kilometre, or `SHOPHEAD_NONE` where it is needed.
    SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE = 7,
    /// The least, the nominal and the greatest length are not in this order.
    SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER = 8,
    /// A count is more than memory can hold, or more than the function takes.
    SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE = 9,
    /// Refused for a reason that this list does not have yet.
    SHOPHEAD_ERROR_OTHER = 10,

    /// A text is not a length.
    SHOPHEAD_ERROR_NOT_A_LENGTH = 20,
    /// A text is not a force.
    SHOPHEAD_ERROR_NOT_A_FORCE = 21,
    /// A text is not a drill.
    SHOPHEAD_ERROR_NOT_A_DRILL = 22,
    /// A text is neither a drill nor the width of a hole.
    SHOPHEAD_ERROR_NOT_A_HOLE = 23,
    /// A text is not a part number.
    SHOPHEAD_ERROR_NOT_A_PART = 24,
    /// A text is not a sheet material.
    SHOPHEAD_ERROR_NOT_A_MATERIAL = 25,
    /// A text is not the value of this limit.
    SHOPHEAD_ERROR_NOT_A_VALUE = 26,
    /// A word is not in the list.
    SHOPHEAD_ERROR_UNKNOWN_WORD = 27,

    /// No drill is so small or so large.
    SHOPHEAD_ERROR_NO_SUCH_DRILL = 30,
    /// No strength of this material in this thickness is published.
    SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED = 31,
    /// No published splice table names this material.
    SHOPHEAD_ERROR_NO_SPLICE_TABLE = 32,
    /// The published splice tables do not hold for this rivet.
    SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET = 33,
    /// A limit has a value of a kind that it does not take.
    SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT = 34,

    /// The series has no such material.
    SHOPHEAD_ERROR_PART_MATERIAL = 40,
    /// The series has no such size.
    SHOPHEAD_ERROR_PART_SIZE = 41,
    /// The series does not have this finish for this alloy.
    SHOPHEAD_ERROR_PART_FINISH = 42,
    /// A rivet's length is nothing or less.
    SHOPHEAD_ERROR_PART_NO_SHANK = 43,
    /// A rivet's length has more than two digits.
    SHOPHEAD_ERROR_PART_TOO_LONG = 44,
    /// A rivet's length lies between the steps of its series.
    SHOPHEAD_ERROR_PART_NOT_IN_STEPS = 45,
    /// The series is not known to have half lengths.
    SHOPHEAD_ERROR_PART_NO_HALF_LENGTHS = 46,
    /// A flush rivet is no longer than its own head.
    SHOPHEAD_ERROR_PART_SHORTER_THAN_HEAD = 47,
    /// The alloy needs a finish letter in this series.
    SHOPHEAD_ERROR_PART_FINISH_NEEDED = 48,
    /// A rivet without a length where one with a length is needed.
    SHOPHEAD_ERROR_PART_WITHOUT_LENGTH = 49,

    /// The pack is no thicker than nothing.
    SHOPHEAD_ERROR_FIT_NO_GRIP = 60,
    /// The hole is no wider than nothing.
    SHOPHEAD_ERROR_FIT_NO_HOLE = 61,
    /// The shank is no wider than nothing.
    SHOPHEAD_ERROR_FIT_NO_SHANK = 62,
    /// The flush head is deeper than the whole pack.
    SHOPHEAD_ERROR_FIT_HEAD_DEEPER_THAN_PACK = 63,
    /// The limits of this rivet's shank are not known.
    SHOPHEAD_ERROR_FIT_SHANK_NOT_KNOWN = 64,
    /// The dimensions of this rivet's head are not known.
    SHOPHEAD_ERROR_FIT_HEAD_NOT_KNOWN = 65,
    /// A driven head has a height.
    SHOPHEAD_ERROR_FIT_NO_HEIGHT = 66,

    /// An axis of a hole is no longer than nothing.
    SHOPHEAD_ERROR_HOLE_NOT_POSITIVE = 70,
    /// The minor axis is longer than the major one.
    SHOPHEAD_ERROR_HOLE_AXES_SWAPPED = 71,

    /// Too many layers under one rivet.
    SHOPHEAD_ERROR_STACK_TOO_MANY_LAYERS = 80,
    /// A layer may be no thicker than nothing.
    SHOPHEAD_ERROR_STACK_NOT_POSITIVE = 81,
    /// The pack is thicker than a kilometre.
    SHOPHEAD_ERROR_STACK_TOO_THICK = 82,

    /// Fewer than two sheets that carry load.
    SHOPHEAD_ERROR_JOINT_TOO_FEW_SHEETS = 90,
    /// Too many sheets under one rivet.
    SHOPHEAD_ERROR_JOINT_TOO_MANY_SHEETS = 91,
    /// Double shear with other than three sheets.
    SHOPHEAD_ERROR_JOINT_DOUBLE_SHEAR_NEEDS_THREE_SHEETS = 92,
    /// The rivet's diameter is nothing or less.
    SHOPHEAD_ERROR_JOINT_DIAMETER_NOT_POSITIVE = 93,
    /// A sheet's thickness is nothing or less.
    SHOPHEAD_ERROR_JOINT_THICKNESS_NOT_POSITIVE = 94,
    /// An edge distance is nothing or less.
    SHOPHEAD_ERROR_JOINT_EDGE_NOT_POSITIVE = 95,
    /// The hole is nothing or less.
    SHOPHEAD_ERROR_JOINT_HOLE_NOT_POSITIVE = 96,
    /// The pitch leaves nothing between the holes.
    SHOPHEAD_ERROR_JOINT_PITCH_INSIDE_HOLE = 97,
    /// A strength is no number above zero.
    SHOPHEAD_ERROR_JOINT_STRESS_NOT_POSITIVE = 98,
    /// A flush head without a countersunk or dimpled sheet.
    SHOPHEAD_ERROR_JOINT_NO_SEAT_FOR_FLUSH_HEAD = 99,
    /// A load comes out too large to be a number.
    SHOPHEAD_ERROR_JOINT_OUT_OF_RANGE = 100,

    /// The load is not above zero.
    SHOPHEAD_ERROR_MARGIN_LOAD_NOT_POSITIVE = 110,
    /// The allowable is negative.
    SHOPHEAD_ERROR_MARGIN_ALLOWABLE_NOT_VALID = 111,
    /// A factor is below 1.
    SHOPHEAD_ERROR_MARGIN_FACTOR_BELOW_ONE = 112,
    /// Load and allowable are too far apart for a margin.
    SHOPHEAD_ERROR_MARGIN_OUT_OF_RANGE = 113,

    /// A thickness, width or pitch is nothing or less.
    SHOPHEAD_ERROR_SPLICE_LENGTH_NOT_POSITIVE = 120,
    /// No nominal hole is known for the rivet.
    SHOPHEAD_ERROR_SPLICE_DIAMETER_NOT_TABULATED = 121,
    /// A strength, a load or a count is not above zero.
    SHOPHEAD_ERROR_SPLICE_NOT_POSITIVE = 122,
    /// No row to put the rivets in.
    SHOPHEAD_ERROR_SPLICE_NO_ROWS = 123,
    /// More rivets than can be counted.
    SHOPHEAD_ERROR_SPLICE_OUT_OF_RANGE = 124,

    /// A group without rivets.
    SHOPHEAD_ERROR_GROUP_NO_RIVETS = 130,
    /// A weight is not above zero.
    SHOPHEAD_ERROR_GROUP_WEIGHT_NOT_POSITIVE = 131,
    /// A load or a moment is no number.
    SHOPHEAD_ERROR_GROUP_LOAD_NOT_FINITE = 132,
    /// A group without any load.
    SHOPHEAD_ERROR_GROUP_NO_LOAD = 133,
    /// A moment on rivets that all stand at one point.
    SHOPHEAD_ERROR_GROUP_NOTHING_RESISTS_MOMENT = 134,
    /// The shares come out too large to be numbers.
    SHOPHEAD_ERROR_GROUP_OUT_OF_RANGE = 135,
}

use shophead_error as E;

/// Which number an error of the core has. Where the core's list is open or nested, the last lines say what the rest becomes.
macro_rules! core_errors {
    ($( $name:ident: $core:ident { $( $variant:ident = $number:ident, )+ $( | $rest:pat => $other:expr, )* } )+) => {
        $(
            impl From<$core> for shophead_error {
                fn from(error: $core) -> shophead_error {
                    match error {
                        $( $core::$variant => E::$number, )+
                        $( $rest => $other, )*
                    }
                }
            }

            #[cfg(test)]
            pub(crate) const $name: &[(shophead_error, $core)] = &[$( (E::$number, $core::$variant), )+];
        )+

        /// The sentence that the core has for it.
        fn in_core(error: shophead_error) -> Option<&'static dyn fmt::Display> {
            match error {
                $( $( E::$number => Some(&$core::$variant), )+ )+
                _ => None,
            }
        }
    };
}

core_errors! {
    BUILD: BuildPartError {
        UnknownMaterial = SHOPHEAD_ERROR_PART_MATERIAL,
        UnknownSize = SHOPHEAD_ERROR_PART_SIZE,
    }
    PART_LENGTH: PartLengthError {
        NoShank = SHOPHEAD_ERROR_PART_NO_SHANK,
        TooLong = SHOPHEAD_ERROR_PART_TOO_LONG,
        NotInSteps = SHOPHEAD_ERROR_PART_NOT_IN_STEPS,
        NoHalfLengths = SHOPHEAD_ERROR_PART_NO_HALF_LENGTHS,
        FinishNeeded = SHOPHEAD_ERROR_PART_FINISH_NEEDED,
        | PartLengthError::ShorterThanHead { .. } => E::SHOPHEAD_ERROR_PART_SHORTER_THAN_HEAD,
        | _ => E::SHOPHEAD_ERROR_OTHER,
    }
    FIT: FitError {
        NoGrip = SHOPHEAD_ERROR_FIT_NO_GRIP,
        NoHole = SHOPHEAD_ERROR_FIT_NO_HOLE,
        NoShank = SHOPHEAD_ERROR_FIT_NO_SHANK,
        HeadDeeperThanPack = SHOPHEAD_ERROR_FIT_HEAD_DEEPER_THAN_PACK,
        ShankNotKnown = SHOPHEAD_ERROR_FIT_SHANK_NOT_KNOWN,
        HeadNotKnown = SHOPHEAD_ERROR_FIT_HEAD_NOT_KNOWN,
    }
    AS_FOUND: AsFoundError {
        NotPositive = SHOPHEAD_ERROR_HOLE_NOT_POSITIVE,
        AxesSwapped = SHOPHEAD_ERROR_HOLE_AXES_SWAPPED,
    }
    STACK: StackError {
        TooManyLayers = SHOPHEAD_ERROR_STACK_TOO_MANY_LAYERS,
        NotPositive = SHOPHEAD_ERROR_STACK_NOT_POSITIVE,
        TooThick = SHOPHEAD_ERROR_STACK_TOO_THICK,
    }
    STRENGTH: StrengthError {
        TooFewSheets = SHOPHEAD_ERROR_JOINT_TOO_FEW_SHEETS,
        TooManySheets = SHOPHEAD_ERROR_JOINT_TOO_MANY_SHEETS,
        DoubleShearNeedsThreeSheets = SHOPHEAD_ERROR_JOINT_DOUBLE_SHEAR_NEEDS_THREE_SHEETS,
        DiameterNotPositive = SHOPHEAD_ERROR_JOINT_DIAMETER_NOT_POSITIVE,
        ThicknessNotPositive = SHOPHEAD_ERROR_JOINT_THICKNESS_NOT_POSITIVE,
        EdgeNotPositive = SHOPHEAD_ERROR_JOINT_EDGE_NOT_POSITIVE,
        HoleNotPositive = SHOPHEAD_ERROR_JOINT_HOLE_NOT_POSITIVE,
        PitchInsideHole = SHOPHEAD_ERROR_JOINT_PITCH_INSIDE_HOLE,
        StressNotPositive = SHOPHEAD_ERROR_JOINT_STRESS_NOT_POSITIVE,
        NoSeatForFlushHead = SHOPHEAD_ERROR_JOINT_NO_SEAT_FOR_FLUSH_HEAD,
        OutOfRange = SHOPHEAD_ERROR_JOINT_OUT_OF_RANGE,
        | StrengthError::Margin(error) => error.into(),
        | _ => E::SHOPHEAD_ERROR_OTHER,
    }
    MARGIN: MarginError {
        LoadNotPositive = SHOPHEAD_ERROR_MARGIN_LOAD_NOT_POSITIVE,
        AllowableNotValid = SHOPHEAD_ERROR_MARGIN_ALLOWABLE_NOT_VALID,
        FactorBelowOne = SHOPHEAD_ERROR_MARGIN_FACTOR_BELOW_ONE,
        OutOfRange = SHOPHEAD_ERROR_MARGIN_OUT_OF_RANGE,
    }
    SPLICE: SpliceError {
        LengthNotPositive = SHOPHEAD_ERROR_SPLICE_LENGTH_NOT_POSITIVE,
        DiameterNotTabulated = SHOPHEAD_ERROR_SPLICE_DIAMETER_NOT_TABULATED,
        NotPositive = SHOPHEAD_ERROR_SPLICE_NOT_POSITIVE,
        NoRows = SHOPHEAD_ERROR_SPLICE_NO_ROWS,
        OutOfRange = SHOPHEAD_ERROR_SPLICE_OUT_OF_RANGE,
        | _ => E::SHOPHEAD_ERROR_OTHER,
    }
    GROUP: GroupError {
        NoRivets = SHOPHEAD_ERROR_GROUP_NO_RIVETS,
        WeightNotPositive = SHOPHEAD_ERROR_GROUP_WEIGHT_NOT_POSITIVE,
        LoadNotFinite = SHOPHEAD_ERROR_GROUP_LOAD_NOT_FINITE,
        NoLoad = SHOPHEAD_ERROR_GROUP_NO_LOAD,
        NothingResistsMoment = SHOPHEAD_ERROR_GROUP_NOTHING_RESISTS_MOMENT,
        OutOfRange = SHOPHEAD_ERROR_GROUP_OUT_OF_RANGE,
        | GroupError::Margin(error) => error.into(),
        | _ => E::SHOPHEAD_ERROR_OTHER,
    }
}

/// The sentence for those of the border itself, which the core does not know.
const fn of_border(error: shophead_error) -> &'static str {
    match error {
        E::SHOPHEAD_OK => "done",
        E::SHOPHEAD_ERROR_NULL => "a pointer is NULL that must not be",
        E::SHOPHEAD_ERROR_MISALIGNED => "a pointer is not aligned for what it points to",
        E::SHOPHEAD_ERROR_UNKNOWN_NUMBER => "a number is not one of its enumeration; the header lists them",
        E::SHOPHEAD_ERROR_BUFFER_TOO_SMALL => {
            "a buffer is too short for the answer; the header says what always suffices"
        }
        E::SHOPHEAD_ERROR_NOT_UTF8 => "a text is not UTF-8",
        E::SHOPHEAD_ERROR_NOT_FINITE => "a number is NaN or infinite",
        E::SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE => "a length is missing or more than a kilometre",
        E::SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER => "a least length is more than its nominal or its greatest one",
        E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE => "a count is more than the function takes",
        E::SHOPHEAD_ERROR_NOT_A_LENGTH => "this is not a length; right would be .125, 1/8, 1-1/2 or 3.2mm",
        E::SHOPHEAD_ERROR_NOT_A_FORCE => "this is not a force; right would be 250, 250lbf or 1100N",
        E::SHOPHEAD_ERROR_NOT_A_DRILL => "this is not a drill; right would be #30, F or 11/64",
        E::SHOPHEAD_ERROR_NOT_A_HOLE => "this is not a hole; right would be #30, F or .1285",
        E::SHOPHEAD_ERROR_NOT_A_PART => "this is not a part number; right would be MS20470AD4-5",
        E::SHOPHEAD_ERROR_NOT_A_MATERIAL => "this is not a sheet material; right would be 2024-T3 or clad 2024-T3",
        E::SHOPHEAD_ERROR_NOT_A_VALUE => "this is not the value of such a limit; right would be .163, 1.5 D, 2/3 or 10",
        E::SHOPHEAD_ERROR_UNKNOWN_WORD => "this word is not in the list",
        E::SHOPHEAD_ERROR_NO_SUCH_DRILL => "no drill is so small or so large; they go from #80 to 1/2",
        E::SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED => "no strength of this material in this thickness is published",
        E::SHOPHEAD_ERROR_NO_SPLICE_TABLE => "no published splice table names this material",
        E::SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET => "the published splice tables do not hold for this rivet",
        E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT => "this limit takes a value of another kind",
        E::SHOPHEAD_ERROR_PART_FINISH => "the series does not have this finish for this alloy",
        E::SHOPHEAD_ERROR_PART_SHORTER_THAN_HEAD => "a flush rivet's length counts its head; take a longer one",
        E::SHOPHEAD_ERROR_PART_WITHOUT_LENGTH => "the rivet needs a length here; right would be MS20470AD4-5",
        E::SHOPHEAD_ERROR_FIT_NO_HEIGHT => "a driven head is higher than nothing",
        _ => "refused for a reason that this interface does not name",
    }
}

impl fmt::Display for shophead_error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match in_core(*self) {
            Some(sentence) => sentence.fmt(f),
            None => f.write_str(of_border(*self)),
        }
    }
}

impl shophead_error {
    /// Every number, in rising order.
    pub const ALL: &'static [shophead_error] = &[
        E::SHOPHEAD_OK,
        E::SHOPHEAD_ERROR_NULL,
        E::SHOPHEAD_ERROR_MISALIGNED,
        E::SHOPHEAD_ERROR_UNKNOWN_NUMBER,
        E::SHOPHEAD_ERROR_BUFFER_TOO_SMALL,
        E::SHOPHEAD_ERROR_NOT_UTF8,
        E::SHOPHEAD_ERROR_NOT_FINITE,
        E::SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE,
        E::SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER,
        E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE,
        E::SHOPHEAD_ERROR_OTHER,
        E::SHOPHEAD_ERROR_NOT_A_LENGTH,
        E::SHOPHEAD_ERROR_NOT_A_FORCE,
        E::SHOPHEAD_ERROR_NOT_A_DRILL,
        E::SHOPHEAD_ERROR_NOT_A_HOLE,
        E::SHOPHEAD_ERROR_NOT_A_PART,
        E::SHOPHEAD_ERROR_NOT_A_MATERIAL,
        E::SHOPHEAD_ERROR_NOT_A_VALUE,
        E::SHOPHEAD_ERROR_UNKNOWN_WORD,
        E::SHOPHEAD_ERROR_NO_SUCH_DRILL,
        E::SHOPHEAD_ERROR_STRENGTH_NOT_PUBLISHED,
        E::SHOPHEAD_ERROR_NO_SPLICE_TABLE,
        E::SHOPHEAD_ERROR_TABLE_NOT_FOR_RIVET,
        E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT,
        E::SHOPHEAD_ERROR_PART_MATERIAL,
        E::SHOPHEAD_ERROR_PART_SIZE,
        E::SHOPHEAD_ERROR_PART_FINISH,
        E::SHOPHEAD_ERROR_PART_NO_SHANK,
        E::SHOPHEAD_ERROR_PART_TOO_LONG,
        E::SHOPHEAD_ERROR_PART_NOT_IN_STEPS,
        E::SHOPHEAD_ERROR_PART_NO_HALF_LENGTHS,
        E::SHOPHEAD_ERROR_PART_SHORTER_THAN_HEAD,
        E::SHOPHEAD_ERROR_PART_FINISH_NEEDED,
        E::SHOPHEAD_ERROR_PART_WITHOUT_LENGTH,
        E::SHOPHEAD_ERROR_FIT_NO_GRIP,
        E::SHOPHEAD_ERROR_FIT_NO_HOLE,
        E::SHOPHEAD_ERROR_FIT_NO_SHANK,
        E::SHOPHEAD_ERROR_FIT_HEAD_DEEPER_THAN_PACK,
        E::SHOPHEAD_ERROR_FIT_SHANK_NOT_KNOWN,
        E::SHOPHEAD_ERROR_FIT_HEAD_NOT_KNOWN,
        E::SHOPHEAD_ERROR_FIT_NO_HEIGHT,
        E::SHOPHEAD_ERROR_HOLE_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_HOLE_AXES_SWAPPED,
        E::SHOPHEAD_ERROR_STACK_TOO_MANY_LAYERS,
        E::SHOPHEAD_ERROR_STACK_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_STACK_TOO_THICK,
        E::SHOPHEAD_ERROR_JOINT_TOO_FEW_SHEETS,
        E::SHOPHEAD_ERROR_JOINT_TOO_MANY_SHEETS,
        E::SHOPHEAD_ERROR_JOINT_DOUBLE_SHEAR_NEEDS_THREE_SHEETS,
        E::SHOPHEAD_ERROR_JOINT_DIAMETER_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_JOINT_THICKNESS_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_JOINT_EDGE_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_JOINT_HOLE_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_JOINT_PITCH_INSIDE_HOLE,
        E::SHOPHEAD_ERROR_JOINT_STRESS_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_JOINT_NO_SEAT_FOR_FLUSH_HEAD,
        E::SHOPHEAD_ERROR_JOINT_OUT_OF_RANGE,
        E::SHOPHEAD_ERROR_MARGIN_LOAD_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_MARGIN_ALLOWABLE_NOT_VALID,
        E::SHOPHEAD_ERROR_MARGIN_FACTOR_BELOW_ONE,
        E::SHOPHEAD_ERROR_MARGIN_OUT_OF_RANGE,
        E::SHOPHEAD_ERROR_SPLICE_LENGTH_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_SPLICE_DIAMETER_NOT_TABULATED,
        E::SHOPHEAD_ERROR_SPLICE_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_SPLICE_NO_ROWS,
        E::SHOPHEAD_ERROR_SPLICE_OUT_OF_RANGE,
        E::SHOPHEAD_ERROR_GROUP_NO_RIVETS,
        E::SHOPHEAD_ERROR_GROUP_WEIGHT_NOT_POSITIVE,
        E::SHOPHEAD_ERROR_GROUP_LOAD_NOT_FINITE,
        E::SHOPHEAD_ERROR_GROUP_NO_LOAD,
        E::SHOPHEAD_ERROR_GROUP_NOTHING_RESISTS_MOMENT,
        E::SHOPHEAD_ERROR_GROUP_OUT_OF_RANGE,
    ];
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
        let known = shophead_error::ALL.iter().find(|known| **known as u32 == error);
        print(known.ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?, buffer, capacity, length)
    })
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;

    #[test]
    fn every_error_has_a_number_and_a_sentence_of_its_own() {
        for (index, error) in E::ALL.iter().enumerate() {
            let sentence = error.to_string();
            assert!(!sentence.is_empty() && sentence.len() < crate::text::SHOPHEAD_TEXT_MAX);
            for other in &E::ALL[index + 1..] {
                assert!((*error as u32) < *other as u32, "{error:?} and {other:?} are out of order");
                assert!(sentence != other.to_string(), "{error:?} and {other:?} say the same");
            }
        }
        assert!(E::ALL.iter().filter(|error| error.to_string() == of_border(E::SHOPHEAD_ERROR_OTHER)).count() == 1);
    }

    /// The sentence is the core's, for each error under its own number.
    #[test]
    fn errors_of_the_core_keep_its_words() {
        fn check<T: fmt::Display + Copy + Into<E>>(pairs: &[(E, T)]) {
            for (number, error) in pairs {
                assert_eq!((*error).into(), *number);
                assert_eq!(number.to_string(), error.to_string());
            }
        }
        check(BUILD);
        check(PART_LENGTH);
        check(FIT);
        check(AS_FOUND);
        check(STACK);
        check(STRENGTH);
        check(MARGIN);
        check(SPLICE);
        check(GROUP);
        let head = shophead::length::Length::INCH;
        assert_eq!(E::from(PartLengthError::ShorterThanHead { head }), E::SHOPHEAD_ERROR_PART_SHORTER_THAN_HEAD);
        assert_eq!(
            E::from(StrengthError::from(MarginError::FactorBelowOne)),
            E::SHOPHEAD_ERROR_MARGIN_FACTOR_BELOW_ONE
        );
        assert_eq!(E::from(GroupError::from(MarginError::OutOfRange)), E::SHOPHEAD_ERROR_MARGIN_OUT_OF_RANGE);
    }
}
