//! A program that does nothing: what starting one costs.

fn main() {}
