//! What may be typed.
//!
//! Clap only sorts the words; what each one means is read in [`crate::input`], so that every mistake is told in the words of the trade.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{ArgGroup, Args, CommandFactory, Parser, Subcommand, ValueEnum};
use shophead::basis::Status;
use shophead::joint::strength::Shear;
use shophead::length::Bare;
use shophead::practice::{HANDBOOK, PROCESS, Practice};
use shophead::words::Units;

use crate::exit::STATUSES;
use crate::facts::PlaceArgs;
use crate::repair_args::RepairArgs;
use crate::schema;

/// Rivet lengths, driven heads, holes and joint strength for airframe sheet metal.
///
/// Lengths are inches unless they say mm: .125, 1/8, 1-1/2, 3.2mm. A hole may also be a drill: #30, F. A force is pounds unless it says N:
/// 250, 1100N. With --units mm a number without a unit is millimetres or newtons; a fraction is always inches, and a job file and its CSV
/// files keep to the units that the job names. A list of layers begins on the side of the manufactured head: .032,.040 or
/// 2024-T3:.032,clad 2024-T3:.125; a thickness may carry its tolerance, .032+-.002, and what is special about it: .050:countersunk,
/// .005:sealant.
///
/// What neither the command line nor the job says is taken from the variables SHOPHEAD_PRACTICE, SHOPHEAD_LIMITS and SHOPHEAD_UNITS, then
/// from a file of the keys practice, limits and units that SHOPHEAD_SETTINGS names; the answer says so. They change the limits and the units
/// of the output, never how a number is read.
#[derive(Debug, Parser)]
#[command(name = "shophead", version, max_term_width = 100)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
    #[command(flatten)]
    pub(crate) common: Common,
    /// The options as they were typed, for a sheet that says what was asked.
    #[arg(skip)]
    pub(crate) typed: Vec<(String, String)>,
}

impl Arguments {
    /// What is typed and what help, manual and completions are made of: every command says its exit statuses.
    pub(crate) fn definitions() -> clap::Command {
        let statuses = || STATUSES.map(|(status, meaning)| format!("  {status}  {meaning}")).join("\n");
        let told = |command: clap::Command| command.after_long_help(format!("Exit status:\n{}", statuses()));
        let all = Arguments::command();
        let format = all.get_arguments().find(|arg| arg.get_id() == "format").cloned();
        let in_forms = |command: clap::Command, forms: &[Format]| {
            command.args(format.iter().map(|format| of_forms(format, forms)))
        };
        told(all).mut_subcommands(|command| {
            let forms = Format::of(command.get_name());
            told(in_forms(command, forms)).mut_subcommands(|below| told(in_forms(below, forms)))
        })
    }
}

/// The option with the help of these forms alone. The others are understood: refused in a sentence, or passed over where there is only one.
fn of_forms(format: &clap::Arg, forms: &[Format]) -> clap::Arg {
    let value = |form: &Format| form.to_possible_value().map(|value| value.hide(!forms.contains(form)));
    let values = PossibleValuesParser::new(Format::value_variants().iter().filter_map(value));
    let read = values.try_map(|word: String| Format::from_str(&word, false));
    format.clone().value_parser(read).hide(forms == [Format::Text])
}

