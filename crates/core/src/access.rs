//! Whether a row can be bucked in a work position, whether it must be, which bar goes in, and which position costs the least; where no single
//! one does, which few of them together.

use core::cmp::Ordering;
use core::fmt;

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Severity};
use crate::length::{Length, split_once};
use crate::practice::{Case, Given, Name, Practice};
use crate::setters::setters;
use crate::structure::{Member, Place, Structure};
use crate::words::thousandths;

/// Why a row takes driven solid rivets only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "kebab-case"))]
#[non_exhaustive]
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
pub fn solid_required(structure: Structure, member: Member, places: &[Place]) -> Option<Given<SolidBecause>> {
    let by_place = places.iter().map(|place| Given { value: SolidBecause::Place(*place), basis: place_basis(*place) });
    let by_structure = (structure == Structure::Primary)
        .then_some(Given { value: SolidBecause::Primary, basis: Basis::PRIMARY_STRUCTURE });
    let by_member = matches!(member, Member::SparCap | Member::Longeron)
        .then_some(Given { value: SolidBecause::Member(member), basis: Basis::SPAR_LINES });
    by_place.chain(by_structure).chain(by_member).min_by_key(|given| given.basis.status())
}

/// Where the documents bar blind rivets.
const fn place_basis(place: Place) -> Basis {
    match place {
        Place::FluidTight => Basis::AC43_FLUID_TIGHT,
        Place::BelowWaterLine => Basis::AC43_BELOW_WATER,
        Place::AirIntake | Place::Control | Place::MainFitting | Place::HeavilyStressed => Basis::AC43_HEAVILY_STRESSED,
    }
}

/// The room behind a row in a work position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Clearance {
    /// Nobody can get a bar behind it.
    Closed,
    /// This far from the far side of the stack.
    Room(Length),
    /// More than any bar needs.
    Open,
}

/// The room that bucking needs: the tail before driving and the bar behind it.
///
/// `None` when the practice gives no bar.
#[must_use]
pub fn clearance_needed(tail: Length, practice: &Practice<'_>, case: &Case) -> Option<Given<Length>> {
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
pub fn cannot_buck(clearance: Clearance, tail: Length, practice: &Practice<'_>, case: &Case) -> Option<Finding> {
    let blocked = |basis| Finding::new(Code::CannotBuck, Severity::Caution, basis);
    let Some(needed) = clearance_needed(tail, practice, case) else {
        return match clearance {
            Clearance::Open => None,
            Clearance::Closed | Clearance::Room(_) => Some(blocked(Basis::NO_BAR)),
        };
    };
    match clearance {
        Clearance::Open => None,
        Clearance::Room(room) if room >= needed.value => None,
        Clearance::Room(room) => {
            Some(blocked(needed.basis).with_measured(Figure::Length(room)).with_limit(Figure::Length(needed.value)))
        }
        Clearance::Closed => Some(
            blocked(needed.basis).with_measured(Figure::Length(Length::ZERO)).with_limit(Figure::Length(needed.value)),
        ),
    }
}

/// The bar that goes in behind a rivet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Bar {
    /// Any.
    Any,
    /// One no thicker than this.
    UpTo(Length),
    /// None: the tail alone fills the room, or nobody gets behind it.
    None,
}

/// The bar that goes in behind a tail.
///
/// ```
/// use shophead::access::{Bar, Clearance, bar_that_goes_in};
/// use shophead::length::Length;
/// let tail = Length::parse(".224")?;
/// assert_eq!(bar_that_goes_in(Clearance::Room(Length::parse("3/8")?), tail), Bar::UpTo(Length::parse(".151")?));
/// assert_eq!(bar_that_goes_in(Clearance::Room(Length::parse("3/16")?), tail), Bar::None);
/// assert_eq!(bar_that_goes_in(Clearance::Open, tail), Bar::Any);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn bar_that_goes_in(clearance: Clearance, tail: Length) -> Bar {
    match clearance {
        Clearance::Open => Bar::Any,
        Clearance::Closed => Bar::None,
        Clearance::Room(room) if room > tail => Bar::UpTo(room.minus(tail)),
        Clearance::Room(_) => Bar::None,
    }
}

