//! What is exactly at a limit is within it, and what there is none of is none.

use shophead::basis::Basis;
use shophead::finding::Code;
use shophead::hole::AsFound;
use shophead::joint::splice::{SpliceError, fewest_rows};
use shophead::length::{Length, Toleranced};
use shophead::material::{EnteredSheet, Material, Property, RivetAlloy};
use shophead::practice::{Case, Dimension, EnterError, Entered, PROCESS};
use shophead::quantity::{Force, Stress};
use shophead::rivet::{Head, MS20426, MS20470};
use shophead::select::check_part;
use shophead::upset::{Fit, HeadLimits, check_sample};
use shophead_tests::prelude::{changed, families, length, material, nm, part};

#[test]
fn a_head_without_a_least_diameter_or_without_metal_has_no_window() {
    let size = MS20470.size(5).unwrap();
    let fit = Fit::new(&MS20470, size, Toleranced::parse(".159").unwrap(), Toleranced::parse(".126").unwrap()).unwrap();
    let limits = HeadLimits::of(&PROCESS, &Case::of(Head::Universal, RivetAlloy::Al2117, size));
    assert!(fit.window(length("3/8"), &limits).is_some());
    let with = |diameter: Length| changed(limits, |limits| limits.diameter_least.as_mut().unwrap().value = diameter);
    for none in [Length::ZERO, nm(-1)] {
        assert_eq!(fit.window(length("3/8"), &with(none)), None, "{none}");
    }
    assert_eq!(fit.window(length("1/16"), &limits), None);
}

#[test]
fn a_cone_without_height_has_no_head() {
    let shank = length("1/8");
    assert_eq!(Head::Flush.cone_diameter(Length::ZERO, shank), None);
    assert_eq!(Head::Flush.cone_height(shank, shank), None);
    assert!(Head::Flush.cone_diameter(length(".001"), shank).is_some_and(|head| head > shank));
    assert_eq!(Head::Universal.cone_diameter(length(".001"), shank), None);
}

#[test]
fn one_gauge_is_no_pair_of_gauges() {
    let (go, no_go) = (length(".1285"), length(".133"));
    assert!(AsFound::gauged(go, no_go).is_some());
    for (go, no_go) in [(go, go), (no_go, go), (Length::ZERO, no_go)] {
        assert_eq!(AsFound::gauged(go, no_go), None);
    }
}

#[test]
fn a_sample_of_all_leaves_nobody_to_look_at() {
    assert_eq!(check_sample(1, 5, 5), None);
    assert_eq!(check_sample(0, 4, 5), None);
    assert!(check_sample(1, 4, 5).is_some());
}

#[test]
fn no_rivets_fill_no_rows() {
    let fewest = |rivets, width: &str| fewest_rows(rivets, length(width), length("1/2"));
    assert_eq!(fewest(1, "10"), Ok(1));
    assert_eq!(fewest(20, "10"), Ok(1));
    assert_eq!(fewest(21, "10"), Ok(2));
    assert_eq!(fewest(0, "10"), Err(SpliceError::NotPositive));
    assert_eq!(fewest(1, "1/4"), Err(SpliceError::NotPositive));
}

#[test]
fn whatever_is_entered_is_something_and_not_twice() {
    let basis = Basis::own(0);
    assert!(Entered::new().is_empty());
    let rivet = part("MS20470AD4");
    type Enter<'f> = &'f dyn Fn(&mut Entered) -> Result<(), EnterError>;
    let sheet = || {
        let sheet = EnteredSheet::new(material("2024-T3"), basis);
        sheet.with(Property::TensionUltimate, Stress::from_ksi(60.0))
    };
    let all: [Enter<'_>; 5] = [
        // What was entered of a size before is replaced.
        &|entered| entered.size(&MS20470, 4, Dimension::Shank, Toleranced::parse("1/8").unwrap(), basis),
        &|entered| entered.length_tolerance(&MS20470, length(".01"), basis),
        &|entered| entered.sheet(sheet()),
        &|entered| entered.shear(RivetAlloy::Al2117, Stress::from_ksi(30.0), basis),
        &|entered| entered.tension(&rivet, Force::from_lbf(100.0), basis),
    ];
    for (place, enter) in all.into_iter().enumerate() {
        let mut entered = Entered::new();
        assert_eq!(enter(&mut entered), Ok(()), "{place}");
        assert!(!entered.is_empty(), "{place}");
        let again = if place == 0 { Ok(()) } else { Err(EnterError::SaidTwice) };
        assert_eq!(enter(&mut entered), again, "{place}");
    }
    // Of another series, another alloy it is not the same.
    let mut entered = Entered::new();
    for series in [&MS20470, &MS20426] {
        assert_eq!(entered.length_tolerance(series, length(".01"), basis), Ok(()));
    }
    for alloy in [RivetAlloy::Al2117, RivetAlloy::Al2024] {
        assert_eq!(entered.shear(alloy, Stress::from_ksi(30.0), basis), Ok(()));
    }
    for none in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let mut entered = Entered::new();
        assert_eq!(entered.tension(&rivet, Force::from_lbf(none), basis), Err(EnterError::NotPositive), "{none}");
        assert_eq!(
            entered.shear(RivetAlloy::Al2117, Stress::from_psi(none), basis),
            Err(EnterError::NotPositive),
            "{none}"
        );
        assert!(entered.is_empty());
    }
}

#[test]
fn a_shops_own_material_is_named_once_however_many_sheets_it_has() {
    let basis = Basis::own(0);
    let own = |name| Material::own(name).unwrap();
    let mut entered = Entered::new();
    for (material, from, to) in [
        (own("2219-T87"), ".01", ".05"),
        (own("7050-T7"), ".01", ".05"),
        (own("2219-T87"), ".051", ".1"),
        (material("2024-T3"), ".01", ".1"),
    ] {
        let sheet = EnteredSheet::new(material, basis).between(length(from), length(to));
        entered.sheet(sheet.with(Property::TensionUltimate, Stress::from_ksi(60.0))).unwrap();
    }
    assert_eq!(entered.materials().collect::<Vec<_>>(), [own("2219-T87"), own("7050-T7")]);
}

#[test]
fn a_length_of_the_table_is_no_note_and_one_beyond_either_end_is() {
    let mut seen = 0;
    for family in families() {
        let size = family.size();
        for (end, sixteenth) in [(size.shortest_tabulated, -1), (size.longest_tabulated, 1)] {
            let Some(end) = end else { continue };
            let noted = |length: Length| {
                family.with_length(length).ok().map(|part| check_part(&part).has(Code::LengthNotTabulated))
            };
            assert_ne!(noted(end), Some(true), "{family} {end}");
            let beyond = nm(end.nanometres() + sixteenth * Length::SIXTEENTH.nanometres());
            assert_ne!(noted(beyond), Some(false), "{family} {beyond}");
            seen += usize::from(noted(beyond).is_some());
        }
    }
    assert_eq!(seen, 18);
}
