//! Reading what was typed.
//!
//! Every mistake is told in one sentence: which option, which item of a list, at which character, and what would be right.
//!
//! `bare` is what a number without a unit is: inches and pounds, or after `--units mm` millimetres and newtons.

use std::cell::RefCell;
use std::fmt::Display;
use std::str::FromStr;

use shophead::drill::parse_hole_as;
use shophead::layout::Point;
use shophead::length::{Bare, Length, ParseLengthError, Toleranced};
use shophead::material::Material;
use shophead::practice::Practice;
use shophead::quantity::{Force, Stress};
use shophead::rivet::other::NotRead;
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Series, Size};
use shophead::stack::{Layer, Stack};

use crate::args::RivetArgs;
use shophead_job::read::{GroupPoint, MAX_COUNT, MAX_SPARES_PERCENT, read_layer};

use crate::exit::Stop;

/// What was read of the texts before: a file has a few rivets and materials and thousands of cells that name them. What it spares: benches/ratios.md.
struct Known<K, T>(Vec<(K, T)>);

impl<K, T: Copy> Known<K, T> {
    /// More than a file names; from then on it starts anew.
    const MOST: usize = 64;

    fn read<E>(
        &mut self,
        is_it: impl Fn(&K) -> bool,
        key: impl FnOnce() -> K,
        read: impl FnOnce() -> Result<T, E>,
    ) -> Result<T, E> {
        if let Some((_, known)) = self.0.iter().find(|(key, _)| is_it(key)) {
            return Ok(*known);
        }
        let new = read()?;
        if self.0.len() >= Known::<K, T>::MOST {
            self.0.clear();
        }
        self.0.push((key(), new));
        Ok(new)
    }
}

impl<T: Copy> Known<String, T> {
    fn known_text(&self, text: &str) -> Option<T> {
        self.0.iter().find(|(known, _)| known == text).map(|(_, known)| *known)
    }

    fn read_text<E>(&mut self, text: &str, read: impl FnOnce(&str) -> Result<T, E>) -> Result<T, E> {
        self.read(|known| known == text, || text.to_owned(), || read(text))
    }
}

thread_local! {
    static PARTS: RefCell<Known<String, Part<'static>>> = const { RefCell::new(Known(Vec::new())) };
    static MATERIALS: RefCell<Known<String, Material>> = const { RefCell::new(Known(Vec::new())) };
    static RIVETS: RefCell<Known<(RivetArgs, Bare), Part<'static>>> = const { RefCell::new(Known(Vec::new())) };
}

/// What was typed, as it is repeated in a message: quoted, control characters escaped, cut where it is long.
fn quoted(text: &str) -> String {
    const LONGEST: usize = 40;
    let text = text.trim();
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{:?}...", text.get(..end).unwrap_or("")),
        None => format!("{text:?}"),
    }
}

/// What is wrong with an option.
pub(crate) fn wrong(option: &str, text: &str, what: impl Display) -> Stop {
    Stop::wrong(format!("{option} {}: {what}", quoted(text)))
}

/// Without blanks around it. Of a text that begins and ends with a letter or a figure that is seen without taking letters apart.
pub(crate) fn trimmed(text: &str) -> &str {
    match text.as_bytes() {
        [first, .., last] if first.is_ascii_graphic() && last.is_ascii_graphic() => text,
        _ => text.trim(),
    }
}

/// A length above zero.
pub(crate) fn length(option: &str, text: &str, bare: Bare) -> Result<Length, Stop> {
    let length = Length::parse_as(trimmed(text), bare).map_err(|error| wrong(option, text, error))?;
    if length > Length::ZERO {
        Ok(length)
    } else {
        Err(wrong(option, text, "this must be above zero; right would be .125, 1/8 or 3.2mm"))
    }
}

/// A length that may be left out.
pub(crate) fn optional_length(option: &str, text: Option<&str>, bare: Bare) -> Result<Option<Length>, Stop> {
    text.map(|text| length(option, text, bare)).transpose()
}

/// A length above zero with an optional tolerance.
pub(crate) fn toleranced(option: &str, text: &str, bare: Bare) -> Result<Toleranced, Stop> {
    let length = Toleranced::parse_as(trimmed(text), bare).map_err(|error| wrong(option, text, error))?;
    if length.min() > Length::ZERO {
        Ok(length)
    } else {
        Err(wrong(
            option,
            text,
            "this must be above zero, also at the lower end of its tolerance; right would be .157+-.007",
        ))
    }
}

