//! Batches: rows in, rows out.
//!
//! That every row is answered as by the command itself is tested over generated rows beside the code; here is what a script sees.

use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Command, Stdio};

use crate::schema::{faults_of_line, read_line};
use crate::{Run, shophead, shophead_with};

fn batch(typed: &str, input: impl Into<Vec<u8>>) -> Run {
    shophead_with(&format!("batch {typed}"), |command| command.write_stdin(input))
}

/// Header and rows of a CSV output.
#[track_caller]
fn table(csv: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(csv.as_bytes());
    let record = |record: Result<csv::StringRecord, csv::Error>| record.expect("as many cells as columns");
    reader.records().map(|one| record(one).iter().map(str::to_owned).collect()).collect()
}

/// The cells of a column.
#[track_caller]
fn column(csv: &str, name: &str) -> Vec<String> {
    let rows = table(csv);
    let at = rows[0].iter().position(|column| column == name).unwrap_or_else(|| panic!("no {name} in {:?}", rows[0]));
    rows[1..].iter().map(|row| row[at].clone()).collect()
}

/// The one object of JSON Lines.
#[track_caller]
fn only_line(run: &Run, status: i32) -> serde_json::Value {
    let printed = run.printed(status);
    assert_eq!(printed.lines().count(), 1, "{run}");
    read_line(printed)
}

/// The output of a run with wrong rows.
#[track_caller]
fn with_errors(run: &Run) -> &str {
    assert_eq!(run.status, Some(2), "{run}");
    assert!(run.stderr.ends_with("their error says why\n") && run.stderr.lines().count() == 1, "{run}");
    &run.stdout
}

const ROWS: &str = "id,layers,diameter\n7,\".032,.125\",1/8\n8,.05,3/32\n";

#[test]
fn each_row_comes_out_with_the_cells_of_the_single_command() {
    for (question, header, row, typed) in [
        ("length", "layers,diameter,hole", "\".032,.125\",1/8,#30", "--layers .032,.125 --diameter 1/8 --hole #30"),
        (
            "head",
            "diameter,measured_diameter,measured_height,gap",
            "1/8,.180,.060,yes",
            "--diameter 1/8 --measured-diameter .180 --measured-height .060 --gap",
        ),
        (
            "hole",
            "rivet,major,edge,member",
            "MS20470AD4,.141,3/8,spar-cap",
            "--rivet MS20470AD4 --major .141 --edge 3/8 --member spar-cap",
        ),
        (
            "joint",
            "rivet,sheets,load,ultimate_load",
            "MS20470AD4,\"2024-T3:.032,2024-T3:.040\",100,yes",
            "--rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040 --load 100 --ultimate-load",
        ),
    ] {
        for more in ["", " --units mm", " --practice process"] {
            let single = shophead(&format!("{question} {typed} --format csv{more}"));
            let many = batch(&format!("{question}{more}"), format!("{header}\n{row}\n"));
            let status = single.status.expect("a status");
            let (single, many) = (table(single.printed(status)), table(many.printed(status)));
            let given = header.split(',').count();
            let (last, answers) = many[0][given..].split_last().expect("the error");
            assert_eq!((answers, last.as_str()), (&single[0][..], "error"));
            let (last, answers) = many[1][given..].split_last().expect("the error");
            assert_eq!((answers, last.as_str()), (&single[1][..], ""), "{question}{more}");

            let json = shophead(&format!("{question} {typed} --format json{more}")).json(status);
            let run = batch(&format!("{question} --format json{more}"), format!("{header}\n{row}\n"));
            let mut line = only_line(&run, status);
            let object = line.as_object_mut().expect("an object");
            assert_eq!(object.remove("error"), Some(serde_json::Value::Null));
            assert!(
                object.remove("input").is_some_and(|input| input.as_object().is_some_and(|input| input.len() == given))
            );
            assert_eq!(line, json);
        }
    }
}

#[test]
fn rows_are_read_from_a_file_or_the_standard_input() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("rows.csv");
    std::fs::write(&file, ROWS).expect("a file");
    let typed = format!("batch length {}", file.display());
    let from_file = shophead(&typed);
    assert_eq!(from_file.printed(0), batch("length", ROWS).printed(0));
    assert_eq!(from_file.printed(0), batch("length -", ROWS).printed(0));
    let missing = shophead("batch length no-such-file.csv");
    assert_eq!((missing.status, missing.stdout.as_str()), (Some(3), ""), "{missing}");
    assert!(missing.stderr.contains("cannot read no-such-file.csv"), "{missing}");
}

