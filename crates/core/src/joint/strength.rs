//! What one rivet carries in its sheets, and what fails first.
//!
//! | part | load | from |
//! |---|---|---|
//! | rivet shear | planes × Fsu of the driven rivet × area of the nominal hole × thin-sheet factor | MIL-HDBK-5 section 8.1.2 |
//! | bearing, each sheet | Fbr at the edge margin × nominal hole × t | MIL-HDBK-5 section 8.1.2.1, table of the sheet |
//! | flush joint, each countersunk or dimpled sheet | tested joint, instead of bearing | [`super::flush_table`] |
//! | tear-out, each sheet | 2 e t Fsu of the sheet | [`super::modes::tear_out`] |
//!
//! The allowable is the least of them. In single shear every sheet is taken to carry the whole load; in double shear the middle
//! sheet carries all of it and each outer sheet half. Where a part is not published the allowable is missing and a finding says
//! which sheet and why; nothing is guessed in its place.
//!
//! Shear stands on the stress of the driven rivet and the smallest drill printed for it; a recalled cell of the strength handbook is a
//! ceiling ([`JointStrength::ceiling`]): where the formula gives more, the cell is taken.
//!
//! The edge margin e/D counts nominal rivet diameters, as edge distances do in the trade, or a hole that is larger. Between 1.5 and 2.0
//! bearing is interpolated, above 2.0 the value at 2.0 holds. The flush joints were tested at 2.0 and no reduction is published, so below
//! that theirs is an indication. A sheet is thick enough from t/D of 0.18 on, D the hole; the bearing tests ran from 0.25 to 0.50, and a
//! note says where a sheet lies outside.

use super::margin::{Factors, Load, Margin, MarginError, margin, yield_margin};
use super::{flush_table, hole_table, modes, shear_table, thin_sheet};
use crate::basis::{Basis, Status};
use crate::finding::{Code, Figure, Finding, Findings, Severity, Sink};
use crate::length::Length;
use crate::material::{Property, Strengths};
use crate::practice::{EnteredJoint, Key, Practice};
use crate::quantity::{Force, Stress};
use crate::rivet::Head;
use crate::rivet::part::Part;
use crate::setters::setters;
pub use crate::stack::Preparation;
use crate::stack::Stack;

/// The most sheets under one rivet.
pub const MAX_SHEETS: usize = 8;

/// The most findings that a strength keeps, that of a row with it: those of eight sheets that lack everything. Of each sheet there are at most four
/// (a knife edge, no strength of its flush joint or in bearing, an edge margin below the tables, no shear strength), and six of the joint (its hole, its
/// rivet, a sheet outside the bearing tests, a governing figure from memory, its margin, its margin at yield). With every check of an
/// [`Installation`](crate::installation::Installation) beside them, 60 000 random stacks came to twenty-seven.
pub const MAX_JOINT_FINDINGS: usize = 4 * MAX_SHEETS + 6;

crate::words::words! {
    /// How many planes the rivet is sheared in.
    Shear, "shear" {
        Single = 1, "single", "One plane, as in a lap joint.";
        Double = 2, "double", "Two planes, as in a butt joint with a strap on both sides.";
    }
}

impl Shear {
    /// The number of planes.
    #[must_use]
    pub const fn planes(self) -> f64 {
        match self {
            Shear::Single => 1.0,
            Shear::Double => 2.0,
        }
    }
}

/// One sheet at the rivet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Sheet<'a> {
    /// What is known of it; `None` when the material is not known.
    pub properties: Option<Strengths<'a>>,
    /// Thickness; above zero.
    pub thickness: Length,
    /// Centre of the hole to the nearest edge in the direction of the load; above zero.
    pub edge: Length,
    /// How the hole is made ready.
    pub preparation: Preparation,
    /// The tested joint of the rivet in it that a shop entered: in place of a published one, and in plain sheet where none is published.
    pub entered_joint: Option<&'a EnteredJoint>,
}

impl<'a> Sheet<'a> {
    /// A plain sheet of this thickness with its hole this far from the edge; of which metal is not known.
    #[must_use]
    pub const fn new(thickness: Length, edge: Length) -> Sheet<'a> {
        Sheet { properties: None, thickness, edge, preparation: Preparation::Plain, entered_joint: None }
    }

    setters! {
        /// What its metal carries.
        properties: Option<Strengths<'a>>;
        /// Its thickness.
        thickness: Length;
        /// From the middle of the hole to the edge.
        edge: Length;
        /// Plain, countersunk or dimpled.
        preparation: Preparation;
        /// What a shop tested of this joint.
        entered_joint: Option<&'a EnteredJoint>;
    }
}

/// What to enter of a rivet in a limits file, where that is not on file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct RivetKeys {
    /// The ultimate shear of the driven rivet.
    pub shear: Option<Key>,
    /// The loads of its tested joints in countersunk or dimpled sheet.
    pub flush_joint: Option<Key>,
    /// The loads of its tested joints in plain sheet that no published strength covers.
    pub plain_joint: Option<Key>,
}

impl RivetKeys {
    /// Those of a part.
    #[must_use]
    pub fn of(part: &Part<'_>) -> RivetKeys {
        let flush_joint = if part.series().head.is_flush() { Key::of_flush_joint(part) } else { None };
        let (shear, plain_joint) = (Some(Key::of_shear(part.alloy())), Key::of_plain_joint(part));
        RivetKeys { shear, flush_joint, plain_joint }
    }
}

/// The rivet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Rivet {
    /// Nominal shank diameter; of an oversize rivet its own, not that of its dash number.
    pub diameter: Length,
    /// The manufactured head.
    pub head: Head,
    /// Ultimate shear stress of the driven rivet and where it stands; `None` when it is not known.
    pub driven_shear: Option<(Stress, Basis)>,
    /// What to enter of it where it is not on file.
    pub keys: RivetKeys,
}

impl Rivet {
    /// One of this diameter and head, of unknown strength.
    #[must_use]
    pub fn new(diameter: Length, head: Head) -> Rivet {
        Rivet { diameter, head, driven_shear: None, keys: RivetKeys::default() }
    }

    setters! {
        /// Its shear strength as driven.
        driven_shear: Option<(Stress, Basis)>;
        /// What to enter where something of it is not known.
        keys: RivetKeys;
    }
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Joint<'s> {
    /// The sheets from the manufactured head on; two to [`MAX_SHEETS`], exactly three in double shear.
    pub sheets: &'s [Sheet<'s>],
    /// The rivet.
    pub rivet: Rivet,
    /// The hole as it is, when it is known; otherwise the nominal hole.
    pub hole: Option<Length>,
    /// Single or double shear.
    pub shear: Shear,
    /// Distance to the next rivet of the row, for the net section; greater than the hole.
    pub pitch: Option<Length>,
    /// A load on the rivet and its factors, for the margin.
    pub load: Option<(Load, Factors)>,
    /// How serious it is where a strength is not published: [`Severity::Refer`], unless something else stands for it, such as that nothing is
    /// changed from how the maker built it.
    pub unpublished: Severity,
}

impl<'s> Joint<'s> {
    /// A rivet in single shear through these sheets; what is not published is referred.
    #[must_use]
    pub const fn new(sheets: &'s [Sheet<'s>], rivet: Rivet) -> Joint<'s> {
        Joint { sheets, rivet, hole: None, shear: Shear::Single, pitch: None, load: None, unpublished: Severity::Refer }
    }

    setters! {
        /// The hole.
        hole: Option<Length>;
        /// Single or double.
        shear: Shear;
        /// Along the row.
        pitch: Option<Length>;
        /// The load on one rivet.
        load: Option<(Load, Factors)>;
        /// How serious it is that a strength is not published.
        unpublished: Severity;
    }
}

impl Joint<'_> {
    /// What edge margins count: the hole, where it is larger than the shank.
    fn larger(&self) -> Length {
        self.hole.map_or(self.rivet.diameter, |hole| hole.max(self.rivet.diameter))
    }

    /// The hole as it is, or as the smallest printed drill leaves it.
    fn hole_or_nominal(&self) -> Length {
        self.hole.unwrap_or_else(|| nominal_hole(self.rivet.diameter))
    }

    /// The diameter that a sheet has to be thick enough for: the hole as it is, and never less than the nominal one.
    fn widest_hole(&self) -> Length {
        self.hole_or_nominal().max(nominal_hole(self.rivet.diameter))
    }

    /// What the edge margin of a shop's own test counts: its hole was as large as the printed drill leaves it.
    fn tested_in(&self) -> Length {
        counted_in_tests(self.rivet.diameter, self.hole)
    }

    /// Whether a sheet is too thin beside its hole for any published bearing strength.
    fn is_thin(&self, sheet: &Sheet<'_>) -> bool {
        !thin_sheet::is_covered(sheet.thickness, self.widest_hole())
    }

    /// The tested joint that counts in a sheet: in a plain one only where no published strength does.
    fn tested<'a>(&self, sheet: &Sheet<'a>) -> Option<&'a EnteredJoint> {
        sheet.entered_joint.filter(|joint| {
            sheet.preparation != Preparation::Plain
                || self.is_thin(sheet)
                || !PLAIN_EDGE.is_reached(sheet.edge, self.larger()) && !PLAIN_EDGE.is_reached(joint.edge, joint.shank)
        })
    }
}

