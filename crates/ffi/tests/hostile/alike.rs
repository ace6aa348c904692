//! Whatever is asked through C, the findings are the core's own: the same codes, as serious, about the same layers.

use std::collections::BTreeSet;

use shophead::finding::Finding;
use shophead::hole::{AsFound, Damage};
use shophead::layout::RowLayout;
use shophead::length::Toleranced;
use shophead::structure::Member;
use shophead_tests::known::{Known, known};

use super::*;

/// Code, severity, layer: as numbers.
type Told = BTreeSet<(u32, u32, u32)>;

fn of_core<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> Told {
    let told = |finding: &Finding| {
        let (code, severity) = (finding.code().number(), finding.severity().number());
        (code, severity, u32::from(finding.layer().unwrap_or(0)))
    };
    findings.into_iter().map(told).collect()
}

fn of_c<const N: usize>(findings: &Watched<shophead_finding, N>, span: shophead_span) -> Told {
    assert_eq!(span.complete, 1);
    let read = (span.first..span.first + span.count).map(|index| findings.get(index as usize));
    read.map(|finding| (finding.code.0, finding.severity.0, finding.layer)).collect()
}

fn built_in(known: &Known) -> u32 {
    if *known.practice == HANDBOOK { 1 } else { 2 }
}

fn part_of(known: &Known) -> shophead_part {
    let bytes = known.rivet.to_string().into_bytes();
    let (mut part, mut warnings) = (Watched::<shophead_part>::new(), Watched::<u32>::new());
    let read = shophead_part_parse(reads_all(&bytes).cast_to_chars(), bytes.len(), part.out(), warnings.out());
    assert_eq!(read, shophead_error::SHOPHEAD_OK, "{}", known.rivet);
    part.get(0)
}

fn layers_of(known: &Known) -> Vec<shophead_layer> {
    let bytes = known.layers().into_bytes();
    let mut layers = Watched::<shophead_layer, SHOPHEAD_MAX_LAYERS>::several();
    let mut count = Watched::<usize>::new();
    let from = reads_all(&bytes).cast_to_chars();
    let read = shophead_layers_parse(from, bytes.len(), layers.out(), SHOPHEAD_MAX_LAYERS, count.out());
    assert_eq!(read, shophead_error::SHOPHEAD_OK, "{}", known.layers());
    (0..count.get(0)).map(|index| layers.get(index)).collect()
}

