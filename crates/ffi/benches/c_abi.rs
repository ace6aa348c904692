//! What the C interface adds to a call: the same questions asked of the core directly and through the functions of `shophead-ffi`, in turn, in one
//! run. Prints the middle of many rounds, and of their ratios.
//!
//! `cargo bench -p shophead-ffi --bench c_abi`

#![allow(unsafe_code, reason = "stands for the C program: every pointer is to a local that outlives the call")]

use std::hint::black_box;
use std::time::Instant;

use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::joint::strength::JointStrength;
use shophead::layout::RowLayout;
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{Case, HANDBOOK};
use shophead::quantity::Force;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Stack};
use shophead::structure::Member;
use shophead_ffi::border::{In, Out};
use shophead_ffi::error::shophead_error;
use shophead_ffi::finding::{SHOPHEAD_MAX_FINDINGS, shophead_finding};
use shophead_ffi::hole::*;
use shophead_ffi::joint::*;
use shophead_ffi::length::{SHOPHEAD_NONE, shophead_toleranced};
use shophead_ffi::material::shophead_material_parse;
use shophead_ffi::part::{shophead_part, shophead_part_parse};
use shophead_ffi::practice::shophead_practice;
use shophead_ffi::select::{shophead_length_choice, shophead_length_choose, shophead_length_query};
use shophead_ffi::stack::{SHOPHEAD_MAX_LAYERS, shophead_layer};

/// A question asked both ways; each asserts its answer.
struct Question<'q> {
    name: &'static str,
    direct: &'q dyn Fn(),
    through: &'q dyn Fn(),
}

fn main() {
    // Run as a test it asks each question a few times.
    let (rounds, turns) = if std::env::args().any(|word| word == "--bench") { (201, 500) } else { (3, 2) };
    let stack = pack();
    let rivet = Part::parse("MS20470AD4").expect("a part");
    let part = read_part("MS20470AD4");
    let layers: Vec<shophead_layer> = c_layers(&stack);
    let practice = shophead_practice { built_in: 1, unused: 0, own: reads(std::ptr::null()), own_count: 0 };

    let case = Case::of(rivet.series().head, rivet.alloy(), rivet.size());
    let hole = Toleranced::from_least(HANDBOOK.hole_for(&case).expect("a hole").value);
    let length = Installation::through(rivet, stack.grip()).in_hole(hole);
    let c_length = shophead_length_query { part, grip: c_length(stack.grip()), hole: c_length(hole), practice };

    let layout = RowLayout::default().edge(inches("1/2")).pitch(inches("3/4"));
    let query = Installation::new(rivet, &stack).layout(layout).member(Member::Skin);
    let keep = AsFound::new(inches(".130"), inches(".1285"), Damage::None).expect("a hole");
    let step = AsFound::new(inches(".140"), inches(".1285"), Damage::None).expect("a hole");
    let c_query = shophead_hole_query {
        part,
        layers: reads(layers.as_ptr()),
        layer_count: layers.len(),
        edge_nm: inches("1/2").nanometres(),
        pitch_nm: inches("3/4").nanometres(),
        transverse_pitch_nm: SHOPHEAD_NONE,
        rows: 1,
        member: Member::Skin.number(),
        practice,
    };

    let load = Load { force: Force::from_lbf(100.0), kind: LoadKind::Limit };
    let c_joint = shophead_joint {
        part,
        layers: reads(layers.as_ptr()),
        layer_count: layers.len(),
        edge_nm: inches("1/4").nanometres(),
        hole_nm: SHOPHEAD_NONE,
        pitch_nm: inches("3/4").nanometres(),
        shear: shophead_shear::SHOPHEAD_SHEAR_SINGLE as u32,
        unused: 0,
        load: shophead_load { kind: 1, factors: 1, lbf: 100.0 },
    };

    let questions = [
        Question {
            name: "length choice",
            direct: &|| {
                let choice = black_box(&length).length().expect("a fit");
                assert_eq!(black_box(choice).length, Some(inches_3_8()));
            },
            through: &|| through_length(black_box(&c_length)),
        },
        Question {
            name: "hole, kept",
            direct: &|| direct_hole(black_box(&query), keep, Disposition::Keep),
            through: &|| through_hole(black_box(&c_query), keep, Disposition::Keep),
        },
        Question {
            name: "hole, stepped up",
            direct: &|| direct_hole(black_box(&query), step, Disposition::Oversize),
            through: &|| through_hole(black_box(&c_query), step, Disposition::Oversize),
        },
        Question {
            name: "strength",
            direct: &|| {
                let mut found = JointStrength::nothing_yet();
                let question = Installation::new(rivet, black_box(&stack)).edge(inches_1_4()).pitch(inches_3_4());
                question.load(load, Factors::FITTING).strength_into(&mut found).expect("a joint");
                assert!(black_box(&found).margin.is_some());
            },
            through: &|| through_strength(black_box(&c_joint)),
        },
    ];
    println!("{:18} {:>10} {:>10} {:>7}", "question", "direct ns", "C ns", "ratio");
    for Question { name, direct, through } in &questions {
        let (mut direct_ns, mut through_ns, mut ratios) = (Vec::new(), Vec::new(), Vec::new());
        for _ in 0..rounds {
            // One right after the other, so that a machine that has become slower meets both.
            let (direct, through) = (time(*direct, turns), time(*through, turns));
            direct_ns.push(direct);
            through_ns.push(through);
            ratios.push(through / direct);
        }
        let (direct, through, ratio) = (middle(&mut direct_ns), middle(&mut through_ns), middle(&mut ratios));
        println!("{name:18} {direct:10.0} {through:10.0} {ratio:7.2}");
    }
}

