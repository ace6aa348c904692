//! Laws of part numbers.

use proptest::prelude::*;
use proptest::sample::select;
use shophead::length::Length;
use shophead::rivet::part::{Part, PartLengthError};
use shophead::rivet::{CATALOGUE, HalfMark};

/// Every rivet of every built-in series up to four inches, halves included, with every finish.
fn every_part() -> impl Iterator<Item = Part<'static>> {
    CATALOGUE.iter().flat_map(|series| {
        let families = series.materials.iter().flat_map(move |material| {
            series.sizes.iter().map(move |size| Part::new(series, material.code, size).expect("of the series"))
        });
        families.flat_map(move |family| {
            let finished = series.finishes.iter().filter_map(move |finish| family.with_finish(finish.letter?));
            [family].into_iter().chain(finished).flat_map(|family| {
                (1..=128).filter_map(move |count| family.with_length(Length::from_64ths(count * 2)).ok())
            })
        })
    })
}

fn families() -> Vec<Part<'static>> {
    let mut families: Vec<_> = every_part().map(|part| part.without_length()).collect();
    families.dedup();
    families
}

#[test]
fn every_rivet_reads_back_as_it_prints() {
    let mut count = 0;
    for part in every_part() {
        let printed = part.to_string();
        assert_eq!(Part::parse(&printed), Ok(part), "{printed}");
        assert_eq!(Part::parse(&printed.to_ascii_lowercase()), Ok(part), "{printed}");
        assert!(
            printed.bytes().all(|b| b.is_ascii_uppercase() || b.is_ascii_digit() || b"-.".contains(&b)),
            "{printed}"
        );
        count += 1;
    }
    assert!(count > 25_000, "only {count}");
}

#[test]
fn every_family_reads_back_as_it_prints() {
    for family in families() {
        assert_eq!(Part::parse(&family.to_string()), Ok(family));
        assert_eq!(family.length(), None);
    }
}

#[test]
fn two_rivets_never_print_alike() {
    let mut printed: Vec<String> = every_part().map(|part| part.to_string()).collect();
    let all = printed.len();
    printed.sort();
    printed.dedup();
    assert_eq!(printed.len(), all);
}

#[test]
fn a_half_length_means_the_same_in_both_forms_and_never_one_with_a_letter_alone() {
    for part in every_part().filter(|part| part.series().half_lengths == Some(HalfMark::Point)) {
        let printed = part.to_string();
        let Some(whole) = printed.strip_suffix(".5") else { continue };
        assert_eq!(Part::parse(&format!("{whole}-5")), Ok(part), "{printed}");
        assert!(Part::parse(&format!("{whole}A")).is_err(), "{printed}");
    }
}

#[test]
fn an_oversize_rivet_never_has_the_diameter_of_its_digit() {
    for part in every_part().filter(|part| part.series().oversize > Length::ZERO) {
        assert!(part.diameter() > part.size().standard_diameter());
        assert!(part.in_words().to_string().contains("oversize"), "{part}");
    }
}

/// Text that is nearly a part number: the pieces of one, in any order.
fn nearly() -> impl Strategy<Value = String> {
    let pieces = [
        "MS20470",
        "MS20426",
        "NASM20470",
        "AN470",
        "AN456",
        "AN425",
        "NAS1398",
        "NAS1097",
        "NAS1241",
        "NAS1242",
        "NAS9313",
        "MS20427",
        "MS20615",
        "NAS1198",
        "MS2047",
        "NAS",
        "AD",
        "A",
        "D",
        "DD",
        "B",
        "E",
        "KE",
        "T",
        "M",
        "CU",
        "Q",
        "4",
        "5",
        "7",
        "9",
        "12",
        "0",
        "04",
        "99",
        "100",
        "65536",
        "-",
        "--",
        ".5",
        ".25",
        ".",
        ",",
        " ",
        "\u{2013}",
        "é",
        "\u{202e}",
        "\0",
    ];
    prop::collection::vec(select(pieces.to_vec()), 0..9).prop_map(|pieces| pieces.concat())
}

fn holds_for(text: &str) -> Result<(), TestCaseError> {
    match Part::parse(text) {
        Ok(part) => {
            let printed = part.to_string();
            prop_assert_eq!(Part::parse(&printed), Ok(part), "{} printed {}", text, printed);
            prop_assert!(part.warnings().iter().all(|warning| !warning.to_string().is_empty()));
        }
        Err(error) => {
            let characters = text.chars().count();
            prop_assert!((1..=characters + 1).contains(&error.at), "{:?}: {}", text, error);
            let message = error.to_string();
            prop_assert!(!message.chars().any(char::is_control), "{}", message);
            for offer in error.nearest() {
                prop_assert_eq!(Part::parse(&offer.to_string()), Ok(offer));
                prop_assert!(message.contains(&offer.to_string()), "{}", message);
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn any_text_is_read_or_refused_with_a_place_in_it(text in any::<String>()) {
        holds_for(&text)?;
    }

    #[test]
    fn nearly_a_number_is_read_or_refused_with_valid_offers(text in nearly()) {
        holds_for(&text)?;
    }

    #[test]
    fn a_number_with_one_character_changed_is_never_offered_as_it_stands(
        number in select(vec!["MS20470AD4-5", "AN426AD3-4.5", "NAS9313DD5-6A5", "MS20615-4M6", "NAS1198-4-6"]),
        place in 0_usize..14,
        c in any::<char>(),
    ) {
        let text: String = number.chars().enumerate().map(|(at, old)| if at == place { c } else { old }).collect();
        holds_for(&text)?;
        if let Err(error) = Part::parse(&text) {
            prop_assert!(error.nearest().all(|offer| offer.to_string() != text));
        }
    }

    #[test]
    fn a_length_is_taken_only_in_the_steps_of_the_series(family in select(families()), nm in 1_i64..160_000_000) {
        let length = Length::from_nanometres(nm).expect("in range");
        let stepped = length.floor_to(family.series().length_step());
        let in_steps = length == stepped;
        match family.with_length(length) {
            Ok(part) => {
                prop_assert!(in_steps);
                prop_assert_eq!(part.length(), Some(length));
            }
            Err(PartLengthError::NotInSteps | PartLengthError::NoHalfLengths) => prop_assert!(!in_steps),
            Err(_) => {}
        }
        if let Ok(part) = family.with_length(stepped) {
            prop_assert_eq!(part.length(), Some(stepped));
        }
    }

    #[test]
    fn equal_parts_hash_alike(one in select(families()), other in select(families())) {
        use std::hash::{DefaultHasher, Hash, Hasher};
        let hash = |part: &Part<'_>| {
            let mut hasher = DefaultHasher::new();
            part.hash(&mut hasher);
            hasher.finish()
        };
        let reread = Part::parse(&one.to_string()).expect("a family");
        prop_assert_eq!(hash(&one), hash(&reread));
        prop_assert_eq!(one == other, one.to_string() == other.to_string());
    }
}
