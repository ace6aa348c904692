//! Equal facts get equal findings, whoever is asked: the commands, a batch and a plan say what the core says of the same rivet.
//!
//! The facts are random, the same ones each time. The session has its own half in `tests/handheld`, C in `crates/ffi/tests`.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use serde_json::Value;
use shophead::finding::{Code, Finding};
use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::practice::Practice;
use shophead::stack::{Layer, Preparation, Stack};
use shophead_tests::known::{Known, known};
use shophead_tests::prelude::exact;

use crate::{Run, shophead, shophead_with};

/// Code, severity and layer, as scripts read them.
type Told = BTreeSet<(String, String, Option<u64>)>;

const CASES: usize = 300;

fn cases() -> impl Iterator<Item = Known> {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[47; 32]);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let strategy = known();
    (0..CASES).map(move |_| strategy.new_tree(&mut runner).expect("a case").current())
}

fn of_core<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> Told {
    let told = |finding: &Finding| {
        let (code, severity) = (finding.code().as_str().to_owned(), finding.severity().as_str().to_owned());
        (code, severity, finding.layer().map(u64::from))
    };
    findings.into_iter().map(told).collect()
}

fn of_json(findings: &Value) -> Told {
    let word = |finding: &Value, key: &str| finding[key].as_str().expect("a word").to_owned();
    let findings = findings.as_array().expect("a list").iter();
    findings.map(|found| (word(found, "code"), word(found, "severity"), found["layer"].as_u64())).collect()
}

