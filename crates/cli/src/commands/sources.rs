//! `shophead sources`.

use std::fmt::Display;

use shophead::access::solid_required;
use shophead::basis::{Basis, RULES, Status, Topic};
use shophead::drill::Drill;
use shophead::joint::margin::Factors;
use shophead::joint::splice::{SpliceMember, SpliceTable};
use shophead::joint::substitution_table::SizeUp;
use shophead::joint::{flush_table, hole_table, shear_table, substitution_table, thin_sheet};
use shophead::length::Length;
use shophead::material::{Material, Property, RivetAlloy, SheetHeading, sheets};
use shophead::practice::{EnteredJoint, HeadScope, Practice, Scope, Value};
use shophead::repair::unused::{UNUSED, Unused};
use shophead::rivet::other::{NOT_READ, WhyNotRead};
use shophead::rivet::{CATALOGUE, Series, Size};
use shophead::structure::{Place, Structure};
use shophead::words::Units;

use crate::args::SourcesArgs;
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::form::sources::{Counts, Promise, Source};
use crate::report::{Block, Record, Report, Rows};

pub(super) fn run<'a>(args: &SourcesArgs, context: &Context<'a>) -> Result<Report<'a>, Stop> {
    let mut list = List { practice: context.practice, units: context.units, sources: Vec::new() };
    list.limits(context);
    list.entered();
    list.series();
    list.rivet_alloys();
    list.sheets();
    list.drills();
    list.joints();
    list.places();
    list.rules();
    list.repairs();
    list.not_used();
    let wanted = args.status.map(|word| word.status());
    list.sources.retain(|source| wanted.is_none_or(|status| source.from.status == status.into()));
    let sources = list.sources;

    let mut report = Report::new("sources", context);
    let (promises, left_out) = if args.promises { promises() } else { (Vec::new(), Vec::new()) };
    let count = |status: Status| sources.iter().filter(|source| source.from.status == status.into()).count();
    let statuses = [Status::Shop, Status::Published, Status::Practice, Status::Memory];
    let counts = Counts {
        shop: count(Status::Shop),
        published: count(Status::Published),
        practice: count(Status::Practice),
        memory: count(Status::Memory),
    };
    let counted: Vec<String> = statuses
        .iter()
        .filter(|status| count(**status) > 0)
        .map(|status| format!("{} {}", count(*status), status.as_str()))
        .collect();
    let counted = if counted.is_empty() { "none".to_owned() } else { counted.join(", ") };
    if args.promises {
        print_promises(&promises, &left_out, &mut report, context);
        report.give(form::sources::Answer { counts, sources, promises, left_out });
        return Ok(report);
    }
    report.answer(format!("{} sources: {counted}", sources.len()));
    let mut groups: Vec<&str> = Vec::new();
    for source in &sources {
        if !groups.contains(&source.group) {
            groups.push(source.group);
        }
    }
    for group in groups {
        report.heading(group);
        for source in sources.iter().filter(|source| source.group == group) {
            let form::Basis { document, place, status } = source.from;
            let place = if place.is_empty() { String::new() } else { format!(", {place}") };
            let what = format!("{}: {}", source.what, source.value);
            report.text.push(Block::Entry(what, vec![format!("{status}: {document}{place}")]));
        }
    }
    report.rows = Rows {
        columns: ["group", "what", "value", "document", "place", "status"].map(str::to_owned).to_vec(),
        rows: Vec::new(),
    };
    for source in &sources {
        let mut record = Record::new(context.units);
        record.text("group", source.group).text("what", &source.what).text("value", &source.value);
        record.text("document", source.from.document).text("place", source.from.place);
        record.text("status", source.from.status);
        report.rows.push(record);
    }
    report.give(form::sources::Answer { counts, sources, promises, left_out });
    Ok(report)
}

/// The page of promises.
const PROMISES: &str = include_str!("../../PROMISES.md");

