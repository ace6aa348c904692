//! `shophead repair patch`.

use shophead::joint::flexibility::Formula;
use shophead::joint::sharing::Sharing;
use shophead::joint::strength::Shear;
use shophead::layout::Point;
use shophead::length::{Bare, Length};
use shophead::quantity::Force;
use shophead::repair::patch::{
    CUT_RADIUS, Patch, PatchError, PatchQuery, Plate, Side, SkinDamage, Style, Taper, patch as sized,
};
use shophead::working;
use shophead_job::drawing::{MarkedDistance, Outline, RepairDrawing, Stroke, repair as draw};
use shophead_job::repair::{Piece, PlacedRivet};
use shophead_job::words::row_mode;

use super::answer::{
    OpeningAnswer, PatchAnswer, PlateAnswer, RateAnswer, Repair, RowShareAnswer, RunOutAnswer, SharesAnswer,
    SideAnswer, SizeAnswer, Which, sheet,
};
use super::{Sized, add, by, check_places, given, half, minus, not_sized, rate_pairs, refused, rivets, sites};
use crate::commands::percent;
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::PatchArgs;
use crate::report::{Block, Report, Table};

const REPAIR: Which = Which::Patch;

pub(super) fn run<'a>(args: &PatchArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let bare = context.bare;
    let (material, thickness) = input::sheet("--sheet", &args.sheet, bare, context.practice)?;
    let sites = sites(&args.site)?;
    let plate = args.plate.as_deref().map(|text| input::sheet("--plate", text, bare, context.practice)).transpose()?;
    let query = PatchQuery::new(material, thickness, damage(args, bare)?)
        .style(input::word("--style", &args.style)?)
        .ways(input::word("--ways", &args.ways)?)
        .sites(&sites)
        .member(input::optional_length("--member", args.member.as_deref(), bare)?)
        .plate(plate)
        .rivet(args.rivet.as_deref().map(|text| input::part("--rivet", text)).transpose()?)
        .by(input::word("--by", &args.count.by)?)
        .pattern(input::word("--pattern", &args.pattern)?)
        .rows(args.rows)
        .edge(input::optional_length("--edge", args.edge.as_deref(), bare)?)
        .apart(input::optional_length("--row-spacing", args.row_spacing.as_deref(), bare)?)
        .practice(context.practice);
    let taper = taper(&args.taper, bare)?;
    let mut report = Report::new("repair", context);
    let found = match sized(&query) {
        Ok(found) => found,
        Err(PatchError::Refused { site }) => {
            refused(REPAIR, site, &mut report, context);
            return Ok(report);
        }
        Err(error @ (PatchError::NoCount { .. } | PatchError::NoLimits { .. })) => {
            let subject =
                if matches!(error, PatchError::NoLimits { .. }) { "practice".to_owned() } else { material.to_string() };
            not_sized(REPAIR, &subject, error.refusal(&material), &error.to_string(), &mut report, context);
            return Ok(report);
        }
        Err(error) => return Err(Stop::wrong(error)),
    };
    if let Taper::Feathered(thinned) | Taper::Stepped(thinned) = taper
        && thinned >= found.plate.thickness
    {
        let thickness = context.units.length(found.plate.thickness);
        return Err(input::wrong(
            "--taper",
            &args.taper,
            format_args!("the plate is {thickness}: it thins out to less"),
        ));
    }
    let subject = found.rivet.to_string();
    report.find_all(context, &subject, &found.findings);
    report.find(context, &subject, &found.row_over_ultimate(taper));
    let places = places(&found);
    check_places(&subject, &places, &found.rivet, &mut report, context);
    let shares = shares(&found, taper);
    let filler_rivets = u32::try_from(found.filler_holes().count()).unwrap_or(u32::MAX);
    text(&found, filler_rivets, &mut report, context);
    shares_text(&shares, taper, &mut report, context);
    report.work(context, |work| working::repair::of_patch((&query, taper), &found, work));

    let practice = context.practice;
    let carries = found.row.strength.per_inch;
    let answer = PatchAnswer {
        style: query.style.into(),
        opening: OpeningAnswer {
            along: found.opening.along.into(),
            across: found.opening.across.into(),
            radius: found.opening.radius.into(),
            stop_hole: found.opening.stop_hole.map(Into::into),
        },
        plate: PlateAnswer::of(&found.plate, practice),
        filler: found.filler.as_ref().map(|filler| PlateAnswer::of(filler, practice)),
        rivet: found.rivet.to_string(),
        size: found.chosen.as_ref().map(|chosen| SizeAnswer {
            thickest: chosen.thickest.into(),
            wanted: chosen.wanted.into(),
            smaller: chosen.smaller.map(|smaller| smaller.to_string()),
        }),
        rivets: found.rivets(),
        filler_rivets,
        rate: RateAnswer::of(&found.rate, practice),
        across: side(&found.across),
        along: side(&found.along),
        edge: form::GivenLength::of(found.edge, practice),
        pitch: found.pitch.into(),
        row_spacing: found.apart.into(),
        run_out: RunOutAnswer { along: found.run_out().0.into(), across: found.run_out().1.into() },
        least_pitch: form::GivenLength::of(found.least_pitch, practice),
        pattern: found.pattern.into(),
        carries_per_inch: carries.map(|load| form::RunningLoad::of(load, practice)),
        governing: found.row.strength.governing.map(|governing| governing.mode.into()),
        share: found.share,
        taper: taper.into(),
        shares: shares.iter().map(|shares| shares.form(practice)).collect(),
    };
    let sized = Sized {
        rivets: rivets(vec![(found.rivet, found.rivets() + filler_rivets)], &args.out.spares)?,
        pieces: pieces(&found, query.style),
        others: Vec::new(),
        mass: found.mass,
        drawing: drawing(&found, &places, context),
        told: found.told.clone(),
        places,
    };
    let answer = Repair { repair: REPAIR, patch: Some(answer), ..Repair::default() };
    sized.finish(answer, &args.out, &mut report, context)?;
    Ok(report)
}

