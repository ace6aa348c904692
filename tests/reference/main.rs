//! Published tables and worked examples, cell by cell.

mod flush;
mod joint;
mod splice;
