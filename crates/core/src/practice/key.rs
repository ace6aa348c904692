//! What a figure that is not on file is called in a limits file.

use core::fmt;

use super::Name;
use crate::material::{Material, Property, RivetAlloy};
use crate::rivet::part::Part;
use crate::rivet::{CATALOGUE, Series};

/// A figure of one size of a series that can be entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Dimension {
    /// The shank with its tolerance.
    Shank,
    /// The diameter of the manufactured head.
    HeadDiameter,
    /// The height of the manufactured head.
    HeadHeight,
}

impl Dimension {
    /// Every one of them.
    pub const ALL: [Dimension; 3] = [Dimension::Shank, Dimension::HeadDiameter, Dimension::HeadHeight];

    /// The word that a limits file has for it.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Dimension::Shank => "shank",
            Dimension::HeadDiameter => "head_diameter",
            Dimension::HeadHeight => "head_height",
        }
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

/// The names of [`CATALOGUE`], in its order: by them a series is found without every series being linked into whatever names a key.
const SERIES: &[&str] =
    &["MS20470", "MS20426", "NAS1097", "NAS1241", "NAS1242", "NAS9313", "MS20427", "MS20615", "MS20613", "NAS1198"];

fn series(part: &Part<'_>) -> Option<u8> {
    place(SERIES, |known| *known == part.series().name)
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

    /// The key of this number, as [`Key::number`] gives it; `None` where none has it.
    #[must_use]
    pub fn from_number(number: u64) -> Option<Key> {
        let key = Key(number);
        key.entry().map(|_| key)
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
            SIZE => Some(Entry::Size(series(a)?, b, Dimension::ALL.into_iter().find(|known| *known as u8 == c)?)),
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
    use super::*;

    #[test]
    fn the_names_are_those_of_the_catalogue() {
        assert!(SERIES.iter().copied().eq(CATALOGUE.iter().map(|series| series.name)));
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
            }
        }
    }
}
