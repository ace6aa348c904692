//! Laws of the strength of a rivet in its sheets, of margins and of splice counts.

use proptest::prelude::*;
use shophead::basis::Basis;
use shophead::finding::{Code, Severity};
use shophead::joint::compare::compare;
use shophead::joint::margin::{Factors, Load, LoadKind, margin};
use shophead::joint::splice::{CountRounding, Fastener, SpliceMember, SpliceTable, count, needed, per_inch, rows};
use shophead::joint::strength::{Allowable, Joint, JointStrength, Rivet, Shear, Sheet, StrengthError, strength};
use shophead::joint::thin_sheet;
use shophead::length::Length;
use shophead::material::{Guarantee, SheetHeading, SheetProperties, Strengths};
use shophead::quantity::{Force, Stress};
use shophead::rivet::Head;

const DRIVEN: Basis = Basis::HDBK5J_T8_1_2B;

/// Sums of a few binary fractions agree to far more than this.
const RELATIVE: f64 = 1e-9;

static TEST: SheetHeading = SheetHeading::new(["test", "", "sheet", ""], 0, 100, Basis::own(0));

/// A sheet of these ultimate tension, shear, bearing at 1.5 and at 2.0, in hundreds of psi, for every thickness.
fn properties(ftu: u16, fsu: u16, fbru_15: u16, fbru_20: u16) -> SheetProperties {
    let (fbry_15, fbry_20) = (fbru_15 / 10 * 7, fbru_20 / 10 * 7);
    let strengths = [ftu, ftu, 0, 0, 0, 0, fsu, fbru_15, fbru_20, fbry_15, fbry_20];
    SheetProperties::new(&TEST, (0, u16::MAX), Guarantee::S, strengths, [0; 4])
}

/// A joint owned by a test, so that it can be changed in one place.
#[derive(Clone, Debug)]
struct Case {
    properties: SheetProperties,
    /// Thickness and edge distance.
    sheets: Vec<(Length, Length)>,
    diameter: Length,
    hole: Option<Length>,
    pitch: Option<Length>,
    shear_stress: f64,
    shear: Shear,
}

impl Case {
    /// Asks with the joint's own sheets; what comes back borrows nothing from them.
    fn ask(&self) -> Result<JointStrength, StrengthError> {
        let sheets: Vec<Sheet<'_>> = self
            .sheets
            .iter()
            .map(|&(thickness, edge)| Sheet::new(thickness, edge).properties(Strengths::from(&self.properties)))
            .collect();
        let rivet =
            Rivet::new(self.diameter, Head::Universal).driven_shear((Stress::from_psi(self.shear_stress), DRIVEN));
        let Case { hole, shear, pitch, .. } = *self;
        strength(&Joint::new(&sheets, rivet).hole(hole).shear(shear).pitch(pitch).unpublished(Severity::Refer))
    }

    fn strength(&self) -> JointStrength {
        self.ask().expect("a joint")
    }

    fn allowable(&self) -> f64 {
        force(self.strength().allowable)
    }
}

fn force(allowable: Option<Allowable>) -> f64 {
    allowable.expect("covered").force.lbf()
}

fn stresses() -> impl Strategy<Value = SheetProperties> {
    (200_u16..900, 100_u16..600, 300_u16..1_200, 10_u16..16)
        .prop_map(|(ftu, fsu, at_15, more)| properties(ftu, fsu, at_15, at_15 * more / 10))
}

/// A length between two counts of ten-thousandths of an inch, to the nanometre.
fn length(from: i64, to: i64) -> impl Strategy<Value = Length> {
    (from * 2_540..to * 2_540).prop_map(|nm| Length::from_nanometres(nm).expect("inside a kilometre"))
}

