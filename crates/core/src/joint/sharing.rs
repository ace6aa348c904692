//! How rows of fasteners, one behind the other in the direction of the load, share it.
//!
//! # The spring chain
//!
//! Row i joins plate A, loaded before row 1, to plate B. With Fᵢ the load of row i, Cᵢ its flexibility and Sᵢ = F₁ + … + Fᵢ the load
//! that has gone over to plate B, the movement between the plates at row i and at row i+1 differs by what the plates stretch between
//! them:
//!
//! ```text
//! Cᵢ Fᵢ + (p / EA_B) Sᵢ = (p / EA_A) (P - Sᵢ) + Cᵢ₊₁ Fᵢ₊₁
//! ```
//!
//! In a lap all of P has gone over behind the last row; a doubler has given everything back there. Either way the unknowns Sᵢ make a
//! symmetric three-band system with a heavy diagonal, solved here by elimination without pivoting. The chain is read in a guide to
//! fastener flexibility, section 8 (secondary quotation); NACA TN 1051 (1946) and TN 1458 (1947) have the same idea. The doubler is
//! recalled.
//!
//! These shares are elastic: they matter for fatigue, where the end rows crack first. At failure of a ductile joint the rows are
//! commonly taken to share alike ([`Sharing::equal_share`]). While C is large beside p / EA the shares hardly move whatever the formula
//! ([`Sharing::stiffness_ratio`] under 0.3: guide to fastener flexibility, sec 8 to 10, secondary quotation).

use crate::basis::Basis;
use crate::finding::{Code, Finding, Findings, Severity};
use crate::length::Length;
use crate::quantity::{Flexibility, Force, Stress};
use crate::setters::setters;

/// The most rows in one chain.
pub const MAX_ROWS: usize = 64;

/// The note on every elastic share: no published method on file gives the shares at failure.
pub const ELASTIC_ONLY: Finding = Finding::new(Code::ElasticSharesOnly, Severity::Note, Basis::FLEXIBILITY_SEC_2);

/// Loads that differ by less than this part of the greatest are called equal.
const EQUAL_WITHIN: f64 = 1e-9;

/// One row.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct SharingRow {
    /// Flexibility of one fastener; above zero.
    pub flexibility: Flexibility,
    /// How many fasteners of the row are in the strip that carries the load; 1 for a strip as wide as the pitch.
    pub fasteners: u16,
}

impl SharingRow {
    /// So many fasteners, each this flexible.
    #[must_use]
    pub const fn new(flexibility: Flexibility, fasteners: u16) -> SharingRow {
        SharingRow { flexibility, fasteners }
    }

    setters! {
        /// How flexible each fastener is.
        flexibility: Flexibility;
    }
}

/// What lies between one row and the next.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Bay {
    /// From row to row; above zero.
    pub length: Length,
    /// Modulus times area of plate A in the strip; above zero.
    pub ea_a: Force,
    /// The same of plate B.
    pub ea_b: Force,
}

impl Bay {
    /// This long between two rows, both plates this stiff.
    #[must_use]
    pub const fn new(length: Length, ea_a: Force, ea_b: Force) -> Bay {
        Bay { length, ea_a, ea_b }
    }

    setters! {
        /// The stiffness of plate A.
        ea_a: Force;
        /// The stiffness of plate B.
        ea_b: Force;
    }
}

/// Modulus times area of a plate of constant thickness in a strip.
#[must_use]
pub fn stiffness(modulus: Stress, width: Length, thickness: Length) -> Force {
    Force::from_lbf(modulus.psi() * width.to_inches_f64() * thickness.to_inches_f64())
}

