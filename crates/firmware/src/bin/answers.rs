//! Answers generated cases and sends the answers, as bytes, out of the first serial port.
//!
//! Arguments: the first number and how many cases of each kind.

#![no_std]
#![no_main]

use embedded_io::Write;
use semihosting::process::ExitCode;
use shophead_answers::{Case, Kind, Record};
use shophead_firmware::arguments::number;
use shophead_firmware::uart::Uart;

#[cortex_m_rt::entry]
fn main() -> ! {
    let (first, count) = (number(1, 0), number(2, 100));
    let mut port = Uart::start();
    for kind in Kind::ALL {
        for number in first..first.saturating_add(count) {
            let record = Record::of(&Case::make(kind, number));
            let Ok(()) = port.write_all(&record.header());
            let Ok(()) = port.write_all(&record.bytes);
        }
    }
    ExitCode::SUCCESS.exit_process()
}

#[panic_handler]
fn panicked(_: &core::panic::PanicInfo<'_>) -> ! {
    ExitCode::from(101).exit_process()
}
