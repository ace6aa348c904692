//! What one rivet carries, what fails first, and the margin under a load.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::basis::Document;
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind, Margin, margin};
use shophead::joint::strength::{Allowable, BearingKind, JointStrength, Shear};
use shophead::length::Toleranced;
use shophead::practice::{HANDBOOK, Practice};
use shophead::stack::Stack;

use crate::basis::shophead_basis;
use crate::border::{In, Out, Place, Places, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{Sink, shophead_finding, shophead_span};
use crate::force::force;
use crate::length::{length, optional};
use crate::numbers::{numbered, value_of};
use crate::part::shophead_part;
use crate::practice::shophead_practice;
use crate::stack::{on_file, shophead_layer, stack};

/// In how many planes a rivet is sheared.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_shear {
    /// One plane, as in a lap joint.
    SHOPHEAD_SHEAR_SINGLE = 1,
    /// Two planes, as in a butt joint with a strap on both sides.
    SHOPHEAD_SHEAR_DOUBLE = 2,
}

numbered! {
    Shear, shophead_shear [
        Single = SHOPHEAD_SHEAR_SINGLE,
        Double = SHOPHEAD_SHEAR_DOUBLE,
    ]
}

/// Which load is meant.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_load_kind {
    /// No load: no margin is asked for.
    SHOPHEAD_LOAD_NONE = 0,
    /// The greatest load expected in service: the factor of safety is still to come.
    SHOPHEAD_LOAD_LIMIT = 1,
    /// The factor of safety is already in it.
    SHOPHEAD_LOAD_ULTIMATE = 2,
}

numbered! {
    LoadKind, shophead_load_kind [
        Limit = SHOPHEAD_LOAD_LIMIT,
        Ultimate = SHOPHEAD_LOAD_ULTIMATE,
    ]
}

/// The factors between a limit load and the strength that it needs.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_factors {
    /// Factor of safety 1.5 and fitting factor 1.15 (14 CFR 25.303, 23.2230(b) and 25.625(a)).
    SHOPHEAD_FACTORS_FITTING = 1,
    /// Factor of safety 1.5, no fitting factor: continuous seams in metal plating made under approved practices (14 CFR 25.625(b)(1)).
    SHOPHEAD_FACTORS_SEAM = 2,
}

const FITTING: u32 = shophead_factors::SHOPHEAD_FACTORS_FITTING as u32;
const SEAM: u32 = shophead_factors::SHOPHEAD_FACTORS_SEAM as u32;

pub(crate) fn factors(number: u32) -> Result<Factors, E> {
    match number {
        FITTING => Ok(Factors::FITTING),
        SEAM => Ok(Factors::SEAM),
        _ => Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
    }
}

/// A load on one rivet and the factors that apply to it.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct shophead_load {
    /// One of `enum shophead_load_kind`; with `SHOPHEAD_LOAD_NONE` the other members are not looked at.
    pub kind: u32,
    /// One of `enum shophead_factors`.
    pub factors: u32,
    /// How much, in pounds; above zero.
    pub lbf: f64,
}

impl shophead_load {
    /// `None` where no margin is asked for.
    fn read(&self) -> Result<Option<(Load, Factors)>, E> {
        if self.kind == shophead_load_kind::SHOPHEAD_LOAD_NONE as u32 {
            return Ok(None);
        }
        let load = Load { force: force(self.lbf)?, kind: value_of(self.kind)? };
        Ok(Some((load, factors(self.factors)?)))
    }
}

/// A load that can be carried, and what it rests on.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_allowable {
    /// In pounds; 0 where `known` is 0.
    pub lbf: f64,
    /// 1 where there is such a figure, 0 where none is published.
    pub known: u32,
    /// Not used; 0.
    pub unused: u32,
    /// The weakest of the figures in it.
    pub basis: shophead_basis,
}

