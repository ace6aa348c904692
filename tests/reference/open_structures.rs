//! A structure whose fields are all public can be made by anybody, so that a field more breaks everybody. What will grow is
//! `#[non_exhaustive]`, with a constructor where callers make it; what is left open stands here, with why.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Crate and structure, and why it will not grow.
const OPEN: &[(&str, &str, &str)] = &[
    ("core", "Allowable", "a force and its source"),
    ("core", "Citation", "where a source stands"),
    ("core", "Countersink", "a cone: how wide and how deep"),
    ("core", "Document", "where a source stands"),
    ("core", "Edge", "two ends"),
    ("core", "Factor", "a factor and its source"),
    ("core", "Given", "a figure and its source"),
    ("core", "LengthTolerance", "a length and its source"),
    ("core", "Load", "a force and its kind"),
    ("core", "Point", "two coordinates"),
    ("core", "Station", "two coordinates along a line"),
    ("core", "Symbol", "a letter and its meaning"),
    ("core", "Vector", "two components"),
    ("core", "Zigzag", "the two distances of a diagonal"),
    ("job", "Card", "drawn by who says every part of it"),
    ("job", "Dimension", "drawn by who says every part of it"),
    ("job", "GroupDrawing", "drawn by who says every part of it"),
    ("job", "GroupPoint", "the columns of a points file"),
    ("job", "Other", "what it is and how many"),
    ("job", "Outline", "drawn by who says every part of it"),
    ("job", "Piece", "a line of a parts list"),
    ("job", "Place", "a line of a drawing's holes; line and column of a file"),
    ("job", "RepairDrawing", "drawn by who says every part of it"),
    ("job", "RowBar", "drawn by who says every part of it"),
    ("job", "RowsDrawing", "drawn by who says every part of it"),
    ("job", "Sheet", "drawn by who says every part of it"),
    ("job", "Taken", "who, when and with which gauges"),
];

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        match path.extension() {
            None if path.is_dir() => sources(&path, found),
            Some(extension) if extension == "rs" => found.push(path),
            _ => {}
        }
    }
}

/// The structures of a source whose fields are all public, and that nothing keeps from being made.
fn open_structures(source: &str) -> Vec<&str> {
    let mut open = Vec::new();
    let mut lines = source.lines();
    let mut can_grow = false;
    while let Some(line) = lines.next() {
        let Some(declared) = line.strip_prefix("pub struct ") else {
            can_grow = line.contains("non_exhaustive") || can_grow && line.starts_with(['#', '/']);
            continue;
        };
        let name = declared.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
        if can_grow || !line.ends_with('{') {
            continue;
        }
        let fields: Vec<&str> = (lines.by_ref().take_while(|line| *line != "}"))
            .map(str::trim_start)
            .filter(|line| !line.starts_with("//") && !line.starts_with('#'))
            .collect();
        if fields.iter().any(|field| field.starts_with("pub ")) && fields.iter().all(|field| !field.is_empty()) {
            let is_private = |field: &&str| {
                field.split_once(": ").is_some_and(|(name, _)| name.chars().all(|c| c.is_alphanumeric() || c == '_'))
            };
            if !fields.iter().any(is_private) && !fields.iter().any(|field| field.starts_with("pub(")) {
                open.push(name);
            }
        }
    }
    open
}

#[test]
fn what_will_grow_cannot_be_made_field_by_field() {
    let mut found = BTreeSet::new();
    for room in ["core", "job"] {
        let mut files = Vec::new();
        sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates").join(room).join("src"), &mut files);
        assert!(files.len() > 20, "{room}");
        for file in files {
            let source = fs::read_to_string(&file).expect("a source");
            found.extend(open_structures(&source).into_iter().map(|name| (room, name.to_owned())));
        }
    }
    let listed: BTreeSet<_> = OPEN.iter().map(|(room, name, _)| (*room, (*name).to_owned())).collect();
    let new: Vec<_> = found.difference(&listed).collect();
    assert!(new.is_empty(), "non_exhaustive and a constructor, or a line here with why it will not grow: {new:?}");
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(gone.is_empty(), "no longer open: its line can go: {gone:?}");
}

#[test]
fn an_open_structure_is_seen() {
    let open = "/// A.\n#[derive(Clone)]\npub struct A<'a> {\n    /// B.\n    pub b: &'a str,\n}\n";
    assert_eq!(open_structures(open), ["A"]);
    assert_eq!(open_structures(&open.replace("#[derive", "#[non_exhaustive]\n#[derive")), [""; 0]);
    assert_eq!(open_structures(&open.replace("    pub b", "    c: u8,\n    pub b")), [""; 0]);
}
