//! Published tables and worked examples, cell by cell.

mod access;
mod cells;
mod count;
mod damage;
mod drills;
mod flush;
mod group;
mod heads;
mod holes;
mod joint;
mod joint_depth;
mod lap;
mod layout;
mod load_share;
mod mass;
mod materials;
mod public_types;
mod part_numbers;
mod practices;
mod process_spec;
mod removal;
mod repair;
mod rivets;
mod splice;
mod squeeze;
mod upset;
