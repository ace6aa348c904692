//! Figures that a shop enters beside its limits: dimensions of a series, strengths of materials, rivets and tested joints.

use core::cmp::Reverse;

use super::Practice;
use super::key::Dimension;
use crate::basis::Basis;
use crate::length::{Interval, Length, Toleranced, product};
use crate::material::{EnteredSheet, Material, ParseMaterialError, RivetAlloy, Strengths};
use crate::quantity::{Force, Stress};
use crate::rivet::part::Part;
use crate::rivet::{Head, HeadSize, LengthTolerance, Series, Size};
use crate::stack::Preparation;

/// The most sizes of series.
pub const MAX_SIZES: usize = 96;
/// The most series with a length tolerance.
pub const MAX_TOLERANCES: usize = 16;
/// The most sheets: materials, each in a range of thickness.
pub const MAX_ENTERED_SHEETS: usize = 32;
/// The most rivet alloys.
pub const MAX_SHEARS: usize = 16;
/// The most rivets with a strength in tension.
pub const MAX_TENSIONS: usize = 16;
/// The most tested joints.
pub const MAX_JOINTS: usize = 64;

crate::words::errors! {
    /// Why a figure is not entered.
    EnterError {
        Full = _, "entered-full", "There is no room for more of its kind.",
            "there are too many figures of this kind; leave out those of rivets and sheets that the shop does not use";
        NoSuchSize = _, "entered-size", "The series has no such size.",
            "the series has no such size";
        NotPositive = _, "entered-not-positive", "Zero or less.",
            "it must be above zero";
        HeadNotWiderThanShank = _, "entered-head-not-wider", "The head is no wider than the shank.",
            "the head must be wider than the shank";
        HeadNeedsBoth = _, "entered-head-needs-both", "Of a protruding head one dimension alone gives nothing.",
            "a protruding head needs its diameter and its height";
        ShankNotThisSize = _, "entered-shank-not-this-size", "The limits of the shank leave out its nominal diameter.",
            "the limits of the shank leave out its nominal diameter";
        SaidTwice = _, "entered-twice", "The same figure was entered before.",
            "it is entered twice";
    }
}

/// A tested joint that a shop enters: the sheet that the rivet bears in, and what one rivet carries in it.
///
/// In countersunk or dimpled sheet it comes before the published ones. In plain sheet it counts where no strength is published, because the
/// sheet is too thin beside its hole or the hole too near to the edge; elsewhere enter the bearing strength of the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct EnteredJoint {
    /// The name of the rivet's series.
    pub series: &'static str,
    /// Its alloy.
    pub alloy: RivetAlloy,
    /// Its dash number.
    pub dash: u8,
    /// Its nominal shank.
    pub shank: Length,
    /// How the sheet takes it.
    pub preparation: Preparation,
    /// The sheet's material.
    pub material: Material,
    /// Its thickness: thicker sheets of the material count no more.
    pub thickness: Length,
    /// The edge distance that it was tested at: more of it counts no more.
    pub edge: Length,
    /// What one rivet carries.
    pub ultimate: Force,
    /// At which load the joint yields, where known.
    pub yield_load: Option<Force>,
    /// The document.
    pub basis: Basis,
}

impl EnteredJoint {
    /// A joint of a rivet in a sheet, tested at an edge distance of two diameters, whose yield is not known.
    #[must_use]
    pub fn new(
        rivet: &Part<'static>,
        preparation: Preparation,
        (material, thickness): (Material, Length),
        ultimate: Force,
        basis: Basis,
    ) -> EnteredJoint {
        let (series, alloy, size) = (rivet.series().name, rivet.alloy(), rivet.size());
        let (shank, edge) = (size.shank_nominal, size.shank_nominal.times(2, 1));
        let (dash, yield_load) = (size.dash, None);
        EnteredJoint { series, alloy, dash, shank, preparation, material, thickness, edge, ultimate, yield_load, basis }
    }

    /// The same tested at another edge distance.
    #[must_use]
    pub const fn at_edge(self, edge: Length) -> EnteredJoint {
        EnteredJoint { edge, ..self }
    }

