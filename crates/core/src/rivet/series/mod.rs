//! The built-in part standards: one table a file.

mod ms20426;
mod ms20427;
mod ms20470;
mod ms20613;
mod ms20615;
mod nas1097;
mod nas1198;
mod nas1241;
mod nas1242;
mod nas9313;

pub use ms20426::MS20426;
pub use ms20427::MS20427;
pub use ms20470::MS20470;
pub use ms20613::MS20613;
pub use ms20615::MS20615;
pub use nas1097::NAS1097;
pub use nas1198::NAS1198;
pub use nas1241::NAS1241;
pub use nas1242::NAS1242;
pub use nas9313::NAS9313;

use super::{HeadSize, MaterialLetter, Series, Size};
use crate::basis::Basis;
use crate::length::{Interval, Length};
use crate::material::RivetAlloy;

/// Every built-in series. Where two have the same head and alloy, the commoner one stands first.
pub static CATALOGUE: &[&Series<'static>] =
    &[&MS20470, &MS20426, &NAS1097, &NAS1241, &NAS1242, &NAS9313, &MS20427, &MS20615, &MS20613, &NAS1198];

/// Thousandths of an inch, as the tables print them.
const fn thousandths(count: u16) -> Length {
    Length::from_ten_thousandths(count.saturating_mul(10))
}

const fn between(min: u16, max: u16) -> Option<Interval> {
    match Interval::new(thousandths(min), thousandths(max)) {
        Ok(limits) => Some(limits),
        Err(_) => None,
    }
}

/// A size of which only the dash number is known.
const fn bare(dash: u8, basis: Basis) -> Size {
    Size {
        dash,
        shank_nominal: Length::THIRTY_SECOND.times(dash as u32, 1),
        shank: None,
        head: None,
        shortest_tabulated: None,
        longest_tabulated: None,
        basis,
    }
}

/// A size with the limits of its shank in thousandths.
const fn shank(dash: u8, min: u16, max: u16, head: HeadSize, basis: Basis) -> Size {
    Size { shank: between(min, max), head: Some(HeadSize { basis, ..head }), ..bare(dash, basis) }
}

/// A size of an oversize series: the standard diameter and 1/64 in, with the tolerance of the standard shank, +.003 -.001.
const fn oversize(dash: u8, basis: Basis) -> Size {
    let standard = bare(dash, basis);
    let shank_nominal = standard.shank_nominal.plus(OVERSIZE_STEP);
    let limits = Interval::of(shank_nominal.minus(thousandths(1)), shank_nominal.plus(thousandths(3)));
    Size { shank_nominal, shank: Some(limits), ..standard }
}

const OVERSIZE_STEP: Length = Length::from_64ths(1);

const fn material(code: &'static str, alloy: RivetAlloy, basis: Basis) -> MaterialLetter<'static> {
    MaterialLetter { code, alloy, new_design: true, basis }
}
