//! What a shop settles by the environment or a file: limits and the units of the output, said in the answer, never how input is read.

use std::fs;

use serde_json::{Value, json};

use crate::{Run, schema, shophead_with};

const LENGTH: &str = "length --layers .032,.125 --diameter 1/8";
const LIMITS: &str = "title = \"Boat shed limits\"\ndocument = \"manual\"\n[[limit]]\nname = \"hole-greatest\"\nvalue = \".133\"\nplace = \"p\"\n";

fn with(typed: &str, variables: &[(&str, &str)]) -> Run {
    shophead_with(typed, |command| command.envs(variables.iter().copied()))
}

fn json(typed: &str, variables: &[(&str, &str)]) -> Value {
    let run = with(&format!("{typed} --format json"), variables);
    schema::read(&run.stdout)
}

#[test]
fn what_is_set_holds_and_is_said() {
    let set = [("SHOPHEAD_PRACTICE", "process"), ("SHOPHEAD_UNITS", "mm")];
    let answer = json(LENGTH, &set);
    assert_eq!(answer["practice"], "process");
    assert_eq!(
        answer["settled"],
        json!([
            { "what": "practice", "value": "process", "by": "SHOPHEAD_PRACTICE" },
            { "what": "units", "value": "mm", "by": "SHOPHEAD_UNITS" },
        ])
    );
    let text = with(LENGTH, &set);
    let said = text.printed(0).replace('\n', " ");
    assert!(
        said.contains(
            "Practice: process. Set: practice process by SHOPHEAD_PRACTICE; units mm by SHOPHEAD_UNITS. Advisory only"
        ),
        "{text}"
    );
    // Rows have no room for it: the error stream says it.
    for typed in [format!("{LENGTH} --format csv"), "batch length".to_owned()] {
        let run =
            shophead_with(&typed, |command| command.envs(set).write_stdin("layers,diameter\n\".032,.125\",1/8\n"));
        assert_eq!(
            run.stderr, "note: practice process by SHOPHEAD_PRACTICE\nnote: units mm by SHOPHEAD_UNITS\n",
            "{run}"
        );
        assert!(run.stdout.contains("length_mm"), "{run}");
    }
    assert_eq!(json(LENGTH, &[])["settled"], Value::Null, "nothing is said where nothing is set");
    assert_eq!(json(LENGTH, &[("SHOPHEAD_UNITS", "")])["settled"], Value::Null);
}

#[test]
fn what_is_set_never_changes_how_a_number_is_read() {
    let (plain, set) = (json(LENGTH, &[]), json(LENGTH, &[("SHOPHEAD_UNITS", "mm")]));
    assert_eq!(plain["result"], set["result"]);
    let folder = tempfile::tempdir().expect("a folder");
    let job = folder.path().join("job.toml");
    fs::write(&job, "title = \"P\"\n[[row]]\nname = \"K1\"\nstructure = \"secondary\"\nmember = \"skin\"\ninstalled = \"MS20470AD5-6\"\nlayers = [{ role = \"skin\", thickness = \".063\" }, { role = \"tab\", thickness = \".05\" }]\ncount = 3\n").expect("written");
    let holes = folder.path().join("h.csv");
    let survey = format!("survey {} {}", job.display(), holes.display());
    let run = shophead_with(&survey, |command| command.env("SHOPHEAD_UNITS", "mm").write_stdin(".159\nq\n"));
    assert!(run.stdout.contains("Type what you measure, in inches"), "{run}");
    assert!(fs::read_to_string(&holes).expect("holes").contains("K1,1,0.159,"), "{run}");
}

#[test]
fn the_command_line_and_the_job_come_before_what_is_set() {
    let set = [("SHOPHEAD_PRACTICE", "process"), ("SHOPHEAD_UNITS", "mm")];
    let answer = json(&format!("{LENGTH} --practice handbook --units in"), &set);
    assert_eq!((&answer["practice"], &answer["settled"]), (&json!("handbook"), &Value::Null));
    let folder = tempfile::tempdir().expect("a folder");
    let job = folder.path().join("job.toml");
    let plan = format!("plan {}", job.display());
    let text = |named: &str| {
        format!(
            "title = \"P\"\n{named}[[row]]\nname = \"K1\"\nstructure = \"secondary\"\nmember = \"skin\"\ninstalled = \"MS20470AD5-6\"\nlayers = [{{ role = \"skin\", thickness = \".063\" }}]\ncount = 3\n"
        )
    };
    fs::write(folder.path().join("own.toml"), LIMITS).expect("written");
    fs::write(folder.path().join("set.toml"), LIMITS.replace("Boat shed", "Set")).expect("written");
    let limits = folder.path().join("set.toml").display().to_string();
    let set = [("SHOPHEAD_PRACTICE", "process"), ("SHOPHEAD_LIMITS", limits.as_str())];
    fs::write(&job, text("practice = \"handbook\"\nlimits = \"own.toml\"\n")).expect("written");
    let answer = json(&plan, &set);
    assert_eq!(
        (&answer["practice"], &answer["own_limits"], &answer["settled"]),
        (&json!("handbook"), &json!("Boat shed limits"), &Value::Null)
    );
    fs::write(&job, text("")).expect("written");
    let answer = json(&plan, &set);
    assert_eq!((&answer["practice"], &answer["own_limits"]), (&json!("process"), &json!("Set limits")));
    assert_eq!(answer["settled"][1], json!({ "what": "limits", "value": limits, "by": "SHOPHEAD_LIMITS" }));
}

#[test]
fn a_settings_file_does_the_same_and_finds_its_limits_beside_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("shop.toml");
    fs::write(folder.path().join("own.toml"), LIMITS).expect("written");
    fs::write(&file, "practice = \"process\"\nlimits = \"own.toml\"\nunits = \"mm\"\n").expect("written");
    let name = file.display().to_string();
    let answer = json(LENGTH, &[("SHOPHEAD_SETTINGS", &name), ("SHOPHEAD_UNITS", "in")]);
    assert_eq!((&answer["practice"], &answer["own_limits"]), (&json!("process"), &json!("Boat shed limits")));
    let by: Vec<&str> =
        answer["settled"].as_array().expect("a list").iter().filter_map(|one| one["by"].as_str()).collect();
    assert_eq!(by, [name.as_str(), name.as_str(), "SHOPHEAD_UNITS"], "a variable comes before the file");
}

#[test]
fn what_is_set_wrongly_is_refused_in_one_sentence() {
    let run = with(LENGTH, &[("SHOPHEAD_UNITS", "cm")]);
    assert_eq!(run.refused(), "error: SHOPHEAD_UNITS is \"cm\"; right would be in or mm\n");
    let run = with(LENGTH, &[("SHOPHEAD_PRACTICE", "mine")]);
    assert_eq!(run.refused(), "error: SHOPHEAD_PRACTICE is \"mine\"; right would be handbook or process\n");
    let run = with(LENGTH, &[("SHOPHEAD_SETTINGS", "gone.toml")]);
    assert!(run.status == Some(3) && run.stderr.contains("cannot read gone.toml"), "{run}");
}
