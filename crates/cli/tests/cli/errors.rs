//! What is wrong is told in one sentence: where, and what would be right. Nothing is printed, the status is 2.

use crate::shophead;

#[test]
fn each_mistake_has_its_sentence() {
    let length = "length --diameter 1/8 --layers";
    let hole = "hole --rivet MS20470AD4 --major";
    let joint = "joint --rivet MS20470AD4 --sheets 2024-T3:.032,2024-T3:.032";
    for (typed, sentence) in [
        (
            format!("{length} .032,.0x0"),
            "--layers, item 2 \".0x0\": the units are in and mm (character 3); right would be .125, 1/8, 1-1/2 or 3.2mm",
        ),
        (
            format!("{length} .032,,.040"),
            "--layers, item 2 \"\": a length is missing (character 1); right would be .125, 1/8, 1-1/2 or 3.2mm",
        ),
        (
            format!("{length} 0,032"),
            "--layers, item 1 \"0\": a layer needs a thickness above zero; a decimal is written with a point, as in .032",
        ),
        (
            format!("{length} 2024-T3"),
            "--layers, item 1 \"2024-T3\": the thickness is missing (character 8); right would be 2024-T3:.032",
        ),
        (
            format!("{length} 9999-T3:.032"),
            "--layers, item 1 \"9999-T3:.032\": no such sheet alloy on file (character 1); on file are 2024, 5052, 6061, 7075, 2014, 2017, 4130; a shop enters another in its limits file, as material.NAME",
        ),
        (
            format!("{length} .032:shiny"),
            "--layers, item 1 \".032:shiny\": this cannot follow a thickness (character 6); right would be plain, \
             countersunk, dimpled, skin, doubler, cap, rib-flange, stringer, tab, shim or sealant",
        ),
        (
            "length --layers .032 --diameter .130".to_owned(),
            "--diameter \".130\": MS20470 does not come in this diameter; the nearest is 1/8, known are 1/16, 3/32, 1/8, 5/32, \
             3/16, 1/4, 5/16, 3/8",
        ),
        (
            format!("{length} .032 --alloy XY"),
            "--alloy \"XY\": MS20470 does not come in this alloy; right would be A (1100), AD (2117), B (5056), E (7050), D (2017) \
             or DD (2024)",
        ),
        (
            format!("{length} .032 --series MS99999"),
            "--series \"MS99999\": this is not a series known here; right would be MS20470, MS20426, NAS1097, NAS1241, NAS1242, \
             NAS9313, MS20427, MS20615, MS20613 or NAS1198",
        ),
        (format!("{length} .032 --hole #99"), "--hole \"#99\": no such number drill; they go from #80 to #1"),
        (
            format!("{length} .032 --tolerance -.002"),
            "--tolerance \"-.002\": a tolerance is less than 0: give it without a sign, as .002 or +.003-.001",
        ),
        (
            format!("{hole} .130 --minor .140"),
            "--minor \".140\": the minor axis is longer than the major one; enter the longer one as major",
        ),
        (format!("{hole} 0"), "--major \"0\": a hole needs a diameter above zero; right would be #30, F or .1285"),
        (
            format!("{hole} .130 --damage bent"),
            "--damage \"bent\": no such damage; right would be sound, cracked, corroded, figure-eight, gouged or \
             deep-countersink",
        ),
        (
            format!("{hole} .130 --member wing"),
            "--member \"wing\": no such member; right would be skin, spar-cap, longeron, stringer, frame, rib or other",
        ),
        (format!("{hole} .130 --edge 0"), "--edge \"0\": this must be above zero; right would be .125, 1/8 or 3.2mm"),
        (
            "hole --rivet MS20470AD7 --major .130".to_owned(),
            "--rivet \"MS20470AD7\": this is not a diameter known for MS20470 (character 10); right would be MS20470AD6 or MS20470AD8",
        ),
        (
            format!("{joint} --load 250kg"),
            "--load \"250kg\": the units of force are lbf and N; right would be 250lbf or 1100N",
        ),
        (format!("{joint} --load 0"), "--load \"0\": a load must be above zero; right would be 250 or 1100N"),
        (format!("{joint} --load 9 --safety-factor .5"), "a factor must be 1 or more; right would be 1.5"),
        (format!("{joint} --load 9 --safety-factor NaN"), "a factor must be 1 or more; right would be 1.5"),
        (format!("{joint} --shear double"), "double shear takes three sheets, the middle one second"),
        (format!("{joint} --pitch .1"), "the pitch must be greater than the hole; right would be .5"),
        ("joint --rivet MS20470AD4 --sheets 2024-T3:.032".to_owned(), "a joint needs at least two sheets"),
        (
            "splice --sheet .040 --width 10 --rivet AD4".to_owned(),
            "--sheet \".040\": the material is missing; right would be clad 2024-T3:.040",
        ),
        (
            "splice --sheet 2024-T3:.040 --width 10 --rivet AD7".to_owned(),
            "--rivet \"AD7\": this is not a diameter known for MS20470 (character 3); right would be MS20470AD6 or MS20470AD8",
        ),
        (
            "part 4-5".to_owned(),
            "part \"4-5\": the series is missing, so head and alloy are unknown; digits alone such as 4-5 may mean diameter 4 and \
             length 5, or a length of 4 1/2 (character 1); right would be a full number such as MS20470AD4-5",
        ),
    ] {
        let run = shophead(&typed);
        assert_eq!(run.refused(), format!("error: {sentence}\n"), "{run}");
    }
}

#[test]
fn a_wrong_command_line_is_told_by_its_option() {
    for (typed, told) in [
        ("length --layers .032", "--diameter <D>"),
        ("length --layers .032 --diameter 1/8 --colour red", "unexpected argument '--colour'"),
        ("rivet", "unrecognized subcommand 'rivet'"),
        ("sources --status read", "invalid value 'read' for '--status <STATUS>'"),
        ("head --diameter 1/8 --measured-diameter .18", "--measured-height <Y>"),
        ("head --diameter 1/8 --loose", "--measured-diameter <X>"),
        ("hole --rivet MS20470AD4 --major .130 --rows 0", "invalid value '0' for '--rows <N>'"),
        ("joint --rivet MS20470AD4 --sheets .1,.1 --load 9 --limit-load --ultimate-load", "cannot be used with"),
        ("", "Usage: shophead"),
    ] {
        let run = shophead(typed);
        assert!(run.refused().contains(told), "{run}");
    }
}

#[test]
fn the_good_parts_are_printed_beside_the_bad_ones() {
    let run = shophead("part MS20470AD4-5 nonsense AD4 --format json");
    assert_eq!(run.status, Some(2), "{run}");
    let lines: Vec<&str> = run.stderr.lines().collect();
    assert!(matches!(lines.as_slice(), [one, two] if one.contains("\"nonsense\"") && two.contains("\"AD4\"")), "{run}");
    let value: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(value["result"]["parts"][0]["part"], "MS20470AD4-5");
    assert_eq!(shophead("part nonsense").refused().lines().count(), 1);
}