/// The constant modulus times area that stretches as much as one that runs evenly from `start` to `end`: their logarithmic mean.
///
/// A step inside a bay is no taper: give the bay the [`stepped`] mean of its parts.
///
/// ```
/// use shophead::joint::sharing::tapered;
/// use shophead::quantity::Force;
/// // (2 - 1) / ln 2
/// let mean = tapered(Force::from_lbf(1.0e6), Force::from_lbf(2.0e6));
/// assert!((mean.lbf() - 1.442_695e6).abs() < 1.0);
/// ```
#[must_use]
pub fn tapered(start: Force, end: Force) -> Force {
    let (start, end) = (start.lbf(), end.lbf());
    let ratio = (end - start) / start;
    Force::from_lbf(if ratio == 0.0 { start } else { start * ratio / libm::log1p(ratio) })
}

/// The constant modulus times area that stretches as much as parts of different length and stiffness one after the other.
#[must_use]
pub fn stepped(parts: &[(Length, Force)]) -> Force {
    let (mut length, mut stretch) = (0.0, 0.0);
    for (part, ea) in parts {
        length += part.to_inches_f64();
        stretch += part.to_inches_f64() / ea.lbf();
    }
    Force::from_lbf(length / stretch)
}

/// Where the load goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Transfer {
    /// Into plate A before the first row and out of plate B behind the last: a lap, or one side of a splice.
    Lap,
    /// Along plate A from end to end; plate B lies on it and carries nothing at its ends: a doubler or patch.
    Doubler,
}

/// What passes one row in one plate.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Passing {
    /// The load in the plate on the side where it is greater.
    pub gross: Force,
    /// The part that goes by the row and stays in the plate.
    pub bypass: Force,
    /// The part that the fasteners take off or put on.
    pub bearing: Force,
}

impl Passing {
    pub(super) fn between(one: f64, other: f64) -> Passing {
        let (less, more) = if one.abs() < other.abs() { (one, other) } else { (other, one) };
        let lbf = Force::from_lbf;
        Passing { gross: lbf(more), bypass: lbf(less), bearing: lbf((more - less).abs()) }
    }

    /// Bearing over bypass load, what fatigue tests of joints are ordered by; `None` where nothing goes by. The higher it is, the sooner a
    /// row cracks, all else alike; no life follows from it.
    #[must_use]
    pub fn bearing_bypass(&self) -> Option<f64> {
        let ratio = self.bearing.lbf() / self.bypass.lbf().abs();
        ratio.is_finite().then_some(ratio)
    }

    /// Bearing over gross load; `None` where the plate carries nothing.
    #[must_use]
    pub fn bearing_share(&self) -> Option<f64> {
        let share = self.bearing.lbf() / self.gross.lbf().abs();
        share.is_finite().then_some(share)
    }
}

/// One row under load.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct RowShare {
    /// What the row takes from plate A to plate B; negative where it gives back.
    pub load: Force,
    /// The same for one fastener.
    pub a_fastener: Force,
    /// Load of the row over the load on the joint.
    pub share: f64,
    /// What passes in plate A.
    pub in_a: Passing,
    /// What passes in plate B.
    pub in_b: Passing,
}

/// The answer. It keeps what each row's figures are made of, and works them out when they are asked for.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Sharing {
    /// The part of the load that has gone over to plate B behind each row.
    gone_over: heapless::Vec<f64, MAX_ROWS>,
    /// How many fasteners each row has.
    fasteners: heapless::Vec<u16, MAX_ROWS>,
    load: Force,
    /// The row whose fasteners carry most, counted from 0; the first where several are equal.
    pub peak: usize,
    /// The share of each row if all rows took the same, as is commonly assumed at failure: 1 over the number of rows. For a doubler it
    /// says nothing.
    pub equal_share: f64,
    /// The greatest p / EA over C of any bay and row beside it: how stiff the fasteners are beside the plates.
    pub stiffness_ratio: f64,
    /// Where the chain stands.
    pub basis: Basis,
    /// What was found.
    pub findings: Findings<1>,
}

impl Sharing {
    /// Where an answer is filled in, for [`share_into`].
    #[must_use]
    pub const fn nothing_yet() -> Sharing {
        Sharing {
            gone_over: heapless::Vec::new(),
            fasteners: heapless::Vec::new(),
            load: Force::ZERO,
            peak: 0,
            equal_share: 0.0,
            stiffness_ratio: 0.0,
            basis: Basis::FLEXIBILITY_SEC_8,
            findings: Findings::new(),
        }
    }

