//! `shophead repair rows`: what rows must be for a margin; shear with tension.

use shophead::basis::Basis;
use shophead::installation::Installation;
use shophead::joint::combined::{Carries, Combined, Interaction, Loads, combine};
use shophead::joint::margin::{Factors, Load};
use shophead::joint::strength::Allowable;
use shophead::length::{Length, Toleranced};
use shophead::practice::{Case, Name};
use shophead::quantity::Force;
use shophead::repair::in_row::{InRow, LaidRows};
use shophead::repair::solve::{SolveFor, Solved, Tried, Wanted, Why, solve, usual_pitch};
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::working;
use shophead_job::words::row_mode;

use super::answer::{CombinedAnswer, Repair, RowsAnswer, SolvedAnswer, TriedAnswer, Which};
use super::{strip, through};
use crate::commands::{edge, factors, load_kind, memory_mark, percent};
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::RowsArgs;
use crate::report::{Block, Record, Report};

const REPAIR: Which = Which::Rows;

/// What was asked of the rows, read.
pub(super) struct Asked {
    pub(super) rivet: Part<'static>,
    pub(super) stack: Stack,
    /// The width that the load is on.
    pub(super) across: Length,
    pub(super) load: Option<(Load, Factors)>,
    pub(super) edge: Length,
    pub(super) pitch: Length,
    pub(super) apart: Length,
}

impl Asked {
    fn of(args: &RowsArgs, context: &Context<'_>) -> Result<Asked, Stop> {
        let bare = context.bare;
        let rivet = input::part("--rivet", &args.rivet)?.without_length();
        let stack = input::layers("--sheets", &args.sheets, None, bare, context.practice)?;
        let case = Case::for_part(&context.practice.rivet(rivet)).in_rows(args.rows);
        let across = input::optional_length("--across", args.across.as_deref(), bare)?.unwrap_or(Length::INCH);
        let load = args.load.as_deref().map(|text| input::force("--load", text, bare)).transpose()?;
        let load = load.map(|force| (Load { force, kind: load_kind(&args.factors) }, factors(&args.factors)));
        let question = Installation::new(rivet, &stack).by(context.practice);
        let question = match input::optional_length("--edge", args.edge.as_deref(), bare)? {
            Some(edge) => question.edge(edge),
            None => question,
        };
        let edge = edge(&question, context)?.value;
        let limit = |name, option: &str| {
            context.practice.length(name, &case).map(|limit| limit.value).ok_or_else(|| {
                let practice = context.practice.name();
                Stop::wrong(format_args!(
                    "the practice {practice} has no limit for {rivet}; give {option}, as in {option} 1/2"
                ))
            })
        };
        let pitch = match input::optional_length("--pitch", args.pitch.as_deref(), bare)? {
            Some(pitch) => pitch,
            None => {
                let unknown = args.solve.as_deref().map(unknown).transpose()?;
                match usual_pitch(&rivet, args.rows, unknown, context.practice) {
                    Some(pitch) => pitch,
                    None => limit(Name::PitchLeast, "--pitch")?,
                }
            }
        };
        let apart = match input::optional_length("--row-spacing", args.row_spacing.as_deref(), bare)? {
            Some(apart) => apart,
            None => limit(Name::TransversePitchLeast, "--row-spacing")?,
        };
        Ok(Asked { rivet, stack, across, load, edge, pitch, apart })
    }

    /// The load on an inch of width.
    fn per_inch(&self) -> Option<(Load, Factors)> {
        let over = self.across.to_inches_f64();
        self.load.map(|(load, factors)| (Load { force: load.force * over.recip(), ..load }, factors))
    }

    /// The load, its factors, and the width that it is on.
    fn on_width(&self) -> Option<(Load, Factors, Length)> {
        self.load.map(|(load, factors)| (load, factors, self.across))
    }

    pub(super) fn rows<'s, 'a>(&'s self, args: &RowsArgs, context: &Context<'a>) -> LaidRows<'s, 'a> {
        LaidRows::new(self.rivet, &self.stack, self.edge, self.pitch)
            .rows(args.rows)
            .apart(self.apart)
            .staggered(args.staggered)
            .shear(args.shear.shear())
            .practice(context.practice)
    }
}

