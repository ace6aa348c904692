//! Cards and maps in a real browser: rendered, printed on A4 and on Letter, read back page by page.
//!
//! Needs chromium and poppler-utils, so these run only when asked for, as `.ci/run` does:
//! `cargo test -p shophead-cli --test paper -- --ignored`.

mod browser;
#[cfg(unix)]
#[path = "../cli/terminal.rs"]
mod terminal;
#[expect(dead_code, reason = "here it is played in a terminal only")]
#[path = "../cli/whole.rs"]
mod whole;

use std::fs;
use std::path::Path;
use std::process::Command;

use browser::{Page, Paper, print, rendered, screenshot, width_on};
use scraper::{ElementRef, Html, Selector};

/// A job whose texts are as bad as the reader lets them be: marks of HTML, words too long for any column, other scripts.
const HOSTILE: &str = r##"
title = '</title><script>document.title="broken"</script> "Panel" & friends \ } */'
[[position]]
name = '"><img src=x onerror=alert(1)>'
about = "<style>*{display:none}</style>"
[[row]]
name = "<b>R1</b>"
about = "AVeryLongWordWithoutAnyBlankThatNoColumnIsWideEnoughForBecauseSomebodyPastedAnIdentifierIntoTheAboutTextOfTheRow"
structure = "primary"
member = "skin"
installed = "MS20470AD4-5"
layers = [{ role = "skin", thickness = ".063" }, { role = "skin", thickness = ".063" }]
count = 300
pitch = "3/4"
edge = "3/8"
clearance = { '"><img src=x onerror=alert(1)>' = "closed" }
[[row]]
name = "ÄÖ-№-Ряд"
about = "<svg onload=alert(1)>"
structure = "secondary"
member = "skin"
installed = "MS20426AD5"
layers = [{ role = "skin", thickness = ".063", preparation = "countersunk" }, { role = "skin", thickness = ".063" }]
count = 9
start = ["-1", "-1"]
along = ["1", "2"]
pitch = "7/8"
clearance = { '"><img src=x onerror=alert(1)>' = "2" }
[[row.hole]]
number = 3
major = ".200"
remark = "</td></table><script src=//example.invalid></script>"
[[damage]]
kind = "crack"
place = "<iframe src=javascript:alert(1)>"
[[look]]
place = "<a href='javascript:alert(1)'>"
why = "&amp;<textarea>"
"##;

/// Marks between figures that a browser does not print as they stand in the page.
fn plain(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && *c != '•').flat_map(char::to_lowercase).collect()
}

fn all<'h>(element: ElementRef<'h>, selector: &str) -> Vec<ElementRef<'h>> {
    element.select(&Selector::parse(selector).expect("a selector")).collect()
}

fn words(element: ElementRef<'_>) -> String {
    plain(&element.text().collect::<String>())
}

/// Makes card and map of a job; the card's text.
fn make(job: &Path, folder: &Path) -> String {
    for (command, file) in [("card", "card.html"), ("map", "map.svg")] {
        let made = Command::new(assert_cmd::cargo::cargo_bin!("shophead"))
            .arg(command)
            .arg(job)
            .arg("-o")
            .arg(folder.join(file))
            .output()
            .expect("the binary runs");
        assert!(matches!(made.status.code(), Some(0 | 1)), "{}", String::from_utf8_lossy(&made.stderr));
    }
    fs::read_to_string(folder.join("card.html")).expect("the card")
}

