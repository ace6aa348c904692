//! Published tables and worked examples, cell by cell.

mod drills;
mod heads;
mod materials;
mod practices;
mod upset;
