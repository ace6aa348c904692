//! The checks that run whatever is asked.

use super::Installation;
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Severity, Sink};
use crate::hole::HoleLimits;
use crate::joint::compare::{check_shank, check_substitute};
use crate::joint::strength::{Shear, check_bearing_range};
use crate::layout::{Point, check_edge, check_pitch, check_row_spacing};
use crate::length::{Length, Toleranced};
use crate::practice::{ForCase, Given, Key, Name, Practice};
use crate::seat::{check_seat, shank_not_known};
use crate::select::{check_alloy, check_diameter};
use crate::stack::{Preparation, Role, Stack};

impl Installation<'_, '_> {
    /// Every check that applies to what is known.
    pub(super) fn check(&self, push: &mut Sink<'_>) {
        self.check_in(&self.practice.for_case(&self.case()), push);
    }

    /// The same, where the case is at hand.
    #[inline(never)]
    pub(super) fn check_in(&self, limits: &ForCase<'_>, push: &mut Sink<'_>) {
        if let Some(stack) = self.stack {
            if let Some((layer, thickest)) = stack.thickest_layer() {
                check_diameter(self.rivet.series(), limits, (Some(layer), thickest), self.structure, push);
            }
            let hole = self.hole.map(|hole| hole.max());
            let by = (self.practice, self.unpublished());
            check_bearing_range(&self.rivet, (hole, self.edge_in_load.or(self.layout.edge)), stack, by, push);
        }
        check_seat(&self.rivet, self.stack, limits, push);
        check_alloy(&self.rivet, self.structure, push);
        self.check_entry(limits, push);
        self.check_hole(limits, push);
        self.check_distances(limits, push);
        self.check_touching(push);
        self.check_load_path(push);
        if let Some(installed) = &self.installed {
            check_substitute(installed, &self.rivet, push);
            check_shank(installed, &self.rivet, push);
        }
    }

    /// Two rivets closer than their heads are wide, along the row, from row to row or from one to the next across the gap.
    fn check_touching(&self, push: &mut Sink<'_>) {
        let size = self.rivet.size();
        let (wide, basis) =
            size.head.map_or((size.shank_nominal, size.basis), |head| (head.diameter_nominal, head.basis));
        let apart = self.layout.transverse_pitch.filter(|_| self.rows > 1).map(|rows| {
            let across = self.layout.pitch.filter(|_| self.staggered).map_or(Length::ZERO, |pitch| pitch.times(1, 2));
            Point::default().distance(Point { x: across, y: rows })
        });
        let least = Given { value: wide, basis };
        if let Some(closest) = self.layout.pitch.into_iter().chain(apart).min().filter(|closest| *closest < wide) {
            push(Finding::against(Code::RivetsTouch, Severity::Refer, closest, &least));
        }
    }

    /// A shank that is thicker than the hole is wide.
    fn check_entry(&self, limits: &ForCase<'_>, push: &mut Sink<'_>) {
        let Some(shank) = self.rivet.size().shank else {
            push(shank_not_known(&self.rivet));
            return;
        };
        let hole = self.hole_or_drilled_in(limits).value;
        let found = |code, severity, shank| {
            let limit = Given { value: shank, basis: self.rivet.size().basis };
            Finding::against(code, severity, hole.min(), &limit)
        };
        if hole.max() < shank.min() {
            push(found(Code::ShankDoesNotEnter, Severity::Refer, shank.min()));
        } else if hole.min() < shank.max() {
            push(found(Code::ShankMayNotEnter, Severity::Note, shank.max()));
        }
    }

