//! The laws that the product stands on: what is chosen and driven as told is accepted, and what is not chosen would not have been.
//!
//! The arithmetic here is written from the formulas d² h = D² (L - k) - H² (G - k), and d² h = D² (L - k) - H² G through dimples, in integers of
//! cubic nanometres, and does not use the crate's own [`Fit`](shophead::upset::Fit). It does not assume which end of a tolerance is the worst
//! either: every tolerance is drawn, its ends often. The largest term is (10⁷ nm)² times 10⁹ nm = 10²³, far inside 128 bits, so nothing rounds and
//! nothing overflows.

use proptest::prelude::*;
use shophead::finding::{Code, Finding, Findings};
use shophead::installation::Installation;
use shophead::length::{Interval, Length, Toleranced};
use shophead::practice::{BUILT_IN, Case, LengthRounding, Name, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{MS20426, MS20470, NAS1097, NAS1242, Series};
use shophead::select::LengthAnswer;
use shophead::stack::{Layer, Preparation, Stack};
use shophead::upset::{HeadLimits, MeasuredHead, Window, judge};
use shophead_tests::prelude::nm;

use crate::common::config;

const SIXTEENTH: i64 = 1_587_500;
const TENTH: i64 = 2_540;

/// One question: a rivet through two layers, in a hole that is measured or taken as drilled.
#[derive(Clone, Debug)]
struct Asked {
    practice: &'static Practice<'static>,
    rivet: Part<'static>,
    stack: Stack,
    /// Least and greatest.
    hole: Option<[i64; 2]>,
}

impl Asked {
    fn question(&self) -> Installation<'_, 'static> {
        let question = Installation::new(self.rivet, &self.stack).by(self.practice);
        match self.hole {
            Some([min, max]) => question.in_hole(Toleranced::from_least(Interval::of(nm(min), nm(max)))),
            None => question,
        }
    }

    fn answer(&self) -> Option<LengthAnswer<'static>> {
        let answer = self.question().length().expect("sizes");
        // A head that is deeper than the pack has no answer to compare.
        answer.usable.map(|_| answer)
    }

    fn in_hole(&self, hole: i64) -> Asked {
        Asked { hole: Some([hole, hole]), ..self.clone() }
    }

    fn holes(&self) -> [i64; 2] {
        let hole = self.question().hole_or_drilled().value;
        [hole.min(), hole.max()].map(Length::nanometres)
    }

    fn limits(&self) -> HeadLimits {
        HeadLimits::of(self.practice, &Case::for_part(&self.rivet))
    }

    fn length_off(&self) -> i64 {
        self.rivet.series().length_tolerance.map_or(0, |tolerance| tolerance.either_way.nanometres())
    }

    fn steps(&self) -> i64 {
        if self.rivet.series().half_lengths.is_some() { SIXTEENTH / 2 } else { SIXTEENTH }
    }

    /// Depth of a flush head, least and greatest.
    fn sunk(&self) -> [i64; 2] {
        let head = self.rivet.size().head.filter(|_| self.rivet.series().head.is_flush());
        head.map_or([0, 0], |head| {
            let height = head.height.unwrap_or(Interval::exactly(head.height_nominal));
            [height.min(), height.max()].map(Length::nanometres)
        })
    }

    fn is_dimpled(&self) -> bool {
        self.stack.layers().iter().all(|layer| layer.preparation == Preparation::Dimpled)
    }

    /// Diameter² times height of the driven head.
    fn metal(&self, shank: i64, hole: i64, grip: i64, sunk: i64, length: i64) -> i128 {
        // A shank pressed into a hole smaller than itself takes up its own width.
        let straight = if self.is_dimpled() { grip } else { grip - sunk };
        volume(shank, length - sunk) - volume(hole.max(shank), straight)
    }

    /// What a rivet of this nominal length leaves for its head, with each tolerance where it was drawn.
    fn drawn(&self, length: i64, hole: i64, draw: &Draw) -> i128 {
        let shank = self.rivet.size().shank.expect("limits");
        let grip = self.stack.grip();
        self.metal(
            draw.shank.between(shank.min().nanometres(), shank.max().nanometres()),
            hole,
            draw.grip.between(grip.min().nanometres(), grip.max().nanometres()),
            draw.sunk.between(self.sunk()[0], self.sunk()[1]),
            draw.length.between(length - self.length_off(), length + self.length_off()),
        )
    }

    /// The same with everything nominal, a hole at its least.
    fn nominal(&self, length: i64, hole: i64) -> i128 {
        let sunk = self.rivet.size().head.filter(|_| self.rivet.series().head.is_flush());
        let sunk = sunk.map_or(0, |head| head.height_nominal.nanometres());
        let shank = self.rivet.size().shank_nominal.nanometres();
        self.metal(shank, hole, self.stack.grip().nominal().nanometres(), sunk, length)
    }

    /// Whether the head that comes out, driven to a height, is accepted by inspection.
    fn is_accepted(&self, metal: i128, height: i64) -> bool {
        let width = width_of(metal, height);
        let measured = MeasuredHead::new(Interval::exactly(nm(width)), Interval::exactly(nm(height)));
        judge(measured, &[], self.practice, &Case::for_part(&self.rivet)).accepted
    }

    fn rule(&self) -> i64 {
        let case = Case::for_part(&self.rivet);
        let tail = self.practice.length(Name::RuleOfThumbTail, &case).expect("a rule").value.nanometres();
        let exact = self.stack.grip().nominal().nanometres() + tail;
        let down = exact.div_euclid(SIXTEENTH) * SIXTEENTH;
        match self.practice.rounding(&case).expect("a rounding").value {
            LengthRounding::Nearest => {
                if 2 * (exact - down) >= SIXTEENTH {
                    down + SIXTEENTH
                } else {
                    down
                }
            }
            LengthRounding::Longer => {
                if exact == down {
                    down
                } else {
                    down + SIXTEENTH
                }
            }
        }
    }
}

