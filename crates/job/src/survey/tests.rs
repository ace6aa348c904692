use std::path::Path;

use proptest::prelude::*;

use super::*;
use crate::model::Job;
use crate::read::{read_holes_file_from, read_holes_from};

const JOB: &str = r#"
title = "Panel"
[[row]]
name = "K1"
structure = "secondary"
member = "skin"
installed = "MS20470AD5-6"
layers = [{ role = "skin", thickness = ".063" }, { role = "rib-flange", thickness = ".050" }]
count = 3
edge = "7/16"
pitch = "7/8"
[[row]]
name = "=B 2"
about = "bracket"
structure = "secondary"
member = "other"
installed = "MS20470AD4-4"
layers = [{ role = "skin", thickness = ".040" }, { role = "tab", thickness = ".040" }]
count = 2
[[row.hole]]
number = 2
major = ".130"
"#;

fn job() -> Job {
    read(JOB)
}

fn read(text: &str) -> Job {
    let none = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
    Job::read_from(text.into(), Path::new("job.toml"), &none).unwrap_or_else(|error| panic!("{error}"))
}

/// A file that is written to as the survey says.
struct Paper {
    job: Job,
    file: String,
}

impl Paper {
    fn new(file: &str) -> Paper {
        Paper { job: job(), file: file.into() }
    }

    /// Opens the file, types these lines and tells what was shown and where it stands then.
    fn type_in(&mut self, lines: &[&str], units: Units) -> (Vec<String>, Option<Spot>) {
        let prepared = prepare(Some(self.file.as_bytes()));
        let read = read_holes_file_from(prepared.content.clone(), Path::new("h.csv"), &self.job);
        let read = read.unwrap_or_else(|error| panic!("{error}\n{}", self.file));
        self.file = String::from_utf8(prepared.content).expect("text");
        let plan = Plan::make(&self.job, self.job.practice);
        let mut survey = Survey::new(&plan, &read, prepared.line_end, units);
        let mut shown = Vec::new();
        for line in lines {
            shown.extend(survey.introduction());
            let reply = survey.hear(line);
            shown.extend(reply.say);
            for entry in reply.entries {
                self.file.push_str(&entry.line);
                shown.extend(survey.saved(entry));
            }
            if reply.is_over {
                break;
            }
        }
        (shown, survey.at())
    }

    fn says(&mut self, lines: &[&str]) -> Vec<String> {
        self.type_in(lines, Units::Inches).0
    }

    fn last_line(&self) -> &str {
        self.file.lines().last().unwrap_or_default()
    }
}

#[test]
fn a_measure_is_written_and_answered_at_once() {
    let mut paper = Paper::new("");
    let shown = paper.says(&[".172 .168 g chisel, \"deep\""]);
    assert_eq!(paper.last_line(), "K1,1,0.172,0.168,gouged,,,,,,\"chisel, \"\"deep\"\"\"");
    assert_eq!(shown[0], "Row K1: 3 holes for MS20470AD5.");
    assert_eq!(shown[1], "K1 1 saved: .172 x .168, gouged, \"chisel, \"deep\"\"");
    assert!(shown[2].starts_with("OVERSIZE: NAS1242AD5, drill "), "{}", shown[2]);
    for (typed, line) in [
        (".159", "0.159,,sound,,,,,,\"\""),
        ("#21", "0.159,,sound,,,,,,\"\""),
        (".160*.163", "0.163,0.16,sound,,,,,,\"\""),
        ("4.1mm x 4 mm c", "4.1mm,4mm,cracked,,,,,,\"\""),
        (".16 corroded", "0.16,,corroded,,,,,,\"\""),
        ("5/32 : c marks", "0.15625,,sound,,,,,,\"c marks\""),
        (".16 =1+1", "0.16,,sound,,,,,,\"'=1+1\""),
        (".16\tg\t-x", "0.16,,gouged,,,,,,\"'-x\""),
        (".17 .16 al g chisel", "0.17,0.16,gouged,along,,,,,\"chisel\""),
        (".17 .16 across", "0.17,0.16,sound,across,,,,,\"\""),
        (".1775 o #16 reamed", "0.1775,,sound,,#16,,,,\"reamed\""),
        (".1775 .177 g opened 11/64 ac", "0.1775,0.177,gouged,across,11/64,,,,\"\""),
    ] {
        let mut paper = Paper::new("");
        paper.says(&[typed]);
        assert_eq!(paper.last_line(), format!("K1,1,{line}"), "{typed}");
    }
}

