//! `sources` lists every place in a document that the core names.

use std::collections::BTreeSet;
use std::path::Path;

use crate::shophead;

/// Document, place and status as `sources` lists them under every practice.
fn listed() -> BTreeSet<[String; 3]> {
    let mut listed = BTreeSet::new();
    for practice in ["handbook", "process"] {
        let value = shophead(&format!("sources --practice {practice} --format json")).json(0);
        for source in value["result"]["sources"].as_array().unwrap() {
            listed.insert(["document", "place", "status"].map(|key| source[key].as_str().unwrap().to_owned()));
        }
    }
    listed
}

/// Every `Basis::published("document", "place")` and its like in a file, tests and comments left out. `Err` is one whose words stand
/// elsewhere.
fn named(code: &str) -> Vec<Result<[String; 3], String>> {
    let product = code.split("#[cfg(test)]").next().unwrap_or_default();
    let lines: Vec<&str> = product.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
    let product = lines.join(" ");
    let mut named = Vec::new();
    for status in ["published", "memory", "practice"] {
        let wanted = if status == "practice" { 1 } else { 2 };
        for (_, rest) in
            product.match_indices(&format!("Basis::{status}(")).map(|(at, found)| (at, &product[at + found.len()..]))
        {
            let mut texts = Vec::new();
            let mut left = rest.trim_start();
            while texts.len() < wanted {
                let Some((text, after)) = left.strip_prefix('"').and_then(|left| left.split_once('"')) else { break };
                texts.push(text.to_owned());
                left = after.trim_start().trim_start_matches(',').trim_start();
            }
            named.push(match (status, texts.as_slice()) {
                ("practice", [place]) => Ok(["common practice".to_owned(), place.clone(), status.to_owned()]),
                (_, [document, place]) => Ok([document.clone(), place.clone(), status.to_owned()]),
                _ => Err(rest.chars().take(60).collect()),
            });
        }
    }
    named
}

fn files(folder: &Path, found: &mut Vec<std::path::PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("the core's sources") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn every_basis_that_the_core_names_is_listed() {
    let core = Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/src");
    let mut paths = Vec::new();
    files(&core, &mut paths);
    let listed = listed();
    let (mut count, mut missing, mut elsewhere) = (0, Vec::new(), BTreeSet::new());
    for path in paths {
        let code = std::fs::read_to_string(&path).expect("a source file");
        let name = path.strip_prefix(&core).expect("below it").display().to_string();
        for basis in named(&code) {
            match basis {
                Ok(basis) if listed.contains(&basis) => count += 1,
                Ok(basis) => missing.push(format!("{name}: {basis:?}")),
                Err(_) => {
                    elsewhere.insert(name.clone());
                }
            }
        }
    }
    assert!(missing.is_empty(), "add these to a list BASES and to `sources`:\n{}", missing.join("\n"));
    assert!(count > 150, "the core names far more places, found {count}");
    // Places that are put together while running: rows of tables, which `sources` walks through, and the sheet of a series that would
    // have the missing dimension. A new file here needs a look.
    let known = ["material/name_table.rs", "material/rivet_alloy_table.rs", "material/sheet_table.rs", "rivet/mod.rs"];
    assert_eq!(elsewhere.iter().map(String::as_str).collect::<Vec<_>>(), known);
}

#[test]
fn the_search_finds_every_way_of_writing_a_basis() {
    let code = "const A: Basis = Basis::memory(\n    \"D 1\",\n    \"p 2\",\n);\n// Basis::memory(\"x\", \"y\")\n\
                fn f() { Basis::practice(\"z\") }\nBasis::published(d, \"p\")\n#[cfg(test)]\nBasis::practice(\"t\")";
    let found = named(code);
    assert_eq!(found.len(), 3);
    assert!(found.contains(&Ok(["D 1", "p 2", "memory"].map(str::to_owned))));
    assert!(found.contains(&Ok(["common practice", "z", "practice"].map(str::to_owned))));
}
