//! What a check found.

use shophead::basis::Document;
use shophead::finding::{Code, Figure, Finding, Findings, Severity};

use crate::basis::shophead_basis;
use crate::border::{Out, Places};
use crate::error::shophead_error as E;
use crate::numbers::numbered;

/// How serious a finding is.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_severity {
    /// Worth knowing; nothing has to be done.
    SHOPHEAD_SEVERITY_NOTE = 1,
    /// Do it with care, or check before relying on it.
    SHOPHEAD_SEVERITY_CAUTION = 2,
    /// Must not go ahead as it stands: ask the engineer or the approved data.
    SHOPHEAD_SEVERITY_REFER = 3,
}

numbered! {
    Severity, shophead_severity [
        Note = SHOPHEAD_SEVERITY_NOTE,
        Caution = SHOPHEAD_SEVERITY_CAUTION,
        Refer = SHOPHEAD_SEVERITY_REFER,
    ]
}

/// What kind of finding it is. `shophead_word` gives the word that other outputs of the project use for it.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_code {
    /// A kind that this list does not have yet.
    SHOPHEAD_CODE_UNKNOWN = 0,
    /// A limit that decided something could only be recalled: check it against the document.
    SHOPHEAD_CODE_LIMIT_FROM_MEMORY = 1,
    /// No document at hand gives the limit that is needed: open the one named.
    SHOPHEAD_CODE_NO_LIMIT = 2,
    /// Something that decides here was not given, so it was not checked.
    SHOPHEAD_CODE_NOT_CHECKED = 3,
    /// The tail could fold over before it forms a head.
    SHOPHEAD_CODE_TAIL_TOO_LONG = 4,
    /// The tail cannot form the least head in the worst case.
    SHOPHEAD_CODE_TAIL_TOO_SHORT = 5,
    /// The tail holds more metal than the largest head allowed.
    SHOPHEAD_CODE_HEAD_TOO_LARGE = 6,
    /// No length of the series gives a sound head in every case.
    SHOPHEAD_CODE_NO_LENGTH_FITS = 7,
    /// No one length is within limits in every hole: the hole as measured decides.
    SHOPHEAD_CODE_LENGTH_BY_HOLE = 101,
    /// No standard length is within limits in some holes, but a longer rivet that is cut to length is.
    SHOPHEAD_CODE_CUT_TO_LENGTH = 102,
    /// How much tail a dimpled pack takes is worked out, no document gives it.
    SHOPHEAD_CODE_DIMPLE_COMPUTED = 103,
    /// The length differs from grip plus one and a half diameters.
    SHOPHEAD_CODE_DIFFERS_FROM_RULE = 8,
    /// Only a half length fits; they are not always in stock.
    SHOPHEAD_CODE_HALF_LENGTH = 9,
    /// The length lies outside those tabulated for the series.
    SHOPHEAD_CODE_LENGTH_NOT_TABULATED = 10,
    /// The diameter lies outside the rule for the sheet.
    SHOPHEAD_CODE_DIAMETER_OUTSIDE_RULE = 11,
    /// This alloy or size is not for structure.
    SHOPHEAD_CODE_NOT_STRUCTURAL = 12,
    /// This alloy is heat treated or kept cold before driving.
    SHOPHEAD_CODE_HEAT_TREAT_FIRST = 13,
    /// A shank at its largest does not enter the hole at its smallest.
    SHOPHEAD_CODE_SHANK_MAY_NOT_ENTER = 14,
    /// The driven head is narrower than allowed.
    SHOPHEAD_CODE_HEAD_TOO_NARROW = 15,
    /// The driven head is wider than allowed.
    SHOPHEAD_CODE_HEAD_TOO_WIDE = 16,
    /// The driven head is lower than allowed.
    SHOPHEAD_CODE_HEAD_TOO_LOW = 17,
    /// The driven head is higher than allowed.
    SHOPHEAD_CODE_HEAD_TOO_HIGH = 18,
    /// The driven head is clinched or bent, or the shank has buckled.
    SHOPHEAD_CODE_HEAD_DEFECT = 19,
    /// Rivets of a sample are rejected, so the rest has to be looked at.
    SHOPHEAD_CODE_SAMPLE_REJECTS = 20,
    /// A rivet was driven where the plan has none.
    SHOPHEAD_CODE_DRIVEN_WHERE_REFERRED = 21,
    /// The head or the rivet lies outside the tests behind the squeeze force.
    SHOPHEAD_CODE_SQUEEZE_OUTSIDE_TESTS = 22,
    /// The hole is larger than the rivet allows.
    SHOPHEAD_CODE_HOLE_OVER_LIMIT = 23,
    /// The hole is smaller than the rivet needs.
    SHOPHEAD_CODE_HOLE_UNDER_LIMIT = 24,
    /// The hole is damaged in a way that must be removed.
    SHOPHEAD_CODE_HOLE_DAMAGED = 25,
    /// The hole is cracked.
    SHOPHEAD_CODE_HOLE_CRACKED = 26,
    /// The series has no larger rivet to step up to.
    SHOPHEAD_CODE_NO_LARGER_RIVET = 27,
    /// Stepping up here needs the approval of the maker or the authority.
    SHOPHEAD_CODE_STEP_NEEDS_APPROVAL = 28,
    /// More holes of one pattern are stepped up than the limit allows.
    SHOPHEAD_CODE_TOO_MANY_STEPS = 29,
    /// More neighbours are stepped up than the limit allows.
    SHOPHEAD_CODE_NEIGHBOURS_STEPPED = 30,
    /// The hole needs a larger rivet, but its pattern takes no more of them.
    SHOPHEAD_CODE_PATTERN_FULL = 31,
    /// The head needs more sheet than there is.
    SHOPHEAD_CODE_COUNTERSINK_TOO_DEEP = 32,
    /// The sheet is thicker than dimpling suits.
    SHOPHEAD_CODE_DIMPLE_TOO_THICK = 33,
    /// The damage is beyond the shop's limit.
    SHOPHEAD_CODE_DAMAGE_OVER_LIMIT = 34,
    /// The shop's documents at hand give no limit for this damage.
    SHOPHEAD_CODE_DAMAGE_NOT_LIMITED = 35,
    /// The shop limits this damage, but what it limits was not measured.
    SHOPHEAD_CODE_DAMAGE_NOT_MEASURED = 36,
    /// The damage is within the shop's limit: repair it as the document says.
    SHOPHEAD_CODE_DAMAGE_WITHIN_LIMIT = 37,
    /// Each end of a crack is stop drilled.
    SHOPHEAD_CODE_STOP_DRILL = 38,
    /// The edge distance is less than allowed.
    SHOPHEAD_CODE_EDGE_DISTANCE_SHORT = 39,
    /// The edge distance is more than usual.
    SHOPHEAD_CODE_EDGE_DISTANCE_LONG = 40,
    /// The edge distance leaves no room for a later step up.
    SHOPHEAD_CODE_EDGE_BELOW_PREFERRED = 41,
    /// The pitch is less than allowed.
    SHOPHEAD_CODE_PITCH_SHORT = 42,
    /// The pitch is more than usual.
    SHOPHEAD_CODE_PITCH_LONG = 43,
    /// The rows stand closer than allowed.
    SHOPHEAD_CODE_TRANSVERSE_PITCH_SHORT = 44,
    /// The hole lies beyond the ends of the cut, or on its other side.
    SHOPHEAD_CODE_HOLE_BEYOND_CUT = 45,
    /// Bearing strength is not published under an edge margin of 1.5.
    SHOPHEAD_CODE_EDGE_MARGIN_BELOW_TABLE = 46,
    /// The sheet is thinner than the published strength covers.
    SHOPHEAD_CODE_SHEET_TOO_THIN_FOR_TABLE = 47,
    /// No published strength covers this case.
    SHOPHEAD_CODE_STRENGTH_NOT_PUBLISHED = 48,
    /// The hole is larger than the strength tables count; their value is used.
    SHOPHEAD_CODE_HOLE_ABOVE_NOMINAL = 49,
    /// The joint does not carry the load.
    SHOPHEAD_CODE_MARGIN_NEGATIVE = 50,
    /// The new rivet is weaker than the one it replaces.
    SHOPHEAD_CODE_WEAKER_THAN_BEFORE = 51,
    /// The substitute alloy needs a larger diameter.
    SHOPHEAD_CODE_SUBSTITUTE_TOO_SMALL = 52,
    /// No document at hand lets this alloy take the place of the other in this size.
    SHOPHEAD_CODE_SUBSTITUTE_NOT_NAMED = 53,
    /// The shares are elastic; no published ultimate method for them is at hand.
    SHOPHEAD_CODE_ELASTIC_SHARES_ONLY = 54,
    /// The sheet buckles between its rivets under this stress.
    SHOPHEAD_CODE_BUCKLES_BETWEEN_RIVETS = 55,
    /// The elastic buckling formula does not reach this stress; the curve of the tangent modulus is needed.
    SHOPHEAD_CODE_BUCKLING_NOT_ELASTIC = 56,
    /// Only driven solid rivets may go here.
    SHOPHEAD_CODE_MUST_BE_SOLID = 57,
    /// There is not enough room behind this row to buck it.
    SHOPHEAD_CODE_CANNOT_BUCK = 58,
    /// No position lets every row be driven that must be.
    SHOPHEAD_CODE_NO_POSITION_SERVES = 59,
    /// A blind rivet here needs the type's manual.
    SHOPHEAD_CODE_BLIND_NEEDS_APPROVAL = 60,
    /// No method of the documents at hand applies in this place: nothing is sized.
    SHOPHEAD_CODE_NO_PUBLISHED_METHOD = 61,
    /// The splice tables have no count for this sheet and rivet.
    SHOPHEAD_CODE_NO_SPLICE_TABLE = 62,
    /// The repair sheet is thinner than what it stands for.
    SHOPHEAD_CODE_REPAIR_TOO_THIN = 63,
    /// The repair sheet is heavier than the next gauge: stiffer than what it stands for.
    SHOPHEAD_CODE_REPAIR_TOO_STRONG = 64,
    /// The splice plate has no more area than the leg it splices.
    SHOPHEAD_CODE_SPLICE_AREA_SHORT = 65,
    /// The splice plate is too short.
    SHOPHEAD_CODE_SPLICE_TOO_SHORT = 66,
    /// The repair is on the list of major repairs.
    SHOPHEAD_CODE_MAJOR_REPAIR = 67,
    /// A member or seam lies too near for a repair of the skin alone.
    SHOPHEAD_CODE_MEMBER_TOO_NEAR = 68,
    /// The factory seams differ: the stronger one is copied.
    SHOPHEAD_CODE_SEAMS_DIFFER = 69,
    /// The thinnest shank is thicker than the hole is wide.
    SHOPHEAD_CODE_SHANK_DOES_NOT_ENTER = 70,
    /// The head is flush, but no layer is countersunk or dimpled for it.
    SHOPHEAD_CODE_FLUSH_HEAD_WITHOUT_SEAT = 71,
    /// A layer is countersunk or dimpled, but the head is not flush.
    SHOPHEAD_CODE_SEAT_WITHOUT_FLUSH_HEAD = 72,
    /// A layer is countersunk or dimpled under one that has a plain hole.
    SHOPHEAD_CODE_SEAT_IN_WRONG_LAYER = 73,
    /// The edge distance is less than the usual minimum, as the maker built it.
    SHOPHEAD_CODE_EDGE_AS_BUILT = 74,
    /// The rivets stand closer than the usual minimum, as the maker built them.
    SHOPHEAD_CODE_PITCH_AS_BUILT = 75,
    /// A shim lies between the sheets, which no published strength covers.
    SHOPHEAD_CODE_SHIM_IN_PACK = 76,
    /// The outer sheets in double shear are not alike, so they do not share alike.
    SHOPHEAD_CODE_UNEQUAL_SHEETS = 77,
    /// The same rivet in the same sheets: as strong as before.
    SHOPHEAD_CODE_AS_STRONG_AS_BEFORE = 78,
    /// The driven head is narrower than the published strengths count on.
    SHOPHEAD_CODE_HEAD_NARROW_FOR_STRENGTH = 79,
    /// The driven head is more out of round than allowed.
    SHOPHEAD_CODE_HEAD_OUT_OF_ROUND = 80,
    /// The driven head is tipped: its least and its greatest height decide.
    SHOPHEAD_CODE_HEAD_TIPPED = 81,
    /// The driven head is stepped: its least and its greatest height decide.
    SHOPHEAD_CODE_HEAD_STEPPED = 82,
    /// A head is cracked in a way that is not accepted.
    SHOPHEAD_CODE_HEAD_CRACKED = 83,
    /// Another document accepts small cracks inside this circle.
    SHOPHEAD_CODE_CRACKS_ELSEWHERE = 84,
    /// The manufactured head has a tool mark deeper than allowed.
    SHOPHEAD_CODE_HEAD_MARKED = 85,
    /// The manufactured head is flattened more than allowed.
    SHOPHEAD_CODE_HEAD_FLATTENED = 86,
    /// There is a gap under a head that is not accepted.
    SHOPHEAD_CODE_GAP_UNDER_HEAD = 87,
    /// The sheets are apart: a feeler reaches the shank.
    SHOPHEAD_CODE_SHEETS_APART = 88,
    /// The flush head is further above the surface than allowed.
    SHOPHEAD_CODE_HEAD_PROUD = 89,
    /// The flush head is further below the surface than allowed.
    SHOPHEAD_CODE_HEAD_BELOW_SURFACE = 90,
    /// The flush head was shaved to less than its least diameter.
    SHOPHEAD_CODE_HEAD_SHAVED_TOO_FAR = 91,
    /// The rivet is loose.
    SHOPHEAD_CODE_RIVET_LOOSE = 92,
    /// The sheet is damaged beside the rivet.
    SHOPHEAD_CODE_SHEET_DAMAGED = 93,
    /// The shank is notched: the holes did not line up.
    SHOPHEAD_CODE_SHANK_NOTCHED = 94,
    /// The hole is larger than its drill makes it, and still within the limits.
    SHOPHEAD_CODE_HOLE_ABOVE_DRILL = 95,
    /// More holes in one stretch of a row are opened for larger rivets than the limit allows.
    SHOPHEAD_CODE_STRETCH_CROWDED = 96,
    /// The next size is a larger step than the limit allows without approval.
    SHOPHEAD_CODE_STEP_TOO_LARGE = 97,
    /// A crack comes nearer to the middle of a head than allowed.
    SHOPHEAD_CODE_CRACK_NEAR_MIDDLE = 98,
    /// The gap under the driven head runs along more of its rim than allowed.
    SHOPHEAD_CODE_GAP_ALONG_RIM = 99,
}

