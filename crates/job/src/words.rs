//! Lines for people that several outputs share: text, card, map and survey say the same.
//!
//! The sentences themselves come from the one table in core: [`Finding::sentence`], [`Word::meaning`], [`Units`].

use shophead::access::{Bar, Clearance, RowWork, SolidBecause};
use shophead::basis::{Basis, Status};
use shophead::drill::Drill;
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Step;
use shophead::joint::row::RowMode;
use shophead::layout::Point;
use shophead::length::{Interval, Length};
use shophead::practice::Practice;
use shophead::select::{LengthAnswer, Nearest, Serving};
use shophead::upset::Within;
use shophead::words::{Units, Word};
use shophead::work::bar_weight;

use crate::plan::{DamagePlan, EdgePlan, HolePlan, HolesThere, NotCompared, Plan};
use crate::tools::{Tool, ToolKind};

/// What every output says once.
pub const ADVISORY: &str =
    "Advisory only: the manuals of the type, approved data, local rules and a licensed person decide.";

/// What the figures of a command leave out: said where they are read.
///
/// ```
/// use shophead_job::words::left_out;
/// assert!(left_out("joint").expect("strengths").contains("fatigue"));
/// assert_eq!(left_out("order"), None);
/// ```
#[must_use]
pub fn left_out(command: &str) -> Option<&'static str> {
    match command {
        "joint" | "group" | "splice" | "repair" => Some(
            "Strengths are static, at room temperature, without friction between the sheets; nothing is said of fatigue.",
        ),
        "length" | "head" => Some("The driven head is taken for a cylinder in a straight hole."),
        _ => None,
    }
}

/// What a finding says, with the document and place of its limit behind it.
#[must_use]
pub fn finding(finding: &Finding, units: Units, practice: &Practice<'_>) -> String {
    format!("{} [{}]", finding.sentence(units), practice.cite(finding.basis()))
}

/// A length rounded to what can be marked out: a thousandth of an inch, a hundredth of a millimetre.
#[must_use]
pub fn to_mark(length: Length, units: Units) -> Length {
    length.round_to(match units {
        Units::Inches => Length::from_ten_thousandths(10),
        Units::Millimetres => Length::from_nanometres(10_000).unwrap_or_default(),
    })
}

/// What it means, without the full stop: for the middle of a line.
#[must_use]
pub fn phrase(word: impl Word) -> &'static str {
    word.meaning().trim_end_matches('.')
}

/// The same with a small letter.
#[must_use]
pub fn lower(word: impl Word) -> String {
    let mut chars = phrase(word).chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// What becomes of a hole, and whether it stays as it is.
#[must_use]
pub fn becomes(disposition: Disposition, cut: Option<Drill>) -> &'static str {
    match (disposition, cut) {
        (Disposition::Oversize, None) => "Oversize rivet, hole as it is",
        (Disposition::NextSize, None) => "Next larger rivet, hole as it is",
        _ => phrase(disposition),
    }
}

/// How a row fails, in a few words.
#[must_use]
pub fn row_mode(mode: RowMode) -> String {
    match mode {
        RowMode::Rivets(mode) => lower(mode),
        RowMode::NetSection => "the sheet fails between the holes".to_owned(),
        other => other.as_str().to_owned(),
    }
}

/// Why the row as planned could not be compared with the row as installed.
#[must_use]
pub const fn not_compared(why: NotCompared) -> &'static str {
    match why {
        NotCompared::NoEdge => "enter the edge distance",
        NotCompared::NoPitch => "enter the pitch",
        NotCompared::NoJoint => "no strength is known for these layers",
    }
}

/// Why a row takes driven solid rivets only.
#[must_use]
pub fn solid_because(because: SolidBecause) -> String {
    match because {
        SolidBecause::Primary => "Primary structure.".to_owned(),
        SolidBecause::Member(member) => format!("Along {}.", lower(member)),
        SolidBecause::Place(place) => place.meaning().to_owned(),
        _ => "Driven solid rivets only.".to_owned(),
    }
}

/// Numbers by rising order, neighbours as a range.
///
/// ```
/// assert_eq!(shophead_job::words::ranges(&[1, 2, 3, 7, 9, 10]), "1-3, 7, 9-10");
/// assert_eq!(shophead_job::words::ranges(&[]), "");
/// ```
#[must_use]
pub fn ranges(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|one, next| one.checked_add(1) == Some(*next));
    let shown: Vec<String> = runs
        .filter_map(|run| match run {
            [] => None,
            [one] => Some(one.to_string()),
            [first, .., last] => Some(format!("{first}-{last}")),
        })
        .collect();
    shown.join(", ")
}

/// How a hole was found: its axes, what else is wrong, and what somebody noted.
#[must_use]
pub fn found(hole: &HolePlan<'_>, units: Units) -> String {
    let Some(measured) = hole.measured else { return "not measured".into() };
    as_found(measured.as_found, &measured.remark, units)
}

