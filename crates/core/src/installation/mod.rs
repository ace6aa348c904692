//! A rivet in its stack: the one question that every command, session and program asks.
//!
//! An [`Installation`] is a rivet, the layers that it goes through, and whatever else is known: the hole, the distances, the member, what
//! was installed before, the load. It answers
//!
//! - [`Installation::length`]: which length to order, and the driven head it makes;
//! - [`Installation::hole`]: what becomes of a hole as found;
//! - [`Installation::strength`], [`Installation::row`], [`Installation::compare`]: what the rivet and its row carry, and whether that is as much
//!   as before;
//! - [`Installation::axial`]: how much it is to be pulled with, and the force that forms its head;
//! - [`Installation::findings`]: what is wrong with it whatever is asked.
//!
//! Every answer carries the findings of every check that applies to what is known, so the same facts get the same findings whoever asks and
//! whatever is asked. How serious a finding is depends on the finding and on the facts, never on the question. What the question needs and
//! was not given is one finding, [`Code::NotChecked`], that lists it.
//!
//! | check | module |
//! |---|---|
//! | diameter for the sheet, alloy, heat treatment | [`crate::select`] |
//! | seat of a flush head | [`crate::stack`]: countersunk, dimpled or plain |
//! | edge distance, pitch, row spacing | [`crate::layout`] |
//! | shank that does not enter, hole beyond the rivet's limits | here |
//! | sheet too thin for any published bearing strength, shims, sealant, unequal sheets | [`crate::joint`] |
//! | rivets that touch | here |
//! | another rivet than before, a smaller shank | [`crate::joint::compare`] |
//!
//! ```
//! use shophead::finding::Code;
//! use shophead::installation::Installation;
//! use shophead::rivet::part::Part;
//! use shophead::stack::Stack;
//!
//! let rivet = Part::parse("MS20426AD5")?;
//! let layers = Stack::parse("2024-T3:.063:countersunk, 2024-T3:.125")?;
//! let answer = Installation::new(rivet, &layers).length()?;
//! assert_eq!(answer.part.unwrap().to_string(), "MS20426AD5-7");
//! // The .063 skin is too thin for this countersink by the practice: the answer says so without being asked.
//! assert!(answer.findings.has(Code::CountersinkTooDeep));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod ask;
mod axial;
mod checks;
mod ladder;
#[cfg(test)]
mod tests;

pub use axial::Axial;
pub use ladder::{HoleAnswer, MAX_STEPS, Step};

use crate::basis::Basis;
use crate::fact::{Fact, Facts};
use crate::finding::{Code, Figure, Finding, Findings, Severity, Sink};
use crate::joint::flexibility::Formula;
use crate::joint::margin::{Factors, Load};
use crate::joint::sharing::Transfer;
use crate::joint::strength::Shear;
use crate::layout::RowLayout;
use crate::length::{Length, Toleranced};
use crate::material::DrivenShear;
use crate::practice::{Case, ForCase, Given, HANDBOOK, Practice};
use crate::quantity::Stress;
use crate::rivet::part::Part;
use crate::stack::{Preparation, Stack};
use crate::structure::{Member, Structure};

/// A rivet in its stack, with what is known of its surroundings.
///
/// Made from the rivet and its layers; each further fact is one call. A fact that is not given is not guessed: the checks that need it are left
/// out, and the answer lists it where the question needs it.
#[derive(Clone, Copy, Debug)]
pub struct Installation<'q, 'a> {
    rivet: Part<'a>,
    stack: Option<&'q Stack>,
    /// The thickness of the stack, where its layers are not known.
    grip: Option<Toleranced>,
    hole: Option<Toleranced>,
    layout: RowLayout,
    /// To the edge in the direction of the load, where that is not the nearest one.
    edge_in_load: Option<Length>,
    rows: u16,
    staggered: bool,
    structure: Option<Structure>,
    member: Option<Member>,
    installed: Option<Part<'a>>,
    installed_stack: Option<&'q Stack>,
    /// Where the installed rivet stood, where that is not where this one stands.
    installed_layout: Option<RowLayout>,
    /// Whether the hole was changed from how it was found.
    opened: bool,
    /// Whether the hole was tried with gauges and not measured.
    gauged: bool,
    /// Whether the edge is cut anew.
    new_edge: bool,
    shear: Shear,
    load: Option<(Load, Factors)>,
    /// How the rivet is driven, where its alloy has a strength for each way.
    driven: Option<&'static DrivenShear>,
    transfer: Transfer,
    /// The layer of a stack that brings the load, and the one that takes it away; `None` for the first and the last that carry load.
    from_layer: Option<u8>,
    to_layer: Option<u8>,
    /// The formula by which rows share the load; `None` takes every one that is for rivets.
    formula: Option<Formula>,
    rivet_modulus: Option<Stress>,
    /// Whether a published table gives the count of the rivets, so that the strengths only stand beside it.
    counted_by_table: bool,
    practice: &'a Practice<'a>,
}

