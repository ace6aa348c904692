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
//! Where every layer is dimpled the hole below the head is straight through the whole thickness of metal, and the far side bulges by the
//! depth of the head. That geometry is computed here and is in no document at hand:
//!
//! ```text
//! d² h = D² (L - k) - H² G
//! ```
//!
//! A dimple that nests in a countersink leaves the far side flat: below the head the hole is as long as in a countersunk stack.
//!
//! It assumes that the shank fills its hole through the whole stack, that no metal goes between the sheets, and that a flush
//! head just fills its countersink or dimple. A hole that is tapered, and a squeezed rivet that fills its hole unevenly, are not modelled.
//! The setting allowances of BS 275:1927, BS 425:1943 and BS 4620:1970 are this balance with H = D, to their third printed decimal.
//!
//! # The driving window
//!
//! Driven lower, a head gets wider. Every rivet of one part number and hole makes a head that is wide enough, down from the height at which the
//! one with the least metal is just as wide as the least allowed. That height, or the greatest allowed where it is less, is the upper end of
//! the [`Window`]; the least height allowed is the lower end. A head that is left anywhere between is accepted. A greatest diameter that rejects,
//! which only a shop's own documents give, raises the lower end to where the rivet with the most metal is no wider.
//!
//! Everything here is done in whole nanometres, volumes in `i128`. A volume is counted as diameter² times height: the π/4 that every
//! term shares is left out.

mod judge;

pub use judge::{
    Defect, DefectKind, HeadJudgement, MeasuredHead, Remedy, check_sample, driven_where_referred, judge, judge_seen,
    nothing_looked_at,
};

use core::fmt;

use crate::basis::Status;
use crate::finding::{Code, Finding, Severity};
use crate::length::{Interval, Length, Toleranced, product, quotient, whole_root};
use crate::practice::{Case, ForCase, Given, Name, Practice};
use crate::rivet::part::Part;
use crate::rivet::{Series, Size};
use crate::setters::setters;
use crate::words::{Toward, Units};

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

/// One shank in one hole through one stack, each at a definite size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Filled {
    pub(crate) shank: Length,
    pub(crate) hole: Length,
    /// How much of the hole is straight: all of it that the head leaves.
    pub(crate) straight: Length,
    /// Depth of a flush manufactured head.
    pub(crate) sunk: Length,
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
        length_of_root(whole_root(u128::try_from(square).unwrap_or(0)))
    }

    /// What the hole takes up.
    fn fill(&self) -> Metal {
        cylinder(self.hole, self.straight)
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
        length_of(nm).plus(self.sunk)
    }

    /// The widest hole that leaves at least `metal` of a rivet of this length; a hole narrower than the shank counts as wide as it. `None` where
    /// no hole does.
    #[inline(never)]
    fn widest_hole(&self, length: Length, metal: Metal) -> Option<Length> {
        let room = cylinder(self.shank, length.minus(self.sunk)).wrapping_sub(metal);
        let straight = i128::from(self.straight.nanometres());
        if straight <= 0 {
            return (room >= 0).then_some(Length::MAX);
        }
        let square = u128::try_from(quotient(room, straight)).ok()?;
        Some(length_of_root(whole_root(square))).filter(|hole| *hole >= self.shank)
    }

    /// The narrowest hole that leaves at most `metal` of a rivet of this length; zero where any hole does.
    #[inline(never)]
    fn narrowest_hole(&self, length: Length, metal: Metal) -> Length {
        let room = cylinder(self.shank, length.minus(self.sunk)).wrapping_sub(metal);
        let hole = root_up(quotient_up(room, i128::from(self.straight.nanometres())));
        if hole <= self.shank { Length::ZERO } else { hole }
    }

    /// The thinnest shank that leaves at least `metal` of a rivet of this length in this hole.
    #[inline(never)]
    fn thinnest_shank(&self, length: Length, metal: Metal) -> Option<Length> {
        let below_head = i128::from(length.minus(self.sunk).nanometres());
        let tail = below_head.wrapping_sub(i128::from(self.straight.nanometres()));
        if tail <= 0 {
            return None;
        }
        let shank = root_up(quotient_up(metal.wrapping_add(self.fill()), below_head));
        // A shank thicker than the hole takes up its own width.
        Some(if shank <= self.hole { shank } else { root_up(quotient_up(metal, tail)) })
    }
}

