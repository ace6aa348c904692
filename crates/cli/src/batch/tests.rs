//! A row of a batch says what the command itself says.

use std::path::Path;
use std::sync::LazyLock;

use clap::{CommandFactory, Parser};
use proptest::prelude::*;
use shophead::finding::Severity;
use shophead::length::Bare;
use shophead::practice::{PROCESS, Practice};
use shophead::words::Units;

use super::chunks::{Form, Piece};
use super::header::Header;
use super::question::{Column, Rules, asking};
use super::rows::{Layout, Tally, Worker};
use crate::args::{Arguments, Command, Format, GroupArgs, QuestionWord};
use crate::cells::{self, Codes};
use crate::commands;
use crate::commands::tests::word;
use crate::context::Context;
use crate::exit::{Exit, Stop};
use crate::files::Inputs;
use crate::render;
use crate::report::{Record, Report, Rows};

const QUESTIONS: &[QuestionWord] =
    &[QuestionWord::Length, QuestionWord::Head, QuestionWord::Hole, QuestionWord::Joint, QuestionWord::Group];

/// One cell for every column of a command; an empty one is an option that is not given.
type Cells = Vec<String>;

fn option(column: &str) -> String {
    format!("--{}", column.replace('_', "-"))
}

/// A command: its name, its columns, and whether the option of each takes no value.
struct Known {
    name: &'static str,
    columns: Vec<(Column, bool)>,
}

/// What the command takes without an option.
fn is_positional(column: &str) -> bool {
    column == "points"
}

/// What is known of every question; asking clap for every cell takes minutes.
fn known(question: QuestionWord) -> &'static Known {
    static KNOWN: LazyLock<Vec<Known>> = LazyLock::new(|| {
        let arguments = Arguments::command();
        let is_flag = |name: &str, column: &Column| {
            let mut options = arguments.find_subcommand(name).expect(name).get_arguments();
            let option = options.find(|arg| arg.get_long() == Some(&column.name.replace('_', "-")));
            !is_positional(column.name) && !option.expect(column.name).get_action().takes_values()
        };
        let known = |question: &QuestionWord| {
            let asked = asking(*question);
            let name = asked.command();
            let columns = asked.columns().into_iter().map(|column| (column, is_flag(name, &column))).collect();
            Known { name, columns }
        };
        QUESTIONS.iter().map(known).collect()
    });
    let at = QUESTIONS.iter().position(|known| *known == question).expect("a question");
    &KNOWN[at]
}

fn cell((column, is_flag): (Column, bool)) -> BoxedStrategy<String> {
    if is_flag {
        return prop::sample::select(&["", "", "", "yes", "no", "TRUE"][..]).prop_map(str::to_owned).boxed();
    }
    let option: &'static str = option(column.name).leak();
    // Blanks around a cell and the apostrophe before a formula are no part of what it says.
    let word = word(option).prop_map(|word| word.trim().trim_start_matches('\'').trim().to_owned());
    let often = if column.needed.is_some() { 20 } else { 1 };
    prop_oneof![often => word, 1 => Just(String::new())].boxed()
}

fn rows() -> impl Strategy<Value = (QuestionWord, Vec<Cells>)> {
    prop::sample::select(QUESTIONS).prop_flat_map(|question| {
        let row: Vec<_> = known(question).columns.iter().map(|column| cell(*column)).collect();
        (Just(question), prop::collection::vec(row, 1..6))
    })
}

/// What the command line has for these cells.
fn typed(question: QuestionWord, cells: &Cells, practice: &str, units: &str) -> Vec<String> {
    let mut positional = Vec::new();
    let mut typed = vec!["shophead".to_owned(), known(question).name.to_owned()];
    typed.extend([format!("--practice={practice}"), format!("--units={units}")]);
    for ((column, is_flag), cell) in known(question).columns.iter().zip(cells).filter(|(_, cell)| !cell.is_empty()) {
        if is_positional(column.name) {
            positional.extend(["--".to_owned(), cell.clone()]);
        } else if !is_flag {
            typed.push(format!("{}={cell}", option(column.name)));
        } else if cell != "no" {
            typed.push(option(column.name));
        }
    }
    typed.extend(positional);
    typed
}