numbered! {
    Code, shophead_code [
        LimitFromMemory = SHOPHEAD_CODE_LIMIT_FROM_MEMORY,
        NoLimit = SHOPHEAD_CODE_NO_LIMIT,
        NotChecked = SHOPHEAD_CODE_NOT_CHECKED,
        TailTooLong = SHOPHEAD_CODE_TAIL_TOO_LONG,
        TailTooShort = SHOPHEAD_CODE_TAIL_TOO_SHORT,
        HeadTooLarge = SHOPHEAD_CODE_HEAD_TOO_LARGE,
        NoLengthFits = SHOPHEAD_CODE_NO_LENGTH_FITS,
        LengthByHole = SHOPHEAD_CODE_LENGTH_BY_HOLE,
        CutToLength = SHOPHEAD_CODE_CUT_TO_LENGTH,
        DimpleComputed = SHOPHEAD_CODE_DIMPLE_COMPUTED,
        DiffersFromRule = SHOPHEAD_CODE_DIFFERS_FROM_RULE,
        HalfLength = SHOPHEAD_CODE_HALF_LENGTH,
        LengthNotTabulated = SHOPHEAD_CODE_LENGTH_NOT_TABULATED,
        DiameterOutsideRule = SHOPHEAD_CODE_DIAMETER_OUTSIDE_RULE,
        NotStructural = SHOPHEAD_CODE_NOT_STRUCTURAL,
        HeatTreatFirst = SHOPHEAD_CODE_HEAT_TREAT_FIRST,
        ShankMayNotEnter = SHOPHEAD_CODE_SHANK_MAY_NOT_ENTER,
        HeadTooNarrow = SHOPHEAD_CODE_HEAD_TOO_NARROW,
        HeadTooWide = SHOPHEAD_CODE_HEAD_TOO_WIDE,
        HeadTooLow = SHOPHEAD_CODE_HEAD_TOO_LOW,
        HeadTooHigh = SHOPHEAD_CODE_HEAD_TOO_HIGH,
        HeadDefect = SHOPHEAD_CODE_HEAD_DEFECT,
        SampleRejects = SHOPHEAD_CODE_SAMPLE_REJECTS,
        DrivenWhereReferred = SHOPHEAD_CODE_DRIVEN_WHERE_REFERRED,
        SqueezeOutsideTests = SHOPHEAD_CODE_SQUEEZE_OUTSIDE_TESTS,
        HoleOverLimit = SHOPHEAD_CODE_HOLE_OVER_LIMIT,
        HoleUnderLimit = SHOPHEAD_CODE_HOLE_UNDER_LIMIT,
        HoleDamaged = SHOPHEAD_CODE_HOLE_DAMAGED,
        HoleCracked = SHOPHEAD_CODE_HOLE_CRACKED,
        NoLargerRivet = SHOPHEAD_CODE_NO_LARGER_RIVET,
        StepNeedsApproval = SHOPHEAD_CODE_STEP_NEEDS_APPROVAL,
        TooManySteps = SHOPHEAD_CODE_TOO_MANY_STEPS,
        NeighboursStepped = SHOPHEAD_CODE_NEIGHBOURS_STEPPED,
        PatternFull = SHOPHEAD_CODE_PATTERN_FULL,
        CountersinkTooDeep = SHOPHEAD_CODE_COUNTERSINK_TOO_DEEP,
        DimpleTooThick = SHOPHEAD_CODE_DIMPLE_TOO_THICK,
        DamageOverLimit = SHOPHEAD_CODE_DAMAGE_OVER_LIMIT,
        DamageNotLimited = SHOPHEAD_CODE_DAMAGE_NOT_LIMITED,
        DamageNotMeasured = SHOPHEAD_CODE_DAMAGE_NOT_MEASURED,
        DamageWithinLimit = SHOPHEAD_CODE_DAMAGE_WITHIN_LIMIT,
        StopDrill = SHOPHEAD_CODE_STOP_DRILL,
        EdgeDistanceShort = SHOPHEAD_CODE_EDGE_DISTANCE_SHORT,
        EdgeDistanceLong = SHOPHEAD_CODE_EDGE_DISTANCE_LONG,
        EdgeBelowPreferred = SHOPHEAD_CODE_EDGE_BELOW_PREFERRED,
        PitchShort = SHOPHEAD_CODE_PITCH_SHORT,
        PitchLong = SHOPHEAD_CODE_PITCH_LONG,
        TransversePitchShort = SHOPHEAD_CODE_TRANSVERSE_PITCH_SHORT,
        HoleBeyondCut = SHOPHEAD_CODE_HOLE_BEYOND_CUT,
        EdgeMarginBelowTable = SHOPHEAD_CODE_EDGE_MARGIN_BELOW_TABLE,
        SheetTooThinForTable = SHOPHEAD_CODE_SHEET_TOO_THIN_FOR_TABLE,
        StrengthNotPublished = SHOPHEAD_CODE_STRENGTH_NOT_PUBLISHED,
        HoleAboveNominal = SHOPHEAD_CODE_HOLE_ABOVE_NOMINAL,
        MarginNegative = SHOPHEAD_CODE_MARGIN_NEGATIVE,
        WeakerThanBefore = SHOPHEAD_CODE_WEAKER_THAN_BEFORE,
        SubstituteTooSmall = SHOPHEAD_CODE_SUBSTITUTE_TOO_SMALL,
        SubstituteNotNamed = SHOPHEAD_CODE_SUBSTITUTE_NOT_NAMED,
        ElasticSharesOnly = SHOPHEAD_CODE_ELASTIC_SHARES_ONLY,
        BucklesBetweenRivets = SHOPHEAD_CODE_BUCKLES_BETWEEN_RIVETS,
        BucklingNotElastic = SHOPHEAD_CODE_BUCKLING_NOT_ELASTIC,
        MustBeSolid = SHOPHEAD_CODE_MUST_BE_SOLID,
        CannotBuck = SHOPHEAD_CODE_CANNOT_BUCK,
        NoPositionServes = SHOPHEAD_CODE_NO_POSITION_SERVES,
        BlindNeedsApproval = SHOPHEAD_CODE_BLIND_NEEDS_APPROVAL,
        NoPublishedMethod = SHOPHEAD_CODE_NO_PUBLISHED_METHOD,
        NoSpliceTable = SHOPHEAD_CODE_NO_SPLICE_TABLE,
        RepairTooThin = SHOPHEAD_CODE_REPAIR_TOO_THIN,
        RepairTooStrong = SHOPHEAD_CODE_REPAIR_TOO_STRONG,
        SpliceAreaShort = SHOPHEAD_CODE_SPLICE_AREA_SHORT,
        SpliceTooShort = SHOPHEAD_CODE_SPLICE_TOO_SHORT,
        MajorRepair = SHOPHEAD_CODE_MAJOR_REPAIR,
        MemberTooNear = SHOPHEAD_CODE_MEMBER_TOO_NEAR,
        SeamsDiffer = SHOPHEAD_CODE_SEAMS_DIFFER,
        ShankDoesNotEnter = SHOPHEAD_CODE_SHANK_DOES_NOT_ENTER,
        FlushHeadWithoutSeat = SHOPHEAD_CODE_FLUSH_HEAD_WITHOUT_SEAT,
        SeatWithoutFlushHead = SHOPHEAD_CODE_SEAT_WITHOUT_FLUSH_HEAD,
        SeatInWrongLayer = SHOPHEAD_CODE_SEAT_IN_WRONG_LAYER,
        EdgeAsBuilt = SHOPHEAD_CODE_EDGE_AS_BUILT,
        PitchAsBuilt = SHOPHEAD_CODE_PITCH_AS_BUILT,
        ShimInPack = SHOPHEAD_CODE_SHIM_IN_PACK,
        UnequalSheets = SHOPHEAD_CODE_UNEQUAL_SHEETS,
        AsStrongAsBefore = SHOPHEAD_CODE_AS_STRONG_AS_BEFORE,
        HeadNarrowForStrength = SHOPHEAD_CODE_HEAD_NARROW_FOR_STRENGTH,
        HeadOutOfRound = SHOPHEAD_CODE_HEAD_OUT_OF_ROUND,
        HeadTipped = SHOPHEAD_CODE_HEAD_TIPPED,
        HeadStepped = SHOPHEAD_CODE_HEAD_STEPPED,
        HeadCracked = SHOPHEAD_CODE_HEAD_CRACKED,
        CracksElsewhere = SHOPHEAD_CODE_CRACKS_ELSEWHERE,
        HeadMarked = SHOPHEAD_CODE_HEAD_MARKED,
        HeadFlattened = SHOPHEAD_CODE_HEAD_FLATTENED,
        GapUnderHead = SHOPHEAD_CODE_GAP_UNDER_HEAD,
        SheetsApart = SHOPHEAD_CODE_SHEETS_APART,
        HeadProud = SHOPHEAD_CODE_HEAD_PROUD,
        HeadBelowSurface = SHOPHEAD_CODE_HEAD_BELOW_SURFACE,
        HeadShavedTooFar = SHOPHEAD_CODE_HEAD_SHAVED_TOO_FAR,
        RivetLoose = SHOPHEAD_CODE_RIVET_LOOSE,
        SheetDamaged = SHOPHEAD_CODE_SHEET_DAMAGED,
        ShankNotched = SHOPHEAD_CODE_SHANK_NOTCHED,
        HoleAboveDrill = SHOPHEAD_CODE_HOLE_ABOVE_DRILL,
        StretchCrowded = SHOPHEAD_CODE_STRETCH_CROWDED,
        StepTooLarge = SHOPHEAD_CODE_STEP_TOO_LARGE,
        CrackNearMiddle = SHOPHEAD_CODE_CRACK_NEAR_MIDDLE,
        GapAlongRim = SHOPHEAD_CODE_GAP_ALONG_RIM,
    ] else shophead_code::SHOPHEAD_CODE_UNKNOWN
}
/// What a figure counts.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_figure_kind {
    /// There is no figure.
    SHOPHEAD_FIGURE_NONE = 0,
    /// A length: nanometres in `whole`.
    SHOPHEAD_FIGURE_LENGTH = 1,
    /// A force: pounds in `number`.
    SHOPHEAD_FIGURE_FORCE = 2,
    /// A stress: pounds per square inch in `number`.
    SHOPHEAD_FIGURE_STRESS = 3,
    /// A plain ratio, such as an edge margin or a margin of safety, in `number`.
    SHOPHEAD_FIGURE_RATIO = 4,
    /// A number of things in `whole`.
    SHOPHEAD_FIGURE_COUNT = 5,
    /// Facts that were not given: one bit each in `whole`, from the lowest layers, material, edge distance, pitch, row spacing, minor axis.
    SHOPHEAD_FIGURE_FACTS = 6,
}

