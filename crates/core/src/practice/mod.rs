//! Limits as data.
//!
//! A [`Practice`] is one set of limits: a built-in set from published documents, and on top of it a shop's own limits, value by
//! value. Every limit carries its basis. A calculation asks for a limit by [`Name`] for a [`Case`] (head, alloy, diameter, number
//! of rows) and gets the most particular one that applies; a shop's own limit comes before any built-in one.
//!
//! No calculation in this crate holds such a figure itself: to change what the product does, change the limit.
//!
//! ```
//! use shophead::length::Length;
//! use shophead::practice::{Case, Limit, Name, Practice, Scope, Value, HANDBOOK};
//! use shophead::basis::{Basis, Document, Status};
//! use shophead::rivet::Head;
//! use shophead::material::RivetAlloy;
//!
//! let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
//! let least = HANDBOOK.length(Name::HeadDiameterLeast, &case).unwrap();
//! assert_eq!(least.value, Length::parse(".1625").unwrap());
//! # #[cfg(feature = "words")]
//! assert_eq!(HANDBOOK.cite(least.basis).document, "MIL-HDBK-5H");
//!
//! let documents = [Document { document: "repair manual of the type", place: "section 4" }];
//! let own = [Limit::new(Name::HeadDiameterLeast, Scope::ANY, Value::parse(Name::HeadDiameterLeast, "1.4 D").unwrap(), Basis::own(0))];
//! let shop = HANDBOOK.with_own(&own, &documents);
//! let least = shop.length(Name::HeadDiameterLeast, &case).unwrap();
//! assert_eq!((least.value, least.basis.status()), (Length::parse(".175").unwrap(), Status::Shop));
//! # #[cfg(feature = "words")]
//! assert_eq!(shop.cite(least.basis).place, "section 4");
//! ```

mod ahead;
mod common;
mod entered;
mod handbook;
mod key;
mod process;
mod value;

use common::Row;

#[cfg(feature = "words")]
use crate::basis::Citation;
use crate::basis::{Basis, Document};
use crate::length::{Interval, Length};
use crate::material::RivetAlloy;
use crate::rivet::part::Part;
use crate::rivet::{Head, Size};
use crate::setters::setters;

pub use ahead::CaseLimits;
pub(crate) use ahead::ForCase;
pub use entered::{
    EnterError, Entered, EnteredJoint, MAX_ENTERED_SHEETS, MAX_JOINTS, MAX_SHEARS, MAX_SIZES, MAX_TENSIONS,
    MAX_TOLERANCES,
};
pub use key::{Dimension, Entry, Key, ParseKeyError};
pub use value::{LengthRounding, ParseValueError, Value};

/// What a limit's value may be; decides how its text is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LimitKind {
    /// A length, or so many shank diameters, or an allowance over the largest shank.
    Length,
    /// A plain ratio or a share.
    Fraction,
    /// A whole number.
    Count,
    /// A way of rounding a length.
    Rounding,
}

/// One line a limit: variant, number for C, the word used in a limits file and by `sources`, kind, what it means.
macro_rules! names {
    ($( $variant:ident = $number:literal, $word:literal, $kind:ident, $meaning:literal; )+) => {
        /// The name of a limit.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum Name { $( #[doc = $meaning] $variant, )+ }

        crate::words::worded! { Name, "limit" { $( $variant = $number, $word, $meaning; )+ } }

        impl Name {
            /// What the value may be.
            #[must_use]
            pub const fn kind(self) -> LimitKind {
                match self { $( Name::$variant => LimitKind::$kind, )+ }
            }
        }
    };
}

