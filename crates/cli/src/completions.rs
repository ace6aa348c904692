//! `shophead completions`: what makes a shell complete what is typed, from the same definitions as help.

use crate::args::{Arguments, CompletionsArgs};
use crate::exit::Stop;
use crate::render::print_text;

pub(crate) fn run(args: &CompletionsArgs) -> Result<(), Stop> {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Arguments::definitions(), "shophead", &mut script);
    print_text(&String::from_utf8_lossy(&script))
}
