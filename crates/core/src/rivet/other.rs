//! Part standards that are known by name but whose numbers are not read.
//!
//! Superseded series: AC 43.13-1B, para 4-57, table 4-8. Blind rivets: para 7-2j. A successor is one that the table prints; no other is
//! taken for it because its name looks alike. The series that have one successor stand with it, in
//! [`Series::supersedes`](super::Series::supersedes).

use core::fmt;

use crate::basis::Basis;

/// Why the numbers of a part standard are not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum WhyNotRead {
    /// The table that lists the superseded series prints no successor for it.
    NoSuccessor {
        /// Its head.
        head: &'static str,
    },
    /// Its material decides which of two series takes its place.
    SuccessorByMaterial {
        /// For steel.
        steel: &'static str,
        /// For the other metals.
        others: &'static str,
    },
    /// A blind rivet: it is not driven, and nothing here holds for it.
    Blind,
}

/// A part standard known by name only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct NotRead {
    /// Its names, in capitals; the first is the one that the document prints.
    pub names: &'static [&'static str],
    /// Why its numbers are not read.
    pub why: WhyNotRead,
    /// Its source.
    pub basis: Basis,
}

const fn blind(names: &'static [&'static str]) -> NotRead {
    NotRead { names, why: WhyNotRead::Blind, basis: Basis::AC43_BLIND }
}

/// Every part standard that is known by name only.
pub static NOT_READ: &[NotRead] = &[
    NotRead {
        names: &["AN425"],
        why: WhyNotRead::NoSuccessor { head: "78 degree countersunk" },
        basis: Basis::AC43_T4_8_SUPERSEDED,
    },
    NotRead {
        names: &["AN435"],
        why: WhyNotRead::SuccessorByMaterial { steel: "MS20613", others: "MS20615" },
        basis: Basis::AC43_T4_8_SUPERSEDED,
    },
    NotRead { names: &["AN441"], why: WhyNotRead::NoSuccessor { head: "flat" }, basis: Basis::AC43_T4_8_SUPERSEDED },
    blind(&["NASM20600", "MS20600"]),
    blind(&["NASM20601", "MS20601"]),
    blind(&["NASM20602", "MS20602"]),
    blind(&["NASM20603", "MS20603"]),
    blind(&["NASM20604", "MS20604"]),
    blind(&["NASM20605", "MS20605"]),
    blind(&["NAS1398"]),
    blind(&["NAS1399"]),
    blind(&["NAS1738"]),
    blind(&["NAS1739"]),
];

impl NotRead {
    /// The part standard with this name, capitals or not.
    ///
    /// ```
    /// use shophead::rivet::other::{NotRead, WhyNotRead};
    /// assert_eq!(NotRead::named("nas1398").map(|other| other.why), Some(WhyNotRead::Blind));
    /// assert_eq!(NotRead::named("AN470"), None, "MS20470 supersedes it");
    /// ```
    #[must_use]
    pub fn named(name: &str) -> Option<&'static NotRead> {
        NOT_READ.iter().find(|other| other.names.iter().any(|known| known.eq_ignore_ascii_case(name)))
    }

    /// The name that the document prints.
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.names.first().copied().unwrap_or_default()
    }
}

/// What it is and what to do.
impl fmt::Display for NotRead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = self.name();
        match self.why {
            WhyNotRead::NoSuccessor { head } => write!(
                f,
                "{name} has a {head} head and no printed successor; a rivet with another head does not take its place: ask for the drawing"
            ),
            WhyNotRead::SuccessorByMaterial { steel, others } => {
                write!(f, "{name} is superseded by {steel} in steel and {others} in other metals; give the new number")
            }
            WhyNotRead::Blind => {
                write!(f, "{name} is a blind rivet; only driven solid rivets are read here: open the type's manual")
            }
        }
    }
}
