//! How figures are written for people.

use core::fmt::{self, Write};

use crate::fact::{Fact, Facts};
use crate::length::{Interval, Length};
use crate::practice::Key;
use crate::quantity::{Force, Stress};

/// The units that figures are written in.
///
/// Inches are written as the trade does: three decimals without the leading zero, four where that is the exact figure, as of a drill,
/// and no unit behind. Millimetres have two decimals. Forces from 100 up have no decimals.
///
/// ```
/// use shophead::length::Length;
/// use shophead::quantity::Force;
/// use shophead::words::Units;
/// let skin = Length::parse(".0625")?;
/// assert_eq!(Units::Inches.length(skin).to_string(), ".0625");
/// assert_eq!(Units::Inches.size(skin).to_string(), "1/16");
/// assert_eq!(Units::Millimetres.length(skin).to_string(), "1.59 mm");
/// assert_eq!(Units::Inches.force(Force::from_lbf(388.2)).to_string(), "388 lbf");
/// assert_eq!(Units::Millimetres.force(Force::from_lbf(20.0)).to_string(), "89.0 N");
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Units {
    /// Inches and pounds.
    #[default]
    Inches,
    /// Millimetres and newtons.
    Millimetres,
}

/// Which way a figure is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Toward {
    Nearest,
    Down,
    Up,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Length(Length),
    Size(Length),
    Interval(Interval),
    Limits(Option<Length>, Option<Length>),
    Force(Force),
    RunningLoad(Force),
    Stress(Stress),
    Modulus(Stress),
    /// Inch-pounds.
    Moment(f64),
    Ratio(f64),
    Count(u32),
    Facts(Facts),
    Key(Key),
}

/// Whether a length has its unit behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum UnitOf {
    /// Not where it is inches.
    Trade,
    Named,
    Bare,
}

/// A figure as it is written: made by [`Units`] and by [`Figure::shown`](crate::finding::Figure::shown).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    kind: Kind,
    units: Units,
    toward: Toward,
    tight: bool,
    unit: UnitOf,
    about: bool,
    /// With one decimal more: limits that lie closer together than a step.
    fine: bool,
}

impl Units {
    const fn shown(self, kind: Kind) -> Shown {
        Shown {
            kind,
            units: self,
            toward: Toward::Nearest,
            tight: false,
            unit: UnitOf::Trade,
            about: false,
            fine: false,
        }
    }

    /// A length.
    #[must_use]
    pub const fn length(self, length: Length) -> Shown {
        self.shown(Kind::Length(length))
    }

    /// The size of a part: in inches a fraction where it is exactly one.
    #[must_use]
    pub const fn size(self, size: Length) -> Shown {
        self.shown(Kind::Size(size))
    }

    /// A least and a greatest length: `.128 to .132`; once where they are written alike.
    #[must_use]
    pub const fn interval(self, interval: Interval) -> Shown {
        self.shown(Kind::Interval(interval))
    }

    /// A least and a greatest limit, rounded inwards so that what is written is within them; either may be missing.
    #[must_use]
    pub const fn limits(self, least: Option<Length>, greatest: Option<Length>) -> Shown {
        self.shown(Kind::Limits(least, greatest))
    }

    /// A force.
    #[must_use]
    pub const fn force(self, force: Force) -> Shown {
        self.shown(Kind::Force(force))
    }

    /// A force for every inch of width, or for every millimetre.
    #[must_use]
    pub const fn running_load(self, per_inch: Force) -> Shown {
        self.shown(Kind::RunningLoad(per_inch))
    }

    /// A stress.
    #[must_use]
    pub const fn stress(self, stress: Stress) -> Shown {
        self.shown(Kind::Stress(stress))
    }

    /// A modulus.
    #[must_use]
    pub const fn modulus(self, modulus: Stress) -> Shown {
        self.shown(Kind::Modulus(modulus))
    }

    /// A moment, from inch-pounds.
    #[must_use]
    pub const fn moment(self, in_lbf: f64) -> Shown {
        self.shown(Kind::Moment(in_lbf))
    }

