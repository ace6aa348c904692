//! The part of `shophead joint` that looks at the rivet in its row: net section, buckling, and rows that share a load.

use shophead::basis::Basis;
use shophead::installation::Installation;
use shophead::joint::buckling::{InterRivet, LayerBuckling};
use shophead::joint::flexibility::Formula;
use shophead::joint::lap::{LapError, Shared};
use shophead::joint::layers::{LayerShare, Layers, StackRowsError};
use shophead::joint::row::RowStrength;
use shophead::joint::sharing::ELASTIC_ONLY;
use shophead::joint::sharing::{Passing, Transfer};
use shophead::joint::strength::Shear;
use shophead::length::Length;
use shophead::practice::Practice;
use shophead::quantity::{Force, Stress};
use shophead::rivet::part::Part;
use shophead_job::drawing::{self, RowBar, RowsDrawing};
use shophead_job::words;

use super::memory_mark;
use crate::args::{JointArgs, TransferWord};
use crate::cells::Finds;
use crate::context::Context;
use crate::exit::Stop;
use crate::facts::Facts;
use crate::report::{Block, Report, Table};
use crate::{form, input};

/// The answer about a row.
pub(super) struct InRow {
    pitch: Length,
    apart: Length,
    rows: u16,
    transfer: Transfer,
    shear: Shear,
    pub(super) strength: RowStrength,
    /// In the sheets along the row, where it was asked about.
    pub(super) compression: Option<Stress>,
    /// Each sheet that carries load under that compression.
    buckled: Vec<LayerBuckling>,
    sharing: Result<Vec<Shared>, LapError>,
    /// The same plane by plane, where the load goes through more than two layers.
    stacked: Vec<(Formula, Layers)>,
    /// The load on one pitch of width, where one was given.
    strip_load: Option<Force>,
}

/// The word for the envelope of every formula that is for rivets.
const ALL: &str = "all";

/// The formula by which the rows share the load; `None` for all of them.
pub(super) fn formula(text: &str) -> Result<Option<Formula>, Stop> {
    if text.trim().eq_ignore_ascii_case(ALL) {
        return Ok(None);
    }
    let words: Vec<&str> = std::iter::once(ALL).chain(Formula::ALL.iter().map(|formula| formula.as_str())).collect();
    text.trim().to_ascii_lowercase().parse().map(Some).map_err(|_| {
        Stop::wrong(format_args!("--flexibility \"{text}\": no such formula; right would be {}", words.join(" or ")))
    })
}

/// Where the load of the rows goes.
pub(super) const fn transfer(word: TransferWord) -> Transfer {
    match word {
        TransferWord::Lap => Transfer::Lap,
        TransferWord::Doubler => Transfer::Doubler,
    }
}

fn buckling_form<'p>(sheet: u8, found: Option<&InterRivet>, practice: &Practice<'p>) -> form::joint::Buckling<'p> {
    form::joint::Buckling {
        sheet: sheet.into(),
        fixity: found.map(|found| found.fixity),
        elastic: found.map(|found| found.elastic.into()),
        elastic_up_to: found.map(|found| found.elastic_up_to.into()),
        stands: found.map(|found| found.stands().into()),
        largest_pitch: found.and_then(|found| found.largest_pitch).map(form::Length::from),
        basis: found.map(|found| form::Basis::of(found.basis, practice)),
    }
}

impl InRow {
    /// An answer to be filled in.
    pub(super) const fn nothing_yet() -> InRow {
        InRow {
            pitch: Length::ZERO,
            apart: Length::ZERO,
            rows: 1,
            transfer: Transfer::Lap,
            shear: Shear::Single,
            strength: RowStrength::nothing_yet(),
            compression: None,
            buckled: Vec::new(),
            sharing: Ok(Vec::new()),
            stacked: Vec::new(),
            strip_load: None,
        }
    }

