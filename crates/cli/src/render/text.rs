//! Text for people: the answer, why, what to beware of, and once that it only advises.
//!
//! Every line is broken before it is coloured, so colours never count towards the width.

use anstyle::{AnsiColor, Style};
use comfy_table::presets::NOTHING;
use comfy_table::{ColumnConstraint, ContentArrangement};
use shophead::finding::Severity;
use shophead_job::words::{ADVISORY, left_out};
use shophead_job::working::{of_basis, stands};
use textwrap::{Options, WordSplitter};

use crate::report::{Block, Report, Shown, Table, Told};

const BOLD: Style = Style::new().bold();
const REFER: Style = AnsiColor::Red.on_default().bold();
const CAUTION: Style = AnsiColor::Yellow.on_default().bold();
const NOTE: Style = Style::new().bold();
const FAINT: Style = Style::new().dimmed();

/// Between columns.
const GAP: usize = 2;
/// A cell of running text is not squeezed below this.
const READABLE: usize = 24;
const INDENT: &str = "  ";

pub(crate) fn render(report: &Report, width: usize) -> String {
    let mut page = Page { text: String::new(), width };
    for block in &report.text {
        page.block(block);
    }
    if report.findings_in_text {
        page.findings(&report.findings, report.has_one_subject());
    }
    for block in &report.annex {
        page.block(block);
    }
    if let Some(working) = &report.working {
        page.working(working);
    }
    page.blank();
    let own = if report.own_limits.is_empty() { String::new() } else { format!(" with {}", report.own_limits) };
    let settled: Vec<String> = report.settled.iter().map(ToString::to_string).collect();
    let settled = if settled.is_empty() { String::new() } else { format!(" Set: {}.", settled.join("; ")) };
    if let Some(left_out) = left_out(report.command) {
        page.wrapped(left_out, "", "", FAINT);
    }
    page.wrapped(&format!("Practice: {}{own}.{settled} {ADVISORY}", report.practice), "", "", FAINT);
    page.text
}

struct Page {
    text: String,
    width: usize,
}

impl Page {
    fn block(&mut self, block: &Block) {
        match block {
            Block::Answer(answer) => {
                self.blank();
                self.wrapped(answer, "", INDENT, BOLD);
            }
            Block::Heading(heading) => {
                self.blank();
                self.wrapped(heading, "", "", BOLD);
            }
            Block::Paragraph(paragraph) => self.wrapped(paragraph, "", "", Style::new()),
            Block::Pairs(pairs) => self.pairs(pairs),
            Block::Entry(head, lines) => {
                self.wrapped(head, "", INDENT, Style::new());
                for line in lines {
                    self.wrapped(line, INDENT, "    ", Style::new());
                }
            }
            Block::Table(table) => self.table(table),
        }
    }

    /// The steps: the name, the formula, the same with its figures and what comes out, then where each figure stands.
    fn working(&mut self, working: &Shown) {
        let (practice, units) = (working.practice, working.units);
        self.block(&Block::Heading("Working".to_owned()));
        for step in &working.steps {
            let source = step.rule.basis.map(|basis| format!(" [{}]", of_basis(basis, None, practice)));
            let mut lines = vec![
                format!("{}{}", step.formula(), source.unwrap_or_default()),
                format!("= {} = {}", step.put_in(units), step.result(units)),
            ];
            lines.extend(step.figures.iter().map(|figure| {
                let (number, meaning) = (figure.with_unit(units), figure.meaning());
                format!("{} {number}: {meaning} [{}]", figure.symbol.text, stands(figure.origin, practice))
            }));
            self.block(&Block::Entry(format!("{}. {}", step.number, step.name()), lines));
        }
    }

