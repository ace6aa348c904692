//! What a row must be for a wanted margin: pitch, rows, diameter, edge distance or gauge, one unknown at a time; the pattern with the least
//! rivets; the pattern that keeps most of the sheet.
//!
//! Everything that is checked of a row as it is laid out is checked of every row that is tried: a row with anything to refer does not hold,
//! whatever its margin. The answer names the next weaker step and why that one fails.
//!
//! | unknown | tried | weaker step |
//! |---|---|---|
//! | pitch | from the greatest usual pitch down, in [`PITCH_STEP`] | the next wider pitch |
//! | rows | from one up | a row fewer |
//! | diameter | the sizes of the series | the next smaller size |
//! | edge | from the least up, in [`EDGE_STEP`] | the next shorter distance |
//! | gauge | the gauges of [`super::gauge_table`], one layer | the next thinner gauge |
//! | least rivets | every size, number of rows and pitch | the next wider pitch of what was found |
//! | best share | the same | a row fewer |

use core::cmp::Ordering;

use super::gauge_table::gauges;
use super::in_row::{InRow, LaidRows, carried, in_row};
use crate::finding::{Code, Figure, Finding, Severity};
use crate::joint::margin::{Factors, Load, Margin, MarginError, margin};
use crate::joint::row::{RowError, RowGoverning, RowStrength};
use crate::length::{Length, Toleranced, product};
use crate::practice::{Case, Name, Practice};
use crate::quantity::Force;
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::stack::{Layer, Stack};

/// Step of the pitches that are tried.
pub const PITCH_STEP: Length = Length::from_64ths(2);
/// Step of the edge distances that are tried.
pub const EDGE_STEP: Length = Length::from_64ths(1);
/// The most rows that are tried.
pub const MOST_ROWS: u8 = 12;

/// What is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum SolveFor {
    /// The widest pitch.
    Pitch,
    /// The fewest rows.
    Rows,
    /// The smallest diameter.
    Diameter,
    /// The shortest edge distance.
    Edge,
    /// The thinnest gauge of one layer, counted from 1.
    Gauge(u8),
    /// The fewest rivets an inch, by diameter, rows and pitch.
    LeastRivets,
    /// The greatest share of the sheet, by diameter, rows and pitch; the load may be anything.
    BestShare,
}

/// What is wanted of the rows.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct Wanted<'s, 'a> {
    /// The rows; what is looked for in them does not count.
    pub rows: LaidRows<'s, 'a>,
    /// Load on an inch of width, and its factors.
    pub per_inch: Load,
    /// The factors of the load.
    pub factors: Factors,
    /// The margin that is wanted.
    pub margin: f64,
}

impl<'s, 'a> Wanted<'s, 'a> {
    /// Rows that carry a load on an inch of width, with the usual factors and no margin beyond them.
    #[must_use]
    pub fn new(rows: LaidRows<'s, 'a>, per_inch: Load) -> Self {
        Wanted { rows, per_inch, factors: Factors::default(), margin: 0.0 }
    }

    setters! {
        /// The factors of the load.
        factors: Factors;
        /// The margin that is wanted.
        margin: f64;
    }
}

/// Rows that were tried.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Tried {
    /// The rivet, with its length where one fits.
    pub rivet: Part<'static>,
    /// From the row to the nearest edge.
    pub edge: Length,
    /// From rivet to rivet.
    pub pitch: Length,
    /// How many rows.
    pub rows: u8,
    /// The thickness of the layer that was looked for.
    pub gauge: Option<Length>,
    /// Rivets an inch.
    pub rivets_per_inch: f64,
    /// What they carry an inch; `None` where that is not published.
    pub carries: Option<Force>,
    /// What fails first.
    pub governing: Option<RowGoverning>,
    /// The margin under the load.
    pub margin: Option<Margin>,
    /// What they carry over what the weakest sheet of the joint does without holes.
    pub share: Option<f64>,
    /// The first thing that has to be referred; looked for only where the margin is enough.
    pub refers: Option<Finding>,
}

