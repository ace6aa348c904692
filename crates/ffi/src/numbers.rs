//! Numbers for the core's lists. Every list counts from 1; 0 is none, so that a structure that was only zeroed is refused where a
//! value is needed.
//!
//! A number never changes its meaning and is never used again: `abi/version-N.txt` holds all of them, and a test compares.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::basis::Status;
use shophead::finding::{Code, Severity};
use shophead::hole::{Damage, Direction, Disposition};
use shophead::joint::strength::Mode;
use shophead::practice::Name;
use shophead::select::Difference;
use shophead::stack::{Preparation, Role};
use shophead::structure::Member;
use shophead::upset::{DefectKind, Remedy};
use shophead::words::{ParseWordError, Word};

use crate::basis::shophead_status;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{shophead_code, shophead_severity};
use crate::head::shophead_remedy;
use crate::hole::{shophead_damage, shophead_direction, shophead_disposition, shophead_member};
use crate::joint::shophead_mode;
use crate::part::shophead_alloy;
use crate::practice::shophead_limit_name;
use crate::select::shophead_difference;
use crate::stack::{shophead_preparation, shophead_role};
use crate::text::shophead_text;

/// A list of the core whose values have numbers: those with words in the core, the others here.
pub(crate) trait Numbered: Copy + 'static {
    /// The value with this number.
    fn of_number(number: u32) -> Option<Self>;
}

/// The value under a number that came over the border.
pub(crate) fn value_of<T: Numbered>(number: u32) -> Result<T, E> {
    T::of_number(number).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)
}

/// One line a value: the core's and the header's.
macro_rules! numbered {
    ($core:ident, $header:ident [ $( $variant:ident = $number:ident, )+ ] $( else $other:expr )?) => {
        impl $header {
            /// Every number with its value.
            pub(crate) const PAIRS: &'static [(u32, $core)] = &[$( ($header::$number as u32, $core::$variant), )+];
        }

        impl $crate::numbers::Numbered for $core {
            fn of_number(number: u32) -> Option<$core> {
                $header::PAIRS.iter().find(|(known, _)| *known == number).map(|(_, value)| *value)
            }
        }

        impl From<$core> for $header {
            fn from(value: $core) -> $header {
                match value {
                    $( $core::$variant => $header::$number, )+
                    $( _ => $other, )?
                }
            }
        }
    };
}
pub(crate) use numbered;

/// The core's lists of words, whose numbers are the core's, and their types in the header. `tests/header.rs` prints them into it.
macro_rules! worded {
    ($( $core:ty => $header:ident, )+) => { $(
        impl Numbered for $core {
            fn of_number(number: u32) -> Option<$core> {
                Word::from_number(number)
            }
        }

        impl From<$core> for $header {
            fn from(value: $core) -> $header {
                $header(value.number())
            }
        }
    )+ };
}

worded! {
    Severity => shophead_severity,
    Code => shophead_code,
    Status => shophead_status,
    Name => shophead_limit_name,
    Role => shophead_role,
    Preparation => shophead_preparation,
    Damage => shophead_damage,
    Direction => shophead_direction,
    Member => shophead_member,
    Disposition => shophead_disposition,
    Remedy => shophead_remedy,
    Mode => shophead_mode,
    Difference => shophead_difference,
}

