//! Asks generated cases so and so often: `benches/instructions` counts what a call costs from the difference of two runs.
//!
//! `cargo run --release --example ask -- QUESTION CASES TIMES`

use std::hint::black_box;

use shophead::joint::strength::JointStrength;
use shophead::length::Length;
use shophead::rivet::part::Part;
use shophead::upset::{Fit, judge};
use shophead_answers::{Case, Kind};

/// The same questions as the firmware's `measure` asks.
fn ask(question: &str, case: &Case) {
    match question {
        "length" => drop(black_box(case.question().length())),
        "predict" => {
            if let Ok(fit) = Fit::new(case.rivet.series(), case.rivet.size(), case.hole, case.stack.grip()) {
                black_box(fit.predict(case.length, case.head.height.min()));
            }
        }
        "head" => drop(black_box(judge(case.head, &case.defects, case.practice, &case.practice_case()))),
        "hole" => {
            if let Some(found) = case.found {
                black_box(&case.question().hole(found));
            }
        }
        "row" => drop(black_box(case.question().distances())),
        "strength" => {
            let mut found = JointStrength::nothing_yet();
            let _ = case.question().strength_into(&mut found);
            black_box(&found);
        }
        "number-read" => drop(black_box(Part::parse(black_box("MS20470AD4-3.5")))),
        "length-read" => drop(black_box(Length::parse(black_box("1-5/16")))),
        other => panic!("no question is called {other}"),
    }
}

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [question, cases, times] = &arguments[..] else { panic!("QUESTION CASES TIMES") };
    let (cases, times): (u32, u32) = (cases.parse().expect("a number"), times.parse().expect("a number"));
    let kind = match question.as_str() {
        "predict" | "head" => Kind::Upset,
        "hole" => Kind::Hole,
        "row" | "strength" => Kind::Joint,
        _ => Kind::Length,
    };
    for number in 0..cases {
        let case = Case::make(kind, number);
        for _ in 0..times {
            ask(question, black_box(&case));
        }
    }
}
