//! The answer of `shophead repair` for scripts, as plain structures.

use serde::Serialize;
use shophead::basis::Basis;
use shophead::finding::Finding;
use shophead::joint::splice::{Critical, Table};
use shophead::joint::strength::Allowable;
use shophead::layout::Point;
use shophead::length as core;
use shophead::material::Material;
use shophead::practice::{Given, Practice};
use shophead::quantity::{self, Mass};
use shophead::repair::count::{ByTable, Rate};
use shophead::repair::patch::Plate;
use shophead::repair::told::Tell;
use shophead_job::order::OrderLine;
use shophead_job::repair::{Other, Piece, Place};

/// A length in both units.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Length {
    #[serde(rename = "in")]
    inches: f64,
    mm: f64,
}

impl From<core::Length> for Length {
    fn from(length: core::Length) -> Length {
        Length { inches: length.to_inches_f64(), mm: length.to_millimetres_f64() }
    }
}

/// A force in both units.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Force {
    lbf: f64,
    n: f64,
}

impl From<quantity::Force> for Force {
    fn from(force: quantity::Force) -> Force {
        Force { lbf: force.lbf(), n: force.newtons() }
    }
}

/// A stress in both units.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Stress {
    psi: f64,
    mpa: f64,
}

impl From<quantity::Stress> for Stress {
    fn from(stress: quantity::Stress) -> Stress {
        Stress { psi: stress.psi(), mpa: stress.megapascals() }
    }
}

/// An area in both units.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Area {
    /// In square inches.
    in2: f64,
    /// In square millimetres.
    mm2: f64,
}

impl Area {
    pub(super) fn of_in2(in2: f64) -> Area {
        Area { in2, mm2: in2 * 25.4 * 25.4 }
    }
}

/// A mass in both units.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Weight {
    lb: f64,
    g: f64,
}

impl From<Mass> for Weight {
    fn from(mass: Mass) -> Weight {
        Weight { lb: mass.lb(), g: mass.grams() }
    }
}

/// Where a figure stands.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Cited {
    document: String,
    place: String,
    status: &'static str,
}

impl Cited {
    pub(super) fn of(basis: Basis, practice: &Practice<'_>) -> Cited {
        let cited = practice.cite(basis);
        Cited { document: cited.document.to_owned(), place: cited.place.to_owned(), status: cited.status.as_str() }
    }
}

/// A length with its basis.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Limited {
    #[serde(flatten)]
    value: Length,
    basis: Cited,
}

impl Limited {
    pub(super) fn of(given: Given<core::Length>, practice: &Practice<'_>) -> Limited {
        Limited { value: given.value.into(), basis: Cited::of(given.basis, practice) }
    }
}

/// A strength with its basis.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Strength {
    #[serde(flatten)]
    force: Force,
    basis: Cited,
}

impl Strength {
    pub(super) fn of(allowable: Allowable, practice: &Practice<'_>) -> Strength {
        Strength { force: allowable.force.into(), basis: Cited::of(allowable.basis, practice) }
    }
}

/// The answer: one of the five is there, or where nothing is sized none.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Repair {
    /// Which: patch, splice, panel, rows or bend.
    pub(super) repair: &'static str,
    /// The patch; null for another repair, and where nothing is sized.
    pub(super) patch: Option<PatchAnswer>,
    /// The splice.
    pub(super) splice: Option<SpliceAnswer>,
    /// The seams of the panel.
    pub(super) panel: Option<PanelAnswer>,
    /// The rows.
    pub(super) rows: Option<RowsAnswer>,
    /// The bend.
    pub(super) bend: Option<Bend>,
    /// What it adds to the aircraft, estimated; null where a density is not known.
    pub(super) mass: Option<Weight>,
    /// Every rivet and bolt that is laid out.
    pub(super) points: Vec<PointAnswer>,
    /// What is bought and cut.
    pub(super) order: OrderAnswer,
    /// What has to be asked, seen to, done and looked at.
    pub(super) told: Vec<ToldAnswer>,
}

/// A rivet or bolt where it stands.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PointAnswer {
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

