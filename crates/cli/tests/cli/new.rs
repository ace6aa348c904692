//! `shophead new`: a folder to begin in, from a spreadsheet, or asked for at a terminal.

use std::fs;
use std::path::Path;

use assert_cmd::Command;
use tempfile::TempDir;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

/// Status, output and complaints of a run in a folder, with something on its standard input.
fn run(folder: &TempDir, typed: &str, input: &str) -> (Option<i32>, String, String) {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
    let words = typed.split_whitespace().map(|word| word.replace('_', " "));
    let output = command.current_dir(folder.path()).args(words).write_stdin(input).output().expect("the binary runs");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    (output.status.code(), text(output.stdout), text(output.stderr))
}

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn names(path: &Path) -> Vec<String> {
    let entries = fs::read_dir(path).expect("a folder").map(|entry| entry.expect("an entry").file_name());
    let mut names: Vec<String> = entries.map(|name| name.to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn an_empty_folder_says_what_to_fill_in_and_then_plans() {
    let folder = folder();
    let (status, out, err) = run(&folder, "new panel --title Keel_panel", "");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    assert!(out.replace('\n', " ").contains("shophead plan panel/job.toml"), "{out}");
    let panel = folder.path().join("panel");
    assert_eq!(
        names(&panel),
        ["README.txt", "answers.csv", "driven.csv", "holes.csv", "job.toml", "rows.csv", "stock.csv"]
    );
    let (status, _, err) = run(&folder, "plan panel/job.toml", "");
    assert_eq!(status, Some(2));
    assert!(err.contains("there is no row in this file yet") && err.contains("panel/rows.csv"), "{err}");
    let rows = fs::read_to_string(panel.join("rows.csv")).expect("rows");
    fs::write(panel.join("rows.csv"), rows + "K1,\".032,.040\",MS20470AD4-5,12,3/4,3/8,secondary,frame,,,,\n")
        .expect("written");
    let (status, out, err) = run(&folder, "plan panel/job.toml --full --width 200", "");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    assert!(
        out.starts_with("Keel panel\n")
            && out.contains("0 of 12 measured; shophead survey panel/job.toml panel/holes.csv"),
        "{out}"
    );
    // Every other file of the folder reads as it is.
    let (status, out, err) = run(&folder, "order panel/job.toml --stock panel/stock.csv", "");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    let (status, out, err) = run(&folder, "inspect panel/job.toml panel/driven.csv", "");
    assert_eq!((status, err.as_str()), (Some(1), ""), "nobody has looked at a rivet yet: {out}");
}

#[test]
fn what_is_there_is_never_written_over() {
    let folder = folder();
    fs::create_dir(folder.path().join("panel")).expect("made");
    assert_eq!(run(&folder, "new panel", "").0, Some(0), "an empty folder will do");
    let before = fs::read(folder.path().join("panel/job.toml")).expect("a job");
    let (status, out, err) = run(&folder, "new panel", "");
    assert_eq!((status, out.as_str()), (Some(2), ""));
    assert_eq!(err, "error: panel is there and not empty; name a new folder\n");
    assert_eq!(fs::read(folder.path().join("panel/job.toml")).expect("a job"), before);
    let (status, _, err) = run(&folder, "new missing/panel", "");
    assert!(status == Some(3) && err.contains("nothing was written"), "{err}");
    assert_eq!(names(folder.path()), ["panel"], "nothing is left beside it");
}

#[test]
fn the_rows_of_a_spreadsheet_are_taken_as_they_are() {
    let folder = folder();
    let rows = "Row,Layers,installed,count,pitch,edge,structure,member,clearances,drawing\n\
                K1,\".032+/-.002,2024-T3:.040\",MS20470AD4-5,12,3/4,3/8,Primary,frame,upright=1.5; rolled=open,D-17\n";
    fs::write(folder.path().join("sheet.csv"), rows).expect("written");
    let (status, out, err) = run(&folder, "new panel --from sheet.csv", "");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    assert_eq!(fs::read_to_string(folder.path().join("panel/rows.csv")).expect("rows"), rows);
    let (_, out, _) = run(&folder, "plan panel/job.toml --format json", "");
    let json: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    let positions: Vec<&str> = json["result"]["positions"]
        .as_array()
        .expect("positions")
        .iter()
        .filter_map(|position| position["name"].as_str())
        .collect();
    assert_eq!(positions, ["upright", "rolled"]);
    fs::write(folder.path().join("sheet.csv"), rows.replace("frame", "frme")).expect("written");
    let (status, _, err) = run(&folder, "new other --from sheet.csv", "");
    assert!(status == Some(2) && err.contains("member cannot be \"frme\"") && err.contains("sheet.csv:2:"), "{err}");
    assert_eq!(names(folder.path()), ["panel", "sheet.csv"]);
}

/// What a person types from nothing to a plan of five rows, as the demo's README has it, and how many keystrokes it says that is.
fn keys() -> (String, usize) {
    let readme = fs::read_to_string(format!("{DEMO}/README.md")).expect("the demo's README");
    let keys = readme.split("```keys\n").nth(1).and_then(|rest| rest.split("```").next()).expect("what is typed");
    let said = readme.split(" keystrokes").next().and_then(|before| before.rsplit(' ').next()).expect("a number");
    (keys.to_owned(), said.parse().expect("a number"))
}

#[test]
fn ten_minutes_of_typing_lead_from_nothing_to_a_plan_of_five_rows() {
    let (keys, said) = keys();
    // One for each character, and Enter.
    assert_eq!(keys.chars().count(), said, "crates/job/demo/keel-skin/README.md says another number");
    assert!(said <= 600, "ten minutes at one a second");
    let mut lines = keys.lines();
    let (first, last) = (lines.next().expect("new"), lines.next_back().expect("plan"));
    let answers: String = lines.flat_map(|line| [line, "\n"]).collect();
    let folder = folder();
    let (status, out, err) = run(&folder, first.strip_prefix("shophead ").expect("a command"), &answers);
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    assert!(!out.contains("Not taken"), "{out}");
    assert!(out.contains(&format!("Next: {last}")), "it says what to type next: {out}");
    let plan = last.strip_prefix("shophead ").expect("a command");
    let (status, out, err) = run(&folder, plan, "");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    let (_, json, _) = run(&folder, &format!("{plan} --format json"), "");
    let json: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let rows = json["result"]["rows"].as_array().expect("rows");
    let parts: Vec<(&str, &str)> =
        rows.iter().filter_map(|row| Some((row["name"].as_str()?, row["part"].as_str()?))).collect();
    let wanted = [
        ("K1", "MS20426AD5-9"),
        ("C1", "MS20426AD4-5"),
        ("F2", "MS20426AD4-5"),
        ("F3", "MS20426AD4-5"),
        ("B1", "MS20470AD3-3"),
    ];
    assert_eq!(parts, wanted, "every row has its rivet, in its length");
}

#[test]
fn a_conversation_that_is_broken_off_keeps_the_rows_that_are_whole() {
    let (keys, _) = keys();
    let answers: Vec<&str> = keys.lines().skip(1).collect();
    let typed = |count: usize| answers[..count].iter().flat_map(|line| [*line, "\n"]).collect::<String>();
    let begun = folder();
    let (status, out, err) = run(&begun, "new panel --ask", &typed(6));
    assert_eq!(status, Some(2), "{out}");
    assert!(err.ends_with("the input ended before the first row was whole; nothing was written\n"), "{err}");
    assert_eq!(names(begun.path()), Vec::<String>::new());
    let folder = folder();
    let (status, out, err) = run(&folder, "new panel --ask", &typed(14));
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    let rows = fs::read_to_string(folder.path().join("panel/rows.csv")).expect("rows");
    assert_eq!(rows.lines().count(), 2, "{rows}");
}