#[test]
fn a_wrong_row_is_told_in_its_place_and_stops_no_other() {
    let run = batch("length", "id,layers,diameter\n1,.0x2,1/8\n2,.05,1/8\n3,.05,\n4,.05,9/8\n5,.05,\"0,125\"\n");
    let csv = with_errors(&run);
    assert_eq!(column(csv, "id"), ["1", "2", "3", "4", "5"]);
    assert_eq!(column(csv, "part"), ["", "MS20470AD4-4", "", "", ""]);
    let errors = column(csv, "error");
    for (error, wanted) in errors.iter().zip([
        r#"layers, item 1 ".0x2": the units are in and mm (character 3); right would be"#,
        "",
        "diameter: this is not given; right would be 1/8",
        r#"diameter "9/8": MS20470 does not come in this diameter; the nearest is 3/8"#,
        r#"diameter "0,125": a decimal is written with a point, not a comma"#,
    ]) {
        assert!(error.starts_with(wanted), "{error}");
    }
    assert!(run.stderr.starts_with("error: 4 of 5 rows cannot be answered, the first is row 1;"), "{run}");
}

#[test]
fn the_status_tells_the_worst_of_the_rows() {
    // A pack that no length of rivet fits in any hole.
    let refer = "layers,diameter,tolerance\n.5,3/32,.15\n";
    assert_eq!(column(batch("length", refer).printed(1), "severity"), ["refer"]);
    // One whose length goes by the hole.
    let by_hole = batch("length", "layers,diameter,tolerance\n.5,3/32,.05\n");
    assert_eq!(column(by_hole.printed(0), "by_hole"), ["MS20470AD3-11"]);
    assert_eq!(column(by_hole.printed(0), "severity"), ["caution"]);
    assert_eq!(column(batch("length", ROWS).printed(0), "error"), ["", ""]);
    with_errors(&batch("length", format!("{refer}x,3/32,\n")));
    batch("length --format json", refer).printed(1);
}

#[test]
fn a_first_line_that_lacks_a_column_is_refused_before_anything_is_written() {
    for (question, input, wanted) in [
        (
            "length",
            "layer,diameter\n.05,1/8\n",
            "the column layers is missing; is it the one that is called \"layer\"?",
        ),
        ("length", "a,diameter\n", "the column layers is missing; right would be a first line layers,diameter"),
        ("joint", "rivet\n", "the column sheets is missing; right would be a first line rivet,sheets"),
        ("length", "", "the input is empty; right would be a first line layers,diameter"),
        ("length", "layers;diameter\n.05;1/8\n", "the columns are separated by semicolons; separate them by commas"),
        ("length", "layers\tdiameter\n", "the columns are separated by tabs"),
        ("length", "layers,diameter,Layers\n", "there are two columns Layers; keep one of both"),
        ("length", "{\"layers\":\".05\",\"diameter\":\"1/8\"}\n", "the first line is JSON; say so with --from json"),
        ("length", "layers,\"diameter\n", "the first line: a quote is never closed"),
    ] {
        let run = batch(question, input);
        assert!(run.refused().starts_with(&format!("error: {wanted}")), "{run}");
    }
    let wide: Vec<u8> = ROWS.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let run = batch("length", [&b"\xff\xfe"[..], &wide].concat());
    assert!(run.refused().contains("the input is UTF-16; save it as CSV in UTF-8"), "{run}");
    assert!(shophead("batch length --format svg").refused().contains("--format svg"));
}

#[test]
fn what_spreadsheets_write_is_read() {
    let plain = batch("length", ROWS);
    let wanted = plain.printed(0);
    for input in [
        format!("\u{feff}{ROWS}"),
        ROWS.replace('\n', "\r\n"),
        ROWS.replace('\n', "\r"),
        ROWS.trim_end().to_owned(),
        ROWS.replace("1/8\n", "1/8\n\n"),
        ROWS.replace("id,layers", "id,LAYERS"),
        ROWS.replace("id,layers", "id, layers "),
    ] {
        let run = batch("length", input.clone());
        assert_eq!(table(run.printed(0))[1..], table(wanted)[1..], "{input:?}");
    }
    // A cell over two lines, quotes in it, and a line of commas at the end.
    let input = "layers,diameter,remark\n.05,1/8,\"two \"\"lines\"\"\nof it\"\n,,\n";
    let run = batch("length", input);
    assert_eq!(column(run.printed(0), "remark"), ["two \"lines\"\nof it", ""]);
    assert_eq!(column(run.printed(0), "part"), ["MS20470AD4-4", ""]);
}