/// A skin, a doubler and a cap, as in the other benchmarks.
fn pack() -> Stack {
    let mut stack = Stack::new();
    for (material, thickness) in [("clad 2024-T3", ".032+-.002"), ("2024-T3", ".040+-.002"), ("7075-T6", ".125+-.003")]
    {
        let material = Some(Material::parse(material).expect("a material"));
        let thickness = Toleranced::parse(thickness).expect("a thickness");
        stack.push(Layer::of(thickness).material(material)).expect("room");
    }
    stack
}

fn inches(text: &str) -> Length {
    Length::parse(text).expect(text)
}

/// Nanoseconds a call.
fn time(ask: &dyn Fn(), turns: u32) -> f64 {
    let start = Instant::now();
    for _ in 0..turns {
        ask();
    }
    start.elapsed().as_nanos() as f64 / f64::from(turns)
}

fn middle(times: &mut [f64]) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

const fn inches_3_8() -> Length {
    Length::from_64ths(24)
}

const fn inches_1_4() -> Length {
    Length::from_64ths(16)
}

const fn inches_3_4() -> Length {
    Length::from_64ths(48)
}

fn reads<T>(pointer: *const T) -> In<T> {
    // SAFETY: a local of `main` or of the caller, which outlives every call with it; NULL where there is nothing.
    unsafe { In::new(pointer) }
}

fn writes<T>(pointer: *mut T) -> Out<T> {
    // SAFETY: a local of the caller, used for nothing else during the call.
    unsafe { Out::new(pointer) }
}

fn c_length(length: Toleranced) -> shophead_toleranced {
    shophead_toleranced {
        min_nm: length.min().nanometres(),
        nominal_nm: length.nominal().nanometres(),
        max_nm: length.max().nanometres(),
    }
}

fn read_part(number: &str) -> shophead_part {
    let mut part = shophead_part { series: 0, alloy: 0, dash: 0, finish: 0, length_nm: 0 };
    let mut warnings = 0;
    let text = reads(number.as_ptr().cast());
    let error = shophead_part_parse(text, number.len(), writes(&raw mut part), writes(&raw mut warnings));
    assert_eq!(error, shophead_error::SHOPHEAD_OK);
    part
}

