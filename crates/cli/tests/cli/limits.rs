//! The shop's own limits.

use std::io::Write;

use tempfile::NamedTempFile;

use crate::{Run, shophead, shophead_with};

const OWN: &str = r#"
title = "Boat shed limits"
document = "hull repair manual (demo)"

[[limit]]
name = "hole-greatest"
value = ".145"
diameter = "1/8"
place = "section 4, table 2"
"#;

fn with_limits(typed: &str, text: &str) -> Run {
    let mut file = NamedTempFile::new().expect("a scratch file");
    file.write_all(text.as_bytes()).expect("room for it");
    shophead_with(typed, |command| command.arg("--limits").arg(file.path()))
}

#[test]
fn they_come_before_those_of_the_practice_and_every_output_names_them() {
    let typed = "hole --rivet MS20470AD4 --major .141 --minor .130";
    assert!(shophead(typed).printed(0).starts_with("Open the hole for an oversize shank"));
    let run = with_limits(typed, OWN);
    assert!(run.printed(0).starts_with("Keep the hole as it is"), "{run}");
    assert!(run.stdout.contains("Practice: handbook with Boat shed limits."), "{run}");
    let value = with_limits(&format!("{typed} --format json"), OWN).json(0);
    assert_eq!((&value["practice"], &value["own_limits"]), (&"handbook".into(), &"Boat shed limits".into()));
    assert_eq!(value["result"]["disposition"], "keep");
}

#[test]
fn sources_lists_them_with_the_shop_s_document() {
    let value = with_limits("sources --status shop --format json", OWN).json(0);
    assert_eq!(
        value["result"]["sources"],
        serde_json::json!([{
            "group": "limits", "what": "hole-greatest (1/8)", "value": ".145",
            "document": "hull repair manual (demo)", "place": "section 4, table 2", "status": "shop",
        }])
    );
}

#[test]
fn a_mistake_is_shown_with_its_line() {
    let run = with_limits("head --diameter 1/8", &OWN.replace("hole-greatest", "hole-greates"));
    let told = run.refused();
    assert!(told.starts_with("error: ") && !told.contains('\u{1b}'), "{run}");
    assert!(told.contains("name = \"hole-greates\"") && told.contains("^^^"), "{run}");
    assert!(told.contains("hole-greatest"), "{run}");
}

#[test]
fn a_file_that_is_not_there_is_a_failure_to_read() {
    let run = shophead("head --diameter 1/8 --limits nowhere.toml");
    assert_eq!((run.status, run.stdout.as_str()), (Some(3), ""), "{run}");
    assert!(run.stderr.starts_with("error: cannot read nowhere.toml: "), "{run}");
    assert_eq!(run.stderr.lines().count(), 1, "{run}");
}

/// On one line, however it was broken.
fn flat(printed: &str) -> String {
    printed.split_whitespace().collect::<Vec<_>>().join(" ")
}

const FIGURES: &str = r#"
title = "Boat shed figures"
document = "part standard in the shop (demo)"
series.NAS1241.head_height.4 = ".036"
series.NAS1241.length_tolerance = ".010"
rivet.copper.shear_ultimate = "24 ksi"

[material.2024-T3511]
thickness = ".050 to .249"
basis = "B"
shear_ultimate = "30 ksi"
bearing_ultimate_15 = "85 ksi"
bearing_ultimate_20 = "108 ksi"
document = "mill certificate (demo)"
place = "page 2"

[[flush.MS20426AD5]]
material = "2024-T3511"
thickness = ".063"
seat = "countersunk"
ultimate = 500

[flush.NAS1241AD4]
material = "2024-T3"
thickness = ".080"
seat = "countersunk"
ultimate = 410
"#;

/// The sentence that asks for a key, and the same question with the file in which it stands.
#[test]
fn what_a_referral_asks_for_is_entered_and_answers_it() {
    let oversize = "length --series NAS1241 --diameter 9/64 --layers 2024-T3:.080:countersunk,2024-T3:.125";
    // Until its head is entered it is counted up to that of the next size.
    let asked = flat(shophead(oversize).printed(0));
    assert!(asked.contains("up to .063 high. Enter series.NAS1241.head_height.4 in the limits file"), "{asked}");
    let answered = flat(with_limits(oversize, FIGURES).printed(0));
    assert!(answered.starts_with("NAS1241AD4-7"), "{answered}");
    assert!(answered.contains("entered by the shop: part standard"), "{answered}");
    let spar = "joint --rivet MS20470AD5 --sheets 2024-T3:.063,2024-T3511:.125 --edge .4";
    let asked = flat(shophead(spar).printed(1));
    assert!(asked.contains("material.2024-T3511.bearing_ultimate_20 in the limits file"), "{asked}");
    let answered = flat(with_limits(spar, FIGURES).printed(0));
    assert!(answered.contains("entered by the shop: mill"), "{answered}");
    let flush = "joint --rivet MS20426AD5 --sheets 2024-T3511:.125:countersunk,2024-T3511:.125 --edge .4";
    let asked = flat(shophead(flush).printed(1));
    assert!(asked.contains("flush.MS20426AD5 in the limits file"), "{asked}");
    assert!(flat(with_limits(flush, FIGURES).printed(0)).contains("carries 500 lbf a rivet"));
    let copper = "joint --rivet MS20427C5 --sheets 2024-T3:.063:countersunk,2024-T3:.125 --edge .4";
    assert!(flat(shophead(copper).printed(1)).contains("rivet as driven 23.0 ksi"));
    assert!(flat(with_limits(copper, FIGURES).printed(1)).contains("rivet as driven 24.0 ksi, entered by the shop"));
    // Another thickness than the one that was entered is as unknown as before.
    assert!(
        flat(with_limits(&spar.replace("3511:.125", "3511:.300"), FIGURES).printed(1)).contains("bearing_ultimate_20")
    );
}