    pub(super) fn fill(
        &mut self,
        args: &JointArgs,
        facts: &Facts,
        pitch: Length,
        question: &Installation<'_, '_>,
    ) -> Result<(), Stop> {
        let row = &args.row;
        (self.pitch, self.apart) = (pitch, facts.layout.transverse_pitch.unwrap_or(pitch));
        (self.rows, self.transfer, self.shear) = (facts.rows, facts.transfer, facts.shear);
        if facts.stack.is_none() {
            return Err(Stop::wrong("a joint has at least two sheets"));
        }
        question.row_into(&mut self.strength).map_err(Stop::wrong)?;
        self.compression = row.compression.as_deref().map(|text| input::stress("--compression", text)).transpose()?;
        if self.compression.is_some() {
            for layer in question.buckling(self.compression) {
                self.buckled.push(layer.map_err(Stop::wrong)?);
            }
        }
        self.strip_load = facts.load.map(|(load, _)| load.force * f64::from(self.rows));
        if !question.is_through_stack() && (row.from_layer.is_some() || row.to_layer.is_some()) {
            return Err(Stop::wrong("--from and --to are for more than two sheets in single shear; leave them out"));
        }
        if self.rows > 1 && question.is_through_stack() {
            let through = |formula| question.shared_in_stack(formula).map(|layers| (formula, layers));
            match question.formulas().map(through).collect() {
                Ok(found) => self.stacked = found,
                // Without a figure of a sheet or of the rivet there is no answer, as for two sheets.
                Err(StackRowsError::Lap(error)) => self.sharing = Err(error),
                Err(error) => return Err(Stop::wrong(error)),
            }
        } else if self.rows > 1 {
            self.sharing = question.formulas().map(|formula| question.shared(formula)).collect();
        }
        match self.sharing {
            Err(LapError::RivetModulusNotKnown) => {
                Err(Stop::wrong("the modulus of this rivet is not known; give it, as in --rivet-modulus 26msi"))
            }
            Err(error @ (LapError::Flexibility(_) | LapError::Sharing(_))) => Err(Stop::wrong(error)),
            _ => Ok(()),
        }
    }

    /// What each sheet stands between its rivets. That it has a thickness and its rivets a pitch was seen with its strength.
    fn buckling(&self, question: &Installation<'_, '_>) -> Vec<LayerBuckling> {
        question.buckling(self.compression).flatten().collect()
    }

    pub(super) fn find(&self, finds: &mut impl Finds, rivet: &Part<'_>) {
        finds.all(rivet, &self.strength.joint.findings);
        for sheet in &self.buckled {
            finds.all(rivet, &sheet.findings);
        }
        for shared in self.shared() {
            finds.all(rivet, &shared.sharing.findings);
        }
        if !self.stacked.is_empty() {
            finds.one(rivet, &ELASTIC_ONLY);
        }
    }

    /// Whether the second sheet only lies on the first, so that the rivets carry what the shares say.
    pub(super) const fn is_doubler(&self) -> bool {
        matches!(self.transfer, Transfer::Doubler) && self.rows > 1
    }

    /// Whether there is more than one row.
    pub(super) const fn has_rows(&self) -> bool {
        self.rows > 1
    }

    fn shared(&self) -> &[Shared] {
        self.sharing.as_deref().unwrap_or_default()
    }

    /// What came in by the pack: the load on one pitch, or one pound.
    fn in_stack(&self) -> f64 {
        self.strip_load.map_or(1.0, Force::lbf)
    }

    /// The greatest share of a row in any plane of the pack, by one formula.
    fn of_stack(&self, layers: &Layers, row: usize) -> Option<f64> {
        let share = layers.row(row)?;
        let size = |force: &Force| force.lbf() / self.in_stack();
        share.planes.iter().map(size).max_by(|one, other| one.abs().total_cmp(&other.abs()))
    }

    /// Least and greatest share of each row, by the formulas used; of a pack in the plane that is sheared most.
    fn spans(&self) -> Vec<(f64, f64)> {
        if let Some((_, first)) = self.stacked.first() {
            let shares = |row| self.stacked.iter().filter_map(move |(_, layers)| self.of_stack(layers, row));
            return (0..first.rows())
                .map(|row| (shares(row).fold(f64::MAX, f64::min), shares(row).fold(f64::MIN, f64::max)))
                .collect();
        }
        let rows = self.shared().first().map_or(0, |shared| shared.sharing.rows().len());
        let share =
            |index: usize| self.shared().iter().filter_map(move |shared| Some(shared.sharing.row(index)?.share));
        (0..rows).map(|index| (share(index).fold(f64::MAX, f64::min), share(index).fold(f64::MIN, f64::max))).collect()
    }

    fn peak(&self) -> Option<usize> {
        let most = |(_, layers): &(Formula, Layers)| layers.most_on_one().map(|(row, _, most)| (row, most));
        if let Some((row, _)) =
            self.stacked.iter().filter_map(most).max_by(|(_, one), (_, other)| one.lbf().total_cmp(&other.lbf()))
        {
            return Some(row);
        }
        let size = |shared: &&Shared| shared.sharing.peak_row().map_or(0.0, |row| row.share.abs());
        let most = self.shared().iter().max_by(|one, other| size(one).total_cmp(&size(other)))?;
        Some(most.sharing.peak)
    }

