//! The first page of a plan: what stops the work, what nobody knows yet, where to work, what goes in, what to buy.

use shophead::basis::Status;
use shophead::finding::Finding;
use shophead::hole::Disposition;
use shophead::length::Interval;
use shophead_job::grouped::grouped;
use shophead_job::order::{NotOrdered, OrderLine, not_ordered};
use shophead_job::plan::{Counts, Plan, RowPlan, Subject};
use shophead_job::words;

use super::panel;
use crate::context::Context;
use crate::report::{Block, Report, Table};

/// Rows in the table; the others are behind an option.
const MOST_ROWS: usize = 12;

pub(super) fn fill<'j>(report: &mut Report<'j>, plan: &Plan<'j>, lines: &[OrderLine<'_>], context: &Context<'_>) {
    let page = Page { plan, context };
    report.answer(plan.job.title.clone());
    report.text.extend(page.known());
    page.stops(report);
    page.position(report);
    page.rows(report);
    page.holes(report);
    page.buy(report, lines);
    report.annex.push(Block::Heading(format!(
        "More: {} --full, --row ROW, or --only stops, rows, holes, positions, work, removal, cuts, order",
        context.plan_of()
    )));
}

/// Silence means that nothing stops the work only where everything was looked at.
pub(super) fn heading_of_stops(plan: &Plan<'_>) -> &'static str {
    if plan.open_stops().next().is_some() {
        "What stops the work"
    } else if plan.is_known() {
        "Nothing stops the work"
    } else {
        "Nothing is referred so far"
    }
}

struct Page<'p, 'j> {
    plan: &'p Plan<'j>,
    context: &'p Context<'p>,
}

impl<'j> Page<'_, 'j> {
    /// How much is known; what is not stands first.
    fn known(&self) -> Vec<Block> {
        let Counts { rows, holes, measured, .. } = self.plan.counts();
        let mut said = Vec::new();
        let size = panel::size(rows, holes);
        said.push(Block::Paragraph(if measured < holes {
            format!("{size}: {measured} of {holes} measured.{}", self.context.measure(self.plan.job))
        } else {
            format!("{size}, all measured.")
        }));
        let lacking: Vec<String> =
            self.plan.not_given().into_iter().map(|(what, rows)| format!("{what} ({})", rows.join(", "))).collect();
        if !lacking.is_empty() {
            said.push(Block::Paragraph(format!("Not given, so not checked: {}.", lacking.join("; "))));
        }
        if self.plan.positions.is_empty() {
            said.push(Block::Paragraph("No position given: not checked whether each row can be bucked.".into()));
        }
        said
    }

    fn stops(&self, report: &mut Report<'j>) {
        let stops: Vec<_> = self.plan.open_stops().collect();
        report.heading(heading_of_stops(self.plan));
        if stops.is_empty() {
            return;
        }
        let said = |(subject, finding): &(Subject<'j>, &Finding)| match subject {
            Subject::Hole(row, number) => {
                let plan = self.plan.rows.iter().find(|plan| plan.row.name == **row);
                let hole = plan.and_then(|plan| plan.hole(*number));
                let measured = hole.filter(|hole| hole.measured.is_some());
                let found =
                    measured.map_or_else(|| self.reason(finding), |hole| words::found(hole, self.context.units));
                ((*row).to_owned(), format!("hole {number}: {found}"))
            }
            Subject::Row(row) => ((*row).to_owned(), self.reason(finding)),
            Subject::Damage(number, _) => (format!("damage {number}"), self.reason(finding)),
            other => (other.to_string(), self.reason(finding)),
        };
        let firsts = stops.chunk_by(|(one, _), (next, _)| one == next).filter_map(<[_]>::first);
        let pairs = grouped(firsts.map(said));
        let pairs = pairs.into_iter().map(|(name, told)| (name, told.join("; "))).collect();
        report.text.push(Block::Pairs(pairs));
        report.paragraph("Ask the holder of the type's data. Why each: --only stops. Then shophead answer.");
    }

    /// Why, without its full stop.
    fn reason(&self, finding: &Finding) -> String {
        finding.reason(self.context.units).to_string().trim_end_matches('.').to_owned()
    }

    fn position(&self, report: &mut Report<'j>) {
        if self.plan.positions.is_empty() {
            return;
        }
        let said = panel::best(self.plan).or_else(|| panel::in_turn(self.plan)).unwrap_or_else(|| {
            let nearest = self.plan.lacking_positions();
            let nearest = nearest.first().map(|position| {
                format!(
                    " {} lacks least: {}",
                    position.position.name,
                    panel::lacks(self.plan, position, self.context.units).join(" ")
                )
            });
            format!("No position works for every row.{}", nearest.unwrap_or_default())
        });
        report.heading("Position");
        report.paragraph(said);
    }

    /// Like rows share a line; those that need a hand come first.
    fn rows(&self, report: &mut Report<'j>) {
        let needs_action = |plan: &RowPlan<'_>| plan.is_held() || plan.holes.iter().any(|hole| hole.differs_from(plan));
        let mut groups = grouped(self.plan.rows.iter().map(|row| (self.cells(row), row)));
        groups.sort_by_key(|(_, rows)| !rows.iter().any(|row| needs_action(row)));
        let left_out: usize = groups.iter().skip(MOST_ROWS).map(|(_, rows)| rows.len()).sum();
        let is_recalled = self.plan.rows.iter().any(|row| row.choice.hole.basis.status() == Status::Memory);
        let rows = groups.into_iter().take(MOST_ROWS).map(|(cells, rows)| {
            let names: Vec<&str> = rows.iter().map(|row| row.row.name.as_str()).collect();
            let count: u32 = rows.iter().map(|row| row.row.count).sum();
            // Last, where a cell may break.
            cells.into_iter().chain([count.to_string(), names.join(" ")]).collect()
        });
        report.heading("Rows: rivet, hole, and the driven head between these heights, at least so wide");
        let columns = vec!["rivet", "hole", "high", "wide", "holes", "rows"];
        report.text.push(Block::Table(Table { columns, rows: rows.collect() }));
        match left_out {
            0 => {}
            1 => report.paragraph("1 row more: --only rows."),
            count => report.paragraph(format!("{count} rows more: --only rows.")),
        }
        if is_recalled {
            report.paragraph("* recalled, not read: --only recalled.");
        }
    }

    /// Rivet, hole and what to drive to.
    fn cells(&self, plan: &RowPlan<'_>) -> Vec<String> {
        let units = self.context.units;
        let choice = &plan.choice;
        let star = if choice.hole.basis.status() == Status::Memory { "*" } else { "" };
        let rivet = if choice.is_complete() { choice.part.to_string() } else { format!("{}, no length", choice.part) };
        let window = choice.length.as_ref().ok().and_then(|length| length.window);
        let [height, width] = match window {
            _ if plan.is_held() => ["refer".to_owned(), String::new()],
            None => ["see --row".to_owned(), String::new()],
            Some(window) => [self.ends(window.height), units.length(window.diameter_least).to_string()],
        };
        vec![rivet, format!("{}{star}", self.ends(choice.hole.value)), height, width]
    }

    /// Both ends, as short as a table wants them.
    fn ends(&self, ends: Interval) -> String {
        let units = self.context.units;
        format!("{}-{}", units.length(ends.min()).bare(), units.length(ends.max()))
    }

    /// The holes that get something else than their row, by what is done to them; what goes by an answer last.
    fn holes(&self, report: &mut Report<'j>) {
        // What is referred as a whole is left alone until it is answered.
        let worked = self.plan.rows.iter().filter(|row| !row.is_held()).flat_map(|row| {
            let holes = row.holes.iter().filter(|hole| match hole.disposition() {
                Disposition::Keep => false,
                // One that goes by an answer has something to do while it is to be opened, or takes another rivet.
                Disposition::Refer => hole.choice.as_ref().is_some_and(|choice| {
                    hole.ruling.is_some() && (hole.cut().is_some() || choice.part != row.choice.part)
                }),
                _ => true,
            });
            grouped(holes.map(|hole| ((hole.disposition(), hole.cut()), hole.number))).into_iter().map(
                |((what, cut), numbers)| {
                    let cut = cut.map_or_else(|| "as it is".to_owned(), |cut| cut.to_string());
                    (what, format!("{} {} ({cut})", row.row.name, words::ranges(&numbers)))
                },
            )
        });
        let mut pairs = grouped(worked);
        if pairs.is_empty() {
            return;
        }
        pairs.sort_by_key(|(what, _)| *what);
        report.heading("Holes to work");
        let short = |what: Disposition| match what {
            Disposition::CleanUp => "clean up",
            Disposition::Oversize => "oversize rivet",
            Disposition::NextSize => "next diameter",
            Disposition::Refer => "as answered",
            other => other.as_str(),
        };
        let pairs = pairs.into_iter().map(|(what, holes)| (short(what).to_owned(), holes.join("; ")));
        report.text.push(Block::Pairs(pairs.collect()));
    }

    fn buy(&self, report: &mut Report<'j>, lines: &[OrderLine<'_>]) {
        report.heading("Buy");
        let parts: Vec<String> = lines.iter().map(|line| format!("{} {}", line.buy, line.part)).collect();
        let without: u32 = not_ordered(self.plan).iter().map(NotOrdered::count).sum();
        let without = match without {
            0 => String::new(),
            1 => " Not in it: 1 hole.".into(),
            count => format!(" Not in it: {count} holes."),
        };
        let spares = match self.plan.job.spares_percent {
            0 => String::new(),
            percent => format!(", {percent} % spares in it"),
        };
        let parts = if parts.is_empty() { "nothing yet".to_owned() } else { parts.join("; ") };
        report.paragraph(format!("{parts}{spares}.{without}"));
    }
}
