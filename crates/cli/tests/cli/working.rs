//! The working: every number on it worked out again from the printed line, over worked examples and random questions.

use std::cell::RefCell;
use std::collections::{BTreeSet, HashMap};

use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use serde_json::Value;

use crate::by_hand::{Put, Span, worked};
use crate::{shophead, shophead_with};

/// What a printed number may stand for: six figures, a length six decimals.
fn printed(number: &Value) -> Span {
    let text = number["printed"].as_str().unwrap();
    let value: f64 = text.parse().unwrap_or_else(|_| panic!("{text} is no number"));
    let is_length = matches!(number["unit"].as_str(), Some("in" | "mm"));
    let half = if is_length && !text.contains('e') {
        0.5e-6
    } else if value == 0.0 {
        1e-9
    } else {
        0.5 * 10.0_f64.powf(value.abs().log10().floor() - 5.0)
    };
    Span { low: value - half, high: value + half }
}

fn exact(number: &Value) -> Span {
    Span::exactly(number["value"].as_f64().expect("a number"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// The figures of a step by their symbols, and in their order.
fn put_in(step: &Value, read: fn(&Value) -> Span) -> (HashMap<String, Put>, Vec<Span>) {
    let mut put = HashMap::new();
    let mut all = Vec::new();
    for figure in list(&step["figures"]) {
        let values: Vec<Span> = list(&figure["values"]).iter().map(read).collect();
        all.push(values[0]);
        let value = if figure["list"] == true { Put::List(values) } else { Put::One(values[0]) };
        // Of a list that is put in as … several may have one symbol.
        put.insert(figure["symbol"].as_str().unwrap().to_owned(), value);
    }
    (put, all)
}

/// Every step of an answer worked out again.
fn check(answer: &Value) -> &[Value] {
    let steps = list(&answer["working"]["steps"]);
    let rules = steps.iter().map(|step| step["rule"].as_str().expect("a word").to_owned());
    REACHED.with_borrow_mut(|reached| reached.extend(rules));
    for (index, step) in steps.iter().enumerate() {
        let told = serde_json::to_string_pretty(step).unwrap();
        assert_eq!(step["step"].as_u64(), Some(index as u64 + 1));
        let formula = step["formula"].as_str().unwrap();
        let (result, rule) = (&step["result"], step["rule"].as_str().unwrap());

        // From the figures as they are printed: within what they may stand for.
        let (put, all) = put_in(step, printed);
        let (found, wanted) = (worked(formula, &put, &all), printed(result));
        let slack = 1e-9 * wanted.high.abs().max(1e-9);
        assert!(
            found.low <= wanted.high + slack && wanted.low - slack <= found.high,
            "{rule}: {found:?} {wanted:?}\n{told}"
        );

        // The line with its figures says the same as the formula.
        if list(&step["figures"]).iter().all(|figure| figure["list"] == false) {
            let line = worked(step["put_in"].as_str().unwrap(), &HashMap::new(), &[]);
            let of_figures = |number: &Value| Span::exactly(number["printed"].as_str().unwrap().parse().unwrap());
            let (put, all) = put_in(step, of_figures);
            assert_eq!(line, worked(formula, &put, &all), "{rule}\n{told}");
        }

        // From the figures unrounded: to the last bits, a length to the nanometre.
        let (put, all) = put_in(step, exact);
        let (found, wanted) = (worked(formula, &put, &all).low, result["value"].as_f64().unwrap());
        let within = if result["value_unit"] == "in" { 1e-7 } else { 1e-9 * wanted.abs().max(1.0) };
        let is_rounded_from = ["opening-stands-off", "group-polar", "group-share-x", "group-share-y", "group-moment"];
        let within = if is_rounded_from.contains(&rule) { 2e-5 * wanted.abs().max(1.0) } else { within };
        assert!((found - wanted).abs() <= within, "{rule}: {found} is not {wanted}\n{told}");

        for figure in list(&step["figures"]) {
            // What came out of a step is what went in here; everything else stands somewhere.
            match figure["from_step"].as_u64() {
                Some(from) => {
                    let before = &steps[from as usize - 1];
                    assert!(from <= index as u64, "{told}");
                    assert_eq!(figure["values"][0], before["result"], "{told}");
                    assert_eq!(figure["basis"], Value::Null);
                }
                None => {
                    assert!(!figure["basis"]["document"].as_str().unwrap().is_empty(), "{told}");
                }
            }
            let symbol = figure["symbol"].as_str().unwrap();
            assert!(formula.contains('…') || formula.contains(symbol), "{symbol} is not in {formula}");
        }
    }
    steps
}

/// The last result of a rule; `None` where there is none.
fn last(steps: &[Value], rules: &[&str]) -> Option<f64> {
    let found = steps.iter().rev().find(|step| rules.contains(&step["rule"].as_str().unwrap()))?;
    found["result"]["value"].as_f64()
}

/// What the working ends with is what the answer says.
#[track_caller]
fn ends_with(steps: &[Value], rules: &[&str], answer: &Value) {
    let (found, wanted) = (last(steps, rules), answer.as_f64());
    if let Some(wanted) = wanted {
        let found = found.unwrap_or_else(|| panic!("no {rules:?} for {wanted}"));
        assert!((found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0), "{rules:?}: {found} is not {wanted}");
    }
}

/// Asks, and checks every step; `None` where it is no question.
fn asked(typed: &str) -> Option<Value> {
    let run = shophead(&format!("{typed} --working --format json"));
    (run.status != Some(2)).then(|| run.json(run.status.unwrap()))
}

const ROW_MARGIN: &[&str] = &["rows-margin", "doubler-margin"];

fn check_joint(typed: &str) -> bool {
    let Some(answer) = asked(typed) else { return false };
    let steps = check(&answer);
    let result = &answer["result"];
    ends_with(steps, &["allowable"], &result["per_rivet"]["allowable"]["lbf"]);
    ends_with(steps, &["margin"], &result["margin"]["value"]);
    ends_with(steps, ROW_MARGIN, &result["row"]["margin"]["value"]);
    ends_with(steps, &["margin-at-yield", "margin-at-yield-limit"], &result["yield"]["margin"]["value"]);
    let at_yield = ["rows-margin-at-yield", "rows-margin-at-yield-limit"];
    if result["row"]["sharing"]["transfer"] != "doubler" {
        ends_with(steps, &at_yield, &result["row"]["yield_margin"]["value"]);
    }
    ends_with(steps, &["rows-carry"], &result["row"]["per_inch"]["lbf_per_in"]);
    ends_with(steps, &["tension-most"], &result["tension"]["most"]["lbf"]);
    ends_with(steps, &["squeeze"], &result["squeeze"]["force"]["lbf"]);
    ends_with(steps, &["squeeze-least"], &result["squeeze"]["least"]["lbf"]);
    ends_with(steps, &["squeeze-most"], &result["squeeze"]["greatest"]["lbf"]);
    for sheet in list(&result["row"]["buckling"]) {
        let about = format!("sheet {}", sheet["sheet"]);
        let of_sheet = steps.iter().filter(|step| step["about"] == about.as_str()).cloned().collect::<Vec<_>>();
        ends_with(&of_sheet, &["buckles-stands"], &sheet["stands"]["psi"]);
        ends_with(&of_sheet, &["buckles-pitch"], &sheet["largest_pitch"]["in"]);
    }
    // How rows share is worked out from moduli and thicknesses on.
    ends_with(steps, &["share-most"], &result["row"]["peak"]["load"]["lbf"]);
    for by in list(&result["row"]["sharing"]["formulas"]) {
        let peak = by["peak_row"].as_u64().expect("a row") as usize;
        let about = by["formula"].as_str().expect("a word");
        let of_formula = steps.iter().filter(|step| step["about"] == about).cloned().collect::<Vec<_>>();
        ends_with(&of_formula, &["share-lap", "share-doubler"], &by["rows"][peak - 1]["share"]);
    }
    true
}

fn check_splice(typed: &str) -> bool {
    let Some(answer) = asked(typed) else { return false };
    let steps = check(&answer);
    let result = &answer["result"];
    ends_with(steps, &["rivets-laid-out"], &result["layout"]["total"]);
    ends_with(steps, &["develops"], &result["layout"]["develops"]);
    true
}

fn check_hole(typed: &str) -> bool {
    let Some(answer) = asked(typed) else { return false };
    let steps = check(&answer);
    // The drill is the next of its list: it is no smaller than what is wanted, and the one before it is.
    assert!(last(steps, &["drill-over"]).is_none_or(|over| over >= 0.0), "{typed}");
    assert!(last(steps, &["drill-short"]).is_none_or(|short| short > 0.0), "{typed}");
    true
}

fn check_group(typed: &str) -> bool {
    let Some(answer) = asked(typed) else { return false };
    let steps = check(&answer);
    let result = &answer["result"];
    ends_with(steps, &["margin"], &result["margin"]["value"]);
    ends_with(steps, &["margin-at-yield", "margin-at-yield-limit"], &result["yield_margin"]["value"]);
    ends_with(steps, &["group-share"], &result["worst"]["load"]["lbf"]);
    true
}

fn check_length(typed: &str) -> bool {
    let Some(answer) = asked(typed) else { return false };
    let steps = check(&answer);
    let result = &answer["result"];
    ends_with(steps, &["length"], &result["length"]["in"]);
    ends_with(steps, &["head-nominal"], &result["head"]["diameter"]["nominal"]["in"]);
    ends_with(steps, &["drive-to", "drive-to-alone"], &result["window"]["height"]["max"]["in"]);
    true
}

fn check_repair(typed: &str) -> bool {
    let Some(answer) = asked(&format!("repair {typed}")) else { return false };
    let steps = check(&answer);
    let result = &answer["result"];
    ends_with(steps, &["side-rivets", "side-rivets-staggered"], &result["patch"]["along"]["counted"]);
    ends_with(steps, &["develops"], &result["patch"]["share"]);
    if !result["patch"].is_null() {
        ends_with(steps, &["mass-added"], &result["mass"]["lb"]);
    }
    ends_with(steps, &["splice-length"], &result["splice"]["length"]["in"]);
    if !result["splice"].is_null() {
        ends_with(steps, &["splice-mass"], &result["mass"]["lb"]);
    }
    let rows = &result["rows"];
    let tried = if rows["solved"].is_null() { &rows["as_asked"] } else { &rows["solved"]["found"] };
    ends_with(steps, &["width-margin"], &tried["margin"]);
    ends_with(steps, &["shear-and-tension"], &rows["combined"]["margin"]);
    ends_with(steps, &["strip"], &rows["strip"]["carries"]["lbf"]);
    ends_with(steps, &["strip-efficiency"], &rows["strip"]["efficiency"]);
    ends_with(steps, &["margin"], &rows["strip"]["margin"]);
    if let Some(by) = rows["layers"].as_array().and_then(|by| by.last()) {
        ends_with(steps, &["margin"], &by["margin"]);
    }
    ends_with(steps, &["bend-setback"], &result["bend"]["setback"]["in"]);
    true
}

/// Asks and checks; whether it was a question.
type Check = fn(&str) -> bool;

/// Questions of which each must have an answer.
const EXAMPLES: &[(Check, &str)] = &[
    (check_joint, "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .22 --load 200"),
    (check_joint, "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .15 --load 200 --hole .140"),
    (
        check_joint,
        "joint --rivet MS20470AD5 --sheets 2024-T3:.040,7075-T6:.080,2024-T3:.040 --shear double --edge .3 --load 500 --pitch 1 --rows 3",
    ),
    (
        check_joint,
        "joint --rivet MS20426AD4 --sheets clad_2024-T3:.063:countersunk,2024-T3:.090 --edge .25 --pitch .75 --rows 2 --staggered --strip-load 500 --ultimate-load",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.080 --strip-load 800 --rows 8 --pitch .75 --transfer doubler --ultimate-load --edge .25",
    ),
    (check_splice, "splice --sheet clad_2024-T3:.032 --rivet AD4 --width 10 --member lap --count example"),
    (check_splice, "splice --sheet 2024-T3:.040 --rivet AD4 --width 10"),
    (check_splice, "splice --sheet 2024-T3:.064 --rivet AN3 --width 6"),
    (
        check_hole,
        "hole --rivet MS20470AD4 --major .141 --minor .130 --edge 3/8 --pitch 3/4 --layers clad_2024-T3:.032,clad_2024-T3:.040",
    ),
    (
        check_hole,
        "hole --rivet MS20470AD4 --major .165 --edge .5 --pitch 1 --layers 2024-T3:.040,2024-T3:.063 --damage gouged",
    ),
    (check_length, "length --layers .032,.040,.125 --diameter 1/8"),
    (check_length, "length --layers .063:countersunk,.125 --diameter 5/32 --series MS20426 --practice process"),
    (check_repair, "patch --sheet clad_2024-T3:.032 --hole 2x1-1/2"),
    (check_repair, "patch --sheet 2024-T3:.040 --crack 2 --style flush"),
    (check_repair, "patch --sheet clad_2024-T3:.040 --hole 2x1.5 --taper stepped:.020"),
    (check_repair, "patch --sheet clad_2024-T3:.040 --hole 2x1.5 --taper feathered:.016"),
    (check_repair, "splice frame --shape channel --material 2017 --leg .6x.040 --leg 2x.040 --leg .6x.040"),
    (check_repair, "splice lower-stringer --shape bulb-angle --material 2017 --leg .5x1/16 --leg 1x1/16,bolts --gap 1"),
    (check_repair, "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --rows 2 --across 10 --load 4000"),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --across 10 --load 2000 --solve pitch --margin .1",
    ),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.063 --across 10 --load 1000 --tension 20 --tension-tested 100",
    ),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --counts 1-3:5/32-2 --across 3 --load 900 --edge .4 --row-spacing .75",
    ),
    (
        check_repair,
        "rows --rivet MS20470AD5 --sheets 2024-T3:.025,2024-T3:.025 --counts 1-3-1 --across 1-3/8 --row-spacing 1 --edge 1 --ftu 70ksi --fbru 124ksi --fsu 41ksi --rivet-fsu 30ksi --hole 5/32",
    ),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040,2024-T3:.063 --rows 4 --across 3 --load 900 --from 1 --to 3",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.040,2024-T3:.063 --edge .3 --pitch .8 --rows 5 --strip-load 700",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD5 --sheets 2024-T3:.040,2024-T3:.063,2024-T3:.080 --edge .4 --pitch 1 --rows 3 --strip-load 700 --from 3 --to 2",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.032,2024-T3:.040 --edge .3 --pitch .8 --rows 6 --strip-load 700 --transfer doubler",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.063,2024-T3:.040 --shear double --edge .3 --pitch .8 --rows 7 --strip-load 1200 --transfer doubler",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.063,2024-T3:.040 --shear double --edge .3 --pitch .8 --rows 4 --strip-load 1200 --flexibility tn-1051",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .3 --pitch .8 --rows 4 --strip-load 1200 --flexibility stp-927-bolted",
    ),
    (check_repair, "bend --material 2024-T3 --thickness .040"),
    (check_repair, "splice frame --shape channel --material 2024-T3 --leg .8x.040 --leg 2x.040 --leg .8x.040"),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --counts 2-3-2 --across 2 --load 900 --edge .4 --row-spacing .2",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets clad_2024-T3:.032,7075-T6:.063 --edge .3 --pitch 1 --compression 8ksi",
    ),
    (
        check_group,
        "group 0in,0in;1in,0in,5/32;.5in,1in --load 30,-200 --at 2in,.5in --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.050 --edge .5",
    ),
];

