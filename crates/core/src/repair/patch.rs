//! A patch or doubler over a hole or a crack in skin.
//!
//! # What is laid out
//!
//! The damage is a rectangle, `along` the load by `across` it. Around it:
//!
//! 1. the **opening**: the least rectangle with round corners that holds the damage, or the stop holes of a crack that stays;
//! 2. **rows** of rivets on all four sides, the first an edge distance off the opening, every row around as far off on each side. Each side
//!    has as many rivets as carry what the sheet carries over the opening's width there, counted by [`super::count`];
//! 3. the **plate**: an edge distance beyond the last row.
//!
//! The number of rows and the pitch come from rivets an inch alone: the fewest rows that hold so many an inch at the practice's least pitch,
//! and the widest pitch at which they do. How many rivets there are and how large the plate is follow from the opening. So more damage
//! never gives a smaller plate or fewer rivets.
//!
//! Rivets are counted on a side over the opening's width taken up to whole pitches, each with an equal part of it, as the circular's
//! example does (para 4-58g: 37 needed over 10 in, two equal rows of 19).

use super::count::{By, Rate, carries, no_count, no_limit, rate_of};
use super::gauge_table;
use super::in_row::{InRow, LaidRows, in_row};
use super::site::{Site, Sizing, refused};
use super::told::{Tell, Told};
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::joint::flexibility::{Fastening, FlexibilityError, Formula, JoinedPlate, flexibility};
use crate::joint::lap;
use crate::joint::margin::Factors;
use crate::joint::row::RowError;
use crate::joint::sharing::{
    Bay, Sharing, SharingError, SharingRow, Transfer, share as share_rows, stiffness, tapered,
};
use crate::joint::splice::{SpliceError, SpliceMember};
use crate::joint::strength::Shear;
use crate::layout::Point;
use crate::length::{Length, Toleranced, quotient};
use crate::material::{Material, Property};
use crate::practice::{Case, Given, HANDBOOK, Key, Name, Practice};
use crate::quantity::{Force, Mass, Stress};
use crate::rivet::mass::mass_each;
use crate::rivet::part::Part;
use crate::rivet::{MS20426, MS20470};
use crate::seat::check_seat;
use crate::select::choose_diameter;
use crate::setters::setters;
use crate::stack::{Layer, Preparation, Role, Stack};

/// The radius of an opening's corners, where there is room for it.
pub const CUT_RADIUS: Length = Length::from_64ths(32);
/// The radius of a plate's corners.
pub const PLATE_RADIUS: Length = Length::from_64ths(16);
/// Damage longer than this in any direction makes a major repair.
pub const MAJOR_ABOVE: Length = Length::from_64ths(6 * 64);
/// Diameter of the hole that stops a crack.
pub const STOP_HOLE: Length = Length::from_64ths(6);
/// What holes and plates are marked out to.
pub const STEP: Length = Length::from_64ths(1);
/// The most rows on a side.
pub const MOST_ROWS: u8 = 6;
/// The longest damage that is laid out.
pub const LONGEST: Length = Length::from_64ths(120 * 64);

/// What is wrong with the skin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum SkinDamage {
    /// A hole, tear or dent to be cut out, as measured.
    Hole {
        /// Along the load.
        along: Length,
        /// Across it.
        across: Length,
    },
    /// An opening that is trimmed already.
    Opening {
        /// Along the load.
        along: Length,
        /// Across it.
        across: Length,
        /// Radius of its corners.
        radius: Length,
    },
    /// A crack that stays, stop drilled at both ends; its reach along the load and across it.
    Crack {
        /// Along the load.
        along: Length,
        /// Across it.
        across: Length,
    },
}

crate::words::words! {
    /// Which patch.
    #[non_exhaustive]
    Style, "patch" {
        Lap = 1, "lap", "A plate on the outside.";
        Doubler = 2, "doubler", "A doubler behind the skin; the opening stays open or is that of a fitting.";
        Flush = 3, "flush", "A doubler behind the skin and a filler in the opening, flush outside.";
    }
}

crate::words::words! {
    /// Which way the skin carries its load.
    #[non_exhaustive]
    Ways, "way of the load" {
        Both = 1, "both", "Both ways, or not known: all sides carry.";
        Along = 2, "along", "Along only: the other two sides get one row that holds the plate down.";
    }
}

crate::words::words! {
    /// How the rows stand.
    #[non_exhaustive]
    Pattern, "pattern" {
        Staggered = 1, "staggered", "Each rivet against the gap of the next row.";
        InLine = 2, "in-line", "One behind the other.";
    }
}

/// What is asked.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct PatchQuery<'s, 'a> {
    /// What the skin is made of.
    pub material: Material,
    /// How thick it is.
    pub thickness: Length,
    /// What is wrong with it.
    pub damage: SkinDamage,
    /// Which patch.
    pub style: Style,
    /// Which way the load runs.
    pub ways: Ways,
    /// Where it is.
    pub sites: &'s [Site],
    /// From the opening to the nearest member or seam, where known.
    pub member: Option<Length>,
    /// The plate, where it is given.
    pub plate: Option<(Material, Length)>,
    /// The rivet, where it is given; its length does not count.
    pub rivet: Option<Part<'static>>,
    /// Which count is laid out.
    pub by: By,
    /// How the rows stand.
    pub pattern: Pattern,
    /// So many rows, where given.
    pub rows: Option<u8>,
    /// Edge distance, where given; otherwise the practice's least.
    pub edge: Option<Length>,
    /// From row to row, where given; otherwise the greater of the practice's least row spacing and least pitch of a single row.
    pub apart: Option<Length>,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'s, 'a> PatchQuery<'s, 'a> {
    /// A lapped patch, its rows staggered, with load on all sides, by the greater count and the limits of the handbooks: what nobody says
    /// otherwise.
    #[must_use]
    pub const fn new(material: Material, thickness: Length, damage: SkinDamage) -> Self {
        PatchQuery {
            material,
            thickness,
            damage,
            style: Style::Lap,
            ways: Ways::Both,
            sites: &[],
            member: None,
            plate: None,
            rivet: None,
            by: By::Greater,
            pattern: Pattern::Staggered,
            rows: None,
            edge: None,
            apart: None,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// Which patch.
        style: Style;
        /// Which way the load runs.
        ways: Ways;
        /// Where it is.
        sites: &'s [Site];
        /// From the opening to the nearest member or seam.
        member: Option<Length>;
        /// The plate.
        plate: Option<(Material, Length)>;
        /// The rivet; its length does not count.
        rivet: Option<Part<'static>>;
        /// Which count is laid out.
        by: By;
        /// How the rows stand.
        pattern: Pattern;
        /// So many rows.
        rows: Option<u8>;
        /// Edge distance.
        edge: Option<Length>;
        /// From row to row.
        apart: Option<Length>;
        /// The limits.
        practice: &'a Practice<'a>;
    }
}

/// The opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Opening {
    /// Along the load.
    pub along: Length,
    /// Across it.
    pub across: Length,
    /// Radius of the corners; half the shorter side for round ends.
    pub radius: Length,
    /// Diameter of the stop holes; `None` where the damage is cut out.
    pub stop_hole: Option<Length>,
}

/// A plate.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Plate {
    /// What it is made of.
    pub material: Material,
    /// How thick it is.
    pub thickness: Length,
    /// Along the load.
    pub along: Length,
    /// Across it.
    pub across: Length,
    /// Radius of its corners.
    pub radius: Length,
    /// Where its thickness stands; `None` where it was given.
    pub basis: Option<Basis>,
    /// What it weighs, its own holes not taken off; `None` where the density is not known.
    pub mass: Option<Mass>,
}

