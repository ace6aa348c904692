//! Reading a part number, and finding what a wrong one may have meant.
//!
//! Every refusal keeps the changes of text that may mend it. What is offered is only what then reads as a part number.

use core::fmt;
use core::ops::Range;

use super::{ParsePartError, Part, PartErrorKind, PartLengthError, Written, bare_finish_is_barred, check_length};
use crate::length::Length;
use crate::rivet::other::NotRead;
use crate::rivet::{CATALOGUE, HalfMark, MaterialLetter, NumberForm, Series, Size};

impl core::str::FromStr for Part<'static> {
    type Err = ParsePartError<'static>;
    fn from_str(text: &str) -> Result<Part<'static>, ParsePartError<'static>> {
        Part::parse(text)
    }
}

impl Part<'static> {
    /// Reads a part number of the built-in series. Lower case and spaces around it are accepted.
    ///
    /// # Errors
    /// [`ParsePartError`] with what is wrong, where, and the nearest valid numbers.
    ///
    /// ```
    /// use shophead::rivet::part::Part;
    /// let error = Part::parse("AN470AD-4-5").unwrap_err();
    /// # #[cfg(feature = "words")]
    /// assert_eq!(
    ///     error.to_string(),
    ///     "no dash belongs between the material and the diameter (character 8); \
    ///      right would be AN470AD4-5 (now MS20470AD4-5)"
    /// );
    /// ```
    pub fn parse(text: &str) -> Result<Part<'static>, ParsePartError<'static>> {
        Part::parse_in(text, CATALOGUE)
    }
}

impl<'a> Part<'a> {
    /// Reads a part number of these series; where a name stands in two of them the first counts.
    ///
    /// # Errors
    /// As [`Part::parse`].
    pub fn parse_in(text: &str, catalogue: &[&'a Series<'a>]) -> Result<Part<'a>, ParsePartError<'a>> {
        let mut edits = Edits::new();
        let mut error = match read(text, catalogue, &mut edits) {
            Ok(part) => return Ok(part),
            Err(error) => error,
        };
        let mut offers = edits.iter().filter_map(|edit| mend(text, edit, catalogue));
        let first = offers.next();
        let second = offers.find(|offer| Some(offer) != first.as_ref());
        error.nearest = [first, second];
        Err(error)
    }
}

/// Room for a part number. A longer text is read too, but no other is offered for it.
type Text = heapless::String<48>;

/// A change that might make a text a part number: these bytes replaced.
struct Edit {
    bytes: Range<usize>,
    with: Text,
}

#[derive(Default)]
struct Edits(heapless::Vec<Edit, 2>);

impl Edits {
    fn new() -> Edits {
        Edits::default()
    }

    fn iter(&self) -> core::slice::Iter<'_, Edit> {
        self.0.iter()
    }

    /// Keeps a change, unless there are two already or it is too long.
    fn add(&mut self, bytes: Range<usize>, with: fmt::Arguments<'_>) {
        let mut text = Text::new();
        if fmt::write(&mut text, with).is_ok() {
            let _ = self.0.push(Edit { bytes, with: text });
        }
    }
}

impl Edit {
    fn applied(&self, text: &str) -> Option<Text> {
        let mut changed = Text::new();
        for piece in [text.get(..self.bytes.start)?, self.with.as_str(), text.get(self.bytes.end..)?] {
            changed.push_str(piece).ok()?;
        }
        Some(changed)
    }
}

/// The number that a change leads to, if need be with one or two more.
fn mend<'a>(text: &str, edit: &Edit, catalogue: &[&'a Series<'a>]) -> Option<Part<'a>> {
    const MORE: usize = 2;
    let mut changed = edit.applied(text)?;
    for _ in 0..=MORE {
        let mut edits = Edits::new();
        match read(&changed, catalogue, &mut edits) {
            Ok(part) => return Some(part),
            Err(_) => changed = edits.iter().next()?.applied(&changed)?,
        }
    }
    None
}

/// A place in the text, with the character count an error message needs.
#[derive(Clone, Copy)]
struct Scan<'t> {
    whole: &'t str,
    rest: &'t str,
    byte: usize,
    at: usize,
}

/// A part of the text.
#[derive(Clone, Copy)]
struct Piece<'t> {
    text: &'t str,
    start: usize,
    at: usize,
}