thread_local! {
    /// The formulas that the questions of this test have come to.
    static REACHED: RefCell<BTreeSet<String>> = const { RefCell::new(BTreeSet::new()) };
}

/// A step that no example reaches is checked by nothing.
#[test]
fn the_examples_reach_every_formula() {
    for (check, typed) in EXAMPLES.iter().chain(MORE_EXAMPLES) {
        assert!(check(typed), "{typed}");
    }
    the_seams_of_a_panel_come_out_again();
    let reached = REACHED.take();
    let all = ::shophead::working::EQUATIONS.iter().flat_map(|rules| rules.iter()).map(|rule| rule.word);
    let by_others = |word: &&str| BY_SHOPS.contains(word) || BY_PROGRAMS.contains(word);
    let missed: Vec<&str> = all.filter(|word| !reached.contains(*word) && !by_others(word)).collect();
    assert!(missed.is_empty(), "no example reaches {missed:?}");
}

/// Questions for the formulas that the others do not come to.
const MORE_EXAMPLES: &[(Check, &str)] = &[
    (check_joint, "joint --rivet MS20426AD4 --sheets 2024-T3:.063:countersunk,2024-T3:.080 --edge .19"),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .3 --load 200 --fitting-factor 1",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .3 --load 200 --fitting-factor 1 --ultimate-load",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .3 --pitch .8 --rows 2 --strip-load 300 --fitting-factor 1",
    ),
    (
        check_joint,
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .3 --pitch .8 --rows 2 --strip-load 300 --fitting-factor 1 --ultimate-load",
    ),
    (check_group, "group 0,0 --load 30,-200 --at 0,0 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.050 --edge .5"),
    (check_joint, "joint --rivet MS20426AD4 --sheets 2024-T3:.032:dimpled,2024-T3:.040:dimpled --edge .4"),
    (check_splice, "splice --sheet 5052-H34:.081 --rivet AN3 --width 6"),
    (check_repair, "patch --sheet clad_2024-T3:.032 --hole 2x1-1/2 --pattern in-line"),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --across 10 --load 2000 --fitting-factor 1",
    ),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --across 10 --load 2000 --ultimate-load",
    ),
    (
        check_repair,
        "rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --across 10 --load 2000 --ultimate-load --fitting-factor 1",
    ),
];