/// A figure in a finding; the member that its kind does not name is 0.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_figure {
    /// What it counts, and which member holds it.
    pub kind: shophead_figure_kind,
    /// Nanometres, or a number of things.
    pub whole: i64,
    /// Pounds, pounds per square inch, or a ratio.
    pub number: f64,
}

impl shophead_figure {
    fn of(figure: Option<Figure>) -> shophead_figure {
        use shophead_figure_kind as Kind;
        let (kind, whole, number) = match figure {
            None => (Kind::SHOPHEAD_FIGURE_NONE, 0, 0.0),
            Some(Figure::Length(length)) => (Kind::SHOPHEAD_FIGURE_LENGTH, length.nanometres(), 0.0),
            Some(Figure::Force(force)) => (Kind::SHOPHEAD_FIGURE_FORCE, 0, force.lbf()),
            Some(Figure::Stress(stress)) => (Kind::SHOPHEAD_FIGURE_STRESS, 0, stress.psi()),
            Some(Figure::Ratio(ratio)) => (Kind::SHOPHEAD_FIGURE_RATIO, 0, ratio),
            Some(Figure::Count(count)) => (Kind::SHOPHEAD_FIGURE_COUNT, i64::from(count), 0.0),
            Some(Figure::Facts(facts)) => (Kind::SHOPHEAD_FIGURE_FACTS, i64::from(facts.bits()), 0.0),
        };
        shophead_figure { kind, whole, number }
    }
}