/// A size that was chosen for the sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Chosen {
    /// The thicker sheet.
    pub thickest: Length,
    /// The diameter that the rule asks for.
    pub wanted: Length,
    /// The next smaller rivet of the series, where that is one for structure: the rows beside a repair go before the rule
    /// ([`Told::NextRow`]).
    pub smaller: Option<Part<'static>>,
}

/// One pair of sides.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Side {
    /// The opening's width that the side bridges.
    pub width: Length,
    /// The same taken up to whole pitches: what the rivets are spread over.
    pub spread: Length,
    /// Rivets needed each side; `None` where only one row holds the plate down.
    pub needed: Option<u32>,
    /// Rows.
    pub rows: u8,
    /// Rivets in a row that count.
    pub per_row: u32,
    /// Rivets in all rows that count, each side of the opening.
    pub counted: u32,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Patch {
    /// The opening.
    pub opening: Opening,
    /// Patch or doubler.
    pub plate: Plate,
    /// The filler of a flush patch.
    pub filler: Option<Plate>,
    /// The rivet with its length; without where none fits.
    pub rivet: Part<'static>,
    /// How its size follows from the sheets; `None` where the rivet was named.
    pub chosen: Option<Chosen>,
    /// The stack, from the manufactured head on.
    pub stack: Stack,
    /// Rivets an inch, by table and by computation.
    pub rate: Rate,
    /// The sides that the load passes, at either end of the opening.
    pub across: Side,
    /// The other two.
    pub along: Side,
    /// Edge distance, everywhere.
    pub edge: Given<Length>,
    /// From rivet to rivet.
    pub pitch: Length,
    /// From row to row.
    pub apart: Length,
    /// The least spacing of two rivets of a row.
    pub least_pitch: Given<Length>,
    /// How the rows stand.
    pub pattern: Pattern,
    /// What a side that carries gives, asked as a row.
    pub row: InRow,
    /// What it carries over what the skin does without holes.
    pub share: Option<f64>,
    /// The mass that it adds: plate and rivets, and the filler less what was cut out of the skin.
    pub mass: Option<Mass>,
    /// What is told with it.
    pub told: Tell,
    /// What was found.
    pub findings: Findings,
}

crate::words::errors! {
    /// Why there is no patch.
    PatchError {
        Refused { site: Site, "Where it is." } = _, "patch-refused", "No published method applies in this place.",
            "no published method applies here: {site}";
        LengthNotPositive = _, "patch-length", "A length that is no length of a patch: zero or less, or longer than [`LONGEST`].",
            "sheet and damage must be above zero and no longer than 120 in; right would be 2x1-1/2";
        NoRivet = _, "patch-no-rivet", "The series has no rivet for the sheets.",
            "the series has no rivet for these sheets; name one, as in MS20470AD5";
        NoLimits { limit: Name, "Which." } = _, "patch-no-limits", "The practice lacks edge distance, pitch or distance between rows for the rivet.",
            "the practice has no {limit} for this rivet; enter limit.{limit} in the limits file";
        NoCount { key: Option<Key>, "What to enter for a count by strength; `None` where that is not missing." } = _, "patch-no-count", "There is no count: neither table nor strengths.",
            "no table and no published strength gives a count for this rivet in this sheet; name another rivet";
        TooFewRows { rows: u8, "The fewest that do." } = _, "patch-too-few-rows", "So many rows hold fewer rivets than needed at the least pitch.",
            "so few rows do not hold the rivets at the least pitch; {rows} do";
        TooManyRivets = _, "patch-too-many-rivets", "Not even [`MOST_ROWS`] hold the rivets at the least pitch.",
            "even {MOST_ROWS} rows do not hold the rivets at the least pitch; take a larger rivet";
        Stack = _, "patch-pack", "The pack cannot be made.",
            "the plates do not make a pack";
        | Row(RowError), "A row of it is no row.";
        | Count(SpliceError), "It cannot be counted.";
    }
}

const fn lacks(limit: Name) -> PatchError {
    PatchError::NoLimits { limit }
}

impl PatchError {
    /// What is referred in a sheet of this material where that is the answer; `None` for a mistake in the question.
    #[must_use]
    pub fn refusal(&self, material: &Material) -> Option<Finding> {
        match self {
            PatchError::Refused { site } => site.refusal(),
            PatchError::NoCount { key } => Some(no_count(material, *key)),
            PatchError::NoLimits { limit } => Some(no_limit(*limit)),
            _ => None,
        }
    }
}

/// Sizes a patch.
///
/// # Errors
/// [`PatchError`].
///
/// ```
/// use shophead::length::Length;
/// use shophead::material::Material;
/// use shophead::repair::count::By;
/// use shophead::repair::patch::{SkinDamage, PatchQuery, Pattern, patch};
/// // A seam's worth of skin: AC 43.13-1B para 4-58g(2), 10 in of clad 2024 .032.
/// let inch = |text| Length::parse(text).unwrap();
/// let opening = SkinDamage::Opening { along: inch("2"), across: inch("10"), radius: inch("1/2") };
/// let query = PatchQuery::new(Material::parse("clad 2024-T3")?, inch(".032"), opening).by(By::Example).pattern(Pattern::InLine);
/// let found = patch(&query)?;
/// assert_eq!(found.rivet.without_length().to_string(), "MS20470AD4");
/// assert_eq!(found.across.needed, Some(37));
/// assert_eq!((found.across.rows, found.across.per_row), (2, 19));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn patch(query: &PatchQuery<'_, '_>) -> Result<Patch, PatchError> {
    if let Some(site) = refused(query.sites) {
        return Err(PatchError::Refused { site });
    }
    let PatchQuery { material, thickness, style, practice, .. } = *query;
    let opening = opening(query)?;
    if thickness <= Length::ZERO {
        return Err(PatchError::LengthNotPositive);
    }
    let (plate_material, plate_thickness, gauge_basis) = plate_of(query);
    let mut findings = Findings::new();
    check_plate(query, (plate_material, plate_thickness), &mut findings);
    let (rivet, chosen) = rivet_of(query, plate_thickness, &mut findings)?;
    let stack = stacked(query, &rivet, (plate_material, plate_thickness))?;
    let case = Case::for_part(&practice.rivet(rivet));
    let edge = match query.edge {
        Some(value) => Given { value, basis: Basis::AS_GIVEN },
        None => practice.length(Name::EdgeDistanceLeast, &case).ok_or(lacks(Name::EdgeDistanceLeast))?,
    };
    if edge.value <= Length::ZERO {
        return Err(PatchError::LengthNotPositive);
    }
    // One rivet carries the same in whatever row; the pitch does not come into it.
    let single = LaidRows {
        rivet,
        stack: &stack,
        edge: edge.value,
        pitch: practice.length(Name::PitchLeast, &case).ok_or(lacks(Name::PitchLeast))?.value,
        rows: 1,
        apart: edge.value,
        staggered: false,
        shear: Shear::Single,
        practice,
    };
    let carries = carries(&in_row(&single)?);
    let rate = rate_of(material, thickness, &rivet, SpliceMember::SingleLap, carries, query.by, practice)?;
    findings.extend(&rate.findings);
    let per_inch = rate.per_inch.ok_or_else(|| PatchError::NoCount { key: rate.key() })?;
    let spacing = spacing(query, &case, per_inch)?;
    let across = side(&rate, opening.across, spacing.rows, &spacing, query.pattern, true)?;
    let carries_along = query.ways == Ways::Both;
    let rows_along = if carries_along { spacing.rows } else { 1 };
    let along = side(&rate, opening.along, rows_along, &spacing, query.pattern, carries_along)?;

    let rows = LaidRows {
        rivet,
        stack: &stack,
        edge: edge.value,
        pitch: spacing.pitch,
        rows: spacing.rows,
        apart: spacing.apart,
        staggered: query.pattern == Pattern::Staggered,
        shear: Shear::Single,
        practice,
    };
    let row = in_row(&rows)?;
    findings.extend(rate.of_rivets(&row));
    let reach = |rows: u8| edge.value.plus(edge.value).plus(spacing.apart.times(u32::from(rows.saturating_sub(1)), 1));
    let both = |length: Length| length.plus(length);
    let plate = Plate {
        material: plate_material,
        thickness: plate_thickness,
        along: along.spread.plus(both(reach(across.rows))),
        across: across.spread.plus(both(reach(along.rows))),
        radius: PLATE_RADIUS,
        basis: gauge_basis,
        mass: None,
    };
    let plate = plate.weighed(practice);
    let filler = (style == Style::Flush && opening.stop_hole.is_none()).then(|| {
        let Opening { along, across, radius, .. } = opening;
        Plate { material, thickness, along, across, radius, basis: Some(Basis::FAA_31B_ONE_HEAVIER), mass: None }
            .weighed(practice)
    });
    let mut found = Patch {
        opening,
        plate,
        filler,
        rivet: row.rivet,
        chosen,
        rate,
        across,
        along,
        edge,
        pitch: spacing.pitch,
        apart: spacing.apart,
        least_pitch: spacing.least,
        pattern: query.pattern,
        share: share(&row, query),
        row,
        mass: None,
        told: Tell::default(),
        findings,
        stack,
    };
    found.mass = found.adds(query);
    let cut = Plate { mass: None, ..found.plate };
    for plate in [Some(found.plate), found.filler, Some(Plate { material, thickness, ..cut }.weighed(practice))] {
        found.findings.push_some(plate.and_then(|plate| plate.not_weighed()));
    }
    if let Some(filler) = found.filler {
        let half = filler.along.min(filler.across).times(1, 2);
        if half < edge.value {
            found.findings.push(Finding::against(Code::EdgeDistanceShort, Severity::Refer, half, &edge));
        }
    }
    check_place(query, &mut found);
    tell(query, &mut found);
    Ok(found)
}

