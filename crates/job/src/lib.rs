//! Riveting jobs: job files in; plans, orders and records out.
//!
//! No rule of the trade is decided here. This crate reads files into a [`model`], asks `shophead` (the core) for every row and hole,
//! and keeps the answers together.

pub mod ahead;
pub mod answers;
pub mod card;
pub mod cell;
pub mod diagnostic;
pub mod drawing;
pub mod file;
pub mod grouped;
pub mod inspect;
pub mod labels;
pub mod model;
pub mod order;
pub mod plan;
pub mod read;
pub mod repair;
pub mod start;
pub mod survey;
pub mod tools;
pub mod words;
pub mod work;
pub mod working;

#[cfg(test)]
mod prelude;
