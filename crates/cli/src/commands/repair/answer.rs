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
        Cited {
            document: cited.document.to_owned(),
            place: cited.place.to_owned(),
            status: cited.status.as_str(),
        }
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

/// The answer: one of the four is there, or where nothing is sized none.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Repair {
    pub(super) repair: &'static str,
    pub(super) patch: Option<PatchAnswer>,
    pub(super) splice: Option<SpliceAnswer>,
    pub(super) panel: Option<PanelAnswer>,
    pub(super) rows: Option<RowsAnswer>,
    pub(super) mass: Option<Weight>,
    pub(super) points: Vec<PointAnswer>,
    pub(super) order: OrderAnswer,
    pub(super) told: Vec<ToldAnswer>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct PointAnswer {
    x: Length,
    y: Length,
    diameter: Length,
    part: String,
    row: u32,
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

#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct OrderAnswer {
    rivets: Vec<OrderedRivet>,
    sheets: Vec<OrderedSheet>,
    others: Vec<OrderedOther>,
}

#[derive(Clone, Debug, Serialize)]
struct OrderedRivet {
    part: String,
    needed: u32,
    spares: u32,
    buy: u32,
    mass: Option<Weight>,
}

#[derive(Clone, Debug, Serialize)]
struct OrderedSheet {
    what: String,
    material: String,
    thickness: Length,
    along: Length,
    across: Length,
    count: u32,
    mass: Option<Weight>,
}