pub(super) fn run<'a>(args: &RowsArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let asked = Asked::of(args, context)?;
    let mut report = Report::new("repair", context);
    let mut answer = RowsAnswer::of_width(asked.across);
    if let Some(counts) = &args.counts {
        answer.strip = Some(strip::run(args, counts, &asked, &mut report, context)?);
    } else if let (Some(from), Some(to)) = (args.from_layer, args.to_layer) {
        answer.layers = through::run(args, &asked, (from, to), &mut report, context)?;
    } else if let Some(text) = &args.solve {
        answer.solved = Some(solved(text, args, &asked, &mut report, context)?);
    } else {
        let rows = asked.rows(args, context);
        let (tried, found) = Tried::asked(&rows, asked.per_inch()).map_err(Stop::wrong)?;
        let mut together = None;
        answer.combined = combined(args, &asked, &found, &mut report, context)?.map(|(answer, pulled)| {
            together = Some(pulled);
            answer
        });
        report.work(context, |work| {
            working::repair::of_tried(&rows, (&found, &tried), asked.on_width(), work);
            if let Some(Pulled { loads, factors, carries, combined }) = &together {
                let carries = (carries.shear, carries.tension);
                working::repair::of_combined((*loads, *factors), tried.rivets_per_inch, carries, combined, work);
            }
        });
        found_rows(&tried, &found, args, asked.per_inch(), &mut report, context);
        if let Some(combined) = &answer.combined {
            combined_text(combined, &mut report);
        }
        record(&tried, &mut report, context);
        answer.as_asked = Some(TriedAnswer::of(&tried));
    }
    report.give(Repair { repair: REPAIR, rows: Some(answer), ..Repair::default() });
    Ok(report)
}

/// The rows and everything that was found of them.
fn found_rows<'a>(
    tried: &Tried,
    found: &InRow,
    args: &RowsArgs,
    load: Option<(Load, Factors)>,
    report: &mut Report<'a>,
    context: &Context<'a>,
) {
    let subject = tried.rivet.to_string();
    report.find_all(context, &subject, &found.findings);
    report.find(context, &subject, &tried.margin.and_then(|margin| margin.negative()));
    let units = context.units;
    let in_a_row = if tried.rows == 1 { "1 row".to_owned() } else { format!("{} rows", tried.rows) };
    let answer = format!("{subject}   {in_a_row}, {} apart", units.size(tried.pitch));
    report.text.insert(0, Block::Answer(answer));
    let mut pairs = Vec::new();
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    match (tried.carries, tried.governing) {
        (Some(carries), Some(governing)) => {
            let sheet = governing.layer.map_or_else(String::new, |sheet| format!(", sheet {sheet}"));
            let mark = memory_mark(governing.per_inch.basis);
            pair("carry", format!("{}{mark}; then {}{sheet}", units.running_load(carries), row_mode(governing.mode)));
        }
        _ => pair("carry", "not published for this case".to_owned()),
    }
    if let Some(share) = tried.share {
        pair("keep", format!("{} of the weaker sheet", percent(share)));
    }
    if let (Some(margin), Some((load, _))) = (tried.margin, load) {
        let under = format!("{} {} load", units.running_load(load.force), load.kind.as_str());
        pair("margin", format!("{:+.2} under {under}", margin.value));
    }
    pair("edge", units.size(tried.edge).to_string());
    if tried.rows > 1 {
        let how = if args.staggered { "staggered" } else { "in line" };
        pair("rows", how.to_owned());
    }
    if let Some(gauge) = tried.gauge {
        pair("sheet", units.length(gauge).to_string());
    }
    pair("rivets", format!("{} an inch", units.ratio(tried.rivets_per_inch)));
    report.text.push(Block::Pairs(pairs));
}

/// One row for CSV.
fn record(tried: &Tried, report: &mut Report<'_>, context: &Context<'_>) {
    let mut record = Record::new(context.units);
    record.text("rivet", tried.rivet).text("rows", tried.rows);
    record.length("pitch", tried.pitch).length("edge", tried.edge).length("sheet", tried.gauge);
    record.optional("margin", tried.margin.map(|margin| margin.value)).optional("share", tried.share);
    record.force("carries_per_inch", tried.carries).findings(&report.findings);
    report.rows.push(record);
}

