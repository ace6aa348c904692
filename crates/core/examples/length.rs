//! The rivet to order for a pack: `cargo run --example length -- MS20470AD5 "2024-T3:.032, 2024-T3:.040, 2024-T3:.250"`.
//!
//! What is printed advises. The manuals of the type, approved data, local rules and a licensed person decide.

use std::error::Error;

use shophead::installation::Installation;
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::words::Units;

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let (rivet, layers) = (words.next(), words.next());
    let rivet = Part::parse(rivet.as_deref().unwrap_or("MS20470AD5"))?;
    let layers = Stack::parse(layers.as_deref().unwrap_or("2024-T3:.032, 2024-T3:.040, 2024-T3:.250"))?;
    let answer = Installation::new(rivet, &layers).length()?;
    match answer.part {
        Some(part) => println!("{part}"),
        None => println!("no one length is right in every hole"),
    }
    if let Some(window) = answer.window {
        println!("drive it to {}", window.shown(Units::Inches));
    }
    for finding in &answer.findings {
        println!("{}: {}", finding.severity(), finding.sentence(Units::Inches));
    }
    Ok(())
}
