//! Manual and completions, as a packager asks for them.

use std::process::Command;

use crate::bare;

/// Every command, as help lists them.
pub(crate) fn commands() -> Vec<String> {
    let help = bare("--help").printed(0).to_owned();
    let list = help.split_once("Commands:\n").expect("a list").1;
    let named = list.lines().take_while(|line| !line.is_empty()).filter_map(|line| line.split_whitespace().next());
    named.filter(|name| *name != "help").map(str::to_owned).collect()
}

#[test]
fn there_is_a_page_for_the_program_and_each_command() {
    let folder = tempfile::tempdir().expect("a folder");
    assert_eq!(bare(&format!("man --out {}", folder.path().display())).printed(0), "");
    let commands = commands();
    assert!(commands.len() >= 18, "{commands:?}");
    for command in &commands {
        let page = std::fs::read_to_string(folder.path().join(format!("shophead-{command}.1"))).expect(command);
        assert_eq!(page, bare(&format!("man {command}")).printed(0));
    }
    let page = std::fs::read_to_string(folder.path().join("shophead.1")).expect("the program's");
    assert_eq!(page, bare("man").printed(0));
    for repair in ["patch", "splice", "panel", "rows", "bend"] {
        let page = std::fs::read_to_string(folder.path().join(format!("shophead-repair-{repair}.1"))).expect(repair);
        assert_eq!(page, bare(&format!("man repair-{repair}")).printed(0));
    }
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), commands.len() + 1 + 5);
    let refused = bare("man lenght");
    assert!(refused.refused().contains("right would be shophead, length,"), "{refused}");
}

#[test]
fn help_of_every_command_and_the_pages_say_the_statuses() {
    for command in commands() {
        let help = bare(&format!("help {command}"));
        let help = help.printed(0);
        for status in [
            "  0  done, nothing",
            "  1  done, and something must be referred first",
            "  2  the command line",
            "  3  reading",
        ] {
            assert!(help.contains(status), "{command}: {status}\n{help}");
        }
    }
}

#[test]
fn every_shell_completes_every_command() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = bare(&format!("completions {shell}"));
        let script = script.printed(0);
        for word in commands().iter().map(String::as_str).chain(["handbook", "tolerance"]) {
            assert!(script.contains(word), "{shell}: {word}");
        }
    }
    let bash = bare("completions bash").printed(0).to_owned();
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("shophead.bash");
    std::fs::write(&file, bash).expect("written");
    // What a person would see after the tabulator key.
    let completed = |words: &str| {
        let ask = format!(
            "source {}; COMP_WORDS=({words}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); _shophead shophead \"${{COMP_WORDS[-1]}}\" \"${{COMP_WORDS[-2]}}\"; echo \"${{COMPREPLY[@]}}\"",
            file.display()
        );
        let output = Command::new("bash").args(["-c", &ask]).output().expect("bash");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    assert_eq!(completed("shophead or"), "order\n");
    assert_eq!(completed("shophead order --practice ''"), "handbook process\n");
    assert_eq!(completed("shophead schema in"), "inspect\n");
}

/// Help promises only what is so: a form that it lists is answered, any other is refused, or passed over where there is only one.
#[test]
fn help_lists_the_forms_that_a_command_answers_in_and_no_others() {
    const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");
    let joint = "--rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --edge 1/2";
    for typed in [
        "length --layers .032,.125 --diameter 1/8".to_owned(),
        "head --diameter 1/8 --measured-diameter .180 --measured-height .060".to_owned(),
        "hole --rivet MS20470AD4 --major .141 --layers 2024-T3:.032,2024-T3:.040 --edge 1/2 --pitch 1".to_owned(),
        format!("joint {joint} --rows 2 --pitch 1 --load 100"),
        format!("group - --load 100,0 --at 0,1 {joint}"),
        "splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4".to_owned(),
        "repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2".to_owned(),
        "part MS20470AD4-5".to_owned(),
        format!("plan {DEMO}/job.toml"),
        format!("order {DEMO}/job.toml"),
        format!("inspect {DEMO}/job.toml {DEMO}/driven.csv"),
        format!("card {DEMO}/job.toml -o -"),
        format!("map {DEMO}/job.toml -o -"),
        format!("template {DEMO}/job.toml -o -"),
        format!("survey {DEMO}/job.toml holes.csv"),
        format!("answer {DEMO}/job.toml --row K1 --hole 19 --answer keep --by A --document D"),
        "new panel".to_owned(),
        "batch length -".to_owned(),
        "handheld".to_owned(),
        "sources".to_owned(),
        "schema plan".to_owned(),
        "completions bash".to_owned(),
        "man".to_owned(),
    ] {
        let asked: Vec<&str> = typed.split(' ').take(if typed.starts_with("repair") { 2 } else { 1 }).collect();
        let help = bare(&format!("{} --help", asked.join(" ")));
        let input = if typed.starts_with("batch") { "layers,diameter\n.063,1/8\n" } else { "x,y\n0,0\n1,0\n" };
        let mut count = 0;
        for form in ["json", "csv", "svg", "xlsx", "html"] {
            let is_listed = help.printed(0).lines().any(|line| line.trim_start().starts_with(&format!("- {form}:")));
            let has_one = ["card", "map", "template", "schema", "completions", "man"].contains(&asked[0]);
            let file = if form == "xlsx" && !has_one { " --output order.xlsx" } else { "" };
            let run = crate::run(&format!("{typed} --format {form}{file}"), |run| run.write_stdin(input));
            assert_eq!(run.status != Some(2), is_listed || has_one, "{form}: {run}");
            count += usize::from(is_listed);
        }
        assert_eq!(help.printed(0).contains("--format <FORMAT>"), count > 0, "{help}");
        let is_talk = ["handheld", "survey"].contains(&asked[0]);
        assert_eq!(help.printed(0).contains("--output <FILE>"), !is_talk, "{help}");
        if is_talk {
            assert!(!bare(&format!("{typed} --output talk.txt")).refused().is_empty(), "{typed}");
        }
    }
}