impl Piece<'_> {
    fn bytes(&self) -> Range<usize> {
        self.start..self.start.saturating_add(self.text.len())
    }

    fn error<'a>(&self, kind: PartErrorKind<'a>) -> ParsePartError<'a> {
        ParsePartError { at: self.at, kind, nearest: [None; 2] }
    }

    /// The number, or one that is no part of any number.
    fn number(&self) -> u16 {
        self.text.parse().unwrap_or(u16::MAX)
    }

    /// Without its leading zeros, where it has any.
    fn without_zeros(&self) -> Option<&str> {
        let stripped = self.text.trim_start_matches('0');
        let stripped = if stripped.is_empty() { "0" } else { stripped };
        (stripped.len() < self.text.len()).then_some(stripped)
    }
}

impl<'t> Scan<'t> {
    fn peek(&self) -> Option<char> {
        self.rest.chars().next()
    }

    fn piece(&self, len: usize) -> Piece<'t> {
        Piece { text: self.rest.get(..len).unwrap_or(""), start: self.byte, at: self.at }
    }

    fn advance(&mut self, piece: Piece<'t>) {
        self.rest = self.rest.get(piece.text.len()..).unwrap_or("");
        self.byte = piece.bytes().end;
        self.at = self.at.saturating_add(piece.text.chars().count());
    }

    /// The characters up to the first one that does not belong.
    fn run(&mut self, belongs: impl Fn(char) -> bool) -> Piece<'t> {
        let piece = self.piece(self.rest.find(|c| !belongs(c)).unwrap_or(self.rest.len()));
        self.advance(piece);
        piece
    }

    fn letters(&mut self) -> Piece<'t> {
        self.run(|c| c.is_ascii_alphabetic())
    }

    fn digits(&mut self) -> Piece<'t> {
        self.run(|c| c.is_ascii_digit())
    }

    fn take(&mut self, wanted: char) -> bool {
        let found = self.rest.starts_with(wanted);
        if found {
            self.advance(self.piece(wanted.len_utf8()));
        }
        found
    }

    /// The next character.
    fn here(&self) -> Piece<'t> {
        self.piece(self.peek().map_or(0, char::len_utf8))
    }

    /// From here to a later place.
    fn up_to(&self, later: &Scan<'t>) -> Piece<'t> {
        self.piece(later.byte.saturating_sub(self.byte))
    }

    /// Whether leaving out the next character would run two numbers into one.
    fn parts_digits(&self) -> bool {
        let before = self.whole.get(..self.byte).and_then(|before| before.chars().next_back());
        let after = self.rest.chars().nth(1);
        [before, after].iter().all(|c| c.is_some_and(|c| c.is_ascii_digit()))
    }

    /// The error for a character that has no place here, or for a text that ends too soon.
    fn unexpected<'a>(&self, edits: &mut Edits, at_end: PartErrorKind<'a>) -> ParsePartError<'a> {
        let Some(c) = self.peek() else { return self.here().error(at_end) };
        match c {
            // Dashes that word processors put for the plain one.
            '\u{2010}'..='\u{2015}' | '\u{2212}' => edits.add(self.here().bytes(), format_args!("-")),
            ',' => edits.add(self.here().bytes(), format_args!(".")),
            c if (c == '-' || c.is_whitespace()) && !self.parts_digits() => {
                edits.add(self.here().bytes(), format_args!(""));
            }
            _ => {}
        }
        self.here().error(PartErrorKind::UnexpectedCharacter(c))
    }
}

/// Reads a number; on an error keeps the changes that may mend it.
fn read<'a>(text: &str, catalogue: &[&'a Series<'a>], edits: &mut Edits) -> Result<Part<'a>, ParsePartError<'a>> {
    let mut scan = Scan { whole: text, rest: text.trim_end(), byte: 0, at: 1 };
    scan.run(char::is_whitespace);
    if scan.rest.is_empty() {
        return Err(scan.here().error(PartErrorKind::Empty));
    }
    let start = scan.byte;
    let (series, superseded) = read_series(&mut scan, catalogue, edits)?;
    let named = Named { start, series, catalogue };
    let (material, size) = match series.form {
        NumberForm::MaterialFirst => read_material_first(&mut scan, named, edits)?,
        NumberForm::DiameterFirst => read_diameter_first(&mut scan, named, edits)?,
    };
    let lower_case = text.contains(|c: char| c.is_ascii_lowercase());
    let written = Written { superseded, lower_case, other_half: false };
    let family = Part { series, material, size, finish: None, length: None, written };
    if scan.rest.is_empty() {
        return Ok(family);
    }
    if series.form == NumberForm::MaterialFirst || material.code.is_empty() {
        read_dash(&mut scan, edits)?;
    }
    read_length(&mut scan, family, edits)
}

