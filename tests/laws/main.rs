//! Laws that hold for every input.

mod drills;
mod group;
mod joint;
mod load_share;
mod part_numbers;
mod row;