#[test]
fn what_is_refused_is_not_written() {
    for (typed, told) in [
        ("0,163", "Not taken: a decimal is written with a point"),
        (".1.6", "Not taken: this does not belong in a length"),
        ("0", "Not taken: a hole needs a diameter above zero"),
        ("#99", "Not taken: no such number drill"),
        ("163", "Not taken. Did you mean .163? y takes it."),
        ("163 160 g", "Not taken. Did you mean .163 .160 g? y takes it."),
        ("163in", "163.000 in in a row of 5/32 rivets? Type it once more"),
        (".320", ".320 in in a row of 5/32 rivets? Type it once more"),
        ("1-4 good", "Row K1 has holes 1 to 3; right would be 12-30 good."),
        ("1-2", "What of these holes? Right would be 12-30 good, 12-30 .159 or 12-30 clear."),
        ("good .160 .156", "Not taken: name the go gauge and a larger no-go gauge."),
        ("no-go", "Too large for its rivet. Measure it"),
        ("clear", "K1 1 is not measured."),
        ("1-3 clear", "None of them is measured in this file."),
        ("clear =B 2 2", "=B 2 2 is in the job file; clear it there."),
        ("correct", "Right would be correct 12 .163"),
        ("correct 4 .163", "Row K1 has holes 1 to 3."),
        ("correct =B 2 2 .13", "=B 2 2 is in the job file as .130; correct it there."),
        ("y", "Nothing was asked."),
        (".06", ".060 in in a row of"),
        (".163 o", "Not taken: opened with which drill? Right would be o #27."),
        (".163 o #99", "Not taken: no such number drill"),
        ("xyz", "Not understood."),
        ("j", "Where to?"),
        ("j K9", "There is no such place. The rows are K1, =B 2."),
        ("j 4", "Row K1 has holes 1 to 3."),
        ("j =B 2 2", "=B 2 2 is in the job file as .130; correct it there."),
        (".16 \u{1b}[2J", "Not taken: it has a hidden character, \\u{1b}."),
        ("b", "This is the first hole."),
    ] {
        let mut paper = Paper::new("");
        let shown = paper.says(&[typed]);
        assert!(shown.last().is_some_and(|last| last.starts_with(told)), "{typed:?}: {shown:?}");
        assert_eq!(paper.file, HEADER, "{typed:?}");
    }
    let mut paper = Paper::new("");
    paper.says(&[".613", ".613"]);
    assert_eq!(paper.last_line(), "K1,1,0.613,,sound,,,,,,\"\"", "typed twice it was meant");
    let mut paper = Paper::new("");
    paper.says(&[".613", "", "b", ".613"]);
    assert_eq!(paper.file, HEADER, "something else came between");
}

#[test]
fn a_session_goes_on_where_it_stopped_and_corrects() {
    let mut paper = Paper::new("");
    assert_eq!(paper.type_in(&[".159", "", ".159"], Units::Inches).1, Some((1, 1)));
    // Hole 2 was skipped; it comes again once the end is reached.
    let (shown, at) = paper.type_in(&["j 1", ".129", "", ".160", "q"], Units::Inches);
    assert_eq!(at, None, "{shown:?}");
    assert!(
        shown.contains(&"Behind the last hole. Enter goes to K1 2, which is open; q ends.".to_owned()),
        "{shown:?}"
    );
    // A correction keeps the earlier line.
    let shown = paper.says(&["b", ".130 g"]);
    assert!(shown.contains(&"=B 2 1 was .129. Enter keeps it.".to_owned()), "{shown:?}");
    assert!(shown.contains(&"The earlier .129 stays in the file.".to_owned()), "{shown:?}");
    assert!(paper.says(&[""]).contains(&"Every hole is measured; q ends.".to_owned()));
    assert_eq!(paper.file.lines().filter(|line| line.starts_with("'=B 2,1,")).count(), 2);
    let holes = read_holes_from(paper.file.into(), Path::new("h.csv"), &job()).expect("holes");
    let majors: Vec<String> = holes.iter().map(|line| line.hole.as_found.major().to_string()).collect();
    assert_eq!(majors, ["0.159", "0.159", "0.160", "0.130"], "the last line of a hole counts");
}

