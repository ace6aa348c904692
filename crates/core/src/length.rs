//! Lengths, exact.
//!
//! A [`Length`] is a whole number of nanometres. The inch is 25 400 000 nm, so 1/64 in, 0.0001 in and
//! 0.001 mm are all whole numbers and rounding to the next 1/16 in never depends on a binary fraction.
//! Nothing in this module uses floating point except the two functions that say so in their names.

use core::fmt::{self, Write as _};

/// Nanometres in an inch (by definition of the inch, 25.4 mm exactly).
const NM_PER_INCH: i64 = 25_400_000;
const NM_PER_MM: i64 = 1_000_000;
const NM_PER_64TH: i64 = 396_875;
const NM_PER_TEN_THOUSANDTH: i64 = 2_540;

/// Whole part of `dividend / divisor`, zero where the divisor is: for divisors known not to be.
///
/// Kept out of line on a small target, and narrow numbers divided as such: on a 32-bit target the compiler's own division of 128 bits is a kilobyte of code
/// wherever it is inlined, and takes ten times as long as one of 64 bits.
#[cfg_attr(not(target_pointer_width = "64"), inline(never))]
#[cfg_attr(target_pointer_width = "64", inline)]
pub(crate) const fn quotient(dividend: i128, divisor: i128) -> i128 {
    let (narrow_dividend, narrow_divisor) = (dividend as i64, divisor as i64);
    if narrow_dividend as i128 == dividend
        && narrow_divisor as i128 == divisor
        && let Some(whole) = narrow_dividend.checked_div(narrow_divisor)
    {
        return whole as i128;
    }
    // No product of three lengths comes near the least i128, the one number whose size does not fit.
    let (dividend_size, divisor_size) = (dividend.unsigned_abs(), divisor.unsigned_abs());
    let native = if DIVIDES_WIDE { dividend_size.checked_div(divisor_size) } else { None };
    let whole = match native {
        Some(whole) => whole as i128,
        None => wide_quotient(dividend_size, divisor_size) as i128,
    };
    if (dividend < 0) == (divisor < 0) { whole } else { whole.wrapping_neg() }
}

/// A 64-bit processor divides numbers of 128 bits in a few of its own steps. The emulator's test holds both ways against each other.
const DIVIDES_WIDE: bool = cfg!(target_pointer_width = "64");

/// The product of three lengths, or of fewer and a number below 2^63: the least volume and the greatest both fit, so nothing wraps.
#[cfg_attr(not(target_pointer_width = "64"), inline(never))]
#[cfg_attr(target_pointer_width = "64", inline)]
pub(crate) const fn product(one: i128, other: i128) -> i128 {
    one.wrapping_mul(other)
}

// A bit more for each of the three than the longest length has, and two to spare.
const _: () = assert!(3 * (1 + Length::MAX.nm.ilog2()) < i128::BITS - 2);

/// A product that may be beyond 128 bits, which is `None`.
#[cfg_attr(not(target_pointer_width = "64"), inline(never))]
#[cfg_attr(target_pointer_width = "64", inline)]
pub(crate) const fn product_within(one: i128, other: i128) -> Option<i128> {
    one.checked_mul(other)
}

/// Bit by bit: as many turns as the quotient has bits, few for the volumes and areas of rivets. Zero where the divisor is.
#[inline(never)]
pub(crate) const fn wide_quotient(dividend: u128, divisor: u128) -> u128 {
    if divisor == 0 || dividend < divisor {
        return 0;
    }
    // By a height, which is a few million nanometres: half a word at a time.
    if divisor <= u32::MAX as u128 {
        let (mut rest, mut whole, mut shift) = (0_u64, 0_u128, u128::BITS);
        while shift > 0 {
            shift = shift.saturating_sub(u32::BITS);
            let part = (rest << u32::BITS) | (dividend >> shift) as u32 as u64;
            // The divisor is not zero.
            let digit = match part.checked_div(divisor as u64) {
                Some(digit) => digit,
                None => 0,
            };
            rest = part.wrapping_sub(digit.wrapping_mul(divisor as u64));
            whole = (whole << u32::BITS) | digit as u128;
        }
        return whole;
    }
    let mut turns = divisor.leading_zeros().saturating_sub(dividend.leading_zeros());
    let mut part = divisor << turns;
    let (mut rest, mut whole) = (dividend, 0_u128);
    loop {
        whole <<= 1;
        if let Some(less) = rest.checked_sub(part) {
            rest = less;
            whole |= 1;
        }
        if turns == 0 {
            return whole;
        }
        turns = turns.saturating_sub(1);
        part >>= 1;
    }
}

/// The whole part of a square root.
///
/// On a 32-bit target bit by bit, two hundred bytes of code: the standard library's root of 128 bits is two kilobytes. As many turns as the
/// root has bits; what fits in 64 bits, as the squares of ordinary rivets do, is worked in 64.
#[inline(never)]
pub(crate) fn whole_root(square: u128) -> u128 {
    macro_rules! bit_by_bit {
        ($square:expr, $one:expr) => {{
            let (mut rest, mut root) = ($square, $one >> 1);
            let mut bit = rest.checked_ilog2().map_or(root, |top| $one << (top & !1));
            while bit != 0 {
                let with_bit = root | bit;
                root >>= 1;
                if let Some(less) = rest.checked_sub(with_bit) {
                    rest = less;
                    root |= bit;
                }
                bit >>= 2;
            }
            root
        }};
    }
    match u64::try_from(square) {
        Ok(narrow) if DIVIDES_WIDE => u128::from(narrow.isqrt()),
        Ok(narrow) => u128::from(bit_by_bit!(narrow, 1_u64)),
        Err(_) if DIVIDES_WIDE => square.isqrt(),
        Err(_) => bit_by_bit!(square, 1_u128),
    }
}

/// A length, exact to the nanometre.
///
/// | what | value |
/// |---|---|
/// | resolution | 1 nm |
/// | range accepted | [`Length::MIN`] to [`Length::MAX`], one kilometre either way |
/// | exact | 1/64 in, 0.0001 in, 0.001 mm and all their multiples |
///
/// The range leaves room for a product of three lengths in `i128`, which is what the volume balance needs.
///
/// ```
/// use shophead::length::Length;
/// let skin = Length::parse(".032")?;
/// let cap = Length::parse("1/8")?;
/// let grip = skin.checked_add(cap).expect("far below a kilometre");
/// assert_eq!(grip, Length::parse("0.157 in")?);
/// assert_eq!(format!("{grip}"), "0.157");
/// assert_eq!(format!("{}", grip.to_64ths()), "5/32");
/// assert!(!grip.to_64ths().is_exact());
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Length {
    nm: i64,
}

impl Length {
    /// No length.
    pub const ZERO: Length = Length { nm: 0 };
    /// The longest length accepted: one kilometre.
    pub const MAX: Length = Length { nm: 1_000_000_000_000 };
    /// The most negative length accepted (lengths are negative only as coordinates and differences).
    pub const MIN: Length = Length { nm: -1_000_000_000_000 };
    /// One inch.
    pub const INCH: Length = Length { nm: NM_PER_INCH };
    /// The step in which part numbers count lengths.
    pub const SIXTEENTH: Length = Length { nm: NM_PER_64TH * 4 };
    /// The step in which part numbers count diameters; also half a [`Length::SIXTEENTH`].
    pub const THIRTY_SECOND: Length = Length { nm: NM_PER_64TH * 2 };

