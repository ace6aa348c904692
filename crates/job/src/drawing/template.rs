//! A template of an edge at full size, on sheets of paper that are laid over each other.
//!
//! Every sheet is a drawing in millimetres of its paper. Two bars on each, one along the sheet and one up it, are measured before it is used: paper
//! and printers stretch. Neighbouring sheets share a strip; in its middle both have the same line with a cross at each end.

use std::fmt::Write;

use maud::{DOCTYPE, PreEscaped, html};
use shophead::layout::Point;
use shophead::length::Length;
use shophead::trim::{Cut, Station};
use shophead::words::Units;

use super::escaped;
use crate::plan::{EdgePlan, Plan, RowPlan};
use crate::words::{self, ADVISORY};

/// A size of paper, laid on its long side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Paper {
    /// 297 by 210 millimetres.
    A4,
    /// 11 by 8-1/2 inches.
    Letter,
}

impl Paper {
    /// As style sheets name it.
    const fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::Letter => "letter",
        }
    }

    /// Width and height in millimetres.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (297.0, 210.0),
            Paper::Letter => (279.4, 215.9),
        }
    }

    /// The part of a sheet that is printed.
    fn printed(self) -> (f64, f64) {
        let (width, height) = self.size();
        // A hair less, so that no browser pushes it to the next page.
        (width - 2.0 * MARGIN, height - 2.0 * MARGIN - 0.5)
    }

    /// How much of the panel a sheet shows.
    fn window(self) -> (f64, f64) {
        let (width, height) = self.printed();
        (width - LEFT - RIGHT, height - ABOVE - BELOW)
    }
}

/// What printers leave white.
const MARGIN: f64 = 8.0;
/// Round the window of a sheet: a bar up the sheet, what it is, a bar along it.
const LEFT: f64 = 9.0;
const RIGHT: f64 = 1.0;
const ABOVE: f64 = 11.0;
const BELOW: f64 = 12.0;
/// What neighbouring sheets share.
const SHARED: f64 = 12.0;
/// Kept free round an edge.
const AROUND: f64 = 6.0;
/// How wide the bars are.
const BAR: f64 = 3.0;
/// A measured edge is drawn in steps this short.
const STEP: i64 = 1_000_000;
/// More sheets than this are a slip, or a job for a plotter.
pub const MOST_SHEETS: usize = 100;

/// Why there is no template.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NoTemplate {
    /// The job has no edge.
    NoEdge,
    /// The job has edges, but none of this name.
    NoSuchEdge(Vec<String>),
    /// It would be more than [`MOST_SHEETS`] for this edge.
    TooManySheets(String),
}

impl std::fmt::Display for NoTemplate {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NoTemplate::NoEdge => f.write_str("the job has no edge to cut; right would be a table [[edge]] in it"),
            NoTemplate::NoSuchEdge(names) => write!(f, "the job has no such edge; it has {}", names.join(", ")),
            NoTemplate::TooManySheets(name) => {
                write!(f, "{name} takes more than {MOST_SHEETS} sheets at full size; mark it out from its table")
            }
        }
    }
}

/// Where a point is on the drawing of an edge, in millimetres: along it and across it.
type Mm = (f64, f64);

fn mm(length: Length) -> f64 {
    length.nanometres() as f64 / 1e6
}

/// An edge as it is drawn.
struct Drawn<'p, 'j> {
    plan: &'p Plan<'j>,
    edge: &'p EdgePlan<'j>,
    units: Units,
    paper: Paper,
    line: Vec<Mm>,
    holes: Vec<(Mm, f64, String)>,
    /// Left and low.
    corner: Mm,
}

/// One sheet: the column and the row of the grid that it is in, from the left and from below.
type Place = (usize, usize);

