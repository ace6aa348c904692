//! Laws of a member's splice as it is laid out: its lines and ranks, where every rivet stands, its plates, what it weighs.

use proptest::prelude::*;
use shophead::finding::{Code, Figure, Severity};
use shophead::length::Length;
use shophead::material::Material;
use shophead::practice::{Case, HANDBOOK, Name};
use shophead::repair::patch::STEP;
use shophead::repair::splice::{FILLER_ROOM, Leg, LegFastener, Shape, Splice, SpliceQuery, Spliced, splice};
use shophead::repair::told::Told;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;
use shophead_tests::prelude::nm;

use crate::common::config;
use crate::patch::{ROUNDING, of};
use crate::repair::thousandths;

#[derive(Clone, Debug)]
struct Asked {
    spliced: Spliced,
    shape: Shape,
    legs: Vec<Leg>,
    gap: Length,
    skin_rivet: Option<Length>,
}

impl Asked {
    fn query(&self) -> SpliceQuery<'_, 'static> {
        let material = Material::parse("2024-T3").expect("known");
        SpliceQuery::new(self.spliced, self.shape, material, &self.legs).gap(self.gap).skin_rivet(self.skin_rivet)
    }

    fn made(&self) -> Option<Splice> {
        splice(&self.query()).ok()
    }
}

fn leg() -> impl Strategy<Value = Leg> {
    let gauge = || prop::sample::select(&[25_u16, 32, 40, 50, 63][..]);
    let plate = prop::option::weighted(0.3, (20_i16..160, gauge()));
    (24_i16..160, gauge(), prop::option::weighted(0.4, gauge()), plate).prop_map(|(width, thickness, skin, plate)| {
        let plate = plate.map(|(width, thickness)| (Length::from_64ths(width), thousandths(thickness)));
        Leg::new(Length::from_64ths(width), thousandths(thickness)).skin(skin.map(thousandths)).plate(plate)
    })
}

fn asked() -> impl Strategy<Value = Asked> {
    let shapes = prop::sample::select(&[Shape::Flat, Shape::Angle, Shape::BulbAngle, Shape::Channel, Shape::Hat][..]);
    let skin_rivet = prop::option::of(prop::sample::select(&[6_i16, 8, 10, 12][..]));
    (prop::sample::select(Spliced::ALL), shapes, prop::collection::vec(leg(), 5), 0_i16..80, skin_rivet).prop_map(
        |(spliced, shape, mut legs, gap, skin_rivet)| {
            legs.truncate(shape.legs());
            Asked { spliced, shape, legs, gap: Length::from_64ths(gap), skin_rivet: skin_rivet.map(Length::from_64ths) }
        },
    )
}

/// The web is the second of three legs, else the widest.
fn web(legs: &[Leg]) -> Length {
    if let [_, web, _] = legs { web.width } else { legs.iter().map(|leg| leg.width).max().expect("a leg") }
}