/// A quotient of positive numbers, rounded up; zero where it is not positive.
fn quotient_up(dividend: i128, divisor: i128) -> u128 {
    if dividend <= 0 {
        return 0;
    }
    u128::try_from(quotient(dividend.wrapping_add(divisor.wrapping_sub(1)), divisor)).unwrap_or(0)
}

/// The least whole length whose square is not less.
fn root_up(square: u128) -> Length {
    match square.checked_sub(1) {
        Some(less) => length_of_root(whole_root(less).wrapping_add(1)),
        None => Length::ZERO,
    }
}

fn length_of(nm: i128) -> Length {
    i64::try_from(nm).ok().and_then(Length::from_nanometres).unwrap_or(Length::MAX)
}

fn length_of_up(nm: u128) -> Length {
    i128::try_from(nm).map_or(Length::MAX, length_of)
}

fn length_of_root(root: u128) -> Length {
    i64::try_from(root).ok().and_then(Length::from_nanometres).unwrap_or(Length::MAX)
}

crate::words::errors! {
    /// Why a rivet, a hole and a stack make no fit.
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
            "shank limits of this rivet not on file; enter them in the limits file";
        HeadNotKnown = 65, "fit-head-not-known", "The dimensions of this rivet's head are not known.",
            "head size of this rivet not on file; enter it in the limits file";
    }
}

impl FitError {
    /// What it means for a rivet that has to be planned all the same.
    #[must_use]
    pub fn finding(self, rivet: &Part<'_>) -> Finding {
        Finding::new(Code::NoLengthFits, Severity::Refer, rivet.series().unknown.fit)
    }
}

/// A rivet in a hole through a stack, with all their tolerances: what the volume balance works on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Fit {
    shank: Toleranced,
    hole: Toleranced,
    grip: Toleranced,
    sunk: Toleranced,
    length_tolerance: Length,
    /// Whether every layer is dimpled for the head.
    dimpled: bool,
}

impl Fit {
    /// A rivet of this size in such a hole through such a stack.
    ///
    /// # Errors
    /// [`FitError`] for a size of zero or less, or out of order.
    pub fn new(series: &Series<'_>, size: &Size, hole: Toleranced, grip: Toleranced) -> Result<Fit, FitError> {
        Fit::of(series, size, hole, grip, false)
    }

    /// The same through layers that are all dimpled for its head. A head that is not flush has no dimple.
    ///
    /// ```
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::rivet::MS20426;
    /// use shophead::upset::Fit;
    /// // Two sheets of .032: below a head .036 deep the hole is still .064 long, and the tail stands out that much less.
    /// let (hole, stack) = (Toleranced::parse(".098")?, Toleranced::parse(".064")?);
    /// let size = MS20426.size(3).unwrap();
    /// let head = |fit: Fit| format!("{:.3}", fit.predict(Length::parse("3/16").unwrap(), Length::parse("3/64").unwrap()).diameter.nominal);
    /// assert_eq!(head(Fit::new(&MS20426, size, hole, stack)?), "0.151");
    /// assert_eq!(head(Fit::through_dimples(&MS20426, size, hole, stack)?), "0.124");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`FitError`] for a size of zero or less, or out of order.
    pub fn through_dimples(
        series: &Series<'_>,
        size: &Size,
        hole: Toleranced,
        grip: Toleranced,
    ) -> Result<Fit, FitError> {
        Fit::of(series, size, hole, grip, series.head.is_flush())
    }

