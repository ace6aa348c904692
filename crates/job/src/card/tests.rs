//! What the card is made of, read back by a parser of HTML. How it looks and prints is tested in a browser, with the command.

use std::collections::HashSet;
use std::path::Path;

use scraper::{ElementRef, Html, Selector};

use super::*;
use crate::model::Job;
use crate::order::{Stock, alternatives, order};
use crate::prelude::demo;
use crate::tools::tools;

fn of(job: &Job, units: Units, stock: Option<&[Stock]>) -> String {
    let (own, documents) = job.own_limits.lists();
    let practice = job.practice.with_own(&own, &documents);
    let plan = Plan::make(job, &practice);
    let lines = order(&plan, job.spares_percent, stock);
    let others = stock.map_or_else(Vec::new, |stock| alternatives(&plan, &lines, stock));
    card(&Card {
        plan: &plan,
        order: &lines,
        alternatives: &others,
        inspection: None,
        tools: &tools(&plan),
        own_limits: &job.own_limits.title,
        units,
    })
}

fn all<'h>(page: &'h Html, selector: &str) -> Vec<ElementRef<'h>> {
    let selector = Selector::parse(selector).expect("a selector");
    page.select(&selector).collect()
}

fn text(element: ElementRef<'_>) -> String {
    element.text().collect::<Vec<_>>().join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A job whose every text tries to get out.
fn hostile() -> Job {
    let text = r##"
title = '</title><script>alert(1)</script> "x" & \ } */ ; url(http://example.invalid) é'
[[position]]
name = '"><img src=x onerror=alert(1)>'
about = "<style>*{display:none}</style>"
[[row]]
name = "<b onmouseover='alert(1)'>&lt;"
about = "]]> <!-- --> <svg onload=alert(1)> \" onfocus=\"alert(1)"
structure = "primary"
member = "skin"
installed = "MS20470AD4-5"
layers = [{ role = "skin", thickness = ".063" }, { role = "skin", thickness = ".063" }]
count = 30
pitch = "3/4"
edge = "3/8"
clearance = { '"><img src=x onerror=alert(1)>' = "open" }
[[row.hole]]
number = 3
major = ".139"
remark = "</td></table><script src=//example.invalid></script>"
[[row.hole]]
number = 4
major = ".200"
[[damage]]
kind = "crack"
place = "<iframe src=javascript:alert(1)>"
[[look]]
place = "<a href='javascript:alert(1)'>"
why = "&amp;<textarea>"
[[look]]
place = "behind"
why = "loose"
found = "<img src=x onerror=alert(1)>"
"##;
    let none = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
    Job::read_from(text.into(), Path::new("job.toml"), &none).unwrap_or_else(|error| panic!("{error}"))
}

fn cards() -> Vec<(&'static str, String)> {
    vec![
        ("keel-skin", of(&demo("keel-skin"), Units::Inches, None)),
        ("keel-skin mm", of(&demo("keel-skin"), Units::Millimetres, None)),
        ("marsh-float", of(&demo("marsh-float"), Units::Inches, None)),
        ("hostile", of(&hostile(), Units::Inches, None)),
    ]
}

#[test]
fn the_page_is_well_formed_and_stands_by_itself() {
    for (name, html) in cards() {
        let page = Html::parse_document(&html);
        assert_eq!(page.errors, Vec::<std::borrow::Cow<'_, str>>::new(), "{name}");
        for selector in
            ["script", "link", "img", "iframe", "object", "embed", "base", "form", "a", "audio", "video", "textarea"]
        {
            assert!(all(&page, selector).is_empty(), "{name}: {selector}");
        }
        assert_eq!(all(&page, "style").len(), 1, "{name}");
        // Outside its strings the style is ours.
        let style = text(all(&page, "style")[0]);
        let style: String = style.split('"').step_by(2).collect();
        assert!(!style.contains("url(") && !style.contains("@import") && !style.contains("http"), "{name}: {style}");
        for element in all(&page, "*") {
            for (attribute, value) in element.value().attrs() {
                assert!(!attribute.starts_with("on"), "{name}: {attribute}");
                assert!(
                    !["src", "href", "action", "srcdoc", "data"].contains(&attribute),
                    "{name}: {attribute}={value}"
                );
            }
        }
    }
}

#[test]
fn it_has_its_landmarks_one_name_and_a_language() {
    for (name, html) in cards() {
        let page = Html::parse_document(&html);
        for selector in ["html[lang=en]", "head title", "header", "main", "footer", "h1", "[role=note]"] {
            assert_eq!(all(&page, selector).len(), 1, "{name}: {selector}");
        }
        assert_eq!(html.matches("Advisory only").count(), 1, "{name}: said once");
        assert!(all(&page, "h3, h4, h5, h6").is_empty(), "{name}: no level is skipped");
        for section in all(&page, "section") {
            let label = section.value().attr("aria-labelledby").unwrap_or_default();
            let titles = all(&page, "h2").into_iter().filter(|title| title.value().id() == Some(label)).count();
            assert_eq!(titles, 1, "{name}: {label}");
        }
    }
}

#[test]
fn ids_are_unique_and_every_box_has_a_name_of_its_own_kind() {
    for (name, html) in cards() {
        let page = Html::parse_document(&html);
        let mut ids = HashSet::new();
        for element in all(&page, "[id]") {
            assert!(ids.insert(element.value().id()), "{name}: {:?} twice", element.value().id());
        }
        let inputs = all(&page, "input");
        assert!(inputs.len() > 40, "{name}");
        for input in inputs {
            let label = input.value().attr("aria-label").map(str::to_owned);
            let parent = input.parent().and_then(ElementRef::wrap).filter(|parent| parent.value().name() == "label");
            let label = label.or_else(|| parent.map(text)).unwrap_or_default();
            assert!(!label.trim().is_empty(), "{name}: {}", input.html());
        }
    }
}

#[test]
fn who_measured_stands_on_the_record_and_beside_the_holes_where_there_are_several() {
    let mut job = demo("keel-skin");
    let texts = |job: &Job, selector: &str| {
        let html = of(job, Units::Inches, None);
        let page = Html::parse_document(&html);
        all(&page, selector).into_iter().map(text).collect::<Vec<_>>().join(" ")
    };
    let one = "A. Example, 2026-11-24, gauge PG-14: K1 7, 19, 31; K2 4-5;";
    assert!(texts(&job, ".sign .taken").contains(one), "{}", texts(&job, ".sign .taken"));
    assert!(!texts(&job, "section[aria-labelledby=holes]").contains("gauge PG-14"), "once is enough");
    // Somebody else measured one hole again.
    let hole = job.rows.iter_mut().find(|row| row.name == "A1").map(|row| &mut row.measured[0]).expect("a hole");
    hole.taken.by = "B. <Sample>".into();
    assert!(texts(&job, ".sign .taken").contains("B. <Sample>, 2026-11-24, gauge PG-14: A1 5"));
    let holes = texts(&job, "section[aria-labelledby=holes]");
    assert!(
        holes.contains("B. <Sample>, 2026-11-24, gauge PG-14") && holes.contains("A. Example, 2026-11-24"),
        "{holes}"
    );
}

#[test]
fn every_table_has_headings_and_every_line_its_cells() {
    for (name, html) in cards() {
        let page = Html::parse_document(&html);
        let cell = Selector::parse("th, td").expect("a selector");
        let line = Selector::parse("tbody tr").expect("a selector");
        for table in all(&page, "table:not([role=presentation])") {
            let columns = table.select(&Selector::parse("thead th[scope=col]").expect("a selector")).count();
            let col = Selector::parse("col").expect("a selector");
            let width = |style: &str| style.trim_start_matches("width:").trim_end_matches('%').parse::<u32>();
            let widths = table.select(&col).map(|col| width(col.value().attr("style").unwrap_or_default()));
            assert_eq!(widths.sum::<Result<u32, _>>(), Ok(100), "{name}: {}", text(table));
            assert!(columns > 2);
            for line in table.select(&line) {
                let cells = line.select(&cell).map(|cell| {
                    cell.value().attr("colspan").map_or(1, |span| span.parse::<usize>().expect("a number"))
                });
                assert_eq!(cells.sum::<usize>(), columns, "{name}: {}", text(line));
            }
        }
        for heading in all(&page, "th") {
            let scope = heading.value().attr("scope");
            assert!(matches!(scope, Some("col" | "row")), "{name}: {}", heading.html());
        }
        for drawing in all(&page, "svg") {
            assert_eq!(drawing.value().attr("role"), Some("img"), "{name}");
            let title = drawing.select(&Selector::parse("title").expect("a selector")).map(text).next();
            assert!(title.is_some_and(|title| title.ends_with('.')), "{name}");
        }
    }
}

#[test]
fn hostile_texts_are_shown_as_they_were_typed() {
    let job = hostile();
    let page = Html::parse_document(&of(&job, Units::Inches, None));
    assert_eq!(text(all(&page, "h1")[0]), job.title);
    let shown = text(page.root_element());
    for typed in [
        &job.rows[0].name,
        &job.rows[0].about,
        &job.positions[0].name,
        &job.positions[0].about,
        &job.rows[0].measured[0].remark,
        &job.damage[0].place,
        &job.looks[0].place,
        &job.looks[0].why,
        job.looks[1].found.as_ref().expect("something"),
    ] {
        assert!(shown.contains(typed.as_str()), "{typed}");
    }
}

#[test]
fn what_would_turn_the_reading_round_is_written_out() {
    // The reader refuses these; a job that was made by a program is not read.
    let mut job = hostile();
    job.title = "a\u{202e}b\u{7}c".into();
    job.rows[0].name = "K\u{2066}1".into();
    let html = of(&job, Units::Inches, None);
    assert!(!html.contains(|c: char| crate::diagnostic::is_unseen(c) && c != '\n'));
    assert!(html.contains(r"<h1>a\u{202e}b\u{7}c</h1>"));
}

#[test]
fn a_string_of_css_cannot_be_ended() {
    assert_eq!(css_string("Keel 2"), "\"Keel 2\"");
    assert_eq!(css_string("a\"b\\</style>"), r#""a\22 b\5c \3c \2f style\3e ""#);
    assert_eq!(css_string("é\n"), r#""\e9 \5c u\7b a\7d ""#);
}

#[test]
fn the_limits_are_those_of_core_and_every_hole_that_differs_is_listed() {
    let job = demo("keel-skin");
    let (own, documents) = job.own_limits.lists();
    let practice = job.practice.with_own(&own, &documents);
    let plan = Plan::make(&job, &practice);
    let page = Html::parse_document(&of(&job, Units::Inches, None));
    let lines = |id: &str| -> Vec<String> {
        all(&page, &format!("section[aria-labelledby={id}] tbody tr")).into_iter().map(text).collect()
    };
    let rows = lines("rows");
    for row in &plan.rows {
        let line =
            rows.iter().find(|line| line.starts_with(&row.row.name)).unwrap_or_else(|| panic!("{}", row.row.name));
        assert!(line.contains(&row.choice.part.to_string()), "{line}");
        let window = row.choice.length.as_ref().expect("a length").window.expect("a window");
        let high = Units::Inches.limits(Some(window.height.min()), Some(window.height.max()));
        let wide = Units::Inches.limits(Some(window.diameter_least), None);
        assert!(line.contains(&format!("wide {wide}")) && line.contains(&format!("high {high}")), "{line}");
        for other in row.choice.length.as_ref().expect("a length").serves() {
            assert!(line.contains(&Units::Inches.size(other.length).to_string()), "{line}");
        }
    }
    let holes = lines("holes");
    let differing: Vec<String> = plan
        .rows
        .iter()
        .flat_map(|row| row.holes.iter().map(move |hole| (row, hole)))
        .filter(|(row, hole)| hole.differs_from(row) && hole.disposition() != Disposition::Refer)
        .map(|(row, hole)| format!("{} hole {}", row.row.name, hole.number))
        .collect();
    assert_eq!(holes.len(), differing.len());
    for (line, name) in holes.iter().zip(&differing) {
        assert!(line.starts_with(name.as_str()), "{line}");
    }
    let removal = all(&page, "section[aria-labelledby=removal] tbody label").len();
    assert_eq!(removal, plan.removals().len(), "a box for each row, and for each hole that comes out otherwise");
    assert!(lines("stops").iter().any(|line| line.starts_with("row K1 hole 31") && line.contains("cracked")));
    assert_eq!(all(&page, "section[aria-labelledby=sign-off] .sign").len(), 5);
}

#[test]
fn the_shelf_has_a_column_only_where_it_is_given() {
    let job = demo("keel-skin");
    let stock = crate::read::read_stock(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/keel-skin/stock.csv"), &[])
        .expect("it reads");
    for (stock, told) in [(None, false), (Some(stock.stock.as_slice()), true)] {
        let page = Html::parse_document(&of(&job, Units::Inches, stock));
        let order = text(all(&page, "section[aria-labelledby=order]")[0]);
        assert_eq!(order.contains("on the shelf"), told, "{order}");
    }
}

/// Where a part is short and another length of it lies there, its head stands beside it: in the row and in the order.
#[test]
fn another_length_on_the_shelf_is_told_with_its_head() {
    let job = demo("keel-skin");
    let practice = job.practice;
    let plan = Plan::make(&job, practice);
    let row = plan.rows.iter().find(|row| row.choice.length.iter().any(|answer| answer.serves().next().is_some()));
    let choice = &row.expect("a row that another length is good for").choice;
    let other = choice.length.as_ref().expect("a length").serves().next().expect("another");
    let part = shophead::rivet::part::Part::parse(&other.part.to_string()).expect("a part");
    let stock = [Stock { part, on_hand: 5_000, pack: 1 }];
    let high = format!("({} high)", Units::Inches.length(other.head.expect("a head").height).about());
    for (stock, told) in [(&[][..], false), (&stock, true)] {
        let page = Html::parse_document(&of(&job, Units::Inches, Some(stock)));
        let rows = text(all(&page, "section[aria-labelledby=rows]")[0]);
        let order = text(all(&page, "section[aria-labelledby=order]")[0]);
        assert_eq!(rows.contains(&high), told, "{rows}");
        assert_eq!(order.contains("drive to "), told, "{order}");
    }
}

#[test]
fn nothing_is_told_by_colour() {
    for (name, html) in cards() {
        let mut rest = html.as_str();
        while let Some(at) = rest.find('#') {
            rest = &rest[at + 1..];
            let digits: String = rest.chars().take_while(char::is_ascii_hexdigit).collect();
            let before = html.len() - rest.len() - 2;
            let is_colour = matches!(html.as_bytes().get(before), Some(b'"' | b' ' | b':'))
                && rest.as_bytes().get(digits.len()).is_some_and(|end| matches!(end, b'"' | b';' | b'}' | b' '))
                && digits.len() >= 3;
            let is_drill = digits.chars().all(|c| c.is_ascii_digit()) && digits != "000";
            assert!(!is_colour || is_drill || ["000", "fff"].contains(&digits.as_str()), "{name}: #{digits}");
        }
    }
}
