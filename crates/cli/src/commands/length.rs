//! `shophead length`.

use shophead::basis::Basis;
use shophead::length::{Interval, Length, Toleranced};
use shophead::practice::{Case, Given, Name, Practice};
use shophead::rivet::HeadSize;
use shophead::rivet::part::Part;
use shophead::select::{Difference, LengthAnswer};
use shophead::upset::HeadLimits;
use shophead::words::Units;
use shophead::working;
use shophead_job::words;

use super::memory_mark;
use crate::args::{Format, LengthArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Report, Table};
use crate::{form, input};

/// Everything that was asked and answered.
pub(crate) struct Answer<'a> {
    facts: Facts,
    alloy_assumed: bool,
    grip: Toleranced,
    case: Case,
    hole: Given<Toleranced>,
    found: LengthAnswer<'a>,
}

impl<'a> cells::Answer<'a> for Answer<'a> {
    type Args = LengthArgs;
    const COMMAND: &'static str = "length";

    fn ask<R>(args: &LengthArgs, context: &Context<'a>, then: impl FnOnce(&Answer<'a>) -> R) -> Result<R, Stop> {
        let bare = context.bare;
        let input::Rivet { part: family, alloy_assumed } = input::Rivet::of(&args.rivet, bare)?;
        let tolerance =
            args.tolerance.as_deref().map(|text| input::tolerance("--tolerance", text, bare)).transpose()?;
        let stack = input::layers("--layers", &args.layers, tolerance, bare, context.practice)?;
        // Filled in where it stands: it is kilobytes.
        let mut answer = Answer {
            facts: Facts::of_rivet(family),
            alloy_assumed,
            grip: stack.grip(),
            case: Case::for_part(&family),
            hole: Given { value: Toleranced::exactly(Length::ZERO), basis: Basis::NOT_GIVEN },
            found: LengthAnswer::nothing_yet(),
        };
        let Answer { facts, case, hole, found, .. } = &mut answer;
        facts.stack = Some(stack);
        facts.hole = args.hole.as_deref().map(|text| input::hole("--hole", text, bare)).transpose()?;
        facts.layout.edge = input::optional_length("--edge", args.edge.as_deref(), bare)?;
        facts.layout.pitch = input::optional_length("--pitch", args.pitch.as_deref(), bare)?;
        facts.put(&args.place, context)?;
        let question = facts.question(context.practice);
        (*case, *hole) = (question.case(), question.hole_or_drilled());
        question.length_into(found).map_err(Stop::wrong)?;
        Ok(then(&answer))
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        finds.all(&self.facts.rivet, &self.found.findings);
    }

    fn cells(&self, cells: &mut impl Cells) {
        let Answer { grip, hole, found, .. } = self;
        cells.parts_in("part", self.facts.rivet, found.length).length("length", found.length);
        cells.length("grip_min", grip.min()).length("grip", grip.nominal()).length("grip_max", grip.max());
        cells.length("hole_min", hole.value.min()).length("hole_max", hole.value.max());
        cells.length("rule_of_thumb_length", found.rule_of_thumb_length);
        cells.length("protrusion_min", found.protrusion.map(|ends| ends.min()));
        cells.length("protrusion_max", found.protrusion.map(|ends| ends.max()));
        cells.length("head_diameter_min", found.head.map(|head| head.diameter.min));
        cells.length("head_diameter_max", found.head.map(|head| head.diameter.max));
        cells.length("head_height", found.head.map(|head| head.height));
        cells.length("window_height_min", found.window.map(|window| window.height.min()));
        cells.length("window_height_max", found.window.map(|window| window.height.max()));
        cells.length("window_diameter_min", found.window.map(|window| window.diameter_least));
        cells.parts_in("also_good", self.facts.rivet, found.also_good());
        cells.parts("by_hole", found.by_hole().filter_map(|range| range.part));
    }

    fn case(&self) -> &Case {
        &self.case
    }

    fn tell(&self, args: &LengthArgs, context: &Context<'a>, report: &mut Report<'a>) {
        let assumed = Assumed {
            practice: context.practice,
            family: &self.facts.rivet,
            case: &self.case,
            hole: self.hole,
            length: self.found.length,
            alloy_assumed: self.alloy_assumed,
            args,
        };
        if context.format == Format::Json {
            report.give(form(&self.found, self.grip, &assumed));
        } else {
            text(report, &self.found, self.grip, &assumed, context);
        }
        let question = self.facts.question(context.practice);
        report.work(context, |work| working::length::of(&question, &self.found, work));
    }
}

/// Everything that the choice rests on.
struct Assumed<'q, 'a> {
    practice: &'a Practice<'a>,
    family: &'q Part<'a>,
    case: &'q Case,
    hole: Given<Toleranced>,
    length: Option<Length>,
    alloy_assumed: bool,
    args: &'q LengthArgs,
}