fn volume(diameter: i64, height: i64) -> i128 {
    i128::from(diameter) * i128::from(diameter) * i128::from(height)
}

/// The largest whole width of a head.
fn width_of(metal: i128, height: i64) -> i64 {
    let square = u128::try_from(metal / i128::from(height)).unwrap_or(0);
    i64::try_from(square.isqrt()).expect("a length")
}

/// Where in its tolerance something lies, in thousandths of the whole.
#[derive(Clone, Copy, Debug)]
struct Part1000(i64);

impl Part1000 {
    fn between(self, min: i64, max: i64) -> i64 {
        min + (max - min) * self.0 / 1_000
    }
}

fn somewhere() -> impl Strategy<Value = Part1000> {
    prop_oneof![Just(0_i64), Just(1_000), 0_i64..=1_000].prop_map(Part1000)
}

/// A rivet, its hole and its pack as they came out.
#[derive(Clone, Copy, Debug)]
struct Draw {
    shank: Part1000,
    hole: Part1000,
    grip: Part1000,
    sunk: Part1000,
    length: Part1000,
    /// Where in its window the head was left.
    height: Part1000,
}

fn draw() -> impl Strategy<Value = Draw> {
    [somewhere(), somewhere(), somewhere(), somewhere(), somewhere(), somewhere()]
        .prop_map(|[shank, hole, grip, sunk, length, height]| Draw { shank, hole, grip, sunk, length, height })
}

/// Every rivet whose dimensions are known, of every alloy: protruding, flush, reduced flush, oversize.
fn rivets() -> Vec<Part<'static>> {
    let mut rivets = Vec::new();
    for series in [&MS20470, &MS20426, &NAS1097, &NAS1242] as [&'static Series<'static>; 4] {
        for material in series.materials {
            for size in series.sizes.iter().filter(|size| size.shank.is_some()) {
                let text = format!("{}{}{}", series.name, material.code, size.dash);
                rivets.extend(Part::parse(&text).ok().filter(|_| size.head.is_some() || !series.head.is_flush()));
            }
        }
    }
    rivets
}

