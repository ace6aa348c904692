//! The length of a rivet: the rule of thumb checked against the balance of metal.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::{Interval, Length, Toleranced};
use crate::practice::{ForCase, Given, Key, LengthRounding, Name, Practice};
use crate::rivet::part::Part;
use crate::seat::{head_not_known, shank_not_known};
use crate::upset::{Fit, FitError, HeadLimits, PredictedHead, Window, Within};

crate::words::words! {
    /// Why the chosen length is not the one that the rule of thumb gives.
    #[non_exhaustive]
    Difference, "difference" {
        FillTakesTail = 1, "fill-takes-tail", "Filling the hole takes the tail.";
        TailWouldFold = 2, "tail-would-fold", "The tail would fold over.";
        HeadWouldBeTooLarge = 3, "head-would-be-too-large", "The driven head would come out too large.";
    }
}

/// What a bound of the usable lengths comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "kebab-case"))]
pub enum UpperBound {
    /// The tail that can be driven without folding.
    Tail,
    /// The metal in the largest head.
    Head,
}

/// The lengths that make a sound head: not too short in the worst case, not too long at nominal sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Usable {
    /// The shortest; below it the worst case lacks metal for the least head.
    pub shortest: Given<Length>,
    /// The longest; above it the nominal tail folds or holds too much metal.
    pub longest: Given<Length>,
    /// What limits the longest.
    pub longest_by: UpperBound,
}

impl Usable {
    /// Whether a nominal length lies inside.
    #[must_use]
    pub fn contains(&self, length: Length) -> bool {
        self.shortest.value <= length && length <= self.longest.value
    }
}

/// A length that is within limits, and what it makes.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Serving<'a> {
    /// The rivet.
    pub part: Part<'a>,
    /// Its length.
    pub length: Length,
    /// What to drive its head to.
    pub window: Option<Window>,
    /// The head at the height to aim at; `None` where the practice names no such height.
    pub head: Option<PredictedHead>,
}

/// What goes into holes of one range of sizes, where no one length is within limits in all.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct ByHole<'a> {
    /// The holes, both ends included.
    pub hole: Interval,
    /// The rivet; `None` where no standard length is within limits in these holes.
    pub part: Option<Part<'a>>,
    /// Its length.
    pub length: Option<Length>,
    /// What a longer rivet is cut to, as closely as standard ones are made, where no standard length is within limits but such a one is.
    pub cut: Option<Interval>,
    /// What to drive the head of the standard length to.
    pub window: Option<Window>,
    /// Where nothing can be driven: by how much the longest rivet that does not fold over is too short for the largest of these holes.
    pub short: Option<Length>,
}

/// The standard length that comes closest where none is within limits in every hole, and what would make it so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Nearest {
    /// The longest standard length that is not too long.
    pub length: Length,
    /// The holes or the shanks with which it is not too short either.
    pub within: Within,
}

/// What becomes of a length that somebody else chose; made by [`Installation::assess`](crate::installation::Installation::assess).
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Assessed {
    /// Whether it is within limits: not too short in the worst case, not too long at nominal sizes.
    pub serves: bool,
    /// What to drive its head to; `None` where no one height is right for every rivet.
    pub window: Option<Window>,
    /// The holes or the shanks within which there would be a window, where there is none.
    pub within: Option<Within>,
    /// The driven head at the height to aim at.
    pub head: Option<PredictedHead>,
    /// What is wrong with it.
    pub findings: Findings,
}

