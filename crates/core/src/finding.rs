//! What a check found.
//!
//! A finding is data: a code, how serious it is, what was measured and what the limit is, and where the limit comes from. Scripts and
//! tests compare codes; people read [`Finding::sentence`], which comes from the same table.

mod codes;
#[cfg(feature = "words")]
mod sentence;

use core::fmt;
use core::num::NonZeroU8;

use crate::basis::{Basis, Status};
use crate::fact::Facts;
use crate::length::Length;
use crate::practice::{Given, Key};
use crate::quantity::{Force, Stress};
use crate::words::{Shown, Units};

pub use codes::Code;
#[cfg(feature = "words")]
pub use sentence::Said;

crate::words::words! {
    /// How serious a finding is.
    Severity, "severity" {
        Note = 1, "note", "Worth knowing; there is nothing to do.";
        Caution = 2, "caution", "Do it with care, or check before relying on it.";
        Refer = 3, "refer", "Stop: ask the holder of the type's data or a licensed person.";
    }
}

/// A figure in a finding.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Figure {
    /// A length.
    Length(Length),
    /// A force.
    Force(Force),
    /// A stress.
    Stress(Stress),
    /// A plain ratio, such as an edge margin or a margin of safety.
    Ratio(f64),
    /// A number of things.
    Count(u32),
    /// What was not given.
    Facts(Facts),
    /// What is not on file, as a limits file calls it.
    Key(Key),
}

impl Figure {
    /// As it is written for people.
    #[must_use]
    pub const fn shown(self, units: Units) -> Shown {
        match self {
            Figure::Length(length) => units.length(length),
            Figure::Force(force) => units.force(force),
            Figure::Stress(stress) => units.stress(stress),
            Figure::Ratio(ratio) => units.ratio(ratio),
            Figure::Count(count) => units.count(count),
            Figure::Facts(facts) => units.facts(facts),
            Figure::Key(key) => units.key(key),
        }
    }

    /// As the C interface holds it: the number of its kind, which never changes, what is whole, and what is not. What its kind does
    /// not use is 0.
    ///
    /// ```
    /// use shophead::finding::Figure;
    /// use shophead::length::Length;
    /// assert_eq!(Figure::Length(Length::SIXTEENTH).for_c(), (1, 1_587_500, 0.0));
    /// assert_eq!(Figure::Ratio(0.25).for_c(), (4, 0, 0.25));
    /// ```
    #[must_use]
    pub const fn for_c(self) -> (u32, i64, f64) {
        match self {
            Figure::Length(length) => (1, length.nanometres(), 0.0),
            Figure::Force(force) => (2, 0, force.lbf()),
            Figure::Stress(stress) => (3, 0, stress.psi()),
            Figure::Ratio(ratio) => (4, 0, ratio),
            Figure::Count(count) => (5, count as i64, 0.0),
            Figure::Facts(facts) => (6, facts.bits() as i64, 0.0),
            Figure::Key(key) => (7, key.number().cast_signed(), 0.0),
        }
    }
}

/// The kind of a figure, kept beside its eight bytes. Zero is none.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    None,
    Length,
    Force,
    Stress,
    Ratio,
    Count,
    Facts,
    Key,
    /// A ratio in hundredths, and the key of a figure that would count in its place.
    KeyedRatio,
}

/// The two kinds of a finding's figures in one byte: [`Kind`] of what was measured, then of the limit.
#[derive(Clone, Copy)]
struct Kinds(u8);

impl Kinds {
    const NONE: Kinds = Kinds(Kind::None as u8);
    const LIMIT_SHIFT: u32 = 4;
    const MEASURED: u8 = (1 << Kinds::LIMIT_SHIFT) - 1;

    const fn with_measured(self, kind: Kind) -> Kinds {
        Kinds(self.0 & !Kinds::MEASURED | kind as u8)
    }

    const fn with_limit(self, kind: Kind) -> Kinds {
        Kinds(self.0 & Kinds::MEASURED | (kind as u8) << Kinds::LIMIT_SHIFT)
    }

    const fn measured(self) -> u8 {
        self.0 & Kinds::MEASURED
    }

    const fn limit(self) -> u8 {
        self.0 >> Kinds::LIMIT_SHIFT
    }
}

/// The bits that a key has beside a ratio: those of keys that name no material of a shop's own.
const KEY_BITS: u32 = u32::BITS;

