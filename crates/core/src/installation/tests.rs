extern crate std;

use crate::prelude::length;
use std::string::{String, ToString};
use std::vec::Vec;

use super::{Installation, Step};
use crate::answer::{Answered, Ruling};
use crate::drill::Drill;
use crate::fact::{Fact, Facts};
use crate::finding::{Code, Figure, Findings, Severity};
use crate::hole::{AsFound, Damage, Direction, Disposition};
use crate::joint::strength::Shear;
use crate::length::{Length, Toleranced};
use crate::practice::PROCESS;
use crate::rivet::part::Part;
use crate::stack::Stack;
use crate::structure::{Member, Structure};

fn part(text: &str) -> Part<'static> {
    Part::parse(text).expect(text)
}

fn stack(text: &str) -> Stack {
    Stack::parse(text).expect(text)
}

fn found(major: &str, minor: &str, damage: Damage) -> AsFound {
    AsFound::new(length(major), length(minor), damage).expect("a hole")
}

fn severity<const N: usize>(findings: &Findings<N>, code: Code) -> Option<Severity> {
    findings.iter().find(|finding| finding.code() == code).map(|finding| finding.severity())
}

/// Sheets that everything is published for, and room around the hole.
fn in_plain_sheets<'q>(rivet: &str, stack: &'q Stack) -> Installation<'q, 'static> {
    Installation::new(part(rivet), stack).edge(length("1/2")).pitch(length("3/4")).member(Member::Skin)
}

const PLAIN: &str = "clad 2024-T3:.040, clad 2024-T3:.050";

#[test]
fn the_ladder_is_climbed_step_by_step() {
    let stack = stack(PLAIN);
    let question = in_plain_sheets("MS20470AD4", &stack);
    for (major, minor, damage, disposition, cut) in [
        (".1285", ".1285", Damage::None, Disposition::Keep, None),
        (".135", ".1285", Damage::None, Disposition::Keep, None),
        (".120", ".120", Damage::None, Disposition::CleanUp, Some("#30")),
        (".127", ".125", Damage::Gouged, Disposition::CleanUp, Some("#30")),
        // The drill has to take the score out: #30 takes nothing off, and #29 is over the limit.
        (".1285", ".1285", Damage::Gouged, Disposition::Oversize, Some("#27")),
        (".1351", ".132", Damage::None, Disposition::Oversize, Some("#27")),
        // Opened for the oversize shank, and measured again: as it wants it.
        (".145", ".144", Damage::None, Disposition::Oversize, None),
        (".145", ".144", Damage::Gouged, Disposition::Oversize, Some("#26")),
        (".150", ".130", Damage::FigureEight, Disposition::NextSize, Some("#21")),
        (".170", ".130", Damage::None, Disposition::Refer, None),
        (".1285", ".1285", Damage::Cracked, Disposition::Refer, None),
        (".1285", ".1285", Damage::DeepCountersink, Disposition::NextSize, Some("#21")),
    ] {
        let mut steps: Vec<Step<'_>> = Vec::new();
        let answer = question.hole_step_by_step(found(major, minor, damage), &mut |step| steps.push(step.clone()));
        assert_eq!(answer.disposition, disposition, "{major} {damage:?} {steps:?}");
        assert_eq!(answer.cut, cut.map(|cut| Drill::parse(cut).expect(cut)), "{major}");
        assert_eq!(answer.findings.must_refer(), disposition == Disposition::Refer, "{major}");
        assert!(steps.iter().rev().skip(1).all(|step| !step.does()), "every step before the last says why");
    }
}

#[test]
fn a_hole_above_its_drill_and_within_the_table_is_kept_with_a_caution() {
    let stack = stack(PLAIN);
    let question = in_plain_sheets("MS20470AD4", &stack);
    // As drilled: to .004 over the largest shank, .128.
    for (diameter, cautioned) in [(".1285", false), (".132", false), (".1321", true), (".135", true)] {
        let answer = question.hole(found(diameter, diameter, Damage::None));
        assert_eq!(answer.disposition, Disposition::Keep, "{diameter}");
        assert_eq!(answer.findings.has(Code::HoleAboveDrill), cautioned, "{diameter}");
    }
}

#[test]
fn the_centre_moves_with_the_elongation() {
    let stack = stack(PLAIN);
    // 2 D of the oversize shank is .28125; the elongation of .010 takes .005 off the edge distance.
    let at = |edge: &str| {
        let mut is_short = false;
        let question = in_plain_sheets("MS20470AD4", &stack).edge(length(edge));
        let answer = question.hole_step_by_step(found(".140", ".130", Damage::None), &mut |step| {
            is_short |= step.kind == Disposition::Oversize && step.findings.has(Code::EdgeDistanceShort);
        });
        (answer.disposition, is_short)
    };
    assert_eq!(at(".28625"), (Disposition::Oversize, false));
    assert_eq!(at(".2862"), (Disposition::Refer, true));
}