/// A chosen length and everything that it rests on; made by [`Installation::length`](crate::installation::Installation::length).
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct LengthAnswer<'a> {
    /// The rivet to order; `None` when no one length of the series is within limits in every hole: see [`LengthAnswer::by_hole`].
    pub part: Option<Part<'a>>,
    /// Its length.
    pub length: Option<Length>,
    /// The lengths within limits, before they are cut to the series' steps; `None` when a limit or a dimension for it is not known.
    pub usable: Option<Usable>,
    /// Grip plus one and a half diameters, as it is before rounding.
    pub rule_of_thumb: Length,
    /// The same, rounded to the series' steps as the practice says.
    pub rule_of_thumb_length: Length,
    /// Why the two differ, when they do.
    pub difference: Option<Difference>,
    /// How far the tail stands out before driving, for the chosen length.
    pub protrusion: Option<Interval>,
    /// What to drive the head of the chosen length to.
    pub window: Option<Window>,
    /// The driven head of the chosen length at the height to aim at, or at the end of the window next to it.
    pub head: Option<PredictedHead>,
    /// The part of the tail that goes into filling the hole, at nominal sizes; `None` when a dimension for it is not known.
    pub fill: Option<Length>,
    /// Notes, cautions and reasons to refer.
    pub findings: Findings,
    /// What every length is checked against, where that is known.
    #[cfg_attr(feature = "serde", serde(skip))]
    gauge: Option<Gauge<'a>>,
}

impl<'a> LengthAnswer<'a> {
    /// An answer to be filled in.
    #[must_use]
    pub const fn nothing_yet() -> LengthAnswer<'a> {
        LengthAnswer {
            part: None,
            length: None,
            usable: None,
            rule_of_thumb: Length::ZERO,
            rule_of_thumb_length: Length::ZERO,
            difference: None,
            protrusion: None,
            window: None,
            head: None,
            fill: None,
            findings: Findings::new(),
            gauge: None,
        }
    }

    /// Every other standard length that is within limits, half lengths too, the shortest first.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse(".032, .040, .125")?;
    /// let answer = Installation::new(Part::parse("MS20470AD4")?, &layers).length()?;
    /// assert_eq!(answer.part.unwrap().to_string(), "MS20470AD4-6");
    /// let others: Vec<String> = answer.serves().map(|other| other.part.to_string()).collect();
    /// assert_eq!(others, ["MS20470AD4-5", "MS20470AD4-5.5", "MS20470AD4-6.5"]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn serves(&self) -> impl Iterator<Item = Serving<'a>> {
        // By reference: what lengths are checked against is a third of the answer, and would stand in the iterator twice.
        let gauge = self.gauge.as_ref().filter(|_| self.length.is_some());
        let lengths = gauge.into_iter().flat_map(|gauge| gauge.lengths().map(move |length| (gauge, length)));
        let others = lengths.filter(|(_, length)| Some(*length) != self.length);
        others.filter_map(|(gauge, length)| gauge.serving(length))
    }

    /// The lengths of [`LengthAnswer::serves`], without what each makes.
    pub fn also_good(&self) -> impl Iterator<Item = Length> + use<> {
        let known = self.gauge.as_ref().zip(self.usable).zip(self.length);
        let lengths = known.map(|((gauge, usable), chosen)| {
            lengths_of(&usable, gauge.finest_step()).filter(move |length| *length != chosen)
        });
        lengths.into_iter().flatten()
    }

    /// What goes into which hole, the smallest holes first, where no one length is within limits in all of them; nothing where one is.
    ///
    /// As few ranges as will do: in a hole as measured the rule of thumb may do as well.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::length::{Length, Toleranced};
    /// use shophead::rivet::part::Part;
    /// // A stack of nearly ten diameters: filling the largest holes takes a longer rivet than the smallest ones allow.
    /// let stack = Toleranced::parse("1.2in+-.01")?;
    /// let answer = Installation::through(Part::parse("MS20470AD4")?, stack).length()?;
    /// assert_eq!(answer.length, None);
    /// let said: Vec<_> = answer.by_hole().map(|range| range.part.map(|part| part.to_string())).collect();
    /// assert_eq!(said, [Some("MS20470AD4-23".into()), None]);
    /// // For the largest holes a longer rivet is cut to length.
    /// assert!(answer.by_hole().last().unwrap().cut.is_some());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn by_hole(&self) -> impl Iterator<Item = ByHole<'a>> {
        let gauge = self.gauge.as_ref().filter(|_| self.length.is_none());
        gauge.into_iter().flat_map(Gauge::by_hole)
    }

    /// Whether the length goes by the hole: no one suits all, but some hole has one.
    #[must_use]
    pub fn is_by_hole(&self) -> bool {
        self.by_hole().any(|range| range.length.is_some() || range.cut.is_some())
    }

    /// The standard length that comes closest, where none is within limits in every hole.
    #[must_use]
    pub fn nearest(&self) -> Option<Nearest> {
        let gauge = self.gauge.as_ref().filter(|_| self.length.is_none())?;
        let length = gauge.usable().longest.value.floor_to(gauge.finest_step());
        Some(Nearest { length, within: gauge.within(length) })
    }

    /// What every length is checked against, where that is known.
    #[cfg(feature = "words")]
    pub(crate) const fn gauge(&self) -> Option<&Gauge<'a>> {
        self.gauge.as_ref()
    }

    /// The farthest that the rivet reaches behind the stack before driving: the chosen one, the longest of those for several holes, or the rule of
    /// thumb where nothing else is known.
    #[must_use]
    pub fn reach(&self, grip: Toleranced) -> Length {
        let longest = self.by_hole().filter_map(|range| range.length.or(range.cut.map(|cut| cut.max()))).max();
        let length = self.length.or(longest);
        match (&self.gauge, length) {
            (Some(gauge), Some(length)) => gauge.fit.reach(length),
            _ => self.rule_of_thumb_length.minus(grip.min()),
        }
    }
}

