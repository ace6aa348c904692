//! Repairs: every rule of the circular's chapter on them is used or listed with the reason why not; its examples, rivet for rivet; its table of
//! bend radii cell by cell.

use std::collections::BTreeSet;

use shophead::access::solid_required;
use shophead::basis::Status;
use shophead::finding::{self, Code, Finding, Severity};
use shophead::joint::compare::substitute;
use shophead::joint::splice::{
    CountRounding, Fastener, SpliceMember, SpliceTable, count, per_inch, rows, tables, tables_hold_for,
};
use shophead::length::{Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::practice::{Case, HANDBOOK, Name};
use shophead::repair::bend::{least_radius, refusal, setback};
use shophead::repair::bend_table;
use shophead::repair::count::{By, by_table, rate, tabulated};
use shophead::repair::gauge_table::{CIRCULAR, HANDBOOK as TODAY, at_least, gauges, next_heavier};
use shophead::repair::in_row::{LaidRows, in_row};
use shophead::repair::panel::{CopiedSeam, PanelSeamError, SideQuery, seam};
use shophead::repair::patch::{LONGEST, Patch, PatchError, PatchQuery, Pattern, SkinDamage, Style, patch};
use shophead::repair::site::{Site, Sizing};
use shophead::repair::splice::{Leg, LegFastener, MemberError, Shape, Splice, SpliceQuery, Spliced, splice};
use shophead::repair::told::{Tell, Told};
use shophead::repair::unused::UNUSED;
use shophead::rivet::{Head, MS20470};
use shophead::select::choose_diameter;
use shophead::stack::{Layer, Preparation, Role, Stack};
use shophead::structure::{Member as RowMember, Place, Structure};
use shophead_tests::prelude::{changed, length, material, part};
use shophead_tests::{Comparison, Row, fixture};

const CLAD: &str = "clad 2024-T3";

/// A patch over an opening of 2 by 10 in in clad 2024 .032.
fn query(style: Style) -> PatchQuery<'static, 'static> {
    PatchQuery::new(
        material(CLAD),
        length(".032"),
        SkinDamage::Opening { along: length("2"), across: length("10"), radius: length("1/2") },
    )
    .style(style)
    .pattern(Pattern::InLine)
}

fn patched(query: &PatchQuery<'_, 'static>) -> Patch {
    patch(query).unwrap_or_else(|error| panic!("{error}"))
}

fn leg(width: &str, thickness: &str) -> Leg {
    Leg::new(length(width), length(thickness))
}

fn member<'l>(spliced: Spliced, shape: Shape, legs: &'l [Leg]) -> SpliceQuery<'l, 'static> {
    SpliceQuery::new(spliced, shape, material("2017"), legs).by(By::Example)
}

fn spliced(query: &SpliceQuery<'_, 'static>) -> Splice {
    splice(query).unwrap_or_else(|error| panic!("{error}"))
}

fn has(splice: &Splice, code: Code) -> bool {
    splice.all_findings().any(|finding| finding.code() == code)
}

fn is_referred(finding: &Finding) -> bool {
    finding.severity() == Severity::Refer
}

fn pack(layers: &[(Role, &str)]) -> Stack {
    let mut stack = Stack::new();
    for (role, thickness) in layers {
        let layer = Layer::of(Toleranced::exactly(length(thickness)));
        stack.push(layer.role(*role).material(material("2024-T3"))).expect("few");
    }
    stack
}

fn factory<'s>(stack: &'s Stack, rivet: &str, rows: u8) -> LaidRows<'s, 'static> {
    LaidRows::new(part(rivet), stack, length("3/8"), length("3/4")).rows(rows).apart(length("1/2"))
}

fn copied(factory: &[LaidRows<'_, 'static>], holes_changed: bool, load_paths: bool, sites: &[Site]) -> CopiedSeam {
    let query = SideQuery::new(length("12"), factory).holes_changed(holes_changed).load_paths(load_paths).sites(sites);
    seam(&query).unwrap_or_else(|error| panic!("{error}"))
}

// ---------------------------------------------------------------------------------------------------------------------------- worked by hand

/// AC 43.13-1B para 4-58g(2), from the sheet to the two rows: .032 clad 2024, 10 in, a lap.
#[test]
fn the_lap_of_para_4_58g_rivet_for_rivet() {
    let found = patched(&query(Style::Lap).by(By::Example));
    // (a): 3 x .032 = .096, so 1/8.
    assert_eq!(found.rivet.without_length().to_string(), "MS20470AD4");
    // (b): table 4-10, 4.9 an inch, 75 %: 36.75, 37 rivets.
    let table = found.rate.also.expect("table 4-10 names clad 2024");
    assert_eq!(
        (table.table, table.cell.printed, table.member),
        (SpliceTable::T4_10, Some(4.9), SpliceMember::SingleLap)
    );
    assert_eq!(found.across.needed, Some(37));
    // (c): two equal rows of 19, at no less than the least pitch of two rows, at which 40 would go in.
    assert_eq!((found.across.rows, found.across.per_row, found.across.counted), (2, 19, 38));
    assert_eq!(found.least_pitch.value, length("1/2"));
    assert!(found.pitch >= length("1/2") && found.across.spread >= length("10"));
    assert_eq!(length("10").nanometres() / length("1/2").nanometres() * 2, 40);
    // Counted on the plate itself.
    let on_side = |hole: &shophead::repair::patch::PatchHole| hole.counts && hole.at.x > length("1");
    assert_eq!(found.holes().filter(on_side).count(), 38);
    // By default the greater count is laid out: the first table that names clad 2024 asks for more, the strengths for most.
    let greater = patched(&query(Style::Lap));
    let by_table = greater.rate.by_table.expect("table 4-9").per_inch;
    let by_strength = greater.rate.by_strength.expect("published").per_inch;
    assert!(by_strength > by_table && by_table > 3.675);
    assert!(greater.across.needed > Some(47));
}

/// AC 43.13-1B figure 4-20: a frame of 2017-T3, .040, flanges .6 in, web 2 in, both sides of the cut.
#[test]
fn the_frame_of_figure_4_20_rivet_for_rivet() {
    let legs = [leg(".6", ".040"), leg("2", ".040"), leg(".6", ".040")];
    for shape in [Shape::Channel, Shape::Zee] {
        let found = spliced(&member(Spliced::Frame, shape, &legs));
        let needed: Vec<u32> = found.legs.iter().map(|leg| leg.needed).collect();
        assert_eq!(needed, [3, 8, 3], "3.72 to 4, 60 % 2.4 to 3; 12.4 to 13, 60 % 7.8 to 8");
        for (leg, number) in found.legs.iter().zip(1..) {
            assert_eq!(leg.diameter, length("1/8"));
            assert_eq!(leg.rate.as_ref().and_then(|rate| rate.by_table).and_then(|cell| cell.cell.printed), Some(6.2));
            // Laid out with not one more, on each side.
            let a_side =
                found.holes(Length::ZERO).filter(|hole| hole.leg == number && hole.at.x > Length::ZERO).count();
            assert_eq!(a_side as u32, leg.needed);
            assert!(leg.plate.1 > length(".040"), "thicker than the frame");
        }
        assert!(found.length > length("4"), "longer than twice the web");
    }
}

/// AC 43.13-1B figure 4-18: a stringer of 2017, upper leg 1/16 by .5 with rivets, bulb leg 1/16 by 1 with AN-3 bolts.
#[test]
fn the_stringer_of_figure_4_18_rivet_for_rivet() {
    let bulb = leg("1", "1/16").held(LegFastener::Bolts);
    let legs = [leg(".5", "1/16"), bulb];
    let found = spliced(&member(Spliced::Stringer, Shape::BulbAngle, &legs));
    let [upper, lower] = found.legs.as_slice() else { panic!("two legs") };
    // Para 4-58l: between 2 t = .125 and 3 t, not over W/4 = .125.
    assert_eq!(upper.diameter, length("1/8"));
    // Para 4-58m(1): 1/16 takes .064, table 4-10, 9.9 x .5 = 4.95, 5 rivets.
    let table = upper.rate.as_ref().and_then(|rate| rate.by_table).expect("table 4-10");
    assert_eq!((table.table, table.thickness, table.cell.printed), (SpliceTable::T4_10, length(".064"), Some(9.9)));
    assert_eq!(upper.needed, 5);
    // (2): 3.3 bolts an inch, 4.
    assert_eq!((lower.bolts.expect("in the table").cell.printed, lower.needed), (Some(3.3), 4));
    assert!(found.told.has(Told::OneFastener) && found.told.has(Told::BulbRow));
    // Para 4-58l: on the lower wing surface the end rivets are as the skin's, 3/32.
    let query = member(Spliced::LowerStringer, Shape::BulbAngle, &legs).skin_rivet(length("3/32"));
    let lower_wing = spliced(&query);
    assert_eq!(lower_wing.legs[0].end_rivet, Some(length("3/32")));
    assert_eq!(lower_wing.legs[0].needed, 5, "100 % of the table");
    // Para 4-58k: a bar narrower than its leg is thickened until it has the area.
    let narrow = |plate: &str| leg(".5", "1/16").plate((length(".4"), length(plate)));
    let short = |plate: &str| {
        let legs = [narrow(plate), bulb];
        has(&spliced(&member(Spliced::Stringer, Shape::BulbAngle, &legs)), Code::SpliceAreaShort)
    };
    assert!(short(".071") && short(".078") && !short(".080"));
}

