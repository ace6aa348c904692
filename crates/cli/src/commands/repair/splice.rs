//! `shophead repair splice`.

use shophead::layout::Point;
use shophead::length::{Bare, Length};
use shophead::repair::patch::density_not_known;
use shophead::repair::splice::{
    Leg, LegFastener, LegSplice, MemberError, Splice, SpliceHole, SpliceQuery, splice as sized,
};
use shophead::rivet::part::Part;
use shophead::working;
use shophead_job::drawing::{MarkedDistance, Outline, RepairDrawing, Stroke, repair as draw};
use shophead_job::repair::{Other, Piece, PlacedRivet};

use super::answer::{Area, LegAnswer, PlateBend, RateAnswer, Repair, SpliceAnswer, TableCount, Which, sheet};
use super::{Sized, add, by, half, minus, not_sized, rate_pairs, refused, rivets, sites};
use crate::context::Context;
use crate::exit::Stop;
use crate::input;
use crate::repair_args::MemberArgs;
use crate::report::{Block, Report};

const REPAIR: Which = Which::Splice;

pub(super) fn run<'a>(args: &MemberArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let bare = context.bare;
    let material =
        context.practice.material(&args.material).map_err(|error| input::wrong("--material", &args.material, error))?;
    let legs = args.legs.iter().map(|text| leg(text, bare)).collect::<Result<Vec<Leg>, Stop>>()?;
    let sites = sites(&args.site)?;
    let (spliced, shape) = (input::word("MEMBER", &args.spliced)?, input::word("--shape", &args.shape)?);
    let query = SpliceQuery::new(spliced, shape, material, &legs)
        .gap(input::optional_length("--gap", args.gap.as_deref(), bare)?.unwrap_or(Length::ZERO))
        .rivet(args.rivet.as_deref().map(|text| input::part("--rivet", text)).transpose()?)
        .skin_rivet(input::optional_length("--skin-rivet", args.skin_rivet.as_deref(), bare)?)
        .sites(&sites)
        .by(input::word("--by", &args.count.by)?)
        .practice(context.practice);
    let mut report = Report::new("repair", context);
    let found = match sized(&query) {
        Ok(found) => found,
        Err(MemberError::Refused { site }) => {
            refused(REPAIR, site, &mut report, context);
            return Ok(report);
        }
        Err(error @ (MemberError::NoCount { .. } | MemberError::NoLimits { .. })) => {
            let subject = material.to_string();
            not_sized(REPAIR, &subject, error.refusal(&material), &error.to_string(), &mut report, context);
            return Ok(report);
        }
        Err(error) => return Err(Stop::wrong(error)),
    };
    report.find_all(context, "splice", &found.findings);
    for (leg, number) in found.legs.iter().zip(1..) {
        report.find_all(context, &format!("leg {number}"), &leg.findings);
    }
    let places: Vec<PlacedRivet> = found.holes(query.gap).map(place).collect();
    text(&found, &query, &mut report, context);
    report.work(context, |work| working::repair::of_splice(&query, &found, work));

    let practice = context.practice;
    let answer = SpliceAnswer {
        member: query.spliced.into(),
        shape: query.shape.into(),
        material: material.to_string(),
        length: found.length.into(),
        filler: found.filler.map(Into::into),
        legs: found.legs.iter().map(|leg| leg_answer(leg, practice)).collect(),
    };
    let pieces = pieces(&found, &query);
    if pieces.iter().any(|piece| piece.mass.is_none()) {
        report.find(context, &material.to_string(), &Some(density_not_known(material)));
    }
    let (parts, others) = fasteners(&found, &places);
    let mass = found.mass(&query);
    let sized = Sized {
        rivets: rivets(parts, &args.out.spares)?,
        drawing: drawing(&found, &query, &places, context),
        told: found.told.clone(),
        places,
        pieces,
        others,
        mass,
    };
    let answer = Repair { repair: REPAIR, splice: Some(answer), ..Repair::default() };
    sized.finish(answer, &args.out, &mut report, context)?;
    Ok(report)
}

