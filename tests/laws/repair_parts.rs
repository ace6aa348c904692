//! Parts of a repair at their limits, and its working: each figure that a step ends with is the one that the answer has.

use shophead::basis::{Basis, Status};
use shophead::finding::{Code, Finding, Severity};
use shophead::hole::{AsFound, Damage};
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::joint::sharing::Transfer;
use shophead::joint::strength::Shear;
use shophead::length::{Length, Toleranced};
use shophead::practice::{HANDBOOK, Key, Limit, Name, PROCESS, Scope, Value};
use shophead::quantity::{Force, Stress};
use shophead::repair::bend::setback;
use shophead::repair::count::By;
use shophead::repair::in_row::LaidRows;
use shophead::repair::patch::{PatchQuery, SkinDamage, Taper, patch};
use shophead::repair::seam::{SeamFastener, SeamQuery, WORTH_OFFERING, seam};
use shophead::repair::site::Site;
use shophead::repair::solve::{EDGE_STEP, SolveError, SolveFor, Wanted, Why, solve};
use shophead::repair::splice::{Leg, LegFastener, MemberError, Shape, Splice, SpliceQuery, Spliced, splice};
use shophead::repair::strip::{CountedQuery, CountedRow, InPlace, RowOfStrip, counted};
use shophead::repair::told::Told;
use shophead::stack::{Layer, Stack};
use shophead::words::Units;
use shophead::working::{About, Origin, Working, hole, joint, repair, strip};
use shophead_tests::prelude::{length, material, nm, part};

fn spliced(query: &SpliceQuery<'_, '_>) -> Splice {
    splice(query).expect("a splice")
}

fn stringer(legs: &[Leg]) -> SpliceQuery<'_, 'static> {
    SpliceQuery::new(Spliced::Stringer, Shape::Flat, material("2024-T3"), legs)
}

/// A figure of a step.
#[derive(Clone, Debug)]
struct Put {
    value: f64,
    worked: bool,
}

/// A step as it was said, in inches and pounds.
#[derive(Clone, Debug)]
struct Said {
    word: &'static str,
    about: About,
    figures: Vec<Put>,
    result: f64,
}