/// Its tables, and its last list.
fn promises() -> (Vec<Promise>, Vec<&'static str>) {
    let (mut group, mut promises, mut left_out) = ("", Vec::new(), Vec::new());
    for line in PROMISES.lines() {
        if let Some(heading) = line.strip_prefix("## ") {
            group = heading;
        } else if let Some(item) = line.strip_prefix("- ") {
            left_out.push(item);
        } else if let Some(cells) = line.strip_prefix("| ").filter(|cells| !cells.starts_with("promise |")) {
            let mut cells = cells.split('|').map(|cell| cell.trim().replace('`', ""));
            let mut next = || cells.next().unwrap_or_default();
            promises.push(Promise { group, promise: next(), shown_by: next(), last_figure: next() });
        }
    }
    (promises, left_out)
}

fn print_promises(promises: &[Promise], left_out: &[&str], report: &mut Report<'_>, context: &Context<'_>) {
    report.answer(format!("{} promises, each with what shows it", promises.len()));
    let mut group = "";
    for promise in promises {
        if promise.group != group {
            group = promise.group;
            report.heading(group);
        }
        let figure = if promise.last_figure.is_empty() { String::new() } else { format!(": {}", promise.last_figure) };
        report.text.push(Block::Entry(promise.promise.clone(), vec![format!("{}{figure}", promise.shown_by)]));
    }
    report.heading("What the figures leave out");
    for item in left_out {
        report.paragraph(*item);
    }
    report.rows.columns = ["group", "promise", "shown_by", "last_figure"].map(str::to_owned).to_vec();
    for promise in promises {
        let mut record = Record::new(context.units);
        record.text("group", promise.group).text("promise", &promise.promise);
        record.text("shown_by", &promise.shown_by).text("last_figure", &promise.last_figure);
        report.rows.push(record);
    }
}

struct List<'a> {
    practice: &'a Practice<'a>,
    units: Units,
    sources: Vec<Source<'a>>,
}

impl<'a> List<'a> {
    fn add(&mut self, group: &'static str, what: impl Display, value: impl Display, basis: Basis) {
        let from = form::Basis::of(basis, self.practice);
        self.sources.push(Source { group, what: what.to_string(), value: value.to_string(), from });
    }

    fn limits(&mut self, context: &Context<'a>) {
        for limit in context.practice.limits() {
            let scope = self.scope(&limit.scope);
            let value = match limit.value {
                Value::Length(length) => self.units.length(length).to_string(),
                // What is added to a multiple or to the shank is printed as in a limits file: in inches.
                Value::Diameters { plus, .. } | Value::OverShank(plus) if plus != Length::ZERO => {
                    format!("{} in", limit.value)
                }
                other => other.to_string(),
            };
            self.add("limits", format_args!("{}{scope}", limit.name), value, limit.basis);
        }
    }

    fn scope(&self, scope: &Scope) -> String {
        let mut said = Vec::new();
        said.extend(scope.head.map(|head| match head {
            HeadScope::Dimpled => "flush heads in dimpled sheet".to_owned(),
            other => format!("{other} heads"),
        }));
        said.extend(scope.alloy.map(|alloy| alloy.alloy().to_owned()));
        said.extend(scope.diameter.map(|diameter| self.units.size(diameter).to_string()));
        said.extend(scope.rows.map(|rows| format!("{rows} rows")));
        said.extend(scope.stepped.then(|| "after a step up".to_owned()));
        if said.is_empty() { String::new() } else { format!(" ({})", said.join(", ")) }
    }