/// The series, and which of its superseded names was written.
fn read_series<'a>(
    scan: &mut Scan<'_>,
    catalogue: &[&'a Series<'a>],
    edits: &mut Edits,
) -> Result<(&'a Series<'a>, Option<u8>), ParsePartError<'a>> {
    let mut found: Option<(&'a Series<'a>, usize, Option<u8>)> = None;
    for &series in catalogue {
        let current = [series.name].into_iter().chain(series.also.iter().copied()).map(|name| (name, None));
        let older = (0..=u8::MAX).zip(series.supersedes).map(|(index, name)| (*name, Some(index)));
        for (name, superseded) in current.chain(older) {
            let Some((start, rest)) = scan.rest.split_at_checked(name.len()) else { continue };
            // MS2047 is no name for the start of MS20470.
            let ends_here = !rest.starts_with(|c: char| c.is_ascii_digit());
            if !name.is_empty()
                && start.eq_ignore_ascii_case(name)
                && ends_here
                && found.is_none_or(|(_, len, _)| name.len() > len)
            {
                found = Some((series, name.len(), superseded));
            }
        }
    }
    if let Some((series, len, superseded)) = found {
        scan.advance(scan.piece(len));
        return Ok((series, superseded));
    }
    let start = *scan;
    let letters = scan.letters();
    let digits = scan.digits();
    if letters.text.is_empty() && digits.text.is_empty() {
        return Err(scan.unexpected(edits, PartErrorKind::Empty));
    }
    // `4-5` and `AD4-5`: what follows a series, without the series.
    let is_material = catalogue.iter().any(|series| series.material(letters.text).is_some());
    if letters.text.is_empty() || is_material && (1..=2).contains(&digits.text.len()) {
        return Err(letters.error(PartErrorKind::SeriesMissing));
    }
    if digits.text.is_empty() && scan.peek().is_some_and(|c| c == '-' || c.is_whitespace()) {
        // `MS 20470` and `MS-20470`.
        edits.add(scan.here().bytes(), format_args!(""));
        return Err(letters.error(PartErrorKind::SeriesUnknown { nearest: None }));
    }
    let len = letters.text.len().saturating_add(digits.text.len());
    let token = start.piece(len);
    if let Some(other) = NotRead::named(token.text) {
        return Err(token.error(PartErrorKind::SeriesNotRead(other)));
    }
    let distances = || {
        let names = catalogue
            .iter()
            .flat_map(|series| [series.name].into_iter().chain(series.also.iter().chain(series.supersedes).copied()));
        // Another number of the same length is another standard, and a slip is not told from it: AN426 is flush, AN456 is not.
        let is_slip = |name: &&str| !is_another_number(token.text, name);
        names.filter(is_slip).filter_map(|name| Some((distance(token.text, name)?, name)))
    };
    // Up to a third of the name may be wrong: more is another name.
    let least = distances().map(|(distance, _)| distance).min().filter(|least| least.saturating_mul(3) <= len);
    let mut nearest = None;
    for (_, name) in distances().filter(|(distance, _)| Some(*distance) == least) {
        nearest = nearest.or(Some(name));
        edits.add(token.bytes(), format_args!("{name}"));
    }
    Err(token.error(PartErrorKind::SeriesUnknown { nearest }))
}

/// Whether a name has as many digits as a series, but not the same ones.
fn is_another_number(name: &str, series: &str) -> bool {
    let number = |text: &str| text.trim_start_matches(|c: char| !c.is_ascii_digit()).len();
    let (one, other) = (number(name), number(series));
    one == other && !name.bytes().rev().zip(series.bytes().rev()).take(one).all(|(one, other)| one == other)
}

/// How many characters must be changed, put in or left out; `None` for a name too long to compare.
fn distance(one: &str, other: &str) -> Option<usize> {
    const LONGEST: usize = 16;
    if one.len() > LONGEST {
        return None;
    }
    let mut row = heapless::Vec::<usize, LONGEST>::new();
    for count in 1..=other.len() {
        row.push(count).ok()?;
    }
    let mut last = other.len();
    for (index, c) in one.bytes().enumerate() {
        let (mut diagonal, mut left) = (index, index.saturating_add(1));
        for (cell, d) in row.iter_mut().zip(other.bytes()) {
            let above = *cell;
            let changed = diagonal.saturating_add(usize::from(!c.eq_ignore_ascii_case(&d)));
            *cell = changed.min(above.saturating_add(1)).min(left.saturating_add(1));
            (diagonal, left) = (above, *cell);
        }
        last = left;
    }
    Some(last)
}