/// Sheets of at least a fifth of a diameter with edges of at least 1.5 diameters: all of it covered.
fn covered(sheets: impl Into<proptest::collection::SizeRange>) -> impl Strategy<Value = Case> {
    let one = (200_i64..3_000, 1_500_i64..4_000);
    let diameter = prop_oneof![(2_i16..=12).prop_map(|dash| Length::from_64ths(dash * 2)), length(600, 4_000)];
    (stresses(), diameter, prop::collection::vec(one, sheets), 20_000.0..95_000.0).prop_map(
        |(properties, diameter, parts, shear_stress)| {
            // Rounded up, so that a part of a diameter never falls below its least.
            let of = |part: i64| Length::from_nanometres((diameter.nanometres() * part + 999) / 1_000).expect("small");
            let sheets = parts.into_iter().map(|(thickness, edge)| (of(thickness), of(edge))).collect();
            Case { properties, sheets, diameter, hole: None, pitch: None, shear_stress, shear: Shear::Single }
        },
    )
}

fn single_or_double() -> impl Strategy<Value = Case> {
    let double = covered(3).prop_map(|case| Case { shear: Shear::Double, ..case });
    prop_oneof![covered(2..=8), double]
}

/// Any number above zero, and now and then anything at all: zero, negative, infinite, NaN.
fn mostly_positive() -> impl Strategy<Value = f64> {
    use prop::num::f64::{ANY, NORMAL, POSITIVE, SUBNORMAL};
    prop_oneof![20 => POSITIVE | NORMAL | SUBNORMAL, 10 => 1e2..1e6, 1 => ANY]
}

/// Any length of every order of magnitude up to a kilometre, and now and then none or a negative one.
fn any_length() -> impl Strategy<Value = Length> {
    let positive = (0_u32..40, any::<i64>()).prop_map(|(magnitude, bits)| (bits & ((1 << magnitude) - 1)).max(1));
    let nm = prop_oneof![30 => positive, 1 => -1_000_000_000_000_i64..=0];
    nm.prop_map(|nm| Length::from_nanometres(nm).expect("inside a kilometre"))
}

