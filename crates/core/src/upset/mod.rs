//! The driven head: how much metal it gets, what size that makes it, and whether a measured one is sound.
//!
//! # The volume balance
//!
//! Metal is neither made nor lost. With shank diameter D, hole diameter H, grip G, rivet length L, a flush head of depth k
//! (nothing for a protruding one) and the driven head idealised as a cylinder of diameter d and height h:
//!
//! ```text
//! d² h = D² (L - k) - H² (G - k)
//! ```
//!
//! It assumes that the shank fills its hole through the whole pack, that no metal goes between the sheets, and that a flush
//! head just fills its countersink. The setting allowances of BS 275:1927, BS 425:1943 and BS 4620:1970 are this balance with
//! H = D, to their third printed decimal.
//!
//! Everything here is done in whole nanometres, volumes in `i128`. A volume is counted as diameter² times height: the π/4 that every
//! term shares is left out.

mod judge;

pub use judge::{
    Defect, HeadJudgement, MeasuredHead, Remedy, check_sample, driven_where_referred, judge, judge_seen,
    nothing_looked_at,
};

use crate::finding::{Code, Finding, Severity};
use crate::length::{Interval, Length, Toleranced, product, quotient, whole_root};
use crate::practice::{Case, Given, Name, Practice};
use crate::rivet::part::Part;
use crate::rivet::{Series, Size};

/// Diameter² times height, in nm³.
type Metal = i128;

/// A cylinder's diameter² times its height.
fn cylinder(diameter: Length, height: Length) -> Metal {
    product(square(diameter), i128::from(height.nanometres()))
}

/// Diameter² of a circle, in nm².
fn square(diameter: Length) -> i128 {
    let diameter = i128::from(diameter.nanometres());
    product(diameter, diameter)
}

/// One shank in one hole through one pack, each at a definite size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Filled {
    shank: Length,
    hole: Length,
    grip: Length,
    /// Depth of a flush manufactured head.
    sunk: Length,
}

impl Filled {
    /// What a rivet of this length leaves for the driven head; negative when it does not even fill the hole.
    fn metal_left(&self, length: Length) -> Metal {
        cylinder(self.shank, length.minus(self.sunk)).wrapping_sub(self.fill())
    }

    /// The diameter of a head of this height.
    #[inline(never)]
    fn head(&self, length: Length, height: Length) -> Length {
        let square = quotient(self.metal_left(length), i128::from(height.nanometres()));
        let root = whole_root(u128::try_from(square).unwrap_or(0));
        i64::try_from(root).ok().and_then(Length::from_nanometres).unwrap_or(Length::MAX)
    }

    /// What the hole takes up.
    fn fill(&self) -> Metal {
        cylinder(self.hole, self.grip.minus(self.sunk))
    }

    /// The shortest length that leaves at least `metal`.
    fn shortest_with(&self, metal: Metal) -> Length {
        self.length_with(metal, true)
    }

    /// The longest length that leaves at most `metal`.
    fn longest_with(&self, metal: Metal) -> Length {
        self.length_with(metal, false)
    }

    #[inline(never)]
    fn length_with(&self, metal: Metal, round_up: bool) -> Length {
        let area = square(self.shank);
        let needed = metal.wrapping_add(self.fill());
        let needed = if round_up { needed.wrapping_add(area.wrapping_sub(1)) } else { needed };
        let nm = quotient(needed, area);
        let length = i64::try_from(nm).ok().and_then(Length::from_nanometres).unwrap_or(Length::MAX);
        length.plus(self.sunk)
    }
}

crate::words::errors! {
    /// Why a rivet, a hole and a pack make no fit.
    FitError {
        NoGrip = 60, "fit-no-grip", "The grip is zero or less.",
            "the grip must be above zero; right would be .064";
        NoHole = 61, "fit-no-hole", "The hole is zero or less.",
            "the hole to fill must be above zero; right would be .1285";
        NoShank = 62, "fit-no-shank", "The shank is zero or less.",
            "the shank must be above zero";
        HeadDeeperThanPack = 63, "fit-head-deeper-than-pack", "The flush head is deeper than the whole pack.",
            "the flush head is deeper than the grip; take a thicker pack or another head";
        ShankNotKnown = 64, "fit-shank-not-known", "The limits of this rivet's shank are not known.",
            "shank limits of this rivet not on file; enter them in a series of your own";
        HeadNotKnown = 65, "fit-head-not-known", "The dimensions of this rivet's head are not known.",
            "head size of this rivet not on file; enter it in a series of your own";
    }
}

