//! Whatever the core finds of a repair or an answer stands in what the command says.

use std::collections::BTreeSet;

use serde_json::Value;
use shophead::finding::Finding;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::quantity::{Force, Stress};
use shophead::repair::in_row::{LaidRows, in_row};
use shophead::repair::strip::{CountedQuery, CountedRow, InPlace, counted};
use shophead::stack::Stack;
use shophead_tests::prelude::{length, part};

use crate::depth::with_files;
use crate::shophead;

/// Codes with how serious they are.
type Said = BTreeSet<(String, String)>;

fn of_core<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> Said {
    findings.into_iter().map(|found| (found.code().to_string(), found.severity().to_string())).collect()
}

fn of_answer(answer: &Value) -> Said {
    let word = |value: &Value| value.as_str().expect("a word").to_owned();
    let findings = answer["findings"].as_array().expect("a list").iter();
    findings.map(|found| (word(&found["code"]), word(&found["severity"]))).collect()
}

/// The same of what is typed.
fn said(typed: &str) -> Said {
    let run = shophead(&format!("{typed} --format json"));
    of_answer(&run.json(run.status.expect("a status")))
}

fn has(said: &Said, code: &str, severity: &str) -> bool {
    said.contains(&(code.to_owned(), severity.to_owned()))
}

#[test]
fn rows_say_what_the_core_finds_of_them() {
    for (rivet, sheets, edge, pitch, rows) in [
        ("MS20470AD4", "2024-T3:.040,2024-T3:.063", "1/4", "1", 2),
        ("MS20470AD4", "2024-T3:.040,2024-T3:.063", "3/16", "1/4", 3),
        ("MS20470AD6", "2024-T3:.020,2024-T3:.020", "3/8", "1", 1),
        ("MS20426AD4", "2024-T3:.063:countersunk,2024-O:.063", "1/4", "1", 2),
    ] {
        let stack = Stack::parse(sheets).expect("sheets");
        let laid = LaidRows::new(part(rivet), &stack, length(edge), length(pitch));
        let found = in_row(&laid.rows(rows).apart(length("3/4"))).expect("rows");
        let typed = format!(
            "repair rows --rivet {rivet} --sheets {sheets} --edge {edge} --pitch {pitch} --rows {rows} --row-spacing 3/4"
        );
        let said = said(&typed);
        let wanted = of_core(&found.findings);
        assert!(!wanted.is_empty() && wanted.is_subset(&said), "{typed}: {wanted:?} in {said:?}");
    }
}

#[test]
fn a_strip_says_what_the_core_finds_of_it() {
    let (mut lacking, mut overloaded) = (0, 0);
    for (sheet, rivet_fsu, load) in
        [("2024-T3:.040", None, 300.0), ("2024-T3:.040", None, 9_000.0), ("2024-O:.040", Some(34.0), 300.0)]
    {
        let (rivet, stack) = (part("MS20470AD4"), Stack::parse(&format!("{sheet},{sheet}")));
        let (stack, rows) = (stack.expect("sheets"), [CountedRow::new(2, rivet), CountedRow::new(3, rivet)]);
        let load = (Load { force: Force::from_lbf(load), kind: LoadKind::Limit }, Factors::SEAM);
        let ftu = Stress::from_ksi(60.0);
        let given = InPlace::default().ftu(Some(ftu)).rivet_fsu(rivet_fsu.map(Stress::from_ksi));
        let query = CountedQuery::new(rivet, &rows, &stack, length("2"), length("3/4"), length("5/16"));
        let mut wanted = Vec::new();
        counted(&query.given(given).load(Some(load)), &mut |_, found| wanted.push(*found)).expect("a strip");
        let given = rivet_fsu.map_or_else(String::new, |fsu| format!(" --rivet-fsu {fsu}ksi"));
        let typed = format!(
            "repair rows --rivet MS20470AD4 --sheets {sheet},{sheet} --counts 2-3 --across 2 --row-spacing 3/4 --edge 5/16 \
             --ftu 60ksi{given} --load {}",
            load.0.force.lbf()
        );
        let said = said(&typed);
        let wanted = of_core(&wanted);
        lacking += u32::from(wanted.iter().any(|(code, _)| code == "strength-not-published"));
        overloaded += u32::from(wanted.iter().any(|(code, _)| code == "margin-negative"));
        assert!(wanted.is_subset(&said), "{typed}: {wanted:?} in {said:?}");
    }
    assert!(lacking > 0 && overloaded > 0, "{lacking} {overloaded}");
}

