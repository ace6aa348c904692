//! The ways in which a riveted joint fails, one formula each.
//!
//! Plain arithmetic on lengths and stresses: no table, no check, no rounding. What goes in unchecked comes out unchecked (a
//! hole wider than the pitch gives a negative net section); [`super::strength`] checks first. Formulas (11.1) to (11.5) of the
//! usual aircraft structures text.

use crate::length::Length;
use crate::quantity::{Force, Stress};

/// Cosine of 40 degrees, for the tear-out form that stops at the side of the hole.
const COS_40_DEGREES: f64 = 0.766_044_443_118_978;

fn force(stress: Stress, square_inches: f64) -> Force {
    Force::from_lbf(stress.psi() * square_inches)
}

/// Shear of the rivet: `planes × Fsu × π d² / 4`. `planes` is 1 in single shear, 2 in double; older rules have 1.75 or 1.875 there.
///
/// ```
/// use shophead::joint::modes;
/// use shophead::length::Length;
/// use shophead::quantity::Stress;
/// // 2117 driven into a #30 hole.
/// let load = modes::rivet_shear(Stress::from_ksi(30.0), Length::parse(".1285")?, 1.0);
/// assert!((load.lbf() - 389.1).abs() < 0.05);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn rivet_shear(fsu: Stress, diameter: Length, planes: f64) -> Force {
    let d = diameter.to_inches_f64();
    force(fsu, planes * core::f64::consts::FRAC_PI_4 * d * d)
}

/// Bearing of one sheet on the rivet: `Fbr × d × t`.
#[must_use]
pub fn bearing(fbr: Stress, diameter: Length, thickness: Length) -> Force {
    force(fbr, diameter.to_inches_f64() * thickness.to_inches_f64())
}

/// Tension in the sheet between the holes: `Ftu × t × (width - holes × hole)`, the width being the pitch for one hole.
#[must_use]
pub fn net_section(ftu: Stress, thickness: Length, width: Length, hole: Length, holes: u16) -> Force {
    let net = width.to_inches_f64() - f64::from(holes) * hole.to_inches_f64();
    force(ftu, thickness.to_inches_f64() * net)
}

/// Tension at one of several rows: the net section there and what the rivets of the rows before it have already taken off.
#[must_use]
pub fn net_section_at_row(
    ftu: Stress,
    thickness: Length,
    width: Length,
    hole: Length,
    holes: u16,
    carried_before: Force,
) -> Force {
    Force::from_lbf(net_section(ftu, thickness, width, hole, holes).lbf() + carried_before.lbf())
}

/// Tension in the sheet without any hole: `Ftu × t × width`.
#[must_use]
pub fn gross_section(ftu: Stress, thickness: Length, width: Length) -> Force {
    net_section(ftu, thickness, width, Length::ZERO, 0)
}

/// Tear-out to the edge along two planes from the centre of the hole: `2 e t Fsu`.
#[must_use]
pub fn tear_out(fsu: Stress, thickness: Length, edge: Length) -> Force {
    force(fsu, 2.0 * edge.to_inches_f64() * thickness.to_inches_f64())
}

/// Tear-out along two planes that start at the side of the hole, 40 degrees off its axis: `2 t Fsu (e - (d/2) cos 40°)`. Lower than
/// [`tear_out`]; recalled, not read.
#[must_use]
pub fn tear_out_with_relief(fsu: Stress, thickness: Length, edge: Length, hole: Length) -> Force {
    let plane = edge.to_inches_f64() - hole.to_inches_f64() / 2.0 * COS_40_DEGREES;
    force(fsu, 2.0 * thickness.to_inches_f64() * plane)
}

/// Efficiency: the weakest mode over the strength of the sheet without holes.
#[must_use]
pub fn efficiency(weakest: Force, gross: Force) -> f64 {
    weakest.lbf() / gross.lbf()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(text: &str) -> Length {
        Length::parse(text).unwrap()
    }

    #[test]
    fn tear_out_by_hand() {
        let fsu = Stress::from_ksi(37.0);
        let plain = tear_out(fsu, length(".040"), length(".1875"));
        assert!((plain.lbf() - 2.0 * 0.1875 * 0.040 * 37_000.0).abs() < 1e-9);
        // cos 40 degrees by a table of six figures: 0.766044.
        let relief = tear_out_with_relief(fsu, length(".040"), length(".1875"), length(".125"));
        assert!((relief.lbf() - 2.0 * 0.040 * 37_000.0 * (0.1875 - 0.0625 * 0.766_044)).abs() < 1e-3);
    }

    #[test]
    fn net_section_takes_every_hole_off() {
        let ftu = Stress::from_ksi(60.0);
        let net = net_section(ftu, length(".040"), length("2"), length(".125"), 4);
        assert!((net.lbf() - 60_000.0 * 0.040 * 1.5).abs() < 1e-9);
        assert!((efficiency(net, gross_section(ftu, length(".040"), length("2"))) - 0.75).abs() < 1e-12);
    }
}
