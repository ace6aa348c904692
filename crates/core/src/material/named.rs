//! Sheet materials by name, and the strengths that stand behind a name.

use core::fmt;
use core::num::NonZeroU64;

use super::name_table::NAMES;
use super::sheet_table::SHEETS;
use super::{Guarantee, SheetProperties};
use crate::basis::Basis;
use crate::length::{Length, split_once};

/// The handbook prints thickness to a thousandth of an inch: `0.010-0.062`, then `0.063-0.128`.
const THICKNESS_STEP: Length = Length::from_ten_thousandths(10);

/// A row of the table of names.
#[derive(Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub(super) struct Named {
    pub(super) alloy: &'static str,
    pub(super) temper: &'static str,
    pub(super) clad: bool,
    pub(super) basis: Basis,
    /// The columns of the handbook that are for it, one bit each. A small target compares the names, and keeps the flash.
    #[cfg(target_pointer_width = "64")]
    pub(super) columns: Columns,
}

/// Columns of [`SHEETS`], one bit each.
#[cfg(target_pointer_width = "64")]
pub(super) type Columns = u128;

#[cfg(target_pointer_width = "64")]
const _: () = assert!(SHEETS.len() <= Columns::BITS as usize);

/// Which columns are read.
#[derive(Clone, Copy)]
enum Values {
    /// The handbook's A values, or S where it has no A.
    Minimum,
    /// Those that fewer pieces reach.
    B,
}

impl Values {
    const fn are_guaranteed(self, guarantee: Guarantee) -> bool {
        match self {
            Values::Minimum => matches!(guarantee, Guarantee::A | Guarantee::S),
            Values::B => matches!(guarantee, Guarantee::B),
        }
    }

    /// The columns that have them.
    #[cfg(target_pointer_width = "64")]
    const fn columns(self) -> Columns {
        let (mut columns, mut rest, mut bit) = (0, SHEETS, 1_u128);
        while let [column, behind @ ..] = rest {
            if self.are_guaranteed(column.guarantee()) {
                columns |= bit;
            }
            (rest, bit) = (behind, bit.wrapping_shl(1));
        }
        columns
    }
}

/// The columns whose heading names this material: what [`Material::heads`] says, before the program runs.
#[cfg(target_pointer_width = "64")]
pub(super) const fn columns(alloy: &str, temper: &str, clad: bool) -> Columns {
    let (mut columns, mut rest, mut bit) = (0, SHEETS, 1_u128);
    while let [column, behind @ ..] = rest {
        let heading = column.heading();
        if heading.clad == clad
            && is_same(heading.alloy.as_bytes(), alloy.as_bytes())
            && has_word(heading.temper.as_bytes(), temper.as_bytes())
        {
            columns |= bit;
        }
        (rest, bit) = (behind, bit.wrapping_shl(1));
    }
    columns
}

#[cfg(target_pointer_width = "64")]
const fn is_same(mut one: &[u8], mut other: &[u8]) -> bool {
    while let ([first, behind @ ..], [second, rest @ ..]) = (one, other) {
        if *first != *second {
            return false;
        }
        (one, other) = (behind, rest);
    }
    one.is_empty() && other.is_empty()
}

/// Whether a text has a word between its blanks.
#[cfg(target_pointer_width = "64")]
const fn has_word(mut text: &[u8], word: &[u8]) -> bool {
    loop {
        let (mut end, mut rest) = (0_usize, text);
        while let [byte, behind @ ..] = rest {
            if *byte == b' ' {
                break;
            }
            (rest, end) = (behind, end.wrapping_add(1));
        }
        let (first, _) = text.split_at(end);
        if is_same(first, word) {
            return true;
        }
        match rest {
            [] => return false,
            [_, behind @ ..] => text = behind,
        }
    }
}

/// A sheet material: an alloy in a temper, bare or clad.
///
/// Every material named in a table at hand can be read and printed. Strengths are another matter: [`Material::properties`]
/// gives them where a table that was read has them. 2014-T6 for one is named in the splice tables of AC 43.13-1B, and that is all.
/// A shop may use others, and say what it knows of them: [`Material::own`].
///
/// ```
/// use shophead::length::Length;
/// use shophead::material::Material;
/// let skin = Material::parse("alclad 2024-T3")?;
/// assert_eq!(skin.to_string(), "clad 2024-T3");
/// let strengths = skin.properties(Length::parse(".032").unwrap()).unwrap();
/// assert_eq!(strengths.ftu().unwrap().ksi(), 59.0);
/// # Ok::<(), shophead::material::ParseMaterialError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Material(NonZeroU64);

