//! `shophead joint`.

use shophead::basis::{Basis, Status};
use shophead::finding::{Code, Figure, Finding};
use shophead::installation::{Axial, Installation};
use shophead::joint::margin::{Factors, Load, Margin};
use shophead::joint::row::RowStrength;
use shophead::joint::strength::{Allowable, JointStrength};
use shophead::length::{Length, Toleranced};
use shophead::material::DrivenShear;
use shophead::practice::{Case, Given, Practice};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Stack};
use shophead::words::Units;
use shophead::working;
use shophead_job::words;

use super::in_row::{self, InRow};
use super::{edge, factors, load_kind, memory_mark};
use crate::args::{Format, JointArgs};
use crate::cells::{self, Cells, Finds};
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Report, Table};
use crate::{form, input};

/// Everything that was asked and answered.
pub(crate) struct Answer {
    facts: Facts,
    case: Case,
    edge: Given<Length>,
    /// What one rivet carries, where the row does not say it.
    rivet: Option<Box<JointStrength>>,
    /// What one rivet carries where it stands in no row, and nothing more then.
    row: InRow,
}

impl Answer {
    /// What one rivet carries.
    fn found(&self) -> &JointStrength {
        self.rivet.as_deref().unwrap_or(&self.row.strength.joint)
    }

    fn in_row(&self) -> Option<&InRow> {
        self.facts.layout.pitch.map(|_| &self.row)
    }
}

impl<'a> cells::Answer<'a> for Answer {
    type Args = JointArgs;
    const COMMAND: &'static str = "joint";

    fn ask<R>(args: &JointArgs, context: &Context<'a>, then: impl FnOnce(&Answer) -> R) -> Result<R, Stop> {
        let bare = context.bare;
        let rivet = input::part("--rivet", &args.rivet)?;
        // Filled in where it stands: it is kilobytes.
        let mut answer = Answer {
            facts: Facts::of_rivet(rivet),
            case: Case::for_part(&rivet),
            edge: Given { value: Length::ZERO, basis: Basis::NOT_GIVEN },
            rivet: None,
            row: InRow::nothing_yet(),
        };
        let Answer { facts, case, edge: edge_counted, rivet: by_itself, row: in_row } = &mut answer;
        let hole = args.hole.as_deref().map(|text| input::hole_diameter("--hole", text, bare)).transpose()?;
        let row = &args.row;
        let pitch = input::optional_length("--pitch", args.pitch.as_deref(), bare)?;
        let spacing = input::optional_length("--transverse-pitch", row.transverse_pitch.as_deref(), bare)?;
        facts.stack = Some(input::layers("--sheets", &args.sheets, None, bare, context.practice)?);
        facts.hole = hole.map(Toleranced::exactly);
        facts.layout.edge = input::optional_length("--edge", args.edge.as_deref(), bare)?;
        facts.layout.pitch = pitch;
        // Rows as far apart as their rivets where nothing else is said.
        facts.layout.transverse_pitch = spacing.or(pitch.filter(|_| row.rows > 1));
        (facts.rows, facts.staggered, facts.shear) = (row.rows, row.staggered, args.shear.shear());
        facts.load = load(args, context)?;
        facts.driven = Facts::driven(&rivet, args.driven.as_deref())?;
        facts.transfer = in_row::transfer(row.transfer);
        facts.by_layers = (row.from_layer, row.to_layer);
        facts.formula = in_row::formula(&row.flexibility)?;
        facts.rivet_modulus =
            row.rivet_modulus.as_deref().map(|text| input::stress("--rivet-modulus", text)).transpose()?;
        facts.put(&args.place, context)?;
        let question = facts.question(context.practice);
        (*case, *edge_counted) = (question.case(), edge(&question, context)?);
        match pitch {
            None => question.strength_into(&mut in_row.strength.joint).map_err(Stop::wrong)?,
            Some(pitch) => {
                if !question.row_says_strength() {
                    *by_itself = Some(Box::new(question.strength().map_err(Stop::wrong)?));
                }
                in_row.fill(args, facts, pitch, &question)?;
            }
        }
        Ok(then(&answer))
    }

    fn find(&self, _: &Context<'a>, finds: &mut impl Finds) {
        finds.all(&self.facts.rivet, &self.found().findings);
        if let Some(in_row) = self.in_row() {
            in_row.find(finds, &self.facts.rivet);
        }
    }

