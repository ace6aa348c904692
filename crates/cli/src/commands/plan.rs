//! `shophead plan`.

use std::collections::HashMap;
use std::io::{self, Write};
use std::rc::Rc;
use std::sync::Arc;

use clap::ValueEnum;
use serde::{Serialize, Serializer};
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::Disposition;
use shophead::installation::HoleAnswer;
use shophead::joint::row::{RowMode, RowStrength};
use shophead::joint::strength::JointStrength;
use shophead::length::Length;
use shophead::practice::Practice;
use shophead::removal::Removal;
use shophead::select::{Difference, LengthAnswer};
use shophead::words::Units;
use shophead_job::grouped::grouped;
use shophead_job::model::{Job, MeasuredHole, Row};
use shophead_job::order::{NotOrdered, OrderLine, not_ordered, order};
use shophead_job::plan::{
    AnswerPlan, BeforeAndAfter, Choice, Counts, HolePlan, Plan, RowPlan, Standing, Subject, There, in_words,
};
use shophead_job::words;
use shophead_job::work::work;

use super::hole::steps;
use super::order::{line_forms, order_table};
use super::{first_page, panel, plan_watched};
use crate::args::{Format, PlanArgs, PlanPart};
use crate::batch::answer::{AnswerCells, Kept};
use crate::cells::{Cells, Codes, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::form::bases::{self, Way};
use crate::form::{self, List};
use crate::render::json::envelope;
use crate::report::{Block, Few, Form, Record, Report, Told};

pub(super) fn run<'a>(args: &PlanArgs, job: &'a Job, context: &'a Context<'a>) -> Result<Report<'a>, Stop> {
    if context.format != Format::Text && (args.full || args.row.is_some() || args.only.is_some()) {
        return Err(Stop::wrong("--full, --row and --only shape the text; JSON and CSV always hold the whole plan"));
    }
    if args.lines && context.format != Format::Json {
        return Err(Stop::wrong("--lines: the plan in lines is JSON; right would be --format json --lines"));
    }
    let plan = plan_watched(job, context);
    let mut report = Report::new("plan", context);
    if context.format == Format::Csv || args.lines {
        report.refers = plan.open_stops().next().is_some();
        report.made_rows = Some(if args.lines {
            let plan = Rc::new(plan);
            Box::new(move |to| lines(&plan, context, to))
        } else {
            Box::new(move |to| rows(&plan, context, to))
        });
        return Ok(report);
    }
    let lines = order(&plan, job.spares_percent, None);
    for (subject, finding) in plan.all_findings() {
        report.find_in(&plan, context, subject, finding);
    }
    report.findings_in_text = false;
    match context.format {
        Format::Json => report.give(Answer { plan: Rc::new(plan), lines, context, with_holes: true }),
        Format::Text | Format::Svg | Format::Html | Format::Xlsx | Format::Csv => match (&args.row, args.only) {
            (Some(name), _) => Page { report: &mut report, plan: &plan, context }.one_row(name)?,
            (None, Some(part)) => Page { report: &mut report, plan: &plan, context }.only(part, &lines),
            (None, None) if args.full => Page { report: &mut report, plan: &plan, context }.fill(&lines),
            (None, None) => first_page::fill(&mut report, &plan, &lines, context),
        },
    }
    Ok(report)
}

/// The answer for scripts, put into its form while it is printed.
struct Answer<'a> {
    plan: Rc<Plan<'a>>,
    lines: Vec<OrderLine<'a>>,
    context: &'a Context<'a>,
    /// Else the holes follow in lines of their own.
    with_holes: bool,
}

impl Serialize for Answer<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        form(&self.plan, &self.lines, self.context, self.with_holes).serialize(serializer)
    }
}

fn holes_without_rivet(count: u32) -> String {
    if count == 1 {
        "1 hole; shophead order says why".into()
    } else {
        format!("{count} holes; shophead order says why")
    }
}

/// The plan as text, in the order in which it is needed.
struct Page<'r, 'p, 'j> {
    report: &'r mut Report<'j>,
    plan: &'p Plan<'j>,
    context: &'p Context<'p>,
}

impl<'j> Page<'_, '_, 'j> {
    fn length(&self, length: Length) -> String {
        self.context.units.length(length).to_string()
    }