#[test]
fn a_hole_is_used_as_it_is_where_it_is_good_for_the_step() {
    let stack = stack(PLAIN);
    let at = |rivet: &str, found: AsFound| {
        let answer = in_plain_sheets(rivet, &stack).hole(found);
        (answer.rivet.map(|rivet| rivet.to_string()), answer.cut.map(|cut| cut.to_string()), answer.findings)
    };
    for (rivet, diameter, taken) in [
        ("MS20470AD5", ".1775", "NAS1242AD5"),
        ("MS20470AD3", ".130", "MS20470AD4"),
        ("MS20470AD4", ".1476", "NAS1242AD4"),
    ] {
        let (other, cut, _) = at(rivet, found(diameter, diameter, Damage::None));
        assert_eq!((other.as_deref(), cut), (Some(taken), None), "{rivet} {diameter}");
        // One with a score is not, and neither is one that is too small one way.
        for other in [found(diameter, diameter, Damage::Gouged), found(diameter, ".100", Damage::None)] {
            let (other, cut, _) = at(rivet, other);
            assert_eq!(other.is_some(), cut.is_some(), "{rivet} {diameter}");
        }
    }
    // Measured one way only: the drill makes it round, and where that would be too large the answer asks for the other axis.
    let one_axis = |diameter| at("MS20470AD5", AsFound::one_axis(length(diameter), Damage::None).expect("a hole"));
    let (rivet, cut, findings) = one_axis(".176");
    assert_eq!((rivet.as_deref(), cut.as_deref()), (Some("NAS1242AD5"), Some("#16")));
    assert!(!findings.has(Code::NotChecked));
    let (rivet, cut, findings) = one_axis(".1775");
    assert_eq!((rivet.as_deref(), cut), (Some("NAS1242AD5"), None));
    let missing = findings.iter().find(|finding| finding.code() == Code::NotChecked).and_then(|found| found.measured());
    assert_eq!(missing, Some(Figure::Facts(Facts::NONE.with(Fact::MinorAxis))));
}

#[test]
fn a_flush_seat_is_cut_for_the_new_head_all_the_same() {
    let stack = stack("clad 2024-T3:.080:countersunk, clad 2024-T3:.063");
    let answer = in_plain_sheets("MS20426AD3", &stack).hole(found(".130", ".130", Damage::None));
    assert_eq!((answer.disposition, answer.cut), (Disposition::NextSize, None));
    let seat = answer.findings.iter().find(|finding| finding.code() == Code::SeatForNewHead).expect("said");
    assert_eq!(seat.limit(), Some(Figure::Length(length(".222"))));
}

#[test]
fn damage_comes_out_with_the_drill_and_by_how_much_is_said() {
    let stack = stack(PLAIN);
    let answer = in_plain_sheets("MS20470AD4", &stack).hole(found(".127", ".125", Damage::Gouged));
    let out = answer.findings.iter().find(|finding| finding.code() == Code::DamageComesOut).expect("said");
    assert_eq!((out.severity(), out.measured()), (Severity::Caution, Some(Figure::Length(length(".00075")))));
}

#[test]
fn an_elongation_along_the_edge_is_not_towards_it() {
    let stack = stack(PLAIN);
    // 2 D of the oversize shank is .28125; half the elongation is .005.
    let at = |direction: Option<Direction>| {
        let long = found(".140", ".130", Damage::None);
        let long = long.lying(direction);
        in_plain_sheets("MS20470AD4", &stack).edge(length(".2815")).hole(long).disposition
    };
    assert_eq!(at(Some(Direction::Along)), Disposition::Oversize);
    assert_eq!(at(Some(Direction::Across)), Disposition::Refer);
    assert_eq!(at(None), Disposition::Refer, "unknown counts");
}

#[test]
fn a_hole_that_was_opened_is_not_as_the_maker_built_it() {
    let stack = stack(PLAIN);
    let question = in_plain_sheets("MS20470AD4", &stack).edge(length(".24")).in_place_of(part("MS20470AD4"));
    let sound = found(".1285", ".1285", Damage::None);
    assert_eq!(question.hole(sound).disposition, Disposition::Keep);
    let opened = question.hole(sound.opened(true));
    assert_eq!(opened.disposition, Disposition::Refer);
    assert!(opened.findings.has(Code::EdgeDistanceShort));
    // What goes into a hole that was opened is compared with what was installed.
    let weaker = in_plain_sheets("MS20470A5", &stack).in_place_of(part("MS20470AD4"));
    let at = |found: AsFound| weaker.hole(found).findings.has(Code::WeakerThanBefore);
    let sound = found(".160", ".160", Damage::None);
    assert!(at(sound.opened(true)) && !at(sound));
}