    fn cells(&self, cells: &mut impl Cells) {
        let (found, in_row) = (self.found(), self.in_row());
        let force = |part: Option<Allowable>| part.map(|part| part.force);
        cells.parts("rivet", Some(self.facts.rivet)).force("allowable", force(found.allowable));
        cells.words("governing", found.governing.map(|governing| governing.mode.as_str()));
        cells.optional("governing_sheet", found.governing.and_then(|governing| governing.layer));
        cells.force("shear", force(found.shear)).length("edge", self.edge.value);
        cells.force("net_section", found.net_section.map(|(net, _)| net.force));
        cells.force("factored_load", found.margin.map(|margin| margin.factored_load));
        cells.ratio("margin", found.margin.map(|margin| margin.value));
        cells.force("yield", force(found.yield_load()));
        cells.force("row_per_inch", force(in_row.and_then(|in_row| in_row.strength.per_inch)));
        let row_governing = in_row.and_then(|in_row| in_row.strength.governing);
        cells.words("row_governing", row_governing.map(|governing| governing.mode.as_str()));
        let of_row = |margin: fn(&RowStrength) -> Option<Margin>| in_row.and_then(|row| margin(&row.strength));
        cells.ratio("row_margin", of_row(|row| row.margin).map(|margin| margin.value));
        // The lesser of one rivet's and the row's.
        let yields = found.yield_margin.into_iter().chain(of_row(|row| row.yield_margin));
        cells.ratio("yield_margin", yields.map(|margin| margin.value).reduce(f64::min));
    }

    fn case(&self) -> &Case {
        &self.case
    }

    fn cases(&self, practice: &Practice<'_>, each: &mut dyn FnMut(Case)) {
        self.facts.question(practice).cases(each);
    }

    fn tell(&self, args: &JointArgs, context: &Context<'a>, report: &mut Report<'a>) {
        let Answer { facts, edge, .. } = self;
        let (found, in_row) = (self.found(), self.in_row());
        let Facts { rivet, layout, .. } = facts;
        // A joint has sheets: its arguments ask for them.
        let Some(stack) = &facts.stack else { return };
        let edge = (*edge, args.edge.is_some());
        let question = facts.question(context.practice);
        let more = More::of(&question, found);
        let entered = context.practice.entered_shear(rivet.alloy());
        let entered = entered.map(|(fsu, basis)| DrivenShear::entered(fsu, basis));
        let driven = entered.as_ref().or(question.driven_shear());
        if context.format == Format::Json {
            let found = (found, in_row);
            report.give(form((rivet, driven), stack, found, edge, (&question, layout.pitch), &more, context.practice));
        } else {
            text(report, (rivet, driven), stack, (found, in_row), edge, context);
        }
        report.work(context, |work| match in_row {
            Some(in_row) => {
                working::joint::of_row(&question, &in_row.strength, work);
                working::between_rivets(&question, in_row.compression, work);
            }
            None => working::joint::of(&question, found, work),
        });
        if let Some(in_row) = in_row {
            in_row.text(report, &question, context);
            if context.format == Format::Svg {
                report.drawing = in_row.drawing(&rivet.to_string(), context);
            }
        }
        more.text(report, context);
    }
}

/// The load on one rivet: as given, or its part of the load on the strip, since rows share alike at failure.
fn load(args: &JointArgs, context: &Context<'_>) -> Result<Option<(Load, Factors)>, Stop> {
    let force = match (&args.load, &args.row.strip_load) {
        (Some(text), _) => input::force("--load", text, context.bare)?,
        (None, Some(text)) => input::force("--strip-load", text, context.bare)? * f64::from(args.row.rows).recip(),
        (None, None) => return Ok(None),
    };
    Ok(Some((Load { force, kind: load_kind(&args.factors) }, factors(&args.factors))))
}

/// What goes beyond shear in the sheets: yield, tension, and the force that forms the head.
struct More {
    allowable: Option<Allowable>,
    /// Never above the allowable.
    yields: Option<Allowable>,
    yield_margin: Option<Margin>,
    axial: Axial,
}

impl More {
    fn of(question: &Installation<'_, '_>, found: &JointStrength) -> More {
        let (yields, yield_margin) = (found.yield_load(), found.yield_margin);
        More { allowable: found.allowable, yields, yield_margin, axial: question.axial(found) }
    }