impl<'q, 'a> Installation<'q, 'a> {
    /// A rivet through these layers, by the handbook's limits. The rivet's length counts only where a question says so.
    #[inline]
    #[must_use]
    pub const fn new(rivet: Part<'a>, stack: &'q Stack) -> Installation<'q, 'a> {
        Installation { stack: Some(stack), ..Installation::without_layers(rivet) }
    }

    /// A rivet through layers that are not known: enough to judge a hole by its size, no more.
    #[inline]
    #[must_use]
    pub const fn without_layers(rivet: Part<'a>) -> Installation<'q, 'a> {
        Installation {
            rivet,
            stack: None,
            grip: None,
            hole: None,
            layout: RowLayout { edge: None, pitch: None, transverse_pitch: None },
            edge_in_load: None,
            rows: 1,
            staggered: false,
            structure: None,
            member: None,
            installed: None,
            installed_stack: None,
            installed_layout: None,
            opened: false,
            gauged: false,
            new_edge: false,
            shear: Shear::Single,
            load: None,
            driven: None,
            transfer: Transfer::Lap,
            from_layer: None,
            to_layer: None,
            formula: None,
            rivet_modulus: None,
            counted_by_table: false,
            practice: &HANDBOOK,
        }
    }

    /// A rivet through a stack of this thickness whose layers are not known: enough for a length, not for what depends on the sheets.
    #[must_use]
    pub const fn through(rivet: Part<'a>, grip: Toleranced) -> Installation<'q, 'a> {
        Installation { grip: Some(grip), ..Installation::without_layers(rivet) }
    }

    /// The same question about another rivet.
    #[must_use]
    pub fn with_rivet(self, rivet: Part<'a>) -> Self {
        Installation { rivet: self.practice.rivet(rivet), ..self }
    }

    /// By these limits, with the dimensions that the shop entered for its rivets.
    #[inline]
    #[must_use]
    pub fn by(self, practice: &'a Practice<'a>) -> Self {
        let installed = self.installed.map(|installed| practice.rivet(installed));
        Installation { practice, rivet: practice.rivet(self.rivet), installed, ..self }
    }

    /// In a hole that was measured. Without one the hole is taken as it is drilled for the rivet.
    #[must_use]
    pub const fn in_hole(self, hole: Toleranced) -> Self {
        Installation { hole: Some(hole), ..self }
    }

    /// With these distances, in place of all that were given.
    #[inline]
    #[must_use]
    pub const fn layout(self, layout: RowLayout) -> Self {
        Installation { layout, ..self }
    }

    /// So far from the nearest edge of any layer.
    #[must_use]
    pub const fn edge(self, edge: Length) -> Self {
        Installation { layout: RowLayout { edge: Some(edge), ..self.layout }, ..self }
    }

    /// So far from the edge that the load points to, or away from: what strength counts where another edge is nearer.
    #[must_use]
    pub const fn edge_in_load(self, edge: Length) -> Self {
        Installation { edge_in_load: Some(edge), ..self }
    }

    /// So far from an edge that is cut anew: not as the maker built it.
    #[must_use]
    pub const fn new_edge(self, edge: Length) -> Self {
        Installation { new_edge: true, ..self.edge(edge) }
    }

