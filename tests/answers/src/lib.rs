//! Generated cases and their answers as bytes.
//!
//! A host and a microcontroller that run this code must come to the same bytes, case by case: a case is made from its kind and its
//! number alone, and every figure of its answer is written out, floating-point ones bit by bit. Half of the cases are ordinary
//! sheet-metal work, the rest anything that the types allow.

#![no_std]

mod answer;
mod case;
mod generator;

pub use answer::{Bytes, MAX_ANSWER, Record};
pub use case::{Case, Kind, PACK_POINTS};
