//! What a figure that is not on file is called in a limits file.

use core::fmt;
use core::str::FromStr;

use super::Name;
use crate::length::split_once;
use crate::material::{Material, Property, RivetAlloy};
use crate::rivet::part::Part;
use crate::rivet::{CATALOGUE, NAMES, Series};

crate::words::words! {
    /// A figure of one size of a series that can be entered.
    #[non_exhaustive]
    Dimension, "figure of a size" {
        Shank = 1, "shank", "The shank with its tolerance.";
        HeadDiameter = 2, "head_diameter", "The diameter of the manufactured head.";
        HeadHeight = 3, "head_height", "The height of the manufactured head.";
    }
}

/// What a key is for.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Entry {
    /// A limit.
    Limit(Name),
    /// A dimension of one size, by its dash number.
    Size(&'static Series<'static>, u8, Dimension),
    /// A property of a sheet.
    Sheet(Material, Property),
    /// The least bend radius of a sheet.
    BendRadius(Material),
    /// The density of a sheet.
    Density(Material),
    /// Ultimate shear of a driven rivet's alloy.
    Shear(RivetAlloy),
    /// Loads of joints with a flush rivet in countersunk or dimpled sheet: series, alloy, dash number.
    FlushJoint(&'static Series<'static>, RivetAlloy, u8),
    /// Loads of joints in plain sheet that is thinner, or nearer to its edge, than the published strengths cover: series, alloy, dash number.
    PlainJoint(&'static Series<'static>, RivetAlloy, u8),
    /// What a driven rivet carries along its shank: series, alloy, dash number.
    Tension(&'static Series<'static>, RivetAlloy, u8),
}

crate::words::errors! {
    /// Why a text is not a key of a limits file.
    ParseKeyError = (29, "not-a-key", "A text is not a key of a limits file.",
        "not a key of a limits file", "right would be series.NAS1241.head_height.4, material.\"clad 2024-T3\".tension_ultimate or limit.pitch-least")
    {
        NoSuchTable, "key-table", "It begins with another word than the tables of a limits file.",
            "a key begins with limit, series, material, rivet, flush, plain or tension", "";
        NoSuchName, "key-name", "Nothing on file has the name behind the table.",
            "nothing on file has this name", "";
        NoSuchFigure, "key-figure", "The table has no such figure, or none of this size.",
            "no such figure in this table", "";
    }
}

/// What a figure that is not on file is called in a limits file: what to enter there. [`Display`](fmt::Display) writes it as TOML does, so that
/// `key = value` at the top of the file enters it.
///
/// ```
/// use shophead::material::{Material, Property};
/// use shophead::practice::{Dimension, Entry, Key};
/// use shophead::rivet::part::Part;
/// let part = Part::parse("NAS1241AD4")?;
/// let head = Key::of_size(&part, Dimension::HeadHeight).unwrap();
/// assert_eq!(head.to_string(), "series.NAS1241.head_height.4");
/// assert_eq!(head.entry(), Some(Entry::Size(&shophead::rivet::NAS1241, 4, Dimension::HeadHeight)));
/// let sheet = Key::of_sheet(Material::parse("clad 2024-O")?, Property::ShearUltimate);
/// assert_eq!(sheet.to_string(), "material.\"clad 2024-O\".shear_ultimate");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Key(u64);

/// The kinds, in the highest byte of a key.
const LIMIT: u8 = 1;
const SIZE: u8 = 2;
const SHEET: u8 = 3;
const BEND: u8 = 4;
const SHEAR: u8 = 5;
const FLUSH: u8 = 6;
const DENSITY: u8 = 7;
const TENSION: u8 = 8;
const PLAIN: u8 = 9;
/// What stands for a radius and a density where a property stands, beside the name of a material of a shop's own.
const OWN_BEND: u8 = 14;
const OWN_DENSITY: u8 = 15;
const _: () = assert!(Property::ALL.len() < OWN_BEND as usize);

/// The place of something in a list, in one byte.
fn place<T>(list: &[T], is_it: impl FnMut(&T) -> bool) -> Option<u8> {
    list.iter().position(is_it).and_then(|place| u8::try_from(place).ok())
}

fn series(part: &Part<'_>) -> Option<u8> {
    place(NAMES, |known| *known == part.series().name)
}

fn alloy(alloy: RivetAlloy) -> u8 {
    place(RivetAlloy::ALL, |known| *known == alloy).unwrap_or_default()
}