    fn of(
        series: &Series<'_>,
        size: &Size,
        hole: Toleranced,
        grip: Toleranced,
        dimpled: bool,
    ) -> Result<Fit, FitError> {
        let around = |nominal: Length, limits: Option<Interval>, error: FitError| {
            let limits = limits.unwrap_or(Interval::exactly(nominal));
            Toleranced::new(nominal, nominal.minus(limits.min()), limits.max().minus(nominal)).map_err(|_| error)
        };
        let sunk = if series.head.is_flush() {
            let head = size.head.or_else(|| series.head_between(size)).ok_or(FitError::HeadNotKnown)?;
            around(head.height_nominal, head.height, FitError::HeadNotKnown)?
        } else {
            Toleranced::exactly(Length::ZERO)
        };
        let shank = Some(size.shank.ok_or(FitError::ShankNotKnown)?);
        let shank = around(size.shank_nominal, shank, FitError::NoShank)?;
        let length_tolerance = series.length_tolerance.map_or(Length::ZERO, |tolerance| tolerance.either_way);
        Fit { shank, hole, grip, sunk, length_tolerance, dimpled }.checked()
    }

    fn checked(self) -> Result<Fit, FitError> {
        if self.shank.min() <= Length::ZERO {
            Err(FitError::NoShank)
        } else if self.hole.min() <= Length::ZERO {
            Err(FitError::NoHole)
        } else if self.grip.min() <= Length::ZERO {
            Err(FitError::NoGrip)
        } else if self.sunk.max() > self.grip.min() && !self.dimpled {
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

    /// The stack.
    #[must_use]
    pub const fn grip(&self) -> Toleranced {
        self.grip
    }

    /// How much longer or shorter the rivet may be than its part number says.
    #[must_use]
    pub const fn length_tolerance(&self) -> Length {
        self.length_tolerance
    }

    /// The same for rivets that may be so much longer or shorter than their part numbers say.
    #[must_use]
    pub const fn with_length_tolerance(self, either_way: Length) -> Fit {
        Fit { length_tolerance: either_way, ..self }
    }

    /// The same in another hole.
    pub(crate) const fn in_hole(&self, hole: Toleranced) -> Fit {
        Fit { hole, ..*self }
    }

    /// Thinnest shank, largest hole, thickest stack: where the driven head gets the least. The deeper a countersunk head, the less hole is left
    /// to fill; the deeper a dimpled one, the less shank.
    pub(crate) fn least(&self) -> Filled {
        let sunk = if self.dimpled { self.sunk.max() } else { self.sunk.min() };
        self.corner(self.shank.min(), self.hole.max(), self.grip.max(), sunk)
    }

    pub(crate) fn nominal(&self) -> Filled {
        self.corner(self.shank.nominal(), self.hole.nominal(), self.grip.nominal(), self.sunk.nominal())
    }

    /// Thickest shank, smallest hole, thinnest stack: where the driven head gets the most.
    pub(crate) fn most(&self) -> Filled {
        let sunk = if self.dimpled { self.sunk.min() } else { self.sunk.max() };
        self.corner(self.shank.max(), self.hole.min(), self.grip.min(), sunk)
    }

    /// A shank in a hole that is smaller than itself has been pressed in: it takes up its own width.
    fn corner(&self, shank: Length, hole: Length, grip: Length, sunk: Length) -> Filled {
        let straight = if self.dimpled { grip } else { grip.minus(sunk) };
        Filled { shank, hole: hole.max(shank), straight, sunk }
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

    /// The longest length whose driven head is at most `diameter` by `height` with everything nominal.
    #[must_use]
    pub fn longest_nominal_for(&self, diameter: Length, height: Length) -> Length {
        self.nominal().longest_with(cylinder(diameter, height))
    }

    /// The longest nominal length whose tail stands out no more than `tail` from the thinnest stack.
    #[must_use]
    pub fn longest_for_tail(&self, tail: Length) -> Length {
        self.grip.min().plus(self.bulge().min()).plus(tail).minus(self.length_tolerance)
    }

    /// The longest length whose tail stands out no more than `tail` with everything nominal.
    #[must_use]
    pub fn longest_nominal_for_tail(&self, tail: Length) -> Length {
        self.grip.nominal().plus(self.bulge().nominal()).plus(tail)
    }

    /// How far the far side bulges under a flush head.
    pub(crate) fn bulge(&self) -> Toleranced {
        if self.dimpled { self.sunk } else { Toleranced::exactly(Length::ZERO) }
    }

    /// How far the tail of a rivet of this nominal length stands out before driving; of a dimple, from the rim that the driven head lies on.
    #[must_use]
    pub fn protrusion(&self, length: Length) -> Interval {
        Interval::of(
            length.minus(self.length_tolerance).minus(self.grip.max()).minus(self.bulge().max()),
            self.reach(length).minus(self.bulge().min()),
        )
    }

    /// The farthest that a rivet of this nominal length reaches behind the flat of its stack: what has to be free there before driving.
    #[must_use]
    pub fn reach(&self, length: Length) -> Length {
        length.plus(self.length_tolerance).minus(self.grip.min())
    }

    /// The heights to which every rivet of this nominal length can be driven; `None` where there is no such height, or no limit to tell.
    ///
    /// ```
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::{Head, MS20470};
    /// use shophead::upset::{Fit, HeadLimits};
    /// let size = MS20470.size(5).unwrap();
    /// let fit = Fit::new(&MS20470, size, Toleranced::parse(".159+.004-0")?, Toleranced::parse(".126+-.004")?)?;
    /// let limits = HeadLimits::of(&PROCESS, &Case::of(Head::Universal, RivetAlloy::Al2117, size));
    /// // Table III: .062 to .092 high, at least .203 wide.
    /// let window = fit.window(Length::parse("3/8")?, &limits).unwrap();
    /// assert_eq!((window.height.min(), window.height.max()), (Length::parse(".062")?, Length::parse(".092")?));
    /// assert_eq!(window.diameter_least, Length::parse(".203")?);
    /// // A rivet that is short has metal for less: its head stays narrow unless it is driven lower.
    /// let window = fit.window(Length::parse("9/32")?, &limits).unwrap();
    /// assert_eq!(format!("{:.4}", window.height.max()), "0.0743");
    /// assert_eq!(fit.window(Length::parse("1/4")?, &limits), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn window(&self, length: Length, limits: &HeadLimits) -> Option<Window> {
        let (diameter, low) = (limits.diameter_least?.value, limits.height_least?.value);
        let metal = self.least().metal_left(length.minus(self.length_tolerance));
        if metal <= 0 || diameter <= Length::ZERO {
            return None;
        }
        let filled = length_of(quotient(metal, square(diameter)));
        let high = limits.height_greatest.map_or(filled, |greatest| greatest.value.min(filled));
        // A greatest diameter that rejects keeps the one with the most metal from being driven so low.
        let low = match limits.diameter_greatest {
            Some(greatest) if greatest.basis.status() == Status::Shop && greatest.value > Length::ZERO => {
                let most = self.most().metal_left(length.plus(self.length_tolerance));
                low.max(length_of_up(quotient_up(most, square(greatest.value))))
            }
            _ => low,
        };
        let height = Interval::new(low, high).ok()?;
        Some(Window {
            height,
            diameter_least: diameter,
            diameter_greatest: limits.diameter_greatest.map(|greatest| greatest.value),
        })
    }

    /// What shank, or what hole, gives a rivet of this nominal length a driven head of at least `diameter` by `height`, whatever everything else
    /// is within its tolerance.
    ///
    /// ```
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::rivet::MS20470;
    /// use shophead::upset::Fit;
    /// let size = MS20470.size(4).unwrap();
    /// let fit = Fit::new(&MS20470, size, Toleranced::parse(".1285+.0035-0")?, Toleranced::parse(".100")?)?;
    /// let (wide, high) = (Length::parse(".1625")?, Length::parse(".0375")?);
    /// let within = fit.within(Length::parse("3/16")?, wide, high);
    /// // Not in every hole with every shank: in holes to .1318, or with a shank from .1241.
    /// assert!(within.hole_greatest > Some(Length::parse(".1318")?) && within.hole_greatest < Some(Length::parse(".1320")?));
    /// assert!(within.shank_least > Some(Length::parse(".1240")?) && within.shank_least < Some(Length::parse(".1241")?));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn within(&self, length: Length, diameter: Length, height: Length) -> Within {
        let (corner, metal) = (self.least(), cylinder(diameter, height));
        let shortest = length.minus(self.length_tolerance);
        // A thinner shank need not be pressed into the hole that this one is.
        let in_hole = Filled { hole: self.hole.max(), ..corner };
        Within {
            hole_greatest: corner.widest_hole(shortest, metal),
            shank_least: in_hole.thinnest_shank(shortest, metal).filter(|shank| *shank <= self.shank.max()),
        }
    }

    /// The smallest hole in which a rivet of this length makes a head of at most `diameter` by `height` with everything else nominal; zero
    /// where it does in any.
    pub(crate) fn hole_least_nominal_for(&self, length: Length, diameter: Length, height: Length) -> Length {
        self.nominal().narrowest_hole(length, cylinder(diameter, height))
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
        nominal.shortest_with(0).minus(nominal.straight).minus(nominal.sunk)
    }
}

/// Least, nominal and greatest of a computed length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
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
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct PredictedHead {
    /// Its diameter.
    pub diameter: Spread,
    /// The height to which it is driven.
    pub height: Length,
}

/// What to drive a head to, so that it is accepted whatever its shank, hole, stack and length are within their tolerances.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Window {
    /// The heights to stop at. Left between them every head is wide enough.
    pub height: Interval,
    /// The least diameter.
    pub diameter_least: Length,
    /// The greatest diameter, where the practice names one. A wider head is worth a look; that alone does not reject it.
    pub diameter_greatest: Option<Length>,
}