/// Set in a material of a shop's own, whose name follows: a place of [`Material::known`] counted from 1 otherwise.
const OWN: u64 = 1 << 63;
/// Set in one that is clad.
const OWN_CLAD: u64 = 1 << 62;
/// Where a material of a shop's own has room for what a key says of it.
const OWN_SHIFT: u32 = 58;
/// The name of a material of a shop's own, a figure of base [`OWN_BASE`] for each character, the first one lowest.
const OWN_NAME: u64 = (1 << OWN_SHIFT) - 1;
const OWN_BASE: u64 = OWN_CHARACTERS.len() as u64 + 1;
/// What such a name is made of. Behind its end stands zero, so these count from 1.
const OWN_CHARACTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-";
/// The longest name of a material of a shop's own, without the word clad.
pub const LONGEST_OWN_NAME: usize = 11;

impl Material {
    /// Every material known by name, each once: those with strengths first, in the handbook's order.
    pub fn known() -> impl ExactSizeIterator<Item = Material> {
        NAMES.iter().enumerate().map(|(place, _)| Material(NonZeroU64::MIN.saturating_add(place as u64)))
    }

    /// The material at this place of [`Material::known`].
    pub(crate) fn at(place: u8) -> Option<Material> {
        (usize::from(place) < NAMES.len()).then(|| Material(NonZeroU64::MIN.saturating_add(u64::from(place))))
    }

    /// Its place in [`Material::known`]; `None` of a shop's own.
    pub(crate) const fn place(self) -> Option<u8> {
        if self.is_own() { None } else { Some((self.0.get() - 1) as u8) }
    }

    /// Whether it is a shop's own, which no table names.
    #[must_use]
    pub const fn is_own(self) -> bool {
        self.0.get() & OWN != 0
    }

    /// A material that no table at hand names, for a shop that enters its figures: letters, figures and hyphens, at most
    /// [`LONGEST_OWN_NAME`] of them, and perhaps `clad`. One that [`Material::parse`] reads is that one.
    ///
    /// Rules that go by the alloy hold for it where its name begins as one on file does: `2024-T861` is 2024. Nothing else is known of it
    /// until it is entered. Where a text may name any of a shop's materials, [`Practice::material`](crate::practice::Practice::material)
    /// reads it.
    ///
    /// # Errors
    /// [`ParseMaterialError::Empty`], [`ParseMaterialError::NotAName`].
    ///
    /// ```
    /// use shophead::material::{Material, ParseMaterialError};
    /// let skin = Material::own("clad 2024-t861")?;
    /// assert_eq!((skin.to_string(), skin.alloy()), ("clad 2024-T861".to_owned(), "2024"));
    /// assert_eq!(Material::own("A286")?.alloy(), "");
    /// assert_eq!(Material::own("alclad 2024-T3"), Material::parse("clad 2024-T3"));
    /// assert_eq!(Material::own("A_286"), Err(ParseMaterialError::NotAName));
    /// # Ok::<(), ParseMaterialError>(())
    /// ```
    pub fn own(text: &str) -> Result<Material, ParseMaterialError> {
        if let Ok(listed) = Material::parse(text) {
            return Ok(listed);
        }
        let (mut name, mut clad) = (None, None);
        for word in text.split_whitespace() {
            let surface = SURFACES.iter().find(|(name, _)| name.eq_ignore_ascii_case(word));
            let repeated = match surface {
                Some((_, is_clad)) => clad.replace(*is_clad).is_some(),
                None => name.replace(word).is_some(),
            };
            if repeated {
                return Err(ParseMaterialError::NotAName);
            }
        }
        let name = name.ok_or(ParseMaterialError::Empty)?;
        let number = own_number(name).filter(|number| *number <= OWN_NAME).ok_or(ParseMaterialError::NotAName)?;
        let surface = if clad == Some(true) { OWN_CLAD } else { 0 };
        NonZeroU64::new(OWN | surface | number).map(Material).ok_or(ParseMaterialError::NotAName)
    }

