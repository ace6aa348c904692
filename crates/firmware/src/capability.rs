//! One entry a capability of the core, with inputs that the optimiser cannot see through: what an image that calls only this one has in
//! its flash is what the capability costs.

use core::fmt::{self, Write};
use core::hint::black_box;

use shophead::access::{Clearance, cannot_buck, solid_required};
use shophead::drill::{Drill, parse_hole};
use shophead::hole::{AsFound, Damage, HoleJudgement, HoleQuery};
use shophead::joint::buckling::inter_rivet;
use shophead::joint::compare::{compare, substitute};
use shophead::joint::flexibility::{Fastening, Formula, Plate, flexibility};
use shophead::joint::group;
use shophead::joint::margin::{Factors, Load, LoadKind, margin};
use shophead::joint::pack::strength_through;
use shophead::joint::row::{RowAsMade, compare_rows, row_strength};
use shophead::joint::sharing;
use shophead::joint::splice::{self, Fastener, per_inch};
use shophead::joint::strength::Shear;
use shophead::layout::{Edge, Point, RowLayout, check_points, check_row};
use shophead::length::{Interval, Length, Toleranced};
use shophead::material::{Material, RivetAlloy};
use shophead::pattern::check_pattern;
use shophead::practice::{BUILT_IN, Case, HANDBOOK, Limit, Name, PROCESS, Practice, Value};
use shophead::quantity::{Force, Stress};
use shophead::removal::removal;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Head, MS20470, NAS1242, Series};
use shophead::select::{LengthQuery, choose_diameter};
use shophead::squeeze::{FLOW_2117, squeeze};
use shophead::stack::{Layer, Stack};
use shophead::structure::{Member, Place, Structure};
use shophead::upset::{Defect, Fit, MeasuredHead, judge};

/// Nothing: what the image is without any of the core.
pub fn nothing() {}

fn inches(ten_thousandths: u16) -> Length {
    Length::from_ten_thousandths(black_box(ten_thousandths))
}

fn around(ten_thousandths: u16) -> Toleranced {
    Toleranced::new(inches(ten_thousandths), inches(20), inches(20))
}

fn eighth() -> Case {
    Case::new(black_box(Head::Universal), black_box(RivetAlloy::Al2117), inches(1_250))
}

fn practice() -> &'static Practice<'static> {
    black_box(&HANDBOOK)
}

fn pack() -> Stack {
    let mut stack = Stack::new();
    for thickness in [320, 400, 1_250] {
        let material = Material::known().nth(black_box(0));
        let _ = stack.push(Layer { material, ..Layer::of(around(thickness)) });
    }
    stack
}

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
    let Some(size) = series.size(black_box(4)) else { return };
    let (grip, hole) = (around(1_970), around(1_285));
    let query = LengthQuery { series, alloy: black_box(RivetAlloy::Al2117), size, grip, hole, practice };
    let _ = black_box(query.choose());
    let _ = black_box(query.assess(inches(3_750)));
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
        black_box(fit.predict(inches(3_750), inches(625)));
    }
    let measured = MeasuredHead { diameter: Interval::exactly(inches(1_900)), height: Interval::exactly(inches(700)) };
    black_box(judge(measured, &[black_box(Defect::Tipped)], practice(), &eighth()));
}

/// A hole judged, with every step of its ladder.
pub fn hole() {
    let stack = pack();
    let layout = RowLayout { edge: Some(inches(2_500)), pitch: Some(inches(7_500)), ..RowLayout::default() };
    let (Some(rivet), Ok(found)) =
        (rivet(black_box(&MS20470)), AsFound::new(inches(1_400), inches(1_300), black_box(Damage::None)))
    else {
        return;
    };
    let member = black_box(Member::Skin);
    let query = HoleQuery { rivet, stack: Some(&stack), layout, rows: black_box(1), member, practice: practice() };
    let mut verdict = HoleJudgement::nothing_yet();
    query.judge_into(found, &mut verdict);
    black_box(&verdict);
}

