//! `shophead group`.

use std::collections::HashMap;
use std::fmt;
use std::path::Path;

use shophead::finding::{Finding, Findings};
use shophead::installation::Installation;
use shophead::joint::group::{Group, GroupRivet, PlaneLoad, Sides, Vector, share};
use shophead::joint::margin::{Factors, Load, Margin, margin, yield_margin};
use shophead::joint::strength::{Allowable, JointStrength, Mode};
use shophead::layout::{Point, RowLayout, closest_sorted};
use shophead::length::{Length, Toleranced};
use shophead::practice::{Case, Given, Practice};
use shophead::quantity::Force;
use shophead::rivet::Series;
use shophead::rivet::part::Part;
use shophead::working::joint::Carried;
use shophead::working::{self, Working};
use shophead_job::drawing::{self, GroupDrawing};
use shophead_job::read::{GroupPoint, read_group_from};
use shophead_job::words;

use super::{factors, load_kind, memory_mark};
use crate::args::{Format, GroupArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Record, Report, Table};
use crate::{form, input};

impl<'a> cells::Answer<'a> for Answer {
    type Args = GroupArgs;
    const COMMAND: &'static str = "group";

    fn ask<R>(args: &GroupArgs, context: &Context<'a>, then: impl FnOnce(&Answer) -> R) -> Result<R, Stop> {
        let bare = context.bare;
        let rivet = input::part("--rivet", &args.rivet)?.without_length();
        let stack = input::layers("--sheets", &args.sheets, None, bare, context.practice)?;
        let (x, y) = input::force_pair("--load", &args.load, bare)?;
        let at = input::point("--at", &args.at, bare)?;
        let moment = args.moment.as_deref().map(|text| input::moment("--moment", text, bare)).transpose()?;
        let load = PlaneLoad::new(x, y, at, load_kind(&args.factors)).moment_in_lbf(moment.unwrap_or(0.0));
        let factors = factors(&args.factors);
        let edge = input::optional_length("--edge", args.edge.as_deref(), bare)?;
        let hole = args.hole.as_deref().map(|text| input::hole_diameter("--hole", text, bare)).transpose()?;
        let points = points(&args.points, rivet.series(), context)?;

        let at_points: Vec<Point> = points.iter().map(|point| point.at).collect();
        let closest = closest_sorted(&at_points, &mut vec![0; at_points.len()], &[]).pair;
        let facts = Facts {
            stack: Some(stack),
            layout: RowLayout::default().pitch(closest.map(|(_, _, distance)| distance)),
            shear: args.shear.shear(),
            driven: Facts::driven(&rivet, args.driven.as_deref())?,
            ..Facts::of(rivet, &args.place, context)?
        };
        let question = facts.question(context.practice);
        let rivets: Vec<Part<'static>> =
            points.iter().map(|point| point.size.and_then(|size| rivet.in_size(size)).unwrap_or(rivet)).collect();
        let mut members: Vec<GroupRivet> =
            points.iter().zip(&rivets).map(|(point, part)| GroupRivet::by_area(point.at, part.diameter())).collect();
        refuse_overlap(&points, &rivets, closest, &question, hole)?;
        // Which edge counts depends on where a rivet's load points; the shares do not depend on the strengths.
        let loads: Vec<Vector> = {
            let shares = share(&members, load, None).map_err(Stop::wrong)?;
            members.iter().map(|member| shares.share(member).total()).collect()
        };
        // One strength for all rivets that are alike, in the order of the file.
        let mut sizes: Vec<Size> = Vec::new();
        let mut known_sizes = HashMap::new();
        for (index, ((point, part), load)) in points.iter().zip(&rivets).zip(&loads).enumerate() {
            let hole = point.hole.or(hole);
            let question = of_size(&question, *part, hole);
            let known = point.edge.or(edge);
            let given = known.is_some() || point.sides.iter().any(Option::is_some);
            let least = known.map_or_else(|| super::edge(&question, context).map(|edge| edge.value), Ok)?;
            let [left, right, below, above] = point.sides.map(|side| side.unwrap_or(least));
            let sides = Sides::all(left).right(right).below(below).above(above);
            let question = if given { question.edge(sides.nearest()) } else { question };
            // Of a nearest edge alone nobody knows on which side it is.
            let by_side = point.sides.iter().any(Option::is_some);
            let in_load = if by_side { sides.along(*load) } else { sides.nearest() };
            let alike = (*part, hole, sides.nearest(), in_load);
            let size = match known_sizes.get(&(part.diameter(), hole, alike.2, alike.3)) {
                Some(known) => *known,
                None => {
                    let edge = super::edge(&question, context)?;
                    let found = question.edge_in_load(alike.3).strength().map_err(Stop::wrong)?;
                    sizes.push(Size { alike, edge, given, found, rivets: Vec::new() });
                    known_sizes.insert((part.diameter(), hole, alike.2, alike.3), sizes.len() - 1);
                    sizes.len() - 1
                }
            };
            if let (Some(size), Some(member)) = (sizes.get_mut(size), members.get_mut(index)) {
                size.rivets.push(index);
                (member.allowable, member.yields) = (size.found.allowable, size.found.yield_load());
            }
        }
        let judged = {
            let mut group = share(&members, load, Some(factors)).map_err(Stop::wrong)?;
            let unknown = sizes.iter().filter(|size| size.found.allowable.is_none());
            if let Some(key) = unknown.flat_map(|size| size.found.findings.iter()).find_map(Finding::key) {
                group.lacks(key);
            }
            let worst = group.worst.map_or(group.most_loaded, |worst| worst.rivet);
            Judged {
                worst,
                load: loads.get(worst).map_or(Force::ZERO, |load| load.size()),
                margin: group.worst.map(|worst| worst.margin),
                yield_margin: group.worst_yield.map(|worst| worst.margin),
                findings: group.findings.clone(),
            }
        };
        let case = facts.question(context.practice).case();
        Ok(then(&Answer { facts, case, rivets, members, load, moment, factors, sizes, closest, judged }))
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        for size in &self.sizes {
            finds.all(&Subject { size, alone: self.sizes.len() == 1 }, &size.found.findings);
        }
        finds.all(&"group", &self.judged.findings);
    }