#[test]
fn the_examples_of_bends() {
    let found = |degrees| setback(degrees, length(".25"), length(".064")).expect("a bend").value.to_inches_f64();
    assert!((found(45.0) - 0.130).abs() < 0.0005 && (found(135.0) - 0.758).abs() < 0.0005);
    assert_eq!(setback(90.0, length(".25"), length(".064")).map(|found| found.value), Some(length(".314")));
    // The chart: 159 degrees 5.396, 176 degrees 28.64; it prints 5.399 and 26.63.
    let k = |degrees| setback(degrees, length("1"), Length::ZERO).expect("a bend").value.to_inches_f64();
    assert!((k(159.0) - 5.396).abs() < 0.0005 && (k(176.0) - 28.636).abs() < 0.0005);
    for no_bend in [0.0, 180.0, -1.0, f64::NAN] {
        assert!(setback(no_bend, length(".25"), length(".064")).is_none());
    }
}

#[test]
fn every_cell_of_the_bend_table() {
    let mut cells = Comparison::with_misfits(&[]);
    for row in fixture("ac43-bend-radii") {
        let (alloy, temper) = row.text("material").split_once('-').expect("a temper");
        let thousandths = (row.figure_of("thickness_in") * 1_000.0).round() as u16;
        let column = bend_table::COLUMNS.iter().position(|column| *column == thousandths).expect("a column");
        let line = bend_table::LINES.iter().find(|line| line.alloy == alloy && line.temper == temper).expect("a line");
        let (low, high) = line.halves[column];
        let name = format!("{} {}", row.text("material"), row.text("thickness_in"));
        cells.equal(&format!("{name} least"), row.number("min_radius_low"), Some(f64::from(low) / 2.0));
        cells.equal(&format!("{name} most"), row.number("min_radius_high"), Some(f64::from(high) / 2.0));
    }
    assert_eq!(bend_table::LINES.len() * bend_table::COLUMNS.len(), 78);
    cells.finish(156);
    // Between two columns the next one; beyond the last none.
    let radius =
        |thickness| least_radius(material("2024-T3"), length(thickness), &HANDBOOK).map(|found| found.value.min());
    assert_eq!((radius(".032"), radius(".033")), (Some(length(".064")), Some(length(".099"))));
    assert_eq!(radius(".26"), None);
}

trait Figure {
    fn figure_of(&self, column: &str) -> f64;
}

impl Figure for Row {
    fn figure_of(&self, column: &str) -> f64 {
        self.number(column).unwrap_or_else(|| panic!("{}: no {column}", self.place()))
    }
}

// -------------------------------------------------------------------------------------------------------------------------- the rule book