impl From<&Place> for PointAnswer {
    fn from(place: &Place) -> PointAnswer {
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
pub(super) struct OrderAnswer {
    /// Rivets by part number.
    rivets: Vec<OrderedRivet>,
    /// Sheets to cut.
    sheets: Vec<OrderedSheet>,
    /// What is neither.
    others: Vec<OrderedOther>,
}

/// Rivets of one part number.
#[derive(Clone, Debug, Serialize)]
struct OrderedRivet {
    /// The part number.
    part: String,
    /// How many the repair takes.
    needed: u32,
    /// Spare ones.
    spares: u32,
    /// Both together.
    buy: u32,
    /// What those needed weigh; null where that is not known.
    mass: Option<Weight>,
}

/// A sheet to cut.
#[derive(Clone, Debug, Serialize)]
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
    mass: Option<Weight>,
}

/// What is neither rivet nor sheet.
#[derive(Clone, Debug, Serialize)]
struct OrderedOther {
    /// What it is.
    what: String,
    /// How many.
    count: u32,
}

impl OrderAnswer {
    pub(super) fn of(rivets: &[OrderLine<'_>], pieces: &[Piece], others: &[Other]) -> OrderAnswer {
        let rivet = |line: &OrderLine<'_>| OrderedRivet {
            part: line.part.to_string(),
            needed: line.needed,
            spares: line.spares,
            buy: line.buy,
            mass: line.mass.map(Weight::from),
        };
        let sheet = |piece: &Piece| OrderedSheet {
            what: piece.what.clone(),
            material: piece.material.to_string(),
            thickness: piece.thickness.into(),
            along: piece.along.into(),
            across: piece.across.into(),
            count: piece.count,
            mass: piece.mass.map(Weight::from),
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
pub(super) struct ToldAnswer {
    /// Whether it is asked, seen to, done or looked at.
    kind: &'static str,
    /// Its name, which stays.
    word: &'static str,
    /// The sentence.
    sentence: &'static str,
    /// Its source.
    basis: Cited,
}

pub(super) fn told(tell: &Tell, practice: &Practice<'_>) -> Vec<ToldAnswer> {
    let one = |told: shophead::repair::told::Told| ToldAnswer {
        kind: told.kind().as_str(),
        word: told.as_str(),
        sentence: told.meaning(),
        basis: Cited::of(told.basis(), practice),
    };
    tell.iter().map(one).collect()
}

/// The count by one table.
#[derive(Clone, Debug, Serialize)]
pub(super) struct TableCount {
    /// The number of the table.
    table: &'static str,
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
    governing: &'static str,
    /// Its source.
    basis: Cited,
}

impl TableCount {
    pub(super) fn of(found: &ByTable, practice: &Practice<'_>) -> TableCount {
        TableCount {
            table: Table::number(found.table),
            thickness: found.thickness.into(),
            printed: found.cell.printed,
            formula: found.cell.formula,
            used: found.used,
            percent: found.member.percent().0,
            per_inch: found.per_inch,
            governing: critical(found.cell.critical),
            basis: Cited::of(found.cell.basis, practice),
        }
    }
}

pub(super) const fn critical(critical: Critical) -> &'static str {
    match critical {
        Critical::Shear => "rivet-shear",
        Critical::Bearing => "bearing",
    }
}

/// Rivets an inch, both ways.
#[derive(Clone, Debug, Serialize)]
pub(super) struct RateAnswer {
    /// Rivets on an inch of width, as laid out; null where there is no count.
    per_inch: Option<f64>,
    /// Which count that is.
    from: Option<&'static str>,
    /// The count by the table; null where none covers the case.
    table: Option<TableCount>,
    /// The count by another table that names the same sheet.
    also_named_by: Option<TableCount>,
    /// The count by the strengths; null where one is not published.
    strength: Option<StrengthCount>,
}

/// The count by the strengths.
#[derive(Clone, Debug, Serialize)]
struct StrengthCount {
    /// What one rivet carries.
    per_rivet: Strength,
    /// Rivets on an inch of width.
    per_inch: f64,
}

impl RateAnswer {
    pub(super) fn of(rate: &Rate, practice: &Practice<'_>) -> RateAnswer {
        let table = |found: &ByTable| TableCount::of(found, practice);
        RateAnswer {
            per_inch: rate.per_inch,
            from: rate.from.map(|from| from.as_str()),
            table: rate.by_table.as_ref().map(table),
            also_named_by: rate.also.as_ref().map(table),
            strength: rate.by_strength.map(|found| StrengthCount {
                per_rivet: Strength::of(found.per_rivet, practice),
                per_inch: found.per_inch,
            }),
        }
    }
}

/// A patch.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PatchAnswer {
    /// The patch.
    pub(super) style: &'static str,
    /// What is cut out, or the crack with its stop holes.
    pub(super) opening: OpeningAnswer,
    /// The patch itself.
    pub(super) plate: PlateAnswer,
    /// What fills the opening; null where nothing does.
    pub(super) filler: Option<PlateAnswer>,
    /// The rivet; without length where none fits.
    pub(super) rivet: String,
    /// How its size follows from the sheets; null where the rivet was named.
    pub(super) size: Option<SizeAnswer>,
    /// Rivets of the patch, without those of the filler.
    pub(super) rivets: u32,
    /// Rivets that hold the filler.
    pub(super) filler_rivets: u32,
    /// The count.
    pub(super) rate: RateAnswer,
    /// The sides that bridge what the load along x has lost.
    pub(super) across: SideAnswer,
    /// The other two sides.
    pub(super) along: SideAnswer,
    /// From the outermost rivets to the edge of the patch, and from the innermost to the opening.
    pub(super) edge: Limited,
    /// From rivet to rivet in a row.
    pub(super) pitch: Length,
    /// From row to row.
    pub(super) row_spacing: Length,
    /// How far the plate runs out beyond the opening.
    pub(super) run_out: RunOutAnswer,
    /// The least pitch of these rows.
    pub(super) least_pitch: Limited,
    /// How the rows stand.
    pub(super) pattern: &'static str,
    /// What a side carries on an inch; null where that is not published.
    pub(super) carries_per_inch: Option<Strength>,
    /// What fails first there.
    pub(super) governing: Option<String>,
    /// That over what the sheet carries without holes, without unit.
    pub(super) share: Option<f64>,
    /// Whether the patch thins out at its outermost row.
    pub(super) taper: &'static str,
    /// How the rows at an end share the load, by two formulas; empty for a single row.
    pub(super) shares: Vec<SharesAnswer>,
}

/// A size from the sheets.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SizeAnswer {
    /// The thicker sheet.
    pub(super) thickest: Length,
    /// What the rule asks for.
    pub(super) wanted: Length,
    /// The next smaller rivet of the series that is still structural.
    pub(super) smaller: Option<String>,
}

/// How far a plate runs out.
#[derive(Clone, Debug, Serialize)]
pub(super) struct RunOutAnswer {
    /// Along the load.
    pub(super) along: Length,
    /// Across it.
    pub(super) across: Length,
}

/// What is cut out.
#[derive(Clone, Debug, Serialize)]
pub(super) struct OpeningAnswer {
    /// Along the load.
    pub(super) along: Length,
    /// Across it.
    pub(super) across: Length,
    /// Radius of the corners.
    pub(super) radius: Length,
    /// Diameter of the stop holes; null where the damage is cut out.
    pub(super) stop_hole: Option<Length>,
}

/// A sheet of the repair.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PlateAnswer {
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
    mass: Option<Weight>,
    /// Where its thickness stands; null where it was given.
    basis: Option<Cited>,
}