#[test]
fn a_row_that_does_not_hold_together_is_told_and_the_next_is_read() {
    let input = "layers,diameter,id\n.05,1/8\n.05,1/8,2,x\n\".05\" thick,1/8,3\n.05,1/8,4\n.05,\"1/8,5\n.05,1/8,6\n";
    let run = batch("length", input);
    let csv = with_errors(&run);
    assert_eq!(column(csv, "id"), ["", "2", "3", "4", "", "6"]);
    let errors = column(csv, "error");
    for (error, wanted) in errors.iter().zip([
        "this row has 2 cells, the header 3;",
        "this row has 4 cells, the header 3;",
        "there is text after a closing quote;",
        "",
        "a quote is never closed;",
        "",
    ]) {
        assert!(error.starts_with(wanted) && error.is_empty() == wanted.is_empty(), "{error}");
    }
    assert!(errors[1].ends_with("left out here: \"x\""), "{}", errors[1]);
    // Bytes that are no text are carried through where nothing is asked of them.
    let mut child = spawned(&["batch", "length"]);
    let mut input = child.stdin.take().expect("a pipe");
    input.write_all(b"layers,diameter,note\n.05,1/8,\xff\n.05\xff,1/8,\n").expect("it reads");
    drop(input);
    let stdout = child.wait_with_output().expect("it ends").stdout;
    assert!(stdout.windows(9).any(|bytes| bytes == b",1/8,\xff,MS"), "{stdout:?}");
    assert!(String::from_utf8_lossy(&stdout).contains("this row is not UTF-8"), "{stdout:?}");
}

#[test]
fn columns_of_the_input_are_carried_through_whatever_they_are_called() {
    let input = "rivet,major,Error,part,rivet_given,note\nMS20470AD4,.129,old,x,y,\n";
    let run = batch("hole", input);
    let rows = table(run.printed(0));
    assert_eq!(rows[0][..6], ["rivet_given_given", "major", "Error_given", "part", "rivet_given", "note"]);
    assert_eq!(rows[1][..6], ["MS20470AD4", ".129", "old", "x", "y", ""]);
    for name in &rows[0] {
        let count = rows[0].iter().filter(|other| other.eq_ignore_ascii_case(name)).count();
        assert_eq!(count, 1, "{name}");
    }
}

#[test]
fn with_a_prefix_every_column_of_the_input_keeps_its_name() {
    let input = "rivet,major,error,note\nMS20470AD4,.129,old,y\n";
    let run = batch("hole --prefix new.", input);
    let first = table(run.printed(0));
    assert_eq!(first[0][..6], ["rivet", "major", "error", "note", "new.disposition", "new.rivet"]);
    assert_eq!(first[0].last().map(String::as_str), Some("new.error"));
    assert!(first[0][4..].iter().all(|name| name.starts_with("new.")), "{:?}", first[0]);
    // Asked again, with another one.
    let again = batch("hole --prefix then.", run.printed(0));
    assert_eq!(table(again.printed(0))[0][..first[0].len()], first[0][..]);
    for (typed, told) in [
        (
            "hole --prefix new.",
            "--prefix \"new.\": the input has a column new.disposition already; take another prefix",
        ),
        ("hole --prefix a,b", "--prefix: this makes no name of a column; right would be new_"),
        ("hole --prefix new. --format json", "--prefix: a row of JSON keeps the input by itself"),
    ] {
        let refused = batch(typed, run.printed(0));
        assert_eq!((refused.status, refused.stdout.as_str()), (Some(2), ""), "{refused}");
        assert!(refused.stderr.contains(told), "{refused}");
    }
}