/// The whole template: every edge of the job, or the one of this name.
///
/// ```
/// use shophead::words::Units;
/// use shophead_job::drawing::{Paper, template};
/// use shophead_job::model::Job;
/// use shophead_job::plan::Plan;
/// let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/keel-skin/job.toml");
/// let job = Job::read(path.as_ref()).expect("the demo job reads");
/// let (own, documents) = job.own_limits.lists();
/// let practice = job.practice.with_own(&own, &documents);
/// let html = template(&Plan::make(&job, &practice), None, Paper::A4, Units::Inches).expect("it has an edge");
/// assert!(html.contains("aft edge: sheet 1 of 3"));
/// ```
///
/// # Errors
/// [`NoTemplate`].
pub fn template(plan: &Plan<'_>, edge: Option<&str>, paper: Paper, units: Units) -> Result<String, NoTemplate> {
    if plan.edges.is_empty() {
        return Err(NoTemplate::NoEdge);
    }
    let chosen: Vec<(usize, &EdgePlan<'_>)> =
        plan.edges.iter().enumerate().filter(|(_, plan)| edge.is_none_or(|name| plan.edge.name == name)).collect();
    if chosen.is_empty() {
        return Err(NoTemplate::NoSuchEdge(plan.edges.iter().map(|plan| plan.edge.name.clone()).collect()));
    }
    let mut drawings = Vec::new();
    for (index, edge) in chosen {
        let drawn = Drawn::of(plan, index, edge, paper, units);
        let places = drawn.places().ok_or_else(|| NoTemplate::TooManySheets(edge.edge.name.clone()))?;
        drawings.extend(places.iter().map(|place| drawn.sheet(*place, &places)));
    }
    let title = &plan.job.title;
    let style = format!(
        "@page {{ size: {} landscape; margin: {MARGIN}mm }}\n\
         body {{ margin: 0; color: #000; background: #fff }}\n\
         svg {{ display: block; break-after: page; break-inside: avoid }}\n\
         svg:last-child {{ break-after: auto }}\n\
         @media screen {{ svg {{ margin: 4mm; outline: .3mm dashed #000 }} }}\n",
        paper.name()
    );
    Ok(html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (crate::diagnostic::escaped(title)) ": template" }
                style { (PreEscaped(style)) }
            }
            body { @for drawing in &drawings { (PreEscaped(drawing)) } }
        }
    }
    .into_string())
}

impl<'p, 'j> Drawn<'p, 'j> {
    fn of(plan: &'p Plan<'j>, index: usize, edge: &'p EdgePlan<'j>, paper: Paper, units: Units) -> Drawn<'p, 'j> {
        let line: Vec<Mm> = match &edge.cut {
            Cut::Corners(corners) => corners.iter().map(|corner| (mm(corner.x), mm(corner.y))).collect(),
            Cut::Measured(curve) => {
                let ends = curve.stations().first().zip(curve.stations().last());
                let (from, to) = ends.map_or((0, 0), |(first, last)| (first.at.nanometres(), last.at.nanometres()));
                // As many steps as the longest template has paper for; on a longer one they are not reached.
                let most = STEP.max((to - from) / 100_000);
                let steps = (0..).map(|step| from + step * most).take_while(|at| *at < to).chain([to]);
                let at = steps.filter_map(Length::from_nanometres);
                at.map(|at| (mm(at), mm(curve.offset(at)))).collect()
            }
        };
        let mut ends = [f64::INFINITY, f64::NEG_INFINITY, f64::INFINITY, f64::NEG_INFINITY];
        for (x, y) in &line {
            ends = [ends[0].min(*x), ends[1].max(*x), ends[2].min(*y), ends[3].max(*y)];
        }
        // The edge lies in the middle of as many sheets as it needs.
        let (width, height) = paper.window();
        let spare = |from: f64, to: f64, window: f64| {
            let wanted = to - from + 2.0 * AROUND;
            let sheets = ((wanted - SHARED) / (window - SHARED)).ceil().max(1.0);
            (sheets * (window - SHARED) + SHARED - wanted) / 2.0
        };
        let corner =
            (ends[0] - AROUND - spare(ends[0], ends[1], width), ends[2] - AROUND - spare(ends[2], ends[3], height));
        let mut drawn = Drawn { plan, edge, units, paper, line, holes: Vec::new(), corner };
        let rows = plan.rows.iter().filter(|row| row.cuts.iter().any(|cut| cut.edge == index));
        drawn.holes = rows.flat_map(|row| drawn.holes_of(row)).collect();
        drawn
    }

