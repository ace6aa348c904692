//! The law that the product stands on: a chosen length makes a sound head in every case, and where none is chosen none does.
//!
//! The arithmetic here is written from the formula d² h = D² (L - k) - H² (G - k) in integers of cubic nanometres and does not use the
//! crate's own [`Fit`](shophead::upset::Fit). It does not assume which end of a tolerance is the worst either: every corner is tried.
//! The largest term is (10⁷ nm)² times 10⁸ nm = 10²², far inside 128 bits, so nothing rounds and nothing overflows.

use std::sync::OnceLock;

use shophead::finding::Code;
use shophead::installation::Installation;
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{MS20426, MS20470, Series, Size};
use shophead::select::{LengthAnswer, UpperBound};
use shophead::upset::HeadLimits;

use crate::common::nm;

const DASHES: [u8; 5] = [3, 4, 5, 6, 8];
const THIRTY_SECOND: i64 = 793_750;
const SIXTEENTH: i64 = 2 * THIRTY_SECOND;
const THOUSANDTH: i64 = 25_400;
/// No rivet for 1.5 in of pack is longer than this, in thirty-seconds.
const LONGEST: i64 = 3 * 32;

/// Least and greatest of everything that has a tolerance, and what the head has to be.
#[derive(Debug)]
struct Row {
    practice: &'static Practice<'static>,
    series: &'static Series<'static>,
    size: &'static Size,
    hole: Interval,
    shank: [i64; 2],
    holes: [i64; 2],
    head_heights: [i64; 2],
    length_off: i64,
    /// Diameter² times height of the least head, and of the greatest where the practice has one.
    metal_least: i128,
    metal_greatest: Option<i128>,
    tail_greatest: i64,
    tail_of_rule: i64,
    nearest: bool,
}

fn volume(diameter: i64, height: i64) -> i128 {
    i128::from(diameter) * i128::from(diameter) * i128::from(height)
}

fn rows() -> &'static [Row] {
    static ROWS: OnceLock<Vec<Row>> = OnceLock::new();
    ROWS.get_or_init(|| {
        let mut rows = Vec::new();
        for practice in BUILT_IN {
            for series in [&MS20470, &MS20426] {
                for dash in DASHES {
                    rows.push(Row::of(practice, series, series.size(dash).expect("a size")));
                }
            }
        }
        rows
    })
}

impl Row {
    fn of(practice: &'static Practice<'static>, series: &'static Series<'static>, size: &'static Size) -> Row {
        let case = Case::of(series.head, RivetAlloy::Al2117, size);
        let limits = HeadLimits::of(practice, &case);
        let hole = practice.hole_for(&case).expect("a hole").value;
        let shank = size.shank.expect("limits");
        let head = if series.head.is_flush() { size.head.expect("a head").height_nominal } else { Length::ZERO };
        let least = (limits.diameter_least.expect("a least width").value, limits.height_least.expect("a height").value);
        let greatest = limits.diameter_greatest.zip(limits.height_greatest);
        use shophead::practice::{Name, Rounding};
        Row {
            practice,
            series,
            size,
            hole,
            shank: [shank.min, shank.max].map(Length::nanometres),
            holes: [hole.min, hole.max].map(Length::nanometres),
            // The height of a flush head is a reference value and has no tolerance.
            head_heights: [head, head].map(Length::nanometres),
            length_off: series.length_tolerance.expect("a tolerance").either_way.nanometres(),
            metal_least: volume(least.0.nanometres(), least.1.nanometres()),
            metal_greatest: greatest.map(|(wide, high)| volume(wide.value.nanometres(), high.value.nanometres())),
            tail_greatest: practice.length(Name::TailGreatest, &case).expect("a tail").value.nanometres(),
            tail_of_rule: practice.length(Name::RuleOfThumbTail, &case).expect("a rule").value.nanometres(),
            nearest: practice.rounding(&case).expect("a rounding").value == Rounding::Nearest,
        }
    }

