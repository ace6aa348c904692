//! Published tables and worked examples, cell by cell.

mod mass;
mod part_numbers;
mod rivets;
