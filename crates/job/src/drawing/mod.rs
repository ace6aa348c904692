//! Drawings as SVG: a small canvas, and the pictures drawn on it.
//!
//! All drawings share one style: black on white, so that a copy of a copy still reads; what is asked for is drawn heavy, what it stands on
//! thin, what is only for comparison dashed; every symbol is told by a word or a figure beside it, never by colour alone. Figures are
//! in the reader's own sans-serif font, no font comes from elsewhere. A title and a description say what is drawn to those who do not see it.
//!
//! ```
//! use shophead_job::drawing::{Canvas, Stroke};
//! let mut canvas = Canvas::new(120.0, 40.0, "Two & two", "One line");
//! canvas.line((10.0, 20.0), (110.0, 20.0), Stroke::Heavy);
//! let svg = canvas.finish();
//! assert!(svg.starts_with("<svg ") && svg.contains("<title>Two &amp; two</title>"));
//! ```

mod group;
mod map;
mod repair;
mod rows;
mod template;

pub use group::{GroupDrawing, group};
pub use map::{MapSheet, Mark, map, sheets};
pub use repair::{MarkedDistance, Outline, RepairDrawing, repair};
pub use rows::{RowBar, RowsDrawing, rows};
pub use template::{MOST_SHEETS, NoTemplate, Paper, template};

use std::fmt::Write;

/// A place on the canvas: to the right, then down.
pub type At = (f64, f64);

/// How heavy a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Stroke {
    /// What is asked for.
    Heavy,
    /// The same for what is not the worst.
    Middle,
    /// What it stands on.
    Thin,
    /// What is only for comparison.
    Dashed,
    /// The middle of something: long and short dashes.
    Centre,
}

impl Stroke {
    const fn attributes(self) -> &'static str {
        match self {
            Stroke::Heavy => r##"stroke="#000" stroke-width="2.4""##,
            Stroke::Middle => r##"stroke="#000" stroke-width="1.4""##,
            Stroke::Thin => r##"stroke="#000" stroke-width="0.8""##,
            Stroke::Dashed => r##"stroke="#000" stroke-width="0.9" stroke-dasharray="4 3""##,
            Stroke::Centre => r##"stroke="#000" stroke-width="0.6" stroke-dasharray="12 3 2 3""##,
        }
    }
}

/// Where a text stands beside its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

/// Which letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Letters {
    /// The name of the drawing.
    Heading,
    /// What matters.
    Strong,
    /// Everything else.
    Plain,
    /// In a mark, on white.
    Mark,
    /// In a mark, on black.
    White,
}

/// A drawing in the making.
#[derive(Clone, Debug)]
pub struct Canvas {
    svg: String,
}

/// Height of plain letters.
pub(crate) const TEXT: f64 = 12.0;