/// `gauge:1` and the other words.
fn unknown(text: &str) -> Result<SolveFor, Stop> {
    const RIGHT: &str =
        "this is nothing to look for; right would be pitch, rows, diameter, edge, gauge:1, least-rivets or best-share";
    if let Some(("gauge", layer)) = text.trim().split_once(':') {
        let layer = layer.trim().parse();
        return layer
            .map(SolveFor::Gauge)
            .map_err(|_| input::wrong("--solve", text, "a layer is a number; right would be gauge:1"));
    }
    Ok(match text.trim() {
        "pitch" => SolveFor::Pitch,
        "rows" => SolveFor::Rows,
        "diameter" => SolveFor::Diameter,
        "edge" => SolveFor::Edge,
        "least-rivets" => SolveFor::LeastRivets,
        "best-share" => SolveFor::BestShare,
        _ => return Err(input::wrong("--solve", text, RIGHT)),
    })
}

fn solved<'a>(
    text: &str,
    args: &RowsArgs,
    asked: &Asked,
    report: &mut Report<'a>,
    context: &Context<'a>,
) -> Result<SolvedAnswer, Stop> {
    let unknown = unknown(text)?;
    let Some((per_inch, factors)) = asked.per_inch() else {
        return Err(Stop::wrong("--solve needs a load: give --load, and the width that it is on as --across"));
    };
    let rows = asked.rows(args, context);
    let wanted = Wanted::new(rows, per_inch).factors(factors).margin(args.margin);
    let solved = solve(&wanted, unknown).map_err(Stop::wrong)?;
    match &solved.found {
        Some(found) => {
            // Asked again, as anybody would ask it: what is told of it is told of rows as they are made.
            let stack = found.gauge.map(|gauge| with_gauge(&asked.stack, unknown, gauge));
            let mut again = rows.rows(found.rows);
            (again.rivet, again.edge, again.pitch) = (found.rivet.without_length(), found.edge, found.pitch);
            again.stack = stack.as_ref().unwrap_or(&asked.stack);
            let (_, in_row) = Tried::asked(&again, Some((per_inch, factors))).map_err(Stop::wrong)?;
            report.work(context, |work| {
                working::repair::of_tried(&again, (&in_row, found), asked.on_width(), work);
            });
            found_rows(found, &in_row, args, Some((per_inch, factors)), report, context);
            record(found, report, context);
        }
        None => {
            report.answer("Nothing that was tried holds");
            let beside = solved.beside.as_ref();
            let subject = beside.map_or_else(|| asked.rivet.to_string(), |beside| beside.rivet.to_string());
            report.find(context, &subject, &solved.refusal(&wanted));
        }
    }
    report.paragraph(why(&solved, unknown, args.margin, context));
    Ok(SolvedAnswer {
        unknown: text.trim().to_owned(),
        wanted_margin: args.margin,
        found: solved.found.as_ref().map(TriedAnswer::of),
        beside: solved.beside.as_ref().map(TriedAnswer::of),
        why: solved.why.into(),
    })
}

fn with_gauge(stack: &Stack, unknown: SolveFor, gauge: Length) -> Stack {
    let mut changed = Stack::new();
    for (index, layer) in stack.layers().iter().enumerate() {
        let is_it = matches!(unknown, SolveFor::Gauge(number) if usize::from(number) == index.saturating_add(1));
        let thickness = if is_it { Toleranced::exactly(gauge) } else { layer.thickness };
        // Cannot fail: as many layers as there were.
        let _ = changed.push(layer.thickness(thickness));
    }
    changed
}

/// Why the next weaker step is not the answer, in a sentence.
fn why(solved: &Solved, unknown: SolveFor, wanted: f64, context: &Context<'_>) -> String {
    let step = solved.beside.as_ref().map(|beside| step(beside, unknown, context));
    let why = match solved.why {
        Why::Margin(margin) => format!("margin {margin:+.2}, wanted {wanted:+.2}"),
        Why::Refers(finding) => finding.sentence(context.units).to_string().trim_end_matches('.').to_owned(),
        Why::Share(share) => format!("it keeps {} of the sheet", percent(share)),
        Why::AtEnd => "nothing weaker is tried".to_owned(),
        other => other.as_str().to_owned(),
    };
    match (step, solved.found.is_some()) {
        (Some(step), true) => format!("Next weaker: {step}: {why}."),
        (Some(step), false) => {
            // What fails first shows what would help.
            let gives = solved.beside.as_ref().and_then(|beside| beside.governing);
            let gives = gives.filter(|_| matches!(solved.why, Why::Margin(_)));
            let gives = gives.map_or_else(String::new, |governing| {
                let sheet = governing.layer.map_or_else(String::new, |sheet| format!(", sheet {sheet}"));
                format!("; {}{sheet}", row_mode(governing.mode))
            });
            format!("Best of what was tried: {step}: {why}{gives}.")
        }
        (None, true) => "Nothing weaker is tried.".to_owned(),
        (None, false) => "The practice leaves nothing to try.".to_owned(),
    }
}