#[test]
fn every_command_that_reads_limits_reads_the_shop_s_figures() {
    let answer = |typed: &str, status| with_limits(&format!("{typed} --format json"), FIGURES).json(status);
    let joint = answer("joint --rivet MS20470AD5 --sheets 2024-T3:.063,2024-T3511:.125 --edge .4", 0);
    let sheet = &joint["result"]["sheets"][1];
    assert_eq!(sheet["guarantee"], "B");
    assert_eq!(sheet["entered"]["document"], "entered by the shop: mill certificate (demo)");
    assert_eq!((&sheet["entered"]["place"], &sheet["entered"]["status"]), (&"page 2".into(), &"shop".into()));
    let length = answer("length --series NAS1241 --diameter 9/64 --layers 2024-T3:.080:countersunk,2024-T3:.125", 0);
    let assumed = &length["result"]["assumed"];
    assert_eq!((&assumed["length"]["min"]["in"], &assumed["length"]["max"]["in"]), (&0.4275.into(), &0.4475.into()));
    let referred =
        shophead("length --series NAS1241 --diameter 9/64 --layers 2024-T3:.080:countersunk,.125 --format json");
    let findings = referred.json(0);
    let of_head = findings["findings"].as_array().and_then(|all| all.iter().find(|one| one["code"] == "head-between"));
    assert_eq!(of_head.expect("a finding")["limit"]["key"], "series.NAS1241.head_height.4");
    let part = answer("part NAS1241AD4", 0);
    assert_eq!(part["result"]["head_size"]["height"]["in"], 0.036);
    let sources = flat(with_limits("sources --status shop --format csv", FIGURES).printed(0));
    for line in
        ["NAS1241 dash 4 head", "NAS1241 length tolerance", "2024-T3511 shear_ultimate", "copper shear_ultimate"]
    {
        assert!(sources.contains(line), "{line}: {sources}");
    }
    let hole = "hole --rivet MS20426AD4 --major .1445 --minor .1440 --edge .5 --pitch 1 --layers 2024-T3:.080:countersunk,2024-T3:.125";
    let without = flat(shophead(hole).printed(0));
    assert!(without.contains("Enter flush.NAS1241AD4 in the limits file"), "{without}");
    assert!(flat(with_limits(hole, FIGURES).printed(0)).starts_with("Oversize rivet, hole as it is NAS1241AD4"));
}

const OWN_MATERIAL: &str = r#"
title = "Boat shed figures"
document = "mill certificate (demo)"
[material.2219-T87]
tension_ultimate = "63 ksi"
shear_ultimate = "36 ksi"
bearing_ultimate_15 = "94 ksi"
bearing_ultimate_20 = "121 ksi"
modulus = "10.5 msi"
density = ".103 lb/in3"
bend_radius = "1/8"
"#;