fn opening(query: &PatchQuery<'_, '_>) -> Result<Opening, PatchError> {
    let (SkinDamage::Hole { along, across }
    | SkinDamage::Opening { along, across, .. }
    | SkinDamage::Crack { along, across }) = query.damage;
    let is_crack = matches!(query.damage, SkinDamage::Crack { .. });
    let in_range =
        |length: Length| length <= LONGEST && (length > Length::ZERO || (is_crack && length == Length::ZERO));
    if !in_range(along) || !in_range(across) || (along == Length::ZERO && across == Length::ZERO) {
        return Err(PatchError::LengthNotPositive);
    }
    Ok(match query.damage {
        SkinDamage::Hole { .. } => cut_out(along, across),
        SkinDamage::Opening { radius, .. } => {
            if radius < Length::ZERO {
                return Err(PatchError::LengthNotPositive);
            }
            Opening { along, across, radius: radius.min(along.min(across).times(1, 2)), stop_hole: None }
        }
        SkinDamage::Crack { .. } => {
            // Half a stop hole beyond either end.
            let hole = STOP_HOLE;
            let (along, across) = (along.plus(hole), across.plus(hole));
            Opening { along, across, radius: hole.times(1, 2), stop_hole: Some(hole) }
        }
    })
}

/// The least rectangle with round corners that holds a rectangle of damage, to the next [`STEP`].
///
/// Corners of radius r stand off the damage's corners when the sides do by r (1 - 1/√2); a side shorter than two such radii has round ends
/// instead, which stand off by half of it times √2 - 1.
fn cut_out(along: Length, across: Length) -> Opening {
    let shorter = along.min(across);
    // (√2 - 1) / 2 and 1 - 1/√2, taken up.
    let round_ends = shorter.times(20_711, 100_000);
    let corners = CUT_RADIUS.times(29_290, 100_000);
    let off = round_ends.min(corners);
    let side = |length: Length| length.plus(off).plus(off).ceil_to(STEP);
    let (along, across) = (side(along), side(across));
    Opening { along, across, radius: CUT_RADIUS.min(along.min(across).times(1, 2)), stop_hole: None }
}

/// The plate as given, or by the handbook: an outside patch of the skin's own gauge, an inside doubler of the next heavier one.
fn plate_of(query: &PatchQuery<'_, '_>) -> (Material, Length, Option<Basis>) {
    if let Some((material, thickness)) = query.plate {
        return (material, thickness, None);
    }
    match query.style {
        Style::Lap => (query.material, query.thickness, Some(Basis::FAA_31B_SAME_OR_NEXT)),
        Style::Doubler | Style::Flush => match gauge_table::next_heavier(query.thickness) {
            Some(next) => (query.material, next.value, Some(Basis::FAA_31B_ONE_HEAVIER)),
            None => (query.material, query.thickness, Some(Basis::FAA_31B_SAME_OR_NEXT)),
        },
    }
}

fn check_plate(query: &PatchQuery<'_, '_>, (material, thickness): (Material, Length), findings: &mut Findings) {
    if material != query.material {
        let ftu = |material: Material, thickness| query.practice.sheet(material, thickness).ftu();
        let basis = Basis::AC43_P4_50C_4_53_4_58B;
        match (ftu(material, thickness), ftu(query.material, query.thickness)) {
            (Some(plate), Some(skin)) if plate >= skin => {}
            (Some(plate), Some(skin)) => {
                let weaker = Finding::new(Code::WeakerThanBefore, Severity::Refer, basis);
                findings.push(weaker.with_measured(Figure::Stress(plate)).with_limit(Figure::Stress(skin)));
            }
            (plate, _) => {
                let missing = if plate.is_none() { material } else { query.material };
                let key = Some(Key::of_sheet(missing, Property::TensionUltimate));
                findings.push(Finding::unknown(Code::StrengthNotPublished, Severity::Refer, basis, key));
            }
        }
    }
    let measured =
        |found: Finding, limit| found.with_measured(Figure::Length(thickness)).with_limit(Figure::Length(limit));
    if thickness < query.thickness {
        let found = Finding::new(Code::RepairTooThin, Severity::Refer, Basis::FAA_31B_NOT_THINNER);
        findings.push(measured(found, query.thickness));
    }
    if let Some(next) = gauge_table::next_heavier(query.thickness).filter(|next| thickness > next.value) {
        let found = Finding::new(Code::RepairTooStrong, Severity::Caution, Basis::AC43_NOT_STRONGER);
        findings.push(measured(found, next.value));
    }
}

