//! Figures that a shop enters in its limits file beside its limits: series, materials, rivets, tested joints.

use shophead::basis::Basis;
use shophead::length::{Length, Toleranced};
use shophead::material::{EnteredSheet, Guarantee, Material, Property, RivetAlloy};
use shophead::practice::{Dimension, EnterError, Entered, EnteredJoint};
use shophead::quantity::{Force, Stress};
use shophead::rivet::other::NotRead;
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Series};
use shophead::stack::Preparation;

use super::cursor::{Table, Value};
use super::keys;
use super::source::{Source, nearest_or_all, quoted};
use crate::model::Cited;

/// What is read so far.
pub(super) struct Figures<'f> {
    /// The file's own document and place.
    pub(super) file: (Option<&'f str>, Option<&'f str>),
    /// How many documents stand before those of the figures.
    pub(super) before: usize,
    pub(super) documents: Vec<Cited>,
    pub(super) entered: Entered,
}

/// How a figure that a shop entered is cited.
const ENTERED_BY: &str = "entered by the shop";

impl Figures<'_> {
    /// Reads what the file has of them; mistakes go to its source.
    pub(super) fn read(&mut self, table: &Table<'_>) {
        for (span, value) in table.optional("series").and_then(|value| value.entries(FORM)).unwrap_or_default() {
            self.series(&span, &value);
        }
        for (span, value) in table.optional("material").and_then(|value| value.entries(FORM)).unwrap_or_default() {
            self.material(&span, &value);
        }
        for (span, value) in table.optional("rivet").and_then(|value| value.entries(FORM)).unwrap_or_default() {
            self.rivet(&span, &value);
        }
        for (span, value) in table.optional("flush").and_then(|value| value.entries(FORM)).unwrap_or_default() {
            self.flush(&span, &value);
        }
        for (span, value) in table.optional("plain").and_then(|value| value.entries(FORM)).unwrap_or_default() {
            self.plain(&span, &value);
        }
        for (span, value) in table.optional("tension").and_then(|value| value.entries(FORM)).unwrap_or_default() {
            self.tension(&span, &value);
        }
    }

    /// The document that a table of figures names, or the file's.
    fn basis(&mut self, table: &Table<'_>) -> Option<Basis> {
        let text = |key| table.optional(key).map_or(Some(None), |value| value.filled_text().map(Some));
        let (document, place) = (text("document")?, text("place")?);
        let Some(document) = document.or(self.file.0) else {
            table.missing("document");
            return None;
        };
        // A place in the file's document is none in another.
        let of_file = self.file.1.filter(|_| self.file.0 == Some(document));
        let cited = Cited {
            document: format!("{ENTERED_BY}: {document}"),
            place: place.or(of_file).unwrap_or_default().to_owned(),
        };
        let number = self.documents.iter().position(|known| *known == cited).unwrap_or_else(|| {
            self.documents.push(cited);
            self.documents.len() - 1
        });
        let place = self.before + number;
        if place >= Basis::OWN_MOST {
            table.source.mistake(
                table.span.clone(),
                "too many documents",
                format!("at most {} are read", Basis::OWN_MOST),
            );
            return None;
        }
        Some(Basis::own(place))
    }

    fn series(&mut self, span: &std::ops::Range<usize>, value: &Value<'_>) {
        let Some(series) = series_named(value.source, span, &value.name) else { return };
        let Some(table) = value.table(format!("series {}", series.name), &keys::SERIES) else { return };
        let Some(basis) = self.basis(&table) else { return };
        if let Some(tolerance) = table.optional("length_tolerance") {
            let either_way = tolerance.length();
            let entered = either_way.map(|either_way| self.entered.length_tolerance(series, either_way, basis));
            refused(&tolerance, entered, ".010");
        }
        let sizes = |key| table.optional(key).and_then(|value| value.entries(SIZES)).unwrap_or_default();
        for (span, value) in sizes("shank") {
            let Some(dash) = dash(&value, &span, series) else { continue };
            let shank = value.toleranced();
            let entered = shank.map(|shank| self.entered.size(series, dash, Dimension::Shank, shank, basis));
            refused(&value, entered, "1/8+.003-.001");
        }
        // Both dimensions of one head together: a protruding head needs both.
        let mut heads: Vec<(u8, [Option<Measured<'_>>; 2])> = Vec::new();
        for (index, key) in ["head_diameter", "head_height"].into_iter().enumerate() {
            for (span, value) in sizes(key) {
                let Some(dash) = dash(&value, &span, series) else { continue };
                let Some(length) = value.toleranced() else { continue };
                let at = heads.iter().position(|(known, _)| *known == dash).unwrap_or_else(|| {
                    heads.push((dash, [None, None]));
                    heads.len() - 1
                });
                heads[at].1[index] = Some((value, length));
            }
        }
        for (dash, [diameter, height]) in heads {
            let of = |given: &Option<Measured<'_>>| given.as_ref().map(|(_, length)| *length);
            let entered = self.entered.head(series, dash, of(&diameter), of(&height), basis);
            if let Some((value, _)) = diameter.or(height) {
                refused(&value, Some(entered), "head_diameter.4 = \".225+-.004\" and head_height.4 = \".042\"");
            }
        }
    }

    fn material(&mut self, span: &std::ops::Range<usize>, value: &Value<'_>) {
        let material = match Material::own(&value.name) {
            Ok(material) => material,
            Err(error) => return value.source.refused(span.clone(), &quoted(&value.name), &error),
        };
        for value in one_or_more(value) {
            let Some(table) = value.table(format!("material {material}"), &keys::MATERIAL) else { continue };
            let is_meant = table.optional("own").is_some_and(|value| value.word([("yes", ())].into_iter()).is_some());
            if let Some(near) = slip(material).filter(|_| !is_meant) {
                let help =
                    format!("right would be {}; where {material} is its name, write own = \"yes\"", quoted(&near));
                value.source.mistake(
                    span.clone(),
                    format!("no material {material} on file; did you mean {near}?"),
                    help,
                );
                return;
            }
            let Some(basis) = self.basis(&table) else { continue };
            let mut sheet = Some(EnteredSheet::new(material, basis));
            let mut figures = 0;
            if let Some(range) = table.optional("thickness") {
                sheet = sheet.zip(thickness(&range)).map(|(sheet, (least, most))| sheet.between(least, most));
            }
            let letters = [("A", Guarantee::A), ("B", Guarantee::B), ("S", Guarantee::S)];
            if let Some(value) = table.optional("basis") {
                let guarantee = value.word(letters.into_iter());
                sheet = sheet.zip(guarantee).map(|(sheet, guarantee)| sheet.guaranteed(guarantee));
            }
            for property in Property::ALL {
                if let Some(value) = table.optional(property.as_str()) {
                    figures += 1;
                    let stress = stress(&value);
                    sheet = sheet.zip(stress).map(|(sheet, stress)| sheet.with(*property, stress));
                }
            }
            if let Some(value) = table.optional("bend_radius") {
                figures += 1;
                let radius = value.distance();
                sheet = sheet.zip(radius).map(|(sheet, radius)| sheet.with_bend_radius(radius));
            }
            if let Some(value) = table.optional("density") {
                figures += 1;
                let density = density(&value);
                sheet = sheet.zip(density).map(|(sheet, density)| sheet.with_density_lb_in3(density));
            }
            if figures == 0 {
                table.source.mistake(
                    table.span.clone(),
                    format!("material {material} has no figure"),
                    "right would be bearing_ultimate_20 = \"119 ksi\"",
                );
                continue;
            }
            let entered = sheet.map(|sheet| self.entered.sheet(sheet));
            refused(&value, entered, "one table for each range of thickness");
        }
    }

    fn rivet(&mut self, span: &std::ops::Range<usize>, value: &Value<'_>) {
        let Some(alloy) = RivetAlloy::ALL.iter().copied().find(|known| known.alloy().eq_ignore_ascii_case(&value.name))
        else {
            let help = nearest_or_all(&value.name, RivetAlloy::ALL.iter().map(|alloy| alloy.alloy()));
            return value.source.mistake(span.clone(), format!("{} is no rivet alloy", quoted(&value.name)), help);
        };
        let Some(table) = value.table(format!("rivet {}", alloy.alloy()), &keys::RIVET) else { return };
        let Some(basis) = self.basis(&table) else { return };
        if let Some(value) = table.required("shear_ultimate") {
            let entered = stress(&value).map(|shear| self.entered.shear(alloy, shear, basis));
            refused(&value, entered, "30 ksi");
        }
    }

    fn flush(&mut self, span: &std::ops::Range<usize>, value: &Value<'_>) {
        let Some(part) = family(value, span) else { return };
        if !part.series().head.is_flush() {
            let message = format!("{} has no flush head", part.series().name);
            return value.source.mistake(span.clone(), message, "right would be a flush rivet such as MS20426AD4");
        }
        for value in one_or_more(value) {
            if let Some(table) = value.table(format!("flush joint {}", part.without_length()), &keys::FLUSH) {
                let seats = [Preparation::Countersunk, Preparation::Dimpled].map(|seat| (seat.as_str(), seat));
                let seat = table.required("seat").and_then(|value| value.word(seats.into_iter()));
                self.joint(&value, &table, &part, seat);
            }
        }
    }

    fn plain(&mut self, span: &std::ops::Range<usize>, value: &Value<'_>) {
        let Some(part) = family(value, span) else { return };
        for value in one_or_more(value) {
            if let Some(table) = value.table(format!("plain joint {}", part.without_length()), &keys::PLAIN) {
                self.joint(&value, &table, &part, Some(Preparation::Plain));
            }
        }
    }

    /// A tested joint of a rivet.
    fn joint(&mut self, value: &Value<'_>, table: &Table<'_>, part: &Part<'static>, seat: Option<Preparation>) {
        let Some(basis) = self.basis(table) else { return };
        let material = table.required("material").and_then(|value| {
            let refused = |error| value.source.refused(value.span.clone(), "material", &error);
            Material::among(value.filled_text()?, self.entered.materials()).map_err(refused).ok()
        });
        let thickness = table.required("thickness").and_then(|value| value.distance());
        let edge = table.optional("edge").map_or(Some(None), |value| value.distance().map(Some));
        let ultimate = table.required("ultimate").and_then(|value| force(&value));
        let yields = table.optional("yield").map_or(Some(None), |value| force(&value).map(Some));
        let (Some(material), Some(thickness), Some(seat)) = (material, thickness, seat) else { return };
        let (Some(ultimate), Some(yields), Some(edge)) = (ultimate, yields, edge) else { return };
        let joint = EnteredJoint::new(part, seat, (material, thickness), ultimate, basis);
        let joint = edge.map_or(joint, |edge| joint.at_edge(edge));
        let joint = yields.map_or(joint, |load| joint.yielding_at(load));
        refused(value, Some(self.entered.joint(joint)), "one table for each sheet and edge distance");
    }
}

impl Figures<'_> {
    fn tension(&mut self, span: &std::ops::Range<usize>, value: &Value<'_>) {
        let Some(part) = family(value, span) else { return };
        let Some(table) = value.table(format!("tension of {}", part.without_length()), &keys::TENSION) else { return };
        let Some(basis) = self.basis(&table) else { return };
        if let Some(value) = table.required("ultimate") {
            let entered = force(&value).map(|force| self.entered.tension(&part, force, basis));
            refused(&value, entered, "120");
        }
    }
}

