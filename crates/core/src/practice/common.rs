//! What both built-in practices share: how a row is written, and the figures that stand in both.

use super::value::lowest;
use super::{HeadScope, Limit, Name, Rounding, Scope, Value};
use crate::basis::Basis;
use crate::length::Length;
use crate::material::RivetAlloy;

/// One row of a built-in table: a [`Limit`](super::Limit) in a quarter of its room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Row {
    pub(super) name: Name,
    pub(super) scope: RowScope,
    value: RowValue,
    pub(super) basis: Basis,
}

/// The scope of a row, with standard diameters by their dash number; zero is any.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct RowScope {
    pub(super) head: Option<HeadScope>,
    pub(super) alloy: Option<RivetAlloy>,
    pub(super) dash: u8,
    pub(super) rows: u8,
}

/// The value of a row in the units of the printed tables.
#[derive(Clone, Copy, Debug, PartialEq)]
enum RowValue {
    TenThousandths(u16),
    SixtyFourths(u8),
    Diameters {
        num: u8,
        den: u8,
        plus_64ths: u8,
    },
    /// In ten-thousandths.
    OverShank(u16),
    Fraction {
        num: u8,
        den: u8,
    },
    Count(u8),
    Rounding(Rounding),
}

impl Row {
    /// The same as a limit.
    pub(super) fn limit(&self) -> Limit {
        Limit { name: self.name, scope: self.scope.scope(), value: self.value(), basis: self.basis }
    }

    pub(super) fn value(&self) -> Value {
        let whole = |of: u8| u32::from(of);
        match self.value {
            RowValue::TenThousandths(count) => Value::Length(Length::from_ten_thousandths(count)),
            RowValue::SixtyFourths(count) => Value::Length(Length::from_64ths(i16::from(count))),
            RowValue::Diameters { num, den, plus_64ths } => {
                let plus = Length::from_64ths(i16::from(plus_64ths));
                Value::Diameters { num: whole(num), den: whole(den), plus }
            }
            RowValue::OverShank(count) => Value::OverShank(Length::from_ten_thousandths(count)),
            RowValue::Fraction { num, den } => Value::Fraction { num: whole(num), den: whole(den) },
            RowValue::Count(count) => Value::Count(whole(count)),
            RowValue::Rounding(rounding) => Value::Rounding(rounding),
        }
    }
}

impl RowScope {
    pub(super) const ANY: RowScope = RowScope { head: None, alloy: None, dash: 0, rows: 0 };

    pub(super) fn scope(&self) -> Scope {
        let given = |of: u8| Some(of).filter(|of| *of > 0);
        let diameter = given(self.dash).map(|dash| Length::from_64ths(i16::from(dash).saturating_mul(2)));
        Scope { head: self.head, alloy: self.alloy, diameter, rows: given(self.rows) }
    }
}

pub(super) const ANY: RowScope = RowScope::ANY;
pub(super) const PROTRUDING: RowScope = RowScope { head: Some(HeadScope::Protruding), ..ANY };
pub(super) const FLUSH: RowScope = RowScope { head: Some(HeadScope::Flush), ..ANY };

const fn at(name: Name, scope: RowScope, value: RowValue, basis: Basis) -> Row {
    Row { name, scope, value, basis }
}

pub(super) const fn length(name: Name, scope: RowScope, ten_thousandths: u16, basis: Basis) -> Row {
    at(name, scope, RowValue::TenThousandths(ten_thousandths), basis)
}

pub(super) const fn rounding(name: Name, rounding: Rounding, basis: Basis) -> Row {
    at(name, ANY, RowValue::Rounding(rounding), basis)
}

/// For one standard diameter, given by its dash number.
pub(super) const fn sized(name: Name, dash: u8, ten_thousandths: u16, basis: Basis) -> Row {
    length(name, of_size(dash), ten_thousandths, basis)
}

pub(super) const fn of_size(dash: u8) -> RowScope {
    RowScope { dash, ..ANY }
}

pub(super) const fn diameters(name: Name, scope: RowScope, num: u8, den: u8, basis: Basis) -> Row {
    diameters_plus(name, scope, num, den, 0, basis)
}

pub(super) const fn diameters_plus(name: Name, scope: RowScope, num: u8, den: u8, plus_64ths: u8, basis: Basis) -> Row {
    // No greater than they were.
    let (num, den) = lowest(num as u32, den as u32);
    at(name, scope, RowValue::Diameters { num: num as u8, den: den as u8, plus_64ths }, basis)
}

