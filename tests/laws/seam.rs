//! Laws of seams of two sheets: the fewest rows that hold the count, and rows that keep more of the sheet only where they do.

use proptest::prelude::*;
use shophead::finding::{Code, Figure};
use shophead::joint::splice::SpliceMember;
use shophead::length::Length;
use shophead::practice::{Case, HANDBOOK, Name};
use shophead::repair::count::By;
use shophead::repair::seam::{Laid, MOST_ROWS, NEAR_THE_BEST, SeamFastener, SeamQuery, WORTH_OFFERING, seam};
use shophead::rivet::part::Part;
use shophead_tests::prelude::{length, material, part};

use crate::common::config;
use crate::repair::sheet;

#[derive(Clone, Debug)]
struct Asked {
    sheet: (shophead::material::Material, Length),
    width: Length,
    rivet: Part<'static>,
    by: By,
    staggered: bool,
}

fn asked() -> impl Strategy<Value = Asked> {
    let rivets = ["MS20470AD3", "MS20470AD4", "MS20470AD5", "MS20470AD6"];
    let by = [By::Greater, By::Table, By::Example, By::Strength];
    (sheet(), 2_i16..13, prop::sample::select(rivets.to_vec()), prop::sample::select(by.to_vec()), any::<bool>())
        .prop_map(|(sheet, width, rivet, by, staggered)| Asked {
            sheet,
            width: Length::from_64ths(width * 64),
            rivet: part(rivet),
            by,
            staggered,
        })
}

impl Asked {
    fn query(&self) -> SeamQuery<'static> {
        SeamQuery::new(self.sheet.0, self.sheet.1, self.width, SeamFastener::Rivets(self.rivet))
            .member(SpliceMember::Other)
            .by(self.by)
            .staggered(self.staggered)
    }

    fn limit(&self, name: Name, rows: u16) -> i64 {
        let case = Case::of(self.rivet.series().head, self.rivet.alloy(), self.rivet.size())
            .in_rows(u8::try_from(rows).expect("few"));
        HANDBOOK.length(name, &case).expect("a limit").value.nanometres()
    }
}

/// Published strengths give a count, and the count a seam.
#[test]
fn a_seam_of_published_strengths_is_counted_both_ways_and_laid_out() {
    let asked = Asked {
        sheet: (material("clad 2024-T3"), length(".040")),
        width: length("10"),
        rivet: part("MS20470AD4"),
        by: By::Greater,
        staggered: false,
    };
    let found = seam(&asked.query()).expect("a seam");
    assert!(found.totals.table.is_some() && found.totals.strength.is_some() && found.governing.is_some());
    assert!(found.laid.is_some_and(|laid| laid.develops.is_some()) && found.row.is_some());
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_seam_has_the_fewest_rows_that_hold_its_rivets(asked in asked()) {
        let found = seam(&asked.query()).expect("a seam");
        prop_assert_eq!(found.totals.table.is_some(), found.rate.by_table.is_some());
        prop_assert_eq!(found.totals.strength.is_some(), found.rate.by_strength.is_some());
        let Some(total) = found.total else { return Ok(()) };
        let width = asked.width.nanometres();
        // Each rivet has an equal part of the width, no less than the least pitch.
        let holds = |rows: u16| width / i64::from(total.div_ceil(u32::from(rows))) >= asked.limit(Name::PitchLeast, rows);
        let Some(laid) = found.laid else {
            prop_assert!(!(1..=MOST_ROWS).any(holds), "rows that hold them are laid out");
            return Ok(());
        };
        prop_assert!(holds(laid.rows.rows) && !(1..laid.rows.rows).any(holds), "{:?}", laid);
        prop_assert!(laid.rows.total >= total && laid.rows.total == laid.rows.per_row * u32::from(laid.rows.rows));
        let (edge, apart) = (asked.limit(Name::EdgeDistanceLeast, laid.rows.rows), asked.limit(Name::TransversePitchLeast, laid.rows.rows));
        prop_assert_eq!(laid.overlap.map(Length::nanometres), Some(2 * edge + apart * i64::from(laid.rows.rows - 1)));
        let totals = found.totals;
        let wanted = match asked.by {
            By::Table => totals.table,
            By::Example => totals.also.or(totals.table),
            By::Strength => totals.strength,
            _ => totals.table.into_iter().chain(totals.strength).max(),
        };
        prop_assert_eq!(found.total, wanted);
        // What the sheet carries without holes, and how many rivets carry that.
        if let Some(ftu) = HANDBOOK.sheet(asked.sheet.0, asked.sheet.1).ftu() {
            let sheet = ftu.psi() * asked.sheet.1.to_inches_f64() * asked.width.to_inches_f64();
            prop_assert!((found.sheet_load.expect("published").lbf() - sheet).abs() < 1e-6 * sheet);
            if let Some(each) = found.rate.by_strength {
                prop_assert_eq!(totals.strength, Some((sheet / each.per_rivet.force.lbf() * (1.0 - 1e-12)).ceil() as u32));
            }
            if let (Some(row), Some(share)) = (&found.row, laid.develops) {
                let carried = row.per_inch.expect("published").force.lbf() * asked.width.to_inches_f64();
                prop_assert!((share * sheet - carried).abs() < 1e-6 * sheet);
            }
        }
    }

    /// Asked row by row: the first number of rows with nothing to refer that is worth offering and near the best.
    #[test]
    fn other_rows_are_offered_where_they_keep_more_of_the_sheet(asked in asked()) {
        let found = seam(&asked.query()).expect("a seam");
        let said = found.findings.iter().find(|finding| finding.code() == Code::SpliceDevelops);
        let whole = |laid: Laid| Some(Figure::Count((laid.develops? * 100.0).floor() as u32));
        prop_assert_eq!(said.and_then(|said| said.measured()), found.laid.and_then(whole));
        prop_assert_eq!(said.and_then(|said| said.limit()), found.better.and_then(whole));
        let Some(develops) = found.laid.and_then(|laid| laid.develops) else {
            prop_assert!(found.better.is_none());
            return Ok(());
        };
        let tried: Vec<(u16, f64)> = (1..=MOST_ROWS)
            .filter_map(|rows| {
                let one = seam(&asked.query().rows(Some(rows))).expect("a seam");
                let refers = one.row.as_ref().is_none_or(|row| row.joint.findings.must_refer());
                Some((rows, one.laid?.develops?)).filter(|_| !refers)
            })
            .collect();
        let best = tried.iter().map(|(_, share)| *share).fold(0.0, f64::max);
        let enough = f64::max(develops + WORTH_OFFERING, best * NEAR_THE_BEST);
        let wanted = tried.iter().find(|(_, share)| *share >= enough).map(|(rows, _)| *rows);
        prop_assert_eq!(found.better.map(|better| better.rows.rows), wanted);
    }
}
