//! `shophead head`.

use shophead::finding::Findings;
use shophead::installation::Installation;
use shophead::length::{Interval, Length, Toleranced};
use shophead::practice::{Case, Given, Practice};
use shophead::rivet::part::Part;
use shophead::upset::{Defect, HeadJudgement, HeadLimits, MeasuredHead, PredictedHead, Window, Within, judge};
use shophead_job::words;

use crate::args::{Format, HeadArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Block, Report, Table};
use crate::{form, input};

/// Everything that was asked and answered.
pub(crate) struct Answer {
    family: Part<'static>,
    case: Case,
    limits: HeadLimits,
    measured: Option<MeasuredHead>,
    judged: Option<HeadJudgement>,
    predicted: Option<Predicted>,
    /// What was found with the prediction.
    found: Findings,
}

impl<'a> cells::Answer<'a> for Answer {
    type Args = HeadArgs;
    const COMMAND: &'static str = "head";

    fn ask<R>(args: &HeadArgs, context: &Context<'a>, then: impl FnOnce(&Answer) -> R) -> Result<R, Stop> {
        let input::Rivet { part: family, .. } = input::Rivet::of(&args.rivet, context.bare)?;
        let sized = context.practice.rivet(family);
        let case = Case::for_part(&sized);
        let limits = HeadLimits::of(context.practice, &case);
        let measured = measured(args, context)?;
        let judged = match measured {
            Some(measured) => Some(judge(measured, &defects(args, &sized, context)?, context.practice, &case)),
            None => None,
        };
        let mut found = Findings::new();
        let predicted = predicted(args, &family, &case, &mut found, context)?;
        Ok(then(&Answer { family, case, limits, measured, judged, predicted, found }))
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        if let Some(judged) = &self.judged {
            finds.all(&self.family, &judged.findings);
        }
        finds.all(&self.family, &self.found);
    }

    fn cells(&self, cells: &mut impl Cells) {
        let Answer { limits, judged, predicted, .. } = self;
        let value = |given: Option<Given<Length>>| given.map(|given| given.value);
        let predicted = predicted.as_ref();
        cells.parts("rivet", Some(self.family));
        cells.length("diameter_min", value(limits.diameter_least)).length("diameter", value(limits.diameter_target));
        cells.length("diameter_max", value(limits.diameter_greatest));
        cells.length("height_min", value(limits.height_least)).length("height", value(limits.height_target));
        cells.length("height_max", value(limits.height_greatest));
        let accepted = judged.as_ref().map(|judged| if judged.accepted { "true" } else { "false" });
        cells.words("accepted", accepted);
        cells.length("predicted_diameter_min", predicted.map(|made| made.head.diameter.min));
        cells.length("predicted_diameter_max", predicted.map(|made| made.head.diameter.max));
        cells.length("predicted_height", predicted.map(|made| made.head.height));
        let window = predicted.and_then(|made| made.window);
        cells.length("window_height_min", window.map(|window| window.height.min()));
        cells.length("window_height_max", window.map(|window| window.height.max()));
        cells.length("window_diameter_min", window.map(|window| window.diameter_least));
    }

    fn case(&self) -> &Case {
        &self.case
    }

    fn tell(&self, _: &HeadArgs, context: &Context<'a>, report: &mut Report<'a>) {
        let Answer { family, limits, measured, judged, predicted, .. } = self;
        if context.format == Format::Json {
            report.give(form(family, limits, judged.as_ref(), predicted.as_ref(), context.practice));
        } else {
            text(report, family, limits, *measured, judged.as_ref(), predicted.as_ref(), context);
        }
    }
}

fn measured(args: &HeadArgs, context: &Context<'_>) -> Result<Option<MeasuredHead>, Stop> {
    match (&args.measured_diameter, &args.measured_height) {
        (Some(diameter), Some(height)) => Ok(Some(MeasuredHead::new(
            input::measure("--measured-diameter", diameter, context.bare)?,
            input::measure("--measured-height", height, context.bare)?,
        ))),
        _ => Ok(None),
    }
}

