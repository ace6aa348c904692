//! The answer of `shophead joint`.

use serde::Serialize;

use super::{
    Allowable, Basis, BearingKind, Force, GivenLength, Guarantee, Length, LoadKind, Margin, Mode, Nth, RowMode,
    RunningLoad, Stress,
};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The rivet without its length.
    pub(crate) rivet: String,
    /// The diameter that the strengths count.
    pub(crate) diameter_counted: GivenLength<'a>,
    /// Distance from the centre to the nearest edge.
    pub(crate) edge: GivenLength<'a>,
    /// Whether it was given; otherwise it is the least that the practice allows.
    pub(crate) edge_given: bool,
    /// From hole to hole, where it was given.
    pub(crate) pitch: Option<Length>,
    /// One rivet.
    pub(crate) per_rivet: PerRivet<'a>,
    /// The sheet between the holes; null without a pitch.
    pub(crate) net_section: Option<NetSection<'a>>,
    /// The margin under the load; null without one.
    pub(crate) margin: Option<Margin<'a>>,
    /// The weakest document that the figures rest on.
    pub(crate) basis: Basis<'a>,
    /// The strength of the driven rivet that counts; null where none is known.
    pub(crate) driven: Option<Driven<'a>>,
    /// What the strengths of each sheet are.
    pub(crate) sheets: Vec<SheetValues<'a>>,
    /// Yielding.
    pub(crate) r#yield: Yielding<'a>,
    /// Pull along the axis: indications only.
    pub(crate) tension: Tension<'a>,
    /// The force that forms the driven head; null where it is not known.
    pub(crate) squeeze: Option<Squeeze<'a>>,
    /// The rivet in its row; null without a pitch.
    pub(crate) row: Option<Row<'a>>,
}

/// What one rivet carries.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PerRivet<'a> {
    /// What the shank carries.
    pub(crate) shear: Option<Allowable<'a>>,
    /// What a thin sheet leaves of the shear, without unit.
    pub(crate) thin_sheet_factor: Option<f64>,
    /// The recalled cell of the strength handbook for one plane: the shear is never counted higher.
    pub(crate) ceiling: Option<Allowable<'a>>,
    /// Bearing, sheet by sheet.
    pub(crate) bearing: Vec<Bearing<'a>>,
    /// Tear-out, sheet by sheet.
    pub(crate) tear_out: Vec<TearOut<'a>>,
    /// What one rivet carries; null where no document covers the case.
    pub(crate) allowable: Option<Allowable<'a>>,
    /// In proportion to a short edge distance: an indication only.
    pub(crate) indication: Option<Allowable<'a>>,
    /// What fails first.
    pub(crate) governing: Option<Governing<'a>>,
}

/// Bearing of one sheet.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Bearing<'a> {
    /// The layer, counted from the manufactured head.
    pub(crate) sheet: Nth,
    /// Edge distance in diameters.
    pub(crate) edge_margin: Option<f64>,
    /// Its share of the rivet's load, without unit.
    pub(crate) share: f64,
    /// What the figure is: bearing of the sheet, a tested flush joint, or an indication only.
    pub(crate) kind: Option<BearingKind>,
    /// What it carries in the end.
    pub(crate) ultimate: Option<Allowable<'a>>,
    /// What it carries before it yields.
    pub(crate) r#yield: Option<Allowable<'a>>,
}

/// Tear-out of one sheet.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct TearOut<'a> {
    /// The layer, counted from the manufactured head.
    pub(crate) sheet: Nth,
    /// Its share of the rivet's load, without unit.
    pub(crate) share: f64,
    /// What it carries before the rivet tears out to the edge.
    pub(crate) ultimate: Option<Allowable<'a>>,
    /// The same with the relief that some documents allow.
    pub(crate) with_relief: Option<Allowable<'a>>,
}

/// What fails first.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Governing<'a> {
    /// How it fails.
    pub(crate) mode: Mode,
    /// In which layer; null for the shank.
    pub(crate) sheet: Option<Nth>,
    /// At which load.
    pub(crate) load: Allowable<'a>,
}

/// The sheet between the holes.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct NetSection<'a> {
    /// The layer that is weakest between the holes.
    pub(crate) sheet: Nth,
    /// What one pitch of it carries.
    pub(crate) ultimate: Allowable<'a>,
}

/// Yielding.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Yielding<'a> {
    /// What it carries before a sheet yields.
    pub(crate) allowable: Option<Allowable<'a>>,
    /// The margin at limit load.
    pub(crate) margin: Option<Margin<'a>>,
    /// Source of the rule.
    pub(crate) basis: Basis<'a>,
}

