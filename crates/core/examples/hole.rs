//! What becomes of a hole as found: `cargo run --example hole -- MS20470AD4 .1365 .1310`, the longest and the shortest axis.
//!
//! What is printed advises. The manuals of the type, approved data, local rules and a licensed person decide.

use std::error::Error;

use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::length::{Bare, Length};
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::words::Units;

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let word = |index: usize, otherwise: &'static str| words.get(index).map_or(otherwise, String::as_str).to_owned();
    let rivet = Part::parse(&word(0, "MS20470AD4"))?;
    let axis = |text: &str| Length::parse_hole(text, Bare::Inches);
    let found = AsFound::new(axis(&word(1, ".1365"))?, axis(&word(2, ".1310"))?, Damage::None)?;

    let layers = Stack::parse("2024-T3:.032, 2024-T3:.050")?;
    let question =
        Installation::new(rivet, &layers).in_place_of(rivet).edge(Length::parse("3/8")?).pitch(Length::parse("3/4")?);
    // Every step that was tried, and why one that does not do does not.
    let answer = question.hole_step_by_step(found, &mut |step| {
        println!("{}: {}", step.kind, if step.does() { "does" } else { "does not" });
        for finding in &step.findings {
            println!("    {}: {}", finding.severity(), finding.sentence(Units::Inches));
        }
    });
    println!("so: {}", answer.disposition);
    if let (Some(rivet), Some(cut)) = (answer.rivet, answer.cut) {
        println!("open it with {cut} for {rivet}");
    }
    Ok(())
}
