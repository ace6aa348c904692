//! Whether a driven rivet may stay: its measures and what was seen on it, against the practice.
//!
//! | what is looked at | judged by |
//! |---|---|
//! | driven head out of round | its least diameter, and the ratio of its diameters |
//! | bevelled (tipped) or stepped driven head | its least and its greatest height |
//! | cracks | how many, how near the middle, whether they meet; in some alloys, and in the handbooks, any |
//! | gaps | where, how wide, along how much of the rim |
//! | flush head | how far proud or low, and once it is shaved how wide |
//!
//! A limit that the practice does not give does not reject, except where nothing at all is known of the least head. A greatest diameter
//! rejects only where it is a shop's own: the process specification has none, and the sheet that gives one names no issuer.

use super::HeadLimits;
use crate::basis::{Basis, Status};
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::{Interval, Length};
use crate::practice::{Case, ForCase, Given, Key, Name, Practice};
use crate::setters::setters;

/// A driven head as measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct MeasuredHead {
    /// Diameter; of a head that is out of round the least and the greatest.
    pub diameter: Interval,
    /// Height; of a tipped or stepped head the least and the greatest.
    pub height: Interval,
}

impl MeasuredHead {
    /// As measured across and high: the least and the greatest of each.
    #[must_use]
    pub const fn new(diameter: Interval, height: Interval) -> MeasuredHead {
        MeasuredHead { diameter, height }
    }

    setters! {
        /// Least and greatest diameter.
        diameter: Interval;
        /// Least and greatest height.
        height: Interval;
    }
}

/// A defect that an inspector sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Defect {
    /// Cracks in the driven head.
    Cracks {
        /// How many.
        count: u32,
        /// Diameter of the circle, concentric with the head, that the innermost crack reaches; `None` if not measured.
        innermost: Option<Length>,
        /// Whether any two meet.
        meeting: bool,
    },
    /// Cracks in the manufactured head.
    ManufacturedCracks {
        /// Diameter of the circle, concentric with the head, that the innermost crack reaches; `None` if not measured.
        innermost: Option<Length>,
    },
    /// A tool mark in the manufactured head.
    ToolMark {
        /// How deep.
        depth: Length,
        /// How high the head is.
        head_height: Length,
    },
    /// A protruding manufactured head that a flat die or set has brought down to this height.
    Flattened(Length),
    /// A gap under the manufactured head, or one under either head that was not measured.
    GapUnderHead,
    /// A gap under the driven head.
    GapUnderDrivenHead {
        /// The thickest feeler that goes in.
        feeler: Length,
        /// The percentage of the rim that is left when the longest stretch without a gap is taken off.
        rim_percent: u8,
    },
    /// A gap under the manufactured head.
    GapUnderManufacturedHead,
    /// The sheets stand apart: a feeler goes in as far as the shank.
    SheetsApart,
    /// The sheets stand apart: this is the thickest feeler that goes in as far as the shank.
    SheetsApartBy(Length),
    /// The sheets stand apart at the edge: this feeler goes in there, and none reaches the shank.
    SheetsApartAtEdge(Length),
    /// The tail has folded or the shank has buckled.
    BuckledShank,
    /// The driven head is bevelled. Its least and its greatest height decide.
    Tipped,
    /// The driven head has a step. Its least and its greatest height decide.
    Stepped,
    /// The driven head is offset, clinched or bent, so that the hole shows or the rim is not formed all round.
    Clinched,
    /// The rivet moves by hand.
    Loose,
    /// A flush head that stands proud by this much.
    Proud(Length),
    /// A flush head that lies this much below the surface.
    Low(Length),
    /// A flush head that shaving has left this wide.
    Shaved(Length),
    /// The sheet is marked, cut or bulged beside the rivet.
    SheetDamaged,
    /// The shank that came out is notched or stepped: its holes did not line up.
    NotchedShank,
}