    /// A plain number, to three decimals at most: `1.5`, `0.182`.
    #[must_use]
    pub const fn ratio(self, ratio: f64) -> Shown {
        self.shown(Kind::Ratio(ratio))
    }

    /// A number of things.
    #[must_use]
    pub const fn count(self, count: u32) -> Shown {
        self.shown(Kind::Count(count))
    }

    /// What was not given.
    #[must_use]
    pub const fn facts(self, facts: Facts) -> Shown {
        self.shown(Kind::Facts(facts))
    }

    /// What is not on file, as a limits file calls it.
    #[must_use]
    pub const fn key(self, key: Key) -> Shown {
        self.shown(Kind::Key(key))
    }

    /// The unit of length: `in` or `mm`.
    #[must_use]
    pub const fn length_unit(self) -> &'static str {
        match self {
            Units::Inches => "in",
            Units::Millimetres => "mm",
        }
    }

    /// The unit of force: `lbf` or `N`.
    #[must_use]
    pub const fn force_unit(self) -> &'static str {
        match self {
            Units::Inches => "lbf",
            Units::Millimetres => "N",
        }
    }

    /// The steps in which a length is written, and their decimals.
    const fn steps(self, length: Length, about: bool, fine: bool) -> (i64, u8) {
        match self {
            Units::Inches if fine => (TEN_THOUSANDTH, 4),
            Units::Millimetres if fine => (1_000, 3),
            Units::Inches if about => (TEN_THOUSANDTH * 10, 3),
            // Exact to four decimals, as drills and most tables are: the fourth is written too.
            Units::Inches => match length.nanometres().checked_rem(TEN_THOUSANDTH) {
                Some(0) => (TEN_THOUSANDTH, 4),
                _ => (TEN_THOUSANDTH * 10, 3),
            },
            Units::Millimetres => (10_000, 2),
        }
    }
}

/// Nanometres.
const TEN_THOUSANDTH: i64 = 2_540;

impl Shown {
    /// The same rounded that way.
    pub(crate) const fn toward(self, toward: Toward) -> Shown {
        Shown { toward, ..self }
    }

    /// A length as the size of a part.
    #[cfg(feature = "words")]
    pub(crate) const fn as_size(self) -> Shown {
        match self.kind {
            Kind::Length(length) => Shown { kind: Kind::Size(length), ..self },
            _ => self,
        }
    }

    /// The same without a space before its unit, for small screens.
    #[must_use]
    pub const fn tight(self) -> Shown {
        Shown { tight: true, ..self }
    }

    /// A computed length, never with a fourth decimal: nothing computed from a sheet and its tolerance is known so closely.
    #[must_use]
    pub const fn about(self) -> Shown {
        Shown { about: true, ..self }
    }

    /// The same with `in` behind inches too, where the unit is the question.
    #[must_use]
    pub const fn named(self) -> Shown {
        Shown { unit: UnitOf::Named, ..self }
    }

    /// The same length without its unit, where another one behind it has it.
    #[must_use]
    pub const fn bare(self) -> Shown {
        Shown { unit: UnitOf::Bare, ..self }
    }

    /// A number that is the same for two of a kind when they are written the same.
    #[cfg(feature = "words")]
    pub(crate) fn written(self) -> i64 {
        let (count, decimals) = match self.kind {
            Kind::Length(length) | Kind::Size(length) => self.length_on_grid(length),
            Kind::Force(force) => self.force_on_grid(force),
            Kind::Stress(stress) => self.stress_on_grid(stress),
            Kind::Ratio(ratio) => (on_grid(ratio, RATIO_DECIMALS, self.toward), RATIO_DECIMALS),
            Kind::Count(count) => (i64::from(count), 0),
            _ => (0, 0),
        };
        self.with_decimals((count, decimals))
    }

    /// A count of steps as one of the smallest ones.
    fn with_decimals(self, (count, decimals): (i64, u8)) -> i64 {
        (decimals..MOST_DECIMALS).fold(count, |count, _| count.saturating_mul(10))
    }

