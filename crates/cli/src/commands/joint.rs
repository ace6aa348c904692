//! `shophead joint`.

use serde_json::{Value, json};
use shophead::basis::Basis;
use shophead::hole::check_seat;
use shophead::joint::margin::{Factor, Factors, Load, LoadKind};
use shophead::joint::pack::strength_through;
use shophead::joint::strength::{Allowable, BearingKind, JointStrength, Shear};
use shophead::layout::{check_edge, check_pitch};
use shophead::length::Length;
use shophead::practice::{Case, Given, Name};
use shophead::rivet::part::Part;
use shophead::select::check_alloy;
use shophead::stack::Stack;
use shophead_job::words;

use super::memory_mark;
use crate::args::{JointArgs, ShearWord};
use crate::context::Context;
use crate::exit::Stop;
use crate::report::{Block, Record, Report, Table};
use crate::{input, json};

pub(super) fn run(args: &JointArgs, context: &Context<'_>) -> Result<Report, Stop> {
    let rivet = input::part("--rivet", &args.rivet)?.without_length();
    let stack = input::layers("--sheets", &args.sheets, None)?;
    let case = Case::of(rivet.series().head, rivet.alloy(), rivet.size());
    let edge = edge(args, &rivet, &case, context)?;
    let pitch = input::optional_length("--pitch", args.pitch.as_deref())?;
    let hole = args.hole.as_deref().map(|text| input::hole_diameter("--hole", text)).transpose()?;
    let load = load(args)?;

    let shear = match args.shear {
        ShearWord::Single => Shear::Single,
        ShearWord::Double => Shear::Double,
    };
    let found = strength_through(&rivet, &stack, edge.value, hole, pitch, shear, load).map_err(Stop::wrong)?;

    let mut report = Report::new("joint", context);
    let subject = rivet.to_string();
    report.find_all(context, &subject, &found.findings);
    report.find_all(context, &subject, &check_edge(edge.value, &case, context.practice));
    if let Some(pitch) = pitch {
        report.find_all(context, &subject, &check_pitch(pitch, &case, context.practice));
    }
    find_seat(&mut report, &stack, &rivet, &case, context);
    report.find_all(context, &subject, &check_alloy(&rivet));
    let edge_given = args.edge.is_some();
    report.result = result(&rivet, &found, (edge, edge_given), pitch);
    text(&mut report, &rivet, &stack, &found, (edge, edge_given), context);

    let force = |part: Option<Allowable<'_>>| part.map(|part| part.force);
    let mut record = Record::new(context.units);
    record.text("rivet", rivet).force("allowable", force(found.allowable));
    record.optional("governing", found.governing.map(|governing| governing.mode));
    record.optional("governing_sheet", found.governing.and_then(|governing| governing.layer));
    record.force("shear", force(found.shear)).length("edge", edge.value);
    record.force("net_section", found.net_section.map(|(net, _)| net.force));
    record.force("factored_load", found.margin.map(|margin| margin.factored_load));
    record.optional("margin", found.margin.map(|margin| margin.value));
    record.findings(&report.findings);
    report.rows.push(record);
    Ok(report)
}

/// The edge distance as given, or the least that the practice allows.
fn edge<'a>(args: &JointArgs, rivet: &Part<'_>, case: &Case, context: &Context<'a>) -> Result<Given<'a, Length>, Stop> {
    if let Some(edge) = input::optional_length("--edge", args.edge.as_deref())? {
        return Ok(Given { value: edge, basis: Basis::shop("as given", "") });
    }
    context.practice.length(Name::EdgeDistanceLeast, case).ok_or_else(|| {
        let practice = context.practice.name();
        Stop::wrong(format_args!(
            "the practice {practice} names no edge distance for {rivet}; give one, as in --edge .25"
        ))
    })
}

fn load(args: &JointArgs) -> Result<Option<(Load, Factors<'static>)>, Stop> {
    let Some(text) = &args.load else { return Ok(None) };
    let force = input::force("--load", text)?;
    let kind = if args.ultimate_load { LoadKind::Ultimate } else { LoadKind::Limit };
    let mut factors = Factors::default();
    if let Some(value) = args.safety_factor {
        factors.safety = Factor { value, basis: Basis::shop("as given", "factor of safety") };
    }
    if let Some(value) = args.fitting_factor {
        factors.fitting = Some(Factor { value, basis: Basis::shop("as given", "fitting factor") });
    }
    Ok(Some((Load { force, kind }, factors)))
}

fn find_seat(report: &mut Report, stack: &Stack, rivet: &Part<'_>, case: &Case, context: &Context<'_>) {
    if let Some(height) = rivet.size().head_height_nominal().filter(|_| rivet.series().head.is_flush()) {
        report.find_all(context, &rivet.to_string(), &check_seat(stack, height, case, context.practice));
    }
}

