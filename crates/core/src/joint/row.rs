//! What a row of rivets carries an inch, as installed and as planned.
//!
//! A larger hole, another rivet, another pitch or another number of rows each move the strength of a row, and not always the same way: a
//! larger rivet carries more and leaves less sheet between the holes. So both sides are worked out in full and compared an inch of
//! width:
//!
//! | part | strength an inch |
//! |---|---|
//! | rivets | rows × allowable of one rivet / pitch; the allowable as in [`super::strength`] |
//! | tear-out of a countersunk sheet | the same, less what the countersink cuts away |
//! | net section, each sheet | Ftu × t × (pitch - hole) / pitch, less what a countersink cuts away; the first row carries everything |
//! | the same, rows staggered | the lesser of that and the zigzag through two rows: Ftu × t × (pitch - 2 holes + s² / pitch) / pitch |
//!
//! The rows are taken to share alike, which ductile joints do at failure. A countersink is counted at the largest head of the rivet; that
//! is practice, on the safe side, and stands beside the tested flush joint without replacing it. A dimple cuts nothing away.

use core::fmt;

use super::hole_table;
use super::margin::{Factors, Load, Margin, margin, yield_margin};
use super::modes::{self, Countersink, Zigzag};
use super::strength::{Allowable, JointStrength, MAX_SHEETS, Mode, StrengthError};
use super::through::Made;
use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::Length;
use crate::practice::{Dimension, Key};
use crate::quantity::{Force, Stress};
use crate::rivet::part::Part;
use crate::stack::{Layer, Preparation};

/// What fails in a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum RowMode {
    /// The rivets in their holes.
    Rivets(Mode),
    /// The sheet between the holes.
    NetSection,
}

impl RowMode {
    /// The word used in output.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            RowMode::Rivets(mode) => mode.as_str(),
            RowMode::NetSection => "net-section",
        }
    }
}

impl fmt::Display for RowMode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

/// What fails first in a row.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct RowGoverning {
    /// How.
    pub mode: RowMode,
    /// In which sheet, counted from 1; `None` for the rivets.
    pub layer: Option<u8>,
    /// At which load for every inch of width.
    pub per_inch: Allowable,
}

/// What a row carries.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct RowStrength {
    /// One rivet of it.
    pub joint: JointStrength,
    /// Rivets for every inch of width, all rows together.
    pub rivets_per_inch: f64,
    /// Load for every inch of width; `None` where a part is not published.
    pub per_inch: Option<Allowable>,
    /// Where an edge margin below 1.5 is all that stands in the way: what it would be with bearing in proportion. Practice.
    pub indicated_per_inch: Option<Allowable>,
    /// Load for every inch of width at which a sheet yields in bearing; never above `per_inch`.
    pub yield_per_inch: Option<Allowable>,
    /// What fails first, at the load or at the indication.
    pub governing: Option<RowGoverning>,
    /// Net section of each sheet for every inch of width, countersinks taken off.
    pub net_sections: heapless::Vec<Option<Allowable>, MAX_SHEETS>,
    /// The margin of one pitch of the row under the load of all its rows; where a load was given and the row has a strength. Of a doubler
    /// the lesser of the rivet that carries most and of the sheets between their holes.
    pub margin: Option<Margin>,
    /// The margin at yield of the same under the limit load; where the yield of every sheet is published.
    pub yield_margin: Option<Margin>,
    /// The row that carries most by any formula; where there are several and a load was given.
    pub peak: Option<Peak>,
    /// The weakest basis of all parts.
    pub basis: Basis,
}

impl RowStrength {
    /// Where an answer is filled in, for [`Installation::row_into`](crate::installation::Installation::row_into).
    #[must_use]
    pub const fn nothing_yet() -> RowStrength {
        let joint = JointStrength::nothing_yet();
        RowStrength {
            rivets_per_inch: 0.0,
            per_inch: None,
            indicated_per_inch: None,
            yield_per_inch: None,
            governing: None,
            net_sections: heapless::Vec::new(),
            margin: None,
            yield_margin: None,
            peak: None,
            basis: joint.basis,
            joint,
        }
    }
}

/// The row whose rivets carry most by the elastic shares.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Peak {
    /// Which, counted from 0 on the side where the load comes from.
    pub row: usize,
    /// The most that one of its rivets carries by any formula, limit or ultimate as the load was.
    pub load: Load,
    /// The most that the second sheet carries anywhere by any formula, on one pitch.
    pub most_in_b: Force,
}

/// Margins that differ by less are the same one, worked out twice.
const SAME_MARGIN: f64 = 1e-9;

/// The load on one pitch of some rows.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Loaded {
    pub(crate) pitch: Length,
    /// On all rows together.
    pub(crate) load: Load,
    pub(crate) factors: Factors,
    /// Which sheet the others only lie on; `None` where the load goes from sheet to sheet.
    pub(crate) doubled: Option<usize>,
}