    /// What the shop entered beside its limits.
    fn entered(&mut self) {
        const GROUP: &str = "entered by the shop";
        let Some(entered) = self.practice.entered() else { return };
        let units = self.units;
        for (series, size) in entered.sizes() {
            let what = format!("{series} dash {}", size.dash);
            if let Some(shank) = size.shank.filter(|_| size.basis.status() == Status::Shop) {
                self.add(GROUP, format_args!("{what} shank"), units.interval(shank), size.basis);
            }
            if let Some(head) = size.head.filter(|head| head.basis.status() == Status::Shop) {
                let (wide, high) = (units.length(head.diameter_nominal), units.length(head.height_nominal));
                self.add(GROUP, format_args!("{what} head"), format_args!("{wide} by {high}"), head.basis);
            }
        }
        for series in CATALOGUE {
            let own = self.practice.length_tolerance(series).filter(|_| entered.has_length_tolerance(series));
            if let Some(tolerance) = own {
                let either_way = format!("{} either way", units.length(tolerance.either_way));
                self.add(GROUP, format_args!("{} length tolerance", series.name), either_way, tolerance.basis);
            }
        }
        for sheet in entered.sheets() {
            for property in Property::ALL {
                if let Some(stress) = sheet.figure(*property) {
                    let modulus = matches!(property, Property::Modulus | Property::CompressionModulus);
                    let shown = if modulus { units.modulus(stress) } else { units.stress(stress) };
                    self.add(GROUP, format_args!("{} {property}", sheet.material()), shown, sheet.basis());
                }
            }
            if let Some(density) = sheet.density_lb_in3() {
                let density = format!("{density:.4} lb/in3");
                self.add(GROUP, format_args!("{} density", sheet.material()), density, sheet.basis());
            }
            if let Some(radius) = sheet.bend_radius() {
                self.add(GROUP, format_args!("{} bend_radius", sheet.material()), units.length(radius), sheet.basis());
            }
        }
        for (alloy, shear, basis) in entered.shears() {
            self.add(GROUP, format_args!("{} shear_ultimate", alloy.alloy()), units.stress(shear), basis);
        }
        for (series, alloy, dash, ultimate, basis) in entered.tensions() {
            let what = format!("{series} {} dash {dash} in tension", alloy.alloy());
            self.add(GROUP, what, units.force(ultimate), basis);
        }
        for joint in entered.joints() {
            let EnteredJoint { series, alloy, dash, material, thickness, preparation, edge, .. } = joint;
            let (thickness, edge) = (units.length(*thickness), units.length(*edge));
            let what = format!(
                "{series} {} dash {dash} in {preparation} {thickness} {material}, {edge} from its edge",
                alloy.alloy()
            );
            self.add(GROUP, what, units.force(joint.ultimate), joint.basis);
        }
    }

    fn series(&mut self) {
        for series in CATALOGUE {
            let name = series.name;
            self.add("rivets", name, "head, order of the part number", series.basis);
            for material in series.materials {
                let letters = if material.code.is_empty() { "no letters" } else { material.code };
                self.add("rivets", format_args!("{name} {letters}"), material.alloy.alloy(), material.basis);
            }
            for finish in series.finishes {
                let letter = finish.letter.map_or_else(|| "no letter".to_owned(), String::from);
                self.add("rivets", format_args!("{name} finish {letter}"), finish.name, finish.basis);
            }
            if let Some(tolerance) = series.length_tolerance {
                let either_way = format!("{} either way", self.units.length(tolerance.either_way));
                self.add("rivets", format_args!("{name} length tolerance"), either_way, tolerance.basis);
            }
            self.sizes(series);
            let unknown = series.unknown;
            for (what, basis) in [("head", unknown.head), ("shank", unknown.shank), ("dimensions", unknown.fit)] {
                self.add("rivets", format_args!("{name} {what} where not known here"), "open the document", basis);
            }
        }
        self.not_read();
    }

    fn not_read(&mut self) {
        for other in NOT_READ {
            let why = match other.why {
                WhyNotRead::NoSuccessor { head } => format!("not read: {head} head, no printed successor"),
                WhyNotRead::SuccessorByMaterial { steel, others } => format!("not read: now {steel} or {others}"),
                WhyNotRead::Blind => "not read: blind".to_owned(),
                _ => "not read".to_owned(),
            };
            self.add("rivets", other.name(), why, other.basis);
        }
    }