fn defects(args: &HeadArgs, family: &Part<'_>, context: &Context<'_>) -> Result<Vec<Defect>, Stop> {
    let seen = &args.seen;
    let mut defects = Vec::new();
    if let Some(count) = seen.cracks {
        let innermost = input::optional_length("--crack-reach", seen.crack_reach.as_deref(), context.bare)?;
        defects.push(Defect::Cracks { count, innermost, meeting: seen.cracks_meet });
    }
    if let Some(depth) = input::optional_length("--tool-mark", seen.tool_mark.as_deref(), context.bare)? {
        // Where the head's height is not known no depth of mark is accepted.
        let head_height = family.size().head_height_nominal().unwrap_or(Length::ZERO);
        defects.push(Defect::ToolMark { depth, head_height });
    }
    if seen.head_cracked {
        let innermost = input::optional_length("--head-crack-reach", seen.head_crack_reach.as_deref(), context.bare)?;
        defects.push(Defect::ManufacturedCracks { innermost });
    }
    for (option, text, defect) in [
        ("--proud", &seen.proud, Defect::Proud as fn(Length) -> Defect),
        ("--low", &seen.low, Defect::Low),
        ("--shaved", &seen.shaved, Defect::Shaved),
        ("--flattened", &seen.flattened, Defect::Flattened),
        ("--sheets-apart-edge", &seen.sheets_apart_edge, Defect::SheetsApartAtEdge),
    ] {
        defects.extend(input::optional_length(option, text.as_deref(), context.bare)?.map(defect));
    }
    let feeler = input::optional_length("--gap-feeler", seen.gap_feeler.as_deref(), context.bare)?;
    if let Some((feeler, rim_percent)) = feeler.zip(seen.gap_rim) {
        defects.push(Defect::GapUnderDrivenHead { feeler, rim_percent });
    }
    if let Some(gap) = &seen.gap_driven {
        defects.push(gap_driven(gap, context)?);
    }
    if seen.sheets_apart {
        let feeler =
            input::optional_length("--sheets-apart-feeler", seen.sheets_apart_feeler.as_deref(), context.bare)?;
        defects.push(feeler.map_or(Defect::SheetsApart, Defect::SheetsApartBy));
    }
    for (is_seen, defect) in [
        (seen.gap, Defect::GapUnderHead),
        (seen.gap_manufactured, Defect::GapUnderManufacturedHead),
        (seen.buckled, Defect::BuckledShank),
        (seen.clinched, Defect::Clinched),
        (seen.tipped, Defect::Tipped),
        (seen.stepped, Defect::Stepped),
        (seen.loose, Defect::Loose),
        (seen.sheet_damaged, Defect::SheetDamaged),
        (seen.notched, Defect::NotchedShank),
    ] {
        if is_seen {
            defects.push(defect);
        }
    }
    Ok(defects)
}

/// `.002:30`: the feeler, and the share of the rim.
fn gap_driven(text: &str, context: &Context<'_>) -> Result<Defect, Stop> {
    const OPTION: &str = "--gap-driven";
    let wrong = || input::wrong(OPTION, text, "right would be .002:30, a feeler and a percentage of the rim");
    let (feeler, percent) = text.split_once(':').ok_or_else(wrong)?;
    let rim_percent = percent.trim().parse().ok().filter(|percent| *percent <= 100).ok_or_else(wrong)?;
    Ok(Defect::GapUnderDrivenHead { feeler: input::length(OPTION, feeler, context.bare)?, rim_percent })
}

/// A head that a rivet would make.
struct Predicted {
    length: Length,
    grip: Toleranced,
    hole: Toleranced,
    head: PredictedHead,
    window: Option<Window>,
    within: Option<Within>,
}

fn predicted<'a>(
    args: &HeadArgs,
    family: &Part<'static>,
    case: &Case,
    found: &mut Findings,
    context: &Context<'a>,
) -> Result<Option<Predicted>, Stop> {
    let (Some(length), Some(grip)) = (&args.length, &args.grip) else { return Ok(None) };
    let length = input::length("--length", length, context.bare)?;
    let grip = input::toleranced("--grip", grip, context.bare)?;
    let hole = match &args.hole {
        Some(hole) => input::hole("--hole", hole, context.bare)?,
        None => {
            let hole = context.practice.hole_for(case).ok_or_else(|| {
                let practice = context.practice.name();
                Stop::wrong(format_args!(
                    "the practice {practice} names no hole for {family}; give one, as in --hole #30"
                ))
            })?;
            Toleranced::from_least(hole.value)
        }
    };
    let question = Installation::through(*family, grip).by(context.practice).in_hole(hole);
    let assessed = question.assess(length).map_err(Stop::wrong)?;
    *found = assessed.findings;
    // What is not known of the rivet is among the findings.
    let (window, within) = (assessed.window, assessed.within);
    Ok(assessed.head.map(|head| Predicted { length, grip, hole, head, window, within }))
}