    /// The group in one row: the rivet that governs.
    fn cells(&self, cells: &mut impl Cells) {
        let Judged { worst, load, margin, yield_margin, .. } = self.judged;
        let member = self.members.get(worst);
        let size = self.sizes.iter().find(|size| size.rivets.contains(&worst));
        cells.parts("rivet", Some(self.facts.rivet)).text("rivets", self.members.len());
        cells.text("worst", worst + 1);
        cells.length("worst_x", member.map(|member| member.at.x)).length("worst_y", member.map(|member| member.at.y));
        cells.force("load", load).force("factored_load", margin.map(|margin| margin.factored_load));
        cells.force("allowable", member.and_then(|member| member.allowable).map(|known| known.force));
        cells.optional("governing", size.and_then(Size::governing));
        cells.length("edge_in_load", size.map(|size| size.alike.3));
        cells.ratio("margin", margin.map(|margin| margin.value));
        cells.force("yield", member.and_then(|member| member.yields).map(|known| known.force));
        cells.ratio("yield_margin", yield_margin.map(|margin| margin.value));
        cells.length("closest", self.closest.map(|(_, _, distance)| distance));
    }

    fn case(&self) -> &Case {
        &self.case
    }

    fn tell(&self, _: &GroupArgs, context: &Context<'a>, report: &mut Report<'a>) {
        // It was answered before.
        let Ok(group) = share(&self.members, self.load, Some(self.factors)) else { return };
        let divided = Divided { answer: self, group: &group };
        if context.format == Format::Json {
            report.give(divided.form(context.practice));
        } else {
            divided.text(report, context);
        }
        report.work(context, |work| {
            let question = self.facts.question(context.practice);
            let mut carries = |index: usize, work: &mut Working<'_>| {
                let Some(size) = self.sizes.iter().find(|size| size.rivets.contains(&index)) else {
                    return Carried::default();
                };
                let (part, hole, nearest, in_load) = size.alike;
                let question = of_size(&question, part, hole);
                let question = if size.given { question.edge(nearest) } else { question };
                working::joint::one_rivet(&question.edge_in_load(in_load), &size.found, work)
            };
            working::group::of(&group, &self.load, &mut carries, work);
        });
        if context.format == Format::Svg {
            let diameters: Vec<Length> = self.rivets.iter().map(Part::diameter).collect();
            report.drawing = Some(drawing::group(&GroupDrawing {
                rivets: &self.members,
                diameters: &diameters,
                group: &group,
                load: self.load,
                name: &self.facts.rivet.to_string(),
                units: context.units,
            }));
        }
    }

    /// One row for each rivet.
    fn rows(&self, context: &Context<'a>, report: &mut Report<'a>) {
        if let Ok(group) = share(&self.members, self.load, Some(self.factors)) {
            Divided { answer: self, group: &group }.records(report, context);
        }
    }
}

