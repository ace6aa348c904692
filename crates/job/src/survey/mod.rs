//! Measuring holes one after the other: what is typed goes in line by line, what is to be shown and written comes out.
//!
//! [`Survey`] knows nothing of terminals and files. It is given a line that somebody typed and answers with lines to show, and with a
//! line for the file where a measure was accepted; once that line is on the disk it is told so and goes on. What is on the disk and
//! what it takes for saved are therefore never apart.
//!
//! [`prepare`] makes an old file fit to go on with.

mod prepare;

use std::collections::HashMap;

pub use prepare::{HEADER, Prepared, prepare};
use shophead::drill::Drill;
use shophead::finding::{Finding, Severity};
use shophead::hole::{AsFound, Damage, Direction, Disposition};
use shophead::installation::HoleAnswer;
use shophead::length::{Bare, Length};

use crate::cell::{bare_or_in_quotes, exact, harmless, in_quotes};
use crate::diagnostic::is_unseen;
use crate::model::{Answer, MeasuredHole};
use crate::plan::{HoleAnswered, Plan, RowPlan, hole_answered, in_words};
use crate::read::{COLUMNS, HolesFile};
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

/// A measure further from the shank than this many times is taken for a slip of the keyboard until it is typed once more.
const FAR: i64 = 2;

/// A hole of the job: a row by its place, and a number in it.
pub type Spot = (usize, u32);

/// What is to be done after a line was typed.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Reply {
    /// Lines to show, in this order, before anything else.
    pub say: Vec<String>,
    /// A measure that was accepted: write its line, bring it to the disk, then call [`Survey::saved`].
    pub entry: Option<Entry>,
    /// The survey is over.
    pub is_over: bool,
}

impl Reply {
    fn says(line: impl Into<String>) -> Reply {
        Reply { say: vec![line.into()], ..Reply::default() }
    }
}

/// A measure that was accepted and is to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The line for the file, with its line end.
    pub line: String,
    spot: Spot,
    hole: MeasuredHole,
}

