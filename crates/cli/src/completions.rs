//! `shophead completions`: what makes a shell complete what is typed, from the same definitions as help.

use std::path::Path;

use crate::args::{Arguments, CompletionsArgs};
use crate::exit::Stop;
use crate::output;

pub(crate) fn run(args: &CompletionsArgs, output: Option<&Path>) -> Result<(), Stop> {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Arguments::definitions(), "shophead", &mut script);
    output::write(output, &String::from_utf8_lossy(&script))
}
