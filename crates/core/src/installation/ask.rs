//! Length, strength and comparison, each with every finding that applies.

use super::Installation;
use crate::basis::Basis;
use crate::fact::{Fact, Facts};
use crate::finding::{Code, Figure, Finding, Severity, Sink};
use crate::joint::buckling::{BucklingError, LayerBuckling, inter_rivet};
use crate::joint::compare::{Carried, Comparison, compare, compare_into};
use crate::joint::flexibility::Formula;
use crate::joint::lap::{LapError, LapRows, Shared, shared_into};
use crate::joint::layers::{Layers, LayersError, StackRows, StackRowsError, through_stack};
use crate::joint::margin::{Factors, Load, LoadKind};
use crate::joint::row::{Loaded, Peak, RowError, RowStrength, row_strength_into};
use crate::joint::sharing::{Envelope, Transfer};
use crate::joint::strength::{JointStrength, Shear, StrengthError};
use crate::joint::through::Made;
use crate::length::Length;
use crate::material::Property;
use crate::practice::{ForCase, Given, Key, Name};
use crate::quantity::{Force, Stress};
use crate::select::{Assessed, LengthAnswer, Wanted};
use crate::stack::{Layer, Preparation, Stack};
use crate::upset::{Fit, FitError};

/// What rows carry at most, by any formula.
#[derive(Clone, Copy)]
struct Most {
    /// The row whose rivets carry most, counted from 0.
    row: usize,
    /// What one of them carries.
    force: Force,
    /// What the second sheet carries at most.
    in_b: Force,
}

/// What the installed rivet carries, once that was asked.
pub(super) type CarriedBefore = Option<Result<Carried, StrengthError>>;