/// Pull along the axis.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Tension<'a> {
    /// Pull that takes the manufactured head through its sheet.
    pub(crate) manufactured_head: Option<Force>,
    /// Pull that takes a least driven head through its sheet.
    pub(crate) driven_head: Option<Force>,
    /// The most that the rivet is to be pulled with, a fifth of its shear or less; null where that is not known.
    pub(crate) most: Option<Allowable<'a>>,
    /// Source of the rule.
    pub(crate) basis: Basis<'a>,
}

/// The force that forms the driven head.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Squeeze<'a> {
    /// Diameter of the head that is formed.
    pub(crate) head: Length,
    /// The force that forms it.
    pub(crate) force: Force,
    /// The least that the tests leave open.
    pub(crate) least: Force,
    /// The greatest.
    pub(crate) greatest: Force,
    /// Whether the rivet or the head lies outside the tests.
    pub(crate) outside_tests: bool,
    /// Source of the law.
    pub(crate) basis: Basis<'a>,
}

/// The rivet in its row.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Row<'a> {
    /// How many rows there are, one behind the other.
    pub(crate) rows: Nth,
    /// From hole to hole.
    pub(crate) pitch: Length,
    /// From row to row.
    pub(crate) transverse_pitch: Length,
    /// Rivets on an inch of width, all rows together.
    pub(crate) rivets_per_inch: Option<f64>,
    /// What the rows carry on an inch of width.
    pub(crate) per_inch: Option<RunningLoad<'a>>,
    /// What they carry before a sheet yields.
    pub(crate) yield_per_inch: Option<RunningLoad<'a>>,
    /// What fails first.
    pub(crate) governing: Option<RowGoverning>,
    /// The sheets between the holes.
    pub(crate) net_sections: Vec<RowNetSection<'a>>,
    /// The margin of one pitch under the load of all rows; null without a load.
    pub(crate) margin: Option<Margin<'a>>,
    /// The margin at yield under the limit load of all rows; null without a load, and where a yield is not published.
    pub(crate) yield_margin: Option<Margin<'a>>,
    /// The rivet that carries most, by the greatest of the formulas; null without a load or a second row.
    pub(crate) peak: Option<Peak>,
    /// Buckling between the rivets, sheet by sheet.
    pub(crate) buckling: Vec<Buckling<'a>>,
    /// How the rows share a load; null for a single row.
    pub(crate) sharing: Option<Sharing<'a>>,
}

/// The strength of a driven rivet, and the others of its alloy.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Driven<'a> {
    /// The temper that driving leaves, where it is known.
    pub(crate) temper: Option<&'static str>,
    /// How it is driven; may be empty.
    pub(crate) driven: &'static str,
    /// Its ultimate shear stress.
    pub(crate) fsu: Stress,
    /// Source of the figure.
    pub(crate) basis: Basis<'a>,
    /// Every strength of its alloy; the least counts where none is chosen.
    pub(crate) all: Vec<DrivenShear<'a>>,
}

/// The strength of a driven rivet.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct DrivenShear<'a> {
    /// The temper that driving leaves, where it is known.
    pub(crate) temper: Option<&'static str>,
    /// How it is driven; may be empty.
    pub(crate) driven: &'static str,
    /// Its ultimate shear stress.
    pub(crate) fsu: Stress,
    /// Source of the figure.
    pub(crate) basis: Basis<'a>,
}

/// What the strengths of a sheet are.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SheetValues<'a> {
    /// The layer.
    pub(crate) sheet: Nth,
    /// Its material, where it was given.
    pub(crate) material: Option<String>,
    /// The form as the handbook prints it; null without strengths.
    pub(crate) form: Option<&'static str>,
    /// Whether it is clad.
    pub(crate) clad: Option<bool>,
    /// What the strengths are guaranteed by.
    pub(crate) guarantee: Option<Guarantee>,
    /// Whether its bearing values are for a dry pin; null where the table does not say.
    pub(crate) dry_pin: Option<bool>,
    /// Where the figures stand that the shop entered, which come before the handbook's; null where it entered none.
    pub(crate) entered: Option<Basis<'a>>,
}

/// The rivet that carries most of the rows' load.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Peak {
    /// Its row.
    pub(crate) row: Nth,
    /// What it carries.
    pub(crate) load: Force,
    /// Which load that is.
    pub(crate) load_kind: LoadKind,
}

/// What fails first in a row.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowGoverning {
    /// How it fails.
    pub(crate) mode: RowMode,
    /// In which layer; null for the shank.
    pub(crate) sheet: Option<Nth>,
}

/// One sheet between the holes of a row.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowNetSection<'a> {
    /// The layer.
    pub(crate) sheet: Nth,
    /// What it carries between the holes.
    pub(crate) per_inch: Option<RunningLoad<'a>>,
}