// A number is never used again.
names! {
    // choosing a rivet
    RuleOfThumbTail = 1, "rule-of-thumb-tail", Length, "What the rule of thumb adds to the grip.";
    LengthRounding = 2, "length-rounding", Rounding, "How the rule of thumb is rounded to a standard length: next longer, or nearest.";
    TailGreatest = 3, "tail-greatest", Length, "The longest tail that is driven without folding over.";
    DiameterPerThicknessLeast = 4, "diameter-per-thickness-least", Fraction, "Least rivet diameter as a multiple of the thickest sheet.";
    DiameterPerThicknessTarget = 5, "diameter-per-thickness-target", Fraction, "Usual rivet diameter as a multiple of the thicker sheet.";
    DiameterPerThicknessGreatest = 6, "diameter-per-thickness-greatest", Fraction, "Rivet diameter as a multiple of the thickest sheet; the next larger size of the series is the greatest.";
    DiameterStructuralLeast = 7, "diameter-structural-least", Length, "Least rivet diameter in structure.";
    // driven heads
    HeadDiameterLeast = 8, "driven-head-diameter-least", Length, "Least diameter of the driven head.";
    HeadDiameterForStrength = 45, "driven-head-diameter-for-strength", Length, "Least diameter of the driven head that the published strengths count on, where it is more than the least accepted.";
    HeadDiameterTarget = 9, "driven-head-diameter-target", Length, "Diameter of the driven head to aim at.";
    HeadDiameterGreatest = 10, "driven-head-diameter-greatest", Length, "Greatest diameter of the driven head.";
    HeadHeightLeast = 11, "driven-head-height-least", Length, "Least height of the driven head.";
    HeadHeightTarget = 12, "driven-head-height-target", Length, "Height of the driven head to aim at.";
    HeadHeightGreatest = 13, "driven-head-height-greatest", Length, "Greatest height of the driven head.";
    MetalHeightGreatest = 46, "metal-height-greatest", Length, "Height that, with the greatest diameter, bounds the metal of a tail: more would make too large a head.";
    OutOfRoundGreatest = 47, "out-of-round-greatest", Fraction, "Greatest diameter of a driven head as a multiple of its least.";
    CrackFreeCircle = 14, "crack-free-circle", Length, "Diameter of the circle, concentric with the driven head, in which no crack is accepted.";
    CracksGreatest = 15, "cracks-greatest", Count, "The most separate cracks accepted near the rim of the driven head.";
    CrackWithinCircle = 48, "crack-within-circle", Length, "Diameter of the circle on a head inside which another document accepts small cracks.";
    ManufacturedCrackFreeCircle = 49, "manufactured-crack-free-circle", Length, "Diameter of the circle, concentric with a protruding manufactured head, in which no crack is accepted.";
    ManufacturedCracksGreatest = 50, "manufactured-cracks-greatest", Count, "The most cracks accepted in a manufactured head.";
    GapUnderHeadGreatest = 51, "gap-under-head-greatest", Length, "The thickest feeler that may go in under the driven head where a gap is accepted.";
    GapRimShare = 52, "gap-rim-share", Fraction, "The share of the driven head's rim under which such a gap is accepted.";
    GapBetweenSheets = 53, "gap-between-sheets", Length, "The feeler that must not reach the shank between the sheets.";
    ToolMarkDepthGreatest = 16, "tool-mark-depth-greatest", Fraction, "Deepest tool mark accepted on a protruding manufactured head, as a share of the head's height.";
    FlattenedHeadHeightLeast = 54, "flattened-head-height-least", Length, "Least height of a protruding manufactured head that was flattened.";
    FlushHeadAboveGreatest = 55, "flush-head-above-greatest", Length, "The most a finished flush head may stand above the surface.";
    FlushHeadBelowGreatest = 56, "flush-head-below-greatest", Length, "The most a flush head may lie below the surface.";
    FlushHeadProudGreatest = 17, "flush-head-proud-greatest", Length, "The most a flush head may stand proud before it is shaved.";
    ShavedHeadDiameterLeast = 57, "shaved-head-diameter-least", Length, "Least diameter of a flush head after it was shaved.";
    // holes
    HoleDrill = 18, "hole-drill", Length, "The diameter of the drill for the rivet: what to aim at.";
    HoleDrilledGreatest = 58, "hole-drilled-greatest", Length, "The largest that the hole is counted on to come out with this drill.";
    HoleLeast = 19, "hole-least", Length, "The smallest hole accepted.";
    HoleGreatest = 20, "hole-greatest", Length, "The largest hole accepted.";
    CleanUpLeast = 65, "clean-up-least", Length, "How much wider than a damaged hole its drill is at least, so that the damage comes out.";
    CountersinkDiameter = 59, "countersink-diameter", Length, "Diameter of a machine countersink for the rivet.";
    CountersinkSheetLeast = 21, "countersink-sheet-least", Length, "Thinnest sheet that is machine countersunk for the rivet.";
    CountersinkDepthShare = 22, "countersink-depth-share", Fraction, "Deepest countersink as a share of the sheet.";
    CountersinkDepthPreferred = 23, "countersink-depth-preferred", Fraction, "Depth of countersink, as a share of the sheet, that keeps a straight land.";
    DimpleSheetGreatest = 24, "dimple-sheet-greatest", Length, "Thickest sheet that is dimpled.";
    StepGreatest = 60, "step-greatest", Length, "How much larger the next size may be without approval.";
    PatternStepsShare = 25, "pattern-steps-share", Fraction, "Largest share of one pattern's rivets that may be stepped up.";
    PatternStepsCount = 26, "pattern-steps-count", Count, "The most rivets of one pattern that may be stepped up.";
    NeighboursStepped = 27, "neighbours-stepped", Count, "The most neighbouring rivets that may be stepped up.";
    PatternStretch = 61, "pattern-stretch", Length, "A length along the row in which a share of the rivets may be stepped up.";
    PatternStretchShare = 62, "pattern-stretch-share", Fraction, "The share of the rivets in any such length that may be stepped up.";
    // damage beside the holes; only a shop's own documents give these
    CrackLengthGreatest = 28, "crack-length-greatest", Length, "The longest crack that is repaired without asking.";
    CorrosionDepthShare = 29, "corrosion-depth-share", Fraction, "Deepest corrosion that is cleaned up without asking, as a share of the layer.";
    CorrosionLengthGreatest = 30, "corrosion-length-greatest", Length, "The longest corroded place that is cleaned up without asking.";
    SoftSpotLengthGreatest = 31, "soft-spot-length-greatest", Length, "The longest soft place that is repaired without asking.";
    // layout
    EdgeDistanceLeast = 32, "edge-distance-least", Length, "Least distance from the centre of a hole to the nearest edge.";
    EdgeDistanceAsBuiltLeast = 63, "edge-distance-as-built-least", Length, "Least edge distance of a hole that is kept as the maker built it.";
    EdgeDistancePreferred = 33, "edge-distance-preferred", Length, "Edge distance that leaves room for a later step up.";
    EdgeDistanceGreatest = 34, "edge-distance-greatest", Length, "Greatest usual edge distance.";
    PitchLeast = 35, "pitch-least", Length, "Least distance between neighbouring holes of a row.";
    PitchGreatest = 36, "pitch-greatest", Length, "Greatest usual distance between neighbouring holes of a row.";
    TransversePitchLeast = 37, "transverse-pitch-least", Length, "Least distance between rows.";
    TransversePitchShare = 64, "transverse-pitch-share", Fraction, "Least distance between rows as a share of the pitch.";
    // strength
    InterRivetFixity = 38, "inter-rivet-fixity", Fraction, "How firmly the heads hold a sheet that buckles between its rivets: 1 pinned, 4 clamped.";
    InterRivetElasticShare = 39, "inter-rivet-elastic-share", Fraction, "Part of the compression yield stress up to which buckling between rivets is elastic.";
    // access and removal
    BarThickness = 40, "bar-thickness", Length, "Room that the bucking bar needs behind the tail.";
    RemovalDrillBelow = 41, "removal-drill-below", Count, "How many drill sizes the removal drill is smaller than the shank.";
    RemovalThickPack = 42, "removal-thick-pack", Length, "A grip from which taking the rivet out is risky.";
    RemovalManyLayers = 43, "removal-many-layers", Count, "A number of layers from which taking the rivet out is risky.";
    RemovalThinFarSide = 44, "removal-thin-far-side", Length, "A far-side layer thinner than this bends unless it is supported.";
}

