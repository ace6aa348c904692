//! A referral is answered, and everything goes by the answer until the measure or the finding is another.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use crate::{Run, schema, shophead_with};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

/// The demo in a folder of its own, with an answers file to be written.
struct Job(tempfile::TempDir);

impl Job {
    fn new() -> Job {
        let folder = tempfile::tempdir().expect("a folder");
        for file in ["job.toml", "shop-limits.toml", "holes.csv", "stock.csv", "trim.csv", "driven.csv"] {
            fs::copy(Path::new(DEMO).join(file), folder.path().join(file)).expect("copied");
        }
        let job = Job(folder);
        let text =
            job.read("job.toml").replace("holes = \"holes.csv\"", "holes = \"holes.csv\"\nanswers = \"answers.csv\"");
        job.write("job.toml", &text);
        job
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.0.path().join(name)).unwrap_or_default()
    }

    fn write(&self, name: &str, text: &str) {
        fs::write(self.0.path().join(name), text).expect("written");
    }

    fn run(&self, typed: &str) -> Run {
        shophead_with(typed, |command| command.current_dir(self.0.path()))
    }

    #[track_caller]
    fn json(&self, typed: &str) -> (Option<i32>, Value) {
        let run = self.run(&format!("{typed} --format json"));
        (run.status, schema::read(&run.stdout))
    }

    /// Answers a hole or a row.
    #[track_caller]
    fn answer(&self, to: &str, what: &str) -> String {
        let run = self.run(&format!(
            "answer job.toml {to} --answer {what} --by A._Example --document concession_17 --date 2026-11-25"
        ));
        assert_eq!((run.status, run.stderr.as_str()), (Some(0), ""), "{run}");
        run.stdout
    }

    fn hole(&self, row: &str, number: u64) -> Value {
        let plan = self.json("plan job.toml").1;
        let rows = plan["result"]["rows"].as_array().expect("rows").clone();
        let row = rows.into_iter().find(|plan| plan["name"] == row).expect("a row");
        let holes = row["holes"].as_array().expect("holes").clone();
        holes.into_iter().find(|hole| hole["hole_number"] == number).expect("a hole")
    }
}

