//! Laws of the one question: whatever is asked, equal facts get equal findings, and fewer facts never hide a referral.

use std::collections::BTreeSet;

use proptest::prelude::*;
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{BUILT_IN, Practice};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, MAX_LAYERS, Preparation, Role, Stack};
use shophead::structure::{Member, Structure};

use crate::common::{config, nm};

const THOUSANDTH: i64 = 25_400;

/// Everything that can be known of a rivet in its pack. What is `None` was not given.
#[derive(Debug, Clone)]
struct Known {
    rivet: Part<'static>,
    stack: Stack,
    practice: &'static Practice<'static>,
    hole: Option<Toleranced>,
    edge: Option<Length>,
    pitch: Option<Length>,
    rows: u16,
    row_spacing: Option<Length>,
    structure: Option<Structure>,
    member: Option<Member>,
    installed: Option<Part<'static>>,
}

impl Known {
    fn question(&self) -> Installation<'_, 'static> {
        let mut question = Installation::new(self.rivet, &self.stack).by(self.practice).rows(self.rows);
        if let Some(hole) = self.hole {
            question = question.in_hole(hole);
        }
        if let Some(edge) = self.edge {
            question = question.edge(edge);
        }
        if let Some(pitch) = self.pitch {
            question = question.pitch(pitch);
        }
        if let Some(spacing) = self.row_spacing {
            question = question.row_spacing(spacing);
        }
        if let Some(structure) = self.structure {
            question = question.structure(structure);
        }
        if let Some(member) = self.member {
            question = question.member(member);
        }
        if let Some(installed) = self.installed {
            question = question.in_place_of(installed);
        }
        question
    }

    /// The same without one of the facts; `None` where it was not known.
    fn without(&self, fact: Given) -> Option<Known> {
        let mut less = self.clone();
        match fact {
            Given::Hole => less.hole.take().map(drop)?,
            Given::Edge => less.edge.take().map(drop)?,
            Given::Pitch => less.pitch.take().map(drop)?,
            Given::RowSpacing => less.row_spacing.take().map(drop)?,
            Given::Structure => less.structure.take().map(drop)?,
            Given::Member => less.member.take().map(drop)?,
            Given::Installed => less.installed.take().map(drop)?,
            Given::Material => {
                let layers: Vec<Layer> =
                    self.stack.layers().iter().map(|layer| Layer { material: None, ..*layer }).collect();
                less.stack = stacked(&layers);
            }
        }
        Some(less)
    }

    /// What each kind of answer finds; an answer that cannot be given is left out.
    fn answers(&self) -> Vec<(&'static str, Vec<Finding>)> {
        let question = self.question();
        let mut answers = Vec::new();
        if let Ok(found) = question.length() {
            assert!(found.findings.is_complete());
            answers.push(("length", found.findings.iter().copied().collect()));
        }
        if let Ok(found) = question.assess(Length::from_64ths(32)) {
            assert!(found.findings.is_complete());
            answers.push(("assess", found.findings.iter().copied().collect()));
        }
        if let Ok(found) = question.strength() {
            assert!(found.findings.is_complete());
            answers.push(("strength", found.findings.iter().copied().collect()));
        }
        if let Ok(found) = question.row() {
            assert!(found.findings.is_complete());
            answers.push(("row", found.findings.iter().copied().collect()));
        }
        answers
    }
}

/// A fact that may be left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Given {
    Hole,
    Edge,
    Pitch,
    RowSpacing,
    Structure,
    Member,
    Installed,
    Material,
}

impl Given {
    const ALL: [Given; 8] = [
        Given::Hole,
        Given::Edge,
        Given::Pitch,
        Given::RowSpacing,
        Given::Structure,
        Given::Member,
        Given::Installed,
        Given::Material,
    ];

