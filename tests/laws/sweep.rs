//! Every series, alloy and size, through packs from thin to thick, in holes from too small to far too large, by every practice: an answer or a
//! reason, and no limit that contradicts another.

use shophead::finding::{Findings, Severity};
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Installation;
use shophead::length::Toleranced;
use shophead::practice::{BUILT_IN, Case, Name, Practice};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Preparation, Stack};
use shophead_tests::prelude::{THOUSANDTH, families, material, nm};

use crate::common::config;

const TENTH: i64 = THOUSANDTH / 10;

/// Two sheets that add up to a share of the diameter, the first cut for a flush head.
fn pack(rivet: &Part<'_>, eighths_of_diameter: i64) -> Stack {
    let sheet = rivet.size().shank_nominal.nanometres() * eighths_of_diameter / 16;
    let preparation = if rivet.series().head.is_flush() { Preparation::Countersunk } else { Preparation::Plain };
    let mut stack = Stack::new();
    for preparation in [preparation, Preparation::Plain] {
        let thickness = Toleranced::exactly(nm(sheet));
        let sheet = Layer::of(thickness).material(material("2024-T3")).preparation(preparation);
        stack.push(sheet).expect("two layers");
    }
    stack
}

fn refers<const N: usize>(findings: &Findings<N>) -> bool {
    findings.is_complete() && findings.iter().any(|finding| finding.severity() == Severity::Refer)
}

/// From half a diameter to eight, every sixteenth of a diameter in a full run.
fn packs() -> impl Iterator<Item = i64> {
    let step = if config().cases >= 100_000 { 1 } else { 7 };
    (4..=128).step_by(step)
}

fn asked<'q>(
    rivet: Part<'static>,
    stack: &'q Stack,
    practice: &'static Practice<'static>,
) -> Installation<'q, 'static> {
    let times = |diameters: i64| nm(rivet.size().shank_nominal.nanometres() * diameters);
    Installation::new(rivet, stack).by(practice).edge(times(3)).pitch(times(6))
}

#[test]
fn every_rivet_through_every_pack_gets_a_length_or_a_reason() {
    let (mut cut, mut by_hole, mut reasons) = (0, 0, 0);
    for rivet in families() {
        for share in packs() {
            let stack = pack(&rivet, share);
            for practice in BUILT_IN {
                let case = || format!("{rivet} {share}/8 D {}", practice.name());
                let answer =
                    asked(rivet, &stack, practice).length().unwrap_or_else(|error| panic!("{}: {error}", case()));
                match answer.length {
                    Some(length) => {
                        assert!(length > stack.grip().nominal(), "{}", case());
                        assert!(answer.part.is_some() || refers(&answer.findings), "{}: {length} and no rivet", case());
                        cut += 1;
                    }
                    None if answer.by_hole().into_iter().any(|range| range.part.is_some() || range.cut.is_some()) => {
                        by_hole += 1;
                    }
                    None => {
                        assert!(refers(&answer.findings), "{}: no length and no reason", case());
                        reasons += 1;
                    }
                }
            }
        }
    }
    assert!(cut > 1_000 && by_hole > 0 && reasons > 0, "{cut} {by_hole} {reasons}");
}

#[test]
fn every_hole_gets_a_step_or_a_reason() {
    let mut met = [0; 5];
    let step = if config().cases >= 100_000 { 5 } else { 60 };
    for rivet in families() {
        let stack = pack(&rivet, 12);
        let shank = rivet.size().shank_nominal.nanometres();
        for practice in BUILT_IN {
            let question = asked(rivet, &stack, practice);
            for tenths in (-150..1_500).step_by(step) {
                for damage in [Damage::None, Damage::Gouged, Damage::Cracked] {
                    let hole = nm(shank + tenths * TENTH);
                    let answer = question.hole(AsFound::new(hole, hole, damage).expect("a round hole"));
                    let case = || format!("{rivet} in {hole} {damage:?} {}: {answer:?}", practice.name());
                    met[answer.disposition as usize] += 1;
                    if answer.disposition == Disposition::Refer {
                        assert!(refers(&answer.findings), "{}", case());
                        continue;
                    }
                    // What is to be driven enters what is to be there, and the drill that is named makes it.
                    let (Some(rivet), Some(left)) = (answer.rivet, answer.hole) else { panic!("{}", case()) };
                    assert!(!refers(&answer.findings), "{}", case());
                    assert!(left.min() >= rivet.size().shank_nominal || answer.cut.is_none(), "{}", case());
                    if let Some(drill) = answer.cut {
                        assert!(left.min() <= drill.diameter() && drill.diameter() <= left.max(), "{}", case());
                        assert!(drill.diameter() >= hole, "a drill makes no hole smaller: {}", case());
                    } else {
                        assert!(left.min() <= hole && hole <= left.max(), "{}", case());
                    }
                }
            }
        }
    }
    assert!(met.iter().filter(|met| **met > 100).count() >= 4, "{met:?}");
}

#[test]
fn every_rivet_gets_a_strength_or_a_reason() {
    let (mut known, mut reasons) = (0, 0);
    for rivet in families() {
        for share in packs() {
            let stack = pack(&rivet, share);
            for practice in BUILT_IN {
                match asked(rivet, &stack, practice).strength() {
                    Ok(found) if found.allowable.is_some() => known += 1,
                    Ok(found) => {
                        assert!(refers(&found.findings), "{rivet} {share}/8 D {}: {found:?}", practice.name());
                        reasons += 1;
                    }
                    Err(error) => {
                        assert!(!error.to_string().is_empty());
                        reasons += 1;
                    }
                }
            }
        }
    }
    assert!(known > 500 && reasons > 500, "{known} {reasons}");
}

/// A drill makes a hole within the limits that its own hole is judged by, and the largest shank goes into what is promised.
#[test]
fn every_drill_is_within_its_own_limits_and_every_shank_enters() {
    let mut compared = 0;
    for rivet in families() {
        for practice in BUILT_IN {
            let case = Case::of(rivet.series().head, rivet.material().alloy, rivet.size());
            let limit = |name| practice.length(name, &case).map(|given| given.value);
            let Some(drill) = limit(Name::HoleDrill) else { continue };
            let told = format!("{rivet} {}: drill {drill}", practice.name());
            assert!(limit(Name::HoleLeast).is_none_or(|least| least <= drill), "{told}");
            // Where the largest shank is not known, nothing can be said of a fit: such a rivet is referred.
            let Some(shank) = rivet.size().shank else { continue };
            assert!(limit(Name::HoleGreatest).is_none_or(|greatest| drill <= greatest), "{told}");
            if let Some(promised) = practice.promised_hole(&case) {
                assert!(promised.value.min() >= shank.max(), "{told}: {promised:?}");
                compared += 1;
            }
        }
    }
    assert!(compared > 100, "{compared}");
}