/// What cannot be weighed is said to be light by nobody.
#[test]
fn a_sheet_without_a_density_is_said_to_have_none() {
    let seams = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/hull-side/seams.csv");
    for typed in [
        format!("repair panel {seams} --skin 2024-O:.040 --size 24x18"),
        "repair splice stringer --shape angle --material 2017 --leg .6x.040 --leg .6x.040 --gap 1".to_owned(),
    ] {
        let said = said(&typed);
        assert!(has(&said, "density-not-known", "note"), "{typed}: {said:?}");
    }
}

/// A row and a hole in primary structure, referred, and answered with another rivet.
const ANSWERED: &str = "title = \"Panel\"\nanswers = \"a.csv\"\nholes = \"h.csv\"\n[[row]]\nname = \"K1\"\nstructure = \"primary\"\n\
    member = \"spar-cap\"\ninstalled = \"MS20470AD4-5\"\nrivet = \"MS20470AD6\"\ncount = 5\nedge = \"1/4\"\npitch = \"1\"\n\
    layers = [{ role = \"skin\", material = \"2024-T3\", thickness = \".063\" }, { role = \"cap\", material = \"2024-T3\", \
    thickness = \".080\" }]\n";

/// What speaks against the rivet of an answer is said beside the answer, no more serious than a caution: somebody decided it.
#[test]
fn what_speaks_against_an_answer_is_said_beside_it() {
    let holes = "row,hole,major,minor\nK1,2,.215,.215\n";
    let answers = "row,hole,answer,by,document,date,finding,measured,rivet,drill,note\n\
        K1,,rivet,A Example,concession 1,2026-11-25,edge-distance-short,0.25,MS20470AD5,,\n\
        K1,,rivet,A Example,concession 1,2026-11-25,strength-not-published,none,MS20470AD5,,\n\
        K1,2,rivet,A Example,concession 2,2026-11-25,hole-over-limit edge-distance-short,0.215,MS20470AD8,F,\n";
    let run =
        with_files(&[("job.toml", ANSWERED), ("h.csv", holes), ("a.csv", answers)], "plan job.toml --format json");
    let plan = run.json(run.status.expect("a status"));
    let short = |subject: &str, needs: f64| {
        let findings = plan["findings"].as_array().expect("a list").iter();
        let of_it = |found: &&Value| found["subject"] == subject && found["code"] == "edge-distance-short";
        let needed = |found: &&Value| found["limit"]["in"].as_f64().is_some_and(|limit| (limit - needs).abs() < 1e-9);
        findings.filter(of_it).find(needed).map(|found| found["severity"].clone())
    };
    // Of the rivets as planned, then of those in the answers.
    assert_eq!((short("row K1", 0.375), short("row K1", 0.3125)), (Some("refer".into()), Some("caution".into())));
    let hole = "row K1 hole 2";
    assert_eq!((short(hole, 0.375), short(hole, 0.5)), (Some("refer".into()), Some("caution".into())));
}

/// Six rows of larger rivets are weaker than of those before: the sheet between the holes goes first, which no single rivet tells.
#[test]
fn a_row_that_its_larger_holes_weaken_is_referred() {
    let row = |rivet: &str| {
        format!(
            "title = \"t\"\n[[row]]\nname = \"R\"\nstructure = \"secondary\"\nmember = \"other\"\ninstalled = \"MS20470AD4-5\"\n\
             rivet = \"{rivet}\"\nlayers = [{{ role = \"skin\", material = \"2024-T3\", thickness = \".040\" }}, {{ role = \"tab\", \
             material = \"2024-T3\", thickness = \".063\" }}]\ncount = 20\npitch = \"3/4\"\nedge = \"1/2\"\n\
             rows-in-pattern = 6\ntransverse-pitch = \"3/4\"\n"
        )
    };
    for (rivet, is_weaker) in [("MS20470AD6", true), ("MS20470AD4", false)] {
        let run = with_files(&[("job.toml", &row(rivet))], "plan job.toml --format json");
        let said = of_answer(&run.json(run.status.expect("a status")));
        assert_eq!(has(&said, "weaker-than-before", "refer"), is_weaker, "{said:?}");
    }
}

