//! The volume balance against what others computed or found out: setting allowances, tails of old manuals, rules for thick packs.

use shophead::basis::{Basis, Status};
use shophead::drill::parse_hole;
use shophead::finding::{Code, Figure, Findings, Severity};
use shophead::installation::Installation;
use shophead::joint::hole_table::HOLES;
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::RivetAlloy;
use shophead::practice::{Case, HANDBOOK, Name, PROCESS, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{Head, MS20470, NumberForm, Series, Size};
use shophead::select::{Difference, LengthAnswer, choose_diameter};
use shophead::stack::Stack;
use shophead::structure::Structure;
use shophead::upset::{Fit, HeadLimits, MeasuredHead, judge};
use shophead_tests::prelude::{inches, length};
use shophead_tests::{Comparison, Misfit, Row, fixture};

fn by_id(rows: &[Row], column: &str, id: &str) -> Row {
    rows.iter().find(|row| row.text(column) == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

/// A figure among the given ones of a worked example, which are written as JSON.
fn given(row: &Row, name: &str) -> f64 {
    let text = row.text("given(json)");
    let start = text.find(&format!("\"{name}\":")).unwrap_or_else(|| panic!("{}: no {name}", row.place()));
    let rest = &text[start + name.len() + 3..];
    let end = rest.find([',', '}', '[']).expect("an end");
    rest[..end].parse().unwrap_or_else(|_| panic!("{}: {name}", row.place()))
}

/// The fit of a rivet without tolerances.
fn bare_fit(shank: Length, hole: Length, grip: Length) -> Fit {
    let basis = Basis::own(0);
    let size = Size::new(0, basis).shank_nominal(shank).shank(Some(Interval::exactly(shank)));
    let series = Series::new("BARE", Head::Universal, NumberForm::MaterialFirst, &[], &[], basis);
    Fit::new(&series, &size, Toleranced::exactly(hole), Toleranced::exactly(grip)).expect("sizes")
}

/// Volume over π/4 of a frustum.
fn frustum(large: f64, small: f64, height: f64) -> f64 {
    height / 3.0 * (large * large + large * small + small * small)
}

/// Volume over π/4 of a spherical cap on a circle.
fn cap(circle: f64, height: f64) -> f64 {
    2.0 * height / 3.0 * (3.0 * circle * circle / 4.0 + height * height)
}

/// What a closing head of the printed shape takes beyond the straight hole, over π/4, in shank diameters.
fn closing_head(row: &Row) -> f64 {
    let (a, b) = (given(row, "A"), given(row, "B"));
    match row.text("example_id") {
        "U-01" => cap(a, b),
        // Sunk into the sheet: the straight hole that the cone replaces is already counted in the grip.
        "U-02" => frustum(a, 1.0, b) - b + cap(a, given(row, "C")),
        "U-04" => frustum(a, 1.0, b) - b,
        // A cone on the sheet, and under it the hole flared to an included angle of 15 degrees.
        "U-06" => {
            let flare = given(row, "E");
            let wide = 1.0 + 2.0 * flare * (given(row, "fillet_deg") / 2.0).to_radians().tan();
            frustum(a, 1.0, b) + frustum(wide, 1.0, flare) - flare
        }
        other => panic!("{other}"),
    }
}

/// The outside proof. The standards print, for four shapes of closing head, how far the shank has to stand out, in shank diameters
/// to three decimals: half of the last one is the tolerance. The head is put to the crate as the cylinder that holds the same
/// metal.
#[test]
fn setting_allowances_come_out_to_their_third_decimal() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("upset-worked-examples").iter().filter(|row| row.text("unit") == "D" && row.has("given(json)")) {
        if !row.text("asked").starts_with("setting allowance") {
            continue;
        }
        assert!(row.is_read(), "{}", row.place());
        // A shank of one inch, so that an inch is a diameter; the allowance must not depend on the pack.
        let diameter = Length::INCH;
        let head = closing_head(row);
        for (grip, height) in [("1/4", "1/2"), ("1", "1/2"), ("1", "1/50"), ("3", "7/10")] {
            let height = decimal(height);
            let fit = bare_fit(diameter, diameter, length(grip));
            let cylinder = inches((head / height.to_inches_f64()).sqrt());
            let rivet = fit.shortest_for(cylinder, height);
            let allowance = rivet.to_inches_f64() - length(grip).to_inches_f64();
            let name = format!("{} grip {grip} height {height}", row.text("example_id"));
            cells.close(&name, row.number("printed_answer").expect("a figure"), allowance, 0.000_5);
            // Computed apart to ten figures; a length here is a whole number of nanometres.
            cells.close(&format!("{name}, apart"), row.number("recomputed").expect("a figure"), allowance, 1e-6);
            // The other way: a rivet with that tail makes this head. A millionth of an inch is a thousand times the rounding.
            let made = fit.predict(rivet, height).diameter;
            cells.close(&format!("{name}, back"), cylinder.to_inches_f64(), made.nominal.to_inches_f64(), 1e-6);
            cells.equal(&format!("{name}, no spread"), made.min, made.max);
        }
    }
    cells.finish(4 * 4 * 4);
}

fn decimal(fraction: &str) -> Length {
    let (top, bottom) = fraction.split_once('/').expect("a fraction");
    inches(top.parse::<f64>().expect("a number") / bottom.parse::<f64>().expect("a number"))
}

/// The 1940s manual gives shank, tail and driven head. The tail must hold at least the head's metal; what is left over fills the
/// hole, and the hole of that manual's own drill is filled by it up to the grip stated here.
#[test]
fn the_tails_of_the_1940s_hold_their_head_and_a_surplus() {
    let mut cells = Comparison::with_misfits(&[]);
    let heads = fixture("driven-head");
    let drills = fixture("rivet-hole-drills");
    let examples = fixture("upset-worked-examples");
    // Row, tail as printed there, and as computed here: the head's need and the surplus in diameters, the longest grip in inches.
    for (id, tail, need, surplus, longest_grip, example) in [
        ("DH-01", "3/16", 1.140, 0.360, 0.79, Some("U-07")),
        ("DH-02", "3/16", 1.120, 0.080, 1.30, None),
        ("DH-03", "7/32", 1.114, 0.053, 0.61, Some("U-09")),
    ] {
        let row = by_id(&heads, "id", id);
        assert!(row.text("note").contains(tail), "{}", row.place());
        let (shank, tail) = (length(row.text("rivet_dia")), length(tail));
        let head = (length(row.text("head_dia_nominal")), length(row.text("head_height_nominal")));
        let grip = length("1/4");
        let in_shank = |length: Length| length.to_inches_f64() / shank.to_inches_f64();
        let needed = bare_fit(shank, shank, grip).shortest_for(head.0, head.1).checked_sub(grip).expect("a length");
        assert!(needed <= tail, "{id}: {needed} {tail}");
        cells.close(&format!("{id} need"), need, in_shank(needed), 0.000_5);
        cells.close(&format!("{id} surplus"), surplus, in_shank(tail) - in_shank(needed), 0.000_5);
        if let Some(example) = example {
            let example = by_id(&examples, "example_id", example);
            cells.close(
                &format!("{id} example"),
                example.number("recomputed").expect("a figure"),
                in_shank(needed),
                1e-6,
            );
            cells.close(
                &format!("{id} tail"),
                example.number("printed_answer").expect("a figure"),
                in_shank(tail),
                1e-6,
            );
        }
        let drill = drills.iter().find(|drill| drill.text("rivet_dia") == row.text("rivet_dia")).expect("a drill");
        let hole = parse_hole(drill.text("final_drill")).expect("a drill");
        let enough = |hundredths: f64| {
            let grip = inches(hundredths);
            let rivet = bare_fit(shank, hole, grip).shortest_for(head.0, head.1);
            rivet.checked_sub(grip).expect("a length") <= tail
        };
        assert!(
            enough(longest_grip) && !enough(longest_grip + 0.01),
            "{id}: the grip is {longest_grip} to a hundredth"
        );
    }
    cells.finish(3 * 2 + 4);
}

/// U-11 is computed, so it proves no document: it checks this crate's arithmetic against another one's.
#[test]
fn the_rule_of_thumb_is_used_up_at_the_computed_grip() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("upset-worked-examples").iter().filter(|row| row.text("example_id").starts_with("U-11")) {
        let (shank, hole) = (inches(given(row, "D_in")), inches(given(row, "hole_in")));
        let grip = row.number("printed_answer").or(row.number("recomputed")).expect("a grip");
        let rule = 1.5 * shank.to_inches_f64();
        let head = (inches(1.5 * shank.to_inches_f64()), inches(0.5 * shank.to_inches_f64()));
        let fit = bare_fit(shank, hole, inches(grip));
        // The row prints a millionth.
        cells.close(row.text("example_id"), grip + rule, fit.shortest_for(head.0, head.1).to_inches_f64(), 1e-6);
        let fill = fit.tail_taken_by_fill().to_inches_f64();
        cells.close(&format!("{} fill", row.text("example_id")), rule * (1.5 - 1.125) / 1.5, fill, 1e-6);
    }
    cells.finish(6);
}

/// A manual for ground vehicles lengthens the rivet by 1/16 in for every 2 in of pack up to 1/4 in diameter (3.125 % of the pack), and for
/// every inch above (6.25 %). The balance says what a hole as the strength handbook is recalled to count it really takes: G ((H/D)² - 1).
///
/// They agree to within 0.7 % of the pack for 5/32 and 3/16 and for both large diameters. They do not for 3/32, 1/8 and 1/4, whose drills
/// leave more room: there the manual's rule comes out short by 1.8, 2.6 and 2.6 % of the pack.
#[test]
fn the_thick_pack_rule_agrees_where_the_drill_is_close() {
    let rows = fixture("layout-rules");
    let per_pack = |id: &str| {
        let text = by_id(&rows, "rule_id", id).text("says").to_owned();
        let (_, step) = text.split_once("1/16 per ").expect("a step");
        0.0625 / step.split(' ').next().expect("a number").parse::<f64>().expect("a number")
    };
    assert_eq!((per_pack("LEN-04"), per_pack("LEN-06")), (0.031_25, 0.0625));
    let mut cells = Comparison::with_misfits(&[
        Misfit { cell: "-3", reason: "#41 in a 3/32 hole leaves 4.9 % to fill" },
        Misfit { cell: "-4", reason: "#30 in a 1/8 hole leaves 5.7 % to fill" },
        Misfit { cell: "-8", reason: "F in a 1/4 hole leaves 5.7 % to fill" },
    ]);
    // A tenth of a percent: what the fractions below are printed to.
    for (dash, filled) in [(3, 0.049), (4, 0.057), (5, 0.036), (6, 0.038), (8, 0.057), (10, 0.068), (12, 0.059)] {
        let size = MS20470.size(dash).expect("a size");
        let hole = HOLES.iter().find(|row| row.rivet == size.shank_nominal).expect("a hole").recalled;
        let pack = length("2");
        let fill = bare_fit(size.shank_nominal, hole, pack).tail_taken_by_fill().to_inches_f64() / 2.0;
        let rule = per_pack(if dash <= 8 { "LEN-04" } else { "LEN-06" });
        cells.close(&format!("-{dash}"), rule, fill, 0.007);
        cells.close(&format!("-{dash} share"), filled, fill, 0.000_6);
    }
    cells.finish(14);
    for id in ["LEN-03", "LEN-05"] {
        assert_eq!(by_id(&rows, "rule_id", id).text("says"), "grip + 1.5 D", "in thin packs the rule adds nothing");
    }
}

fn choose(dash: u8, grip: &str, practice: &'static shophead::practice::Practice<'static>) -> LengthAnswer<'static> {
    let size = MS20470.size(dash).expect("a size");
    let rivet = Part::new(&MS20470, "AD", size).expect("a part");
    let grip = Toleranced::parse(grip).expect("a grip");
    Installation::through(rivet, grip).by(practice).length().expect("sizes")
}

