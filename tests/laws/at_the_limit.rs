//! What is exactly at a limit is within it, and what there is none of is none.

use std::collections::HashSet;
use std::hash::{BuildHasher as _, RandomState};

use shophead::answer::{Answered, Ruling};
use shophead::basis::{Basis, Status};
use shophead::drill::Drill;
use shophead::fact::{Fact, Facts};
use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::joint::splice::{SpliceError, fewest_rows};
use shophead::length::{Bare, Interval, Length, LengthErrorKind, Toleranced};
use shophead::material::{EnteredSheet, Material, Property, RivetAlloy};
use shophead::practice::{
    BUILT_IN, Case, Dimension, EnterError, Entered, EnteredJoint, Given, HANDBOOK, Key, Limit, Name, PROCESS, Scope,
    Value,
};
use shophead::quantity::{Force, Stress};
use shophead::rivet::part::{Part, PartWarning};
use shophead::rivet::{Head, MS20426, MS20470, NAS1097, NAS1241};
use shophead::select::check_part;
use shophead::stack::{Preparation, Stack};
use shophead::structure::Structure;
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
    assert_eq!(entered.length_tolerance(&NAS1097, Length::ZERO, basis), Ok(()));
    assert!(entered.has_length_tolerance(&NAS1097) && !entered.has_length_tolerance(&MS20470));
    assert_eq!(entered.length_tolerance(&NAS1241, nm(-1), basis), Err(EnterError::NotPositive));
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

#[test]
fn both_ends_are_within_and_nothing_beyond_them_is() {
    let between = Interval::new(length(".1"), length(".2")).unwrap();
    for (at, is) in [(".099999", false), (".1", true), (".15", true), (".2", true), (".200001", false)] {
        assert_eq!(between.contains(length(at)), is, "{at}");
    }
    let own = EnteredSheet::new(material("2024-T3"), Basis::own(0)).between(length(".1"), length(".2"));
    for (thickness, is) in [(".099", false), (".1", true), (".2", true), (".201", false)] {
        assert_eq!(own.covers(material("2024-T3"), length(thickness)), is, "{thickness}");
        assert!(!own.covers(material("6061-T6"), length(thickness)), "{thickness}");
    }
}

#[test]
fn a_hole_of_an_inch_is_no_slip_and_a_wider_one_without_a_unit_may_be() {
    let read = |text| Length::parse_hole(text, Bare::Inches).map_err(|error| error.to_string());
    assert_eq!(read("1"), Ok(Length::INCH));
    assert_eq!(read("1.001in"), Ok(length("1.001")));
    assert!(read("1.001").is_err());
    // Thousandths, or the decimals as they are.
    for (text, asks) in [("161", ".161"), ("1285", ".1285")] {
        let error = read(text).unwrap_err();
        assert!(error.contains(&format!("did you mean {asks}? If it is so wide")), "{error}");
    }
}

#[test]
fn a_number_may_have_zeros_before_it_and_only_so_many_digits() {
    let zeros = "0".repeat(60);
    assert_eq!(Length::parse(&format!("{zeros}1in")), Ok(Length::INCH));
    assert_eq!(Length::parse(&format!("1.{zeros}")), Ok(Length::INCH));
    let kind = |text: &str| Length::parse(text).map_err(|error| error.kind);
    assert_eq!(kind(&format!("1{zeros}")), Err(LengthErrorKind::TooLarge));
    assert_eq!(kind(&format!("0.{zeros}1")), Ok(Length::ZERO));
    for fraction in ["1.5/2", "1/2.5", "1 1.5/2", "1 1/2.5"] {
        assert_eq!(kind(fraction), Err(LengthErrorKind::UnexpectedCharacter), "{fraction}");
    }
}

#[test]
fn a_tolerance_has_one_sign() {
    assert!(Toleranced::parse(".125+.003-.002").is_ok());
    for twice in [".125+-.003-.002", ".125+.003--.002", ".125+--.003", ".125+-+-.003", ".125+(-.003)-.002"] {
        assert!(Toleranced::parse(twice).is_err(), "{twice}");
    }
}

