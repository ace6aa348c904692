//! Skin replaced from one member to the next, its seams copied from the factory's: AC 43.13-1B para 4-58e.
//!
//! A new seam takes rivet size, pattern and spacing of the factory seam. Where the two factory seams of a panel differ, the stronger one is
//! copied. A seam on a thick cap is the joint of this library's main job: it is copied as it was as long as the cap is undamaged and its
//! holes stay as they are.

use super::in_row::{InRow, LaidRows, in_row};
use super::patch::{for_material, for_sites};
use super::site::{Site, refused};
use super::told::{Tell, Told};
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::joint::row::RowError;
use crate::layout::Point;
use crate::length::{Length, quotient};
use crate::setters::setters;
use crate::stack::Role;

/// The most factory seams that one side is compared with.
pub const MAX_SEAMS: usize = 4;

/// A side of the new panel.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct SideQuery<'s, 'a> {
    /// How long the seam is.
    pub length: Length,
    /// The factory seams that it may copy, at least one; the rivet's length does not count.
    pub factory: &'s [LaidRows<'s, 'a>],
    /// Whether the holes of what lies under the skin are other than they were: damaged, enlarged or moved.
    pub holes_changed: bool,
    /// Whether cut-outs, doublers or other load paths run into the edge.
    pub load_paths: bool,
    /// Where it is.
    pub sites: &'s [Site],
}

impl<'s, 'a> SideQuery<'s, 'a> {
    /// With the holes under the skin as they were, and nothing else that runs into the edge.
    #[must_use]
    pub const fn new(length: Length, factory: &'s [LaidRows<'s, 'a>]) -> Self {
        SideQuery { length, factory, holes_changed: false, load_paths: false, sites: &[] }
    }

    setters! {
        /// Whether the holes of what lies under the skin are other than they were.
        holes_changed: bool;
        /// Whether cut-outs, doublers or other load paths run into the edge.
        load_paths: bool;
        /// Where it is.
        sites: &'s [Site];
    }
}

/// A seam as copied.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct CopiedSeam {
    /// Which of the factory seams, counted from 0.
    pub copied: usize,
    /// Whether the factory seams differ in what they carry.
    pub differ: bool,
    /// Each factory seam, asked as a row.
    pub factory: heapless::Vec<InRow, MAX_SEAMS>,
    /// Rows.
    pub rows: u8,
    /// From rivet to rivet.
    pub pitch: Length,
    /// From row to row.
    pub apart: Length,
    /// Whether the rows are staggered.
    pub staggered: bool,
    /// Edge distance.
    pub edge: Length,
    /// Rivets in a row; every second of staggered rows has one fewer.
    pub per_row: u32,
    /// From the side's end to the first rivet of a full row.
    pub first: Length,
    /// What is told with it.
    pub told: Tell,
    /// What was found.
    pub findings: Findings,
}

crate::words::errors! {
    /// Why there is no seam.
    PanelSeamError {
        Refused { site: Site, "Where it is." } = _, "panel-refused", "No published method applies in this place.",
            "no published method applies here: {site}";
        NoSeam = _, "panel-no-seam", "No factory seam.",
            "a seam copies at least one factory seam";
        TooManySeams = _, "panel-too-many-seams", "More than [`MAX_SEAMS`].",
            "a side is compared with at most {MAX_SEAMS} factory seams";
        LengthNotPositive = _, "panel-length", "The side is too short for two edge distances, or longer than [`super::patch::LONGEST`].",
            "a side is longer than two edge distances and no longer than 120 in";
        | Row(RowError), "A seam is no row.";
    }
}

