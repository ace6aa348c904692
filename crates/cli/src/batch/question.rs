//! What can be asked of every row: the columns of each command, and how a cell becomes an option of it.
//!
//! A column is named like the option, with `_` for `-`. An empty cell is an option that was not given.

use std::path::PathBuf;
use std::str::FromStr;

use clap::{Args, ValueEnum};
use shophead::practice::Case;

use crate::args::{GroupArgs, HeadArgs, HoleArgs, JointArgs, LengthArgs, QuestionWord};
use crate::cells::{self, Codes};
use crate::commands;
use crate::context::Context;
use crate::exit::Stop;
use crate::files::is_standard;
use crate::input;
use crate::report::Report;

use super::answer::AnswerCells;

/// A column that a command reads.
#[derive(Clone, Copy, Debug)]
pub(super) struct Column {
    pub(super) name: &'static str,
    /// What would be right, where it cannot be left empty.
    pub(super) needed: Option<&'static str>,
    /// Given only together with one of these.
    with: &'static [&'static str],
    /// Never given together with one of these.
    without: &'static [&'static str],
}

/// A column and the option that it fills.
struct Field<A> {
    column: Column,
    /// Whether the option counts as given then; a sentence where the cell does not say what would be right.
    set: fn(&mut A, &str) -> Result<bool, String>,
    clear: fn(&mut A, &A),
}

impl<A> Field<A> {
    const fn needed(mut self, right: &'static str) -> Field<A> {
        self.column.needed = Some(right);
        self
    }

    const fn with(mut self, others: &'static [&'static str]) -> Field<A> {
        self.column.with = others;
        self
    }

    const fn without(mut self, others: &'static [&'static str]) -> Field<A> {
        self.column.without = others;
        self
    }
}

/// The column of a name, the field that it fills, and how its text is read.
macro_rules! field {
    ($args:ty, $name:literal, $read:path, $($field:ident).+) => {
        Field {
            column: Column { name: $name, needed: None, with: &[], without: &[] },
            set: |args: &mut $args, text| $read(&mut args.$($field).+, text),
            clear: |args: &mut $args, blank: &$args| args.$($field).+.clone_from(&blank.$($field).+),
        }
    };
}

/// The fields of a command whose row is some place of the structure: what stands before and behind those of the place.
macro_rules! with_place {
    ($args:ty, [$($before:expr,)*], [$($behind:expr,)*]) => {
        &[
            $($before,)*
            field!($args, "structure", option, place.structure),
            field!($args, "member", option, place.member),
            field!($args, "installed", option, place.installed),
            field!($args, "installed_layers", option, place.installed_layers).with(&["installed"]),
            $($behind,)*
        ]
    };
}

fn text(field: &mut String, text: &str) -> Result<bool, String> {
    field.clear();
    field.push_str(text);
    Ok(true)
}

fn option(field: &mut Option<String>, given: &str) -> Result<bool, String> {
    text(field.get_or_insert_default(), given)
}

/// A list of points, or a file.
fn points(field: &mut PathBuf, text: &str) -> Result<bool, String> {
    if is_standard(text.as_ref()) {
        return Err(format!("the standard input is no file of a row; right would be {POINTS}"));
    }
    let path = field.as_mut_os_string();
    path.clear();
    path.push(text);
    Ok(true)
}

fn flag(field: &mut bool, text: &str) -> Result<bool, String> {
    *field = match text {
        _ if ["yes", "true"].iter().any(|yes| text.eq_ignore_ascii_case(yes)) => true,
        _ if ["no", "false"].iter().any(|no| text.eq_ignore_ascii_case(no)) => false,
        _ => return Err("this is neither yes nor no; right would be yes".to_owned()),
    };
    Ok(*field)
}

fn number<T: FromStr>(field: &mut T, text: &str) -> Result<bool, String> {
    *field = text.parse().map_err(|_| "this is not a number that fits here; right would be 2".to_owned())?;
    Ok(true)
}

fn optional_number<T: FromStr + Default>(field: &mut Option<T>, text: &str) -> Result<bool, String> {
    number(field.get_or_insert_default(), text)
}

/// From none to all, as the command line takes it.
fn percent(field: &mut Option<u8>, text: &str) -> Result<bool, String> {
    let read = text.parse().ok().filter(|percent| *percent <= 100);
    *field = Some(read.ok_or("this is not a whole number from 0 to 100; right would be 30")?);
    Ok(true)
}

