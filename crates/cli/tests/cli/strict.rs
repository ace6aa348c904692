//! Answers held against their schemas, more strictly than a script should: a field or a word that is not listed fails until it is meant.

use serde_json::{Value, json};

/// The schema with no room for anything that it does not list.
pub(crate) fn strict(mut schema: Value) -> Value {
    close(&mut schema);
    schema
}

fn close(schema: &mut Value) {
    match schema {
        Value::Object(keywords) => {
            if keywords.contains_key("properties") {
                keywords.insert("additionalProperties".to_owned(), json!(false));
            }
            // Known words, or any later one: only the known ones.
            if let Some(Value::Array(branches)) = keywords.get_mut("anyOf")
                && branches.iter().any(|branch| branch.get("enum").is_some())
            {
                branches.retain(|branch| *branch != json!({ "type": "string" }));
            }
            keywords.values_mut().for_each(close);
        }
        Value::Array(values) => values.iter_mut().for_each(close),
        _ => {}
    }
}

/// What an answer does against its schema, place by place; empty where it keeps to it.
pub(crate) fn faults(validator: &jsonschema::Validator, answer: &Value) -> Vec<String> {
    validator.iter_errors(answer).map(|error| format!("{}: {error}", error.instance_path())).collect()
}
