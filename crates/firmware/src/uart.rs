//! The first serial port of the board: a PL011 behind the pins A0 and A1.

use core::convert::Infallible;

use embedded_io::{ErrorType, Read, Write};

const RUN_MODE_CLOCK_1: usize = 0x400f_e104;
const RUN_MODE_CLOCK_2: usize = 0x400f_e108;
const PORT_A_ALTERNATE: usize = 0x4000_4420;
const PORT_A_DIGITAL: usize = 0x4000_451c;
const DATA: usize = 0x4000_c000;
const FLAGS: usize = 0x4000_c018;
const BAUD_WHOLE: usize = 0x4000_c024;
const BAUD_FRACTION: usize = 0x4000_c028;
const LINE_CONTROL: usize = 0x4000_c02c;
const CONTROL: usize = 0x4000_c030;

const RECEIVER_EMPTY: u32 = 1 << 4;
const SENDER_FULL: u32 = 1 << 5;

fn read(register: usize) -> u32 {
    // SAFETY: only this module's constants come here; each is an aligned register of the board, whose reads have no other effect than
    // taking a byte from the receiver.
    unsafe { core::ptr::with_exposed_provenance::<u32>(register).read_volatile() }
}

fn write(register: usize, value: u32) {
    // SAFETY: as above; what is written sets up or feeds the serial port and nothing else.
    unsafe { core::ptr::with_exposed_provenance_mut::<u32>(register).write_volatile(value) }
}

/// One end of the serial port. Both ends may be used at once: one receives, the other sends.
#[derive(Clone, Copy, Debug)]
pub struct Uart(());

impl Uart {
    /// Sets the port up: 115 200 baud from the 12.5 MHz that the clock runs at after a reset, 8 bits, no parity, FIFOs on.
    #[must_use]
    pub fn start() -> Uart {
        write(RUN_MODE_CLOCK_1, read(RUN_MODE_CLOCK_1) | 1);
        write(RUN_MODE_CLOCK_2, read(RUN_MODE_CLOCK_2) | 1);
        write(PORT_A_ALTERNATE, read(PORT_A_ALTERNATE) | 0b11);
        write(PORT_A_DIGITAL, read(PORT_A_DIGITAL) | 0b11);
        write(CONTROL, 0);
        // 12 500 000 / (16 × 115 200) is 6 and 50/64.
        write(BAUD_WHOLE, 6);
        write(BAUD_FRACTION, 50);
        write(LINE_CONTROL, 0x70);
        write(CONTROL, 0x301);
        Uart(())
    }
}

impl ErrorType for Uart {
    type Error = Infallible;
}

impl Read for Uart {
    /// Waits for a byte.
    fn read(&mut self, buffer: &mut [u8]) -> Result<usize, Infallible> {
        let Some(first) = buffer.first_mut() else { return Ok(0) };
        while read(FLAGS) & RECEIVER_EMPTY != 0 {}
        *first = read(DATA) as u8;
        Ok(1)
    }
}

impl Write for Uart {
    fn write(&mut self, bytes: &[u8]) -> Result<usize, Infallible> {
        for byte in bytes {
            while read(FLAGS) & SENDER_FULL != 0 {}
            write(DATA, u32::from(*byte));
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<(), Infallible> {
        Ok(())
    }
}