/// Only a shop's own limits come to these: it rounds to the longer rivet, or takes a limit away that the built-in practices have.
const BY_SHOPS: [&str; 3] = ["rule-of-thumb-longer", "drive-to-alone", "pitch-widest"];
/// Only a program comes to these: the command always has a fitting factor, 1 where it is left out.
const BY_PROGRAMS: [&str; 8] = [
    "factored-load-safety",
    "factored-load-none",
    "margin-at-yield-limit",
    "rows-factored-load-safety",
    "rows-factored-load-none",
    "rows-margin-at-yield-limit",
    "width-factored-load-safety",
    "width-factored-load-none",
];

#[test]
fn every_number_of_the_examples_comes_out_again() {
    for (check, typed) in EXAMPLES {
        assert!(check(typed), "{typed}");
        assert!(check(&format!("{typed} --units mm").replace(" --units mm", "")), "{typed}");
    }
}

#[test]
fn a_group_comes_out_again() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(
        folder.path().join("g.csv"),
        "x,y,diameter\n0in,0in,1/8\n1in,0in,5/32\n0in,1in,1/8\n1.5in,1.25in,3/16\n",
    )
    .unwrap();
    for more in ["", " --ultimate-load", " --moment 50 --fitting-factor 1", " --units mm"] {
        let typed = format!(
            "group g.csv --load 0lbf,-900lbf --at 3in,.2in --rivet MS20470AD4 --sheets 2024-T3:.040in,2024-T3:.063in --edge .5in --working --format json{more}"
        );
        let run = shophead_with(&typed, |command| command.current_dir(folder.path()));
        let answer = run.json(run.status.unwrap());
        let steps = check(&answer);
        ends_with(steps, &["margin"], &answer["result"]["margin"]["value"]);
        ends_with(steps, &["margin-at-yield", "margin-at-yield-limit"], &answer["result"]["yield_margin"]["value"]);
        let moments = last(steps, &["group-moment"]).unwrap();
        assert!((moments - answer["result"]["moment"]["in_lbf"].as_f64().unwrap()).abs() < 1e-9);
    }
}

