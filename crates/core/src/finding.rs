//! What a check found.
//!
//! A finding is data: a code, how serious it is, what was measured against what limit, and where the limit comes from. The
//! words for people are made elsewhere, from the code; tests compare codes.

use crate::basis::{Basis, Status};
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
    NoLengthFits, "no-length-fits", "No length of the series gives a sound head in every case.";
    DiffersFromRule, "differs-from-rule", "The length differs from grip plus one and a half diameters.";
    HalfLength, "half-length", "Only a half length fits; they are not always in stock.";
    LengthNotTabulated, "length-not-tabulated", "The length lies outside those tabulated for the series.";
    DiameterOutsideRule, "diameter-outside-rule", "The diameter lies outside the rule for the sheet.";
    NotStructural, "not-structural", "This alloy or size is not for structure.";
    HeatTreatFirst, "heat-treat-first", "This alloy is heat treated or kept cold before driving.";
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
    PitchShort, "pitch-short", "The pitch is less than allowed.";
    PitchLong, "pitch-long", "The pitch is more than usual.";
    TransversePitchShort, "transverse-pitch-short", "The rows stand closer than allowed.";
    HoleBeyondCut, "hole-beyond-cut", "The hole lies beyond the ends of the cut, or on its other side.";
    // strength
    EdgeMarginBelowTable, "edge-margin-below-table", "Bearing strength is not published under an edge margin of 1.5.";
    SheetTooThinForTable, "sheet-too-thin-for-table", "The sheet is thinner than the published strength covers.";
    StrengthNotPublished, "strength-not-published", "No published strength covers this case.";
    HoleAboveNominal, "hole-above-nominal", "The hole is larger than the strength tables count; their value is used.";
    MarginNegative, "margin-negative", "The joint does not carry the load.";
    WeakerThanBefore, "weaker-than-before", "The new rivet is weaker than the one it replaces.";
    SubstituteTooSmall, "substitute-too-small", "The substitute alloy needs a larger diameter.";
    SubstituteNotNamed, "substitute-not-named", "No document at hand lets this alloy take the place of the other in this size.";
    ElasticSharesOnly, "elastic-shares-only", "The shares are elastic; no published ultimate method for them is at hand.";
    BucklesBetweenRivets, "buckles-between-rivets", "The sheet buckles between its rivets under this stress.";
    BucklingNotElastic, "buckling-not-elastic", "The elastic buckling formula does not reach this stress; the curve of the tangent modulus is needed.";
    // repairs
    NoPublishedMethod, "no-published-method", "No method of the documents at hand applies in this place: nothing is sized.";
    NoSpliceTable, "no-splice-table", "The splice tables have no count for this sheet and rivet.";
    RepairTooThin, "repair-too-thin", "The repair sheet is thinner than what it stands for.";
    RepairTooStrong, "repair-too-strong", "The repair sheet is heavier than the next gauge: stiffer than what it stands for.";
    SpliceAreaShort, "splice-area-short", "The splice plate has no more area than the leg it splices.";
    SpliceTooShort, "splice-too-short", "The splice plate is too short.";
    MajorRepair, "major-repair", "The repair is on the list of major repairs.";
    MemberTooNear, "member-too-near", "A member or seam lies too near for a repair of the skin alone.";
    SeamsDiffer, "seams-differ", "The factory seams differ: the stronger one is copied.";
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

/// One finding.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Finding<'a> {
    /// What kind.
    pub code: Code,
    /// How serious.
    pub severity: Severity,
    /// What was measured or computed, where a figure tells it.
    pub measured: Option<Figure>,
    /// What it was held against, where a figure tells it.
    pub limit: Option<Figure>,
    /// The layer it concerns, counted from 1 on the side of the manufactured head.
    pub layer: Option<u8>,
    /// Where the limit comes from.
    pub basis: &'a Basis<'a>,
}

