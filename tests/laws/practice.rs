//! Laws of looking a limit up.

use proptest::prelude::*;
use shophead::basis::{Basis, Status};
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, HANDBOOK, HeadScope, Limit, Name, PROCESS, Scope, Value};
use shophead::rivet::{Head, MS20470};
use shophead::stack::Stack;
use shophead_tests::prelude::{THOUSANDTH, length, nm, part};

use crate::common::config;

fn head() -> impl Strategy<Value = Head> {
    prop_oneof![Just(Head::Universal), Just(Head::Flush), Just(Head::ReducedFlush)]
}

fn alloy() -> impl Strategy<Value = RivetAlloy> {
    prop::sample::select(vec![RivetAlloy::Al2117, RivetAlloy::Al2017, RivetAlloy::Al2024, RivetAlloy::Al7050])
}

fn diameter() -> impl Strategy<Value = Length> {
    prop::sample::select(MS20470.sizes.iter().map(|size| size.shank_nominal).collect::<Vec<_>>())
}

fn case() -> impl Strategy<Value = Case> {
    (head(), alloy(), diameter(), 1_u8..4, any::<bool>(), any::<bool>()).prop_map(
        |(head, alloy, diameter, rows, dimpled, stepped)| {
            let mut case = Case::new(head, alloy, diameter).in_rows(rows);
            (case.dimpled, case.stepped) = (dimpled, stepped);
            case
        },
    )
}

fn scope() -> impl Strategy<Value = Scope> {
    let heads = prop_oneof![Just(HeadScope::Protruding), Just(HeadScope::Flush), Just(HeadScope::Dimpled)];
    (
        proptest::option::of(heads),
        proptest::option::of(alloy()),
        proptest::option::of(diameter()),
        proptest::option::of(1_u8..4),
        any::<bool>(),
    )
        .prop_map(|(head, alloy, diameter, rows, stepped)| {
            Scope::ANY.head(head).alloy(alloy).diameter(diameter).rows(rows).stepped(stepped)
        })
}

fn name() -> impl Strategy<Value = Name> {
    prop::sample::select(Name::ALL.to_vec())
}

fn own() -> impl Strategy<Value = Vec<Limit>> {
    // A name that is met often, or else the limits would hardly ever compete.
    let name = prop_oneof![3 => Just(Name::PitchLeast), 1 => name()];
    let limit = (name, scope(), 1_i64..1_000).prop_map(|(name, scope, thousandths)| {
        Limit::new(name, scope, Value::Length(nm(thousandths * 25_400)), Basis::own(0))
    });
    prop::collection::vec(limit, 0..8)
}

fn covers(scope: &Scope, case: &Case) -> bool {
    let flush = case.head != Head::Universal;
    let head = match scope.head {
        None => true,
        Some(HeadScope::Flush) => flush,
        Some(HeadScope::Protruding) => !flush,
        Some(HeadScope::Dimpled) => flush && case.dimpled,
        Some(other) => panic!("no law for {other}"),
    };
    let stepped = case.stepped || !scope.stepped;
    head && stepped
        && [None, Some(case.alloy)].contains(&scope.alloy)
        && [None, Some(case.diameter)].contains(&scope.diameter)
        && [None, Some(case.rows)].contains(&scope.rows)
}

