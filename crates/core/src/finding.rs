//! What a check found.
//!
//! A finding is data: a code, how serious it is, what was measured against what limit, and where the limit comes from. The
//! words for people are made elsewhere, from the code; tests compare codes.

use core::fmt;
use core::num::NonZeroU8;

use crate::basis::{Basis, Status};
use crate::fact::Facts;
use crate::length::Length;
use crate::practice::Given;
use crate::quantity::{Force, Stress};

/// How serious a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Severity {
    /// Worth knowing; nothing has to be done.
    Note,
    /// Do it with care, or check before relying on it.
    Caution,
    /// Must not go ahead as it stands: ask the engineer or the approved data.
    Refer,
}

impl Severity {
    /// The word used in output.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Severity::Note => "note",
            Severity::Caution => "caution",
            Severity::Refer => "refer",
        }
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A figure in a finding.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
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
}

/// One line a code: variant, the word in output, what it means.
macro_rules! codes {
    ($( $variant:ident, $word:literal, $doc:literal; )+) => {
        /// What kind of finding this is. The words are stable: scripts compare them.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum Code { $( #[doc = $doc] $variant, )+ }

        impl Code {
            /// Every code, in the order of the calculation.
            pub const ALL: &'static [Code] = &[$( Code::$variant, )+];

            /// The stable word for this code.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $( Code::$variant => $word, )+ }
            }
        }
    };
}

