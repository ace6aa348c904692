//! What to order: the rivets of a plan, with spares, against what is on the shelf.

use shophead::quantity::Mass;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;

use crate::plan::{Choice, Plan};

/// What is on the shelf of one part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stock {
    /// The part.
    pub part: Part<'static>,
    /// How many are there.
    pub on_hand: u32,
    /// How many a pack holds; one where they are sold singly.
    pub pack: u32,
}

/// One part of an order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OrderLine<'j> {
    /// The part.
    pub part: Part<'j>,
    /// How many holes take it.
    pub needed: u32,
    /// How many more, in case.
    pub spares: u32,
    /// How many are on the shelf; `None` when no stock list was given.
    pub stock: Option<u32>,
    /// How many to buy: what is missing, in whole packs.
    pub buy: u32,
    /// Estimated mass of those needed and the spares; `None` where the rivet's dimensions or its density are not known.
    pub mass: Option<Mass>,
}

/// The order of a plan, sorted by series, alloy, diameter and length. Holes that have no rivet yet are not in it.
#[must_use]
pub fn order<'j>(plan: &Plan<'j>, spares_percent: u32, stock: Option<&[Stock]>) -> Vec<OrderLine<'j>> {
    let mut needed: Vec<(Part<'j>, u32)> = Vec::new();
    let mut count = |choice: &Choice<'j>, holes: u32| {
        if !choice.is_complete() || holes == 0 {
            return;
        }
        match needed.iter_mut().find(|(part, _)| *part == choice.part) {
            Some((_, count)) => *count += holes,
            None => needed.push((choice.part, holes)),
        }
    };
    for row in &plan.rows {
        count(&row.choice, row.row.count - row.holes.len() as u32);
        for choice in row.holes.iter().filter_map(|hole| hole.choice.as_deref()) {
            count(choice, 1);
        }
    }
    needed.sort_by(|(one, _), (other, _)| sort_key(one).cmp(&sort_key(other)));
    needed.into_iter().map(|(part, needed)| line(part, needed, spares_percent, stock)).collect()
}

fn sort_key<'j>(part: &Part<'j>) -> (&'j str, &'j str, u8, Option<shophead::length::Length>) {
    (part.series().name, part.material().code, part.size().dash, part.length())
}

fn line<'j>(part: Part<'j>, needed: u32, spares_percent: u32, stock: Option<&[Stock]>) -> OrderLine<'j> {
    // A part of a spare is a whole one.
    let spares = u32::try_from((u64::from(needed) * u64::from(spares_percent)).div_ceil(100)).unwrap_or(u32::MAX);
    let wanted = needed.saturating_add(spares);
    let on_shelf = stock.and_then(|stock| stock.iter().find(|stock| stock.part == part));
    let on_hand = on_shelf.map_or(0, |stock| stock.on_hand);
    let pack = on_shelf.map_or(1, |stock| stock.pack).max(1);
    let buy = wanted.saturating_sub(on_hand).div_ceil(pack).saturating_mul(pack);
    let density = part.alloy().density_lb_in3().map(|(density, _)| density);
    let mass = density.and_then(|density| mass_each(&part, density)).map(|each| each * f64::from(wanted));
    OrderLine { part, needed, spares, stock: stock.map(|_| on_hand), buy, mass }
}
