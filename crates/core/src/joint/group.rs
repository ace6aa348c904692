//! A group of rivets under a load in its plane that need not go through its middle.
//!
//! # The elastic vector method
//!
//! The plates are taken as rigid and the rivets as springs. With weights wᵢ (all alike: 1), their sum W, the centroid of the weighted
//! positions, J = Σ wᵢ rᵢ² about it, and M the moment of the load about it:
//!
//! ```text
//! fxᵢ = wᵢ (Fx / W - M yᵢ / J)
//! fyᵢ = wᵢ (Fy / W + M xᵢ / J)
//! ```
//!
//! The first term is the direct share, the second the torsional share. Source: Handbook of Civil Engineering Calculations, 2nd ed.,
//! p 1.84, and equation (11.6) of the usual aircraft structures text, both for rivets that are alike. Weights for rivets of different
//! size (by shank area as a rule) are recalled.
//!
//! # The instantaneous centre
//!
//! The plate turns about one point, in the elastic range J / (W e) from the centroid on the side away from the load, with e the arm of
//! the load. The vector sum above and the turn about that point are the same answer; [`Group::rotation_centre`] gives the
//! place. An *ultimate* strength of a group by way of the instantaneous centre needs measured load-slip curves of the rivet, and no
//! published method for aluminium rivets was at hand: there is no such answer here, and [`Code::ElasticSharesOnly`] says so.

use super::margin::{Factors, Load, LoadKind, Margin, MarginError, margin, yield_margin};
use super::strength::Allowable;
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::layout::Point;
use crate::length::Length;
use crate::practice::Key;
use crate::quantity::Force;
use crate::setters::setters;

/// Loads that differ by less than this part of the greatest are called equal, so that the rivet named as the most loaded does not
/// hang on the last bit.
const EQUAL_WITHIN: f64 = 1e-9;

/// One rivet of a group.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct GroupRivet {
    /// Its source.
    pub at: Point,
    /// How much it takes beside the others: its shank area, its stiffness, or 1 where all are alike. Above zero; only ratios count.
    pub weight: f64,
    /// What it carries at failure, where known.
    pub allowable: Option<Allowable>,
    /// The load on it at which a sheet yields, where known.
    pub yields: Option<Allowable>,
}

impl GroupRivet {
    /// One that takes so much beside the others, of unknown strength.
    #[must_use]
    pub const fn new(at: Point, weight: f64) -> GroupRivet {
        GroupRivet { at, weight, allowable: None, yields: None }
    }

    setters! {
        /// Its place.
        at: Point;
        /// How much it takes beside the others.
        weight: f64;
        /// What it carries at failure.
        allowable: Option<Allowable>;
        /// The load on it at which a sheet yields.
        yields: Option<Allowable>;
    }
}

impl GroupRivet {
    /// One of many that are alike, of unknown strength.
    #[must_use]
    pub const fn alike(at: Point) -> GroupRivet {
        GroupRivet { at, weight: 1.0, allowable: None, yields: None }
    }

    /// Weighted by its shank area, of unknown strength.
    #[must_use]
    pub fn by_area(at: Point, diameter: Length) -> GroupRivet {
        let diameter = diameter.to_inches_f64();
        GroupRivet { at, weight: core::f64::consts::FRAC_PI_4 * diameter * diameter, allowable: None, yields: None }
    }
}

/// How far a rivet stands from the straight edges on its four sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Sides {
    /// Towards smaller x.
    pub left: Length,
    /// Towards greater x.
    pub right: Length,
    /// Towards smaller y.
    pub below: Length,
    /// Towards greater y.
    pub above: Length,
}

impl Sides {
    setters! {
        /// Towards smaller x.
        left: Length;
        /// Towards greater x.
        right: Length;
        /// Towards smaller y.
        below: Length;
        /// Towards greater y.
        above: Length;
    }
}

impl Sides {
    /// As far on every side.
    #[must_use]
    pub const fn all(edge: Length) -> Sides {
        Sides { left: edge, right: edge, below: edge, above: edge }
    }

