//! One entry a capability of the core, with inputs that the optimiser cannot see through: what an image that calls only this one has in
//! its flash is what the capability costs.

use core::fmt::{self, Write};
use core::hint::black_box;

use shophead::access::{
    Clearance, Minutes, Rates, RowWork, cannot_buck, clearance_needed, least_effort, solid_required, weigh,
};
use shophead::basis::Basis;
#[cfg(feature = "words")]
use shophead::basis::RULES;
use shophead::damage::{self, Damaged};
use shophead::drill::{Drill, parse_hole};
use shophead::finding::Code;
use shophead::hole::{AsFound, Damage, Disposition};
use shophead::installation::Installation;
use shophead::joint::buckling::inter_rivet;
use shophead::joint::compare::substitute;
use shophead::joint::flexibility::{Fastening, Formula, JoinedPlate, flexibility};
use shophead::joint::group;
use shophead::joint::lap::{self, shared};
use shophead::joint::margin::{Factors, Load, LoadKind, margin, yield_margin};
use shophead::joint::row::compare_rows;
use shophead::joint::sharing;
use shophead::joint::splice::{self, Fastener, per_inch};
use shophead::joint::strength::Shear;
use shophead::layout::{Edge, Point, closest, closest_sorted, in_line};
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::pattern::{self, Demand, PatternLimits, tally};
use shophead::practice::{self, BUILT_IN, Case, HANDBOOK, Limit, Name, PROCESS, Practice, Value};
use shophead::quantity::{Force, Stress};
use shophead::removal::removal;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Head, MS20470, NAS1242, Series};
use shophead::select::{LengthAnswer, check_part, choose_diameter};
use shophead::squeeze::{FLOW_2117, squeeze};
use shophead::stack::{Layer, Stack};
use shophead::structure::{Member, Place, Structure};
use shophead::trim::{Curve, Cut, Station};
use shophead::upset::{Defect, Fit, MeasuredHead, check_sample, judge};

/// Nothing: what the image is without any of the core.
pub fn nothing() {}

#[inline(never)]
fn inches(ten_thousandths: u16) -> Length {
    Length::from_ten_thousandths(black_box(ten_thousandths))
}

#[inline(never)]
fn around(ten_thousandths: u16) -> Toleranced {
    Toleranced::new(inches(ten_thousandths), inches(20), inches(20)).unwrap_or(Toleranced::exactly(Length::INCH))
}

#[inline(never)]
fn eighth() -> Case {
    Case::new(black_box(Head::Universal), black_box(RivetAlloy::Al2117), inches(1_250))
}

fn practice() -> &'static Practice<'static> {
    black_box(&HANDBOOK)
}

#[inline(never)]
fn pack() -> Stack {
    let mut stack = Stack::new();
    for thickness in [320, 400, 1_250] {
        let material = Material::known().nth(black_box(0));
        let _ = stack.push(Layer::of(around(thickness)).material(material));
    }
    stack
}

#[inline(never)]
fn rivet(series: &'static Series<'static>) -> Option<Part<'static>> {
    Part::new(series, black_box("AD"), series.size(black_box(4))?).ok()
}

/// Takes text and drops it.
struct Nowhere;

impl Write for Nowhere {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        black_box(text);
        Ok(())
    }
}

fn length_of(series: &'static Series<'static>, practice: &'static Practice<'static>) {
    let Some(rivet) = rivet(series) else { return };
    let question = Installation::through(rivet, around(1_970)).in_hole(around(1_285)).by(practice);
    let mut found = LengthAnswer::nothing_yet();
    let _ = question.length_into(&mut found);
    black_box(&found);
    let _ = black_box(&question.assess(inches(3_750)));
}

/// A length from the pack, one series and one practice.
pub fn length() {
    length_of(&MS20470, practice());
}

/// The same for every series of the catalogue: over [`length()`], what the other series cost.
pub fn every_series() {
    for series in black_box(CATALOGUE) {
        length_of(series, practice());
    }
}

/// The same by both practices: over [`length()`], what the other practice costs.
pub fn every_practice() {
    for practice in black_box(BUILT_IN) {
        length_of(&MS20470, practice);
    }
}

/// One panicking operation, to show that its image cannot be linked.
#[cfg(feature = "control")]
pub fn a_panic() {
    black_box([1_u8, 2, 3][black_box(1_usize)]);
}

