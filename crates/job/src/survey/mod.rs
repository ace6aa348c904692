//! Measuring holes one after the other: what is typed goes in line by line, what is to be shown and written comes out.
//!
//! [`Survey`] knows nothing of terminals and files. It is given a line that somebody typed and answers with lines to show, and with a
//! line for the file where a measure was accepted; once that line is on the disk it is told so and goes on. What is on the disk and
//! what it takes for saved are therefore never apart.
//!
//! [`prepare`] makes an old file fit to go on with.

mod prepare;
mod typed;

use std::collections::{BTreeSet, HashMap};

pub use prepare::{HEADER, Prepared, prepare};
use shophead::drill::Drill;
use shophead::finding::{Finding, Severity};
use shophead::hole::{AsFound, Damage, Direction, Disposition, HoleLimits};
use shophead::installation::HoleAnswer;
use shophead::length::{Bare, Length};
use shophead::pattern::{Demand, PatternLimits, tally};

use self::typed::{Opened, Typed, parse, range, with_points};
use crate::cell::{bare_or_in_quotes, exact, harmless, in_quotes};
use crate::diagnostic::is_unseen;
use crate::model::{Answer, MeasuredHole, Taken};
use crate::plan::{HoleAnswered, Plan, RowPlan, Subject, beyond, hole_answered, in_words};
use crate::read::{CLEARED, COLUMNS, GAUGED, HolesFile};
use shophead::words::Units;

/// The letters for what is wrong with a hole, and what they stand for.
pub const LETTERS: &[(char, Damage)] = &[
    ('s', Damage::None),
    ('c', Damage::Cracked),
    ('r', Damage::Corroded),
    ('f', Damage::FigureEight),
    ('g', Damage::Gouged),
    ('d', Damage::DeepCountersink),
];

/// A measure this many times the shank, or the shank this many times the measure, is taken for a slip of the keyboard until it is typed once
/// more.
const FAR: i64 = 2;

/// A hole of the job: a row by its place, and a number in it.
pub type Spot = (usize, u32);

/// What is to be done after a line was typed.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct Reply {
    /// Lines to show, in this order, before anything else.
    pub say: Vec<String>,
    /// What was accepted: write each line, bring it to the disk, then call [`Survey::saved`], one after the other.
    pub entries: Vec<SurveyEntry>,
    /// The survey is over.
    pub is_over: bool,
}

impl Reply {
    fn says(line: impl Into<String>) -> Reply {
        Reply { say: vec![line.into()], ..Reply::default() }
    }
}

/// A measure that was accepted and is to be written, or that one is cleared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SurveyEntry {
    /// The line for the file, with its line end.
    pub line: String,
    spot: Spot,
    /// `None` where it is cleared.
    hole: Option<MeasuredHole>,
    /// It is one of several, which are told of together: here once the last of them is saved.
    of_many: Option<String>,
    /// Where the survey goes on; `None` at the next hole that is open.
    then: Option<Option<Spot>>,
}

/// What was asked about a line that looks like a slip.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Asked {
    /// It is taken when it is typed once more, or for `y`.
    Sure(String),
    /// Another one was meant; that is taken for `y`.
    Meant(String),
}

/// What is known of a hole.
#[derive(Clone, Debug)]
struct Known {
    hole: MeasuredHole,
    /// What becomes of it by itself.
    disposition: Disposition,
    /// Whether that is to be referred and nobody has answered.
    refers: bool,
    /// The drill that it is to be opened with.
    cut: Option<Drill>,
    /// Cells of other columns, carried on by a correction.
    others: Vec<(usize, String)>,
    /// It stands in the job and not in this file, so it is not measured here.
    is_in_job: bool,
}

/// What becomes of a hole as it was measured.
struct Looked<'j> {
    /// By itself; `None` where it is of no row.
    judged: Option<HoleAnswer<'j>>,
    /// Of a referral.
    answered: HoleAnswered<'j>,
}

/// A session.
#[derive(Debug)]
pub struct Survey<'p, 'j> {
    plan: &'p Plan<'j>,
    units: Units,
    /// What a typed number without a unit is.
    bare: Bare,
    line_end: &'static str,
    width: usize,
    columns: [Option<usize>; COLUMNS.len()],
    known: HashMap<Spot, Known>,
    /// The hole that is asked for; `None` behind the last one.
    at: Option<Spot>,
    /// The row that was introduced last.
    introduced: Option<usize>,
    /// What was asked about the line that was typed last.
    asked: Option<Asked>,
    /// Holes that their pattern cannot take, and that nobody has answered.
    full: BTreeSet<Spot>,
    /// Who measures now, when and with what.
    taken: Taken,
    saved: u32,
    corrected: u32,
}

impl<'p, 'j> Survey<'p, 'j> {
    /// Goes on with what is in the file: at the first hole that is still to be measured behind the one measured last.
    ///
    /// The plan is that of the job without the holes of this file.
    #[must_use]
    pub fn new(plan: &'p Plan<'j>, file: &HolesFile, line_end: &'static str, units: Units) -> Survey<'p, 'j> {
        let mut survey = Survey {
            plan,
            units,
            bare: match units {
                Units::Inches => Bare::Inches,
                Units::Millimetres => Bare::Millimetres,
            },
            line_end,
            width: file.width,
            columns: file.columns,
            known: HashMap::new(),
            at: None,
            introduced: None,
            asked: None,
            full: BTreeSet::new(),
            taken: Taken::default(),
            saved: 0,
            corrected: 0,
        };
        for (index, row) in plan.rows.iter().enumerate() {
            for hole in &row.row.measured {
                let spot = (index, hole.number);
                let looked = survey.look(spot, hole);
                survey.know(spot, hole.clone(), &looked, Vec::new(), true);
            }
        }
        for record in &file.records {
            let spot = (record.row, record.number);
            match &record.hole {
                Some(hole) => {
                    let hole = hole.clone().after(survey.measured(spot));
                    let looked = survey.look(spot, &hole);
                    survey.know(spot, hole, &looked, record.others.clone(), false);
                }
                None => drop(survey.known.remove(&spot)),
            }
        }
        // A pattern of several rows is weighed once, from its first row.
        for row in 0..plan.rows.len() {
            if survey.pattern(row).first() == Some(&row) {
                survey.weigh(row);
            }
        }
        let last = file.records.last().map(|record| (record.row, record.number));
        survey.at = match last {
            Some(last) => survey.open_after(last).or_else(|| survey.first_open()),
            None => survey.first_open(),
        };
        survey
    }

