//! Laws that hold for every input.
