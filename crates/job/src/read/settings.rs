//! What a shop has settled for every job: practice, limits, units of what is printed.

use shophead::length::Bare;
use shophead::practice::Practice;

use super::cursor::{Table, root};
use super::job::{UNITS, built_in};
use super::keys;
use super::source::Source;

/// What a shop has settled, from a settings file.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Settings {
    /// The built-in practice.
    pub practice: Option<&'static Practice<'static>>,
    /// The name of its limits file.
    pub limits: Option<String>,
    /// The units of what is printed.
    pub units: Option<Bare>,
}

pub(super) fn settings(source: &Source<'_>) -> Option<Settings> {
    let document = root(source, &source.text)?;
    let table = Table::new(source, document.get_ref(), 0..0, "the settings file".into(), &keys::SETTINGS);
    let practice = table.optional("practice").map_or(Some(None), |value| value.word(built_in()).map(Some));
    let limits = table.optional("limits").map_or(Some(None), |value| value.filled_text().map(Some));
    let units = table.optional("units").map_or(Some(None), |value| value.word(UNITS.into_iter()).map(Some));
    Some(Settings { practice: practice?, limits: limits?.map(str::to_owned), units: units? })
}
