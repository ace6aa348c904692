//! Rivets of one alloy in place of another.
//!
//! AC 43.13-1B para 4-57b (p 4-16), NAVEDTRA 14018 chapter 13 and NAVEDTRA 14315 chapter 3 table 3-1, in this order. The
//! circular bounds the diameter for which 2117 may stand in; the training manuals name no bound. Both are kept;
//! [`super::compare::substitute`] takes the stricter.

use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;

/// How much larger the substitute must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum SizeUp {
    /// 1/32 in.
    ThirtySecond,
    /// The next larger standard diameter.
    NextSize,
}

/// One published rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct SubstitutionRule {
    /// The alloy that is replaced.
    pub original: RivetAlloy,
    /// The alloy that takes its place.
    pub substitute: RivetAlloy,
    /// The largest original diameter the rule is for; `None` where it names none.
    pub up_to: Option<Length>,
    /// How much larger the substitute must be.
    pub step: SizeUp,
    /// Source of the rule.
    pub basis: Basis,
}

/// The rules.
pub const RULES: &[SubstitutionRule] = &[
    SubstitutionRule {
        original: RivetAlloy::Al2017,
        substitute: RivetAlloy::Al2117,
        up_to: Some(Length::from_64ths(12)),
        step: SizeUp::ThirtySecond,
        basis: Basis::AC43_NOT_WEAKER,
    },
    SubstitutionRule {
        original: RivetAlloy::Al2024,
        substitute: RivetAlloy::Al2117,
        up_to: Some(Length::from_64ths(10)),
        step: SizeUp::ThirtySecond,
        basis: Basis::AC43_NOT_WEAKER,
    },
    SubstitutionRule {
        original: RivetAlloy::Al2024,
        substitute: RivetAlloy::Al2017,
        up_to: None,
        step: SizeUp::NextSize,
        basis: Basis::NAVY_14018_SELECTION,
    },
    SubstitutionRule {
        original: RivetAlloy::Al2017,
        substitute: RivetAlloy::Al2117,
        up_to: None,
        step: SizeUp::NextSize,
        basis: Basis::NAVY_14018_SELECTION,
    },
    SubstitutionRule {
        original: RivetAlloy::Al2024,
        substitute: RivetAlloy::Al2117,
        up_to: None,
        step: SizeUp::NextSize,
        basis: Basis::NAVY_14315_CHAPTER_3,
    },
];