/// Everything that must hold of a card on paper.
fn check(card: &str, pages: &[Page], most_pages: usize, paper: Paper) {
    let html = Html::parse_document(card);
    let root = html.root_element();
    let printed: Vec<String> = pages.iter().map(|page| plain(&page.text)).collect();
    assert!((2..=most_pages).contains(&pages.len()), "{paper:?}: {} pages", pages.len());
    // Nothing stands outside the paper's margins: no column is cut off.
    for (number, page) in pages.iter().enumerate() {
        let (width, height) = paper.size();
        assert!((page.width - width).abs() < 2.0 && (page.height - height).abs() < 2.0, "{paper:?}: {page:?}");
        for word in &page.words {
            let within =
                word.left > 25.0 && word.right < width - 25.0 && word.top > 20.0 && word.bottom < height - 12.0;
            assert!(within, "{paper:?} page {}: {word:?}", number + 1);
        }
        assert!(printed[number].contains(&format!("page{}of{}", number + 1, pages.len())), "{}", page.text);
    }
    // No line of a table is cut by the end of a page, and each page with lines of a table has its headings.
    let mut checked = 0;
    for table in all(root, "table:not([role=presentation])") {
        let headings = words(all(table, "thead")[0]);
        for line in all(table, "tbody tr") {
            let text = words(line);
            if text.is_empty() {
                continue;
            }
            let whole: Vec<usize> = (0..printed.len()).filter(|page| printed[*page].contains(&text)).collect();
            assert!(!whole.is_empty(), "{paper:?}: cut or missing: {text}");
            let headed = whole.iter().any(|page| printed[*page].contains(&headings));
            assert!(headed, "{paper:?}: no headings {headings} over {text}");
            checked += 1;
        }
    }
    assert!(checked > 10, "{checked} lines");
    // A heading does not stand alone: something of its section is on the same page.
    for section in all(root, "section") {
        let title = words(all(section, "h2")[0]);
        let content = all(section, "tbody tr, li, svg text").into_iter().chain(all(section, "p"));
        let next = content.map(words).find(|text| !text.is_empty());
        let next = next.expect("no section is empty");
        assert!(
            printed.iter().any(|page| page.contains(&format!("{title}{next}")) || with_headings(page, &title, &next)),
            "{paper:?}: {title} stands alone before {next}"
        );
    }
    // A piece of the map stays on one page.
    for drawing in all(root, "svg") {
        let texts: Vec<String> = all(drawing, "text").into_iter().map(words).filter(|text| !text.is_empty()).collect();
        let on_one = printed.iter().any(|page| texts.iter().all(|text| page.contains(text)));
        assert!(on_one, "{paper:?}: cut: {texts:?}");
    }
    // The key of the map stands on every page of it, and on no other.
    let key: Vec<String> = all(root, ".map thead text").into_iter().map(words).filter(|text| text.len() > 1).collect();
    let pieces: Vec<Vec<String>> = all(root, ".map tbody svg")
        .into_iter()
        .map(|piece| all(piece, "text").into_iter().map(words).filter(|text| text.len() > 4).collect())
        .collect();
    let of_map = |page: &&String| {
        let is_whole = |piece: &Vec<String>| !piece.is_empty() && piece.iter().all(|text| page.contains(text));
        pieces.iter().any(is_whole)
    };
    let maps: Vec<&String> = printed.iter().filter(of_map).collect();
    assert!(!key.is_empty() && !maps.is_empty());
    for page in maps {
        assert!(key.iter().all(|text| page.contains(text)), "{paper:?}: no key on {page}");
    }
    let last = printed.last().expect("a page");
    // The record is a page by itself.
    let record = format!("record{}", words(all(root, "h1")[0]));
    assert!(last.contains(&record) && last.contains("released"), "{last}");
    for line in all(root, ".sign p").into_iter().map(words) {
        assert!(printed.iter().any(|page| page.contains(&line)), "{line}");
    }
    assert_eq!(printed.iter().map(|page| page.matches("advisoryonly").count()).sum::<usize>(), 1, "said once");
    assert!(!printed.iter().any(|page| page.contains("isnotkept")), "what is for the screen is not printed");
}

/// A section may begin with its table: the headings come between.
fn with_headings(page: &str, title: &str, next: &str) -> bool {
    page.match_indices(title).any(|(at, _)| page[at..].contains(next))
}

fn check_job(name: &str, job: &Path, most_pages: usize, most_without_map: usize) {
    let folder = tempfile::tempdir().expect("a folder");
    let card = make(job, folder.path());
    let html = Html::parse_document(&card);
    let lines = |selector: &str| all(html.root_element(), selector).len();
    for paper in [Paper::A4, Paper::Letter] {
        let pages = print(&card, paper, folder.path());
        check(&card, &pages, most_pages, paper);
    }
    // Without the map, which grows with the panel, it stays short.
    let without_map = card.replace("</style>", "section[aria-labelledby=map] { display: none }</style>");
    for paper in [Paper::A4, Paper::Letter] {
        let pages = print(&without_map, paper, folder.path()).len();
        assert!(pages <= most_without_map, "{name}: {pages} pages on {paper:?} without the map");
    }
    // On a phone, a tablet and a screen nothing is reached by scrolling sideways only.
    for wide in [412, 820, 1400] {
        let (page, window) = width_on(&card, wide, folder.path());
        assert!(page <= window, "{name}: {page} wide in a window of {window}");
    }
    for (file, least) in [("card.html", 20_000), ("map.svg", 5_000)] {
        let picture = screenshot(&folder.path().join(file), folder.path());
        assert!(picture > least, "{name}: a picture of {picture} bytes shows nothing");
    }
    // The browser sees the same elements as we wrote: no text has become one, and nothing has run.
    let seen = rendered(&folder.path().join("card.html"), folder.path());
    let seen = Html::parse_document(&seen);
    for selector in ["script", "img", "iframe", "svg", "input", "table", "tr", "*"] {
        assert_eq!(all(seen.root_element(), selector).len(), lines(selector), "{name}: {selector}");
    }
    assert_eq!(words(all(seen.root_element(), "title")[0]), words(all(html.root_element(), "title")[0]), "{name}");
}

