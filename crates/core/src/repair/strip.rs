//! A strip of a joint whose rows are counted one by one: one rivet, then three, then one, each row with a rivet of its own.
//!
//! What each rivet carries is asked as for any other; strengths that somebody gives stand in place of the published ones, and then the
//! findings about those fall away. How the strip parts is [`crate::joint::strip`]'s.

use crate::basis::Basis;
use crate::finding::{Code, Finding};
use crate::installation::Installation;
use crate::joint::margin::{Factors, Load, Margin, MarginError, margin};
use crate::joint::modes;
use crate::joint::strength::{Allowable, JointStrength, Shear, StrengthError};
use crate::joint::strip::{
    Hole, MAX_HOLES, Pulled, StripError, StripSheet, WeakestLine, all_rivets, even_row, line_of_row, net_hole,
    no_strength,
};
use crate::layout::Point;
use crate::length::Length;
use crate::material::Property;
use crate::practice::{HANDBOOK, Practice};
use crate::quantity::{Force, Stress};
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::stack::{Layer, MAX_LAYERS, Stack};

/// A row of the strip.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct CountedRow {
    /// How many rivets, each with an equal part of the width.
    pub count: u16,
    /// Which; its length does not count.
    pub rivet: Part<'static>,
}

impl CountedRow {
    /// So many rivets of this part number.
    #[must_use]
    pub const fn new(count: u16, rivet: Part<'static>) -> CountedRow {
        CountedRow { count, rivet }
    }
}

/// Strengths in place of the published ones.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct InPlace {
    /// Tension of every sheet.
    pub ftu: Option<Stress>,
    /// Bearing of every sheet.
    pub fbru: Option<Stress>,
    /// Shear of every sheet, for tear-out.
    pub fsu: Option<Stress>,
    /// Shear of the rivets.
    pub rivet_fsu: Option<Stress>,
    /// Diameter of every hole, where it is not the nominal one.
    pub hole: Option<Length>,
}

impl InPlace {
    setters! {
        /// Tension of every sheet.
        ftu: Option<Stress>;
        /// Bearing of every sheet.
        fbru: Option<Stress>;
        /// Shear of every sheet, for tear-out.
        fsu: Option<Stress>;
        /// Shear of the rivets.
        rivet_fsu: Option<Stress>;
        /// Diameter of every hole.
        hole: Option<Length>;
    }

    /// Whether a finding is about a strength that stands here.
    #[must_use]
    pub fn replaces(&self, finding: &Finding) -> bool {
        match finding.code() {
            Code::NotChecked => self.ftu.is_some() && self.fbru.is_some(),
            Code::StrengthNotPublished
            | Code::SheetTooThinForTable
            | Code::EdgeMarginBelowTable
            | Code::LimitFromMemory => {
                if finding.layer().is_some() {
                    self.fbru.is_some()
                } else {
                    self.rivet_fsu.is_some()
                }
            }
            _ => false,
        }
    }
}

/// What is asked.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct CountedQuery<'s, 'a> {
    /// The rivet that is meant where nothing else is said: what the whole is about.
    pub rivet: Part<'static>,
    /// The rows; the first is the loaded one of the first sheet.
    pub rows: &'s [CountedRow],
    /// What they go through.
    pub stack: &'s Stack,
    /// How wide the strip is.
    pub width: Length,
    /// From row to row.
    pub apart: Length,
    /// To the edge in the direction of the load.
    pub edge: Length,
    /// Single or double shear.
    pub shear: Shear,
    /// Strengths in place of the published ones.
    pub given: InPlace,
    /// The load on the width.
    pub load: Option<(Load, Factors)>,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'s, 'a> CountedQuery<'s, 'a> {
    /// In single shear, without a load, by the published strengths and the limits of the handbooks.
    #[must_use]
    pub fn new(
        rivet: Part<'static>,
        rows: &'s [CountedRow],
        stack: &'s Stack,
        width: Length,
        apart: Length,
        edge: Length,
    ) -> Self {
        CountedQuery {
            rivet,
            rows,
            stack,
            width,
            apart,
            edge,
            shear: Shear::Single,
            given: InPlace::default(),
            load: None,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// Single or double shear.
        shear: Shear;
        /// Strengths in place of the published ones.
        given: InPlace;
        /// The load on the width, with its factors.
        load: Option<(Load, Factors)>;
        /// The limits.
        practice: &'a Practice<'a>;
    }
}

/// What one rivet of a row carries in each way.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct RowOfStrip {
    /// The row as it was asked.
    pub row: CountedRow,
    /// The hole that is counted.
    pub hole: Length,
    /// Shear.
    pub shear: Option<Allowable>,
    /// Bearing of the weakest sheet.
    pub bearing: Option<Allowable>,
    /// Tear-out, where the row is the last before the end of a sheet.
    pub tear_out: Option<Force>,
}