crate::words::words! {
    /// Heads a limit holds for.
    #[non_exhaustive]
    HeadScope, "kind of head" {
        Protruding = 1, "protruding", "Heads that stand proud.";
        Flush = 2, "flush", "Heads that lie in the sheet.";
        Dimpled = 3, "dimpled", "Flush heads in dimpled sheet.";
    }
}

/// What a limit is limited to; `None` means any.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Scope {
    /// Only these heads.
    pub head: Option<HeadScope>,
    /// Only this rivet alloy.
    pub alloy: Option<RivetAlloy>,
    /// Only this nominal shank diameter.
    pub diameter: Option<Length>,
    /// Only this number of rows.
    pub rows: Option<u8>,
    /// Only for a rivet that took the place of a smaller one.
    pub stepped: bool,
}

impl Scope {
    setters! {
        /// For this head.
        head: Option<HeadScope>;
        /// For this alloy.
        alloy: Option<RivetAlloy>;
        /// For this diameter.
        diameter: Option<Length>;
        /// For so many rows.
        rows: Option<u8>;
        /// Only for a hole that is stepped up.
        stepped: bool;
    }
}

impl Scope {
    /// Every case.
    pub const ANY: Scope = Scope { head: None, alloy: None, diameter: None, rows: None, stepped: false };

