//! Published tables and worked examples, cell by cell.

mod drills;
mod flush;
mod joint;
mod materials;
mod splice;
