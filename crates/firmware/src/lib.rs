//! What the images share: the board's serial port, the arguments that the emulator hands over, the meter, and one entry a
//! capability of the core.

#![no_std]

pub mod arguments;
pub mod capability;
pub mod meter;
pub mod uart;