/// The question bank's answers are the rule of thumb to the nearest sixteenth, and it is what is chosen. So is the training sheet's.
#[test]
fn the_printed_lengths_are_the_rule_of_thumb_and_are_chosen() {
    let rows = fixture("handbook-worked-examples");
    let mut cells = Comparison::with_misfits(&[]);
    let printed = |id: &str| by_id(&rows, "example_id", id).text("printed_answer").to_owned();
    let first = |text: String| length(text.split(" in").next().expect("a word"));
    // The second dash number is the length in sixteenths.
    let dash = |id: &str| Part::parse(&format!("MS20470AD4{}", printed(id))).ok().and_then(|part| part.length());
    let part = printed("W02");
    let part = Part::parse(part.split(' ').next().expect("a part number")).expect("a part number");
    for (id, answer, size, grip) in [
        ("W01", first(printed("W01")), 3, ".080"),
        ("W02", part.length().expect("a length"), 4, ".064"),
        ("T01", dash("T01").expect("a length"), 4, ".080"),
    ] {
        for practice in [&HANDBOOK, &PROCESS] {
            let choice = choose(size, grip, practice);
            let name = practice.name();
            cells.equal(&format!("{id} {name} rule"), answer, choice.rule_of_thumb_length);
            cells.equal(&format!("{id} {name} taken"), Some(answer), choice.length);
            cells.equal(&format!("{id} {name} difference"), None::<Difference>, choice.difference);
        }
    }
    cells.finish(3 * 2 * 3);
}

