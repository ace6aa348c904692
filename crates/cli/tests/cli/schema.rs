//! Every JSON that a test sees is checked against the schema that the binary prints; here, that this can fail, and the command itself.

use std::collections::HashMap;
use std::sync::{LazyLock, Mutex};

use jsonschema::Validator;
use serde_json::{Value, json};

use crate::strict::{faults, strict};
use crate::{EXAMPLES, bare, shophead};

/// Strict, one a command, made when it is first needed.
static VALIDATORS: LazyLock<Mutex<HashMap<String, Validator>>> = LazyLock::new(Mutex::default);

/// What an answer does against the schema of its command.
#[track_caller]
pub(crate) fn faults_of(answer: &Value) -> Vec<String> {
    // One that does not is no answer of any.
    let Some(command) = answer["command"].as_str() else { return vec!["no command".to_owned()] };
    faults_against(command, answer)
}

/// What a line of a batch does against the schema of such lines.
#[track_caller]
pub(crate) fn faults_of_line(line: &Value) -> Vec<String> {
    faults_against(&format!("batch-{}", line["command"].as_str().unwrap_or_default()), line)
}

#[track_caller]
fn faults_against(command: &str, answer: &Value) -> Vec<String> {
    let mut validators = VALIDATORS.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    let validator = validators.entry(command.to_owned()).or_insert_with(|| {
        let schema = serde_json::from_str(bare(&format!("schema {command}")).printed(0)).expect("a schema");
        jsonschema::validator_for(&strict(schema)).expect("a schema that can be followed")
    });
    faults(validator, answer)
}

/// Reads an answer and checks it against its schema.
#[track_caller]
pub(crate) fn read(text: &str) -> Value {
    let answer: Value = serde_json::from_str(text).expect("one JSON value");
    let faults = faults_of(&answer);
    assert!(faults.is_empty(), "not as its schema says:\n{}\n{text}", faults.join("\n"));
    answer
}

/// Reads a line of a batch and checks it against its schema.
#[track_caller]
pub(crate) fn read_line(text: &str) -> Value {
    let line: Value = serde_json::from_str(text).expect("one JSON value");
    let faults = faults_of_line(&line);
    assert!(faults.is_empty(), "not as its schema says:\n{}\n{text}", faults.join("\n"));
    line
}

/// Reads a line of a plan in lines and checks it against its schema.
#[track_caller]
pub(crate) fn read_plan_line(text: &str) -> Value {
    let line: Value = serde_json::from_str(text).expect("one JSON value");
    let faults = faults_against("plan-lines", &line);
    assert!(faults.is_empty(), "not as its schema says:\n{}\n{text}", faults.join("\n"));
    line
}

/// Every object in an answer, by the path to it.
fn objects(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            found.push(path.to_owned());
            fields.iter().for_each(|(key, value)| objects(value, &format!("{path}/{key}"), found));
        }
        // The first of a list stands for all.
        Value::Array(values) => {
            values.iter().take(1).for_each(|value| objects(value, &format!("{path}/0"), found));
        }
        _ => {}
    }
}

/// Lists of what a command answers about, long enough to have most of the fields.
fn answers() -> Vec<Value> {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");
    let points = tempfile::Builder::new().suffix(".csv").tempfile().expect("a file");
    std::fs::write(points.path(), "x,y\n0,0\n1,0\n0,1\n").expect("written");
    let group = format!(
        "group {} --load 0,-50 --at 3,0 --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.064",
        points.path().display()
    );
    let mut typed: Vec<(String, i32)> = EXAMPLES.iter().map(|(typed, status)| ((*typed).to_owned(), *status)).collect();
    typed.push((group, 0));
    for command in ["plan", "order"] {
        typed.push((format!("{command} {demo}/job.toml"), 1));
    }
    typed.push((format!("inspect {demo}/job.toml {demo}/driven.csv"), 1));
    typed.iter().map(|(typed, status)| shophead(&format!("{typed} --format json")).json(*status)).collect()
}

#[test]
fn a_field_that_is_missing_unknown_or_of_another_kind_fails_wherever_it_stands() {
    // Fields that need not be there, by the end of their path.
    let optional = |path: &str, key: &str| {
        (path.is_empty() && key == "own_limits") || path.ends_with("/assumed/limits") || key == "predicted"
    };
    for answer in answers() {
        let command = answer["command"].clone();
        let mut paths = Vec::new();
        objects(&answer, "", &mut paths);
        assert!(paths.len() >= 4, "{command}");
        for path in paths {
            let keys: Vec<String> = answer.pointer(&path).unwrap().as_object().unwrap().keys().cloned().collect();
            let fails = |change: &dyn Fn(&mut serde_json::Map<String, Value>)| {
                let mut changed = answer.clone();
                change(changed.pointer_mut(&path).unwrap().as_object_mut().unwrap());
                !faults_of(&changed).is_empty()
            };
            assert!(fails(&|object| drop(object.insert("surprise".into(), json!(1)))), "{command} {path}: surprise");
            for key in keys {
                // No field is a list of lists.
                let other = json!([[]]);
                assert!(
                    fails(&|object| drop(object.insert(key.clone(), other.clone()))),
                    "{command} {path}/{key}: kind"
                );
                if !optional(&path, &key) {
                    assert!(fails(&|object| drop(object.remove(&key))), "{command} {path}/{key}: missing");
                }
            }
        }
    }
}

#[test]
fn schema_lists_the_commands_and_prints_and_keeps_each() {
    let list = bare("schema").printed(0).to_owned();
    assert!(list.contains("length\n") && list.contains("order\n"), "{list}");
    let folder = tempfile::tempdir().expect("a folder");
    assert_eq!(bare(&format!("schema --out {}", folder.path().display())).printed(0), "");
    for command in list.lines() {
        let kept =
            std::fs::read_to_string(folder.path().join(format!("shophead-{command}.schema.json"))).expect(command);
        assert_eq!(kept, bare(&format!("schema {command}")).printed(0));
    }
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), list.lines().count());
    let refused = bare("schema card");
    assert!(refused.refused().contains("possible values: length, head"), "{refused}");
    // Nothing is half written, and that it failed is told.
    let nowhere = bare("schema order --out /nowhere/at/all");
    assert_eq!((nowhere.status, nowhere.stdout.as_str()), (Some(3), ""), "{nowhere}");
    assert!(nowhere.stderr.contains("/nowhere/at/all"), "{nowhere}");
}