#[test]
fn a_rivet_is_told_by_its_name_and_not_by_where_its_series_stands() {
    let copy = MS20470;
    let (built_in, copied) = (part("MS20470AD4-5"), Part::new(&copy, "AD", copy.size(4).unwrap()).unwrap());
    let copied = copied.with_length(length("5/16")).unwrap();
    assert_eq!(copied, built_in);
    assert_ne!(copied.without_length(), built_in);
    let size = *MS20470.size(5).unwrap();
    assert_eq!(built_in.in_size(&size), Some(part("MS20470AD5")));
    let hasher = RandomState::new();
    assert_eq!(hasher.hash_one(copied), hasher.hash_one(built_in));
    // Nothing but chance gives two of them one number.
    let all: HashSet<u64> = families().map(|family| hasher.hash_one(family)).collect();
    assert_eq!(all.len(), families().count());
    let others = [
        "MS20470AD4-5",
        "MS20470AD4-6",
        "MS20470AD5-5",
        "MS20470DD4-5",
        "MS20426AD4-5",
        "NAS9313AD4-5",
        "NAS9313AD4-5A",
    ];
    for (place, one) in others.iter().enumerate() {
        for (other, another) in others.iter().enumerate() {
            assert_eq!(part(one) == part(another), place == other, "{one} {another}");
        }
    }
}

#[test]
fn a_tested_joint_has_figures_and_stands_once_for_its_rivet_and_sheet() {
    let basis = Basis::own(0);
    let joint = |name: &str| {
        let sheet = (material("2024-T3"), length(".05"));
        EnteredJoint::new(&part(name), Preparation::Countersunk, sheet, Force::from_lbf(300.0), basis)
    };
    let mut entered = Entered::new();
    for (place, name) in ["MS20426AD4", "MS20426AD5", "MS20426DD4", "NAS1097AD4"].iter().enumerate() {
        assert_eq!(entered.joint(joint(name)), Ok(()), "{name}");
        assert_eq!(entered.joint(joint(name)), Err(EnterError::SaidTwice), "{name}");
        assert_eq!(entered.joints().len(), place + 1);
    }
    let wrong: [fn(&mut EnteredJoint); 7] = [
        |joint| joint.thickness = Length::ZERO,
        |joint| joint.edge = Length::ZERO,
        |joint| joint.ultimate = Force::ZERO,
        |joint| joint.ultimate = Force::from_lbf(-1.0),
        |joint| joint.ultimate = Force::from_lbf(f64::NAN),
        |joint| joint.yield_load = Some(Force::ZERO),
        |joint| joint.yield_load = Some(Force::from_lbf(f64::INFINITY)),
    ];
    for (place, change) in wrong.into_iter().enumerate() {
        assert_eq!(Entered::new().joint(changed(joint("MS20426AD4"), change)), Err(EnterError::NotPositive), "{place}");
    }
}

#[test]
fn rows_are_asked_how_far_apart_they_are_and_one_row_is_not() {
    let stack = Stack::parse("2024-T3:.040, 2024-T3:.063").unwrap();
    let load = Load { force: Force::from_lbf(100.0), kind: LoadKind::Ultimate };
    let of = |rows| {
        let question = Installation::new(part("MS20470AD4"), &stack).edge(length("1/2")).pitch(length("1"));
        question.rows(rows).load(load, Factors::SEAM).row().unwrap().joint.findings
    };
    for (rows, are_many) in [(1, false), (2, true), (3, true)] {
        let found = of(rows);
        let asked = found.iter().find_map(|finding| match finding.measured() {
            Some(Figure::Facts(facts)) if finding.code() == Code::NotChecked => Some(facts),
            _ => None,
        });
        assert_eq!(asked.is_some_and(|facts| facts.has(Fact::RowSpacing)), are_many, "{rows}");
    }
}

/// MIL-HDBK-5J's bearing figures of some sheets are of dry pins: sealant in the pack is a caution, but not where the joint is a tested one.
#[test]
fn sealant_is_said_beside_a_straight_hole_and_not_beside_a_countersink() {
    let wet = |layers: &str| {
        let stack = Stack::parse(layers).unwrap();
        Installation::new(part("MS20426AD4"), &stack).findings().has(Code::WetBearing)
    };
    assert!(wet("2024-T3:.063, .005:sealant, 2024-T3:.063"));
    assert!(wet("2024-T3:.063:countersunk, .005:sealant, 2024-T3:.063"));
    assert!(!wet("2024-T3:.063, 2024-T3:.063"));
    assert!(!wet("2024-T3:.063:countersunk, .005:sealant, 2024-T3:.063:countersunk"));
}