impl RowStrength {
    /// Works out the margins under a load on all rows; `in_b` is the most that the second sheet carries anywhere, where that is known.
    pub(crate) fn take_load(&mut self, loaded: &Loaded, in_b: Option<Force>) -> Result<(), StrengthError> {
        (self.margin, self.yield_margin, self.peak) = (None, None, None);
        let Loaded { pitch, load, factors, doubled } = *loaded;
        let whole = |per_inch: Allowable| Force::from_lbf(per_inch.force.lbf() * pitch.to_inches_f64());
        if let Some(doubled) = doubled {
            self.take_doubler_load((load, doubled), factors, in_b, &whole)?;
        } else {
            self.margin = self.per_inch.map(|per_inch| margin(whole(per_inch), load, factors)).transpose()?;
            let yields = self.yield_per_inch.map(|per_inch| yield_margin(whole(per_inch), load, factors));
            self.yield_margin = yields.transpose()?;
        }
        // Where the rivets decide it is their own margin, which has been told.
        let told = |of_row: Option<Margin>, of_rivet: Option<Margin>| {
            of_row.filter(|row| of_rivet.is_none_or(|rivet| libm::fabs(row.value - rivet.value) > SAME_MARGIN))
        };
        let (margin, at_yield) =
            (told(self.margin, self.joint.margin), told(self.yield_margin, self.joint.yield_margin));
        self.joint.findings.push_some(margin.and_then(|margin| margin.negative()));
        self.joint.findings.push_some(at_yield.and_then(|margin| margin.yields()));
        Ok(())
    }

    /// A doubler's rivets carry what the shares say, its sheets what is in them: nothing of it is so much an inch.
    fn take_doubler_load(
        &mut self,
        (load, doubled): (Load, usize),
        factors: Factors,
        in_b: Option<Force>,
        whole: &dyn Fn(Allowable) -> Force,
    ) -> Result<(), StrengthError> {
        (self.per_inch, self.indicated_per_inch, self.yield_per_inch, self.governing) = (None, None, None, None);
        self.yield_margin = self.joint.yield_margin;
        let Some(rivet) = self.joint.margin else { return Ok(()) };
        let mut least = Some(rivet);
        for (index, (net, sheet)) in self.net_sections.iter().zip(&self.joint.sheets).enumerate() {
            // The sheet that the others lie on carries the whole load past the last row; in double shear the outer ones share.
            let force = if index == doubled {
                Some(load.force)
            } else {
                in_b.map(|in_b| Force::from_lbf(in_b.lbf() * sheet.share()))
            };
            let net = net.zip(force.filter(|force| *force > Force::ZERO));
            let found = net.map(|(net, force)| margin(whole(net), Load { force, ..load }, factors)).transpose()?;
            least = least.zip(found).map(|(least, found)| if found.value < least.value { found } else { least });
        }
        self.margin = least;
        Ok(())
    }

    /// Takes back every figure of what is no joint; its findings say why.
    pub(crate) fn refuse(&mut self) {
        (self.per_inch, self.indicated_per_inch, self.yield_per_inch, self.governing) = (None, None, None, None);
        (self.margin, self.yield_margin, self.peak) = (None, None, None);
    }
}

crate::words::errors! {
    /// Why a row has no strength at all.
    RowError {
        NoRows = _, "row-no-rows", "No rows.",
            "a joint needs at least one row; right would be 1";
        NoPitch = _, "row-no-pitch", "The pitch is not known.",
            "the pitch is missing; right would be .75";
        | Strength(StrengthError), "One rivet of it is no joint.";
    }
}

/// What a row carries an inch, into an answer that the caller keeps. After an error it is no answer.
///
/// # Errors
/// [`RowError`] for what is no row.
#[inline(never)]
pub(crate) fn row_strength_into(found: &mut RowStrength, row: &Made<'_, '_>) -> Result<(), RowError> {
    is_row(row)?;
    row.strength_into(&mut found.joint)?;
    add_row(found, row)
}

/// Whether there is a row at all.
pub(crate) fn is_row(row: &Made<'_, '_>) -> Result<(), RowError> {
    if row.rows == 0 {
        return Err(RowError::NoRows);
    }
    if row.pitch.is_none() { Err(RowError::NoPitch) } else { Ok(()) }
}