    fn clear(&mut self) {
        self.gone_over.clear();
        self.fasteners.clear();
        self.findings.clear();
    }

    /// Each row, in the order given.
    pub fn rows(&self) -> impl ExactSizeIterator<Item = RowShare> + DoubleEndedIterator + Clone + use<'_> {
        self.fasteners.iter().enumerate().map(|(index, fasteners)| self.row_share(index, *fasteners))
    }

    /// A row, counted from 0; `None` where there is none.
    #[must_use]
    pub fn row(&self, index: usize) -> Option<RowShare> {
        self.fasteners.get(index).map(|fasteners| self.row_share(index, *fasteners))
    }

    /// The row that carries most.
    #[must_use]
    pub fn peak_row(&self) -> Option<RowShare> {
        self.row(self.peak)
    }

    /// What has gone over in front of a row and behind it.
    fn around(&self, index: usize) -> (f64, f64) {
        let behind = |index: usize| self.gone_over.get(index).copied();
        let before = index.checked_sub(1).and_then(behind).unwrap_or(0.0);
        (before, behind(index).unwrap_or(before))
    }

    /// The share of a row, its load and that of one of its fasteners.
    fn loads(&self, index: usize, fasteners: u16) -> [f64; 3] {
        let (before, after) = self.around(index);
        let share = after - before;
        let load = share * self.load.lbf();
        [share, load, load / f64::from(fasteners)]
    }

    fn row_share(&self, index: usize, fasteners: u16) -> RowShare {
        let [share, load, fastener] = self.loads(index, fasteners);
        let (before, after) = self.around(index);
        let in_plate = |before: f64, after: f64| Passing::between(before * self.load.lbf(), after * self.load.lbf());
        RowShare {
            load: Force::from_lbf(load),
            a_fastener: Force::from_lbf(fastener),
            share,
            in_a: in_plate(1.0 - before, 1.0 - after),
            in_b: in_plate(before, after),
        }
    }

    /// The first of the rows whose fasteners carry most.
    fn most_loaded(&self) -> Result<usize, SharingError> {
        let mut loads = self.fasteners.iter().enumerate().map(|(index, fasteners)| self.loads(index, *fasteners));
        let mut greatest = 0.0_f64;
        for [share, load, fastener] in loads.clone() {
            if ![share, load, fastener].iter().all(|figure| figure.is_finite()) {
                return Err(SharingError::OutOfRange);
            }
            greatest = greatest.max(fastener.abs());
        }
        let equal = greatest * (1.0 - EQUAL_WITHIN);
        Ok(loads.position(|[_, _, fastener]| fastener.abs() >= equal).unwrap_or(0))
    }
}

crate::words::errors! {
    /// Why there is no answer.
    SharingError {
        NoRows = _, "sharing-no-rows", "No rows.",
            "a joint needs at least one row to share a load";
        TooManyRows = _, "sharing-too-many-rows", "More than [`MAX_ROWS`].",
            "at most {MAX_ROWS} rows one behind the other";
        BaysDoNotFit = _, "sharing-bays", "Not one bay fewer than rows.",
            "give one bay fewer than rows";
        DoublerNeedsTwoRows = _, "doubler-needs-two-rows", "A doubler with fewer than two rows.",
            "a doubler needs at least two rows, one to load it and one to unload it";
        FlexibilityNotPositive = _, "sharing-flexibility", "A flexibility is zero, negative or not a number.",
            "the flexibility of a fastener must be above zero";
        NoFasteners = _, "sharing-no-fasteners", "A row without fasteners.",
            "every row needs at least one fastener";
        PitchNotPositive = _, "sharing-pitch", "The distance between two rows is zero or less.",
            "the row spacing must be above zero; right would be .75";
        StiffnessNotPositive = _, "sharing-stiffness", "Modulus times area is zero, negative or not a number.",
            "modulus times area of a plate must be above zero";
        NoLoad = _, "sharing-no-load", "The load is zero or not a number.",
            "the load is zero; right would be 1000lbf";
        OutOfRange = _, "sharing-out-of-range", "The figures are so far apart that a share is not a number.",
            "no shares come out of these stiffnesses; they are too far apart";
    }
}

