//! Which holes of a pattern may be stepped up together.
//!
//! A pattern is a set of rows that the documents count as one. They limit how many of its holes may take a larger rivet, and how many
//! neighbours in a row. When more holes need one than may have one, [`choose`] finds the choice that refers the fewest.
//!
//! # What is optimised
//!
//! Each hole takes one of the steps that do for it by itself, or is referred. Of all choices that keep the pattern within its limits
//! that one is taken which, in this order,
//!
//! 1. refers the fewest holes;
//! 2. changes the least: the sum over all holes of the rung taken, 0 for keep, 1 for clean-up, 2 for an oversize shank, 3 for the next
//!    diameter;
//! 3. steps up the earlier holes: of two such choices, where they first differ, the one that gives the hole its larger rivet.
//!
//! The first two are exact, not a rule of thumb: every choice is weighed, by dynamic programming over the holes with the number of steps
//! so far and the length of the present run as state. The caller lends the room for it: eight bytes a state, and one bit for each hole
//! in each state.
//!
//! How many of the rivets in a length along a row may be stepped up is not weighed: [`PatternLimits::check_stretch`] tells where a choice
//! breaks it.
//!
//! Neighbours are holes of one row whose numbers follow each other. Rows side by side are not neighbours: no document at hand says
//! that they are.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::hole::Disposition;
use crate::length::Length;
use crate::practice::{Case, Given, Name, Practice};
use crate::setters::setters;

/// A hole that takes anything but its plain rivet, and how it may be dealt with.
///
/// Holes of the pattern that are kept need not be listed: they bear on the total only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Demand {
    /// The row, by its place in the pattern.
    pub row: u32,
    /// The number of the hole in its row.
    pub number: u32,
    /// The least step that leaves the rivet as large as it is: keep or clean-up.
    pub same: Option<Disposition>,
    /// The least step to a larger rivet.
    pub larger: Option<Disposition>,
}

impl Demand {
    /// A hole's demand, from every step that does for it.
    #[must_use]
    pub fn of(row: u32, number: u32, steps: impl IntoIterator<Item = Disposition>) -> Demand {
        let mut demand = Demand { row, number, same: None, larger: None };
        for step in steps {
            let place = match step {
                Disposition::Keep | Disposition::CleanUp => &mut demand.same,
                Disposition::Oversize | Disposition::NextSize => &mut demand.larger,
                Disposition::Refer => continue,
            };
            *place = Some(place.map_or(step, |known| known.min(step)));
        }
        demand
    }

    /// What it takes when the pattern does not matter.
    #[must_use]
    pub fn alone(&self) -> Disposition {
        self.same.or(self.larger).unwrap_or(Disposition::Refer)
    }

    fn follows(&self, before: &Demand) -> bool {
        self.row == before.row && before.number.checked_add(1) == Some(self.number)
    }
}

/// The limits of one pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct PatternLimits {
    /// How many holes may be stepped up; `None` where nothing limits them.
    pub steps: Option<Given<u32>>,
    /// How many neighbours may be.
    pub neighbours: Option<Given<u32>>,
    /// What share of the rivets may be in any such length along a row.
    pub stretch: Option<Stretch>,
}

impl PatternLimits {
    setters! {
        /// How many holes may be stepped up at most.
        steps: Option<Given<u32>>;
        /// How many in a row may be stepped up at most.
        neighbours: Option<Given<u32>>;
        /// How many of any stretch of a row may be stepped up.
        stretch: Option<Stretch>;
    }
}

/// A length along a row, and the share of its rivets that may be stepped up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Stretch {
    /// The length.
    pub length: Length,
    /// The share, numerator and denominator.
    pub share: Given<(u32, u32)>,
}

impl Stretch {
    /// How many of so many rivets may be stepped up.
    fn most_of(&self, rivets: u32) -> u32 {
        let (num, den) = self.share.value;
        let most = u64::from(rivets).saturating_mul(u64::from(num)).checked_div(u64::from(den));
        most.and_then(|most| u32::try_from(most).ok()).unwrap_or(u32::MAX)
    }
}

