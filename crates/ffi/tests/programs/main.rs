//! Real C and C++ programs, and a script, against the library.
//!
//! The plain ones need the C compiler that Rust links with. What needs more (a C++ compiler, valgrind, pkg-config, Python, another build of
//! the library) runs when asked for, as `.ci/run` does: `cargo test -p shophead-ffi --test programs -- --ignored`.
#![cfg(target_os = "linux")]

mod abi;
mod cases;
mod compile;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use compile::{Language, compile, outcome, package, run, same, shared_library, source, system_libraries, text};

/// Cases of each kind: enough that every error and every step of a hole comes up, few enough for valgrind.
const CASES: usize = 150;

/// A folder, the cases in it, and what the core answers.
struct Scratch {
    folder: tempfile::TempDir,
    answers: String,
}

impl Scratch {
    fn new(cases: usize) -> Scratch {
        let folder = tempfile::tempdir().expect("a folder");
        let cases::Cases { cases, answers } = cases::table(cases);
        fs::write(folder.path().join("cases"), cases).expect("the cases");
        Scratch { folder, answers }
    }

    fn cases(&self) -> PathBuf {
        self.folder.path().join("cases")
    }

    fn program(&self, language: Language, name: &str, more: &[&str]) -> PathBuf {
        let program = self.folder.path().join(name.replace('.', "-"));
        compile(language, &source(name), &program, more);
        program
    }
}

#[test]
fn a_c_program_gets_the_answers_of_the_core_byte_for_byte() {
    let scratch = Scratch::new(CASES);
    let program = scratch.program(Language::C11, "answers.c", &["-Wstrict-prototypes"]);
    same(&run(&program, [scratch.cases()]), &scratch.answers);
}

/// The cases are only worth something if they reach what can be reached.
#[test]
fn the_cases_come_to_every_step_of_a_hole_and_to_most_findings_and_errors() {
    let answers = Scratch::new(CASES).answers;
    let seen = |mark: &str| -> BTreeSet<&str> {
        answers.lines().filter_map(|line| line.trim_start().strip_prefix(mark)).collect()
    };
    for disposition in ["keep", "clean-up", "oversize", "next-size", "refer"] {
        assert!(answers.contains(&format!("  disposition {disposition} ")), "no hole came to {disposition}");
    }
    let codes: BTreeSet<&str> = seen("- ").iter().filter_map(|line| line.split(' ').next()).collect();
    assert!(codes.len() >= 30, "only {} kinds of findings: {codes:?}", codes.len());
    let errors = seen("error: ");
    assert!(errors.len() >= 22, "only {} errors: {errors:?}", errors.len());
}

#[test]
fn what_is_wrong_is_refused_and_touches_no_output() {
    let scratch = Scratch::new(0);
    let program = scratch.program(Language::C11, "errors.c", &["-Wstrict-prototypes"]);
    assert_eq!(run(&program, [""; 0]), "");
}

/// Every function that can fail stands in the table of `errors.c`.
#[test]
fn no_function_is_left_out_of_what_is_spoilt() {
    let scratch = Scratch::new(0);
    let program = scratch.program(Language::C11, "errors.c", &[]);
    let listed = run(&program, ["list"]);
    let listed: BTreeSet<&str> = listed.lines().collect();
    let header = abi::Header::committed();
    let fails = header.functions.iter().filter(|function| function.gives == "shophead_error");
    let missing: Vec<&str> =
        fails.map(|function| function.name.as_str()).filter(|name| !listed.contains(name)).collect();
    assert!(missing.is_empty(), "not tried with spoilt inputs: {missing:?}");
}

/// Whatever a finding names by its key is entered in C as in a limits file, and counts.
#[test]
fn a_shop_s_own_figures_answer_what_a_finding_names() {
    let scratch = Scratch::new(0);
    let program = scratch.program(Language::C11, "shop.c", &["-Wstrict-prototypes"]);
    same(&run(&program, [""; 0]), SHOP);
}

