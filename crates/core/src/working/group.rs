//! How a load divides over a group, and the margins of its worst rivets, step by step.

use super::joint::{Carried, margins_of};
use super::{About, Input, Kind, Quantity, Working, rules, symbols};
use crate::joint::group::{Group, GroupRivet, PlaneLoad, Worst};
use crate::joint::margin::Load;
use crate::length::Length;
use crate::quantity::Force;

symbols! {
    WEIGHT = "w", "weight of each rivet: its shank area over the greatest";
    X = "x", "place of each rivet along x";
    Y = "y", "place of each rivet along y";
    CENTRE_X = "xc", "place of the centroid along x";
    CENTRE_Y = "yc", "place of the centroid along y";
    WEIGHTS = "W", "sum of the weights";
    POLAR = "J", "sum of the weighted squares of the distances from the centroid";
    FORCE_X = "Fx", "load along x";
    FORCE_Y = "Fy", "load along y";
    AT_X = "xl", "place of the load along x";
    AT_Y = "yl", "place of the load along y";
    EXTRA = "Mo", "moment given besides";
    MOMENT = "M", "moment about the centroid";
    OWN_WEIGHT = "wi", "weight of this rivet";
    OWN_X = "xi", "place of this rivet along x";
    OWN_Y = "yi", "place of this rivet along y";
    SHARE_X = "fx", "load on this rivet along x";
    SHARE_Y = "fy", "load on this rivet along y";
    SHARE = "F", "load on this rivet";
}

rules! { LIST:
    CENTROID_X = "group-centroid-x", "Centroid along x", CENTRE_X, "Σ(w × x) / Σ(w)";
    CENTROID_Y = "group-centroid-y", "Centroid along y", CENTRE_Y, "Σ(w × y) / Σ(w)";
    SUM = "group-weights", "Sum of the weights", WEIGHTS, "Σ(w)";
    POLAR_SUM = "group-polar", "Sum of the weighted squares about the centroid", POLAR, "Σ(w × ((x - xc)² + (y - yc)²))";
    ABOUT_CENTROID = "group-moment", "Moment about the centroid", MOMENT, "Mo + (xl - xc) × Fy - (yl - yc) × Fx";
    ONE_X = "group-share-x", "Load on the rivet along x, direct and torsional", SHARE_X, "wi × (Fx / W - M × (yi - yc) / J)", GROUP_ALIKE;
    ONE_Y = "group-share-y", "Load on the rivet along y, direct and torsional", SHARE_Y, "wi × (Fy / W + M × (xi - xc) / J)", GROUP_ALIKE;
    DIRECT_X = "group-direct-x", "Load on the rivet along x", SHARE_X, "wi × Fx / W", GROUP_ALIKE;
    DIRECT_Y = "group-direct-y", "Load on the rivet along y", SHARE_Y, "wi × Fy / W", GROUP_ALIKE;
    TOGETHER = "group-share", "Load on the rivet", SHARE, "√(fx² + fy²)";
}