/// Adds the row to what one rivet of it carries.
#[inline(never)]
pub(crate) fn add_row(found: &mut RowStrength, row: &Made<'_, '_>) -> Result<(), RowError> {
    let Some(pitch) = row.pitch else { return Err(RowError::NoPitch) };
    let RowStrength { joint, net_sections, .. } = &mut *found;
    net_sections.clear();
    let pitch = pitch.to_inches_f64();
    let rivets_per_inch = f64::from(row.rows) / pitch;
    let per_inch = |load: Allowable, count: f64| Allowable { force: Force::from_lbf(load.force.lbf() * count), ..load };

    let mut least = Least { governing: None, basis: joint.basis };
    if let Some(governing) = joint.governing {
        least.add(RowMode::Rivets(governing.mode), governing.layer, per_inch(governing.load, rivets_per_inch));
    }
    let mut complete = true;
    for (sheet, layer) in joint.sheets.iter().zip(row.stack.load_carrying()) {
        let cut = cut_away(row, layer, sheet.layer).unwrap_or_else(|finding| {
            joint.findings.push(finding);
            complete = false;
            None
        });
        if let (Some(cut), Some(tear_out)) = (cut, sheet.tear_out()) {
            let left = less(tear_out, cut.tear_out);
            least.add(
                RowMode::Rivets(Mode::TearOut),
                Some(sheet.layer),
                per_inch(left, rivets_per_inch / sheet.share()),
            );
        }
        let net = sheet.net_section().map(|net| {
            let straight = cut.map_or(net, |cut| less(net, cut.net));
            zigzag(row, layer, cut).map_or(straight, |zigzag| weaker_section(straight, zigzag))
        });
        // One pitch of sheet carries one pitch of load, whatever the number of rows.
        let net = net.map(|net| per_inch(net, 1.0 / pitch));
        match net {
            Some(net) => least.add(RowMode::NetSection, Some(sheet.layer), per_inch(net, 1.0 / sheet.share())),
            None => complete = false,
        }
        // Cannot fail: strength() has counted the sheets.
        let _ = net_sections.push(net);
    }
    let governing = least.governing.filter(|_| complete && joint.governing.is_some());
    let load = governing.map(|governing| Allowable { basis: least.basis, ..governing.per_inch });
    let (carried, indicated) = if joint.allowable.is_some() { (load, None) } else { (None, load) };
    let yield_per_inch =
        joint.yield_load().map(|load| per_inch(load, rivets_per_inch)).zip(carried).map(|(yields, carried)| {
            Allowable { force: yields.force.min(carried.force), basis: yields.basis.weaker(carried.basis) }
        });
    (found.rivets_per_inch, found.governing, found.basis) = (rivets_per_inch, governing, least.basis);
    (found.per_inch, found.indicated_per_inch, found.yield_per_inch) = (carried, indicated, yield_per_inch);
    Ok(())
}

/// What a countersink takes off a sheet.
#[derive(Clone, Copy)]
struct Cut {
    /// From the net section of one pitch.
    net: Force,
    /// From tear-out at one rivet.
    tear_out: Force,
}

/// `Ok(None)` where nothing is cut away; the finding where a head is needed that is not known.
fn cut_away(row: &Made<'_, '_>, layer: &Layer, number: u8) -> Result<Option<Cut>, Finding> {
    if layer.preparation != Preparation::Countersunk {
        return Ok(None);
    }
    let Some((in_net, in_tear_out)) = countersink_of(row.rivet, layer) else {
        let key = Key::of_size(row.rivet, Dimension::HeadDiameter).filter(|_| row.rivet.series().head.is_flush());
        let (code, basis) = (Code::StrengthNotPublished, Basis::COUNTERSINK_AT_LARGEST_HEAD);
        return Err(Finding::unknown(code, Severity::Refer, basis, key).in_layer(number));
    };
    let thickness = layer.thickness.nominal();
    let Some(properties) = layer.material.map(|material| row.practice.sheet(material, thickness)) else {
        // The sheet carries nothing in any case, and strength() has said so.
        return Ok(None);
    };
    let lost = |stress: Option<Stress>, by: &dyn Fn(Stress) -> Force| stress.map_or(Force::ZERO, by);
    Ok(Some(Cut {
        net: lost(properties.ftu(), &|ftu| modes::countersink_net_loss(ftu, in_net, row.rivet.size().shank_nominal)),
        tear_out: lost(properties.fsu(), &|fsu| modes::countersink_tear_out_loss(fsu, in_tear_out)),
    }))
}

/// The countersink of a layer at the largest head of its rivet: as a net section and as a tear-out count it. `None` where the layer is not
/// countersunk or the head is not known.
///
/// A cone that goes through the sheet is counted as a straight hole of its surface diameter, which a depth of twice the sheet gives the two
/// triangles of a net section.
pub(crate) fn countersink_of(rivet: &Part<'_>, layer: &Layer) -> Option<(Countersink, Countersink)> {
    if layer.preparation != Preparation::Countersunk {
        return None;
    }
    let head = rivet.head_counted().filter(|_| rivet.series().head.is_flush())?;
    let thickness = layer.thickness.nominal();
    let diameter = head.diameter.map_or(head.diameter_nominal, |limits| limits.max());
    let height = head.height.map_or(head.height_nominal, |limits| limits.max());
    let depth = if height < thickness { height } else { thickness.plus(thickness) };
    Some((Countersink { diameter, depth }, Countersink { diameter, depth: height.min(thickness) }))
}

