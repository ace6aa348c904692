//! Joints, groups and splices solved a second time, another way, and never answered higher than the printed formulas give.
//!
//! Joints are worked out in exact fractions from the printed drills, stresses and formulas, groups as one stiffness matrix, splices by asking
//! whether their rivets carry the sheet. Three thousand of each that have an answer are tried, or as many as `PROPTEST_CASES` asks for:
//! `cargo test -p shophead-tests --test laws oracle`.

use num_bigint::BigInt;
use num_rational::BigRational;
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use shophead::installation::Installation;
use shophead::joint::group::{GroupRivet, PlaneLoad, share};
use shophead::joint::margin::LoadKind;
use shophead::joint::splice::SpliceMember as Spliced;
use shophead::joint::strength::Shear;
use shophead::layout::Point;
use shophead::length::{Length, Toleranced};
use shophead::material::{Material, SheetProperties};
use shophead::quantity::{Force, Stress};
use shophead::repair::seam::{SeamFastener, SeamQuery, seam};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Stack};

use crate::common::config;
use crate::wide::{Equations, Wide};

/// Rivet in thirty-seconds and the smaller drill printed for it, in ten-thousandths.
const DRILLS: [(i64, i64); 5] = [(3, 960), (4, 1_285), (5, 1_590), (6, 1_910), (8, 2_570)];
const SHEETS: [&str; 6] = ["2024-T3", "clad 2024-T3", "6061-T6", "6061-T4", "7075-T6", "clad 7075-T6"];
/// One part in a million million: what floating point may lose.
const LOST: i64 = 1_000_000_000_000;

fn fraction(over: i64, under: i64) -> BigRational {
    BigRational::new(BigInt::from(over), BigInt::from(under))
}

fn inches(length: Length) -> BigRational {
    fraction(length.nanometres(), 25_400_000)
}

/// The stresses of the handbook are whole hundreds of psi.
fn psi(stress: Option<Stress>) -> Option<BigRational> {
    Some(fraction(stress?.psi().round() as i64, 1))
}

fn of_float(value: f64) -> BigRational {
    BigRational::from_float(value).expect("a number")
}

fn least(one: BigRational, other: BigRational) -> BigRational {
    if other < one { other } else { one }
}

fn ten_thousandths(count: u16) -> Length {
    Length::from_ten_thousandths(count)
}

#[derive(Clone, Debug)]
struct Lap {
    size: usize,
    sheets: Vec<(usize, u16)>,
    /// Edge distance in hundredths of the diameter.
    edge: u16,
    hole_over: Option<u16>,
    double: bool,
}

fn laps() -> impl Strategy<Value = Lap> {
    let sheet =
        (0..SHEETS.len(), prop::sample::select(&[160_u16, 200, 250, 320, 400, 500, 630, 710, 800, 900, 1_250][..]));
    (0..DRILLS.len(), prop::collection::vec(sheet, 3), 150_u16..400, prop::option::of(0_u16..60), any::<bool>())
        .prop_map(|(size, mut sheets, edge, hole_over, double)| {
            sheets.truncate(if double { 3 } else { 2 });
            Lap { size, sheets, edge, hole_over, double }
        })
}

