//! The map of a job: every row with its holes, what becomes of each, cuts and damage.
//!
//! Rows whose holes have coordinates are drawn to scale in one picture, with the cuts and the damage; the others row under row at their
//! pitch. What becomes of a hole is told by the shape of its mark and a letter in it.
//!
//! Of the published drafting symbols only two are used, which everybody in the trade reads, as in ASME Y14.2: the centre line of long and short
//! dashes, and the dimension line that ends in arrowheads. The marks of the holes are this program's own.

use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::hole::Disposition;
use shophead::layout::Point;
use shophead::length::Length;
use shophead::trim::Cut;

use super::{Anchor, At, Canvas, Letters, Stroke, TEXT};
use crate::model::Axes;
use crate::plan::{HolePlan, Plan, RowCut, RowPlan};
use shophead::words::Units;

use crate::words::{self, ADVISORY};

/// The width of every sheet, in pixels of CSS.
const WIDTH: f64 = 720.0;
const SIDE: f64 = 14.0;
/// The greatest mark.
const RADIUS: f64 = 8.5;
/// The least mark that still has its letter inside.
const LETTERED: f64 = 6.5;
/// From the first hole of a line to the last.
const LINE: f64 = WIDTH - 2.0 * SIDE - 2.0 * RADIUS;
/// Marks stand at least this far apart where the scale can be chosen.
const APART: f64 = 2.0 * RADIUS + 2.0;
/// What a row without a pitch is drawn at.
const EVEN: f64 = 28.0;
/// The highest picture to scale; it stays on one page.
const HIGHEST: f64 = 700.0;
/// The greatest scale, in pixels an inch.
const LARGEST: f64 = 150.0;
/// A row of more lines than this leaves out those without a hole that differs.
const MOST_LINES: usize = 6;
/// Every so many holes have a number.
const NUMBERED: u32 = 5;
/// An average letter.
const LETTER: f64 = 6.6;

/// How a hole is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Mark {
    /// As its row says.
    Like,
    /// Measured, and kept as it is.
    Keep,
    /// Kept or not measured, but with layers, an edge distance, room or a rivet of its own.
    Own,
    /// Cleaned up for the same rivet.
    CleanUp,
    /// Opened for an oversize shank.
    Oversize,
    /// Opened for the next diameter.
    NextSize,
    /// Referred.
    Refer,
    /// Referred, and answered: it goes by its answer.
    Answered,
}

impl Mark {
    /// Every mark, from the least change on.
    pub const ALL: [Mark; 8] =
        [Mark::Like, Mark::Keep, Mark::Own, Mark::CleanUp, Mark::Oversize, Mark::NextSize, Mark::Refer, Mark::Answered];

    /// The mark of what becomes of a measured hole.
    #[must_use]
    pub const fn of(disposition: Disposition) -> Mark {
        match disposition {
            Disposition::Keep => Mark::Keep,
            Disposition::CleanUp => Mark::CleanUp,
            Disposition::Oversize => Mark::Oversize,
            Disposition::NextSize => Mark::NextSize,
            Disposition::Refer => Mark::Refer,
        }
    }

    /// The letter in it; empty where it has none.
    #[must_use]
    pub const fn letter(self) -> &'static str {
        match self {
            Mark::Like => "",
            Mark::Keep => "K",
            Mark::Own => "L",
            Mark::CleanUp => "C",
            Mark::Oversize => "O",
            Mark::NextSize => "N",
            Mark::Refer => "R",
            Mark::Answered => "A",
        }
    }

    /// What it means.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Mark::Like => "as the row says",
            Mark::Keep => "measured, keep",
            Mark::Own => "its own layers, edge, room or rivet",
            Mark::CleanUp => "clean up",
            Mark::Oversize => "oversize shank",
            Mark::NextSize => "next diameter",
            Mark::Refer => "refer, do not open",
            Mark::Answered => "answered: go by the answer",
        }
    }
}

/// One sheet of a map: a drawing by itself, low enough for one page.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct MapSheet {
    /// What is on it.
    pub title: String,
    /// The drawing.
    pub svg: String,
    /// Whether it says something about the next one and should not stand alone at the foot of a page.
    pub with_next: bool,
}

/// The whole map as one drawing.
///
/// ```
/// use shophead_job::model::Job;
/// use shophead_job::plan::Plan;
/// use shophead::words::Units;
/// use shophead_job::drawing;
/// let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/marsh-float/job.toml");
/// let job = Job::read(path.as_ref()).expect("the demo job reads");
/// let (own, documents) = job.own_limits.lists();
/// let practice = job.practice.with_own(&own, &documents);
/// let svg = drawing::map(&Plan::make(&job, &practice), Units::Inches);
/// assert!(svg.contains("aft edge") && svg.contains(">L1<"));
/// ```
#[must_use]
pub fn map(plan: &Plan<'_>, units: Units) -> String {
    let drawn = Map { plan, units };
    let bands = drawn.bands();
    let title = &plan.job.title;
    let head = 62.0;
    let height = head + bands.iter().map(|band| band.height).sum::<f64>() + SIDE;
    let described: Vec<&str> = bands.iter().map(|band| band.title.as_str()).collect();
    let mut canvas = Canvas::new(WIDTH, height, title, &described.join(" "));
    canvas.text((SIDE, 28.0), &fitting(title, WIDTH - 2.0 * SIDE, LETTER * 1.5), Anchor::Start, Letters::Heading);
    canvas.text((SIDE, 48.0), ADVISORY, Anchor::Start, Letters::Plain);
    let mut top = head;
    for band in &bands {
        drawn.draw(band, &mut canvas, top);
        top += band.height;
    }
    canvas.finish()
}

/// The map in sheets, for paper: first the key, which belongs on every page of it, then the picture to scale where there is one, and the rows.
#[must_use]
pub fn sheets(plan: &Plan<'_>, units: Units) -> Vec<MapSheet> {
    let drawn = Map { plan, units };
    let bands = drawn.bands();
    let goes_on = |band: &Band| {
        matches!(&band.what, What::Strip(strip) if !strip.is_first) || matches!(band.what, What::Skipped(_))
    };
    let sheet = |(index, band): (usize, &Band)| {
        let mut canvas = Canvas::new(WIDTH, band.height, &band.title, "");
        drawn.draw(band, &mut canvas, 0.0);
        let is_row = matches!(&band.what, What::Strip(strip) if strip.lines <= MOST_LINES as u32);
        let with_next = matches!(band.what, What::RowsBegin(_)) || is_row && bands.get(index + 1).is_some_and(goes_on);
        MapSheet { svg: canvas.finish(), title: band.title.clone(), with_next }
    };
    bands.iter().enumerate().map(sheet).collect()
}

/// A piece of the map, as wide as it and with nothing beside it.
struct Band {
    title: String,
    height: f64,
    what: What,
}

enum What {
    Key(Key),
    Panel(Panel),
    /// What is said before the rows, with their scale in pixels an inch.
    RowsBegin(f64),
    Strip(Strip),
    Skipped(String),
}

/// Neighbouring holes of a row on one line.
struct Strip {
    row: usize,
    first: u32,
    last: u32,
    /// From hole to hole.
    step: f64,
    is_first: bool,
    /// How many lines its row has.
    lines: u32,
}

struct Map<'m, 'j> {
    plan: &'m Plan<'j>,
    units: Units,
}

