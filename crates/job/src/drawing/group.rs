//! A group of rivets under its load.

use shophead::joint::group::{Group, GroupRivet, PlaneLoad};
use shophead::layout::Point;
use shophead::length::Length;

use super::{Anchor, Canvas, Letters, Stroke, TEXT};
use shophead::words::Units;

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct GroupDrawing<'d> {
    /// The rivets.
    pub rivets: &'d [GroupRivet],
    /// Their diameters, in the same order.
    pub diameters: &'d [Length],
    /// The shares.
    pub group: &'d Group<'d>,
    /// The load.
    pub load: PlaneLoad,
    /// What the group is of.
    pub name: &'d str,
    /// The units of figures.
    pub units: Units,
}

const WIDTH: f64 = 640.0;
/// Room for the group with its load.
const FIELD: f64 = 470.0;
const MARGIN: f64 = 92.0;
const TOP: f64 = 62.0;
/// The longest arrow of a rivet.
const LONGEST: f64 = 80.0;
/// The arrow of the load; not to the scale of those of the rivets, and its figure says so.
const LOAD_ARROW: f64 = 58.0;
/// With more rivets than this only the worst gets a figure.
const MOST_FIGURES: usize = 16;

/// Draws rivets, the load on each as an arrow, the load itself, centroid and turning point. y goes up, as in the points.
#[must_use]
pub fn group(drawing: &GroupDrawing<'_>) -> String {
    let GroupDrawing { rivets, group, load, units, .. } = *drawing;
    let worst = group.worst.map_or(group.most_loaded, |worst| worst.rivet);
    let size = |force: shophead::quantity::Force| units.force(force).to_string();
    let worst_load = rivets.get(worst).map(|rivet| group.share(rivet).total().size());
    let inches = |point: Point| (point.x.to_inches_f64(), point.y.to_inches_f64());
    let view =
        View::around(rivets.iter().map(|rivet| inches(rivet.at)).chain([inches(group.centroid), inches(load.at)]));

    let heading = format!("{} rivets, {}", rivets.len(), drawing.name);
    let whole = libm::hypot(load.x.lbf(), load.y.lbf());
    let whole = shophead::quantity::Force::from_lbf(whole);
    let mut told = format!("Load {}", size(whole));
    if let Some(worst_load) = worst_load {
        told.push_str(&format!("; rivet {} carries most, {}", worst + 1, size(worst_load)));
    }
    if let Some(found) = group.worst {
        told = format!(
            "Load {}; rivet {} is the worst: {}, margin {:+.2}",
            size(whole),
            worst + 1,
            worst_load.map_or_else(String::new, size),
            found.margin.value
        );
    }
    let height = TOP + view.height + 2.0 * MARGIN + 76.0;
    let mut canvas =
        Canvas::new(WIDTH, height, &heading, &format!("{told}. An arrow at each rivet shows the load on it."));
    canvas.text((20.0, 28.0), &heading, Anchor::Start, Letters::Heading);
    canvas.text((20.0, 48.0), &told, Anchor::Start, Letters::Plain);

    let at = |point: Point| view.place(inches(point));
    // The arm: from the centroid to the line of the load.
    canvas.line(at(group.centroid), at(load.at), Stroke::Dashed);
    let greatest = group.shares().map(|share| share.total().size().lbf()).fold(0.0, f64::max);
    let radius = |index: usize| {
        let diameter = drawing.diameters.get(index).map_or(0.0, |diameter| diameter.to_inches_f64());
        (diameter / 2.0 * view.scale).clamp(3.5, 14.0)
    };
    for (index, rivet) in rivets.iter().enumerate() {
        let line = if index == worst { Stroke::Heavy } else { Stroke::Thin };
        canvas.circle(at(rivet.at), radius(index), line, false);
    }
    for (index, rivet) in rivets.iter().enumerate() {
        let total = group.share(rivet).total();
        let from = at(rivet.at);
        let reach = if greatest > 0.0 { LONGEST / greatest } else { 0.0 };
        let to = (from.0 + total.x.lbf() * reach, from.1 - total.y.lbf() * reach);
        canvas.arrow(from, to, if index == worst { Stroke::Heavy } else { Stroke::Middle });
        if index == worst || rivets.len() <= MOST_FIGURES {
            let letters = if index == worst { Letters::Strong } else { Letters::Plain };
            // On the side that the arrow does not take.
            let down = total.y.lbf() < 0.0;
            let above = from.1 - radius(index) - 5.0;
            let below = from.1 + radius(index) + TEXT;
            let place = (from.0, if down { above } else { below });
            canvas.text(place, &format!("{}: {}", index + 1, size(total.size())), Anchor::Middle, letters);
        }
    }
    let (x, y) = at(group.centroid);
    canvas.line((x - 7.0, y), (x + 7.0, y), Stroke::Heavy);
    canvas.line((x, y - 7.0), (x, y + 7.0), Stroke::Heavy);
    if let Some((x, y)) = group.rotation_centre.map(at).filter(|place| view.holds(*place)) {
        canvas.circle((x, y), 6.0, Stroke::Dashed, false);
        canvas.circle((x, y), 1.6, Stroke::Thin, true);
    }
    if whole > shophead::quantity::Force::ZERO {
        let to = at(load.at);
        let (ux, uy) = (load.x.lbf() / whole.lbf(), -load.y.lbf() / whole.lbf());
        let end = (to.0 + ux * LOAD_ARROW, to.1 + uy * LOAD_ARROW);
        canvas.circle(to, 3.0, Stroke::Thin, true);
        canvas.arrow(to, end, Stroke::Heavy);
        let beside = (to.0, to.1 - uy.signum() * 10.0 + if uy > 0.0 { 0.0 } else { TEXT });
        canvas.text(beside, &format!("load {}", size(whole)), Anchor::Middle, Letters::Strong);
    }
    legend(&mut canvas, &view, drawing, height);
    canvas.finish()
}

