//! How a basis is written: most of an answer in JSON is where its figures come from, and a few documents are named again and again.

use std::cell::RefCell;
use std::collections::HashMap;

use serde::{Serialize, Serializer};
use serde_json::value::{RawValue, to_raw_value};

use super::{Basis, Status};

/// The three ways.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Way {
    /// Field by field, each on a line of its own where somebody reads it.
    #[default]
    Fields,
    /// As a text that is kept, with neither blanks nor line ends.
    Kept,
    /// By its number. [`new`] says what the numbers are.
    Numbers,
}

/// Bases whose text is kept.
const PLACES: usize = 256;

#[derive(Default)]
struct Bases {
    way: Way,
    /// By where their texts lie; looked at whether it is the same text before it is taken.
    kept: Vec<Option<(Named, Box<RawValue>)>>,
    numbers: HashMap<Named, u32>,
    /// Numbered and not told yet.
    new: Vec<(u32, Named)>,
}

/// What a basis says.
#[derive(Clone, PartialEq, Eq, Hash)]
struct Named {
    document: String,
    place: String,
    status: Status,
}

impl Named {
    fn of(basis: &Basis<'_>) -> Named {
        Named { document: basis.document.to_owned(), place: basis.place.to_owned(), status: basis.status }
    }

    fn is(&self, basis: &Basis<'_>) -> bool {
        self.status == basis.status && self.place == basis.place && self.document == basis.document
    }
}

thread_local! {
    static BASES: RefCell<Bases> = RefCell::default();
}

/// Writes bases like this from now on, until what is given back is dropped.
pub(crate) fn written(way: Way) -> Written {
    let before = BASES.with_borrow_mut(|bases| std::mem::replace(&mut bases.way, way));
    Written(before)
}

/// While it is held, bases are written in one way.
#[must_use]
pub(crate) struct Written(Way);

impl Drop for Written {
    fn drop(&mut self) {
        BASES.with_borrow_mut(|bases| {
            bases.way = self.0;
            bases.numbers.clear();
            bases.new.clear();
        });
    }
}

/// A basis with its number: what later numbers mean.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct NumberedBasis {
    /// Its number.
    pub(crate) basis: u32,
    /// The document, or common practice.
    document: String,
    /// Paragraph, table or page in it; may be empty.
    place: String,
    /// How well the figure is known.
    status: Status,
}

/// The bases that were written by a number for the first time since it was last asked.
pub(crate) fn new() -> Vec<NumberedBasis> {
    let new = BASES.with_borrow_mut(|bases| std::mem::take(&mut bases.new));
    let numbered = |(basis, Named { document, place, status })| NumberedBasis { basis, document, place, status };
    new.into_iter().map(numbered).collect()
}

impl Bases {
    fn number(&mut self, basis: &Basis<'_>) -> u32 {
        let named = Named::of(basis);
        if let Some(known) = self.numbers.get(&named) {
            return *known;
        }
        // Never cut: there are thousands of documents at most.
        let number = self.numbers.len() as u32 + 1;
        self.numbers.insert(named.clone(), number);
        self.new.push((number, named));
        number
    }

    fn kept(&mut self, basis: &Basis<'_>) -> Result<&RawValue, serde_json::Error> {
        if self.kept.is_empty() {
            self.kept.resize_with(PLACES, || None);
        }
        let lies = |text: &str| text.as_ptr().addr();
        let mixed =
            lies(basis.place).wrapping_mul(31).wrapping_add(lies(basis.document)).wrapping_add(basis.place.len());
        let place = &mut self.kept[(mixed ^ mixed >> 8) % PLACES];
        if place.as_ref().is_none_or(|(named, _)| !named.is(basis)) {
            *place = Some((Named::of(basis), to_raw_value(&Fields::of(basis))?));
        }
        // It was put there.
        Ok(place.as_ref().map_or(RawValue::NULL, |(_, text)| text))
    }
}

#[derive(Serialize)]
struct Fields<'b> {
    document: &'b str,
    place: &'b str,
    status: Status,
}

impl<'b> Fields<'b> {
    fn of(basis: &'b Basis<'_>) -> Fields<'b> {
        Fields { document: basis.document, place: basis.place, status: basis.status }
    }
}

/// Field by field, whatever way is wanted: among the fields of something else.
pub(crate) fn fields<S: Serializer>(basis: &Basis<'_>, serializer: S) -> Result<S::Ok, S::Error> {
    Fields::of(basis).serialize(serializer)
}

impl Serialize for Basis<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        BASES.with_borrow_mut(|bases| match bases.way {
            Way::Fields => Fields::of(self).serialize(serializer),
            Way::Kept => bases.kept(self).map_err(serde::ser::Error::custom)?.serialize(serializer),
            Way::Numbers => serializer.serialize_u32(bases.number(self)),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{json, to_string, to_value};

    #[test]
    fn a_basis_is_the_same_in_every_way() {
        let bases: Vec<(String, String)> =
            (0..2 * PLACES).map(|n| (format!("doc \"{}\"", n % 40), n.to_string())).collect();
        let bases: Vec<Basis<'_>> = bases
            .iter()
            .map(|(document, place)| Basis { document, place, status: shophead::basis::Status::Shop.into() })
            .collect();
        let fields = to_string(&bases).expect("texts");
        {
            let _kept = written(Way::Kept);
            for _ in 0..2 {
                assert_eq!(to_string(&bases).expect("texts"), fields);
            }
        }
        let _numbers = written(Way::Numbers);
        assert_eq!(to_value(bases.get(..2).expect("bases")).expect("numbers"), json!([1, 2]));
        let told: Vec<_> = new().into_iter().map(|basis| (basis.basis, basis.document, basis.place)).collect();
        assert_eq!(told, [(1, "doc \"0\"".to_owned(), "0".to_owned()), (2, "doc \"1\"".to_owned(), "1".to_owned())]);
        assert!(to_value(&bases[1]).expect("a number") == json!(2) && new().is_empty());
    }
}
