//! What a check found.
//!
//! A finding is data: a code, how serious it is, what was measured and what the limit is, and where the limit comes from. Scripts and
//! tests compare codes; people read [`Finding::sentence`], which comes from the same table.

mod codes;
#[cfg(feature = "words")]
mod sentence;

use crate::basis::{Basis, Status};
use crate::length::Length;
use crate::practice::Given;
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
        }
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
    fn every_code_has_a_word_and_a_number_of_its_own() {
        for (index, code) in Code::ALL.iter().enumerate() {
            assert!(!code.as_str().is_empty() && code.number() > 0);
            assert!(code.as_str().bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{code}");
            for other in Code::ALL.iter().skip(index + 1) {
                assert!(other.as_str() != code.as_str() && other.number() != code.number(), "{code} twice");
            }
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