impl Key {
    const fn new(kind: u8, rest: [u8; 3]) -> Key {
        let [a, b, c] = rest;
        Key(u32::from_be_bytes([kind, a, b, c]) as u64)
    }

    /// What is said of a material: by its place in the list, or by its name.
    fn of_material(material: Material, kind: u8, property: u8, own: u8) -> Key {
        match material.place() {
            Some(place) => Key::new(kind, [place, property, 0]),
            None => Key(material.with_bits(own).unwrap_or_default()),
        }
    }

    /// A limit that is asked for by this name.
    #[must_use]
    pub const fn of_limit(name: Name) -> Key {
        Key::new(LIMIT, [name.number() as u8, 0, 0])
    }

    /// A dimension of a rivet; `None` where its series is the caller's own.
    #[must_use]
    pub fn of_size(part: &Part<'_>, dimension: Dimension) -> Option<Key> {
        Some(Key::new(SIZE, [series(part)?, part.size().dash, dimension as u8]))
    }

    /// A property of a sheet.
    #[must_use]
    pub fn of_sheet(material: Material, property: Property) -> Key {
        Key::of_material(material, SHEET, property as u8, property as u8)
    }

    /// The least bend radius of a sheet.
    #[must_use]
    pub fn of_bend_radius(material: Material) -> Key {
        Key::of_material(material, BEND, 0, OWN_BEND)
    }

    /// The density of a sheet.
    #[must_use]
    pub fn of_density(material: Material) -> Key {
        Key::of_material(material, DENSITY, 0, OWN_DENSITY)
    }

    /// Ultimate shear of a driven rivet of this alloy.
    #[must_use]
    pub fn of_shear(of: RivetAlloy) -> Key {
        Key::new(SHEAR, [alloy(of), 0, 0])
    }

    /// Loads of joints with this flush rivet in countersunk or dimpled sheet; `None` where its series is the caller's own.
    #[must_use]
    pub fn of_flush_joint(part: &Part<'_>) -> Option<Key> {
        Some(Key::new(FLUSH, [series(part)?, alloy(part.alloy()), part.size().dash]))
    }

    /// Loads of joints with this rivet in plain sheet; `None` where its series is the caller's own.
    #[must_use]
    pub fn of_plain_joint(part: &Part<'_>) -> Option<Key> {
        Some(Key::new(PLAIN, [series(part)?, alloy(part.alloy()), part.size().dash]))
    }

    /// What this rivet carries along its shank; `None` where its series is the caller's own.
    #[must_use]
    pub fn of_tension(part: &Part<'_>) -> Option<Key> {
        Some(Key::new(TENSION, [series(part)?, alloy(part.alloy()), part.size().dash]))
    }

