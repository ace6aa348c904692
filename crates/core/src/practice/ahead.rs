//! Limits looked up ahead.
//!
//! A program that answers many questions meets few cases: the sizes of a few series, in one alloy or two. What a practice says of each is
//! looked up once, and every question after that finds it in its place. Only where an address has 64 bits: a small target has no room for it.

use super::{Case, Given, LengthRounding, Name, Practice, Value};
use crate::basis::Basis;
use crate::length::{Interval, Length};

/// The words of [`Name`].
const NAMES: usize = Name::ALL.len();

/// Places side by side where a case may stand.
const WAYS: usize = 4;

/// What a practice says of one case; made by [`Practice::case_limits`].
#[derive(Clone, Debug, PartialEq)]
pub struct CaseLimits {
    case: Case,
    limits: [Option<Given<Value>>; NAMES],
}

impl CaseLimits {
    /// The case.
    #[must_use]
    pub const fn case(&self) -> &Case {
        &self.case
    }

    /// Puts it into a list for [`Practice::with_cases`], whose length is a power of two; gives it back where its places are taken. A case that
    /// is left out is looked up whenever it is asked for.
    #[must_use]
    pub fn put_into(self, cases: &mut [Option<CaseLimits>]) -> Option<CaseLimits> {
        let first = place(&self.case, cases.len());
        let free = cases.get_mut(first..).and_then(|from| from.iter_mut().take(WAYS).find(|place| place.is_none()));
        match free {
            Some(free) => {
                *free = Some(self);
                None
            }
            None => Some(self),
        }
    }
}

/// The first place of a case. Its largest shank goes with its diameter.
#[inline]
fn place(case: &Case, places: usize) -> usize {
    /// An odd number whose bits look random: that of the golden ratio.
    const MIX: u64 = 0x9e37_79b9_7f4a_7c15;
    let flags = u64::from(case.dimpled) << 1 | u64::from(case.stepped);
    let words = u64::from(case.rows) << 24 | (case.alloy as u64) << 16 | (case.head as u64) << 8 | flags;
    let mixed = (case.diameter.nanometres().cast_unsigned() ^ words << 32).wrapping_mul(MIX) >> 40;
    // Never cut: it has 24 bits.
    mixed as usize & places.saturating_sub(WAYS)
}

impl<'a> Practice<'a> {
    /// What it says of one case, looked up ahead.
    #[must_use]
    pub fn case_limits(&self, case: &Case) -> CaseLimits {
        let mut limits = [None; NAMES];
        for (name, known) in Name::ALL.iter().zip(&mut limits) {
            *known = self.look_up(*name, case);
        }
        CaseLimits { case: *case, limits }
    }

    /// The same practice with the limits of some cases looked up ahead: [`Practice::case_limits`] of this practice, each put into the list by
    /// [`CaseLimits::put_into`]. It says the same as without them, sooner; where an address has less than 64 bits just as soon.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, HANDBOOK, Name};
    /// use shophead::rivet::Head;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
    /// let mut cases = [const { None }; 16];
    /// assert_eq!(HANDBOOK.case_limits(&case).put_into(&mut cases), None);
    /// let ahead = HANDBOOK.with_cases(&cases);
    /// # #[cfg(target_pointer_width = "64")]
    /// assert!(ahead.knows(&case) && !HANDBOOK.knows(&case));
    /// assert_eq!(ahead.length(Name::HoleDrill, &case), HANDBOOK.length(Name::HoleDrill, &case));
    /// ```
    #[must_use]
    pub const fn with_cases<'b>(&self, cases: &'b [Option<CaseLimits>]) -> Practice<'b>
    where
        'a: 'b,
    {
        #[cfg(target_pointer_width = "64")]
        return Practice { cases, ..*self };
        #[cfg(not(target_pointer_width = "64"))]
        {
            let _ = cases;
            *self
        }
    }

    /// The limit that applies, as a length where it comes to one; not looked up ahead.
    fn look_up(&self, name: Name, case: &Case) -> Option<Given<Value>> {
        let limit = self.find(name, case)?;
        Some(Given { value: limit.value.for_case(case), basis: limit.basis })
    }

    /// Whether the limits of a case were looked up ahead.
    #[must_use]
    pub fn knows(&self, case: &Case) -> bool {
        self.known(case).is_some()
    }

    #[cfg(not(target_pointer_width = "64"))]
    #[allow(clippy::unused_self, reason = "a small target keeps no room for them")]
    const fn known(&self, _: &Case) -> Option<&'a CaseLimits> {
        None
    }

    #[cfg(target_pointer_width = "64")]
    #[inline]
    fn known(&self, case: &Case) -> Option<&'a CaseLimits> {
        let mut places = self.cases.get(place(case, self.cases.len())..)?;
        for _ in 0..WAYS {
            let (first, others) = places.split_first()?;
            if let Some(known) = first
                && known.case == *case
            {
                return Some(known);
            }
            places = others;
        }
        None
    }

    /// The limits of one case, which is found once for all of them.
    #[inline]
    pub(crate) fn for_case<'p>(&'p self, case: &'p Case) -> ForCase<'p> {
        ForCase {
            practice: self,
            case,
            #[cfg(target_pointer_width = "64")]
            known: self.known(case),
        }
    }
}

