//! Laws of the ladder of steps, over both practices, every size of the two common series and a fine grid of holes: at least a hundred thousand
//! cases each. The grid is walked, not drawn, so that a law which breaks anywhere near a limit breaks here.

use shophead::drill::Drill;
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::{HoleAnswer, Installation};
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{BUILT_IN, Practice};
use shophead::rivet::part::Part;
use shophead::rivet::{MS20426, MS20470, Series};
use shophead::stack::{Layer, Preparation, Stack};
use shophead::structure::Member;
use shophead_tests::prelude::nm;

use crate::common::config;

/// A ten-thousandth of an inch.
const TENTH: i64 = 2_540;

/// A rivet in sheets that are thick enough for every head and published, with room around it.
struct Place {
    rivet: Part<'static>,
    stack: Stack,
    practice: &'static Practice<'static>,
    edge: Length,
    pitch: Length,
}

impl Place {
    fn question<'p>(&'p self, rivet: Part<'static>) -> Installation<'p, 'static> {
        Installation::new(rivet, &self.stack)
            .by(self.practice)
            .edge(self.edge)
            .pitch(self.pitch)
            .member(Member::Skin)
            .in_place_of(self.rivet)
    }

    fn judge(&self, found: AsFound) -> HoleAnswer<'static> {
        self.question(self.rivet).hole(found)
    }

    /// From a hundredth under the shank to a tenth over it, past every step; and a nanometre to either side of every limit and drill there.
    fn holes(&self, step: usize) -> Vec<i64> {
        let shank = self.rivet.size().shank_nominal.nanometres();
        let (from, to) = (shank - 100 * TENTH, shank + 1_000 * TENTH);
        let rivet = self.rivet;
        let oversize = rivet.series().oversize_series.and_then(|series| rivet.in_series(series));
        let next = rivet.series().next_size(rivet.size()).and_then(|size| rivet.in_size(size));
        let limits = [Some(rivet), oversize, next].into_iter().flatten().flat_map(|rivet| {
            let case = self.question(rivet).case();
            let holes = [self.practice.promised_hole(&case), self.practice.hole_for(&case)];
            holes.into_iter().flatten().flat_map(|hole| [hole.value.min(), hole.value.max()])
        });
        let drills = Drill::all().map(Drill::diameter);
        let turns = limits.chain(drills).map(Length::nanometres).filter(|turn| (from..to).contains(turn));
        let mut holes: Vec<i64> = turns.flat_map(|turn| [turn - 1, turn, turn + 1]).collect();
        holes.extend((0..1_100).step_by(step).map(|tenths| from + tenths * TENTH));
        holes.sort_unstable();
        holes.dedup();
        // In a quick run each place takes others of them.
        let coarse = coarse();
        let skipped = usize::try_from(self.edge.nanometres()).expect("a length") % coarse;
        holes.into_iter().skip(skipped).step_by(coarse).collect()
    }

    /// Where holes are no longer too small for the rivet.
    fn least(&self) -> i64 {
        let question = self.question(self.rivet);
        self.practice.promised_hole(&question.case()).expect("a hole").value.min().nanometres()
    }
}

/// Every size in both practices, with more and with less room: at three edge distances, from the least for the rivet itself on.
fn places() -> Vec<Place> {
    let mut places = Vec::new();
    let series: [&'static Series<'static>; 2] = [&MS20470, &MS20426];
    for practice in BUILT_IN {
        for series in series {
            for size in series.sizes {
                for edge in [2.5, 3.2, 6.0] {
                    let rivet = Part::new(series, "AD", size).expect("an alloy and a size of the series");
                    let diameter = size.shank_nominal;
                    let times = |of: f64| nm((diameter.nanometres() as f64 * of) as i64);
                    places.push(Place {
                        rivet,
                        stack: sheets(series.head.is_flush(), diameter),
                        practice,
                        edge: times(edge),
                        pitch: times(edge * 2.0),
                    });
                }
            }
        }
    }
    places
}

/// Two sheets, thick enough to be countersunk for the next larger head and thin enough that the rivet suits them.
fn sheets(flush: bool, diameter: Length) -> Stack {
    let material = Some(Material::parse("clad 2024-T3").expect("a material"));
    let thickness = Toleranced::exactly(nm(diameter.nanometres() * 11 / 20));
    let mut stack = Stack::new();
    for preparation in [if flush { Preparation::Countersunk } else { Preparation::Plain }, Preparation::Plain] {
        stack.push(Layer::of(thickness).material(material).preparation(preparation)).expect("room");
    }
    stack
}

fn found(major: i64, minor: i64, damage: Damage) -> AsFound {
    AsFound::new(nm(major), nm(minor), damage).expect("a hole")
}

/// How far a step goes.
fn rank(answer: &HoleAnswer<'_>) -> Disposition {
    answer.disposition
}

