//! The answers: what the core says to a finished dialog. Nothing is decided here.

use core::fmt;

use shophead::damage;
use shophead::finding::Severity;
use shophead::hole::{HoleQuery, Step};
use shophead::joint::pack::strength_through_into;
use shophead::joint::strength::{BearingKind, JointStrength, SheetStrength};
use shophead::layout::{RowLayout, check_row};
use shophead::length::Interval;
use shophead::practice::{Name, Practice};
use shophead::rivet::part::Part;
use shophead::select::{LengthQuery, check_alloy};
use shophead::upset::{HeadLimits, MeasuredHead, judge};

use crate::dialog::{Dialog, Job, Refusal};
use crate::report::{Report, Spaced};

/// Writes the answer to a dialog that has no question left, as far as the report tells it.
pub(crate) fn write(dialog: &Dialog, practice: &'static Practice<'static>, report: &mut Report<'_>) -> fmt::Result {
    // Every job asks for a rivet first, so there is one.
    let Some(rivet) = dialog.answers.rivet else { return Ok(()) };
    match dialog.job {
        Job::Length => length(dialog, &rivet, practice, report),
        Job::Head => head(dialog, practice, report),
        Job::Hole => hole(dialog, rivet, practice, report),
        Job::Edge => edge(dialog, practice, report),
        Job::Number => number(&rivet, report),
        Job::Strength => strength(dialog, &rivet, report),
    }
}

fn length(
    dialog: &Dialog,
    rivet: &Part<'static>,
    practice: &'static Practice<'static>,
    report: &mut Report<'_>,
) -> fmt::Result {
    let answers = &dialog.answers;
    let Ok(stack) = answers.stack() else { return Ok(()) };
    // Another practice may have been chosen since the hole was asked for.
    let Some(hole) = dialog.hole(practice) else { return report.line(format_args!("{}", Refusal::NoAssumedHole)) };
    let (series, alloy, size) = (rivet.series(), rivet.alloy(), rivet.size());
    let query = LengthQuery { series, alloy, size, grip: stack.grip(), hole, practice };
    let choice = match query.choose() {
        Ok(choice) => choice,
        Err(error) => return report.line(format_args!("no answer: {error}")),
    };
    let units = report.units;
    match choice.length.map(|length| rivet.with_length(length)) {
        Some(Ok(part)) => report.line(format_args!("use {part}"))?,
        Some(Err(error)) => report.line(format_args!("no part number: {error}"))?,
        None => report.line(format_args!("no length fits"))?,
    }
    if let Some(length) = choice.length {
        report.line(format_args!("length {}", units.show(length)))?;
    }
    report.line(format_args!("grip {}", units.show(stack.grip().nominal())))?;
    report.line(format_args!("hole {}", units.show_range(hole.interval())))?;
    if let Some(usable) = choice.usable {
        report.figure("shortest", &units.show(usable.shortest.value), usable.shortest.basis)?;
        report.figure("longest", &units.show(usable.longest.value), usable.longest.basis)?;
    }
    let case = query_case(rivet);
    if let Some(tail) = practice.length(Name::RuleOfThumbTail, &case) {
        report.figure("rule of thumb", &units.show(choice.rule_of_thumb_length), tail.basis)?;
    }
    if let Some(protrusion) = choice.protrusion {
        report.line(format_args!("stands out {}", units.show_range(protrusion)))?;
    }
    if let Some(head) = choice.head {
        let diameter = Interval { min: head.diameter.min, max: head.diameter.max };
        report.line(format_args!("head {} across, {} high", units.show_range(diameter), units.show(head.height)))?;
    }
    report.findings(&choice.findings)?;
    report.findings(&check_alloy(rivet))
}

fn query_case(rivet: &Part<'_>) -> shophead::practice::Case {
    shophead::practice::Case::of(rivet.series().head, rivet.alloy(), rivet.size())
}

fn head(dialog: &Dialog, practice: &'static Practice<'static>, report: &mut Report<'_>) -> fmt::Result {
    let Some(case) = dialog.case() else { return Ok(()) };
    let units = report.units;
    let judged = dialog.measured_head().map(|(diameter, height)| {
        judge(MeasuredHead { diameter, height }, dialog.answers.defect.as_slice(), practice, &case)
    });
    if let Some(judged) = &judged {
        report.line(format_args!("{}", if judged.accepted { "accept" } else { "REJECT" }))?;
        if let Some(remedy) = judged.remedy {
            report.figure("then", &remedy.value, remedy.basis)?;
        }
    }
    let limits = HeadLimits::of(practice, &case);
    for (label, limit) in [
        ("diameter, least", limits.diameter_least),
        ("aim at", limits.diameter_target),
        ("greatest", limits.diameter_greatest),
        ("height, least", limits.height_least),
        ("aim at", limits.height_target),
        ("greatest", limits.height_greatest),
    ] {
        if let Some(limit) = limit {
            report.figure(label, &units.show(limit.value), limit.basis)?;
        }
    }
    match judged {
        Some(judged) => report.findings(&judged.findings),
        None => Ok(()),
    }
}