#[test]
fn of_one_row_nobody_asks_how_it_shares_the_load() {
    let own = Material::own("2219-T87").unwrap();
    let mut entered = Entered::new();
    let sheet = EnteredSheet::new(own, Basis::own(0));
    entered.sheet(sheet.with(Property::TensionUltimate, Stress::from_ksi(60.0))).unwrap();
    let practice = HANDBOOK.with_entered(&entered);
    let stack = practice.layers("2219-T87:.063, 2219-T87:.063").unwrap();
    let load = Load { force: Force::from_lbf(100.0), kind: LoadKind::Ultimate };
    let question = Installation::new(part("MS20470AD4"), &stack).by(&practice).edge(length("1/2")).pitch(length("1"));
    for (rows, are_many) in [(1, false), (2, true), (3, true)] {
        let rows_of = question.rows(rows).row_spacing(length("1")).load(load, Factors::SEAM);
        let not_known =
            rows_of.row().unwrap().joint.findings.iter().find(|found| found.code() == Code::SharesNotKnown).copied();
        assert_eq!(not_known.is_some(), are_many, "{rows}");
        // And it says what to enter.
        assert!(not_known.is_none_or(|found| found.layer() == Some(1) && found.key().is_some()), "{rows}");
    }
}

/// A new head is cut into the layer that took the old one; where several do, or none, no layer is named.
#[test]
fn a_larger_flush_head_names_its_layer_where_there_is_one() {
    let seat = |layers: &str| {
        let stack = Stack::parse(layers).unwrap();
        let question = Installation::new(part("MS20426AD4"), &stack)
            .edge(length("1"))
            .pitch(length("2"))
            .in_place_of(part("MS20426AD4"));
        let found = AsFound::new(length(".155"), length(".155"), Damage::None).unwrap();
        let mut seats = Vec::new();
        question.hole_step_by_step(found, &mut |step| {
            seats.extend(step.findings.iter().filter(|found| found.code() == Code::SeatForNewHead).map(Finding::layer));
        });
        seats.dedup();
        let [layer] = seats.as_slice() else { panic!("{layers}: {seats:?}") };
        *layer
    };
    assert_eq!(seat("2024-T3:.125:countersunk, 2024-T3:.125"), Some(1));
    assert_eq!(seat("2024-T3:.125:countersunk, 2024-T3:.125:countersunk"), None);
    assert_eq!(seat("2024-T3:.125, 2024-T3:.125:countersunk"), Some(2));
}

/// Of a hole that no drill is as large as it is said how much too large it is.
#[test]
fn a_hole_larger_than_every_drill_is_over_its_limit() {
    let stack = Stack::parse("2024-T3:.125, 2024-T3:.125").unwrap();
    let question = Installation::new(part("MS20470AD4"), &stack).edge(length("9")).pitch(length("9"));
    let wide = length("6");
    let found = AsFound::new(wide, wide, Damage::None).unwrap();
    let mut over: Vec<Finding> = Vec::new();
    question.hole_step_by_step(found, &mut |step| {
        over.extend(step.findings.iter().filter(|found| found.code() == Code::HoleOverLimit).copied());
    });
    assert!(!over.is_empty());
    for found in over {
        assert_eq!(found.measured(), Some(Figure::Length(wide)));
        assert!(matches!(found.limit(), Some(Figure::Length(limit)) if limit < wide), "{found:?}");
    }
}

