//! The sheet materials that a document names, whether or not it gives strengths for them.
//!
//! First MIL-HDBK-5J (31 January 2003), tables 3.2.3.0(b1) to 3.7.6.0(c2), in printed order, each material with the first table in which
//! it stands; a column for two tempers makes two materials. Then what AC 43.13-1B, tables 4-9 to 4-11, names beyond those: strengths
//! for them were not read. An empty temper stands where the table names none: 2017, and 5052 in all hardnesses.

use super::named::Named;
use crate::basis::Basis;

const fn named(alloy: &'static str, temper: &'static str, clad: bool, basis: Basis<'static>) -> Named {
    Named { alloy, temper, clad, basis }
}

const fn read(place: &'static str) -> Basis<'static> {
    Basis::published("MIL-HDBK-5J", place)
}

const fn splice(place: &'static str) -> Basis<'static> {
    Basis::published("AC 43.13-1B", place)
}

/// Every material known by name.
#[rustfmt::skip]
pub(super) const NAMES: &[Named] = &[
    // alloy, temper, clad, where it is named
    named("2024", "T3", false, read("table 3.2.3.0(b1), p 3-71")),
    named("2024", "T351", false, read("table 3.2.3.0(b1), p 3-71")),
    named("2024", "T361", false, read("table 3.2.3.0(b1), p 3-71")),
    named("2024", "T4", false, read("table 3.2.3.0(b2), p 3-72")),
    named("2024", "T42", false, read("table 3.2.3.0(b2), p 3-72")),
    named("2024", "T62", false, read("table 3.2.3.0(b2), p 3-72")),
    named("2024", "T81", false, read("table 3.2.3.0(b3), p 3-73")),
    named("2024", "T3", true, read("table 3.2.3.0(e1), p 3-75")),
    named("2024", "T351", true, read("table 3.2.3.0(e1), p 3-75")),
    named("2024", "T361", true, read("table 3.2.3.0(e2), p 3-76")),
    named("2024", "T4", true, read("table 3.2.3.0(e2), p 3-76")),
    named("2024", "T42", true, read("table 3.2.3.0(e3), p 3-77")),
    named("2024", "T62", true, read("table 3.2.3.0(e3), p 3-77")),
    named("2024", "T81", true, read("table 3.2.3.0(e4), p 3-78")),
    named("5052", "O", false, read("table 3.5.1.0(b1), p 3-220")),
    named("5052", "H32", false, read("table 3.5.1.0(b1), p 3-220")),
    named("5052", "H34", false, read("table 3.5.1.0(b1), p 3-220")),
    named("5052", "H36", false, read("table 3.5.1.0(b1), p 3-220")),
    named("5052", "H38", false, read("table 3.5.1.0(b1), p 3-220")),
    named("6061", "T4", false, read("table 3.6.2.0(b1), p 3-264")),
    named("6061", "T42", false, read("table 3.6.2.0(b1), p 3-264")),
    named("6061", "T6", false, read("table 3.6.2.0(b1), p 3-264")),
    named("6061", "T62", false, read("table 3.6.2.0(b1), p 3-264")),
    named("7075", "T6", false, read("table 3.7.6.0(b1), p 3-371")),
    named("7075", "T62", false, read("table 3.7.6.0(b1), p 3-371")),
    named("7075", "T651", false, read("table 3.7.6.0(b1), p 3-371")),
    named("7075", "T73", false, read("table 3.7.6.0(b3), p 3-373")),
    named("7075", "T76", false, read("table 3.7.6.0(b4), p 3-374")),
    named("7075", "T6", true, read("table 3.7.6.0(c1), p 3-375")),
    named("7075", "T62", true, read("table 3.7.6.0(c2), p 3-376")),
    named("2014", "T6", false, splice("table 4-9, p 4-37")),
    named("2014", "T6", true, splice("table 4-9, p 4-37")),
    named("2017", "", false, splice("table 4-10, p 4-38")),
    named("2017", "", true, splice("table 4-10, p 4-38")),
    named("2024", "T36", false, splice("table 4-9, p 4-37")),
    named("2024", "T36", true, splice("table 4-9, p 4-37")),
    named("5052", "", false, splice("table 4-11, p 4-39")),
];