impl<'m, 'j> Map<'m, 'j> {
    fn bands(&self) -> Vec<Band> {
        let key = Key::of(self.plan);
        let mut bands = vec![Band { title: "Key to the marks.".into(), height: key.height, what: What::Key(key) }];
        if let Some(panel) = Panel::of(self.plan) {
            let title = self.panel_title();
            bands.push(Band {
                title,
                height: panel.height
                    + panel.below
                    + 2.0 * MARGIN
                    + 46.0
                    + self.rows_with_places().count() as f64 * ROW_LINE,
                what: What::Panel(panel),
            });
        }
        let schematic: Vec<(usize, &RowPlan<'j>)> =
            self.plan.rows.iter().enumerate().filter(|(_, row)| !row.row.has_places()).collect();
        if schematic.is_empty() {
            return bands;
        }
        let closest =
            schematic.iter().filter_map(|(_, row)| row.layout.pitch).filter(|pitch| *pitch > Length::ZERO).min();
        let least = closest.map_or(0.0, |pitch| (APART / pitch.to_inches_f64()).min(LARGEST));
        // Then as large as the longest line lets them be.
        let longest = schematic.iter().map(|(_, row)| {
            let step = step_at(row, least);
            f64::from(holes_a_line(row.row.count, step).saturating_sub(1)) * step
        });
        let longest = longest.fold(0.0, f64::max);
        let scale = if longest > 0.0 { (least * (LINE / longest).clamp(1.0, 1.6)).min(LARGEST) } else { least };
        bands.push(Band { title: "Rows without coordinates.".into(), height: 58.0, what: What::RowsBegin(scale) });
        for (index, row) in schematic {
            self.strips(index, row, step_at(row, scale), &mut bands);
        }
        bands
    }

    /// The lines of a row, of about the same length.
    fn strips(&self, index: usize, row: &RowPlan<'j>, step: f64, bands: &mut Vec<Band>) {
        let count = row.row.count.max(1);
        let each = holes_a_line(count, step);
        let lines = count.div_ceil(each);
        let mut skipped: Option<(u32, u32)> = None;
        let end = |skipped: &mut Option<(u32, u32)>, bands: &mut Vec<Band>| {
            if let Some((first, last)) = skipped.take() {
                let title = format!("Row {} holes {first} to {last}: nothing differs.", row.row.name);
                bands.push(Band { height: 24.0, what: What::Skipped(title.clone()), title });
            }
        };
        for line in 0..lines {
            let first = line * each + 1;
            let last = (first + each - 1).min(count);
            if first > count {
                break;
            }
            let kinds = holes_between(row, first, last).iter().map(|hole| mark(row, Some(hole)));
            let differs = kinds.into_iter().any(|kind| !matches!(kind, Mark::Like | Mark::Keep));
            let is_plain = !differs && line > 0 && lines as usize > MOST_LINES;
            if is_plain {
                skipped = Some((skipped.map_or(first, |(first, _)| first), last));
                continue;
            }
            end(&mut skipped, bands);
            let strip = Strip { row: index, first, last, step, is_first: line == 0, lines };
            let short = !self.edges_to_tell(row, first, last, line == 0).is_empty();
            let mut height = 46.0 + if line == 0 { 24.0 } else { 0.0 } + if short { 30.0 } else { 4.0 };
            if self.damage_on(&strip).next().is_some() {
                height += 20.0;
            }
            bands.push(Band { title: self.strip_title(row, first, last), height, what: What::Strip(strip) });
        }
        end(&mut skipped, bands);
    }

    /// What is on a line, for those who do not see it.
    fn strip_title(&self, row: &RowPlan<'j>, first: u32, last: u32) -> String {
        let mut told: Vec<String> = Vec::new();
        for kind in Mark::ALL.iter().filter(|kind| **kind != Mark::Like) {
            let holes = holes_between(row, first, last).iter().filter(|hole| mark(row, Some(hole)) == *kind);
            let numbers: Vec<u32> = holes.map(|hole| hole.number).collect();
            if !numbers.is_empty() {
                told.push(format!("{} {}", kind.meaning(), words::ranges(&numbers)));
            }
        }
        let rest = mark(row, None).meaning();
        let told =
            if told.is_empty() { format!("all {rest}") } else { format!("{}; the others {rest}", told.join("; ")) };
        format!("Row {} holes {first} to {last}: {told}.", row.row.name)
    }

    fn rows_with_places(&self) -> impl Iterator<Item = &'m RowPlan<'j>> {
        self.plan.rows.iter().filter(|row| row.row.has_places())
    }

    fn panel_title(&self) -> String {
        let told: Vec<String> = self.rows_with_places().map(|row| self.strip_title(row, 1, row.row.count)).collect();
        format!("Rows with coordinates, to scale. {}", told.join(" "))
    }

    fn draw(&self, band: &Band, canvas: &mut Canvas, top: f64) {
        match &band.what {
            What::Key(key) => key.draw(canvas, top),
            What::Panel(panel) => self.panel(panel, canvas, top),
            What::RowsBegin(scale) => self.rows_begin(*scale, canvas, top),
            What::Strip(strip) => self.strip(strip, canvas, top),
            What::Skipped(text) => canvas.text((SIDE, top + 16.0), text, Anchor::Start, Letters::Plain),
        }
    }

    fn rows_begin(&self, scale: f64, canvas: &mut Canvas, top: f64) {
        canvas.line((SIDE, top + 6.0), (WIDTH - SIDE, top + 6.0), Stroke::Middle);
        let told = "Rows without coordinates, one under the other: along them to scale, edge distances not.";
        canvas.text((SIDE, top + 24.0), told, Anchor::Start, Letters::Strong);
        if scale > 0.0 {
            scale_bar(canvas, (SIDE, top + 44.0), scale, self.units);
        }
    }

    fn strip(&self, strip: &Strip, canvas: &mut Canvas, top: f64) {
        let Some(row) = self.plan.rows.get(strip.row) else { return };
        let mut y = top;
        if strip.is_first {
            canvas.line((SIDE, y + 3.0), (WIDTH - SIDE, y + 3.0), Stroke::Thin);
            canvas.text((SIDE, y + 18.0), &row.row.name, Anchor::Start, Letters::Strong);
            let name = (row.row.name.chars().count() as f64 * (LETTER + 1.0) + 10.0).max(34.0);
            let room = WIDTH - 2.0 * SIDE - name;
            canvas.text(
                (SIDE + name, y + 18.0),
                &fitting(&self.about(row, false), room, LETTER),
                Anchor::Start,
                Letters::Plain,
            );
            y += 24.0;
        }
        y += 32.0;
        let at = |hole: u32| SIDE + RADIUS + f64::from(hole - strip.first) * strip.step;
        canvas.line((at(strip.first) - RADIUS, y), (at(strip.last) + RADIUS, y), Stroke::Centre);
        let edges = self.edges_to_tell(row, strip.first, strip.last, strip.is_first);
        let below = y + if edges.is_empty() { 18.0 } else { 44.0 };
        for (hole, number) in self.damage_on(strip) {
            canvas.line((at(hole), y), (at(hole), below), Stroke::Thin);
            draw_damage(canvas, (at(hole), below), number);
        }
        let mut free = 0.0;
        for (hole, told, is_short) in edges {
            self.edge_below(canvas, (at(hole), y), &told, is_short, &mut free);
        }
        let like = mark(row, None);
        let plain: Vec<u32> = (strip.first..=strip.last).filter(|hole| row.hole(*hole).is_none()).collect();
        if like == Mark::Like {
            let dots: Vec<At> = plain.iter().map(|hole| (at(*hole), y)).collect();
            canvas.dots(&dots, 2.2);
        }
        // Two heights, so that the numbers of neighbours do not run into each other.
        let mut ends = [0.0_f64; 2];
        for hole in strip.first..=strip.last {
            let special = row.hole(hole);
            let kind = mark(row, special);
            if kind != Mark::Like {
                draw_mark(canvas, (at(hole), y), RADIUS.min(strip.step * 0.46), kind);
            } else if special.is_some() {
                canvas.dots(&[(at(hole), y)], 2.2);
            }
            let is_marked = kind != like;
            let is_end = hole == strip.first || hole == strip.last || hole % NUMBERED == 0;
            if !is_marked && !is_end {
                continue;
            }
            let text = hole.to_string();
            let half = text.len() as f64 * LETTER / 2.0 + 2.0;
            let (low, high) = (ends[0], ends[1]);
            let level = if at(hole) - half >= low {
                0
            } else if is_marked && at(hole) - half >= high {
                1
            } else {
                continue;
            };
            ends[level] = at(hole) + half;
            let letters = if is_marked { Letters::Strong } else { Letters::Plain };
            let place = (at(hole), y - RADIUS - 4.0 - level as f64 * 12.0);
            canvas.text(place, &text, Anchor::Middle, letters);
        }
    }

    /// A row on one line.
    fn about(&self, row: &RowPlan<'_>, with_edge: bool) -> String {
        let size = |length: Length| self.units.size(words::to_mark(length, self.units));
        let holes = if row.row.count == 1 { "1 hole".to_owned() } else { format!("{} holes", row.row.count) };
        let mut parts = vec![row.choice.part.to_string(), holes];
        if row.findings.iter().any(|finding| finding.severity() == Severity::Refer) {
            parts.push("REFER THE ROW".into());
        }
        parts.push(row.layout.pitch.map_or_else(|| "pitch not given".into(), |pitch| format!("pitch {}", size(pitch))));
        let is_cut = |edge: Length| row.cuts.iter().any(|cut| cut.closest.1 == edge);
        if let Some(edge) = row.layout.edge.filter(|edge| with_edge && !is_cut(*edge)) {
            parts.push(format!("least edge {}", size(edge)));
        }
        for cut in row.cuts.iter().filter(|_| with_edge) {
            let Some(edge) = self.plan.edges.get(cut.edge) else { continue };
            let (hole, distance) = cut.closest;
            let too_close = match cut.short.as_slice() {
                [] => String::new(),
                short => format!(", TOO CLOSE: {}", words::ranges(short)),
            };
            parts.push(format!(
                "hole {hole} {} from {}{too_close}",
                self.units.length(distance).about(),
                edge.edge.name
            ));
        }
        parts.extend((!row.row.about.is_empty()).then(|| row.row.about.clone()));
        parts.join("; ")
    }

    /// The holes whose edge distance is dimensioned on this line: the least of the row, and those that are too short.
    fn edges_to_tell(&self, row: &RowPlan<'j>, first: u32, last: u32, is_first: bool) -> Vec<(u32, String, bool)> {
        let mut told: Vec<(u32, String, bool)> = Vec::new();
        // What is said of it, and whether it is too short.
        let short = |findings: &[Finding]| -> Option<(String, bool)> {
            findings.iter().find_map(|finding| {
                let (verdict, is_short) = match finding.code() {
                    Code::EdgeDistanceShort => ("TOO SHORT", true),
                    Code::EdgeAsBuilt => ("as built", false),
                    _ => return None,
                };
                let (Figure::Length(measured), Figure::Length(limit)) = finding.measured().zip(finding.limit())? else {
                    return None;
                };
                let (measured, limit) = (self.units.length(measured), self.units.length(limit));
                Some((format!("edge {measured}, least {limit}: {verdict}"), is_short))
            })
        };
        let of_hole = |number: u32| row.layout_of(number).edge;
        let own = row.row.exceptions.iter().flat_map(|exception| &exception.holes);
        let own = own.filter_map(|number| Some((of_hole(*number)?, *number)));
        let of_row = row.layout.edge.map(|edge| (edge, 1));
        let least = own.chain(of_row).min();
        for hole in holes_between(row, first, last) {
            if let Some((text, is_short)) = short(&hole.findings).filter(|_| hole.disposition() != Disposition::Refer) {
                told.push((hole.number, text, is_short));
            }
        }
        let is_here = |number: &u32| (first..=last).contains(number) && (is_first || *number != 1);
        if let Some((edge, number)) = least.filter(|(_, number)| is_here(number))
            && !told.iter().any(|(told, ..)| *told == number)
        {
            let found = short(&row.findings);
            let (text, is_short) = found.unwrap_or_else(|| (format!("edge {}", self.units.length(edge)), false));
            told.push((number, text, is_short));
            told.sort_by_key(|(number, ..)| *number);
        }
        told
    }

    /// A piece of the edge below a hole, with its distance; not to scale.
    fn edge_below(&self, canvas: &mut Canvas, at: At, text: &str, is_short: bool, free: &mut f64) {
        const DOWN: f64 = 27.0;
        let (x, y) = at;
        let width = text.chars().count() as f64 * LETTER + 18.0;
        // To the left where the line ends; not at all where another one stands, which says the same of its hole.
        let to_left = x + width > WIDTH;
        let begin = if to_left { x - width } else { x - 13.0 };
        if begin < *free {
            return;
        }
        *free = if to_left { x + 15.0 } else { x + width };
        canvas.line((x - 13.0, y + DOWN), (x + 13.0, y + DOWN), if is_short { Stroke::Heavy } else { Stroke::Middle });
        canvas.arrow((x, y), (x, y + DOWN), Stroke::Thin);
        let (place, anchor) = if to_left { (x - 6.0, Anchor::End) } else { (x + 6.0, Anchor::Start) };
        let letters = if is_short { Letters::Strong } else { Letters::Plain };
        canvas.text((place, y + DOWN - 4.0), text, anchor, letters);
    }

    /// Damage beside a hole of this line: the hole, and the number of the damage.
    fn damage_on(&self, strip: &Strip) -> impl Iterator<Item = (u32, u32)> {
        self.plan.damage.iter().zip(1_u32..).filter_map(move |(damage, number)| {
            let hole = damage.damage.hole.filter(|hole| (strip.first..=strip.last).contains(hole))?;
            let is_here = damage.damage.row == Some(strip.row) && damage.damage.at.is_none();
            is_here.then_some((hole, number))
        })
    }

    fn panel(&self, panel: &Panel, canvas: &mut Canvas, top: f64) {
        canvas.line((SIDE, top + 6.0), (WIDTH - SIDE, top + 6.0), Stroke::Middle);
        canvas.text((SIDE, top + 24.0), "Rows with coordinates, to scale", Anchor::Start, Letters::Strong);
        let mut top = top + 30.0;
        for row in self.rows_with_places() {
            let text = format!("{}: {}", row.row.name, self.about(row, true));
            top += ROW_LINE;
            canvas.text((SIDE, top), &fitting(&text, WIDTH - 2.0 * SIDE, LETTER), Anchor::Start, Letters::Plain);
        }
        let origin = ((WIDTH - panel.width - panel.beside) / 2.0, top + MARGIN + panel.height);
        let at = |point: Point| {
            let (x, y) = inches(point);
            (origin.0 + (x - panel.left) * panel.scale, origin.1 - (y - panel.low) * panel.scale)
        };
        let mut taken = Taken::default();
        let rows: Vec<&RowPlan<'j>> = self.rows_with_places().collect();
        let radius = panel.radius;
        for edge in &self.plan.edges {
            let line: Vec<At> = outline(&edge.cut).into_iter().map(at).collect();
            canvas.polyline(&line, Stroke::Heavy);
            line.windows(2).for_each(|pair| taken.line(pair));
        }
        let dimensions = self.dimensions(&at, (origin.0 + panel.width, origin.1), panel.radius);
        for dimension in &dimensions {
            dimension.extend(canvas, &mut taken);
        }
        for row in &rows {
            let places: Vec<At> = (1..=row.row.count).filter_map(|hole| row.row.place_of(hole)).map(at).collect();
            let (Some(first), Some(last)) = (places.first(), places.last()) else { continue };
            if row.row.line.is_some() && places.len() > 1 {
                canvas.line(*first, *last, Stroke::Centre);
            }
            for (place, hole) in places.iter().zip(1_u32..) {
                let around = if mark(row, row.hole(hole)) == Mark::Like { radius * 0.4 } else { radius };
                taken.add((place.0 - around, place.1 - around), (place.0 + around, place.1 + around));
            }
            self.panel_row(row, &places, panel, canvas);
        }
        for (damage, number) in self.plan.damage.iter().zip(1_u32..) {
            let beside = || self.plan.rows.get(damage.damage.row?)?.row.place_of(damage.damage.hole?);
            if let Some(place) = damage.damage.at.or_else(beside).map(at) {
                taken.add((place.0 - 8.0, place.1 - 8.0), (place.0 + 74.0, place.1 + 8.0));
                draw_damage(canvas, place, number);
            }
        }
        for dimension in &dimensions {
            dimension.draw(canvas, &mut taken);
        }
        for (edge, line) in self.plan.edges.iter().map(|edge| (edge, outline(&edge.cut))) {
            let Some(end) = line.last().copied().map(at) else { continue };
            taken.write(canvas, &edge.edge.name, end, 4.0, Letters::Strong, Side::Up);
        }
        for row in &rows {
            let Some(first) = row.row.place_of(1).map(at) else { continue };
            taken.write(canvas, &row.row.name, first, panel.away, Letters::Strong, Side::Left);
        }
        for row in &rows {
            for hole in 1..=row.row.count {
                let kind = mark(row, row.hole(hole));
                let is_marked = kind != mark(row, None);
                let is_end = hole == 1 || hole == row.row.count || hole % NUMBERED == 0;
                let Some(place) = row.row.place_of(hole).filter(|_| is_marked || is_end).map(at) else { continue };
                // In brackets, for 3O would be read as thirty.
                let has_letter = radius < LETTERED && !kind.letter().is_empty();
                let letter = if has_letter { format!(" ({})", kind.letter()) } else { String::new() };
                let letters = if is_marked { Letters::Strong } else { Letters::Plain };
                taken.write(canvas, &format!("{hole}{letter}"), place, panel.away, letters, Side::Up);
            }
        }
        let foot = origin.1 + panel.below + MARGIN + 6.0;
        scale_bar(canvas, (SIDE, foot), panel.scale, self.units);
        let how = "x to the right, y up, as in the job file.";
        canvas.text((WIDTH - SIDE, foot), how, Anchor::End, Letters::Plain);
        axes(canvas, (WIDTH / 2.0 - 30.0, foot - 6.0), self.plan.job.axes);
    }

    fn panel_row(&self, row: &RowPlan<'j>, places: &[At], panel: &Panel, canvas: &mut Canvas) {
        // As wide as the hole is, where that can be seen.
        let wide = |length: Length| length.to_inches_f64() * panel.scale / 2.0;
        let mut dots = Vec::new();
        for (place, number) in places.iter().zip(1_u32..) {
            let hole = row.hole(number);
            let kind = mark(row, hole);
            let choice = hole.map_or(Some(&row.choice), |hole| hole.choice.as_deref());
            let size = choice.map_or(0.0, |choice| wide(choice.hole.value.max()));
            if size > panel.radius * 0.6 {
                canvas.circle(*place, size, Stroke::Thin, false);
            }
            match kind {
                Mark::Like => dots.push(*place),
                _ => draw_mark(canvas, *place, panel.radius, kind),
            }
        }
        canvas.dots(&dots, (panel.radius * 0.3).clamp(1.2, 2.2));
    }

    /// The least distance of each row to each cut, from the hole to the nearest place on it: what is too close first.
    fn dimensions(&self, at: &dyn Fn(Point) -> At, corner: At, radius: f64) -> Vec<Dimension> {
        let counts = count_dimensions(self.plan);
        let last = counts.map(|count| FIRST + f64::from(count.saturating_sub(1)) * NEXT);
        let mut places = [0_u32; 2];
        let dimension = |(row, cut): (&RowPlan<'j>, &RowCut)| {
            let distance = cut.closest.1;
            let [from, foot] = span(self.plan, row, cut)?.map(at);
            let text = format!("{} {}", row.row.name, self.units.length(distance).about());
            let (dx, dy) = (foot.0 - from.0, foot.1 - from.1);
            // Square to it: to the right of the picture, or below it.
            let is_beside = is_beside([from, foot]);
            let far = libm::hypot(dx, dy);
            let (nx, ny) = if far > 0.0 { (-dy / far, dx / far) } else { (1.0, 0.0) };
            let turn = if is_beside && nx < 0.0 || !is_beside && ny < 0.0 { -1.0 } else { 1.0 };
            let out = (nx * turn, ny * turn);
            let place = &mut places[usize::from(is_beside)];
            let away = FIRST + f64::from(*place) * NEXT;
            *place += 1;
            let shift = |end: At| {
                if is_beside { (corner.0 + away - end.0) / out.0 } else { (corner.1 + away - end.1) / out.1 }
            };
            let shift = shift(from).max(shift(foot));
            let is_short = !cut.short.is_empty();
            let beyond = if is_beside { corner.0 + last[1] } else { corner.1 + last[0] };
            Some(Dimension { ends: [from, foot], out, shift, radius, is_beside, beyond, text, is_short })
        };
        dimensioned(self.plan).filter_map(dimension).collect()
    }
}

/// The rows and cuts whose distance is dimensioned.
fn dimensioned<'p, 'j>(plan: &'p Plan<'j>) -> impl Iterator<Item = (&'p RowPlan<'j>, &'p RowCut)> {
    let rows = plan.rows.iter().filter(|row| row.row.has_places());
    let mut cuts: Vec<(&RowPlan<'j>, &RowCut)> =
        rows.flat_map(|row| row.cuts.iter().map(move |cut| (row, cut))).collect();
    cuts.sort_by_key(|(_, cut)| (cut.short.is_empty(), cut.closest.1));
    cuts.into_iter().take(MOST_DIMENSIONS)
}

/// How many of them stand below the picture, and how many beside it.
fn count_dimensions(plan: &Plan<'_>) -> [u32; 2] {
    let mut counts = [0; 2];
    for (row, cut) in dimensioned(plan) {
        if let Some(ends) = span(plan, row, cut) {
            counts[usize::from(is_beside(ends.map(inches)))] += 1;
        }
    }
    counts
}

/// From the hole that stands closest to a cut to the nearest place on it.
fn span(plan: &Plan<'_>, row: &RowPlan<'_>, cut: &RowCut) -> Option<[Point; 2]> {
    let from = row.row.place_of(cut.closest.0)?;
    let line = outline(&plan.edges.get(cut.edge)?.cut);
    let (x, y) = nearest(&line.into_iter().map(inches).collect::<Vec<At>>(), inches(from))?;
    let foot = Length::try_from_inches_f64(x).zip(Length::try_from_inches_f64(y));
    foot.map(|(x, y)| [from, Point { x, y }])
}

/// Whether such a distance is dimensioned beside the picture: it goes up or down rather than along.
fn is_beside([from, foot]: [At; 2]) -> bool {
    (foot.1 - from.1).abs() >= (foot.0 - from.0).abs()
}

/// More than these are told in words only.
const MOST_DIMENSIONS: usize = 6;
/// From the picture to the first dimension line, and from each to the next.
const FIRST: f64 = 26.0;
const NEXT: f64 = 15.0;
/// What a dimension says beside its line: a name and a length.
const SAYS: f64 = 62.0;

/// A distance, dimensioned outside of the picture.
struct Dimension {
    ends: [At; 2],
    /// Out of the picture, one long, and how far.
    out: At,
    shift: f64,
    /// Of the mark at its first end.
    radius: f64,
    is_beside: bool,
    /// The last of the dimension lines: what it says stands beyond.
    beyond: f64,
    text: String,
    is_short: bool,
}

impl Dimension {
    /// So far out from an end.
    fn away(&self, end: At, far: f64) -> At {
        (end.0 + self.out.0 * far, end.1 + self.out.1 * far)
    }

    /// The thin lines out of the picture. They come first, so that marks lie over them.
    fn extend(&self, canvas: &mut Canvas, taken: &mut Taken) {
        for (end, gap) in self.ends.into_iter().zip([self.radius + 2.0, 2.0]) {
            let (from, to) = (self.away(end, gap), self.away(end, self.shift + 4.0));
            canvas.line(from, to, Stroke::Thin);
            taken.line(&[from, to]);
        }
        taken.line(&self.ends.map(|end| self.away(end, self.shift)));
    }

    fn draw(&self, canvas: &mut Canvas, taken: &mut Taken) {
        /// Less than this has no room for two heads.
        const ROOM: f64 = 22.0;
        let [from, to] = self.ends.map(|end| self.away(end, self.shift));
        let middle = ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0);
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let far = libm::hypot(dx, dy);
        if far >= ROOM {
            canvas.arrow(middle, from, Stroke::Thin);
            canvas.arrow(middle, to, Stroke::Thin);
        } else {
            let (ux, uy) = if far > 0.0 { (dx / far, dy / far) } else { (0.0, 1.0) };
            canvas.arrow((from.0 - ux * 16.0, from.1 - uy * 16.0), from, Stroke::Thin);
            canvas.arrow((to.0 + ux * 16.0, to.1 + uy * 16.0), to, Stroke::Thin);
        }
        let letters = if self.is_short { Letters::Strong } else { Letters::Plain };
        let (beside, side) =
            if self.is_beside { ((self.beyond, middle.1), Side::Right) } else { ((middle.0, self.beyond), Side::Down) };
        taken.write(canvas, &self.text, beside, 3.0, letters, side);
    }
}

/// Arrows along the axes of the job, where it says which way they point.
fn axes(canvas: &mut Canvas, at: At, axes: Axes) {
    const LONG: f64 = 30.0;
    for (axis, told) in [(axes.forward, "forward"), (axes.inboard, "inboard")] {
        let Some(axis) = axis else { continue };
        let (x, y) = axis.along();
        let tip = (at.0 + f64::from(x) * LONG, at.1 - f64::from(y) * LONG);
        canvas.arrow(at, tip, Stroke::Middle);
        let (place, anchor) = match (x, y) {
            (1, _) => ((tip.0 + 4.0, tip.1 + 4.0), Anchor::Start),
            (-1, _) => ((tip.0 - 4.0, tip.1 + 4.0), Anchor::End),
            (_, 1) => ((tip.0, tip.1 - 4.0), Anchor::Middle),
            _ => ((tip.0, tip.1 + TEXT), Anchor::Middle),
        };
        canvas.text(place, told, anchor, Letters::Strong);
    }
}

/// The picture to scale: how large, and what is where.
struct Panel {
    /// Pixels an inch.
    scale: f64,
    left: f64,
    low: f64,
    width: f64,
    height: f64,
    /// Room for dimensions and arrows: to the right of it, and below.
    beside: f64,
    below: f64,
    radius: f64,
    /// From the middle of a hole to where its number may begin.
    away: f64,
}

/// A line of text about a row in it.
const ROW_LINE: f64 = 17.0;
/// Room for numbers round the picture.
const MARGIN: f64 = 46.0;

impl Panel {
    fn of(plan: &Plan<'_>) -> Option<Panel> {
        let holes = plan.rows.iter().flat_map(|row| (1..=row.row.count).map_while(|hole| row.row.place_of(hole)));
        let cuts = plan.edges.iter().flat_map(|edge| outline(&edge.cut));
        let damage = plan.damage.iter().filter_map(|damage| damage.damage.at);
        let mut ends: Option<[f64; 4]> = None;
        for (x, y) in holes.chain(cuts).chain(damage).map(inches) {
            let [left, right, low, high] = ends.unwrap_or([x, x, y, y]);
            ends = Some([left.min(x), right.max(x), low.min(y), high.max(y)]);
        }
        let [left, right, low, high] = ends?;
        let (wide, high) = (right - left, high - low);
        let fit = |room: f64, size: f64| if size > 0.0 { room / size } else { LARGEST };
        let [beneath, beside] = count_dimensions(plan);
        let room = |count: u32| if count > 0 { FIRST + f64::from(count - 1) * NEXT } else { 0.0 };
        let beside = if beside > 0 { room(beside) + SAYS - MARGIN } else { 0.0 };
        let below = room(beneath) + if plan.job.axes == Axes::default() { 0.0 } else { 34.0 };
        let scale = fit(WIDTH - 2.0 * MARGIN - 2.0 * SIDE - beside, wide).min(fit(HIGHEST, high)).min(LARGEST);
        let with_places = plan.rows.iter().filter(|row| row.row.has_places());
        let closest = with_places.filter_map(|row| row.layout.pitch).min();
        let radius = closest.map_or(RADIUS, |pitch| (pitch.to_inches_f64() * scale * 0.46).clamp(2.5, RADIUS));
        let with_places = plan.rows.iter().filter(|row| row.row.has_places());
        let widest =
            with_places.map(|row| row.choice.hole.value.max().to_inches_f64() * scale / 2.0).fold(radius, f64::max);
        Some(Panel { scale, left, low, width: wide * scale, height: high * scale, beside, below, radius, away: widest })
    }
}

/// A cut as straight lines; a measured one in steps that are too short to be seen.
fn outline(cut: &Cut<'_>) -> Vec<Point> {
    const STEPS: i64 = 24;
    match cut {
        Cut::Corners(corners) => corners.to_vec(),
        Cut::Measured(curve) => {
            let between = |from: Length, to: Length| {
                let (from, to) = (from.nanometres(), to.nanometres());
                (0..STEPS).filter_map(move |step| Length::from_nanometres(from + (to - from) / STEPS * step))
            };
            let pairs = curve.stations().windows(2).flat_map(|pair| match pair {
                [one, next] => between(one.at, next.at).collect::<Vec<_>>(),
                _ => Vec::new(),
            });
            let last = curve.stations().last().map(|station| station.at);
            pairs.chain(last).map(|at| curve.place(at)).collect()
        }
    }
}

/// The place on a line that is nearest.
fn nearest(line: &[At], from: At) -> Option<At> {
    let foot = |pair: &[At]| {
        let [one, next] = pair else { return None };
        let (dx, dy) = (next.0 - one.0, next.1 - one.1);
        let whole = dx * dx + dy * dy;
        let along = if whole > 0.0 { ((from.0 - one.0) * dx + (from.1 - one.1) * dy) / whole } else { 0.0 };
        let along = along.clamp(0.0, 1.0);
        Some((one.0 + dx * along, one.1 + dy * along))
    };
    let far = |place: &At| libm::hypot(place.0 - from.0, place.1 - from.1);
    line.windows(2).filter_map(foot).min_by(|one, other| far(one).total_cmp(&far(other)))
}

fn inches(point: Point) -> At {
    (point.x.to_inches_f64(), point.y.to_inches_f64())
}

/// How a hole is marked; `None` asks for those that the row has nothing to say about.
fn mark(row: &RowPlan<'_>, hole: Option<&HolePlan<'_>>) -> Mark {
    match hole {
        Some(hole) if hole.ruling.is_some() => Mark::Answered,
        Some(hole) if hole.disposition() != Disposition::Keep => Mark::of(hole.disposition()),
        // A hole that is kept may still take another rivet than its row.
        Some(hole) if row.exception(hole.number).is_some() => Mark::Own,
        Some(hole) if hole.choice.as_ref().is_none_or(|choice| choice.part != row.choice.part) => Mark::Own,
        Some(hole) if hole.measured.is_some() => Mark::Keep,
        _ => match row.answer.as_ref().map(|answer| answer.disposition) {
            None | Some(Disposition::Keep) => Mark::Like,
            Some(disposition) => Mark::of(disposition),
        },
    }
}

/// From hole to hole of a row without coordinates, in pixels.
fn step_at(row: &RowPlan<'_>, scale: f64) -> f64 {
    match row.layout.pitch {
        Some(pitch) if pitch > Length::ZERO => (pitch.to_inches_f64() * scale).clamp(APART, LINE / 2.0),
        _ => EVEN,
    }
}

/// How many holes stand on a line, so that all lines of a row are about the same.
fn holes_a_line(count: u32, step: f64) -> u32 {
    // A hair more, for lines that fit exactly.
    let most = ((LINE / step + 1e-6) as u32).saturating_add(1);
    count.div_ceil(count.div_ceil(most).max(1)).max(1)
}

/// The holes of a row that are planned by themselves, from one number to another.
fn holes_between<'p, 'j>(row: &'p RowPlan<'j>, first: u32, last: u32) -> &'p [HolePlan<'j>] {
    let from = row.holes.partition_point(|hole| hole.number < first);
    let to = row.holes.partition_point(|hole| hole.number <= last);
    row.holes.get(from..to).unwrap_or_default()
}