/// What was not given is not compared: that is said, and nothing is said of strengths instead.
#[test]
fn another_rivet_is_compared_only_where_everything_of_both_is_given() {
    let (known, not_known) = ("2024-T3:.063, 2024-T3:.063", "2024-T3:.063, .063");
    let found = |before: &str, now: &str, edge: Option<&str>| {
        let (before, now) = (Stack::parse(before).unwrap(), Stack::parse(now).unwrap());
        let question = Installation::new(part("MS20470AD3"), &now).pitch(length("2")).in_place_of(part("MS20470AD4"));
        let question = question.in_place_of_layers(&before);
        let question = match edge {
            Some(edge) => question.edge(length(edge)),
            None => question,
        };
        question.strength().unwrap().findings.iter().copied().collect::<Vec<_>>()
    };
    let has = |found: &[Finding], code| found.iter().any(|finding| finding.code() == code);
    let compared_in_vain = |found: &[Finding]| found.iter().any(|finding| finding.basis() == Basis::AC43_NOT_WEAKER);
    let compares = |found: &[Finding]| has(found, Code::WeakerThanBefore);
    let refers = |found: &[Finding]| {
        found.iter().any(|finding| finding.code() == Code::NotChecked && finding.severity() == Severity::Refer)
    };
    let all = found(known, known, Some("1"));
    assert!(compares(&all) && !refers(&all));
    for (before, now, edge) in [
        (known, not_known, Some("1")),
        (not_known, known, Some("1")),
        (known, known, None),
        (not_known, not_known, None),
    ] {
        let found = found(before, now, edge);
        assert!(!compares(&found) && !compared_in_vain(&found), "{before} {now} {edge:?}: {found:?}");
        assert!(refers(&found), "{before} {now} {edge:?}: {found:?}");
    }
}

/// A shop that lets its heads be so wide and no wider keeps the rivet with the most metal from being driven lower than that.
#[test]
fn a_shops_greatest_head_raises_the_lowest_to_drive_to() {
    let size = MS20470.size(5).unwrap();
    let fit = Fit::new(&MS20470, size, Toleranced::parse(".159+.004-0").unwrap(), Toleranced::parse(".126").unwrap())
        .unwrap();
    let limits = HeadLimits::of(&PROCESS, &Case::of(Head::Universal, RivetAlloy::Al2117, size));
    let with = |greatest: Length, basis: Basis| {
        changed(limits, |limits| limits.diameter_greatest = Some(Given { value: greatest, basis }))
    };
    let chosen = length("3/8");
    let least = fit.window(chosen, &with(length("1"), Basis::own(0))).unwrap().height.min();
    assert_eq!(Some(least), limits.height_least.map(|least| least.value));
    // Half way between the widest head at the lowest height and the widest at the highest.
    let widest = |height| fit.predict(chosen, height).diameter.max;
    let highest = limits.height_greatest.unwrap().value;
    let greatest = nm((widest(least).nanometres() + widest(highest).nanometres()) / 2);
    let window = fit.window(chosen, &with(greatest, Basis::own(0))).unwrap();
    assert!(window.height.min() > least && widest(window.height.min()) <= greatest);
    // Not by more than it takes.
    assert!(widest(nm(window.height.min().nanometres() - 100)) > greatest);
    // A figure of a training sheet rejects nothing, and no figure is none.
    for (greatest, basis) in [(greatest, Basis::HDBK5H_DRIVEN_HEADS), (Length::ZERO, Basis::own(0))] {
        assert_eq!(fit.window(chosen, &with(greatest, basis)).unwrap().height.min(), least, "{greatest}");
    }
}

#[test]
fn what_is_printed_of_a_recalled_rivet_names_the_document() {
    let mut seen = 0;
    for family in families() {
        let recalled = |warning: &PartWarning<'_>| matches!(warning, PartWarning::Recalled { .. });
        assert_eq!(check_part(&family).has(Code::LimitFromMemory), family.warnings().iter().any(recalled), "{family}");
        for warning in family.warnings() {
            if let PartWarning::Recalled { basis } = warning {
                let document = basis.citation().expect("built in").document;
                assert!(warning.to_string().contains(document), "{family}: {warning}");
                seen += 1;
            }
        }
    }
    assert!(seen > 0);
}