    fn holes_of(&self, row: &RowPlan<'j>) -> Vec<(Mm, f64, String)> {
        let hole = |number: u32| {
            let place = self.seen(row.row.place_of(number)?);
            let choice = row.hole(number).map_or(Some(&row.choice), |hole| hole.choice.as_deref());
            // What is referred is drawn as its row has it.
            let size = mm(choice.unwrap_or(&row.choice).hole.value.max());
            Some((place, size, format!("{} {number}", row.row.name)))
        };
        (1..=row.row.count).filter_map(hole).collect()
    }

    fn seen(&self, point: Point) -> Mm {
        match &self.edge.cut {
            Cut::Corners(_) => (mm(point.x), mm(point.y)),
            Cut::Measured(curve) => {
                let Station { at, offset } = curve.seen(point);
                (mm(at), mm(offset))
            }
        }
    }

    /// Left and low of what a sheet shows.
    fn shown(&self, (column, row): Place) -> Mm {
        let (width, height) = self.paper.window();
        (self.corner.0 + column as f64 * (width - SHARED), self.corner.1 + row as f64 * (height - SHARED))
    }

    /// The sheets that the edge lies on, from the left and from below; `None` where there are too many.
    fn places(&self) -> Option<Vec<Place>> {
        let (width, height) = self.paper.window();
        let grid =
            |value: f64, corner: f64, window: f64| ((value - corner - SHARED / 2.0) / (window - SHARED)).max(0.0);
        let mut places: Vec<Place> = Vec::new();
        for pair in self.line.windows(2) {
            let [from, to] = pair else { continue };
            let far = libm::hypot(to.0 - from.0, to.1 - from.1);
            // Steps that pass no sheet over.
            let steps = (far / (SHARED / 2.0)).ceil().max(1.0);
            if steps > 100_000.0 {
                return None;
            }
            for step in 0..=steps as u32 {
                let part = f64::from(step) / steps;
                let (x, y) = (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part);
                let place = (grid(x, self.corner.0, width) as usize, grid(y, self.corner.1, height) as usize);
                if !places.contains(&place) {
                    places.push(place);
                }
                if places.len() > MOST_SHEETS {
                    return None;
                }
            }
        }
        places.sort_unstable_by_key(|(column, row)| (*row, *column));
        Some(places)
    }