impl Tried {
    /// Rows as they stand, with everything that was found. The load is that on an inch of width.
    ///
    /// # Errors
    /// [`RowError`] for what is no row.
    pub fn asked<'a>(rows: &LaidRows<'_, 'a>, per_inch: Option<(Load, Factors)>) -> Result<(Tried, InRow), RowError> {
        let found = in_row(rows)?;
        let mut tried = Tried::of(rows, &found.strength, per_inch);
        tried.rivet = found.rivet;
        tried.refers = found.findings.iter().find(|finding| finding.severity() == Severity::Refer).copied();
        Ok((tried, found))
    }

    fn of(rows: &LaidRows<'_, '_>, strength: &RowStrength, per_inch: Option<(Load, Factors)>) -> Tried {
        let carries = strength.per_inch.map(|load| load.force);
        let margin = carries.zip(per_inch).and_then(|(carries, (load, factors))| margin(carries, load, factors).ok());
        Tried {
            rivet: rows.rivet,
            edge: rows.edge,
            pitch: rows.pitch,
            rows: rows.rows,
            gauge: None,
            rivets_per_inch: strength.rivets_per_inch,
            carries,
            governing: strength.governing,
            margin,
            share: carries
                .zip(weakest_sheet(rows.stack, rows.practice))
                .map(|(carries, sheet)| carries.lbf() / sheet.lbf()),
            refers: None,
        }
    }
}

/// Why the next weaker step is not the answer.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Why {
    /// Its margin is less than wanted.
    Margin(f64),
    /// Something of it has to be referred.
    Refers(Finding),
    /// It keeps less of the sheet.
    Share(f64),
    /// There is none: the unknown is at the end of what is tried.
    AtEnd,
}

impl Why {
    /// The word used in output.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Why::Margin(_) => "margin",
            Why::Refers(_) => "refers",
            Why::Share(_) => "share",
            Why::AtEnd => "at-end",
        }
    }
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Solved {
    /// The rows that hold; `None` where nothing that was tried does.
    pub found: Option<Tried>,
    /// The next weaker step; where nothing holds, the one with the greatest margin. `None` where there is none.
    pub beside: Option<Tried>,
    /// Why that is not the answer.
    pub why: Why,
}

impl Solved {
    /// What is referred where nothing that was tried holds; `None` where something does.
    #[must_use]
    pub fn refusal(&self, wanted: &Wanted<'_, '_>) -> Option<Finding> {
        let basis = wanted.factors.safety.basis;
        let found = match self.why {
            Why::Refers(finding) => finding,
            Why::Margin(margin) => Finding::new(Code::MarginShort, Severity::Refer, basis)
                .with_measured(Figure::Ratio(margin))
                .with_limit(Figure::Ratio(wanted.margin)),
            Why::Share(_) | Why::AtEnd => Finding::new(Code::NoLimit, Severity::Refer, basis),
        };
        self.found.is_none().then_some(found)
    }
}

crate::words::errors! {
    /// Why nothing was tried.
    SolveError {
        NoLimits = _, "solve-no-limits", "The practice gives no limit between which to try.",
            "the practice gives no limits for this rivet between which to look";
        NoLayer = _, "solve-no-layer", "There is no such layer.",
            "there is no such layer; layers count from 1 on the side of the manufactured head";
        MarginNotValid = _, "solve-margin", "The wanted margin is no number or below zero.",
            "the wanted margin must be a number, zero or above; right would be 0.15";
        | Load(MarginError), "The load has no margin.";
    }
}

