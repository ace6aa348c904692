//! `shophead handheld`: the session of a shop instrument on the standard input and output.

use std::io::{self, ErrorKind, IsTerminal};

use embedded_io_adapters::std::FromStd;
use shophead_handheld::{Settings, TerminalError};

use crate::args::HandheldArgs;
use crate::exit::Stop;

pub(crate) fn run(args: &HandheldArgs) -> Result<(), Stop> {
    let settings = Settings::new(args.columns, args.lines).map_err(Stop::wrong)?;
    // A terminal shows what is typed by itself; behind a pipe the session has to, so that the record can be read.
    let settings = if io::stdin().is_terminal() { settings } else { settings.with_echo() };
    let session = shophead_handheld::run(FromStd::new(io::stdin().lock()), FromStd::new(io::stdout().lock()), settings);
    session.map_err(|error| match error {
        TerminalError::Read(error) => Stop::Failed(format!("the input could not be read: {error}")),
        TerminalError::Write(error) if error.kind() == ErrorKind::BrokenPipe => Stop::ReaderGone,
        TerminalError::Write(error) => Stop::Failed(format!("the answer could not be written: {error}")),
    })
}