impl PatternLimits {
    /// The limits of a pattern of `total` rivets: of all the cases in it the strictest.
    ///
    /// The specification counts the lesser of a share and a number; a share of a small pattern is cut down to whole rivets.
    #[must_use]
    pub fn of(total: u32, practice: &Practice<'_>, cases: impl IntoIterator<Item = Case>) -> PatternLimits {
        let mut limits = PatternLimits::default();
        for case in cases {
            let share = practice.fraction(Name::PatternStepsShare, &case).map(|share| {
                let whole = u64::from(total).saturating_mul(u64::from(share.value.0));
                let limit = whole.checked_div(u64::from(share.value.1)).and_then(|limit| u32::try_from(limit).ok());
                Given { value: limit.unwrap_or(u32::MAX), basis: share.basis }
            });
            for limit in share.into_iter().chain(practice.count(Name::PatternStepsCount, &case)) {
                stricter(&mut limits.steps, limit);
            }
            if let Some(limit) = practice.count(Name::NeighboursStepped, &case) {
                stricter(&mut limits.neighbours, limit);
            }
            let length = practice.length(Name::PatternStretch, &case);
            if let (None, Some(length), Some(share)) =
                (limits.stretch, length, practice.fraction(Name::PatternStretchShare, &case))
            {
                limits.stretch = Some(Stretch { length: length.value, share });
            }
        }
        limits
    }

    /// What speaks against stepping up these holes of one row with this pitch, by their rising numbers: the first length along the row in
    /// which they are too many. `rivets` is how many the row has.
    ///
    /// A length holds as many rivets as lie in it wherever it begins, so a shorter row counts whole.
    ///
    /// # Errors
    /// [`PatternError::PitchNotPositive`].
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::pattern::{PatternError, PatternLimits};
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::Head;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
    /// let limits = PatternLimits::of(100, &PROCESS, [case]);
    /// let inch = Length::from_64ths(64);
    /// // Ten inches hold ten or eleven rivets at an inch apart: five of them may be stepped up.
    /// let crowded = |holes: &[u32]| limits.check_stretch(holes, inch, 100).map(|found| found.map(|found| found.code()));
    /// assert_eq!(crowded(&[1, 2, 4, 5, 7, 20]), Ok(None));
    /// assert_eq!(crowded(&[1, 2, 4, 5, 7, 11]), Ok(Some(Code::StretchCrowded)));
    /// assert_eq!(crowded(&[1, 2, 4, 5, 7, 12]), Ok(None));
    /// assert_eq!(limits.check_stretch(&[1], Length::ZERO, 100), Err(PatternError::PitchNotPositive));
    /// ```
    pub fn check_stretch(&self, stepped: &[u32], pitch: Length, rivets: u32) -> Result<Option<Finding>, PatternError> {
        if pitch <= Length::ZERO {
            return Err(PatternError::PitchNotPositive);
        }
        let Some(stretch) = self.stretch else { return Ok(None) };
        let pitches = stretch.length.nanometres().checked_div(pitch.nanometres()).unwrap_or(0);
        let pitches = u32::try_from(pitches).unwrap_or(u32::MAX);
        for (place, first) in stepped.iter().enumerate() {
            let rest = stepped.get(place..).unwrap_or_default();
            for (count, last) in (1_u32..).zip(rest) {
                let apart = last.saturating_sub(*first);
                if apart > pitches {
                    break;
                }
                // A length that begins between two holes holds one rivet less than one that begins at a hole. At either end of the row there
                // is nothing to begin in.
                let at_an_end = *first == 1 || *last == rivets;
                let least = pitches.saturating_add(u32::from(at_an_end)).min(rivets);
                let most = stretch.most_of(least.max(apart.saturating_add(1)));
                // One alone is no crowd, however far apart the rivets stand.
                if count > most.max(1) {
                    let finding = Finding::new(Code::StretchCrowded, Severity::Refer, stretch.share.basis);
                    return Ok(Some(finding.with_measured(Figure::Count(count)).with_limit(Figure::Count(most))));
                }
            }
        }
        Ok(None)
    }