/// The lists whose values have words.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_list {
    /// `enum shophead_severity`.
    SHOPHEAD_LIST_SEVERITY = 1,
    /// `enum shophead_status`.
    SHOPHEAD_LIST_STATUS = 2,
    /// `enum shophead_code`.
    SHOPHEAD_LIST_CODE = 3,
    /// `enum shophead_disposition`.
    SHOPHEAD_LIST_DISPOSITION = 4,
    /// `enum shophead_damage`.
    SHOPHEAD_LIST_DAMAGE = 5,
    /// `enum shophead_remedy`.
    SHOPHEAD_LIST_REMEDY = 6,
    /// `enum shophead_mode`.
    SHOPHEAD_LIST_MODE = 7,
    /// `enum shophead_role`.
    SHOPHEAD_LIST_ROLE = 8,
    /// `enum shophead_preparation`.
    SHOPHEAD_LIST_PREPARATION = 9,
    /// `enum shophead_member`.
    SHOPHEAD_LIST_MEMBER = 10,
    /// `enum shophead_limit_name`.
    SHOPHEAD_LIST_LIMIT_NAME = 11,
    /// `enum shophead_alloy`: the alloy's number or name.
    SHOPHEAD_LIST_ALLOY = 12,
    /// `enum shophead_series`: the name that starts the part number.
    SHOPHEAD_LIST_SERIES = 13,
    /// `enum shophead_built_in`: the name of a built-in practice.
    SHOPHEAD_LIST_BUILT_IN = 14,
    /// `enum shophead_defect_kind`: the word that a driven record has for it.
    SHOPHEAD_LIST_DEFECT = 15,
}