/// One sheet that may buckle between the rivets.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Buckling<'a> {
    /// The layer.
    pub(crate) sheet: Nth,
    /// Coefficient of end fixity, without unit.
    pub(crate) fixity: Option<f64>,
    /// The stress at which the elastic formula lets it buckle.
    pub(crate) elastic: Option<Stress>,
    /// The stress up to which that formula reaches.
    pub(crate) elastic_up_to: Option<Stress>,
    /// The stress at which it buckles: the lesser of both.
    pub(crate) stands: Option<Stress>,
    /// The largest pitch that does not buckle under the compression asked about.
    pub(crate) largest_pitch: Option<Length>,
    /// Source of the formula.
    pub(crate) basis: Option<Basis<'a>>,
}

/// How rows share a load.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Sharing<'a> {
    /// Where the load goes.
    pub(crate) transfer: Transfer,
    /// The load on one pitch of width; null without one.
    pub(crate) strip_load: Option<Force>,
    /// The share of a row if all took the same, without unit.
    pub(crate) equal_share: Option<f64>,
    /// The share of each row, between the formulas used; of a pack in the plane that is sheared most.
    pub(crate) shares: Vec<Share>,
    /// The row that takes most, counted from 1.
    pub(crate) peak_row: Option<Nth>,
    /// The shares by each formula used; empty where the load goes through more than two layers.
    pub(crate) formulas: Vec<SharedBy<'a>>,
    /// The shares plane by plane by each formula used, where the load goes through more than two layers.
    pub(crate) layers: Vec<SharedInPack<'a>>,
    /// Why no shares could be worked out, in a sentence.
    pub(crate) not_shared: Option<String>,
}

/// Where the load goes.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Transfer {
    Lap,
    Doubler,
}

/// The share of one row.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Share {
    /// By the formula that gives it least, without unit.
    pub(crate) least: f64,
    /// By the formula that gives it most, without unit.
    pub(crate) greatest: f64,
}

/// The shares by one formula.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SharedBy<'a> {
    /// The formula for the flexibility of a rivet.
    pub(crate) formula: &'static str,
    /// How far a rivet gives.
    pub(crate) flexibility: Flexibility,
    /// Modulus of the rivet.
    pub(crate) rivet_modulus: Stress,
    /// Whether it was given.
    pub(crate) rivet_modulus_given: bool,
    /// Row by row.
    pub(crate) rows: Vec<RowShare>,
    /// The row that takes most, counted from 1.
    pub(crate) peak_row: Nth,
    /// Stiffness of the one plate over the other, without unit.
    pub(crate) stiffness_ratio: Option<f64>,
    /// The weakest document that the shares rest on.
    pub(crate) basis: Basis<'a>,
    /// Source of the formula.
    pub(crate) formula_basis: Basis<'a>,
}

/// The shares over the layers of a pack by one formula.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct SharedInPack<'a> {
    /// The formula for the flexibility of a rivet.
    pub(crate) formula: &'static str,
    /// Row by row.
    pub(crate) rows: Vec<PackRow>,
    /// The row in which one rivet has most to carry, in a plane or a sheet, counted from 1.
    pub(crate) peak_row: Nth,
    /// The weakest document that the shares rest on.
    pub(crate) basis: Basis<'a>,
}

/// One row through a pack.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PackRow {
    /// What one rivet is sheared by between each two layers, from the manufactured head on.
    pub(crate) planes: Vec<PackShare>,
    /// What one rivet takes out of each layer; negative where it gives.
    pub(crate) bearing: Vec<PackShare>,
    /// Bearing over bypass load of each layer, without unit; null where nothing goes by.
    pub(crate) bearing_bypass: Vec<Option<f64>>,
}

/// A part of the load.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PackShare {
    /// Without unit.
    pub(crate) share: f64,
    /// Its load; null without a load.
    pub(crate) load: Option<Force>,
}

/// How far a rivet gives.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Flexibility {
    /// In inches a pound.
    pub(crate) in_per_lbf: f64,
    /// In millimetres a newton.
    pub(crate) mm_per_n: f64,
}

/// One row by one formula.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct RowShare {
    /// Its share, without unit.
    pub(crate) share: f64,
    /// Its load; null without a load.
    pub(crate) load: Option<Force>,
    /// The plate that the load comes from.
    pub(crate) first_plate: PlateAtRow,
    /// The other plate.
    pub(crate) other_plate: PlateAtRow,
}

/// One plate at one row.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct PlateAtRow {
    /// Load in the plate before the row; null without a load.
    pub(crate) gross: Option<Force>,
    /// Load that goes past the row.
    pub(crate) bypass: Option<Force>,
    /// Load that the row takes out of the plate or puts into it.
    pub(crate) bearing: Option<Force>,
    /// Bearing over gross load, without unit.
    pub(crate) bearing_share: Option<f64>,
    /// Bearing over bypass load, without unit: what fatigue tests of joints are ordered by; null where nothing goes by.
    pub(crate) bearing_bypass: Option<f64>,
}