/// What every length of one rivet in its stack and hole is checked against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Gauge<'a> {
    rivet: Part<'a>,
    pub(crate) fit: Fit,
    pub(crate) limits: HeadLimits,
    /// Diameter and height of the least head.
    pub(crate) least: Given<(Length, Length)>,
    /// Diameter and height that together bound the metal.
    pub(crate) greatest: Option<Given<(Length, Length)>>,
    pub(crate) tail: Given<Length>,
    /// The rule's length.
    rule: Length,
}

impl<'a> Gauge<'a> {
    /// `None` when the practice lacks the least head or the longest tail.
    fn of(wanted: &Wanted<'_, 'a>, fit: Fit, rule: Length) -> Option<Gauge<'a>> {
        let limits = HeadLimits::of_case(wanted.limits);
        let both = |diameter: Given<Length>, height: Given<Length>| Given {
            value: (diameter.value, height.value),
            basis: diameter.basis.weaker(height.basis),
        };
        Some(Gauge {
            rivet: wanted.rivet,
            fit,
            least: both(limits.diameter_least?, limits.height_least?),
            greatest: limits.diameter_greatest.zip(limits.metal_height_greatest).map(|(wide, high)| both(wide, high)),
            tail: wanted.limits.length(Name::TailGreatest)?,
            limits,
            rule,
        })
    }

    /// The same for a hole of just this size.
    fn in_hole(&self, hole: Length) -> Gauge<'a> {
        Gauge { fit: self.fit.in_hole(Toleranced::exactly(hole)), ..*self }
    }

    fn usable(&self) -> Usable {
        let Given { value: (diameter, height), basis } = self.least;
        let shortest = Given { value: self.fit.shortest_for(diameter, height), basis };
        let by_tail = Given { value: self.fit.longest_nominal_for_tail(self.tail.value), basis: self.tail.basis };
        let by_head = self.greatest.map(|Given { value: (diameter, height), basis }| Given {
            value: self.fit.longest_nominal_for(diameter, height),
            basis,
        });
        let (longest, longest_by) = match by_head {
            Some(by_head) if by_head.value < by_tail.value => (by_head, UpperBound::Head),
            _ => (by_tail, UpperBound::Tail),
        };
        Usable { shortest, longest, longest_by }
    }

    fn has_halves(&self) -> bool {
        self.rivet.series().half_lengths.is_some()
    }

    fn finest_step(&self) -> Length {
        if self.has_halves() { Length::THIRTY_SECOND } else { Length::SIXTEENTH }
    }

    /// The shortest and the longest usable length, in sixteenths, else in thirty-seconds where the series has them.
    fn ends(&self, usable: &Usable) -> Option<(Length, Length)> {
        ends(usable, Length::SIXTEENTH)
            .or_else(|| if self.has_halves() { ends(usable, Length::THIRTY_SECOND) } else { None })
    }

    /// The step in which usable lengths are looked for: sixteenths, and half lengths where only they are usable.
    #[cfg(feature = "words")]
    pub(crate) fn step_of(&self, usable: &Usable) -> Length {
        if ends(usable, Length::SIXTEENTH).is_some() { Length::SIXTEENTH } else { self.finest_step() }
    }

    /// The usable length nearest to the rule's.
    fn nearest(&self, usable: &Usable) -> Option<Length> {
        self.ends(usable).map(|(shortest, longest)| self.rule.max(shortest).min(longest))
    }

    /// The longest usable length.
    fn longest(&self, usable: &Usable) -> Option<Length> {
        self.ends(usable).map(|(_, longest)| longest)
    }

    /// Every standard length within limits.
    fn lengths(&self) -> impl Iterator<Item = Length> + use<> {
        lengths_of(&self.usable(), self.finest_step())
    }

    fn serving(&self, length: Length) -> Option<Serving<'a>> {
        let part = self.rivet.with_length(length).ok()?;
        let window = self.window(length);
        Some(Serving { part, length, window, head: self.head(length, window) })
    }

    fn window(&self, length: Length) -> Option<Window> {
        self.fit.window(length, &self.limits)
    }

    fn within(&self, length: Length) -> Within {
        let (diameter, height) = self.least.value;
        self.fit.within(length, diameter, height)
    }

    /// The head at the height to aim at; where that is outside the window, at the end next to it.
    fn head(&self, length: Length, window: Option<Window>) -> Option<PredictedHead> {
        let target = self.limits.height_target?.value;
        Some(
            self.fit.predict(
                length,
                window.map_or(target, |window| target.max(window.height.min()).min(window.height.max())),
            ),
        )
    }

    fn by_hole(&self) -> impl Iterator<Item = ByHole<'a>> {
        let hole = self.fit.hole();
        let mut next = Some(hole.min());
        let mut left = MAX_HOLE_RANGES;
        core::iter::from_fn(move || {
            let from = next?;
            left = left.saturating_sub(1);
            let range = if left > 0 { self.range(from) } else { nothing_fits(Interval::of(from, hole.max())) };
            next = Some(range.hole.max().plus(NANOMETRE)).filter(|next| *next <= hole.max());
            Some(range)
        })
    }

    /// What goes into the holes from this one on, up to the last that it suits: the longest whole sixteenth, which reaches farthest, else the
    /// longest half length.
    fn range(&self, from: Length) -> ByHole<'a> {
        let here = self.in_hole(from);
        let usable = here.usable();
        // A length stays within limits up to the largest hole that it fills.
        let fills_to =
            |length: Length| here.within(length).hole_greatest.unwrap_or(from).min(self.fit.hole().max()).max(from);
        if let Some(length) = here.longest(&usable) {
            let hole = Interval::of(from, fills_to(length));
            let gauge = Gauge { fit: self.fit.in_hole(Toleranced::from_least(hole)), ..*self };
            let part = self.rivet.with_length(length).ok();
            return ByHole { hole, part, length: Some(length), cut: None, window: gauge.window(length), short: None };
        }
        let longest = usable.longest.value;
        if usable.shortest.value > longest {
            // A larger hole takes more than it gives.
            let largest = self.fit.hole().max();
            let usable = self.in_hole(largest).usable();
            let short = usable.shortest.value.minus(usable.longest.value);
            return ByHole { short: Some(short), ..nothing_fits(Interval::of(from, largest)) };
        }
        // A longer rivet is cut until a standard one begins to be no longer too long.
        let standard = usable.shortest.value.ceil_to(self.finest_step());
        let begins = self
            .greatest
            .filter(|_| standard <= self.fit.longest_nominal_for_tail(self.tail.value))
            .map(|Given { value: (diameter, height), .. }| here.fit.hole_least_nominal_for(standard, diameter, height));
        let before = begins.map_or(Length::MAX, |begins| begins.minus(NANOMETRE));
        let hole = Interval::of(from, fills_to(longest).min(before).max(from));
        let shortest = self.in_hole(hole.max()).usable().shortest.value;
        ByHole { cut: Some(Interval::of(shortest, longest)), ..nothing_fits(hole) }
    }

    /// What is worth knowing of a length within limits: that at an end of all tolerances it is too long.
    fn note_corners(&self, length: Length, findings: &mut Findings) {
        let by_head = self.greatest.map(|Given { value: (diameter, height), basis }| Given {
            value: self.fit.longest_for(diameter, height),
            basis,
        });
        if let Some(longest) = by_head.filter(|longest| length > longest.value) {
            findings.push(Finding::against(Code::HeadTooLarge, Severity::Note, length, &longest));
        }
        let longest = Given { value: self.fit.longest_for_tail(self.tail.value), basis: self.tail.basis };
        if length > longest.value {
            findings.push(Finding::against(Code::TailTooLong, Severity::Note, length, &longest));
        }
    }
}