    /// Reads a material as [`Material::parse`] does, or one of these of a shop's own.
    ///
    /// # Errors
    /// As [`Material::parse`].
    pub fn among(text: &str, own: impl IntoIterator<Item = Material>) -> Result<Material, ParseMaterialError> {
        Material::parse(text).or_else(|error| {
            let named = Material::own(text).map_err(|_| error)?;
            if own.into_iter().any(|known| known == named) { Ok(named) } else { Err(error) }
        })
    }

    /// A material of a shop's own with a few bits of a key beside it; `None` of one that is on file.
    pub(crate) const fn with_bits(self, bits: u8) -> Option<u64> {
        if self.is_own() { Some(self.0.get() | ((bits & 0xF) as u64) << OWN_SHIFT) } else { None }
    }

    /// The other way round.
    pub(crate) fn of_bits(number: u64) -> Option<(Material, u8)> {
        let bits = (number >> OWN_SHIFT & 0xF) as u8;
        let number = NonZeroU64::new(number & (OWN | OWN_CLAD | OWN_NAME)).filter(|number| number.get() & OWN != 0)?;
        Some((Material(number), bits))
    }

    /// Whether the number of a shop's own is that of a name.
    pub(crate) fn has_name(self) -> bool {
        let name = self.own_name();
        !self.is_own() || !name.is_empty() && own_number(&name) == Some(self.0.get() & OWN_NAME)
    }