/// The series that was named, where its name starts, and the catalogue it was found in.
#[derive(Clone, Copy)]
struct Named<'a, 'c> {
    start: usize,
    series: &'a Series<'a>,
    catalogue: &'c [&'a Series<'a>],
}

impl<'a> Named<'a, '_> {
    /// Offers the number under another name or in another order. Its diameter and length are still to be read.
    fn offer(&self, scan: &Scan<'_>, series: &Series<'_>, code: &str, edits: &mut Edits) {
        let mut ahead = *scan;
        let diameter = ahead.digits().text;
        if diameter.is_empty() {
            return;
        }
        let name = series.name;
        let dash = if ahead.take('-') { "-" } else { "" };
        let bytes = self.start..ahead.byte;
        match series.form {
            NumberForm::MaterialFirst => edits.add(bytes, format_args!("{name}{code}{diameter}{dash}")),
            NumberForm::DiameterFirst => edits.add(bytes, format_args!("{name}-{diameter}{code}")),
        }
    }

    /// The error for letters before the diameter that are no material of the series: perhaps they are one of a sister series.
    fn unknown_material(&self, scan: &Scan<'_>, letters: Piece<'_>, edits: &mut Edits) -> ParsePartError<'a> {
        let series = self.series;
        let sister = self
            .catalogue
            .iter()
            .copied()
            .filter(|other| other.head == series.head && other.oversize == series.oversize);
        let found = sister.filter_map(|other| Some((other, other.material(letters.text)?))).next();
        let Some((other, material)) = found else {
            return letters.error(PartErrorKind::MaterialUnknown(series));
        };
        self.offer(scan, other, material.code, edits);
        letters.error(PartErrorKind::MaterialOfOther { series, other })
    }
}

type MaterialAndSize<'a> = (&'a MaterialLetter<'a>, &'a Size);

/// `AD4`, or `-4` where the material has no letter.
fn read_material_first<'a>(
    scan: &mut Scan<'_>,
    named: Named<'a, '_>,
    edits: &mut Edits,
) -> Result<MaterialAndSize<'a>, ParsePartError<'a>> {
    let series = named.series;
    let letters = scan.letters();
    let material = if letters.text.is_empty() {
        let dash = scan.here();
        match series.material("") {
            Some(material) if scan.take('-') => material,
            Some(_) if scan.peek().is_none() => return Err(dash.error(PartErrorKind::DiameterMissing)),
            _ => {
                let beyond = scan.rest.strip_prefix(|c: char| c == '-' || c.is_whitespace());
                return Err(match beyond {
                    // `MS20470-AD4-5`
                    Some(beyond) if beyond.starts_with(|c: char| c.is_ascii_alphabetic()) => {
                        scan.unexpected(edits, PartErrorKind::MaterialMissing(series))
                    }
                    _ => dash.error(PartErrorKind::MaterialMissing(series)),
                });
            }
        }
    } else {
        match series.material(letters.text) {
            Some(material) => material,
            None => return Err(named.unknown_material(scan, letters, edits)),
        }
    };
    let size = read_diameter(scan, series, edits)?;
    Ok((material, size))
}

/// `-4M`, or `-4` where the material has no letter.
fn read_diameter_first<'a>(
    scan: &mut Scan<'_>,
    named: Named<'a, '_>,
    edits: &mut Edits,
) -> Result<MaterialAndSize<'a>, ParsePartError<'a>> {
    let series = named.series;
    let before = scan.letters();
    if !before.text.is_empty() {
        let Some(material) = series.material(before.text) else {
            return Err(named.unknown_material(scan, before, edits));
        };
        named.offer(scan, series, material.code, edits);
        return Err(before.error(PartErrorKind::MaterialAfterDiameter(series)));
    }
    if !scan.take('-') {
        return Err(scan.unexpected(edits, PartErrorKind::DiameterMissing));
    }
    let size = read_diameter(scan, series, edits)?;
    let letters = scan.letters();
    match series.material(letters.text) {
        Some(material) => Ok((material, size)),
        None if letters.text.is_empty() => Err(letters.error(PartErrorKind::MaterialMissing(series))),
        None => Err(letters.error(PartErrorKind::MaterialUnknown(series))),
    }
}