/// The diameter that an edge margin counts beside that of a shop's own test: the shank, or a hole larger than the printed drill leaves it.
pub(super) fn counted_in_tests(shank: Length, hole: Option<Length>) -> Length {
    hole.filter(|hole| *hole > nominal_hole(shank)).map_or(shank, |hole| hole.max(shank))
}

/// The nominal hole of a rivet, or its shank where the table has none.
pub(crate) fn nominal_hole(rivet: Length) -> Length {
    hole_table::nominal_hole(rivet).map_or(rivet, |row| row.hole)
}

/// A load and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Allowable {
    /// The load.
    pub force: Force,
    /// The weakest of the figures in it.
    pub basis: Basis,
}

crate::words::words! {
    /// Where a bearing figure comes from.
    #[non_exhaustive]
    BearingKind, "kind of bearing" {
        Sheet = 1, "sheet", "Bearing of the sheet: by its stress, or as the shop tested it where no stress is published.";
        FlushJoint = 2, "flush-joint", "A tested flush joint.";
        /// 1.5 in bearing and 2.0 for a flush joint. Practice, to see where one stands; not an allowable.
        Indication = 3, "indication", "Below the least edge margin of the tests: that strength in proportion.";
    }
}

/// Bearing of one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Bearing {
    /// Where it comes from.
    pub kind: BearingKind,
    /// At failure.
    pub ultimate: Allowable,
    /// At yield, where published.
    pub yield_load: Option<Allowable>,
}

/// The loads that a sheet has.
#[derive(Clone, Copy)]
enum SheetLoad {
    Bearing,
    Yield,
    TearOut,
    Relief,
    Net,
}

/// How many.
const LOADS: usize = SheetLoad::Net as usize + 1;

/// What one sheet carries. The loads are those of the sheet itself; it gets [`SheetStrength::share`] of the rivet's load.
///
/// Loads and bases lie apart from each other, so that eight sheets take half a kilobyte.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SheetStrength {
    edge_margin: f64,
    forces: [Force; LOADS],
    bases: [Option<Basis>; LOADS],
    kind: BearingKind,
    pub(super) layer: u8,
    shared: bool,
}

const _: () = assert!(size_of::<SheetStrength>() == 64);

impl SheetStrength {
    /// A sheet of which nothing is known yet. `shared` where it is an outer one in double shear.
    const fn new(layer: u8, edge_margin: f64, shared: bool) -> SheetStrength {
        SheetStrength {
            edge_margin,
            forces: [Force::ZERO; LOADS],
            bases: [None; LOADS],
            kind: BearingKind::Sheet,
            layer,
            shared,
        }
    }

    fn load(&self, which: SheetLoad) -> Option<Allowable> {
        let basis = (*self.bases.get(which as usize)?)?;
        Some(Allowable { force: *self.forces.get(which as usize)?, basis })
    }

    fn put(&mut self, which: SheetLoad, load: Allowable) {
        if let (Some(force), Some(basis)) = (self.forces.get_mut(which as usize), self.bases.get_mut(which as usize)) {
            (*force, *basis) = (load.force, Some(load.basis));
        }
    }

    fn put_bearing(&mut self, bearing: Bearing) {
        self.kind = bearing.kind;
        self.put(SheetLoad::Bearing, bearing.ultimate);
        if let Some(yield_load) = bearing.yield_load {
            self.put(SheetLoad::Yield, yield_load);
        }
    }

    /// Which, counted from 1 on the side of the manufactured head.
    #[must_use]
    pub const fn layer(&self) -> u8 {
        self.layer
    }

    /// Edge distance over nominal rivet diameter, or over the hole where that is larger.
    #[must_use]
    pub const fn edge_margin(&self) -> f64 {
        self.edge_margin
    }

    /// How much of the rivet's load the sheet gets: 1, or 0.5 for the outer sheets in double shear.
    #[must_use]
    pub const fn share(&self) -> f64 {
        if self.shared { 0.5 } else { 1.0 }
    }

    /// Bearing or flush joint, where published.
    #[must_use]
    pub fn bearing(&self) -> Option<Bearing> {
        let (ultimate, yield_load) = (self.load(SheetLoad::Bearing)?, self.load(SheetLoad::Yield));
        Some(Bearing { kind: self.kind, ultimate, yield_load })
    }

    /// Tear-out to the edge, where the shear strength of the sheet is published.
    #[must_use]
    pub fn tear_out(&self) -> Option<Allowable> {
        self.load(SheetLoad::TearOut)
    }

    /// Tear-out by the recalled form that stops at the side of the hole; to compare, it does not count in the allowable.
    #[must_use]
    pub fn tear_out_with_relief(&self) -> Option<Allowable> {
        self.load(SheetLoad::Relief)
    }

    /// Tension between the holes, a pitch, in the whole sheet; the hole as it is. What a countersink takes away is counted
    /// in [`super::row`], which knows the head.
    #[must_use]
    pub fn net_section(&self) -> Option<Allowable> {
        self.load(SheetLoad::Net)
    }
}

crate::words::words! {
    /// How a joint fails.
    #[non_exhaustive]
    Mode, "mode" {
        RivetShear = 1, "rivet-shear", "The rivet shears.";
        Bearing = 2, "bearing", "The rivet crushes the sheet.";
        FlushJoint = 3, "flush-joint", "The flush head and the sheet around it fail.";
        TearOut = 4, "tear-out", "The rivet tears out to the edge.";
    }
}

/// What fails first.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Governing {
    /// How.
    pub mode: Mode,
    /// In which sheet, counted from 1; `None` for the rivet.
    pub layer: Option<u8>,
    /// At which load on the rivet.
    pub load: Allowable,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct JointStrength {
    /// The diameter counted in shear and bearing, and where it comes from.
    pub diameter: (Length, Basis),
    /// The factor on rivet shear for thin sheet; `None` where none applies or none is published.
    pub thin_sheet_factor: Option<f64>,
    /// Rivet shear in all planes, thin-sheet factor included.
    pub shear: Option<Allowable>,
    /// The recalled cell of the strength handbook for one plane, where there is one: the shear is never counted higher.
    pub ceiling: Option<Allowable>,
    /// Each sheet, in the order given.
    pub sheets: heapless::Vec<SheetStrength, MAX_SHEETS>,
    /// What one rivet carries; `None` where a part is not published.
    pub allowable: Option<Allowable>,
    /// Where an edge margin below that of the tests is all that stands in the way: the least of the parts with the indication in it.
    /// Practice.
    pub indication: Option<Allowable>,
    /// What fails first at the allowable or the indication.
    pub governing: Option<Governing>,
    /// The weakest net section, a pitch, and its layer; when a pitch was given and every sheet's strength is known.
    pub net_section: Option<(Allowable, u8)>,
    /// The margin under the load; when one was given and there is an allowable. For one rivet: with several rows, hold the net
    /// section against the load of all of them.
    pub margin: Option<Margin>,
    /// The margin at yield under the limit load; when a load was given and the yield of every sheet is published.
    pub yield_margin: Option<Margin>,
    /// The weakest basis of all parts that were compared.
    pub basis: Basis,
    /// What was found.
    pub findings: Findings<MAX_JOINT_FINDINGS>,
}

impl JointStrength {
    /// Takes back every figure of what is no joint; its findings say why.
    pub(crate) fn refuse(&mut self) {
        (self.allowable, self.indication, self.governing) = (None, None, None);
        (self.margin, self.yield_margin) = (None, None);
    }

    /// Works out the margins under a load and says which are not there.
    pub(crate) fn take_load(&mut self, load: Option<(Load, Factors)>) -> Result<(), StrengthError> {
        (self.margin, self.yield_margin) = (None, None);
        let (Some((load, factors)), Some(allowable)) = (load, self.allowable) else { return Ok(()) };
        self.margin = Some(margin(allowable.force, load, factors)?);
        self.yield_margin = self.yield_load().map(|yields| yield_margin(yields.force, load, factors)).transpose()?;
        self.findings.push_some(self.margin.and_then(|margin| margin.negative()));
        self.findings.push_some(self.yield_margin.and_then(|margin| margin.yields()));
        Ok(())
    }

    /// Shear of the rivet in one plane, without what thin sheet takes off; `None` where it is not known.
    #[must_use]
    pub fn shear_of_one_plane(&self) -> Option<Allowable> {
        let shear = self.shear?;
        let planes = if self.sheets.iter().any(|sheet| sheet.share() < 1.0) { 2.0 } else { 1.0 };
        let whole = shear.force.lbf() / planes / self.thin_sheet_factor.unwrap_or(1.0);
        Some(Allowable { force: Force::from_lbf(whole), ..shear })
    }

    /// The load on the rivet at which the first sheet yields, never above the allowable.
    ///
    /// Bearing yield or the yield of the flush joint; no yield of the rivet itself is published. `None` where a sheet has no published
    /// yield or there is no allowable.
    #[must_use]
    pub fn yield_load(&self) -> Option<Allowable> {
        let mut least = self.allowable?;
        for sheet in &self.sheets {
            let part = sheet.bearing()?.yield_load?;
            let force = Force::from_lbf(part.force.lbf() / sheet.share());
            least = Allowable { force: least.force.min(force), basis: least.basis.weaker(part.basis) };
        }
        Some(least)
    }
}