    /// The same with the load at which it yields.
    #[must_use]
    pub const fn yielding_at(self, load: Force) -> EnteredJoint {
        EnteredJoint { yield_load: Some(load), ..self }
    }

    /// Whether it is of such a rivet in such a sheet.
    fn is_of(&self, part: &Part<'_>, preparation: Preparation, material: Material) -> bool {
        (self.series, self.alloy, self.dash) == (part.series().name, part.alloy(), part.size().dash)
            && (self.preparation, self.material) == (preparation, material)
    }

    /// Whether an edge distance is as great as in the test, diameter for diameter, beside a hole or shank of such a diameter; exact.
    #[must_use]
    pub fn reaches(&self, edge: Length, diameter: Length) -> bool {
        let times = |one: Length, other: Length| product(one.nanometres().into(), other.nanometres().into());
        times(edge, self.shank) >= times(self.edge, diameter)
    }

    /// The edge margin of the test.
    #[must_use]
    pub fn edge_margin(&self) -> f64 {
        self.edge.to_inches_f64() / self.shank.to_inches_f64()
    }
}

/// What one driven rivet carries along its shank, as a shop entered it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct EnteredTension {
    series: &'static str,
    alloy: RivetAlloy,
    dash: u8,
    ultimate: Force,
    basis: Basis,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct EnteredSize {
    series: &'static str,
    size: Size,
}

/// Figures that a shop enters beside its limits.
///
/// They come before every built-in figure; what was not entered stays as it is built in. Each carries the basis that it was entered with.
///
/// ```
/// use shophead::basis::{Basis, Document};
/// use shophead::finding::Code;
/// use shophead::installation::Installation;
/// use shophead::length::Toleranced;
/// use shophead::practice::{Dimension, Entered, HANDBOOK};
/// use shophead::rivet::{NAS1241, part::Part};
/// use shophead::stack::Stack;
/// let layers = Stack::parse("2024-T3:.080:countersunk, 2024-T3:.125")?;
/// let rivet = Part::parse("NAS1241AD4")?;
/// // Nobody knows how high the head of this standard is: it is counted between two others.
/// assert!(Installation::new(rivet, &layers).length()?.findings.has(Code::HeadBetween));
/// let documents = [Document { document: "part standard in the shop", place: "sheet 2" }];
/// let mut entered = Entered::new();
/// entered.size(&NAS1241, 4, Dimension::HeadHeight, Toleranced::parse(".036")?, Basis::own(0))?;
/// let shop = HANDBOOK.with_own(&[], &documents).with_entered(&entered);
/// let answer = Installation::new(rivet, &layers).by(&shop).length()?;
/// assert!(!answer.findings.has(Code::HeadBetween));
/// assert_eq!(answer.part.unwrap().to_string(), "NAS1241AD4-7");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entered {
    sizes: heapless::Vec<EnteredSize, MAX_SIZES>,
    tolerances: heapless::Vec<(&'static str, LengthTolerance), MAX_TOLERANCES>,
    sheets: heapless::Vec<EnteredSheet, MAX_ENTERED_SHEETS>,
    shears: heapless::Vec<(RivetAlloy, Stress, Basis), MAX_SHEARS>,
    joints: heapless::Vec<EnteredJoint, MAX_JOINTS>,
    tensions: heapless::Vec<EnteredTension, MAX_TENSIONS>,
}

impl Entered {
    /// None yet.
    #[must_use]
    pub const fn new() -> Entered {
        Entered {
            sizes: heapless::Vec::new(),
            tolerances: heapless::Vec::new(),
            sheets: heapless::Vec::new(),
            shears: heapless::Vec::new(),
            joints: heapless::Vec::new(),
            tensions: heapless::Vec::new(),
        }
    }

