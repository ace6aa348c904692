//! The force that squeezes a driven head.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::squeeze::{flow_law, squeeze};

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{Sink, shophead_finding, shophead_span};
use crate::length::length;
use crate::part::shophead_part;

/// The force to form a driven head.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_squeeze {
    /// By the law, in pounds.
    pub force_lbf: f64,
    /// With the scatter of the tests below it.
    pub least_lbf: f64,
    /// With the scatter of the tests above it: choose the squeezer by this one.
    pub greatest_lbf: f64,
    /// Source of the law.
    pub basis: shophead_basis,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// Finds the force that squeezes a driven head.
///
/// Takes: `part`, the caller's; its length does not matter; `head_nm`, how wide the driven head is to be. Writes: `force`; `findings`, an
/// array of the caller's with room for `capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: `SHOPHEAD_ERROR_NO_SQUEEZE_TESTS`, `SHOPHEAD_ERROR_SQUEEZE_HEAD`; those of a part; `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_squeeze_find(
    part: In<shophead_part>,
    head_nm: i64,
    force: Out<shophead_squeeze>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = force.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        let (part, head) = (part.one()?.read()?, length(head_nm)?);
        let law = flow_law(part.alloy()).ok_or(E::SHOPHEAD_ERROR_NO_SQUEEZE_TESTS)?;
        let found = squeeze(law, part.size().shank_nominal, head)?;
        sink.need([&found.findings])?;
        place.put(shophead_squeeze {
            force_lbf: found.force.lbf(),
            least_lbf: found.least.lbf(),
            greatest_lbf: found.greatest.lbf(),
            basis: shophead_basis::of(found.basis, &[]),
            findings: sink.put(&found.findings, &[]),
        });
        Ok(())
    })
}