#[test]
fn what_is_printed_for_a_developer_says_which_it_is() {
    let stack = Stack::parse("2024-T3:.040, 2024-T3:.063").unwrap();
    let found = Installation::new(part("MS20470AD4"), &stack).strength().unwrap().findings;
    let finding = found.iter().find(|finding| finding.code() == Code::NotChecked).expect("edge and pitch are missing");
    let debug = format!("{finding:?}");
    assert!(debug.contains("NotChecked") && debug.contains("Caution"), "{debug}");
    assert!(debug.contains(&format!("{:?}", Facts::NONE.with(Fact::Edge))), "{debug}");
    assert_ne!(format!("{:?}", Facts::NONE.with(Fact::Edge)), format!("{:?}", Facts::NONE.with(Fact::Pitch)));
    assert!(format!("{:?}", part("MS20470AD4-5")).contains("MS20470AD4-5"));
    assert_eq!(format!("{:?}", length("1/8")), "0.1250000 in");
    assert!(format!("{MS20470:?}").contains("MS20470"));
    assert!(format!("{:?}", material("2024-T3")).contains("2024-T3"));
    assert!(format!("{:?}", Key::of_limit(Name::HoleDrill)).contains(Name::HoleDrill.as_str()));
}

#[test]
fn a_stress_is_the_same_in_every_unit_that_it_is_read_in() {
    let psi = |text: &str| Stress::parse(text).unwrap().psi();
    for (text, same) in [("20ksi", "20000psi"), ("10.3msi", "10300ksi"), ("70GPa", "70000MPa")] {
        assert!((psi(text) / psi(same) - 1.0).abs() < 1e-12, "{text}");
    }
    // NIST SP 811, appendix B.8: 1 psi is 6.894 757 E+03 Pa, seven figures.
    assert!((psi("6.894757MPa") / 1000.0 - 1.0).abs() < 1e-7);
    assert_eq!("1/8".parse(), Ok(length(".125")));
    assert_eq!("12.5lbf".parse(), Ok(Force::from_lbf(12.5)));
}

#[test]
fn one_row_has_no_next_row_to_touch() {
    let stack = Stack::parse("2024-T3:.063, 2024-T3:.063").unwrap();
    let question = Installation::new(part("MS20470AD4"), &stack).pitch(length("1")).row_spacing(length(".1"));
    assert!(!question.rows(1).findings().has(Code::RivetsTouch));
    assert!(question.rows(2).findings().has(Code::RivetsTouch));
}

/// A flush head sits in its sheet: nothing is said about how it pulls through.
#[test]
fn a_protruding_head_holds_its_sheet_and_of_a_flush_one_nothing_is_said() {
    for (rivet, layers, holds) in [
        ("MS20470AD4", "2024-T3:.063, 2024-T3:.063", true),
        ("MS20426AD4", "2024-T3:.063:countersunk, 2024-T3:.063", false),
    ] {
        let stack = Stack::parse(layers).unwrap();
        let question = Installation::new(part(rivet), &stack).edge(length("1")).pitch(length("2"));
        let [manufactured, driven] = question.axial(&question.strength().unwrap()).pull;
        assert_eq!((manufactured.is_some(), driven.is_some()), (holds, true), "{rivet}");
    }
}

/// The rule of thumb and the lengths within limits differ where the one is not among the others, and the figure that keeps it out is the one cited.
#[test]
fn the_rule_differs_where_its_length_is_not_usable() {
    let mut seen = [0; 3];
    // A shop that lets tails be no longer than this.
    let tail = Value::Diameters { num: 5, den: 4, plus: Length::ZERO };
    let short = [Limit::new(Name::TailGreatest, Scope::ANY, tail, Basis::own(0))];
    let practices = BUILT_IN.into_iter().flat_map(|practice| [*practice, practice.with_own(&short, &[])]);
    for practice in practices.collect::<Vec<_>>().iter() {
        for name in ["MS20470AD2", "MS20426AD2", "MS20426AD3", "MS20470AD3", "MS20470AD4", "MS20470AD6", "MS20470AD8"] {
            for thousandths in (20..900).step_by(7) {
                let grip = nm(thousandths * 25_400);
                let question = Installation::through(part(name), Toleranced::exactly(grip)).by(practice);
                let answer = question.length().unwrap();
                let Some(usable) = answer.usable else { continue };
                let rule = answer.rule_of_thumb_length;
                assert_eq!(answer.difference.is_none(), usable.contains(rule), "{name} {grip}");
                let cited = answer.findings.iter().find(|found| found.code() == Code::DiffersFromRule);
                let Some(cited) = cited else { continue };
                if rule < usable.shortest.value {
                    assert_eq!(cited.basis(), usable.shortest.basis, "{name} {grip}");
                    seen[0] += 1;
                } else if rule > usable.longest.value {
                    assert_eq!(cited.basis(), usable.longest.basis, "{name} {grip}");
                    seen[1] += 1;
                } else {
                    seen[2] += 1;
                }
            }
        }
    }
    assert!(seen[0] > 0 && seen[1] > 0, "{seen:?}");
}