/// A row and the bay behind it, reduced to springs.
#[derive(Clone, Copy)]
struct Spring {
    row: f64,
    /// p / EA of both plates behind the row; nothing behind the last.
    a: f64,
    b: f64,
}

impl Spring {
    fn of(row: &SharingRow, bay: Option<&Bay>) -> Result<Spring, SharingError> {
        let positive = |figure: f64| figure.is_finite() && figure > 0.0;
        if row.fasteners == 0 {
            return Err(SharingError::NoFasteners);
        }
        if !positive(row.flexibility.in_per_lbf()) {
            return Err(SharingError::FlexibilityNotPositive);
        }
        let mut spring = Spring { row: row.flexibility.in_per_lbf() / f64::from(row.fasteners), a: 0.0, b: 0.0 };
        if let Some(bay) = bay {
            if bay.length <= Length::ZERO {
                return Err(SharingError::PitchNotPositive);
            }
            if !positive(bay.ea_a.lbf()) || !positive(bay.ea_b.lbf()) {
                return Err(SharingError::StiffnessNotPositive);
            }
            spring.a = bay.length.to_inches_f64() / bay.ea_a.lbf();
            spring.b = bay.length.to_inches_f64() / bay.ea_b.lbf();
        }
        Ok(spring)
    }

    fn greatest(self) -> f64 {
        self.row.max(self.a).max(self.b)
    }

    fn over(self, greatest: f64) -> Spring {
        Spring { row: self.row / greatest, a: self.a / greatest, b: self.b / greatest }
    }
}

/// The rows with what lies behind each, wherever they are kept.
struct Chain<'c> {
    rows: usize,
    /// The row of this number from 0 on and the bay behind it.
    link: &'c dyn Fn(usize) -> Option<(SharingRow, Option<Bay>)>,
    transfer: Transfer,
    load: Force,
}

/// How the rows share a load.
///
/// `bays[i]` lies between `rows[i]` and `rows[i + 1]`.
///
/// # Errors
/// [`SharingError`]; a NaN or an infinity never comes out.
///
/// ```
/// use shophead::joint::sharing::{Bay, SharingRow, Transfer, share};
/// use shophead::length::Length;
/// use shophead::quantity::{Flexibility, Force};
/// // Three rows 25 mm apart in two plates of EA 5.4 MN, 1.988e-5 mm/N a fastener.
/// let row = SharingRow::new(Flexibility::from_mm_per_newton(1.988e-5), 1);
/// let plate = Force::from_newtons(5.4e6);
/// let bay = Bay::new(Length::parse("25mm")?, plate, plate);
/// let found = share(&[row; 3], &[bay; 2], Transfer::Lap, Force::from_newtons(9_000.0)).expect("a joint");
/// let shares: Vec<String> = found.rows().map(|row| format!("{:.3}", row.share)).collect();
/// assert_eq!(shares, ["0.356", "0.289", "0.356"]);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn share(rows: &[SharingRow], bays: &[Bay], transfer: Transfer, load: Force) -> Result<Sharing, SharingError> {
    let mut found = Sharing::nothing_yet();
    share_into(&mut found, rows, bays, transfer, load)?;
    Ok(found)
}

/// As [`share`], into an answer that the caller keeps: it is more than a kilobyte, and one returned by value stands on the stack twice.
/// After an error nothing of it counts.
///
/// # Errors
/// As [`share`].
pub fn share_into(
    found: &mut Sharing,
    rows: &[SharingRow],
    bays: &[Bay],
    transfer: Transfer,
    load: Force,
) -> Result<(), SharingError> {
    if !rows.is_empty() && rows.len() <= MAX_ROWS && bays.len().checked_add(1) != Some(rows.len()) {
        return Err(SharingError::BaysDoNotFit);
    }
    let link = |index| Some((*rows.get(index)?, bays.get(index).copied()));
    Chain { rows: rows.len(), link: &link, transfer, load }.share_into(found)
}