impl Window {
    /// Between these heights, at least this wide.
    #[must_use]
    pub const fn new(height: Interval, diameter_least: Length) -> Window {
        Window { height, diameter_least, diameter_greatest: None }
    }

    setters! {
        /// At most this wide.
        diameter_greatest: Option<Length>;
    }
}

impl Window {
    /// What is right for both; `None` where no height is.
    ///
    /// ```
    /// use shophead::length::{Interval, Length};
    /// use shophead::upset::Window;
    /// let window = |min, max| {
    ///     let height = Interval::of(Length::from_ten_thousandths(min), Length::from_ten_thousandths(max));
    ///     Window::new(height, Length::from_ten_thousandths(2030))
    /// };
    /// assert_eq!(window(620, 920).and(window(700, 950)), Some(window(700, 920)));
    /// assert_eq!(window(620, 690).and(window(700, 950)), None);
    /// ```
    #[must_use]
    pub fn and(self, other: Window) -> Option<Window> {
        let (one, more) = (self.height, other.height);
        let height = Interval::new(one.min().max(more.min()), one.max().min(more.max())).ok()?;
        let greatest = self.diameter_greatest.into_iter().chain(other.diameter_greatest).min();
        let diameter_least = self.diameter_least.max(other.diameter_least);
        Some(Window { height, diameter_least, diameter_greatest: greatest })
    }

