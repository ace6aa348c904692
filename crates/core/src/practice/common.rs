//! What both built-in practices share: how a row is written, and the figures that stand in neither's own documents.

use super::value::lowest;
use super::{HeadScope, LengthRounding, Limit, Name, Scope, Value};
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
    pub(super) stepped: bool,
}

/// A printed column: a length for every size from 1/16 to 13/32 in, in ten-thousandths; zero where the column is empty.
pub(super) type Sizes = [u16; 12];

/// Lengths between the sizes of such a column, from 5/64 to 25/64 in.
pub(super) type Midway = [u16; 11];

/// Sixty-fourths of an inch of the first size of a column, and from one to the next.
const FIRST_SIZE: i16 = 4;
const NEXT_SIZE: i16 = 2;
const FIRST_MIDWAY: i16 = 5;

/// The value of a row in the units of the printed tables.
#[derive(Clone, Copy, Debug, PartialEq)]
enum RowValue {
    TenThousandths(u16),
    SixtyFourths(u16),
    Sizes(&'static Sizes),
    Midway(&'static Midway),
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
    /// A share.
    Thousandths(u16),
    Count(u8),
    Rounding(LengthRounding),
}

impl Row {
    /// The limits that it stands for: one, or one for every size of a column.
    pub(super) fn limits(&'static self) -> impl Iterator<Item = Limit> {
        let one = if self.column().is_none() { Some((self.scope.scope(), self.value())) } else { None };
        let (column, first) = self.column().unwrap_or((&[], 0));
        let sizes = column.iter().zip(0_i16..).filter(|(cell, _)| **cell > 0).map(move |(cell, place)| {
            let diameter = Length::from_64ths(first.saturating_add(place.saturating_mul(NEXT_SIZE)));
            (self.scope.of_diameter(diameter), Value::Length(Length::from_ten_thousandths(*cell)))
        });
        one.into_iter().chain(sizes).map(|(scope, value)| Limit { name: self.name, scope, value, basis: self.basis })
    }

    /// The limit for rivets of this diameter, if any.
    pub(super) fn limit_for(&self, diameter: Length) -> Option<Limit> {
        let (scope, value) = match self.column() {
            None => (self.scope.scope(), self.value()),
            Some((column, first)) => {
                // In 32 bits, whose division every processor here has.
                let nanometres = |length: Length| u32::try_from(length.nanometres()).ok();
                let past = nanometres(diameter.minus(Length::from_64ths(first)))?;
                let step = nanometres(Length::from_64ths(NEXT_SIZE))?;
                let place = past.checked_div(step).filter(|_| past.checked_rem(step) == Some(0))?;
                let cell = column.get(usize::try_from(place).ok()?).filter(|cell| **cell > 0)?;
                (self.scope.of_diameter(diameter), Value::Length(Length::from_ten_thousandths(*cell)))
            }
        };
        Some(Limit { name: self.name, scope, value, basis: self.basis })
    }

    const fn column(&self) -> Option<(&'static [u16], i16)> {
        match self.value {
            RowValue::Sizes(column) => Some((column, FIRST_SIZE)),
            RowValue::Midway(column) => Some((column, FIRST_MIDWAY)),
            _ => None,
        }
    }

    /// The value of a row that is no column.
    pub(super) fn value(&self) -> Value {
        let whole = |of: u8| u32::from(of);
        match self.value {
            RowValue::TenThousandths(count) => Value::Length(Length::from_ten_thousandths(count)),
            RowValue::SixtyFourths(count) => {
                Value::Length(Length::from_64ths(i16::try_from(count).unwrap_or(i16::MAX)))
            }
            RowValue::Sizes(_) | RowValue::Midway(_) => Value::Length(Length::ZERO),
            RowValue::Diameters { num, den, plus_64ths } => {
                let plus = Length::from_64ths(i16::from(plus_64ths));
                Value::Diameters { num: whole(num), den: whole(den), plus }
            }
            RowValue::OverShank(count) => Value::OverShank(Length::from_ten_thousandths(count)),
            RowValue::Fraction { num, den } => Value::Fraction { num: whole(num), den: whole(den) },
            RowValue::Thousandths(count) => {
                let (num, den) = lowest(u32::from(count), 1_000);
                Value::Fraction { num, den }
            }
            RowValue::Count(count) => Value::Count(whole(count)),
            RowValue::Rounding(rounding) => Value::Rounding(rounding),
        }
    }
}

impl RowScope {
    pub(super) const ANY: RowScope = RowScope { head: None, alloy: None, dash: 0, rows: 0, stepped: false };

    pub(super) fn scope(&self) -> Scope {
        let given = |of: u8| Some(of).filter(|of| *of > 0);
        let diameter = given(self.dash).map(|dash| Length::from_64ths(i16::from(dash).saturating_mul(2)));
        Scope { head: self.head, alloy: self.alloy, diameter, rows: given(self.rows), stepped: self.stepped }
    }

    /// The same for rivets of one diameter only.
    fn of_diameter(&self, diameter: Length) -> Scope {
        Scope { diameter: Some(diameter), ..self.scope() }
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

pub(super) const fn rounding(name: Name, rounding: LengthRounding, basis: Basis) -> Row {
    at(name, ANY, RowValue::Rounding(rounding), basis)
}

/// A printed column.
pub(super) const fn sizes(name: Name, scope: RowScope, column: &'static Sizes, basis: Basis) -> Row {
    at(name, scope, RowValue::Sizes(column), basis)
}

/// What lies midway between the sizes of a printed column.
pub(super) const fn midway(name: Name, column: &'static Midway, basis: Basis) -> Row {
    at(name, ANY, RowValue::Midway(column), basis)
}

pub(super) const fn sixty_fourths(name: Name, scope: RowScope, count: u16, basis: Basis) -> Row {
    at(name, scope, RowValue::SixtyFourths(count), basis)
}

/// A share of so many thousandths.
pub(super) const fn thousandths(name: Name, scope: RowScope, count: u16, basis: Basis) -> Row {
    at(name, scope, RowValue::Thousandths(count), basis)
}

pub(super) const fn of_size(dash: u8) -> RowScope {
    RowScope { dash, ..ANY }
}

pub(super) const fn of_alloy(alloy: RivetAlloy) -> RowScope {
    RowScope { alloy: Some(alloy), ..ANY }
}

/// After a step up, under these heads.
pub(super) const fn stepped(head: HeadScope) -> RowScope {
    RowScope { head: Some(head), stepped: true, ..ANY }
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

/// What stands in neither practice's own documents, in the order of the calculation.
#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // choosing a rivet
    diameters(Name::RuleOfThumbTail, ANY, 3, 2, Basis::FAA_31_F4_76),
    rounding(Name::LengthRounding, LengthRounding::Nearest, Basis::QUESTION_BANK_LENGTH),
    diameters(Name::TailGreatest, ANY, 2, 1, Basis::TAIL_FOLDS_OVER),
    fraction(Name::DiameterPerThicknessLeast, ANY, 1, 1, Basis::NAVY_14018_SPACING),
    fraction(Name::DiameterPerThicknessTarget, ANY, 3, 1, Basis::FAA_31B_DIAMETER),
    fraction(Name::DiameterPerThicknessGreatest, ANY, 3, 1, Basis::NAVY_14018_SPACING),
    sixty_fourths(Name::DiameterStructuralLeast, ANY, 6, Basis::NAVY_14018_SMALLEST),
    // driven heads
    diameters(Name::HeadDiameterForStrength, of_alloy(RivetAlloy::Al7050), 14, 10, Basis::HDBK5H_DRIVEN_HEADS),
    diameters(Name::HeadDiameterTarget, ANY, 3, 2, Basis::FAA_31_SOLID_SHANK),
    sizes(Name::HeadDiameterGreatest, ANY, &[1100, 1600, 2100, 2700, 3200, 0, 4300, 0, 5300, 0, 6400, 0], Basis::TRAINING_SHEET),
    diameters(Name::HeadDiameterGreatest, ANY, 168, 100, Basis::TRAINING_SHEET_PATTERN),
    diameters(Name::HeadHeightTarget, ANY, 1, 2, Basis::AC43_F4_6A),
    diameters(Name::HeadHeightGreatest, ANY, 64, 100, Basis::TRAINING_SHEET_PATTERN),
    sizes(Name::MetalHeightGreatest, ANY, &[400, 600, 800, 1000, 1200, 0, 1700, 0, 2100, 0, 2500, 0], Basis::TRAINING_SHEET),
    diameters(Name::MetalHeightGreatest, ANY, 64, 100, Basis::TRAINING_SHEET_PATTERN),
    fraction(Name::ToolMarkDepthGreatest, PROTRUDING, 1, 4, Basis::STD_403C_TOOL_MARKS),
    // holes of the sizes that the process specification leaves out: oversize shanks
    over_shank(Name::HoleDrill, 0, Basis::SMALLEST_CLEARING_DRILL),
    over_shank(Name::HoleDrilledGreatest, 40, Basis::AC65_HOLES),
    over_shank(Name::HoleGreatest, 40, Basis::AC65_HOLES),
    length(Name::CleanUpLeast, ANY, 10, Basis::DAMAGE_OUT),
    fraction(Name::CountersinkDepthShare, FLUSH, 1, 1, Basis::AC65_COUNTERSINK),
    fraction(Name::CountersinkDepthPreferred, FLUSH, 2, 3, Basis::STRAIGHT_LAND),
    length(Name::DimpleSheetGreatest, FLUSH, 400, Basis::AC65_F5_47),
    // layout; for a flush head the circular has no figure of its own, and its 2 D is less than the Army's
    diameters(Name::EdgeDistanceLeast, PROTRUDING, 2, 1, Basis::AC43_EDGE),
    diameters(Name::EdgeDistanceLeast, FLUSH, 5, 2, Basis::ARMY_0992_LAYOUT),
    diameters(Name::EdgeDistanceAsBuiltLeast, ANY, 3, 2, Basis::ARMY_240_EDGE),
    diameters_plus(Name::EdgeDistancePreferred, PROTRUDING, 2, 1, 4, Basis::FAA_31_LAYOUT),
    diameters_plus(Name::EdgeDistancePreferred, FLUSH, 5, 2, 4, Basis::FAA_31_LAYOUT),
    diameters(Name::EdgeDistanceGreatest, ANY, 4, 1, Basis::ARMY_0992_LAYOUT),
    diameters(Name::PitchLeast, ANY, 3, 1, Basis::AC43_EDGE),
    diameters(Name::PitchLeast, RowScope { rows: 2, ..ANY }, 4, 1, Basis::AC43_TWO_ROWS),
    // NAVEDTRA 14018 says seldom over 8 D
    diameters(Name::PitchGreatest, ANY, 10, 1, Basis::ARMY_0992_LAYOUT),
    diameters(Name::TransversePitchLeast, ANY, 5, 2, Basis::FAA_31B_ROWS),
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