crate::words::errors! {
    /// Why there is no answer.
    StrengthError {
        TooFewSheets = 90, "joint-too-few-sheets", "Fewer than two sheets.",
            "a joint needs at least two sheets";
        TooManySheets = 91, "joint-too-many-sheets", "More than [`MAX_SHEETS`].",
            "at most {MAX_SHEETS} sheets under one rivet";
        DoubleShearNeedsThreeSheets = 92, "joint-double-shear-needs-three-sheets", "Double shear with other than three sheets.",
            "double shear takes three sheets, the middle one second";
        DiameterNotPositive = 93, "joint-diameter-not-positive", "The rivet's diameter is zero or less.",
            "the rivet diameter must be above zero; right would be 1/8";
        ThicknessNotPositive = 94, "joint-thickness-not-positive", "A sheet's thickness is zero or less.",
            "a sheet thickness must be above zero; right would be .032";
        EdgeNotPositive = 95, "joint-edge-not-positive", "An edge distance is zero or less.",
            "an edge distance must be above zero; right would be .25";
        HoleNotPositive = 96, "joint-hole-not-positive", "The hole is zero or less.",
            "the hole must be above zero; right would be .1285";
        PitchInsideHole = 97, "joint-pitch-inside-hole", "The pitch leaves no metal between the holes.",
            "the pitch must be greater than the hole; right would be .5";
        StressNotPositive = 98, "joint-stress-not-positive", "A stress is zero, negative or not a number.",
            "a strength must be above zero; right would be 30 ksi";
        NoSeatForFlushHead = 99, "joint-no-seat-for-flush-head", "A flush head without a countersunk or dimpled sheet.",
            "a flush head needs a countersunk or dimpled sheet";
        SeatUnderPlainSheet = 102, "joint-seat-under-plain-sheet", "A countersunk or dimpled sheet under a plain one: the flush head cannot reach it.",
            "a flush head cannot reach a seat under a plain sheet; sink the sheets from the head side down";
        EdgeNotKnown = 101, "joint-edge-not-known", "No edge distance was given, and the practice has none for this rivet.",
            "the edge distance is missing; right would be .25";
        OutOfRange = 100, "joint-out-of-range", "A load came out too large to be a number.",
            "these strengths are too large for these sizes; check their units";
        | Margin(MarginError), "The margin could not be worked out.";
    }
}

/// Edge margins at which bearing strength is published.
const EDGE_LEAST: f64 = 1.5;
const EDGE_FULL: f64 = 2.0;

/// Thickness over hole between which bearing was tested (MIL-HDBK-5J 1.4.7.1).
const BEARING_TESTS: (f64, f64) = (0.25, 0.50);

/// An edge margin up to which nothing is published: as a number, and as a fraction, so that it is compared exactly.
struct LeastEdge {
    ratio: f64,
    over: (i128, i128),
    basis: Basis,
}

impl LeastEdge {
    /// Whether an edge distance beside such a diameter is at least this; exact.
    fn is_reached(&self, edge: Length, diameter: Length) -> bool {
        let (over, under) = self.over;
        let scaled = |length: Length, by: i128| i128::from(length.nanometres()).wrapping_mul(by);
        scaled(edge, under) >= scaled(diameter, over)
    }
}

/// Of a plain hole.
const PLAIN_EDGE: LeastEdge = LeastEdge { ratio: EDGE_LEAST, over: (3, 2), basis: Basis::HDBK5J_BEARING_BELOW };
/// Of a tested flush joint.
const FLUSH_EDGE: LeastEdge = LeastEdge { ratio: EDGE_FULL, over: (2, 1), basis: Basis::HDBK5_FLUSH_EDGE };

/// What one rivet carries in these sheets.
///
/// # Errors
/// [`StrengthError`] for what is no joint at all. What is a joint, but one whose strength is not published, comes back with a
/// finding that says `refer` and without an allowable.
///
/// ```
/// use shophead::finding::Severity;
/// use shophead::joint::strength::{Joint, Mode, Preparation, Rivet, RivetKeys, Shear, Sheet, strength};
/// use shophead::length::Length;
/// use shophead::material::{Material, RivetAlloy};
/// use shophead::rivet::Head;
///
/// // Bare 2024-T3 sheet, .010 to .128.
/// let sheet_2024 = Material::parse("2024-T3").ok().and_then(|material| material.properties(Length::parse(".032").ok()?));
/// let sheet_2024 = sheet_2024.map(Into::into);
/// let skin = Sheet::new(Length::parse(".032")?, Length::parse("1/4")?).properties(sheet_2024);
/// let cap = skin.thickness(Length::parse(".125")?);
/// let rivet = Rivet::new(Length::parse("1/8")?, Head::Universal).driven_shear(RivetAlloy::Al2117.fsu_driven());
/// let found = strength(&Joint::new(&[skin, cap], rivet)).expect("a joint");
/// let governing = found.governing.expect("all of it published");
/// // Thin sheet: 388 lbf × (1 - 0.04 (0.125/0.032 - 3)).
/// assert_eq!(governing.mode, Mode::RivetShear);
/// assert!((governing.load.force.lbf() - 373.9).abs() < 0.1);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
pub fn strength(joint: &Joint<'_>) -> Result<JointStrength, StrengthError> {
    let is_sunk = |sheet: &Sheet<'_>| sheet.preparation != Preparation::Plain;
    if joint.rivet.head.is_flush() {
        if !joint.sheets.iter().any(is_sunk) {
            return Err(StrengthError::NoSeatForFlushHead);
        }
        if joint.sheets.iter().skip_while(|sheet| is_sunk(sheet)).any(is_sunk) {
            return Err(StrengthError::SeatUnderPlainSheet);
        }
    }
    let mut found = JointStrength::nothing_yet();
    found.fill(joint)?;
    Ok(found)
}

impl<'a> JointStrength {
    /// Where an answer is filled in, for [`crate::installation::Installation::strength_into`].
    #[must_use]
    pub const fn nothing_yet() -> JointStrength {
        JointStrength {
            diameter: (Length::ZERO, Basis::SHANK_COUNTS),
            thin_sheet_factor: None,
            shear: None,
            ceiling: None,
            sheets: heapless::Vec::new(),
            allowable: None,
            indication: None,
            governing: None,
            net_section: None,
            margin: None,
            yield_margin: None,
            basis: Basis::SHANK_COUNTS,
            findings: Findings::new(),
        }
    }

    /// Works an answer out where it stands. After an error it is no answer.
    #[inline(never)]
    pub(crate) fn fill(&mut self, joint: &Joint<'a>) -> Result<(), StrengthError> {
        let (sheets, findings) = (&mut self.sheets, &mut self.findings);
        sheets.clear();
        findings.clear();
        // Cannot fail: the sheets are counted before the first is worked out.
        let mut keep = |sheet: &SheetStrength| {
            let _ = sheets.push(*sheet);
        };
        let found = weakest(joint, &mut keep, &mut |finding| findings.push(finding))?;
        let Sheared { load, thin_sheet_factor, ceiling } = found.shear;
        (self.diameter, self.shear, self.thin_sheet_factor, self.ceiling) =
            (found.diameter, load, thin_sheet_factor, ceiling);
        (self.allowable, self.indication) = found.load();
        (self.governing, self.net_section, self.basis) = (found.governing, found.net_section, found.basis);
        self.take_load(joint.load)
    }
}

/// What of a strength is known when every sheet has been looked at once: a part of [`JointStrength`].
pub(super) struct Weakest {
    diameter: (Length, Basis),
    shear: Sheared,
    pub(super) governing: Option<Governing>,
    indicated: bool,
    net_section: Option<(Allowable, u8)>,
    pub(super) basis: Basis,
}

impl Weakest {
    /// The load at which something fails: an allowable, or only an indication.
    pub(super) fn load(&self) -> (Option<Allowable>, Option<Allowable>) {
        let load = self.governing.map(|governing| governing.load);
        if self.indicated { (None, load) } else { (load, None) }
    }
}

