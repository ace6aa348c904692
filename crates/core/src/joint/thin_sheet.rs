//! The factor on rivet shear in thin sheet, where the rivet bears so hard on the sheet that it shears early.
//!
//! MIL-HDBK-5J section 8.1.2.1 and table 8.1.2.1(b), in public copies of the table: 65 cells were read, and these formulas hold within
//! .002 of each when D is the nominal rivet diameter, not the hole. For aluminium rivets with protruding heads.

use super::strength::Shear;
use crate::length::{Length, product};

/// The figures for one kind of joint: `factor = 1 - slope × (D/t - start)`.
struct Rule {
    slope: f64,
    start: f64,
    /// Thickness over diameter, in hundredths, from which the factor is 1.
    full_from: i64,
}

const SINGLE: Rule = Rule { slope: 0.04, start: 3.0, full_from: 33 };
const DOUBLE: Rule = Rule { slope: 0.13, start: 1.5, full_from: 67 };

/// Least thickness over diameter, in hundredths, that the published bearing strengths cover (MIL-HDBK-5H section 8.1.2.1, p 8-9).
const LEAST: i64 = 18;

/// Least thickness over diameter that the published bearing strengths cover.
pub const LEAST_RATIO: f64 = 0.18;

/// Whether `thickness / diameter` is at least so many hundredths; exact.
fn reaches(thickness: Length, diameter: Length, hundredths: i64) -> bool {
    let scaled = |length: Length, by: i64| product(i128::from(length.nanometres()), i128::from(by));
    scaled(thickness, 100) >= scaled(diameter, hundredths)
}

/// Whether a sheet is thick enough for its hole to be covered at all, t/D not below 0.18: the first printed cell of every size is the first
/// gauge that reaches that by the hole, not by the rivet.
#[must_use]
pub fn is_covered(thickness: Length, hole: Length) -> bool {
    reaches(thickness, hole, LEAST)
}

/// The factor on rivet shear: never above 1.
///
/// `thickness` is that of the thinnest sheet in single shear and of the middle sheet in double shear, `diameter` the nominal rivet
/// diameter. `None` below t/D = 0.18, where nothing is published, and for lengths of zero or less; [`is_covered`] asks the same of the hole.
///
/// ```
/// use shophead::joint::{strength::Shear, thin_sheet};
/// use shophead::length::Length;
/// let factor = thin_sheet::factor(Shear::Single, Length::parse(".080")?, Length::parse("5/16")?);
/// assert!((factor.expect("thick enough") - 0.964).abs() < 0.0005);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn factor(shear: Shear, thickness: Length, diameter: Length) -> Option<f64> {
    // No sheet of no thickness covers a rivet.
    if diameter <= Length::ZERO || !is_covered(thickness, diameter) {
        return None;
    }
    let rule = match shear {
        Shear::Single => SINGLE,
        Shear::Double => DOUBLE,
    };
    if reaches(thickness, diameter, rule.full_from) {
        return Some(1.0);
    }
    let slenderness = diameter.to_inches_f64() / thickness.to_inches_f64();
    Some((1.0 - rule.slope * (slenderness - rule.start)).min(1.0))
}