fn damage(args: &PatchArgs, bare: Bare) -> Result<SkinDamage, Stop> {
    if let Some(text) = &args.hole {
        let (along, across) = by("--hole", text, bare)?;
        return Ok(SkinDamage::Hole { along, across });
    }
    if let Some(text) = &args.opening {
        let (along, across) = by("--opening", text, bare)?;
        let radius = input::optional_length("--radius", args.radius.as_deref(), bare)?.unwrap_or(CUT_RADIUS);
        return Ok(SkinDamage::Opening { along, across, radius });
    }
    let length = input::length("--crack", args.crack.as_deref().unwrap_or_default(), bare)?;
    match args.runs.trim() {
        "across" => Ok(SkinDamage::Crack { along: Length::ZERO, across: length }),
        "along" => Ok(SkinDamage::Crack { along: length, across: Length::ZERO }),
        other => Err(input::wrong("--runs", other, "a crack runs across or along the load; right would be across")),
    }
}

fn taper(text: &str, bare: Bare) -> Result<Taper, Stop> {
    let (word, thickness) = text.split_once(':').map_or((text, None), |(word, thickness)| (word, Some(thickness)));
    let thickness = thickness.map(|text| input::length("--taper", text, bare)).transpose()?;
    match (word.trim(), thickness) {
        ("plain", None) => Ok(Taper::Plain),
        ("feathered", Some(thickness)) => Ok(Taper::Feathered(thickness)),
        ("stepped", Some(thickness)) => Ok(Taper::Stepped(thickness)),
        _ => Err(input::wrong("--taper", text, "right would be plain, feathered:.016 or stepped:.020")),
    }
}

fn side(side: &Side) -> SideAnswer {
    SideAnswer {
        width: side.width.into(),
        spread: side.spread.into(),
        needed: side.needed,
        rows: side.rows,
        per_row: side.per_row,
        counted: side.counted,
    }
}

/// The rivets of the patch, then those of its filler.
fn places(found: &Patch) -> Vec<PlacedRivet> {
    let diameter = found.rivet.diameter();
    let half_along = found.along.spread;
    let mut places: Vec<PlacedRivet> = found
        .holes()
        .map(|hole| {
            // At an end of the opening, beside it, or at a corner.
            let beyond = |at: Length, spread: Length| at.nanometres().abs() * 2 > spread.nanometres();
            let part = match (beyond(hole.at.x, half_along), beyond(hole.at.y, found.across.spread)) {
                (true, true) => "corner",
                (true, false) => "end",
                _ => "side",
            };
            PlacedRivet { at: hole.at, diameter, part: part.to_owned(), row: u32::from(hole.row), counts: hole.counts }
        })
        .collect();
    let filler = |at: Point| PlacedRivet { at, diameter, part: "filler".to_owned(), row: 1, counts: false };
    places.extend(found.filler_holes().map(filler));
    places
}

fn pieces(found: &Patch, style: Style) -> Vec<Piece> {
    let piece = |what: &str, plate: &Plate| Piece {
        what: what.to_owned(),
        material: plate.material,
        thickness: plate.thickness,
        along: plate.along,
        across: plate.across,
        count: 1,
        mass: plate.mass,
    };
    let what = if style == Style::Lap { "patch" } else { "doubler" };
    let filler = found.filler.as_ref().map(|filler| piece("filler", filler));
    std::iter::once(piece(what, &found.plate)).chain(filler).collect()
}

