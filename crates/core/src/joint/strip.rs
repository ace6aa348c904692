//! A strip of a joint whose rows are not alike: one rivet, then three, then one; or rivets of different size.
//!
//! Such a strip parts in one of these ways, each a load on its whole width:
//!
//! | way | load |
//! |---|---|
//! | all rivets | the sum of what they carry |
//! | a sheet, along a line from side to side through holes | Ftu × t × (width - holes on the line + Σ s² / (4 g)) + what the rivets before the line carry |
//!
//! Rivets that stand before the line, on the side where the sheet is pulled, have taken their part out of it by then. So a first row of few
//! rivets weakens the sheet little where it carries everything, and a fuller row behind it is relieved. Every line through holes is looked
//! at, straight or zigzag. All rivets are taken at their full strength together, as ductile joints are counted at failure.

use super::hole_table;
use super::strength::Allowable;
use crate::basis::Basis;
use crate::finding::{Code, Finding, Severity};
use crate::layout::Point;
use crate::length::Length;
use crate::practice::Key;
use crate::quantity::{Force, Stress};
use crate::rivet::part::Part;
use crate::sort::sort_by_key;

/// The most holes in a strip.
pub const MAX_HOLES: usize = 96;

/// One hole of a strip and its rivet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Hole {
    /// Where it stands: x along the load, y across it from one side of the strip to the other.
    pub at: Point,
    /// Diameter of the hole.
    pub diameter: Length,
    /// What its rivet carries. Zero where that is not known: then nothing is taken to leave the sheet before a line.
    pub carries: Force,
}

impl Hole {
    /// A hole of this diameter, whose rivet carries so much.
    #[must_use]
    pub const fn new(at: Point, diameter: Length, carries: Force) -> Hole {
        Hole { at, diameter, carries }
    }
}

/// The hole that the net section counts for a rivet: the nominal one, or the shank where the table has none.
#[must_use]
pub fn net_hole(rivet: &Part<'_>) -> Length {
    hole_table::nominal_hole(rivet.diameter()).map_or(rivet.diameter(), |row| row.hole)
}

/// The finding that the rivets of a strip have no strength: neither published nor given; and what to enter, where that is known.
#[must_use]
pub fn no_strength(rivet: &Part<'_>, key: Option<Key>) -> Finding {
    Finding::unknown(Code::StrengthNotPublished, Severity::Refer, rivet.series().basis, key)
}

/// The places of a row of so many rivets, each with an equal part of the width.
///
/// ```
/// use shophead::joint::strip::even_row;
/// use shophead::length::Length;
/// let across: Vec<_> = even_row(3, Length::parse("1-1/2")?, Length::ZERO).map(|at| at.y.to_string()).collect();
/// assert_eq!(across, ["0.250", "0.750", "1.250"]);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn even_row(count: u16, width: Length, x: Length) -> impl Iterator<Item = Point> {
    let parts = u32::from(count).saturating_mul(2).max(1);
    (0..u32::from(count)).map(move |index| {
        let y = width.times(index.saturating_mul(2).saturating_add(1), parts);
        Point { x, y }
    })
}

/// From which end a sheet of the strip is pulled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Pulled {
    /// At the end where x is least.
    AtFirst,
    /// At the other end.
    AtLast,
}

/// A sheet of the strip.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct StripSheet {
    /// Thickness; above zero.
    pub thickness: Length,
    /// Ultimate tension and where it stands; above zero.
    pub ftu: (Stress, Basis),
    /// From which end it is pulled.
    pub pulled: Pulled,
}

impl StripSheet {
    /// A sheet of this thickness and tensile strength.
    #[must_use]
    pub const fn new(thickness: Length, ftu: (Stress, Basis), pulled: Pulled) -> StripSheet {
        StripSheet { thickness, ftu, pulled }
    }
}

/// The weakest line through a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct WeakestLine {
    /// The load on the whole strip at which the sheet parts along it.
    pub load: Allowable,
    /// What is left of the width along it, in inches.
    pub net_width: f64,
    /// How many holes it goes through.
    pub holes: u16,
    /// x of the first row that it touches, counted from where the sheet is pulled.
    pub row: Length,
    /// What the rivets before that row carry.
    pub before: Force,
    /// Whether it goes from row to row.
    pub zigzag: bool,
}