#[test]
fn the_next_size_is_one_step_from_what_was_installed() {
    let stack = stack(PLAIN);
    let question =
        in_plain_sheets("MS20470AD5", &stack).by(&PROCESS).pitch(length("1")).in_place_of(part("MS20470AD4"));
    let mut next = None;
    question.hole_step_by_step(found(".185", ".185", Damage::None), &mut |step| next = Some(step.clone()));
    let next = next.expect("tried");
    assert_eq!(next.rivet, Some(part("MS20470AD6")));
    assert!(next.findings.has(Code::StepTooLarge), "from 1/8 to 3/16 are two steps");
}

#[test]
fn a_spar_cap_is_not_stepped_up_without_approval() {
    let stack = stack("clad 2024-T3:.040, clad 2024-T3:.125");
    let question = in_plain_sheets("MS20470AD5", &stack).member(Member::SparCap);
    let mut steps = Vec::new();
    let answer = question.hole_step_by_step(found(".172", ".160", Damage::None), &mut |step| steps.push(step.clone()));
    assert_eq!(answer.disposition, Disposition::Refer);
    assert!(steps.iter().skip(2).all(|step| step.findings.has(Code::StepNeedsApproval)));
    assert!(answer.findings.has(Code::HoleOverLimit), "a hole that is referred says what is wrong with it as it is");
}

#[test]
fn a_thin_countersunk_skin_cannot_take_the_next_head() {
    let stack = stack("clad 2024-T3:.054:countersunk, clad 2024-T3:.063");
    let mut next = None;
    let answer =
        in_plain_sheets("MS20426AD4", &stack).hole_step_by_step(found(".150", ".140", Damage::None), &mut |step| {
            next = Some(step.clone());
        });
    assert!(next.expect("tried").findings.has(Code::CountersinkTooDeep));
    assert_eq!(answer.disposition, Disposition::Refer);
}

#[test]
fn the_seat_is_asked_for_whatever_is_asked() {
    for (layers, rivet, code) in [
        ("2024-T3:.020, 2024-T3:.125", "MS20426AD5", Code::FlushHeadWithoutSeat),
        ("2024-T3:.090:countersunk, 2024-T3:.125", "MS20470AD4", Code::SeatWithoutFlushHead),
        ("2024-T3:.020, 2024-T3:.125:countersunk", "MS20426AD4", Code::SeatInWrongLayer),
        ("2024-T3:.050:countersunk, 2024-T3:.125", "MS20426AD5", Code::CountersinkTooDeep),
    ] {
        let stack = stack(layers);
        let question = in_plain_sheets(rivet, &stack).edge(length("1/2"));
        let hole = question.hole_or_drilled().value;
        let found = AsFound::new(hole.max(), hole.min(), Damage::None).expect("a hole");
        let strength = question.strength().expect("sheets");
        for said in [
            severity(&question.findings(), code),
            severity(&question.length().expect("a pack").findings, code),
            severity(&question.hole(found).findings, code),
            severity(&strength.findings, code),
            severity(&question.row().expect("a row").joint.findings, code),
        ] {
            assert_eq!(said, Some(Severity::Refer), "{layers} {code}");
        }
        if code != Code::CountersinkTooDeep && code != Code::SeatWithoutFlushHead {
            assert_eq!(strength.allowable, None, "{layers}: no joint, no strength");
        }
    }
}