/// A driven head predicted and judged.
pub fn head() {
    let size = MS20470.size(black_box(4));
    if let Some(Ok(fit)) = size.map(|size| Fit::new(&MS20470, size, around(1_285), around(1_970))) {
        black_box(&fit.predict(inches(3_750), inches(625)));
    }
    let measured = MeasuredHead::new(Interval::exactly(inches(1_900)), Interval::exactly(inches(700)));
    black_box(&judge(measured, &[black_box(Defect::Tipped)], practice(), &eighth()));
    black_box(&check_sample(black_box(1), black_box(10), black_box(30)));
}

/// A hole judged, with every step of its ladder.
pub fn hole() {
    let stack = pack();
    let (Some(rivet), Ok(found)) =
        (rivet(black_box(&MS20470)), AsFound::new(inches(1_400), inches(1_300), black_box(Damage::None)))
    else {
        return;
    };
    let question = Installation::new(rivet, &stack).edge(inches(2_500)).pitch(inches(7_500)).by(practice());
    let question = question.member(black_box(Member::Skin)).rows(black_box(1));
    black_box(&question.hole_step_by_step(found, &mut |step| {
        black_box(step);
    }));
    black_box(&question.next_size(found));
}

/// Edge distances and pitches.
pub fn layout() {
    if let Some(rivet) = rivet(&MS20470) {
        black_box(&Installation::without_layers(rivet).edge(inches(2_500)).pitch(inches(7_500)).distances());
    }
    let points = [Point::default(), Point { x: inches(7_500), y: inches(10) }];
    let edge = Edge { from: Point::default(), to: Point { x: inches(20_000), y: inches(2_000) } };
    black_box(&closest(&points, &[edge]));
    black_box(&closest_sorted(&points, &mut [0; 2], &[edge]));
    black_box(&in_line(Point::default(), Point { x: inches(3), y: inches(4) }, inches(7_500), black_box(5)));
}

/// The cut along an edge, by its corners and through measured stations.
pub fn trim() {
    let at = |x, y| Point { x: inches(x), y: inches(y) };
    let hole = at(5_000, 2_500);
    let corners = [at(0, 0), at(20_000, 100)];
    let cut = Cut::Corners(&corners);
    black_box((cut.distance(hole), cut.is_beyond(hole), cut.is_above(hole)));
    let stations = [(0, 0), (10_000, 150), (20_000, 90)];
    let stations = stations.map(|(x, y)| Station { at: inches(x), offset: inches(y) });
    match Curve::through(&stations) {
        Ok(curve) => {
            curve.table(Some(inches(2_500))).for_each(|station| {
                black_box(station);
            });
            let cut = Cut::Measured(curve);
            black_box((cut.distance(hole), cut.is_beyond(hole), cut.is_above(hole)));
        }
        Err(error) => drop(write!(Nowhere, "{error}")),
    }
}

/// Damage beside the holes.
pub fn damage() {
    let damaged = Damaged::new(black_box(damage::DamageKind::Crack))
        .length(inches(2_500))
        .depth(inches(50))
        .thickness(inches(400));
    let own = [own_limit(Name::CrackLengthGreatest)];
    black_box(&damage::judge(&damaged, Some(&eighth()), practice()));
    black_box(&damage::judge(&damaged, None, &practice().with_own(&own, &[])));
}

#[inline(never)]
fn own_limit(name: Name) -> Limit {
    let basis = Basis::own(0);
    Limit::new(black_box(name), practice::Scope::ANY, Value::Length(inches(3_750)), basis)
}

/// Which holes of a pattern are stepped up together.
pub fn pattern() {
    let limits = PatternLimits::of(black_box(30), &PROCESS, [eighth()]);
    let step = black_box(Disposition::Oversize);
    let demands = [4, 5, 6].map(|number| Demand::of(0, black_box(number), [step]));
    let mut room = [0; 128];
    let mut take = |index, step| {
        black_box((index, step));
    };
    if let Err(error) = pattern::choose(&demands, &limits, &mut room, &mut take) {
        let _ = write!(Nowhere, "{error}");
    }
    black_box(&limits.full());
    let (steps, run) = tally([1, 2, black_box(9)].map(|hole| (0, hole)));
    black_box(&limits.check(steps, run));
}

/// Which rows must be bucked and can be, what a position takes, how old rivets come out.
pub fn work() {
    let must =
        solid_required(black_box(Structure::Primary), black_box(Member::SparCap), &[black_box(Place::FluidTight)]);
    black_box(must);
    let clearance = black_box(Clearance::Room(inches(1_000)));
    black_box(&cannot_buck(clearance, inches(500), practice(), &eighth()));
    let needed = clearance_needed(inches(500), practice(), &eighth()).map(|needed| needed.value);
    let row = RowWork::new(must.is_some(), black_box(20), clearance).needed(needed);
    match Minutes::parse(black_box("1.5")) {
        Ok(minutes) => {
            let rates = Rates::default().drill_out(minutes).drive_open(minutes);
            let positions = [weigh(Some(minutes), &rates, [row]), weigh(None, &rates, [row, row])];
            black_box(&least_effort(&positions));
            if let Some(total) = positions.iter().find_map(|position| position.time.total()) {
                let _ = write!(Nowhere, "{total}");
            }
        }
        Err(error) => drop(write!(Nowhere, "{error}")),
    }
    if let Some(rivet) = rivet(&MS20470) {
        black_box(&removal(&rivet, &pack(), Some(inches(2_500)), practice()));
    }
}

