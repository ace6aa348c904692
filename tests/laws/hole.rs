//! Laws of stacks, holes and patterns.

use proptest::prelude::*;
use shophead::finding::Code;
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::{HoleAnswer, Installation, MAX_STEPS, Step};
use shophead::length::{Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::practice::{BUILT_IN, Case, Practice};
use shophead::rivet::Head;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, MAX_LAYERS, Preparation, Role, Stack};
use shophead::structure::Member;
use shophead_tests::prelude::{length, nm, of_pattern, part};

use crate::common::config;

const THOUSANDTH: i64 = 25_400;

fn thickness() -> impl Strategy<Value = Toleranced> {
    (400_000_i64..8_000_000, 0_i64..200_000, 0_i64..200_000)
        .prop_map(|(nominal, below, above)| Toleranced::new(nm(nominal), nm(below), nm(above)).expect("tolerances"))
}

fn layers() -> impl Strategy<Value = Vec<Layer>> {
    let role = prop::sample::select(Role::ALL);
    let layer = (role, thickness()).prop_map(|(role, thickness)| Layer::of(thickness).role(role));
    prop::collection::vec(layer, 1..=MAX_LAYERS)
}

fn stacked(layers: &[Layer]) -> Stack {
    let mut stack = Stack::new();
    for layer in layers {
        stack.push(*layer).expect("room");
    }
    stack
}

/// Sheets as they are bought, of one material, with a plain hole each or the first one countersunk.
fn sheets(flush: bool) -> impl Strategy<Value = Stack> {
    let sheet = prop::sample::select(vec![32_i64, 40, 50, 63, 71, 80, 90, 125]);
    prop::collection::vec(sheet, 2..5).prop_map(move |sheets| {
        let material = Some(Material::parse("clad 2024-T3").expect("a material"));
        let layers: Vec<Layer> = sheets
            .iter()
            .enumerate()
            .map(|(index, sheet)| {
                Layer::of(Toleranced::exactly(nm(sheet * THOUSANDTH)))
                    .material(material)
                    .preparation(if flush && index == 0 { Preparation::Countersunk } else { Preparation::Plain })
            })
            .collect();
        stacked(&layers)
    })
}

/// The most layers that anybody sinks a head into, each too thin for it, among as many as a pack takes.
fn deep_seats() -> impl Strategy<Value = Stack> {
    let sheet = prop::sample::select(vec![16_i64, 20, 32, 40, 63, 125]);
    (prop::collection::vec(sheet, 2..=MAX_LAYERS), 0_usize..=4).prop_map(|(sheets, sunk)| {
        let material = Some(Material::parse("clad 2024-T3").expect("a material"));
        let layers: Vec<Layer> =
            sheets
                .iter()
                .enumerate()
                .map(|(index, sheet)| {
                    Layer::of(Toleranced::exactly(nm(sheet * THOUSANDTH)))
                        .material(material)
                        .preparation(if index < sunk { Preparation::Countersunk } else { Preparation::Plain })
                })
                .collect();
        stacked(&layers)
    })
}

#[derive(Debug, Clone)]
struct Place {
    rivet: Part<'static>,
    stack: Stack,
    edge: i64,
    pitch: i64,
    practice: &'static Practice<'static>,
    member: Member,
}

impl Place {
    fn judge(&self, found: AsFound) -> Disposition {
        self.question().hole(found).disposition
    }

    fn question(&self) -> Installation<'_, 'static> {
        Installation::new(self.rivet, &self.stack)
            .edge(nm(self.edge))
            .pitch(nm(self.pitch))
            .member(self.member)
            .by(self.practice)
    }

    fn climb(&self, found: AsFound) -> (HoleAnswer<'static>, Vec<Step<'static>>) {
        let mut steps = Vec::new();
        let answer = self.question().hole_step_by_step(found, &mut |step| steps.push(step.clone()));
        (answer, steps)
    }

