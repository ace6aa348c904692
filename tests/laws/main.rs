//! Laws that hold for every input.

mod drills;
mod joint;
mod part_numbers;