#[test]
fn a_slip_is_asked_about_and_taken_for_y() {
    let mut paper = Paper::new("");
    paper.says(&["161 159 g", "y"]);
    assert_eq!(paper.last_line(), "K1,1,0.161,0.159,gouged,,,,,,\"\"");
    let mut paper = Paper::new("");
    paper.says(&[".613", "y"]);
    assert_eq!(paper.last_line(), "K1,1,0.613,,sound,,,,,,\"\"");
    let error = read_holes_from("row,hole,major\nK1,1,161\n".into(), Path::new("h.csv"), &job()).expect_err("wide");
    assert!(error.to_string().contains("did you mean .161?"), "{error}");
}

#[test]
fn holes_that_gauges_find_good_are_kept_and_like_their_row() {
    let mut paper = Paper::new("");
    let (shown, at) = paper.type_in(&[".172 .168", "rest good"], Units::Inches);
    assert!(shown.contains(&"K1 2-3 saved: 2 holes.".to_owned()), "{shown:?}");
    assert_eq!(at, Some((1, 1)));
    let limits = "0.171,0.156,gauged,,,,,,\"\"";
    assert!(paper.file.contains(&format!("K1,2,{limits}\nK1,3,{limits}\n")), "{}", paper.file);
    // What gauges tell makes no hole differ from its row: no caution, nothing on the card.
    let mut job = job();
    for line in read_holes_from(paper.file.clone().into(), Path::new("h.csv"), &job).expect("holes") {
        job.rows[line.row].measured.push(line.hole);
    }
    let plan = Plan::make(&job, job.practice);
    let row = &plan.rows[0];
    assert_eq!(row.holes.len(), 3);
    let differ: Vec<u32> = row.holes.iter().filter(|hole| hole.differs_from(row)).map(|hole| hole.number).collect();
    assert_eq!(differ, [1]);
    // Gauges of one's own, for one hole and for several; what was measured stays.
    let mut paper = Paper::new("");
    let shown = paper.says(&["2 good .157 .163", "1-3 good .157 .160"]);
    assert!(shown.contains(&"K1 1-3 saved: 2 holes; 1 was measured before and stays.".to_owned()), "{shown:?}");
    assert!(paper.file.contains("K1,2,0.163,0.157,gauged,"), "{}", paper.file);
    assert!(paper.file.contains("K1,3,0.16,0.157,gauged,"), "{}", paper.file);
    for wrong in ["K1,1,.163,,gauged", "K1,1,.157,.163,gauged", "K1,1,.163,,cleared"] {
        let file = format!("row,hole,major,minor,condition\n{wrong}\n");
        assert!(read_holes_from(file.into(), Path::new("h.csv"), &job).is_err(), "{wrong}");
    }
}

#[test]
fn an_entry_is_cleared_and_another_one_corrected_from_where_one_is() {
    let mut paper = Paper::new("");
    let (shown, at) = paper.type_in(&[".159", ".160", "clear 1", "correct 2 .165 .163"], Units::Inches);
    assert!(shown.contains(&"K1 1 cleared. The earlier .159 stays in the file.".to_owned()), "{shown:?}");
    assert!(shown.contains(&"The earlier .160 stays in the file.".to_owned()), "{shown:?}");
    assert_eq!(at, Some((0, 3)), "neither moves on");
    assert!(paper.file.ends_with("K1,1,,,cleared,,,,,,\"\"\nK1,2,0.165,0.163,sound,,,,,,\"\"\n"), "{}", paper.file);
    let holes = read_holes_from(paper.file.clone().into(), Path::new("h.csv"), &job()).expect("holes");
    assert_eq!(holes.iter().map(|line| line.hole.number).collect::<Vec<_>>(), [2]);
    // The next session finds it open, and may measure it again.
    let (shown, at) = paper.type_in(&["j 1", ".158"], Units::Inches);
    assert!(shown.contains(&"K1 1 saved: .158".to_owned()), "{shown:?}");
    assert_eq!(at, Some((0, 3)));
}