impl RowOfStrip {
    /// The least of them; `None` where one is not known.
    #[must_use]
    pub fn carries(&self) -> Option<Force> {
        let least = self.shear?.force.min(self.bearing?.force);
        Some(self.tear_out.map_or(least, |tear_out| least.min(tear_out)))
    }
}

/// The answer.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct CountedStrip {
    /// Each row.
    pub rows: heapless::Vec<RowOfStrip, MAX_HOLES>,
    /// Each sheet that carries load, by its number.
    pub sheets: heapless::Vec<(u8, StripSheet), MAX_LAYERS>,
    /// Every hole, row by row.
    pub holes: heapless::Vec<Hole, MAX_HOLES>,
    /// What the weaker sheet carries without holes.
    pub gross: Force,
    /// What all rivets carry together; `None` where a strength is missing.
    pub all_rivets: Option<Force>,
    /// The sheet and the line along which it parts first.
    pub weakest: (u8, WeakestLine),
    /// What the strip carries; `None` where a strength is missing.
    pub carries: Option<Force>,
    /// The margin under the load.
    pub margin: Option<Margin>,
    width: Length,
    apart: Length,
}

crate::words::errors! {
    /// Why there is no answer.
    CountedError {
        TooFarApart = _, "counted-too-far", "The rows stand too far apart to be counted.",
            "the rows stand too far apart to be counted";
        TooManyRivets = _, "counted-too-many", "More than [`MAX_HOLES`].",
            "at most {MAX_HOLES} rivets in one strip; take a narrower one";
        TensionNotKnown { sheet: u8, "Which, counted from 1." } = _, "counted-tension", "The tension strength of a sheet is not published and was not given.",
            "the tension strength of sheet {sheet} is not published; give it, as in --ftu 62ksi";
        | Strength(StrengthError), "A rivet of it is no joint.";
        | Strip(StripError), "It is no strip.";
        | Margin(MarginError), "The margin could not be worked out.";
    }
}

