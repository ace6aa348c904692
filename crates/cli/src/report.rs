//! What a command answers, before anybody knows how it is printed.
//!
//! A command fills a [`Report`]; [`crate::render`] prints it. Everything that is computed or put into words is done by then.

use std::borrow::Cow;
use std::collections::HashMap;
use std::io::{self, Write};
use std::path::PathBuf;

use shophead::basis::Citation;
use shophead::finding::{Finding, Findings, Severity};
use shophead::length::Length;
use shophead::practice::Practice;
use shophead::quantity::Force;
use shophead::words::Units;
use shophead::working::Working;
use shophead_job::model::Answer;
use shophead_job::plan::{Plan, Subject};
use shophead_job::working::{Worked, kept};

use crate::cells::ten_thousandths;
use crate::context::{Context, Settled};
use crate::exit::Exit;
use crate::form;
use crate::render::xlsx::Book;

/// One answer. What it says of findings is borrowed from the limits and the job that they were found with.
pub(crate) struct Report<'a> {
    /// The command that made it.
    pub(crate) command: &'static str,
    /// The practice whose limits held.
    pub(crate) practice: String,
    /// What the shop's own limits on top of it are called; empty without any.
    pub(crate) own_limits: String,
    /// What neither the command line nor the job says.
    pub(crate) settled: Vec<Settled>,
    /// The answer for scripts; may be nothing where none reads it. A long one is made while it is printed.
    pub(crate) result: Option<Box<dyn Form + 'a>>,
    /// What was found, each with what it is about.
    pub(crate) findings: Vec<Told<'a>>,
    /// Where those about a subject stand, so that each is kept once.
    told: HashMap<String, Vec<usize>>,
    /// The answer for people, and why it is that.
    pub(crate) text: Vec<Block>,
    /// Whether the findings are listed below the text; not where the text tells them in their place.
    pub(crate) findings_in_text: bool,
    /// What it rests on, for people who want to check it: printed behind the findings.
    pub(crate) annex: Vec<Block>,
    /// The steps behind the answer, where they are wanted.
    pub(crate) working: Option<Shown<'a>>,
    /// The answer as rows.
    pub(crate) rows: Rows,
    /// The same where they are many: made while they are printed, in their place.
    pub(crate) made_rows: Option<MadeRows<'a>>,
    /// Whether something stops the work that is not among the findings here: those of many rows are in the rows alone.
    pub(crate) refers: bool,
    /// The answer as a drawing, where one is wanted and can be made.
    pub(crate) drawing: Option<String>,
    /// The answer as a workbook.
    pub(crate) book: Option<Book>,
    /// The answer as a file of its own; nothing is printed then.
    pub(crate) document: Option<Document>,
    /// Files that are written beside the answer.
    pub(crate) beside: Vec<Document>,
    /// What is no mistake and has no place among the rows: said on the error stream with them.
    pub(crate) notes: Vec<String>,
    /// What could not be read while the rest could: told on the error stream, status 2.
    pub(crate) refused: Vec<String>,
}

/// An answer for scripts.
pub(crate) trait Form: erased_serde::Serialize {
    /// Writes it as a part of a line. A batch does so for every row, and spends less on a form that it knows than on one that it does not.
    fn put(&self, to: &mut Few<'_>);
}

impl<T: serde::Serialize> Form for T {
    fn put(&self, to: &mut Few<'_>) {
        // Values of strings and numbers always print, and memory takes them.
        let _ = serde_json::to_writer(to, self);
    }
}

/// Takes a few bytes at a time, which is how an object is written: a call for each of them took a third of a row.
pub(crate) struct Few<'v>(pub(crate) &'v mut Vec<u8>);

impl Write for Few<'_> {
    #[inline]
    fn write_all(&mut self, bytes: &[u8]) -> io::Result<()> {
        match bytes {
            [byte] => self.0.push(*byte),
            [one, other] => self.0.extend_from_slice(&[*one, *other]),
            _ => self.0.extend_from_slice(bytes),
        }
        Ok(())
    }

    #[inline]
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.write_all(bytes).map(|()| bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Writes rows of CSV, their header with them.
pub(crate) type MadeRows<'a> = Box<dyn Fn(&mut dyn Write) -> io::Result<()> + 'a>;

/// The steps behind an answer.
pub(crate) struct Shown<'a> {
    pub(crate) steps: Vec<Worked>,
    /// What was typed, by option.
    pub(crate) inputs: Vec<(String, String)>,
    /// What its documents are looked up in.
    pub(crate) practice: &'a Practice<'a>,
    pub(crate) units: Units,
}

/// A file that is the answer.
#[derive(Debug)]
pub(crate) struct Document {
    /// Where it goes; `-` is the standard output.
    pub(crate) path: PathBuf,
    /// What is in it.
    pub(crate) text: String,
}

