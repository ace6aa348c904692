//! What to order: the rivets of a plan, with spares, against what is on the shelf.

use shophead::finding::{Code, Finding, Severity};
use shophead::installation::Installation;
use shophead::length::{Interval, Length};
use shophead::practice::Practice;
use shophead::quantity::Mass;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::upset::Window;
use shophead::words::Units;

use crate::model::Answer;
use crate::plan::{Choice, Plan, RowPlan, Subject, head_of, in_words, serving};
use crate::words::{self, ranges};

/// What is on the shelf of one part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Stock {
    /// The part.
    pub part: Part<'static>,
    /// How many are there, in all its lots.
    pub on_hand: u32,
    /// How many a pack holds; one where they are sold singly.
    pub pack: u32,
}

/// A shelf as it was listed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Shelf {
    /// The rivets on it, each once, in the order of the list.
    pub stock: Vec<Stock>,
    /// How many lines are about parts that are no rivets known here.
    pub foreign: u32,
    /// Lines that were read otherwise than they stand, or left out, and why.
    pub notes: Vec<ShelfNote>,
}

/// What is to be said of a line of a stock file.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct ShelfNote {
    /// The line, counted from 1.
    pub line: usize,
    /// What.
    pub what: String,
}

/// One part of an order.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct OrderLine<'j> {
    /// The part.
    pub part: Part<'j>,
    /// How many holes take it, and how many more in place of rivets that come out again.
    pub needed: u32,
    /// How many of those are in place of rivets that come out again.
    pub again: u32,
    /// How many more, in case.
    pub spares: u32,
    /// How many are on the shelf; `None` when no stock list was given.
    pub stock: Option<u32>,
    /// How many to buy: what is missing, in whole packs.
    pub buy: u32,
    /// How many a pack holds; `None` where no stock list says so.
    pub pack: Option<u32>,
    /// Estimated mass of those needed and the spares; `None` where the rivet's dimensions or its density are not known.
    pub mass: Option<Mass>,
}

/// A rivet of another length that is on the shelf and does as well, for a part of which too few are there.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
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
    /// The driven heads that it makes there, from the least case to the greatest; `None` where they cannot be told.
    pub head: Option<Interval>,
    /// The height that they are driven to for that.
    pub height: Option<Length>,
    /// What to drive its head to there; `None` where no one height is right for all.
    pub window: Option<Window>,
    /// The holes of that part that it is not within limits for.
    pub not_for: Vec<Holes<'j>>,
}

/// Holes of a row.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Holes<'j> {
    /// The row.
    pub row: &'j str,
    /// Their numbers, rising.
    pub numbers: Vec<u32>,
}

/// Holes that no rivet is ordered for, and why.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct NotOrdered<'j> {
    /// Which.
    pub holes: Holes<'j>,
    /// Whether it is every hole of the row.
    pub whole_row: bool,
    /// What was found that somebody has to answer first. None where the rivet has no length and nothing says why.
    pub why: Vec<Finding>,
    /// What somebody answered that leaves no rivet to order.
    pub answer: Option<&'j Answer>,
}

impl NotOrdered<'_> {
    /// Which holes, in words: `row K1`, `row K1 hole 31`, `row K1 holes 2-4, 9`.
    #[must_use]
    pub fn subject(&self) -> String {
        let Holes { row, numbers } = &self.holes;
        match numbers.as_slice() {
            _ if self.whole_row => format!("row {row}"),
            [one] => format!("row {row} hole {one}"),
            numbers => format!("row {row} holes {}", ranges(numbers)),
        }
    }

    /// How many.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.holes.numbers.len() as u32
    }

    /// Why, as sentences; one at least.
    #[must_use]
    pub fn because(&self, units: Units, practice: &Practice<'_>) -> Vec<String> {
        if let Some(answer) = self.answer {
            return vec![in_words(answer)];
        }
        let mut because: Vec<String> = Vec::new();
        for finding in &self.why {
            let sentence = words::finding(finding, units, practice);
            if !because.contains(&sentence) {
                because.push(sentence);
            }
        }
        if because.is_empty() {
            because.push("No rivet is chosen yet.".to_owned());
        }
        because
    }
}

