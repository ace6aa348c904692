//! C and C++ programs compiled against the header and the library of this build, and run.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Everything a careful C programmer turns on.
const WARNINGS: &[&str] = &[
    "-Wall",
    "-Wextra",
    "-Wpedantic",
    "-Werror",
    "-Wconversion",
    "-Wsign-conversion",
    "-Wshadow",
    "-Wcast-align",
    "-Wcast-qual",
    "-Wundef",
    "-Wformat=2",
    "-Wdouble-promotion",
    "-Wmissing-declarations",
];

/// Which language a program is compiled as.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Language {
    C11,
    Cpp17,
}

/// This package.
pub(crate) fn package() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Where cargo has put the libraries: beside this test.
pub(crate) fn built() -> PathBuf {
    let test = std::env::current_exe().expect("the path of this test");
    test.parent().expect("its folder").to_path_buf()
}

pub(crate) fn static_library() -> PathBuf {
    built().join("libshophead_ffi.a")
}

pub(crate) fn shared_library() -> PathBuf {
    built().join("libshophead_ffi.so")
}

/// The libraries that a program takes besides the static one: those of README's line, which another test holds to the truth.
pub(crate) fn system_libraries() -> Vec<String> {
    let readme = std::fs::read_to_string(package().join("README.md")).expect("README.md");
    let line = readme.lines().find(|line| line.contains("libshophead.a -l")).expect("README has a line for linking");
    line.split_whitespace().filter(|word| word.starts_with("-l")).map(String::from).collect()
}

/// Compiles a program of `tests/c`, or at any other path, with more options before and after it, and links the static library.
pub(crate) fn compile(language: Language, source: &Path, program: &Path, more: &[&str]) {
    let (compiler, standard) = match language {
        Language::C11 => ("cc", ["-std=c11", "-xc"]),
        Language::Cpp17 => ("c++", ["-std=c++17", "-xc++"]),
    };
    let mut command = Command::new(compiler);
    command.args(standard).args(WARNINGS).args(["-g", "-O1"]).args(more);
    command.arg("-I").arg(package().join("include")).arg(source).args(["-xnone", "-o"]).arg(program);
    command.arg(static_library()).args(system_libraries());
    let output = command.output().unwrap_or_else(|error| panic!("{compiler}: {error}"));
    assert!(output.status.success(), "{command:?}\n{}", text(&output.stderr));
}

/// A program of `tests/c`.
pub(crate) fn source(name: &str) -> PathBuf {
    package().join("tests/c").join(name)
}

/// Runs a program, which must end well and say nothing on its error stream, and hands back what it printed.
pub(crate) fn run<I: AsRef<OsStr>>(program: &Path, arguments: impl IntoIterator<Item = I>) -> String {
    let mut command = Command::new(program);
    command.args(arguments);
    let output = outcome(&mut command);
    assert!(
        output.status.success() && output.stderr.is_empty(),
        "{command:?}: {}\n{}{}",
        output.status,
        text(&output.stdout),
        text(&output.stderr)
    );
    text(&output.stdout)
}

pub(crate) fn outcome(command: &mut Command) -> Output {
    command.output().unwrap_or_else(|error| panic!("{command:?}: {error}"))
}

pub(crate) fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// Both texts must be the same; tells the first line where they are not.
pub(crate) fn same(printed: &str, expected: &str) {
    for (number, (printed, expected)) in printed.lines().zip(expected.lines()).enumerate() {
        assert!(printed == expected, "line {}:\n  printed  {printed}\n  expected {expected}", number + 1);
    }
    assert!(printed == expected, "one ends before the other: {} and {} bytes", printed.len(), expected.len());
}
