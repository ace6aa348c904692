//! Laws that hold for every input.

mod common;
mod drills;
mod length;
mod rivet_length;