impl Canvas {
    /// An empty white canvas.
    #[must_use]
    pub fn new(width: f64, height: f64, title: &str, description: &str) -> Canvas {
        let (width, height) = (figure(width), figure(height));
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" \
             role=\"img\" font-family=\"Helvetica, Arial, sans-serif\">\n<title>{}</title>\n<desc>{}</desc>\n\
             <rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n",
            escaped(title),
            escaped(description),
        );
        Canvas { svg }
    }

    fn add(&mut self, element: std::fmt::Arguments<'_>) {
        // Writing to a string does not fail.
        let _ = self.svg.write_fmt(element);
        self.svg.push('\n');
    }

    /// A straight line.
    pub fn line(&mut self, from: At, to: At, line: Stroke) {
        let [x1, y1, x2, y2] = [from.0, from.1, to.0, to.1].map(figure);
        self.add(format_args!(r#"<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}" {}/>"#, line.attributes()));
    }

    /// A line with a filled head at its end; nothing where it is shorter than can be seen.
    pub fn arrow(&mut self, from: At, to: At, line: Stroke) {
        const HEAD: f64 = 9.0;
        const HALF_WIDTH: f64 = 3.6;
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = libm::hypot(dx, dy);
        if length < 0.5 {
            return;
        }
        let (ux, uy) = (dx / length, dy / length);
        let head = HEAD.min(length);
        let base = (to.0 - ux * head, to.1 - uy * head);
        self.line(from, base, line);
        let half = HALF_WIDTH * head / HEAD;
        let corners = [to, (base.0 - uy * half, base.1 + ux * half), (base.0 + uy * half, base.1 - ux * half)];
        let corners = corners.map(|(x, y)| format!("{},{}", figure(x), figure(y)));
        self.add(format_args!(r##"<polygon points="{}" fill="#000"/>"##, corners.join(" ")));
    }

    /// A circle: white inside, or filled.
    pub fn circle(&mut self, at: At, radius: f64, line: Stroke, filled: bool) {
        let fill = if filled { "#000" } else { "#fff" };
        let [x, y, r] = [at.0, at.1, radius].map(figure);
        self.add(format_args!(r#"<circle cx="{x}" cy="{y}" r="{r}" fill="{fill}" {}/>"#, line.attributes()));
    }

    /// A rectangle from its upper left corner: white inside, or grey.
    pub fn rectangle(&mut self, at: At, width: f64, height: f64, line: Stroke, grey: bool) {
        let fill = if grey { "#bbb" } else { "#fff" };
        let [x, y, width, height] = [at.0, at.1, width, height].map(figure);
        self.add(format_args!(
            r#"<rect x="{x}" y="{y}" width="{width}" height="{height}" fill="{fill}" {}/>"#,
            line.attributes()
        ));
    }

    /// A rectangle with round corners from its upper left one, nothing inside.
    pub fn rounded(&mut self, at: At, width: f64, height: f64, radius: f64, line: Stroke) {
        let [x, y, width, height, radius] = [at.0, at.1, width, height, radius].map(figure);
        self.add(format_args!(
            r#"<rect x="{x}" y="{y}" width="{width}" height="{height}" rx="{radius}" fill="none" {}/>"#,
            line.attributes()
        ));
    }

    /// Straight lines from place to place, nothing inside.
    pub fn polyline(&mut self, places: &[At], line: Stroke) {
        let places: Vec<String> = places.iter().map(|(x, y)| format!("{},{}", figure(*x), figure(*y))).collect();
        self.add(format_args!(r#"<polyline points="{}" fill="none" {}/>"#, places.join(" "), line.attributes()));
    }

    /// A closed figure from corner to corner: white inside, or filled.
    pub fn polygon(&mut self, corners: &[At], line: Stroke, filled: bool) {
        let fill = if filled { "#000" } else { "#fff" };
        let corners: Vec<String> = corners.iter().map(|(x, y)| format!("{},{}", figure(*x), figure(*y))).collect();
        self.add(format_args!(r#"<polygon points="{}" fill="{fill}" {}/>"#, corners.join(" "), line.attributes()));
    }

    /// A dot at every place, all in one element: there may be very many.
    pub fn dots(&mut self, places: &[At], radius: f64) {
        if places.is_empty() {
            return;
        }
        let mut path = String::new();
        for (x, y) in places {
            // Writing to a string does not fail. A line of no length with round ends is a dot.
            let _ = write!(path, "M{} {}h0", figure(*x), figure(*y));
        }
        let width = figure(radius * 2.0);
        self.add(format_args!(
            r##"<path d="{path}" fill="none" stroke="#000" stroke-width="{width}" stroke-linecap="round"/>"##
        ));
    }

    /// A text on one line. A white edge keeps it readable on lines.
    pub fn text(&mut self, at: At, text: &str, anchor: Anchor, letters: Letters) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        if let Letters::White | Letters::Mark = letters {
            let fill = if letters == Letters::White { "#fff" } else { "#000" };
            let (x, y, text) = (figure(at.0), figure(at.1), escaped(text));
            return self.add(format_args!(
                r##"<text x="{x}" y="{y}" text-anchor="{anchor}" font-size="12" font-weight="bold" fill="{fill}">{text}</text>"##
            ));
        }
        let letters = match letters {
            Letters::Heading => r#"font-size="17" font-weight="bold""#,
            Letters::Strong => r#"font-size="12" font-weight="bold""#,
            Letters::Plain | Letters::Mark | Letters::White => r#"font-size="12""#,
        };
        let (x, y, text) = (figure(at.0), figure(at.1), escaped(text));
        self.add(format_args!(
            r##"<text x="{x}" y="{y}" text-anchor="{anchor}" {letters} stroke="#fff" stroke-width="3" paint-order="stroke">{text}</text>"##
        ));
    }

    /// A plain text that is read from the right, its middle at this place.
    pub fn turned(&mut self, at: At, text: &str) {
        let (x, y, text) = (figure(at.0), figure(at.1), escaped(text));
        self.add(format_args!(
            r##"<text x="{x}" y="{y}" transform="rotate(-90 {x} {y})" text-anchor="middle" font-size="12" stroke="#fff" stroke-width="3" paint-order="stroke">{text}</text>"##
        ));
    }

    /// The whole drawing.
    #[must_use]
    pub fn finish(mut self) -> String {
        self.svg.push_str("</svg>\n");
        self.svg
    }
}

/// A coordinate to a hundredth; what is no number is drawn at the edge.
fn figure(value: f64) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A text as XML writes it: marks escaped, characters that XML cannot hold left out.
#[must_use]
pub fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            '\t' | '\n' | '\r' => escaped.push(' '),
            c if c.is_control() || crate::diagnostic::is_unseen(c) || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => escaped.push(c),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_cannot_leave_its_element() {
        let mut canvas = Canvas::new(10.0, 10.0, "</title><script>", "\"'&\u{0}\u{202e}");
        canvas.text((0.0, 0.0), "<a>\u{1b}[31m", Anchor::Start, Letters::Plain);
        let svg = canvas.finish();
        assert!(!svg.contains("<script") && !svg.contains("<a>"), "{svg}");
        assert!(svg.contains("<desc>&quot;&#39;&amp;</desc>"), "{svg}");
        assert!(!svg.contains(|c: char| c.is_control() && c != '\n'), "{svg:?}");
    }

    #[test]
    fn what_is_no_number_still_gives_a_drawing() {
        let mut canvas = Canvas::new(10.0, 10.0, "", "");
        canvas.line((f64::NAN, f64::INFINITY), (-0.001, 2.50), Stroke::Thin);
        assert!(canvas.finish().contains(r#"x1="0" y1="0" x2="0" y2="2.5""#));
    }

    #[test]
    fn an_arrow_of_no_length_is_not_drawn() {
        let mut canvas = Canvas::new(10.0, 10.0, "", "");
        canvas.arrow((1.0, 1.0), (1.0, 1.2), Stroke::Heavy);
        assert!(!canvas.finish().contains("polygon"));
    }
}
