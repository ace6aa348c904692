//! Rows of rivets in sheets as they are named in the shop, reduced to the spring chain of [`super::sharing`].
//!
//! The strip that is looked at is one pitch wide, so every row has one rivet in it. In single shear the chain takes two sheets; plate A
//! is the one on the side of the manufactured head. In double shear it takes three: plate A is the middle one, plate B both outer ones
//! together, and the thinner of them stands for both in the flexibility, which is the softer side.

use super::flexibility::{Fastening, FlexibilityError, Formula, JoinedPlate, flexibility};
use super::sharing::{Bay, Sharing, SharingError, SharingRow, Transfer, share_alike, stiffness};
use super::strength::Shear;
use crate::basis::Basis;
use crate::length::Length;
use crate::material::{Property, RivetAlloy};
use crate::practice::{HANDBOOK, Practice};
use crate::quantity::{Flexibility, Force, Stress};
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::stack::{Layer, Stack};

/// Modulus of an aluminium rivet, where none is given.
pub const ALUMINIUM_RIVET: Stress = Stress::from_msi(10.3);

/// Rows one behind the other, all alike.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct LapRows<'s, 'p> {
    /// The rivet.
    pub rivet: &'s Part<'p>,
    /// What it goes through; two load-carrying sheets in single shear, three in double.
    pub stack: &'s Stack,
    /// From rivet to rivet in a row: the width of the strip.
    pub pitch: Length,
    /// From row to row, along the load.
    pub apart: Length,
    /// How many rows.
    pub rows: u16,
    /// Single or double shear.
    pub shear: Shear,
    /// Where the load goes.
    pub transfer: Transfer,
    /// The load on one pitch of the joint.
    pub load: Force,
    /// Modulus of the rivet; `None` takes [`ALUMINIUM_RIVET`] for an aluminium rivet.
    pub rivet_modulus: Option<Stress>,
    /// Where what is known of the sheets comes from.
    pub practice: &'s Practice<'p>,
}

impl<'s, 'p> LapRows<'s, 'p> {
    /// A lap in single shear under one pound, its rows as far apart as its rivets, of published sheets.
    #[must_use]
    pub const fn new(rivet: &'s Part<'p>, stack: &'s Stack, pitch: Length, rows: u16) -> Self {
        LapRows {
            rivet,
            stack,
            pitch,
            apart: pitch,
            rows,
            shear: Shear::Single,
            transfer: Transfer::Lap,
            load: Force::from_lbf(1.0),
            rivet_modulus: None,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// From row to row, along the load.
        apart: Length;
        /// Single or double shear.
        shear: Shear;
        /// Where the load goes.
        transfer: Transfer;
        /// The load on one pitch of the joint.
        load: Force;
        /// Modulus of the rivet.
        rivet_modulus: Option<Stress>;
        /// Where what is known of the sheets comes from.
        practice: &'s Practice<'p>;
    }
}

/// How the rows share the load by one formula.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Shared {
    /// The formula.
    pub formula: Formula,
    /// What it gives for one rivet.
    pub flexibility: Flexibility,
    /// The modulus of the rivet that was counted, and where it stands; without basis as it was given.
    pub rivet_modulus: (Stress, Option<Basis>),
    /// The shares.
    pub sharing: Sharing,
    /// The weakest basis: of chain, formula and moduli.
    pub basis: Basis,
}

crate::words::errors! {
    /// Why there are no shares.
    LapError {
        SheetsDoNotFit = _, "lap-sheets", "Not two sheets in single shear, or not three in double.",
            "rows share a load between two sheets in single shear, or three in double with the middle one second";
        PitchNotKnown = _, "lap-pitch", "The pitch, which is the width of the strip, is not known.",
             "the pitch is missing; right would be .75";
         ModulusNotPublished = _, "lap-sheet-modulus", "A sheet whose modulus is not published.",
            "no modulus on file for a sheet; name materials with published strengths, as in 2024-T3:.040";
        RivetModulusNotKnown = _, "lap-rivet-modulus", "The rivet is not aluminium and no modulus was given.",
            "no modulus on file for this rivet; give it, as in 26 msi";
        | Flexibility(FlexibilityError), "The flexibility could not be worked out.";
        | Sharing(SharingError), "The shares could not be worked out.";
    }
}