/// The pitch for rows whose pitch nobody gave: the least that the practice allows for so many rows; where their number is looked for,
/// the least that it allows whatever their number. `None` where it has no limit.
///
/// ```
/// use shophead::length::Length;
/// use shophead::practice::HANDBOOK;
/// use shophead::repair::solve::{SolveFor, usual_pitch};
/// use shophead::rivet::part::Part;
/// let rivet = Part::parse("MS20470AD4")?;
/// // Two rows stand wider than one: AC 43.13-1B para 4-58g(2)(c).
/// assert_eq!(usual_pitch(&rivet, 1, None, &HANDBOOK), Length::parse("3/8").ok());
/// assert_eq!(usual_pitch(&rivet, 1, Some(SolveFor::Rows), &HANDBOOK), Length::parse("1/2").ok());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn usual_pitch(rivet: &Part<'_>, rows: u8, unknown: Option<SolveFor>, practice: &Practice<'_>) -> Option<Length> {
    let least =
        |rows| Some(practice.length(Name::PitchLeast, &Case::for_part(&practice.rivet(*rivet)).in_rows(rows))?.value);
    match unknown {
        Some(SolveFor::Rows) => (1..=MOST_ROWS).filter_map(least).max(),
        _ => least(rows),
    }
}

/// Looks for what the rows must be.
///
/// # Errors
/// [`SolveError`].
///
/// ```
/// use shophead::joint::margin::{Factors, Load, LoadKind};
/// use shophead::length::{Length, Toleranced};
/// use shophead::material::Material;
/// use shophead::quantity::Force;
/// use shophead::repair::in_row::LaidRows;
/// use shophead::repair::solve::{SolveFor, Wanted, Why, solve};
/// use shophead::rivet::part::Part;
/// use shophead::stack::{Layer, Stack};
/// let material = Some(Material::parse("2024-T3")?);
/// let mut stack = Stack::new();
/// for thickness in [".040", ".063"] {
///     stack.push(Layer::of(Toleranced::parse(thickness)?).material(material))?;
/// }
/// let rows = LaidRows::new(Part::parse("MS20470AD4")?, &stack, Length::parse("1/4")?, Length::parse("1/2")?);
/// let load = Load { force: Force::from_lbf(500.0), kind: LoadKind::Ultimate };
/// let wanted = Wanted::new(rows, load).factors(Factors::SEAM).margin(0.1);
/// // 386 lbf a rivet: 500 × 1.1 lbf an inch takes a rivet every 0.70 in.
/// let solved = solve(&wanted, SolveFor::Pitch).expect("a pitch");
/// assert_eq!(solved.found.map(|found| found.pitch), Length::parse("11/16").ok());
/// assert!(matches!(solved.why, Why::Margin(margin) if margin < 0.1));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve<'a>(wanted: &Wanted<'_, 'a>, unknown: SolveFor) -> Result<Solved, SolveError> {
    if !(wanted.margin.is_finite() && wanted.margin >= 0.0) {
        return Err(SolveError::MarginNotValid);
    }
    // A load without a margin never gets one.
    margin(Force::ZERO, wanted.per_inch, wanted.factors).map_err(SolveError::Load)?;
    match unknown {
        SolveFor::Pitch => widest_pitch(wanted, wanted.rows, Length::ZERO),
        SolveFor::Rows => first(wanted, (1..=MOST_ROWS).map(Step::Rows)),
        SolveFor::Diameter => first(wanted, sizes(&wanted.rows.rivet).map(Step::Rivet)),
        SolveFor::Edge => shortest_edge(wanted),
        SolveFor::Gauge(layer) => thinnest_gauge(wanted, layer),
        SolveFor::LeastRivets => least_rivets(wanted),
        SolveFor::BestShare => best_share(wanted),
    }
}