impl PlateAnswer {
    pub(super) fn of(plate: &Plate, practice: &Practice<'_>) -> PlateAnswer {
        PlateAnswer {
            material: plate.material.to_string(),
            thickness: plate.thickness.into(),
            along: plate.along.into(),
            across: plate.across.into(),
            radius: plate.radius.into(),
            mass: plate.mass.map(Weight::from),
            basis: plate.basis.map(|basis| Cited::of(basis, practice)),
        }
    }
}

/// One pair of sides.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SideAnswer {
    /// The width that has to be bridged.
    pub(super) width: Length,
    /// The width over which rivets count.
    pub(super) spread: Length,
    /// Rivets needed on each of the two; null where they only hold the patch down.
    pub(super) needed: Option<u32>,
    /// Rows.
    pub(super) rows: u8,
    /// Rivets in a full row.
    pub(super) per_row: u32,
    /// Rivets that count.
    pub(super) counted: u32,
}

/// The rows' shares by one formula, the outermost row first.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SharesAnswer {
    /// The formula for the flexibility of a rivet.
    pub(super) formula: &'static str,
    /// The rows, the outermost first.
    pub(super) plain: Vec<RowShareAnswer>,
    /// The same with the patch thinned out; null where it is not.
    pub(super) tapered: Option<Vec<RowShareAnswer>>,
    /// Its source.
    pub(super) basis: Cited,
}