/// The rivet as given, or the size for the thicker sheet.
fn rivet_of(
    query: &PatchQuery<'_, '_>,
    plate: Length,
    findings: &mut Findings,
) -> Result<(Part<'static>, Option<Chosen>), PatchError> {
    if let Some(rivet) = query.rivet {
        return Ok((rivet.without_length(), None));
    }
    let series = if query.style == Style::Flush { &MS20426 } else { &MS20470 };
    let first = series.material("AD").ok_or(PatchError::NoRivet)?;
    let thickest = query.thickness.max(plate);
    let choice = choose_diameter(series, first.alloy, thickest, query.practice);
    let size = choice.size.ok_or(PatchError::NoRivet)?;
    let by_figure = if query.thickness <= Length::from_ten_thousandths(320) { 8 } else { 10 };
    if query.style == Style::Lap && size.shank_nominal != Length::from_64ths(by_figure) {
        let found = Finding::new(Code::DiameterOutsideRule, Severity::Note, Basis::FAA_31B_FIGURE_4_174);
        let figures = found
            .with_measured(Figure::Length(size.shank_nominal))
            .with_limit(Figure::Length(Length::from_64ths(by_figure)));
        findings.push(figures);
    }
    let rivet = Part::new(series, first.code, size).map_err(|_| PatchError::NoRivet)?;
    let case = Case::of(series.head, first.alloy, size);
    let least = query.practice.length(Name::DiameterStructuralLeast, &case).map_or(Length::ZERO, |least| least.value);
    let smaller = series.sizes.iter().rev().find(|smaller| smaller.shank_nominal < size.shank_nominal);
    let smaller = smaller.filter(|smaller| smaller.shank_nominal >= least).and_then(|smaller| rivet.in_size(smaller));
    Ok((rivet, Some(Chosen { thickest, wanted: choice.wanted, smaller })))
}

/// The stack from the manufactured head on: head outside.
fn stacked(query: &PatchQuery<'_, '_>, rivet: &Part<'_>, plate: (Material, Length)) -> Result<Stack, PatchError> {
    let layer = |role, material, thickness, preparation| Layer {
        role,
        material: Some(material),
        thickness: Toleranced::exactly(thickness),
        preparation,
    };
    let seats = rivet.series().head.is_flush();
    let skin = |preparation| layer(Role::Skin, query.material, query.thickness, preparation);
    let doubler = |preparation| layer(Role::Doubler, plate.0, plate.1, preparation);
    let sunk = |thickness: Length| {
        if !seats {
            Preparation::Plain
        } else if takes_countersink(rivet, thickness, query.practice) {
            Preparation::Countersunk
        } else {
            Preparation::Dimpled
        }
    };
    let (outer_thickness, inner_thickness) = match query.style {
        Style::Lap => (plate.1, query.thickness),
        Style::Doubler | Style::Flush => (query.thickness, plate.1),
    };
    let outer = sunk(outer_thickness);
    // A dimple goes into the sheet below, which is dimpled too, or countersunk where it is thick enough.
    let inner = if outer == Preparation::Dimpled { sunk(inner_thickness) } else { Preparation::Plain };
    let layers = match query.style {
        Style::Lap => [doubler(outer), skin(inner)],
        Style::Doubler | Style::Flush => [skin(outer), doubler(inner)],
    };
    let mut stack = Stack::new();
    for layer in layers {
        stack.push(layer).map_err(|_| PatchError::Stack)?;
    }
    Ok(stack)
}

/// Whether a sheet is thick enough to be countersunk for the rivet: nothing of that is referred.
fn takes_countersink(rivet: &Part<'_>, thickness: Length, practice: &Practice<'_>) -> bool {
    let mut stack = Stack::new();
    let layer = Layer { preparation: Preparation::Countersunk, ..Layer::of(Toleranced::exactly(thickness)) };
    if stack.push(layer).is_err() {
        return false;
    }
    let rivet = practice.rivet(*rivet);
    let case = Case::for_part(&rivet);
    let mut takes = true;
    check_seat(&rivet, Some(&stack), &practice.for_case(&case), &mut |finding| {
        takes &= !(finding.code() == Code::CountersinkTooDeep && finding.severity() == Severity::Refer);
    });
    takes
}

/// Rows, pitch and distance between rows, for so many rivets an inch.
struct Spacing {
    rows: u8,
    pitch: Length,
    apart: Length,
    least: Given<Length>,
}

fn spacing<'a>(query: &PatchQuery<'_, 'a>, case: &Case, per_inch: f64) -> Result<Spacing, PatchError> {
    let practice = query.practice;
    let fits = |rows: u8| -> Option<(Length, Given<Length>)> {
        let case = case.in_rows(rows);
        let least = practice.length(Name::PitchLeast, &case)?;
        let greatest = practice.length(Name::PitchGreatest, &case).map_or(Length::MAX, |greatest| greatest.value);
        // A hair more than a step is that step.
        let widest = Length::try_from_inches_f64(f64::from(rows) / per_inch * (1.0 + 1e-9))?.min(greatest);
        // To be marked out in steps, unless only less than a step lies between.
        let pitch = if widest.floor_to(STEP) >= least.value { widest.floor_to(STEP) } else { widest };
        (pitch >= least.value && pitch > Length::ZERO).then_some((pitch, least))
    };
    practice.length(Name::PitchLeast, case).ok_or(lacks(Name::PitchLeast))?;
    let fewest = || (1..=MOST_ROWS).find_map(|rows| Some((rows, fits(rows)?)));
    let (rows, (pitch, least)) = match query.rows {
        None => fewest().ok_or(PatchError::TooManyRivets)?,
        Some(rows) => {
            let fitted = fits(rows).filter(|_| rows > 0 && rows <= MOST_ROWS).map(|fitted| (rows, fitted));
            fitted.ok_or_else(|| {
                fewest().map_or(PatchError::TooManyRivets, |(rows, _)| PatchError::TooFewRows { rows })
            })?
        }
    };
    let transverse = practice.length(Name::TransversePitchLeast, case).ok_or(lacks(Name::TransversePitchLeast))?.value;
    let single = practice.length(Name::PitchLeast, &case.in_rows(1)).ok_or(lacks(Name::PitchLeast))?.value;
    let apart = query.apart.unwrap_or(transverse.max(single).ceil_to(STEP));
    if apart <= Length::ZERO {
        return Err(PatchError::LengthNotPositive);
    }
    Ok(Spacing { rows, pitch, apart, least })
}

fn side(
    rate: &Rate,
    width: Length,
    rows: u8,
    spacing: &Spacing,
    pattern: Pattern,
    carries: bool,
) -> Result<Side, PatchError> {
    let whole = quotient(i128::from(width.nanometres()), i128::from(spacing.pitch.nanometres()));
    let whole = u32::try_from(whole).map_err(|_| PatchError::LengthNotPositive)?;
    let up = if spacing.pitch.times(whole, 1) < width { whole.saturating_add(1) } else { whole };
    // Two rivets at least, so that no plate turns about one.
    let per_row = up.max(2);
    let needed = if carries { rate.over(width)? } else { None };
    // A staggered row between two others has a rivet more, half a pitch beyond both ends.
    let staggered = if pattern == Pattern::Staggered { u32::from(rows >> 1) } else { 0 };
    Ok(Side {
        width,
        spread: spacing.pitch.times(per_row, 1),
        needed,
        rows,
        per_row,
        counted: per_row.saturating_mul(u32::from(rows)).saturating_add(staggered),
    })
}

/// What the rows carry over what the skin does without holes.
fn share(row: &InRow, query: &PatchQuery<'_, '_>) -> Option<f64> {
    let ftu = query.practice.sheet(query.material, query.thickness).ftu()?;
    let sheet = ftu.psi() * query.thickness.to_inches_f64();
    Some(row.strength.per_inch?.force.lbf() / sheet)
}

