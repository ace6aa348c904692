//! Where a figure comes from.
//!
//! Every limit, table and finding carries a [`Basis`], so that an engineer can check it back to a page, and so that what
//! could only be recalled is never mistaken for what was read.

use core::fmt;

crate::words::words! {
    /// How well a figure is supported.
    Status, "status" {
        Shop = 1, "shop", "From a shop's own approved documents, loaded on top of a practice.";
        Published = 2, "published", "Read in the document named.";
        Practice = 3, "practice", "Common practice of the trade, without a document.";
        Memory = 4, "memory", "Recalled from the document named, or computed from such a figure, but not read there: check before relying on it.";
    }
}

/// The document and the place in it that a figure rests on.
///
/// The texts are borrowed: `'static` for what is built in, the life of the limits file for a shop's own.
///
/// ```
/// use shophead::basis::{Basis, Status};
/// let basis = Basis::published("MIL-HDBK-5H", "para 8.1.2, p 8-9");
/// assert_eq!(basis.status, Status::Published);
/// assert_eq!(basis.to_string(), "MIL-HDBK-5H, para 8.1.2, p 8-9");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Basis<'a> {
    /// The document, or `common practice`.
    pub document: &'a str,
    /// The place in it; may be empty.
    pub place: &'a str,
    /// How well this is supported.
    pub status: Status,
}

impl<'a> Basis<'a> {
    /// Read in a document.
    #[must_use]
    pub const fn published(document: &'a str, place: &'a str) -> Basis<'a> {
        Basis { document, place, status: Status::Published }
    }

    /// Recalled from a document that was not seen, or computed from such figures.
    #[must_use]
    pub const fn memory(document: &'a str, place: &'a str) -> Basis<'a> {
        Basis { document, place, status: Status::Memory }
    }

    /// Common practice; `place` says which rule.
    #[must_use]
    pub const fn practice(place: &'a str) -> Basis<'a> {
        Basis { document: "common practice", place, status: Status::Practice }
    }

    /// A shop's own document.
    #[must_use]
    pub const fn shop(document: &'a str, place: &'a str) -> Basis<'a> {
        Basis { document, place, status: Status::Shop }
    }

    /// What the basis of a finding about something missing names: what is not on file or not given. Writes nothing without a writer, and says
    /// whether there is something.
    #[cfg(feature = "words")]
    pub(crate) fn write_subject(&self, out: Option<&mut dyn fmt::Write>) -> Result<bool, fmt::Error> {
        let document = if matches!(self.document, "common practice" | "not given") { "" } else { self.document };
        let comma = if document.is_empty() || self.place.is_empty() { "" } else { ", " };
        if let Some(out) = out {
            write!(out, "{document}{comma}{}", self.place)?;
        }
        Ok(!document.is_empty() || !self.place.is_empty())
    }

    /// The weaker of two bases: what a figure made from both rests on.
    #[must_use]
    pub const fn weaker(&'a self, other: &'a Basis<'a>) -> &'a Basis<'a> {
        if other.status as u8 > self.status as u8 { other } else { self }
    }
}

/// Document and place, and `(memory)` where that is what it is.
impl fmt::Display for Basis<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.document)?;
        if !self.place.is_empty() {
            write!(f, ", {}", self.place)?;
        }
        if self.status == Status::Memory { f.write_str(" (memory)") } else { Ok(()) }
    }
}
