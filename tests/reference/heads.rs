//! Driven heads: the limits of the documents, and what is rejected.
//!
//! Every limit is met exactly, missed by a nanometre on the wrong side and by a nanometre on the right side. Nothing here has a
//! tolerance.

use shophead::basis::Status;
use shophead::finding::{Code, Figure, Finding, Severity};
use shophead::length::{Interval, Length};
use shophead::material::RivetAlloy;
use shophead::practice::{BUILT_IN, Case, Given, HANDBOOK, Name, PROCESS, Practice};
use shophead::rivet::{Head, MS20470};
use shophead::upset::{Defect, HeadJudgement, HeadLimits, MeasuredHead, Remedy, judge, judge_seen};
use shophead_tests::prelude::length;
use shophead_tests::{Comparison, Row, fixture};

fn by(length: Length, nanometres: i64) -> Length {
    Length::from_nanometres(length.nanometres() + nanometres).expect("in range")
}

/// The least length over every one of 0, so that a limit of it can be missed.
fn hair() -> Length {
    by(Length::ZERO, 1)
}

fn universal(alloy: RivetAlloy, diameter: &str) -> Case {
    Case::new(Head::Universal, alloy, length(diameter))
}

fn flush(diameter: &str) -> Case {
    Case::new(Head::Flush, RivetAlloy::Al2117, length(diameter))
}