fn sizes(rivet: &Part<'static>) -> impl Iterator<Item = Part<'static>> + Clone + use<> {
    let rivet = rivet.without_length();
    rivet.series().sizes.iter().filter_map(move |size| rivet.in_size(size))
}

/// One value of the unknown.
#[derive(Clone, Copy)]
enum Step {
    Pitch(Length),
    Rows(u8),
    Rivet(Part<'static>),
    Edge(Length),
    Gauge(usize, Length),
}

impl Step {
    fn put<'s, 'a>(self, rows: LaidRows<'s, 'a>) -> LaidRows<'s, 'a> {
        match self {
            Step::Pitch(pitch) => LaidRows { pitch, ..rows },
            Step::Rows(count) => LaidRows { rows: count, ..rows },
            Step::Rivet(rivet) => LaidRows { rivet, ..rows },
            Step::Edge(edge) => LaidRows { edge, ..rows },
            // The stack is another one then: see `tried`.
            Step::Gauge(..) => rows,
        }
    }
}

/// Rows as a step makes them; `None` where that is no row at all.
fn tried<'a>(wanted: &Wanted<'_, 'a>, step: Step) -> Option<Tried> {
    if let Step::Gauge(index, thickness) = step {
        let stack = with_gauge(wanted.rows.stack, index, thickness)?;
        let found = ask(wanted, LaidRows { stack: &stack, ..wanted.rows })?;
        return Some(Tried { gauge: Some(thickness), ..found });
    }
    ask(wanted, step.put(wanted.rows))
}

/// `None` for a pitch inside the hole and the like: no row, so nothing is known of it.
fn ask<'a>(wanted: &Wanted<'_, 'a>, rows: LaidRows<'_, 'a>) -> Option<Tried> {
    let enough = |tried: &Tried| tried.margin.is_some_and(|margin| margin.value >= wanted.margin);
    ask_where(wanted, rows, enough)
}

/// Asks what the rows carry, and everything else where that is good enough.
fn ask_where<'a>(
    wanted: &Wanted<'_, 'a>,
    rows: LaidRows<'_, 'a>,
    enough: impl FnOnce(&Tried) -> bool,
) -> Option<Tried> {
    let strength = carried(&rows).ok()?;
    let mut tried = Tried::of(&rows, &strength, Some((wanted.per_inch, wanted.factors)));
    // Without a strength that is known, what is missing is what has to be referred.
    if tried.carries.is_none() || enough(&tried) {
        let InRow { rivet, findings, .. } = in_row(&rows).ok()?;
        tried.rivet = rivet;
        tried.refers = findings.iter().find(|finding| finding.severity() == Severity::Refer).copied();
    }
    Some(tried)
}

/// What the weakest sheet carries an inch without holes.
fn weakest_sheet(stack: &Stack, practice: &Practice<'_>) -> Option<Force> {
    let mut weakest: Option<Force> = None;
    for layer in stack.load_carrying() {
        let thickness = layer.thickness.nominal();
        let ftu = practice.sheet(layer.material?, thickness).ftu()?;
        let sheet = Force::from_lbf(ftu.psi() * thickness.to_inches_f64());
        weakest = Some(weakest.map_or(sheet, |weakest| weakest.min(sheet)));
    }
    weakest
}

fn with_gauge(stack: &Stack, index: usize, thickness: Length) -> Option<Stack> {
    let mut changed = Stack::new();
    for (place, layer) in stack.layers().iter().enumerate() {
        let thickness = if place == index { Toleranced::exactly(thickness) } else { layer.thickness };
        changed.push(Layer { thickness, ..*layer }).ok()?;
    }
    Some(changed)
}

impl Wanted<'_, '_> {
    fn holds(&self, tried: &Tried) -> bool {
        tried.refers.is_none() && tried.margin.is_some_and(|margin| margin.value >= self.margin)
    }

    fn why(&self, weaker: Option<&Tried>) -> Why {
        match weaker {
            None => Why::AtEnd,
            Some(Tried { margin: Some(margin), .. }) if margin.value < self.margin => Why::Margin(margin.value),
            Some(Tried { refers: Some(finding), .. }) => Why::Refers(*finding),
            Some(_) => Why::AtEnd,
        }
    }
}

