//! The answer of `shophead repair`.

use serde::Serialize;
use shophead::layout::Point;
use shophead::length as core;
use shophead::material::Material;
use shophead::practice::Practice;
use shophead::repair::count::{ByTable, Rate};
use shophead::repair::patch::Plate;
use shophead::repair::told::Tell;
use shophead_job::order::OrderLine;
use shophead_job::repair::{Other, Piece, PlacedRivet};

use super::{
    Allowable, Basis, Code, CountBy, Force, Formula, GivenLength, Length, Mass, Mode, PatchStyle, RowMode, RowPattern,
    RunningLoad, Shape, SpliceTable, Spliced, Stress, Taper, ToldKind, Why,
};
use crate::commands::splice::critical;

/// An area in both units.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Area {
    /// In square inches.
    in2: f64,
    /// In square millimetres.
    mm2: f64,
}

impl Area {
    pub(crate) fn of_in2(in2: f64) -> Area {
        Area { in2, mm2: in2 * 25.4 * 25.4 }
    }
}

/// The answer: one of the five is there, or where nothing is sized none.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Repair<'a> {
    /// Which: patch, splice, panel, rows or bend.
    pub(crate) repair: Which,
    /// The patch; null for another repair, and where nothing is sized.
    pub(crate) patch: Option<PatchAnswer<'a>>,
    /// The splice.
    pub(crate) splice: Option<SpliceAnswer<'a>>,
    /// The seams of the panel.
    pub(crate) panel: Option<PanelAnswer<'a>>,
    /// The rows.
    pub(crate) rows: Option<RowsAnswer<'a>>,
    /// The bend.
    pub(crate) bend: Option<Bend<'a>>,
    /// What it adds to the aircraft, estimated; null where a density is not known.
    pub(crate) mass: Option<Mass>,
    /// Every rivet and bolt that is laid out.
    pub(crate) points: Vec<PointAnswer>,
    /// What is bought and cut.
    pub(crate) order: OrderAnswer,
    /// What has to be asked, seen to, done and looked at.
    pub(crate) told: Vec<ToldAnswer<'a>>,
}

/// A rivet or bolt where it stands.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PointAnswer {
    /// Along the load, or along the side of a panel.
    x: Length,
    /// Across it.
    y: Length,
    /// Its diameter.
    diameter: Length,
    /// What it belongs to: a side, a leg, a filler.
    part: String,
    /// Its row there, counted from 1.
    row: u32,
    /// Whether it counts for the load.
    counts: bool,
}

impl From<&PlacedRivet> for PointAnswer {
    fn from(place: &PlacedRivet) -> PointAnswer {
        let Point { x, y } = place.at;
        PointAnswer {
            x: x.into(),
            y: y.into(),
            diameter: place.diameter.into(),
            part: place.part.clone(),
            row: place.row,
            counts: place.counts,
        }
    }
}

/// What is bought and cut.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct OrderAnswer {
    /// Rivets by part number.
    rivets: Vec<OrderedRivet>,
    /// Sheets to cut.
    sheets: Vec<OrderedSheet>,
    /// What is neither.
    others: Vec<OrderedOther>,
}

/// Rivets of one part number.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct OrderedRivet {
    /// The part number.
    part: String,
    /// How many the repair takes.
    needed: u32,
    /// Spare ones.
    spares: u32,
    /// Both together.
    buy: u32,
    /// What those needed and the spares weigh together; null where that is not known.
    mass: Option<Mass>,
}

/// A sheet to cut.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct OrderedSheet {
    /// What it is for.
    what: String,
    /// What it is made of.
    material: String,
    /// How thick it is.
    thickness: Length,
    /// One side.
    along: Length,
    /// The other.
    across: Length,
    /// How many.
    count: u32,
    /// What they weigh; null where the density is not known.
    mass: Option<Mass>,
}

/// What is neither rivet nor sheet.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct OrderedOther {
    /// What it is.
    what: String,
    /// How many.
    count: u32,
}

