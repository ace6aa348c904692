//! Bending a repair part: the least radius, and how far from the corner the bend begins.

use super::bend_table::{COLUMNS, LINES};
use crate::basis::Basis;
use crate::finding::{Code, Finding, Severity};
use crate::length::{Interval, Length};
use crate::material::Material;
use crate::practice::{Given, Key, Practice};

/// Least inside radius of a bend of 90 degrees in this sheet: what is advised at least, and what it may have to be.
///
/// A thickness between two columns takes the next column's figure. `None` where the table has no such material or nothing so thick.
///
/// ```
/// use shophead::length::{Interval, Length};
/// use shophead::material::Material;
/// use shophead::practice::HANDBOOK;
/// use shophead::repair::bend::least_radius;
/// let radius = least_radius(Material::parse("2024-T3")?, Length::parse(".040")?, &HANDBOOK).expect("in the table");
/// // The column for .064: 3 to 5 thicknesses.
/// assert_eq!(radius.value, Interval::new(Length::parse(".120")?, Length::parse(".200")?)?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn least_radius(material: Material, thickness: Length, practice: &Practice<'_>) -> Option<Given<Interval>> {
    if let Some(entered) = practice.sheet(material, thickness).entered()
        && let Some(radius) = entered.bend_radius()
    {
        return Some(Given { value: Interval::exactly(radius), basis: entered.basis() });
    }
    least_radius_of(material.alloy(), material.temper(), thickness)
}

/// As [`least_radius`], by the names of alloy and temper as the table prints them: `2024`, `T6`.
#[must_use]
pub fn least_radius_of(alloy: &str, temper: &str, thickness: Length) -> Option<Given<Interval>> {
    if thickness <= Length::ZERO {
        return None;
    }
    let line =
        LINES.iter().find(|line| line.alloy.eq_ignore_ascii_case(alloy) && line.temper.eq_ignore_ascii_case(temper))?;
    let holds = |column: &&(&u16, &(u8, u8))| Length::from_ten_thousandths(column.0.saturating_mul(10)) >= thickness;
    let columns: [(&u16, &(u8, u8)); 6] = zip(&COLUMNS, &line.halves);
    let (_, (least, most)) = columns.iter().find(holds)?;
    let radius = |halves: u8| thickness.times(u32::from(halves), 2);
    Some(Given { value: Interval::of(radius(*least), radius(*most)), basis: Basis::AC43_T4_6 })
}

/// What is referred of a bend: a radius below the least, or a sheet that the table does not have.
///
/// ```
/// use shophead::finding::Code;
/// use shophead::length::Length;
/// use shophead::repair::bend::{least_radius_of, refusal};
/// let limits = least_radius_of("2024", "T3", Length::parse(".040")?);
/// assert_eq!(refusal(Length::parse("1/16")?, limits, None).map(|finding| finding.code()), Some(Code::BendTooTight));
/// assert_eq!(refusal(Length::parse("1/8")?, limits, None), None);
/// assert_eq!(refusal(Length::parse("1/8")?, None, None).map(|finding| finding.code()), Some(Code::NoLimit));
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn refusal(radius: Length, limits: Option<Given<Interval>>, material: Option<Material>) -> Option<Finding> {
    let Some(Given { value, basis }) = limits else {
        let key = material.map(Key::of_bend_radius);
        return Some(Finding::unknown(Code::NoLimit, Severity::Refer, Basis::AC43_T4_6, key));
    };
    let least = Given { value: value.min(), basis };
    (radius < least.value).then(|| Finding::against(Code::BendTooTight, Severity::Refer, radius, &least))
}

fn zip<'a>(columns: &'a [u16; 6], cells: &'a [(u8, u8); 6]) -> [(&'a u16, &'a (u8, u8)); 6] {
    let ([a, b, c, d, e, f], [k, l, m, n, o, p]) = (columns, cells);
    [(a, k), (b, l), (c, m), (d, n), (e, o), (f, p)]
}

/// From the outer corner of a bend to where it begins: `tan(half the bend angle) × (radius + thickness)`.
///
/// The angle is by how much the sheet is bent: 90 for a right angle, 135 for a closed angle of 45. `None` for an angle that is not between 0
/// and 180, or lengths below zero.
///
/// ```
/// use shophead::length::Length;
/// use shophead::repair::bend::setback;
/// // AC 43.13-1B para 4-56b(2): 0.064 sheet, 45 degrees, radius 0.25.
/// let found = setback(45.0, Length::parse(".25")?, Length::parse(".064")?).expect("a bend");
/// assert_eq!(format!("{:.3}", found.value), "0.130");
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn setback(degrees: f64, radius: Length, thickness: Length) -> Option<Given<Length>> {
    let bends = degrees > 0.0 && degrees < 180.0;
    if !bends || radius < Length::ZERO || thickness < Length::ZERO {
        return None;
    }
    let sum = radius.checked_add(thickness)?;
    // A right angle is exact.
    let value = if degrees == 90.0 {
        sum
    } else {
        let k = libm::tan(degrees / 2.0 * core::f64::consts::PI / 180.0);
        Length::try_from_inches_f64(k * sum.to_inches_f64())?
    };
    Some(Given { value, basis: Basis::AC43_SETBACK })
}
