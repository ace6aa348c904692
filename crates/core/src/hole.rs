//! A hole as it was found, the limits of a hole, and what may become of one.
//!
//! Which of them becomes of a hole is asked of [`crate::installation`].

use crate::length::{Interval, Length};
use crate::practice::{Case, ForCase, Given, Name, Practice};

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
///
/// ```
/// use shophead::hole::{AsFound, Damage, Direction};
/// use shophead::length::Length;
/// let (long, short) = (Length::parse(".171")?, Length::parse(".161")?);
/// let worn = AsFound::new(long, short, Damage::None)?.lying(Some(Direction::Along));
/// // Drilled round again it has moved along the edge, not towards it.
/// assert_eq!((worn.shift(), worn.shift_to_edge()), (Length::parse(".005")?, Length::ZERO));
/// let one_axis = AsFound::one_axis(long, Damage::None)?;
/// assert!(!one_axis.is_measured_both_ways() && one_axis.minor() == long);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct AsFound {
    major: Length,
    /// `None` where only one axis was measured.
    minor: Option<Length>,
    damage: Damage,
    direction: Option<Direction>,
    was_opened: bool,
    gauged: bool,
}

impl AsFound {
    /// A hole with both axes measured. One that was gauged will do: its no-go gauge as the major axis, its go gauge as the minor one.
    ///
    /// # Errors
    /// [`AsFoundError`] when these are no measures of a hole.
    pub fn new(major: Length, minor: Length, damage: Damage) -> Result<AsFound, AsFoundError> {
        if minor <= Length::ZERO {
            Err(AsFoundError::NotPositive)
        } else if minor > major {
            Err(AsFoundError::AxesSwapped)
        } else {
            Ok(AsFound { major, minor: Some(minor), damage, direction: None, was_opened: false, gauged: false })
        }
    }

    /// A hole that was measured one way only. It is taken for round; where it would be used as it is for a larger rivet, an answer says that
    /// the other axis is missing.
    ///
    /// # Errors
    /// [`AsFoundError`] when this is no measure of a hole.
    pub fn one_axis(major: Length, damage: Damage) -> Result<AsFound, AsFoundError> {
        AsFound::new(major, major, damage).map(|found| AsFound { minor: None, ..found })
    }

    /// Both axes, or the one that was measured.
    ///
    /// # Errors
    /// As [`AsFound::new`].
    pub fn of(major: Length, minor: Option<Length>, damage: Damage) -> Result<AsFound, AsFoundError> {
        match minor {
            Some(minor) => AsFound::new(major, minor, damage),
            None => AsFound::one_axis(major, damage),
        }
    }

    /// The same with its longest axis that way; `None` where nobody said it.
    #[must_use]
    pub const fn lying(self, direction: Option<Direction>) -> AsFound {
        AsFound { direction, ..self }
    }

    /// The same, opened before it was measured or not: one that was is no longer as the maker built it.
    #[must_use]
    pub const fn opened(self, was_opened: bool) -> AsFound {
        AsFound { was_opened, ..self }
    }

    /// A sound hole that was tried and not measured: the go gauge went in, the no-go gauge did not, and it looked round. It lies somewhere
    /// between the two. `None` where these are no such pair.
    ///
    /// A plug does not show a hole that is out of round: it is stopped by the shortest axis. Whoever tries a hole looks at it, too.
    ///
    /// ```
    /// use shophead::hole::AsFound;
    /// use shophead::length::Length;
    /// let (go, no_go) = (Length::parse(".1285")?, Length::parse(".133")?);
    /// let hole = AsFound::gauged(go, no_go).unwrap();
    /// assert_eq!((hole.minor(), hole.major(), hole.shift()), (go, no_go, Length::ZERO));
    /// assert_eq!(AsFound::gauged(no_go, go), None);
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    #[must_use]
    pub fn gauged(go: Length, no_go: Length) -> Option<AsFound> {
        let is_pair = Length::ZERO < go && go < no_go;
        is_pair.then_some(AsFound {
            major: no_go,
            minor: Some(go),
            damage: Damage::None,
            direction: None,
            was_opened: false,
            gauged: true,
        })
    }

    /// Whether it was tried with gauges and not measured.
    #[must_use]
    pub const fn is_gauged(&self) -> bool {
        self.gauged
    }

    /// The longest axis; the no-go gauge where it was tried only.
    #[must_use]
    pub const fn major(&self) -> Length {
        self.major
    }

    /// The shortest axis; the same as the major one for a round hole, and for one that was measured one way only; the go gauge where it was tried
    /// only.
    #[must_use]
    pub const fn minor(&self) -> Length {
        match self.minor {
            Some(minor) => minor,
            None => self.major,
        }
    }

    /// Whether both axes were measured.
    #[must_use]
    pub const fn is_measured_both_ways(&self) -> bool {
        self.minor.is_some()
    }

    /// What else is wrong with it.
    #[must_use]
    pub const fn damage(&self) -> Damage {
        self.damage
    }

    /// Which way its longest axis lies, where that is known.
    #[must_use]
    pub const fn direction(&self) -> Option<Direction> {
        self.direction
    }

    /// Whether it was opened before it was measured.
    #[must_use]
    pub const fn was_opened(&self) -> bool {
        self.was_opened
    }

    /// Whether another hole was measured the same: axes and damage.
    #[must_use]
    pub fn measures_as(&self, other: &AsFound) -> bool {
        (self.major, self.minor(), self.damage, self.gauged) == (other.major, other.minor(), other.damage, other.gauged)
    }

    /// From the shortest axis to the longest.
    #[must_use]
    pub const fn interval(&self) -> Interval {
        Interval::of(self.minor(), self.major)
    }

    /// How far its centre moves, at most, when it is drilled round again.
    #[must_use]
    pub const fn shift(&self) -> Length {
        if self.gauged {
            return Length::ZERO;
        }
        self.major.minus(self.minor()).times(1, 2)
    }

    /// How much of that may be towards the edge: all of it where nobody said which way the hole is long.
    #[must_use]
    pub const fn shift_to_edge(&self) -> Length {
        match self.direction {
            Some(Direction::Along) => Length::ZERO,
            Some(Direction::Across) | None => self.shift(),
        }
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
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
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
        HoleLimits::of_case(&practice.for_case(case))
    }

    /// The same, where the case is at hand.
    pub(crate) fn of_case(limits: &ForCase<'_>) -> HoleLimits {
        HoleLimits {
            least: limits.length(Name::HoleLeast).or_else(|| limits.length(Name::HoleDrill)),
            greatest: limits.length(Name::HoleGreatest),
        }
    }

    /// A hole that gauges made to these limits found good; `None` where a limit is missing.
    ///
    /// ```
    /// use shophead::hole::HoleLimits;
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::Head;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(6));
    /// let good = HoleLimits::of(&PROCESS, &case).good().unwrap();
    /// assert_eq!(good.major(), Length::parse(".103")?);
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    #[must_use]
    pub fn good(&self) -> Option<AsFound> {
        AsFound::gauged(self.least?.value, self.greatest?.value)
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
        assert_eq!(AsFound::one_axis(Length::ZERO, Damage::None), Err(AsFoundError::NotPositive));
    }
}