/// Of a line from hole to hole only the slanting legs give width back: two of the four in a line through one rivet and four.
#[test]
fn a_leg_along_its_row_gives_nothing_back() {
    let strip = "repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --load 500 --counts 1-4 --across 3 --row-spacing 1/4";
    let answer = asked(&format!("{strip} --edge 1/4")).expect("a strip");
    let lines = list(&answer["result"]["rows"]["strip"]["lines"]);
    let slanting = lines.iter().filter(|line| line["zigzag"] == true && line["holes"] == 5).count();
    let legs = check(&answer).iter().filter(|step| step["rule"] == "strip-leg").count();
    assert_eq!((slanting, legs), (2, 4));
}

/// With a shop's own rule for the diameter: two and a half times the sheet.
#[test]
fn a_patch_by_a_shops_rule_comes_out_again() {
    let folder = tempfile::tempdir().unwrap();
    let limits = "title = \"Shed\"\ndocument = \"card\"\n[[limit]]\nname = \"diameter-per-thickness-target\"\nvalue = \"5/2\"\nplace = \"1\"\n";
    std::fs::write(folder.path().join("l.toml"), limits).unwrap();
    let typed = "repair patch --sheet clad_2024-T3:.040in --hole 2inx1.5in --limits l.toml --working --format json";
    let run = shophead_with(typed, |command| command.current_dir(folder.path()));
    let answer = run.json(run.status.unwrap());
    let wanted = check(&answer).iter().find(|step| step["rule"] == "diameter-for-sheet").expect("the rule");
    assert_eq!(wanted["result"]["printed"], "0.1", "{wanted}");
}

