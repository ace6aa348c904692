//! How deep the stack goes and how many instructions pass while something is asked.
//!
//! Instructions come from the SysTick counter: the emulator, started with `-icount shift=0`, lets one nanosecond pass for each instruction, and
//! the counter's clock of 12.5 MHz ticks every 80 ns. The loop in [`Meter::start`] checks that it is so.

use cortex_m::Peripherals;
use cortex_m::peripheral::SYST;
use cortex_m::peripheral::syst::SystClkSource;
use cortex_m::register::msp;

/// Instructions in one tick of the counter.
const INSTRUCTIONS_PER_TICK: u32 = 80;

/// Below the caller, so much stack is painted.
const PAINTED: usize = 40 * 1024;

/// What no value on a stack is likely to be.
const PAINT: u32 = 0xa5c3_5a3c;

const WORD: usize = 4;

/// The meter.
#[derive(Debug)]
pub struct Meter(());

/// What one call took.
#[derive(Clone, Copy, Debug, Default)]
pub struct Reading {
    /// Bytes of stack below the caller.
    pub stack: u32,
    /// Instructions, to the nearest [`INSTRUCTIONS_PER_TICK`] downwards.
    pub instructions: u32,
}

impl Meter {
    /// Starts the counter. `None` where it does not count instructions, such as on a real board.
    #[must_use]
    pub fn start() -> Option<Meter> {
        let mut counter = Peripherals::take()?.SYST;
        counter.set_clock_source(SystClkSource::Core);
        counter.set_reload(0x00ff_ffff);
        counter.clear_current();
        counter.enable_counter();
        const TURNS: u32 = 400_000;
        let before = SYST::get_current();
        // SAFETY: the block counts a register of its own down to nothing; two instructions a turn.
        unsafe {
            core::arch::asm!("2:", "subs {turns}, #1", "bne 2b", turns = inout(reg) TURNS => _);
        }
        let taken = elapsed(before) * INSTRUCTIONS_PER_TICK;
        let expected = 2 * TURNS;
        (taken.abs_diff(expected) <= 2 * INSTRUCTIONS_PER_TICK).then_some(Meter(()))
    }

    /// Measures one call. `ask` must not be inlined here, so that its frame is below.
    #[inline(never)]
    pub fn read<T>(&self, ask: fn(&T), of: &T) -> Reading {
        let painted = Painted::below_here();
        let before = SYST::get_current();
        ask(of);
        let ticks = elapsed(before);
        Reading { stack: painted.deepest(), instructions: ticks * INSTRUCTIONS_PER_TICK }
    }
}

/// The free stack, filled with a pattern.
#[derive(Debug)]
pub struct Painted {
    bottom: usize,
    top: usize,
}

impl Painted {
    /// Paints what lies below the caller's frame.
    #[inline(always)]
    #[must_use]
    pub fn below_here() -> Painted {
        let top = msp::read() as usize;
        let bottom = top - PAINTED;
        for address in (bottom..top).step_by(WORD) {
            // SAFETY: this lies between the end of the data and the stack pointer, where nothing lives: no interrupt is on, and
            // nothing is called while painting.
            unsafe { core::ptr::with_exposed_provenance_mut::<u32>(address).write_volatile(PAINT) };
        }
        Painted { bottom, top }
    }

    /// How many bytes below the painter's frame were used since.
    #[must_use]
    pub fn deepest(&self) -> u32 {
        // SAFETY: read where it was painted.
        let is_paint =
            |address: &usize| unsafe { core::ptr::with_exposed_provenance::<u32>(*address).read_volatile() == PAINT };
        let reached = (self.bottom..self.top).step_by(WORD).find(|address| !is_paint(address)).unwrap_or(self.top);
        (self.top - reached) as u32
    }
}

/// Ticks since then; the counter counts down and has 24 bits.
fn elapsed(before: u32) -> u32 {
    before.wrapping_sub(SYST::get_current()) & 0x00ff_ffff
}
