//! JSON Schemas made from the structures, and compared with the files of `schema/`.
//!
//! `SHOPHEAD_WRITE=1 cargo test -p shophead-cli --bin shophead schema` writes the files again.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::Path;

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

use super::{List, Nth, Version};
use crate::render::json::Envelope;

/// Known words, or any later one.
pub(super) fn open(description: &str, words: &[&str]) -> Schema {
    json_schema!({ "description": description.trim(), "anyOf": [{ "enum": words }, { "type": "string" }] })
}

/// These words and no others.
pub(super) fn closed(description: &str, words: &[&str]) -> Schema {
    json_schema!({ "description": description.trim(), "enum": words })
}

/// What can be settled apart from the command line and the job.
pub(crate) fn settled(_: &mut SchemaGenerator) -> Schema {
    open("What is set.", &["practice", "limits", "units"])
}

impl JsonSchema for Version {
    fn schema_name() -> Cow<'static, str> {
        "Version".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "const": Version::NUMBER, "description": "The version of the form." })
    }
}

impl JsonSchema for Nth {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Nth".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "integer", "minimum": 1 })
    }
}

impl<T: JsonSchema> JsonSchema for List<'_, T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        Vec::<T>::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Vec::<T>::json_schema(generator)
    }
}

/// A command and its answer.
struct Command {
    name: &'static str,
    /// What it answers.
    about: &'static str,
    answer: fn(&mut SchemaGenerator) -> Schema,
}

/// One line a command.
macro_rules! commands {
    ($( $name:literal, $about:literal, $answer:ty; )+) => {
        const COMMANDS: &[Command] = &[$(
            Command { name: $name, about: $about, answer: <$answer as JsonSchema>::json_schema },
        )+];
    };
}

commands! {
    "length", "The rivet length for a pack of layers", super::length::Answer<'static>;
    "head", "The size of a driven head", super::head::Answer<'static>;
    "hole", "What to do about a hole as it was found", super::hole::Answer<'static>;
    "joint", "What one rivet carries in its sheets, and its row", super::joint::Answer<'static>;
    "group", "How a load divides over a group of rivets", super::group::Answer<'static>;
    "splice", "How many rivets a splice needs", super::splice::Answer<'static>;
    "part", "What a part number says", super::part::Answer<'static>;
    "plan", "The whole job", super::plan::Answer<'static>;
    "order", "The parts of a job against the shelf", super::order::Answer<'static>;
    "inspect", "Driven rivets judged against the plan", super::inspect::Answer<'static>;
    "sources", "Where every built-in figure comes from", super::sources::Answer<'static>;
}

/// The schema of what a command prints.
fn schema_of(command: &Command) -> Value {
    let mut generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let mut envelope = Envelope::json_schema(&mut generator).to_value();
    let properties = envelope["properties"].as_object_mut().expect("an object");
    properties.insert("result".to_owned(), (command.answer)(&mut generator).to_value());
    properties["command"] = json!({ "const": command.name, "description": "The command that answers." });
    let mut definitions = generator.take_definitions(true);
    definitions.sort_keys();
    let mut schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": format!("urn:shophead:json:1:{}", command.name),
        "title": format!("shophead {}", command.name),
        "description": format!("{}: the answer of shophead {} --format json.", command.about, command.name),
        "type": "object",
        "required": envelope["required"],
        "properties": envelope["properties"],
        "$defs": definitions.into_iter().map(|(name, schema)| (snake(&name), schema)).collect::<Map<String, Value>>(),
    });
    tidy(&mut schema);
    schema
}

/// `GivenLength` as `given_length`.
fn snake(name: &str) -> String {
    let mut snake = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !snake.is_empty() {
            snake.push('_');
        }
        snake.extend(letter.to_lowercase());
    }
    snake
}

/// What a reader of the schemas has no use for goes: how wide a number is in memory. A tag says what its variant says.
fn tidy(schema: &mut Value) {
    match schema {
        Value::Object(keywords) => {
            keywords.remove("format");
            if let Some(Value::String(reference)) = keywords.get_mut("$ref")
                && let Some(name) = reference.strip_prefix("#/$defs/")
            {
                *reference = format!("#/$defs/{}", snake(name));
            }
            let description = keywords.get("description").cloned();
            if let (Some(description), Some(Value::Object(fields))) = (description, keywords.get_mut("properties")) {
                for field in fields.values_mut().filter_map(Value::as_object_mut) {
                    if field.contains_key("const") && !field.contains_key("description") {
                        field.insert("description".to_owned(), description.clone());
                    }
                }
            }
            keywords.values_mut().for_each(tidy);
        }
        Value::Array(values) => values.iter_mut().for_each(tidy),
        _ => {}
    }
}

#[test]
fn the_files_are_what_the_forms_say() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("schema");
    let mut stale = BTreeSet::new();
    for command in COMMANDS {
        let file = folder.join(format!("{}.json", command.name));
        let text = serde_json::to_string_pretty(&schema_of(command)).expect("a schema") + "\n";
        if std::env::var_os("SHOPHEAD_WRITE").is_some() {
            std::fs::write(&file, &text).expect("written");
        } else if std::fs::read_to_string(&file).ok().as_deref() != Some(&text) {
            stale.insert(command.name);
        }
    }
    assert!(stale.is_empty(), "{stale:?}: SHOPHEAD_WRITE=1 cargo test -p shophead-cli --bin shophead schema");
}