/// The printed formulas, in fractions; `None` where a figure is not printed.
fn by_hand(lap: &Lap, properties: &[&SheetProperties], edge: Length, hole: Length) -> Option<BigRational> {
    let (thirty_seconds, drill) = DRILLS[lap.size];
    let nominal = fraction(thirty_seconds, 32);
    let drilled = fraction(drill, 10_000);
    let (edge, hole) = (inches(edge), inches(hole));
    let counted = least(hole.clone(), drilled.clone());
    let wider = if hole > nominal { hole.clone() } else { nominal.clone() };
    let margin = &edge / &wider;
    let thickness = |index: usize| fraction(lap.sheets[index].1.into(), 10_000);
    let planes = fraction(if lap.double { 2 } else { 1 }, 1);
    // Thin sheet: 1 - 0.04 (D/t - 3) in single shear, 1 - 0.13 (D/t - 1.5) for the middle sheet in double shear.
    let thinnest = if lap.double { thickness(1) } else { least(thickness(0), thickness(1)) };
    let over = &nominal / &thinnest;
    let (slope, from) =
        if lap.double { (fraction(13, 100), fraction(3, 2)) } else { (fraction(4, 100), fraction(3, 1)) };
    let one = fraction(1, 1);
    let factor = if over > from { &one - slope * (&over - &from) } else { one };
    let mut carries =
        fraction(30_000, 1) * of_float(std::f64::consts::FRAC_PI_4) * &counted * &counted * planes * factor;
    for (index, properties) in properties.iter().enumerate() {
        let at_15 = psi(properties.fbru_15())?;
        let at_20 = psi(properties.fbru_20())?;
        let way = (&margin - fraction(3, 2)) * fraction(2, 1);
        let stress = if margin >= fraction(2, 1) { at_20 } else { &at_15 + way * (&at_20 - &at_15) };
        let share = fraction(if lap.double && index != 1 { 2 } else { 1 }, 1);
        carries = least(carries, stress * &counted * thickness(index) * &share);
        if let Some(fsu) = psi(properties.fsu()) {
            carries = least(carries, fraction(2, 1) * &edge * thickness(index) * fsu * &share);
        }
    }
    Some(carries)
}

/// Three thousand with an answer; those without are drawn again.
fn answered() -> ProptestConfig {
    let config = config();
    let cases = config.cases.max(3_000);
    ProptestConfig { cases, max_global_rejects: 10 * cases, ..config }
}