    fn choose(&self, grip: Toleranced) -> LengthAnswer<'static> {
        self.question(grip).length().expect("sizes")
    }

    fn question(&self, grip: Toleranced) -> Installation<'static, 'static> {
        let rivet = Part::new(self.series, "AD", self.size).expect("a material and a size of the series");
        Installation::through(rivet, grip).in_hole(Toleranced::from_least(self.hole)).by(self.practice)
    }

    /// Whether a rivet of this nominal length is sound whatever end of its tolerance everything lies at.
    fn good(&self, length: i64, grip: [i64; 2]) -> bool {
        let mut good = true;
        for rivet in [length - self.length_off, length + self.length_off] {
            for grip in grip {
                good &= rivet - grip <= self.tail_greatest;
                for head in self.head_heights {
                    for shank in self.shank {
                        for hole in self.holes {
                            // A shank pressed into a hole smaller than itself takes up its own width.
                            let filled = volume(hole.max(shank), grip - head);
                            let metal = volume(shank, rivet - head) - filled;
                            good &= metal >= self.metal_least;
                            good &= self.metal_greatest.is_none_or(|greatest| metal <= greatest);
                        }
                    }
                }
            }
        }
        good
    }

    fn rule(&self, grip: i64) -> i64 {
        let exact = grip + self.tail_of_rule;
        let up = (exact + SIXTEENTH - 1) / SIXTEENTH * SIXTEENTH;
        if self.nearest && 2 * (up - exact) > SIXTEENTH { up - SIXTEENTH } else { up }
    }

    /// By trying every length of the series: whole sixteenths first, then halves; the one nearest to the rule.
    fn by_search(&self, grip: [i64; 2], nominal: i64) -> Option<i64> {
        let rule = self.rule(nominal);
        let among = |step: i64| {
            let lengths = (1..=LONGEST).map(|count| count * THIRTY_SECOND).filter(|length| length % step == 0);
            lengths.filter(|length| self.good(*length, grip)).min_by_key(|length| (length - rule).abs())
        };
        among(SIXTEENTH).or_else(|| among(THIRTY_SECOND))
    }

    fn name(&self) -> String {
        format!("{} {} -{}", self.practice.name(), self.series.name, self.size.dash)
    }
}

/// Grips from 0.032 to 1.5 in.
fn grips() -> impl Iterator<Item = i64> {
    (32..=1_500).map(|thousandths| thousandths * THOUSANDTH)
}

#[test]
fn every_chosen_length_is_the_good_one_nearest_to_the_rule_and_none_is_missed() {
    let (mut chosen, mut none, mut refused) = (0, 0, 0);
    for row in rows() {
        let mut last = 0;
        for grip in grips() {
            let at = format!("{} grip {}", row.name(), nm(grip));
            let choice = row.choose(Toleranced::exactly(nm(grip)));
            if row.head_heights[1] > grip {
                assert_eq!(choice.length, None, "{at}: the head is deeper than the pack");
                assert!(choice.findings.has(Code::NoLengthFits) && choice.findings.must_refer(), "{at}");
                refused += 1;
                continue;
            }
            assert_eq!(choice.rule_of_thumb_length.nanometres(), row.rule(grip), "{at}");
            let Some(length) = choice.length.map(Length::nanometres) else {
                none += 1;
                assert_eq!(row.by_search([grip, grip], grip), None, "{at}: a good length was missed");
                continue;
            };
            chosen += 1;
            assert!(row.good(length, [grip, grip]), "{at}: {} is not good", nm(length));
            assert!(length >= last, "{at}: shorter than for a thinner pack");
            last = length;
            // The whole search is slow without optimisation; its neighbours settle it, since good lengths have no gap.
            let nearer = |step: i64| {
                let rule = row.rule(grip);
                let next = if length < rule { length + step } else { length - step };
                length != rule && row.good(next, [grip, grip])
            };
            if length % SIXTEENTH == 0 {
                assert!(!nearer(SIXTEENTH), "{at}: {} is further from the rule than need be", nm(length));
            } else {
                assert!(!nearer(THIRTY_SECOND), "{at}: {}", nm(length));
                for whole in [length - THIRTY_SECOND, length + THIRTY_SECOND] {
                    assert!(!row.good(whole, [grip, grip]), "{at}: {} would do without a half", nm(whole));
                }
            }
        }
    }
    // 2 practices, 2 series, 5 diameters, 1469 grips; most find a rivet, and the other answers are met too.
    assert_eq!(chosen + none + refused, 2 * 2 * 5 * 1_469);
    assert!(chosen > 15_000 && none > 100 && refused > 100, "{chosen} {none} {refused}");
}

/// With a tolerance on the pack, a thinned-out set of grips, and the whole search each time.
#[test]
fn with_a_tolerance_on_the_pack_the_whole_search_agrees() {
    for row in rows() {
        for grip in grips().step_by(37) {
            let off = nm(grip / 40);
            let choice = row.choose(Toleranced::new(nm(grip), off, off));
            if row.head_heights[1] > grip - off.nanometres() {
                assert_eq!(choice.length, None);
                continue;
            }
            let ends = [grip - off.nanometres(), grip + off.nanometres()];
            let length = choice.length.map(Length::nanometres);
            assert_eq!(length, row.by_search(ends, grip), "{} grip {}", row.name(), nm(grip));
        }
    }
}

