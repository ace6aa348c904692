//! Drawings stay as they were when somebody last looked at them: `tests/drawn`. With `SHOPHEAD_WRITE=1` they are drawn anew; look at what changed.

use std::fs;
use std::path::Path;

use crate::shophead;

const DRAWN: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/drawn");
const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo");

/// Numbers and what is between them.
fn pieces(line: &str) -> Vec<&str> {
    let is_figure = |c: char| c.is_ascii_digit() || c == '.';
    let mut found = Vec::new();
    let mut rest = line;
    while let Some(first) = rest.chars().next() {
        let end = rest.find(|c| is_figure(c) != is_figure(first)).unwrap_or(rest.len());
        found.push(&rest[..end]);
        rest = &rest[end..];
    }
    found
}

/// A place may be a hundredth off: another system's sine is apart in the last bit.
fn alike(one: &str, other: &str) -> bool {
    let (one, other) = (pieces(one), pieces(other));
    let near = |(one, other): (&&str, &&str)| {
        let numbers = one.parse::<f64>().ok().zip(other.parse::<f64>().ok());
        one == other || numbers.is_some_and(|(one, other)| (one - other).abs() < 0.011)
    };
    one.len() == other.len() && one.iter().zip(&other).all(near)
}

#[track_caller]
fn same(name: &str, drawn: &str) {
    let kept = Path::new(DRAWN).join(name);
    if std::env::var_os("SHOPHEAD_WRITE").is_some() {
        fs::write(&kept, drawn).expect("written");
    }
    let kept = fs::read_to_string(&kept).unwrap_or_default();
    let apart = kept.lines().zip(drawn.lines()).position(|(one, other)| !alike(one, other));
    let is_same = apart.is_none() && kept.lines().count() == drawn.lines().count();
    assert!(is_same, "{name}, line {:?}; SHOPHEAD_WRITE=1 draws it anew", apart.map(|line| line + 1));
}

#[test]
fn a_line_drawn_elsewhere_is_seen() {
    assert!(alike("x=\"12.34\" y=\"-5\"", "x=\"12.35\" y=\"-5\""));
    for other in ["x=\"12.36\" y=\"-5\"", "x=\"12.34\" y=\"5\"", "x=\"12.34\"", "x=\"12.34\" z=\"-5\""] {
        assert!(!alike("x=\"12.34\" y=\"-5\"", other), "{other}");
    }
}

#[test]
fn maps_and_templates_are_drawn_as_they_were() {
    let folder = tempfile::tempdir().expect("a folder");
    for job in ["keel-skin", "marsh-float"] {
        for (drawing, ending) in [("map", "svg"), ("template", "html")] {
            let file = folder.path().join(drawing);
            // 1: some holes must be referred.
            shophead(&format!("{drawing} {DEMO}/{job}/job.toml -o {}", file.display())).printed(1);
            same(&format!("{job}-{drawing}.{ending}"), &fs::read_to_string(file).expect("a drawing"));
        }
    }
}

#[test]
fn joints_and_groups_are_drawn_as_they_were() {
    let rows = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge 1/2 --pitch .75 --transverse-pitch .5 --rows 4";
    same("rows.svg", shophead(&format!("{rows} --strip-load 300 --format svg")).printed(0));
    let group = "--load 0,-900 --at 3,.2 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge 1/2 --format svg";
    same("group.svg", shophead(&format!("group {DEMO}/hull-side/points.csv {group}")).printed(0));
}