#[test]
fn each_step_that_fails_says_why_on_one_line() {
    let mut paper = Paper::new("");
    let shown = paper.says(&[".172 .168 g", "j 2", ".300"]);
    let at = shown.iter().position(|line| line.starts_with("OVERSIZE: NAS1242AD5")).expect("a verdict");
    assert_eq!(shown[at + 1], "not keep: The hole is damaged.");
    assert!(shown[at + 2].starts_with("not clean-up: Hole .173 is too large for this rivet"), "{shown:?}");
    let at = shown.iter().position(|line| line == "REFER. Do not open it.").expect("a verdict");
    assert!(shown[at + 1].starts_with("not keep: Hole .300 is too large for this rivet"), "{shown:?}");
    assert!(shown[at + 2].starts_with("not clean-up, oversize, next-size: "), "{shown:?}");
}

#[test]
fn a_full_pattern_is_told_when_it_happens() {
    let text = JOB.replace("count = 3", "count = 60");
    let mut paper = Paper { job: read(&text), file: String::new() };
    let mut typed: Vec<String> = Vec::new();
    for number in (1..60).step_by(2) {
        typed.push(format!("j {number}"));
        typed.push(".172 .168".to_owned());
    }
    let lines: Vec<&str> = typed.iter().map(String::as_str).collect();
    let shown = paper.says(&lines);
    let first = shown.iter().position(|line| line.starts_with("PATTERN FULL. Refer K1 ")).expect("it is told");
    assert!(shown[first - 1].contains("Too many holes opened"), "the limit is told before it: {}", shown[first - 1]);
    assert!(!shown[..first].iter().any(|line| line.starts_with("REFER")), "none by itself: {shown:?}");
    // What the survey refers is what the plan refers.
    let prepared = prepare(Some(paper.file.as_bytes()));
    let file = read_holes_file_from(prepared.content, Path::new("h.csv"), &paper.job).expect("its own file");
    let empty = Plan::make(&paper.job, paper.job.practice);
    let survey = Survey::new(&empty, &file, "\n", Units::Inches);
    let told: Vec<u32> = survey.referred().into_iter().map(|(_, number)| number).collect();
    assert!(!told.is_empty());
    let mut job = read(&text);
    for line in read_holes_from(paper.file.clone().into(), Path::new("h.csv"), &job).expect("holes") {
        job.rows[line.row].measured.push(line.hole);
    }
    job.rows[0].measured.sort_by_key(|hole| hole.number);
    let plan = Plan::make(&job, job.practice);
    let refer = |hole: &&crate::plan::HolePlan<'_>| hole.disposition() == Disposition::Refer;
    let planned: Vec<u32> = plan.rows[0].holes.iter().filter(refer).map(|hole| hole.number).collect();
    assert_eq!(told, planned);
}

#[test]
fn a_row_that_is_referred_is_told_and_counted() {
    // Every hole of the row is too large for any of its rivets: it is referred before one is measured by itself.
    let text = JOB.replace("count = 3", "count = 3\nhole-size = \".300\"");
    let mut paper = Paper { job: read(&text), file: String::new() };
    let shown = paper.says(&[".159"]);
    let plan = Plan::make(&paper.job, paper.job.practice);
    assert!(plan.rows[0].referred, "{:?}", plan.rows[0].findings);
    assert!(shown[1].starts_with("ROW REFERRED. "), "{shown:?}");
    let file = read_holes_file_from(HEADER.into(), Path::new("h.csv"), &paper.job).expect("its header");
    let survey = Survey::new(&plan, &file, "\n", Units::Inches);
    assert_eq!(survey.referred_rows().iter().map(|(row, _)| *row).collect::<Vec<_>>(), ["K1"]);
}

