//! The edges that a panel is cut to, and how far the holes of a row stand from them.

use shophead::finding::{Code, Finding};
use shophead::installation::Installation;
use shophead::layout::RowLayout;
use shophead::length::Length;
use shophead::trim::{Curve, Cut, Station, check_beyond};

use super::make::{push, push_all};
use super::{EdgePlan, RowCut};
use crate::model::{EdgeShape, PanelEdge, Row};

pub(super) fn plan_edge(edge: &PanelEdge) -> Option<EdgePlan<'_>> {
    let (cut, table) = match &edge.shape {
        EdgeShape::Corners(corners) => {
            let table = corners.iter().map(|corner| Station { at: corner.x, offset: corner.y }).collect();
            (Cut::Corners(corners), table)
        }
        // The reader has let only such stations through as make an edge.
        EdgeShape::Stations(stations, line) => {
            let curve = Curve::through(stations).ok()?;
            let curve = line.map_or(curve.clone(), |line| curve.along(line));
            let table = curve.table(edge.every).collect();
            (Cut::Measured(curve), table)
        }
    };
    Some(EdgePlan { edge, cut, table, sides: (0, 0), findings: Vec::new() })
}

/// The distances of a row to every cut that it is checked against, with what is found about the closest hole.
pub(super) fn row_cuts<'j>(
    index: usize,
    row: &Row,
    edges: &mut [EdgePlan<'j>],
    question: &Installation<'_, '_>,
    findings: &mut Vec<Finding>,
) -> Vec<RowCut> {
    let mut cuts = Vec::new();
    let at = |edge| question.layout(RowLayout::default()).new_edge(edge).distances();
    if !row.has_places() {
        return cuts;
    }
    for (number, plan) in edges.iter_mut().enumerate() {
        if plan.edge.rows.as_ref().is_some_and(|rows| !rows.contains(&index)) {
            continue;
        }
        let mut cut = RowCut {
            edge: number,
            distances: Vec::with_capacity(row.count as usize),
            closest: (1, Length::MAX),
            short: Vec::new(),
            beyond: Vec::new(),
        };
        for hole in 1..=row.count {
            let Some((point, distance)) = row.place_of(hole).and_then(|point| Some((point, plan.cut.distance(point)?)))
            else {
                break;
            };
            match plan.cut.is_above(point) {
                Some(true) => plan.sides.1 += 1,
                Some(false) => plan.sides.0 += 1,
                None => {}
            }
            if plan.cut.is_beyond(point) {
                cut.beyond.push(hole);
            }
            if distance < cut.closest.1 {
                cut.closest = (hole, distance);
            }
            if at(distance).has(Code::EdgeDistanceShort) {
                cut.short.push(hole);
            }
            cut.distances.push(distance);
        }
        push_all(findings, &at(cut.closest.1));
        if let Some(finding) = check_beyond(cut.beyond.len() as u32) {
            push(findings, finding);
        }
        cuts.push(cut);
    }
    cuts
}
