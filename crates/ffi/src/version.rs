//! What the library is, asked at run time.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use crate::text::shophead_text;

/// The number of this interface. It is raised when anything that a program may rely on changes: a structure, a number, what a function
/// takes. Within one number only functions, constants and numbers of enumerations are added.
pub const SHOPHEAD_ABI_VERSION: u32 = 2;

/// What a build of the library has; one bit each.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_feature {
    /// Built with the standard library of its language; without it the library needs no operating system and no C library but `memcpy`,
    /// `memmove`, `memset`, `memcmp` and `bcmp`.
    SHOPHEAD_FEATURE_STD = 1,
}

/// The number of the interface that the library was built with. A program compares it with `SHOPHEAD_ABI_VERSION` of its header before
/// it calls anything else, and stops unless both are equal.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_abi_version() -> u32 {
    SHOPHEAD_ABI_VERSION
}

/// The version of the library as text, such as `0.1.0`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_version() -> shophead_text {
    shophead_text::of(env!("CARGO_PKG_VERSION"))
}

/// Which of `enum shophead_feature` the library has, one bit each. Bits that a header does not name are to be ignored.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_features() -> u32 {
    if cfg!(feature = "std") { shophead_feature::SHOPHEAD_FEATURE_STD as u32 } else { 0 }
}