    /// A length in nanometres, or `None` outside [`Length::MIN`] to [`Length::MAX`].
    #[must_use]
    pub const fn from_nanometres(nm: i64) -> Option<Length> {
        if nm < Length::MIN.nm || nm > Length::MAX.nm { None } else { Some(Length { nm }) }
    }

    /// A length in sixty-fourths of an inch; every `i16` is in range.
    #[must_use]
    #[allow(clippy::arithmetic_side_effects, reason = "i16 times 396 875 stays far inside i64")]
    pub const fn from_64ths(count: i16) -> Length {
        Length { nm: count as i64 * NM_PER_64TH }
    }

    /// A length in ten-thousandths of an inch, the unit of the printed tables; every `u16` is in range.
    #[must_use]
    #[allow(clippy::arithmetic_side_effects, reason = "u16 times 2 540 stays far inside i64")]
    pub const fn from_ten_thousandths(count: u16) -> Length {
        Length { nm: count as i64 * NM_PER_TEN_THOUSANDTH }
    }

    /// The nearest whole nanometre to a floating-point number of inches.
    ///
    /// For values that come out of a measuring instrument or another program as `f64`. `None` for NaN, the
    /// infinities and anything outside the range; it never saturates.
    #[must_use]
    pub fn try_from_inches_f64(inches: f64) -> Option<Length> {
        let nm = libm::round(inches * NM_PER_INCH as f64);
        // What is too large for whole nanometres becomes the largest, which is no length.
        if nm.is_nan() { None } else { Length::from_nanometres(nm as i64) }
    }

    /// Nanometres.
    #[must_use]
    pub const fn nanometres(self) -> i64 {
        self.nm
    }

    /// Inches as the nearest `f64`, for the strength calculations.
    #[cfg_attr(not(target_pointer_width = "64"), inline(never))]
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[must_use]
    pub fn to_inches_f64(self) -> f64 {
        self.nm as f64 / NM_PER_INCH as f64
    }

    /// Millimetres as the nearest `f64`.
    #[must_use]
    pub fn to_millimetres_f64(self) -> f64 {
        self.nm as f64 / NM_PER_MM as f64
    }

    /// Sum, or `None` outside the range.
    #[must_use]
    pub const fn checked_add(self, other: Length) -> Option<Length> {
        Length::from_nanometres(self.nm.saturating_add(other.nm))
    }

    /// Difference, or `None` outside the range.
    #[must_use]
    pub const fn checked_sub(self, other: Length) -> Option<Length> {
        Length::from_nanometres(self.nm.saturating_sub(other.nm))
    }

    /// Product with a whole number, or `None` outside the range.
    #[must_use]
    pub const fn checked_mul(self, count: i64) -> Option<Length> {
        Length::from_nanometres(self.nm.saturating_mul(count))
    }

    /// Sum of lengths already known to be those of one joint; held at the ends of the range, which no joint reaches.
    pub(crate) const fn plus(self, other: Length) -> Length {
        // Two kilometres either way are far inside 64 bits.
        Length::held(self.nm.wrapping_add(other.nm))
    }

    /// Difference, held like [`Length::plus`].
    pub(crate) const fn minus(self, other: Length) -> Length {
        Length::held(self.nm.wrapping_sub(other.nm))
    }

    /// `self * num / den`, rounded to the nearest nanometre (half away from zero); a zero `den` counts as one.
    #[cfg_attr(not(target_pointer_width = "64"), inline(never))]
    #[cfg_attr(target_pointer_width = "64", inline)]
    pub(crate) const fn times(self, num: u32, den: u32) -> Length {
        let den = if den == 0 { 1 } else { den };
        let size = self.nm.unsigned_abs();
        if size <= u32::MAX as u64 {
            // Lengths below four metres, and all of a rivet's: two numbers of 32 bits, and half of a third.
            let product = size.wrapping_mul(num as u64);
            let shifted = product.saturating_add((den >> 1) as u64);
            let nm = match shifted.checked_div(den as u64) {
                Some(nm) if nm < Length::MAX.nm as u64 => nm as i64,
                _ => Length::MAX.nm,
            };
            return Length::held(if self.nm < 0 { nm.wrapping_neg() } else { nm });
        }
        let den = den as i128;
        // 1e12 * 2^32 is below 2^127 by a wide margin, so nothing here can overflow.
        let product = product(self.nm as i128, num as i128);
        let half = den >> 1;
        let shifted = if product < 0 { product.wrapping_sub(half) } else { product.wrapping_add(half) };
        let nm = quotient(shifted, den);
        if nm > Length::MAX.nm as i128 {
            Length::MAX
        } else if nm < Length::MIN.nm as i128 {
            Length::MIN
        } else {
            Length { nm: nm as i64 }
        }
    }

    #[cfg_attr(not(target_pointer_width = "64"), inline(never))]
    #[cfg_attr(target_pointer_width = "64", inline)]
    const fn held(nm: i64) -> Length {
        if nm > Length::MAX.nm {
            Length::MAX
        } else if nm < Length::MIN.nm {
            Length::MIN
        } else {
            Length { nm }
        }
    }

    /// The least multiple of `step` that is not less than this length. A step of zero or less returns the length itself.
    #[must_use]
    pub const fn ceil_to(self, step: Length) -> Length {
        match self.remainder(step) {
            0 => self,
            rest => Length::held(self.nm.wrapping_add(step.nm.wrapping_sub(rest))),
        }
    }

    /// The greatest multiple of `step` that is not more than this length. A step of zero or less returns the length itself.
    #[must_use]
    pub const fn floor_to(self, step: Length) -> Length {
        Length::held(self.nm.wrapping_sub(self.remainder(step)))
    }

    /// The multiple of `step` nearest to this length; the longer one when it lies midway.
    #[must_use]
    pub const fn round_to(self, step: Length) -> Length {
        let rest = self.remainder(step);
        if rest >= step.nm.wrapping_sub(rest) && rest != 0 { self.ceil_to(step) } else { self.floor_to(step) }
    }

    #[cfg_attr(not(target_pointer_width = "64"), inline(never))]
    #[cfg_attr(target_pointer_width = "64", inline)]
    const fn remainder(self, step: Length) -> i64 {
        if step.nm <= 0 {
            return 0;
        }
        match self.nm.checked_rem_euclid(step.nm) {
            Some(rest) => rest,
            None => 0,
        }
    }

    /// The nearest sixty-fourth of an inch, which says whether it is exact.
    #[must_use]
    pub const fn to_64ths(self) -> SixtyFourths {
        let nearest = self.round_to(Length { nm: NM_PER_64TH });
        SixtyFourths { count: nearest.nm.saturating_div(NM_PER_64TH), exact: nearest.nm == self.nm }
    }

