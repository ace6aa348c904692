//! The driven head: its limits, what a rivet makes, judging a driven one.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::length::Length;
use shophead::upset::{Defect, HeadLimits, PredictedHead, judge_seen};

use crate::basis::{shophead_basis, shophead_given};
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{Sink, shophead_finding, shophead_span};
use crate::length::{SHOPHEAD_NONE, length, optional, shophead_range, shophead_toleranced};
use crate::part::{case, shophead_part};
use crate::practice::shophead_practice;
use crate::select::{question, shophead_length_query};

/// The limits of a driven head. Each is `SHOPHEAD_NONE` where the practice gives no such limit.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_head_limits {
    /// Least diameter.
    pub diameter_least: shophead_given,
    /// Diameter to aim at.
    pub diameter_target: shophead_given,
    /// Greatest diameter.
    pub diameter_greatest: shophead_given,
    /// Least height.
    pub height_least: shophead_given,
    /// Height to aim at.
    pub height_target: shophead_given,
    /// Greatest height.
    pub height_greatest: shophead_given,
}

/// The limits of the driven head of a rivet.
///
/// Takes: `part`, whose length does not matter; `practice`; both the caller's. Writes: `limits`.
///
/// Errors: those of a part and of a practice, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_head_find_limits(
    part: In<shophead_part>,
    practice: In<shophead_practice>,
    limits: Out<shophead_head_limits>,
) -> shophead_error {
    answer(|| {
        let place = limits.place()?;
        let case = case(&part.one()?.read()?, 1)?;
        let found = practice.one()?.with(|practice| {
            let limits = HeadLimits::of(practice, &case);
            Ok(shophead_head_limits {
                diameter_least: shophead_given::of(limits.diameter_least, practice.documents()),
                diameter_target: shophead_given::of(limits.diameter_target, practice.documents()),
                diameter_greatest: shophead_given::of(limits.diameter_greatest, practice.documents()),
                height_least: shophead_given::of(limits.height_least, practice.documents()),
                height_target: shophead_given::of(limits.height_target, practice.documents()),
                height_greatest: shophead_given::of(limits.height_greatest, practice.documents()),
            })
        })?;
        place.put(found);
        Ok(())
    })
}

/// What size a driven head comes out; `SHOPHEAD_NONE` throughout where there is none.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_predicted {
    /// Its diameter, with every tolerance at its worst one way, nominal, and at its worst the other way. 0 where the tail does not even
    /// fill the hole.
    pub diameter: shophead_toleranced,
    /// The height to which it is driven.
    pub height_nm: i64,
}

impl shophead_predicted {
    pub(crate) fn of(head: Option<PredictedHead>) -> shophead_predicted {
        let diameter =
            |pick: fn(&PredictedHead) -> Length| head.as_ref().map_or(SHOPHEAD_NONE, |head| pick(head).nanometres());
        shophead_predicted {
            diameter: shophead_toleranced {
                min_nm: diameter(|head| head.diameter.min),
                nominal_nm: diameter(|head| head.diameter.nominal),
                max_nm: diameter(|head| head.diameter.max),
            },
            height_nm: diameter(|head| head.height),
        }
    }
}

/// Predicts the driven head that a rivet makes, by the balance of metal.
///
/// Takes: `query`, the caller's, of which the part must have a length; `height_nm`, to which it is driven: the limit
/// `height_target` of `shophead_head_find_limits`, or another. Writes: `predicted`.
///
/// Errors: those named `SHOPHEAD_ERROR_FIT_...`, `SHOPHEAD_ERROR_PART_WITHOUT_LENGTH`; otherwise as `shophead_length_choose`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_head_predict(
    query: In<shophead_length_query>,
    height_nm: i64,
    predicted: Out<shophead_predicted>,
) -> shophead_error {
    answer(|| {
        let place = predicted.place()?;
        let asked = query.one()?;
        let part = asked.part.read()?;
        let made = part.length().ok_or(E::SHOPHEAD_ERROR_PART_WITHOUT_LENGTH)?;
        let (grip, hole, height) = (asked.grip.read()?, asked.hole.read()?, length(height_nm)?);
        if height <= Length::ZERO {
            return Err(E::SHOPHEAD_ERROR_FIT_NO_HEIGHT);
        }
        let head = asked
            .practice
            .with(|practice| Ok(self::question(&part, grip, hole, practice).fit()?.predict(made, height)))?;
        place.put(shophead_predicted::of(Some(head)));
        Ok(())
    })
}