codes! {
    // what a figure rests on
    LimitFromMemory, "limit-from-memory", "A limit that decided something could only be recalled: check it against the document.";
    NoLimit, "no-limit", "No document at hand gives the limit that is needed: open the one named.";
    NotChecked, "not-checked", "Something that decides here was not given, so it was not checked.";
    // choosing a rivet
    TailTooLong, "tail-too-long", "The tail could fold over before it forms a head.";
    TailTooShort, "tail-too-short", "The tail cannot form the least head in the worst case.";
    HeadTooLarge, "head-too-large", "The tail holds more metal than the largest head allowed.";
    NoLengthFits, "no-length-fits", "No length gives a sound head in every case.";
    LengthByHole, "length-by-hole", "No one length is within limits in every hole: the hole as measured decides.";
    CutToLength, "cut-to-length", "No standard length is within limits: a longer rivet is cut to length.";
    DimpleComputed, "dimple-computed", "How much tail a dimpled pack takes is worked out, not from a document: try one first.";
    DiffersFromRule, "differs-from-rule", "The length differs from grip plus one and a half diameters.";
    HalfLength, "half-length", "Only a half length fits; they are not always in stock.";
    LengthNotTabulated, "length-not-tabulated", "The length lies outside those tabulated for the series.";
    DiameterOutsideRule, "diameter-outside-rule", "The diameter lies outside the rule for the sheet.";
    NotStructural, "not-structural", "This alloy or size is not for structure.";
    HeatTreatFirst, "heat-treat-first", "This alloy is heat treated or kept cold before driving.";
    ShankDoesNotEnter, "shank-does-not-enter", "The thinnest shank is thicker than the hole is wide.";
    ShankMayNotEnter, "shank-may-not-enter", "A shank at its largest does not enter the hole at its smallest.";
    // driven heads
    HeadTooNarrow, "head-too-narrow", "The driven head is narrower than allowed.";
    HeadTooWide, "head-too-wide", "The driven head is wider than allowed.";
    HeadTooLow, "head-too-low", "The driven head is lower than allowed.";
    HeadTooHigh, "head-too-high", "The driven head is higher than allowed.";
    HeadDefect, "head-defect", "A visible defect that is not accepted.";
    SampleRejects, "sample-rejects", "Rivets of a sample are rejected, so the rest has to be looked at.";
    DrivenWhereReferred, "driven-where-referred", "A rivet was driven where the plan has none.";
    SqueezeOutsideTests, "squeeze-outside-tests", "The head or the rivet lies outside the tests behind the squeeze force.";
    // holes
    HoleOverLimit, "hole-over-limit", "The hole is larger than the rivet allows.";
    HoleUnderLimit, "hole-under-limit", "The hole is smaller than the rivet needs.";
    HoleDamaged, "hole-damaged", "The hole is damaged in a way that must be removed.";
    HoleCracked, "hole-cracked", "The hole is cracked.";
    NoLargerRivet, "no-larger-rivet", "The series has no larger rivet to step up to.";
    StepNeedsApproval, "step-needs-approval", "Stepping up here needs the approval of the maker or the authority.";
    TooManySteps, "too-many-steps", "More holes of one pattern are stepped up than the limit allows.";
    NeighboursStepped, "neighbours-stepped", "More neighbours are stepped up than the limit allows.";
    PatternFull, "pattern-full", "The hole needs a larger rivet, but its pattern takes no more of them.";
    CountersinkTooDeep, "countersink-too-deep", "The head needs more sheet than there is.";
    DimpleTooThick, "dimple-too-thick", "The sheet is thicker than dimpling suits.";
    FlushHeadWithoutSeat, "flush-head-without-seat", "The head is flush, but no layer is countersunk or dimpled for it.";
    SeatWithoutFlushHead, "seat-without-flush-head", "A layer is countersunk or dimpled, but the head is not flush.";
    SeatInWrongLayer, "seat-in-wrong-layer", "A layer is countersunk or dimpled under one that has a plain hole.";
    // damage beside the holes
    DamageOverLimit, "damage-over-limit", "The damage is beyond the shop's limit.";
    DamageNotLimited, "damage-not-limited", "The shop's documents at hand give no limit for this damage.";
    DamageNotMeasured, "damage-not-measured", "The shop limits this damage, but what it limits was not measured.";
    DamageWithinLimit, "damage-within-limit", "The damage is within the shop's limit: repair it as the document says.";
    StopDrill, "stop-drill", "Each end of a crack is stop drilled.";
    // layout
    EdgeDistanceShort, "edge-distance-short", "The edge distance is less than allowed.";
    EdgeDistanceLong, "edge-distance-long", "The edge distance is more than usual.";
    EdgeBelowPreferred, "edge-below-preferred", "The edge distance leaves no room for a later step up.";
    EdgeAsBuilt, "edge-as-built", "The edge distance is less than the usual minimum, as the maker built it.";
    PitchAsBuilt, "pitch-as-built", "The rivets stand closer than the usual minimum, as the maker built them.";
    PitchShort, "pitch-short", "The pitch is less than allowed.";
    PitchLong, "pitch-long", "The pitch is more than usual.";
    TransversePitchShort, "transverse-pitch-short", "The rows stand closer than allowed.";
    HoleBeyondCut, "hole-beyond-cut", "The hole lies beyond the ends of the cut, or on its other side.";
    // strength
    EdgeMarginBelowTable, "edge-margin-below-table", "Bearing strength is not published under an edge margin of 1.5.";
    SheetTooThinForTable, "sheet-too-thin-for-table", "The sheet is thinner than the published strength covers.";
    ShimInPack, "shim-in-pack", "A shim lies between the sheets, which no published strength covers.";
    UnequalSheets, "unequal-sheets", "The outer sheets in double shear are not alike, so they do not share alike.";
    StrengthNotPublished, "strength-not-published", "No published strength covers this case.";
    HoleAboveNominal, "hole-above-nominal", "The hole is larger than the strength tables count; their value is used.";
    MarginNegative, "margin-negative", "The joint does not carry the load.";
    AsStrongAsBefore, "as-strong-as-before", "The same rivet in the same sheets: as strong as before.";
    WeakerThanBefore, "weaker-than-before", "The new rivet is weaker than the one it replaces.";
    SubstituteTooSmall, "substitute-too-small", "The substitute alloy needs a larger diameter.";
    SubstituteNotNamed, "substitute-not-named", "No document at hand lets this alloy take the place of the other in this size.";
    ElasticSharesOnly, "elastic-shares-only", "The shares are elastic; no published ultimate method for them is at hand.";
    BucklesBetweenRivets, "buckles-between-rivets", "The sheet buckles between its rivets under this stress.";
    BucklingNotElastic, "buckling-not-elastic", "The elastic buckling formula does not reach this stress; the curve of the tangent modulus is needed.";
    // access
    MustBeSolid, "must-be-solid", "Only driven solid rivets may go here.";
    CannotBuck, "cannot-buck", "There is not enough room behind this row to buck it.";
    NoPositionServes, "no-position-serves", "No position lets every row be driven that must be.";
    BlindNeedsApproval, "blind-needs-approval", "A blind rivet here needs the type's manual.";
}