fn or_none(length: Option<Length>) -> i64 {
    length.map_or(SHOPHEAD_NONE, Length::nanometres)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_length_from_texts(known in known()) {
        let (part, layers) = (known.rivet.to_string().into_bytes(), known.layers().into_bytes());
        let practice = practice(built_in(&known), &[]);
        let mut fitted = Watched::<shophead_fitted>::new();
        let mut findings = Watched::<shophead_finding, SHOPHEAD_MAX_FINDINGS>::several();
        let error = shophead_length_fit(
            reads_all(&part).cast_to_chars(), part.len(), reads_all(&layers).cast_to_chars(), layers.len(), reads(&practice),
            fitted.out(), findings.out(), SHOPHEAD_MAX_FINDINGS,
        );
        match Installation::new(known.rivet, &known.stack).by(known.practice).length() {
            Ok(wanted) => {
                prop_assert_eq!(error, shophead_error::SHOPHEAD_OK);
                prop_assert_eq!(of_c(&findings, fitted.get(0).choice.findings), of_core(&wanted.findings));
            }
            Err(refused) => prop_assert_eq!(error, refused.into()),
        }
    }

    #[test]
    fn a_strength(known in known()) {
        let layers = layers_of(&known);
        let hole = known.hole.map(|hole| hole.max());
        let edge = known.edge.unwrap_or(Length::INCH);
        let joint = shophead_joint {
            part: part_of(&known), layers: reads_all(&layers), layer_count: layers.len(), edge_nm: edge.nanometres(),
            hole_nm: or_none(hole), pitch_nm: or_none(known.pitch), shear: 1, unused: 0,
            load: shophead_load { kind: 0, factors: 0, lbf: 0.0 },
        };
        let mut strength = Watched::<shophead_strength>::new();
        let mut sheets = Watched::<shophead_sheet, SHOPHEAD_MAX_LAYERS>::several();
        let mut findings = Watched::<shophead_finding, SHOPHEAD_MAX_FINDINGS>::several();
        let error = shophead_strength_find(
            reads(&joint), strength.out(), sheets.out(), SHOPHEAD_MAX_LAYERS, findings.out(), SHOPHEAD_MAX_FINDINGS,
        );
        let mut question = Installation::new(known.rivet, &known.stack).edge(edge);
        if let Some(hole) = hole {
            question = question.in_hole(Toleranced::exactly(hole));
        }
        if let Some(pitch) = known.pitch {
            question = question.pitch(pitch);
        }
        match question.strength() {
            Ok(wanted) => {
                prop_assert_eq!(error, shophead_error::SHOPHEAD_OK);
                prop_assert_eq!(of_c(&findings, strength.get(0).findings), of_core(&wanted.findings));
            }
            Err(_) => prop_assert!(error != shophead_error::SHOPHEAD_OK),
        }
    }

    #[test]
    fn a_hole(known in known(), major in 0_i64..20, minor in 0_i64..20) {
        let shank = known.rivet.size().shank_nominal.nanometres();
        let (minor, major) = (shank + minor.min(major) * 25_400, shank + major.max(minor) * 25_400);
        let layers = layers_of(&known);
        let query = shophead_hole_query {
            part: part_of(&known), layers: reads_all(&layers), layer_count: layers.len(), edge_nm: or_none(known.edge),
            pitch_nm: or_none(known.pitch), transverse_pitch_nm: or_none(known.row_spacing), rows: u32::from(known.rows),
            member: known.member.unwrap_or(Member::Other).number(), practice: practice(built_in(&known), &[]),
        };
        let hole = shophead_hole { major_nm: major, minor_nm: minor, damage: Damage::None.number(), unused: 0 };
        let mut judgement = Watched::<shophead_hole_judgement>::new();
        let mut steps = Watched::<shophead_step, SHOPHEAD_MAX_STEPS>::several();
        let mut findings = Watched::<shophead_finding, SHOPHEAD_MAX_HOLE_FINDINGS>::several();
        let error = shophead_hole_judge(
            reads(&query), reads(&hole), judgement.out(), steps.out(), SHOPHEAD_MAX_STEPS, findings.out(), SHOPHEAD_MAX_HOLE_FINDINGS,
        );
        prop_assert_eq!(error, shophead_error::SHOPHEAD_OK);
        let at = |nanometres| Length::from_nanometres(nanometres).expect("in range");
        let found = AsFound::new(at(major), at(minor), Damage::None).expect("a hole");
        let layout = RowLayout::default().edge(known.edge).pitch(known.pitch).transverse_pitch(known.row_spacing);
        let question = Installation::new(known.rivet, &known.stack).by(known.practice).layout(layout).rows(known.rows);
        let question = question.member(known.member.unwrap_or(Member::Other));
        let mut tried = Vec::new();
        let wanted = question.hole_step_by_step(found, &mut |step| tried.push((step.does(), of_core(&step.findings))));
        let judgement = judgement.get(0);
        prop_assert_eq!(judgement.disposition.0, wanted.disposition.number());
        prop_assert_eq!(of_c(&findings, judgement.findings), of_core(&wanted.findings));
        prop_assert_eq!(judgement.steps as usize, tried.len());
        for (index, (does, told)) in tried.into_iter().enumerate() {
            let step = steps.get(index);
            prop_assert_eq!((step.does == 1, of_c(&findings, step.findings)), (does, told));
        }
    }
}