/// The same of a hole before it was opened, where that was measured.
#[must_use]
pub fn found_first(hole: &HolePlan<'_>, units: Units) -> String {
    match hole.measured.and_then(|measured| Some((measured, measured.before?))) {
        Some((measured, before)) => as_found(before, &measured.remark, units),
        None => found(hole, units),
    }
}

fn as_found(found: AsFound, remark: &str, units: Units) -> String {
    let damage = match found.damage() {
        Damage::None => String::new(),
        damage => format!(", {damage}"),
    };
    let remark = if remark.is_empty() { String::new() } else { format!(" ({remark})") };
    format!("{}{damage}{remark}", width(found, units))
}

/// How wide a hole is: `.160`, `.160 by .163`, `go .1285, no-go .133`.
#[must_use]
pub fn width(found: AsFound, units: Units) -> String {
    let (minor, major) = (units.length(found.minor()).bare(), units.length(found.major()));
    match found.minor() == found.major() {
        true => major.to_string(),
        false if found.is_gauged() => format!("go {minor}, no-go {major}"),
        false => format!("{minor} by {major}"),
    }
}

/// What goes into which holes, where no one length suits all of them: the holes, and what is taken for them.
#[must_use]
pub fn by_hole(answer: &LengthAnswer<'_>, units: Units) -> Vec<(String, String)> {
    let mut lines = Vec::new();
    let mut ranges = answer.by_hole().peekable();
    while let Some(range) = ranges.next() {
        let holes = match ranges.peek() {
            Some(_) => format!("Hole up to {}", units.length(range.hole.max().floor_to(fine(units)))),
            None if lines.is_empty() => "Hole".to_owned(),
            None => "Larger hole".to_owned(),
        };
        let what = match (range.length, range.cut) {
            (Some(length), _) => {
                let rivet = range.part.map_or_else(|| units.size(length).to_string(), |part| part.to_string());
                let drive =
                    range.window.map_or_else(String::new, |window| format!(": drive to {}", window.shown(units)));
                format!("{rivet}{drive}")
            }
            (None, Some(cut)) => {
                format!("cut a longer rivet to {}", units.limits(Some(cut.min()), Some(cut.max())))
            }
            (None, None) => {
                let short = range.short.map_or_else(String::new, |short| {
                    format!(", the longest is up to {} short", units.length(short.ceil_to(fine(units))))
                });
                format!("no length within limits{short}; ask for the next larger rivet")
            }
        };
        lines.push((holes, what));
    }
    lines
}

/// Another good length with the head that it makes: `5/16 (head .163 to .210 wide, .046 high)`.
#[must_use]
pub fn makes(other: &Serving<'_>, units: Units) -> String {
    let head = other.head.map_or_else(String::new, |head| {
        let wide = Interval::of(head.diameter.min, head.diameter.max);
        format!(" (head {} wide, {} high)", units.interval(wide).about(), units.length(head.height).about())
    });
    format!("{}{head}", units.size(other.length))
}

/// What would make a standard length good in every hole.
#[must_use]
pub fn nearest(nearest: &Nearest, units: Units) -> String {
    format!("{} is good {}.", units.size(nearest.length), within(&nearest.within, units))
}

/// Holes and shanks with which a length makes a sound head: `in holes up to .1302, or with a shank from .1251`.
#[must_use]
pub fn within(within: &Within, units: Units) -> String {
    let step = fine(units);
    let hole = within.hole_greatest.map(|hole| format!("in holes up to {}", units.length(hole.floor_to(step))));
    let shank = within.shank_least.map(|shank| format!("with a shank from {}", units.length(shank.ceil_to(step))));
    match (hole, shank) {
        (Some(hole), Some(shank)) => format!("{hole}, or {shank}"),
        (one, other) => one.or(other).unwrap_or_else(|| "in no hole".to_owned()),
    }
}

/// What holes and shanks are measured to: a tenth of a thousandth of an inch, a hundredth of a millimetre.
fn fine(units: Units) -> Length {
    match units {
        Units::Inches => Length::from_ten_thousandths(1),
        Units::Millimetres => Length::from_nanometres(10_000).unwrap_or_default(),
    }
}