    /// An empty line, unless the page begins or there is one.
    fn blank(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    fn wrapped(&mut self, text: &str, first: &str, next: &str, style: Style) {
        for line in wrap(text, self.width, first, next) {
            self.line(&line, style);
        }
    }

    fn line(&mut self, line: &str, style: Style) {
        let line = line.trim_end();
        if style == Style::new() || line.is_empty() {
            self.text.push_str(line);
        } else {
            self.text.push_str(&format!("{style}{line}{style:#}"));
        }
        self.text.push('\n');
    }

    fn pairs(&mut self, pairs: &[(String, String)]) {
        let names = pairs.iter().map(|(name, _)| width_of(name)).max().unwrap_or(0);
        let aligned = names + GAP + READABLE <= self.width;
        for (name, value) in pairs {
            let first = if aligned { format!("{name:names$}  ") } else { format!("{name}: ") };
            let next = if aligned { " ".repeat(names + GAP) } else { INDENT.to_owned() };
            self.wrapped(&format!("{first}{value}"), "", &next, Style::new());
        }
    }

    /// Side by side where the columns fit: the last one may break, the others stay whole.
    fn table(&mut self, table: &Table) {
        let mut grid = comfy_table::Table::new();
        grid.load_style(NOTHING).set_header(&table.columns).add_rows(&table.rows);
        grid.set_content_arrangement(ContentArrangement::Dynamic)
            .set_width(u16::try_from(self.width).unwrap_or(u16::MAX));
        let last = table.columns.len().saturating_sub(1);
        let widths = grid.column_max_content_widths();
        let whole: usize = widths.iter().take(last).map(|width| usize::from(*width) + GAP).sum();
        let wanted = widths.last().map_or(0, |width| usize::from(*width));
        if whole + wanted.min(READABLE) > self.width {
            return self.stacked(table);
        }
        for (index, column) in grid.column_iter_mut().enumerate() {
            if index == last {
                column.set_padding((0, 0));
            } else {
                column.set_padding((0, GAP as u16)).set_constraint(ColumnConstraint::ContentWidth);
            }
        }
        for (index, line) in grid.lines().enumerate() {
            self.line(&line, if index == 0 { FAINT } else { Style::new() });
        }
    }

    /// A row below the other: the first cell, then name and value of the rest.
    fn stacked(&mut self, table: &Table) {
        for row in &table.rows {
            let mut cells = row.iter().zip(&table.columns);
            if let Some((cell, _)) = cells.next() {
                self.wrapped(cell, "", INDENT, BOLD);
            }
            for (cell, column) in cells.filter(|(cell, _)| !cell.is_empty()) {
                self.wrapped(&format!("{column}: {cell}"), INDENT, "    ", Style::new());
            }
        }
    }

    /// `one_subject`: what was judged is one thing, which the answer names.
    fn findings(&mut self, findings: &[Told], one_subject: bool) {
        if findings.is_empty() {
            return;
        }
        self.blank();
        for severity in [Severity::Refer, Severity::Caution, Severity::Note] {
            for told in findings.iter().filter(|told| told.severity == severity) {
                let subject = if one_subject { String::new() } else { format!("{}: ", told.subject) };
                let (word, style) = match severity {
                    Severity::Refer => ("REFER", REFER),
                    Severity::Caution => ("CAUTION", CAUTION),
                    Severity::Note => ("NOTE", NOTE),
                };
                self.marked(word, style, &format!("{subject}{}", told.message));
                self.wrapped(&told.basis(), &" ".repeat(MARK), &" ".repeat(MARK), FAINT);
            }
        }
    }

    /// Text behind a coloured word.
    fn marked(&mut self, word: &str, style: Style, text: &str) {
        let (first, next) = (format!("{word:MARK$}"), " ".repeat(MARK));
        for (index, line) in wrap(text, self.width, &first, &next).iter().enumerate() {
            match line.strip_prefix(word).filter(|_| index == 0) {
                Some(rest) => self.text.push_str(&format!("{style}{word}{style:#}{rest}\n")),
                None => self.line(line, Style::new()),
            }
        }
    }
}

/// Room for the longest word of severity.
const MARK: usize = 9;

/// Breaks a text at its blanks, but not inside a part number, nor between a figure and its unit.
fn wrap(text: &str, width: usize, first: &str, next: &str) -> Vec<String> {
    let options = Options::new(width.max(1)).initial_indent(first).subsequent_indent(next);
    let options = options.word_splitter(WordSplitter::NoHyphenation);
    textwrap::wrap(&glued(text), options).iter().map(|line| line.replace(GLUE, " ")).collect()
}

/// A blank that does not break.
const GLUE: char = '\u{a0}';
const UNITS: &[&str] = &["in", "mm", "lbf", "N", "ksi", "MPa", "D", "%"];

fn glued(text: &str) -> String {
    let mut glued = String::with_capacity(text.len());
    for (index, word) in text.split(' ').enumerate() {
        if index > 0 {
            let is_unit = UNITS.contains(&word.trim_end_matches(|c: char| c.is_ascii_punctuation() && c != '%'));
            let glues = is_unit && glued.ends_with(|c: char| c.is_ascii_digit());
            glued.push(if glues { GLUE } else { ' ' });
        }
        glued.push_str(word);
    }
    glued
}

fn width_of(text: &str) -> usize {
    textwrap::core::display_width(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(width: usize, block: &Block) -> String {
        let mut page = Page { text: String::new(), width };
        page.block(block);
        page.text
    }

    fn table() -> Block {
        Block::Table(Table {
            columns: vec!["sheet", "bearing", "from"],
            rows: vec![
                vec!["1".into(), "410 lbf".into(), "a table with a name that is long enough to break".into()],
                vec!["2".into(), "1640 lbf".into(), "the same".into()],
            ],
        })
    }

    #[test]
    fn a_table_breaks_its_last_column_only() {
        let want = "\
sheet  bearing   from
1      410 lbf   a table with a name that is
                 long enough to break
2      1640 lbf  the same
";
        assert_eq!(anstream::adapter::strip_str(&page(46, &table())).to_string(), want);
    }

    #[test]
    fn a_table_that_does_not_fit_is_stacked() {
        let want = "\
1
  bearing: 410 lbf
  from: a table with a name that is
    long enough to break
2
  bearing: 1640 lbf
  from: the same
";
        assert_eq!(anstream::adapter::strip_str(&page(36, &table())).to_string(), want);
    }

    #[test]
    fn figures_keep_their_units_and_numbers_their_dashes() {
        let text = Block::Paragraph("A hole of 0.141 in, see MS20470AD4-5 and para 4-57b, p 4-16.".into());
        assert_eq!(page(15, &text), "A hole of\n0.141 in, see\nMS20470AD4-5\nand para 4-57b,\np 4-16.\n");
    }

    #[test]
    fn pairs_stand_in_columns_where_there_is_room() {
        let pairs = Block::Pairs(vec![("grip".into(), "0.157 in".into()), ("rule of thumb".into(), "3/8 in".into())]);
        assert_eq!(page(80, &pairs), "grip           0.157 in\nrule of thumb  3/8 in\n");
        assert_eq!(page(30, &pairs), "grip: 0.157 in\nrule of thumb: 3/8 in\n");
    }
}