proptest! {
    #![proptest_config(config())]

    /// A rank fewer in each line is too few, and no other number of lines has fewer rivets too many within the same limits.
    #[test]
    fn lines_and_ranks_hold_the_count(asked in asked()) {
        let Some(found) = asked.made() else { return Ok(()) };
        for leg in &found.legs {
            let (lines, ranks, needed) = (leg.lines, leg.ranks, leg.needed);
            prop_assert!(lines * ranks >= needed && lines * (ranks - 1) < needed, "{} of {} for {}", lines, ranks, needed);
            let rivet = leg.rivet.expect("rivets");
            let case = Case::of(rivet.series().head, rivet.alloy(), rivet.size());
            let limit = |name| HANDBOOK.length(name, &case).map(|limit| of(limit.value));
            let least = limit(Name::PitchLeast).expect("known");
            prop_assert!(of(leg.pitch) >= least);
            prop_assert!(lines == 1 || of(leg.apart) >= least, "lines {} apart", leg.apart);
            // As many more lines as there is room for between the edges.
            let room = (of(leg.leg.width.min(leg.plate.0)) - 2 * of(leg.edge)).max(0);
            let step = (least + of(STEP) - 1) / of(STEP) * of(STEP);
            for others in 1..=u32::try_from(room / step).expect("few") + 1 {
                let others_ranks = needed.div_ceil(others);
                let half = (2 * of(leg.edge) + step * i64::from(others_ranks - 1)).max(of(leg.half));
                let too_many = |lines: u32, ranks: u32| lines * ranks - needed;
                // One that would lie as short with fewer too many was left out for its pitch only.
                if half <= of(leg.half) && too_many(others, others_ranks) < too_many(lines, ranks) {
                    let spread = (of(leg.half) - 2 * of(leg.edge)) / i64::from((others_ranks - 1).max(1));
                    let greatest = limit(Name::PitchGreatest).unwrap_or(i64::MAX);
                    prop_assert!(asked.spliced == Spliced::Frame || spread > greatest, "{} lines", others);
                }
            }
        }
    }

    /// Every rivet is at its edge distance from the cut, the end of the plate and the sides of leg and plate, and the room is used.
    #[test]
    fn rivets_are_spread_over_leg_and_plate(asked in asked()) {
        let Some(found) = asked.made() else { return Ok(()) };
        let holes: Vec<_> = found.holes(asked.gap).collect();
        let mut side = 0;
        for (leg, number) in found.legs.iter().zip(1_u8..) {
            let own: Vec<_> = holes.iter().filter(|hole| hole.leg == number).collect();
            let (edge, half) = (of(leg.edge), of(leg.half));
            let middle = side + of(leg.leg.width) / 2;
            // What is narrower than two edge distances has one line in the middle, and is referred.
            let across = of(leg.leg.width.min(leg.plate.0)) / 2 - edge;
            let from_middle = own.iter().map(|hole| (of(hole.at.y) - middle).abs()).max().expect("a hole");
            prop_assert!(from_middle <= across.max(0) + ROUNDING, "leg {}", number);
            let gaps = i64::from(leg.lines) - 1;
            prop_assert!(gaps == 0 || 2 * (across - from_middle) <= gaps * of(STEP) + ROUNDING, "leg {} is not spread", number);
            let counted: Vec<i64> = own.iter().filter(|hole| hole.counts).map(|hole| of(hole.at.x).abs() - of(asked.gap) / 2).collect();
            let (first, last) = (counted.iter().min().expect("a rivet"), counted.iter().max().expect("a rivet"));
            prop_assert!((first - edge).abs() <= ROUNDING && *last <= half - edge + ROUNDING, "leg {}", number);
            let gaps = i64::from(leg.ranks) - 1;
            prop_assert!(gaps == 0 || half - edge - last <= gaps * of(STEP) + ROUNDING, "leg {}: {} of {}", number, last, half);
            prop_assert_eq!(found.rivets_of(&asked.query(), number), 2 * leg.lines * leg.ranks);
            prop_assert!(own.iter().filter(|hole| hole.counts).all(|hole| hole.diameter == leg.diameter));
            // One more at each end of each line, as the skin's, where that is smaller.
            let wanted = asked.skin_rivet.filter(|skin| asked.spliced == Spliced::LowerStringer && *skin < leg.diameter);
            prop_assert_eq!(leg.end_rivet, wanted);
            let ends = own.iter().filter(|hole| !hole.counts && Some(hole.diameter) == wanted).count();
            prop_assert_eq!(ends, if wanted.is_some() { 2 * leg.lines as usize } else { 0 });
            side += of(leg.leg.width);
        }
    }

    /// Plates: as long as their rule says, of more area than the leg, a frame's all of one length.
    #[test]
    fn plates_are_as_long_and_as_thick_as_their_rules(asked in asked()) {
        let Some(found) = asked.made() else { return Ok(()) };
        let longest = found.legs.iter().map(|leg| of(leg.half)).max().expect("a leg");
        prop_assert_eq!(of(found.length), 2 * longest + of(asked.gap));
        let filler = of(asked.gap) - of(FILLER_ROOM);
        prop_assert_eq!(found.filler.map(of), (filler > 0).then_some(filler));
        prop_assert_eq!(found.told.has(Told::FillGap), filler > 0);
        for (leg, given) in found.legs.iter().zip(&asked.legs) {
            let area = |(width, thickness): (Length, Length)| i128::from(of(width)) * i128::from(of(thickness));
            let (own, plate) = (area((given.width, given.thickness)), area(leg.plate));
            let of_leg = |code| leg.findings.iter().find(|finding| finding.code() == code && finding.severity() == Severity::Refer);
            match given.plate {
                Some(given) => prop_assert_eq!(leg.plate, given),
                None => prop_assert!(plate > own && leg.plate.0 == given.width),
            }
            prop_assert_eq!(of_leg(Code::SpliceAreaShort).is_some(), plate <= own);
            if let Some(short) = of_leg(Code::SpliceAreaShort) {
                let Some(Figure::Ratio(said)) = short.measured() else { panic!("{short:?}") };
                prop_assert!((said - plate as f64 / own as f64).abs() <= 1e-12, "{}", said);
            }
            let is_frame = asked.spliced == Spliced::Frame;
            prop_assert_eq!(of_leg(Code::RepairTooThin).is_some(), is_frame && leg.plate.1 <= given.thickness);
            match asked.spliced {
                Spliced::Frame => prop_assert!(of(leg.half) == longest && longest > of(web(&asked.legs))),
                Spliced::Flange => {}
                _ => prop_assert!(of(leg.half) >= 4 * of(given.width)),
            }
        }
    }

    /// Each plate by its area and length, each rivet by itself.
    #[test]
    fn a_splice_weighs_its_plates_and_rivets(asked in asked()) {
        let Some(found) = asked.made() else { return Ok(()) };
        let query = asked.query();
        let mut sum = 0.0;
        for (leg, number) in found.legs.iter().zip(1_u8..) {
            let (density, _) = HANDBOOK.sheet(query.material, leg.plate.1).density_lb_in3().expect("2024");
            let inches = |length: Length| of(length) as f64 / 25_400_000.0;
            let plate = inches(leg.plate.0) * inches(leg.plate.1) * (2.0 * inches(leg.half) + inches(asked.gap)) * density;
            let own = found.plate_mass(&query, leg).expect("2024").lb();
            prop_assert!((own - plate).abs() <= 1e-12 * plate, "{} {}", own, plate);
            let rivet = leg.rivet.expect("rivets");
            let each = mass_each(&rivet, rivet.alloy().density_lb_in3().expect("an aluminium rivet").0);
            let Some(each) = each.filter(|_| leg.end_rivet.is_none()) else {
                prop_assert!(found.mass(&query).is_none());
                return Ok(());
            };
            sum += plate + each.lb() * f64::from(found.rivets_of(&query, number));
        }
        let whole = found.mass(&query).expect("everything is known").lb();
        prop_assert!((whole - sum).abs() <= 1e-9 * sum, "{} {}", whole, sum);
    }
}