/// A hole: a drill, or a diameter with an optional tolerance.
pub(crate) fn hole(option: &str, text: &str, bare: Bare) -> Result<Toleranced, Stop> {
    if has_tolerance(text) {
        return toleranced(option, text, bare);
    }
    parse_hole_as(trimmed(text), bare).map(Toleranced::exactly).map_err(|error| wrong(option, text, error))
}

/// The diameter of a hole.
pub(crate) fn hole_diameter(option: &str, text: &str, bare: Bare) -> Result<Length, Stop> {
    parse_hole_as(trimmed(text), bare).map_err(|error| wrong(option, text, error))
}

/// A force above zero.
pub(crate) fn force(option: &str, text: &str, bare: Bare) -> Result<Force, Stop> {
    let force = Force::parse_as(text, bare).map_err(|error| wrong(option, text, error))?;
    if force > Force::ZERO {
        Ok(force)
    } else {
        Err(wrong(option, text, "a load must be above zero; right would be 250 or 1100N"))
    }
}

/// Two forces in a plane, perhaps negative: `0,-1500`.
pub(crate) fn force_pair(option: &str, text: &str, bare: Bare) -> Result<(Force, Force), Stop> {
    let (x, y) = pair(option, text, "0,-1500")?;
    let force = |part: &str| Force::parse_as(part, bare).map_err(|error| wrong(option, part, error));
    Ok((force(x)?, force(y)?))
}

/// A moment in inch-pounds: `250`, `28Nm`. A bare number is inch-pounds, or newton metres where bare numbers are metric.
pub(crate) fn moment(option: &str, text: &str, bare: Bare) -> Result<f64, Stop> {
    const RIGHT: &str = "this is no moment; right would be 250 or 28Nm";
    let letters: String = text.chars().filter(|letter| !letter.is_whitespace() && *letter != '-').collect();
    let unit = letters.trim_start_matches(|letter: char| letter.is_ascii_digit() || letter == '.' || letter == '+');
    let metric = match unit.to_ascii_lowercase().as_str() {
        "" => bare == Bare::Millimetres,
        "nm" => true,
        "inlbf" | "inlb" => false,
        _ => return Err(wrong(option, text, RIGHT)),
    };
    let end = text.find(|letter: char| letter.is_alphabetic()).unwrap_or(text.len());
    let number: f64 = text.get(..end).unwrap_or_default().trim().parse().map_err(|_| wrong(option, text, RIGHT))?;
    let inch_pounds =
        if metric { Force::from_newtons(number).lbf() * 1_000.0 / Length::INCH.to_millimetres_f64() } else { number };
    if inch_pounds.is_finite() { Ok(inch_pounds) } else { Err(wrong(option, text, RIGHT)) }
}

/// A point: `4,-1/2`.
pub(crate) fn point(option: &str, text: &str, bare: Bare) -> Result<Point, Stop> {
    let (x, y) = pair(option, text, "4,-1/2")?;
    let length = |part: &str| Length::parse_as(part.trim(), bare).map_err(|error| wrong(option, part, error));
    Ok(Point { x: length(x)?, y: length(y)? })
}

/// Whether this is a list of points and no file: it has marks between figures, and no letters behind its last decimal point.
pub(crate) fn is_list_of_points(text: &str) -> bool {
    let is_divided = text.contains(|mark: char| matches!(mark, ';' | ',') || mark.is_whitespace());
    let begins =
        text.trim_start().trim_start_matches(['-', '+', '.']).starts_with(|first: char| first.is_ascii_digit());
    let ends_as_file =
        text.rsplit_once('.').is_some_and(|(_, end)| !end.is_empty() && end.chars().all(|c| c.is_ascii_alphabetic()));
    is_divided && begins && !ends_as_file
}