/// A figure as its kind and its bits.
const fn packed(figure: Figure) -> (Kind, u64) {
    match figure {
        Figure::Length(length) => (Kind::Length, length.nanometres().cast_unsigned()),
        Figure::Force(force) => (Kind::Force, force.lbf().to_bits()),
        Figure::Stress(stress) => (Kind::Stress, stress.psi().to_bits()),
        Figure::Ratio(ratio) => (Kind::Ratio, ratio.to_bits()),
        Figure::Count(count) => (Kind::Count, count as u64),
        Figure::Facts(facts) => (Kind::Facts, facts.bits() as u64),
        Figure::Key(key) => (Kind::Key, key.number()),
    }
}

const fn unpacked(kind: u8, bits: u64) -> Option<Figure> {
    const LENGTH: u8 = Kind::Length as u8;
    const FORCE: u8 = Kind::Force as u8;
    const STRESS: u8 = Kind::Stress as u8;
    const RATIO: u8 = Kind::Ratio as u8;
    const COUNT: u8 = Kind::Count as u8;
    const FACTS: u8 = Kind::Facts as u8;
    const KEY: u8 = Kind::Key as u8;
    const KEYED_RATIO: u8 = Kind::KeyedRatio as u8;
    match kind {
        LENGTH => match Length::from_nanometres(bits.cast_signed()) {
            Some(length) => Some(Figure::Length(length)),
            None => None,
        },
        FORCE => Some(Figure::Force(Force::from_lbf(f64::from_bits(bits)))),
        STRESS => Some(Figure::Stress(Stress::from_psi(f64::from_bits(bits)))),
        RATIO => Some(Figure::Ratio(f64::from_bits(bits))),
        COUNT => Some(Figure::Count(bits as u32)),
        FACTS => Some(Figure::Facts(Facts::from_bits(bits as u8))),
        KEY => Some(Figure::Key(Key::of_bits(bits))),
        KEYED_RATIO => Some(Figure::Ratio(hundredths((bits >> KEY_BITS) as u32))),
        _ => None,
    }
}

/// The nearest number to so many hundredths, as a division of floating-point numbers gives it, but in whole numbers: reading a finding back asks no
/// instrument for floating point.
const fn hundredths(count: u32) -> f64 {
    const HUNDRED: u64 = 100;
    const BEHIND_POINT: u32 = f64::MANTISSA_DIGITS.wrapping_sub(1);
    if count == 0 {
        return 0.0;
    }
    let shift = (count as u64).leading_zeros();
    let whole = (count as u64) << shift;
    let Some(quotient) = whole.checked_div(HUNDRED) else { return 0.0 };
    let rest = whole.wrapping_sub(quotient.wrapping_mul(HUNDRED));
    // 57 bits at least, of which all but the first 53 are rounded away: half to even.
    let dropped = u64::BITS.wrapping_sub(quotient.leading_zeros()).wrapping_sub(f64::MANTISSA_DIGITS);
    let kept = quotient >> dropped;
    let lost = quotient.wrapping_sub(kept << dropped);
    let half = (1_u64 << dropped) >> 1;
    let is_up = lost > half || lost == half && (rest != 0 || kept & 1 == 1);
    // Of the first of the 53 bits, which goes without saying and is taken for one of the exponent's: so that is one less.
    let exponent =
        BEHIND_POINT.wrapping_add(dropped).wrapping_sub(shift).wrapping_add(f64::MAX_EXP as u32).wrapping_sub(2);
    f64::from_bits(((exponent as u64) << BEHIND_POINT).wrapping_add(kept).wrapping_add(is_up as u64))
}

/// One finding. The checks of this crate make them, and nobody else.
///
/// ```
/// use shophead::basis::Basis;
/// use shophead::finding::{Code, Figure};
/// use shophead::installation::Installation;
/// use shophead::length::Length;
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// let (skins, edge) = (Stack::parse("2024-T3:.040, 2024-T3:.063")?, Length::parse(".20")?);
/// let findings = Installation::new(Part::parse("MS20470AD4")?, &skins).edge(edge).findings();
/// let finding = findings.iter().find(|finding| finding.code() == Code::EdgeDistanceShort).unwrap();
/// assert_eq!(finding.code().as_str(), "edge-distance-short");
/// assert_eq!((finding.measured(), finding.limit()), (Some(Figure::Length(edge)), Some(Figure::Length(Length::parse("1/4")?))));
/// assert_eq!((finding.layer(), finding.basis()), (None, Basis::AC43_EDGE));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy)]
pub struct Finding {
    measured: u64,
    limit: u64,
    basis: Basis,
    code: Code,
    severity: Severity,
    kinds: Kinds,
    layer: Option<NonZeroU8>,
}