    fn length_on_grid(self, length: Length) -> (i64, u8) {
        let (step, decimals) = self.units.steps(length, self.about, self.fine);
        let nm = length.nanometres();
        let below = nm.saturating_sub(nm.checked_rem_euclid(step).unwrap_or(0));
        let rest = nm.saturating_sub(below);
        let up = match self.toward {
            Toward::Down => false,
            Toward::Up => rest > 0,
            Toward::Nearest => rest.saturating_mul(2) >= step,
        };
        let count = below.checked_div(step).unwrap_or(0);
        (if up { count.saturating_add(1) } else { count }, decimals)
    }

    fn force_on_grid(self, force: Force) -> (i64, u8) {
        let value = match self.units {
            Units::Inches => force.lbf(),
            Units::Millimetres => force.newtons(),
        };
        // A strength is never known to a tenth of a per cent.
        let decimals = if value.abs() < 100.0 { 1 } else { 0 };
        (on_grid(value, decimals, self.toward), decimals)
    }

    fn stress_on_grid(self, stress: Stress) -> (i64, u8) {
        match self.units {
            Units::Inches => (on_grid(stress.ksi(), 1, self.toward), 1),
            Units::Millimetres => (on_grid(stress.megapascals(), 0, self.toward), 0),
        }
    }

    fn write_length(self, f: &mut dyn Write, length: Length) -> fmt::Result {
        let (count, decimals) = self.length_on_grid(length);
        match self.units {
            Units::Inches => decimal(f, count, decimals, 3, false),
            Units::Millimetres => decimal(f, count, decimals, 2, true),
        }
    }

    fn write_unit(self, f: &mut dyn Write, unit: &str) -> fmt::Result {
        f.write_str(if self.tight { "" } else { " " })?;
        f.write_str(unit)
    }

    /// Inches are the trade's and go without their unit, unless it is asked for.
    fn write_length_unit(self, f: &mut dyn Write) -> fmt::Result {
        match (self.unit, self.units) {
            (UnitOf::Bare, _) | (UnitOf::Trade, Units::Inches) => Ok(()),
            (UnitOf::Trade | UnitOf::Named, _) => self.write_unit(f, self.units.length_unit()),
        }
    }

    fn write_interval(
        self,
        f: &mut dyn Write,
        min: Shown,
        max: Shown,
        (least, greatest): (Length, Length),
    ) -> fmt::Result {
        if min.length_on_grid(least) != max.length_on_grid(greatest) {
            min.write_length(f, least)?;
            f.write_str(" to ")?;
        }
        max.write_length(f, greatest)?;
        self.write_length_unit(f)
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = *self;
        match shown.kind {
            Kind::Size(size) if shown.units == Units::Inches && size.to_64ths().is_exact() => {
                write!(f, "{}", size.to_64ths())
            }
            Kind::Length(length) | Kind::Size(length) => {
                shown.write_length(f, length)?;
                shown.write_length_unit(f)
            }
            Kind::Interval(limits) => shown.write_interval(f, shown, shown, (limits.min(), limits.max())),
            Kind::Limits(Some(least), Some(greatest)) => {
                let fine = Shown { fine: true, ..shown };
                let inwards = |shown: Shown| (shown.toward(Toward::Up), shown.toward(Toward::Down));
                let cross = |(min, max): (Shown, Shown)| {
                    min.with_decimals(min.length_on_grid(least)) > max.with_decimals(max.length_on_grid(greatest))
                };
                // Limits that rounding would make cross are written more closely.
                let (min, max) =
                    [inwards(shown), inwards(fine)].into_iter().find(|both| !cross(*both)).unwrap_or((fine, fine));
                shown.write_interval(f, min, max, (least, greatest))
            }
            Kind::Limits(Some(least), None) => {
                write!(f, "from {}", Shown { kind: Kind::Length(least), ..shown }.toward(Toward::Up))
            }
            Kind::Limits(None, Some(greatest)) => {
                write!(f, "up to {}", Shown { kind: Kind::Length(greatest), ..shown }.toward(Toward::Down))
            }
            Kind::Limits(None, None) => f.write_str("no limits on file"),
            Kind::Force(force) => {
                let (count, decimals) = shown.force_on_grid(force);
                decimal(f, count, decimals, decimals, true)?;
                shown.write_unit(f, shown.units.force_unit())
            }
            Kind::RunningLoad(per_inch) => {
                let (value, unit) = match shown.units {
                    Units::Inches => (per_inch.lbf(), "lbf/in"),
                    Units::Millimetres => (per_inch.newtons() / MILLIMETRES_IN_INCH, "N/mm"),
                };
                decimal(f, on_grid(value, 0, shown.toward), 0, 0, true)?;
                shown.write_unit(f, unit)
            }
            Kind::Stress(stress) => {
                let (count, decimals) = shown.stress_on_grid(stress);
                decimal(f, count, decimals, decimals, true)?;
                shown.write_unit(f, if shown.units == Units::Inches { "ksi" } else { "MPa" })
            }
            Kind::Modulus(modulus) => {
                let (value, decimals, unit) = match shown.units {
                    Units::Inches => (modulus.msi(), 3, "msi"),
                    Units::Millimetres => (modulus.megapascals() / 1e3, 1, "GPa"),
                };
                decimal(f, on_grid(value, decimals, shown.toward), decimals, decimals.min(1), true)?;
                shown.write_unit(f, unit)
            }
            Kind::Moment(in_lbf) => {
                let (value, decimals, unit) = match shown.units {
                    Units::Inches => (in_lbf, 0, "in-lbf"),
                    Units::Millimetres => (Force::from_lbf(in_lbf).newtons() * MILLIMETRES_IN_INCH / 1e3, 1, "N m"),
                };
                decimal(f, on_grid(value, decimals, shown.toward), decimals, decimals, true)?;
                shown.write_unit(f, unit)
            }
            Kind::Ratio(ratio) => decimal(f, on_grid(ratio, RATIO_DECIMALS, shown.toward), RATIO_DECIMALS, 0, true),
            Kind::Count(count) => write!(f, "{count}"),
            Kind::Facts(facts) => facts.write(f, if shown.tight { Fact::short } else { Fact::as_str }),
            Kind::Key(key) => write!(f, "{key}"),
        }
    }
}

