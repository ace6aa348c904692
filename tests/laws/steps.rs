//! Which step a hole takes, against a ladder that is worked out from the documents' figures alone: table I of MIL-R-47196A(MI), the shank limits
//! and oversize shanks of the fixtures, and the table of drills, in whole nanometres and with nothing of core's.

use proptest::prelude::*;
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Installation;
use shophead::practice::PROCESS;
use shophead_tests::fixture;
use shophead_tests::prelude::{nm, part};

use crate::common::config;

/// A ten-thousandth of an inch, in nanometres.
const TENTH: i64 = 2_540;
/// A sixty-fourth of an inch.
const SIXTY_FOURTH: i64 = 396_875;

/// What the documents say of one shank, in nanometres.
#[derive(Clone, Copy, Debug)]
struct Shank {
    /// The smallest hole of the table, and the smallest that every shank enters: a hole that is kept may be as small as the first, one that a
    /// larger rivet is to go into not.
    kept: i64,
    least: i64,
    /// The largest hole of the table, and the printed drill.
    greatest: i64,
    drill: i64,
}

/// A size of the series, its oversize shank, the size above it and whether the specification lets a hole go up to that without approval.
#[derive(Clone, Copy, Debug)]
struct Rung {
    dash: u8,
    itself: Shank,
    oversize: Option<Shank>,
    next: Option<(Shank, bool)>,
}

fn printed(inches: f64) -> i64 {
    (inches * 10_000.0).round() as i64 * TENTH
}

fn drills() -> Vec<i64> {
    let named = fixture("drill-sizes.csv").into_iter().filter_map(|row| row.number("decimal_in")).map(printed);
    // Drills by sixty-fourths run between the numbers and letters and beyond them, to half an inch and more.
    let sixty_fourths = (1..=64).map(|of| of * SIXTY_FOURTH);
    let mut drills: Vec<i64> = named.chain(sixty_fourths).collect();
    drills.sort_unstable();
    drills
}

/// Every universal rivet whose shank is in the fixtures.
fn rungs() -> Vec<Rung> {
    let (dimensions, table, oversize) =
        (fixture("rivet-dimensions.csv"), fixture("process-spec-tables.csv"), fixture("oversize-rivets.csv"));
    let sizes = fixture("drill-sizes.csv");
    let mut found = Vec::new();
    for row in dimensions.iter().filter(|row| row.text("standard").starts_with("MS20470 /")) {
        let (Some(shank), size) = (row.number("shank_max_in").map(printed), row.text("nominal_dia")) else { continue };
        let in_table = |quantity| {
            let cell = table.iter().find(|row| row.text("quantity") == quantity && row.text("rivet_dia") == size);
            printed(cell.and_then(|cell| cell.number("value")).expect("table I has every size"))
        };
        let (kept, greatest) = (in_table("hole diameter min"), in_table("hole diameter max"));
        // Two are printed for some sizes: the smaller one. It is as large as its name says, not as its rounded figure.
        let recommended =
            table.iter().filter(|row| row.text("quantity") == "recommended drill" && row.text("rivet_dia") == size);
        let names = recommended.map(|row| row.text("value").split(' ').next().expect("a name").trim_start_matches('#'));
        let sized =
            |name: &str| sizes.iter().find(|row| row.text("size") == name).and_then(|row| row.number("decimal_in"));
        let drill = names.filter_map(sized).map(printed).min().expect("table I has a drill for every size");
        // Above 1/4 the recalled largest shanks are doubtful: table I's own drills would not pass them, and those are printed.
        let itself = Shank { kept, least: kept.max(shank).min(drill), greatest, drill };
        let dash: u8 = row.text("dash_dia").parse().expect("a dash number");
        found.push((dash, size.to_owned(), itself));
    }
    let above = |at: usize| found.get(at + 1).map(|(_, size, itself)| (size, *itself));
    let sixty_fourths = |size: &str| {
        let (top, bottom) = size.split_once('/').expect("a fraction");
        top.parse::<i64>().expect("a number") * 64 / bottom.parse::<i64>().expect("a number")
    };
    let ladder = found.iter().enumerate().map(|(at, (dash, size, itself))| Rung {
        dash: *dash,
        itself: *itself,
        oversize: oversize
            .iter()
            .find(|row| row.text("standard") == "NAS1242" && row.text("dash_dia") == dash.to_string())
            .map(|row| {
                // No document was seen: a sixty-fourth over the standard size with the tolerance of that, + .003, and drilled .004 over it at most.
                let nominal = (row.number("shank_nominal_in").expect("a shank") * 64.0).round() as i64 * SIXTY_FOURTH;
                let shank = nominal + 30 * TENTH;
                Shank { kept: shank, least: shank, greatest: shank + 40 * TENTH, drill: shank }
            }),
        // 1/32 up to 1/4, 1/16 above it.
        next: above(at).map(|(next, shank)| {
            let step = sixty_fourths(next) - sixty_fourths(size);
            (shank, step <= if sixty_fourths(size) < 16 { 2 } else { 4 })
        }),
    });
    ladder.collect()
}