/// A time, in whole thousandths of a minute.
///
/// ```
/// use shophead::access::Minutes;
/// let each = Minutes::parse("1.25")?;
/// assert_eq!(each.times(48).to_string(), "60");
/// assert_eq!(Minutes::parse(".5")?.plus(each).to_string(), "1.75");
/// # Ok::<(), shophead::access::ParseMinutesError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Minutes(u64);

crate::words::errors! {
    /// Why a text is no number of minutes.
    ParseMinutesError {
        NotMinutes = _, "not-minutes", "No decimal with a point, to a thousandth, up to 100000.",
            "not a number of minutes; right would be 30 or 1.25, to a thousandth and up to 100000";
    }
}

impl Minutes {
    const PLACES: usize = 3;
    const THOUSANDTHS: u64 = 1_000;
    /// More is a slip of the keyboard.
    const GREATEST: u64 = 100_000;

    /// Reads a decimal with a point, to a thousandth, up to 100000.
    ///
    /// # Errors
    /// [`ParseMinutesError`].
    pub fn parse(text: &str) -> Result<Minutes, ParseMinutesError> {
        let (whole, places) = split_once(text, |c| c == '.').unwrap_or((text, ""));
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() && places.is_empty() || !digits(whole) || !digits(places) || places.len() > Minutes::PLACES
        {
            return Err(ParseMinutesError::NotMinutes);
        }
        let number = |text: &str| if text.is_empty() { Ok(0) } else { text.parse::<u64>() };
        let (Ok(whole), Ok(mut part)) = (number(whole), number(places)) else {
            return Err(ParseMinutesError::NotMinutes);
        };
        for _ in places.len()..Minutes::PLACES {
            part = part.saturating_mul(10);
        }
        let time = whole.saturating_mul(Minutes::THOUSANDTHS).saturating_add(part);
        let greatest = Minutes::GREATEST.saturating_mul(Minutes::THOUSANDTHS);
        if time > greatest { Err(ParseMinutesError::NotMinutes) } else { Ok(Minutes(time)) }
    }

    /// In thousandths of a minute.
    #[must_use]
    pub const fn thousandths(self) -> u64 {
        self.0
    }

    /// Both together.
    #[must_use]
    pub const fn plus(self, other: Minutes) -> Minutes {
        Minutes(self.0.saturating_add(other.0))
    }

    /// So many times.
    #[must_use]
    pub const fn times(self, count: u32) -> Minutes {
        Minutes(self.0.saturating_mul(count as u64))
    }
}

/// A decimal without idle zeros.
impl fmt::Display for Minutes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        /// Digits that one `u32` holds whatever they are: the standard library's printer of 64 bits can panic as far as a linker can tell.
        const GROUP: u64 = 1_000_000_000;
        let narrow = |part: u64| u32::try_from(part).unwrap_or(u32::MAX);
        let split =
            |of: u64, by: u64| (narrow(of.checked_div(by).unwrap_or(0)), narrow(of.checked_rem(by).unwrap_or(0)));
        let (whole, part) =
            (self.0.checked_div(Minutes::THOUSANDTHS).unwrap_or(0), split(self.0, Minutes::THOUSANDTHS).1);
        match split(whole, GROUP) {
            (0, whole) => write!(f, "{whole}")?,
            (groups, rest) => write!(f, "{groups}{rest:09}")?,
        }
        if part == 0 { Ok(()) } else { thousandths(f, part) }
    }
}

/// A shop's own minutes per operation; what is not given is not counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Rates {
    /// Taking one old rivet out.
    pub drill_out: Option<Minutes>,
    /// Driving one rivet where there is more room than any bar needs.
    pub drive_open: Option<Minutes>,
    /// Driving one rivet where the room behind it was measured.
    pub drive_close: Option<Minutes>,
}