/// What fails first; hands out each sheet and each finding on the way, so that only who needs them has room for them.
#[inline(never)]
pub(super) fn weakest(
    joint: &Joint<'_>,
    keep: &mut dyn FnMut(&SheetStrength),
    push: &mut Sink<'_>,
) -> Result<Weakest, StrengthError> {
    check(joint)?;
    let diameter = counted_diameter(joint, push);
    let net_hole = joint.hole_or_nominal();
    if joint.pitch.is_some_and(|pitch| pitch <= net_hole) {
        return Err(StrengthError::PitchInsideHole);
    }
    let mut tally = Tally::new();
    let shear = rivet_shear(joint, diameter, push)?;
    tally.add(Mode::RivetShear, None, shear.load, 1.0, false);

    let (mut net_section, mut every_net_section) = (None, true);
    for (sheet, layer) in joint.sheets.iter().zip(1_u8..) {
        let at = At { joint, sheet, layer, diameter, net_hole };
        let found = at.strength(push)?;
        let mode = match found.bearing().map(|bearing| bearing.kind) {
            Some(BearingKind::FlushJoint) => Mode::FlushJoint,
            _ => Mode::Bearing,
        };
        let indicated = found.bearing().is_some_and(|bearing| bearing.kind == BearingKind::Indication);
        tally.add(mode, Some(layer), found.bearing().map(|bearing| bearing.ultimate), found.share(), indicated);
        // Bearing strengths come from tests to the end, so a sheet without a published shear strength still has an allowable.
        if found.tear_out().is_some() {
            tally.add(Mode::TearOut, Some(layer), found.tear_out(), found.share(), false);
        }
        net_section = lesser_net_section(net_section, found.net_section(), layer);
        every_net_section &= found.net_section().is_some();
        keep(&found);
    }
    push_some(outside_tests(joint), push);

    let governing = tally.governing.filter(|_| tally.complete);
    if let Some(governing) = governing.filter(|governing| governing.load.basis.status() == Status::Memory) {
        let found = Finding::new(Code::LimitFromMemory, Severity::Caution, governing.load.basis)
            .with_measured(Figure::Force(governing.load.force));
        push(governing.layer.map_or(found, |layer| found.in_layer(layer)));
    }
    Ok(Weakest {
        diameter,
        shear,
        governing,
        indicated: tally.indicated,
        net_section: net_section.filter(|_| every_net_section),
        basis: tally.basis.unwrap_or(diameter.1),
    })
}

fn check(joint: &Joint<'_>) -> Result<(), StrengthError> {
    let positive = |length: Length| length > Length::ZERO;
    match (joint.sheets.len(), joint.shear) {
        (0 | 1, _) => return Err(StrengthError::TooFewSheets),
        (count, _) if count > MAX_SHEETS => return Err(StrengthError::TooManySheets),
        (3, Shear::Double) | (_, Shear::Single) => {}
        (_, Shear::Double) => return Err(StrengthError::DoubleShearNeedsThreeSheets),
    }
    if !positive(joint.rivet.diameter) {
        return Err(StrengthError::DiameterNotPositive);
    }
    if !joint.sheets.iter().all(|sheet| positive(sheet.thickness)) {
        return Err(StrengthError::ThicknessNotPositive);
    }
    if !joint.sheets.iter().all(|sheet| positive(sheet.edge)) {
        return Err(StrengthError::EdgeNotPositive);
    }
    if joint.hole.is_some_and(|hole| !positive(hole)) {
        return Err(StrengthError::HoleNotPositive);
    }
    Ok(())
}

/// A stress that a table or a caller gave: a number above zero.
fn valid(stress: Stress) -> Result<Stress, StrengthError> {
    if stress.is_finite() && stress > Stress::ZERO { Ok(stress) } else { Err(StrengthError::StressNotPositive) }
}

fn finite(force: Force, basis: Basis) -> Result<Allowable, StrengthError> {
    if force.is_finite() { Ok(Allowable { force, basis }) } else { Err(StrengthError::OutOfRange) }
}

/// The hole as it is, but not more than the table says; the shank where the table has no such rivet.
fn counted_diameter(joint: &Joint<'_>, push: &mut Sink<'_>) -> (Length, Basis) {
    let nominal = joint.rivet.diameter;
    let Some(row) = hole_table::nominal_hole(nominal) else {
        let counted = joint.hole.map_or(nominal, |hole| hole.min(nominal));
        let severity = joint.unpublished.min(Severity::Caution);
        push(
            Finding::new(Code::StrengthNotPublished, severity, Basis::SHANK_COUNTS)
                .with_measured(Figure::Length(counted)),
        );
        return (counted, Basis::SHANK_COUNTS);
    };
    match joint.hole {
        Some(hole) if hole > row.hole => {
            push(
                Finding::new(Code::HoleAboveNominal, Severity::Note, Basis::HDBK5H_HOLE_CAPPED)
                    .with_measured(Figure::Length(hole))
                    .with_limit(Figure::Length(row.hole)),
            );
            (row.hole, row.basis)
        }
        Some(hole) => (hole, row.basis),
        None => (row.hole, row.basis),
    }
}

/// Shear of the rivet.
#[derive(Clone, Copy)]
struct Sheared {
    /// In all planes, thin-sheet factor included.
    load: Option<Allowable>,
    thin_sheet_factor: Option<f64>,
    /// Of one plane.
    ceiling: Option<Allowable>,
}

/// Shear of the rivet and the thin-sheet factor in it.
fn rivet_shear(
    joint: &Joint<'_>,
    (diameter, diameter_basis): (Length, Basis),
    push: &mut Sink<'_>,
) -> Result<Sheared, StrengthError> {
    let mut found = Sheared { load: None, thin_sheet_factor: None, ceiling: None };
    let Some((stress, stress_basis)) = joint.rivet.driven_shear else {
        let (code, basis) = (Code::StrengthNotPublished, Basis::HDBK5J_T8_1_2B);
        push(Finding::unknown(code, joint.unpublished, basis, joint.rivet.keys.shear));
        return Ok(found);
    };
    let stress = valid(stress)?;
    let mut basis = stress_basis.weaker(diameter_basis);
    // A flush joint's table has the effect of thin sheet in it, so only straight holes count here.
    // So has what the shop tested in a sheet that is too thin for the tables.
    let straight = |sheet: &&Sheet<'_>| {
        sheet.preparation == Preparation::Plain && !(joint.is_thin(sheet) && joint.tested(sheet).is_some())
    };
    let thickness = match joint.shear {
        Shear::Single => joint.sheets.iter().filter(straight).map(|sheet| sheet.thickness).min(),
        Shear::Double => joint.sheets.get(1).filter(straight).map(|sheet| sheet.thickness),
    };
    if let Some(thickness) = thickness {
        if !thin_sheet::is_covered(thickness, joint.widest_hole()) {
            // The sheet's own finding says so.
            return Ok(found);
        }
        found.thin_sheet_factor = thin_sheet::factor(joint.shear, thickness, joint.rivet.diameter);
    }
    let mut single = modes::rivet_shear(stress, diameter, Shear::Single.planes());
    if let Some(cell) = shear_table::shear_cell(stress, joint.rivet.diameter) {
        found.ceiling = Some(Allowable { force: cell.ultimate, basis: cell.basis });
        // A printed cell is rounded; some lie a pound below the formula.
        if cell.ultimate < single {
            single = cell.ultimate;
            basis = basis.weaker(cell.basis);
        }
    }
    let shear = Force::from_lbf(single.lbf() * joint.shear.planes() * found.thin_sheet_factor.unwrap_or(1.0));
    found.load = Some(finite(shear, basis)?);
    Ok(found)
}

/// One sheet in its joint.
struct At<'j> {
    joint: &'j Joint<'j>,
    sheet: &'j Sheet<'j>,
    layer: u8,
    diameter: (Length, Basis),
    net_hole: Length,
}

impl<'a> At<'a> {
    fn strength(&self, push: &mut Sink<'_>) -> Result<SheetStrength, StrengthError> {
        let edge_margin = self.sheet.edge.to_inches_f64() / self.joint.larger().to_inches_f64();
        let outer = self.joint.shear == Shear::Double && self.layer != 2;
        let mut found = SheetStrength::new(self.layer, edge_margin, outer);
        let thickness = self.sheet.thickness;
        let within = self.sheet.properties.and_then(|sheet| sheet.within(thickness));
        let tested = self.joint.tested(self.sheet);
        let Some(properties) = within.or(self.sheet.properties.filter(|_| tested.is_some())) else {
            let key = match self.sheet.preparation {
                Preparation::Plain => self.key(Property::BearingUltimate20),
                Preparation::Countersunk | Preparation::Dimpled => self.joint.rivet.keys.flush_joint,
            };
            self.not_published(self.joint.unpublished, Basis::HDBK5J_CHAPTER_3, key, push);
            return Ok(found);
        };
        let bearing = match (self.sheet.preparation, tested) {
            (_, Some(tested)) => Some(self.entered_joint(tested, edge_margin)?),
            (Preparation::Plain, None) => self.bearing(&properties, edge_margin, push)?,
            (_, None) => self.flush_joint(&properties, edge_margin, push)?,
        };
        if let Some(bearing) = bearing {
            found.put_bearing(bearing);
        }
        push_some(self.below_edge(tested, edge_margin), push);
        match properties.figure(Property::ShearUltimate) {
            None => {
                let key = self.key(Property::ShearUltimate);
                self.not_published(self.joint.unpublished.min(Severity::Caution), properties.basis(), key, push);
            }
            Some((fsu, stands)) => {
                let fsu = valid(fsu)?;
                let edge = self.sheet.edge;
                let basis = stands.weaker(Basis::TEAR_OUT);
                found.put(SheetLoad::TearOut, finite(modes::tear_out(fsu, thickness, edge), basis)?);
                let relief =
                    modes::tear_out_with_relief(fsu, thickness, edge, self.joint.larger().max(self.diameter.0));
                if relief > Force::ZERO {
                    let basis = stands.weaker(Basis::TEAR_OUT_WITH_RELIEF).weaker(self.diameter.1);
                    found.put(SheetLoad::Relief, finite(relief, basis)?);
                }
            }
        }
        match (self.joint.pitch, properties.figure(Property::TensionUltimate)) {
            (None, _) => {}
            (Some(_), None) => {
                let key = self.key(Property::TensionUltimate);
                self.not_published(self.joint.unpublished, properties.basis(), key, push);
            }
            (Some(pitch), Some((ftu, basis))) => {
                let net = modes::net_section(valid(ftu)?, thickness, pitch, self.net_hole, 1);
                found.put(SheetLoad::Net, finite(net, basis)?);
            }
        }
        Ok(found)
    }

