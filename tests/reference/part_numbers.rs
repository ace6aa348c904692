//! Part numbers: each listed valid one reads as stated, each invalid one is refused for the stated reason.

use shophead::basis::Status;
use shophead::length::Length;
use shophead::rivet::other::{NOT_READ, WhyNotRead};
use shophead::rivet::part::{Part, PartErrorKind, PartWarning};
use shophead_tests::{Comparison, fixture};

fn warning(warning: &PartWarning<'_>) -> &'static str {
    match warning {
        PartWarning::SupersededName { .. } => "superseded-name",
        PartWarning::LowerCase => "lower-case",
        PartWarning::HalfWrittenOtherwise => "half-written-otherwise",
        PartWarning::OversizeShank { .. } => "oversize-shank",
        PartWarning::BelowTable { .. } => "below-table",
        PartWarning::AboveTable { .. } => "above-table",
        PartWarning::NonStructural => "non-structural",
        PartWarning::HeatTreatFirst => "heat-treat-first",
        PartWarning::NotForNewDesign => "not-for-new-design",
        PartWarning::Recalled { .. } => "recalled",
        _ => "a warning this test does not know",
    }
}

/// The word of a fault; of a length that is none its own, without the name that all of those have.
fn kind(kind: &PartErrorKind<'_>) -> &'static str {
    match kind {
        PartErrorKind::Length(error) => error.as_str().trim_start_matches("part-"),
        kind => kind.as_str(),
    }
}

#[test]
fn every_valid_number_reads_as_stated() {
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("part-numbers-valid") {
        let number = row.text("number");
        let part = match Part::parse(number) {
            Ok(part) => part,
            Err(error) => panic!("{} {number}: {error}", row.place()),
        };
        let cell = |column: &str| format!("{number} {column}");
        let optional = |column| Some(row.text(column)).filter(|text| !text.is_empty());
        table.equal(&cell("canonical"), row.text("canonical"), &part.to_string());
        table.equal(&cell("head"), row.text("head"), &format!("{:?}", part.series().head));
        table.equal(&cell("alloy"), row.text("alloy"), &format!("{:?}", part.alloy()));
        table.equal(&cell("diameter"), Length::parse(row.text("diameter")).ok(), Some(part.diameter()));
        table.equal(&cell("length"), optional("length").map(|text| Length::parse(text).unwrap()), part.length());
        table.equal(&cell("finish"), optional("finish"), part.finish().map(|finish| finish.name));
        let warnings: Vec<&str> = part.warnings().iter().map(warning).collect();
        table.equal(&cell("warnings"), row.text("warnings"), &warnings.join(";"));
    }
    table.finish(35 * 7);
}

#[test]
fn every_invalid_number_is_refused_for_the_stated_reason() {
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("part-numbers-invalid") {
        let number = row.text("number");
        let error = match Part::parse(number) {
            Ok(part) => panic!("{} {number}: read as {part}", row.place()),
            Err(error) => error,
        };
        let cell = |column: &str| format!("{number} {column}");
        table.equal(&cell("kind"), row.text("kind"), kind(&error.kind));
        table.equal(&cell("at"), row.text("at"), &error.at.to_string());
        let nearest: Vec<String> = error.nearest().map(|part| part.to_string()).collect();
        table.equal(&cell("nearest"), row.text("nearest"), &nearest.join(";"));
    }
    table.finish(39 * 3);
}

/// Table 4-8 and para 7-2j: each series that is known but not read is in the fixture, with the reason that the document gives.
#[test]
fn a_series_is_refused_for_the_reason_that_the_document_gives() {
    let rows = fixture("part-numbers-invalid");
    let mut met = 0;
    for row in rows.iter().filter(|row| row.text("kind") == "series-not-read") {
        let PartErrorKind::SeriesNotRead(other) = Part::parse(row.text("number")).unwrap_err().kind else {
            panic!("{}", row.place())
        };
        assert!(row.is_read() && other.basis.status() == Status::Published, "{}", row.place());
        assert_eq!(row.text("source"), other.basis.citation().expect("built in").to_string(), "{}", row.place());
        let said = match other.why {
            WhyNotRead::Blind => row.text("reason") == "blind",
            WhyNotRead::NoSuccessor { head } => row.text("reason").starts_with(head),
            WhyNotRead::SuccessorByMaterial { steel, others } => {
                row.text("reason") == format!("superseded by {steel} or {others} by material")
            }
            _ => false,
        };
        assert!(said, "{}: {other}", row.place());
        met += 1;
    }
    assert_eq!(met, NOT_READ.len());
}

#[test]
fn every_refusal_says_what_and_where_and_shows_what_it_offers() {
    for row in fixture("part-numbers-invalid") {
        let error = Part::parse(row.text("number")).unwrap_err();
        let message = error.to_string();
        assert!(message.contains(&format!("(character {})", error.at)), "{message}");
        for offer in error.nearest() {
            assert!(message.contains(&offer.to_string()), "{message}");
        }
        assert!(!message.contains('\n') && !message.ends_with('.'), "{message}");
    }
}

/// A letter where the diameter stands is a diameter that was left out; any other sign is one too many.
#[test]
fn what_stands_in_the_place_of_a_diameter_is_named() {
    for (number, kind, at) in [
        ("MS20615-M5", PartErrorKind::DiameterMissing, 9),
        ("MS20470AD", PartErrorKind::DiameterMissing, 10),
        ("MS20470AD#5", PartErrorKind::UnexpectedCharacter('#'), 10),
    ] {
        let error = Part::parse(number).expect_err(number);
        assert_eq!((error.kind, error.at), (kind, at), "{number}");
    }
}

/// What a series supersedes has its kind of head, and is in the fixture of valid numbers.
#[test]
fn every_superseded_name_is_one_of_the_table() {
    let rows = fixture("part-numbers-valid");
    let shown: Vec<&str> = rows.iter().map(|row| row.text("number")).collect();
    for name in shophead::rivet::CATALOGUE.iter().flat_map(|series| series.supersedes) {
        assert!(shown.iter().any(|number| number.starts_with(name)), "{name}");
    }
}

const SERIES_MISSING: &str = "the series is missing, so head and alloy are unknown; digits alone such as 4-5 may mean diameter 4 and length 5, \
     or a length of 4 1/2 (character 1); right would be a full number such as MS20470AD4-5";

/// Each reason as it is read, once: what is wrong, and what the series has instead.
#[test]
fn every_refusal_says_what_is_wrong_and_what_the_series_has() {
    for (number, sentence) in [
        ("", "a part number is missing (character 1); right would be a full number such as MS20470AD4-5"),
        (
            "MS20471AD4-5",
            "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5",
        ),
        (
            "4-5A",
            "the series is missing, so head and alloy are unknown; digits alone such as 4-5 may mean diameter 4 and length 5, \
             or a length of 4 1/2 (character 1); right would be a full number such as MS20470AD4-5",
        ),
        (
            "AN425AD4-5",
            "AN425 has a 78 degree countersunk head and no printed successor; a rivet with another head does not take its place: \
             ask for the drawing (character 1)",
        ),
        (
            "NAS1398D4-3",
            "NAS1398 is a blind rivet; only driven solid rivets are read here: open the type's manual (character 1)",
        ),
        ("MS20470-4-5", "the material of MS20470 is missing (character 8); right would be A, AD, B, E, D or DD"),
        ("MS20470XX4-5", "this is not a material of MS20470 (character 8); right would be A, AD, B, E, D or DD"),
        (
            "MS20470M4-5",
            "MS20470 does not come in this material, MS20615 does (character 8); right would be MS20615-4M5",
        ),
        ("MS20615-4X-5", "this is not a material of MS20615 (character 10); right would be M or CU"),
        (
            "MS20470B-4-5",
            "no dash belongs between the material and the diameter (character 9); right would be MS20470B4-5",
        ),
        (
            "MS20470AD45",
            "this is not a diameter known for MS20470 (character 10); right would be 2, 3, 4, 5, 6, 8, 10 or 12",
        ),
        (
            "NAS1242AD11-5",
            "the digit of NAS1242 counts thirty-seconds of the standard size, not sixty-fourths of its shank (character 10); \
             right would be NAS1242AD5-5",
        ),
        ("MS20470AD04-5", "numbers are written without leading zeros (character 10); right would be MS20470AD4-5"),
        ("MS20470AD4-", "a length in sixteenths of an inch is missing after the dash (character 12)"),
        (
            "MS20470AD4-5.3",
            "a length goes in sixteenths of an inch and halves of one, written .5 (character 13); \
             right would be MS20470AD4-5 or MS20470AD4-5.5",
        ),
        (
            "MS20470AD4-5-6",
            "here only 5 is known, the mark of a half sixteenth (character 14); right would be MS20470AD4-5",
        ),
        ("MS20470AD4-0", "a rivet needs a length above zero (character 12)"),
        (
            "MS20426AD4-0.5",
            "a flush rivet's length counts its head, which alone is 0.042 in high; take a longer one (character 12); \
             right would be MS20426AD4-1",
        ),
        (
            "MS20470AD4-5Q",
            "no letter is known after the length of MS20470, neither for a finish nor for a half: ask what was meant (character 13)",
        ),
        (
            "MS20470AD4-5.75",
            "a length goes in sixteenths of an inch and halves of one, written .5 (character 13); \
             right would be MS20470AD4-5.5 or MS20470AD4-6",
        ),
        (
            "MS20470AD4-5.50",
            "a length goes in sixteenths of an inch and halves of one, written .5 (character 13); \
             right would be MS20470AD4-5.5",
        ),
        (
            "MS20470AD4-.5",
            "a length in sixteenths of an inch is missing after the dash (character 12); right would be MS20470AD4-0.5",
        ),
        (
            "MS20615-4M5.5",
            "no half lengths are known for this series; take a whole number (character 11); \
             right would be MS20615-4M5 or MS20615-4M6",
        ),
        ("MS20470-AD4-5", "'-' does not belong here (character 8); right would be MS20470AD4-5"),
        ("MS20470 AD4-5", "' ' does not belong here (character 8); right would be MS20470AD4-5"),
        ("MS20470-4-5", "the material of MS20470 is missing (character 8); right would be A, AD, B, E, D or DD"),
        ("MS20427", "the diameter is missing, a whole number of thirty-seconds of an inch (character 8)"),
        ("MS20615-4", "the material of MS20615 is missing (character 10); right would be M or CU"),
        ("MS20427-", "the diameter is missing, a whole number of thirty-seconds of an inch (character 9)"),
        ("MS20470AD4--5", "'-' does not belong here (character 12); right would be MS20470AD4-5"),
        ("MS20470AD4 -5", "' ' does not belong here (character 11); right would be MS20470AD4-5"),
        ("AD4-5", SERIES_MISSING),
        ("45", SERIES_MISSING),
        ("20470AD4-5", SERIES_MISSING),
        ("AD123-5", "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5"),
        ("Q4-5", "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5"),
        ("DD-5", "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5"),
        ("AD 4-5", "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5"),
        ("MS", "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5"),
        ("MS-20470AD4-5", "this is not a series known here (character 1); right would be MS20470AD4-5"),
        ("MS 20470AD4-5", "this is not a series known here (character 1); right would be MS20470AD4-5"),
        ("NAS 1097AD4-5", "this is not a series known here (character 1); right would be NAS1097AD4-5"),
        ("MS2047AD4-5", "this is not a series known here (character 1); right would be MS20470AD4-5 or MS20426AD4-5"),
        ("MS2047 0AD4-5", "this is not a series known here (character 1); the nearest is MS20470"),
        ("MS20470AD4x-5", "'x' does not belong here (character 11); right would be a full number such as MS20470AD4-5"),
        (
            "MS20470AD4\u{7}-5",
            "'\\u{7}' does not belong here (character 11); right would be a full number such as MS20470AD4-5",
        ),
        (
            "AN436AD4-5",
            "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5",
        ),
        (
            "MS20471AD4-5",
            "this is not a series known here (character 1); right would be a full number such as MS20470AD4-5",
        ),
        ("MS2470AD4-5", "this is not a series known here (character 1); right would be MS20470AD4-5"),
        ("MS204700AD4-5", "this is not a series known here (character 1); right would be MS20470AD4-5"),
        ("MS20470AD4-5-", "a length in sixteenths of an inch is missing after the dash (character 14)"),
        (
            "MS20470AD7-5",
            "this is not a diameter known for MS20470 (character 10); right would be MS20470AD6-5 or MS20470AD8-5",
        ),
        ("MS20470AD1-5", "this is not a diameter known for MS20470 (character 10); right would be MS20470AD2-5"),
        (
            "NAS9313DD4-5",
            "no letter means chemical film, coloured, which is not allowed on this alloy (character 13); \
             right would be NAS9313DD4-5A or NAS9313DD4-5D",
        ),
        (
            "NAS9313DD4-5-5",
            "no letter means chemical film, coloured, which is not allowed on this alloy (character 13); \
             right would be NAS9313DD4-5A5 or NAS9313DD4-5D5",
        ),
        (
            "NAS9313DD4-5S5",
            "S means chemical film, clear, which is not allowed on this alloy (character 13); \
             right would be NAS9313DD4-5A5 or NAS9313DD4-5D5",
        ),
        (
            "NAS9313T4-6A5",
            "A means anodize, clear, which is not allowed on this alloy (character 12); right would be NAS9313T4-6-5",
        ),
        (
            "NAS9313T4-6A",
            "A means anodize, clear, which is not allowed on this alloy (character 12); right would be NAS9313T4-6",
        ),
        ("NAS9313DD4-5Q", "this is not a finish of NAS9313 (character 13); right would be A, D, S or no letter"),
        ("NAS9313DD4-6A5A", "a number has one finish letter only (character 15)"),
        (
            "NAS9313DD4-6-5A",
            "the finish letter stands before the mark of the half (character 15); right would be NAS9313DD4-6A5",
        ),
        (
            "NAS9313DD4-6A6",
            "here only 5 is known, the mark of a half sixteenth (character 14); right would be NAS9313DD4-6A",
        ),
        (
            "MS20600AD4-5",
            "NASM20600 is a blind rivet; only driven solid rivets are read here: open the type's manual (character 1)",
        ),
    ] {
        assert_eq!(Part::parse(number).map_err(|error| error.to_string()), Err(sentence.to_owned()), "{number}");
    }
}