    /// To the nearest of them.
    #[must_use]
    pub fn nearest(&self) -> Length {
        self.left.min(self.right).min(self.below).min(self.above)
    }

    /// To the nearest of them along the line of a load, forward and back: what presses one sheet forward presses the other one back. Without
    /// a load, as [`Sides::nearest`].
    ///
    /// ```
    /// use shophead::joint::group::{Sides, Vector};
    /// use shophead::length::Length;
    /// use shophead::quantity::Force;
    /// let (near, far) = (Length::parse(".25")?, Length::parse("1")?);
    /// let sides = Sides::all(far).below(near);
    /// let load = |x, y| Vector { x: Force::from_lbf(x), y: Force::from_lbf(y) };
    /// // Along the near edge it does not count; straight at it, or away from it, it does.
    /// assert_eq!(sides.along(load(100.0, 0.0)), far);
    /// assert_eq!(sides.along(load(0.0, 100.0)), near);
    /// // At 45 degrees the way to it is 1.414 times as long.
    /// assert!((sides.along(load(50.0, 50.0)).to_inches_f64() - 0.353_553).abs() < 1e-6);
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    #[must_use]
    pub fn along(&self, load: Vector) -> Length {
        let size = load.size().lbf();
        let way = |edge: Length, part: f64| {
            // As far as can be measured where the load runs along the edge.
            Length::try_from_inches_f64(edge.to_inches_f64() * (size / part)).unwrap_or(Length::MAX)
        };
        let (x, y) = (libm::fabs(load.x.lbf()), libm::fabs(load.y.lbf()));
        let way = way(self.left.min(self.right), x).min(way(self.below.min(self.above), y));
        if way == Length::MAX { self.nearest() } else { way.max(self.nearest()) }
    }
}

/// A load in the plane of the group.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct PlaneLoad {
    /// Along x.
    pub x: Force,
    /// Along y.
    pub y: Force,
    /// A point on its line.
    pub at: Point,
    /// A moment besides, in inch-pounds, positive from x to y.
    pub moment_in_lbf: f64,
    /// Limit or ultimate.
    pub kind: LoadKind,
}

impl PlaneLoad {
    /// A load through a point, without a moment besides.
    #[must_use]
    pub const fn new(x: Force, y: Force, at: Point, kind: LoadKind) -> PlaneLoad {
        PlaneLoad { x, y, at, moment_in_lbf: 0.0, kind }
    }

    setters! {
        /// Along x.
        x: Force;
        /// Along y.
        y: Force;
        /// A point on its line.
        at: Point;
        /// A moment besides, in inch-pounds, positive from x to y.
        moment_in_lbf: f64;
    }
}

/// Two components in the plane.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Vector {
    /// Along x.
    pub x: Force,
    /// Along y.
    pub y: Force,
}

impl Vector {
    fn lbf(x: f64, y: f64) -> Vector {
        Vector { x: Force::from_lbf(x), y: Force::from_lbf(y) }
    }

    /// Its size.
    #[must_use]
    pub fn size(self) -> Force {
        Force::from_lbf(libm::hypot(self.x.lbf(), self.y.lbf()))
    }
}

/// The load that the plate puts on one rivet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Share {
    /// From the load as if it went through the centroid.
    pub direct: Vector,
    /// From its moment about the centroid.
    pub torsional: Vector,
}

impl Share {
    /// Both together.
    #[must_use]
    pub fn total(self) -> Vector {
        let (direct, torsional) = (self.direct, self.torsional);
        Vector::lbf(direct.x.lbf() + torsional.x.lbf(), direct.y.lbf() + torsional.y.lbf())
    }
}

/// The rivet that governs.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Worst {
    /// Which, counted from 0 in the order given.
    pub rivet: usize,
    /// Its margin.
    pub margin: Margin,
    /// Where its strength stands.
    pub basis: Basis,
}