/// How rows share a load by one of the published formulas. The nominal shank diameter is counted.
///
/// # Errors
/// [`LapError`].
///
/// ```
/// use shophead::joint::flexibility::Formula;
/// use shophead::joint::lap::{LapRows, shared};
/// use shophead::length::{Length, Toleranced};
/// use shophead::material::Material;
/// use shophead::quantity::Force;
/// use shophead::rivet::part::Part;
/// use shophead::stack::{Layer, Stack};
/// let layer = Layer::of(Toleranced::parse(".040")?).material(Material::parse("2024-T3")?);
/// let mut stack = Stack::new();
/// stack.push(layer)?;
/// stack.push(layer)?;
/// let rivet = Part::parse("MS20470AD4")?;
/// let rows = LapRows::new(&rivet, &stack, Length::parse("3/4")?, 4).load(Force::from_lbf(1_000.0));
/// let found = shared(&rows, Formula::Stp486)?;
/// let shares: Vec<String> = found.sharing.rows().map(|row| format!("{:.3}", row.share)).collect();
/// assert_eq!(shares, ["0.309", "0.191", "0.191", "0.309"]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn shared(rows: &LapRows<'_, '_>, formula: Formula) -> Result<Shared, LapError> {
    let mut found = Shared::nothing_yet();
    shared_into(&mut found, rows, formula)?;
    Ok(found)
}

/// The same where the shares will stand.
pub(crate) fn shared_into(found: &mut Shared, rows: &LapRows<'_, '_>, formula: Formula) -> Result<(), LapError> {
    found.formula = formula;
    let bay = reduce(rows, found)?;
    let row = SharingRow { flexibility: found.flexibility, fasteners: 1 };
    share_alike(&mut found.sharing, rows.rows, row, bay, rows.transfer, rows.load)?;
    found.basis = found.sharing.basis.weaker(found.basis);
    Ok(())
}

impl Shared {
    /// Shares to be filled in.
    pub(crate) const fn nothing_yet() -> Shared {
        Shared {
            formula: Formula::Stp486,
            flexibility: Flexibility::from_in_per_lbf(0.0),
            rivet_modulus: (ALUMINIUM_RIVET, None),
            sharing: Sharing::nothing_yet(),
            basis: Basis::FLEXIBILITY_SEC_8,
        }
    }
}

/// The rows as springs: fills in everything but the shares. Out of line, so that its stack is gone before they are worked out.
#[inline(never)]
fn reduce(rows: &LapRows<'_, '_>, found: &mut Shared) -> Result<Bay, LapError> {
    found.rivet_modulus = rivet_modulus(rows.rivet, rows.rivet_modulus)?;
    let plates = plates(rows)?;
    found.flexibility = flexibility(
        found.formula,
        &Fastening {
            diameter: rows.rivet.diameter(),
            modulus: found.rivet_modulus.0,
            shear_modulus: None,
            shear: rows.shear,
            plates: plates.in_fastening,
        },
    )?;
    found.basis = found.formula.basis().weaker(plates.basis);
    if let Some(modulus_basis) = found.rivet_modulus.1 {
        found.basis = found.basis.weaker(modulus_basis);
    }
    Ok(Bay { length: rows.apart, ea_a: plates.ea_a, ea_b: plates.ea_b })
}

struct Plates {
    in_fastening: [JoinedPlate; 2],
    ea_a: Force,
    ea_b: Force,
    basis: Basis,
}

fn plates(rows: &LapRows<'_, '_>) -> Result<Plates, LapError> {
    let mut found = heapless::Vec::<(JoinedPlate, Basis), 3>::new();
    for layer in rows.stack.load_carrying() {
        found.push(plate_of(layer, rows.practice)?).map_err(|_| LapError::SheetsDoNotFit)?;
    }
    let ea = |plate: JoinedPlate| stiffness(plate.modulus, rows.pitch, plate.thickness);
    match (found.as_slice(), rows.shear) {
        (&[(a, a_basis), (b, b_basis)], Shear::Single) => {
            Ok(Plates { in_fastening: [a, b], ea_a: ea(a), ea_b: ea(b), basis: a_basis.weaker(b_basis) })
        }
        (&[(top, top_basis), (middle, middle_basis), (bottom, bottom_basis)], Shear::Double) => {
            let thinner = if top.thickness <= bottom.thickness { top } else { bottom };
            Ok(Plates {
                in_fastening: [middle, thinner],
                ea_a: ea(middle),
                ea_b: Force::from_lbf(ea(top).lbf() + ea(bottom).lbf()),
                basis: middle_basis.weaker(top_basis).weaker(bottom_basis),
            })
        }
        _ => Err(LapError::SheetsDoNotFit),
    }
}

