//! What becomes of everything that was referred once somebody has answered.
//!
//! The finding stays as it is. An answer counts for it as long as it names its code and was given for the measure that it has now. A hole
//! gets its rivet from the last of its answers once all of its referrals are answered.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use shophead::answer::Ruling;
use shophead::drill::Drill;
use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::hole::AsFound;
use shophead::length::{Bare, Length};
use shophead::practice::Practice;
use shophead::words::Units;

use super::ruling::{Ruled, in_hole, opened_for};
use super::{Plan, RowPlan, Subject};
use crate::cell::exact;
use crate::model::{Answer, AnswerTo, GivenFor, Job, MeasuredHole};
use crate::read::GAUGED;

/// An answer, and whether it counts.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct AnswerPlan<'j> {
    /// The answer.
    pub answer: &'j Answer,
    /// What it is to.
    pub subject: Subject<'j>,
    /// Whether it counts.
    pub standing: Standing,
}

/// Whether an answer counts.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Standing {
    /// It does.
    Counts,
    /// It was given for another measure; this is the one now.
    OtherMeasure(String),
    /// None of its findings is there.
    NotFound,
    /// A later one to the same findings counts in its place.
    Replaced,
}

impl Standing {
    /// The word used in output.
    #[must_use]
    pub const fn as_str(&self) -> &'static str {
        match self {
            Standing::Counts => "counts",
            Standing::OtherMeasure(_) => "other-measure",
            Standing::NotFound => "not-found",
            Standing::Replaced => "replaced",
        }
    }
}

/// What was answered about a hole, and how it is opened for it.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct HoleRuling<'j> {
    /// The answer.
    pub answer: &'j Answer,
    /// The drill or reamer to open the hole with; `None` when it stays as it is.
    pub cut: Option<Drill>,
}

/// Which answers count for which findings.
pub(super) type Answered<'j> = HashMap<(Subject<'j>, Code), &'j Answer>;

/// The measure of a referral, as an answer names it.
#[must_use]
pub fn measure_of(hole: Option<AsFound>, finding: &Finding, bare: Bare) -> String {
    match hole {
        Some(found) => measure_of_hole(found, bare),
        None => match finding.measured() {
            None => "none".to_owned(),
            Some(Figure::Length(length)) => exact(length, bare),
            Some(figure) => number_of(figure),
        },
    }
}

/// `0.171 0.161 gouged`.
fn measure_of_hole(found: AsFound, bare: Bare) -> String {
    let mut text = exact(found.major(), bare);
    if found.minor() != found.major() {
        text.push(' ');
        text.push_str(&exact(found.minor(), bare));
    }
    if found.damage() != shophead::hole::Damage::None {
        text.push(' ');
        text.push_str(found.damage().as_str());
    }
    if found.is_gauged() {
        text.push(' ');
        text.push_str(GAUGED);
    }
    text
}

/// A figure that is no length, to what can be told of it: a tenth of a pound, a thousandth.
fn number_of(figure: Figure) -> String {
    match figure {
        Figure::Count(count) => count.to_string(),
        Figure::Ratio(ratio) => format!("{ratio:.3}"),
        Figure::Force(force) => format!("{:.1}", force.lbf()),
        Figure::Stress(stress) => format!("{:.1}", stress.psi()),
        Figure::Facts(facts) => facts.to_string(),
        Figure::Key(key) => key.to_string(),
        Figure::Length(length) => length.to_string(),
        other => other.shown(Units::Inches).to_string(),
    }
}

/// Whether an answer was given for the measure that a referral has now.
fn is_given_for(given: &GivenFor, hole: Option<AsFound>, finding: &Finding, bare: Bare) -> bool {
    if let Some(found) = hole {
        return given.hole.is_some_and(|given| given.measures_as(&found));
    }
    match finding.measured() {
        None => given.text == "none",
        Some(Figure::Length(length)) => Length::parse_as(&given.text, bare) == Ok(length),
        Some(figure) => {
            let now = number_of(figure);
            let number = |text: &str| text.parse::<f64>().ok();
            given.text == now || number(&given.text).is_some_and(|given| Some(given) == number(&now))
        }
    }
}

fn subject<'j>(job: &'j Job, to: &'j AnswerTo) -> Option<Subject<'j>> {
    Some(match to {
        AnswerTo::Job => Subject::Job,
        AnswerTo::Row(row) => Subject::Row(&job.rows.get(*row)?.name),
        AnswerTo::Hole(row, number) => Subject::Hole(&job.rows.get(*row)?.name, *number),
        AnswerTo::Edge(edge) => Subject::Edge(&job.edges.get(*edge)?.name),
        AnswerTo::Damage(damage) => {
            Subject::Damage(u32::try_from(damage + 1).ok()?, job.damage.get(*damage)?.place.as_str())
        }
        AnswerTo::Pattern(pattern) => Subject::Pattern(pattern),
    })
}