/// What becomes of a rule.
enum Use {
    /// Held by the product, shown here.
    Shown(fn(&Row)),
    /// Said with a repair.
    Told(Told),
    /// Decides whether anything is sized there.
    Site(Site),
    /// Held by another part of the product, whose tests are named.
    Elsewhere(&'static str),
    /// Not used, and why.
    Not,
}

use Use::{Elsewhere, Not, Shown};

fn value(row: &Row) -> f64 {
    let text = row.text("value").split([' ', ';', ',']).next().unwrap_or_default();
    text.parse().unwrap_or_else(|_| panic!("{}: {}", row.place(), row.text("value")))
}

fn percent(row: &Row, member: SpliceMember) {
    assert_eq!(value(row), f64::from(member.percent().0));
}

fn eighth() -> Fastener {
    Fastener::Rivet(length("1/8"))
}

/// Every rule of the fixture, in its order.
#[rustfmt::skip]
fn uses() -> Vec<(&'static str, Use)> {
    use shophead::repair::told::Told as T;
    let told = Use::Told;
    vec![
        ("AR-G01", told(T::Monocoque)),
        ("AR-G02", told(T::EqualStrength)),
        ("AR-G03", Shown(|_| {
            // A plate heavier than the next gauge is too strong.
            let heavy = query(Style::Lap).plate((material(CLAD), length(".063"))).rivet(part("MS20470AD4"));
            assert!(patched(&heavy).findings.has(Code::RepairTooStrong) && !patched(&query(Style::Lap)).findings.has(Code::RepairTooStrong));
        })),
        ("AR-G04", told(T::Rigidity)),
        ("AR-G05", told(T::StressPath)),
        ("AR-G06", Use::Site(Site::Tube)),
        ("AR-G07", Use::Site(Site::Rib)),
        ("AR-G08", told(T::FlangeStrength)),
        ("AR-G09", told(T::Method)),
        ("AR-G10", Use::Site(Site::Casting)),
        ("AR-G11", told(T::WeightAndBalance)),
        ("AR-G12", Use::Site(Site::Control)),
        ("AR-M01", Shown(|_| {
            // The same or a stronger material; a weaker one is referred however thick it is.
            let with = |name, gauge| {
                let plate = Some((material(name), length(gauge)));
                patched(&query(Style::Lap).plate(plate).rivet(part("MS20470AD4"))).findings
            };
            for gauge in [".032", ".040"] {
                assert!(with("6061-T6", gauge).has(Code::WeakerThanBefore) && with("6061-T6", gauge).must_refer());
                assert!(!with(CLAD, gauge).has(Code::WeakerThanBefore) && !with("7075-T6", gauge).has(Code::WeakerThanBefore));
            }
        })),
        ("AR-M02", Shown(|_| {
            let found = patched(&query(Style::Lap));
            assert_eq!((found.plate.material, found.plate.thickness), (material(CLAD), length(".032")));
        })),
        ("AR-M03", told(T::SameMaterial)),
        ("AR-M04", told(T::SameMaterial)),
        ("AR-M05", told(T::NoAnnealed)),
        ("AR-M06", told(T::CladOutside)),
        ("AR-M07", told(T::Notches7075)),
        ("AR-M08", told(T::Notches7075)),
        ("AR-M09", told(T::NoLocalHeat)),
        ("AR-M10", Shown(|row| assert!(T::NoReheat.meaning().contains(row.text("value"))))),
        ("AR-M11", told(T::TreatFirst)),
        ("AR-M12", told(T::TreatFirst)),
        ("AR-M13", told(T::TreatFirst)),
        ("AR-M14", told(T::Tank)),
        ("AR-P01", told(T::WholePanel)),
        ("AR-P02", told(T::SeamsOnMembers)),
        ("AR-P03", Shown(|_| {
            let lap = pack(&[(Role::Skin, ".040"), (Role::Skin, ".040")]);
            let rows = factory(&lap, "MS20470AD4", 2);
            let found = copied(&[rows], false, false, &[]);
            assert_eq!((found.pitch, found.rows, found.edge, found.apart), (rows.pitch, rows.rows, rows.edge, rows.apart));
            assert_eq!(found.factory[0].rivet.without_length(), rows.rivet);
        })),
        ("AR-P04", Shown(|_| {
            let lap = pack(&[(Role::Skin, ".040"), (Role::Skin, ".040")]);
            let (weak, strong) = (factory(&lap, "MS20470AD4", 1), factory(&lap, "MS20470AD5", 1));
            for (seams, stronger) in [([weak, strong], 1), ([strong, weak], 0)] {
                let found = copied(&seams, false, false, &[]);
                assert_eq!((found.copied, found.differ), (stronger, true));
                assert!(found.findings.has(Code::SeamsDiffer));
            }
            assert!(!copied(&[weak, weak], false, false, &[]).differ);
        })),
        ("AR-P05", told(T::CopyNotEnough)),
        ("AR-P06", told(T::ExistingPattern)),
        ("AR-H01", Shown(|_| {
            let found = patched(&query(Style::Lap));
            assert!(found.plate.along > found.opening.along && found.plate.across > found.opening.across && found.filler.is_none());
        })),
        ("AR-H02", Shown(|_| {
            let found = patched(&query(Style::Flush));
            // Skin outside, the patch behind, the plug riveted to it.
            assert_eq!(found.stack.layers().iter().map(|layer| layer.role).collect::<Vec<_>>(), [Role::Skin, Role::Doubler]);
            assert!(found.filler_holes().count() > 4 && found.told.has(T::Trim) == matches!(query(Style::Flush).damage, SkinDamage::Hole { .. }));
        })),
        ("AR-H03", Shown(|_| {
            let found = patched(&query(Style::Flush));
            let plug = found.filler.expect("a plug");
            assert_eq!((plug.along, plug.across, plug.thickness), (found.opening.along, found.opening.across, length(".032")));
        })),
        ("AR-H04", told(T::OtherShapes)),
        ("AR-H05", Shown(|_| {
            // What the rows keep of the sheet is said.
            let share = patched(&query(Style::Lap)).share.expect("published");
            assert!(share > 0.6 && share < 1.0);
        })),
        ("AR-H06", Shown(|row| {
            let crack = SkinDamage::Crack { along: Length::ZERO, across: length("2") };
            let found = patched(&changed(query(Style::Lap), |it| it.damage = crack));
            let (least, most) = row.text("value").split_once(" or ").expect("two sizes");
            let hole = found.opening.stop_hole.expect("stop drilled");
            assert!(length(least) <= hole && hole <= length(most) && found.told.has(T::StopDrill));
            assert_eq!(found.opening.across, length("2").checked_add(hole).expect("short"), "half a hole beyond either end");
        })),
        ("AR-H07", told(T::Across)),
        ("AR-H08", told(T::Thicker)),
        ("AR-D01", Shown(|_| {
            // Of the thicker sheet.
            let thick = changed(query(Style::Lap), |it| it.thickness = length(".025")).plate((material(CLAD), length(".040")));
            assert_eq!(patched(&thick).rivet.diameter(), length("1/8"));
        })),
        ("AR-D02", Shown(|row| {
            assert!(row.text("value").starts_with("3 x .032 = .096: 1/8"));
            let choice = choose_diameter(&MS20470, RivetAlloy::Al2117, length(".032"), &HANDBOOK);
            assert_eq!(choice.size.map(|size| size.shank_nominal), Some(length("1/8")));
        })),
        ("AR-D03", Shown(|_| {
            let found = |rivet: &'static str| {
                let legs = [leg("2", ".064")];
                spliced(&member(Spliced::Stringer, Shape::Flat, &legs).rivet(part(rivet)))
            };
            let noted = |rivet: &'static str| found(rivet).all_findings().any(|found| {
                found.code() == Code::DiameterOutsideRule && found.basis().citation().is_some_and(|cited| cited.place.contains("4-58l"))
            });
            // 2 t = .128, 3 t = .192.
            assert!(noted("MS20470AD4") && !noted("MS20470AD5") && !noted("MS20470AD6") && noted("MS20470AD8"));
        })),
        ("AR-D04", Shown(|_| {
            let found = |width| {
                let legs = [leg(width, ".064")];
                spliced(&member(Spliced::Stringer, Shape::Flat, &legs).rivet(part("MS20470AD4")))
            };
            assert!(found(".49").all_findings().any(is_referred) && !found(".5").all_findings().any(|found| {
                found.code() == Code::DiameterOutsideRule && is_referred(found)
            }));
        })),
        ("AR-D05", Shown(|_| {
            let legs = [leg("1", "1/16")];
            let found = |skin| spliced(&member(Spliced::LowerStringer, Shape::Flat, &legs).skin_rivet(skin));
            assert_eq!(found(Some(length("3/32"))).legs[0].end_rivet, Some(length("3/32")));
            assert!(has(&found(None), Code::NotChecked));
        })),
        ("AR-D06", Not),
        ("AR-D07", Not),
        ("AR-D08", told(T::HeadsOff)),
        ("AR-D09", told(T::BackLap)),
        ("AR-N01", Shown(|_| {
            // So many on an inch of width, whatever the width.
            let lap = rate(material(CLAD), length(".040"), &part("MS20470AD4"), SpliceMember::Other, None, By::Table, &HANDBOOK).expect("a rate");
            assert_eq!((lap.over(length("10")), lap.over(length("20"))), (Ok(Some(77)), Ok(Some(154))));
        })),
        ("AR-N02", Shown(|_| {
            assert!(tables_hold_for(RivetAlloy::Al2117, Head::Universal));
            assert!(!tables_hold_for(RivetAlloy::Al2117, Head::Flush) && !tables_hold_for(RivetAlloy::Al2017, Head::Universal));
            let flush = rate(material(CLAD), length(".063"), &part("MS20426AD4"), SpliceMember::Other, None, By::Table, &HANDBOOK).expect("a rate");
            assert!(flush.findings.has(Code::NoSpliceTable) && flush.findings.must_refer(), "laid out for approval only");
            let hard = rate(material(CLAD), length(".063"), &part("MS20470D4"), SpliceMember::Other, None, By::Table, &HANDBOOK).expect("a rate");
            assert!(hard.by_table.is_none() && hard.findings.must_refer());
        })),
        ("AR-N03", Shown(|row| {
            for (alloy, temper) in [("2014", "T6"), ("2024", "T3"), ("2024", "T36"), ("7075", "T6")] {
                assert!(row.text("value").contains(&format!("{alloy}-{temper}")));
                for clad in [false, true] {
                    assert_eq!(tables(alloy, temper, clad).map(|named| named.first), Some(SpliceTable::T4_9));
                }
            }
        })),
        ("AR-N04", Shown(|_| {
            assert_eq!(tables("2017", "T3", false).map(|named| named.first), Some(SpliceTable::T4_10));
            assert_eq!(tables("2024", "T3", true).and_then(|named| named.also), Some(SpliceTable::T4_10));
        })),
        ("AR-N05", Shown(|_| assert_eq!(tables("5052", "H34", false).map(|named| named.first), Some(SpliceTable::T4_11)))),
        ("AR-N06", Shown(|_| {
            let by = |by| rate(material(CLAD), length(".032"), &part("MS20470AD4"), SpliceMember::Other, None, by, &HANDBOOK).expect("a rate").per_inch;
            assert_eq!((by(By::Example), by(By::Table)), (Some(4.9), Some(6.2)));
        })),
        ("AR-N07", Shown(|row| assert!((SpliceTable::T4_9.shear_part().0 * 100.0 - value(row)).abs() < 1e-9))),
        ("AR-N08", Shown(|row| assert!((SpliceTable::T4_10.shear_part().0 * 100.0 - value(row)).abs() < 1e-9))),
        ("AR-N09", Shown(|row| assert!((SpliceTable::T4_11.shear_part().0 * 100.0 - value(row)).abs() < 1e-9))),
        ("AR-N10", Shown(|row| {
            assert!(SpliceTable::ALL.iter().all(|table| (table.printed_bearing_part().0 * 100.0 - value(row)).abs() < 1e-9));
        })),
        ("AR-N11", Shown(|_| {
            // .016 with 3/16: a dash. No formula is put in its place.
            let rivet = Fastener::Rivet(length("3/16"));
            assert_eq!(by_table(SpliceTable::T4_9, length(".016"), rivet, SpliceMember::Other), Ok(None));
            let found = rate(material("2024-T3"), length(".016"), &part("MS20470AD6"), SpliceMember::Other, None, By::Table, &HANDBOOK).expect("a rate");
            assert!(found.per_inch.is_none() && found.findings.has(Code::NoSpliceTable) && found.findings.must_refer());
        })),
        ("AR-N12", Shown(|row| percent(row, Spliced::UpperStringer.member()))),
        ("AR-N13", Shown(|row| percent(row, Spliced::LowerStringer.member()))),
        ("AR-N14", Shown(|row| percent(row, Spliced::Frame.member()))),
        ("AR-N15", Shown(|row| percent(row, SpliceMember::SingleLap))),
        ("AR-N16", Shown(|row| {
            assert_eq!(row.text("value"), "36.75 to 37 once");
            assert_eq!(count(4.9, length("10"), SpliceMember::SingleLap, CountRounding::Once).map(|found| found.total), Ok(37));
        })),
        ("AR-N17", Shown(|row| {
            assert_eq!(row.text("value"), "3.72 to 4, 60 % 2.4 to 3");
            let member = SpliceMember::IntermediateFrame;
            assert_eq!(member.rounding(), CountRounding::BeforeAndAfter);
            assert_eq!(count(6.2, length(".6"), member, member.rounding()).map(|found| found.total), Ok(3));
        })),
        ("AR-N18", Shown(|_| {
            // Each leg by itself: a leg beside it changes nothing.
            let (one, both) = ([leg("1", ".064")], [leg("1", ".064"), leg("2", ".064")]);
            let alone = spliced(&member(Spliced::Stringer, Shape::Flat, &one));
            let beside = spliced(&member(Spliced::Stringer, Shape::Angle, &both));
            assert_eq!(alone.legs[0].needed, beside.legs[0].needed);
        })),
        ("AR-N19", Shown(|_| assert_eq!(tabulated(SpliceTable::T4_10, length("1/16")), Some(length(".064"))))),
        ("AR-N20", Shown(|row| {
            // In shear the count is the sheet's tension over the bolt's shear.
            let found = per_inch(SpliceTable::T4_9, length(".102"), Fastener::An3Bolt).expect("a count");
            assert!((found.formula - 70_000.0 * 0.102 / value(row)).abs() < 1e-9);
        })),
        ("AR-N21", Shown(|row| {
            let (first, second) = row.text("value").split_once("; ").expect("two");
            for (table, sheet) in [(SpliceTable::T4_9, first), (SpliceTable::T4_10, second)] {
                let found = per_inch(table, length(".250"), Fastener::An3Bolt).expect("a count");
                assert!((found.formula - sheet.parse::<f64>().expect("a stress") * 0.250 / 2_126.0).abs() < 1e-9);
            }
        })),
        ("AR-N22", Shown(|_| assert_eq!(per_inch(SpliceTable::T4_10, length(".064"), eighth()).map(|found| found.printed), Ok(Some(9.9))))),
        ("AR-S01", Shown(|row| single_row(row, Name::EdgeDistanceLeast))),
        ("AR-S02", Shown(|row| single_row(row, Name::PitchLeast))),
        ("AR-S03", Not),
        ("AR-S04", Not),
        ("AR-S05", Shown(|row| {
            let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8")).in_rows(2);
            let least = HANDBOOK.length(Name::PitchLeast, &case).expect("a limit").value;
            assert_eq!(Some(least), length("1/8").checked_mul(value(row) as i64));
        })),
        ("AR-S06", Shown(|row| {
            assert_eq!(row.text("value"), "two equal rows of 19 over 10 in");
            assert_eq!(rows(37, 2, length("10")).map(|laid| laid.per_row), Ok(19));
        })),
        ("AR-S07", told(T::RowsUnequal)),
        ("AR-S08", told(T::StackedDoublers)),
        ("AR-L01", told(T::Method)),
        ("AR-L02", told(T::TensionToo)),
        ("AR-L03", told(T::Symmetric)),
        ("AR-L04", told(T::EveryElement)),
        ("AR-L05", told(T::EndHoles)),
        ("AR-L06", told(T::BulbRow)),
        ("AR-L07", told(T::Outermost)),
        ("AR-L08", told(T::TaperEnds)),
        ("AR-L09", told(T::StaggerSplices)),
        ("AR-L10", told(T::LowerWing)),
        ("AR-L11", Shown(|_| {
            let equal = leg("1", ".064").plate((length("1"), length(".064")));
            assert!(has(&spliced(&member(Spliced::Stringer, Shape::Flat, &[equal])), Code::SpliceAreaShort));
            let own = spliced(&member(Spliced::Stringer, Shape::Flat, &[leg("1", ".064")]));
            assert!(own.legs[0].plate_area_in2 > own.legs[0].area_in2);
        })),
        ("AR-L12", Shown(|_| {
            let own = spliced(&member(Spliced::Stringer, Shape::Flat, &[leg("1.5", ".064")]));
            assert!((own.legs[0].area_in2 - 1.5 * 0.064).abs() < 1e-12);
        })),
        ("AR-L13", Shown(|_| {
            // .5 x .064 = .032 square inches: a bar .4 wide needs more than .080.
            let narrow = |plate| leg(".5", ".064").plate((length(".4"), length(plate)));
            let short = |plate| has(&spliced(&member(Spliced::Stringer, Shape::Flat, &[narrow(plate)])), Code::SpliceAreaShort);
            assert!(short(".080") && !short(".081"));
        })),
        ("AR-L14", told(T::OneFastener)),
        ("AR-L15", Not),
        ("AR-L16", Not),
        ("AR-L17", Not),
        ("AR-F01", Shown(|_| {
            let legs = [leg("1", ".040"), leg("3", ".040"), leg("1", ".040")];
            assert!(spliced(&member(Spliced::Frame, Shape::Zee, &legs)).length > length("6"));
        })),
        ("AR-F02", Shown(|_| {
            let same = leg("1", ".040").plate((length("2"), length(".040")));
            assert!(has(&spliced(&member(Spliced::Frame, Shape::Flat, &[same])), Code::RepairTooThin));
        })),
        ("AR-F03", told(T::FreeFlange)),
        ("AR-F04", Shown(|_| {
            // Spread over the plate: from an edge distance off the cut to an edge distance off its end, all but a step a gap.
            let legs = [leg("1", ".040"), leg("3", ".040"), leg("1", ".040")];
            for leg in &spliced(&member(Spliced::Frame, Shape::Zee, &legs)).legs {
                let last = leg.edge.nanometres() + leg.pitch.nanometres() * i64::from(leg.ranks - 1);
                let left = leg.half.nanometres() - leg.edge.nanometres() - last;
                assert!(left >= 0 && left < Length::from_64ths(1).nanometres() * i64::from(leg.ranks));
            }
            assert!(T::SpreadRivets.meaning().contains("whole plate"));
        })),
        ("AR-F05", told(T::FrameBuckles)),
        ("AR-R01", Use::Site(Site::Rib)),
        ("AR-R02", Use::Site(Site::Edge)),
        ("AR-R03", Use::Site(Site::Tube)),
        ("AR-R04", Use::Site(Site::MainFitting)),
        ("AR-R05", Use::Site(Site::MainFitting)),
        ("AR-R06", Use::Site(Site::MainFitting)),
        ("AR-Q01", Elsewhere("joint::strength counts the hole that the driven rivet fills: tests/reference/joint.rs")),
        ("AR-Q02", told(T::Holes)),
        ("AR-Q03", Shown(|_| {
            let cap = pack(&[(Role::Skin, ".063"), (Role::Cap, ".125")]);
            let rows = factory(&cap, "MS20470AD5", 1);
            assert!(copied(&[rows], true, false, &[]).findings.has(Code::StepNeedsApproval));
            assert!(!copied(&[rows], false, false, &[]).findings.has(Code::StepNeedsApproval));
        })),
        ("AR-Q04", told(T::Holes)),
        ("AR-Q05", Elsewhere("the ladder of a hole takes the next larger rivet: tests/reference/holes.rs")),
        ("AR-Q06", Elsewhere("joint::compare: tests/laws/joint.rs")),
        ("AR-Q07", Elsewhere("joint::compare refers a weaker rivet: tests/reference/joint.rs")),
        ("AR-Q08", Shown(|_| larger(RivetAlloy::Al2017, "3/16"))),
        ("AR-Q09", Shown(|_| larger(RivetAlloy::Al2024, "5/32"))),
        ("AR-Q10", Elsewhere("material::RivetAlloy::heat_treatments: tests/reference/rivets.rs")),
        ("AR-Q11", told(T::RivetSet)),
        ("AR-Q12", told(T::DrivenRivets)),
        ("AR-Q13", told(T::Neighbours)),
        ("AR-Q14", told(T::FlushMethod)),
        ("AR-Q15", Shown(|_| {
            let legs = [leg("1", ".040"), leg("2", ".040")];
            let found = spliced(&changed(member(Spliced::Stringer, Shape::Angle, &legs), |it| it.material = material("2024-T3")));
            let (radius, back) = found.legs[0].bend.expect("in the table");
            assert_eq!(radius, least_radius(material("2024-T3"), found.legs[0].plate.1, &HANDBOOK).expect("in the table").value);
            assert_eq!(back, setback(90.0, radius.min(), found.legs[0].plate.1).expect("a bend").value);
        })),
        ("AR-Q16", told(T::BendLine)),
        ("AR-Q17", told(T::BendLine)),
        ("AR-Q18", Shown(|_| assert_eq!(setback(90.0, length("1/8"), length(".032")).map(|found| found.value), Some(length(".157"))))),
        ("AR-Q19", Shown(|_| assert!(setback(60.0, length("1"), Length::ZERO).is_some_and(|found| {
            (found.value.to_inches_f64() - 30.0_f64.to_radians().tan()).abs() < 1e-7
        })))),
        ("AR-B01", Shown(|_| solid(Place::FluidTight, Site::FluidTight))),
        ("AR-B02", Shown(|_| solid(Place::AirIntake, Site::AirIntake))),
        ("AR-B03", Shown(|_| solid(Place::Control, Site::Control))),
        ("AR-B04", Shown(|_| solid(Place::MainFitting, Site::MainFitting))),
        ("AR-B05", Shown(|_| solid(Place::BelowWaterLine, Site::BelowWaterLine))),
        ("AR-B06", Shown(|_| solid(Place::HeavilyStressed, Site::HeavilyStressed))),
        ("AR-B07", told(T::Approval)),
        ("AR-B08", Elsewhere("no blind rivet is in the catalogue: tests/reference/part_numbers.rs")),
        ("AR-B09", told(T::Approval)),
        ("AR-C01", told(T::Protect)),
        ("AR-C02", told(T::SealDoubler)),
        ("AR-C03", told(T::Anodise)),
        ("AR-C04", told(T::HolesFirst)),
        ("AR-C05", told(T::SealDoubler)),
        ("AR-C06", told(T::DriveWet)),
        ("AR-C07", told(T::Fillet)),
        ("AR-C08", Not),
        ("AR-C09", Not),
        ("AR-C10", Not),
        ("AR-C11", Not),
        ("AR-C12", Not),
        ("AR-C13", Not),
        ("AR-C14", Not),
        ("AR-C15", Not),
        ("AR-C16", Not),
        ("AR-C17", Not),
        ("AR-C18", Shown(|row| assert!(T::CoatAgain.meaning().contains(&format!("{} h", row.text("value")))))),
        ("AR-C19", Not),
        ("AR-C20", told(T::Mark)),
        ("AR-C21", Not),
        ("AR-C22", Not),
        ("AR-C23", Not),
        ("AR-C24", Shown(|_| assert!(T::FloatTest.meaning().contains("24 h")))),
        ("AR-C25", told(T::FloatSeams)),
        ("AR-C26", Not),
        // the patch rows of the layout rules and the repair limits
        ("PATCH-01", told(T::ChamferEdge)),
        ("PATCH-02", Not),
        ("PATCH-03", Shown(|_| one_heavier_behind())),
        ("PATCH-04", Not),
        ("PATCH-05", Not),
        ("PATCH-06", told(T::AllowableDamage)),
        ("PATCH-07", Shown(|row| {
            // 8.5 diameters of 1/8: 1.0625.
            assert!(row.text("value").starts_with("8.5"));
            let near = |member| patched(&query(Style::Lap).member(length(member))).findings.has(Code::MemberTooNear);
            assert!(near("1.06") && !near("1.0625"));
        })),
        ("PATCH-08", Not),
        ("SPLICE-01", Shown(|row| {
            assert!(row.text("value").starts_with("4 leg widths each side"));
            let found = spliced(&member(Spliced::Stringer, Shape::Flat, &[leg("1", ".064")]));
            assert!(found.legs[0].half >= length("4"));
        })),
        ("SPLICE-02", Shown(|row| {
            assert!(row.text("value").starts_with("1/32 shorter than the gap"));
            let found = spliced(&member(Spliced::Stringer, Shape::Flat, &[leg("1", ".064")]).gap(length("2")));
            assert_eq!(found.filler, Some(length("1-31/32")));
        })),
        ("SPLICE-03", Not),
        ("AC-SPLICE-1", Shown(|_| assert!(spliced(&member(Spliced::Frame, Shape::Flat, &[leg("2", ".040")])).length > length("4")))),
        ("AC-SPLICE-2", Shown(|_| assert!(spliced(&member(Spliced::Frame, Shape::Flat, &[leg("2", ".040")])).legs[0].plate.1 > length(".040")))),
        ("AC-PATCH-1", told(T::StopDrill)),
        ("DIA-07", Shown(|_| {
            let choice = choose_diameter(&MS20470, RivetAlloy::Al2117, length(".040"), &HANDBOOK);
            assert_eq!(choice.size.map(|size| size.shank_nominal), Some(length("1/8")));
        })),
        ("DIA-08", told(T::NextRow)),
        ("DIA-09", Shown(|_| {
            // Where the rule for the sheet gives another size than the figure, both are named.
            let noted = |gauge| {
                let thin = changed(query(Style::Lap), |it| it.thickness = length(gauge));
                patched(&thin).findings.iter().any(|found| found.basis().citation().is_some_and(|cited| cited.place.contains("fig 4-174")))
            };
            assert!(!noted(".032") && noted(".040") && !noted(".050"));
        })),
        ("EDGE-11", Shown(|row| figure_edge(row, ".032"))),
        ("EDGE-12", Shown(|row| figure_edge(row, ".050"))),
        ("PITCH-19", Not),
        ("ROW-08", Not),
        ("PATCH-01b", told(T::ChamferEdge)),
        ("PATCH-02b", told(T::SharpCorners)),
        ("PATCH-03b", Shown(|_| one_heavier_behind())),
        ("PATCH-09", Shown(|row| {
            let radius = row.text("value").split(' ').next().expect("a radius");
            let hole = SkinDamage::Hole { along: length("2"), across: length("3") };
            let found = patched(&changed(query(Style::Lap), |it| it.damage = hole));
            assert_eq!(found.opening.radius, length(radius));
            // Round ends where there is no room for it.
            let small = SkinDamage::Hole { along: length("1/4"), across: length("1/2") };
            let found = patched(&changed(query(Style::Lap), |it| it.damage = small));
            assert!((found.opening.radius.nanometres() * 2 - found.opening.along.nanometres()).abs() <= 1);
        })),
        ("PATCH-10", Shown(|row| {
            let radius = row.text("value").split(' ').next().expect("a radius");
            assert_eq!(patched(&query(Style::Lap)).plate.radius, length(radius));
        })),
        ("PATCH-11", Shown(|_| {
            assert_eq!(patched(&query(Style::Lap)).plate.thickness, length(".032"));
            let heavier = query(Style::Lap).plate((material(CLAD), length(".040")));
            assert!(!patched(&heavier).findings.has(Code::RepairTooStrong));
        })),
        ("PATCH-12", Shown(|_| {
            let found = patched(&query(Style::Flush));
            assert_eq!(found.filler.map(|filler| (filler.thickness, filler.material)), Some((length(".032"), material(CLAD))));
            assert_eq!(found.plate.thickness, next_heavier(length(".032")).expect("a gauge").value);
            assert!(found.told.has(T::TurnIn));
        })),
        ("PATCH-13", told(T::StressPath)),
        ("PATCH-14", Shown(|_| one_heavier_behind())),
        ("RL-AC1", Use::Site(Site::SparCap)),
        ("RL-AC2", Not),
        ("RL-AC3", Not),
        ("RL-AC4", Not),
        ("RL-AC5", Not),
        ("RL-30", Elsewhere("the ladder of a hole: tests/reference/holes.rs")),
        ("RL-31", Shown(|_| {
            let major = |across| {
                let hole = SkinDamage::Hole { along: length("1"), across: length(across) };
                patched(&changed(query(Style::Lap), |it| it.damage = hole)).findings.has(Code::MajorRepair)
            };
            assert!(!major("6") && major("6.001"));
        })),
        ("RL-32", told(T::MajorRepair)),
        ("RL-33", Use::Site(Site::Rib)),
        ("RL-34", told(T::NoAccess)),
        ("RL-35", told(T::OldRepair)),
        ("RL-36", told(T::Buckled)),
        ("RL-37", Shown(|_| {
            // Even in a stronger alloy.
            let thin = query(Style::Lap).plate((material("7075-T6"), length(".025")));
            assert!(patched(&thin).findings.has(Code::RepairTooThin) && patched(&thin).findings.must_refer());
        })),
        ("RL-38", told(T::NoMoreRivets)),
        ("RL-39", told(T::Authority)),
    ]
}

