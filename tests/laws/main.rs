//! Laws that hold for every input.

mod drills;
mod joint;