const _: () = assert!(size_of::<Finding>() == 24 && size_of::<Option<Finding>>() == 24);
const _: () = assert!(size_of::<Findings>() <= MAX_FINDINGS * 24 + 16);

impl Finding {
    /// One that was made here and kept as its parts, read back to say it again: nothing is checked. The document that it rested on is not
    /// among its parts; `Said::citing` takes it.
    ///
    /// ```
    /// use shophead::basis::Status;
    /// use shophead::finding::{Code, Finding, Severity};
    /// let kept = Finding::read_back(Code::HoleCracked, Severity::Refer, Status::Published, None, None, None);
    /// assert_eq!((kept.code(), kept.severity(), kept.basis().status()), (Code::HoleCracked, Severity::Refer, Status::Published));
    /// ```
    #[must_use]
    pub const fn read_back(
        code: Code,
        severity: Severity,
        status: Status,
        layer: Option<NonZeroU8>,
        measured: Option<Figure>,
        limit: Option<Figure>,
    ) -> Finding {
        let mut found = Finding { layer, ..Finding::new(code, severity, Basis::own_as(status, 0)) };
        if let Some(measured) = measured {
            found = found.with_measured(measured);
        }
        if let Some(limit) = limit {
            found = found.with_limit(limit);
        }
        found
    }

    /// A finding without figures.
    #[must_use]
    pub(crate) const fn new(code: Code, severity: Severity, basis: Basis) -> Finding {
        Finding { measured: 0, limit: 0, basis, code, severity, kinds: Kinds::NONE, layer: None }
    }

    /// The note that a limit which decided something could only be recalled; `None` for one that was read.
    #[must_use]
    pub fn from_memory(limit: &Given<Length>) -> Option<Finding> {
        if limit.basis.status() != Status::Memory {
            return None;
        }
        let note = Finding::new(Code::LimitFromMemory, Severity::Note, limit.basis);
        Some(note.with_limit(Figure::Length(limit.value)))
    }

    /// That a figure is not on file, and what to enter it as.
    pub(crate) fn unknown(code: Code, severity: Severity, basis: Basis, key: Option<Key>) -> Finding {
        let found = Finding::new(code, severity, basis);
        key.map_or(found, |key| found.with_limit(Figure::Key(key)))
    }

    /// What to enter in the limits file, where that is what is missing or would count in place of the limit.
    #[must_use]
    pub const fn key(&self) -> Option<Key> {
        const KEYED_RATIO: u8 = Kind::KeyedRatio as u8;
        match self.limit() {
            Some(Figure::Key(key)) => Some(key),
            Some(_) if self.kinds.limit() == KEYED_RATIO => Some(Key::of_bits(self.limit & u32::MAX as u64)),
            _ => None,
        }
    }

    /// The same with what to enter in place of its limit, a ratio of whole hundredths, where a key is known; another limit stays as it is.
    #[must_use]
    pub fn or_enter(self, key: Option<Key>) -> Finding {
        let (Some(Figure::Ratio(limit)), Some(key)) = (self.limit(), key.map(Key::number)) else { return self };
        let Ok(key) = u32::try_from(key) else { return self };
        let hundredths = (limit * 100.0 + 0.5) as u32;
        if f64::from(hundredths) / 100.0 != limit {
            return self;
        }
        Finding {
            limit: u64::from(hundredths) << KEY_BITS | u64::from(key),
            kinds: self.kinds.with_limit(Kind::KeyedRatio),
            ..self
        }
    }

    /// A length that was checked against a limit.
    #[inline(never)]
    pub(crate) const fn against(code: Code, severity: Severity, measured: Length, limit: &Given<Length>) -> Finding {
        Finding {
            measured: measured.nanometres().cast_unsigned(),
            limit: limit.value.nanometres().cast_unsigned(),
            kinds: Kinds::NONE.with_measured(Kind::Length).with_limit(Kind::Length),
            ..Finding::new(code, severity, limit.basis)
        }
    }