fn single_row(row: &Row, name: Name) {
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
    let least = HANDBOOK.length(name, &case).expect("a limit").value;
    assert_eq!(Some(least), length("1/8").checked_mul(value(row) as i64));
}

/// 1/32 larger up to a diameter, and nothing above it.
fn larger(original: RivetAlloy, up_to: &str) {
    let found = |diameter: Length| substitute(original, RivetAlloy::Al2117, diameter).map(|found| found.diameter);
    assert_eq!(found(length(up_to)), length(up_to).checked_add(Length::THIRTY_SECOND));
    assert_eq!(found(length(up_to).checked_add(Length::THIRTY_SECOND).expect("short")), None);
}

/// No blind rivets there: a job's row must take solid ones, and a repair is refused or says so.
fn solid(place: Place, site: Site) {
    assert!(solid_required(Structure::Secondary, RowMember::Skin, &[place]).is_some());
    assert_eq!(Site::from(place), site);
    match site.sizing() {
        Sizing::Refused => {}
        _ => assert!(patched(&query_at().sites(&[site])).told.has(Told::SolidOnly), "{site:?}"),
    }
}

fn query_at() -> PatchQuery<'static, 'static> {
    query(Style::Lap)
}

fn one_heavier_behind() {
    for style in [Style::Doubler, Style::Flush] {
        let found = patched(&query(style));
        assert_eq!((found.plate.material, found.plate.thickness), (material(CLAD), length(".040")));
    }
}

