//! Published tables and worked examples, cell by cell.

mod access;
mod drills;
mod flush;
mod heads;
mod holes;
mod joint;
mod layout;
mod mass;
mod materials;
mod part_numbers;
mod practices;
mod removal;
mod rivets;
mod splice;
mod upset;
