//! What comes out of a sized repair besides its figures: the places of its rivets as a points file, and what to order.
//!
//! ```
//! use shophead::layout::Point;
//! use shophead::length::Length;
//! use shophead::words::Units;
//! use shophead_job::repair::{PlacedRivet, points_csv};
//! let place = PlacedRivet { at: Point::default(), diameter: Length::parse("1/8").unwrap(), part: "end".to_owned(), row: 1, counts: true };
//! assert_eq!(points_csv(&[place], Units::Inches), "x,y,diameter,part,row,counts\n0,0,0.125,end,1,yes\n");
//! ```

use std::fmt::Write;

use shophead::layout::Point;
use shophead::length::Length;
use shophead::material::Material;
use shophead::quantity::Mass;
use shophead::words::Units;

use crate::cell::bare_or_in_quotes;
use crate::order::OrderLine;

/// A rivet or bolt of a repair.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedRivet {
    /// Its source.
    pub at: Point,
    /// Its diameter.
    pub diameter: Length,
    /// What it belongs to: a side, a leg, a filler.
    pub part: String,
    /// Its row there, counted from 1.
    pub row: u32,
    /// Whether it counts for the load.
    pub counts: bool,
}

/// A sheet to be cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it is for.
    pub what: String,
    /// What it is made of.
    pub material: Material,
    /// How thick it is.
    pub thickness: Length,
    /// One side.
    pub along: Length,
    /// The other.
    pub across: Length,
    /// How many.
    pub count: u32,
    /// What they weigh, where known.
    pub mass: Option<Mass>,
}

/// What is neither a rivet nor a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    /// What it is.
    pub what: String,
    /// How many.
    pub count: u32,
}

/// A length as a cell: exact, millimetres with their unit.
fn cell(length: Length, units: Units) -> String {
    let (text, unit) = match units {
        Units::Inches => (format!("{length:.7}"), ""),
        Units::Millimetres => (format!("{:.6}", length.in_millimetres()), "mm"),
    };
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    let text = if matches!(text, "-0" | "") { "0" } else { text };
    format!("{text}{unit}")
}

/// The places as a points file, which `group` reads.
#[must_use]
pub fn points_csv(places: &[PlacedRivet], units: Units) -> String {
    let mut csv = "x,y,diameter,part,row,counts\n".to_owned();
    for place in places {
        let [x, y, diameter] = [place.at.x, place.at.y, place.diameter].map(|length| cell(length, units));
        let counts = if place.counts { "yes" } else { "no" };
        // Writing to a string does not fail.
        let _ = writeln!(csv, "{x},{y},{diameter},{},{},{counts}", bare_or_in_quotes(&place.part), place.row);
    }
    csv
}

/// The order as a file: rivets, sheets to cut, and what else there is.
#[must_use]
pub fn order_csv(rivets: &[OrderLine<'_>], pieces: &[Piece], others: &[Other], units: Units) -> String {
    let (length, mass) = match units {
        Units::Inches => ("in", "lb"),
        Units::Millimetres => ("mm", "g"),
    };
    let mut csv = format!("item,needed,spares,buy,thickness_{length},along_{length},across_{length},mass_{mass}\n");
    let weight = |mass: Option<Mass>| {
        mass.map_or_else(String::new, |mass| match units {
            Units::Inches => format!("{:.4}", mass.lb()),
            Units::Millimetres => format!("{:.2}", mass.grams()),
        })
    };
    for line in rivets {
        let _ = writeln!(csv, "{},{},{},{},,,,{}", line.part, line.needed, line.spares, line.buy, weight(line.mass));
    }
    for other in others {
        let _ = writeln!(csv, "{},{},0,{},,,,", bare_or_in_quotes(&other.what), other.count, other.count);
    }
    for piece in pieces {
        let [thickness, along, across] = [piece.thickness, piece.along, piece.across]
            .map(|length| cell(length, units).trim_end_matches("mm").to_owned());
        let count = piece.count;
        let (what, mass) = (format!("{} {}", piece.material, piece.what), weight(piece.mass));
        let _ = writeln!(csv, "{what},{count},0,{count},{thickness},{along},{across},{mass}");
    }
    csv
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch(text: &str) -> Length {
        Length::parse(text).expect("a length")
    }

    #[test]
    fn a_cell_reads_back_as_the_same_length() {
        for nm in [0, 1, -1, 396_875, -198_437, 25_400_000, 123_456_789] {
            let length = Length::from_nanometres(nm).expect("in range");
            for units in [Units::Inches, Units::Millimetres] {
                let read = Length::parse(&cell(length, units)).expect("a length");
                let off = (read.nanometres() - nm).abs();
                // Seven decimals of an inch are two and a half nanometres.
                assert!(off <= if units == Units::Inches { 1 } else { 0 }, "{nm}: {}", cell(length, units));
            }
        }
    }

    #[test]
    fn an_order_has_rivets_sheets_and_the_rest() {
        let piece = Piece {
            what: "patch".to_owned(),
            material: Material::parse("clad 2024-T3").expect("known"),
            thickness: inch(".032"),
            along: inch("4.5"),
            across: inch("6"),
            count: 1,
            mass: Some(Mass::from_lb(0.0864)),
        };
        let bolts = Other { what: "AN3 bolt".to_owned(), count: 8 };
        let csv = order_csv(&[], &[piece], &[bolts], Units::Inches);
        assert_eq!(
            csv,
            "item,needed,spares,buy,thickness_in,along_in,across_in,mass_lb\nAN3 bolt,8,0,8,,,,\n\
             clad 2024-T3 patch,1,0,1,0.032,4.5,6,0.0864\n"
        );
    }
}
