//! Real C and C++ programs against the library.
//!
//! The plain ones need the C compiler that Rust links with. What needs more (a C++ compiler, valgrind, sanitizers, Python) runs when asked
//! for, as `.ci/run` does: `cargo test -p shophead-ffi --test programs -- --ignored`.
#![cfg(target_os = "linux")]

mod cases;
mod compile;

use std::fs;

use compile::{Language, compile, run, same, source};

/// Cases of each kind: enough that every error and every step of a hole comes up, few enough for valgrind.
const CASES: usize = 150;

#[test]
fn a_c_program_gets_the_answers_of_the_core_byte_for_byte() {
    let folder = tempfile::tempdir().expect("a folder");
    let (program, file) = (folder.path().join("answers"), folder.path().join("cases"));
    let table = cases::table(CASES);
    fs::write(&file, &table.cases).expect("the cases");
    compile(Language::C11, &source("answers.c"), &program, &["-Wstrict-prototypes"]);
    same(&run(&program, [&file]), &table.answers);
}
