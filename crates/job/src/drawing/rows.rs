//! How rows one behind the other share a load.

use shophead::quantity::Force;

use super::{Anchor, Canvas, Letters, Stroke};
use shophead::words::Units;

/// One row.
#[derive(Clone, Copy, Debug)]
pub struct RowBar {
    /// Least and greatest share of the load by the formulas used; the same where there is one.
    pub share: (f64, f64),
    /// The greatest load on one rivet, where a load was given.
    pub load: Option<Force>,
    /// Whether it carries most.
    pub is_peak: bool,
}

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct RowsDrawing<'d> {
    /// The rows, from the loaded end of the first sheet on.
    pub rows: &'d [RowBar],
    /// The share of each row if all took the same; `None` where that says nothing.
    pub equal_share: Option<f64>,
    /// The formulas, in words.
    pub formulas: &'d str,
    /// What is joined.
    pub name: &'d str,
    /// What plate A and plate B are called.
    pub plates: (&'d str, &'d str),
    /// Whether the load comes out of the other sheet behind the last row.
    pub is_lap: bool,
    /// The units of figures.
    pub units: Units,
}

const WIDTH: f64 = 640.0;
const LEFT: f64 = 70.0;
const RIGHT: f64 = 610.0;
/// Where the bars stand.
const FLOOR: f64 = 296.0;
const CEILING: f64 = 110.0;
/// Rows closer than this show their greatest share only, or no load.
const ROOM_FOR_SPAN: f64 = 92.0;
const ROOM_FOR_LOAD: f64 = 54.0;
/// More rows than this get no figure of their own but for the peak.
const MOST_FIGURES: usize = 9;

/// Draws a bar a row over a section through the joint.
#[must_use]
pub fn rows(drawing: &RowsDrawing<'_>) -> String {
    let RowsDrawing { rows, units, .. } = *drawing;
    let peak = rows.iter().position(|row| row.is_peak);
    let percent = |share: f64| format!("{} %", units.ratio((share * 1_000.0).round() / 10.0));
    let span = |row: &RowBar| {
        let (least, most) = (percent(row.share.0), percent(row.share.1));
        if least == most { most } else { format!("{} to {most}", least.trim_end_matches(" %")) }
    };
    let heading = format!("{} rows, {}", rows.len(), drawing.name);
    let mut told = String::new();
    if let Some((index, row)) = peak.and_then(|index| Some((index, rows.get(index)?))) {
        let load = row.load.map_or_else(String::new, |load| format!(", up to {} a rivet", units.force(load)));
        told = format!("Row {} carries most: {} of the load{load}", index + 1, span(row));
    }
    let mut canvas = Canvas::new(WIDTH, 440.0, &heading, &format!("{told}. By {}.", drawing.formulas));
    canvas.text((20.0, 28.0), &heading, Anchor::Start, Letters::Heading);
    canvas.text((20.0, 48.0), &told, Anchor::Start, Letters::Plain);
    canvas.text((20.0, 66.0), &format!("Elastic shares by {}", drawing.formulas), Anchor::Start, Letters::Plain);

    let least = rows.iter().map(|row| row.share.0).fold(0.0, f64::min);
    let most = rows.iter().map(|row| row.share.1).chain(drawing.equal_share).fold(0.0, f64::max);
    let all = (most - least).max(f64::MIN_POSITIVE);
    let height = |share: f64| FLOOR - (share - least) / all * (FLOOR - CEILING);
    let zero = height(0.0);
    let step = (RIGHT - LEFT) / rows.len().max(1) as f64;
    let bar = (step * 0.56).min(64.0);
    canvas.line((LEFT, zero), (RIGHT, zero), Stroke::Thin);
    if let Some(equal) = drawing.equal_share {
        let y = height(equal);
        canvas.line((LEFT, y), (RIGHT, y), Stroke::Dashed);
        canvas.text((LEFT - 6.0, y - 2.0), "equal", Anchor::End, Letters::Plain);
        canvas.text((LEFT - 6.0, y + 11.0), &percent(equal), Anchor::End, Letters::Plain);
    }
    for (index, row) in rows.iter().enumerate() {
        let middle = LEFT + step * (index as f64 + 0.5);
        let (low, high) = row.share;
        let inner = if low.abs() < high.abs() { low } else { high };
        let outer = if low.abs() < high.abs() { high } else { low };
        let box_of = |share: f64| (height(share).min(zero), (height(share) - zero).abs());
        let line = if row.is_peak { Stroke::Heavy } else { Stroke::Thin };
        let (top, tall) = box_of(outer);
        canvas.rectangle((middle - bar / 2.0, top), bar, tall, line, false);
        if low * high >= 0.0 {
            let (top, tall) = box_of(inner);
            canvas.rectangle((middle - bar / 2.0, top), bar, tall, line, true);
        }
        if row.is_peak || rows.len() <= MOST_FIGURES {
            let letters = if row.is_peak { Letters::Strong } else { Letters::Plain };
            // Beyond the end of the bar, the load further out.
            let (place, further) =
                if outer < 0.0 { (height(outer) + 16.0, 15.0) } else { (height(outer) - 7.0, -15.0) };
            let said = if step < ROOM_FOR_SPAN { percent(outer) } else { span(row) };
            canvas.text((middle, place), &said, Anchor::Middle, letters);
            if let Some(load) = row.load.filter(|_| step > ROOM_FOR_LOAD) {
                canvas.text((middle, place + further), &units.force(load).to_string(), Anchor::Middle, letters);
            }
        }
    }
    section(&mut canvas, drawing, step);
    let mut key = "Grey: what every formula used gives; white beyond it: up to the greatest.".to_owned();
    if drawing.equal_share.is_some() {
        key.push_str(" Dashed: equal shares, as taken at failure.");
    }
    canvas.text((20.0, 426.0), &key, Anchor::Start, Letters::Plain);
    canvas.finish()
}