/// How the rows share, by one formula.
struct Shares {
    formula: Formula,
    plain: Sharing,
    tapered: Option<Sharing>,
}

impl Shares {
    fn form<'a>(&self, practice: &shophead::practice::Practice<'a>) -> SharesAnswer<'a> {
        let rows = |sharing: &Sharing| {
            let row = |row: shophead::joint::sharing::RowShare| RowShareAnswer {
                share: row.share,
                bearing_bypass: row.in_a.bearing_bypass(),
            };
            sharing.rows().map(row).collect()
        };
        SharesAnswer {
            formula: self.formula.into(),
            plain: rows(&self.plain),
            tapered: self.tapered.as_ref().map(rows),
            basis: form::Basis::of(self.plain.basis.weaker(self.formula.basis()), practice),
        }
    }
}

fn shares(found: &Patch, taper: Taper) -> Vec<Shares> {
    if found.across.rows < 2 {
        return Vec::new();
    }
    // The shares of one pound are the shares of any load.
    let of = |formula, taper| found.shares(Force::from_lbf(1.0), formula, taper).ok();
    let one = |formula| {
        let plain = of(formula, Taper::Plain)?;
        let tapered = if taper == Taper::Plain { None } else { of(formula, taper) };
        Some(Shares { formula, plain, tapered })
    };
    Formula::for_rivets(Shear::Single).filter_map(one).collect()
}

fn shares_text(shares: &[Shares], taper: Taper, report: &mut Report<'_>, context: &Context<'_>) {
    if shares.is_empty() {
        return;
    }
    for shares in shares {
        report.heading(&format!("How the rows share the load by {}, the outermost first", shares.formula.as_str()));
        let mut columns = vec!["row", "share", "bearing/bypass"];
        if shares.tapered.is_some() {
            columns.extend(["thinned out", "bearing/bypass"]);
        }
        let cells = |sharing: &Sharing, row: usize| -> [String; 2] {
            let Some(row) = sharing.row(row) else { return Default::default() };
            let ratio = row.in_a.bearing_bypass().map_or_else(|| "-".to_owned(), |ratio| format!("{ratio:.2}"));
            [format!("{:.0} %", row.share * 100.0), ratio]
        };
        let rows = (0..shares.plain.rows().len()).map(|row| {
            let tapered = shares.tapered.as_ref().map(|sharing| cells(sharing, row));
            std::iter::once((row + 1).to_string())
                .chain(cells(&shares.plain, row))
                .chain(tapered.into_iter().flatten())
                .collect()
        });
        let rows = rows.collect();
        report.text.push(Block::Table(Table { columns, rows }));
    }
    if let Taper::Feathered(thickness) | Taper::Stepped(thickness) = taper {
        let how = if matches!(taper, Taper::Stepped(_)) { "stepped" } else { "feathered" };
        report.paragraph(format!(
            "Thinned out: {how}, {} at the outermost row. The rest of it sets in at the next row.",
            context.units.length(thickness)
        ));
    }
    report.paragraph(
        "Elastic shares. Bearing/bypass is what a row's rivets put into the skin over what the skin carries past them: the higher, the \
         sooner the row cracks, all else alike. No life follows from it: fatigue is for the type's data.",
    );
}

