//! The formulas by name, and the symbols in them.

use crate::basis::Basis;

/// What stands for a figure in a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Symbol {
    /// Its letters in the formula.
    pub text: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// A formula by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Equation {
    /// The word for scripts; it never changes.
    pub word: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What comes out.
    pub result: Symbol,
    /// The formula, without what comes out.
    pub formula: &'static str,
    /// Where the formula stands; `None` for plain geometry and arithmetic.
    pub basis: Option<Basis>,
}

/// Symbols by name: the constant, the text, the meaning.
macro_rules! symbols {
    ($( $name:ident = $text:literal, $meaning:literal; )+) => {
        $( pub(crate) const $name: $crate::working::Symbol = $crate::working::Symbol { text: $text, meaning: $meaning }; )+
    };
}
pub(crate) use symbols;

/// Formulas by name: the constant, the word, the name, the symbol of the result, the formula, the basis where there is one.
macro_rules! rules {
    ($list:ident: $( $name:ident = $word:literal, $title:literal, $result:ident, $formula:literal $(, $basis:ident)?; )+) => {
        $(
            pub(crate) static $name: $crate::working::Equation = $crate::working::Equation {
                word: $word,
                name: $title,
                result: $result,
                formula: $formula,
                basis: $crate::working::basis!($($basis)?),
            };
        )+

        /// All of them.
        pub(crate) static $list: &[&$crate::working::Equation] = &[$( &$name, )+];
    };
}
pub(crate) use rules;

macro_rules! basis {
    () => {
        None
    };
    ($basis:ident) => {
        Some($crate::basis::Basis::$basis)
    };
}
pub(crate) use basis;

/// Every formula, by what it is for.
pub static EQUATIONS: &[&[&Equation]] = &[
    super::joint::LIST,
    super::shares::LIST,
    super::besides::LIST,
    super::group::LIST,
    super::splice::LIST,
    super::length::LIST,
    super::hole::LIST,
    super::repair::LIST,
    super::strip::LIST,
];