#[test]
fn the_seams_of_a_panel_come_out_again() {
    let folder = tempfile::tempdir().unwrap();
    let seams = "side,length,layers,rivet,pitch,edge,rows,row_spacing\n\
        fore,12,\"2024-T3:.040,2024-T3:.063\",MS20470AD4,.75,.3,1,\nfore,12,\"2024-T3:.040,2024-T3:.063\",MS20470AD4,1,.3,2,.5\n\
        keel,9.3,\"2024-T3:.040,2024-T3:.125\",MS20470AD5,.8,.35,1,\n";
    std::fs::write(folder.path().join("s.csv"), seams).unwrap();
    let run = shophead_with("repair panel s.csv --working --format json", |command| command.current_dir(folder.path()));
    let answer = run.json(run.status.unwrap());
    let steps = check(&answer);
    let sides = list(&answer["result"]["panel"]["sides"]);
    ends_with(steps, &["panel-row"], &sides[1]["per_row"]);
    assert_eq!(steps.iter().filter(|step| step["rule"] == "rows-carry").count(), 3);
}

/// A material whose strengths the shop entered is worked with in every command, and each figure names the shop's document.
#[test]
fn what_the_shop_entered_is_on_the_working_with_its_document() {
    let folder = tempfile::tempdir().unwrap();
    let limits = "title = \"Boat shed figures\"\n[material.2024-T3511]\nthickness = \".050 to .249\"\nbasis = \"B\"\n\
        tension_ultimate = \"60 ksi\"\nshear_ultimate = \"32 ksi\"\nbearing_ultimate_15 = \"90 ksi\"\nbearing_ultimate_20 = \"113 ksi\"\n\
        bearing_yield_15 = \"59 ksi\"\nbearing_yield_20 = \"69 ksi\"\ndocument = \"mill certificate (demo)\"\nplace = \"page 2\"\n";
    std::fs::write(folder.path().join("own.toml"), limits).unwrap();
    std::fs::write(folder.path().join("g.csv"), "x,y\n0,0\n1,0\n").unwrap();
    for (typed, margin) in [
        (
            "joint --rivet MS20470AD5 --sheets 2024-T3:.063,2024-T3511:.125 --edge .4 --load 200 --pitch 1",
            "/result/margin/value",
        ),
        (
            "group g.csv --load 0,-300 --at .5,0 --rivet MS20470AD5 --sheets 2024-T3:.063,2024-T3511:.125 --edge .5",
            "/result/margin/value",
        ),
        ("splice --sheet 2024-T3511:.063 --rivet AD5 --width 5", ""),
        ("repair patch --sheet 2024-T3511:.063 --hole 2x1", ""),
        (
            "repair rows --rivet MS20470AD5 --sheets 2024-T3511:.063,2024-T3511:.063 --load 900 --across 2",
            "/result/rows/as_asked/margin",
        ),
    ] {
        let typed = format!("{typed} --limits own.toml --working --format json");
        let run = shophead_with(&typed, |command| command.current_dir(folder.path()));
        let answer = run.json(run.status.unwrap());
        let steps = check(&answer);
        let entered = steps.iter().flat_map(|step| list(&step["figures"])).filter(|figure| {
            figure["basis"]["document"].as_str().is_some_and(|document| document.contains("mill certificate"))
        });
        assert!(entered.clone().count() > 2, "{typed}");
        assert!(
            entered.clone().all(|figure| figure["guarantee"] == "B" && figure["basis"]["status"] == "shop"),
            "{typed}"
        );
        if !margin.is_empty() {
            ends_with(steps, &["margin", "width-margin"], answer.pointer(margin).unwrap());
        }
    }
}

/// One of several words.
fn one(words: &'static [&'static str]) -> impl Strategy<Value = &'static str> {
    prop::sample::select(words)
}