/// What a practice says of one case.
#[derive(Clone, Copy)]
pub(crate) struct ForCase<'p> {
    practice: &'p Practice<'p>,
    case: &'p Case,
    /// Looked up ahead.
    #[cfg(target_pointer_width = "64")]
    known: Option<&'p CaseLimits>,
}

impl ForCase<'_> {
    /// The case.
    pub(crate) const fn case(&self) -> &Case {
        self.case
    }

    /// The limit that applies, as a length where it comes to one.
    #[inline]
    fn given(&self, name: Name) -> Option<Given<Value>> {
        #[cfg(target_pointer_width = "64")]
        if let Some(known) = self.known {
            return *known.limits.get(name as usize)?;
        }
        self.practice.look_up(name, self.case)
    }

    /// A limit as a length.
    #[inline]
    pub(crate) fn length(&self, name: Name) -> Option<Given<Length>> {
        let Given { value, basis } = self.given(name)?;
        match value {
            Value::Length(value) => Some(Given { value, basis }),
            _ => None,
        }
    }

    /// A limit as a fraction, numerator and denominator.
    #[inline]
    pub(crate) fn fraction(&self, name: Name) -> Option<Given<(u32, u32)>> {
        let Given { value, basis } = self.given(name)?;
        match value {
            Value::Fraction { num, den } => Some(Given { value: (num, den), basis }),
            _ => None,
        }
    }

    /// A limit as a whole number.
    pub(crate) fn count(&self, name: Name) -> Option<Given<u32>> {
        let Given { value, basis } = self.given(name)?;
        match value {
            Value::Count(value) => Some(Given { value, basis }),
            _ => None,
        }
    }

    /// [`Practice::rounding`].
    pub(crate) fn rounding(&self) -> Option<Given<LengthRounding>> {
        let Given { value, basis } = self.given(Name::LengthRounding)?;
        match value {
            Value::Rounding(value) => Some(Given { value, basis }),
            _ => None,
        }
    }

    /// [`Practice::hole_for`].
    pub(crate) fn hole(&self) -> Option<Given<Interval>> {
        let drill = self.length(Name::HoleDrill)?;
        let drilled = self.length(Name::HoleDrilledGreatest)?;
        let greatest = self.length(Name::HoleGreatest)?;
        let max = if greatest.value < drilled.value { greatest } else { drilled };
        let interval = Interval::of(drill.value, max.value.max(drill.value));
        Some(Given { value: interval, basis: drill.basis.weaker(max.basis) })
    }

    /// [`Practice::assumed_hole`].
    pub(crate) fn assumed_hole(&self) -> Given<Interval> {
        let as_wide = Interval::exactly(self.case.diameter);
        self.hole().unwrap_or(Given { value: as_wide, basis: Basis::SHANK_FOR_HOLE })
    }

    /// [`Practice::promised_hole`].
    pub(crate) fn promised_hole(&self) -> Option<Given<Interval>> {
        let greatest = self.length(Name::HoleGreatest)?;
        let least = self.length(Name::HoleLeast).or_else(|| self.length(Name::HoleDrill))?;
        let min = self.case.shank_max.map_or(least.value, |shank| shank.max(least.value));
        // A greatest that is less than the shank promises nothing.
        (min <= greatest.value)
            .then(|| Given { value: Interval::of(min, greatest.value), basis: least.basis.weaker(greatest.basis) })
    }
}
