//! The cells of an answer, written straight into the row that goes out.
//!
//! A [`Record`](crate::report::Record) keeps every cell and every column's name as a string of its own: that is a third of the time a
//! row takes. Here a cell is bytes behind a comma; a test holds them against the record's.

use std::fmt::{self, Display, Write};

use shophead::finding::Severity;
use shophead::length::Length;
use shophead::quantity::Force;
use shophead::rivet::part::{MAX_SIXTEENTHS, Part};
use shophead::words::Units;

use super::text::{push_cell, push_in_quotes};
use crate::cells::{Cells, Codes, ten_thousandths};
use crate::render::csv::harmless;

/// Takes cells, each with a comma in front.
pub(crate) struct AnswerCells<'o> {
    out: &'o mut Vec<u8>,
    kept: &'o mut Kept,
    units: Units,
}

/// What is kept from row to row.
#[derive(Default)]
pub(crate) struct Kept {
    /// For the cells that have to be looked at before they go out.
    scratch: String,
    /// The families whose part numbers were written.
    families: Vec<Family>,
}

/// The part numbers of one family. Writing one takes ten times as long as copying it, and a row has half a dozen.
struct Family {
    /// Where its series and its letters stand in the catalogue, and its dash number.
    key: (usize, usize, u8),
    /// By the length in thirty-seconds.
    numbers: Vec<Option<Box<[u8]>>>,
}

impl Family {
    /// Thirty-seconds of an inch in the longest length of a part number.
    const LENGTHS: usize = MAX_SIXTEENTHS as usize * 2 + 1;

    fn key(part: &Part<'_>) -> (usize, usize, u8) {
        let (series, material) = (std::ptr::from_ref(part.series()), std::ptr::from_ref(part.material()));
        (series.addr(), material.addr(), part.size().dash)
    }

    /// The number in one length; nothing where it does not come in it.
    fn number(&mut self, family: &Part<'_>, length: Length) -> &[u8] {
        let thirty_seconds = usize::try_from(length.nanometres() / Length::THIRTY_SECOND.nanometres());
        let Some(number) = thirty_seconds.ok().and_then(|at| self.numbers.get_mut(at)) else { return b"" };
        number.get_or_insert_with(|| {
            let part = family.with_length(length);
            part.map_or_else(|_| Box::default(), |part| part.to_string().into_bytes().into_boxed_slice())
        })
    }
}

impl<'o> AnswerCells<'o> {
    pub(crate) fn new(out: &'o mut Vec<u8>, kept: &'o mut Kept, units: Units) -> AnswerCells<'o> {
        AnswerCells { out, kept, units }
    }

    /// The last cells of an answer.
    pub(crate) fn tell(&mut self, codes: &Codes) {
        self.words("severity", codes.worst.map(Severity::as_str));
        self.words("findings", codes.codes.iter().map(|code| code.as_str()));
    }
}

