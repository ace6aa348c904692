//! What may be typed behind `shophead repair`.

use std::path::PathBuf;

use clap::{ArgGroup, Args, Subcommand};

use crate::args::{FactorArgs, Screen, ShearWord, WorkingArgs};

#[derive(Debug, Args)]
pub(crate) struct RepairArgs {
    #[command(subcommand)]
    pub(crate) what: RepairWhat,
}

#[derive(Debug, Subcommand)]
pub(crate) enum RepairWhat {
    /// A patch or doubler over a hole or a crack.
    ///
    /// Lays out opening, plate, rows and every rivet. Rivets on each side are counted by the table and by computation; the greater count is
    /// laid out.
    Patch(PatchArgs),
    /// A stringer, flange or frame spliced leg by leg.
    ///
    /// Each leg gets a plate of more area than its own, and rivets on each side of the cut for its strength.
    Splice(MemberArgs),
    /// The seams of a panel that is replaced from member to member.
    ///
    /// Reads factory seams from a CSV file with the columns side, length, layers, rivet, pitch, edge and perhaps rows, row_spacing and
    /// staggered. Each side copies its factory seam; where there are several for one side, the strongest.
    Panel(PanelArgs),
    /// Rows for a wanted margin, rows that are not alike, rows through several layers, tension besides.
    ///
    /// With --solve it looks for pitch, rows, diameter, edge or gauge, for the least rivets or for the best share of the sheet, and says why the
    /// next weaker step fails. With --counts 1-3-1 it takes rows of so many rivets each. With --from and --to it shares the load over more than
    /// two layers.
    Rows(RowsArgs),
    /// A bend: least radius and setback.
    ///
    /// Gives the least inside radius of the table and how far from the corner the bend begins.
    Bend(BendArgs),
}

impl RepairWhat {
    pub(crate) fn width(&self) -> Option<u16> {
        match self {
            RepairWhat::Patch(args) => args.out.screen.width,
            RepairWhat::Splice(args) => args.out.screen.width,
            RepairWhat::Panel(args) => args.out.screen.width,
            RepairWhat::Rows(args) => args.screen.width,
            RepairWhat::Bend(args) => args.screen.width,
        }
    }
}

impl RepairWhat {
    /// Whether the steps are to be shown.
    pub(crate) fn working(&self) -> bool {
        match self {
            RepairWhat::Patch(args) => args.out.working.working,
            RepairWhat::Splice(args) => args.out.working.working,
            RepairWhat::Panel(args) => args.out.working.working,
            RepairWhat::Rows(args) => args.working.working,
            RepairWhat::Bend(args) => args.working.working,
        }
    }
}

/// What else is written.
#[derive(Debug, Args)]
pub(crate) struct OutArgs {
    /// Write points.csv, order.csv and repair.svg into this folder too; it has to be there.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Spare rivets in percent of those needed.
    #[arg(long, value_name = "PERCENT", default_value = "0")]
    pub(crate) spares: String,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// Where it is.
#[derive(Debug, Args)]
pub(crate) struct SiteArgs {
    /// Where it is, with commas between: skin, lower-wing, below-water-line, fluid-tight, air-intake, heavily-stressed; and where nothing is sized:
    /// pressurised, fatigue-critical, spar-cap, control, main-fitting, rib, edge, tube, casting.
    #[arg(long, value_name = "WORDS", default_value = "skin")]
    pub(crate) site: String,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("damage").args(["hole", "opening", "crack"]).required(true))]
