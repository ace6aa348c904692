//! What the documents say, asked of the binary: each sentence once.

use crate::shophead;

/// On one line, however it was broken.
fn flat(typed: &str, status: i32) -> String {
    shophead(typed).printed(status).split_whitespace().collect::<Vec<_>>().join(" ")
}

const MEASURED: &str = "head --diameter 1/8 --measured-diameter .180 --measured-height .060";

#[test]
fn by_the_handbook_any_crack_rejects_and_what_the_other_handbook_takes_stands_beside_it() {
    let head = flat(&format!("{MEASURED} --cracks 1 --crack-reach .170"), 1);
    assert!(head.contains("head rejected") && head.contains("AC 43.13-1B, para 4-58"), "{head}");
    assert!(head.contains("FAA-H-8083-31B, p 4-92"), "{head}");
}

#[test]
fn the_process_has_a_circle_of_its_own_and_takes_no_crack_in_2024() {
    // 1.10 D of 1/8 is .1375.
    let process = format!("{MEASURED} --practice process --cracks 1 --crack-reach");
    assert!(flat(&format!("{process} .1376"), 0).contains("head accepted"));
    let inside = flat(&format!("{process} .1374"), 1);
    assert!(inside.contains("none accepted inside .1375") && inside.contains("MIL-R-47196A(MI), p 7"), "{inside}");
    let in_2024 = flat(&format!("{process} .1376 --alloy DD"), 1);
    assert!(in_2024.contains("Head cracked: 1, most 0"), "{in_2024}");
}

#[test]
fn a_driven_rivet_has_the_strength_of_how_it_was_driven_and_the_answer_names_it() {
    let joint = |rivet: &str, more: &str| {
        flat(&format!("joint --rivet {rivet} --sheets 2024-T3:.063,2024-T3:.063 --edge .4 {more}"), 0)
    };
    assert!(joint("MS20470B5", "").contains("rivet as driven 27.0 ksi"));
    let treated = "rivet as driven 34.0 ksi, T31, heat treated before driving; also T3 38.0 ksi: --driven";
    assert!(joint("MS20470D5", "").contains(treated));
    assert!(joint("MS20470D5", "--driven T31").contains(treated));
    assert!(joint("MS20470D5", "--driven T3").contains("rivet as driven 38.0 ksi, T3, driven hard, as received (HD)"));
}

#[test]
fn a_superseded_series_becomes_what_the_table_prints_and_no_other() {
    for (old, head) in [("AN425AD4-5", "78 degree countersunk"), ("AN441AD4-5", "flat")] {
        let run = shophead(&format!("part {old}"));
        assert!(run.stderr.contains(&format!("has a {head} head and no printed successor")), "{run}");
    }
    // A brazier head is protruding and becomes a protruding one.
    for brazier in ["AN455AD4-5", "AN456AD4-5"] {
        let part = flat(&format!("part {brazier}"), 0);
        assert!(part.contains("MS20470AD4-5") && part.contains("universal head"), "{part}");
    }
}

#[test]
fn rivets_of_2117_take_the_place_of_2017_and_2024_one_size_larger() {
    let at = |diameter: &str, installed: &str, status| {
        flat(&format!("length --layers .063,.063 --diameter {diameter} --installed {installed}"), status)
    };
    for installed in ["MS20470D5", "MS20470DD5"] {
        let same = at("5/32", installed, 1);
        assert!(same.contains("needs a larger diameter in place of the old one: 3/16, not 5/32"), "{same}");
        assert!(same.contains("AC 43.13-1B, para 4-57b"), "{same}");
        assert!(!at("3/16", installed, 0).contains("needs a larger diameter"));
    }
}