impl Cells for AnswerCells<'_> {
    fn optional(&mut self, _: &'static str, cell: Option<impl Display>) -> &mut Self {
        self.out.push(b',');
        if let Some(cell) = cell {
            self.kept.scratch.clear();
            // A string takes whatever is written.
            let _ = write!(self.kept.scratch, "{cell}");
            push_cell(self.out, self.kept.scratch.as_bytes());
        }
        self
    }

    fn words(&mut self, _: &'static str, words: impl IntoIterator<Item = &'static str>) -> &mut Self {
        self.out.push(b',');
        for (index, word) in words.into_iter().enumerate() {
            if index > 0 {
                self.out.push(b' ');
            }
            self.out.extend_from_slice(word.as_bytes());
        }
        self
    }

    fn written(&mut self, _: &'static str, cell: &str) -> &mut Self {
        self.out.push(b',');
        push_in_quotes(self.out, harmless(cell).as_bytes());
        self
    }

    fn length(&mut self, _: &'static str, cell: impl Into<Option<Length>>) -> &mut Self {
        match cell.into() {
            Some(length) => bare_length(self.out, length, self.units),
            None => self.out.push(b','),
        }
        self
    }

    fn parts<'p>(&mut self, _: &'static str, parts: impl IntoIterator<Item = Part<'p>>) -> &mut Self {
        self.out.push(b',');
        for (index, part) in parts.into_iter().enumerate() {
            if index > 0 {
                self.out.push(b' ');
            }
            // Letters, figures, points and hyphens: no cell of them needs quotes or is a formula, and memory takes them.
            let _ = part.write_to(&mut Bytes(self.out));
        }
        self
    }

    fn parts_in(
        &mut self,
        column: &'static str,
        family: Part<'_>,
        lengths: impl IntoIterator<Item = Length>,
    ) -> &mut Self {
        if family.has_finish_letter() {
            return self.parts(column, lengths.into_iter().filter_map(|length| family.with_length(length).ok()));
        }
        let (key, families) = (Family::key(&family), &mut self.kept.families);
        let at = families.iter().position(|known| known.key == key).unwrap_or_else(|| {
            families.push(Family { key, numbers: vec![None; Family::LENGTHS] });
            families.len() - 1
        });
        let known = &mut families[at];
        self.out.push(b',');
        let mut is_first = true;
        for length in lengths {
            let number = known.number(&family, length);
            if !number.is_empty() {
                if !is_first {
                    self.out.push(b' ');
                }
                self.out.extend_from_slice(number);
                is_first = false;
            }
        }
        self
    }

    fn force(&mut self, _: &'static str, cell: impl Into<Option<Force>>) -> &mut Self {
        self.out.push(b',');
        if let Some(force) = cell.into() {
            let figure = match self.units {
                Units::Inches => force.lbf(),
                Units::Millimetres => force.newtons(),
            };
            three_places(self.out, figure);
        }
        self
    }

    fn ratio(&mut self, _: &'static str, cell: Option<f64>) -> &mut Self {
        self.out.push(b',');
        if let Some(ratio) = cell {
            let count = ten_thousandths(ratio);
            if count.abs() < MOST_PLAIN {
                if count < 0.0 {
                    self.out.push(b'-');
                }
                places::<4>(self.out, count.abs() as u64);
            } else {
                let _ = write!(Bytes(self.out), "{:.4}", count / 10_000.0);
            }
        }
        self
    }
}

struct Bytes<'o>(&'o mut Vec<u8>);

impl Write for Bytes<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.0.extend_from_slice(text.as_bytes());
        Ok(())
    }
}

/// Thousandths up to here are whole numbers that a figure of 64 bits holds.
const MOST_PLAIN: f64 = 9e15;

/// What `{:.3}` prints, which takes ten times as long: it has to be right for every number that there is.
fn three_places(out: &mut Vec<u8>, figure: f64) {
    const FRACTION: u64 = (1 << (f64::MANTISSA_DIGITS - 1)) - 1;
    const BIAS: u64 = 1_075;
    let bits = figure.to_bits();
    let (exponent, fraction) = (bits << 1 >> f64::MANTISSA_DIGITS, bits & FRACTION);
    // A positive number is (2^52 + fraction) / 2^shift. A thousand times that fits in 64 bits.
    let shift = BIAS.wrapping_sub(exponent);
    if figure > 0.0 && (1..u64::from(u64::BITS)).contains(&shift) {
        let thousandths = (fraction | (FRACTION + 1)) * 1_000;
        let (whole, rest, half) = (thousandths >> shift, thousandths & ((1 << shift) - 1), 1 << (shift - 1));
        // Midway the formatter decides.
        if rest != half {
            return in_thousandths(out, whole + u64::from(rest > half));
        }
    }
    let _ = write!(Bytes(out), "{figure:.3}");
}