    fn yielding<'a>(&self, practice: &Practice<'a>) -> form::joint::Yielding<'a> {
        form::joint::Yielding {
            allowable: self.yields.map(|known| form::Allowable::of(known, practice)),
            margin: self.yield_margin.map(|known| form::Margin::of(known, practice)),
            basis: form::Basis::of(Basis::CFR14_25_305, practice),
        }
    }

    fn tension<'a>(&self, practice: &Practice<'a>) -> form::joint::Tension<'a> {
        let [manufactured_head, driven_head] = self.axial.pull.map(|pull| pull.map(form::Force::from));
        let basis = form::Basis::of(Basis::RIVET_IN_TENSION, practice);
        let most = self.axial.tension.map(|known| form::Allowable::of(known, practice));
        form::joint::Tension { manufactured_head, driven_head, most, basis }
    }

    fn squeeze<'a>(&self, practice: &Practice<'a>) -> Option<form::joint::Squeeze<'a>> {
        self.axial.squeeze.as_ref().map(|(head, squeeze)| form::joint::Squeeze {
            head: (*head).into(),
            force: squeeze.force.into(),
            least: squeeze.least.into(),
            greatest: squeeze.greatest.into(),
            outside_tests: !squeeze.findings.is_empty(),
            basis: form::Basis::of(squeeze.basis, practice),
        })
    }

    fn text(&self, report: &mut Report, context: &Context<'_>) {
        let units = context.units;
        let mut pairs = Vec::new();
        let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
        if let Some(yields) = self.yields.filter(|yields| self.allowable.is_none_or(|most| yields.force < most.force)) {
            let margin =
                self.yield_margin.map_or_else(String::new, |margin| format!("; {:+.2} at limit load", margin.value));
            pair("a sheet yields at", format!("{}{}{margin}", units.force(yields.force), memory_mark(yields.basis)));
        }
        if let Some(tension) = self.axial.tension {
            let (most, mark) = (units.force(tension.force), memory_mark(tension.basis));
            let cited = context.practice.cite(Basis::TENSION_SHARE);
            pair("pulled along its axis", format!("at most {most}{mark}, a fifth of its shear [{cited}]"));
        }
        if let Some((head, squeeze)) = &self.axial.squeeze {
            let outside = if squeeze.findings.is_empty() { "" } else { ", outside the tests" };
            pair(
                "force to form the head",
                format!(
                    "{} to {} for {} wide{}{outside}",
                    units.force(squeeze.least),
                    units.force(squeeze.greatest),
                    units.length(*head),
                    memory_mark(squeeze.basis)
                ),
            );
        }
        if !pairs.is_empty() {
            report.heading("Besides");
            report.text.push(Block::Pairs(pairs));
        }
    }
}

fn form<'a>(
    (rivet, driven): (&Part<'_>, Option<&DrivenShear>),
    stack: &Stack,
    (found, in_row): (&JointStrength, Option<&InRow>),
    (edge, edge_given): (Given<Length>, bool),
    (question, pitch): (&Installation<'_, '_>, Option<Length>),
    more: &More,
    practice: &Practice<'a>,
) -> form::joint::Answer<'a> {
    let allowable = |known| form::Allowable::of(known, practice);
    let bearing = found.sheets.iter().map(|sheet| form::joint::Bearing {
        sheet: sheet.layer().into(),
        edge_margin: form::finite(sheet.edge_margin()),
        share: sheet.share(),
        kind: sheet.bearing().map(|bearing| bearing.kind.into()),
        ultimate: sheet.bearing().map(|bearing| allowable(bearing.ultimate)),
        r#yield: sheet.bearing().and_then(|bearing| bearing.yield_load).map(allowable),
    });
    let tear_out = found.sheets.iter().map(|sheet| form::joint::TearOut {
        sheet: sheet.layer().into(),
        share: sheet.share(),
        ultimate: sheet.tear_out().map(allowable),
        with_relief: sheet.tear_out_with_relief().map(allowable),
    });
    form::joint::Answer {
        rivet: rivet.to_string(),
        diameter_counted: form::GivenLength::of(Given { value: found.diameter.0, basis: found.diameter.1 }, practice),
        edge: form::GivenLength::of(edge, practice),
        edge_given,
        pitch: pitch.map(form::Length::from),
        per_rivet: form::joint::PerRivet {
            shear: found.shear.map(allowable),
            thin_sheet_factor: found.thin_sheet_factor,
            ceiling: found.ceiling.map(allowable),
            bearing: bearing.collect(),
            tear_out: tear_out.collect(),
            allowable: found.allowable.map(allowable),
            indication: found.indication.map(allowable),
            governing: found.governing.map(|governing| form::joint::Governing {
                mode: governing.mode.into(),
                sheet: governing.layer.map(form::Nth::from),
                load: allowable(governing.load),
            }),
        },
        net_section: found
            .net_section
            .map(|(net, sheet)| form::joint::NetSection { sheet: sheet.into(), ultimate: allowable(net) }),
        margin: found.margin.map(|known| form::Margin::of(known, practice)),
        basis: form::Basis::of(found.basis, practice),
        r#yield: more.yielding(practice),
        tension: more.tension(practice),
        driven: driven.map(|driven| driven_form(driven, rivet, practice)),
        sheets: stack.numbered_load_carrying().map(|(number, layer)| sheet_form(number, layer, practice)).collect(),
        squeeze: more.squeeze(practice),
        row: in_row.map(|in_row| in_row.form(question, practice)),
    }
}

