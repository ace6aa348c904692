//! Published tables and worked examples, cell by cell.

mod access;
mod drills;
mod heads;
mod holes;
mod layout;
mod materials;
mod practices;
mod removal;
mod upset;