/// As [`share_into`], of rows that are all alike: none of them has to be written down.
pub(super) fn share_alike(
    found: &mut Sharing,
    rows: u16,
    row: SharingRow,
    bay: Bay,
    transfer: Transfer,
    load: Force,
) -> Result<(), SharingError> {
    let rows = usize::from(rows);
    let link = |index: usize| Some((row, index.checked_add(1).filter(|next| *next < rows).map(|_| bay)));
    Chain { rows, link: &link, transfer, load }.share_into(found)
}

impl Chain<'_> {
    #[inline(never)]
    fn share_into(&self, found: &mut Sharing) -> Result<(), SharingError> {
        match (self.rows, self.transfer) {
            (0, _) => return Err(SharingError::NoRows),
            (count, _) if count > MAX_ROWS => return Err(SharingError::TooManyRows),
            (1, Transfer::Doubler) => return Err(SharingError::DoublerNeedsTwoRows),
            _ => {}
        }
        found.clear();
        found.load = self.load;
        let mut greatest = 0.0_f64;
        for index in 0..self.rows {
            let Some((row, bay)) = (self.link)(index) else { break };
            greatest = greatest.max(Spring::of(&row, bay.as_ref())?.greatest());
            // Cannot fail: the rows have been counted.
            let _ = found.fasteners.push(row.fasteners);
        }
        // Only ratios count. Over the greatest, no sum of a few can overflow.
        if !greatest.is_finite() {
            return Err(SharingError::OutOfRange);
        }
        if !self.load.lbf().is_finite() || self.load == Force::ZERO {
            return Err(SharingError::NoLoad);
        }
        found.stiffness_ratio = self.solve(greatest, &mut found.gone_over)?;
        if !found.stiffness_ratio.is_finite() {
            return Err(SharingError::OutOfRange);
        }
        found.peak = found.most_loaded()?;
        found.basis = match self.transfer {
            Transfer::Lap => Basis::FLEXIBILITY_SEC_8,
            Transfer::Doubler => Basis::DOUBLER_CHAIN,
        };
        found.findings.push(ELASTIC_ONLY);
        found.equal_share = 1.0 / self.rows as f64;
        Ok(())
    }

    fn spring(&self, index: usize, greatest: f64) -> Result<Option<Spring>, SharingError> {
        let Some((row, bay)) = (self.link)(index) else { return Ok(None) };
        Ok(Some(Spring::of(&row, bay.as_ref())?.over(greatest)))
    }

    /// What has gone over to plate B behind each row, as a part of the load; gives the stiffness ratio.
    ///
    /// `-Cᵢ Sᵢ₋₁ + (Cᵢ + Cᵢ₊₁ + aᵢ + bᵢ) Sᵢ - Cᵢ₊₁ Sᵢ₊₁ = aᵢ`, with S₀ = 0 and S of the last row known. Going forward every S is written
    /// as `constant + slope × the next one`, going back they are filled in; the diagonal outweighs its row, so nothing grows. The constant
    /// stands where its S will stand.
    #[inline(never)]
    fn solve(&self, greatest: f64, gone_over: &mut heapless::Vec<f64, MAX_ROWS>) -> Result<f64, SharingError> {
        let mut slopes = heapless::Vec::<f64, MAX_ROWS>::new();
        let (mut constant, mut slope) = (0.0, 0.0);
        let mut ratio = 0.0_f64;
        let Some(mut here) = self.spring(0, greatest)? else { return Ok(ratio) };
        for index in 1..self.rows {
            let Some(next) = self.spring(index, greatest)? else { break };
            ratio = ratio.max(here.a.max(here.b) / here.row.min(next.row));
            let pivot = here.row * (1.0 - slope) + next.row + here.a + here.b;
            constant = (here.a + here.row * constant) / pivot;
            slope = next.row / pivot;
            // Cannot fail: the rows have been counted.
            let _ = gone_over.push(constant);
            let _ = slopes.push(slope);
            here = next;
        }
        let last = match self.transfer {
            Transfer::Lap => 1.0,
            Transfer::Doubler => 0.0,
        };
        let mut behind = last;
        for (gone_over, slope) in gone_over.iter_mut().zip(&slopes).rev() {
            behind = *gone_over + slope * behind;
            *gone_over = behind;
        }
        let _ = gone_over.push(last);
        Ok(ratio)
    }
}