const MILLIMETRES_IN_INCH: f64 = 25.4;
const RATIO_DECIMALS: u8 = 3;
const MOST_DECIMALS: u8 = 4;

/// How many steps of so many decimals: whole numbers print without the float printer of the standard library, which is large.
fn on_grid(value: f64, decimals: u8, toward: Toward) -> i64 {
    let scaled = (0..decimals).fold(value, |scaled, _| scaled * 10.0);
    // What was read back from a float is not moved a whole step by its last bit.
    let nearest = libm::round(scaled);
    let is_on = libm::fabs(scaled - nearest) <= 1e-9 * libm::fabs(scaled).max(1.0);
    (match toward {
        _ if is_on => nearest,
        Toward::Nearest => nearest,
        Toward::Down => libm::floor(scaled),
        Toward::Up => libm::ceil(scaled),
    }) as i64
}

/// A point and thousandths without idle zeros, at least one digit. Each width stands here: one that is only known when it runs is one that
/// `core::fmt` can refuse with a panic.
pub(crate) fn thousandths(f: &mut fmt::Formatter<'_>, part: u32) -> fmt::Result {
    let tenth = |part: u32| part.checked_div(10).filter(|_| part.checked_rem(10) == Some(0));
    match (tenth(part), tenth(part).and_then(tenth)) {
        (_, Some(tenths)) => write!(f, ".{tenths}"),
        (Some(hundredths), None) => write!(f, ".{hundredths:02}"),
        (None, None) => write!(f, ".{part:03}"),
    }
}