    pub(super) fn form<'p>(&self, question: &Installation<'_, '_>, practice: &Practice<'p>) -> form::joint::Row<'p> {
        let strength = &self.strength;
        let on_an_inch = |known| form::RunningLoad::of(known, practice);
        let nets = strength.joint.sheets.iter().zip(&strength.net_sections);
        form::joint::Row {
            rows: u32::from(self.rows).into(),
            pitch: self.pitch.into(),
            transverse_pitch: self.apart.into(),
            rivets_per_inch: form::finite(strength.rivets_per_inch),
            per_inch: strength.per_inch.map(on_an_inch),
            yield_per_inch: strength.yield_per_inch.map(on_an_inch),
            governing: strength.governing.filter(|_| strength.per_inch.is_some()).map(|governing| {
                form::joint::RowGoverning { mode: governing.mode.into(), sheet: governing.layer.map(form::Nth::from) }
            }),
            net_sections: nets
                .map(|(sheet, net)| form::joint::RowNetSection {
                    sheet: sheet.layer().into(),
                    per_inch: net.map(on_an_inch),
                })
                .collect(),
            margin: strength.margin.map(|known| form::Margin::of(known, practice)),
            yield_margin: strength.yield_margin.map(|known| form::Margin::of(known, practice)),
            peak: strength.peak.map(|peak| form::joint::Peak {
                row: form::Nth::of(peak.row + 1),
                load: peak.load.force.into(),
                load_kind: peak.load.kind.into(),
            }),
            buckling: self
                .buckling(question)
                .iter()
                .map(|sheet| buckling_form(sheet.layer, sheet.found.as_ref(), practice))
                .collect(),
            sharing: (self.rows > 1).then(|| self.sharing_form(practice)),
        }
    }

    fn sharing_form<'p>(&self, practice: &Practice<'p>) -> form::joint::Sharing<'p> {
        form::joint::Sharing {
            transfer: match self.transfer {
                Transfer::Lap => form::joint::Transfer::Lap,
                Transfer::Doubler => form::joint::Transfer::Doubler,
            },
            strip_load: self.strip_load.map(form::Force::from),
            equal_share: self.equal_share(),
            shares: self.spans().into_iter().map(|(least, greatest)| form::joint::Share { least, greatest }).collect(),
            peak_row: self.peak().map(|peak| form::Nth::of(peak + 1)),
            formulas: self.shared().iter().map(|shared| self.shared_form(shared, practice)).collect(),
            layers: self
                .stacked
                .iter()
                .filter_map(|(formula, layers)| self.stack_form(*formula, layers, practice))
                .collect(),
            not_shared: self.sharing.as_ref().err().map(ToString::to_string),
        }
    }

    /// The share of a row if all took the same.
    fn equal_share(&self) -> Option<f64> {
        let of_stack = self.stacked.first().map(|(_, layers)| 1.0 / layers.rows() as f64);
        self.shared().first().map(|shared| shared.sharing.equal_share).or(of_stack)
    }

    fn stack_form<'p>(
        &self,
        formula: Formula,
        layers: &Layers,
        practice: &Practice<'p>,
    ) -> Option<form::joint::SharedInPack<'p>> {
        let (row, ..) = layers.most_on_one()?;
        let share = |force: &Force| form::joint::PackShare {
            share: force.lbf() / self.in_stack(),
            load: self.strip_load.map(|_| (*force).into()),
        };
        let of_row = |LayerShare { planes, plates, bearing, .. }| form::joint::PackRow {
            planes: planes.iter().map(share).collect(),
            bearing: bearing.iter().map(share).collect(),
            bearing_bypass: plates.iter().map(Passing::bearing_bypass).collect(),
        };
        Some(form::joint::SharedInPack {
            formula: formula.as_str(),
            rows: (0..layers.rows()).filter_map(|row| layers.row(row)).map(of_row).collect(),
            peak_row: form::Nth::of(row + 1),
            basis: form::Basis::of(layers.basis, practice),
        })
    }

    fn shared_form<'p>(&self, shared: &Shared, practice: &Practice<'p>) -> form::joint::SharedBy<'p> {
        let sharing = &shared.sharing;
        let loaded = |force: Force| self.strip_load.map(|_| force.into());
        let passing = |passing: &Passing| form::joint::PlateAtRow {
            gross: loaded(passing.gross),
            bypass: loaded(passing.bypass),
            bearing: loaded(passing.bearing),
            bearing_share: passing.bearing_share(),
            bearing_bypass: passing.bearing_bypass(),
        };
        let rows = sharing.rows().map(|row| form::joint::RowShare {
            share: row.share,
            load: loaded(row.load),
            first_plate: passing(&row.in_a),
            other_plate: passing(&row.in_b),
        });
        form::joint::SharedBy {
            formula: shared.formula.as_str(),
            flexibility: form::joint::Flexibility {
                in_per_lbf: shared.flexibility.in_per_lbf(),
                mm_per_n: shared.flexibility.mm_per_newton(),
            },
            rivet_modulus: shared.rivet_modulus.0.into(),
            rivet_modulus_given: shared.rivet_modulus.1.is_none(),
            rows: rows.collect(),
            peak_row: form::Nth::of(sharing.peak + 1),
            stiffness_ratio: form::finite(sharing.stiffness_ratio),
            basis: form::Basis::of(shared.basis, practice),
            formula_basis: form::Basis::of(shared.formula.basis(), practice),
        }
    }

    /// Beside the answer for one rivet.
    pub(super) fn pairs(&self, pair: &mut impl FnMut(&str, String), context: &Context<'_>) {
        let units = context.units;
        let name = if self.rows == 1 { "the row carries" } else { "the rows carry" };
        match (self.strength.per_inch, self.strength.governing) {
            (Some(load), Some(governing)) => {
                let sheet = governing.layer.map_or_else(String::new, |sheet| format!(", sheet {sheet}"));
                let mark = memory_mark(load.basis);
                let mode = words::row_mode(governing.mode);
                pair(name, format!("{}{mark}; then {mode}{sheet}", units.running_load(load.force)));
            }
            _ if self.transfer == Transfer::Doubler && self.rows > 1 => {}
            _ => pair(name, "not published for this case".to_owned()),
        }
        if let Some(margin) = self.strength.margin.filter(|_| self.rows > 1) {
            let (load, kind) = (units.force(margin.load.force), margin.load.kind.as_str());
            let yields = self
                .strength
                .yield_margin
                .map_or_else(String::new, |yields| format!("; {:+.2} at yield under limit load", yields.value));
            pair("margin of the rows", format!("{:+.2} under {load} {kind} load{yields}", margin.value));
        }
        if let Some(peak) = self.strength.peak {
            let (load, kind) = (units.force(peak.load.force), peak.load.kind.as_str());
            let number = peak.row + 1;
            pair(
                "most on one rivet",
                format!("{load} of the {kind} load, row {number}, by the stiffest of the formulas"),
            );
        }
    }

    pub(super) fn text(&self, report: &mut Report, question: &Installation<'_, '_>, context: &Context<'_>) {
        let units = context.units;
        let buckling = self.buckling(question);
        report.heading(&format!("Between the rivets, {} apart", units.length(self.pitch)));
        let rows = self.strength.joint.sheets.iter().zip(&self.strength.net_sections).map(|(sheet, net)| {
            let net = net.map_or_else(
                || "not published".to_owned(),
                |net| format!("{}{}", units.running_load(net.force), memory_mark(net.basis)),
            );
            let buckles = buckling.iter().find(|of_layer| of_layer.layer == sheet.layer());
            let buckles = buckles.and_then(|of_layer| of_layer.found.as_ref()).map_or_else(
                || "not known".to_owned(),
                |found| {
                    let at_least = if found.elastic > found.elastic_up_to { "at least " } else { "" };
                    format!("{at_least}{}{}", units.stress(found.stands()), memory_mark(found.basis))
                },
            );
            vec![sheet.layer().to_string(), net, buckles]
        });
        let rows = rows.collect();
        report
            .text
            .push(Block::Table(Table { columns: vec!["sheet", "net section", "buckles in compression at"], rows }));
        if self.rows < 2 {
            return;
        }
        report.heading(&format!("How the {} rows share the load, {} apart", self.rows, units.length(self.apart)));
        if let Err(error) = &self.sharing {
            report.paragraph(format!("Not worked out: {error}."));
            return;
        }
        let percent = |share: f64| format!("{:.1} %", share * 100.0);
        for (formula, layers) in &self.stacked {
            report.paragraph(format!("What one rivet is sheared by between each two layers, by {}:", formula.as_str()));
            let row = |index: usize| {
                let planes = layers.row(index)?.planes;
                let share = |force: &Force| match self.strip_load {
                    Some(_) => format!("{} ({})", percent(force.lbf() / self.in_stack()), units.force(*force)),
                    None => percent(force.lbf() / self.in_stack()),
                };
                Some(std::iter::once((index + 1).to_string()).chain(planes.iter().map(share)).collect())
            };
            let rows: Vec<Vec<String>> = (0..layers.rows()).filter_map(row).collect();
            let planes = rows.first().map_or(0, Vec::len);
            let columns = ["row", "plane 1", "plane 2", "plane 3", "plane 4"].into_iter().take(planes).collect();
            report.text.push(Block::Table(Table { columns, rows }));
        }
        if let Some(basis) = self.stacked.iter().map(|(_, layers)| layers.basis).reduce(Basis::weaker) {
            report.paragraph(format!("The weakest of the shares' figures rests on: {}.", context.practice.cite(basis)));
        }
        let rows = (0..self.spans().len()).map(|index| {
            let mut cells = vec![(index + 1).to_string()];
            for shared in self.shared() {
                let row = shared.sharing.row(index);
                cells.push(row.map_or_else(String::new, |row| match self.strip_load {
                    Some(_) => format!("{} ({})", percent(row.share), units.force(row.load)),
                    None => percent(row.share),
                }));
            }
            cells
        });
        let rows = rows.collect();
        let mut columns = vec!["row"];
        columns.extend(self.shared().iter().map(|shared| shared.formula.as_str()));
        if self.stacked.is_empty() {
            report.text.push(Block::Table(Table { columns, rows }));
        }
        let bypassed = self.shared().iter().filter_map(|shared| {
            let ratio = shared.sharing.row(0)?.in_a.bearing_bypass()?;
            Some(format!("{ratio:.2} ({})", shared.formula.as_str()))
        });
        let bypassed = bypassed.collect::<Vec<_>>().join(", ");
        if !bypassed.is_empty() {
            report.paragraph(format!(
                "Bearing over bypass load in row 1: {bypassed}. The higher it is, the sooner a row cracks, all else alike. No life follows \
                 from it: fatigue is for the type's data."
            ));
        }
        let moduli: Vec<(Stress, Option<Basis>)> =
            self.shared().iter().map(|shared| shared.rivet_modulus).take(1).collect();
        for (modulus, basis) in moduli {
            if let Some(basis) = basis {
                report.paragraph(format!(
                    "Modulus of the rivet: {}, assumed [{}].",
                    units.modulus(modulus),
                    context.practice.cite(basis)
                ));
            }
        }
        if self.shared().len().max(self.stacked.len()) > 1 {
            report.paragraph(
                "The formulas differ by a factor of two to three and no document says which is right: the rivet that carries most is judged \
                 by the greatest of them.",
            );
        }
    }

    /// A drawing of the shares; `None` where there are none.
    pub(super) fn drawing(&self, name: &str, context: &Context<'_>) -> Option<String> {
        let peak = self.peak()?;
        let bars: Vec<RowBar> = self
            .spans()
            .into_iter()
            .enumerate()
            .map(|(index, share)| RowBar {
                share,
                load: self.strip_load.map(|load| load * share.0.abs().max(share.1.abs())),
                is_peak: index == peak,
            })
            .collect();
        let of_stack = self.stacked.iter().map(|(formula, _)| formula.as_str());
        let formulas: Vec<&str> = self.shared().iter().map(|shared| shared.formula.as_str()).chain(of_stack).collect();
        let is_lap = self.transfer == Transfer::Lap;
        let plates = match (self.shear, is_lap) {
            (Shear::Single, true) => ("first sheet", "last sheet"),
            (Shear::Double, true) => ("middle sheet", "outer sheets"),
            (Shear::Single, false) => ("first sheet", "doubler"),
            (Shear::Double, false) => ("middle sheet", "outer doublers"),
        };
        Some(drawing::rows(&RowsDrawing {
            rows: &bars,
            equal_share: self.equal_share().filter(|_| is_lap),
            formulas: &formulas.join(" and "),
            name: &format!("{name}, {} apart", context.units.length(self.apart)),
            plates,
            is_lap,
            units: context.units,
        }))
    }
}