fn check_place<'a>(query: &PatchQuery<'_, 'a>, found: &mut Patch) {
    let (SkinDamage::Hole { along, across }
    | SkinDamage::Opening { along, across, .. }
    | SkinDamage::Crack { along, across }) = query.damage;
    let longest = along.max(across);
    if longest > MAJOR_ABOVE {
        found.findings.push(
            Finding::new(Code::MajorRepair, Severity::Refer, Basis::FAA_31B_MAJOR)
                .with_measured(Figure::Length(longest))
                .with_limit(Figure::Length(MAJOR_ABOVE)),
        );
    }
    let sound = found.rivet.diameter().times(17, 2);
    if let Some(member) = query.member.filter(|member| *member < sound) {
        found.findings.push(
            Finding::new(Code::MemberTooNear, Severity::Refer, Basis::FAA_31_MEMBER_NEAR)
                .with_measured(Figure::Length(member))
                .with_limit(Figure::Length(sound)),
        );
    }
}

fn tell(query: &PatchQuery<'_, '_>, found: &mut Patch) {
    let told = &mut found.told;
    told.all(&[
        Told::Method,
        Told::Authority,
        Told::AllowableDamage,
        Told::NextRow,
        Told::NoAccess,
        Told::Approval,
        Told::WeightAndBalance,
        Told::EqualStrength,
        Told::NoMoreRivets,
        Told::SameMaterial,
        Told::CladOutside,
        Told::HeadsOff,
        Told::OldRepair,
        Told::Mark,
        Told::Holes,
        Told::HolesFirst,
        Told::Anodise,
        Told::CoatAgain,
        Told::Protect,
        Told::DriveWet,
        Told::Fillet,
        Told::RivetSet,
        Told::DrivenRivets,
        Told::Neighbours,
    ]);
    match query.damage {
        SkinDamage::Crack { .. } => told.all(&[Told::StopDrill, Told::Across, Told::Thicker]),
        SkinDamage::Hole { .. } => told.all(&[Told::Trim, Told::SharpCorners]),
        SkinDamage::Opening { .. } => told.tell(Told::SharpCorners),
    }
    match query.style {
        Style::Lap => told.all(&[Told::ChamferEdge, Told::SealDoubler]),
        Style::Doubler => told.tell(Told::SealDoubler),
        // Behind a crack that stays there is no opening: nothing is turned in through it, no filler.
        Style::Flush if found.filler.is_none() => told.all(&[Told::SealDoubler, Told::FlushMethod]),
        Style::Flush => told.all(&[Told::TurnIn, Told::OtherShapes, Told::FlushMethod]),
    }
    if found.across.rows > 1 {
        told.all(&[Told::RowsUnequal, Told::StackedDoublers, Told::StressPath]);
    }
    if found.findings.has(Code::MajorRepair) {
        told.all(&[Told::MajorRepair, Told::Monocoque, Told::WholePanel]);
    }
    for_material(query.material, told);
    for_sites(query.sites, told);
}

/// That the mass of a sheet is not known, and what to enter.
#[must_use]
pub fn density_not_known(material: Material) -> Finding {
    Finding::unknown(Code::DensityNotKnown, Severity::Note, material.basis(), Some(Key::of_density(material)))
}

/// What holds for a sheet whatever is made of it.
pub(super) fn for_material(material: Material, told: &mut Tell) {
    if material.alloy() == "7075" {
        told.tell(Told::Notches7075);
    }
    if matches!(material.alloy(), "2017" | "2024") {
        told.tell(Told::NoReheat);
    }
    if material.temper() == "O" {
        told.tell(Told::NoAnnealed);
    }
}

/// What holds for a place whatever is repaired there.
pub(super) fn for_sites(sites: &[Site], told: &mut Tell) {
    for site in sites {
        if let Sizing::SizedWith(what) = site.sizing() {
            told.tell(what);
        }
        match site {
            Site::BelowWaterLine => told.all(&[Told::FloatSeams, Told::SolidOnly]),
            Site::FluidTight => told.tell(Told::SolidOnly),
            _ => {}
        }
    }
}

impl Plate {
    /// A plate with sharp corners, weighed by the density that the practice has of its material.
    #[must_use]
    pub fn of(material: Material, thickness: Length, along: Length, across: Length, practice: &Practice<'_>) -> Plate {
        Plate { material, thickness, along, across, radius: Length::ZERO, basis: None, mass: None }.weighed(practice)
    }

    /// Its area, the corners taken off.
    #[must_use]
    pub fn area_in2(&self) -> f64 {
        let corners = (4.0 - core::f64::consts::PI) * self.radius.to_inches_f64() * self.radius.to_inches_f64();
        self.along.to_inches_f64() * self.across.to_inches_f64() - corners
    }

    pub(crate) fn weighed(self, practice: &Practice<'_>) -> Plate {
        let density = practice.sheet(self.material, self.thickness).density_lb_in3();
        let mass =
            density.map(|(density, _)| Mass::from_lb(self.area_in2() * self.thickness.to_inches_f64() * density));
        Plate { mass, ..self }
    }

    /// That it has no mass because its density is not on file, and what to enter; `None` where it has one.
    #[must_use]
    pub fn not_weighed(&self) -> Option<Finding> {
        self.mass.is_none().then(|| density_not_known(self.material))
    }
}

/// A rivet of the patch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct PatchHole {
    /// Where it stands, from the middle of the opening: x along the load, y across it.
    pub at: Point,
    /// Its row, counted from 1 at the opening.
    pub row: u8,
    /// Whether it counts for the load across its side; one at a corner or beyond the spread does not.
    pub counts: bool,
}

/// One of the four sides.
#[derive(Clone, Copy)]
struct OneSide {
    /// The side stands at either end along x, or along y.
    at_ends: bool,
    /// Which of the two.
    negative: bool,
}

impl Patch {
    /// From the opening's spread to the centre of a row, counted from 0.
    fn off(&self, row: u8) -> Length {
        self.edge.value.plus(self.apart.times(u32::from(row), 1))
    }

    /// How far the plate runs out beyond the opening, along the load and across it.
    #[must_use]
    pub fn run_out(&self) -> (Length, Length) {
        let beyond = |plate: Length, opening: Length| plate.minus(opening).times(1, 2);
        (beyond(self.plate.along, self.opening.along), beyond(self.plate.across, self.opening.across))
    }

    fn side(&self, at_ends: bool) -> (&Side, &Side) {
        if at_ends { (&self.across, &self.along) } else { (&self.along, &self.across) }
    }

    /// How many rivets a row of a side has.
    fn in_row(&self, at_ends: bool, row: u8) -> u32 {
        let (own, other) = self.side(at_ends);
        let half = own.spread.times(1, 2);
        let last_corner = other.rows.saturating_sub(1);
        // Up to the corner rivet of this row less the least pitch; where there is none, as far as the plate's edge distance goes.
        let reach = if row < other.rows {
            half.plus(self.off(row)).minus(self.least_pitch.value)
        } else {
            half.plus(self.off(last_corner))
        };
        let full = if self.is_shifted(row) { own.per_row.saturating_add(1) } else { own.per_row };
        let own_reach = self.pitch.times(full.saturating_sub(1), 2);
        let beyond = quotient(i128::from(reach.minus(own_reach).nanometres()), i128::from(self.pitch.nanometres()));
        let beyond = u32::try_from(beyond).unwrap_or(0);
        full.saturating_add(beyond.saturating_mul(2))
    }