#[test]
fn an_answered_hole_is_planned_ordered_inspected_and_on_the_card() {
    let job = Job::new();
    let before = job.json("plan job.toml").1["result"]["counts"].clone();
    assert_eq!(before["unanswered"], before["referrals"]);
    assert_eq!(job.hole("K1", 19)["part"], Value::Null);
    let said = job.answer("--row K1 --hole 19", "oversize --rivet NAS1241AD5-8 --drill #16 --note wet_with_primer");
    assert!(said.starts_with("row K1 hole 19: answered\n"), "{said}");
    let line = job.read("answers.csv").lines().nth(1).expect("a line").to_owned();
    assert!(line.starts_with("K1,19,oversize,A. Example,concession 17,2026-11-25,"), "{line}");
    assert!(line.ends_with(",0.171 0.161,NAS1241AD5-8,#16,wet with primer"), "{line}");

    // The plan: the finding stays, marked; the hole has its rivet and its drill as answered.
    let (status, plan) = job.json("plan job.toml");
    assert_eq!(status, Some(1), "the other referrals are open");
    let counts = &plan["result"]["counts"];
    assert_eq!(counts["referrals"], before["referrals"]);
    assert!(counts["unanswered"].as_u64() < before["unanswered"].as_u64(), "{counts}");
    let hole = job.hole("K1", 19);
    assert_eq!(
        (&hole["disposition"], &hole["part"], &hole["drill"]),
        (&json!("refer"), &json!("NAS1241AD5-8"), &json!("#16"))
    );
    assert_eq!(hole["answer"]["document"], "concession 17");
    let of_hole = |plan: &Value, severity: &str| -> Vec<Value> {
        let findings = plan["findings"].as_array().expect("findings").iter();
        findings
            .filter(|finding| finding["subject"] == "row K1 hole 19" && finding["severity"] == severity)
            .cloned()
            .collect()
    };
    let refers = of_hole(&plan, "refer");
    assert!(!refers.is_empty() && refers.iter().all(|finding| finding["answer"]["by"] == "A. Example"), "{refers:#?}");
    // What it breaks of a published limit is said, and changes nothing.
    assert!(!of_hole(&plan, "caution").is_empty(), "an oversize rivet in a spar cap breaks something");
    let text = job.run("plan job.toml --full --width 200");
    assert!(text.stdout.contains("Referred, and answered\nrow K1 hole 19:\n  Open the hole for an oversize shank, NAS1241AD5-8, drill #16. A. Example, concession 17, 2026-11-25. Note: wet with primer\n"), "{text}");

    // The first page says what is done to it.
    let text = job.run("plan job.toml");
    assert!(text.stdout.contains("\nas answered     K1 19 (#16)\n"), "{text}");

    // The order, the card, the inspection.
    let order = job.json("order job.toml").1;
    let lines = order["result"]["lines"].as_array().expect("lines");
    let ordered = lines.iter().find(|line| line["part"] == "NAS1241AD5-8").expect("the answered rivet");
    assert_eq!(ordered["goes_into"], json!([{ "row": "K1", "holes": [19] }]));
    job.run("card job.toml -o card.html");
    let card = scraper::Html::parse_document(&job.read("card.html"));
    let rows = scraper::Selector::parse("section[aria-labelledby=holes] tbody tr").expect("a selector");
    let row = card
        .select(&rows)
        .map(|row| row.text().collect::<String>())
        .find(|row| row.contains("K1 hole 19"))
        .expect("the hole");
    assert!(row.contains("A. Example, concession 17, 2026-11-25") && row.contains("NAS1241AD5-8"), "{row}");
    let stops = scraper::Selector::parse("section[aria-labelledby=stops] tbody tr").expect("a selector");
    let stop = card
        .select(&stops)
        .map(|row| row.text().collect::<String>())
        .find(|row| row.contains("row K1 hole 19"))
        .expect("the hole");
    assert!(stop.contains("A. Example, concession 17"), "{stop}");
    job.write("driven.csv", "row,hole,condition\nK1,19,sound\nK1,31,sound\n");
    let inspected = job.json("inspect job.toml driven.csv").1;
    let lines = inspected["result"]["lines"].as_array().expect("lines");
    assert_eq!((&lines[0]["rivet"], &lines[0]["accepted"]), (&json!("NAS1241AD5-8"), &json!(true)));
    assert_eq!(lines[1]["reasons"], json!(["driven-where-referred"]), "the cracked hole is not answered");
}

#[test]
fn another_measure_or_another_finding_makes_an_answer_lapse() {
    let job = Job::new();
    job.answer("--row K1 --hole 19", "keep");
    // Kept as it is, with the length that the wider hole takes.
    assert_eq!(job.hole("K1", 19)["part"], "MS20426AD5-9");
    assert_eq!(job.hole("K1", 19)["drill"], Value::Null);
    let standing = || {
        let plan = job.json("plan job.toml").1;
        plan["result"]["answers"][0]["standing"].as_str().expect("a word").to_owned()
    };
    assert_eq!(standing(), "counts");
    let holes = job.read("holes.csv");
    job.write("holes.csv", &holes.replace("K1,19,.171,.161", "K1,19,.172,.161"));
    assert_eq!((standing(), job.hole("K1", 19)["part"].clone()), ("other-measure".into(), Value::Null));
    let text = job.run("plan job.toml --full --width 200");
    assert!(
        text.stdout.contains("Answers that no longer count\n")
            && text.stdout.contains("It was given for 0.171 0.161; now it is 0.172 0.161."),
        "{text}"
    );
    job.write("holes.csv", &holes.replace("K1,19,.171,.161,,", "K1,19,.171,.161,cracked,"));
    assert_ne!(standing(), "counts", "a crack is another finding");
    assert_eq!(job.hole("K1", 19)["part"], Value::Null);
    job.write("holes.csv", &holes.replace("K1,19,.171,.161", "K1,19,.160,.160"));
    assert_eq!(standing(), "not-found", "nothing is referred any more");
    assert_eq!(job.hole("K1", 19)["part"], "MS20426AD5-9", "and it is kept as it is");
    // Of two answers to the same finding the last one counts.
    job.write("holes.csv", &holes);
    job.run("answer job.toml --row K1 --hole 19 --answer rivet --rivet MS20426AD6 --by B._Example --document concession_18 --finding step-needs-approval,hole-over-limit");
    let again = job.run("answer job.toml --row K1 --hole 19 --answer keep --by B._Example --document concession_18");
    assert!(again.refused().contains("row K1 hole 19: no open referral"), "{again}");
}