/// How thick a pack keeps the rule of thumb: two layers of .002 either way, universal heads, the handbook's limits. Past that filling the hole takes
/// the tail, and the answer is longer than the rule, never shorter.
#[test]
fn the_rule_is_kept_until_filling_the_hole_takes_the_tail() {
    for (dash, last_kept) in [(3, 317), (4, 647), (5, 1_100), (6, 1_621)] {
        for thousandths in (60..1_700).step_by(10).chain([last_kept, last_kept + 1]) {
            let grip = format!("{}in+-.004", f64::from(thousandths) / 1_000.0);
            let choice = choose(dash, &grip, &HANDBOOK);
            let rule = choice.rule_of_thumb_length;
            if thousandths <= last_kept {
                assert_eq!(choice.length, Some(rule), "-{dash} through {grip}");
            }
            assert!(choice.length.is_none_or(|length| length >= rule), "-{dash} through {grip}");
            if thousandths == last_kept + 1 {
                assert_eq!(choice.difference, Some(Difference::FillTakesTail), "-{dash} through {grip}");
            }
        }
    }
}

#[test]
fn printed_part_numbers_say_what_the_answers_say() {
    let rows = fixture("handbook-worked-examples");
    let answer = by_id(&rows, "example_id", "W05");
    assert_eq!(answer.text("printed_answer"), "overall length 5/16 in");
    let flush = Part::parse(answer.text("given")).expect("a part number");
    assert_eq!(flush.length(), Some(length("5/16")));
    assert!(flush.series().head.is_flush(), "its length counts the head");
    // MS20430 is a round head that the catalogue does not carry: reading it must say so and not guess.
    let other = by_id(&rows, "example_id", "W06");
    assert_eq!(other.text("printed_answer"), "1/8 diameter, 1/2 long");
    assert!(Part::parse(other.text("given")).is_err());
}

