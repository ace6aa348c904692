//! Laws that hold for every input.

mod part_numbers;