    fn not_published(&self, severity: Severity, basis: Basis, key: Option<Key>, push: &mut Sink<'_>) {
        push(Finding::unknown(Code::StrengthNotPublished, severity, basis, key).in_layer(self.layer));
    }

    /// What a property of the sheet is called in a limits file; a sheet of no known material has no name there.
    fn key(&self, property: Property) -> Option<Key> {
        Some(Key::of_sheet(self.sheet.properties?.material()?, property))
    }

    /// That the edge is nearer than in the tests behind the sheet's strength: the shop's, or the published ones. In place of those a test of the
    /// shop's own at this edge distance can be entered.
    fn below_edge(&self, tested: Option<&EnteredJoint>, edge_margin: f64) -> Option<Finding> {
        let below = |basis, least| {
            let finding = Finding::new(Code::EdgeMarginBelowTable, self.joint.unpublished, basis);
            let finding = finding.with_measured(Figure::Ratio(edge_margin)).with_limit(Figure::Ratio(least));
            finding.in_layer(self.layer)
        };
        if let Some(tested) = tested {
            let is_below = !tested.reaches(self.sheet.edge, self.joint.tested_in());
            return is_below.then(|| below(tested.basis, tested.edge_margin()));
        }
        let (least, key) = match self.sheet.preparation {
            Preparation::Plain => (&PLAIN_EDGE, self.joint.rivet.keys.plain_joint),
            Preparation::Countersunk | Preparation::Dimpled => (&FLUSH_EDGE, self.joint.rivet.keys.flush_joint),
        };
        let named = key.filter(|_| self.sheet.properties.is_some_and(|sheet| sheet.material().is_some()));
        (!self.reaches(least)).then(|| below(least.basis, least.ratio).or_enter(named))
    }

    /// Whether the edge margin is at least this; exact.
    fn reaches(&self, least: &LeastEdge) -> bool {
        least.is_reached(self.sheet.edge, self.joint.larger())
    }

    fn bearing(
        &self,
        properties: &Strengths<'_>,
        edge_margin: f64,
        push: &mut Sink<'_>,
    ) -> Result<Option<Bearing>, StrengthError> {
        let (thickness, diameter) = (self.sheet.thickness, self.diameter.0);
        if let Some(finding) = too_thin(thickness, self.joint.widest_hole(), self.joint.unpublished) {
            let key = self.joint.rivet.keys.plain_joint.filter(|_| properties.material().is_some());
            push(finding.or_enter(key).in_layer(self.layer));
            return Ok(None);
        }
        let load = |stress: Stress, stands: Basis, also: Option<Basis>| {
            let basis = stands.weaker(self.diameter.1);
            finite(modes::bearing(stress, diameter, thickness), also.map_or(basis, |also| basis.weaker(also)))
        };
        let covered = self.reaches(&PLAIN_EDGE);
        let at_margin = |at_15: Property, at_20: Property| {
            let (at_15, at_20) = (properties.figure(at_15), properties.figure(at_20));
            let both = at_15.or(at_20).map(|(_, stands)| at_20.map_or(stands, |(_, other)| stands.weaker(other)));
            let at_15 = at_15.map(|(stress, _)| valid(stress)).transpose()?;
            let at_20 = at_20.map(|(stress, _)| valid(stress)).transpose()?;
            let found = bearing_stress(edge_margin, covered, at_15, at_20);
            found.zip(both).map(|((stress, also), stands)| load(stress, stands, also)).transpose()
        };
        let Some(ultimate) = at_margin(Property::BearingUltimate15, Property::BearingUltimate20)? else {
            // From 2.0 on the value there holds; below, the lower one is needed.
            let needed =
                if edge_margin < EDGE_FULL { Property::BearingUltimate15 } else { Property::BearingUltimate20 };
            self.not_published(self.joint.unpublished, properties.basis(), self.key(needed), push);
            return Ok(None);
        };
        let yield_load = at_margin(Property::BearingYield15, Property::BearingYield20)?;
        let kind = if covered { BearingKind::Sheet } else { BearingKind::Indication };
        Ok(Some(Bearing { kind, ultimate, yield_load }))
    }

    /// The tested joint of a countersunk or dimpled sheet.
    fn flush_joint(
        &self,
        properties: &Strengths<'_>,
        edge_margin: f64,
        push: &mut Sink<'_>,
    ) -> Result<Option<Bearing>, StrengthError> {
        let rivet = &self.joint.rivet;
        let same_rivet = rivet.head == Head::Flush
            && self.joint.shear == Shear::Single
            && rivet.driven_shear.is_some_and(|(stress, _)| stress == flush_table::DRIVEN_SHEAR);
        let (preparation, thickness) = (self.sheet.preparation, self.sheet.thickness);
        let is_knife_edge = flush_table::ROWS.iter().any(|row| {
            row.knife_edge
                && row.rivet == rivet.diameter
                && row.preparation == preparation
                && row.thickness >= thickness
        });
        if is_knife_edge && rivet.head == Head::Flush {
            push(
                Finding::new(Code::CountersinkTooDeep, self.joint.unpublished, Basis::HDBK5F_KNIFE_EDGE)
                    .with_measured(Figure::Length(thickness))
                    .in_layer(self.layer),
            );
        }
        let row = flush_table::flush_row(rivet.diameter, preparation, properties, thickness).filter(|_| same_rivet);
        let Some((row, basis)) = row else {
            self.not_published(self.joint.unpublished, Basis::HDBK5_FLUSH_RIVETS, rivet.keys.flush_joint, push);
            return Ok(None);
        };
        let part = if self.reaches(&FLUSH_EDGE) { None } else { Some(edge_margin / EDGE_FULL) };
        Ok(Some(self.tested(BearingKind::FlushJoint, (row.ultimate, row.yield_load, basis), part)?))
    }

    /// The tested joint that the shop entered.
    fn entered_joint(&self, joint: &EnteredJoint, edge_margin: f64) -> Result<Bearing, StrengthError> {
        let is_reached = joint.reaches(self.sheet.edge, self.joint.tested_in());
        let part = if is_reached { None } else { Some(edge_margin / joint.edge_margin()) };
        let kind = match self.sheet.preparation {
            Preparation::Plain => BearingKind::Sheet,
            Preparation::Countersunk | Preparation::Dimpled => BearingKind::FlushJoint,
        };
        self.tested(kind, (joint.ultimate, joint.yield_load, joint.basis), part)
    }

    /// What a tested joint carries; where the edge is nearer than in the test, in proportion, as an indication.
    fn tested(
        &self,
        kind: BearingKind,
        (ultimate, yield_load, basis): (Force, Option<Force>, Basis),
        part: Option<f64>,
    ) -> Result<Bearing, StrengthError> {
        let (kind, part, basis) = match part {
            None => (kind, 1.0, basis),
            Some(part) => (BearingKind::Indication, part, basis.weaker(Basis::BEARING_INDICATED)),
        };
        Ok(Bearing {
            kind,
            ultimate: finite(Force::from_lbf(ultimate.lbf() * part), basis)?,
            yield_load: yield_load.map(|load| finite(Force::from_lbf(load.lbf() * part), basis)).transpose()?,
        })
    }
}

/// A sheet too thin beside its hole for any published bearing strength.
fn too_thin(thickness: Length, hole: Length, severity: Severity) -> Option<Finding> {
    if thin_sheet::is_covered(thickness, hole) {
        return None;
    }
    let finding = Finding::new(Code::SheetTooThinForTable, severity, Basis::HDBK5H_LEAST_RATIO);
    let (measured, limit) = (ratio(thickness, hole), thin_sheet::LEAST_RATIO);
    Some(finding.with_measured(Figure::Ratio(measured)).with_limit(Figure::Ratio(limit)))
}

fn ratio(thickness: Length, hole: Length) -> f64 {
    thickness.to_inches_f64() / hole.to_inches_f64()
}