/// Writes `count` divided by ten to the power of `decimals`, without idle zeros beyond the `least` decimals.
pub(crate) fn decimal(f: &mut dyn Write, count: i64, decimals: u8, least: u8, leading_zero: bool) -> fmt::Result {
    let (mut rest, mut shown) = (count.unsigned_abs(), decimals);
    while shown > least && rest.checked_rem(10) == Some(0) {
        rest = rest.checked_div(10).unwrap_or(0);
        shown = shown.saturating_sub(1);
    }
    let scale = (0..shown).fold(1_u64, |scale, _| scale.saturating_mul(10));
    let whole = rest.checked_div(scale).unwrap_or(0);
    if count < 0 {
        f.write_char('-')?;
    }
    if whole > 0 || leading_zero || shown == 0 {
        // No length or force of a joint has more digits; printing wider numbers takes two kilobytes of flash.
        write!(f, "{}", u32::try_from(whole).unwrap_or(u32::MAX))?;
    }
    if shown == 0 {
        return Ok(());
    }
    f.write_char('.')?;
    let (mut rest, mut scale) = (rest.checked_rem(scale).unwrap_or(0), scale);
    for _ in 0..shown {
        scale = scale.checked_div(10).unwrap_or(1);
        let digit = rest.checked_div(scale).unwrap_or(0);
        rest = rest.checked_rem(scale).unwrap_or(0);
        f.write_char(char::from(b'0'.saturating_add(u8::try_from(digit).unwrap_or(0))))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::{String, ToString};

    fn inches(text: &str) -> Length {
        Length::parse(text).expect("a length")
    }

    #[test]
    fn inches_are_written_as_the_trade_writes_them() {
        for (length, written) in [
            (".063", ".063"),
            (".1285", ".1285"),
            (".144", ".144"),
            (".390625", ".391"),
            ("1.25", "1.250"),
            ("0", ".000"),
            ("-.005", "-.005"),
            ("-1.5", "-1.500"),
            (".00004", ".000"),
            ("39.37008", "39.370"),
        ] {
            assert_eq!(Units::Inches.length(inches(length)).to_string(), written);
        }
        assert_eq!(Units::Millimetres.length(inches("1/8")).to_string(), "3.18 mm");
        assert_eq!(Units::Millimetres.length(inches("-.5mm")).to_string(), "-0.50 mm");
        assert_eq!(Units::Millimetres.length(inches("1/8")).tight().to_string(), "3.18mm");
        assert_eq!(Units::Inches.length(inches(".2365")).about().to_string(), ".237");
        assert_eq!(Units::Millimetres.length(inches("1/8")).bare().to_string(), "3.18");
        assert_eq!(Units::Inches.length(inches("40")).named().to_string(), "40.000 in");
    }

    #[test]
    fn sizes_of_parts_are_fractions() {
        assert_eq!(Units::Inches.size(inches("3/8")).to_string(), "3/8");
        assert_eq!(Units::Inches.size(inches("1-5/16")).to_string(), "1-5/16");
        assert_eq!(Units::Inches.size(inches(".3")).to_string(), ".300");
        assert_eq!(Units::Millimetres.size(inches("3/8")).to_string(), "9.53 mm");
    }

    #[test]
    fn limits_are_rounded_inwards() {
        let (least, greatest) = (inches(".12345"), inches(".17888"));
        assert_eq!(Units::Inches.limits(Some(least), Some(greatest)).to_string(), ".124 to .178");
        // Closer together than a thousandth: a decimal more, so that they do not cross.
        let (least, greatest) = (inches(".05012"), inches(".05087"));
        assert_eq!(Units::Inches.limits(Some(least), Some(greatest)).to_string(), ".0502 to .0508");
        assert_eq!(
            Units::Millimetres.limits(Some(inches("1.234mm")), Some(inches("1.239mm"))).to_string(),
            "1.234 to 1.239 mm"
        );
        let (least, greatest) = (inches(".12345"), inches(".17888"));
        assert_eq!(Units::Inches.limits(None, Some(greatest)).to_string(), "up to .178");
        assert_eq!(Units::Inches.limits(Some(least), None).to_string(), "from .124");
        assert_eq!(Units::Inches.interval(Interval::of(least, greatest)).to_string(), ".123 to .179");
        assert_eq!(Units::Inches.interval(Interval::exactly(least)).to_string(), ".123");
        assert_eq!(Units::Millimetres.limits(Some(least), Some(greatest)).to_string(), "3.14 to 4.54 mm");
    }

    #[test]
    fn forces_stresses_and_ratios() {
        assert_eq!(Units::Inches.force(Force::from_lbf(38.82)).to_string(), "38.8 lbf");
        assert_eq!(Units::Inches.force(Force::from_lbf(388.2)).to_string(), "388 lbf");
        assert_eq!(Units::Millimetres.force(Force::from_newtons(1100.0)).to_string(), "1100 N");
        assert_eq!(Units::Inches.running_load(Force::from_lbf(1200.4)).to_string(), "1200 lbf/in");
        assert_eq!(Units::Inches.stress(Stress::from_ksi(30.0)).to_string(), "30.0 ksi");
        assert_eq!(Units::Millimetres.stress(Stress::from_ksi(30.0)).to_string(), "207 MPa");
        assert_eq!(Units::Inches.modulus(Stress::from_msi(10.5)).to_string(), "10.5 msi");
        assert_eq!(Units::Inches.moment(500.0).to_string(), "500 in-lbf");
        assert_eq!(Units::Millimetres.moment(500.0).to_string(), "56.5 N m");
        for (ratio, written) in [(1.5, "1.5"), (0.18249, "0.182"), (20.0, "20"), (-0.0001, "0"), (-0.07, "-0.07")] {
            assert_eq!(Units::Inches.ratio(ratio).to_string(), written);
        }
    }

    #[cfg(feature = "words")]
    #[test]
    fn figures_of_a_kind_are_the_same_where_they_are_written_alike() {
        let shown = |figure: &dyn Fn(f64) -> Shown| [1.0, 1.000_001, 2.0].map(|value| figure(value).written());
        for figure in [
            &|value| Units::Inches.length(Length::try_from_inches_f64(value).expect("short")) as Shown,
            &|value| Units::Inches.force(Force::from_lbf(value)),
            &|value| Units::Inches.stress(Stress::from_ksi(value)),
            &|value| Units::Inches.ratio(value),
            &|value| Units::Inches.count(value as u32),
        ] as [&dyn Fn(f64) -> Shown; 5]
        {
            let [one, alike, other] = shown(figure);
            assert_eq!((one, alike, other), (10_000, 10_000, 20_000), "{}", figure(1.0));
        }
    }

    #[test]
    fn a_load_for_every_millimetre_is_that_for_every_inch_over_25_4() {
        for (newtons, written) in [(2_540.0, "100 N/mm"), (254.0, "10 N/mm"), (12.7, "1 N/mm")] {
            assert_eq!(Units::Millimetres.running_load(Force::from_newtons(newtons)).to_string(), written);
        }
    }

    #[test]
    fn a_modulus_is_written_in_thousands_of_its_stress() {
        for (megapascals, written) in [(71_000.0, "71.0 GPa"), (110_300.0, "110.3 GPa"), (500.0, "0.5 GPa")] {
            assert_eq!(Units::Millimetres.modulus(Stress::from_megapascals(megapascals)).to_string(), written);
        }
    }

    #[test]
    fn the_last_bit_of_a_large_figure_is_no_step() {
        for value in [1_000.0_f64, 1_000_000.0] {
            let more = f64::from_bits(value.to_bits() + 1);
            let less = f64::from_bits(value.to_bits() - 1);
            for toward in [Toward::Nearest, Toward::Down, Toward::Up] {
                let count = value as i64 * 1_000;
                assert_eq!(
                    [less, value, more].map(|value| on_grid(value, 3, toward)),
                    [count; 3],
                    "{value} {toward:?}"
                );
            }
        }
        // What is off by more is one.
        assert_eq!((on_grid(0.0004, 3, Toward::Up), on_grid(0.0006, 3, Toward::Down)), (1, 0));
        assert_eq!(
            (on_grid(1_000.000_4, 3, Toward::Up), on_grid(1_000.000_6, 3, Toward::Down)),
            (1_000_001, 1_000_000)
        );
    }

    #[test]
    fn rounding_down_does_not_lose_a_step_to_the_last_bit() {
        let shown = Units::Inches.ratio(0.29).toward(Toward::Down);
        assert_eq!(shown.to_string(), "0.29");
        let mut text = String::new();
        decimal(&mut text, -40_005_000, 4, 3, false).expect("a string takes everything");
        assert_eq!(text, "-4000.500");
    }
}