    /// The same with what was measured.
    #[must_use]
    pub(crate) const fn with_measured(self, figure: Figure) -> Finding {
        let (kind, measured) = packed(figure);
        Finding { measured, kinds: self.kinds.with_measured(kind), ..self }
    }

    /// The same with its limit.
    #[must_use]
    pub(crate) const fn with_limit(self, figure: Figure) -> Finding {
        let (kind, limit) = packed(figure);
        Finding { limit, kinds: self.kinds.with_limit(kind), ..self }
    }

    /// The same for one layer, counted from 1 on the side of the manufactured head.
    #[must_use]
    pub(crate) const fn in_layer(self, layer: u8) -> Finding {
        Finding { layer: NonZeroU8::new(layer), ..self }
    }

    /// The same once its referral is answered: a caution, which no longer stops the work.
    #[must_use]
    pub(crate) fn answered(self) -> Finding {
        Finding { severity: self.severity.min(Severity::Caution), ..self }
    }

    /// The same with another number for its layer, where it concerns one.
    #[must_use]
    pub(crate) fn renumbered(self, number: impl FnOnce(u8) -> u8) -> Finding {
        Finding { layer: self.layer().and_then(|layer| NonZeroU8::new(number(layer))), ..self }
    }

    /// What kind.
    #[must_use]
    pub const fn code(&self) -> Code {
        self.code
    }

    /// How serious.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        self.severity
    }

    /// What was measured or computed, where a figure tells it.
    #[must_use]
    pub const fn measured(&self) -> Option<Figure> {
        unpacked(self.kinds.measured(), self.measured)
    }

    /// The limit it was checked against, where that is a figure.
    #[must_use]
    pub const fn limit(&self) -> Option<Figure> {
        unpacked(self.kinds.limit(), self.limit)
    }

    /// The layer it concerns, counted from 1 on the side of the manufactured head.
    #[must_use]
    pub fn layer(&self) -> Option<u8> {
        self.layer.map(NonZeroU8::get)
    }

    /// Where the limit comes from.
    #[must_use]
    pub const fn basis(&self) -> Basis {
        self.basis
    }
}

/// Figures are compared as figures, not as bits.
impl PartialEq for Finding {
    fn eq(&self, other: &Finding) -> bool {
        self.code == other.code
            && self.severity == other.severity
            && self.layer == other.layer
            && self.basis == other.basis
            && self.measured() == other.measured()
            && self.limit() == other.limit()
            && self.key() == other.key()
    }
}

/// With its figures, not their bits.
impl fmt::Debug for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Finding")
            .field("code", &self.code)
            .field("severity", &self.severity)
            .field("measured", &self.measured())
            .field("limit", &self.limit())
            .field("layer", &self.layer())
            .field("basis", &self.basis)
            .finish()
    }
}

/// With its figures, not their bits.
#[cfg(feature = "defmt")]
impl defmt::Format for Finding {
    fn format(&self, f: defmt::Formatter<'_>) {
        defmt::write!(
            f,
            "Finding {{ code: {}, severity: {}, measured: {}, limit: {}, layer: {}, basis: {} }}",
            self.code,
            self.severity,
            self.measured(),
            self.limit(),
            self.layer(),
            self.basis
        );
    }
}

/// Where a calculation that runs inside another puts its findings: into the other's list, without one of its own on the stack.
pub(crate) type Sink<'s> = dyn FnMut(Finding) + 's;

/// The most findings that a list keeps where nothing else is said.
///
/// A calculation says most codes once, and a few of them once a layer. Over 60 000 random stacks of up to eight layers of thin sheet, the head
/// sunk into up to four of them, edge and pitch too short, the answer about a hole said nineteen things at most, a choice of length
/// seventeen; a law holds that none of them is lost. A driven head says six things of its size and one of each different defect, so that
/// twenty hold fourteen defects. A strength has room of its own,
/// [`MAX_JOINT_FINDINGS`](crate::joint::strength::MAX_JOINT_FINDINGS).
pub const MAX_FINDINGS: usize = 20;