/// The first number and word of a list for which `wanted` is true. `None` within where nothing is, an error for no list.
fn first(list: u32, wanted: impl Fn(u32, &'static str) -> bool) -> Result<Option<(u32, &'static str)>, E> {
    fn among<T: Word>(wanted: impl Fn(u32, &'static str) -> bool) -> Option<(u32, &'static str)> {
        let mut all = T::ALL.iter().map(|value| (value.number(), value.as_str()));
        all.find(|(number, word)| wanted(*number, word))
    }
    const SEVERITY: u32 = shophead_list::SHOPHEAD_LIST_SEVERITY as u32;
    const STATUS: u32 = shophead_list::SHOPHEAD_LIST_STATUS as u32;
    const CODE: u32 = shophead_list::SHOPHEAD_LIST_CODE as u32;
    const DISPOSITION: u32 = shophead_list::SHOPHEAD_LIST_DISPOSITION as u32;
    const DAMAGE: u32 = shophead_list::SHOPHEAD_LIST_DAMAGE as u32;
    const REMEDY: u32 = shophead_list::SHOPHEAD_LIST_REMEDY as u32;
    const MODE: u32 = shophead_list::SHOPHEAD_LIST_MODE as u32;
    const ROLE: u32 = shophead_list::SHOPHEAD_LIST_ROLE as u32;
    const PREPARATION: u32 = shophead_list::SHOPHEAD_LIST_PREPARATION as u32;
    const MEMBER: u32 = shophead_list::SHOPHEAD_LIST_MEMBER as u32;
    const LIMIT_NAME: u32 = shophead_list::SHOPHEAD_LIST_LIMIT_NAME as u32;
    const ALLOY: u32 = shophead_list::SHOPHEAD_LIST_ALLOY as u32;
    const SERIES: u32 = shophead_list::SHOPHEAD_LIST_SERIES as u32;
    const DEFECT: u32 = shophead_list::SHOPHEAD_LIST_DEFECT as u32;
    const BUILT: u32 = shophead_list::SHOPHEAD_LIST_BUILT_IN as u32;
    Ok(match list {
        SEVERITY => among::<Severity>(wanted),
        STATUS => among::<Status>(wanted),
        CODE => among::<Code>(wanted),
        DISPOSITION => among::<Disposition>(wanted),
        DAMAGE => among::<Damage>(wanted),
        REMEDY => among::<Remedy>(wanted),
        MODE => among::<Mode>(wanted),
        ROLE => among::<Role>(wanted),
        PREPARATION => among::<Preparation>(wanted),
        MEMBER => among::<Member>(wanted),
        LIMIT_NAME => among::<Name>(wanted),
        DEFECT => among::<DefectKind>(wanted),
        ALLOY => {
            let mut all = shophead_alloy::PAIRS.iter().map(|(number, alloy)| (*number, alloy.alloy()));
            all.find(|(number, word)| wanted(*number, word))
        }
        SERIES => {
            let mut all = crate::part::SERIES.iter().map(|(number, series)| (*number as u32, series.name));
            all.find(|(number, word)| wanted(*number, word))
        }
        BUILT => {
            let mut all = crate::practice::BUILT.iter().map(|(number, practice)| (*number as u32, practice.name()));
            all.find(|(number, word)| wanted(*number, word))
        }
        _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
    })
}

/// The word for a number: of a finding's code `tail-too-long`, of an alloy `2117`.
///
/// Takes: `list`, one of `enum shophead_list`; `number`, one of that list. Writes: `word`, which is the library's.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_word(list: u32, number: u32, word: Out<shophead_text>) -> shophead_error {
    answer(|| {
        let place = word.place()?;
        let (_, word) = first(list, |known, _| known == number)?.ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        place.put(shophead_text::of(word));
        Ok(())
    })
}

/// The number for a word, the other way round.
///
/// Takes: `list`, one of `enum shophead_list`; `word`, `length` bytes of UTF-8; the caller's, not kept. Writes: `number`.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_WORD`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER` where there is no such list, `SHOPHEAD_ERROR_NOT_UTF8`,
/// `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_number(list: u32, word: In<c_char>, length: usize, number: Out<u32>) -> shophead_error {
    answer(|| {
        let place = number.place()?;
        let wanted = word.text(length)?;
        let (number, _) = first(list, |_, word| word == wanted)?.ok_or(shophead_error(ParseWordError::LINE.number))?;
        place.put(number);
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use shophead::material::RivetAlloy;
    use shophead::practice::BUILT_IN;
    use shophead::rivet::CATALOGUE;

    fn has_all<T: Word>() {
        for (index, value) in T::ALL.iter().enumerate() {
            assert!(value.number() > 0, "{value:?} has the number of none");
            assert!(T::ALL.iter().skip(index + 1).all(|other| other.number() != value.number()), "{value:?} twice");
        }
    }

    #[test]
    fn every_value_of_the_cores_lists_has_a_number_of_its_own() {
        has_all::<Severity>();
        has_all::<Code>();
        has_all::<Status>();
        has_all::<Name>();
        has_all::<Role>();
        has_all::<Preparation>();
        has_all::<Damage>();
        has_all::<Direction>();
        has_all::<Member>();
        has_all::<Disposition>();
        has_all::<Remedy>();
        has_all::<DefectKind>();
        has_all::<Mode>();
        has_all::<Difference>();
        for alloy in RivetAlloy::ALL {
            let numbers = shophead_alloy::PAIRS.iter().filter(|(_, known)| known == alloy).count();
            assert_eq!(numbers, 1, "{alloy:?}");
        }
        assert_eq!(shophead_alloy::PAIRS.len(), RivetAlloy::ALL.len());
    }

    #[test]
    fn every_series_and_every_practice_has_one_number() {
        for series in CATALOGUE {
            let numbers = crate::part::SERIES.iter().filter(|(_, known)| known.name == series.name).count();
            assert_eq!(numbers, 1, "{}", series.name);
        }
        assert_eq!(crate::part::SERIES.len(), CATALOGUE.len());
        for practice in BUILT_IN {
            let numbers = crate::practice::BUILT.iter().filter(|(_, known)| known.name() == practice.name()).count();
            assert_eq!(numbers, 1, "{}", practice.name());
        }
        assert_eq!(crate::practice::BUILT.len(), BUILT_IN.len());
    }

    #[test]
    fn a_part_needs_no_more_than_series_and_alloy_to_know_its_letters() {
        for series in CATALOGUE {
            for material in series.materials {
                assert_eq!(
                    series.material_of(material.alloy).map(|found| found.code),
                    Some(material.code),
                    "{}",
                    series.name
                );
            }
        }
    }
}