/// `.6x.040,skin=.032,plate=.5x.051,bolts`.
fn leg(text: &str, bare: Bare) -> Result<Leg, Stop> {
    let mut words = text.split(',');
    let (width, thickness) = by("--leg", words.next().unwrap_or_default(), bare)?;
    let mut leg = Leg::new(width, thickness);
    for word in words {
        let word = word.trim();
        if word == "bolts" {
            leg.held = LegFastener::Bolts;
        } else if let Some(skin) = word.strip_prefix("skin=") {
            leg.skin = Some(input::length("--leg", skin, bare)?);
        } else if let Some(plate) = word.strip_prefix("plate=") {
            leg.plate = Some(by("--leg", plate, bare)?);
        } else {
            let right = "right would be .6x.040,skin=.032,plate=.5x.051 or .6x.040,bolts";
            return Err(input::wrong("--leg", text, right));
        }
    }
    Ok(leg)
}

fn place(hole: SpliceHole) -> PlacedRivet {
    PlacedRivet { at: hole.at, diameter: hole.diameter, part: format!("leg {}", hole.leg), row: 1, counts: hole.counts }
}

fn leg_answer<'a>(leg: &LegSplice, practice: &shophead::practice::Practice<'a>) -> LegAnswer<'a> {
    LegAnswer {
        width: leg.leg.width.into(),
        thickness: leg.leg.thickness.into(),
        area: Area::of_in2(leg.area_in2),
        plate_width: leg.plate.0.into(),
        plate_thickness: leg.plate.1.into(),
        plate_area: Area::of_in2(leg.plate_area_in2),
        rivet: leg.rivet.map(|rivet| rivet.to_string()),
        diameter: leg.diameter.into(),
        rate: leg.rate.as_ref().map(|rate| RateAnswer::of(rate, practice)),
        bolts: leg.bolts.as_ref().map(|bolts| TableCount::of(bolts, practice)),
        needed: leg.needed,
        lines: leg.lines,
        ranks: leg.ranks,
        pitch: leg.pitch.into(),
        line_spacing: (leg.lines > 1).then(|| leg.apart.into()),
        edge: leg.edge.into(),
        half: leg.half.into(),
        end_rivet: leg.end_rivet.map(Into::into),
        bend: leg.bend.map(|(radius, setback)| PlateBend {
            radius_least: radius.min().into(),
            radius_most: radius.max().into(),
            setback: setback.into(),
        }),
    }
}

/// The plates, one a leg.
fn pieces(found: &Splice, query: &SpliceQuery<'_, '_>) -> Vec<Piece> {
    let piece = |(leg, number): (&LegSplice, u8)| {
        let both = leg.half.checked_mul(2).and_then(|both| both.checked_add(query.gap)).unwrap_or(leg.half);
        Piece {
            what: format!("plate of leg {number}"),
            material: query.material,
            thickness: leg.plate.1,
            along: both,
            across: leg.plate.0,
            count: 1,
            mass: found.plate_mass(query, leg),
        }
    };
    found.legs.iter().zip(1_u8..).map(piece).collect()
}