/// The usable lengths in such steps.
fn lengths_of(usable: &Usable, step: Length) -> impl Iterator<Item = Length> + use<> {
    let first = usable.shortest.value.max(step).ceil_to(step);
    let longest = usable.longest.value;
    core::iter::successors(Some(first), move |length| Some(length.plus(step)))
        .take_while(move |length| *length <= longest)
}

/// The shortest and the longest usable length of those in such steps.
fn ends(usable: &Usable, step: Length) -> Option<(Length, Length)> {
    let shortest = usable.shortest.value.max(step).ceil_to(step);
    let longest = usable.longest.value.floor_to(step);
    (shortest <= longest).then_some((shortest, longest))
}

const fn nothing_fits<'a>(hole: Interval) -> ByHole<'a> {
    ByHole { hole, part: None, length: None, cut: None, window: None, short: None }
}

/// The most ranges of holes that [`LengthAnswer::by_hole`] tells apart. A stack that asks for more is so thick that nobody rivets it.
pub const MAX_HOLE_RANGES: usize = 32;

const NANOMETRE: Length = match Length::from_nanometres(1) {
    Some(nanometre) => nanometre,
    None => Length::ZERO,
};

/// What a length is chosen for: the inside of [`Installation::length`](crate::installation::Installation::length).
#[derive(Clone, Copy)]
pub(crate) struct Wanted<'w, 'a> {
    /// The rivet; its length does not count.
    pub(crate) rivet: Part<'a>,
    /// The limits of its case.
    pub(crate) limits: &'w ForCase<'w>,
    /// The stack.
    pub(crate) grip: Toleranced,
    /// Whether every layer is dimpled.
    pub(crate) dimpled: bool,
    /// The hole.
    pub(crate) hole: Toleranced,
    /// What the shop entered.
    pub(crate) practice: &'a Practice<'a>,
}