/// Finds out which answers count, and gives rows and holes what they say.
pub(super) fn settle<'j>(plan: &mut Plan<'j>, practice: &'j Practice<'j>) {
    let job = plan.job;
    for row in &mut plan.rows {
        row.referred = row.findings.iter().any(|finding| finding.severity() == Severity::Refer);
    }
    if job.answers.is_empty() {
        return;
    }
    let mut referred: HashMap<Subject<'j>, Vec<Finding>> = HashMap::new();
    for (subject, finding) in plan.stops() {
        referred.entry(subject).or_default().push(*finding);
    }
    let mut last: HashMap<(Subject<'j>, Code), usize> = HashMap::new();
    for answer in &job.answers {
        let Some(subject) = subject(job, &answer.to) else { continue };
        let hole = plan.found(subject);
        let is_opened = plan.is_opened_for(subject, answer);
        let to: Vec<&Finding> = referred
            .get(&subject)
            .into_iter()
            .flatten()
            .filter(|finding| answer.findings.contains(&finding.code()))
            .collect();
        let standing = match to.iter().find(|finding| !is_given_for(&answer.given_for, hole, finding, job.bare)) {
            _ if to.is_empty() => Standing::NotFound,
            // Opened as it says, it is no other hole.
            _ if is_opened => Standing::Counts,
            Some(other) => Standing::OtherMeasure(measure_of(hole, other, job.bare)),
            None => Standing::Counts,
        };
        let index = plan.answers.len();
        if standing == Standing::Counts {
            for finding in to {
                if let Some(earlier) = last.insert((subject, finding.code()), index)
                    && let Some(earlier) = plan.answers.get_mut(earlier)
                {
                    earlier.standing = Standing::Replaced;
                }
            }
        }
        plan.answers.push(AnswerPlan { answer, subject, standing });
    }
    // An answer that another one took every finding from says nothing any more; one that it took a part from still counts for the rest.
    let counting: HashSet<usize> = last.values().copied().collect();
    for (index, answer) in plan.answers.iter_mut().enumerate() {
        if answer.standing == Standing::Replaced && counting.contains(&index) {
            answer.standing = Standing::Counts;
        }
    }
    let of = |index: &usize| plan.answers.get(*index).map(|plan| plan.answer);
    plan.answered = last.iter().filter_map(|(key, index)| Some((*key, of(index)?))).collect();
    let ruling = |subject: Subject<'j>, findings: &[Finding]| -> Option<&'j Answer> {
        let refers = findings.iter().filter(|finding| finding.severity() == Severity::Refer);
        let answers: Option<Vec<usize>> = refers.map(|finding| last.get(&(subject, finding.code())).copied()).collect();
        // The last one given rules.
        answers?.into_iter().max().and_then(|index| of(&index))
    };
    let rulings: Vec<(Option<&'j Answer>, Vec<Option<&'j Answer>>)> = plan
        .rows
        .iter()
        .map(|row| {
            let name = row.row.name.as_str();
            let holes = row.holes.iter().map(|hole| ruling(Subject::Hole(name, hole.number), &hole.findings));
            (ruling(Subject::Row(name), &row.findings), holes.collect())
        })
        .collect();
    for (row, (of_row, of_holes)) in plan.rows.iter_mut().zip(rulings) {
        row.referred &= of_row.is_none();
        rule_row(row, of_row, practice);
        rule_holes(row, of_holes, practice);
    }
}

/// A row goes by its answer: as it is, or with the rivet that is named.
fn rule_row<'j>(row: &mut RowPlan<'j>, answer: Option<&'j Answer>, practice: &'j Practice<'j>) {
    let Some(answer) = answer else { return };
    row.ruling = Some(answer);
    match answer.ruling {
        // The sheet comes first, or a rivet that is none of ours.
        Ruling::Repair | Ruling::Blind if answer.rivet.is_none() => row.waits = true,
        _ => {
            if let Some(ruled) = super::ruling::in_row(row, answer, practice) {
                row.findings.extend(ruled.findings);
                row.choice = ruled.choice;
            }
        }
    }
}