/// One rivet for each check that always runs: whatever is asked of it, the check's finding is there.
#[test]
fn every_check_runs_whatever_is_asked() {
    type With = for<'q> fn(Installation<'q, 'static>) -> Installation<'q, 'static>;
    let as_it_is: With = |question| question;
    let cases: &[(Code, &str, &str, With)] = &[
        (Code::DiameterOutsideRule, "MS20470AD4", "2024-T3:.040, 2024-T3:.250", as_it_is),
        (Code::SheetTooThinForTable, "MS20470AD5", "2024-T3:.016, 2024-T3:.063", as_it_is),
        (Code::FlushHeadWithoutSeat, "MS20426AD4", PLAIN, as_it_is),
        (Code::HeatTreatFirst, "MS20470DD6", "2024-T3:.063, 2024-T3:.063", as_it_is),
        (Code::NotStructural, "MS20470A4", PLAIN, as_it_is),
        (Code::NoLimit, "MS20615-4M", PLAIN, as_it_is),
        (Code::ShankDoesNotEnter, "MS20470AD4", PLAIN, |question| {
            question.in_hole(Toleranced::exactly(length(".120")))
        }),
        (Code::HoleUnderLimit, "MS20470AD4", PLAIN, |question| question.in_hole(Toleranced::exactly(length(".120")))),
        (Code::ShankMayNotEnter, "MS20470AD4", PLAIN, |question| question.in_hole(Toleranced::exactly(length(".126")))),
        (Code::HoleAboveDrill, "MS20470AD4", PLAIN, |question| question.in_hole(Toleranced::exactly(length(".134")))),
        (Code::HoleOverLimit, "MS20470AD4", PLAIN, |question| question.in_hole(Toleranced::exactly(length(".136")))),
        (Code::LimitFromMemory, "NAS1242AD4", PLAIN, |question| question.in_hole(Toleranced::exactly(length(".145")))),
        (Code::EdgeDistanceShort, "MS20470AD4", PLAIN, |question| question.edge(length(".2"))),
        (Code::PitchShort, "MS20470AD4", PLAIN, |question| question.pitch(length(".3"))),
        (Code::RivetsTouch, "MS20470AD4", PLAIN, |question| question.pitch(length(".2"))),
        (Code::TransversePitchShort, "MS20470AD4", PLAIN, |question| question.rows(2).row_spacing(length(".28"))),
        (Code::ShimInPack, "MS20470AD4", "2024-T3:.040, 2024-T3:.020:shim, 2024-T3:.040", as_it_is),
        (Code::WetBearing, "MS20470AD4", "2024-T3:.040, .005:sealant, 2024-T3:.040", as_it_is),
        (Code::UnequalSheets, "MS20470AD4", "2024-T3:.032, 2024-T3:.063, 2024-T3:.050", |question| {
            question.shear(Shear::Double)
        }),
        (Code::SubstituteTooSmall, "MS20470AD4", PLAIN, |question| question.in_place_of(part("MS20470D4"))),
        (Code::ShankSmaller, "MS20470AD4", PLAIN, |question| question.in_place_of(part("MS20470AD5"))),
    ];
    for (code, rivet, layers, with) in cases {
        let stack = stack(layers);
        let question = with(in_plain_sheets(rivet, &stack));
        assert!(question.findings().has(*code), "{code}: {:?}", question.findings());
        let answer = question.length().expect("a pack");
        assert!(answer.findings.has(*code), "length says nothing of {code}");
        let assessed = question.assess(length("3/8")).expect("a pack");
        assert!(assessed.findings.has(*code), "a length that was given says nothing of {code}");
        if let Ok(found) = question.strength() {
            assert!(found.findings.has(*code), "strength says nothing of {code}");
        }
        if let Ok(found) = question.row() {
            assert!(found.joint.findings.has(*code), "a row says nothing of {code}");
        }
    }
}

#[test]
fn a_seat_is_judged_in_the_thinnest_sheet() {
    // The head of MS20426AD4 is .042 deep.
    let nominal = stack(".045:countersunk, .125");
    let case = Installation::new(part("MS20426AD4"), &nominal);
    let thin = stack(".045+-.004:countersunk, .125");
    let question = Installation::new(part("MS20426AD4"), &thin);
    let refers = |findings: Findings| severity(&findings, Code::CountersinkTooDeep) == Some(Severity::Refer);
    assert!(!refers(case.findings()), "{:?}", case.findings());
    assert!(refers(question.findings()), "{:?}", question.findings());
}

#[test]
fn what_the_maker_built_is_copied_down_to_one_and_a_half_diameters() {
    let stack = stack(PLAIN);
    let at = |edge: &str, installed: Option<&str>| {
        let question = in_plain_sheets("MS20470AD4", &stack).edge(length(edge));
        let question = installed.map_or(question, |installed| question.in_place_of(part(installed)));
        let findings = question.findings();
        (severity(&findings, Code::EdgeDistanceShort), severity(&findings, Code::EdgeAsBuilt))
    };
    assert_eq!(at(".25", None), (None, None));
    assert_eq!(at(".249", None), (Some(Severity::Refer), None));
    assert_eq!(at(".249", Some("MS20470AD4-5")), (None, Some(Severity::Caution)));
    assert_eq!(at(".1875", Some("MS20470AD4")), (None, Some(Severity::Caution)));
    assert_eq!(at(".1874", Some("MS20470AD4")), (Some(Severity::Refer), None));
    assert_eq!(at(".249", Some("MS20470AD3")), (Some(Severity::Refer), None), "changed in size");
}