/// Net section a pitch along the zigzag through two staggered rows; `None` where no row stands against another's gaps.
///
/// A pitch of it has two holes and two legs, each half a pitch across the load and from row to row along it.
fn zigzag(row: &Made<'_, '_>, layer: &Layer, cut: Option<Cut>) -> Option<Allowable> {
    let stagger = row.staggered.filter(|_| row.rows > 1)?;
    let thickness = layer.thickness.nominal();
    let properties = row.practice.sheet(layer.material?, thickness);
    let nominal = hole_table::nominal_hole(row.rivet.diameter()).map(|row| row.hole);
    let hole = row.hole.or(nominal).unwrap_or(row.rivet.diameter());
    let pitch = row.pitch?;
    let leg = Zigzag { stagger, gauge: pitch.times(1, 2) };
    let force = modes::net_section_staggered(properties.ftu()?, thickness, pitch, hole, 2, &[leg; 2]);
    let net = Allowable { force: force.max(Force::ZERO), basis: Basis::ZIGZAG_NET_WIDTH };
    Some(match cut {
        Some(Cut { net: lost, .. }) => less(net, Force::from_lbf(2.0 * lost.lbf())),
        None => net,
    })
}

/// The lesser of two net sections; of two that are alike the straight one. The zigzag's rule is recalled: it rests on nothing better than the other.
fn weaker_section(straight: Allowable, zigzag: Allowable) -> Allowable {
    if zigzag.force < straight.force { zigzag } else { straight }
}

/// What is left when `lost` is cut away; a countersink may cut more away than there is.
fn less(part: Allowable, lost: Force) -> Allowable {
    Allowable {
        force: Force::from_lbf(part.force.lbf() - lost.lbf()).max(Force::ZERO),
        basis: part.basis.weaker(Basis::COUNTERSINK_CARRIES_NOTHING),
    }
}

struct Least {
    governing: Option<RowGoverning>,
    basis: Basis,
}

impl Least {
    fn add(&mut self, mode: RowMode, layer: Option<u8>, per_inch: Allowable) {
        self.basis = self.basis.weaker(per_inch.basis);
        if self.governing.is_none_or(|governing| per_inch.force < governing.per_inch.force) {
            self.governing = Some(RowGoverning { mode, layer, per_inch });
        }
    }
}

/// The weaker of two rows; one whose strength is not published counts as weaker.
///
/// For a row whose holes are not alike: made throughout like its weakest hole it carries no more than as it is, since every other
/// rivet is at least as strong and every other hole leaves at least as much sheet. So the weaker of the rows made throughout like each
/// kind of hole is on the safe side.
#[must_use]
pub fn weaker(one: RowStrength, other: RowStrength) -> RowStrength {
    match (one.per_inch, other.per_inch) {
        (None, _) => one,
        (Some(of_one), Some(of_other)) if of_one.force <= of_other.force => one,
        _ => other,
    }
}

/// Two rows side by side.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct RowComparison {
    /// Strength an inch of the new row over the old one; `None` where one of them is not published.
    pub ratio: Option<f64>,
    /// The same with indications where an edge margin is below 1.5; to see where one stands.
    pub indicated_ratio: Option<f64>,
    /// What fails first in the old row.
    pub before: Option<RowGoverning>,
    /// What fails first in the new one.
    pub after: Option<RowGoverning>,
    /// The weakest basis of both.
    pub basis: Basis,
    /// What the comparison found; the rows keep their own findings.
    pub findings: Findings,
}