impl FitError {
    /// What it means for a rivet that has to be planned all the same.
    #[must_use]
    pub fn finding(self, rivet: &Part<'_>) -> Finding {
        Finding::new(Code::NoLengthFits, Severity::Refer, rivet.series().unknown.fit)
    }
}

/// A rivet in a hole through a pack, with all their tolerances: what the volume balance works on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Fit {
    shank: Toleranced,
    hole: Toleranced,
    grip: Toleranced,
    sunk: Toleranced,
    length_tolerance: Length,
}

impl Fit {
    /// A rivet of this size in such a hole through such a pack.
    ///
    /// # Errors
    /// [`FitError`] for a size of zero or less, or out of order.
    pub fn new(series: &Series<'_>, size: &Size, hole: Toleranced, grip: Toleranced) -> Result<Fit, FitError> {
        let around = |nominal: Length, limits: Option<Interval>, error: FitError| {
            let limits = limits.unwrap_or(Interval::exactly(nominal));
            Toleranced::new(nominal, nominal.minus(limits.min()), limits.max().minus(nominal)).map_err(|_| error)
        };
        let sunk = if series.head.is_flush() {
            let head = size.head.ok_or(FitError::HeadNotKnown)?;
            around(head.height_nominal, head.height, FitError::HeadNotKnown)?
        } else {
            Toleranced::exactly(Length::ZERO)
        };
        let shank = Some(size.shank.ok_or(FitError::ShankNotKnown)?);
        let shank = around(size.shank_nominal, shank, FitError::NoShank)?;
        let length_tolerance = series.length_tolerance.map_or(Length::ZERO, |tolerance| tolerance.either_way);
        Fit { shank, hole, grip, sunk, length_tolerance }.checked()
    }

    fn checked(self) -> Result<Fit, FitError> {
        if self.shank.min() <= Length::ZERO {
            Err(FitError::NoShank)
        } else if self.hole.min() <= Length::ZERO {
            Err(FitError::NoHole)
        } else if self.grip.min() <= Length::ZERO {
            Err(FitError::NoGrip)
        } else if self.sunk.max() > self.grip.min() {
            Err(FitError::HeadDeeperThanPack)
        } else {
            Ok(self)
        }
    }

    /// The shank.
    #[must_use]
    pub const fn shank(&self) -> Toleranced {
        self.shank
    }

    /// The hole.
    #[must_use]
    pub const fn hole(&self) -> Toleranced {
        self.hole
    }

    /// The pack.
    #[must_use]
    pub const fn grip(&self) -> Toleranced {
        self.grip
    }

    /// How much longer or shorter the rivet may be than its part number says.
    #[must_use]
    pub const fn length_tolerance(&self) -> Length {
        self.length_tolerance
    }

    /// Thinnest shank, largest hole, thickest pack, shallowest head: where the driven head gets the least.
    fn least(&self) -> Filled {
        self.corner(self.shank.min(), self.hole.max(), self.grip.max(), self.sunk.min())
    }

    fn nominal(&self) -> Filled {
        self.corner(self.shank.nominal(), self.hole.nominal(), self.grip.nominal(), self.sunk.nominal())
    }

    /// Thickest shank, smallest hole, thinnest pack, deepest head: where the driven head gets the most.
    fn most(&self) -> Filled {
        self.corner(self.shank.max(), self.hole.min(), self.grip.min(), self.sunk.max())
    }

    /// A shank in a hole that is smaller than itself has been pressed in: it takes up its own width.
    fn corner(&self, shank: Length, hole: Length, grip: Length, sunk: Length) -> Filled {
        Filled { shank, hole: hole.max(shank), grip, sunk }
    }

    /// The shortest nominal length whose driven head is at least `diameter` by `height` in the worst case.
    #[must_use]
    pub fn shortest_for(&self, diameter: Length, height: Length) -> Length {
        self.least().shortest_with(cylinder(diameter, height)).plus(self.length_tolerance)
    }

    /// The longest nominal length whose driven head is at most `diameter` by `height` in the worst case.
    #[must_use]
    pub fn longest_for(&self, diameter: Length, height: Length) -> Length {
        self.most().longest_with(cylinder(diameter, height)).minus(self.length_tolerance)
    }