    fn fill(&mut self, lines: &[OrderLine<'_>]) {
        self.headline();
        for part in PlanPart::value_variants() {
            self.part(*part, lines);
        }
    }

    fn only(&mut self, part: PlanPart, lines: &[OrderLine<'_>]) {
        self.report.answer(self.plan.job.title.clone());
        let before = (self.report.text.len(), self.report.annex.len());
        self.part(part, lines);
        if before == (self.report.text.len(), self.report.annex.len()) {
            self.report.paragraph("There is nothing of that in this job.");
        }
    }

    fn part(&mut self, part: PlanPart, lines: &[OrderLine<'_>]) {
        match part {
            PlanPart::Stops => self.stops(),
            PlanPart::Rows => self.rows(),
            PlanPart::Holes => self.holes(),
            PlanPart::Patterns => panel::patterns(self.plan, &mut self.report.text),
            PlanPart::Damage => panel::damage(self.plan, self.context.units, &mut self.report.text),
            PlanPart::Positions => self.positions(),
            PlanPart::Work => self.work(),
            PlanPart::Removal => self.removals(),
            PlanPart::Cuts => panel::edges(self.plan, self.context.units, &mut self.report.text),
            PlanPart::Order => self.order(lines),
            PlanPart::Recalled => self.memory(),
        }
    }

    /// One row, what is referred in it, and its holes that differ.
    fn one_row(&mut self, name: &str) -> Result<(), Stop> {
        let Some(plan) = self.plan.rows.iter().find(|plan| plan.row.name == name) else {
            let names: Vec<&str> = self.plan.rows.iter().map(|plan| plan.row.name.as_str()).collect();
            return Err(Stop::wrong(format!("--row: there is no row {name:?}; the job has {}", names.join(", "))));
        };
        let (heading, lines) = self.row(plan);
        self.report.answer(heading);
        self.report.text.push(Block::Entry(String::new(), lines));
        let stops: Vec<(Subject<'j>, &Finding)> = self.plan.open_stops().collect();
        let mut told = Vec::new();
        for of_subject in stops.chunk_by(|(one, _), (next, _)| one == next) {
            let Some((subject, _)) = of_subject.first() else { continue };
            let findings = of_subject.iter().map(|(_, finding)| *finding);
            match subject {
                Subject::Hole(row, number) if *row == name => {
                    told.push(self.referred_hole(Some(plan), row, *number, findings));
                }
                Subject::Row(row) if *row == name => {
                    told.push(Block::Entry("The row:".into(), findings.map(|finding| self.said(finding)).collect()));
                }
                _ => {}
            }
        }
        if !told.is_empty() {
            self.report.heading("What stops the work");
            self.report.text.extend(told);
        }
        let differ = self.holes_of(plan);
        if !differ.is_empty() {
            self.report.heading("Holes that differ");
            self.report.text.extend(differ);
        }
        self.report.heading("Taking the old rivets out");
        self.report.text.push(Block::Entry(name.to_owned(), self.removal(&plan.removal)));
        Ok(())
    }

    fn order(&mut self, lines: &[OrderLine<'_>]) {
        self.report.heading("Order");
        self.report.text.push(Block::Table(order_table(lines, self.context.units)));
        let without: u32 = not_ordered(self.plan).iter().map(NotOrdered::count).sum();
        if without > 0 {
            self.report.paragraph(format!("Not in the order: {}.", holes_without_rivet(without)));
        }
    }

    fn work(&mut self) {
        self.report.heading("The work, step by step");
        let mut recalled = false;
        for (step, number) in work(self.plan, self.context.units).into_iter().zip(1_u32..) {
            recalled |= step.lines.iter().any(|line| line.contains('*'));
            let basis = self.context.practice.cite(step.step.basis());
            let what = format!("{number}. {} [{basis}]", step.step.meaning());
            self.report.text.push(Block::Entry(what, step.lines));
        }
        if recalled {
            self.report.paragraph("* recalled, not read");
        }
    }

    fn headline(&mut self) {
        let counts = self.plan.counts();
        self.report.answer(self.plan.job.title.clone());
        let Counts { rows, holes, measured, keep, clean_up, oversize, next_size, refer, .. } = counts;
        self.report.paragraph(format!("{}.", panel::size(rows, holes)));
        if let Some(file) = self.plan.job.holes_file.as_ref().filter(|file| measured == 0 || !file.is_there) {
            let survey = self.context.survey_of(&file.name);
            self.report.paragraph(format!("{measured} of {holes} measured; {survey}"));
        }
        if measured > 0 {
            self.report.paragraph(format!(
                "Of {measured} measured holes: {keep} keep, {clean_up} clean up, {oversize} oversize shank, {next_size} next \
                 diameter, {refer} refer."
            ));
        }
    }

    fn stops(&mut self) {
        let stops: Vec<(Subject<'j>, &Finding)> = self.plan.open_stops().collect();
        self.report.heading(first_page::heading_of_stops(self.plan));
        if !stops.is_empty() && self.plan.job.answers_file.is_some() {
            self.report.paragraph(format!("Once it is answered: {}", self.context.answer_of()));
        }
        let rows: HashMap<&str, &RowPlan<'j>> =
            self.plan.rows.iter().map(|plan| (plan.row.name.as_str(), plan)).collect();
        // The findings of one subject follow each other.
        for of_subject in stops.chunk_by(|(one, _), (next, _)| one == next) {
            let Some((subject, _)) = of_subject.first() else { continue };
            let findings = of_subject.iter().map(|(_, finding)| *finding);
            let entry = match subject {
                Subject::Hole(row, number) => self.referred_hole(rows.get(row).copied(), row, *number, findings),
                _ => Block::Entry(format!("{subject}:"), findings.map(|finding| self.said(finding)).collect()),
            };
            self.report.text.push(entry);
        }
        self.answers();
    }

    /// What was answered, and what of it no longer counts.
    fn answers(&mut self) {
        let (counts, lapsed): (Vec<_>, Vec<_>) = self
            .plan
            .answers
            .iter()
            .filter(|plan| plan.standing != Standing::Replaced)
            .partition(|plan| plan.standing == Standing::Counts);
        if !counts.is_empty() {
            self.report.heading("Referred, and answered");
        }
        for plan in counts {
            self.report.text.push(Block::Entry(format!("{}:", plan.subject), vec![in_words(plan.answer)]));
        }
        if !lapsed.is_empty() {
            self.report.heading("Answers that no longer count");
        }
        for plan in lapsed {
            let why = match &plan.standing {
                Standing::OtherMeasure(now) => {
                    format!("It was given for {}; now it is {now}.", plan.answer.given_for.text)
                }
                _ => "What it answers is not there, or no longer.".to_owned(),
            };
            self.report.text.push(Block::Entry(format!("{}: {}", plan.subject, in_words(plan.answer)), vec![why]));
        }
    }

    /// A hole that is referred: what was found, and why each step does not do.
    fn referred_hole<'f>(
        &self,
        plan: Option<&RowPlan<'_>>,
        row: &str,
        number: u32,
        findings: impl Iterator<Item = &'f Finding>,
    ) -> Block {
        let holes = plan.map(|plan| plan.holes.as_slice()).unwrap_or_default();
        let hole = holes.binary_search_by_key(&number, |hole| hole.number).ok().and_then(|index| holes.get(index));
        let found = hole.map_or_else(String::new, |hole| format!(": {}", words::found(hole, self.context.units)));
        let steps = plan.zip(hole).map(|(plan, hole)| plan.steps(hole, self.context.practice)).unwrap_or_default();
        let lines = match hole.filter(|_| !steps.is_empty()) {
            Some(hole) => words::why_not(&steps, &hole.findings, self.context.units, self.context.practice),
            None => findings.map(|finding| self.said(finding)).collect(),
        };
        Block::Entry(format!("row {row} hole {number}{found}"), lines)
    }

    fn said(&self, finding: &Finding) -> String {
        words::finding(finding, self.context.units, self.context.practice)
    }

    /// Neighbouring rows with the same reasons are told together: their headings, then the reasons once.
    fn rows(&mut self) {
        self.report.heading("Rows");
        let rows: Vec<(String, Vec<String>)> = self.plan.rows.iter().map(|plan| self.row(plan)).collect();
        for (index, (heading, why)) in rows.iter().enumerate() {
            let told_below = rows.get(index + 1).is_some_and(|(_, next)| next == why);
            let lines = if told_below { Vec::new() } else { why.clone() };
            self.report.text.push(Block::Entry(heading.clone(), lines));
        }
    }

    fn row(&self, plan: &RowPlan<'j>) -> (String, Vec<String>) {
        let (row, units) = (plan.row, self.context.units);
        let what = match plan.choice.part.length() {
            Some(length) => format!("{}, {} long", plan.choice.part, units.size(length)),
            None => format!("{}, no length can be given", plan.choice.part),
        };
        let differing = match plan.holes.iter().filter(|hole| hole.differs_from(plan)).count() {
            0 => String::new(),
            1 => ", 1 differs".into(),
            count => format!(", {count} differ"),
        };
        let about = if row.about.is_empty() { String::new() } else { format!(": {}", row.about) };
        let mut lines = Vec::new();
        if let Some(solid) = plan.solid {
            lines.push(format!(
                "Driven solid rivets only. {} [{}]",
                words::solid_because(solid.value),
                self.context.practice.cite(solid.basis)
            ));
        }
        if let Some(answer) = plan.answer.as_ref().filter(|answer| answer.disposition != Disposition::Keep) {
            lines.push(format!("{}{}.", words::becomes(answer.disposition, answer.cut), self.cut(answer)));
        }
        lines.push(self.fit(plan));
        if let Ok(choice) = &plan.choice.length {
            lines.extend(self.other_lengths(choice));
        }
        lines.extend(self.strength(plan));
        lines.extend(self.before_and_after(plan));
        let cautions = plan.findings.iter().filter(|finding| finding.severity() == Severity::Caution);
        lines.extend(cautions.map(|finding| self.said(finding)));
        (format!("{}   {what}   {} holes{differing}{about}", row.name, row.count), lines)
    }

    /// What is not the rule of thumb's, what else would do, and what goes into which hole where one length does not suit all.
    fn other_lengths(&self, choice: &LengthAnswer<'_>) -> Vec<String> {
        let units = self.context.units;
        let by_hole = words::by_hole(choice, units).into_iter().map(|(hole, what)| format!("{hole}: {what}."));
        let mut lines: Vec<String> = by_hole.collect();
        let others: Vec<String> = choice.serves().map(|other| words::makes(&other, units)).collect();
        let also = if others.is_empty() { String::new() } else { format!("Also good: {}.", others.join(", ")) };
        let rule = choice.difference.filter(|_| choice.length.is_some()).map(|difference| {
            format!("Rule of thumb: {}. {}", units.size(choice.rule_of_thumb_length), difference.meaning())
        });
        lines.extend(rule.into_iter().chain((!also.is_empty()).then_some(also)));
        lines
    }

    /// Grip, hole, tail and what to drive the head to, on one line.
    fn fit(&self, plan: &RowPlan<'_>) -> String {
        let units = self.context.units;
        let grip = plan.row.stack.grip();
        let mut parts = vec![
            format!("grip {}", units.interval(grip.interval())),
            format!("hole {}{}", units.interval(plan.choice.hole.value), super::memory_mark(plan.choice.hole.basis)),
        ];
        if let Ok(choice) = &plan.choice.length {
            if let Some(tail) = choice.protrusion {
                parts.push(format!("tail {}", units.interval(tail).about()));
            }
            if let Some(window) = choice.window {
                parts.push(format!("drive to {}", window.shown(units)));
            }
        }
        format!("{}.", parts.join("; "))
    }

    fn strength(&self, plan: &RowPlan<'_>) -> Option<String> {
        let strength = plan.strength.as_ref()?;
        let Some((governing, _)) = strength.governing.zip(strength.allowable) else {
            return Some("No published strength for one rivet in these layers.".into());
        };
        let sheet = governing.layer.map_or_else(String::new, |layer| format!(" (layer {layer})"));
        Some(format!(
            "One rivet carries {}{}; then {}{sheet}.",
            self.context.units.force(governing.load.force),
            super::memory_mark(governing.load.basis),
            words::lower(governing.mode),
        ))
    }

    /// What the row carries an inch on both sides.
    fn before_and_after(&self, plan: &RowPlan<'_>) -> Option<String> {
        let same = plan.findings.iter().find(|finding| finding.code() == Code::AsStrongAsBefore);
        let same = same.map(|finding| self.said(finding));
        let found = match &plan.before_and_after {
            Ok(found) if found.before.per_inch.is_some() || same.is_none() => found,
            Ok(_) => return same,
            Err(why) => {
                let why = words::not_compared(*why);
                let same = same.map_or_else(String::new, |same| format!("{same} "));
                return Some(format!("{same}Not compared with the row as installed: {why}."));
            }
        };
        let BeforeAndAfter { before, after, ratio, changed, stepped, .. } = found;
        let said = |row: &RowStrength| {
            let (load, governing) = row.per_inch.zip(row.governing)?;
            let force = self.context.units.running_load(load.force);
            let sheet = governing.layer.map_or_else(String::new, |layer| format!(", layer {layer}"));
            let mark = super::memory_mark(load.basis);
            Some((format!("{force}{mark}"), format!("{}{sheet}", words::row_mode(governing.mode))))
        };
        let parts = before.governing.is_some_and(|governing| governing.mode == RowMode::NetSection);
        let (before, after) = (said(before), said(after));
        let as_if = match stepped {
            0 => String::new(),
            1 => ", counted as if every hole were like the one stepped up".to_owned(),
            count => format!(", counted as if every hole were like the weakest of the {count} stepped up"),
        };
        Some(match (before, after, ratio) {
            // One rivet says how it fails.
            (Some((load, _)), _, _) if !changed && !parts => format!("The row carries {load}, as installed."),
            (Some((load, how)), _, _) if !changed => format!("The row carries {load}, as installed; then {how}."),
            (Some(before), Some(after), Some(ratio)) if before == after && *ratio == 1.0 => {
                format!("The row carries {} as installed and as planned{as_if}; then {}.", before.0, before.1)
            }
            (Some((before, first)), Some((after, then)), Some(ratio)) => format!(
                "The row as installed carries {before} ({first}), as planned {after} ({then}){as_if}: {} times as much.",
                self.context.units.ratio(*ratio)
            ),
            // That one rivet has no published strength is said already.
            _ if !changed => return None,
            _ => "Not compared with the row as installed: a strength is not published.".to_owned(),
        })
    }

    fn cut(&self, answer: &HoleAnswer<'_>) -> String {
        answer.cut.map_or_else(String::new, |cut| format!(": drill or ream to {}", cut.sized(self.context.units)))
    }

    fn holes(&mut self) {
        let entries: Vec<Block> = self.plan.rows.iter().flat_map(|plan| self.holes_of(plan)).collect();
        if !entries.is_empty() {
            self.report.heading("Holes that differ");
            self.report.text.extend(entries);
        }
    }

    /// The holes of a row that differ; a hole that waits for an answer stands with what stops the work.
    fn holes_of(&self, plan: &RowPlan<'_>) -> Vec<Block> {
        let differ = plan.holes.iter().filter(|hole| hole.differs_from(plan));
        let differ = differ.filter(|hole| hole.disposition() != Disposition::Refer || hole.ruling.is_some());
        differ.map(|hole| self.hole(plan, hole)).collect()
    }

    fn hole(&self, plan: &RowPlan<'_>, hole: &HolePlan<'_>) -> Block {
        let part = match hole.choice.as_deref() {
            Some(Choice { part, .. }) => match part.length() {
                Some(length) => format!("{part}, {} long", self.context.units.size(length)),
                None => format!("{part}, no length can be given"),
            },
            None => "no rivet".into(),
        };
        let mut lines = Vec::new();
        if let Some(ruling) = hole.ruling {
            let cut = hole
                .cut()
                .map_or_else(String::new, |cut| format!(" Drill or ream to {}.", cut.sized(self.context.units)));
            let found = words::found(hole, self.context.units);
            lines.push(format!("Answered: {}{cut} Found {found}.", in_words(ruling.answer)));
        } else if let Some(answer) = &hole.answer {
            let what = words::becomes(answer.disposition, answer.cut);
            lines.push(format!("{what}{}. Found {}.", self.cut(answer), words::found(hole, self.context.units)));
        }
        if !hole.about.is_empty() {
            lines.push(format!("{}; grip {}.", hole.about, self.context.units.interval(hole.stack.grip().interval())));
        }
        let serious = hole.findings.iter().filter(|finding| match hole.ruling {
            // What was referred is answered; what the answer breaks is said.
            Some(_) => finding.severity() == Severity::Caution,
            None => finding.severity() >= Severity::Caution,
        });
        lines.extend(serious.map(|finding| self.said(finding)));
        Block::Entry(format!("{} hole {}   {part}", plan.row.name, hole.number), lines)
    }

    fn positions(&mut self) {
        if self.plan.positions.is_empty() {
            return;
        }
        self.report.heading("Positions");
        for position in &self.plan.positions {
            let verdict = if position.serves { "works" } else { "does not work" };
            let mut lines = Vec::new();
            if !position.position.about.is_empty() {
                lines.push(position.position.about.clone());
            }
            let there: Vec<There<'_, 'j>> = self.plan.seen_from(position).collect();
            let can: Vec<String> =
                there.iter().filter(|there| there.blocked.is_none()).map(|there| there.name()).collect();
            lines.push(match can.len() {
                count if count == there.len() => "Every row can be bucked.".into(),
                0 => "No row can be bucked.".into(),
                _ => format!("Can be bucked: {}.", can.join(", ")),
            });
            for there in &there {
                let bar = there.own.map(|own| words::bar(own, self.context.units));
                match (&there.blocked, bar) {
                    (Some(blocked), Some(bar)) => {
                        let why = blocked.sentence(self.context.units);
                        lines.push(format!("{}: {why} As it is {bar}.", there.name()));
                    }
                    (Some(blocked), None) => {
                        lines.push(format!("{}: {}", there.name(), blocked.sentence(self.context.units)));
                    }
                    (None, Some(bar)) => lines.push(format!("{}: {bar}.", there.name())),
                    (None, None) => {}
                }
            }
            lines.extend(panel::time(self.plan, position));
            self.report.text.push(Block::Entry(format!("{}: {verdict}", position.position.name), lines));
        }
        panel::verdict(self.plan, self.context.units, &mut self.report.text);
        if self.plan.positions.iter().any(|position| !position.holes.is_empty()) {
            self.report.paragraph("* recalled, not read");
        }
    }

    /// Rows that come out the same way are told together.
    fn removals(&mut self) {
        self.report.heading("Taking the old rivets out, the risky ones first");
        let notes = self.plan.removals();
        for (lines, names) in grouped(notes.iter().map(|note| (self.removal(note.removal), note.name()))) {
            self.report.text.push(Block::Entry(names.join(", "), lines));
        }
    }

    fn removal(&self, removal: &Removal) -> Vec<String> {
        let mut lines = Vec::new();
        let drill = removal.drill.map_or_else(
            || "no drill is that small".into(),
            |drill| format!("drill {}", drill.value.sized(self.context.units)),
        );
        let depth = removal.depth.map_or_else(
            || "to the base of the head".into(),
            |depth| format!("{} deep, to the base of the head and no deeper", self.length(depth.value)),
        );
        let support = if removal.support { "; bar or block beside the driven head" } else { "" };
        lines.push(format!("{drill}, {depth}; punch thinner than {}{support}.", self.length(removal.punch_under)));
        lines.extend(removal.risks.iter().map(|risk| risk.value.meaning().to_owned()));
        lines
    }

    /// What decided something here and could only be recalled, each once.
    fn memory(&mut self) {
        let bases = self.plan.recalled();
        if !bases.is_empty() {
            self.report.annex.push(Block::Heading("Recalled, not read: check these against your own documents".into()));
            for basis in bases {
                self.report.annex.push(Block::Entry(basis, Vec::new()));
            }
        }
    }
}

fn form<'a>(
    plan: &'a Plan<'a>,
    lines: &[OrderLine<'a>],
    context: &'a Context<'a>,
    with_holes: bool,
) -> form::plan::Answer<'a> {
    let job = plan.job;
    form::plan::Answer {
        title: &job.title,
        own_limits: &job.own_limits.title,
        holes_file: job
            .holes_file
            .as_ref()
            .map(|file| form::plan::HolesFile { name: &file.name, is_there: file.is_there }),
        counts: counts_form(plan),
        rows: List::of(move || plan.rows.iter().map(move |row| row_form(row, context, with_holes))),
        positions: List::of(move || plan.positions.iter().map(move |position| panel::position_form(plan, position))),
        in_turn: panel::mix_forms(plan),
        patterns: panel::pattern_forms(plan),
        edges: panel::edge_forms(plan),
        damage: panel::damage_forms(plan),
        looks: job.looks.iter().map(form::Look::from).collect(),
        answers: List::of(move || plan.answers.iter().map(answer_form)),
        removal: List::of(move || {
            plan.removals().into_iter().map(move |note| form::plan::RemovalOf {
                removal: removal_form(note.removal, context.practice),
                row: &note.row.row.name,
                hole: note.hole.map(form::Nth::from),
            })
        }),
        order: line_forms(lines, Some(plan)),
    }
}

fn counts_form(plan: &Plan<'_>) -> form::plan::Counts {
    let Counts { rows, holes, measured, keep, clean_up, oversize, next_size, refer, without_rivet, .. } = plan.counts();
    let (referrals, unanswered) = (plan.stops().count(), plan.open_stops().count());
    form::plan::Counts {
        rows,
        holes,
        measured,
        keep,
        clean_up,
        oversize,
        next_size,
        refer,
        without_rivet,
        referrals,
        unanswered,
    }
}

fn choice_form<'a>(choice: &Choice<'_>, practice: &Practice<'a>) -> form::plan::Choice<'a> {
    let length = choice.length.as_ref().ok();
    form::plan::Choice {
        part: choice.is_complete().then(|| choice.part.to_string()),
        length: choice.part.length().map(form::Length::from),
        hole: form::GivenInterval::of(choice.hole, practice),
        rule_of_thumb_length: length.map(|length| length.rule_of_thumb_length.into()),
        difference: length.and_then(|length| length.difference).map(Difference::meaning),
        usable: length.and_then(|length| length.usable).map(|usable| form::Usable::of(usable, practice)),
        protrusion: length.and_then(|length| length.protrusion).map(form::Interval::from),
        head: length.and_then(|length| length.head).map(form::DrivenHead::from),
        lengths: form::Lengths::of(length),
    }
}

fn row_form<'a>(plan: &'a RowPlan<'a>, context: &'a Context<'a>, with_holes: bool) -> form::plan::Row<'a> {
    let holes = if with_holes { &plan.holes[..] } else { &[] };
    let Row { name, about, structure, member, places, installed, rivet, stack, count, .. } = plan.row;
    let practice = context.practice;
    let per_rivet = |strength: &JointStrength| form::plan::PerRivet {
        allowable: strength.allowable.map(|known| form::Allowable::of(known, practice)),
        governing: strength.governing.map(|governing| governing.mode.into()),
    };
    form::plan::Row {
        name,
        about,
        structure: (*structure).into(),
        member: (*member).into(),
        places: places.iter().copied().map(form::Place::from).collect(),
        installed: installed.to_string(),
        rivet: rivet.to_string(),
        count: *count,
        grip: stack.grip().into(),
        solid_required: plan.solid.map(|solid| form::plan::SolidRequired {
            because: words::solid_because(solid.value),
            basis: form::Basis::of(solid.basis, practice),
        }),
        per_rivet: plan.strength.as_ref().map(per_rivet),
        strength_ratio: strength_ratio(plan).and_then(form::finite),
        before_and_after: before_and_after_form(plan, practice),
        removal: removal_form(&plan.removal, practice),
        holes: List::of(move || holes.iter().map(move |hole| hole_form(plan, hole, context))),
        choice: choice_form(&plan.choice, practice),
    }
}

/// Of the row where it can be worked out, else of one rivet.
fn strength_ratio(plan: &RowPlan<'_>) -> Option<f64> {
    let of_row = plan.before_and_after.as_ref().ok().and_then(|found| found.ratio);
    of_row.or(plan.comparison.as_ref().and_then(|comparison| comparison.ratio))
}

/// No figures where a strength is not published; with a reason instead of figures where nothing could be compared.
fn before_and_after_form<'a>(plan: &RowPlan<'_>, practice: &Practice<'a>) -> form::plan::BeforeAndAfter<'a> {
    let side = |row: &RowStrength| form::plan::Side {
        per_inch: row.per_inch.map(|known| form::RunningLoad::of(known, practice)),
        yield_per_inch: row.yield_per_inch.map(|known| form::RunningLoad::of(known, practice)),
        rivets_per_inch: form::finite(row.rivets_per_inch),
        governing: row.governing.filter(|_| row.per_inch.is_some()).map(|governing| form::plan::Governing {
            mode: governing.mode.into(),
            layer: governing.layer.map(form::Nth::from),
        }),
    };
    match &plan.before_and_after {
        Ok(found) => form::plan::BeforeAndAfter {
            installed: Some(side(&found.before)),
            planned: Some(side(&found.after)),
            ratio: found.ratio.and_then(form::finite),
            changed: Some(found.changed),
            stepped_holes: Some(found.stepped),
            not_compared: None,
        },
        Err(why) => form::plan::BeforeAndAfter { not_compared: Some((*why).into()), ..Default::default() },
    }
}

fn measured_form(measured: &MeasuredHole) -> form::plan::Measured<'_> {
    form::plan::Measured {
        major: measured.as_found.major().into(),
        minor: measured.as_found.minor().into(),
        condition: measured.as_found.damage().into(),
        direction: measured.as_found.direction().map(form::Direction::from),
        opened: measured.opened.map(|drill| drill.to_string()),
        remark: &measured.remark,
        taken: (&measured.taken).into(),
    }
}

fn hole_form<'a>(row: &'a RowPlan<'a>, plan: &'a HolePlan<'a>, context: &'a Context<'a>) -> form::plan::Hole<'a> {
    let hole = form::plan::HoleInRow {
        hole_number: plan.number.into(),
        about: plan.about,
        measured: plan.measured.map(measured_form),
        disposition: plan.disposition().into(),
        drill: plan.cut().map(|cut| cut.to_string()),
        drill_diameter: plan.cut().map(|cut| cut.diameter().into()),
        answer: plan.ruling.map(|ruling| ruling.answer.into()),
        steps: steps(&row.steps(plan, context.practice), context),
    };
    match plan.choice.as_deref() {
        Some(choice) => {
            let choice = choice_form(choice, context.practice);
            form::plan::Hole::Planned(Box::new(form::plan::PlannedHole { hole, choice }))
        }
        None => form::plan::Hole::WithoutRivet(Box::new(form::plan::HoleWithoutRivet { hole, part: () })),
    }
}

fn removal_form<'a>(removal: &Removal, practice: &Practice<'a>) -> form::plan::Removal<'a> {
    form::plan::Removal {
        drill: removal.drill.map(|drill| drill.value.to_string()),
        drill_diameter: removal.drill.map(|drill| drill.value.diameter().into()),
        depth: removal.depth.map(|known| form::GivenLength::of(known, practice)),
        punch_under: removal.punch_under.into(),
        support: removal.support,
        risks: removal.risks.iter().map(|risk| risk.value.meaning()).collect(),
    }
}

fn answer_form<'a>(plan: &AnswerPlan<'a>) -> form::plan::AnswerGiven<'a> {
    form::plan::AnswerGiven {
        answer: plan.answer.into(),
        subject: plan.subject.to_string(),
        findings: plan.answer.findings.iter().copied().map(form::Code::from).collect(),
        measured: &plan.answer.given_for.text,
        standing: (&plan.standing).into(),
    }
}