/// For every multiple of 1/32 that is a rivet length, the thickest and the thinnest pack for which it is good: there the answer turns,
/// a nanometre further and not sooner.
#[test]
fn the_answer_turns_at_the_nanometre_where_a_bound_meets_a_length() {
    let mut turned = [0, 0, 0];
    for row in rows() {
        for length in (4..=64).map(|count| count * THIRTY_SECOND) {
            let good = |grip: i64| row.good(length, [grip, grip]);
            let said = |grip: i64| {
                let question = row.question(Toleranced::exactly(nm(grip)));
                let choice = question.length().expect("sizes");
                let usable = choice.usable.expect("limits");
                assert_eq!(question.assess(nm(length)).expect("sizes").must_refer(), !usable.contains(nm(length)));
                (usable.contains(nm(length)), usable.longest_by, choice.length.map(Length::nanometres))
            };
            // The thickest pack: the largest grip whose least metal is still enough, by division of the formula.
            let (thin, large) = (row.shank[0], row.holes[1].max(row.shank[0]));
            let head = row.head_heights[0];
            let metal = volume(thin, length - row.length_off - head) - row.metal_least;
            let area = i128::from(large) * i128::from(large);
            let thickest = i64::try_from(metal.div_euclid(area)).expect("a length") + head;
            if thickest > row.head_heights[1] && metal > 0 {
                // Only where the same pack is not too thin for the tail at the same time.
                let upper = |grip: i64| length + row.length_off - grip <= row.tail_greatest;
                if upper(thickest) && good(thickest) {
                    assert!(said(thickest).0, "{} {} in {}", row.name(), nm(length), nm(thickest));
                    assert!(!said(thickest + 1).0 && !good(thickest + 1), "{} {}", row.name(), nm(length));
                    turned[0] += 1;
                }
            }
            // The thinnest pack that the tail allows: an exact multiple, with nothing to divide.
            let thinnest = length + row.length_off - row.tail_greatest;
            if thinnest > row.head_heights[1] + 1 && good(thinnest) {
                assert!(said(thinnest).0, "{} {} in {}", row.name(), nm(length), nm(thinnest));
                let (inside, by, _) = said(thinnest - 1);
                assert!(!inside && !good(thinnest - 1));
                assert_eq!(by, UpperBound::Tail);
                turned[1] += 1;
            }
            // The thinnest pack that the greatest head allows.
            if let Some(greatest) = row.metal_greatest {
                let (thick, small) = (row.shank[1], row.holes[0].max(row.shank[1]));
                let metal = volume(thick, length + row.length_off - row.head_heights[1]) - greatest;
                let area = i128::from(small) * i128::from(small);
                let thinnest =
                    i64::try_from((metal + area - 1).div_euclid(area)).expect("a length") + row.head_heights[1];
                if thinnest > row.head_heights[1] + 1 && good(thinnest) {
                    assert!(said(thinnest).0, "{} {} in {}", row.name(), nm(length), nm(thinnest));
                    let (inside, by, _) = said(thinnest - 1);
                    assert!(!inside && !good(thinnest - 1));
                    assert_eq!(by, UpperBound::Head);
                    turned[2] += 1;
                }
            }
        }
    }
    assert!(turned.iter().all(|turned| *turned > 100), "{turned:?}");
}

/// The rule of thumb turns exactly where grip plus one and a half diameters passes a sixteenth, or the middle between two.
#[test]
fn the_rule_turns_at_the_nanometre_too() {
    for row in rows().iter().filter(|row| !row.series.head.is_flush()) {
        for count in 6..=24_i64 {
            let length = count * SIXTEENTH;
            let last = if row.nearest { length + SIXTEENTH / 2 - 1 } else { length };
            let grip = last - row.tail_of_rule;
            if grip <= 1 {
                continue;
            }
            let rule = |grip| row.choose(Toleranced::exactly(nm(grip))).rule_of_thumb_length;
            assert_eq!(rule(grip - 1), nm(length), "{}", row.name());
            assert_eq!(rule(grip), nm(length), "{}", row.name());
            assert_eq!(rule(grip + 1), nm(length + SIXTEENTH), "{}", row.name());
        }
    }
}