/// Both sheets from the side, a rivet under every bar, and the load.
fn section(canvas: &mut Canvas, drawing: &RowsDrawing<'_>, step: f64) {
    const A: f64 = 336.0;
    const THICK: f64 = 12.0;
    let (first, last) = (LEFT + step / 2.0, RIGHT - step / 2.0);
    let over = (step / 2.0).min(34.0);
    let b = A + THICK;
    // Plate A runs off to the left; plate B to the right, or nowhere where it is a doubler.
    let (a_end, b_end) = if drawing.is_lap { (last + over, RIGHT) } else { (RIGHT, last + over) };
    canvas.rectangle((LEFT - 20.0, A), a_end - LEFT + 20.0, THICK, Stroke::Thin, true);
    canvas.rectangle((first - over, b), b_end - first + over, THICK, Stroke::Thin, false);
    let shank = (step * 0.2).clamp(2.0, 7.0);
    for index in 0..drawing.rows.len() {
        let middle = LEFT + step * (index as f64 + 0.5);
        canvas.line((middle, A - 3.0), (middle, b + THICK + 3.0), Stroke::Heavy);
        canvas.line((middle - shank, A - 3.0), (middle + shank, A - 3.0), Stroke::Heavy);
        canvas.line((middle - shank, b + THICK + 3.0), (middle + shank, b + THICK + 3.0), Stroke::Heavy);
        if drawing.rows.len() <= 2 * MOST_FIGURES {
            canvas.text((middle, b + THICK + 20.0), &format!("row {}", index + 1), Anchor::Middle, Letters::Plain);
        }
    }
    canvas.arrow((LEFT - 22.0, A + THICK / 2.0), (LEFT - 54.0, A + THICK / 2.0), Stroke::Heavy);
    let out = if drawing.is_lap { b } else { A } + THICK / 2.0;
    canvas.arrow((RIGHT + 2.0, out), (WIDTH - 4.0, out), Stroke::Heavy);
    canvas.text((LEFT - 22.0, A - 6.0), drawing.plates.0, Anchor::Start, Letters::Plain);
    let (x, anchor) = if drawing.is_lap { (WIDTH - 6.0, Anchor::End) } else { (first, Anchor::Middle) };
    let y = if drawing.is_lap { b + THICK + 20.0 } else { b + THICK + 36.0 };
    canvas.text((x, y), drawing.plates.1, anchor, Letters::Plain);
}
