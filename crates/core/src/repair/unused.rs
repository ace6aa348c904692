//! Rules of the handbooks' repairs that are read and not used, each with the reason.

use crate::basis::Status;

/// A rule that is not used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Unused {
    /// Its name in the lists of rules beside the tests.
    pub rule: &'static str,
    /// What it is about.
    pub what: &'static str,
    /// Its document.
    pub document: &'static str,
    /// Where it stands there.
    pub place: &'static str,
    /// Whether it was read.
    pub status: Status,
    /// Why it is not used.
    pub why: &'static str,
}

const fn unused(
    rule: &'static str,
    what: &'static str,
    document: &'static str,
    place: &'static str,
    status: Status,
    why: &'static str,
) -> Unused {
    Unused { rule, what, document, place, status, why }
}

/// Every one, in the order of the lists.
#[rustfmt::skip]
pub static UNUSED: &[Unused] = &[
    unused("AR-D06", "tube, solid rivet right through", "AC 43.13-1B", "para 4-58a", Status::Published, "tubes and struts are refused"),
    unused("AR-D07", "tube, rivet in shear", "AC 43.13-1B", "para 4-58a", Status::Published, "tubes and struts are refused"),
    unused("AR-S03", "edge distance and spacing, two rows", "AC 43.13-1B", "para 4-57c(2); 4-58g(2)(c)", Status::Published, "figure 4-5 was not in the text that was read: the practice's pitch for so many rows is used"),
    unused("AR-S04", "edge distance and spacing, three or more rows", "AC 43.13-1B", "para 4-57c(3)", Status::Published, "figure 4-5 was not in the text that was read: the practice's pitch for so many rows is used"),
    unused("AR-L15", "slightly bent member, straighten", "AC 43.13-1B", "para 4-58h", Status::Published, "straightening a member is not sized: it is spliced or replaced"),
    unused("AR-L16", "straightened member, always", "AC 43.13-1B", "para 4-58h", Status::Published, "straightening a member is not sized: it is spliced or replaced"),
    unused("AR-L17", "straightened member, strain cracks", "AC 43.13-1B", "para 4-58h", Status::Published, "straightening a member is not sized: it is spliced or replaced"),
    unused("AR-C08", "trapped water, blended area", "AC 43.13-1B", "para 6-134a", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C09", "beyond manual limits, corrosion removed", "AC 43.13-1B", "para 6-134b; 6-113", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C10", "blend, length to depth", "AC 43.13-1B", "para 6-115c; 6-136g", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C11", "dish-out, long axis", "AC 43.13-1B", "para 6-115a", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C12", "pits, highly stressed", "AC 43.13-1B", "para 6-115b", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C13", "steel nutplates and fasteners, before blending aluminum", "AC 43.13-1B", "para 6-115c", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C14", "tools on aluminum, abrasive", "AC 43.13-1B", "para 6-136d(1)(c); 6-115 table 6-1", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C15", "thin skin, rotary files", "AC 43.13-1B", "para 6-136e(1)(b)", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C16", "thin skin, blasting", "AC 43.13-1B", "para 6-136e(2)(a)", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C17", "exfoliation, blasting", "AC 43.13-1B", "para 6-136e(2)(b)", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C19", "fixed countersunk fastener, corrosion at its head", "AC 43.13-1B", "para 6-135a", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("AR-C21", "magnesium, doubler", "AC 43.13-1B", "para 6-150", Status::Published, "no magnesium sheet is among the materials"),
    unused("AR-C22", "magnesium, aluminum doubler", "AC 43.13-1B", "para 6-150", Status::Published, "no magnesium sheet is among the materials"),
    unused("AR-C23", "magnesium, rivets", "AC 43.13-1B", "para 7-2d", Status::Published, "no magnesium sheet is among the materials"),
    unused("AR-C26", "drain hole by rivet, undrained space after immersion", "AC 43.13-1B", "para 6-223e", Status::Published, "drying out what was under water comes before any repair"),
    unused("PATCH-02", "stop drill", "NAVEDTRA 14018", "ch 13, fig 13-58, 13-59", Status::Published, "the circular's 1/8 and 3/32 are taken; #30 and #40 are the shop drills for them"),
    unused("PATCH-04", "patch corner radius", "US Army AL0992", "Maintain Original Strength", Status::Published, "the later handbook read prints 1/4 for the patch, PATCH-10, and 1/2 for the cut-out, PATCH-09"),
    unused("PATCH-05", "backing plate", "US Army TM 1-1520-240-BD", "coin patch and backing plate for webs copy, page TM-1-1520-240-BD_97", Status::Published, "battle damage repair: not for continued airworthiness"),
    unused("PATCH-08", "patch near a member", "FAA-H-8083-31", "ch 4 typical repairs; not seen, figure number uncertain", Status::Memory, "recalled: the patch near a member is referred, PATCH-07"),
    unused("SPLICE-03", "single-leg stringer repair limit", "US Army AL0992", "p84, Summary", Status::Published, "every splice is the full one"),
    unused("PITCH-19", "pitch, lap (scab) patch", "FAA-H-8083-31B (2023)", "Aviation Maintenance Technician Handbook - Airframe, p 4-96, fig 4-174", Status::Published, "the pitch follows from the count: an inch holds too few rivets for any sheet of the tables"),
    unused("ROW-08", "transverse pitch, lap (scab) patch", "FAA-H-8083-31B (2023)", "Aviation Maintenance Technician Handbook - Airframe, p 4-96, fig 4-174", Status::Published, "rows stand as far apart as the practice asks; half an inch can be asked for"),
    unused("RL-AC2", "blend of corrosion", "AC 43.13-1B", "para 6-115c; 6-136g", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("RL-AC3", "rotary file on skin", "AC 43.13-1B", "para 6-136e(1)(b)", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("RL-AC4", "abrasive blasting of aluminum", "AC 43.13-1B", "para 6-136e(2)(a)", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
    unused("RL-AC5", "corrosion beyond the manual", "AC 43.13-1B", "para 6-134b; 6-113a, b", Status::Published, "taking corrosion off is no sizing: the damage that is left is measured and patched"),
];