fn read_diameter<'a>(
    scan: &mut Scan<'_>,
    series: &'a Series<'a>,
    edits: &mut Edits,
) -> Result<&'a Size, ParsePartError<'a>> {
    // A wrong digit is near one that is at most this far from it.
    const NEAR: u16 = 4;
    let before = *scan;
    if scan.take('-') && scan.peek().is_some_and(|c| c.is_ascii_digit()) {
        edits.add(before.here().bytes(), format_args!(""));
        return Err(before.here().error(PartErrorKind::DashBeforeDiameter));
    }
    *scan = before;
    let digits = scan.digits();
    if digits.text.is_empty() {
        return Err(match scan.peek() {
            Some(c) if c.is_ascii_alphabetic() => digits.error(PartErrorKind::DiameterMissing),
            _ => scan.unexpected(edits, PartErrorKind::DiameterMissing),
        });
    }
    if let Some(stripped) = digits.without_zeros() {
        edits.add(digits.bytes(), format_args!("{stripped}"));
        return Err(digits.error(PartErrorKind::LeadingZero));
    }
    let point = *scan;
    if scan.take('.') && !scan.digits().text.is_empty() {
        let decimal = point.up_to(scan);
        edits.add(decimal.bytes(), format_args!(""));
        return Err(digits.error(PartErrorKind::DiameterNotWhole));
    }
    *scan = point;
    let number = digits.number();
    if let Some(size) = u8::try_from(number).ok().and_then(|dash| series.size(dash)) {
        return Ok(size);
    }
    let shank = i16::try_from(number).ok().map(Length::from_64ths);
    if let Some(size) = series
        .sizes
        .iter()
        .find(|size| Some(size.shank_nominal) == shank && size.shank_nominal != size.standard_diameter())
    {
        edits.add(digits.bytes(), format_args!("{}", size.dash));
        return Err(digits.error(PartErrorKind::DiameterIsShank(series)));
    }
    let near = |size: &&Size| number.abs_diff(u16::from(size.dash)) <= NEAR;
    let below = series.sizes.iter().rev().find(|size| u16::from(size.dash) < number).filter(near);
    let above = series.sizes.iter().find(|size| u16::from(size.dash) > number).filter(near);
    for size in [below, above].into_iter().flatten() {
        edits.add(digits.bytes(), format_args!("{}", size.dash));
    }
    Err(digits.error(PartErrorKind::DiameterUnknown(series)))
}

/// The dash before the length.
fn read_dash<'a>(scan: &mut Scan<'_>, edits: &mut Edits) -> Result<(), ParsePartError<'a>> {
    if scan.take('-') {
        return Ok(());
    }
    let mut ahead = *scan;
    let gap = ahead.run(char::is_whitespace);
    if !gap.text.is_empty() && ahead.peek().is_some_and(|c| c.is_ascii_digit()) {
        edits.add(gap.bytes(), format_args!("-"));
        return Err(gap.error(PartErrorKind::DashMissing));
    }
    Err(scan.unexpected(edits, PartErrorKind::DashMissing))
}