    /// Reads a key as [`Display`](fmt::Display) writes it. A material may be one of a shop's own.
    ///
    /// # Errors
    /// [`ParseKeyError`].
    ///
    /// ```
    /// use shophead::practice::{Key, ParseKeyError};
    /// for text in ["limit.pitch-least", "series.NAS1241.head_height.4", "material.\"clad 2024-T3\".shear_ultimate", "plain.MS20470AD5"] {
    ///     assert_eq!(Key::parse(text)?.to_string(), text);
    /// }
    /// assert_eq!(Key::parse("material.A286.tension_ultimate")?.to_string(), "material.A286.tension_ultimate");
    /// assert_eq!(Key::parse("series.NAS1241.head_height.44"), Err(ParseKeyError::NoSuchFigure));
    /// # Ok::<(), ParseKeyError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Key, ParseKeyError> {
        let (table, rest) = first_part(text.trim());
        let (name, figure) = first_part(rest.unwrap_or_default());
        let figure = figure.unwrap_or_default();
        let family = || Part::parse(name).map_err(|_| ParseKeyError::NoSuchName);
        let alone = |key: Option<Key>| key.filter(|_| figure.is_empty()).ok_or(ParseKeyError::NoSuchFigure);
        match table {
            "limit" => {
                let limit = name.parse().map_err(|_| ParseKeyError::NoSuchName)?;
                alone(Some(Key::of_limit(limit)))
            }
            "series" => {
                let at = place(NAMES, |known| known.eq_ignore_ascii_case(name)).ok_or(ParseKeyError::NoSuchName)?;
                let (dimension, dash) = first_part(figure);
                let dimension = Dimension::ALL.iter().copied().find(|known| known.as_str() == dimension);
                let dash = dash.and_then(|dash| dash.parse::<u8>().ok());
                let dash =
                    dash.filter(|dash| CATALOGUE.get(usize::from(at)).is_some_and(|known| known.size(*dash).is_some()));
                let (dimension, dash) = dimension.zip(dash).ok_or(ParseKeyError::NoSuchFigure)?;
                Ok(Key::new(SIZE, [at, dash, dimension as u8]))
            }
            "material" => {
                let material = Material::own(name).map_err(|_| ParseKeyError::NoSuchName)?;
                match figure {
                    "bend_radius" => Ok(Key::of_bend_radius(material)),
                    "density" => Ok(Key::of_density(material)),
                    _ => {
                        let property = Property::ALL.iter().find(|known| known.as_str() == figure);
                        Ok(Key::of_sheet(material, *property.ok_or(ParseKeyError::NoSuchFigure)?))
                    }
                }
            }
            "rivet" => {
                let known = RivetAlloy::ALL.iter().find(|known| known.alloy().eq_ignore_ascii_case(name));
                let of = *known.ok_or(ParseKeyError::NoSuchName)?;
                if figure == "shear_ultimate" { Ok(Key::of_shear(of)) } else { Err(ParseKeyError::NoSuchFigure) }
            }
            "flush" => {
                let part = family()?;
                alone(Key::of_flush_joint(&part).filter(|_| part.series().head.is_flush()))
            }
            "plain" => alone(Key::of_plain_joint(&family()?)),
            "tension" => {
                let key = Key::of_tension(&family()?).filter(|_| figure == "ultimate");
                key.ok_or(ParseKeyError::NoSuchFigure)
            }
            _ => Err(ParseKeyError::NoSuchTable),
        }
    }

    /// The key of this number, as [`Key::number`] gives it; `None` where none has it.
    #[must_use]
    pub fn from_number(number: u64) -> Option<Key> {
        let key = Key(number);
        let is_named = match key.entry()? {
            Entry::Sheet(material, _) | Entry::BendRadius(material) | Entry::Density(material) => material.has_name(),
            _ => true,
        };
        is_named.then_some(key)
    }

    pub(crate) const fn of_bits(bits: u64) -> Key {
        Key(bits)
    }

    /// The key as a number: for one version of this crate.
    #[must_use]
    pub const fn number(self) -> u64 {
        self.0
    }

    /// What it is for.
    #[must_use]
    pub fn entry(self) -> Option<Entry> {
        if let Some((material, property)) = Material::of_bits(self.0) {
            return match property {
                OWN_BEND => Some(Entry::BendRadius(material)),
                OWN_DENSITY => Some(Entry::Density(material)),
                _ => Property::ALL.get(usize::from(property)).map(|property| Entry::Sheet(material, *property)),
            };
        }
        let [kind, a, b, c] = u32::try_from(self.0).ok()?.to_be_bytes();
        let series = |at: u8| CATALOGUE.get(usize::from(at)).copied();
        let alloy = |at: u8| RivetAlloy::ALL.get(usize::from(at)).copied();
        match kind {
            LIMIT => Name::ALL.iter().copied().find(|name| name.number() == u32::from(a)).map(Entry::Limit),
            SIZE => Some(Entry::Size(series(a)?, b, Dimension::ALL.get(usize::from(c)).copied()?)),
            SHEET => Some(Entry::Sheet(Material::at(a)?, Property::ALL.get(usize::from(b)).copied()?)),
            BEND => Material::at(a).map(Entry::BendRadius),
            DENSITY => Material::at(a).map(Entry::Density),
            SHEAR => alloy(a).map(Entry::Shear),
            FLUSH => Some(Entry::FlushJoint(series(a)?, alloy(b)?, c)),
            PLAIN => Some(Entry::PlainJoint(series(a)?, alloy(b)?, c)),
            TENSION => Some(Entry::Tension(series(a)?, alloy(b)?, c)),
            _ => None,
        }
    }
}

impl FromStr for Key {
    type Err = ParseKeyError;

    fn from_str(text: &str) -> Result<Key, ParseKeyError> {
        Key::parse(text)
    }
}