#[derive(Debug, Args)]
#[command(next_help_heading = "Every command takes")]
pub(crate) struct Common {
    /// How the answer is printed.
    #[arg(long, global = true, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Units of the text and of CSV columns, and of typed numbers without one; otherwise inches. JSON has both.
    #[arg(long, global = true, value_enum)]
    pub(crate) units: Option<UnitsWord>,
    /// The documents whose limits hold; those of the job file, or the handbooks.
    #[arg(long, global = true, value_enum)]
    pub(crate) practice: Option<PracticeWord>,
    /// The shop's own limits, on top of the practice; otherwise those that the job file names.
    #[arg(long, global = true, value_name = "FILE")]
    pub(crate) limits: Option<PathBuf>,
    /// The file to write the answer to: replaced as a whole where it is there already, and left as it was where something fails; - for the
    /// standard output.
    #[arg(short, long, global = true, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

/// How wide the text is. Not among [`Common`]: `splice` has another width.
#[derive(Debug, Args)]
pub(crate) struct Screen {
    /// Columns of text; those of the terminal, or 80.
    #[arg(long, value_name = "N")]
    pub(crate) width: Option<u16>,
}

/// Whether the steps are shown.
#[derive(Debug, Args)]
pub(crate) struct WorkingArgs {
    /// Show the working: each step with its formula, the figures put in and where they stand. --format html makes a sheet of it to sign.
    #[arg(long)]
    pub(crate) working: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// For people; may change.
    Text,
    /// One object for scripts.
    Json,
    /// A header line and rows for scripts.
    Csv,
    /// A drawing, of a group, of a repair and of rows that share a load.
    Svg,
    /// A workbook for spreadsheets, of an order.
    Xlsx,
    /// A sheet to print and sign, of the working.
    Html,
}

impl Format {
    /// The forms that a command answers in.
    fn of(command: &str) -> &'static [Format] {
        use Format::{Csv, Html, Json, Svg, Text, Xlsx};
        match command {
            "length" | "hole" | "splice" => &[Text, Json, Csv, Html],
            "joint" | "group" | "repair" => &[Text, Json, Csv, Svg, Html],
            "order" => &[Text, Json, Csv, Xlsx],
            "head" | "part" | "plan" | "inspect" | "sources" | "batch" => &[Text, Json, Csv],
            _ => &[Text],
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitsWord {
    /// Inches and pounds.
    In,
    /// Millimetres and newtons.
    Mm,
}

impl UnitsWord {
    pub(crate) const fn words(self) -> Units {
        match self {
            UnitsWord::In => Units::Inches,
            UnitsWord::Mm => Units::Millimetres,
        }
    }

    /// What a number without a unit is.
    pub(crate) const fn bare(self) -> Bare {
        match self {
            UnitsWord::In => Bare::Inches,
            UnitsWord::Mm => Bare::Millimetres,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PracticeWord {
    /// The aviation authority's handbooks.
    Handbook,
    /// The process specification.
    Process,
}

impl PracticeWord {
    pub(crate) fn built_in(self) -> &'static Practice<'static> {
        match self {
            PracticeWord::Handbook => &HANDBOOK,
            PracticeWord::Process => &PROCESS,
        }
    }
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// The rivet length for a pack of layers.
    ///
    /// Chooses the length that fills the hole and leaves a sound head at every end of the tolerances.
    ///
    /// The rule of thumb is shown beside it, with the reason where the two differ. Whatever was assumed is listed.
    Length(LengthArgs),
    /// The size of a driven head, and whether a measured one is sound.
    ///
    /// Gives the limits of a driven head; judges a measured one; predicts one.
    ///
    /// A measured head that is out of round or tipped has two figures, the least and the greatest: .180,.190.
    Head(HeadArgs),
    /// What to do about a hole as it was found.
    ///
    /// Tries from the least change up: keep, clean up, oversize shank, next diameter, refer.
    ///
    /// Every step is checked again for edge distance, pitch, countersink, strength and length, and each one that is refused says why.
    /// What is not given is not checked, and a finding says so.
    Hole(HoleArgs),
    /// What one rivet carries in its sheets.
    ///
    /// Gives shear, bearing and tear-out, what fails first, and under a load the margin.
    Joint(JointArgs),
    /// How a load beside the middle of a group divides over its rivets.
    ///
    /// Reads points from a CSV file with columns x, y and, where sizes are mixed, diameter. Gives the load on every rivet by the elastic
    /// vector method, the worst rivet, and its margin.
    Group(GroupArgs),
    /// How many rivets a splice needs.
    ///
    /// Counts the rivets on each side of a splice, by the published table where there is one and from the strengths.
    Splice(SpliceArgs),
    /// A repair from the damage to a drawing and a parts list.
    ///
    /// Sizes patches, splices and the seams of a new panel by the tables of AC 43.13-1B and by computation: opening, sheet, rows, every
    /// rivet with its length, order, mass. Says what must be asked first, and sizes nothing where no handbook does.
    Repair(RepairArgs),
    /// What a part number says.
    ///
    /// Reads part numbers aloud: series, head, alloy, diameter, length, and what should be said about them.
    Part(PartArgs),
    /// A folder to begin a job in.
    ///
    /// Makes a folder with a job file, rows, holes, stock and driven files to fill in, and a page that says what goes where. --from takes the
    /// rows of a spreadsheet; --ask asks ten questions at the terminal and fills them in.
    New(NewArgs),
    /// The whole job: rows, holes, positions, removal, order.
    ///
    /// Plans a job from its file. The first page says what stops the work and whom to ask, what is not measured or not given, where to work,
    /// what goes into each row and what to buy; --full, --row and --only say the rest. JSON and CSV hold all of it.
    Plan(PlanArgs),
    /// Enter an answer to something that was referred.
    ///
    /// Adds a line to the answers file that the job names: who answered what, under which document, and when. The findings and the measure that
    /// it is given for are those of the plan as it is now; with another measure or another finding it no longer counts.
    Answer(AnswerArgs),
    /// The parts of a job against the shelf.
    ///
    /// Lists the rivets of a job with spares, what is on the shelf, what to buy, what else on the shelf would do, the tools, and what is not
    /// in it and why. --format xlsx makes a workbook of it, --labels a sheet of bag labels.
    Order(OrderArgs),
    /// Measure the holes of a job one after the other.
    ///
    /// Asks for hole after hole, answers at once what becomes of it, and adds each measure to the holes file as a line of its own that is on
    /// the disk before it is called saved. Goes on where it stopped; ? in it says what can be typed.
    ///
    /// Works at a terminal of 40 columns and from a pipe alike.
    Survey(SurveyArgs),
    /// Driven rivets judged against the plan.
    ///
    /// Checks measured driven heads and what was seen on them against the limits for the rivet planned in each hole: accepted and rejected,
    /// with reason and remedy, the state of the whole job, and what to order again.
    Inspect(InspectArgs),
    /// The job as a card to print, work from, fill in and sign.
    ///
    /// Writes one HTML file that needs no other and prints on A4 and Letter: what stops the work, positions, removal, cuts, rows with hole
    /// and head limits, holes that differ, order, tools, map, sign-off.
    ///
    /// The exit status is 1 when something in the job has to be referred; the file is written all the same.
    Card(CardArgs),
    /// The rows and holes of a job as a drawing.
    ///
    /// Writes one SVG file: rows with coordinates to scale, with cuts and damage; the others row under row at their pitch. Shape and letter
    /// of a mark tell what becomes of a hole; the least edge distances are dimensioned.
    ///
    /// The exit status is 1 when something in the job has to be referred; the file is written all the same.
    Map(MapArgs),
    /// The edges of a job at full size, to cut a panel by.
    ///
    /// Writes one HTML file that prints at full size on sheets that are laid over each other: the cut, its stations, the line that they are
    /// measured from, and the holes beside it. Each sheet has its number, those of its neighbours, and two bars to measure before it is used.
    ///
    /// The exit status is 1 when something in the job has to be referred; the file is written all the same.
    Template(TemplateArgs),
    /// One question for every row of a file.
    ///
    /// Reads rows, CSV with a header line or JSON Lines, and writes each one out again with its answer behind it, in the same order. Columns
    /// are named like the options of the single command, with _ for -: shophead batch length reads layers, diameter, series, alloy, hole and
    /// tolerance. An empty cell is an option that is not given; yes means an option without a value. Other columns are carried through.
    ///
    /// The answer has the columns of the single command under --format csv, and error last: what is wrong with a row goes there, and does
    /// not stop the others. Where a column of the input is called like one of the answer, it goes out as NAME_given, or keeps its name where --prefix gives those of the answer another. With --format json a
    /// row comes out as the object of the single command in one line, with the row as input, and error.
    ///
    /// A row of shophead batch group is a group: its points are a list, 0 0; 1 0; 1 .5, or the name of a points file, looked for beside the
    /// file of the rows. Its answer is the rivet that governs; with --format json every rivet.
    ///
    /// The exit status is 2 when a row is wrong, else 1 when a finding says refer, else 0; a reader that leaves early changes nothing about it.
    Batch(BatchArgs),
    /// Questions and answers on a small line terminal.
    ///
    /// Runs the session of a shop instrument on the standard input and output: pick a question, key in the figures, page through the
    /// answer.
    Handheld(HandheldArgs),
    /// Where every built-in figure comes from.
    ///
    /// Lists every limit, table and value that the product carries, with document, place and status.
    Sources(SourcesArgs),
    /// What the JSON of a command may contain.
    ///
    /// Prints the JSON Schema, draft 2020-12, of what a command answers with --format json; without a command, which commands have one.
    Schema(SchemaArgs),
    /// Completions for a shell.
    ///
    /// Prints what makes a shell complete commands, options and words. The shell's own manual says where it is kept.
    Completions(CompletionsArgs),
    /// The manual as pages for man.
    ///
    /// Prints the page of the program or of a command, in the form that man reads; man -l shows it.
    Man(ManArgs),
}

impl Command {
    /// How wide the text is to be.
    pub(crate) fn columns(&self) -> Option<u16> {
        match self {
            Command::Length(args) => args.screen.width,
            Command::Head(args) => args.screen.width,
            Command::Hole(args) => args.screen.width,
            Command::Joint(args) => args.screen.width,
            Command::Group(args) => args.screen.width,
            Command::Splice(args) => args.columns,
            Command::Repair(args) => args.what.width(),
            Command::Part(args) => args.screen.width,
            Command::New(args) => args.screen.width,
            Command::Plan(args) => args.screen.width,
            Command::Answer(args) => args.screen.width,
            Command::Order(args) => args.screen.width,
            Command::Survey(args) => args.screen.width,
            Command::Inspect(args) => args.screen.width,
            Command::Handheld(_) | Command::Card(_) | Command::Map(_) | Command::Template(_) | Command::Batch(_) => {
                None
            }
            Command::Schema(_) | Command::Completions(_) | Command::Man(_) => None,
            Command::Sources(args) => args.screen.width,
        }
    }

    /// Whether the steps are to be shown.
    pub(crate) fn working(&self) -> bool {
        match self {
            Command::Length(args) => args.working.working,
            Command::Hole(args) => args.working.working,
            Command::Joint(args) => args.working.working,
            Command::Group(args) => args.working.working,
            Command::Splice(args) => args.working.working,
            Command::Repair(args) => args.what.working(),
            _ => false,
        }
    }

    /// The job file, where the command takes one.
    pub(crate) fn job(&self) -> Option<&JobFile> {
        match self {
            Command::Plan(args) => Some(&args.file),
            Command::Answer(args) => Some(&args.file),
            Command::Order(args) => Some(&args.file),
            Command::Inspect(args) => Some(&args.file),
            Command::Card(args) => Some(&args.paper.file),
            Command::Map(args) => Some(&args.paper.file),
            Command::Template(args) => Some(&args.paper.file),
            Command::Survey(args) => Some(&args.file),
            _ => None,
        }
    }
}

/// Which rivet, where no part number is given.
#[derive(Clone, Debug, PartialEq, Eq, Args)]
pub(crate) struct RivetArgs {
    /// Shank diameter, a size of the series: 1/8, .125.
    #[arg(long, value_name = "D")]
    pub(crate) diameter: String,
    /// Part standard: MS20470 (universal head), MS20426 (flush head), ...
    #[arg(long, value_name = "S", default_value = "MS20470")]
    pub(crate) series: String,
    /// Rivet alloy, by letters or number: AD, 2117; without it AD, or the first of the series.
    #[arg(long, value_name = "A")]
    pub(crate) alloy: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct LengthArgs {
    /// The layers, the manufactured head first: .032,.040,.125.
    #[arg(long, value_name = "LIST")]
    pub(crate) layers: String,
    #[command(flatten)]
    pub(crate) rivet: RivetArgs,
    /// The hole as measured: #30, .1285, .128+.003-.000; otherwise the practice's.
    #[arg(long, value_name = "H")]
    pub(crate) hole: Option<String>,
    /// Distance from the centre to the nearest edge.
    #[arg(long, value_name = "E")]
    pub(crate) edge: Option<String>,
    /// Distance from hole to hole.
    #[arg(long, value_name = "P")]
    pub(crate) pitch: Option<String>,
    /// Tolerance of every layer that has none of its own: .002.
    #[arg(long, value_name = "T", allow_hyphen_values = true)]
    pub(crate) tolerance: Option<String>,
    #[command(flatten)]
    pub(crate) place: PlaceArgs,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Debug, Args)]
pub(crate) struct HeadArgs {
    #[command(flatten)]
    pub(crate) rivet: RivetArgs,
    /// Diameter of the driven head as measured; out of round: .180,.190.
    #[arg(long, value_name = "X", requires = "measured_height")]
    pub(crate) measured_diameter: Option<String>,
    /// Height of the driven head as measured; tipped: .060,.070.
    #[arg(long, value_name = "Y", requires = "measured_diameter")]
    pub(crate) measured_height: Option<String>,
    #[command(flatten)]
    pub(crate) seen: SeenArgs,
    /// Length of a rivet whose head is predicted.
    #[arg(long, value_name = "L", requires = "grip")]
    pub(crate) length: Option<String>,
    /// Thickness of the pack that it is driven in: .157, .157+-.007.
    #[arg(long, value_name = "G", requires = "length")]
    pub(crate) grip: Option<String>,
    /// The hole that it is driven in; otherwise the practice's.
    #[arg(long, value_name = "H", requires = "length")]
    pub(crate) hole: Option<String>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// What an inspector sees; goes with the measures.
#[derive(Debug, Args)]
#[command(next_help_heading = "Seen on the measured head")]
pub(crate) struct SeenArgs {
    /// So many cracks in the driven head.
    #[arg(long, value_name = "N", requires = "measured_diameter")]
    pub(crate) cracks: Option<u32>,
    /// Diameter of the circle round the centre that the innermost crack reaches.
    #[arg(long, value_name = "X", requires = "cracks")]
    pub(crate) crack_reach: Option<String>,
    /// Two cracks meet.
    #[arg(long, requires = "cracks")]
    pub(crate) cracks_meet: bool,
    /// The manufactured head is cracked.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) head_cracked: bool,
    /// Diameter of the circle round its centre that the innermost crack of the manufactured head reaches.
    #[arg(long, value_name = "X", requires = "head_cracked")]
    pub(crate) head_crack_reach: Option<String>,
    /// A tool mark this deep in the manufactured head.
    #[arg(long, value_name = "DEPTH", requires = "measured_diameter")]
    pub(crate) tool_mark: Option<String>,
    /// A flush head stands proud by this much.
    #[arg(long, value_name = "BY", requires = "measured_diameter")]
    pub(crate) proud: Option<String>,
    /// A flush head lies this much below the surface.
    #[arg(long, value_name = "BY", requires = "measured_diameter")]
    pub(crate) low: Option<String>,
    /// Diameter that shaving has left of a flush head.
    #[arg(long, value_name = "X", requires = "measured_diameter")]
    pub(crate) shaved: Option<String>,
    /// Height that a flat set has left of a protruding manufactured head.
    #[arg(long, value_name = "Y", requires = "measured_diameter")]
    pub(crate) flattened: Option<String>,
    /// A gap under the manufactured head, or one that was not measured.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) gap: bool,
    /// A gap under the manufactured head.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) gap_manufactured: bool,
    /// A gap under the driven head: the thickest feeler that goes in, and the percentage of the rim left when the longest stretch without a gap is
    /// taken off: .002:30.
    #[arg(long, value_name = "FEELER:PERCENT", requires = "measured_diameter", conflicts_with = "gap_feeler")]
    pub(crate) gap_driven: Option<String>,
    /// The feeler of a gap under the driven head, where a batch has it in a cell of its own.
    #[arg(long, value_name = "X", requires = "gap_rim", hide = true)]
    pub(crate) gap_feeler: Option<String>,
    /// The percentage of the rim that belongs to that feeler.
    #[arg(long, value_name = "PERCENT", hide = true, requires = "gap_feeler", requires = "measured_diameter", value_parser = clap::value_parser!(u8).range(..=100))]
    pub(crate) gap_rim: Option<u8>,
    /// The sheets are apart: a feeler reaches the shank.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) sheets_apart: bool,
    /// The thickest feeler that reaches the shank.
    #[arg(long, value_name = "X", requires = "sheets_apart")]
    pub(crate) sheets_apart_feeler: Option<String>,
    /// The sheets are apart at the edge: this feeler goes in there, and none reaches the shank.
    #[arg(long, value_name = "X", requires = "measured_diameter")]
    pub(crate) sheets_apart_edge: Option<String>,
    /// The tail has folded or the shank has buckled.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) buckled: bool,
    /// The driven head is offset, clinched or bent.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) clinched: bool,
    /// The driven head slopes: both its heights decide.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) tipped: bool,
    /// The driven head has a step: both its heights decide.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) stepped: bool,
    /// The rivet moves by hand.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) loose: bool,
    /// The sheet is marked or cut beside the rivet.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) sheet_damaged: bool,
    /// The shank that came out is notched or stepped.
    #[arg(long, requires = "measured_diameter")]
    pub(crate) notched: bool,
}

#[derive(Debug, Args)]
pub(crate) struct HoleArgs {
    /// The rivet that is to go in: MS20470AD4.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: String,
    /// Longest axis of the hole as measured: .141, #30.
    #[arg(long, value_name = "X")]
    pub(crate) major: String,
    /// Shortest axis; the same as the longest for a round hole. Without it the hole counts as measured one way.
    #[arg(long, value_name = "Y")]
    pub(crate) minor: Option<String>,
    /// Which way the longest axis lies: along the nearest edge, or across.
    #[arg(long, value_name = "WORD")]
    pub(crate) direction: Option<String>,
    /// The drill or the size that the hole was opened to before it was measured: #27, .144. It is then no longer as the maker built it.
    #[arg(long, value_name = "DRILL")]
    pub(crate) opened: Option<String>,
    /// Distance from the centre to the nearest edge.
    #[arg(long, value_name = "E")]
    pub(crate) edge: Option<String>,
    /// Distance from hole to hole.
    #[arg(long, value_name = "P")]
    pub(crate) pitch: Option<String>,
    /// The layers, the manufactured head first.
    #[arg(long, value_name = "LIST")]
    pub(crate) layers: Option<String>,
    /// What else is wrong: sound, cracked, corroded, figure-eight, gouged, deep-countersink.
    #[arg(long, value_name = "WORD", default_value = "sound")]
    pub(crate) damage: String,
    /// How many rows the pattern has.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..))]
    pub(crate) rows: u8,
    /// Distance from row to row.
    #[arg(long, value_name = "T")]
    pub(crate) row_spacing: Option<String>,
    #[command(flatten)]
    pub(crate) place: PlaceArgs,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("loads").args(["load", "strip_load"]))]
pub(crate) struct JointArgs {
    /// The rivet: MS20470AD4.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: String,
    /// The sheets with their materials, the manufactured head first: 2024-T3:.032,2024-T3:.040.
    #[arg(long, value_name = "LIST")]
    pub(crate) sheets: String,
    /// Load on one rivet: 250, 1100N.
    #[arg(long, value_name = "F")]
    pub(crate) load: Option<String>,
    /// Distance from the centre to the nearest edge; otherwise the least that the practice allows.
    #[arg(long, value_name = "E")]
    pub(crate) edge: Option<String>,
    /// Distance from hole to hole, for the section between the holes.
    #[arg(long, value_name = "P")]
    pub(crate) pitch: Option<String>,
    /// The hole as it is; otherwise the nominal one.
    #[arg(long, value_name = "H")]
    pub(crate) hole: Option<String>,
    /// Planes in which the rivet is sheared.
    #[arg(long, value_enum, default_value_t = ShearWord::Single)]
    pub(crate) shear: ShearWord,
    /// The temper that driving leaves, where the alloy has a strength for each: T3 or T31 for 2017. Otherwise the least counts.
    #[arg(long, value_name = "TEMPER")]
    pub(crate) driven: Option<String>,
    #[command(flatten)]
    pub(crate) place: PlaceArgs,
    #[command(flatten)]
    pub(crate) factors: FactorArgs,
    #[command(flatten)]
    pub(crate) row: RowArgs,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// Which load it is and what is put on top of it.
#[derive(Debug, Args)]
#[command(next_help_heading = "Load and factors")]
pub(crate) struct FactorArgs {
    /// The load is a limit load: the factor of safety is still to come (this is the default).
    #[arg(long, requires = "loads", conflicts_with = "ultimate_load")]
    pub(crate) limit_load: bool,
    /// The load is an ultimate load: the factor of safety is in it.
    #[arg(long, requires = "loads")]
    pub(crate) ultimate_load: bool,
    /// Factor of safety; otherwise 1.5.
    #[arg(long, value_name = "X", requires = "loads")]
    pub(crate) safety_factor: Option<f64>,
    /// Fitting factor; otherwise 1.15. 1 leaves it out.
    #[arg(long, value_name = "X", requires = "loads")]
    pub(crate) fitting_factor: Option<f64>,
}

/// Rows one behind the other.
pub(crate) const MOST_ROWS: u16 = 64;

/// The rivet in its row, and rows one behind the other.
#[derive(Debug, Args)]
#[command(next_help_heading = "In a row, with --pitch")]
pub(crate) struct RowArgs {
    /// So many rows, one behind the other along the load.
    #[arg(long, value_name = "N", requires = "pitch", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=i64::from(MOST_ROWS)))]
    pub(crate) rows: u16,
    /// From row to row; otherwise the pitch.
    #[arg(long, value_name = "T", requires = "pitch")]
    pub(crate) transverse_pitch: Option<String>,
    /// Stagger the rows: each rivet opposite a gap of the next row; otherwise the rows are in line.
    #[arg(long, requires = "pitch")]
    pub(crate) staggered: bool,
    /// Load on one pitch of width, for all rows together; instead of --load.
    #[arg(long, value_name = "F", requires = "pitch")]
    pub(crate) strip_load: Option<String>,
    /// How much a rivet gives, for load sharing: a published formula, or the envelope of all that are for rivets.
    #[arg(long, value_name = "WORD", default_value = "all")]
    pub(crate) flexibility: String,
    /// Modulus of the rivet: 26msi; otherwise that of an aluminium rivet.
    #[arg(long, value_name = "E")]
    pub(crate) rivet_modulus: Option<String>,
    /// Where the load goes.
    #[arg(long, value_enum, default_value_t = TransferWord::Lap)]
    pub(crate) transfer: TransferWord,
    /// The layer of a pack that brings the load, counted from 1; otherwise the first. For more than two layers in single shear.
    #[arg(long = "from", value_name = "N", requires = "pitch")]
    pub(crate) from_layer: Option<u8>,
    /// The layer of a pack that takes the load away; otherwise the last.
    #[arg(long = "to", value_name = "N", requires = "pitch", conflicts_with = "transfer")]
    pub(crate) to_layer: Option<u8>,
    /// Compression in the sheets along the row, for buckling between the rivets: 10ksi, 70MPa.
    #[arg(long, value_name = "STRESS", requires = "pitch")]
    pub(crate) compression: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum TransferWord {
    /// Out of one sheet into the other.
    Lap,
    /// Along one sheet from end to end; the other lies on it.
    Doubler,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("loads").args(["load"]))]
pub(crate) struct GroupArgs {
    /// The rivets: a CSV file with the columns x and y, and perhaps diameter, hole, edge, left, right, below and above: the distances from
    /// this rivet to the nearest edge, or to those on each side. Or a list of x, y and perhaps the diameter: "0 0; 1 0; 2 0 5/32".
    #[arg(value_name = "POINTS.csv")]
    pub(crate) points: PathBuf,
    /// The load in its two parts: 0,-1500.
    #[arg(long, value_name = "Fx,Fy", allow_hyphen_values = true)]
    pub(crate) load: String,
    /// A point on the line of the load: 4,0.
    #[arg(long, value_name = "X,Y", allow_hyphen_values = true)]
    pub(crate) at: String,
    /// A moment besides, from x to y: 250, in inch-pounds, or 28Nm.
    #[arg(long, value_name = "M", allow_hyphen_values = true)]
    pub(crate) moment: Option<String>,
    /// The rivet: MS20470AD4; a diameter in the file goes before its own.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: String,
    /// The sheets with their materials, the manufactured head first: 2024-T3:.032,2024-T3:.040.
    #[arg(long, value_name = "LIST")]
    pub(crate) sheets: String,
    /// Distance from any centre to the nearest edge; otherwise the least that the practice allows. The file's own goes before it.
    #[arg(long, value_name = "E")]
    pub(crate) edge: Option<String>,
    /// The holes as measured; otherwise as drilled. The file's own goes before it.
    #[arg(long, value_name = "D")]
    pub(crate) hole: Option<String>,
    /// The temper that driving leaves, where the alloy has a strength for each: T3, T31.
    #[arg(long, value_name = "TEMPER")]
    pub(crate) driven: Option<String>,
    /// Planes in which the rivets are sheared.
    #[arg(long, value_enum, default_value_t = ShearWord::Single)]
    pub(crate) shear: ShearWord,
    #[command(flatten)]
    pub(crate) place: PlaceArgs,
    #[command(flatten)]
    pub(crate) factors: FactorArgs,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ShearWord {
    /// One plane, as in a lap joint.
    Single,
    /// Two planes, the middle sheet second.
    Double,
}

impl ShearWord {
    pub(crate) const fn shear(self) -> Shear {
        match self {
            ShearWord::Single => Shear::Single,
            ShearWord::Double => Shear::Double,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct SpliceArgs {
    /// The sheet: clad 2024-T3:.040.
    #[arg(long, value_name = "MATERIAL:THICKNESS")]
    pub(crate) sheet: String,
    /// The width that is spliced.
    #[arg(long, value_name = "W")]
    pub(crate) width: String,
    /// Alloy letters and diameter of a universal head rivet, AD4, or a part number, or AN3 for bolts.
    #[arg(long, value_name = "ALLOY+DIAMETER")]
    pub(crate) rivet: String,
    /// The temper that driving leaves, where the alloy has a strength for each: T3 or T31 for 2017. Otherwise the least counts.
    #[arg(long, value_name = "TEMPER")]
    pub(crate) driven: Option<String>,
    /// Which count to lay out: greater, table, example (the table that the circular's own example takes), strength.
    #[arg(long, value_name = "WORD", default_value = "greater")]
    pub(crate) count: String,
    /// Lay the rivets out in so many equal rows.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..))]
    pub(crate) rows: Option<u16>,
    /// Stagger the rows: each rivet opposite a gap of the next row; otherwise the rows are in line.
    #[arg(long)]
    pub(crate) staggered: bool,
    /// What is spliced; some members need fewer rivets.
    #[arg(long, value_enum, default_value_t = MemberWord::Other)]
    pub(crate) member: MemberWord,
    #[command(flatten)]
    pub(crate) working: WorkingArgs,
    /// Columns of text; those of the terminal, or 80.
    #[arg(long, value_name = "N")]
    pub(crate) columns: Option<u16>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum MemberWord {
    /// Anything else: the whole count.
    Other,
    /// A single-lap sheet joint.
    Lap,
    /// A stringer in the upper surface of a wing or in a fuselage.
    Stringer,
    /// An intermediate frame.
    Frame,
}

#[derive(Debug, Args)]
pub(crate) struct PartArgs {
    /// Part numbers: MS20470AD4-5.
    #[arg(required = true, value_name = "PART")]
    pub(crate) parts: Vec<String>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Debug, Args)]
pub(crate) struct NewArgs {
    /// The folder to make.
    #[arg(value_name = "FOLDER")]
    pub(crate) folder: PathBuf,
    /// The rows, as a spreadsheet writes them: a CSV file with the columns row, layers, installed, count and more.
    #[arg(long, value_name = "ROWS.csv", conflicts_with = "ask")]
    pub(crate) from: Option<PathBuf>,
    /// Ask for a title and for rows, and fill them in.
    #[arg(long)]
    pub(crate) ask: bool,
    /// The title of the job; otherwise the name of the folder.
    #[arg(long, value_name = "TEXT", conflicts_with = "ask")]
    pub(crate) title: Option<String>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// A job.
#[derive(Debug, Args)]
pub(crate) struct JobFile {
    /// The job file; - for the standard input.
    #[arg(value_name = "JOB.toml")]
    pub(crate) job: PathBuf,
    /// Refuse a job that names files outside its own folder: for jobs from others.
    #[arg(long)]
    pub(crate) job_folder_only: bool,
}

#[derive(Debug, Args)]
pub(crate) struct PlanArgs {
    #[command(flatten)]
    pub(crate) file: JobFile,
    /// Everything as text, in the order in which it is needed; without it the first page, which says what stops the work.
    #[arg(long, conflicts_with_all = ["row", "only"])]
    pub(crate) full: bool,
    /// One row as text, with its holes that differ: K1.
    #[arg(long, value_name = "ROW", conflicts_with = "only")]
    pub(crate) row: Option<String>,
    /// One part as text.
    #[arg(long, value_enum, value_name = "PART")]
    pub(crate) only: Option<PlanPart>,
    /// With --format json, JSON Lines: the plan without its holes in one line, then a line for each hole. Holes that are alike share a line, and each
    /// source stands once in a line of its own; the others name both by number. For jobs of many thousand holes; see shophead schema plan-lines.
    #[arg(long, conflicts_with_all = ["full", "row", "only"])]
    pub(crate) lines: bool,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// A part of the plan's text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PlanPart {
    /// What stops the work, why, and what was answered.
    Stops,
    /// What goes into each row, and what it carries.
    Rows,
    /// The holes that differ from their row.
    Holes,
    /// Patterns of several rows, and how many of their holes take a larger rivet.
    Patterns,
    /// Damage beside the holes, and where else to look.
    Damage,
    /// Where each row can be bucked.
    Positions,
    /// The work step by step.
    Work,
    /// Taking the old rivets out.
    Removal,
    /// The edges that the panel is cut to.
    Cuts,
    /// What to order.
    Order,
    /// The figures that were recalled, not read.
    Recalled,
}

#[derive(Debug, Args)]
pub(crate) struct AnswerArgs {
    #[command(flatten)]
    pub(crate) file: JobFile,
    /// The row; for what is in no row its name in the plan: job, "edge aft edge", "damage 2".
    #[arg(long, value_name = "ROW")]
    pub(crate) row: String,
    /// The hole; without it the answer is to the row as a whole.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) hole: Option<u32>,
    /// What is to be done: keep, clean-up, oversize, next-size, rivet, hole, repair, blind.
    #[arg(long, value_name = "WORD")]
    pub(crate) answer: String,
    /// Who answered.
    #[arg(long, value_name = "NAME")]
    pub(crate) by: String,
    /// Under which document.
    #[arg(long, value_name = "TEXT")]
    pub(crate) document: String,
    /// When, 2026-11-25; otherwise today.
    #[arg(long, value_name = "DATE")]
    pub(crate) date: Option<String>,
    /// Only these findings, by their codes; otherwise all that are not answered yet.
    #[arg(long, value_name = "CODES")]
    pub(crate) finding: Option<String>,
    /// The rivet that goes in: MS20470AD5, or with the length MS20470AD5-6.
    #[arg(long, value_name = "PART")]
    pub(crate) rivet: Option<String>,
    /// The drill or reamer that opens the hole: #16.
    #[arg(long, value_name = "DRILL")]
    pub(crate) drill: Option<String>,
    /// What else was said.
    #[arg(long, value_name = "TEXT")]
    pub(crate) note: Option<String>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// What is ordered against what.
#[derive(Debug, Args)]
pub(crate) struct ShelfArgs {
    /// What is on the shelf: a CSV file with the columns part, on_hand and pack; an export of the whole shelf is fine.
    #[arg(long, value_name = "STOCK.csv")]
    pub(crate) stock: Option<PathBuf>,
    /// What its columns are called: part=Part Number,on_hand=Qty On Hand,pack=Std Pack.
    #[arg(long, value_name = "NAMES", requires = "stock")]
    pub(crate) columns: Option<String>,
    /// Spare rivets in percent of those needed; otherwise as the job file says.
    #[arg(long, value_name = "PERCENT")]
    pub(crate) spares: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct LookedAtArgs {
    /// The driven rivets, as inspect reads them: a rejected one that comes out needs a new one.
    #[arg(long, value_name = "DRIVEN.csv")]
    pub(crate) driven: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(crate) struct OrderArgs {
    #[command(flatten)]
    pub(crate) file: JobFile,
    #[command(flatten)]
    pub(crate) shelf: ShelfArgs,
    #[command(flatten)]
    pub(crate) looked_at: LookedAtArgs,
    /// The date of the order, 2026-11-25; otherwise today.
    #[arg(long, value_name = "DATE")]
    pub(crate) date: Option<String>,
    /// Write a sheet of bag labels as well: an HTML file to print, with part, row, holes and a QR code.
    #[arg(long, value_name = "LABELS.html")]
    pub(crate) labels: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

/// A job, and the file that it is drawn in.
#[derive(Debug, Args)]
pub(crate) struct PaperArgs {
    #[command(flatten)]
    pub(crate) file: JobFile,
    /// The file to write: replaced as a whole where it is there already, and left as it was where something fails; - for the standard
    /// output.
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: PathBuf,
}

#[derive(Debug, Args)]
pub(crate) struct CardArgs {
    #[command(flatten)]
    pub(crate) paper: PaperArgs,
    #[command(flatten)]
    pub(crate) shelf: ShelfArgs,
    #[command(flatten)]
    pub(crate) looked_at: LookedAtArgs,
}

#[derive(Debug, Args)]
pub(crate) struct MapArgs {
    #[command(flatten)]
    pub(crate) paper: PaperArgs,
}

#[derive(Debug, Args)]
pub(crate) struct TemplateArgs {
    #[command(flatten)]
    pub(crate) paper: PaperArgs,
    /// Only this edge; otherwise all of the job.
    #[arg(long, value_name = "NAME")]
    pub(crate) edge: Option<String>,
    /// The paper in the printer; otherwise letter with inches, a4 with millimetres.
    #[arg(long = "paper", value_name = "PAPER")]
    pub(crate) sheet: Option<PaperSize>,
}

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperSize {
    /// 297 by 210 mm.
    A4,
    /// 11 by 8-1/2 in.
    Letter,
}

#[derive(Debug, Args)]
pub(crate) struct SurveyArgs {
    #[command(flatten)]
    pub(crate) file: JobFile,
    /// The holes file that the measures go to; it is made when it is not there.
    #[arg(value_name = "HOLES.csv")]
    pub(crate) holes: PathBuf,
    /// Who measures: written with each measure.
    #[arg(long, value_name = "NAME")]
    pub(crate) by: Option<String>,
    /// The gauge, by its number: written with each measure.
    #[arg(long, value_name = "NUMBER")]
    pub(crate) gauge: Option<String>,
    /// When, 2026-11-25; otherwise today.
    #[arg(long, value_name = "DATE")]
    pub(crate) date: Option<String>,
    /// A conversation has no answer to write.
    #[arg(short, long, hide = true)]
    pub(crate) output: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Debug, Args)]
pub(crate) struct InspectArgs {
    #[command(flatten)]
    pub(crate) file: JobFile,
    /// The driven rivets: a CSV file with the columns row, hole, diameter, height, condition and remark.
    #[arg(value_name = "DRIVEN.csv")]
    pub(crate) driven: PathBuf,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Debug, Args)]
pub(crate) struct BatchArgs {
    /// What is asked of every row.
    #[arg(value_enum)]
    pub(crate) question: QuestionWord,
    /// The rows; without it, or with -, those of the standard input.
    #[arg(value_name = "FILE.csv")]
    pub(crate) file: Option<PathBuf>,
    /// The form of the input; otherwise json where the file's name ends in .jsonl or .ndjson, else csv.
    #[arg(long, value_enum, value_name = "FORM")]
    pub(crate) from: Option<FromWord>,
    /// The names of the columns, where the input has no header line: a part of a longer file. None is written then.
    #[arg(long, value_name = "COLUMNS")]
    pub(crate) header: Option<String>,
    /// Put in front of every column of the answer, so that all columns of the input keep their names: `new_`.
    #[arg(long, value_name = "TEXT")]
    pub(crate) prefix: Option<String>,
    /// Threads that answer; otherwise one a processor.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..))]
    pub(crate) threads: Option<u8>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum QuestionWord {
    /// As shophead length.
    Length,
    /// As shophead head.
    Head,
    /// As shophead hole.
    Hole,
    /// As shophead joint.
    Joint,
    /// As shophead group: a row is a group, answered by its worst rivet.
    Group,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FromWord {
    /// A header line and rows.
    Csv,
    /// One object a line.
    Json,
}

#[derive(Debug, Args)]
pub(crate) struct HandheldArgs {
    /// Columns of the terminal, 16 to 40.
    #[arg(long, value_name = "N", default_value_t = 20)]
    pub(crate) columns: u8,
    /// Lines of the terminal, 2 to 8.
    #[arg(long, value_name = "N", default_value_t = 4)]
    pub(crate) lines: u8,
    /// A conversation has no answer to write.
    #[arg(short, long, hide = true)]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(crate) struct SourcesArgs {
    /// What is promised instead, with the test that shows it and what the figures leave out.
    #[arg(long)]
    pub(crate) promises: bool,
    /// Only those of this status.
    #[arg(long, value_enum)]
    pub(crate) status: Option<StatusWord>,
    #[command(flatten)]
    pub(crate) screen: Screen,
}

#[derive(Debug, Args)]
pub(crate) struct SchemaArgs {
    /// The command; without it, which there are.
    #[arg(value_name = "COMMAND", value_parser = PossibleValuesParser::new(schema::names()))]
    pub(crate) command: Option<String>,
    /// Write into this folder instead, without a command those of all.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(crate) struct CompletionsArgs {
    /// The shell.
    #[arg(value_name = "SHELL", value_enum)]
    pub(crate) shell: clap_complete::Shell,
}

#[derive(Debug, Args)]
pub(crate) struct ManArgs {
    /// The command; without it, the program.
    #[arg(value_name = "COMMAND")]
    pub(crate) command: Option<String>,
    /// Write into this folder instead, without a command the pages of all.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum StatusWord {
    /// Recalled, not read: check before relying on it.
    Memory,
    /// Read in the document named.
    Published,
    /// A rule of thumb of the trade.
    Practice,
    /// From the shop's own documents.
    Shop,
}

impl StatusWord {
    pub(crate) const fn status(self) -> Status {
        match self {
            StatusWord::Memory => Status::Memory,
            StatusWord::Published => Status::Published,
            StatusWord::Practice => Status::Practice,
            StatusWord::Shop => Status::Shop,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_definitions_hold_together_and_every_option_has_help() {
        Arguments::definitions().help_expected(true).debug_assert();
    }

    #[test]
    fn every_built_in_practice_can_be_picked_by_its_name() {
        let picked: Vec<_> = PracticeWord::value_variants().iter().map(|word| word.built_in().name()).collect();
        let known: Vec<_> = shophead::practice::BUILT_IN.iter().map(|practice| practice.name()).collect();
        assert_eq!(picked, known);
        for word in PracticeWord::value_variants() {
            assert_eq!(word.to_possible_value().unwrap().get_name(), word.built_in().name());
        }
    }

    #[test]
    fn every_status_is_written_as_in_the_output() {
        for word in StatusWord::value_variants() {
            assert_eq!(word.to_possible_value().unwrap().get_name(), word.status().as_str());
        }
    }
}