    fn sheet(&self, place: Place, places: &[Place]) -> String {
        let (width, height) = self.paper.printed();
        let (wide, high) = self.paper.window();
        let number = |place: Place| places.iter().position(|other| *other == place).map(|index| index + 1);
        let name = &self.edge.edge.name;
        let told = format!("{name}: sheet {} of {}", number(place).unwrap_or_default(), places.len());
        let frame = format!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\".2\"/>",
            figure(LEFT),
            figure(ABOVE),
            figure(wide),
            figure(high)
        );
        let [width, height_in_mm, wide_in_mm, high_in_mm] = [width, height, wide, high].map(figure);
        let mut svg = String::new();
        let mut add = |element: String| {
            svg.push_str(&element);
            svg.push('\n');
        };
        add(format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height_in_mm}mm\" \
             viewBox=\"0 0 {width} {height_in_mm}\" \
             role=\"img\" font-family=\"Helvetica, Arial, sans-serif\">\n<title>{}</title>",
            escaped(&told)
        ));
        add(text((LEFT, 4.2), 4.2, "start", true, &format!("{told}. {}", self.plan.job.title)));
        add(text(
            (LEFT, 8.8),
            2.9,
            "start",
            false,
            &format!("Full size: print at 100 %, not fitted to the page. {ADVISORY}"),
        ));
        let (bar, says) = match self.units {
            Units::Inches => (101.6, "4 in"),
            Units::Millimetres => (100.0, "100 mm"),
        };
        let low = height - BELOW + 3.0;
        add(format!(
            "<rect class=\"bar\" x=\"{LEFT}\" y=\"{}\" width=\"{bar}\" height=\"{BAR}\" fill=\"#000\"/>",
            figure(low)
        ));
        add(format!("<rect class=\"bar\" x=\"1\" y=\"{ABOVE}\" width=\"{BAR}\" height=\"{bar}\" fill=\"#000\"/>"));
        let check = format!("Both bars measure {says} on a steel rule. If one does not, throw the sheet away.");
        add(text((LEFT + bar + 4.0, low + 2.7), 2.9, "start", true, &check));
        // What is drawn of the panel, upright: y goes up there and down here.
        let (left, below) = self.shown(place);
        let at = |(x, y): Mm| (x - left, high - (y - below));
        add(format!(
            "<svg x=\"{LEFT}\" y=\"{ABOVE}\" width=\"{wide_in_mm}\" height=\"{high_in_mm}\" \
             viewBox=\"0 0 {wide_in_mm} {high_in_mm}\" overflow=\"hidden\">"
        ));
        add(self.panel(at, (wide, high)));
        for (beside, vertical, side) in [
            ((-1, 0), true, SHARED / 2.0),
            ((1, 0), true, wide - SHARED / 2.0),
            ((0, -1), false, high - SHARED / 2.0),
            ((0, 1), false, SHARED / 2.0),
        ] {
            let neighbour = place.0.checked_add_signed(beside.0).zip(place.1.checked_add_signed(beside.1));
            let Some(neighbour) = neighbour.and_then(number) else { continue };
            add(joint(neighbour, vertical, side, (wide, high)));
        }
        add("</svg>".to_owned());
        add(frame);
        add("</svg>".to_owned());
        svg
    }

    /// The edge, its marks, the line that it is measured from, and the holes beside it.
    fn panel(&self, at: impl Fn(Mm) -> Mm, (wide, high): Mm) -> String {
        let mut svg = String::new();
        let is_shown = |(x, y): Mm| (-5.0..wide + 5.0).contains(&x) && (-5.0..high + 5.0).contains(&y);
        if matches!(self.edge.cut, Cut::Measured(_)) {
            let (_, y) = at((0.0, 0.0));
            if (0.0..high).contains(&y) {
                svg += &line((0.0, y), (wide, y), 0.2, "4 1.5");
                svg += &text((wide / 2.0, y - 1.0), 2.9, "middle", false, "the line that offsets are measured from");
            }
        }
        let places: Vec<String> = self
            .line
            .iter()
            .map(|place| {
                let (x, y) = at(*place);
                format!("{},{}", figure(x), figure(y))
            })
            .collect();
        let _ = writeln!(
            svg,
            "<polyline class=\"cut\" points=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\".4\"/>",
            places.join(" ")
        );
        for (place, size, name) in &self.holes {
            let (x, y) = at(*place);
            if !is_shown((x, y)) {
                continue;
            }
            let _ = writeln!(
                svg,
                "<circle class=\"hole\" cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\".2\"/>",
                figure(x),
                figure(y),
                figure(size / 2.0)
            );
            svg += &line((x - size, y), (x + size, y), 0.15, "");
            svg += &line((x, y - size), (x, y + size), 0.15, "");
            svg += &text((x + size * 0.6, y - size * 0.6), 2.6, "start", false, name);
        }
        for mark in &self.edge.table {
            let (x, y) = at((mm(mark.at), mm(mark.offset)));
            if !is_shown((x, y)) {
                continue;
            }
            let size = |length: Length| self.units.length(words::to_mark(length, self.units));
            let told = match self.edge.cut {
                Cut::Measured(_) => {
                    svg += &line((x, y - 3.0), (x, y + 3.0), 0.2, "");
                    size(mark.at).to_string()
                }
                Cut::Corners(_) => {
                    svg += &line((x - 3.0, y - 3.0), (x + 3.0, y + 3.0), 0.2, "");
                    svg += &line((x - 3.0, y + 3.0), (x + 3.0, y - 3.0), 0.2, "");
                    format!("{} by {}", size(mark.at).bare(), size(mark.offset))
                }
            };
            svg += &text((x, y + 6.6), 2.6, "middle", false, &told);
        }
        svg
    }
}