fn legend(canvas: &mut Canvas, view: &View, drawing: &GroupDrawing<'_>, height: f64) {
    let y = height - 46.0;
    canvas.line((26.0, y - 4.0), (40.0, y - 4.0), Stroke::Heavy);
    canvas.line((33.0, y - 11.0), (33.0, y + 3.0), Stroke::Heavy);
    canvas.text((50.0, y), "centroid", Anchor::Start, Letters::Plain);
    if drawing
        .group
        .rotation_centre
        .is_some_and(|centre| view.holds(view.place((centre.x.to_inches_f64(), centre.y.to_inches_f64()))))
    {
        canvas.circle((133.0, y - 4.0), 6.0, Stroke::Dashed, false);
        canvas.circle((133.0, y - 4.0), 1.6, Stroke::Thin, true);
        canvas.text((146.0, y), "the plate turns about this point", Anchor::Start, Letters::Plain);
    }
    canvas.text(
        (26.0, y + 24.0),
        "Arrows at rivets are to one scale; that of the load is not. Heavy: the worst rivet. Elastic shares.",
        Anchor::Start,
        Letters::Plain,
    );
    // A scale of lengths, a round number of units about a sixth of the field.
    let per_unit = match drawing.units {
        Units::Inches => view.scale,
        Units::Millimetres => view.scale / 25.4,
    };
    let wanted = FIELD / 6.0 / per_unit;
    let step = libm::exp10(libm::log10(wanted).floor());
    let length = [5.0, 2.0, 1.0].into_iter().map(|times| times * step).find(|length| *length <= wanted).unwrap_or(step);
    let (right, width) = (WIDTH - 26.0, length * per_unit);
    canvas.line((right - width, y - 4.0), (right, y - 4.0), Stroke::Thin);
    for end in [right - width, right] {
        canvas.line((end, y - 8.0), (end, y), Stroke::Thin);
    }
    let unit = drawing.units.length_unit();
    canvas.text(
        (right - width / 2.0, y - 11.0),
        &format!("{} {unit}", drawing.units.ratio(length)),
        Anchor::Middle,
        Letters::Plain,
    );
}

/// How inches on the panel become places on the canvas.
struct View {
    left: f64,
    top: f64,
    scale: f64,
    /// Where the middle of the group stands on the canvas.
    shift: f64,
    height: f64,
}

impl View {
    fn around(points: impl Iterator<Item = (f64, f64)>) -> View {
        let (mut left, mut right, mut bottom, mut top) = (f64::MAX, f64::MIN, f64::MAX, f64::MIN);
        for (x, y) in points {
            (left, right, bottom, top) = (left.min(x), right.max(x), bottom.min(y), top.max(y));
        }
        let (width, height) = ((right - left).max(0.0), (top - bottom).max(0.0));
        // Something of an inch even where all stand at one point.
        let scale = (FIELD / width.max(0.25)).min(FIELD / height.max(0.25));
        View { left, top, scale, shift: (WIDTH - width * scale) / 2.0, height: height * scale }
    }

    fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (self.shift + (x - self.left) * self.scale, TOP + MARGIN + (self.top - y) * self.scale)
    }

    fn holds(&self, (x, y): (f64, f64)) -> bool {
        x > 10.0 && x < WIDTH - 10.0 && y > TOP && y < TOP + self.height + 2.0 * MARGIN
    }
}