    /// Prints millimetres instead of inches: at least one decimal, at most four, or the formatter's precision.
    ///
    /// ```
    /// use shophead::length::Length;
    /// assert_eq!(format!("{}", Length::from_64ths(8).in_millimetres()), "3.175");
    /// ```
    #[must_use]
    pub const fn in_millimetres(self) -> InMillimetres {
        InMillimetres(self)
    }
}

/// Decimal inches without the unit: at least three decimals, at most five, or as many as the formatter's precision
/// asks for (up to nine). Rounded half away from zero.
///
/// ```
/// use shophead::length::Length;
/// assert_eq!(format!("{}", Length::from_64ths(6)), "0.09375");
/// assert_eq!(format!("{:.3}", Length::from_64ths(6)), "0.094");
/// ```
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_decimal(f, self.nm, NM_PER_INCH, 3, 5)
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.7} in", *self)
    }
}

/// Shows a [`Length`] in millimetres; made by [`Length::in_millimetres`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InMillimetres(Length);

impl fmt::Display for InMillimetres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_decimal(f, self.0.nm, NM_PER_MM, 1, 4)
    }
}

/// A part of a printed length. A kilometre is a million millimetres, and a fraction has nine digits at most, so each fits; printing
/// wider numbers takes two kilobytes of flash and code that can panic as far as a linker can tell.
fn printable(part: u64) -> u32 {
    u32::try_from(part).unwrap_or(u32::MAX)
}

fn write_decimal(f: &mut fmt::Formatter<'_>, nm: i64, unit: i64, least: usize, most: usize) -> fmt::Result {
    const MOST_DIGITS: usize = 9;
    let fixed = f.precision().map(|digits| digits.min(MOST_DIGITS));
    let digits = fixed.unwrap_or(most);
    let scale = (0..digits).fold(1_u64, |scale, _| scale.wrapping_mul(10));
    let (nm, unit, is_negative) = (nm.unsigned_abs(), unit.unsigned_abs(), nm.is_negative());
    let mut whole = nm.checked_div(unit).unwrap_or(0);
    let rest = nm.wrapping_sub(whole.wrapping_mul(unit));
    // Twice less than a unit times at most 10^9 stays inside 64 bits.
    let doubled = rest.wrapping_mul(scale).wrapping_mul(2).wrapping_add(unit);
    let mut fraction = doubled.checked_div(unit.wrapping_mul(2)).unwrap_or(0);
    if fraction >= scale {
        (whole, fraction) = (whole.wrapping_add(1), 0);
    }
    let (whole, mut fraction) = (printable(whole), printable(fraction));
    let mut shown = digits;
    if fixed.is_none() {
        while shown > least && fraction.checked_rem(10) == Some(0) {
            fraction = fraction.checked_div(10).unwrap_or(0);
            shown = shown.saturating_sub(1);
        }
    }
    let sign = if is_negative && (whole, fraction) != (0, 0) { "-" } else { "" };
    write!(f, "{sign}{whole}")?;
    if shown > 0 {
        f.write_str(".")?;
    }
    // Digit by digit: a width that is only known when it runs is one that core::fmt can refuse with a panic.
    let mut place = (0..shown).fold(1_u32, |place, _| place.wrapping_mul(10));
    for _ in 0..shown {
        place = place.checked_div(10).unwrap_or(1);
        let digit = fraction.checked_div(place).and_then(|over| over.checked_rem(10)).unwrap_or(0);
        f.write_char(char::from(b'0'.wrapping_add(digit as u8)))?;
    }
    Ok(())
}

/// As [`str::split_once`], which a compiler that saves space leaves a panic in.
pub(crate) fn split_once(text: &str, is_end: impl Fn(char) -> bool) -> Option<(&str, &str)> {
    let (at, end) = text.char_indices().find(|(_, c)| is_end(*c))?;
    Some((text.get(..at)?, text.get(at.saturating_add(end.len_utf8())..)?))
}

/// A length as the nearest sixty-fourth of an inch; made by [`Length::to_64ths`].
///
/// Prints in lowest terms as the trade writes it: `3/8`, `1-5/16`, `2`. [`SixtyFourths::is_exact`] tells whether that
/// is the length itself or only the nearest fraction to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SixtyFourths {
    count: i64,
    exact: bool,
}

impl SixtyFourths {
    /// How many sixty-fourths.
    #[must_use]
    pub const fn count(self) -> i64 {
        self.count
    }

    /// Whether the length is exactly this fraction.
    #[must_use]
    pub const fn is_exact(self) -> bool {
        self.exact
    }
}

impl fmt::Display for SixtyFourths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let magnitude = self.count.unsigned_abs();
        let (whole, rest) = (magnitude.saturating_div(64), magnitude.checked_rem(64).unwrap_or(0));
        let sign = if self.count < 0 { "-" } else { "" };
        let halvings = rest.trailing_zeros().min(6);
        let (top, bottom) = (printable(rest >> halvings), 64_u32 >> halvings);
        let whole = printable(whole);
        match (whole, rest) {
            (_, 0) => write!(f, "{sign}{whole}"),
            (0, _) => write!(f, "{sign}{top}/{bottom}"),
            _ => write!(f, "{sign}{whole}-{top}/{bottom}"),
        }
    }
}

crate::words::errors! {
    /// Why two lengths are not a least and a greatest, or three not a length with its tolerance.
    LimitsError {
        Swapped = _, "limits-swapped", "The least is more than the greatest.", "the least is more than the greatest: give the smaller one first";
        NegativeTolerance = _, "negative-tolerance", "A tolerance is less than 0.", "a tolerance is less than 0: give both without a sign, as in +.003 -.001";
    }
}

/// A least and a greatest length.
///
/// ```
/// use shophead::length::{Interval, Length, LimitsError};
/// let (small, large) = (Length::parse(".128")?, Length::parse(".132")?);
/// let limits = Interval::new(small, large)?;
/// assert_eq!((limits.min(), limits.max()), (small, large));
/// assert_eq!(Interval::new(large, small), Err(LimitsError::Swapped));
/// // Two measures of one head, in the order in which they were taken.
/// assert_eq!(Interval::of(large, small), limits);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "crate::serial::Interval")
)]
pub struct Interval {
    min: Length,
    max: Length,
}

impl Interval {
    /// From a least to a greatest length.
    ///
    /// # Errors
    /// [`LimitsError::Swapped`].
    pub const fn new(min: Length, max: Length) -> Result<Interval, LimitsError> {
        if min.nm > max.nm { Err(LimitsError::Swapped) } else { Ok(Interval { min, max }) }
    }

    /// From the lesser of two lengths to the greater, in whatever order they come.
    #[must_use]
    pub const fn of(one: Length, other: Length) -> Interval {
        if one.nm > other.nm { Interval { min: other, max: one } } else { Interval { min: one, max: other } }
    }

    /// Both ends the same.
    #[must_use]
    pub const fn exactly(length: Length) -> Interval {
        Interval { min: length, max: length }
    }

    /// The least.
    #[must_use]
    pub const fn min(self) -> Length {
        self.min
    }

    /// The greatest.
    #[must_use]
    pub const fn max(self) -> Length {
        self.max
    }

    /// Whether a length lies inside, ends included.
    #[must_use]
    pub fn contains(self, length: Length) -> bool {
        self.min <= length && length <= self.max
    }
}

