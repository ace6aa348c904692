//! Published tables and worked examples, cell by cell.

mod drills;
mod flush;
mod joint;
mod mass;
mod materials;
mod part_numbers;
mod rivets;
mod splice;
