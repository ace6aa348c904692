//! `shophead group`.

use shophead::joint::group::{Group, Member, PlaneLoad, share};
use shophead::joint::margin::{Factors, Load, Margin, margin};
use shophead::joint::strength::{Allowable, JointStrength};
use shophead::layout::{Point, RowLayout, closest_sorted};
use shophead::length::Length;
use shophead::practice::{Given, Practice};
use shophead::quantity::Force;
use shophead::rivet::part::Part;
use shophead_job::drawing::{self, GroupDrawing};
use shophead_job::read::read_group_from;
use shophead_job::words;

use super::{edge, factors, load_kind, load_word, memory_mark};
use crate::args::{Format, GroupArgs};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Record, Report, Table};
use crate::{form, input};

pub(super) fn run<'a>(args: &GroupArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let rivet = input::part("--rivet", &args.rivet)?.without_length();
    let stack = input::layers("--sheets", &args.sheets, None, context.bare)?;
    let (x, y) = input::force_pair("--load", &args.load, context.bare)?;
    let at = input::point("--at", &args.at, context.bare)?;
    let load = PlaneLoad { x, y, at, moment_in_lbf: 0.0, kind: load_kind(&args.factors) };
    let factors = factors(&args.factors);
    let points = context.inputs.read(&args.points, "the points")?;
    let points = read_group_from(points.bytes, &points.name, rivet.series(), context.bare)?;

    let mut report = Report::new("group", context);
    let at_points: Vec<Point> = points.iter().map(|point| point.at).collect();
    let closest = closest_sorted(&at_points, &mut vec![0; at_points.len()], &[]).pair;
    let facts = Facts {
        stack: Some(stack),
        layout: RowLayout {
            edge: input::optional_length("--edge", args.edge.as_deref(), context.bare)?,
            pitch: closest.map(|(_, _, distance)| distance),
            transverse_pitch: None,
        },
        shear: args.shear.shear(),
        ..Facts::of(rivet, &args.place, context)?
    };
    // One strength a size, in the order of the file.
    let mut sizes: Vec<Size> = Vec::new();
    let mut members = Vec::with_capacity(points.len());
    let mut rivets = Vec::with_capacity(points.len());
    for point in &points {
        let part = point.size.and_then(|size| rivet.in_size(size)).unwrap_or(rivet);
        let known = sizes.iter().position(|size| size.part == part);
        let index = match known {
            Some(index) => index,
            None => {
                let question = facts.question(context.practice).with_rivet(part);
                let edge = edge(&question, context)?;
                let found = question.strength().map_err(Stop::wrong)?;
                report.find_all(context, &part.to_string(), &found.findings);
                sizes.push(Size { part, edge, found });
                sizes.len() - 1
            }
        };
        let allowable = sizes.get(index).and_then(|size| size.found.allowable);
        members.push(Member { allowable, ..Member::by_area(point.at, part.diameter()) });
        rivets.push(part);
    }
    let group = share(&members, load, Some(factors)).map_err(Stop::wrong)?;
    report.find_all(context, "group", &group.findings);
    let answer = Answer { rivet, rivets: &rivets, members: &members, group: &group, load, factors, sizes: &sizes };
    report.give(answer.form(args.edge.is_some(), context.practice));
    answer.text(&mut report, context);
    answer.records(&mut report, context);
    if context.format == Format::Svg {
        let diameters: Vec<Length> = rivets.iter().map(Part::diameter).collect();
        report.drawing = Some(drawing::group(&GroupDrawing {
            rivets: &members,
            diameters: &diameters,
            group: &group,
            load,
            name: &rivet.to_string(),
            units: context.units,
        }));
    }
    Ok(report)
}

struct Size {
    part: Part<'static>,
    edge: Given<Length>,
    found: JointStrength,
}

struct Answer<'g> {
    rivet: Part<'static>,
    rivets: &'g [Part<'static>],
    members: &'g [Member],
    group: &'g Group<'g>,
    load: PlaneLoad,
    factors: Factors,
    sizes: &'g [Size],
}

