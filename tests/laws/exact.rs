//! Reading, rounding and choosing lengths against exact rational arithmetic of any size.

use num_bigint::BigInt;
use num_rational::BigRational;
use proptest::prelude::*;
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, Name, Practice, Rounding};
use shophead::rivet::part::Part;
use shophead::rivet::{MS20426, MS20470, Series};
use shophead::upset::HeadLimits;

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
        let hole = if self.hole < self.shank { &self.shank } else { &self.hole };
        let fill = cylinder(hole, &(&self.grip - &self.sunk));
        (metal + fill) / (&self.shank * &self.shank) + &self.sunk
    }
}

/// The chosen length in nanometres, worked out with nothing but fractions: enough metal at worst, not too much at nominal sizes.
fn by_fractions(
    practice: &Practice<'static>,
    series: &'static Series<'static>,
    dash: u8,
    grip: Toleranced,
) -> Option<BigRational> {
    let size = series.size(dash).expect("a size");
    let case = Case::of(series.head, RivetAlloy::Al2117, size);
    let limits = HeadLimits::of(practice, &case);
    let hole = practice.hole_for(&case).expect("a hole").value;
    let shank = size.shank.expect("known");
    let sunk = size.head.filter(|_| series.head.is_flush()).map_or([Length::ZERO; 2], |head| {
        head.height.map_or([head.height_nominal; 2], |height| [height.min(), height.max()])
    });
    let tolerance = exact(series.length_tolerance.expect("known").either_way);
    let metal = |diameter: Option<_>, height: Option<_>| {
        let of = |given: shophead::practice::Given<Length>| exact(given.value);
        Some(cylinder(&of(diameter?), &of(height?)))
    };
    let least =
        End { shank: exact(shank.min()), hole: exact(hole.max()), grip: exact(grip.max()), sunk: exact(sunk[0]) };
    let nominal_sunk = size.head.filter(|_| series.head.is_flush()).map_or(Length::ZERO, |head| head.height_nominal);
    let nominal = End {
        shank: exact(size.shank_nominal),
        hole: exact(hole.min()),
        grip: exact(grip.nominal()),
        sunk: exact(nominal_sunk),
    };
    let shortest = least.length_for(&metal(limits.diameter_least, limits.height_least)?) + &tolerance;
    let tail = practice.length(Name::TailGreatest, &case).expect("a limit").value;
    let mut longest = exact(grip.nominal()) + exact(tail);
    if let Some(metal) = metal(limits.diameter_greatest, limits.metal_height_greatest) {
        longest = longest.min(nominal.length_for(&metal));
    }
    let rule = exact(grip.nominal()) + ratio(3, 2) * exact(size.shank_nominal);
    let sixteenth = ratio(1_587_500, 1);
    let rule = match practice.rounding(&case).expect("a rule").value {
        Rounding::Longer => (rule / &sixteenth).ceil(),
        Rounding::Nearest => nearest(&(rule / &sixteenth)),
    } * &sixteenth;
    let within = |step: BigRational| {
        let (least, most) = ((&shortest / &step).ceil() * &step, (&longest / &step).floor() * &step);
        (least <= most).then(|| rule.clone().clamp(least, most))
    };
    within(sixteenth).or_else(|| within(ratio(793_750, 1)))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 512, ..ProptestConfig::default() })]

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
    fn the_chosen_length_is_that_of_fractions(
        dash in prop::sample::select(vec![3_u8, 4, 5, 6, 8]),
        nominal in 2_000_000_i64..38_100_000,
        below in 0_i64..300_000,
        above in 0_i64..300_000,
        flush in any::<bool>(),
        process in any::<bool>(),
    ) {
        let length = |nm| Length::from_nanometres(nm).expect("in range");
        let series = if flush { &MS20426 } else { &MS20470 };
        let practice = BUILT_IN[usize::from(process)];
        let size = series.size(dash).expect("a size");
        let grip = Toleranced::new(length(nominal), length(below), length(above)).expect("tolerances");
        let case = Case::of(series.head, RivetAlloy::Al2117, size);
        let hole = Toleranced::from_least(practice.hole_for(&case).expect("a hole").value);
        let rivet = Part::new(series, "AD", size).expect("a material and a size of the series");
        let question = Installation::through(rivet, grip).in_hole(hole).by(practice);
        let answer = question.length().expect("sizes");
        // A pack thinner than a flush head has no bounds to compare.
        if answer.usable.is_some() {
            prop_assert_eq!(answer.length.map(exact), by_fractions(practice, series, dash, grip));
        } else {
            prop_assert_eq!(answer.length, None);
        }
    }
}