    fn covers(&self, case: &Case) -> bool {
        let flush = case.head.is_flush();
        self.head.is_none_or(|wanted| match wanted {
            HeadScope::Protruding => !flush,
            HeadScope::Flush => flush,
            HeadScope::Dimpled => flush && case.dimpled,
        }) && self.alloy.is_none_or(|wanted| wanted == case.alloy)
            && self.diameter.is_none_or(|wanted| wanted == case.diameter)
            && self.rows.is_none_or(|wanted| wanted == case.rows)
            && (case.stepped || !self.stepped)
    }

    /// How many things the scope names. A dimpled head is a flush one and more.
    const fn particulars(&self) -> u8 {
        let head = match self.head {
            None => 0_u8,
            Some(HeadScope::Protruding | HeadScope::Flush) => 1,
            Some(HeadScope::Dimpled) => 2,
        };
        head.saturating_add(self.alloy.is_some() as u8)
            .saturating_add(self.diameter.is_some() as u8)
            .saturating_add(self.rows.is_some() as u8)
            .saturating_add(self.stepped as u8)
    }
}

/// One limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Limit {
    /// Which limit this is.
    pub name: Name,
    /// What it holds for.
    pub scope: Scope,
    /// How much.
    pub value: Value,
    /// Where it comes from.
    pub basis: Basis,
}

impl Limit {
    /// A limit of this name, where it applies, its value and its source.
    #[must_use]
    pub const fn new(name: Name, scope: Scope, value: Value, basis: Basis) -> Limit {
        Limit { name, scope, value, basis }
    }
}

/// What a limit is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Case {
    /// The manufactured head.
    pub head: Head,
    /// The rivet alloy.
    pub alloy: RivetAlloy,
    /// Nominal shank diameter, which multiples of D count.
    pub diameter: Length,
    /// Largest shank diameter, which allowances over the shank count; `None` where it is not known.
    pub shank_max: Option<Length>,
    /// How many rows the pattern has.
    pub rows: u8,
    /// Whether the sheets under a flush head are dimpled.
    pub dimpled: bool,
    /// Whether the rivet took the place of a smaller one in its hole.
    pub stepped: bool,
}

impl Case {
    /// A single row of rivets whose shank has no tolerance.
    #[must_use]
    pub const fn new(head: Head, alloy: RivetAlloy, diameter: Length) -> Case {
        Case { head, alloy, diameter, shank_max: Some(diameter), rows: 1, dimpled: false, stepped: false }
    }