crate::words::errors! {
    /// Why a strip has no strength.
    StripError {
        NoHoles = _, "strip-no-holes", "No holes.",
            "a strip needs at least one rivet";
        TooManyHoles = _, "strip-too-many-holes", "More than [`MAX_HOLES`].",
            "at most {MAX_HOLES} rivets in one strip; take a narrower one";
        LengthNotPositive = _, "strip-length", "A width, thickness or diameter of zero or less.",
            "width, thickness and holes must be above zero; right would be .032";
        NotPositive = _, "strip-strength", "A strength is not above zero.",
            "a strength must be above zero; right would be 62 ksi";
        HoleOutside = _, "strip-hole-outside", "A hole is outside the width.",
            "every hole must be inside the width of the strip";
        OutOfRange = _, "strip-out-of-range", "The loads come out too large to be numbers.",
            "these strengths are too large for these sizes; check their units";
    }
}

fn check(holes: &[Hole], width: Length) -> Result<(), StripError> {
    match holes.len() {
        0 => return Err(StripError::NoHoles),
        count if count > MAX_HOLES => return Err(StripError::TooManyHoles),
        _ => {}
    }
    if width <= Length::ZERO {
        return Err(StripError::LengthNotPositive);
    }
    for hole in holes {
        if hole.diameter <= Length::ZERO {
            return Err(StripError::LengthNotPositive);
        }
        if !(hole.carries.is_finite() && hole.carries >= Force::ZERO) {
            return Err(StripError::NotPositive);
        }
        let radius = hole.diameter.times(1, 2);
        if hole.at.y < radius || hole.at.y.plus(radius) > width {
            return Err(StripError::HoleOutside);
        }
    }
    Ok(())
}

/// The load at which all rivets of the strip fail together.
///
/// # Errors
/// [`StripError`].
pub fn all_rivets(holes: &[Hole], width: Length) -> Result<Force, StripError> {
    check(holes, width)?;
    let sum = Force::from_lbf(holes.iter().map(|hole| hole.carries.lbf()).sum());
    if sum.is_finite() { Ok(sum) } else { Err(StripError::OutOfRange) }
}

/// The weakest line through one sheet of the strip.
///
/// # Errors
/// [`StripError`].
///
/// ```
/// use shophead::basis::Basis;
/// use shophead::joint::strip::{Hole, Pulled, StripSheet, even_row, weakest_line};
/// use shophead::length::Length;
/// use shophead::quantity::{Force, Stress};
/// // One rivet, then three, then one, 1 in apart, 1-3/8 wide: the first row decides.
/// let width = Length::parse("1-3/8")?;
/// let row = |count, x: &str| even_row(count, width, Length::parse(x).unwrap());
/// let holes: Vec<Hole> = row(1, "0").chain(row(3, "1")).chain(row(1, "2"))
///     .map(|at| Hole::new(at, Length::from_64ths(10), Force::from_lbf(575.0))).collect();
/// let given = Basis::AS_GIVEN;
/// let sheet = StripSheet::new(Length::parse(".025")?, (Stress::from_ksi(70.0), given), Pulled::AtFirst);
/// let line = weakest_line(&holes, width, &sheet)?;
/// assert_eq!((line.holes, line.row), (1, Length::ZERO));
/// assert!((line.net_width - (1.375 - 0.15625)).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn weakest_line(holes: &[Hole], width: Length, sheet: &StripSheet) -> Result<WeakestLine, StripError> {
    let mut weakest: Option<WeakestLine> = None;
    for (index, first) in holes.iter().enumerate() {
        let x = first.at.x;
        // Each row once.
        if holes.iter().take(index).any(|hole| hole.at.x == x) {
            continue;
        }
        let line = line_of_row(holes, width, sheet, x)?;
        if weakest.is_none_or(|weakest| line.load.force < weakest.load.force) {
            weakest = Some(line);
        }
    }
    weakest.ok_or(StripError::NoHoles)
}

