//! Laws that hold for every input.

mod common;
mod drills;
mod hole;
mod layout;
mod length;
mod practice;
mod rivet_length;
mod upset;