impl shophead_allowable {
    fn of(allowable: Option<Allowable>, documents: &[Document<'_>]) -> shophead_allowable {
        shophead_allowable {
            lbf: allowable.map_or(0.0, |allowable| allowable.force.lbf()),
            known: u32::from(allowable.is_some()),
            unused: 0,
            basis: allowable.map_or(shophead_basis::NONE, |allowable| shophead_basis::of(allowable.basis, documents)),
        }
    }
}

/// A margin of safety.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct shophead_margin {
    /// The margin; negative when the joint does not carry the load. 0 where `known` is 0.
    pub value: f64,
    /// The load with the factors that apply to it, in pounds.
    pub factored_load_lbf: f64,
    /// 1 where there is a margin, 0 where no load was given or no allowable is known.
    pub known: u32,
    /// Not used; 0.
    pub unused: u32,
}

impl shophead_margin {
    pub(crate) fn of(margin: Option<&Margin>) -> shophead_margin {
        shophead_margin {
            value: margin.map_or(0.0, |margin| margin.value),
            factored_load_lbf: margin.map_or(0.0, |margin| margin.factored_load.lbf()),
            known: u32::from(margin.is_some()),
            unused: 0,
        }
    }
}

/// The margin of an allowable over a load.
///
/// Takes: `allowable_lbf`; `load`, the caller's, of a kind other than none. Writes: `margin`.
///
/// Errors: those named `SHOPHEAD_ERROR_MARGIN_...`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_NULL`,
/// `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_margin_find(
    allowable_lbf: f64,
    load: In<shophead_load>,
    margin: Out<shophead_margin>,
) -> shophead_error {
    answer(|| {
        let place = margin.place()?;
        let (load, factors) = load.one()?.read()?.ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        let found = self::margin(force(allowable_lbf)?, load, factors)?;
        place.put(shophead_margin::of(Some(&found)));
        Ok(())
    })
}

/// A rivet in its sheets.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_joint {
    /// The rivet; its length does not matter.
    pub part: shophead_part,
    /// The layers, the caller's, the side of the manufactured head first. Two or more must carry load, exactly three in double shear.
    pub layers: In<shophead_layer>,
    /// How many.
    pub layer_count: usize,
    /// Centre of the hole to the nearest edge in the direction of the load, the same in every layer.
    pub edge_nm: i64,
    /// The hole as it is; `SHOPHEAD_NONE` for the nominal one.
    pub hole_nm: i64,
    /// Distance to the next rivet of the row, for the net section; `SHOPHEAD_NONE` to leave it out.
    pub pitch_nm: i64,
    /// One of `enum shophead_shear`.
    pub shear: u32,
    /// Not used; 0.
    pub unused: u32,
    /// A load on the rivet, for the margin.
    pub load: shophead_load,
}

/// What fails.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_mode(pub u32);

/// Where a bearing figure comes from.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_bearing_kind {
    /// None is published.
    SHOPHEAD_BEARING_NONE = 0,
    /// Bearing stress of the sheet.
    SHOPHEAD_BEARING_SHEET = 1,
    /// A tested flush joint.
    SHOPHEAD_BEARING_FLUSH_JOINT = 2,
    /// Below an edge margin of 1.5: the strength at 1.5 in proportion. To see where one stands; not an allowable.
    SHOPHEAD_BEARING_INDICATION = 3,
}

numbered! {
    BearingKind, shophead_bearing_kind [
        Sheet = SHOPHEAD_BEARING_SHEET,
        FlushJoint = SHOPHEAD_BEARING_FLUSH_JOINT,
        Indication = SHOPHEAD_BEARING_INDICATION,
    ] else shophead_bearing_kind::SHOPHEAD_BEARING_NONE
}