#[test]
fn millimetres_are_typed_bare_where_they_are_asked_for() {
    let mut paper = Paper::new("");
    let (shown, _) = paper.type_in(&["4.1 4", "#21", "5/32"], Units::Millimetres);
    assert!(paper.file.contains("K1,1,4.1mm,4mm,"), "{}", paper.file);
    assert!(paper.file.contains("K1,2,0.159,") && paper.file.contains("K1,3,0.15625,"), "{}", paper.file);
    assert!(shown.contains(&"K1 1 saved: 4.10 x 4.00 mm".to_owned()), "{shown:?}");
}

#[test]
fn an_opened_hole_is_measured_again_and_its_history_stays() {
    let mut paper = Paper::new("");
    let shown = paper.says(&[".172 .168"]);
    let drill = shown.iter().find_map(|verdict| verdict.split("drill ").nth(1)?.split(' ').next()).expect("a drill");
    // Opened as it said, and within the limits of its rivet: nothing is left to open.
    let shown = Paper::new(&paper.file).says(&["j 1", ".1775 .177 o"]);
    assert!(shown.contains(&"OVERSIZE: NAS1242AD5, hole as it is".to_owned()), "{shown:?}");
    let shown = Paper::new(&paper.file).says(&["1 good"]);
    assert!(shown.iter().any(|line| line.starts_with("K1 1 takes another rivet than its row.")), "{shown:?}");
    // `o` alone is the drill that the survey named; a later measure of the same hole need not say it again.
    let shown = paper.says(&["j 1", ".1695 o"]);
    assert!(shown.iter().any(|line| line.ends_with(&format!("saved: .1695, opened to {drill}"))), "{shown:?}");
    assert_eq!(paper.last_line(), format!("K1,1,0.1695,,sound,,{drill},,,,\"\""));
    paper.says(&["j 1", ".170"]);
    assert_eq!(paper.last_line(), format!("K1,1,0.17,,sound,,{drill},,,,\"\""));
    paper.says(&["j 1", ".170 o -"]);
    assert_eq!(paper.last_line(), "K1,1,0.17,,sound,,,,,,\"\"", "it was another hole");
    let holes = read_holes_from(paper.file.clone().into(), Path::new("h.csv"), &job()).expect("holes");
    assert_eq!((holes.len(), holes[0].hole.opened), (1, None), "the last line counts");
    assert_eq!(paper.file.lines().count(), 5, "and every earlier one stays: {}", paper.file);
}

#[test]
fn a_job_in_millimetres_has_them_in_its_holes_file() {
    let text = "title = \"Panel\"\nunits = \"mm\"\n[[row]]\nname = \"K1\"\nstructure = \"secondary\"\nmember = \"skin\"\n\
                installed = \"MS20470AD5-6\"\nlayers = [{ role = \"skin\", thickness = \"1.6\" }, { role = \"tab\", thickness = \"1.2\" }]\n\
                count = 3\npitch = \"22\"\nedge = 11.2\n";
    let no_files = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
    let job = Job::read_from(text.into(), Path::new("job.toml"), &no_files).unwrap_or_else(|error| panic!("{error}"));
    let millimetres = |text: &str| Length::parse(&format!("{text}mm")).expect(text);
    assert_eq!(job.rows[0].layout.pitch, Some(millimetres("22")));
    assert_eq!(job.rows[0].layout.edge, Some(millimetres("11.2")));
    assert_eq!(job.rows[0].stack.layers()[0].thickness.nominal(), millimetres("1.6"));
    // Typed in inches, kept in the job's millimetres, read back as what it was.
    let plan = Plan::make(&job, &shophead::practice::HANDBOOK);
    let prepared = prepare(None);
    let file = read_holes_file_from(prepared.content.clone(), Path::new("h.csv"), &job).expect("its header");
    let mut survey = Survey::new(&plan, &file, prepared.line_end, Units::Inches);
    let entry = survey.hear(".163 4.1mm").entries.remove(0);
    assert_eq!(entry.line, "K1,1,4.1402,4.1,sound,,,,,,\"\"\n");
    let written = format!("{HEADER}{}", entry.line);
    let holes = read_holes_from(written.into(), Path::new("h.csv"), &job).expect("holes");
    assert_eq!(holes[0].hole.as_found.major(), Length::parse(".163").expect("inches"));
}