    /// What speaks against stepping up these many holes with a longest run of these many neighbours, as [`tally`] counts them.
    ///
    /// The specification counts the lesser of a share and a number; a share of a small pattern is cut down to whole rivets.
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::pattern::{PatternLimits, tally};
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::Head;
    /// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
    /// let limits = PatternLimits::of(30, &PROCESS, [case]);
    /// let findings = |holes: &[u32]| {
    ///     let (steps, run) = tally(holes.iter().map(|hole| (0, *hole)));
    ///     limits.check(steps, run)
    /// };
    /// // Twenty percent of 30 is 6, which is less than 10.
    /// assert!(findings(&[1, 4, 7, 10, 13, 16, 19]).has(Code::TooManySteps));
    /// assert!(findings(&[4, 5, 6]).has(Code::NeighboursStepped));
    /// ```
    #[must_use]
    pub fn check(&self, steps: u32, run: u32) -> Findings {
        let mut findings = Findings::new();
        for (code, measured, limit) in
            [(Code::TooManySteps, steps, self.steps), (Code::NeighboursStepped, run, self.neighbours)]
        {
            if let Some(limit) = limit.filter(|limit| measured > limit.value) {
                let finding = Finding::new(code, Severity::Refer, limit.basis);
                findings.push(finding.with_measured(Figure::Count(measured)).with_limit(Figure::Count(limit.value)));
            }
        }
        findings
    }

    /// The finding for a hole that [`choose`] refers because of the pattern.
    #[must_use]
    pub fn full(&self) -> Finding {
        let basis = self.steps.or(self.neighbours).map_or(Basis::PATTERN_FULL, |limit| limit.basis);
        Finding::new(Code::PatternFull, Severity::Refer, basis)
    }
}

fn stricter(limit: &mut Option<Given<u32>>, other: Given<u32>) {
    if limit.is_none_or(|limit| other.value < limit.value) {
        *limit = Some(other);
    }
}

/// How many are stepped up, and how many neighbours at most. The holes come row by row, by rising number.
#[must_use]
pub fn tally(stepped: impl IntoIterator<Item = (u32, u32)>) -> (u32, u32) {
    let (mut count, mut run, mut longest) = (0_u32, 0_u32, 0_u32);
    let mut last: Option<(u32, u32)> = None;
    for (row, number) in stepped {
        count = count.saturating_add(1);
        let follows = last.is_some_and(|(before, last)| before == row && last.checked_add(1) == Some(number));
        run = if follows { run.saturating_add(1) } else { 1 };
        longest = longest.max(run);
        last = Some((row, number));
    }
    (count, longest)
}

/// The most states that are followed: one more than the steps allowed, times one more than the neighbours allowed. The work grows with
/// states times holes; limits as wide as this are no limits that the documents set.
pub const MAX_STATES: usize = 1_024;

crate::words::errors! {
    /// Why there is no answer.
    PatternError {
        PitchNotPositive = _, "pattern-pitch", "The pitch is zero or less.",
            "the pitch must be above zero; right would be .75";
        TooManyStates { needed: usize, "How many states it takes." } = _, "pattern-too-many-states", "The limits are too wide to be followed.",
            "the limits of the pattern take {needed} states; at most {MAX_STATES} can be followed";
        TooLittleRoom { needed: usize, "How many bytes it takes." } = _, "pattern-too-little-room", "The room given to remember the choices is too small.",
            "the room for the choices is too small; give {needed} bytes";
        NotInOrder = _, "pattern-not-in-order", "The demands do not come row by row, by rising number.",
            "the holes of a pattern are out of order; give them row by row, by rising number";
    }
}

/// How the states of a search are numbered.
#[derive(Clone, Copy)]
struct States {
    /// Steps that count; more need not be told apart.
    steps: usize,
    /// Neighbours that count.
    run: usize,
}