impl Rates {
    setters! {
        /// Taking one old rivet out.
        drill_out: Option<Minutes>;
        /// Driving one rivet where there is more room than any bar needs.
        drive_open: Option<Minutes>;
        /// Driving one rivet where the room behind it was measured.
        drive_close: Option<Minutes>;
    }
}

/// A row, or holes of it that have room of their own, as seen from one position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct RowWork {
    /// Whether it takes driven rivets only.
    pub must: bool,
    /// How many rivets it has.
    pub rivets: u32,
    /// The room behind it.
    pub clearance: Clearance,
    /// The room that bucking needs; `None` where that is not known.
    pub needed: Option<Length>,
}

impl RowWork {
    /// So many rivets, with this room behind them; how much bucking needs is not known.
    #[must_use]
    pub const fn new(must: bool, rivets: u32, clearance: Clearance) -> RowWork {
        RowWork { must, rivets, clearance, needed: None }
    }

    setters! {
        /// The room behind it.
        clearance: Clearance;
        /// The room that bucking needs.
        needed: Option<Length>;
    }
}

impl RowWork {
    /// Whether it can be bucked: as [`cannot_buck`] has it. Where there is no rivet nothing stops it.
    #[must_use]
    pub fn is_reachable(&self) -> bool {
        match self.clearance {
            _ if self.rivets == 0 => true,
            Clearance::Open => true,
            Clearance::Closed => false,
            Clearance::Room(room) => self.needed.is_some_and(|needed| room >= needed),
        }
    }

    /// How much room is missing; all of it where no bar goes in. `None` where nothing is missing, or nobody knows how much is needed.
    #[must_use]
    pub fn missing(&self) -> Option<Length> {
        let room = match self.clearance {
            Clearance::Open => return None,
            Clearance::Closed => Length::ZERO,
            Clearance::Room(room) => room,
        };
        self.needed.filter(|needed| room < *needed).map(|needed| needed.minus(room))
    }
}

/// What the work takes in one position, operation by operation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct WorkTime {
    /// Getting into the position.
    pub set_up: Option<Minutes>,
    /// Taking the old rivets out.
    pub drill_out: Option<Minutes>,
    /// Driving the new ones.
    pub drive: Option<Minutes>,
}

impl WorkTime {
    /// All that is known of it; `None` where nothing is.
    #[must_use]
    pub fn total(&self) -> Option<Minutes> {
        [self.set_up, self.drill_out, self.drive].into_iter().flatten().reduce(Minutes::plus)
    }

    /// Whether both know the same operations, so that their totals can be compared.
    fn is_like(&self, other: &WorkTime) -> bool {
        let known = |time: &WorkTime| [time.set_up, time.drill_out, time.drive].map(|part| part.is_some());
        known(self) == known(other)
    }
}

/// A position weighed against others: see [`weigh`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct PositionWork {
    /// Whether every row that takes driven rivets only can be bucked.
    pub serves: bool,
    /// How many rows cannot be bucked.
    pub blocked: u32,
    /// How many of them take driven rivets only.
    pub blocking: u32,
    /// How many of those no bar gets behind, or nobody knows how much room is missing.
    pub closed: u32,
    /// The most room that is missing behind a row that takes driven rivets only.
    pub missing: Length,
    /// The time for the rows that take driven rivets only; where there are none, for all that can be bucked. A row that cannot be bucked here is
    /// not counted.
    pub time: WorkTime,
}