/// How many cases each law is checked against: a hundred thousand where as many are asked for.
fn cases_wanted() -> u32 {
    100_000 / u32::try_from(coarse()).expect("few")
}

/// Where fewer cases are asked for, the grid is coarser.
fn coarse() -> usize {
    (100_000 / config().cases.max(1)).clamp(1, 16) as usize
}

#[test]
fn a_hole_within_what_was_promised_is_kept_when_it_is_measured_again() {
    let (mut cases, mut steps) = (0_u32, [0_u32; 4]);
    for place in places() {
        for major in place.holes(90) {
            for (minor, damage) in [(0, Damage::None), (60, Damage::None), (0, Damage::Gouged)] {
                let answer = place.judge(found(major, (major - minor * TENTH).max(TENTH), damage));
                let (Some(rivet), Some(hole)) = (answer.rivet, answer.hole) else { continue };
                steps[answer.disposition as usize] += 1;
                let (least, most) = (hole.min().nanometres(), hole.max().nanometres());
                let between = |part: i64| least + (most - least) * part / 4;
                for (major, minor) in [(0, 0), (4, 4), (4, 0), (2, 1), (3, 3)] {
                    let again = found(between(major), between(minor), Damage::None);
                    // By the mechanic who asks about the rivet that he was told to take, and by the job that remembers what was there.
                    for again in [again, again.opened(true)] {
                        let kept = place.question(rivet).hole(again);
                        assert_eq!(
                            (kept.disposition, kept.cut, kept.rivet),
                            (Disposition::Keep, None, Some(rivet)),
                            "{} {} {answer:?} {again:?} {kept:?}",
                            place.practice.name(),
                            place.rivet
                        );
                        cases += 1;
                    }
                    if answer.disposition.is_step_up() {
                        // The row's own rivet is asked about again: the step is the same, and nothing is drilled any more.
                        let again = place.judge(again.opened(true));
                        assert_eq!(
                            (again.rivet, again.cut),
                            (Some(rivet), None),
                            "{} {}",
                            place.rivet,
                            place.practice.name()
                        );
                        cases += 1;
                    }
                }
            }
        }
    }
    assert!(cases > cases_wanted() && steps.iter().all(|count| *count > 10), "{cases} {steps:?}");
}

#[test]
fn of_sound_holes_a_larger_one_never_gets_a_smaller_step() {
    let mut cases = 0_u32;
    for place in places() {
        let least = place.least();
        let mut last = [Disposition::Keep; 4];
        for major in place.holes(4).into_iter().filter(|major| *major >= least) {
            let shank = place.rivet.size().shank_nominal.nanometres();
            let minors = [major, least, least + 100 * TENTH, shank + 300 * TENTH];
            for (minor, last) in minors.into_iter().zip(&mut last).filter(|(minor, _)| *minor <= major) {
                let step = rank(&place.judge(found(major, minor, Damage::None)));
                assert!(
                    step >= *last,
                    "{} {} {major} by {minor}: {step} after {last}",
                    place.practice.name(),
                    place.rivet
                );
                *last = step;
                cases += 1;
            }
        }
    }
    assert!(cases > cases_wanted(), "{cases}");
}

#[test]
fn more_damage_never_gets_a_milder_step() {
    let mut cases = 0_u32;
    for place in places() {
        for major in place.holes(90) {
            for minor in [0, 60] {
                let at = |damage| rank(&place.judge(found(major, (major - minor * TENTH).max(TENTH), damage)));
                let sound = at(Damage::None);
                let of = |damage| (at(damage), damage);
                for (step, damage) in Damage::ALL.iter().map(|damage| of(*damage)) {
                    let what = format!("{} {} {major} less {minor} {damage}", place.practice.name(), place.rivet);
                    assert!(step >= sound, "{what}: {step}, sound {sound}");
                    // A wider scoring is a longer axis.
                    let wider =
                        rank(&place.judge(found(major + 10 * TENTH, (major - minor * TENTH).max(TENTH), damage)));
                    assert!(wider >= step || sound == Disposition::CleanUp, "{what}: {wider} after {step}");
                    cases += 1;
                }
                assert_eq!(at(Damage::Cracked), Disposition::Refer);
            }
        }
    }
    assert!(cases > cases_wanted(), "{cases}");
}

/// A measure that is missing never opens a hole further than the same hole with both axes.
#[test]
fn a_missing_axis_opens_no_hole_further() {
    let mut cases = 0_u32;
    for place in places() {
        for major in place.holes(1) {
            let both = place.judge(found(major, major, Damage::None));
            let one = place.judge(AsFound::one_axis(nm(major), Damage::None).expect("a hole"));
            assert_eq!((one.disposition, one.rivet), (both.disposition, both.rivet), "{} {major}", place.rivet);
            cases += 1;
        }
    }
    assert!(cases > cases_wanted(), "{cases}");
}