    /// Whether nothing is entered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sizes.is_empty()
            && self.tolerances.is_empty()
            && self.sheets.is_empty()
            && self.shears.is_empty()
            && self.joints.is_empty()
            && self.tensions.is_empty()
    }

    /// Enters one dimension of a size of a series.
    ///
    /// Of a flush head either dimension gives the other by its cone, until that is entered too.
    ///
    /// # Errors
    /// [`EnterError`]; nothing is entered then.
    pub fn size(
        &mut self,
        series: &Series<'static>,
        dash: u8,
        dimension: Dimension,
        figure: Toleranced,
        basis: Basis,
    ) -> Result<(), EnterError> {
        match dimension {
            Dimension::Shank => self.shank(series, dash, figure, basis),
            Dimension::HeadDiameter => self.head(series, dash, Some(figure), None, basis),
            Dimension::HeadHeight => self.head(series, dash, None, Some(figure), basis),
        }
    }

    /// Enters the shank of a size.
    ///
    /// # Errors
    /// As [`Entered::size`].
    pub fn shank(
        &mut self,
        series: &Series<'static>,
        dash: u8,
        shank: Toleranced,
        basis: Basis,
    ) -> Result<(), EnterError> {
        if shank.min() <= Length::ZERO {
            return Err(EnterError::NotPositive);
        }
        let nominal = series.size(dash).ok_or(EnterError::NoSuchSize)?.shank_nominal;
        // What a part number counts stays: limits that leave it out are a slip.
        if !shank.interval().contains(nominal) {
            return Err(EnterError::ShankNotThisSize);
        }
        let size = self.size_mut(series, dash)?;
        size.size.shank = Some(shank.interval());
        size.size.basis = basis;
        Ok(())
    }

    /// Enters the manufactured head of a size, by one of its dimensions or both.
    ///
    /// # Errors
    /// As [`Entered::size`].
    pub fn head(
        &mut self,
        series: &Series<'static>,
        dash: u8,
        diameter: Option<Toleranced>,
        height: Option<Toleranced>,
        basis: Basis,
    ) -> Result<(), EnterError> {
        let known = self.size_of(series, dash).or(series.size(dash)).ok_or(EnterError::NoSuchSize)?;
        if diameter.into_iter().chain(height).any(|length| length.min() <= Length::ZERO) {
            return Err(EnterError::NotPositive);
        }
        let shank = known.shank_nominal;
        let head = match (diameter, height) {
            (None, None) => return Ok(()),
            (Some(diameter), Some(height)) => both(diameter, height, basis),
            (Some(diameter), None) => match known.head {
                Some(head) => HeadSize { basis, ..with_diameter(head, diameter) },
                None => {
                    let height = cone_height(series.head, diameter, shank)?;
                    both(diameter, height, basis)
                }
            },
            (None, Some(height)) => match known.head {
                Some(head) => HeadSize { basis, ..with_height(head, height) },
                None => both(cone_diameter(series.head, height, shank)?, height, basis),
            },
        };
        if head.diameter.map_or(head.diameter_nominal, Interval::min) <= shank {
            return Err(EnterError::HeadNotWiderThanShank);
        }
        self.size_mut(series, dash)?.size.head = Some(head);
        Ok(())
    }

    /// Enters by how much the rivets of a series may be longer or shorter than their numbers say.
    ///
    /// # Errors
    /// As [`Entered::size`].
    pub fn length_tolerance(
        &mut self,
        series: &Series<'static>,
        either_way: Length,
        basis: Basis,
    ) -> Result<(), EnterError> {
        if either_way < Length::ZERO {
            return Err(EnterError::NotPositive);
        }
        if self.tolerances.iter().any(|(name, _)| *name == series.name) {
            return Err(EnterError::SaidTwice);
        }
        self.tolerances.push((series.name, LengthTolerance { either_way, basis })).map_err(|_| EnterError::Full)
    }

    /// Enters strengths of a material.
    ///
    /// # Errors
    /// As [`Entered::size`]; [`EnterError::SaidTwice`] where another of the same material has a thickness in common with it.
    pub fn sheet(&mut self, sheet: EnteredSheet) -> Result<(), EnterError> {
        if self.sheets.iter().any(|other| other.overlaps(&sheet)) {
            return Err(EnterError::SaidTwice);
        }
        self.sheets.push(sheet).map_err(|_| EnterError::Full)
    }

    /// Enters the ultimate shear of driven rivets of an alloy.
    ///
    /// # Errors
    /// As [`Entered::size`].
    pub fn shear(&mut self, alloy: RivetAlloy, shear: Stress, basis: Basis) -> Result<(), EnterError> {
        if !(shear.is_finite() && shear > Stress::ZERO) {
            return Err(EnterError::NotPositive);
        }
        if self.shears.iter().any(|(known, ..)| *known == alloy) {
            return Err(EnterError::SaidTwice);
        }
        self.shears.push((alloy, shear, basis)).map_err(|_| EnterError::Full)
    }

    /// Enters a tested joint.
    ///
    /// # Errors
    /// As [`Entered::size`].
    pub fn joint(&mut self, joint: EnteredJoint) -> Result<(), EnterError> {
        let positive = |force: Force| force.is_finite() && force > Force::ZERO;
        if joint.thickness.min(joint.edge) <= Length::ZERO
            || !positive(joint.ultimate)
            || !joint.yield_load.is_none_or(positive)
        {
            return Err(EnterError::NotPositive);
        }
        let sheet = |of: &EnteredJoint| (of.preparation, of.material, of.thickness, of.edge);
        let same = |other: &EnteredJoint| {
            (other.series, other.alloy, other.dash) == (joint.series, joint.alloy, joint.dash)
                && sheet(other) == sheet(&joint)
        };
        if self.joints.iter().any(same) {
            return Err(EnterError::SaidTwice);
        }
        self.joints.push(joint).map_err(|_| EnterError::Full)
    }

    /// Enters what one driven rivet carries along its shank: ultimate, for its series, alloy and size.
    ///
    /// # Errors
    /// As [`Entered::size`].
    pub fn tension(&mut self, rivet: &Part<'static>, ultimate: Force, basis: Basis) -> Result<(), EnterError> {
        if !(ultimate.is_finite() && ultimate > Force::ZERO) {
            return Err(EnterError::NotPositive);
        }
        if self.tension_of(rivet).is_some() {
            return Err(EnterError::SaidTwice);
        }
        let (series, alloy, dash) = (rivet.series().name, rivet.alloy(), rivet.size().dash);
        let tension = EnteredTension { series, alloy, dash, ultimate, basis };
        self.tensions.push(tension).map_err(|_| EnterError::Full)
    }

    fn tension_of(&self, rivet: &Part<'_>) -> Option<(Force, Basis)> {
        let of = (rivet.series().name, rivet.alloy(), rivet.size().dash);
        let found = self.tensions.iter().find(|known| (known.series, known.alloy, known.dash) == of);
        found.map(|known| (known.ultimate, known.basis))
    }

    /// The strengths in tension that were entered: series, alloy, dash number, ultimate, document.
    pub fn tensions(&self) -> impl Iterator<Item = (&'static str, RivetAlloy, u8, Force, Basis)> + '_ {
        self.tensions.iter().map(|known| (known.series, known.alloy, known.dash, known.ultimate, known.basis))
    }

    /// Whether the length tolerance of a series was entered.
    #[must_use]
    pub fn has_length_tolerance(&self, series: &Series<'_>) -> bool {
        self.tolerances.iter().any(|(name, _)| *name == series.name)
    }

    /// The sheets that were entered, in their order.
    #[must_use]
    pub fn sheets(&self) -> &[EnteredSheet] {
        &self.sheets
    }

    /// The materials of the shop's own that figures were entered for, each once.
    pub fn materials(&self) -> impl Iterator<Item = Material> + '_ {
        let is_first =
            |(at, own): &(usize, Material)| !self.sheets.iter().take(*at).any(|sheet| sheet.material() == *own);
        let own = self.sheets.iter().map(EnteredSheet::material).enumerate().filter(|(_, known)| known.is_own());
        own.filter(is_first).map(|(_, own)| own)
    }

    /// The tested joints that were entered, in their order.
    #[must_use]
    pub fn joints(&self) -> &[EnteredJoint] {
        &self.joints
    }

    /// The sizes that were entered, each with the name of its series.
    pub fn sizes(&self) -> impl Iterator<Item = (&'static str, &Size)> {
        self.sizes.iter().map(|entered| (entered.series, &entered.size))
    }

    /// The shear strengths that were entered.
    pub fn shears(&self) -> impl Iterator<Item = (RivetAlloy, Stress, Basis)> + '_ {
        self.shears.iter().copied()
    }

    fn size_of(&self, series: &Series<'_>, dash: u8) -> Option<&Size> {
        let found = self.sizes.iter().find(|entered| entered.series == series.name && entered.size.dash == dash);
        found.map(|entered| &entered.size)
    }

    /// The entered size, begun as the built-in one.
    fn size_mut(&mut self, series: &Series<'static>, dash: u8) -> Result<&mut EnteredSize, EnterError> {
        let is_it = |entered: &EnteredSize| entered.series == series.name && entered.size.dash == dash;
        if !self.sizes.iter().any(is_it) {
            let size = *series.size(dash).ok_or(EnterError::NoSuchSize)?;
            self.sizes.push(EnteredSize { series: series.name, size }).map_err(|_| EnterError::Full)?;
        }
        self.sizes.iter_mut().find(|entered| is_it(entered)).ok_or(EnterError::Full)
    }
}

