//! The `shophead` command.
fn main() {}
