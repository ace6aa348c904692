//! `shophead length`.

use serde_json::{Value, json};
use shophead::basis::Basis;
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::check_seat;
use shophead::length::{Interval, Length, Toleranced};
use shophead::practice::{Case, Given, Name, Practice};
use shophead::rivet::part::Part;
use shophead::select::{Difference, LengthChoice, LengthQuery, check_alloy, check_diameter};
use shophead::stack::Stack;
use shophead::upset::{FitError, HeadLimits};

use super::memory_mark;
use crate::args::{Format, LengthArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Block, Report, Table};
use crate::{input, json};

/// Everything that was asked and answered.
pub(crate) struct Answer<'a> {
    family: Part<'static>,
    alloy_assumed: bool,
    stack: Stack,
    grip: Toleranced,
    case: Case,
    hole: Given<Toleranced>,
    query: LengthQuery<'a>,
    /// `None` when the standard does not tell enough of the rivet.
    choice: Option<LengthChoice>,
}

impl Answer<'_> {
    /// A length of the series' own steps always makes a number; where it does not, the family alone is named.
    fn part(&self) -> Option<Part<'static>> {
        self.choice.as_ref()?.length.and_then(|length| self.family.with_length(length).ok())
    }
}

impl<'a> cells::Answer<'a> for Answer<'a> {
    type Args = LengthArgs;
    const COMMAND: &'static str = "length";

    fn of(args: &LengthArgs, context: &Context<'a>) -> Result<Answer<'a>, Stop> {
        let input::Rivet { part: family, alloy_assumed } = input::Rivet::of(&args.rivet, context.bare)?;
        let tolerance =
            args.tolerance.as_deref().map(|text| input::tolerance("--tolerance", text, context.bare)).transpose()?;
        let stack = input::layers("--layers", &args.layers, tolerance, context.bare)?;
        let case = Case::of(family.series().head, family.alloy(), family.size());
        let hole = hole(args, &case, context)?;
        let grip = stack.grip();
        let query = LengthQuery {
            series: family.series(),
            alloy: family.alloy(),
            size: family.size(),
            grip,
            hole: hole.value,
            practice: context.practice,
        };
        let choice = match query.choose() {
            Ok(choice) => Some(choice),
            // What is not known of the rivet is no mistake of whoever asks: the standard has to be opened.
            Err(FitError::ShankNotKnown | FitError::HeadNotKnown) => None,
            Err(error) => return Err(Stop::wrong(error)),
        };
        Ok(Answer { family, alloy_assumed, stack, grip, case, hole, query, choice })
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        let Answer { family, stack, case, query, choice, .. } = self;
        match choice {
            Some(choice) => finds.all(family, &choice.findings),
            None => finds.one(family, &Finding::new(Code::NoLimit, Severity::Refer, family.size().basis)),
        }
        if let Some(thickest) = stack.thickest() {
            finds.all(family, &check_diameter(case, thickest, query.practice));
        }
        if let Some(height) = family.size().head_height_nominal().filter(|_| family.series().head.is_flush()) {
            finds.all(family, &check_seat(stack, height, case, query.practice));
        }
        finds.all(family, &check_alloy(family));
    }

    fn cells(&self, cells: &mut impl Cells) {
        let Answer { grip, hole, choice, .. } = self;
        let choice = choice.as_ref();
        cells.optional("part", self.part()).length("length", choice.and_then(|choice| choice.length));
        cells.length("grip_min", grip.min()).length("grip", grip.nominal()).length("grip_max", grip.max());
        cells.length("hole_min", hole.value.min()).length("hole_max", hole.value.max());
        cells.length("rule_of_thumb_length", choice.map(|choice| choice.rule_of_thumb_length));
        let protrusion = choice.and_then(|choice| choice.protrusion);
        cells.length("protrusion_min", protrusion.map(|ends| ends.min));
        cells.length("protrusion_max", protrusion.map(|ends| ends.max));
        let head = choice.and_then(|choice| choice.head);
        cells.length("head_diameter_min", head.map(|head| head.diameter.min));
        cells.length("head_diameter_max", head.map(|head| head.diameter.max));
        cells.length("head_height", head.map(|head| head.height));
    }

    fn tell(&self, args: &LengthArgs, context: &Context<'a>, report: &mut Report<'a>) {
        let Answer { family, grip, choice, .. } = self;
        let length = choice.as_ref().and_then(|choice| choice.length);
        let part = self.part();
        let assumed = Assumed {
            query: &self.query,
            family,
            case: &self.case,
            hole: self.hole,
            length,
            alloy_assumed: self.alloy_assumed,
            args,
        };
        if context.format == Format::Json {
            report.result = result(family, part, *grip, choice.as_ref(), &assumed, context.practice);
        }
        text(report, family, part, *grip, choice.as_ref(), &assumed, context);
    }
}