    /// Whether this finding is about the fact, by the trade's own sense of its words: only then may it go with it.
    fn is_what_it_is_about(self, finding: &Finding) -> bool {
        use Code as C;
        match self {
            Given::Hole => matches!(
                finding.code(),
                C::HoleOverLimit | C::HoleUnderLimit | C::ShankDoesNotEnter | C::NoLimit
                // A measured hole takes more metal, or less, than one as drilled.
                | C::TailTooLong | C::TailTooShort | C::HeadTooLarge | C::NoLengthFits | C::LengthByHole | C::CutToLength
                // And more of the sheet.
                | C::EdgeMarginBelowTable | C::WeakerThanBefore | C::StrengthNotPublished
            ),
            Given::Edge => matches!(
                finding.code(),
                C::EdgeDistanceShort | C::EdgeMarginBelowTable | C::WeakerThanBefore | C::StrengthNotPublished
            ),
            // Holes that touch are no joint, whose strength is nowhere.
            Given::Pitch => matches!(finding.code(), C::PitchShort | C::TransversePitchShort | C::StrengthNotPublished),
            Given::RowSpacing => matches!(finding.code(), C::TransversePitchShort),
            // On primary structure more is asked for.
            Given::Structure => {
                matches!(finding.code(), C::NotChecked | C::NotStructural | C::HeatTreatFirst | C::DiameterOutsideRule)
            }
            Given::Member => matches!(finding.code(), C::StepNeedsApproval),
            Given::Installed => matches!(
                finding.code(),
                // To compare with what was there asks for more facts than a strength alone.
                C::NotChecked | C::WeakerThanBefore | C::StrengthNotPublished | C::EdgeDistanceShort | C::PitchShort
                // A rivet that is larger than the one before has spacings of its own.
                | C::TransversePitchShort | C::SubstituteTooSmall | C::SubstituteNotNamed
            ),
            // No strength of its material, no strength to be missed at a short edge: which is then short all the same.
            Given::Material => matches!(
                finding.code(),
                C::EdgeMarginBelowTable
                    | C::WeakerThanBefore
                    | C::StrengthNotPublished
                    | C::LimitFromMemory
                    | C::SheetTooThinForTable
            ),
        }
    }
}

fn stacked(layers: &[Layer]) -> Stack {
    let mut stack = Stack::new();
    for layer in layers {
        stack.push(*layer).expect("room");
    }
    stack
}

fn layers() -> impl Strategy<Value = Stack> {
    let thickness = prop::sample::select(vec![16_i64, 20, 25, 32, 40, 50, 63, 71, 80, 125, 190, 250, 400]);
    let material = prop::sample::select(vec![None, Some("clad 2024-T3"), Some("2024-T3"), Some("7075-T6")]);
    let seat = prop::sample::select(vec![
        Preparation::Plain,
        Preparation::Plain,
        Preparation::Plain,
        Preparation::Countersunk,
        Preparation::Dimpled,
    ]);
    let role = prop::sample::select(vec![Role::Skin, Role::Skin, Role::Doubler, Role::Cap, Role::Shim]);
    let layer =
        (thickness, -1_i64..=2, material, seat, role).prop_map(|(thick, off, material, preparation, role)| Layer {
            role,
            material: material.map(|word| Material::parse(word).expect("a material")),
            preparation,
            ..Layer::of(
                Toleranced::new(nm(thick * THOUSANDTH), nm(off.max(0) * THOUSANDTH), nm(off.max(0) * THOUSANDTH))
                    .expect("tolerances"),
            )
        });
    prop::collection::vec(layer, 2..=MAX_LAYERS).prop_map(|layers| stacked(&layers))
}

fn rivet() -> impl Strategy<Value = Part<'static>> {
    let series = prop::sample::select(vec!["MS20470", "MS20426", "NAS1097", "NAS1242"]);
    (series, prop::sample::select(vec!["AD", "D", "DD", "B", "A"]), 2_u8..=10)
        .prop_filter_map("a rivet of the standard", |(series, alloy, dash)| {
            Part::parse(&format!("{series}{alloy}{dash}")).ok()
        })
}

fn known() -> impl Strategy<Value = Known> {
    let thousandths = |range: std::ops::Range<i64>| prop::option::of(range.prop_map(|value| nm(value * THOUSANDTH)));
    let around = (rivet(), layers(), prop::sample::select(BUILT_IN.to_vec()), prop::option::of((-4_i64..24, 0_i64..4)));
    let distances = (thousandths(100..800), thousandths(100..1_200), 1_u16..=3, thousandths(100..1_000));
    let place = (
        prop::option::of(prop::sample::select(Structure::ALL)),
        prop::option::of(prop::sample::select(Member::ALL)),
        prop::option::of(rivet()),
        prop::bool::ANY,
    );
    (around, distances, place).prop_map(
        |((rivet, stack, practice, hole), (edge, pitch, rows, row_spacing), (structure, member, installed, same))| {
            let shank = rivet.size().shank_nominal.nanometres();
            let hole = hole.map(|(least, more)| {
                Toleranced::new(nm(shank + least * THOUSANDTH), Length::ZERO, nm(more * THOUSANDTH)).expect("a hole")
            });
            let installed = installed.map(|other| if same { rivet } else { other });
            Known { rivet, stack, practice, hole, edge, pitch, rows, row_spacing, structure, member, installed }
        },
    )
}