/// Compares a row as planned with the row as installed.
///
/// A ratio under 1 says [`Code::WeakerThanBefore`] and refers; a row of which a part is not published gives no ratio and refers too.
#[must_use]
pub fn compare_rows(before: &RowStrength, after: &RowStrength) -> RowComparison {
    let mut findings = Findings::new();
    let basis = before.basis.weaker(after.basis);
    let over =
        |before: Allowable, after: Allowable| Some(after.force.lbf() / before.force.lbf()).filter(|r| r.is_finite());
    let ratio = before.per_inch.zip(after.per_inch).and_then(|(before, after)| over(before, after));
    let shown = |row: &RowStrength| row.per_inch.or(row.indicated_per_inch);
    let indicated_ratio = shown(before).zip(shown(after)).and_then(|(before, after)| over(before, after));
    match ratio {
        Some(ratio) if ratio < 1.0 => findings.push(
            Finding::new(Code::WeakerThanBefore, Severity::Refer, Basis::AC43_NOT_WEAKER)
                .with_measured(Figure::Ratio(ratio))
                .with_limit(Figure::Ratio(1.0)),
        ),
        Some(_) => {}
        None => {
            let missing = [before, after].into_iter().filter(|row| row.per_inch.is_none());
            let key = missing.filter_map(|row| row.joint.findings.iter().find_map(Finding::key)).next();
            findings.push(Finding::unknown(Code::StrengthNotPublished, Severity::Refer, basis, key));
        }
    }
    RowComparison { ratio, indicated_ratio, before: before.governing, after: after.governing, basis, findings }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use crate::joint::margin::LoadKind;
    use crate::joint::strength::Shear;
    use crate::length::Toleranced;
    use crate::material::{EnteredSheet, Material, Property};
    use crate::practice::{Entered, EnteredJoint, HANDBOOK};
    use crate::prelude::length;
    use crate::rivet::part::Part;
    use crate::stack::Stack;

    fn stack(sheets: &[(&str, Preparation)]) -> Stack {
        let mut stack = Stack::new();
        for (thickness, preparation) in sheets {
            let layer = Layer::of(Toleranced::parse(thickness).unwrap());
            let material = Some(Material::parse("2024-T3").unwrap());
            stack.push(Layer { material, preparation: *preparation, ..layer }).unwrap();
        }
        stack
    }

    fn row<'s>(rivet: &'s Part<'static>, stack: &'s Stack) -> Made<'s, 'static> {
        let (edge, pitch, shear) = (length(".5"), Some(length(".75")), Shear::Single);
        let driven = rivet.alloy().fsu_driven();
        let staggered = None;
        let unpublished = Severity::Refer;
        Made {
            rivet,
            stack,
            edge,
            hole: None,
            pitch,
            rows: 1,
            staggered,
            shear,
            load: None,
            driven,
            practice: &HANDBOOK,
            unpublished,
        }
    }

    fn row_strength(row: &Made<'_, '_>) -> Result<RowStrength, RowError> {
        let mut found = RowStrength::nothing_yet();
        row_strength_into(&mut found, row)?;
        Ok(found)
    }

    #[test]
    fn a_way_to_fail_is_shown_by_its_word() {
        use std::string::ToString;
        let rivets = Mode::ALL.iter().map(|mode| (RowMode::Rivets(*mode), mode.as_str()));
        for (mode, word) in rivets.chain([(RowMode::NetSection, "net-section")]) {
            assert_eq!((mode.as_str(), mode.to_string().as_str()), (word, word));
        }
    }

    #[test]
    fn a_single_row_by_hand() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let found = row_strength(&row(&rivet, &stack)).unwrap();
        // One rivet 388 × (1 - 0.04 (3.125 - 3)) every 3/4 in.
        let by_hand = 388.0 * (1.0 - 0.04 * 0.125) / 0.75;
        assert!((found.per_inch.unwrap().force.lbf() - by_hand).abs() < 1e-6);
        assert_eq!(found.governing.unwrap().mode, RowMode::Rivets(Mode::RivetShear));
        let net = found.net_sections[0].unwrap().force.lbf();
        assert!((net - 63_000.0 * 0.040 * (0.75 - 0.1285) / 0.75).abs() < 1e-6);
        assert!(found.yield_per_inch.unwrap().force <= found.per_inch.unwrap().force);
    }

    #[test]
    fn many_rows_shift_the_failure_to_the_net_section() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let many = Made { rows: 6, ..row(&rivet, &stack) };
        let found = row_strength(&many).unwrap();
        let governing = found.governing.unwrap();
        assert_eq!((governing.mode, governing.layer), (RowMode::NetSection, Some(1)));
        // A larger rivet then makes the row weaker.
        let larger = Part::parse("MS20470AD6").unwrap();
        let comparison = compare_rows(&found, &row_strength(&Made { rivet: &larger, ..many }).unwrap());
        let by_hand = (0.75 - 0.191) / (0.75 - 0.1285);
        assert!((comparison.ratio.unwrap() - by_hand).abs() < 1e-9);
        assert!(comparison.findings.has(Code::WeakerThanBefore) && comparison.findings.must_refer());
    }

    #[test]
    fn a_row_held_against_itself_is_as_strong() {
        let stack = stack(&[(".063", Preparation::Countersunk), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20426AD4").unwrap();
        let found = row_strength(&row(&rivet, &stack)).unwrap();
        let comparison = compare_rows(&found, &found);
        assert_eq!(comparison.ratio, Some(1.0), "{found:?}");
        assert!(comparison.findings.is_empty());
    }

    /// An outer sheet in double shear has half of each rivet's load: torn out at twice the load on the row.
    #[test]
    fn an_outer_sheet_in_double_shear_tears_out_under_twice_the_load() {
        let rivet = Part::parse("MS20426AD4").unwrap();
        let sheet = (Material::parse("2024-T3").unwrap(), length(".063"));
        let strong = Force::from_lbf(5_000.0);
        let mut entered = Entered::new();
        let tested = EnteredJoint::new(&rivet, Preparation::Countersunk, sheet, strong, Basis::own(0));
        entered.joint(tested).unwrap();
        let practice = HANDBOOK.with_entered(&entered);
        let torn = |stack: &Stack, shear| {
            let driven = Some((Stress::from_ksi(300.0), Basis::own(0)));
            let found = row_strength(&Made {
                edge: length("1/4"),
                pitch: Some(length("2")),
                shear,
                driven,
                practice: &practice,
                ..row(&rivet, stack)
            });
            let governing = found.unwrap().governing.unwrap();
            assert_eq!((governing.mode, governing.layer), (RowMode::Rivets(Mode::TearOut), Some(1)));
            governing.per_inch.force.lbf()
        };
        let (sunk, plain) = ((".063", Preparation::Countersunk), (".125", Preparation::Plain));
        let single = torn(&stack(&[sunk, plain]), Shear::Single);
        let double = torn(&stack(&[sunk, plain, (".063", Preparation::Plain)]), Shear::Double);
        assert!((double - 2.0 * single).abs() < 1e-6 * double, "{double} {single}");
    }

    #[test]
    fn a_countersink_takes_its_triangles_off_the_net_section() {
        let sunk = stack(&[(".063", Preparation::Countersunk), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20426AD4").unwrap();
        let found = row_strength(&row(&rivet, &sunk)).unwrap();
        let head = rivet.size().head.unwrap();
        let (diameter, depth) = (
            head.diameter.map_or(head.diameter_nominal, |limits| limits.max()).to_inches_f64(),
            head.height.map_or(head.height_nominal, |limits| limits.max()).to_inches_f64(),
        );
        let area = 0.063 * (0.75 - 0.1285) - depth * (diameter - 0.125) / 2.0;
        let net = found.net_sections[0].unwrap();
        assert!((net.force.lbf() - 63_000.0 * area / 0.75).abs() < 1e-6);
        assert!(found.net_sections[1].unwrap().force > net.force);
    }

    #[test]
    fn staggered_rows_part_along_the_weaker_of_straight_and_zigzag() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let net = |staggered: &str| {
            let row = Made { rows: 4, staggered: Some(length(staggered)), ..row(&rivet, &stack) };
            row_strength(&row).unwrap().net_sections[0].unwrap()
        };
        let straight = 63_000.0 * 0.040 * (0.75 - 0.1285) / 0.75;
        // 0.75 - 2 × 0.1285 + 0.2² / 0.75
        let zigzag = 63_000.0 * 0.040 * (0.75 - 2.0 * 0.1285 + 0.04 / 0.75) / 0.75;
        assert!((net(".2").force.lbf() - zigzag).abs() < 1e-6 && zigzag < straight);
        assert_eq!(net(".2").basis.status(), crate::basis::Status::Memory);
        // From here on the straight line is the weaker one: s² = pitch × hole.
        assert!((net(".32").force.lbf() - straight).abs() < 1e-6);
        let single = Made { staggered: Some(length(".2")), ..row(&rivet, &stack) };
        assert!((row_strength(&single).unwrap().net_sections[0].unwrap().force.lbf() - straight).abs() < 1e-6);
    }

    #[test]
    fn below_the_least_edge_margin_there_is_only_an_indication() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let (old, new) = (Part::parse("MS20470AD4").unwrap(), Part::parse("MS20470AD6").unwrap());
        let installed = Made { edge: length(".25"), ..row(&old, &stack) };
        let planned = Made { rivet: &new, ..installed };
        let comparison = compare_rows(&row_strength(&installed).unwrap(), &row_strength(&planned).unwrap());
        assert_eq!(comparison.ratio, None);
        assert!(comparison.indicated_ratio.is_some() && comparison.findings.has(Code::StrengthNotPublished));
    }

    #[test]
    fn what_is_no_row_is_an_error() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let good = row(&rivet, &stack);
        assert_eq!(row_strength(&Made { rows: 0, ..good }), Err(RowError::NoRows));
        let inside = Made { pitch: Some(length(".1")), ..good };
        assert_eq!(row_strength(&inside), Err(RowError::Strength(StrengthError::PitchInsideHole)));
    }

    #[test]
    fn both_holes_of_a_zigzag_lose_their_countersink() {
        let sunk = stack(&[(".063", Preparation::Countersunk), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20426AD4").unwrap();
        let head = rivet.size().head.unwrap();
        let (diameter, depth) = (
            head.diameter.map_or(head.diameter_nominal, |limits| limits.max()).to_inches_f64(),
            head.height.map_or(head.height_nominal, |limits| limits.max()).to_inches_f64(),
        );
        let found = row_strength(&Made { rows: 2, staggered: Some(length(".2")), ..row(&rivet, &sunk) }).unwrap();
        let area = 0.063 * (0.75 - 2.0 * 0.1285 + 0.04 / 0.75) - 2.0 * depth * (diameter - 0.125) / 2.0;
        assert!((found.net_sections[0].unwrap().force.lbf() - 63_000.0 * area / 0.75).abs() < 1e-6);
    }

    /// The sheet that is doubled carries the whole load past the last row, each other one its part of the most that is in them.
    #[test]
    fn a_doubler_has_the_margin_of_its_weakest_sheet_or_rivet() {
        let rivet = Part::parse("MS20470AD4").unwrap();
        let (thin, thick) = ((".040", Preparation::Plain), (".064", Preparation::Plain));
        let (single, double) = (stack(&[thin, thick]), stack(&[thin, thick, thin]));
        let load = |lbf| Load { force: Force::from_lbf(lbf), kind: LoadKind::Ultimate };
        let margin_of = |stack: &Stack, shear, doubled, lbf: f64, in_b: Option<f64>| {
            let row = Made { shear, load: Some((load(1.0), Factors::SEAM)), ..row(&rivet, stack) };
            let mut found = row_strength(&row).unwrap();
            let (pitch, factors) = (length(".75"), Factors::SEAM);
            let loaded = Loaded { pitch, load: load(lbf), factors, doubled: Some(doubled) };
            found.take_load(&loaded, in_b.map(Force::from_lbf)).map(|()| found.margin.map(|margin| margin.value))
        };
        let net = |thickness: f64| 63_000.0 * thickness * (0.75 - 0.1285);
        for (found, by_hand) in [
            (margin_of(&single, Shear::Single, 0, 400.0, Some(2_000.0)), net(0.064) / 2_000.0),
            (margin_of(&single, Shear::Single, 0, 400.0, Some(100.0)), net(0.040) / 400.0),
            (margin_of(&double, Shear::Double, 1, 400.0, Some(2_000.0)), net(0.040) / 1_000.0),
        ] {
            let found = found.unwrap().unwrap();
            assert!((found - (by_hand - 1.0)).abs() < 1e-9, "{found} {by_hand}");
        }
        // Twice the sheet under twice the load is no weaker: the first of them is named.
        let alike = stack(&[thin, (".080", Preparation::Plain)]);
        let row = Made { load: Some((load(1.0), Factors::SEAM)), ..row(&rivet, &alike) };
        let mut found = row_strength(&row).unwrap();
        let (pitch, factors) = (length(".75"), Factors::SEAM);
        let loaded = Loaded { pitch, load: load(400.0), factors, doubled: Some(0) };
        found.take_load(&loaded, Some(Force::from_lbf(800.0))).unwrap();
        assert_eq!(found.margin.map(|margin| margin.load.force.lbf()), Some(400.0));
        for in_b in [None, Some(0.0)] {
            assert_eq!(margin_of(&single, Shear::Single, 0, 400.0, in_b), Ok(None), "{in_b:?}");
        }
    }

    #[test]
    fn a_row_of_which_a_part_is_not_known_has_no_strength() {
        let material = Material::own("2219-T87").unwrap();
        let ksi = Stress::from_ksi;
        let mut entered = Entered::new();
        let sheet = EnteredSheet::new(material, Basis::own(0)).with(Property::BearingUltimate15, ksi(90.0));
        entered.sheet(sheet.with(Property::BearingUltimate20, ksi(110.0))).unwrap();
        let practice = HANDBOOK.with_entered(&entered);
        let mut no_tension = stack(&[(".040", Preparation::Plain)]);
        no_tension.push(Layer::of(Toleranced::parse(".064").unwrap()).material(Some(material))).unwrap();
        let rivet = Part::parse("MS20470AD4").unwrap();
        let found = row_strength(&Made { practice: &practice, ..row(&rivet, &no_tension) }).unwrap();
        assert!(found.net_sections[0].is_some() && found.net_sections[1].is_none());
        assert!(found.joint.governing.is_some() && found.joint.allowable.is_some());
        assert_eq!(found.joint.net_section, None, "of the weaker sheet nothing is known");
        assert_eq!((found.governing, found.per_inch, found.indicated_per_inch), (None, None, None));
        // Every net section is known, but not the rivet.
        let known = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let found = row_strength(&Made { driven: None, ..row(&rivet, &known) }).unwrap();
        assert!(found.net_sections.iter().all(Option::is_some));
        assert_eq!((found.governing, found.per_inch, found.indicated_per_inch), (None, None, None));
    }

    #[test]
    fn of_two_ways_to_fail_alike_the_first_is_named() {
        let load = |lbf, basis| Allowable { force: Force::from_lbf(lbf), basis };
        let (own, recalled) = (Basis::own(0), Basis::ZIGZAG_NET_WIDTH);
        let mut least = Least { governing: None, basis: own };
        for (layer, lbf) in [(1, 300.0), (2, 200.0), (3, 200.0)] {
            least.add(RowMode::NetSection, Some(layer), load(lbf, own));
        }
        assert_eq!(least.governing.and_then(|governing| governing.layer), Some(2));
        let section = |zigzag| weaker_section(load(200.0, own), load(zigzag, recalled));
        assert_eq!((section(200.0).basis, section(199.0).basis, section(201.0).basis), (own, recalled, own));
    }

    #[test]
    fn a_countersink_as_deep_as_its_sheet_goes_through_it() {
        let rivet = Part::parse("MS20426AD4").unwrap();
        let head = rivet.head_counted().unwrap();
        let height = head.height.map_or(head.height_nominal, |limits| limits.max());
        let hair = Length::from_nanometres(1).unwrap();
        let depths = |thickness: Length| {
            let layer = Layer::of(Toleranced::exactly(thickness)).preparation(Preparation::Countersunk);
            let (in_net, in_tear_out) = countersink_of(&rivet, &layer).unwrap();
            (in_net.depth, in_tear_out.depth)
        };
        assert_eq!(depths(height), (height.plus(height), height));
        assert_eq!(depths(height.plus(hair)), (height, height));
        let thin = height.minus(hair);
        assert_eq!(depths(thin), (thin.plus(thin), thin));
    }

    /// A margin below zero is told once: the rivet's own where it decides, the row's where the sheet does.
    #[test]
    fn a_row_tells_its_margin_where_the_rivet_has_not() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let (pitch, factors) = (length(".75"), Factors::SEAM);
        let net = 63_000.0 * 0.040 * (0.75 - 0.1285);
        let carries = 388.0 * (1.0 - 0.04 * 0.125);
        for (rows, lbf, margins) in [
            (6, 300.0, &[net / 1_800.0 - 1.0][..]),
            (1, 500.0, &[carries / 500.0 - 1.0]),
            (6, 500.0, &[carries / 500.0 - 1.0, net / 3_000.0 - 1.0]),
            (1, 300.0, &[]),
        ] {
            let load = |lbf| Load { force: Force::from_lbf(lbf), kind: LoadKind::Ultimate };
            let row = Made { rows, load: Some((load(lbf), factors)), ..row(&rivet, &stack) };
            let mut found = row_strength(&row).unwrap();
            let load = load(lbf * f64::from(rows));
            found.take_load(&Loaded { pitch, load, factors, doubled: None }, None).unwrap();
            let told = found.joint.findings.iter().filter(|finding| finding.code() == Code::MarginNegative);
            assert_eq!(told.clone().count(), margins.len(), "{rows} {lbf}");
            for (told, by_hand) in told.zip(margins) {
                let Some(Figure::Ratio(told)) = told.measured() else { panic!("{told:?}") };
                assert!((told - by_hand).abs() < 1e-9, "{told} {by_hand}");
            }
        }
    }

    /// Half of the load is in each outer sheet of a joint in double shear: it parts at twice what it carries.
    #[test]
    fn an_outer_sheet_in_double_shear_parts_under_twice_the_load() {
        let rivet = Part::parse("MS20470AD4").unwrap();
        for (outer, layer, thickness) in [(".040", 2, 0.064), (".025", 1, 2.0 * 0.025)] {
            let sheets = [outer, ".064", outer].map(|thickness| (thickness, Preparation::Plain));
            let stack = stack(&sheets);
            let found = row_strength(&Made { rows: 9, shear: Shear::Double, ..row(&rivet, &stack) }).unwrap();
            let governing = found.governing.unwrap();
            assert_eq!((governing.mode, governing.layer), (RowMode::NetSection, Some(layer)));
            let by_hand = 63_000.0 * thickness * (0.75 - 0.1285) / 0.75;
            assert!((governing.per_inch.force.lbf() - by_hand).abs() < 1e-6);
        }
    }

    #[test]
    fn a_row_rests_on_the_weakest_of_its_parts_whichever_fails_first() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let driven = Some((Stress::from_psi(29_000.0), Basis::own(0)));
        let rests_on = |staggered: &str| {
            let row = Made { rows: 2, staggered: Some(length(staggered)), driven, ..row(&rivet, &stack) };
            let found = row_strength(&row).unwrap();
            let governing = found.governing.unwrap();
            assert_eq!(governing.mode, RowMode::Rivets(Mode::RivetShear));
            assert_ne!(governing.per_inch.basis, Basis::ZIGZAG_NET_WIDTH);
            assert_eq!(found.per_inch.unwrap().basis, found.basis);
            found.basis == Basis::ZIGZAG_NET_WIDTH
        };
        assert_eq!((rests_on(".2"), rests_on(".4")), (true, false));
    }

    #[test]
    fn of_two_rows_the_weaker_is_the_one_that_is_not_known_or_carries_less_or_comes_first() {
        let stack = stack(&[(".040", Preparation::Plain), (".064", Preparation::Plain)]);
        let rivet = Part::parse("MS20470AD4").unwrap();
        let plain = row(&rivet, &stack);
        let one = row_strength(&plain).unwrap();
        let many = row_strength(&Made { rows: 2, ..plain }).unwrap();
        let unknown = row_strength(&Made { driven: None, ..plain }).unwrap();
        let alike = RowStrength { rivets_per_inch: 0.0, ..one.clone() };
        for (first, second, is_first) in [
            (&one, &many, true),
            (&many, &one, false),
            (&unknown, &one, true),
            (&one, &unknown, false),
            (&one, &alike, true),
            (&alike, &one, true),
        ] {
            let found = weaker(first.clone(), second.clone());
            assert_eq!(&found, if is_first { first } else { second });
        }
    }
}
