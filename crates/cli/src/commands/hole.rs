//! `shophead hole`.

use serde_json::{Value, json};
use shophead::finding::Severity;
use shophead::hole::{AsFound, HoleJudgement, HoleQuery};
use shophead::layout::RowLayout;
use shophead::rivet::part::Part;
use shophead::select::check_alloy;
use shophead_job::words;

use crate::args::{Format, HoleArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Block, Report, Told};
use crate::{input, json};

/// Everything that was asked and answered.
pub(crate) struct Answer<'a> {
    rivet: Part<'static>,
    found: AsFound,
    verdict: HoleJudgement<'a>,
}

impl<'a> cells::Answer<'a> for Answer<'a> {
    type Args = HoleArgs;
    const COMMAND: &'static str = "hole";

    fn of(args: &HoleArgs, context: &Context<'a>) -> Result<Answer<'a>, Stop> {
        let rivet = input::part("--rivet", &args.rivet)?.without_length();
        let major = input::hole_diameter("--major", &args.major, context.bare)?;
        let minor = match &args.minor {
            Some(minor) => input::hole_diameter("--minor", minor, context.bare)?,
            None => major,
        };
        let damage = input::word("--damage", &args.damage)?;
        let member = input::word("--member", &args.member)?;
        let found = AsFound::new(major, minor, damage)
            .map_err(|error| input::wrong("--minor", args.minor.as_deref().unwrap_or_default(), error))?;
        let layout = RowLayout {
            edge: input::optional_length("--edge", args.edge.as_deref(), context.bare)?,
            pitch: input::optional_length("--pitch", args.pitch.as_deref(), context.bare)?,
            transverse_pitch: None,
        };
        let stack =
            args.layers.as_deref().map(|text| input::layers("--layers", text, None, context.bare)).transpose()?;
        let practice = context.practice;
        let query = HoleQuery { rivet, stack: stack.as_ref(), layout, rows: args.rows, member, practice };
        Ok(Answer { rivet, found, verdict: query.judge(found) })
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        let chosen = self.verdict.chosen().and_then(|step| step.rivet);
        finds.all(&chosen.unwrap_or(self.rivet), &self.verdict.findings);
        if let Some(chosen) = chosen {
            finds.all(&chosen, &check_alloy(&chosen));
        }
    }

    fn cells(&self, cells: &mut impl Cells) {
        let verdict = &self.verdict;
        let chosen = verdict.chosen();
        let hole = chosen.and_then(|step| step.hole);
        cells.text("disposition", verdict.disposition);
        cells.optional("rivet", chosen.and_then(|step| step.rivet)).optional("drill", chosen.and_then(|step| step.cut));
        cells.length("hole_min", hole.map(|hole| hole.min)).length("hole_max", hole.map(|hole| hole.max));
        let steps: Vec<&str> = verdict.steps.iter().map(|step| step.kind.as_str()).collect();
        cells.text("steps_tried", steps.join(" "));
    }

    fn tell(&self, _: &HoleArgs, context: &Context<'a>, report: &mut Report<'a>) {
        if context.format == Format::Json {
            report.result = result(&self.verdict, context);
        }
        text(report, self.rivet, self.found, &self.verdict, context);
    }
}

/// Each step tried and why not.
pub(super) fn steps_json(verdict: &HoleJudgement<'_>, context: &Context<'_>) -> Value {
    verdict
        .steps
        .iter()
        .map(|step| {
            let subject = step.rivet.map_or_else(String::new, |rivet| rivet.to_string());
            json!({
                "step": step.kind.as_str(),
                "does": step.does(),
                "rivet": step.rivet.map(|rivet| rivet.to_string()),
                "drill": step.cut.map(|cut| cut.to_string()),
                "drill_diameter": json::or_null(step.cut, |cut| json::length(cut.diameter())),
                "hole": json::or_null(step.hole, json::interval),
                "findings": step.findings.iter()
                    .map(|finding| Told::of(&subject, finding, context).json())
                    .collect::<Vec<Value>>(),
            })
        })
        .collect()
}

fn result(verdict: &HoleJudgement<'_>, context: &Context<'_>) -> Value {
    let chosen = verdict.chosen();
    let cut = chosen.and_then(|step| step.cut);
    json!({
        "disposition": verdict.disposition.as_str(),
        "rivet": chosen.and_then(|step| step.rivet).map(|rivet| rivet.to_string()),
        "drill": cut.map(|cut| cut.to_string()),
        "drill_diameter": json::or_null(cut, |cut| json::length(cut.diameter())),
        "hole": json::or_null(chosen.and_then(|step| step.hole), json::interval),
        "steps": steps_json(verdict, context),
    })
}

fn text(report: &mut Report, rivet: Part<'_>, found: AsFound, verdict: &HoleJudgement<'_>, context: &Context<'_>) {
    let units = context.units;
    let words = words::phrase(verdict.disposition);
    let chosen = verdict.chosen();
    let what = chosen.and_then(|step| step.rivet).map_or_else(String::new, |rivet| format!("   {rivet}"));
    let cut = chosen.and_then(|step| step.cut).map_or_else(String::new, |cut| format!("   drill {}", cut.sized(units)));
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
    if let Some(hole) = chosen.and_then(|step| step.hole) {
        pairs.push(("hole in the end".to_owned(), units.limits(Some(hole.min), Some(hole.max)).to_string()));
    }
    report.text.push(Block::Pairs(pairs));
    if verdict.steps.is_empty() {
        return;
    }
    report.heading("Steps, the least change first");
    for step in &verdict.steps {
        let rivet = step.rivet.map_or_else(String::new, |rivet| format!("  {rivet}"));
        let cut = step.cut.map_or_else(String::new, |cut| format!("  drill {cut}"));
        let does = if step.does() { "yes" } else { "no" };
        // Cautions about the step that is taken are listed with the findings below.
        let why = step.findings.iter().filter(|finding| finding.severity() == Severity::Refer);
        let why = why.map(|finding| format!("{} [{}]", finding.reason(units), context.practice.cite(finding.basis())));
        report.text.push(Block::Entry(format!("{}: {does}{rivet}{cut}", step.kind), why.collect()));
    }
}