/// Weighs a position: what it lets one do, what it lacks, and what the work takes in it.
///
/// ```
/// use shophead::access::{Clearance, Minutes, Rates, RowWork, weigh};
/// use shophead::length::Length;
/// let row = RowWork::new(true, 20, Clearance::Room(Length::parse("1/2")?)).needed(Length::parse("3/4")?);
/// let rates = Rates::default().drive_open(Minutes::parse("1.5")?);
/// let close = weigh(None, &rates, [row]);
/// assert!(!close.serves);
/// assert_eq!(close.missing, Length::parse("1/4")?);
/// let open = weigh(None, &rates, [row.clearance(Clearance::Open)]);
/// assert_eq!(open.time.total(), Some(Minutes::parse("30")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn weigh(set_up: Option<Minutes>, rates: &Rates, rows: impl IntoIterator<Item = RowWork> + Clone) -> PositionWork {
    let any_must = rows.clone().into_iter().any(|row| row.must);
    let mut work = PositionWork {
        serves: true,
        blocked: 0,
        blocking: 0,
        closed: 0,
        missing: Length::ZERO,
        time: WorkTime { set_up, drill_out: rates.drill_out.map(|_| Minutes(0)), drive: Some(Minutes(0)) },
    };
    for row in rows {
        if !row.is_reachable() {
            work.blocked = work.blocked.saturating_add(1);
            if row.must {
                work.serves = false;
                work.blocking = work.blocking.saturating_add(1);
                let missing = row.missing();
                if row.clearance == Clearance::Closed || missing.is_none() {
                    work.closed = work.closed.saturating_add(1);
                }
                work.missing = work.missing.max(missing.unwrap_or(Length::ZERO));
            }
            continue;
        }
        if any_must && !row.must {
            continue;
        }
        let rate = if row.clearance == Clearance::Open { rates.drive_open } else { rates.drive_close };
        let time = &mut work.time;
        time.drive = time.drive.zip(rate).map(|(sum, rate)| sum.plus(rate.times(row.rivets)));
        time.drill_out = time.drill_out.zip(rates.drill_out).map(|(sum, rate)| sum.plus(rate.times(row.rivets)));
    }
    if rates.drive_open.is_none() && rates.drive_close.is_none() {
        work.time.drive = None;
    }
    work
}

/// The position of least effort in which every row that takes driven rivets only can be bucked.
///
/// The least time where it is known of the same operations for all such positions; otherwise, and between equal times, the one that blocks
/// the fewest rows; then the first. `None` where there is no such position.
#[must_use]
pub fn least_effort(positions: &[PositionWork]) -> Option<usize> {
    let serving = || positions.iter().enumerate().filter(|(_, work)| work.serves);
    let (_, first) = serving().next()?;
    let comparable = serving().all(|(_, work)| work.time.is_like(&first.time));
    let time = |work: &PositionWork| if comparable { work.time.total() } else { None };
    serving().min_by_key(|(index, work)| (time(work), work.blocked, *index)).map(|(index, _)| index)
}

/// The most positions that [`Mix::fewest`] weighs against each other.
pub const MOST_POSITIONS: usize = 16;

/// The positions in which a row, or holes of it, can be bucked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Reach {
    /// One bit a position, that of the first the lowest.
    positions: u32,
    rivets: u32,
}

impl Reach {
    /// What is seen from every position, in their order.
    #[must_use]
    pub fn of(works: impl IntoIterator<Item = RowWork>) -> Reach {
        let mut reach = Reach::default();
        for (index, work) in works.into_iter().take(MOST_POSITIONS).enumerate() {
            reach.rivets = work.rivets;
            if work.is_reachable() {
                reach.positions |= bit(index);
            }
        }
        reach
    }

    /// Both as one, where they can be bucked in the same positions.
    #[must_use]
    pub fn joined(self, other: Reach) -> Option<Reach> {
        let rivets = self.rivets.saturating_add(other.rivets);
        (self.positions == other.positions).then_some(Reach { rivets, ..self })
    }
}

/// The bit of a position.
fn bit(index: usize) -> u32 {
    u32::try_from(index).ok().and_then(|index| 1_u32.checked_shl(index)).unwrap_or(0)
}

/// A few positions that together let everything be bucked, in the order of the work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mix {
    order: heapless::Vec<usize, MOST_POSITIONS>,
}