/// What the single command answers: the cells of its row, its JSON, its status; `None` when it refuses.
fn single(typed: &[String], context: &Context<'_>) -> Option<(Vec<String>, serde_json::Value, Exit)> {
    let (program, rest) = typed.split_first()?;
    // The standard input is that of the test.
    if rest.last().is_some_and(|last| last == "-") {
        return None;
    }
    let in_form = |form: &str| {
        let form = format!("--format={form}");
        let typed = [program.as_str(), &form].into_iter().chain(rest.iter().map(String::as_str));
        Arguments::try_parse_from(typed).ok()
    };
    let row = |report: &Report<'_>| {
        let mut rows = Vec::new();
        render::csv::render(report, &mut rows).expect("bytes in memory");
        let mut reader = csv::Reader::from_reader(&rows[..]);
        let row = reader.records().next().expect("a row").expect("a row of CSV");
        Ok((row.iter().map(str::to_owned).collect(), report.exit()))
    };
    let json = |report: &Report<'_>| {
        let mut json = Vec::new();
        render::json::render(report, &mut json, false).expect("bytes in memory");
        Ok(serde_json::from_slice(&json).expect("JSON"))
    };
    let known = |stop| match stop {
        // Or a points file that is none.
        Stop::Wrong(_) | Stop::Failed(_) => None::<()>,
        other => panic!("{other:?}"),
    };
    let arguments = in_form("csv")?;
    let answered = crate::answer(&arguments, row).map_err(known);
    let in_json = crate::answer(&in_form("json")?, json).map_err(known);
    assert_eq!(answered.is_ok(), in_json.is_ok(), "{typed:?}");
    let ((row, exit), json) = answered.ok().zip(in_json.ok())?;
    let row = match &arguments.command {
        Command::Group(args) => row_of_group(args, context),
        _ => row,
    };
    Some((row, json, exit))
}

/// A group's own CSV has a row for each rivet: the one for all of them is made of the same cells.
fn row_of_group(args: &GroupArgs, context: &Context<'_>) -> Vec<String> {
    let (mut record, mut codes) = (Record::new(context.units), Codes::default());
    cells::row::<commands::group::Answer>(args, context, &mut record, &mut codes, &mut Vec::new())
        .expect("it was answered");
    record.text("severity", codes.worst.map_or("", Severity::as_str));
    record.text("findings", codes.codes.iter().map(|code| code.as_str()).collect::<Vec<_>>().join(" "));
    let mut rows = Rows::default();
    rows.push(record);
    rows.rows.remove(0)
}

fn context<'a>(practice: &'a Practice<'a>, units: Units, format: Format, inputs: &'a Inputs) -> Context<'a> {
    let bare = match units {
        Units::Inches => Bare::Inches,
        Units::Millimetres => Bare::Millimetres,
    };
    Context {
        practice,
        units,
        bare,
        prompts: units,
        settled: &[],
        own_title: "",
        job_file: None,
        format,
        working: false,
        rows_in: Some(Path::new("")),
        inputs,
    }
}

