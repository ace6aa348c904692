//! The committed header is the one that cbindgen makes from the source.
//!
//! `SHOPHEAD_WRITE=1 cargo test -p shophead-ffi --test header` writes it again.

use std::fs;
use std::path::Path;

const BEGINNING: &str = "\
// The C interface of shophead: solid-rivet calculations for airframe sheet metal.
//
// It advises. The maintenance and repair manuals of the type, approved data, local rules and a licensed person decide. What has the
// status SHOPHEAD_STATUS_MEMORY was recalled, not read: check it before relying on it.
//
// What holds for every function:
//
// - Lengths are whole nanometres in int64_t; the inch is 25400000. SHOPHEAD_NONE stands for a length that is not there.
// - Inputs come before outputs. Outputs are written only when the answer is SHOPHEAD_OK, and then all of them.
// - All memory is the caller's. Nothing is allocated, nothing is kept after a function has returned, nothing has to be freed.
// - NULL is an error, but for an array or a text of which there are none. What a pointer points to must be set and must stay as it is
//   during the call; outputs and room must not overlap inputs or each other.
// - There is no state: any thread may call any function at any time.
// - Texts handed in have a length and need no zero byte at the end. Enumerations are handed in as uint32_t and checked.
//
// crates/ffi/README.md has an example and how to link. Made by cbindgen from crates/ffi/src: do not edit.
";

/// What cbindgen makes, with plain pointers for those of `border.rs`, which it writes as names of their own: `Out_int64_t place`
/// becomes `int64_t *place`.
fn made() -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let config = cbindgen::Config::from_file(folder.join("cbindgen.toml")).expect("cbindgen.toml");
    let bindings = cbindgen::Builder::new().with_crate(folder).with_config(config).generate().expect("a header");
    let mut bytes = Vec::new();
    bindings.write(&mut bytes);
    let text = String::from_utf8(bytes).expect("UTF-8");

    let mut pointers = Vec::new();
    let mut kept: Vec<&str> = Vec::new();
    for line in text.lines() {
        let Some(pointer) = line.strip_prefix("typedef ").and_then(|rest| rest.strip_suffix(';')) else {
            kept.push(line);
            continue;
        };
        let Some((target, name)) = pointer.split_once(" *") else {
            kept.push(line);
            continue;
        };
        assert!(
            name.starts_with("In_") || name.starts_with("Out_"),
            "a pointer type that this test does not know: {line}"
        );
        pointers.push((format!("{name} "), format!("{target} *")));
        while kept.last().is_some_and(|line| line.is_empty() || line.starts_with("//")) {
            kept.pop();
        }
    }
    assert!(!pointers.is_empty(), "cbindgen writes the pointers of border.rs in another way now");
    // The longest name first: one may begin with another.
    pointers.sort_by_key(|(name, _)| std::cmp::Reverse(name.len()));
    let mut text = kept.join("\n") + "\n";
    for (name, pointer) in &pointers {
        text = text.replace(name.as_str(), pointer);
    }
    assert!(!text.contains("In_") && !text.contains("Out_"), "a pointer was left over:\n{text}");
    format!("{BEGINNING}\n{text}")
}

#[test]
fn the_committed_header_is_the_one_that_the_source_makes() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("include/shophead.h");
    let made = made();
    if std::env::var_os("SHOPHEAD_WRITE").is_some() {
        fs::write(&path, &made).expect("the header can be written");
    }
    let committed = fs::read_to_string(&path).unwrap_or_default();
    let difference = made.lines().zip(committed.lines()).find(|(made, committed)| made != committed);
    assert!(
        made == committed,
        "include/shophead.h is not what the source makes (first difference: {difference:?}); \
         SHOPHEAD_WRITE=1 cargo test -p shophead-ffi --test header writes it again"
    );
}