/// The first step that holds, with the one before it.
fn first<'a>(wanted: &Wanted<'_, 'a>, steps: impl Iterator<Item = Step>) -> Result<Solved, SolveError> {
    let mut weaker: Option<Tried> = None;
    let mut best: Option<Tried> = None;
    for step in steps {
        let Some(found) = tried(wanted, step) else { continue };
        if wanted.holds(&found) {
            let why = wanted.why(weaker.as_ref());
            return Ok(Solved { found: Some(found), beside: weaker, why });
        }
        if best.as_ref().is_none_or(|best| nearer(&found, best)) {
            best = Some(found.clone());
        }
        weaker = Some(found);
    }
    let why = wanted.why(best.as_ref());
    Ok(Solved { found: None, beside: best, why })
}

/// Whether one has the greater margin; what has to be referred comes last.
fn nearer(one: &Tried, other: &Tried) -> bool {
    let rank = |tried: &Tried| (tried.refers.is_none(), tried.margin.map_or(-1.0, |margin| margin.value));
    rank(one).partial_cmp(&rank(other)) == Some(Ordering::Greater)
}

/// The least and the greatest pitch that are tried for some rows.
fn pitches(rows: &LaidRows<'_, '_>) -> Option<(Length, Length)> {
    let case = rows.case();
    let least = rows.practice.length(Name::PitchLeast, &case)?.value.ceil_to(PITCH_STEP);
    let greatest = rows.practice.length(Name::PitchGreatest, &case)?.value.floor_to(PITCH_STEP);
    (least > Length::ZERO && least <= greatest).then_some((least, greatest))
}

fn down(from: Length, to: Length, step: Length) -> impl Iterator<Item = Length> {
    core::iter::successors(Some(from), move |value| value.checked_sub(step).filter(|value| *value >= to))
}

/// The widest pitch of some rows that holds, no closer than `closest`.
fn widest_pitch<'a>(wanted: &Wanted<'_, 'a>, rows: LaidRows<'_, 'a>, closest: Length) -> Result<Solved, SolveError> {
    let (least, greatest) = pitches(&rows).ok_or(SolveError::NoLimits)?;
    let wanted = Wanted { rows, ..*wanted };
    let down = down(greatest, least, PITCH_STEP).take_while(|pitch| *pitch >= closest);
    first(&wanted, down.map(Step::Pitch))
}

fn shortest_edge<'a>(wanted: &Wanted<'_, 'a>) -> Result<Solved, SolveError> {
    let case = wanted.rows.case();
    let limit = |name| wanted.rows.practice.length(name, &case).map(|limit| limit.value);
    let (Some(least), Some(greatest)) = (limit(Name::EdgeDistanceLeast), limit(Name::EdgeDistanceGreatest)) else {
        return Err(SolveError::NoLimits);
    };
    let (least, greatest) = (least.ceil_to(EDGE_STEP), greatest.floor_to(EDGE_STEP));
    // From the step below, which says why it is no less; what is no distance at all says nothing.
    let up = core::iter::successors(Some(least.minus(EDGE_STEP)), |edge| {
        edge.checked_add(EDGE_STEP).filter(|edge| *edge <= greatest)
    });
    first(wanted, up.map(Step::Edge))
}

fn thinnest_gauge<'a>(wanted: &Wanted<'_, 'a>, layer: u8) -> Result<Solved, SolveError> {
    let index = usize::from(layer).checked_sub(1).filter(|index| *index < wanted.rows.stack.layers().len());
    let index = index.ok_or(SolveError::NoLayer)?;
    first(wanted, gauges().map(|gauge| Step::Gauge(index, gauge)))
}

/// Every size and number of rows.
fn patterns<'s, 'a>(rows: LaidRows<'s, 'a>) -> impl Iterator<Item = LaidRows<'s, 'a>> {
    sizes(&rows.rivet).flat_map(move |rivet| (1..=MOST_ROWS).map(move |count| LaidRows { rivet, rows: count, ..rows }))
}