/// The answer. It keeps no list of its own: shares are worked out as they are asked for, so a group may have any number of rivets.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Group<'g> {
    #[cfg_attr(feature = "serde", serde(skip))]
    rivets: &'g [GroupRivet],
    #[cfg_attr(feature = "serde", serde(skip))]
    origin: Point,
    #[cfg_attr(feature = "serde", serde(skip))]
    heaviest: f64,
    #[cfg_attr(feature = "serde", serde(skip))]
    sums: Sums,
    /// The centroid of the weighted positions, to the nanometre.
    pub centroid: Point,
    /// J, in square inches: Σ r² about the centroid, each counted with its weight over the greatest weight.
    pub polar_in2: f64,
    /// Moment of the load about the centroid, in inch-pounds, positive from x to y.
    pub moment_in_lbf: f64,
    /// The point about which the plate turns, to the nanometre; `None` where it does not turn or turns about a point more than a
    /// kilometre off. Elastic.
    pub rotation_centre: Option<Point>,
    /// The rivet with the greatest load, counted from 0; the first where several are equal.
    pub most_loaded: usize,
    /// The rivet with the least margin; `None` where factors were not given or a strength is not known.
    pub worst: Option<Worst>,
    /// The rivet that yields first under the limit load; `None` where factors were not given or a yield is not known.
    pub worst_yield: Option<Worst>,
    /// The weakest basis in it.
    pub basis: Basis,
    /// The rivet whose strength rests on that basis, counted from 0; `None` where the method itself is the weakest.
    pub weakest: Option<usize>,
    /// What was found.
    pub findings: Findings,
}

/// The sums of the method, in inches and pounds from the first rivet, weights over the greatest.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Sums {
    weight: f64,
    x: f64,
    y: f64,
    polar: f64,
    load_x: f64,
    load_y: f64,
    moment: f64,
}

crate::words::errors! {
    /// Why there is no answer.
    GroupError {
        NoRivets = 130, "group-no-rivets", "No rivets.",
            "a group needs at least one rivet";
        WeightNotPositive = 131, "group-weight-not-positive", "A weight is zero, negative or not a number.",
            "the weight of a rivet must be above zero; right would be 1";
        LoadNotFinite = 132, "group-load-not-finite", "A load or moment is not a number.",
            "the load and the moment must be numbers; right would be 250lbf";
        NoLoad = 133, "group-no-load", "No load at all.",
            "the load is zero; right would be 250lbf";
        NothingResistsMoment = 134, "group-nothing-resists-moment", "A moment on rivets that are all at one point.",
            "rivets at one point carry no moment; put the load through that point";
        OutOfRange = 135, "group-out-of-range", "The loads come out too large to be numbers.",
            "these loads are too large for these distances; check their units";
        | Margin(MarginError), "The margin could not be worked out.";
    }
}

/// `to - from` in inches. The difference is exact, so that where a group stands on the panel changes nothing.
fn offset(from: Point, to: Point) -> (f64, f64) {
    let inches = |from: Length, to: Length| {
        to.nanometres().saturating_sub(from.nanometres()) as f64 / Length::INCH.nanometres() as f64
    };
    (inches(from.x, to.x), inches(from.y, to.y))
}