fn both(diameter: Toleranced, height: Toleranced, basis: Basis) -> HeadSize {
    let head = HeadSize {
        diameter_nominal: diameter.nominal(),
        diameter: None,
        height_nominal: height.nominal(),
        height: None,
        basis,
    };
    with_height(with_diameter(head, diameter), height)
}

fn with_diameter(head: HeadSize, diameter: Toleranced) -> HeadSize {
    HeadSize { diameter_nominal: diameter.nominal(), diameter: Some(diameter.interval()), ..head }
}

fn with_height(head: HeadSize, height: Toleranced) -> HeadSize {
    HeadSize { height_nominal: height.nominal(), height: Some(height.interval()), ..head }
}

/// The other dimension of a flush head, by its cone.
fn cone_height(head: Head, diameter: Toleranced, shank: Length) -> Result<Toleranced, EnterError> {
    if !head.is_flush() {
        return Err(EnterError::HeadNeedsBoth);
    }
    let at = |diameter| head.cone_height(diameter, shank).ok_or(EnterError::HeadNotWiderThanShank);
    toleranced(at(diameter.nominal())?, at(diameter.min())?, at(diameter.max())?)
}

fn cone_diameter(head: Head, height: Toleranced, shank: Length) -> Result<Toleranced, EnterError> {
    let at = |height| head.cone_diameter(height, shank).ok_or(EnterError::HeadNeedsBoth);
    toleranced(at(height.nominal())?, at(height.min())?, at(height.max())?)
}