impl States {
    /// A limit that no choice can reach does not limit.
    fn of(demands: &[Demand], limits: &PatternLimits) -> Result<States, PatternError> {
        let wanting =
            || demands.iter().filter(|demand| demand.larger.is_some()).map(|demand| (demand.row, demand.number));
        let (most, longest) = tally(wanting());
        let bound = |limit: Option<Given<u32>>, most: u32| limit.map(|limit| limit.value).filter(|limit| *limit < most);
        let size = |limit: Option<u32>| limit.map_or(0, |limit| usize::try_from(limit).unwrap_or(usize::MAX));
        let (steps, run) = (bound(limits.steps, most), bound(limits.neighbours, longest));
        let states = States {
            steps: if steps.is_none() { usize::MAX } else { size(steps) },
            run: if run.is_none() { usize::MAX } else { size(run) },
        };
        match states.count() {
            needed if needed > MAX_STATES => Err(PatternError::TooManyStates { needed }),
            _ => Ok(states),
        }
    }

    fn rows(self) -> usize {
        if self.steps == usize::MAX { 1 } else { self.steps.saturating_add(1) }
    }

    fn columns(self) -> usize {
        if self.run == usize::MAX { 1 } else { self.run.saturating_add(1) }
    }

    fn count(self) -> usize {
        self.rows().saturating_mul(self.columns())
    }

    fn place(self, steps: usize, run: usize) -> usize {
        steps.saturating_mul(self.columns()).saturating_add(run)
    }

    /// The number of a hole in a state.
    fn number(self, hole: usize, place: usize) -> usize {
        hole.saturating_mul(self.count()).saturating_add(place)
    }

    fn room(self, demands: &[Demand]) -> usize {
        let bits = demands.len().saturating_mul(self.count());
        self.count().saturating_mul(COST_BYTES).saturating_add(bits.saturating_add(7) >> 3)
    }

    /// The state after one more step; `None` where the limits forbid it.
    fn stepped(self, steps: usize, run: usize, follows: bool) -> Option<(usize, usize)> {
        let steps =
            if self.steps == usize::MAX { Some(0) } else { steps.checked_add(1).filter(|next| *next <= self.steps) };
        let run = if self.run == usize::MAX {
            Some(0)
        } else {
            let before = if follows { run } else { 0 };
            before.checked_add(1).filter(|next| *next <= self.run)
        };
        steps.zip(run)
    }
}

/// The bytes that [`choose`] needs to remember what it weighed.
///
/// By the process specification at most ten holes are stepped up and two neighbours: 33 states, so 264 bytes and a little more than four
/// for each hole of [`Demand`]s.
///
/// # Errors
/// [`PatternError::TooManyStates`].
pub fn room_needed(demands: &[Demand], limits: &PatternLimits) -> Result<usize, PatternError> {
    States::of(demands, limits).map(|states| states.room(demands))
}

/// What a choice costs: holes referred in the upper half, rungs in the lower, so that the greater number is the worse choice.
type Cost = u64;

const REFERRED: Cost = 1 << 32;
/// Worse than anything a pattern can cost.
const IMPOSSIBLE: Cost = Cost::MAX;

const COST_BYTES: usize = size_of::<Cost>();

/// The room lent, divided.
struct Room<'r> {
    /// For each state the least that the holes from one on cost.
    rest: &'r mut [[u8; COST_BYTES]],
    /// A bit for each hole in each state: whether it takes its larger rivet.
    larger: &'r mut [u8],
}

