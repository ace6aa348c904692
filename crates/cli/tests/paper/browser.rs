//! The browser and the reader of what it prints.

use std::fs;
use std::path::Path;
use std::process::Command;

use scraper::{Html, Selector};

/// A size of paper.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Paper {
    A4,
    Letter,
}

impl Paper {
    /// Width and height in points.
    pub(crate) const fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (595.28, 841.89),
            Paper::Letter => (612.0, 792.0),
        }
    }
}

/// A printed page.
#[derive(Debug)]
pub(crate) struct Page {
    pub(crate) width: f64,
    pub(crate) height: f64,
    /// Its text in the order in which it was drawn.
    pub(crate) text: String,
    pub(crate) words: Vec<Word>,
}

/// A word and where it stands, in points from the upper left corner.
#[derive(Debug)]
#[expect(dead_code, reason = "the text is for the message when a test fails")]
pub(crate) struct Word {
    pub(crate) left: f64,
    pub(crate) right: f64,
    pub(crate) top: f64,
    pub(crate) bottom: f64,
    pub(crate) text: String,
}

fn output(command: &mut Command) -> Vec<u8> {
    let name = command.get_program().to_string_lossy().into_owned();
    let output = command.output().unwrap_or_else(|error| panic!("{name}: {error}; install chromium and poppler-utils"));
    assert!(output.status.success(), "{name}: {}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}

/// Without a sandbox, because tests run as root in containers; without its own traffic, because there may be no network.
fn browser(folder: &Path) -> Command {
    let profile = tempfile::tempdir_in(folder).expect("a folder").keep();
    let mut command = Command::new("chromium");
    command.args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"]);
    command.args(["--disable-background-networking", "--disable-component-update", "--disable-sync"]);
    command.arg(format!("--user-data-dir={}", profile.display()));
    command
}

fn address(file: &Path) -> String {
    format!("file://{}", file.canonicalize().expect("it is there").display())
}

/// Prints a page as the browser would for somebody with this paper in the printer.
pub(crate) fn print(html: &str, paper: Paper, folder: &Path) -> Vec<Page> {
    let sized = html.replacen("@page {", &format!("@page {{ size: {paper:?};"), 1);
    assert_ne!(sized, html, "the page has a rule for paper");
    print_as_it_is(&sized, &folder.join(format!("{paper:?}.pdf")), folder)
}

/// Prints a page that says itself what paper it is for.
pub(crate) fn print_as_it_is(html: &str, pdf: &Path, folder: &Path) -> Vec<Page> {
    let page = pdf.with_extension("html");
    fs::write(&page, html).expect("written");
    let to = format!("--print-to-pdf={}", pdf.display());
    output(browser(folder).args(["--no-pdf-header-footer", &to, &address(&page)]));
    let raw = output(Command::new("pdftotext").args(["-raw", "-enc", "UTF-8"]).arg(pdf).arg("-"));
    let raw = String::from_utf8(raw).expect("UTF-8");
    let boxes = output(Command::new("pdftotext").args(["-bbox", "-enc", "UTF-8"]).arg(pdf).arg("-"));
    let boxes = Html::parse_document(&String::from_utf8(boxes).expect("UTF-8"));
    let page = Selector::parse("page").expect("a selector");
    let word = Selector::parse("word").expect("a selector");
    // A form feed stands behind every page.
    let texts: Vec<&str> = raw.trim_end_matches('\u{c}').split('\u{c}').collect();
    let pages: Vec<Page> = boxes
        .select(&page)
        .zip(&texts)
        .map(|(page, text)| {
            let figure = |element: &scraper::node::Element, name: &str| -> f64 {
                element.attr(name).and_then(|value| value.parse().ok()).unwrap_or_else(|| panic!("no {name}"))
            };
            let words = page.select(&word).map(|word| Word {
                left: figure(word.value(), "xmin"),
                right: figure(word.value(), "xmax"),
                top: figure(word.value(), "ymin"),
                bottom: figure(word.value(), "ymax"),
                text: word.text().collect(),
            });
            Page {
                width: figure(page.value(), "width"),
                height: figure(page.value(), "height"),
                text: (*text).to_owned(),
                words: words.collect(),
            }
        })
        .collect();
    assert_eq!(pages.len(), texts.len());
    pages
}

/// A printed page as a scan of it: what is black.
pub(crate) struct Scan {
    width: usize,
    black: Vec<bool>,
}

impl Scan {
    const PER_INCH: f64 = 400.0;

    pub(crate) fn of(pdf: &Path, page: usize) -> Scan {
        let number = page.to_string();
        let resolution = Scan::PER_INCH.to_string();
        let picture =
            output(Command::new("pdftoppm").args(["-gray", "-r", &resolution, "-f", &number, "-l", &number]).arg(pdf));
        // P5, width, height, the greatest grey, then a byte for each dot.
        let mut words = picture.splitn(4, |byte| byte.is_ascii_whitespace());
        let mut word = || words.next().map(|word| String::from_utf8_lossy(word).into_owned()).expect("a word");
        assert_eq!(word(), "P5");
        let (width, height): (usize, usize) = (word().parse().expect("a width"), {
            let rest = words.next().expect("the rest");
            let height: Vec<u8> = rest.iter().copied().take_while(u8::is_ascii_digit).collect();
            String::from_utf8(height).expect("figures").parse().expect("a height")
        });
        let dots = &picture[picture.len() - width * height..];
        Scan { width, black: dots.iter().map(|grey| *grey < 96).collect() }
    }

    /// What a reader of codes reads from it.
    pub(crate) fn codes(&self) -> Vec<String> {
        // A phone takes fewer dots than are needed to measure a line.
        const EVERY: usize = 2;
        let height = self.black.len() / self.width;
        let grey = |x: usize, y: usize| if self.black[y * EVERY * self.width + x * EVERY] { 0 } else { 255 };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(self.width / EVERY, height / EVERY, grey);
        let grids = image.detect_grids();
        grids.iter().map(|grid| grid.decode().expect("a code is read").1).collect()
    }

    /// The longest black line in millimetres: along the page in the lowest part of it, or up the page in the leftmost.
    pub(crate) fn longest(&self, part: f64, up: bool) -> f64 {
        let dots = |mm: f64| (mm / 25.4 * Scan::PER_INCH) as usize;
        let height = self.black.len() / self.width;
        let black = |along: usize, across: usize| {
            let (x, y) = if up { (across, along) } else { (along, height - 1 - across) };
            self.black[y * self.width + x]
        };
        let length = if up { height } else { self.width };
        let run = |across: usize| {
            let (mut most, mut now) = (0, 0);
            for along in 0..length {
                now = if black(along, across) { now + 1 } else { 0 };
                most = most.max(now);
            }
            most
        };
        (0..dots(part)).map(run).max().expect("a line") as f64 / Scan::PER_INCH * 25.4
    }
}

/// How many bytes a picture of a page has.
pub(crate) fn screenshot(file: &Path, folder: &Path) -> u64 {
    let picture = folder.join("picture.png");
    let to = format!("--screenshot={}", picture.display());
    output(browser(folder).args(["--window-size=900,1400", &to, &address(file)]));
    fs::metadata(&picture).expect("a picture").len()
}

/// The page as the browser holds it after everything in it that runs has run.
pub(crate) fn rendered(file: &Path, folder: &Path) -> String {
    String::from_utf8(output(browser(folder).args(["--dump-dom", &address(file)]))).expect("UTF-8")
}

/// How wide a page comes out in a window of this width: the page, and what is seen of it.
pub(crate) fn width_on(html: &str, window: u32, folder: &Path) -> (u32, u32) {
    // A sheet that lets nothing run is measured without that rule.
    let html = html.replace("default-src 'none'; ", "");
    // The frame is as wide as asked, however narrow a window the browser allows.
    let measured = html.replace(
        "</body>",
        "<script>parent.postMessage(document.documentElement.scrollWidth + ' ' + innerWidth, '*')</script></body>",
    );
    let (inner, outer) = (folder.join("inner.html"), folder.join("outer.html"));
    fs::write(&inner, measured).expect("written");
    let frame = format!(
        "<!DOCTYPE html><html><body><p id=told></p><script>onmessage = event => \
         document.getElementById('told').textContent = event.data</script>\
         <iframe src=inner.html style='border:0;width:{window}px;height:900px'></iframe></body></html>"
    );
    fs::write(&outer, frame).expect("written");
    let seen = Html::parse_document(&rendered(&outer, folder));
    let told = seen.select(&Selector::parse("#told").expect("a selector")).next().expect("a place");
    let told: String = told.text().collect();
    let (page, inner) = told.split_once(' ').unwrap_or_else(|| panic!("nothing was measured: {told:?}"));
    (page.parse().expect("a width"), inner.parse().expect("a width"))
}