/// The strength of the driven rivet that counts, and the others of its alloy.
fn driven_form<'p>(driven: &DrivenShear, rivet: &Part<'_>, practice: &Practice<'p>) -> form::joint::Driven<'p> {
    let one = |driven: &DrivenShear| form::joint::DrivenShear {
        temper: driven.temper,
        driven: driven.driven,
        fsu: driven.fsu.into(),
        basis: form::Basis::of(driven.basis, practice),
    };
    let form::joint::DrivenShear { temper, driven, fsu, basis } = one(driven);
    let all = rivet.alloy().driven_shears().iter().map(one).collect();
    form::joint::Driven { temper, driven, fsu, basis, all }
}

/// What each sheet's strengths are: of which column of the handbook, with which guarantee.
fn sheet_form<'p>(number: u8, layer: &Layer, practice: &Practice<'p>) -> form::joint::SheetValues<'p> {
    let known = layer.material.map(|material| practice.sheet(material, layer.thickness.nominal()));
    let properties = known.and_then(|sheet| sheet.published());
    let entered = known.and_then(|sheet| sheet.entered()?.guarantee());
    form::joint::SheetValues {
        sheet: number.into(),
        material: layer.material.map(|material| material.to_string()),
        form: properties.map(|properties| properties.heading().form),
        clad: properties.map(|properties| properties.heading().clad),
        entered: known.and_then(|sheet| sheet.entered()).map(|entered| form::Basis::of(entered.basis(), practice)),
        guarantee: entered.or(properties.map(|properties| properties.guarantee())).map(Into::into),
        dry_pin: properties.and_then(|properties| properties.heading().bearing_dry_pin),
    }
}

/// What the values of a sheet are: `bare sheet, A basis, dry pin`.
fn values(layer: &Layer, practice: &Practice<'_>) -> String {
    let known = layer.material.map(|material| practice.sheet(material, layer.thickness.nominal()));
    if let Some(entered) = known.and_then(|sheet| sheet.entered()) {
        let basis = entered.guarantee().map_or_else(String::new, |known| format!(", {} basis", known.as_str()));
        return format!("{}{basis}", practice.cite(entered.basis()));
    }
    known.and_then(|sheet| sheet.published()).map_or_else(String::new, |properties| {
        let heading = properties.heading();
        let surface = if heading.clad { "clad" } else { "bare" };
        let pin = match heading.bearing_dry_pin {
            Some(true) => ", dry pin",
            Some(false) => ", wet pin",
            None => "",
        };
        format!("{surface} {}, {} basis{pin}", heading.form, properties.guarantee().as_str())
    })
}

/// The margins and whatever is wrong with them, for the line of the answer.
fn judged(found: &JointStrength, in_row: Option<&InRow>, units: Units) -> String {
    let mut said = Vec::new();
    let rows = in_row.map(|in_row| &in_row.strength);
    let doubler = in_row.is_some_and(InRow::is_doubler);
    if let Some(margin) = found.margin {
        let on = if doubler { " on its end rivet" } else { "" };
        said.push(format!("margin {:+.2}{on}", margin.value));
    }
    if let Some(margin) = rows.and_then(|rows| rows.margin).filter(|_| in_row.is_some_and(InRow::has_rows)) {
        said.push(format!("rows {:+.2}", margin.value));
    }
    let yields = found.yield_margin.into_iter().chain(rows.and_then(|rows| rows.yield_margin));
    if let Some(least) = yields.map(|margin| margin.value).reduce(f64::min).filter(|least| *least < 0.0) {
        said.push(format!("yields under limit load, {least:+.2}"));
    }
    let over = rows.and_then(|rows| rows.joint.findings.iter().find(|finding| finding.code() == Code::RowOverUltimate));
    if let Some(Figure::Force(load)) = over.and_then(Finding::measured) {
        let row = rows.and_then(|rows| rows.peak).map_or(1, |peak| peak.row + 1);
        said.push(format!("row {row} takes {} a rivet under limit load", units.force(load)));
    }
    said.iter().map(|part| format!(", {part}")).collect()
}