/// Holes of a row that take the same rivet in the same pack and hole.
struct Place<'p, 'j> {
    row: &'p RowPlan<'j>,
    choice: &'p Choice<'j>,
    stack: &'p Stack,
    /// The hole, where it is one by itself; otherwise all that are like the most of the row.
    hole: Option<u32>,
}

impl Place<'_, '_> {
    fn count(&self) -> u32 {
        match self.hole {
            Some(_) => 1,
            None => self.row.row.count.saturating_sub(self.row.holes.len() as u32),
        }
    }

    fn numbers(&self) -> Vec<u32> {
        match self.hole {
            Some(number) => vec![number],
            None => (1..=self.row.row.count).filter(|number| self.row.hole(*number).is_none()).collect(),
        }
    }
}

/// Every place that takes a rivet which is ordered, row by row. A row that is referred as a whole takes none.
fn places<'p, 'j>(plan: &'p Plan<'j>) -> impl Iterator<Item = Place<'p, 'j>> {
    plan.rows.iter().filter(|row| !row.is_held()).flat_map(|row| {
        let most = Place { row, choice: &row.choice, stack: &row.row.stack, hole: None };
        let own = row.holes.iter().filter_map(move |hole| {
            Some(Place { row, choice: hole.choice.as_deref()?, stack: hole.stack, hole: Some(hole.number) })
        });
        std::iter::once(most).chain(own).filter(|place| place.choice.is_complete() && place.count() > 0)
    })
}

/// Where each part of the order goes: row by row.
#[must_use]
pub fn goes_into<'j>(plan: &Plan<'j>, part: &Part<'_>) -> Vec<Holes<'j>> {
    let mut rows: Vec<Holes<'j>> = Vec::new();
    for place in places(plan).filter(|place| place.choice.part == *part) {
        add_holes(&mut rows, &place);
    }
    rows
}

/// Adds the holes of a place, which come row by row.
fn add_holes<'j>(rows: &mut Vec<Holes<'j>>, place: &Place<'_, 'j>) {
    let name = place.row.row.name.as_str();
    if rows.last().is_none_or(|row| row.row != name) {
        rows.push(Holes { row: name, numbers: Vec::new() });
    }
    if let Some(row) = rows.last_mut() {
        row.numbers.extend(place.numbers());
        row.numbers.sort_unstable();
    }
}

/// What is not in the order: rows that are referred, holes that are, and rivets without a length.
#[must_use]
pub fn not_ordered<'j>(plan: &Plan<'j>) -> Vec<NotOrdered<'j>> {
    // A length that goes by the hole, or is cut, waits for the hole to be measured.
    let refers = |subject: Subject<'j>, findings: &[Finding]| -> Vec<Finding> {
        let waits = |finding: &&Finding| {
            finding.severity() == Severity::Refer || matches!(finding.code(), Code::LengthByHole | Code::CutToLength)
        };
        let open = |finding: &&Finding| waits(finding) && plan.answer_to(subject, finding).is_none();
        findings.iter().filter(open).copied().collect()
    };
    let mut left = Vec::new();
    for row in &plan.rows {
        let name = row.row.name.as_str();
        let all = || (1..=row.row.count).collect();
        if row.is_held() {
            left.push(NotOrdered {
                holes: Holes { row: name, numbers: all() },
                whole_row: true,
                why: refers(Subject::Row(name), &row.findings),
                answer: row.ruling.filter(|_| row.waits),
            });
            continue;
        }
        // Holes that wait for the same answer are told together.
        let mut of_row: Vec<NotOrdered<'j>> = Vec::new();
        let mut add = |numbers: Vec<u32>, why: Vec<Finding>, answer: Option<&'j Answer>| {
            let same = |known: &&mut NotOrdered<'j>| known.why == why && known.answer == answer;
            match of_row.iter_mut().find(same) {
                _ if numbers.is_empty() => {}
                Some(known) => known.holes.numbers.extend(numbers),
                None => of_row.push(NotOrdered { holes: Holes { row: name, numbers }, whole_row: false, why, answer }),
            }
        };
        if !row.choice.is_complete() {
            let most = (1..=row.row.count).filter(|number| row.hole(*number).is_none()).collect();
            add(most, refers(Subject::Row(name), &row.findings), row.ruling);
        }
        for hole in &row.holes {
            if !hole.choice.as_deref().is_some_and(Choice::is_complete) {
                let why = refers(Subject::Hole(name, hole.number), &hole.findings);
                add(vec![hole.number], why, hole.ruling.map(|ruling| ruling.answer));
            }
        }
        for mut holes in of_row {
            holes.holes.numbers.sort_unstable();
            holes.whole_row = holes.holes.numbers.len() as u32 == row.row.count;
            left.push(holes);
        }
    }
    left
}