    fn sizes(&mut self, series: &Series<'static>) {
        let is_bare = |size: &&Size| size.shank.is_none() && size.head.is_none();
        for size in series.sizes.iter().filter(|size| !is_bare(size)) {
            let shank = size
                .shank
                .map_or_else(|| "limits not known".to_owned(), |shank| self.units.interval(shank).to_string());
            let head = size.head.map_or_else(
                || "head not known".to_owned(),
                |head| {
                    format!(
                        "head {} by {}",
                        self.units.length(head.diameter_nominal),
                        self.units.length(head.height_nominal)
                    )
                },
            );
            let what = format!("{} {}", series.name, self.units.size(size.shank_nominal));
            self.add("rivets", what, format_args!("shank {shank}, {head}"), size.basis);
        }
        // Sizes of which nothing but the diameter is known: one line for those with the same basis.
        for sizes in series.sizes.chunk_by(|one, next| one.basis == next.basis) {
            let diameters: Vec<String> =
                sizes.iter().filter(is_bare).map(|size| self.units.size(size.shank_nominal).to_string()).collect();
            if let Some(size) = sizes.first().filter(|_| !diameters.is_empty()) {
                let value = format!("diameters {}; shank and head not known", diameters.join(", "));
                self.add("rivets", series.name, value, size.basis);
            }
        }
    }

    fn rivet_alloys(&mut self) {
        const GROUP: &str = "rivet alloys";
        for alloy in RivetAlloy::ALL {
            let name = alloy.alloy();
            for shear in alloy.driven_shears() {
                let temper = shear.temper.map_or_else(String::new, |temper| format!("-{temper}"));
                let how = if shear.driven.is_empty() { String::new() } else { format!(", {}", shear.driven) };
                self.add(
                    GROUP,
                    format_args!("{name}{temper} shear when driven{how}"),
                    self.units.stress(shear.fsu),
                    shear.basis,
                );
            }
            for &(density, basis) in alloy.densities_lb_in3() {
                self.add(GROUP, format_args!("{name} density"), format_args!("{density} lb/in3"), basis);
            }
            if let Some(basis) = alloy.driven_as_received() {
                self.add(GROUP, name, "driven as received", basis);
            }
            for treatment in alloy.heat_treatments() {
                let mut said = vec![treatment.treatment.as_str().to_owned()];
                said.extend(treatment.drive_within_minutes.map(|minutes| format!("drive within {minutes} min")));
                said.extend(treatment.keep_at_f.map(|degrees| format!("keep at {degrees} F or below")));
                said.extend(treatment.keeps_hours.map(|hours| format!("keeps {hours} h")));
                said.extend(treatment.solution_f.map(|(least, most)| format!("treat at {least} to {most} F")));
                said.extend(treatment.above.map(|above| format!("only above {}", self.units.size(above))));
                said.extend((!treatment.note.is_empty()).then(|| treatment.note.to_owned()));
                self.add(GROUP, format_args!("{name} before driving"), said.join("; "), treatment.basis);
            }
            if let Some((mark, basis)) = alloy.head_mark() {
                self.add(GROUP, format_args!("{name} mark on the head"), mark, basis);
            }
            if let Some((structural, basis)) = alloy.is_structural() {
                self.add(GROUP, name, if structural { "for structure" } else { "not for structure" }, basis);
            }
            if let Some((offered, basis)) = alloy.for_new_design() {
                self.add(GROUP, name, if offered { "for new designs" } else { "not for new designs" }, basis);
            }
        }
    }

    fn sheets(&mut self) {
        for column in sheets() {
            let SheetHeading { alloy, temper, form, clad, basis, .. } = *column.heading();
            let clad = if clad { "clad " } else { "" };
            let guarantee = column.guarantee();
            let what = format!(
                "{clad}{alloy}-{temper} {form} {} to {}, {guarantee} values",
                self.units.length(column.t_min()),
                self.units.length(column.t_max())
            );
            let mut said = Vec::new();
            for (name, stress) in [
                ("tension", column.ftu()),
                ("yield", column.fty()),
                ("shear", column.fsu()),
                ("bearing at 1.5 D", column.fbru_15()),
                ("bearing at 2 D", column.fbru_20()),
            ] {
                said.extend(stress.map(|stress| format!("{name} {}", self.units.stress(stress))));
            }
            self.add("sheet", what, said.join(", "), basis);
        }
        for material in Material::known() {
            self.add("sheet", material, "named in a table", material.basis());
        }
    }

