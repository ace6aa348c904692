//! Reading, rounding and choosing lengths against exact rational arithmetic of any size.

use num_bigint::BigInt;
use num_rational::BigRational;
use proptest::prelude::*;
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, Given, LengthRounding, Name, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{MS20426, MS20470, NAS1097, NAS1242, Series};
use shophead::upset::HeadLimits;

use crate::common::config;

fn ratio(top: i64, bottom: i64) -> BigRational {
    BigRational::new(BigInt::from(top), BigInt::from(bottom))
}

fn exact(length: Length) -> BigRational {
    ratio(length.nanometres(), 1)
}

/// Half away from zero, as the printed tables round.
fn nearest(value: &BigRational) -> BigRational {
    value.round()
}

fn cylinder(diameter: &BigRational, height: &BigRational) -> BigRational {
    diameter * diameter * height
}

/// A rivet, its hole and its pack, each figure at one end.
struct End {
    shank: BigRational,
    hole: BigRational,
    grip: BigRational,
    sunk: BigRational,
}

impl End {
    /// The length that leaves just this much metal: d² h = D² (L - k) - H² (G - k), solved for L.
    fn length_for(&self, metal: &BigRational) -> BigRational {
        (metal + self.fill()) / (&self.shank * &self.shank) + &self.sunk
    }

    /// The metal that a rivet of this length leaves.
    fn metal_left(&self, length: &BigRational) -> BigRational {
        cylinder(&self.shank, &(length - &self.sunk)) - self.fill()
    }

    fn fill(&self) -> BigRational {
        let hole = if self.hole < self.shank { &self.shank } else { &self.hole };
        cylinder(hole, &(&self.grip - &self.sunk))
    }
}

/// Every size of the series whose shank and head are known.
fn sizes() -> Vec<(&'static Series<'static>, u8)> {
    let mut sizes = Vec::new();
    for series in [&MS20470, &MS20426, &NAS1097, &NAS1242] as [&'static Series<'static>; 4] {
        let known = series.sizes.iter().filter(|size| size.shank.is_some());
        let known = known.filter(|size| size.head.is_some() || !series.head.is_flush());
        sizes.extend(known.map(|size| (series, size.dash)));
    }
    assert!(sizes.len() > 20);
    sizes
}

/// What bounds a length and its window, in nanometres, worked out with nothing but fractions: enough metal at worst, not too much at nominal
/// sizes.
struct Bounds {
    shortest: BigRational,
    longest: BigRational,
    /// The rule's length, rounded.
    rule: BigRational,
    worst: End,
    length_off: BigRational,
    least_width: BigRational,
    /// Least, and greatest where there is one.
    heights: (BigRational, Option<BigRational>),
}

impl Bounds {
    fn of(practice: &Practice<'static>, rivet: Part<'static>, grip: Toleranced) -> Bounds {
        let (series, size) = (rivet.series(), rivet.size());
        let case = Case::for_part(&rivet);
        let limits = HeadLimits::of(practice, &case);
        let hole = practice.hole_for(&case).expect("a hole").value;
        let shank = size.shank.expect("known");
        let flush = size.head.filter(|_| series.head.is_flush());
        let sunk = flush.map_or([Length::ZERO; 2], |head| {
            head.height.map_or([head.height_nominal; 2], |height| [height.min(), height.max()])
        });
        let length_off = exact(series.length_tolerance.map_or(Length::ZERO, |tolerance| tolerance.either_way));
        let known = |given: Option<Given<Length>>| exact(given.expect("known").value);
        let worst =
            End { shank: exact(shank.min()), hole: exact(hole.max()), grip: exact(grip.max()), sunk: exact(sunk[0]) };
        let nominal = End {
            shank: exact(size.shank_nominal),
            hole: exact(hole.min()),
            grip: exact(grip.nominal()),
            sunk: exact(flush.map_or(Length::ZERO, |head| head.height_nominal)),
        };
        let (least_width, least_height) = (known(limits.diameter_least), known(limits.height_least));
        let shortest = worst.length_for(&cylinder(&least_width, &least_height)) + &length_off;
        let tail = known(practice.length(Name::TailGreatest, &case));
        let mut longest = exact(grip.nominal()) + tail;
        if let Some((wide, high)) = limits.diameter_greatest.zip(limits.metal_height_greatest) {
            longest = longest.min(nominal.length_for(&cylinder(&exact(wide.value), &exact(high.value))));
        }
        // A limit in diameters is a whole number of nanometres.
        let rule = exact(grip.nominal()) + (ratio(3, 2) * exact(case.diameter)).round();
        let rule = match practice.rounding(&case).expect("a rule").value {
            LengthRounding::Longer => (rule / sixteenth()).ceil(),
            LengthRounding::Nearest => nearest(&(rule / sixteenth())),
        } * sixteenth();
        let heights = (least_height, limits.height_greatest.map(|greatest| exact(greatest.value)));
        Bounds { shortest, longest, rule, worst, length_off, least_width, heights }
    }