pub(super) const fn fraction(name: Name, scope: RowScope, num: u8, den: u8, basis: Basis) -> Row {
    at(name, scope, RowValue::Fraction { num, den }, basis)
}

pub(super) const fn count(name: Name, scope: RowScope, count: u8, basis: Basis) -> Row {
    at(name, scope, RowValue::Count(count), basis)
}

const fn over_shank(name: Name, ten_thousandths: u16, basis: Basis) -> Row {
    at(name, ANY, RowValue::OverShank(ten_thousandths), basis)
}

/// The figures that both practices share, in the order of the calculation.
#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // choosing a rivet
    diameters(Name::TailGreatest, ANY, 2, 1, Basis::TAIL_FOLDS_OVER),
    fraction(Name::DiameterPerThicknessLeast, ANY, 1, 1, Basis::NAVY_14018_SPACING),
    fraction(Name::DiameterPerThicknessGreatest, ANY, 3, 1, Basis::NAVY_14018_SPACING),
    at(Name::DiameterStructuralLeast, ANY, RowValue::SixtyFourths(6), Basis::NAVY_14018_SMALLEST),
    // driven heads
    diameters(Name::HeadDiameterTarget, ANY, 3, 2, Basis::FAA_31_SOLID_SHANK),
    diameters(Name::HeadHeightTarget, ANY, 1, 2, Basis::AC43_F4_6A),
    diameters(Name::HeadHeightGreatest, ANY, 66, 100, Basis::FAA_31_F4_97_HEIGHT),
    fraction(Name::ToolMarkDepthGreatest, PROTRUDING, 1, 4, Basis::STD_403C_TOOL_MARKS),
    // holes; for the two largest sizes the drill itself is wider than the clearance rule would allow
    over_shank(Name::HoleDrill, 0, Basis::SMALLEST_CLEARING_DRILL),
    sized(Name::HoleGreatest, 10, 3230, Basis::HDBK5_NOMINAL_HOLES),
    sized(Name::HoleGreatest, 12, 3860, Basis::HDBK5_NOMINAL_HOLES),
    over_shank(Name::HoleGreatest, 40, Basis::AC65_HOLES),
    sized(Name::CountersinkSheetLeast, 3, 320, Basis::AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 4, 400, Basis::AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 5, 500, Basis::AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 6, 630, Basis::AIRFRAME_SHEETS),
    sized(Name::CountersinkSheetLeast, 8, 900, Basis::AIRFRAME_SHEETS),
    fraction(Name::CountersinkDepthShare, FLUSH, 1, 1, Basis::AC65_COUNTERSINK),
    fraction(Name::CountersinkDepthPreferred, FLUSH, 2, 3, Basis::STRAIGHT_LAND),
    length(Name::DimpleSheetGreatest, FLUSH, 400, Basis::AC65_F5_47),
    fraction(Name::PatternStepsShare, ANY, 1, 5, Basis::SPEC_47196_PATTERN),
    count(Name::PatternStepsCount, ANY, 10, Basis::SPEC_47196_PATTERN),
    count(Name::NeighboursStepped, ANY, 2, Basis::SPEC_47196_PATTERN),
    // layout
    diameters(Name::TransversePitchLeast, ANY, 5, 2, Basis::FAA_31_TRANSVERSE_PITCH),
    // strength; other texts give a fixity of up to 4, see `joint::buckling::FIXITIES`
    fraction(Name::InterRivetFixity, PROTRUDING, 3, 1, Basis::TN3785_PROTRUDING),
    fraction(Name::InterRivetFixity, FLUSH, 1, 1, Basis::TN3785_COUNTERSUNK),
    fraction(Name::InterRivetElasticShare, ANY, 1, 2, Basis::BUCKLING_ELASTIC),
    // access and removal; AC 43.13-1B para 4-52b prints the rivet's own diameter for the drill, one size smaller spares the hole
    length(Name::BarThickness, ANY, 5_000, Basis::LEAST_BAR),
    count(Name::RemovalDrillBelow, ANY, 1, Basis::QUESTION_BANK_REMOVAL),
    diameters(Name::RemovalThickPack, ANY, 3, 1, Basis::LONG_SHANK),
    count(Name::RemovalManyLayers, ANY, 4, Basis::MANY_LAYERS),
    length(Name::RemovalThinFarSide, ANY, 320, Basis::THIN_FAR_SIDE),
];