/// What one sheet carries. The loads are those of the sheet itself; it gets `share` of the rivet's load.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_sheet {
    /// Which layer, counted from 1 on the side of the manufactured head.
    pub layer: u32,
    /// Where the bearing figure comes from.
    pub bearing_kind: shophead_bearing_kind,
    /// Edge distance over nominal rivet diameter.
    pub edge_margin: f64,
    /// How much of the rivet's load the sheet gets: 1, or 0.5 for the outer sheets in double shear.
    pub share: f64,
    /// Bearing or flush joint at failure.
    pub bearing: shophead_allowable,
    /// The same at yield.
    pub bearing_yield: shophead_allowable,
    /// Tear-out to the edge.
    pub tear_out: shophead_allowable,
    /// Tear-out by the recalled form that stops at the side of the hole; to compare, it does not count in the allowable.
    pub tear_out_with_relief: shophead_allowable,
    /// Tension between the holes, a pitch.
    pub net_section: shophead_allowable,
}

/// What one rivet carries.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_strength {
    /// The diameter counted in shear and bearing.
    pub diameter_nm: i64,
    /// Where it comes from.
    pub diameter_basis: shophead_basis,
    /// The factor on rivet shear for thin sheet; 0 where none applies or none is published.
    pub thin_sheet_factor: f64,
    /// Rivet shear in all planes, thin-sheet factor included.
    pub shear: shophead_allowable,
    /// What one rivet carries.
    pub allowable: shophead_allowable,
    /// Where an edge margin below 1.5 is all that stands in the way: the least of the parts with the indication in it.
    pub indication: shophead_allowable,
    /// The load at which the first sheet yields, never above the allowable.
    pub yield_load: shophead_allowable,
    /// What fails first at the allowable or the indication.
    pub governing: shophead_mode,
    /// In which layer, counted from 1; 0 for the rivet.
    pub governing_layer: u32,
    /// How many of the caller's sheets are written: one for each layer that carries load.
    pub sheets: u32,
    /// The layer with the weakest net section, counted from 1; 0 where it is not known.
    pub net_section_layer: u32,
    /// The weakest net section, a pitch.
    pub net_section: shophead_allowable,
    /// The margin under the load.
    pub margin: shophead_margin,
    /// The weakest basis of all parts that were compared.
    pub basis: shophead_basis,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// What one rivet carries through its layers, and what fails first. What is a joint, but one whose strength is not published, is no
/// error: it has a finding that says refer and no allowable.
///
/// Takes: `joint`, the caller's. Writes: `strength`; `sheets`, an array of the caller's with room for `sheet_capacity`
/// (`SHOPHEAD_MAX_LAYERS` always suffices); `findings`, an array of the caller's with room for `finding_capacity`
/// (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: those named `SHOPHEAD_ERROR_JOINT_...`, `SHOPHEAD_ERROR_STACK_...` and `SHOPHEAD_ERROR_MARGIN_...`; those of a part;
/// `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NOT_FINITE`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`,
/// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_strength_find(
    joint: In<shophead_joint>,
    strength: Out<shophead_strength>,
    sheets: Out<shophead_sheet>,
    sheet_capacity: usize,
    findings: Out<shophead_finding>,
    finding_capacity: usize,
) -> shophead_error {
    answer(|| {
        let outputs = Strength::new(&strength, &sheets, sheet_capacity, &findings, finding_capacity)?;
        let asked = joint.one()?;
        let stack = stack(asked.layers, asked.layer_count, &on_file)?;
        outputs.find(asked, &stack, &HANDBOOK)
    })
}

/// What one rivet carries through its layers, as `shophead_strength_find`, with what a shop entered: its materials, strengths, rivets and
/// tested joints.
///
/// Takes: as `shophead_strength_find`; `practice`, the caller's. Writes: as `shophead_strength_find`.
///
/// Errors: as `shophead_strength_find`; those of a practice.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_strength_find_by(
    joint: In<shophead_joint>,
    practice: In<shophead_practice>,
    strength: Out<shophead_strength>,
    sheets: Out<shophead_sheet>,
    sheet_capacity: usize,
    findings: Out<shophead_finding>,
    finding_capacity: usize,
) -> shophead_error {
    answer(|| {
        let outputs = Strength::new(&strength, &sheets, sheet_capacity, &findings, finding_capacity)?;
        let (asked, by) = (joint.one()?, practice.one()?);
        let stack = stack(asked.layers, asked.layer_count, &|number| by.material(number))?;
        by.with(|practice| outputs.find(asked, &stack, practice))
    })
}