fn row(rows: &[Row], id: &str) -> Row {
    rows.iter().find(|row| row.text("id") == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

/// A head that no limit rejects: as wide and as high as the practice wants it.
fn sound(limits: &HeadLimits) -> MeasuredHead {
    let (diameter, height) = (limits.diameter_target.expect("a width"), limits.height_target.expect("a height"));
    MeasuredHead::new(Interval::exactly(diameter.value), Interval::exactly(height.value))
}

fn codes(measured: MeasuredHead, practice: &Practice<'_>, case: &Case) -> Vec<Code> {
    let judgement = judge(measured, &[], practice, case);
    assert_eq!(judgement.accepted, judgement.remedy.is_none());
    rejecting(&judgement).iter().map(|finding| finding.code()).collect()
}

/// What speaks against a head.
fn rejecting(judgement: &HeadJudgement) -> Vec<Finding> {
    judgement.findings.iter().copied().filter(|finding| finding.severity() == Severity::Refer).collect()
}

/// Holds a head against each limit that there is: at it, inside it and outside it.
fn meets_its_limits_exactly(practice: &Practice<'_>, case: &Case) -> usize {
    let limits = HeadLimits::of(practice, case);
    let sound = sound(&limits);
    assert_eq!(codes(sound, practice, case), []);
    let wide = |at| sound.diameter(Interval::exactly(at));
    let high = |at| sound.height(Interval::exactly(at));
    let mut met = 0;
    let mut holds = |limit: Option<Given<Length>>, outwards: i64, code, head: &dyn Fn(Length) -> MeasuredHead| {
        let Some(limit) = limit else { return };
        met += 1;
        assert_eq!(codes(head(limit.value), practice, case), [], "{code} at {:?}", limit.value);
        assert_eq!(codes(head(by(limit.value, -outwards)), practice, case), [], "{code} inside {:?}", limit.value);
        assert_eq!(codes(head(by(limit.value, outwards)), practice, case), [code], "outside {:?}", limit.value);
    };
    holds(limits.diameter_least, -1, Code::HeadTooNarrow, &wide);
    if let Some(greatest) = limits.diameter_greatest {
        // It cautions: no document read gives a greatest diameter.
        let judged = judge(wide(by(greatest.value, 1)), &[], practice, case);
        let said = judged.findings.iter().find(|finding| finding.code() == Code::HeadTooWide).expect("said");
        assert_eq!((judged.accepted, said.severity()), (true, Severity::Caution));
    }
    holds(limits.height_least, -1, Code::HeadTooLow, &high);
    holds(limits.height_greatest, 1, Code::HeadTooHigh, &high);
    met
}

/// Table III, every size of it; its cells are compared in `process_spec`.
#[test]
fn every_row_of_table_iii_rejects_to_the_nanometre() {
    let mut met = 0;
    for size in 2..=13_i16 {
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(2 * size));
        met += meets_its_limits_exactly(&PROCESS, &case);
    }
    assert_eq!(met, 12 * 3);
}

/// MIL-HDBK-5H: 1.3 D, for 7050 1.4 D, by 0.3 D; checked for every diameter of the series. The process specification makes no exception
/// for 7050: there a head under 1.4 D is accepted, with a caution that the strengths count on more.
#[test]
fn the_strength_handbook_asks_more_width_of_7050() {
    let rows = fixture("practice-limits");
    let figure = |id: &str| row(&rows, id).text("says").trim_end_matches(" D").parse::<f64>().expect("a multiple");
    let mut cells = Comparison::with_misfits(&[]);
    for (width_id, height_id, alloys) in [
        ("HD-01a", "HD-02a", &[RivetAlloy::Al2117, RivetAlloy::Al2017, RivetAlloy::Al2024, RivetAlloy::Al5056][..]),
        ("HD-01b", "HD-02b", &[RivetAlloy::Al7050][..]),
    ] {
        for (alloy, size) in alloys.iter().flat_map(|alloy| MS20470.sizes.iter().map(move |size| (alloy, size))) {
            let case = Case::of(Head::Universal, *alloy, size);
            let limits = HeadLimits::of(&HANDBOOK, &case);
            let name = format!("{alloy:?} -{}", size.dash);
            let width = limits.diameter_least.expect("a width").value.to_inches_f64();
            let height = limits.height_least.expect("a height").value.to_inches_f64();
            // A nanometre: the multiple is taken in binary here, in whole nanometres there.
            const NANOMETRE: f64 = 1.0 / 25_400_000.0;
            let times = |id: &str| figure(id) * size.shank_nominal.to_inches_f64();
            cells.close(&format!("{name} width"), times(width_id), width, NANOMETRE);
            cells.close(&format!("{name} height"), times(height_id), height, NANOMETRE);
            assert_eq!(meets_its_limits_exactly(&HANDBOOK, &case), 3);
        }
    }
    cells.finish(5 * 8 * 2);
    let case = universal(RivetAlloy::Al7050, "1/8");
    let narrow = |at: Length, practice| {
        let head = sound(&HeadLimits::of(practice, &case)).diameter(Interval::exactly(at));
        judge(head, &[], practice, &case)
    };
    let (least, strong) = (length(".163"), length(".175"));
    let judged = narrow(least, &PROCESS);
    assert!(judged.accepted && judged.findings.has(Code::HeadNarrowForStrength));
    assert!(!narrow(strong, &PROCESS).findings.has(Code::HeadNarrowForStrength));
    assert!(!narrow(by(strong, -1), &HANDBOOK).accepted);
}

/// The only sheet that gives a greatest width names no issuer: it cautions. A shop's own limit rejects.
#[test]
fn a_wide_head_is_looked_at_again_and_not_rejected() {
    use shophead::basis::{Basis, Document};
    use shophead::practice::{Limit, Scope, Value};
    let case = universal(RivetAlloy::Al2117, "1/8");
    let head = |at: Length, practice| {
        let head = sound(&HeadLimits::of(practice, &case)).diameter(Interval::exactly(at));
        judge(head, &[], practice, &case)
    };
    let greatest = length(".210");
    for practice in BUILT_IN {
        assert!(!head(greatest, practice).findings.has(Code::HeadTooWide));
        let judged = head(by(greatest, 1), practice);
        let wide = judged.findings.iter().find(|finding| finding.code() == Code::HeadTooWide).expect("said");
        assert_eq!((judged.accepted, wide.severity()), (true, Severity::Caution));
    }
    let documents = [Document { document: "hull repair manual", place: "4-2" }];
    let own = [Limit::new(Name::HeadDiameterGreatest, Scope::ANY, Value::Length(greatest), Basis::own(0))];
    let shop = HANDBOOK.with_own(&own, &documents);
    assert!(head(greatest, &shop).accepted && !head(by(greatest, 1), &shop).accepted);
}

/// 4.2.1j: the shortest dimension under the least diameter, the longest over one and a half of it.
#[test]
fn a_head_out_of_round_is_judged_by_its_least_diameter_and_by_their_ratio() {
    let case = universal(RivetAlloy::Al2117, "1/8");
    for practice in BUILT_IN {
        let limits = HeadLimits::of(practice, &case);
        let least = limits.diameter_least.expect("a width").value;
        let oval = |min, max| sound(&limits).diameter(Interval::of(min, max));
        // One and a half of the least: .24375 of .1625, .2445 of .163.
        let longest = by(Length::ZERO, least.nanometres() * 3 / 2);
        assert_eq!(codes(oval(least, longest), practice, &case), []);
        assert_eq!(codes(oval(least, by(longest, 1)), practice, &case), [Code::HeadOutOfRound]);
        assert_eq!(codes(oval(by(least, -1), least), practice, &case), [Code::HeadTooNarrow]);
    }
}

/// 4.2.1a and c: bevelled and stepped heads by both heights; the high part of a stepped one may come off.
#[test]
fn a_tipped_or_stepped_head_is_judged_by_both_its_heights() {
    let case = universal(RivetAlloy::Al2117, "1/8");
    let (low, high) = (length(".050"), length(".070"));
    let width = Some(Interval::exactly(length(".190")));
    let judged = |defect, min, max| judge_seen(width, Some(Interval::of(min, max)), &[defect], &PROCESS, &case);
    for (defect, code, too_high) in
        [(Defect::Tipped, Code::HeadTipped, Remedy::Replace), (Defect::Stepped, Code::HeadStepped, Remedy::Dress)]
    {
        let within = judged(defect, low, high);
        assert!(within.accepted && within.findings.has(code), "{defect:?} {within:?}");
        for (min, max, rejected, remedy) in
            [(by(low, -1), high, Code::HeadTooLow, Remedy::Replace), (low, by(high, 1), Code::HeadTooHigh, too_high)]
        {
            let outside = judged(defect, min, max);
            assert_eq!(rejecting(&outside).iter().map(Finding::code).collect::<Vec<_>>(), [rejected], "{defect:?}");
            assert_eq!(outside.remedy.map(|remedy| remedy.value), Some(remedy), "{defect:?}");
        }
        // One height says nothing about the other.
        for height in [None, Some(Interval::exactly(low))] {
            let one = judge_seen(width, height, &[defect], &PROCESS, &case);
            assert!(!one.accepted && one.findings.has(code), "{defect:?} {height:?}");
        }
    }
}

fn rejected(defect: Defect, practice: &Practice<'_>, case: &Case) -> Vec<(Code, String)> {
    let judgement = judge(sound(&HeadLimits::of(practice, case)), &[defect], practice, case);
    let findings = rejecting(&judgement);
    assert_eq!(judgement.accepted, findings.is_empty(), "{defect:?}");
    let cited = |finding: &Finding| practice.cite(finding.basis());
    findings.iter().map(|finding| (finding.code(), cited(finding).to_string())).collect()
}

/// 4.2.1h and k: any crack in 2024; in other alloys inside 1.10 D, crossing, five and more.
#[test]
fn the_specification_takes_small_cracks_near_the_rim_but_none_in_2024() {
    let case = universal(RivetAlloy::Al2117, "1/8");
    // 1.10 of an eighth.
    let circle = length(".1375");
    let cracks = |count, innermost, meeting| Defect::Cracks { count, innermost, meeting };
    for (defect, refused) in [
        (cracks(0, None, false), false),
        (cracks(1, Some(by(circle, 1)), false), false),
        (cracks(4, Some(by(circle, 1)), false), false),
        // "any crack inside a circle": one that just reaches it is not left outside.
        (cracks(1, Some(circle), false), true),
        (cracks(1, Some(by(circle, -1)), false), true),
        (cracks(1, None, false), true),
        (cracks(2, Some(by(circle, 1)), true), true),
        (cracks(5, Some(by(circle, 1)), false), true),
    ] {
        let found = rejected(defect, &PROCESS, &case);
        assert_eq!(!found.is_empty(), refused, "{defect:?}");
        for (code, basis) in found {
            assert!(matches!(code, Code::HeadCracked | Code::CrackNearMiddle), "{code}");
            assert!(basis.starts_with("MIL-R-47196A(MI), p 7, 4.2.1k"), "{basis}");
        }
        if let Defect::Cracks { count: 1.., .. } = defect {
            let hard = universal(RivetAlloy::Al2024, "1/8");
            let found = rejected(defect, &PROCESS, &hard);
            assert_eq!(found.len(), 1, "{defect:?}");
            assert!(found[0].1.starts_with("MIL-R-47196A(MI), p 7, 4.2.1h"), "{}", found[0].1);
        }
    }
}

/// AC 43.13-1B, 4-58: any crack. What FAA-H-8083-31B p 4-92 would take stands beside it, as a note with its circle.
#[test]
fn the_handbooks_take_no_crack_and_print_the_other_one_beside_it() {
    let rows = fixture("practice-limits");
    let case = universal(RivetAlloy::Al2117, "1/8");
    let crack = Defect::Cracks { count: 1, innermost: Some(length(".180")), meeting: false };
    let found = rejected(crack, &HANDBOOK, &case);
    assert_eq!(found.len(), 1);
    assert!(found[0].1.starts_with("AC 43.13-1B, para 4-58"), "{}", found[0].1);
    let judged = judge(sound(&HeadLimits::of(&HANDBOOK, &case)), &[crack], &HANDBOOK, &case);
    let beside = judged.findings.iter().find(|finding| finding.code() == Code::CracksElsewhere).expect("said");
    // 1.25 of an eighth.
    assert_eq!((beside.severity(), beside.limit()), (Severity::Note, Some(Figure::Length(length(".15625")))));
    let place = HANDBOOK.cite(beside.basis()).to_string();
    for (id, said) in [
        ("UH-40", "depth under D/8"),
        ("UH-41", "width under D/16"),
        ("UH-42", "inside a circle of at most 1.25 D"),
        ("UH-43", "none meeting another"),
    ] {
        assert!(row(&rows, id).text("source").starts_with("FAA-H-8083-31B"), "{id}");
        assert!(place.contains(said), "{id}: {place}");
    }
    let judged = judge(sound(&HeadLimits::of(&PROCESS, &case)), &[crack], &PROCESS, &case);
    assert!(judged.accepted && !judged.findings.has(Code::CracksElsewhere));
}

/// 4.2.1i and l: a protruding manufactured head outside 1.40 D; a flush one not at all.
#[test]
fn cracks_in_the_manufactured_head() {
    let crack = |innermost| Defect::ManufacturedCracks { innermost };
    let (case, circle) = (universal(RivetAlloy::Al2117, "1/8"), length(".175"));
    assert_eq!(rejected(crack(Some(by(circle, 1))), &PROCESS, &case), []);
    for innermost in [Some(circle), None] {
        let found = rejected(crack(innermost), &PROCESS, &case);
        assert_eq!(found, [(Code::CrackNearMiddle, "MIL-R-47196A(MI), p 7, 4.2.1l".to_owned())]);
    }
    assert_eq!(rejected(crack(Some(by(circle, 1))), &HANDBOOK, &case).len(), 1, "4-58: none");
    for practice in BUILT_IN {
        let found = rejected(crack(Some(length(".220"))), practice, &flush("1/8"));
        assert!(found[0].1.starts_with("MIL-R-47196A(MI), p 7, 4.2.1i"), "{}", found[0].1);
    }
}

#[test]
fn a_tool_mark_may_be_a_quarter_of_a_protruding_head_and_nothing_of_a_flush_one() {
    let (height, quarter) = (length(".054"), length(".0135"));
    let mark = |depth| Defect::ToolMark { depth, head_height: height };
    for practice in BUILT_IN {
        let case = universal(RivetAlloy::Al2117, "1/8");
        assert_eq!(rejected(mark(quarter), practice, &case), []);
        let found = rejected(mark(by(quarter, 1)), practice, &case);
        assert_eq!(found, [(Code::HeadMarked, "MIL-STD-403C, para 5.2.7.5, secondary quotation".to_owned())]);
        let found = rejected(mark(hair()), practice, &flush("1/8"));
        assert_eq!(found.len(), 1);
        assert!(found[0].1.starts_with("MIL-R-47196A(MI), p 7, 4.2.1i"), "{}", found[0].1);
    }
}

/// Tables II and IV, 3.3.6 and 4.2.1m, each at its limit and a nanometre beyond it. Both practices: the handbooks are silent.
#[test]
fn flush_heads_flattened_heads_and_gaps_are_held_against_the_specification() {
    let protruding = universal(RivetAlloy::Al2117, "1/4");
    let sunk = flush("1/4");
    let gap = |feeler, rim_percent| Defect::GapUnderDrivenHead { feeler, rim_percent };
    for practice in BUILT_IN {
        let remedy = |defect, case: &Case| {
            let judged = judge(sound(&HeadLimits::of(practice, case)), &[defect], practice, case);
            judged.remedy.map(|remedy| remedy.value)
        };
        for (defect, case, wanted) in [
            (Defect::Flattened(length(".083")), &protruding, None),
            (Defect::Flattened(by(length(".083"), -1)), &protruding, Some(Remedy::Replace)),
            (Defect::Proud(length(".010")), &sunk, None),
            // H is .012 for a quarter inch: up to there it is shaved, above there is not enough head for that.
            (Defect::Proud(by(length(".010"), 1)), &sunk, Some(Remedy::Shave)),
            (Defect::Proud(length(".012")), &sunk, Some(Remedy::Shave)),
            (Defect::Proud(by(length(".012"), 1)), &sunk, Some(Remedy::Replace)),
            (Defect::Low(length(".005")), &sunk, None),
            (Defect::Low(by(length(".005"), 1)), &sunk, Some(Remedy::Replace)),
            (Defect::Shaved(length(".443")), &sunk, None),
            (Defect::Shaved(by(length(".443"), -1)), &sunk, Some(Remedy::Replace)),
            (gap(length(".002"), 40), &protruding, None),
            (gap(by(length(".002"), 1), 40), &protruding, Some(Remedy::Replace)),
            (gap(length(".002"), 41), &protruding, Some(Remedy::Replace)),
            (gap(length(".001"), 100), &protruding, Some(Remedy::Replace)),
        ] {
            assert_eq!(remedy(defect, case), wanted, "{} {defect:?}", practice.name());
        }
    }
    // In a size whose H is less than the finished flushness nothing is left to shave.
    let small = flush("3/32");
    let judged = judge(sound(&HeadLimits::of(&PROCESS, &small)), &[Defect::Proud(length(".011"))], &PROCESS, &small);
    assert_eq!(judged.remedy.map(|remedy| remedy.value), Some(Remedy::Replace));
}

/// The rows that tell what is replaced and what is referred; each names the document that its finding names.
#[test]
fn what_the_tables_reject_is_rejected_and_named() {
    let rows = fixture("rejection-criteria");
    let hard = universal(RivetAlloy::Al2024, "1/8");
    let case = universal(RivetAlloy::Al2117, "1/8");
    let sunk = flush("1/8");
    let crack = |count, innermost: &str, meeting| Defect::Cracks { count, innermost: Some(length(innermost)), meeting };
    let mut met = Vec::new();
    for (id, says, defect, case, code) in [
        ("RC-30", "any crack", crack(1, ".190", false), &hard, Code::HeadCracked),
        ("RC-31", "inside 1.10 D, or crossing, or five and more", crack(5, ".190", false), &case, Code::HeadCracked),
        (
            "RC-32",
            "inside 1.40 D",
            Defect::ManufacturedCracks { innermost: Some(length(".17")) },
            &case,
            Code::CrackNearMiddle,
        ),
        ("RC-33", "any", Defect::ManufacturedCracks { innermost: None }, &sunk, Code::HeadCracked),
        ("RC-34", "0.002 in feeler reaches the shank", Defect::SheetsApart, &case, Code::SheetsApart),
        (
            "RC-35",
            "any in a continuous 60 %; over 0.002 in in the other 40 %",
            Defect::GapUnderDrivenHead { feeler: length(".003"), rim_percent: 10 },
            &case,
            Code::GapUnderHead,
        ),
        ("RC-36", "any", Defect::GapUnderHead, &case, Code::GapUnderHead),
        ("RC-38", "either height outside table III", Defect::Tipped, &case, Code::HeadTipped),
        (
            "RC-39",
            "hole or deburred edge visible, or rim not upset all round",
            Defect::Clinched,
            &case,
            Code::HeadDefect,
        ),
        (
            "RC-40",
            "deformed, bulged, cut or marred by bar, set, pressure or chips",
            Defect::SheetDamaged,
            &case,
            Code::SheetDamaged,
        ),
        ("RC-08", "moves by hand", Defect::Loose, &case, Code::RivetLoose),
        ("RC-12", "found after drilling off the head", Defect::NotchedShank, &case, Code::ShankNotched),
        ("RC-05", "contact all round between driven head and surface", Defect::GapUnderHead, &case, Code::GapUnderHead),
        (
            "RC-06",
            "flush, centred in countersink, contact all round",
            Defect::Proud(length(".020")),
            &sunk,
            Code::HeadProud,
        ),
    ] {
        met.push(id);
        let row = row(&rows, id);
        assert_eq!((row.text("sign_or_limit"), row.is_read()), (says, true), "{}", row.place());
        let judged = judge(sound(&HeadLimits::of(&PROCESS, case)), &[defect], &PROCESS, case);
        let found = rejecting(&judged);
        assert!(found.iter().all(|finding| finding.code() == code) && !found.is_empty(), "{}: {found:?}", row.place());
        let wanted = match row.text("action") {
            "next larger rivet" => Remedy::NextSize,
            "refer" => Remedy::Refer,
            action => {
                assert!(action.starts_with("replace"), "{}", row.place());
                Remedy::Replace
            }
        };
        assert_eq!(judged.remedy.map(|remedy| remedy.value), Some(wanted), "{}", row.place());
        let document = PROCESS.cite(found[0].basis()).document;
        // The Army's manual asks for the same as the specification, which is firmer.
        let named = if row.text("source").starts_with("US Army") { "MIL-R-47196A(MI)" } else { document };
        assert!(row.text("source").starts_with(document) || document == named, "{}: {document}", row.place());
        assert_eq!(found[0].basis().status(), Status::Published, "{}", row.place());
    }
    // What the tests above hold the product against.
    for (id, says, action) in [
        ("RC-37", "longest over 1.5 x shortest, or shortest under table III", "replace"),
        ("RC-07", "none to rivet or skin, such as from a slipped bar", "replace or repair"),
        ("RC-20", "any crack", "reject"),
        (
            "RC-21",
            "accepted only if: depth under D/8; width under D/16; inside a circle of at most 1.25 D on the head; no two cracks meet",
            "replace when one is not met",
        ),
        ("RC-22", "over table III thickness (1/8: 0.070)", "refer"),
    ] {
        met.push(id);
        let row = row(&rows, id);
        assert_eq!((row.text("sign_or_limit"), row.text("action"), row.is_read()), (says, action, true));
    }
    let left: Vec<&str> = rows.iter().map(|row| row.text("id")).filter(|id| !met.contains(id)).collect();
    assert_eq!(left, [""; 0], "rows that nothing is checked against");
}

/// Of several reasons the one that goes furthest decides what is done; what is accepted needs nothing.
#[test]
fn the_remedy_that_goes_furthest_counts() {
    let case = universal(RivetAlloy::Al2117, "1/8");
    let sound = sound(&HeadLimits::of(&HANDBOOK, &case));
    let remedy = |defects: &[Defect]| {
        let judged = judge(sound, defects, &HANDBOOK, &case);
        assert_eq!(judged.accepted, judged.remedy.is_none(), "{defects:?}");
        judged.remedy.map(|remedy| remedy.value)
    };
    assert_eq!(remedy(&[]), None);
    assert_eq!(remedy(&[Defect::Loose]), Some(Remedy::Replace));
    assert_eq!(remedy(&[Defect::NotchedShank, Defect::Loose]), Some(Remedy::NextSize));
    assert_eq!(remedy(&[Defect::Loose, Defect::SheetDamaged, Defect::NotchedShank]), Some(Remedy::Refer));
    assert!(Remedy::ALL.is_sorted());
}

/// What was not measured rejects nothing, and is said not to have been checked.
#[test]
fn a_measure_that_was_not_taken_is_not_held_against_a_limit() {
    let case = universal(RivetAlloy::Al2117, "1/8");
    let limits = HeadLimits::of(&HANDBOOK, &case);
    let narrow = Some(Interval::exactly(by(limits.diameter_least.expect("a width").value, -1)));
    for (diameter, height, accepted, unchecked) in [
        (None, None, true, true),
        (narrow, None, false, true),
        (None, Some(sound(&limits).height), true, true),
        (Some(sound(&limits).diameter), Some(sound(&limits).height), true, false),
    ] {
        let judged = judge_seen(diameter, height, &[], &HANDBOOK, &case);
        assert_eq!((judged.accepted, judged.findings.has(Code::NotChecked)), (accepted, unchecked));
    }
}