/// W08 to W10: driven heads of 1.5 D by 0.5 D, tails of 1.5 D. Three decimals are printed.
#[test]
fn the_1940s_heads_are_the_targets_and_their_tails_only_once_the_rule() {
    let mut cells = Comparison::with_misfits(&[
        Misfit { cell: "DH-03 height", reason: "0.09375 is printed cut off, as 0.093" },
        Misfit { cell: "DH-02 tail", reason: "printed 1.2 D; the balance without fill needs 1.12 D" },
        Misfit { cell: "DH-03 tail", reason: "printed 1.167 D; the balance without fill needs 1.11 D" },
    ]);
    let heads = fixture("driven-head");
    for (id, example, tail) in [("DH-01", "W08", "3/16"), ("DH-02", "W09", "3/16"), ("DH-03", "W10", "7/32")] {
        let row = by_id(&heads, "id", id);
        let examples = fixture("handbook-worked-examples");
        let printed = by_id(&examples, "example_id", example).text("printed_answer").to_owned();
        let (width, height) = (row.text("head_dia_nominal"), row.text("head_height_nominal"));
        cells.equal(&format!("{id} both prints"), format!("head {width} x {height}; tail {tail}"), printed);
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, length(row.text("rivet_dia")));
        let limits = HeadLimits::of(&HANDBOOK, &case);
        let (diameter, high) = (limits.diameter_target.expect("a width"), limits.height_target.expect("a height"));
        cells.equal(&format!("{id} width"), width.to_owned(), format!("{:.3}", diameter.value));
        cells.equal(&format!("{id} height"), height.to_owned(), format!("{:.3}", high.value));
        let rule = HANDBOOK.length(Name::RuleOfThumbTail, &case).expect("a rule");
        cells.equal(&format!("{id} tail"), length(tail), rule.value);
        cells.equal(&format!("{id} rule"), Status::Published, rule.basis.status());
    }
    cells.finish(15);
}

