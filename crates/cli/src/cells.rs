//! The cells of one answer and what was found with it, wherever they go: into a report, or into a row of a batch.
//!
//! A command that [`crate::batch`] can ask fills both through these traits, so that a row of a batch cannot say anything else than the
//! command itself.

use std::fmt::Display;

use shophead::finding::{Code, Finding, Findings, Severity};
use shophead::length::Length;
use shophead::practice::{Case, Practice};
use shophead::quantity::Force;
use shophead::rivet::part::Part;

use crate::args::Format;
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Record, Report};

/// The answer to what can be asked for every row of a batch. A command reports it whole, a batch takes what was found and its cells.
pub(crate) trait Answer<'a>: Sized {
    type Args;
    /// The command.
    const COMMAND: &'static str;

    /// Reads what was asked, asks it, and does this with the answer: which is kilobytes, and stays where it was made.
    fn ask<R>(args: &Self::Args, context: &Context<'a>, then: impl FnOnce(&Self) -> R) -> Result<R, Stop>;
    /// What was found.
    fn find(&self, context: &Context<'a>, finds: &mut impl Finds);
    /// The answer as the cells of a row.
    fn cells(&self, cells: &mut impl Cells);
    /// The case that it was about: whose limits were looked up.
    fn case(&self) -> &Case;
    /// Every case of which limits are looked up for such an answer.
    fn cases(&self, practice: &Practice<'_>, each: &mut dyn FnMut(Case)) {
        let _ = practice;
        each(*self.case());
    }
    /// Adds the cases whose limits were not looked up ahead.
    fn look_up(&self, context: &Context<'a>, new: &mut Vec<Case>) {
        if !context.practice.knows(self.case()) {
            self.cases(context.practice, &mut |case| new.push(case));
        }
    }

    /// The answer in the form that is wanted, where that is not CSV.
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
    report_of::<A>(args, context, &mut Vec::new())
}

/// The same, and in `new` the cases whose limits were not looked up ahead.
pub(crate) fn report_of<'a, A: Answer<'a>>(
    args: &A::Args,
    context: &Context<'a>,
    new: &mut Vec<Case>,
) -> Result<Report<'a>, Stop> {
    A::ask(args, context, |answer| {
        let mut report = Report::new(A::COMMAND, context);
        answer.find(context, &mut Reported { report: &mut report, context });
        if context.format == Format::Csv {
            answer.rows(context, &mut report);
        } else {
            answer.tell(args, context, &mut report);
        }
        answer.look_up(context, new);
        report
    })
}

/// The answer as the cells of a row, and what was found. Cases whose limits were not looked up ahead go to `new`.
pub(crate) fn row<'a, A: Answer<'a>>(
    args: &A::Args,
    context: &Context<'a>,
    cells: &mut impl Cells,
    finds: &mut impl Finds,
    new: &mut Vec<Case>,
) -> Result<(), Stop> {
    A::ask(args, context, |answer| {
        answer.find(context, finds);
        answer.cells(cells);
        answer.look_up(context, new);
    })
}

/// What the cells of a row are called.
pub(crate) fn columns<'a, A: Answer<'a>>(args: &A::Args, context: &Context<'a>) -> Result<Vec<String>, Stop> {
    A::ask(args, context, |answer| {
        let mut record = Record::new(context.units);
        answer.cells(&mut record);
        record.findings([]);
        record.into_columns()
    })
}

/// Takes the cells of one row, in the order of the columns. A cell that is not known is empty.
pub(crate) trait Cells {
    fn optional(&mut self, column: &'static str, cell: Option<impl Display>) -> &mut Self;
    fn length(&mut self, column: &'static str, cell: impl Into<Option<Length>>) -> &mut Self;
    fn force(&mut self, column: &'static str, cell: impl Into<Option<Force>>) -> &mut Self;

    /// Part numbers, with a blank between.
    fn parts<'p>(&mut self, column: &'static str, parts: impl IntoIterator<Item = Part<'p>>) -> &mut Self;

    /// The part numbers of a family in these lengths; one that it does not come in is left out.
    fn parts_in(
        &mut self,
        column: &'static str,
        family: Part<'_>,
        lengths: impl IntoIterator<Item = Length>,
    ) -> &mut Self {
        self.parts(column, lengths.into_iter().filter_map(|length| family.with_length(length).ok()))
    }

    /// A ratio, to four places. A margin of safety that is just below zero stays below it.
    fn ratio(&mut self, column: &'static str, cell: Option<f64>) -> &mut Self;

    /// Words of ours, with a blank between: they need no quotes and are no formula.
    fn words(&mut self, column: &'static str, words: impl IntoIterator<Item = &'static str>) -> &mut Self {
        self.text(column, words.into_iter().collect::<Vec<_>>().join(" "))
    }

    /// What somebody wrote into a job.
    fn written(&mut self, column: &'static str, cell: &str) -> &mut Self {
        self.text(column, cell)
    }

    fn text(&mut self, column: &'static str, cell: impl Display) -> &mut Self {
        self.optional(column, Some(cell))
    }
}

/// Ten-thousandths of a ratio, never more than it is.
pub(crate) fn ten_thousandths(ratio: f64) -> f64 {
    // A zero without a sign.
    libm::floor(ratio * 10_000.0) + 0.0
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

    fn parts<'p>(&mut self, column: &'static str, parts: impl IntoIterator<Item = Part<'p>>) -> &mut Record {
        let parts: Vec<String> = parts.into_iter().map(|part| part.to_string()).collect();
        Record::text(self, column, parts.join(" "))
    }

    fn ratio(&mut self, column: &'static str, cell: Option<f64>) -> &mut Record {
        Record::ratio(self, column, cell)
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