/// What a strip of counted rows carries. What is found goes to `say`, with the rivet that it is about.
///
/// # Errors
/// [`CountedError`].
///
/// ```
/// use shophead::length::Length;
/// use shophead::quantity::Stress;
/// use shophead::repair::strip::{CountedQuery, CountedRow, InPlace, counted};
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// // The worked 1-3-1 joint of a course: .025 sheet 1-3/8 wide, five 5/32 rivets, strengths as it gives them.
/// let (rivet, layers) = (Part::parse("MS20470AD5")?, Stack::parse("2024-T3:.025, 2024-T3:.025")?);
/// let row = |count| CountedRow::new(count, rivet);
/// let ksi = |value| Some(Stress::from_ksi(value));
/// let given = InPlace::default().ftu(ksi(70.0)).fbru(ksi(124.0)).fsu(ksi(41.0)).rivet_fsu(ksi(30.0)).hole(Length::from_64ths(10));
/// let rows = [row(1), row(3), row(1)];
/// let query = CountedQuery::new(rivet, &rows, &layers, Length::parse("1-3/8")?, Length::INCH, Length::INCH).given(given);
/// let found = counted(&query, &mut |_, _| {})?;
/// // Printed: shear efficiency 1.20, bearing 1.01.
/// let over = |force: f64| force / found.gross.lbf();
/// assert!((over(found.rows[0].shear.unwrap().force.lbf() * 5.0) - 1.20).abs() < 0.005);
/// // The line through the three holes parts first: what their sheet has left beside them, and what the first rivet took over before in bearing.
/// let net = 1.0 - 3.0 * 0.15625 / 1.375;
/// assert!((over(found.weakest.1.load.force.lbf()) - (net + 1.0065 / 5.0)).abs() < 0.0005);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn counted(
    query: &CountedQuery<'_, '_>,
    say: &mut dyn FnMut(&Part<'static>, &Finding),
) -> Result<CountedStrip, CountedError> {
    let sheets = sheets(query)?;
    let mut rows = heapless::Vec::<RowOfStrip, MAX_HOLES>::new();
    let mut holes = heapless::Vec::<Hole, MAX_HOLES>::new();
    let mut missing = None;
    for (index, row) in query.rows.iter().enumerate() {
        let row = row_of(query, index, row, &mut |part, finding| {
            missing = missing.or(finding.key());
            say(part, finding);
        })?;
        let carries = row.carries().unwrap_or(Force::ZERO);
        for at in even_row(row.row.count, query.width, at_row(index, query.apart)?) {
            let hole = Hole { at, diameter: row.hole, carries };
            holes.push(hole).map_err(|_| CountedError::TooManyRivets)?;
        }
        rows.push(row).map_err(|_| CountedError::TooManyRivets)?;
    }
    // Also where a strength is missing: whether the strip is one at all.
    all_rivets(&holes, query.width)?;
    let gross = sheets.iter().map(|(_, sheet)| modes::gross_section(sheet.ftu.0, sheet.thickness, query.width));
    let gross = gross.reduce(Force::min).unwrap_or(Force::ZERO);
    let mut weakest: Option<(u8, WeakestLine)> = None;
    for (number, sheet) in &sheets {
        for index in 0..rows.len() {
            let line = line_of_row(&holes, query.width, sheet, at_row(index, query.apart)?)?;
            if weakest.is_none_or(|(_, weakest)| line.load.force < weakest.load.force) {
                weakest = Some((*number, line));
            }
        }
    }
    let weakest = weakest.ok_or(StripError::NoHoles)?;
    let each = |row: &RowOfStrip| Some(row.carries()?.lbf() * f64::from(row.row.count));
    let all = rows.iter().try_fold(0.0, |sum, row| Some(sum + each(row)?)).map(Force::from_lbf);
    let carries = all.map(|all| all.min(weakest.1.load.force));
    let margin =
        query.load.zip(carries).map(|((load, factors), carries)| margin(carries, load, factors)).transpose()?;
    if let Some(negative) = margin.and_then(|margin| margin.negative()) {
        say(&query.rivet, &negative);
    }
    if carries.is_none() {
        // A strength that is missing in the tables has been said; one that nobody gave has not.
        say(&query.rivet, &no_strength(&query.rivet, missing));
    }
    let (width, apart) = (query.width, query.apart);
    Ok(CountedStrip { rows, sheets, holes, gross, all_rivets: all, weakest, carries, margin, width, apart })
}

impl CountedStrip {
    /// The weakest line of every row in every sheet, each with the sheet's number.
    ///
    /// # Errors
    /// [`CountedError`].
    pub fn lines(&self) -> impl Iterator<Item = Result<(u8, WeakestLine), CountedError>> + '_ {
        let rows = self.rows.len();
        self.sheets.iter().flat_map(move |(number, sheet)| {
            (0..rows).map(move |index| {
                Ok((*number, line_of_row(&self.holes, self.width, sheet, at_row(index, self.apart)?)?))
            })
        })
    }

    /// The number of the row that a line touches first, counted from 1 at the first one.
    #[must_use]
    pub fn row_of(&self, line: &WeakestLine) -> usize {
        let before = |row: &&Hole| row.at.x < line.row;
        let mut places = heapless::Vec::<Length, MAX_HOLES>::new();
        for hole in self.holes.iter().filter(before) {
            if places.last() != Some(&hole.at.x) {
                // As many as there are holes at most.
                let _ = places.push(hole.at.x);
            }
        }
        places.len().saturating_add(1).min(self.rows.len())
    }

    /// All rivets in one way; `None` where one of them is not known.
    #[must_use]
    pub fn all(&self, way: fn(&RowOfStrip) -> Option<Force>) -> Option<Force> {
        let each = |row: &RowOfStrip| Some(way(row)?.lbf() * f64::from(row.row.count));
        self.rows.iter().try_fold(0.0, |sum, row| Some(sum + each(row)?)).map(Force::from_lbf)
    }

    /// Where every rivet stands.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.holes.iter().map(|hole| hole.at)
    }
}