/// The rivet that a table is named after.
fn family(value: &Value<'_>, span: &std::ops::Range<usize>) -> Option<Part<'static>> {
    let refused = |error| value.source.refused(span.clone(), &quoted(&value.name), &error);
    Part::parse(&value.name).map_err(refused).ok()
}

/// A length and where it stands.
type Measured<'a> = (Value<'a>, Toleranced);

/// How the tables of a group are written.
const FORM: &str = "tables such as [series.NAS1241]";
/// How the sizes of one dimension are written.
const SIZES: &str = "a figure for each dash number, as in head_height.4 = \".042\"";

/// A table, or each of a list of tables.
fn one_or_more<'a>(value: &Value<'a>) -> Vec<Value<'a>> {
    if value.is_list() { value.list(&value.name).unwrap_or_default() } else { vec![value.clone()] }
}

/// The material on file that the name of a shop's own is one slip away from: a letter more, fewer or another, or two exchanged.
fn slip(own: Material) -> Option<String> {
    let written = own.to_string();
    let mut known = Material::known().map(|known| known.to_string()).filter(|_| own.is_own());
    known.find(|known| strsim::osa_distance(&written, known) == 1)
}

/// Says why a figure is not entered.
fn refused(value: &Value<'_>, entered: Option<Result<(), EnterError>>, right: &str) {
    if let Some(Err(error)) = entered {
        value.mistake(format!("{}: {error}", value.name), format!("right would be {right}"));
    }
}