/// From one up to the most that the command line takes.
fn rows<T: FromStr + Copy + Into<u16>>(field: &mut T, text: &str, most: u16) -> Result<bool, String> {
    let read = text.parse().ok().filter(|rows: &T| (1..=most).contains(&(*rows).into()));
    *field = read.ok_or_else(|| format!("this is not a whole number from 1 to {most}; right would be 2"))?;
    Ok(true)
}

/// A layer by its number.
fn layer(field: &mut Option<u8>, text: &str) -> Result<bool, String> {
    *field = Some(text.parse().map_err(|_| "a layer is a number, counted from 1; right would be 1".to_owned())?);
    Ok(true)
}

fn pattern_rows(field: &mut u8, text: &str) -> Result<bool, String> {
    rows(field, text, u8::MAX.into())
}

fn joint_rows(field: &mut u16, text: &str) -> Result<bool, String> {
    rows(field, text, crate::args::MOST_ROWS)
}

fn word<T: ValueEnum>(field: &mut T, text: &str) -> Result<bool, String> {
    *field = T::from_str(text, false).map_err(|_| {
        let words = T::value_variants().iter().filter_map(ValueEnum::to_possible_value);
        let words: Vec<String> = words.map(|word| word.get_name().to_owned()).collect();
        format!("this word is not known here; right would be {}", words.join(" or "))
    })?;
    Ok(true)
}

const LAYERS: &str = ".032,.040,.125";
const SHEETS: &str = "2024-T3:.032,2024-T3:.040";
const PART: &str = "MS20470AD4";
const POINTS: &str = "0 0; 1 0; 1 .5";

const LENGTH: &[Field<LengthArgs>] = with_place!(
    LengthArgs,
    [
        field!(LengthArgs, "layers", text, layers).needed(LAYERS),
        field!(LengthArgs, "diameter", text, rivet.diameter).needed("1/8"),
        field!(LengthArgs, "series", text, rivet.series),
        field!(LengthArgs, "alloy", option, rivet.alloy),
        field!(LengthArgs, "hole", option, hole),
        field!(LengthArgs, "edge", option, edge),
        field!(LengthArgs, "pitch", option, pitch),
        field!(LengthArgs, "tolerance", option, tolerance),
    ],
    []
);

const MEASURED: &[&str] = &["measured_diameter"];

const HEAD: &[Field<HeadArgs>] = &[
    field!(HeadArgs, "diameter", text, rivet.diameter).needed("1/8"),
    field!(HeadArgs, "series", text, rivet.series),
    field!(HeadArgs, "alloy", option, rivet.alloy),
    field!(HeadArgs, "measured_diameter", option, measured_diameter).with(&["measured_height"]),
    field!(HeadArgs, "measured_height", option, measured_height).with(MEASURED),
    field!(HeadArgs, "cracks", optional_number, seen.cracks).with(MEASURED),
    field!(HeadArgs, "crack_reach", option, seen.crack_reach).with(&["cracks"]),
    field!(HeadArgs, "cracks_meet", flag, seen.cracks_meet).with(&["cracks"]),
    field!(HeadArgs, "head_cracked", flag, seen.head_cracked).with(MEASURED),
    field!(HeadArgs, "head_crack_reach", option, seen.head_crack_reach).with(&["head_cracked"]),
    field!(HeadArgs, "tool_mark", option, seen.tool_mark).with(MEASURED),
    field!(HeadArgs, "proud", option, seen.proud).with(MEASURED),
    field!(HeadArgs, "low", option, seen.low).with(MEASURED),
    field!(HeadArgs, "shaved", option, seen.shaved).with(MEASURED),
    field!(HeadArgs, "flattened", option, seen.flattened).with(MEASURED),
    field!(HeadArgs, "gap", flag, seen.gap).with(MEASURED),
    field!(HeadArgs, "gap_manufactured", flag, seen.gap_manufactured).with(MEASURED),
    field!(HeadArgs, "gap_driven", option, seen.gap_driven).with(MEASURED),
    field!(HeadArgs, "gap_feeler", option, seen.gap_feeler).with(&["gap_rim"]),
    field!(HeadArgs, "gap_rim", percent, seen.gap_rim).with(&["gap_feeler", "measured_diameter"]),
    field!(HeadArgs, "sheets_apart", flag, seen.sheets_apart).with(MEASURED),
    field!(HeadArgs, "sheets_apart_feeler", option, seen.sheets_apart_feeler).with(&["sheets_apart"]),
    field!(HeadArgs, "sheets_apart_edge", option, seen.sheets_apart_edge).with(MEASURED),
    field!(HeadArgs, "buckled", flag, seen.buckled).with(MEASURED),
    field!(HeadArgs, "clinched", flag, seen.clinched).with(MEASURED),
    field!(HeadArgs, "tipped", flag, seen.tipped).with(MEASURED),
    field!(HeadArgs, "stepped", flag, seen.stepped).with(MEASURED),
    field!(HeadArgs, "loose", flag, seen.loose).with(MEASURED),
    field!(HeadArgs, "sheet_damaged", flag, seen.sheet_damaged).with(MEASURED),
    field!(HeadArgs, "notched", flag, seen.notched).with(MEASURED),
    field!(HeadArgs, "length", option, length).with(&["grip"]),
    field!(HeadArgs, "grip", option, grip).with(&["length"]),
    field!(HeadArgs, "hole", option, hole).with(&["length"]),
];