/// How a load in the plane divides over a group of rivets.
///
/// With `factors` the margin of every rivet is worked out and the worst one named.
///
/// # Errors
/// [`GroupError`]; a NaN or an infinity never comes out.
///
/// ```
/// use shophead::joint::group::{GroupRivet, PlaneLoad, share};
/// use shophead::joint::margin::LoadKind;
/// use shophead::layout::Point;
/// use shophead::length::Length;
/// use shophead::quantity::Force;
/// let at = |x: i16, y: i16| Point { x: Length::from_64ths(64 * x), y: Length::from_64ths(64 * y) };
/// // Two columns of three, 6 in apart, 4 in from row to row; 15 000 lbf down, 6 in to the right of the middle.
/// let rivets = [(-3, 4), (-3, 0), (-3, -4), (3, 4), (3, 0), (3, -4)].map(|(x, y)| GroupRivet::alike(at(x, y)));
/// let load = PlaneLoad::new(Force::ZERO, Force::from_lbf(-15_000.0), at(6, 0), LoadKind::Ultimate);
/// let group = share(&rivets, load, None)?;
/// let corner = group.share(&rivets[3]).total();
/// assert!((corner.size().lbf() - 5_677.5).abs() < 0.1);
/// # Ok::<(), shophead::joint::group::GroupError>(())
/// ```
pub fn share<'g>(rivets: &'g [GroupRivet], load: PlaneLoad, factors: Option<Factors>) -> Result<Group<'g>, GroupError> {
    let first = rivets.first().ok_or(GroupError::NoRivets)?;
    let heaviest = heaviest(rivets)?;
    let (load_x, load_y, extra) = (load.x.lbf(), load.y.lbf(), load.moment_in_lbf);
    if ![load_x, load_y, extra].iter().all(|part| part.is_finite()) {
        return Err(GroupError::LoadNotFinite);
    }
    if load_x == 0.0 && load_y == 0.0 && extra == 0.0 {
        return Err(GroupError::NoLoad);
    }
    let sums = sums(rivets, first.at, heaviest, load);
    if sums.polar == 0.0 && sums.moment != 0.0 {
        return Err(GroupError::NothingResistsMoment);
    }
    let mut group = Group {
        rivets,
        origin: first.at,
        heaviest,
        sums,
        centroid: at(first.at, sums.x, sums.y).ok_or(GroupError::OutOfRange)?,
        polar_in2: sums.polar,
        moment_in_lbf: sums.moment,
        rotation_centre: rotation_centre(first.at, &sums),
        most_loaded: 0,
        worst: None,
        worst_yield: None,
        basis: Basis::GROUP_ALIKE,
        weakest: None,
        findings: Findings::new(),
    };
    group.basis = group.method();
    group.findings.push(Finding::new(Code::ElasticSharesOnly, Severity::Note, group.basis));
    group.most_loaded = most(group.shares().map(|share| share.total().size().lbf()))?;
    if let Some(factors) = factors {
        group.judge(load.kind, factors)?;
    }
    Ok(group)
}

fn heaviest(rivets: &[GroupRivet]) -> Result<f64, GroupError> {
    let mut heaviest = 0.0_f64;
    for rivet in rivets {
        if !(rivet.weight.is_finite() && rivet.weight > 0.0) {
            return Err(GroupError::WeightNotPositive);
        }
        heaviest = heaviest.max(rivet.weight);
    }
    Ok(heaviest)
}

fn sums(rivets: &[GroupRivet], origin: Point, heaviest: f64, load: PlaneLoad) -> Sums {
    let weighted = |rivet: &GroupRivet| (rivet.weight / heaviest, offset(origin, rivet.at));
    let (mut weight, mut x, mut y) = (0.0, 0.0, 0.0);
    for (w, (dx, dy)) in rivets.iter().map(weighted) {
        weight += w;
        x += w * dx;
        y += w * dy;
    }
    (x, y) = (x / weight, y / weight);
    let square = |arm: f64| arm * arm;
    let polar = rivets.iter().map(weighted).map(|(w, (dx, dy))| w * (square(dx - x) + square(dy - y))).sum();
    let (load_x, load_y) = (load.x.lbf(), load.y.lbf());
    let moment = load.moment_in_lbf + moment(origin, (x, y), load);
    Sums { weight, x, y, polar, load_x, load_y, moment }
}

/// The moment of the force itself about a point, in inch-pounds: nothing where its line goes through that point as nearly as the
/// rounding of its two parts can tell.
fn moment(origin: Point, (x, y): (f64, f64), load: PlaneLoad) -> f64 {
    /// Each part is rounded three times: the arm to inches, less the centroid, times the force.
    const ROUNDED: f64 = 4.0 * f64::EPSILON;
    let (arm_x, arm_y) = offset(origin, load.at);
    let (along_x, along_y) = ((arm_x - x) * load.y.lbf(), (arm_y - y) * load.x.lbf());
    let moment = along_x - along_y;
    if moment.is_finite() && libm::fabs(moment) <= ROUNDED * (libm::fabs(along_x) + libm::fabs(along_y)) {
        0.0
    } else {
        moment
    }
}

