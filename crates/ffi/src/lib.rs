//! The C interface to `shophead`: a static and a shared library over the core, and `include/shophead.h`.
//!
//! C programmers start with `README.md` beside this crate; the header documents every function, type and constant. This crate only
//! translates: it looks at what comes over the border, calls the core, and lays the answer out in plain structures. No rule of the trade
//! is decided here.
//!
//! # Where things are
//!
//! | module | holds |
//! |---|---|
//! | [`border`] | every pointer that comes over: looked at, read, written. All unsafe code of the crate |
//! | [`error`] | one list of error numbers, and the sentence for each |
//! | [`numbers`] | numbers for the core's lists, words for the numbers |
//! | [`text`] | texts that go out |
//! | [`version`] | number of the interface, version, features |
//! | [`explain`] | why a text could not be read |
//! | [`length`], [`force`], [`drill`], [`material`], [`part`] | values: read, printed |
//! | [`basis`], [`finding`] | where a figure comes from, what a check found |
//! | [`practice`], [`stack`] | limits and a shop's own on top, the layers under a rivet |
//! | [`select`], [`window`], [`head`], [`hole`], [`layout`], [`joint`], [`splice`], [`group`] | the calculations |
//!
//! # How it hangs together
//!
//! A function takes plain numbers, [`border::In`] and [`border::Out`]. Both are bare pointers in memory, but nothing can be read or written
//! through them before they were looked at, so the functions themselves are safe code. Each looks at all its outputs first, reads its
//! inputs, asks the core, makes sure that everything has room, and only then writes.
//!
//! Types, constants and members carry the names of the header, which cbindgen makes from this source.

#![no_std]
#![deny(missing_docs)]
#![allow(non_camel_case_types, reason = "the names of the header; what is called the same is the same")]
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

#[cfg(feature = "std")]
extern crate std;

// In the order in which data flows: each knows only those before it, but for the lists that `border` and `numbers` keep.
pub mod border;
pub mod error;
pub mod text;
pub mod numbers;
pub mod version;
pub mod length;
pub mod force;
pub mod basis;
pub mod finding;
pub mod material;
pub mod drill;
pub mod part;
pub mod practice;
pub mod explain;
pub mod stack;
pub mod head;
pub mod select;
pub mod window;
pub mod layout;
pub mod joint;
pub mod splice;
pub mod group;
pub mod hole;
pub mod squeeze;

/// Nothing in the core or here can panic; should it happen all the same there is nobody to tell, and no answer is better than a wrong
/// one.
#[cfg(all(not(feature = "std"), not(test)))]
#[panic_handler]
fn stand_still(_: &core::panic::PanicInfo<'_>) -> ! {
    loop {
        core::hint::spin_loop();
    }
}

/// Called by nobody: the compiler's own routines for numbers of 128 bits, made for systems with unwinding, name it all the same.
#[cfg(all(not(feature = "std"), not(test), not(target_os = "none")))]
#[allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]
#[unsafe(no_mangle)]
extern "C" fn rust_eh_personality() {}