/// A nominal length with its own tolerance.
///
/// ```
/// use shophead::length::{Length, Toleranced};
/// let sheet = Toleranced::parse(".032+-.002")?;
/// assert_eq!(sheet.min(), Length::parse(".030")?);
/// assert_eq!(sheet.max(), Length::parse(".034")?);
/// let shank = Toleranced::parse(".125+.003-.001")?;
/// assert_eq!(shank.max(), Length::parse(".128")?);
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "crate::serial::Toleranced")
)]
pub struct Toleranced {
    nominal: Length,
    below: Length,
    above: Length,
}

impl Toleranced {
    /// A length without tolerance.
    #[must_use]
    pub const fn exactly(nominal: Length) -> Toleranced {
        Toleranced { nominal, below: Length::ZERO, above: Length::ZERO }
    }

    /// A nominal length that may be `below` less and `above` more.
    ///
    /// # Errors
    /// [`LimitsError::NegativeTolerance`].
    ///
    /// ```
    /// use shophead::length::{Length, LimitsError, Toleranced};
    /// let (eighth, below, above) = (Length::parse("1/8")?, Length::parse(".001")?, Length::parse(".003")?);
    /// assert_eq!(Toleranced::new(eighth, below, above)?, Toleranced::parse("1/8+.003-.001")?);
    /// assert_eq!(Toleranced::new(eighth, Length::parse("-.001")?, above), Err(LimitsError::NegativeTolerance));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub const fn new(nominal: Length, below: Length, above: Length) -> Result<Toleranced, LimitsError> {
        if below.nm < 0 || above.nm < 0 {
            return Err(LimitsError::NegativeTolerance);
        }
        Ok(Toleranced { nominal, below, above })
    }

    /// Both together; tolerances add up.
    #[must_use]
    pub(crate) const fn plus(self, other: Toleranced) -> Toleranced {
        Toleranced {
            nominal: self.nominal.plus(other.nominal),
            below: self.below.plus(other.below),
            above: self.above.plus(other.above),
        }
    }

    /// The nominal length.
    #[must_use]
    pub const fn nominal(self) -> Length {
        self.nominal
    }

    /// The least length.
    #[must_use]
    pub const fn min(self) -> Length {
        self.nominal.minus(self.below)
    }

    /// The greatest length.
    #[must_use]
    pub const fn max(self) -> Length {
        self.nominal.plus(self.above)
    }

    /// Least and greatest.
    #[must_use]
    pub const fn interval(self) -> Interval {
        Interval { min: self.min(), max: self.max() }
    }

    /// A length from least to greatest, with the least as the nominal one: a hole as drilled, which only gets wider.
    #[must_use]
    pub const fn from_least(interval: Interval) -> Toleranced {
        Toleranced { nominal: interval.min, below: Length::ZERO, above: interval.max.minus(interval.min) }
    }

    /// Reads a length with an optional tolerance: `.032`, `.032+-.002`, `.032+/-.002`, `.032±.002`, `.125+.003-.001`.
    ///
    /// The tolerance is in the unit it names, inches when it names none.
    ///
    /// # Errors
    /// As [`Length::parse`], with the position counted in the whole text.
    pub fn parse(text: &str) -> Result<Toleranced, ParseLengthError> {
        Toleranced::parse_as(text, Bare::Inches)
    }

    /// The same, where a number without a unit is what `bare` says.
    ///
    /// # Errors
    /// As [`Toleranced::parse`].
    pub fn parse_as(text: &str, bare: Bare) -> Result<Toleranced, ParseLengthError> {
        Toleranced::parse_marked(text, bare).map(|(length, _)| length)
    }

    /// Reads how thick a layer is. A decimal without a unit that comes to more than an inch is refused as a slip: `40` for `.040`. A layer
    /// that thick says so: `1.25in`, `1-1/4`, `40mm`.
    ///
    /// # Errors
    /// As [`Toleranced::parse`], and [`LengthErrorKind::ThickForALayer`].
    ///
    /// ```
    /// use shophead::length::{Bare, Toleranced};
    /// assert_eq!(Toleranced::parse_thickness(".040", Bare::Inches), Toleranced::parse(".040"));
    /// let error = Toleranced::parse_thickness("40", Bare::Inches).unwrap_err();
    /// # #[cfg(feature = "words")]
    /// assert_eq!(error.to_string(), "40 in is thick for a layer (character 1); did you mean .040? If it is so thick, write 40in");
    /// assert!(Toleranced::parse_thickness("1.25in", Bare::Inches).is_ok());
    /// ```
    pub fn parse_thickness(text: &str, bare: Bare) -> Result<Toleranced, ParseLengthError> {
        let (thickness, at) = Toleranced::parse_marked(text, bare)?;
        match at {
            Some(at) if thickness.nominal > Length::INCH => {
                Err(ParseLengthError { at, kind: LengthErrorKind::ThickForALayer { read: thickness.nominal, bare } })
            }
            _ => Ok(thickness),
        }
    }

    /// With the place of the nominal length, where that is a decimal without a unit.
    fn parse_marked(text: &str, bare: Bare) -> Result<(Toleranced, Option<usize>), ParseLengthError> {
        #[cfg(target_pointer_width = "64")]
        if let Some(length) = Length::parse_plain(text.as_bytes(), bare) {
            return Ok((Toleranced::exactly(length), Some(1)));
        }
        let sign = text.char_indices().skip(1).find(|&(_, c)| matches!(c, '+' | '±'));
        let Some((start, mark)) = sign else {
            let read = Length::parse_marked(text, bare).map(|(length, at)| (Toleranced::exactly(length), at));
            return read
                .map_err(|error| if is_range(text, bare) { LengthErrorKind::Range.at(error.at) } else { error });
        };
        let (nominal, at) = Length::parse_marked(text.get(..start).unwrap_or(""), bare)?;
        let tail = text.get(start.saturating_add(mark.len_utf8())..).unwrap_or("");
        // `±`, `+-` and `+/-`.
        let both = if mark == '±' { Some(tail) } else { tail.strip_prefix('/').unwrap_or(tail).strip_prefix(is_dash) };
        if let Some(both) = both {
            let both = parse_end(text, both, bare)?;
            return Ok((Toleranced { nominal, below: both, above: both }, at));
        }
        // `+.003-.001`; a mixed number such as 1-1/2 has no place in a tolerance.
        let (above, below) = split_once(tail, is_dash).ok_or_else(|| ParseLengthError {
            at: text.chars().count().saturating_add(1),
            kind: LengthErrorKind::MissingLowerTolerance,
        })?;
        let above_start = text.len().saturating_sub(tail.len());
        let above = parse_at(text, above_start, above, bare)?;
        let below = parse_end(text, below, bare)?;
        Ok((Toleranced { nominal, below, above }, at))
    }
}

/// A hyphen, or what an office program or a drawing puts in its place: a hyphen that does not break, an en dash, a minus sign.
pub(crate) const fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2011}' | '\u{2013}' | '\u{2212}')
}