/// Thousandths, as a number with three places: below a thousand, as nearly all forces are, in one step.
fn in_thousandths(out: &mut Vec<u8>, count: u64) {
    let (whole, fraction) = (count / 1_000, count % 1_000);
    let Some(before) = usize::try_from(whole).ok().and_then(|whole| FIGURES.get(whole)) else {
        return places::<3>(out, count);
    };
    // Zeros in front are left out, but for the last figure before the point.
    let zeros = u32::from(whole < 100) + u32::from(whole < 10);
    let (before, behind) = (u64::from(*before & 0xff_ffff), u64::from(FIGURES[fraction as usize] & 0xff_ffff));
    let figures = before | u64::from(b'.') << 24 | behind << 32;
    out.extend_from_slice(&(figures >> (8 * zeros)).to_le_bytes());
    out.truncate(out.len() - 1 - zeros as usize);
}

/// A number of units in the last of so many places.
fn places<const PLACES: u32>(out: &mut Vec<u8>, count: u64) {
    let scale = const { 10_u64.pow(PLACES) };
    let (mut whole, mut fraction) = (count / scale, count % scale);
    let mut digits = [b'0'; 24];
    let mut at = digits.len();
    for _ in 0..PLACES {
        at -= 1;
        digits[at] = b'0' + (fraction % 10) as u8;
        fraction /= 10;
    }
    at -= 1;
    digits[at] = b'.';
    loop {
        at -= 1;
        digits[at] = b'0' + (whole % 10) as u8;
        whole /= 10;
        if whole == 0 {
            break;
        }
    }
    out.extend_from_slice(&digits[at..]);
}

/// What [`exact`](crate::report::exact) prints, a comma in front. A row has a dozen lengths, and the formatter takes ten times as long for
/// each.
#[inline]
fn bare_length(out: &mut Vec<u8>, length: Length, units: Units) {
    match units {
        Units::Inches => inches(out, length),
        Units::Millimetres => decimal::<1_000_000, 1, 4>(out, length),
    }
}

/// The three figures of every number below a thousand, the first in the lowest byte; in the highest, how many of the last two are zeros at the
/// end.
static FIGURES: [u32; 1_000] = {
    let mut figures = [0; 1_000];
    let mut number = 0;
    while number < 1_000 {
        let [first, second, third] = [number / 100, number / 10 % 10, number % 10];
        let zeros = if third > 0 {
            0
        } else if second > 0 {
            1
        } else {
            2
        };
        figures[number] = u32::from_le_bytes([b'0' + first as u8, b'0' + second as u8, b'0' + third as u8, zeros]);
        number += 1;
    }
    figures
};

/// Of less than ten inches, as nearly all are, in one step: three places, or five without the zeros behind them.
#[inline]
fn inches(out: &mut Vec<u8>, length: Length) {
    const INCH: u64 = 25_400_000;
    const PLACES: u64 = 100_000;
    let nanometres = length.nanometres();
    if !(0..9 * INCH as i64).contains(&nanometres) {
        return decimal::<INCH, 3, 5>(out, length);
    }
    let scaled = (nanometres.unsigned_abs() * PLACES * 2 + INCH) / (INCH * 2);
    let (high, low) = (u64::from(FIGURES[(scaled / 1_000) as usize]), u64::from(FIGURES[(scaled % 1_000) as usize]));
    // A comma, the whole inch, a point, and five places: of the first three figures one and two.
    let bare = u64::from_le_bytes([b',', 0, b'.', 0, 0, 0, 0, 0]);
    let cell = bare | (high & 0xff) << 8 | (high & 0xff_ff00) << 16 | (low & 0xff_ffff) << 40;
    out.extend_from_slice(&cell.to_le_bytes());
    out.truncate(out.len() - (low >> 24) as usize);
}