const HOLE: &[Field<HoleArgs>] = with_place!(
    HoleArgs,
    [
        field!(HoleArgs, "rivet", text, rivet).needed(PART),
        field!(HoleArgs, "major", text, major).needed(".141"),
        field!(HoleArgs, "minor", option, minor),
        field!(HoleArgs, "direction", option, direction),
        field!(HoleArgs, "opened", option, opened),
        field!(HoleArgs, "edge", option, edge),
        field!(HoleArgs, "pitch", option, pitch),
        field!(HoleArgs, "layers", option, layers),
        field!(HoleArgs, "damage", text, damage),
        field!(HoleArgs, "rows", pattern_rows, rows),
        field!(HoleArgs, "row_spacing", option, row_spacing),
    ],
    []
);

const LOADS: &[&str] = &["load", "strip_load"];

const JOINT: &[Field<JointArgs>] = with_place!(
    JointArgs,
    [
        field!(JointArgs, "rivet", text, rivet).needed(PART),
        field!(JointArgs, "sheets", text, sheets).needed(SHEETS),
        field!(JointArgs, "load", option, load).without(&["strip_load"]),
        field!(JointArgs, "edge", option, edge),
        field!(JointArgs, "pitch", option, pitch),
        field!(JointArgs, "hole", option, hole),
        field!(JointArgs, "shear", word, shear),
        field!(JointArgs, "driven", option, driven),
    ],
    [
        field!(JointArgs, "limit_load", flag, factors.limit_load).with(LOADS).without(&["ultimate_load"]),
        field!(JointArgs, "ultimate_load", flag, factors.ultimate_load).with(LOADS),
        field!(JointArgs, "safety_factor", optional_number, factors.safety_factor).with(LOADS),
        field!(JointArgs, "fitting_factor", optional_number, factors.fitting_factor).with(LOADS),
        field!(JointArgs, "rows", joint_rows, row.rows).with(&["pitch"]),
        field!(JointArgs, "transverse_pitch", option, row.transverse_pitch).with(&["pitch"]),
        field!(JointArgs, "staggered", flag, row.staggered).with(&["pitch"]),
        field!(JointArgs, "strip_load", option, row.strip_load).with(&["pitch"]),
        field!(JointArgs, "flexibility", text, row.flexibility),
        field!(JointArgs, "rivet_modulus", option, row.rivet_modulus),
        field!(JointArgs, "transfer", word, row.transfer),
        field!(JointArgs, "from", layer, row.from_layer).with(&["pitch"]),
        field!(JointArgs, "to", layer, row.to_layer).with(&["pitch"]).without(&["transfer"]),
        field!(JointArgs, "compression", option, row.compression).with(&["pitch"]),
    ]
);

const GROUP: &[Field<GroupArgs>] = with_place!(
    GroupArgs,
    [
        field!(GroupArgs, "points", points, points).needed(POINTS),
        field!(GroupArgs, "load", text, load).needed("0,-1500"),
        field!(GroupArgs, "at", text, at).needed("4,0"),
        field!(GroupArgs, "rivet", text, rivet).needed(PART),
        field!(GroupArgs, "sheets", text, sheets).needed(SHEETS),
        field!(GroupArgs, "moment", option, moment),
        field!(GroupArgs, "edge", option, edge),
        field!(GroupArgs, "hole", option, hole),
        field!(GroupArgs, "driven", option, driven),
        field!(GroupArgs, "shear", word, shear),
    ],
    [
        field!(GroupArgs, "limit_load", flag, factors.limit_load).without(&["ultimate_load"]),
        field!(GroupArgs, "ultimate_load", flag, factors.ultimate_load),
        field!(GroupArgs, "safety_factor", optional_number, factors.safety_factor),
        field!(GroupArgs, "fitting_factor", optional_number, factors.fitting_factor),
    ]
);

