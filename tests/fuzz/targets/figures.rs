#![no_main]
//! The figures of a command line. Core alone is built into this program: what it must look through after each run is little, so that it is fast.

#[path = "../src/printed.rs"]
mod printed;

use printed::{from_str, printed_and_read};
use shophead::drill::Drill;
use shophead::length::{Length, Toleranced};
use shophead::quantity::{Force, Stress};

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let length = from_str::<Length>(text);
    if let Some(length) = length.filter(|length| *length >= Length::ZERO) {
        let nanometres = length.nanometres();
        let exact = format!("{}.{:06}mm", nanometres / 1_000_000, nanometres % 1_000_000);
        assert_eq!(from_str(&exact), Some(length), "{text:?}");
    }
    printed_and_read(text, from_str::<Drill>);
    let _ = from_str::<Force>(text).map(|force| assert!(force.lbf().is_finite()));
    let _ = Stress::parse(text).map(|stress| assert!(stress.psi().is_finite()));
    let _ = Toleranced::parse(text).map(|read| assert!(read.min() <= read.nominal() && read.nominal() <= read.max()));
});