#[test]
fn a_survey_knows_what_was_answered() {
    let job = Job::new();
    job.answer("--row K1 --hole 19", "oversize --rivet NAS1241AD5-8");
    job.write("holes.csv", "row,hole,major\n");
    let survey = |typed: &str| {
        let typed = typed.to_owned();
        shophead_with("survey job.toml holes.csv --width 200", |command| {
            command.current_dir(job.0.path()).write_stdin(typed)
        })
    };
    let run = survey("j K1 19\n.171 .161\nq\n");
    assert_eq!(run.status, Some(0), "{run}");
    assert!(
        run.stdout.contains(
            "ANSWERED: Open the hole for an oversize shank, NAS1241AD5-8. A. Example, concession 17, 2026-11-25."
        ),
        "{run}"
    );
    let run = survey("j K1 19\n.173 .161\nq\n");
    assert_eq!(run.status, Some(1), "{run}");
    assert!(run.stdout.contains("The answer of A. Example was for 0.171 0.161: it no longer counts."), "{run}");
}

#[test]
fn a_repair_leaves_no_rivet_and_a_blind_rivet_is_not_taken() {
    let job = Job::new();
    job.answer("--row K1 --hole 31", "repair");
    assert_eq!(job.hole("K1", 31)["part"], Value::Null);
    let order = job.json("order job.toml").1;
    let left = order["result"]["not_ordered"].as_array().expect("a list");
    let hole = left.iter().find(|left| left["holes"] == json!([31])).expect("the hole");
    assert_eq!((&hole["codes"], &hole["answer"]["answer"]), (&json!([]), &json!("repair")));
    assert!(hole["why"].as_str().is_some_and(|why| why.contains("concession 17")), "{hole}");
    let before = job.read("answers.csv");
    let run = job.run(
        "answer job.toml --row K1 --hole 19 --answer blind --rivet XYZ-5-4 --by A._Example --document concession_17",
    );
    assert!(run.refused().contains("a blind rivet is not taken in row K1, not even as an answer"), "{run}");
    assert_eq!(job.read("answers.csv"), before, "nothing of it is written");
    // Where nothing bars it, it is taken as it is written, and ordered by whoever has its document.
    let job = Job::new();
    let holes = job.read("holes.csv") + "B1,9,.150,.098,,,,,\n";
    job.write("holes.csv", &holes);
    job.answer("--row B1 --hole 9", "blind --rivet XYZ-5-4");
    let order = job.json("order job.toml").1;
    let left = order["result"]["not_ordered"].as_array().expect("a list");
    let hole = left.iter().find(|left| left["row"] == "B1").expect("the hole");
    assert!(hole["why"].as_str().is_some_and(|why| why.contains("XYZ-5-4")), "{hole}");
}

/// Two rows, the second too near to the edge.
const TWO_ROWS: &str = "title = \"P\"\nanswers = \"answers.csv\"\n[[row]]\nname = \"K1\"\nstructure = \"secondary\"\nmember = \"frame\"\n\
    installed = \"MS20470AD4-5\"\nlayers = [{ role = \"skin\", material = \"2024-T3\", thickness = \".04\" }, { role = \"tab\", material = \"2024-T3\", thickness = \".04\" }]\n\
    count = 4\nedge = \".15\"\npitch = \"3/4\"\n";

