//! The command line as it was typed.
//!
//! To build the options of every command, with their help, takes longer than most answers. Where the first word is a command, its own
//! options are built alone. Only what they understand is taken; help, and whatever they do not understand, is left to all of them.

use std::ffi::{OsStr, OsString};

use clap::parser::ValueSource;
use clap::{ArgMatches, Args, Command, FromArgMatches};
use shophead_job::diagnostic::escaped;

use crate::args::*;
use crate::exit::Stop;
use crate::output::Output;
use crate::repair_args::RepairArgs;

/// What was typed; `None` where that was a question about the program, which is answered by then.
pub(crate) fn arguments() -> Result<Option<Arguments>, Stop> {
    let typed: Vec<OsString> = std::env::args_os().map(no_option).collect();
    if let Some(arguments) = of_one_command(&typed) {
        return Ok(Some(arguments));
    }
    // The version asks for no option: to build them all takes twice as long as everything else.
    let asks_version = matches!(&typed[..], [_, word] if word == "--version" || word == "-V");
    let read = |typed: &[OsString]| {
        let mut definitions = if asks_version {
            Command::new(PROGRAM).version(env!("CARGO_PKG_VERSION"))
        } else {
            Arguments::definitions()
        };
        let matches = definitions.try_get_matches_from_mut(typed)?;
        of_matches(&matches, &definitions)
    };
    let error = match read(&typed) {
        Ok(arguments) => return Ok(Some(arguments)),
        Err(error) => error,
    };
    if error.use_stderr() {
        // The complaint repeats what was typed, which must not steer the terminal.
        let shown: Vec<OsString> =
            typed.iter().map(|word| escaped(&word.to_string_lossy()).into_owned().into()).collect();
        let error = read(&shown).err().filter(clap::Error::use_stderr).unwrap_or(error);
        return Err(Stop::WrongLine(error.render().ansi().to_string()));
    }
    // Help and the version are answers as any other.
    let mut output = Output::open(None)?;
    let written = output.write_styled(&error.render().ansi().to_string());
    output.finish(written).map(|()| None)
}

/// A list that begins below zero, `-1 0; 1 0`, is no option: with a blank before it nothing takes it for one.
fn no_option(word: OsString) -> OsString {
    let is_list = word.to_str().and_then(|text| text.strip_prefix('-')).is_some_and(|rest| {
        rest.starts_with(|first: char| first.is_ascii_digit() || first == '.') && rest.contains(' ')
    });
    if is_list { [OsStr::new(" "), &word].into_iter().collect() } else { word }
}

/// Read by the options of one command; `None` where they do not do.
fn of_one_command(typed: &[OsString]) -> Option<Arguments> {
    let name = typed.get(1).and_then(|word| word.to_str())?;
    let (name, options) = OPTIONS.iter().find(|(known, _)| *known == name)?;
    let mut program = Common::augment_args(Command::new(PROGRAM)).subcommand(options(Command::new(*name)));
    let matches = program.try_get_matches_from_mut(typed.iter().map(OsStr::new)).ok()?;
    of_matches(&matches, &program).ok()
}

/// What was typed, and the options of the question among it by their names.
fn of_matches(matches: &ArgMatches, program: &Command) -> Result<Arguments, clap::Error> {
    let mut arguments = Arguments::from_arg_matches(matches)?;
    let (mut below, mut command) = (matches, Some(program));
    while let Some((name, inner)) = below.subcommand() {
        arguments.typed.push(("asked".to_owned(), name.to_owned()));
        command = command.and_then(|command| command.find_subcommand(name));
        below = inner;
    }
    // A group of options is listed among them.
    let is_option = |id: &&str| command.is_some_and(|command| command.get_arguments().any(|arg| arg.get_id() == id));
    // How an answer is printed is none of the question.
    const PRINTING: &[&str] = &["format", "output", "working", "width", "columns", "units", "practice"];
    for id in below.ids().map(clap::Id::as_str).filter(|id| !PRINTING.contains(id)).filter(is_option) {
        if below.value_source(id) != Some(ValueSource::CommandLine) {
            continue;
        }
        let Ok(Some(values)) = below.try_get_raw(id) else { continue };
        let values: Vec<String> = values.map(|value| value.to_string_lossy().into_owned()).collect();
        arguments.typed.push((id.replace('_', "-"), values.join(", ")));
    }
    Ok(arguments)
}

/// Gives a command its options.
type Augment = fn(Command) -> Command;

const PROGRAM: &str = "shophead";

/// The commands that scripts call in great numbers.
#[rustfmt::skip]
const OPTIONS: &[(&str, Augment)] = &[
    ("length", LengthArgs::augment_args),
    ("head", HeadArgs::augment_args),
    ("hole", HoleArgs::augment_args),
    ("joint", JointArgs::augment_args),
    ("group", GroupArgs::augment_args),
    ("splice", SpliceArgs::augment_args),
    ("repair", RepairArgs::augment_args),
    ("part", PartArgs::augment_args),
    ("plan", PlanArgs::augment_args),
    ("order", OrderArgs::augment_args),
    ("inspect", InspectArgs::augment_args),
    ("card", CardArgs::augment_args),
    ("map", MapArgs::augment_args),
    ("template", TemplateArgs::augment_args),
    ("batch", BatchArgs::augment_args),
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::commands::tests::typed;

    /// What all options make of it, if they understand it.
    fn by_all(typed: &[OsString]) -> Option<String> {
        let mut definitions = Arguments::definitions();
        let matches = definitions.try_get_matches_from_mut(typed).ok()?;
        Some(format!("{:?}", of_matches(&matches, &definitions).expect("what matches is read")))
    }

    fn words(typed: &str) -> Vec<OsString> {
        typed.split(' ').map(OsString::from).collect()
    }

    #[test]
    fn the_options_of_one_command_understand_what_all_do() {
        for typed in [
            "shophead group points.csv --load 0,-1500 --at 4,0 --rivet MS20470AD4 --sheets .04,.04 --units mm",
            "shophead plan job.toml --format json --width 40",
            "shophead order job.toml --stock shelf.csv --spares 10 --limits own.toml",
            "shophead inspect job.toml driven.csv",
            "shophead card job.toml -o card.html",
            "shophead map job.toml --output map.svg",
            "shophead batch length rows.csv --threads 2 --practice process",
            "shophead batch hole",
        ] {
            let one = of_one_command(&words(typed)).expect(typed);
            assert_eq!(Some(format!("{one:?}")), by_all(&words(typed)), "{typed}");
        }
        for typed in
            ["shophead", "shophead --version", "shophead length --help", "shophead help length", "shophead lenght"]
        {
            assert!(of_one_command(&words(typed)).is_none(), "{typed}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        #[test]
        fn nothing_else_is_understood_than_by_all_options(typed in typed()) {
            // As a person types it: the command first. What stands in front of it here goes behind it.
            let (front, rest): (Vec<_>, Vec<_>) = typed.iter().partition(|word| word.starts_with("--format=") || word.starts_with("--practice="));
            let words = rest.iter().take(2).chain(&front).chain(rest.iter().skip(2));
            let typed: Vec<OsString> = words.map(OsString::from).collect();
            let one = of_one_command(&typed).map(|arguments| format!("{arguments:?}"));
            prop_assert_eq!(one, by_all(&typed));
        }
    }
}