impl Answer<'_> {
    fn force(&self, member: &Member) -> Force {
        self.group.share(member).total().size()
    }

    /// `None` where the strength is not known or there is hardly any load.
    fn margin(&self, member: &Member) -> Option<Margin> {
        let load = Load { force: self.force(member), kind: self.load.kind };
        margin(member.allowable?.force, load, self.factors).ok()
    }

    /// The rivet that governs: that of the least margin, else the most loaded one.
    fn worst(&self) -> usize {
        self.group.worst.map_or(self.group.most_loaded, |worst| worst.rivet)
    }

    fn form<'a>(&self, edge_given: bool, practice: &Practice<'a>) -> form::group::Answer<'a> {
        let group = self.group;
        let rivet = |(member, part): (&Member, &Part<'_>)| {
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
            }
        };
        let strength = |size: &Size| form::group::Strength {
            rivet: size.part.to_string(),
            edge: form::GivenLength::of(size.edge, practice),
            edge_given,
            allowable: size.found.allowable.map(|known| form::Allowable::of(known, practice)),
            governing: size.found.governing.filter(|_| size.found.allowable.is_some()).map(|found| found.mode.into()),
        };
        form::group::Answer {
            rivet: self.rivet.to_string(),
            centroid: group.centroid.into(),
            rivets: self.members.iter().zip(self.rivets).map(rivet).collect(),
            worst: self.members.get(self.worst()).map(|member| form::group::Worst {
                rivet: form::Nth::of(self.worst() + 1),
                x: member.at.x.into(),
                y: member.at.y.into(),
                load: self.force(member).into(),
            }),
            most_loaded: form::Nth::of(group.most_loaded + 1),
            margin: group.worst.map(|worst| form::Margin::of(worst.margin, practice)),
            load: form::group::Load {
                fx: self.load.x.into(),
                fy: self.load.y.into(),
                at: self.load.at.into(),
                kind: self.load.kind.into(),
            },
            moment: moment(group.moment_in_lbf),
            rotation_centre: group.rotation_centre.map(form::Point::from),
            strengths: self.sizes.iter().map(strength).collect(),
            basis: form::Basis::of(group.basis, practice),
        }
    }

    fn text(&self, report: &mut Report, context: &Context<'_>) {
        let (units, group) = (context.units, self.group);
        let Some(worst) = self.members.get(self.worst()) else { return };
        let (number, load) = (self.worst() + 1, units.force(self.force(worst)));
        let part = self.rivets.get(self.worst()).unwrap_or(&self.rivet);
        report.answer(match group.worst {
            Some(found) => format!("{part}   rivet {number} is the worst: {load}, margin {:+.2}", found.margin.value),
            None => format!("{part}   rivet {number} carries most: {load}; no published allowable"),
        });
        let place = |at: Point| format!("{}, {}", units.length(at.x), units.length(at.y));
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        let whole = Force::from_lbf(libm::hypot(self.load.x.lbf(), self.load.y.lbf()));
        let kind = load_word(self.load.kind);
        pair("load", format!("{} {kind} load through {}", units.force(whole), place(self.load.at)));
        if let Some(found) = group.worst {
            pair("with its factors", format!("{} on rivet {number}", units.force(found.margin.factored_load)));
        }
        pair("centroid", place(group.centroid));
        pair("moment about it", units.moment(group.moment_in_lbf).to_string());
        if let Some(centre) = group.rotation_centre {
            pair("turns about", place(centre));
        }
        for size in self.sizes {
            let carries = size.found.allowable.map_or_else(
                || "not published".to_owned(),
                |Allowable { force, basis }| {
                    let governing =
                        size.found.governing.map_or_else(String::new, |governing| words::lower(governing.mode));
                    format!("{}{}; then {governing}", units.force(force), memory_mark(basis))
                },
            );
            pair(&format!("{} carries", size.part), format!("{carries}; edge {}", units.length(size.edge.value)));
        }
        report.text.push(Block::Pairs(pairs));
        report.heading("Each rivet");
        let rows = self.members.iter().zip(self.rivets).enumerate().map(|(index, (member, part))| {
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
        for (index, (member, part)) in self.members.iter().zip(self.rivets).enumerate() {
            let total = self.group.share(member).total();
            let mut record = Record::new(context.units);
            record.text("rivet", index + 1).text("part", part);
            record.length("x", member.at.x).length("y", member.at.y);
            record.force("fx", total.x).force("fy", total.y).force("load", total.size());
            record.force("allowable", member.allowable.map(|allowable| allowable.force));
            record.optional("margin", self.margin(member).map(|margin| margin.value));
            record.text("worst", index == self.worst());
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
