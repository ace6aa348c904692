//! Questions that were once answered wrongly, or differently from place to place: each command as a shop types it, each a test of its own.

use serde_json::Value;

use crate::depth::{codes, with_files};
use crate::{Run, shophead, shophead_with};

/// On one line, however it was broken.
fn flat(run: &Run) -> String {
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a command refers, by code.
#[track_caller]
fn referred(typed: &str) -> Vec<String> {
    let run = shophead(&format!("{typed} --format json"));
    let value: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{error}\n{run}"));
    let refers = |finding: &&Value| finding["severity"] == "refer";
    let found = value["findings"].as_array().expect("findings").iter().filter(refers);
    let found: Vec<String> = found.map(|finding| finding["code"].as_str().expect("a code").to_owned()).collect();
    assert_eq!(run.status, Some(i32::from(!found.is_empty())), "{run}");
    found
}

/// A session that ends with its input.
fn session(keys: &str) -> String {
    let run = shophead_with("handheld --columns 40 --lines 8", |run| run.write_stdin(keys));
    run.printed(0).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_flush_rivet_in_plain_sheets_is_referred_by_every_command_alike() {
    let seat = "flush-head-without-seat".to_owned();
    for typed in [
        "length --series MS20426 --layers .020,.125 --diameter 5/32",
        "hole --rivet MS20426AD5 --major .163 --layers 2024-T3:.020,2024-T3:.125",
        "hole --rivet MS20426AD4 --major .140 --minor .130 --layers 2024-T3:.025,2024-T3:.040 --edge 1/2 --pitch 1",
        "hole --rivet MS20426AD3 --major .099 --minor .098 --layers 2024-T3:.025,2024-T3:.040 --edge 1/2 --pitch 1",
        "joint --rivet MS20426AD5 --sheets 2024-T3:.020,2024-T3:.125",
        "length --series MS20426 --alloy AD --diameter 1/8 --layers .020,.040",
    ] {
        assert!(referred(typed).contains(&seat), "{typed}: {:?}", referred(typed));
    }
    // A splice countersinks its outer sheet, and says what that leaves.
    let splice = "splice --sheet 2024-T3:.032 --rivet MS20426AD4 --width 5";
    assert!(referred(splice).contains(&"countersink-too-deep".to_owned()));
    let told = session("1\nMS20426AD5\n.020\n\n.125\n\n\n\nR\nQ\n");
    assert!(told.contains("STOP: flush head: no layer is csk"), "{told}");
}

#[test]
fn a_sheet_too_thin_to_countersink_is_referred_in_the_session_too() {
    let typed = "length --series MS20426 --layers .020:countersunk,.125 --diameter 5/32";
    assert!(referred(typed).contains(&"countersink-too-deep".to_owned()));
    let told = session("1\nMS20426AD5\n.020\n2\n.125\n1\n\n\n.\nQ\n");
    assert!(told.contains("STOP: layer 1 too thin to csk, needs .055"), "{told}");
}

/// The thinnest sheet of its tolerance counts: .056+-.004 is as thin as .052.
#[test]
fn a_countersink_is_judged_in_the_thinnest_sheet_of_its_tolerance() {
    for sheet in [".056+-.004", ".052"] {
        let typed = format!("hole --rivet MS20426AD5 --major .163 --layers {sheet}:countersunk,.125");
        assert!(referred(&typed).contains(&"countersink-too-deep".to_owned()), "{sheet}");
        let told = flat(&shophead(&typed));
        assert!(told.contains("Layer 1, .052: too thin for this countersink, needs .055."), "{told}");
    }
}

#[test]
fn a_shank_that_is_not_on_file_is_named_by_every_command_alike() {
    let key = "series.MS20615.shank.4";
    for typed in
        ["length --series MS20615 --alloy M --layers .063,.063 --diameter 1/8", "hole --rivet MS20615-4M --major .130"]
    {
        assert!(referred(typed).contains(&"no-limit".to_owned()), "{typed}");
        assert!(flat(&shophead(typed)).contains(key), "{typed}");
    }
    let job = "title = \"t\"\n[[row]]\nname = \"R\"\nstructure = \"secondary\"\nmember = \"frame\"\ninstalled = \"MS20615-4M4\"\nrivet = \"MS20615-4M\"\n\
               layers = [{ role = \"skin\", thickness = \".063\" }, { role = \"tab\", thickness = \".063\" }]\ncount = 4\n\
               edge = \".5\"\npitch = \"1\"\n";
    let plan = with_files(&[("job.toml", job)], "plan job.toml --only stops");
    assert!(plan.status == Some(1) && flat(&plan).contains(key), "{plan}");
    let told = session("1\nMS20615-4M\n.063\n.063\n\n.130\n.\nQ\n");
    assert!(told.contains("STOP: not on file"), "{told}");
}

/// The process specification has no rule of thumb: the handbook's, to the nearest length.
#[test]
fn the_process_rounds_the_rule_of_thumb_to_the_nearest() {
    let value = shophead("length --practice process --layers .032,.032 --diameter 1/8 --format json").json(0);
    assert_eq!(value["result"]["rule_of_thumb_length"]["in"], 0.25);
}

#[test]
fn an_alloy_that_does_not_come_in_the_series_is_refused() {
    let refused = shophead("length --series MS20470 --alloy M --layers .063,.063 --diameter 1/8");
    assert!(refused.refused().contains("does not come in this alloy"), "{refused}");
}

#[test]
fn a_diameter_off_the_rule_and_heat_treatment_are_said_in_the_session_too() {
    let typed = "length --diameter 3/16 --layers .016,.016";
    let value = shophead(&format!("{typed} --format json")).json(1);
    assert!(codes(&value).contains(&"diameter-outside-rule"), "{value}");
    let told = session("1\nMS20470AD6\n.016\n.016\n\n\n\n\n\nQ\n");
    assert!(told.contains("diameter off rule"), "{told}");
    let told = session("1\nMS20470DD6\n.063\n.063\n\n\n\n\n\nQ\n");
    let (care, uses) = (told.find("heat treat"), told.find("use MS20470DD6"));
    assert!(care.zip(uses).is_some_and(|(care, uses)| care < uses), "{told}");
}

/// A row of primary structure of which nothing was measured or given.
const SPAR: &str = "title = \"spar\"\nholes = \"holes.csv\"\n[[row]]\nname = \"SP1\"\nstructure = \"primary\"\nmember = \"spar-cap\"\n\
                    installed = \"MS20470AD5-8\"\nrivet = \"MS20470AD5\"\nlayers = [{ role = \"skin\", thickness = \".032\" }, \
                    { role = \"cap\", thickness = \".188\" }]\ncount = 10\n";

#[test]
fn a_spar_cap_of_which_nothing_is_known_stops_the_work() {
    let plan = with_files(&[("job.toml", &SPAR.replace("holes = \"holes.csv\"\n", ""))], "plan job.toml");
    let told = flat(&plan);
    assert_eq!(plan.status, Some(1), "{plan}");
    assert!(told.contains("What stops the work SP1 Not checked: edge distance not given"), "{told}");
    assert!(told.contains("Not given, so not checked: material, edge distance, pitch (SP1)."), "{told}");
}

#[test]
fn a_holes_file_that_is_not_there_yet_is_no_mistake() {
    let plan = with_files(&[("job.toml", SPAR)], "plan job.toml");
    let told = flat(&plan);
    assert!(plan.status == Some(1) && plan.stderr.is_empty(), "{plan}");
    assert!(told.contains("0 of 10 measured. Measure: shophead survey job.toml holes.csv"), "{told}");
    let order = with_files(&[("job.toml", SPAR)], "order job.toml");
    let unknown =
        "10 of 10 holes not measured yet: they may take other rivets. Measure: shophead survey job.toml holes.csv";
    assert!(flat(&order).contains(unknown), "{order}");
    let order = with_files(&[("job.toml", SPAR)], "order job.toml --format csv");
    assert!(order.stderr.replace('\n', " ").contains(unknown), "{order}");
    let order = with_files(&[("job.toml", SPAR)], "order job.toml --format json").json(1);
    assert_eq!([&order["result"]["holes"], &order["result"]["measured"]], [10, 0], "{order}");
}

#[test]
fn a_larger_rivet_in_thin_skin_is_referred_by_hole_and_joint_alike() {
    let (hole, joint) = (
        "hole --rivet MS20470AD5 --major .1775 --minor .1775 --layers 2024-T3:.032,2024-T3:.188 --edge 1/2 --pitch 1 --member spar-cap",
        "joint --rivet MS20470AD6 --sheets 2024-T3:.032,2024-T3:.188",
    );
    assert!(!referred(hole).is_empty());
    assert!(referred(joint).contains(&"sheet-too-thin-for-table".to_owned()));
    assert!(flat(&shophead(joint)).contains("Enter plain.MS20470AD6 in the limits file, or refer."));
}

#[test]
fn what_is_referred_is_not_ordered() {
    let holes = "row,hole,major,minor,condition\nSP1,3,.1775,.1775,sound\n";
    let job = SPAR.replace("count = 10\n", "count = 10\nedge = \".5\"\npitch = \"1\"\n");
    let order = with_files(&[("job.toml", &job), ("holes.csv", holes)], "order job.toml");
    let told = flat(&order);
    assert!(order.status == Some(1) && told.contains("Not in the order") && told.contains("SP1"), "{order}");
    let value: Value = serde_json::from_str(
        &with_files(&[("job.toml", &job), ("holes.csv", holes)], "order job.toml --format json").stdout,
    )
    .expect("JSON");
    let needed =
        value["result"]["lines"].as_array().expect("lines").iter().map(|line| line["needed"].as_u64().unwrap());
    assert!(needed.sum::<u64>() < 10, "{value}");
}

#[test]
fn materials_of_forgings_tube_and_soft_sheet_are_known() {
    for material in ["2024-T3511", "7075-T6511", "4130", "2024-O", "2024-T351", "clad 2024-T3"] {
        let typed = format!("length --layers {}:.125,.063 --diameter 5/32", material.replace(' ', "_"));
        assert_eq!(shophead(&typed).status, Some(0), "{typed}");
    }
    let shorter = shophead("length --layers .032+/-.002,.040 --diameter 1/8");
    assert!(shorter.printed(0).contains(".072 (.070 to .074)"), "{shorter}");
}

/// Each cause by its own name: the sheet, the head, the seat, the thin sheet, the near edge.
#[test]
fn a_strength_that_is_not_published_names_what_to_enter() {
    for (typed, key) in [
        ("--rivet MS20470AD5 --sheets 2024-T351:.188,2024-T3:.063", "material.2024-T351.bearing_ultimate_20"),
        ("--rivet MS20427M5 --sheets 2024-T3:.063:countersunk,2024-T3:.063", "series.MS20427.head_height.5"),
        ("--rivet NAS1097AD4 --sheets 2024-T3:.063:countersunk,2024-T3:.063", "flush.NAS1097AD4"),
        ("--rivet MS20470AD6 --sheets 2024-T3:.032,2024-T3:.063", "plain.MS20470AD6"),
        ("--rivet MS20470AD5 --sheets 2024-T3:.040,2024-T3:.063 --edge .2", "plain.MS20470AD5"),
        ("--rivet MS20426AD5 --sheets 2024-T3:.063:countersunk,2024-T3:.063 --edge .25", "flush.MS20426AD5"),
    ] {
        let told = flat(&shophead(&format!("joint {typed}")));
        assert!(told.contains(&format!("Enter {key}")), "{typed}: {told}");
    }
}

#[test]
fn figures_in_text_have_no_more_digits_than_a_gauge() {
    let told = shophead("--units mm length --layers 1mm,1.2mm --diameter 1/8");
    let figures = told.printed(0).split_whitespace().filter_map(|word| word.split_once('.'));
    for (_, decimals) in figures {
        let digits = decimals.bytes().take_while(u8::is_ascii_digit).count();
        assert!(digits <= 4, "{told}");
    }
}

#[test]
fn a_tab_under_the_driven_head_is_held_while_the_old_rivet_is_punched_out() {
    let job = "title = \"tab\"\n[[row]]\nname = \"A\"\nstructure = \"secondary\"\nmember = \"frame\"\ninstalled = \"MS20470AD4-5\"\n\
               rivet = \"MS20470AD4\"\nlayers = [{ role = \"skin\", material = \"2024-T3\", thickness = \".040\" }, \
               { role = \"tab\", material = \"2024-T3\", thickness = \".040\" }]\ncount = 4\nedge = \".5\"\npitch = \"1\"\n";
    let removal = with_files(&[("job.toml", job)], "plan job.toml --only removal");
    assert!(flat(&removal).contains("Tab or bracket foot under the driven head: hold it while punching"), "{removal}");
}

/// Grips from which on no length of any kind was once given.
#[test]
fn no_grip_is_without_a_length_for_the_holes_that_are_drilled() {
    for practice in ["handbook", "process"] {
        for (diameter, grips) in [("1/16", [".060", ".076"]), ("3/32", [".292", ".345"]), ("1/8", [".758", ".794"])] {
            for grip in grips {
                let typed =
                    format!("length --layers {grip}+-.004 --diameter {diameter} --practice {practice} --format json");
                let value = shophead(&typed).json(0);
                assert!(value["result"]["length"]["in"].as_f64().is_some(), "{typed}: {value}");
            }
        }
    }
}

/// An oversize flush rivet whose head is not on file is tried, and says what to enter.
#[test]
fn an_oversize_flush_rivet_is_tried_and_names_what_it_lacks() {
    let typed = "hole --rivet MS20426AD5 --major .1775 --minor .1775 --layers 2024-T3:.100:countersunk,2024-T3:.125 --edge 1 --pitch 1";
    let told = flat(&shophead(typed));
    assert!(told.contains("oversize: no NAS1241AD5") && told.contains("Enter flush.NAS1241AD5"), "{told}");
    let limits = "title = \"t\"\ndocument = \"d\"\n[[flush.NAS1241AD5]]\nmaterial = \"2024-T3\"\nthickness = \".100\"\n\
                  seat = \"countersunk\"\nultimate = 700\n";
    let told = flat(&with_files(&[("l.toml", limits)], &format!("{typed} --limits l.toml")));
    assert!(told.contains("NAS1241AD5") && told.contains("oversize: yes"), "{told}");
}

#[test]
fn a_list_of_points_may_begin_below_zero() {
    let typed = |points: &str| {
        format!("group {points} --load 0,-100 --at 2,1 --rivet MS20470AD4 --sheets 2024-T3:.063,2024-T3:.063 --edge .5")
    };
    // Blanks are underlined here.
    let (below, above) = (shophead(&typed("-1_0;_1_0")), shophead(&typed("1_0;_-1_0")));
    assert_eq!(below.status, Some(0), "{below}");
    assert!(flat(&below).contains("margin +0.50") && flat(&above).contains("margin +0.50"), "{below}");
    assert!(shophead("group --laod 0,1").refused().contains("--laod"));
}

#[test]
fn a_length_that_lacks_the_point_of_a_half_length_is_remarked() {
    let told = flat(&shophead("part MS20470AD5-85"));
    assert!(told.contains("5-5/16 long") && told.contains("with it this would be 17/32 in"), "{told}");
    for sound in ["MS20470AD5-8.5", "MS20470AD5-25", "MS20470AD5-40"] {
        assert!(!flat(&shophead(&format!("part {sound}"))).contains("Mind:"), "{sound}");
    }
}

/// A material that a limits file names is the shop's own, unless it is a slip away from one on file: that is asked.
#[test]
fn a_slip_in_the_name_of_a_material_is_asked_about() {
    let file = |name: &str, more: &str| {
        format!("title = \"t\"\ndocument = \"d\"\n[material.\"{name}\"]\ntension_ultimate = \"60 ksi\"\n{more}")
    };
    let asked = |name: &str, more: &str| {
        with_files(&[("l.toml", &file(name, more))], "length --layers .063,.063 --diameter 1/8 --limits l.toml")
    };
    let slip = asked("2042-T3", "");
    assert!(slip.refused().contains("did you mean 2024-T3?") && slip.stderr.contains("own = \"yes\""), "{slip}");
    for (name, more) in [("2042-T3", "own = \"yes\"\n"), ("2219-T87", ""), ("A286", ""), ("2024-T3", "")] {
        assert_eq!(asked(name, more).status, Some(0), "{name}");
    }
}
