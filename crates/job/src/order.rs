//! What to order: the rivets of a plan, with spares, against what is on the shelf.

use shophead::installation::Installation;
use shophead::quantity::Mass;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;

use shophead::stack::Stack;

use crate::plan::{Choice, Plan, fits};

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

/// A rivet of another length that is on the shelf and does as well, for a part of which too few are there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alternative<'j> {
    /// The part that is short.
    pub part: Part<'j>,
    /// What could go in its place.
    pub other: Part<'static>,
    /// How many of those are on the shelf beyond what the order itself needs of them.
    pub free: u32,
    /// How many of the holes it is within limits for.
    pub holes: u32,
    /// The rows of those holes.
    pub rows: Vec<&'j str>,
}

/// Holes of a row that take the same rivet in the same pack and hole.
struct Place<'p, 'j> {
    row: &'j str,
    choice: &'p Choice<'j>,
    stack: &'p Stack,
    holes: u32,
}

/// Every place that takes a rivet, row by row.
fn places<'p, 'j>(plan: &'p Plan<'j>) -> impl Iterator<Item = Place<'p, 'j>> {
    plan.rows.iter().flat_map(|row| {
        let most = Place {
            row: &row.row.name,
            choice: &row.choice,
            stack: &row.row.stack,
            holes: row.row.count - row.holes.len() as u32,
        };
        let own = row.holes.iter().filter_map(|hole| {
            Some(Place { row: &row.row.name, choice: hole.choice.as_deref()?, stack: hole.stack, holes: 1 })
        });
        std::iter::once(most).chain(own).filter(|place| place.choice.is_complete() && place.holes > 0)
    })
}

/// The order of a plan, sorted by series, alloy, diameter and length. Holes that have no rivet yet are not in it.
#[must_use]
pub fn order<'j>(plan: &Plan<'j>, spares_percent: u32, stock: Option<&[Stock]>) -> Vec<OrderLine<'j>> {
    order_of(places(plan).map(|place| (place.choice.part, place.holes)), spares_percent, stock)
}

/// An order of these parts, as [`order`] makes it.
#[must_use]
pub fn order_of<'j>(
    parts: impl Iterator<Item = (Part<'j>, u32)>,
    spares_percent: u32,
    stock: Option<&[Stock]>,
) -> Vec<OrderLine<'j>> {
    let mut needed: Vec<(Part<'j>, u32)> = Vec::new();
    for (part, holes) in parts {
        match needed.iter_mut().find(|(known, _)| *known == part) {
            Some((_, count)) => *count += holes,
            None => needed.push((part, holes)),
        }
    }
    needed.sort_by(|(one, _), (other, _)| sort_key(one).cmp(&sort_key(other)));
    needed.into_iter().map(|(part, needed)| line(part, needed, spares_percent, stock)).collect()
}

/// What on the shelf could go in the place of parts that are short: the same rivet in another length, for the holes where a driven head of
/// it is sound in every case.
#[must_use]
pub fn alternatives<'j>(plan: &Plan<'j>, lines: &[OrderLine<'j>], stock: &[Stock]) -> Vec<Alternative<'j>> {
    let mut found = Vec::new();
    for line in lines.iter().filter(|line| line.buy > 0) {
        for other in stock {
            let is_family = other.part != line.part && other.part.without_length() == line.part.without_length();
            let own_need = lines.iter().find(|own| own.part == other.part);
            let taken = own_need.map_or(0, |own| own.needed.saturating_add(own.spares));
            let free = other.on_hand.saturating_sub(taken);
            if !is_family || free == 0 {
                continue;
            }
            let does = |place: &Place<'_, 'j>| {
                let question = Installation::new(line.part, place.stack).by(plan.practice);
                place.choice.part == line.part && fits(&question, &other.part, place.choice.hole.value)
            };
            let mut alternative = Alternative { part: line.part, other: other.part, free, holes: 0, rows: Vec::new() };
            for place in places(plan).filter(does) {
                alternative.holes += place.holes;
                if alternative.rows.last() != Some(&place.row) {
                    alternative.rows.push(place.row);
                }
            }
            if alternative.holes > 0 {
                found.push(alternative);
            }
        }
    }
    found
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