    fn shank(&self) -> i64 {
        self.rivet.size().shank_nominal.nanometres()
    }
}

fn place() -> impl Strategy<Value = Place> {
    (prop::bool::ANY, prop::sample::select(vec![3_u8, 4, 5, 6])).prop_flat_map(|(flush, dash)| {
        let practice = prop::sample::select(BUILT_IN.to_vec());
        let member = prop::sample::select(vec![Member::Skin, Member::Rib, Member::SparCap]);
        (sheets(flush), 150_i64..600, 250_i64..1_200, practice, member).prop_map(
            move |(stack, edge, pitch, practice, member)| Place {
                rivet: part(&format!("{}AD{dash}", if flush { "MS20426" } else { "MS20470" })),
                stack,
                edge: edge * THOUSANDTH,
                pitch: pitch * THOUSANDTH,
                practice,
                member,
            },
        )
    })
}

fn sound(major: i64, minor: i64) -> AsFound {
    AsFound::new(nm(major), nm(minor), Damage::None).expect("a hole")
}

/// Around the sizes at which the ladder turns: a few thousandths under the shank to a next size over it.
fn axis() -> impl Strategy<Value = i64> {
    (-10_i64..60, -1_i64..=1).prop_map(|(thousandths, off)| thousandths * THOUSANDTH + off)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_ladder_told_step_by_step_is_the_same_answer(
        place in place(),
        axes in (axis(), axis()),
        damage in prop::sample::select(Damage::ALL),
    ) {
        let nominal = place.rivet.diameter().nanometres();
        let (major, minor) = (nominal + axes.0.max(axes.1), nominal + axes.0.min(axes.1));
        let found = AsFound::new(nm(major), nm(minor), damage).expect("a hole");
        let (answer, steps) = place.climb(found);
        prop_assert_eq!(&place.question().hole(found), &answer);
        prop_assert!(steps.len() <= MAX_STEPS);
        match steps.last().filter(|step| step.does()) {
            Some(taken) => {
                prop_assert_eq!(answer.disposition, taken.kind);
                prop_assert_eq!((answer.rivet, answer.cut, answer.hole), (taken.rivet, taken.cut, taken.hole));
                prop_assert_eq!(&answer.findings, &taken.findings);
            }
            None => {
                prop_assert_eq!(answer.disposition, Disposition::Refer);
                prop_assert_eq!((answer.rivet, answer.cut, answer.hole), (None, None, None));
                prop_assert!(answer.findings.must_refer());
            }
        }
    }

    #[test]
    fn no_finding_of_a_hole_is_lost(
        stack in deep_seats(),
        place in place(),
        (edge, pitch) in (50_i64..300, 50_i64..300),
        axes in (axis(), axis()),
        damage in prop::sample::select(Damage::ALL),
    ) {
        let place = Place { stack, edge: edge * THOUSANDTH, pitch: pitch * THOUSANDTH, ..place };
        let nominal = place.rivet.diameter().nanometres();
        let (major, minor) = (nominal + axes.0.max(axes.1), nominal + axes.0.min(axes.1));
        let (answer, steps) = place.climb(AsFound::new(nm(major), nm(minor), damage).expect("a hole"));
        prop_assert!(answer.findings.is_complete());
        prop_assert!(steps.iter().all(|step| step.findings.is_complete()));
        prop_assert!(place.question().findings().is_complete());
        if let Ok(length) = place.question().length() {
            prop_assert!(length.findings.is_complete());
        }
        if let Ok(strength) = place.question().strength() {
            prop_assert!(strength.findings.is_complete());
        }
    }

    #[test]
    fn the_order_of_the_layers_does_not_change_the_grip(layers in layers(), turn in 0_usize..8) {
        let mut turned = layers.clone();
        turned.rotate_left(turn % layers.len());
        turned.reverse();
        let (one, other) = (stacked(&layers), stacked(&turned));
        prop_assert_eq!(one.grip(), other.grip());
        prop_assert_eq!((one.thinnest(), one.thickest()), (other.thinnest(), other.thickest()));
        let sum = |of: fn(Toleranced) -> Length| layers.iter().map(|layer| of(layer.thickness).nanometres()).sum::<i64>();
        prop_assert_eq!(one.grip().min().nanometres(), sum(Toleranced::min));
        prop_assert_eq!(one.grip().nominal().nanometres(), sum(Toleranced::nominal));
        prop_assert_eq!(one.grip().max().nanometres(), sum(Toleranced::max));
    }

    #[test]
    fn a_larger_round_hole_never_gets_a_lesser_step(place in place(), at in axis(), larger in axis()) {
        let shank = place.shank();
        // A hole that is too small is cleaned up: the law begins where holes are no longer too small.
        let begins = |at: i64| if place.judge(sound(at, at)) == Disposition::Keep { at } else { at.max(shank + 5 * THOUSANDTH) };
        let small = begins(shank + at.min(larger));
        let large = small.max(shank + at.max(larger));
        prop_assert!(place.judge(sound(large, large)) >= place.judge(sound(small, small)));
    }

    #[test]
    fn a_longer_elongation_never_gets_a_lesser_step(place in place(), minor in axis(), at in axis(), longer in axis()) {
        let shank = place.shank();
        let minor = shank + minor.min(at).min(longer);
        let (short, long) = (shank + at.min(longer), shank + at.max(longer));
        prop_assert!(place.judge(sound(long, minor)) >= place.judge(sound(short, minor)));
    }

    #[test]
    fn the_step_taken_is_the_last_tried_and_no_earlier_one_does(place in place(), major in axis(), minor in axis()) {
        let shank = place.shank();
        let (answer, steps) = place.climb(sound(shank + major.max(minor), shank + major.min(minor)));
        prop_assert!(answer.findings.is_complete());
        let (last, before) = steps.split_last().expect("a step was tried");
        prop_assert!(before.iter().all(|step| !step.does() && !step.findings.is_empty()));
        prop_assert!(steps.iter().all(|step| step.findings.is_complete()));
        prop_assert_eq!(last.does(), answer.disposition != Disposition::Refer);
        prop_assert!(steps.is_sorted_by_key(|step| step.kind));
        // Whatever is drilled goes over the whole of the old hole.
        if let Some(cut) = answer.cut {
            prop_assert!(cut.diameter() >= nm(shank + major.max(minor)));
        }
    }

    #[test]
    fn damage_never_gets_a_lesser_step_than_a_sound_hole(place in place(), major in axis(), minor in axis()) {
        let shank = place.shank();
        let (major, minor) = (nm(shank + major.max(minor)), nm(shank + major.min(minor)));
        let at = |damage| place.judge(AsFound::new(major, minor, damage).expect("a hole"));
        let sound = at(Damage::None);
        for damage in Damage::ALL {
            prop_assert!(at(*damage) >= sound, "{damage:?}");
        }
        prop_assert_eq!(at(Damage::Cracked), Disposition::Refer);
    }

    #[test]
    fn one_step_more_never_makes_a_pattern_better(stepped in prop::collection::btree_set(1_u32..60, 0..14), more in 1_u32..60, total in 60_u32..120) {
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
        let mut larger = stepped.clone();
        larger.insert(more);
        for practice in BUILT_IN {
            let check = |stepped: &std::collections::BTreeSet<u32>, total| of_pattern(stepped.iter().copied(), total, practice, &case);
            let (before, after, roomier) = (check(&stepped, total), check(&larger, total), check(&stepped, total + 7));
            for code in [Code::TooManySteps, Code::NeighboursStepped] {
                prop_assert!(after.has(code) || !before.has(code));
                prop_assert!(before.has(code) || !roomier.has(code), "a larger pattern never takes fewer steps");
            }
            // Counted by hand: every run of three.
            let run = stepped.iter().any(|number| stepped.contains(&(number + 1)) && stepped.contains(&(number + 2)));
            prop_assert_eq!(before.has(Code::NeighboursStepped), run);
        }
    }
}

