//! What a rivet weighs, from its geometry.
//!
//! m = ρ (V_head + V_shank). A protruding head is taken as a spherical cap, V = π h / 6 (3 (A/2)² + h²), with A its diameter and h its
//! height; a flush head as the frustum of its cone, V = π k / 12 (A² + A D + D²), which the length counts, so that the shank is
//! L - k long.
//!
//! The formulas reproduce the mass tables of DIN 660 (round heads, within 1.3 %) and DIN 661 (countersunk heads, within 0.4 %). A
//! universal head is flatter than a cap, with rounded sides, and no table of its mass could be read: it
//! may be ten per cent off. That is a judgement, not a published figure: the head lies between the cap and the cylinder around it. Where it
//! matters, weigh a hundred.

use core::f64::consts::PI;

use super::part::Part;
use super::{Head, Series, Size};
use crate::length::Length;
use crate::quantity::Mass;

/// The volume of a spherical cap in cubic inches.
///
/// V = π h / 6 (3 (A/2)² + h²).
#[must_use]
pub fn cap_in3(diameter: Length, height: Length) -> f64 {
    let (radius, height) = (diameter.to_inches_f64() / 2.0, height.to_inches_f64());
    PI * height / 6.0 * (3.0 * radius * radius + height * height)
}

/// The volume of a frustum in cubic inches, from the diameters of its ends.
///
/// V = π k / 12 (A² + A D + D²).
#[must_use]
pub fn frustum_in3(large: Length, small: Length, height: Length) -> f64 {
    let (large, small) = (large.to_inches_f64(), small.to_inches_f64());
    PI * height.to_inches_f64() / 12.0 * (large * large + large * small + small * small)
}

/// The volume of a cylinder in cubic inches.
#[must_use]
pub fn cylinder_in3(diameter: Length, length: Length) -> f64 {
    let diameter = diameter.to_inches_f64();
    PI / 4.0 * diameter * diameter * length.to_inches_f64()
}

/// The volume of a rivet in cubic inches, with its length as its head measures it: under a protruding head, overall for a flush
/// one.
///
/// `None` where the rivet has no shank left: a length of nothing, or a flush rivet no longer than its head.
///
/// ```
/// use shophead::length::Length;
/// use shophead::rivet::{Head, mass::rivet_in3};
/// // DIN 660, 4 x 20: 2.40 kg per thousand at 7.85 kg/dm3.
/// let mm = |text| Length::parse(text).unwrap();
/// let volume = rivet_in3(Head::Universal, mm("7mm"), mm("2.4mm"), mm("4mm"), mm("20mm")).unwrap();
/// let kg_per_thousand = volume * 25.4_f64.powi(3) * 7.85e-6 * 1000.0;
/// assert_eq!(format!("{kg_per_thousand:.2}"), "2.39");
/// ```
#[must_use]
pub fn rivet_in3(
    head: Head,
    head_diameter: Length,
    head_height: Length,
    shank_diameter: Length,
    length: Length,
) -> Option<f64> {
    let (head_volume, shank) = if head.is_flush() {
        (frustum_in3(head_diameter, shank_diameter, head_height), length.checked_sub(head_height)?)
    } else {
        (cap_in3(head_diameter, head_height), length)
    };
    (shank > Length::ZERO).then(|| head_volume + cylinder_in3(shank_diameter, shank))
}

/// The mass of one rivet; an estimate, for a universal head within ten per cent.
///
/// The density is in pounds per cubic inch. `None` for a family without length, where the head's dimensions are not known (the
/// oversize series), and for a density that is not a positive number.
///
/// ```
/// use shophead::rivet::{mass::mass_each, part::Part};
/// let each = mass_each(&Part::parse("MS20470AD4-5").unwrap(), 0.099).unwrap();
/// assert_eq!(format!("{:.2} lb per thousand", each.lb() * 1000.0), "0.53 lb per thousand");
/// ```
#[must_use]
pub fn mass_each(part: &Part<'_>, density_lb_in3: f64) -> Option<Mass> {
    mass_of_size(part.series(), part.size(), part.length()?, density_lb_in3)
}

/// The mass of one rivet of this size and length; as [`mass_each`].
///
/// Nominal shank and head diameter. A protruding head has the middle of its height limits, a flush head the height of the cone between
/// the two diameters.
#[must_use]
pub fn mass_of_size(series: &Series<'_>, size: &Size, length: Length, density_lb_in3: f64) -> Option<Mass> {
    if !(density_lb_in3.is_finite() && density_lb_in3 > 0.0) {
        return None;
    }
    let head = size.head?;
    let height = size.head_height_counted(series.head)?;
    let volume = rivet_in3(series.head, head.diameter_nominal, height, size.shank_nominal, length)?;
    Some(Mass::from_lb(volume * density_lb_in3))
}

impl Size {
    /// The height that the mass of a head counts: of a protruding one the middle of its limits, of a flush one that of its cone.
    pub(crate) fn head_height_counted(&self, form: Head) -> Option<Length> {
        let head = self.head?;
        Some(match (self.cone_height(form), head.height) {
            (Some(cone), _) => cone,
            (None, Some(limits)) => limits.min().plus(limits.max()).times(1, 2),
            (None, None) => head.height_nominal,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rivet::{MS20426, MS20470};

    #[test]
    fn a_half_ball_is_a_cap() {
        let volume = cap_in3(Length::INCH, Length::from_64ths(32));
        assert!((volume - PI / 12.0).abs() < 1e-15);
    }

    #[test]
    fn a_frustum_with_equal_ends_is_a_cylinder() {
        let (d, h) = (Length::from_64ths(8), Length::from_64ths(20));
        assert!((frustum_in3(d, d, h) - cylinder_in3(d, h)).abs() < 1e-15);
    }

    #[test]
    fn what_cannot_be_weighed_has_no_mass() {
        let family = Part::parse("MS20470AD4").unwrap();
        assert_eq!(mass_each(&family, 0.099), None);
        assert_eq!(mass_each(&Part::parse("NAS1242AD4-5").unwrap(), 0.099), None);
        let part = Part::parse("MS20470AD4-5").unwrap();
        for density in [0.0, -0.1, f64::NAN, f64::INFINITY] {
            assert_eq!(mass_each(&part, density), None);
        }
        let size = MS20426.size(4).unwrap();
        assert_eq!(mass_of_size(&MS20426, size, Length::THIRTY_SECOND, 0.099), None);
        assert_eq!(mass_of_size(&MS20470, MS20470.size(4).unwrap(), Length::ZERO, 0.099), None);
    }
}