fn draw_mark(canvas: &mut Canvas, at: At, radius: f64, mark: Mark) {
    let (x, y) = at;
    let r = radius;
    match mark {
        Mark::Like => canvas.dots(&[at], 2.2),
        Mark::Keep => canvas.circle(at, r, Stroke::Middle, false),
        Mark::Own => canvas.circle(at, r, Stroke::Dashed, false),
        Mark::CleanUp => {
            let r = r * 1.12;
            canvas.polygon(&[(x, y - r), (x + r, y), (x, y + r), (x - r, y)], Stroke::Middle, false);
        }
        Mark::Oversize => {
            let r = r * 0.92;
            canvas.polygon(&[(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)], Stroke::Middle, false);
        }
        Mark::NextSize => {
            let (side, shoulder) = (r * 0.92, y - r * 0.35);
            let corners =
                [(x, y - r * 1.25), (x + side, shoulder), (x + side, y + r), (x - side, y + r), (x - side, shoulder)];
            canvas.polygon(&corners, Stroke::Middle, false);
        }
        Mark::Answered => {
            let (r, half) = (r * 1.15, r * 0.58);
            let corners =
                [(x - r, y), (x - half, y - r), (x + half, y - r), (x + r, y), (x + half, y + r), (x - half, y + r)];
            canvas.polygon(&corners, Stroke::Heavy, false);
        }
        Mark::Refer => {
            let (out, cut) = (r, r * 0.42);
            let corners = [
                (x - cut, y - out),
                (x + cut, y - out),
                (x + out, y - cut),
                (x + out, y + cut),
                (x + cut, y + out),
                (x - cut, y + out),
                (x - out, y + cut),
                (x - out, y - cut),
            ];
            canvas.polygon(&corners, Stroke::Middle, true);
        }
    }
    if radius >= LETTERED && !mark.letter().is_empty() {
        let letters = if mark == Mark::Refer { Letters::White } else { Letters::Mark };
        canvas.text((x, y + 4.2), mark.letter(), Anchor::Middle, letters);
    }
}

