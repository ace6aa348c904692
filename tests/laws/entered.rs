//! Laws of a limits file: what is not known names the key to enter, and entering it answers; a stricter file never permits more.

use std::collections::BTreeSet;
use std::path::Path;

use proptest::prelude::*;
use shophead::damage::{DamageKind, Damaged, judge as judge_damage};
use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::length::{Length, Toleranced};
use shophead::material::{Material, Property};
use shophead::practice::{BUILT_IN, Case, Dimension, Entry, Key, Name, Practice};
use shophead::quantity::{Force, Stress};
use shophead::repair::bend;
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::upset::{MeasuredHead, judge};
use shophead_job::model::OwnLimits;
use shophead_tests::prelude::{families, length, nm};

use crate::common::config;

/// What says that something is not on file.
const NOT_KNOWN: [Code; 7] = [
    Code::NoLimit,
    Code::StrengthNotPublished,
    Code::DamageNotLimited,
    Code::SharesNotKnown,
    Code::HeadBetween,
    Code::SheetTooThinForTable,
    Code::EdgeMarginBelowTable,
];

/// A limits file with this line in it, as the key was printed.
fn file(line: &str) -> OwnLimits {
    let text = format!("title = \"t\"\ndocument = \"d\"\n{line}\n");
    OwnLimits::read_from(text.into(), Path::new("l.toml")).unwrap_or_else(|error| panic!("{line}: {error}"))
}

/// Asks with such a file on top of a practice.
fn asked<T>(practice: &Practice<'static>, line: &str, ask: impl FnOnce(&Practice<'_>) -> T) -> T {
    let own = file(line);
    let (limits, documents) = own.lists();
    let practice = practice.with_own(&limits, &documents).with_entered(&own.entered);
    ask(&practice)
}

/// What is asked: a rivet in its pack, its hole, its load.
#[derive(Clone)]
struct Asked {
    rivet: Part<'static>,
    stack: Stack,
    hole: Option<Length>,
    edge: Length,
}

impl Asked {
    /// Everything that every question finds.
    fn findings(&self, practice: &Practice<'_>) -> Vec<Finding> {
        let load = Load { force: Force::from_lbf(100.0), kind: LoadKind::Ultimate };
        let question = Installation::new(self.rivet, &self.stack)
            .by(practice)
            .edge(self.edge)
            .pitch(length("2"))
            .row_spacing(length("2"))
            .load(load, Factors::SEAM);
        let question = match self.hole {
            Some(hole) => question.in_hole(Toleranced::exactly(hole)),
            None => question,
        };
        let mut found: Vec<Finding> = question.findings().iter().copied().collect();
        found.extend(question.length().iter().flat_map(|answer| &answer.findings));
        found.extend(question.strength().iter().flat_map(|answer| &answer.findings));
        found.extend(question.row().iter().flat_map(|answer| &answer.joint.findings));
        found.extend(question.rows(2).row().iter().flat_map(|answer| &answer.joint.findings));
        if let Some(hole) = self.hole {
            let seen = AsFound::new(hole, hole, Damage::None).expect("a hole");
            let answer = question.hole(seen);
            found.extend(&answer.findings);
        }
        found
    }
}

/// A part of a length, to the nanometre below.
fn share_of(length: Length, num: u32, den: u32) -> Length {
    nm(length.nanometres() * i64::from(num) / i64::from(den))
}

fn has(findings: &[Finding], code: Code) -> bool {
    findings.iter().any(|finding| finding.code() == code)
}