#[test]
fn soft_and_small_rivets_are_referred_in_primary_structure_and_said_elsewhere() {
    for (typed, said) in [
        (
            "--layers .040,.040 --diameter 1/8 --alloy A",
            "Not for structure. Take another rivet. AC 43.13-1B, para 7-2c",
        ),
        ("--layers .020,.020 --diameter 1/16", "Not for structure: 1/16, smallest 3/32."),
    ] {
        for (structure, mark, status) in [("primary", "REFER", 1), ("secondary", "CAUTION", 0)] {
            let found = flat(&format!("length {typed} --structure {structure}"), status);
            assert!(found.contains(&format!("{mark} {said}")), "{structure}: {found}");
        }
    }
}

#[test]
fn the_largest_shanks_above_a_quarter_are_marked_doubtful() {
    let shank = |diameter: &str| {
        let found = flat(&format!("length --layers .125,.125 --diameter {diameter}"), 0);
        found.contains("the largest shank is doubtful")
    };
    assert!(shank("5/16") && shank("3/8") && !shank("1/4") && !shank("3/16"));
}

#[test]
fn each_defect_has_its_own_remedy_and_the_two_checks_of_a_flush_head_are_apart() {
    let flush = |seen: &str, status| {
        flat(
            &format!("head --series MS20426 --diameter 1/8 --measured-diameter .180 --measured-height .060 {seen}"),
            status,
        )
    };
    // Flushness and table IV, which says how far a head may be shaved, each by themselves.
    assert!(flush("--proud .012", 1).contains("Flush head proud: .012, most .010. Shave it"));
    assert!(
        flush("--shaved .200", 1).contains("Flush head shaved too far: .200 across, least .204. Replace the rivet.")
    );
    let both = flush("--proud .012 --shaved .200", 1);
    assert!(both.contains("p 4, 3.3.6") && both.contains("p 12, table IV"), "{both}");
    // A tipped head by both its heights.
    assert!(flush("--tipped", 1).contains("its least and its greatest height decide. Measure both."));
    // A gap says where.
    assert!(flush("--gap", 1).contains("Gap under the head, not measured."));
    let driven = flush("--gap-feeler .004 --gap-rim 20", 1);
    assert!(driven.contains("Gap under the driven head: a feeler of .004 goes in, most .002."), "{driven}");
    assert!(flush("--sheets-apart", 1).contains("Sheets apart: a feeler of .002 reaches the shank."));
}

#[test]
fn holes_without_a_length_say_by_how_much_and_what_to_do() {
    let thick = flat("length --layers .5+-.002,.5+-.002 --diameter 3/32", 0);
    let said = "larger hole no length within limits, the longest is up to .0";
    assert!(thick.contains("hole up to .0986 MS20470AD3-19") && thick.contains(said), "{thick}");
    assert!(thick.contains("short; ask for the next larger rivet"), "{thick}");
}

#[test]
fn a_pack_that_is_dimpled_in_part_is_worked_out_too_and_says_so() {
    let at = |layers: &str| flat(&format!("length --series MS20426 --diameter 3/32 --layers {layers}"), 0);
    let (part, all, none) =
        (at(".025:dimpled,.063:countersunk"), at(".025:dimpled,.025:dimpled"), at(".063:countersunk,.025"));
    let said = "The tail of a dimpled pack is worked out, no document gives it. Try one on scrap first.";
    assert!(part.contains(said) && all.contains(said) && !none.contains(said), "{part}");
    // The far side stays flat, so that the hole is as long as in a countersunk pack of the same thickness.
    let good = |answer: &str| {
        answer.split("good lengths").nth(1).map(|rest| rest.split_whitespace().take(3).collect::<String>())
    };
    assert_eq!(good(&part), good(&none));
}

#[test]
fn a_row_of_the_plan_lists_each_other_length_with_the_head_it_makes() {
    let job = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin/job.toml");
    for typed in ["--row K1", "--full"] {
        let plan = flat(&format!("plan {job} {typed}"), 1);
        let also = plan.split("Also good: ").nth(1).expect("others");
        assert!(also.starts_with("7/16 (head .2") && also.contains(" wide, ."), "{also}");
    }
}