/// The words of the core for what it found, asked and rests on.
pub fn words() {
    for code in Code::ALL {
        black_box(&code.as_str());
    }
    for name in Name::ALL {
        black_box((name.as_str(), name.meaning()));
    }
    let _ = black_box(black_box("pitch-least").parse::<Name>());
    let _ = black_box(black_box("gouged").parse::<Damage>());
    #[cfg(feature = "words")]
    for rule in RULES {
        if let Some(cited) = rule.basis.citation() {
            let _ = write!(Nowhere, "{} {} {cited}", rule.topic.as_str(), rule.subject);
        }
    }
}

/// A part number read, and printed with its words and warnings.
pub fn number() {
    match Part::parse(black_box("MS20470AD4-5")) {
        Ok(part) => {
            let _ = write!(Nowhere, "{part} {}", part.in_words());
            for warning in &part.warnings() {
                let _ = write!(Nowhere, "{warning}");
            }
        }
        Err(error) => {
            let _ = write!(Nowhere, "{error}");
        }
    }
}

/// The strength of one rivet and its margin.
pub fn strength() {
    let (Some(rivet), stack) = (rivet(&MS20470), pack()) else { return };
    let question = Installation::new(rivet, &stack).edge(inches(2_500)).pitch(inches(7_500));
    let found = question.shear(black_box(Shear::Single)).strength();
    if let Ok(found) = black_box(found)
        && let Some(allowable) = found.allowable
    {
        let load = Load { force: Force::from_lbf(black_box(200.0)), kind: black_box(LoadKind::Limit) };
        let _ = black_box(&margin(allowable.force, load, Factors::FITTING));
        if let Some(yields) = black_box(found.yield_load()) {
            let _ = black_box(&yield_margin(yields.force, load, Factors::SEAM));
        }
    }
}

/// Reading and printing of what people write: lengths, drills, materials, limits, forces.
pub fn reading() {
    match Length::parse(black_box("1-5/16")) {
        Ok(length) => drop(write!(Nowhere, "{length} {} {}", length.to_64ths(), length.in_millimetres())),
        Err(error) => drop(write!(Nowhere, "{error}")),
    }
    if let Err(error) = Toleranced::parse(black_box(".032+-.002")) {
        let _ = write!(Nowhere, "{error}");
    }
    if let Err(error) = parse_hole(black_box("#30")) {
        let _ = write!(Nowhere, "{error}");
    }
    match Material::parse(black_box("clad 2024-T3")) {
        Ok(material) => drop(write!(Nowhere, "{material}")),
        Err(error) => drop(write!(Nowhere, "{error}")),
    }
    match Value::parse(Name::PitchLeast, black_box("3 D")) {
        Ok(value) => drop(write!(Nowhere, "{value}")),
        Err(error) => drop(write!(Nowhere, "{error}")),
    }
}

/// A force read as text.
pub fn force() {
    if let Err(error) = Force::parse(black_box("1100 N")) {
        let _ = write!(Nowhere, "{error}");
    }
}

/// What is left: comparing and substituting, splices, mass, drills, diameters, a shop's own limits.
pub fn rest() {
    let stack = pack();
    let (Some(old), Some(new)) = (rivet(&MS20470), rivet(&NAS1242)) else { return };
    let question = Installation::new(new, &stack).in_place_of(old).edge(inches(2_500));
    let _ = black_box(&question.compare());
    black_box(&substitute(black_box(RivetAlloy::Al2017), black_box(RivetAlloy::Al2117), inches(1_250)));
    if let Some(tables) = splice::tables(black_box("2024"), black_box("T3"), black_box(true)) {
        let fastener = black_box(Fastener::Rivet(inches(1_250)));
        if let Ok(found) = per_inch(tables.first, inches(400), fastener) {
            let member = black_box(splice::SpliceMember::Stringer);
            let _ = black_box(&splice::count(found.used.unwrap_or(1.0), inches(30_000), member, member.rounding()));
            let _ = black_box(&splice::rows(black_box(12), black_box(2), inches(30_000)));
            let _ = black_box(&splice::fewest_rows(black_box(12), inches(30_000), inches(3_750)));
            let _ = black_box(&splice::overlap(black_box(2), inches(2_500), inches(3_750)));
        }
    }
    black_box(&mass_each(&old, black_box(0.1)));
    black_box(&Drill::nearest_at_or_above(inches(1_400)));
    black_box(&choose_diameter(&MS20470, black_box(RivetAlloy::Al2117), inches(320), practice()));
    black_box(&check_part(&old));
    let own = [own_limit(Name::PitchLeast)];
    black_box(&PROCESS.with_own(&own, &[]).length(Name::PitchLeast, &eighth()));
}