/// The same joint by several formulas: for each row the least and the greatest load of one of its fasteners that any of them gives.
///
/// The formulas differ by a factor of two to three for the same joint, and no document says which of them is right. What is judged is the
/// greatest that any of them gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Envelope {
    rows: heapless::Vec<(f64, f64), MAX_ROWS>,
    /// The most that plate B carries anywhere, in pounds.
    most_in_b: f64,
}

impl Envelope {
    /// No formula yet.
    #[must_use]
    pub const fn new() -> Envelope {
        Envelope { rows: heapless::Vec::new(), most_in_b: 0.0 }
    }

    /// Takes the shares by another formula in. Of chains with different numbers of rows each row is that of the chains that have it.
    pub fn add(&mut self, sharing: &Sharing) {
        for (index, row) in sharing.rows().enumerate() {
            let load = row.a_fastener.lbf();
            match self.rows.get_mut(index) {
                Some((least, greatest)) => (*least, *greatest) = (least.min(load), greatest.max(load)),
                // Cannot fail: a chain has at most as many rows as there is room.
                None => drop(self.rows.push((load, load))),
            }
            self.most_in_b = self.most_in_b.max(row.in_b.gross.lbf().abs());
        }
    }

    /// Least and greatest load of one fastener of a row, counted from 0.
    #[must_use]
    pub fn row(&self, row: usize) -> Option<(Force, Force)> {
        self.rows.get(row).map(|&(least, greatest)| (Force::from_lbf(least), Force::from_lbf(greatest)))
    }

    /// The row whose fasteners carry most by any formula, counted from 0, and that load without its sign; the first where several are equal.
    #[must_use]
    pub fn peak(&self) -> Option<(usize, Force)> {
        let size = |&(least, greatest): &(f64, f64)| greatest.max(-least);
        let most = self.rows.iter().map(size).fold(0.0, f64::max);
        let row = self.rows.iter().position(|row| size(row) >= most * (1.0 - EQUAL_WITHIN))?;
        Some((row, Force::from_lbf(most)))
    }

    /// The most that plate B carries anywhere by any formula.
    #[must_use]
    pub fn most_in_b(&self) -> Force {
        Force::from_lbf(self.most_in_b)
    }
}