#[test]
fn no_cell_becomes_a_formula_and_none_loses_its_meaning() {
    let input = "layers,diameter,tolerance,=a,b\n.05,1/8,+.002-.001,=1+1,-1.5\n.05,1/8,'+.002-.001,'=1+1,'s\n";
    let run = batch("length", input);
    let csv = run.printed(0);
    let rows = table(csv);
    assert_eq!(rows[0][3], "'=a");
    assert_eq!(rows[1][2..5], ["'+.002-.001", "'=1+1", "-1.5"]);
    assert_eq!(rows[2][2..5], ["'+.002-.001", "'=1+1", "'s"]);
    assert_eq!(rows[1][5..], rows[2][5..]);
    // What comes out goes in again and is the same.
    let again = batch("length", csv);
    let again = table(again.printed(0));
    let given = rows[0].len();
    assert_eq!(again[1][..given], rows[1][..]);
    assert_eq!(again[1][given..], rows[1][5..]);
}

#[test]
fn a_slip_in_the_name_of_a_column_is_pointed_out() {
    let run = batch("length", "layers,diameter,hoel,row\n.05,1/8,#30,K1\n");
    assert_eq!(run.status, Some(0), "{run}");
    assert_eq!(run.stderr, "note: the column \"hoel\" is carried through and not read; is it hole?\n");
}

#[test]
fn options_that_do_not_go_together_are_told_by_their_columns() {
    for (question, input, wanted) in [
        ("head", "diameter,measured_height\n1/8,.06\n", "measured_height: this is of use only with measured_diameter"),
        ("head", "diameter,gap\n1/8,yes\n", "gap: this is of use only with measured_diameter"),
        ("head", "diameter,gap\n1/8,maybe\n", "gap \"maybe\": this is neither yes nor no; right would be yes"),
        (
            "joint",
            "rivet,sheets,safety_factor\nMS20470AD4,\".04,.04\",2\n",
            "safety_factor: this is of use only with load or strip_load",
        ),
        (
            "joint",
            "rivet,sheets,pitch,load,strip_load\nMS20470AD4,\".04,.04\",1,9,9\n",
            "load: this does not go together with strip_load",
        ),
        (
            "joint",
            "rivet,sheets,shear\nMS20470AD4,\".04,.04\",triple\n",
            "shear \"triple\": this word is not known here; right would be single or double",
        ),
        (
            "hole",
            "rivet,major,rows\nMS20470AD4,.13,0\n",
            "rows \"0\": this is not a whole number from 1 to 255; right would be 2",
        ),
        ("joint", "rivet,sheets\nMS20470AD4,.04\n", "rivet and sheets: a joint needs at least two sheets"),
    ] {
        let run = batch(question, input);
        assert_eq!(column(with_errors(&run), "error"), [wanted]);
    }
    // What says no is not given.
    batch("head", "diameter,gap\n1/8,no\n").printed(0);
}

#[test]
fn json_lines_are_read_and_written() {
    let lines = "{\"id\":7,\"layers\":[\".032\",\".125\"],\"diameter\":\"1/8\"}\n\n{\"diameter\":0.125,\"layers\":0.05,\"hole\":null,\"x\":{\"deep\":[1]}}\n{\"layers\":1}\nno\n";
    let run = batch("length --from json --format json", lines);
    assert_eq!(run.status, Some(2), "{run}");
    let out: Vec<serde_json::Value> = run.stdout.lines().map(read_line).collect();
    for (line, key) in [(0, "input"), (0, "error"), (2, "result")] {
        let mut without = out[line].clone();
        without.as_object_mut().expect("an object").remove(key);
        assert!(!faults_of_line(&without).is_empty(), "{key}");
    }
    assert_eq!(out.len(), 4);
    assert_eq!(out[0]["result"]["part"], "MS20470AD4-6");
    assert_eq!(out[0]["input"], serde_json::json!({"id": 7, "layers": [".032", ".125"], "diameter": "1/8"}));
    assert_eq!((&out[1]["result"]["part"], &out[1]["input"]["x"]["deep"][0]), (&"MS20470AD4-4".into(), &1.into()));
    assert_eq!(out[2]["error"], "diameter: this is not given; right would be 1/8");
    assert!(out[2]["result"].is_null() && out[2]["schema"] == 1 && out[2]["command"] == "length");
    assert_eq!(out[3]["input"], "no");
    assert!(out[3]["error"].as_str().is_some_and(|error| error.starts_with("this row is no JSON object")));

    // By the name of the file; and as CSV, where the first row names the columns.
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("rows.jsonl");
    std::fs::write(
        &file,
        "{\"id\":7,\"layers\":\".05\",\"diameter\":\"1/8\"}\n{\"layers\":\".05\",\"diameter\":\"1/8\",\"new\":1}\n",
    )
    .expect("a file");
    let run = shophead(&format!("batch length {}", file.display()));
    let csv = with_errors(&run);
    assert_eq!(column(csv, "id"), ["7", ""]);
    assert_eq!(column(csv, "part"), ["MS20470AD4-4", ""]);
    assert_eq!(column(csv, "error")[1], "the key \"new\" is not in the first row, whose keys are the columns");
    assert_eq!(batch("length --from json --format json", "").printed(0), "");
}