fn text<'a>(
    report: &mut Report<'a>,
    (rivet, driven): (&Part<'_>, Option<&DrivenShear>),
    stack: &Stack,
    (found, in_row): (&JointStrength, Option<&InRow>),
    (edge, edge_given): (Given<Length>, bool),
    context: &Context<'a>,
) {
    let units = context.units;
    let marked = |part: Allowable| format!("{}{}", units.force(part.force), memory_mark(part.basis));
    let or_none = |part: Option<Allowable>| part.map_or_else(|| "not published".to_owned(), marked);
    let judged = judged(found, in_row, units);
    report.answer(match found.allowable {
        Some(allowable) => format!("{rivet}   carries {} a rivet{judged}", units.force(allowable.force)),
        None => format!("{rivet}   no published allowable"),
    });
    let mut pairs = Vec::new();
    let mut pair = |name: &str, value: String| pairs.push((name.to_owned(), value));
    if let Some(margin) = found.margin {
        let kind = margin.load.kind.as_str();
        let factored = units.force(margin.factored_load);
        pair(
            "margin",
            format!(
                "{:+.2} under {} {kind} load, {factored} with its factors",
                margin.value,
                units.force(margin.load.force)
            ),
        );
    }
    if let Some(governing) = found.governing {
        let sheet = governing.layer.map_or_else(String::new, |sheet| format!(", sheet {sheet}"));
        pair("fails first", format!("{}{sheet}{}", words::lower(governing.mode), memory_mark(governing.load.basis)));
    }
    if let Some(indication) = found.indication {
        pair("indication only", format!("{}, in proportion to the short edge distance", units.force(indication.force)));
    }
    pair("rivet shear", or_none(found.shear));
    if let Some(driven) = driven {
        let how = [driven.temper.unwrap_or_default(), driven.driven].into_iter().filter(|part| !part.is_empty());
        let how = how.collect::<Vec<_>>().join(", ");
        let (stress, mark) = (units.stress(driven.fsu), memory_mark(driven.basis));
        let others = rivet
            .alloy()
            .driven_shears()
            .iter()
            .filter(|other| other.temper.is_some() && other.temper != driven.temper);
        let others: Vec<String> =
            others.map(|other| format!("{} {}", other.temper.unwrap_or_default(), units.stress(other.fsu))).collect();
        let others = if others.is_empty() { String::new() } else { format!("; also {}: --driven", others.join(", ")) };
        pair("rivet as driven", format!("{stress}{mark}{}{how}{others}", if how.is_empty() { "" } else { ", " }));
    }
    if let Some(ceiling) = found.ceiling.filter(|ceiling| ceiling.basis.status() == Status::Memory) {
        let (force, cited) = (units.force(ceiling.force), context.practice.cite(ceiling.basis));
        pair("never counted above", format!("{force} in single shear, a recalled cell [{cited}]"));
    }
    if let Some(factor) = found.thin_sheet_factor.filter(|factor| *factor < 1.0) {
        pair("thin sheet", format!("takes the shear to {} of its full value", units.ratio(factor)));
    }
    pair("diameter counted", format!("{}{}", units.length(found.diameter.0), memory_mark(found.diameter.1)));
    pair(
        "edge distance",
        if edge_given {
            units.length(edge.value).to_string()
        } else {
            format!("{} assumed, the least allowed ({})", units.length(edge.value), context.practice.cite(edge.basis))
        },
    );
    if let Some(in_row) = in_row {
        in_row.pairs(&mut pair, context);
    }
    report.text.push(Block::Pairs(pairs));

    report.heading("Each sheet");
    let rows = found.sheets.iter().zip(stack.load_carrying()).map(|(sheet, layer)| {
        let material = layer.material.map_or_else(|| "material not given".to_owned(), |material| material.to_string());
        vec![
            format!("{} {}", sheet.layer(), units.length(layer.thickness.nominal())),
            material,
            values(layer, context.practice),
            or_none(sheet.bearing().map(|bearing| bearing.ultimate)),
            or_none(sheet.tear_out()),
        ]
    });
    let rows = rows.collect();
    report.text.push(Block::Table(Table { columns: vec!["sheet", "material", "values", "bearing", "tear-out"], rows }));
    let share = found.sheets.iter().any(|sheet| sheet.share() < 1.0);
    if share {
        report.paragraph("In double shear each outer sheet gets half of the rivet's load.");
    }
    report.paragraph(format!("The weakest of these figures rests on: {}.", context.practice.cite(found.basis)));
}