/// What `shop.c` prints: before and after each figure was entered.
const SHOP: &str = "\
NAS1241AD4-7
Head not on file: counted between its size's and the next's, up to .063 high. Enter series.NAS1241.head_height.4 in the limits file.
NAS1241AD4-7
MS20470AD5: not known
Layer 1: no published strength. Enter material.2219-T87.bearing_ultimate_20 in the limits file, or refer.
Layer 1: no published strength. Check it against approved data.
Layer 2: no published strength. Enter material.2219-T87.bearing_ultimate_20 in the limits file, or refer.
Layer 2: no published strength. Check it against approved data.
MS20470AD5: 595.7 lbf, AC 43.13-1B
Layer 1: no published strength. Check it against approved data.
Layer 2: no published strength. Check it against approved data.
MS20426D5: not known
Layer 1: no published strength. Enter flush.MS20426D5 in the limits file, or refer.
MS20426D5: 411.0 lbf, test report
MS20470AD5: not known
Layer 1: sheet too thin for the published strength, 0.101 D; table starts at 0.18 D. Enter plain.MS20470AD5 in the limits file, or refer.
MS20470AD5: 111.0 lbf, test report
";

#[test]
fn threads_do_not_disturb_each_other() {
    let scratch = Scratch::new(CASES);
    let program = scratch.program(Language::C11, "threads.c", &["-pthread"]);
    assert_eq!(run(&program, [scratch.cases()]), "");
}

#[test]
fn readmes_example_is_the_program_that_is_compiled_here() {
    let readme = fs::read_to_string(package().join("README.md")).expect("README.md");
    let (_, after) = readme.split_once("```c\n").expect("an example in C");
    let (example, _) = after.split_once("```").expect("its end");
    let written = package().join("examples/length.c");
    same(example, &fs::read_to_string(&written).expect("examples/length.c"));
    let scratch = Scratch::new(0);
    let program = scratch.folder.path().join("example");
    compile(Language::C11, &written, &program, &[]);
    let printed = run(&program, [""; 0]);
    assert!(readme.contains(&format!("It prints\n\n```text\n{printed}```")), "the example prints {printed}");
}

#[test]
#[ignore = "builds the library once more; .ci/run asks for it"]
fn readmes_line_for_static_linking_is_what_the_compiler_asks_for() {
    let mut cargo = Command::new(env!("CARGO"));
    cargo.args(["rustc", "-p", "shophead-ffi", "--lib", "--crate-type", "staticlib", "--"]);
    cargo.args(["--print", "native-static-libs"]).current_dir(package());
    let output = outcome(&mut cargo);
    let said = text(&output.stderr);
    let asked = said
        .lines()
        .find_map(|line| line.strip_prefix("note: native-static-libs: "))
        .unwrap_or_else(|| panic!("{said}"));
    let listed = system_libraries();
    assert_eq!(asked.split_whitespace().collect::<Vec<_>>(), listed.iter().map(String::as_str).collect::<Vec<_>>());
}

#[test]
#[ignore = "needs a C++ compiler; .ci/run asks for it"]
fn the_programs_are_cpp_too() {
    let scratch = Scratch::new(CASES);
    let answers = scratch.program(Language::Cpp17, "answers.c", &[]);
    same(&run(&answers, [scratch.cases()]), &scratch.answers);
    let errors = scratch.program(Language::Cpp17, "errors.c", &[]);
    assert_eq!(run(&errors, [""; 0]), "");
    let modern = scratch.program(Language::Cpp17, "modern.cpp", &[]);
    let printed = run(&modern, [""; 0]);
    assert!(printed.contains("keep: no\n  hole-over-limit\n") && printed.contains("oversize: yes\n"), "{printed}");
    assert!(printed.ends_with("not a part number; right would be a full number such as MS20470AD4-5\n"), "{printed}");
}