#[test]
fn a_part_of_a_file_is_read_without_a_header_line() {
    let (header, rows) = ROWS.split_once('\n').expect("a header");
    let whole = batch("length", ROWS);
    let part = batch(&format!("length --header {header}"), rows);
    assert_eq!(Some(part.printed(0)), whole.printed(0).split_once('\n').map(|(_, rows)| rows));
    assert_eq!(batch(&format!("length --header {header}"), "").printed(0), "");
    assert!(batch("length --header id", rows).refused().contains("the column layers is missing"));
    assert!(batch("length --from json --header id", "").refused().contains("--header"));
}

#[test]
fn a_shop_s_own_limits_hold_in_every_row() {
    let folder = tempfile::tempdir().expect("a folder");
    let limits = folder.path().join("limits.toml");
    let own = "title = \"Boat shed limits\"\n[[limit]]\nname = \"hole-greatest\"\nvalue = \".145\"\ndocument = \"hull repair manual (demo)\"\nplace = \"table 2\"\n";
    std::fs::write(&limits, own).expect("a file");
    let rows = "rivet,major,minor\nMS20470AD4,.141,.130\n";
    assert_eq!(column(batch("hole", rows).printed(0), "disposition"), ["oversize"]);
    let typed = format!("hole --limits {}", limits.display());
    assert_eq!(column(batch(&typed, rows).printed(0), "disposition"), ["keep"]);
    let line = only_line(&batch(&format!("{typed} --format json"), rows), 0);
    assert_eq!(line["own_limits"], "Boat shed limits");
}

/// So many rows, each with its number, of which some are wrong and some refer.
fn many(count: usize) -> String {
    let mut rows = "id,layers,diameter,hole\n".to_owned();
    for id in 0..count {
        let layers = match id % 1000 {
            7 => "x".to_owned(),
            thickness => format!(".{:04}", 300 + thickness),
        };
        rows += &format!("{id},\".04,{layers}\",1/8,.1{:03}\n", 280 + id % 19);
    }
    rows
}

#[test]
fn a_long_input_comes_out_in_its_order_however_many_threads_there_are() {
    let rows = many(60_000);
    let one = batch("length --threads 1", rows.clone());
    let csv = with_errors(&one);
    let ids = column(csv, "id");
    assert_eq!(ids.len(), 60_000);
    assert!(ids.iter().enumerate().all(|(at, id)| *id == at.to_string()));
    assert!(one.stderr.contains("60 of 60000 rows cannot be answered, the first is row 8;"), "{one}");
    for threads in [2, 5] {
        let several = batch(&format!("length --threads {threads}"), rows.clone());
        assert!(several.stdout == one.stdout && several.stderr == one.stderr && several.status == one.status);
    }
}

fn spawned(typed: &[&str]) -> std::process::Child {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("shophead"));
    command.args(typed).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command.spawn().expect("the binary runs")
}

#[test]
fn a_reader_that_has_seen_enough_changes_no_status() {
    let mut child = spawned(&["batch", "length"]);
    let mut input = child.stdin.take().expect("a pipe");
    // More than any pipe holds; the writer is cut off too.
    let writer = std::thread::spawn(move || {
        let rows = many(200_000);
        let _ = input.write_all(rows.as_bytes());
    });
    let mut output = BufReader::new(child.stdout.take().expect("a pipe"));
    let mut line = String::new();
    output.read_line(&mut line).expect("a header");
    drop(output);
    let status = child.wait().expect("it ends");
    let mut told = String::new();
    child.stderr.take().expect("a pipe").read_to_string(&mut told).expect("text");
    writer.join().expect("the writer ends");
    let wrong = "error: 200 of 200000 rows cannot be answered, the first is row 8; their error says why\n";
    assert_eq!((status.code(), told.as_str()), (Some(2), wrong));
}

