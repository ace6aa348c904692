//! The page of promises names tests that are there, and is printed as it stands.

use std::fs;
use std::path::Path;

use crate::{schema, shophead};

#[test]
fn every_promise_names_what_shows_it_and_that_is_there() {
    let root = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."));
    let run = shophead("sources --promises --format json");
    assert_eq!(run.status, Some(0), "{run}");
    let answer = schema::read(&run.stdout);
    let promises = answer["result"]["promises"].as_array().expect("promises");
    assert!(promises.len() > 20, "{}", promises.len());
    let mut tests = 0;
    for promise in promises {
        let shown_by = promise["shown_by"].as_str().expect("a test or a command");
        assert!(promise["promise"].as_str().is_some_and(|text| text.ends_with('.')), "{promise}");
        for shown in shown_by.split(", ").filter(|shown| !shown.starts_with("cargo ")) {
            let (file, test) = shown.split_once(": ").unwrap_or((shown, ""));
            let file = file.split(' ').next().expect("a file");
            let text = fs::read_to_string(root.join(file)).unwrap_or_else(|error| panic!("{file}: {error}"));
            assert!(test.is_empty() || text.contains(&format!("fn {test}(")), "{file} has no test {test}");
            tests += usize::from(!test.is_empty());
        }
    }
    assert!(tests > 15, "{tests}");
    let text = shophead("sources --promises --width 80").stdout;
    for part in ["Arithmetic\n", "What the figures leave out\n", "no_choice_within_the_limits_is_better"] {
        assert!(text.contains(part), "{text}");
    }
    assert!(!answer["result"]["left_out"].as_array().expect("a list").is_empty());
}