const SHEETS: &[&str] = &[
    "2024-T3:.032",
    "2024-T3:.040",
    "2024-T3:.050",
    "clad_2024-T3:.063",
    "7075-T6:.080",
    "6061-T6:.071",
    "clad_2024-T3:.025",
    "2024-T3:.125",
    "5052-H32:.050",
];
const RIVETS: &[&str] = &["MS20470AD3", "MS20470AD4", "MS20470AD5", "MS20470AD6", "MS20470DD6", "MS20470B4"];
const FLUSH: &[&str] = &["MS20426AD3", "MS20426AD4", "MS20426AD5"];
const LOADS: &[&str] =
    &["", " --load 120", " --load 333.3 --ultimate-load", " --load 210 --fitting-factor 1.0 --safety-factor 2"];
const UNITS: &[&str] = &["", "", " --units mm"];

/// A question of each command, as somebody would type it. Numbers have their units, so that they are the same whatever the output is in.
fn questions() -> impl Strategy<Value = (Check, String)> {
    let length =
        |from: u32, to: u32| (from..to).prop_map(|thousandths| format!("{}in", f64::from(thousandths) / 1_000.0));
    let joint = (
        one(RIVETS),
        one(SHEETS),
        one(SHEETS),
        length(120, 500),
        one(LOADS),
        one(&["", " --hole .132in", " --hole .125in"]),
        one(UNITS),
    )
        .prop_map(|(rivet, a, b, edge, load, hole, units)| {
            format!("joint --rivet {rivet} --sheets {a}in,{b}in --edge {edge}{load}{hole}{units}")
        });
    let rows = (one(RIVETS), one(SHEETS), one(SHEETS), length(400, 1_400), 1_u8..7, length(200, 900),
        one(&["", " --staggered"]), one(&["", " --strip-load 700lbf", " --strip-load 1500lbf --ultimate-load --transfer doubler"]), one(UNITS))
        .prop_map(|(rivet, a, b, pitch, rows, apart, staggered, load, units)| {
            format!("joint --rivet {rivet} --sheets {a}in,{b}in --edge .4in --pitch {pitch} --rows {rows} --transverse-pitch {apart}{staggered}{load}{units}")
        });
    let pack = (
        one(RIVETS),
        (one(SHEETS), one(SHEETS), one(SHEETS)),
        one(&["", ",2024-T3:.040in"]),
        length(400, 1_400),
        2_u8..7,
        length(200, 900),
        one(&["", " --strip-load 700lbf", " --strip-load 900lbf --ultimate-load --from 2 --to 1", " --strip-load 500lbf --transfer doubler"]),
        one(UNITS),
    )
        .prop_map(|(rivet, (a, b, c), fourth, pitch, rows, apart, load, units)| {
            let sheets = format!("{a}in,{b}in,{c}in{fourth}");
            format!("joint --rivet {rivet} --sheets {sheets} --edge .4in --pitch {pitch} --rows {rows} --transverse-pitch {apart}{load}{units}")
        });
    let double = (
        one(RIVETS),
        one(SHEETS),
        one(SHEETS),
        one(SHEETS),
        length(200, 500),
        one(LOADS),
        one(&["", " --pitch 1in --rows 2"]),
    )
        .prop_map(|(rivet, a, b, c, edge, load, rows)| {
            format!("joint --rivet {rivet} --sheets {a}in,{b}in,{c}in --shear double --edge {edge}{load}{rows}")
        });
    let flush = (
        one(FLUSH),
        one(&["2024-T3:.063", "clad_2024-T3:.050", "clad_2024-T3:.080", "2024-T3:.040"]),
        one(SHEETS),
        length(150, 400),
        one(LOADS),
        one(&["countersunk", "dimpled"]),
        one(&["", " --pitch .8in", " --pitch .9in --rows 2 --staggered"]),
    )
        .prop_map(|(rivet, a, b, edge, load, seat, rows)| {
            format!("joint --rivet {rivet} --sheets {a}in:{seat},{b}in --edge {edge}{load}{rows}")
        });
    let splice = (one(SHEETS), one(&["AD3", "AD4", "AD5", "AD6", "AN3"]), length(1_000, 14_000), one(&["other", "lap", "stringer", "frame"]),
        one(&["greater", "table", "example", "strength"]), one(&["", " --rows 3", " --rows 4 --staggered"]), one(UNITS))
        .prop_map(|(sheet, rivet, width, member, count, rows, units)| {
            format!("splice --sheet {sheet}in --rivet {rivet} --width {width} --member {member} --count {count}{rows}{units}")
        });
    let hole = (one(RIVETS), one(SHEETS), one(SHEETS), length(95, 220), 0_u32..12, length(200, 700), one(&["sound", "gouged"]),
        one(&["", " --direction along", " --direction across"]), one(UNITS))
        .prop_map(|(rivet, a, b, major, less, edge, damage, direction, units)| {
            let major: f64 = major.trim_end_matches("in").parse().unwrap();
            let minor = major - f64::from(less) / 1_000.0;
            format!("hole --rivet {rivet} --major {major}in --minor {minor:.4}in --edge {edge} --pitch 1in --layers {a}in,{b}in --damage {damage}{direction}{units}")
        });
    let lengths = (
        one(&["3/32", "1/8", "5/32", "3/16"]),
        length(20, 130),
        length(20, 260),
        one(&["", " --hole .1285in", " --tolerance .003in"]),
        one(&["", " --practice process"]),
        one(UNITS),
    )
        .prop_map(|(diameter, a, b, hole, practice, units)| {
            format!("length --layers {a},{b} --diameter {diameter}in{hole}{practice}{units}")
                .replace("/8in", "/8")
                .replace("/32in", "/32")
                .replace("/16in", "/16")
        });
    let sunk = (one(&["3/32", "1/8", "5/32"]), length(60, 130), length(20, 260), one(&["countersunk", "dimpled"]))
        .prop_map(|(diameter, a, b, seat)| {
            let second = if seat == "dimpled" { ":dimpled" } else { "" };
            format!("length --layers {a}:{seat},{b}{second} --diameter {diameter} --series MS20426")
        });
    let patch = (one(SHEETS), length(300, 4_000), length(300, 4_000), one(&["lap", "doubler", "flush"]), one(&["hole", "opening"]),
        one(&["both", "along"]), one(&["staggered", "in-line"]), one(&["greater", "table", "example", "strength"]),
        one(&["", "", " --taper stepped:.020in", " --taper feathered:.016in"]), one(UNITS))
        .prop_map(|(sheet, a, b, style, kind, ways, pattern, by, taper, units)| {
            format!("patch --sheet {sheet}in --{kind} {a}x{b} --style {style} --ways {ways} --pattern {pattern} --by {by}{taper}{units}")
        });
    let member = (one(&["stringer", "upper-stringer", "frame", "flange"]), one(&["2017", "2024-T3", "7075-T6"]), length(500, 1_500), length(32, 80), length(0, 3_000),
        one(&["", ",skin=.032in", ",bolts"]), one(UNITS))
        .prop_map(|(member, material, width, thickness, gap, more, units)| {
            format!("splice {member} --shape angle --material {material} --leg {width}x{thickness}{more} --leg 1in x{thickness} --gap {gap}{units}").replace("1in x", "1inx")
        });
    let tried = (
        one(RIVETS),
        one(SHEETS),
        one(SHEETS),
        1_u8..5,
        200_u32..6_000,
        one(&[
            "",
            " --staggered",
            " --solve pitch",
            " --solve rows",
            " --solve edge",
            " --tension 12lbf --tension-tested 90lbf",
        ]),
        one(UNITS),
    )
        .prop_map(|(rivet, a, b, rows, load, more, units)| {
            format!(
                "rows --rivet {rivet} --sheets {a}in,{b}in --rows {rows} --across 8in --load {load}lbf{more}{units}"
            )
        });
    let counted = (one(RIVETS), one(SHEETS), one(SHEETS), one(&["1-3-1", "2-4-4-2", "1-2", "3", "1-3-5:3/32-3-1"]), length(2_500, 6_000), length(200, 1_000),
        one(&["", " --load 800lbf", " --load 2000lbf --ultimate-load", " --rivet-fsu 30ksi --fbru 120ksi --load 700lbf"]), one(UNITS))
        .prop_map(|(rivet, a, b, counts, across, apart, load, units)| {
            format!("rows --rivet {rivet} --sheets {a}in,{b}in --counts {counts} --across {across} --row-spacing {apart} --edge .4in{load}{units}")
        });
    let place = || (-3_000_i32..3_000).prop_map(|thousandths| format!("{}in", f64::from(thousandths) / 1_000.0));
    let rivet = (place(), place(), one(&["", "", ",1/8", ",5/32", ",3/16"]));
    let rivet = rivet.prop_map(|(x, y, size)| format!("{x},{y}{size}"));
    let group = (
        prop::collection::vec(rivet, 1..9),
        (-900_i32..900, -900_i32..900),
        (place(), place()),
        one(&["", " --moment 120in-lbf", " --moment=-60in-lbf"]),
        one(&["MS20470AD4", "MS20470AD5"]),
        (one(SHEETS), one(SHEETS)),
        length(200, 600),
        one(&["", " --ultimate-load", " --fitting-factor 1"]),
        one(UNITS),
    )
        .prop_map(|(rivets, (fx, fy), (x, y), moment, rivet, (a, b), edge, factors, units)| {
            let more = format!("--rivet {rivet} --sheets {a}in,{b}in --edge {edge}{moment}{factors}{units}");
            format!("group 0in,0in;{} --load={fx}lbf,{fy}lbf --at={x},{y} {more}", rivets.join(";"))
        });
    let bend = (one(&["2024-T3", "5052-H32", "7075-T6"]), length(20, 120), 1_u32..179, one(&["", " --radius .2in"]))
        .prop_map(|(material, thickness, angle, radius)| {
            format!("bend --material {material} --thickness {thickness} --angle {angle}{radius}")
        });
    let of = |check: Check| move |typed: String| (check, typed);
    prop_oneof![
        2 => joint.prop_map(of(check_joint)),
        3 => rows.prop_map(of(check_joint)),
        1 => double.prop_map(of(check_joint)),
        2 => flush.prop_map(of(check_joint)),
        2 => splice.prop_map(of(check_splice)),
        2 => hole.prop_map(of(check_hole)),
        1 => lengths.prop_map(of(check_length)),
        1 => sunk.prop_map(of(check_length)),
        2 => patch.prop_map(of(check_repair)),
        2 => member.prop_map(of(check_repair)),
        2 => tried.prop_map(of(check_repair)),
        2 => counted.prop_map(of(check_repair)),
        1 => bend.prop_map(of(check_repair)),
        3 => group.prop_map(of(check_group)),
        2 => pack.prop_map(of(check_joint)),
    ]
}