/// A layer of a material that no table names, in every command that takes one.
#[test]
fn a_material_of_the_shop_s_own_is_taken_by_every_command() {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let file = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).expect("a file");
    file("own.toml", OWN_MATERIAL);
    file("bare.toml", "title = \"Bare\"\ndocument = \"d\"\n[material.A286]\ndensity = \".287 lb/in3\"\n");
    file(
        "seams.csv",
        "side,length,layers,rivet,pitch,edge\nfwd,12,\"2219-T87:.040,2219-t87:.050\",MS20470AD4,3/4,5/16\n",
    );
    file("points.csv", "x,y\n0,0\n1,0\n0,1\n");
    file("rows.csv", "rivet,sheets,edge\nMS20470AD4,\"2219-T87:.040,2219-T87:.050\",.3\n");
    let row = "[[row]]\nname = \"K1\"\nstructure = \"primary\"\nmember = \"skin\"\ninstalled = \"MS20470AD4\"\ncount = 4\npitch = \"3/4\"\nedge = \"5/16\"\nlayers = [{ role = \"skin\", material = \"2219-T87\", thickness = \".040\" }, { role = \"cap\", material = \"cap\", thickness = \".080\" }]\n";
    let job = "title = \"Panel\"\nmaterials = { cap = \"2219-T87\" }\n";
    file("job.toml", &format!("{job}{row}"));
    file("job-with.toml", &format!("{job}limits = \"own.toml\"\n{row}"));
    let ask = |typed: &str| shophead_with(typed, |command| command.current_dir(folder.path()));
    for typed in [
        "length --layers 2219-T87:.032,2219-T87:.040 --diameter 1/8",
        "joint --rivet MS20470AD4 --sheets 2219-T87:.040,2219-T87:.050 --load 100 --edge .3 --pitch 3/4",
        "hole --rivet MS20470AD4 --major .1285 --edge .5 --pitch 1 --layers 2219-T87:.040,2219-T87:.050",
        "splice --sheet 2219-T87:.040 --width 10 --rivet AD4",
        "group points.csv --load 30,10 --at 1,1 --rivet MS20470AD4 --sheets 2219-T87:.040,2219-T87:.050 --edge .5",
        "repair patch --sheet 2219-T87:.040 --hole 2x1",
        "repair splice stringer --shape angle --material 2219-T87 --leg .9x.040 --leg .9x.040",
        "repair rows --rivet MS20470AD4 --sheets 2219-T87:.040,2219-T87:.050 --load 300",
        "repair panel seams.csv --skin 2219-T87:.040 --size 14x10",
        "batch joint rows.csv",
        "plan job.toml",
    ] {
        let unknown = ask(typed);
        assert_eq!(unknown.status, Some(2), "{unknown}");
        let told = format!("{}{}", unknown.stdout, unknown.stderr);
        assert!(told.contains("a shop enters another in its limits file"), "{unknown}");
        let known = ask(&format!("{typed} --limits own.toml"));
        assert!(matches!(known.status, Some(0 | 1)), "{known}");
        assert!(known.stderr.is_empty(), "{known}");
        // Limits that name another material do not name this one.
        assert_eq!(ask(&format!("{typed} --limits bare.toml")).status, Some(2), "{typed}");
    }
    let bent = ask("repair bend --material 2219-T87 --thickness .040 --limits own.toml");
    assert!(flat(bent.printed(0)).contains("least radius .125 to .125 (entered by the shop: mill"), "{bent}");
    // A job may name the limits itself; the environment may, too, where the job names none.
    let by_job = ask("plan job-with.toml");
    assert!(matches!(by_job.status, Some(0 | 1)), "{by_job}");
    let by_environment = shophead_with("plan job.toml", |command| {
        command.current_dir(folder.path()).env("SHOPHEAD_LIMITS", folder.path().join("own.toml"))
    });
    assert!(matches!(by_environment.status, Some(0 | 1)), "{by_environment}");
    // One that is named and of which next to nothing is known names what is missing.
    let joint = "joint --rivet MS20470AD4 --sheets A286:.040,a286:.050 --edge .3 --limits bare.toml";
    let asked = flat(ask(joint).printed(1));
    assert!(asked.contains("Enter material.A286.bearing_ultimate_20 in the limits file"), "{asked}");
}

/// Of a patch the mass is an answer, too; of a group and of a pull along the shank what is missing is named where it is missed.
#[test]
fn density_tension_and_the_strengths_of_a_group_name_their_keys() {
    let patch = "repair patch --sheet 2024-T36:.040 --hole 2x1 --rivet MS20470AD4";
    let asked = flat(shophead(patch).printed(0));
    assert!(asked.contains("Enter material.2024-T36.density in the limits file"), "{asked}");
    let own = "title = \"t\"\ndocument = \"d\"\nmaterial.2024-T36.density = \"2.77 g/cm3\"\n";
    let answered = flat(with_limits(patch, own).printed(0));
    assert!(!answered.contains("density in the") && answered.contains("to the aircraft, estimated"), "{answered}");
    let pulled =
        "repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.050 --load 300 --tension 20 --edge .3125";
    let asked = flat(shophead(pulled).printed(1));
    assert!(asked.contains("Enter tension.MS20470AD4.ultimate in the limits file"), "{asked}");
    let own = "title = \"t\"\ndocument = \"d\"\ntension.MS20470AD4.ultimate = 120\n";
    let answered = flat(with_limits(pulled, own).printed(0));
    assert!(answered.contains("tension 29 % of what was tested"), "{answered}");
    let folder = tempfile::tempdir().expect("a scratch folder");
    std::fs::write(folder.path().join("points.csv"), "x,y\n0,0\n1,0\n0,1\n").expect("a file");
    let group = "group points.csv --load 30,10 --at 1,1 --rivet MS20470AD4 --sheets 2024-T36:.040,2024-T36:.050 --edge .5 --format json";
    let value = shophead_with(group, |command| command.current_dir(folder.path())).json(1);
    let is_it = |one: &&serde_json::Value| one["subject"] == "group" && one["code"] == "strength-not-published";
    let of_group = value["findings"].as_array().and_then(|all| all.iter().find(is_it));
    assert_eq!(of_group.expect("a finding")["limit"]["key"], "material.2024-T36.bearing_ultimate_20");
}
