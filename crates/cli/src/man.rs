//! `shophead man`: the manual as pages for man, from the same definitions as help.

use std::path::Path;

use clap_mangen::Man;
use clap_mangen::roff::{Roff, bold, roman};
use shophead_job::words::ADVISORY;

use crate::args::{Arguments, ManArgs};
use crate::exit::{STATUSES, Stop};
use crate::input;
use crate::output;

pub(crate) fn run(args: &ManArgs, output: Option<&Path>) -> Result<(), Stop> {
    let program = program();
    let commands = all(&program);
    let asked = args.command.as_deref().map(|text| named(&commands, text)).transpose()?;
    let Some(folder) = &args.out else {
        return output::write(output, &page(asked.unwrap_or(&program)));
    };
    let pages = match asked {
        Some(asked) => vec![asked],
        None => commands,
    };
    for command in pages {
        output::write(Some(&folder.join(format!("{}.1", name(command)))), &page(command))?;
    }
    Ok(())
}

/// The program, its commands, and theirs.
fn all(program: &clap::Command) -> Vec<&clap::Command> {
    let within = |command| std::iter::once(command).chain(clap::Command::get_subcommands(command));
    std::iter::once(program).chain(program.get_subcommands().flat_map(within)).collect()
}

/// `repair-patch`: what a page is asked for by.
fn short_name(command: &clap::Command) -> &str {
    let name = name(command);
    name.strip_prefix("shophead-").unwrap_or(name)
}

fn named<'c>(commands: &[&'c clap::Command], text: &str) -> Result<&'c clap::Command, Stop> {
    commands.iter().copied().find(|command| short_name(command).eq_ignore_ascii_case(text)).ok_or_else(|| {
        let names: Vec<&str> = commands.iter().map(|command| short_name(command)).collect();
        input::wrong("man", text, format_args!("no such command; right would be {}", input::or(&names)))
    })
}

/// The definitions with the options that every command takes put into each of them.
fn program() -> clap::Command {
    // The list of commands tells about help; a page of its own would tell nothing.
    let mut program = Arguments::definitions()
        .disable_help_subcommand(true)
        .mut_subcommands(|command| command.disable_help_subcommand(true));
    program.build();
    program
}

/// `shophead-length`.
fn name(command: &clap::Command) -> &str {
    command.get_display_name().unwrap_or(command.get_name())
}

fn page(command: &clap::Command) -> String {
    let man = Man::new(command.clone());
    // By hand: an empty date, which says that the version counts, would be left out.
    let (title, version) = (name(command).to_uppercase(), env!("CARGO_PKG_VERSION"));
    let mut page = format!(".TH {title} 1 \"\" \"shophead {version}\" shophead\n").into_bytes();
    let has_commands = command.has_subcommands();
    let written = man
        .render_name_section(&mut page)
        .and_then(|()| man.render_synopsis_section(&mut page))
        .and_then(|()| man.render_description_section(&mut page))
        .and_then(|()| man.render_options_section(&mut page))
        .and_then(|()| if has_commands { man.render_subcommands_section(&mut page) } else { Ok(()) })
        .and_then(|()| closing(command).to_writer(&mut page));
    // A vector takes whatever is written.
    debug_assert!(written.is_ok());
    tidied(&String::from_utf8_lossy(&page))
}

/// Without what a checker of manual pages warns of: breaks round an empty line, blanks at the end of a line.
fn tidied(page: &str) -> String {
    let page = page.replace(".br\n\n.br\n", ".sp\n");
    page.lines().flat_map(|line| [line.trim_end(), "\n"]).collect()
}

/// What stands at the end of every page.
fn closing(command: &clap::Command) -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["EXIT STATUS"]);
    for (status, meaning) in STATUSES {
        roff.control("TP", []).text([bold(status.to_string())]).text([roman(meaning)]);
    }
    roff.control("SH", ["CAUTION"]).text([roman(ADVISORY)]);
    roff.control("SH", ["SEE ALSO"]);
    if command.has_subcommands() {
        roff.text([roman("shophead help COMMAND, shophead schema COMMAND, shophead sources")]);
    } else {
        roff.text([bold("shophead"), roman("(1)")]);
    }
    roff
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_command_has_a_page_that_says_what_it_is_its_statuses_and_once_the_caution() {
        let program = program();
        for command in all(&program) {
            let page = page(command);
            for heading in ["NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "EXIT STATUS", "CAUTION", "SEE ALSO"] {
                assert_eq!(
                    page.matches(&format!(".SH \"{heading}\"\n")).count()
                        + page.matches(&format!(".SH {heading}\n")).count(),
                    1,
                    "{heading}\n{page}"
                );
            }
            assert_eq!(page.matches("Advisory only").count(), 1, "{page}");
            // Also the options that every command takes.
            assert!(page.contains("practice"), "{page}");
        }
    }
}
