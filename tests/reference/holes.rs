//! Holes: the limits that are published, the steps, what a step must keep, how many steps a pattern takes.

use shophead::basis::Status;
use shophead::drill::{Drill, parse_hole};
use shophead::finding::{Code, Severity};
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::{HoleAnswer, Installation, Step};
use shophead::length::{Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::pattern::PatternLimits;
use shophead::practice::{BUILT_IN, Case, HANDBOOK, Name, PROCESS, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{Head, MS20426, MS20470, NAS1242};
use shophead::stack::{Layer, Preparation, Stack};
use shophead::structure::Member;
use shophead_tests::prelude::{length, of_pattern};
use shophead_tests::{Comparison, Misfit, Row, fixture};

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
        stack.push(Layer::of(thickness).material(material).preparation(*preparation)).expect("room");
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

/// Table I, every size of the series, in both practices: at its ends a hole is kept, a nanometre beyond them it is not. Its cells are compared
/// in `process_spec`.
#[test]
fn a_hole_is_kept_within_table_i_and_not_beyond_it() {
    let stack = stack(&[(".063", Preparation::Plain), (".063", Preparation::Plain)]);
    for practice in BUILT_IN {
        for size in MS20470.sizes.iter().filter(|size| (3..=8).contains(&size.dash)) {
            let question = question(&format!("MS20470AD{}", size.dash), &stack, practice);
            let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
            let limit = |name| practice.length(name, &case).expect("a limit").value;
            let (least, greatest) = (limit(Name::HoleLeast), limit(Name::HoleGreatest));
            let keep = |diameter| climb(&question, round(diameter)).1.first().expect("tried").findings.clone();
            for diameter in [least, greatest] {
                assert!(!keep(diameter).has(Code::HoleOverLimit) && !keep(diameter).has(Code::HoleUnderLimit));
            }
            assert!(keep(by(least, -1)).has(Code::HoleUnderLimit), "-{}", size.dash);
            let over = keep(by(greatest, 1));
            assert!(over.iter().any(|found| found.code() == Code::HoleOverLimit
                && practice.cite(found.basis()).document == "MIL-R-47196A(MI)"
                && found.basis().status() == Status::Published));
        }
    }
}

/// The aim is the drill, table I only judges: a hole that the drill does not make, and table I accepts, is kept with a caution that names it.
#[test]
fn what_a_drill_leaves_is_less_than_what_is_accepted() {
    for practice in BUILT_IN {
        for size in MS20470.sizes {
            let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
            let limit = |name| practice.length(name, &case).expect("a limit").value;
            let (drill, greatest) = (limit(Name::HoleDrill), limit(Name::HoleGreatest));
            assert!(drill < greatest, "-{}", size.dash);
            let drilled = practice.hole_for(&case).expect("a hole").value;
            let shank = case.shank_max.expect("a shank");
            assert_eq!((drilled.min(), drilled.max()), (drill, by(shank, 101_600).max(drill)), "-{}", size.dash);
            assert!(drilled.max() <= greatest, "-{}", size.dash);
            // The largest shanks above a quarter inch are doubtful: at 3/8 the drill would not let them pass.
            assert_eq!(practice.cite(size.basis).place.contains("doubtful"), size.dash > 8, "-{}", size.dash);
            assert_eq!(shank <= drill, size.dash != 12, "-{}", size.dash);
            let promised = practice.promised_hole(&case).expect("a hole").value;
            assert_eq!(
                (promised.min(), promised.max()),
                (limit(Name::HoleLeast).max(shank), greatest),
                "-{}",
                size.dash
            );
        }
    }
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

/// RL-01: the next diameter of the standard, not over 1/32 in up to 1/4 and 1/16 above. From 3/16 the series goes to 1/4, which is over it.
#[test]
fn the_next_size_is_one_step_of_the_specification_or_needs_approval() {
    let steps =
        [("1/16", "3/32"), ("3/32", "1/8"), ("1/8", "5/32"), ("5/32", "3/16"), ("3/16", "1/4"), ("1/4", "5/16")];
    let stack = two_sheets();
    for (at, next) in steps.into_iter().chain([("5/16", "3/8")]) {
        let size = MS20470.size_for_diameter(length(at)).expect("a size");
        assert_eq!(MS20470.next_size(size).map(|size| size.shank_nominal), Some(length(next)), "{at}");
        let part = format!("MS20470AD{}", size.dash);
        for practice in BUILT_IN {
            let step = question(&part, &stack, practice).next_size(round(size.shank_nominal));
            let refused = step.findings.iter().find(|found| found.code() == Code::StepTooLarge);
            let over = at == "3/16" && practice.name() == "process";
            assert_eq!(refused.map(|found| found.severity()), over.then_some(Severity::Refer), "{at}");
        }
    }
    assert_eq!(MS20470.next_size(MS20470.size(12).expect("a size")), None);
}

/// 3.4.3: the lesser of 20 % and 10, and no more than two neighbours; every pattern up to 120 rivets.
#[test]
fn a_pattern_takes_twenty_percent_or_ten() {
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
    for practice in BUILT_IN {
        for total in 1..=120_u32 {
            // In whole rivets: five times the steps must not be more than the rivets.
            let allowed =
                (0..=total).filter(|steps| steps * 5 <= total && *steps <= 10).max().expect("none is allowed");
            let too_many = |steps: u32| {
                // Apart, so that no two are neighbours.
                let apart = (0..steps).map(|number| 2 * number + 1);
                of_pattern(apart, total, practice, &case).has(Code::TooManySteps)
            };
            assert!(!too_many(allowed) && too_many(allowed + 1), "{total} rivets");
        }
        for (stepped, refused) in
            [(&[5, 6][..], false), (&[5, 6, 7], true), (&[5, 6, 8, 9], false), (&[5, 7, 8, 9], true)]
        {
            let found = of_pattern(stepped.iter().copied(), 100, practice, &case);
            assert_eq!(found.has(Code::NeighboursStepped), refused, "{stepped:?}");
        }
    }
}

/// 3.4.3: not more than half of the rivets in any ten inches, for every pitch in sixteenths up to five inches: counted window by window.
#[test]
fn no_more_than_half_are_stepped_up_in_any_ten_inches() {
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
    let limits = PatternLimits::of(1_000, &PROCESS, [case]);
    let rivets = 60_u32;
    let mut refused = 0;
    for sixteenths in 6..=80_i16 {
        let pitch = Length::from_64ths(4 * sixteenths);
        // A rivet at every place of a window that begins at a hole, or between two: in sixteenths.
        let in_window = |from: i32, number: u32| {
            let at = i32::try_from(number).expect("a place") * 2 * i32::from(sixteenths);
            (from..=from + 320).contains(&at)
        };
        for (stepped, name) in [
            ((1..=rivets).filter(|number| number % 2 == 1).collect::<Vec<u32>>(), "every other"),
            ((1..=rivets).filter(|number| number % 3 != 0).collect(), "two of three"),
            ((1..=rivets).filter(|number| number % 5 == 1 || number % 5 == 2).collect(), "two of five"),
            (vec![1, 2, 4, 5], "four of the first five"),
        ] {
            // In halves of a sixteenth, so that a window may begin between two holes.
            let last = i32::try_from(rivets).expect("a place") * 2 * i32::from(sixteenths);
            let first = 2 * i32::from(sixteenths);
            let crowded = (first..=last - 320).any(|from| {
                let all = (1..=rivets).filter(|number| in_window(from, *number)).count();
                let some = stepped.iter().filter(|number| in_window(from, **number)).count();
                some > 1 && 2 * some > all
            });
            let found = limits.check_stretch(&stepped, pitch, rivets).expect("a pitch above zero");
            assert_eq!(found.is_some(), crowded, "{name} at {sixteenths}/16");
            refused += usize::from(crowded);
        }
    }
    assert!(refused > 50, "{refused}");
}

/// 4-57b of the circular: a step up keeps edge distance and pitch of the larger rivet, counted from where the centre has moved to.
#[test]
fn a_step_up_keeps_the_minima_of_the_larger_rivet() {
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
    let said = |id: &str| (by_id(&rows, id).text("value").to_owned(), by_id(&rows, id).text("condition").to_owned());
    assert_eq!(said("HOLE-04"), ("round, straight, no cracks".to_owned(), String::new()));
    let members =
        "spar caps, wing/fuselage/fin stringers, highly stressed tension members; factory or FAA approval needed";
    assert_eq!(said("HOLE-03"), ("avoid".to_owned(), members.to_owned()));
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

/// A 1940s manual prints drills too. Its #30 is the aim; its others are one or two drills smaller, and every one lies within table I.
#[test]
fn the_older_drills_lie_within_table_i() {
    let mut cells = Comparison::with_misfits(&[
        Misfit { cell: "1/16", reason: "#52, a drill smaller than #51" },
        Misfit { cell: "3/32", reason: "#41, a drill smaller than #40" },
        Misfit { cell: "5/32", reason: "#22, a drill smaller than #21" },
        Misfit { cell: "3/16", reason: "#12, a drill smaller than #11" },
    ]);
    for row in fixture("rivet-hole-drills") {
        assert!(row.is_read(), "{}", row.place());
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, length(row.text("rivet_dia")));
        let drill = parse_hole(row.text("final_drill")).expect("a drill");
        assert_eq!(drill, length(row.text("final_drill_in")), "{}", row.place());
        let limit = |name| PROCESS.length(name, &case).expect("a limit").value;
        cells.equal(row.text("rivet_dia"), drill, limit(Name::HoleDrill));
        assert!(limit(Name::HoleLeast) <= drill && drill <= limit(Name::HoleGreatest), "{}", row.place());
    }
    cells.finish(5);
}

/// These rows are computed from recalled shanks: they prove nothing but that the product follows the rule that they state.
#[test]
fn the_drill_of_an_oversize_shank_is_the_smallest_that_clears_it() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("hole-limits") {
        let standard = row.text("rivet_dia").split(" + ").next().expect("a diameter");
        assert_eq!(parse_hole(row.text("drill")), Ok(length(row.text("drill_in"))), "{}", row.place());
        let size = NAS1242.sizes.iter().find(|size| size.standard_diameter() == length(standard)).expect("a size");
        let name = row.text("rivet_dia");
        let largest = size.shank.expect("limits").max();
        let clears = Drill::all().filter(|drill| !drill.to_string().contains('/') && drill.diameter() >= largest);
        let smallest = clears.min_by_key(|drill| drill.diameter()).expect("a drill");
        cells.equal(&format!("{name} rule"), length(row.text("drill_in")), smallest.diameter());
        // What the ladder drills: from a round hole that is too large for the standard shank.
        let stack = two_sheets();
        let question = question(&format!("MS20470AD{}", size.dash), &stack, &HANDBOOK);
        let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
        let drill = HANDBOOK.length(Name::HoleDrill, &case).expect("a rule");
        cells.equal(&format!("{name} limit"), largest, drill.value);
        cells.equal(&format!("{name} status"), Status::Memory, drill.basis.status());
        // Scored up to what the drill still takes out.
        let over = HANDBOOK.length(Name::CleanUpLeast, &case).expect("a rule").value;
        let scored = drill.value.checked_sub(over).expect("a length");
        let found = AsFound::new(scored, by(scored, -1), Damage::Gouged).expect("a hole");
        let (_, steps) = climb(&question, found);
        let step = steps.iter().find(|step| step.kind == Disposition::Oversize);
        if let Some(step) = step {
            cells.equal(&format!("{name} cut"), Some(length(row.text("drill_in"))), step.cut.map(Drill::diameter));
        }
    }
    cells.finish(5 * 3 + 4);
}

/// CD-01 to CD-03: a countersink needs a sheet thicker than the head, the strength handbook marks .032 under a 3/32 head as a knife
/// edge, and dimpling suits sheets up to .040.
#[test]
fn the_sheet_decides_between_countersink_and_dimple() {
    let rows = fixture("practice-limits");
    let says = |id: &str| length(by_id(&rows, id).text("says"));
    let knife = says("CD-03");
    let size = MS20426.size(3).expect("a size");
    let height = size.head_height_nominal().expect("a height");
    let rivet = Part::new(&MS20426, "AD", size).expect("a part");
    let seat = |sheet: Length, preparation, practice| {
        let mut stack = Stack::new();
        stack.push(Layer::of(Toleranced::exactly(sheet)).preparation(preparation)).expect("room");
        let found = Installation::new(rivet, &stack).by(practice).findings();
        let about_seat = |code| matches!(code, Code::CountersinkTooDeep | Code::DimpleTooThick);
        found.iter().filter(|finding| about_seat(finding.code())).map(|finding| finding.severity()).max()
    };
    assert!(knife < height, "a knife edge is a head that goes right through");
    for practice in [&HANDBOOK, &PROCESS] {
        let sunk = |sheet| seat(sheet, Preparation::Countersunk, practice);
        assert_eq!(sunk(knife), Some(Severity::Refer));
        assert_eq!(sunk(by(height, -1)), Some(Severity::Refer));
        assert_eq!(sunk(height), Some(Severity::Caution), "less than a third of the sheet is left as a land");
        // CD-09: two thirds.
        let two_thirds = Length::from_nanometres(height.nanometres() * 3 / 2).expect("in range");
        assert_eq!((sunk(by(two_thirds, -1)), sunk(two_thirds)), (Some(Severity::Caution), None));
        let pressed = |sheet| seat(sheet, Preparation::Dimpled, practice);
        let thickest = says("CD-02");
        assert_eq!((pressed(thickest), pressed(by(thickest, 1))), (None, Some(Severity::Caution)));
    }
}