#[test]
fn other_columns_and_their_order_are_kept() {
    let old = "who,remark,hole,row,major\r\nJB,\"a, b\",1,K1,.159\r\n";
    let mut paper = Paper::new(old);
    paper.says(&["j 1", ".160 g =x", ".161"]);
    let lines: Vec<&str> = paper.file.split("\r\n").collect();
    assert_eq!(
        lines,
        [
            "who,remark,hole,row,major,minor,condition,direction,opened,by,date,gauge",
            "JB,\"a, b\",1,K1,.159,,,,,,,",
            "JB,'=x,1,K1,0.16,,gouged,,,,,\"\"",
            ",,2,K1,0.161,,sound,,,,,\"\"",
            ""
        ]
    );
}

#[test]
fn who_measured_when_and_with_what_goes_with_each_measure_and_stays_with_it() {
    let job = job();
    let mut content = HEADER.to_owned();
    let mut session = |taken: Taken, typed: &[&str]| -> Vec<String> {
        let file = read_holes_file_from(content.clone().into(), Path::new("h.csv"), &job).expect("a holes file");
        let plan = Plan::make(&job, job.practice);
        let mut survey = Survey::new(&plan, &file, "\n", Units::Inches).taken(taken);
        let mut shown = survey.greeting();
        for line in typed {
            shown.extend(survey.introduction());
            let reply = survey.hear(line);
            shown.extend(reply.say);
            for entry in reply.entries {
                content.push_str(&entry.line);
                shown.extend(survey.saved(entry));
            }
        }
        shown
    };
    let date = |day| Some(jiff::civil::date(2026, 11, day));
    let by = |by: &str, day, gauge: &str| Taken { by: by.into(), date: date(day), gauge: gauge.into() };
    let shown = session(by("", 25, ""), &[".159", "by A. Example, =x", "gauge -G 14", ".163 .160 : burr", "by"]);
    assert!(shown[2].starts_with("Nobody is named. Type by"), "{shown:?}");
    assert!(shown.contains(&"By A. Example, =x, 2026-11-25, gauge -G 14.".to_owned()), "{shown:?}");
    // Somebody else corrects the next day: both are kept, and who it was before is told.
    let shown = session(by("B. Sample", 26, "PG-2"), &["j 2", ".165 .160", "clear 1"]);
    assert_eq!(shown[2], "By B. Sample, 2026-11-26, gauge PG-2.");
    assert!(
        shown.contains(
            &"K1 2 was .163 x .160, \"burr\" (A. Example, =x, 2026-11-25, gauge -G 14). Enter keeps it.".into()
        ),
        "{shown:?}"
    );
    assert_eq!(
        content.lines().skip(1).collect::<Vec<_>>(),
        [
            "K1,1,0.159,,sound,,,,2026-11-25,,\"\"",
            "K1,2,0.163,0.16,sound,,,\"A. Example, =x\",2026-11-25,'-G 14,\"burr\"",
            "K1,2,0.165,0.16,sound,,,B. Sample,2026-11-26,PG-2,\"\"",
            "K1,1,,,cleared,,,B. Sample,2026-11-26,PG-2,\"\"",
        ]
    );
    let holes = read_holes_from(content.into(), Path::new("h.csv"), &job).expect("holes");
    assert_eq!(holes.iter().map(|line| line.hole.taken.clone()).collect::<Vec<_>>(), [by("B. Sample", 26, "PG-2")]);
    let wrong = format!("{HEADER}K1,1,.159,,,,,A,25.11.2026,,\n");
    let told = read_holes_from(wrong.into(), Path::new("h.csv"), &job).expect_err("no date").to_string();
    assert!(told.contains("\"25.11.2026\" is no date"), "{told}");
}