/// A hole, in nanometres.
#[derive(Clone, Copy, Debug)]
struct Hole {
    major: i64,
    minor: i64,
    gouged: bool,
}

fn as_it_is(hole: Hole, shank: Shank) -> bool {
    !hole.gouged && shank.least <= hole.minor && hole.major <= shank.greatest
}

/// The drill that makes it round, a thousandth beyond a score, if what it leaves is within the limits.
fn drilled(hole: Hole, shank: Shank, drills: &[i64]) -> Option<i64> {
    let wanted = shank.drill.max(hole.major + if hole.gouged { 10 * TENTH } else { 0 });
    drills.iter().copied().find(|drill| *drill >= wanted).filter(|drill| *drill <= shank.greatest)
}

/// The step and the drill that it takes.
fn step(hole: Hole, rung: Rung, drills: &[i64]) -> (Disposition, Option<i64>) {
    let as_it_is = |shank| as_it_is(hole, shank);
    let drilled = |shank| drilled(hole, shank, drills);
    if as_it_is(Shank { least: rung.itself.kept, ..rung.itself }) {
        return (Disposition::Keep, None);
    }
    if let Some(drill) = drilled(rung.itself) {
        return (Disposition::CleanUp, Some(drill));
    }
    let larger = [
        (Disposition::Oversize, rung.oversize),
        (Disposition::NextSize, rung.next.filter(|next| next.1).map(|next| next.0)),
    ];
    for (kind, shank) in larger {
        let Some(shank) = shank else { continue };
        if as_it_is(shank) {
            return (kind, None);
        }
        if let Some(drill) = drilled(shank) {
            return (kind, Some(drill));
        }
    }
    (Disposition::Refer, None)
}

#[test]
fn the_rungs_are_those_of_the_tables() {
    assert_eq!(rungs().iter().map(|rung| rung.dash).collect::<Vec<_>>(), [2, 3, 4, 5, 6, 8, 10, 12]);
    assert!(drills().len() > 120);
}

#[test]
fn every_hole_takes_the_step_of_the_printed_tables() {
    let (rungs, drills) = (rungs(), drills());
    let mut runner = proptest::test_runner::TestRunner::new(config());
    // From a hundredth under the least hole to a tenth over the greatest, out of round by up to a hundredth; every other one on a whole tenth.
    let holes = (0..rungs.len(), -100_i64..1_100, 0_i64..100, any::<bool>(), any::<bool>(), 0_i64..TENTH);
    let ran = runner.run(&holes, |(at, over, oval, gouged, whole, rest)| {
        let rung = rungs[at];
        let major = rung.itself.least + over * TENTH + if whole { 0 } else { rest };
        let hole = Hole { major, minor: major - oval * TENTH, gouged };
        let rivet = part(&format!("MS20470AD{}", rung.dash));
        // Room on every side, so that only the hole decides.
        let question = Installation::without_layers(rivet).by(&PROCESS).edge(nm(100_000_000)).pitch(nm(200_000_000));
        let damage = if gouged { Damage::Gouged } else { Damage::None };
        let answer = question.hole(AsFound::new(nm(major), nm(hole.minor), damage).expect("a hole"));
        let taken = (answer.disposition, answer.cut.map(|drill| drill.diameter().nanometres()));
        prop_assert_eq!(taken, step(hole, rung, &drills), "{:?} {:?}", hole, rung);
        Ok(())
    });
    ran.unwrap_or_else(|failure| panic!("{failure}"));
}
