//! Laws of repairs: what is laid out keeps its distances and carries what it must, more damage never takes less, and a solver's answer holds
//! while the step beside it does not.

use proptest::prelude::*;
use shophead::finding::{Code, Severity};
use shophead::installation::Installation;
use shophead::joint::margin::{Factors, Load, LoadKind, margin};
use shophead::layout::{Point, RowLayout, closest_sorted};
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{Case, HANDBOOK, Name, PROCESS, Practice};
use shophead::quantity::Force;
use shophead::repair::count::By;
use shophead::repair::in_row::{LaidRows, in_row};
use shophead::repair::patch::{Patch, PatchError, PatchQuery, Pattern, SkinDamage, Style, Ways, patch};
use shophead::repair::solve::{EDGE_STEP, PITCH_STEP, SolveFor, Tried, Wanted, Why, solve};
use shophead::repair::splice::{Leg, Shape, SpliceQuery, Spliced, splice};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Preparation, Stack};
use shophead_tests::prelude::{changed, nm};

use crate::common::config;

/// What a place may be off when it is halved or walked round a bend.
const ROUNDING: i64 = 4;

pub(crate) fn thousandths(count: u16) -> Length {
    Length::from_ten_thousandths(count * 10)
}

pub(crate) fn sheet() -> impl Strategy<Value = (Material, Length)> {
    let names = ["clad 2024-T3", "2024-T3", "7075-T6", "6061-T6", "5052", "clad 2024-T3"];
    (prop::sample::select(names.to_vec()), prop::sample::select(&[20_u16, 25, 32, 40, 50, 63, 71, 80, 90][..]))
        .prop_map(|(name, gauge)| (Material::parse(name).expect("known"), thousandths(gauge)))
}

#[derive(Clone, Debug)]
pub(crate) struct Asked {
    pub(crate) material: Material,
    pub(crate) thickness: Length,
    pub(crate) style: Style,
    pub(crate) ways: Ways,
    pub(crate) by: By,
    pub(crate) pattern: Pattern,
    pub(crate) process: bool,
}

impl Asked {
    pub(crate) fn query(&self, damage: SkinDamage) -> PatchQuery<'static, 'static> {
        PatchQuery::new(self.material, self.thickness, damage)
            .style(self.style)
            .ways(self.ways)
            .by(self.by)
            .pattern(self.pattern)
            .practice(self.practice())
    }

    pub(crate) fn practice(&self) -> &'static Practice<'static> {
        if self.process { &PROCESS } else { &HANDBOOK }
    }
}

pub(crate) fn asked() -> impl Strategy<Value = Asked> {
    let styles = [Style::Lap, Style::Doubler, Style::Flush];
    let by = [By::Greater, By::Greater, By::Table, By::Example, By::Strength];
    (
        sheet(),
        prop::sample::select(styles.to_vec()),
        any::<bool>(),
        prop::sample::select(by.to_vec()),
        any::<bool>(),
        any::<bool>(),
    )
        .prop_map(|((material, thickness), style, both, by, staggered, process)| Asked {
            material,
            thickness,
            style,
            ways: if both { Ways::Both } else { Ways::Along },
            by,
            pattern: if staggered { Pattern::Staggered } else { Pattern::InLine },
            process,
        })
}

/// Along and across, in nanometres: up to ten inches.
pub(crate) fn size() -> impl Strategy<Value = (i64, i64)> {
    (2_000_000_i64..254_000_000, 2_000_000_i64..254_000_000)
}

pub(crate) fn hole((along, across): (i64, i64)) -> SkinDamage {
    SkinDamage::Hole { along: nm(along), across: nm(across) }
}

pub(crate) fn crack((along, across): (i64, i64)) -> SkinDamage {
    SkinDamage::Crack { along: nm(along), across: nm(across) }
}

/// A patch, or nothing where this sheet, rivet and count cannot have one.
pub(crate) fn made(asked: &Asked, damage: SkinDamage) -> Option<Patch> {
    match patch(&asked.query(damage)) {
        Ok(found) => Some(found),
        Err(
            PatchError::NoCount { .. } | PatchError::NoRivet | PatchError::TooManyRivets | PatchError::NoLimits { .. },
        ) => None,
        Err(other) => panic!("{other:?}"),
    }
}

fn within(point: Point, half_x: Length, half_y: Length) -> bool {
    point.x.nanometres().abs() <= half_x.nanometres() && point.y.nanometres().abs() <= half_y.nanometres()
}

fn half(length: Length) -> Length {
    nm(length.nanometres() / 2)
}