fn text<'a>(found: &Patch, filler_rivets: u32, report: &mut Report<'a>, context: &Context<'a>) {
    let units = context.units;
    let size = |plate: &Plate| format!("{} by {}", units.size(plate.along), units.size(plate.across));
    let all = found.rivets() + filler_rivets;
    report.answer(format!(
        "{}   {} by {}, {all} {}",
        found.rivet,
        units.size(found.plate.along),
        units.size(found.plate.across),
        if all == 1 { "rivet" } else { "rivets" }
    ));
    let mut pairs = Vec::new();
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    let opening = &found.opening;
    match opening.stop_hole {
        Some(hole) => pair(
            "crack",
            format!(
                "stop drill {}; {} by {} with its stop holes",
                units.size(hole),
                units.size(opening.along),
                units.size(opening.across)
            ),
        ),
        None => pair(
            "opening",
            format!(
                "{} by {}, corners {}",
                units.size(opening.along),
                units.size(opening.across),
                units.size(opening.radius)
            ),
        ),
    }
    let plate = &found.plate;
    let basis = plate.basis.map_or_else(String::new, |basis| format!(" ({})", context.practice.cite(basis)));
    pair(
        "patch",
        format!(
            "{}, {}, corners {}{basis}",
            sheet(plate.material, plate.thickness, units),
            size(plate),
            units.size(plate.radius)
        ),
    );
    if let Some(filler) = &found.filler {
        pair(
            "filler",
            format!("{}, {}, {filler_rivets} rivets", sheet(filler.material, filler.thickness, units), size(filler)),
        );
    }
    let side = |side: &Side| match side.needed {
        Some(needed) => format!(
            "{needed} needed over {}; {} rows of {}, {} count",
            units.size(side.width),
            side.rows,
            side.per_row,
            side.counted
        ),
        None => format!("{} row of {}, to hold it down", side.rows, side.per_row),
    };
    pair("at each end", side(&found.across));
    pair("at each side", side(&found.along));
    if let Some(chosen) = &found.chosen {
        let smaller = chosen.smaller.map_or_else(String::new, |smaller| {
            let times = smaller.diameter().to_inches_f64() / chosen.thickest.to_inches_f64();
            let size = units.size(smaller.diameter());
            format!(
                ". The next smaller, {size}, is {times:.2} times: take it with --rivet where the rows beside have it"
            )
        });
        let (thickest, wanted) = (units.length(chosen.thickest), units.length(chosen.wanted));
        let times = units.ratio(chosen.wanted.to_inches_f64() / chosen.thickest.to_inches_f64());
        pair("size", format!("{times} times {thickest} is {wanted}: {}{smaller}", units.size(found.rivet.diameter())));
    }
    pair("pitch", format!("{}, {}; rows {} apart", units.size(found.pitch), found.pattern, units.size(found.apart)));
    pair("edge", given(found.edge, context));
    let (along, across) = found.run_out();
    let run_out = if along == across {
        format!("{} beyond the opening all round", units.size(along))
    } else {
        format!("{} beyond the opening at each end, {} at each side", units.size(along), units.size(across))
    };
    pairs.push(("run-out".to_owned(), run_out));
    pairs.extend(rate_pairs(&found.rate, context));
    if let (Some(share), Some(governing)) = (found.share, found.row.strength.governing) {
        pairs.push((
            "a side keeps".to_owned(),
            format!("{} of the sheet; then {}", percent(share), row_mode(governing.mode)),
        ));
    }
    report.text.push(Block::Pairs(pairs));
}

fn drawing(found: &Patch, places: &[PlacedRivet], context: &Context<'_>) -> String {
    let rectangle = |along: Length, across: Length, radius: Length, line: Stroke, name: String| Outline {
        from: Point { x: minus(half(along)), y: minus(half(across)) },
        to: Point { x: half(along), y: half(across) },
        radius,
        line,
        name,
        above: false,
    };
    let (plate, opening) = (&found.plate, &found.opening);
    let units = context.units;
    let outlines = [
        rectangle(
            plate.along,
            plate.across,
            plate.radius,
            Stroke::Heavy,
            sheet(plate.material, plate.thickness, units),
        ),
        rectangle(
            opening.along,
            opening.across,
            opening.radius,
            if found.filler.is_some() { Stroke::Middle } else { Stroke::Dashed },
            String::new(),
        ),
    ];
    let level = |from: Length, to: Length, y: Length, place: u8, name: &'static str| MarkedDistance {
        from: Point { x: from, y },
        to: Point { x: to, y },
        place,
        name,
    };
    let upright = |from: Length, to: Length, x: Length, place: u8, name: &'static str| MarkedDistance {
        from: Point { x, y: from },
        to: Point { x, y: to },
        place,
        name,
    };
    let (right, top) = (half(plate.along), half(plate.across));
    let (left, bottom) = (minus(right), minus(top));
    let mut dimensions = vec![
        level(left, right, bottom, 3, ""),
        level(minus(half(opening.along)), half(opening.along), bottom, 2, "opening"),
        level(left, add(left, found.edge.value), bottom, 1, "edge"),
        upright(bottom, top, left, 3, ""),
        upright(minus(half(opening.across)), half(opening.across), left, 2, "opening"),
        upright(bottom, add(bottom, found.edge.value), left, 1, "edge"),
    ];
    if found.across.rows > 1 {
        let outer = add(right, minus(found.edge.value));
        dimensions.push(level(add(outer, minus(found.apart)), outer, bottom, 1, "rows"));
    }
    draw(&RepairDrawing {
        heading: &format!("Patch, {}", found.rivet),
        told: &format!("{} rivets at {}, {}", places.len(), units.size(found.pitch), found.pattern),
        outlines: &outlines,
        places,
        dimensions: &dimensions,
        axes: "x to the right, along the load; y up, across it; both from the middle of the opening.",
        units,
    })
}