/// The seam of one side.
///
/// # Errors
/// [`PanelSeamError`].
///
/// ```
/// use shophead::length::{Length, Toleranced};
/// use shophead::material::Material;
/// use shophead::repair::in_row::LaidRows;
/// use shophead::repair::panel::{SideQuery, seam};
/// use shophead::rivet::part::Part;
/// use shophead::stack::{Layer, Stack};
/// let inch = |text| Length::parse(text).unwrap();
/// let material = Some(Material::parse("2024-T3")?);
/// let mut stack = Stack::new();
/// for _ in 0..2 {
///     stack.push(Layer::of(Toleranced::parse(".040")?).material(material))?;
/// }
/// let forward = LaidRows::new(Part::parse("MS20470AD4")?, &stack, inch("1/4"), inch("3/4")).apart(inch("5/16"));
/// let aft = forward.rows(2);
/// let seams = [forward, aft];
/// let query = SideQuery::new(inch("12"), &seams);
/// let found = seam(&query)?;
/// assert_eq!((found.copied, found.rows), (1, 2), "two rows carry more than one");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn seam(query: &SideQuery<'_, '_>) -> Result<CopiedSeam, PanelSeamError> {
    if let Some(site) = refused(query.sites) {
        return Err(PanelSeamError::Refused { site });
    }
    let first = query.factory.first().ok_or(PanelSeamError::NoSeam)?;
    let mut factory = heapless::Vec::new();
    let mut findings = Findings::new();
    for rows in query.factory {
        factory.push(in_row(rows)?).map_err(|_| PanelSeamError::TooManySeams)?;
    }
    let carries = |asked: &InRow| asked.strength.per_inch.map(|load| load.force);
    let (mut copied, mut strongest, mut differ, mut known) = (0, None, false, true);
    for (index, asked) in factory.iter().enumerate() {
        let own = carries(asked);
        known &= own.is_some();
        if let (Some(own), Some(most)) = (own, strongest) {
            differ |= own != most;
        }
        if own > strongest {
            (copied, strongest) = (index, own);
        }
    }
    let alike = |rows: &LaidRows<'_, '_>| {
        let same =
            |rows: &LaidRows<'_, '_>| (rows.rivet.without_length(), rows.pitch, rows.rows, rows.stack.layers().len());
        same(rows) == same(first)
    };
    if !known && !query.factory.iter().all(alike) {
        let missing = factory.iter().filter(|asked| carries(asked).is_none());
        let key = missing.flat_map(|asked| asked.findings.iter()).find_map(Finding::key);
        let (code, basis) = (Code::StrengthNotPublished, Basis::SEAMS_NOT_COMPARED);
        findings.push(Finding::unknown(code, Severity::Refer, basis, key));
    }
    let rows = query.factory.get(copied).unwrap_or(first);
    if let Some(asked) = factory.get(copied) {
        // A seam that is copied as it was is not asked for its strength: it is as strong as before.
        let as_it_was = query.factory.iter().all(alike);
        findings.extend(if as_it_was { &asked.fitted } else { &asked.findings });
        if as_it_was {
            findings.push(Finding::new(Code::AsStrongAsBefore, Severity::Note, Basis::AC43_NOT_WEAKER));
        }
    }
    if query.holes_changed && rows.stack.layers().iter().any(|layer| layer.role == Role::Cap) {
        findings.push(Finding::new(Code::StepNeedsApproval, Severity::Refer, Basis::AC43_CAP_HOLES));
    }
    let (per_row, start) = lay(query.length, rows)?;
    let mut found = CopiedSeam {
        copied,
        differ,
        factory,
        rows: rows.rows,
        pitch: rows.pitch,
        apart: rows.apart,
        staggered: rows.staggered && rows.rows > 1,
        edge: rows.edge,
        per_row,
        first: start,
        told: Tell::default(),
        findings,
    };
    if differ {
        found.findings.push(
            Finding::new(Code::SeamsDiffer, Severity::Note, Basis::AC43_STRONGER_SEAM)
                .with_measured(Figure::Count(u32::try_from(copied).unwrap_or(0).saturating_add(1))),
        );
    }
    tell(query, rows, &mut found.told);
    Ok(found)
}

/// As many rivets at the copied pitch as keep an edge distance from both ends, in the middle of the side.
fn lay(length: Length, rows: &LaidRows<'_, '_>) -> Result<(u32, Length), PanelSeamError> {
    let room = length.minus(rows.edge).minus(rows.edge);
    if room < Length::ZERO || length > super::patch::LONGEST || rows.pitch <= Length::ZERO {
        return Err(PanelSeamError::LengthNotPositive);
    }
    let gaps = quotient(i128::from(room.nanometres()), i128::from(rows.pitch.nanometres()));
    let gaps = u32::try_from(gaps).map_err(|_| PanelSeamError::LengthNotPositive)?;
    let start = length.minus(rows.pitch.times(gaps, 1)).times(1, 2);
    Ok((gaps.saturating_add(1), start))
}

fn tell(query: &SideQuery<'_, '_>, rows: &LaidRows<'_, '_>, told: &mut Tell) {
    told.all(&[
        Told::Method,
        Told::Authority,
        Told::AllowableDamage,
        Told::NoAccess,
        Told::Approval,
        Told::MajorRepair,
        Told::WeightAndBalance,
        Told::EqualStrength,
        Told::SameMaterial,
        Told::CladOutside,
        Told::ExistingPattern,
        Told::WholePanel,
        Told::SeamsOnMembers,
        Told::OldRepair,
        Told::Mark,
        Told::Holes,
        Told::HolesFirst,
        Told::Anodise,
        Told::CoatAgain,
        Told::Protect,
        Told::DriveWet,
        Told::RivetSet,
        Told::DrivenRivets,
        Told::Neighbours,
    ]);
    if query.load_paths {
        told.tell(Told::CopyNotEnough);
    }
    if rows.rivet.series().head.is_flush() {
        told.tell(Told::FlushMethod);
    }
    if rows.stack.thickest().is_some_and(|thickest| thickest <= Length::from_ten_thousandths(320)) {
        told.tell(Told::BackLap);
    }
    let materials = rows.stack.layers().iter().filter_map(|layer| layer.material);
    materials.for_each(|material| for_material(material, told));
    for_sites(query.sites, told);
}

impl CopiedSeam {
    /// Every rivet: x along the side, y from the new panel's edge inwards.
    pub fn holes(&self) -> impl Iterator<Item = Point> + Clone + '_ {
        (0..self.rows).flat_map(move |row| {
            let shifted = self.staggered && row & 1 == 1;
            let count = if shifted { self.per_row.saturating_sub(1) } else { self.per_row };
            let start = if shifted { self.first.plus(self.pitch.times(1, 2)) } else { self.first };
            let y = self.edge.plus(self.apart.times(u32::from(row), 1));
            (0..count).map(move |index| Point { x: start.plus(self.pitch.times(index, 1)), y })
        })
    }
}
