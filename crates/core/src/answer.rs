//! Answers to referrals: what the holder of the type's data or a licensed person decided about a hole or a row.
//!
//! An answer is theirs: it is carried as it was given, and never changed. What it breaks of a published limit is said as a caution. One
//! thing is not taken: a blind rivet where the documents at hand bar it, since no answer here can stand for the data of the type.

use crate::access::{SolidBecause, solid_required};
use crate::drill::Drill;
use crate::practice::Given;
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::structure::{Member, Place, Structure};

crate::words::words! {
    /// What is to be done about something that was referred.
    #[non_exhaustive]
    Ruling, "answer" {
        Keep = 1, "keep", "Go ahead as it is.";
        CleanUp = 2, "clean-up", "Clean up the hole: drill or ream it for the same rivet.";
        Oversize = 3, "oversize", "Open the hole for an oversize shank.";
        NextSize = 4, "next-size", "Open the hole for the next larger diameter.";
        Rivet = 5, "rivet", "Put in the rivet that is named.";
        Hole = 6, "hole", "Open the hole with the drill that is named.";
        Repair = 7, "repair", "Repair the sheet or the member first, as the document says.";
        Blind = 8, "blind", "Put in the blind rivet that is named.";
    }
}

impl Ruling {
    /// Why this is not taken for a row, even as an answer; `None` where it is.
    ///
    /// ```
    /// use shophead::answer::Ruling;
    /// use shophead::structure::{Member, Structure};
    /// let row = |structure| Ruling::Blind.barred(structure, Member::Rib, &[]);
    /// assert!(row(Structure::Primary).is_some());
    /// assert_eq!(row(Structure::Secondary), None);
    /// assert_eq!(Ruling::Repair.barred(Structure::Primary, Member::SparCap, &[]), None);
    /// ```
    #[must_use]
    pub fn barred(self, structure: Structure, member: Member, places: &[Place]) -> Option<Given<SolidBecause>> {
        if self == Ruling::Blind { solid_required(structure, member, places) } else { None }
    }
}

/// What was answered: what is to be done, with which rivet, opened with which drill.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Answered<'a> {
    /// What is to be done.
    pub ruling: Ruling,
    /// The rivet, where the answer names one; with a length where that is part of the answer.
    pub rivet: Option<Part<'a>>,
    /// The drill or reamer, where the answer names one.
    pub drill: Option<Drill>,
}

impl<'a> Answered<'a> {
    /// This is to be done; no rivet and no drill named.
    #[must_use]
    pub const fn new(ruling: Ruling) -> Answered<'a> {
        Answered { ruling, rivet: None, drill: None }
    }

    setters! {
        /// With this rivet.
        rivet: Option<Part<'a>>;
        /// Opened with this drill or reamer.
        drill: Option<Drill>;
    }
}