impl OrderAnswer {
    pub(crate) fn of(rivets: &[OrderLine<'_>], pieces: &[Piece], others: &[Other]) -> OrderAnswer {
        let rivet = |line: &OrderLine<'_>| OrderedRivet {
            part: line.part.to_string(),
            needed: line.needed,
            spares: line.spares,
            buy: line.buy,
            mass: line.mass.map(Mass::from),
        };
        let sheet = |piece: &Piece| OrderedSheet {
            what: piece.what.clone(),
            material: piece.material.to_string(),
            thickness: piece.thickness.into(),
            along: piece.along.into(),
            across: piece.across.into(),
            count: piece.count,
            mass: piece.mass.map(Mass::from),
        };
        OrderAnswer {
            rivets: rivets.iter().map(rivet).collect(),
            sheets: pieces.iter().map(sheet).collect(),
            others: others.iter().map(|other| OrderedOther { what: other.what.clone(), count: other.count }).collect(),
        }
    }
}

/// One remark that goes with a repair.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct ToldAnswer<'a> {
    /// Whether it is asked, seen to, done or looked at.
    kind: ToldKind,
    /// Its name, which stays.
    word: &'static str,
    /// The sentence.
    sentence: &'static str,
    /// Its source.
    basis: Basis<'a>,
}

pub(crate) fn told<'a>(tell: &Tell, practice: &Practice<'a>) -> Vec<ToldAnswer<'a>> {
    let one = |told: shophead::repair::told::Told| ToldAnswer {
        kind: told.kind().into(),
        word: told.as_str(),
        sentence: told.meaning(),
        basis: Basis::of(told.basis(), practice),
    };
    tell.iter().map(one).collect()
}

/// The count by one table.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct TableCount<'a> {
    /// The number of the table.
    table: SpliceTable,
    /// The row of the table that was read.
    thickness: Length,
    /// What the table prints, rivets on an inch; null where it prints none.
    printed: Option<f64>,
    /// What the formula under the table gives, rivets on an inch.
    formula: f64,
    /// The one that is counted, rivets on an inch.
    used: f64,
    /// The part of it that counts in this place.
    percent: u8,
    /// Rivets on an inch of width.
    per_inch: f64,
    /// What the table says fails first.
    governing: Mode,
    /// Its source.
    basis: Basis<'a>,
}

impl<'a> TableCount<'a> {
    pub(crate) fn of(found: &ByTable, practice: &Practice<'a>) -> TableCount<'a> {
        TableCount {
            table: found.table.into(),
            thickness: found.thickness.into(),
            printed: found.cell.printed,
            formula: found.cell.formula,
            used: found.used,
            percent: found.member.percent().0,
            per_inch: found.per_inch,
            governing: critical(found.cell.critical).into(),
            basis: Basis::of(found.cell.basis, practice),
        }
    }
}

/// Rivets an inch, both ways.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RateAnswer<'a> {
    /// Rivets on an inch of width, as laid out; null where there is no count.
    per_inch: Option<f64>,
    /// Which count that is.
    from: Option<CountBy>,
    /// The count by the table; null where none covers the case.
    table: Option<TableCount<'a>>,
    /// The count by another table that names the same sheet.
    also_named_by: Option<TableCount<'a>>,
    /// The count by the strengths; null where one is not published.
    strength: Option<StrengthCount<'a>>,
}

/// The count by the strengths.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct StrengthCount<'a> {
    /// What one rivet carries.
    per_rivet: Allowable<'a>,
    /// Rivets on an inch of width.
    per_inch: f64,
}

