//! The steps behind an answer.

use serde::Serialize;
use shophead::words::Units;
use shophead::working::{Kind, Origin, Quantity};
use shophead_job::working::{Put, Worked};

use super::{Basis, Guarantee, Nth, finite};
use crate::report::Shown;

/// The steps behind an answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Working<'a> {
    /// What was typed, by option.
    pub(crate) inputs: Vec<Input<'a>>,
    /// The steps, in the order in which they are made.
    pub(crate) steps: Vec<Step<'a>>,
}

/// An option that was typed.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Input<'a> {
    /// Its name.
    pub(crate) name: &'a str,
    /// What was typed for it.
    pub(crate) value: &'a str,
}

/// One step.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Step<'a> {
    /// Which.
    pub(crate) step: Nth,
    /// The rule, by a word that never changes.
    pub(crate) rule: &'a str,
    /// Its name.
    pub(crate) name: &'a str,
    /// What it is about; empty for all of it.
    pub(crate) about: String,
    /// What stands for the result.
    pub(crate) symbol: &'a str,
    /// What the result means.
    pub(crate) meaning: &'a str,
    /// The formula, in symbols.
    pub(crate) formula: &'a str,
    /// The formula with the figures put in, in the units of the text.
    pub(crate) put_in: String,
    /// The figures put in, in the order in which they stand in the formula.
    pub(crate) figures: Vec<Figure<'a>>,
    /// What comes out.
    pub(crate) result: Number<'a>,
    /// Where the formula stands; null for plain geometry and arithmetic.
    pub(crate) basis: Option<Basis<'a>>,
}

/// A figure put in.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Figure<'a> {
    /// What stands for it in the formula.
    pub(crate) symbol: &'a str,
    /// What it means.
    pub(crate) meaning: &'a str,
    /// What it belongs to; empty where that is what the step is about.
    pub(crate) about: String,
    /// What it is; of a list, one for each rivet or layer.
    pub(crate) values: Vec<Number<'a>>,
    /// Whether the formula sums over the values.
    pub(crate) list: bool,
    /// The step that it came out of; null where it stands in a document or was entered.
    pub(crate) from_step: Option<Nth>,
    /// Where it stands; null where it came out of a step.
    pub(crate) basis: Option<Basis<'a>>,
    /// How the handbook guarantees it; null for what is no strength of a sheet.
    pub(crate) guarantee: Option<Guarantee>,
}

/// A number with its unit.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Number<'a> {
    /// The number as it is printed, in the units of the text.
    pub(crate) printed: String,
    /// Its unit there; empty for a plain number.
    pub(crate) unit: &'a str,
    /// The number in inches and pounds, or without unit.
    pub(crate) value: Option<f64>,
    /// Its unit there; empty for a plain number.
    pub(crate) value_unit: &'a str,
}

impl<'a> Working<'a> {
    pub(crate) fn of(shown: &'a Shown<'_>) -> Working<'a> {
        let inputs = shown.inputs.iter().map(|(name, value)| Input { name, value });
        Working { inputs: inputs.collect(), steps: shown.steps.iter().map(|step| Step::of(step, shown)).collect() }
    }
}

impl<'a> Step<'a> {
    fn of(step: &'a Worked, shown: &'a Shown<'_>) -> Step<'a> {
        Step {
            step: u32::from(step.number).into(),
            rule: step.rule.word,
            name: step.rule.name,
            about: step.about.to_string(),
            symbol: step.rule.result.text,
            meaning: step.rule.result.meaning,
            formula: step.rule.formula,
            put_in: step.put_in(shown.units),
            figures: step.figures.iter().map(|figure| Figure::of(figure, shown)).collect(),
            result: Number::of(step.result, shown.units),
            basis: step.rule.basis.map(|basis| Basis::of(basis, shown.practice)),
        }
    }
}

impl<'a> Figure<'a> {
    fn of(figure: &'a Put, shown: &'a Shown<'_>) -> Figure<'a> {
        let (from_step, basis, guarantee) = match figure.origin {
            Origin::Step(number) => (Some(u32::from(number).into()), None, None),
            Origin::Basis(basis, guarantee) => {
                (None, Some(Basis::of(basis, shown.practice)), guarantee.map(Guarantee::from))
            }
        };
        Figure {
            symbol: figure.symbol.text,
            meaning: figure.symbol.meaning,
            about: figure.about.to_string(),
            values: figure.values.iter().map(|value| Number::of(*value, shown.units)).collect(),
            list: figure.is_list,
            from_step,
            basis,
            guarantee,
        }
    }
}

impl Number<'_> {
    fn of(value: Quantity, units: Units) -> Number<'static> {
        let kind: Kind = value.kind();
        Number {
            printed: value.shown(units).to_string(),
            unit: kind.unit(units),
            value: finite(value.number_in(Units::Inches)),
            value_unit: kind.unit(Units::Inches),
        }
    }
}
