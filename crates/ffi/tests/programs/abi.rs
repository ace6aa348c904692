//! What a program may rely on, written down: numbers, words, sizes, places of members, functions. `abi/version-N.txt` holds it for number N of
//! the interface; within one number nothing in it changes and nothing goes, lines are only added.
//!
//! `SHOPHEAD_WRITE=1 cargo test -p shophead-ffi --test programs abi` adds lines; to change one, raise `SHOPHEAD_ABI_VERSION`.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::process::Command;

use crate::compile::{Language, compile, outcome, package, run, shared_library, text};

/// The committed header, taken apart.
pub(crate) struct Header {
    pub(crate) functions: Vec<Function>,
    structs: Vec<(String, Vec<Member>)>,
    /// Names of enumerators and of constants.
    numbers: Vec<String>,
}

pub(crate) struct Function {
    pub(crate) name: String,
    pub(crate) gives: String,
    whole: String,
}

struct Member {
    kind: String,
    name: String,
}

impl Header {
    pub(crate) fn committed() -> Header {
        let text = fs::read_to_string(package().join("include/shophead.h")).expect("the header");
        let code = |line: &&str| !line.trim_start().starts_with("//") && !line.trim_start().starts_with('#');
        let mut header = Header { functions: Vec::new(), structs: Vec::new(), numbers: Vec::new() };
        for line in text.lines().filter(|line| line.starts_with("#define SHOPHEAD_")) {
            let mut words = line.split_whitespace().skip(1);
            let name = words.next().expect("a name");
            if words.next().is_some() {
                header.numbers.push(name.into());
            }
        }
        let body: Vec<&str> = text.lines().filter(code).collect();
        let body = body.join("\n");
        for item in body.split(';') {
            let item = item.trim();
            if let Some((name, members)) = item.strip_prefix("struct ").and_then(|rest| rest.split_once(" {\n")) {
                header.structs.push((name.into(), vec![member(members)]));
            } else if let Some((_, list)) = item.split_once("{\n").filter(|_| item.contains("enum shophead_")) {
                let names =
                    list.lines().filter_map(|line| line.split_once(" = ")).map(|(name, _)| name.trim().to_string());
                header.numbers.extend(names);
            } else if let Some((before, _)) = item.split_once('(').filter(|_| !item.starts_with("typedef")) {
                let before = before.lines().last().unwrap_or(before);
                let (gives, name) = before.rsplit_once(' ').unwrap_or_else(|| panic!("not a function: {item}"));
                let whole =
                    item.lines().skip_while(|line| !line.contains('(')).map(str::trim).collect::<Vec<_>>().join(" ");
                header.functions.push(Function { name: name.into(), gives: gives.into(), whole });
            } else if let Some((_, members)) = header.structs.last_mut()
                && !item.starts_with('}')
                && !item.starts_with("typedef")
                && !item.is_empty()
            {
                members.push(member(item));
            }
        }
        assert!(
            header.functions.len() > 40 && header.structs.len() > 30 && header.numbers.len() > 200,
            "the header reads otherwise now"
        );
        header
    }
}

fn member(text: &str) -> Member {
    let text = text.trim();
    let (kind, name) = text.rsplit_once(' ').unwrap_or_else(|| panic!("not a member: {text}"));
    let (kind, name) = match name.strip_prefix('*') {
        Some(name) => (format!("{kind} *"), name),
        None => (kind.to_string(), name),
    };
    match name.split_once('[') {
        Some((name, _)) => Member { kind: format!("{kind}[]"), name: name.into() },
        None => Member { kind, name: name.into() },
    }
}

/// A program that prints all of it as the C compiler sees it.
fn program(header: &Header) -> String {
    let mut source = String::from("#include \"show.h\"\n\nint main(void) {\n");
    let mut say = |line: String| writeln!(source, "    {line}").expect("a string takes everything");
    for name in &header.numbers {
        say(format!("printf(\"number {name} %lld\\n\", (long long)({name}));"));
    }
    for (name, members) in &header.structs {
        say(format!("printf(\"struct {name} %zu bytes\\n\", sizeof(struct {name}));"));
        for member in members {
            let (kind, member) = (&member.kind, &member.name);
            say(format!(
                "printf(\"member {name}.{member} {kind} at %zu, %zu bytes\\n\", offsetof(struct {name}, {member}), \
                 sizeof(((struct {name} *)0)->{member}));"
            ));
        }
    }
    say("for (uint32_t list = 1; list < 100; list++) for (uint32_t number = 1; number < 1000; number++) {".into());
    say("    struct shophead_text word;".into());
    say("    if (shophead_word(list, number, &word) == SHOPHEAD_OK) {".into());
    say("        printf(\"word %u %u \", list, number);".into());
    say("        show_text(stdout, word);".into());
    say("        printf(\"\\n\");".into());
    say("    }".into());
    say("}".into());
    say("return 0;".into());
    source + "}\n"
}

