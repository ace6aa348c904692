//! What most tests begin with: a text made into what it says, and a panic where it says nothing.
#![allow(
    clippy::missing_panics_doc,
    reason = "each panics where its text cannot be read, which is a mistake in the test"
)]

use shophead::finding::Findings;
use shophead::length::Length;
use shophead::material::Material;
use shophead::pattern::{PatternLimits, tally};
use shophead::practice::{Case, Practice};
use shophead::rivet::CATALOGUE;
use shophead::rivet::part::Part;

/// A thousandth of an inch, in nanometres.
pub const THOUSANDTH: i64 = 25_400;

/// A length in nanometres that is known to be in range.
#[must_use]
pub fn nm(nanometres: i64) -> Length {
    Length::from_nanometres(nanometres).expect("in range")
}

/// What speaks against stepping up these holes of a pattern of one row, by their rising numbers.
#[must_use]
pub fn of_pattern(
    stepped: impl IntoIterator<Item = u32>,
    total: u32,
    practice: &Practice<'_>,
    case: &Case,
) -> Findings {
    let (steps, run) = tally(stepped.into_iter().map(|hole| (0, hole)));
    PatternLimits::of(total, practice, [*case]).check(steps, run)
}

/// `.125`, `1/8`, `3.2mm`.
#[must_use]
pub fn length(text: &str) -> Length {
    Length::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// Inches of a fixture, to the nearest nanometre.
#[must_use]
pub fn inches(value: f64) -> Length {
    Length::try_from_inches_f64(value).unwrap_or_else(|| panic!("{value} in is no length"))
}

/// As it is typed, to the nanometre: `3.302000mm`.
#[must_use]
pub fn exact(length: Length) -> String {
    let nanometres = length.nanometres();
    format!("{}.{:06}mm", nanometres / 1_000_000, nanometres % 1_000_000)
}

/// `MS20470AD4`.
#[must_use]
pub fn part(text: &str) -> Part<'static> {
    Part::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// Every family of rivets in the catalogue: each series, size and alloy.
pub fn families() -> impl Iterator<Item = Part<'static>> {
    let in_catalogue = CATALOGUE.iter().flat_map(|series| series.sizes.iter().map(move |size| (series, size)));
    in_catalogue.flat_map(|(series, size)| {
        series.materials.iter().filter_map(move |material| Part::new(series, material.code, size).ok())
    })
}

/// `clad 2024-T3`.
#[must_use]
pub fn material(text: &str) -> Material {
    Material::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// The same with something changed.
pub fn changed<T>(mut value: T, change: impl FnOnce(&mut T)) -> T {
    change(&mut value);
    value
}