impl<'a> RateAnswer<'a> {
    pub(crate) fn of(rate: &Rate, practice: &Practice<'a>) -> RateAnswer<'a> {
        let table = |found: &ByTable| TableCount::of(found, practice);
        RateAnswer {
            per_inch: rate.per_inch,
            from: rate.from.map(CountBy::from),
            table: rate.by_table.as_ref().map(table),
            also_named_by: rate.also.as_ref().map(table),
            strength: rate.by_strength.map(|found| StrengthCount {
                per_rivet: Allowable::of(found.per_rivet, practice),
                per_inch: found.per_inch,
            }),
        }
    }
}

/// A patch.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PatchAnswer<'a> {
    /// The patch.
    pub(crate) style: PatchStyle,
    /// What is cut out, or the crack with its stop holes.
    pub(crate) opening: OpeningAnswer,
    /// The patch itself.
    pub(crate) plate: PlateAnswer<'a>,
    /// What fills the opening; null where nothing does.
    pub(crate) filler: Option<PlateAnswer<'a>>,
    /// The rivet; without length where none fits.
    pub(crate) rivet: String,
    /// How its size follows from the sheets; null where the rivet was named.
    pub(crate) size: Option<SizeAnswer>,
    /// Rivets of the patch, without those of the filler.
    pub(crate) rivets: u32,
    /// Rivets that hold the filler.
    pub(crate) filler_rivets: u32,
    /// The count.
    pub(crate) rate: RateAnswer<'a>,
    /// The sides that bridge what the load along x has lost.
    pub(crate) across: SideAnswer,
    /// The other two sides.
    pub(crate) along: SideAnswer,
    /// From the outermost rivets to the edge of the patch, and from the innermost to the opening.
    pub(crate) edge: GivenLength<'a>,
    /// From rivet to rivet in a row.
    pub(crate) pitch: Length,
    /// From row to row.
    pub(crate) row_spacing: Length,
    /// How far the plate runs out beyond the opening.
    pub(crate) run_out: RunOutAnswer,
    /// The least pitch of these rows.
    pub(crate) least_pitch: GivenLength<'a>,
    /// How the rows stand.
    pub(crate) pattern: RowPattern,
    /// What a side carries on an inch; null where that is not published.
    pub(crate) carries_per_inch: Option<RunningLoad<'a>>,
    /// What fails first there.
    pub(crate) governing: Option<RowMode>,
    /// That over what the sheet carries without holes, without unit.
    pub(crate) share: Option<f64>,
    /// Whether the patch thins out at its outermost row.
    pub(crate) taper: Taper,
    /// How the rows at an end share the load, by two formulas; empty for a single row.
    pub(crate) shares: Vec<SharesAnswer<'a>>,
}

/// A size from the sheets.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SizeAnswer {
    /// The thicker sheet.
    pub(crate) thickest: Length,
    /// What the rule asks for.
    pub(crate) wanted: Length,
    /// The next smaller rivet of the series that is still structural.
    pub(crate) smaller: Option<String>,
}

/// How far a plate runs out.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RunOutAnswer {
    /// Along the load.
    pub(crate) along: Length,
    /// Across it.
    pub(crate) across: Length,
}

/// What is cut out.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct OpeningAnswer {
    /// Along the load.
    pub(crate) along: Length,
    /// Across it.
    pub(crate) across: Length,
    /// Radius of the corners.
    pub(crate) radius: Length,
    /// Diameter of the stop holes; null where the damage is cut out.
    pub(crate) stop_hole: Option<Length>,
}

/// A sheet of the repair.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PlateAnswer<'a> {
    /// What it is made of.
    material: String,
    /// How thick it is.
    thickness: Length,
    /// Along the load.
    along: Length,
    /// Across it.
    across: Length,
    /// Radius of its corners.
    radius: Length,
    /// What it weighs; null where the density is not known.
    mass: Option<Mass>,
    /// Where its thickness stands; null where it was given.
    basis: Option<Basis<'a>>,
}

impl<'a> PlateAnswer<'a> {
    pub(crate) fn of(plate: &Plate, practice: &Practice<'a>) -> PlateAnswer<'a> {
        PlateAnswer {
            material: plate.material.to_string(),
            thickness: plate.thickness.into(),
            along: plate.along.into(),
            across: plate.across.into(),
            radius: plate.radius.into(),
            mass: plate.mass.map(Mass::from),
            basis: plate.basis.map(|basis| Basis::of(basis, practice)),
        }
    }
}

/// One pair of sides.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SideAnswer {
    /// The width that has to be bridged.
    pub(crate) width: Length,
    /// The width over which rivets count.
    pub(crate) spread: Length,
    /// Rivets needed on each of the two; null where they only hold the patch down.
    pub(crate) needed: Option<u32>,
    /// Rows.
    pub(crate) rows: u8,
    /// Rivets in a full row.
    pub(crate) per_row: u32,
    /// Rivets that count.
    pub(crate) counted: u32,
}

