//! Where a figure comes from.

use shophead::basis::{Basis, Citation, Document, Status};
use shophead::length::Length;
use shophead::practice::Given;

use crate::length::or_none;
use crate::numbers::numbered;
use crate::text::shophead_text;

/// How well a figure is supported; the later, the worse.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_status {
    /// No figure, no basis.
    SHOPHEAD_STATUS_NONE = 0,
    /// From a shop's own approved documents, handed in as a limit.
    SHOPHEAD_STATUS_SHOP = 1,
    /// Read in the document named.
    SHOPHEAD_STATUS_PUBLISHED = 2,
    /// A rule of thumb that the trade uses; no document stands behind it.
    SHOPHEAD_STATUS_PRACTICE = 3,
    /// Recalled from the document named, or computed from such a figure, but not read there: check before relying on it.
    SHOPHEAD_STATUS_MEMORY = 4,
}

numbered! {
    Status, shophead_status [
        Shop = SHOPHEAD_STATUS_SHOP,
        Published = SHOPHEAD_STATUS_PUBLISHED,
        Practice = SHOPHEAD_STATUS_PRACTICE,
        Memory = SHOPHEAD_STATUS_MEMORY,
    ]
}

/// The document and the place in it that a figure rests on.
///
/// Owner of the texts: the library, for as long as it is loaded. Of a shop's own limit they are the texts that the caller handed in, and
/// last as long as the caller keeps them.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_basis {
    /// The document, or `common practice`.
    pub document: shophead_text,
    /// The place in it; may be empty.
    pub place: shophead_text,
    /// How well it is supported.
    pub status: shophead_status,
}

impl shophead_basis {
    pub(crate) const NONE: shophead_basis = shophead_basis {
        document: shophead_text::of(""),
        place: shophead_text::of(""),
        status: shophead_status::SHOPHEAD_STATUS_NONE,
    };

    /// What it cites: one of the library's documents, or one of these of the caller's.
    pub(crate) fn of(basis: Basis, documents: &[Document<'_>]) -> shophead_basis {
        let Citation { document, place, status } = basis.cite(documents);
        shophead_basis { document: shophead_text::of(document), place: shophead_text::of(place), status: status.into() }
    }
}

/// A length and where it comes from.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_given {
    /// The length in nanometres; `SHOPHEAD_NONE` where there is no such figure.
    pub nm: i64,
    /// Where it comes from; its status is `SHOPHEAD_STATUS_NONE` where there is no such figure.
    pub basis: shophead_basis,
}

impl shophead_given {
    pub(crate) fn of(given: Option<Given<Length>>, documents: &[Document<'_>]) -> shophead_given {
        shophead_given {
            nm: or_none(given.map(|given| given.value)),
            basis: given.map_or(shophead_basis::NONE, |given| shophead_basis::of(given.basis, documents)),
        }
    }
}