fn hole(
    dialog: &Dialog,
    rivet: Part<'static>,
    practice: &'static Practice<'static>,
    report: &mut Report<'_>,
) -> fmt::Result {
    let answers = &dialog.answers;
    let (Ok(stack), Some(found)) = (answers.stack(), dialog.as_found()) else { return Ok(()) };
    let layout = RowLayout { edge: answers.edge, pitch: answers.pitch, transverse_pitch: None };
    let query = HoleQuery { rivet, stack: Some(&stack), layout, rows: answers.rows, member: answers.member, practice };
    // Climbed twice, so that no more than one step stands on the stack: what to do is said first, why nothing less does after it.
    let mut step = Step::nothing_yet();
    let climbed = query.climb(found, &mut step, &mut |_| ());
    let units = report.units;
    report.line(format_args!("{}", Spaced(climbed.disposition.as_str())))?;
    match climbed.finding {
        Some(finding) => report.finding(&finding)?,
        None => {
            if let Some(rivet) = step.rivet {
                report.line(format_args!("rivet {rivet}"))?;
            }
            if let Some(cut) = step.cut {
                report.line(format_args!("drill {cut}"))?;
            }
            if let Some(hole) = step.hole {
                report.line(format_args!("hole {}", units.show_limits(hole)))?;
            }
            report.findings(&step.findings)?;
        }
    }
    if let (Some(damaged), Some(case)) = (dialog.damaged(), dialog.case()) {
        report.findings(&damage::judge(&damaged, Some(&case), practice))?;
    }
    let mut written = Ok(());
    query.climb(found, &mut step, &mut |step| {
        if written.is_ok() && !step.does() {
            written = refused(step, report);
        }
    });
    written
}

/// Why a step does not do.
fn refused(step: &Step<'_>, report: &mut Report<'_>) -> fmt::Result {
    for finding in step.findings.iter().filter(|finding| finding.severity() == Severity::Refer) {
        report.reason(step.kind.as_str(), finding)?;
    }
    Ok(())
}

fn edge(dialog: &Dialog, practice: &'static Practice<'static>, report: &mut Report<'_>) -> fmt::Result {
    let (answers, Some(case)) = (&dialog.answers, dialog.case()) else { return Ok(()) };
    let layout = RowLayout { edge: answers.edge, pitch: answers.pitch, transverse_pitch: answers.transverse };
    let findings = check_row(layout, &case, practice);
    report.line(format_args!("{}", if findings.must_refer() { "NOT within limits" } else { "within limits" }))?;
    report.findings(&findings)?;
    let units = report.units;
    for (label, name) in [
        ("edge, least", Name::EdgeDistanceLeast),
        ("preferred", Name::EdgeDistancePreferred),
        ("pitch, least", Name::PitchLeast),
        ("greatest", Name::PitchGreatest),
        ("between rows, least", Name::TransversePitchLeast),
    ] {
        if let Some(limit) = practice.length(name, &case) {
            report.figure(label, &units.show(limit.value), limit.basis)?;
        }
    }
    Ok(())
}

fn number(rivet: &Part<'static>, report: &mut Report<'_>) -> fmt::Result {
    let (series, material, size) = (rivet.series(), rivet.material(), rivet.size());
    report.line(format_args!("{rivet}"))?;
    report.line(format_args!("{}", rivet.in_words()))?;
    let head = match series.head {
        shophead::rivet::Head::Universal => "universal",
        shophead::rivet::Head::Flush => "100 degree flush",
        shophead::rivet::Head::ReducedFlush => "100 degree flush, reduced",
    };
    report.figure("head", &head, series.basis)?;
    report.figure("alloy", &material.alloy.alloy(), material.basis)?;
    report.figure("shank", &report.units.show(size.shank_nominal), size.basis)?;
    for warning in &rivet.warnings() {
        report.line(format_args!("note: {warning}"))?;
    }
    Ok(())
}

fn strength(dialog: &Dialog, rivet: &Part<'static>, report: &mut Report<'_>) -> fmt::Result {
    let answers = &dialog.answers;
    let (Ok(stack), Some(edge)) = (answers.stack(), answers.edge) else { return Ok(()) };
    let mut found = JointStrength::nothing_yet();
    match strength_through_into(&mut found, rivet, &stack, edge, None, answers.pitch, answers.shear, None) {
        Ok(()) => write_strength(&found, report),
        Err(error) => report.line(format_args!("no answer: {error}")),
    }
}

fn write_strength(found: &JointStrength, report: &mut Report<'_>) -> fmt::Result {
    let units = report.units;
    match (found.allowable, found.indication) {
        (Some(allowable), _) => {
            report.figure("one rivet carries", &units.show_force(allowable.force), allowable.basis)?;
        }
        (None, Some(indication)) => {
            report.figure("no allowable; as an indication", &units.show_force(indication.force), indication.basis)?;
        }
        (None, None) => report.line(format_args!("no published strength"))?,
    }
    if let Some(governing) = found.governing {
        match governing.layer {
            Some(layer) => report.line(format_args!("first: {}, layer {layer}", Spaced(governing.mode.as_str())))?,
            None => report.line(format_args!("first: {}", Spaced(governing.mode.as_str())))?,
        }
    }
    if let Some(shear) = found.shear {
        report.figure("rivet shear", &units.show_force(shear.force), shear.basis)?;
    }
    for sheet in &found.sheets {
        write_sheet(sheet, report)?;
    }
    if let Some((net, layer)) = found.net_section {
        report.line(format_args!("net section in layer {layer}:"))?;
        report.figure("a pitch carries", &units.show_force(net.force), net.basis)?;
    }
    report.findings(&found.findings)
}

fn write_sheet(sheet: &SheetStrength, report: &mut Report<'_>) -> fmt::Result {
    let units = report.units;
    report.line(format_args!("layer {}:", sheet.layer))?;
    if let Some(bearing) = sheet.bearing {
        let label = match bearing.kind {
            BearingKind::Sheet => "bearing",
            BearingKind::FlushJoint => "flush joint",
            BearingKind::Indication => "bearing, as an indication",
        };
        report.figure(label, &units.show_force(bearing.ultimate.force), bearing.ultimate.basis)?;
    }
    if let Some(tear_out) = sheet.tear_out {
        report.figure("tear-out", &units.show_force(tear_out.force), tear_out.basis)?;
    }
    Ok(())
}