impl core::fmt::Display for Code {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.word())
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

/// A figure as its kind and its bits.
const fn packed(figure: Figure) -> (Kind, u64) {
    match figure {
        Figure::Length(length) => (Kind::Length, length.nanometres().cast_unsigned()),
        Figure::Force(force) => (Kind::Force, force.lbf().to_bits()),
        Figure::Stress(stress) => (Kind::Stress, stress.psi().to_bits()),
        Figure::Ratio(ratio) => (Kind::Ratio, ratio.to_bits()),
        Figure::Count(count) => (Kind::Count, count as u64),
        Figure::Facts(facts) => (Kind::Facts, facts.bits() as u64),
    }
}

const fn unpacked(kind: u8, bits: u64) -> Option<Figure> {
    const LENGTH: u8 = Kind::Length as u8;
    const FORCE: u8 = Kind::Force as u8;
    const STRESS: u8 = Kind::Stress as u8;
    const RATIO: u8 = Kind::Ratio as u8;
    const COUNT: u8 = Kind::Count as u8;
    const FACTS: u8 = Kind::Facts as u8;
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
        _ => None,
    }
}

/// One finding.
///
/// ```
/// use shophead::basis::Basis;
/// use shophead::finding::{Code, Figure, Finding, Severity};
/// use shophead::length::Length;
/// let (edge, least) = (Length::parse(".20")?, Length::parse(".25")?);
/// let finding = Finding::new(Code::EdgeDistanceShort, Severity::Refer, Basis::AC43_EDGE)
///     .with_measured(Figure::Length(edge))
///     .with_limit(Figure::Length(least));
/// assert_eq!(finding.code().word(), "edge-distance-short");
/// assert_eq!((finding.measured(), finding.limit()), (Some(Figure::Length(edge)), Some(Figure::Length(least))));
/// assert_eq!((finding.layer(), finding.basis()), (None, Basis::AC43_EDGE));
/// # Ok::<(), shophead::length::ParseLengthError>(())
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
    /// A finding without figures.
    #[must_use]
    pub const fn new(code: Code, severity: Severity, basis: Basis) -> Finding {
        Finding { measured: 0, limit: 0, basis, code, severity, kinds: Kinds::NONE, layer: None }
    }

    /// The note that a limit which decided something could only be recalled; `None` for one that was read.
    #[must_use]
    pub fn from_memory(limit: &Given<Length>) -> Option<Finding> {
        let note = Finding::new(Code::LimitFromMemory, Severity::Note, limit.basis);
        (limit.basis.status() == Status::Memory).then_some(note.with_limit(Figure::Length(limit.value)))
    }

    /// A length that was held against a limit.
    #[inline(never)]
    pub(crate) const fn against(code: Code, severity: Severity, measured: Length, limit: &Given<Length>) -> Finding {
        Finding::new(code, severity, limit.basis)
            .with_measured(Figure::Length(measured))
            .with_limit(Figure::Length(limit.value))
    }

    /// The same with what was measured.
    #[must_use]
    pub const fn with_measured(self, figure: Figure) -> Finding {
        let (kind, measured) = packed(figure);
        Finding { measured, kinds: self.kinds.with_measured(kind), ..self }
    }

    /// The same with its limit.
    #[must_use]
    pub const fn with_limit(self, figure: Figure) -> Finding {
        let (kind, limit) = packed(figure);
        Finding { limit, kinds: self.kinds.with_limit(kind), ..self }
    }

    /// The same for one layer, counted from 1 on the side of the manufactured head.
    #[must_use]
    pub const fn in_layer(self, layer: u8) -> Finding {
        Finding { layer: NonZeroU8::new(layer), ..self }
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

    /// What it was held against, where a figure tells it.
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
/// A calculation says each of its codes once, or once for each layer that a flush head is sunk into; nothing here says more than fifteen
/// without the layers, and a head is sunk into few.
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

    /// Whether any says that the work must not go ahead as it stands.
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
    fn every_code_has_a_word_of_its_own() {
        for (index, code) in Code::ALL.iter().enumerate() {
            assert!(!code.word().is_empty());
            assert!(code.word().bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{code}");
            assert!(Code::ALL.iter().skip(index + 1).all(|other| other.word() != code.word()), "{code} twice");
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