/// A finding in words and figures.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Told<'a> {
    pub(crate) code: &'static str,
    pub(crate) severity: Severity,
    /// What it is about: a part number, a row, a hole.
    pub(crate) subject: String,
    /// One sentence.
    pub(crate) message: String,
    finding: Finding,
    cited: Citation<'a>,
    /// What somebody answered, where it was referred and the answer counts.
    pub(crate) answer: Option<&'a Answer>,
}

impl<'a> Told<'a> {
    pub(crate) fn of(subject: &str, finding: &Finding, context: &Context<'a>) -> Told<'a> {
        Told {
            code: finding.code().as_str(),
            severity: finding.severity(),
            subject: subject.to_owned(),
            message: finding.sentence(context.units).to_string(),
            finding: *finding,
            cited: context.practice.cite(finding.basis()),
            answer: None,
        }
    }

    /// Whether somebody still has to answer.
    pub(crate) fn is_open(&self) -> bool {
        self.severity == Severity::Refer && self.answer.is_none()
    }

    /// Source of its limit, for people.
    pub(crate) fn basis(&self) -> String {
        self.cited.to_string()
    }

    /// The whole of it for scripts.
    pub(crate) fn form(&self) -> form::Finding<'_> {
        self.form_of(Cow::Borrowed(&self.subject), Cow::Borrowed(&self.message))
    }

    /// The same, to keep.
    pub(crate) fn into_form(mut self) -> form::Finding<'a> {
        let (subject, message) = (std::mem::take(&mut self.subject), std::mem::take(&mut self.message));
        self.form_of(Cow::Owned(subject), Cow::Owned(message))
    }

    fn form_of<'f>(&self, subject: Cow<'f, str>, message: Cow<'f, str>) -> form::Finding<'f>
    where
        'a: 'f,
    {
        form::Finding {
            code: self.finding.code().into(),
            severity: self.severity.into(),
            subject,
            message,
            layer: self.finding.layer().map(form::Nth::from),
            measured: self.finding.measured().map(form::Figure::from),
            limit: form::Figure::limit_of(&self.finding),
            basis: self.cited.into(),
            answer: self.answer.map(form::Answer::from),
        }
    }
}

/// A piece of text. How wide it is and where it breaks is left to the renderer.
#[derive(Clone, Debug)]
pub(crate) enum Block {
    /// The answer itself, first and in bold.
    Answer(String),
    /// The name of what follows.
    Heading(String),
    /// Running text.
    Paragraph(String),
    /// Names and values.
    Pairs(Vec<(String, String)>),
    /// A line with more lines that belong to it.
    Entry(String, Vec<String>),
    /// Columns; stacked where they do not fit side by side.
    Table(Table),
}

/// A table; every row has as many cells as there are columns.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    pub(crate) columns: Vec<&'static str>,
    pub(crate) rows: Vec<Vec<String>>,
}

/// Rows for CSV.
#[derive(Clone, Debug, Default)]
pub(crate) struct Rows {
    pub(crate) columns: Vec<String>,
    pub(crate) rows: Vec<Vec<String>>,
}

impl Rows {
    pub(crate) fn push(&mut self, record: Record) {
        if self.columns.is_empty() {
            self.columns = record.columns;
        }
        self.rows.push(record.cells);
    }
}

/// A length for scripts: every decimal that it has, without its unit.
pub(crate) fn exact(length: Length, units: Units) -> String {
    match units {
        Units::Inches => length.to_string(),
        Units::Millimetres => length.in_millimetres().to_string(),
    }
}

/// One row for CSV, cell by cell. A column of lengths or forces has its unit in its name, a cell that is not known is empty.
#[derive(Clone, Debug)]
pub(crate) struct Record {
    units: Units,
    columns: Vec<String>,
    cells: Vec<String>,
}

impl Record {
    pub(crate) fn new(units: Units) -> Record {
        Record { units, columns: Vec::new(), cells: Vec::new() }
    }

    pub(crate) fn text(&mut self, column: &str, cell: impl ToString) -> &mut Record {
        self.columns.push(column.to_owned());
        self.cells.push(cell.to_string());
        self
    }

    pub(crate) fn optional(&mut self, column: &str, cell: Option<impl ToString>) -> &mut Record {
        self.text(column, cell.map_or_else(String::new, |cell| cell.to_string()))
    }

    pub(crate) fn length(&mut self, column: &str, cell: impl Into<Option<Length>>) -> &mut Record {
        let column = format!("{column}_{}", self.units.length_unit());
        let cell = cell.into().map(|length| exact(length, self.units));
        self.optional(&column, cell)
    }

    pub(crate) fn force(&mut self, column: &str, cell: impl Into<Option<Force>>) -> &mut Record {
        let column = format!("{column}_{}", self.units.force_unit().to_lowercase());
        let cell = cell.into().map(|force| match self.units {
            Units::Inches => format!("{:.3}", force.lbf()),
            Units::Millimetres => format!("{:.3}", force.newtons()),
        });
        self.optional(&column, cell)
    }