/// Writes the plan without its holes in one line, and a line for each hole: bases by number, and what becomes of holes that are alike once.
fn lines<'a>(plan: &Rc<Plan<'a>>, context: &'a Context<'a>, to: &mut dyn Write) -> io::Result<()> {
    let _numbers = bases::written(Way::Numbers);
    let mut first = Report::new("plan", context);
    for (subject, finding) in plan.all_findings().filter(|(subject, _)| !matches!(subject, Subject::Hole(..))) {
        first.find_in(plan, context, subject, finding);
    }
    let lines = order(plan, plan.job.spares_percent, None);
    first.give(Answer { plan: Rc::clone(plan), lines, context, with_holes: false });
    let mut line = |line: &dyn Fn(&mut Few<'_>)| {
        let mut out = Vec::new();
        line(&mut Few(&mut out));
        out.push(b'\n');
        for basis in bases::new() {
            form::plan::Line::Basis(basis).put(&mut Few(&mut out));
            out.push(b'\n');
        }
        to.write_all(&out)
    };
    line(&|to| envelope(&first).put(to))?;
    // What was asked alike and came to the same is kept once in the plan, so that it is found by its address.
    let mut known: HashMap<[usize; 2], Vec<(u32, &HolePlan<'a>)>> = HashMap::new();
    let mut alike = 0;
    for row in &plan.rows {
        for hole in &row.holes {
            let lies = [
                hole.answer.as_ref().map_or(0, |answer| Arc::as_ptr(answer).addr()),
                hole.choice.as_ref().map_or(0, |choice| Arc::as_ptr(choice).addr()),
            ];
            let same = known.entry(lies).or_default();
            let is_like = |(_, other): &&(u32, &HolePlan<'a>)| {
                hole.ruling.is_none() && other.ruling.is_none() && hole.findings == other.findings
            };
            let number = if let Some((number, _)) = same.iter().find(is_like) {
                *number
            } else {
                alike += 1;
                same.push((alike, hole));
                line(&|to| form::plan::Line::Alike(Box::new(alike_form(alike, row, hole, context))).put(to))?;
                alike
            };
            let told = form::plan::HoleLine {
                row: &row.row.name,
                hole_number: hole.number.into(),
                about: hole.about,
                measured: hole.measured.map(measured_form),
                answer: hole.ruling.map(|ruling| ruling.answer.into()),
                alike: number.into(),
            };
            let told = form::plan::Line::Hole(Box::new(told));
            line(&|to| told.put(to))?;
        }
    }
    Ok(())
}

fn alike_form<'a>(
    number: u32,
    row: &RowPlan<'a>,
    hole: &HolePlan<'a>,
    context: &Context<'a>,
) -> form::plan::HolesAlike<'a> {
    let findings = hole.findings.iter().map(|finding| Told::of("hole", finding, context).into_form());
    let of_row = &row.choice;
    let is_of_row = |choice: &&Choice<'_>| choice.part == of_row.part && choice.length == of_row.length;
    let as_row = hole.choice.as_deref().filter(is_of_row);
    let own = if as_row.is_none() { hole.choice.as_deref() } else { None };
    form::plan::HolesAlike {
        alike: number.into(),
        disposition: hole.disposition().into(),
        drill: hole.cut().map(|cut| cut.to_string()),
        drill_diameter: hole.cut().map(|cut| cut.diameter().into()),
        steps: steps(&row.steps(hole, context.practice), context),
        as_row: as_row.is_some(),
        hole: as_row.map(|choice| form::GivenInterval::of(choice.hole, context.practice)),
        choice: own.map(|choice| choice_form(choice, context.practice)),
        findings: findings.collect(),
    }
}

