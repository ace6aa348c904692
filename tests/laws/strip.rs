//! Laws of strips whose rows are not alike: the weakest line against every line there is.

use proptest::prelude::*;
use shophead::basis::Basis;
use shophead::finding::{Code, Finding, Severity};
use shophead::joint::strength::Shear;
use shophead::joint::strip::{Hole, Pulled, StripSheet, weakest_line};
use shophead::layout::Point;
use shophead::length::{Length, Toleranced};
use shophead::quantity::{Force, Stress};
use shophead::repair::strip::{CountedQuery, CountedRow, InPlace, counted};
use shophead::stack::{Layer, Stack};
use shophead_tests::prelude::{length, material, nm, part};

use crate::common::config;

const GIVEN: Basis = Basis::own(0);
/// Across the strip, in nanometres: two inches and a bit.
const WIDTH: i64 = 60_000_000;

/// Few enough that every set of them can be tried.
fn holes() -> impl Strategy<Value = Vec<Hole>> {
    let hole = (0_i64..4, 5_000_000_i64..55_000_000, 2_000_000_i64..6_000_000, 50.0_f64..500.0);
    prop::collection::vec(hole, 1..11).prop_map(|holes| {
        let hole = |(row, y, diameter, carries): (i64, i64, i64, f64)| {
            Hole::new(Point { x: nm(row * 9_000_000), y: nm(y) }, nm(diameter), Force::from_lbf(carries))
        };
        holes.into_iter().map(hole).collect()
    })
}

fn sheet(pulled: Pulled) -> StripSheet {
    StripSheet::new(nm(1_000_000), (Stress::from_ksi(60.0), GIVEN), pulled)
}

fn inches(length: Length) -> f64 {
    length.to_inches_f64()
}

/// Every set of holes as one line from side to side, with the rivets of the rows before the first row on it.
fn by_trying(holes: &[Hole], pulled: Pulled) -> f64 {
    let mut least = f64::MAX;
    for set in 1_u32..1 << holes.len() {
        let mut line: Vec<&Hole> = (0..holes.len()).filter(|i| set >> i & 1 == 1).map(|i| &holes[i]).collect();
        line.sort_by_key(|hole| hole.at.y);
        if line.windows(2).any(|pair| pair[0].at.y == pair[1].at.y) {
            continue;
        }
        let along = |hole: &Hole| match pulled {
            Pulled::AtFirst => inches(hole.at.x),
            Pulled::AtLast => -inches(hole.at.x),
        };
        let first = line.iter().map(|hole| along(hole)).fold(f64::MAX, f64::min);
        let before: f64 = holes.iter().filter(|hole| along(hole) < first).map(|hole| hole.carries.lbf()).sum();
        let cut: f64 = line.iter().map(|hole| inches(hole.diameter)).sum();
        let legs: f64 = line
            .windows(2)
            .map(|pair| {
                let (s, g) = (along(pair[0]) - along(pair[1]), inches(pair[1].at.y) - inches(pair[0].at.y));
                s * s / (4.0 * g)
            })
            .sum();
        let net = (inches(nm(WIDTH)) - cut + legs).max(0.0);
        least = least.min(60_000.0 * inches(nm(1_000_000)) * net + before);
    }
    least
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn no_line_is_weaker_than_the_weakest(holes in holes(), at_first in any::<bool>()) {
        let pulled = if at_first { Pulled::AtFirst } else { Pulled::AtLast };
        let found = weakest_line(&holes, nm(WIDTH), &sheet(pulled)).expect("a strip");
        let tried = by_trying(&holes, pulled);
        prop_assert!((found.load.force.lbf() - tried).abs() < 1e-9 * (1.0 + tried), "{:?} {}", found, tried);
    }

    #[test]
    fn a_larger_hole_strengthens_no_sheet(holes in holes(), which in any::<prop::sample::Index>()) {
        let before = weakest_line(&holes, nm(WIDTH), &sheet(Pulled::AtFirst)).expect("a strip");
        let mut larger = holes;
        let index = which.index(larger.len());
        larger[index].diameter = nm(larger[index].diameter.nanometres() + 1_000_000);
        let after = weakest_line(&larger, nm(WIDTH), &sheet(Pulled::AtFirst)).expect("a strip");
        prop_assert!(after.load.force.lbf() <= before.load.force.lbf() + 1e-9);
    }
}