#[test]
fn every_number_of_random_questions_comes_out_again() {
    let cases = std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(64_u32).max(64) * 8;
    let mut runner = TestRunner::new(ProptestConfig {
        cases,
        failure_persistence: None,
        max_shrink_iters: 40,
        ..ProptestConfig::default()
    });
    let answered = std::cell::Cell::new(0_u32);
    let ran = runner.run(&questions(), |(check, typed)| {
        println!("{typed}");
        answered.set(answered.get() + u32::from(check(&typed)));
        Ok(())
    });
    if let Err(error) = ran {
        panic!("{error}");
    }
    assert!(answered.get() * 10 > cases * 7, "only {} of {cases} were questions", answered.get());
}

#[test]
fn text_and_sheet_say_the_same_steps_once_with_the_caution() {
    let typed =
        "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .25 --load 200 --pitch .75 --rows 2";
    let json = shophead(&format!("{typed} --working --format json")).json(0);
    let text = shophead(&format!("{typed} --working --width 400")).stdout;
    let html = shophead(&format!("{typed} --format html")).stdout;
    let read = scraper::Html::parse_document(&html);
    let shown: String = read.root_element().text().collect();
    for step in list(&json["working"]["steps"]) {
        let line = format!("= {} = {}", step["put_in"].as_str().unwrap(), step["result"]["printed"].as_str().unwrap());
        let formula = format!("{} = {}", step["symbol"].as_str().unwrap(), step["formula"].as_str().unwrap());
        for wanted in [&line, &formula] {
            assert!(text.contains(wanted), "{wanted}\n{text}");
            assert!(shown.contains(wanted), "{wanted}\n{shown}");
        }
        for figure in list(&step["figures"]) {
            if let Some(place) = figure["basis"]["place"].as_str() {
                assert!(text.contains(place) && shown.contains(place), "{place}");
            }
        }
    }
    for advisory in [text.matches("Advisory only").count(), shown.matches("Advisory only").count()] {
        assert_eq!(advisory, 1);
    }
    for line in ["Prepared by", "Checked by", "Date", "2024-T3:.040,2024-T3:.063", "sheets", "A basis"] {
        assert!(shown.contains(line), "{line}");
    }
    let inputs: Vec<&str> =
        list(&json["working"]["inputs"]).iter().map(|input| input["name"].as_str().unwrap()).collect();
    assert_eq!(inputs, ["asked", "rivet", "sheets", "edge", "load", "pitch", "rows"]);
    // It stands by itself, and nothing in it runs or is fetched.
    for bad in ["<script", "<img", "<link", "http:", "https:", "url(", "onload", "@import"] {
        assert!(!html.contains(bad), "{bad}");
    }
}

