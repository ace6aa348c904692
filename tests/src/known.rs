//! Everything that can be known of a rivet in its pack, at random: what the laws ask core, and what they ask each edge of the product.

use std::collections::BTreeSet;

use proptest::prelude::*;
use shophead::finding::{Code, Finding, Severity};
use shophead::installation::Installation;
use shophead::length::{Length, Toleranced};
use shophead::material::Material;
use shophead::practice::{BUILT_IN, Practice};
use shophead::rivet::part::Part;
use shophead::stack::{Layer, MAX_LAYERS, Preparation, Role, Stack};
use shophead::structure::{Member, Structure};

use crate::prelude::{THOUSANDTH, nm};

/// Everything that can be known of a rivet in its pack. What is `None` was not given.
#[derive(Debug, Clone)]
pub struct Known {
    /// The rivet, without a length.
    pub rivet: Part<'static>,
    /// What it goes through.
    pub stack: Stack,
    /// Whose limits hold.
    pub practice: &'static Practice<'static>,
    /// The hole as measured.
    pub hole: Option<Toleranced>,
    /// To the nearest edge.
    pub edge: Option<Length>,
    /// From hole to hole.
    pub pitch: Option<Length>,
    /// Rows of the pattern.
    pub rows: u16,
    /// From row to row.
    pub row_spacing: Option<Length>,
    /// How much hangs on it.
    pub structure: Option<Structure>,
    /// What the row runs along.
    pub member: Option<Member>,
    /// What was there before.
    pub installed: Option<Part<'static>>,
}

impl Known {
    /// The question with all of it.
    #[must_use]
    pub fn question(&self) -> Installation<'_, 'static> {
        let mut question = Installation::new(self.rivet, &self.stack).by(self.practice).rows(self.rows);
        if let Some(hole) = self.hole {
            question = question.in_hole(hole);
        }
        if let Some(edge) = self.edge {
            question = question.edge(edge);
        }
        if let Some(pitch) = self.pitch {
            question = question.pitch(pitch);
        }
        if let Some(spacing) = self.row_spacing {
            question = question.row_spacing(spacing);
        }
        if let Some(structure) = self.structure {
            question = question.structure(structure);
        }
        if let Some(member) = self.member {
            question = question.member(member);
        }
        if let Some(installed) = self.installed {
            question = question.in_place_of(installed);
        }
        question
    }
}

/// Layers as a pack.
///
/// # Panics
/// Where there are more than a pack holds.
#[must_use]
pub fn stacked(layers: &[Layer]) -> Stack {
    let mut stack = Stack::new();
    for layer in layers {
        stack.push(*layer).expect("room");
    }
    stack
}

fn layers() -> impl Strategy<Value = Stack> {
    let thickness = prop::sample::select(vec![16_i64, 20, 25, 32, 40, 50, 63, 71, 80, 125, 190, 250, 400]);
    let material = prop::sample::select(vec![None, Some("clad 2024-T3"), Some("2024-T3"), Some("7075-T6")]);
    let seat = prop::sample::select(vec![
        Preparation::Plain,
        Preparation::Plain,
        Preparation::Plain,
        Preparation::Countersunk,
        Preparation::Dimpled,
    ]);
    let role = prop::sample::select(vec![Role::Skin, Role::Skin, Role::Doubler, Role::Cap, Role::Shim]);
    let layer = (thickness, -1_i64..=2, material, seat, role).prop_map(|(thick, off, material, preparation, role)| {
        Layer::of(
            Toleranced::new(nm(thick * THOUSANDTH), nm(off.max(0) * THOUSANDTH), nm(off.max(0) * THOUSANDTH))
                .expect("tolerances"),
        )
        .role(role)
        .material(material.map(|word| Material::parse(word).expect("a material")))
        .preparation(preparation)
    });
    prop::collection::vec(layer, 2..=MAX_LAYERS).prop_map(|layers| stacked(&layers))
}

/// A rivet of a standard that is listed, without a length.
pub fn rivet() -> impl Strategy<Value = Part<'static>> {
    let series = prop::sample::select(vec!["MS20470", "MS20426", "NAS1097", "NAS1242"]);
    (series, prop::sample::select(vec!["AD", "D", "DD", "B", "A"]), 2_u8..=10)
        .prop_filter_map("a rivet of the standard", |(series, alloy, dash)| {
            Part::parse(&format!("{series}{alloy}{dash}")).ok()
        })
}

/// Any rivet in any pack, with more or less known of it.
pub fn known() -> impl Strategy<Value = Known> {
    let thousandths = |range: std::ops::Range<i64>| prop::option::of(range.prop_map(|value| nm(value * THOUSANDTH)));
    let around = (rivet(), layers(), prop::sample::select(BUILT_IN.to_vec()), prop::option::of((-4_i64..24, 0_i64..4)));
    let distances = (thousandths(100..800), thousandths(100..1_200), 1_u16..=3, thousandths(100..1_000));
    let place = (
        prop::option::of(prop::sample::select(Structure::ALL)),
        prop::option::of(prop::sample::select(Member::ALL)),
        prop::option::of(rivet()),
        prop::bool::ANY,
    );
    (around, distances, place).prop_map(
        |((rivet, stack, practice, hole), (edge, pitch, rows, row_spacing), (structure, member, installed, same))| {
            let shank = rivet.size().shank_nominal.nanometres();
            let hole = hole.map(|(least, more)| {
                Toleranced::new(nm(shank + least * THOUSANDTH), Length::ZERO, nm(more * THOUSANDTH)).expect("a hole")
            });
            let installed = installed.map(|other| if same { rivet } else { other });
            Known { rivet, stack, practice, hole, edge, pitch, rows, row_spacing, structure, member, installed }
        },
    )
}

/// What scripts compare: the kind, how serious, and which layer.
pub fn told<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> BTreeSet<(Code, Severity, Option<u8>)> {
    findings.into_iter().map(|finding| (finding.code(), finding.severity(), finding.layer())).collect()
}

impl Known {
    /// The layers as they are typed.
    #[must_use]
    pub fn layers(&self) -> String {
        let short = |length: Length| format!("{:.3}", length.to_inches_f64()).trim_start_matches('0').to_owned();
        let typed = |layer: &Layer| {
            let thickness = layer.thickness;
            let over = thickness.max().checked_sub(thickness.nominal()).expect("a tolerance");
            let mut text = layer.material.map_or(String::new(), |material| format!("{material}:"));
            text.push_str(&short(thickness.nominal()));
            if over > Length::ZERO {
                text.push_str("+-");
                text.push_str(&short(over));
            }
            if layer.preparation != Preparation::Plain {
                text.push(':');
                text.push_str(layer.preparation.as_str());
            }
            if layer.role != Role::Skin {
                text.push(':');
                text.push_str(layer.role.as_str());
            }
            text
        };
        self.stack.layers().iter().map(typed).collect::<Vec<_>>().join(",")
    }
}