    /// The same, with who measures, when and with what; it goes to the file with every measure.
    #[must_use]
    pub fn taken(self, taken: Taken) -> Survey<'p, 'j> {
        Survey { taken, ..self }
    }

    /// What becomes of a hole by itself, and of a referral whether somebody has answered it.
    fn look(&self, spot: Spot, hole: &MeasuredHole) -> Looked<'j> {
        let judged = self.judge(spot, hole.as_found);
        let referred = judged.as_ref().filter(|judged| judged.disposition == Disposition::Refer);
        let answered = referred.map_or(HoleAnswered::Open, |judged| self.answered(spot, hole, judged));
        Looked { judged, answered }
    }

    fn know(
        &mut self,
        spot: Spot,
        hole: MeasuredHole,
        looked: &Looked<'_>,
        others: Vec<(usize, String)>,
        is_in_job: bool,
    ) {
        let judged = looked.judged.as_ref();
        let disposition = judged.map_or(Disposition::Refer, |judged| judged.disposition);
        let refers = disposition == Disposition::Refer && !matches!(looked.answered, HoleAnswered::Ruled(_));
        let cut = judged.and_then(|judged| judged.cut);
        self.known.insert(spot, Known { hole, disposition, refers, cut, others, is_in_job });
    }

    /// The rows of the pattern that a row belongs to.
    fn pattern(&self, row: usize) -> Vec<usize> {
        let name = self.row(row).and_then(|plan| plan.row.pattern.as_deref());
        let of_pattern = |plan: &RowPlan<'_>| name.is_some() && plan.row.pattern.as_deref() == name;
        let rows = self.plan.rows.iter().enumerate();
        rows.filter(|(index, plan)| *index == row || of_pattern(plan)).map(|(index, _)| index).collect()
    }

    fn limits(&self, members: &[usize]) -> PatternLimits {
        let rows = || members.iter().filter_map(|index| self.row(*index));
        let total = rows().map(|plan| plan.row.count).fold(0, u32::saturating_add);
        // As the rows ask, before any of their holes is opened.
        PatternLimits::of(total, self.plan.practice, rows().map(|plan| plan.case(&plan.row.rivet)))
    }

    /// Holds the holes that take a larger rivet against the limits of their pattern, and tells what that refers that it did not before.
    fn weigh(&mut self, row: usize) -> Vec<String> {
        let members = self.pattern(row);
        let limits = self.limits(&members);
        let mut stepped: Vec<(u32, u32, Disposition)> = members
            .iter()
            .zip(0_u32..)
            .flat_map(|(index, place)| {
                let known =
                    self.known.iter().filter(|((row, _), known)| row == index && known.disposition.is_step_up());
                known.map(move |((_, number), known)| (place, *number, known.disposition)).collect::<Vec<_>>()
            })
            .collect();
        stepped.sort_unstable_by_key(|(place, number, _)| (*place, *number));
        let (wanting, run) = tally(stepped.iter().map(|(place, number, _)| (*place, *number)));
        let demands: Vec<Demand> =
            stepped.iter().map(|(place, number, step)| Demand::of(*place, *number, [*step])).collect();
        let (found, refused) = beyond(&limits, &demands, wanting, run);
        let spot = |demand: &Demand| Some((*members.get(demand.row as usize)?, demand.number));
        let refused = refused.iter().filter_map(spot).filter(|spot| !self.is_ruled(*spot, &limits)).collect();
        let before: BTreeSet<Spot> = self.full.iter().copied().filter(|(row, _)| members.contains(row)).collect();
        let is_new = before != refused;
        self.full.retain(|(row, _)| !members.contains(row));
        let names: Vec<String> = refused.iter().map(|spot| self.name(*spot)).collect();
        self.full.extend(refused);
        if !is_new || names.is_empty() {
            return Vec::new();
        }
        let mut say: Vec<String> = found.iter().map(|finding| finding.sentence(self.units).to_string()).collect();
        say.push(format!("PATTERN FULL. Refer {}.", names.join(", ")));
        say
    }

    /// Whether somebody has answered about a hole that its pattern cannot take.
    fn is_ruled(&self, spot: Spot, limits: &PatternLimits) -> bool {
        let Some(hole) = self.measured(spot) else { return false };
        let Some(mut judged) = self.judge(spot, hole.as_found) else { return false };
        judged.refer(limits.full());
        matches!(self.answered(spot, hole, &judged), HoleAnswered::Ruled(_))
    }

    fn judge(&self, spot: Spot, found: AsFound) -> Option<HoleAnswer<'j>> {
        let row = self.plan.rows.get(spot.0)?;
        Some(row.question(spot.1, self.plan.practice).hole(found))
    }

    /// What somebody has answered about a hole as it was measured.
    fn answered(&self, (row, _): Spot, hole: &MeasuredHole, judged: &HoleAnswer<'_>) -> HoleAnswered<'j> {
        let findings: Vec<Finding> = judged.findings.iter().copied().collect();
        hole_answered(self.plan, row, hole, &findings)
    }

    fn row(&self, index: usize) -> Option<&'p RowPlan<'j>> {
        self.plan.rows.get(index)
    }

    /// `K1 7`.
    fn name(&self, spot: Spot) -> String {
        let row = self.row(spot.0).map_or("", |row| row.row.name.as_str());
        format!("{row} {}", spot.1)
    }

    // Where to go.

    fn count(&self, row: usize) -> u32 {
        self.row(row).map_or(0, |row| row.row.count)
    }

    fn is_open(&self, spot: &Spot) -> bool {
        !self.known.contains_key(spot)
    }

    fn open_after(&self, (row, number): Spot) -> Option<Spot> {
        let rest = (number.saturating_add(1)..=self.count(row)).map(move |number| (row, number));
        let rows = row.saturating_add(1)..self.plan.rows.len();
        rest.chain(rows.flat_map(|row| (1..=self.count(row)).map(move |number| (row, number))))
            .find(|spot| self.is_open(spot))
    }

    fn first_open(&self) -> Option<Spot> {
        self.open_after((0, 0))
    }

    /// The hole before a place that may be measured here; behind the last hole, the last one.
    fn before(&self, at: Option<Spot>) -> Option<Spot> {
        let (row, number) = at.unwrap_or((self.plan.rows.len(), 1));
        let here = (1..number).rev().map(move |number| (row, number));
        let rows = (0..row).rev();
        here.chain(rows.flat_map(|row| (1..=self.count(row)).rev().map(move |number| (row, number))))
            .find(|spot| !self.known.get(spot).is_some_and(|known| known.is_in_job))
    }

    // What is shown.

    /// Lines to show at the beginning.
    #[must_use]
    pub fn greeting(&self) -> Vec<String> {
        vec![
            self.plan.job.title.clone(),
            self.progress(),
            self.who(),
            format!("Type what you measure, in {}; ? helps.", self.unit_name()),
        ]
    }

    /// Who measures, or how to say it.
    fn who(&self) -> String {
        let Taken { by, gauge, .. } = &self.taken;
        let says = |what: &str| format!("Type {what} to have it written with each measure.");
        match (by.is_empty(), gauge.is_empty()) {
            (true, _) => format!("Nobody is named. {}", says("by and your name")),
            (false, true) => format!("By {}. {}", self.taken, says("gauge and its number")),
            (false, false) => format!("By {}.", self.taken),
        }
    }

    /// `by A. Example`, `gauge PG-14`: what is written with each measure from now on. Alone they say what it is.
    fn take(&mut self, word: &str, said: &str) -> Reply {
        if !said.is_empty() {
            let place = if word == "by" { &mut self.taken.by } else { &mut self.taken.gauge };
            said.clone_into(place);
        }
        Reply::says(self.who())
    }

    const fn unit_name(&self) -> &'static str {
        match self.units {
            Units::Inches => "inches",
            Units::Millimetres => "millimetres",
        }
    }

    fn progress(&self) -> String {
        let holes: u64 = self.plan.rows.iter().map(|row| u64::from(row.row.count)).sum();
        format!("{} of {holes} holes are measured.", self.known.len())
    }

    /// Lines to show at the end.
    #[must_use]
    pub fn farewell(&self) -> Vec<String> {
        let saved = match self.saved {
            1 => "1 line saved".to_owned(),
            saved => format!("{saved} lines saved"),
        };
        let corrected = match self.corrected {
            0 => String::new(),
            corrected => format!(", {corrected} of them corrections"),
        };
        vec![format!("{saved}{corrected}. {}", self.progress())]
    }

    /// How many lines were saved.
    #[must_use]
    pub const fn lines_saved(&self) -> u32 {
        self.saved
    }

    /// How many of the lines that were saved correct an earlier one.
    #[must_use]
    pub const fn lines_corrected(&self) -> u32 {
        self.corrected
    }

    /// The hole that is asked for.
    #[must_use]
    pub const fn at(&self) -> Option<Spot> {
        self.at
    }

    /// What was measured last at a hole.
    #[must_use]
    pub fn measured(&self, spot: Spot) -> Option<&MeasuredHole> {
        self.known.get(&spot).map(|known| &known.hole)
    }

    /// The holes that are to be referred, row by row, each by its row and number.
    #[must_use]
    pub fn referred(&self) -> Vec<(&'p str, u32)> {
        let refer = self.known.iter().filter(|(_, known)| known.refers).map(|(spot, _)| *spot);
        let spots: BTreeSet<Spot> = refer.chain(self.full.iter().copied()).collect();
        spots.into_iter().filter_map(|(row, number)| Some((self.row(row)?.row.name.as_str(), number))).collect()
    }

    /// What is found about a hole as it was measured last.
    #[must_use]
    pub fn answer(&self, row: &str, number: u32) -> Option<HoleAnswer<'j>> {
        let index = self.plan.rows.iter().position(|plan| plan.row.name == row)?;
        let mut judged = self.judge((index, number), self.measured((index, number))?.as_found)?;
        if self.full.contains(&(index, number)) {
            judged.refer(self.limits(&self.pattern(index)).full());
        }
        Some(judged)
    }

    /// The rows that are to be referred as a whole, each with what is found.
    #[must_use]
    pub fn referred_rows(&self) -> Vec<(&'p str, Vec<Finding>)> {
        let rows = self.plan.rows.iter().map(|row| (row.row.name.as_str(), self.stops_of(&row.row.name)));
        rows.filter(|(_, stops)| !stops.is_empty()).collect()
    }

    /// What stops a row as a whole and is not answered.
    fn stops_of(&self, row: &str) -> Vec<Finding> {
        let stops = self.plan.open_stops().filter(|(subject, _)| *subject == Subject::Row(row));
        stops.map(|(_, finding)| *finding).collect()
    }

    /// Lines to show before the prompt: a row that begins, what was measured at this hole before.
    pub fn introduction(&mut self) -> Vec<String> {
        let mut say = Vec::new();
        let Some(at) = self.at else {
            say.push(match self.first_open() {
                Some(open) => {
                    format!("Behind the last hole. Enter goes to {}, which is open; q ends.", self.name(open))
                }
                None => "Every hole is measured; q ends.".to_owned(),
            });
            return say;
        };
        if self.introduced != Some(at.0)
            && let Some(plan) = self.row(at.0)
        {
            self.introduced = Some(at.0);
            let about = if plan.row.about.is_empty() { String::new() } else { format!(", {}", plan.row.about) };
            say.push(format!(
                "Row {}{about}: {} holes for {}.",
                plan.row.name,
                plan.row.count,
                plan.choice.part.without_length()
            ));
            for finding in self.stops_of(&plan.row.name) {
                say.push(format!("ROW REFERRED. {}", finding.sentence(self.units)));
            }
        }
        if let Some(exception) = self.row(at.0).and_then(|row| row.exception(at.1))
            && !exception.about.is_empty()
        {
            say.push(format!("{}: {}.", self.name(at), exception.about));
        }
        if let Some(known) = self.known.get(&at) {
            let taken = &known.hole.taken;
            let taken = if taken.is_empty() { String::new() } else { format!(" ({taken})") };
            say.push(format!("{} was {}{taken}. Enter keeps it.", self.name(at), self.found(&known.hole)));
        }
        say
    }

    /// What stands before the cursor.
    #[must_use]
    pub fn prompt(&self) -> String {
        match self.at {
            Some(at) => format!("{}/{} > ", self.name(at), self.count(at.0)),
            None => "end > ".to_owned(),
        }
    }

    /// `0.163 x 0.160 in, gouged`.
    fn found(&self, hole: &MeasuredHole) -> String {
        let found = hole.as_found;
        let minor = self.units.length(found.minor());
        let mut text = match found.minor() == found.major() {
            true => minor.to_string(),
            false if found.is_gauged() => {
                format!("good, go {}, no-go {}", minor.bare(), self.units.length(found.major()))
            }
            false => format!("{} x {minor}", self.units.length(found.major()).bare()),
        };
        if found.damage() != Damage::None {
            text.push_str(&format!(", {}", found.damage().as_str()));
        }
        if let Some(direction) = found.direction() {
            text.push_str(&format!(", {}", direction.as_str()));
        }
        if let Some(drill) = hole.opened {
            text.push_str(&format!(", opened to {drill}"));
        }
        if !hole.remark.is_empty() {
            text.push_str(&format!(", \"{}\"", hole.remark));
        }
        text
    }

    /// What is done about a hole, and why no less does, each on a line.
    fn verdict(&self, spot: Spot, found: AsFound, judged: &HoleAnswer<'_>) -> Vec<String> {
        // The first reason of each step is enough to go by, and steps that fail for the same one share it; plan has them all.
        let mut failed: Vec<(String, Finding)> = Vec::new();
        if let Some(row) = self.row(spot.0).filter(|_| judged.disposition != Disposition::Keep) {
            let question = row.question(spot.1, self.plan.practice);
            question.hole_step_by_step(found, &mut |step| {
                let first = step.findings.iter().find(|finding| finding.severity() == Severity::Refer);
                match (first, failed.last_mut()) {
                    (Some(first), Some((steps, known))) if known.code() == first.code() => {
                        steps.push_str(&format!(", {}", step.kind));
                    }
                    (Some(first), _) => failed.push((step.kind.to_string(), *first)),
                    (None, _) => {}
                }
            });
        }
        let mut say = Vec::new();
        match (judged.disposition, failed.is_empty()) {
            (Disposition::Refer, false) => say.push("REFER. Do not open it.".to_owned()),
            _ => say.push(self.what_to_do(judged)),
        }
        say.extend(failed.iter().map(|(steps, why)| format!("not {steps}: {}", why.reason(self.units))));
        say
    }

    fn what_to_do(&self, judged: &HoleAnswer<'_>) -> String {
        let cut = judged.cut.map_or_else(String::new, |cut| format!(", drill {}", cut.sized(self.units)));
        let rivet = judged.rivet.map_or_else(String::new, |rivet| format!(" {rivet}"));
        match judged.disposition {
            Disposition::Refer => {
                let refer = judged.findings.iter().find(|finding| finding.severity() == Severity::Refer);
                let why = refer.map_or_else(String::new, |finding| finding.sentence(self.units).to_string());
                format!("REFER. {why}")
            }
            disposition => {
                let as_it_is = if disposition.is_step_up() && judged.cut.is_none() { ", hole as it is" } else { "" };
                format!("{}:{rivet}{cut}{as_it_is}", disposition.as_str().to_uppercase())
            }
        }
    }

    // What is typed.

    /// Takes a line that was typed, without its line end.
    pub fn hear(&mut self, typed: &str) -> Reply {
        let typed = typed.trim();
        let asked = self.asked.take();
        if let Some(c) = typed.chars().find(|c| is_unseen(*c) && *c != '\t') {
            return Reply::says(format!("Not taken: it has a hidden character, {}.", c.escape_unicode()));
        }
        let typed = typed.replace('\t', " ");
        if matches!(typed.as_str(), "y" | "yes" | "Y") {
            return match asked {
                Some(Asked::Sure(line)) => self.understand(&line, true),
                Some(Asked::Meant(line)) => self.understand(&line, false),
                None => Reply::says("Nothing was asked. A measure is .163 or .163 .160; ? helps."),
            };
        }
        let is_sure = asked == Some(Asked::Sure(typed.clone()));
        self.understand(&typed, is_sure)
    }

    fn understand(&mut self, typed: &str, is_sure: bool) -> Reply {
        if let Some((first, last, said)) = range(typed) {
            return self.several(typed, (first, last), said, is_sure);
        }
        match typed.chars().next() {
            None => self.pass(),
            Some(c) if c.is_ascii_digit() || matches!(c, '.' | '#' | ',') => {
                let Some(at) = self.at else {
                    return Reply::says("There is no hole here: b goes back, j K1 12 jumps.");
                };
                match self.measure(at, typed, typed, is_sure) {
                    Ok(entry) => Reply { entries: vec![entry], ..Reply::default() },
                    Err(reply) => reply,
                }
            }
            Some(_) => self.command(typed, is_sure),
        }
    }

    fn command(&mut self, typed: &str, is_sure: bool) -> Reply {
        let (word, rest) = match typed.strip_prefix('/') {
            Some(rest) => ("j", rest.trim()),
            None => typed.split_once(' ').map_or((typed, ""), |(word, rest)| (word, rest.trim())),
        };
        match (word.to_ascii_lowercase().as_str(), rest.is_empty()) {
            ("q" | "quit", true) => Reply { is_over: true, ..Reply::default() },
            ("b" | "back" | "-", true) => self.back(),
            ("s" | "skip" | "+", true) => self.pass(),
            ("n" | "next", true) => self.next_row(),
            ("j" | "jump", false) => self.jump(rest),
            ("j" | "jump", true) => Reply::says("Where to? Right would be j 12, j K1 or j K1 12."),
            ("good", _) => match self.at {
                Some(at) => self.several(typed, (at.1, at.1), typed, is_sure),
                None => Reply::says("There is no hole here: b goes back, j K1 12 jumps."),
            },
            ("rest", _) => self.rest(typed, rest, is_sure),
            ("go", true) => Reply::says("The go gauge goes in. If the no-go gauge does not, type good."),
            ("no-go" | "nogo", true) => {
                Reply::says("Too large for its rivet. Measure it, and type what you find: .163.")
            }
            ("by" | "gauge", _) => self.take(&word.to_ascii_lowercase(), rest),
            ("clear", true) => match self.at {
                Some(at) => self.clear(&[at]),
                None => Reply::says("Which hole? Right would be clear 12 or clear K1 12."),
            },
            ("clear", false) => match self.place(rest) {
                Ok(spot) => self.clear(&[spot]),
                Err(why) => Reply::says(why),
            },
            ("correct", _) => self.correct(rest, typed, is_sure),
            ("?" | "h" | "help", true) => self.help(),
            _ => Reply::says("Not understood. A measure is .163 or .163 .160; ? helps."),
        }
    }

    /// `rest good`, `rest of the row good`: every hole of this row that is still open, from this one on.
    fn rest(&mut self, typed: &str, said: &str, is_sure: bool) -> Reply {
        let said = said.strip_prefix("of the row").or(said.strip_prefix("of row")).unwrap_or(said).trim();
        match self.at {
            Some((_, number)) if said == "good" || said.starts_with("good ") => {
                let last = self.at.map_or(number, |(row, _)| self.count(row));
                self.several(typed, (number, last), said, is_sure)
            }
            Some(_) => Reply::says("The rest of the row can be good: rest good."),
            None => Reply::says("There is no hole here: b goes back, j K1 12 jumps."),
        }
    }

    /// The same of several holes of this row: `12-30 good`, `12-30 .159`, `12-30 clear`. What was measured before stays, but for `clear`.
    fn several(&mut self, typed: &str, (first, last): (u32, u32), said: &str, is_sure: bool) -> Reply {
        let Some((row, _)) = self.at.or_else(|| self.before(None)) else {
            return Reply::says("There is no hole here: j K1 12 jumps.");
        };
        let name = self.row(row).map_or("", |row| row.row.name.as_str());
        if first < 1 || last < first || self.count(row) < last {
            return Reply::says(format!("Row {name} has holes 1 to {}; right would be 12-30 good.", self.count(row)));
        }
        let is_one = first == last;
        let spots: Vec<Spot> = (first..=last).map(|number| (row, number)).collect();
        if said == "clear" {
            let known = |spot: &Spot| self.known.get(spot).is_some_and(|known| !known.is_in_job);
            let known: Vec<Spot> = spots.into_iter().filter(known).collect();
            return match known.is_empty() {
                true => Reply::says("None of them is measured in this file."),
                false => self.clear(&known),
            };
        }
        let open: Vec<Spot> = spots.iter().copied().filter(|spot| is_one || self.is_open(spot)).collect();
        let stays = spots.len().saturating_sub(open.len());
        let mut entries = Vec::with_capacity(open.len());
        for spot in &open {
            let entry = match said.strip_prefix("good") {
                Some(gauges) if gauges.is_empty() || gauges.starts_with(' ') => self.good(*spot, gauges.trim()),
                _ if said.is_empty() => {
                    Err(Reply::says("What of these holes? Right would be 12-30 good, 12-30 .159 or 12-30 clear."))
                }
                _ => self.measure(*spot, said, typed, is_sure),
            };
            match entry {
                Ok(entry) => entries.push(entry),
                Err(reply) => return reply,
            }
        }
        if !is_one {
            let kept = match stays {
                0 => String::new(),
                1 => "; 1 was measured before and stays".to_owned(),
                stays => format!("; {stays} were measured before and stay"),
            };
            let numbers: Vec<u32> = open.iter().map(|(_, number)| *number).collect();
            let count = numbers.len();
            for (index, entry) in entries.iter_mut().enumerate() {
                let is_last = index + 1 == count;
                let told = format!("{name} {first}-{last} saved: {count} holes{kept}.");
                entry.of_many = Some(if is_last { told } else { String::new() });
            }
            if entries.is_empty() {
                return Reply::says(format!("{name} {first}-{last}: every one is measured. Correct one by one."));
            }
        }
        Reply { entries, ..Reply::default() }
    }

    /// A hole that the gauges found good: those of the limits, or two that were named, the go gauge first.
    fn good(&self, spot: Spot, gauges: &str) -> Result<SurveyEntry, Reply> {
        let as_found = if gauges.is_empty() {
            let changes = self.known.get(&spot).is_some_and(|known| known.refers || known.disposition.is_step_up());
            if changes {
                let name = self.name(spot);
                return Err(Reply::says(format!(
                    "{name} takes another rivet than its row. Measure it, or name both gauges."
                )));
            }
            let limits = self.row(spot.0).map(|row| HoleLimits::of(self.plan.practice, &row.case(&row.choice.part)));
            limits.and_then(|limits| limits.good()).ok_or_else(|| {
                Reply::says(format!("{}: no limits on file for this hole. Measure it.", self.name(spot)))
            })
        } else {
            let lengths: Result<Vec<Length>, _> =
                gauges.split_whitespace().map(|word| Length::parse_hole(word, self.bare)).collect();
            let pair = lengths.ok().and_then(|lengths| match lengths.as_slice() {
                [go, no_go] => AsFound::gauged(*go, *no_go),
                _ => None,
            });
            pair.ok_or_else(|| {
                Reply::says("Not taken: name the go gauge and a larger no-go gauge. Right would be good .1285 .133.")
            })
        }?;
        let opened = self.known.get(&spot).and_then(|known| known.hole.opened);
        let hole = MeasuredHole {
            number: spot.1,
            as_found: as_found.opened(opened.is_some()),
            opened,
            before: None,
            remark: String::new(),
            taken: self.taken.clone(),
        };
        let line = self.line(spot, Some(as_found.minor()), &hole);
        Ok(SurveyEntry { line, spot, hole: Some(hole), of_many: None, then: None })
    }

    /// Takes what was entered for holes back: they are open again.
    fn clear(&self, spots: &[Spot]) -> Reply {
        let Some(first) = spots.first() else { return Reply::default() };
        if let [spot] = spots {
            match self.known.get(spot) {
                None => return Reply::says(format!("{} is not measured.", self.name(*spot))),
                Some(known) if known.is_in_job => {
                    return Reply::says(format!("{} is in the job file; clear it there.", self.name(*spot)));
                }
                Some(_) => {}
            }
        }
        let entry = |spot: &Spot| SurveyEntry {
            line: self.cells(*spot, [String::new(), String::new(), CLEARED.to_owned()], ["", "", ""]),
            spot: *spot,
            hole: None,
            of_many: None,
            then: Some(self.at.or(Some(*first))),
        };
        Reply { entries: spots.iter().map(entry).collect(), ..Reply::default() }
    }

    /// `correct 12 .163`: measures another hole and comes back.
    fn correct(&mut self, rest: &str, typed: &str, is_sure: bool) -> Reply {
        let help = "Right would be correct 12 .163 or correct K1 12 .163.";
        let row = self.plan.rows.iter().map(|row| row.row.name.as_str()).find(|name| {
            rest.strip_prefix(name).is_some_and(|rest| rest.starts_with(' ')) && self.row_named(name).is_some()
        });
        let (row, rest) = match row {
            Some(name) => (self.row_named(name), rest.get(name.len()..).unwrap_or_default().trim()),
            None => (self.at.or_else(|| self.before(None)).map(|(row, _)| row), rest),
        };
        let Some((number, said)) = rest.split_once(' ') else { return Reply::says(help) };
        let (Some(row), Ok(number)) = (row, number.parse::<u32>()) else { return Reply::says(help) };
        let spot = (row, number);
        if number < 1 || self.count(row) < number {
            let name = self.row(row).map_or("", |row| row.row.name.as_str());
            return Reply::says(format!("Row {name} has holes 1 to {}.", self.count(row)));
        }
        if let Some(known) = self.known.get(&spot).filter(|known| known.is_in_job) {
            let found = self.found(&known.hole);
            return Reply::says(format!("{} is in the job file as {found}; correct it there.", self.name(spot)));
        }
        let said = said.trim();
        let entry = match said {
            "good" => self.good(spot, ""),
            said => self.measure(spot, said, typed, is_sure),
        };
        match entry {
            Ok(entry) => {
                let then = if self.at == Some(spot) { None } else { Some(self.at) };
                Reply { entries: vec![SurveyEntry { then, ..entry }], ..Reply::default() }
            }
            Err(reply) => reply,
        }
    }

    fn help(&self) -> Reply {
        let example = match self.units {
            Units::Inches => ("  .163", "  .163 .160", "  .163 g burr"),
            Units::Millimetres => ("  4.14", "  4.14 4.06", "  4.14 g burr"),
        };
        let say = [
            format!("A measure, in {}:", self.unit_name()),
            format!("{}  round, or #20", example.0),
            format!("{}  both axes; * too", example.1),
            format!("{}  damage, remark", example.2),
            "Damage: c cracked, r corroded,".to_owned(),
            "  f figure-eight, g gouged,".to_owned(),
            "  d deep-countersink, s sound".to_owned(),
            "Opened: o #27, or o as the answer says".to_owned(),
            "Long axis: al along, ac across the edge".to_owned(),
            "A remark alone: put a colon first.".to_owned(),
            "good        go gauge in, no-go not".to_owned(),
            "12-30 good  the same of several".to_owned(),
            "12-30 .159  or with a measure".to_owned(),
            "rest good   rest of the row".to_owned(),
            "correct 12 .163  another hole".to_owned(),
            "clear, clear 12  take it back".to_owned(),
            "by NAME, gauge NUMBER".to_owned(),
            "            written with each measure".to_owned(),
            "Enter or +  skip, or keep".to_owned(),
            "b or -      back, to correct".to_owned(),
            "n           next row".to_owned(),
            "j K1 12     jump; j 12, j K1, /12".to_owned(),
            "q           quit; go on any time".to_owned(),
        ];
        Reply { say: say.to_vec(), ..Reply::default() }
    }

    /// Leaves the hole as it is and goes on.
    fn pass(&mut self) -> Reply {
        let next = match self.at {
            Some(at) => self.open_after(at),
            None => self.first_open(),
        };
        let skipped = self.at.filter(|at| self.is_open(at));
        self.at = next;
        skipped.map_or_else(Reply::default, |at| Reply::says(format!("{} skipped.", self.name(at))))
    }

    fn back(&mut self) -> Reply {
        match self.before(self.at) {
            Some(before) => {
                self.at = Some(before);
                Reply::default()
            }
            None => Reply::says("This is the first hole."),
        }
    }

    fn next_row(&mut self) -> Reply {
        let row = self.at.map_or(0, |(row, _)| row);
        self.at = self.open_after((row, self.count(row)));
        Reply::default()
    }

    /// To a hole of this row, to a row, or to a hole of a row. A row's name comes before a number.
    fn jump(&mut self, to: &str) -> Reply {
        if let Some(row) = self.row_named(to) {
            let first = self.open_after((row, 0)).filter(|(found, _)| *found == row);
            return self.go_to(first.unwrap_or((row, 1)));
        }
        match self.place(to) {
            Ok(spot) => self.go_to(spot),
            Err(why) => Reply::says(why),
        }
    }

    /// A hole of this row, or of a row that is named.
    fn place(&self, to: &str) -> Result<Spot, String> {
        let (row, number) = match to.rsplit_once(' ') {
            Some((name, number)) => (self.row_named(name.trim()), number),
            None => (self.at.or_else(|| self.before(None)).map(|(row, _)| row), to),
        };
        match (row, number.parse::<u32>()) {
            (Some(row), Ok(number)) if (1..=self.count(row)).contains(&number) => Ok((row, number)),
            (Some(row), Ok(_)) => {
                let name = self.row(row).map_or("", |row| row.row.name.as_str());
                Err(format!("Row {name} has holes 1 to {}.", self.count(row)))
            }
            _ => {
                let names: Vec<&str> = self.plan.rows.iter().map(|row| row.row.name.as_str()).collect();
                Err(format!("There is no such place. The rows are {}.", names.join(", ")))
            }
        }
    }

    fn row_named(&self, name: &str) -> Option<usize> {
        let mut rows = self.plan.rows.iter();
        let exact = rows.position(|row| row.row.name == name);
        exact.or_else(|| {
            let mut near = self.plan.rows.iter().enumerate().filter(|(_, row)| row.row.name.eq_ignore_ascii_case(name));
            near.next().filter(|_| near.next().is_none()).map(|(index, _)| index)
        })
    }

    fn go_to(&mut self, spot: Spot) -> Reply {
        match self.known.get(&spot) {
            Some(known) if known.is_in_job => Reply::says(format!(
                "{} is in the job file as {}; correct it there.",
                self.name(spot),
                self.found(&known.hole)
            )),
            _ => {
                self.at = Some(spot);
                Reply::default()
            }
        }
    }

    /// A measure of a hole; `typed` is the whole line that it came in.
    fn measure(&mut self, at: Spot, said: &str, typed: &str, is_sure: bool) -> Result<SurveyEntry, Reply> {
        let Typed { major, minor, damage, direction, opened, remark } = match parse(said, self.bare) {
            Ok(parsed) => parsed,
            Err(why) => {
                let meant = with_points(said);
                let is_slip = self.bare == Bare::Inches && meant != said && parse(&meant, self.bare).is_ok();
                if !is_slip {
                    return Err(Reply::says(format!("Not taken: {why}.")));
                }
                self.asked = Some(Asked::Meant(typed.replace(said, &meant)));
                return Err(Reply::says(format!("Not taken. Did you mean {meant}? y takes it.")));
            }
        };
        let known = self.known.get(&at);
        let opened = match opened {
            Opened::To(drill) => Some(drill),
            Opened::AsSaid => match known.and_then(|known| known.cut) {
                Some(drill) => Some(drill),
                None => return Err(Reply::says("Not taken: opened with which drill? Right would be o #27.")),
            },
            // A hole that was opened stays opened, however often it is measured.
            Opened::NotSaid => known.and_then(|known| known.hole.opened),
            Opened::Not => None,
        };
        let direction = direction.or_else(|| known.and_then(|known| known.hole.as_found.direction()));
        let as_found = match AsFound::of(major, minor, damage) {
            Ok(found) => found.lying(direction).opened(opened.is_some()),
            Err(error) => return Err(Reply::says(format!("Not taken: {error}."))),
        };
        let shank = self.row(at.0).map_or(Length::ZERO, |row| row.choice.part.size().shank_nominal);
        let is_far = |one: Length, other: Length| one.checked_mul(FAR).is_some_and(|far| far <= other);
        let far = is_far(shank, major) || is_far(as_found.minor(), shank);
        if far && !is_sure {
            self.asked = Some(Asked::Sure(typed.to_owned()));
            return Err(Reply::says(format!(
                "{} in a row of {} rivets? Type it once more if it is right.",
                self.units.length(if is_far(shank, major) { major } else { as_found.minor() }).named(),
                self.units.size(shank)
            )));
        }
        let hole = MeasuredHole { number: at.1, as_found, opened, before: None, remark, taken: self.taken.clone() }
            .after(known.map(|known| &known.hole));
        let line = self.line(at, minor, &hole);
        Ok(SurveyEntry { line, spot: at, hole: Some(hole), of_many: None, then: None })
    }

    fn line(&self, spot: Spot, minor: Option<Length>, hole: &MeasuredHole) -> String {
        let found = hole.as_found;
        let condition = if found.is_gauged() { GAUGED } else { found.damage().as_str() };
        let measured = [
            exact(found.major(), self.plan.job.bare),
            minor.map(|minor| exact(minor, self.plan.job.bare)).unwrap_or_default(),
            condition.to_owned(),
        ];
        let opened = hole.opened.map(|drill| drill.to_string()).unwrap_or_default();
        let direction = found.direction().map(Direction::as_str).unwrap_or_default();
        self.cells(spot, measured, [direction, &opened, &hole.remark])
    }

    /// The line for the file: major, minor and condition; then direction, drill and remark. Its last cell stands in quotes whatever is in it,
    /// so that no part of the line looks like a whole one.
    fn cells(&self, spot: Spot, measured: [String; 3], [direction, opened, remark]: [&str; 3]) -> String {
        let mut cells = vec![String::new(); self.width];
        for (index, text) in self.known.get(&spot).map(|known| known.others.as_slice()).unwrap_or_default() {
            if let Some(cell) = cells.get_mut(*index) {
                cell.clone_from(text);
            }
        }
        let row = self.row(spot.0).map_or("", |row| row.row.name.as_str());
        let [major, minor, condition] = measured;
        let values = [
            harmless(row).into_owned(),
            spot.1.to_string(),
            major,
            minor,
            condition,
            direction.to_owned(),
            opened.to_owned(),
            harmless(&self.taken.by).into_owned(),
            self.taken.date.map(|date| date.to_string()).unwrap_or_default(),
            harmless(&self.taken.gauge).into_owned(),
            harmless(remark).into_owned(),
        ];
        for (column, value) in self.columns.iter().zip(values) {
            if let Some(cell) = column.and_then(|index| cells.get_mut(index)) {
                *cell = value;
            }
        }
        let last = cells.pop().unwrap_or_default();
        let mut line: String = cells.iter().map(|cell| format!("{},", bare_or_in_quotes(cell))).collect();
        line.push_str(&in_quotes(&last));
        line.push_str(self.line_end);
        line
    }

    /// The line of an entry is on the disk: what to show, and on to the next hole.
    pub fn saved(&mut self, entry: SurveyEntry) -> Vec<String> {
        let SurveyEntry { spot, hole, of_many, then, .. } = entry;
        self.saved += 1;
        let mut say = Vec::new();
        let is_stepped = |survey: &Self| survey.known.get(&spot).is_some_and(|known| known.disposition.is_step_up());
        let was_stepped = is_stepped(self);
        match hole {
            Some(hole) => say.extend(self.saved_measure(spot, hole, of_many.is_some())),
            None => {
                self.corrected += 1;
                if let Some(known) = self.known.remove(&spot) {
                    say.push(format!(
                        "{} cleared. The earlier {} stays in the file.",
                        self.name(spot),
                        self.found(&known.hole)
                    ));
                }
            }
        }
        // What is kept bears on no limit of its pattern.
        if was_stepped || is_stepped(self) {
            say.extend(self.weigh(spot.0));
        }
        say.extend(of_many.filter(|told| !told.is_empty()));
        self.at = then.unwrap_or_else(|| self.open_after(spot));
        say
    }

    /// Of many holes only those are told of one by one that are not kept.
    fn saved_measure(&mut self, spot: Spot, hole: MeasuredHole, is_of_many: bool) -> Vec<String> {
        let hole = hole.after(self.measured(spot));
        let mut say = vec![format!("{} saved: {}", self.name(spot), self.found(&hole))];
        let looked = self.look(spot, &hole);
        if let Some(judged) = &looked.judged {
            if is_of_many && judged.disposition == Disposition::Keep {
                say.clear();
            }
            match looked.answered {
                _ if say.is_empty() => {}
                HoleAnswered::Ruled(answer) => say.push(format!("ANSWERED: {}", in_words(answer))),
                HoleAnswered::Open => say.extend(self.verdict(spot, hole.as_found, judged)),
                HoleAnswered::Lapsed(answer) => {
                    say.extend(self.verdict(spot, hole.as_found, judged));
                    let Answer { by, given_for, .. } = answer;
                    say.push(format!("The answer of {by} was for {}: it no longer counts.", given_for.text));
                }
            }
        }
        let earlier = self.known.get(&spot);
        if let Some(earlier) = earlier {
            say.push(format!("The earlier {} stays in the file.", self.found(&earlier.hole)));
        }
        self.corrected += u32::from(earlier.is_some());
        let others = earlier.map(|earlier| earlier.others.clone()).unwrap_or_default();
        self.know(spot, hole, &looked, others, false);
        say
    }
}

#[cfg(test)]
mod tests;