/// Rivets an inch, compared without dividing.
fn fewer(one: &Tried, other: &Tried) -> Ordering {
    let times = |rows: u8, pitch: Length| product(i128::from(rows), i128::from(pitch.nanometres()));
    let per_inch = times(one.rows, other.pitch).cmp(&times(other.rows, one.pitch));
    per_inch.then(one.rows.cmp(&other.rows)).then(one.rivet.diameter().cmp(&other.rivet.diameter()))
}

fn least_rivets<'a>(wanted: &Wanted<'_, 'a>) -> Result<Solved, SolveError> {
    let mut least: Option<Solved> = None;
    let mut best: Option<Tried> = None;
    for rows in patterns(wanted.rows) {
        // Closer than this there are more rivets than those found already.
        let so_far = least.as_ref().and_then(|least| least.found.as_ref());
        let closest =
            so_far.map_or(Length::ZERO, |found| found.pitch.times(u32::from(rows.rows), u32::from(found.rows)));
        let Ok(solved) = widest_pitch(wanted, rows, closest) else { continue };
        match (&solved.found, &solved.beside) {
            (Some(found), _) => {
                let so_far = least.as_ref().and_then(|least| least.found.as_ref());
                if so_far.is_none_or(|so_far| fewer(found, so_far) == Ordering::Less) {
                    least = Some(solved);
                }
            }
            (None, Some(beside)) if best.as_ref().is_none_or(|best| nearer(beside, best)) => best = solved.beside,
            _ => {}
        }
    }
    let why = wanted.why(best.as_ref());
    Ok(least.unwrap_or(Solved { found: None, beside: best, why }))
}

/// Whether one keeps more of the sheet than the best so far, or as much with fewer rivets. What is not known keeps nothing.
fn keeps_more(one: &Tried, best: Option<&Tried>) -> bool {
    // A hair more of the sheet is not worth a row more.
    const HAIR: f64 = 1e-9;
    let Some(share) = one.share else { return false };
    best.is_none_or(|best| {
        let most = best.share.unwrap_or(0.0);
        share > most + HAIR || (share > most - HAIR && fewer(one, best) == Ordering::Less)
    })
}