/// A line that enters a usual figure for a key, one that enters a bad one, and the codes that the bad one is refused with; without codes
/// there is no bad one.
fn lines(key: Key, asked: &Asked) -> (String, Option<(String, &'static [Code])>) {
    const TOO_DEEP: &[Code] = &[Code::CountersinkTooDeep, Code::NoLengthFits, Code::DimpleTooThick, Code::RivetsTouch];
    const WEAK: &[Code] = &[Code::MarginNegative];
    let line = |figure: &str| format!("{key} = \"{figure}\"");
    let nominal = asked.rivet.size().shank_nominal;
    match key.entry().expect("what it is for") {
        Entry::Size(series, dash, dimension) => {
            let shank = series.size(dash).expect("a size").shank_nominal;
            match dimension {
                Dimension::HeadHeight => (line(&format!("{}", share_of(shank, 1, 4))), Some((line("1.5"), TOO_DEEP))),
                Dimension::HeadDiameter => (line(&format!("{}", share_of(shank, 8, 5))), Some((line("4"), TOO_DEEP))),
                Dimension::Shank => {
                    let bad = asked.hole.filter(|hole| *hole < shank && shank == nominal);
                    let bad = bad.map(|_| (line(&format!("{shank}")), &[Code::ShankDoesNotEnter][..]));
                    (line(&format!("{shank}+.003-.020")), bad)
                }
                other => panic!("no law for {other}"),
            }
        }
        Entry::Limit(Name::HoleGreatest) => (line("shank + .010"), Some((line(".001"), &[Code::HoleOverLimit]))),
        Entry::Limit(name) => {
            (line(if name.kind() == shophead::practice::LimitKind::Length { "1 D" } else { "3" }), None)
        }
        Entry::Sheet(_, Property::Modulus | Property::CompressionModulus) => (line("10.5 msi"), None),
        Entry::Sheet(..) | Entry::Shear(_) => (line("60 ksi"), Some((line("10 psi"), WEAK))),
        Entry::FlushJoint(..) | Entry::PlainJoint(..) => {
            let plain = matches!(key.entry(), Some(Entry::PlainJoint(..)));
            let edge = share_of(asked.edge, 1, 2);
            let joint = |ultimate: &str| {
                let sheets =
                    asked.stack.layers().iter().filter(|layer| (layer.preparation.as_str() == "plain") == plain);
                let tables: Vec<String> = sheets
                    .map(|layer| (layer.material.expect("a material").to_string(), layer.preparation))
                    .collect::<BTreeSet<_>>()
                    .into_iter()
                    .map(|(material, seat)| {
                        let seat = if plain { String::new() } else { format!("seat = \"{seat}\", ") };
                        format!("{{ material = \"{material}\", thickness = \".010\", edge = \"{edge}\", {seat}ultimate = {ultimate} }}")
                    })
                    .collect();
                format!("{key} = [{}]", tables.join(", "))
            };
            (joint("400"), Some((joint("1"), WEAK)))
        }
        other => panic!("{other:?}"),
    }
}

/// Enters each key that is named, asks again, and looks whether the figure is then judged.
fn every_key_answers(practice: &'static Practice<'static>, asked_of: &Asked) -> usize {
    let found = asked_of.findings(practice);
    let mut keys: Vec<Key> = Vec::new();
    for finding in found.iter().filter(|finding| NOT_KNOWN.contains(&finding.code())) {
        match finding.key() {
            Some(key) if !keys.contains(&key) => keys.push(key),
            Some(_) => {}
            None => {
                // A seat under a protruding head, or a hole that no table counts, lacks no figure.
                let lacks = finding.severity() == Severity::Refer && asked_of.rivet.series().head.is_flush();
                assert!(!lacks, "{}: {finding:?}", asked_of.rivet);
            }
        }
    }
    for key in &keys {
        let (good, bad) = lines(*key, asked_of);
        let again = asked(practice, &good, |practice| asked_of.findings(practice));
        assert!(
            again.iter().all(|finding| finding.key() != Some(*key)),
            "{}: {good} does not answer {key}",
            asked_of.rivet
        );
        if let Some((bad, codes)) = bad {
            let again = asked(practice, &bad, |practice| asked_of.findings(practice));
            let keyed = again.iter().any(|finding| finding.key() == Some(*key));
            // Where more is missing than this figure, nothing can be judged yet.
            let more = again.iter().any(|finding| finding.key().is_some());
            let refused = |code: &Code| {
                again.iter().any(|finding| finding.code() == *code && finding.severity() == Severity::Refer)
            };
            assert!(
                !keyed && (more || codes.iter().any(refused)),
                "{}: {bad} is not judged: {again:?}",
                asked_of.rivet
            );
        }
    }
    keys.len()
}

/// Every series, alloy and size, in plain, countersunk and dimpled sheet, in a hole that is too tight and in one that is wide.
#[test]
fn whatever_is_not_known_of_a_rivet_can_be_entered_by_the_key_that_is_named() {
    let mut entered = 0;
    for rivet in families() {
        let flush = rivet.series().head.is_flush();
        let packs: &[&str] = if flush {
            &["2024-T3:.125:countersunk, 2024-T3:.250", "2024-T3:.040:dimpled, 2024-T3:.125:countersunk"]
        } else {
            &["2024-T3:.125, 2024-T3:.250"]
        };
        let nominal = rivet.size().shank_nominal;
        for pack in packs {
            let stack = Stack::parse(pack).expect(pack);
            for hole in [None, Some(share_of(nominal, 19, 20)), Some(share_of(nominal, 11, 10))] {
                for practice in BUILT_IN {
                    let edge = length("2");
                    entered += every_key_answers(practice, &Asked { rivet, stack: stack.clone(), hole, edge });
                }
            }
        }
    }
    assert!(entered > 200, "only {entered} keys were named");
}

/// Every sheet material in several thicknesses.
#[test]
fn whatever_is_not_known_of_a_sheet_can_be_entered_by_the_key_that_is_named() {
    let mut entered = 0;
    for material in Material::known() {
        for (thickness, edge) in [(".016", "2"), (".020", "2"), (".063", ".2"), (".125", "2"), (".5", "2")] {
            for (rivet, seat) in [("MS20470AD5", ""), ("MS20426AD5", ":countersunk"), ("MS20426DD5", ":dimpled")] {
                let stack = Stack::parse(&format!("{material}:{thickness}{seat}, {material}:{thickness}"));
                let asked =
                    Asked { rivet: Part::parse(rivet).unwrap(), stack: stack.unwrap(), hole: None, edge: length(edge) };
                entered += every_key_answers(BUILT_IN[0], &asked);
            }
        }
    }
    assert!(entered > 200, "only {entered} keys were named");
}

/// In plain sheet a tested joint counts where no table does: too thin, or too near to the edge; and only as near as it was tested.
#[test]
fn a_tested_joint_counts_only_where_no_table_does_and_as_near_to_the_edge_as_it_was_tested() {
    let file = "[[plain.MS20470AD5]]\nmaterial = \"2024-T3\"\nthickness = \".016\"\nedge = \".2\"\nultimate = 111\n";
    let of = |pack: &str, edge: &str| {
        let stack = Stack::parse(pack).expect(pack);
        asked(BUILT_IN[0], file, |practice| {
            let question = Installation::new(Part::parse("MS20470AD5").unwrap(), &stack).by(practice);
            let found = question.edge(length(edge)).pitch(length("1")).strength().expect("a joint");
            let below = found.findings.iter().find(|finding| finding.code() == Code::EdgeMarginBelowTable).copied();
            let thin = has(&found.findings.iter().copied().collect::<Vec<_>>(), Code::SheetTooThinForTable);
            (
                found.allowable.map(|load| load.force.lbf()),
                thin,
                below.map(|finding| (finding.limit(), finding.key().is_some())),
            )
        })
    };
    let (thin, thick) = ("2024-T3:.016, 2024-T3:.063", "2024-T3:.032, 2024-T3:.063");
    assert_eq!(of(thin, ".2"), (Some(111.0), false, None));
    // A sheet between the two in the test and in the tables.
    assert_eq!(of("2024-T3:.020, 2024-T3:.063", ".4").0, Some(111.0));
    assert!(of("2024-T3:.012, 2024-T3:.063", ".4").1, "thinner than in the test");
    // The tables count where they reach, whatever was entered.
    assert!(of(thick, ".4").0.is_some_and(|load| load > 400.0));
    assert_eq!(of(thick, ".21").0, Some(111.0));
    // Nearer than in the test: its own limit, and no key.
    let limit = Some((Some(Figure::Ratio(length(".2").to_inches_f64() / length("5/32").to_inches_f64())), false));
    assert_eq!(of(thin, ".19"), (None, false, limit));
}

#[test]
fn damage_and_bends_without_a_limit_name_theirs() {
    for (kind, over) in [(DamageKind::Crack, "1"), (DamageKind::Corrosion, "1"), (DamageKind::Softness, "1")] {
        let damaged = Damaged::new(kind).length(length(over)).thickness(length(".040"));
        for practice in BUILT_IN {
            let key = judge_damage(&damaged, None, practice).iter().find_map(Finding::key).expect("a key");
            let of = |line: &str| {
                asked(practice, line, |practice| {
                    judge_damage(&damaged, None, practice).iter().copied().collect::<Vec<_>>()
                })
            };
            let (within, beyond) = (of(&format!("{key} = \"2\"")), of(&format!("{key} = \"1/2\"")));
            assert!(!has(&within, Code::DamageNotLimited) && has(&within, Code::DamageWithinLimit), "{key}");
            assert!(!has(&beyond, Code::DamageNotLimited) && has(&beyond, Code::DamageOverLimit), "{key}");
        }
    }
    let (material, sheet) = (Material::parse("4130").unwrap(), length(".063"));
    let limits = |practice: &Practice<'_>| bend::least_radius(material, sheet, practice);
    let refused =
        |radius: &str, practice: &Practice<'_>| bend::refusal(length(radius), limits(practice), Some(material));
    let key = refused("1/8", BUILT_IN[0]).and_then(|finding| finding.key()).expect("a key");
    let again = |radius: &str| asked(BUILT_IN[0], &format!("{key} = \"3/32\""), |practice| refused(radius, practice));
    assert_eq!(again("1/8"), None);
    assert_eq!(again("1/16").map(|finding| finding.code()), Some(Code::BendTooTight));
}

/// A limit for every rivet, and whether a greater one is stricter.
fn limit_names() -> Vec<(Name, bool)> {
    let is_length = |name: &Name| name.kind() == shophead::practice::LimitKind::Length;
    let direction = |name: Name| match name {
        Name::HeadDiameterLeast
        | Name::HeadHeightLeast
        | Name::HoleLeast
        | Name::CountersinkSheetLeast
        | Name::EdgeDistanceLeast
        | Name::EdgeDistanceAsBuiltLeast
        | Name::PitchLeast
        | Name::TransversePitchLeast
        | Name::FlattenedHeadHeightLeast
        | Name::ShavedHeadDiameterLeast => Some(true),
        Name::HeadDiameterGreatest
        | Name::HeadHeightGreatest
        | Name::HoleGreatest
        | Name::FlushHeadAboveGreatest
        | Name::FlushHeadBelowGreatest
        | Name::CrackLengthGreatest => Some(false),
        _ => None,
    };
    Name::ALL.iter().copied().filter(is_length).filter_map(|name| Some((name, direction(name)?))).collect()
}

/// A figure that is entered: a part of the published one, in hundredths.
fn strengths() -> impl Strategy<Value = Vec<(Property, u32)>> {
    prop::collection::vec((prop::sample::select(Property::ALL.to_vec()), 20_u32..100), 0..4)
}

proptest! {
    #![proptest_config(config())]

    /// Whatever is stricter in the file: what was referred stays referred, and no load rises.
    #[test]
    fn a_stricter_limits_file_never_permits_more(
        rivet in prop::sample::select(vec!["MS20470AD3", "MS20470AD4", "MS20470AD5", "MS20470D6", "MS20426AD4", "MS20426AD5"]),
        material in prop::sample::select(vec!["2024-T3", "clad 2024-T3", "7075-T6", "6061-T6", "5052-H34"]),
        thickness in prop::sample::select(vec![".032", ".040", ".063", ".100"]),
        limits in prop::collection::vec((prop::sample::select(limit_names()), 1_u32..60), 0..4),
        strengths in strengths(),
        shear in proptest::option::of(20_u32..100),
        (edge, pitch, hole, head) in (1_i64..8, 1_i64..8, 95_u32..115, (100_u32..200, 20_u32..90)),
    ) {
        let part = Part::parse(rivet).unwrap();
        let seat = if part.series().head.is_flush() { ":countersunk" } else { "" };
        let stack = Stack::parse(&format!("{material}:{thickness}{seat}, {material}:.125")).unwrap();
        let diameter = part.diameter();
        let parsed = Material::parse(material).unwrap();
        let eighths = |count: i64| length("1/8").checked_mul(count).expect("short");
        let percent = |of: u32| share_of(diameter, of, 100);
        let load = Load { force: Force::from_lbf(120.0), kind: LoadKind::Ultimate };
        let (edge, pitch, hole) = (eighths(edge), eighths(pitch), percent(hole));
        let measured = MeasuredHead::new(shophead::length::Interval::exactly(percent(head.0)), shophead::length::Interval::exactly(percent(head.1)));
        let ask = |practice: &Practice<'_>| {
            let question = Installation::new(part, &stack).by(practice).edge(edge).pitch(pitch);
            let question = question.in_hole(Toleranced::exactly(hole)).load(load, Factors::SEAM);
            let strength = question.strength();
            let loads = strength.as_ref().map(|found| (found.allowable, found.yield_load(), found.margin));
            let referred = strength.as_ref().is_ok_and(|found| found.findings.must_refer());
            let head = judge(measured, &[], practice, &Case::for_part(&part));
            (question.findings().must_refer(), referred, loads.ok(), head.accepted)
        };
        for practice in BUILT_IN {
            let case = Case::for_part(&part);
            let mut text = String::new();
            let mut said = BTreeSet::new();
            for ((name, more_is_stricter), share) in &limits {
                let Some(now) = practice.length(*name, &case).map(|limit| limit.value) else { continue };
                let change = share_of(now, *share, 100);
                let stricter = if *more_is_stricter { now.checked_add(change) } else { now.checked_sub(change) };
                let scoped = if part.series().head.is_flush() { "flush" } else { "protruding" };
                if said.insert(name.as_str()) {
                    let value = stricter.expect("short");
                    text += &format!(
                        "[[limit]]\nname = \"{name}\"\nvalue = \"{value}\"\nplace = \"p\"\nhead = \"{scoped}\"\n"
                    );
                }
            }
            let mut columns = String::new();
            for (property, share) in &strengths {
                let published = practice.sheet(parsed, length(thickness)).figure(*property);
                let Some((stress, _)) = published else { continue };
                let weaker = (stress.psi() * f64::from(*share) / 100.0).floor();
                if said.insert(property.as_str()) {
                    columns += &format!("{property} = \"{weaker} psi\"\n");
                }
            }
            if !columns.is_empty() {
                text += &format!("[material.\"{material}\"]\nthickness = \"{thickness}\"\n{columns}");
            }
            if let Some((share, (fsu, _))) = shear.zip(part.alloy().fsu_driven()) {
                let weaker = Stress::from_psi(fsu.psi() * f64::from(share) / 100.0).psi().floor();
                text += &format!("[rivet.{}]\nshear_ultimate = \"{weaker} psi\"\n", part.alloy().alloy());
            }
            if text.is_empty() {
                continue;
            }
            let base = ask(practice);
            let strict = asked(practice, &text, ask);
            prop_assert!(!base.0 || strict.0, "no longer referred: {}", text);
            prop_assert!(!base.1 || strict.1, "its strength is no longer referred: {}", text);
            prop_assert!(base.3 || !strict.3, "a head is accepted that was not: {}", text);
            if let (Some((before, yields, _)), Some((after, then, _))) = (base.2, strict.2) {
                for (before, after) in [(before, after), (yields, then)] {
                    if let (Some(before), Some(after)) = (before, after) {
                        prop_assert!(after.force <= before.force, "{} over {}: {}", after.force.lbf(), before.force.lbf(), text);
                    }
                    // What nothing was known of is not made known by weaker figures of something else.
                    prop_assert!(before.is_some() || after.is_none(), "{}", text);
                }
            }
        }
    }
}