    fn drills(&mut self) {
        let mut bases: Vec<(Basis, Vec<Drill>)> = Vec::new();
        for drill in Drill::all() {
            match bases.iter_mut().find(|(basis, _)| *basis == drill.basis()) {
                Some((_, drills)) => drills.push(drill),
                None => bases.push((drill.basis(), vec![drill])),
            }
        }
        for (basis, drills) in bases {
            let ends = drills.first().zip(drills.last());
            let ends = ends.map_or_else(String::new, |(first, last)| {
                format!(
                    "{} diameters, {} to {}",
                    drills.len(),
                    self.units.length(first.diameter()),
                    self.units.length(last.diameter())
                )
            });
            let what = drills.first().map_or_else(String::new, |first| format!("{first} and its like"));
            self.add("drills", what, ends, basis);
        }
    }

    fn joints(&mut self) {
        const GROUP: &str = "joint strength";
        for row in hole_table::HOLES {
            let what = format!("nominal hole for {}", self.units.size(row.rivet));
            self.add(GROUP, &what, self.units.length(row.hole), row.basis);
            if row.recalled > row.hole {
                self.add(
                    GROUP,
                    format_args!("{what}, not counted"),
                    self.units.length(row.recalled),
                    Basis::HDBK5J_T8_1_2A,
                );
            }
        }
        for cell in shear_table::CELLS {
            let what = format!("single shear of {} {}, a ceiling", self.units.size(cell.rivet), cell.alloy_temper);
            self.add(GROUP, what, self.units.force(cell.ultimate), cell.basis);
        }
        for row in flush_table::ROWS {
            let sheet = row.sheet;
            let what = format!(
                "flush joint of {} in {} {} {sheet}",
                self.units.size(row.rivet),
                row.preparation.as_str(),
                self.units.length(row.thickness)
            );
            let knife = if row.knife_edge { ", a knife edge" } else { "" };
            self.add(GROUP, what, format_args!("{}{knife}", self.units.force(row.ultimate)), row.basis);
        }
        self.add(GROUP, "thin-sheet factor on rivet shear", "single and double shear", Basis::HDBK5J_T8_1_2_1B);
        let least = format!("{} D", self.units.ratio(thin_sheet::LEAST_RATIO));
        self.add(GROUP, "thinnest sheet with a published strength", least, Basis::HDBK5H_LEAST_RATIO);
        for (name, factors) in [("fitting", Factors::FITTING), ("seam", Factors::SEAM)] {
            self.add(GROUP, format_args!("factor of safety, {name}"), factors.safety.value, factors.safety.basis);
            if let Some(fitting) = factors.fitting {
                self.add(GROUP, "fitting factor", fitting.value, fitting.basis);
            }
        }
        for rule in substitution_table::RULES {
            let up_to = rule.up_to.map_or_else(String::new, |up_to| format!(" up to {}", self.units.size(up_to)));
            let step = match rule.step {
                SizeUp::ThirtySecond => self.units.size(Length::THIRTY_SECOND).to_string(),
                _ => "the next size".to_owned(),
            };
            let what = format!("{} in place of {}{up_to}", rule.substitute.alloy(), rule.original.alloy());
            self.add(GROUP, what, format_args!("{step} larger"), rule.basis);
        }
        self.splices();
    }