/// Edge distances and pitches.
pub fn layout() {
    let layout = RowLayout { edge: Some(inches(2_500)), pitch: Some(inches(7_500)), transverse_pitch: None };
    black_box(check_row(layout, &eighth(), practice()));
    let points = [Point::default(), Point { x: inches(7_500), y: inches(10) }];
    let edge = Edge { from: Point::default(), to: Point { x: inches(20_000), y: inches(2_000) } };
    black_box(check_points(&points, &[edge], &eighth(), practice()));
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
    let shear = black_box(Shear::Single);
    let found = strength_through(&rivet, &stack, inches(2_500), None, Some(inches(7_500)), shear, None);
    if let Ok(found) = black_box(found)
        && let Some(allowable) = found.allowable
    {
        let load = Load { force: Force::from_lbf(black_box(200.0)), kind: black_box(LoadKind::Limit) };
        let _ = black_box(margin(allowable.force, load, Factors::FITTING));
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

/// What is left: comparing and substituting, splices, mass, drills, access, removal, patterns, a shop's own limits.
pub fn rest() {
    let stack = pack();
    let (Some(old), Some(new)) = (rivet(&MS20470), rivet(&NAS1242)) else { return };
    let ask = |rivet: &Part<'_>| strength_through(rivet, &stack, inches(2_500), None, None, Shear::Single, None);
    if let (Ok(before), Ok(after)) = (ask(&old), ask(&new)) {
        black_box(compare(&before, &after));
    }
    black_box(substitute(black_box(RivetAlloy::Al2017), black_box(RivetAlloy::Al2117), inches(1_250)));
    if let Some(tables) = splice::tables(black_box("2024"), black_box("T3"), black_box(true)) {
        let fastener = black_box(Fastener::Rivet(inches(1_250)));
        if let Ok(found) = per_inch(tables.first, inches(400), fastener) {
            let member = black_box(splice::Member::Stringer);
            let _ = black_box(splice::count(found.used, inches(30_000), member, member.rounding()));
        }
    }
    black_box(mass_each(&old, black_box(0.1)));
    black_box(Drill::nearest_at_or_above(inches(1_400)));
    black_box(solid_required(
        black_box(Structure::Primary),
        black_box(Member::SparCap),
        &[black_box(Place::FluidTight)],
    ));
    black_box(cannot_buck(black_box(Clearance::Room(inches(1_000))), inches(500), practice(), &eighth()));
    black_box(removal(&old, &stack, Some(inches(2_500)), practice()));
    black_box(check_pattern([1, 2, black_box(9)], black_box(30), black_box(&PROCESS), &eighth()));
    black_box(choose_diameter(&MS20470, black_box(RivetAlloy::Al2117), inches(320), practice()));
    let own = [Limit {
        name: black_box(Name::PitchLeast),
        scope: shophead::practice::Scope::ANY,
        value: Value::Length(inches(3_750)),
        basis: shophead::basis::Basis::shop("", ""),
    }];
    black_box(PROCESS.with_own(&own).length(Name::PitchLeast, &eighth()));
}

/// Joints in depth: groups under an eccentric load, rows sharing a load, rows against rows, buckling between rivets, the squeezing force.
pub fn joints() {
    let at = |x, y| Point { x: inches(x), y: inches(y) };
    let rivets = [(0, 0), (10_000, 0), (0, 20_000)].map(|(x, y)| group::Member::alike(at(x, y)));
    let (x, y) = (Force::ZERO, Force::from_lbf(black_box(-400.0)));
    let load = group::PlaneLoad { x, y, at: at(30_000, 0), moment_in_lbf: black_box(0.0), kind: LoadKind::Limit };
    if let Ok(found) = group::share(&rivets, load, Some(Factors::SEAM)) {
        black_box(found.shares().next());
    }
    let modulus = Stress::from_ksi(black_box(10_500.0));
    let plate = Plate { thickness: inches(500), modulus };
    let shear = Shear::Single;
    let fastening = Fastening { diameter: inches(1_250), modulus, shear_modulus: None, shear, plates: [plate, plate] };
    let Ok(flexibility) = flexibility(black_box(Formula::Stp927Riveted), &fastening) else { return };
    let row = sharing::Row { flexibility, fasteners: black_box(1) };
    let ea = sharing::stiffness(modulus, inches(10_000), inches(500));
    let bay = sharing::Bay { length: inches(7_500), ea_a: ea, ea_b: ea };
    let transfer = black_box(sharing::Transfer::Lap);
    let _ = black_box(sharing::share(&[row, row, row], &[bay, bay], transfer, Force::from_lbf(black_box(900.0))));
    let stack = pack();
    let as_made = |rivet| RowAsMade {
        rivet,
        stack: &stack,
        edge: inches(2_500),
        hole: None,
        pitch: inches(7_500),
        rows: black_box(2),
        shear: Shear::Single,
    };
    if let (Some(old), Some(new)) = (rivet(&MS20470), rivet(&NAS1242))
        && let (Ok(before), Ok(after)) = (row_strength(&as_made(&old)), row_strength(&as_made(&new)))
    {
        black_box(compare_rows(&before, &after));
    }
    let sheet = Material::known().nth(black_box(0)).and_then(|material| material.properties(inches(320)));
    if let Some(sheet) = sheet {
        let applied = Some(Stress::from_ksi(black_box(10.0)));
        let _ = black_box(inter_rivet(sheet, inches(320), inches(12_500), applied, &eighth(), practice()));
    }
    let _ = black_box(squeeze(&FLOW_2117, inches(1_250), inches(1_875)));
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
