//! The seat of a flush head: which layers are countersunk or dimpled for it, and whether they are thick enough.
//!
//! A seat is judged where the metal is least: in the thinnest sheet of the tolerance, by the deepest head.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Severity, Sink};
use crate::practice::{Dimension, ForCase, Given, Key, Name};
use crate::rivet::HeadSize;
use crate::rivet::part::Part;
use crate::stack::{Layer, Preparation, Role, Stack};

/// Whether the layers take the rivet's head; without them only whether its dimensions are known.
#[inline(never)]
pub(crate) fn check_seat(rivet: &Part<'_>, stack: Option<&Stack>, limits: &ForCase<'_>, push: &mut Sink<'_>) {
    let head = rivet.head_counted();
    if rivet.series().head.is_flush() && rivet.size().head.is_none() {
        push(head_not_known(rivet));
    }
    let Some(stack) = stack else { return };
    let is_sunk = |layer: &Layer| layer.preparation != Preparation::Plain;
    let numbered = || stack.layers().iter().zip(1_u8..);
    if !rivet.series().head.is_flush() {
        if let Some((_, number)) = numbered().find(|(layer, _)| is_sunk(layer)) {
            push(Finding::new(Code::SeatWithoutFlushHead, Severity::Refer, Basis::SEAT).in_layer(number));
        }
        return;
    }
    if !stack.layers().iter().any(is_sunk) {
        push(Finding::new(Code::FlushHeadWithoutSeat, Severity::Refer, Basis::SEAT));
        return;
    }
    let mut plain_above = false;
    for (layer, number) in numbered() {
        if is_sunk(layer) && plain_above {
            // The first one says it: what lies under it is no seat either.
            push(Finding::new(Code::SeatInWrongLayer, Severity::Refer, Basis::SEAT).in_layer(number));
            break;
        }
        // Sealant takes the form of what lies about it.
        plain_above |= !is_sunk(layer) && layer.role != Role::Sealant;
    }
    let Some(head) = head else { return };
    for (layer, number) in numbered() {
        match layer.preparation {
            Preparation::Plain => {}
            Preparation::Countersunk => check_countersink(&head, layer, number, limits, push),
            Preparation::Dimpled => {
                let sheet = layer.thickness.nominal();
                if let Some(greatest) = limits.length(Name::DimpleSheetGreatest)
                    && sheet > greatest.value
                {
                    push(Finding::against(Code::DimpleTooThick, Severity::Caution, sheet, &greatest).in_layer(number));
                }
            }
        }
    }
}

/// That the head of a flush rivet is not on file: either of its dimensions gives the other. Of an oversize one it is counted between two others.
pub(crate) fn head_not_known(rivet: &Part<'_>) -> Finding {
    let key = Key::of_size(rivet, Dimension::HeadHeight);
    let Some(between) = rivet.head_counted() else {
        return Finding::unknown(Code::NoLimit, Severity::Refer, rivet.series().unknown.head, key);
    };
    let highest = between.height.map_or(between.height_nominal, |height| height.max());
    let found = Finding::unknown(Code::HeadBetween, Severity::Caution, between.basis, key);
    found.with_measured(Figure::Length(highest))
}

/// That the limits of a shank are not on file.
pub(crate) fn shank_not_known(rivet: &Part<'_>) -> Finding {
    let key = Key::of_size(rivet, Dimension::Shank);
    Finding::unknown(Code::NoLimit, Severity::Refer, rivet.series().unknown.shank, key)
}

fn check_countersink(head: &HeadSize, layer: &Layer, number: u8, limits: &ForCase<'_>, push: &mut Sink<'_>) {
    let sheet = layer.thickness.min();
    let deepest = head.height.map_or(head.height_nominal, |height| height.max());
    // The sheet that a head needs: its height over the share of the sheet that it may take.
    let for_share = |name, severity| {
        let Given { value: (num, den), basis } = limits.fraction(name)?;
        Some((severity, Given { value: deepest.times(den, num), basis }))
    };
    let least = limits.length(Name::CountersinkSheetLeast).map(|least| (Severity::Refer, least));
    // One finding a layer: the most serious, then the one that asks for most.
    let needs = [
        for_share(Name::CountersinkDepthShare, Severity::Refer),
        least,
        for_share(Name::CountersinkDepthPreferred, Severity::Caution),
    ];
    let short_of = needs.into_iter().flatten().filter(|(_, needed)| sheet < needed.value);
    if let Some((severity, needed)) = short_of.max_by_key(|(severity, needed)| (*severity, needed.value)) {
        push(Finding::against(Code::CountersinkTooDeep, severity, sheet, &needed).in_layer(number));
    }
}
