//! The working as a sheet to print and sign. It stands by itself: no script, no picture, font or style from elsewhere.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use shophead::practice::Practice;
use shophead::words::Units;

use super::{Worked, of_basis, stands};
use crate::diagnostic::escaped;
use crate::words::{ADVISORY, left_out};

/// What a sheet is made of.
#[derive(Clone, Copy, Debug)]
pub struct WorkingSheet<'s> {
    /// What was asked: the command.
    pub command: &'s str,
    /// The answer, in a line or several.
    pub answer: &'s [String],
    /// What was entered, by option.
    pub inputs: &'s [(String, String)],
    /// What was found: how serious it is, what it is about, the sentence, and where its limit stands.
    pub findings: &'s [[String; 4]],
    /// The steps.
    pub steps: &'s [Worked],
    /// The name of the practice, with what the shop's own limits are called.
    pub practice_name: &'s str,
    /// The practice that its documents are looked up in.
    pub practice: &'s Practice<'s>,
    /// The units of figures.
    pub units: Units,
}

const STYLE: &str = "\
@page { margin: 12mm 12mm 14mm; @bottom-right { content: \"page \" counter(page) \" of \" counter(pages); font: 8pt sans-serif } }
* { box-sizing: border-box }
body { font: 9pt/1.3 sans-serif; margin: 0 auto; max-width: 186mm; padding: 4mm; color: #000; background: #fff; overflow-wrap: anywhere }
h1 { font-size: 14pt; margin: 0 0 2mm }
h2 { font-size: 11pt; margin: 5mm 0 1mm; border-top: .4mm solid #000; padding-top: 1mm; break-after: avoid }
h3 { font-size: 9.5pt; margin: 0 0 .6mm }
.answer { font-weight: bold; font-size: 11pt; margin: 1mm 0 }
.advisory { border: .4mm solid #000; padding: 1.5mm 2.5mm; font-weight: bold; margin: 2mm 0 }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .4mm 4mm; margin: 1mm 0 }
dt { font-weight: bold } dd { margin: 0 }
ol { list-style: none; margin: 0; padding: 0 }
li { border-bottom: .15mm solid #000; padding: 1.6mm 0; break-inside: avoid }
.formula { font-size: 10pt; margin: .4mm 0; font-variant-numeric: tabular-nums }
.formula b { border: .2mm solid #000; padding: 0 1mm }
table { border-collapse: collapse; width: 100%; margin: .6mm 0 0 }
td { padding: .1mm 2mm .1mm 0; vertical-align: top; font-size: 8.2pt }
td:first-child { width: 9mm; font-weight: bold } td:nth-child(2) { width: 34mm; font-variant-numeric: tabular-nums }
.findings td:first-child { width: 16mm } .findings td:nth-child(2) { width: 30mm; font-variant-numeric: normal }
.small { font-size: 8pt; margin: .4mm 0 0 }
.sign { display: grid; grid-template-columns: 1fr 1fr; gap: 7mm 8mm; margin-top: 8mm; break-inside: avoid }
.sign div { border-bottom: .3mm solid #000; padding-top: 6mm }
@media print { body { padding: 0; max-width: none } }
";

/// The sheet.
///
/// ```
/// use shophead::installation::Installation;
/// use shophead::practice::HANDBOOK;
/// use shophead::rivet::part::Part;
/// use shophead::stack::Stack;
/// use shophead::words::Units;
/// use shophead_job::working::{WorkingSheet, kept, sheet};
/// let layers = Stack::parse("2024-T3:.064, 2024-T3:.064")?;
/// let question = Installation::new(Part::parse("MS20470AD4")?, &layers);
/// let found = question.strength()?;
/// let steps = kept(|work| shophead::working::joint::of(&question, &found, work));
/// let html = sheet(&WorkingSheet {
///     command: "joint", answer: &["MS20470AD4 carries 389 lbf".into()], inputs: &[("rivet".into(), "MS20470AD4".into())],
///     findings: &[], steps: &steps, practice_name: "handbook", practice: &HANDBOOK, units: Units::Inches,
/// });
/// assert!(html.contains("P1 = Fsr × π / 4 × d²") && html.contains("Prepared by") && !html.contains("<script"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn sheet(sheet: &WorkingSheet<'_>) -> String {
    let title = format!("Working: {}", escaped(sheet.command));
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                h1 { (title) }
                @for answer in sheet.answer { p class="answer" { (escaped(answer)) } }
                p class="advisory" { @if let Some(left_out) = left_out(sheet.command) { (left_out) " " } (ADVISORY) }
                h2 { "Entered" }
                dl {
                    @for (name, value) in sheet.inputs { dt { (escaped(name)) } dd { (escaped(value)) } }
                    dt { "practice" } dd { (escaped(sheet.practice_name)) }
                    dt { "units" } dd { (sheet.units.length_unit()) ", " (sheet.units.force_unit()) }
                }
                @if !sheet.findings.is_empty() {
                    h2 { "Found" }
                    table class="findings" {
                        @for finding in sheet.findings { tr { @for cell in finding { td { (escaped(cell)) } } } }
                    }
                }
                h2 { "Steps" }
                ol { @for step in sheet.steps { (one(step, sheet)) } }
                p class="small" {
                    "Numbers have six figures; a result is worked out from more. read: read in the document named. memory: recalled, check it \
                     first. up( ), down( ), near( ): rounded up, down, to the nearest whole number. Σ( ): summed over the list."
                }
                div class="sign" {
                    div { "Prepared by" } div { "Date" }
                    div { "Checked by" } div { "Date" }
                }
            }
        }
    }
    .into_string()
}

fn one(step: &Worked, sheet: &WorkingSheet<'_>) -> Markup {
    html! {
        li {
            h3 { (step.number) ". " (escaped(&step.name())) }
            p class="formula" { (step.formula()) }
            p class="formula" { "= " (step.put_in(sheet.units)) " = " b { (step.result(sheet.units)) } }
            table {
                @for figure in &step.figures {
                    tr {
                        td { (figure.symbol.text) }
                        td { (figure.with_unit(sheet.units)) }
                        td { (escaped(&figure.meaning())) " [" (escaped(&stands(figure.origin, sheet.practice))) "]" }
                    }
                }
            }
            @if let Some(basis) = step.rule.basis {
                p class="small" { "Formula: " (escaped(&of_basis(basis, None, sheet.practice))) "." }
            }
        }
    }
}