fn toleranced(nominal: Length, min: Length, max: Length) -> Result<Toleranced, EnterError> {
    Toleranced::new(nominal, nominal.minus(min), max.minus(nominal)).map_err(|_| EnterError::NotPositive)
}

impl<'a> Practice<'a> {
    /// This practice with a shop's own figures of series and materials. Their documents stand in the list that
    /// [`Practice::with_own`] takes.
    #[must_use]
    pub const fn with_entered<'b>(&self, entered: &'b Entered) -> Practice<'b>
    where
        'a: 'b,
    {
        Practice { entered: Some(entered), ..*self }
    }

    /// What the shop entered.
    #[must_use]
    pub const fn entered(&self) -> Option<&'a Entered> {
        self.entered
    }

    /// A rivet with the dimensions that the shop entered for it.
    #[must_use]
    pub fn rivet(&self, part: Part<'a>) -> Part<'a> {
        match self.entered.and_then(|entered| entered.size_of(part.series(), part.size().dash)) {
            Some(size) => part.with_dimensions(size),
            None => part,
        }
    }

    /// A size of a series with the dimensions that the shop entered for it.
    #[must_use]
    pub fn size<'b>(&self, series: &Series<'_>, size: &'b Size) -> &'b Size
    where
        'a: 'b,
    {
        self.entered.and_then(|entered| entered.size_of(series, size.dash)).unwrap_or(size)
    }

    /// The length tolerance of a series.
    #[must_use]
    pub fn length_tolerance(&self, series: &Series<'_>) -> Option<LengthTolerance> {
        let own = self.entered.and_then(|entered| entered.tolerances.iter().find(|(name, _)| *name == series.name));
        own.map(|(_, tolerance)| *tolerance).or(series.length_tolerance)
    }

    /// Reads a material: one that is on file, or one of the shop's own that figures were entered for.
    ///
    /// # Errors
    /// As [`Material::parse`].
    ///
    /// ```
    /// use shophead::basis::Basis;
    /// use shophead::material::{EnteredSheet, Material, Property};
    /// use shophead::practice::{Entered, HANDBOOK};
    /// use shophead::quantity::Stress;
    /// let mut entered = Entered::new();
    /// let sheet = EnteredSheet::new(Material::own("2219-T87")?, Basis::own(0));
    /// entered.sheet(sheet.with(Property::TensionUltimate, Stress::from_ksi(63.0)))?;
    /// let shop = HANDBOOK.with_entered(&entered);
    /// assert_eq!(shop.material("2219-t87")?.to_string(), "2219-T87");
    /// assert!(shop.material("2219-T81").is_err(), "nobody entered anything of it");
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    pub fn material(&self, text: &str) -> Result<Material, ParseMaterialError> {
        Material::among(text, self.entered.into_iter().flat_map(Entered::materials))
    }

    /// What is known of a sheet in its thickness: what the shop entered before what is published. Of a material without any figure only its
    /// name.
    #[must_use]
    pub fn sheet(&self, material: Material, thickness: Length) -> Strengths<'a> {
        let own =
            self.entered.and_then(|entered| entered.sheets.iter().find(|sheet| sheet.covers(material, thickness)));
        Strengths::of(material, material.properties(thickness), own)
    }

    /// What one driven rivet carries along its shank, where the shop entered it: no table at hand gives that.
    #[must_use]
    pub fn entered_tension(&self, rivet: &Part<'_>) -> Option<(Force, Basis)> {
        self.entered?.tension_of(rivet)
    }

    /// The ultimate shear of driven rivets of an alloy, where the shop entered it.
    #[must_use]
    pub fn entered_shear(&self, alloy: RivetAlloy) -> Option<(Stress, Basis)> {
        let own = self.entered.and_then(|entered| entered.shears.iter().find(|(known, ..)| *known == alloy));
        own.map(|(_, shear, basis)| (*shear, *basis))
    }

    /// The ultimate shear of driven rivets of an alloy: as the shop entered it, else the least of the alloy's.
    #[must_use]
    pub fn driven_shear(&self, alloy: RivetAlloy) -> Option<(Stress, Basis)> {
        self.entered_shear(alloy).or_else(|| alloy.fsu_driven())
    }

    /// The tested joint that the shop entered for a rivet in such a sheet: of those in sheet that is no thicker and at an edge distance that
    /// is no greater the one in the thickest, at the greatest. Where the edge distance is less than in all of them, the one tested nearest to
    /// the edge.
    ///
    /// `edge` is the edge distance and the diameter it is counted in: the shank, or the hole where that is larger.
    #[must_use]
    pub fn entered_joint(
        &self,
        part: &Part<'_>,
        preparation: Preparation,
        (material, thickness): (Material, Length),
        (edge, diameter): (Length, Length),
    ) -> Option<&'a EnteredJoint> {
        let joints = self.entered?.joints.iter();
        let found = joints.filter(|joint| joint.is_of(part, preparation, material) && joint.thickness <= thickness);
        found.max_by_key(|joint| {
            let reached = joint.reaches(edge, diameter);
            let tested = joint.edge.nanometres();
            (reached, Reverse(if reached { 0 } else { tested }), joint.thickness, tested)
        })
    }
}