impl<'a> Installation<'_, 'a> {
    /// What a length is chosen for, by the limits of its case: which are found once for all that is asked of it.
    fn wanted<'w>(&self, limits: &'w ForCase<'w>) -> Result<Wanted<'w, 'a>, FitError> {
        Ok(Wanted {
            rivet: self.rivet,
            hole: self.hole_or_drilled_in(limits).value,
            limits,
            grip: self.grip().ok_or(FitError::NoGrip)?,
            dimpled: self.stack.is_some_and(Stack::is_dimpled_through),
            practice: self.practice,
        })
    }

    /// The length to order, the driven head that it makes, and every finding.
    ///
    /// # Errors
    /// [`FitError`] for a stack or a hole without a size. That nothing fits, or that the rivet's dimensions are not known, is not an error but an
    /// answer: [`LengthAnswer::length`] is then `None` and a finding says so.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// // Two sheets of .032 with a 1/8 rivet: the answer printed for it is MS20470AD4-4.
    /// let layers = Stack::parse(".032, .032")?;
    /// let answer = Installation::new(Part::parse("MS20470AD4")?, &layers).length()?;
    /// assert_eq!(answer.part.map(|part| part.to_string()).as_deref(), Some("MS20470AD4-4"));
    /// assert_eq!(answer.rule_of_thumb, Length::parse(".2515")?);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn length(&self) -> Result<LengthAnswer<'a>, FitError> {
        let mut answer = LengthAnswer::nothing_yet();
        self.length_into(&mut answer)?;
        Ok(answer)
    }

    /// As [`Installation::length`], into an answer that the caller keeps and that holds [nothing yet](LengthAnswer::nothing_yet): it is a
    /// kilobyte, and one returned by value stands on the stack twice.
    ///
    /// # Errors
    /// As [`Installation::length`]; what was filled in until then is no answer.
    pub fn length_into(&self, answer: &mut LengthAnswer<'a>) -> Result<(), FitError> {
        let case = self.case();
        let limits = self.practice.for_case(&case);
        self.wanted(&limits)?.choose_into(answer)?;
        self.check_in(&limits, &mut |finding| answer.findings.push(finding));
        Ok(())
    }

    /// What becomes of a rivet of this length, chosen by somebody else, and every finding.
    ///
    /// # Errors
    /// As [`Installation::length`].
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::installation::Installation;
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::rivet::part::Part;
    /// let question = Installation::through(Part::parse("MS20470AD4")?, Toleranced::parse(".100")?);
    /// let assessed = question.assess(Length::parse("5/32")?)?;
    /// assert!(!assessed.serves && assessed.findings.has(Code::TailTooShort));
    /// // In no hole, and with no shank, is that enough metal.
    /// assert_eq!(assessed.within.unwrap().hole_greatest, None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn assess(&self, length: Length) -> Result<Assessed, FitError> {
        let case = self.case();
        let limits = self.practice.for_case(&case);
        let mut assessed = self.wanted(&limits)?.assess(length)?;
        self.check_in(&limits, &mut |finding| assessed.findings.push(finding));
        Ok(assessed)
    }

    /// Whether a rivet of this length fills the hole and makes a sound head; nothing else is looked at.
    ///
    /// # Errors
    /// As [`Installation::length`].
    pub fn length_fits(&self, length: Length) -> Result<bool, FitError> {
        Ok(self.wanted(&self.practice.for_case(&self.case()))?.assess(length)?.serves)
    }

    /// The rivet in its hole through its stack, with all their tolerances: what the volume balance works on.
    ///
    /// # Errors
    /// [`FitError`]: a stack or a hole without a size, a flush head deeper than the stack, a dimension of the rivet that is not known.
    pub fn fit(&self) -> Result<Fit, FitError> {
        self.wanted(&self.practice.for_case(&self.case()))?.fit()
    }

    /// The edge distance that strength counts: as given, or the practice's least.
    #[must_use]
    pub fn edge_or_least(&self) -> Option<Given<Length>> {
        match self.layout.edge {
            Some(value) => Some(Given { value, basis: Basis::AS_GIVEN }),
            None => self.practice.length(Name::EdgeDistanceLeast, &self.case()),
        }
    }

    /// The edge distance that strength counts: of several rows no more than the metal in front of an inner row, up to the side of the next hole
    /// in line with it.
    pub(crate) fn edge_counted(&self) -> Option<Length> {
        let edge = self.edge_in_load.or(self.edge_or_least().map(|edge| edge.value))?;
        let Some(spacing) = self.layout.transverse_pitch.filter(|_| self.rows > 1) else { return Some(edge) };
        // Staggered, the next hole in line is that of the next row but one.
        let to_hole = if self.staggered { spacing.plus(spacing) } else { spacing };
        let metal = to_hole.minus(self.hole_or_drilled().value.max().times(1, 2));
        Some(edge.min(metal).max(Length::from_ten_thousandths(1)))
    }

    #[inline(never)]
    fn made(&self) -> Result<Made<'_, 'a>, StrengthError> {
        self.made_under(self.load_on_rivet())
    }

    fn made_under(&self, load: Option<(Load, Factors)>) -> Result<Made<'_, 'a>, StrengthError> {
        Ok(Made {
            rivet: &self.rivet,
            stack: self.stack.ok_or(StrengthError::TooFewSheets)?,
            edge: self.edge_counted().ok_or(StrengthError::EdgeNotKnown)?,
            hole: self.hole.map(|hole| hole.max()),
            pitch: self.layout.pitch,
            rows: self.rows,
            staggered: self.layout.transverse_pitch.filter(|_| self.staggered),
            shear: self.shear,
            load,
            driven: self.shear_of_rivet(),
            practice: self.practice,
            unpublished: self.unpublished(),
        })
    }

    /// The load on the rivet that carries most of it. Rows of a lap share alike at failure; of a doubler's rows the first carries most, by the
    /// elastic shares, whatever is said of failure: they share nothing alike. `None` without a load, and where those shares are not known.
    fn load_on_rivet(&self) -> Option<(Load, Factors)> {
        if self.is_doubler() { self.on_peak(self.most()) } else { self.load }
    }

    /// The load on the rivet that carries most, where the rows share it like this.
    fn on_peak(&self, most: Option<Most>) -> Option<(Load, Factors)> {
        let (load, factors) = self.load?;
        Some((Load { force: most?.force, ..load }, factors))
    }

    /// What the rows carry at most of the load on all of them; `None` for a single row, without a load, and where the shares are not known.
    /// Out of line, so that only what asks for it pays for the shares with stack.
    #[inline(never)]
    fn most(&self) -> Option<Most> {
        self.load.filter(|_| self.rows > 1)?;
        if self.is_through_stack() {
            return self.most_in_stack();
        }
        let mut envelope = Envelope::new();
        self.envelope_into(&mut envelope).ok()?;
        let (row, force) = envelope.peak()?;
        Some(Most { row, force, in_b: envelope.most_in_b() })
    }

    /// The same where the rows go through a stack.
    #[inline(never)]
    fn most_in_stack(&self) -> Option<Most> {
        let (from, _) = self.between()?;
        let plate = self.stack?.numbered_load_carrying().position(|(number, _)| number == from)?;
        let mut most: Option<Most> = None;
        for formula in self.formulas() {
            let layers = self.shared_in_stack(formula).ok()?;
            let (row, _, force) = layers.most_on_one()?;
            let in_b = most.map_or(Force::ZERO, |most| most.in_b).max(layers.most_beside(plate));
            let so_far = most.filter(|most| most.force >= force);
            most = Some(so_far.map_or(Most { row, force, in_b }, |so_far| Most { in_b, ..so_far }));
        }
        most
    }

    /// Whether the load goes through more than two layers, plane by plane.
    #[must_use]
    pub fn is_through_stack(&self) -> bool {
        self.shear == Shear::Single && self.stack.is_some_and(|stack| stack.load_carrying().count() > 2)
    }

    /// The layer that brings the load and the one that takes it away: of doublers the same.
    pub(crate) fn between(&self) -> Option<(u8, u8)> {
        let mut numbers = self.stack?.numbered_load_carrying().map(|(number, _)| number);
        let first = numbers.next()?;
        let from = self.from_layer.unwrap_or(first);
        let to = match self.transfer {
            Transfer::Lap => self.to_layer.or(numbers.last())?,
            Transfer::Doubler => self.to_layer.unwrap_or(from),
        };
        Some((from, to))
    }

    /// How the rows share the load on all of them over the layers of a stack, by one formula, as [`Installation::shared`] has it of two sheets.
    /// Without a load the shares are those of one pound.
    ///
    /// # Errors
    /// [`StackRowsError`].
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.032, 2024-T3:.040, 2024-T3:.063")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).pitch(Length::parse(".75")?).rows(4);
    /// for formula in question.formulas() {
    ///     let found = question.shared_in_stack(formula)?;
    ///     // All of it leaves the first layer, and all of it comes into the last.
    ///     for plane in [0, 1] {
    ///         let all: f64 = (0..4).filter_map(|row| found.row(row)).map(|row| row.planes[plane].lbf()).sum();
    ///         assert!((all - 1.0).abs() < 1e-9);
    ///     }
    /// }
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn shared_in_stack(&self, formula: Formula) -> Result<Layers, StackRowsError> {
        through_stack(&self.stack_rows()?, formula)
    }

    /// The rows through the stack, as they share the load.
    pub(crate) fn stack_rows(&self) -> Result<StackRows<'_, 'a>, StackRowsError> {
        let pitch = self.layout.pitch.ok_or(StackRowsError::Lap(LapError::PitchNotKnown))?;
        let (from, to) = self.between().ok_or(StackRowsError::NoSuchLayer)?;
        Ok(StackRows {
            rivet: &self.rivet,
            stack: self.stack.ok_or(StackRowsError::NoSuchLayer)?,
            pitch,
            apart: self.layout.transverse_pitch.unwrap_or(pitch),
            rows: u8::try_from(self.rows).map_err(|_| StackRowsError::Layers(LayersError::TooManyRows))?,
            from,
            to,
            load: self.load.map_or(Force::from_lbf(1.0), |(load, _)| self.on_all_rows(load.force)),
            rivet_modulus: self.rivet_modulus,
            practice: self.practice,
        })
    }

    /// The load on all rows, from that on one rivet as if they shared alike.
    pub(crate) fn on_all_rows(&self, load: Force) -> Force {
        Force::from_lbf(load.lbf() * f64::from(self.rows))
    }

    pub(crate) fn is_doubler(&self) -> bool {
        self.transfer == Transfer::Doubler && self.rows > 1
    }

    /// Which sheet, counted from 0 among those that carry load, the others lie on; `None` where they do not.
    pub(crate) fn doubled(&self) -> Option<usize> {
        if !self.is_doubler() {
            return None;
        }
        if !self.is_through_stack() {
            // In double shear the outer ones lie on the middle one.
            return Some(usize::from(self.shear == Shear::Double));
        }
        let (from, _) = self.between()?;
        self.stack?.numbered_load_carrying().position(|(number, _)| number == from)
    }

    /// The formulas by which the rows share their load: the one that was asked for, else every one that is for rivets.
    pub fn formulas(&self) -> impl Iterator<Item = Formula> + Clone + use<'a> {
        let (formula, shear) = (self.formula, self.shear);
        let wanted = move |known: &Formula| formula.is_none_or(|formula| formula == *known);
        let given = formula.filter(|formula| !Formula::for_rivets(shear).any(|known| known == *formula));
        Formula::for_rivets(shear).filter(wanted).chain(given)
    }

    /// Whether each layer that carries load buckles between the rivets of the row, under a compression where one is asked about. Nothing without
    /// layers or pitch.
    ///
    /// Each is a [`BucklingError`] for a layer, a pitch or a compression of nothing.
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::quantity::Stress;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.032, 2024-T3:.125")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).pitch(Length::parse("2")?);
    /// let found: Vec<_> = question.buckling(Some(Stress::from_ksi(12.0))).collect::<Result<_, _>>()?;
    /// let thin = found[0].findings.iter().next().unwrap();
    /// assert_eq!((thin.code(), thin.layer()), (Code::BucklesBetweenRivets, Some(1)));
    /// assert!(found[1].findings.is_empty());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn buckling(&self, compression: Option<Stress>) -> impl Iterator<Item = Result<LayerBuckling, BucklingError>> {
        let (case, practice) = (self.case(), self.practice);
        let layers = self.layout.pitch.zip(self.stack).into_iter();
        let layers = layers.flat_map(|(pitch, stack)| stack.numbered_load_carrying().map(move |layer| (pitch, layer)));
        layers.map(move |(pitch, (number, layer))| {
            let thickness = layer.thickness.nominal();
            let sheet = layer.material.map(|material| practice.sheet(material, thickness));
            let found = match &sheet {
                Some(sheet) => inter_rivet(sheet, thickness, pitch, compression, &case, practice)?,
                None => None,
            };
            Ok(LayerBuckling::of(number, sheet.as_ref(), found, compression.is_some()))
        })
    }

    /// How the rows share the load on all of them by one formula. Without a load the shares are those of one pound. Rows stand as far apart as
    /// their rivets where nothing else is said.
    ///
    /// # Errors
    /// [`LapError`]; [`LapError::PitchNotKnown`] where the pitch is not.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.040, 2024-T3:.040")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).pitch(Length::parse(".75")?).rows(4);
    /// for formula in question.formulas() {
    ///     let found = question.shared(formula)?;
    ///     // The end rows take most.
    ///     assert_eq!(found.sharing.peak, 0);
    /// }
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn shared(&self, formula: Formula) -> Result<Shared, LapError> {
        let mut found = Shared::nothing_yet();
        self.shared_into(&mut found, formula)?;
        Ok(found)
    }

    fn shared_into(&self, found: &mut Shared, formula: Formula) -> Result<(), LapError> {
        let pitch = self.layout.pitch.ok_or(LapError::PitchNotKnown)?;
        let load = self.load.map_or(Force::from_lbf(1.0), |(load, _)| self.on_all_rows(load.force));
        let rows = LapRows {
            rivet: &self.rivet,
            stack: self.stack.ok_or(LapError::SheetsDoNotFit)?,
            pitch,
            apart: self.layout.transverse_pitch.unwrap_or(pitch),
            rows: self.rows,
            shear: self.shear,
            transfer: self.transfer,
            load,
            rivet_modulus: self.rivet_modulus,
            practice: self.practice,
        };
        shared_into(found, &rows, formula)
    }

    #[inline(never)]
    fn envelope_into(&self, envelope: &mut Envelope) -> Result<(), LapError> {
        let mut shared = Shared::nothing_yet();
        for formula in self.formulas() {
            self.shared_into(&mut shared, formula)?;
            envelope.add(&shared.sharing);
        }
        Ok(())
    }

    /// What one rivet carries, and every finding. An edge distance that was not given counts as the practice's least.
    ///
    /// # Errors
    /// [`StrengthError`] for what is no joint.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.064, 2024-T3:.125")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers).edge(Length::parse(".25")?);
    /// let found = question.strength()?;
    /// assert!((found.allowable.unwrap().force.lbf() - 388.0).abs() < 1.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn strength(&self) -> Result<JointStrength, StrengthError> {
        let mut found = JointStrength::nothing_yet();
        self.strength_into(&mut found)?;
        Ok(found)
    }

    /// As [`Installation::strength`], into an answer that the caller keeps: it is two kilobytes, and one returned by value stands on the stack
    /// twice.
    ///
    /// # Errors
    /// As [`Installation::strength`]; what was filled in until then is no answer.
    pub fn strength_into(&self, found: &mut JointStrength) -> Result<(), StrengthError> {
        self.made()?.strength_into(found)?;
        self.check_strength(found, Facts::NONE);
        Ok(())
    }

    /// What a row of these rivets carries an inch, and every finding about one rivet and the row.
    ///
    /// # Errors
    /// [`RowError`] for what is no row.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.040, 2024-T3:.064")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers)
    ///     .edge(Length::parse(".5")?)
    ///     .pitch(Length::parse(".75")?);
    /// let row = question.row()?;
    /// // One rivet 388 × (1 - 0.04 (3.125 - 3)) every 3/4 in.
    /// assert!((row.per_inch.unwrap().force.lbf() - 388.0 * 0.995 / 0.75).abs() < 0.5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn row(&self) -> Result<RowStrength, RowError> {
        let mut found = RowStrength::nothing_yet();
        self.row_into(&mut found)?;
        Ok(found)
    }

    /// As [`Installation::row`], into an answer that the caller keeps.
    ///
    /// # Errors
    /// As [`Installation::row`]; what was filled in until then is no answer.
    pub fn row_into(&self, found: &mut RowStrength) -> Result<(), RowError> {
        // Worked out once: what a doubler's end rivet carries, and the row that carries most.
        let most = self.most();
        let load = if self.is_doubler() { self.on_peak(most) } else { self.load };
        row_strength_into(found, &self.made_under(load)?)?;
        let needed = Facts::NONE.with(Fact::Pitch).with(Fact::RowSpacing);
        self.check_strength(&mut found.joint, needed);
        if found.joint.allowable.is_none() && found.joint.indication.is_none() {
            found.refuse();
        }
        self.share_load(found, most)
    }

    /// Whether [`Installation::row`] says of one rivet what [`Installation::strength`] does, and misses nothing more: then its
    /// [`joint`](RowStrength::joint) has every figure of that answer and every finding, those of the row behind them, and one question is enough.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::Length;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.040, 2024-T3:.064")?;
    /// let question = Installation::new(Part::parse("MS20470AD4")?, &layers)
    ///     .edge(Length::parse(".5")?)
    ///     .pitch(Length::parse(".75")?);
    /// assert!(question.row_says_strength() && !question.rows(2).row_says_strength());
    /// assert_eq!(question.row()?.joint.allowable, question.strength()?.allowable);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn row_says_strength(&self) -> bool {
        let takes_head_off =
            |stack: &Stack| stack.load_carrying().any(|layer| layer.preparation == Preparation::Countersunk);
        self.layout.pitch.is_some()
            && self.rows == 1
            && self.installed_layout.is_none()
            && !self.stack.is_some_and(takes_head_off)
    }

    /// The first layer's modulus that is not on file.
    fn unknown_modulus(&self) -> Option<(u8, Key)> {
        let unknown = |(number, layer): (u8, &Layer)| {
            let material = layer.material?;
            let sheet = self.practice.sheet(material, layer.thickness.nominal());
            sheet.e().is_none().then(|| (number, Key::of_sheet(material, Property::Modulus)))
        };
        self.stack?.numbered_load_carrying().find_map(unknown)
    }

    /// Holds the rows against the load on all of them, and the row that carries most against what its rivets carry.
    #[inline(never)]
    fn share_load(&self, found: &mut RowStrength, most: Option<Most>) -> Result<(), RowError> {
        let Some((load, factors)) = self.load else { return Ok(()) };
        if self.rows > 1 && most.is_none() {
            let severity = if self.is_doubler() { Severity::Refer } else { Severity::Note };
            let (code, basis) = (Code::SharesNotKnown, Basis::FLEXIBILITY_SEC_8);
            let unknown = self.unknown_modulus();
            let finding = Finding::unknown(code, severity, basis, unknown.map(|(_, key)| key));
            found.joint.findings.push(unknown.map_or(finding, |(layer, _)| finding.in_layer(layer)));
        }
        let Some(pitch) = self.layout.pitch else { return Ok(()) };
        let whole = Load { force: self.on_all_rows(load.force), ..load };
        let loaded = Loaded { pitch, load: whole, factors, doubled: self.doubled() };
        found.take_load(&loaded, most.map(|most| most.in_b))?;
        let Some(Most { row, force, in_b }) = most else { return Ok(()) };
        found.peak = Some(Peak { row, load: Load { force, ..load }, most_in_b: in_b });
        let limit = match load.kind {
            LoadKind::Limit => force,
            LoadKind::Ultimate => Force::from_lbf(force.lbf() / factors.safety.value),
        };
        if let Some(allowable) = found.joint.allowable.filter(|allowable| limit > allowable.force) {
            let finding = Finding::new(Code::RowOverUltimate, Severity::Refer, Basis::FLEXIBILITY_SEC_8);
            let (takes, carries) = (Figure::Force(limit), Figure::Force(allowable.force));
            found.joint.findings.push(finding.with_measured(takes).with_limit(carries));
        }
        Ok(())
    }

    /// The findings of a strength, and none of its figures where they would not be those of a joint.
    fn check_strength(&self, found: &mut JointStrength, also_needed: Facts) {
        let needed = Facts::NONE.with(Fact::Layers).with(Fact::Material).with(Fact::Edge).or(also_needed);
        self.check(&mut |finding| found.findings.push(finding));
        let is_no_joint = |code: Code| {
            matches!(
                code,
                Code::FlushHeadWithoutSeat
                    | Code::SeatInWrongLayer
                    | Code::ShankDoesNotEnter
                    | Code::HoleOverLimit
                    | Code::RivetsTouch
            )
        };
        if found.findings.iter().any(|finding| is_no_joint(finding.code())) {
            found.refuse();
        }
        self.check_not_weaker(&mut None, &mut |finding| found.findings.push(finding));
        let before = self.as_installed().as_ref().map_or(Facts::NONE, Installation::not_given);
        let mut missing = self.not_given().or(before).and(needed);
        if self.only_as_before() {
            // Whatever it is made of, it is as strong as it was.
            missing = missing.without(Fact::Material);
        }
        self.say_missing(missing, &mut |finding| found.findings.push(finding));
    }

    /// The rivet beside the installed one in its layers: whether it is as strong. `None` where no installed rivet is given.
    ///
    /// # Errors
    /// As [`Installation::strength`], for either.
    pub fn compare(&self) -> Result<Option<Comparison>, StrengthError> {
        let before = self.as_installed();
        let Some(before) = &before else { return Ok(None) };
        let (mut was, mut is) = (JointStrength::nothing_yet(), JointStrength::nothing_yet());
        before.made()?.strength_into(&mut was)?;
        self.made()?.strength_into(&mut is)?;
        Ok(Some(compare(&was, &is)))
    }

    /// The same question about what the maker installed; `None` where that is not given.
    #[must_use]
    #[inline(never)]
    pub fn as_installed(&self) -> Option<Self> {
        let rivet = self.installed?;
        let stack = self.installed_stack.or(self.stack);
        let layout = self.installed_layout.unwrap_or(self.layout);
        Some(Installation { rivet, stack, layout, hole: None, opened: false, installed_stack: None, ..*self })
    }

    /// Says where the rivet is weaker than the installed one, or where nobody can tell; and where nothing was changed. What was not given is not
    /// compared. What the installed one carries is kept in `known`, for the next rivet that is tried in its place.
    pub(super) fn check_not_weaker(&self, known: &mut CarriedBefore, push: &mut Sink<'_>) {
        // By reference: a question that is moved stands on the stack twice.
        let before = self.as_installed();
        let Some(before) = &before else { return };
        if self.is_as_built() {
            push(Finding::new(Code::AsStrongAsBefore, Severity::Note, Basis::AC43_NOT_WEAKER));
            return;
        }
        let decides = Facts::NONE.with(Fact::Layers).with(Fact::Material).with(Fact::Edge);
        if !self.not_given().and(decides).is_empty() || !before.not_given().and(decides).is_empty() {
            return;
        }
        // What it carries asks for no load, nor for how rows share one.
        let carried = |question: &Self| question.made_under(None).and_then(|made| made.carried());
        let before = known.get_or_insert_with(|| carried(before).map(|(before, _)| before));
        match (before, carried(self)) {
            (Ok(before), Ok((after, below_table))) => {
                compare_into(before, &after, push);
                if let Some(finding) = below_table {
                    push(finding);
                }
            }
            _ => push(Finding::new(Code::StrengthNotPublished, Severity::Refer, Basis::AC43_NOT_WEAKER)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rivet::part::Part;
    use crate::stack::Stack;

    #[test]
    fn the_doubled_sheet_is_the_first_and_in_double_shear_the_middle_one() {
        let stack = Stack::parse("2024-T3:.063, 2024-T3:.063, 2024-T3:.063").unwrap();
        let rows = Installation::new(Part::parse("MS20470AD4").unwrap(), &stack).rows(3);
        let doubler = rows.transfer(Transfer::Doubler);
        assert_eq!(rows.doubled(), None);
        assert_eq!(doubler.rows(1).doubled(), None);
        assert_eq!(doubler.doubled(), Some(0));
        assert_eq!(doubler.shear(Shear::Double).doubled(), Some(1));
        for from in [1, 2] {
            let between = doubler.by_layers(Some(from), Some(from + 1));
            assert_eq!(between.doubled(), Some(usize::from(from) - 1), "{from}");
        }
    }
}
