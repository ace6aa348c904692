//! Published tables and worked examples, cell by cell.