/// A command, asked row after row.
pub(super) trait Asking {
    /// Its name.
    fn command(&self) -> &'static str;
    /// The columns that it reads.
    fn columns(&self) -> Vec<Column>;
    /// Takes a cell for a column, by the column's number; an empty one for what is not given. Says whether something is given now.
    fn set(&mut self, column: usize, text: &str) -> Result<bool, String>;
    /// Answers in the cells of a row.
    fn row<'a>(&self, context: &Context<'a>, to: &mut RowTo<'_, '_>) -> Result<(), Stop>;
    /// Answers in full; new cases as those of [`RowTo`].
    fn report<'a>(&self, context: &Context<'a>, new: &mut Vec<Case>) -> Result<Report<'a>, Stop>;
    /// What the cells of an answer are called.
    fn answer_columns(&self, context: &Context<'_>) -> Result<Vec<String>, Stop>;
}

/// Answers in the cells of a row.
type RowOf<A> = for<'a> fn(&A, &Context<'a>, &mut RowTo<'_, '_>) -> Result<(), Stop>;

/// Where a row's answer goes.
pub(super) struct RowTo<'t, 'o> {
    pub(super) cells: &'t mut AnswerCells<'o>,
    pub(super) codes: &'t mut Codes,
    /// Cases whose limits were not looked up ahead.
    pub(super) new: &'t mut Vec<Case>,
}

/// Answers in full.
type ReportOf<A> = for<'a> fn(&A, &Context<'a>, &mut Vec<Case>) -> Result<Report<'a>, Stop>;

/// What the cells of an answer are called.
type ColumnsOf<A> = for<'a> fn(&A, &Context<'a>) -> Result<Vec<String>, Stop>;

struct Asked<A: 'static> {
    command: &'static str,
    fields: &'static [Field<A>],
    args: A,
    /// What the command line leaves where an option is not given.
    blank: A,
    row: RowOf<A>,
    report: ReportOf<A>,
    columns: ColumnsOf<A>,
}

impl<A> Asking for Asked<A> {
    fn command(&self) -> &'static str {
        self.command
    }

    fn columns(&self) -> Vec<Column> {
        self.fields.iter().map(|field| field.column).collect()
    }

    fn set(&mut self, column: usize, text: &str) -> Result<bool, String> {
        let Some(field) = self.fields.get(column) else { return Ok(false) };
        if !text.is_empty() {
            let told = |what| match input::wrong(field.column.name, text, what) {
                Stop::Wrong(sentences) => sentences.join(" "),
                _ => String::new(),
            };
            return (field.set)(&mut self.args, text).map_err(told);
        }
        match field.column.needed {
            Some(right) => Err(format!("{}: this is not given; right would be {right}", field.column.name)),
            None => {
                (field.clear)(&mut self.args, &self.blank);
                Ok(false)
            }
        }
    }

    fn row<'a>(&self, context: &Context<'a>, to: &mut RowTo<'_, '_>) -> Result<(), Stop> {
        (self.row)(&self.args, context, to)
    }

    fn report<'a>(&self, context: &Context<'a>, new: &mut Vec<Case>) -> Result<Report<'a>, Stop> {
        (self.report)(&self.args, context, new)
    }

    fn answer_columns(&self, context: &Context<'_>) -> Result<Vec<String>, Stop> {
        (self.columns)(&self.args, context)
    }
}

/// A command with arguments that it can answer, as a person would type them. Only its own options are put together for it: those of every
/// command take as long as hundreds of rows.
fn example<A: Args>(typed: &str) -> A {
    let matches = A::augment_args(clap::Command::new("shophead")).try_get_matches_from(typed.split_whitespace());
    let parsed = matches.and_then(|matches| A::from_arg_matches(&matches));
    // A test asks every one of them.
    parsed.unwrap_or_else(|error| unreachable!("shophead {typed}: {error}"))
}

macro_rules! asked {
    ($args:ident, $fields:ident, $commands:ident, $typed:literal) => {{
        let example = || example::<$args>($typed);
        Box::new(Asked {
            command: stringify!($commands),
            fields: $fields,
            args: example(),
            blank: example(),
            row: |args, context, to| {
                cells::row::<commands::$commands::Answer>(args, context, to.cells, to.codes, to.new)
            },
            report: |args, context, new| cells::report_of::<commands::$commands::Answer>(args, context, new),
            columns: |args, context| cells::columns::<commands::$commands::Answer>(args, context),
        })
    }};
}