/// Every step of a working.
fn steps(work: impl FnOnce(&mut Working<'_>)) -> Vec<Said> {
    let mut said = Vec::new();
    work(&mut Working::new(&mut |step| {
        said.push(Said {
            word: step.rule.word,
            about: step.about,
            figures: step
                .figures
                .iter()
                .map(|figure| Put {
                    value: figure.value.number_in(Units::Inches),
                    worked: matches!(figure.origin, Origin::Step(_)),
                })
                .collect(),
            result: step.result.number_in(Units::Inches),
        });
    }));
    said
}

fn of<'s>(steps: &'s [Said], word: &'s str) -> impl Iterator<Item = &'s Said> {
    steps.iter().filter(move |step| step.word == word)
}

#[test]
fn end_rivets_are_the_skins_only_where_those_are_smaller() {
    let legs = [Leg::new(length("1"), length("1/16"))];
    let lower = SpliceQuery::new(Spliced::LowerStringer, Shape::Flat, material("2024-T3"), &legs);
    let own = spliced(&lower).legs[0].diameter;
    let end = |skin| spliced(&lower.skin_rivet(Some(skin))).legs[0].end_rivet;
    assert_eq!(end(nm(own.nanometres() - 1)), Some(nm(own.nanometres() - 1)));
    assert_eq!((end(own), end(nm(own.nanometres() + 1)), end(length("1"))), (None, None, None));
}

#[test]
fn a_rivet_of_twice_or_three_times_its_leg_is_within_the_rule() {
    // 3/16 in 1/16 and in 3/32.
    let rivet = part("MS20470AD6");
    let is_noted = |thickness: i64| {
        let legs = [Leg::new(length("2"), nm(thickness))];
        let found = spliced(&stringer(&legs).rivet(Some(rivet)));
        found.all_findings().any(|finding| finding.code() == Code::DiameterOutsideRule)
    };
    let (thin, thick) = (length("1/16").nanometres(), length("3/32").nanometres());
    assert!(is_noted(thin - 1) && !is_noted(thin) && !is_noted(thick) && is_noted(thick + 1));
}

#[test]
fn rivets_as_far_apart_as_a_shop_allows_stay_where_they_are() {
    // As many lines as make the plate short, with as many rivets as one line would take.
    let legs = [Leg::new(length("2"), length(".040"))];
    let flange = SpliceQuery::new(Spliced::Flange, Shape::Flat, material("2024-T3"), &legs);
    let usual = spliced(&flange);
    let laid = |found: &Splice| {
        let leg = &found.legs[0];
        (leg.lines, leg.ranks, leg.pitch, leg.half)
    };
    let (lines, ranks, pitch, _) = laid(&usual);
    assert!(lines > 1 && ranks > 1, "{:?}", laid(&usual));
    let within = |greatest: Length| {
        let own = [Limit::new(Name::PitchGreatest, Scope::default(), Value::Length(greatest), Basis::own(0))];
        let practice = HANDBOOK.with_own(&own, &[]);
        laid(&spliced(&flange.practice(&practice)))
    };
    assert_eq!(within(pitch), laid(&usual));
    assert_eq!(within(nm(pitch.nanometres() - 1)).0, 1, "one line needs no such limit");
}

#[test]
fn more_lines_that_make_nothing_shorter_are_not_laid() {
    let mut even = 0;
    for sixteenths in 16..48 {
        let legs = [Leg::new(Length::from_64ths(sixteenths * 4), length(".025"))];
        let leg = &spliced(&stringer(&legs)).legs[0];
        // A stringer's plate is four widths long on each side, where one line has room for all.
        assert_eq!(leg.half.nanometres(), 4 * leg.leg.width.nanometres());
        assert_eq!((leg.lines, leg.ranks), (1, leg.needed), "{}", leg.leg.width);
        even += usize::from(leg.needed > 2 && leg.needed.is_multiple_of(2));
    }
    assert!(even > 0);
}

#[test]
fn the_plate_of_a_patch_thins_between_two_rows_only_where_it_is_feathered() {
    let opening = SkinDamage::Opening { along: length("2"), across: length("4"), radius: length("1/2") };
    let query = PatchQuery::new(material("2024-T3"), length(".040"), opening);
    let found = patch(&query).expect("a patch");
    let (whole, rows) = (found.plate.thickness, usize::from(found.across.rows));
    assert!(rows > 1);
    for (taper, between) in [
        (Taper::Plain, 0),
        (Taper::Stepped(length(".020")), 0),
        (Taper::Feathered(whole), 0),
        (Taper::Feathered(length("1")), 0),
        (Taper::Feathered(length(".020")), rows - 1),
    ] {
        let steps = steps(|work| repair::of_patch((&query, taper), &found, work));
        let formulas = of(&steps, "share-load-size").count();
        let thinned = of(&steps, "plate-stiffness-tapered").count();
        assert!(formulas > 1);
        assert_eq!(thinned, between * formulas, "{taper:?}");
        for step in of(&steps, "plate-stiffness-tapered") {
            let (next, here) = (step.figures[0].value, step.figures[1].value);
            assert!(next > here && step.result > here && step.result < next, "{step:?}");
        }
    }
}

#[test]
fn one_kind_of_fastener_in_a_leg_is_told_only_where_there_are_two() {
    let leg = |held| Leg::new(length("1"), length("1/16")).held(held);
    let (rivets, bolts) = (LegFastener::Rivets, LegFastener::Bolts);
    for kinds in [[rivets, rivets], [rivets, bolts], [bolts, rivets], [bolts, bolts]] {
        let legs = kinds.map(leg);
        let found = spliced(&SpliceQuery::new(Spliced::Stringer, Shape::Angle, material("2024-T3"), &legs));
        assert_eq!(found.told.has(Told::OneFastener), kinds[0] != kinds[1], "{kinds:?}");
    }
}

#[test]
fn a_single_rivet_of_a_frames_leg_is_from_no_other() {
    let flange = Leg::new(length("5/32"), length(".025"));
    let legs = [flange, Leg::new(length("2"), length(".025")), flange];
    let frame = SpliceQuery::new(Spliced::Frame, Shape::Channel, material("2024-T3"), &legs);
    let found = spliced(&frame.rivet(Some(part("MS20470AD4"))).by(By::Strength));
    let [narrow, web, other] = found.legs.as_slice() else { panic!("three legs") };
    // The least pitch of three diameters; the web's rivets are spread over the plate.
    assert_eq!((narrow.ranks, narrow.pitch, other.pitch), (1, length("3/8"), length("3/8")));
    assert!(web.ranks > 1 && narrow.half == web.half && web.pitch > length("3/8"));
}

#[test]
fn a_refused_splice_says_where_it_is_and_what_is_missing() {
    let own = material("2024-T3");
    let refused = |error: MemberError| error.refusal(&own);
    for site in Site::ALL {
        assert_eq!(refused(MemberError::Refused { site: *site }), site.refusal(), "{site}");
    }
    assert!(Site::ALL.iter().any(|site| site.refusal().is_some()));
    let key = Key::of_limit(Name::PitchLeast);
    for error in [MemberError::NoLimits { limit: Name::PitchLeast }, MemberError::NoCount { leg: 1, key: Some(key) }] {
        assert_eq!(refused(error).and_then(|finding| finding.key()), Some(key), "{error}");
    }
    assert_eq!(refused(MemberError::NoPlate { leg: 1 }), None);
}

#[test]
fn a_strength_of_ones_own_answers_what_was_not_known_of_it() {
    let stress = Some(Stress::from_ksi(60.0));
    let of = |code, layer: u8| {
        Finding::read_back(code, Severity::Caution, Status::Published, std::num::NonZeroU8::new(layer), None, None)
    };
    let sheet = InPlace::default().ftu(stress).fbru(stress);
    let rivet = InPlace::default().rivet_fsu(stress);
    // What cannot be checked needs both strengths of the sheet.
    assert!(sheet.replaces(&of(Code::NotChecked, 0)) && sheet.replaces(&of(Code::NotChecked, 1)));
    for half in [InPlace::default().ftu(stress), InPlace::default().fbru(stress), rivet] {
        assert!(!half.replaces(&of(Code::NotChecked, 0)));
    }
    for code in
        [Code::StrengthNotPublished, Code::SheetTooThinForTable, Code::EdgeMarginBelowTable, Code::LimitFromMemory]
    {
        assert!(sheet.replaces(&of(code, 1)) && !sheet.replaces(&of(code, 0)), "{code}");
        assert!(rivet.replaces(&of(code, 0)) && !rivet.replaces(&of(code, 1)), "{code}");
    }
    assert!(![sheet, rivet].iter().any(|given| given.replaces(&of(Code::HoleCracked, 0))));
}

#[test]
fn a_strips_rows_are_worked_whatever_strengths_are_given() {
    let (rivet, stack) = (part("MS20470AD4"), two_sheets());
    let rows = [3, 2].map(|count| CountedRow::new(count, rivet));
    let strengths = [None, Some(Stress::from_ksi(40.0))];
    for fbru in strengths {
        for rivet_fsu in strengths {
            let given = InPlace::default().fbru(fbru).rivet_fsu(rivet_fsu);
            let query = CountedQuery::new(rivet, &rows, &stack, length("3"), length("1"), length("1/2")).given(given);
            let found = counted(&query, &mut |_, _| {}).expect("a strip");
            let steps = steps(|work| strip::of(&query, &found, work));
            let worked: Vec<f64> = of(&steps, "strip-row").map(|step| step.result).collect();
            let carried = |row: &RowOfStrip| row.carries().map(|one| one.lbf() * f64::from(row.row.count));
            let carried: Vec<f64> = found.rows.iter().filter_map(carried).collect();
            assert_eq!((worked.len(), worked), (rows.len(), carried), "{given:?}");
            for step in of(&steps, "strip-rivet") {
                let least = step.figures.iter().map(|figure| figure.value).fold(f64::INFINITY, f64::min);
                assert!((step.result - least).abs() < 1e-9 * least, "{step:?}");
            }
        }
    }
}

#[test]
fn what_is_folded_flat_has_no_bend_however_thin_it_is() {
    for (radius, thickness) in [(Length::ZERO, Length::ZERO), (length(".1"), length(".04"))] {
        for degrees in [0.0, 180.0] {
            assert_eq!(setback(degrees, radius, thickness), None, "{degrees}");
        }
        assert!(setback(90.0, radius, thickness).is_some() && setback(1.0, radius, thickness).is_some());
    }
}

fn two_sheets() -> Stack {
    let mut stack = Stack::new();
    for gauge in [".063", ".080"] {
        let layer = Layer::of(Toleranced::parse(gauge).expect("a gauge"));
        stack.push(layer.material(Some(material("2024-T3")))).expect("few layers");
    }
    stack
}

#[test]
fn a_step_below_the_least_edge_distance_says_why_it_is_no_less() {
    let (rivet, stack) = (part("MS20470AD4"), two_sheets());
    let load = Load { force: Force::from_lbf(1.0), kind: LoadKind::Ultimate };
    let wanted = Wanted::new(LaidRows::new(rivet, &stack, length("1/2"), length("1/2")), load).factors(Factors::SEAM);
    let solved = solve(&wanted, SolveFor::Edge).expect("limits");
    let found = solved.found.as_ref().expect("next to nothing holds everywhere");
    assert_eq!(found.edge, length("1/4"));
    let beside = solved.beside.as_ref().expect("a step below");
    assert_eq!(beside.edge, nm(found.edge.nanometres() - EDGE_STEP.nanometres()));
    assert!(
        matches!(solved.why, Why::Refers(finding) if finding.code() == Code::EdgeDistanceShort),
        "{:?}",
        solved.why
    );
}

#[test]
fn a_margin_that_is_no_number_or_below_zero_is_not_looked_for() {
    let (rivet, stack) = (part("MS20470AD4"), two_sheets());
    let load = Load { force: Force::from_lbf(1.0), kind: LoadKind::Ultimate };
    let wanted = Wanted::new(LaidRows::new(rivet, &stack, length("1/2"), length("1/2")), load);
    for margin in [-0.1, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(solve(&wanted.margin(margin), SolveFor::Rows), Err(SolveError::MarginNotValid), "{margin}");
    }
    for margin in [0.0, 0.15] {
        assert!(solve(&wanted.margin(margin), SolveFor::Rows).is_ok(), "{margin}");
    }
}

#[test]
fn a_load_that_nothing_carries_is_told_with_what_comes_nearest() {
    let (rivet, stack) = (part("MS20470AD4"), two_sheets());
    let load = Load { force: Force::from_lbf(100_000.0), kind: LoadKind::Ultimate };
    let wanted = Wanted::new(LaidRows::new(rivet, &stack, length("1/2"), length("1/2")), load);
    for unknown in [SolveFor::Pitch, SolveFor::Rows, SolveFor::LeastRivets] {
        let solved = solve(&wanted, unknown).expect("limits");
        assert_eq!(solved.found, None, "{unknown:?}");
        let nearest = solved.beside.as_ref().and_then(|beside| beside.margin).expect("a margin");
        assert!(nearest.value < 0.0 && nearest.value > -1.0, "{unknown:?}");
        assert_eq!(solved.why, Why::Margin(nearest.value), "{unknown:?}");
    }
}

#[test]
fn the_gauge_of_a_layer_is_looked_for_only_where_there_is_one() {
    let (rivet, stack) = (part("MS20470AD4"), two_sheets());
    let load = Load { force: Force::from_lbf(1.0), kind: LoadKind::Ultimate };
    let wanted = Wanted::new(LaidRows::new(rivet, &stack, length("1/2"), length("1/2")), load);
    for layer in 1..=2 {
        let found = solve(&wanted, SolveFor::Gauge(layer)).expect("a layer").found.expect("next to nothing holds");
        assert!(found.gauge.is_some());
    }
    for layer in [0, 3, u8::MAX] {
        assert_eq!(solve(&wanted, SolveFor::Gauge(layer)), Err(SolveError::NoLayer), "{layer}");
    }
}

#[test]
fn beside_the_rows_that_keep_most_stands_a_row_fewer() {
    let (rivet, stack) = (part("MS20470AD4"), two_sheets());
    let load = Load { force: Force::from_lbf(1.0), kind: LoadKind::Ultimate };
    let rows = LaidRows::new(rivet, &stack, length("1/2"), length("1/2")).apart(length("1/2"));
    let solved = solve(&Wanted::new(rows, load), SolveFor::BestShare).expect("limits");
    let (found, beside) = (solved.found.as_ref().expect("a best"), solved.beside.as_ref().expect("a row fewer"));
    assert!(found.rows > 1);
    assert_eq!(
        (beside.rows + 1, beside.pitch, beside.rivet.diameter()),
        (found.rows, found.pitch, found.rivet.diameter())
    );
    assert!(beside.share < found.share);
}

#[test]
fn a_patch_is_worked_from_one_rivet_by_itself_to_the_row_that_takes_most() {
    let opening = SkinDamage::Opening { along: length("2"), across: length("4"), radius: length("1/2") };
    let query = PatchQuery::new(material("2024-T3"), length(".040"), opening);
    let found = patch(&query).expect("a patch");
    let rows = usize::from(found.across.rows);
    assert!(rows > 1);
    let steps = steps(|work| repair::of_patch((&query, Taper::Plain), &found, work));
    // The count by the strengths is worked from what one rivet carries, and that from its shear and bearing.
    let by_strength = found.rate.by_strength.expect("published");
    let count = of(&steps, "strength-count").next().expect("counted");
    assert!(count.figures[2].worked && count.result == by_strength.per_inch);
    let by_itself: Vec<&Said> = steps.iter().filter(|step| step.about == About::Named("one rivet by itself")).collect();
    assert_eq!(by_itself.last().map(|step| step.result), Some(by_strength.per_rivet.force.lbf()));
    // By every formula: a stiffness of the plate behind each row but the last, and the greatest of the loads on a rivet.
    let (mut loads, mut plates, mut formulas) = (Vec::<f64>::new(), 0, 0);
    for step in &steps {
        match (step.word, step.about) {
            ("pack-tension-first", _) => loads.push(step.figures[1].value.abs()),
            ("sheet-stiffness", About::Row(_)) => plates += 1,
            ("share-load-size", _) => {
                assert_eq!((loads.len(), plates), (rows, rows - 1));
                let most = loads.drain(..).fold(0.0, f64::max);
                assert_eq!((step.figures[0].value.abs(), step.result), (most, most));
                (plates, formulas) = (0, formulas + 1);
            }
            _ => {}
        }
    }
    assert!(formulas > 1);
}

#[test]
fn a_splice_is_worked_from_its_count_by_rivets_and_by_bolts() {
    let bolted = Leg::new(length("1"), length("1/16")).held(LegFastener::Bolts);
    let legs = [Leg::new(length(".5"), length("1/16")), bolted];
    let narrow = [Leg::new(length("5/32"), length(".025"))];
    let bulb = SpliceQuery::new(Spliced::Stringer, Shape::BulbAngle, material("2024-T3"), &legs);
    // So narrow that one rivet carries what it does.
    let single = stringer(&narrow).rivet(Some(part("MS20470AD4"))).by(By::Strength);
    let mut of_one_rank = 0;
    for query in [bulb, single] {
        let legs = query.legs;
        let found = spliced(&query);
        let steps = steps(|work| repair::of_splice(&query, &found, work));
        let strengths: Vec<&Said> = of(&steps, "strength-count").collect();
        let counted = found.legs.iter().filter_map(|leg| leg.rate.as_ref()?.by_strength);
        assert!(!strengths.is_empty() && strengths.len() == counted.clone().count());
        for (step, counted) in strengths.iter().zip(counted) {
            assert!(step.figures[2].worked, "what one rivet carries is worked");
            assert_eq!((step.figures[2].value, step.result), (counted.per_rivet.force.lbf(), counted.per_inch));
        }
        let ranks: Vec<&Said> = of(&steps, "leg-ranks").collect();
        assert_eq!(ranks.len(), legs.len());
        for (step, leg) in ranks.iter().zip(&found.legs) {
            assert!(step.figures[0].worked, "the count is worked");
            assert_eq!((step.figures[0].value, step.result), (f64::from(leg.needed), f64::from(leg.ranks)));
        }
        for (number, leg) in (1_u8..).zip(&found.legs) {
            let pitches = of(&steps, "leg-pitch").filter(|step| step.about == About::Leg(number)).count();
            assert_eq!(pitches, usize::from(leg.ranks > 1), "{} ranks", leg.ranks);
            of_one_rank += usize::from(leg.ranks == 1);
        }
    }
    assert!(of_one_rank > 0);
}

#[test]
fn a_hole_without_damage_is_drilled_over_by_nothing() {
    let stack = Stack::parse("clad 2024-T3:.032, clad 2024-T3:.040").expect("a stack");
    let question = Installation::new(part("MS20470AD4"), &stack).by(&PROCESS).edge(length("1/2")).pitch(length("1"));
    for (damage, over) in [(Damage::None, 0.0), (Damage::Gouged, 0.001)] {
        let mut seen = 0;
        for thousandths in 126_i64..160 {
            let (major, minor) = (nm(thousandths * 25_400), nm((thousandths - 6) * 25_400));
            let found = AsFound::new(major, minor, damage).expect("a hole");
            let answer = question.hole(found);
            let steps = steps(|work| hole::of(&question, found, &answer, work));
            for step in of(&steps, "drill-wanted") {
                let [drill, as_found, drilled_over] = step.figures.as_slice() else { panic!("three figures") };
                assert_eq!((as_found.value, drilled_over.value), (major.to_inches_f64(), over), "{thousandths}");
                assert!((step.result - drill.value.max(as_found.value + over)).abs() < 1e-12, "{thousandths}");
                seen += 1;
            }
        }
        assert!(seen > 4, "{damage:?} {seen}");
    }
}

#[test]
fn a_larger_rivet_is_set_beside_the_old_one_with_all_that_both_carry() {
    let mut compared = 0;
    for sheet in [".020", ".025", ".032", ".040", ".050", ".063", ".071", ".080", ".090", ".100"] {
        for rivet in ["MS20426AD3", "MS20426AD4", "MS20426AD5", "MS20470AD4"] {
            let seat = if rivet.starts_with("MS20426") { ":countersunk" } else { "" };
            let stack = Stack::parse(&format!("2024-T3:{sheet}{seat}, 2024-T3:.125")).expect("a stack");
            let rivet = part(rivet);
            let question = Installation::new(rivet, &stack).by(&PROCESS).edge(length("1/2")).pitch(length("1"));
            let over = nm(rivet.diameter().nanometres() + length("1/40").nanometres());
            let found = AsFound::new(over, over, Damage::None).expect("a hole");
            let answer = question.hole(found);
            if !answer.disposition.is_step_up() {
                continue;
            }
            let steps = steps(|work| hole::of(&question, found, &answer, work));
            let of_either = steps
                .iter()
                .any(|step| step.about == About::Named("installed rivet") || step.about == About::Named("new rivet"));
            assert_eq!(of_either, of(&steps, "strength-kept").next().is_some(), "{rivet} {sheet}");
            compared += usize::from(of_either);
        }
    }
    assert!(compared > 0);
}

#[test]
fn an_outer_sheet_has_its_part_of_the_load_and_a_single_one_all_of_it() {
    let rivet = part("MS20470AD5");
    let load = Load { force: Force::from_lbf(200.0), kind: LoadKind::Ultimate };
    for (shear, sheets) in
        [(Shear::Single, "2024-T3:.063, 2024-T3:.080"), (Shear::Double, "2024-T3:.050, 2024-T3:.125, 2024-T3:.050")]
    {
        let stack = Stack::parse(sheets).expect("a stack");
        let question = Installation::new(rivet, &stack)
            .edge(length("3/8"))
            .pitch(length("1"))
            .rows(3)
            .row_spacing(length("1"))
            .shear(shear)
            .transfer(Transfer::Doubler)
            .load(load, Factors::SEAM);
        let found = question.row().expect("a row");
        let steps = steps(|work| joint::of_row(&question, &found, work));
        let most = of(&steps, "doubler-load-most").next().expect("a doubler").result;
        let outer: Vec<&Said> = of(&steps, "outer-sheet-load").collect();
        assert_eq!(outer.len(), if shear == Shear::Double { 2 } else { 0 });
        for step in outer {
            assert_eq!((step.figures[0].value, step.result), (most, most * step.figures[1].value));
            assert!(step.figures[1].value > 0.0 && step.figures[1].value < 1.0);
        }
    }
}

#[test]
fn each_of_what_rows_carry_is_worked_by_its_formula() {
    let (mut shared, mut whole) = (0, 0);
    for (rivet, shear, sheets) in [
        ("MS20470AD5", Shear::Single, "2024-T3:.063, 2024-T3:.080"),
        ("MS20470AD5", Shear::Double, "2024-T3:.050, 2024-T3:.125, 2024-T3:.050"),
        ("MS20426AD5", Shear::Single, "2024-T3:.063:countersunk, 2024-T3:.080"),
        ("MS20426AD5", Shear::Double, "2024-T3:.080:countersunk, 2024-T3:.125, 2024-T3:.050"),
    ] {
        let stack = Stack::parse(sheets).expect("a stack");
        let question = Installation::new(part(rivet), &stack).edge(length("3/8")).pitch(length("1"));
        let question = question.rows(2).row_spacing(length("1")).shear(shear);
        let found = question.row().expect("a row");
        let steps = steps(|work| {
            joint::of_row(&question, &found, work);
        });
        for step in &steps {
            let figures: Vec<f64> = step.figures.iter().map(|figure| figure.value).collect();
            let by_hand = match (step.word, figures.as_slice()) {
                ("rivets-carry", [carries, per]) => carries * per,
                ("tear-out-running", [left, per, share]) => left * per / share,
                ("net-section-running", [net, pitch]) => net / pitch,
                ("net-section-running-shared", [net, pitch, share]) => net / pitch / share,
                ("rows-carry", all) => all.iter().copied().fold(f64::INFINITY, f64::min),
                _ => continue,
            };
            assert!((step.result - by_hand).abs() <= 1e-9 * by_hand, "{step:?}");
            if step.word == "tear-out-running" {
                *if step.figures[2].value < 1.0 { &mut shared } else { &mut whole } += 1;
            }
        }
        let carries = of(&steps, "rows-carry").next().map(|step| step.result);
        assert_eq!(
            carries,
            found.per_inch.or(found.indicated_per_inch).map(|load| load.force.lbf()),
            "{rivet} {sheets}"
        );
    }
    assert!(shared > 0 && whole > 0, "{shared} {whole}");
}

#[test]
fn rows_that_were_offered_are_laid_and_nothing_near_them_is_offered_again() {
    let rivets = SeamFastener::Rivets(part("MS20470AD4"));
    let mut offered = 0;
    for sheet in [".025", ".032", ".040", ".050"] {
        let query = SeamQuery::new(material("clad 2024-T3"), length(sheet), length("10"), rivets);
        let Some(better) = seam(&query).expect("a seam").better else { continue };
        let again = seam(&query.rows(Some(better.rows.rows))).expect("a seam");
        let develops = better.develops.expect("published");
        assert_eq!(again.laid.and_then(|laid| laid.develops), Some(develops), "{sheet}");
        let more = again.better.and_then(|better| better.develops);
        assert!(more.is_none_or(|more| more >= develops + WORTH_OFFERING), "{sheet} {more:?} over {develops}");
        offered += 1;
    }
    assert!(offered > 0);
}