    /// A single row of rivets of this size.
    #[must_use]
    pub fn of(head: Head, alloy: RivetAlloy, size: &Size) -> Case {
        let shank_max = size.shank.map(|shank| shank.max());
        Case { shank_max, ..Case::new(head, alloy, size.shank_nominal) }
    }

    /// A single row of these rivets.
    #[must_use]
    pub fn for_part(part: &Part<'_>) -> Case {
        Case::of(part.series().head, part.alloy(), part.size())
    }

    /// The same in a pattern of so many rows.
    #[must_use]
    pub const fn in_rows(self, rows: u8) -> Case {
        Case { rows, ..self }
    }

    /// The same in dimpled sheet.
    #[must_use]
    pub const fn in_dimples(self) -> Case {
        Case { dimpled: true, ..self }
    }

    /// The same after a step up.
    #[must_use]
    pub const fn stepped_up(self) -> Case {
        Case { stepped: true, ..self }
    }
}

/// A figure with its basis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Given<T> {
    /// The figure.
    pub value: T,
    /// Where it comes from.
    pub basis: Basis,
}

/// The most particular of the limits of one name that cover the case; the first where several are equal.
fn most_particular(limits: impl Iterator<Item = Limit>, case: &Case) -> Option<Limit> {
    let mut found: Option<(Limit, u8)> = None;
    for limit in limits {
        let particulars = limit.scope.particulars();
        if limit.scope.covers(case) && found.is_none_or(|(_, most)| particulars > most) {
            found = Some((limit, particulars));
        }
    }
    found.map(|(limit, _)| limit)
}

/// The rows of this name in a built-in table: they stand together there, in the order of the names. A short calculation asks for a dozen
/// limits, so that looking through the whole table was most of its work.
fn of_name(table: &'static [Row], name: Name) -> &'static [Row] {
    let from = table.partition_point(|limit| limit.name < name);
    let rest = table.get(from..).unwrap_or_default();
    let count = rest.iter().take_while(|limit| limit.name == name).count();
    rest.get(..count).unwrap_or_default()
}

/// [`of_name`] finds everything in a table: its names rise.
const _: () = {
    let mut tables: &[&[Row]] = &[handbook::LIMITS, common::LIMITS, process::LIMITS, process::TABLES];
    while let [table, others @ ..] = tables {
        let mut rest: &[Row] = table;
        while let [first, behind @ ..] = rest {
            if let [second, ..] = behind {
                assert!(first.name as u8 <= second.name as u8);
            }
            rest = behind;
        }
        tables = others;
    }
};

/// A set of limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Practice<'a> {
    name: &'a str,
    title: &'a str,
    /// The practice's own documents, then the process specification where they are silent, then what stands in neither.
    built_in: [&'static [Row]; 3],
    own: &'a [Limit],
    documents: &'a [Document<'a>],
    /// A shop's own figures of series and materials.
    entered: Option<&'a Entered>,
    /// Limits of some cases, looked up ahead.
    #[cfg(target_pointer_width = "64")]
    cases: &'a [Option<CaseLimits>],
}

/// The aviation authority's handbooks: AC 43.13-1B and FAA-H-8083-31B, with MIL-HDBK-5 where they refer to it. Where they are silent, as on
/// the holes to accept and the greatest height of a driven head, the process specification.
pub static HANDBOOK: Practice<'static> = Practice {
    name: "handbook",
    title: "AC 43.13-1B and FAA-H-8083-31B, with MIL-HDBK-5; where they are silent MIL-R-47196A(MI)",
    built_in: [handbook::LIMITS, process::TABLES, common::LIMITS],
    own: &[],
    documents: &[],
    entered: None,
    #[cfg(target_pointer_width = "64")]
    cases: &[],
};