/// Where the neighbouring sheet is laid on: the same line on both, with a cross at each end.
fn joint(neighbour: usize, vertical: bool, side: f64, (wide, high): Mm) -> String {
    const END: f64 = 5.0;
    let (ends, cross) =
        if vertical { ([(side, END), (side, high - END)], 3.0) } else { ([(END, side), (wide - END, side)], 3.0) };
    let mut svg = line(ends[0], ends[1], 0.15, "2 2");
    for (x, y) in ends {
        svg += &line((x - cross, y), (x + cross, y), 0.25, "");
        svg += &line((x, y - cross), (x, y + cross), 0.25, "");
    }
    let told = format!("sheet {neighbour}");
    let place = if vertical { (side, END - 1.6) } else { (END + 12.0, side - 1.0) };
    let anchor = if vertical { if side < wide / 2.0 { "start" } else { "end" } } else { "middle" };
    let away = if vertical { if side < wide / 2.0 { 1.0 } else { -1.0 } } else { 0.0 };
    svg + &text((place.0 + away, place.1), 2.6, anchor, true, &told)
}

fn line(from: Mm, to: Mm, thick: f64, dashes: &str) -> String {
    let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
    format!(
        "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#000\" stroke-width=\"{thick}\"{dashes}/>\n",
        figure(from.0),
        figure(from.1),
        figure(to.0),
        figure(to.1)
    )
}

fn text(at: Mm, size: f64, anchor: &str, bold: bool, text: &str) -> String {
    let weight = if bold { " font-weight=\"bold\"" } else { "" };
    format!(
        "<text x=\"{}\" y=\"{}\" font-size=\"{size}\" text-anchor=\"{anchor}\"{weight} stroke=\"#fff\" stroke-width=\".6\" paint-order=\"stroke\">{}</text>\n",
        figure(at.0),
        figure(at.1),
        escaped(text)
    )
}