    /// Whether a row, counted from 0, stands against the gaps of the one before.
    fn is_shifted(&self, row: u8) -> bool {
        self.pattern == Pattern::Staggered && row & 1 == 1
    }

    /// Every rivet: side by side, row by row, then the corners.
    pub fn holes(&self) -> impl Iterator<Item = PatchHole> + Clone + '_ {
        let sides = [(true, false), (true, true), (false, false), (false, true)];
        let sides = sides.into_iter().map(|(at_ends, negative)| OneSide { at_ends, negative });
        let on_sides = sides.flat_map(move |side| {
            let rows = self.side(side.at_ends).0.rows;
            (0..rows).flat_map(move |row| {
                let count = self.in_row(side.at_ends, row);
                (0..count).map(move |index| self.on_side(side, row, index, count))
            })
        });
        on_sides.chain(self.corners())
    }

    fn on_side(&self, side: OneSide, row: u8, index: u32, count: u32) -> PatchHole {
        let (own, other) = self.side(side.at_ends);
        // From the middle of the row.
        let first = self.pitch.times(count.saturating_sub(1), 2);
        let along_row = self.pitch.times(index, 1).minus(first);
        let out = other.spread.times(1, 2).plus(self.off(row));
        let out = if side.negative { Length::ZERO.minus(out) } else { out };
        let at = if side.at_ends { Point { x: out, y: along_row } } else { Point { x: along_row, y: out } };
        let size = along_row.max(Length::ZERO.minus(along_row));
        let counts = own.needed.is_some() && size <= own.spread.times(1, 2);
        PatchHole { at, row: row.saturating_add(1), counts }
    }

    /// One rivet a row at each corner.
    fn corners(&self) -> impl Iterator<Item = PatchHole> + Clone + '_ {
        let rows = self.across.rows.min(self.along.rows);
        (0..rows).flat_map(move |row| {
            let x = self.along.spread.times(1, 2).plus(self.off(row));
            let y = self.across.spread.times(1, 2).plus(self.off(row));
            [(false, false), (false, true), (true, false), (true, true)].into_iter().map(move |(left, down)| {
                let turned = |length: Length, turn: bool| if turn { Length::ZERO.minus(length) } else { length };
                let at = Point { x: turned(x, left), y: turned(y, down) };
                PatchHole { at, row: row.saturating_add(1), counts: false }
            })
        })
    }

    /// How many rivets the patch has; those of the filler are counted in [`Patch::filler_holes`].
    #[must_use]
    pub fn rivets(&self) -> u32 {
        u32::try_from(self.holes().count()).unwrap_or(u32::MAX)
    }

    /// The rivets that hold the filler to the doubler: a ring an edge distance inside its rim, evenly spaced, no closer than the patch's
    /// pitch; one in the middle of a filler too small for more; none where the filler is no wider than two edge distances.
    pub fn filler_holes(&self) -> impl Iterator<Item = Point> + Clone + '_ {
        let ring = self.filler.and_then(|filler| Ring::inside(&filler, self.edge.value));
        let count = ring.map_or(0, |ring| ring.count(self.pitch, self.least_pitch.value));
        (0..count).filter_map(move |index| {
            let ring = ring?;
            if count == 1 { Some(Point::default()) } else { ring.at(f64::from(index) / f64::from(count)) }
        })
    }

    /// The mass that the repair adds.
    fn adds(&self, query: &PatchQuery<'_, '_>) -> Option<Mass> {
        let density = self.rivet.alloy().density_lb_in3().map(|(density, _)| density)?;
        let each = mass_each(&self.rivet, density)?.lb();
        let filler_rivets = u32::try_from(self.filler_holes().count()).unwrap_or(u32::MAX);
        let rivets = each * (f64::from(self.rivets()) + f64::from(filler_rivets));
        let removed = if self.opening.stop_hole.is_some() {
            0.0
        } else {
            let Opening { along, across, radius, .. } = self.opening;
            let (material, thickness) = (query.material, query.thickness);
            let cut =
                Plate { material, thickness, along, across, radius, basis: None, mass: None }.weighed(query.practice);
            cut.mass?.lb()
        };
        let filler = match self.filler {
            Some(filler) => filler.mass?.lb(),
            None => 0.0,
        };
        Some(Mass::from_lb(self.plate.mass?.lb() + filler + rivets - removed))
    }

    /// How the rows of a side that carries share a load on an inch of width that the plate takes over the opening, by one formula. Row 1 is
    /// the outermost, where the skin still carries everything; by the last one all of it is in the plate.
    ///
    /// # Errors
    /// [`ShareError`].
    pub fn shares(&self, per_inch: Force, formula: Formula, taper: Taper) -> Result<Sharing, ShareError> {
        let rows = self.across.rows;
        let [skin, plate] = self.plates().ok_or(ShareError::ModulusNotPublished)?;
        let diameter = self.rivet.diameter();
        let mut chain = heapless::Vec::<SharingRow, { MOST_ROWS as usize }>::new();
        let mut bays = heapless::Vec::<Bay, { MOST_ROWS as usize }>::new();
        let ea = |sheet: Sheet, thickness: Length| stiffness(sheet.modulus, self.pitch, thickness);
        for row in 0..rows {
            let here = taper.at(row, rows, plate.thickness);
            let plates = [skin, Sheet { thickness: here, ..plate }];
            let fastening = Fastening {
                diameter,
                modulus: lap::ALUMINIUM_RIVET,
                shear_modulus: None,
                shear: Shear::Single,
                plates: plates.map(|sheet| JoinedPlate { thickness: sheet.thickness, modulus: sheet.modulus }),
            };
            let found = flexibility(formula, &fastening).map_err(ShareError::Flexibility)?;
            // Cannot fail: there are no more rows than places.
            let _ = chain.push(SharingRow { flexibility: found, fasteners: 1 });
            if row.saturating_add(1) < rows {
                let next = taper.at(row.saturating_add(1), rows, plate.thickness);
                // A step lies at the row behind it; between two rows of a feathered plate the thickness runs evenly.
                let ea_b = match taper {
                    Taper::Feathered(_) => tapered(ea(plate, here), ea(plate, next)),
                    Taper::Plain | Taper::Stepped(_) => ea(plate, here),
                };
                let _ = bays.push(Bay { length: self.apart, ea_a: ea(skin, skin.thickness), ea_b });
            }
        }
        let load = Force::from_lbf(per_inch.lbf() * self.pitch.to_inches_f64());
        share_rows(&chain, &bays, Transfer::Lap, load).map_err(ShareError::Sharing)
    }

    /// The finding of a side that carries and of which one row takes more under the limit load than its rivets carry at failure; `None` where
    /// none does, for a single row, and where a strength or a modulus is not published.
    ///
    /// The load is what the side carries, no more than what the skin does, over the factor of safety; every formula that is for rivets counts.
    #[must_use]
    pub fn row_over_ultimate(&self, taper: Taper) -> Option<Finding> {
        let (carries, allowable) = (self.row.strength.per_inch?, self.row.strength.joint.allowable?);
        if self.across.rows < 2 {
            return None;
        }
        let limit = self.limit(carries.force);
        let most = |formula| {
            let shares = self.shares(limit, formula, taper).ok()?;
            shares.rows().map(|row| libm::fabs(row.a_fastener.lbf())).reduce(f64::max)
        };
        let most = Formula::for_rivets(Shear::Single).filter_map(most).reduce(f64::max)?;
        let found = Finding::new(Code::RowOverUltimate, Severity::Refer, Basis::FLEXIBILITY_SEC_8);
        let found = found.with_measured(Figure::Force(Force::from_lbf(most)));
        (most > allowable.force.lbf()).then_some(found.with_limit(Figure::Force(allowable.force)))
    }

    /// The limit load on an inch of a side that carries so much an inch: no more comes over than the skin carries.
    pub(crate) fn limit(&self, carries: Force) -> Force {
        let over_skin = self.share.map_or(1.0, |share| share.max(1.0));
        Force::from_lbf(carries.lbf() / over_skin / Factors::SEAM.safety.value)
    }

    /// Skin and plate with their moduli.
    pub(crate) fn plates(&self) -> Option<[Sheet; 2]> {
        let sheet = |role: Role| {
            let layer = self.stack.layers().iter().find(|layer| layer.role == role)?;
            let thickness = layer.thickness.nominal();
            let properties = layer.material?.properties(thickness)?;
            Some(Sheet { thickness, modulus: properties.e()?, basis: properties.basis() })
        };
        Some([sheet(Role::Skin)?, sheet(Role::Doubler)?])
    }
}