    /// So far from hole to hole along the row.
    #[must_use]
    pub const fn pitch(self, pitch: Length) -> Self {
        Installation { layout: RowLayout { pitch: Some(pitch), ..self.layout }, ..self }
    }

    /// The same without a distance from hole to hole.
    #[cfg(feature = "words")]
    pub(crate) const fn without_pitch(self) -> Self {
        Installation { layout: RowLayout { pitch: None, ..self.layout }, ..self }
    }

    /// So many rows behind each other.
    #[must_use]
    pub const fn rows(self, rows: u16) -> Self {
        Installation { rows, ..self }
    }

    /// So far from row to row.
    #[must_use]
    pub const fn row_spacing(self, spacing: Length) -> Self {
        Installation { layout: RowLayout { transverse_pitch: Some(spacing), ..self.layout }, ..self }
    }

    /// With each rivet against the gap of the next row, not in line with its rivets.
    #[must_use]
    pub const fn staggered(self) -> Self {
        Installation { staggered: true, ..self }
    }

    /// On primary or secondary structure.
    #[must_use]
    pub const fn structure(self, structure: Structure) -> Self {
        Installation { structure: Some(structure), ..self }
    }

    /// Along this member.
    #[must_use]
    pub const fn member(self, member: Member) -> Self {
        Installation { member: Some(member), ..self }
    }

    /// In place of this rivet. Where it is the same one, nothing is changed from how the maker built it.
    #[must_use]
    pub fn in_place_of(self, installed: Part<'a>) -> Self {
        Installation { installed: Some(self.practice.rivet(installed.without_length())), ..self }
    }

    /// In place of these layers; without them the layers are the same as before.
    #[must_use]
    pub const fn in_place_of_layers(self, installed: &'q Stack) -> Self {
        Installation { installed_stack: Some(installed), ..self }
    }

    /// In single or double shear.
    #[must_use]
    pub const fn shear(self, shear: Shear) -> Self {
        Installation { shear, ..self }
    }

    /// Under this load on the rivet. Of several rows it is an equal part of the load on all of them.
    #[must_use]
    pub const fn load(self, load: Load, factors: Factors) -> Self {
        Installation { load: Some((load, factors)), ..self }
    }

    /// Driven in this way, one of the alloy's own strengths ([`RivetAlloy::driven_shears`](crate::material::RivetAlloy::driven_shears)).
    /// Without it the least of them counts.
    #[must_use]
    pub const fn driven(self, driven: &'static DrivenShear) -> Self {
        Installation { driven: Some(driven), ..self }
    }

    /// Where the load of the rows goes: from sheet to sheet, or along the first with the other lying on it.
    #[must_use]
    pub const fn transfer(self, transfer: Transfer) -> Self {
        Installation { transfer, ..self }
    }

    /// With a load that comes by one layer of the stack and goes by another, by their numbers, counted from 1. Without them it comes by the first
    /// layer that carries load and goes by the last. Of more than two layers in single shear only.
    #[must_use]
    pub const fn by_layers(self, from: Option<u8>, to: Option<u8>) -> Self {
        Installation { from_layer: from, to_layer: to, ..self }
    }

    /// With the shares of the rows by this formula alone, in place of the envelope of all that are for rivets.
    #[must_use]
    pub const fn formula(self, formula: Formula) -> Self {
        Installation { formula: Some(formula), ..self }
    }

    /// With a rivet of this modulus; an aluminium one has its own.
    #[must_use]
    pub const fn rivet_modulus(self, modulus: Stress) -> Self {
        Installation { rivet_modulus: Some(modulus), ..self }
    }

    /// In a splice whose rivets a published table counts.
    pub(crate) const fn counted_by_table(self) -> Self {
        Installation { counted_by_table: true, ..self }
    }

    /// The ultimate shear of the driven rivet that counts, and where it stands: as the shop entered it, else as the rivet is said to be driven,
    /// else the least of its alloy; `None` where none is known.
    #[must_use]
    pub fn shear_of_rivet(&self) -> Option<(Stress, Basis)> {
        let entered = self.practice.entered_shear(self.rivet.alloy());
        entered.or_else(|| self.driven_shear().map(|driven| (driven.fsu, driven.basis)))
    }