    /// The row of the table of names; `None` of a shop's own.
    fn named(self) -> Option<&'static Named> {
        self.place().and_then(|place| NAMES.get(usize::from(place)))
    }

    /// The name of a shop's own, without its surface.
    fn own_name(self) -> heapless::String<LONGEST_OWN_NAME> {
        let mut name = heapless::String::new();
        let mut rest = self.0.get() & OWN_NAME;
        while let (Some(figure), Some(left)) = (rest.checked_rem(OWN_BASE), rest.checked_div(OWN_BASE)) {
            let known = usize::try_from(figure).ok().and_then(|figure| OWN_CHARACTERS.get(figure.checked_sub(1)?));
            match known {
                Some(byte) if name.push(char::from(*byte)).is_ok() => rest = left,
                _ => break,
            }
        }
        name
    }

    /// The alloy's number, such as `2024`; empty where no table at hand names the alloy.
    #[must_use]
    pub fn alloy(self) -> &'static str {
        let Some(named) = self.named() else {
            let name = self.own_name();
            let (alloy, _) = split_once(&name, |c| c == '-').unwrap_or((&name, ""));
            return NAMES.iter().find(|named| named.alloy == alloy).map_or("", |named| named.alloy);
        };
        named.alloy
    }

    /// The temper, such as `T3`; empty where the table that names the material means any (2017, 5052, 4130), and where no table names it.
    #[must_use]
    pub fn temper(self) -> &'static str {
        let Some(named) = self.named() else {
            let name = self.own_name();
            let (_, temper) = split_once(&name, |c| c == '-').unwrap_or_default();
            return NAMES.iter().find(|named| named.temper == temper).map_or("", |named| named.temper);
        };
        named.temper
    }

    /// Whether it is clad.
    #[must_use]
    pub fn is_clad(self) -> bool {
        self.named().map_or(self.0.get() & OWN_CLAD != 0, |named| named.clad)
    }

    /// A document that names it; of a shop's own the one that strengths are looked for in.
    #[must_use]
    pub fn basis(self) -> Basis {
        self.named().map_or(Basis::HDBK5J_CHAPTER_3, |named| named.basis)
    }

    /// Design minimum strengths of this material in this thickness: the handbook's A values, or S where it has no A.
    ///
    /// `None` where no table that was read covers it.
    ///
    /// - A thickness in the hairline between two columns (0.0625 between 0.010-0.062 and 0.063-0.128) belongs to the weaker
    ///   of both.
    /// - Where two specifications cover the same sheet (AMS 4049 and AMS-QQ-A-250/13 for clad 7075-T6), the weaker
    ///   column is taken, and the first printed of two equal ones.
    ///
    /// Weaker is the column with the lower ultimate bearing strength, then the lower tension, shear and yield; an empty cell
    /// counts as lowest. In the tables at hand the weaker column has no cell above the other's.
    #[must_use]
    pub fn properties(self, thickness: Length) -> Option<&'static SheetProperties> {
        self.weakest(thickness, Values::Minimum)
    }

    /// The same with the handbook's B values, which fewer pieces reach. `None` where the table has no B column.
    #[must_use]
    pub fn properties_b(self, thickness: Length) -> Option<&'static SheetProperties> {
        self.weakest(thickness, Values::B)
    }

    fn weakest(self, thickness: Length, values: Values) -> Option<&'static SheetProperties> {
        let columns = || self.columns(values);
        let holding = columns().filter(|column| column.t_min() <= thickness && thickness <= column.t_max());
        // Nearly always one: the others are compared with it only where there are more.
        let weaker = |one: &'static SheetProperties, other: &'static SheetProperties| {
            if other.ranked() < one.ranked() { other } else { one }
        };
        holding.reduce(weaker).or_else(|| {
            let below = columns().map(|column| column.t_max()).filter(|end| *end < thickness).max()?;
            let above = columns().map(|column| column.t_min()).filter(|start| *start > thickness).min()?;
            let beside = columns().filter(|column| column.t_max() == below || column.t_min() == above);
            let hairline = above.minus(below) <= THICKNESS_STEP;
            beside.min_by_key(|column| column.ranked()).filter(|_| hairline)
        })
    }

    /// The columns of the handbook that have these values of this material.
    #[cfg(not(target_pointer_width = "64"))]
    fn columns(self, values: Values) -> impl Iterator<Item = &'static SheetProperties> {
        SHEETS.iter().filter(move |column| values.are_guaranteed(column.guarantee()) && self.heads(column))
    }

    /// The columns of the handbook that have these values of this material.
    #[cfg(target_pointer_width = "64")]
    fn columns(self, values: Values) -> impl Iterator<Item = &'static SheetProperties> {
        let read = match values {
            Values::Minimum => const { Values::Minimum.columns() },
            Values::B => const { Values::B.columns() },
        };
        let mut left = self.named().map_or(0, |named| named.columns & read);
        core::iter::from_fn(move || {
            let first = left.trailing_zeros() as usize;
            left &= left.wrapping_sub(1);
            SHEETS.get(first)
        })
    }

    /// Whether a column of the handbook is for this material; it may be for two tempers, printed `T6 and T62`.
    ///
    /// Split at the spaces, not at ` and `: the standard library's search for a text can panic as far as a linker can tell, and no
    /// temper is called `and`.
    #[cfg(any(test, not(target_pointer_width = "64")))]
    fn heads(self, column: &SheetProperties) -> bool {
        column.alloy() == self.alloy()
            && column.heading().clad == self.is_clad()
            && column.temper().split(char::is_whitespace).any(|temper| temper == self.temper())
    }

    /// Reads a material: `2024-T3`, `clad 2024-T3`, `2024-T3 clad`, `alclad 2024-T3`, `bare 7075-T6`, in small or capital
    /// letters. Without `clad` or `alclad` it is bare. An alloy that a table names in any temper (2017, 5052, 4130) is read in any, and without one.
    ///
    /// # Errors
    /// [`ParseMaterialError`] names what is not known and lists what is; [`Material::known`] has all of it.
    ///
    /// ```
    /// use shophead::material::{Material, ParseMaterialError};
    /// let error = Material::parse("6061-T9").unwrap_err();
    /// assert_eq!(error, ParseMaterialError::UnknownTemper { alloy: "6061" });
    /// # #[cfg(feature = "words")]
    /// assert_eq!(error.to_string(), "6061 is not on file in this temper; on file are 6061-T4, 6061-T42, 6061-T6, 6061-T62; a shop enters another in its limits file, as material.NAME");
    /// ```
    pub fn parse(text: &str) -> Result<Material, ParseMaterialError> {
        let (mut alloy, mut temper, mut clad) = (None, None, None);
        for word in text.split(|c: char| c == '-' || c.is_whitespace()).filter(|word| !word.is_empty()) {
            let surface = SURFACES.iter().find(|(name, _)| name.eq_ignore_ascii_case(word));
            let repeated = match surface {
                Some((_, is_clad)) => clad.replace(*is_clad).is_some(),
                None if alloy.is_none() => alloy.replace(word).is_some(),
                None => temper.replace(word).is_some(),
            };
            if repeated {
                return Err(ParseMaterialError::UnexpectedWord);
            }
        }
        let alloy = alloy.ok_or(ParseMaterialError::Empty)?;
        let of_alloy = || Material::known().filter(|known| known.alloy().eq_ignore_ascii_case(alloy));
        let listed = of_alloy().next().ok_or(ParseMaterialError::UnknownAlloy)?.alloy();
        let as_listed = |temper: &str| of_alloy().any(|known| known.temper().eq_ignore_ascii_case(temper));
        // A table that names no temper means any.
        let temper = temper.filter(|temper| as_listed(temper) || !(as_listed("") && is_temper(temper)));
        let of_temper = || of_alloy().filter(|known| known.temper().eq_ignore_ascii_case(temper.unwrap_or_default()));
        let other = of_temper().next().ok_or(match temper {
            None => ParseMaterialError::MissingTemper { alloy: listed },
            Some(_) => ParseMaterialError::UnknownTemper { alloy: listed },
        })?;
        let wanted = clad.unwrap_or(false);
        of_temper().find(|known| known.is_clad() == wanted).ok_or(ParseMaterialError::KnownOnlyAs(other))
    }
}