/// What stands before the first point, without the quotes around it, and behind it.
fn first_part(text: &str) -> (&str, Option<&str>) {
    if let Some((name, behind)) = text.strip_prefix('"').and_then(|text| split_once(text, |c| c == '"')) {
        return (name, behind.strip_prefix('.'));
    }
    split_once(text, |c| c == '.').map_or((text, None), |(before, behind)| (before, Some(behind)))
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.entry() {
            Some(Entry::Limit(name)) => write!(f, "limit.{name}"),
            Some(Entry::Size(series, dash, dimension)) => {
                write!(f, "series.{}.{}.{dash}", series.name, dimension.as_str())
            }
            Some(Entry::Sheet(material, property)) => {
                write_material(f, material)?;
                write!(f, ".{property}")
            }
            Some(Entry::BendRadius(material)) => {
                write_material(f, material)?;
                f.write_str(".bend_radius")
            }
            Some(Entry::Density(material)) => {
                write_material(f, material)?;
                f.write_str(".density")
            }
            Some(Entry::Shear(of)) if of.alloy().contains(' ') => write!(f, "rivet.\"{}\".shear_ultimate", of.alloy()),
            Some(Entry::Shear(of)) => write!(f, "rivet.{}.shear_ultimate", of.alloy()),
            Some(Entry::FlushJoint(series, of, dash)) => {
                f.write_str("flush.")?;
                write_family(f, series, of, dash)
            }
            Some(Entry::PlainJoint(series, of, dash)) => {
                f.write_str("plain.")?;
                write_family(f, series, of, dash)
            }
            Some(Entry::Tension(series, of, dash)) => {
                f.write_str("tension.")?;
                write_family(f, series, of, dash)?;
                f.write_str(".ultimate")
            }
            None => Ok(()),
        }
    }
}

fn write_family(f: &mut fmt::Formatter<'_>, series: &'static Series<'static>, of: RivetAlloy, dash: u8) -> fmt::Result {
    let code = series.material_of(of).map_or("", |material| material.code);
    let family = series.size(dash).and_then(|size| Part::new(series, code, size).ok());
    family.map_or(Ok(()), |family| write!(f, "{family}"))
}

fn write_material(f: &mut fmt::Formatter<'_>, material: Material) -> fmt::Result {
    if material.is_clad() { write!(f, "material.\"{material}\"") } else { write!(f, "material.{material}") }
}

impl fmt::Debug for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Key({self})")
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;

    #[test]
    fn the_names_are_those_of_the_catalogue() {
        assert!(NAMES.iter().copied().eq(CATALOGUE.iter().map(|series| series.name)));
    }

    #[test]
    fn a_number_without_a_name_is_no_key() {
        for number in [0, 1, u64::MAX, 1 << 63, u64::from(u32::MAX), 0x8000_0000_0000_0025] {
            assert_eq!(Key::from_number(number), None, "{number:x}");
        }
    }

    #[test]
    fn what_is_no_key_is_refused() {
        use ParseKeyError::{NoSuchFigure, NoSuchName, NoSuchTable};
        for (text, error) in [
            ("", NoSuchTable),
            ("joint.MS20470AD4", NoSuchTable),
            ("limit.pitch", NoSuchName),
            ("limit.pitch-least.4", NoSuchFigure),
            ("series.NAS1.shank.4", NoSuchName),
            ("series.NAS1241.shank", NoSuchFigure),
            ("series.NAS1241.shank.200", NoSuchFigure),
            ("material.A_286.density", NoSuchName),
            ("material.\"clad 2024-T3.density", NoSuchName),
            ("material.A286.colour", NoSuchFigure),
            ("rivet.2118.shear_ultimate", NoSuchName),
            ("rivet.2117.shear", NoSuchFigure),
            ("flush.MS20470AD4", NoSuchFigure),
            ("plain.MS20470AD4.ultimate", NoSuchFigure),
            ("tension.MS20470AD4", NoSuchFigure),
            ("tension.MS20470AD7.ultimate", NoSuchName),
        ] {
            assert_eq!(Key::parse(text), Err(error), "{text}");
        }
    }

    #[test]
    fn a_key_of_a_material_is_found_again_by_its_number() {
        for text in ["2024-T3", "clad 2024-O", "clad 7075-T73511", "A286"] {
            let material = Material::own(text).unwrap();
            let sheet = Property::ALL.iter().map(|property| Entry::Sheet(material, *property));
            for entry in sheet.chain([Entry::BendRadius(material), Entry::Density(material)]) {
                let key = match entry {
                    Entry::Sheet(material, property) => Key::of_sheet(material, property),
                    Entry::BendRadius(material) => Key::of_bend_radius(material),
                    _ => Key::of_density(material),
                };
                assert_eq!((key.entry(), Key::from_number(key.number())), (Some(entry), Some(key)));
                assert_eq!(Key::parse(&key.to_string()), Ok(key));
            }
        }
    }
}
