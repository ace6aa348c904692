//! A hole as it was found, the limits of a hole, and what may become of one.
//!
//! Which of them becomes of a hole is asked of [`crate::installation`].

use crate::length::{Interval, Length};
use crate::practice::{Case, Given, Name, Practice};

crate::words::words! {
    /// What is wrong with a hole besides its size.
    #[derive(Default)]
    #[non_exhaustive]
    Damage, "damage" {
        #[default] None = 1, "sound", "It is sound.";
        Cracked = 2, "cracked", "A crack starts from it.";
        Corroded = 3, "corroded", "Its wall is corroded.";
        FigureEight = 4, "figure-eight", "It was drilled twice, side by side; the major axis goes over both.";
        Gouged = 5, "gouged", "Its wall is scored; the major axis goes over the score.";
        DeepCountersink = 6, "deep-countersink", "Its countersink is too deep or too wide for the head.";
    }
}

crate::words::words! {
    /// Which way a hole is longer than wide.
    Direction, "direction" {
        Along = 1, "along", "Along the nearest edge.";
        Across = 2, "across", "Across it: towards the edge and away from it.";
    }
}

crate::words::errors! {
    /// Why measures are not those of a hole.
    AsFoundError {
        NotPositive = 70, "hole-not-positive", "An axis is zero or less.",
            "a hole needs a diameter above zero; right would be .1285";
        AxesSwapped = 71, "hole-axes-swapped", "The minor axis is longer than the major one.",
            "the minor axis is longer than the major one; enter the longer one as major";
    }
}

/// A hole as it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct AsFound {
    major: Length,
    minor: Length,
    damage: Damage,
}

impl AsFound {
    /// A hole with both axes measured.
    ///
    /// # Errors
    /// [`AsFoundError`] when these are no measures of a hole.
    pub fn new(major: Length, minor: Length, damage: Damage) -> Result<AsFound, AsFoundError> {
        if minor <= Length::ZERO {
            Err(AsFoundError::NotPositive)
        } else if minor > major {
            Err(AsFoundError::AxesSwapped)
        } else {
            Ok(AsFound { major, minor, damage })
        }
    }

    /// The longest axis.
    #[must_use]
    pub const fn major(&self) -> Length {
        self.major
    }

    /// The shortest axis; the same as the major one for a round hole.
    #[must_use]
    pub const fn minor(&self) -> Length {
        self.minor
    }

    /// What else is wrong with it.
    #[must_use]
    pub const fn damage(&self) -> Damage {
        self.damage
    }

    /// From the shortest axis to the longest.
    #[must_use]
    pub const fn interval(&self) -> Interval {
        Interval::of(self.minor, self.major)
    }

    /// How far its centre has moved, at most.
    #[must_use]
    pub const fn shift(&self) -> Length {
        self.major.minus(self.minor).times(1, 2)
    }
}

crate::words::words! {
    /// What becomes of a hole.
    Disposition, "disposition" {
        Keep = 1, "keep", "Keep the hole as it is.";
        CleanUp = 2, "clean-up", "Clean up the hole: drill or ream it for the same rivet.";
        Oversize = 3, "oversize", "Open the hole for an oversize shank.";
        NextSize = 4, "next-size", "Open the hole for the next larger diameter.";
        Refer = 5, "refer", "Stop and refer.";
    }
}

impl Disposition {
    /// Whether the hole takes a larger rivet than before.
    #[must_use]
    pub const fn is_step_up(self) -> bool {
        matches!(self, Disposition::Oversize | Disposition::NextSize)
    }
}

/// The limits of the hole for a rivet, which a hole gauge is made to. `None` where the practice gives no such limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HoleLimits {
    /// The smallest: the end of the gauge that goes in. Where no least hole is given it is the drill's.
    pub least: Option<Given<Length>>,
    /// The largest: the end of the gauge that does not go in is just above it.
    pub greatest: Option<Given<Length>>,
}

impl HoleLimits {
    /// What the practice says for this case.
    ///
    /// ```
    /// use shophead::hole::HoleLimits;
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::Head;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(6));
    /// let limits = HoleLimits::of(&PROCESS, &case);
    /// assert_eq!(limits.least.map(|limit| limit.value), Length::parse(".093").ok());
    /// assert_eq!(limits.greatest.map(|limit| limit.value), Length::parse(".103").ok());
    /// ```
    #[must_use]
    pub fn of(practice: &Practice<'_>, case: &Case) -> HoleLimits {
        let limit = |name| practice.length(name, case);
        HoleLimits {
            least: limit(Name::HoleLeast).or_else(|| limit(Name::HoleDrill)),
            greatest: limit(Name::HoleGreatest),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measures_that_are_no_hole_are_refused() {
        let length = |text| Length::parse(text).expect(text);
        assert_eq!(AsFound::new(length(".1"), length(".2"), Damage::None), Err(AsFoundError::AxesSwapped));
        assert_eq!(AsFound::new(length(".1"), Length::ZERO, Damage::None), Err(AsFoundError::NotPositive));
    }
}