/// The process specification: MIL-R-47196A(MI). Where it is silent, as on lengths and diameters, the handbooks.
pub static PROCESS: Practice<'static> = Practice {
    name: "process",
    title: "MIL-R-47196A(MI); where it is silent AC 43.13-1B, FAA-H-8083-31B and MIL-HDBK-5",
    built_in: [process::LIMITS, process::TABLES, common::LIMITS],
    own: &[],
    documents: &[],
    entered: None,
    #[cfg(target_pointer_width = "64")]
    cases: &[],
};

/// The built-in practices; the first is the default.
pub static BUILT_IN: [&Practice<'static>; 2] = [&HANDBOOK, &PROCESS];

impl<'a> Practice<'a> {
    /// The name by which a user picks it.
    #[must_use]
    pub const fn name(&self) -> &'a str {
        self.name
    }

    /// The documents behind it.
    #[must_use]
    pub const fn title(&self) -> &'a str {
        self.title
    }

    /// This practice with a shop's own limits on top, and the documents that they stand in: a limit whose basis is
    /// [`Basis::own(n)`](Basis::own) stands in the document at place n, counted from 0. They replace any own limits it had. The list may also
    /// name the documents of a shop's own part standards and sheets.
    #[must_use]
    pub const fn with_own<'b>(&self, own: &'b [Limit], documents: &'b [Document<'b>]) -> Practice<'b>
    where
        'a: 'b,
    {
        Practice {
            own,
            documents,
            // Looked up without these.
            #[cfg(target_pointer_width = "64")]
            cases: &[],
            ..*self
        }
    }

    /// The shop's own documents.
    #[must_use]
    pub const fn documents(&self) -> &'a [Document<'a>] {
        self.documents
    }

    /// What a basis cites: one of the built-in documents, or one of the shop's own.
    #[cfg(feature = "words")]
    #[must_use]
    pub fn cite(&self, basis: Basis) -> Citation<'a> {
        basis.cite(self.documents)
    }

    /// Every limit: the shop's own, then those of the practice's documents, then those that stand in none of them.
    pub fn limits(&self) -> impl Iterator<Item = Limit> {
        self.own.iter().copied().chain(self.built_in.into_iter().flatten().flat_map(Row::limits))
    }

    /// The limit that applies: of the shop's own the most particular one, else that of the first document that has one, and in it the most
    /// particular one. Of two that are equally particular, the first in the list.
    #[must_use]
    #[inline(never)]
    pub fn find(&self, name: Name, case: &Case) -> Option<Limit> {
        let own = self.own.iter().filter(|limit| limit.name == name).copied();
        if let Some(limit) = most_particular(own, case) {
            return Some(limit);
        }
        self.built_in.into_iter().find_map(|table| {
            let rows = of_name(table, name).iter().filter_map(|row| row.limit_for(case.diameter));
            most_particular(rows, case)
        })
    }

    /// A shop's own limit of damage for every rivet: no built-in one is known.
    pub(crate) fn for_every_rivet(&self, name: Name) -> Option<Given<Value>> {
        let own = self.own.iter().find(|limit| limit.name == name && limit.scope == Scope::ANY);
        own.map(|limit| Given { value: limit.value, basis: limit.basis })
    }

    /// A limit as a length; `None` when there is no such limit or it is no length.
    #[must_use]
    pub fn length(&self, name: Name, case: &Case) -> Option<Given<Length>> {
        self.for_case(case).length(name)
    }

    /// A limit as a fraction, numerator and denominator.
    #[must_use]
    pub fn fraction(&self, name: Name, case: &Case) -> Option<Given<(u32, u32)>> {
        self.for_case(case).fraction(name)
    }

    /// A limit as a whole number.
    #[must_use]
    pub fn count(&self, name: Name, case: &Case) -> Option<Given<u32>> {
        self.for_case(case).count(name)
    }

    /// How lengths are rounded.
    #[must_use]
    pub fn rounding(&self, case: &Case) -> Option<Given<LengthRounding>> {
        self.for_case(case).rounding()
    }

    /// The hole that is assumed where none was measured: as drilled with the practice's drill.
    ///
    /// `None` where the practice names no drill or no limit.
    #[must_use]
    pub fn hole_for(&self, case: &Case) -> Option<Given<Interval>> {
        self.for_case(case).hole()
    }

    /// The hole that a rivet is promised to enter and to be accepted in: from the smallest accepted, or the largest shank where that is wider,
    /// to the largest accepted.
    ///
    /// Where no smallest hole is given it is the drill's. `None` where the practice gives no largest one.
    ///
    /// ```
    /// use shophead::length::Length;
    /// use shophead::material::RivetAlloy;
    /// use shophead::practice::{Case, PROCESS};
    /// use shophead::rivet::{Head, MS20470};
    /// let case = Case::of(Head::Universal, RivetAlloy::Al2117, MS20470.size(4).unwrap());
    /// let hole = PROCESS.promised_hole(&case).unwrap().value;
    /// // Table I accepts holes from .125; a shank may be .128.
    /// assert_eq!((hole.min(), hole.max()), (Length::parse(".128")?, Length::parse(".135")?));
    /// # Ok::<(), shophead::length::ParseLengthError>(())
    /// ```
    #[must_use]
    pub fn promised_hole(&self, case: &Case) -> Option<Given<Interval>> {
        self.for_case(case).promised_hole()
    }

    /// The hole to count on where none was measured: [`Practice::hole_for`], or where that knows none, one as wide as the shank.
    #[must_use]
    pub fn assumed_hole(&self, case: &Case) -> Given<Interval> {
        self.for_case(case).assumed_hole()
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;

    #[test]
    fn every_name_has_a_word_of_its_own() {
        for (index, name) in Name::ALL.iter().enumerate() {
            assert_eq!(name.as_str().parse(), Ok(*name));
            for other in Name::ALL.iter().skip(index + 1) {
                assert!(other.as_str() != name.as_str() && other.number() != name.number(), "{name} twice");
            }
        }
    }

    #[test]
    fn every_built_in_limit_is_of_its_kind_and_prints_as_it_is_read() {
        for practice in BUILT_IN {
            for limit in practice.limits() {
                let text = limit.value.to_string();
                assert_eq!(
                    Value::parse(limit.name, &text),
                    Ok(limit.value),
                    "{} {}: {text}",
                    practice.name(),
                    limit.name
                );
            }
        }
    }

    #[cfg(feature = "words")]
    #[test]
    fn every_built_in_limit_names_its_document() {
        for practice in BUILT_IN {
            for limit in practice.limits() {
                let cited = limit.basis.citation().expect("a built-in document");
                assert!(!cited.document.is_empty() && !cited.place.is_empty(), "{}", limit.name);
                assert_ne!(cited.status, crate::basis::Status::Shop);
            }
        }
    }

    #[test]
    fn the_more_particular_limit_wins_and_the_first_of_equals() {
        let basis = Basis::own(0);
        let limit = |scope, thousandths| Limit {
            name: Name::PitchLeast,
            scope,
            value: Value::Length(Length::from_ten_thousandths(thousandths)),
            basis,
        };
        let flush = Scope { head: Some(HeadScope::Flush), ..Scope::ANY };
        let own =
            [limit(Scope::ANY, 1), limit(Scope::ANY, 2), limit(flush, 3), limit(Scope { rows: Some(2), ..flush }, 4)];
        let practice = HANDBOOK.with_own(&own, &[]);
        let case = Case::new(Head::Universal, RivetAlloy::Al2117, Length::from_64ths(8));
        let pitch = |case: &Case| practice.length(Name::PitchLeast, case).map(|given| given.value);
        assert_eq!(pitch(&case), Some(Length::from_ten_thousandths(1)));
        assert_eq!(pitch(&Case { head: Head::Flush, ..case }), Some(Length::from_ten_thousandths(3)));
        assert_eq!(pitch(&Case { head: Head::ReducedFlush, ..case }.in_rows(2)), Some(Length::from_ten_thousandths(4)));
    }
}