fn figure_edge(row: &Row, skin: &str) {
    let edge = row.text("value").split(' ').next().expect("a distance");
    assert_eq!(patched(&changed(query(Style::Lap), |it| it.thickness = length(skin))).edge.value, length(edge));
}

/// Repairs of every kind, for what is told with them.
fn told_with_repairs() -> BTreeSet<Told> {
    let mut told = BTreeSet::new();
    let mut add = |tell: &Tell| told.extend(tell.iter());
    let crack = SkinDamage::Crack { along: Length::ZERO, across: length("2") };
    let hole = SkinDamage::Hole { along: length("2"), across: length("7") };
    let sites = [Site::LowerWing, Site::BelowWaterLine, Site::FluidTight, Site::AirIntake, Site::HeavilyStressed];
    for style in [Style::Lap, Style::Doubler, Style::Flush] {
        for damage in [crack, hole] {
            add(&patched(&changed(query(style), |it| it.damage = damage).sites(&sites)).told);
        }
    }
    add(&patched(&changed(query(Style::Lap), |it| it.material = material("7075-T6"))).told);
    // 2024-O is named without strengths, so nothing counts its rivets.
    let published = |known: &Material| known.properties(length(".032")).is_some();
    for annealed in Material::known().filter(|known| known.temper() == "O").filter(published) {
        add(&patched(&changed(query(Style::Lap), |it| it.material = annealed)).told);
    }
    let bolts = leg("1", ".064").held(LegFastener::Bolts);
    for kind in Spliced::ALL.iter().copied() {
        for name in ["2017", "7075-T6"] {
            let legs = [leg("1", ".064"), bolts];
            let query =
                changed(member(kind, Shape::BulbAngle, &legs), |it| it.material = material(name)).gap(length("1"));
            add(&spliced(&query).told);
        }
    }
    let lap = pack(&[(Role::Skin, ".032"), (Role::Skin, ".032")]);
    add(&copied(&[factory(&lap, "MS20470AD4", 1)], false, true, &sites).told);
    told
}