fn result(
    rivet: &Part<'_>,
    found: &JointStrength<'_>,
    (edge, edge_given): (Given<'_, Length>, bool),
    pitch: Option<Length>,
) -> Value {
    let allowable = |part: Option<Allowable<'_>>| json::or_null(part, json::allowable);
    let bearing: Vec<Value> = found
        .sheets
        .iter()
        .map(|sheet| {
            json!({
                "sheet": sheet.layer,
                "edge_margin": sheet.edge_margin,
                "share": sheet.share,
                "kind": sheet.bearing.map(|bearing| kind(bearing.kind)),
                "ultimate": allowable(sheet.bearing.map(|bearing| bearing.ultimate)),
                "yield": allowable(sheet.bearing.and_then(|bearing| bearing.yield_load)),
            })
        })
        .collect();
    let tear_out: Vec<Value> = found
        .sheets
        .iter()
        .map(|sheet| {
            json!({
                "sheet": sheet.layer,
                "share": sheet.share,
                "ultimate": allowable(sheet.tear_out),
                "with_relief": allowable(sheet.tear_out_with_relief),
            })
        })
        .collect();
    let mut margin = Value::Null;
    if let Some(worked) = found.margin {
        margin = json!({
            "value": worked.value,
            "load": json::force(worked.load.force),
            "load_kind": match worked.load.kind { LoadKind::Limit => "limit", LoadKind::Ultimate => "ultimate" },
            "safety_factor": { "value": worked.factors.safety.value, "basis": json::basis(worked.factors.safety.basis) },
            "fitting_factor": json::or_null(worked.factors.fitting, |factor| {
                json!({ "value": factor.value, "basis": json::basis(factor.basis) })
            }),
            "factored_load": json::force(worked.factored_load),
        });
    }
    json!({
        "rivet": rivet.to_string(),
        "diameter_counted": json::given(Given { value: found.diameter.0, basis: found.diameter.1 }),
        "edge": json::given(edge),
        "edge_given": edge_given,
        "pitch": json::or_null(pitch, json::length),
        "per_rivet": {
            "shear": allowable(found.shear),
            "thin_sheet_factor": found.thin_sheet_factor,
            "bearing": bearing,
            "tear_out": tear_out,
            "allowable": allowable(found.allowable),
            "indication": allowable(found.indication),
            "governing": json::or_null(found.governing, |governing| json!({
                "mode": governing.mode.word(),
                "sheet": governing.layer,
                "load": json::allowable(governing.load),
            })),
        },
        "net_section": json::or_null(found.net_section, |(net, sheet)| json!({
            "sheet": sheet,
            "ultimate": json::allowable(net),
        })),
        "margin": margin,
        "basis": json::basis(found.basis),
    })
}

const fn kind(kind: BearingKind) -> &'static str {
    match kind {
        BearingKind::Sheet => "sheet",
        BearingKind::FlushJoint => "flush-joint",
        BearingKind::Indication => "indication",
    }
}

fn text(
    report: &mut Report,
    rivet: &Part<'_>,
    stack: &Stack,
    found: &JointStrength<'_>,
    (edge, edge_given): (Given<'_, Length>, bool),
    context: &Context<'_>,
) {
    let units = context.units;
    let marked = |part: Allowable<'_>| format!("{}{}", units.force(part.force), memory_mark(part.basis));
    let or_none = |part: Option<Allowable<'_>>| part.map_or_else(|| "not published".to_owned(), marked);
    report.answer(match found.allowable {
        Some(allowable) => format!("{rivet}   carries {} a rivet", units.force(allowable.force)),
        None => format!("{rivet}   no published allowable"),
    });
    let mut pairs = Vec::new();
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    if let Some(margin) = found.margin {
        let kind = match margin.load.kind {
            LoadKind::Limit => "limit",
            LoadKind::Ultimate => "ultimate",
        };
        let factored = units.force(margin.factored_load);
        pair(
            "margin",
            format!(
                "{:+.2} under {} {kind} load, {factored} with its factors",
                margin.value,
                units.force(margin.load.force)
            ),
        );
    }
    if let Some(governing) = found.governing {
        let sheet = governing.layer.map_or_else(String::new, |sheet| format!(", sheet {sheet}"));
        pair(
            "first to give way",
            format!("{}{sheet}{}", words::mode(governing.mode), memory_mark(governing.load.basis)),
        );
    }
    if let Some(indication) = found.indication {
        pair("indication only", format!("{}, in proportion to the short edge distance", units.force(indication.force)));
    }
    pair("rivet shear", or_none(found.shear));
    if let Some(factor) = found.thin_sheet_factor.filter(|factor| *factor < 1.0) {
        pair("thin sheet", format!("takes the shear to {} of its full value", words::plain(factor)));
    }
    pair("diameter counted", format!("{}{}", units.length(found.diameter.0), memory_mark(found.diameter.1)));
    pair(
        "edge distance",
        if edge_given {
            units.length(edge.value)
        } else {
            format!("{} assumed, the least allowed ({})", units.length(edge.value), edge.basis)
        },
    );
    if let Some((net, sheet)) = found.net_section {
        pair("between the holes", format!("{} a pitch, sheet {sheet}", marked(net)));
    }
    report.text.push(Block::Pairs(pairs));

    report.heading("Each sheet");
    let rows = found.sheets.iter().zip(stack.load_carrying()).map(|(sheet, layer)| {
        let material = layer.material.map_or_else(|| "material not given".to_owned(), |material| material.to_string());
        vec![
            format!("{} {}", sheet.layer, units.length(layer.thickness.nominal())),
            material,
            or_none(sheet.bearing.map(|bearing| bearing.ultimate)),
            or_none(sheet.tear_out),
        ]
    });
    let rows = rows.collect();
    report.text.push(Block::Table(Table { columns: vec!["sheet", "material", "bearing", "tear-out"], rows }));
    let share = found.sheets.iter().any(|sheet| sheet.share < 1.0);
    if share {
        report.paragraph("In double shear each outer sheet gets half of the rivet's load.");
    }
    report.paragraph(format!("The weakest of these figures rests on: {}.", found.basis));
}
