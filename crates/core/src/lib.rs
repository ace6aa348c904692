//! Solid-rivet calculations for airframe sheet metal: lengths that fill the hole, driven heads, hole dispositions, layout, joint
//! strength, access. `no_std`, no heap, no unsafe code, no panics.
//!
//! **This library advises.** The maintenance and repair manuals of the type, approved data, local rules and a licensed person decide. Figures
//! marked as memory were recalled, not read: check them before relying on them.
//!
//! # Where a rule lives
//!
//! In the order in which data flows; each module knows only those before it.
//!
//! | module | holds |
//! |---|---|
//! | [`length`] | lengths as whole nanometres: parse, print, round |
//! | [`quantity`] | forces, stresses, masses |
//! | [`words`] | how words, figures and sentences are written |
//! | [`basis`] | where a figure comes from: one table of documents and places |
//! | [`material`] | sheet alloys and their strengths, rivet alloys |
//! | [`rivet`] | part standards, dimensions, part numbers, mass |
//! | [`drill`] | number, letter and fraction drills |
//! | [`structure`] | members and places with rules of their own |
//! | [`practice`] | limits as data: two built-in sets, a shop's own on top |
//! | [`fact`] | facts that a question may lack |
//! | [`finding`] | what a check found: code, severity, measured, limit, basis |
//! | [`stack`] | the layers under one rivet and their grip |
//! | [`upset`] | the driven head: volume balance, limits, judging a measured one |
//! | [`squeeze`] | the force that squeezes a driven head |
//! | `seat` | layers countersunk or dimpled for a flush head |
//! | [`select`] | diameter from sheet; length from stack, hole and practice |
//! | [`layout`] | edge distance, pitch, rows, point patterns |
//! | [`trim`] | the cut along a panel's edge and how far holes stand from it |
//! | [`joint`] | strength of a rivet in its sheets, margins, splices |
//! | [`hole`] | a hole as found, the limits of a hole |
//! | [`installation`] | **a rivet in its stack: the one question**, with every check; the ladder of steps for a hole |
//! | [`pattern`] | which holes of a pattern may be stepped up together |
//! | [`damage`] | cracks, corrosion and soft spots beside the holes |
//! | [`access`] | must a row be bucked, can it be, and which position costs the least |
//! | [`removal`] | taking old rivets out |
//! | [`work`] | the order of work on a panel, and the bar for a rivet |
//! | [`repair`] | sizing a patch, a splice or a new panel's seams |
//! | `working` | the steps behind an answer, to redo by hand; with the feature `words` |
//!
//! # The shortest useful program
//!
//! ```
//! use shophead::installation::Installation;
//! use shophead::rivet::part::Part;
//! use shophead::stack::Stack;
//! # #[cfg(feature = "words")] {
//! use shophead::words::Units;
//!
//! let layers = Stack::parse("2024-T3:.032, 2024-T3:.040, 2024-T3:.250")?;
//! let answer = Installation::new(Part::parse("MS20470AD5")?, &layers).length()?;
//! let said: Vec<String> = answer.findings.iter().map(|finding| finding.sentence(Units::Inches).to_string()).collect();
//! assert_eq!(answer.part.unwrap().to_string(), "MS20470AD5-9");
//! assert_eq!(said, ["Diameter 5/32 is outside the rule for layer 3, limit 1/4. Check it against approved data."]);
//! # }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # What this crate does not do
//!
//! - It reads no files and prints nothing: see `shophead-job` and `shophead-cli`.
//! - It chooses no blind rivets: they come from the type's manual only.
//!
//! # Features
//!
//! | feature | on by default | what it does |
//! |---|---|---|
//! | `words` | yes | the sentences of findings and errors, and the documents and places of every [`basis`]; without it findings and errors print their word for scripts, and a basis is a number and how well it is supported |
//! | `defmt` | no | derives `defmt::Format` on public types |
//! | `serde` | no | values, and the words of every list, written and read: a length as whole nanometres, so that nothing is lost; answers and findings written |
//!
//! The crate is always `no_std`.

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

// What the package's page shows is run, too.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Page;

// In the order in which data flows: each knows only those before it.
mod setters;
mod sort;
pub mod length;
pub mod quantity;
pub mod words;
pub mod work;
#[cfg(feature = "words")]
pub mod working;
pub mod basis;
pub mod material;
pub mod rivet;
pub mod drill;
pub mod structure;
pub mod practice;
pub mod fact;
pub mod finding;
pub mod stack;
pub mod upset;
pub mod squeeze;
mod seat;
pub mod select;
#[cfg(feature = "serde")]
mod serial;
pub mod layout;
pub mod trim;
pub mod joint;
pub mod hole;
pub mod installation;
pub mod pattern;
pub mod damage;
pub mod access;
pub mod answer;
pub mod removal;
pub mod repair;
#[cfg(test)]
mod prelude;