/// The part of one row.
#[derive(Clone, Debug, Serialize)]
pub(super) struct RowShareAnswer {
    /// Its part of the load, without unit.
    pub(super) share: f64,
    /// What its rivets take over what passes it in the skin, without unit; null where nothing passes.
    pub(super) bearing_bypass: Option<f64>,
}

/// A splice.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SpliceAnswer {
    /// What is spliced.
    pub(super) member: &'static str,
    /// Its cross-section.
    pub(super) shape: &'static str,
    /// What it is made of.
    pub(super) material: String,
    /// The whole length of the longest plate.
    pub(super) length: Length,
    /// The filler between the ends; null without a gap.
    pub(super) filler: Option<Length>,
    /// Each leg.
    pub(super) legs: Vec<LegAnswer>,
}

/// One leg of the member.
#[derive(Clone, Debug, Serialize)]
pub(super) struct LegAnswer {
    /// Its width.
    pub(super) width: Length,
    /// Its thickness.
    pub(super) thickness: Length,
    /// Its area.
    pub(super) area: Area,
    /// Width of its plate.
    pub(super) plate_width: Length,
    /// Thickness of the plate.
    pub(super) plate_thickness: Length,
    /// Area of the plate, its holes not taken off.
    pub(super) plate_area: Area,
    /// The rivet; null for a leg with bolts.
    pub(super) rivet: Option<String>,
    /// Diameter of the rivet or bolt.
    pub(super) diameter: Length,
    /// The count of rivets; null for a leg with bolts.
    pub(super) rate: Option<RateAnswer>,
    /// The count of bolts; null for a leg with rivets.
    pub(super) bolts: Option<TableCount>,
    /// Rivets or bolts on each side of the cut.
    pub(super) needed: u32,
    /// Lines along the leg.
    pub(super) lines: u32,
    /// Rivets in the fullest line, on each side of the cut.
    pub(super) ranks: u32,
    /// From rivet to rivet in a line.
    pub(super) pitch: Length,
    /// From line to line; null for one line.
    pub(super) line_spacing: Option<Length>,
    /// From the outermost to the edge of the leg, and from the last to the end of the plate.
    pub(super) edge: Length,
    /// Length of the plate on each side of the cut.
    pub(super) half: Length,
    /// Diameter of the end rivets of a lower-surface splice; null elsewhere.
    pub(super) end_rivet: Option<Length>,
    /// How the plate is bent against the next leg; null where nothing is known of it.
    pub(super) bend: Option<BendAnswer>,
}

/// A bend of the plate.
#[derive(Clone, Debug, Serialize)]
pub(super) struct BendAnswer {
    /// The least inside radius by the table.
    pub(super) radius_least: Length,
    /// The greatest.
    pub(super) radius_most: Length,
    /// Setback of a right angle at the least radius.
    pub(super) setback: Length,
}

/// A bend.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Bend {
    /// By how many degrees the sheet is bent, without unit.
    pub(super) degrees: f64,
    /// Inside radius.
    pub(super) radius: Length,
    /// The least inside radius by the table; null where it has no such sheet.
    pub(super) radius_least: Option<Length>,
    /// The greatest that it names as least.
    pub(super) radius_most: Option<Length>,
    /// From the outer corner to where the bend begins.
    pub(super) setback: Length,
    /// Where the setback stands.
    pub(super) basis: Cited,
}

/// The seams of a new panel.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PanelAnswer {
    /// Each side.
    pub(super) sides: Vec<PanelSideAnswer>,
}

