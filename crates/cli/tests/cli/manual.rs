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
