//! JSON Schemas made from the structures, and compared with the files of `schema/`.
//!
//! `SHOPHEAD_WRITE=1 cargo test -p shophead-cli --bin shophead schema` writes the files again.

use std::borrow::Cow;
use std::collections::BTreeMap;
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

/// The same for words that are an enumeration's.
pub(super) fn opened(schema: &mut Schema) {
    let words = schema.remove("enum");
    schema.remove("type");
    schema.insert("anyOf".to_owned(), json!([{ "enum": words }, { "type": "string" }]));
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
    "repair", "A sized repair", super::repair::Repair<'static>;
    "part", "What a part number says", super::part::Answer<'static>;
    "plan", "The whole job", super::plan::Answer<'static>;
    "order", "The parts of a job against the shelf", super::order::Answer<'static>;
    "inspect", "Driven rivets judged against the plan", super::inspect::Answer<'static>;
    "sources", "Where every built-in figure comes from", super::sources::Answer<'static>;
    "plan-lines", "One of the lines behind the first", super::plan::Line<'static>;
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
    let count = definitions.len();
    let definitions: Map<String, Value> =
        definitions.into_iter().map(|(name, schema)| (snake(&name), schema)).collect();
    assert_eq!(definitions.len(), count, "{}: two forms with one name", command.name);
    let mut schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": format!("urn:shophead:json:1:{}", command.name),
        "title": format!("shophead {}", command.name),
        "description": format!("{}: the answer of shophead {} --format json.", command.about, command.name),
        "type": "object",
        "required": envelope["required"],
        "properties": envelope["properties"],
        "$defs": definitions,
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
    // Beside a structure of the core that has its name.
    snake.strip_suffix("_answer").map(str::to_owned).unwrap_or(snake)
}

/// What a reader of the schemas has no use for goes: how wide a number is in memory. A tag says what its variant says.
fn tidy(schema: &mut Value) {
    match schema {
        Value::Object(keywords) => {
            keywords.remove("format");
            keywords.remove("maximum");
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
            for (keyword, value) in keywords {
                match value {
                    // By the names of fields and definitions.
                    Value::Object(named) if keyword == "properties" || keyword == "$defs" => {
                        named.values_mut().for_each(tidy);
                    }
                    value => tidy(value),
                }
            }
        }
        Value::Array(values) => values.iter_mut().for_each(tidy),
        _ => {}
    }
}

/// What the commands have in common goes into a file of its own: definitions that several have, alike in all.
fn files() -> Vec<(&'static str, Value)> {
    let mut files: Vec<(&str, Value)> = COMMANDS.iter().map(|command| (command.name, schema_of(command))).collect();
    let mut known: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for (_, schema) in &files {
        for (name, definition) in schema["$defs"].as_object().expect("definitions") {
            known.entry(name.clone()).or_default().push(definition.clone());
        }
    }
    known.retain(|_, alike| alike.len() > 1 && alike.iter().all(|one| *one == alike[0]));
    for (_, schema) in &mut files {
        refer(schema, &known);
        let own = schema["$defs"].as_object_mut().expect("definitions");
        own.retain(|name, _| !known.contains_key(name));
    }
    let shared: Map<String, Value> = known.into_iter().map(|(name, mut alike)| (name, alike.remove(0))).collect();
    for definition in shared.values() {
        each_reference(definition, &mut |name| assert!(shared.contains_key(name), "several forms are called {name}"));
    }
    let shared = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:shophead:json:1:shared",
        "title": "shophead, shared",
        "description": "What the answers of several commands have in common.",
        "$defs": shared,
    });
    files.push(("shared", shared));
    files
}

/// References to what is in the other file.
fn refer(schema: &mut Value, shared: &BTreeMap<String, Vec<Value>>) {
    match schema {
        Value::Object(keywords) => {
            if let Some(Value::String(reference)) = keywords.get_mut("$ref")
                && let Some(name) = reference.strip_prefix("#/$defs/").filter(|name| shared.contains_key(*name))
            {
                *reference = format!("urn:shophead:json:1:shared#/$defs/{name}");
            }
            keywords.values_mut().for_each(|value| refer(value, shared));
        }
        Value::Array(values) => values.iter_mut().for_each(|value| refer(value, shared)),
        _ => {}
    }
}

fn each_reference(schema: &Value, visit: &mut impl FnMut(&str)) {
    match schema {
        Value::Object(keywords) => {
            if let Some(name) =
                keywords.get("$ref").and_then(Value::as_str).and_then(|name| name.strip_prefix("#/$defs/"))
            {
                visit(name);
            }
            keywords.values().for_each(|value| each_reference(value, visit));
        }
        Value::Array(values) => values.iter().for_each(|value| each_reference(value, visit)),
        _ => {}
    }
}

#[test]
fn the_schema_files_are_what_the_forms_say() {
    let printed: Vec<&str> = crate::schema::names().filter(|name| !name.starts_with("batch-")).collect();
    assert_eq!(COMMANDS.iter().map(|command| command.name).collect::<Vec<_>>(), printed);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("schema");
    let mut stale = Vec::new();
    for (name, schema) in files() {
        let file = folder.join(format!("{name}.json"));
        let text = serde_json::to_string_pretty(&schema).expect("a schema") + "\n";
        if std::env::var_os("SHOPHEAD_WRITE").is_some() {
            std::fs::write(&file, &text).expect("written");
        } else if std::fs::read_to_string(&file).ok().as_deref() != Some(&text) {
            stale.push(name);
        }
    }
    assert!(stale.is_empty(), "{stale:?}: SHOPHEAD_WRITE=1 cargo test -p shophead-cli --bin shophead schema");
}
