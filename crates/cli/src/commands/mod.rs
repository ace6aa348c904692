//! The commands: each reads its arguments, asks the library, and fills a report.

mod answer;
mod card;
mod first_page;
pub(crate) mod group;
pub(crate) mod head;
pub(crate) mod hole;
mod inspect;
mod in_row;
pub(crate) mod joint;
pub(crate) mod length;
mod new;
mod order;
mod panel;
pub(crate) mod part;
mod plan;
mod repair;
mod sources;
pub(crate) mod splice;
mod survey;

use shophead::basis::Basis;
use shophead::installation::Installation;
use shophead::joint::margin::{Factor, Factors, LoadKind};
use shophead::length::Length;
use shophead::practice::Given;
use shophead_job::model::{Job, OwnLimits};
use shophead_job::plan::Plan;
use shophead_job::read::Disk;

use crate::args::{Command, Common, FactorArgs};
use crate::cells;
use crate::context::Context;
use crate::exit::Stop;
use crate::files::Inputs;
use crate::input;
use crate::progress::Progress;
use crate::report::Report;

/// Runs a command.
///
/// `job` is the job of a command that takes one.
pub(crate) fn run<'a>(command: &Command, job: Option<&'a Job>, context: &'a Context<'a>) -> Result<Report<'a>, Stop> {
    match (command, job) {
        (Command::Length(args), _) => cells::report::<length::Answer>(args, context),
        (Command::Head(args), _) => cells::report::<head::Answer>(args, context),
        (Command::Hole(args), _) => cells::report::<hole::Answer>(args, context),
        (Command::Joint(args), _) => cells::report::<joint::Answer>(args, context),
        (Command::Group(args), _) => cells::report::<group::Answer>(args, context),
        (Command::Splice(args), _) => splice::run(args, context),
        (Command::Repair(args), _) => repair::run(args, context),
        (Command::Part(args), _) => part::run(args, context),
        (Command::New(args), _) => new::run(args, context),
        (Command::Plan(args), Some(job)) => plan::run(args, job, context),
        (Command::Answer(args), Some(job)) => answer::run(args, job, context),
        (Command::Order(args), Some(job)) => order::run(args, job, context),
        (Command::Inspect(args), Some(job)) => inspect::run(args, job, context),
        (Command::Survey(args), Some(job)) => survey::run(args, job, context),
        (Command::Card(args), Some(job)) => card::run(args, job, context),
        (Command::Map(args), Some(job)) => card::run_map(args, job, context),
        (Command::Template(args), Some(job)) => card::run_template(args, job, context),
        (
            Command::Plan(_)
            | Command::Answer(_)
            | Command::Order(_)
            | Command::Inspect(_)
            | Command::Survey(_)
            | Command::Card(_)
            | Command::Map(_)
            | Command::Template(_),
            None,
        ) => Err(Stop::wrong("this command takes a job file")),
        (
            Command::Handheld(_) | Command::Batch(_) | Command::Schema(_) | Command::Completions(_) | Command::Man(_),
            _,
        ) => Err(Stop::wrong("this command prints by itself")),
        (Command::Sources(args), _) => sources::run(args, context),
    }
}

/// The job of a command that takes one.
///
/// `limits` are those that stand in place of its own, or are taken where it names none.
pub(crate) fn job(
    command: &Command,
    common: &Common,
    limits: Option<&OwnLimits>,
    inputs: &Inputs,
) -> Result<Option<Job>, Stop> {
    let Some(file) = command.job() else { return Ok(None) };
    if let Command::Survey(args) = command {
        survey::refuse(args, common, inputs)?;
    }
    let text = inputs.read(&file.job, "the job")?;
    let disk = match text.name.parent() {
        Some(folder) if file.job_folder_only => Disk::within(folder),
        _ => Disk::anywhere(),
    };
    let beside = inputs.beside(disk);
    let job = match command {
        Command::Survey(args) => {
            Job::read_beside(text.bytes, &text.name, &survey::WithoutHoles::of(args, &beside), limits)
        }
        _ => Job::read_beside(text.bytes, &text.name, &beside, limits),
    };
    Ok(Some(job?))
}