/// Two lengths with a dash between them.
fn is_range(text: &str, bare: Bare) -> bool {
    let is_length = |text: &str| Length::parse_marked(text.trim(), bare).is_ok();
    split_once(text, is_dash).is_some_and(|(least, greatest)| is_length(least) && is_length(greatest))
}

/// Parses `end`, the last part of `whole`.
fn parse_end(whole: &str, end: &str, bare: Bare) -> Result<Length, ParseLengthError> {
    parse_at(whole, whole.len().saturating_sub(end.len()), end, bare)
}

/// Parses `part`, which starts at byte `start` of `whole`, and counts error positions in `whole`.
fn parse_at(whole: &str, start: usize, part: &str, bare: Bare) -> Result<Length, ParseLengthError> {
    let before = whole.get(..start).map_or(0, |before| before.chars().count());
    match Length::parse_as(part, bare) {
        // A tolerance has the sign that stands before it and no second one.
        Ok(length) if length < Length::ZERO => Err(LengthErrorKind::NoDigits.at(before.saturating_add(1))),
        Ok(length) => Ok(length),
        Err(error) => Err(ParseLengthError { at: error.at.saturating_add(before), kind: error.kind }),
    }
}

/// What a number without a unit is. A fraction is one of an inch whatever this says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Bare {
    /// Inches, as the trade writes them.
    #[default]
    Inches,
    /// Millimetres.
    Millimetres,
}

#[cfg(feature = "words")]
impl Bare {
    const fn word(self) -> &'static str {
        match self {
            Bare::Inches => "in",
            Bare::Millimetres => "mm",
        }
    }
}

/// Why a text is not a length, and at which character (counted from 1).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct ParseLengthError {
    /// The character at which reading stopped, counted from 1.
    pub at: usize,
    /// What was wrong there.
    pub kind: LengthErrorKind,
}

impl ParseLengthError {
    /// This is wrong, so many bytes from the start.
    #[must_use]
    pub const fn new(at: usize, kind: LengthErrorKind) -> ParseLengthError {
        ParseLengthError { at, kind }
    }
}

crate::words::errors! {
    /// What was wrong in a [`ParseLengthError`].
    LengthErrorKind = (20, "not-a-length", "A text is not a length.", "not a length", "right would be .125, 1/8, 1-1/2 or 3.2mm") {
        Empty, "length-missing", "Nothing but spaces.",
            "a length is missing";
        NoDigits, "digit-missing", "No digit where one was expected.",
            "a digit is missing";
        DecimalComma, "decimal-comma", "A comma in a number; a decimal needs a point.",
            "a decimal is written with a point, not a comma";
        UnexpectedCharacter, "not-of-a-length", "A character that belongs to no length.",
            "this does not belong in a length";
        UnknownUnit, "length-unit", "A unit other than `in`, `\"` and `mm`.",
            "the units are in and mm";
        FractionOfMillimetre, "fraction-of-millimetre", "A fraction of a millimetre; fractions are inches only.",
            "millimetres are written as decimals, not fractions";
        ZeroDenominator, "zero-denominator", "A zero below the line.",
            "a fraction cannot have zero below its line";
        FractionNotExact, "fraction-not-exact", "A fraction that is no whole number of nanometres; the trade's fractions go down to 1/64 in.",
            "fractions of an inch go down to 1/64";
        TooLarge, "length-too-large", "Beyond [`Length::MAX`].",
            "this is more than a kilometre";
        MissingLowerTolerance, "lower-tolerance-missing", "`+` tolerance without its `-`.",
            "a +tolerance needs its -tolerance, as in .125+.003-.001";
        Range, "length-range", "A least and a greatest length with a dash between them.",
            "a range is written as its middle and a tolerance", "right would be .033+/-.001";
        PointMissing { number: u32, "The number."; digits: u32, "How many digits it is written with." },
            "point-missing", "A whole number that begins with zero, such as `040`: its point is missing.",
            "the point is missing", "did you mean .{}?" (Padded { number: *number, digits: *digits });
        ThickForALayer { read: Length, "What it reads as."; bare: Bare, "The unit that it is taken in." },
            "thick-for-a-layer", "A decimal without a unit that makes a layer thicker than an inch.",
            "{} is thick for a layer" (Taken(*read, *bare)),
            "{}" (Meant { taken: Taken(*read, *bare), digits: 3, how: "thick" });
        WideForAHole { read: Length, "What it reads as."; bare: Bare, "The unit that it is taken in." },
            "wide-for-a-hole", "A decimal without a unit that makes a hole wider than an inch.",
            "{} is wide for a hole" (Taken(*read, *bare)),
            "{}" (Meant { taken: Taken(*read, *bare), digits: 0, how: "wide" });
    }
}

impl LengthErrorKind {
    const fn at(self, at: usize) -> ParseLengthError {
        ParseLengthError { at, kind: self }
    }
}

crate::words::of_kind!(ParseLengthError, LengthErrorKind);

impl fmt::Display for ParseLengthError {
    #[cfg(feature = "words")]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.kind.write_what(f)?;
        write!(f, " (character {})", self.at)?;
        self.kind.write_right(f)
    }

    #[cfg(not(feature = "words"))]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

/// A number with zeros before it, so many digits in all.
#[cfg(feature = "words")]
struct Padded {
    number: u32,
    digits: u32,
}

#[cfg(feature = "words")]
impl fmt::Display for Padded {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let written = self.number.checked_ilog10().unwrap_or(0).saturating_add(1);
        // Not by the formatter's own width: its code can panic as far as a linker can tell.
        for _ in written..self.digits.min(MOST_DIGITS) {
            f.write_str("0")?;
        }
        write!(f, "{}", self.number)
    }
}

/// A length as it was typed, with the unit that it was taken in: `40 in`.
#[cfg(feature = "words")]
struct Taken(Length, Bare);

#[cfg(feature = "words")]
impl Taken {
    /// So many whole inches or millimetres, where it is as many.
    fn whole(&self) -> Option<u64> {
        let unit = match self.1 {
            Bare::Inches => NM_PER_INCH,
            Bare::Millimetres => NM_PER_MM,
        };
        let whole = self.0.nm.checked_div(unit).filter(|whole| whole.saturating_mul(unit) == self.0.nm)?;
        u64::try_from(whole).ok()
    }

    fn write(&self, f: &mut fmt::Formatter<'_>, blank: &str) -> fmt::Result {
        match (self.whole(), self.1) {
            (Some(whole), _) => write!(f, "{whole}"),
            (None, Bare::Inches) => write!(f, "{}", self.0),
            (None, Bare::Millimetres) => write!(f, "{}", self.0.in_millimetres()),
        }?;
        write!(f, "{blank}{}", self.1.word())
    }
}

#[cfg(feature = "words")]
impl fmt::Display for Taken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, " ")
    }
}

/// `did you mean .040? If it is so thick, write 40in`; the question only for a whole number of inches.
#[cfg(feature = "words")]
struct Meant {
    taken: Taken,
    /// The whole number is so many thousandths; 0 where its digits are the decimals as they are.
    digits: u32,
    how: &'static str,
}

