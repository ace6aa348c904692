//! What both built-in practices share: how a row is written, and the figures that stand in both.

use super::value::lowest;
use super::{HeadScope, Limit, Name, Scope, Value};
use crate::basis::Basis;
use crate::length::Length;

pub(super) const PROTRUDING: Scope = Scope { head: Some(HeadScope::Protruding), ..Scope::ANY };
pub(super) const FLUSH: Scope = Scope { head: Some(HeadScope::Flush), ..Scope::ANY };

pub(super) const fn at(name: Name, scope: Scope, value: Value, basis: Basis<'static>) -> Limit<'static> {
    Limit { name, scope, value, basis }
}

pub(super) const fn length(name: Name, scope: Scope, ten_thousandths: u16, basis: Basis<'static>) -> Limit<'static> {
    at(name, scope, Value::Length(Length::from_ten_thousandths(ten_thousandths)), basis)
}

/// For one standard diameter, given by its dash number.
pub(super) const fn sized(name: Name, dash: i16, ten_thousandths: u16, basis: Basis<'static>) -> Limit<'static> {
    length(name, of_size(dash), ten_thousandths, basis)
}

pub(super) const fn of_size(dash: i16) -> Scope {
    Scope { diameter: Some(Length::from_64ths(dash.saturating_mul(2))), ..Scope::ANY }
}

pub(super) const fn diameters(name: Name, scope: Scope, num: u32, den: u32, basis: Basis<'static>) -> Limit<'static> {
    diameters_plus(name, scope, num, den, 0, basis)
}

pub(super) const fn diameters_plus(
    name: Name,
    scope: Scope,
    num: u32,
    den: u32,
    plus_64ths: i16,
    basis: Basis<'static>,
) -> Limit<'static> {
    let (num, den) = lowest(num, den);
    at(name, scope, Value::Diameters { num, den, plus: Length::from_64ths(plus_64ths) }, basis)
}

pub(super) const fn fraction(name: Name, scope: Scope, num: u32, den: u32, basis: Basis<'static>) -> Limit<'static> {
    at(name, scope, Value::Fraction { num, den }, basis)
}

pub(super) const fn count(name: Name, scope: Scope, count: u32, basis: Basis<'static>) -> Limit<'static> {
    at(name, scope, Value::Count(count), basis)
}

const fn over_shank(name: Name, ten_thousandths: u16, basis: Basis<'static>) -> Limit<'static> {
    at(name, Scope::ANY, Value::OverShank(Length::from_ten_thousandths(ten_thousandths)), basis)
}

pub(super) const HDBK5_DRILLS: Basis<'static> = Basis::memory("MIL-HDBK-5", "table 8.1.2(a), nominal holes");
const AIRFRAME_SHEETS: Basis<'static> =
    Basis::memory("US military riveting standards", "thinnest sheet for a 100 degree machine countersink");
const SPEC_PATTERN: Basis<'static> = Basis::published("MIL-R-47196A", "repairs in one pattern, text excerpt");
pub(super) const NAVY_SPACING: Basis<'static> = Basis::published("NAVEDTRA 14018", "ch 13, Spacing and Edge Distance");

/// The figures that both practices share, in the order of the calculation.
#[rustfmt::skip]
pub(super) const LIMITS: &[Limit<'static>] = &[
    // choosing a rivet
    diameters(Name::TailGreatest, Scope::ANY, 2, 1, Basis::practice("a tail of more than about 2 D folds over; forging rules allow 3 D gathered in one blow")),
    fraction(Name::DiameterPerThicknessLeast, Scope::ANY, 1, 1, NAVY_SPACING),
    fraction(Name::DiameterPerThicknessGreatest, Scope::ANY, 3, 1, NAVY_SPACING),
    at(Name::DiameterStructuralLeast, Scope::ANY, Value::Length(Length::from_64ths(6)), Basis::published("NAVEDTRA 14018", "ch 13, smallest rivet in structure: 3/32 in")),
    // driven heads
    diameters(Name::HeadDiameterTarget, Scope::ANY, 3, 2, Basis::published("FAA-H-8083-31", "ch 4, Solid Shank Rivet")),
    diameters(Name::HeadHeightTarget, Scope::ANY, 1, 2, Basis::published("AC 43.13-1B", "figure 4-6(a), secondary quotation")),
    diameters(Name::HeadHeightGreatest, Scope::ANY, 66, 100, Basis::memory("FAA-H-8083-31", "ch 4 fig 4-97, driven rivet standards; also recalled as 0.65 D")),
    fraction(Name::ToolMarkDepthGreatest, PROTRUDING, 1, 4, Basis::published("MIL-STD-403C", "para 5.2.7.5, secondary quotation")),
    // holes; for the two largest sizes the drill itself is wider than the clearance rule would allow
    over_shank(Name::HoleDrill, 0, Basis::memory("computed", "the smallest drill that clears the largest shank, from recalled shanks")),
    sized(Name::HoleGreatest, 10, 3230, HDBK5_DRILLS),
    sized(Name::HoleGreatest, 12, 3860, HDBK5_DRILLS),
    over_shank(Name::HoleGreatest, 40, Basis::memory("AC 65-15A", "ch 5, rivet holes: .002 to .004 in over the shank, here over the largest shank")),
    sized(Name::CountersinkSheetLeast, 3, 320, AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 4, 400, AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 5, 500, AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 6, 630, AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 8, 900, AIRFRAME_SHEETS),
    fraction(Name::CountersinkDepthShare, FLUSH, 1, 1, Basis::published("AC 65-15A", "ch 5, secondary quotation: the sheet is thicker than the head")),
    fraction(Name::CountersinkDepthPreferred, FLUSH, 2, 3, Basis::practice("two thirds of the sheet, so that a straight land is left")),
    length(Name::DimpleSheetGreatest, FLUSH, 400, Basis::published("AC 65-15A", "ch 5 fig 5-47, secondary quotation")),
    fraction(Name::PatternStepsShare, Scope::ANY, 1, 5, SPEC_PATTERN),
    count(Name::PatternStepsCount, Scope::ANY, 10, SPEC_PATTERN),
    count(Name::NeighboursStepped, Scope::ANY, 2, SPEC_PATTERN),
    // layout
    diameters(Name::TransversePitchLeast, Scope::ANY, 5, 2, Basis::memory("FAA-H-8083-31", "ch 4, transverse pitch; the two-row lap of the FAA airframe question bank agrees")),
    // strength; other texts give a fixity of up to 4, see `joint::buckling::FIXITIES`
    fraction(Name::InterRivetFixity, PROTRUDING, 3, 1, Basis::memory("NACA TN 3785", "p 15, brazier heads, taken for every protruding head")),
    fraction(Name::InterRivetFixity, FLUSH, 1, 1, Basis::memory("NACA TN 3785", "p 15, countersunk heads")),
    fraction(Name::InterRivetElasticShare, Scope::ANY, 1, 2, Basis::memory("aircraft structures practice", "elastic below about half of the compression yield stress")),
    // access and removal; AC 43.13-1B para 4-52b prints the rivet's own diameter for the drill, one size smaller spares the hole
    length(Name::BarThickness, Scope::ANY, 5_000, Basis::practice("the least bar that is worth holding; measure your own")),
    count(Name::RemovalDrillBelow, Scope::ANY, 1, Basis::published("FAA airframe question bank", "rivet removal, as reprinted; AC 43.13-1B para 4-52b prints the rivet's diameter")),
    diameters(Name::RemovalThickPack, Scope::ANY, 3, 1, Basis::practice("a long shank sits tight and turns in its hole")),
    count(Name::RemovalManyLayers, Scope::ANY, 4, Basis::practice("burrs and shifts between many layers hold the shank")),
    length(Name::RemovalThinFarSide, Scope::ANY, 320, Basis::practice("thin metal under the driven head bends when the shank is punched out")),
];