/// The plan of a job; whoever waits for it sees how far it is.
fn plan_watched<'j>(job: &'j Job, context: &Context<'j>) -> Plan<'j> {
    let total = job.rows.iter().map(|row| row.count).fold(0, u32::saturating_add);
    let mut progress = Progress::of(total);
    Plan::make_watched(job, context.practice, &mut |done| progress.at(done))
}

/// As given, else as the machine has it, else today.
fn date(given: Option<&str>) -> Result<jiff::civil::Date, Stop> {
    /// The usual variable for making the same file again.
    const EPOCH: &str = "SOURCE_DATE_EPOCH";
    if let Some(text) = given {
        let read = text.trim().parse();
        return read.map_err(|_| input::wrong("--date", text, "this is no date; right would be 2026-11-25"));
    }
    let epoch = std::env::var(EPOCH).ok().and_then(|seconds| seconds.parse().ok());
    let epoch = epoch.and_then(|seconds| jiff::Timestamp::from_second(seconds).ok());
    Ok(epoch
        .map_or_else(|| jiff::ZonedDateTime::now().date(), |epoch| jiff::tz::TimeZone::UTC.to_datetime(epoch).date()))
}

/// The factors of a load: the product's own where none are given.
fn factors(args: &FactorArgs) -> Factors {
    let mut factors = Factors::default();
    if let Some(value) = args.safety_factor {
        factors.safety = Factor { value, basis: Basis::SAFETY_AS_GIVEN };
    }
    if let Some(value) = args.fitting_factor {
        factors.fitting = Some(Factor { value, basis: Basis::FITTING_AS_GIVEN });
    }
    factors
}

/// Which load it is.
const fn load_kind(args: &FactorArgs) -> LoadKind {
    if args.ultimate_load { LoadKind::Ultimate } else { LoadKind::Limit }
}

/// The edge distance as given, or the least that the practice allows.
fn edge(question: &Installation<'_, '_>, context: &Context<'_>) -> Result<Given<Length>, Stop> {
    question.edge_or_least().ok_or_else(|| {
        let (practice, rivet) = (context.practice.name(), question.rivet());
        Stop::wrong(format_args!(
            "the practice {practice} names no edge distance for {rivet}; give one, as in --edge .25"
        ))
    })
}

/// A share of a strength, rounded down: none is written larger than it is.
fn percent(share: f64) -> String {
    // A hair below a step is that step.
    format!("{:.1} %", (share * 1_000.0 + 1e-9).floor() / 10.0)
}

/// ` (memory)` behind a figure that could only be recalled.
fn memory_mark(basis: Basis) -> &'static str {
    if basis.status() == shophead::basis::Status::Memory { " (memory)" } else { "" }
}

#[cfg(test)]
pub(crate) mod tests {
    use std::collections::HashMap;
    use std::sync::LazyLock;

    use clap::Parser;
    use proptest::prelude::*;
    use proptest::test_runner::TestCaseError;
    use shophead::finding::Severity;

    use crate::args::Arguments;
    use crate::exit::{Exit, Stop};
    use crate::render;
    use crate::report::Report;
    use crate::schema::{self, strict};

