//! Words that a reader has to read twice: nowhere in what is printed, nor in the pages that are read before.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use shophead::finding::Code;
use shophead::practice::Name;

use crate::bare;
use crate::manual::commands;

/// What an audit found in print, and what DEVELOPERS.md, 'Words', keeps out.
const RIDDLES: &[&str] = &[
    "sizes that are no sizes",
    "than nothing",
    "what only cautions",
    "held against",
    "hold it against",
    "first of equals",
    "driven that must",
    "that must be driven",
    "somebody who may decide",
    "may decide",
    "nothing that counts",
    "as the rule of thumb has it",
    "as it stands",
    "lengths that serve",
    "no length serves",
    "gives way",
    "give way first",
    "leads nowhere",
    "lies between the soft",
    "stand in no document",
    "stands in no document",
    "approval of the maker or the authority",
    "a figure that is needed here",
    "look it up before going on",
    "tail and bucking bar need",
    "lets every row be driven",
    "those of the rows that",
    "what one rivet carries in these layers",
    "visible defect",
    "driven head comes out 0",
    "the tail of the rule of thumb holds",
    "refers the hole and has none",
];

#[track_caller]
fn none_in(text: &str, whence: &str) {
    // A phrase may be broken over two lines.
    let flat = text.split_whitespace().filter(|word| !matches!(*word, "//" | "///" | "//!" | "#" | "*"));
    let flat = flat.collect::<Vec<_>>().join(" ").to_lowercase();
    for riddle in RIDDLES {
        if let Some(at) = flat.find(riddle) {
            let from = flat[..at].char_indices().rev().nth(60).map_or(0, |(from, _)| from);
            panic!("{whence} says {riddle:?}: ...{}", &flat[from..at + riddle.len()]);
        }
    }
}

#[test]
fn what_is_printed_has_no_riddles() {
    none_in(bare("--help").printed(0), "help");
    none_in(bare("man").printed(0), "the manual");
    none_in(bare("sources").printed(0), "sources");
    for command in commands() {
        none_in(bare(&format!("help {command}")).printed(0), &format!("help {command}"));
        none_in(bare(&format!("man {command}")).printed(0), &format!("man {command}"));
        let schema = bare(&format!("schema {command}"));
        if schema.status == Some(0) {
            none_in(&schema.stdout, &format!("schema {command}"));
        }
    }
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo");
    for job in ["keel-skin", "marsh-float"] {
        for command in ["plan", "order", "card", "map", "template"] {
            let more = if matches!(command, "card" | "map" | "template") { " --output -" } else { "" };
            let run = bare(&format!("{command} {demo}/{job}/job.toml{more}"));
            assert!(!run.stdout.is_empty(), "{run}");
            none_in(&run.stdout, &run.typed);
        }
    }
}

/// Also what no run above prints: each meaning of a finding and a limit, and every page and source of the project.
#[test]
fn no_table_page_or_source_has_a_riddle() {
    let mut tables = String::new();
    for meaning in Code::ALL.iter().map(|code| code.meaning()).chain(Name::ALL.iter().map(|name| name.meaning())) {
        writeln!(tables, "{meaning}").expect("a string takes everything");
    }
    none_in(&tables, "a table of the core");
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut read = 0;
    for file in pages(&root) {
        let text = fs::read_to_string(&file).expect("a page");
        none_in(&text, &file.display().to_string());
        read += 1;
    }
    assert!(read > 150, "only {read} files were read");
}

/// Pages, schemas, the C header and the sources, but for tests, which may name what they keep out.
fn pages(root: &Path) -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = vec![root.join("crates")];
    let mut found: Vec<PathBuf> = ["README.md", "DEVELOPERS.md"].map(|name| root.join(name)).to_vec();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
            let kind = path.extension().and_then(|end| end.to_str()).unwrap_or_default();
            if path.is_dir() {
                if !matches!(name.as_str(), "tests" | "target" | "benches") && !name.starts_with('.') {
                    folders.push(path);
                }
            } else if matches!(kind, "rs" | "md" | "h" | "json")
                && !name.contains("tests")
                // Its own list of what no sentence says.
                && name != "sentence.rs"
            {
                found.push(path);
            }
        }
    }
    found
}