/// The rivets of a group in one text: x, y and perhaps the diameter of each, semicolons between them: `0 0; 1 0; 2 0 5/32`.
pub(crate) fn points(
    option: &str,
    text: &str,
    series: &'static Series<'static>,
    bare: Bare,
) -> Result<Vec<GroupPoint>, Stop> {
    let points: Vec<&str> = text.split(';').collect();
    if points.len() > MAX_COUNT as usize {
        return Err(wrong(
            option,
            text,
            format_args!("these are {} points; right would be 1 to {MAX_COUNT}", points.len()),
        ));
    }
    let point = |(index, point): (usize, &&str)| {
        let divides = |mark: char| mark == ',' || mark.is_whitespace();
        let figures: Vec<&str> = point.split(divides).filter(|figure| !figure.is_empty()).collect();
        let wrong = |what: &dyn Display| wrong(&format!("{option}, point {}", index + 1), point, what);
        let (x, y, diameter) = match figures.as_slice() {
            [x, y] => (x, y, None),
            [x, y, diameter] => (x, y, Some(diameter)),
            _ => return Err(wrong(&"a point has x, y and perhaps a diameter; right would be 1 1/2 or 1 1/2 5/32")),
        };
        let coordinate = |text: &str| Length::parse_as(text, bare).map_err(|error| wrong(&error));
        let size = |text: &&str| size(&format!("{option}, point {}", index + 1), text, series, bare);
        Ok(GroupPoint {
            at: Point { x: coordinate(x)?, y: coordinate(y)? },
            size: diameter.map(size).transpose()?,
            hole: None,
            edge: None,
            sides: [None; 4],
        })
    };
    points.iter().enumerate().map(point).collect()
}

fn pair<'t>(option: &str, text: &'t str, right: &str) -> Result<(&'t str, &'t str), Stop> {
    match text.split_once(',') {
        Some((x, y)) if !y.contains(',') => Ok((x, y)),
        _ => {
            Err(wrong(option, text, format_args!("this takes two values with a comma between; right would be {right}")))
        }
    }
}

/// A stress above zero.
pub(crate) fn stress(option: &str, text: &str) -> Result<Stress, Stop> {
    let stress = Stress::parse(text).map_err(|error| wrong(option, text, error))?;
    if stress > Stress::ZERO {
        Ok(stress)
    } else {
        Err(wrong(option, text, "this must be above zero; right would be 20ksi or 140MPa"))
    }
}

/// A whole number of percent: `10`, `10 %`.
pub(crate) fn percent(option: &str, text: &str) -> Result<u32, Stop> {
    let number = text.trim().trim_end_matches('%').trim_end().parse().ok();
    number.filter(|number| *number <= MAX_SPARES_PERCENT).ok_or_else(|| {
        wrong(
            option,
            text,
            format_args!("this is not a whole number of percent up to {MAX_SPARES_PERCENT}; right would be 10"),
        )
    })
}

/// A word of a list, in capitals or not.
pub(crate) fn word<T: FromStr<Err: Display>>(option: &str, text: &str) -> Result<T, Stop> {
    let text = text.trim();
    text.to_ascii_lowercase().parse().map_err(|error| wrong(option, text, error))
}

/// `a, b or c`.
pub(crate) fn or(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [before @ .., last] => format!("{} or {last}", before.join(", ")),
    }
}

/// A part number, with or without length.
pub(crate) fn part(option: &str, text: &str) -> Result<Part<'static>, Stop> {
    PARTS
        .with_borrow_mut(|known| known.read_text(trimmed(text), Part::parse))
        .map_err(|error| wrong(option, text, error))
}

/// A part number, or alloy letters and diameter of a universal head rivet: `AD4`.
pub(crate) fn rivet_or_letters(option: &str, text: &str) -> Result<Part<'static>, Stop> {
    let letters = text.trim().trim_end_matches(|c: char| c.is_ascii_digit());
    let universal: &Series<'static> = &shophead::rivet::MS20470;
    if letters.is_empty() || universal.material(letters).is_none() {
        return part(option, text);
    }
    Part::parse(&format!("{}{}", universal.name, text.trim())).map_err(|mut error| {
        error.at = error.at.saturating_sub(universal.name.len());
        wrong(option, text, error)
    })
}

/// A rivet that was given by series, alloy and diameter.
pub(crate) struct Rivet {
    /// The family: no length.
    pub(crate) part: Part<'static>,
    /// Whether the alloy was left to us.
    pub(crate) alloy_assumed: bool,
}