/// Packs of half a diameter to fourteen, of two layers with tolerances up to .008; as drilled, measured round, or measured out of round.
fn asked() -> impl Strategy<Value = Asked> {
    let rivet = prop::sample::select(rivets());
    let layer = || (0_i64..7_000, 0_i64..80, 0_i64..80);
    let hole = prop_oneof![
        Just(None),
        (-30_i64..150).prop_map(|over| Some([over, over])),
        (-30_i64..150, 0_i64..50).prop_map(|(over, out)| Some([over, over + out])),
    ];
    (rivet, 0..BUILT_IN.len(), [layer(), layer()], any::<bool>(), hole).prop_map(
        |(rivet, practice, layers, dimpled, hole)| {
            let diameter = rivet.size().shank_nominal.nanometres();
            let flush = rivet.series().head.is_flush();
            let mut stack = Stack::new();
            for (place, (thousandths, below, above)) in layers.into_iter().enumerate() {
                let nominal = nm(diameter * (250 + thousandths) / 1_000);
                let preparation = match (flush, dimpled, place) {
                    (true, true, _) => Preparation::Dimpled,
                    (true, false, 0) => Preparation::Countersunk,
                    _ => Preparation::Plain,
                };
                let thickness = Toleranced::new(nominal, nm(below * TENTH), nm(above * TENTH)).expect("a tolerance");
                stack.push(Layer::of(thickness).preparation(preparation)).expect("room");
            }
            let hole = hole.map(|over| over.map(|tenths| diameter + tenths * TENTH));
            Asked { practice: BUILT_IN[practice], rivet, stack, hole }
        },
    )
}

fn height_in(window: Window, draw: &Draw) -> i64 {
    draw.height.between(window.height.min().nanometres(), window.height.max().nanometres())
}