fn c_layers(stack: &Stack) -> Vec<shophead_layer> {
    let layer = |layer: &shophead::stack::Layer| {
        let text = layer.material.expect("a material").to_string();
        let mut material = 0;
        let error = shophead_material_parse(reads(text.as_ptr().cast()), text.len(), writes(&raw mut material));
        assert_eq!(error, shophead_error::SHOPHEAD_OK);
        shophead_layer { thickness: c_length(layer.thickness), material, role: 1, preparation: 1, unused: 0 }
    };
    stack.layers().iter().map(layer).collect()
}

/// Room for an answer, not filled before the call, as in C.
struct Room<T, const N: usize>([std::mem::MaybeUninit<T>; N]);

impl<T, const N: usize> Room<T, N> {
    fn new() -> Room<T, N> {
        Room([const { std::mem::MaybeUninit::uninit() }; N])
    }

    fn out(&mut self) -> Out<T> {
        writes(self.0.as_mut_ptr().cast())
    }

    fn first(&self) -> &T {
        // SAFETY: asked only after a call that wrote it.
        unsafe { self.0[0].assume_init_ref() }
    }
}

fn through_length(query: &shophead_length_query) {
    let mut choice = Room::<shophead_length_choice, 1>::new();
    let mut findings = Room::<shophead_finding, SHOPHEAD_MAX_FINDINGS>::new();
    // By a pointer that the compiler does not see through, as from another language.
    let call = black_box(shophead_length_choose as extern "C" fn(_, _, _, _) -> _);
    let error = call(reads(query), choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
    assert_eq!(error, shophead_error::SHOPHEAD_OK);
    assert_eq!(black_box(choice.first()).length_nm, inches_3_8().nanometres());
}

fn direct_hole(question: &Installation<'_, '_>, found: AsFound, wanted: Disposition) {
    let answer = question.hole(black_box(found));
    assert_eq!(black_box(&answer).disposition, wanted);
}

fn through_hole(query: &shophead_hole_query, found: AsFound, wanted: Disposition) {
    let found = shophead_hole {
        major_nm: found.major().nanometres(),
        minor_nm: found.minor().nanometres(),
        damage: Damage::None.number(),
        unused: 0,
    };
    let mut judgement = Room::<shophead_hole_judgement, 1>::new();
    let mut steps = Room::<shophead_step, SHOPHEAD_MAX_STEPS>::new();
    let mut findings = Room::<shophead_finding, SHOPHEAD_MAX_HOLE_FINDINGS>::new();
    let call = black_box(shophead_hole_judge as extern "C" fn(_, _, _, _, _, _, _) -> _);
    let error = call(
        reads(query),
        reads(black_box(&raw const found)),
        judgement.out(),
        steps.out(),
        SHOPHEAD_MAX_STEPS,
        findings.out(),
        SHOPHEAD_MAX_HOLE_FINDINGS,
    );
    assert_eq!(error, shophead_error::SHOPHEAD_OK);
    assert_eq!(black_box(judgement.first()).disposition, wanted.into());
}

fn through_strength(joint: &shophead_joint) {
    let mut strength = Room::<shophead_strength, 1>::new();
    let mut sheets = Room::<shophead_sheet, SHOPHEAD_MAX_LAYERS>::new();
    let mut findings = Room::<shophead_finding, SHOPHEAD_MAX_FINDINGS>::new();
    let call = black_box(shophead_strength_find as extern "C" fn(_, _, _, _, _, _) -> _);
    let error =
        call(reads(joint), strength.out(), sheets.out(), SHOPHEAD_MAX_LAYERS, findings.out(), SHOPHEAD_MAX_FINDINGS);
    assert_eq!(error, shophead_error::SHOPHEAD_OK);
    assert_eq!(black_box(strength.first()).margin.known, 1);
}