impl<'a> Wanted<'_, 'a> {
    pub(crate) fn fit(&self) -> Result<Fit, FitError> {
        let (series, size) = (self.rivet.series(), self.rivet.size());
        let fit = if self.dimpled {
            Fit::through_dimples(series, size, self.hole, self.grip)?
        } else {
            Fit::new(series, size, self.hole, self.grip)?
        };
        let tolerance = self.practice.length_tolerance(series);
        Ok(fit.with_length_tolerance(tolerance.map_or(Length::ZERO, |tolerance| tolerance.either_way)))
    }

    /// Chooses the length, into an answer that holds nothing yet.
    ///
    /// # Errors
    /// [`FitError`] for a stack, a hole or a shank without a size.
    #[inline(never)]
    pub(crate) fn choose_into(&self, answer: &mut LengthAnswer<'a>) -> Result<(), FitError> {
        (answer.rule_of_thumb, answer.rule_of_thumb_length) = self.rule_of_thumb(&mut answer.findings);
        let fit = match self.fit() {
            Ok(fit) => fit,
            Err(error) => {
                answer.findings.push(self.cannot_fit(error)?);
                return Ok(());
            }
        };
        answer.fill = Some(fit.tail_taken_by_fill());
        answer.gauge = Gauge::of(self, fit, answer.rule_of_thumb_length);
        let Some(gauge) = &answer.gauge else {
            answer.findings.push(self.no_head_limits());
            return Ok(());
        };
        let usable = gauge.usable();
        answer.usable = Some(usable);
        answer.length = gauge.nearest(&usable);
        answer.difference = difference(&usable, answer.rule_of_thumb_length);
        if let Some(length) = answer.length {
            answer.part = self.rivet.with_length(length).ok();
            if answer.part.is_none() {
                answer.findings.push(self.no_such_rivet(length));
            }
            answer.protrusion = Some(gauge.fit.protrusion(length));
            answer.window = gauge.window(length);
            answer.head = gauge.head(length, answer.window);
            self.explain(length, gauge, &usable, &mut answer.findings);
        } else {
            say_by_hole(gauge, &usable, &mut answer.findings);
        }
        answer.findings.push_some(self.computed_dimple());
        Ok(())
    }

    /// What is to be said of a length that somebody else chose.
    ///
    /// # Errors
    /// As [`Wanted::choose`].
    pub(crate) fn assess(&self, length: Length) -> Result<Assessed, FitError> {
        let mut assessed =
            Assessed { serves: false, window: None, within: None, head: None, findings: Findings::new() };
        let fit = match self.fit() {
            Ok(fit) => fit,
            Err(error) => {
                assessed.findings.push(self.cannot_fit(error)?);
                return Ok(assessed);
            }
        };
        let Some(gauge) = Gauge::of(self, fit, length) else {
            assessed.findings.push(self.no_head_limits());
            return Ok(assessed);
        };
        let usable = gauge.usable();
        assessed.serves = usable.contains(length);
        assessed.window = gauge.window(length);
        if assessed.window.is_none() {
            assessed.within = Some(gauge.within(length));
        }
        assessed.head = gauge.head(length, assessed.window);
        say_outside(&usable, length, &mut assessed.findings);
        if assessed.serves {
            gauge.note_corners(length, &mut assessed.findings);
        }
        assessed.findings.push_some(self.computed_dimple());
        Ok(assessed)
    }

    /// What is not known of the rivet is not invented: the standard has to be opened. A stack, hole or shank without a size stays an error.
    fn cannot_fit(&self, error: FitError) -> Result<Finding, FitError> {
        match error {
            FitError::HeadNotKnown => Ok(head_not_known(&self.rivet)),
            FitError::ShankNotKnown => Ok(shank_not_known(&self.rivet)),
            FitError::HeadDeeperThanPack => {
                Ok(Finding::new(Code::NoLengthFits, Severity::Refer, self.rivet.series().unknown.fit))
            }
            FitError::NoGrip | FitError::NoHole | FitError::NoShank => Err(error),
        }
    }

    /// No rivet of the series has the length that would be right: a part number has two digits for it.
    fn no_such_rivet(&self, length: Length) -> Finding {
        let found = Finding::new(Code::NoLengthFits, Severity::Refer, self.rivet.series().basis);
        found.with_measured(Figure::Length(length))
    }

    /// The first limit that a length needs and that is not there.
    fn no_head_limits(&self) -> Finding {
        let needed = [Name::HeadDiameterLeast, Name::HeadHeightLeast, Name::TailGreatest];
        let missing = needed.into_iter().find(|name| self.limits.length(*name).is_none());
        let key = missing.map(Key::of_limit);
        Finding::unknown(Code::NoLimit, Severity::Refer, Basis::LEAST_HEAD_AND_LONGEST_TAIL, key)
    }

    fn rule_of_thumb(&self, findings: &mut Findings) -> (Length, Length) {
        let (tail, rounding) = (self.limits.length(Name::RuleOfThumbTail), self.limits.rounding());
        let (Some(tail), Some(rounding)) = (tail, rounding) else {
            let name = if tail.is_none() { Name::RuleOfThumbTail } else { Name::LengthRounding };
            let key = Some(Key::of_limit(name));
            findings.push(Finding::unknown(Code::NoLimit, Severity::Caution, Basis::RULE_OF_THUMB, key));
            return (self.grip.nominal(), self.grip.nominal().ceil_to(Length::SIXTEENTH));
        };
        let exact = self.grip.nominal().plus(tail.value);
        let rounded = match rounding.value {
            LengthRounding::Longer => exact.ceil_to(Length::SIXTEENTH),
            LengthRounding::Nearest => exact.round_to(Length::SIXTEENTH),
        };
        (exact, rounded)
    }

    /// What is worth knowing of the chosen length.
    fn explain(&self, length: Length, gauge: &Gauge<'a>, usable: &Usable, findings: &mut Findings) {
        if length != gauge.rule {
            let bound = if gauge.rule < usable.shortest.value { usable.shortest.basis } else { usable.longest.basis };
            let rule = Given { value: gauge.rule, basis: bound };
            findings.push(Finding::against(Code::DiffersFromRule, Severity::Note, length, &rule));
        }
        gauge.note_corners(length, findings);
        findings.push_some(Finding::from_memory(&usable.shortest));
        findings.push_some(Finding::from_memory(&usable.longest));
        if length != length.floor_to(Length::SIXTEENTH) {
            let half = Finding::new(Code::HalfLength, Severity::Note, Basis::AC43_HALF_LENGTHS);
            findings.push(half.with_measured(Figure::Length(length)));
        }
        if let Some(value) = self.beyond_tabulated(length) {
            let end = Given { value, basis: self.rivet.series().basis };
            findings.push(Finding::against(Code::LengthNotTabulated, Severity::Note, length, &end));
        }
    }

    /// That what a dimple does to the tail is worked out here, also where only some layers are dimpled.
    fn computed_dimple(&self) -> Option<Finding> {
        let found = Finding::new(Code::DimpleComputed, Severity::Caution, Basis::DIMPLED_PACK);
        (self.dimpled || self.limits.case().dimpled).then_some(found)
    }

    /// The end of the tabulated lengths that a length lies beyond.
    fn beyond_tabulated(&self, length: Length) -> Option<Length> {
        let shortest = self.rivet.size().shortest_tabulated.filter(|shortest| length < *shortest);
        shortest.or(self.rivet.size().longest_tabulated.filter(|longest| length > *longest))
    }
}