proptest! {
    #[test]
    fn an_allowable_never_exceeds_any_of_its_parts(case in single_or_double()) {
        let found = case.strength();
        let allowable = force(found.allowable);
        prop_assert!(allowable > 0.0);
        prop_assert!(allowable <= force(found.shear));
        for sheet in &found.sheets {
            let bearing = sheet.bearing().expect("covered").ultimate.force.lbf();
            prop_assert!(allowable * sheet.share() <= bearing * (1.0 + RELATIVE));
            prop_assert!(allowable * sheet.share() <= force(sheet.tear_out()) * (1.0 + RELATIVE));
            prop_assert!(force(sheet.tear_out_with_relief()) < force(sheet.tear_out()));
        }
        let governing = found.governing.expect("covered");
        prop_assert_eq!(governing.load.force.lbf(), allowable);
        prop_assert!(found.basis.status() >= governing.load.basis.status());
    }

    #[test]
    fn a_thicker_sheet_is_never_weaker(
        case in single_or_double(),
        which in any::<prop::sample::Index>(),
        more in length(0, 2_000),
    ) {
        let mut thicker = case.clone();
        let sheet = which.index(case.sheets.len());
        thicker.sheets[sheet].0 = case.sheets[sheet].0.checked_add(more).expect("small");
        prop_assert!(thicker.allowable() >= case.allowable() * (1.0 - RELATIVE));
    }

    #[test]
    fn more_edge_distance_is_never_weaker(
        case in single_or_double(),
        which in any::<prop::sample::Index>(),
        more in length(0, 5_000),
    ) {
        let mut wider = case.clone();
        let sheet = which.index(case.sheets.len());
        wider.sheets[sheet].1 = case.sheets[sheet].1.checked_add(more).expect("small");
        prop_assert!(wider.allowable() >= case.allowable() * (1.0 - RELATIVE));
    }

    #[test]
    fn below_an_edge_margin_of_one_and_a_half_there_is_no_allowable_and_never_more_indicated(
        case in covered(2..=8),
        which in any::<prop::sample::Index>(),
        part in 1_i64..1_500,
    ) {
        let mut short = case.clone();
        let sheet = which.index(case.sheets.len());
        // Rounded down: strictly below 1.5 diameters.
        let edge = case.diameter.nanometres() * part / 1_000;
        prop_assume!(edge > 0);
        short.sheets[sheet].1 = Length::from_nanometres(edge).expect("small");
        let found = short.strength();
        prop_assert!(found.allowable.is_none());
        prop_assert!(found.findings.has(Code::EdgeMarginBelowTable) && found.findings.must_refer());
        prop_assert!(force(found.indication) <= case.allowable() * (1.0 + RELATIVE));
    }

    #[test]
    fn a_sheet_below_018_diameters_has_no_allowable(
        case in covered(2..=8),
        which in any::<prop::sample::Index>(),
        part in 1_i64..180,
    ) {
        let mut thin = case.clone();
        let sheet = which.index(case.sheets.len());
        let thickness = case.diameter.nanometres() * part / 1_000;
        prop_assume!(thickness > 0);
        thin.sheets[sheet].0 = Length::from_nanometres(thickness).expect("small");
        let found = thin.strength();
        prop_assert!(found.allowable.is_none() && found.indication.is_none());
        prop_assert!(found.findings.has(Code::SheetTooThinForTable) && found.findings.must_refer());
    }

    /// Outside the tables of holes, which do not scale: a diameter of an odd number of nanometres stands in none.
    #[test]
    fn lengths_times_k_carry_k_squared_times_the_load(case in single_or_double(), k in 2_i64..6) {
        let odd = |length: Length| Length::from_nanometres(length.nanometres() | 1).expect("small");
        let mut small = Case { diameter: odd(case.diameter), pitch: case.diameter.checked_mul(4), ..case };
        for sheet in &mut small.sheets {
            // The diameter grew by at most a nanometre: keep e/D at 1.5 and above.
            sheet.1 = sheet.1.checked_add(Length::from_nanometres(3).expect("small")).expect("small");
            sheet.0 = sheet.0.checked_add(Length::from_nanometres(3).expect("small")).expect("small");
        }
        let times = |length: Length| length.checked_mul(k).expect("small");
        // k times an odd number can be in the tables only if it is even, and then only by chance; leave those out.
        let diameter = times(small.diameter);
        prop_assume!(shophead::joint::hole_table::nominal_hole(diameter).is_none());
        let sheets = small.sheets.iter().map(|&(thickness, edge)| (times(thickness), times(edge))).collect();
        let large = Case { sheets, diameter, pitch: small.pitch.map(times), ..small.clone() };
        let (small, large) = (small.strength(), large.strength());
        let k_squared = (k * k) as f64;
        let ratio = force(large.allowable) / force(small.allowable);
        prop_assert!((ratio / k_squared - 1.0).abs() < RELATIVE, "{ratio} for k = {k}");
        let net = |found: &JointStrength| found.net_section.expect("a pitch").0.force.lbf();
        prop_assert!((net(&large) / net(&small) / k_squared - 1.0).abs() < RELATIVE);
    }

    /// At stresses that are not those of a recalled cell, which is rounded.
    #[test]
    fn twice_the_stresses_carry_twice_the_load(case in single_or_double()) {
        let p = &case.properties;
        let twice = |stress: Option<Stress>| (2.0 * stress.expect("given").psi() / 100.0) as u16;
        let doubled = Case {
            properties: properties(twice(p.ftu_l()), twice(p.fsu()), twice(p.fbru_15()), twice(p.fbru_20())),
            shear_stress: 2.0 * case.shear_stress,
            ..case.clone()
        };
        let ratio = doubled.allowable() / case.allowable();
        prop_assert!((ratio - 2.0).abs() < RELATIVE, "{ratio}");
    }

    #[test]
    fn double_shear_is_never_less_than_single(case in covered(3)) {
        let double = Case { shear: Shear::Double, ..case.clone() };
        prop_assert!(double.allowable() >= case.allowable() * (1.0 - RELATIVE));
    }

    #[test]
    fn a_hole_above_nominal_adds_nothing(dash in 2_i16..=12, more in length(1, 300), case in covered(2)) {
        let nominal = shophead::joint::hole_table::nominal_hole(Length::from_64ths(dash * 2));
        prop_assume!(nominal.is_some());
        let nominal = nominal.expect("assumed");
        let thick = nominal.rivet.checked_mul(2).expect("small");
        let close = Case { diameter: nominal.rivet, sheets: vec![(thick, thick); 2], ..case };
        let wide = Case { hole: nominal.hole.checked_add(more), ..close.clone() };
        let found = wide.strength();
        // The edge is two diameters of the shank and less of the hole, so bearing may be lower; shear and area never grow.
        prop_assert!(force(found.shear) == force(close.strength().shear));
        prop_assert!(found.allowable.map_or(0.0, |known| known.force.lbf()) <= close.allowable());
        prop_assert!(found.findings.has(Code::HoleAboveNominal));
        prop_assert!(!close.strength().findings.has(Code::HoleAboveNominal));
    }

    #[test]
    fn the_thin_sheet_factor_is_between_zero_and_one_and_grows_with_thickness(
        diameter in length(100, 4_000),
        thickness in length(1, 8_000),
        more in length(0, 1_000),
    ) {
        for shear in [Shear::Single, Shear::Double] {
            let thin = thin_sheet::factor(shear, thickness, diameter);
            let thick = thin_sheet::factor(shear, thickness.checked_add(more).expect("small"), diameter);
            prop_assert_eq!(thin.is_some(), thin_sheet::is_covered(thickness, diameter));
            if let Some(thin) = thin {
                prop_assert!(thin > 0.0 && thin <= 1.0);
                prop_assert!(thick.expect("thicker is covered too") >= thin);
            }
        }
    }

    #[test]
    fn no_figure_is_ever_less_than_a_number(
        ftu in any::<u16>(),
        fsu in any::<u16>(),
        fbru_15 in any::<u16>(),
        fbru_20 in any::<u16>(),
        shear_stress in mostly_positive(),
        at in prop::collection::vec(any_length(), 9),
        double in any::<bool>(),
    ) {
        let case = Case {
            properties: properties(ftu, fsu, fbru_15, fbru_20),
            sheets: vec![(at[0], at[1]), (at[2], at[3]), (at[4], at[5])],
            diameter: at[6],
            hole: Some(at[7]),
            pitch: Some(at[8]),
            shear_stress,
            shear: if double { Shear::Double } else { Shear::Single },
        };
        if let Ok(found) = case.ask() {
            let mut figures = vec![found.shear, found.allowable, found.indication, found.net_section.map(|(net, _)| net)];
            for sheet in &found.sheets {
                prop_assert!(sheet.edge_margin().is_finite());
                figures.extend([sheet.tear_out(), sheet.tear_out_with_relief(), sheet.net_section()]);
                figures.extend(sheet.bearing().map(|bearing| Some(bearing.ultimate)));
                figures.extend(sheet.bearing().map(|bearing| bearing.yield_load));
            }
            for figure in figures.into_iter().flatten() {
                prop_assert!(figure.force.is_finite() && figure.force >= Force::ZERO, "{figure:?}");
            }
        }
    }

    #[test]
    fn twice_the_load_leaves_half_of_margin_and_one(
        allowable in 1.0..1e5,
        load in 1.0..1e5,
        ultimate in any::<bool>(),
    ) {
        let kind = if ultimate { LoadKind::Ultimate } else { LoadKind::Limit };
        let under = |load: f64| {
            let load = Load { force: Force::from_lbf(load), kind };
            margin(Force::from_lbf(allowable), load, Factors::FITTING).expect("numbers").value
        };
        prop_assert!(((under(load) + 1.0) - 2.0 * (under(2.0 * load) + 1.0)).abs() < RELATIVE * (under(load) + 1.0));
    }

    #[test]
    fn margins_are_numbers_or_errors(
        allowable in prop::num::f64::ANY,
        load in prop::num::f64::ANY,
        safety in prop::num::f64::ANY,
    ) {
        let mut factors = Factors::FITTING;
        factors.safety.value = safety;
        let load = Load { force: Force::from_lbf(load), kind: LoadKind::Limit };
        if let Ok(margin) = margin(Force::from_lbf(allowable), load, factors) {
            prop_assert!(margin.value.is_finite() && margin.value >= -1.0 && margin.factored_load.is_finite());
        }
    }

    #[test]
    fn a_rivet_is_exactly_as_strong_as_itself_and_weaker_ones_are_referred(case in covered(2)) {
        let before = case.strength();
        let same = compare(&before, &before);
        prop_assert_eq!(same.ratio, Some(1.0));
        prop_assert!(same.findings.is_empty());
        let soft = Case { shear_stress: case.shear_stress * 0.01, ..case };
        let weaker = compare(&before, &soft.strength());
        prop_assert!(weaker.ratio.expect("both covered") < 1.0);
        prop_assert!(weaker.findings.has(Code::WeakerThanBefore) && weaker.findings.must_refer());
    }

    #[test]
    fn rivets_an_inch_rise_with_the_sheet_and_fall_with_the_rivet(
        thickness in length(50, 3_000),
        more in length(0, 1_000),
        table in prop::sample::select(SpliceTable::ALL),
    ) {
        let rivets = [4, 6, 8, 10, 12, 16, 20, 24].map(|d| Fastener::Rivet(Length::from_64ths(d)));
        let formula = |thickness, fastener| per_inch(table, thickness, fastener).expect("a standard size").formula;
        let thicker = thickness.checked_add(more).expect("small");
        for fastener in rivets.into_iter().chain([Fastener::An3Bolt]) {
            prop_assert!(formula(thicker, fastener) >= formula(thickness, fastener));
        }
        for pair in rivets.windows(2) {
            prop_assert!(formula(thickness, pair[1]) < formula(thickness, pair[0]));
        }
    }

    #[test]
    fn whole_rivets_are_never_fewer_than_the_sum_and_less_than_one_more(
        per_inch in 0.1..20.0,
        width in length(1_000, 400_000),
        member in prop::sample::select(vec![
            SpliceMember::Other, SpliceMember::Stringer, SpliceMember::IntermediateFrame, SpliceMember::SingleLap,
        ]),
    ) {
        let once = count(per_inch, width, member, CountRounding::Once).expect("a width");
        let exact = once.per_inch * width.to_inches_f64();
        prop_assert!(f64::from(once.total) >= exact * (1.0 - 2.0 * RELATIVE) && f64::from(once.total) < exact + 1.0);
        let twice = count(per_inch, width, member, CountRounding::BeforeAndAfter).expect("a width");
        prop_assert!(twice.total >= once.total && twice.total <= once.total + 1);
    }

    #[test]
    fn the_rivets_needed_carry_the_sheet(
        stress in 10_000.0..90_000.0,
        thickness in length(100, 2_500),
        width in length(1_000, 400_000),
        per_rivet in 50.0..3_000.0,
    ) {
        let found = needed(Stress::from_psi(stress), thickness, width, Force::from_lbf(per_rivet)).expect("a splice");
        let carried = f64::from(found.total) * per_rivet;
        prop_assert!(carried >= found.load.lbf() * (1.0 - 2.0 * RELATIVE));
        prop_assert!(carried - per_rivet < found.load.lbf());
    }

    #[test]
    fn equal_rows_hold_what_was_asked_for_within_the_width(
        asked in 1_u32..5_000,
        in_rows in 1_u16..20,
        width in length(1_000, 400_000),
    ) {
        let laid = rows(asked, in_rows, width).expect("a layout");
        prop_assert!(laid.total >= asked && laid.total < asked + u32::from(in_rows));
        prop_assert_eq!(laid.total, laid.per_row * u32::from(in_rows));
        prop_assert!(laid.pitch.nanometres() * i64::from(laid.per_row) <= width.nanometres());
    }
}