/// How far a point outside a rectangle with square corners is off it.
fn off(point: Point, along: Length, across: Length) -> f64 {
    let beyond = |at: Length, side: Length| (at.nanometres().abs() - side.nanometres() / 2).max(0) as f64;
    beyond(point.x, along).hypot(beyond(point.y, across))
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn more_damage_never_takes_a_smaller_plate_or_fewer_rivets(
        asked in asked(), size in size(), more in (0_i64..80_000_000, 0_i64..80_000_000), cracked in any::<bool>(),
    ) {
        let damage = if cracked { crack } else { hole };
        let worse = (size.0 + more.0, size.1 + more.1);
        let (Some(small), Some(large)) = (made(&asked, damage(size)), made(&asked, damage(worse))) else { return Ok(()) };
        prop_assert!(large.plate.along >= small.plate.along && large.plate.across >= small.plate.across);
        prop_assert!(large.opening.along >= small.opening.along && large.opening.across >= small.opening.across);
        prop_assert!(large.rivets() >= small.rivets(), "{} {}", small.rivets(), large.rivets());
        for (small, large) in [(small.across, large.across), (small.along, large.along)] {
            prop_assert!(large.needed >= small.needed && large.counted >= small.counted);
        }
        prop_assert_eq!((small.rivet.size().dash, small.plate.thickness), (large.rivet.size().dash, large.plate.thickness));
    }

    #[test]
    fn every_rivet_keeps_its_distance_from_the_others_the_opening_and_the_rim(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let places: Vec<Point> = found.holes().map(|hole| hole.at).collect();
        prop_assert_eq!(places.len() as u32, found.rivets());
        let case = Case::of(found.rivet.series().head, found.rivet.alloy(), found.rivet.size());
        let (_, _, closest) = closest_sorted(&places, &mut vec![0; places.len()], &[]).pair.expect("four sides");
        let least = asked.practice().length(Name::PitchLeast, &case).expect("known").value;
        prop_assert!(closest.nanometres() + ROUNDING >= least.nanometres(), "{} {}", closest, least);
        let edge = found.edge.value.nanometres();
        for place in &places {
            let off = off(*place, found.opening.along, found.opening.across);
            prop_assert!(off + ROUNDING as f64 >= edge as f64, "{:?} is {} off the opening", place, off);
            let (x, y) = (half(found.plate.along), half(found.plate.across));
            let rim = (x.nanometres() - place.x.nanometres().abs()).min(y.nanometres() - place.y.nanometres().abs());
            prop_assert!(rim + ROUNDING >= edge, "{:?} is {} from the rim", place, rim);
        }
    }

    #[test]
    fn each_side_has_the_rivets_that_it_needs(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let places: Vec<_> = found.holes().collect();
        for (side, at_ends) in [(&found.across, true), (&found.along, false)] {
            let Some(needed) = side.needed else { continue };
            for sign in [-1, 1] {
                let (out, spread) = if at_ends { (found.along.spread, side.spread) } else { (found.across.spread, side.spread) };
                let of_side = |place: Point| {
                    let (x, y) = (place.x.nanometres(), place.y.nanometres());
                    let (out_by, along) = if at_ends { (x, y) } else { (y, x) };
                    out_by * sign > out.nanometres() / 2 && along.abs() <= spread.nanometres() / 2 + ROUNDING
                };
                let counted = places.iter().filter(|hole| hole.counts && of_side(hole.at)).count() as u32;
                prop_assert_eq!(counted, side.counted);
                prop_assert!(counted >= needed, "{} of {}", counted, needed);
            }
        }
        // By the strengths, what they carry together is no less than the sheet over the opening.
        if let Some(by_strength) = found.rate.by_strength.filter(|_| matches!(asked.by, By::Greater | By::Strength)) {
            let ftu = asked.material.properties(asked.thickness).and_then(|sheet| sheet.ftu()).expect("known").psi();
            let load = ftu * asked.thickness.to_inches_f64() * found.opening.across.to_inches_f64();
            let carried = by_strength.per_rivet.force.lbf() * f64::from(found.across.counted);
            prop_assert!(carried >= load * (1.0 - 1e-9), "{} of {}", carried, load);
        }
    }

    #[test]
    fn the_opening_holds_the_damage_with_its_corners(size in size()) {
        let asked = Asked {
            material: Material::parse("2024-T3").expect("known"), thickness: thousandths(40), style: Style::Lap, ways: Ways::Both,
            by: By::Greater, pattern: Pattern::Staggered, process: false,
        };
        let found = made(&asked, hole(size)).expect("a patch").opening;
        let radius = found.radius.nanometres() as f64;
        let corner = (size.0 as f64 / 2.0, size.1 as f64 / 2.0);
        let centre = (found.along.nanometres() as f64 / 2.0 - radius, found.across.nanometres() as f64 / 2.0 - radius);
        // Inside the straight parts, or inside the round corner.
        let beyond = ((corner.0 - centre.0).max(0.0)).hypot((corner.1 - centre.1).max(0.0));
        prop_assert!(beyond <= radius + ROUNDING as f64, "{} {}", beyond, radius);
        prop_assert!(found.along.nanometres() - size.0 < 9_000_000, "no more is cut than the corners take");
    }

    #[test]
    fn a_filler_is_held_all_round_and_keeps_its_edge(size in size(), (material, thickness) in sheet()) {
        let asked = Asked {
            material, thickness, style: Style::Flush, ways: Ways::Both, by: By::Greater, pattern: Pattern::Staggered, process: false,
        };
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let filler = found.filler.expect("a flush patch has one");
        let places: Vec<Point> = found.filler_holes().collect();
        let narrow = filler.along.min(filler.across) < nm(2 * found.edge.value.nanometres());
        prop_assert_eq!(places.is_empty(), narrow);
        prop_assert_eq!(narrow, found.findings.iter().any(|finding| {
            finding.severity() == Severity::Refer && finding.code() == shophead::finding::Code::EdgeDistanceShort
        }));
        let (edge, radius) = (found.edge.value.nanometres() as f64, filler.radius.nanometres() as f64);
        let (x, y) = (filler.along.nanometres() as f64 / 2.0, filler.across.nanometres() as f64 / 2.0);
        for place in &places {
            let (px, py) = (place.x.nanometres().abs() as f64, place.y.nanometres().abs() as f64);
            let (cx, cy) = (px - (x - radius), py - (y - radius));
            let rim = if cx > 0.0 && cy > 0.0 { radius - cx.hypot(cy) } else { (x - px).min(y - py) };
            prop_assert!(rim + ROUNDING as f64 >= edge, "{:?}: {} from the rim", place, rim);
        }
        for (index, one) in places.iter().enumerate() {
            let next = &places[(index + 1) % places.len()];
            prop_assert!(places.len() == 1 || one.distance(*next) >= nm(found.least_pitch.value.nanometres() - ROUNDING));
        }
        prop_assert!(places.iter().all(|place| within(*place, half(filler.along), half(filler.across))));
    }

    #[test]
    fn a_leg_has_its_rivets_inside_it_and_a_wider_one_never_fewer(
        width in 10_u16..60, more in 0_u16..20, gauge in prop::sample::select(&[32_u16, 40, 50, 63, 80][..]), frame in any::<bool>(),
    ) {
        let leg = |sixteenths: u16| Leg::new(Length::from_64ths(4 * sixteenths as i16), thousandths(gauge));
        let spliced = if frame { Spliced::Frame } else { Spliced::Stringer };
        let made = |width: u16| {
            let leg = [leg(width)];
            let query = SpliceQuery::new(spliced, Shape::Flat, Material::parse("2024-T3").expect("known"), &leg);
            splice(&query).expect("wide enough")
        };
        let (narrow, wide) = (made(width), made(width + more));
        for found in [&narrow, &wide] {
            let leg = &found.legs[0];
            let places: Vec<_> = found.holes(Length::ZERO).collect();
            let a_side = places.iter().filter(|hole| hole.at.x > Length::ZERO && hole.counts).count() as u32;
            prop_assert!(a_side >= leg.needed && places.len() as u32 == 2 * a_side);
            prop_assert!(leg.plate_area_in2 > leg.area_in2);
            prop_assert!(!frame || found.length > nm(2 * leg.leg.width.nanometres()));
            let edge = leg.edge.nanometres();
            for hole in &places {
                let (x, y) = (hole.at.x.nanometres().abs(), hole.at.y.nanometres());
                prop_assert!(y + ROUNDING >= edge && leg.leg.width.nanometres() - y + ROUNDING >= edge, "{:?}", hole);
                prop_assert!(x >= edge && leg.half.nanometres() - x >= edge);
            }
            let points: Vec<Point> = places.iter().map(|hole| hole.at).collect();
            let pair = closest_sorted(&points, &mut vec![0; points.len()], &[]).pair;
            let layout = RowLayout::default().pitch(pair.map(|(_, _, pitch)| pitch));
            let findings = Installation::without_layers(leg.rivet.expect("rivets")).layout(layout).findings();
            prop_assert!(!findings.must_refer(), "{:?} {:?}", pair, findings);
        }
        // A larger rivet takes the place of more small ones.
        let size = |found: &shophead::repair::splice::Splice| found.legs[0].diameter;
        prop_assert!(size(&wide) > size(&narrow) || wide.legs[0].needed >= narrow.legs[0].needed);
    }

    #[test]
    fn a_plate_or_a_leg_too_narrow_for_its_edge_distance_is_referred(
        leg in 12_i16..80, plate in 12_i16..80, rivet in prop::sample::select(&["MS20470AD3", "MS20470AD4", "MS20470AD6"][..]),
    ) {
        let legs = [Leg::new(Length::from_64ths(leg), thousandths(40)).plate(Some((Length::from_64ths(plate), thousandths(80))))];
        let rivet = Part::parse(rivet).expect("a part");
        let query = SpliceQuery::new(Spliced::Stringer, Shape::Flat, Material::parse("2024-T3").expect("known"), &legs).rivet(Some(rivet));
        let found = splice(&query).expect("published");
        let (edge, narrower) = (found.legs[0].edge, Length::from_64ths(leg.min(plate)));
        let is_short = found.all_findings().any(|finding| finding.code() == Code::EdgeDistanceShort && finding.severity() == Severity::Refer);
        prop_assert_eq!(is_short, narrower.nanometres() < 2 * edge.nanometres(), "{:?} in {:?}", edge, narrower);
    }
}

