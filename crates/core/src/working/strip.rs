//! A strip of rows that are counted one by one, step by step.

use super::joint::{self, Carried, OF_ONE, of_sheet};
use super::{About, Input, Kind, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::joint::hole_table;
use crate::joint::strip::{Hole, Pulled, StripSheet, WeakestLine, holes_of_line};
use crate::length::Length;
use crate::material::Property;
use crate::quantity::Force;
use crate::repair::strip::{CountedQuery, CountedStrip, RowOfStrip};

/// The most rows whose steps are shown.
const MOST: usize = crate::joint::strip::MAX_HOLES;

symbols! {
    FSU_RIVET = "Fsr", "shear strength of the rivet";
    PLANES = "n", "planes in which the rivet is sheared";
    HOLE = "H", "hole that is counted";
    SHEAR = "Ps", "shear of one rivet";
    FBR = "Fbr", "bearing strength";
    THICKNESS = "t", "thickness of the sheet";
    BEARING = "B", "bearing of one rivet in the weakest sheet";
    EDGE = "e", "edge distance in the direction of the load";
    FSU = "Fsu", "shear strength of the sheet";
    TEAR_OUT = "T", "tear-out behind one rivet";
    ONE = "Pr", "what one rivet of the row carries";
    COUNT = "k", "rivets of the row";
    ROW = "R", "what the row carries";
    ALL = "S", "what all rivets carry together";
    WIDTH = "W", "width of the strip";
    NET = "wn", "width that is left along the line";
    ALONG = "s", "from hole to hole along the load";
    ACROSS = "g", "from hole to hole across the load";
    BACK = "z", "width that a slanting leg gives back";
    BACK_ALL = "wz", "width that the slanting legs give back";
    AWAY = "wc", "width that the holes of the line cut away";
    FTU = "Ftu", "tension strength of the sheet";
    BEFORE = "Rb", "what the rows before the line have taken over";
    LINE = "N", "load on the strip at which the sheet parts along the line";
    GROSS = "G", "what the sheet carries without holes";
    WEAKEST = "Nl", "the weakest line";
    CARRIES = "P", "what the strip carries";
    EFFICIENCY = "E", "what the strip carries over what the weaker sheet does";
}

rules! { LIST:
    GIVEN_SHEAR = "strip-shear", "Shear of one rivet", SHEAR, "Fsr × n × π / 4 × H²";
    GIVEN_BEARING = "strip-bearing", "Bearing of one rivet in the thinnest sheet", BEARING, "Fbr × H × t";
    WEAKER_BEARING = "strip-bearing-weakest", "Bearing of one rivet in the weakest sheet", BEARING, "min(…)";
    TORN = "strip-tear-out", "Tear-out behind one rivet", TEAR_OUT, "2 × e × t × Fsu", TEAR_OUT;
    OF_ONE_RIVET = "strip-rivet", "What one rivet of the row carries: the least", ONE, "min(…)";
    OF_ROW = "strip-row", "What the row carries", ROW, "Pr × k";
    TOGETHER = "strip-rivets", "What all rivets carry together", ALL, "sum(…)", ROWS_OF_UNLIKE_RIVETS;
    STRAIGHT = "strip-net-width", "Width that is left along the straight line", NET, "max(0, W - k × H)";
    LEG_GIVES = "strip-leg", "Width that a slanting leg gives back", BACK, "s² / (4 × g)", ZIGZAG_NET_WIDTH;
    CUT_AWAY = "strip-cut", "Width that the holes of the line cut away", AWAY, "sum(…)";
    GIVEN_BACK = "strip-back", "Width that its legs give back", BACK_ALL, "sum(…)";
    SLANTING = "strip-net-width-zigzag", "Width that is left along the zigzag", NET, "max(0, W - wc + wz)", ZIGZAG_NET_WIDTH;
    GONE = "strip-before", "What the rows before the line have taken over", BEFORE, "sum(…)", ROWS_OF_UNEQUAL_NUMBER;
    PARTS = "strip-line", "Load at which the sheet parts along the line", LINE, "Ftu × t × wn + Rb";
    WITHOUT = "strip-gross", "The sheet without holes", GROSS, "Ftu × t × W";
    WEAKEST_LINE = "strip-line-weakest", "The weakest line", WEAKEST, "min(…)";
    STRIP = "strip", "What the strip carries: the lesser of rivets and sheet", CARRIES, "min(S, Nl)";
    OVER = "strip-efficiency", "What the strip carries over what the weaker sheet does", EFFICIENCY, "P / G";
}

/// What a strip carries, as [`counted`](crate::repair::strip::counted) found it.
pub fn of(query: &CountedQuery<'_, '_>, found: &CountedStrip, work: &mut Working<'_>) {
    let mut totals = heapless::Vec::<Option<Input<'static>>, MOST>::new();
    for (index, row) in found.rows.iter().enumerate() {
        let number = u16::try_from(index).unwrap_or(u16::MAX).saturating_add(1);
        work.of(About::Row(number));
        // As many as there are rows.
        let _ = totals.push(row_of(query, index, row, work));
    }
    work.of(About::Whole);
    let known = || totals.iter().copied().flatten();
    let all = found.all_rivets.map(|all| {
        let figures: heapless::Vec<Input<'static>, MOST> = known().collect();
        work.step(&TOGETHER, About::Whole, &figures, all)
    });
    let width = Input::given(WIDTH, query.width);
    let mut lines = heapless::Vec::<Input<'static>, MOST>::new();
    for (number, line) in found.lines().map_while(Result::ok) {
        let shown = line_of(query, found, (number, &line), (&totals, width), work);
        if let Some(shown) = shown {
            // More than there is room for are not looked at again.
            let _ = lines.push(shown);
        }
    }
    let (_, weakest) = &found.weakest;
    let weakest = work.step(&WEAKEST_LINE, About::Whole, &lines, weakest.load.force);
    let (Some(all), Some(carries)) = (all, found.carries) else { return };
    let carries = work.step(&STRIP, About::Whole, &[all, weakest], carries);
    if let Some((number, sheet)) = found.sheets.iter().min_by(|(_, one), (_, other)| {
        let gross = |sheet: &crate::joint::strip::StripSheet| sheet.ftu.0.psi() * sheet.thickness.to_inches_f64();
        gross(one).total_cmp(&gross(other))
    }) {
        let ftu = ftu_of(query, *number, sheet);
        let figures = [ftu, Input::given(THICKNESS, sheet.thickness), width];
        let gross = work.step(&WITHOUT, About::Layer(*number), &figures, found.gross);
        let efficiency = Quantity::number(carries.held() / gross.held());
        work.step(&OVER, About::Whole, &[carries, gross], efficiency);
    }
    if let (Some(margin), Some((load, factors))) = (found.margin, query.load) {
        let force = Input::given(super::joint::LOAD, load.force);
        joint::margins_over(&OF_ONE, (load, force), factors, (Some(margin), None), (Some(carries), None), work);
    }
}

/// Tension of a sheet: as given, or as the handbook guarantees it.
fn ftu_of(query: &CountedQuery<'_, '_>, number: u8, sheet: &crate::joint::strip::StripSheet) -> Input<'static> {
    let (ftu, basis) = sheet.ftu;
    let published = query.stack.numbered_load_carrying().find(|(of, _)| *of == number).and_then(|(_, layer)| {
        let known = query.practice.sheet(layer.material?, sheet.thickness);
        of_sheet(FTU, Property::TensionUltimate, &known)
    });
    published.filter(|_| query.given.ftu.is_none()).unwrap_or_else(|| Input::new(FTU, ftu, basis))
}