/// A defect that an inspector sees on a driven rivet. `shophead_word` gives the word that a driven record has for it.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_defect_kind {
    /// Cracks in the driven head: `count` of them; `nm` is the diameter of the circle, concentric with the head, that the innermost
    /// reaches, or `SHOPHEAD_NONE` if not measured; `meeting` is 1 where any two meet, otherwise 0.
    SHOPHEAD_DEFECT_CRACKS = 1,
    /// A tool mark in the manufactured head: `nm` deep, in a head `head_height_nm` high.
    SHOPHEAD_DEFECT_TOOL_MARK = 2,
    /// A gap under the manufactured head, or one under either head that was not measured.
    SHOPHEAD_DEFECT_GAP_UNDER_HEAD = 3,
    /// The sheets stand apart: a feeler goes in as far as the shank.
    SHOPHEAD_DEFECT_SHEETS_APART = 4,
    /// The tail has folded or the shank has buckled.
    SHOPHEAD_DEFECT_BUCKLED_SHANK = 5,
    /// The driven head is bevelled. Its least and its greatest height decide.
    SHOPHEAD_DEFECT_TIPPED = 6,
    /// The rivet moves by hand.
    SHOPHEAD_DEFECT_LOOSE = 7,
    /// A flush head that stands proud by `nm`.
    SHOPHEAD_DEFECT_PROUD = 8,
    /// The sheet is marked, cut or bulged beside the rivet.
    SHOPHEAD_DEFECT_SHEET_DAMAGED = 9,
    /// The shank that came out is notched or stepped: its holes did not line up.
    SHOPHEAD_DEFECT_NOTCHED_SHANK = 10,
    /// Cracks in the manufactured head: `nm` is the diameter of the circle, concentric with the head, that the innermost reaches, or
    /// `SHOPHEAD_NONE` if not measured.
    SHOPHEAD_DEFECT_MANUFACTURED_CRACKS = 11,
    /// A protruding manufactured head that a flat die or set has brought down to `nm`.
    SHOPHEAD_DEFECT_FLATTENED = 12,
    /// A gap under the driven head: `nm` is the thickest feeler that goes in; `count` the percentage of the rim, 0 to 100, that is left when
    /// the longest stretch without a gap is taken off.
    SHOPHEAD_DEFECT_GAP_UNDER_DRIVEN_HEAD = 13,
    /// The driven head has a step. Its least and its greatest height decide.
    SHOPHEAD_DEFECT_STEPPED = 14,
    /// The driven head is offset, clinched or bent, so that the hole shows or the rim is not formed all round.
    SHOPHEAD_DEFECT_CLINCHED = 15,
    /// A flush head that lies `nm` below the surface.
    SHOPHEAD_DEFECT_LOW = 16,
    /// A flush head that shaving has left `nm` wide.
    SHOPHEAD_DEFECT_SHAVED = 17,
    /// A gap under the manufactured head.
    SHOPHEAD_DEFECT_GAP_UNDER_MANUFACTURED_HEAD = 18,
    /// The sheets stand apart at the edge: a feeler of `nm` goes in there, and none reaches the shank.
    SHOPHEAD_DEFECT_SHEETS_APART_AT_EDGE = 19,
    /// The sheets stand apart: `nm` is the thickest feeler that goes in as far as the shank. Its word is that of
    /// `SHOPHEAD_DEFECT_SHEETS_APART`.
    SHOPHEAD_DEFECT_SHEETS_APART_BY = 20,
}