fn at(origin: Point, x: f64, y: f64) -> Option<Point> {
    let moved = |from: Length, by: f64| from.checked_add(Length::try_from_inches_f64(by)?);
    Some(Point { x: moved(origin.x, x)?, y: moved(origin.y, y)? })
}

/// Where the direct and the torsional share cancel.
fn rotation_centre(origin: Point, sums: &Sums) -> Option<Point> {
    let turn = sums.polar / (sums.weight * sums.moment);
    if !turn.is_finite() {
        return None;
    }
    at(origin, sums.x - sums.load_y * turn, sums.y + sums.load_x * turn)
}

/// The first of the greatest; an error where one is no number.
fn most(loads: impl Iterator<Item = f64> + Clone) -> Result<usize, GroupError> {
    let mut greatest = 0.0_f64;
    for load in loads.clone() {
        if !load.is_finite() {
            return Err(GroupError::OutOfRange);
        }
        greatest = greatest.max(load);
    }
    let mut loads = loads;
    Ok(loads.position(|load| load >= greatest * (1.0 - EQUAL_WITHIN)).unwrap_or(0))
}

impl<'g> Group<'g> {
    /// The load on each rivet, in the order given.
    pub fn shares(&self) -> impl ExactSizeIterator<Item = Share> + Clone + use<'_, 'g> {
        self.rivets.iter().map(|rivet| self.share(rivet))
    }

    /// The load on a rivet of the group.
    #[must_use]
    pub fn share(&self, rivet: &GroupRivet) -> Share {
        let Sums { weight, x, y, polar, load_x, load_y, moment } = self.sums;
        let w = self.weight_of(rivet);
        let (dx, dy) = offset(self.origin, rivet.at);
        let part = w / weight;
        // No arms, no moment: checked before.
        let turn = if polar > 0.0 { w * moment / polar } else { 0.0 };
        Share {
            direct: Vector::lbf(part * load_x, part * load_y),
            torsional: Vector::lbf(-turn * (dy - y), turn * (dx - x)),
        }
    }

    /// Says what to enter so that the strength that is missing is known.
    pub fn lacks(&mut self, key: Key) {
        let mut findings = Findings::new();
        for finding in &self.findings {
            let is_it = finding.code() == Code::StrengthNotPublished;
            findings.push(if is_it { finding.with_limit(Figure::Key(key)) } else { *finding });
        }
        self.findings = findings;
    }

    /// The distance from the centroid to the rotation centre; `None` where there is none.
    #[must_use]
    pub fn rotation_radius(&self) -> Option<Length> {
        self.rotation_centre.map(|centre| self.centroid.distance(centre))
    }

