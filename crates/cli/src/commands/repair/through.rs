//! `shophead repair rows --from --to`: how rows share a load over the layers of a stack.

use shophead::joint::flexibility::Formula;
use shophead::joint::layers::{Layers, StackRows, through_stack};
use shophead::joint::margin::{Load, margin};
use shophead::joint::sharing::ELASTIC_ONLY;
use shophead::joint::strength::Shear;
use shophead::repair::in_row::in_row;
use shophead::words::Units;
use shophead::working;

use super::answer::{LayerRowAnswer, LayersAnswer};
use super::rows::Asked;
use crate::context::Context;
use crate::exit::Stop;
use crate::form;
use crate::input;
use crate::repair_args::RowsArgs;
use crate::report::{Block, Record, Report, Table};

pub(super) fn run<'a>(
    args: &RowsArgs,
    asked: &Asked,
    (from, to): (u8, u8),
    report: &mut Report<'a>,
    context: &Context<'a>,
) -> Result<Vec<LayersAnswer<'a>>, Stop> {
    let Some((load, factors)) = asked.load else { return Err(Stop::wrong("--from needs a load; give --load")) };
    let modulus = args.rivet_modulus.as_deref().map(|text| input::stress("--rivet-modulus", text)).transpose()?;
    let width = asked.pitch.to_inches_f64() / asked.across.to_inches_f64();
    let through = StackRows::new(&asked.rivet, &asked.stack, asked.pitch, args.rows, (from, to))
        .apart(asked.apart)
        .load(load.force * width)
        .rivet_modulus(modulus)
        .practice(context.practice);
    // Plane by plane a rivet is in single shear.
    let rows = asked.rows(args, context).shear(Shear::Single);
    let found = in_row(&rows).map_err(Stop::wrong)?;
    let subject = asked.rivet.to_string();
    report.find_all(context, &subject, &found.findings);
    report.find(context, &subject, [&ELASTIC_ONLY]);
    let every = Formula::for_rivets(Shear::Single);
    let every = every.map(|formula| through_stack(&through, formula).map(|shared| (formula, shared)));
    let every: Vec<(Formula, Layers)> = every.collect::<Result<_, _>>().map_err(Stop::wrong)?;
    let margin_of = |shared: &Layers| {
        // The margin of the worst place is that of the load there.
        let worst = found.weakest_place(shared)?;
        margin(worst.carries, Load { force: worst.load, ..load }, factors).ok()
    };
    let margins: Vec<_> = every.iter().map(|(_, shared)| margin_of(shared)).collect();
    let least = margins.iter().flatten().min_by(|one, other| one.value.total_cmp(&other.value));
    report.find(context, &subject, &least.and_then(|least| least.negative()));
    report.work(context, |work| {
        working::repair::of_stack((&rows, &found), (&through, &every), (load, factors, asked.across), work);
    });
    let margins: Vec<Option<f64>> = margins.iter().map(|margin| margin.map(|margin| margin.value)).collect();
    tell(&every, &margins, (&subject, least.map(|least| least.value)), report, context.units);
    let answer = every.iter().zip(&margins).filter_map(|((formula, shared), margin)| {
        let (peak_row, peak_plane, peak) = shared.peak()?;
        let rows = (0..shared.rows()).filter_map(|row| shared.row(row)).map(|row| LayerRowAnswer {
            planes: row.planes.iter().map(|force| (*force).into()).collect(),
            bearing: row.bearing.iter().map(|force| (*force).into()).collect(),
            bearing_bypass: row.plates.iter().map(|plate| plate.bearing_bypass()).collect(),
        });
        Some(LayersAnswer {
            formula: (*formula).into(),
            rows: rows.collect(),
            peak_row: peak_row.saturating_add(1),
            peak_plane,
            peak: peak.into(),
            margin: *margin,
            basis: form::Basis::of(shared.basis, context.practice),
        })
    });
    Ok(answer.collect())
}

/// As text and as rows.
fn tell(
    every: &[(Formula, Layers)],
    margins: &[Option<f64>],
    (subject, least): (&str, Option<f64>),
    report: &mut Report<'_>,
    units: Units,
) {
    let rows = every.first().map_or(0, |(_, shared)| shared.rows());
    let margin = least
        .map_or_else(|| "no margin: a strength is not published".to_owned(), |margin| format!("margin {margin:+.2}"));
    report.text.insert(0, Block::Answer(format!("{subject}   {rows} rows: {margin}")));
    for ((formula, shared), margin) in every.iter().zip(margins) {
        report.heading(&format!("Each plane of one rivet, by {}", formula.as_str()));
        let planes = shared.row(0).map_or(0, |row| row.planes.len());
        let names = ["row", "sheet 1 to 2", "sheet 2 to 3", "sheet 3 to 4", "sheet 4 to 5"];
        let ratios = ["bearing/bypass 1", "2", "3", "4", "5"];
        let plates = planes.saturating_add(1);
        let columns = names.into_iter().take(plates).chain(ratios.into_iter().take(plates)).collect();
        let cells = (0..rows).filter_map(|row| Some((row, shared.row(row)?))).map(|(row, share)| {
            let number = row.saturating_add(1).to_string();
            let ratio = |ratio: Option<f64>| ratio.map_or_else(|| "-".to_owned(), |ratio| format!("{ratio:.2}"));
            let ratios = share.plates.iter().map(|plate| ratio(plate.bearing_bypass()));
            let planes = share.planes.iter().map(|force| units.force(*force).to_string());
            std::iter::once(number).chain(planes).chain(ratios).collect()
        });
        let cells = cells.collect();
        report.text.push(Block::Table(Table { columns, rows: cells }));
        for (row, share) in (0..rows).filter_map(|row| Some((row, shared.row(row)?))) {
            let mut record = Record::new(units);
            record.text("formula", formula.as_str()).text("row", row.saturating_add(1));
            for (plane, name) in ["plane_1", "plane_2", "plane_3", "plane_4"].into_iter().enumerate() {
                record.force(name, share.planes.get(plane).copied());
            }
            record.ratio("margin", *margin).findings(&report.findings);
            report.rows.push(record);
        }
    }
    report.paragraph(
        "Elastic shares, a strip of one pitch. Bearing/bypass is what a rivet puts into a sheet over what that sheet carries past it: the \
         higher, the sooner the row cracks, all else alike. No life follows from it: fatigue is for the type's data.",
    );
}