/// Why each step cannot be taken; a step that fails for the same reason as the one before it is left out. `full` is what was found of the
/// hole's pattern.
#[must_use]
pub fn why_not(steps: &[Step<'_>], full: &[Finding], units: Units, practice: &Practice<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    let mut said: Vec<Code> = Vec::new();
    for step in steps {
        let refers = |finding: &&Finding| finding.severity() == Severity::Refer;
        let codes: Vec<Code> = step.findings.iter().filter(refers).map(|finding| finding.code()).collect();
        if codes.is_empty() || codes == said {
            continue;
        }
        let why = step.findings.iter().filter(refers).map(|finding| finding.reason(units).to_string());
        lines.push(format!("{}: {}", step.kind, why.collect::<Vec<_>>().join(" ")));
        said = codes;
    }
    let full = full.iter().filter(|finding| finding.code() == Code::PatternFull);
    lines.extend(full.map(|finding| self::finding(finding, units, practice)));
    lines
}

/// The line that the stations of an edge are measured along, where that is not the x axis.
#[must_use]
pub fn base_line(edge: &EdgePlan<'_>, units: Units) -> Option<String> {
    let (from, to) = edge.line()?.points();
    let point = |point: Point| format!("{} by {}", units.length(point.x).bare(), units.length(point.y));
    Some(format!("stations along the line from {} to {}, offsets to its left", point(from), point(to)))
}

/// Damage beside the holes, on one line.
#[must_use]
pub fn damage(plan: &Plan<'_>, damage: &DamagePlan<'_>, units: Units) -> String {
    let found = &damage.held;
    let mut parts = vec![format!("{}: {}", found.kind, damage.damage.place)];
    let row = damage.damage.row.and_then(|row| plan.rows.get(row)).map(|row| row.row.name.as_str());
    match (row, damage.damage.hole) {
        (Some(row), Some(hole)) => parts.push(format!("near row {row} hole {hole}")),
        (Some(row), None) => parts.push(format!("near row {row}")),
        (None, _) => {}
    }
    if let Some(at) = damage.damage.at {
        parts.push(format!("at {} by {}", units.length(at.x).bare(), units.length(at.y)));
    }
    parts.extend(damage.damage.member.map(|member| format!("in the {member}")));
    parts.extend(found.length.map(|length| format!("{} long", units.length(length))));
    parts.extend(found.depth.map(|depth| format!("{} deep", units.length(depth))));
    parts.join(", ")
}

/// What a row lacks in a position where it cannot be bucked.
#[must_use]
pub fn lack(work: &RowWork, units: Units) -> String {
    match (work.clearance, work.needed, work.missing()) {
        (Clearance::Closed, Some(needed), _) => {
            format!("no bar goes behind it; open it up to {}.", units.length(needed).about())
        }
        (_, _, Some(missing)) => format!("{} more room.", units.length(missing).about()),
        _ => "enter the room that its bar takes.".into(),
    }
}

/// The bar that goes in behind holes with room of their own.
#[must_use]
pub fn bar(there: &HolesThere<'_>, units: Units) -> String {
    let weight = bar_weight(there.case.diameter).map(|bar| {
        let (least, greatest) = bar.value;
        format!(", {least} to {greatest} lb{}", star(bar.basis))
    });
    let weight = weight.unwrap_or_default();
    match there.bar {
        Bar::Any => format!("any bar goes in{weight}"),
        Bar::UpTo(thick) => format!("a bar {} thick goes in{weight}", units.limits(None, Some(thick))),
        Bar::None => "no bar goes in".to_owned(),
    }
}

/// The mark of a figure that was recalled, not read.
#[must_use]
pub fn star(basis: Basis) -> &'static str {
    if basis.status() == Status::Memory { "*" } else { "" }
}

/// A tool, its size and at how many holes it is used.
#[must_use]
pub fn tool(tool: &Tool<'_>, units: Units) -> String {
    let holes = if tool.holes == 1 { "1 hole".into() } else { format!("{} holes", tool.holes) };
    match tool.kind {
        ToolKind::HeadDrill(drill) => format!("drill {} for old heads: {holes}", drill.sized(units)),
        ToolKind::Punch(under) => format!("punch thinner than {}: {holes}", units.length(under)),
        ToolKind::HoleCutter(drill) => format!("drill or reamer {} to open up: {holes}", drill.sized(units)),
        ToolKind::HoleGauge { rivet, least, greatest } => {
            format!("hole gauge for {rivet}, {}: {holes}", units.limits(least, greatest))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use shophead::structure::{Member, Place};

    #[test]
    fn reasons_read_as_sentences() {
        assert_eq!(solid_because(SolidBecause::Primary), "Primary structure.");
        assert_eq!(solid_because(SolidBecause::Member(Member::SparCap)), "Along the cap of a spar, keel or main beam.");
        for place in Place::ALL {
            let text = solid_because(SolidBecause::Place(*place));
            assert!(text.starts_with(char::is_uppercase) && text.ends_with('.'), "{text}");
        }
    }

    #[test]
    fn a_length_to_mark_is_one_that_a_scale_shows() {
        let length = Length::parse("1.23456").expect("a length");
        assert_eq!(to_mark(length, Units::Inches), Length::parse("1.235").expect("a length"));
        assert_eq!(to_mark(length, Units::Millimetres), Length::parse("31.36mm").expect("a length"));
    }
}