/// Joints in depth: groups under an eccentric load, rows sharing a load, rows against rows, buckling between rivets, the squeezing force.
pub fn joints() {
    let at = |x, y| Point { x: inches(x), y: inches(y) };
    let rivets = [(0, 0), (10_000, 0), (0, 20_000)].map(|(x, y)| group::GroupRivet::alike(at(x, y)));
    let (x, y) = (Force::ZERO, Force::from_lbf(black_box(-400.0)));
    let load = group::PlaneLoad::new(x, y, at(30_000, 0), LoadKind::Limit).moment_in_lbf(black_box(0.0));
    if let Ok(found) = group::share(&rivets, load, Some(Factors::SEAM)) {
        black_box(&found.shares().next());
    }
    let modulus = Stress::from_ksi(black_box(10_500.0));
    let plate = JoinedPlate::new(inches(500), modulus);
    let shear = Shear::Single;
    let fastening = Fastening::new(inches(1_250), modulus, shear, [plate, plate]);
    let Ok(flexibility) = flexibility(black_box(Formula::Stp927Riveted), &fastening) else { return };
    let row = sharing::SharingRow::new(flexibility, black_box(1));
    let ea = sharing::stiffness(modulus, inches(10_000), inches(500));
    let bay = sharing::Bay::new(inches(7_500), ea, ea);
    let transfer = black_box(sharing::Transfer::Lap);
    let _ = black_box(&sharing::share(&[row, row, row], &[bay, bay], transfer, Force::from_lbf(black_box(900.0))));
    let _ = black_box(&sharing::share(&[row, row], &[bay], transfer, Force::from_lbf(black_box(900.0))));
    let stack = pack();
    let row = |rivet| {
        let question = Installation::new(rivet, &stack).edge(inches(2_500)).pitch(inches(7_500)).rows(black_box(2));
        question.row_spacing(black_box(inches(5_000))).staggered().row()
    };
    if let (Some(old), Some(new)) = (rivet(&MS20470), rivet(&NAS1242))
        && let (Ok(before), Ok(after)) = (row(old), row(new))
    {
        black_box(&compare_rows(&before, &after));
        let rows = lap::LapRows::new(&old, &stack, inches(7_500), black_box(4))
            .apart(inches(7_500))
            .transfer(transfer)
            .load(Force::from_lbf(black_box(900.0)))
            .practice(practice());
        if let Err(error) = shared(&rows, black_box(Formula::Stp486)) {
            let _ = write!(Nowhere, "{error}");
        }
    }
    let sheet = Material::known().nth(black_box(0)).map(|material| practice().sheet(material, inches(320)));
    if let Some(sheet) = sheet {
        let applied = Some(Stress::from_ksi(black_box(10.0)));
        let _ = black_box(&inter_rivet(&sheet, inches(320), inches(12_500), applied, &eighth(), practice()));
    }
    let _ = black_box(&squeeze(&FLOW_2117, inches(1_250), inches(1_875)));
}

/// All of the core.
pub fn everything() {
    length();
    head();
    hole();
    layout();
    number();
    strength();
    reading();
    force();
    trim();
    damage();
    pattern();
    work();
    words();
    rest();
    joints();
}

/// An image that does one thing and has no way to panic: its panic handler calls a function that nobody defines, so the linker refuses
/// the image as soon as one panicking operation is reachable in it.
#[macro_export]
macro_rules! image {
    ($capability:ident) => {
        #[cortex_m_rt::entry]
        fn main() -> ! {
            $crate::capability::$capability();
            loop {
                core::hint::spin_loop();
            }
        }

        #[panic_handler]
        fn panicked(_: &core::panic::PanicInfo<'_>) -> ! {
            unsafe extern "C" {
                fn a_panicking_operation_is_reachable() -> !;
            }
            // SAFETY: never called: no image in which it is reachable can be linked.
            unsafe { a_panicking_operation_is_reachable() }
        }
    };
}