/// The rows' shares by one formula, the outermost row first.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SharesAnswer<'a> {
    /// The formula for the flexibility of a rivet.
    pub(crate) formula: Formula,
    /// The rows, the outermost first.
    pub(crate) plain: Vec<RowShareAnswer>,
    /// The same with the patch thinned out; null where it is not.
    pub(crate) tapered: Option<Vec<RowShareAnswer>>,
    /// Its source.
    pub(crate) basis: Basis<'a>,
}

/// The part of one row.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowShareAnswer {
    /// Its part of the load, without unit.
    pub(crate) share: f64,
    /// What its rivets take over what passes it in the skin, without unit; null where nothing passes.
    pub(crate) bearing_bypass: Option<f64>,
}

/// A splice.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SpliceAnswer<'a> {
    /// What is spliced.
    pub(crate) member: Spliced,
    /// Its cross-section.
    pub(crate) shape: Shape,
    /// What it is made of.
    pub(crate) material: String,
    /// The whole length of the longest plate.
    pub(crate) length: Length,
    /// The filler between the ends; null without a gap.
    pub(crate) filler: Option<Length>,
    /// Each leg.
    pub(crate) legs: Vec<LegAnswer<'a>>,
}

/// One leg of the member.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct LegAnswer<'a> {
    /// Its width.
    pub(crate) width: Length,
    /// Its thickness.
    pub(crate) thickness: Length,
    /// Its area.
    pub(crate) area: Area,
    /// Width of its plate.
    pub(crate) plate_width: Length,
    /// Thickness of the plate.
    pub(crate) plate_thickness: Length,
    /// Area of the plate, its holes not taken off.
    pub(crate) plate_area: Area,
    /// The rivet; null for a leg with bolts.
    pub(crate) rivet: Option<String>,
    /// Diameter of the rivet or bolt.
    pub(crate) diameter: Length,
    /// The count of rivets; null for a leg with bolts.
    pub(crate) rate: Option<RateAnswer<'a>>,
    /// The count of bolts; null for a leg with rivets.
    pub(crate) bolts: Option<TableCount<'a>>,
    /// Rivets or bolts on each side of the cut.
    pub(crate) needed: u32,
    /// Lines along the leg.
    pub(crate) lines: u32,
    /// Rivets in the fullest line, on each side of the cut.
    pub(crate) ranks: u32,
    /// From rivet to rivet in a line.
    pub(crate) pitch: Length,
    /// From line to line; null for one line.
    pub(crate) line_spacing: Option<Length>,
    /// From the outermost to the edge of the leg, and from the last to the end of the plate.
    pub(crate) edge: Length,
    /// Length of the plate on each side of the cut.
    pub(crate) half: Length,
    /// Diameter of the end rivets of a lower-surface splice; null elsewhere.
    pub(crate) end_rivet: Option<Length>,
    /// How the plate is bent against the next leg; null where nothing is known of it.
    pub(crate) bend: Option<PlateBend>,
}

/// A bend of the plate.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PlateBend {
    /// The least inside radius by the table.
    pub(crate) radius_least: Length,
    /// The greatest.
    pub(crate) radius_most: Length,
    /// Setback of a right angle at the least radius.
    pub(crate) setback: Length,
}

/// A bend.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Bend<'a> {
    /// What is bent.
    pub(crate) material: String,
    /// How thick it is.
    pub(crate) thickness: Length,
    /// By how many degrees the sheet is bent, without unit.
    pub(crate) degrees: f64,
    /// Inside radius.
    pub(crate) radius: Length,
    /// The least inside radius by the table; null where it has no such sheet.
    pub(crate) radius_least: Option<Length>,
    /// The greatest that it names as least.
    pub(crate) radius_most: Option<Length>,
    /// From the outer corner to where the bend begins.
    pub(crate) setback: Length,
    /// Where the setback stands.
    pub(crate) basis: Basis<'a>,
}

/// The seams of a new panel.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PanelAnswer<'a> {
    /// Each side.
    pub(crate) sides: Vec<PanelSideAnswer<'a>>,
}

