//! One rivet of a row in its stack: the one place where the rest of [`super`] asks what it carries, how long it is and what is wrong with it.

use crate::basis::Basis;
use crate::finding::{Code, Finding, Findings, Severity};
use crate::installation::Installation;
use crate::joint::layers::{Layers, WeakestPlace};
use crate::joint::row::{RowError, RowStrength};
use crate::joint::strength::Shear;
use crate::length::Length;
use crate::practice::{Case, HANDBOOK, Practice};
use crate::quantity::Force;
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::stack::Stack;

/// Rows as they are laid out.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct LaidRows<'s, 'a> {
    /// The rivet; its length does not count.
    pub rivet: Part<'static>,
    /// What it goes through.
    pub stack: &'s Stack,
    /// From the row to the nearest edge in the direction of the load.
    pub edge: Length,
    /// From rivet to rivet.
    pub pitch: Length,
    /// How many rows, all alike.
    pub rows: u8,
    /// From row to row.
    pub apart: Length,
    /// Whether each rivet stands against the gap of the next row.
    pub staggered: bool,
    /// Single or double shear.
    pub shear: Shear,
    /// The limits.
    pub practice: &'a Practice<'a>,
}

impl<'s, 'a> LaidRows<'s, 'a> {
    /// One row in single shear, by the limits of the handbooks.
    #[must_use]
    pub const fn new(rivet: Part<'static>, stack: &'s Stack, edge: Length, pitch: Length) -> Self {
        LaidRows {
            rivet,
            stack,
            edge,
            pitch,
            rows: 1,
            apart: pitch,
            staggered: false,
            shear: Shear::Single,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// How many rows, all alike.
        rows: u8;
        /// From row to row; as far as from rivet to rivet where nothing is said.
        apart: Length;
        /// Whether each rivet stands against the gap of the next row.
        staggered: bool;
        /// Single or double shear.
        shear: Shear;
        /// The limits.
        practice: &'a Practice<'a>;
    }
}

impl<'s, 'a> LaidRows<'s, 'a> {
    /// The question about one rivet of them.
    pub(crate) fn question(&self) -> Installation<'s, 'a> {
        let question = Installation::new(self.rivet, self.stack).edge(self.edge).pitch(self.pitch);
        let question = question.rows(u16::from(self.rows)).shear(self.shear).by(self.practice);
        if self.rows < 2 {
            return question;
        }
        let question = question.row_spacing(self.apart);
        if self.staggered { question.staggered() } else { question }
    }

    /// The case that limits are asked for.
    pub(super) fn case(&self) -> Case {
        self.question().case()
    }
}

/// What is known of it.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct InRow {
    /// What the rows carry.
    pub strength: RowStrength,
    /// The rivet with its length; without where none fits.
    pub rivet: Part<'static>,
    /// What was found without asking for a strength: about the rivet, its hole and head, its length, where it stands.
    pub fitted: Findings,
    /// Everything that was found: about the rivet, its hole and head, its length, where it stands, what it carries.
    pub findings: Findings,
}

impl InRow {
    /// The place of a rivet through a stack with the least strength for its load; `None` where a strength is not published.
    #[must_use]
    pub fn weakest_place(&self, layers: &Layers) -> Option<WeakestPlace> {
        let joint = &self.strength.joint;
        let mut bearing = heapless::Vec::<Force, { crate::joint::strength::MAX_SHEETS }>::new();
        for sheet in &joint.sheets {
            bearing.push(sheet.bearing()?.ultimate.force).ok()?;
        }
        layers.weakest_place(joint.shear?.force, &bearing)
    }
}

/// What the rows carry.
pub(super) fn carried(rows: &LaidRows<'_, '_>) -> Result<RowStrength, RowError> {
    rows.question().row()
}

/// Asks everything about the rivets of some rows.
///
/// # Errors
/// [`RowError`] for what is no row.
pub fn in_row(rows: &LaidRows<'_, '_>) -> Result<InRow, RowError> {
    let strength = carried(rows)?;
    let mut fitted = Findings::new();
    let rivet = with_length(rows, &mut fitted);
    let mut findings = fitted.clone();
    findings.extend(&strength.joint.findings);
    Ok(InRow { strength, rivet, fitted, findings })
}

/// The rivet with the length that its stack needs.
fn with_length(rows: &LaidRows<'_, '_>, findings: &mut Findings) -> Part<'static> {
    let rivet = rows.rivet;
    let Ok(answer) = rows.question().length() else {
        findings.extend(&rows.question().findings());
        findings.push(Finding::new(Code::NoLengthFits, Severity::Refer, Basis::LENGTH_NOT_KNOWN));
        return rivet;
    };
    findings.extend(&answer.findings);
    // Where there is none, the answer has said so.
    answer.length.and_then(|length| rivet.with_length(length).ok()).unwrap_or(rivet)
}
