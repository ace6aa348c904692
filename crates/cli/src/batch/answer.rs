//! The cells of an answer, written straight into the row that goes out.
//!
//! A [`Record`](crate::report::Record) keeps every cell and every column's name as a string of its own: that is a third of the time a
//! row takes. Here a cell is bytes behind a comma; a test holds them against the record's.

use std::fmt::{self, Display, Write};

use shophead::finding::Severity;
use shophead::length::Length;
use shophead::quantity::Force;
use shophead::words::Units;

use super::text::push_cell;
use crate::cells::{Cells, Codes};

/// Takes cells, each with a comma in front.
pub(super) struct AnswerCells<'o> {
    out: &'o mut Vec<u8>,
    /// For the cells that have to be looked at before they go out.
    scratch: &'o mut String,
    units: Units,
}

impl<'o> AnswerCells<'o> {
    pub(super) fn new(out: &'o mut Vec<u8>, scratch: &'o mut String, units: Units) -> AnswerCells<'o> {
        AnswerCells { out, scratch, units }
    }

    /// The last cells of an answer.
    pub(super) fn tell(&mut self, codes: &Codes) {
        self.optional("severity", codes.worst.map(Severity::as_str));
        self.out.push(b',');
        for (index, code) in codes.codes.iter().enumerate() {
            if index > 0 {
                self.out.push(b' ');
            }
            self.out.extend_from_slice(code.as_str().as_bytes());
        }
    }
}

impl Cells for AnswerCells<'_> {
    fn optional(&mut self, _: &'static str, cell: Option<impl Display>) -> &mut Self {
        self.out.push(b',');
        if let Some(cell) = cell {
            self.scratch.clear();
            // A string takes whatever is written.
            let _ = write!(self.scratch, "{cell}");
            push_cell(self.out, self.scratch.as_bytes());
        }
        self
    }

    fn length(&mut self, _: &'static str, cell: impl Into<Option<Length>>) -> &mut Self {
        self.out.push(b',');
        if let Some(length) = cell.into() {
            bare_length(self.out, length, self.units);
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
            let _ = write!(Bytes(self.out), "{figure:.3}");
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

/// What [`exact`](crate::report::exact) prints. A row has a dozen lengths, and the formatter takes ten times as long for each.
fn bare_length(out: &mut Vec<u8>, length: Length, units: Units) {
    match units {
        Units::Inches => decimal::<25_400_000, 3, 5>(out, length),
        Units::Millimetres => decimal::<1_000_000, 1, 4>(out, length),
    }
}

/// In units of so many nanometres, with at least and at most so many places. The compiler knows every divisor.
fn decimal<const UNIT: u64, const LEAST: u32, const MOST: u32>(out: &mut Vec<u8>, length: Length) {
    let scale = const { 10_u64.pow(MOST) };
    let nanometres = length.nanometres();
    // A kilometre is 10^12 nm: with five places behind it and twice that there is still room in 64 bits.
    let scaled = (nanometres.unsigned_abs() * scale * 2 + UNIT) / (UNIT * 2);
    if nanometres < 0 && scaled != 0 {
        out.push(b'-');
    }
    // A kilometre is a million millimetres.
    let (mut whole, mut fraction) = ((scaled / scale) as u32, (scaled % scale) as u32);
    // From the last digit to the first.
    let mut digits = [b'0'; 16];
    let mut at = digits.len();
    let mut places = MOST;
    while places > LEAST && fraction % 10 == 0 {
        fraction /= 10;
        places -= 1;
    }
    for _ in 0..places {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::exact;
    use proptest::prelude::*;
    use shophead::finding::Code;

    fn written(length: Length, units: Units) -> String {
        let mut out = Vec::new();
        bare_length(&mut out, length, units);
        String::from_utf8(out).expect("digits")
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
        AnswerCells::new(&mut out, &mut String::new(), Units::Inches).text("part", "a,b").tell(&codes);
        assert_eq!(String::from_utf8(out).as_deref(), Ok(",\"a,b\",refer,no-limit pitch-long"));
    }

    proptest! {
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
