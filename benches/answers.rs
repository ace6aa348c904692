//! What one answer of the core costs: length, hole, joint strength, and reading a length and a part number.
//!
//! `cargo bench --bench answers`

use divan::{Bencher, black_box};
use shophead::drill::Drill;
use shophead::hole::{AsFound, Damage, Disposition, HoleQuery};
use shophead::joint::pack::strength_through;
use shophead::joint::strength::Shear;
use shophead::layout::RowLayout;
use shophead::length::{Length, Toleranced};
use shophead::practice::{BUILT_IN, Case, HANDBOOK};
use shophead::rivet::part::Part;
use shophead::select::LengthQuery;
use shophead::structure::Member;
use shophead_benches::{inches, pack};

fn main() {
    divan::main();
}

#[divan::bench(args = ["handbook", "process"])]
fn length_choice(bencher: Bencher, practice: &str) {
    let practice = *BUILT_IN.iter().find(|known| known.name() == practice).expect("a practice");
    let rivet = Part::parse("MS20470AD4").expect("a part");
    let case = Case::of(rivet.series().head, rivet.alloy(), rivet.size());
    let hole = Toleranced::from_least(practice.hole_for(&case).expect("a hole").value);
    let query = LengthQuery {
        series: rivet.series(),
        alloy: rivet.alloy(),
        size: rivet.size(),
        grip: pack().grip(),
        hole,
        practice,
    };
    bencher.bench(|| {
        let choice = black_box(&query).choose().expect("a fit");
        assert_eq!(choice.length, Some(inches("3/8")));
        choice
    });
}

#[divan::bench(args = ["keep", "clean-up", "oversize", "next-size", "refer"])]
fn hole_judgement(bencher: Bencher, wanted: &str) {
    let stack = pack();
    let query = HoleQuery {
        rivet: Part::parse("MS20470AD4").expect("a part"),
        stack: Some(&stack),
        layout: RowLayout { edge: Some(inches("1/2")), pitch: Some(inches("3/4")), ..RowLayout::default() },
        rows: 1,
        member: Member::Skin,
        practice: &HANDBOOK,
    };
    let (major, disposition) = match wanted {
        "keep" => (".130", Disposition::Keep),
        "clean-up" => (".1285", Disposition::CleanUp),
        "oversize" => (".140", Disposition::Oversize),
        "next-size" => (".150", Disposition::NextSize),
        _ => (".190", Disposition::Refer),
    };
    let damage = if wanted == "clean-up" { Damage::Gouged } else { Damage::None };
    let found = AsFound::new(inches(major), inches(".1285"), damage).expect("a hole");
    bencher.bench(|| {
        let verdict = query.judge(black_box(found));
        assert_eq!(verdict.disposition, disposition);
        verdict
    });
}

#[divan::bench]
fn joint_strength(bencher: Bencher) {
    let (stack, rivet) = (pack(), Part::parse("MS20470AD4").expect("a part"));
    let (edge, pitch) = (inches("1/4"), Some(inches("3/4")));
    bencher.bench(|| {
        let found =
            strength_through(black_box(&rivet), &stack, edge, None, pitch, Shear::Single, None).expect("a joint");
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
