//! Numbers for the core's lists. Every list counts from 1; 0 is none, so that a structure that was only zeroed is refused where a
//! value is needed.
//!
//! A number never changes its meaning and is never used again: `abi/numbers.txt` holds all of them, and a test compares.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::basis::Status;
use shophead::finding::{Code, Severity};
use shophead::hole::{Damage, Disposition};
use shophead::joint::strength::Mode;
use shophead::material::RivetAlloy;
use shophead::practice::Name;
use shophead::stack::{Preparation, Role};
use shophead::structure::Member;
use shophead::upset::Remedy;

use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::text::shophead_text;

/// A list of the core whose values have numbers here.
pub(crate) trait Numbered: Copy + 'static {
    /// Every number with its value.
    const PAIRS: &'static [(u32, Self)];
}

/// The value under a number that came over the border.
pub(crate) fn value_of<T: Numbered>(number: u32) -> Result<T, E> {
    let pair = T::PAIRS.iter().find(|(known, _)| *known == number);
    pair.map(|(_, value)| *value).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)
}

/// One line a value: the core's and the header's. After `else` stands what a value that the core has since got becomes.
macro_rules! numbered {
    ($core:ident, $header:ident [ $( $variant:ident = $number:ident, )+ ] $( else $other:expr )?) => {
        impl $crate::numbers::Numbered for $core {
            const PAIRS: &'static [(u32, $core)] = &[$( ($header::$number as u32, $core::$variant), )+];
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
    // Only handed in, and of an open list: nothing of the core's has to become a number, and a test sees that none is missing.
    (in $core:ident, $header:ident [ $( $variant:ident = $number:ident, )+ ]) => {
        impl $crate::numbers::Numbered for $core {
            const PAIRS: &'static [(u32, $core)] = &[$( ($header::$number as u32, $core::$variant), )+];
        }
    };
}
pub(crate) use numbered;

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
}

/// The first number and word of a list for which `wanted` is true. `None` within where nothing is, an error for no list.
fn first(list: u32, wanted: impl Fn(u32, &'static str) -> bool) -> Result<Option<(u32, &'static str)>, E> {
    fn among<T: Numbered>(
        word: impl Fn(T) -> &'static str,
        wanted: impl Fn(u32, &'static str) -> bool,
    ) -> Option<(u32, &'static str)> {
        let mut all = T::PAIRS.iter().map(|(number, value)| (*number, word(*value)));
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
    const BUILT: u32 = shophead_list::SHOPHEAD_LIST_BUILT_IN as u32;
    Ok(match list {
        SEVERITY => among(Severity::as_str, wanted),
        STATUS => among(Status::as_str, wanted),
        CODE => among(Code::as_str, wanted),
        DISPOSITION => among(Disposition::as_str, wanted),
        DAMAGE => among(Damage::as_str, wanted),
        REMEDY => among(Remedy::as_str, wanted),
        MODE => among(Mode::as_str, wanted),
        ROLE => among(Role::as_str, wanted),
        PREPARATION => among(Preparation::as_str, wanted),
        MEMBER => among(Member::as_str, wanted),
        LIMIT_NAME => among(Name::as_str, wanted),
        ALLOY => among(RivetAlloy::alloy, wanted),
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
        let (number, _) = first(list, |_, word| word == wanted)?.ok_or(E::SHOPHEAD_ERROR_UNKNOWN_WORD)?;
        place.put(number);
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use shophead::practice::BUILT_IN;
    use shophead::rivet::CATALOGUE;

    fn has_all<T: Numbered + PartialEq + core::fmt::Debug>(all: impl IntoIterator<Item = T>) {
        let mut count = 0;
        for value in all {
            let numbers = T::PAIRS.iter().filter(|(_, known)| *known == value).count();
            assert_eq!(numbers, 1, "{value:?} has {numbers} numbers");
            count += 1;
        }
        assert_eq!(T::PAIRS.len(), count, "a number too many");
        for (index, (number, value)) in T::PAIRS.iter().enumerate() {
            assert!(*number > 0, "{value:?} has the number of none");
            assert!(T::PAIRS.iter().skip(index + 1).all(|(other, _)| other != number), "{number} twice");
        }
    }

    #[test]
    fn every_value_of_the_cores_open_lists_has_one_number() {
        has_all(Code::ALL.iter().copied());
        has_all(RivetAlloy::ALL.iter().copied());
        has_all(Name::ALL.iter().copied());
        has_all(Member::ALL.iter().copied());
        has_all(Damage::ALL.iter().copied());
        has_all(Remedy::ALL.iter().copied());
        has_all(Role::ALL.iter().copied());
        has_all(Preparation::ALL.iter().copied());
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
