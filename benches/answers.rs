//! What one answer of the core costs: length, hole, joint strength, and reading a length and a part number.
//!
//! `cargo bench --bench answers`

use divan::{Bencher, black_box};
use shophead::drill::Drill;
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Installation;
use shophead::length::Length;
use shophead::practice::BUILT_IN;
use shophead::rivet::part::Part;
use shophead::structure::Member;
use shophead_benches::{inches, pack};

fn main() {
    divan::main();
}

#[divan::bench(args = ["handbook", "process"])]
fn length_choice(bencher: Bencher, practice: &str) {
    let practice = *BUILT_IN.iter().find(|known| known.name() == practice).expect("a practice");
    let rivet = Part::parse("MS20470AD4").expect("a part");
    let question = Installation::through(rivet, pack().grip()).by(practice);
    bencher.bench(|| {
        let choice = black_box(&question).length().expect("a fit");
        assert_eq!(choice.length, Some(inches("3/8")));
        choice
    });
}

#[divan::bench(args = ["keep", "clean-up", "oversize", "next-size", "refer"])]
fn hole_judgement(bencher: Bencher, wanted: &str) {
    let stack = pack();
    let rivet = Part::parse("MS20470AD4").expect("a part");
    let question = Installation::new(rivet, &stack).edge(inches("1/2")).pitch(inches("3/4")).member(Member::Skin);
    let (major, disposition) = match wanted {
        "keep" => (".130", Disposition::Keep),
        "clean-up" => (".127", Disposition::CleanUp),
        "oversize" => (".140", Disposition::Oversize),
        "next-size" => (".150", Disposition::NextSize),
        _ => (".190", Disposition::Refer),
    };
    let damage = if wanted == "clean-up" { Damage::Gouged } else { Damage::None };
    let found = AsFound::new(inches(major), inches(major).min(inches(".1285")), damage).expect("a hole");
    bencher.bench(|| {
        let answer = question.hole(black_box(found));
        assert_eq!(answer.disposition, disposition);
        answer
    });
}

#[divan::bench]
fn joint_strength(bencher: Bencher) {
    let (stack, rivet) = (pack(), Part::parse("MS20470AD4").expect("a part"));
    let question = Installation::new(rivet, &stack).edge(inches("1/4")).pitch(inches("3/4"));
    bencher.bench(|| {
        let found = black_box(&question).strength().expect("a joint");
        assert!(found.allowable.is_some());
        found
    });
}

#[divan::bench(args = [".032", "1-5/16", "3.2mm"])]
fn read_length(bencher: Bencher, text: &str) {
    bencher.bench(|| Length::parse(black_box(text)).expect("a length"));
}

#[divan::bench]
fn read_part_number(bencher: Bencher) {
    bencher.bench(|| Part::parse(black_box("MS20470AD4-3.5")).expect("a part"));
}

#[divan::bench]
fn nearest_drill(bencher: Bencher) {
    let diameter = inches(".141");
    bencher.bench(|| Drill::nearest_at_or_above(black_box(diameter)).expect("a drill"));
}
