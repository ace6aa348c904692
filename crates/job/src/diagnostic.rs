//! A mistake in a file: what, where, and what would be right.
//!
//! ```
//! use shophead_job::diagnostic::Diagnostic;
//! let mistake = Diagnostic::new("\"fush\" is no head", "job.toml", "name = \"K1\"\nhead = \"fush\"\n", 19..25)
//!     .help("right would be \"flush\"");
//! assert_eq!(mistake.one_line(), "job.toml:2:8: \"fush\" is no head; right would be \"flush\"");
//! let shown = mistake.render(false);
//! assert!(shown.contains("2 | head = \"fush\"\n  |        ^^^^^^"));
//! ```

use std::borrow::Cow;
use std::fmt;
use std::ops::Range;
use std::sync::Arc;

use annotate_snippets::{AnnotationKind, Level, Origin, Renderer, Snippet};

/// A mistake in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Diagnostic {
    /// What is wrong.
    pub message: String,
    /// What would be right.
    pub help: Option<String>,
    /// The file, as the user named it.
    pub file: Arc<str>,
    /// The whole text of the file.
    pub text: Arc<str>,
    /// Where in the text, in bytes.
    pub span: Range<usize>,
}

/// A place in a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub struct TextPlace {
    /// The line, counted from 1.
    pub line: usize,
    /// The character in it, counted from 1.
    pub column: usize,
}

/// The columns that a rendered mistake may take before its line is cut.
const WIDTH: usize = 120;

/// Bytes of a line that is not shown with its mistake: nobody wrote it by hand.
const TOO_LONG: usize = 8 * 1024;

impl Diagnostic {
    /// What is wrong in which file, with its whole text, and where in it.
    #[must_use]
    pub fn new(
        message: impl Into<String>,
        file: impl Into<Arc<str>>,
        text: impl Into<Arc<str>>,
        span: Range<usize>,
    ) -> Diagnostic {
        Diagnostic { message: message.into(), help: None, file: file.into(), text: text.into(), span }
    }

    /// With what would be right.
    #[must_use]
    pub fn help(self, help: impl Into<String>) -> Diagnostic {
        Diagnostic { help: Some(help.into()), ..self }
    }

    /// The line and column where it begins.
    #[must_use]
    pub fn place(&self) -> TextPlace {
        let line = Line::around(&self.text, self.span.start);
        TextPlace { line: line.number, column: line.text.get(..line.marked(&self.span).start).map_or(0, chars) + 1 }
    }

    /// On one line, for scripts and logs: `file:line:column: what; what would be right`.
    #[must_use]
    pub fn one_line(&self) -> String {
        let TextPlace { line, column } = self.place();
        let help = self.help.as_deref().map(|help| format!("; {help}")).unwrap_or_default();
        format!("{}:{line}:{column}: {}{}", escaped(&self.file), escaped(&self.message), escaped(&help))
    }

    /// For people: with the line itself and a mark under it. Ends with a line end.
    #[must_use]
    pub fn render(&self, colour: bool) -> String {
        let line = Line::around(&self.text, self.span.start);
        let title = Level::ERROR.primary_title(escaped(&self.message));
        let mut report = if self.text.is_empty() || line.text.len() > TOO_LONG {
            let TextPlace { line, column } = self.place();
            title.element(Origin::path(escaped(&self.file)).line(line).char_column(column))
        } else {
            let (shown, mark) = line.seen(&self.span);
            let mark = AnnotationKind::Primary.span(mark);
            title.element(Snippet::source(shown).line_start(line.number).path(escaped(&self.file)).annotation(mark))
        };
        if let Some(help) = &self.help {
            report = report.element(Level::HELP.message(escaped(help)));
        }
        let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
        let mut shown = renderer.term_width(WIDTH).render(&[report]);
        shown.push('\n');
        shown
    }
}

impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.one_line())
    }
}

impl std::error::Error for Diagnostic {}

/// One line of a text, without its line end.
struct Line<'a> {
    number: usize,
    start: usize,
    text: &'a str,
}