/// Whether a word is written as tempers are: a letter, perhaps figures behind it.
fn is_temper(word: &str) -> bool {
    let mut letters = word.bytes();
    let first = letters.next().is_some_and(|first| b"FOHNWT".contains(&first.to_ascii_uppercase()));
    first && letters.all(|figure| figure.is_ascii_digit())
}

/// Words for the surface of a sheet, and whether they mean clad.
const SURFACES: &[(&str, bool)] = &[("clad", true), ("alclad", true), ("bare", false)];

/// `2024-T3`, `clad 2024-T3`: what [`Material::parse`] reads back.
impl fmt::Display for Material {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_clad() {
            f.write_str("clad ")?;
        }
        if self.is_own() {
            return f.write_str(&self.own_name());
        }
        f.write_str(self.alloy())?;
        if self.temper().is_empty() { Ok(()) } else { write!(f, "-{}", self.temper()) }
    }
}

/// The number of the name of a shop's own.
fn own_number(name: &str) -> Option<u64> {
    if name.starts_with('-') || name.ends_with('-') || name.len() > LONGEST_OWN_NAME {
        return None;
    }
    name.bytes().rev().try_fold(0_u64, |number, byte| {
        let figure = OWN_CHARACTERS.iter().position(|known| *known == byte.to_ascii_uppercase())?;
        number.checked_mul(OWN_BASE)?.checked_add(u64::try_from(figure).ok()?.checked_add(1)?)
    })
}

/// By its name, not its number.
impl fmt::Debug for Material {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Material({self})")
    }
}

/// By its name, not its number.
#[cfg(feature = "defmt")]
impl defmt::Format for Material {
    fn format(&self, f: defmt::Formatter<'_>) {
        if self.is_own() {
            defmt::write!(f, "Material({=str}, clad: {=bool})", self.own_name().as_str(), self.is_clad());
        } else {
            defmt::write!(f, "Material({=str}-{=str}, clad: {=bool})", self.alloy(), self.temper(), self.is_clad());
        }
    }
}

impl core::str::FromStr for Material {
    type Err = ParseMaterialError;
    fn from_str(text: &str) -> Result<Material, ParseMaterialError> {
        Material::parse(text)
    }
}