/// W08 to W10 again, as heads predicted from the printed tails: in the manual's own holes the head comes out at the printed width through a pack
/// of a certain thickness, wider through a thinner one, and either is accepted at the printed height.
#[test]
fn the_1940s_heads_come_out_of_their_printed_tails() {
    let mut cells = Comparison::with_misfits(&[]);
    let (heads, drills) = (fixture("driven-head"), fixture("rivet-hole-drills"));
    for (id, tail, pack) in [("DH-01", "3/16", 0.79), ("DH-02", "3/16", 1.30), ("DH-03", "7/32", 0.61)] {
        let row = by_id(&heads, "id", id);
        let drill = drills.iter().find(|drill| drill.text("rivet_dia") == row.text("rivet_dia")).expect("a drill");
        let (shank, hole) = (length(row.text("rivet_dia")), parse_hole(drill.text("final_drill")).expect("a drill"));
        let (width, height) = (length(row.text("head_dia_nominal")), length(row.text("head_height_nominal")));
        let made = |pack: Length| {
            let fit = bare_fit(shank, hole, pack);
            (fit, pack.checked_add(length(tail)).expect("a length"))
        };
        let (fit, rivet) = made(inches(pack));
        // Three decimals are printed, and the pack is known to a hundredth.
        let head = fit.predict(rivet, height).diameter.nominal;
        cells.close(&format!("{id} width"), width.to_inches_f64(), head.to_inches_f64(), 0.001);
        for pack in [length("1/16"), length("1/4"), length("1/2")] {
            let (fit, rivet) = made(pack);
            let head = fit.predict(rivet, height).diameter.nominal;
            assert!(head > width, "{id} through {pack}");
            for practice in [&HANDBOOK, &PROCESS] {
                let case = Case::new(Head::Universal, RivetAlloy::Al2117, shank);
                let window = fit.window(rivet, &HeadLimits::of(practice, &case)).expect("a window");
                assert!(window.height.min() <= height && height <= window.height.max(), "{id} {}", practice.name());
                let measured = MeasuredHead::new(Interval::exactly(head), Interval::exactly(height));
                assert!(judge(measured, &[], practice, &case).accepted, "{id} {}", practice.name());
            }
        }
    }
    cells.finish(3);
}

/// DIA-01 of the circular: about three times .032 is .096, taken up to 1/8. And the Navy's bounds.
/// Everything that is found of a rivet in two sheets of this thickness, whatever is asked.
fn in_sheets(rivet: &str, sheet: &str, structure: Option<Structure>, practice: &Practice<'_>) -> Findings {
    let stack = Stack::parse(&format!("{sheet}, {sheet}")).expect("a stack");
    let question = Installation::new(Part::parse(rivet).expect("a part number"), &stack).by(practice);
    structure.map_or(question, |structure| question.structure(structure)).findings()
}

/// The circular's example, about three times .032 is .096, taken up to 1/8; and the handbook's, three times .040 is .120, taken up to 1/8, which
/// is a little more than three times. Neither gets a note.
#[test]
fn the_diameters_of_the_worked_examples_are_chosen_without_a_note() {
    let rows = fixture("ac43-rules");
    let circular = by_id(&rows, "rule_id", "DIA-01");
    assert_eq!(
        (circular.text("value"), circular.text("condition")),
        ("about 3", "example takes the next size up from 0.096: 1/8")
    );
    let examples = fixture("handbook-worked-examples");
    let handbook = by_id(&examples, "example_id", "W18");
    assert_eq!((handbook.text("given"), handbook.text("printed_answer")), ("skin 0.040", "1/8"));
    for practice in [&HANDBOOK, &PROCESS] {
        for (sheet, wanted) in [(".032", ".096"), (".040", ".120")] {
            let choice = choose_diameter(&MS20470, RivetAlloy::Al2117, length(sheet), practice);
            assert_eq!(choice.wanted, length(wanted));
            assert_eq!(choice.size.map(|size| size.shank_nominal), Some(length("1/8")));
            assert!(choice.findings.is_empty(), "{sheet}: {:?}", choice.findings);
        }
        // One size larger is more than the rule.
        let larger = in_sheets("MS20470AD5", ".040", None, practice);
        let note = larger.iter().find(|found| found.code() == Code::DiameterOutsideRule).expect("a note");
        assert_eq!((note.severity(), note.limit()), (Severity::Note, Some(Figure::Length(length("1/8")))));
        // Never under 3/32 in structure, however thin the sheet.
        let thin = choose_diameter(&MS20470, RivetAlloy::Al2117, length(".016"), practice);
        assert_eq!(thin.size.map(|size| size.shank_nominal), Some(length("3/32")));
        assert!(thin.findings.is_empty(), "{:?}", thin.findings);
    }
}

/// A size under 3/32, and 1100, in structure: cautioned, and in primary structure referred.
#[test]
fn what_is_not_for_structure_is_referred_in_primary_structure() {
    for (structure, severity) in [
        (None, Severity::Caution),
        (Some(Structure::Secondary), Severity::Caution),
        (Some(Structure::Primary), Severity::Refer),
    ] {
        for practice in [&HANDBOOK, &PROCESS] {
            for rivet in ["MS20470AD2", "MS20470A4"] {
                let found = in_sheets(rivet, ".020", structure, practice);
                let found = found.iter().find(|found| found.code() == Code::NotStructural).expect("a finding");
                assert_eq!(found.severity(), severity, "{rivet}");
            }
            assert!(!in_sheets("MS20470AD3", ".020", structure, practice).has(Code::NotStructural));
        }
    }
}