impl Mix {
    /// The fewest positions in which everything can be bucked: each in one of them.
    ///
    /// `set_up` are the minutes for getting into each. Of equally many positions those with the least of them together, where they are known for
    /// every position; then those that are named first. The work begins where most rivets can be bucked; of equally many where the job names
    /// first. `None` where something can be bucked in no position. No more than [`MOST_POSITIONS`] are weighed, the first ones.
    ///
    /// ```
    /// use shophead::access::{Clearance, Mix, Reach, RowWork};
    /// let seen = |rivets, rooms: [Clearance; 3]| {
    ///     rooms.map(|clearance| RowWork::new(true, rivets, clearance))
    /// };
    /// use Clearance::{Closed, Open};
    /// let keel = Reach::of(seen(48, [Open, Closed, Open]));
    /// let frame = Reach::of(seen(21, [Closed, Open, Closed]));
    /// let tab = Reach::of(seen(1, [Open, Closed, Closed]));
    /// let mix = Mix::fewest(&[None; 3], &[keel, frame, tab]).unwrap();
    /// assert!(mix.positions().eq([0, 1]));
    /// assert_eq!((mix.position_for(keel), mix.position_for(frame)), (Some(0), Some(1)));
    /// ```
    #[must_use]
    pub fn fewest(set_up: &[Option<Minutes>], reaches: &[Reach]) -> Option<Mix> {
        let count = set_up.len().min(MOST_POSITIONS);
        let serves = |set: u32| reaches.iter().all(|reach| reach.positions & set != 0);
        let all = bit(count).saturating_sub(1);
        // Before every set is tried.
        if !serves(all) {
            return None;
        }
        let known = set_up.iter().take(count).all(Option::is_some);
        let minutes = |set: u32| {
            let of = set_up.iter().take(count).enumerate().filter(|(index, _)| set & bit(*index) != 0);
            if known { of.filter_map(|(_, minutes)| *minutes).fold(Minutes(0), Minutes::plus) } else { Minutes(0) }
        };
        // Of two sets of one size the one that is named first has, read from the first position on, the earlier one in it.
        let named = |set: u32| core::cmp::Reverse(set.reverse_bits());
        let set =
            (1..=all).filter(|set| serves(*set)).min_by_key(|set| (set.count_ones(), minutes(*set), named(*set)))?;
        let rivets = |index: &usize| {
            let there = reaches.iter().filter(|reach| reach.positions & bit(*index) != 0);
            there.fold(0_u32, |sum, reach| sum.saturating_add(reach.rivets))
        };
        let mut order = heapless::Vec::new();
        let mut left = set;
        while let Some(next) = (0..count)
            .filter(|index| left & bit(*index) != 0)
            .min_by_key(|index| (core::cmp::Reverse(rivets(index)), *index))
        {
            left &= !bit(next);
            // There is room for every position that is weighed.
            let _ = order.push(next);
        }
        Some(Mix { order })
    }

    /// The positions, by their place in the job, in the order of the work.
    pub fn positions(&self) -> impl Iterator<Item = usize> + '_ {
        self.order.iter().copied()
    }

    /// Where something is bucked: in the first of the positions that lets it.
    #[must_use]
    pub fn position_for(&self, reach: Reach) -> Option<usize> {
        self.positions().find(|index| reach.positions & bit(*index) != 0)
    }
}

/// Refers where no position lets every row that takes driven rivets only be bucked, nor a mix of them; `None` without positions.
///
/// Of more than [`MOST_POSITIONS`] the finding says how many were weighed together, and how many there are.
#[must_use]
pub fn check_positions(positions: &[PositionWork], mix: Option<&Mix>) -> Option<Finding> {
    let none = mix.is_none() && !positions.is_empty() && positions.iter().all(|work| !work.serves);
    let found = Finding::new(Code::NoPositionServes, Severity::Refer, Basis::PRIMARY_STRUCTURE);
    let count = |count: usize| Figure::Count(u32::try_from(count).unwrap_or(u32::MAX));
    let found = if positions.len() > MOST_POSITIONS {
        found.with_measured(count(positions.len())).with_limit(count(MOST_POSITIONS))
    } else {
        found
    };
    none.then_some(found)
}