/// A layer as a plate of the chain, and where its modulus stands.
pub(crate) fn plate_of(layer: &Layer, practice: &Practice<'_>) -> Result<(JoinedPlate, Basis), LapError> {
    let thickness = layer.thickness.nominal();
    let known = layer.material.map(|material| practice.sheet(material, thickness));
    let modulus = known.and_then(|sheet| sheet.figure(Property::Modulus));
    let (modulus, basis) = modulus.ok_or(LapError::ModulusNotPublished)?;
    Ok((JoinedPlate { thickness, modulus }, basis))
}

/// The modulus as given, or that of aluminium for a rivet of it.
pub(crate) fn rivet_modulus(rivet: &Part<'_>, given: Option<Stress>) -> Result<(Stress, Option<Basis>), LapError> {
    match (given, is_aluminium(rivet.alloy())) {
        (Some(given), _) => Ok((given, None)),
        (None, true) => Ok((ALUMINIUM_RIVET, Some(Basis::FLEXIBILITY_SEC_7))),
        (None, false) => Err(LapError::RivetModulusNotKnown),
    }
}

const fn is_aluminium(alloy: RivetAlloy) -> bool {
    matches!(
        alloy,
        RivetAlloy::Al1100
            | RivetAlloy::Al5056
            | RivetAlloy::Al2117
            | RivetAlloy::Al2017
            | RivetAlloy::Al2024
            | RivetAlloy::Al7050
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::Toleranced;
    use crate::material::Material;
    use crate::practice::HANDBOOK;
    use crate::stack::Layer;

    fn stack(thicknesses: &[&str], material: Option<&str>) -> Stack {
        let mut stack = Stack::new();
        for thickness in thicknesses {
            let material = material.map(|name| Material::parse(name).unwrap());
            let layer = Layer { material, ..Layer::of(Toleranced::parse(thickness).unwrap()) };
            stack.push(layer).unwrap();
        }
        stack
    }

    fn rows<'s>(rivet: &'s Part<'static>, stack: &'s Stack, shear: Shear) -> LapRows<'s, 'static> {
        let inch = Length::INCH;
        LapRows {
            rivet,
            stack,
            pitch: inch,
            apart: inch,
            rows: 3,
            shear,
            transfer: Transfer::Lap,
            load: Force::from_lbf(1_000.0),
            rivet_modulus: None,
            practice: &HANDBOOK,
        }
    }

    #[test]
    fn what_does_not_fit_is_refused_by_name() {
        let rivet = Part::parse("MS20470AD4").unwrap();
        let (two, three) = (stack(&[".04", ".04"], Some("2024-T3")), stack(&[".04", ".04", ".04"], Some("2024-T3")));
        let error = |rows: &LapRows<'_, '_>, formula| shared(rows, formula).unwrap_err();
        assert_eq!(error(&rows(&rivet, &three, Shear::Single), Formula::Stp486), LapError::SheetsDoNotFit);
        assert_eq!(error(&rows(&rivet, &two, Shear::Double), Formula::Tn1051), LapError::SheetsDoNotFit);
        let nameless = stack(&[".04", ".04"], None);
        assert_eq!(error(&rows(&rivet, &nameless, Shear::Single), Formula::Stp486), LapError::ModulusNotPublished);
        assert_eq!(
            error(&rows(&rivet, &three, Shear::Double), Formula::Stp486),
            LapError::Flexibility(FlexibilityError::SingleShearOnly)
        );
        let many = LapRows { rows: 65, ..rows(&rivet, &two, Shear::Single) };
        assert_eq!(error(&many, Formula::Stp486), LapError::Sharing(SharingError::TooManyRows));
        let monel = Part::parse("MS20615-4M").unwrap();
        assert_eq!(error(&rows(&monel, &two, Shear::Single), Formula::Stp486), LapError::RivetModulusNotKnown);
        let given = LapRows { rivet_modulus: Some(Stress::from_msi(26.0)), ..rows(&monel, &two, Shear::Single) };
        assert!(shared(&given, Formula::Stp486).is_ok());
    }

    #[test]
    fn in_double_shear_the_outer_sheets_count_together() {
        let rivet = Part::parse("MS20470AD4").unwrap();
        let even = stack(&[".04", ".08", ".04"], Some("2024-T3"));
        let found = shared(&rows(&rivet, &even, Shear::Double), Formula::Stp927Riveted).unwrap();
        let [first, last] = [0, 2].map(|index| found.sharing.row(index).expect("three rows"));
        assert!((first.share - last.share).abs() < 1e-12, "as stiff inside as outside");
    }
}