/// The paragraphs of a source: `4-58j(2)` of `AC 43.13-1B, para 4-58l; 4-58j(2) (text of the document)`.
fn paragraphs(source: &str) -> Vec<String> {
    let is_paragraph = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit()) && word.contains('-');
    source.split([' ', ';', ',']).filter(is_paragraph).map(str::to_owned).collect()
}

#[test]
fn every_rule_is_used_or_listed_with_the_reason_why_not() {
    let rules: Vec<Row> = fixture("ac43-repair-rules").into_iter().chain(fixture("patch-rules")).collect();
    let uses = uses();
    assert_eq!(rules.len(), uses.len(), "as many uses as rules");
    let told = told_with_repairs();
    let (mut used, mut not_used) = (0, 0);
    for (rule, (id, what)) in rules.iter().zip(&uses) {
        assert_eq!(rule.text("rule_id"), *id, "{}: in the order of the fixture", rule.place());
        // A basis that a rule rests on names one of its paragraphs.
        let rests_on = |place: &str| {
            let named = paragraphs(rule.text("source"));
            let is_named = |paragraph: &String| {
                let whole = paragraph.split('(').next().unwrap_or(paragraph);
                place.contains(paragraph.as_str())
                    || place.contains(whole)
                    || place.contains(whole.trim_end_matches(char::is_alphabetic))
            };
            assert!(named.iter().any(is_named), "{id}: {named:?} in {place:?}");
        };
        match what {
            Shown(show) => show(rule),
            Use::Told(sentence) => {
                assert!(told.contains(sentence), "{id}: {sentence:?} is told with no repair");
                assert_eq!(sentence.basis().status(), Status::Published);
                let cited = sentence.basis().citation().expect("built in");
                // Another document may have the same rule.
                let pages = !paragraphs(rule.text("source")).is_empty();
                if rule.text("source").starts_with(cited.document) && pages {
                    rests_on(cited.place);
                } else {
                    assert!(!rule.text("rule_id").starts_with("AR-"), "{id}: {cited}");
                }
            }
            Use::Site(site) => {
                assert!(site.sizing() == Sizing::Refused, "{id}");
                assert_eq!(patch(&query(Style::Lap).sites(&[*site])), Err(PatchError::Refused { site: *site }));
                let refused = splice(&member(Spliced::Stringer, Shape::Flat, &[leg("1", ".064")]).sites(&[*site]));
                assert_eq!(refused.err(), Some(MemberError::Refused { site: *site }));
                if rule.text("source").starts_with("AC 43.13-1B") {
                    rests_on(site.basis().citation().expect("built in").place);
                }
            }
            Elsewhere(place) => assert!(place.contains("tests/"), "{id}"),
            Not => {
                let unused =
                    UNUSED.iter().find(|unused| unused.rule == *id).unwrap_or_else(|| panic!("{id} has no reason"));
                let source = rule.text("source");
                assert!(source.contains(unused.document) && source.contains(unused.place), "{id}: {unused:?}");
                assert_eq!(unused.status == Status::Published, rule.text("status") == "read", "{id}");
                assert!(unused.what.starts_with(rule.text("subject")) && unused.why.len() > 20, "{id}");
            }
        }
        if matches!(what, Not) { not_used += 1 } else { used += 1 }
    }
    assert_eq!((used, not_used), (173, 33), "so many are used, so many are not");
    let not_of_the_circular = uses.iter().take(161).filter(|(_, what)| matches!(what, Not)).count();
    assert_eq!(not_of_the_circular, 22, "of the circular's 161");
    assert_eq!(UNUSED.len(), not_used, "what is listed as not used is not used");
}

#[test]
fn nothing_is_told_that_no_rule_asks_for() {
    let asked: BTreeSet<Told> =
        uses().into_iter().filter_map(|(_, what)| if let Use::Told(told) = what { Some(told) } else { None }).collect();
    // Those whose figure is shown instead, and those that only serve a rule that is shown.
    let shown = [
        Told::NoReheat,
        Told::CoatAgain,
        Told::FloatTest,
        Told::SpreadRivets,
        Told::SolidOnly,
        Told::Trim,
        Told::TurnIn,
        Told::FillGap,
    ];
    for told in Told::ALL {
        assert!(asked.contains(told) || shown.contains(told), "{told:?} rests on no rule of the book");
    }
}

#[test]
fn a_member_is_asked_about_up_to_the_longest_length_and_no_further() {
    let legs = [leg(".6", ".040"), leg("2", ".040"), leg(".6", ".040")];
    let nanometre = |length: Length, more: i64| Length::from_nanometres(length.nanometres() + more).expect("a length");
    let refused = |query: &SpliceQuery<'_, 'static>| splice(query) == Err(MemberError::LengthNotPositive);
    for (asked, wrong) in
        [(LONGEST, false), (nanometre(LONGEST, 1), true), (Length::ZERO, false), (nanometre(Length::ZERO, -1), true)]
    {
        let query = member(Spliced::Frame, Shape::Channel, &legs).gap(asked);
        assert_eq!(refused(&query), wrong, "gap {asked}");
    }
    let one = nanometre(Length::ZERO, 1);
    for (changed, wrong) in [
        (Leg::new(nanometre(LONGEST, 1), length(".040")), true),
        (Leg::new(Length::ZERO, length(".040")), true),
        (Leg::new(length("2"), Length::ZERO), true),
        (legs[1].skin(Some(Length::ZERO)), true),
        (legs[1].skin(Some(one)), false),
        (legs[1].plate(Some((Length::ZERO, length(".050")))), true),
        (legs[1].plate(Some((length("2"), Length::ZERO))), true),
    ] {
        let legs = [legs[0], changed, legs[2]];
        assert_eq!(refused(&member(Spliced::Frame, Shape::Channel, &legs)), wrong, "{changed:?}");
    }
}

// --------------------------------------------------------------------------------------------------------------- a patch at its limits

/// A nanometre more.
fn more(length: Length) -> Length {
    Length::from_nanometres(length.nanometres() + 1).expect("in range")
}

fn of_damage(damage: SkinDamage) -> Result<Patch, PatchError> {
    patch(&changed(query(Style::Lap), |it| it.damage = damage))
}

/// Zero and less, and longer than is laid out: refused. The longest itself is no mistake; a crack runs one way only.
#[test]
fn what_is_no_length_of_a_patch_is_refused() {
    let (zero, two, longest) = (Length::ZERO, length("2"), LONGEST);
    let below = Length::from_nanometres(-1).expect("in range");
    let hole = |along, across| of_damage(SkinDamage::Hole { along, across });
    let crack = |along, across| of_damage(SkinDamage::Crack { along, across });
    let opening = |radius| of_damage(SkinDamage::Opening { along: two, across: two, radius });
    for refused in [
        hole(zero, two),
        hole(two, zero),
        hole(below, two),
        hole(more(longest), two),
        hole(two, more(longest)),
        crack(zero, zero),
        crack(below, two),
        crack(two, more(longest)),
        opening(below),
        patch(&changed(query(Style::Lap), |it| it.thickness = zero)),
        patch(&query(Style::Lap).edge(Some(zero))),
        patch(&query(Style::Lap).apart(Some(zero))),
    ] {
        assert_eq!(refused.map(|found| found.plate.along), Err(PatchError::LengthNotPositive));
    }
    for laid_out in [hole(longest, two), hole(two, longest), crack(zero, two), crack(two, zero), opening(zero)] {
        assert!(laid_out.is_ok(), "{laid_out:?}");
    }
}

/// By hand: corners of 1/2 stand off by .1464 each side, round ends of a small hole by .2071 of it; both to the next 64th.
#[test]
fn an_opening_is_cut_to_the_next_64th_round_its_damage() {
    let cut = |along: &str, across: &str| {
        let damage = SkinDamage::Hole { along: length(along), across: length(across) };
        let found = of_damage(damage).expect("a patch").opening;
        (found.along, found.across, found.radius)
    };
    assert_eq!(cut("2", "1.5"), (length("2-19/64"), length("1-51/64"), length("1/2")));
    assert_eq!(cut("1/2", "1/2"), (length("46/64"), length("46/64"), length("23/64")));
    assert_eq!(cut("3", "3/8"), (length("3-5/32"), length("17/32"), length("17/64")));
    // A radius that the opening has no room for is a round end.
    let opening = SkinDamage::Opening { along: length("1"), across: length("3"), radius: length("9") };
    assert_eq!(of_damage(opening).expect("a patch").opening.radius, length("1/2"));
    // A crack ends in the middles of its stop holes.
    let crack = SkinDamage::Crack { along: length("1/4"), across: length("2") };
    let found = of_damage(crack).expect("a patch").opening;
    assert_eq!((found.along, found.across, found.radius), (length("11/32"), length("2-3/32"), length("3/64")));
}