/// What is known of a hole.
#[derive(Clone, Debug)]
struct Known {
    hole: MeasuredHole,
    disposition: Disposition,
    /// The drill that it is to be opened with.
    cut: Option<Drill>,
    /// Cells of other columns, carried on by a correction.
    others: Vec<(usize, String)>,
    /// It stands in the job and not in this file, so it is not measured here.
    is_in_job: bool,
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
    /// A line that was refused as a slip; typed once more it is taken.
    doubted: Option<String>,
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
            doubted: None,
            saved: 0,
            corrected: 0,
        };
        for (index, row) in plan.rows.iter().enumerate() {
            for hole in &row.row.measured {
                survey.know((index, hole.number), hole.clone(), Vec::new(), true);
            }
        }
        for record in &file.records {
            let spot = (record.line.row, record.line.hole.number);
            survey.know(spot, record.line.hole.clone(), record.others.clone(), false);
        }
        let last = file.records.last().map(|record| (record.line.row, record.line.hole.number));
        survey.at = match last {
            Some(last) => survey.open_after(last).or_else(|| survey.first_open()),
            None => survey.first_open(),
        };
        survey
    }

    fn know(&mut self, spot: Spot, hole: MeasuredHole, others: Vec<(usize, String)>, is_in_job: bool) {
        let judged = self.judge(spot, hole.as_found);
        let mut disposition = judged.as_ref().map_or(Disposition::Refer, |judged| judged.disposition);
        let is_answered = judged
            .as_ref()
            .is_some_and(|judged| matches!(self.answered(spot, hole.as_found, judged), HoleAnswered::Ruled(_)));
        if disposition == Disposition::Refer && is_answered {
            disposition = Disposition::Keep;
        }
        let cut = judged.as_ref().and_then(|judged| judged.cut);
        self.known.insert(spot, Known { hole, disposition, cut, others, is_in_job });
    }

    fn judge(&self, spot: Spot, found: AsFound) -> Option<HoleAnswer<'j>> {
        let row = self.plan.rows.get(spot.0)?;
        Some(row.question(spot.1, self.plan.practice).hole(found))
    }

    /// What somebody has answered about a hole in which this was found.
    fn answered(&self, (row, number): Spot, found: AsFound, judged: &HoleAnswer<'_>) -> HoleAnswered<'j> {
        let findings: Vec<Finding> = judged.findings.iter().copied().collect();
        hole_answered(self.plan.job, row, number, found, &findings)
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
            format!("Type what you measure, in {}; ? helps.", self.unit_name()),
        ]
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
        let refer = self.known.iter().filter(|(_, known)| known.disposition == Disposition::Refer);
        let mut spots: Vec<Spot> = refer.map(|(spot, _)| *spot).collect();
        spots.sort_unstable();
        spots.into_iter().filter_map(|(row, number)| Some((self.row(row)?.row.name.as_str(), number))).collect()
    }

    /// What is found about a hole as it was measured last.
    #[must_use]
    pub fn answer(&self, row: &str, number: u32) -> Option<HoleAnswer<'j>> {
        let index = self.plan.rows.iter().position(|plan| plan.row.name == row)?;
        self.judge((index, number), self.measured((index, number))?.as_found)
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
        }
        if let Some(exception) = self.row(at.0).and_then(|row| row.exception(at.1))
            && !exception.about.is_empty()
        {
            say.push(format!("{}: {}.", self.name(at), exception.about));
        }
        if let Some(known) = self.known.get(&at) {
            say.push(format!("{} was {}. Enter keeps it.", self.name(at), self.found(&known.hole)));
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

    /// What is done about a hole, on one line.
    fn verdict(&self, judged: &HoleAnswer<'_>) -> String {
        let cut = judged.cut.map_or_else(String::new, |cut| format!(", drill {}", cut.sized(self.units)));
        let rivet = judged.rivet.map_or_else(String::new, |rivet| format!(" {rivet}"));
        match judged.disposition {
            Disposition::Refer => {
                let refer = judged.findings.iter().find(|finding| finding.severity() == Severity::Refer);
                let why = refer.map_or_else(String::new, |finding| finding.sentence(self.units).to_string());
                format!("REFER. {why}")
            }
            disposition => format!("{}:{rivet}{cut}", disposition.as_str().to_uppercase()),
        }
    }

    // What is typed.

    /// Takes a line that was typed, without its line end.
    pub fn hear(&mut self, typed: &str) -> Reply {
        let typed = typed.trim();
        let doubted = self.doubted.take();
        if let Some(c) = typed.chars().find(|c| is_unseen(*c) && *c != '\t') {
            return Reply::says(format!("Not taken: it has a hidden character, {}.", c.escape_unicode()));
        }
        let typed = typed.replace('\t', " ");
        match typed.chars().next() {
            None => self.pass(),
            Some(c) if c.is_ascii_digit() || matches!(c, '.' | '#' | ',') => self.measure(&typed, doubted.as_deref()),
            Some(_) => self.command(&typed),
        }
    }

    fn command(&mut self, typed: &str) -> Reply {
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
            ("?" | "h" | "help", true) => self.help(),
            _ => Reply::says("Not understood. A measure is .163 or .163 .160; ? helps."),
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
        let (row, number) = match to.rsplit_once(' ') {
            Some((name, number)) => (self.row_named(name.trim()), number),
            None => (self.at.map(|(row, _)| row), to),
        };
        match (row, number.parse::<u32>()) {
            (Some(row), Ok(number)) if (1..=self.count(row)).contains(&number) => self.go_to((row, number)),
            (Some(row), Ok(_)) => {
                let name = self.row(row).map_or("", |row| row.row.name.as_str());
                Reply::says(format!("Row {name} has holes 1 to {}.", self.count(row)))
            }
            _ => {
                let names: Vec<&str> = self.plan.rows.iter().map(|row| row.row.name.as_str()).collect();
                Reply::says(format!("There is no such place. The rows are {}.", names.join(", ")))
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

    fn measure(&mut self, typed: &str, doubted: Option<&str>) -> Reply {
        let Some(at) = self.at else {
            return Reply::says("There is no hole here: b goes back, j K1 12 jumps.");
        };
        let Typed { major, minor, damage, direction, opened, remark } = match self.parse(typed) {
            Ok(parsed) => parsed,
            Err(why) => return Reply::says(format!("Not taken: {why}.")),
        };
        let known = self.known.get(&at);
        let opened = match opened {
            Opened::To(drill) => Some(drill),
            Opened::AsSaid => match known.and_then(|known| known.cut) {
                Some(drill) => Some(drill),
                None => return Reply::says("Not taken: opened with which drill? Right would be o #27."),
            },
            // A hole that was opened stays opened, however often it is measured.
            Opened::NotSaid => known.and_then(|known| known.hole.opened),
            Opened::Not => None,
        };
        let direction = direction.or_else(|| known.and_then(|known| known.hole.as_found.direction()));
        let as_found = match AsFound::of(major, minor, damage) {
            Ok(found) => found.lying(direction).opened(opened.is_some()),
            Err(error) => return Reply::says(format!("Not taken: {error}.")),
        };
        let shank = self.row(at.0).map_or(Length::ZERO, |row| row.choice.part.size().shank_nominal);
        let is_far = |one: Length, other: Length| one.checked_mul(FAR).is_some_and(|far| far < other);
        let far = is_far(shank, major) || is_far(as_found.minor(), shank);
        if far && doubted != Some(typed) {
            self.doubted = Some(typed.to_owned());
            return Reply::says(format!(
                "{} in a row of {} rivets? Type it once more if it is right.",
                self.units.length(if is_far(shank, major) { major } else { as_found.minor() }).named(),
                self.units.size(shank)
            ));
        }
        let hole = MeasuredHole { number: at.1, as_found, opened, remark };
        let line = self.line(at, minor, &hole);
        Reply { entry: Some(Entry { line, spot: at, hole }), ..Reply::default() }
    }

    /// `MAJOR [MINOR] [DAMAGE] [DIRECTION] [o DRILL] [REMARK]`.
    fn parse(&self, typed: &str) -> Result<Typed, String> {
        let spaced = typed.replacen('*', " ", 1);
        let mut words = spaced.split_whitespace().peekable();
        let axis = |words: &mut std::iter::Peekable<std::str::SplitWhitespace<'_>>| {
            let begins = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '#' | ','));
            let Some(mut word) = words.next_if(begins).map(str::to_owned) else { return Ok(None) };
            if let Some(unit) = words.next_if(|word| matches!(*word, "mm" | "in")) {
                word.push_str(unit);
            }
            self.length(&word).map(Some)
        };
        let major = axis(&mut words)?.ok_or("a measure is missing")?;
        words.next_if(|word| word.eq_ignore_ascii_case("x"));
        let minor = axis(&mut words)?;
        // Whichever was measured first, the longest axis is the longest.
        let (major, minor) = match minor {
            Some(minor) if minor > major => (minor, Some(major)),
            minor => (major, minor),
        };
        let mut typed = Typed {
            major,
            minor,
            damage: Damage::None,
            direction: None,
            opened: Opened::NotSaid,
            remark: String::new(),
        };
        // Each once; the first word that is none of them begins the remark.
        let (mut has_damage, mut has_opened) = (false, false);
        while let Some(word) = words.peek() {
            let lower = word.to_ascii_lowercase();
            if let Some(damage) = damage_of(word).filter(|_| !has_damage) {
                (typed.damage, has_damage) = (damage, true);
            } else if let Some(direction) = direction_of(&lower).filter(|_| typed.direction.is_none()) {
                typed.direction = Some(direction);
            } else if matches!(lower.as_str(), "o" | "opened") && !has_opened {
                has_opened = true;
                words.next();
                typed.opened = match words.peek() {
                    Some(word) if *word == "-" => Opened::Not,
                    Some(word) if word.starts_with(|c: char| c == '#' || c.is_ascii_digit()) || word.len() == 1 => {
                        Opened::To(Drill::parse(word).map_err(|error| error.to_string())?)
                    }
                    _ => {
                        typed.opened = Opened::AsSaid;
                        continue;
                    }
                };
            } else {
                break;
            }
            words.next();
        }
        let remark: Vec<&str> = words.collect();
        let remark = remark.join(" ");
        remark.strip_prefix(':').unwrap_or(&remark).trim().clone_into(&mut typed.remark);
        Ok(typed)
    }

    fn length(&self, word: &str) -> Result<Length, String> {
        if word.starts_with('#') {
            return Drill::parse(word).map(Drill::diameter).map_err(|error| error.to_string());
        }
        Length::parse_as(word, self.bare).map_err(|error| error.to_string())
    }

    /// The line for the file. Its last cell stands in quotes whatever is in it, so that no part of the line looks like a whole one.
    fn line(&self, spot: Spot, minor: Option<Length>, hole: &MeasuredHole) -> String {
        let mut cells = vec![String::new(); self.width];
        for (index, text) in self.known.get(&spot).map(|known| known.others.as_slice()).unwrap_or_default() {
            if let Some(cell) = cells.get_mut(*index) {
                cell.clone_from(text);
            }
        }
        let row = self.row(spot.0).map_or("", |row| row.row.name.as_str());
        let values = [
            harmless(row).into_owned(),
            spot.1.to_string(),
            exact(hole.as_found.major(), self.plan.job.bare),
            minor.map(|minor| exact(minor, self.plan.job.bare)).unwrap_or_default(),
            hole.as_found.damage().as_str().to_owned(),
            hole.as_found.direction().map(Direction::as_str).unwrap_or_default().to_owned(),
            hole.opened.map(|drill| drill.to_string()).unwrap_or_default(),
            harmless(&hole.remark).into_owned(),
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
    pub fn saved(&mut self, entry: Entry) -> Vec<String> {
        let Entry { spot, hole, .. } = entry;
        let mut say = vec![format!("{} saved: {}", self.name(spot), self.found(&hole))];
        if let Some(judged) = self.judge(spot, hole.as_found) {
            let answered = match judged.disposition {
                Disposition::Refer => self.answered(spot, hole.as_found, &judged),
                _ => HoleAnswered::Open,
            };
            match answered {
                HoleAnswered::Ruled(answer) => say.push(format!("ANSWERED: {}", in_words(answer))),
                HoleAnswered::Open => say.push(self.verdict(&judged)),
                HoleAnswered::Lapsed(answer) => {
                    say.push(self.verdict(&judged));
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
        self.saved += 1;
        let others = earlier.map(|earlier| earlier.others.clone()).unwrap_or_default();
        self.know(spot, hole, others, false);
        self.at = self.open_after(spot);
        say
    }
}

/// A measure as it was typed.
struct Typed {
    major: Length,
    minor: Option<Length>,
    damage: Damage,
    direction: Option<Direction>,
    opened: Opened,
    remark: String,
}

/// What was typed about opening a hole.
enum Opened {
    /// Nothing.
    NotSaid,
    /// With the drill that was named when it was measured before.
    AsSaid,
    /// With this one.
    To(Drill),
    /// It was not opened after all.
    Not,
}

/// Which way the longest axis lies.
fn direction_of(word: &str) -> Option<Direction> {
    match word {
        "al" => Some(Direction::Along),
        "ac" => Some(Direction::Across),
        word => word.parse().ok(),
    }
}

/// What a letter or a word says is wrong.
fn damage_of(word: &str) -> Option<Damage> {
    let lower = word.to_ascii_lowercase();
    let mut chars = lower.chars();
    let letter = match (chars.next(), chars.next()) {
        (Some(letter), None) => LETTERS.iter().find(|(known, _)| *known == letter).map(|(_, damage)| *damage),
        _ => None,
    };
    letter.or_else(|| lower.parse().ok())
}

#[cfg(test)]
mod tests;