/// The findings of one calculation, each kept once.
///
/// A calculation has fewer kinds of findings than there are places. Should they run out all the same,
/// [`Findings::is_complete`] turns false and a more serious finding takes the place of a less serious one, so that what must stop
/// the work is never the one that is lost.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Findings<const N: usize = MAX_FINDINGS> {
    kept: heapless::Vec<Finding, N>,
    lost: bool,
}

impl<const N: usize> Findings<N> {
    /// None yet.
    #[must_use]
    pub const fn new() -> Findings<N> {
        Findings { kept: heapless::Vec::new(), lost: false }
    }

    pub(crate) fn clear(&mut self) {
        self.kept.clear();
        self.lost = false;
    }

    /// Gives every layer another number; two numbers must not become one.
    pub(crate) fn renumber(&mut self, number: impl Fn(u8) -> u8) {
        for finding in &mut self.kept {
            *finding = finding.renumbered(&number);
        }
    }

    /// Adds a finding unless the same one is there.
    pub fn push(&mut self, finding: Finding) {
        if self.kept.contains(&finding) {
            return;
        }
        if let Err(finding) = self.kept.push(finding) {
            self.lost = true;
            let least = self.kept.iter_mut().min_by_key(|kept| kept.severity);
            if let Some(least) = least.filter(|least| least.severity < finding.severity) {
                *least = finding;
            }
        }
    }

    /// Adds a finding if there is one.
    pub fn push_some(&mut self, finding: Option<Finding>) {
        if let Some(finding) = finding {
            self.push(finding);
        }
    }

    /// Adds all of another calculation's findings.
    pub fn extend<const M: usize>(&mut self, others: &Findings<M>) {
        self.lost |= others.lost;
        for finding in &others.kept {
            self.push(*finding);
        }
    }

    /// The findings in the order in which they were made.
    pub fn iter(&self) -> core::slice::Iter<'_, Finding> {
        self.kept.iter()
    }

    /// How many there are.
    ///
    /// ```
    /// use shophead::installation::Installation;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// let skins = Stack::parse("2024-T3:.040, 2024-T3:.063")?;
    /// let found = Installation::new(Part::parse("MS20470AD4")?, &skins).length()?.findings;
    /// assert_eq!(found.len(), found.iter().count());
    /// assert_eq!(found.is_empty(), found.len() == 0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn len(&self) -> usize {
        self.kept.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }

    /// Whether one of this kind is there.
    #[must_use]
    pub fn has(&self, code: Code) -> bool {
        self.kept.iter().any(|finding| finding.code == code)
    }

    /// The most serious one's severity.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.kept.iter().map(|finding| finding.severity).max()
    }

    /// Whether any says refer: the work stops until it is answered.
    #[must_use]
    pub fn must_refer(&self) -> bool {
        self.worst() == Some(Severity::Refer)
    }

    /// Whether every finding found a place.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        !self.lost
    }
}