#[test]
fn the_answers_to_a_file_are_whole_or_not_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let rows = many(20_000);
    std::fs::write(folder.path().join("rows.csv"), &rows).expect("written");
    let run = |typed: &str| {
        shophead_with(&format!("batch length {typed}"), |command| {
            command.current_dir(folder.path()).write_stdin(rows.clone())
        })
    };
    let names = || {
        let mut names: Vec<String> = std::fs::read_dir(folder.path())
            .expect("a folder")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    };
    let printed = run("rows.csv");
    for typed in ["rows.csv --output answers.csv", "- --output answers.csv --threads 2"] {
        let written = run(typed);
        assert_eq!((written.status, written.stdout.as_str()), (Some(2), ""), "{written}");
        assert_eq!(std::fs::read_to_string(folder.path().join("answers.csv")).expect("there"), printed.stdout);
    }
    assert_eq!(names(), ["answers.csv", "rows.csv"]);
    // The rows themselves, another list, a folder: what is there stays.
    for (typed, status, told) in [
        ("rows.csv --output rows.csv", 2, "--output rows.csv is a file that is read here"),
        ("rows.csv --format json --output answers.csv", 2, "has the ending of an input file"),
        ("rows.csv --output .", 3, "cannot write ."),
        ("missing.csv --output answers.csv", 3, "cannot read missing.csv"),
        ("rows.csv --limits rows.csv --output answers.csv", 2, "rows.csv:1"),
    ] {
        let run = run(typed);
        assert_eq!((run.status, run.stdout.as_str()), (Some(status), ""), "{run}");
        assert!(run.stderr.contains(told), "{run}");
    }
    assert_eq!(std::fs::read_to_string(folder.path().join("rows.csv")).expect("there"), rows);
    assert_eq!(std::fs::read_to_string(folder.path().join("answers.csv")).expect("there"), printed.stdout);
    assert_eq!(names(), ["answers.csv", "rows.csv"]);
}

/// The most memory that a run on so many rows has held, in KiB.
#[cfg(target_os = "linux")]
fn most_memory(count: usize) -> u64 {
    let mut child = spawned(&["batch", "length", "--threads", "2"]);
    let mut input = child.stdin.take().expect("a pipe");
    let mut output = child.stdout.take().expect("a pipe");
    let reader = std::thread::spawn(move || std::io::copy(&mut output, &mut std::io::sink()));
    let (header, rows) =
        many(1_000).split_once('\n').map(|(header, rows)| (header.to_owned(), rows.to_owned())).expect("rows");
    writeln!(input, "{header}").expect("it reads");
    for _ in 0..count / 1_000 {
        input.write_all(rows.as_bytes()).expect("it reads");
    }
    input.flush().expect("it reads");
    // It waits for more: what it has held so far can still be asked.
    let status = std::fs::read_to_string(format!("/proc/{}/status", child.id())).expect("it runs");
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).expect("its most memory");
    let kib = line.split_whitespace().nth(1).and_then(|word| word.parse().ok()).expect("a number");
    drop(input);
    assert_eq!(child.wait().expect("it ends").code(), Some(2));
    reader.join().expect("the reader ends").expect("the output is read");
    kib
}

#[test]
#[cfg(target_os = "linux")]
fn memory_does_not_grow_with_the_input() {
    let (short, long) = (most_memory(150_000), most_memory(400_000));
    // Both are longer than all that waits at a time; what the longer one has more is seven mebibytes in and thirty out.
    assert!(long < short + 4 * 1024, "{short} KiB for 150 000 rows, {long} KiB for 400 000");
}

/// What the worst rivet of `group --format json` says, as the cells of a row.
fn of_group(answer: &serde_json::Value) -> [String; 4] {
    let result = &answer["result"];
    let figure = |value: &serde_json::Value| {
        value.as_f64().map(|value| format!("{:.4}", (value * 1e4).floor() / 1e4)).unwrap_or_default()
    };
    let load = result["worst"]["load"]["lbf"].as_f64().map(|load| format!("{load:.3}")).expect("a load");
    let (margin, yields) = (&result["margin"]["value"], &result["yield_margin"]["value"]);
    [result["worst"]["rivet"].to_string(), load, figure(margin), figure(yields)]
}