/// In units of so many nanometres, with at least and at most so many places. The compiler knows every divisor.
fn decimal<const UNIT: u64, const LEAST: u32, const MOST: u32>(out: &mut Vec<u8>, length: Length) {
    out.push(b',');
    let scale = const { 10_u64.pow(MOST) };
    let nanometres = length.nanometres();
    // A kilometre is 10^12 nm: with five places behind it and twice that there is still room in 64 bits.
    let scaled = (nanometres.unsigned_abs() * scale * 2 + UNIT) / (UNIT * 2);
    if nanometres < 0 && scaled != 0 {
        out.push(b'-');
    }
    let mut trailing = 0;
    let mut fraction = scaled % scale;
    while trailing < MOST - LEAST && fraction.is_multiple_of(10) {
        fraction /= 10;
        trailing += 1;
    }
    places::<MOST>(out, scaled);
    out.truncate(out.len() - trailing as usize);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::exact;
    use proptest::prelude::*;
    use shophead::finding::Code;

    fn written(length: Length, units: Units) -> String {
        let mut out = Vec::new();
        bare_length(&mut out, length, units);
        String::from_utf8(out).expect("digits").strip_prefix(',').expect("a comma in front").to_owned()
    }

    #[test]
    fn the_ends_of_the_range_and_nothing_are_printed_as_everywhere() {
        let ten_thousandth = Length::parse(".0001").expect("a length");
        for length in [Length::ZERO, Length::MAX, Length::MIN, Length::INCH, Length::SIXTEENTH, ten_thousandth] {
            for units in [Units::Inches, Units::Millimetres] {
                assert_eq!(written(length, units), exact(length, units));
            }
        }
    }

    #[test]
    fn a_row_tells_each_code_once_and_the_most_serious() {
        let mut out = Vec::new();
        let codes = Codes { worst: Some(Severity::Refer), codes: vec![Code::NoLimit, Code::PitchLong] };
        AnswerCells::new(&mut out, &mut Kept::default(), Units::Inches).text("part", "a,b").tell(&codes);
        assert_eq!(String::from_utf8(out).as_deref(), Ok(",\"a,b\",refer,no-limit pitch-long"));
    }

    #[test]
    fn a_margin_of_four_places_never_looks_better_than_it_is() {
        for (ratio, printed) in [
            (0.0, ",0.0000"),
            (-0.0, ",0.0000"),
            (-0.098_392_509, ",-0.0984"),
            (-1e-9, ",-0.0001"),
            (0.123_99, ",0.1239"),
            (12.5, ",12.5000"),
        ] {
            let mut out = Vec::new();
            AnswerCells::new(&mut out, &mut Kept::default(), Units::Inches).ratio("margin", Some(ratio));
            assert_eq!(String::from_utf8(out).as_deref(), Ok(printed));
            let mut record = crate::report::Record::new(Units::Inches);
            record.ratio("margin", Some(ratio));
            assert_eq!(record.cells(), [&printed[1..]]);
        }
    }

    proptest! {
        /// Whole bits, so that every exponent comes up, and figures as forces have them.
        #[test]
        fn a_force_is_printed_as_everywhere(bits in any::<u64>(), eighths in 0_u32..1_000_000, force in 0.0..1e6_f64) {
            let small = [force / 1e3, force / 1e4, force / 1e6, f64::from(eighths % 1_000) / 16.0];
            for figure in [f64::from_bits(bits), f64::from(eighths) / 16.0, force, -force].into_iter().chain(small) {
                let mut out = Vec::new();
                three_places(&mut out, figure);
                prop_assert_eq!(String::from_utf8(out), Ok(format!("{figure:.3}")));
            }
        }

        #[test]
        fn a_length_is_printed_as_everywhere(nanometres in -2_000_000_000_i64..2_000_000_000, far in any::<i64>()) {
            let far = far % Length::MAX.nanometres();
            for nanometres in [nanometres, far] {
                let length = Length::from_nanometres(nanometres).expect("in range");
                for units in [Units::Inches, Units::Millimetres] {
                    prop_assert_eq!(written(length, units), exact(length, units));
                }
            }
        }
    }
}