/// The hole as measured, or as the practice has it.
fn hole<'a>(args: &LengthArgs, case: &Case, context: &Context<'a>) -> Result<Given<Toleranced>, Stop> {
    if let Some(text) = &args.hole {
        return Ok(Given { value: input::hole("--hole", text, context.bare)?, basis: Basis::AS_GIVEN });
    }
    let Given { value, basis } = context.practice.assumed_hole(case);
    Ok(Given { value: Toleranced::from_least(value), basis })
}

/// Everything that the choice rests on.
struct Assumed<'q, 'a> {
    query: &'q LengthQuery<'a>,
    family: &'q Part<'a>,
    case: &'q Case,
    hole: Given<Toleranced>,
    length: Option<Length>,
    alloy_assumed: bool,
    args: &'q LengthArgs,
}

impl Assumed<'_, '_> {
    fn shank(&self) -> Option<Interval> {
        self.family.size().shank
    }

    /// The rivet's length at the ends of its tolerance.
    fn length_ends(&self) -> Option<(Interval, Option<Basis>)> {
        let length = self.length?;
        let tolerance = self.family.series().length_tolerance.as_ref();
        let either_way = tolerance.map_or(Length::ZERO, |tolerance| tolerance.either_way);
        let ends = Interval { min: length.checked_sub(either_way)?, max: length.checked_add(either_way)? };
        Some((ends, tolerance.map(|tolerance| tolerance.basis)))
    }

    /// Every limit that the choice was held against.
    fn limits(&self) -> Vec<(&'static str, &'static str, Given<Length>)> {
        let practice = self.query.practice;
        let limits = HeadLimits::of(practice, self.case);
        [
            (Name::HeadDiameterLeast, "least head diameter", limits.diameter_least),
            (Name::HeadHeightLeast, "least head height", limits.height_least),
            (Name::HeadDiameterGreatest, "greatest head diameter", limits.diameter_greatest),
            (Name::HeadHeightGreatest, "greatest head height", limits.height_greatest),
            (Name::HeadHeightTarget, "head height to aim at", limits.height_target),
            (Name::TailGreatest, "longest tail", practice.length(Name::TailGreatest, self.case)),
            (Name::RuleOfThumbTail, "tail of the rule of thumb", practice.length(Name::RuleOfThumbTail, self.case)),
        ]
        .into_iter()
        .filter_map(|(name, words, given)| given.map(|given| (name.as_str(), words, given)))
        .collect()
    }

    fn json(&self, practice: &Practice<'_>) -> Value {
        let with_basis = |ends: Interval, basis: Option<Basis>| {
            let mut value = json::interval(ends);
            json::with(&mut value, "basis", json::or_null(basis, |known| json::basis(known, practice)));
            value
        };
        let size = self.family.size();
        let mut hole = with_basis(self.hole.value.interval(), Some(self.hole.basis));
        json::with(&mut hole, "measured", self.args.hole.is_some().into());
        let limits = self.limits().into_iter().map(|(word, _, given)| (word.to_owned(), json::given(given, practice)));
        json!({
            "series": self.family.series().name,
            "alloy": self.family.material().code,
            "alloy_given": !self.alloy_assumed,
            "shank": json::or_null(self.shank(), |shank| with_basis(shank, Some(size.basis))),
            "hole": hole,
            "length": json::or_null(self.length_ends(), |(ends, basis)| with_basis(ends, basis)),
            "sunk_head": json::or_null(
                size.head.filter(|_| self.family.series().head.is_flush()),
                |head| with_basis(head.height.unwrap_or(Interval::exactly(head.height_nominal)), Some(size.basis)),
            ),
            "limits": limits.collect::<serde_json::Map<String, Value>>(),
        })
    }