impl<'f, const N: usize> IntoIterator for &'f Findings<N> {
    type Item = &'f Finding;
    type IntoIter = core::slice::Iter<'f, Finding>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hundredths_are_those_of_a_division() {
        for count in (0..300_000).chain((1..=u32::MAX).step_by(65_537)).chain(u32::MAX - 1_000..=u32::MAX) {
            assert_eq!(hundredths(count).to_bits(), (f64::from(count) / 100.0).to_bits(), "{count}");
        }
    }

    #[test]
    fn every_code_has_a_word_and_a_number_of_its_own() {
        for (index, code) in Code::ALL.iter().enumerate() {
            assert!(!code.as_str().is_empty() && code.number() > 0);
            assert!(code.as_str().bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{code}");
            for other in Code::ALL.iter().skip(index + 1) {
                assert!(other.as_str() != code.as_str() && other.number() != code.number(), "{code} twice");
            }
        }
    }

    #[test]
    fn a_refer_is_never_lost() {
        let mut findings: Findings = Findings::new();
        for count in 0..MAX_FINDINGS as u32 {
            findings.push(
                Finding::new(Code::PitchLong, Severity::Note, Basis::NO_HOLE).with_measured(Figure::Count(count)),
            );
        }
        assert!(findings.is_complete());
        findings.push(Finding::new(Code::HoleCracked, Severity::Refer, Basis::NO_HOLE));
        assert!(!findings.is_complete());
        assert!(findings.must_refer());
    }

    #[test]
    fn what_finds_no_place_replaces_only_what_is_less_serious() {
        let of = |severity, count| {
            Finding::new(Code::PitchLong, severity, Basis::NO_HOLE).with_measured(Figure::Count(count))
        };
        let mut full: Findings<2> = Findings::new();
        full.push(of(Severity::Caution, 1));
        full.push(of(Severity::Note, 2));
        let counts =
            |found: &Findings<2>| -> [Option<Figure>; 2] { [0, 1].map(|place| found.kept.get(place)?.measured()) };
        let figures = |one, other| [Some(Figure::Count(one)), Some(Figure::Count(other))];
        for (severity, count, kept) in [
            (Severity::Note, 3, figures(1, 2)),
            (Severity::Caution, 4, figures(1, 4)),
            (Severity::Caution, 5, figures(1, 4)),
            (Severity::Refer, 6, figures(6, 4)),
        ] {
            full.push(of(severity, count));
            assert_eq!(counts(&full), kept, "{severity} {count}");
        }
    }

    #[test]
    fn what_to_enter_stands_beside_a_limit_of_hundredths_and_of_nothing_else() {
        let limit =
            |figure| Finding::new(Code::EdgeMarginBelowTable, Severity::Caution, Basis::NO_HOLE).with_limit(figure);
        let material = |text| crate::material::Material::parse(text).expect("known");
        let own = crate::material::Material::own("2219-T87").expect("a name");
        let known = Key::of_sheet(material("2024-T3"), crate::material::Property::BearingUltimate20);
        // A key with a material of a shop's own has no room beside a ratio.
        let wide = Key::of_bend_radius(own);
        assert!(known.number() <= u64::from(u32::MAX) && wide.number() > u64::from(u32::MAX));
        for (ratio, key, kept) in [
            (1.5, Some(known), Some(known)),
            (2.0, Some(known), Some(known)),
            (1.505, Some(known), None),
            (1.5, Some(wide), None),
            (1.5, None, None),
        ] {
            let found = limit(Figure::Ratio(ratio)).or_enter(key);
            assert_eq!((found.limit(), found.key()), (Some(Figure::Ratio(ratio)), kept), "{ratio} {key:?}");
        }
        let length = Figure::Length(Length::INCH);
        let found = limit(length).or_enter(Some(known));
        assert_eq!((found.limit(), found.key()), (Some(length), None));
    }

    #[test]
    fn a_list_is_as_complete_as_those_that_it_was_made_of() {
        let finding =
            |count| Finding::new(Code::PitchLong, Severity::Note, Basis::NO_HOLE).with_measured(Figure::Count(count));
        let mut lost: Findings<1> = Findings::new();
        let mut whole: Findings<1> = Findings::new();
        whole.push(finding(1));
        (1..=2).for_each(|count| lost.push(finding(count)));
        for (lists, is_complete) in
            [([&whole, &whole], true), ([&whole, &lost], false), ([&lost, &whole], false), ([&lost, &lost], false)]
        {
            let mut all: Findings = Findings::new();
            lists.into_iter().for_each(|list| all.extend(list));
            assert_eq!((all.is_complete(), all.len()), (is_complete, 1));
        }
    }

    #[test]
    fn a_finding_keeps_its_figures_to_the_last_bit() {
        let figures = [
            Figure::Length(Length::MIN),
            Figure::Length(Length::from_ten_thousandths(1).minus(Length::from_64ths(1))),
            Figure::Force(Force::from_lbf(0.1 + 0.2)),
            Figure::Stress(Stress::from_psi(-0.0)),
            Figure::Ratio(f64::INFINITY),
            Figure::Count(u32::MAX),
        ];
        let bare = Finding::new(Code::NoLimit, Severity::Caution, Basis::NO_HOLE);
        assert_eq!((bare.measured(), bare.limit(), bare.layer()), (None, None, None));
        for one in figures {
            assert_eq!((bare.with_measured(one).measured(), bare.with_measured(one).limit()), (Some(one), None));
            for other in figures {
                let both = bare.with_limit(other).with_measured(one).in_layer(8);
                assert_eq!((both.measured(), both.limit(), both.layer()), (Some(one), Some(other), Some(8)));
                assert_eq!(
                    (both.code(), both.severity(), both.basis()),
                    (Code::NoLimit, Severity::Caution, Basis::NO_HOLE)
                );
            }
        }
    }
}