#[derive(Clone, Debug)]
struct Row {
    rivet: Part<'static>,
    stack: Stack,
    edge: Length,
    pitch: Length,
    rows: u8,
    staggered: bool,
    load: f64,
    margin: f64,
}

fn row() -> impl Strategy<Value = Row> {
    let rivets = ["MS20470AD4", "MS20470AD5", "MS20470AD6", "MS20426AD5"];
    let gauges = prop::collection::vec(prop::sample::select(&[40_u16, 50, 63, 71, 80, 100][..]), 2..4);
    let numbers = (20_i16..40, 24_i16..70, 1_u8..5, 100.0_f64..2_500.0, 0.0_f64..0.5);
    (prop::sample::select(rivets.to_vec()), gauges, numbers, any::<bool>()).prop_map(
        |(rivet, gauges, (edge, pitch, rows, load, margin), staggered)| {
            let material = Some(Material::parse("2024-T3").expect("known"));
            let mut stack = Stack::new();
            for (index, gauge) in gauges.iter().enumerate() {
                let flush = rivet.starts_with("MS20426") && index == 0;
                let preparation = if flush { Preparation::Countersunk } else { Preparation::Plain };
                let layer = Layer::of(Toleranced::exactly(thousandths(*gauge)));
                stack.push(layer.material(material).preparation(preparation)).expect("few layers");
            }
            let (edge, pitch) = (Length::from_64ths(edge), Length::from_64ths(pitch));
            Row { rivet: Part::parse(rivet).expect("a part"), stack, edge, pitch, rows, staggered, load, margin }
        },
    )
}

