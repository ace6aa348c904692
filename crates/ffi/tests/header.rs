//! The committed header is the one that cbindgen makes from the source.
//!
//! `SHOPHEAD_WRITE=1 cargo test -p shophead-ffi --test header` writes it again.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use shophead::basis::Status;
use shophead::finding::{Code, Severity};
use shophead::hole::{Damage, Direction, Disposition};
use shophead::joint::strength::Mode;
use shophead::practice::Name;
use shophead::select::Difference;
use shophead::stack::{Preparation, Role};
use shophead::structure::Member;
use shophead::upset::Remedy;
use shophead::words::Word;
use shophead_ffi::error::{CORE, OWN};
use shophead_ffi::finding::KINDS;

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

/// A name of the header, its number, and what it means.
type Line = (String, u32, String);

/// A list of words of the core: names are the words in capitals behind a prefix.
fn words<T: Word>(prefix: &str, none: &[(&str, &str)]) -> Vec<Line> {
    let none = none.iter().map(|(name, meaning)| (format!("{prefix}_{name}"), 0, (*meaning).to_owned()));
    let all = T::ALL.iter().map(|value| {
        let name = format!("{prefix}_{}", value.as_str().replace('-', "_").to_uppercase());
        (name, value.number(), value.meaning().to_owned())
    });
    none.chain(all).collect()
}

/// The lists that the core keeps: what each type of the header holds.
fn lists() -> Vec<(&'static str, Vec<Line>)> {
    let own = OWN.iter().map(|(name, number, meaning, _)| ((*name).to_owned(), *number, (*meaning).to_owned()));
    let core = CORE.iter().copied().flatten().map(|line| {
        let name = format!("SHOPHEAD_ERROR_{}", line.word.replace('-', "_").to_uppercase());
        (name, line.number, line.meaning.to_owned())
    });
    // The limits of driven heads were named before their words.
    let short = |(name, number, meaning): Line| (name.replace("_LIMIT_DRIVEN_HEAD_", "_LIMIT_HEAD_"), number, meaning);
    let limits = words::<Name>("SHOPHEAD_LIMIT", &[]).into_iter().map(short).collect();
    let kinds = KINDS.iter().map(|(name, number, meaning)| ((*name).to_owned(), *number, (*meaning).to_owned()));
    vec![
        ("shophead_error", own.chain(core).collect()),
        ("shophead_figure_kind", kinds.collect()),
        ("shophead_severity", words::<Severity>("SHOPHEAD_SEVERITY", &[])),
        ("shophead_code", words::<Code>("SHOPHEAD_CODE", &[("UNKNOWN", "A kind that this list does not have yet.")])),
        ("shophead_status", words::<Status>("SHOPHEAD_STATUS", &[("NONE", "No figure, no basis.")])),
        ("shophead_limit_name", limits),
        ("shophead_role", words::<Role>("SHOPHEAD_ROLE", &[])),
        ("shophead_preparation", words::<Preparation>("SHOPHEAD_PREPARATION", &[])),
        ("shophead_damage", words::<Damage>("SHOPHEAD_DAMAGE", &[])),
        ("shophead_direction", words::<Direction>("SHOPHEAD_DIRECTION", &[])),
        ("shophead_member", words::<Member>("SHOPHEAD_MEMBER", &[])),
        ("shophead_disposition", words::<Disposition>("SHOPHEAD_DISPOSITION", &[])),
        ("shophead_remedy", words::<Remedy>("SHOPHEAD_REMEDY", &[("NONE", "It may stay.")])),
        (
            "shophead_mode",
            words::<Mode>("SHOPHEAD_MODE", &[("NONE", "Not known: a part of the strength is not published.")]),
        ),
        ("shophead_difference", words::<Difference>("SHOPHEAD_DIFFERENCE", &[("NONE", "They do not differ.")])),
    ]
}

/// An enumeration as cbindgen writes one.
fn enumeration(name: &str, mut lines: Vec<Line>) -> String {
    lines.sort_by_key(|(_, number, _)| *number);
    let sized = "#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L\n  : uint32_t\n#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L\n";
    let mut text = format!("enum {name}\n{sized} {{\n");
    for (name, number, meaning) in lines {
        writeln!(text, "  // {meaning}\n  {name} = {number},").expect("a string takes everything");
    }
    let tail = "#ifndef __cplusplus\n#if __STDC_VERSION__ >= 202311L\ntypedef enum NAME NAME;\n#else\ntypedef uint32_t NAME;\n#endif // __STDC_VERSION__ >= 202311L\n#endif // __cplusplus";
    text + "};\n" + &tail.replace("NAME", name)
}

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
    for (name, lines) in lists() {
        let plain = format!("\ntypedef uint32_t {name};\n");
        assert!(text.contains(&plain), "{name} is no number of the header any more");
        text = text.replace(&plain, &format!("\n{}\n", enumeration(name, lines)));
    }
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