proptest! {
    #![proptest_config(answered())]

    #[test]
    fn no_joint_is_answered_higher_than_the_printed_formulas_give(lap in laps()) {
        let (thirty_seconds, drill) = DRILLS[lap.size];
        let rivet = Part::parse(&format!("MS20470AD{thirty_seconds}")).expect("a rivet");
        let mut stack = Stack::new();
        let mut properties = Vec::new();
        for (sheet, thickness) in &lap.sheets {
            let material = Material::parse(SHEETS[*sheet]).expect("a material");
            let thickness = ten_thousandths(*thickness);
            prop_assume!(material.properties(thickness).is_some());
            properties.extend(material.properties(thickness));
            let layer = Layer::of(Toleranced::exactly(thickness)).material(material);
            stack.push(layer).expect("room");
        }
        let hole = ten_thousandths(u16::try_from(drill).expect("small") + lap.hole_over.unwrap_or(0));
        let edge = ten_thousandths(u16::try_from(i64::from(lap.edge) * thirty_seconds * 100 / 32).expect("small"));
        let question = Installation::new(rivet, &stack).edge(edge).in_hole(Toleranced::exactly(hole));
        let question = if lap.double { question.shear(Shear::Double) } else { question };
        let found = question.strength().expect("a joint");
        prop_assume!(found.allowable.is_some());
        let Some(allowable) = found.allowable else { return Ok(()) };
        let hand = by_hand(&lap, &properties, edge, hole).expect("every figure is printed where there is an allowable");
        let answered = of_float(allowable.force.lbf());
        let lost = &hand * fraction(1, LOST);
        prop_assert!(answered <= &hand + &lost, "{answered} above {hand}");
        // A recalled cell may lie by 1.5 lbf below the formula in each plane; nothing else takes anything off.
        let ceiling = fraction(if lap.double { 6 } else { 3 }, 2);
        prop_assert!(answered >= &hand - ceiling, "{answered} far below {hand}");
    }

    #[test]
    fn a_group_is_a_plate_on_springs(
        rivets in prop::collection::vec((-4_000_i16..4_000, -4_000_i16..4_000, 1.0_f64..5.0), 2..20),
        load in (-900.0_f64..900.0, -900.0_f64..900.0),
        at in (-6_000_i16..6_000, -6_000_i16..6_000),
        moment in -500.0_f64..500.0,
    ) {
        prop_assume!(load.0.abs() + load.1.abs() > 1.0);
        let point = |(x, y): (i16, i16)| Point { x: Length::from_64ths(x), y: Length::from_64ths(y) };
        let members: Vec<GroupRivet> =
            rivets.iter().map(|(x, y, weight)| GroupRivet::alike(point((*x, *y))).weight(*weight)).collect();
        let place = |count: i16| f64::from(count) / 64.0;
        let spread = rivets.iter().any(|(x, y, _)| (*x, *y) != (rivets[0].0, rivets[0].1));
        prop_assume!(spread);
        let load_of = PlaneLoad::new(Force::from_lbf(load.0), Force::from_lbf(load.1), point(at), LoadKind::Limit).moment_in_lbf(moment);
        let group = share(&members, load_of, None).expect("a group");
        // The plate moves by u and v and turns by r; each rivet pushes back with its weight times its own movement.
        let mut equations = Equations::of(3);
        for (x, y, weight) in &rivets {
            let (x, y) = (place(*x), place(*y));
            let row = [[1.0, 0.0, -y], [0.0, 1.0, x], [-y, x, x * x + y * y]];
            for (at, coefficients) in row.iter().enumerate() {
                for (column, value) in coefficients.iter().enumerate() {
                    equations.add(at, column, &Wide::of(*value).times(&Wide::of(*weight)));
                }
            }
        }
        let turned = Wide::of(place(at.0)).times(&Wide::of(load.1)).minus(&Wide::of(place(at.1)).times(&Wide::of(load.0)));
        let turned = turned.plus(&Wide::of(moment));
        let turning = turned.to_f64();
        for (row, value) in [Wide::of(load.0), Wide::of(load.1), turned].iter().enumerate() {
            equations.add_right(row, value);
        }
        let Some(moved) = equations.solve() else { return Ok(()) };
        let moved: Vec<f64> = moved.iter().map(Wide::to_f64).collect();
        let scale = load.0.hypot(load.1) + turning.abs();
        for ((x, y, weight), share) in rivets.iter().zip(group.shares()) {
            let (x, y) = (place(*x), place(*y));
            let wanted = (weight * (moved[0] - y * moved[2]), weight * (moved[1] + x * moved[2]));
            let found = share.total();
            prop_assert!((found.x.lbf() - wanted.0).abs() <= 1e-11 * scale, "{found:?}, {wanted:?}");
            prop_assert!((found.y.lbf() - wanted.1).abs() <= 1e-11 * scale, "{found:?}, {wanted:?}");
        }
    }

    #[test]
    fn a_splice_counts_enough_rivets_to_carry_its_sheet(
        sheet in 0..SHEETS.len(), thickness in prop::sample::select(&[250_u16, 320, 400, 500, 630, 710, 800][..]),
        size in 0..DRILLS.len(), width in 1_u16..40,
    ) {
        let material = Material::parse(SHEETS[sheet]).expect("a material");
        let thickness = ten_thousandths(thickness);
        let query = SeamQuery::new(material, thickness, Length::INCH.checked_mul(width.into()).expect("small"), SeamFastener::Rivets(Part::parse(&format!("MS20470AD{}", DRILLS[size].0)).expect("a rivet"))).member(Spliced::Other);
        let found = seam(&query).expect("a seam");
        let Some(strength) = found.rate.by_strength else {
            prop_assert!(found.totals.strength.is_none());
            return Err(TestCaseError::reject("no published strength"));
        };
        let ftu = psi(material.properties(thickness).and_then(SheetProperties::ftu)).expect("published");
        let sheet = ftu * inches(thickness) * fraction(width.into(), 1);
        let one = of_float(strength.per_rivet.force.lbf());
        let total = found.totals.strength.expect("counted");
        let lost = &sheet * fraction(1, LOST);
        prop_assert!(fraction(total.into(), 1) * &one + &lost >= sheet, "{total} rivets carry less than the sheet");
        prop_assert!(fraction(i64::from(total) - 1, 1) * &one <= &sheet + &lost, "{total} are more than it needs");
        prop_assert!(found.total >= found.totals.strength.max(found.totals.table), "the greater is laid out");
    }
}