#[test]
fn a_row_is_answered_as_a_whole_and_then_nothing_is_referred() {
    let job = Job::new();
    job.write("job.toml", TWO_ROWS);
    let (status, plan) = job.json("plan job.toml");
    assert_eq!(status, Some(1));
    assert!(plan["result"]["counts"]["unanswered"].as_u64() > Some(0));
    assert_eq!(job.json("order job.toml").1["result"]["lines"], json!([]), "a referred row is not ordered");
    job.answer("--row K1", "keep");
    assert!(
        job.read("answers.csv").lines().nth(1).is_some_and(|line| line.starts_with("K1,,keep,A. Example,")),
        "{}",
        job.read("answers.csv")
    );
    let (status, plan) = job.json("plan job.toml");
    assert_eq!((status, &plan["result"]["counts"]["unanswered"]), (Some(0), &json!(0)));
    assert!(plan["result"]["counts"]["referrals"].as_u64() > Some(0), "they stay what they are");
    let (status, order) = job.json("order job.toml");
    assert_eq!((status, &order["result"]["lines"][0]["needed"]), (Some(0), &json!(4)));
    let text = job.run("plan job.toml --full");
    assert!(text.printed(0).contains("Nothing is referred so far\n"), "{text}");
    // Another edge distance is another measure.
    job.write("job.toml", &TWO_ROWS.replace(".15", ".16"));
    assert_eq!(job.json("plan job.toml").0, Some(1));
    // Another rivet for the row, by an answer, is what is ordered.
    job.answer("--row K1", "rivet --rivet MS20470AD4-6");
    assert_eq!(job.json("order job.toml").1["result"]["lines"][0]["part"], "MS20470AD4-6");
}

#[test]
fn an_answer_needs_its_file_and_its_place() {
    let job = Job::new();
    for (typed, told) in [
        ("--row K9 --answer keep", "--row \"K9\": the job has no such row; right would be K1, K2, K3"),
        ("--row K1 --hole 49 --answer keep", "--hole: row K1 has holes 1 to 48"),
        ("--row K1 --hole 2 --answer keep", "row K1 hole 2: no open referral"),
        ("--row K1 --hole 19 --answer kep", "help: right would be \"keep\""),
        ("--row K1 --hole 19 --answer rivet", "the answer rivet names no rivet"),
        ("--row K1 --hole 19 --answer keep --date 26-11-25", "--date \"26-11-25\": this is no date"),
        ("--row K1 --hole 19 --answer keep --finding hole-craked", "--finding \"hole-craked\": "),
    ] {
        let run = job.run(&format!("answer job.toml {typed} --by A._Example --document concession_17"));
        assert!(run.refused().contains(told), "{run}");
        assert_eq!(job.read("answers.csv"), "", "{typed}");
    }
    job.write("job.toml", &job.read("job.toml").replace("answers = \"answers.csv\"\n", ""));
    let run = job.run("answer job.toml --row K1 --hole 19 --answer keep --by A._Example --document concession_17");
    assert_eq!(run.refused(), "error: the job names no answers file; right would be answers = \"answers.csv\" in it\n");
}

#[test]
fn a_hole_that_was_opened_as_answered_stays_answered() {
    let job = Job::new();
    let open = |job: &Job| job.json("plan job.toml").1["result"]["counts"]["unanswered"].as_u64().expect("a count");
    let before = open(&job);
    job.answer("--row K1 --hole 19", "oversize --rivet NAS1241AD5-8 --drill #16");
    let answered = open(&job);
    assert!(answered < before);
    // Opened with the drill of the answer, within the limits of its rivet: it goes in as it is.
    let survey = |typed: &str| {
        let run = shophead_with("survey job.toml holes.csv", |command| {
            command.current_dir(job.0.path()).write_stdin(format!("j K1 19\n{typed}\nq\n"))
        });
        assert_eq!(run.stderr, "", "{run}");
        run.stdout
    };
    let out = survey(".1775 .177 o #16");
    assert!(out.contains("ANSWERED: Open the hole for an oversize shank, NAS1241AD5-8"), "{out}");
    assert!(!out.contains("no longer counts"), "{out}");
    assert_eq!(open(&job), answered);
    let hole = job.hole("K1", 19);
    assert_eq!((&hole["part"], &hole["drill"]), (&json!("NAS1241AD5-8"), &Value::Null));
    // With another drill, or wider than that, it is another hole, and the answer was for the one before.
    for typed in [".1805 o #15", ".185 .177 o #16", ".1775 .177 g o #16"] {
        let out = survey(typed);
        assert!(out.contains("The answer of A. Example was for 0.171 0.161: it no longer counts."), "{typed}: {out}");
        assert!(open(&job) > answered, "{typed}");
        survey("clear");
        survey(".171 .161");
        survey(".1775 .177 o #16");
        assert_eq!(open(&job), answered, "{typed}");
    }
}
