//! A structure whose fields are all public can be made by anybody, so that a field more breaks everybody. What will grow is
//! `#[non_exhaustive]`, with a constructor where callers make it; what is left open stands here, with why. Enumerations likewise: one that
//! may get another value is `#[non_exhaustive]`, as every error is; one of which all values are known stands here.

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
    ("job", "MarkedDistance", "drawn by who says every part of it"),
    ("job", "GroupDrawing", "drawn by who says every part of it"),
    ("job", "GroupPoint", "the columns of a points file"),
    ("job", "Other", "what it is and how many"),
    ("job", "Outline", "drawn by who says every part of it"),
    ("job", "Piece", "a line of a parts list"),
    ("job", "PlacedRivet", "a line of a drawing's holes"),
    ("job", "RepairDrawing", "drawn by who says every part of it"),
    ("job", "RowBar", "drawn by who says every part of it"),
    ("job", "RowsDrawing", "drawn by who says every part of it"),
    ("job", "WorkingSheet", "drawn by who says every part of it"),
    ("job", "Taken", "who, when and with which gauges"),
];

/// Crate and enumeration, and why there will be no other value.
const CLOSED: &[(&str, &str, &str)] = &[
    ("core", "Bar", "none, up to a size, or any"),
    ("core", "Bare", "the two systems of units"),
    ("core", "Clearance", "none, so much, or all"),
    ("core", "Critical", "shear or bearing: the rows of the printed tables"),
    ("core", "Cut", "corners or a measured line; a drawing that missed one would leave an edge out"),
    ("core", "Direction", "along or across"),
    ("core", "Disposition", "the steps of the ladder; whoever missed one would drive the wrong rivet"),
    ("core", "LengthRounding", "up or to the nearest"),
    ("core", "LoadKind", "limit or ultimate: 14 CFR 25.301 knows no other"),
    ("core", "Origin", "a document or an earlier step"),
    ("core", "Pulled", "two ends"),
    ("core", "Sizing", "sized, sized with advice, or refused; whoever missed the refusal would size it"),
    ("core", "SeamFastener", "rivets or AN-3 bolts: the columns of the printed tables"),
    ("core", "Severity", "note, caution, refer; the exit status and C rank by them"),
    ("core", "Shear", "one plane or two"),
    ("core", "Status", "entered, read, practice, recalled; scripts rank by them"),
    ("core", "Transfer", "the load goes through, or in and back out"),
    ("core", "Units", "the two systems of units"),
    ("core", "UpperBound", "the tail or the head"),
    ("core", "Fastener", "rivets or AN-3 bolts: the columns of the printed tables"),
    ("core", "FastenerPlace", "between two plates or in one"),
    ("job", "Anchor", "two ends and the middle"),
    ("job", "Axis", "four directions"),
    ("job", "HoleAnswered", "answered, lapsed or open"),
    ("job", "ReadError", "nothing to read, or nothing right in it: the exit status"),
    ("job", "ToolKind", "each has its form in an order; whoever missed one would leave a tool at home"),
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

/// The enumerations of a source that can get no other value: of declarations, and of the lists of words.
fn closed_enumerations(source: &str) -> Vec<&str> {
    let mut closed = Vec::new();
    let (mut can_grow, mut is_list) = (false, false);
    for line in source.lines().map(str::trim_start) {
        let listed = line.split_once(", \"").filter(|(_, behind)| is_list && behind.ends_with("\" {"));
        let name = line.strip_prefix("pub enum ").or(listed.map(|(name, _)| name));
        if let Some(name) = name.and_then(|name| name.split(|c: char| !c.is_alphanumeric() && c != '$').next()) {
            if !can_grow {
                closed.push(name);
            }
            (can_grow, is_list) = (false, false);
        } else if line.ends_with("words! {") {
            (can_grow, is_list) = (false, true);
        } else {
            can_grow = line == "#[non_exhaustive]" || can_grow && line.starts_with(['#', '/', '$']);
            is_list = is_list && line.starts_with(['#', '/']);
        }
    }
    closed
}

fn all_sources() -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    for room in ["core", "job"] {
        let mut files = Vec::new();
        sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates").join(room).join("src"), &mut files);
        assert!(files.len() > 20, "{room}");
        all.extend(files.into_iter().map(|file| (room, fs::read_to_string(file).expect("a source"))));
    }
    all
}