/// The command that is meant. Until a cell is set it asks an example of its own, which it answers under the handbook.
pub(super) fn asking(word: QuestionWord) -> Box<dyn Asking> {
    match word {
        QuestionWord::Length => {
            asked!(LengthArgs, LENGTH, length, "length --layers .032,.040 --diameter 1/8")
        }
        QuestionWord::Head => asked!(HeadArgs, HEAD, head, "head --diameter 1/8"),
        QuestionWord::Hole => asked!(HoleArgs, HOLE, hole, "hole --rivet MS20470AD4 --major .141"),
        QuestionWord::Joint => {
            asked!(JointArgs, JOINT, joint, "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040")
        }
        QuestionWord::Group => {
            asked!(
                GroupArgs,
                GROUP,
                group,
                "group 0,0;1in,0 --load 0,-100 --at 0,0 --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040"
            )
        }
    }
}

/// Which columns of a row are given, one bit each.
pub(super) type Filled = u64;

/// Which columns go together and which do not.
#[derive(Debug)]
pub(super) struct Rules {
    columns: Vec<Column>,
    /// For every column with a rule: its number, those of which one must be given too, those of which none may.
    rules: Vec<(usize, Filled, Filled)>,
    /// The columns with a rule.
    ruled: Filled,
}

impl Rules {
    pub(super) fn of(columns: Vec<Column>) -> Rules {
        let bit = |name: &&str| columns.iter().position(|column| column.name == *name).map_or(0, |at| 1 << at);
        let bits = |names: &[&str]| names.iter().map(bit).fold(0, |all, bit: Filled| all | bit);
        let rules =
            columns.iter().enumerate().filter(|(_, column)| !(column.with.is_empty() && column.without.is_empty()));
        let rules: Vec<_> = rules.map(|(at, column)| (at, bits(column.with), bits(column.without))).collect();
        let ruled = rules.iter().fold(0, |all, (at, ..)| all | 1 << at);
        Rules { columns, rules, ruled }
    }

    pub(super) fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Whether what is given goes together.
    pub(super) fn check(&self, filled: Filled) -> Result<(), String> {
        // The rules rise with their columns.
        let mut left = filled & self.ruled;
        let mut rules = self.rules.iter();
        while left != 0 {
            let first = left.trailing_zeros() as usize;
            left &= left - 1;
            let Some((at, with, without)) = rules.find(|(at, ..)| *at == first) else { break };
            let Some(column) = self.columns.get(*at).filter(|_| filled & (1 << at) != 0) else { continue };
            if *with != 0 && filled & with == 0 {
                return Err(format!("{}: this is of use only with {}", column.name, column.with.join(" or ")));
            }
            if filled & without != 0 {
                return Err(format!("{}: this does not go together with {}", column.name, column.without.join(" or ")));
            }
        }
        Ok(())
    }

    /// The number of the column with this name.
    pub(super) fn place(&self, name: &str) -> Option<usize> {
        let is_it = |known: &str| {
            let plain = |byte: u8| if byte == b'-' { b'_' } else { byte.to_ascii_lowercase() };
            known.len() == name.len() && known.bytes().zip(name.bytes()).all(|(known, given)| known == plain(given))
        };
        self.columns.iter().position(|column| is_it(column.name))
    }

    /// A sentence about an option, as one about a column.
    pub(super) fn about_columns(&self, sentence: String) -> String {
        let mut sentence = sentence;
        let mut columns: Vec<&Column> = self.columns.iter().collect();
        // No name is taken for the beginning of a longer one.
        columns.sort_by_key(|column| std::cmp::Reverse(column.name.len()));
        for column in &columns {
            sentence = sentence.replace(&format!("--{}", column.name.replace('_', "-")), column.name);
        }
        let names_one = columns.iter().any(|column| {
            let rest = sentence.strip_prefix(column.name);
            rest.is_some_and(|rest| rest.starts_with([' ', ',', ':']))
        });
        if names_one {
            return sentence;
        }
        let needed = self.columns.iter().filter(|column| column.needed.is_some()).map(|column| column.name);
        format!("{}: {sentence}", needed.collect::<Vec<_>>().join(" and "))
    }
}

// Columns are told apart by the bits of `Filled`.
const _: () = {
    let most = Filled::BITS as usize;
    assert!(LENGTH.len() < most && HEAD.len() < most && HOLE.len() < most && JOINT.len() < most);
    assert!(GROUP.len() < most);
};