fn series_named(source: &Source<'_>, span: &std::ops::Range<usize>, name: &str) -> Option<&'static Series<'static>> {
    let named = |series: &&&Series<'static>| {
        let names = [series.name].into_iter().chain(series.also.iter().chain(series.supersedes).copied());
        names.into_iter().any(|known| known.eq_ignore_ascii_case(name))
    };
    let found = CATALOGUE.iter().find(named).copied();
    if found.is_none() {
        match NotRead::named(name) {
            Some(other) => source.mistake(span.clone(), other.to_string(), ""),
            None => {
                let help = nearest_or_all(name, CATALOGUE.iter().map(|series| series.name));
                source.mistake(span.clone(), format!("{} is not a series known here", quoted(name)), help);
            }
        }
    }
    found
}

/// The dash number that a key is.
fn dash(value: &Value<'_>, span: &std::ops::Range<usize>, series: &Series<'_>) -> Option<u8> {
    let found = value.name.parse().ok().filter(|dash| series.size(*dash).is_some());
    if found.is_none() {
        let known: Vec<String> = series.sizes.iter().map(|size| size.dash.to_string()).collect();
        let help = format!("right would be a dash number: {}", known.join(", "));
        value.source.mistake(span.clone(), format!("{} has no size {}", series.name, quoted(&value.name)), help);
    }
    found
}

