//! The lines of an answer, or of where it comes from: the same figures, told two ways.

use core::fmt::{self, Display, Write};

use shophead::basis::Basis;
use shophead::finding::{Finding, Findings, Severity};
use shophead::practice::Practice;

use crate::units::Units;

/// What is told of each figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Telling {
    /// Nothing: only what stops the work, or asks for care.
    Warnings,
    /// Its value, and what else was found.
    Answer,
    /// Its document and place.
    Why,
}

/// Where an answer is written.
pub(crate) struct Report<'w> {
    out: &'w mut dyn Write,
    telling: Telling,
    pub(crate) units: Units,
    practice: &'w Practice<'w>,
}

impl<'w> Report<'w> {
    pub(crate) fn new(
        out: &'w mut dyn Write,
        telling: Telling,
        units: Units,
        practice: &'w Practice<'w>,
    ) -> Report<'w> {
        Report { out, telling, units, practice }
    }

    /// A line that has no basis of its own.
    pub(crate) fn line(&mut self, line: fmt::Arguments<'_>) -> fmt::Result {
        match self.telling {
            Telling::Answer => {
                self.out.write_fmt(line)?;
                self.out.write_char('\n')
            }
            Telling::Warnings | Telling::Why => Ok(()),
        }
    }

    /// A figure and its basis.
    pub(crate) fn figure(&mut self, label: &str, value: &dyn Display, basis: Basis) -> fmt::Result {
        match self.telling {
            Telling::Answer => writeln!(self.out, "{label} {value}"),
            Telling::Why => writeln!(self.out, "{label}: {}", self.practice.cite(basis)),
            Telling::Warnings => Ok(()),
        }
    }

    /// Every finding, what stops the work first.
    pub(crate) fn findings<const N: usize>(&mut self, findings: &Findings<N>) -> fmt::Result {
        for severity in [Severity::Refer, Severity::Caution, Severity::Note] {
            for finding in findings.iter().filter(|finding| finding.severity() == severity) {
                self.finding(finding)?;
            }
        }
        Ok(())
    }

    pub(crate) fn finding(&mut self, finding: &Finding) -> fmt::Result {
        let (word, is_warning) = match finding.severity() {
            Severity::Refer => ("STOP: ", true),
            Severity::Caution => ("care: ", true),
            Severity::Note => ("note: ", false),
        };
        match self.telling {
            Telling::Why => self.what(finding),
            Telling::Warnings if is_warning => self.told(word, finding),
            Telling::Answer if !is_warning => self.told(word, finding),
            Telling::Warnings | Telling::Answer => Ok(()),
        }
    }

    /// Why something else would not do. It stops nothing, so it is told behind the answer and under another word.
    pub(crate) fn reason(&mut self, not: &'static str, finding: &Finding) -> fmt::Result {
        match self.telling {
            Telling::Warnings => Ok(()),
            Telling::Why => self.what(finding),
            Telling::Answer => {
                write!(self.out, "not {}: ", Spaced(not))?;
                self.told("", finding)
            }
        }
    }

    /// Its name and the place of its limit.
    fn what(&mut self, finding: &Finding) -> fmt::Result {
        writeln!(self.out, "{}: {}", Spaced(finding.code().as_str()), self.practice.cite(finding.basis()))
    }

    fn told(&mut self, word: &str, finding: &Finding) -> fmt::Result {
        writeln!(self.out, "{word}{}", finding.short(self.units.written()))
    }
}

/// A stable word with spaces for dashes, so that it wraps.
pub(crate) struct Spaced(pub(crate) &'static str);

impl Display for Spaced {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, word) in self.0.split('-').enumerate() {
            if index > 0 {
                f.write_char(' ')?;
            }
            f.write_str(word)?;
        }
        Ok(())
    }
}