/// The rivets: a list, or the file that has them.
fn points(given: &Path, series: &'static Series<'static>, context: &Context<'_>) -> Result<Vec<GroupPoint>, Stop> {
    const NAME: &str = "points";
    if let Some(list) = given.to_str().filter(|text| input::is_list_of_points(text)) {
        return input::points(NAME, list, series, context.bare);
    }
    let Some(folder) = context.rows_in else {
        let text = context.inputs.read(given, "the points")?;
        return Ok(read_group_from(text.bytes, &text.name, series, context.bare)?);
    };
    // A row of a batch has room for one sentence.
    let text = match context.inputs.read(&folder.join(given), "the points") {
        Ok(text) => text,
        Err(Stop::Failed(told)) => return Err(Stop::wrong(format_args!("{NAME}: {told}"))),
        Err(other) => return Err(other),
    };
    read_group_from(text.bytes, &text.name, series, context.bare)
        .map_err(|error| Stop::wrong(format_args!("{NAME}: {}", error.to_string().lines().next().unwrap_or_default())))
}

/// The question about a rivet of this size in this hole.
fn of_size<'q, 'a>(question: &Installation<'q, 'a>, part: Part<'static>, hole: Option<Length>) -> Installation<'q, 'a> {
    let question = question.with_rivet(part);
    hole.map_or(question, |hole| question.in_hole(Toleranced::exactly(hole)))
}

/// Rivets that are alike.
struct Size {
    /// The rivet, its hole, the nearest edge and that in the direction of the load.
    alike: (Part<'static>, Option<Length>, Length, Length),
    edge: Given<Length>,
    given: bool,
    found: JointStrength,
    /// Which they are, counted from 0.
    rivets: Vec<usize>,
}

impl Size {
    /// What fails first, where anything is known to.
    fn governing(&self) -> Option<Mode> {
        self.found.governing.filter(|_| self.found.allowable.is_some()).map(|found| found.mode)
    }
}

/// What the strength of some rivets is about: `MS20470AD4, rivets 1, 2, 5`, or the part alone where all are alike.
struct Subject<'s> {
    size: &'s Size,
    alone: bool,
}

impl fmt::Display for Subject<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        /// More than these are only counted.
        const NAMED: usize = 6;
        let Size { alike: (part, ..), rivets, .. } = self.size;
        write!(f, "{part}")?;
        if self.alone {
            return Ok(());
        }
        let one = if rivets.len() == 1 { "rivet" } else { "rivets" };
        for (nth, index) in rivets.iter().take(NAMED).enumerate() {
            let before = if nth == 0 { format!(", {one}") } else { ",".to_owned() };
            write!(f, "{before} {}", index + 1)?;
        }
        match rivets.len().saturating_sub(NAMED) {
            0 => Ok(()),
            more => write!(f, " and {more} more"),
        }
    }
}

/// Two rivets so close that the hole of one runs into that of the other.
fn refuse_overlap(
    points: &[GroupPoint],
    rivets: &[Part<'static>],
    closest: Option<(usize, usize, Length)>,
    question: &Installation<'_, '_>,
    hole: Option<Length>,
) -> Result<(), Stop> {
    let Some((one, other, distance)) = closest else { return Ok(()) };
    let hole_of = |index: usize| {
        let (point, part) = (points.get(index)?, rivets.get(index)?);
        let drilled = || question.with_rivet(*part).hole_or_drilled().value.max();
        Some(point.hole.or(hole).unwrap_or_else(drilled))
    };
    let wide = hole_of(one).max(hole_of(other)).unwrap_or(Length::ZERO);
    if distance > wide {
        return Ok(());
    }
    let (one, other) = (one.min(other) + 1, one.max(other) + 1);
    Err(Stop::wrong(if distance == Length::ZERO {
        format!("rivets {one} and {other} are on one point; give each its own")
    } else {
        format!("rivets {one} and {other} are {distance} apart: their holes run into each other; check the points")
    }))
}

/// Everything that was asked and answered.
pub(crate) struct Answer {
    facts: Facts,
    case: Case,
    rivets: Vec<Part<'static>>,
    members: Vec<GroupRivet>,
    load: PlaneLoad,
    moment: Option<f64>,
    factors: Factors,
    sizes: Vec<Size>,
    closest: Option<(usize, usize, Length)>,
    judged: Judged,
}

/// The rivet that governs.
struct Judged {
    /// That of the least margin, else the most loaded one.
    worst: usize,
    load: Force,
    margin: Option<Margin>,
    yield_margin: Option<Margin>,
    findings: Findings,
}

/// The answer with the share of every rivet.
struct Divided<'g> {
    answer: &'g Answer,
    group: &'g Group<'g>,
}