/// Of a length that somebody else chose it is said that it is too short only where it is, and too long only where it is.
#[test]
fn a_length_at_an_end_of_what_is_usable_is_not_beyond_it() {
    for thousandths in (20..900).step_by(11) {
        let question = Installation::through(part("MS20470AD4"), Toleranced::exactly(nm(thousandths * 25_400)));
        let Some(usable) = question.length().unwrap().usable else { continue };
        for at in [usable.shortest.value, usable.longest.value] {
            let found = question.assess(at).unwrap().findings;
            let refers = |code| found.iter().any(|found| found.code() == code && found.severity() == Severity::Refer);
            assert_eq!(refers(Code::TailTooShort), at < usable.shortest.value, "{at}");
            assert_eq!(refers(Code::TailTooLong) || refers(Code::HeadTooLarge), at > usable.longest.value, "{at}");
        }
    }
}

#[test]
fn a_rivet_as_thick_as_its_sheet_is_thick_enough() {
    let found = |name: &str, layers: &str| {
        let stack = Stack::parse(layers).unwrap();
        Installation::new(part(name), &stack).structure(Structure::Primary).findings()
    };
    for (name, layers, outside) in [
        ("MS20470AD4", ".125, .125", false),
        ("MS20470AD4", ".126, .125", true),
        // Three times .040 is .120, so 1/8 is the thickest; three times 1/24 is just 1/8.
        ("MS20470AD4", ".040, .040", false),
        ("MS20470AD5", ".040, .040", true),
        ("MS20470AD5", ".042, .040", false),
    ] {
        assert_eq!(found(name, layers).has(Code::DiameterOutsideRule), outside, "{name} {layers}");
    }
    assert!(found("MS20470AD2", ".040, .040").has(Code::NotStructural));
    assert!(!found("MS20470AD3", ".040, .040").has(Code::NotStructural));
}

/// Of a shop's own limits that meet each keeps its source.
#[test]
fn a_figure_that_is_just_another_is_cited_by_itself() {
    let size = MS20470.size(4).unwrap();
    let case = Case::of(Head::Universal, RivetAlloy::Al2117, size);
    let own = |name, value: Length, place| Limit::new(name, Scope::ANY, Value::Length(value), Basis::own(place));
    let high = |target: &str, greatest: &str| {
        let own = [own(Name::HeadHeightTarget, length(target), 0), own(Name::HeadHeightGreatest, length(greatest), 1)];
        let target = HeadLimits::of(&PROCESS.with_own(&own, &[]), &case).height_target.unwrap();
        (target.value, target.basis.own_place())
    };
    assert_eq!(high(".060", ".060"), (length(".060"), Some(0)));
    assert_eq!(high(".060", ".061"), (length(".060"), Some(0)));
    assert_eq!(high(".060", ".059"), (length(".059"), Some(1)));
    // The hole as drilled is never wider than the widest.
    let drilled = |greatest: &str| {
        let own = [
            own(Name::HoleDrill, length(".128"), 0),
            own(Name::HoleDrilledGreatest, length(".130"), 1),
            Limit::new(
                Name::HoleGreatest,
                Scope::ANY,
                Value::Length(length(greatest)),
                Basis::own_as(Status::Memory, 2),
            ),
        ];
        let hole = PROCESS.with_own(&own, &[]).hole_for(&case).unwrap();
        (hole.value.max(), hole.basis.own_place())
    };
    assert_eq!(drilled(".129"), (length(".129"), Some(2)));
    assert_eq!(drilled(".130"), (length(".130"), Some(0)));
    assert_eq!(drilled(".131"), (length(".130"), Some(0)));
}