/// What a rivet of a group carries, by its place counted from 0; its own steps go to the working.
pub type EachRivet<'c> = &'c mut dyn FnMut(usize, &mut Working<'_>) -> Carried;

/// The shares of a group and the margins of the rivets that are worst at failure and at yield.
///
/// ```
/// use shophead::joint::group::{GroupRivet, PlaneLoad, share};
/// use shophead::joint::margin::LoadKind;
/// use shophead::layout::Point;
/// use shophead::length::Length;
/// use shophead::quantity::Force;
/// use shophead::words::Units;
/// use shophead::working::{Working, group, joint::Carried};
/// let at = |x: i16, y: i16| Point { x: Length::from_64ths(64 * x), y: Length::from_64ths(64 * y) };
/// let rivets = [(-3, 4), (-3, 0), (-3, -4), (3, 4), (3, 0), (3, -4)].map(|(x, y)| GroupRivet::alike(at(x, y)));
/// let load = PlaneLoad::new(Force::ZERO, Force::from_lbf(-15_000.0), at(6, 0), LoadKind::Ultimate);
/// let found = share(&rivets, load, None)?;
/// let mut said = Vec::new();
/// group::of(&found, &load, &mut |_, _| Carried::default(), &mut Working::new(&mut |step| {
///     said.push((step.rule.result.text, step.result.shown(Units::Inches).to_string()));
/// }));
/// assert!(said.contains(&("M", "-90000".into())) && said.contains(&("J", "118".into())));
/// assert_eq!(said.last().unwrap(), &("F", "5677.49".into()));
/// # Ok::<(), shophead::joint::group::GroupError>(())
/// ```
pub fn of(group: &Group<'_>, load: &PlaneLoad, carries: EachRivet<'_>, work: &mut Working<'_>) {
    let members = group.members();
    let Some(first) = members.first() else { return };
    let listed = members.len();
    let weight_of = |member: &GroupRivet| Quantity::number(group.weight_of(member));
    let weight = |index: usize| members.get(index).map(weight_of);
    let x = |index: usize| members.get(index).map(|member| Quantity::of(member.at.x));
    let y = |index: usize| members.get(index).map(|member| Quantity::of(member.at.y));
    let weights = Input { each: Some(&weight), ..Input::new(WEIGHT, weight_of(first), group.method()) };
    let xs = Input { each: Some(&x), ..Input::given(X, first.at.x) };
    let ys = Input { each: Some(&y), ..Input::given(Y, first.at.y) };
    let centre_x = work.step_over(&CENTROID_X, About::Whole, &[weights, xs], listed, group.centroid.x);
    let centre_y = work.step_over(&CENTROID_Y, About::Whole, &[weights, ys], listed, group.centroid.y);
    let sum = Quantity::number(members.iter().map(|member| group.weight_of(member)).sum());
    let sum = work.step_over(&SUM, About::Whole, &[weights], listed, sum);
    let polar = Quantity::new(Kind::Area, group.polar_in2);
    let polar = work.step_over(&POLAR_SUM, About::Whole, &[weights, xs, ys, centre_x, centre_y], listed, polar);
    let force = |symbol, force: Force| Input::given(symbol, force);
    let (fx, fy) = (force(FORCE_X, load.x), force(FORCE_Y, load.y));
    let at = |symbol, at: Length| Input::given(symbol, at);
    let moment = |in_lbf| Quantity::new(Kind::Moment, in_lbf);
    let extra = Input::given(EXTRA, moment(load.moment_in_lbf));
    let figures = [extra, at(AT_X, load.at.x), centre_x, fy, at(AT_Y, load.at.y), centre_y, fx];
    let turning = work.step(&ABOUT_CENTROID, About::Whole, &figures, moment(group.moment_in_lbf));

    let mut one = |index: usize, worst: Option<&Worst>, yields: Option<&Worst>, work: &mut Working<'_>| {
        let Some(member) = members.get(index) else { return };
        let about = About::Rivet(u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1));
        work.of(about);
        let total = group.share(member).total();
        let own = Input::new(OWN_WEIGHT, weight_of(member), group.method());
        let (own_x, own_y) = (Input::given(OWN_X, member.at.x), Input::given(OWN_Y, member.at.y));
        let (along, across) = if group.polar_in2 > 0.0 {
            let along = [own, fx, sum, turning, own_y, centre_y, polar];
            let across = [own, fy, sum, turning, own_x, centre_x, polar];
            (work.step(&ONE_X, about, &along, total.x), work.step(&ONE_Y, about, &across, total.y))
        } else {
            (
                work.step(&DIRECT_X, about, &[own, fx, sum], total.x),
                work.step(&DIRECT_Y, about, &[own, fy, sum], total.y),
            )
        };
        let share = work.step(&TOGETHER, about, &[along, across], total.size());
        if let Some(margin) = worst.or(yields).map(|worst| worst.margin) {
            let carried = carries(index, work);
            let load = Load { force: total.size(), kind: load.kind };
            let margins = (worst.map(|worst| worst.margin), yields.map(|worst| worst.margin));
            margins_of((load, share), margin.factors, margins, (carried.allowable, carried.yields), work);
        }
        work.of(About::Whole);
    };
    let (worst, at_yield) = (group.worst.as_ref(), group.worst_yield.as_ref());
    let first = worst.map_or(group.most_loaded, |worst| worst.rivet);
    let of_first = at_yield.filter(|worst| worst.rivet == first);
    // The margin comes last: that at yield before it, where another rivet yields first.
    if let Some(other) = at_yield.filter(|worst| worst.rivet != first) {
        one(other.rivet, None, Some(other), work);
    }
    one(first, worst, of_first, work);
}