#[derive(Clone, Copy)]
pub(crate) struct Sheet {
    pub(crate) thickness: Length,
    pub(crate) modulus: Stress,
    #[cfg_attr(not(feature = "words"), allow(dead_code, reason = "only the working says where it stands"))]
    pub(crate) basis: Basis,
}

/// How the plate thins out towards its outermost row, so that this row takes less.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Taper {
    /// It does not.
    #[default]
    Plain,
    /// Evenly, from this thickness at the outermost row to all of it at the row by the opening.
    Feathered(Length),
    /// Two stacked doublers, this much of them at the outermost row and all of it from the next row on.
    Stepped(Length),
}

impl Taper {
    /// The word used in output.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Taper::Plain => "plain",
            Taper::Feathered(_) => "feathered",
            Taper::Stepped(_) => "stepped",
        }
    }

    /// The plate's thickness at a row, counted from 0 at the outermost.
    pub(crate) fn at(self, row: u8, rows: u8, whole: Length) -> Length {
        let last = u32::from(rows.saturating_sub(1)).max(1);
        match self {
            Taper::Plain => whole,
            Taper::Stepped(first) => {
                if row == 0 && rows > 1 {
                    first.min(whole)
                } else {
                    whole
                }
            }
            Taper::Feathered(first) => {
                let first = first.min(whole);
                first.plus(whole.minus(first).times(u32::from(row), last))
            }
        }
    }
}

crate::words::errors! {
    /// Why there are no shares.
    ShareError {
        ModulusNotPublished = _, "share-modulus", "The modulus of a sheet is not published.",
            "no modulus on file for a sheet of the patch";
        | Flexibility(FlexibilityError), "The flexibility could not be worked out.";
        | Sharing(SharingError), "The shares could not be worked out.";
    }
}

/// The line of rivets inside a filler's rim: a rectangle with round corners, from the middle of it.
#[derive(Clone, Copy)]
struct Ring {
    /// Half its sides, in inches.
    x: f64,
    y: f64,
    radius: f64,
}

impl Ring {
    fn inside(filler: &Plate, edge: Length) -> Option<Ring> {
        let half = |side: Length| side.times(1, 2).minus(edge);
        let (x, y) = (half(filler.along), half(filler.across));
        let radius = filler.radius.minus(edge).max(Length::ZERO).min(x).min(y);
        let inches = |length: Length| length.to_inches_f64();
        (x >= Length::ZERO && y >= Length::ZERO).then(|| Ring { x: inches(x), y: inches(y), radius: inches(radius) })
    }

    fn around(&self) -> f64 {
        let straight = 4.0 * (self.x + self.y - 2.0 * self.radius);
        straight + 2.0 * core::f64::consts::PI * self.radius
    }

    /// The most rivets no closer along the ring than `pitch` and no closer across a bend than `least`; at least one.
    fn count(&self, pitch: Length, least: Length) -> u32 {
        let most = libm::floor(self.around() / pitch.to_inches_f64() * (1.0 + 1e-9)).clamp(1.0, 65_535.0) as u32;
        let is_apart = |count: &u32| {
            let place = |index: u32| self.at(f64::from(index) / f64::from(*count));
            (0..*count).all(|index| {
                let next = index.saturating_add(1);
                let pair = place(index).zip(place(if next == *count { 0 } else { next }));
                pair.is_some_and(|(one, other)| one.distance(other) >= least)
            })
        };
        (2..=most).rev().find(is_apart).unwrap_or(1)
    }