/// A major repair from a nanometre over 6 in on; a member too near from a nanometre under 8-1/2 diameters on.
#[test]
fn how_long_and_how_near_are_measured_to_the_limit_itself() {
    let six = length("6");
    for (along, across, major) in [(six, six, false), (more(six), six, true), (six, more(six), true)] {
        let found = of_damage(SkinDamage::Opening { along, across, radius: length("1/2") }).expect("a patch");
        assert_eq!(found.findings.has(Code::MajorRepair), major, "{along} {across}");
        assert_eq!(found.told.has(Told::WholePanel), major);
    }
    let near = |member: Option<Length>| patched(&query(Style::Lap).member(member)).findings.has(Code::MemberTooNear);
    let limit = length("1-1/16");
    let less = Length::from_nanometres(limit.nanometres() - 1).expect("in range");
    assert_eq!((near(Some(limit)), near(Some(less)), near(None)), (false, true, false));
}

/// As thick as the skin and as the next gauge are within; a plate of another material is weighed by its own strength.
#[test]
fn a_plate_is_neither_thinner_than_the_skin_nor_heavier_than_the_next_gauge() {
    let found = |gauge: Length| {
        let asked = query(Style::Lap).plate(Some((material(CLAD), gauge))).rivet(Some(part("MS20470AD4")));
        let findings = patched(&asked).findings;
        (findings.has(Code::RepairTooThin), findings.has(Code::RepairTooStrong))
    };
    let (skin, next) = (length(".032"), length(".040"));
    let less = Length::from_nanometres(skin.nanometres() - 1).expect("in range");
    assert_eq!((found(skin), found(less)), ((false, false), (true, false)));
    assert_eq!((found(next), found(more(next))), ((false, false), (false, true)));
}

/// The figure for outside patches: 1/8 rivets up to .032, 5/32 above. What the rule of the thicker sheet asks for beside it is noted.
#[test]
fn another_size_than_that_of_the_figure_is_noted() {
    let found = |skin: &str| {
        let asked = changed(query(Style::Lap), |it| it.thickness = length(skin));
        let found = patched(&asked);
        let noted = found.findings.iter().find(|found| found.code() == Code::DiameterOutsideRule).copied();
        (found.rivet.diameter(), noted.and_then(|noted| noted.limit()))
    };
    assert_eq!(found(".032"), (length("1/8"), None));
    assert_eq!(found(".040"), (length("1/8"), Some(finding::Figure::Length(length("5/32")))));
    assert_eq!(found(".050"), (length("5/32"), None));
    assert_eq!(found(".060"), (length("3/16"), Some(finding::Figure::Length(length("5/32")))));
    // Not for a doubler behind the skin.
    let behind = patched(&query(Style::Doubler).plate(Some((material(CLAD), length(".060")))));
    assert!(!behind.findings.has(Code::DiameterOutsideRule) && behind.rivet.diameter() == length("3/16"));
}

/// The rows beside a repair go before the rule: the next smaller size is named where it is one for structure.
#[test]
fn the_next_smaller_rivet_is_named_where_it_is_for_structure() {
    let chosen =
        |skin: &str| patched(&changed(query(Style::Lap), |it| it.thickness = length(skin))).chosen.expect("chosen");
    let smaller = |skin: &str| chosen(skin).smaller.map(|smaller| smaller.diameter());
    assert_eq!((smaller(".060"), smaller(".050")), (Some(length("5/32")), Some(length("1/8"))));
    assert_eq!(chosen(".050").thickest, length(".050"));
    let case = Case::new(Head::Universal, RivetAlloy::Al2117, length("1/8"));
    let least = HANDBOOK.length(Name::DiameterStructuralLeast, &case).map_or(Length::ZERO, |least| least.value);
    let in_series = MS20470.sizes.iter().map(|size| size.shank_nominal).filter(|size| *size < length("1/8")).max();
    assert_eq!(smaller(".040"), in_series.filter(|size| *size >= least));
    assert!(patched(&query(Style::Lap).rivet(Some(part("MS20470AD4")))).chosen.is_none());
}

/// Where nothing is sized the refusal is the answer, with what to enter; a slip in the question is none.
#[test]
fn a_patch_that_is_not_sized_is_referred() {
    let refused = |query: &PatchQuery<'_, 'static>| {
        let refusal = patch(query).expect_err("not sized").refusal(&query.material);
        refusal.map(|found| (found.code(), found.severity(), found.key().map(|key| key.to_string())))
    };
    let sites = [Site::Skin, Site::Pressurised];
    let site = refused(&query(Style::Lap).sites(&sites)).expect("a refusal");
    assert_eq!((Some(site.0), site.1), (Site::Pressurised.refusal().map(|found| found.code()), Severity::Refer));
    let soft = changed(query(Style::Lap), |it| it.material = material("2024-O"));
    let wanted = (Code::StrengthNotPublished, Severity::Refer, Some("material.2024-O.tension_ultimate".to_owned()));
    assert_eq!(refused(&soft.rivet(Some(part("MS20470AD4")))), Some(wanted));
    let alone = query(Style::Lap).rivet(Some(part("MS20470D4"))).by(By::Table);
    assert_eq!(refused(&alone), Some((Code::NoSpliceTable, Severity::Refer, None)));
    assert_eq!(refused(&changed(query(Style::Lap), |it| it.thickness = Length::ZERO)), None);
}

/// What is told depends on sheet, style, rows and what stays in place.
#[test]
fn what_is_told_of_a_patch_belongs_to_it() {
    let told = |query: PatchQuery<'_, 'static>, which| patched(&query).told.has(which);
    let of = |sheet| changed(query(Style::Lap), |it| it.material = material(sheet)).rivet(Some(part("MS20470AD4")));
    for (sheet, notches, reheat) in [("7075-T6", true, false), (CLAD, false, true), ("5052-H32", false, false)] {
        assert_eq!(told(of(sheet), Told::Notches7075), notches, "{sheet}");
        assert_eq!(told(of(sheet), Told::NoReheat), reheat, "{sheet}");
        assert!(!told(of(sheet), Told::NoAnnealed), "{sheet}");
    }
    assert!(told(query(Style::Lap), Told::RowsUnequal));
    let crack = SkinDamage::Crack { along: Length::ZERO, across: length("2") };
    let flush = |damage| changed(query(Style::Flush), |it| it.damage = damage);
    let opening = query(Style::Flush).damage;
    for (damage, turned_in) in [(crack, false), (opening, true)] {
        assert_eq!(told(flush(damage), Told::TurnIn), turned_in);
        assert_eq!(told(flush(damage), Told::SealDoubler), !turned_in);
        assert!(told(flush(damage), Told::FlushMethod));
    }
}

/// A filler narrower than two edge distances has no room for a rivet of its own.
#[test]
fn a_filler_without_room_for_its_rivets_is_referred() {
    let found = |across: Length| {
        let damage = SkinDamage::Opening { along: length("3"), across, radius: Length::ZERO };
        let found = patched(&changed(query(Style::Flush), |it| it.damage = damage));
        (found.findings.has(Code::EdgeDistanceShort), found.filler_holes().count() > 0)
    };
    let edge = patched(&query(Style::Flush)).edge.value;
    let twice = Length::from_nanometres(2 * edge.nanometres()).expect("in range");
    let less = Length::from_nanometres(twice.nanometres() - 2).expect("in range");
    assert_eq!((found(twice), found(less)), ((false, true), (true, false)));
}

/// Thick enough is countersunk, thinner is dimpled with the sheet behind it, whichever stands outside.
#[test]
fn a_flush_rivet_sits_in_a_countersink_where_the_sheet_is_thick_enough() {
    let seats = |style, skin: &str, rivet: &'static str| {
        let asked = changed(query(style), |it| it.thickness = length(skin));
        let found = patched(&asked.rivet(part(rivet)));
        found.stack.layers().iter().map(|layer| layer.preparation).collect::<Vec<_>>()
    };
    use Preparation::{Countersunk, Dimpled, Plain};
    for style in [Style::Lap, Style::Flush] {
        assert_eq!(seats(style, ".063", "MS20426AD5"), [Countersunk, Plain], "{style:?}");
        let thin = seats(style, ".032", "MS20426AD4");
        assert_eq!(thin[0], Dimpled, "{style:?}");
        assert_ne!(thin[1], Plain, "a dimple goes into something");
    }
    let round = patched(&query(Style::Doubler));
    assert!(round.stack.layers().iter().all(|layer| layer.preparation == Plain));
}

// ---------------------------------------------------------------------------------------------------------------- a seam that is copied