fn made() -> String {
    let header = Header::committed();
    let folder = tempfile::tempdir().expect("a folder");
    let (source, binary) = (folder.path().join("abi.c"), folder.path().join("abi"));
    fs::write(&source, program(&header)).expect("a program");
    let include = format!("-I{}", package().join("tests/c").display());
    compile(Language::C11, &source, &binary, &[&include]);
    let mut printed = run(&binary, [""; 0]);
    for function in &header.functions {
        writeln!(printed, "function {}", function.whole).expect("a string takes everything");
    }
    printed
}

#[test]
fn nothing_that_a_program_relies_on_changes_within_one_number_of_the_interface() {
    let number = shophead_ffi::version::SHOPHEAD_ABI_VERSION;
    let path = package().join(format!("abi/version-{number}.txt"));
    let made = made();
    let committed = fs::read_to_string(&path).unwrap_or_default();
    let now: BTreeSet<&str> = made.lines().collect();
    let gone: Vec<&str> = committed.lines().filter(|line| !now.contains(line)).collect();
    assert!(gone.is_empty(), "changed or gone within number {number} of the interface: {gone:#?}");
    if std::env::var_os("SHOPHEAD_WRITE").is_some() {
        fs::write(&path, &made).expect("the list can be written");
    }
    let before: BTreeSet<&str> = committed.lines().collect();
    let new: Vec<&str> = made.lines().filter(|line| !before.contains(line)).collect();
    assert!(
        new.is_empty() || std::env::var_os("SHOPHEAD_WRITE").is_some(),
        "new, and not in {}: {new:#?}; SHOPHEAD_WRITE=1 adds it",
        path.display()
    );
}

#[test]
fn the_shared_library_exports_the_functions_of_the_header_and_nothing_else() {
    let output = outcome(Command::new("nm").args(["-D", "--defined-only"]).arg(shared_library()));
    let listed = text(&output.stdout);
    let exported: BTreeSet<&str> = listed.lines().filter_map(|line| line.split_whitespace().nth(2)).collect();
    let header = Header::committed();
    let declared: BTreeSet<&str> = header.functions.iter().map(|function| function.name.as_str()).collect();
    assert_eq!(exported, declared);
}

/// What is read from C must have a value for any bytes: the list `plain!` in `border.rs` holds the types, the header their members.
#[test]
fn what_is_read_from_c_has_no_wrong_values() {
    let border = fs::read_to_string(package().join("src/border.rs")).expect("border.rs");
    let (_, list) = border.split_once("\nplain! {\n").expect("the list");
    let (list, _) = list.split_once("\n}").expect("its end");
    let plain: BTreeSet<&str> = list
        .lines()
        .map(|line| line.trim().trim_end_matches(','))
        .map(|name| name.rsplit("::").next().unwrap_or(name))
        .collect();
    let sources: String = fs::read_dir(package().join("src"))
        .expect("the source")
        .map(|entry| fs::read_to_string(entry.expect("a file").path()).expect("a source file"))
        .collect();
    let header = Header::committed();
    let mut seen = 0;
    for (name, members) in header.structs.iter().filter(|(name, _)| plain.contains(name.as_str())) {
        seen += 1;
        for Member { kind, name: member } in members {
            // A list of the core's is a number of its own type, which any number is.
            let number = ["uint32_t", "int64_t", "size_t", "double"].contains(&kind.as_str())
                || sources.contains(&format!("pub struct {kind}(pub u32);"));
            let pointer = kind.starts_with("const ") && kind.ends_with(" *");
            let inner = kind.strip_prefix("struct ").is_some_and(|inner| plain.contains(inner));
            assert!(number || pointer || inner, "{name}.{member} is a {kind}: not every value of it is one");
        }
    }
    assert_eq!(seen, plain.len() - 1, "a type of the list, besides c_char, is not in the header: {plain:?}");
}

#[test]
fn unsafe_blocks_stand_in_one_file_only() {
    let mut files = 0;
    for entry in fs::read_dir(package().join("src")).expect("the source") {
        let path = entry.expect("a file").path();
        let source = fs::read_to_string(&path).expect("a source file");
        files += 1;
        if !path.ends_with("border.rs") {
            assert!(!source.contains("unsafe {") && !source.contains("unsafe impl"), "{}", path.display());
            assert!(!source.contains("unsafe fn"), "{}", path.display());
        }
    }
    assert!(files > 15, "{files} files");
}