/// What a command said; `None` where it refused.
fn answered(run: &Run) -> Option<Value> {
    (run.status != Some(2)).then(|| serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{error} {run}")))
}

/// `3.302mm+0.0762mm-0.000000mm`.
fn toleranced(length: Toleranced) -> String {
    let over = length.max().checked_sub(length.nominal()).expect("a tolerance");
    format!("{}+{}-{}", exact(length.nominal()), exact(over), exact(Length::ZERO))
}

fn practice(practice: &Practice<'_>) -> String {
    format!(" --practice {} --format json", practice.name())
}

/// A list of layers as the helpers of these tests take a word: `_` stands for a space.
fn typed(text: &str) -> String {
    text.replace(' ', "_")
}

/// What is known beside rivet, layers and hole, as options; and the same as a question.
fn around(known: &Known) -> String {
    let mut options = String::new();
    let mut add = |name: &str, value: Option<String>| {
        if let Some(value) = value {
            write!(options, " --{name} {value}").expect("a string takes all");
        }
    };
    add("edge", known.edge.map(exact));
    add("pitch", known.pitch.map(exact));
    add("structure", known.structure.map(|word| word.to_string()));
    add("member", known.member.map(|word| word.to_string()));
    add("installed", known.installed.map(|part| part.to_string()));
    options
}

/// One row of holes: what `length` is told.
fn one_row(known: Known) -> Known {
    Known { rows: 1, row_spacing: None, ..known }
}

fn length_of(known: &Known) -> Run {
    let rivet = &known.rivet;
    let hole = known.hole.map(|hole| format!(" --hole {}", toleranced(hole))).unwrap_or_default();
    shophead(&format!(
        "length --series {} --alloy {} --diameter {} --layers {}{hole}{}{}",
        rivet.series().name,
        rivet.material().code,
        exact(rivet.diameter()),
        typed(&known.layers()),
        around(known),
        practice(known.practice)
    ))
}

#[test]
fn a_length_says_what_the_core_says() {
    let mut answers = 0;
    for known in cases().map(one_row) {
        let run = length_of(&known);
        match (answered(&run), known.question().length()) {
            (Some(said), Ok(wanted)) => {
                assert_eq!(of_json(&said["findings"]), of_core(&wanted.findings), "{run}");
                answers += 1;
            }
            (None, Err(_)) => {}
            (said, wanted) => panic!("{said:?} {wanted:?} {run}"),
        }
    }
    assert!(answers > CASES / 2, "{answers}");
}

/// Every length of a command line in other words; `None` where one cannot be said so.
fn respelled(typed: &str, spell: impl Fn(u64) -> Option<String>) -> Option<String> {
    let (lengths, last) = typed.rsplit_once("mm")?;
    let mut text = String::new();
    for piece in lengths.split("mm") {
        let start = piece.rfind(|c: char| !c.is_ascii_digit() && c != '.').map_or(0, |at| at + 1);
        let (before, number) = piece.split_at(start);
        let (whole, places) = number.split_once('.')?;
        text += before;
        text += &spell(format!("{whole}{places:0<6}").parse().ok()?)?;
    }
    Some(text + last)
}

#[test]
fn a_length_is_the_same_in_inches_and_in_millimetres() {
    let (mut bare, mut inches) = (0, 0);
    for known in cases().map(one_row) {
        let hole = known.hole.map(|hole| format!(" --hole {}", toleranced(hole))).unwrap_or_default();
        // Thicknesses are thousandths of an inch there: `.063`.
        let mut layers = String::new();
        for (at, piece) in typed(&known.layers()).split('.').enumerate() {
            let (thousandths, rest) = if at == 0 { ("", piece) } else { piece.split_at(3) };
            let nm: Option<i64> = thousandths.parse::<i64>().ok().map(|count| count * 25_400);
            layers += &nm.map(|nm| format!("{}.{:06}mm", nm / 1_000_000, nm % 1_000_000)).unwrap_or_default();
            layers += rest;
        }
        let rivet = known.rivet;
        let asked = format!(
            "length --series {} --alloy {} --diameter {} --layers {layers}{hole}{}{}",
            rivet.series().name,
            rivet.material().code,
            exact(rivet.diameter()),
            around(&known),
            practice(known.practice)
        );
        let answer = |typed: &str| {
            let run = shophead(typed);
            let mut value = answered(&run).unwrap_or(Value::Null);
            crate::json::strip_messages(&mut value);
            value.as_object_mut().map(|object| object.remove("settled"));
            (run.status, value)
        };
        let wanted = answer(&asked);
        let millimetres =
            respelled(&asked, |nm| Some(format!("{}.{:06}", nm / 1_000_000, nm % 1_000_000))).expect("lengths");
        assert_eq!(answer(&format!("{millimetres} --units mm")), wanted, "{asked}");
        bare += 1;
        // What is whole hundred-thousandths of an inch.
        let tenths =
            |nm: u64| nm.is_multiple_of(254).then(|| format!("{}.{:05}in", nm / 25_400_000, nm % 25_400_000 / 254));
        if let Some(typed) = respelled(&asked, tenths) {
            assert_eq!(answer(&typed), wanted, "{asked}");
            inches += 1;
        }
    }
    assert!(bare == CASES && inches > CASES / 2, "{bare} {inches}");
}

#[test]
fn a_joint_says_what_the_core_says() {
    let mut answers = 0;
    for known in cases() {
        // Of a joint the widest hole counts, and rows stand as far apart as their rivets where nothing else is said.
        let hole = known.hole.map(|hole| Toleranced::exactly(hole.max()));
        let known = Known { hole, ..known };
        let known = if known.row_spacing.is_none() || known.pitch.is_none() { one_row(known) } else { known };
        let mut more = known.hole.map(|hole| format!(" --hole {}", exact(hole.max()))).unwrap_or_default();
        if let Some(spacing) = known.row_spacing.filter(|_| known.pitch.is_some()) {
            write!(more, " --rows {} --transverse-pitch {}", known.rows, exact(spacing)).expect("a string takes all");
        }
        let (rivet, layers) = (known.rivet, typed(&known.layers()));
        let run = shophead(&format!(
            "joint --rivet {rivet} --sheets {layers}{more}{}{}",
            around(&known),
            practice(known.practice)
        ));
        let question = known.question();
        let wanted = match known.pitch {
            Some(_) => question.row().map(|row| of_core(&row.joint.findings)).ok(),
            None => question.strength().map(|joint| of_core(&joint.findings)).ok(),
        };
        match (answered(&run), wanted) {
            (Some(said), Some(wanted)) => {
                let said = of_json(&said["findings"]);
                let lost: Vec<_> = wanted.difference(&said).collect();
                assert!(lost.is_empty(), "nothing said of {lost:?}: {run}");
                // The rest is about how rows share what they carry, which only a row has.
                let more: Vec<_> = said.difference(&wanted).filter(|told| told.0 != "elastic-shares-only").collect();
                assert!(more.is_empty(), "{more:?}: {run}");
                answers += 1;
            }
            (None, None) => {}
            (said, wanted) => panic!("{said:?} {wanted:?} {run}"),
        }
    }
    assert!(answers > CASES / 2, "{answers}");
}

#[test]
fn a_hole_says_what_the_core_says() {
    for (index, known) in cases().enumerate() {
        let shank = known.rivet.size().shank_nominal.nanometres();
        let at = |thousandths: usize| Length::from_nanometres(shank + 25_400 * thousandths as i64).expect("a length");
        let (minor, major) = (at(index % 7), at(index % 7 + index % 3));
        let spacing = known.row_spacing.map(|spacing| format!(" --row-spacing {}", exact(spacing))).unwrap_or_default();
        let run = shophead(&format!(
            "hole --rivet {} --major {} --minor {} --rows {} --layers {}{spacing}{}{}",
            known.rivet,
            exact(major),
            exact(minor),
            known.rows,
            typed(&known.layers()),
            around(&known),
            practice(known.practice)
        ));
        let known = Known { hole: None, ..known };
        let found = AsFound::new(major, minor, Damage::None).expect("a hole");
        let wanted = known.question().hole(found);
        let said = answered(&run).unwrap_or_else(|| panic!("{run}"));
        assert_eq!(said["result"]["disposition"], wanted.disposition.as_str(), "{run}");
        assert_eq!(of_json(&said["findings"]), of_core(&wanted.findings), "{run}");
    }
}

#[test]
fn a_batch_says_what_the_single_command_says() {
    let known: Vec<Known> = cases().map(one_row).collect();
    for practice in ["handbook", "process"] {
        let mut rows = "series,alloy,diameter,layers,hole,edge,pitch,structure,member,installed\n".to_owned();
        let asked: Vec<&Known> = known.iter().filter(|known| known.practice.name() == practice).collect();
        for known in &asked {
            let (rivet, cell) = (&known.rivet, |length: Option<Length>| length.map(exact).unwrap_or_default());
            writeln!(
                rows,
                "{},{},{},\"{}\",{},{},{},{},{},{}",
                rivet.series().name,
                rivet.material().code,
                exact(rivet.diameter()),
                known.layers(),
                known.hole.map(toleranced).unwrap_or_default(),
                cell(known.edge),
                cell(known.pitch),
                known.structure.map(|word| word.to_string()).unwrap_or_default(),
                known.member.map(|word| word.to_string()).unwrap_or_default(),
                known.installed.map(|part| part.to_string()).unwrap_or_default(),
            )
            .expect("a string takes all");
        }
        let run =
            shophead_with(&format!("batch length --practice {practice} --format json"), |run| run.write_stdin(rows));
        let lines: Vec<Value> =
            run.stdout.lines().map(|line| serde_json::from_str(line).expect("an object a line")).collect();
        assert_eq!(lines.len(), asked.len(), "{run}");
        for (line, known) in lines.iter().zip(asked) {
            match known.question().length() {
                Ok(wanted) => assert_eq!(of_json(&line["findings"]), of_core(&wanted.findings), "{line}"),
                Err(_) => assert!(line["error"].is_string(), "{line}"),
            }
        }
    }
}

/// A batch finds of a group what the command finds, and what its rivet has of the core.
#[test]
fn a_batch_of_groups_says_what_the_single_command_says() {
    const POINTS: &str = "0 0; 6 0; 0 6; 6 6";
    let known: Vec<Known> = cases().map(|known| one_row(Known { pitch: None, ..known })).collect();
    let mut answers = 0;
    for practice in ["handbook", "process"] {
        let mut rows = "points,load,at,rivet,sheets,hole,edge,structure,member,installed\n".to_owned();
        let asked: Vec<&Known> = known.iter().filter(|known| known.practice.name() == practice).collect();
        for known in &asked {
            writeln!(
                rows,
                "{POINTS},\"100,0\",\"3,3\",{},\"{}\",{},{},{},{},{}",
                known.rivet,
                known.layers(),
                known.hole.map(|hole| exact(hole.max())).unwrap_or_default(),
                known.edge.map(exact).unwrap_or_default(),
                known.structure.map(|word| word.to_string()).unwrap_or_default(),
                known.member.map(|word| word.to_string()).unwrap_or_default(),
                known.installed.map(|part| part.to_string()).unwrap_or_default(),
            )
            .expect("a string takes all");
        }
        let run = |form: &str| {
            let rows = rows.clone();
            shophead_with(&format!("batch group --practice {practice} --format {form}"), |run| run.write_stdin(rows))
        };
        let (lines, table) = (run("json"), run("csv"));
        let lines: Vec<Value> =
            lines.stdout.lines().map(|line| serde_json::from_str(line).expect("an object a line")).collect();
        let mut table = csv::Reader::from_reader(table.stdout.as_bytes());
        let findings = table.headers().expect("a line of names").iter().position(|name| name == "findings");
        let table: Vec<csv::StringRecord> = table.records().map(|row| row.expect("a row")).collect();
        assert_eq!((lines.len(), table.len()), (asked.len(), asked.len()));
        for ((line, row), known) in lines.iter().zip(&table).zip(asked) {
            let question = known.question();
            let question = known.hole.map_or(question, |hole| question.in_hole(Toleranced::exactly(hole.max())));
            let Ok(wanted) = question.strength() else {
                assert!(line["error"].is_string(), "{line}");
                continue;
            };
            answers += 1;
            let said = of_json(&line["findings"]);
            for told in of_core(&wanted.findings) {
                // The pitch of a group is that of its points.
                assert!(
                    told.0 == Code::NotChecked.as_str() || said.contains(&told),
                    "nothing said of {told:?}: {line}"
                );
            }
            let codes: BTreeSet<&str> = said.iter().map(|told| told.0.as_str()).collect();
            let in_row: BTreeSet<&str> = row[findings.expect("its column")].split(' ').collect();
            assert_eq!(in_row, codes, "{line}");
        }
    }
    assert!(answers > CASES / 2, "{answers}");
}

/// Every row of a job, asked about what the job knows of it.
#[test]
fn a_plan_says_of_a_row_what_the_core_says_of_its_rivet() {
    use shophead::structure::{Member, Structure};
    let mut compared = 0;
    for practice in ["handbook", "process"] {
        let mut rows = "row,layers,installed,rivet,count,pitch,edge,structure,member\n".to_owned();
        let mut asked = Vec::new();
        for known in cases().map(one_row).filter(|known| known.practice.name() == practice) {
            // A job says how much hangs on a row, and what was there.
            let (structure, member) =
                (known.structure.unwrap_or(Structure::Primary), known.member.unwrap_or(Member::Skin));
            let installed = known.installed.unwrap_or(known.rivet);
            let known = Known {
                structure: Some(structure),
                member: Some(member),
                installed: Some(installed),
                hole: None,
                ..known
            };
            let cell = |length: Option<Length>| length.map(exact).unwrap_or_default();
            let row = format!(
                "R{},\"{}\",{installed},{},10,{},{},{structure},{member}\n",
                asked.len(),
                known.layers(),
                known.rivet,
                cell(known.pitch),
                cell(known.edge)
            );
            asked.push((known, row));
        }
        // A row that a job refuses, as a flush head over plain sheets, is left out: what is wrong with it was said.
        let plan = |lines: &str| {
            let folder = tempfile::tempdir().expect("a scratch folder");
            let job = format!("title = \"alike\"\npractice = \"{practice}\"\nrows = \"rows.csv\"\n");
            std::fs::write(folder.path().join("job.toml"), job).expect("a job");
            std::fs::write(folder.path().join("rows.csv"), lines).expect("its rows");
            shophead_with("plan job.toml --format json", |run| run.current_dir(folder.path()))
        };
        let kept: Vec<(Known, String)> =
            asked.into_iter().filter(|(_, row)| plan(&format!("{rows}{row}")).status != Some(2)).collect();
        rows.extend(kept.iter().map(|(_, row)| row.as_str()));
        let run = plan(&rows);
        let said = answered(&run).unwrap_or_else(|| panic!("{run}"));
        let findings = said["findings"].as_array().expect("a list");
        for (known, row) in &kept {
            let name = row.split(',').next().expect("a name");
            let subject = format!("row {name}");
            let of_row = findings.iter().filter(|finding| finding["subject"] == subject.as_str());
            let of_row = of_json(&Value::Array(of_row.cloned().collect()));
            let wanted = of_core(&known.question().findings());
            let lost: Vec<_> = wanted.difference(&of_row).collect();
            assert!(lost.is_empty(), "{practice} {row}: nothing said of {lost:?}; said {of_row:?}");
            compared += 1;
        }
    }
    assert!(compared > CASES / 3, "{compared}");
}

/// The laid out rows of a splice, asked about as a row of their own.
#[test]
fn a_splice_says_of_its_rows_what_the_core_says() {
    let mut compared = 0;
    for known in cases() {
        let layer = known.stack.layers().first().filter(|layer| layer.material.is_some()).copied();
        let Some((layer, material)) = layer.and_then(|layer| Some((layer, layer.material?))) else { continue };
        let (rivet, thickness) = (known.rivet, layer.thickness.nominal());
        let run = shophead(&format!(
            "splice --sheet {}:{} --width 10in --rivet {rivet} --count strength{}",
            typed(&material.to_string()),
            exact(thickness),
            practice(known.practice)
        ));
        let Some(said) = answered(&run) else { continue };
        let laid = &said["result"]["rows"];
        let nanometres = |value: &Value| (value["mm"].as_f64().expect("a length") * 1e6).round() as i64;
        let (Some(rows), false) = (laid["rows"].as_u64(), laid.is_null()) else { continue };
        let length = |value: &Value| Length::from_nanometres(nanometres(value)).expect("in range");
        let plain = Layer::of(Toleranced::exactly(thickness)).material(material);
        let top = if rivet.series().head.is_flush() { Preparation::Countersunk } else { Preparation::Plain };
        let mut stack = Stack::new();
        stack.push(plain.preparation(top)).expect("room");
        stack.push(plain).expect("room");
        let question = Installation::new(rivet, &stack)
            .by(known.practice)
            .edge(length(&said["result"]["strength"]["edge"]))
            .pitch(length(&laid["pitch"]))
            .rows(u16::try_from(rows).expect("few"));
        let told: BTreeSet<(String, String)> =
            of_json(&said["findings"]).into_iter().map(|(code, severity, _)| (code, severity)).collect();
        for finding in &question.findings() {
            // What one rivet lacks the splice lays out itself.
            if finding.code() == Code::NotChecked {
                continue;
            }
            let wanted = (finding.code().as_str().to_owned(), finding.severity().as_str().to_owned());
            assert!(told.contains(&wanted), "nothing said of {wanted:?}: {run}");
        }
        compared += 1;
    }
    assert!(compared > CASES / 10, "{compared}");
}

/// What a group says of its rivet stands in what a joint of it says.
#[test]
fn a_group_refers_what_its_rivet_refers() {
    let points = "x,y\n0,0\n6,0\n0,6\n6,6\n";
    for known in cases() {
        let known = one_row(Known { pitch: None, hole: None, ..known });
        let (rivet, layers) = (known.rivet, typed(&known.layers()));
        let mut options = around(&known);
        options.push_str(&practice(known.practice));
        let run = shophead_with(
            &format!("group --load 100,0 --at 3,3 --rivet {rivet} --sheets {layers}{options} -"),
            |run| run.write_stdin(points),
        );
        let Ok(wanted) = known.question().strength() else {
            assert_eq!(run.status, Some(2), "{run}");
            continue;
        };
        let said = answered(&run).unwrap_or_else(|| panic!("{run}"));
        let said: BTreeSet<(String, String)> =
            of_json(&said["findings"]).into_iter().map(|(code, severity, _)| (code, severity)).collect();
        for finding in &wanted.findings {
            // The pitch of a group is that of its points.
            if finding.code() == Code::NotChecked {
                continue;
            }
            let told = (finding.code().as_str().to_owned(), finding.severity().as_str().to_owned());
            assert!(said.contains(&told), "nothing said of {told:?}: {run}");
        }
    }
}
