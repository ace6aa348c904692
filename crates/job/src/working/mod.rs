//! The working behind an answer: kept step by step, written as lines, and as a sheet of HTML to print and sign.
//!
//! The core makes the steps; here they are only kept and written.

mod sheet;

use std::fmt::Write;

use shophead::basis::{Basis, Citation, Status};
use shophead::material::Guarantee;
use shophead::practice::Practice;
use shophead::words::Units;
use shophead::working::{About, Equation, Origin, Quantity, Symbol, WorkedStep, Working};

pub use sheet::{WorkingSheet, sheet};

/// A figure put in.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Put {
    /// What stands for it in the formula, and what that means.
    pub symbol: Symbol,
    /// Its values: one, or one for each rivet or layer where `is_list`.
    pub values: Vec<Quantity>,
    /// Whether it is a list, which a formula sums over.
    pub is_list: bool,
    /// What it belongs to.
    pub about: About,
    /// Where it comes from.
    pub origin: Origin,
}

/// A step.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Worked {
    /// Which, counted from 1.
    pub number: u16,
    /// Its name and formula.
    pub rule: &'static Equation,
    /// What it is about.
    pub about: About,
    /// The figures put in.
    pub figures: Vec<Put>,
    /// What comes out.
    pub result: Quantity,
}

/// Keeps the steps that `make` hands out.
///
/// ```
/// use shophead::installation::Installation;
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// use shophead::words::Units;
/// use shophead_job::working::kept;
/// let layers = Stack::parse("2024-T3:.064, 2024-T3:.064")?;
/// let question = Installation::new(Part::parse("MS20470AD4")?, &layers);
/// let found = question.strength()?;
/// let steps = kept(|work| shophead::working::joint::of(&question, &found, work));
/// assert_eq!(steps[0].formula(), "P1 = Fsr × π / 4 × d²");
/// assert_eq!(steps[0].put_in(Units::Inches), "30000 × π / 4 × 0.1285²");
/// assert_eq!(steps[0].result(Units::Inches), "389.061 lbf");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn kept(make: impl FnOnce(&mut Working<'_>)) -> Vec<Worked> {
    let mut steps = Vec::new();
    make(&mut Working::new(&mut |step| steps.push(Worked::of(step))));
    steps
}

impl Worked {
    fn of(step: &WorkedStep<'_>) -> Worked {
        let put = |figure: &shophead::working::Input<'_>| Put {
            symbol: figure.symbol,
            values: match figure.each {
                Some(each) => (0..step.listed).map_while(each).collect(),
                None => vec![figure.value],
            },
            is_list: figure.each.is_some(),
            about: figure.about,
            origin: figure.origin,
        };
        Worked {
            number: step.number,
            rule: step.rule,
            about: step.about,
            figures: step.figures.iter().map(put).collect(),
            result: step.result,
        }
    }

    /// Its name, and what it is about.
    #[must_use]
    pub fn name(&self) -> String {
        let about = self.about.to_string();
        if about.is_empty() { self.rule.name.to_owned() } else { format!("{} ({about})", self.rule.name) }
    }

    /// What comes out and the formula for it.
    #[must_use]
    pub fn formula(&self) -> String {
        format!("{} = {}", self.rule.result.text, self.rule.formula)
    }

    /// The formula with the figures in the places of their symbols. A list keeps its symbol: its figures are written beside it.
    #[must_use]
    pub fn put_in(&self, units: Units) -> String {
        let mut text = String::new();
        let mut rest = self.rule.formula;
        while let Some(first) = rest.chars().next() {
            let word = rest.find(|c: char| !c.is_alphabetic() && !c.is_ascii_digit()).unwrap_or(rest.len());
            if first == '…' {
                let all: Vec<String> = self.figures.iter().map(|figure| figure.shown(units)).collect();
                text.push_str(&all.join(", "));
            } else if first.is_alphabetic() && word > 0 {
                let name = rest.get(..word).unwrap_or_default();
                match self.figures.iter().find(|figure| figure.symbol.text == name && !figure.is_list) {
                    Some(figure) => text.push_str(&figure.shown(units)),
                    None => text.push_str(name),
                }
                rest = rest.get(word..).unwrap_or_default();
                continue;
            } else {
                text.push(first);
            }
            rest = rest.get(first.len_utf8()..).unwrap_or_default();
        }
        text
    }

    /// What comes out, with its unit.
    #[must_use]
    pub fn result(&self, units: Units) -> String {
        with_unit(self.result, units)
    }
}

impl Put {
    /// Its number as it is put in: one below nothing in brackets, a list by its symbol.
    fn shown(&self, units: Units) -> String {
        let Some(value) = self.values.first().filter(|_| !self.is_list) else { return self.symbol.text.to_owned() };
        let number = value.shown(units).to_string();
        if number.starts_with('-') { format!("({number})") } else { number }
    }

    /// Its number, or all of a list, with the unit.
    #[must_use]
    pub fn with_unit(&self, units: Units) -> String {
        if !self.is_list {
            return self.values.first().map_or_else(String::new, |value| with_unit(*value, units));
        }
        let numbers: Vec<String> = self.values.iter().map(|value| value.shown(units).to_string()).collect();
        let unit = self.values.first().map_or("", |value| value.kind().unit(units));
        format!("{} {unit}", numbers.join("; ")).trim_end().to_owned()
    }

    /// What it means, and of what.
    #[must_use]
    pub fn meaning(&self) -> String {
        let about = self.about.to_string();
        if about.is_empty() { self.symbol.meaning.to_owned() } else { format!("{} ({about})", self.symbol.meaning) }
    }
}

fn with_unit(value: Quantity, units: Units) -> String {
    format!("{} {}", value.shown(units), value.kind().unit(units)).trim_end().to_owned()
}

/// Where a figure stands, for people: the document and the place in it, how the handbook guarantees it, and whether it was read, recalled,
/// entered, or is common practice.
#[must_use]
pub fn stands(origin: Origin, practice: &Practice<'_>) -> String {
    match origin {
        Origin::Step(number) => format!("step {number}"),
        Origin::Basis(basis, guarantee) => of_basis(basis, guarantee, practice),
    }
}

/// The same of a formula or a document.
#[must_use]
pub fn of_basis(basis: Basis, guarantee: Option<Guarantee>, practice: &Practice<'_>) -> String {
    let cited = practice.cite(basis);
    let Citation { document, place, status } = cited;
    let mut text = document.to_owned();
    if !place.is_empty() {
        let _ = write!(text, ", {place}");
    }
    if let Some(guarantee) = guarantee {
        let _ = write!(text, ", {guarantee:?} basis");
    }
    match status {
        Status::Published => text.push_str(", read"),
        Status::Memory => text.push_str(", memory"),
        // Figures beside the limits say so themselves.
        Status::Shop if basis != Basis::AS_GIVEN && !document.starts_with("entered by the shop") => {
            text.push_str(", entered by the shop");
        }
        Status::Shop | Status::Practice => {}
    }
    text
}