/// The length with its half and finish: the end of the number.
fn read_length<'a>(scan: &mut Scan<'_>, family: Part<'a>, edits: &mut Edits) -> Result<Part<'a>, ParsePartError<'a>> {
    let series = family.series;
    let start = *scan;
    let digits = scan.digits();
    if digits.text.is_empty() {
        return Err(match scan.peek() {
            Some('.') => {
                edits.add(digits.bytes(), format_args!("0"));
                digits.error(PartErrorKind::LengthMissing)
            }
            _ => scan.unexpected(edits, PartErrorKind::LengthMissing),
        });
    }
    if let Some(stripped) = digits.without_zeros() {
        edits.add(digits.bytes(), format_args!("{stripped}"));
        return Err(digits.error(PartErrorKind::LeadingZero));
    }
    let whole = digits.number();
    let mut half = read_point_five(scan, digits, edits)?.then_some(HalfMark::Point);

    let letters = scan.letters();
    let finish = match letters.text.chars().next() {
        None => None,
        Some(_) if series.finishes.is_empty() => {
            return Err(letters.error(PartErrorKind::LetterAfterLength(series)));
        }
        Some(letter) => {
            if let Some(second) = letters.text.chars().nth(1) {
                edits.add(letters.bytes(), format_args!("{letter}"));
                edits.add(letters.bytes(), format_args!("{second}"));
                return Err(letters.error(PartErrorKind::FinishTwice));
            }
            let finish = series.finish(Some(letter));
            Some(finish.ok_or_else(|| letters.error(PartErrorKind::FinishUnknown(series)))?)
        }
    };

    // `6A5` or `6-5`.
    let mark = *scan;
    let dashed = finish.is_none() && scan.take('-');
    let five = scan.digits();
    let with_dash = mark.up_to(scan);
    match five.text {
        "" if dashed => return Err(scan.unexpected(edits, PartErrorKind::LengthMissing)),
        "" => {}
        "5" if half.is_some() => {
            edits.add(with_dash.bytes(), format_args!(""));
            return Err(with_dash.error(PartErrorKind::HalfTwice));
        }
        "5" => half = Some(HalfMark::Five),
        _ => {
            edits.add(with_dash.bytes(), format_args!(""));
            return Err(five.error(PartErrorKind::NotTheHalfMark));
        }
    }
    let late = scan.letters();
    if !late.text.is_empty() {
        if series.finishes.is_empty() {
            return Err(late.error(PartErrorKind::LetterAfterLength(series)));
        }
        if finish.is_some() {
            return Err(late.error(PartErrorKind::FinishTwice));
        }
        edits.add(mark.up_to(scan).bytes(), format_args!("{}5", late.text));
        return Err(late.error(PartErrorKind::FinishAfterHalf));
    }
    if !scan.rest.is_empty() {
        return Err(scan.unexpected(edits, PartErrorKind::LengthMissing));
    }

    // Each of these shows the length without the mark of its half.
    let number = start.piece(start.rest.len());
    let count = i64::from(whole).saturating_mul(2).saturating_add(i64::from(half.is_some()));
    let length = check_length(series, family.size, count).map_err(|error| {
        match error {
            PartLengthError::NoHalfLengths => {
                edits.add(number.bytes(), format_args!("{whole}"));
                edits.add(number.bytes(), format_args!("{}", whole.saturating_add(1)));
            }
            PartLengthError::ShorterThanHead { head } => {
                let least = head.floor_to(Length::SIXTEENTH).plus(Length::SIXTEENTH).to_64ths().count();
                edits.add(number.bytes(), format_args!("{}", least.saturating_div(4)));
            }
            _ => {}
        }
        digits.error(PartErrorKind::Length(error))
    })?;
    let barred = finish.or(series.finish(None)).filter(|finish| !finish.alloys.contains(&family.alloy()));
    if let Some(barred) = barred.filter(|_| finish.is_some() || bare_finish_is_barred(series, family.alloy())) {
        let place = if finish.is_some() { letters } else { mark.piece(0) };
        for allowed in series.finishes.iter().filter(|finish| finish.alloys.contains(&family.alloy())) {
            if let Some(letter) = allowed.letter {
                match half {
                    Some(HalfMark::Five) if finish.is_none() => edits.add(with_dash.bytes(), format_args!("{letter}5")),
                    _ => edits.add(place.bytes(), format_args!("{letter}")),
                }
            }
        }
        if !series.finishes.iter().any(|finish| finish.alloys.contains(&family.alloy())) {
            // `6A5` without its letter is `6-5`.
            let instead = if five.text.is_empty() { "" } else { "-" };
            edits.add(letters.bytes(), format_args!("{instead}"));
        }
        return Err(place.error(PartErrorKind::FinishBarred { finish: barred }));
    }
    let other_half = half.is_some() && half != series.half_lengths;
    let written = Written { other_half, ..family.written };
    Ok(Part { finish, length: Some(length), written, ..family })
}

/// Reads `.5`, and tells whether it was there.
fn read_point_five<'a>(scan: &mut Scan<'_>, whole: Piece<'_>, edits: &mut Edits) -> Result<bool, ParsePartError<'a>> {
    let point = *scan;
    if !scan.take('.') {
        return Ok(false);
    }
    let decimals = scan.digits().text;
    if decimals == "5" {
        return Ok(true);
    }
    let decimal = point.piece(decimals.len().saturating_add(1));
    // Texts of digits behind the point compare as the numbers do.
    let significant = decimals.trim_end_matches('0');
    if significant < "5" {
        edits.add(decimal.bytes(), format_args!(""));
    }
    if !significant.is_empty() {
        edits.add(decimal.bytes(), format_args!(".5"));
    }
    if significant > "5" {
        let next = whole.number().saturating_add(1);
        edits.add(whole.start..decimal.bytes().end, format_args!("{next}"));
    }
    Err(decimal.error(PartErrorKind::NotAHalf))
}