impl Row {
    fn rows<'s>(&'s self, stack: &'s Stack) -> LaidRows<'s, 'static> {
        LaidRows::new(self.rivet, stack, self.edge, self.pitch)
            .rows(self.rows)
            .apart(Length::from_64ths(32))
            .staggered(self.staggered)
    }

    fn wanted(&self) -> Wanted<'_, 'static> {
        let load = Load { force: Force::from_lbf(self.load), kind: LoadKind::Ultimate };
        Wanted::new(self.rows(&self.stack), load).factors(Factors::SEAM).margin(self.margin)
    }

    /// Asked again, as whoever gets the answer would: the margin, and whether something has to be referred.
    fn again(&self, tried: &Tried, layer: Option<usize>) -> Option<(Option<f64>, bool)> {
        let mut stack = Stack::new();
        for (index, own) in self.stack.layers().iter().enumerate() {
            let thickness = match (tried.gauge, layer) {
                (Some(gauge), Some(changed)) if changed == index => Toleranced::exactly(gauge),
                _ => own.thickness,
            };
            stack.push(own.thickness(thickness)).expect("as before");
        }
        let rivet = tried.rivet.without_length();
        let rows = changed(self.rows(&stack), |it| {
            it.rivet = rivet;
            it.edge = tried.edge;
            it.pitch = tried.pitch;
        })
        .rows(tried.rows);
        let found = in_row(&rows).ok()?;
        let load = Load { force: Force::from_lbf(self.load), kind: LoadKind::Ultimate };
        let value =
            found.strength.per_inch.map(|carried| margin(carried.force, load, Factors::SEAM).expect("a margin").value);
        Some((value, found.findings.must_refer()))
    }

    fn holds(&self, tried: &Tried, layer: Option<usize>) -> bool {
        self.again(tried, layer)
            .is_some_and(|(margin, refers)| !refers && margin.is_some_and(|margin| margin >= self.margin))
    }
}

