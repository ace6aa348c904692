//! `shophead schema`: what the JSON of each command may contain, as JSON Schema.
//!
//! The files in `schema/` are made from the structures of [`crate::form`], one a command, with what several have in common in
//! `shared.json`. What is printed is one document that needs no other: the definitions that it refers to are moved into it, so that every
//! reader of JSON Schema can follow them. Fields are added within a version: the schemas say what is there, and leave room for what comes.

use std::path::Path;

use serde_json::{Map, Value, json};

use crate::args::SchemaArgs;
use crate::exit::Stop;
use crate::output;

/// One line a command.
macro_rules! schemas {
    ($( $command:literal, )+) => {
        const SCHEMAS: &[(&str, &str)] = &[$( ($command, include_str!(concat!("../schema/", $command, ".json"))), )+];
    };
}

schemas! {
    "length",
    "head",
    "hole",
    "joint",
    "group",
    "splice",
    "repair",
    "part",
    "plan",
    "order",
    "inspect",
    "sources",
}

/// What the lines of a plan are behind the first: the answer of a command that is none.
const PLAN_LINES: (&str, &str) = ("plan-lines", include_str!("../schema/plan-lines.json"));
const SHARED: &str = include_str!("../schema/shared.json");
/// What describes a line of JSON Lines that a batch answers with, and the command that the batch asks for every row.
const LINES: &[(&str, &str)] = &[
    ("batch-length", "length"),
    ("batch-head", "head"),
    ("batch-hole", "hole"),
    ("batch-joint", "joint"),
    ("batch-group", "group"),
];
/// How a command's schema names a definition in [`SHARED`].
const IN_SHARED: &str = "urn:shophead:json:1:shared#/$defs/";
/// How a definition in the same document is named.
const HERE: &str = "#/$defs/";

/// What there is a schema of: the commands that answer in JSON, then the lines of a batch.
pub(crate) fn names() -> impl Iterator<Item = &'static str> {
    SCHEMAS.iter().chain(LINES).chain([&PLAN_LINES]).map(|(name, _)| *name)
}

pub(crate) fn run(args: &SchemaArgs, output: Option<&Path>) -> Result<(), Stop> {
    let asked = |command: &&str| args.command.as_deref().is_none_or(|asked| asked == *command);
    let Some(folder) = &args.out else {
        return match &args.command {
            Some(command) => output::write(output, &text(command)?),
            None => output::write(output, &list()),
        };
    };
    for command in names().filter(asked) {
        output::write(Some(&folder.join(format!("shophead-{command}.schema.json"))), &text(command)?)?;
    }
    Ok(())
}

fn list() -> String {
    let mut list = String::new();
    for command in names() {
        list.push_str(command);
        list.push('\n');
    }
    list
}