/// Why the rule's length is not within limits, where it is not.
fn difference(usable: &Usable, rule: Length) -> Option<Difference> {
    if rule < usable.shortest.value {
        return Some(Difference::FillTakesTail);
    }
    (rule > usable.longest.value).then_some(match usable.longest_by {
        UpperBound::Tail => Difference::TailWouldFold,
        UpperBound::Head => Difference::HeadWouldBeTooLarge,
    })
}

/// That no one length is within limits in every hole, and what there is instead.
fn say_by_hole(gauge: &Gauge<'_>, usable: &Usable, findings: &mut Findings) {
    let weaker = usable.shortest.basis.weaker(usable.longest.basis);
    let longest = Given { value: usable.longest.value, basis: weaker };
    let (mut standard, mut cut) = (false, None);
    for range in gauge.by_hole() {
        standard |= range.part.is_some();
        cut = cut.or(range.cut);
    }
    if standard {
        findings.push(Finding::against(Code::LengthByHole, Severity::Caution, usable.shortest.value, &longest));
    }
    if let Some(cut) = cut {
        let limit = Given { value: cut.max(), basis: Basis::NASA_RIVETS_TRIMMED };
        findings.push(Finding::against(Code::CutToLength, Severity::Caution, cut.min(), &limit));
    }
    if !standard && cut.is_none() {
        findings.push(Finding::against(Code::NoLengthFits, Severity::Refer, usable.shortest.value, &longest));
    }
}

/// Why a length is not among the usable ones.
fn say_outside(usable: &Usable, length: Length, findings: &mut Findings) {
    if length < usable.shortest.value {
        findings.push(Finding::against(Code::TailTooShort, Severity::Refer, length, &usable.shortest));
    }
    if length > usable.longest.value {
        let code = match usable.longest_by {
            UpperBound::Tail => Code::TailTooLong,
            UpperBound::Head => Code::HeadTooLarge,
        };
        findings.push(Finding::against(code, Severity::Refer, length, &usable.longest));
    }
}