/// AC 43.13-1B: a rivet at most a quarter of the leg's width, two to three times as thick as the leg: a limit itself is within.
#[test]
fn a_rivet_is_held_to_width_and_thickness_to_the_nanometre() {
    let rivet = Part::parse("MS20470AD4").expect("a part");
    let diameter = of(rivet.diameter());
    let outside = |width: i64, thickness: i64, severity: Severity| {
        let legs = [Leg::new(nm(width), nm(thickness))];
        let material = Material::parse("2024-T3").expect("known");
        let query = SpliceQuery::new(Spliced::Stringer, Shape::Flat, material, &legs).rivet(Some(rivet));
        let found = splice(&query).expect("published");
        found
            .all_findings()
            .any(|finding| finding.code() == Code::DiameterOutsideRule && finding.severity() == severity)
    };
    let (wide, gauge) = (8 * diameter, 1_270_000);
    assert_eq!([4 * diameter, 4 * diameter - 4].map(|width| outside(width, gauge, Severity::Refer)), [false, true]);
    // Half as thick as the rivet at most, a third at least.
    let (half, third) = (diameter / 2, diameter / 3 + 1);
    assert_eq!([half, half + 1].map(|thickness| outside(wide, thickness, Severity::Note)), [false, true]);
    assert_eq!([third, third - 1].map(|thickness| outside(wide, thickness, Severity::Note)), [false, true]);
}

/// What is told hangs on what is spliced, on its shape and on what holds it.
#[test]
fn what_is_told_belongs_to_what_is_spliced() {
    let bolted = Leg::new(Length::from_64ths(96), thousandths(40)).held(LegFastener::Bolts);
    let riveted = Leg::new(Length::from_64ths(96), thousandths(40));
    let told = |spliced, shape, legs: &[Leg]| {
        let material = Material::parse("2024-T3").expect("known");
        let found = splice(&SpliceQuery::new(spliced, shape, material, legs)).expect("published");
        move |told: Told| found.told.has(told)
    };
    for spliced in Spliced::ALL.iter().copied() {
        let told = told(spliced, Shape::Flat, &[riveted]);
        assert_eq!(told(Told::LowerWing), spliced == Spliced::LowerStringer);
        assert_eq!(told(Told::SpreadRivets), spliced == Spliced::Frame);
        assert_eq!(told(Told::FlangeStrength), spliced == Spliced::Flange);
        assert_eq!(told(Told::EndHoles), !matches!(spliced, Spliced::Frame | Spliced::Flange));
        assert!(!told(Told::BendLine) && !told(Told::BulbRow) && !told(Told::OneFastener));
    }
    for (shape, legs) in
        [(Shape::Angle, [riveted, bolted]), (Shape::BulbAngle, [riveted, riveted]), (Shape::Tee, [bolted, bolted])]
    {
        let told = told(Spliced::Stringer, shape, &legs);
        assert!(told(Told::BendLine) && told(Told::TreatFirst));
        assert_eq!((told(Told::BulbRow), told(Told::OneFastener)), (shape == Shape::BulbAngle, shape == Shape::Angle));
    }
}