#[test]
fn a_line_that_a_crash_cut_off_is_put_aside_and_never_read() {
    let mut paper = Paper::new("");
    paper.says(&[".159", ".163 .160 c =x, \"y\""]);
    let whole = paper.file.clone();
    let start = whole.trim_end().rfind('\n').expect("lines") + 1;
    let (before, line) = whole.split_at(start);
    let job = job();
    for cut in 1..line.len() {
        let torn = format!("{before}{}", &line[..cut]);
        // Without mending it is refused, even where only the line end is missing: nobody was told that it is saved.
        let error = read_holes_from(torn.clone().into(), Path::new("h.csv"), &job).expect_err("cut off").to_string();
        assert!(error.starts_with("h.csv:3:"), "{error}");
        let prepared = prepare(Some(torn.as_bytes()));
        assert_eq!(prepared.torn.as_deref(), Some(&torn.as_bytes()[start..]));
        assert_eq!(prepared.content, before.as_bytes());
    }
    // What a file system leaves after a power cut.
    let zeros = [before.as_bytes(), &[0; 40]].concat();
    assert_eq!(prepare(Some(&zeros)).torn, Some(vec![0; 40]));
}

#[test]
fn a_file_by_hand_is_left_alone_but_for_its_last_line_end() {
    for (old, new) in [
        (HEADER.trim_end(), HEADER),
        ("\u{feff} \r\n", HEADER),
        // What a crash may leave of a file that was just being made.
        ("row,hole,ma", HEADER),
        (
            "remark,by,date,gauge,row,hole,major,direction,opened,minor,condition\nx,,,,K1,1,.16,,,.15,",
            "remark,by,date,gauge,row,hole,major,direction,opened,minor,condition\n",
        ),
        (
            "\u{feff}remark,by,date,gauge,row,hole,major,direction,opened,minor,condition\r\n\"x, y\",,,,K1,1,.16,,,.15,sound",
            "\u{feff}remark,by,date,gauge,row,hole,major,direction,opened,minor,condition\r\n\"x, y\",,,,K1,1,.16,,,.15,sound\r\n",
        ),
        (
            "row,hole,major\nK1,1,.16\n\n",
            "row,hole,major,minor,condition,direction,opened,by,date,gauge,remark\nK1,1,.16,,,,,,,,\n\n",
        ),
    ] {
        let prepared = prepare(Some(old.as_bytes()));
        assert_eq!(String::from_utf8(prepared.content), Ok(new.to_owned()), "{old:?}");
    }
    let sound = format!("{HEADER}K1,1,.16,,,,,,,,\n");
    assert_eq!(prepare(Some(sound.as_bytes())).content, sound.as_bytes());
}

/// What somebody does in a session.
#[derive(Clone, Debug)]
enum Act {
    Measure(u32, Option<u32>, usize, String),
    Skip,
    Back,
    Jump(usize, u32),
    Resume,
    Nonsense(String),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        5 => (1400..1800_u32, prop::option::of(1400..1800_u32), 0..LETTERS.len(), "[=+@',\" a-z-]{0,8}")
            .prop_map(|(major, minor, letter, remark)| Act::Measure(major, minor, letter, remark)),
        2 => Just(Act::Skip),
        2 => Just(Act::Back),
        1 => (0..2_usize, 1..4_u32).prop_map(|(row, number)| Act::Jump(row, number)),
        1 => Just(Act::Resume),
        1 => "[a-z?.,]{0,6}".prop_map(Act::Nonsense),
    ]
}

/// Every hole that a survey measures here, in order; the last of the job stands in the job itself.
const HOLES: [Spot; 4] = [(0, 1), (0, 2), (0, 3), (1, 1)];

/// The same with a list instead of everything else.
#[derive(Default)]
struct Model {
    lines: Vec<(usize, u32, u32, usize, String)>,
    at: usize,
}