#[test]
fn what_is_missing_is_said_once_and_stops_primary_structure() {
    let stack = stack(".040, .050");
    let question = Installation::new(part("MS20470AD4"), &stack);
    let hole = found(".129", ".129", Damage::None);
    fn missing<const N: usize>(findings: &Findings<N>) -> Option<(String, Severity)> {
        let said: Vec<_> = findings.iter().filter(|finding| finding.code() == Code::NotChecked).collect();
        assert!(said.len() <= 1, "{said:?}");
        let first = said.first()?;
        let Some(Figure::Facts(facts)) = first.measured() else { panic!("{first:?}") };
        Some((facts.to_string(), first.severity()))
    }
    let kept = question.hole(hole);
    assert_eq!(missing(&kept.findings), Some(("edge distance, pitch".to_string(), Severity::Caution)));
    let strength = question.strength().expect("sheets");
    assert_eq!(missing(&strength.findings), Some(("material, edge distance".to_string(), Severity::Caution)));
    let primary = question.structure(Structure::Primary);
    assert_eq!(primary.hole(hole).disposition, Disposition::Refer);
    assert_eq!(missing(&primary.hole(hole).findings).map(|(_, severity)| severity), Some(Severity::Refer));
    assert_eq!(missing(&question.length().expect("a pack").findings), None);
}

#[test]
fn a_shank_that_cannot_enter_is_no_joint() {
    let stack = stack(PLAIN);
    let question = in_plain_sheets("MS20470AD4", &stack).in_hole(Toleranced::exactly(length(".100")));
    let found = question.strength().expect("sheets");
    assert!(found.findings.has(Code::ShankDoesNotEnter) && found.findings.must_refer());
    assert_eq!(found.allowable, None);
}

#[test]
fn shims_and_unequal_sheets_are_said() {
    let shimmed = stack("2024-T3:.040, 2024-T3:.125:shim, 2024-T3:.040");
    let found = in_plain_sheets("MS20470AD4", &shimmed).strength().expect("sheets");
    assert_eq!(severity(&found.findings, Code::ShimInPack), Some(Severity::Caution));
    let unequal = stack("2024-T3:.032, 2024-T3:.063, 2024-T3:.125");
    let found = in_plain_sheets("MS20470AD4", &unequal).shear(Shear::Double).strength().expect("sheets");
    assert_eq!(severity(&found.findings, Code::UnequalSheets), Some(Severity::Caution));
}

#[test]
fn an_answer_about_a_hole_is_small() {
    assert!(size_of::<super::HoleAnswer<'_>>() <= 600, "{}", size_of::<super::HoleAnswer<'_>>());
    assert!(size_of::<Step<'_>>() <= 600, "{}", size_of::<Step<'_>>());
    assert!(Fact::ALL.len() <= 8);
}

/// What an answer breaks of a published limit is said: for every ruling, and it stops nothing.
#[test]
fn an_answer_that_breaks_a_limit_says_so() {
    let layers = Stack::parse("2024-T3:.063, 7075-T6:.190").expect("layers");
    let inch = |text| Length::parse(text).expect(text);
    let question = Installation::new(Part::parse("MS20470AD5").expect("a rivet"), &layers).edge(inch(".2"));
    let found = AsFound::new(inch(".175"), inch(".161"), Damage::None).expect("a hole");
    for ruling in [Ruling::Keep, Ruling::CleanUp, Ruling::NextSize] {
        let step = question.as_answered(Some(found), &Answered { ruling, rivet: None, drill: None }).expect("a step");
        assert!(step.findings.has(Code::EdgeDistanceShort), "{ruling}");
        assert!(!step.findings.must_refer(), "{ruling}");
    }
}

/// Whether a length is asked for or given: the same referral.
#[test]
fn what_is_not_known_of_a_rivet_is_said_of_a_length_that_is_given_too() {
    for (code, rivet, grip) in [(Code::NoLimit, "MS20615-4M", ".125"), (Code::NoLengthFits, "MS20426AD4", ".030")] {
        let question = Installation::through(part(rivet), Toleranced::exactly(length(grip)));
        let asked = question.length().expect(rivet).findings;
        let given = question.assess(length("3/8")).expect(rivet).findings;
        assert_eq!(severity(&asked, code), Some(Severity::Refer), "{rivet}: {asked:?}");
        assert_eq!(severity(&given, code), Some(Severity::Refer), "{rivet}: {given:?}");
    }
}