    /// The length nearest to the rule's, whole sixteenths first.
    fn chosen(&self, halves: bool) -> Option<BigRational> {
        let within = |step: BigRational| {
            let (least, most) = ((&self.shortest / &step).ceil() * &step, (&self.longest / &step).floor() * &step);
            (least <= most).then(|| self.rule.clone().clamp(least, most))
        };
        within(sixteenth()).or_else(|| if halves { within(sixteenth() / ratio(2, 1)) } else { None })
    }

    /// The least height, and the one at which the least metal is just as wide as the least width, or the greatest height.
    fn window(&self, length: &BigRational) -> (BigRational, BigRational) {
        let filled = self.worst.metal_left(&(length - &self.length_off)) / (&self.least_width * &self.least_width);
        let high = self.heights.1.clone().map_or_else(|| filled.clone(), |greatest| greatest.min(filled.clone()));
        (self.heights.0.clone(), high)
    }
}

fn sixteenth() -> BigRational {
    ratio(1_587_500, 1)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_decimal_reads_as_the_nearest_nanometre(digits in 0_i64..10_000_000_000_000, places in 0_u32..12, mm in any::<bool>()) {
        let scale = 10_i64.pow(places);
        let text = format!("{}.{:0width$}{}", digits / scale, digits % scale, if mm { "mm" } else { "" }, width = places as usize);
        let text = if places == 0 { text.replacen(".0", "", 1) } else { text };
        let unit = if mm { 1_000_000 } else { 25_400_000 };
        let wanted = nearest(&(ratio(digits, scale) * ratio(unit, 1)));
        match Length::parse(&text) {
            Ok(length) => prop_assert_eq!(exact(length), wanted, "{}", text),
            Err(_) => prop_assert!(wanted > exact(Length::MAX), "{}", text),
        }
    }

    #[test]
    fn a_fraction_reads_exactly_or_not_at_all(whole in 0_i64..100, top in 0_i64..200, bottom in 1_i64..200) {
        let wanted = (ratio(whole, 1) + ratio(top, bottom)) * ratio(25_400_000, 1);
        match Length::parse(&format!("{whole}-{top}/{bottom}")) {
            Ok(length) => prop_assert_eq!(exact(length), wanted),
            Err(_) => prop_assert!(!wanted.is_integer()),
        }
    }

    #[test]
    fn rounding_to_a_step_is_that_of_fractions(nm in -40_000_000_000_i64..40_000_000_000, sixty_fourths in 1_i16..200) {
        let (length, step) = (Length::from_nanometres(nm).expect("in range"), Length::from_64ths(sixty_fourths));
        let times = exact(length) / exact(step);
        prop_assert_eq!(exact(length.floor_to(step)), times.floor() * exact(step));
        prop_assert_eq!(exact(length.ceil_to(step)), times.ceil() * exact(step));
        // Midway goes to the longer one, also below zero.
        prop_assert_eq!(exact(length.round_to(step)), (times + ratio(1, 2)).floor() * exact(step));
    }

    #[test]
    fn the_chosen_length_and_its_window_are_those_of_fractions(
        (series, dash) in prop::sample::select(sizes()),
        share in 500_i64..10_000,
        below in 0_i64..300_000,
        above in 0_i64..300_000,
        process in any::<bool>(),
    ) {
        let length = |nm| Length::from_nanometres(nm).expect("in range");
        let practice = BUILT_IN[usize::from(process)];
        let size = series.size(dash).expect("a size");
        // Half a diameter to ten.
        let nominal = size.shank_nominal.nanometres() * share / 1_000;
        let grip = Toleranced::new(length(nominal), length(below), length(above)).expect("tolerances");
        let case = Case::of(series.head, RivetAlloy::Al2117, size);
        let hole = Toleranced::from_least(practice.hole_for(&case).expect("a hole").value);
        let rivet = Part::new(series, series.materials[0].code, size).expect("a material and a size of the series");
        let answer = Installation::through(rivet, grip).in_hole(hole).by(practice).length();
        // Nothing is thinner than its own tolerance.
        let Ok(answer) = answer else { return Ok(()) };
        // A pack thinner than a flush head has no bounds to compare.
        if answer.usable.is_none() {
            prop_assert_eq!(answer.length, None);
            return Ok(());
        }
        let bounds = Bounds::of(practice, rivet, grip);
        prop_assert_eq!(answer.length.map(exact), bounds.chosen(series.half_lengths.is_some()));
        let Some(length) = answer.length else { return Ok(()) };
        let window = answer.window.expect("a length within limits has a window");
        let (low, high) = bounds.window(&exact(length));
        prop_assert_eq!(exact(window.height.min()), low);
        prop_assert_eq!(exact(window.height.max()), high.floor());
    }
}