    fn splices(&mut self) {
        const GROUP: &str = "splices";
        for table in SpliceTable::ALL.iter().copied() {
            let number = table.as_str();
            let lines = table.lines();
            let cells: usize = lines
                .iter()
                .map(|line| line.rivets().iter().flatten().count() + usize::from(line.an3().is_some()))
                .sum();
            let what = format!("table {number}, rivets and bolts an inch");
            self.add(GROUP, what, format_args!("{} sheets, {cells} cells", lines.len()), table.basis());
            for (what, (part, basis)) in [
                ("rivet shear over sheet tension", table.shear_part()),
                ("bearing over sheet tension, used", table.bearing_part()),
                ("bearing over sheet tension, printed", table.printed_bearing_part()),
            ] {
                self.add(GROUP, format_args!("table {number}, {what}"), self.units.ratio(part), basis);
            }
        }
        for (what, member) in [
            ("any other member", SpliceMember::Other),
            ("stringer", SpliceMember::Stringer),
            ("intermediate frame", SpliceMember::IntermediateFrame),
            ("single-lap sheet", SpliceMember::SingleLap),
        ] {
            let (percent, basis) = member.percent();
            self.add(GROUP, format_args!("share of the count, {what}"), format_args!("{percent} %"), basis);
        }
    }

    /// What each module rests on besides its tables and limits, and what has no table of its own.
    fn rules(&mut self) {
        use shophead::joint::{buckling, flexibility::Formula};
        for topic in Topic::ALL.iter().copied() {
            for rule in RULES.iter().filter(|rule| rule.topic == topic) {
                self.add(topic.as_str(), rule.subject, "a rule", rule.basis);
            }
        }
        for formula in Formula::ALL {
            let what = format!("flexibility of a fastener, {formula}");
            self.add("rules of rows and groups", what, formula.fitted_to(), formula.basis());
        }
        for fixity in buckling::FIXITIES {
            let what = format!("fixity between rivets, {}", fixity.fastening);
            self.add("rules of rows and groups", what, self.units.ratio(fixity.value), fixity.basis);
        }
    }

    /// Where repairs are sized, what is told with them, and the tables that they read.
    fn repairs(&mut self) {
        use shophead::repair::gauge_table::{CIRCULAR, HANDBOOK};
        use shophead::repair::site::{Site, Sizing};
        use shophead::repair::told::Told;
        const GROUP: &str = "repairs";
        for (what, gauges, basis) in
            [("older sheet gauges", CIRCULAR, Basis::AC43_GAUGES), ("sheet gauges", HANDBOOK, Basis::HDBK5J_GAUGES)]
        {
            self.add(GROUP, what, format_args!("{} of them", gauges.len()), basis);
        }
        for site in Site::ALL {
            let sizing = match site.sizing() {
                Sizing::Sized | Sizing::SizedWith(_) => "sized",
                Sizing::Refused => "nothing is sized",
            };
            self.add(GROUP, site.meaning(), sizing, site.basis());
        }
        for told in Told::ALL {
            self.add(GROUP, told.meaning(), told.kind(), told.basis());
        }
    }

    /// Rules that are read and not used, each with the reason.
    fn not_used(&mut self) {
        for unused in UNUSED {
            let Unused { rule, what, document, place, status, why, .. } = *unused;
            let from = form::Basis { document, place, status: status.into() };
            let (what, value) = (format!("{rule}: {what}"), why.to_owned());
            self.sources.push(Source { group: "repair rules that are not used", what, value, from });
        }
    }

    fn places(&mut self) {
        for place in Place::ALL {
            if let Some(given) = solid_required(Structure::Secondary, shophead::structure::Member::Skin, &[*place]) {
                self.add("driven solid rivets only", place.as_str(), "no blind rivets", given.basis);
            }
        }
        for (what, structure, member) in [
            ("primary structure", Structure::Primary, shophead::structure::Member::Skin),
            ("spar caps and longerons", Structure::Secondary, shophead::structure::Member::SparCap),
        ] {
            if let Some(given) = solid_required(structure, member, &[]) {
                self.add("driven solid rivets only", what, "no blind rivets", given.basis);
            }
        }
    }
}