/// Two or three sheets, and rows of one to four rivets.
fn counted_strip() -> impl Strategy<Value = (Vec<u16>, Vec<u16>, InPlace, bool)> {
    let stress = |least: f64, most: f64| prop::option::of((least..most).prop_map(Stress::from_ksi));
    let given = (
        stress(40.0, 80.0),
        stress(80.0, 140.0),
        stress(25.0, 45.0),
        stress(25.0, 45.0),
        prop::option::of(2_400_000_i64..5_000_000),
    );
    (
        prop::collection::vec(1_u16..5, 1..5),
        prop::collection::vec(prop::sample::select(&[32_u16, 40, 50, 63][..]), 2..4),
        given.prop_map(|(ftu, fbru, fsu, rivet_fsu, hole)| {
            InPlace::default().ftu(ftu).fbru(fbru).fsu(fsu).rivet_fsu(rivet_fsu).hole(hole.map(nm))
        }),
        any::<bool>(),
    )
}

proptest! {
    #![proptest_config(config())]

    /// Shear, bearing and tear-out of each row from the formulas, where their strengths are given; the strip as weak as its weakest line and all
    /// its rivets.
    #[test]
    fn a_strip_is_as_strong_as_its_weakest_line_or_all_its_rivets((counts, gauges, given, double) in counted_strip()) {
        let metal = material("2024-T3");
        let rivet = part("MS20470AD4");
        let mut stack = Stack::new();
        for gauge in &gauges {
            stack.push(Layer::of(Toleranced::exactly(Length::from_ten_thousandths(gauge * 10))).material(metal)).expect("few");
        }
        let shear = if double && gauges.len() == 3 { Shear::Double } else { Shear::Single };
        let rows: Vec<CountedRow> = counts.iter().map(|count| CountedRow::new(*count, rivet)).collect();
        let (width, apart, edge) = (length("2"), length("3/4"), length("3/8"));
        let query = CountedQuery::new(rivet, &rows, &stack, width, apart, edge).given(given).shear(shear);
        let Ok(found) = counted(&query, &mut |_, _| {}) else {
            // One sheet in double shear, or such a pack, is no joint.
            prop_assert!(gauges.len() == 3);
            return Ok(());
        };
        let area = |d: f64| core::f64::consts::FRAC_PI_4 * d * d;
        let thickness: Vec<f64> = gauges.iter().map(|gauge| f64::from(*gauge) / 1_000.0).collect();
        let thinnest = thickness.iter().copied().fold(f64::MAX, f64::min);
        let published = |gauge: &u16| metal.properties(Length::from_ten_thousandths(gauge * 10)).expect("published");
        let close = |one: f64, other: f64| (one - other).abs() < 1e-6 * (1.0 + other.abs());
        let mut all = Some(0.0);
        for (index, row) in found.rows.iter().enumerate() {
            let d = inches(row.hole);
            prop_assert!(given.hole.is_none_or(|hole| hole == row.hole));
            if let Some(fsu) = given.rivet_fsu {
                let planes = if shear == Shear::Double { 2.0 } else { 1.0 };
                prop_assert!(close(row.shear.expect("given").force.lbf(), fsu.psi() * area(d) * planes));
            }
            if let Some(fbru) = given.fbru {
                prop_assert!(close(row.bearing.expect("given").force.lbf(), fbru.psi() * d * thinnest));
            }
            // The first sheet ends behind the last row, every other one before the first.
            let last = found.rows.len() - 1;
            let torn = gauges.iter().enumerate().filter(|(sheet, _)| if *sheet == 0 { index == last } else { index == 0 });
            let torn = torn.filter_map(|(sheet, gauge)| {
                let fsu = given.fsu.or_else(|| published(gauge).fsu())?;
                Some(fsu.psi() * thickness[sheet] * 2.0 * inches(edge))
            });
            let torn = torn.reduce(f64::min);
            prop_assert_eq!(torn.is_some(), row.tear_out.is_some());
            prop_assert!(torn.zip(row.tear_out).is_none_or(|(one, other)| close(one, other.lbf())));
            let ways = [row.shear.map(|shear| shear.force), row.bearing.map(|bearing| bearing.force)];
            let least = ways.into_iter().collect::<Option<Vec<Force>>>();
            let least = least.map(|ways| ways.into_iter().chain(row.tear_out).map(Force::lbf).fold(f64::MAX, f64::min));
            prop_assert!(least.map(|least| least.to_bits()) == row.carries().map(|carries| carries.lbf().to_bits()));
            all = all.zip(least).map(|(all, least)| all + least * f64::from(row.row.count));
        }
        prop_assert_eq!(found.rows.len(), counts.len());
        prop_assert!(found.all_rivets.map(Force::lbf).zip(all).is_none_or(|(one, other)| close(one, other)));
        prop_assert_eq!(found.all_rivets.is_some(), all.is_some());
        prop_assert!(found.all(|row| row.carries()).map(Force::lbf) == found.all_rivets.map(Force::lbf));
        // Every sheet: the first pulled where the rows begin, the others at the far end.
        let mut weakest = f64::MAX;
        prop_assert_eq!(found.sheets.len(), gauges.len());
        for (place, (number, sheet)) in found.sheets.iter().enumerate() {
            prop_assert_eq!(usize::from(*number), place + 1);
            prop_assert_eq!(sheet.pulled, if place == 0 { Pulled::AtFirst } else { Pulled::AtLast });
            let ftu = given.ftu.or_else(|| published(&gauges[place]).ftu()).expect("published");
            prop_assert!(close(sheet.ftu.0.psi(), ftu.psi()));
            weakest = weakest.min(weakest_line(&found.holes, width, sheet).expect("a strip").load.force.lbf());
        }
        prop_assert!(close(found.weakest.1.load.force.lbf(), weakest), "{} {}", found.weakest.1.load.force.lbf(), weakest);
        let gross = |(place, gauge): (usize, &u16)| given.ftu.or_else(|| published(gauge).ftu()).expect("published").psi() * thickness[place] * 2.0;
        prop_assert!(close(found.gross.lbf(), gauges.iter().enumerate().map(gross).fold(f64::MAX, f64::min)));
        prop_assert!(found.carries.map(Force::lbf).zip(all).is_none_or(|(carries, all)| close(carries, all.min(weakest))));
        // A line for each row of each sheet, and the row that it begins at.
        let lines: Vec<_> = found.lines().collect::<Result<_, _>>().expect("as before");
        prop_assert_eq!(lines.len(), gauges.len() * counts.len());
        let least = lines.iter().map(|(_, line)| line.load.force.lbf()).fold(f64::MAX, f64::min);
        prop_assert!(close(least, weakest));
        for (place, (number, line)) in lines.iter().enumerate() {
            prop_assert_eq!(usize::from(*number), place / counts.len() + 1);
            let row = found.row_of(line);
            prop_assert!(close(inches(line.row), 0.75 * (row - 1) as f64), "{} {}", line.row, row);
        }
        // Evenly across, a row at every step.
        let mut holes = found.points();
        for (index, count) in counts.iter().enumerate() {
            for place in 0..*count {
                let at = holes.next().expect("a rivet");
                prop_assert!(close(inches(at.x), 0.75 * index as f64));
                prop_assert!(close(inches(at.y), 2.0 * (f64::from(place) + 0.5) / f64::from(*count)));
            }
        }
        prop_assert!(holes.next().is_none());
    }
}