/// The hole that a row counts: as given, else the nominal one of its rivet, else its shank.
fn hole_of(query: &CountedQuery<'_, '_>, row: &RowOfStrip) -> Input<'static> {
    let nominal = hole_table::nominal_hole(row.row.rivet.diameter());
    match query.given.hole {
        Some(hole) => Input::given(HOLE, hole),
        None => Input::new(HOLE, row.hole, nominal.map_or(Basis::SHANK_COUNTS, |nominal| nominal.basis)),
    }
}

/// What one rivet of a row carries, and all of them.
fn row_of(
    query: &CountedQuery<'_, '_>,
    index: usize,
    row: &RowOfStrip,
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let given = &query.given;
    let hole = hole_of(query, row);
    let mut carried = Carried::default();
    if given.fbru.is_none() || given.rivet_fsu.is_none() {
        let question = query.question(&row.row);
        carried = question.strength().map(|found| joint::one_rivet(&question, &found, work)).unwrap_or_default();
    }
    let shear = match (given.rivet_fsu, row.shear) {
        (Some(fsu), Some(shear)) => {
            let planes = Input::given(PLANES, Quantity::count(query.shear.planes()));
            let figures = [Input::given(FSU_RIVET, fsu), planes, hole];
            Some(work.step(&GIVEN_SHEAR, About::Whole, &figures, shear.force))
        }
        _ => carried.shear,
    };
    let bearing = match (given.fbru, row.bearing) {
        (Some(fbru), Some(bearing)) => {
            let figures = [Input::given(FBR, fbru), hole, Input::given(THICKNESS, query.thinnest())];
            Some(work.step(&GIVEN_BEARING, About::Whole, &figures, bearing.force))
        }
        (None, Some(bearing)) => {
            let figures: heapless::Vec<Input<'static>, { crate::joint::strength::MAX_SHEETS }> =
                carried.bearings.iter().copied().flatten().collect();
            Some(work.step(&WEAKER_BEARING, About::Whole, &figures, bearing.force))
        }
        (_, None) => None,
    };
    let mut parts = heapless::Vec::<Input<'static>, { 2 + crate::joint::strength::MAX_SHEETS }>::new();
    let _ = parts.extend_from_slice(&[shear?, bearing?]);
    for (number, layer) in query.torn_at(index) {
        let thickness = layer.thickness.nominal();
        let published = || of_sheet(FSU, Property::ShearUltimate, &query.practice.sheet(layer.material?, thickness));
        let Some(fsu) = given.fsu.map(|fsu| Input::given(FSU, fsu)).or_else(published) else { continue };
        let edge = Input::given(EDGE, query.edge);
        let force = Force::from_lbf(2.0 * edge.held() * thickness.to_inches_f64() * fsu.held());
        let figures = [edge, Input::given(THICKNESS, thickness), fsu];
        let _ = parts.push(work.step(&TORN, About::Layer(number), &figures, force));
    }
    let one = work.step(&OF_ONE_RIVET, About::Whole, &parts, row.carries()?);
    let count = Input::given(COUNT, Quantity::count(row.row.count));
    let all = Force::from_lbf(one.held() * f64::from(row.row.count));
    Some(work.step(&OF_ROW, About::Whole, &[one, count], all))
}