    /// The place a part of the way round, from the middle of the side at the end along x.
    fn at(&self, part: f64) -> Option<Point> {
        let (lx, ly) = (self.x - self.radius, self.y - self.radius);
        let bend = core::f64::consts::FRAC_PI_2 * self.radius;
        let mut way = part * self.around();
        // Half a side, then bend and side in turn.
        let legs = [ly, bend, 2.0 * lx, bend, 2.0 * ly, bend, 2.0 * lx, bend, ly];
        let mut found = (self.x, 0.0);
        for (index, leg) in legs.into_iter().enumerate() {
            let on = way.min(leg).max(0.0);
            // A bend without a radius is no way long and turns by nothing.
            let turn = on / self.radius.max(f64::MIN_POSITIVE);
            let (sin, cos) = (self.radius * libm::sin(turn), self.radius * libm::cos(turn));
            found = match index {
                0 => (self.x, on),
                1 => (lx + cos, ly + sin),
                2 => (lx - on, self.y),
                3 => (-lx - sin, ly + cos),
                4 => (-self.x, ly - on),
                5 => (-lx - cos, -ly - sin),
                6 => (-lx + on, -self.y),
                7 => (lx + sin, -ly - cos),
                _ => (self.x, -ly + on),
            };
            if way <= leg {
                break;
            }
            way -= leg;
        }
        Some(Point { x: Length::try_from_inches_f64(found.0)?, y: Length::try_from_inches_f64(found.1)? })
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use std::vec::Vec;

    use super::*;
    use crate::practice::{Limit, Scope, Value};
    use crate::prelude::length;

    fn query() -> PatchQuery<'static, 'static> {
        let opening = SkinDamage::Opening { along: length("2"), across: length("4"), radius: length("1/2") };
        PatchQuery::new(Material::parse("clad 2024-T3").expect("known"), length(".032"), opening)
    }

    #[test]
    fn a_ring_holds_as_many_rivets_as_there_are_pitches_around_it() {
        let count = |ring: Ring, pitch| ring.count(length(pitch), Length::ZERO);
        for (x, y, pitch, rivets) in [
            (1.0, 1.0, "1", 8),
            (2.0, 1.0, "1", 12),
            (2.0, 1.0, "1/2", 24),
            (2.0, 1.0, "1.0001", 11),
            (2.0, 1.0, ".9999", 12),
            (0.25, 0.25, "3", 1),
        ] {
            assert_eq!(count(Ring { x, y, radius: 0.0 }, pitch), rivets, "{x} {y} {pitch}");
        }
        // Round: 2 π by an inch.
        assert_eq!(count(Ring { x: 1.0, y: 1.0, radius: 1.0 }, "1"), 6);
    }

    #[test]
    fn a_ring_is_a_radius_off_its_corners_and_ends_where_it_began() {
        for (x, y, radius) in [(2.0, 1.0, 0.5), (1.0, 2.0, 0.0), (2.0, 1.0, 1.0), (1.0, 1.0, 1.0)] {
            let ring = Ring { x, y, radius };
            let place = |part: f64| {
                let at = ring.at(part).expect("a place");
                (at.x.to_inches_f64(), at.y.to_inches_f64())
            };
            let is_near = |one: (f64, f64), other: (f64, f64)| libm::hypot(one.0 - other.0, one.1 - other.1) < 1e-6;
            assert!(is_near(place(0.0), (x, 0.0)) && is_near(place(1.0), (x, 0.0)), "{x} {y} {radius}");
            assert!(is_near(place(0.5), (-x, 0.0)) && is_near(place(0.25), (0.0, y)), "{x} {y} {radius}");
            let steps = 96;
            let places: Vec<(f64, f64)> = (0..=steps).map(|step| place(f64::from(step) / f64::from(steps))).collect();
            for (one, next) in places.iter().zip(places.iter().skip(1)) {
                // Off the rectangle of the bends' centres by the radius, which on a side without bends is none.
                let (out_x, out_y) = (one.0.abs() - (x - radius), one.1.abs() - (y - radius));
                let off = if out_x.min(out_y) > 0.0 { libm::hypot(out_x, out_y) } else { out_x.max(out_y) };
                assert!(libm::fabs(off - radius) < 1e-6, "{x} {y} {radius}: {one:?}");
                // A chord is no longer than the way, and on a bend of so small a turn hardly shorter; a corner cuts off √2 at most.
                let (chord, way) = (libm::hypot(next.0 - one.0, next.1 - one.1), ring.around() / f64::from(steps));
                assert!(chord < way + 1e-6 && chord > way / 1.4143, "{x} {y} {radius}: {one:?} {next:?}");
            }
            for (one, other) in places.iter().zip(places.iter().rev()) {
                assert!(is_near(*one, (other.0, -other.1)), "{x} {y} {radius}: {one:?} {other:?}");
            }
        }
    }

    #[test]
    fn a_plate_is_whole_by_the_opening_and_thin_at_its_outermost_row() {
        let (whole, thin) = (length(".080"), length(".040"));
        let at = |taper: Taper, rows: u8| -> Vec<Length> { (0..rows).map(|row| taper.at(row, rows, whole)).collect() };
        for rows in 1..5 {
            assert_eq!(at(Taper::Plain, rows), std::vec![whole; usize::from(rows)]);
        }
        // A single row has both of two doublers, and stands where a feathered plate is thin.
        assert_eq!((at(Taper::Stepped(thin), 1), at(Taper::Feathered(thin), 1)), (std::vec![whole], std::vec![thin]));
        assert_eq!(
            (at(Taper::Stepped(thin), 2), at(Taper::Feathered(thin), 2)),
            (std::vec![thin, whole], std::vec![thin, whole])
        );
        assert_eq!(at(Taper::Stepped(thin), 3), [thin, whole, whole]);
        assert_eq!(at(Taper::Feathered(thin), 3), [thin, length(".060"), whole]);
        // Never thicker than the plate.
        for taper in [Taper::Stepped(length("1")), Taper::Feathered(length("1"))] {
            assert_eq!(at(taper, 3), [whole; 3]);
        }
    }

    #[test]
    fn a_limit_load_is_what_the_skin_can_bring_over_the_factor_of_safety() {
        let found = patch(&query()).expect("a patch");
        for (share, limit) in [(None, 2_000.0), (Some(0.5), 2_000.0), (Some(1.0), 2_000.0), (Some(2.0), 1_000.0)] {
            assert_eq!(
                Patch { share, ..found.clone() }.limit(Force::from_lbf(3_000.0)),
                Force::from_lbf(limit),
                "{share:?}"
            );
        }
    }

    #[test]
    fn a_side_has_a_rivet_for_every_pitch_begun_and_two_at_least() {
        let found = patch(&query()).expect("a patch");
        let spacing = Spacing { rows: 2, pitch: length("1/2"), apart: found.apart, least: found.least_pitch };
        let per_row = |width: Length| {
            let side = side(&found.rate, width, 2, &spacing, Pattern::InLine, false).expect("a side");
            assert_eq!((side.spread, side.counted), (length("1/2").times(side.per_row, 1), 2 * side.per_row));
            side.per_row
        };
        let nanometre = Length::from_nanometres(1).expect("short");
        for (width, rivets) in [("1/4", 2), ("1", 2), ("2", 4), ("10", 20)] {
            let width = length(width);
            assert_eq!(per_row(width), rivets, "{width}");
            assert_eq!(per_row(width.plus(nanometre)), if width < length("1") { 2 } else { rivets + 1 }, "{width}");
        }
    }

    #[test]
    fn a_patch_shares_its_load_between_skin_and_plate() {
        for style in [Style::Lap, Style::Doubler, Style::Flush] {
            let plate = Some((query().material, length(".050")));
            let found = patch(&query().style(style).plate(plate)).expect("a patch");
            let thicknesses = found.plates().map(|plates| plates.map(|plate| plate.thickness));
            assert_eq!(thicknesses, Some([length(".032"), length(".050")]), "{style:?}");
        }
    }

    #[test]
    fn two_rows_can_share_a_load_so_that_one_takes_too_much_and_one_row_cannot() {
        let mut found = patch(&query()).expect("a patch");
        found.across.rows = 2;
        let allowable = found.row.strength.joint.allowable.as_mut().expect("published");
        allowable.force = Force::from_lbf(1.0);
        let over = found.row_over_ultimate(Taper::Plain).expect("more than a pound on one");
        assert_eq!((over.code(), over.limit()), (Code::RowOverUltimate, Some(Figure::Force(Force::from_lbf(1.0)))));
        // What it takes is not too much where a rivet carries just that.
        let Some(Figure::Force(most)) = over.measured() else { panic!("a force") };
        found.row.strength.joint.allowable.as_mut().expect("published").force = most;
        assert_eq!(found.row_over_ultimate(Taper::Plain), None);
        found.row.strength.joint.allowable.as_mut().expect("published").force = Force::from_lbf(1.0);
        found.across.rows = 1;
        assert_eq!(found.row_over_ultimate(Taper::Plain), None);
    }

    #[test]
    fn rivets_never_stand_on_one_another_whatever_pitch_a_shop_allows() {
        let none = [Limit::new(Name::PitchLeast, Scope::default(), Value::Length(Length::ZERO), Basis::own(0))];
        let practice = HANDBOOK.with_own(&none, &[]);
        let query = query().practice(&practice);
        let rivet = Part::parse("MS20470AD4").expect("a part");
        let case = Case::for_part(&rivet);
        // A row holds 64 an inch where every 64th has one.
        for (per_inch, rows) in [(60.0, 1), (64.0, 1), (65.0, 2), (128.0, 2), (200.0, 4)] {
            let found = spacing(&query, &case, per_inch).expect("a spacing");
            assert_eq!((found.rows, found.pitch), (rows, STEP), "{per_inch}");
        }
    }

    #[test]
    fn a_limit_that_a_practice_lacks_is_referred_with_what_to_enter() {
        let material = Material::parse("2024-T3").expect("known");
        for limit in [Name::EdgeDistanceLeast, Name::PitchLeast, Name::TransversePitchLeast] {
            let found = lacks(limit).refusal(&material).expect("referred");
            assert_eq!((found.code(), found.severity()), (Code::NoLimit, Severity::Refer));
            assert_eq!(found.key(), Some(Key::of_limit(limit)));
        }
        assert_eq!(PatchError::LengthNotPositive.refusal(&material), None);
    }
}