    /// A hole outside what the rivet allows: as measured, or where none was, as the practice's own drill makes it.
    fn check_hole(&self, for_case: &ForCase<'_>, push: &mut Sink<'_>) {
        let as_drilled = || Some(Toleranced::exactly(for_case.length(Name::HoleDrill)?.value));
        let Some(hole) = self.hole.or_else(as_drilled) else { return };
        let limits = HoleLimits::of_case(for_case);
        match limits.greatest {
            Some(greatest) if hole.max() > greatest.value => {
                push(Finding::against(Code::HoleOverLimit, Severity::Refer, hole.max(), &greatest));
            }
            // Of a hole that nobody measured there is no more to say.
            _ if self.hole.is_none() => {}
            None => push(no_hole_limit()),
            Some(greatest) => {
                // Gauges tell that a hole is within the limits, not how wide it is.
                let drilled = for_case.hole().filter(|_| !self.gauged);
                if drilled.is_some_and(|drilled| hole.max() > drilled.value.max()) {
                    push(Finding::against(Code::HoleAboveDrill, Severity::Caution, hole.max(), &greatest));
                }
                if let Some(note) = Finding::from_memory(&greatest) {
                    push(note);
                }
            }
        }
        if let Some(least) = limits.least.filter(|least| hole.min() < least.value) {
            push(Finding::against(Code::HoleUnderLimit, Severity::Refer, hole.min(), &least));
        }
    }

    /// Edge distance, pitch and row spacing. What is as the maker built it is copied, not condemned.
    pub(super) fn check_distances(&self, limits: &ForCase<'_>, push: &mut Sink<'_>) {
        let as_built = self.is_as_built();
        if let Some(edge) = self.layout.edge {
            check_edge(edge, limits, as_built && !self.new_edge, push);
        }
        if let Some(pitch) = self.layout.pitch {
            check_pitch(pitch, limits, as_built, push);
        }
        if let Some(spacing) = self.layout.transverse_pitch {
            check_row_spacing(spacing, self.layout.pitch, limits, as_built, push);
        }
    }

    /// What makes the load go another way than the strengths suppose.
    fn check_load_path(&self, push: &mut Sink<'_>) {
        let Some(stack) = self.stack else { return };
        // One shim or several: the first one says it.
        if let Some((shim, number)) = stack.layers().iter().zip(1_u8..).find(|(layer, _)| layer.role == Role::Shim) {
            let found = Finding::new(Code::ShimInPack, Severity::Caution, Basis::SHIM).in_layer(number);
            push(found.with_measured(Figure::Length(shim.thickness.nominal())));
        }
        if let Some(layer) = wet_layer(stack, self.practice).filter(|_| !self.is_as_built()) {
            push(Finding::new(Code::WetBearing, Severity::Caution, Basis::HDBK5J_WET_PIN).in_layer(layer));
        }
        if self.shear != Shear::Double {
            return;
        }
        let mut carrying = stack.load_carrying().map(|layer| layer.thickness.nominal());
        let (first, last) = (carrying.next(), carrying.last());
        if let (Some(first), Some(last)) = (first, last)
            && first != last
        {
            let found = Finding::new(Code::UnequalSheets, Severity::Caution, Basis::UNEQUAL_SHEETS);
            push(found.with_measured(Figure::Length(first.min(last))).with_limit(Figure::Length(first.max(last))));
        }
    }
}

/// That the practice has no largest hole for the rivet.
pub(super) fn no_hole_limit() -> Finding {
    let key = Some(Key::of_limit(Name::HoleGreatest));
    Finding::unknown(Code::NoLimit, Severity::Refer, Basis::NO_HOLE, key)
}

/// The layer of sealant, where a sheet of the stack has bearing strengths for dry holes.
fn wet_layer(stack: &Stack, practice: &Practice<'_>) -> Option<u8> {
    let (_, number) = stack.layers().iter().zip(1..).find(|(layer, _)| layer.role == Role::Sealant)?;
    let dry = stack.load_carrying().any(|layer| {
        let known = layer.material.map(|material| practice.sheet(material, layer.thickness.nominal()));
        let heading = known.and_then(|sheet| sheet.heading());
        layer.preparation == Preparation::Plain && heading.is_some_and(|heading| heading.bearing_dry_pin == Some(true))
    });
    dry.then_some(number)
}