#[test]
fn a_row_of_a_group_is_its_worst_rivet_as_the_command_answers() {
    let folder = tempfile::tempdir().expect("a folder");
    let rows = folder.path().join("rows");
    std::fs::create_dir(&rows).expect("a folder");
    std::fs::write(rows.join("corner.csv"), "x,y,diameter,edge\n0,0,,.5\n1,0,,.5\n1,1,3/16,.6\n").expect("a file");
    let text = "name,points,load,at,rivet,sheets,edge\n\
        list,0 0; 1 0; 1 1 5/32,\"30,-200\",\"2,.5\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\",.5\n\
        file,corner.csv,\"30,-200\",\"2,.5\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\",\n\
        none,absent.csv,\"30,-200\",\"2,.5\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\",\n\
        input,-,\"30,-200\",\"2,.5\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\",\n\
        twice,0 0; 0 0,\"30,-200\",\"2,.5\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\",\n\
        torn,0 0; 1 x,\"30,-200\",\"2,.5\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\",\n";
    let file = rows.join("rows.csv");
    std::fs::write(&file, text).expect("a file");
    // What a row names is looked for beside the rows, wherever the command runs.
    let run = shophead(&format!("batch group {}", file.display()));
    let csv = with_errors(&run);
    let command = |points: &str, edge: &str| {
        let more = "--load 30,-200 --at 2,.5 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.050 --format json";
        shophead(&format!("group {points} {more}{edge}")).json(0)
    };
    let wanted =
        [command("0,0;1,0;1,1,5/32", " --edge .5"), command(&rows.join("corner.csv").display().to_string(), "")];
    let cells = ["worst", "load_lbf", "margin", "yield_margin"].map(|name| column(csv, name));
    for (row, wanted) in wanted.iter().map(of_group).enumerate() {
        assert_eq!(cells.each_ref().map(|cells| cells[row].clone()), wanted, "{run}");
        assert!(wanted.iter().all(|cell| !cell.is_empty()), "{wanted:?}");
    }
    assert_ne!(of_group(&wanted[0])[2], of_group(&wanted[1])[2], "the larger rivet of the file counts");
    let errors = column(csv, "error");
    assert_eq!(errors[..2], ["", ""]);
    for (error, wanted) in errors[2..].iter().zip([
        "points: cannot read ",
        "points \"-\": the standard input is no file of a row; right would be 0 0; 1 0; 1 .5",
        "points and load and at and rivet and sheets: rivets 1 and 2 are on one point; give each its own",
        "points, point 2 \"1 x\": ",
    ]) {
        assert!(error.starts_with(wanted), "{error:?}, not {wanted:?}");
    }
}

#[test]
fn a_row_of_json_has_every_rivet_of_its_group() {
    let row = r#"{"points": [[0, 0], [1, 0], ["1", "1/2"]], "load": [0, -200], "at": [2, 0], "rivet": "MS20470AD4",
        "sheets": ["2024-T3:.040", "2024-T3:.050"], "edge": 0.5}"#;
    let run = batch("group --from json --format json", row.replace('\n', ""));
    let mut line = only_line(&run, 0);
    assert_eq!(line["result"]["rivets"].as_array().map(Vec::len), Some(3), "{line}");
    let typed =
        "group 0,0;1,0;1,1/2 --load 0,-200 --at 2,0 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.050 --edge .5";
    let json = shophead(&format!("{typed} --format json")).json(0);
    let object = line.as_object_mut().expect("an object");
    assert!(object.remove("input").is_some() && object.remove("error") == Some(serde_json::Value::Null));
    assert_eq!(line, json);
}

/// A points file that a row names is an input as any other.
#[test]
fn a_points_file_of_a_row_is_not_written_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let points = "x,y\n0,0\n1,0\n";
    std::fs::write(folder.path().join("points.csv"), points).expect("a file");
    let rows = "points,load,at,rivet,sheets\npoints.csv,\"0,-100\",\"0,0\",MS20470AD4,\"2024-T3:.040,2024-T3:.050\"\n";
    let run = shophead_with("batch group --output points.csv", |command| {
        command.current_dir(folder.path()).write_stdin(rows)
    });
    assert_eq!(run.status, Some(2), "{run}");
    assert!(run.stderr.contains("--output points.csv is a file that is read here; name another file"), "{run}");
    assert_eq!(std::fs::read_to_string(folder.path().join("points.csv")).expect("a file"), points);
}
