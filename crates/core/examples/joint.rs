//! What one rivet carries in its sheets, and whether that is as much as before: `cargo run --example joint`.
//!
//! What is printed advises. The manuals of the type, approved data, local rules and a licensed person decide.

use std::error::Error;

use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::length::Length;
use shophead::practice::HANDBOOK;
use shophead::quantity::Force;
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::words::Units;

fn main() -> Result<(), Box<dyn Error>> {
    let (before, now) = (Part::parse("MS20470AD4")?, Part::parse("MS20470AD5")?);
    let layers = Stack::parse("2024-T3:.040, 7075-T6:.071")?;
    let question = Installation::new(now, &layers)
        .in_place_of(before)
        .edge(Length::parse("3/8")?)
        .pitch(Length::parse("1")?)
        .load(Load { force: Force::from_lbf(150.0), kind: LoadKind::Limit }, Factors::SEAM);
    let found = question.strength()?;
    match found.allowable {
        // Where the figure stands is part of the figure.
        Some(allowable) => {
            println!("{now} carries {:.0} lbf: {}", allowable.force.lbf(), HANDBOOK.cite(allowable.basis));
        }
        None => println!("no strength is published for {now} in these sheets"),
    }
    if let Some(margin) = found.margin {
        println!("margin {:+.2}", margin.value);
    }
    for finding in &found.findings {
        println!("{}: {}", finding.severity(), finding.sentence(Units::Inches));
    }
    Ok(())
}
