//! Equal facts get equal findings: the session says of a rivet in its pack what the core says, word for word in its shorter form.

use proptest::prelude::*;
use shophead::finding::{Finding, Severity};
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::practice::HANDBOOK;
use shophead::stack::{MAX_LAYERS, Preparation, Role, Stack};
use shophead::words::Units;
use shophead_tests::known::{Known, known, stacked};
use shophead_tests::person::{PAGE_END, converse};
use shophead_tests::prelude::exact;

/// Everything shown, its lines joined and the page turns taken out.
fn shown(script: &str) -> String {
    let shown = converse(script, 40, 8).shown;
    let text = String::from_utf8(shown).expect("ASCII").replace(PAGE_END, " ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// How the session begins what it says of a finding.
fn said(finding: &Finding) -> String {
    let word = match finding.severity() {
        Severity::Refer => "STOP:",
        Severity::Caution => "care:",
        Severity::Note => "note:",
    };
    let text = format!("{word} {}", finding.short(Units::Inches));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the session asks of a pack: no role, a preparation of a flush head only, a material where it is asked for; nothing entered is the one
/// before.
fn asked_about(known: &Known, materials: bool) -> Stack {
    let is_flush = known.rivet.series().head.is_flush();
    let mut above = None;
    let layers = known.stack.layers().iter().map(|layer| {
        above = layer.material.or(above);
        let preparation = if is_flush { layer.preparation } else { Preparation::Plain };
        layer.material(above.filter(|_| materials)).preparation(preparation).role(Role::Skin)
    });
    stacked(&layers.collect::<Vec<_>>())
}

/// Rivet and layers as they are keyed in.
fn keys(question: &str, known: &Known, stack: &Stack, materials: bool) -> String {
    let mut keys = format!("{question}\n{}\n", known.rivet);
    for layer in stack.layers() {
        let over = layer.thickness.max().checked_sub(layer.thickness.nominal()).expect("a tolerance");
        keys.push_str(&format!("{}+-{}\n", exact(layer.thickness.nominal()), exact(over)));
        if materials {
            keys.push_str(&format!("{}\n", layer.material.map(|material| material.to_string()).unwrap_or_default()));
        }
        if known.rivet.series().head.is_flush() {
            keys.push_str(&format!("{}\n", layer.preparation.number()));
        }
    }
    // The last of as many as there may be is not asked behind.
    if stack.layers().len() < MAX_LAYERS {
        keys.push('\n');
    }
    keys
}

fn compare(script: &str, wanted: &[Finding]) -> Result<(), TestCaseError> {
    let text = shown(script);
    for finding in wanted {
        prop_assert!(text.contains(&said(finding)), "nothing says {:?} in {text}\nkeyed {script}", said(finding));
    }
    let begun = ["STOP: ", "care: ", "note: "].iter().map(|word| text.matches(word).count()).sum::<usize>();
    prop_assert_eq!(begun, wanted.len(), "{}\nkeyed {}", text, script);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_length(known in known()) {
        let stack = asked_about(&known, false);
        let hole = known.hole.map(|hole| Toleranced::exactly(hole.max()));
        let keyed = hole.map(|hole| exact(hole.nominal())).unwrap_or_default();
        let script = format!("{}{keyed}\n", keys("1", &known, &stack, false));
        let mut question = Installation::new(known.rivet, &stack).by(&HANDBOOK);
        if let Some(hole) = hole {
            question = question.in_hole(hole);
        }
        let Ok(wanted) = question.length() else { return Ok(()) };
        compare(&script, &wanted.findings.iter().copied().collect::<Vec<_>>())?;
    }

    #[test]
    fn a_strength(known in known()) {
        let stack = asked_about(&known, true);
        let edge = known.edge.unwrap_or(Length::INCH);
        let pitch = known.pitch.map(exact).unwrap_or_default();
        let script = format!("{}{}\n{pitch}\n1\n", keys("6", &known, &stack, true), exact(edge));
        let mut question = Installation::new(known.rivet, &stack).by(&HANDBOOK).edge(edge);
        question = known.pitch.map_or(question, |pitch| question.pitch(pitch));
        let Ok(wanted) = question.strength() else { return Ok(()) };
        compare(&script, &wanted.findings.iter().copied().collect::<Vec<_>>())?;
    }
}