fn demo(name: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../job/demo/{name}/job.toml"))
}

#[test]
#[ignore = "needs chromium and poppler-utils"]
fn the_keel_skin_prints_whole() {
    check_job("keel-skin", &demo("keel-skin"), 9, 5);
}

#[test]
#[ignore = "needs chromium and poppler-utils"]
fn the_marsh_float_prints_whole() {
    check_job("marsh-float", &demo("marsh-float"), 7, 5);
}

#[test]
#[ignore = "needs chromium and poppler-utils"]
fn a_hostile_job_prints_whole_and_runs_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = folder.path().join("job.toml");
    fs::write(&job, HOSTILE).expect("written");
    check_job("hostile", &job, 8, 4);
}

/// A template says itself what paper it is for.
fn template(job: &Path, paper: &str, units: &str, folder: &Path) -> String {
    let made = Command::new(assert_cmd::cargo::cargo_bin!("shophead"))
        .arg("template")
        .arg(job)
        .args(["--paper", paper, "--units", units, "-o", "-"])
        .current_dir(folder)
        .output()
        .expect("the binary runs");
    assert!(matches!(made.status.code(), Some(0 | 1)), "{}", String::from_utf8_lossy(&made.stderr));
    String::from_utf8(made.stdout).expect("UTF-8")
}

#[test]
#[ignore = "needs chromium and poppler-utils"]
fn a_template_prints_at_full_size() {
    let folder = tempfile::tempdir().expect("a folder");
    for (job, paper, units, sheets, bar) in [
        ("keel-skin", Paper::A4, "in", 3, 101.6),
        ("keel-skin", Paper::Letter, "mm", 3, 100.0),
        ("marsh-float", Paper::Letter, "in", 2, 101.6),
    ] {
        let html = template(&demo(job), &format!("{paper:?}").to_lowercase(), units, folder.path());
        let pdf = folder.path().join("template.pdf");
        let pages = browser::print_as_it_is(&html, &pdf, folder.path());
        assert_eq!(pages.len(), sheets, "{job} on {paper:?}");
        let (height, width) = paper.size();
        for (number, page) in pages.iter().enumerate() {
            assert!((page.width - width).abs() < 2.0 && (page.height - height).abs() < 2.0, "{paper:?}: {page:?}");
            assert!(page.text.contains(&format!("sheet {} of {sheets}", number + 1)), "{}", page.text);
            let within = |word: &browser::Word| word.left > 20.0 && word.right < width - 20.0;
            assert!(page.words.iter().all(within), "{paper:?}: {page:?}");
            // Measured on the paper, to a dot of the scan.
            let scan = browser::Scan::of(&pdf, number + 1);
            for up in [false, true] {
                let measured = scan.longest(if up { 14.0 } else { 19.0 }, up);
                assert!((measured - bar).abs() < 0.1, "{job} on {paper:?}: the bar is {measured} mm long, not {bar}");
            }
        }
    }
    // The check itself: on a page that is fitted to another size the bar is not what it says.
    let html = template(&demo("keel-skin"), "a4", "in", folder.path());
    let fitted = html.replace("body { margin: 0;", "body { margin: 0; zoom: .97;");
    assert_ne!(html, fitted);
    let pdf = folder.path().join("fitted.pdf");
    browser::print_as_it_is(&fitted, &pdf, folder.path());
    assert!(browser::Scan::of(&pdf, 1).longest(25.0, false) < 99.0);
}

#[test]
#[ignore = "needs chromium and poppler-utils"]
fn a_cut_line_is_noticed() {
    // The check itself: a page that lets its lines break does not pass.
    let folder = tempfile::tempdir().expect("a folder");
    let card = make(&demo("keel-skin"), folder.path());
    let broken = card.replace("break-inside: avoid", "break-inside: auto");
    assert_ne!(card, broken);
    // Where the pages end is chance: the page is pushed down until a line lies across an end.
    let noticed = (0..30).any(|step| {
        let pushed = broken.replace("</style>", &format!("main {{ padding-top: {}mm }}</style>", step * 3));
        let pages = print(&pushed, Paper::A4, folder.path());
        let found = std::panic::catch_unwind(|| check(&card, &pages, 12, Paper::A4));
        found.is_err_and(|told| told.downcast_ref::<String>().is_some_and(|told| told.contains("cut or missing")))
    });
    assert!(noticed, "lines of tables were free to break and the check did not notice");
}

