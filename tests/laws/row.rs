//! Laws of the strength of a row.

use proptest::prelude::*;
use shophead::finding::Code;
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind};
use shophead::joint::row::{RowMode, RowStrength, compare_rows, weaker};
use shophead::joint::sharing::Transfer;
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::quantity::Force;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Preparation, Stack};

const RELATIVE: f64 = 1e-9;

/// Sheets that the tables cover, in thousandths of an inch.
const GAUGES: [u16; 6] = [40, 50, 63, 71, 80, 100];
const RIVETS: [&str; 4] = ["MS20470AD4", "MS20470AD5", "MS20470AD6", "MS20426AD4"];

fn stack(gauges: &[u16], flush: bool) -> Stack {
    let mut stack = Stack::new();
    let material = Some(Material::parse("2024-T3").expect("known"));
    for (index, gauge) in gauges.iter().enumerate() {
        let layer = Layer::of(Toleranced::exactly(Length::from_ten_thousandths(10 * gauge)));
        let preparation = if flush && index == 0 { Preparation::Countersunk } else { Preparation::Plain };
        stack.push(layer.material(material).preparation(preparation)).expect("few layers");
    }
    stack
}

#[derive(Clone, Debug)]
struct Case {
    rivet: Part<'static>,
    stack: Stack,
    pitch: Length,
    rows: u16,
}

impl Case {
    fn row(&self) -> RowStrength {
        let question = Installation::new(self.rivet, &self.stack).edge(Length::from_64ths(32)).pitch(self.pitch);
        question.rows(self.rows).row().expect("a row")
    }
}

fn case() -> impl Strategy<Value = Case> {
    let gauges = prop::collection::vec(prop::sample::select(&GAUGES[..]), 2..5);
    (prop::sample::select(&RIVETS[..]), gauges, 30_i16..130, 1_u16..6).prop_map(|(rivet, gauges, pitch, rows)| Case {
        rivet: Part::parse(rivet).expect("a part"),
        stack: stack(&gauges, rivet.starts_with("MS20426")),
        pitch: Length::from_64ths(pitch),
        rows,
    })
}

/// Rows through three or four sheets under a load on all of them, brought by one layer and taken by another.
fn through_stack() -> impl Strategy<Value = (Case, u8, u8, bool)> {
    let gauges = prop::collection::vec(prop::sample::select(&GAUGES[..]), 3..5);
    let rows = (prop::sample::select(&RIVETS[..3]), gauges, 30_i16..130, 2_u16..9);
    (rows, any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<bool>()).prop_map(
        |((rivet, gauges, pitch, rows), from, to, doubler)| {
            let number = |index: prop::sample::Index| u8::try_from(index.index(gauges.len()) + 1).expect("few");
            let (from, to) = (number(from), number(to));
            let case = Case {
                rivet: Part::parse(rivet).expect("a part"),
                stack: stack(&gauges, false),
                pitch: Length::from_64ths(pitch),
                rows,
            };
            (case, from, to, doubler)
        },
    )
}

/// What its rows carry under 100 lbf on one rivet of each.
fn loaded(case: &Case, stack: &Stack, (from, to): (u8, u8), doubler: bool) -> RowStrength {
    let load = Load { force: Force::from_lbf(100.0), kind: LoadKind::Limit };
    let question = Installation::new(case.rivet, stack).edge(Length::from_64ths(32)).pitch(case.pitch).rows(case.rows);
    let question = question.load(load, Factors::SEAM);
    let question = if doubler {
        question.transfer(Transfer::Doubler).by_layers(Some(from), None)
    } else {
        question.by_layers(Some(from), Some(to))
    };
    question.row().expect("a row")
}

