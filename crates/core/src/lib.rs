//! Solid-rivet calculations for airframe sheet metal.
#![no_std]
#![forbid(unsafe_code)]
#![deny(missing_docs)]
#![cfg_attr(
    not(test),
    deny(
        clippy::arithmetic_side_effects,
        clippy::expect_used,
        clippy::indexing_slicing,
        clippy::integer_division,
        clippy::panic,
        clippy::string_slice,
        clippy::unreachable,
        clippy::unwrap_used
    )
)]

pub mod basis;
pub mod finding;
pub mod joint;
pub mod length;
pub mod material;
pub mod quantity;
pub mod rivet;
