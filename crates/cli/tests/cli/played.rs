//! The whole job, at both widths of a terminal, and what its record says.

use crate::whole::{At, play};

#[cfg(unix)]
#[test]
fn the_whole_job_is_played_in_a_terminal() {
    for columns in [40, 80] {
        record_says_it_all(&play(At::Terminal(columns)).card());
    }
}

#[test]
fn the_whole_job_goes_through_pipes() {
    record_says_it_all(&play(At::Pipe(40)).card());
}

fn record_says_it_all(card: &str) {
    let card = scraper::Html::parse_document(card);
    let text = |selector: &str| {
        let selector = scraper::Selector::parse(selector).expect("a selector");
        let texts = card.select(&selector).flat_map(|found| found.text().collect::<Vec<_>>());
        texts.collect::<Vec<_>>().join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let record = text(".record");
    for told in [
        "Hatch : 32 holes, 32 measured.",
        "Nothing is left to be referred.",
        "row A1 hole 4: Open the hole for an oversize shank, drill #26. A. Example, concession 17, 2026-11-25.",
        "32 of 32 rivets looked at: 32 accepted, 0 rejected.",
        "A. Example, 2026-11-25, gauge PG-14: A1 1-3, 5-12; A2 1-2, 4-20",
        "B. Sample, 2026-11-25, gauge PG-14: A1 4; A2 3",
        "B. Sample, 2026-11-27, gauge HG-3: A1 1-12; A2 1-4, 6-20",
        "B. Sample, 2026-11-28, gauge HG-3: A2 5",
        "B 4471, B 4480",
    ] {
        assert!(record.contains(told), "{told}: {record}");
    }
    let holes = text("section[aria-labelledby=holes] tbody");
    assert!(holes.contains(".140 by .145"), "what was found first: {holes}");
    assert!(holes.contains(".147 by .1475"), "what was found after: {holes}");
    assert!(holes.contains("It is opened."), "{holes}");
    let map = text("section[aria-labelledby=map] svg");
    assert!(map.contains("answered: go by the answer") && !map.contains("refer, do not open"), "{map}");
    let heads = text("section[aria-labelledby=heads] tbody");
    assert!(heads.contains("sound: driven again stays"), "{heads}");
}
