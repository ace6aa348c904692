//! The cells of one answer and what was found with it, wherever they go: into a report, or into a row of a batch.
//!
//! A command that [`crate::batch`] can ask fills both through these traits, so that a row of a batch cannot say anything else than the
//! command itself.

use std::fmt::Display;

use shophead::finding::{Code, Finding, Findings, Severity};
use shophead::length::Length;
use shophead::quantity::Force;

use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Record, Report};

/// The answer to what can be asked for every row of a batch. A command reports it whole, a batch takes what was found and its cells.
pub(crate) trait Answer<'a>: Sized {
    type Args;
    /// The command.
    const COMMAND: &'static str;

    /// Reads what was asked, and asks it.
    fn of(args: &Self::Args, context: &Context<'a>) -> Result<Self, Stop>;
    /// What was found.
    fn find(&self, context: &Context<'a>, finds: &mut impl Finds);
    /// The answer as the cells of a row.
    fn cells(&self, cells: &mut impl Cells);
    /// The answer in every other form that is wanted.
    fn tell(&self, args: &Self::Args, context: &Context<'a>, report: &mut Report<'a>);
    /// The answer as the rows of a file, where that is more than one of the cells.
    fn rows(&self, context: &Context<'a>, report: &mut Report<'a>) {
        let mut record = Record::new(context.units);
        self.cells(&mut record);
        record.findings(&report.findings);
        report.rows.push(record);
    }
}

/// The whole answer.
pub(crate) fn report<'a, A: Answer<'a>>(args: &A::Args, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let answer = A::of(args, context)?;
    let mut report = Report::new(A::COMMAND, context);
    answer.find(context, &mut Reported { report: &mut report, context });
    answer.tell(args, context, &mut report);
    answer.rows(context, &mut report);
    Ok(report)
}

/// The answer as the cells of a row, and what was found.
pub(crate) fn row<'a, A: Answer<'a>>(
    args: &A::Args,
    context: &Context<'a>,
    cells: &mut impl Cells,
    finds: &mut impl Finds,
) -> Result<(), Stop> {
    let answer = A::of(args, context)?;
    answer.find(context, finds);
    answer.cells(cells);
    Ok(())
}

/// What the cells of a row are called.
pub(crate) fn columns<'a, A: Answer<'a>>(args: &A::Args, context: &Context<'a>) -> Result<Vec<String>, Stop> {
    let mut record = Record::new(context.units);
    A::of(args, context)?.cells(&mut record);
    record.findings([]);
    Ok(record.into_columns())
}

/// Takes the cells of one row, in the order of the columns. A cell that is not known is empty.
pub(crate) trait Cells {
    fn optional(&mut self, column: &'static str, cell: Option<impl Display>) -> &mut Self;
    fn length(&mut self, column: &'static str, cell: impl Into<Option<Length>>) -> &mut Self;
    fn force(&mut self, column: &'static str, cell: impl Into<Option<Force>>) -> &mut Self;

    fn text(&mut self, column: &'static str, cell: impl Display) -> &mut Self {
        self.optional(column, Some(cell))
    }
}

impl Cells for Record {
    fn optional(&mut self, column: &'static str, cell: Option<impl Display>) -> &mut Record {
        Record::optional(self, column, cell)
    }

    fn length(&mut self, column: &'static str, cell: impl Into<Option<Length>>) -> &mut Record {
        Record::length(self, column, cell)
    }

    fn force(&mut self, column: &'static str, cell: impl Into<Option<Force>>) -> &mut Record {
        Record::force(self, column, cell)
    }
}

/// Takes what was found.
pub(crate) trait Finds {
    /// Everything that one calculation found about a subject.
    fn all<const N: usize>(&mut self, subject: &dyn Display, findings: &Findings<N>);
    /// One thing.
    fn one(&mut self, subject: &dyn Display, finding: &Finding);
}

/// Findings that go into a report.
struct Reported<'r, 'a> {
    report: &'r mut Report<'a>,
    context: &'r Context<'a>,
}

impl Finds for Reported<'_, '_> {
    fn all<const N: usize>(&mut self, subject: &dyn Display, findings: &Findings<N>) {
        self.report.find_all(self.context, &subject.to_string(), findings);
    }

    fn one(&mut self, subject: &dyn Display, finding: &Finding) {
        self.report.find(self.context, &subject.to_string(), [finding]);
    }
}

/// The codes of the findings, each once, and the most serious of them: what a row of CSV says.
#[derive(Clone, Debug, Default)]
pub(crate) struct Codes {
    pub(crate) worst: Option<Severity>,
    pub(crate) codes: Vec<Code>,
}

impl Codes {
    pub(crate) fn clear(&mut self) {
        self.worst = None;
        self.codes.clear();
    }
}

impl Finds for Codes {
    fn all<const N: usize>(&mut self, subject: &dyn Display, findings: &Findings<N>) {
        for finding in findings {
            self.one(subject, finding);
        }
    }

    fn one(&mut self, _: &dyn Display, finding: &Finding) {
        self.worst = self.worst.max(Some(finding.severity()));
        if !self.codes.contains(&finding.code()) {
            self.codes.push(finding.code());
        }
    }
}