const VALGRIND: &[&str] =
    &["--quiet", "--error-exitcode=9", "--leak-check=full", "--show-leak-kinds=all", "--errors-for-leak-kinds=all"];

#[test]
#[ignore = "needs valgrind; .ci/run asks for it"]
fn valgrind_finds_nothing() {
    let scratch = Scratch::new(30);
    let under = |program: &Path, arguments: &[PathBuf]| {
        let mut valgrind = Command::new("valgrind");
        valgrind.args(VALGRIND).arg(program).args(arguments);
        outcome(&mut valgrind)
    };
    for control in ["beyond.c", "leak.c"] {
        let output = under(&scratch.program(Language::C11, control, &["-O0"]), &[]);
        assert_eq!(
            output.status.code(),
            Some(9),
            "valgrind does not see what is wrong with {control}: {}",
            text(&output.stderr)
        );
    }
    let answers = scratch.program(Language::C11, "answers.c", &[]);
    let errors = scratch.program(Language::C11, "errors.c", &[]);
    let threads = scratch.program(Language::C11, "threads.c", &["-pthread"]);
    for (program, arguments) in
        [(&answers, vec![scratch.cases()]), (&errors, vec![]), (&threads, vec![scratch.cases()])]
    {
        let output = under(program, &arguments);
        assert!(output.status.success(), "{}: {}{}", program.display(), output.status, text(&output.stderr));
        if *program == answers {
            same(&text(&output.stdout), &scratch.answers);
        }
    }
}

/// They watch the programs and the memory that these hand over; what the library does with it is watched by valgrind and by Miri.
#[test]
#[ignore = "needs the compiler's sanitizers; .ci/run asks for it"]
fn the_sanitizers_find_nothing() {
    const ADDRESS: &[&str] = &["-fsanitize=address,undefined", "-fno-sanitize-recover=all", "-fno-omit-frame-pointer"];
    let scratch = Scratch::new(CASES);
    for (control, complaint) in [
        ("beyond.c", "heap-buffer-overflow"),
        ("overflow.c", "signed integer overflow"),
        ("leak.c", "detected memory leaks"),
    ] {
        // Of two sanitizers that see the same thing, the one for addresses is to be heard.
        let options = [ADDRESS, &["-fno-sanitize=object-size"]].concat();
        let output = outcome(&mut Command::new(scratch.program(Language::C11, control, &options)));
        let said = text(&output.stderr);
        assert!(
            !output.status.success() && said.contains(complaint),
            "the sanitizer is not at work in {control}: {said}"
        );
    }
    for language in [Language::C11, Language::Cpp17] {
        let answers = scratch.program(language, "answers.c", ADDRESS);
        same(&run(&answers, [scratch.cases()]), &scratch.answers);
        let errors = scratch.program(language, "errors.c", ADDRESS);
        assert_eq!(run(&errors, [""; 0]), "");
    }

    const THREAD: &[&str] = &["-fsanitize=thread", "-pthread"];
    let output = outcome(&mut Command::new(scratch.program(Language::C11, "race.c", THREAD)));
    let said = text(&output.stderr);
    assert!(!output.status.success() && said.contains("data race"), "the thread sanitizer is not at work: {said}");
    let threads = scratch.program(Language::C11, "threads.c", THREAD);
    assert_eq!(run(&threads, [scratch.cases()]), "");
}

