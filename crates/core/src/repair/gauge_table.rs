//! Sheet thicknesses that are made, in two lists.
//!
//! AC 43.13-1B tables 4-9 to 4-11 have the older gauges; table 8.1.2.1(a) of MIL-HDBK-5 has those of today, recalled. Thickness in
//! thousandths of an inch.

use crate::basis::Basis;
use crate::length::Length;
use crate::practice::Given;

/// The gauges of AC 43.13-1B tables 4-9 to 4-11.
pub const CIRCULAR: &[u16] = &[16, 20, 25, 32, 36, 40, 51, 64, 81, 91, 102, 128];
/// The gauges of MIL-HDBK-5 table 8.1.2.1(a).
pub const HANDBOOK: &[u16] = &[12, 16, 18, 20, 25, 32, 40, 50, 63, 71, 80, 90, 100, 125, 160, 190, 250];

const fn length(thousandths: u16) -> Length {
    Length::from_ten_thousandths(thousandths.saturating_mul(10))
}

/// The gauges of both lists in rising order, each once.
pub fn gauges() -> impl Iterator<Item = Length> {
    let of_both = (0_u16..=250).filter(|gauge| CIRCULAR.contains(gauge) || HANDBOOK.contains(gauge));
    of_both.map(length)
}

/// The next heavier gauge: of the list that has this one, today's first; else the next above it in today's list.
///
/// ```
/// use shophead::length::Length;
/// use shophead::repair::gauge_table::next_heavier;
/// let next = |text| next_heavier(Length::parse(text).unwrap()).map(|gauge| gauge.value.to_string());
/// assert_eq!((next(".032").as_deref(), next(".064").as_deref()), (Some("0.040"), Some("0.081")));
/// assert_eq!(next(".250"), None);
/// ```
#[must_use]
pub fn next_heavier(thickness: Length) -> Option<Given<Length>> {
    let has = |list: &[u16]| list.iter().any(|gauge| length(*gauge) == thickness);
    let (list, basis): (&[u16], Basis) =
        if !has(HANDBOOK) && has(CIRCULAR) { (CIRCULAR, Basis::AC43_GAUGES) } else { (HANDBOOK, Basis::HDBK5J_GAUGES) };
    let value = list.iter().map(|gauge| length(*gauge)).find(|gauge| *gauge > thickness)?;
    Some(Given { value, basis })
}

/// The least gauge of either list that is no thinner; the thickness itself where none is.
#[must_use]
pub fn at_least(thickness: Length) -> Length {
    gauges().find(|gauge| *gauge >= thickness).unwrap_or(thickness)
}