/// An answer as it is; the schema is tested with the command.
fn schema_of(json: &str) -> serde_json::Value {
    serde_json::from_str(json).expect("an answer")
}

#[test]
#[ignore = "needs chromium and poppler-utils"]
fn a_whole_job_is_played_in_a_terminal_and_read_in_a_browser() {
    let cards = [40, 80].map(|columns| {
        let job = whole::play(whole::At::Terminal(columns));
        read_in_browser(&job);
        job.page("card.html")
    });
    assert_eq!(cards[0], cards[1], "the terminal's width changes nothing that is kept");
}

/// Everything that a played job leaves: card, map, labels and working, on a screen and on paper.
fn read_in_browser(job: &whole::Played) {
    let folder = job.folder.path();
    let seen = |file: &str| rendered(&folder.join(file), folder);
    // What the browser holds says what whoever closes the job looks for.
    whole::record_says_it_all(&seen("card.html"));
    let map = Html::parse_document(&seen("map.svg"));
    let marks: String = all(map.root_element(), "text").into_iter().map(words).collect();
    assert!(marks.contains("answered:gobytheanswer") && !marks.contains("refer,donotopen"), "{marks}");
    for name in ["a1", "a2"] {
        assert!(marks.contains(name), "{name}: {marks}");
    }
    let working = Html::parse_document(&seen("working.html"));
    let worked = words(working.root_element());
    for told in ["nas1242ad4carries", "preparedby", "checkedby"] {
        assert!(worked.contains(told), "{told}: {worked}");
    }
    let (card, labels, working) = (job.page("card.html"), job.page("labels.html"), job.page("working.html"));
    for wide in [412, 820, 1400] {
        for page in [&card, &labels, &working] {
            let (page, window) = width_on(page, wide, folder);
            assert!(page <= window, "{page} wide in a window of {window}");
        }
    }
    for (file, least) in [("card.html", 20_000), ("map.svg", 5_000), ("labels.html", 5_000), ("working.html", 20_000)] {
        let picture = screenshot(&folder.join(file), folder);
        assert!(picture > least, "a picture of {picture} bytes of {file} shows nothing");
    }
    for paper in [Paper::A4, Paper::Letter] {
        let pages = print(&card, paper, folder);
        check(&card, &pages, 6, paper);
        let record = plain(&pages.last().expect("a page").text);
        for told in [
            "nothingislefttobereferred.",
            "32of32rivetslookedat:32accepted,0rejected.",
            "b.sample,2026-11-28,gaugehg-3:a25",
            "b4471,b4480",
            "c.model,d.pattern",
        ] {
            assert!(record.contains(told), "{told}: {record}");
        }
        let pages = print(&labels, paper, folder);
        assert_eq!(pages.len(), 1, "{paper:?}");
        labels_are_read_back(&labels, &folder.join(format!("{paper:?}.pdf")));
        let pages = print(&working, paper, folder);
        let (first, last) = (&pages[0], &pages[pages.len() - 1]);
        assert!(first.text.contains("Advisory only") && last.text.contains("Checked by"), "{pages:?}");
        // A step stays on one page.
        let printed: Vec<String> = pages.iter().map(|page| plain(&page.text)).collect();
        let html = Html::parse_document(&working);
        for step in all(html.root_element(), "ol li") {
            let of_step: Vec<String> = all(step, "h3, .formula").into_iter().map(words).collect();
            let on_one = printed.iter().any(|page| of_step.iter().all(|line| page.contains(line)));
            assert!(on_one, "{paper:?}: cut: {of_step:?}");
        }
    }
}

/// Every label as it comes out of the printer: its code is read, and says what the label says.
fn labels_are_read_back(labels: &str, pdf: &Path) {
    let codes = browser::Scan::of(pdf, 1).codes();
    let html = Html::parse_document(labels);
    let shown = all(html.root_element(), ".label");
    assert_eq!(codes.len(), shown.len(), "{codes:?}");
    for label in shown {
        let of = |selector: &str| all(label, selector)[0].text().collect::<String>();
        let rows: Vec<String> = all(label, "p").into_iter().map(|line| line.text().collect()).collect();
        let (row, count) = rows[2].split_once(": ").expect("a row and a count");
        let code = format!("{}\n{}\n{row}\n{}", of(".part"), of(".job"), rows[3]);
        assert!(codes.contains(&code), "{code:?} is not among {codes:?}");
        let numbers = rows[3].split(", ").map(|holes| {
            let (first, last) = holes.split_once('-').unwrap_or((holes, holes));
            last.parse::<u32>().expect("a hole") - first.parse::<u32>().expect("a hole") + 1
        });
        assert_eq!(numbers.sum::<u32>().to_string(), count, "a rivet a hole");
    }
}