/// What a batch of these rows answers in one form.
fn batch(
    question: QuestionWord,
    rows: &[Cells],
    (practice, units): (&Practice<'_>, Units),
    form: (Form, Form),
) -> (String, Tally) {
    let (from, to) = form;
    let asked = asking(question);
    let rules = Rules::of(asked.columns());
    let names: Vec<&str> = rules.columns().iter().map(|column| column.name).collect();
    let header = (form != (Form::Lines, Form::Lines)).then(|| Header::of(&names, &rules).expect("every column"));
    let inputs = Inputs::default();
    let context = context(practice, units, if to == Form::Lines { Format::Json } else { Format::Csv }, &inputs);
    let answer_columns = asked.answer_columns(&context).expect("an example that is answered").len();
    let mut bytes = Vec::new();
    if from == Form::Csv {
        let mut writer = csv::WriterBuilder::new().from_writer(&mut bytes);
        rows.iter().for_each(|row| writer.write_record(row).expect("bytes in memory"));
    } else {
        for row in rows {
            let object: serde_json::Map<_, _> =
                names.iter().zip(row).map(|(name, cell)| ((*name).to_owned(), cell.as_str().into())).collect();
            bytes.extend(serde_json::to_vec(&object).expect("an object"));
            bytes.push(b'\n');
        }
    }
    let layout = Layout { rules: &rules, header, answer_columns, from, to };
    let mut out = Vec::new();
    let tally = Worker::new(&layout, &context, asked).work(&Piece { bytes, ..Piece::default() }, &mut out);
    (String::from_utf8(out).expect("UTF-8"), tally)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    /// In every form, in both practices and both units, whatever the rows before it asked.
    #[test]
    fn a_row_is_answered_as_by_the_command_itself((question, rows) in rows(), process in any::<bool>(), mm in any::<bool>()) {
        let practice: &Practice<'_> = if process { &PROCESS } else { &shophead::practice::HANDBOOK };
        let (units, units_word) = if mm { (Units::Millimetres, "mm") } else { (Units::Inches, "in") };
        let inputs = Inputs::default();
        let context = context(practice, units, Format::Csv, &inputs);
        let wanted: Vec<_> =
            rows.iter().map(|row| single(&typed(question, row, practice.name(), units_word), &context)).collect();
        for from in [Form::Csv, Form::Lines] {
            let (lines, tally) = batch(question, &rows, (practice, units), (from, Form::Lines));
            let lines: Vec<serde_json::Value> = lines.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
            prop_assert_eq!(lines.len(), rows.len());
            for ((line, wanted), row) in lines.iter().zip(&wanted).zip(&rows) {
                let mut line = line.clone();
                let object = line.as_object_mut().expect("an object");
                let input = object.remove("input").expect("the row");
                prop_assert_eq!(input["diameter"].as_str(), diameter(question, row));
                let error = object.remove("error").expect("an error or none");
                match wanted {
                    Some((_, json, _)) => {
                        prop_assert!(error.is_null(), "{row:?}: {error}");
                        prop_assert_eq!(&line, json);
                    }
                    // A row in which nothing stands asks nothing.
                    None if says_nothing(row) => prop_assert!(error.is_null() && line["result"].is_null(), "{row:?}: {error}"),
                    None => prop_assert!(error.is_string() && line["result"].is_null(), "{row:?}"),
                }
            }
            let is_wrong = |(wanted, row): &(&Option<_>, &Cells)| wanted.is_none() && !says_nothing(row);
            let wrong = wanted.iter().zip(&rows).filter(is_wrong).count() as u64;
            prop_assert_eq!((tally.rows, tally.wrong), (rows.len() as u64, wrong));
            let refers = wanted.iter().flatten().any(|(_, _, exit)| *exit == Exit::Refer);
            prop_assert_eq!(tally.refers, refers);
        }
        let (csv, tally) = batch(question, &rows, (practice, units), (Form::Csv, Form::Csv));
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(csv.as_bytes());
        let written: Vec<csv::StringRecord> = reader.records().map(|record| record.expect("rows of one length")).collect();
        prop_assert_eq!((written.len() as u64, tally.rows), (rows.len() as u64, rows.len() as u64));
        for ((written, wanted), row) in written.iter().zip(&wanted).zip(&rows) {
            let cells: Vec<&str> = written.iter().collect();
            let (carried, answer) = cells.split_at(row.len());
            let carried: Vec<&str> = carried.iter().map(|cell| shophead_job::cell::original(cell)).collect();
            prop_assert_eq!(carried, row.iter().map(String::as_str).collect::<Vec<_>>());
            let (error, answer) = answer.split_last().expect("the error");
            match wanted {
                Some((cells, _, _)) => prop_assert_eq!((answer, *error), (&cells.iter().map(String::as_str).collect::<Vec<_>>()[..], "")),
                None if says_nothing(row) => prop_assert_eq!((answer.iter().all(|cell| cell.is_empty()), *error), (true, "")),
                None => {
                    prop_assert!(answer.iter().all(|cell| cell.is_empty()), "{answer:?}");
                    prop_assert!(!error.is_empty() && !error.contains('\n'), "{error:?}");
                    let mut names = known(question).columns.iter().map(|(column, _)| column);
                    prop_assert!(names.clone().all(|column| !error.contains(&option(column.name))), "{error:?}");
                    prop_assert!(names.any(|column| error.starts_with(column.name)) || error.starts_with("this row"), "{error:?}");
                }
            }
        }
    }
}

fn says_nothing(row: &Cells) -> bool {
    row.iter().all(String::is_empty)
}

/// Whatever the form it comes in and goes out in. Once in twelve runs the law above met such a row.
#[test]
fn a_row_of_empty_cells_asks_nothing_in_every_form() {
    for question in QUESTIONS {
        let row: Cells = vec![String::new(); known(*question).columns.len()];
        for from in [Form::Csv, Form::Lines] {
            for to in [Form::Csv, Form::Lines] {
                let (out, tally) = batch(
                    *question,
                    std::slice::from_ref(&row),
                    (&shophead::practice::HANDBOOK, Units::Inches),
                    (from, to),
                );
                let empty = match to {
                    Form::Csv => out.trim_matches([',', '\n', '"']).is_empty(),
                    Form::Lines => {
                        let line: serde_json::Value = serde_json::from_str(&out).expect("JSON");
                        line["error"].is_null() && line["result"].is_null()
                    }
                };
                assert!(empty, "{from:?} to {to:?}: {out}");
                assert_eq!((tally.rows, tally.wrong, tally.refers), (1, 0, false), "{from:?} to {to:?}");
            }
        }
    }
}

fn diameter(question: QuestionWord, row: &Cells) -> Option<&str> {
    let at = known(question).columns.iter().position(|(column, _)| column.name == "diameter")?;
    row.get(at).map(String::as_str)
}

/// An option that no column has could not be asked in a batch.
#[test]
fn every_option_of_a_command_has_its_column() {
    let arguments = Arguments::command();
    for question in QUESTIONS {
        let Known { name, columns } = known(*question);
        let command = arguments.find_subcommand(name).expect(name);
        let of_text = ["help", "width", "working"];
        let options = command.get_arguments().filter_map(|arg| match arg.get_long() {
            None if arg.is_positional() => Some(arg.get_id().as_str()),
            long => long,
        });
        let mut options: Vec<String> =
            options.filter(|option| !of_text.contains(option)).map(|option| option.replace('-', "_")).collect();
        let mut columns: Vec<String> = columns.iter().map(|(column, _)| column.name.to_owned()).collect();
        options.sort();
        columns.sort();
        assert_eq!(columns, options, "{name}");
    }
}

/// The page for whoever makes such files names what is read.
#[test]
fn the_page_on_files_lists_every_column() {
    let page = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../job/JOB-FILE.md");
    let page = std::fs::read_to_string(page).expect("the page");
    for question in QUESTIONS {
        let Known { name, columns } = known(*question);
        let start = format!("| `{name}` |");
        let section = page.split("## Batch").nth(1).expect("a section");
        let line = section.lines().find(|line| line.starts_with(&start)).expect(name);
        let cells: Vec<&str> = line.trim_matches('|').split('|').collect();
        for (cell, is_needed) in [(cells[1], true), (cells[2], false)] {
            let listed: Vec<&str> = cell.split(',').map(|name| name.trim().trim_matches('`')).collect();
            let columns =
                columns.iter().map(|(column, _)| column).filter(|column| column.needed.is_some() == is_needed);
            assert_eq!(listed, columns.map(|column| column.name).collect::<Vec<_>>(), "{name}");
        }
    }
}

/// Where the JSON has what a column has, without the column's unit: a list joined by blanks where a star stands, the least of several places.
type Place = (&'static str, &'static [&'static str]);

const IN_LENGTH: &[Place] = &[
    ("part", &["/result/part"]),
    ("length", &["/result/length"]),
    ("grip_min", &["/result/grip/min"]),
    ("grip", &["/result/grip/nominal"]),
    ("grip_max", &["/result/grip/max"]),
    ("hole_min", &["/result/assumed/hole/min"]),
    ("hole_max", &["/result/assumed/hole/max"]),
    ("rule_of_thumb_length", &["/result/rule_of_thumb_length"]),
    ("protrusion_min", &["/result/protrusion/min"]),
    ("protrusion_max", &["/result/protrusion/max"]),
    ("head_diameter_min", &["/result/head/diameter/min"]),
    ("head_diameter_max", &["/result/head/diameter/max"]),
    ("head_height", &["/result/head/height"]),
    ("window_height_min", &["/result/window/height/min"]),
    ("window_height_max", &["/result/window/height/max"]),
    ("window_diameter_min", &["/result/window/diameter/min"]),
    ("also_good", &["/result/serves/*/part"]),
    ("by_hole", &["/result/by_hole/*/part"]),
];

const IN_HEAD: &[Place] = &[
    ("rivet", &["/result/rivet"]),
    ("diameter_min", &["/result/diameter/min"]),
    ("diameter", &["/result/diameter/nominal"]),
    ("diameter_max", &["/result/diameter/max"]),
    ("height_min", &["/result/height/min"]),
    ("height", &["/result/height/nominal"]),
    ("height_max", &["/result/height/max"]),
    ("accepted", &["/result/accepted"]),
    ("predicted_diameter_min", &["/result/predicted/diameter/min"]),
    ("predicted_diameter_max", &["/result/predicted/diameter/max"]),
    ("predicted_height", &["/result/predicted/height"]),
    ("window_height_min", &["/result/predicted/window/height/min"]),
    ("window_height_max", &["/result/predicted/window/height/max"]),
    ("window_diameter_min", &["/result/predicted/window/diameter/min"]),
];

const IN_HOLE: &[Place] = &[
    ("disposition", &["/result/disposition"]),
    ("rivet", &["/result/rivet"]),
    ("drill", &["/result/drill"]),
    ("hole_min", &["/result/hole/min"]),
    ("hole_max", &["/result/hole/max"]),
    ("steps_tried", &["/result/steps/*/step"]),
];

const IN_JOINT: &[Place] = &[
    ("rivet", &["/result/rivet"]),
    ("allowable", &["/result/per_rivet/allowable"]),
    ("governing", &["/result/per_rivet/governing/mode"]),
    ("governing_sheet", &["/result/per_rivet/governing/sheet"]),
    ("shear", &["/result/per_rivet/shear"]),
    ("edge", &["/result/edge"]),
    ("net_section", &["/result/net_section/ultimate"]),
    ("factored_load", &["/result/margin/factored_load"]),
    ("margin", &["/result/margin/value"]),
    ("yield", &["/result/yield/allowable"]),
    ("row_per_inch", &["/result/row/per_inch"]),
    ("row_governing", &["/result/row/governing/mode"]),
    ("row_margin", &["/result/row/margin/value"]),
    ("yield_margin", &["/result/yield/margin/value", "/result/row/yield_margin/value"]),
];

/// What stands at a place of the JSON, as a cell would have it: words joined by blanks, or a number.
fn told(json: &serde_json::Value, place: &str, unit: Option<&str>) -> Option<Result<f64, String>> {
    use serde_json::Value;
    if let Some((list, rest)) = place.split_once("/*") {
        let words = json.pointer(list)?.as_array()?.iter().filter_map(|each| each.pointer(rest)?.as_str());
        return Some(Err(words.collect::<Vec<_>>().join(" ")));
    }
    let at = json.pointer(place)?;
    match unit.and_then(|unit| at.get(unit)).unwrap_or(at) {
        Value::Number(number) => number.as_f64().map(Ok),
        Value::String(word) => Some(Err(word.clone())),
        Value::Bool(is) => Some(Err(is.to_string())),
        _ => None,
    }
}

/// Splits the unit off the name of a column.
fn without_unit(column: &str) -> (&str, Option<&str>) {
    let units = ["in", "mm", "lbf", "n"];
    column
        .rsplit_once('_')
        .filter(|(_, unit)| units.contains(unit))
        .map_or((column, None), |(name, unit)| (name, Some(unit)))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Each column is a field of the JSON and says the same: one answer, two forms.
    #[test]
    fn each_column_says_what_its_field_of_the_json_says((question, rows) in rows(), mm in any::<bool>()) {
        let places = match question {
            QuestionWord::Length => IN_LENGTH,
            QuestionWord::Head => IN_HEAD,
            QuestionWord::Hole => IN_HOLE,
            QuestionWord::Joint => IN_JOINT,
            // Its row is about one of its rivets: the law of the JSON of a group has each.
            QuestionWord::Group => return Ok(()),
        };
        let (units, word) = if mm { (Units::Millimetres, "mm") } else { (Units::Inches, "in") };
        let inputs = Inputs::default();
        let context = context(&shophead::practice::HANDBOOK, units, Format::Csv, &inputs);
        let columns = asking(question).answer_columns(&context).expect("an example that is answered");
        let (columns, findings) = columns.split_at(columns.len() - 2);
        prop_assert_eq!(findings, ["severity", "findings"]);
        let names: Vec<&str> = columns.iter().map(|column| without_unit(column).0).collect();
        prop_assert_eq!(names, places.iter().map(|(name, _)| *name).collect::<Vec<_>>());
        for row in &rows {
            let Some((cells, json, _)) = single(&typed(question, row, "handbook", word), &context) else { continue };
            for ((column, cell), (_, places)) in columns.iter().zip(&cells).zip(places) {
                let unit = without_unit(column).1;
                let found: Vec<_> = places.iter().filter_map(|place| told(&json, place, unit)).collect();
                let least = found.iter().filter_map(|found| found.clone().ok()).reduce(f64::min);
                let words: Vec<&String> = found.iter().filter_map(|found| found.as_ref().err()).collect();
                match least {
                    None => prop_assert_eq!(cell, words.first().map_or("", |word| word.as_str()), "{}: {}", column, json),
                    Some(figure) => {
                        // As many places as a cell has; a margin is never more than it is.
                        let written: f64 = cell.parse().map_err(|_| TestCaseError::fail(format!("{column} {cell:?}: {figure}")))?;
                        let off = match unit {
                            Some("in") => 5.1e-6,
                            Some("mm") => 5.1e-4,
                            _ => 1.1e-3,
                        };
                        prop_assert!((written - figure).abs() <= off, "{column} {cell}: {figure}");
                    }
                }
            }
            let said: Vec<&str> =
                json["findings"].as_array().into_iter().flatten().filter_map(|found| found["severity"].as_str()).collect();
            let worst = Severity::ALL.iter().rev().map(|severity| severity.as_str()).find(|word| said.contains(word));
            prop_assert_eq!(&cells[columns.len()], worst.unwrap_or_default());
            for code in cells[columns.len() + 1].split(' ').filter(|code| !code.is_empty()) {
                let findings = json["findings"].as_array().into_iter().flatten();
                prop_assert!(findings.filter_map(|found| found["code"].as_str()).any(|word| word == code), "{code}");
            }
        }
    }
}