#[test]
#[ignore = "needs pkg-config, and builds the library in release; .ci/run asks for it"]
fn what_is_installed_serves_a_program_that_knows_pkg_config_only() {
    let scratch = Scratch::new(CASES);
    let prefix = scratch.folder.path().join("there");
    let mut install = Command::new(package().join("install"));
    let output = outcome(install.arg(&prefix));
    assert!(output.status.success(), "{}", text(&output.stderr));
    let pkg_config = |options: &[&str]| {
        let mut command = Command::new("pkg-config");
        command.args(options).arg("shophead").env("PKG_CONFIG_PATH", prefix.join("lib/pkgconfig"));
        let output = outcome(&mut command);
        assert!(output.status.success(), "{command:?}: {}", text(&output.stderr));
        text(&output.stdout).split_whitespace().map(String::from).collect::<Vec<_>>()
    };
    let version = fs::read_to_string(package().join("../../Cargo.toml")).expect("the workspace");
    assert!(version.contains(&format!("version = \"{}\"", pkg_config(&["--modversion"])[0])));
    let build = |options: &[&str], more: &[String], program: &Path| {
        let mut cc = Command::new("cc");
        cc.args(["-std=c11", "-o"]).arg(program).arg(source("answers.c")).args(pkg_config(options)).args(more);
        let output = outcome(&mut cc);
        assert!(output.status.success(), "{cc:?}: {}", text(&output.stderr));
    };

    let shared = scratch.folder.path().join("shared");
    build(&["--cflags", "--libs"], &[format!("-Wl,-rpath,{}", prefix.join("lib").display())], &shared);
    same(&run(&shared, [scratch.cases()]), &scratch.answers);
    let needed = text(&outcome(Command::new("readelf").arg("-d").arg(&shared)).stdout);
    assert!(needed.contains("[libshophead.so.2]"), "the program asks for another library:\n{needed}");

    // Without the shared library in the way the same name is the static one.
    fs::remove_file(prefix.join("lib/libshophead.so")).expect("the link to the shared library");
    fs::remove_file(prefix.join("lib/libshophead.so.2")).expect("the shared library");
    let fixed = scratch.folder.path().join("static");
    build(&["--static", "--cflags", "--libs"], &[], &fixed);
    same(&run(&fixed, [scratch.cases()]), &scratch.answers);
}

#[test]
#[ignore = "builds the library without its standard library; .ci/run asks for it"]
fn a_program_without_any_system_gets_an_answer() {
    if cfg!(not(target_arch = "x86_64")) {
        return;
    }
    let scratch = Scratch::new(0);
    let prefix = scratch.folder.path().join("there");
    let output = outcome(Command::new(package().join("install")).arg("--freestanding").arg(&prefix));
    assert!(output.status.success(), "{}", text(&output.stderr));
    let program = scratch.folder.path().join("freestanding");
    let mut cc = Command::new("cc");
    cc.args([
        "-std=c11",
        "-Wall",
        "-Wextra",
        "-Wpedantic",
        "-Werror",
        "-O2",
        "-g",
        "-ffreestanding",
        "-nostdlib",
        "-static",
    ]);
    cc.args(["-fno-builtin", "-fno-stack-protector", "-Wl,--gc-sections", "-o"])
        .arg(&program)
        .arg(source("freestanding.c"));
    cc.arg("-I").arg(prefix.join("include")).arg(prefix.join("lib/libshophead.a"));
    let output = outcome(&mut cc);
    assert!(output.status.success(), "{cc:?}: {}", text(&output.stderr));
    assert_eq!(run(&program, [""; 0]), "");
    // What can panic would keep the handler alive.
    let symbols = text(&outcome(Command::new("nm").arg(&program)).stdout);
    assert!(symbols.contains("shophead_hole_judge"), "nm shows nothing:\n{symbols}");
    let panics: Vec<&str> =
        symbols.lines().filter(|line| line.contains("panic") || line.contains("rust_begin_unwind")).collect();
    assert!(panics.is_empty(), "something can panic: {panics:?}");
}

#[test]
#[ignore = "needs Python; .ci/run asks for it"]
fn a_script_plans_rivet_lengths() {
    let mut python = Command::new("python3");
    let output = outcome(python.arg(package().join("examples/rivet_lengths.py")).arg(shared_library()));
    assert!(output.status.success(), "{}", text(&output.stderr));
    same(&text(&output.stdout), include_str!("rivet_lengths.txt"));
}