crate::words::words! {
    /// What an inspector sees on a driven rivet: the word that every record, option and list has for it.
    #[non_exhaustive]
    DefectKind, "defect" {
        Cracks = 1, "cracks", "Cracks in the driven head.";
        ToolMark = 2, "tool-mark", "A tool mark in the manufactured head.";
        Gap = 3, "gap", "A gap under the manufactured head, or one under either head that was not measured.";
        SheetsApart = 4, "sheets-apart", "The sheets stand apart: a feeler goes in as far as the shank.";
        Buckled = 5, "buckled", "The tail has folded or the shank has buckled.";
        Tipped = 6, "tipped", "The driven head is bevelled: both its heights decide.";
        Loose = 7, "loose", "The rivet moves by hand.";
        Proud = 8, "proud", "A flush head stands proud.";
        SheetDamaged = 9, "sheet-damaged", "The sheet is marked, cut or bulged beside the rivet.";
        Notched = 10, "notched", "The shank that came out is notched or stepped: its holes did not line up.";
        HeadCracked = 11, "head-cracked", "Cracks in the manufactured head.";
        Flattened = 12, "flattened", "A flat die or set has brought a protruding manufactured head down.";
        GapDriven = 13, "gap-driven", "A gap under the driven head, by the feeler that goes in and the share of the rim.";
        Stepped = 14, "stepped", "The driven head has a step: both its heights decide.";
        Clinched = 15, "clinched", "The driven head is offset, clinched or bent.";
        Low = 16, "low", "A flush head lies below the surface.";
        Shaved = 17, "shaved", "A flush head was shaved.";
        GapManufactured = 18, "gap-manufactured", "A gap under the manufactured head.";
        SheetsApartEdge = 19, "sheets-apart-edge", "The sheets stand apart at the edge, and no feeler reaches the shank.";
    }
}

impl Defect {
    /// What kind it is.
    #[must_use]
    pub const fn kind(&self) -> DefectKind {
        match self {
            Defect::Cracks { .. } => DefectKind::Cracks,
            Defect::ManufacturedCracks { .. } => DefectKind::HeadCracked,
            Defect::ToolMark { .. } => DefectKind::ToolMark,
            Defect::Flattened(_) => DefectKind::Flattened,
            Defect::GapUnderHead => DefectKind::Gap,
            Defect::GapUnderDrivenHead { .. } => DefectKind::GapDriven,
            Defect::GapUnderManufacturedHead => DefectKind::GapManufactured,
            Defect::SheetsApart | Defect::SheetsApartBy(_) => DefectKind::SheetsApart,
            Defect::SheetsApartAtEdge(_) => DefectKind::SheetsApartEdge,
            Defect::BuckledShank => DefectKind::Buckled,
            Defect::Tipped => DefectKind::Tipped,
            Defect::Stepped => DefectKind::Stepped,
            Defect::Clinched => DefectKind::Clinched,
            Defect::Loose => DefectKind::Loose,
            Defect::Proud(_) => DefectKind::Proud,
            Defect::Low(_) => DefectKind::Low,
            Defect::Shaved(_) => DefectKind::Shaved,
            Defect::SheetDamaged => DefectKind::SheetDamaged,
            Defect::NotchedShank => DefectKind::Notched,
        }
    }
}

crate::words::words! {
    /// What to do about a rivet that may not stay as it is, from the least to the most.
    #[non_exhaustive]
    Remedy, "remedy" {
        Shave = 4, "shave", "Shave it flush and measure the head again.";
        Dress = 5, "dress", "Take off the high part and measure the head again.";
        Replace = 1, "replace", "Take it out, measure the hole again and drive another of the same.";
        NextSize = 2, "next-size", "Take it out, open the hole and drive the next larger diameter.";
        Refer = 3, "refer", "Stop and refer: another rivet does not mend it.";
    }
}

/// The verdict on a driven head.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct HeadJudgement {
    /// Whether it may stay.
    pub accepted: bool,
    /// What speaks against it, and what decided it from memory only.
    pub findings: Findings,
    /// What to do about it: of several remedies the one that goes furthest. `None` where it may stay.
    pub remedy: Option<Given<Remedy>>,
}

/// Judges a driven head by its measures and by what was seen.
#[must_use]
pub fn judge(measured: MeasuredHead, defects: &[Defect], practice: &Practice<'_>, case: &Case) -> HeadJudgement {
    judge_seen(Some(measured.diameter), Some(measured.height), defects, practice, case)
}