impl Rivet {
    pub(crate) fn of(args: &RivetArgs, bare: Bare) -> Result<Rivet, Stop> {
        let is_it = |(known, unit): &(RivetArgs, Bare)| known == args && *unit == bare;
        let part = RIVETS.with_borrow_mut(|known| known.read(is_it, || (args.clone(), bare), || rivet(args, bare)))?;
        Ok(Rivet { part, alloy_assumed: args.alloy.is_none() })
    }
}

fn rivet(args: &RivetArgs, bare: Bare) -> Result<Part<'static>, Stop> {
    let series = series("--series", &args.series)?;
    let size = size("--diameter", &args.diameter, series, bare)?;
    let letters = match &args.alloy {
        Some(text) => letters("--alloy", text, series)?,
        // 2117 where the series has it: the rivet of everyday work.
        None => series.material("AD").or(series.materials.first()).map_or("", |material| material.code),
    };
    Part::new(series, letters, size).map_err(|error| wrong("--alloy", letters, error))
}

/// A part standard by any of its names.
fn series(option: &str, text: &str) -> Result<&'static Series<'static>, Stop> {
    let text = text.trim();
    let named = |series: &&&Series<'static>| {
        let names = [series.name].into_iter().chain(series.also.iter().chain(series.supersedes).copied());
        names.into_iter().any(|name| name.eq_ignore_ascii_case(text))
    };
    CATALOGUE.iter().find(named).copied().ok_or_else(|| {
        if let Some(other) = NotRead::named(text) {
            return wrong(option, text, other);
        }
        let names: Vec<&str> = CATALOGUE.iter().map(|series| series.name).collect();
        wrong(option, text, format_args!("this is not a series known here; right would be {}", or(&names)))
    })
}

/// The letters for an alloy that was given by letters or by number.
fn letters(option: &str, text: &str, series: &'static Series<'static>) -> Result<&'static str, Stop> {
    let text = text.trim();
    let by_number = || series.materials.iter().find(|material| material.alloy.alloy().eq_ignore_ascii_case(text));
    series.material(text).or_else(by_number).map(|material| material.code).ok_or_else(|| {
        let known: Vec<String> = series
            .materials
            .iter()
            .map(|material| match material.code {
                "" => material.alloy.alloy().to_owned(),
                code => format!("{code} ({})", material.alloy.alloy()),
            })
            .collect();
        let known: Vec<&str> = known.iter().map(String::as_str).collect();
        let what =
            format_args!("{} does not come in this alloy; right would be {}", series.name, or(&known)).to_string();
        wrong(option, text, what)
    })
}

/// A size of a series by its shank diameter.
fn size(option: &str, text: &str, series: &'static Series<'static>, bare: Bare) -> Result<&'static Size, Stop> {
    let diameter = length(option, text, bare)?;
    series.size_for_diameter(diameter).ok_or_else(|| {
        let name = |size: &Size| {
            let fraction = size.shank_nominal.to_64ths();
            if fraction.is_exact() { fraction.to_string() } else { size.shank_nominal.to_string() }
        };
        let away = |size: &&Size| size.shank_nominal.nanometres().abs_diff(diameter.nanometres());
        let nearest = series.sizes.iter().min_by_key(away).map(name).unwrap_or_default();
        let sizes: Vec<String> = series.sizes.iter().map(name).collect();
        let series = series.name;
        wrong(
            option,
            text,
            format_args!(
                "{series} does not come in this diameter; the nearest is {nearest}, known are {}",
                sizes.join(", ")
            ),
        )
    })
}

/// Whether a thickness was written with a tolerance of its own.
fn has_tolerance(text: &str) -> bool {
    let is_plain = text.bytes().all(|byte| byte != b'+' && byte.is_ascii());
    !is_plain && text.trim_start().chars().skip(1).any(|c| matches!(c, '+' | '±'))
}

/// A tolerance by itself: `.002`, `+-.002`, `±.002`, `+.003-.001`.
pub(crate) fn tolerance(option: &str, text: &str, bare: Bare) -> Result<Toleranced, Stop> {
    let text = trimmed(text);
    if text.starts_with(['+', '±']) {
        // The core reads tolerances behind a length only.
        return Toleranced::parse_as(&format!("0{text}"), bare).map_err(|error| wrong(option, text, earlier(error, 1)));
    }
    let either_way = Length::parse_as(text, bare).map_err(|error| wrong(option, text, error))?;
    Toleranced::new(Length::ZERO, either_way, either_way)
        .map_err(|_| wrong(option, text, "a tolerance is less than 0: give it without a sign, as .002 or +.003-.001"))
}