    fn table(&self, context: &Context<'_>) -> Table {
        let cited = |basis: Basis| context.practice.cite(basis).to_string();
        let units = context.units;
        let mut rows = Vec::new();
        let mut row = |what: &str, figure: String, basis: String| rows.push(vec![what.to_owned(), figure, basis]);
        let size = self.family.size();
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
        if let Some(head) = size.head.filter(|_| self.family.series().head.is_flush()) {
            let height = head.height.unwrap_or(Interval::exactly(head.height_nominal));
            row("flush head", units.interval(height).to_string(), cited(size.basis));
        }
        for (_, what, given) in self.limits() {
            row(what, units.length(given.value).to_string(), cited(given.basis));
        }
        Table { columns: vec!["assumed", "figure", "from"], rows }
    }
}

fn result(
    family: &Part<'_>,
    part: Option<Part<'_>>,
    grip: Toleranced,
    choice: Option<&LengthChoice>,
    assumed: &Assumed<'_, '_>,
    practice: &Practice<'_>,
) -> Value {
    let usable = choice.and_then(|choice| choice.usable);
    json!({
        "rivet": family.to_string(),
        "part": part.map(|part| part.to_string()),
        "length": json::or_null(choice.and_then(|choice| choice.length), json::length),
        "grip": json::toleranced(grip),
        "protrusion": json::or_null(choice.and_then(|choice| choice.protrusion), json::interval),
        "rule_of_thumb": json::or_null(choice, |choice| json::length(choice.rule_of_thumb)),
        "rule_of_thumb_length": json::or_null(choice, |choice| json::length(choice.rule_of_thumb_length)),
        "difference": choice.and_then(|choice| choice.difference).map(Difference::meaning),
        "usable": json::or_null(usable, |usable| json!({
            "min": json::given(usable.shortest, practice),
            "max": json::given(usable.longest, practice),
        })),
        "fill": json::or_null(choice, |choice| json::length(choice.fill)),
        "head": json::or_null(choice.and_then(|choice| choice.head), |head| json!({
            "diameter": json::spread(head.diameter),
            "height": json::length(head.height),
        })),
        "assumed": assumed.json(practice),
    })
}

fn text(
    report: &mut Report,
    family: &Part<'_>,
    part: Option<Part<'_>>,
    grip: Toleranced,
    choice: Option<&LengthChoice>,
    assumed: &Assumed<'_, '_>,
    context: &Context<'_>,
) {
    let units = context.units;
    match (part, part.and_then(|part| part.length())) {
        (Some(part), Some(length)) => report.answer(format!("{part}   {} long", units.size(length))),
        _ => report.answer(format!("{family}   no length can be given")),
    }
    let mut pairs = vec![("grip".to_owned(), with_ends(grip, context))];
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    if let Some(choice) = choice {
        pair(
            "rule of thumb",
            format!(
                "{}, rounded {}",
                units.length(choice.rule_of_thumb).about(),
                units.size(choice.rule_of_thumb_length)
            ),
        );
        if let Some(usable) = choice.usable {
            let (shortest, longest) = (usable.shortest, usable.longest);
            let mark = memory_mark(shortest.basis.weaker(longest.basis));
            pair(
                "lengths that serve",
                if shortest.value <= longest.value {
                    format!("{}{mark}", units.limits(Some(shortest.value), Some(longest.value)))
                } else {
                    "none".to_owned()
                },
            );
        }
        pair("filling the hole", format!("takes {} of the tail", units.length(choice.fill).about()));
        if let Some(tail) = choice.protrusion {
            pair("tail before driving", units.interval(tail).about().to_string());
        }
        if let Some(head) = choice.head {
            let diameter = Interval { min: head.diameter.min, max: head.diameter.max };
            pair(
                "driven head",
                format!("{} wide when {} high", units.interval(diameter).about(), units.length(head.height)),
            );
        }
    }
    report.text.push(Block::Pairs(pairs));
    if let Some(difference) = choice.and_then(|choice| choice.difference) {
        report.paragraph(format!("Why not the rule of thumb: {}", difference.meaning()));
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

/// `0.157 in (0.150 to 0.164)`.
fn with_ends(grip: Toleranced, context: &Context<'_>) -> String {
    let units = context.units;
    if grip.min() == grip.max() {
        return format!("{}, no tolerance given", units.length(grip.nominal()));
    }
    let (min, max) = (units.length(grip.min()), units.length(grip.max()));
    format!("{} ({min} to {max})", units.length(grip.nominal()))
}
