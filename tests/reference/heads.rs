//! Driven heads: the limits of the documents, and what is rejected.
//!
//! Every limit is met exactly, missed by a nanometre on the wrong side and by a nanometre on the right side. Nothing here has a
//! tolerance.

use shophead::basis::Status;
use shophead::finding::{Code, Finding, Severity};
use shophead::length::{Interval, Length};
use shophead::material::RivetAlloy;
use shophead::practice::{Case, Given, HANDBOOK, PROCESS, Practice};
use shophead::rivet::{Head, MS20470};
use shophead::upset::{Defect, HeadJudgement, HeadLimits, MeasuredHead, Remedy, judge, judge_seen};
use shophead_tests::{Comparison, Row, fixture};

fn length(text: &str) -> Length {
    Length::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn cell(row: &Row, column: &str) -> Option<Length> {
    let text = row.text(column);
    (!text.is_empty()).then(|| length(text))
}

fn by(length: Length, nanometres: i64) -> Length {
    Length::from_nanometres(length.nanometres() + nanometres).expect("in range")
}

fn universal(alloy: RivetAlloy, diameter: Length) -> Case {
    Case::new(Head::Universal, alloy, diameter)
}

fn row(rows: &[Row], id: &str) -> Row {
    rows.iter().find(|row| row.text("id") == id).unwrap_or_else(|| panic!("no row {id}")).clone()
}

/// A head that no limit rejects: as wide and as high as the practice wants it.
fn sound(limits: &HeadLimits) -> MeasuredHead {
    let (diameter, height) = (limits.diameter_target.expect("a width"), limits.height_target.expect("a height"));
    MeasuredHead { diameter: Interval::exactly(diameter.value), height: Interval::exactly(height.value) }
}

fn codes(measured: MeasuredHead, practice: &Practice<'_>, case: &Case) -> Vec<Code> {
    let judgement = judge(measured, &[], practice, case);
    let rejecting = rejecting(&judgement);
    assert_eq!(judgement.accepted, rejecting.is_empty(), "measures alone only reject");
    rejecting.iter().map(|finding| finding.code()).collect()
}

/// What speaks against a head. Beside it stand only notes that a limit which was met could only be recalled.
fn rejecting(judgement: &HeadJudgement) -> Vec<Finding> {
    let (notes, rejecting): (Vec<_>, Vec<_>) =
        judgement.findings.iter().copied().partition(|finding| finding.severity() == Severity::Note);
    for note in notes {
        assert_eq!((note.code(), note.basis().status()), (Code::LimitFromMemory, Status::Memory));
    }
    rejecting
}

/// Holds a head against each limit that there is: at it, inside it and outside it.
fn meets_its_limits_exactly(practice: &Practice<'_>, case: &Case) -> usize {
    let limits = HeadLimits::of(practice, case);
    let sound = sound(&limits);
    assert_eq!(codes(sound, practice, case), []);
    let wide = |at| MeasuredHead { diameter: Interval::exactly(at), ..sound };
    let high = |at| MeasuredHead { height: Interval::exactly(at), ..sound };
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

#[test]
fn the_rows_of_the_process_specification_are_its_limits() {
    let mut cells = Comparison::with_misfits(&[]);
    let mut met = 0;
    for row in fixture("upset-head-limits").iter().filter(|row| row.text("alloy") == "any") {
        let diameter = length(row.text("rivet_dia"));
        let case = universal(RivetAlloy::Al2117, diameter);
        let limits = HeadLimits::of(&PROCESS, &case);
        let name = row.text("rivet_dia");
        // Printed to the thousandth; where the row only continues the pattern, that is where it was rounded.
        let shown = |limit: Option<Given<Length>>| limit.map(|limit| format!("{:.3}", limit.value));
        cells.equal(
            &format!("{name} width"),
            Some(row.text("head_dia_min_in").to_owned()),
            shown(limits.diameter_least),
        );
        cells.equal(
            &format!("{name} height"),
            Some(row.text("head_height_min_in").to_owned()),
            shown(limits.height_least),
        );
        if let Some(greatest) = cell(row, "head_height_max_in") {
            cells.equal(
                &format!("{name} greatest height"),
                Some(greatest),
                limits.height_greatest.map(|limit| limit.value),
            );
        }
        cells.equal(&format!("{name} greatest width: none is quoted"), None, limits.diameter_greatest);
        let status = if row.is_read() { Status::Published } else { Status::Memory };
        cells.equal(&format!("{name} status"), Some(status), limits.diameter_least.map(|limit| limit.basis.status()));
        met += meets_its_limits_exactly(&PROCESS, &case);
    }
    cells.finish(8 * 4 + 3);
    assert_eq!(met, 8 * 3);
}

/// MIL-HDBK-5H: 1.3 D, for 7050 1.4 D, by 0.3 D; checked for every diameter of the series.
#[test]
fn the_strength_handbook_asks_more_width_of_7050() {
    let rows = fixture("upset-head-limits");
    let mut cells = Comparison::with_misfits(&[]);
    for (id, alloys) in [
        ("UH-09", &[RivetAlloy::Al2117, RivetAlloy::Al2017, RivetAlloy::Al2024, RivetAlloy::Al5056][..]),
        ("UH-10", &[RivetAlloy::Al7050][..]),
    ] {
        let row = row(&rows, id);
        let times = |column: &str, diameter: Length| row.number(column).expect("a multiple") * diameter.to_inches_f64();
        for (alloy, size) in alloys.iter().flat_map(|alloy| MS20470.sizes.iter().map(move |size| (alloy, size))) {
            let case = Case::of(Head::Universal, *alloy, size);
            let limits = HeadLimits::of(&HANDBOOK, &case);
            let name = format!("{alloy:?} -{}", size.dash);
            let width = limits.diameter_least.expect("a width").value.to_inches_f64();
            let height = limits.height_least.expect("a height").value.to_inches_f64();
            // A nanometre: the multiple is taken in binary here, in whole nanometres there.
            const NANOMETRE: f64 = 1.0 / 25_400_000.0;
            cells.close(&format!("{name} width"), times("dia_min_D", size.shank_nominal), width, NANOMETRE);
            cells.close(&format!("{name} height"), times("height_min_D", size.shank_nominal), height, NANOMETRE);
            assert_eq!(meets_its_limits_exactly(&HANDBOOK, &case), 3);
        }
        if id == "UH-10" {
            for size in MS20470.sizes {
                let case = Case::of(Head::Universal, RivetAlloy::Al7050, size);
                let process = HeadLimits::of(&PROCESS, &case).diameter_least.expect("a width");
                let handbook = HeadLimits::of(&HANDBOOK, &case).diameter_least.expect("a width");
                cells.equal(&format!("-{} process", size.dash), handbook.value, process.value);
            }
        }
    }
    cells.finish(5 * 8 * 2 + 8);
}

/// UH-16 and UH-17 are recalled, with little confidence: the test says only that the product does what they say.
#[test]
fn a_head_out_of_round_or_tipped_is_judged_by_both_ends() {
    let case = universal(RivetAlloy::Al2117, length("1/8"));
    let limits = HeadLimits::of(&PROCESS, &case);
    let sound = sound(&limits);
    let least = limits.diameter_least.expect("a width").value;
    let oval = |min| MeasuredHead { diameter: Interval::of(min, length(".190")), ..sound };
    assert_eq!(codes(oval(least), &PROCESS, &case), []);
    assert_eq!(codes(oval(by(least, -1)), &PROCESS, &case), [Code::HeadTooNarrow]);
    let tipped = |min, max| MeasuredHead { height: Interval::of(min, max), ..sound };
    let (low, high) = (length(".050"), length(".070"));
    assert_eq!(codes(tipped(low, high), &PROCESS, &case), []);
    assert_eq!(codes(tipped(by(low, -1), by(high, 1)), &PROCESS, &case), [Code::HeadTooLow, Code::HeadTooHigh]);
}

fn rejected(defect: Defect, practice: &Practice<'_>, case: &Case) -> Vec<(Code, Status, String)> {
    let judgement = judge(sound(&HeadLimits::of(practice, case)), &[defect], practice, case);
    let findings = rejecting(&judgement);
    assert_eq!(judgement.accepted, findings.is_empty(), "{defect:?}");
    findings
        .iter()
        .map(|finding| {
            (
                finding.code(),
                finding.basis().status(),
                finding.basis().citation().expect("built in").document.to_owned(),
            )
        })
        .collect()
}

#[test]
fn cracks_are_held_against_the_three_published_rejects() {
    let rows = fixture("upset-head-limits");
    for id in ["UH-11", "UH-12", "UH-13"] {
        assert!(row(&rows, id).is_read(), "{id} is proof only when read");
    }
    let case = universal(RivetAlloy::Al2117, length("1/8"));
    // 1.10 of an eighth.
    let circle = length(".1375");
    let cracks = |count, innermost, meeting| Defect::Cracks { count, innermost, meeting };
    let spec = || vec![(Code::HeadDefect, Status::Published, "MIL-R-47196A".to_owned())];
    for (defect, verdict) in [
        (cracks(0, None, false), vec![]),
        (cracks(1, Some(by(circle, 1)), false), vec![]),
        (cracks(4, Some(by(circle, 1)), false), vec![]),
        // "any crack inside a circle": one that just reaches it is not left outside.
        (cracks(1, Some(circle), false), spec()),
        (cracks(1, Some(by(circle, -1)), false), spec()),
        (cracks(1, None, false), spec()),
        (cracks(2, Some(by(circle, 1)), true), spec()),
        (cracks(5, Some(by(circle, 1)), false), spec()),
    ] {
        assert_eq!(rejected(defect, &PROCESS, &case), verdict, "{defect:?}");
    }
    // The handbooks give no crack limit: that is an answer, and not a yes.
    let handbook = rejected(cracks(1, Some(by(circle, 1)), false), &HANDBOOK, &case);
    assert_eq!(handbook.iter().map(|found| found.0).collect::<Vec<_>>(), [Code::NoLimit]);
}

#[test]
fn a_tool_mark_may_be_a_quarter_of_a_protruding_head_and_nothing_of_a_flush_one() {
    let rows = fixture("upset-head-limits");
    assert!(row(&rows, "UH-14").text("limit").contains("one quarter of the head height"));
    assert!(row(&rows, "UH-15").text("limit").contains("is not accepted"));
    let (height, quarter) = (length(".054"), length(".0135"));
    let mark = |depth| Defect::ToolMark { depth, head_height: height };
    for practice in [&HANDBOOK, &PROCESS] {
        let case = universal(RivetAlloy::Al2117, length("1/8"));
        assert_eq!(rejected(mark(quarter), practice, &case), []);
        assert_eq!(rejected(mark(by(quarter, 1)), practice, &case).len(), 1);
        let flush = Case { head: Head::Flush, ..case };
        let found = rejected(mark(by(Length::ZERO, 1)), practice, &flush);
        assert_eq!(found, [(Code::HeadDefect, Status::Published, "MIL-STD-403C".to_owned())]);
    }
}

/// The rows that tell what is replaced; the printed reason decides which document the finding names.
#[test]
fn what_the_tables_replace_is_rejected() {
    let rows = fixture("rejection-criteria");
    let case = universal(RivetAlloy::Al2117, length("1/8"));
    for (id, defect) in [
        ("RC-03", Defect::BuckledShank),
        ("RC-04", Defect::Tipped),
        ("RC-05", Defect::GapUnderHead),
        ("RC-07", Defect::SheetDamaged),
        ("RC-08", Defect::Loose),
        ("RC-10", Defect::SheetsApart),
        ("RC-11", Defect::BuckledShank),
        ("RC-12", Defect::NotchedShank),
    ] {
        let row = row(&rows, id);
        let remedy = defect.remedy().value;
        // A sheet that is damaged is repaired: that is for somebody else to say. RC-03 tells no action.
        match row.text("action") {
            "next larger rivet" => assert_eq!(remedy, Remedy::NextSize, "{}", row.place()),
            "replace or repair" => assert_eq!(remedy, Remedy::Refer, "{}", row.place()),
            action => {
                assert!(action.starts_with("replace") || id == "RC-03", "{}", row.place());
                assert_eq!(remedy, Remedy::Replace, "{}", row.place());
            }
        }
        for practice in [&HANDBOOK, &PROCESS] {
            let found = rejected(defect, practice, &case);
            assert_eq!(found.len(), 1, "{}", row.place());
            let (code, status, document) = &found[0];
            assert_eq!(*code, Code::HeadDefect);
            // RC-03 was read, in a manual for vehicles: the finding rests on the airframe handbook, which was recalled.
            if id != "RC-03" {
                assert!(row.text("source").starts_with(document.as_str()), "{}: {document}", row.place());
                assert_eq!(*status == Status::Memory, !row.is_read(), "{}", row.place());
            }
        }
    }
}

/// Of several reasons the one that goes furthest decides what is done; what is accepted needs nothing.
#[test]
fn the_remedy_that_goes_furthest_counts() {
    let case = universal(RivetAlloy::Al2117, length("1/8"));
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
    // The handbooks limit no cracks, so nobody here can say what is to be done about one.
    let crack = Defect::Cracks { count: 1, innermost: None, meeting: false };
    assert_eq!(remedy(&[crack]), Some(Remedy::Refer));
    let process = HeadLimits::of(&PROCESS, &case);
    let judged = judge(self::sound(&process), &[crack], &PROCESS, &case);
    assert_eq!(judged.remedy.map(|remedy| remedy.value), Some(Remedy::Replace));
}

/// What was not measured rejects nothing, and is said not to have been checked.
#[test]
fn a_measure_that_was_not_taken_is_not_held_against_a_limit() {
    let case = universal(RivetAlloy::Al2117, length("1/8"));
    let limits = HeadLimits::of(&HANDBOOK, &case);
    let narrow = Some(Interval::exactly(by(limits.diameter_least.expect("a width").value, -1)));
    for (diameter, height, accepted, unchecked) in [
        (None, None, true, true),
        (narrow, None, false, true),
        (None, Some(sound(&limits).height), true, true),
        (Some(sound(&limits).diameter), Some(sound(&limits).height), true, false),
    ] {
        let judged = judge_seen(diameter, height, &[], &HANDBOOK, &case);
        assert_eq!(judged.accepted, accepted);
        assert_eq!(judged.findings.has(Code::NotChecked), unchecked);
    }
}

/// FLUSH-02: six thousandths, for the one diameter that is quoted. Elsewhere flush is flush.
#[test]
fn a_flush_head_stands_proud_only_where_the_quotation_lets_it() {
    let rows = fixture("layout-rules");
    let row = rows.iter().find(|row| row.text("rule_id") == "FLUSH-02").expect("the row");
    let most = length(row.text("max"));
    let small = Case::new(Head::Flush, RivetAlloy::Al2117, length("3/32"));
    assert_eq!(rejected(Defect::Proud(most), &PROCESS, &small), []);
    assert_eq!(rejected(Defect::Proud(by(most, 1)), &PROCESS, &small).len(), 1);
    let larger = Case::new(Head::Flush, RivetAlloy::Al2117, length("1/8"));
    assert_eq!(rejected(Defect::Proud(by(Length::ZERO, 1)), &PROCESS, &larger).len(), 1);
    assert_eq!(rejected(Defect::Proud(by(Length::ZERO, 1)), &HANDBOOK, &small).len(), 1);
}