impl Line<'_> {
    /// The line in which a byte stands; a place past the end stands in the last line.
    fn around(text: &str, at: usize) -> Line<'_> {
        let at = boundary_before(text, at.min(text.len()));
        let (before, after) = text.split_at(at);
        let start = before.rfind('\n').map_or(0, |end| end + 1);
        let end = after.find('\n').map_or(text.len(), |end| at + end);
        let line = text.get(start..end).unwrap_or_default();
        let number = before.matches('\n').count() + 1;
        Line { number, start, text: line.strip_suffix('\r').unwrap_or(line) }
    }

    /// The part of a span that lies in this line, on whole characters.
    fn marked(&self, span: &Range<usize>) -> Range<usize> {
        let within = |at: usize| at.saturating_sub(self.start).min(self.text.len());
        let start = boundary_before(self.text, within(span.start));
        start..boundary_after(self.text, within(span.end).max(start))
    }

    /// The line with a mark in place of each unseen character, and where the span then lies. Tabs are left to the renderer.
    fn seen(&self, span: &Range<usize>) -> (String, Range<usize>) {
        let marked = self.marked(span);
        let (before, rest) = self.text.split_at(marked.start);
        let (inside, after) = rest.split_at(marked.end - marked.start);
        let (mut shown, inside) = (seen(before), seen(inside));
        let start = shown.len();
        shown.push_str(&inside);
        let end = shown.len();
        shown.push_str(&seen(after));
        (shown, start..end)
    }
}

fn boundary_before(text: &str, at: usize) -> usize {
    (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

fn boundary_after(text: &str, at: usize) -> usize {
    (at..=text.len()).find(|at| text.is_char_boundary(*at)).unwrap_or(text.len())
}

fn seen(text: &str) -> String {
    text.chars().map(|c| if is_unseen(c) && c != '\t' { char::REPLACEMENT_CHARACTER } else { c }).collect()
}

fn chars(text: &str) -> usize {
    text.chars().count()
}

/// Whether a character could steer a terminal or turn the reading direction round, instead of being seen.
#[must_use]
pub fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// A text with every unseen character written out, as in `\u{1b}`.
///
/// ```
/// use shophead_job::diagnostic::escaped;
/// assert_eq!(escaped("row K1"), "row K1");
/// assert_eq!(escaped("K\u{1b}[2J1"), r"K\u{1b}[2J1");
/// ```
#[must_use]
pub fn escaped(text: &str) -> Cow<'_, str> {
    if !text.contains(is_unseen) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        if is_unseen(c) {
            shown.extend(c.escape_unicode());
        } else {
            shown.push(c);
        }
    }
    Cow::Owned(shown)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str, span: Range<usize>) -> Diagnostic {
        Diagnostic { message: "wrong".into(), help: None, file: "f".into(), text: text.into(), span }
    }

    #[test]
    fn a_place_counts_characters_and_lines() {
        for (text, span, line, column) in [
            ("", 0..0, 1, 1),
            ("a", 0..1, 1, 1),
            ("a", 1..1, 1, 2),
            ("a", 9..12, 1, 2),
            ("a\n", 2..2, 2, 1),
            ("a\r\nb\r\n", 3..4, 2, 1),
            ("a\r\nb\r\n", 4..5, 2, 2),
            ("µµx", 4..5, 1, 3),
            ("µµx", 3..4, 1, 2),
        ] {
            let place = at(text, span.clone()).place();
            assert_eq!((place.line, place.column), (line, column), "{text:?} {span:?}");
        }
    }

    #[test]
    fn both_forms_name_the_same_place() {
        let long = format!("a\nµ{}b", "x".repeat(TOO_LONG));
        for (text, span) in [
            ("a = 1\r\nbb = µ2\r\n", 12..15),
            ("a\n\nb", 2..2),
            ("a\tb", 2..3),
            ("", 0..0),
            ("x", 1..1),
            (&long, long.len() - 1..long.len()),
        ] {
            let mistake = at(text, span);
            let TextPlace { line, column } = mistake.place();
            let shown = mistake.render(false);
            assert!(shown.contains(&format!("--> f:{line}:{column}")), "{shown}");
            assert!(shown.len() < 1_000, "a line that nobody can read is not shown");
        }
    }

    #[test]
    fn nothing_from_a_file_steers_the_terminal() {
        let hostile = "x = \"\u{1b}[2J\u{202e}\u{7}\u{9b}\"";
        let mistake = Diagnostic {
            message: hostile.into(),
            help: Some(hostile.into()),
            file: hostile.into(),
            text: hostile.into(),
            span: 4..9,
        };
        let unseen = |text: &str| text.chars().any(|c| is_unseen(c) && c != '\n');
        assert!(!unseen(&mistake.one_line()), "{:?}", mistake.one_line());
        assert!(!unseen(&mistake.render(false)), "{:?}", mistake.render(false));
        assert!(mistake.render(true).contains("\u{1b}["), "colour is asked for");
    }

    #[test]
    fn a_mark_over_several_lines_stays_in_the_first() {
        let shown = at("aa = [\n1,\n2]\n", 5..12).render(false);
        assert!(shown.contains("1 | aa = [\n  |      ^\n"), "{shown}");
    }
}