/// Writes a line for each row of the job, and one for each hole that differs from its row.
fn rows(plan: &Plan<'_>, context: &Context<'_>, to: &mut dyn Write) -> io::Result<()> {
    /// Bytes that are written at once.
    const PIECE: usize = 64 * 1024;
    let (mut out, mut kept) = (Vec::with_capacity(2 * PIECE), Kept::default());
    if let Some(row) = plan.rows.first() {
        let mut record = Record::new(context.units);
        Line::of(row).cells(&mut record);
        let mut columns = record.into_columns();
        columns.extend(["severity", "findings", "answer"].map(str::to_owned));
        out.extend_from_slice(columns.join(",").as_bytes());
        out.push(b'\n');
    }
    for row in &plan.rows {
        let special = row.holes.iter().filter(|hole| hole.differs_from(row));
        for line in std::iter::once(Line::of(row)).chain(special.map(|hole| Line::of_hole(row, hole))) {
            line.put(plan, &mut out, &mut kept, context.units);
            if out.len() > PIECE {
                to.write_all(&out)?;
                out.clear();
            }
        }
    }
    to.write_all(&out)
}

/// A row, or one of its holes.
struct Line<'p, 'j> {
    subject: Subject<'j>,
    row: &'p str,
    hole: Option<&'p HolePlan<'j>>,
    count: usize,
    choice: Option<&'p Choice<'j>>,
    findings: &'p [Finding],
}

