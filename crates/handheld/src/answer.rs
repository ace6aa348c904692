//! The answers: what the core says to a finished dialog. Nothing is decided here.

use core::fmt::{self, Display};

use shophead::damage;
use shophead::finding::Severity;
use shophead::installation::{HoleAnswer, Installation, Step};
use shophead::joint::strength::{BearingKind, JointStrength, SheetStrength};
use shophead::layout::RowLayout;
use shophead::practice::{Case, Name, Practice};
use shophead::rivet::part::Part;
use shophead::select::LengthAnswer;
use shophead::stack::Stack;
use shophead::upset::{HeadLimits, MeasuredHead, Window, judge};

use crate::dialog::{Dialog, Job, Refusal};
use crate::report::{Report, Spaced};

/// Writes the answer to a dialog that has no question left, as far as the report tells it.
pub(crate) fn write<'p>(dialog: &Dialog, practice: &'p Practice<'p>, report: &mut Report<'_>) -> fmt::Result {
    // Every job asks for a rivet first, so there is one.
    let Some(rivet) = dialog.answers.rivet else { return Ok(()) };
    match dialog.job {
        Job::Length => length(dialog, &rivet, practice, report),
        Job::Head => head(dialog, practice, report),
        Job::Hole => hole(dialog, rivet, practice, report),
        Job::Edge => edge(dialog, practice, report),
        Job::Number => number(&rivet, report),
        Job::Strength => strength(dialog, &rivet, practice, report),
    }
}

#[inline(never)]
fn length<'p>(
    dialog: &Dialog,
    rivet: &Part<'static>,
    practice: &'p Practice<'p>,
    report: &mut Report<'_>,
) -> fmt::Result {
    let answers = &dialog.answers;
    let Ok(stack) = answers.stack() else { return Ok(()) };
    // Another practice may have been chosen since the hole was asked for.
    let Some(hole) = dialog.hole(practice) else { return report.line(format_args!("{}", Refusal::NoAssumedHole)) };
    let mut choice = LengthAnswer::nothing_yet();
    if let Err(error) = question(dialog, *rivet, &stack, practice).length_into(&mut choice) {
        return report.line(format_args!("no answer: {error}"));
    }
    let units = report.units;
    match choice.part {
        Some(part) => report.line(format_args!("use {part}"))?,
        None if choice.is_by_hole() => report.line(format_args!("length by the hole:"))?,
        None => report.line(format_args!("no length fits"))?,
    }
    let mut ranges = choice.by_hole().peekable();
    let mut first = true;
    while let Some(range) = ranges.next() {
        match ranges.peek() {
            Some(_) => report.line(format_args!("hole to {}", units.show_fine(range.hole.max())))?,
            None if first => report.line(format_args!("any such hole"))?,
            None => report.line(format_args!("larger hole"))?,
        }
        first = false;
        match (range.part, range.cut) {
            (Some(part), _) => report.line(format_args!("use {part}"))?,
            (None, Some(cut)) => report.line(format_args!("cut longer to {}", units.show_limits(cut)))?,
            (None, None) => report.line(format_args!("none fits"))?,
        }
        drive_to(range.window, report)?;
    }
    if let Some(length) = choice.length {
        report.line(format_args!("length {}", units.show(length)))?;
    }
    drive_to(choice.window, report)?;
    if choice.serves().next().is_some() {
        report.line(format_args!("also good{}", Dashes(&choice)))?;
    }
    report.line(format_args!("grip {}", units.show(stack.grip().nominal())))?;
    report.line(format_args!("hole {}", units.show_range(hole.interval())))?;
    if let Some(usable) = choice.usable {
        report.figure("shortest", &units.show(usable.shortest.value), usable.shortest.basis)?;
        report.figure("longest", &units.show(usable.longest.value), usable.longest.basis)?;
    }
    let case = Case::for_part(&practice.rivet(*rivet));
    if let Some(tail) = practice.length(Name::RuleOfThumbTail, &case) {
        report.figure("rule of thumb", &units.show(choice.rule_of_thumb_length), tail.basis)?;
    }
    if let Some(protrusion) = choice.protrusion {
        report.line(format_args!("stands out {}", units.show_range(protrusion)))?;
    }
    report.findings(&choice.findings)
}

/// The lengths that are good besides the chosen one, in sixteenths: ` -4.5 -5`.
struct Dashes<'c, 'p>(&'c LengthAnswer<'p>);

impl Display for Dashes<'_, '_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.serves().try_for_each(|other| {
            let fourths = other.length.to_64ths().count();
            let half = if fourths & 3 == 0 { "" } else { ".5" };
            write!(f, " -{}{half}", fourths >> 2)
        })
    }
}

/// What to leave a driven head at.
fn drive_to(window: Option<Window>, report: &mut Report<'_>) -> fmt::Result {
    let units = report.units;
    let Some(Window { height, diameter_least, .. }) = window else { return Ok(()) };
    report.line(format_args!("drive to {} high", units.show_limits(height)))?;
    report.line(format_args!("wide {}", units.show_least(diameter_least)))
}