/// The seam of one side.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PanelSideAnswer {
    /// The side, as it was called.
    pub(super) side: String,
    /// Its length.
    pub(super) length: Length,
    /// Which of its factory seams is copied, counted from 1.
    pub(super) copied: usize,
    /// Whether those differ.
    pub(super) differ: bool,
    /// The rivet with its length; without where none fits.
    pub(super) rivet: String,
    /// Rows.
    pub(super) rows: u8,
    /// Rivets in a full row.
    pub(super) per_row: u32,
    /// Rivets in all.
    pub(super) rivets: u32,
    /// From rivet to rivet.
    pub(super) pitch: Length,
    /// From row to row.
    pub(super) row_spacing: Length,
    /// Whether each rivet stands against the gap of the next row.
    pub(super) staggered: bool,
    /// From the first row to the edge of the panel.
    pub(super) edge: Length,
    /// From the end of the side to the first rivet.
    pub(super) first: Length,
    /// Its factory seams, in the order of the file.
    pub(super) factory: Vec<FactoryAnswer>,
}

/// A factory seam.
#[derive(Clone, Debug, Serialize)]
pub(super) struct FactoryAnswer {
    /// Its rivet with the length that its layers need.
    pub(super) rivet: String,
    /// What it carries on an inch; null where that is not published.
    pub(super) carries_per_inch: Option<Strength>,
}

/// Rows.
#[derive(Clone, Debug, Serialize)]
pub(super) struct RowsAnswer {
    /// The width that the load is on.
    pub(super) width: Length,
    /// The rows as they were asked for; null where something else was asked.
    pub(super) as_asked: Option<TriedAnswer>,
    /// What the rows have to be.
    pub(super) solved: Option<SolvedAnswer>,
    /// Rows that are not alike.
    pub(super) strip: Option<StripAnswer>,
    /// How rows share a load over the layers, by two formulas.
    pub(super) layers: Vec<LayersAnswer>,
    /// Shear and tension together.
    pub(super) combined: Option<CombinedAnswer>,
}

impl RowsAnswer {
    pub(super) fn of_width(width: core::Length) -> RowsAnswer {
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
pub(super) struct TriedAnswer {
    /// The rivet; without length where none fits.
    pub(super) rivet: String,
    /// Rows.
    pub(super) rows: u8,
    /// From rivet to rivet.
    pub(super) pitch: Length,
    /// From a row to the nearest edge.
    pub(super) edge: Length,
    /// Thickness of the layer that was looked for; null where none was.
    pub(super) gauge: Option<Length>,
    /// Rivets on an inch of width.
    pub(super) rivets_per_inch: f64,
    /// What they carry on an inch of width; null where that is not published.
    pub(super) carries_per_inch: Option<Force>,
    /// What fails first.
    pub(super) governing: Option<String>,
    /// The margin under the load, without unit; null without a load.
    pub(super) margin: Option<f64>,
    /// What they carry over what the weaker sheet carries without holes, without unit.
    pub(super) share: Option<f64>,
    /// The first thing of them that has to be referred.
    pub(super) refers: Option<&'static str>,
}

pub(super) fn code(finding: Finding) -> &'static str {
    finding.code().as_str()
}

/// What the rows have to be.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SolvedAnswer {
    /// What was looked for.
    pub(super) unknown: String,
    /// The margin that was wanted, without unit.
    pub(super) wanted_margin: f64,
    /// The rows that hold; null where nothing that was tried does.
    pub(super) found: Option<TriedAnswer>,
    /// The next weaker step, or where nothing holds the best of what was tried; null where there is none.
    pub(super) beside: Option<TriedAnswer>,
    /// Why that is not the answer: its margin is less than wanted, something of it has to be referred, it keeps less of the sheet, or there is
    /// none.
    pub(super) why: &'static str,
}