#[test]
fn an_enumeration_that_will_grow_says_so() {
    let all = all_sources();
    let names = all.iter().flat_map(|(room, source)| closed_enumerations(source).into_iter().map(|name| (*room, name)));
    // The macro of the lists of words: what each of them says is looked at where it stands.
    let found: BTreeSet<_> = names.filter(|(_, name)| *name != "$name").collect();
    let listed: BTreeSet<_> = CLOSED.iter().map(|(room, name, _)| (*room, *name)).collect();
    let new: Vec<_> = found.difference(&listed).collect();
    assert!(new.is_empty(), "non_exhaustive, or a line here with why all values are known: {new:?}");
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(gone.is_empty(), "no longer closed: its line can go: {gone:?}");
}

#[test]
fn a_closed_enumeration_is_seen() {
    let closed = "#[derive(Clone)]\npub enum A<'a> {\n    B(&'a str),\n}\ncrate::words::words! {\n    /// C.\n    C, \"c\" {\n        D = 1, \"d\", \"D.\";\n    }\n}\n";
    assert_eq!(closed_enumerations(closed), ["A", "C"]);
    assert_eq!(closed_enumerations(&closed.replace("#[derive", "#[non_exhaustive]\n#[derive")), ["C"]);
    assert_eq!(closed_enumerations(&closed.replace("    C, ", "    #[non_exhaustive]\n    C, ")), ["A"]);
    // Every error can grow: its macro says so.
    let errors = include_str!("../../crates/core/src/words/errors.rs");
    assert!(errors.contains("pub enum $name"));
    assert_eq!(closed_enumerations(errors), [""; 0]);
}

#[test]
fn what_will_grow_cannot_be_made_field_by_field() {
    let mut found = BTreeSet::new();
    for (room, source) in all_sources() {
        found.extend(open_structures(&source).into_iter().map(|name| (room, name.to_owned())));
    }
    let listed: BTreeSet<_> = OPEN.iter().map(|(room, name, _)| (*room, (*name).to_owned())).collect();
    let new: Vec<_> = found.difference(&listed).collect();
    assert!(new.is_empty(), "non_exhaustive and a constructor, or a line here with why it will not grow: {new:?}");
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(gone.is_empty(), "no longer open: its line can go: {gone:?}");
}

/// The public types of a source: of declarations, and of the lists of words and errors.
fn public_types(source: &str) -> Vec<&str> {
    let mut names = Vec::new();
    let mut is_list = false;
    for line in source.lines().map(str::trim_start) {
        let declared =
            ["pub struct ", "pub enum ", "pub trait ", "pub type "].iter().find_map(|kind| line.strip_prefix(kind));
        let is_listed = is_list && line.starts_with(char::is_uppercase);
        if let Some(name) = declared.or(is_listed.then_some(line)) {
            names.extend(name.split(|c: char| !c.is_alphanumeric() && c != '$').next().filter(|name| *name != "$name"));
        }
        is_list = line.ends_with("words! {") || line.ends_with("errors! {") || is_list && line.starts_with(['#', '/']);
    }
    names
}

#[test]
fn one_word_means_one_thing_in_core_and_job() {
    let mut all: Vec<String> = Vec::new();
    for (_, source) in all_sources() {
        all.extend(public_types(&source).into_iter().map(str::to_owned));
    }
    assert!(all.len() > 300, "{}", all.len());
    all.sort();
    let twice: Vec<_> = all.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| &pair[0]).collect();
    assert!(twice.is_empty(), "a word of its own for each: {twice:?}");
}

#[test]
fn a_public_type_is_seen() {
    let source = "pub struct A<'a>(&'a str);\npub(crate) struct B;\npub enum $name {}\ncrate::words::words! {\n    /// C.\n    #[non_exhaustive]\n    C, \"c\" {\n        D = 1, \"d\", \"D.\";\n    }\n}\ncrate::words::errors! {\n    E = (1, \"e\", \"E.\", \"e\",\n        \"f\") {\n    }\n}\npub type G = u8;\n";
    assert_eq!(public_types(source), ["A", "C", "E", "G"]);
}

#[test]
fn an_open_structure_is_seen() {
    let open = "/// A.\n#[derive(Clone)]\npub struct A<'a> {\n    /// B.\n    pub b: &'a str,\n}\n";
    assert_eq!(open_structures(open), ["A"]);
    assert_eq!(open_structures(&open.replace("#[derive", "#[non_exhaustive]\n#[derive")), [""; 0]);
    assert_eq!(open_structures(&open.replace("    pub b", "    c: u8,\n    pub b")), [""; 0]);
}