fn earlier(error: ParseLengthError, by: usize) -> ParseLengthError {
    ParseLengthError::new(error.at.saturating_sub(by), error.kind)
}

/// The layers of a pack; `tolerance` is that of every layer without one of its own.
pub(crate) fn layers(
    option: &str,
    text: &str,
    tolerance: Option<Toleranced>,
    bare: Bare,
    practice: &Practice<'_>,
) -> Result<Stack, Stop> {
    let mut stack = Stack::new();
    for (index, item) in items(text).enumerate() {
        let wrong = |what: String| {
            let number = index.saturating_add(1);
            Stop::wrong(format!("{option}, item {number} {}: {what}", quoted(item)))
        };
        let plain = plain_layer(item, bare);
        let mut layer = plain.map_or_else(|| layer(item.trim(), bare, practice), Ok).map_err(wrong)?;
        if let Some(tolerance) = tolerance.filter(|_| layer.thickness == Toleranced::exactly(layer.thickness.nominal()))
            && (plain.is_some() || !has_tolerance(item))
        {
            let below = Length::ZERO.checked_sub(tolerance.min()).unwrap_or(Length::ZERO);
            layer.thickness = Toleranced::new(layer.thickness.nominal(), below, tolerance.max())
                .map_err(|error| wrong(error.to_string()))?;
        }
        stack.push(layer).map_err(|error| wrong(error.to_string()))?;
    }
    Ok(stack)
}

/// What stands between commas. Items are so short that the standard library's search takes longer to begin than to find.
fn items(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let text = rest?;
        let Some(comma) = text.bytes().position(|byte| byte == b',') else { return rest.take() };
        rest = text.get(comma + 1..);
        text.get(..comma)
    })
}

/// A layer of nothing but a decimal, `.032`, or of that behind a material which was read before. `None` for every other.
fn plain_layer(item: &str, bare: Bare) -> Option<Layer> {
    let point = item.bytes().position(|byte| byte == b'.')?;
    let (before, thickness) = item.split_at(point);
    if thickness.len() < 2 || !thickness.bytes().skip(1).all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let material = match before.strip_suffix(':') {
        Some(name) => Some(MATERIALS.with_borrow(|known| known.known_text(name))?),
        None if before.is_empty() => None,
        None => return None,
    };
    let thickness = Toleranced::parse_thickness(thickness, bare).ok()?;
    Some(Layer::of(thickness).material(material))
}

/// One layer: `MATERIAL:THICKNESS:WORDS`, all but the thickness optional.
fn layer(item: &str, bare: Bare, practice: &Practice<'_>) -> Result<Layer, String> {
    read_layer(item, bare, &|text| {
        let listed = MATERIALS.with_borrow_mut(|known| known.read_text(text, Material::parse));
        listed.or_else(|_| practice.material(text)).map_err(|error| error.to_string())
    })
}

/// A sheet with its material.
pub(crate) fn sheet(option: &str, text: &str, bare: Bare, practice: &Practice<'_>) -> Result<(Material, Length), Stop> {
    let layer = layer(text.trim(), bare, practice).map_err(|what| wrong(option, text, what))?;
    let Some(material) = layer.material else {
        return Err(wrong(option, text, "the material is missing; right would be clad 2024-T3:.040"));
    };
    if layer.thickness.min() <= Length::ZERO {
        return Err(wrong(option, text, "a sheet needs a thickness above zero; right would be clad 2024-T3:.040"));
    }
    Ok((material, layer.thickness.nominal()))
}

/// One measure, or the least and the greatest: `.180` or `.180,.190`.
pub(crate) fn measure(option: &str, text: &str, bare: Bare) -> Result<shophead::length::Interval, Stop> {
    let mut ends = items(text);
    let least = length(option, ends.next().unwrap_or_default(), bare)?;
    let greatest = match text.split_once(',').filter(|_| ends.next().is_some()) {
        Some((_, greatest)) => length(option, greatest, bare)?,
        None => least,
    };
    Ok(shophead::length::Interval::of(least, greatest))
}

#[cfg(test)]
mod tests {
    use shophead::practice::HANDBOOK;
    use shophead::stack::{Preparation, Role};

    use super::*;

