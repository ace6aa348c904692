//! `shophead repair panel`.

use shophead::layout::Point;
use shophead::length::Length;
use shophead::material::Material;
use shophead::practice::Entered;
use shophead::repair::in_row::LaidRows;
use shophead::repair::panel::{CopiedSeam, PanelSeamError, SideQuery, seam as copied};
use shophead::repair::patch::Plate;
use shophead::repair::told::Tell;
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::working;
use shophead_job::drawing::{Outline, RepairDrawing, Stroke, repair as draw};
use shophead_job::read::{FactorySeam, read_seams_from};
use shophead_job::repair::{Piece, PlacedRivet};

use super::answer::{FactoryAnswer, PanelAnswer, PanelSideAnswer, Repair, Which};
use super::{Sized, add, by, refused, rivets, sites};
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::PanelArgs;
use crate::report::{Block, Report};

const REPAIR: Which = Which::Panel;

/// One side with its seam.
struct Side<'s> {
    name: &'s str,
    length: Length,
    seam: CopiedSeam,
    rivet: Part<'static>,
}

pub(super) fn run<'a>(args: &PanelArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let text = context.inputs.read(&args.seams, "the factory seams")?;
    let own: Vec<Material> = context.practice.entered().into_iter().flat_map(Entered::materials).collect();
    let seams = read_seams_from(text.bytes, &text.name, context.bare, &own)?;
    let sites = sites(&args.site)?;
    let mut report = Report::new("repair", context);
    let mut names: Vec<&str> = Vec::new();
    for seam in &seams {
        if !names.contains(&seam.side.as_str()) {
            names.push(&seam.side);
        }
    }
    let mut sides = Vec::new();
    for name in names {
        let of_side: Vec<&FactorySeam> = seams.iter().filter(|seam| seam.side == name).collect();
        let length = of_side.iter().map(|seam| seam.length).max().unwrap_or_default();
        let factory: Vec<LaidRows<'_, '_>> = of_side.iter().map(|seam| rows(seam, &seam.stack, context)).collect();
        let query = SideQuery::new(length, &factory)
            .holes_changed(args.holes_changed)
            .load_paths(args.load_paths)
            .sites(&sites);
        let seam = match copied(&query) {
            Ok(seam) => seam,
            Err(PanelSeamError::Refused { site }) => {
                refused(REPAIR, site, &mut report, context);
                return Ok(report);
            }
            Err(error) => return Err(Stop::wrong(format_args!("side {name}: {error}"))),
        };
        report.find_all(context, name, &seam.findings);
        let rivet = seam.factory.get(seam.copied).or(seam.factory.first()).map(|asked| asked.rivet);
        let rivet = rivet.or(factory.first().map(|rows| rows.rivet));
        let Some(rivet) = rivet else { continue };
        sides.push(Side { name, length, seam, rivet });
    }
    answer_text(&sides, &mut report, context);
    report.work(context, |work| {
        for (side, number) in sides.iter().zip(1..) {
            let of_side = seams.iter().filter(|seam| seam.side == side.name);
            let factory: Vec<LaidRows<'_, '_>> = of_side.map(|seam| rows(seam, &seam.stack, context)).collect();
            working::repair::of_side(number, side.length, (&factory, &side.seam), work);
        }
    });
    let mut told = Tell::default();
    let mut parts = Vec::new();
    let mut places = Vec::new();
    for side in &sides {
        told.extend(&side.seam.told);
        parts.push((side.rivet, u32::try_from(side.seam.holes().count()).unwrap_or(u32::MAX)));
        places.extend(side.places(Point::default()));
    }
    let answer = PanelAnswer { sides: sides.iter().map(|side| side.answer(context)).collect() };
    let sized = Sized {
        rivets: rivets(parts, &args.out.spares)?,
        pieces: skin(args, &mut report, context)?.into_iter().collect(),
        others: Vec::new(),
        mass: None,
        told,
        drawing: drawing(&sides, context),
        places,
    };
    let answer = Repair { repair: REPAIR, panel: Some(answer), ..Repair::default() };
    sized.finish(answer, &args.out, &mut report, context)?;
    Ok(report)
}

/// The sheet that the new skin is cut from.
fn skin<'a>(args: &PanelArgs, report: &mut Report<'a>, context: &Context<'a>) -> Result<Option<Piece>, Stop> {
    let (Some(skin), Some(size)) = (&args.skin, &args.size) else { return Ok(None) };
    let (material, thickness) = input::sheet("--skin", skin, context.bare, context.practice)?;
    let (along, across) = by("--size", size, context.bare)?;
    let plate = Plate::of(material, thickness, along, across, context.practice);
    report.find(context, "new skin", &plate.not_weighed());
    let mass = plate.mass;
    Ok(Some(Piece { what: "new skin".to_owned(), material, thickness, along, across, count: 1, mass }))
}