/// Each case of these asks some thousands of rows.
fn few() -> ProptestConfig {
    let config = config();
    ProptestConfig { cases: config.cases / 32 + 1, ..config }
}

/// What is looked for, with the place of the layer where that is a gauge.
const UNKNOWNS: [(SolveFor, Option<usize>); 6] = [
    (SolveFor::Pitch, None),
    (SolveFor::Rows, None),
    (SolveFor::Diameter, None),
    (SolveFor::Edge, None),
    (SolveFor::Gauge(1), Some(0)),
    (SolveFor::LeastRivets, None),
];

proptest! {
    #![proptest_config(few())]

    #[test]
    fn what_a_solver_finds_holds_when_asked_again_and_the_step_beside_it_does_not(row in row()) {
        for (unknown, layer) in UNKNOWNS {
            let solved = solve(&row.wanted(), unknown).expect("limits");
            if let Some(found) = &solved.found {
                prop_assert!(row.holds(found, layer), "{:?} {:?}", unknown, found);
                prop_assert!(found.margin.is_some_and(|margin| margin.value >= row.margin));
            }
            if let Some(beside) = &solved.beside {
                prop_assert!(!row.holds(beside, layer), "{:?} {:?}", unknown, beside);
                match solved.why {
                    Why::Margin(margin) => prop_assert!(margin < row.margin),
                    Why::Refers(finding) => prop_assert_eq!(finding.severity(), Severity::Refer),
                    _ => prop_assert!(beside.margin.is_none(), "{:?}", solved),
                }
            }
        }
    }

    #[test]
    fn the_step_beside_a_solved_pitch_or_edge_is_the_very_next_one(row in row()) {
        for (unknown, step) in [(SolveFor::Pitch, PITCH_STEP), (SolveFor::Edge, EDGE_STEP)] {
            let solved = solve(&row.wanted(), unknown).expect("limits");
            let (Some(found), Some(beside)) = (&solved.found, &solved.beside) else { continue };
            let moved = match unknown {
                SolveFor::Pitch => beside.pitch.nanometres() - found.pitch.nanometres(),
                _ => found.edge.nanometres() - beside.edge.nanometres(),
            };
            prop_assert_eq!(moved, step.nanometres());
        }
    }

    #[test]
    fn no_size_number_of_rows_and_pitch_takes_fewer_rivets_than_the_least(row in row()) {
        let solved = solve(&row.wanted(), SolveFor::LeastRivets).expect("limits");
        let Some(least) = &solved.found else { return Ok(()) };
        let size = |dash: u8| row.rivet.in_size(row.rivet.series().size(dash)?);
        for rivet in [4, 5, 6].into_iter().filter_map(size) {
            for rows in 1_u8..6 {
                for pitch in (16_i16..80).step_by(2) {
                    let tried = changed(least.clone(), |it| { it.rivet = rivet; it.rows = rows; it.pitch = Length::from_64ths(pitch); });
                    let per_inch = f64::from(rows) / tried.pitch.to_inches_f64();
                    let fewer = per_inch < least.rivets_per_inch * (1.0 - 1e-9);
                    let usual = {
                        let case = Case::of(rivet.series().head, rivet.alloy(), rivet.size()).in_rows(rows);
                        HANDBOOK.length(Name::PitchGreatest, &case).is_some_and(|greatest| tried.pitch <= greatest.value)
                    };
                    prop_assert!(!(fewer && usual && row.holds(&tried, None)), "{:?} {:?}", tried, least);
                }
            }
        }
    }

    #[test]
    fn the_best_share_is_beaten_by_no_other_number_of_rows(row in row()) {
        let solved = solve(&row.wanted(), SolveFor::BestShare).expect("limits");
        let Some(best) = &solved.found else { return Ok(()) };
        let share = best.share.expect("published");
        prop_assert!(share > 0.0 && share < 1.0);
        for rows in 1_u8..8 {
            let asked = changed(row.rows(&row.stack), |it| { it.rivet = best.rivet.without_length(); it.pitch = best.pitch; }).rows(rows);
            let Ok(found) = in_row(&asked) else { continue };
            let (Some(carried), false) = (found.strength.per_inch, found.findings.must_refer()) else { continue };
            let carries = best.carries.expect("published").lbf();
            prop_assert!(carried.force.lbf() <= carries * (1.0 + 1e-6), "{} rows {} {}", rows, carried.force.lbf(), carries);
        }
    }
}