pub(crate) struct PatchArgs {
    /// The skin: clad 2024-T3:.032.
    #[arg(long, value_name = "MATERIAL:THICKNESS")]
    pub(crate) sheet: String,
    /// A hole or tear to cut out, along the load by across it: 2x1-1/2.
    #[arg(long, value_name = "LxW")]
    pub(crate) hole: Option<String>,
    /// An opening that is trimmed already, along the load by across it.
    #[arg(long, value_name = "LxW")]
    pub(crate) opening: Option<String>,
    /// A crack that stays, stop drilled: its length.
    #[arg(long, value_name = "L")]
    pub(crate) crack: Option<String>,
    /// Radius of the corners of a trimmed opening; otherwise 1/2.
    #[arg(long, value_name = "R", requires = "opening")]
    pub(crate) radius: Option<String>,
    /// How the crack runs to the load: across, along.
    #[arg(long, value_name = "WORD", default_value = "across")]
    pub(crate) runs: String,
    /// The patch: lap (outside), doubler (behind), flush (behind, with a filler).
    #[arg(long, value_name = "WORD", default_value = "lap")]
    pub(crate) style: String,
    /// Which way the skin carries: both, along.
    #[arg(long, value_name = "WORD", default_value = "both")]
    pub(crate) ways: String,
    #[command(flatten)]
    pub(crate) site: SiteArgs,
    /// From the opening to the nearest member or seam.
    #[arg(long, value_name = "D")]
    pub(crate) member: Option<String>,
    /// The patch sheet, where it is not the skin's own gauge or the next: clad 2024-T3:.040.
    #[arg(long, value_name = "MATERIAL:THICKNESS")]
    pub(crate) plate: Option<String>,
    /// The rivet, where it is not the one for the sheet: MS20470AD4.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: Option<String>,
    #[command(flatten)]
    pub(crate) count: CountArgs,
    /// How the rows stand: staggered, in-line.
    #[arg(long, value_name = "WORD", default_value = "staggered")]
    pub(crate) pattern: String,
    /// So many rows on a side; otherwise the fewest that do.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=6))]
    pub(crate) rows: Option<u8>,
    /// Edge distance; otherwise the least that the practice allows.
    #[arg(long, value_name = "E")]
    pub(crate) edge: Option<String>,
    /// From row to row; otherwise the least that keeps rivets of two rows apart.
    #[arg(long, value_name = "R")]
    pub(crate) row_spacing: Option<String>,
    /// The plate thins out at its outermost row: plain, feathered:.016, stepped:.020. The rows' shares tell what that takes off it.
    #[arg(long, value_name = "WORD:THICKNESS", default_value = "plain")]
    pub(crate) taper: String,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

/// Which count.
#[derive(Debug, Args)]
pub(crate) struct CountArgs {
    /// Which count is laid out: greater (of both), table, example (4-10 for clad 2024-T3, as in the circular's example), strength.
    #[arg(long, value_name = "WORD", default_value = "greater")]
    pub(crate) by: String,
}

#[derive(Debug, Args)]
pub(crate) struct MemberArgs {
    /// What is spliced: stringer, upper-stringer (upper wing or fuselage), lower-stringer (lower wing), frame, flange.
    #[arg(value_name = "MEMBER")]
    pub(crate) spliced: String,
    /// Its cross-section: flat, angle, bulb-angle, channel, zee, tee, hat.
    #[arg(long, value_name = "WORD")]
    pub(crate) shape: String,
    /// What it is made of: 2024-T3.
    #[arg(long, value_name = "MATERIAL")]
    pub(crate) material: String,
    /// A leg, width by thickness, in the order of the section, the web in the middle: .6x.040. Behind it skin=.032, plate=.5x.051 and bolts: so
    /// many words with commas.
    #[arg(long = "leg", value_name = "WxT,...", required = true)]
    pub(crate) legs: Vec<String>,
    /// What is cut away between the two ends.
    #[arg(long, value_name = "G")]
    pub(crate) gap: Option<String>,
    /// The rivet, where it is not the one for the leg: MS20470AD4.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: Option<String>,
    /// Diameter of the skin's rivets, for the end rivets of a lower-surface splice: 3/32.
    #[arg(long, value_name = "D")]
    pub(crate) skin_rivet: Option<String>,
    #[command(flatten)]
    pub(crate) site: SiteArgs,
    #[command(flatten)]
    pub(crate) count: CountArgs,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

#[derive(Debug, Args)]
pub(crate) struct PanelArgs {
    /// The factory seams: a CSV file; - for the standard input.
    #[arg(value_name = "SEAMS.csv")]
    pub(crate) seams: PathBuf,
    #[command(flatten)]
    pub(crate) site: SiteArgs,
    /// The new skin, for the order: clad 2024-T3:.032.
    #[arg(long, value_name = "MATERIAL:THICKNESS", requires = "size")]
    pub(crate) skin: Option<String>,
    /// Its size: 14x10.
    #[arg(long, value_name = "LxW", requires = "skin")]
    pub(crate) size: Option<String>,
    /// Holes in what lies under the skin are damaged, enlarged or moved.
    #[arg(long)]
    pub(crate) holes_changed: bool,
    /// Cut-outs, doublers or other load paths run into the edges.
    #[arg(long)]
    pub(crate) load_paths: bool,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("loads").args(["load"]))]
pub(crate) struct RowsArgs {
    /// The rivet: MS20470AD4.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: String,
    /// The sheets with their materials, the manufactured head first: 2024-T3:.032,2024-T3:.040.
    #[arg(long, value_name = "LIST")]
    pub(crate) sheets: String,
    /// The width that carries the load; otherwise an inch.
    #[arg(long, value_name = "W")]
    pub(crate) across: Option<String>,
    /// Load on that width.
    #[arg(long, value_name = "F")]
    pub(crate) load: Option<String>,
    /// Distance from the centre to the nearest edge; otherwise the least that the practice allows.
    #[arg(long, value_name = "E")]
    pub(crate) edge: Option<String>,
    /// Distance from hole to hole; otherwise the least that the practice allows.
    #[arg(long, value_name = "P")]
    pub(crate) pitch: Option<String>,
    /// So many rows.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=12))]
    pub(crate) rows: u8,
    /// From row to row; otherwise the least that the practice allows.
    #[arg(long, value_name = "R")]
    pub(crate) row_spacing: Option<String>,
    /// Each rivet stands against the gap of the next row.
    #[arg(long)]
    pub(crate) staggered: bool,
    /// Planes in which the rivets are sheared.
    #[arg(long, value_enum, default_value_t = ShearWord::Single)]
    pub(crate) shear: ShearWord,
    /// Look for this: pitch, rows, diameter, edge, gauge:1 (the layer), least-rivets, best-share.
    #[arg(long, value_name = "WORD", requires = "load")]
    pub(crate) solve: Option<String>,
    /// The margin that is wanted.
    #[arg(long, value_name = "X", default_value_t = 0.0, requires = "solve")]
    pub(crate) margin: f64,
    /// Rows of so many rivets each across the width, the loaded row of the first sheet first: 1-3-1. A size of its own behind a row: 1-3:5/32-1.
    #[arg(long, value_name = "N-N-N", requires = "across", conflicts_with_all = ["solve", "from_layer"])]
    pub(crate) counts: Option<String>,
    /// The layer that brings the load before the first row, counted from 1.
    #[arg(long = "from", value_name = "N", requires_all = ["to_layer", "load"])]
    pub(crate) from_layer: Option<u8>,
    /// The layer that takes it away behind the last row.
    #[arg(long = "to", value_name = "N", requires = "from_layer")]
    pub(crate) to_layer: Option<u8>,
    /// Modulus of the rivet, for a rivet that is not aluminium: 26msi.
    #[arg(long, value_name = "STRESS", requires = "from_layer")]
    pub(crate) rivet_modulus: Option<String>,
    /// Tension along one rivet besides its share of the load.
    #[arg(long, value_name = "F", requires = "load")]
    pub(crate) tension: Option<String>,
    /// What one rivet carries in tension, tested; without it the tension is referred.
    #[arg(long, value_name = "F", requires = "tension")]
    pub(crate) tension_tested: Option<String>,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
    #[command(flatten)]
    pub(crate) factors: FactorArgs,
    #[command(flatten)]
    pub(crate) given: GivenArgs,
}

/// Strengths in place of those of the tables.
#[derive(Debug, Args)]
#[command(next_help_heading = "Strengths as given, for --counts")]
pub(crate) struct GivenArgs {
    /// Tension of every sheet: 70ksi.
    #[arg(long, value_name = "STRESS", requires = "counts")]
    pub(crate) ftu: Option<String>,
    /// Bearing of every sheet.
    #[arg(long, value_name = "STRESS", requires = "counts")]
    pub(crate) fbru: Option<String>,
    /// Shear of every sheet, for tear-out.
    #[arg(long, value_name = "STRESS", requires = "counts")]
    pub(crate) fsu: Option<String>,
    /// Shear of the rivet.
    #[arg(long, value_name = "STRESS", requires = "counts")]
    pub(crate) rivet_fsu: Option<String>,
    /// Diameter of the holes, for the section between them and for strengths as given; otherwise the nominal hole of the rivet.
    #[arg(long, value_name = "H", requires = "counts")]
    pub(crate) hole: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct BendArgs {
    /// What the sheet is made of, by alloy and temper: 2024-T3.
    #[arg(long, value_name = "MATERIAL")]
    pub(crate) material: String,
    /// How thick it is.
    #[arg(long, value_name = "T")]
    pub(crate) thickness: String,
    /// Inside radius; otherwise the least of the table.
    #[arg(long, value_name = "R")]
    pub(crate) radius: Option<String>,
    /// By how many degrees it is bent: 90 for a right angle, 135 for a closed angle of 45.
    #[arg(long, value_name = "DEGREES", default_value_t = 90.0)]
    pub(crate) angle: f64,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
}