fn rows<'s, 'a>(seam: &FactorySeam, stack: &'s Stack, context: &Context<'a>) -> LaidRows<'s, 'a> {
    LaidRows::new(seam.rivet, stack, seam.edge, seam.pitch)
        .rows(seam.rows)
        .apart(seam.apart)
        .staggered(seam.staggered)
        .practice(context.practice)
}

impl Side<'_> {
    /// Its rivets, moved by so much.
    fn places(&self, by: Point) -> Vec<PlacedRivet> {
        let (mut row, mut last) = (0, None);
        let mut places = Vec::new();
        for at in self.seam.holes() {
            if last != Some(at.y) {
                (row, last) = (row + 1, Some(at.y));
            }
            places.push(PlacedRivet {
                at: Point { x: add(at.x, by.x), y: add(at.y, by.y) },
                diameter: self.rivet.diameter(),
                part: self.name.to_owned(),
                row,
                counts: true,
            });
        }
        places
    }

    fn answer<'a>(&self, context: &Context<'a>) -> PanelSideAnswer<'a> {
        let seam = &self.seam;
        let factory = seam.factory.iter().map(|asked| FactoryAnswer {
            rivet: asked.rivet.to_string(),
            carries_per_inch: asked.strength.per_inch.map(|load| form::RunningLoad::of(load, context.practice)),
        });
        PanelSideAnswer {
            side: self.name.to_owned(),
            length: self.length.into(),
            copied: seam.copied + 1,
            differ: seam.differ,
            rivet: self.rivet.to_string(),
            rows: seam.rows,
            per_row: seam.per_row,
            rivets: u32::try_from(seam.holes().count()).unwrap_or(u32::MAX),
            pitch: seam.pitch.into(),
            row_spacing: seam.apart.into(),
            staggered: seam.staggered,
            edge: seam.edge.into(),
            first: seam.first.into(),
            factory: factory.collect(),
        }
    }
}

fn answer_text(sides: &[Side<'_>], report: &mut Report<'_>, context: &Context<'_>) {
    let units = context.units;
    let all: usize = sides.iter().map(|side| side.seam.holes().count()).sum();
    report.answer(format!("{} seams copied, {all} rivets", sides.len()));
    for side in sides {
        let seam = &side.seam;
        report.heading(&format!("{}, {} long", side.name, units.size(side.length)));
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        let rows = if seam.rows > 1 {
            let how = if seam.staggered { "staggered" } else { "in line" };
            format!("{} rows of {}, {how}, {} apart", seam.rows, seam.per_row, units.size(seam.apart))
        } else {
            format!("{} in a row", seam.per_row)
        };
        pair("rivet", format!("{}, {rows}", side.rivet));
        let (pitch, edge, first) = (units.size(seam.pitch), units.size(seam.edge), units.size(seam.first));
        pair("pitch", format!("{pitch}; edge {edge}; first rivet {first} from the end"));
        for (index, asked) in seam.factory.iter().enumerate() {
            let carries = asked.strength.per_inch.map_or_else(
                || "not published".to_owned(),
                |load| format!("{}{}", units.running_load(load.force), super::memory_mark(load.basis)),
            );
            let copied = if index == seam.copied && seam.factory.len() > 1 { "; copied" } else { "" };
            pair(
                &format!("factory seam {}", index + 1),
                format!("{}, {carries}{copied}", asked.rivet.without_length()),
            );
        }
        report.text.push(Block::Pairs(pairs));
    }
}

/// The seams one above the other, each as a strip of the new panel's edge.
fn drawing(sides: &[Side<'_>], context: &Context<'_>) -> String {
    let (mut outlines, mut places, mut up) = (Vec::new(), Vec::new(), Length::ZERO);
    for side in sides {
        let seam = &side.seam;
        let rows = seam.apart.checked_mul(i64::from(seam.rows.saturating_sub(1))).unwrap_or_default();
        let depth = add(add(seam.edge, seam.edge), rows);
        outlines.push(Outline {
            from: Point { x: Length::ZERO, y: up },
            to: Point { x: side.length, y: add(up, depth) },
            radius: Length::ZERO,
            line: Stroke::Heavy,
            name: side.name.to_owned(),
            above: true,
        });
        places.extend(side.places(Point { x: Length::ZERO, y: up }));
        up = add(add(up, depth), Length::INCH);
    }
    draw(&RepairDrawing {
        heading: "Seams of the new panel",
        told: &format!("{} rivets on {} sides", places.len(), sides.len()),
        outlines: &outlines,
        places: &places,
        dimensions: &[],
        axes: "Each strip is one edge of the panel, the edge itself below; x along it, y inwards.",
        units: context.units,
    })
}