impl Model {
    fn is_open(&self, index: usize) -> bool {
        !self.lines.iter().any(|(hole, ..)| *hole == index)
    }

    fn open_from(&self, from: usize) -> Option<usize> {
        (from..HOLES.len()).find(|index| self.is_open(*index))
    }

    fn on_from(&mut self, from: usize) {
        self.at = self.open_from(from).unwrap_or(HOLES.len());
    }

    fn resume(&mut self) {
        let from = self.lines.last().map_or(0, |(hole, ..)| hole + 1);
        self.at = self.open_from(from).or_else(|| self.open_from(0)).unwrap_or(HOLES.len());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn a_session_does_what_a_list_would(acts in prop::collection::vec(act(), 1..30)) {
        let job = job();
        let plan = Plan::make(&job, job.practice);
        let mut file = HEADER.as_bytes().to_vec();
        let mut model = Model::default();
        let open = |file: &[u8]| {
            let read = read_holes_file_from(file.to_vec(), Path::new("h.csv"), &job);
            read.unwrap_or_else(|error| panic!("{error}"))
        };
        let mut survey = Survey::new(&plan, &open(&file), "\n", Units::Inches);
        for act in acts {
            let typed = match &act {
                Act::Measure(major, minor, letter, remark) => {
                    let minor = minor.map_or_else(String::new, |minor| format!(" .{minor}"));
                    format!(".{major}{minor} {} :{remark}", LETTERS[*letter].0)
                }
                Act::Skip => String::new(),
                Act::Back => "b".into(),
                Act::Jump(row, number) => format!("j {} {number}", job.rows[*row].name),
                Act::Resume => {
                    survey = Survey::new(&plan, &open(&file), "\n", Units::Inches);
                    model.resume();
                    prop_assert_eq!(survey.at(), HOLES.get(model.at).copied());
                    continue;
                }
                // Nothing in it is a command or a measure of its own.
                Act::Nonsense(text) => format!("zz{text}"),
            };
            survey.introduction();
            let reply = survey.hear(&typed);
            match act {
                Act::Measure(major, minor, letter, remark) if model.at < HOLES.len() => {
                    let Some(entry) = reply.entries.into_iter().next() else { return Err(TestCaseError::fail(format!("{typed}: {:?}", reply.say))) };
                    // Not yet on the disk, so nothing has happened yet.
                    prop_assert_eq!(survey.at(), HOLES.get(model.at).copied());
                    file.extend_from_slice(entry.line.as_bytes());
                    survey.saved(entry);
                    let minor = minor.unwrap_or(major);
                    let remark = remark.split_whitespace().collect::<Vec<_>>().join(" ");
                    model.lines.push((model.at, major.max(minor), major.min(minor), letter, remark));
                    model.on_from(model.at + 1);
                }
                Act::Skip if model.at == HOLES.len() => model.on_from(0),
                Act::Skip => model.on_from(model.at + 1),
                Act::Back => model.at = model.at.saturating_sub(1),
                Act::Jump(row, number) => {
                    if let Some(index) = HOLES.iter().position(|spot| *spot == (row, number)) {
                        model.at = index;
                    }
                }
                Act::Measure(..) | Act::Nonsense(_) | Act::Resume => prop_assert_eq!(reply.entries, Vec::new()),
            }
            prop_assert_eq!(survey.at(), HOLES.get(model.at).copied());
        }
        let read = open(&file);
        prop_assert_eq!(read.records.len(), model.lines.len());
        for (record, (hole, major, minor, letter, remark)) in read.records.iter().zip(&model.lines) {
            prop_assert_eq!((record.row, record.number), HOLES[*hole]);
            let measured = record.hole.as_ref().expect("a measure");
            let found = measured.as_found;
            let tenth = |tenths: u32| Length::parse(&format!(".{tenths}")).expect("a length");
            prop_assert_eq!((found.major(), found.minor()), (tenth(*major), tenth(*minor)));
            prop_assert_eq!(found.damage(), LETTERS[*letter].1);
            prop_assert_eq!(&measured.remark, remark);
        }
    }
}
