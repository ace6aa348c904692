//! Sizing a repair: from measured damage to sheets, rivets and where they stand.
//!
//! | module | sizes |
//! |---|---|
//! | [`patch`] | a patch or doubler over a hole or a crack: outside, behind, or flush with a filler |
//! | [`splice`] | a stringer, flange or frame spliced leg by leg |
//! | [`seam`] | a seam of two sheets alike: count, rows, how much of the sheet it develops |
//! | [`panel`] | skin replaced from member to member, its seams copied |
//! | [`strip`] | rows that are counted one by one: 1-3-1 |
//! | [`solve`] | pitch, rows, diameter, edge or gauge for a wanted margin |
//!
//! They share [`count`] (rivets an inch, by table and by computation), [`in_row`] (everything about one rivet of a row), [`bend`],
//! [`gauge_table`], [`site`] (where a published method applies) and [`told`] (what is told with a repair).
//!
//! The rules are those of AC 43.13-1B chapter 4 and FAA-H-8083-31B chapter 4; each names its place. Those handbooks describe typical
//! repairs and give no authority by themselves: every repair lists what must be asked first. Where no published method applies
//! ([`site::Sizing::Refused`]) nothing is sized.

pub mod bend;
pub mod bend_table;
pub mod count;
pub mod gauge_table;
pub mod in_row;
pub mod panel;
pub mod patch;
pub mod seam;
pub mod site;
pub mod solve;
pub mod splice;
pub mod strip;
pub mod told;
#[cfg(feature = "words")]
pub mod unused;