fn text(command: &str) -> Result<String, Stop> {
    let schema = of(command).ok_or_else(|| Stop::wrong(format_args!("{command} does not answer in JSON")))?;
    Ok(serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n")
}

/// The schema of a command, or of a line of a batch, as one document.
pub(crate) fn of(name: &str) -> Option<Value> {
    if name == PLAN_LINES.0 {
        return of_plan_lines();
    }
    match LINES.iter().find(|(line, _)| *line == name) {
        Some((line, command)) => of_line(line, of_command(command)?),
        None => of_command(name),
    }
}

/// The schema of a line of `shophead plan --lines`: the plan itself in the first, then bases, holes that are alike, and holes. A basis is its number.
fn of_plan_lines() -> Option<Value> {
    let (mut plan, mut behind) = (of_command("plan")?, of_text(PLAN_LINES.1)?);
    let mut definitions = behind.get_mut("$defs")?.as_object_mut().map(std::mem::take)?;
    definitions.append(plan.get_mut("$defs")?.as_object_mut()?);
    let described =
        "The number of a source: a line of its own tells it, not later than right behind the line that has it first.";
    definitions.insert("basis".to_owned(), json!({ "description": described, "type": "integer", "minimum": 1 }));
    definitions.sort_keys();
    let mut lines = vec![json!({
        "description": "The first line: the plan without its holes.",
        "type": "object",
        "required": plan["required"],
        "properties": plan["properties"],
    })];
    lines.append(behind.get_mut("properties")?.get_mut("result")?.get_mut("anyOf")?.as_array_mut()?);
    Some(json!({
        "$schema": plan["$schema"],
        "$id": "urn:shophead:json:1:plan-lines",
        "title": "shophead plan --lines",
        "description": "One line of shophead plan --format json --lines.",
        "anyOf": lines,
        "$defs": definitions,
    }))
}

/// The schema of a line: the object of the command, and what came in and was wrong with it besides.
fn of_line(name: &str, mut schema: Value) -> Option<Value> {
    let line = schema.as_object_mut()?;
    line.insert("$id".to_owned(), format!("urn:shophead:json:1:{name}").into());
    line.insert("title".to_owned(), format!("shophead {}", name.replacen('-', " ", 1)).into());
    let description = "One row, in one line: the answer of shophead batch --format json.";
    line.insert("description".to_owned(), description.into());
    line.get_mut("required")?.as_array_mut()?.extend(["input".into(), "error".into()]);
    let properties = line.get_mut("properties")?.as_object_mut()?;
    let result = properties.get_mut("result")?.take();
    let described = "The answer; null where the row is wrong.";
    properties.insert("result".to_owned(), json!({ "description": described, "anyOf": [result, { "type": "null" }] }));
    let described = "The row as it came in, by column; as a text where it is no JSON object.";
    properties.insert("input".to_owned(), json!({ "description": described, "type": ["object", "string"] }));
    let described = "What is wrong with the row, in one sentence; null where nothing is.";
    properties.insert("error".to_owned(), json!({ "description": described, "type": ["string", "null"] }));
    Some(schema)
}

fn of_command(command: &str) -> Option<Value> {
    let (_, text) = SCHEMAS.iter().find(|(known, _)| *known == command)?;
    of_text(text)
}

fn of_text(text: &str) -> Option<Value> {
    let mut schema: Value = serde_json::from_str(text).ok()?;
    let shared: Value = serde_json::from_str(SHARED).ok()?;
    let mut definitions = match schema.as_object_mut()?.remove("$defs") {
        Some(Value::Object(own)) => own,
        _ => Map::new(),
    };
    let mut needed = Vec::new();
    localize(&mut schema, &mut needed);
    definitions.values_mut().for_each(|own| localize(own, &mut needed));
    while let Some(name) = needed.pop() {
        if definitions.contains_key(&name) {
            continue;
        }
        let mut definition = shared.get("$defs")?.get(&name)?.clone();
        localize(&mut definition, &mut needed);
        definitions.insert(name, definition);
    }
    definitions.sort_keys();
    schema.as_object_mut()?.insert("$defs".to_owned(), definitions.into());
    Some(schema)
}

/// Makes every reference one within the document; `needed` is given the names that it refers to.
fn localize(schema: &mut Value, needed: &mut Vec<String>) {
    match schema {
        Value::Object(keywords) => {
            if let Some(Value::String(reference)) = keywords.get_mut("$ref") {
                let name = reference.strip_prefix(IN_SHARED).or(reference.strip_prefix(HERE)).unwrap_or(reference);
                needed.push(name.to_owned());
                *reference = format!("{HERE}{name}");
            }
            keywords.values_mut().for_each(|value| localize(value, needed));
        }
        Value::Array(values) => values.iter_mut().for_each(|value| localize(value, needed)),
        _ => {}
    }
}

#[cfg(test)]
#[path = "../tests/cli/strict.rs"]
pub(crate) mod strict;

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use clap::{CommandFactory, ValueEnum};

    use super::*;
    use crate::args::{Arguments, QuestionWord};

    fn commands() -> impl Iterator<Item = &'static str> {
        SCHEMAS.iter().map(|(command, _)| *command)
    }

    /// Every file as it lies in the folder.
    fn files() -> Vec<(&'static str, Value)> {
        let read = |(name, text): (&'static str, &str)| (name, serde_json::from_str(text).expect(name));
        SCHEMAS.iter().copied().chain([PLAN_LINES, ("shared", SHARED)]).map(read).collect()
    }

    fn each<'v>(value: &'v Value, visit: &mut impl FnMut(&'v Map<String, Value>)) {
        match value {
            Value::Object(object) => {
                visit(object);
                object.values().for_each(|value| each(value, visit));
            }
            Value::Array(values) => values.iter().for_each(|value| each(value, visit)),
            _ => {}
        }
    }

    #[test]
    fn every_schema_is_one_and_names_itself() {
        for (name, file) in files() {
            assert_eq!(file["$schema"], "https://json-schema.org/draft/2020-12/schema", "{name}");
            assert_eq!(file["$id"], format!("urn:shophead:json:1:{name}"));
            assert!(jsonschema::meta::is_valid(&file), "{name}");
        }
        for command in names() {
            let schema = of(command).expect(command);
            assert!(jsonschema::meta::is_valid(&schema), "{command}");
            assert_eq!(schema["$id"], format!("urn:shophead:json:1:{command}"));
            let schema = if command == PLAN_LINES.0 {
                json!({ "properties": schema["anyOf"][0]["properties"], "$defs": schema["$defs"] })
            } else {
                schema
            };
            assert_eq!(
                schema["properties"]["command"]["const"],
                command.trim_start_matches("batch-").trim_end_matches("-lines")
            );
            assert_eq!(schema["properties"]["schema"]["$ref"], "#/$defs/version");
            assert_eq!(schema["$defs"]["version"]["const"], crate::form::Version::NUMBER);
            // It stands by itself.
            jsonschema::validator_for(&schema).unwrap_or_else(|error| panic!("{command}: {error}"));
        }
    }

    #[test]
    fn every_command_that_answers_in_json_has_one() {
        // These write a file, hold a conversation or print by themselves; a batch has one for each command that it asks.
        let without =
            ["answer", "batch", "new", "survey", "card", "map", "template", "handheld", "schema", "completions", "man"];
        let all = Arguments::command().get_subcommands().map(|command| command.get_name().to_owned()).collect();
        let told: BTreeSet<String> = commands().chain(without).map(str::to_owned).collect();
        assert_eq!(told, all);
        let asked: Vec<String> =
            QuestionWord::value_variants().iter().map(|question| format!("{question:?}").to_lowercase()).collect();
        assert_eq!(LINES.iter().map(|(_, command)| *command).collect::<Vec<_>>(), asked);
    }

    #[test]
    fn nothing_in_the_shared_file_is_left_over() {
        let mut used = BTreeSet::new();
        for command in commands() {
            used.extend(of(command).unwrap()["$defs"].as_object().unwrap().keys().cloned());
        }
        let shared: Value = serde_json::from_str(SHARED).unwrap();
        for name in shared["$defs"].as_object().unwrap().keys() {
            assert!(used.contains(name), "{name}");
        }
    }

    /// A number without a unit says so.
    const UNITS: &[&str] = &[
        "inch",
        "millimetre",
        "pound",
        "newton",
        "megapascal",
        "gram",
        "minutes",
        "diameters",
        "without unit",
        "rivets on an inch",
    ];

    #[test]
    fn every_field_is_described_and_every_number_has_its_unit() {
        for (name, file) in files() {
            each(&file, &mut |schema| {
                let Some(Value::Object(fields)) = schema.get("properties") else { return };
                for word in schema.get("required").and_then(Value::as_array).into_iter().flatten() {
                    assert!(fields.contains_key(word.as_str().unwrap()), "{name}: {word}");
                }
                for (field, schema) in fields {
                    let described = schema["description"].as_str().unwrap_or_default();
                    assert!(described.ends_with('.'), "{name}: {field} is described as {described:?}");
                    if schema["type"] == "number" || schema["type"] == json!(["number", "null"]) {
                        let described = described.to_lowercase();
                        assert!(UNITS.iter().any(|unit| described.contains(unit)), "{name}: {field}: {described}");
                    }
                }
            });
        }
    }

    #[test]
    fn the_printed_schema_leaves_room_for_later_fields_and_the_strict_one_does_not() {
        let schema = of("part").unwrap();
        let mut answer = json!({
            "schema": 1, "command": "part", "practice": "handbook", "advisory": "A sentence.", "result": { "parts": [] }, "findings": [],
        });
        let [loose, strict] =
            [schema.clone(), strict::strict(schema)].map(|schema| jsonschema::validator_for(&schema).unwrap());
        assert!(loose.is_valid(&answer) && strict.is_valid(&answer));
        answer["later"] = json!(1);
        assert!(loose.is_valid(&answer) && !strict.is_valid(&answer));
        answer.as_object_mut().unwrap().remove("later");
        answer["practice"] = json!("a later one");
        assert!(loose.is_valid(&answer) && !strict.is_valid(&answer));
    }
}