impl<'a> Assumed<'_, 'a> {
    fn shank(&self) -> Option<Interval> {
        self.practice.rivet(*self.family).size().shank
    }

    /// The head that the rivet's length counts.
    fn sunk_head(&self) -> Option<HeadSize> {
        self.practice.rivet(*self.family).head_counted().filter(|_| self.family.series().head.is_flush())
    }

    /// The rivet's length at the ends of its tolerance.
    fn length_ends(&self) -> Option<(Interval, Option<Basis>)> {
        let length = self.length?;
        let tolerance = self.practice.length_tolerance(self.family.series());
        let either_way = tolerance.map_or(Length::ZERO, |tolerance| tolerance.either_way);
        let ends = Interval::of(length.checked_sub(either_way)?, length.checked_add(either_way)?);
        Some((ends, tolerance.map(|tolerance| tolerance.basis)))
    }

    /// Every limit of the choice.
    fn limits(&self) -> Vec<(&'static str, Given<Length>)> {
        let practice = self.practice;
        let limits = HeadLimits::of(practice, self.case);
        [
            ("least head diameter", limits.diameter_least),
            ("least head height", limits.height_least),
            ("greatest head diameter", limits.diameter_greatest),
            ("greatest height to leave", limits.height_greatest),
            ("height of the greatest head", limits.metal_height_greatest),
            ("head height to aim at", limits.height_target),
            ("longest tail", practice.length(Name::TailGreatest, self.case)),
            ("tail of the rule of thumb", practice.length(Name::RuleOfThumbTail, self.case)),
        ]
        .into_iter()
        .filter_map(|(words, given)| given.map(|given| (words, given)))
        .collect()
    }

    fn form(&self) -> form::length::Assumed<'a> {
        let (practice, size) = (self.practice, self.practice.rivet(*self.family).size());
        let with_basis = |ends, basis| form::BasedInterval::of(ends, basis, practice);
        let hole = Given { value: self.hole.value.interval(), basis: self.hole.basis };
        let limits = HeadLimits::of(practice, self.case);
        let given = |known: Option<Given<Length>>| known.map(|known| form::GivenLength::of(known, practice));
        let own = |name| given(practice.length(name, self.case));
        form::length::Assumed {
            series: self.family.series().name,
            alloy: self.family.material().code,
            alloy_given: !self.alloy_assumed,
            shank: self.shank().map(|shank| with_basis(shank, Some(size.basis))),
            hole: form::length::AssumedHole {
                hole: form::GivenInterval::of(hole, practice),
                measured: self.args.hole.is_some(),
            },
            length: self.length_ends().map(|(ends, basis)| with_basis(ends, basis)),
            sunk_head: self.sunk_head().map(|head| {
                with_basis(head.height.unwrap_or(Interval::exactly(head.height_nominal)), Some(head.basis))
            }),
            limits: form::length::Limits {
                driven_head_diameter_least: given(limits.diameter_least),
                driven_head_height_least: given(limits.height_least),
                driven_head_diameter_greatest: given(limits.diameter_greatest),
                driven_head_height_greatest: given(limits.height_greatest),
                metal_height_greatest: given(limits.metal_height_greatest),
                driven_head_height_target: given(limits.height_target),
                tail_greatest: own(Name::TailGreatest),
                rule_of_thumb_tail: own(Name::RuleOfThumbTail),
            },
        }
    }

    fn table(&self, context: &Context<'_>) -> Table {
        let cited = |basis: Basis| context.practice.cite(basis).to_string();
        let units = context.units;
        let mut rows = Vec::new();
        let mut row = |what: &str, figure: String, basis: String| rows.push(vec![what.to_owned(), figure, basis]);
        let size = self.practice.rivet(*self.family).size();
        if let Some(shank) = self.shank() {
            row("shank", units.interval(shank).to_string(), cited(size.basis));
        }
        row("hole", units.interval(self.hole.value.interval()).to_string(), cited(self.hole.basis));
        if let Some((ends, basis)) = self.length_ends() {
            row(
                "rivet length",
                units.interval(ends).to_string(),
                basis.map_or_else(|| "no tolerance known".to_owned(), cited),
            );
        }
        if let Some(head) = self.sunk_head() {
            let height = head.height.unwrap_or(Interval::exactly(head.height_nominal));
            row("flush head", units.interval(height).to_string(), cited(head.basis));
        }
        for (what, given) in self.limits() {
            row(what, units.length(given.value).to_string(), cited(given.basis));
        }
        Table { columns: vec!["assumed", "figure", "from"], rows }
    }
}

