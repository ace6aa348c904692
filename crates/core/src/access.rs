//! Whether a row can be bucked in a work position, and whether it must be.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Severity};
use crate::length::Length;
use crate::practice::{Case, Given, Name, Practice};
use crate::structure::{Member, Place, Structure};

/// Why a row takes driven solid rivets only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SolidBecause {
    /// The structure is named primary.
    Primary,
    /// The row runs along a spar cap or a longeron.
    Member(Member),
    /// The documents bar blind rivets in this place.
    Place(Place),
}

/// Whether a row must take driven solid rivets, why, and where that stands. The best supported reason is given.
///
/// ```
/// use shophead::access::{SolidBecause, solid_required};
/// use shophead::structure::{Member, Place, Structure};
/// let hull = solid_required(Structure::Secondary, Member::Skin, &[Place::BelowWaterLine]).unwrap();
/// assert_eq!(hull.value, SolidBecause::Place(Place::BelowWaterLine));
/// assert_eq!(solid_required(Structure::Secondary, Member::Rib, &[]), None);
/// ```
#[must_use]
pub fn solid_required(structure: Structure, member: Member, places: &[Place]) -> Option<Given<'static, SolidBecause>> {
    let by_place = places.iter().map(|place| Given { value: SolidBecause::Place(*place), basis: place_basis(*place) });
    let by_structure =
        (structure == Structure::Primary).then_some(Given { value: SolidBecause::Primary, basis: PRIMARY });
    let by_member = matches!(member, Member::SparCap | Member::Longeron)
        .then_some(Given { value: SolidBecause::Member(member), basis: SPAR_LINES });
    by_place.chain(by_structure).chain(by_member).min_by_key(|given| given.basis.status)
}

const PRIMARY: Basis<'static> = Basis::practice("rows on primary structure take driven solid rivets");
const SPAR_LINES: Basis<'static> = Basis::practice("spar and longeron lines take driven solid rivets");
const NO_BAR: Basis<'static> = Basis::practice("no bar thickness is given");

/// Where the rules of this module stand, one a line; the tables and limits it uses list their own.
pub const BASES: &[(&str, Basis<'static>)] = &[
    ("rows that must be bucked: primary structure", PRIMARY),
    ("rows that must be bucked: spar and longeron lines", SPAR_LINES),
    ("room behind a row without a bar thickness", NO_BAR),
];

/// Where the documents bar blind rivets.
fn place_basis(place: Place) -> Basis<'static> {
    match place {
        Place::FluidTight => Basis::published("FAA-H-8083-31", "ch 4; AC 43.13-1B para 4-57f(1) from memory"),
        Place::BelowWaterLine => {
            Basis::published("FAA-H-8083-31", "ch 4, Typical Repairs, Floats; AC 43.13-1B para 4-57f(2) from memory")
        }
        Place::AirIntake | Place::Control | Place::MainFitting | Place::HeavilyStressed => {
            Basis::memory("AC 43.13-1B", "para 4-57f(2)")
        }
    }
}

/// The room behind a row in a work position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Clearance {
    /// Nobody can get a bar behind it.
    Closed,
    /// This far from the far side of the pack.
    Room(Length),
    /// More than any bar needs.
    Open,
}

/// The room that bucking needs: the tail before driving and the bar behind it.
///
/// `None` when the practice gives no bar.
#[must_use]
pub fn clearance_needed<'a>(tail: Length, practice: &Practice<'a>, case: &Case) -> Option<Given<'a, Length>> {
    let bar = practice.length(Name::BarThickness, case)?;
    Some(Given { value: tail.plus(bar.value), basis: bar.basis })
}

/// What stops a row from being bucked, or `None` when it can be.
///
/// ```
/// use shophead::access::{Clearance, cannot_buck};
/// use shophead::length::Length;
/// use shophead::material::RivetAlloy;
/// use shophead::practice::{Case, HANDBOOK};
/// use shophead::rivet::Head;
/// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
/// let tail = Length::parse("3/16")?;
/// assert!(cannot_buck(Clearance::Room(Length::parse(".5")?), tail, &HANDBOOK, &case).is_some());
/// assert!(cannot_buck(Clearance::Room(Length::parse("3/4")?), tail, &HANDBOOK, &case).is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn cannot_buck<'a>(
    clearance: Clearance,
    tail: Length,
    practice: &Practice<'a>,
    case: &Case,
) -> Option<Finding<'a>> {
    let blocked = |basis| Finding::new(Code::CannotBuck, Severity::Caution, basis);
    let Some(needed) = clearance_needed(tail, practice, case) else {
        return match clearance {
            Clearance::Open => None,
            Clearance::Closed | Clearance::Room(_) => Some(blocked(NO_BAR)),
        };
    };
    match clearance {
        Clearance::Open => None,
        Clearance::Room(room) if room >= needed.value => None,
        Clearance::Room(room) => {
            Some(blocked(needed.basis).measured(Figure::Length(room)).limit(Figure::Length(needed.value)))
        }
        Clearance::Closed => {
            Some(blocked(needed.basis).measured(Figure::Length(Length::ZERO)).limit(Figure::Length(needed.value)))
        }
    }
}
