//! The card of a job: one HTML file to print, work from, fill in and sign.
//!
//! It stands by itself: no script, no picture, font or style from elsewhere. It prints on A4 and on Letter, in black and white; rows
//! of tables stay whole and their headings come again on every page. Nothing in it is told by colour. Every text is escaped, and
//! characters that could steer the reading direction are written out.
//!
//! Nothing is calculated here: limits are asked of the core, everything else stands in the plan and the order.

use std::borrow::Cow;
use std::collections::HashMap;
use std::fmt::Write;

use maud::{DOCTYPE, Markup, PreEscaped, Render, html};
use shophead::basis::{Basis, Status};
use shophead::drill::Drill;
use shophead::finding::{Finding, Severity};
use shophead::hole::{Disposition, HoleLimits};
use shophead::length::{Interval, Length};
use shophead::practice::{Given, Name};
use shophead::removal::Removal;
use shophead::rivet::part::Part;
use shophead::select::LengthAnswer;
use shophead::trim::Cut;
use shophead::upset::HeadLimits;
use shophead::words::{Shown, Units};

use crate::diagnostic::escaped;
use crate::drawing::{Mark, sheets};
use crate::grouped::grouped;
use crate::inspect::{Inspected, Inspection};
use crate::model::Taken;
use crate::order::{Alternative, NotOrdered, OrderLine, not_ordered};
use crate::plan::{Bucked, Choice, EdgePlan, HolePlan, Plan, RowCut, RowPlan, Standing, Subject, There, in_words};
use crate::read::DrivenLine;
use crate::tools::Tool;
use crate::words::{self, ADVISORY};

/// What a card is made of.
#[derive(Clone, Copy, Debug)]
pub struct Card<'c, 'j> {
    /// The plan.
    pub plan: &'c Plan<'j>,
    /// What to order.
    pub order: &'c [OrderLine<'j>],
    /// What else is on the shelf.
    pub alternatives: &'c [Alternative<'j>],
    /// What was found on the driven rivets, where any were looked at.
    pub inspection: Option<&'c Inspection<'c, 'j>>,
    /// The tools.
    pub tools: &'c [Tool<'j>],
    /// What the shop's own limits are called; empty without any.
    pub own_limits: &'c str,
    /// The units of figures.
    pub units: Units,
}

/// Empty lines to write measured heads on.
const HEAD_LINES: usize = 4;
const STYLE: &str = include_str!("style.css");
/// Behind a figure that could only be recalled.
const RECALLED: &str = "*";

/// A text from a file: escaped, and what nobody would see written out.
struct Said<'t>(&'t str);

impl Render for Said<'_> {
    fn render_to(&self, buffer: &mut String) {
        escaped(self.0).as_ref().render_to(buffer);
    }
}

/// A text as a string of CSS: whatever is not a letter, a figure or a blank is written as its number, so that nothing can end it.
fn css_string(text: &str) -> String {
    let mut string = String::from("\"");
    for c in escaped(text).chars() {
        if c.is_ascii_alphanumeric() || c == ' ' {
            string.push(c);
        } else {
            // Writing to a string does not fail.
            let _ = write!(string, "\\{:x} ", u32::from(c));
        }
    }
    string.push('"');
    string
}

/// A heading of a column; `tick` for a narrow one with boxes.
struct Column {
    name: Cow<'static, str>,
    /// In percent of the table.
    width: u32,
    tick: bool,
}

fn column(name: impl Into<Cow<'static, str>>, width: u32) -> Column {
    Column { name: name.into(), width, tick: false }
}

fn tick_column(name: &'static str, width: u32) -> Column {
    Column { name: name.into(), width, tick: true }
}

fn head(columns: &[Column]) -> Markup {
    html! {
        colgroup { @for column in columns { col style={ "width:" (column.width) "%" }; } }
        thead { tr { @for column in columns { th scope="col" class=[column.tick.then_some("tick")] { (column.name) } } } }
    }
}

/// The headings once more, for narrow screens, where a line of a table is a list and every cell has its heading before it.
fn labels(columns: &[Column]) -> String {
    columns.iter().zip(1..).map(|(column, number)| format!("--c{number}:{};", css_string(&column.name))).collect()
}

fn tick(what: &str) -> Markup {
    html! { td class="tick" { (tick_box(what)) } }
}

fn tick_box(what: &str) -> Markup {
    html! { input type="checkbox" autocomplete="off" aria-label=(Said(what)); }
}

fn write_cell(what: &str) -> Markup {
    html! { td class="write" { input type="text" autocomplete="off" aria-label=(Said(what)); } }
}

fn field(what: &str) -> Markup {
    html! { label { (what) input type="text" autocomplete="off"; } }
}

fn recalled(basis: Basis) -> &'static str {
    if basis.status() == Status::Memory { RECALLED } else { "" }
}

fn section(id: &str, title: &str, content: &Markup) -> Markup {
    html! { section aria-labelledby=(id) { h2 id=(id) { (title) } (content) } }
}