crate::words::errors! {
    /// Why a text is not a known material.
    ParseMaterialError = (25, "not-a-material", "A text is not a sheet material.",
        "not a sheet material", "right would be 2024-T3 or clad 2024-T3")
    {
        Empty, "material-missing", "No alloy at all.",
            "a material is missing";
        UnknownAlloy, "alloy-unknown", "No document at hand names this alloy.",
            "no such sheet alloy on file", "on file are {}{ENTER_ANOTHER}" (Alloys);
        MissingTemper { alloy: &'static str, "The alloy as listed." }, "temper-missing", "The alloy needs a temper.",
            "{alloy} needs its temper", "on file are {}" (Tempers(alloy));
        UnknownTemper { alloy: &'static str, "The alloy as listed." },
            "temper-unknown", "No document at hand names the alloy in this temper.",
            "{alloy} is not on file in this temper", "on file are {}{ENTER_ANOTHER}" (Tempers(alloy));
        KnownOnlyAs(material: Material),
            "surface-unknown", "Alloy and temper are known, but not with this surface: this is the one that is known.",
            "this material is on file only as {material}", "";
        UnexpectedWord, "not-of-a-material", "A word beyond alloy, temper and surface.",
            "a material is an alloy, a temper and perhaps clad", "right would be clad 2024-T3";
        NotAName, "not-a-name-of-a-material", "Not the name of a material of a shop's own.",
            "the name of a material has letters, figures and hyphens, at most {LONGEST_OWN_NAME}, and perhaps clad",
            "right would be clad 2024-T861";
    }
}

/// Behind a list of what is on file.
#[cfg(feature = "words")]
const ENTER_ANOTHER: &str = "; a shop enters another in its limits file, as material.NAME";

/// Every alloy on file.
#[cfg(feature = "words")]
struct Alloys;

#[cfg(feature = "words")]
impl fmt::Display for Alloys {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let first_of_alloy = |(index, material): &(usize, Material)| {
            !Material::known().take(*index).any(|before| before.alloy() == material.alloy())
        };
        let alloys = Material::known().enumerate().filter(first_of_alloy);
        listed(f, alloys.map(|(_, material)| material.alloy()))
    }
}

/// Every temper of an alloy.
#[cfg(feature = "words")]
struct Tempers(&'static str);

#[cfg(feature = "words")]
impl fmt::Display for Tempers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        listed(f, in_all_tempers(self.0))
    }
}

/// An alloy in each temper once: bare, which every clad one is known as too.
#[cfg(feature = "words")]
fn in_all_tempers(alloy: &str) -> impl Iterator<Item = Material> {
    Material::known().filter(move |known| known.alloy() == alloy && !known.is_clad())
}

