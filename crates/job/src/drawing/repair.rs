//! A repair laid flat: outlines of sheets and openings, every rivet, and the distances to mark out.

use shophead::layout::Point;
use shophead::length::Length;
use shophead::words::Units;

use super::{Anchor, Canvas, Letters, Stroke, TEXT};
use crate::repair::PlacedRivet;

/// A rectangle with round corners, drawn in its place.
#[derive(Clone, Debug)]
pub struct Outline {
    /// Its lower left corner.
    pub from: Point,
    /// Its upper right corner.
    pub to: Point,
    /// Radius of its corners.
    pub radius: Length,
    /// How heavy it is drawn.
    pub line: Stroke,
    /// What it is.
    pub name: String,
    /// Whether that is written above it, not inside at the top.
    pub above: bool,
}

/// A distance that is marked out.
#[derive(Clone, Debug)]
pub struct MarkedDistance {
    /// One end.
    pub from: Point,
    /// The other; as high as the first, or straight above it.
    pub to: Point,
    /// Which line of dimensions it is on, counted from 1 outside the drawing: below for those along x, to the left for those along y.
    pub place: u8,
    /// What it is; its figure is written behind.
    pub name: &'static str,
}

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct RepairDrawing<'d> {
    /// The name of the drawing.
    pub heading: &'d str,
    /// One line under it.
    pub told: &'d str,
    /// Outlines, the first one behind the others.
    pub outlines: &'d [Outline],
    /// The rivets.
    pub places: &'d [PlacedRivet],
    /// Distances.
    pub dimensions: &'d [MarkedDistance],
    /// What x and y are, for the foot.
    pub axes: &'d str,
    /// The units of figures.
    pub units: Units,
}

const WIDTH: f64 = 760.0;
/// The field for the drawing itself.
const FIELD_WIDTH: f64 = 600.0;
const FIELD_HEIGHT: f64 = 620.0;
const LEFT: f64 = 130.0;
const TOP: f64 = 74.0;
/// From the drawing to the first line of dimensions, and from each to the next.
const AWAY: f64 = 26.0;
/// A rivet is drawn no smaller.
const LEAST_RADIUS: f64 = 1.7;

/// Draws a repair. Filled rivets count for the load, open ones hold the sheets down.
#[must_use]
pub fn repair(drawing: &RepairDrawing<'_>) -> String {
    let view = View::of(drawing);
    let below =
        drawing.dimensions.iter().filter(|dimension| is_level(dimension)).map(|dimension| dimension.place).max();
    let foot = TOP + view.height + AWAY * (f64::from(below.unwrap_or(0)) + 1.0);
    let height = foot + 60.0;
    let mut canvas = Canvas::new(WIDTH, height, drawing.heading, drawing.told);
    canvas.text((20.0, 28.0), drawing.heading, Anchor::Start, Letters::Heading);
    canvas.text((20.0, 48.0), drawing.told, Anchor::Start, Letters::Plain);
    for outline in drawing.outlines {
        let (from, to) = (view.at(outline.from), view.at(outline.to));
        let radius = view.length(outline.radius);
        canvas.rounded((from.0, to.1), to.0 - from.0, from.1 - to.1, radius, outline.line);
    }
    for place in drawing.places {
        let radius = view.length(place.diameter.times_half()).max(LEAST_RADIUS);
        let line = if place.counts { Stroke::Middle } else { Stroke::Thin };
        canvas.circle(view.at(place.at), radius, line, place.counts);
    }
    for outline in drawing.outlines.iter().filter(|outline| !outline.name.is_empty()) {
        let (from, to) = (view.at(outline.from), view.at(outline.to));
        if outline.above {
            canvas.text((from.0, to.1 - 6.0), &outline.name, Anchor::Start, Letters::Strong);
            continue;
        }
        let middle =
            ((from.0 + to.0) / 2.0, if from.1 - to.1 > 60.0 { to.1 + TEXT + 4.0 } else { (from.1 + to.1) / 2.0 });
        canvas.text(middle, &outline.name, Anchor::Middle, Letters::Strong);
    }
    for dimension in drawing.dimensions {
        dimensioned(&mut canvas, &view, dimension, drawing.units);
    }
    let has_open = drawing.places.iter().any(|place| !place.counts);
    let mut legend = "Filled rivets count for the load.".to_owned();
    if has_open {
        legend.push_str(" Open ones hold the sheets down.");
    }
    canvas.text((20.0, foot + 16.0), &legend, Anchor::Start, Letters::Plain);
    canvas.text((20.0, foot + 34.0), drawing.axes, Anchor::Start, Letters::Plain);
    canvas.finish()
}

trait Half {
    fn times_half(self) -> Length;
}

impl Half for Length {
    fn times_half(self) -> Length {
        Length::from_nanometres(self.nanometres() / 2).unwrap_or_default()
    }
}