    /// The published strength of the driven rivet: as it is said to be driven, else the least of its alloy; `None` where none is known.
    #[must_use]
    pub fn driven_shear(&self) -> Option<&'static DrivenShear> {
        self.driven.or_else(|| self.rivet.alloy().least_driven_shear())
    }

    /// The thickness of the stack, where it is known.
    pub(crate) fn grip(&self) -> Option<Toleranced> {
        self.stack.map(Stack::grip).or(self.grip)
    }

    /// The rivet.
    #[must_use]
    pub const fn rivet(&self) -> Part<'a> {
        self.rivet
    }

    /// What limits are asked for.
    #[must_use]
    pub fn case(&self) -> Case {
        self.case_of(&self.rivet, self.installed.as_ref())
    }

    /// The same for another rivet, in place of another. By reference, and without a question of its own on the stack.
    fn case_of(&self, rivet: &Part<'a>, installed: Option<&Part<'a>>) -> Case {
        let case = Case::for_part(rivet).in_rows(u8::try_from(self.rows).unwrap_or(u8::MAX));
        let is_dimpled = |stack: &Stack| stack.layers().iter().any(|layer| layer.preparation == Preparation::Dimpled);
        let case = if self.stack.is_some_and(is_dimpled) { case.in_dimples() } else { case };
        let is_larger = |before: &Part<'_>| rivet.size().shank_nominal > before.size().shank_nominal;
        if installed.is_some_and(is_larger) { case.stepped_up() } else { case }
    }

    /// The hole as measured, or as it is drilled for the rivet.
    #[must_use]
    pub fn hole_or_drilled(&self) -> Given<Toleranced> {
        self.hole_measured().unwrap_or_else(|| as_drilled(&self.practice.for_case(&self.case())))
    }

    /// The same, where the case is at hand.
    fn hole_or_drilled_in(&self, limits: &ForCase<'_>) -> Given<Toleranced> {
        self.hole_measured().unwrap_or_else(|| as_drilled(limits))
    }

    fn hole_measured(&self) -> Option<Given<Toleranced>> {
        self.hole.map(|value| Given { value, basis: Basis::AS_GIVEN })
    }

    /// Whether the rivet, its hole and its layers are those of the maker. Unknown counts as changed.
    fn is_as_built(&self) -> bool {
        let same_layers = match (self.installed_stack, self.stack) {
            (None, _) => true,
            (Some(before), Some(after)) => before == after,
            (Some(_), None) => false,
        };
        !self.opened && same_layers && self.installed == Some(self.rivet.without_length())
    }

    /// Whether nothing is changed from how the maker built it and no load is asked about, so that all there is to say is that it is as before.
    fn only_as_before(&self) -> bool {
        self.is_as_built() && self.load.is_none()
    }

    /// How serious it is where a strength is not published.
    fn unpublished(&self) -> Severity {
        if self.only_as_before() {
            Severity::Note
        } else if self.counted_by_table {
            Severity::Caution
        } else {
            Severity::Refer
        }
    }

    /// What is found whatever is asked: every check that applies to what is known.
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse(".040, .063")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).edge(Length::parse(".2")?);
    /// assert!(question.findings().has(Code::EdgeDistanceShort));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn findings(&self) -> Findings {
        let mut findings = Findings::new();
        self.check(&mut |finding| findings.push(finding));
        findings
    }

    /// What is found about edge distance, pitch and row spacing alone.
    #[must_use]
    pub fn distances(&self) -> Findings {
        let mut findings = Findings::new();
        self.check_distances(&self.practice.for_case(&self.case()), &mut |finding| findings.push(finding));
        findings
    }

    /// Whether somebody chose another rivet or other layers than the maker's, not only a step for a hole that was opened.
    fn is_replaced(&self) -> bool {
        self.installed.is_some() && !self.opened && !self.is_as_built()
    }

    /// Says once what the question needs and was not given. It is referred on primary structure, and where another rivet or other layers than
    /// the maker's cannot be compared with his.
    fn say_missing(&self, missing: Facts, push: &mut Sink<'_>) {
        if missing.is_empty() {
            return;
        }
        let decides = missing.has(Fact::Edge) || missing.has(Fact::Pitch) || missing.has(Fact::Material);
        let compares = missing.has(Fact::Edge) || missing.has(Fact::Layers) || missing.has(Fact::Material);
        let is_primary = self.structure == Some(Structure::Primary);
        let refers = (is_primary && decides) || (self.is_replaced() && compares);
        let severity = if refers { Severity::Refer } else { Severity::Caution };
        push(Finding::new(Code::NotChecked, severity, Basis::NOT_GIVEN).with_measured(Figure::Facts(missing)));
    }

    /// Which of the layers, distances and materials were not given. A rivet like the one before in the same sheets may need none of them; what does
    /// is [`Code::NotChecked`] among its findings.
    ///
    /// ```
    /// use shophead::fact::Fact;
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse(".040, 2024-T3:.063")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).edge(Length::parse("3/8")?);
    /// let missing = question.not_given();
    /// assert!(missing.has(Fact::Pitch) && missing.has(Fact::Material) && !missing.has(Fact::Edge));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn not_given(&self) -> Facts {
        let material = self.stack.is_some_and(|stack| stack.load_carrying().any(|layer| layer.material.is_none()));
        Facts::NONE
            .with_if(self.stack.is_none(), Fact::Layers)
            .with_if(material, Fact::Material)
            .with_if(self.layout.edge.is_none(), Fact::Edge)
            .with_if(self.layout.pitch.is_none(), Fact::Pitch)
            .with_if(self.rows > 1 && self.layout.transverse_pitch.is_none(), Fact::RowSpacing)
    }
}