/// How far behind the first row a row stands.
fn at_row(index: usize, apart: Length) -> Result<Length, CountedError> {
    let times = i64::try_from(index).ok();
    times.and_then(|times| apart.checked_mul(times)).ok_or(CountedError::TooFarApart)
}

/// Every load-carrying sheet: the first is pulled before the first row, the others behind the last.
fn sheets(query: &CountedQuery<'_, '_>) -> Result<heapless::Vec<(u8, StripSheet), MAX_LAYERS>, CountedError> {
    let mut sheets = heapless::Vec::new();
    for (number, layer) in query.stack.numbered_load_carrying() {
        let thickness = layer.thickness.nominal();
        let sheet = layer.material.map(|material| query.practice.sheet(material, thickness));
        let published = sheet.and_then(|sheet| sheet.figure(Property::TensionUltimate));
        let ftu = query.given.ftu.map(|ftu| (ftu, Basis::AS_GIVEN)).or(published);
        let ftu = ftu.ok_or(CountedError::TensionNotKnown { sheet: number })?;
        let pulled = if sheets.is_empty() { Pulled::AtFirst } else { Pulled::AtLast };
        // Cannot fail: no stack has more layers.
        let _ = sheets.push((number, StripSheet { thickness, ftu, pulled }));
    }
    Ok(sheets)
}

impl<'s, 'a> CountedQuery<'s, 'a> {
    /// The question about one rivet of a row.
    pub(crate) fn question(&self, row: &CountedRow) -> Installation<'s, 'a> {
        Installation::new(row.rivet, self.stack).edge(self.edge).shear(self.shear).by(self.practice)
    }

    /// A sheet tears out behind the row next to its end: the first sheet behind the last row, the others before the first.
    pub(crate) fn torn_at(&self, index: usize) -> impl Iterator<Item = (u8, &'s Layer)> + use<'s, 'a> {
        let last = self.rows.len().saturating_sub(1);
        let tears = move |place: usize| if place == 0 { index == last } else { index == 0 };
        let sheets = self.stack.numbered_load_carrying().enumerate();
        sheets.filter(move |(place, _)| tears(*place)).map(|(_, sheet)| sheet)
    }

    /// The thinnest sheet that carries load.
    pub(crate) fn thinnest(&self) -> Length {
        let thicknesses = self.stack.load_carrying().map(|layer| layer.thickness.nominal());
        thicknesses.min().unwrap_or(Length::ZERO)
    }
}

#[inline(never)]
fn row_of(
    query: &CountedQuery<'_, '_>,
    index: usize,
    row: &CountedRow,
    say: &mut dyn FnMut(&Part<'static>, &Finding),
) -> Result<RowOfStrip, CountedError> {
    let given = &query.given;
    let hole = given.hole.unwrap_or_else(|| net_hole(&row.rivet));
    let mut found = JointStrength::nothing_yet();
    query.question(row).strength_into(&mut found)?;
    found.findings.iter().filter(|finding| !given.replaces(finding)).for_each(|finding| say(&row.rivet, finding));
    let as_given = |force| Allowable { force, basis: Basis::AS_GIVEN };
    let by_table = found.sheets.iter().map(|sheet| sheet.bearing().map(|bearing| bearing.ultimate));
    let by_table = by_table.reduce(|one, other| {
        let (one, other) = one.zip(other)?;
        Some(if one.force <= other.force { one } else { other })
    });
    let bearing = given.fbru.map(|fbru| as_given(modes::bearing(fbru, hole, query.thinnest())));
    let tear_out = query.torn_at(index).filter_map(|(_, layer)| {
        let thickness = layer.thickness.nominal();
        let published = || query.practice.sheet(layer.material?, thickness).fsu();
        given.fsu.or_else(published).map(|fsu| modes::tear_out(fsu, thickness, query.edge))
    });
    let shear = given.rivet_fsu.map(|fsu| as_given(modes::rivet_shear(fsu, hole, query.shear.planes())));
    Ok(RowOfStrip {
        row: *row,
        hole,
        shear: shear.or(found.shear),
        bearing: bearing.or(by_table.flatten()),
        tear_out: tear_out.reduce(Force::min),
    })
}