fn count_of(count: u32, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

/// The whole card.
///
/// ```
/// use shophead_job::card::{Card, card};
/// use shophead_job::model::Job;
/// use shophead_job::order::order;
/// use shophead_job::plan::Plan;
/// use shophead_job::tools::tools;
/// use shophead::words::Units;
/// let path = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/keel-skin/job.toml");
/// let job = Job::read(path.as_ref()).expect("the demo job reads");
/// let (own, documents) = job.own_limits.lists();
/// let practice = job.practice.with_own(&own, &documents);
/// let plan = Plan::make(&job, &practice);
/// let (order, tools) = (order(&plan, job.spares_percent, None), tools(&plan));
/// let html = card(&Card {
///     plan: &plan, order: &order, alternatives: &[], inspection: None, tools: &tools, own_limits: &job.own_limits.title, units: Units::Inches,
/// });
/// assert!(html.contains("<h1>Keel skin panel, frames 2 to 6</h1>"));
/// ```
#[must_use]
pub fn card(card: &Card<'_, '_>) -> String {
    let plan = card.plan;
    let style = STYLE.replace("TITLE", &css_string(&plan.job.title));
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (Said(&plan.job.title)) ": job card" }
                style { (PreEscaped(style)) }
            }
            body {
                header { (card.top()) }
                main {
                    (card.stops())
                    (card.damage())
                    (card.positions())
                    (card.removals())
                    (card.edges())
                    (card.rows())
                    (card.holes())
                    (card.heads())
                    (card.tools())
                    (card.map())
                }
                footer { (card.record()) }
            }
        }
    }
    .into_string()
}