impl Divided<'_> {
    fn force(&self, member: &GroupRivet) -> Force {
        self.group.share(member).total().size()
    }

    /// `None` where the strength is not known or there is hardly any load.
    fn margin(&self, member: &GroupRivet) -> Option<Margin> {
        let load = Load { force: self.force(member), kind: self.answer.load.kind };
        margin(member.allowable?.force, load, self.answer.factors).ok()
    }

    /// At yield, under the limit load.
    fn yield_margin(&self, member: &GroupRivet) -> Option<Margin> {
        let load = Load { force: self.force(member), kind: self.answer.load.kind };
        yield_margin(member.yields?.force, load, self.answer.factors).ok()
    }

    fn form<'a>(&self, practice: &Practice<'a>) -> form::group::Answer<'a> {
        let group = self.group;
        let edges = self.edges_in_load();
        let rivet = |((member, part), edge): ((&GroupRivet, &Part<'_>), Length)| {
            let share = group.share(member);
            let total = share.total();
            form::group::Rivet {
                x: member.at.x.into(),
                y: member.at.y.into(),
                fx: total.x.into(),
                fy: total.y.into(),
                load: total.size().into(),
                direct: form::group::Components { fx: share.direct.x.into(), fy: share.direct.y.into() },
                torsional: form::group::Components { fx: share.torsional.x.into(), fy: share.torsional.y.into() },
                diameter: part.diameter().into(),
                allowable: member.allowable.map(|known| form::Allowable::of(known, practice)),
                margin: self.margin(member).and_then(|margin| form::finite(margin.value)),
                yield_margin: self.yield_margin(member).and_then(|margin| form::finite(margin.value)),
                edge_in_load: edge.into(),
            }
        };
        let strength = |size: &Size| form::group::Strength {
            rivet: size.alike.0.to_string(),
            hole: size.alike.1.map(form::Length::from),
            edge: form::GivenLength::of(size.edge, practice),
            edge_given: size.given,
            allowable: size.found.allowable.map(|known| form::Allowable::of(known, practice)),
            governing: size.governing().map(Into::into),
        };
        form::group::Answer {
            rivet: self.answer.facts.rivet.to_string(),
            centroid: group.centroid.into(),
            rivets: self.answer.members.iter().zip(&self.answer.rivets).zip(edges).map(rivet).collect(),
            worst: self.answer.members.get(self.answer.judged.worst).map(|member| form::group::Worst {
                rivet: form::Nth::of(self.answer.judged.worst + 1),
                x: member.at.x.into(),
                y: member.at.y.into(),
                load: self.force(member).into(),
            }),
            most_loaded: form::Nth::of(group.most_loaded + 1),
            margin: group.worst.map(|worst| form::Margin::of(worst.margin, practice)),
            yield_margin: group.worst_yield.map(|worst| form::Margin::of(worst.margin, practice)),
            closest: self.answer.closest.map(|(one, other, distance)| form::group::Closest {
                rivets: [form::Nth::of(one.min(other) + 1), form::Nth::of(one.max(other) + 1)],
                distance: distance.into(),
            }),
            load: form::group::Load {
                fx: self.answer.load.x.into(),
                fy: self.answer.load.y.into(),
                at: self.answer.load.at.into(),
                moment: self.answer.moment.map(moment),
                kind: self.answer.load.kind.into(),
            },
            moment: moment(group.moment_in_lbf),
            rotation_centre: group.rotation_centre.map(form::Point::from),
            strengths: self.answer.sizes.iter().map(strength).collect(),
            basis: form::Basis::of(group.basis, practice),
        }
    }

    /// The edge distance that the strength of each rivet counts, in their order.
    fn edges_in_load(&self) -> Vec<Length> {
        let mut edges = vec![Length::ZERO; self.answer.members.len()];
        for size in &self.answer.sizes {
            for index in &size.rivets {
                if let Some(edge) = edges.get_mut(*index) {
                    *edge = size.alike.3;
                }
            }
        }
        edges
    }

    fn text(&self, report: &mut Report, context: &Context<'_>) {
        let (units, group) = (context.units, self.group);
        let Some(worst) = self.answer.members.get(self.answer.judged.worst) else { return };
        let (number, load) = (self.answer.judged.worst + 1, units.force(self.force(worst)));
        let part = self.answer.rivets.get(self.answer.judged.worst).unwrap_or(&self.answer.facts.rivet);
        report.answer(match group.worst {
            Some(found) => {
                let yields = group.worst_yield.filter(|worst| worst.margin.value < 0.0);
                let yields = yields.map_or_else(String::new, |worst| {
                    format!("; rivet {} yields under limit load, {:+.2}", worst.rivet + 1, worst.margin.value)
                });
                format!("{part}   rivet {number} is the worst: {load}, margin {:+.2}{yields}", found.margin.value)
            }
            None => format!("{part}   rivet {number} carries most: {load}; no published allowable"),
        });
        let place = |at: Point| format!("{}, {}", units.length(at.x), units.length(at.y));
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        let whole = Force::from_lbf(libm::hypot(self.answer.load.x.lbf(), self.answer.load.y.lbf()));
        let kind = self.answer.load.kind.as_str();
        pair("load", format!("{} {kind} load through {}", units.force(whole), place(self.answer.load.at)));
        if let Some(found) = group.worst {
            pair("with its factors", format!("{} on rivet {number}", units.force(found.margin.factored_load)));
        }
        if let Some(worst) = group.worst_yield {
            pair("at yield", format!("{:+.2} at limit load, rivet {}", worst.margin.value, worst.rivet + 1));
        }
        if let Some((one, other, distance)) = self.answer.closest {
            let (one, other) = (one.min(other) + 1, one.max(other) + 1);
            pair("closest", format!("rivets {one} and {other}, {} apart", units.length(distance)));
        }
        pair("centroid", place(group.centroid));
        pair("moment about it", units.moment(group.moment_in_lbf).to_string());
        if let Some(centre) = group.rotation_centre {
            pair("turns about", place(centre));
        }
        for size in &self.answer.sizes {
            let carries = size.found.allowable.map_or_else(
                || "not published".to_owned(),
                |Allowable { force, basis }| {
                    let governing =
                        size.found.governing.map_or_else(String::new, |governing| words::lower(governing.mode));
                    format!("{}{}; then {governing}", units.force(force), memory_mark(basis))
                },
            );
            let (_, hole, nearest, along) = size.alike;
            let name = Subject { size, alone: self.answer.sizes.len() == 1 };
            let hole = hole.map_or_else(String::new, |hole| format!(", hole {}", units.length(hole)));
            let along =
                if along == nearest { String::new() } else { format!(", {} along its load", units.length(along)) };
            let carries_each = if self.answer.sizes.len() == 1 { "carries" } else { "carry each" };
            pair(
                &format!("{name} {carries_each}"),
                format!("{carries}; edge {}{along}{hole}", units.length(size.edge.value)),
            );
        }
        report.text.push(Block::Pairs(pairs));
        report.heading("Each rivet");
        let rows = self.answer.members.iter().zip(&self.answer.rivets).enumerate().map(|(index, (member, part))| {
            let total = group.share(member).total();
            let margin = self.margin(member).map_or_else(String::new, |margin| format!("{:+.2}", margin.value));
            vec![
                (index + 1).to_string(),
                place(member.at),
                units.size(part.diameter()).to_string(),
                units.force(total.x).to_string(),
                units.force(total.y).to_string(),
                units.force(total.size()).to_string(),
                margin,
            ]
        });
        let rows = rows.collect();
        let columns = vec!["rivet", "x, y", "diameter", "fx", "fy", "load", "margin"];
        report.text.push(Block::Table(Table { columns, rows }));
        report.paragraph(format!("Direct and torsional share together [{}].", context.practice.cite(group.basis)));
    }

    fn records(&self, report: &mut Report, context: &Context<'_>) {
        let edges = self.edges_in_load();
        for (index, (member, part)) in self.answer.members.iter().zip(&self.answer.rivets).enumerate() {
            let total = self.group.share(member).total();
            let mut record = Record::new(context.units);
            record.text("rivet", index + 1).text("part", part);
            record.length("x", member.at.x).length("y", member.at.y);
            record.force("fx", total.x).force("fy", total.y).force("load", total.size());
            record.force("allowable", member.allowable.map(|allowable| allowable.force));
            record.ratio("margin", self.margin(member).map(|margin| margin.value));
            record.text("worst", index == self.answer.judged.worst);
            record.ratio("yield_margin", self.yield_margin(member).map(|margin| margin.value));
            record.length("edge_in_load", edges.get(index).copied());
            record.findings(&report.findings);
            report.rows.push(record);
        }
    }
}

/// In both units.
fn moment(in_lbf: f64) -> form::group::Moment {
    let n_m = Force::from_lbf(in_lbf).newtons() * Length::INCH.to_millimetres_f64() / 1_000.0;
    form::group::Moment { in_lbf, n_m }
}