/// The seam of one side.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PanelSideAnswer<'a> {
    /// The side, as it was called.
    pub(crate) side: String,
    /// Its length.
    pub(crate) length: Length,
    /// Which of its factory seams is copied, counted from 1.
    pub(crate) copied: usize,
    /// Whether those differ.
    pub(crate) differ: bool,
    /// The rivet with its length; without where none fits.
    pub(crate) rivet: String,
    /// Rows.
    pub(crate) rows: u8,
    /// Rivets in a full row.
    pub(crate) per_row: u32,
    /// Rivets in all.
    pub(crate) rivets: u32,
    /// From rivet to rivet.
    pub(crate) pitch: Length,
    /// From row to row.
    pub(crate) row_spacing: Length,
    /// Whether each rivet stands against the gap of the next row.
    pub(crate) staggered: bool,
    /// From the first row to the edge of the panel.
    pub(crate) edge: Length,
    /// From the end of the side to the first rivet.
    pub(crate) first: Length,
    /// Its factory seams, in the order of the file.
    pub(crate) factory: Vec<FactoryAnswer<'a>>,
}

/// A factory seam.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct FactoryAnswer<'a> {
    /// Its rivet with the length that its layers need.
    pub(crate) rivet: String,
    /// What it carries on an inch; null where that is not published.
    pub(crate) carries_per_inch: Option<RunningLoad<'a>>,
}

/// Rows.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowsAnswer<'a> {
    /// The width that the load is on.
    pub(crate) width: Length,
    /// The rows as they were asked for; null where something else was asked.
    pub(crate) as_asked: Option<TriedAnswer>,
    /// What the rows have to be.
    pub(crate) solved: Option<SolvedAnswer>,
    /// Rows that are not alike.
    pub(crate) strip: Option<StripAnswer<'a>>,
    /// How rows share a load over the layers, by two formulas.
    pub(crate) layers: Vec<LayersAnswer<'a>>,
    /// Shear and tension together.
    pub(crate) combined: Option<CombinedAnswer<'a>>,
}

impl<'a> RowsAnswer<'a> {
    pub(crate) fn of_width(width: core::Length) -> RowsAnswer<'a> {
        RowsAnswer {
            width: width.into(),
            as_asked: None,
            solved: None,
            strip: None,
            layers: Vec::new(),
            combined: None,
        }
    }
}

/// Rows as asked for or as found.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct TriedAnswer {
    /// The rivet; without length where none fits.
    pub(crate) rivet: String,
    /// Rows.
    pub(crate) rows: u8,
    /// From rivet to rivet.
    pub(crate) pitch: Length,
    /// From a row to the nearest edge.
    pub(crate) edge: Length,
    /// Thickness of the layer that was looked for; null where none was.
    pub(crate) gauge: Option<Length>,
    /// Rivets on an inch of width.
    pub(crate) rivets_per_inch: f64,
    /// What they carry on an inch of width; null where that is not published.
    pub(crate) carries_per_inch: Option<Force>,
    /// What fails first.
    pub(crate) governing: Option<RowMode>,
    /// The margin under the load, without unit; null without a load.
    pub(crate) margin: Option<f64>,
    /// What they carry over what the weaker sheet carries without holes, without unit.
    pub(crate) share: Option<f64>,
    /// The first thing of them that has to be referred.
    pub(crate) refers: Option<Code>,
}

/// What the rows have to be.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SolvedAnswer {
    /// What was looked for.
    pub(crate) unknown: String,
    /// The margin that was wanted, without unit.
    pub(crate) wanted_margin: f64,
    /// The rows that hold; null where nothing that was tried does.
    pub(crate) found: Option<TriedAnswer>,
    /// The next weaker step, or where nothing holds the best of what was tried; null where there is none.
    pub(crate) beside: Option<TriedAnswer>,
    /// Why that is not the answer: its margin is less than wanted, something of it has to be referred, it keeps less of the sheet, or there is
    /// none.
    pub(crate) why: Why,
}

