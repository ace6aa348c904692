//! Holes: the limits that are published, the steps, what a step must keep, how many steps a pattern takes.

use shophead::basis::Status;
use shophead::drill::{Drill, parse_hole};
use shophead::finding::{Code, Severity};
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::{HoleAnswer, Installation, Step};
use shophead::length::{Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::pattern::check_pattern;
use shophead::practice::{BUILT_IN, Case, HANDBOOK, Name, PROCESS, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{Head, MS20426, MS20470, NAS1242, NEXT_SIZE};
use shophead::stack::{Layer, Preparation, Stack};
use shophead::structure::Member;
use shophead_tests::{Comparison, Misfit, Row, fixture};

fn length(text: &str) -> Length {
    Length::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn by(length: Length, nanometres: i64) -> Length {
    Length::from_nanometres(length.nanometres() + nanometres).expect("in range")
}

fn by_id(rows: &[Row], id: &str) -> Row {
    let column = |row: &Row| if row.has("id") { row.text("id").to_owned() } else { row.text("rule_id").to_owned() };
    rows.iter().find(|row| column(row) == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

fn stack(layers: &[(&str, Preparation)]) -> Stack {
    let mut stack = Stack::new();
    for (thickness, preparation) in layers {
        let material = Some(Material::parse("clad 2024-T3").expect("a material"));
        let thickness = Toleranced::parse(thickness).expect("a thickness");
        stack.push(Layer { material, preparation: *preparation, ..Layer::of(thickness) }).expect("room");
    }
    stack
}

fn two_sheets() -> Stack {
    stack(&[(".040", Preparation::Plain), (".050", Preparation::Plain)])
}

fn question<'q, 'a>(rivet: &str, stack: &'q Stack, practice: &'a Practice<'a>) -> Installation<'q, 'a> {
    Installation::new(Part::parse(rivet).expect(rivet), stack)
        .edge(length("1/2"))
        .pitch(length("3/4"))
        .member(Member::Skin)
        .by(practice)
}

fn climb<'a>(question: &Installation<'_, 'a>, found: AsFound) -> (HoleAnswer<'a>, Vec<Step<'a>>) {
    let mut steps = Vec::new();
    let answer = question.hole_step_by_step(found, &mut |step| steps.push(step.clone()));
    (answer, steps)
}

fn round(diameter: Length) -> AsFound {
    AsFound::new(diameter, diameter, Damage::None).expect("a hole")
}

/// Table I, 3/32 row: the only hole limits that could be read.
#[test]
fn a_three_thirty_second_hole_is_kept_from_093_to_103() {
    let rows = fixture("hole-limits");
    let row = by_id(&rows, "HL-01");
    assert!(row.is_read());
    let (least, greatest) = (length(row.text("hole_min_in")), length(row.text("hole_max_in")));
    let again = by_id(&fixture("rivet-hole-drills"), "RD-06");
    assert_eq!((length(again.text("hole_min_in")), length(again.text("hole_max_in"))), (least, greatest));
    let stack = stack(&[(".032", Preparation::Plain), (".032", Preparation::Plain)]);
    let question = question("MS20470AD3", &stack, &PROCESS);
    let verdict = |diameter| question.hole(round(diameter)).disposition;
    assert_eq!(verdict(least), Disposition::Keep);
    assert_eq!(verdict(greatest), Disposition::Keep);
    assert_eq!(verdict(by(least, -1)), Disposition::CleanUp);
    assert!(verdict(by(greatest, 1)) > Disposition::CleanUp);
    let (_, steps) = climb(&question, round(by(greatest, 1)));
    let keep = steps.first().expect("tried");
    assert!(keep.findings.iter().any(|found| found.code() == Code::HoleOverLimit
        && found.basis().citation().expect("built in").document == "MIL-R-47196A"
        && found.basis().status() == Status::Published));
}

/// Reading the limit and the shank together: the largest shank does not enter the smallest hole.
#[test]
fn the_smallest_hole_does_not_take_the_largest_shank() {
    let size = MS20470.size(3).expect("a size");
    let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
    let least = PROCESS.length(Name::HoleLeast, &case).expect("a limit").value;
    assert!(case.shank_max.is_some_and(|shank| shank > least));
    let rivet = Part::new(&MS20470, "AD", size).expect("a part");
    let question = Installation::through(rivet, Toleranced::exactly(length(".064"))).by(&PROCESS);
    let answer = question.in_hole(Toleranced::exactly(least)).length().expect("sizes");
    assert!(answer.findings.has(Code::ShankMayNotEnter));
}

/// RL-01 and RL-02.
#[test]
fn the_next_size_is_one_step_of_the_specification() {
    let rows = fixture("repair-limits");
    let step = |id| length(by_id(&rows, id).text("value"));
    assert_eq!(by_id(&rows, "RL-01").text("condition"), "sizes up to 1/4");
    assert_eq!((NEXT_SIZE.fine, NEXT_SIZE.coarse, NEXT_SIZE.fine_up_to), (step("RL-01"), step("RL-02"), length("1/4")));
    // What the series really has: it leaves out 7/32 and goes from 1/4 on in sixteenths.
    let steps =
        [("1/16", "3/32"), ("3/32", "1/8"), ("1/8", "5/32"), ("5/32", "3/16"), ("3/16", "1/4"), ("1/4", "5/16")];
    for (at, next) in steps.into_iter().chain([("5/16", "3/8")]) {
        let size = MS20470.size_for_diameter(length(at)).expect("a size");
        assert_eq!(MS20470.next_size(size).map(|size| size.shank_nominal), Some(length(next)), "{at}");
    }
    assert_eq!(MS20470.next_size(MS20470.size(12).expect("a size")), None);
}

/// RL-05 and RL-06: the lesser of 20 % and 10, and no more than two neighbours; every pattern up to 120 rivets.
#[test]
fn a_pattern_takes_twenty_percent_or_ten() {
    let rows = fixture("repair-limits");
    assert_eq!(by_id(&rows, "RL-05").text("value"), "20 % of the rivets or 10, whichever is less");
    assert_eq!((by_id(&rows, "RL-06").text("limit"), by_id(&rows, "RL-06").text("value")), ("more than", "2"));
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
    for practice in BUILT_IN {
        for total in 1..=120_u32 {
            // In whole rivets: five times the steps must not be more than the rivets.
            let allowed =
                (0..=total).filter(|steps| steps * 5 <= total && *steps <= 10).max().expect("none is allowed");
            let too_many = |steps: u32| {
                // Apart, so that no two are neighbours.
                let apart = (0..steps).map(|number| 2 * number + 1);
                check_pattern(apart, total, practice, &case).has(Code::TooManySteps)
            };
            assert!(!too_many(allowed) && too_many(allowed + 1), "{total} rivets");
        }
        for (stepped, refused) in
            [(&[5, 6][..], false), (&[5, 6, 7], true), (&[5, 6, 8, 9], false), (&[5, 7, 8, 9], true)]
        {
            let found = check_pattern(stepped.iter().copied(), 100, practice, &case);
            assert_eq!(found.has(Code::NeighboursStepped), refused, "{stepped:?}");
        }
    }
}

/// RL-03 and RL-10: a step up keeps edge distance and pitch of the larger rivet, counted from where the centre has moved to.
#[test]
fn a_step_up_keeps_the_minima_of_the_larger_rivet() {
    let rows = fixture("repair-limits");
    assert!(by_id(&rows, "RL-10").text("condition").contains("edge distance and spacing minima kept"));
    let stack = two_sheets();
    // Over the oversize shank's hole, so the next diameter, 5/32: 2 D edge, 3 D pitch. Elongated by .010, so moved by .005.
    let found = AsFound::new(length(".150"), length(".140"), Damage::None).expect("a hole");
    let (edge, pitch) = (length(".3175"), length(".47375"));
    let at = |edge, pitch| climb(&question("MS20470AD4", &stack, &HANDBOOK).edge(edge).pitch(pitch), found);
    assert_eq!(at(edge, pitch).0.disposition, Disposition::NextSize);
    for (edge, pitch, code) in [(by(edge, -1), pitch, Code::EdgeDistanceShort), (edge, by(pitch, -1), Code::PitchShort)]
    {
        let (answer, steps) = at(edge, pitch);
        assert_eq!(answer.disposition, Disposition::Refer);
        let next = steps.last().expect("tried");
        assert!(
            next.findings.iter().any(|found| found.code() == code && found.severity() == Severity::Refer),
            "{code}"
        );
    }
}

/// HOLE-03 and HOLE-04 of the circular.
#[test]
fn cracks_stop_the_work_and_spar_caps_need_approval() {
    let rows = fixture("ac43-rules");
    assert!(by_id(&rows, "HOLE-04").text("value").contains("no cracks"));
    assert!(by_id(&rows, "HOLE-03").text("condition").contains("spar caps"));
    let stack = two_sheets();
    let cracked = AsFound::new(length(".1285"), length(".1285"), Damage::Cracked).expect("a hole");
    let over = round(length(".140"));
    for practice in BUILT_IN {
        let question = question("MS20470AD4", &stack, practice);
        let answer = question.hole(cracked);
        assert_eq!(answer.disposition, Disposition::Refer);
        assert!(answer.findings.has(Code::HoleCracked));
        for member in [Member::SparCap, Member::Stringer, Member::Longeron] {
            let (answer, steps) = climb(&question.member(member), over);
            assert_eq!(answer.disposition, Disposition::Refer, "{member:?}");
            assert!(steps.iter().any(|step| step.findings.has(Code::StepNeedsApproval)));
        }
        assert!(question.hole(over).disposition < Disposition::Refer);
    }
}

/// The drills that were read are those of a 1940s manual, which calls them minimum clearance. Two agree with the practices and with
/// X-12; the others are a size smaller.
#[test]
fn the_read_drills_agree_for_the_two_common_sizes() {
    let mut cells = Comparison::with_misfits(&[
        Misfit { cell: "1/16", reason: "#52, a drill smaller than #51" },
        Misfit { cell: "5/32", reason: "#22, a drill smaller than #21" },
        Misfit { cell: "3/16", reason: "#12, a drill smaller than #11" },
    ]);
    for row in fixture("rivet-hole-drills").iter().filter(|row| row.is_read() && !row.text("final_drill").is_empty()) {
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, length(row.text("rivet_dia")));
        let drill = parse_hole(row.text("final_drill")).expect("a drill");
        assert_eq!(drill, length(row.text("final_drill_in")), "{}", row.place());
        cells.equal(
            row.text("rivet_dia"),
            Some(drill),
            PROCESS.length(Name::HoleDrill, &case).map(|drill| drill.value),
        );
    }
    cells.finish(5);
    assert_eq!(by_id(&fixture("ac43-rules"), "X-12").text("value"), "0.096 (No. 41), 0.1285 (No. 30)");
}

/// These rows are computed from recalled shanks: they prove nothing but that the product follows the rule that they state.
#[test]
fn the_drill_of_an_oversize_shank_is_the_smallest_that_clears_it() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("hole-limits").iter().filter(|row| row.text("status") == "computed") {
        let oversize = row.text("document").contains("oversize");
        let series = if oversize { &NAS1242 } else { &MS20470 };
        let standard = row.text("rivet_dia").split(" + ").next().expect("a diameter");
        let size = series.sizes.iter().find(|size| size.standard_diameter() == length(standard)).expect("a size");
        let name = row.text("rivet_dia");
        let largest = size.shank.expect("limits").max();
        let clears = Drill::all().filter(|drill| !drill.to_string().contains('/') && drill.diameter() >= largest);
        let smallest = clears.min_by_key(|drill| drill.diameter()).expect("a drill");
        cells.equal(&format!("{name} rule"), length(row.text("drill_in")), smallest.diameter());
        if oversize {
            // What the ladder drills: from a round hole that is too large for the standard shank.
            let stack = two_sheets();
            let part = format!("MS20470AD{}", size.dash);
            let question = question(&part, &stack, &HANDBOOK);
            let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
            let drill = HANDBOOK.length(Name::HoleDrill, &case).expect("a rule");
            cells.equal(&format!("{name} limit"), largest, drill.value);
            cells.equal(&format!("{name} status"), Status::Memory, drill.basis.status());
            let (_, steps) = climb(&question, round(by(length(row.text("drill_in")), -1)));
            let step = steps.iter().find(|step| step.kind == Disposition::Oversize).expect("tried");
            cells.equal(&format!("{name} cut"), Some(length(row.text("drill_in"))), step.cut.map(Drill::diameter));
        }
    }
    cells.finish(13 + 5 * 3);
}

/// CD-01 to CD-03: a countersink needs a sheet thicker than the head, the strength handbook marks .032 under a 3/32 head as a knife
/// edge, and dimpling suits sheets up to .040.
#[test]
fn the_sheet_decides_between_countersink_and_dimple() {
    let rows = fixture("countersink-dimple");
    let knife = by_id(&rows, "CD-03");
    let size = MS20426.size(3).expect("a size");
    let height = size.head_height_nominal().expect("a height");
    let rivet = Part::new(&MS20426, "AD", size).expect("a part");
    let seat = |sheet: Length, preparation, practice| {
        let mut stack = Stack::new();
        stack.push(Layer { preparation, ..Layer::of(Toleranced::exactly(sheet)) }).expect("room");
        let found = Installation::new(rivet, &stack).by(practice).findings();
        let about_seat = |code| matches!(code, Code::CountersinkTooDeep | Code::DimpleTooThick);
        found.iter().filter(|finding| about_seat(finding.code())).map(|finding| finding.severity()).max()
    };
    assert!(length(knife.text("value")) < height, "a knife edge is a head that goes right through");
    for practice in [&HANDBOOK, &PROCESS] {
        let sunk = |sheet| seat(sheet, Preparation::Countersunk, practice);
        assert_eq!(sunk(length(knife.text("value"))), Some(Severity::Refer));
        assert_eq!(sunk(by(height, -1)), Some(Severity::Refer));
        assert_eq!(sunk(height), Some(Severity::Caution), "less than a third of the sheet is left as a land");
        // CD-09: two thirds.
        let two_thirds = Length::from_nanometres(height.nanometres() * 3 / 2).expect("in range");
        assert_eq!((sunk(by(two_thirds, -1)), sunk(two_thirds)), (Some(Severity::Caution), None));
        let pressed = |sheet| seat(sheet, Preparation::Dimpled, practice);
        let thickest = length(by_id(&rows, "CD-02").text("value"));
        assert_eq!((pressed(thickest), pressed(by(thickest, 1))), (None, Some(Severity::Caution)));
    }
}