fn is_level(dimension: &MarkedDistance) -> bool {
    dimension.from.y == dimension.to.y
}

fn dimensioned(canvas: &mut Canvas, view: &View, dimension: &MarkedDistance, units: Units) {
    let (from, to) = (view.at(dimension.from), view.at(dimension.to));
    let along = dimension.from.distance(dimension.to);
    let text = format!("{} {}", dimension.name, units.size(along));
    let text = text.trim_start();
    let out = AWAY * f64::from(dimension.place);
    if is_level(dimension) {
        let y = TOP + view.height + out;
        for end in [from, to] {
            canvas.line((end.0, end.1), (end.0, y + 4.0), Stroke::Thin);
        }
        canvas.line((from.0, y), (to.0, y), Stroke::Thin);
        // Beside a short one, over the middle of a long one.
        let (left, right) = (from.0.min(to.0), from.0.max(to.0));
        if right - left > 8.0 * text.len() as f64 {
            canvas.text(((left + right) / 2.0, y - 4.0), text, Anchor::Middle, Letters::Plain);
        } else {
            canvas.text((right + 6.0, y + 4.0), text, Anchor::Start, Letters::Plain);
        }
    } else {
        let x = LEFT - out;
        for end in [from, to] {
            canvas.line((end.0, end.1), (x - 4.0, end.1), Stroke::Thin);
        }
        canvas.line((x, from.1), (x, to.1), Stroke::Thin);
        let middle = (from.1 + to.1) / 2.0;
        canvas.turned((x - 4.0, middle), text);
    }
}

/// How places of the repair become places on the canvas: y goes up.
struct View {
    left: f64,
    top: f64,
    scale: f64,
    height: f64,
}

fn inches(length: Length) -> f64 {
    length.to_inches_f64()
}

impl View {
    fn of(drawing: &RepairDrawing<'_>) -> View {
        let (mut left, mut right, mut bottom, mut top) = (f64::MAX, f64::MIN, f64::MAX, f64::MIN);
        let corners = drawing.outlines.iter().flat_map(|outline| [outline.from, outline.to]);
        for point in corners.chain(drawing.places.iter().map(|place| place.at)) {
            (left, right) = (left.min(inches(point.x)), right.max(inches(point.x)));
            (bottom, top) = (bottom.min(inches(point.y)), top.max(inches(point.y)));
        }
        let (width, height) = ((right - left).max(0.25), (top - bottom).max(0.25));
        let scale = (FIELD_WIDTH / width).min(FIELD_HEIGHT / height);
        View { left, top, scale, height: height * scale }
    }

    fn at(&self, point: Point) -> (f64, f64) {
        (LEFT + (inches(point.x) - self.left) * self.scale, TOP + (self.top - inches(point.y)) * self.scale)
    }

    fn length(&self, length: Length) -> f64 {
        inches(length) * self.scale
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch(text: &str) -> Length {
        Length::parse(text).unwrap()
    }

    fn drawn(names_above: bool, places: &[PlacedRivet]) -> String {
        let outline = Outline {
            from: Point::default(),
            to: Point { x: inch("4"), y: inch("2") },
            radius: inch("1/4"),
            line: Stroke::Heavy,
            name: "a < b".to_owned(),
            above: names_above,
        };
        let right = Point { x: inch("4"), y: Length::ZERO };
        let dimension = |to: Point, name| MarkedDistance { from: Point::default(), to, place: 1, name };
        let up = Point { x: Length::ZERO, y: inch("2") };
        repair(&RepairDrawing {
            heading: "Patch",
            told: "two rivets",
            outlines: &[outline],
            places,
            dimensions: &[dimension(right, "long"), dimension(up, "")],
            axes: "x to the right",
            units: Units::Inches,
        })
    }

    #[test]
    fn every_rivet_is_drawn_filled_where_it_counts() {
        let place = |x, counts| PlacedRivet {
            at: Point { x: inch(x), y: inch("1") },
            diameter: inch("1/8"),
            part: "end".to_owned(),
            row: 1,
            counts,
        };
        let svg = drawn(false, &[place("1", true), place("3", false)]);
        assert_eq!(svg.matches("<circle").count(), 2);
        assert!(svg.contains("Open ones hold") && svg.contains("a &lt; b") && svg.contains("long 4<"), "{svg}");
        // 600 for 4 in: the middle of the plate is 300 from its left, 150 from its top.
        assert!(svg.contains(r##"cx="280" cy="224" r="9.38" fill="#000""##), "{svg}");
        assert!(svg.contains(r#"transform="rotate(-90"#) && svg.contains(">2</text>"), "{svg}");
        assert!(!drawn(false, &[place("1", true)]).contains("Open ones"));
        let above = drawn(true, &[]);
        assert!(above.contains(r#"x="130" y="68" text-anchor="start""#), "{above}");
    }
}