/// What the dialog knows of a rivet in its pack. Out of line: each fact that is added moves the question once more on the stack.
#[inline(never)]
fn question<'q, 'p>(
    dialog: &Dialog,
    rivet: Part<'static>,
    stack: &'q Stack,
    practice: &'p Practice<'p>,
) -> Installation<'q, 'p> {
    let answers = &dialog.answers;
    let layout = RowLayout::default().edge(answers.edge).pitch(answers.pitch).transverse_pitch(answers.transverse);
    let question =
        if stack.layers().is_empty() { Installation::without_layers(rivet) } else { Installation::new(rivet, stack) };
    let question = question.by(practice).layout(layout).rows(u16::from(answers.rows));
    let question = question.member(answers.member).shear(answers.shear);
    answers.hole.map_or(question, |hole| question.in_hole(hole))
}

#[inline(never)]
fn head<'p>(dialog: &Dialog, practice: &'p Practice<'p>, report: &mut Report<'_>) -> fmt::Result {
    let Some(case) = dialog.case() else { return Ok(()) };
    let units = report.units;
    let judged = dialog.measured_head().map(|(diameter, height)| {
        judge(MeasuredHead::new(diameter, height), dialog.answers.defect.as_slice(), practice, &case)
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

#[inline(never)]
fn hole<'p>(dialog: &Dialog, rivet: Part<'static>, practice: &'p Practice<'p>, report: &mut Report<'_>) -> fmt::Result {
    let answers = &dialog.answers;
    let (Ok(stack), Some(found)) = (answers.stack(), dialog.as_found()) else { return Ok(()) };
    let question = question(dialog, rivet, &stack, practice);
    // Asked twice, so that the answer does not stand on the stack beside its steps: what to do is said first, why nothing less does after it.
    hole_answer(&question.hole(found), report)?;
    if let (Some(damaged), Some(case)) = (dialog.damaged(), dialog.case()) {
        report.findings(&damage::judge(&damaged, Some(&case), practice))?;
    }
    let mut written = Ok(());
    question.hole_step_by_step(found, &mut |step| {
        if written.is_ok() && !step.does() {
            written = refused(step, report);
        }
    });
    written
}

#[inline(never)]
fn hole_answer(answer: &HoleAnswer<'_>, report: &mut Report<'_>) -> fmt::Result {
    let units = report.units;
    report.line(format_args!("{}", Spaced(answer.disposition.as_str())))?;
    if let Some(rivet) = answer.rivet {
        report.line(format_args!("rivet {rivet}"))?;
    }
    if let Some(cut) = answer.cut {
        report.line(format_args!("drill {cut}"))?;
    }
    if let Some(hole) = answer.hole {
        report.line(format_args!("hole {}", units.show_limits(hole)))?;
    }
    report.findings(&answer.findings)
}

/// Why a step does not do.
fn refused(step: &Step<'_>, report: &mut Report<'_>) -> fmt::Result {
    for finding in step.findings.iter().filter(|finding| finding.severity() == Severity::Refer) {
        report.reason(step.kind.as_str(), finding)?;
    }
    Ok(())
}

#[inline(never)]
fn edge<'p>(dialog: &Dialog, practice: &'p Practice<'p>, report: &mut Report<'_>) -> fmt::Result {
    let (Some(rivet), Some(case)) = (dialog.answers.rivet, dialog.case()) else { return Ok(()) };
    let Ok(stack) = dialog.answers.stack() else { return Ok(()) };
    let findings = question(dialog, rivet, &stack, practice).findings();
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

#[inline(never)]
fn number(rivet: &Part<'static>, report: &mut Report<'_>) -> fmt::Result {
    let (series, material, size) = (rivet.series(), rivet.material(), rivet.size());
    report.line(format_args!("{rivet}"))?;
    report.line(format_args!("{}", rivet.in_words()))?;
    let head = match series.head {
        shophead::rivet::Head::Universal => "universal",
        shophead::rivet::Head::Flush => "100 degree flush",
        shophead::rivet::Head::ReducedFlush => "100 degree flush, reduced",
        other => other.as_str(),
    };
    report.figure("head", &head, series.basis)?;
    report.figure("alloy", &material.alloy.alloy(), material.basis)?;
    report.figure("shank", &report.units.show(size.shank_nominal), size.basis)?;
    for warning in &rivet.warnings() {
        report.line(format_args!("note: {warning}"))?;
    }
    Ok(())
}

#[inline(never)]
fn strength<'p>(
    dialog: &Dialog,
    rivet: &Part<'static>,
    practice: &'p Practice<'p>,
    report: &mut Report<'_>,
) -> fmt::Result {
    let Ok(stack) = dialog.answers.stack() else { return Ok(()) };
    let mut found = JointStrength::nothing_yet();
    match question(dialog, *rivet, &stack, practice).strength_into(&mut found) {
        Ok(()) => write_strength(&found, report),
        Err(error) => report.line(format_args!("no answer: {error}")),
    }
}

#[inline(never)]
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
    report.line(format_args!("layer {}:", sheet.layer()))?;
    if let Some(bearing) = sheet.bearing() {
        let label = match bearing.kind {
            BearingKind::Sheet => "bearing",
            BearingKind::FlushJoint => "flush joint",
            BearingKind::Indication => "bearing, as an indication",
            other => other.as_str(),
        };
        report.figure(label, &units.show_force(bearing.ultimate.force), bearing.ultimate.basis)?;
    }
    if let Some(tear_out) = sheet.tear_out() {
        report.figure("tear-out", &units.show_force(tear_out.force), tear_out.basis)?;
    }
    Ok(())
}