/// The same where not every measure was taken, as when most heads are only looked at. A measure that was not taken rejects
/// nothing; a note says that it was not checked.
///
/// ```
/// use shophead::material::RivetAlloy;
/// use shophead::length::{Interval, Length};
/// use shophead::practice::{Case, HANDBOOK};
/// use shophead::rivet::Head;
/// use shophead::upset::{Defect, Remedy, judge_seen};
/// let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
/// let narrow = Some(Interval::exactly(Length::parse(".150").unwrap()));
/// assert!(judge_seen(None, None, &[], &HANDBOOK, &case).accepted);
/// let judged = judge_seen(narrow, None, &[], &HANDBOOK, &case);
/// assert_eq!(judged.remedy.unwrap().value, Remedy::Replace);
/// let judged = judge_seen(narrow, None, &[Defect::SheetDamaged], &HANDBOOK, &case);
/// assert_eq!(judged.remedy.unwrap().value, Remedy::Refer);
/// ```
#[must_use]
pub fn judge_seen(
    diameter: Option<Interval>,
    height: Option<Interval>,
    defects: &[Defect],
    practice: &Practice<'_>,
    case: &Case,
) -> HeadJudgement {
    let for_case = practice.for_case(case);
    let mut bench = Bench { limits: for_case, findings: Findings::new(), remedy: None };
    let limits = HeadLimits::of_case(&for_case);
    bench.widths(diameter, &limits);
    bench.heights(height, &limits, defects.contains(&Defect::Stepped));
    let least = [
        (Name::HeadDiameterLeast, limits.diameter_least, diameter),
        (Name::HeadHeightLeast, limits.height_least, height),
    ];
    for (name, limit, measured) in least {
        if measured.is_none() {
            bench.findings.push(Finding::new(Code::NotChecked, Severity::Note, Basis::HEAD_NOT_MEASURED));
        } else if limit.is_none() {
            bench.not_limited(name, Basis::LEAST_DRIVEN_HEAD);
        }
    }
    for defect in defects {
        bench.seen(*defect, height);
    }
    HeadJudgement { accepted: !bench.findings.must_refer(), findings: bench.findings, remedy: bench.remedy }
}

/// A rivet that was driven where its hole is referred and has none.
#[must_use]
pub fn driven_where_referred() -> Finding {
    Finding::new(Code::DrivenWhereReferred, Severity::Refer, Basis::REFERRED_NOT_DRIVEN)
}

/// An inspection in which nobody looked at any rivet.
#[must_use]
pub fn nothing_looked_at() -> Finding {
    Finding::new(Code::NotChecked, Severity::Refer, Basis::NOBODY_LOOKED)
}

/// What a sample says about the rivets that nobody looked at; `None` where it says nothing against them.
///
/// No document at hand gives a plan for sampling driven heads. That one rejected rivet calls for a look at the rest of its row is
/// common practice.
#[must_use]
pub fn check_sample(rejected: u32, looked_at: u32, of: u32) -> Option<Finding> {
    let finding = Finding::new(Code::SampleRejects, Severity::Caution, Basis::SAMPLE_OF_A_ROW);
    (rejected > 0 && looked_at < of)
        .then(|| finding.with_measured(Figure::Count(rejected)).with_limit(Figure::Count(looked_at)))
}

/// One rivet being judged.
struct Bench<'p> {
    limits: ForCase<'p>,
    findings: Findings,
    remedy: Option<Given<Remedy>>,
}