/// A seam as long as two edge distances holds one rivet; a hair shorter none. Evenly from both ends.
#[test]
fn a_copied_seam_begins_and_ends_alike() {
    let lap = pack(&[(Role::Skin, ".040"), (Role::Skin, ".040")]);
    let rows = factory(&lap, "MS20470AD4", 1);
    let laid = |long: Length| seam(&SideQuery::new(long, &[rows])).map(|found| (found.per_row, found.first));
    // 12 less twice 3/8 is 11-1/4: fifteen times 3/4.
    assert_eq!(laid(length("12")), Ok((16, length("3/8"))));
    assert_eq!(laid(length("11.9")), Ok((15, length(".7"))));
    assert_eq!(laid(length("3/4")), Ok((1, length("3/8"))));
    let less = Length::from_nanometres(length("3/4").nanometres() - 1).expect("in range");
    for refused in [less, more(LONGEST)] {
        assert_eq!(laid(refused), Err(PanelSeamError::LengthNotPositive));
    }
    assert!(laid(LONGEST).is_ok());
    let no_pitch = changed(rows, |it| it.pitch = Length::ZERO);
    assert!(seam(&SideQuery::new(length("12"), &[no_pitch])).is_err());
    assert_eq!(seam(&SideQuery::new(length("12"), &[])).map(|found| found.rows), Err(PanelSeamError::NoSeam));
    assert_eq!(
        seam(&SideQuery::new(length("12"), &[rows; 5])).map(|found| found.rows),
        Err(PanelSeamError::TooManySeams)
    );
}

#[test]
fn every_second_row_of_a_copied_seam_stands_in_the_gaps_where_the_old_one_did() {
    let lap = pack(&[(Role::Skin, ".040"), (Role::Skin, ".040")]);
    for staggered in [false, true] {
        let rows = factory(&lap, "MS20470AD4", 3).staggered(staggered);
        let found = copied(&[rows], false, false, &[]);
        let of_row = |y: &str| {
            let holes = found.holes().filter(|hole| hole.y == length(y)).map(|hole| hole.x);
            holes.collect::<Vec<Length>>()
        };
        // An edge distance in, then the rows apart.
        let (first, second, third) = (of_row("3/8"), of_row("7/8"), of_row("1-3/8"));
        assert_eq!((first.len(), first[0], first[15]), (16, length("3/8"), length("11-5/8")));
        assert_eq!(first, third);
        let expected =
            if staggered { (15, length("3/4"), length("1-1/2")) } else { (16, length("3/8"), length("1-1/8")) };
        assert_eq!((second.len(), second[0], second[1]), expected);
        assert_eq!(found.holes().count(), first.len() + second.len() + third.len());
        assert_eq!(found.staggered, staggered);
    }
    assert!(
        !copied(&[factory(&lap, "MS20470AD4", 1).staggered(true)], false, false, &[]).staggered,
        "one row has no gaps before it"
    );
}

/// Holes of a cap that change need approval, whichever layer it is; those of a lap of two skins do not.
#[test]
fn what_a_copied_seam_says_of_its_pack() {
    let lap = pack(&[(Role::Skin, ".040"), (Role::Skin, ".040")]);
    let cap = pack(&[(Role::Skin, ".040"), (Role::Cap, ".125")]);
    for (stack, is_cap) in [(&lap, false), (&cap, true)] {
        for holes_changed in [false, true] {
            let found = copied(&[factory(stack, "MS20470AD4", 1)], holes_changed, false, &[]);
            assert_eq!(found.findings.has(Code::StepNeedsApproval), is_cap && holes_changed);
            assert!(found.findings.has(Code::AsStrongAsBefore));
        }
    }
    let told = |rivet, gauge| {
        let lap = pack(&[(Role::Skin, gauge), (Role::Skin, ".020")]);
        let found = copied(&[factory(&lap, rivet, 1)], false, true, &[]).told;
        (found.has(Told::BackLap), found.has(Told::FlushMethod), found.has(Told::CopyNotEnough))
    };
    assert_eq!(told("MS20470AD4", ".032"), (true, false, true));
    assert_eq!(told("MS20470AD4", ".0321"), (false, false, true));
    assert_eq!(told("MS20426AD4", ".063"), (false, true, true));
}

/// A seam of which no strength is known is no weaker than itself; two that differ cannot be compared.
#[test]
fn seams_that_differ_are_compared_by_strengths_that_are_known() {
    let known = pack(&[(Role::Skin, ".040"), (Role::Skin, ".040")]);
    let mut unknown = Stack::new();
    for _ in 0..2 {
        unknown.push(Layer::of(Toleranced::exactly(length(".040"))).role(Role::Skin)).expect("few");
    }
    let (one, other) = (factory(&known, "MS20470AD4", 1), factory(&unknown, "MS20470AD5", 1));
    let alone = factory(&unknown, "MS20470AD4", 1);
    let compared = |factory: &[LaidRows<'_, 'static>]| {
        let found = copied(factory, false, false, &[]);
        let refers =
            found.findings.iter().any(|found| found.code() == Code::StrengthNotPublished && is_referred(found));
        (found.copied, found.differ, refers, found.findings.has(Code::AsStrongAsBefore))
    };
    assert_eq!(compared(&[alone]), (0, false, false, true));
    assert_eq!(compared(&[alone, alone]), (0, false, false, true));
    let (copied, differ, refers, as_before) = compared(&[one, other]);
    assert!(copied == 0 && !differ && refers && !as_before);
    assert_eq!(compared(&[other, one]).0, 1, "what is known is stronger than what is not");
}

// ------------------------------------------------------------------------------------------------------------------------ bends and gauges

/// As tight as the table allows is allowed, a nanometre tighter is not; without a table it is asked for.
#[test]
fn a_bend_is_refused_from_a_nanometre_under_the_least_radius_on() {
    let limits = least_radius(material("2024-T3"), length(".040"), &HANDBOOK);
    let least = length(".120");
    let code = |radius, limits| refusal(radius, limits, None).map(|found| (found.code(), found.severity()));
    let less = Length::from_nanometres(least.nanometres() - 1).expect("in range");
    assert_eq!((code(least, limits), code(length("1"), limits)), (None, None));
    assert_eq!(code(less, limits), Some((Code::BendTooTight, Severity::Refer)));
    assert_eq!(code(length("1"), None), Some((Code::NoLimit, Severity::Refer)));
}

/// A knife edge and a foil have a setback; nothing below zero has, and no sheet without a thickness has a least radius.
#[test]
fn a_bend_of_no_radius_or_no_thickness_is_one() {
    let (zero, quarter) = (Length::ZERO, length(".25"));
    let below = Length::from_nanometres(-1).expect("in range");
    let at = |radius, thickness| setback(90.0, radius, thickness).map(|found| found.value);
    assert_eq!((at(zero, quarter), at(quarter, zero), at(zero, zero)), (Some(quarter), Some(quarter), Some(zero)));
    assert_eq!((at(below, quarter), at(quarter, below)), (None, None));
    let radius = |thickness| least_radius(material("2024-T3"), thickness, &HANDBOOK);
    assert!(radius(zero).is_none() && radius(below).is_none() && radius(more(zero)).is_some());
    // The same rule all the way: the tangent of half the angle.
    for degrees in [1.0_f64, 30.0, 89.0, 91.0, 120.0, 179.0] {
        let found = setback(degrees, quarter, length(".064")).expect("a bend").value.to_inches_f64();
        assert!((found - (degrees.to_radians() / 2.0).tan() * 0.314).abs() < 1e-6 * (1.0 + found), "{degrees}");
    }
}

/// Both lists as one, rising, each gauge once; the next heavier of the list that has the gauge, today's where both have it or none.
#[test]
fn the_gauges_are_those_of_both_lists() {
    let thousandths = |gauge: u16| Length::from_ten_thousandths(gauge * 10);
    let both: BTreeSet<Length> = CIRCULAR.iter().chain(TODAY).map(|gauge| thousandths(*gauge)).collect();
    assert_eq!(gauges().collect::<Vec<_>>(), both.iter().copied().collect::<Vec<_>>());
    let next = |gauge: u16| next_heavier(thousandths(gauge)).map(|next| next.value);
    assert_eq!((next(51), next(64)), (Some(length(".064")), Some(length(".081"))), "only the circular has these");
    assert_eq!((next(50), next(63)), (Some(length(".063")), Some(length(".071"))), "only today's list has these");
    assert_eq!((next(40), next(16)), (Some(length(".050")), Some(length(".018"))), "both have these");
    assert_eq!((next(45), next(1), next(250), next(251)), (Some(length(".050")), Some(length(".012")), None, None));
    for thickness in (1..=250).map(thousandths) {
        assert_eq!(Some(at_least(thickness)), both.iter().copied().find(|gauge| *gauge >= thickness));
    }
    assert_eq!(at_least(length(".3")), length(".3"));
}

/// Several rows have a least distance from each other; one row has nothing to be apart from.
#[test]
fn rows_that_are_too_close_are_referred_and_one_row_is_not() {
    let stack = pack(&[(Role::Skin, ".040"), (Role::Doubler, ".050")]);
    let close = |rows: u8| {
        let laid =
            LaidRows::new(part("MS20470AD4"), &stack, length("3/8"), length("3/4")).rows(rows).apart(length("1/8"));
        let found = in_row(&laid).expect("published");
        found
            .findings
            .iter()
            .any(|finding| finding.code() == Code::TransversePitchShort && finding.severity() == Severity::Refer)
    };
    assert_eq!([1, 2, 3].map(close), [false, true, true]);
}