/// Drilled round its longest axis a hole may come nearer to the edge; one that is kept does not move.
#[test]
fn an_answer_that_keeps_a_hole_does_not_move_it_and_one_with_a_drill_may() {
    let stack = Stack::parse("2024-T3:.125, 2024-T3:.125").unwrap();
    let found = AsFound::new(length(".150"), length(".130"), Damage::None).unwrap();
    let drill = Drill::nearest_at_or_above(length(".159"));
    // Two diameters: just enough.
    for (answered, edge, moves) in [
        (Answered::new(Ruling::Keep), "1/4", false),
        (Answered::new(Ruling::NextSize).drill(drill), "5/16", true),
        (Answered::new(Ruling::NextSize).drill(drill), ".3225", false),
    ] {
        let question = Installation::new(part("MS20470AD4"), &stack).edge(length(edge)).pitch(length("2"));
        let step = question.in_place_of(part("MS20470AD4")).as_answered(Some(found), &answered).unwrap();
        assert_eq!(step.findings.has(Code::EdgeDistanceShort), moves, "{answered:?}: {:?}", step.findings);
    }
}

#[test]
fn no_number_beyond_every_length_is_one() {
    for none in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e30, -1e30] {
        assert_eq!(Length::try_from_inches_f64(none), None, "{none}");
    }
    assert_eq!(Length::try_from_inches_f64(-0.125), Some(nm(-3_175_000)));
}

/// A tested joint counts for its own rivet, preparation and material.
#[test]
fn a_tested_joint_counts_where_it_is_that_joint_and_nowhere_else() {
    let carries = |entered: Option<EnteredJoint>, layers: &str| {
        let mut kept = Entered::new();
        if let Some(joint) = entered {
            kept.joint(joint).unwrap();
        }
        let practice = HANDBOOK.with_entered(&kept);
        let stack = Stack::parse(layers).unwrap();
        let question = Installation::new(part("MS20426AD4"), &stack).by(&practice).edge(length("1")).pitch(length("2"));
        question.strength().unwrap().allowable.map(|allowable| allowable.force.lbf())
    };
    let layers = "2024-T3:.063:countersunk, 2024-T3:.125";
    let joint = |name: &str, preparation, of: &str| {
        EnteredJoint::new(
            &part(name),
            preparation,
            (material(of), length(".063")),
            Force::from_lbf(77.0),
            Basis::own(0),
        )
    };
    let published = carries(None, layers);
    assert_eq!(carries(Some(joint("MS20426AD4", Preparation::Countersunk, "2024-T3")), layers), Some(77.0));
    for (name, preparation, of) in [
        ("MS20426AD4", Preparation::Dimpled, "2024-T3"),
        ("MS20426AD4", Preparation::Plain, "2024-T3"),
        ("MS20426AD4", Preparation::Countersunk, "7075-T6"),
        ("MS20426AD5", Preparation::Countersunk, "2024-T3"),
        ("MS20426DD4", Preparation::Countersunk, "2024-T3"),
        ("NAS1097AD4", Preparation::Countersunk, "2024-T3"),
    ] {
        assert_eq!(carries(Some(joint(name, preparation, of)), layers), published, "{name} {of}");
    }
}

#[test]
fn a_hole_that_is_cleaned_up_is_cut_and_one_that_takes_the_next_size_need_not_be() {
    let stack = Stack::parse("2024-T3:.125, 2024-T3:.125").unwrap();
    let question = Installation::new(part("MS20470AD4"), &stack)
        .edge(length("1"))
        .pitch(length("2"))
        .in_place_of(part("MS20470AD4"));
    for (ruling, hole, is_cut) in [
        (Ruling::CleanUp, ".1285", true),
        (Ruling::NextSize, ".161", false),
        (Ruling::NextSize, ".150", true),
        (Ruling::Keep, ".1285", false),
    ] {
        let found = AsFound::new(length(hole), length(hole), Damage::None).unwrap();
        let step = question.as_answered(Some(found), &Answered::new(ruling)).unwrap();
        assert_eq!(step.cut.is_some(), is_cut, "{ruling:?} {hole}");
    }
}

