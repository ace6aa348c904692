//! `shophead hole`.

use shophead::finding::Severity;
use shophead::hole::{AsFound, Disposition};
use shophead::installation::{HoleAnswer, MAX_STEPS, Step};
use shophead::length::Length;
use shophead::practice::{Case, Practice};
use shophead::rivet::part::Part;
use shophead::working;
use shophead_job::words;

use crate::args::{Format, HoleArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Report, Told};
use crate::{form, input};

/// Everything that was asked and answered.
pub(crate) struct Answer<'a> {
    facts: Facts,
    case: Case,
    rivet: Part<'static>,
    found: AsFound,
    /// What it was opened to before it was measured.
    opened: Option<Length>,
    answer: HoleAnswer<'a>,
    /// The steps that were tried.
    tried: [Option<Disposition>; MAX_STEPS],
    /// Each of them whole, where the answer is more than cells.
    steps: Vec<Step<'a>>,
}

impl<'a> cells::Answer<'a> for Answer<'a> {
    type Args = HoleArgs;
    const COMMAND: &'static str = "hole";

    fn ask<R>(args: &HoleArgs, context: &Context<'a>, then: impl FnOnce(&Answer<'a>) -> R) -> Result<R, Stop> {
        let bare = context.bare;
        let rivet = input::part("--rivet", &args.rivet)?.without_length();
        let major = input::hole_diameter("--major", &args.major, bare)?;
        let minor = args.minor.as_ref().map(|minor| input::hole_diameter("--minor", minor, bare)).transpose()?;
        let damage = input::word("--damage", &args.damage)?;
        let direction = args.direction.as_ref().map(|word| input::word("--direction", word)).transpose()?;
        let opened = args.opened.as_ref().map(|size| input::hole_diameter("--opened", size, bare)).transpose()?;
        let found = AsFound::of(major, minor, damage)
            .map_err(|error| input::wrong("--minor", args.minor.as_deref().unwrap_or_default(), error))?
            .lying(direction)
            .opened(opened.is_some());
        let mut facts = Facts::of_rivet(rivet);
        if let Some(layers) = &args.layers {
            facts.stack = Some(input::layers("--layers", layers, None, bare, context.practice)?);
        }
        facts.layout.edge = input::optional_length("--edge", args.edge.as_deref(), bare)?;
        facts.layout.pitch = input::optional_length("--pitch", args.pitch.as_deref(), bare)?;
        facts.layout.transverse_pitch = input::optional_length("--row-spacing", args.row_spacing.as_deref(), bare)?;
        facts.rows = args.rows.into();
        facts.put(&args.place, context)?;
        let (mut tried, mut steps) = ([None; MAX_STEPS], Vec::new());
        let mut places = tried.iter_mut();
        let question = facts.question(context.practice);
        let answer = question.hole_step_by_step(found, &mut |step| {
            if let Some(place) = places.next() {
                *place = Some(step.kind);
            }
            if context.format != Format::Csv {
                steps.push(step.clone());
            }
        });
        let case = question.case();
        Ok(then(&Answer { facts, case, rivet, found, opened, answer, tried, steps }))
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        finds.all(&self.answer.rivet.unwrap_or(self.rivet), &self.answer.findings);
    }

    fn cells(&self, cells: &mut impl Cells) {
        let HoleAnswer { disposition, rivet, cut, hole, .. } = &self.answer;
        cells.words("disposition", [disposition.as_str()]);
        cells.parts("rivet", *rivet).optional("drill", *cut);
        cells.length("hole_min", hole.map(|hole| hole.min())).length("hole_max", hole.map(|hole| hole.max()));
        cells.words("steps_tried", self.tried.iter().flatten().map(|step| step.as_str()));
    }

    fn case(&self) -> &Case {
        &self.case
    }

    fn cases(&self, practice: &Practice<'_>, each: &mut dyn FnMut(Case)) {
        self.facts.question(practice).cases(each);
    }

    fn tell(&self, _: &HoleArgs, context: &Context<'a>, report: &mut Report<'a>) {
        if context.format == Format::Json {
            report.give(form(&self.answer, &self.steps, self.opened, context));
        } else {
            text(report, self, context);
        }
        let question = self.facts.question(context.practice);
        report.work(context, |work| working::hole::of(&question, self.found, &self.answer, work));
    }
}

/// Each step tried and why not.
pub(super) fn steps<'a>(steps: &[Step<'_>], context: &Context<'a>) -> Vec<form::HoleStep<'a>> {
    let step = |step: &Step<'_>| {
        let subject = step.rivet.map_or_else(String::new, |rivet| rivet.to_string());
        form::HoleStep {
            step: step.kind.into(),
            does: step.does(),
            rivet: step.rivet.map(|rivet| rivet.to_string()),
            drill: step.cut.map(|cut| cut.to_string()),
            drill_diameter: step.cut.map(|cut| cut.diameter().into()),
            hole: step.hole.map(form::Interval::from),
            findings: step.findings.iter().map(|finding| Told::of(&subject, finding, context).into_form()).collect(),
        }
    };
    steps.iter().map(step).collect()
}

fn form<'a>(
    answer: &HoleAnswer<'_>,
    tried: &[Step<'_>],
    opened: Option<Length>,
    context: &Context<'a>,
) -> form::hole::Answer<'a> {
    form::hole::Answer {
        opened: opened.map(form::Length::from),
        disposition: answer.disposition.into(),
        rivet: answer.rivet.map(|rivet| rivet.to_string()),
        drill: answer.cut.map(|cut| cut.to_string()),
        drill_diameter: answer.cut.map(|cut| cut.diameter().into()),
        hole: answer.hole.map(form::Interval::from),
        steps: steps(tried, context),
    }
}

fn text(report: &mut Report, answered: &Answer<'_>, context: &Context<'_>) {
    let Answer { rivet, found, opened, answer, steps, .. } = answered;
    let units = context.units;
    let words = words::becomes(answer.disposition, answer.cut);
    let what = answer.rivet.map_or_else(String::new, |rivet| format!("   {rivet}"));
    let cut = answer.cut.map_or_else(String::new, |cut| format!("   drill {}", cut.sized(units)));
    report.answer(format!("{words}{what}{cut}"));
    let mut pairs = vec![
        (
            "hole as found".to_owned(),
            if found.major() == found.minor() {
                units.length(found.major()).to_string()
            } else {
                format!("{} by {}", units.length(found.minor()).bare(), units.length(found.major()))
            },
        ),
        ("for".to_owned(), rivet.to_string()),
    ];
    if let Some(opened) = opened {
        pairs.insert(1, ("opened to".to_owned(), format!("{} before it was measured", units.length(*opened))));
    }
    if let Some(hole) = answer.hole {
        pairs.push(("hole in the end".to_owned(), units.limits(Some(hole.min()), Some(hole.max())).to_string()));
    }
    report.text.push(Block::Pairs(pairs));
    if steps.is_empty() {
        return;
    }
    report.heading("Steps, the least change first");
    for step in steps {
        let rivet = step.rivet.map_or_else(String::new, |rivet| format!("  {rivet}"));
        let cut = step.cut.map_or_else(String::new, |cut| format!("  drill {cut}"));
        let does = if step.does() { "yes" } else { "no" };
        // Cautions about the step that is taken are listed with the findings below.
        let why = step.findings.iter().filter(|finding| finding.severity() == Severity::Refer);
        let why = why.map(|finding| format!("{} [{}]", finding.reason(units), context.practice.cite(finding.basis())));
        report.text.push(Block::Entry(format!("{}: {does}{rivet}{cut}", step.kind), why.collect()));
    }
}