impl Default for Envelope {
    fn default() -> Envelope {
        Envelope::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prelude::lbf;

    const PLATE: Force = Force::from_lbf(1e5);

    fn row(flexibility: f64) -> SharingRow {
        SharingRow { flexibility: Flexibility::from_in_per_lbf(flexibility), fasteners: 1 }
    }

    fn bay() -> Bay {
        Bay { length: Length::INCH, ea_a: PLATE, ea_b: PLATE }
    }

    /// Three rows, equal plates, r = p / (EA C): (1 + r)/(3 + 2 r) at the ends, 1/(3 + 2 r) in the middle.
    #[test]
    fn three_rows_by_hand() {
        for r in [0.1, 1.0, 7.0] {
            let found = share(&[row(1e-5 / r); 3], &[bay(); 2], Transfer::Lap, lbf(900.0)).unwrap();
            let (end, middle) = ((1.0 + r) / (3.0 + 2.0 * r), 1.0 / (3.0 + 2.0 * r));
            for (row, by_hand) in found.rows().zip([end, middle, end]) {
                assert!((row.share - by_hand).abs() < 1e-12);
                assert!((row.load.lbf() - 900.0 * by_hand).abs() < 1e-9);
            }
            assert!((found.stiffness_ratio - r).abs() < 1e-12 * r);
            assert_eq!(found.peak, 0);
            assert!(found.findings.has(Code::ElasticSharesOnly));
        }
    }

    /// Two rows: the doubler gets a / (2 C + a + b) of the load between them.
    #[test]
    fn a_doubler_on_two_rows_by_hand() {
        let found = share(&[row(1e-5); 2], &[bay()], Transfer::Doubler, lbf(100.0)).unwrap();
        let [first, last] = [0, 1].map(|index| found.row(index).unwrap());
        assert!((first.load.lbf() - 25.0).abs() < 1e-12 && (last.load.lbf() + 25.0).abs() < 1e-12);
        assert_eq!((first.in_a.gross, first.in_a.bypass, first.in_a.bearing), (lbf(100.0), lbf(75.0), lbf(25.0)));
        assert_eq!((last.in_b.gross, last.in_b.bypass, last.in_b.bearing), (lbf(25.0), lbf(0.0), lbf(25.0)));
        assert_eq!((first.in_a.bearing_bypass(), last.in_b.bearing_bypass()), (Some(25.0 / 75.0), None));
        let bearing = [first.in_a, last.in_a, first.in_b, last.in_b].map(|passing| passing.bearing_share());
        assert_eq!(bearing, [Some(0.25), Some(0.25), Some(1.0), Some(1.0)]);
        assert_eq!(found.basis, Basis::DOUBLER_CHAIN);
    }

    #[test]
    fn one_row_takes_it_all_and_more_fasteners_in_a_row_share_it() {
        let found = share(&[SharingRow { fasteners: 4, ..row(1e-5) }], &[], Transfer::Lap, lbf(-80.0)).unwrap();
        let row = found.peak_row().unwrap();
        assert_eq!((row.load, row.a_fastener), (lbf(-80.0), lbf(-20.0)));
    }

    #[test]
    fn a_step_and_a_taper_stretch_as_much_as_their_mean() {
        let halves = [(Length::INCH, lbf(1e6)), (Length::INCH, lbf(3e6))];
        assert!((stepped(&halves).lbf() - 1.5e6).abs() < 1e-6);
        assert_eq!(tapered(PLATE, PLATE), PLATE);
        // A taper in a hundred thousand steps.
        let steps = 100_000;
        let stretch: f64 = (0..steps).map(|i| 1.0 / (1.0 + 2.0 * (f64::from(i) + 0.5) / f64::from(steps))).sum();
        let by_steps = f64::from(steps) / stretch;
        assert!((tapered(lbf(1.0), lbf(3.0)).lbf() - by_steps).abs() < 1e-8);
    }

    #[test]
    fn what_is_no_chain_is_an_error() {
        let error = |rows: &[SharingRow], bays: &[Bay]| share(rows, bays, Transfer::Lap, lbf(1.0)).unwrap_err();
        assert_eq!(error(&[], &[]), SharingError::NoRows);
        assert_eq!(error(&[row(1.0); MAX_ROWS + 1], &[bay(); MAX_ROWS]), SharingError::TooManyRows);
        assert_eq!(error(&[row(1.0); 2], &[bay(); 2]), SharingError::BaysDoNotFit);
        assert_eq!(error(&[row(0.0)], &[]), SharingError::FlexibilityNotPositive);
        assert_eq!(error(&[row(f64::NAN)], &[]), SharingError::FlexibilityNotPositive);
        assert_eq!(error(&[SharingRow { fasteners: 0, ..row(1.0) }], &[]), SharingError::NoFasteners);
        assert_eq!(error(&[row(1.0); 2], &[Bay { length: Length::ZERO, ..bay() }]), SharingError::PitchNotPositive);
        assert_eq!(error(&[row(1.0); 2], &[Bay { ea_b: Force::ZERO, ..bay() }]), SharingError::StiffnessNotPositive);
        let two = [row(1.0); 2];
        assert_eq!(share(&two[..1], &[], Transfer::Doubler, lbf(1.0)), Err(SharingError::DoublerNeedsTwoRows));
        assert_eq!(share(&two, &[bay()], Transfer::Lap, lbf(0.0)), Err(SharingError::NoLoad));
        let soft = Bay { length: Length::MAX, ea_a: lbf(f64::MIN_POSITIVE), ..bay() };
        assert_eq!(share(&two, &[soft], Transfer::Lap, lbf(1.0)), Err(SharingError::OutOfRange));
        let alike = share(&[row(f64::MAX); 3], &[bay(); 2], Transfer::Lap, lbf(1.0)).unwrap();
        assert!(alike.rows().all(|row| (row.share - 1.0 / 3.0).abs() < 1e-15));
    }

    #[test]
    fn the_envelope_holds_every_formula() {
        let with = |flexibility: f64| share(&[row(flexibility); 3], &[bay(); 2], Transfer::Lap, lbf(100.0)).unwrap();
        let (soft, stiff) = (with(2e-5), with(5e-6));
        let mut joint = Envelope::new();
        joint.add(&soft);
        joint.add(&stiff);
        let load = |sharing: &Sharing, index| sharing.row(index).unwrap().load;
        assert_eq!(joint.row(1), Some((load(&stiff, 1), load(&soft, 1))));
        let (end, most) = joint.peak().unwrap();
        assert!(end == 0 && (most.lbf() - load(&stiff, 0).lbf()).abs() < 1e-9);
        assert_eq!(joint.row(3), None);
        assert_eq!(joint.most_in_b(), lbf(100.0));
        assert_eq!(Envelope::new().peak(), None);
        // A doubler's last row gives back: its size counts.
        let mut doubler = Envelope::default();
        doubler.add(&share(&[row(1e-5); 2], &[bay()], Transfer::Doubler, lbf(100.0)).unwrap());
        assert_eq!(doubler.peak().map(|(row, load)| (row, load.lbf())), Some((0, 25.0)));
        // Half as much for each of two in the first row.
        let mut doubler = Envelope::new();
        let rows = [SharingRow { fasteners: 2, ..row(2e-5) }, row(1e-5)];
        let shared = share(&rows, &[bay()], Transfer::Doubler, lbf(100.0)).unwrap();
        assert_eq!((shared.peak, shared.equal_share), (1, 0.5));
        doubler.add(&shared);
        assert_eq!(doubler.peak().map(|(row, load)| (row, load.lbf())), Some((1, 25.0)));
    }

    #[test]
    fn where_nothing_is_in_a_plate_no_part_of_it_bears() {
        let passing = Passing::between(0.0, 0.0);
        assert_eq!((passing.bearing_share(), passing.bearing_bypass()), (None, None));
        // As much in front as behind, the other way round: the side in front is told first.
        let turned = Passing::between(-30.0, 30.0);
        assert_eq!((turned.gross, turned.bypass, turned.bearing), (lbf(-30.0), lbf(30.0), lbf(60.0)));
        assert_eq!(turned.bearing_share(), Some(2.0));
    }

    #[test]
    fn a_row_alone_has_no_bay_that_could_be_wrong() {
        let none = Bay { length: Length::ZERO, ..bay() };
        let alike = |rows| share_alike(&mut Sharing::nothing_yet(), rows, row(1e-5), none, Transfer::Lap, lbf(1.0));
        assert_eq!((alike(1), alike(2)), (Ok(()), Err(SharingError::PitchNotPositive)));
    }

    #[test]
    fn there_may_be_as_many_rows_as_there_is_room_for() {
        let found = share(&[row(1e-5); MAX_ROWS], &[bay(); MAX_ROWS - 1], Transfer::Lap, lbf(100.0)).unwrap();
        assert_eq!(found.rows().len(), MAX_ROWS);
        assert!((found.rows().map(|row| row.share).sum::<f64>() - 1.0).abs() < 1e-12);
    }
}