fn rule_holes<'j>(row: &mut RowPlan<'j>, answers: Vec<Option<&'j Answer>>, practice: &'j Practice<'j>) {
    let rulings: Vec<Option<(&'j Answer, Option<Ruled<'j>>)>> = row
        .holes
        .iter()
        .zip(answers)
        .map(|(hole, answer)| answer.map(|answer| (answer, in_hole(row, hole, answer, practice))))
        .collect();
    for (hole, ruling) in row.holes.iter_mut().zip(rulings) {
        let Some((answer, ruled)) = ruling else { continue };
        hole.ruling = Some(HoleRuling { answer, cut: ruled.as_ref().and_then(|ruled| ruled.cut) });
        if let Some(ruled) = ruled {
            for finding in ruled.findings {
                if !hole.findings.contains(&finding) {
                    hole.findings.push(finding);
                }
            }
            hole.choice = Some(Arc::new(ruled.choice));
        }
    }
}

impl<'j> Plan<'j> {
    /// How a hole was measured; nothing for what is no hole, or was not measured.
    #[must_use]
    pub fn found(&self, subject: Subject<'_>) -> Option<AsFound> {
        let Subject::Hole(row, number) = subject else { return None };
        let row = self.rows.iter().find(|plan| plan.row.name == row)?;
        Some(row.hole(number)?.measured?.as_found)
    }

    /// Whether a hole was opened as an answer says, which was given for the hole as it was before.
    fn is_opened_for(&self, subject: Subject<'_>, answer: &'j Answer) -> bool {
        let Subject::Hole(row, number) = subject else { return false };
        let row = self.rows.iter().find(|plan| plan.row.name == row);
        let hole = row.and_then(|row| row.hole(number)?.measured);
        row.zip(hole).is_some_and(|(row, hole)| opened_for(row, hole, answer, self.practice).is_some())
    }

    /// The answer that counts for a referral.
    #[must_use]
    pub fn answer_to(&self, subject: Subject<'j>, finding: &Finding) -> Option<&'j Answer> {
        if finding.severity() != Severity::Refer || self.answered.is_empty() {
            return None;
        }
        self.answered.get(&(subject, finding.code())).copied()
    }

    /// What still stops the work: every referral that nobody has answered.
    pub fn open_stops(&self) -> impl Iterator<Item = (Subject<'j>, &Finding)> {
        self.stops().filter(|(subject, finding)| self.answer_to(*subject, finding).is_none())
    }
}

/// What somebody answered about a hole as it was measured last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HoleAnswered<'j> {
    /// Every referral is answered; the last answer rules.
    Ruled(&'j Answer),
    /// Somebody has answered, but for another measure or another finding.
    Lapsed(&'j Answer),
    /// Nobody has, or not all of it.
    Open,
}

/// The same of a hole that is not in the plan: what was answered about one of this row that was measured so.
#[must_use]
pub fn hole_answered<'j>(plan: &Plan<'j>, row: usize, hole: &MeasuredHole, findings: &[Finding]) -> HoleAnswered<'j> {
    let job = plan.job;
    let to = AnswerTo::Hole(row, hole.number);
    let of_hole = || job.answers.iter().enumerate().filter(|(_, answer)| answer.to == to);
    let is_opened = |answer: &'j Answer| {
        plan.rows.get(row).is_some_and(|row| opened_for(row, hole, answer, plan.practice).is_some())
    };
    let is_given_to = |answer: &'j Answer| {
        answer.given_for.hole.is_some_and(|given| given.measures_as(&hole.as_found)) || is_opened(answer)
    };
    let counts = |finding: &Finding| {
        let mut to_it = of_hole().filter(|(_, answer)| answer.findings.contains(&finding.code()));
        to_it.rfind(|(_, answer)| is_given_to(answer))
    };
    let refers = findings.iter().filter(|finding| finding.severity() == Severity::Refer);
    let ruling: Option<Vec<(usize, &'j Answer)>> = refers.map(counts).collect();
    match (ruling.and_then(|answers| answers.into_iter().max_by_key(|(index, _)| *index)), of_hole().next_back()) {
        (Some((_, answer)), _) => HoleAnswered::Ruled(answer),
        (None, Some((_, answer))) if !is_given_to(answer) => HoleAnswered::Lapsed(answer),
        _ => HoleAnswered::Open,
    }
}

/// `open the hole for an oversize shank, by A. Example, concession 17, 2026-11-25`.
#[must_use]
pub fn in_words(answer: &Answer) -> String {
    let mut what = answer.ruling.meaning().trim_end_matches('.').to_owned();
    if let Some(part) = answer.rivet.map(|part| part.to_string()).or(answer.blind.clone()) {
        what.push_str(&format!(", {part}"));
    }
    if let Some(drill) = answer.drill {
        what.push_str(&format!(", drill {drill}"));
    }
    let note = if answer.note.is_empty() { String::new() } else { format!(" Note: {}", answer.note) };
    format!("{what}. {}, {}, {}.{note}", answer.by, answer.document, answer.date)
}
