//! Where a figure comes from.

use shophead::basis::{Basis, Citation, Document};
use shophead::length::Length;
use shophead::practice::Given;

use crate::length::or_none;
use crate::text::shophead_text;

/// How well a figure is supported; the later, the worse.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_status(pub u32);

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
    pub(crate) const NONE: shophead_basis =
        shophead_basis { document: shophead_text::of(""), place: shophead_text::of(""), status: shophead_status(0) };

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