/// The laws above would hold for a ladder that always refers: this one is climbed from below its first rung to its end.
/// Met among a hundred thousand: the smaller hole was referred, the larger one taken as it is.
#[test]
fn a_hole_used_as_it_is_is_judged_as_wide_as_a_drilled_one() {
    let stack = Stack::parse("clad 2024-T3:.032, clad 2024-T3:.032").expect("two sheets");
    let question =
        Installation::new(part("MS20470AD5"), &stack).edge(length(".344")).pitch(length(".516")).member(Member::Skin);
    let judged =
        |hole: &str| question.hole(AsFound::new(length(hole), length(hole), Damage::None).expect("a hole")).disposition;
    assert!(judged(".176") >= judged(".1745"), "{:?} {:?}", judged(".1745"), judged(".176"));
}

#[test]
fn a_growing_hole_climbs_the_whole_ladder() {
    let material = Some(Material::parse("clad 2024-T3").expect("a material"));
    let sheet = |thousandths: i64| Layer::of(Toleranced::exactly(nm(thousandths * THOUSANDTH))).material(material);
    for practice in BUILT_IN {
        for dash in [4, 5] {
            let place = Place {
                rivet: part(&format!("MS20470AD{dash}")),
                stack: stacked(&[sheet(50), sheet(63)]),
                edge: 500 * THOUSANDTH,
                pitch: 1_000 * THOUSANDTH,
                practice,
                member: Member::Skin,
            };
            let shank = place.shank();
            let mut climbed: Vec<Disposition> = (-50..500)
                .map(|tenths| shank + tenths * THOUSANDTH / 10)
                .map(|at| place.judge(sound(at, at)))
                .collect();
            climbed.dedup();
            use Disposition::{CleanUp, Keep, NextSize, Oversize, Refer};
            assert_eq!(climbed, [CleanUp, Keep, Oversize, NextSize, Refer], "{} -{dash}", practice.name());
        }
    }
}