    /// The rivets, in the order given.
    #[cfg(feature = "words")]
    pub(crate) const fn members(&self) -> &'g [GroupRivet] {
        self.rivets
    }

    /// The weight of a rivet over the greatest of the group.
    pub(crate) fn weight_of(&self, rivet: &GroupRivet) -> f64 {
        rivet.weight / self.heaviest
    }

    /// Where the method stands.
    pub(crate) fn method(&self) -> Basis {
        let alike = self.rivets.iter().all(|rivet| Some(rivet.weight) == self.rivets.first().map(|first| first.weight));
        if alike { Basis::GROUP_ALIKE } else { Basis::GROUP_WEIGHTED }
    }

    fn judge(&mut self, kind: LoadKind, factors: Factors) -> Result<(), GroupError> {
        let method = self.basis;
        let mut weakest = (method, None);
        let worst =
            self.least(kind, |rivet| rivet.allowable, |force, load| margin(force, load, factors), &mut weakest)?;
        (self.basis, self.weakest) = weakest;
        let Some(worst) = worst else {
            self.findings.push(Finding::new(Code::StrengthNotPublished, Severity::Refer, Basis::STRENGTHS_OF_GROUP));
            return Ok(());
        };
        if let Some(worst) = worst.filter(|worst| worst.margin.value < 0.0) {
            self.findings.push(
                Finding::new(Code::MarginNegative, Severity::Refer, worst.basis)
                    .with_measured(Figure::Ratio(worst.margin.value))
                    .with_limit(Figure::Ratio(0.0)),
            );
        }
        self.worst = worst;
        let mut rests_on = (method, None);
        let at_yield = |force, load| yield_margin(force, load, factors);
        if let Some(worst) = self.least(kind, |rivet| rivet.yields, at_yield, &mut rests_on)? {
            self.findings.push_some(worst.and_then(|worst| worst.margin.yields()));
            self.worst_yield = worst;
        }
        Ok(())
    }

    /// The rivet with the least margin by what each carries; `None` where one of them is not known. `weakest` is the weakest basis among those
    /// that are loaded, and the rivet that rests on it.
    fn least(
        &self,
        kind: LoadKind,
        carries: impl Fn(&GroupRivet) -> Option<Allowable>,
        margin: impl Fn(Force, Load) -> Result<Margin, MarginError>,
        weakest: &mut (Basis, Option<usize>),
    ) -> Result<Option<Option<Worst>>, GroupError> {
        let mut worst: Option<Worst> = None;
        let mut known = true;
        for (index, rivet) in self.rivets.iter().enumerate() {
            let Some(carried) = carries(rivet) else {
                known = false;
                continue;
            };
            let force = self.share(rivet).total().size();
            if force == Force::ZERO {
                continue;
            }
            let margin = match margin(carried.force, Load { force, kind }) {
                // So little load that its margin is beyond all numbers.
                Err(MarginError::OutOfRange) => continue,
                margin => margin?,
            };
            let weaker = weakest.0.weaker(carried.basis);
            if weaker != weakest.0 {
                *weakest = (weaker, Some(index));
            }
            let tie = EQUAL_WITHIN * (1.0 + margin.value);
            if worst.is_none_or(|worst| margin.value < worst.margin.value - tie) {
                worst = Some(Worst { rivet: index, margin, basis: carried.basis });
            }
        }
        Ok(known.then_some(worst))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: f64, y: f64) -> Point {
        let inches = |value| Length::try_from_inches_f64(value).unwrap();
        Point { x: inches(x), y: inches(y) }
    }

    fn load(x: f64, y: f64, point: Point, moment_in_lbf: f64) -> PlaneLoad {
        let lbf = Force::from_lbf;
        PlaneLoad { x: lbf(x), y: lbf(y), at: point, moment_in_lbf, kind: LoadKind::Ultimate }
    }

    #[test]
    fn what_is_no_group_is_an_error() {
        let down = load(0.0, -100.0, at(1.0, 0.0), 0.0);
        let one = [GroupRivet::alike(at(0.0, 0.0))];
        let error = |rivets: &[GroupRivet], load| share(rivets, load, None).unwrap_err();
        assert_eq!(error(&[], down), GroupError::NoRivets);
        assert_eq!(error(&one, down), GroupError::NothingResistsMoment);
        assert_eq!(error(&[one[0]; 3], down), GroupError::NothingResistsMoment);
        assert_eq!(error(&one, load(0.0, f64::NAN, at(0.0, 0.0), 0.0)), GroupError::LoadNotFinite);
        assert_eq!(error(&one, load(0.0, 1.0, at(0.0, 0.0), f64::INFINITY)), GroupError::LoadNotFinite);
        assert_eq!(error(&one, load(0.0, 0.0, at(0.0, 0.0), 0.0)), GroupError::NoLoad);
        for weight in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(error(&[GroupRivet { weight, ..one[0] }], down), GroupError::WeightNotPositive);
        }
        let pair = [one[0], GroupRivet::alike(at(1e-6, 0.0))];
        assert_eq!(error(&pair, load(0.0, f64::MAX, at(10.0, 0.0), 0.0)), GroupError::OutOfRange);
    }

    #[test]
    fn one_rivet_carries_a_load_through_it() {
        let one = [GroupRivet::alike(at(2.0, 3.0))];
        let group = share(&one, load(3.0, 4.0, at(2.0, 3.0), 0.0), None).unwrap();
        assert_eq!(group.share(&one[0]).total().size(), Force::from_lbf(5.0));
        assert_eq!(group.rotation_centre, None);
        assert!(group.findings.has(Code::ElasticSharesOnly));
    }

    #[test]
    fn a_pure_moment_turns_the_group_about_its_centroid() {
        let pair = [GroupRivet::alike(at(0.0, 0.0)), GroupRivet::alike(at(2.0, 0.0))];
        let group = share(&pair, load(0.0, 0.0, at(9.0, 9.0), 100.0), None).unwrap();
        assert_eq!(group.rotation_centre, Some(at(1.0, 0.0)));
        // 100 in-lbf over 2 in.
        assert_eq!(group.share(&pair[1]).total(), Vector::lbf(0.0, 50.0));
        assert_eq!(group.share(&pair[0]).total(), Vector::lbf(0.0, -50.0));
        assert_eq!(group.most_loaded, 0, "the first where several are equal");
    }

    #[test]
    fn the_worst_rivet_is_the_one_with_the_least_margin_not_the_greatest_load() {
        let basis = Basis::own(0);
        let strong = |lbf| Some(Allowable { force: Force::from_lbf(lbf), basis });
        // Load nearer to the second: shares 25 and 75.
        let mut pair = [GroupRivet::alike(at(0.0, 0.0)), GroupRivet::alike(at(2.0, 0.0))];
        pair[0].allowable = strong(20.0);
        pair[1].allowable = strong(150.0);
        let down = load(0.0, -100.0, at(1.5, 0.0), 0.0);
        let group = share(&pair, down, Some(Factors::SEAM)).unwrap();
        assert_eq!(group.most_loaded, 1);
        let worst = group.worst.unwrap();
        assert_eq!(worst.rivet, 0);
        assert!((worst.margin.value - (20.0 / 25.0 - 1.0)).abs() < 1e-12);
        assert!(group.findings.has(Code::MarginNegative) && group.findings.must_refer());
        // Where none carries anything it is the first.
        let nothing =
            [GroupRivet { allowable: strong(0.0), ..pair[0] }, GroupRivet { allowable: strong(0.0), ..pair[1] }];
        let worst = share(&nothing, down, Some(Factors::SEAM)).unwrap().worst.unwrap();
        assert_eq!((worst.rivet, worst.margin.value), (0, -1.0));
        pair[1].allowable = None;
        let group = share(&pair, down, Some(Factors::SEAM)).unwrap();
        assert!(group.worst.is_none() && group.findings.has(Code::StrengthNotPublished));
    }

    /// Four rivets at the corners of a square of 2 in, 100 lbf at 2 in from its middle: 4 × 2 in² over 4 and 200 in-lbf.
    #[test]
    fn the_group_turns_beside_the_middle_away_from_the_load() {
        let corners = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(|(x, y)| GroupRivet::alike(at(x, y)));
        for (along, point, centre) in [
            ((100.0, 0.0), at(1.0, 3.0), at(1.0, 0.0)),
            ((100.0, 0.0), at(1.0, -1.0), at(1.0, 2.0)),
            ((0.0, 100.0), at(3.0, 1.0), at(0.0, 1.0)),
            ((0.0, -100.0), at(3.0, 1.0), at(0.0, 1.0)),
        ] {
            let group = share(&corners, load(along.0, along.1, point, 0.0), None).unwrap();
            assert_eq!((group.centroid, group.polar_in2), (at(1.0, 1.0), 8.0));
            assert_eq!(group.rotation_centre, Some(centre), "{along:?}");
            let there = group.share(&GroupRivet::alike(centre)).total();
            assert!(there.size().lbf() < 1e-9, "{there:?}");
        }
    }

    #[test]
    fn the_rivet_named_as_the_weakest_is_the_first_that_rests_on_less_than_the_method() {
        let carries = |basis| Some(Allowable { force: Force::from_lbf(500.0), basis });
        let named = |bases: [Basis; 3]| {
            let mut row = [0.0, 1.0, 2.0].map(|x| GroupRivet::alike(at(x, 0.0)));
            for (rivet, basis) in row.iter_mut().zip(bases) {
                rivet.allowable = carries(basis);
            }
            let group = share(&row, load(0.0, 90.0, at(1.0, 0.0), 0.0), Some(Factors::SEAM)).unwrap();
            (group.basis, group.weakest)
        };
        let (own, recalled) = (Basis::own(0), Basis::HDBK5_FLUSH_JOINTS);
        assert_eq!(named([own; 3]), (Basis::GROUP_ALIKE, None));
        assert_eq!(named([own, recalled, recalled]), (recalled, Some(1)));
    }

    #[test]
    fn a_rivet_that_carries_just_its_load_is_not_referred() {
        let basis = Basis::own(0);
        for (lbf, said) in [(50.0, false), (49.999, true)] {
            let allowable = Some(Allowable { force: Force::from_lbf(lbf), basis });
            let pair = [0.0, 2.0].map(|x| GroupRivet { allowable, ..GroupRivet::alike(at(x, 0.0)) });
            let group = share(&pair, load(0.0, 100.0, at(1.0, 0.0), 0.0), Some(Factors::SEAM)).unwrap();
            assert_eq!(group.findings.has(Code::MarginNegative), said, "{lbf}");
        }
    }

    #[test]
    fn along_a_side_there_is_no_way_to_it_and_without_a_load_the_nearest_side_counts() {
        let inch = Length::INCH;
        let sides = Sides::all(inch).left(Length::ZERO);
        for (load, way) in
            [((0.0, 100.0), inch), ((0.0, -100.0), inch), ((100.0, 0.0), Length::ZERO), ((0.0, 0.0), Length::ZERO)]
        {
            assert_eq!(sides.along(Vector::lbf(load.0, load.1)), way, "{load:?}");
        }
    }

    /// The same margin worked out twice is one margin, however great it is.
    #[test]
    fn of_margins_that_differ_by_less_than_a_billionth_the_first_is_the_worst() {
        for (less, worst) in [(1e-10, 0), (1e-8, 1)] {
            let strong = |lbf| Some(Allowable { force: Force::from_lbf(lbf), basis: Basis::own(0) });
            let mut pair = [0.0, 2.0].map(|x| GroupRivet::alike(at(x, 0.0)));
            (pair[0].allowable, pair[1].allowable) = (strong(50_000.0), strong(50_000.0 * (1.0 - less)));
            let group = share(&pair, load(0.0, 100.0, at(1.0, 0.0), 0.0), Some(Factors::SEAM)).unwrap();
            assert_eq!(group.worst.map(|worst| worst.rivet), Some(worst), "{less}");
        }
    }

    /// 0.1 and 0.3 in beside the middle, a load one to three: both parts of the moment are the same but for their last bits.
    #[test]
    fn a_load_whose_line_goes_through_the_middle_turns_nothing_however_small_it_is() {
        let corners = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(|(x, y)| GroupRivet::alike(at(x, y)));
        for lbf in [1e-3, 1.0, 1e6] {
            let through = share(&corners, load(lbf, 3.0 * lbf, at(1.1, 1.3), 0.0), None).unwrap();
            assert_eq!((through.moment_in_lbf, through.rotation_centre), (0.0, None), "{lbf}");
            let beside = share(&corners, load(lbf, 3.0 * lbf, at(1.1, 1.2), 0.0), None).unwrap();
            assert!((beside.moment_in_lbf - 0.1 * lbf).abs() < 1e-9 * lbf, "{lbf}");
        }
    }
}
