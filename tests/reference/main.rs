//! Published tables and worked examples, cell by cell.

mod drills;
mod materials;
mod practices;