/// Whatever the pack, however uncertain its thickness: which length a hole takes is another question than what becomes of it.
#[test]
fn the_length_never_decides_the_ladder() {
    let material = Some(Material::parse("clad 2024-T3").expect("a material"));
    let place = |number, thousandths: &[i64], off: i64, practice| {
        let layers: Vec<Layer> = thousandths
            .iter()
            .map(|sheet| {
                let (sheet, off) = (nm(sheet * THOUSANDTH), nm(off * THOUSANDTH));
                Layer::of(Toleranced::new(sheet, off, off).expect("a tolerance")).material(material)
            })
            .collect();
        let (edge, pitch) = (590 * THOUSANDTH, 1_190 * THOUSANDTH);
        Place { rivet: part(number), stack: stacked(&layers), edge, pitch, practice, member: Member::Skin }
    };
    for practice in BUILT_IN {
        // No length suits a pack that may be so much thicker or thinner; its holes are sound all the same.
        for off in [0, 2, 60] {
            let place = place("MS20470AD4", &[63; 4], off, practice);
            let sound = sound(1285 * THOUSANDTH / 10, 1285 * THOUSANDTH / 10);
            assert_eq!(place.judge(sound), Disposition::Keep, "{off}");
            let no_length = place.question().length().expect("a length answer").findings.has(Code::NoLengthFits);
            assert_eq!(no_length, off == 60);
        }
        // This one opened the lesser elongation further: for the hole that the first drill leaves there was no length, for that of the
        // next drill there was.
        let place = place("MS20470AD3", &[71, 50, 63, 125], 0, practice);
        let shank = place.shank();
        for longest in [0, 5] {
            let found = sound(shank + longest * THOUSANDTH, shank - THOUSANDTH);
            assert_eq!(place.judge(found), Disposition::CleanUp, "{} {longest}", practice.name());
        }
    }
}