impl<'r> Room<'r> {
    fn of(room: &'r mut [u8], states: States) -> Option<Room<'r>> {
        let (rest, larger) = room.split_at_mut_checked(states.count().saturating_mul(COST_BYTES))?;
        let (rest, _) = rest.as_chunks_mut();
        rest.fill([0; COST_BYTES]);
        larger.fill(0);
        Some(Room { rest, larger })
    }

    fn cost(&self, place: usize) -> Cost {
        self.rest.get(place).map_or(IMPOSSIBLE, |bytes| Cost::from_le_bytes(*bytes))
    }

    fn set_cost(&mut self, place: usize, cost: Cost) {
        if let Some(bytes) = self.rest.get_mut(place) {
            *bytes = cost.to_le_bytes();
        }
    }

    const fn bit(number: usize) -> (usize, u8) {
        (number >> 3, 1 << (number & 7))
    }

    fn takes_larger(&self, number: usize) -> bool {
        let (byte, bit) = Room::bit(number);
        self.larger.get(byte).is_some_and(|byte| byte & bit != 0)
    }

    fn take_larger(&mut self, number: usize) {
        let (byte, bit) = Room::bit(number);
        if let Some(byte) = self.larger.get_mut(byte) {
            *byte |= bit;
        }
    }
}

/// The best choice for a pattern, as the head of this module defines it: one disposition a demand, through `take`.
///
/// `room` is memory to work in, of [`room_needed`] bytes; what stands in it does not matter.
///
/// ```
/// use shophead::hole::Disposition::{CleanUp, NextSize, Oversize, Refer};
/// use shophead::length::Length;
/// use shophead::material::RivetAlloy;
/// use shophead::pattern::{Demand, PatternLimits, choose, room_needed};
/// use shophead::practice::{Case, PROCESS};
/// use shophead::rivet::Head;
/// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
/// let limits = PatternLimits::of(30, &PROCESS, [case]);
/// // Three neighbours want a larger rivet; two may have one. Referring the middle one parts the run, but so does an end: the
/// // hole that would change most is left.
/// let demands = [(4, Oversize), (5, Oversize), (6, NextSize), (9, CleanUp)].map(|(number, step)| Demand::of(0, number, [step]));
/// let mut room = [0; 128];
/// assert!(room_needed(&demands, &limits)? <= room.len());
/// let mut chosen = [Refer; 4];
/// choose(&demands, &limits, &mut room, |index, step| chosen[index] = step)?;
/// assert_eq!(chosen, [Oversize, Oversize, Refer, CleanUp]);
/// # Ok::<(), shophead::pattern::PatternError>(())
/// ```
///
/// # Errors
/// [`PatternError`]; nothing was taken then.
pub fn choose(
    demands: &[Demand],
    limits: &PatternLimits,
    room: &mut [u8],
    mut take: impl FnMut(usize, Disposition),
) -> Result<(), PatternError> {
    let in_order = |pair: &[Demand]| match pair {
        [one, next] => (one.row, one.number) < (next.row, next.number),
        _ => true,
    };
    if !demands.windows(2).all(in_order) {
        return Err(PatternError::NotInOrder);
    }
    let states = States::of(demands, limits)?;
    let needed = states.room(demands);
    let room = room.get_mut(..needed).and_then(|room| Room::of(room, states));
    let Some(mut room) = room else { return Err(PatternError::TooLittleRoom { needed }) };
    // From the last hole to the first: the cheapest way to deal with the rest from each state on. Walking forward again then meets the
    // earliest hole first, which settles the third rule.
    for (index, demand) in demands.iter().enumerate().rev() {
        let follows =
            index.checked_sub(1).and_then(|before| demands.get(before)).is_some_and(|before| demand.follows(before));
        // Every cost is put where that of the hole behind stood: a step leads to a state further on, whose cost still stands. Only the
        // run's beginning is read from every run on.
        for steps in 0..states.rows() {
            let without = add(room.cost(states.place(steps, 0)), demand.same.map_or(REFERRED, rung));
            let mut best = (without, false);
            for run in 0..states.columns() {
                // Where a run ends before this hole, its length does not matter.
                if run == 0 || follows {
                    let next = demand.larger.zip(states.stepped(steps, run, follows));
                    let with = next.map_or(IMPOSSIBLE, |(larger, (steps, run))| {
                        add(room.cost(states.place(steps, run)), rung(larger))
                    });
                    // Of equal cost the earlier hole is stepped up.
                    best = if with <= without { (with, true) } else { (without, false) };
                }
                let place = states.place(steps, run);
                room.set_cost(place, best.0);
                if best.1 {
                    room.take_larger(states.number(index, place));
                }
            }
        }
    }
    let (mut steps, mut run) = (0, 0);
    let mut before: Option<&Demand> = None;
    for (index, demand) in demands.iter().enumerate() {
        let follows = before.is_some_and(|before| demand.follows(before));
        before = Some(demand);
        let larger = room.takes_larger(states.number(index, states.place(steps, run)));
        let (step, next) = if larger {
            (demand.larger, states.stepped(steps, run, follows).unwrap_or((steps, 0)))
        } else {
            (demand.same, (steps, 0))
        };
        (steps, run) = next;
        take(index, step.unwrap_or(Disposition::Refer));
    }
    Ok(())
}

fn add(one: Cost, other: Cost) -> Cost {
    one.saturating_add(other)
}

fn rung(step: Disposition) -> Cost {
    match step {
        Disposition::Keep => 0,
        Disposition::CleanUp => 1,
        Disposition::Oversize => 2,
        Disposition::NextSize => 3,
        // Never in a choice; counted by itself.
        Disposition::Refer => 4,
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::vec;
    use std::vec::Vec;

    fn limits(steps: Option<u32>, neighbours: Option<u32>) -> PatternLimits {
        let given = |value: Option<u32>| value.map(|value| Given { value, basis: Basis::own(0) });
        PatternLimits { steps: given(steps), neighbours: given(neighbours), stretch: None }
    }

    fn chosen(demands: &[Demand], limits: &PatternLimits) -> Vec<Disposition> {
        let mut room = vec![9; room_needed(demands, limits).expect("few states")];
        let mut chosen = vec![Disposition::Refer; demands.len()];
        choose(demands, limits, &mut room, |index, step| chosen[index] = step).expect("a choice");
        chosen
    }

    fn oversize(number: u32) -> Demand {
        Demand::of(0, number, [Disposition::Oversize])
    }

    #[test]
    fn the_middle_of_five_neighbours_parts_them() {
        let demands = [1, 2, 3, 4, 5].map(oversize);
        use Disposition::{Oversize as O, Refer as R};
        assert_eq!(chosen(&demands, &limits(Some(10), Some(2))), [O, O, R, O, O]);
        assert_eq!(chosen(&demands, &limits(Some(3), Some(2))), [O, O, R, O, R]);
        assert_eq!(chosen(&demands, &limits(None, None)), [O; 5]);
        assert_eq!(chosen(&demands, &limits(Some(0), None)), [R; 5]);
    }

    #[test]
    fn a_hole_that_can_do_without_leaves_its_place_to_another() {
        use Disposition::{CleanUp, NextSize, Oversize};
        let demands = [Demand::of(0, 1, [NextSize, CleanUp, Oversize]), oversize(2), Demand::of(1, 3, [Oversize])];
        assert_eq!(chosen(&demands, &limits(Some(2), Some(1))), [CleanUp, Oversize, Oversize]);
    }

    #[test]
    fn what_cannot_be_weighed_is_an_error() {
        let demands = [oversize(2), oversize(1)];
        let choose = |demands: &[Demand], limits, room: &mut [u8]| choose(demands, &limits, room, |_, _| {});
        assert_eq!(choose(&demands, limits(Some(1), None), &mut [0; 9]), Err(PatternError::NotInOrder));
        let demands = [oversize(1), oversize(2)];
        assert_eq!(
            choose(&demands, limits(Some(1), None), &mut [0; 16]),
            Err(PatternError::TooLittleRoom { needed: 17 })
        );
        let many: Vec<Demand> = (1..=3_000).map(oversize).collect();
        let error = choose(&many, limits(Some(2_000), None), &mut []).expect_err("too wide");
        assert_eq!(error, PatternError::TooManyStates { needed: 2_001 });
    }

    fn given(value: u32) -> Option<Given<u32>> {
        Some(Given { value, basis: Basis::own(0) })
    }

    /// One in two of the rivets in an inch, at a quarter of an inch from one to the next: an inch holds four or five.
    fn stretch() -> PatternLimits {
        let share = Given { value: (1, 2), basis: Basis::own(0) };
        PatternLimits::default().stretch(Some(Stretch { length: Length::INCH, share }))
    }

    #[test]
    fn a_stretch_is_crowded_by_one_rivet_more_than_its_share() {
        let crowded = |stepped: &[u32]| {
            let found = stretch().check_stretch(stepped, Length::INCH.times(1, 4), 40).expect("in order")?;
            assert_eq!((found.code(), found.severity()), (Code::StretchCrowded, Severity::Refer));
            Some((found.measured(), found.limit()))
        };
        let figures = |count, most| Some((Some(Figure::Count(count)), Some(Figure::Count(most))));
        // Inside the row an inch holds four or five: two of them.
        assert_eq!(crowded(&[10, 12]), None);
        assert_eq!(crowded(&[10, 12, 14]), figures(3, 2));
        assert_eq!(crowded(&[10, 12, 15]), None, "more than an inch apart");
        assert_eq!(crowded(&[3, 10, 12, 14]), figures(3, 2), "wherever it begins");
        assert_eq!(crowded(&[20, 21, 22]), figures(3, 2));
        // At an end nothing begins between two holes: five of them, two and a half.
        assert_eq!((crowded(&[1, 2, 3]), crowded(&[38, 39, 40])), (figures(3, 2), figures(3, 2)));
        assert_eq!(crowded(&[]), None);
    }

    #[test]
    fn at_either_end_of_a_row_a_stretch_begins_at_a_rivet() {
        // An inch holds three or four at this pitch: one in two of them is one, and at the ends of the row two.
        let pitch = Length::from_ten_thousandths(3_150);
        let crowded = |stepped: &[u32]| stretch().check_stretch(stepped, pitch, 40).expect("in order").is_some();
        assert!(crowded(&[20, 21]) && !crowded(&[1, 2]) && !crowded(&[39, 40]));
        assert!(crowded(&[1, 2, 3]) && crowded(&[38, 39, 40]));
        let far = stretch().check_stretch(&[20, 21], Length::INCH.times(2, 1), 40);
        assert_eq!(far, Ok(None), "one alone is no crowd");
        assert_eq!(PatternLimits::default().check_stretch(&[1, 2, 3, 4], Length::INCH, 40), Ok(None));
    }

    #[test]
    fn a_limit_itself_is_within_it() {
        let limits = limits(Some(3), Some(2));
        let codes = |steps, run| -> Vec<Code> { limits.check(steps, run).iter().map(Finding::code).collect() };
        assert!(codes(3, 2).is_empty());
        assert_eq!(codes(4, 2), [Code::TooManySteps]);
        assert_eq!(codes(3, 3), [Code::NeighboursStepped]);
        assert!(codes(0, 0).is_empty());
    }

    #[test]
    fn of_two_limits_the_stricter_holds_and_of_two_alike_the_first() {
        let mut limit = None;
        for (value, kept) in [(5, 5), (7, 5), (4, 4)] {
            stricter(&mut limit, Given { value, basis: Basis::own(0) });
            assert_eq!(limit, given(kept));
        }
        stricter(&mut limit, Given { value: 4, basis: Basis::own(1) });
        assert_eq!(limit, given(4));
    }

    #[test]
    fn neighbours_are_holes_of_one_row_whose_numbers_follow_each_other() {
        assert_eq!(tally([(0, 1), (0, 2), (1, 3), (1, 5), (1, 6), (1, 7)]), (6, 3));
        assert_eq!(tally([(0, 1), (1, 2), (2, 3)]), (3, 1));
        assert_eq!(tally([(0, 1), (0, 3)]), (2, 1));
        assert_eq!(tally([]), (0, 0));
    }

    #[test]
    fn as_many_states_as_can_be_followed_are_and_a_limit_that_no_choice_reaches_makes_none() {
        let many: Vec<Demand> = (1..=1_100).map(oversize).collect();
        let most = u32::try_from(MAX_STATES).expect("few");
        assert!(room_needed(&many, &limits(Some(most - 1), None)).is_ok());
        assert_eq!(
            room_needed(&many, &limits(Some(most), None)),
            Err(PatternError::TooManyStates { needed: MAX_STATES + 1 })
        );
        // One state, and a bit for either hole.
        let two = [oversize(1), oversize(2)];
        assert_eq!(room_needed(&two, &limits(Some(2), Some(2))), Ok(9));
        assert_eq!(room_needed(&two, &limits(Some(1), Some(2))), Ok(17));
    }
}
