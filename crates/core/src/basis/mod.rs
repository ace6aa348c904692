//! Where a figure comes from.
//!
//! Every limit, table and finding carries a [`Basis`], so that an engineer can check it back to a page, and so that what
//! could only be recalled is never mistaken for what was read.
//!
//! A basis is a number. The built-in ones are constants of [`Basis`], and all stand in one table with their document and the place in it;
//! [`Basis::citation`] looks them up. A shop's own documents, and those of a caller's own part standards and factors, are a list that the
//! caller keeps: [`Basis::own`] names one by its place in the list, and [`Practice::cite`](crate::practice::Practice::cite) finds it there.
//!
//! The texts of the built-in table need the feature `words`. Without it the number and how well it is supported are left.

mod table;
#[cfg(feature = "words")]
mod topic;

#[cfg(feature = "words")]
use core::fmt;
use core::num::NonZeroU16;

#[cfg(feature = "words")]
pub use table::RULES;
#[cfg(feature = "words")]
pub use topic::Topic;

crate::words::words! {
    /// How well a figure is supported.
    Status, "status" {
        Shop = 1, "shop", "From a shop's own approved documents, loaded on top of a practice.";
        Published = 2, "published", "Read in the document named.";
        Practice = 3, "practice", "Common practice of the trade, without a document.";
        Memory = 4, "memory", "Recalled from the document named, or computed from such a figure, but not read there: check before relying on it.";
    }
}

/// Where a figure comes from, as a number: a constant of this type for what is built in, a place in the caller's list of documents for
/// what is not.
///
/// ```
/// use shophead::basis::{Basis, Document, Status};
/// let heads = Basis::HDBK5H_DRIVEN_HEADS;
/// assert_eq!(heads.status(), Status::Published);
/// # #[cfg(feature = "words")]
/// assert_eq!(heads.citation().unwrap().to_string(), "MIL-HDBK-5H, para 8.1.2, p 8-9");
///
/// let documents = [Document { document: "repair manual of the type", place: "51-40-02" }];
/// let own = Basis::own(0);
/// assert_eq!((own.status(), own.number()), (Status::Shop, 0x8000));
/// # #[cfg(feature = "words")]
/// assert_eq!(own.cite(&documents).to_string(), "repair manual of the type, 51-40-02");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Basis(NonZeroU16);

/// Set in the number of a caller's own document.
const OWN: u16 = 0x8000;
/// Where the status stands in the number.
const STATUS_SHIFT: u32 = 13;
/// The part of the number that counts places.
const PLACE: u16 = (1 << STATUS_SHIFT) - 1;

impl Basis {
    /// How many documents of their own a caller can number.
    pub const OWN_MOST: usize = PLACE as usize;

    /// A built-in one; places are counted from 1.
    const fn at(status: Status, place: u16) -> Basis {
        Basis::of((status as u16) << STATUS_SHIFT | (place & PLACE))
    }

    const fn of(number: u16) -> Basis {
        match NonZeroU16::new(number) {
            Some(number) => Basis(number),
            None => Basis(NonZeroU16::MIN),
        }
    }

    /// A shop's own document, by its place in the shop's list, counted from 0. Those from [`Basis::OWN_MOST`] on share one number, which
    /// cites nothing.
    #[must_use]
    pub const fn own(place: usize) -> Basis {
        Basis::own_as(Status::Shop, place)
    }

    /// A document of the caller's own that supports its figure no better than this.
    #[must_use]
    pub const fn own_as(status: Status, place: usize) -> Basis {
        let place = if place < Basis::OWN_MOST { place as u16 } else { PLACE };
        Basis::of(OWN | (status as u16) << STATUS_SHIFT | place)
    }

    /// The number: from 0x8000 on one of the caller's own documents. Numbers of built-in ones hold for one version of this crate.
    #[must_use]
    pub const fn number(self) -> u16 {
        self.0.get()
    }

    /// The place in the caller's list of documents, counted from 0; `None` for a built-in one.
    #[must_use]
    pub const fn own_place(self) -> Option<usize> {
        if self.number() & OWN == 0 { None } else { Some((self.number() & PLACE) as usize) }
    }

    /// How well this is supported.
    #[must_use]
    pub const fn status(self) -> Status {
        match (self.number() & !OWN) >> STATUS_SHIFT {
            0 => Status::Shop,
            1 => Status::Published,
            2 => Status::Practice,
            _ => Status::Memory,
        }
    }

    /// The weaker of two bases: what a figure made from both rests on.
    #[must_use]
    pub const fn weaker(self, other: Basis) -> Basis {
        if other.status() as u8 > self.status() as u8 { other } else { self }
    }

    /// What a built-in basis cites; `None` for one of the caller's own.
    #[cfg(feature = "words")]
    #[must_use]
    pub fn citation(self) -> Option<Citation<'static>> {
        let place =
            usize::from(self.number()).checked_sub(1).filter(|_| self.own_place().is_none())? & usize::from(PLACE);
        table::TEXTS.get(place).map(|&(document, place)| Citation { document, place, status: self.status() })
    }

    /// What it cites: a built-in one its own document, one of the caller's that of this list. A place beyond the list cites nothing: its
    /// document is empty.
    #[cfg(feature = "words")]
    #[must_use]
    pub fn cite<'a>(self, documents: &'a [Document<'a>]) -> Citation<'a> {
        self.citation().unwrap_or_else(|| {
            let own = self.own_place().filter(|place| *place < Basis::OWN_MOST).and_then(|place| documents.get(place));
            let Document { document, place } = own.copied().unwrap_or(Document { document: "", place: "" });
            Citation { document, place, status: self.status() }
        })
    }
}

