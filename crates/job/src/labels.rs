//! A sheet of labels for the bags that rivets are handed out in: part, row, holes, and the same as a QR code.
//!
//! One HTML file that stands by itself and prints on A4 and Letter, three labels side by side.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use qrcode::{Color, EcLevel, QrCode};

use crate::diagnostic::escaped;
use crate::order::{OrderLine, goes_into};
use crate::plan::Plan;
use crate::words::ranges;

/// One label.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Label {
    /// The part.
    pub part: String,
    /// The part in words.
    pub words: String,
    /// The row.
    pub row: String,
    /// Its holes: `1-11, 14`.
    pub holes: String,
    /// How many.
    pub count: usize,
}

impl Label {
    /// What its code says, a line each: part, job, row, holes. A row of very many holes says how many.
    #[must_use]
    pub fn code(&self, job: &str) -> String {
        /// More than this makes a code that a scanner on a shop floor does not read from a label of this size.
        const MOST: usize = 120;
        let holes = if self.holes.len() > MOST { format!("{} holes", self.count) } else { self.holes.clone() };
        format!("{}\n{job}\n{}\n{holes}", self.part, self.row)
    }
}

/// A label for each part and row of an order.
#[must_use]
pub fn labels(plan: &Plan<'_>, lines: &[OrderLine<'_>]) -> Vec<Label> {
    let mut labels = Vec::new();
    for line in lines {
        for holes in goes_into(plan, &line.part) {
            labels.push(Label {
                part: line.part.to_string(),
                words: line.part.in_words().to_string(),
                row: holes.row.to_owned(),
                holes: ranges(&holes.numbers),
                count: holes.numbers.len(),
            });
        }
    }
    labels
}

const STYLE: &str = "\
@page { size: auto; margin: 10mm }
body { font: 9pt/1.25 sans-serif; margin: 0; color: #000; background: #fff }
h1 { font-size: 11pt; margin: 0 0 3mm }
.sheet { display: grid; grid-template-columns: repeat(3, 1fr); gap: 2mm }
.label { border: .3mm solid #000; padding: 2mm; height: 34mm; overflow: hidden; break-inside: avoid; display: grid;
  grid-template-columns: 1fr 22mm; gap: 2mm; box-sizing: border-box }
.label p { margin: 0; overflow-wrap: anywhere }
.part { font-weight: bold; font-size: 12pt }
.job, .words { font-size: 7pt }
svg { width: 22mm; height: 22mm; align-self: start }
@media screen and (max-width: 600px) { .sheet { grid-template-columns: 1fr } }
";

/// The sheet.
///
/// ```
/// use shophead_job::labels::sheet;
/// use shophead_job::model::Job;
/// use shophead_job::order::order;
/// use shophead_job::plan::Plan;
/// let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/keel-skin/job.toml");
/// let job = Job::read(path.as_ref()).expect("the demo job reads");
/// let (own, documents) = job.own_limits.lists();
/// let practice = job.practice.with_own(&own, &documents);
/// let plan = Plan::make(&job, &practice);
/// let html = sheet(&plan, &order(&plan, job.spares_percent, None));
/// assert!(html.contains("Keel skin panel, frames 2 to 6") && html.contains("<svg"));
/// ```
#[must_use]
pub fn sheet(plan: &Plan<'_>, lines: &[OrderLine<'_>]) -> String {
    let title = escaped(&plan.job.title).into_owned();
    let labels = labels(plan, lines);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) ": bag labels" }
                style { (PreEscaped(STYLE)) }
            }
            body {
                h1 { (title) }
                main class="sheet" { @for label in &labels { (one(label, &title)) } }
            }
        }
    }
    .into_string()
}

fn one(label: &Label, title: &str) -> Markup {
    html! {
        div class="label" {
            div {
                p class="part" { (label.part) }
                p class="words" { (label.words) }
                p { strong { (escaped(&label.row)) } ": " (label.count) }
                p { (label.holes) }
                p class="job" { (title) }
            }
            (code(&label.code(title)))
        }
    }
}

/// A QR code as one path, a unit a square, with the quiet border that readers need. Nothing where the text is too long for one.
fn code(text: &str) -> Markup {
    const BORDER: usize = 4;
    let Ok(code) = QrCode::with_error_correction_level(text, EcLevel::M) else { return html! {} };
    let width = code.width();
    let dark = code.to_colors().into_iter().enumerate().filter(|(_, color)| *color == Color::Dark);
    let path: String =
        dark.map(|(at, _)| format!("M{} {}h1v1h-1z", at % width + BORDER, at / width + BORDER)).collect();
    let side = width + 2 * BORDER;
    html! {
        svg viewBox={ "0 0 " (side) " " (side) } role="img" aria-label="the same as a code" shape-rendering="crispEdges" {
            rect width=(side) height=(side) fill="#fff" {}
            path d=(path) fill="#000" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::order;
    use crate::prelude::demo;
    use scraper::{Html, Selector};

    /// What a reader of codes makes of a path of unit squares, drawn large enough for it.
    fn read(path: &str, side: usize) -> String {
        const PIXELS: usize = 4;
        let mut dark = vec![false; side * side];
        for square in path.split('M').skip(1) {
            let (x, rest) = square.split_once(' ').expect("x");
            let (y, _) = rest.split_once('h').expect("y");
            dark[y.parse::<usize>().expect("y") * side + x.parse::<usize>().expect("x")] = true;
        }
        let grey = |x: usize, y: usize| if dark[y / PIXELS * side + x / PIXELS] { 0 } else { 255 };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side * PIXELS, side * PIXELS, grey);
        let grids = image.detect_grids();
        grids.first().expect("a code").decode().expect("it decodes").1
    }

    #[test]
    fn every_label_is_read_back_by_a_reader_of_codes() {
        let job = demo("keel-skin");
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        let plan = Plan::make(&job, &practice);
        let lines = order(&plan, job.spares_percent, None);
        let labels = labels(&plan, &lines);
        let needed: u32 = lines.iter().map(|line| line.needed).sum();
        assert_eq!(labels.iter().map(|label| label.count as u32).sum::<u32>(), needed, "every rivet has its bag");
        let html = Html::parse_document(&sheet(&plan, &lines));
        let select = |selector: &str| Selector::parse(selector).expect("a selector");
        let shown: Vec<_> = html.select(&select(".label")).collect();
        assert_eq!(shown.len(), labels.len());
        for (label, shown) in labels.iter().zip(shown) {
            let text = shown.text().collect::<Vec<_>>().join(" ");
            for said in [&label.part, &label.row, &label.holes] {
                assert!(text.contains(said.as_str()), "{said}: {text}");
            }
            let svg = shown.select(&select("svg")).next().expect("a code");
            let side =
                svg.value().attr("viewBox").and_then(|view| view.rsplit(' ').next()?.parse().ok()).expect("its side");
            let path = svg.select(&select("path")).next().and_then(|path| path.value().attr("d")).expect("its squares");
            assert_eq!(read(path, side), label.code(&job.title), "{label:?}");
        }
    }
}