    /// What people type, right and nearly right.
    #[rustfmt::skip]
    const TYPED: &[&str] = &[
        "1/8",
        ".125",
        "3/32",
        "3.2mm",
        "0",
        "-1",
        ".0",
        "1e9",
        "999999999",
        "1/0",
        "#30",
        "F",
        "#99",
        ".032,.040",
        "2024-T3:.032,2024-T3:.040",
        "clad 2024-T3:.063:countersunk,2024-T3:.125",
        ".032,,",
        ":",
        "::",
        ".032:sealant,.04",
        "1,2,3,4,5,6,7,8,9",
        ".032+-.002",
        "+-.002",
        "+.003-.001",
        "±",
        ".128+.003-.000",
        "MS20470",
        "MS20426",
        "NAS1198",
        "ms20426",
        "MS20470AD4-5",
        "MS20426AD4",
        "NAS1242AD5",
        "NAS1241AD4",
        "MS20615-4M6",
        "AD4",
        "D6",
        "AD",
        "2117",
        "D",
        "250",
        "1100N",
        "NaN",
        "inf",
        "1e308",
        "1e-308",
        "-0",
        "10",
        "2",
        "65535",
        "255",
        "cracked",
        "figure-eight",
        "spar-cap",
        "stringer",
        "lap",
        "frame",
        "double",
        "ultimate",
        "6061-T6:.040",
        "5052:.25",
        "2017:.1",
        "10000",
        "memory",
        "\u{0}",
        "\u{202e}",
        "",
        " ",
        "ß",
        "𝟙/8",
        "１/8",
    ];

    #[rustfmt::skip]
    const OPTIONS: &[(&str, &[&str], &[&str])] = &[
        ("length", &["--layers", "--diameter"], &["--series", "--alloy", "--hole", "--tolerance"]),
        (
            "head",
            &["--diameter"],
            &[
                "--series",
                "--alloy",
                "--length",
                "--grip",
                "--hole",
                "--measured-diameter",
                "--measured-height",
                "--cracks",
                "--crack-reach",
                "--tool-mark",
                "--proud",
                "--low",
                "--shaved",
                "--flattened",
                "--gap-feeler",
                "--head-crack-reach",
            ],
        ),
        (
            "hole",
            &["--rivet", "--major"],
            &["--minor", "--edge", "--pitch", "--layers", "--damage", "--member", "--rows"],
        ),
        (
            "joint",
            &["--rivet", "--sheets"],
            &[
                "--load",
                "--strip-load",
                "--edge",
                "--pitch",
                "--hole",
                "--shear",
                "--safety-factor",
                "--fitting-factor",
                "--rows",
                "--transverse-pitch",
                "--driven",
                "--flexibility",
                "--rivet-modulus",
                "--transfer",
                "--from",
                "--to",
                "--compression",
            ],
        ),
        ("splice", &["--sheet", "--width", "--rivet"], &["--rows", "--member", "--count", "--driven"]),
        (
            "repair patch",
            &["--sheet", "--hole"],
            &["--style", "--ways", "--site", "--plate", "--rivet", "--by", "--pattern", "--rows", "--edge", "--row-spacing", "--taper"],
        ),
        ("repair splice stringer", &["--shape", "--material", "--leg"], &["--gap", "--rivet", "--skin-rivet", "--site", "--by"]),
        (
            "repair rows",
            &["--rivet", "--sheets", "--across", "--load"],
            &["--edge", "--pitch", "--rows", "--row-spacing", "--shear", "--solve", "--safety-factor"],
        ),
        (
            "repair rows",
            &["--rivet", "--sheets", "--across", "--counts"],
            &["--edge", "--row-spacing", "--ftu", "--fbru", "--fsu", "--rivet-fsu", "--hole"],
        ),
        ("repair rows", &["--rivet", "--sheets", "--load", "--from", "--to"], &["--pitch", "--rows", "--rivet-modulus"]),
        ("repair rows", &["--rivet", "--sheets", "--load", "--tension"], &["--tension-tested", "--pitch"]),
        ("part", &[], &[]),
    ];