impl<'p, 'j> Line<'p, 'j> {
    fn of(plan: &'p RowPlan<'j>) -> Line<'p, 'j> {
        let special = plan.holes.iter().filter(|hole| hole.differs_from(plan)).count();
        Line {
            subject: Subject::Row(&plan.row.name),
            row: &plan.row.name,
            hole: None,
            count: plan.row.count as usize - special,
            choice: Some(&plan.choice),
            findings: &plan.findings,
        }
    }

    fn of_hole(plan: &'p RowPlan<'j>, hole: &'p HolePlan<'j>) -> Line<'p, 'j> {
        Line {
            subject: Subject::Hole(&plan.row.name, hole.number),
            row: &plan.row.name,
            hole: Some(hole),
            count: 1,
            choice: hole.choice.as_deref(),
            findings: &hole.findings,
        }
    }

    fn cells(&self, cells: &mut impl Cells) {
        let length = self.choice.and_then(|choice| choice.length.as_ref().ok());
        let complete = self.choice.filter(|choice| choice.is_complete());
        cells.written("row", self.row).optional("hole", self.hole.map(|hole| hole.number)).text("count", self.count);
        cells.words("disposition", self.hole.map(|hole| hole.disposition().as_str()));
        cells.optional("drill", self.hole.and_then(HolePlan::cut));
        cells.parts("part", complete.map(|choice| choice.part));
        cells.length("length", complete.and_then(|choice| choice.part.length()));
        cells.length("rule_of_thumb_length", length.map(|length| length.rule_of_thumb_length));
        cells.length("protrusion_max", length.and_then(|length| length.protrusion).map(|tail| tail.max()));
        let window = length.and_then(|length| length.window);
        cells.length("window_height_min", window.map(|window| window.height.min()));
        cells.length("window_height_max", window.map(|window| window.height.max()));
        cells.length("window_diameter_min", window.map(|window| window.diameter_least));
    }

    /// The line, as it is printed.
    fn put(&self, plan: &Plan<'_>, out: &mut Vec<u8>, kept: &mut Kept, units: Units) {
        let start = out.len();
        let mut cells = AnswerCells::new(out, kept, units);
        self.cells(&mut cells);
        let mut codes = Codes::default();
        self.findings.iter().for_each(|finding| codes.one(&"", finding));
        cells.tell(&codes);
        let given = self.findings.iter().filter_map(|finding| plan.answer_to(self.subject, finding));
        let mut answers: Vec<String> = given.map(in_words).collect();
        answers.dedup();
        cells.written("answer", &answers.join(" "));
        // No comma in front of the first.
        out.remove(start);
        out.push(b'\n');
    }
}
