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

// In the order in which data flows: each knows only those before it.
pub mod length;
pub mod quantity;
pub mod basis;
pub mod material;
pub mod rivet;
pub mod drill;
pub mod practice;
pub mod finding;
pub mod stack;
pub mod upset;
pub mod select;
pub mod layout;
pub mod joint;
pub mod structure;
pub mod hole;
pub mod access;
pub mod removal;
