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