/// How many things a scope names; a dimpled head is a flush one and more.
fn named(scope: &Scope) -> usize {
    let dimpled = scope.head == Some(HeadScope::Dimpled);
    [
        scope.head.is_some(),
        dimpled,
        scope.stepped,
        scope.alloy.is_some(),
        scope.diameter.is_some(),
        scope.rows.is_some(),
    ]
    .into_iter()
    .filter(|named| *named)
    .count()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn an_own_limit_always_wins_and_of_two_the_more_particular(own in own(), name in prop_oneof![Just(Name::PitchLeast), name()], case in case()) {
        for practice in BUILT_IN {
            let built_in = practice.find(name, &case);
            let shop = practice.with_own(&own, &[]);
            let found = shop.find(name, &case);
            let applying: Vec<&Limit> = own.iter().filter(|limit| limit.name == name && covers(&limit.scope, &case)).collect();
            match applying.iter().map(|limit| named(&limit.scope)).max() {
                None => prop_assert_eq!(found, built_in, "no own limit applies"),
                Some(most) => {
                    let first = applying.iter().find(|limit| named(&limit.scope) == most).expect("one has the most");
                    prop_assert_eq!(found, Some(**first));
                    prop_assert_eq!(found.map(|limit| limit.basis.status()), Some(Status::Shop));
                }
            }
        }
    }

    /// The practice's own documents come first, then those that stand in where they are silent; in each the more particular limit counts.
    #[test]
    fn a_built_in_limit_that_is_found_covers_its_case_and_none_before_it_is_as_particular(name in name(), case in case()) {
        for practice in BUILT_IN {
            let applying: Vec<Limit> = practice.limits().filter(|limit| limit.name == name && covers(&limit.scope, &case)).collect();
            let found = practice.find(name, &case);
            prop_assert_eq!(found.is_some(), !applying.is_empty());
            if let Some(found) = found {
                let place = applying.iter().position(|limit| *limit == found).expect("one of those that apply");
                prop_assert!(applying[..place].iter().all(|limit| named(&limit.scope) < named(&found.scope)));
                let better = applying.iter().find(|limit| limit.basis.status() < found.basis.status());
                prop_assert_eq!(better, None, "what was read stands before what is common practice, and that before what was recalled");
            }
        }
    }

    #[test]
    fn a_value_reads_back_as_it_prints(top in 0_u32..5_000, bottom in 1_u32..5_000, plus in 0_i64..10_000, name in name()) {
        let plus = nm(plus * 254);
        let shown = match name.kind() {
            shophead::practice::LimitKind::Length => format!("{top}/{bottom} D + {plus}"),
            shophead::practice::LimitKind::Fraction => format!("{top}/{bottom}"),
            shophead::practice::LimitKind::Count => top.to_string(),
            _ => "nearest".to_owned(),
        };
        let value = Value::parse(name, &shown).expect("a value");
        prop_assert_eq!(Value::parse(name, &value.to_string()), Ok(value));
    }

    /// Limits of a shop that do not go together: a hole that was not measured is as the drill makes it, and what speaks against a measured one
    /// speaks against it, whatever is asked.
    #[test]
    fn a_drill_outside_its_own_limits_is_referred_by_every_question(
        dash in prop::sample::select(&[3_u8, 4, 5, 6, 8][..]),
        process in any::<bool>(),
        own in prop::collection::vec((prop::sample::select(&[Name::HoleGreatest, Name::HoleLeast, Name::HoleDrill][..]), -12_i64..25), 0..3),
    ) {
        let rivet = part(&format!("MS20470AD{dash}"));
        let sheets = Stack::parse("2024-T3:.063, 2024-T3:.080").expect("sheets");
        let shank = rivet.diameter().nanometres();
        let own: Vec<Limit> = own
            .into_iter()
            .map(|(name, more)| Limit::new(name, Scope::ANY, Value::Length(nm(shank + more * THOUSANDTH)), Basis::own(0)))
            .collect();
        let practice = if process { &PROCESS } else { &HANDBOOK }.with_own(&own, &[]);
        let question = Installation::new(rivet, &sheets).by(&practice).edge(length("1")).pitch(length("1"));
        let drill = practice.length(Name::HoleDrill, &question.case()).expect("a drill").value;
        let speaks = |code: Code| matches!(code, Code::HoleOverLimit | Code::HoleUnderLimit);
        let against = |findings: &[Finding]| findings.iter().filter(|found| speaks(found.code())).copied().collect::<Vec<_>>();
        let measured = question.in_hole(Toleranced::exactly(drill));
        let wanted = against(measured.findings().iter().as_slice());
        prop_assert_eq!(&wanted, &against(question.findings().iter().as_slice()));
        prop_assert!(wanted.iter().all(|found| found.severity() == Severity::Refer));
        if let (Ok(length), Ok(strength)) = (question.length(), question.strength()) {
            prop_assert_eq!(&wanted, &against(length.findings.iter().as_slice()));
            prop_assert_eq!(&wanted, &against(strength.findings.iter().as_slice()));
        }
        let found = AsFound::new(drill, drill, Damage::None).expect("round");
        prop_assert!(wanted.is_empty() || question.hole(found).disposition != Disposition::Keep);
    }

    #[test]
    fn any_text_is_a_value_or_is_refused(name in name(), text in "\\PC{0,12}") {
        if let Ok(value) = Value::parse(name, &text) {
            prop_assert_eq!(Value::parse(name, &value.to_string()), Ok(value), "{}", value);
        }
    }
}

/// A least limit above its greatest would reject everything.
#[test]
fn no_built_in_least_is_above_its_greatest() {
    let mut compared = 0;
    for practice in BUILT_IN {
        for series in shophead::rivet::CATALOGUE {
            for (size, material) in
                series.sizes.iter().flat_map(|size| series.materials.iter().map(move |one| (size, one)))
            {
                let case = Case::of(series.head, material.alloy, size);
                // Where the largest shank is not known a limit over it counts from the nominal shank, and may fall below the drill: such
                // a rivet is referred anyway, since nothing can be said of its fit.
                let hole_greatest = if size.shank.is_some() { Name::HoleGreatest } else { Name::HoleDrill };
                for (least, target, greatest) in [
                    (Name::HeadDiameterLeast, Name::HeadDiameterTarget, Name::HeadDiameterGreatest),
                    (Name::HeadHeightLeast, Name::HeadHeightTarget, Name::HeadHeightGreatest),
                    (Name::EdgeDistanceLeast, Name::EdgeDistancePreferred, Name::EdgeDistanceGreatest),
                    (Name::HoleLeast, Name::HoleDrill, hole_greatest),
                    (Name::PitchLeast, Name::PitchLeast, Name::PitchGreatest),
                ] {
                    let rising: Vec<Length> = [least, target, greatest]
                        .into_iter()
                        .filter_map(|name| practice.length(name, &case))
                        .map(|given| given.value)
                        .collect();
                    assert!(rising.is_sorted(), "{} {series:?} -{} {least}: {rising:?}", practice.name(), size.dash);
                    compared += rising.len().saturating_sub(1);
                }
            }
        }
    }
    assert!(compared > 1_000, "{compared}");
}

/// Without these no length could be judged: `explained.txt` counts on them.
#[test]
fn every_rivet_has_a_least_head_and_a_longest_tail() {
    for practice in BUILT_IN {
        for series in shophead::rivet::CATALOGUE {
            for (size, material) in
                series.sizes.iter().flat_map(|size| series.materials.iter().map(move |one| (size, one)))
            {
                let case = Case::of(series.head, material.alloy, size);
                for name in [Name::HeadDiameterLeast, Name::HeadHeightLeast, Name::TailGreatest] {
                    assert!(
                        practice.length(name, &case).is_some(),
                        "{} {series:?} -{} {name}",
                        practice.name(),
                        size.dash
                    );
                }
            }
        }
    }
}