    /// The longest nominal length whose tail stands out no more than `tail` from the thinnest pack.
    #[must_use]
    pub fn longest_for_tail(&self, tail: Length) -> Length {
        self.grip.min().plus(tail).minus(self.length_tolerance)
    }

    /// How far the tail of a rivet of this nominal length stands out before driving.
    #[must_use]
    pub fn protrusion(&self, length: Length) -> Interval {
        Interval::of(
            length.minus(self.length_tolerance).minus(self.grip.max()),
            length.plus(self.length_tolerance).minus(self.grip.min()),
        )
    }

    /// The driven head that a rivet of this nominal length makes when it is driven to the height given.
    ///
    /// A tail that does not even fill the hole makes a head of no diameter.
    ///
    /// ```
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::rivet::MS20470;
    /// use shophead::upset::Fit;
    /// let size = MS20470.size(4).unwrap();
    /// let hole = Toleranced::parse(".1285")?;
    /// let fit = Fit::new(&MS20470, size, hole, Toleranced::parse(".064")?)?;
    /// let head = fit.predict(Length::parse("1/4")?, Length::parse("1/16")?);
    /// assert_eq!(format!("{:.3}", head.diameter.nominal), "0.214");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn predict(&self, length: Length, height: Length) -> PredictedHead {
        PredictedHead {
            diameter: Spread {
                min: self.least().head(length.minus(self.length_tolerance), height),
                nominal: self.nominal().head(length, height),
                max: self.most().head(length.plus(self.length_tolerance), height),
            },
            height,
        }
    }

    /// The part of a tail that goes into filling the hole, at nominal sizes: G ((H/D)² - 1) of the shank's length.
    #[must_use]
    pub fn tail_taken_by_fill(&self) -> Length {
        let nominal = self.nominal();
        nominal.shortest_with(0).minus(nominal.grip)
    }
}

/// Least, nominal and greatest of a computed length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Spread {
    /// With every tolerance at its worst one way.
    pub min: Length,
    /// With everything nominal.
    pub nominal: Length,
    /// With every tolerance at its worst the other way.
    pub max: Length,
}

/// What size a driven head comes out; made by [`Fit::predict`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PredictedHead {
    /// Its diameter.
    pub diameter: Spread,
    /// The height to which it is driven.
    pub height: Length,
}

/// The limits of a driven head. `None` where the practice gives no such limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HeadLimits {
    /// Least diameter.
    pub diameter_least: Option<Given<Length>>,
    /// Diameter to aim at.
    pub diameter_target: Option<Given<Length>>,
    /// Greatest diameter.
    pub diameter_greatest: Option<Given<Length>>,
    /// Least height.
    pub height_least: Option<Given<Length>>,
    /// Height to aim at.
    pub height_target: Option<Given<Length>>,
    /// Greatest height.
    pub height_greatest: Option<Given<Length>>,
    /// Height that, with the greatest diameter, bounds the metal of a tail.
    pub metal_height_greatest: Option<Given<Length>>,
}

impl HeadLimits {
    /// What the practice says for this case.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::Head;
    /// use shophead::upset::HeadLimits;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
    /// let limits = HeadLimits::of(&PROCESS, &case);
    /// assert_eq!(limits.diameter_least.unwrap().value, Length::parse(".163").unwrap());
    /// // The specification has no greatest diameter; that of a training sheet cautions and does not reject.
    /// assert_eq!(limits.diameter_greatest.unwrap().value, Length::parse(".210").unwrap());
    /// ```
    #[must_use]
    pub fn of(practice: &Practice<'_>, case: &Case) -> HeadLimits {
        let limit = |name| practice.length(name, case);
        let height_greatest = limit(Name::HeadHeightGreatest);
        // Half a diameter is more than the specification accepts in some sizes.
        let height_target = limit(Name::HeadHeightTarget);
        let lower =
            height_greatest.filter(|greatest| height_target.is_some_and(|target| target.value > greatest.value));
        HeadLimits {
            diameter_least: limit(Name::HeadDiameterLeast),
            diameter_target: limit(Name::HeadDiameterTarget),
            diameter_greatest: limit(Name::HeadDiameterGreatest),
            height_least: limit(Name::HeadHeightLeast),
            height_target: lower.or(height_target),
            height_greatest,
            metal_height_greatest: limit(Name::MetalHeightGreatest),
        }
    }
}