/// `.050 to .249`, or one thickness.
fn thickness(value: &Value<'_>) -> Option<(Length, Length)> {
    let written = value.written()?;
    let (least, most) = written.split_once(" to ").unwrap_or((written, written));
    match (Length::parse(least.trim()), Length::parse(most.trim())) {
        (Ok(least), Ok(most)) if Length::ZERO < least && least <= most => Some((least, most)),
        (Err(error), _) | (_, Err(error)) => {
            value.source.refused(value.span.clone(), "thickness", &error);
            None
        }
        _ => {
            let message = format!("thickness cannot be {}", quoted(written));
            value.mistake(message, "right would be \".050 to .249\"");
            None
        }
    }
}

fn stress(value: &Value<'_>) -> Option<Stress> {
    match Stress::parse(value.written()?) {
        Ok(stress) if stress > Stress::ZERO => Some(stress),
        Ok(_) => {
            value.mistake(format!("{} must be above zero", value.name), "right would be \"38 ksi\"");
            None
        }
        Err(error) => {
            value.source.refused(value.span.clone(), &value.name, &error);
            None
        }
    }
}

/// `.101 lb/in3` or `2.80 g/cm3`, in pounds per cubic inch.
fn density(value: &Value<'_>) -> Option<f64> {
    /// A pound and a cubic inch are defined by these.
    const GRAMS: f64 = 453.592_37;
    const CUBIC_CENTIMETRES: f64 = 16.387_064;
    let written = value.written()?.trim();
    let (number, per) = match written.strip_suffix("g/cm3") {
        Some(number) => (number, CUBIC_CENTIMETRES / GRAMS),
        None => (written.strip_suffix("lb/in3").unwrap_or(written), 1.0),
    };
    let read = number.trim().parse::<f64>().ok().map(|number| number * per);
    // Whatever is riveted is heavier than balsa and lighter than gold.
    let read = read.filter(|density| (0.005..0.8).contains(density));
    if read.is_none() {
        value.mistake(
            format!("density cannot be {}", quoted(written)),
            "right would be \".101 lb/in3\" or \"2.80 g/cm3\"",
        );
    }
    read
}

fn force(value: &Value<'_>) -> Option<Force> {
    match Force::parse(value.written()?) {
        Ok(force) => Some(force),
        Err(error) => {
            value.source.refused(value.span.clone(), &value.name, &error);
            None
        }
    }
}