/// The weakest line whose first row, from where the sheet is pulled, is the one at `x`.
///
/// # Errors
/// [`StripError`]; [`StripError::NoHoles`] where no hole stands at `x`.
pub fn line_of_row(holes: &[Hole], width: Length, sheet: &StripSheet, x: Length) -> Result<WeakestLine, StripError> {
    check(holes, width)?;
    let (ftu, basis) = sheet.ftu;
    if sheet.thickness <= Length::ZERO {
        return Err(StripError::LengthNotPositive);
    }
    if !(ftu.is_finite() && ftu > Stress::ZERO) {
        return Err(StripError::NotPositive);
    }
    if !holes.iter().any(|hole| hole.at.x == x) {
        return Err(StripError::NoHoles);
    }
    let mut sorted: heapless::Vec<Hole, MAX_HOLES> = holes.iter().copied().collect();
    sort_by_key(&mut sorted, |hole| (hole.at.y, hole.at.x));
    let line = line_from(&sorted, width, sheet, x);
    if !line.load.force.is_finite() {
        return Err(StripError::OutOfRange);
    }
    let basis = if line.zigzag { basis.weaker(Basis::ZIGZAG_NET_WIDTH) } else { basis };
    let basis = if line.before > Force::ZERO { basis.weaker(Basis::ROWS_OF_UNEQUAL_NUMBER) } else { basis };
    Ok(WeakestLine { load: Allowable { basis, ..line.load }, ..line })
}

/// The best way to a hole, for a line that has touched its first row by then or has not.
#[derive(Clone, Copy)]
#[cfg_attr(not(feature = "words"), allow(dead_code, reason = "only the working goes back along it"))]
struct Way {
    /// Inches of width that are cut away up to here, less what zigzag legs give back.
    cut: f64,
    holes: u16,
    zigzag: bool,
    /// Where its last hole stands among the ways.
    at: usize,
    /// Where the one before stands, and whether the line has touched its first row by then.
    from: Option<(usize, bool)>,
}

/// A hole, and the ways to it without and with a hole of the row on it.
type Ways = heapless::Vec<(Hole, Option<Way>, Option<Way>), MAX_HOLES>;

/// The ways to every hole at or behind the row, the one that cuts most away, and what the rivets before the row carry.
fn ways_from(sorted: &[Hole], sheet: &StripSheet, row: Length) -> (Ways, Option<Way>, Force) {
    let is_before = |hole: &Hole| match sheet.pulled {
        Pulled::AtFirst => hole.at.x < row,
        Pulled::AtLast => hole.at.x > row,
    };
    let mut before = Force::ZERO;
    // For every hole at or behind the row: the way that cuts most away, without and with a hole of the row on it.
    let mut ways = Ways::new();
    for hole in sorted {
        if is_before(hole) {
            before = Force::from_lbf(before.lbf() + hole.carries.lbf());
            continue;
        }
        let diameter = hole.diameter.to_inches_f64();
        let at = ways.len();
        let here = Way { cut: diameter, holes: 1, zigzag: false, at, from: None };
        let (mut without, mut with) = (Some(here), None);
        for (index, (other, other_without, other_with)) in ways.iter().enumerate() {
            let gauge = hole.at.y.minus(other.at.y);
            if gauge <= Length::ZERO {
                continue;
            }
            let (s, g) = (hole.at.x.minus(other.at.x).to_inches_f64(), gauge.to_inches_f64());
            let onward = |touched: bool| {
                move |way: Way| Way {
                    cut: way.cut + diameter - s * s / (4.0 * g),
                    holes: way.holes.saturating_add(1),
                    zigzag: way.zigzag || s != 0.0,
                    at,
                    from: Some((index, touched)),
                }
            };
            without = more_cut(without, other_without.map(onward(false)));
            with = more_cut(with, other_with.map(onward(true)));
        }
        if hole.at.x == row {
            with = more_cut(without, with);
            without = None;
        }
        // Cannot fail: there are no more holes than places.
        let _ = ways.push((*hole, without, with));
    }
    let way = ways.iter().fold(None, |most, (_, _, with)| more_cut(most, *with));
    (ways, way, before)
}

/// The holes of the weakest line whose first row is the one at `row`, from side to side.
#[cfg(feature = "words")]
pub(crate) fn holes_of_line(holes: &[Hole], sheet: &StripSheet, row: Length) -> heapless::Vec<Hole, MAX_HOLES> {
    let mut sorted: heapless::Vec<Hole, MAX_HOLES> = holes.iter().copied().collect();
    sort_by_key(&mut sorted, |hole| (hole.at.y, hole.at.x));
    let (ways, mut way, _) = ways_from(&sorted, sheet, row);
    let mut line = heapless::Vec::new();
    while let Some(here) = way {
        let Some((hole, ..)) = ways.get(here.at) else { break };
        // No hole twice: each stands before the last one.
        let _ = line.push(*hole);
        way = here.from.and_then(|(index, touched)| {
            let (_, without, with) = ways.get(index)?;
            if touched { *with } else { *without }
        });
    }
    line.reverse();
    line
}