/// A defect. Members that its kind does not name are not looked at.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_defect {
    /// One of `enum shophead_defect_kind`.
    pub kind: u32,
    /// How many cracks, or what percentage of the rim.
    pub count: u32,
    /// Whether any two cracks meet: 0 or 1.
    pub meeting: u32,
    /// Not used; 0.
    pub unused: u32,
    /// A depth, a reach, a feeler, a height or a diameter left, or how far a head stands proud or low.
    pub nm: i64,
    /// How high the manufactured head is.
    pub head_height_nm: i64,
}

impl shophead_defect {
    fn read(&self) -> Result<Defect, E> {
        use shophead_defect_kind as Kind;
        const KINDS: [Kind; 20] = [
            Kind::SHOPHEAD_DEFECT_CRACKS,
            Kind::SHOPHEAD_DEFECT_TOOL_MARK,
            Kind::SHOPHEAD_DEFECT_GAP_UNDER_HEAD,
            Kind::SHOPHEAD_DEFECT_SHEETS_APART,
            Kind::SHOPHEAD_DEFECT_BUCKLED_SHANK,
            Kind::SHOPHEAD_DEFECT_TIPPED,
            Kind::SHOPHEAD_DEFECT_LOOSE,
            Kind::SHOPHEAD_DEFECT_PROUD,
            Kind::SHOPHEAD_DEFECT_SHEET_DAMAGED,
            Kind::SHOPHEAD_DEFECT_NOTCHED_SHANK,
            Kind::SHOPHEAD_DEFECT_MANUFACTURED_CRACKS,
            Kind::SHOPHEAD_DEFECT_FLATTENED,
            Kind::SHOPHEAD_DEFECT_GAP_UNDER_DRIVEN_HEAD,
            Kind::SHOPHEAD_DEFECT_STEPPED,
            Kind::SHOPHEAD_DEFECT_CLINCHED,
            Kind::SHOPHEAD_DEFECT_LOW,
            Kind::SHOPHEAD_DEFECT_SHAVED,
            Kind::SHOPHEAD_DEFECT_GAP_UNDER_MANUFACTURED_HEAD,
            Kind::SHOPHEAD_DEFECT_SHEETS_APART_AT_EDGE,
            Kind::SHOPHEAD_DEFECT_SHEETS_APART_BY,
        ];
        let kind = KINDS.iter().find(|kind| **kind as u32 == self.kind).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        Ok(match kind {
            Kind::SHOPHEAD_DEFECT_CRACKS => {
                let meeting = match self.meeting {
                    0 => false,
                    1 => true,
                    _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
                };
                Defect::Cracks { count: self.count, innermost: optional(self.nm)?, meeting }
            }
            Kind::SHOPHEAD_DEFECT_TOOL_MARK => {
                Defect::ToolMark { depth: length(self.nm)?, head_height: length(self.head_height_nm)? }
            }
            Kind::SHOPHEAD_DEFECT_GAP_UNDER_HEAD => Defect::GapUnderHead,
            Kind::SHOPHEAD_DEFECT_SHEETS_APART => Defect::SheetsApart,
            Kind::SHOPHEAD_DEFECT_BUCKLED_SHANK => Defect::BuckledShank,
            Kind::SHOPHEAD_DEFECT_TIPPED => Defect::Tipped,
            Kind::SHOPHEAD_DEFECT_LOOSE => Defect::Loose,
            Kind::SHOPHEAD_DEFECT_PROUD => Defect::Proud(length(self.nm)?),
            Kind::SHOPHEAD_DEFECT_SHEET_DAMAGED => Defect::SheetDamaged,
            Kind::SHOPHEAD_DEFECT_NOTCHED_SHANK => Defect::NotchedShank,
            Kind::SHOPHEAD_DEFECT_MANUFACTURED_CRACKS => Defect::ManufacturedCracks { innermost: optional(self.nm)? },
            Kind::SHOPHEAD_DEFECT_FLATTENED => Defect::Flattened(length(self.nm)?),
            Kind::SHOPHEAD_DEFECT_GAP_UNDER_DRIVEN_HEAD => {
                let rim_percent = u8::try_from(self.count).ok().filter(|percent| *percent <= 100);
                let rim_percent = rim_percent.ok_or(E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
                Defect::GapUnderDrivenHead { feeler: length(self.nm)?, rim_percent }
            }
            Kind::SHOPHEAD_DEFECT_STEPPED => Defect::Stepped,
            Kind::SHOPHEAD_DEFECT_CLINCHED => Defect::Clinched,
            Kind::SHOPHEAD_DEFECT_LOW => Defect::Low(length(self.nm)?),
            Kind::SHOPHEAD_DEFECT_SHAVED => Defect::Shaved(length(self.nm)?),
            Kind::SHOPHEAD_DEFECT_GAP_UNDER_MANUFACTURED_HEAD => Defect::GapUnderManufacturedHead,
            Kind::SHOPHEAD_DEFECT_SHEETS_APART_AT_EDGE => Defect::SheetsApartAtEdge(length(self.nm)?),
            Kind::SHOPHEAD_DEFECT_SHEETS_APART_BY => Defect::SheetsApartBy(length(self.nm)?),
        })
    }
}

/// What to do about a rivet that may not stay as it is.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_remedy(pub u32);

/// A driven head as measured.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_measured {
    /// Diameter; of a head that is out of round the least and the greatest. `SHOPHEAD_NONE` both where it was not measured.
    pub diameter: shophead_range,
    /// Height; of a tipped or stepped head the least and the greatest. `SHOPHEAD_NONE` both where it was not measured.
    pub height: shophead_range,
}

