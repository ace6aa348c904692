//! `shophead handheld`: the session of a shop instrument on the standard input and output.

use std::io::{self, IsTerminal};

use embedded_io_adapters::std::FromStd;
use shophead::practice::HANDBOOK;
use shophead_handheld::{Session, Settings, TerminalError};

use crate::args::{Common, Format, HandheldArgs, PracticeWord, UnitsWord};
use crate::context::limits_of;
use crate::exit::Stop;
use crate::files::{Inputs, is_standard};
use crate::output;

pub(crate) fn run(args: &HandheldArgs, common: &Common) -> Result<(), Stop> {
    if args.output.is_some() || common.output.is_some() || common.format != Format::Text {
        return Err(Stop::wrong("handheld is a conversation; there is no answer to write into a file"));
    }
    if common.limits.as_deref().is_some_and(is_standard) {
        return Err(Stop::wrong("--limits: the standard input is the conversation; name a file"));
    }
    let own = common.limits.as_deref().map(|path| limits_of(path, &Inputs::default())).transpose()?.unwrap_or_default();
    output::standard_is_open()?;
    let settings = Settings::new(args.columns, args.lines).map_err(Stop::wrong)?;
    // A terminal shows what is typed by itself; behind a pipe the session has to, so that the record can be read.
    let settings = if io::stdin().is_terminal() { settings } else { settings.with_echo() };
    let session = match common.units {
        Some(UnitsWord::Mm) => Session::new().in_millimetres(),
        Some(UnitsWord::In) | None => Session::new(),
    };
    let (limits, documents) = own.lists();
    let built_in = common.practice.map_or(&HANDBOOK, PracticeWord::built_in);
    let practice = built_in.with_own(&limits, &documents).with_entered(&own.entered);
    let mut session = session.by(if common.limits.is_some() { &practice } else { built_in });
    match session.run(FromStd::new(io::stdin().lock()), FromStd::new(io::stdout().lock()), settings) {
        Err(TerminalError::Read(error)) => Err(Stop::Failed(format!("the input could not be read: {error}"))),
        Err(TerminalError::Write(error)) if !output::is_reader_gone(&error) => Err(output::not_written(None, &error)),
        // Whoever read the output has seen enough.
        Ok(()) | Err(TerminalError::Write(_)) => Ok(()),
    }
}