impl<'j> Card<'_, 'j> {
    const fn length(&self, length: Length) -> Shown {
        self.units.length(length)
    }

    fn top(&self) -> Markup {
        let plan = self.plan;
        let counts = plan.counts();
        let own = if self.own_limits.is_empty() { String::new() } else { format!(" with {}", self.own_limits) };
        html! {
            h1 { (Said(&plan.job.title)) }
            p {
                (count_of(counts.rows, "row")) ", " (count_of(counts.holes, "hole")) ". "
                @if counts.measured > 0 {
                    "Of " (count_of(counts.measured, "measured hole")) ": " (counts.keep) " keep, " (counts.clean_up) " clean up, "
                    (counts.oversize) " oversize shank, " (counts.next_size) " next diameter, " (counts.refer) " refer. "
                }
                "Practice: " (Said(plan.practice.name())) (Said(&own)) "."
            }
            p class="advisory" role="note" { (ADVISORY) }
            p class="screen" { "Print this card and fill it in by hand: what is ticked or typed on the screen is not kept." }
            div class="fields" { (field("Assembly and serial number")) (field("Work order")) (field("Date")) }
            p class="small" { (RECALLED) " behind a figure: recalled, not read. Check it against the document." }
        }
    }

    /// A finding with where its limit stands.
    fn said(&self, finding: &Finding) -> String {
        words::finding(finding, self.units, self.plan.practice)
    }

    fn list(&self, lines: &[String]) -> Markup {
        html! {
            @match lines {
                [] => {}
                [line] => { (Said(line)) }
                lines => { ul { @for line in lines { li { (Said(line)) } } } }
            }
        }
    }

    fn stops(&self) -> Markup {
        let stops: Vec<(Subject<'j>, &Finding)> = self.plan.stops().collect();
        if stops.is_empty() {
            return section("stops", "Nothing stops the work", &html! { p { "No finding has to be referred." } });
        }
        let columns =
            [column("where", 12), column("what was found", 64), column("answer: by whom, where it is written", 24)];
        let mut said = HashMap::new();
        let content = html! {
            p { "Stop here until the holder of the type's data or a licensed person has answered each of these. Do not open these holes." }
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for of_subject in stops.chunk_by(|(one, _), (next, _)| one == next) {
                        @if let Some((subject, _)) = of_subject.first() {
                            @let name = subject.to_string();
                            tr {
                                th scope="row" { (Said(&name)) }
                                td class="small" { (self.why(*subject, of_subject, &mut said)) }
                                @match self.answers(*subject, of_subject) {
                                    Some(answers) => { td { (self.list(&answers)) } }
                                    None => { (write_cell(&format!("answer for {name}"))) }
                                }
                            }
                        }
                    }
                }
            }
        };
        section("stops", "What stops the work", &content)
    }

    /// What was answered, where all of it is.
    fn answers(&self, subject: Subject<'j>, findings: &[(Subject<'j>, &Finding)]) -> Option<Vec<String>> {
        let answers = findings.iter().map(|(_, finding)| self.plan.answer_to(subject, finding).map(in_words));
        let mut answers = answers.collect::<Option<Vec<String>>>()?;
        answers.dedup();
        Some(answers)
    }

    /// Why, and where that is as it was said before, a word to where. `said` keeps what was said and of what.
    fn why(
        &self,
        subject: Subject<'j>,
        findings: &[(Subject<'j>, &Finding)],
        said: &mut HashMap<String, String>,
    ) -> Markup {
        let hole = match subject {
            Subject::Hole(row, number) => {
                self.plan.rows.iter().find(|plan| plan.row.name == row).and_then(|plan| plan.hole(number))
            }
            _ => None,
        };
        let lines: Vec<String> = match self.plan.why_not(subject, self.units) {
            Some(lines) => lines,
            None => findings.iter().map(|(_, finding)| self.said(finding)).collect(),
        };
        let once = |line: &String| match (said.get(line), line.split_once(": ")) {
            (Some(before), Some((step, _))) => format!("{step}: as for {before}."),
            _ => {
                said.insert(line.clone(), subject.to_string());
                line.clone()
            }
        };
        let lines: Vec<String> = lines.iter().map(once).collect();
        html! {
            @if let Some(hole) = hole { strong { "Found " (Said(&words::found(hole, self.units))) "." } " " }
            @for line in &lines { (Said(line)) " " }
        }
    }

    fn damage(&self) -> Markup {
        let (plan, looks) = (self.plan, &self.plan.job.looks);
        let columns = [column("no.", 6), column("damage", 34), column("what it comes to", 38), column("answer", 22)];
        let of_damage = html! {
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for (damage, number) in plan.damage.iter().zip(1_u32..) {
                        @let lines: Vec<String> = damage.findings.iter().map(|finding| self.said(finding)).collect();
                        tr {
                            th scope="row" { (number) }
                            td { (Said(&words::damage(plan, damage, self.units))) }
                            td class="small" { (self.list(&lines)) }
                            (write_cell(&format!("answer for damage {number}")))
                        }
                    }
                }
            }
        };
        let columns = [tick_column("done", 8), column("look here", 34), column("why", 36), column("found", 22)];
        let of_looks = html! {
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for look in looks {
                        tr {
                            @if look.found.is_some() { td class="tick" { "done" } }
                            @else { (tick(&format!("looked at {}", look.place))) }
                            th scope="row" { (Said(&look.place)) }
                            td { (Said(&look.why)) }
                            @if let Some(found) = &look.found { td { (Said(found)) } }
                            @else { (write_cell(&format!("found at {}", look.place))) }
                        }
                    }
                }
            }
        };
        html! {
            @if !plan.damage.is_empty() { (section("damage", "Damage", &of_damage)) }
            @if !looks.is_empty() { (section("looks", "Also look here", &of_looks)) }
        }
    }

    fn positions(&self) -> Markup {
        let plan = self.plan;
        if plan.positions.is_empty() {
            return html! {};
        }
        let best = plan.serving_position();
        let stands = plan.stands();
        let columns = [
            tick_column("used", 8),
            column("position", 34),
            column("works", 12),
            column("what cannot be bucked there; bars", 46),
        ];
        let content = html! {
            p {
                @match best {
                    Some(best) => { "Work in " strong { (Said(&best.position.name)) } ": every row that takes driven rivets only can be bucked there, with the least effort." }
                    None if !stands.is_empty() => { "No single position works for every row. Work in this order:" }
                    None => { span class="stop" { "refer" } " No position lets every row be bucked that takes driven rivets only." }
                }
            }
            @if !stands.is_empty() {
                ol {
                    @for stand in &stands {
                        @let there: Vec<String> = stand.there.iter().map(Bucked::name).collect();
                        li { strong { (Said(&stand.position.position.name)) } ": " (Said(&there.join(", "))) }
                    }
                }
            }
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for position in &plan.positions {
                        @let name = &position.position.name;
                        @let told: Vec<String> = plan.seen_from(position).filter_map(|there| self.seen(&there)).collect();
                        @let any = plan.seen_from(position).any(|there| there.work.is_reachable());
                        tr {
                            (tick(&format!("used position {name}")))
                            th scope="row" {
                                (Said(name))
                                @if !position.position.about.is_empty() { br; span class="small" { (Said(&position.position.about)) } }
                                @if let Some(minutes) = position.work.time.total().filter(|_| any) { br; span class="small" { (minutes.to_string()) " min" } }
                            }
                            td { (if position.serves { "yes" } else { "no" }) }
                            td { @if told.is_empty() { "none" } @else { (self.list(&told)) } }
                        }
                    }
                }
            }
        };
        section("positions", "Positions", &content)
    }

    /// What a row lacks in a position, and the bar for holes with room of their own.
    fn seen(&self, there: &There<'_, '_>) -> Option<String> {
        let lack = (!there.work.is_reachable()).then(|| words::lack(&there.work, self.units));
        let bar = there.own.map(|own| format!("{}.", words::bar(own, self.units)));
        let told: Vec<String> = lack.into_iter().chain(bar).collect();
        (!told.is_empty()).then(|| format!("{}: {}", there.name(), told.join(" As it is ")))
    }

    fn removals(&self) -> Markup {
        let columns = [
            column("rows: tick when out", 24),
            column("installed", 15),
            column("drill", 11),
            column("depth, no more", 9),
            column("punch under", 8),
            column("mind", 33),
        ];
        // Rows that come out alike share a line, in the order in which the first of them comes.
        let groups = grouped(self.plan.removals().into_iter().map(|note| {
            let count = if note.hole.is_none() { format!(" ({})", note.row.row.count) } else { String::new() };
            ((note.row.row.installed, note.removal), format!("{}{count}", note.name()))
        }));
        let content = html! {
            p { "The risky ones first. Drill the manufactured head to its base only, snap it off, punch the shank out." }
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for ((installed, removal), names) in &groups {
                        tr {
                            th scope="row" class="ticked" {
                                @for name in names { label { (tick_box_bare()) " " (Said(name)) } " " }
                            }
                            td { span class="part" { (installed) } }
                            (self.removal(removal))
                        }
                    }
                }
            }
        };
        section("removal", "Taking the old rivets out", &content)
    }

    fn removal(&self, removal: &Removal) -> Markup {
        let mut mind: Vec<String> = removal.risks.iter().map(|risk| risk.value.meaning().to_owned()).collect();
        if removal.support {
            mind.push("Bar or block beside the driven head.".to_owned());
        }
        html! {
            td { (removal.drill.map_or_else(|| "none is that small".to_owned(), |drill| drill.value.sized(self.units).to_string())) }
            td { (removal.depth.map_or_else(|| "to its base".to_owned(), |depth| self.length(depth.value).to_string())) }
            td { (self.length(removal.punch_under)) }
            td class="small" { (self.list(&mind)) }
        }
    }

    fn edges(&self) -> Markup {
        html! {
            @for (edge, index) in self.plan.edges.iter().zip(0_usize..) {
                (section(&format!("edge-{}", index + 1), &format!("Cutting the {}", escaped(&edge.edge.name)), &self.edge(edge, index)))
            }
        }
    }

    fn edge(&self, edge: &EdgePlan<'_>, index: usize) -> Markup {
        let measured = matches!(edge.cut, Cut::Measured(_));
        let names = if measured { ("station", "offset") } else { ("x", "y") };
        let columns = [column(format!("{}: tick when marked", names.0), 40), column(names.1, 25), column("from", 35)];
        let cuts: Vec<(&str, &RowCut)> = self
            .plan
            .rows
            .iter()
            .filter_map(|row| Some((row.row.name.as_str(), row.cuts.iter().find(|cut| cut.edge == index)?)))
            .collect();
        let findings: Vec<String> = edge.findings.iter().map(|finding| self.said(finding)).collect();
        html! {
            @if !edge.edge.about.is_empty() { p { (Said(&edge.edge.about)) } }
            @if let Some(line) = words::base_line(edge, self.units) { p { "Measured at " (line) "." } }
            (self.list(&findings))
            @if !cuts.is_empty() {
                ul {
                    @for (name, cut) in &cuts {
                        li {
                            strong { (Said(name)) } ": closest hole " (cut.closest.0) " at "
                            (self.units.length(cut.closest.1).about())
                            @if !cut.short.is_empty() { "; " span class="stop" { "too close" } " holes " (words::ranges(&cut.short)) }
                            @if !cut.beyond.is_empty() { "; beyond the stations: holes " (words::ranges(&cut.beyond)) }
                        }
                    }
                }
            }
            @for half in edge.table.chunks(edge.table.len().div_ceil(2).max(4)) { table class="half" style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for mark in half {
                        @let at = self.length(words::to_mark(mark.at, self.units));
                        tr {
                            th scope="row" class="ticked" { label { (tick_box_bare()) " " (at) } }
                            td { (self.length(words::to_mark(mark.offset, self.units))) }
                            td { (match (measured, edge.is_measured_at(*mark)) { (true, true) => "measured", (true, false) => "between stations", _ => "corner" }) }
                        }
                    }
                }
            } }
        }
    }

    /// A limit's two ends, without unit; a star where either could only be recalled.
    fn ends(&self, least: Option<Given<Length>>, greatest: Option<Given<Length>>) -> Markup {
        let star = [least, greatest].into_iter().flatten().any(|limit| limit.basis.status() == Status::Memory);
        let value = |limit: Option<Given<Length>>| limit.map(|limit| limit.value);
        let ends = self.units.limits(value(least), value(greatest));
        html! { (ends) @if star { (RECALLED) } }
    }

    fn hole_limits(&self, row: &RowPlan<'j>, part: &Part<'_>) -> Markup {
        let limits = HoleLimits::of(self.plan.practice, &row.case(part));
        self.ends(limits.least, limits.greatest)
    }

    /// What to drive the head to; where the length goes by the hole, that of each; else the limits by themselves.
    fn driven_head(&self, row: &RowPlan<'j>, choice: &Choice<'_>) -> Markup {
        let limits = HeadLimits::of(self.plan.practice, &row.case(&choice.part));
        let answer = choice.length.as_ref().ok();
        if let Some(window) = answer.and_then(|answer| answer.window) {
            let is_recalled = |limit: Option<Given<Length>>| limit.map_or("", |limit| recalled(limit.basis));
            let ends = [limits.height_least, limits.height_greatest].map(is_recalled);
            return html! {
                span class="small" { "high " } (self.units.limits(Some(window.height.min()), Some(window.height.max())))
                (ends[0]) @if ends[0] != ends[1] { (ends[1]) } br;
                span class="small" { "wide " } (self.units.limits(Some(window.diameter_least), None)) (is_recalled(limits.diameter_least))
            };
        }
        let lines = answer.map_or_else(Vec::new, |answer| words::by_hole(answer, self.units));
        html! {
            @if lines.is_empty() {
                span class="small" { "wide " } (self.ends(limits.diameter_least, limits.diameter_greatest)) br;
                span class="small" { "high " } (self.ends(limits.height_least, limits.height_greatest))
            }
            @for (hole, what) in &lines { span class="small" { (hole) ": " (what) } br; }
        }
    }

    /// The drill of the practice for a new hole, by its name where it is a drill of the tables.
    fn hole_drill(&self, row: &RowPlan<'j>, part: &Part<'_>) -> Markup {
        let drill = self.plan.practice.length(Name::HoleDrill, &row.case(part));
        html! {
            @match drill {
                Some(size) => {
                    @match Drill::nearest_at_or_below(size.value).filter(|drill| drill.diameter() == size.value) {
                        Some(drill) => { (drill.sized(self.units)) }
                        None => { (self.length(size.value)) }
                    }
                    (recalled(size.basis))
                }
                None => { "not known" }
            }
        }
    }

    /// What else is within limits, where the shelf has it.
    fn other_lengths(&self, choice: &Choice<'_>) -> String {
        let others = choice.length.iter().flat_map(|answer| answer.serves());
        others.map(|other| self.units.size(other.length).to_string()).collect::<Vec<_>>().join(", ")
    }

    fn rivet(&self, choice: &Choice<'_>) -> Markup {
        html! {
            span class="part" { (choice.part) } br;
            span class="small" {
                @match choice.part.length() {
                    Some(length) => {
                        (self.units.size(length)) " long"
                        @let others = self.other_lengths(choice);
                        @if !others.is_empty() { "; also good: " (others) }
                    }
                    None if choice.length.as_ref().is_ok_and(LengthAnswer::is_by_hole) => { "length by the hole as measured"
                    }
                    None => { span class="stop" { "refer" } " no length fits" }
                }
            }
        }
    }

    fn rows(&self) -> Markup {
        let columns = [
            column("row", 23),
            column("rivet", 24),
            column("drill, limits of the hole", 12),
            column("drive the head to", 17),
            tick_column("holes", 6),
            tick_column("driven", 6),
            tick_column("heads", 6),
            column("by", 6),
        ];
        let because = |row: &RowPlan<'_>| Some(words::solid_because(row.solid?.value));
        let rows = || self.plan.rows.iter().map(|row| (row, row.row.name.as_str()));
        let solid = grouped(rows().filter_map(|(row, name)| Some((because(row)?, name))));
        // What several rows have in common is said once.
        let mind = grouped(rows().flat_map(|(row, name)| {
            let told = row.findings.iter().filter(|finding| finding.severity() >= Severity::Caution);
            told.map(move |finding| (finding.sentence(self.units).to_string(), name))
        }));
        let content = html! {
            @for (because, rows) in &solid { p { strong { "Driven solid rivets only" } " in " (Said(&rows.join(", "))) ". " (because) } }
            p { "Holes that differ are in the next table. Tick when the holes are good, the rivets driven, the heads checked." }
            table style=(labels(&columns)) {
                (head(&columns))
                tbody { @for row in &self.plan.rows { (self.row(row)) } }
            }
            @if !mind.is_empty() {
                ul { @for (line, rows) in &mind { li { strong { (Said(&rows.join(", "))) } ": " (Said(line)) } } }
            }
        };
        section("rows", "Rows", &content)
    }

    fn row(&self, row: &RowPlan<'j>) -> Markup {
        let name = &row.row.name;
        let refers = row.findings.iter().any(|finding| finding.severity() == Severity::Refer);
        let differ = row.holes.iter().filter(|hole| hole.differs_from(row)).count() as u32;
        let measured = row.row.measured.len() as u32;
        let changed = row.answer.as_ref().filter(|answer| answer.disposition != Disposition::Keep);
        let looked = self.inspection.and_then(|found| found.rows.iter().find(|tally| tally.name == name.as_str()));
        html! {
            tr {
                th scope="row" {
                    (Said(name)) @if refers { " " span class="stop" { "refer" } }
                    span class="small" {
                        @if !row.row.about.is_empty() { " " (Said(&row.row.about)) } br;
                        (count_of(row.row.count, "hole"))
                        @if measured > 0 { ", " (measured) " measured" }
                        @if differ > 0 { ", " (differ) (if differ == 1 { " differs" } else { " differ" }) }
                    }
                }
                td {
                    (self.rivet(&row.choice))
                    @if let Some(answer) = changed {
                        br; span class="small" {
                            (words::becomes(answer.disposition, answer.cut))
                            @if let Some(cut) = answer.cut { ": drill or ream to " (cut.sized(self.units)) }
                            "."
                        }
                    }
                }
                td { (self.hole_drill(row, &row.choice.part)) br; (self.hole_limits(row, &row.choice.part)) }
                td { (self.driven_head(row, &row.choice)) }
                (tick(&format!("holes of {name} good")))
                (tick(&format!("rivets of {name} driven")))
                @match looked.filter(|tally| tally.looked_at > 0) {
                    Some(tally) if tally.looked_at == tally.holes && tally.rejected == 0 => { td class="tick" { "all good" } }
                    Some(tally) => {
                        td class="tick small" {
                            (tally.looked_at) " of " (tally.holes)
                            @if tally.rejected > 0 { br; strong { (tally.rejected) " bad" } }
                        }
                    }
                    None => { (tick(&format!("heads of {name} checked"))) }
                }
                (write_cell(&format!("{name} done by")))
            }
        }
    }

    fn holes(&self) -> Markup {
        let columns = [
            tick_column("done", 5),
            column("hole", 9),
            column("found", 13),
            column("do", 31),
            column("rivet", 17),
            column("limits of the hole; drive the head to", 17),
            column("found after", 8),
        ];
        let differing = self.plan.rows.iter().flat_map(|row| row.holes.iter().map(move |hole| (row, hole)));
        // Those that are referred stand above, with what was found.
        let is_open = |hole: &HolePlan<'_>| hole.disposition() == Disposition::Refer && hole.ruling.is_none();
        let differing: Vec<_> = differing.filter(|(row, hole)| hole.differs_from(row) && !is_open(hole)).collect();
        let content = html! {
            @if differing.is_empty() { p { "None: every other hole is as its row says." } }
            @else {
                p { "Measure again after opening a hole, and write down what you find." }
                table style=(labels(&columns)) {
                    (head(&columns))
                    tbody { @for (row, hole) in differing { (self.hole(row, hole)) } }
                }
                }
        };
        section("holes", "Holes that differ", &content)
    }

    fn hole(&self, row: &RowPlan<'j>, hole: &HolePlan<'j>) -> Markup {
        let name = format!("{} hole {}", row.row.name, hole.number);
        let disposition = hole.disposition();
        let mind: Vec<String> = hole
            .own_cautions(row)
            // What was referred is answered; what the answer breaks is said.
            .filter(|finding| disposition != Disposition::Refer || finding.severity() == Severity::Caution)
            .map(|finding| finding.sentence(self.units).to_string())
            .collect();
        html! {
            tr {
                (tick(&format!("done, {name}")))
                th scope="row" { (Said(&row.row.name)) " hole " (hole.number) }
                td {
                    (Said(&words::found_first(hole, self.units)))
                    @if !hole.about.is_empty() { br; (Said(hole.about)) }
                    @if let Some(measured) = hole.measured.filter(|_| self.holes_taken().len() > 1) { (taken(&measured.taken)) }
                }
                td {
                    @if let Some(ruling) = hole.ruling {
                        (Said(&in_words(ruling.answer)))
                        @if let Some(cut) = hole.cut() { " Drill or ream to " strong { (cut.sized(self.units)) } "." }
                        @else if hole.is_opened() { " It is opened." }
                    }
                    @else if disposition == Disposition::Refer { span class="stop" { "refer" } " Do not open it." }
                    @else if hole.measured.is_some() {
                        (words::becomes(disposition, hole.cut()))
                        @if disposition != Disposition::Keep { " (" (Mark::of(disposition).letter()) ")" }
                        @if let Some(cut) = hole.cut() { ": drill or ream to " strong { (cut.sized(self.units)) } }
                        @else if hole.is_opened() { ": it is opened" }
                        "."
                    }
                    @else { "Measure it first." }
                    @for line in &mind { br; span class="small" { (Said(line)) } }
                }
                @match hole.choice.as_deref() {
                    Some(choice) if choice.part == row.choice.part
                        && self.driven_head(row, choice).0 == self.driven_head(row, &row.choice).0 => {
                        td { (self.rivet(choice)) }
                        td { "as the row" }
                    }
                    Some(choice) => {
                        td { (self.rivet(choice)) }
                        td { span class="small" { "hole " } (self.hole_limits(row, &choice.part)) br; (self.driven_head(row, choice)) }
                    }
                    None => { td { "none yet" } td { "after the answer" } }
                }
                @match hole.measured.filter(|_| hole.is_opened()) {
                    Some(measured) => { td { (words::width(measured.as_found, self.units)) } }
                    None => { (write_cell(&format!("{name} measured after"))) }
                }
            }
        }
    }

    fn heads(&self) -> Markup {
        let columns = [
            column("row and hole", 14),
            column("wide, least and greatest", 16),
            column("high, least and greatest", 16),
            column("seen: sound, cracks, gap, tipped, ...", 20),
            column("stays, or what to do", 24),
            column("by", 10),
        ];
        let rivets = self.inspection.map(|found| found.rivets.as_slice()).unwrap_or_default();
        let content = html! {
            p { "Check every measured head against the limits of its row or hole." }
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for rivet in rivets { (self.driven(rivet)) }
                    @for line in 1..=HEAD_LINES {
                        tr { @for column in &columns { (write_cell(&format!("head {line}, {}", column.name))) } }
                    }
                }
            }
        };
        section("heads", "Driven heads", &content)
    }

    fn driven(&self, rivet: &Inspected<'_, '_>) -> Markup {
        let ends = |measure: Option<Interval>| match measure {
            Some(one) if one.min() == one.max() => self.length(one.max()).to_string(),
            Some(one) => self.units.limits(Some(one.min()), Some(one.max())).to_string(),
            None => "not measured".to_owned(),
        };
        let name = format!("{} hole {}", rivet.row.row.name, rivet.line.number);
        let seen = [rivet.line.condition.as_str(), rivet.line.remark.as_str()];
        let seen: Vec<&str> = seen.into_iter().filter(|text| !text.is_empty()).collect();
        html! {
            tr {
                th scope="row" { (Said(&name)) }
                td { (ends(rivet.line.head.diameter)) }
                td { (ends(rivet.line.head.height)) }
                td { (Said(&seen.join(": "))) }
                td {
                    @match rivet.remedy {
                        None => { "stays" }
                        Some(remedy) => {
                            span class="stop" { "rejected" } " " (words::phrase(remedy.value)) "."
                            @if let Some(part) = rivet.replacement { " " span class="part" { (part) } }
                        }
                    }
                }
                @if rivet.line.taken.is_empty() { (write_cell(&format!("{name} looked at by"))) }
                @else { td class="small" { (Said(&rivet.line.taken.to_string())) } }
            }
        }
    }

    /// What the file of driven rivets says of those of a part, each once: the batches that they came from, who drove them.
    fn noted(&self, part: &Part<'_>, note: fn(&DrivenLine) -> &String) -> Vec<&str> {
        let rivets = self.inspection.map(|found| found.rivets.as_slice()).unwrap_or_default();
        let of_part = rivets.iter().filter(|rivet| rivet.planned.as_ref() == Some(part));
        let mut noted: Vec<&str> =
            of_part.map(|rivet| note(rivet.line).as_str()).filter(|text| !text.is_empty()).collect();
        noted.sort_unstable();
        noted.dedup();
        noted
    }

    /// Who measured which holes, when and with what.
    fn holes_taken(&self) -> Vec<String> {
        let holes = self.plan.rows.iter().flat_map(|row| row.holes.iter().map(move |hole| (row, hole)));
        let taken = holes.filter_map(|(row, hole)| {
            let taken = &hole.measured?.taken;
            (!taken.is_empty()).then_some((taken, (row.row.name.as_str(), hole.number)))
        });
        who_took(taken)
    }

    /// Who looked at which driven rivets.
    fn heads_taken(&self) -> Vec<String> {
        let rivets = self.inspection.map(|found| found.rivets.as_slice()).unwrap_or_default();
        let taken = rivets.iter().filter(|rivet| !rivet.line.taken.is_empty());
        who_took(taken.map(|rivet| (&rivet.line.taken, (rivet.row.row.name.as_str(), rivet.line.number))))
    }

    fn order(&self) -> Markup {
        let with_stock = self.order.iter().any(|line| line.stock.is_some());
        let mut columns = vec![
            tick_column("here", 6),
            column("part", if with_stock { 19 } else { 22 }),
            column("needed", 8),
            column("spares", 8),
        ];
        if with_stock {
            columns.push(column("on the shelf", 8));
        }
        columns.extend([
            column("to buy", 7),
            column("mass", 10),
            column("lot or batch", if with_stock { 18 } else { 21 }),
            column("driven by", if with_stock { 16 } else { 18 }),
        ]);
        // What is referred stands with its reasons above.
        let (waiting, left): (Vec<NotOrdered<'j>>, Vec<NotOrdered<'j>>) =
            not_ordered(self.plan).into_iter().partition(|left| left.answer.is_none() && !left.why.is_empty());
        let waiting: Vec<String> = waiting.iter().map(NotOrdered::subject).collect();
        let mass = |line: &OrderLine<'_>| match (line.mass, self.units) {
            (None, _) => "not known".to_owned(),
            (Some(mass), Units::Inches) => format!("{:.3} lb", mass.lb()),
            (Some(mass), Units::Millimetres) => format!("{:.1} g", mass.grams()),
        };
        let content = html! {
            table style=(labels(&columns)) {
                (head(&columns))
                tbody {
                    @for line in self.order {
                        tr {
                            (tick(&format!("{} here", line.part)))
                            th scope="row" class="part" { (line.part) }
                            td class="number" {
                                (line.needed)
                                @if line.again > 0 { br; span class="small" { (line.again) " again" } }
                            }
                            td class="number" { (line.spares) }
                            @if with_stock { td class="number" { @if let Some(stock) = line.stock { (stock) } } }
                            td class="number" { strong { (line.buy) } }
                            td class="number" { (mass(line)) }
                            @let batches = self.noted(&line.part, |line| &line.batch);
                            @let drivers = self.noted(&line.part, |line| &line.driven_by);
                            @for (what, noted) in [("lot or batch of", batches), ("who drove", drivers)] {
                                @match noted.as_slice() {
                                    [] => { (write_cell(&format!("{what} {}", line.part))) }
                                    noted => { td { (Said(&noted.join(", "))) } }
                                }
                            }
                        }
                    }
                }
            }
            @if self.order.iter().any(|line| line.again > 0) {
                p { "Again: for rivets that were rejected and come out." }
            }
            @if !waiting.is_empty() {
                p { "Not in the order, until what stops them above is answered: " (Said(&waiting.join("; "))) "." }
            }
            @if !left.is_empty() {
                p { "Not in the order:" }
                ul {
                    @for left in &left { li { (Said(&left.subject())) ": " (count_of(left.count(), "hole")) ". " (Said(&left.because(self.units, self.plan.practice).join(" "))) } }
                }
            }
            @if !self.alternatives.is_empty() {
                p { "On the shelf, and within limits as well:" }
                ul {
                    @for other in self.alternatives {
                        li { (other.other) " for " (other.part) ": " (other.free) " free, for " (count_of(other.holes, "hole")) ", " (Said(&other.rows.join(", "))) }
                    }
                }
            }
        };
        section("order", "Rivets", &content)
    }

    fn tools(&self) -> Markup {
        let content = html! {
            ul class="ticks" {
                @for tool in self.tools {
                    @let text = words::tool(tool, self.units);
                    li {
                        label {
                            (tick_box_bare())
                            span { (text) " " span class="small" { "(" (Said(&tool.rows.join(", "))) ")" } }
                        }
                    }
                }
            }
        };
        section("tools", "Tools", &content)
    }

    fn map(&self) -> Markup {
        let sheets = sheets(self.plan, self.units);
        let Some((key, sheets)) = sheets.split_first() else { return html! {} };
        // A table for its head, which comes again on every page.
        let content = html! {
            table class="map" role="presentation" {
                thead { tr { td { (PreEscaped(&key.svg)) } } }
                tbody {
                    @for sheet in sheets {
                        tr class=[sheet.with_next.then_some("with-next")] { td { figure { (PreEscaped(&sheet.svg)) } } }
                    }
                }
            }
        };
        section("map", "Map", &content)
    }

    /// The page that is kept: what was done, with what, by whom.
    fn record(&self) -> Markup {
        let plan = self.plan;
        let counts = plan.counts();
        let mut open: Vec<String> = plan.open_stops().map(|(subject, _)| subject.to_string()).collect();
        open.dedup();
        let mut answers: Vec<String> = plan
            .answers
            .iter()
            .filter(|answer| answer.standing == Standing::Counts)
            .map(|answer| format!("{}: {}", answer.subject, in_words(answer.answer)))
            .collect();
        answers.dedup();
        let recalled = plan.recalled();
        let lines = ["Work done as on this card", "Holes and driven heads inspected", "Released"];
        let content = html! {
            p { strong { (Said(&plan.job.title)) } ": " (count_of(counts.holes, "hole")) ", " (counts.measured) " measured." }
            p {
                @if open.is_empty() { "Nothing is left to be referred." }
                @else { span class="stop" { "open" } " Not answered yet: " (Said(&open.join("; "))) "." }
            }
            @if !answers.is_empty() { ul { @for answer in &answers { li { (Said(answer)) } } } }
            p {
                @match self.inspection {
                    Some(found) => {
                        (found.looked_at()) " of " (count_of(found.holes, "rivet")) " looked at: " (found.accepted()) " accepted, " (found.rejected()) " rejected."
                    }
                    None => { "No driven rivet is entered." }
                }
            }
            @if !recalled.is_empty() {
                p { "Figures from these were recalled, not read. Check them against your own documents before relying on them." }
                ul class="ticks" { @for basis in &recalled { li { label { (tick_box_bare()) span { (Said(basis)) } } } } }
            }
            @for (what, taken) in [("Holes measured", self.holes_taken()), ("Heads measured", self.heads_taken())] {
                div class="sign" role="group" aria-label=(what) {
                    p { (what) }
                    @if !taken.is_empty() { ul class="taken" { @for line in &taken { li { (Said(line)) } } } }
                    (field("By")) (field("Gauge and its number")) (field("Calibrated until")) (field("Date"))
                }
            }
            @for line in lines {
                div class="sign" role="group" aria-label=(line) {
                    p { (line) }
                    (field("Name")) (field("Signature")) (field("Licence or stamp")) (field("Date"))
                }
            }
        };
        html! { div class="record" { (self.order()) (section("sign-off", "Record", &content)) } }
    }
}

/// Who measured something, when and with what; nothing where that was not written down.
fn taken(taken: &Taken) -> Markup {
    html! { @if !taken.is_empty() { br; span class="small" { (Said(&taken.to_string())) } } }
}

/// The same for many, those of one person with one gauge on one day together: `A. Example, 2026-11-25, gauge PG-14: K1 1-48; K2 3`.
fn who_took<'t>(taken: impl Iterator<Item = (&'t Taken, (&'t str, u32))>) -> Vec<String> {
    let line = |(taken, holes): (&Taken, Vec<(&str, u32)>)| {
        let rows = grouped(holes).into_iter();
        let rows: Vec<String> = rows.map(|(row, numbers)| format!("{row} {}", words::ranges(&numbers))).collect();
        format!("{taken}: {}", rows.join("; "))
    };
    grouped(taken).into_iter().map(line).collect()
}

/// A box inside its own label.
fn tick_box_bare() -> Markup {
    html! { input type="checkbox" autocomplete="off"; }
}

#[cfg(test)]
mod tests;