proptest! {
    #![proptest_config(config())]

    /// Chosen, or named beside the chosen one, or named for a hole: driven to any height of its window it is accepted, whatever everything is
    /// within its tolerance.
    #[test]
    fn what_is_driven_anywhere_in_its_window_is_accepted(asked in asked(), draw in draw()) {
        let Some(answer) = asked.answer() else { return Ok(()) };
        let [smallest, largest] = asked.holes();
        let hole = draw.hole.between(smallest, largest);
        prop_assert_eq!(answer.window.is_some(), answer.length.is_some());
        let chosen = answer.length.zip(answer.window);
        let others = answer.serves().map(|other| (other.length, other.window.expect("a window")));
        for (length, window) in chosen.into_iter().chain(others) {
            let metal = asked.drawn(length.nanometres(), hole, &draw);
            let height = height_in(window, &draw);
            prop_assert!(asked.is_accepted(metal, height), "{length} in {hole}: {} by {height}", width_of(metal, height));
            prop_assert!(width_of(metal, height) >= window.diameter_least.nanometres());
        }
        for range in answer.by_hole() {
            let Some((length, window)) = range.length.zip(range.window) else { continue };
            let hole = draw.hole.between(range.hole.min().nanometres(), range.hole.max().nanometres());
            let metal = asked.drawn(length.nanometres(), hole, &draw);
            prop_assert!(asked.is_accepted(metal, height_in(window, &draw)), "{length} in {hole}");
        }
    }

    /// Left any higher, a head is too high, or the one with the least metal is too narrow.
    #[test]
    fn a_window_ends_where_a_head_would_be_rejected(asked in asked()) {
        let Some((length, window)) = asked.answer().and_then(|answer| answer.length.zip(answer.window)) else { return Ok(()) };
        let corner = |sunk| Draw {
            shank: Part1000(0), hole: Part1000(1_000), grip: Part1000(1_000), sunk: Part1000(sunk), length: Part1000(0), height: Part1000(0),
        };
        let [_, largest] = asked.holes();
        let least = [0, 1_000].map(|sunk| asked.drawn(length.nanometres(), largest, &corner(sunk))).into_iter().min().expect("two");
        let rejected = |height: i64| !asked.is_accepted(least, height);
        prop_assert!(rejected(window.height.max().nanometres() + 1));
        prop_assert!(rejected(window.height.min().nanometres() - 1));
    }

    /// The rule of thumb stands where it is within limits; else the nearest length that is, a half only where no whole sixteenth is.
    #[test]
    fn the_rule_stands_wherever_it_is_within_limits(asked in asked()) {
        let Some(answer) = asked.answer() else { return Ok(()) };
        let question = asked.question();
        let serves = |length: i64| question.length_fits(nm(length)).expect("sizes");
        let rule = asked.rule();
        prop_assert_eq!(answer.rule_of_thumb_length, nm(rule));
        prop_assert_eq!(answer.difference.is_none(), serves(rule));
        if serves(rule) {
            prop_assert_eq!(answer.length, Some(nm(rule)));
        }
        let Some(length) = answer.length.map(Length::nanometres) else { return Ok(()) };
        prop_assert!(serves(length));
        let whole = length % SIXTEENTH == 0;
        let step = if whole { SIXTEENTH } else { SIXTEENTH / 2 };
        // Lengths within limits have no gap, so its neighbours settle it.
        if length != rule {
            let nearer = if length < rule { length + step } else { length - step };
            prop_assert!(!serves(nearer), "{} is nearer to {}", nm(nearer), nm(rule));
        }
        if !whole {
            prop_assert!(!serves(length - SIXTEENTH / 2) && !serves(length + SIXTEENTH / 2), "a whole sixteenth would do");
        }
    }

    /// Whatever else is within limits is named, and nothing that is not.
    #[test]
    fn everything_that_is_within_limits_is_named(asked in asked()) {
        let Some(answer) = asked.answer() else { return Ok(()) };
        let named: Vec<i64> = answer.length.into_iter().chain(answer.serves().map(|other| other.length)).map(Length::nanometres).collect();
        let step = asked.steps();
        let most = asked.stack.grip().max().nanometres() + 4 * asked.rivet.size().shank_nominal.nanometres() + SIXTEENTH;
        let question = asked.question();
        // Nothing shorter than the pack has a tail at all.
        let from = (asked.stack.grip().min().nanometres() / step).max(1);
        prop_assert!(named.iter().all(|length| *length >= from * step && *length <= most));
        for length in (from..=most / step).map(|count| count * step) {
            // A flush rivet no longer than its head has no number, and none is longer than 99 sixteenths.
            let is_part = asked.rivet.with_length(nm(length)).is_ok() || answer.length == Some(nm(length));
            prop_assert_eq!(named.contains(&length), is_part && question.length_fits(nm(length)).expect("sizes"), "{}", nm(length));
        }
    }

    /// Within limits is: metal for the least head however the tolerances fall, at nominal sizes no more than for the greatest, and no longer a
    /// tail than is driven.
    #[test]
    fn within_limits_is_enough_at_worst_and_not_too_much_at_nominal_sizes(asked in asked(), draw in draw()) {
        let Some(answer) = asked.answer() else { return Ok(()) };
        let Some(length) = answer.length.map(Length::nanometres) else { return Ok(()) };
        let limits = asked.limits();
        let cylinder = |diameter: Length, height: Length| volume(diameter.nanometres(), height.nanometres());
        let [smallest, largest] = asked.holes();
        let least = cylinder(limits.diameter_least.expect("known").value, limits.height_least.expect("known").value);
        prop_assert!(asked.drawn(length, draw.hole.between(smallest, largest), &draw) >= least);
        if let Some((wide, high)) = limits.diameter_greatest.zip(limits.metal_height_greatest) {
            prop_assert!(asked.nominal(length, smallest) <= cylinder(wide.value, high.value));
        }
        let tail = asked.practice.length(Name::TailGreatest, &Case::for_part(&asked.rivet)).expect("known").value;
        let bulge = if asked.is_dimpled() { asked.sunk()[0] } else { 0 };
        prop_assert!(length - asked.stack.grip().nominal().nanometres() - bulge <= tail.nanometres());
        // A rivet of that length that is there already is told the same of what is too much at the ends of its tolerances.
        let assessed = asked.question().assess(nm(length)).expect("sizes");
        for code in [Code::HeadTooLarge, Code::TailTooLong, Code::DimpleComputed] {
            let notes = |findings: &Findings| findings.iter().filter(|found| found.code() == code).copied().collect::<Vec<Finding>>();
            prop_assert_eq!(notes(&assessed.findings), notes(&answer.findings));
        }
    }

    /// Where one length suits every hole there is nothing to tell apart. Where none does, what is said of a range of holes is within limits in each
    /// of them as measured, no hole is left out, none is told that no length suits it while one does, and a rivet that is cut as told is accepted.
    #[test]
    fn what_is_said_of_a_range_of_holes_is_said_of_each(asked in asked(), draw in draw()) {
        let Some(answer) = asked.answer() else { return Ok(()) };
        let ranges: Vec<_> = answer.by_hole().collect();
        prop_assert_eq!(ranges.is_empty(), answer.length.is_some());
        let [smallest, largest] = asked.holes();
        let mut next = smallest;
        for range in &ranges {
            let [min, max] = [range.hole.min(), range.hole.max()].map(Length::nanometres);
            prop_assert_eq!(min, next);
            prop_assert!(max >= min && max <= largest);
            next = max + 1;
            for hole in [min, draw.hole.between(min, max), max] {
                let measured = asked.in_hole(hole).answer().expect("as before");
                match range.length {
                    Some(length) => {
                        prop_assert!(asked.in_hole(hole).question().length_fits(length).expect("sizes"), "{} in {}", length, nm(hole));
                    }
                    None => prop_assert_eq!(measured.length, None, "in {}", nm(hole)),
                }
                let cut = measured.by_hole().next().and_then(|own| own.cut);
                prop_assert!(range.cut.is_none() || cut.is_some());
            }
            if let Some(cut) = range.cut {
                let hole = draw.hole.between(min, max);
                let made = asked.in_hole(hole);
                let length = draw.height.between(cut.min().nanometres(), cut.max().nanometres());
                let assessed = made.question().assess(nm(length)).expect("sizes");
                prop_assert!(assessed.serves, "cut to {} in {}", nm(length), nm(hole));
                let window = assessed.window.expect("a window");
                prop_assert!(asked.is_accepted(asked.drawn(length, hole, &draw), height_in(window, &draw)));
            }
        }
        if !ranges.is_empty() {
            prop_assert_eq!(next, largest + 1);
            let some = ranges.iter().any(|range| range.length.is_some() || range.cut.is_some());
            prop_assert_eq!(answer.findings.has(Code::NoLengthFits), !some, "no length is said only where no hole has one");
        }
    }

    /// A thicker pack in the same hole never gets a shorter rivet.
    #[test]
    fn a_thicker_pack_never_gets_a_shorter_rivet(asked in asked(), thicker in 0_i64..3_000_000) {
        let mut stack = Stack::new();
        for (place, layer) in asked.stack.layers().iter().enumerate() {
            let more = nm(if place == 0 { 0 } else { thicker });
            let thickness = Toleranced::new(
                layer.thickness.nominal().checked_add(more).expect("a length"),
                layer.thickness.nominal().checked_sub(layer.thickness.min()).expect("a length"),
                layer.thickness.max().checked_sub(layer.thickness.nominal()).expect("a length"),
            )
            .expect("a tolerance");
            stack.push(layer.thickness(thickness)).expect("room");
        }
        let thick = Asked { stack, ..asked.clone() };
        if let (Some(thin), Some(thick)) = (asked.answer(), thick.answer())
            && let (Some(thin), Some(thick)) = (thin.length, thick.length)
        {
            prop_assert!(thick >= thin);
        }
    }
}

