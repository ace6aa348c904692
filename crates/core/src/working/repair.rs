//! Patches, splices, seams of a panel, rows for a margin, bends, step by step.

use super::besides;
use super::joint::{self, Over, of_sheet};
use super::shares;
use super::splice::{self, Counts};
use super::{About, Input, Kind, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::joint::combined::{Combined, Loads};
use crate::joint::flexibility::Formula;
use crate::joint::layers::{FastenerPlace, Layers, StackRows};
use crate::joint::margin::{Factors, Load, margin};
use crate::joint::strength::{Allowable, Shear};
use crate::length::{Interval, Length};
use crate::material::Property;
use crate::practice::{Case, Given, Name, Practice};
use crate::quantity::{Force, Mass};
use crate::repair::in_row::{InRow, LaidRows};
use crate::repair::panel::CopiedSeam;
use crate::repair::patch::{
    CUT_RADIUS, LONGEST, Opening, Patch, PatchQuery, Pattern, Plate, STEP, STOP_HOLE, Side, SkinDamage, Taper,
};
use crate::repair::solve::Tried;
use crate::repair::splice::{LegSplice, Splice, SpliceQuery, Spliced};

symbols! {
    DAMAGE_ALONG = "a", "damage along the load";
    DAMAGE_ACROSS = "b", "damage across the load";
    CORNER = "rc", "radius of the opening's corners";
    OFF = "o", "how far the opening's sides stand off the damage";
    STOP = "hs", "stop hole";
    MARK = "z", "step to which it is marked out";
    ALONG = "A", "opening along the load";
    ACROSS = "B", "opening across the load";
    THICKEST = "tx", "the thicker sheet";
    TIMES = "c", "diameters for a thickness";
    WANTED = "Dw", "diameter that the rule asks for";
    COUNT = "N", "rivets for every unit of width";
    ROWS = "r", "rows";
    PITCH_MOST = "px", "greatest pitch";
    PITCH_WIDEST = "pw", "widest pitch that holds the count";
    PITCH = "p", "pitch";
    WIDTH = "w", "width that the side bridges";
    PER_ROW = "m", "rivets in a row";
    COUNTED = "nc", "rivets that count, each side of the opening";
    SPREAD = "sp", "width over which the rivets are spread";
    EDGE = "e", "edge distance";
    SPACING = "s", "distance from row to row";
    PLATE = "pl", "plate this way";
    THICKNESS = "t", "thickness";
    RADIUS = "R", "radius of the corners";
    DENSITY = "g", "density";
    MASS = "M", "mass of the sheet";
    EACH = "me", "mass of one rivet, an estimate";
    RIVETS = "n", "rivets";
    MASS_RIVETS = "Mr", "mass of the rivets";
    FILLER_MASS = "Mf", "mass of the filler";
    CUT_MASS = "Mc", "mass of the skin that is cut out";
    ADDS = "Ma", "mass that the repair adds";
    LEG_WIDTH = "W", "width of the leg";
    AREA = "Al", "area of the leg";
    PLATE_WIDTH = "Wp", "width of its plate";
    PLATE_THICKNESS = "tp", "thickness of its plate";
    PLATE_AREA = "Ap", "area of its plate";
    AREA_RATIO = "q", "area of the plate over that of the leg";
    LEAST_DIAMETER = "Dn", "least diameter for the leg";
    MOST_DIAMETER = "Dx", "greatest diameter for the leg";
    QUARTER = "Dq", "a quarter of the leg's width, the most that the diameter may be";
    NEEDED = "n", "rivets or bolts needed each side of the cut";
    LINES = "l", "lines along the member";
    RANKS = "k", "rivets or bolts in a line";
    PITCH_LEAST = "pn", "least pitch";
    PITCH_MARKED = "pm", "least pitch, to the next mark";
    HALF_LEAST = "hn", "least length of the plate on each side, by the rule of the member";
    HALF = "h", "length of the plate on each side of the cut";
    NARROWER = "wn", "the narrower of leg and plate";
    GAP = "gp", "what is cut away between the two ends";
    LONGEST_HALF = "hx", "longest half plate";
    WHOLE = "Lp", "length of the longest plate";
    ROOM = "Lf", "length of the filler";
    FILLER_SHORT = "fr", "how much shorter a filler is than its gap";
    SIDE = "Ls", "length of the side";
    FIRST = "xf", "from the side's end to the first rivet";
    RUNNING = "f", "load for every unit of width";
    RUNNING_PITCH = "Fp", "load on one pitch";
    ONE_ALLOWABLE = "P", "what one rivet carries there";
    WHOLE_LOAD = "Fw", "load on the width";
    OVER_WIDTH = "B", "width that the load is on";
    CARRIES = "W", "what the rows carry for every unit of width";
    FACTORED = "L", "load with its factors";
    MARGIN = "MS", "margin of safety";
    FTU = "Ftu", "tension strength of the sheet";
    SHEET = "S", "what the sheet carries for every unit of width without holes";
    WEAKER = "Sw", "the weaker sheet";
    SHARE = "E", "what the rows carry over what the weaker sheet does";
    PER_WIDTH = "q", "rivets for every unit of width";
    SHEAR_LOAD = "Fs", "shear on one rivet";
    PULL = "Ft", "tension on one rivet";
    FACTOR_SHEAR = "Rs", "part of the rivet that shear takes";
    FACTOR_PULL = "Rt", "part of the tested value that tension takes";
    ONE = "P", "what one rivet carries in shear";
    TESTED = "Pt", "what one rivet carries in tension, tested";
    FACTORS = "F", "factors on the load";
    TOGETHER = "MS", "margin of shear and tension together";
    DEGREES = "D", "degrees by which it is bent";
    BEND_RADIUS = "R", "inside radius of the bend";
    RADIUS_LEAST = "Rn", "least radius";
    HALVES = "c", "thicknesses that the table asks for";
    SETBACK = "SB", "from the outer corner to where the bend begins";
}

rules! { LIST:
    STANDS_OFF = "opening-stands-off", "How far the opening stands off the damage", OFF, "min(0.20711 × min(a, b), 0.2929 × rc)";
    OPENING_ALONG = "opening-along", "Opening along the load", ALONG, "up((a + 2 × o) / z) × z";
    OPENING_ACROSS = "opening-across", "Opening across the load", ACROSS, "up((b + 2 × o) / z) × z";
    CRACK_ALONG = "crack-along", "Crack and stop holes along the load", ALONG, "a + hs";
    CRACK_ACROSS = "crack-across", "Crack and stop holes across the load", ACROSS, "b + hs";
    DIAMETER = "diameter-for-sheet", "Diameter for the thicker sheet", WANTED, "c × tx";
    WIDEST = "pitch-widest", "Widest pitch that holds the count", PITCH_WIDEST, "r / N";
    WIDEST_LIMITED = "pitch-widest-limited", "Widest pitch that holds the count, no more than allowed", PITCH_WIDEST, "min(px, r / N)";
    MARKED = "pitch-marked", "Pitch, to the mark", PITCH, "down(pw / z) × z";
    OF_ROW = "side-row", "Rivets in a row", PER_ROW, "max(2, up(w / p))";
    OF_SIDE = "side-rivets", "Rivets that count", COUNTED, "m × r";
    OF_STAGGERED = "side-rivets-staggered", "Rivets that count, one more in every second row", COUNTED, "m × r + down(r / 2)";
    OF_SPREAD = "side-spread", "Width of the rivets", SPREAD, "m × p";
    PLATE_SIZE = "plate-size", "Size of the plate", PLATE, "sp + 2 × (2 × e + (r - 1) × s)";
    WEIGHED = "plate-mass", "Mass of the plate", MASS, "(A × B - (4 - π) × R²) × t × g";
    ADDED = "mass-added", "Mass that the repair adds", ADDS, "M + Mf + n × me - Mc";
    LEG_AREA = "leg-area", "Area of the leg", AREA, "W × t";
    OF_PLATE = "leg-plate-area", "Area of its plate", PLATE_AREA, "Wp × tp", AC43_SPLICE_AREA;
    PLATE_OVER = "leg-plate-over-leg", "Area of the plate over that of the leg: more than 1", AREA_RATIO, "Ap / Al", AC43_SPLICE_AREA;
    TWICE = "leg-diameter-least", "Diameter at least", LEAST_DIAMETER, "2 × t", AC43_DIAMETER_IN_LEG;
    THRICE = "leg-diameter-most", "Diameter at most", MOST_DIAMETER, "3 × t", AC43_DIAMETER_IN_LEG;
    A_QUARTER = "leg-diameter-quarter", "Diameter at most, by the width", QUARTER, "W / 4", AC43_DIAMETER_OF_WIDTH;
    IN_A_LINE = "leg-ranks", "Rivets or bolts in a line", RANKS, "up(n / l)";
    LEAST_MARKED = "leg-pitch-least", "Least pitch, to the next mark", PITCH_MARKED, "up(pn / z) × z";
    OF_HALF = "leg-half", "Plate on each side of the cut", HALF, "up(max(2 × e + (k - 1) × pm, hn) / z) × z";
    OVER_HALF = "leg-pitch", "Pitch along the member", PITCH, "max(pm, down((h - 2 × e) / (k - 1) / z) × z)";
    LINES_APART = "leg-lines-apart", "Distance from line to line", SPACING, "down(max(0, wn - 2 × e) / (l - 1) / z) × z";
    OF_WHOLE = "splice-length", "Length of the longest plate", WHOLE, "2 × hx + gp";
    OF_FILLER = "splice-filler", "Length of the filler", ROOM, "gp - fr";
    LEG_PLATE_MASS = "leg-plate-mass", "Mass of its plate", MASS, "Wp × tp × (2 × h + gp) × g";
    LEG_RIVET_MASS = "leg-rivet-mass", "Mass of its rivets", MASS_RIVETS, "n × me";
    SPLICE_MASS = "splice-mass", "Mass of plates and rivets", ADDS, "sum(…)";
    SIDE_ROW = "panel-row", "Rivets in a row of the side", PER_ROW, "down((Ls - 2 × e) / p) + 1";
    SIDE_FIRST = "panel-first", "From the side's end to the first rivet", FIRST, "(Ls - (m - 1) × p) / 2";
    ON_A_PITCH = "load-on-pitch", "Load on one pitch", RUNNING_PITCH, "Fw / B × p";
    ON_WIDTH = "load-on-width", "Load for every unit of width", RUNNING, "Fw / B";
    WIDTH_BOTH = "width-factored-load", "Load with its factors", FACTORED, "f × fs × ff";
    WIDTH_SAFETY = "width-factored-load-safety", "Load with its factor", FACTORED, "f × fs";
    WIDTH_FITTING = "width-factored-load-fitting", "Ultimate load with the fitting factor", FACTORED, "f × ff";
    WIDTH_NONE = "width-factored-load-none", "Ultimate load", FACTORED, "f";
    WIDTH_MARGIN = "width-margin", "Margin of the rows", MARGIN, "W / L - 1";
    WITHOUT_HOLES = "sheet-running", "The sheet without holes, for every unit of width", SHEET, "Ftu × t";
    WEAKER_SHEET = "sheet-weaker", "The weaker sheet", WEAKER, "min(…)";
    SHARE_OF_SHEET = "share-of-sheet", "What the rows carry over what the weaker sheet does", SHARE, "W / Sw", SPLICE_DEVELOPS;
    ON_ONE = "shear-on-one", "Shear on one rivet", SHEAR_LOAD, "f / q";
    TAKES_SHEAR = "shear-takes", "Part of the rivet that shear takes", FACTOR_SHEAR, "Fs × F / P";
    TAKES_PULL = "tension-takes", "Part of the tested value that tension takes", FACTOR_PULL, "Ft × F / Pt";
    INTERACTION = "shear-and-tension", "Margin of shear and tension together", TOGETHER, "1 / √(Rs² + Rt²) - 1", SHEAR_AND_TENSION_RIVETS;
    LEAST_BEND = "bend-radius", "Least radius of the bend", RADIUS_LEAST, "c × t", AC43_T4_6;
    BEND_SETBACK = "bend-setback", "Setback", SETBACK, "tan(D / 2) × (R + t)", AC43_SETBACK;
}

/// One rivet, before rows are laid out.
pub(crate) const BY_ITSELF: &str = "one rivet by itself";
/// The rows as they are laid out.
pub(crate) const LAID_OUT: &str = "as laid out";

/// Of some rows for every unit of width.
static OF_WIDTH: Over =
    Over { factored: [&WIDTH_BOTH, &WIDTH_SAFETY, &WIDTH_FITTING, &WIDTH_NONE], margin: &WIDTH_MARGIN, at_yield: None };

fn mark() -> Input<'static> {
    Input::new(MARK, STEP, Basis::ROWS_OF_PATCH)
}