#[cfg(feature = "words")]
impl fmt::Display for Meant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        /// The thickest whole number that is said in thousandths, `999`.
        const MOST_THOUSANDTHS: u32 = 999;
        let whole = self.taken.whole().filter(|_| self.taken.1 == Bare::Inches);
        let whole = whole.and_then(|whole| u32::try_from(whole).ok());
        let begin = match whole.filter(|whole| self.digits == 0 || *whole <= MOST_THOUSANDTHS) {
            Some(number) => {
                write!(f, "did you mean .{}? ", Padded { number, digits: self.digits })?;
                "If"
            }
            None => "if",
        };
        write!(f, "{begin} it is so {}, write ", self.how)?;
        self.taken.write(f, "")
    }
}

impl core::error::Error for ParseLengthError {}

impl core::str::FromStr for Length {
    type Err = ParseLengthError;
    fn from_str(text: &str) -> Result<Length, ParseLengthError> {
        Length::parse(text)
    }
}

impl Length {
    /// Reads a length as the trade writes it.
    ///
    /// | text | is |
    /// |---|---|
    /// | `.125`, `0.125`, `0.125in`, `0.125 in`, `0.125"` | an eighth of an inch |
    /// | `1/8`, `1/8 in` | the same |
    /// | `1-1/2`, `1 1/2` | one and a half inches |
    /// | `3.175mm`, `3.175 mm` | 3.175 millimetres |
    /// | `-0.5` | half an inch the other way, for coordinates |
    ///
    /// An en dash or a minus sign does for the hyphen. Decimals finer than a nanometre are rounded to the nearest one. Fractions must be
    /// exact.
    ///
    /// # Errors
    /// [`ParseLengthError`] says what was wrong at which character.
    ///
    /// ```
    /// use shophead::length::{Length, LengthErrorKind};
    /// let error = Length::parse("0,125").unwrap_err();
    /// assert_eq!((error.at, error.kind), (2, LengthErrorKind::DecimalComma));
    /// let error = Length::parse("040").unwrap_err();
    /// # #[cfg(feature = "words")]
    /// assert_eq!(error.to_string(), "the point is missing (character 1); did you mean .040?");
    /// ```
    pub fn parse(text: &str) -> Result<Length, ParseLengthError> {
        Length::parse_as(text, Bare::Inches)
    }

    /// The same, where a number without a unit is what `bare` says.
    ///
    /// # Errors
    /// As [`Length::parse`].
    ///
    /// ```
    /// use shophead::length::{Bare, Length};
    /// let bar = Length::parse_as("25.4", Bare::Millimetres)?;
    /// assert_eq!(bar, Length::parse("1")?);
    /// assert_eq!(Length::parse_as("1/8", Bare::Millimetres)?, Length::parse(".125in")?);
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    pub fn parse_as(text: &str, bare: Bare) -> Result<Length, ParseLengthError> {
        Length::parse_marked(text, bare).map(|(length, _)| length)
    }

    /// Reads how wide a hole is. A decimal without a unit that comes to more than an inch is refused as a slip: `161` for `.161`. A hole that
    /// wide says so: `1.25in`, `1-1/4`, `40mm`.
    ///
    /// # Errors
    /// As [`Length::parse`], and [`LengthErrorKind::WideForAHole`].
    ///
    /// ```
    /// use shophead::length::{Bare, Length};
    /// assert_eq!(Length::parse_hole(".161", Bare::Inches), Length::parse(".161"));
    /// let error = Length::parse_hole("161", Bare::Inches).unwrap_err();
    /// # #[cfg(feature = "words")]
    /// assert_eq!(error.to_string(), "161 in is wide for a hole (character 1); did you mean .161? If it is so wide, write 161in");
    /// assert!(Length::parse_hole("1.25in", Bare::Inches).is_ok());
    /// ```
    pub fn parse_hole(text: &str, bare: Bare) -> Result<Length, ParseLengthError> {
        match Length::parse_marked(text, bare)? {
            (read, Some(at)) if read > Length::INCH => {
                Err(ParseLengthError { at, kind: LengthErrorKind::WideForAHole { read, bare } })
            }
            (length, _) => Ok(length),
        }
    }

    /// A short decimal without sign, blank or unit, as most cells of a long file are: `.0325`, `1.25`. `None` for everything else.
    #[cfg(target_pointer_width = "64")]
    fn parse_plain(text: &[u8], bare: Bare) -> Option<Length> {
        /// With it every place is a whole number of nanometres, and every product is far inside 64 bits.
        const LONGEST: usize = 8;
        /// Nanometres in the last place of so many.
        const PLACES: [(i64, i64); 5] =
            [(2_540_000, 100_000), (254_000, 10_000), (25_400, 1_000), (2_540, 100), (254, 10)];
        if text.len() > LONGEST {
            return None;
        }
        let (mut digits, mut point) = (0_i64, None);
        for (at, byte) in text.iter().enumerate() {
            match byte.wrapping_sub(b'0') {
                digit @ 0..10 => digits = digits.wrapping_mul(10).wrapping_add(i64::from(digit)),
                _ if *byte == b'.' && point.is_none() => point = Some(at),
                _ => return None,
            }
        }
        let places = text.len().wrapping_sub(point?).wrapping_sub(2);
        let (inch, millimetre) = PLACES.get(places)?;
        let unit = if bare == Bare::Inches { inch } else { millimetre };
        let read = Length { nm: digits.wrapping_mul(*unit) };
        (read <= Length::MAX).then_some(read)
    }