/// The weakest line whose first row, from where the sheet is pulled, is the one at `row`.
fn line_from(sorted: &[Hole], width: Length, sheet: &StripSheet, row: Length) -> WeakestLine {
    let (_, way, before) = ways_from(sorted, sheet, row);
    let way = way.unwrap_or(Way { cut: 0.0, holes: 0, zigzag: false, at: 0, from: None });
    let net_width = (width.to_inches_f64() - way.cut).max(0.0);
    let load = sheet.ftu.0.psi() * sheet.thickness.to_inches_f64() * net_width + before.lbf();
    WeakestLine {
        load: Allowable { force: Force::from_lbf(load), basis: sheet.ftu.1 },
        net_width,
        holes: way.holes,
        row,
        before,
        zigzag: way.zigzag,
    }
}

fn more_cut(one: Option<Way>, other: Option<Way>) -> Option<Way> {
    match (one, other) {
        (Some(one), Some(other)) => Some(if other.cut > one.cut { other } else { one }),
        (one, other) => one.or(other),
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use crate::prelude::length;
    use std::vec::Vec;

    const GIVEN: Basis = Basis::own(0);

    fn strip(counts: &[u16], apart: &str, width: &str) -> Vec<Hole> {
        let mut holes = Vec::new();
        let mut x = Length::ZERO;
        for count in counts {
            for at in even_row(*count, length(width), x) {
                holes.push(Hole { at, diameter: length(".125"), carries: Force::from_lbf(300.0) });
            }
            x = x.plus(length(apart));
        }
        holes
    }

    fn sheet(pulled: Pulled) -> StripSheet {
        StripSheet { thickness: length(".040"), ftu: (Stress::from_ksi(60.0), GIVEN), pulled }
    }

    #[test]
    fn a_fuller_row_behind_is_relieved_by_what_the_first_took_off() {
        let holes = strip(&[1, 3, 1], "1", "2");
        let line = weakest_line(&holes, length("2"), &sheet(Pulled::AtFirst)).unwrap();
        // Row 1: 60 000 × 0.040 × (2 - 0.125); row 2: 60 000 × 0.040 × (2 - 0.375) + 300.
        let (first, second) = (2_400.0 * 1.875, 2_400.0 * 1.625 + 300.0);
        assert!((line.load.force.lbf() - f64::min(first, second)).abs() < 1e-9, "{line:?}");
        assert_eq!((line.holes, line.before), (3, Force::from_lbf(300.0)));
        assert_eq!(all_rivets(&holes, length("2")), Ok(Force::from_lbf(1_500.0)));
    }

    #[test]
    fn the_strip_looks_the_same_from_either_end() {
        let holes = strip(&[1, 3, 2], "1", "2");
        let mirrored: Vec<Hole> = holes
            .iter()
            .map(|hole| Hole { at: Point { x: length("2").minus(hole.at.x), ..hole.at }, ..*hole })
            .collect();
        let last = weakest_line(&holes, length("2"), &sheet(Pulled::AtLast)).unwrap();
        let first = weakest_line(&mirrored, length("2"), &sheet(Pulled::AtFirst)).unwrap();
        assert_eq!((last.load.force, last.holes), (first.load.force, first.holes));
    }

    #[test]
    fn close_rows_part_zigzag() {
        // Two rivets, then three, staggered: the line through all five when the rows stand close.
        let holes = strip(&[2, 3], ".2", "2");
        let line = weakest_line(&holes, length("2"), &sheet(Pulled::AtFirst)).unwrap();
        // Across: 1/3, 1/2, 1, 3/2, 5/3. Legs: 1/6 and 1/2 across, twice each.
        let gained = 2.0 * (0.04 / (4.0 / 6.0) + 0.04 / 2.0);
        assert!(line.zigzag && line.holes == 5, "{line:?}");
        assert!((line.net_width - (2.0 - 5.0 * 0.125 + gained)).abs() < 1e-7, "{line:?}");
        assert_eq!(line.load.basis, Basis::ZIGZAG_NET_WIDTH);
        // Far apart: only two holes of the first row.
        let apart = weakest_line(&strip(&[2, 3], "3", "2"), length("2"), &sheet(Pulled::AtFirst)).unwrap();
        assert!(!apart.zigzag && apart.before == Force::ZERO && apart.holes == 2, "{apart:?}");
    }

    #[test]
    fn what_is_no_strip_is_an_error() {
        let holes = strip(&[1], "1", "1");
        let error =
            |holes: &[Hole], width: &str| weakest_line(holes, length(width), &sheet(Pulled::AtFirst)).unwrap_err();
        assert_eq!(error(&[], "1"), StripError::NoHoles);
        assert_eq!(error(&[holes[0]; MAX_HOLES + 1], "1"), StripError::TooManyHoles);
        assert_eq!(error(&holes, "0"), StripError::LengthNotPositive);
        assert_eq!(error(&holes, ".5"), StripError::HoleOutside);
        assert_eq!(error(&[Hole { carries: Force::from_lbf(f64::NAN), ..holes[0] }], "1"), StripError::NotPositive);
        let endless =
            StripSheet { ftu: (Stress::from_psi(f64::MAX), GIVEN), thickness: Length::MAX, ..sheet(Pulled::AtFirst) };
        assert_eq!(weakest_line(&holes, length("1"), &endless), Err(StripError::OutOfRange));
    }

    #[test]
    fn a_hole_may_touch_the_side_and_there_may_be_as_many_as_there_is_room_for() {
        let hole = strip(&[1], "1", "1")[0];
        let carried = |y: Length| all_rivets(&[Hole { at: Point { y, ..hole.at }, ..hole }], length("1"));
        let hair = Length::from_nanometres(1).unwrap();
        let (low, high) = (length(".0625"), length(".9375"));
        for (y, good) in [(low, true), (low.minus(hair), false), (high, true), (high.plus(hair), false)] {
            assert_eq!(carried(y), if good { Ok(hole.carries) } else { Err(StripError::HoleOutside) }, "{y}");
        }
        assert_eq!(all_rivets(&[hole; MAX_HOLES], length("1")), Ok(Force::from_lbf(300.0 * 96.0)));
    }

    #[test]
    fn of_lines_alike_the_straight_one_of_the_first_row_counts() {
        let hole = |x: &str, y: &str, lbf: f64| {
            let at = Point { x: length(x), y: length(y) };
            Hole { at, diameter: length(".125"), carries: Force::from_lbf(lbf) }
        };
        // The zigzag gives back s² / (4 g) = 0.5² / 2, just the hole that it takes.
        let holes = [hole("0", ".25", 300.0), hole(".5", ".75", 300.0)];
        let line = line_of_row(&holes, length("1"), &sheet(Pulled::AtFirst), Length::ZERO).unwrap();
        assert_eq!((line.holes, line.zigzag, line.net_width, line.load.basis), (1, false, 0.875, GIVEN));
        // Rivets that carry nothing leave every row alike.
        let holes = [hole("0", ".5", 0.0), hole("4", ".5", 0.0)];
        for (pulled, row) in [(Pulled::AtFirst, "0"), (Pulled::AtLast, "0")] {
            assert_eq!(weakest_line(&holes, length("1"), &sheet(pulled)).unwrap().row, length(row));
        }
    }

    #[test]
    fn a_line_rests_on_unequal_rows_only_where_rivets_stand_before_it() {
        let holes = strip(&[1, 3], "1", "2");
        let basis = |x: &str| line_of_row(&holes, length("2"), &sheet(Pulled::AtFirst), length(x)).unwrap().load.basis;
        assert_eq!((basis("0"), basis("1")), (GIVEN, Basis::ROWS_OF_UNEQUAL_NUMBER));
    }

    #[test]
    fn strengths_of_a_strip_are_numbers_above_zero() {
        let holes = strip(&[1], "1", "1");
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let sheet = StripSheet { ftu: (Stress::from_psi(bad), GIVEN), ..sheet(Pulled::AtFirst) };
            assert_eq!(weakest_line(&holes, length("1"), &sheet), Err(StripError::NotPositive), "{bad}");
        }
        for bad in [-1.0, f64::NAN, f64::INFINITY] {
            let holes = [Hole { carries: Force::from_lbf(bad), ..holes[0] }];
            assert_eq!(all_rivets(&holes, length("1")), Err(StripError::NotPositive), "{bad}");
        }
        let holes = [Hole { carries: Force::ZERO, ..holes[0] }];
        assert_eq!(all_rivets(&holes, length("1")), Ok(Force::ZERO));
    }
}