impl Bench<'_> {
    fn call_for(&mut self, remedy: Remedy, basis: Basis) {
        if self.remedy.is_none_or(|known| known.value < remedy) {
            self.remedy = Some(Given { value: remedy, basis });
        }
    }

    fn not_limited(&mut self, name: Name, basis: Basis) {
        let key = Some(Key::of_limit(name));
        self.findings.push(Finding::unknown(Code::NoLimit, Severity::Refer, basis, key));
        self.call_for(Remedy::Refer, Basis::NOTHING_TO_JUDGE_BY);
    }

    /// A rivet that may not stay as it is.
    fn reject(&mut self, finding: Finding, remedy: Remedy) {
        self.findings.push(finding);
        self.call_for(remedy, finding.basis());
    }

    /// Rejects by a length beyond its limit; where it is within, says so if the limit could only be recalled.
    fn hold(&mut self, code: Code, measured: Length, limit: Given<Length>, fails: bool, remedy: Given<Remedy>) {
        if fails {
            self.findings.push(Finding::against(code, Severity::Refer, measured, &limit));
            self.call_for(remedy.value, remedy.basis);
        } else {
            self.findings.push_some(Finding::from_memory(&limit));
        }
    }

    fn widths(&mut self, diameter: Option<Interval>, limits: &HeadLimits) {
        let Some((min, max)) = diameter.map(|diameter| (diameter.min(), diameter.max())) else { return };
        if let Some(least) = limits.diameter_least {
            self.hold(Code::HeadTooNarrow, min, least, min < least.value, REPLACE);
        }
        if let Some(strong) = self.limits.length(Name::HeadDiameterForStrength).filter(|strong| min < strong.value)
            && limits.diameter_least.is_none_or(|least| min >= least.value)
        {
            self.findings.push(Finding::against(Code::HeadNarrowForStrength, Severity::Caution, min, &strong));
        }
        if let Some(greatest) = limits.diameter_greatest.filter(|greatest| max > greatest.value) {
            if greatest.basis.status() == Status::Shop {
                self.hold(Code::HeadTooWide, max, greatest, true, REPLACE);
            } else {
                self.findings.push(Finding::against(Code::HeadTooWide, Severity::Caution, max, &greatest));
            }
        }
        if let Some(ratio) = self.limits.fraction(Name::OutOfRoundGreatest) {
            let limit = Given { value: min.times(ratio.value.0, ratio.value.1), basis: ratio.basis };
            self.hold(Code::HeadOutOfRound, max, limit, max > limit.value, REPLACE);
        }
    }

    fn heights(&mut self, height: Option<Interval>, limits: &HeadLimits, stepped: bool) {
        let Some((min, max)) = height.map(|height| (height.min(), height.max())) else { return };
        if let Some(least) = limits.height_least {
            self.hold(Code::HeadTooLow, min, least, min < least.value, REPLACE);
        }
        if let Some(greatest) = limits.height_greatest {
            let remedy = if stepped { DRESS } else { REPLACE };
            self.hold(Code::HeadTooHigh, max, greatest, max > greatest.value, remedy);
        }
    }

    fn seen(&mut self, defect: Defect, height: Option<Interval>) {
        let plain = |code, basis| Finding::new(code, Severity::Refer, basis);
        match defect {
            Defect::Cracks { count, innermost, meeting } => self.cracks(count, innermost, meeting),
            Defect::ManufacturedCracks { innermost } => self.manufactured_cracks(innermost),
            Defect::ToolMark { depth, head_height } => self.tool_mark(depth, head_height),
            Defect::Flattened(left) => match self.limits.length(Name::FlattenedHeadHeightLeast) {
                Some(least) => self.hold(Code::HeadFlattened, left, least, left < least.value, REPLACE),
                None => self.not_limited(Name::FlattenedHeadHeightLeast, Basis::FLATTENED_HEADS),
            },
            Defect::GapUnderHead => self.reject(plain(Code::GapUnderHead, Basis::SPEC_47196_GAPS), Remedy::Replace),
            Defect::GapUnderManufacturedHead => {
                self.reject(plain(Code::GapUnderManufacturedHead, Basis::SPEC_47196_GAPS), Remedy::Replace);
            }
            Defect::GapUnderDrivenHead { feeler, rim_percent } => self.gap(feeler, rim_percent),
            Defect::SheetsApart => self.apart(Code::SheetsApart, Severity::Refer, None),
            Defect::SheetsApartBy(feeler) => {
                let limit = self.limits.length(Name::GapBetweenSheets);
                // The limit is the feeler that must not go in.
                if limit.is_none_or(|limit| feeler >= limit.value) {
                    self.apart(Code::SheetsApart, Severity::Refer, Some(feeler));
                }
            }
            Defect::SheetsApartAtEdge(feeler) => {
                self.apart(Code::SheetsApartAtEdge, Severity::Caution, Some(feeler));
            }
            Defect::BuckledShank | Defect::Clinched => {
                self.reject(plain(Code::HeadDefect, Basis::SPEC_47196_CLINCHED), Remedy::Replace);
            }
            Defect::Tipped | Defect::Stepped => {
                let (code, basis) = match defect {
                    Defect::Stepped => (Code::HeadStepped, Basis::SPEC_47196_STEPPED),
                    _ => (Code::HeadTipped, Basis::SPEC_47196_TIPPED),
                };
                // Two heights decide; one of them alone says nothing about the other.
                let both = height.is_some_and(|height| height.min() < height.max());
                if both {
                    self.findings.push(Finding::new(code, Severity::Note, basis));
                } else {
                    self.reject(plain(code, basis), Remedy::Replace);
                }
            }
            Defect::Loose => self.reject(plain(Code::RivetLoose, Basis::SPEC_47196_LOOSE), Remedy::Replace),
            Defect::Proud(by) => self.proud(by),
            Defect::Low(by) => match self.limits.length(Name::FlushHeadBelowGreatest) {
                Some(most) => self.hold(Code::HeadBelowSurface, by, most, by > most.value, REPLACE),
                None => self.reject(
                    plain(Code::HeadBelowSurface, Basis::ARMY_240_CONTACT).with_measured(Figure::Length(by)),
                    Remedy::Replace,
                ),
            },
            Defect::Shaved(left) => match self.limits.length(Name::ShavedHeadDiameterLeast) {
                Some(least) => self.hold(Code::HeadShavedTooFar, left, least, left < least.value, REPLACE),
                None => self.not_limited(Name::ShavedHeadDiameterLeast, Basis::SHAVED_HEADS),
            },
            Defect::SheetDamaged => {
                self.reject(plain(Code::SheetDamaged, Basis::SPEC_47196_SHEET_DAMAGE), Remedy::Refer);
            }
            Defect::NotchedShank => {
                self.reject(plain(Code::ShankNotched, Basis::FAA_31B_NOTCHED_SHANK), Remedy::NextSize);
            }
        }
    }

    fn cracks(&mut self, count: u32, innermost: Option<Length>, meeting: bool) {
        let circle = self.limits.length(Name::CrackFreeCircle);
        let most = self.limits.count(Name::CracksGreatest);
        let cracked = |basis| Finding::new(Code::HeadCracked, Severity::Refer, basis);
        let none_allowed = most.is_some_and(|most| most.value == 0);
        let missing = if most.is_none() { Name::CracksGreatest } else { Name::CrackFreeCircle };
        let Some(most) = most.filter(|_| none_allowed || circle.is_some()) else {
            return self.not_limited(missing, Basis::CRACK_LIMIT);
        };
        if count > most.value {
            let finding = cracked(most.basis).with_measured(Figure::Count(count)).with_limit(Figure::Count(most.value));
            self.reject(finding, Remedy::Replace);
        }
        if count > 0 && none_allowed {
            // What another document would take stands beside it, for whoever decides.
            if let Some(within) = self.limits.length(Name::CrackWithinCircle) {
                let note = Finding::new(Code::CracksElsewhere, Severity::Note, within.basis);
                self.findings.push(note.with_limit(Figure::Length(within.value)));
            }
            return;
        }
        let Some(circle) = circle.filter(|_| count > 0) else { return };
        match innermost {
            Some(reach) if reach > circle.value => {}
            Some(reach) => {
                let finding = Finding::against(Code::CrackNearMiddle, Severity::Refer, reach, &circle);
                self.reject(finding, Remedy::Replace);
            }
            None => self.reject(unmeasured(&circle), Remedy::Replace),
        }
        if meeting {
            self.reject(cracked(circle.basis), Remedy::Replace);
        }
    }

    fn manufactured_cracks(&mut self, innermost: Option<Length>) {
        let cracked = |basis| Finding::new(Code::HeadCracked, Severity::Refer, basis);
        if self.limits.case().head.is_flush() {
            return self.reject(cracked(Basis::SPEC_47196_FLUSH_HEADS), Remedy::Replace);
        }
        let none_allowed = self.limits.count(Name::ManufacturedCracksGreatest);
        if let Some(none) = none_allowed.filter(|most| most.value == 0) {
            return self.reject(cracked(none.basis).with_limit(Figure::Count(0)), Remedy::Replace);
        }
        match (self.limits.length(Name::ManufacturedCrackFreeCircle), innermost) {
            (Some(circle), Some(reach)) => {
                self.hold(Code::CrackNearMiddle, reach, circle, reach <= circle.value, REPLACE);
            }
            (Some(circle), None) => {
                self.reject(unmeasured(&circle), Remedy::Replace);
            }
            (None, _) => self.not_limited(Name::ManufacturedCrackFreeCircle, Basis::CRACK_LIMIT),
        }
    }

    /// A mark is checked against the head's height; a flush head takes none.
    fn tool_mark(&mut self, depth: Length, head_height: Length) {
        let share = self.limits.fraction(Name::ToolMarkDepthGreatest);
        let limit = share.map_or(Given { value: Length::ZERO, basis: Basis::SPEC_47196_FLUSH_HEADS }, |share| Given {
            value: head_height.times(share.value.0, share.value.1),
            basis: share.basis,
        });
        self.hold(Code::HeadMarked, depth, limit, depth > limit.value, REPLACE);
    }

    fn apart(&mut self, code: Code, severity: Severity, feeler: Option<Length>) {
        let limit = self.limits.length(Name::GapBetweenSheets);
        let basis = limit.map_or(Basis::SPEC_47196_SHEETS_APART, |limit| limit.basis);
        let finding = Finding::new(code, severity, basis);
        let finding = feeler.map_or(finding, |feeler| finding.with_measured(Figure::Length(feeler)));
        let finding = limit.map_or(finding, |limit| finding.with_limit(Figure::Length(limit.value)));
        if severity == Severity::Refer {
            self.reject(finding, Remedy::Replace);
        } else {
            self.findings.push(finding);
        }
    }

    fn gap(&mut self, feeler: Length, rim_percent: u8) {
        let Some(most) = self.limits.length(Name::GapUnderHeadGreatest) else {
            return self.not_limited(Name::GapUnderHeadGreatest, Basis::GAPS_UNDER_HEADS);
        };
        self.hold(Code::GapUnderHead, feeler, most, feeler > most.value, REPLACE);
        if let Some(share) = self.limits.fraction(Name::GapRimShare) {
            let (measured, limit) = (u64::from(rim_percent), share.value);
            if measured.saturating_mul(u64::from(limit.1)) > u64::from(limit.0).saturating_mul(100) {
                let percent = u64::from(limit.0).saturating_mul(100).checked_div(u64::from(limit.1)).unwrap_or(0);
                let finding = Finding::new(Code::GapAlongRim, Severity::Refer, share.basis)
                    .with_measured(Figure::Count(u32::from(rim_percent)))
                    .with_limit(Figure::Count(u32::try_from(percent).unwrap_or(u32::MAX)));
                self.reject(finding, Remedy::Replace);
            }
        }
    }

    /// A head that stands too proud is shaved where it has enough metal for that.
    fn proud(&mut self, by: Length) {
        let Some(finished) = self.limits.length(Name::FlushHeadAboveGreatest) else {
            let finding = Finding::new(Code::HeadProud, Severity::Refer, Basis::ARMY_240_CONTACT);
            return self.reject(finding.with_measured(Figure::Length(by)), Remedy::Replace);
        };
        let shaved = self.limits.length(Name::FlushHeadProudGreatest).filter(|most| by <= most.value);
        let remedy = shaved.map_or(REPLACE, |most| Given { value: Remedy::Shave, basis: most.basis });
        self.hold(Code::HeadProud, by, finished, by > finished.value, remedy);
    }
}

/// A crack of which nobody measured how near the middle it comes.
fn unmeasured(circle: &Given<Length>) -> Finding {
    Finding::new(Code::CrackNearMiddle, Severity::Refer, circle.basis).with_limit(Figure::Length(circle.value))
}

const REPLACE: Given<Remedy> = Given { value: Remedy::Replace, basis: Basis::REPLACE_OUTSIDE_LIMITS };
const DRESS: Given<Remedy> = Given { value: Remedy::Dress, basis: Basis::SPEC_47196_STEPPED };