    /// What belongs behind an option.
    #[rustfmt::skip]
    fn fitting(option: &str) -> &'static [&'static str] {
        match option {
            "--layers" | "--sheets" => &[
                ".032,.040", "2024-T3:.032,2024-T3:.040", "clad 2024-T3:.050+-.002,6061-T6:1/8", "2024-T3:.071:countersunk,2024-T3:.125",
                "2024-T3:.032:dimpled,.005:sealant,7075-T6:.09", "1mm,3.2mm,2mm", ".016,.016", "7075-T6:.063,7075-T6:.063,7075-T6:.063", "1,1,1",
            ],
            "--sheet" => &["clad 2024-T3:.040", "2024-T3:.032", "6061-T6:.125", "5052:.040", "2014-T6:.064", "2017:1mm"],
            "--diameter" => &["1/8", ".125", "3/32", "5/32", ".188", "1/4"],
            "--series" => &["MS20470", "MS20426", "NAS1097", "NAS1242", "AN470"],
            "--alloy" => &["AD", "2117", "D", "DD", "KE", "A"],
            "--rivet" => &["MS20470AD4", "MS20470AD4-5", "MS20426AD4", "NAS1242AD5", "NAS1097AD3", "MS20470D6", "MS20470DD8", "MS20426AD6"],
            "--measured-diameter" => &[".180", ".163,.2", "5mm"],
            "--measured-height" => &[".060", ".05,.07", "1.5mm"],
            "--major" | "--minor" | "--hole" => &["#30", ".130", ".141", ".1285", "F", "3.3mm", "5/32"],
            "--grip" => &[".157", ".157+-.007", "4mm"],
            "--style" => &["lap", "doubler", "flush"],
            "--ways" => &["both", "along"],
            "--site" => &["skin", "skin,lower-wing", "pressurised", "fluid-tight"],
            "--plate" => &["clad 2024-T3:.040", "2024-T3:.050"],
            "--by" => &["greater", "table", "example", "strength"],
            "--pattern" => &["staggered", "in-line"],
            "--taper" => &["plain", "feathered:.016", "stepped:.020"],
            "--shape" => &["flat", "angle", "zee", "hat"],
            "--material" => &["2024-T3", "clad 2024-T3", "6061-T6"],
            "--leg" => &[".6x.040", ".75x.051,skin=.032", "1x.064,plate=1x.072,bolts"],
            "--solve" => &["pitch", "rows", "diameter", "edge", "gauge:1", "gauge:9"],
            "--counts" => &["1-3-1", "2", "1-2:5/32-3", "4-4"],
            "--from" => &["1", "2"],
            "--to" => &["2", "3"],
            "--ftu" | "--fbru" | "--fsu" | "--rivet-fsu" => &["70ksi", "41ksi", "300MPa"],
            "--tension" | "--tension-tested" => &["20", "90", "100N"],
            "--load" | "--strip-load" => &["250", "1100N", "10lbf", "0,-150", "60N,0"],
            "--points" => &["0 0; 1 0", "0,0;1,0;0,1;1,1", "0 0 5/32; 1in 0; 1 1/2", "-1 0", "0 0; .1 0", "0 0; 0 0"],
            "--at" => &["0,0", "1,-1/2", "100mm,0"],
            "--moment" => &["100", "-2Nm"],
            "--structure" => &["primary", "secondary"],
            "--installed" => &["MS20470AD4", "MS20426AD5"],
            "--flexibility" => &["all", "stp-486", "stp-927-riveted", "tn-1051", "exponential"],
            "--driven" => &["T3", "T31", "H321"],
            "--rivet-modulus" => &["10.3msi", "26 msi", "70GPa"],
            "--transfer" => &["lap", "doubler"],
            "--count" => &["greater", "table", "example", "strength"],
            "--compression" => &["10ksi", "30ksi", "70MPa"],
            "--safety-factor" | "--fitting-factor" => &["1", "1.5", "2"],
            "--damage" => &["sound", "gouged", "cracked", "figure-eight", "deep-countersink"],
            "--member" => &["skin", "stringer", "lap", "frame", "other", "spar-cap"],
            "--shear" => &["single", "double"],
            "--rows" | "--cracks" => &["1", "2", "3"],
            "--across" => &["1", "1-3/8", "2"],
            "--tolerance" => &[".002", "+.003-.001"],
            "part" => &["MS20470AD4-5", "MS20426AD4-4", "AN470D6-10", "NAS9313AD5-6-5", "MS20615-4M6", "nas1242ad4-5"],
            _ => &["1/8", ".25", "1/2", "3/4", "10"],
        }
    }

    /// Mostly what belongs there, sometimes what somebody types by mistake, sometimes anything.
    pub(crate) fn word(option: &'static str) -> impl Strategy<Value = String> {
        prop_oneof![
            30 => prop::sample::select(fitting(option)).prop_map(str::to_owned),
            3 => prop::sample::select(TYPED).prop_map(str::to_owned),
            1 => "[0-9./:,+#A-Z±-]{0,12}",
            1 => any::<String>(),
        ]
    }

    /// A command with the options that it needs, some that it takes, and words for all of them.
    pub(crate) fn typed() -> impl Strategy<Value = Vec<String>> {
        prop::sample::select(OPTIONS).prop_flat_map(|(command, needed, taken)| {
            let with_word = |option: &&'static str| {
                word(option).prop_map({
                    let option = *option;
                    move |word| format!("{option}={word}")
                })
            };
            let needed: Vec<_> = needed.iter().map(with_word).collect();
            let taken: Vec<_> = taken.iter().map(|option| prop::option::of(with_word(option))).collect();
            (needed, taken, prop::collection::vec(word("part"), 1..4), any::<bool>()).prop_map(
                move |(needed, taken, parts, process)| {
                    // All of an answer is wanted, for scripts too.
                    let mut typed = vec!["shophead".to_owned(), "--format=json".to_owned()];
                    typed.extend(command.split(' ').map(str::to_owned));
                    typed.extend(needed.into_iter().chain(taken.into_iter().flatten()));
                    if command == "part" {
                        typed.push("--".to_owned());
                        typed.extend(parts);
                    }
                    if process {
                        typed.insert(1, "--practice=process".to_owned());
                    }
                    typed
                },
            )
        })
    }

    /// Strict, one a command.
    static VALIDATORS: LazyLock<HashMap<&str, jsonschema::Validator>> = LazyLock::new(|| {
        let validator = |command| jsonschema::validator_for(&strict::strict(schema::of(command).expect(command)));
        schema::names().map(|command| (command, validator(command).expect(command))).collect()
    });

    /// What holds of every answer.
    fn held(report: &Report, width: usize) -> Result<(), TestCaseError> {
        let text = render::text::render(report, width);
        let plain = anstream::adapter::strip_str(&text).to_string();
        for line in plain.lines() {
            prop_assert!(textwrap::core::display_width(line) <= width, "{width}: {line:?}");
        }
        let mut json = Vec::new();
        render::json::render(report, &mut json, false).unwrap();
        let json: serde_json::Value = serde_json::from_slice(&json).unwrap();
        prop_assert_eq!(&json["command"], report.command);
        let faults = strict::faults(&VALIDATORS[report.command], &json);
        prop_assert!(faults.is_empty(), "{faults:#?}\n{json:#}");
        render::csv::render(report, &mut Vec::new()).unwrap();
        let refers = report.findings.iter().any(|told| told.severity == Severity::Refer);
        let status = if !report.refused.is_empty() {
            Exit::Wrong
        } else if refers {
            Exit::Refer
        } else {
            Exit::Done
        };
        prop_assert_eq!(report.exit(), status);
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2_000))]

        #[test]
        fn whatever_is_typed_is_answered_or_refused_in_one_sentence(typed in typed(), width in 20_usize..100) {
            let Ok(arguments) = Arguments::try_parse_from(&typed) else { return Ok(()) };
            match crate::answer(&arguments, |report| Ok(held(report, width))) {
                Ok(held) => held?,
                Err(Stop::Wrong(sentences)) => {
                    for sentence in sentences {
                        prop_assert!(!sentence.contains('\n') && !sentence.contains('\u{1b}'), "{sentence:?}");
                    }
                }
                Err(other) => prop_assert!(false, "{other:?}"),
            }
        }
    }
}