/// One finding.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_finding {
    /// What kind.
    pub code: shophead_code,
    /// How serious.
    pub severity: shophead_severity,
    /// The layer it concerns, counted from 1 on the side of the manufactured head; 0 where it concerns no single one.
    pub layer: u32,
    /// What was measured or computed, where a figure tells it.
    pub measured: shophead_figure,
    /// What it was held against, where a figure tells it.
    pub limit: shophead_figure,
    /// Where the limit comes from.
    pub basis: shophead_basis,
}

/// Which findings of the caller's array belong to an answer.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_span {
    /// The place of the first in the array, counted from 0.
    pub first: u32,
    /// How many.
    pub count: u32,
    /// 1 where all are there, 0 where there were more than `SHOPHEAD_MAX_FINDINGS`; the less serious ones are then missing.
    pub complete: u32,
}

/// An array of so many findings holds those of any function that does not say otherwise.
pub const SHOPHEAD_MAX_FINDINGS: usize = 36;

/// The caller's array of findings, filled from the start.
pub(crate) struct Sink<'o> {
    places: Places<'o, shophead_finding>,
    filled: usize,
}

impl<'o> Sink<'o> {
    pub(crate) fn new(findings: &'o Out<shophead_finding>, capacity: usize) -> Result<Sink<'o>, E> {
        Ok(Sink { places: findings.places(capacity)?, filled: 0 })
    }

    /// An error unless all of these go in. Called before anything is written.
    pub(crate) fn need<'f, const N: usize>(&self, all: impl IntoIterator<Item = &'f Findings<N>>) -> Result<(), E> {
        self.need_room(all.into_iter().map(|findings| findings.iter().len()).fold(0, usize::saturating_add))
    }