#[derive(Clone, Debug, Serialize)]
struct OrderedOther {
    what: String,
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

/// One thing that is told with a repair.
#[derive(Clone, Debug, Serialize)]
pub(super) struct ToldAnswer {
    kind: &'static str,
    word: &'static str,
    sentence: &'static str,
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
    table: &'static str,
    thickness: Length,
    printed: Option<f64>,
    formula: f64,
    used: f64,
    percent: u8,
    per_inch: f64,
    governing: &'static str,
    basis: Cited,
}

impl TableCount {
    pub(super) fn of(found: &ByTable, practice: &Practice<'_>) -> TableCount {
        TableCount {
            table: Table::number(found.table),
            thickness: found.thickness.into(),
            printed: found.cell.printed,
            formula: found.cell.formula,
            used: found.cell.used,
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
    per_inch: Option<f64>,
    from: Option<&'static str>,
    table: Option<TableCount>,
    also_named_by: Option<TableCount>,
    strength: Option<StrengthCount>,
}

#[derive(Clone, Debug, Serialize)]
struct StrengthCount {
    per_rivet: Strength,
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

#[derive(Clone, Debug, Serialize)]
pub(super) struct PatchAnswer {
    pub(super) style: &'static str,
    pub(super) opening: OpeningAnswer,
    pub(super) plate: PlateAnswer,
    pub(super) filler: Option<PlateAnswer>,
    pub(super) rivet: String,
    pub(super) rivets: u32,
    pub(super) filler_rivets: u32,
    pub(super) rate: RateAnswer,
    pub(super) across: SideAnswer,
    pub(super) along: SideAnswer,
    pub(super) edge: Limited,
    pub(super) pitch: Length,
    pub(super) row_spacing: Length,
    pub(super) least_pitch: Limited,
    pub(super) pattern: &'static str,
    pub(super) carries_per_inch: Option<Strength>,
    pub(super) governing: Option<String>,
    pub(super) share: Option<f64>,
    pub(super) taper: &'static str,
    pub(super) shares: Vec<SharesAnswer>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct OpeningAnswer {
    pub(super) along: Length,
    pub(super) across: Length,
    pub(super) radius: Length,
    pub(super) stop_hole: Option<Length>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct PlateAnswer {
    material: String,
    thickness: Length,
    along: Length,
    across: Length,
    radius: Length,
    mass: Option<Weight>,
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

#[derive(Clone, Debug, Serialize)]
pub(super) struct SideAnswer {
    pub(super) width: Length,
    pub(super) spread: Length,
    pub(super) needed: Option<u32>,
    pub(super) rows: u8,
    pub(super) per_row: u32,
    pub(super) counted: u32,
}

/// The rows' shares by one formula, the outermost row first.
#[derive(Clone, Debug, Serialize)]
pub(super) struct SharesAnswer {
    pub(super) formula: &'static str,
    pub(super) plain: Vec<RowShareAnswer>,
    pub(super) tapered: Option<Vec<RowShareAnswer>>,
    pub(super) basis: Cited,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct RowShareAnswer {
    pub(super) share: f64,
    pub(super) bearing_bypass: Option<f64>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct SpliceAnswer {
    pub(super) member: &'static str,
    pub(super) shape: &'static str,
    pub(super) material: String,
    pub(super) length: Length,
    pub(super) filler: Option<Length>,
    pub(super) legs: Vec<LegAnswer>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct LegAnswer {
    pub(super) width: Length,
    pub(super) thickness: Length,
    pub(super) area_in2: f64,
    pub(super) plate_width: Length,
    pub(super) plate_thickness: Length,
    pub(super) plate_area_in2: f64,
    pub(super) rivet: Option<String>,
    pub(super) diameter: Length,
    pub(super) rate: Option<RateAnswer>,
    pub(super) bolts: Option<TableCount>,
    pub(super) needed: u32,
    pub(super) lines: u32,
    pub(super) ranks: u32,
    pub(super) pitch: Length,
    pub(super) line_spacing: Option<Length>,
    pub(super) edge: Length,
    pub(super) half: Length,
    pub(super) end_rivet: Option<Length>,
    pub(super) bend: Option<BendAnswer>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct BendAnswer {
    pub(super) radius_least: Length,
    pub(super) radius_most: Length,
    pub(super) setback: Length,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct PanelAnswer {
    pub(super) sides: Vec<PanelSideAnswer>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct PanelSideAnswer {
    pub(super) side: String,
    pub(super) length: Length,
    pub(super) copied: usize,
    pub(super) differ: bool,
    pub(super) rivet: String,
    pub(super) rows: u8,
    pub(super) per_row: u32,
    pub(super) rivets: u32,
    pub(super) pitch: Length,
    pub(super) row_spacing: Length,
    pub(super) staggered: bool,
    pub(super) edge: Length,
    pub(super) first: Length,
    pub(super) factory: Vec<FactoryAnswer>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct FactoryAnswer {
    pub(super) rivet: String,
    pub(super) carries_per_inch: Option<Strength>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct RowsAnswer {
    pub(super) width: Length,
    pub(super) as_asked: Option<TriedAnswer>,
    pub(super) solved: Option<SolvedAnswer>,
    pub(super) strip: Option<StripAnswer>,
    pub(super) layers: Vec<LayersAnswer>,
    pub(super) combined: Option<CombinedAnswer>,
}

/// Rows as asked for or as found.
#[derive(Clone, Debug, Serialize)]
pub(super) struct TriedAnswer {
    pub(super) rivet: String,
    pub(super) rows: u8,
    pub(super) pitch: Length,
    pub(super) edge: Length,
    pub(super) gauge: Option<Length>,
    pub(super) rivets_per_inch: f64,
    pub(super) carries_per_inch: Option<Force>,
    pub(super) governing: Option<String>,
    pub(super) margin: Option<f64>,
    pub(super) share: Option<f64>,
    pub(super) refers: Option<&'static str>,
}

pub(super) fn code(finding: Finding) -> &'static str {
    finding.code().as_str()
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct SolvedAnswer {
    pub(super) unknown: String,
    pub(super) wanted_margin: f64,
    pub(super) found: Option<TriedAnswer>,
    pub(super) beside: Option<TriedAnswer>,
    pub(super) why: String,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct StripAnswer {
    pub(super) counts: Vec<u16>,
    pub(super) gross: Force,
    pub(super) all_rivets: Force,
    pub(super) rivet_efficiency: f64,
    pub(super) shear_efficiency: f64,
    pub(super) bearing_efficiency: f64,
    pub(super) tear_out_efficiency: Option<f64>,
    pub(super) lines: Vec<LineAnswer>,
    pub(super) carries: Force,
    pub(super) governing: String,
    pub(super) efficiency: f64,
    pub(super) margin: Option<f64>,
}

/// The weakest line through one sheet.
#[derive(Clone, Debug, Serialize)]
pub(super) struct LineAnswer {
    pub(super) sheet: u8,
    pub(super) load: Strength,
    pub(super) efficiency: f64,
    pub(super) net_width: Length,
    pub(super) holes: u16,
    pub(super) from_row: u16,
    pub(super) before: Force,
    pub(super) zigzag: bool,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct LayersAnswer {
    pub(super) formula: &'static str,
    pub(super) rows: Vec<LayerRowAnswer>,
    pub(super) peak_row: usize,
    pub(super) peak_plane: usize,
    pub(super) peak: Force,
    pub(super) margin: Option<f64>,
    pub(super) basis: Cited,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct LayerRowAnswer {
    pub(super) planes: Vec<Force>,
    pub(super) bearing: Vec<Force>,
    pub(super) bearing_bypass: Vec<Option<f64>>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct CombinedAnswer {
    pub(super) shear: f64,
    pub(super) tension: Option<f64>,
    pub(super) margin: Option<f64>,
    pub(super) basis: Cited,
}

/// A sheet's material and gauge in one line.
pub(super) fn sheet(material: Material, thickness: core::Length, units: shophead::words::Units) -> String {
    format!("{} {material}", units.length(thickness))
}