#[cfg(feature = "words")]
fn listed(f: &mut fmt::Formatter<'_>, items: impl Iterator<Item = impl fmt::Display>) -> fmt::Result {
    for (index, item) in items.enumerate() {
        if index > 0 {
            f.write_str(", ")?;
        }
        item.fmt(f)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::format;
    use std::vec::Vec;

    fn inch(text: &str) -> Length {
        Length::parse(text).expect(text)
    }

    fn material(text: &str) -> Material {
        Material::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[test]
    fn a_place_is_that_of_a_material_and_there_is_none_behind_the_last() {
        let count = u8::try_from(Material::known().len()).unwrap();
        assert!(Material::known().zip(0..).all(|(known, place)| Material::at(place) == Some(known)));
        assert!((count..=u8::MAX).all(|place| Material::at(place).is_none()));
    }

    #[test]
    #[cfg(target_pointer_width = "64")]
    fn the_columns_of_a_material_are_those_whose_heading_names_it() {
        for (values, guarantees) in [(Values::Minimum, &[Guarantee::A, Guarantee::S][..]), (Values::B, &[Guarantee::B])]
        {
            for material in Material::known() {
                let is_for =
                    |column: &&SheetProperties| material.heads(column) && guarantees.contains(&column.guarantee());
                let named: Vec<_> = SHEETS.iter().filter(is_for).collect();
                assert_eq!(material.columns(values).collect::<Vec<_>>(), named, "{material}");
            }
        }
    }

    #[test]
    fn reads_every_way_of_writing() {
        for (text, printed) in [
            ("2024-T3", "2024-T3"),
            (" 2024-t3 ", "2024-T3"),
            ("2024 T3", "2024-T3"),
            ("bare 2024-T3", "2024-T3"),
            ("clad 2024-T3", "clad 2024-T3"),
            ("2024-T3 clad", "clad 2024-T3"),
            ("ALCLAD 2024-T3", "clad 2024-T3"),
            ("6061-T62", "6061-T62"),
            ("2014-T6", "2014-T6"),
            ("2017", "2017"),
            ("2017 alclad", "clad 2017"),
            ("2017-T4", "2017"),
            ("clad 2017-T3", "clad 2017"),
            ("5052", "5052"),
            ("5052-H34", "5052-H34"),
            ("7075-T6511", "7075-T6511"),
            ("4130-N", "4130"),
        ] {
            assert_eq!(format!("{}", material(text)), printed, "{text:?}");
        }
    }

    #[test]
    #[cfg(feature = "words")]
    fn says_what_is_not_known_and_what_is() {
        let known_2014 = ParseMaterialError::MissingTemper { alloy: "2014" };
        let bare_6061 = ParseMaterialError::KnownOnlyAs(material("6061-T6"));
        for (text, error) in [
            ("", ParseMaterialError::Empty),
            ("clad", ParseMaterialError::Empty),
            ("-", ParseMaterialError::Empty),
            ("2025-T3", ParseMaterialError::UnknownAlloy),
            ("T3", ParseMaterialError::UnknownAlloy),
            ("2014", known_2014),
            ("clad 2014", known_2014),
            ("2024-T5", ParseMaterialError::UnknownTemper { alloy: "2024" }),
            ("2017-4", ParseMaterialError::UnknownTemper { alloy: "2017" }),
            ("clad 6061-T6", bare_6061),
            ("2024-T3 sheet", ParseMaterialError::UnexpectedWord),
            ("clad alclad 2024-T3", ParseMaterialError::UnexpectedWord),
            ("clad bare 2024-T3", ParseMaterialError::UnexpectedWord),
        ] {
            assert_eq!(Material::parse(text), Err(error), "{text:?}");
        }
        assert_eq!(format!("{known_2014}"), "2014 needs its temper; on file are 2014-T6");
        assert_eq!(format!("{bare_6061}"), "this material is on file only as 6061-T6");
        assert_eq!(
            format!("{}", ParseMaterialError::UnknownAlloy),
            "no such sheet alloy on file; on file are 2024, 5052, 6061, 7075, 2014, 2017, 4130; a shop enters another in its limits file, as material.NAME"
        );
    }

    #[test]
    fn a_name_of_a_shop_s_own_is_kept_as_it_is() {
        for name in ["A", "A286", "7075-T73511", "99999999999", "-", "", "ZZZZZZZZZZZ", "AZ31B-H24", "17-7PH"] {
            for surface in ["", "clad "] {
                let text = format!("{surface}{name}");
                match Material::own(&text) {
                    Ok(own) => {
                        assert_eq!(format!("{own}"), text);
                        assert_eq!((own.is_own(), own.is_clad()), (true, !surface.is_empty()), "{text}");
                        assert_eq!(own.properties(inch(".040")), None, "{text}");
                        for bits in 0..16 {
                            let number = own.with_bits(bits).expect("own");
                            assert_eq!(Material::of_bits(number), Some((own, bits)));
                        }
                    }
                    Err(_) => assert!(matches!(name, "" | "-"), "{text}"),
                }
            }
        }
        for text in ["7075-T735111", "A_286", "A286-", "-A286", "A286 sheet", "clad clad A286", "Ä286"] {
            assert_eq!(Material::own(text), Err(ParseMaterialError::NotAName), "{text}");
        }
        // By its name a temper of a known alloy is that alloy, and an annealed one is annealed.
        let of = |text: &str| Material::own(text).map(|own| (own.alloy(), own.temper()));
        assert_eq!(of("2024-T861"), Ok(("2024", "")));
        assert_eq!(of("3003-O"), Ok(("", "O")));
        for known in Material::known() {
            assert_eq!((Material::own(&format!("{known}")), known.with_bits(1)), (Ok(known), None));
        }
    }

    #[test]
    fn each_name_is_listed_once_and_every_clad_one_is_listed_bare_too() {
        let known: Vec<Material> = Material::known().collect();
        for (index, one) in known.iter().enumerate() {
            let same = |other: &Material| {
                (other.alloy(), other.temper(), other.is_clad()) == (one.alloy(), one.temper(), one.is_clad())
            };
            assert_eq!(known.iter().position(same), Some(index), "{one} twice");
            assert_eq!(
                Material::parse(&format!("bare {}-{}", one.alloy(), one.temper())).map(Material::is_clad),
                Ok(false)
            );
        }
    }

    #[test]
    fn every_column_of_the_handbook_is_reached_by_name() {
        for column in SHEETS {
            let reached = Material::known().filter(|known| known.heads(column)).count();
            assert_eq!(reached, column.temper().split(" and ").count(), "{} {}", column.alloy(), column.temper());
        }
    }

    #[test]
    fn a_material_known_by_name_alone_has_no_strengths() {
        for text in [
            "2014-T6",
            "clad 2014-T6",
            "2017",
            "clad 2017",
            "2024-T36",
            "5052",
            "2024-O",
            "clad 2024-O",
            "2024-T3511",
            "7075-T6511",
            "4130",
            "4130-N",
        ] {
            assert_eq!(material(text).properties(inch(".040")), None, "{text}");
        }
    }

    #[test]
    fn a_column_for_two_tempers_serves_both() {
        for alloy in ["6061", "7075"] {
            let of = |temper: &str| material(&format!("{alloy}-{temper}")).properties(inch(".040"));
            assert!(of("T6").is_some());
            assert_eq!(of("T6"), of("T62"), "{alloy}");
        }
    }

    #[test]
    fn a_thickness_in_a_hairline_belongs_to_the_weaker_neighbour() {
        let clad = material("clad 2024-T3");
        let ftu = |text: &str| clad.properties(inch(text)).and_then(SheetProperties::ftu).map(|ftu| ftu.ksi());
        assert_eq!((ftu(".062"), ftu("1/16"), ftu(".063")), (Some(59.0), Some(59.0), Some(61.0)));
        // Below the first column, above the last, and in no gap at all.
        assert_eq!((ftu(".0079"), ftu(".008"), ftu(".249"), ftu(".2491")), (None, Some(58.0), Some(62.0), None));
        // Thinner 7075-T6 has no bearing strengths at all: they must not be borrowed from the next column.
        assert_eq!(material("7075-T6").properties(inch(".0115")).map(|column| column.fbru_20()), Some(None));
        // Sheet up to .249, plate from .250.
        assert_eq!(material("2024-T42").properties(inch(".2495")).map(|column| column.heading().form), Some("plate"));
    }

    #[test]
    fn of_two_specifications_the_weaker_holds() {
        let clad = material("clad 7075-T6");
        let thin = clad.properties(inch(".032")).expect("a column");
        assert_eq!((thin.heading().specification, thin.ftu().map(|ftu| ftu.ksi())), ("AMS-QQ-A-250/13", Some(70.0)));
        // Equal columns: the first printed.
        assert_eq!(clad.properties(inch(".050")).map(|column| column.heading().specification), Some("AMS 4049"));
    }

    #[test]
    fn b_values_only_when_asked_for() {
        let bare = material("2024-T3");
        assert_eq!(bare.properties(inch(".040")).map(|column| column.guarantee()), Some(Guarantee::A));
        assert_eq!(bare.properties(inch(".009")).map(|column| column.guarantee()), Some(Guarantee::S));
        assert_eq!(bare.properties_b(inch(".040")).map(|column| column.guarantee()), Some(Guarantee::B));
        assert_eq!(bare.properties_b(inch(".009")), None);
    }

    #[test]
    fn the_chosen_column_is_nowhere_stronger_than_one_passed_over() {
        fn cells(of: &SheetProperties) -> [Option<crate::quantity::Stress>; 11] {
            let (tension, compression) =
                ([of.ftu_l(), of.ftu_lt(), of.fty_l(), of.fty_lt()], [of.fcy_l(), of.fcy_lt()]);
            let bearing = [of.fbru_15(), of.fbru_20(), of.fbry_15(), of.fbry_20()];
            let mut cells = [of.fsu(); 11];
            for (cell, value) in cells.iter_mut().zip(tension.into_iter().chain(compression).chain(bearing)) {
                *cell = value;
            }
            cells
        }
        // Half a thousandth apart, so that every hairline is met.
        for (known, step) in Material::known().flat_map(|known| (0..=1_000).map(move |step| (known, step * 5))) {
            let thickness = Length::from_ten_thousandths(step);
            let Some(chosen) = known.properties(thickness) else { continue };
            // Where no column holds the thickness, the neighbours do that lie within a step of it.
            let held = chosen.t_min() <= thickness && thickness <= chosen.t_max();
            let slack = if held { Length::ZERO } else { THICKNESS_STEP };
            let passed_over = SHEETS.iter().filter(|column| {
                known.heads(column)
                    && column.guarantee() != Guarantee::B
                    && column.t_min().minus(slack) <= thickness
                    && thickness <= column.t_max().plus(slack)
            });
            for column in passed_over {
                for (taken, other) in cells(chosen).iter().zip(cells(column)) {
                    assert!(
                        *taken <= other,
                        "{known} {thickness}: {} or {}",
                        chosen.heading().specification,
                        column.heading().specification
                    );
                }
            }
        }
    }
}