#[test]
fn a_splice_works_its_rivet_twice_and_says_which_time_it_is() {
    let answer = shophead("splice --sheet clad_2024-T3:.040 --width 4 --rivet AD4 --working --format json").json(0);
    let about = |wanted: &str| -> Vec<&str> {
        let steps = list(&answer["working"]["steps"]).iter().filter(|step| step["about"] == wanted);
        steps.filter_map(|step| step["rule"].as_str()).collect()
    };
    let (alone, laid_out) = (about("one rivet by itself"), about("as laid out"));
    assert!(alone.starts_with(&["rivet-shear-one-plane"]) && alone.contains(&"allowable"), "{alone:?}");
    assert!(laid_out.starts_with(&["rivet-shear-one-plane"]) && laid_out.contains(&"rows-carry"), "{laid_out:?}");
    // What comes between is about neither, and so is what the whole comes to.
    let steps = list(&answer["working"]["steps"]).iter().filter(|step| step["about"] == "");
    let whole: Vec<&str> = steps.filter_map(|step| step["rule"].as_str()).collect();
    assert!(whole.contains(&"sheet-load") && whole.ends_with(&["develops"]), "{whole:?}");
}

#[test]
fn what_is_typed_does_not_get_out_of_the_sheet() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("<b>&.csv"), "x,y\n0,0\n1,0\n").unwrap();
    let typed = "group <b>&.csv --load 0,-100 --at 0,0 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .5 --format html";
    let html = shophead_with(typed, |command| command.current_dir(folder.path())).stdout;
    assert!(html.contains("&lt;b&gt;&amp;.csv") && !html.contains("<b>&.csv"), "{html}");
}

#[test]
fn without_the_option_there_are_no_steps_and_what_has_none_says_so() {
    let typed = "joint --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge .25";
    assert!(shophead(&format!("{typed} --format json")).json(0).get("working").is_none());
    assert!(!shophead(typed).stdout.contains("Working"));
    let run = shophead("part MS20470AD4-5 --format html");
    assert_eq!(run.status, Some(2));
    assert!(run.stderr.contains("there is no working of this"), "{}", run.stderr);
}