fn form<'a>(found: &LengthAnswer<'_>, grip: Toleranced, assumed: &Assumed<'_, 'a>) -> form::length::Answer<'a> {
    form::length::Answer {
        rivet: assumed.family.to_string(),
        part: found.part.map(|part| part.to_string()),
        length: found.length.map(form::Length::from),
        grip: grip.into(),
        protrusion: found.protrusion.map(form::Interval::from),
        rule_of_thumb: Some(found.rule_of_thumb.into()),
        rule_of_thumb_length: Some(found.rule_of_thumb_length.into()),
        difference: found.difference.map(Difference::meaning),
        usable: found.usable.map(|usable| form::Usable::of(usable, assumed.practice)),
        fill: found.fill.map(form::Length::from),
        head: found.head.map(form::DrivenHead::from),
        assumed: assumed.form(),
        lengths: form::Lengths::of(Some(found)),
    }
}

fn text(
    report: &mut Report,
    found: &LengthAnswer<'_>,
    grip: Toleranced,
    assumed: &Assumed<'_, '_>,
    context: &Context<'_>,
) {
    let (units, family) = (context.units, assumed.family);
    match (found.part, found.length) {
        (Some(part), Some(length)) => report.answer(format!("{part}   {} long", units.size(length))),
        _ if found.is_by_hole() => {
            report.answer(format!("{family}   length by the hole as measured"));
        }
        _ => report.answer(format!("{family}   no length can be given")),
    }
    let mut pairs = vec![("grip".to_owned(), with_ends(grip, context))];
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    for (holes, what) in words::by_hole(found, units) {
        pair(&holes.to_lowercase(), what);
    }
    pair("rule of thumb", rule_of_thumb(found, assumed, context));
    let others: Vec<String> = found.serves().map(|other| units.size(other.length).to_string()).collect();
    if !others.is_empty() {
        pair("also good", others.join(", "));
    }
    if let Some(window) = found.window {
        pair("drive to", window.shown(units).to_string());
    }
    if let Some(tail) = found.protrusion {
        pair("tail before driving", units.interval(tail).about().to_string());
    }
    if let Some(fill) = found.fill {
        pair("filling the hole", format!("takes {} of the tail", units.length(fill).about()));
    }
    if let Some(usable) = found.usable.filter(|usable| usable.shortest.value <= usable.longest.value) {
        let (shortest, longest) = (usable.shortest, usable.longest);
        let mark = memory_mark(shortest.basis.weaker(longest.basis));
        let lengths = units.limits(Some(shortest.value), Some(longest.value)).about();
        pair("good lengths", format!("{lengths}{mark}"));
    }
    report.text.push(Block::Pairs(pairs));
    if let Some(difference) = found.difference.filter(|_| found.length.is_some()) {
        report.paragraph(format!("Why not the rule of thumb: {}", difference.meaning()));
    }
    if let Some(nearest) = found.nearest() {
        report.paragraph(words::nearest(&nearest, units));
    }
    if !others.is_empty() {
        report.annex.push(Block::Heading("Also good".to_owned()));
        report.annex.push(Block::Table(others_table(found, units)));
    }
    report.annex.push(Block::Heading("What this rests on".to_owned()));
    if assumed.alloy_assumed {
        let alloy = family.alloy();
        let temper = alloy.temper_supplied().map_or_else(String::new, |temper| format!("-{temper}"));
        let alloy = format!("Alloy {}{temper} was assumed; give another with --alloy.", alloy.alloy());
        report.annex.push(Block::Paragraph(alloy));
    }
    let table = assumed.table(context);
    report.annex.push(Block::Table(table));
}

/// Every other length with the head that it makes.
fn others_table(found: &LengthAnswer<'_>, units: Units) -> Table {
    let mut rows = Vec::new();
    for other in found.serves() {
        let head = other.head.map_or_else(String::new, |head| {
            let ends = Interval::of(head.diameter.min, head.diameter.max);
            format!("{} wide, {} high", units.interval(ends).about(), units.length(head.height).about())
        });
        let window = other.window.map_or_else(String::new, |window| window.shown(units).to_string());
        rows.push(vec![units.size(other.length).to_string(), window, head]);
    }
    Table { columns: vec!["length", "drive to", "head it makes"], rows }
}

/// The rule before and after rounding, and whose it is where the practice prints none.
fn rule_of_thumb(found: &LengthAnswer<'_>, assumed: &Assumed<'_, '_>, context: &Context<'_>) -> String {
    let units = context.units;
    let rule = assumed.practice.length(Name::RuleOfThumbTail, assumed.case);
    let whose = rule.map_or_else(String::new, |rule| format!(" [{}]", context.practice.cite(rule.basis).document));
    format!("{}, rounded {}{whose}", units.length(found.rule_of_thumb).about(), units.size(found.rule_of_thumb_length))
}

/// `0.157 in (0.150 to 0.164)`.
fn with_ends(grip: Toleranced, context: &Context<'_>) -> String {
    let units = context.units;
    if grip.min() == grip.max() {
        return format!("{}, no tolerance given", units.length(grip.nominal()));
    }
    let (min, max) = (units.length(grip.min()), units.length(grip.max()));
    format!("{} ({min} to {max})", units.length(grip.nominal()))
}