    /// As a mechanic is told it.
    ///
    /// ```
    /// use shophead::length::{Interval, Length};
    /// use shophead::upset::Window;
    /// use shophead::words::Units;
    /// let height = Interval::of(Length::parse(".062")?, Length::parse(".092")?);
    /// let window = Window::new(height, Length::parse(".203")?);
    /// assert_eq!(window.shown(Units::Inches).to_string(), ".062 to .092 high, at least .203 wide");
    /// assert_eq!(window.shown(Units::Millimetres).to_string(), "1.58 to 2.33 mm high, at least 5.16 mm wide");
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    #[must_use]
    pub const fn shown(self, units: Units) -> ShownWindow {
        ShownWindow { window: self, units }
    }
}

/// A window as it is written: made by [`Window::shown`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShownWindow {
    window: Window,
    units: Units,
}

impl fmt::Display for ShownWindow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (min, max) = (self.window.height.min(), self.window.height.max());
        let width = self.units.length(self.window.diameter_least).toward(Toward::Up);
        write!(f, "{} high, at least {width} wide", self.units.limits(Some(min), Some(max)))
    }
}

/// Shank and hole within which a length has metal for a head; either alone is enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Within {
    /// The greatest hole, with any shank; `None` where no hole is small enough.
    pub hole_greatest: Option<Length>,
    /// The least shank, in any of the holes; `None` where the thickest shank is not enough.
    pub shank_least: Option<Length>,
}

/// The limits of a driven head. `None` where the practice gives no such limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
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
        HeadLimits::of_case(&practice.for_case(case))
    }

    /// The same, where the case is at hand.
    pub(crate) fn of_case(limits: &ForCase<'_>) -> HeadLimits {
        let limit = |name| limits.length(name);
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