    /// With the place of the number, where it is a decimal without a unit.
    fn parse_marked(text: &str, bare: Bare) -> Result<(Length, Option<usize>), ParseLengthError> {
        #[cfg(target_pointer_width = "64")]
        if let Some(length) = Length::parse_plain(text.as_bytes(), bare) {
            return Ok((length, Some(1)));
        }
        let mut scan = Scan { rest: text, at: 1 };
        scan.spaces();
        if scan.rest.is_empty() {
            return Err(scan.error(LengthErrorKind::Empty));
        }
        let negative = scan.dash();
        let start = scan.at;
        let number = scan.decimal()?;
        let mut fraction = None;
        if number.places == 0 {
            if scan.take('/') {
                // The number read was the top of a plain fraction.
                fraction = Some((0, number.digits, scan.whole()?));
            } else {
                let mark = scan;
                let joined = scan.dash() || {
                    scan.spaces();
                    scan.starts_with_digit()
                };
                if joined {
                    let top = scan.whole()?;
                    if scan.take('/') {
                        fraction = Some((number.digits, top, scan.whole()?));
                    } else {
                        return Err(scan.error(LengthErrorKind::UnexpectedCharacter));
                    }
                } else {
                    scan = mark;
                }
            }
        }
        scan.spaces();
        let unit_at = scan.at;
        let word = scan.word();
        let is_bare = word.is_empty() && !scan.take('"');
        let (word, unit) = match (word, bare) {
            ("", Bare::Millimetres) if is_bare && fraction.is_none() => ("mm", NM_PER_MM),
            ("" | "in", _) => ("in", NM_PER_INCH),
            ("mm", _) => ("mm", NM_PER_MM),
            _ => return Err(ParseLengthError { at: unit_at, kind: LengthErrorKind::UnknownUnit }),
        };
        scan.spaces();
        match scan.rest.chars().next() {
            None => {}
            Some(',') => return Err(scan.error(LengthErrorKind::DecimalComma)),
            Some(_) => return Err(scan.error(LengthErrorKind::UnexpectedCharacter)),
        }
        if let Some((number, digits)) = number.without_point()
            && is_bare
            && fraction.is_none()
        {
            return Err(ParseLengthError { at: start, kind: LengthErrorKind::PointMissing { number, digits } });
        }
        let too_large = ParseLengthError { at: start, kind: LengthErrorKind::TooLarge };
        let unit = i128::from(unit);
        let nm = match fraction {
            None => {
                // Twice the most digits in a unit of inches is far below 2^127.
                let scale = (0..number.places).fold(1, |scale, _| product(scale, 10));
                quotient(product(product(number.digits, unit), 2).wrapping_add(scale), product(scale, 2))
            }
            Some((whole, top, bottom)) => {
                if word == "mm" {
                    return Err(ParseLengthError { at: unit_at, kind: LengthErrorKind::FractionOfMillimetre });
                }
                if bottom == 0 {
                    return Err(ParseLengthError { at: start, kind: LengthErrorKind::ZeroDenominator });
                }
                let tops = product_within(whole, bottom).and_then(|tops| tops.checked_add(top));
                let scaled = tops.and_then(|tops| product_within(tops, unit)).ok_or(too_large)?;
                let nm = quotient(scaled, bottom);
                if product(nm, bottom) != scaled {
                    return Err(ParseLengthError { at: start, kind: LengthErrorKind::FractionNotExact });
                }
                nm
            }
        };
        let nm = i64::try_from(nm).map_err(|_| too_large)?;
        let signed = if negative { nm.saturating_neg() } else { nm };
        let length = Length::from_nanometres(signed).ok_or(too_large)?;
        Ok((length, (is_bare && fraction.is_none()).then_some(start)))
    }
}

/// Whether this is a letter, or may be one: nothing outside ASCII belongs in a length or a drill, and the tables that tell which of it is a
/// letter take two kilobytes of flash.
pub(crate) const fn is_letter(c: char) -> bool {
    c.is_ascii_alphabetic() || !c.is_ascii()
}

/// A place in the text, with the character count an error message needs.
#[derive(Clone, Copy)]
struct Scan<'a> {
    rest: &'a str,
    at: usize,
}

/// A decimal as written: all digits as one number, and how many of them follow the point.
#[derive(Clone, Copy)]
struct Decimal {
    digits: i128,
    places: u32,
    /// How many digits a whole number is written with that begins with zero.
    after_zero: u32,
}

impl Decimal {
    /// A whole number that begins with zero, and how many digits it has.
    fn without_point(self) -> Option<(u32, u32)> {
        u32::try_from(self.digits).ok().filter(|_| self.after_zero > 1).map(|number| (number, self.after_zero))
    }
}

/// More digits than this cannot make a length within a kilometre more exact.
const MOST_DIGITS: u32 = 24;

impl<'a> Scan<'a> {
    const fn error(&self, kind: LengthErrorKind) -> ParseLengthError {
        ParseLengthError { at: self.at, kind }
    }

    fn advance(&mut self, c: char) {
        self.rest = self.rest.get(c.len_utf8()..).unwrap_or("");
        self.at = self.at.saturating_add(1);
    }

    fn take(&mut self, wanted: char) -> bool {
        let found = self.rest.starts_with(wanted);
        if found {
            self.advance(wanted);
        }
        found
    }

    /// Takes a hyphen or what stands for one.
    fn dash(&mut self) -> bool {
        let found = self.rest.chars().next().filter(|c| is_dash(*c));
        if let Some(c) = found {
            self.advance(c);
        }
        found.is_some()
    }

    fn spaces(&mut self) {
        while self.take(' ') || self.take('\t') {}
    }

    fn starts_with_digit(&self) -> bool {
        self.rest.starts_with(|c: char| c.is_ascii_digit())
    }

    fn digit(&mut self) -> Option<i128> {
        let c = self.rest.chars().next()?;
        let digit = c.to_digit(10)?;
        self.advance(c);
        Some(i128::from(digit))
    }