/// What a step is called.
fn step(tried: &Tried, unknown: SolveFor, context: &Context<'_>) -> String {
    let units = context.units;
    let rows = if tried.rows == 1 { "1 row".to_owned() } else { format!("{} rows", tried.rows) };
    match unknown {
        SolveFor::Pitch => format!("pitch {}", units.size(tried.pitch)),
        SolveFor::Rows => rows,
        SolveFor::Diameter => tried.rivet.without_length().to_string(),
        SolveFor::Edge => format!("edge {}", units.size(tried.edge)),
        SolveFor::Gauge(_) => tried.gauge.map_or_else(String::new, |gauge| format!("sheet {}", units.length(gauge))),
        _ => {
            format!("{}, {rows}, pitch {}", tried.rivet.without_length(), units.size(tried.pitch))
        }
    }
}

/// What shear and tension together were asked with, and their answer.
struct Pulled {
    loads: Loads,
    factors: Factors,
    carries: Carries,
    combined: Combined,
}

/// Shear and tension on one rivet.
fn combined<'a>(
    args: &RowsArgs,
    asked: &Asked,
    found: &InRow,
    report: &mut Report<'a>,
    context: &Context<'a>,
) -> Result<Option<(CombinedAnswer<'a>, Pulled)>, Stop> {
    let force = |option, text: &Option<String>| {
        text.as_deref().map(|text| input::force(option, text, context.bare)).transpose()
    };
    let Some(tension) = force("--tension", &args.tension)? else { return Ok(None) };
    let tested = force("--tension-tested", &args.tension_tested)?;
    let (Some((load, factors)), Some(allowable)) = (asked.per_inch(), found.strength.joint.allowable) else {
        // Without a strength in shear there is nothing to combine; what is missing has been said.
        return Ok(None);
    };
    let shear: Force = load.force * found.strength.rivets_per_inch.recip();
    let loads = Loads::new(shear, tension, load.kind);
    let tested = tested.map(|force| Allowable { force, basis: Basis::AS_GIVEN });
    let carries = Carries::of(&asked.rivet, allowable, context.practice);
    let carries = carries.tension(tested.or(carries.tension));
    let combined = combine(loads, &carries, factors, Interaction::Circle).map_err(Stop::wrong)?;
    report.find_all(context, &asked.rivet.to_string(), &combined.findings);
    let answer = CombinedAnswer {
        shear: combined.shear,
        tension: combined.tension,
        margin: combined.margin,
        basis: form::Basis::of(combined.basis, context.practice),
    };
    Ok(Some((answer, Pulled { loads, factors, carries, combined })))
}

fn combined_text(combined: &CombinedAnswer, report: &mut Report<'_>) {
    let rounded = |ratio: f64| format!("{:.0} %", ratio * 100.0);
    let text = match (combined.tension, combined.margin) {
        (Some(tension), Some(margin)) => format!(
            "Shear takes {} of the rivet, tension {} of what was tested: together margin {margin:+.2} (circle, memory).",
            rounded(combined.shear),
            rounded(tension)
        ),
        _ => "Solid rivets are not chosen for tension. Without a tested value it is referred.".to_owned(),
    };
    report.paragraph(text);
}

impl TriedAnswer {
    fn of(tried: &Tried) -> TriedAnswer {
        TriedAnswer {
            rivet: tried.rivet.to_string(),
            rows: tried.rows,
            pitch: tried.pitch.into(),
            edge: tried.edge.into(),
            gauge: tried.gauge.map(Into::into),
            rivets_per_inch: tried.rivets_per_inch,
            carries_per_inch: tried.carries.map(Into::into),
            governing: tried.governing.map(|governing| governing.mode.into()),
            margin: tried.margin.map(|margin| margin.value),
            share: tried.share,
            refers: tried.refers.map(|finding| finding.code().into()),
        }
    }
}