    fn sentence<T>(result: Result<T, Stop>) -> String {
        match result {
            Err(Stop::Wrong(sentences)) => sentences.join("\n"),
            Err(other) => format!("{other:?}"),
            Ok(_) => "accepted".to_owned(),
        }
    }

    fn inch(text: &str) -> Length {
        Length::parse(text).expect(text)
    }

    #[test]
    fn a_list_reads_materials_tolerances_and_words() {
        let default = tolerance("--tolerance", ".003", Bare::Inches).unwrap();
        let text = " .032, clad 2024-T3:.040+-.001 ,2024-T3:.063:Countersunk,.005:sealant,1mm:tab:dimpled";
        let stack = layers("--layers", text, Some(default), Bare::Inches, &HANDBOOK).unwrap();
        let [plain, clad, sunk, sealant, tab] = stack.layers() else { panic!("{stack:?}") };
        assert_eq!((plain.thickness.min(), plain.thickness.max()), (inch(".029"), inch(".035")));
        assert_eq!((clad.thickness.min(), clad.thickness.max()), (inch(".039"), inch(".041")));
        assert_eq!(clad.material.map(|material| material.to_string()).as_deref(), Some("clad 2024-T3"));
        assert_eq!(sunk.preparation, Preparation::Countersunk);
        assert_eq!(sealant.role, Role::Sealant);
        assert_eq!((tab.role, tab.preparation), (Role::Tab, Preparation::Dimpled));
    }

    #[test]
    fn a_wrong_list_is_told_with_option_item_and_character() {
        for (text, wanted) in [
            (".032,.0x0", r#"--layers, item 2 ".0x0": the units are in and mm (character 3); right would be"#),
            ("2024-T3:.03;2", r#"item 1 "2024-T3:.03;2": this does not belong in a length (character 12); right"#),
            (".032,,.04", r#"item 2 "": a length is missing (character 1)"#),
            ("0,032", r#"item 1 "0": a layer needs a thickness above zero; a decimal is written with a point"#),
            ("2024-T3", r#"item 1 "2024-T3": the thickness is missing (character 8); right would be 2024-T3:.032"#),
            ("2024-T9:.032", "2024 is not on file in this temper (character 1); on file are"),
            (".032:countersink", "this cannot follow a thickness (character 6); right would be plain, "),
            (".032+-.032", "a layer needs a thickness above zero, at the low end of its tolerance too"),
            (".01,.01,.01,.01,.01,.01,.01,.01,.01", "item 9 \".01\": at most 8 layers in one pack"),
        ] {
            let told = sentence(layers("--layers", text, None, Bare::Inches, &HANDBOOK));
            assert!(told.contains(wanted), "{text}\nwant {wanted}\ngot  {told}");
        }
    }

    #[test]
    fn a_tolerance_is_read_by_itself() {
        for (text, min, max) in [(".002", "-.002", ".002"), ("±.002", "-.002", ".002"), ("+.003-.001", "-.001", ".003")]
        {
            let read = tolerance("--tolerance", text, Bare::Inches).unwrap();
            assert_eq!((read.min(), read.max()), (inch(min), inch(max)), "{text}");
        }
        assert!(sentence(tolerance("--tolerance", "-.002", Bare::Inches)).contains("less than 0"));
        assert!(sentence(tolerance("--tolerance", "+-.0x2", Bare::Inches)).contains("(character 5)"));
        assert!(sentence(tolerance("--tolerance", "+.003", Bare::Inches)).contains("needs its -tolerance"));
    }

    #[test]
    fn letters_and_diameter_make_a_universal_rivet() {
        assert_eq!(rivet_or_letters("--rivet", "AD4").unwrap().to_string(), "MS20470AD4");
        assert_eq!(rivet_or_letters("--rivet", "MS20426AD4").unwrap().to_string(), "MS20426AD4");
        let told = sentence(rivet_or_letters("--rivet", "AD7"));
        assert!(told.contains("(character 3)") && told.contains("MS20470AD6"), "{told}");
    }

    #[test]
    fn what_was_typed_is_repeated_without_harm() {
        assert_eq!(quoted("a\u{1b}[31m\n"), r#""a\u{1b}[31m""#);
        assert_eq!(quoted(&"é".repeat(50)), format!("\"{}\"...", "é".repeat(40)));
    }
}