/// Refers a row that can be bucked in none of the positions: it takes driven rivets only, or a blind rivet needs the type's manual. `None`
/// where one position lets it be bucked, and without positions.
///
/// ```
/// use shophead::access::{Clearance, RowWork, check_row, solid_required};
/// use shophead::finding::Code;
/// use shophead::structure::{Member, Structure};
/// let closed = RowWork::new(false, 12, Clearance::Closed);
/// let open = closed.clearance(Clearance::Open);
/// let code = |structure, works: &[RowWork]| check_row(solid_required(structure, Member::Skin, &[]), works).map(|found| found.code());
/// assert_eq!(code(Structure::Secondary, &[closed, closed]), Some(Code::BlindNeedsApproval));
/// assert_eq!(code(Structure::Primary, &[closed]), Some(Code::MustBeSolid));
/// assert_eq!(code(Structure::Primary, &[closed, open]), None);
/// ```
#[must_use]
pub fn check_row(solid: Option<Given<SolidBecause>>, positions: &[RowWork]) -> Option<Finding> {
    if positions.is_empty() || positions.iter().any(RowWork::is_reachable) {
        return None;
    }
    Some(match solid {
        Some(because) => Finding::new(Code::MustBeSolid, Severity::Refer, because.basis),
        None => Finding::new(Code::BlindNeedsApproval, Severity::Refer, Basis::AC43_BLIND),
    })
}

