//! The ways in which a riveted joint fails, one formula each.
//!
//! Plain arithmetic on lengths and stresses: no table, no check, no rounding. What goes in unchecked comes out unchecked (a
//! hole wider than the pitch gives a negative net section); [`super::strength`] checks first. Formulas (11.1) to (11.5) of the
//! usual aircraft structures text.

use super::strength::Allowable;
use crate::basis::Basis;
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

/// One leg of a zigzag line through holes in staggered rows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Zigzag {
    /// Distance s along the load from one hole to the next.
    pub stagger: Length,
    /// Distance g across the load between them; above zero.
    pub gauge: Length,
}

/// Tension along a zigzag line through holes in staggered rows: `Ftu × t × (width - holes × hole + Σ s² / (4 g))`; recalled, not read.
///
/// It is the strength along this one line. The sheet parts at the weakest line, so check the straight one too.
#[must_use]
pub fn net_section_staggered(
    ftu: Stress,
    thickness: Length,
    width: Length,
    hole: Length,
    holes: u16,
    legs: &[Zigzag],
) -> Force {
    let longer: f64 = legs
        .iter()
        .map(|leg| (leg.stagger.to_inches_f64(), leg.gauge.to_inches_f64()))
        .map(|(s, g)| s * s / (4.0 * g))
        .sum();
    let straight = net_section(ftu, thickness, width, hole, holes).lbf();
    Force::from_lbf(straight + ftu.psi() * thickness.to_inches_f64() * longer)
}

/// A countersink.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Countersink {
    /// Diameter at the surface; not less than the hole.
    pub diameter: Length,
    /// Depth; not more than the sheet.
    pub depth: Length,
}

/// What a countersink takes off a net section besides the hole: `Ftu × depth × (diameter - hole) / 2`, the two triangles beside the
/// hole. Geometry; nothing for a rivet head that may bear against the cone.
#[must_use]
pub fn countersink_net_loss(ftu: Stress, countersink: Countersink, hole: Length) -> Force {
    let beside = (countersink.diameter.to_inches_f64() - hole.to_inches_f64()).max(0.0);
    force(ftu, countersink.depth.to_inches_f64() * beside / 2.0)
}

/// What a countersink takes off a tear-out, [`tear_out`]: `Fsu × depth × diameter`, on each of two planes as if the cone were as wide at
/// its bottom as at the surface. Conservative.
#[must_use]
pub fn countersink_tear_out_loss(fsu: Stress, countersink: Countersink) -> Force {
    force(fsu, countersink.depth.to_inches_f64() * countersink.diameter.to_inches_f64())
}

/// The most of its shear strength with which a solid rivet is to be loaded along its axis, and where that stands: above it the driven head
/// yields and the sheets come apart.
pub const TENSION_SHARE: (f64, Basis) = (0.2, Basis::TENSION_SHARE);

/// The most that a solid rivet is to be pulled with: [`TENSION_SHARE`] of its shear in one plane, and never more than `heads`, the pull that
/// tears a head through its sheet. What parts the shank is not published. `None` where the shear is not known.
#[must_use]
pub fn tension(shear: Option<Allowable>, heads: Option<Force>) -> Option<Allowable> {
    let (share, basis) = TENSION_SHARE;
    let shear = shear?;
    let most = Force::from_lbf(shear.force.lbf() * share);
    Some(Allowable { force: heads.map_or(most, |heads| heads.min(most)), basis: shear.basis.weaker(basis) })
}

/// Pull of a rivet along its axis that tears the head through the sheet: `Fsu × π × head × t`. No public test table stands behind it, the
/// real value can be much less by the shape of the head, and solid rivets are not chosen for tension: an upper bound only.
#[must_use]
pub fn pull_through(fsu: Stress, head: Length, thickness: Length) -> Force {
    force(fsu, core::f64::consts::PI * head.to_inches_f64() * thickness.to_inches_f64())
}

/// Efficiency: the weakest mode over the strength of the sheet without holes.
#[must_use]
pub fn efficiency(weakest: Force, gross: Force) -> f64 {
    weakest.lbf() / gross.lbf()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prelude::length;

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
    fn a_zigzag_line_gains_s_squared_over_four_g() {
        let ftu = Stress::from_ksi(60.0);
        let leg = Zigzag { stagger: length(".5"), gauge: length(".75") };
        let zigzag = net_section_staggered(ftu, length(".040"), length("3"), length(".125"), 3, &[leg, leg]);
        let width = 3.0 - 3.0 * 0.125 + 2.0 * 0.25 / 3.0;
        assert!((zigzag.lbf() - 60_000.0 * 0.040 * width).abs() < 1e-9);
        let straight = net_section_staggered(ftu, length(".040"), length("3"), length(".125"), 3, &[]);
        assert_eq!(straight, net_section(ftu, length(".040"), length("3"), length(".125"), 3));
    }

    #[test]
    fn a_countersink_by_hand() {
        let countersink = Countersink { diameter: length(".225"), depth: length(".040") };
        let net = countersink_net_loss(Stress::from_ksi(60.0), countersink, length(".125"));
        assert!((net.lbf() - 60_000.0 * 0.040 * 0.1 / 2.0).abs() < 1e-9);
        // Two planes, half a diameter each.
        let torn = countersink_tear_out_loss(Stress::from_ksi(40.0), countersink);
        assert!((torn.lbf() - 40_000.0 * 2.0 * 0.040 * 0.1125).abs() < 1e-9);
    }

    #[test]
    fn pull_by_hand() {
        let through = pull_through(Stress::from_ksi(39.0), length(".25"), length(".032"));
        assert!((through.lbf() - 39_000.0 * core::f64::consts::PI * 0.25 * 0.032).abs() < 1e-9);
    }

    #[test]
    fn net_section_takes_every_hole_off() {
        let ftu = Stress::from_ksi(60.0);
        let net = net_section(ftu, length(".040"), length("2"), length(".125"), 4);
        assert!((net.lbf() - 60_000.0 * 0.040 * 1.5).abs() < 1e-9);
        assert!((efficiency(net, gross_section(ftu, length(".040"), length("2"))) - 0.75).abs() < 1e-12);
    }
}
