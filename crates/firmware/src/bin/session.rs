//! The handheld session on the board's first serial port. Its log goes to the debugger.
//!
//! Arguments: columns and lines of the terminal, 20 and 4 if not given.

#![no_std]
#![no_main]

use defmt_semihosting as _;
use semihosting::process::ExitCode;
use shophead_firmware::arguments::number;
use shophead_firmware::uart::Uart;
use shophead_handheld::{Settings, run};

fn converse() -> ExitCode {
    let size = |place, default| u8::try_from(number(place, default)).unwrap_or(u8::MAX);
    let settings = match Settings::new(size(1, 20), size(2, 4)) {
        Ok(settings) => settings.with_echo().with_carriage_return(),
        Err(error) => {
            defmt::error!("no session: {}", error);
            return ExitCode::FAILURE;
        }
    };
    let port = Uart::start();
    defmt::info!("session begins: {}", settings);
    match run(port, port, settings) {
        Ok(()) => {
            defmt::info!("session ends");
            ExitCode::SUCCESS
        }
        Err(_) => {
            defmt::error!("the serial port failed");
            ExitCode::FAILURE
        }
    }
}

#[cortex_m_rt::entry]
fn main() -> ! {
    converse().exit_process()
}

#[panic_handler]
fn panicked(_: &core::panic::PanicInfo<'_>) -> ! {
    defmt::error!("panicked");
    ExitCode::from(101).exit_process()
}