fn form<'a>(
    family: &Part<'_>,
    limits: &HeadLimits,
    judged: Option<&HeadJudgement>,
    predicted: Option<&Predicted>,
    practice: &Practice<'a>,
) -> form::head::Answer<'a> {
    let given = |known| form::GivenLength::of(known, practice);
    form::head::Answer {
        rivet: family.to_string(),
        diameter: form::head::HeadLimits {
            min: limits.diameter_least.map(given),
            nominal: limits.diameter_target.map(given),
            max: limits.diameter_greatest.map(given),
        },
        height: form::head::HeadLimits {
            min: limits.height_least.map(given),
            nominal: limits.height_target.map(given),
            max: limits.height_greatest.map(given),
        },
        accepted: judged.map(|judged| judged.accepted),
        predicted: predicted.map(|made| form::head::Predicted {
            length: made.length.into(),
            grip: made.grip.into(),
            hole: made.hole.interval().into(),
            diameter: made.head.diameter.into(),
            height: made.head.height.into(),
            window: made.window.map(form::Window::from),
            within: made.within.map(form::Within::from),
        }),
    }
}

fn text<'a>(
    report: &mut Report<'a>,
    family: &Part<'_>,
    limits: &HeadLimits,
    measured: Option<MeasuredHead>,
    judged: Option<&HeadJudgement>,
    predicted: Option<&Predicted>,
    context: &Context<'a>,
) {
    let units = context.units;
    match judged {
        Some(HeadJudgement { accepted: true, .. }) => report.answer(format!("{family}   head accepted")),
        Some(HeadJudgement { accepted: false, .. }) => report.answer(format!("{family}   head rejected")),
        None => {
            let aim = limits.diameter_target.zip(limits.height_target).map_or_else(String::new, |(wide, high)| {
                format!("   aim at {} wide, {} high", units.length(wide.value), units.length(high.value))
            });
            report.answer(format!("{family}{aim}"));
        }
    }
    if let Some(measured) = measured {
        report.text.push(Block::Pairs(vec![
            ("measured diameter".to_owned(), units.interval(measured.diameter).to_string()),
            ("measured height".to_owned(), units.interval(measured.height).to_string()),
        ]));
    }
    if let Some(made) = predicted {
        let rivet = format!("A rivet {} long through {}", units.size(made.length), units.length(made.grip.nominal()));
        let driven = match (made.window, made.within) {
            (Some(window), _) => format!("{rivet}: drive to {}.", window.shown(units)),
            (None, Some(Within { hole_greatest: None, shank_least: None, .. })) => {
                format!("{rivet}: too little metal for a driven head, in any hole.")
            }
            (None, Some(within)) => {
                format!(
                    "{rivet}: no one height is right for every rivet; there is one {}.",
                    words::within(&within, units)
                )
            }
            (None, None) => format!("{rivet}."),
        };
        let (height, spread) = (units.length(made.head.height).about(), made.head.diameter);
        let ends = units.interval(Interval::of(spread.min, spread.max)).about();
        let nominal = units.length(spread.nominal).about();
        report.paragraph(format!("{driven} At {height} high it comes to {nominal} wide ({ends})."));
    }
    report.annex.push(Block::Heading("Limits of the driven head".to_owned()));
    let mut rows = Vec::new();
    for (what, given) in [
        ("least diameter", limits.diameter_least),
        ("diameter to aim at", limits.diameter_target),
        ("greatest diameter", limits.diameter_greatest),
        ("least height", limits.height_least),
        ("height to aim at", limits.height_target),
        ("greatest height", limits.height_greatest),
    ] {
        rows.push(match given {
            Some(given) => {
                vec![
                    what.to_owned(),
                    units.length(given.value).to_string(),
                    context.practice.cite(given.basis).to_string(),
                ]
            }
            None => vec![what.to_owned(), "none given".to_owned(), String::new()],
        });
    }
    report.annex.push(Block::Table(Table { columns: vec!["limit", "figure", "from"], rows }));
}