/// The hole as it is drilled for the rivet of a case.
fn as_drilled(limits: &ForCase<'_>) -> Given<Toleranced> {
    let Given { value, basis } = limits.assumed_hole();
    Given { value: Toleranced::from_least(value), basis }
}

/// What was given, for the working: it is not there without words.
#[cfg(feature = "words")]
impl<'q, 'a> Installation<'q, 'a> {
    /// The layers, where they are known.
    pub(crate) const fn layers(&self) -> Option<&'q Stack> {
        self.stack
    }

    /// The limits.
    pub(crate) const fn practice(&self) -> &'a Practice<'a> {
        self.practice
    }

    /// From hole to edge, from hole to hole, from row to row, as far as they were given.
    pub(crate) const fn distances_given(&self) -> RowLayout {
        self.layout
    }

    /// The hole that strength counts, where it was measured.
    pub(crate) fn hole_counted(&self) -> Option<Length> {
        self.hole.map(|hole| hole.max())
    }

    /// The planes that the rivet is sheared in.
    pub(crate) const fn shear_planes(&self) -> Shear {
        self.shear
    }

    /// From rivet to rivet, where that was given.
    pub(crate) const fn pitch_given(&self) -> Option<Length> {
        self.layout.pitch
    }

    /// How many rows.
    pub(crate) const fn row_count(&self) -> u16 {
        self.rows
    }

    /// From row to row, where there are several and that was given.
    pub(crate) fn row_spacing_given(&self) -> Option<Length> {
        self.layout.transverse_pitch.filter(|_| self.rows > 1)
    }

    /// From row to row, where each rivet stands against the gap of the next one.
    pub(crate) fn stagger(&self) -> Option<Length> {
        self.row_spacing_given().filter(|_| self.staggered)
    }

    /// Whether the rows are staggered.
    pub(crate) const fn is_staggered(&self) -> bool {
        self.staggered
    }

    /// The edge distance in the direction of the load, before rows behind one another are looked at, and where it comes from.
    pub(crate) fn edge_wanted(&self) -> Option<(Length, Basis)> {
        let given = self.edge_in_load.map(|edge| (edge, Basis::AS_GIVEN));
        given.or_else(|| self.edge_or_least().map(|edge| (edge.value, edge.basis)))
    }

    /// The load on one rivet as it was given, and its factors.
    pub(crate) const fn load_given(&self) -> Option<(Load, Factors)> {
        self.load
    }
}