proptest! {
    /// Where the rivets fail first, their margin is that of the row: one remark, not two that differ in a last bit.
    #[test]
    fn what_the_rivets_lack_is_said_once(case in case(), lbf in 300_u32..20_000) {
        let load = Load { force: Force::from_lbf(f64::from(lbf)), kind: LoadKind::Ultimate };
        let question = Installation::new(case.rivet, &case.stack).edge(Length::from_64ths(32)).pitch(case.pitch).rows(case.rows);
        let found = question.load(load, Factors::SEAM).row().expect("a row");
        let margin = found.joint.margin.expect("published");
        prop_assume!(found.governing.is_some_and(|governing| matches!(governing.mode, RowMode::Rivets(_))));
        let said = found.joint.findings.iter().filter(|finding| finding.code() == Code::MarginNegative).count();
        prop_assert_eq!(said, usize::from(margin.value < 0.0), "{:?}", found.joint.findings);
    }

    /// Which side the manufactured head is on changes nothing about how a pack of plain sheets shares.
    #[test]
    fn a_pack_turned_over_is_loaded_the_same((case, from, to, doubler) in through_stack()) {
        prop_assume!(doubler || from != to);
        let mut turned = Stack::new();
        for layer in case.stack.layers().iter().rev() {
            turned.push(*layer).expect("as many layers");
        }
        let count = u8::try_from(case.stack.layers().len()).expect("few");
        let over = |number: u8| count + 1 - number;
        let (one, other) =
            (loaded(&case, &case.stack, (from, to), doubler), loaded(&case, &turned, (over(from), over(to)), doubler));
        let (one, other) = (one.peak.expect("loaded"), other.peak.expect("loaded"));
        prop_assert!((one.load.force.lbf() - other.load.force.lbf()).abs() <= 1e-6 * one.load.force.lbf());
        prop_assert!((one.most_in_b.lbf() - other.most_in_b.lbf()).abs() <= 1e-6 * 100.0 * f64::from(case.rows));
    }

    /// The rivet that carries most never carries less than if all did alike, and where that is over what it carries at failure it is referred.
    #[test]
    fn the_rivet_that_carries_most_of_a_pack_is_judged((case, from, to, _) in through_stack()) {
        prop_assume!(from != to);
        let found = loaded(&case, &case.stack, (from, to), false);
        let most = found.peak.expect("loaded").load.force;
        prop_assert!(most.lbf() >= 100.0 * (1.0 - RELATIVE), "{}", most.lbf());
        if let Some(allowable) = found.joint.allowable {
            prop_assert_eq!(found.joint.findings.has(Code::RowOverUltimate), most > allowable.force);
        }
    }
}

proptest! {
    #[test]
    fn the_weaker_of_two_rows_carries_no_more_than_either(one in case(), other in case()) {
        let (one, other) = (one.row(), other.row());
        let least = weaker(one.clone(), other.clone());
        prop_assert!(least == one || least == other);
        match (one.per_inch, other.per_inch) {
            (Some(one), Some(other)) => {
                let least = least.per_inch.expect("both are published");
                prop_assert!(least.force <= one.force && least.force <= other.force);
            }
            _ => prop_assert_eq!(least.per_inch, None, "what is not published is never passed over"),
        }
    }

    #[test]
    fn a_row_never_carries_more_than_any_of_its_parts(case in case()) {
        let found = case.row();
        let Some(carried) = found.per_inch else { return Ok(()) };
        let carried = carried.force.lbf();
        prop_assert!(carried > 0.0);
        let one = found.joint.allowable.expect("the row has one").force.lbf();
        prop_assert!(carried <= one * found.rivets_per_inch * (1.0 + RELATIVE));
        for (net, sheet) in found.net_sections.iter().zip(&found.joint.sheets) {
            let net = net.expect("known").force.lbf();
            prop_assert!(carried <= net * (1.0 + RELATIVE));
            let whole = sheet.net_section().expect("known").force.lbf() / case.pitch.to_inches_f64();
            prop_assert!(net <= whole * (1.0 + RELATIVE), "a countersink adds nothing");
        }
        if let Some(yields) = found.yield_per_inch {
            prop_assert!(yields.force.lbf() <= carried);
        }
        prop_assert_eq!(found.governing.expect("carried").per_inch.force.lbf(), carried);
    }

    #[test]
    fn a_row_against_itself_has_a_ratio_of_one_and_against_a_weaker_one_the_inverse(one in case(), other in case()) {
        let (one, other) = (one.row(), other.row());
        if one.per_inch.is_some() {
            prop_assert_eq!(compare_rows(&one, &one).ratio, Some(1.0));
        }
        let (there, back) = (compare_rows(&one, &other), compare_rows(&other, &one));
        match there.ratio.zip(back.ratio) {
            Some((there_ratio, back_ratio)) => {
                prop_assert!((there_ratio * back_ratio - 1.0).abs() < RELATIVE);
                prop_assert_eq!(there.findings.has(Code::WeakerThanBefore), there_ratio < 1.0);
                prop_assert_eq!(there.findings.must_refer(), there_ratio < 1.0);
            }
            None => prop_assert!(there.findings.must_refer() && back.findings.must_refer()),
        }
    }

    #[test]
    fn another_row_never_makes_it_weaker(case in case()) {
        let more = Case { rows: case.rows + 1, ..case.clone() };
        let (one, more) = (case.row(), more.row());
        if let Some(ratio) = compare_rows(&one, &more).ratio {
            prop_assert!(ratio >= 1.0 - RELATIVE);
        }
    }
}