    /// An error unless so many go in. Called before anything is written.
    pub(crate) fn need_room(&self, count: usize) -> Result<(), E> {
        self.places.need(count)
    }

    /// Writes these, and tells where they stand.
    pub(crate) fn put<const N: usize>(&mut self, findings: &Findings<N>, documents: &[Document<'_>]) -> shophead_span {
        let narrow = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let first = narrow(self.filled);
        for finding in findings {
            self.places.put(self.filled, one(finding, documents));
            self.filled = self.filled.saturating_add(1);
        }
        shophead_span { first, count: narrow(findings.iter().len()), complete: u32::from(findings.is_complete()) }
    }
}

fn one(finding: &Finding, documents: &[Document<'_>]) -> shophead_finding {
    shophead_finding {
        code: finding.code().into(),
        severity: finding.severity().into(),
        layer: finding.layer().map_or(0, u32::from),
        measured: shophead_figure::of(finding.measured()),
        limit: shophead_figure::of(finding.limit()),
        basis: shophead_basis::of(finding.basis(), documents),
    }
}

/// One answer whose findings are all it says: they are checked for room, written, and their span goes to its place.
pub(crate) fn put_findings(
    findings: &Findings,
    documents: &[Document<'_>],
    list: Out<shophead_finding>,
    capacity: usize,
    span: Out<shophead_span>,
) -> Result<(), E> {
    let place = span.place()?;
    let mut sink = Sink::new(&list, capacity)?;
    sink.need([findings])?;
    place.put(sink.put(findings, documents));
    Ok(())
}