/// What a strip lacks is said and, where it then carries nothing, referred; what is given in place of it is not missed any more.
#[test]
fn a_strength_that_is_given_is_not_missed() {
    let lacking =
        [Code::StrengthNotPublished, Code::SheetTooThinForTable, Code::EdgeMarginBelowTable, Code::LimitFromMemory];
    let (mut missed, mut carried) = (0, 0);
    for (sheet, rivet) in [
        ("2024-T3:.040", "MS20470AD4"),
        ("2024-O:.040", "MS20470AD4"),
        ("clad 2024-T3:.016", "MS20470AD5"),
        ("2024-T3:.040", "MS20470D5"),
    ] {
        let stack = Stack::parse(&format!("{sheet}, {sheet}")).expect("layers");
        for which in 0..16_u8 {
            let stress = |bit: u8, ksi: f64| (which & bit != 0).then(|| Stress::from_ksi(ksi));
            let given = InPlace::default()
                .ftu(stress(1, 60.0))
                .fbru(stress(2, 110.0))
                .fsu(stress(4, 38.0))
                .rivet_fsu(stress(8, 34.0));
            let rows = [CountedRow::new(2, part(rivet)), CountedRow::new(3, part(rivet))];
            let query =
                CountedQuery::new(part(rivet), &rows, &stack, length("2"), length("3/4"), length("5/16")).given(given);
            let mut said: Vec<Finding> = Vec::new();
            let found = counted(&query, &mut |_, finding| said.push(*finding));
            let asked = || format!("{rivet} in {sheet} with {given:?}: {said:?}");
            for finding in &said {
                // Without a layer it is about the rivet, or about the whole that lacks something else.
                let carries = found.as_ref().is_ok_and(|found| found.carries.is_some());
                let is_given =
                    if finding.layer().is_some() { given.fbru.is_some() } else { carries && given.rivet_fsu.is_some() };
                assert!(!(is_given && lacking.contains(&finding.code())), "{}", asked());
                let sheets = given.ftu.is_some() && given.fbru.is_some();
                assert!(!(sheets && finding.code() == Code::NotChecked), "{}", asked());
                missed += 1;
            }
            let refers = said.iter().any(|finding| finding.severity() == Severity::Refer);
            match found {
                Ok(found) if found.carries.is_none() => assert!(refers, "{}", asked()),
                Ok(_) => carried += 1,
                Err(_) => assert!(given.ftu.is_none(), "{}", asked()),
            }
        }
    }
    assert!(missed > 20 && carried > 20, "{missed} {carried}");
}
