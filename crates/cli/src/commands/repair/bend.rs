//! `shophead repair bend`.

use shophead::repair::bend::{least_radius, least_radius_of, refusal, setback};
use shophead::working;

use super::answer::{Bend, Repair, Which};
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::BendArgs;
use crate::report::{Block, Record, Report};

pub(super) fn run<'a>(args: &BendArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let thickness = input::length("--thickness", &args.thickness, context.bare)?;
    let material = args.material.trim();
    // Clad sheet bends slightly tighter: the bare line holds for it too.
    let bare = material.strip_prefix("clad ").unwrap_or(material);
    let (alloy, temper) = bare.split_once('-').unwrap_or((bare, ""));
    let given = input::optional_length("--radius", args.radius.as_deref(), context.bare)?;
    let known = context.practice.material(material).ok();
    let entered = known.and_then(|known| least_radius(known, thickness, context.practice));
    let limits = entered.or_else(|| least_radius_of(alloy.trim(), temper.trim(), thickness));
    let mut report = Report::new("repair", context);
    let subject = shophead_job::diagnostic::escaped(material).into_owned();
    let Some(radius) = given.or(limits.map(|limits| limits.value.min())) else {
        return Err(Stop::wrong(format_args!(
            "the table of bend radii has no such sheet as {subject} {}; give the radius, as in --radius 1/8",
            context.units.length(thickness)
        )));
    };
    let found = setback(args.angle, radius, thickness)
        .ok_or_else(|| Stop::wrong("--angle: a bend is more than 0 and less than 180 degrees; right would be 90"))?;
    report.find(context, &subject, &refusal(radius, limits, known));
    let units = context.units;
    report.answer(format!(
        "Bend {} degrees, radius {}: setback {}",
        args.angle,
        units.length(radius),
        units.length(found.value)
    ));
    let mut pairs = Vec::new();
    if let Some(limits) = limits {
        let (min, max) = (units.length(limits.value.min()), units.length(limits.value.max()));
        pairs.push(("least radius".to_owned(), format!("{min} to {max} ({})", context.practice.cite(limits.basis))));
    }
    let cited = context.practice.cite(found.basis);
    pairs.push((
        "setback".to_owned(),
        format!("tan({}/2) x ({} + {}) ({cited})", args.angle, units.length(radius), units.length(thickness)),
    ));
    report.text.push(Block::Pairs(pairs));
    report.work(context, |work| working::repair::of_bend(args.angle, (radius, thickness), limits, found, work));
    report.paragraph("Bend across the grain. Drill relief holes at the ends of bend lines, smooth the edges.");
    let mut record = Record::new(units);
    record.text("material", &subject).length("thickness", thickness).text("angle", args.angle).length("radius", radius);
    record.length("setback", found.value).length("radius_least", limits.map(|limits| limits.value.min()));
    record.length("radius_most", limits.map(|limits| limits.value.max())).findings(&report.findings);
    report.rows.push(record);
    let bend = Bend {
        material: subject.clone(),
        thickness: thickness.into(),
        degrees: args.angle,
        radius: radius.into(),
        radius_least: limits.map(|limits| limits.value.min().into()),
        radius_most: limits.map(|limits| limits.value.max().into()),
        setback: found.value.into(),
        basis: form::Basis::of(found.basis, context.practice),
    };
    report.give(Repair { repair: Which::Bend, bend: Some(bend), ..Repair::default() });
    Ok(report)
}