/// On primary structure an edge, a pitch or a material that was not given is referred, how far apart rows are is not.
#[test]
fn what_decides_on_primary_structure_is_referred_where_it_was_not_given() {
    let found = |layers: &str, edge: bool, pitch: bool, spacing: bool, structure| {
        let stack = Stack::parse(layers).unwrap();
        let mut question = Installation::new(part("MS20470AD4"), &stack).structure(structure).rows(2);
        if edge {
            question = question.edge(length("1/2"));
        }
        if pitch {
            question = question.pitch(length("1"));
        }
        if spacing {
            question = question.row_spacing(length("1"));
        }
        let not_checked = |found: &Finding| found.code() == Code::NotChecked;
        match question.row() {
            Ok(row) => row.joint.findings.iter().find(|found| not_checked(found)).map(Finding::severity),
            // Without a pitch there is nothing so much an inch; a hole is drilled in it all the same.
            Err(_) => {
                let hole = AsFound::new(length(".150"), length(".150"), Damage::None).unwrap();
                question.hole(hole).findings.iter().find(|found| not_checked(found)).map(Finding::severity)
            }
        }
    };
    let (known, not_known) = ("2024-T3:.063, 2024-T3:.063", "2024-T3:.063, .063");
    for (layers, edge, pitch, spacing, on_primary) in [
        (known, true, true, true, None),
        (known, true, true, false, Some(Severity::Caution)),
        (known, false, true, true, Some(Severity::Refer)),
        (known, true, false, true, Some(Severity::Refer)),
        (not_known, true, true, true, Some(Severity::Refer)),
    ] {
        let asked = |structure| found(layers, edge, pitch, spacing, structure);
        assert_eq!(asked(Structure::Primary), on_primary, "{layers} {edge} {pitch} {spacing}");
        assert_eq!(
            asked(Structure::Secondary),
            on_primary.map(|_| Severity::Caution),
            "{layers} {edge} {pitch} {spacing}"
        );
    }
}

/// A name with a blank or a point in it stands between quotes, as in the file that it is entered in.
#[test]
fn a_key_is_read_back_as_it_is_printed() {
    let rivet = part("MS20426AD4");
    let mut keys: Vec<Key> = Name::ALL.iter().map(|name| Key::of_limit(*name)).collect();
    keys.extend(RivetAlloy::ALL.iter().map(|alloy| Key::of_shear(*alloy)));
    for material in
        Material::known().chain([Material::own("2219-T87").unwrap(), Material::own("clad 2219-T87").unwrap()])
    {
        keys.extend(Property::ALL.iter().map(|property| Key::of_sheet(material, *property)));
        keys.extend([Key::of_bend_radius(material), Key::of_density(material)]);
    }
    keys.extend(
        [Key::of_flush_joint(&rivet), Key::of_plain_joint(&rivet), Key::of_tension(&rivet)].into_iter().flatten(),
    );
    for key in keys {
        let printed = key.to_string();
        assert_eq!(Key::parse(&printed), Ok(key), "{printed}");
        assert_eq!(Key::from_number(key.number()), Some(key), "{printed}");
        let (quoted, blank) = (printed.contains('"'), printed.contains(' '));
        assert!(quoted || !blank, "{printed}");
    }
    assert_eq!(Key::of_shear(RivetAlloy::CarbonSteel).to_string(), "rivet.\"carbon steel\".shear_ultimate");
    assert_eq!(Key::of_shear(RivetAlloy::Al2117).to_string(), "rivet.2117.shear_ultimate");
}

/// Where nobody measured, the hole is as wide as the drill that the answer names.
#[test]
fn an_answer_for_a_hole_that_nobody_measured_is_judged_in_the_hole_of_its_drill() {
    let stack = Stack::parse("2024-T3:.125, 2024-T3:.125").unwrap();
    let question = Installation::new(part("MS20470AD4"), &stack).edge(length("1")).pitch(length("2"));
    let question = question.in_place_of(part("MS20470AD4"));
    for (drill, does_not_enter) in [(".1285", true), (".159", false)] {
        let drill = Drill::nearest_at_or_above(length(drill));
        let answered = Answered::new(Ruling::Rivet).rivet(Some(part("MS20470AD5"))).drill(drill);
        let step = question.as_answered(None, &answered).unwrap();
        assert_eq!(step.hole.map(|hole| hole.min()), drill.map(|drill| drill.diameter()));
        assert_eq!(step.findings.has(Code::ShankDoesNotEnter), does_not_enter, "{drill:?}: {:?}", step.findings);
    }
}
