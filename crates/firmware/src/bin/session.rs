//! The handheld session on the board's first serial port.
//!
//! Arguments: columns and lines of the terminal, 20 and 4 if not given; then 1 for a log on the debugger's console. The emulator puts that
//! on its standard output, where a person's terminal may be.

#![no_std]
#![no_main]

use defmt_semihosting as _;
use semihosting::process::ExitCode;
use shophead_firmware::arguments::number;
use shophead_firmware::meter::Painted;
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
    let is_logged = number(3, 0) == 1;
    let port = Uart::start();
    if is_logged {
        defmt::info!("session begins: {}", settings);
    }
    let painted = Painted::below_here();
    // This port cannot fail.
    let Ok(()) = run(port, port, settings);
    if is_logged {
        defmt::info!("session ends: {} bytes of stack", painted.deepest());
    }
    ExitCode::SUCCESS
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