fn best_share<'a>(wanted: &Wanted<'_, 'a>) -> Result<Solved, SolveError> {
    let mut best: Option<Tried> = None;
    let mut refers: Option<Finding> = None;
    for rows in patterns(wanted.rows) {
        let Some((least, greatest)) = pitches(&rows) else { continue };
        for pitch in down(greatest, least, PITCH_STEP) {
            let better = |found: &Tried| keeps_more(found, best.as_ref());
            let Some(found) = ask_where(wanted, LaidRows { pitch, ..rows }, better) else { continue };
            refers = refers.or(found.refers);
            if found.refers.is_none() && keeps_more(&found, best.as_ref()) {
                best = Some(found);
            }
        }
    }
    let Some(found) = best else {
        return Ok(Solved { found: None, beside: None, why: refers.map_or(Why::AtEnd, Why::Refers) });
    };
    // No rows at all carry nothing, which is no answer.
    let weaker = found.rows.checked_sub(1).and_then(|rows| {
        let rivet = found.rivet.without_length();
        ask_where(wanted, LaidRows { rivet, rows, pitch: found.pitch, ..wanted.rows }, |_| true)
    });
    let why = match &weaker {
        None => Why::AtEnd,
        Some(Tried { refers: Some(finding), .. }) => Why::Refers(*finding),
        Some(weaker) => weaker.share.map_or(Why::AtEnd, Why::Share),
    };
    Ok(Solved { found: Some(found), beside: weaker, why })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::Basis;
    use crate::finding::{Code, Severity};
    use crate::joint::margin::LoadKind;

    fn bare(rows: u8) -> Tried {
        Tried {
            rivet: Part::parse("MS20470AD4").unwrap(),
            edge: Length::ZERO,
            pitch: Length::INCH,
            rows,
            gauge: None,
            rivets_per_inch: f64::from(rows),
            carries: None,
            governing: None,
            margin: None,
            share: None,
            refers: None,
        }
    }

    #[test]
    fn a_hair_more_of_the_sheet_is_worth_no_rivets_and_as_much_is_worth_fewer() {
        let of = |rows: u8, share: Option<f64>| Tried { share, ..bare(rows) };
        let best = of(2, Some(0.7));
        for (rows, share, is_better) in [
            (1, 0.7, true),
            (2, 0.7, false),
            (3, 0.7, false),
            (1, 0.7 - 1e-10, true),
            (3, 0.7 + 1e-10, false),
            (3, 0.7 + 1e-8, true),
            (1, 0.7 - 1e-8, false),
            (1, 0.1, false),
            (3, 0.9, true),
        ] {
            assert_eq!(keeps_more(&of(rows, Some(share)), Some(&best)), is_better, "{rows} {share}");
        }
        // Exactly a hair is none.
        assert!(!keeps_more(&of(3, Some(1e-9)), Some(&of(2, Some(0.0)))));
        assert!(!keeps_more(&of(1, Some(0.0)), Some(&of(2, Some(1e-9)))));
        // What is not known is never better, and any share is better than none at all.
        assert!(!keeps_more(&of(1, None), Some(&best)) && !keeps_more(&of(1, None), None));
        assert!(keeps_more(&best, None) && keeps_more(&best, Some(&of(1, None))));
    }

    #[test]
    fn a_pitch_is_looked_for_only_where_a_step_lies_between_its_limits() {
        use crate::practice::{Limit, Scope, Value};
        let rivet = Part::parse("MS20470AD4").unwrap();
        let stack = Stack::new();
        let limits = |least: &str, greatest: &str| {
            let limit = |name, text| {
                Limit::new(name, Scope::default(), Value::Length(Length::parse(text).unwrap()), Basis::own(0))
            };
            let own = [limit(Name::PitchLeast, least), limit(Name::PitchGreatest, greatest)];
            let practice = crate::practice::HANDBOOK.with_own(&own, &[]);
            let rows = LaidRows::new(rivet, &stack, Length::INCH, Length::INCH);
            pitches(&LaidRows { practice: &practice, ..rows })
        };
        let both = |least: i16, greatest: i16| Some((Length::from_64ths(least), Length::from_64ths(greatest)));
        assert_eq!(limits(".49", ".55"), both(32, 34));
        assert_eq!(limits("1/2", "1/2"), both(32, 32));
        // No thirty-second between them, crossed, and nothing.
        assert_eq!(limits(".505", ".525"), None);
        assert_eq!(limits("1", "1/2"), None);
        assert_eq!(limits("0", "1/2"), None);
    }

    #[test]
    fn what_is_not_known_is_further_than_any_margin_and_what_is_referred_further_still() {
        let load = Load { force: Force::from_lbf(1.0), kind: LoadKind::Ultimate };
        let some = margin(Force::from_lbf(1.0), load, Factors::SEAM).unwrap();
        let tried = |margin: Option<f64>, refers: bool| Tried {
            margin: margin.map(|value| Margin { value, ..some }),
            refers: refers.then(|| Finding::new(Code::MarginNegative, Severity::Refer, Basis::AS_GIVEN)),
            ..bare(1)
        };
        // From the best to the worst.
        let all = [
            tried(Some(0.5), false),
            tried(Some(-0.5), false),
            tried(None, false),
            tried(Some(0.5), true),
            tried(None, true),
        ];
        for (place, one) in all.iter().enumerate() {
            for (other, worse) in all.iter().enumerate() {
                assert_eq!(nearer(one, worse), place < other, "{place} {other}");
            }
        }
    }
}