/// Which of two unusable positions lacks less: fewer rows that no bar gets behind; then less room missing at most; then fewer
/// rows that block.
#[must_use]
pub fn lacks_less(one: &PositionWork, other: &PositionWork) -> Ordering {
    let lack = |work: &PositionWork| (work.closed, work.missing, work.blocking);
    lack(one).cmp(&lack(other))
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use crate::prelude::length;
    use std::string::ToString;

    fn minutes(text: &str) -> Minutes {
        Minutes::parse(text).expect(text)
    }

    #[test]
    fn minutes_are_read_digit_by_digit() {
        for (text, thousandths, printed) in
            [("30", 30_000, "30"), (".5", 500, "0.5"), ("1.025", 1_025, "1.025"), ("2.", 2_000, "2")]
        {
            assert_eq!(minutes(text).thousandths(), thousandths, "{text}");
            assert_eq!(minutes(text).to_string(), printed, "{text}");
        }
        for text in ["", ".", "-1", "1,5", "1.0005", "1e3", "100000.001", "99999999999999999999", "+1", "½"] {
            assert_eq!(Minutes::parse(text), Err(ParseMinutesError::NotMinutes), "{text}");
        }
    }

    fn row(must: bool, clearance: Clearance) -> RowWork {
        RowWork { must, rivets: 10, clearance, needed: Some(length("3/4")) }
    }

    #[test]
    fn the_quickest_position_that_serves_wins_and_the_one_that_lacks_least_comes_first() {
        let rates =
            Rates { drill_out: Some(minutes("1")), drive_open: Some(minutes("1")), drive_close: Some(minutes("3")) };
        let (open, close) = (Clearance::Open, Clearance::Room(length("1")));
        let slow = weigh(Some(minutes("5")), &rates, [row(true, close), row(false, close)]);
        let quick = weigh(Some(minutes("20")), &rates, [row(true, open), row(false, Clearance::Closed)]);
        assert_eq!((slow.time.total(), quick.time.total()), (Some(minutes("45")), Some(minutes("40"))));
        assert_eq!(least_effort(&[slow, quick]), Some(1));
        // One without its set-up cannot be compared by time: fewer rows blocked wins.
        let unknown = weigh(None, &rates, [row(true, open), row(false, Clearance::Closed)]);
        assert_eq!(least_effort(&[unknown, slow]), Some(1));
        let shut = weigh(None, &rates, [row(true, Clearance::Closed)]);
        let tight =
            weigh(None, &rates, [row(true, Clearance::Room(length("1/2"))), row(true, Clearance::Room(length("5/8")))]);
        assert_eq!(least_effort(&[shut, tight]), None);
        assert_eq!(lacks_less(&tight, &shut), Ordering::Less);
        assert_eq!((tight.missing, tight.blocking), (length("1/4"), 2));
    }

    #[test]
    fn a_mix_takes_as_few_positions_as_it_can_and_of_equally_few_the_quickest() {
        let reach = |positions: u32| Reach { positions, rivets: 10 };
        let mix = |set_up: &[Option<Minutes>], reaches: &[u32]| {
            let reaches: std::vec::Vec<Reach> = reaches.iter().map(|positions| reach(*positions)).collect();
            Mix::fewest(set_up, &reaches).map(|mix| mix.positions().collect::<std::vec::Vec<usize>>())
        };
        let none = [None; 4];
        // One position that reaches most is not always among the fewest.
        assert_eq!(mix(&none, &[0b0011, 0b0011, 0b0101, 0b0101, 0b0010, 0b0100]), Some(std::vec![1, 2]));
        assert_eq!(mix(&none, &[0b0110, 0b1001]), Some(std::vec![0, 1]), "named first");
        let quick = [Some(minutes("30")), Some(minutes("20")), Some(minutes("5")), Some(minutes("10"))];
        assert_eq!(mix(&quick, &[0b0110, 0b1001]), Some(std::vec![2, 3]));
        assert_eq!(mix(&none, &[0b0110, 0]), None);
        assert_eq!(mix(&[], &[]), None);
        assert_eq!(mix(&[None; 40], &[0x8000, 0x4000]), Some(std::vec![14, 15]));
    }

    #[test]
    fn of_more_positions_than_are_weighed_together_it_says_how_many_were() {
        let shut = weigh(None, &Rates::default(), [row(true, Clearance::Closed)]);
        let figures = |count: usize| {
            let found = check_positions(&std::vec![shut; count], None).expect("none serves");
            (found.measured(), found.limit())
        };
        assert_eq!(figures(MOST_POSITIONS), (None, None));
        assert_eq!(figures(MOST_POSITIONS + 1), (Some(Figure::Count(17)), Some(Figure::Count(16))));
    }

    #[test]
    fn no_minutes_mean_no_time() {
        assert_eq!(weigh(None, &Rates::default(), [row(true, Clearance::Open)]).time.total(), None);
    }

    #[test]
    fn as_many_minutes_as_are_allowed_are_read() {
        assert_eq!(minutes("100000").thousandths(), 100_000_000);
    }

    #[test]
    fn room_that_is_just_enough_lacks_nothing() {
        let needed = length("3/4");
        let at = |clearance| {
            let row = row(true, clearance);
            (row.is_reachable(), row.missing())
        };
        let hair = Length::from_nanometres(1).expect("in range");
        assert_eq!(at(Clearance::Room(needed)), (true, None));
        assert_eq!(at(Clearance::Room(needed.minus(hair))), (false, Some(hair)));
        assert_eq!(at(Clearance::Closed), (false, Some(needed)));
        assert_eq!(at(Clearance::Open), (true, None));
    }

    /// Closed is what no bar gets behind, and what nobody knows the missing room of.
    #[test]
    fn rows_that_are_closed_are_counted_apart_from_rows_that_are_tight() {
        let closed = |row: RowWork| weigh(None, &Rates::default(), [row]).closed;
        assert_eq!(closed(row(true, Clearance::Closed)), 1);
        assert_eq!(closed(row(true, Clearance::Room(length("1/2"))).needed(None)), 1);
        assert_eq!(closed(row(true, Clearance::Room(length("1/2")))), 0);
        assert_eq!(closed(row(true, Clearance::Open)), 0);
    }

    #[test]
    fn one_rate_alone_times_the_rows_that_it_is_for() {
        let (open, close) = (row(true, Clearance::Open), row(true, Clearance::Room(length("1"))));
        let one = Some(minutes("1.5"));
        let time = |rates: &Rates, row| weigh(None, rates, [row]).time.drive;
        let (drive_open, drive_close) = (Rates::default().drive_open(one), Rates::default().drive_close(one));
        assert_eq!((time(&drive_open, open), time(&drive_open, close)), (Some(minutes("15")), None));
        assert_eq!((time(&drive_close, open), time(&drive_close, close)), (None, Some(minutes("15"))));
    }

    #[test]
    fn what_can_be_bucked_in_the_same_positions_is_one() {
        let seen =
            |rivets, first, second| Reach::of([RowWork::new(true, rivets, first), RowWork::new(true, rivets, second)]);
        use Clearance::{Closed, Open};
        assert_eq!(seen(3, Open, Closed).joined(seen(4, Open, Closed)), Some(seen(7, Open, Closed)));
        assert_eq!(seen(3, Open, Closed).joined(seen(4, Closed, Open)), None);
        assert_eq!(seen(3, Open, Closed).joined(seen(4, Open, Open)), None);
    }

    #[test]
    fn the_work_begins_where_most_rivets_are_bucked() {
        let reach = |positions: u32, rivets: u32| Reach { positions, rivets };
        let order = |reaches: &[Reach]| -> std::vec::Vec<usize> {
            Mix::fewest(&[None; 3], reaches).expect("a mix").positions().collect()
        };
        let (left, right, both) = (reach(0b001, 10), reach(0b100, 11), reach(0b101, 50));
        assert_eq!(order(&[left, right, both]), [2, 0]);
        assert_eq!(order(&[left, reach(0b100, 10)]), [0, 2], "of equally many the first");
        let mix = Mix::fewest(&[None; 3], &[left, right, both]).expect("a mix");
        // What is bucked in either is bucked in the first of the work.
        assert_eq!([left, right, both].map(|reach| mix.position_for(reach)), [Some(0), Some(2), Some(2)]);
        assert_eq!(mix.position_for(reach(0b010, 1)), None);
    }

    #[test]
    fn positions_are_referred_where_neither_one_nor_a_mix_of_them_serves() {
        let serves = weigh(None, &Rates::default(), [row(true, Clearance::Open)]);
        let shut = weigh(None, &Rates::default(), [row(true, Clearance::Closed)]);
        let mix = Mix::fewest(&[None], &[Reach { positions: 1, rivets: 1 }]);
        let code = |positions: &[PositionWork], mix: Option<&Mix>| {
            check_positions(positions, mix).map(|found| (found.code(), found.severity()))
        };
        let refers = Some((Code::NoPositionServes, Severity::Refer));
        assert_eq!(code(&[shut, shut], None), refers);
        assert_eq!(code(&[shut, serves], None), None);
        assert_eq!(code(&[shut, shut], mix.as_ref()), None);
        assert_eq!(code(&[], None), None);
    }

    #[test]
    fn a_row_is_referred_where_no_position_reaches_it() {
        let (shut, open) = (row(false, Clearance::Closed), row(false, Clearance::Open));
        let hull = solid_required(Structure::Secondary, Member::Skin, &[Place::BelowWaterLine]);
        let found = |solid, works: &[RowWork]| check_row(solid, works).map(|found| (found.code(), found.severity()));
        assert_eq!(found(hull, &[shut]), Some((Code::MustBeSolid, Severity::Refer)));
        assert_eq!(found(None, &[shut, shut]), Some((Code::BlindNeedsApproval, Severity::Refer)));
        assert_eq!((found(None, &[shut, open]), found(hull, &[open])), (None, None));
        assert_eq!((found(None, &[]), found(hull, &[])), (None, None));
    }

    #[test]
    fn a_bar_goes_in_where_there_is_room_beside_the_tail() {
        let tail = length("3/16");
        let hair = Length::from_nanometres(1).expect("in range");
        let bar = |room| bar_that_goes_in(Clearance::Room(room), tail);
        assert_eq!((bar(tail), bar(tail.plus(hair)), bar(tail.minus(hair))), (Bar::None, Bar::UpTo(hair), Bar::None));
    }
}