fn length(held: f64) -> Quantity {
    Quantity::new(Kind::Length, held)
}

fn of_given(symbol: super::Symbol, given: Given<Length>) -> Input<'static> {
    Input::new(symbol, given.value, given.basis)
}

/// What some rows carry, as they were asked.
pub fn of_rows(rows: &LaidRows<'_, '_>, found: &InRow, work: &mut Working<'_>) -> Option<Input<'static>> {
    let question = rows.question();
    let carried = joint::one_rivet(&question, &found.strength.joint, work);
    joint::rows(&question, &found.strength, &carried, (None, None, None), work)
}

/// Rows as tried under a load on a width, with their margin and their share of the weaker sheet.
pub fn of_tried(
    rows: &LaidRows<'_, '_>,
    (found, tried): (&InRow, &Tried),
    load: Option<(Load, Factors, Length)>,
    work: &mut Working<'_>,
) {
    let Some(carries) = of_rows(rows, found, work) else { return };
    if let Some(share) = tried.share {
        let mut sheets = heapless::Vec::<Input<'static>, { crate::joint::strength::MAX_SHEETS }>::new();
        for (number, layer) in rows.stack.numbered_load_carrying() {
            let thickness = layer.thickness.nominal();
            let sheet = layer.material.map(|material| rows.practice.sheet(material, thickness));
            let Some(ftu) = sheet.and_then(|sheet| of_sheet(FTU, Property::TensionUltimate, &sheet)) else { return };
            let load = Quantity::new(Kind::RunningLoad, ftu.held() * thickness.to_inches_f64());
            let figures = [ftu, Input::given(THICKNESS, thickness)];
            let _ = sheets.push(work.step(&WITHOUT_HOLES, About::Layer(number), &figures, load));
        }
        let weaker = sheets.iter().map(Input::held).reduce(f64::min).unwrap_or(0.0);
        let weaker = work.step(&WEAKER_SHEET, About::Whole, &sheets, Quantity::new(Kind::RunningLoad, weaker));
        work.step(&SHARE_OF_SHEET, About::Whole, &[carries.called(CARRIES), weaker], Quantity::number(share));
    }
    if let (Some(margin), Some((load, factors, width))) = (tried.margin, load) {
        let running = running(load.force, width, work);
        let margins = (Some(margin), None);
        joint::margins_over(&OF_WIDTH, (load, running), factors, margins, (Some(carries.called(CARRIES)), None), work);
    }
}

fn running(force: Force, width: Length, work: &mut Working<'_>) -> Input<'static> {
    let figures = [Input::given(WHOLE_LOAD, force), Input::given(OVER_WIDTH, width)];
    let running = Quantity::new(Kind::RunningLoad, force.lbf() / width.to_inches_f64());
    work.step(&ON_WIDTH, About::Whole, &figures, running)
}

/// Shear with tension on one rivet of some rows.
pub fn of_combined(
    (loads, factors): (Loads, Factors),
    rivets_per_inch: f64,
    (shear, tested): (Allowable, Option<Allowable>),
    found: &Combined,
    work: &mut Working<'_>,
) {
    let kind = match loads.kind {
        crate::joint::margin::LoadKind::Limit => factors.safety.value,
        crate::joint::margin::LoadKind::Ultimate => 1.0,
    };
    let all = Quantity::number(kind * factors.fitting.map_or(1.0, |fitting| fitting.value));
    let basis = factors.fitting.map_or(factors.safety.basis, |fitting| factors.safety.basis.weaker(fitting.basis));
    let factor = Input::new(FACTORS, all, basis);
    let one = Input::new(ONE, shear.force, shear.basis);
    let running = Quantity::new(Kind::RunningLoad, loads.shear.lbf() * rivets_per_inch);
    let per = Input::given(PER_WIDTH, Quantity::new(Kind::PerUnit, rivets_per_inch));
    let on_one = work.step(&ON_ONE, About::Whole, &[Input::given(RUNNING, running), per], loads.shear);
    let figures = [on_one, factor, one];
    let in_shear = work.step(&TAKES_SHEAR, About::Whole, &figures, Quantity::number(found.shear));
    let (Some(tested), Some(tension), Some(margin)) = (tested, found.tension, found.margin) else { return };
    let figures = [Input::given(PULL, loads.tension), factor, Input::new(TESTED, tested.force, tested.basis)];
    let in_tension = work.step(&TAKES_PULL, About::Whole, &figures, Quantity::number(tension));
    work.step(&INTERACTION, About::Whole, &[in_shear, in_tension], Quantity::number(margin));
}

/// A patch, as [`patch`](crate::repair::patch::patch) found it.
pub fn of_patch((query, taper): (&PatchQuery<'_, '_>, Taper), found: &Patch, work: &mut Working<'_>) {
    opening(query, &found.opening, work);
    let case = Case::of(found.rivet.series().head, found.rivet.alloy(), found.rivet.size());
    if let Some(chosen) = found.chosen
        && let Some(times) = query.practice.fraction(Name::DiameterPerThicknessTarget, &case)
    {
        let (over, under) = times.value;
        let times = Input::new(TIMES, Quantity::number(f64::from(over) / f64::from(under)), times.basis);
        let thickest = Input::given(THICKEST, chosen.thickest);
        work.step(&DIAMETER, About::Whole, &[times, thickest], chosen.wanted);
    }
    // One rivet carries the same in whatever row.
    let single = LaidRows {
        rivet: found.rivet.without_length(),
        stack: &found.stack,
        edge: found.edge.value,
        pitch: found.pitch,
        rows: 1,
        apart: found.edge.value,
        staggered: false,
        shear: Shear::Single,
        practice: query.practice,
    };
    let diameter = Some(found.rivet.diameter());
    work.of(About::Named(BY_ITSELF));
    let one = one_of(&single, found.rate.by_strength.is_some(), work);
    work.of(About::Whole);
    let sheet = (query.material, query.thickness, query.practice);
    let counts = splice::counts(&found.rate, sheet, diameter, one, work);
    if let Some(count) = counts.laid(&found.rate) {
        pitch(query, found, &case, count.called(COUNT), work);
    }
    for (side, name, opening) in [(&found.across, "ends", ACROSS), (&found.along, "sides", ALONG)] {
        side_of(found, side, &counts, (name, opening), work);
    }
    let rows = LaidRows {
        rows: found.across.rows,
        pitch: found.pitch,
        apart: found.apart,
        staggered: found.pattern == Pattern::Staggered,
        ..single
    };
    work.of(About::Named(LAID_OUT));
    let carried = joint::one_rivet(&rows.question(), &found.row.strength.joint, work);
    let carries = joint::rows(&rows.question(), &found.row.strength, &carried, (None, None, None), work);
    work.of(About::Whole);
    if let (Some(carries), Some(share)) = (carries, found.share) {
        splice::develops(carries, sheet, share, work);
        shares::of_side((found, taper), carries, carried.allowable, work);
    }
    let edge = of_given(EDGE, found.edge);
    let spacing = Input::given(SPACING, found.apart);
    for (name, spread, rows, size) in [
        ("plate along the load", found.along.spread, found.across.rows, found.plate.along),
        ("plate across the load", found.across.spread, found.along.rows, found.plate.across),
    ] {
        let figures = [Input::given(SPREAD, spread), edge, Input::given(ROWS, Quantity::count(rows)), spacing];
        work.step(&PLATE_SIZE, About::Named(name), &figures, size);
    }
    mass(query, found, work);
}

/// What one rivet of a row of its own carries.
fn one_of(rows: &LaidRows<'_, '_>, counts: bool, work: &mut Working<'_>) -> Option<Input<'static>> {
    let question = rows.question().without_pitch();
    let found = question.strength().ok().filter(|_| counts)?;
    joint::one_rivet(&question, &found, work).allowable
}

fn opening(query: &PatchQuery<'_, '_>, found: &Opening, work: &mut Working<'_>) {
    let given = |along, across| (Input::given(DAMAGE_ALONG, along), Input::given(DAMAGE_ACROSS, across));
    match query.damage {
        SkinDamage::Hole { along, across } => {
            let (a, b) = given(along, across);
            let corner = Input::new(CORNER, CUT_RADIUS, Basis::FAA_31B_CUT_CORNER);
            let off = (0.20711 * a.held().min(b.held())).min(0.2929 * corner.held());
            let off = work.step(&STANDS_OFF, About::Whole, &[a, b, corner], length(off));
            work.step(&OPENING_ALONG, About::Whole, &[a, off, mark()], found.along);
            work.step(&OPENING_ACROSS, About::Whole, &[b, off, mark()], found.across);
        }
        SkinDamage::Crack { along, across } => {
            let (a, b) = given(along, across);
            let stop = Input::new(STOP, STOP_HOLE, Basis::AC43_STOP_HOLES);
            work.step(&CRACK_ALONG, About::Whole, &[a, stop], found.along);
            work.step(&CRACK_ACROSS, About::Whole, &[b, stop], found.across);
        }
        SkinDamage::Opening { .. } => {}
    }
}

fn pitch(query: &PatchQuery<'_, '_>, found: &Patch, case: &Case, count: Input<'static>, work: &mut Working<'_>) {
    let rows = Input::given(ROWS, Quantity::count(found.across.rows));
    let greatest = query.practice.length(Name::PitchGreatest, &case.in_rows(found.across.rows));
    let holds = rows.held() / count.held();
    let widest = match greatest {
        Some(greatest) => {
            let figures = [of_given(PITCH_MOST, greatest), rows, count];
            work.step(&WIDEST_LIMITED, About::Whole, &figures, length(holds.min(greatest.value.to_inches_f64())))
        }
        None => work.step(&WIDEST, About::Whole, &[rows, count], length(holds)),
    };
    // Only where less than a step lies between widest and least is it not to a mark.
    if found.pitch == found.pitch.floor_to(STEP) {
        work.step(&MARKED, About::Whole, &[widest, mark()], found.pitch);
    }
}

fn side_of(
    found: &Patch,
    side: &Side,
    counts: &Counts,
    (name, opening): (&'static str, super::Symbol),
    work: &mut Working<'_>,
) {
    work.of(About::Named(name));
    let width = Input::given(opening, side.width).called(WIDTH);
    if let Some(needed) = side.needed {
        counts.over(&found.rate, width, needed, work);
    }
    let pitch = Input::given(PITCH, found.pitch);
    let per_row = work.step(&OF_ROW, About::Whole, &[width, pitch], Quantity::count(side.per_row));
    let rows = Input::given(ROWS, Quantity::count(side.rows));
    let rule = if found.pattern == Pattern::Staggered { &OF_STAGGERED } else { &OF_SIDE };
    work.step(rule, About::Whole, &[per_row, rows], Quantity::count(side.counted));
    work.step(&OF_SPREAD, About::Whole, &[per_row, pitch], side.spread);
    work.of(About::Whole);
}

/// The mass of a plate; `None` where its density is not known.
fn weighed(
    plate: &Plate,
    name: &'static str,
    practice: &Practice<'_>,
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let (density, basis) = practice.sheet(plate.material, plate.thickness).density_lb_in3()?;
    let density = Quantity::new(Kind::Density, density);
    let figures = [
        Input::given(ALONG, plate.along),
        Input::given(ACROSS, plate.across),
        Input::given(RADIUS, plate.radius),
        Input::given(THICKNESS, plate.thickness),
        Input::new(DENSITY, density, basis),
    ];
    Some(work.step(&WEIGHED, About::Named(name), &figures, plate.mass?))
}

fn mass(query: &PatchQuery<'_, '_>, found: &Patch, work: &mut Working<'_>) {
    let Some(adds) = found.mass else { return };
    let Some(each) = besides::rivet_mass(&found.rivet, About::Named("rivet"), work) else { return };
    let none = |symbol| Input::given(symbol, Mass::ZERO);
    let Some(plate) = weighed(&found.plate, "plate", query.practice, work) else { return };
    let filler = found.filler.and_then(|filler| weighed(&filler, "filler", query.practice, work));
    let Opening { along, across, radius, stop_hole } = found.opening;
    let cut = Plate { radius, ..Plate::of(query.material, query.thickness, along, across, query.practice) };
    let cut = cut.weighed(query.practice);
    let cut = if stop_hole.is_none() { weighed(&cut, "skin that is cut out", query.practice, work) } else { None };
    let rivets = found.filler_holes().count().saturating_add(found.holes().count());
    let rivets = Quantity::count(u32::try_from(rivets).unwrap_or(u32::MAX));
    let figures = [
        plate,
        filler.map_or(none(FILLER_MASS), |filler| filler.called(FILLER_MASS)),
        Input::given(RIVETS, rivets),
        each.called(EACH),
        cut.map_or(none(CUT_MASS), |cut| cut.called(CUT_MASS)),
    ];
    work.step(&ADDED, About::Whole, &figures, adds);
}

/// A splice, as [`splice`](crate::repair::splice::splice) found it.
pub fn of_splice(query: &SpliceQuery<'_, '_>, found: &Splice, work: &mut Working<'_>) {
    for (leg, number) in found.legs.iter().zip(1_u8..) {
        work.of(About::Leg(number));
        leg_of(query, leg, work);
    }
    work.of(About::Whole);
    let longest = found.legs.iter().map(|leg| leg.half).max().unwrap_or(Length::ZERO);
    let gap = Input::given(GAP, query.gap);
    work.step(&OF_WHOLE, About::Whole, &[Input::given(LONGEST_HALF, longest), gap], found.length);
    splice_mass(query, found, work);
    if let Some(filler) = found.filler {
        let short = Input::new(FILLER_SHORT, crate::repair::splice::FILLER_ROOM, Basis::ARMY_0992_P84);
        work.step(&OF_FILLER, About::Whole, &[gap, short], filler);
    }
}

/// Plates and rivets, where all of it is known: bolts and end rivets are left to the shop.
fn splice_mass(query: &SpliceQuery<'_, '_>, found: &Splice, work: &mut Working<'_>) {
    let Some(mass) = found.mass(query) else { return };
    let mut parts = heapless::Vec::<Input<'static>, { 2 * crate::repair::splice::MAX_LEGS }>::new();
    for (leg, number) in found.legs.iter().zip(1_u8..) {
        let sheet = query.practice.sheet(query.material, leg.plate.1);
        let (Some(plate), Some((density, basis))) = (found.plate_mass(query, leg), sheet.density_lb_in3()) else {
            return;
        };
        let density = Quantity::new(Kind::Density, density);
        let figures = [
            Input::given(PLATE_WIDTH, leg.plate.0),
            Input::given(PLATE_THICKNESS, leg.plate.1),
            Input::given(HALF, leg.half),
            Input::given(GAP, query.gap),
            Input::new(DENSITY, density, basis),
        ];
        let about = About::Leg(number);
        let _ = parts.push(work.step(&LEG_PLATE_MASS, about, &figures, plate));
        let Some(each) = leg.rivet.and_then(|rivet| besides::rivet_mass(&rivet, about, work)) else { return };
        let count = Quantity::count(found.rivets_of(query, number));
        let all = Mass::from_lb(each.held() * count.number_in(crate::words::Units::Inches));
        let figures = [Input::given(RIVETS, count), each.called(EACH)];
        let _ = parts.push(work.step(&LEG_RIVET_MASS, about, &figures, all));
    }
    work.step(&SPLICE_MASS, About::Whole, &parts, mass);
}

fn leg_of(query: &SpliceQuery<'_, '_>, leg: &LegSplice, work: &mut Working<'_>) {
    let area = |in2: f64| Quantity::new(Kind::Area, in2);
    let (width, thickness) = (Input::given(LEG_WIDTH, leg.leg.width), Input::given(THICKNESS, leg.leg.thickness));
    let own = work.step(&LEG_AREA, About::Whole, &[width, thickness], area(leg.area_in2));
    let plate = [Input::given(PLATE_WIDTH, leg.plate.0), Input::given(PLATE_THICKNESS, leg.plate.1)];
    let plate = work.step(&OF_PLATE, About::Whole, &plate, area(leg.plate_area_in2));
    work.step(&PLATE_OVER, About::Whole, &[plate, own], Quantity::number(leg.plate_area_in2 / leg.area_in2));
    if leg.rivet.is_some() {
        work.step(&TWICE, About::Whole, &[thickness], leg.leg.thickness.times(2, 1));
        work.step(&THRICE, About::Whole, &[thickness], leg.leg.thickness.times(3, 1));
        work.step(&A_QUARTER, About::Whole, &[width], length(leg.leg.width.to_inches_f64() / 4.0));
    }
    let needed = match (&leg.rate, &leg.bolts, leg.rivet) {
        (Some(rate), _, Some(rivet)) => {
            let one = query.stack_of(&leg.leg, leg.plate.1).and_then(|stack| {
                let rows = LaidRows {
                    rivet: rivet.without_length(),
                    stack: &stack,
                    edge: leg.edge,
                    pitch: leg.pitch,
                    rows: 1,
                    apart: leg.pitch,
                    staggered: false,
                    shear: Shear::Single,
                    practice: query.practice,
                };
                one_of(&rows, rate.by_strength.is_some(), work)
            });
            let sheet = (query.material, leg.leg.thickness, query.practice);
            let counts = splice::counts(rate, sheet, Some(leg.diameter), one, work);
            counts.over(rate, width, leg.needed, work)
        }
        (_, Some(bolts), _) => {
            let (used, _) = splice::by_table(bolts, None, work);
            Some(splice::over_width(bolts, used, width, leg.needed, work))
        }
        _ => None,
    };
    let needed = needed.unwrap_or_else(|| Input::given(NEEDED, Quantity::count(leg.needed)));
    let lines = Input::given(LINES, Quantity::count(leg.lines));
    let ranks = work.step(&IN_A_LINE, About::Whole, &[needed, lines], Quantity::count(leg.ranks));
    let Some(least) = query.practice.length(Name::PitchLeast, &query.case_of(leg)) else { return };
    let edge = Input::new(EDGE, leg.edge, Basis::AS_GIVEN);
    let marked = least.value.ceil_to(STEP);
    let marked = work.step(&LEAST_MARKED, About::Whole, &[of_given(PITCH_LEAST, least), mark()], marked);
    let least_half = query.least_half(leg);
    let least_half = Input::new(HALF_LEAST, least_half.value, least_half.basis);
    let gaps = ranks.held() - 1.0;
    let own = (2.0 * edge.held() + gaps * marked.held()).max(least_half.held());
    let own = Length::try_from_inches_f64(own).unwrap_or(LONGEST).ceil_to(STEP);
    let half = work.step(&OF_HALF, About::Whole, &[edge, ranks, marked, least_half, mark()], own);
    // A frame's plate is one piece: as long as its longest leg asks for.
    let half = if query.spliced == Spliced::Frame { Input::given(HALF, leg.half) } else { half };
    if leg.ranks > 1 {
        work.step(&OVER_HALF, About::Whole, &[marked, half, edge, ranks, mark()], leg.pitch);
    }
    if leg.lines > 1 {
        let narrower = Input::given(NARROWER, leg.leg.width.min(leg.plate.0));
        work.step(&LINES_APART, About::Whole, &[narrower, edge, lines, mark()], leg.apart);
    }
}

/// The seam of one side of a panel, by its number counted from 1, as [`seam`](crate::repair::panel::seam) found it.
pub fn of_side(
    number: u16,
    length_of_side: Length,
    (factory, found): (&[LaidRows<'_, '_>], &CopiedSeam),
    work: &mut Working<'_>,
) {
    for ((rows, asked), seam) in factory.iter().zip(&found.factory).zip(1_u16..) {
        work.of(About::FactorySeam(number, seam));
        of_rows(rows, asked, work);
    }
    work.of(About::Numbered("side", number));
    let side = Input::given(SIDE, length_of_side);
    let (edge, pitch) = (Input::given(EDGE, found.edge), Input::given(PITCH, found.pitch));
    let per_row = work.step(&SIDE_ROW, About::Whole, &[side, edge, pitch], Quantity::count(found.per_row));
    work.step(&SIDE_FIRST, About::Whole, &[side, per_row, pitch], found.first);
    work.of(About::Whole);
}

/// A bend: the least radius, and the setback.
pub fn of_bend(
    degrees: f64,
    (radius, thickness): (Length, Length),
    limits: Option<Given<Interval>>,
    setback: Given<Length>,
    work: &mut Working<'_>,
) {
    let sheet = Input::given(THICKNESS, thickness);
    let mut used = Input::given(BEND_RADIUS, radius);
    if let Some(limits) = limits {
        let least = limits.value.min();
        let times = Quantity::number(least.to_inches_f64() / thickness.to_inches_f64());
        let least_radius =
            work.step(&LEAST_BEND, About::Whole, &[Input::new(HALVES, times, limits.basis), sheet], least);
        if radius == least {
            used = least_radius.called(BEND_RADIUS);
        }
    }
    let degrees = Input::given(DEGREES, Quantity::new(Kind::Degrees, degrees));
    work.step(&BEND_SETBACK, About::Whole, &[degrees, used, sheet], setback.value);
}

/// Rows through a stack: what they carry by themselves, the shares by each formula, and the margin of its worst place.
pub fn of_stack(
    (rows, found): (&LaidRows<'_, '_>, &InRow),
    (through, shared): (&StackRows<'_, '_>, &[(Formula, Layers)]),
    (load, factors, across): (Load, Factors, Length),
    work: &mut Working<'_>,
) {
    let question = rows.question();
    let carried = joint::one_rivet(&question, &found.strength.joint, work);
    joint::rows(&question, &found.strength, &carried, (None, None, None), work);
    let figures =
        [Input::given(WHOLE_LOAD, load.force), Input::given(OVER_WIDTH, across), Input::given(PITCH, through.pitch)];
    let whole = work.step(&ON_A_PITCH, About::Whole, &figures, through.load);
    for (formula, layers) in shared {
        let worst = found.weakest_place(layers);
        let place = worst.map(|worst| (worst.row, worst.place));
        let shown = shares::in_stack(through, (*formula, layers), (whole, place), work);
        let carries = place.and_then(|(_, place)| match place {
            FastenerPlace::Plane(_) => carried.shear,
            FastenerPlace::Plate(plate) => carried.bearings.get(usize::from(plate).checked_sub(1)?).copied().flatten(),
        });
        let (Some(worst), Some(shown), Some(carries)) = (worst, shown, carries) else { continue };
        work.of(About::Named(formula.as_str()));
        let size = shares::size(shown, worst.load, work);
        let load = Load { force: worst.load, ..load };
        if let Ok(margin) = margin(worst.carries, load, factors) {
            joint::margins_of(
                (load, size),
                factors,
                (Some(margin), None),
                (Some(carries.called(ONE_ALLOWABLE)), None),
                work,
            );
        }
        work.of(About::Whole);
    }
}
