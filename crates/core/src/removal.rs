//! Taking old rivets out without stretching a hole or bending what lies under it.

use crate::basis::Basis;
use crate::drill::Drill;
use crate::length::Length;
use crate::practice::{Case, Given, Name, Practice};
use crate::rivet::part::Part;
use crate::stack::{Role, Stack};

crate::words::words! {
    /// Why taking a rivet out is risky, and what to do about it.
    #[non_exhaustive]
    Risk, "risk" {
        ThickPack = 1, "thick-pack", "Thick pack: the shank sits tight.";
        ManyLayers = 2, "many-layers", "Many layers: burrs between them hold the shank.";
        ThinFarSide = 3, "thin-far-side", "Thin layer under the driven head: back it up beside the head.";
        CloseToEdge = 4, "close-to-edge", "Close to an edge: keep the punch straight.";
        ThickMember = 5, "thick-member", "Thick member behind the skin: back it up, guide the drill square, and do not touch its hole.";
        Tab = 6, "tab", "Tab or bracket foot under the driven head: hold it while punching, and keep the tail off it.";
    }
}

/// The most reasons one rivet can have.
pub const MAX_RISKS: usize = 6;

/// How to take one rivet out.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Removal {
    /// The drill for the manufactured head; `None` when no drill is that small.
    pub drill: Option<Given<Drill>>,
    /// How deep to drill: the height of the manufactured head, no deeper; `None` when that is not known.
    pub depth: Option<Given<Length>>,
    /// The punch must be thinner than this.
    pub punch_under: Length,
    /// Whether the far side wants a bar or block beside the driven head while the shank is punched out.
    pub support: bool,
    /// The reasons why this one is risky, the usual order.
    pub risks: heapless::Vec<Given<Risk>, MAX_RISKS>,
}

/// Works out how to take out a rivet that is installed in a stack.
///
/// The manufactured head is drilled to its base and no deeper, its ring snapped off with a punch, the shank driven out with a punch
/// that passes the hole (AC 43.13-1B para 4-52b). Which layers count as thick, many or thin is common practice and stands in the
/// practice, where a shop can replace it.
#[must_use]
pub fn removal(installed: &Part<'_>, stack: &Stack, edge: Option<Length>, practice: &Practice<'_>) -> Removal {
    let installed = &practice.rivet(*installed);
    let size = installed.size();
    let case = Case::of(installed.series().head, installed.alloy(), size);
    let below = practice.count(Name::RemovalDrillBelow, &case);
    let drill = below.and_then(|below| {
        let mut drill = Drill::nearest_at_or_below(size.shank_nominal)?;
        for _ in 0..below.value {
            let under = drill.diameter().minus(Length::from_nanometres(1)?);
            drill = Drill::nearest_at_or_below(under)?;
        }
        Some(Given { value: drill, basis: below.basis })
    });
    let mut risks = heapless::Vec::new();
    let mut risk = |value: Risk, basis: Basis| {
        // There are as many places as kinds of risk, so this cannot fail.
        let _ = risks.push(Given { value, basis });
    };
    let far_side = stack.layers().last().map(|layer| layer.thickness.nominal());
    if let Some(limit) = practice.length(Name::RemovalThickPack, &case)
        && stack.grip().nominal() >= limit.value
    {
        risk(Risk::ThickPack, limit.basis);
    }
    // Whatever the stack measures: the member stays, and its holes are the dear ones.
    if stack.layers().iter().any(|layer| layer.role == Role::Cap) {
        risk(Risk::ThickMember, Basis::REMOVAL_MEMBER);
    }
    if stack.layers().last().is_some_and(|layer| layer.role == Role::Tab) {
        risk(Risk::Tab, Basis::REMOVAL_TAB);
    }
    if let Some(limit) = practice.count(Name::RemovalManyLayers, &case)
        && stack.layers().len() >= limit.value as usize
    {
        risk(Risk::ManyLayers, limit.basis);
    }
    let thin =
        practice.length(Name::RemovalThinFarSide, &case).filter(|limit| far_side.is_some_and(|far| far < limit.value));
    if let Some(limit) = thin {
        risk(Risk::ThinFarSide, limit.basis);
    }
    if let Some(limit) = practice.length(Name::EdgeDistanceLeast, &case)
        && edge.is_some_and(|edge| edge <= limit.value)
    {
        risk(Risk::CloseToEdge, limit.basis);
    }
    Removal {
        drill,
        depth: size.head_height_nominal().map(|value| Given { value, basis: Basis::AC43_REMOVAL_DEPTH }),
        punch_under: case.diameter,
        support: thin.is_some(),
        risks,
    }
}