/// Every layer that carries load and is too thin beside its hole, or beside the nominal one, for any published bearing strength. Where a layer
/// takes the head the tested joints say how thin it may be.
pub(crate) fn check_bearing_range(
    rivet: &Part<'_>,
    (hole, edge): (Option<Length>, Option<Length>),
    stack: &Stack,
    (practice, severity): (&Practice<'_>, Severity),
    push: &mut Sink<'_>,
) {
    let shank = rivet.size().shank_nominal;
    let nominal = nominal_hole(shank);
    let larger = counted_in_tests(shank, hole);
    let hole = hole.map_or(nominal, |hole| hole.max(nominal));
    for (number, layer) in stack.numbered_load_carrying().filter(|(_, layer)| layer.preparation == Preparation::Plain) {
        let thickness = layer.thickness.nominal();
        let Some(finding) = too_thin(thickness, hole, severity) else { continue };
        let tested = |material| {
            let edge = (edge.unwrap_or(Length::MAX), larger);
            practice.entered_joint(rivet, Preparation::Plain, (material, thickness), edge)
        };
        if layer.material.and_then(tested).is_none() {
            let key = layer.material.and_then(|_| Key::of_plain_joint(rivet));
            push(finding.or_enter(key).in_layer(number));
        }
    }
}

/// The plain sheet that lies furthest outside the range of thickness over hole in which bearing was tested: the thinnest of those below it,
/// else the thickest of those above.
fn outside_tests(joint: &Joint<'_>) -> Option<Finding> {
    let hole = joint.widest_hole();
    let is_published = |sheet: &Sheet<'_>| sheet.preparation == Preparation::Plain && joint.tested(sheet).is_none();
    let plain = || joint.sheets.iter().zip(1_u8..).filter(|(sheet, _)| is_published(sheet));
    let covered = |(sheet, _): &(&Sheet<'_>, u8)| thin_sheet::is_covered(sheet.thickness, hole);
    let below = |(sheet, _): &(&Sheet<'_>, u8)| ratio(sheet.thickness, hole) < BEARING_TESTS.0;
    let above = |(sheet, _): &(&Sheet<'_>, u8)| ratio(sheet.thickness, hole) > BEARING_TESTS.1;
    let thin = plain().filter(covered).filter(below).min_by_key(|(sheet, _)| sheet.thickness);
    let thick = || plain().filter(above).max_by_key(|(sheet, _)| sheet.thickness);
    let limit = if thin.is_some() { BEARING_TESTS.0 } else { BEARING_TESTS.1 };
    let (sheet, layer) = thin.or_else(thick)?;
    let finding = Finding::new(Code::BearingOutsideTests, Severity::Note, Basis::HDBK5J_BEARING_RANGE);
    let measured = Figure::Ratio(ratio(sheet.thickness, hole));
    Some(finding.with_measured(measured).with_limit(Figure::Ratio(limit)).in_layer(layer))
}

fn push_some(finding: Option<Finding>, push: &mut Sink<'_>) {
    if let Some(finding) = finding {
        push(finding);
    }
}

/// Bearing stress at an edge margin, and what it rests on besides the sheet's table. Where the margin is not covered by the tests, below 1.5, it
/// is an indication.
pub(crate) fn bearing_stress(
    edge_margin: f64,
    covered: bool,
    at_15: Option<Stress>,
    at_20: Option<Stress>,
) -> Option<(Stress, Option<Basis>)> {
    if covered {
        return at_edge_margin(edge_margin, at_15, at_20);
    }
    let in_proportion = |at_15: Stress| Stress::from_psi(at_15.psi() * edge_margin / EDGE_LEAST);
    at_15.map(|at_15| (in_proportion(at_15), Some(Basis::BEARING_INDICATED)))
}

/// Bearing stress at an edge margin of 1.5 or more, and what it rests on besides the sheet's table.
fn at_edge_margin(edge_margin: f64, at_15: Option<Stress>, at_20: Option<Stress>) -> Option<(Stress, Option<Basis>)> {
    if edge_margin >= EDGE_FULL {
        // Read at 2.0; that more edge does not count for more is only left out.
        return at_20.or(at_15).map(|stress| (stress, None));
    }
    let at_15 = at_15?;
    match at_20 {
        Some(at_20) if edge_margin > EDGE_LEAST => {
            let way = (edge_margin - EDGE_LEAST) / (EDGE_FULL - EDGE_LEAST);
            Some((
                Stress::from_psi(at_15.psi() + way * (at_20.psi() - at_15.psi())),
                Some(Basis::HDBK5J_BEARING_BETWEEN),
            ))
        }
        _ => Some((at_15, None)),
    }
}

fn lesser_net_section(least: Option<(Allowable, u8)>, found: Option<Allowable>, layer: u8) -> Option<(Allowable, u8)> {
    match (least, found) {
        (Some((least, at)), Some(found)) if least.force <= found.force => Some((least, at)),
        (least, None) => least,
        (_, Some(found)) => Some((found, layer)),
    }
}

/// The least of the parts so far.
struct Tally {
    governing: Option<Governing>,
    basis: Option<Basis>,
    /// Whether every part had a figure.
    complete: bool,
    /// Whether one of them was only an indication.
    indicated: bool,
}

impl Tally {
    fn new() -> Tally {
        Tally { governing: None, basis: None, complete: true, indicated: false }
    }

    /// Counts a part; `share` is how much of the rivet's load it gets.
    fn add(&mut self, mode: Mode, layer: Option<u8>, part: Option<Allowable>, share: f64, indicated: bool) {
        let Some(part) = part else {
            self.complete = false;
            return;
        };
        self.indicated |= indicated;
        self.basis = Some(self.basis.map_or(part.basis, |basis| basis.weaker(part.basis)));
        let load = Allowable { force: Force::from_lbf(part.force.lbf() / share), ..part };
        if self.governing.is_none_or(|governing| load.force < governing.load.force) {
            self.governing = Some(Governing { mode, layer, load });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::installation::Installation;
    use crate::joint::margin::LoadKind;
    use crate::length::Toleranced;
    use crate::material::{EnteredSheet, Guarantee, Material, SheetHeading, SheetProperties};
    use crate::practice::{Entered, HANDBOOK};
    use crate::prelude::length;
    use crate::rivet::part::Part;
    use crate::stack::Stack;

    static HEADING: SheetHeading = SheetHeading {
        alloy: "2024",
        temper: "T3",
        form: "sheet",
        clad: false,
        specification: "AMS-QQ-A-250/4",
        poisson_hundredths: 0,
        density_thousandths: 100,
        bearing_dry_pin: Some(true),
        note: "",
        basis: Basis::HDBK5J_T3_2_3_0_B1,
    };

    /// Bare 2024-T3, MIL-HDBK-5J table 3.2.3.0(b1), p 3-71, basis A.
    static BARE: SheetProperties = SheetProperties::new(
        &HEADING,
        (100, 1_280),
        Guarantee::A,
        [640, 630, 470, 420, 390, 450, 390, 1_040, 1_290, 730, 880],
        [0; 4],
    );

    const DRIVEN_2117: (Stress, Basis) = (Stress::from_ksi(30.0), Basis::HDBK5J_T8_1_2B);

    fn sheet(thickness: &str) -> Sheet<'static> {
        let (thickness, edge) = (length(thickness), length("1/4"));
        let properties = Some((&BARE).into());
        Sheet { properties, thickness, edge, preparation: Preparation::Plain, entered_joint: None }
    }

    fn lap<'s>(sheets: &'s [Sheet<'s>]) -> Joint<'s> {
        let rivet = Rivet {
            diameter: length("1/8"),
            head: Head::Universal,
            driven_shear: Some(DRIVEN_2117),
            keys: RivetKeys::default(),
        };
        Joint { sheets, rivet, hole: None, shear: Shear::Single, pitch: None, load: None, unpublished: Severity::Refer }
    }

    fn near(found: Option<Allowable>, by_hand: f64) {
        let found = found.expect("covered").force.lbf();
        assert!((found - by_hand).abs() < 1e-6 * by_hand, "{found}, by hand {by_hand}");
    }

    /// MIL-HDBK-5H table 8.1.2(a): a 1/8 rivet in its nominal hole of .1285. As wide as that counts as it is, without a word.
    #[test]
    fn a_hole_counts_as_wide_as_the_table_has_it_and_no_wider() {
        let counted = |hole: &str| {
            let rivet = Part::parse("MS20470AD4").unwrap();
            let stack = Stack::parse("2024-T3:.063, 2024-T3:.063").unwrap();
            let found = Installation::new(rivet, &stack)
                .edge(length("1"))
                .pitch(length("1"))
                .in_hole(Toleranced::exactly(length(hole)));
            let found = found.strength().unwrap();
            (found.diameter.0, found.findings.has(Code::HoleAboveNominal))
        };
        assert_eq!(counted(".1285"), (length(".1285"), false));
        assert_eq!(counted(".1286"), (length(".1285"), true));
        assert_eq!(counted(".1284"), (length(".1284"), false));
    }

    #[test]
    fn beside_a_test_the_hole_counts_where_it_is_wider_than_drilled() {
        let counted = |hole: Option<&str>| counted_in_tests(length("1/8"), hole.map(length));
        assert_eq!(counted(None), length("1/8"));
        assert_eq!(counted(Some(".120")), length("1/8"));
        assert_eq!(counted(Some(".1285")), length("1/8"));
        assert_eq!(counted(Some(".1286")), length(".1286"));
    }

    #[test]
    fn a_rivet_without_strength_is_no_rivet() {
        let sheets = [sheet(".040"); 2];
        for none in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let mut joint = lap(&sheets);
            joint.rivet.driven_shear = Some((Stress::from_psi(none), Basis::own(0)));
            assert_eq!(strength(&joint).err(), Some(StrengthError::StressNotPositive), "{none}");
        }
    }

    #[test]
    fn bearing_by_hand_at_between_and_above_the_edge_margins() {
        for (edge, fbru, fbry) in [
            (".1875", 104_000.0, 73_000.0),
            (".21875", 116_500.0, 80_500.0),
            (".25", 129_000.0, 88_000.0),
            ("2", 129_000.0, 88_000.0),
        ] {
            let sheets = [Sheet { edge: length(edge), ..sheet(".040") }; 2];
            let found = strength(&lap(&sheets)).unwrap();
            let bearing = found.sheets[0].bearing().unwrap();
            near(Some(bearing.ultimate), fbru * 0.1285 * 0.040);
            near(bearing.yield_load, fbry * 0.1285 * 0.040);
            assert_eq!(bearing.kind, BearingKind::Sheet);
        }
    }

    #[test]
    fn below_the_least_edge_margin_only_an_indication_is_left() {
        let sheets = [Sheet { edge: length(".125"), ..sheet(".040") }, sheet(".040")];
        let found = strength(&lap(&sheets)).unwrap();
        assert!(found.allowable.is_none() && found.margin.is_none());
        // Bearing in proportion, 104 000 × (1.0 / 1.5) × 0.1285 × 0.040 = 356; tear-out 2 × 0.125 × 0.040 × 39 000 = 390; shear
        // 388 × factor.
        let bearing = found.sheets[0].bearing().unwrap();
        assert_eq!(bearing.kind, BearingKind::Indication);
        near(found.indication, 104_000.0 / 1.5 * 0.1285 * 0.040);
        assert_eq!(found.findings.iter().filter(|finding| finding.code() == Code::EdgeMarginBelowTable).count(), 1);
    }

    #[test]
    fn thin_middle_sheet_in_double_shear_takes_all_and_outer_sheets_half() {
        let sheets = [sheet(".032"), sheet(".040"), sheet(".032")];
        let joint = Joint { shear: Shear::Double, ..lap(&sheets) };
        let found = strength(&joint).unwrap();
        // D/t of the middle sheet 3.125: 1 - 0.13 (3.125 - 1.5).
        near(found.shear, 2.0 * 388.0 * (1.0 - 0.13 * 1.625));
        assert_eq!(found.sheets.iter().map(|sheet| sheet.share()).collect::<heapless::Vec<_, 3>>(), [0.5, 1.0, 0.5]);
        near(found.allowable, 2.0 * 388.0 * (1.0 - 0.13 * 1.625));
        assert_eq!(found.governing.map(|governing| (governing.mode, governing.layer)), Some((Mode::RivetShear, None)));
    }

    #[test]
    fn an_oversize_shank_counts_its_own_diameter_and_says_so() {
        let sheets = [sheet(".125"); 2];
        let mut joint = lap(&sheets);
        joint.rivet.diameter = length(".141");
        joint.hole = Some(length(".144"));
        let found = strength(&joint).unwrap();
        assert_eq!(found.diameter.0, length(".141"));
        near(found.shear, 30_000.0 * core::f64::consts::FRAC_PI_4 * 0.141 * 0.141);
        let said = found.findings.iter().find(|finding| finding.code() == Code::StrengthNotPublished).unwrap();
        assert_eq!(said.severity(), Severity::Caution);
    }

    #[test]
    fn a_hole_below_nominal_counts_as_it_is_and_the_net_section_takes_the_hole_as_it_is() {
        let sheets = [sheet(".125"); 2];
        let small = Joint { hole: Some(length(".127")), ..lap(&sheets) };
        near(strength(&small).unwrap().shear, 30_000.0 * core::f64::consts::FRAC_PI_4 * 0.127 * 0.127);
        let wide = Joint { hole: Some(length(".140")), pitch: Some(length(".5")), ..lap(&sheets) };
        let found = strength(&wide).unwrap();
        near(found.shear, 388.0);
        near(found.net_section.map(|(net, _)| net), 63_000.0 * 0.125 * (0.5 - 0.140));
    }

    #[test]
    fn what_is_not_published_has_no_allowable() {
        let known = sheet(".040");
        let unknown = Sheet { properties: None, ..known };
        let too_thick = Sheet { thickness: length(".250"), ..known };
        let countersunk = Sheet { preparation: Preparation::Countersunk, ..known };
        for (odd, layer) in [([unknown, known], 1), ([known, too_thick], 2), ([countersunk, known], 1)] {
            let found = strength(&lap(&odd)).unwrap();
            assert!(found.allowable.is_none() && found.indication.is_none() && found.governing.is_none());
            let said = found.findings.iter().find(|finding| finding.code() == Code::StrengthNotPublished).unwrap();
            assert_eq!((said.layer(), said.severity()), (Some(layer), Severity::Refer));
        }
        let sheets = [known; 2];
        let mut joint = lap(&sheets);
        joint.rivet.driven_shear = None;
        let found = strength(&joint).unwrap();
        assert!(found.allowable.is_none() && found.findings.must_refer());
    }

    #[test]
    fn a_margin_below_zero_is_referred() {
        let sheets = [sheet(".040"); 2];
        let under = |lbf: f64| {
            let load = Load { force: Force::from_lbf(lbf), kind: LoadKind::Ultimate };
            strength(&Joint { load: Some((load, Factors::SEAM)), ..lap(&sheets) }).unwrap()
        };
        let carried = under(300.0);
        assert!(carried.margin.unwrap().value > 0.0 && !carried.findings.has(Code::MarginNegative));
        let broken = under(500.0);
        assert!(broken.margin.unwrap().value < 0.0 && broken.findings.has(Code::MarginNegative));
        assert!(broken.findings.must_refer());
        let load = Load { force: Force::ZERO, kind: LoadKind::Limit };
        let joint = Joint { load: Some((load, Factors::SEAM)), ..lap(&sheets) };
        assert_eq!(strength(&joint), Err(StrengthError::Margin(MarginError::LoadNotPositive)));
    }

    /// Sheet whose shear strength is not published.
    static NO_SHEAR: SheetProperties = SheetProperties::new(
        &HEADING,
        (100, 1_280),
        Guarantee::A,
        [640, 630, 470, 420, 390, 450, 0, 1_040, 1_290, 730, 880],
        [0; 4],
    );

    #[test]
    fn no_finding_of_the_worst_joint_is_lost() {
        let sheet = Sheet {
            properties: Some((&NO_SHEAR).into()),
            thickness: length(".032"),
            edge: length(".1"),
            preparation: Preparation::Countersunk,
            entered_joint: None,
        };
        let sheets = [sheet; MAX_SHEETS];
        let rivet =
            Rivet { diameter: length("3/32"), head: Head::Flush, driven_shear: None, keys: RivetKeys::default() };
        let found = strength(&Joint { rivet, hole: Some(length("1/8")), ..lap(&sheets) }).unwrap();
        assert_eq!(found.findings.iter().filter(|finding| finding.layer().is_some()).count(), 4 * MAX_SHEETS);
        assert_eq!(found.findings.iter().count(), 4 * MAX_SHEETS + 2, "the hole and the rivet");
        assert!(found.findings.is_complete());
    }

    #[test]
    fn what_is_no_joint_is_an_error() {
        let one = sheet(".040");
        let two = [one; 2];
        let error = |joint: &Joint<'_>| strength(joint).unwrap_err();
        assert_eq!(error(&lap(&[one])), StrengthError::TooFewSheets);
        assert_eq!(error(&lap(&[one; 9])), StrengthError::TooManySheets);
        assert_eq!(error(&Joint { shear: Shear::Double, ..lap(&two) }), StrengthError::DoubleShearNeedsThreeSheets);
        assert_eq!(error(&lap(&[one, Sheet { thickness: Length::ZERO, ..one }])), StrengthError::ThicknessNotPositive);
        assert_eq!(error(&lap(&[one, Sheet { edge: Length::MIN, ..one }])), StrengthError::EdgeNotPositive);
        assert_eq!(error(&Joint { hole: Some(Length::ZERO), ..lap(&two) }), StrengthError::HoleNotPositive);
        assert_eq!(error(&Joint { pitch: Some(length(".1285")), ..lap(&two) }), StrengthError::PitchInsideHole);
        let mut joint = lap(&two);
        joint.rivet.diameter = Length::ZERO;
        assert_eq!(error(&joint), StrengthError::DiameterNotPositive);
        joint = lap(&two);
        joint.rivet.head = Head::Flush;
        assert_eq!(error(&joint), StrengthError::NoSeatForFlushHead);
        joint = lap(&two);
        joint.rivet.driven_shear = Some((Stress::from_ksi(f64::NAN), DRIVEN_2117.1));
        assert_eq!(error(&joint), StrengthError::StressNotPositive);
        joint.rivet.driven_shear = Some((Stress::from_psi(f64::MAX), DRIVEN_2117.1));
        joint.rivet.diameter = Length::INCH.checked_mul(100).unwrap();
        let thick = Sheet { thickness: Length::INCH.checked_mul(100).unwrap(), ..one };
        assert_eq!(error(&Joint { sheets: &[thick, thick], ..joint }), StrengthError::OutOfRange);
    }

    /// A 1/8 rivet in a hole of .160, the other sheet .060.
    #[test]
    fn how_thick_a_sheet_is_beside_its_hole_is_said_where_the_tests_end() {
        for (thickness, code, measured) in [
            (".024", Some(Code::SheetTooThinForTable), 0.15),
            (".036", Some(Code::BearingOutsideTests), 0.225),
            (".040", None, 0.25),
            (".080", None, 0.5),
            (".088", Some(Code::BearingOutsideTests), 0.55),
        ] {
            let sheets = [sheet(thickness), sheet(".060")];
            let found = strength(&Joint { hole: Some(length(".160")), ..lap(&sheets) }).unwrap();
            let codes = [Code::SheetTooThinForTable, Code::BearingOutsideTests];
            let said = found.findings.iter().find(|finding| codes.contains(&finding.code()));
            assert_eq!(said.map(|finding| (finding.code(), finding.layer())), code.map(|code| (code, Some(1))));
            if let Some(finding) = said {
                let Some(Figure::Ratio(ratio)) = finding.measured() else { panic!("{finding:?}") };
                assert!((ratio - measured).abs() < 1e-12, "{ratio} {measured}");
            }
        }
    }

    #[test]
    fn the_net_section_is_that_of_the_weaker_sheet_and_of_two_alike_the_first() {
        for (sheets, weaker, layer) in
            [([".063", ".040"], 0.040, 2), ([".040", ".063"], 0.040, 1), ([".050"; 2], 0.050, 1)]
        {
            let sheets = sheets.map(sheet);
            let found = strength(&Joint { pitch: Some(length(".75")), ..lap(&sheets) }).unwrap();
            let (net, at) = found.net_section.unwrap();
            near(Some(net), 63_000.0 * weaker * (0.75 - 0.1285));
            assert_eq!(at, layer);
        }
    }

    #[test]
    fn at_the_least_edge_margin_nothing_lies_between_two_figures() {
        let (low, high) = (Stress::from_ksi(100.0), Stress::from_ksi(130.0));
        assert_eq!(at_edge_margin(1.5, Some(low), Some(high)), Some((low, None)));
        assert_eq!(at_edge_margin(2.0, Some(low), Some(high)), Some((high, None)));
        let between = Some((Stress::from_ksi(115.0), Some(Basis::HDBK5J_BEARING_BETWEEN)));
        assert_eq!(at_edge_margin(1.75, Some(low), Some(high)), between);
    }

    /// 3/32 in .040 countersunk: 193 lbf, 153 at yield.
    #[test]
    fn nearer_to_the_edge_a_flush_joint_has_its_part_of_both_figures() {
        for (edge, part) in [("3/16", 1.0), ("9/64", 0.75)] {
            let sunk = Sheet { edge: length(edge), preparation: Preparation::Countersunk, ..sheet(".040") };
            let sheets = [sunk, sheet(".063")];
            let mut joint = lap(&sheets);
            (joint.rivet.diameter, joint.rivet.head) = (length("3/32"), Head::Flush);
            let found = strength(&joint).unwrap();
            let bearing = found.sheets[0].bearing().unwrap();
            near(Some(bearing.ultimate), 193.0 * part);
            near(bearing.yield_load, 153.0 * part);
        }
    }

    /// The figure at 2.0 is what is needed from there on; nearer to the edge it is not enough.
    #[test]
    fn what_bearing_strength_is_missing_follows_from_the_edge() {
        let material = Material::own("2219-T87").unwrap();
        let mut entered = Entered::new();
        let sheet_entered = EnteredSheet::new(material, Basis::own(0));
        entered.sheet(sheet_entered.with(Property::TensionUltimate, Stress::from_ksi(60.0))).unwrap();
        let practice = HANDBOOK.with_entered(&entered);
        for (edge, needed) in [(".249", Property::BearingUltimate15), (".25", Property::BearingUltimate20)] {
            let properties = Some(practice.sheet(material, length(".040")));
            let sheets = [Sheet { properties, edge: length(edge), ..sheet(".040") }, sheet(".040")];
            let found = strength(&lap(&sheets)).unwrap();
            assert_eq!(found.findings.iter().find_map(Finding::key), Some(Key::of_sheet(material, needed)), "{edge}");
        }
    }

    /// The table marks 3/32 in .032 as a knife edge, and what is thinner is worse.
    #[test]
    fn a_knife_edge_is_of_this_rivet_countersunk_in_a_sheet_no_thicker() {
        use Preparation::{Countersunk, Dimpled};
        for (rivet, preparation, thickness, said) in [
            ("3/32", Countersunk, ".032", true),
            ("3/32", Countersunk, ".025", true),
            ("3/32", Countersunk, ".0321", false),
            ("3/32", Dimpled, ".032", false),
            ("1/8", Countersunk, ".032", false),
        ] {
            let sheets = [Sheet { preparation, ..sheet(thickness) }, sheet(".063")];
            let mut joint = lap(&sheets);
            (joint.rivet.diameter, joint.rivet.head) = (length(rivet), Head::Flush);
            let found = strength(&joint).unwrap();
            assert_eq!(found.findings.has(Code::CountersinkTooDeep), said, "{rivet} {preparation} {thickness}");
        }
    }

    fn tested(preparation: Preparation, edge: &str) -> EnteredJoint {
        let (rivet, sheet) =
            (Part::parse("MS20426AD4").unwrap(), (Material::parse("2024-T3").unwrap(), length(".040")));
        let joint = EnteredJoint::new(&rivet, preparation, sheet, Force::from_lbf(200.0), Basis::own(0));
        joint.at_edge(length(edge)).yielding_at(Force::from_lbf(160.0))
    }

    #[test]
    fn a_shops_test_counts_in_a_plain_sheet_only_where_no_published_strength_does() {
        use Preparation::{Countersunk, Plain};
        for (preparation, thickness, edge, tested_at, counts) in [
            (Countersunk, ".040", "1/4", "1/4", true),
            (Plain, ".040", "1/4", "1/4", false),
            (Plain, ".040", "1/4", ".15", false),
            (Plain, ".020", "1/4", "1/4", true),
            (Plain, ".040", ".15", ".15", true),
            (Plain, ".040", ".15", "1/4", false),
        ] {
            let joint = tested(preparation, tested_at);
            let edge = length(edge);
            let sheets = [Sheet { preparation, edge, entered_joint: Some(&joint), ..sheet(thickness) }, sheet(".063")];
            assert_eq!(
                lap(&sheets).tested(&sheets[0]).is_some(),
                counts,
                "{preparation} {thickness} {edge} {tested_at}"
            );
        }
    }

    /// Tested at 2.0 diameters: at 1.6 of them four fifths are left, as an indication.
    #[test]
    fn nearer_to_the_edge_a_shops_test_has_its_part_of_both_figures() {
        let joint = tested(Preparation::Countersunk, "1/4");
        for (edge, part, kind) in [("1/4", 1.0, BearingKind::FlushJoint), (".2", 0.8, BearingKind::Indication)] {
            let preparation = Preparation::Countersunk;
            let sunk = Sheet { edge: length(edge), preparation, entered_joint: Some(&joint), ..sheet(".040") };
            let sheets = [sunk, sheet(".063")];
            let mut joint = lap(&sheets);
            joint.rivet.head = Head::Flush;
            let bearing = strength(&joint).unwrap().sheets[0].bearing().unwrap();
            assert_eq!(bearing.kind, kind);
            near(Some(bearing.ultimate), 200.0 * part);
            near(bearing.yield_load, 160.0 * part);
        }
    }

    #[test]
    fn of_two_sheets_alike_the_first_is_named_as_what_fails() {
        let sheets = [sheet(".040"); 2];
        let mut joint = lap(&sheets);
        joint.rivet.driven_shear = Some((Stress::from_ksi(300.0), Basis::own(0)));
        let governing = strength(&joint).unwrap().governing.unwrap();
        assert_eq!(governing.layer, Some(1));
    }

    #[test]
    fn a_sheet_says_its_number_its_edge_margin_and_its_tear_out_with_relief() {
        // 2 t Fsu (e - d / 2 cos 40°), down to nothing.
        for (edge, margin) in [("1/4", 2.0), (".1", 0.8), (".045", 0.36)] {
            let sheets = [Sheet { edge: length(edge), ..sheet(".040") }; 2];
            let found = strength(&lap(&sheets)).unwrap();
            for (sheet, number) in found.sheets.iter().zip(1..) {
                assert_eq!(sheet.layer(), number);
                assert!((sheet.edge_margin() - margin).abs() < 1e-12);
                let plane = 0.125 * margin - 0.1285 / 2.0 * 0.766_044_443_118_978;
                match sheet.tear_out_with_relief() {
                    Some(relief) => near(Some(relief), 2.0 * 0.040 * 39_000.0 * plane),
                    None => assert!(plane < 0.0),
                }
                assert_eq!(sheet.tear_out_with_relief().is_some(), plane > 0.0);
            }
        }
    }

    #[test]
    fn one_plane_of_the_rivet_is_told_without_what_thin_sheet_takes_off() {
        for shear in [Shear::Single, Shear::Double] {
            let sheets = [sheet(".032"), sheet(".040"), sheet(".032")];
            near(strength(&Joint { shear, ..lap(&sheets) }).unwrap().shear_of_one_plane(), 388.0);
        }
    }

    /// Half of the load is in each outer sheet: the joint yields at twice 88 000 × 0.1285 × 0.025.
    #[test]
    fn an_outer_sheet_in_double_shear_yields_under_twice_the_load() {
        let sheets = [sheet(".025"), sheet(".063"), sheet(".025")];
        let found = strength(&Joint { shear: Shear::Double, ..lap(&sheets) }).unwrap();
        near(found.yield_load(), 2.0 * 88_000.0 * 0.1285 * 0.025);
    }
}