/// The rivets of every leg, end rivets in their own size, and what bolts there are.
fn fasteners(found: &Splice, places: &[PlacedRivet]) -> (Vec<(Part<'static>, u32)>, Vec<Other>) {
    let (mut parts, mut others) = (Vec::new(), Vec::new());
    for (leg, number) in found.legs.iter().zip(1_u8..) {
        let name = format!("leg {number}");
        let count = |counts: bool| {
            let of_leg = places.iter().filter(|place| place.part == name && place.counts == counts).count();
            u32::try_from(of_leg).unwrap_or(u32::MAX)
        };
        match leg.rivet {
            Some(rivet) => {
                parts.push((rivet, count(true)));
                if let Some(end) = leg.end_rivet {
                    let size = rivet.series().size_for_diameter(end);
                    let small = size.and_then(|size| rivet.without_length().in_size(size));
                    // A little shorter where its diameter is less: the shop picks it, by the pack of the leg.
                    others.push(Other {
                        what: small.map_or_else(|| "end rivet".to_owned(), |part| format!("{part} end rivet")),
                        count: count(false),
                    });
                }
            }
            None => others.push(Other { what: "AN3 bolt".to_owned(), count: count(true) }),
        }
    }
    (parts, others)
}

fn text<'a>(found: &Splice, query: &SpliceQuery<'_, '_>, report: &mut Report<'a>, context: &Context<'a>) {
    let units = context.units;
    let counts: Vec<String> = found.legs.iter().map(|leg| leg.needed.to_string()).collect();
    report.answer(format!(
        "{} {}   {} rivets each side of the cut, plate {} long",
        query.shape,
        query.spliced,
        counts.join(", "),
        units.size(found.length)
    ));
    for (leg, number) in found.legs.iter().zip(1..) {
        report.heading(&format!(
            "Leg {number}, {} wide, {}",
            units.size(leg.leg.width),
            sheet(query.material, leg.leg.thickness, units)
        ));
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        let what = leg.rivet.map_or_else(|| "AN3 bolt".to_owned(), |rivet| rivet.to_string());
        pair(
            "each side",
            format!(
                "{} of {what}: {} in {} line{}",
                leg.needed,
                leg.ranks,
                leg.lines,
                if leg.lines > 1 { "s" } else { "" }
            ),
        );
        let apart = if leg.lines > 1 { format!(", lines {} apart", units.size(leg.apart)) } else { String::new() };
        pair("pitch", format!("{}{apart}; edge {}", units.size(leg.pitch), units.size(leg.edge)));
        if let Some(end) = leg.end_rivet {
            pair("end rivets", format!("one more of {} at each end of a line; not counted", units.size(end)));
        }
        pair(
            "plate",
            format!(
                "{}, {} wide, {} each side of the cut; {:.0} % of the leg's area",
                sheet(query.material, leg.plate.1, units),
                units.size(leg.plate.0),
                units.size(leg.half),
                leg.plate_area_in2 / leg.area_in2 * 100.0
            ),
        );
        if let Some((radius, setback)) = leg.bend {
            pair("bent", format!("radius {}, setback {} at the least", units.interval(radius), units.length(setback)));
        }
        match (&leg.rate, &leg.bolts) {
            (Some(rate), _) => pairs.extend(rate_pairs(rate, context)),
            (None, Some(bolts)) => pairs.push((
                format!("table {}", bolts.table.as_str()),
                format!("{} bolts an inch; laid out", units.ratio(bolts.per_inch)),
            )),
            (None, None) => {}
        }
        report.text.push(Block::Pairs(pairs));
    }
    if let Some(filler) = found.filler {
        report.paragraph(format!("Filler between the ends: {}.", units.size(filler)));
    }
}

/// The section unfolded: the legs side by side, with their plates.
fn drawing(found: &Splice, query: &SpliceQuery<'_, '_>, places: &[PlacedRivet], context: &Context<'_>) -> String {
    let longest = half(found.length);
    let beyond = add(longest, Length::INCH);
    let (mut outlines, mut dimensions, mut side) = (Vec::new(), Vec::new(), Length::ZERO);
    for (leg, number) in found.legs.iter().zip(1_u8..) {
        let top = add(side, leg.leg.width);
        // The two ends of the member, and the gap between them.
        for (from, to) in [(minus(beyond), minus(half(query.gap))), (half(query.gap), beyond)] {
            outlines.push(Outline {
                from: Point { x: from, y: side },
                to: Point { x: to, y: top },
                radius: Length::ZERO,
                line: Stroke::Thin,
                name: String::new(),
                above: false,
            });
        }
        let reach = add(leg.half, half(query.gap));
        let spare = half(add(leg.leg.width, minus(leg.plate.0)));
        outlines.push(Outline {
            from: Point { x: minus(reach), y: add(side, spare) },
            to: Point { x: reach, y: add(top, minus(spare)) },
            radius: Length::ZERO,
            line: Stroke::Heavy,
            name: format!("leg {number}"),
            above: false,
        });
        dimensions.push(MarkedDistance {
            from: Point { x: minus(beyond), y: side },
            to: Point { x: minus(beyond), y: top },
            place: 1,
            name: "",
        });
        side = top;
    }
    let level = |from: Length, to: Length, place: u8, name: &'static str| MarkedDistance {
        from: Point { x: from, y: Length::ZERO },
        to: Point { x: to, y: Length::ZERO },
        place,
        name,
    };
    dimensions.push(level(minus(longest), longest, 2, ""));
    if let Some(leg) = found.legs.first() {
        let first = add(half(query.gap), leg.edge);
        dimensions.push(level(half(query.gap), first, 1, "edge"));
        if leg.ranks > 1 {
            // On the other side of the cut, where its name has room.
            let first = minus(first);
            dimensions.push(level(add(first, minus(leg.pitch)), first, 1, "pitch"));
        }
    }
    draw(&RepairDrawing {
        heading: &format!("Splice, {} {}", query.shape, query.spliced),
        told: &format!("{} fasteners; the section is unfolded, leg beside leg", places.len()),
        outlines: &outlines,
        places,
        dimensions: &dimensions,
        axes: "x to the right, along the member from the middle of the cut; y up, across the unfolded section from leg 1 on.",
        units: context.units,
    })
}