/// Rows that are not alike.
#[derive(Clone, Debug, Serialize)]
pub(super) struct StripAnswer {
    /// Rivets in each row.
    pub(super) counts: Vec<u16>,
    /// What the weakest sheet carries without holes.
    pub(super) gross: Force,
    /// What all rivets carry together; null where a strength is not known.
    pub(super) all_rivets: Option<Force>,
    /// The same, sheared only.
    pub(super) all_rivets_in_shear: Option<Force>,
    /// The same, in bearing only.
    pub(super) all_rivets_in_bearing: Option<Force>,
    /// What all rivets carry over what the sheet does without holes, without unit.
    pub(super) rivet_efficiency: Option<f64>,
    /// The same, sheared only, without unit.
    pub(super) shear_efficiency: Option<f64>,
    /// The same, in bearing only, without unit.
    pub(super) bearing_efficiency: Option<f64>,
    /// What the rivets of an end row tear out at, over what the sheet carries without holes, without unit.
    pub(super) tear_out_efficiency: Option<f64>,
    /// Shear stress of a rivet of the first row under an equal part of the load; null without a load.
    pub(super) shear_stress: Option<Stress>,
    /// Bearing stress of the thinnest sheet there.
    pub(super) bearing_stress: Option<Stress>,
    /// Where a sheet parts: for each sheet and row the weakest line that begins at the row.
    pub(super) lines: Vec<LineAnswer>,
    /// What the strip carries; null where a strength is not known.
    pub(super) carries: Option<Force>,
    /// What fails first: all rivets together, or a sheet along a line.
    pub(super) governing: &'static str,
    /// The number of that line in the list, counted from 1; null where the rivets govern.
    pub(super) governing_line: Option<usize>,
    /// What the strip carries over what the sheet does without holes, without unit.
    pub(super) efficiency: Option<f64>,
    /// The margin under the load, without unit; null without one.
    pub(super) margin: Option<f64>,
}

/// The weakest line through one sheet.
#[derive(Clone, Debug, Serialize)]
pub(super) struct LineAnswer {
    /// The number of the sheet.
    pub(super) sheet: u8,
    /// The load on the whole strip at which it parts there.
    pub(super) load: Strength,
    /// That over what the weakest sheet carries without holes, without unit.
    pub(super) efficiency: f64,
    /// What is left of the width along the line.
    pub(super) net_width: Length,
    /// Holes that the line goes through.
    pub(super) holes: u16,
    /// The row that it begins at, from where the sheet is pulled; counted from 1.
    pub(super) from_row: u16,
    /// What the rivets before that row have taken out of the sheet.
    pub(super) before: Force,
    /// Whether it goes from row to row.
    pub(super) zigzag: bool,
}

/// How rows share a load over the layers, by one formula.
#[derive(Clone, Debug, Serialize)]
pub(super) struct LayersAnswer {
    /// The formula for the flexibility of a rivet between two layers.
    pub(super) formula: &'static str,
    /// Each row.
    pub(super) rows: Vec<LayerRowAnswer>,
    /// The row with the most sheared rivet, counted from 1.
    pub(super) peak_row: usize,
    /// The plane in which it is, counted from 1.
    pub(super) peak_plane: usize,
    /// How much it is sheared there.
    pub(super) peak: Force,
    /// The least margin of any plane and any layer, without unit; null where a strength is not published.
    pub(super) margin: Option<f64>,
    /// Its source.
    pub(super) basis: Cited,
}

/// One row.
#[derive(Clone, Debug, Serialize)]
pub(super) struct LayerRowAnswer {
    /// What a rivet is sheared by between each two layers.
    pub(super) planes: Vec<Force>,
    /// What it takes from each layer; negative where it gives.
    pub(super) bearing: Vec<Force>,
    /// For each layer what the rivet takes over what passes it, without unit; null where nothing passes.
    pub(super) bearing_bypass: Vec<Option<f64>>,
}

/// Shear and tension on one rivet.
#[derive(Clone, Debug, Serialize)]
pub(super) struct CombinedAnswer {
    /// Factored shear over what is carried, without unit.
    pub(super) shear: f64,
    /// Factored tension over what was tested, without unit; null where nothing was.
    pub(super) tension: Option<f64>,
    /// How far both can grow together, less one, without unit; null without a tested tension.
    pub(super) margin: Option<f64>,
    /// The weakest of the figures in it.
    pub(super) basis: Cited,
}

/// A sheet's material and gauge in one line.
pub(super) fn sheet(material: Material, thickness: core::Length, units: shophead::words::Units) -> String {
    format!("{} {material}", units.length(thickness))
}