    /// To four places, and never more than it is.
    pub(crate) fn ratio(&mut self, column: &str, cell: Option<f64>) -> &mut Record {
        self.optional(column, cell.map(|ratio| format!("{:.4}", ten_thousandths(ratio) / 10_000.0)))
    }

    #[cfg(test)]
    pub(crate) fn cells(&self) -> &[String] {
        &self.cells
    }

    /// The names of its columns.
    pub(crate) fn into_columns(self) -> Vec<String> {
        self.columns
    }

    /// A column carried through from an input file; one whose name is taken already gets a mark behind it.
    pub(crate) fn other(&mut self, column: &str, cell: &str) -> &mut Record {
        let mut name = column.to_owned();
        while self.columns.contains(&name) {
            name.push_str("_given");
        }
        self.text(&name, cell)
    }

    /// The codes of the findings and the most serious of them.
    pub(crate) fn findings<'t, 'a: 't>(
        &mut self,
        findings: impl IntoIterator<Item = &'t Told<'a>> + Clone,
    ) -> &mut Record {
        let worst = findings.clone().into_iter().map(|told| told.severity).max();
        let mut codes: Vec<&str> = Vec::new();
        for told in findings {
            if !codes.contains(&told.code) {
                codes.push(told.code);
            }
        }
        self.text("severity", worst.map_or("", Severity::as_str)).text("findings", codes.join(" "))
    }
}

impl<'a> Report<'a> {
    /// An empty report.
    pub(crate) fn new(command: &'static str, context: &Context<'_>) -> Report<'a> {
        Report {
            command,
            practice: context.practice.name().to_owned(),
            own_limits: context.own_title.to_owned(),
            settled: context.settled.to_vec(),
            result: None,
            findings: Vec::new(),
            told: HashMap::new(),
            text: Vec::new(),
            findings_in_text: true,
            annex: Vec::new(),
            working: None,
            rows: Rows::default(),
            made_rows: None,
            refers: false,
            drawing: None,
            book: None,
            document: None,
            beside: Vec::new(),
            notes: Vec::new(),
            refused: Vec::new(),
        }
    }

    /// Adds findings about one subject, each once.
    pub(crate) fn find<'f>(
        &mut self,
        context: &Context<'a>,
        subject: &str,
        findings: impl IntoIterator<Item = &'f Finding>,
    ) {
        let known = self.told.entry(subject.to_owned()).or_default();
        for finding in findings {
            let told = Told::of(subject, finding, context);
            if !known.iter().any(|index| self.findings.get(*index) == Some(&told)) {
                known.push(self.findings.len());
                self.findings.push(told);
            }
        }
    }

    /// Adds a finding of a plan, with what somebody answered to it.
    pub(crate) fn find_in(&mut self, plan: &Plan<'a>, context: &Context<'a>, subject: Subject<'a>, finding: &Finding) {
        let name = subject.to_string();
        let told = Told { answer: plan.answer_to(subject, finding), ..Told::of(&name, finding, context) };
        let known = self.told.entry(name).or_default();
        if !known.iter().any(|index| self.findings.get(*index) == Some(&told)) {
            known.push(self.findings.len());
            self.findings.push(told);
        }
    }

    /// Adds the findings of one calculation; says so where it could not keep all of them.
    pub(crate) fn find_all<const N: usize>(&mut self, context: &Context<'a>, subject: &str, findings: &Findings<N>) {
        self.find(context, subject, findings);
        if !findings.is_complete() {
            self.text.push(Block::Paragraph("There were more findings than are listed.".to_owned()));
        }
    }

    /// Whether only one thing was judged, or none: a finding then need not say what it is about.
    pub(crate) fn has_one_subject(&self) -> bool {
        self.told.len() <= 1
    }

    /// Keeps the steps behind the answer, where they are wanted.
    pub(crate) fn work(&mut self, context: &Context<'a>, make: impl FnOnce(&mut Working<'_>)) {
        if context.working {
            let steps = kept(make);
            let (practice, units) = (context.practice, context.units);
            self.working = Some(Shown { steps, inputs: Vec::new(), practice, units });
        }
    }

    /// The answer for scripts.
    pub(crate) fn give(&mut self, form: impl Form + 'a) {
        self.result = Some(Box::new(form));
    }

    pub(crate) fn answer(&mut self, answer: impl Into<String>) {
        self.text.push(Block::Answer(answer.into()));
    }

    pub(crate) fn heading(&mut self, heading: &str) {
        self.text.push(Block::Heading(heading.to_owned()));
    }

    pub(crate) fn paragraph(&mut self, paragraph: impl Into<String>) {
        self.text.push(Block::Paragraph(paragraph.into()));
    }

    /// The exit status that this answer means.
    pub(crate) fn exit(&self) -> Exit {
        if !self.refused.is_empty() {
            Exit::Wrong
        } else if self.refers || self.findings.iter().any(Told::is_open) {
            Exit::Refer
        } else {
            Exit::Done
        }
    }
}
