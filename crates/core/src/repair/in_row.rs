//! One rivet of a row in its pack: the one place where the rest of [`super`] asks what it carries, how long it is and what is wrong with it.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::hole::check_seat;
use crate::joint::row::{RowAsMade, RowError, RowStrength, row_strength};
use crate::joint::strength::Shear;
use crate::layout::{RowLayout, check_row};
use crate::length::{Length, Toleranced};
use crate::practice::{Case, Practice};
use crate::rivet::part::Part;
use crate::select::{LengthQuery, check_alloy, check_diameter};
use crate::stack::{Preparation, Stack};

/// Rows as they are laid out.
#[derive(Clone, Copy, Debug)]
pub struct Rows<'s, 'a> {
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

impl Rows<'_, '_> {
    /// The case that limits are asked for.
    pub(super) fn case(&self) -> Case {
        Case::of(self.rivet.series().head, self.rivet.alloy(), self.rivet.size()).in_rows(self.rows)
    }
}

/// What is known of it.
#[derive(Clone, Debug, PartialEq)]
pub struct InRow {
    /// What the rows carry.
    pub strength: RowStrength,
    /// The rivet with its length; without where none fits.
    pub rivet: Part<'static>,
    /// Everything that was found: about the rivet, its hole and head, its length, where it stands, what it carries.
    pub findings: Findings,
}

/// What the rows carry, and nothing else that may be wrong with them.
pub(super) fn carried(rows: &Rows<'_, '_>) -> Result<RowStrength, RowError> {
    row_strength(&RowAsMade {
        rivet: &rows.rivet,
        stack: rows.stack,
        edge: rows.edge,
        hole: None,
        pitch: rows.pitch,
        rows: u16::from(rows.rows),
        staggered: (rows.staggered && rows.rows > 1).then_some(rows.apart),
        shear: rows.shear,
    })
}

/// Asks everything about the rivets of some rows.
///
/// # Errors
/// [`RowError`] for what is no row.
pub fn in_row<'a>(rows: &Rows<'_, 'a>) -> Result<InRow, RowError> {
    let Rows { rivet, stack, edge, pitch, apart, practice, .. } = *rows;
    let case = rows.case();
    let strength = carried(rows)?;
    let mut findings = Findings::new();
    let transverse_pitch = (rows.rows > 1).then_some(apart);
    let layout = RowLayout { edge: Some(edge), pitch: Some(pitch), transverse_pitch };
    findings.extend(&check_row(layout, &case, practice));
    if let Some(thickest) = stack.thickest() {
        findings.extend(&check_diameter(&case, thickest, practice));
    }
    findings.extend(&check_alloy(&rivet));
    let has_seat = stack.layers().iter().any(|layer| layer.preparation != Preparation::Plain);
    if has_seat {
        match rivet.size().head_height_nominal() {
            Some(height) => findings.extend(&check_seat(stack, height, &case, practice)),
            None => findings.push(Finding::new(Code::NoLimit, Severity::Refer, rivet.series().unknown.head)),
        }
    }
    let rivet = with_length(rivet, stack, &case, practice, &mut findings);
    findings.extend(&strength.findings);
    Ok(InRow { strength, rivet, findings })
}

/// The rivet with the length that its pack needs.
fn with_length<'a>(
    rivet: Part<'static>,
    stack: &Stack,
    case: &Case,
    practice: &'a Practice<'a>,
    findings: &mut Findings,
) -> Part<'static> {
    let query = LengthQuery {
        series: rivet.series(),
        alloy: rivet.alloy(),
        size: rivet.size(),
        grip: stack.grip(),
        hole: Toleranced::from_least(practice.assumed_hole(case).value),
        practice,
    };
    let Ok(choice) = query.choose() else {
        findings.push(Finding::new(Code::NoLengthFits, Severity::Refer, Basis::LENGTH_NOT_KNOWN));
        return rivet;
    };
    findings.extend(&choice.findings);
    let made = choice.length.map(|length| (length, rivet.with_length(length)));
    match made {
        Some((_, Ok(rivet))) => rivet,
        Some((length, Err(_))) => {
            let found = Finding::new(Code::NoLengthFits, Severity::Refer, rivet.series().basis);
            findings.push(found.with_measured(Figure::Length(length)));
            rivet
        }
        // The choice has said so.
        None => rivet,
    }
}
