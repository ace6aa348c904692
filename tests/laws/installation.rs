//! Laws of the one question: whatever is asked, equal facts get equal findings, and fewer facts never hide a referral.

use std::collections::BTreeSet;

use proptest::prelude::*;
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::{AsFound, Damage};
use shophead::length::{Length, Toleranced};
use shophead::stack::{Layer, Preparation};
use shophead_tests::known::{Known, known, stacked, told};
use shophead_tests::prelude::{THOUSANDTH, nm};

use crate::common::config;

/// What each kind of answer finds; an answer that cannot be given is left out.
fn answers(known: &Known) -> Vec<(&'static str, Vec<Finding>)> {
    let question = known.question();
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
        assert!(found.joint.findings.is_complete());
        answers.push(("row", found.joint.findings.iter().copied().collect()));
    }
    answers
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

    /// All but this; `None` where it was not known.
    fn left_out_of(self, known: &Known) -> Option<Known> {
        let mut less = known.clone();
        match self {
            Given::Hole => less.hole.take().map(drop)?,
            Given::Edge => less.edge.take().map(drop)?,
            Given::Pitch => less.pitch.take().map(drop)?,
            // The next row's holes are an edge to this one's load.
            Given::RowSpacing => less.row_spacing.take().map(drop)?,
            Given::Structure => less.structure.take().map(drop)?,
            Given::Member => less.member.take().map(drop)?,
            Given::Installed => less.installed.take().map(drop)?,
            Given::Material => {
                let layers: Vec<Layer> = known.stack.layers().iter().map(|layer| layer.material(None)).collect();
                less.stack = stacked(&layers);
            }
        }
        Some(less)
    }

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
                | C::EdgeMarginBelowTable | C::SheetTooThinForTable | C::WeakerThanBefore | C::StrengthNotPublished
            ),
            Given::Edge => matches!(
                finding.code(),
                C::EdgeDistanceShort | C::EdgeMarginBelowTable | C::WeakerThanBefore | C::StrengthNotPublished
            ),
            // Holes that touch are no joint, whose strength is nowhere.
            Given::Pitch => matches!(
                finding.code(),
                C::PitchShort | C::TransversePitchShort | C::RivetsTouch | C::StrengthNotPublished
            ),
            Given::RowSpacing => {
                let code = finding.code();
                matches!(code, C::TransversePitchShort | C::RivetsTouch)
                    || matches!(code, C::EdgeMarginBelowTable | C::StrengthNotPublished)
            }
            // On primary structure more is asked for.
            Given::Structure => {
                matches!(finding.code(), C::NotChecked | C::NotStructural | C::HeatTreatFirst | C::DiameterOutsideRule)
            }
            Given::Member => matches!(finding.code(), C::StepNeedsApproval),
            // To compare with what was there asks for more facts than a strength alone, and a rivet that is larger than the one before has
            // spacings of its own.
            Given::Installed => matches!(
                finding.code(),
                C::NotChecked
                    | C::ShankSmaller
                    | C::EdgeMarginBelowTable
                    | C::WeakerThanBefore
                    | C::StrengthNotPublished
                    | C::EdgeDistanceShort
                    | C::PitchShort
                    | C::TransversePitchShort
                    | C::SubstituteTooSmall
                    | C::SubstituteNotNamed
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

proptest! {
    #![proptest_config(config())]

    #[test]
    fn whatever_is_asked_the_same_facts_get_the_same_findings(known in known()) {
        let always = known.question().findings();
        prop_assert!(always.is_complete());
        let always = told(&always);
        for (asked, found) in answers(&known) {
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

    /// What is about one layer names it, and it is a layer of the pack that the finding is about.
    #[test]
    fn what_is_about_one_layer_names_it(known in known()) {
        const ABOUT_ONE: [Code; 12] = [
            Code::DiameterOutsideRule, Code::SeatWithoutFlushHead, Code::SeatInWrongLayer, Code::CountersinkTooDeep,
            Code::DimpleTooThick, Code::SheetTooThinForTable, Code::EdgeMarginBelowTable, Code::BearingOutsideTests,
            Code::ShimInPack, Code::WetBearing, Code::BucklesBetweenRivets, Code::SeatForNewHead,
        ];
        let layers = known.stack.layers();
        let is_seat = |layer: &&Layer| layer.preparation != Preparation::Plain;
        for finding in answers(&known).into_iter().flat_map(|(_, findings)| findings) {
            let number = finding.layer().map(usize::from);
            prop_assert!(number.is_none_or(|number| (1..=layers.len()).contains(&number)), "{finding:?}");
            // A head that several layers take is cut into each of them.
            let is_several = finding.code() == Code::SeatForNewHead && layers.iter().filter(is_seat).count() != 1;
            if !ABOUT_ONE.contains(&finding.code()) || is_several {
                continue;
            }
            let Some(number) = number else { return Err(TestCaseError::fail(format!("no layer: {finding:?}"))) };
            let layer = layers[number - 1];
            match finding.code() {
                Code::DiameterOutsideRule => {
                    prop_assert_eq!(Some(layer.thickness.nominal()), known.stack.thickest());
                    prop_assert!(layer.role.carries_load());
                }
                Code::CountersinkTooDeep => prop_assert_eq!(layer.preparation, Preparation::Countersunk),
                Code::SeatForNewHead | Code::SeatWithoutFlushHead | Code::SeatInWrongLayer => {
                    prop_assert!(is_seat(&&layer));
                }
                _ => {}
            }
        }
    }

    /// A protruding head bears on either side alike.
    #[test]
    fn a_plain_pack_turned_over_is_the_same_pack(known in known()) {
        if known.rivet.series().head.is_flush() {
            return Ok(());
        }
        let plain = |layer: &Layer| layer.preparation(Preparation::Plain);
        let layers: Vec<Layer> = known.stack.layers().iter().map(plain).collect();
        let turned: Vec<Layer> = layers.iter().rev().copied().collect();
        let known = Known { stack: stacked(&layers), ..known };
        let turned = Known { stack: stacked(&turned), ..known.clone() };
        let codes = |found: &[Finding]| -> BTreeSet<(Code, Severity)> {
            found.iter().map(|finding| (finding.code(), finding.severity())).collect()
        };
        for ((asked, found), (_, other)) in answers(&known).into_iter().zip(answers(&turned)) {
            prop_assert_eq!(codes(&found), codes(&other), "{}", asked);
        }
        let (one, other) = (known.question().length(), turned.question().length());
        prop_assert_eq!(one.map(|found| found.length).ok(), other.map(|found| found.length).ok());
        let carried = |known: &Known| known.question().strength().ok().and_then(|found| found.allowable);
        prop_assert_eq!(carried(&known).map(|found| found.force), carried(&turned).map(|found| found.force));
    }

    #[test]
    fn fewer_facts_never_hide_a_referral_that_does_not_need_them(known in known()) {
        for fact in Given::ALL {
            let Some(less) = fact.left_out_of(&known) else { continue };
            let fewer = answers(&less);
            for (asked, found) in answers(&known) {
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