/// A document of the caller's own, and a place in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Document<'a> {
    /// The document.
    pub document: &'a str,
    /// The place in it; may be empty.
    pub place: &'a str,
}

/// A basis in words: the document, the place in it, and how well that supports the figure.
#[cfg(feature = "words")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Citation<'a> {
    /// The document, or `common practice`.
    pub document: &'a str,
    /// The place in it; may be empty.
    pub place: &'a str,
    /// How well this is supported.
    pub status: Status,
}

#[cfg(feature = "words")]
impl Citation<'_> {
    /// What the basis of a finding about something missing names: what is not on file or not given. Writes nothing without a writer, and says
    /// whether there is something.
    pub(crate) fn write_subject(&self, out: Option<&mut dyn fmt::Write>) -> Result<bool, fmt::Error> {
        let document = if matches!(self.document, "common practice" | "not given") { "" } else { self.document };
        let comma = if document.is_empty() || self.place.is_empty() { "" } else { ", " };
        if let Some(out) = out {
            write!(out, "{document}{comma}{}", self.place)?;
        }
        Ok(!document.is_empty() || !self.place.is_empty())
    }
}

/// Document and place, and `(memory)` where that is what it is.
#[cfg(feature = "words")]
impl fmt::Display for Citation<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.document)?;
        if !self.place.is_empty() {
            write!(f, ", {}", self.place)?;
        }
        if self.status == Status::Memory { f.write_str(" (memory)") } else { Ok(()) }
    }
}

/// A rule that stands in a document and not in a table of figures.
#[cfg(feature = "words")]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Rule {
    /// What it is about.
    pub topic: Topic,
    /// Which rule it is.
    pub subject: &'static str,
    /// Its source.
    pub basis: Basis,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_table_cites_its_own_document() {
        for (place, basis) in Basis::ALL.iter().enumerate() {
            assert_eq!(usize::from(basis.number() & PLACE), place + 1);
            assert_eq!(basis.own_place(), None);
        }
        assert!(Basis::ALL.len() < usize::from(PLACE));
    }

    #[cfg(feature = "words")]
    #[test]
    fn no_document_and_place_stands_twice_in_the_table() {
        for (index, basis) in Basis::ALL.iter().enumerate() {
            let cited = basis.citation().unwrap();
            assert!(!cited.document.is_empty());
            assert_eq!(cited.status, basis.status());
            assert!(Basis::ALL.iter().skip(index + 1).all(|other| other.citation() != Some(cited)), "{cited} twice");
        }
        assert_eq!(Basis::HDBK5H_DRIVEN_HEADS.citation().unwrap().place, "para 8.1.2, p 8-9");
    }

    #[cfg(feature = "words")]
    #[test]
    fn a_document_without_a_place_is_a_subject_and_nothing_is_none() {
        let subject = |document, place| {
            let mut text = heapless::String::<64>::new();
            let any = Citation { document, place, status: Status::Published }.write_subject(Some(&mut text)).unwrap();
            (any, text)
        };
        let said = |any, text: &str| (any, heapless::String::try_from(text).unwrap());
        assert_eq!(subject("", ""), said(false, ""));
        assert_eq!(subject("MS20470", ""), said(true, "MS20470"));
        assert_eq!(subject("", "its head"), said(true, "its head"));
        assert_eq!(subject("not given", "its head"), said(true, "its head"));
        assert_eq!(subject("MS20470", "its head"), said(true, "MS20470, its head"));
    }

    #[test]
    fn an_own_document_keeps_its_status_and_its_place() {
        for status in [Status::Shop, Status::Published, Status::Practice, Status::Memory] {
            for place in [0, 1, 77, Basis::OWN_MOST - 1] {
                let own = Basis::own_as(status, place);
                assert_eq!((own.status(), own.own_place()), (status, Some(place)));
            }
        }
        assert_eq!(Basis::own(3).number(), 0x8003);
    }

    #[cfg(feature = "words")]
    #[test]
    fn a_document_that_is_not_there_is_not_taken_for_another() {
        let documents = [Document { document: "repair manual", place: "51-40" }; Basis::OWN_MOST + 2];
        assert_eq!(Basis::own(Basis::OWN_MOST - 1).cite(&documents).document, "repair manual");
        for place in [Basis::OWN_MOST, Basis::OWN_MOST + 1, 70_000] {
            assert_eq!(Basis::own(place).cite(&documents).document, "");
        }
        assert_eq!(Basis::own(1).cite(&documents[..1]).document, "");
    }

    #[test]
    fn the_weaker_of_two_is_what_is_left() {
        let (read, recalled) = (Basis::AC43_EDGE, Basis::FAA_31_LAYOUT);
        assert_eq!(read.weaker(recalled), recalled);
        assert_eq!(recalled.weaker(read), recalled);
        assert_eq!(Basis::own(0).weaker(read), read);
        assert_eq!(read.weaker(Basis::HDBK5H_DRIVEN_HEADS), read);
        assert_eq!(size_of::<Option<Basis>>(), 2);
    }
}