/// The laws above would hold for a chooser that never answers: of every kind of answer there are many.
#[test]
fn every_kind_of_answer_is_met() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let strategy = asked();
    let (mut rule, mut longer, mut half, mut by_hole, mut cut, mut none, mut dimpled, mut narrow) =
        (0, 0, 0, 0, 0, 0, 0, 0);
    for _ in 0..4_000 {
        let asked = strategy.new_tree(&mut runner).expect("a tree").current();
        let Some(answer) = asked.answer() else { continue };
        dimpled += i32::from(asked.is_dimpled());
        let ranges: Vec<_> = answer.by_hole().collect();
        match answer.length {
            Some(length) => {
                rule += i32::from(length == answer.rule_of_thumb_length);
                longer += i32::from(length > answer.rule_of_thumb_length);
                half += i32::from(answer.findings.has(Code::HalfLength));
                let greatest = asked.limits().height_greatest.map(|greatest| greatest.value);
                narrow += i32::from(answer.window.map(|window| window.height.max()) < greatest);
            }
            None if answer.findings.has(Code::NoLengthFits) => none += 1,
            None => {
                by_hole += i32::from(ranges.iter().any(|range| range.length.is_some()));
                cut += i32::from(ranges.iter().any(|range| range.cut.is_some()));
            }
        }
    }
    let met = [rule, longer, half, by_hole, cut, none, dimpled, narrow];
    assert!(met.iter().all(|met| *met > 20), "{met:?}");
}
