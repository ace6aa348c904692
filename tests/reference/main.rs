//! Published tables and worked examples, cell by cell.

mod drills;
mod flush;
mod group;
mod joint;
mod joint_depth;
mod load_share;
mod mass;
mod materials;
mod part_numbers;
mod rivets;
mod splice;
mod squeeze;