fn draw_cross(canvas: &mut Canvas, (x, y): At) {
    canvas.line((x - 6.0, y - 6.0), (x + 6.0, y + 6.0), Stroke::Heavy);
    canvas.line((x - 6.0, y + 6.0), (x + 6.0, y - 6.0), Stroke::Heavy);
}

fn draw_damage(canvas: &mut Canvas, at: At, number: u32) {
    let (x, y) = at;
    draw_cross(canvas, at);
    canvas.text((x + 10.0, y + 4.5), &format!("damage {number}"), Anchor::Start, Letters::Strong);
}

/// What the key explains: what is drawn, and nothing else.
struct Key {
    entries: Vec<KeyEntry>,
    height: f64,
}

/// A mark, or something else that is drawn; what it means; where it stands.
type KeyEntry = (Option<Mark>, &'static str, At);

/// How high a line of the key is.
const KEY_LINE: f64 = 26.0;

impl Key {
    fn of(plan: &Plan<'_>) -> Key {
        let is_drawn = |mark: &Mark| {
            plan.rows.iter().any(|row| {
                let has_like = row.holes.len() < row.row.count as usize;
                (has_like && self::mark(row, None) == *mark)
                    || row.holes.iter().any(|hole| self::mark(row, Some(hole)) == *mark)
            })
        };
        let marks = Mark::ALL.into_iter().filter(is_drawn).map(|mark| (Some(mark), mark.meaning()));
        let damage = (!plan.damage.is_empty()).then_some((None, "damage"));
        let cut = (!plan.edges.is_empty()).then_some((None, "cut"));
        let mut place = (SIDE + RADIUS, 16.0);
        let mut entries = Vec::new();
        for (mark, meaning) in marks.chain(damage).chain(cut) {
            let width = meaning.len() as f64 * LETTER + 44.0;
            if place.0 + width > WIDTH - SIDE {
                place = (SIDE + RADIUS, place.1 + KEY_LINE);
            }
            entries.push((mark, meaning, place));
            place.0 += width;
        }
        Key { entries, height: place.1 + 20.0 }
    }

    fn draw(&self, canvas: &mut Canvas, top: f64) {
        for (mark, meaning, (x, y)) in &self.entries {
            let (x, y) = (*x, top + y);
            match mark {
                Some(mark) => draw_mark(canvas, (x, y), RADIUS, *mark),
                None if *meaning == "cut" => canvas.line((x - RADIUS, y), (x + RADIUS, y), Stroke::Heavy),
                None => draw_cross(canvas, (x, y)),
            }
            canvas.text((x + 16.0, y + 4.0), meaning, Anchor::Start, Letters::Plain);
        }
    }
}

/// A round length about a sixth of the width.
fn scale_bar(canvas: &mut Canvas, at: At, scale: f64, units: Units) {
    let per_unit = match units {
        Units::Inches => scale,
        Units::Millimetres => scale / 25.4,
    };
    let wanted = WIDTH / 6.0 / per_unit;
    let step = libm::exp10(libm::log10(wanted).floor());
    let length = [5.0, 2.0, 1.0].into_iter().map(|times| times * step).find(|length| *length <= wanted).unwrap_or(step);
    let (x, y) = at;
    let end = x + length * per_unit;
    canvas.line((x, y), (end, y), Stroke::Thin);
    for tick in [x, end] {
        canvas.line((tick, y - 5.0), (tick, y + 5.0), Stroke::Thin);
    }
    let text = format!("{} {}", units.ratio(length), units.length_unit());
    canvas.text((end + 8.0, y + 4.0), &text, Anchor::Start, Letters::Plain);
}

/// A text cut off where it would not fit.
fn fitting(text: &str, room: f64, letter: f64) -> String {
    // Letters of most other scripts are about twice as wide.
    let width = |c: char| if c.is_ascii() { letter } else { letter * 2.0 };
    let mut used = 0.0;
    for (index, c) in text.char_indices() {
        used += width(c);
        if used > room {
            let kept = text.get(..index).unwrap_or_default();
            let kept: String = kept.chars().take(kept.chars().count().saturating_sub(1)).collect();
            return format!("{}…", kept.trim_end());
        }
    }
    text.to_owned()
}

/// Height of capitals and figures.
const HIGH: f64 = 9.0;

/// On which side a text stands where all are free.
#[derive(Clone, Copy)]
enum Side {
    Up,
    Down,
    Left,
    Right,
}

/// Where something is drawn already, in squares of a grid.
#[derive(Default)]
struct Taken(std::collections::HashSet<(i64, i64)>);

impl Taken {
    const SQUARE: f64 = 3.0;

    fn squares(from: At, to: At) -> impl Iterator<Item = (i64, i64)> {
        let square = |value: f64| (value / Taken::SQUARE).floor() as i64;
        let (left, right) = (square(from.0), square(to.0));
        let (high, low) = (square(from.1), square(to.1));
        (left..=right).flat_map(move |x| (high..=low).map(move |y| (x, y)))
    }

    fn add(&mut self, from: At, to: At) {
        self.0.extend(Taken::squares(from, to));
    }

    /// A straight line from place to place.
    fn line(&mut self, pair: &[At]) {
        let [from, to] = pair else { return };
        let steps = (libm::hypot(to.0 - from.0, to.1 - from.1) / Taken::SQUARE).ceil().clamp(1.0, 1000.0);
        for step in 0..=steps as u32 {
            let part = f64::from(step) / steps;
            let place = (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part);
            self.add(place, place);
        }
    }

    /// Writes a text beside a place, on the side where it hides least.
    fn write(&mut self, canvas: &mut Canvas, text: &str, beside: At, away: f64, letters: Letters, side: Side) {
        let letter = LETTER + if letters == Letters::Strong { 0.7 } else { 0.0 };
        let width = text.chars().map(|c| if c.is_ascii() { letter } else { letter * 1.4 }).sum::<f64>();
        let (x, y) = beside;
        // Corners of the letters' box, upper left.
        let up = (x - width / 2.0, y - away - HIGH - 2.5);
        let down = (x - width / 2.0, y + away + 3.0);
        let left = (x - away - width - 4.0, y - HIGH / 2.0);
        let right = (x + away + 4.0, y - HIGH / 2.0);
        let slanted = [
            (right.0, right.1 + TEXT),
            (right.0, right.1 - TEXT),
            (right.0, up.1),
            (left.0, up.1),
            (right.0, down.1),
            (left.0, down.1),
            (up.0, up.1 - TEXT),
            (down.0, down.1 + TEXT),
            (right.0, down.1 + TEXT),
            (left.0, down.1 + TEXT),
        ];
        let cost = |corner: &At| {
            let end = (corner.0 + width, corner.1 + HIGH);
            let hidden = Taken::squares(*corner, end).filter(|square| self.0.contains(square)).count();
            let outside = corner.0 < 2.0 || end.0 > WIDTH - 2.0;
            hidden + if outside { 1000 } else { 0 }
        };
        let preferred = match side {
            Side::Up => [up, down, left, right],
            Side::Down => [down, up, left, right],
            Side::Left => [left, right, up, down],
            Side::Right => [right, left, down, up],
        };
        let places = preferred.into_iter().chain(slanted);
        let Some(corner) = places.min_by_key(cost) else { return };
        self.add((corner.0 - 2.0, corner.1), (corner.0 + width + 2.0, corner.1 + HIGH));
        canvas.text((corner.0, corner.1 + HIGH), text, Anchor::Start, letters);
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;
    use crate::model::Job;
    use crate::prelude::demo;

    fn with_plan<T>(job: &Job, asked: impl FnOnce(&Plan<'_>) -> T) -> T {
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        asked(&Plan::make(job, &practice))
    }

    fn job_text(rows: &str) -> String {
        format!(
            "title = \"T\"\n[[row]]\nname = \"R\"\nstructure = \"secondary\"\nmember = \"skin\"\ninstalled = \"MS20470AD4-5\"\n\
             layers = [{{ role = \"skin\", thickness = \".063\" }}, {{ role = \"skin\", thickness = \".063\" }}]\n{rows}"
        )
    }

    fn job(rows: &str) -> Job {
        let text = job_text(rows);
        let none = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
        Job::read_from(text.into(), Path::new("job.toml"), &none).unwrap_or_else(|error| panic!("{error}"))
    }

    fn titles(job: &Job) -> Vec<String> {
        with_plan(job, |plan| sheets(plan, Units::Inches).into_iter().map(|sheet| sheet.title).collect())
    }

    /// Letters of 9.9 in a width of 720 less 14 on either side: 69 of them, the last for what was left out.
    #[test]
    fn a_title_that_is_too_long_is_cut_at_the_margin() {
        let long = job_text("count = 1\n").replace("\"T\"", &format!("\"{}\"", "x".repeat(100)));
        let none = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
        let job = Job::read_from(long.into(), Path::new("job.toml"), &none).expect("a job");
        let svg = with_plan(&job, |plan| map(plan, Units::Inches));
        assert!(svg.contains(&format!(">{}…</text>", "x".repeat(68))), "{svg}");
    }

    #[test]
    fn every_mark_has_a_letter_a_meaning_and_a_shape_of_its_own() {
        let shape = |mark: Mark| {
            let mut canvas = Canvas::new(20.0, 20.0, "", "");
            draw_mark(&mut canvas, (10.0, 10.0), 5.0, mark);
            canvas.finish()
        };
        for (index, mark) in Mark::ALL.iter().enumerate() {
            for other in &Mark::ALL[index + 1..] {
                assert_ne!(mark.letter(), other.letter());
                assert_ne!(mark.meaning(), other.meaning());
                assert_ne!(shape(*mark), shape(*other), "{mark:?} and {other:?}");
            }
        }
    }

    #[test]
    fn every_hole_of_the_demo_is_on_one_line_and_those_that_differ_are_told() {
        let job = demo("keel-skin");
        let titles = titles(&job);
        for row in job.rows.iter().filter(|row| !row.has_places()) {
            let begin = format!("Row {} holes ", row.name);
            let mut next = 1;
            for title in titles.iter().filter_map(|title| title.strip_prefix(&begin)) {
                let (numbers, _) = title.split_once(':').expect("holes, then what becomes of them");
                let (first, last) = numbers.split_once(" to ").expect("from and to");
                assert_eq!(first, next.to_string(), "{}", row.name);
                next = last.parse::<u32>().expect("a number") + 1;
            }
            assert_eq!(next, row.count + 1, "{}", row.name);
        }
        for told in
            ["refer, do not open 12-13", "oversize shank 5-6", "next diameter 14-15", "refer, do not open 19, 31"]
        {
            assert!(titles.iter().any(|title| title.contains(told)), "{told}: {titles:?}");
        }
    }

    #[test]
    fn places_keep_their_distances() {
        let points = r#"points = [["0", "0"], ["3", "0"], ["3", "4"]]"#;
        let svg = with_plan(&job(points), |plan| map(plan, Units::Inches));
        let dots =
            svg.split("<path d=\"").nth(2).and_then(|rest| rest.split('"').next()).expect("dots after the key's");
        let at: Vec<(f64, f64)> = dots
            .split('M')
            .filter_map(|dot| dot.strip_suffix("h0")?.split_once(' '))
            .map(|(x, y)| (x.parse().expect("x"), y.parse().expect("y")))
            .collect();
        let far = |one: (f64, f64), other: (f64, f64)| libm::hypot(one.0 - other.0, one.1 - other.1);
        assert_eq!(at.len(), 3, "{dots}");
        // Coordinates are written to a hundredth of a pixel.
        assert!((far(at[0], at[1]) / 3.0 - far(at[1], at[2]) / 4.0).abs() < 0.02, "{at:?}");
        assert!(at[2].1 < at[1].1, "y goes up");
    }

    #[test]
    fn a_row_without_pitch_or_with_one_hole_is_drawn_and_says_so() {
        let svg = with_plan(&job("count = 1"), |plan| map(plan, Units::Millimetres));
        assert!(svg.contains("1 hole; pitch not given"), "{svg}");
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
    }

    #[test]
    fn a_very_long_row_leaves_out_what_is_plain_and_says_which() {
        let hole = "\n[[row.hole]]\nnumber = 50000\nmajor = \".139\"\n";
        let titles = titles(&job(&format!("count = 100000\npitch = \"1\"{hole}")));
        assert!(titles.len() < 10, "{}", titles.len());
        assert!(titles.iter().any(|title| title.contains("oversize shank 50000")), "{titles:?}");
        assert!(titles.last().is_some_and(|title| title.ends_with("to 100000: nothing differs.")), "{titles:?}");
    }

    #[test]
    fn many_holes_with_places_stay_small() {
        let job = job("count = 20000\npitch = \"3/4\"\nstart = [\"0\", \"0\"]\nalong = [\"1\", \"1\"]");
        let svg = with_plan(&job, |plan| map(plan, Units::Inches));
        assert!(svg.len() < 2_000_000, "{}", svg.len());
    }

    #[test]
    fn the_least_distance_to_a_cut_and_the_least_edge_are_told() {
        let svg = with_plan(&demo("marsh-float"), |plan| map(plan, Units::Inches));
        for told in [
            "hole 8 .221 from aft edge, TOO CLOSE: 7-9",
            ">L1 .221<",
            "edge .250, least .391: as built",
            "damage 1",
            "damage 2",
        ] {
            assert!(svg.contains(told), "{told}");
        }
        let svg = with_plan(&demo("keel-skin"), |plan| map(plan, Units::Inches));
        assert!(svg.contains("edge .305, least .3125: as built"), "the one hole of F5 that is short");
    }

    /// Left, top, right, bottom.
    type Box = [f64; 4];

    /// The texts of a drawing but for the letters in marks, and its marks.
    fn boxes(svg: &str) -> (Vec<(String, Box)>, Vec<Box>) {
        let page = scraper::Html::parse_fragment(svg);
        let all = |selector: &str| -> Vec<scraper::ElementRef<'_>> {
            page.select(&scraper::Selector::parse(selector).expect("a selector")).collect()
        };
        let number = |element: &scraper::ElementRef<'_>, name: &str| -> f64 {
            element.value().attr(name).and_then(|value| value.parse().ok()).unwrap_or_else(|| panic!("no {name}"))
        };
        let texts = all("text[stroke]").into_iter().map(|element| {
            let text: String = element.text().collect();
            // An average letter of the font is half as wide as it is high.
            let size = number(&element, "font-size");
            let (x, y, width) =
                (number(&element, "x"), number(&element, "y"), text.chars().count() as f64 * size * 0.5);
            let left = match element.value().attr("text-anchor") {
                Some("middle") => x - width / 2.0,
                Some("end") => x - width,
                _ => x,
            };
            (text, [left, y - size * 0.7, left + width, y])
        });
        let circles = all("circle").into_iter().map(|element| {
            let (x, y, r) = (number(&element, "cx"), number(&element, "cy"), number(&element, "r"));
            [x - r, y - r, x + r, y + r]
        });
        let figures = all("polygon").into_iter().filter_map(|element| {
            let points = element.value().attr("points").unwrap_or_default().split(' ');
            let corners: Vec<(f64, f64)> = points
                .filter_map(|corner| corner.split_once(','))
                .map(|(x, y)| (x.parse().expect("x"), y.parse().expect("y")))
                .collect();
            // The head of an arrow has three corners.
            let end = |f: fn(f64, f64) -> f64, of: fn(&(f64, f64)) -> f64| corners.iter().map(of).reduce(f);
            (corners.len() > 3).then_some(())?;
            Some([
                end(f64::min, |corner| corner.0)?,
                end(f64::min, |corner| corner.1)?,
                end(f64::max, |corner| corner.0)?,
                end(f64::max, |corner| corner.1)?,
            ])
        });
        (texts.collect(), circles.chain(figures).collect())
    }

    #[test]
    fn no_label_lies_over_a_mark() {
        let crowded = "count = 40\npitch = \"1/2\"\n".to_owned()
            + &(1..=40).map(|n| format!("[[row.hole]]\nnumber = {n}\nmajor = \".139\"\n")).collect::<String>();
        for (name, job) in
            [("keel-skin", demo("keel-skin")), ("marsh-float", demo("marsh-float")), ("crowded", job(&crowded))]
        {
            let (texts, marks) = boxes(&with_plan(&job, |plan| map(plan, Units::Inches)));
            assert!(texts.len() > 20 && marks.len() > 10, "{name}: {} texts, {} marks", texts.len(), marks.len());
            for (text, [left, top, right, bottom]) in &texts {
                let over = marks.iter().find(|[l, t, r, b]| *left < *r && *l < *right && *top < *b && *t < *bottom);
                assert!(over.is_none(), "{name}: {text:?} at {left:.0},{top:.0} lies over a mark at {over:?}");
            }
        }
    }

    /// The heads of the arrows of a drawing, each by its tip, and its holes that are like their rows.
    fn tips_and_dots(svg: &str) -> (Vec<At>, Vec<At>) {
        let page = scraper::Html::parse_fragment(svg);
        let pair = |text: &str, between: char| -> At {
            let (x, y) = text.split_once(between).expect("two figures");
            (x.parse().expect("x"), y.parse().expect("y"))
        };
        let attribute = |selector: &str, name: &str| -> Vec<String> {
            let selector = scraper::Selector::parse(selector).expect("a selector");
            page.select(&selector).filter_map(|found| found.value().attr(name).map(str::to_owned)).collect()
        };
        let heads = attribute("polygon", "points").into_iter().filter(|points| points.split(' ').count() == 3);
        let tips = heads.map(|points| pair(points.split(' ').next().expect("a tip"), ','));
        let dots = attribute("path", "d");
        let dots = dots.iter().flat_map(|path| path.split('M').filter_map(|dot| dot.strip_suffix("h0")));
        (tips.collect(), dots.map(|dot| pair(dot, ' ')).collect())
    }

    #[test]
    fn dimensions_stand_outside_of_the_panel_and_arrows_point_as_the_job_says() {
        for (name, arrows) in [("keel-skin", vec!["forward"]), ("marsh-float", vec!["forward", "inboard"])] {
            let panel = with_plan(&demo(name), |plan| sheets(plan, Units::Inches)).swap_remove(1).svg;
            let (tips, dots) = tips_and_dots(&panel);
            let right = dots.iter().map(|dot| dot.0).fold(0.0, f64::max);
            let low = dots.iter().map(|dot| dot.1).fold(0.0, f64::max);
            assert_eq!(tips.len(), 4 + arrows.len(), "{name}: two heads for each of two distances, and the axes");
            let outside = tips.iter().filter(|tip| tip.0 > right + 10.0).count();
            let below = tips.iter().filter(|tip| tip.1 > low + 10.0 && tip.0 < right).count();
            assert_eq!((outside, below), (4, arrows.len()), "{name}: {tips:?}");
            assert!(
                ["forward", "inboard"].iter().all(|told| panel.contains(&format!(">{told}<")) == arrows.contains(told))
            );
        }
        // Along x forward is to the right; the distance to an edge that runs up is dimensioned below.
        let row = "count = 5\npitch = \"1\"\nstart = [\"0\", \"0\"]\nalong = [\"0\", \"1\"]\n\
                   [[edge]]\nname = \"side\"\npoints = [[\"1\", \"-1\"], [\"1\", \"6\"]]";
        let text = format!("forward = \"x\"\ninboard = \"-y\"\n{}", job_text(row));
        let none = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
        let job = Job::read_from(text.into(), Path::new("job.toml"), &none).unwrap_or_else(|error| panic!("{error}"));
        let panel = with_plan(&job, |plan| sheets(plan, Units::Inches)).swap_remove(1).svg;
        let (tips, dots) = tips_and_dots(&panel);
        let low = dots.iter().map(|dot| dot.1).fold(0.0, f64::max);
        let [.., forward, inboard] = tips.as_slice() else { panic!("{tips:?}") };
        assert!(forward.0 > inboard.0 + 20.0 && inboard.1 > forward.1 + 20.0, "{tips:?}");
        assert!(tips[..2].iter().all(|tip| tip.1 > low + 10.0), "{tips:?}");
        assert!(panel.contains(">R 1.000<"), "{panel}");
    }

    #[test]
    fn the_key_explains_what_is_drawn_and_no_more() {
        for name in ["keel-skin", "marsh-float"] {
            let job = demo(name);
            with_plan(&job, |plan| {
                let key = sheets(plan, Units::Inches).into_iter().next().expect("a key").svg;
                let drawn = |mark: Mark| {
                    plan.rows.iter().any(|row| (1..=row.row.count).any(|hole| self::mark(row, row.hole(hole)) == mark))
                };
                for mark in Mark::ALL {
                    assert_eq!(key.contains(&format!(">{}<", mark.meaning())), drawn(mark), "{name}: {mark:?}");
                }
                assert_eq!(key.contains(">damage<"), !plan.damage.is_empty(), "{name}");
                assert_eq!(key.contains(">cut<"), !plan.edges.is_empty(), "{name}");
            });
        }
    }

    #[test]
    fn a_text_that_does_not_fit_is_cut_off_with_a_sign_of_it() {
        assert_eq!(fitting("short", 100.0, 6.0), "short");
        assert_eq!(fitting("a long text indeed", 36.0, 6.0), "a lon…");
        assert_eq!(fitting("äöüäöü", 36.0, 6.0), "äö…");
    }
}