impl OrderLine<'_> {
    /// How many packs to buy; of rivets that are sold singly, or whose pack is not known, how many rivets.
    #[must_use]
    pub fn packs(&self) -> u32 {
        self.buy.div_ceil(self.pack.unwrap_or(1).max(1))
    }

    /// The names that other standards give this very part.
    #[must_use]
    pub fn also_called(&self) -> Vec<String> {
        let series = self.part.series();
        let number = self.part.to_string();
        let rest = number.strip_prefix(series.name).unwrap_or_default();
        series.also.iter().map(|name| format!("{name}{rest}")).collect()
    }
}

/// The order of a plan, sorted by series, alloy, diameter and length. Holes that have no rivet yet are not in it.
#[must_use]
pub fn order<'j>(plan: &Plan<'j>, spares_percent: u32, stock: Option<&[Stock]>) -> Vec<OrderLine<'j>> {
    order_again(plan, &[], spares_percent, stock)
}

/// The same with a rivet more for each of these, which go in where a rejected one comes out.
#[must_use]
pub fn order_again<'j>(
    plan: &Plan<'j>,
    again: &[Part<'j>],
    spares_percent: u32,
    stock: Option<&[Stock]>,
) -> Vec<OrderLine<'j>> {
    let planned = places(plan).map(|place| (place.choice.part, place.count()));
    let mut lines = order_of(planned.chain(again.iter().map(|part| (*part, 1))), spares_percent, stock);
    for line in &mut lines {
        line.again = again.iter().filter(|part| **part == line.part).count() as u32;
    }
    lines
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
            let mut alternative = Alternative {
                part: line.part,
                other: other.part,
                free,
                holes: 0,
                rows: Vec::new(),
                head: None,
                height: None,
                window: None,
                not_for: Vec::new(),
            };
            for place in places(plan).filter(|place| place.choice.part == line.part) {
                let hole = place.choice.hole.value;
                let question = Installation::new(other.part, place.stack).by(plan.practice);
                let Some(assessed) = serving(&question, &other.part, hole) else {
                    add_holes(&mut alternative.not_for, &place);
                    continue;
                };
                let head = head_of(&question, hole, plan.practice);
                let is_first = alternative.holes == 0;
                alternative.window = match (alternative.window, assessed.window) {
                    (Some(one), Some(more)) => one.and(more),
                    (None, first) if is_first => first,
                    _ => None,
                };
                alternative.height = head.map(|head| head.height);
                alternative.head = match (alternative.head, head.map(|head| head.diameter)) {
                    (Some(one), Some(more)) => Some(Interval::of(one.min().min(more.min), one.max().max(more.max))),
                    (None, Some(first)) if is_first => Some(Interval::of(first.min, first.max)),
                    _ => None,
                };
                alternative.holes += place.count();
                let name = place.row.row.name.as_str();
                if alternative.rows.last() != Some(&name) {
                    alternative.rows.push(name);
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
    let pack = on_shelf.map(|stock| stock.pack.max(1));
    let buy = wanted.saturating_sub(on_hand).div_ceil(pack.unwrap_or(1)).saturating_mul(pack.unwrap_or(1));
    let density = part.alloy().density_lb_in3().map(|(density, _)| density);
    let mass = density.and_then(|density| mass_each(&part, density)).map(|each| each * f64::from(wanted));
    OrderLine { part, needed, again: 0, spares, stock: stock.map(|_| on_hand), buy, pack, mass }
}