/// Holes of a row that wait for the same answer are told together, and each step that fails says why.
#[test]
fn holes_that_wait_for_the_same_are_told_together() {
    let job = ANSWERED.replace("answers = \"a.csv\"\n", "").replace("rivet = \"MS20470AD6\"\n", "");
    let holes = "row,hole,major,minor,condition\nK1,2,.215,.215,\nK1,3,.1285,.1285,cracked\nK1,5,.1285,.1285,cracked\n";
    let files = [("job.toml", job.as_str()), ("h.csv", holes)];
    let order = with_files(&files, "order job.toml --format json").json(1);
    let left = order["result"]["not_ordered"].as_array().expect("a list").iter();
    let left: Vec<_> = left.map(|left| left["holes"].to_string()).collect();
    assert_eq!(left.len(), 2, "{left:?}");
    let text = with_files(&files, "plan job.toml --row K1");
    assert!(text.printed(1).contains("keep: Hole .215 is too large for this rivet"), "{text}");
}

/// A column that is called otherwise is nobody's to read: what says in it that a hole or a head is bad is refused, not passed over.
#[test]
fn a_condition_in_a_column_that_is_not_read_is_refused() {
    let job = ANSWERED.replace("answers = \"a.csv\"\n", "").replace("rivet = \"MS20470AD6\"\n", "");
    let plan = |holes: &str| with_files(&[("job.toml", &job), ("h.csv", holes)], "plan job.toml");
    let unread = plan("row,hole,major,minor,damage\nK1,3,.1285,.1285,cracked\n");
    assert!(
        unread.refused().contains("\"cracked\" is a condition, but this column is not read\n --> h.csv:2:18"),
        "{unread}"
    );
    // Beside the condition, and in a remark, it is a word like any other.
    plan("row,hole,major,minor,condition,damage\nK1,3,.1285,.1285,cracked,cracked\n").printed(1);
    plan("row,hole,major,minor,seen\nK1,3,.1285,.1285,not cracked\n").printed(0);
    let heads = "row,hole,diameter,height,seen\nK1,3,.19,.06,loose\n";
    let files = [("job.toml", job.as_str()), ("h.csv", "row,hole,major\n"), ("d.csv", heads)];
    let inspected = with_files(&files, "inspect job.toml d.csv");
    assert!(inspected.refused().contains("\"loose\" is a condition, but this column is not read"), "{inspected}");
}

#[test]
fn a_hole_that_no_length_suits_is_one_hole() {
    let one = shophead("length --diameter 3/32 --layers 1.25in --hole .098");
    assert!(one.printed(1).contains("\nhole              no length within limits"), "{one}");
}

/// A patch that nothing counts is no answer: it is referred, with what to enter.
#[test]
fn what_is_not_sized_is_referred() {
    let soft = "repair patch --sheet 2024-O:.040 --hole 2x1 --rivet MS20470AD4";
    assert!(has(&said(soft), "strength-not-published", "refer"));
    let text = shophead(soft);
    assert!(text.printed(1).contains("Enter material.2024-O.tension_ultimate"), "{text}");
}

/// Rows so close that the rivets of two of them stand nearer to each other than the least pitch.
#[test]
fn rivets_of_neighbouring_rows_are_held_to_the_pitch() {
    let patch = "repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2";
    assert!(!has(&said(patch), "pitch-short", "refer"));
    let close = said(&format!("{patch} --row-spacing .2"));
    assert!(has(&close, "pitch-short", "refer") && has(&close, "transverse-pitch-short", "refer"), "{close:?}");
}

/// Wherever rows share a load it is said that the shares are elastic.
#[test]
fn elastic_shares_are_said_to_be_no_more() {
    let rows =
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --pitch .75 --transverse-pitch .5 --edge .3";
    assert!(has(&said(&format!("{rows} --rows 3 --strip-load 500")), "elastic-shares-only", "note"));
    assert!(!has(&said(rows), "elastic-shares-only", "note"));
}