/// What scripts compare: the kind, how serious, and which layer.
fn told<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> BTreeSet<(Code, Severity, Option<u8>)> {
    findings.into_iter().map(|finding| (finding.code(), finding.severity(), finding.layer())).collect()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn whatever_is_asked_the_same_facts_get_the_same_findings(known in known()) {
        let always = known.question().findings();
        prop_assert!(always.is_complete());
        let always = told(&always);
        for (asked, found) in known.answers() {
            let found = told(&found);
            let lost: Vec<_> = always.difference(&found).collect();
            prop_assert!(lost.is_empty(), "{asked} says nothing of {lost:?}");
            // Of the checks that always run no answer knows more, or says it more or less seriously.
            let codes: BTreeSet<Code> = always.iter().map(|(code, ..)| *code).collect();
            let more: Vec<_> = found.difference(&always).filter(|(code, ..)| ALWAYS.contains(code) && !codes.contains(code)).collect();
            prop_assert!(more.is_empty(), "{asked} alone says {more:?}");
        }
    }

    #[test]
    fn a_hole_kept_is_judged_as_the_rivet_in_it(known in known(), major in 0_i64..20, minor in 0_i64..20) {
        let shank = known.rivet.size().shank_nominal.nanometres();
        let (minor, major) = (minor.min(major), minor.max(major));
        let found = AsFound::new(nm(shank + major * THOUSANDTH), nm(shank + minor * THOUSANDTH), Damage::None).expect("a hole");
        let hole = Toleranced::new(found.minor(), Length::ZERO, nm((major - minor) * THOUSANDTH)).expect("a hole");
        let known = Known { hole: Some(hole), installed: Some(known.rivet), ..known };
        let always = known.question().findings();
        let mut keep = None;
        known.question().hole_step_by_step(found, &mut |step| {
            keep.get_or_insert_with(|| step.clone());
        });
        let keep = keep.expect("the first step is to keep it");
        let referred = |findings: BTreeSet<(Code, Severity, Option<u8>)>| -> BTreeSet<_> {
            findings.into_iter().filter(|(_, severity, _)| *severity == Severity::Refer).collect()
        };
        let lost: Vec<_> = referred(told(&always)).difference(&referred(told(&keep.findings))).copied().collect();
        prop_assert!(lost.is_empty(), "keeping the hole says nothing of {lost:?}");
    }

    #[test]
    fn fewer_facts_never_hide_a_referral_that_does_not_need_them(known in known()) {
        for fact in Given::ALL {
            let Some(less) = known.without(fact) else { continue };
            let fewer = less.answers();
            for (asked, found) in known.answers() {
                let Some((_, left)) = fewer.iter().find(|(name, _)| *name == asked) else { continue };
                for referral in found.iter().filter(|finding| finding.severity() == Severity::Refer) {
                    let is_left = left.iter().any(|finding| {
                        finding.code() == referral.code() && finding.severity() == Severity::Refer
                    });
                    prop_assert!(
                        is_left || fact.is_what_it_is_about(referral),
                        "{asked}: without {fact:?} nothing is said of {:?}", referral.code()
                    );
                }
            }
        }
    }
}

/// Codes that come from the checks which always run, and from nowhere else.
const ALWAYS: &[Code] = &[
    Code::DiameterOutsideRule,
    Code::NotStructural,
    Code::HeatTreatFirst,
    Code::ShankDoesNotEnter,
    Code::ShankMayNotEnter,
    Code::HoleOverLimit,
    Code::HoleUnderLimit,
    Code::HoleAboveDrill,
    Code::CountersinkTooDeep,
    Code::DimpleTooThick,
    Code::FlushHeadWithoutSeat,
    Code::SeatWithoutFlushHead,
    Code::SeatInWrongLayer,
    Code::EdgeDistanceShort,
    Code::EdgeDistanceLong,
    Code::EdgeBelowPreferred,
    Code::EdgeAsBuilt,
    Code::PitchShort,
    Code::PitchLong,
    Code::PitchAsBuilt,
    Code::TransversePitchShort,
    Code::ShimInPack,
];
