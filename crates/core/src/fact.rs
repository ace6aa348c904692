//! Facts about an installation that a question may need and not be given.

use core::fmt;

crate::words::words! {
    /// One fact.
    #[non_exhaustive]
    Fact, "fact" {
        Layers = 1, "layers", "The layers under the rivet.";
        Material = 2, "material", "What each layer that carries load is made of.";
        Edge = 3, "edge distance", "The distance from the hole to the nearest edge.";
        Pitch = 4, "pitch", "The distance from hole to hole along the row.";
        RowSpacing = 5, "row spacing", "The distance to the next row.";
        MinorAxis = 6, "minor axis", "The shortest axis of the hole: whether it is round.";
    }
}

impl Fact {
    /// The same for a small screen.
    pub(crate) const fn short(self) -> &'static str {
        match self {
            Fact::Edge => "edge",
            Fact::RowSpacing => "rows",
            Fact::MinorAxis => "minor",
            _ => self.as_str(),
        }
    }

    const fn bit(self) -> u8 {
        1 << self as u8
    }
}

/// A set of facts.
///
/// ```
/// use shophead::fact::{Fact, Facts};
/// let missing = Facts::NONE.with(Fact::Pitch).with(Fact::Edge);
/// assert!(missing.has(Fact::Edge) && !missing.has(Fact::Material));
/// assert_eq!(missing.to_string(), "edge distance, pitch");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Facts(u8);

impl Facts {
    /// No fact.
    pub const NONE: Facts = Facts(0);

    /// The same and one more.
    #[must_use]
    pub const fn with(self, fact: Fact) -> Facts {
        Facts(self.0 | fact.bit())
    }

    /// The same and one more, where it counts.
    #[must_use]
    pub const fn with_if(self, counts: bool, fact: Fact) -> Facts {
        if counts { self.with(fact) } else { self }
    }

    /// Those of either set.
    #[must_use]
    pub const fn or(self, other: Facts) -> Facts {
        Facts(self.0 | other.0)
    }

    /// Those of both sets.
    #[must_use]
    pub const fn and(self, other: Facts) -> Facts {
        Facts(self.0 & other.0)
    }

    /// The same less one.
    #[must_use]
    pub const fn without(self, fact: Fact) -> Facts {
        Facts(self.0 & !fact.bit())
    }

    /// Whether a fact is in it.
    #[must_use]
    pub const fn has(self, fact: Fact) -> bool {
        self.0 & fact.bit() != 0
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Each of them, in the order of [`Fact::ALL`].
    pub fn iter(self) -> impl Iterator<Item = Fact> {
        Fact::ALL.iter().copied().filter(move |fact| self.has(*fact))
    }

    /// The set as a number, one bit a fact in the order of [`Fact::ALL`].
    #[must_use]
    pub const fn bits(self) -> u8 {
        self.0
    }

    /// The set of this number; bits that mean no fact are left out.
    #[must_use]
    pub const fn from_bits(bits: u8) -> Facts {
        const KNOWN: u8 = Fact::MinorAxis.bit() | (Fact::MinorAxis.bit() - 1);
        Facts(bits & KNOWN)
    }
}

impl Facts {
    /// Writes them with commas between, each by such a word.
    pub(crate) fn write(self, f: &mut fmt::Formatter<'_>, word: fn(Fact) -> &'static str) -> fmt::Result {
        for (index, fact) in self.iter().enumerate() {
            if index > 0 {
                f.write_str(", ")?;
            }
            f.write_str(word(fact))?;
        }
        Ok(())
    }
}

/// The facts with commas between.
impl fmt::Display for Facts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Fact::as_str)
    }
}

impl fmt::Debug for Facts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Facts({self})")
    }
}