    fn word(&mut self) -> &'a str {
        let end = self.rest.find(|c: char| !is_letter(c)).unwrap_or(self.rest.len());
        let word = self.rest.get(..end).unwrap_or("");
        for c in word.chars() {
            self.advance(c);
        }
        word
    }

    fn whole(&mut self) -> Result<i128, ParseLengthError> {
        let number = self.decimal()?;
        if number.places > 0 { Err(self.error(LengthErrorKind::UnexpectedCharacter)) } else { Ok(number.digits) }
    }

    fn decimal(&mut self) -> Result<Decimal, ParseLengthError> {
        let start = *self;
        let begins_with_zero = self.rest.starts_with('0');
        let mut number = Decimal { digits: 0, places: 0, after_zero: 0 };
        let mut count = 0_u32;
        let mut after_point = false;
        loop {
            if let Some(digit) = self.digit() {
                count = count.saturating_add(1);
                if number.digits == 0 && !after_point || count <= MOST_DIGITS {
                    // At most MOST_DIGITS of them.
                    number.digits = product(number.digits, 10).wrapping_add(digit);
                    number.places = number.places.saturating_add(u32::from(after_point));
                } else if !after_point {
                    return Err(start.error(LengthErrorKind::TooLarge));
                }
            } else if !after_point && self.take('.') {
                after_point = true;
            } else {
                break;
            }
        }
        if count == 0 {
            let kind = match self.rest.chars().next() {
                Some(c) if c.is_ascii_alphanumeric() || c == '.' || c == '/' => LengthErrorKind::NoDigits,
                None => LengthErrorKind::NoDigits,
                Some(',') => LengthErrorKind::DecimalComma,
                Some(_) => LengthErrorKind::UnexpectedCharacter,
            };
            return Err(self.error(kind));
        }
        if begins_with_zero && !after_point {
            number.after_zero = count;
        }
        Ok(number)
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::format;

    #[test]
    fn a_root_is_the_standard_librarys() {
        for power in 0..128 {
            for near in [-2_i128, -1, 0, 1, 2] {
                let square = (1_u128 << power).wrapping_add_signed(near);
                assert_eq!(whole_root(square), square.isqrt(), "{square}");
                let square = square.isqrt().pow(2);
                assert_eq!(whole_root(square), square.isqrt(), "{square}");
            }
        }
    }

    #[test]
    fn a_multiple_is_rounded_to_the_nearest_nanometre() {
        let sizes = [0, 1, 2, 3_175_000, i64::from(u32::MAX), i64::from(u32::MAX) + 1, Length::MAX.nm];
        let parts = [0, 1, 2, 3, 66, 100, 1 << 31, u32::MAX - 1, u32::MAX];
        for nm in sizes.into_iter().chain(sizes.map(|size| -size)) {
            for (num, den) in parts.into_iter().flat_map(|num| parts.map(|den| (num, den))) {
                let (exact, den_or_one) = (i128::from(nm) * i128::from(num), i128::from(den.max(1)));
                let size = (exact.abs() + den_or_one / 2) / den_or_one;
                let rounded = (size * exact.signum()).clamp(Length::MIN.nm.into(), Length::MAX.nm.into());
                assert_eq!(i128::from(Length { nm }.times(num, den).nm), rounded, "{nm} * {num} / {den}");
            }
        }
    }

    #[test]
    fn a_quotient_is_the_standard_librarys() {
        let edges = [0, 1, 2, 3, 10, 25_400_000, i128::from(i64::MAX), 1 << 63, (1 << 64) + 7, 1 << 100, i128::MAX];
        for dividend in edges.into_iter().chain(edges.map(|edge| -edge)).chain([i128::from(i64::MIN)]) {
            for divisor in edges.into_iter().chain(edges.map(|edge| -edge)).chain([i128::from(i64::MIN)]) {
                let whole = dividend.checked_div(divisor).unwrap_or(0);
                assert_eq!(quotient(dividend, divisor), whole, "{dividend} / {divisor}");
                // As a small target divides, whatever this one does.
                let wide = wide_quotient(dividend.unsigned_abs(), divisor.unsigned_abs());
                assert_eq!(wide, whole.unsigned_abs(), "{dividend} / {divisor}");
            }
        }
    }

    fn nm(text: &str) -> i64 {
        Length::parse(text).unwrap_or_else(|error| panic!("{text}: {error}")).nanometres()
    }

    fn error(text: &str) -> (usize, LengthErrorKind) {
        let error = Length::parse(text).expect_err(text);
        (error.at, error.kind)
    }

    #[test]
    fn reads_what_the_trade_writes() {
        for (text, expected) in [
            (".125", 3_175_000),
            ("0.125in", 3_175_000),
            ("0.125 in", 3_175_000),
            ("0.125\"", 3_175_000),
            ("1/8", 3_175_000),
            ("1-1/2", 38_100_000),
            ("1 1/2", 38_100_000),
            ("1 1/2 in", 38_100_000),
            ("3.2mm", 3_200_000),
            ("3.2 mm", 3_200_000),
            ("1/64", 396_875),
            ("0.015625", 396_875),
            ("-0.5", -12_700_000),
            ("2.", 50_800_000),
            (" 1 ", 25_400_000),
            ("0.0000000000000000000000000001", 0),
        ] {
            assert_eq!(nm(text), expected, "{text}");
        }
    }

    #[test]
    fn says_what_is_wrong_where() {
        for (text, at, kind) in [
            ("", 1, LengthErrorKind::Empty),
            ("  ", 3, LengthErrorKind::Empty),
            (".", 2, LengthErrorKind::NoDigits),
            ("abc", 1, LengthErrorKind::NoDigits),
            ("0,125", 2, LengthErrorKind::DecimalComma),
            (",125", 1, LengthErrorKind::DecimalComma),
            ("1.2.3", 4, LengthErrorKind::UnexpectedCharacter),
            ("1/0", 1, LengthErrorKind::ZeroDenominator),
            ("1/3", 1, LengthErrorKind::FractionNotExact),
            ("1/128", 1, LengthErrorKind::FractionNotExact),
            ("1/2mm", 4, LengthErrorKind::FractionOfMillimetre),
            ("3 cm", 3, LengthErrorKind::UnknownUnit),
            ("1/", 3, LengthErrorKind::NoDigits),
            ("1-2", 4, LengthErrorKind::UnexpectedCharacter),
            ("40000", 1, LengthErrorKind::TooLarge),
            ("99990.9", 1, LengthErrorKind::TooLarge),
            ("99999999999999999999999999999999999", 1, LengthErrorKind::TooLarge),
            ("½", 1, LengthErrorKind::UnexpectedCharacter),
            (".125 in x", 9, LengthErrorKind::UnexpectedCharacter),
        ] {
            assert_eq!(error(text), (at, kind), "{text:?}");
        }
    }

    #[test]
    fn a_tolerance_counts_characters_in_the_whole_text() {
        assert_eq!(Toleranced::parse(".032+-.0o2").unwrap_err().at, 9);
        assert_eq!(
            Toleranced::parse(".032±,002").unwrap_err(),
            ParseLengthError { at: 6, kind: LengthErrorKind::DecimalComma }
        );
        assert_eq!(Toleranced::parse(".125+.003").unwrap_err().kind, LengthErrorKind::MissingLowerTolerance);
        for range in [".032-.034", ".032\u{2013}.034", "0.8 mm - 0.9 mm"] {
            assert_eq!(Toleranced::parse(range).unwrap_err().kind, LengthErrorKind::Range, "{range}");
        }
        assert_eq!(Toleranced::parse(".032-x").unwrap_err().kind, LengthErrorKind::UnexpectedCharacter);
        assert_eq!(Toleranced::parse("1-1/2+-1/64").map(Toleranced::max), Length::parse("1.515625"));
    }

    #[test]
    fn prints_decimals_and_fractions() {
        for (text, decimal, fraction, mm) in [
            ("1/8", "0.125", "1/8", "3.175"),
            ("0.1285", "0.1285", "1/8", "3.2639"),
            ("1-5/16", "1.3125", "1-5/16", "33.3375"),
            ("2", "2.000", "2", "50.8"),
            ("-0.0625", "-0.0625", "-1/16", "-1.5875"),
            ("0", "0.000", "0", "0.0"),
        ] {
            let length = Length::parse(text).expect(text);
            assert_eq!(format!("{length}"), decimal);
            assert_eq!(format!("{}", length.to_64ths()), fraction);
            assert_eq!(format!("{}", length.in_millimetres()), mm);
        }
        assert_eq!(format!("{:.0}", Length::INCH), "1");
        assert_eq!(format!("{:.2}", Length::from_ten_thousandths(9_999)), "1.00");
    }

    #[test]
    fn rounding_is_exact_at_the_boundary() {
        let step = Length::SIXTEENTH;
        let quarter = Length::from_64ths(16);
        let over = Length { nm: quarter.nm + 1 };
        let under = Length { nm: quarter.nm - 1 };
        assert_eq!((quarter.ceil_to(step), quarter.floor_to(step)), (quarter, quarter));
        assert_eq!(over.ceil_to(step), Length::from_64ths(20));
        assert_eq!(under.ceil_to(step), quarter);
        assert_eq!(Length::from_64ths(18).round_to(step), Length::from_64ths(20));
        assert_eq!(Length::from_64ths(17).round_to(step), quarter);
        assert_eq!(Length::from_64ths(-1).floor_to(step), Length::from_64ths(-4));
        assert_eq!(over.ceil_to(Length::ZERO), over);
    }

    #[test]
    fn leaving_the_range_is_an_error() {
        assert_eq!(Length::MAX.checked_add(Length { nm: 1 }), None);
        assert_eq!(Length::MIN.checked_sub(Length { nm: 1 }), None);
        assert_eq!(Length::INCH.checked_mul(i64::MAX), None);
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN, 39_371.0] {
            assert_eq!(Length::try_from_inches_f64(bad), None, "{bad}");
        }
        assert_eq!(Length::try_from_inches_f64(0.1285), Some(Length::from_ten_thousandths(1285)));
    }
}