/// The width that is left along a line from row to row: what its holes cut away, less what its slanting legs give back.
fn zigzag(
    query: &CountedQuery<'_, '_>,
    found: &CountedStrip,
    (sheet, line): (&StripSheet, &WeakestLine),
    (width, about): (Input<'static>, About),
    work: &mut Working<'_>,
) -> Input<'static> {
    let holes = holes_of_line(&found.holes, sheet, line.row);
    let mut cut = heapless::Vec::<Input<'static>, MOST>::new();
    let mut legs = heapless::Vec::<Input<'static>, MOST>::new();
    let mut before: Option<&Hole> = None;
    for hole in &holes {
        let of = found.rows.iter().find(|row| row.hole == hole.diameter);
        let figure = of.map_or_else(|| Input::given(HOLE, hole.diameter), |row| hole_of(query, row));
        let _ = cut.push(figure);
        let slant = before
            .map(|before| (hole.at.x.max(before.at.x).minus(hole.at.x.min(before.at.x)), hole.at.y.minus(before.at.y)));
        if let Some((s, g)) = slant.filter(|(s, _)| *s > Length::ZERO) {
            let figures = [Input::given(ALONG, s), Input::given(ACROSS, g)];
            let back = s.to_inches_f64() * s.to_inches_f64() / (4.0 * g.to_inches_f64());
            let _ = legs.push(work.step(&LEG_GIVES, about, &figures, Quantity::new(Kind::Length, back)));
        }
        before = Some(hole);
    }
    let sum = |list: &[Input<'static>]| Quantity::new(Kind::Length, list.iter().map(Input::held).sum());
    let away = work.step(&CUT_AWAY, about, &cut, sum(&cut));
    let back = work.step(&GIVEN_BACK, about, &legs, sum(&legs));
    work.step(&SLANTING, about, &[width, away, back], Quantity::new(Kind::Length, line.net_width))
}

/// The weakest line of a row in a sheet.
fn line_of(
    query: &CountedQuery<'_, '_>,
    found: &CountedStrip,
    (number, line): (u8, &WeakestLine),
    (totals, width): (&[Option<Input<'static>>], Input<'static>),
    work: &mut Working<'_>,
) -> Option<Input<'static>> {
    let (_, sheet) = found.sheets.iter().find(|(of, _)| *of == number)?;
    let first = found.row_of(line);
    let about = About::RowOfLayer(u16::try_from(first).unwrap_or(u16::MAX), number);
    let row = found.rows.get(first.checked_sub(1)?)?;
    let left = Quantity::new(Kind::Length, line.net_width);
    let net = if line.zigzag {
        zigzag(query, found, (sheet, line), (width, about), work)
    } else {
        let count = Input::given(COUNT, Quantity::count(line.holes));
        work.step(&STRAIGHT, about, &[width, count, hole_of(query, row)], left)
    };
    let is_before = |index: usize| match sheet.pulled {
        Pulled::AtFirst => index.saturating_add(1) < first,
        Pulled::AtLast => index.saturating_add(1) > first,
    };
    let gone = totals.iter().enumerate().filter(|(index, _)| is_before(*index)).filter_map(|(_, total)| *total);
    let gone: heapless::Vec<Input<'static>, MOST> = gone.collect();
    let before =
        if gone.is_empty() { Input::given(BEFORE, line.before) } else { work.step(&GONE, about, &gone, line.before) };
    let thickness = Input::given(THICKNESS, sheet.thickness);
    let figures = [ftu_of(query, number, sheet), thickness, net, before];
    Some(work.step(&PARTS, about, &figures, line.load.force))
}