impl<'a> Finding<'a> {
    /// A finding without figures.
    #[must_use]
    pub const fn new(code: Code, severity: Severity, basis: &'a Basis<'a>) -> Finding<'a> {
        Finding { code, severity, measured: None, limit: None, layer: None, basis }
    }

    /// The note that a limit which decided something could only be recalled; `None` for one that was read.
    #[must_use]
    pub fn from_memory(limit: &Given<'a, Length>) -> Option<Finding<'a>> {
        let note = Finding::new(Code::LimitFromMemory, Severity::Note, limit.basis);
        (limit.basis.status == Status::Memory).then_some(note.limit(Figure::Length(limit.value)))
    }

    /// A length that was held against a limit.
    #[inline(never)]
    pub(crate) const fn against(
        code: Code,
        severity: Severity,
        measured: Length,
        limit: &Given<'a, Length>,
    ) -> Finding<'a> {
        Finding {
            code,
            severity,
            measured: Some(Figure::Length(measured)),
            limit: Some(Figure::Length(limit.value)),
            layer: None,
            basis: limit.basis,
        }
    }

    /// The same with what was measured.
    #[must_use]
    pub const fn measured(self, figure: Figure) -> Finding<'a> {
        Finding { measured: Some(figure), ..self }
    }

    /// The same with its limit.
    #[must_use]
    pub const fn limit(self, figure: Figure) -> Finding<'a> {
        Finding { limit: Some(figure), ..self }
    }

    /// The same for one layer, counted from 1.
    #[must_use]
    pub const fn layer(self, layer: u8) -> Finding<'a> {
        Finding { layer: Some(layer), ..self }
    }
}

/// Where a calculation that runs inside another puts its findings: into the other's list, without one of its own on the stack.
pub(crate) type Sink<'s, 'a> = dyn FnMut(Finding<'a>) + 's;

/// The most findings one calculation keeps.
pub const MAX_FINDINGS: usize = 12;

/// The findings of one calculation, each kept once.
///
/// A calculation has fewer kinds of findings than there are places. Should they run out all the same,
/// [`Findings::is_complete`] turns false and a more serious finding takes the place of a less serious one, so that what must stop
/// the work is never the one that is lost.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Findings<'a> {
    kept: heapless::Vec<Finding<'a>, MAX_FINDINGS>,
    lost: bool,
}

impl<'a> Findings<'a> {
    /// None yet.
    #[must_use]
    pub const fn new() -> Findings<'a> {
        Findings { kept: heapless::Vec::new(), lost: false }
    }

    pub(crate) fn clear(&mut self) {
        self.kept.clear();
        self.lost = false;
    }

    /// Gives every layer another number; two numbers must not become one.
    pub(crate) fn renumber(&mut self, number: impl Fn(u8) -> u8) {
        for finding in &mut self.kept {
            finding.layer = finding.layer.map(&number);
        }
    }

    /// Adds a finding unless the same one is there.
    pub fn push(&mut self, finding: Finding<'a>) {
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
    pub fn push_some(&mut self, finding: Option<Finding<'a>>) {
        if let Some(finding) = finding {
            self.push(finding);
        }
    }

    /// Adds all of another calculation's findings.
    pub fn extend(&mut self, others: &Findings<'a>) {
        self.lost |= others.lost;
        for finding in &others.kept {
            self.push(*finding);
        }
    }

    /// The findings in the order in which they were made.
    pub fn iter(&self) -> core::slice::Iter<'_, Finding<'a>> {
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

impl<'a, 'f> IntoIterator for &'f Findings<'a> {
    type Item = &'f Finding<'a>;
    type IntoIter = core::slice::Iter<'f, Finding<'a>>;
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

    const NOWHERE: Basis<'static> = Basis::practice("");

    #[test]
    fn a_refer_is_never_lost() {
        let mut findings = Findings::new();
        for count in 0..MAX_FINDINGS as u32 {
            findings.push(Finding::new(Code::PitchLong, Severity::Note, &NOWHERE).measured(Figure::Count(count)));
        }
        assert!(findings.is_complete());
        findings.push(Finding::new(Code::HoleCracked, Severity::Refer, &NOWHERE));
        assert!(!findings.is_complete());
        assert!(findings.must_refer());
    }
}