/// Where the strength of a joint goes.
struct Strength<'o> {
    place: Place<'o, shophead_strength>,
    sheets: Places<'o, shophead_sheet>,
    findings: Sink<'o>,
}

impl<'o> Strength<'o> {
    fn new(
        strength: &'o Out<shophead_strength>,
        sheets: &'o Out<shophead_sheet>,
        sheet_capacity: usize,
        findings: &'o Out<shophead_finding>,
        finding_capacity: usize,
    ) -> Result<Strength<'o>, E> {
        Ok(Strength {
            place: strength.place()?,
            sheets: sheets.places(sheet_capacity)?,
            findings: Sink::new(findings, finding_capacity)?,
        })
    }

    #[inline(never)]
    fn find(self, asked: &shophead_joint, stack: &Stack, practice: &Practice<'_>) -> Result<(), E> {
        let Strength { place, sheets: mut places, findings: mut sink } = self;
        let documents = practice.documents();
        let allowable = |found| shophead_allowable::of(found, documents);
        let rivet = asked.part.read()?;
        let (edge, hole, pitch) = (length(asked.edge_nm)?, optional(asked.hole_nm)?, optional(asked.pitch_nm)?);
        let (shear, load) = (value_of(asked.shear)?, asked.load.read()?);
        let mut question = Installation::new(rivet, stack).by(practice).edge(edge).shear(shear);
        if let Some(hole) = hole {
            question = question.in_hole(Toleranced::exactly(hole));
        }
        if let Some(pitch) = pitch {
            question = question.pitch(pitch);
        }
        if let Some((load, factors)) = load {
            question = question.load(load, factors);
        }
        let mut found = JointStrength::nothing_yet();
        question.strength_into(&mut found)?;
        places.need(found.sheets.len())?;
        sink.need([&found.findings])?;
        for (index, sheet) in found.sheets.iter().enumerate() {
            let written = shophead_sheet {
                layer: u32::from(sheet.layer()),
                bearing_kind: sheet
                    .bearing()
                    .map_or(shophead_bearing_kind::SHOPHEAD_BEARING_NONE, |bearing| bearing.kind.into()),
                edge_margin: sheet.edge_margin(),
                share: sheet.share(),
                bearing: allowable(sheet.bearing().map(|bearing| bearing.ultimate)),
                bearing_yield: allowable(sheet.bearing().and_then(|bearing| bearing.yield_load)),
                tear_out: allowable(sheet.tear_out()),
                tear_out_with_relief: allowable(sheet.tear_out_with_relief()),
                net_section: allowable(sheet.net_section()),
            };
            places.put(index, written);
        }
        let net = found.net_section;
        place.put(shophead_strength {
            diameter_nm: found.diameter.0.nanometres(),
            diameter_basis: shophead_basis::of(found.diameter.1, documents),
            thin_sheet_factor: found.thin_sheet_factor.unwrap_or(0.0),
            shear: allowable(found.shear),
            allowable: allowable(found.allowable),
            indication: allowable(found.indication),
            yield_load: allowable(found.yield_load()),
            governing: found.governing.map_or(shophead_mode(0), |governing| governing.mode.into()),
            governing_layer: found.governing.and_then(|governing| governing.layer).map_or(0, u32::from),
            sheets: u32::try_from(found.sheets.len()).unwrap_or(u32::MAX),
            net_section_layer: net.map_or(0, |(_, layer)| u32::from(layer)),
            net_section: allowable(net.map(|(allowable, _)| allowable)),
            margin: shophead_margin::of(found.margin.as_ref()),
            basis: shophead_basis::of(found.basis, documents),
            findings: sink.put(&found.findings, documents),
        });
        Ok(())
    }
}
