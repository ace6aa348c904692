//! Laws that hold for every input.

mod common;
mod drills;
mod hole;
mod joint;
mod layout;
mod length;
mod part_numbers;
mod practice;
mod rivet_length;
mod upset;