/// The verdict on a driven head.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_judgement {
    /// 1 where it may stay, otherwise 0.
    pub accepted: u32,
    /// What to do about it: of several remedies the one that goes furthest.
    pub remedy: shophead_remedy,
    /// Where the remedy stands.
    pub remedy_basis: shophead_basis,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// The most defects that are looked at on one rivet.
pub const SHOPHEAD_MAX_DEFECTS: usize = 16;

/// Judges a driven head by its measures and by what was seen. A measure that was not taken rejects nothing; a finding says so.
///
/// Takes: `measured`; `defects`, an array of `count`, at most `SHOPHEAD_MAX_DEFECTS`, NULL where there are none; `part`, whose length
/// does not matter; `practice`; all the caller's. Writes: `judgement`; `findings`, an array of the caller's with room for `capacity`
/// (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: those of a part and of a practice, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_LENGTHS_OUT_OF_ORDER`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`,
/// `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_head_judge(
    measured: In<shophead_measured>,
    defects: In<shophead_defect>,
    count: usize,
    part: In<shophead_part>,
    practice: In<shophead_practice>,
    judgement: Out<shophead_judgement>,
    findings: Out<shophead_finding>,
    capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = judgement.place()?;
        let mut sink = Sink::new(&findings, capacity)?;
        let measured = measured.one()?;
        let (diameter, height) = (measured.diameter.read()?, measured.height.read()?);
        let mut seen = heapless::Vec::<Defect, SHOPHEAD_MAX_DEFECTS>::new();
        for defect in defects.list(count)? {
            seen.push(defect.read()?).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
        }
        let case = case(&part.one()?.read()?, 1)?;
        practice.one()?.with(|practice| {
            let judged = judge_seen(diameter, height, &seen, practice, &case);
            sink.need([&judged.findings])?;
            place.put(shophead_judgement {
                accepted: u32::from(judged.accepted),
                remedy: judged.remedy.map_or(shophead_remedy(0), |remedy| remedy.value.into()),
                remedy_basis: judged
                    .remedy
                    .map_or(shophead_basis::NONE, |remedy| shophead_basis::of(remedy.basis, practice.documents())),
                findings: sink.put(&judged.findings, practice.documents()),
            });
            Ok(())
        })
    })
}

#[cfg(test)]
mod tests {
    use shophead::upset::DefectKind;

    use super::*;

    /// The numbers of the header are those of the core's words.
    #[test]
    fn every_defect_has_the_number_of_its_word() {
        for kind in DefectKind::ALL {
            let defect = shophead_defect {
                kind: kind.number(),
                count: 1,
                meeting: 0,
                unused: 0,
                nm: 1_000_000,
                head_height_nm: 1_000_000,
            };
            assert_eq!(defect.read().map(|defect| defect.kind()), Ok(*kind));
        }
    }
}