/// Rows that are not alike.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct StripAnswer<'a> {
    /// Rivets in each row.
    pub(crate) counts: Vec<u16>,
    /// What the weakest sheet carries without holes.
    pub(crate) gross: Force,
    /// What all rivets carry together; null where a strength is not known.
    pub(crate) all_rivets: Option<Force>,
    /// The same, sheared only.
    pub(crate) all_rivets_in_shear: Option<Force>,
    /// The same, in bearing only.
    pub(crate) all_rivets_in_bearing: Option<Force>,
    /// What all rivets carry over what the sheet does without holes, without unit.
    pub(crate) rivet_efficiency: Option<f64>,
    /// The same, sheared only, without unit.
    pub(crate) shear_efficiency: Option<f64>,
    /// The same, in bearing only, without unit.
    pub(crate) bearing_efficiency: Option<f64>,
    /// What the rivets of an end row tear out at, over what the sheet carries without holes, without unit.
    pub(crate) tear_out_efficiency: Option<f64>,
    /// Shear stress of a rivet of the first row under an equal part of the load; null without a load.
    pub(crate) shear_stress: Option<Stress>,
    /// Bearing stress of the thinnest sheet there.
    pub(crate) bearing_stress: Option<Stress>,
    /// Where a sheet parts: for each sheet and row the weakest line that begins at the row.
    pub(crate) lines: Vec<LineAnswer<'a>>,
    /// What the strip carries; null where a strength is not known.
    pub(crate) carries: Option<Force>,
    /// What fails first: all rivets together, or a sheet along a line.
    pub(crate) governing: Parts,
    /// The number of that line in the list, counted from 1; null where the rivets govern.
    pub(crate) governing_line: Option<usize>,
    /// What the strip carries over what the sheet does without holes, without unit.
    pub(crate) efficiency: Option<f64>,
    /// The margin under the load, without unit; null without one.
    pub(crate) margin: Option<f64>,
}

/// The weakest line through one sheet.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct LineAnswer<'a> {
    /// The number of the sheet.
    pub(crate) sheet: u8,
    /// The load on the whole strip at which it parts there.
    pub(crate) load: Allowable<'a>,
    /// That over what the weakest sheet carries without holes, without unit.
    pub(crate) efficiency: f64,
    /// What is left of the width along the line.
    pub(crate) net_width: Length,
    /// Holes that the line goes through.
    pub(crate) holes: u16,
    /// The row that it begins at, from where the sheet is pulled; counted from 1.
    pub(crate) from_row: u16,
    /// What the rivets before that row have taken out of the sheet.
    pub(crate) before: Force,
    /// Whether it goes from row to row.
    pub(crate) zigzag: bool,
}

/// How rows share a load over the layers, by one formula.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct LayersAnswer<'a> {
    /// The formula for the flexibility of a rivet between two layers.
    pub(crate) formula: Formula,
    /// Each row.
    pub(crate) rows: Vec<LayerRowAnswer>,
    /// The row with the most sheared rivet, counted from 1.
    pub(crate) peak_row: usize,
    /// The plane in which it is, counted from 1.
    pub(crate) peak_plane: usize,
    /// How much it is sheared there.
    pub(crate) peak: Force,
    /// The least margin of any plane and any layer, without unit; null where a strength is not published.
    pub(crate) margin: Option<f64>,
    /// Its source.
    pub(crate) basis: Basis<'a>,
}

/// One row.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct LayerRowAnswer {
    /// What a rivet is sheared by between each two layers.
    pub(crate) planes: Vec<Force>,
    /// What it takes from each layer; negative where it gives.
    pub(crate) bearing: Vec<Force>,
    /// For each layer what the rivet takes over what passes it, without unit; null where nothing passes.
    pub(crate) bearing_bypass: Vec<Option<f64>>,
}

/// Shear and tension on one rivet.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct CombinedAnswer<'a> {
    /// Factored shear over what is carried, without unit.
    pub(crate) shear: f64,
    /// Factored tension over what was tested, without unit; null where nothing was.
    pub(crate) tension: Option<f64>,
    /// How far both can grow together, less one, without unit; null without a tested tension.
    pub(crate) margin: Option<f64>,
    /// The weakest of the figures in it.
    pub(crate) basis: Basis<'a>,
}

/// A sheet's material and gauge in one line.
pub(crate) fn sheet(material: Material, thickness: core::Length, units: shophead::words::Units) -> String {
    format!("{} {material}", units.length(thickness))
}

/// What is sized.
#[derive(Clone, Copy, Debug, Default, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(transform = super::schema::opened))]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Which {
    #[default]
    Patch,
    Splice,
    Panel,
    Rows,
    Bend,
}

/// What parts first.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(transform = super::schema::opened))]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Parts {
    Rivets,
    Sheet,
}