/// A micrometre is closer than any printer comes.
fn figure(value: f64) -> String {
    format!("{value:.3}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Job;
    use scraper::{ElementRef, Html, Selector};
    use std::path::Path;

    fn job(edge: &str) -> Job {
        let text = format!(
            "title = \"T\"\n[[row]]\nname = \"R\"\nstructure = \"secondary\"\nmember = \"skin\"\ninstalled = \"MS20470AD4-5\"\n\
             layers = [{{ role = \"skin\", thickness = \".063\" }}, {{ role = \"skin\", thickness = \".063\" }}]\n\
             count = 20\npitch = \"1\"\nstart = [\"0\", \"1\"]\nalong = [\"1\", \"0\"]\n[[edge]]\nname = \"lower\"\n{edge}\n"
        );
        let none = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
        Job::read_from(text.into(), Path::new("job.toml"), &none).unwrap_or_else(|error| panic!("{error}"))
    }

    fn made(job: &Job, paper: Paper) -> Result<String, NoTemplate> {
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        template(&Plan::make(job, &practice), None, paper, Units::Inches)
    }

    fn all<'h>(element: ElementRef<'h>, selector: &str) -> Vec<ElementRef<'h>> {
        element.select(&Selector::parse(selector).expect("a selector")).collect()
    }

    fn number(element: ElementRef<'_>, name: &str) -> f64 {
        element.value().attr(name).and_then(|value| value.parse().ok()).unwrap_or_else(|| panic!("no {name}"))
    }

    /// Where the holes of every sheet are, with the sheet's own place on the panel taken from a hole that is known.
    fn holes(sheet: ElementRef<'_>) -> Vec<(String, f64, f64)> {
        let names = all(sheet, "text").into_iter().map(|text| text.text().collect::<String>());
        let names = names.filter(|name| name.starts_with("R "));
        let places = all(sheet, "circle.hole").into_iter().map(|hole| (number(hole, "cx"), number(hole, "cy")));
        names.zip(places).map(|(name, (x, y))| (name, x, y)).collect()
    }

    #[test]
    fn neighbouring_sheets_show_the_same_and_everything_is_at_full_size() {
        let job = job("stations = [[\"-1\", \".375\"], [\"8\", \".5\"], [\"20\", \".4\"]]");
        for paper in [Paper::A4, Paper::Letter] {
            let html = Html::parse_document(&made(&job, paper).expect("a template"));
            let sheets = all(html.root_element(), "body > svg");
            assert!(sheets.len() >= 2, "{paper:?}");
            let mut seen = std::collections::BTreeSet::new();
            for pair in sheets.windows(2) {
                let (one, other) = (holes(pair[0]), holes(pair[1]));
                let shifts: Vec<(f64, f64)> = one
                    .iter()
                    .filter_map(|(name, x, y)| {
                        let (_, there_x, there_y) = other.iter().find(|(other, ..)| other == name)?;
                        Some((x - there_x, y - there_y))
                    })
                    .collect();
                // The line that both sheets have is in the same place of the panel.
                let window = paper.window().0;
                for (x, y) in shifts {
                    assert!((x - (window - SHARED)).abs() < 0.002 && y.abs() < 0.002, "{paper:?}: {x} {y}");
                }
                // An inch apart on the panel, an inch on the paper.
                for next in one.windows(2) {
                    assert!((next[1].1 - next[0].1 - 25.4).abs() < 0.002, "{next:?}");
                }
            }
            for sheet in &sheets {
                let (width, height) = paper.size();
                let units = sheet.value().attr("viewBox").expect("a view").to_owned();
                let in_mm =
                    |name: &str| sheet.value().attr(name).and_then(|value| value.strip_suffix("mm")).map(str::to_owned);
                // A unit of the drawing is a millimetre of the paper, and the sheet fits it.
                let (wide, high) = (in_mm("width").expect("mm"), in_mm("height").expect("mm"));
                assert_eq!(units, format!("0 0 {wide} {high}"));
                assert!(wide.parse::<f64>().expect("mm") <= width - 2.0 * MARGIN);
                assert!(high.parse::<f64>().expect("mm") <= height - 2.0 * MARGIN);
                seen.extend(holes(*sheet).into_iter().map(|(name, ..)| name));
                let bars: Vec<(f64, f64)> = all(*sheet, "rect.bar")
                    .into_iter()
                    .map(|bar| (number(bar, "width"), number(bar, "height")))
                    .collect();
                assert_eq!(bars, [(101.6, 3.0), (3.0, 101.6)]);
            }
            assert_eq!(seen.len(), 20, "every hole is on a sheet: {seen:?}");
        }
    }

    #[test]
    fn an_outline_leaves_out_the_sheets_that_it_does_not_cross() {
        let square =
            job("points = [[\"0\", \"0\"], [\"40\", \"0\"], [\"40\", \"40\"], [\"0\", \"40\"], [\"0\", \"0\"]]");
        let html = made(&square, Paper::A4).expect("a template");
        let page = Html::parse_document(&html);
        let sheets = all(page.root_element(), "body > svg").len();
        // Round a square of so many sheets, none inside it.
        assert!((12..=18).contains(&sheets), "{sheets}");
        assert!(html.contains(&format!("lower: sheet {sheets} of {sheets}")));
        for sheet in all(page.root_element(), "body > svg") {
            let crosses = all(sheet, "text")
                .into_iter()
                .filter(|text| text.text().collect::<String>().starts_with("sheet "))
                .count();
            assert!(crosses >= 2, "each has two neighbours at least");
        }
    }

    #[test]
    fn an_edge_as_long_as_a_runway_is_refused() {
        let long = job("points = [[\"0\", \"0\"], [\"30000\", \"0\"]]");
        assert_eq!(made(&long, Paper::Letter), Err(NoTemplate::TooManySheets("lower".into())));
    }
}
