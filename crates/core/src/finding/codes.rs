//! The kinds of findings, one entry each.

/// One entry a code: variant, number for C, the word, what it means, what is found, what to do about it, and a short
/// form of both.
macro_rules! codes {
    ($( $variant:ident = $number:literal, $word:literal, $meaning:literal, $found:literal, $action:literal, $short:literal; )+) => {
        /// What kind of finding this is. Words and numbers are stable: scripts compare them.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum Code { $( #[doc = $meaning] $variant, )+ }

        crate::words::worded! { Code, "finding" { $( $variant = $number, $word, $meaning; )+ } }

        #[cfg(feature = "words")]
        impl Code {
            /// What is found, with places for the figures: see `words/template.rs`.
            pub(super) const fn found(self) -> &'static str {
                match self { $( Code::$variant => $found, )+ }
            }

            /// What to do about it; empty where there is nothing, or the finding says it.
            pub(super) const fn action(self) -> &'static str {
                match self { $( Code::$variant => $action, )+ }
            }

            /// What is found, for a small screen.
            pub(super) const fn short(self) -> &'static str {
                match self { $( Code::$variant => $short, )+ }
            }
        }
    };
}

// How to write one: /DEVELOPERS.md, 'Words'. A number is never used again.
codes! {
    // what a figure rests on
    LimitFromMemory = 1, "limit-from-memory", "A recalled limit or strength decided something: check it against the document.",
        "[{layer}: ]a recalled figure decides[: {m}][: {l}].", "Check it against the document.",
        "recalled[ {m}][ {l}]: check it";
    NoLimit = 2, "no-limit", "A limit that is needed is not on file.",
        "not on file[: {what}].", "[Enter {l} in the limits file, or refer.|Refer.]",
        "not on file";
    NotChecked = 3, "not-checked", "Something that decides here was not given, so it was not checked.",
        "not checked[: {m} not given].", "Enter what is missing.",
        "[needs {m}|not checked]";
    // choosing a rivet
    TailTooLong = 4, "tail-too-long", "The tail folds over before it forms a head.",
        "<rivet[ {m/}] is too long: the tail folds over[, longest {l}].|at the worst of all tolerances the tail is long[: never with a rivet up to {l}].>", "<Take a shorter one.|>",
        "<tail folds over[: {m/}][, max {l}]|tail can be long>";
    TailTooShort = 5, "tail-too-short", "The tail cannot form the least head in the worst case.",
        "rivet[ {m/}] is too short: the driven head can come out too small[, shortest {l}].", "Take a longer one.",
        "too short[: {m/}][, min {l}]";
    HeadTooLarge = 6, "head-too-large", "The tail holds more metal than the largest driven head allowed.",
        "<rivet[ {m/}] is too long: the driven head comes out too large[, longest {l}].|at the worst of all tolerances the driven head comes out large[: never with a rivet up to {l}].>", "<Take a shorter one.|>",
        "<head too large[: {m/}][, max {l}]|head can be large>";
    NoLengthFits = 7, "no-length-fits", "No length gives a sound head, whatever the hole.",
        "no rivet length fits[: at least {m}][, at most {l}].", "Check layers and hole, then refer.",
        "no length[: min {m}| fits][, max {l}]";
    LengthByHole = 150, "length-by-hole", "No one length is within limits in every hole: the hole as measured decides.",
        "no one length suits every hole.", "Measure the hole and take the length for it.",
        "length by the hole";
    CutToLength = 151, "cut-to-length", "No standard length is within limits in some holes, but a longer rivet that is cut to length is.",
        "no standard length suits some holes.", "Cut a longer rivet to length.",
        "cut a longer rivet";
    DimpleComputed = 152, "dimple-computed", "How much tail a dimpled pack takes is worked out, no document gives it.",
        "the tail of a dimpled pack is worked out, no document gives it.", "Try one on scrap first.",
        "dimpled: try one first";
    HeadBetween = 153, "head-between", "The head of an oversize flush rivet is not on file: it is counted between those of its size and of the next.",
        "head not on file: counted between its size's and the next's[, up to {m} high].", "[Enter {l} in the limits file.]",
        "head not on file[: up to {m}]";
    DiffersFromRule = 8, "differs-from-rule", "The length is not that of the rule of thumb, grip plus one and a half diameters.",
        "rule of thumb[ {l/}] does not suit this pack[: take {m/}].", "",
        "rule of thumb[ {l/}, better {m/}| is off]";
    HalfLength = 9, "half-length", "The length is a half length, which is not always in stock.",
        "half length[ {m/}].", "Check that it is in stock.",
        "half length[ {m/}]";
    LengthNotTabulated = 10, "length-not-tabulated", "The length is outside the table of the standard.",
        "length[ {m/}] is outside the standard's table[, which ends at {l/}].", "Check that it can be had.",
        "not in table[: {m/}][, end {l/}]";
    DiameterOutsideRule = 11, "diameter-outside-rule", "The diameter is outside the rule for the sheet.",
        "diameter[ {m/}] is outside the rule for [{layer}|these sheets][, limit {l/}].", "Check it against approved data.",
        "diameter off rule[: {m/}, rule {l}]";
    NotStructural = 12, "not-structural", "This alloy or size is not for structure.",
        "not for structure[: {m/}, smallest {l/}].", "Take another rivet.",
        "not structural[: {m/}, min {l/}]";
    HeatTreatFirst = 13, "heat-treat-first", "This alloy is heat treated before driving and kept cold until then.",
        "heat treat this rivet before driving, and keep it cold until you drive it.", "",
        "heat treat first";
    ShankDoesNotEnter = 70, "shank-does-not-enter", "The thinnest shank does not go into the hole.",
        "hole[ {m}] is too small: the shank does not go in[, least {l}].", "Open it up, or take a thinner rivet.",
        "too small to enter[: {m}, min {l}]";
    ShankMayNotEnter = 14, "shank-may-not-enter", "The largest shank does not go into the smallest hole.",
        "hole[ {m}] may be too tight for the shank[, up to {l}].", "Try the fit first.",
        "tight hole[: {m}, shank {l}]";
    // driven heads
    HeadTooNarrow = 15, "head-too-narrow", "The driven head is narrower than allowed.",
        "driven head too narrow[: {m}][, least {l}].", "<Replace the rivet.|It may stay.>",
        "head narrow[: {m}][, min {l}]";
    HeadNarrowForStrength = 79, "head-narrow-for-strength", "The driven head is narrower than the published strengths count on.",
        "driven head[ {m}] is narrower than the strength tables count on[, {l}].", "It may stay, and carries less than they say.",
        "narrow, weaker[: {m}][, min {l}]";
    HeadTooWide = 16, "head-too-wide", "The driven head is wider than allowed.",
        "driven head too wide[: {m}][, most {l}].", "<Replace the rivet.|Check that it was not driven too far.>",
        "head wide[: {m}][, max {l}]";
    HeadTooLow = 17, "head-too-low", "The driven head is lower than allowed.",
        "driven head too low[: {m}][, least {l}].", "<Replace the rivet.|It may stay.>",
        "head low[: {m}][, min {l}]";
    HeadTooHigh = 18, "head-too-high", "The driven head is higher than allowed.",
        "driven head too high[: {m}][, most {l}].", "<Replace the rivet.|It may stay.>",
        "head high[: {m}][, max {l}]";
    HeadOutOfRound = 80, "head-out-of-round", "The driven head is more out of round than allowed.",
        "driven head out of round[: {m} at its widest][, most {l}].", "Replace the rivet.",
        "out of round[: {m}][, max {l}]";
    HeadTipped = 81, "head-tipped", "The driven head is tipped: its least and its greatest height decide.",
        "driven head tipped: its least and its greatest height decide.", "<Measure both.|>",
        "tipped: both heights decide";
    HeadStepped = 82, "head-stepped", "The driven head is stepped: its least and its greatest height decide.",
        "driven head stepped: its least and its greatest height decide.", "<Measure both; the high part may come off.|The high part may come off.>",
        "stepped: both heights decide";
    HeadDefect = 19, "head-defect", "The driven head is clinched or bent, or the shank has buckled.",
        "driven rivet clinched, bent or buckled.", "Replace it.",
        "clinched, bent or buckled";
    HeadCracked = 83, "head-cracked", "A head is cracked in a way that is not accepted.",
        "head cracked[: {m}, most {l}].", "Replace the rivet.",
        "head cracked[: {m}, most {l}]";
    CrackNearMiddle = 98, "crack-near-middle", "A crack comes nearer to the middle of a head than allowed.",
        "crack in the head [reaches a circle of {m}|may come too near its middle][, none accepted inside {l}].", "Replace the rivet.",
        "crack[ at {m}][, none inside {l}]";
    CracksElsewhere = 84, "cracks-elsewhere", "Another document accepts small cracks inside this circle.",
        "another document accepts small cracks[ inside a circle of {l}].", "Ask which one holds.",
        "other document takes cracks";
    HeadMarked = 85, "head-marked", "The manufactured head has a tool mark deeper than allowed.",
        "tool mark in the manufactured head too deep[: {m}][, most {l}].", "Replace the rivet.",
        "tool mark[: {m}][, max {l}]";
    HeadFlattened = 86, "head-flattened", "The manufactured head is flattened more than allowed.",
        "manufactured head too flat[: {m} left][, least {l}].", "Replace the rivet.",
        "flattened[: {m}][, min {l}]";
    GapUnderHead = 87, "gap-under-head", "There is a gap under a head that is not accepted.",
        "gap under the [driven head: a feeler of {m} goes in|head, not measured][, most {l}].", "Replace the rivet.",
        "gap under head[: {m}][, max {l}]";
    GapAlongRim = 99, "gap-along-rim", "The gap under the driven head runs along more of its rim than allowed.",
        "gap along the rim of the driven head[: {m} %][, most {l} %].", "Replace the rivet.",
        "rim gap[: {m} %][, max {l} %]";
    SheetsApart = 88, "sheets-apart", "The sheets are apart: a feeler reaches the shank.",
        "sheets apart[: a feeler of {m} reaches the shank, none of {l} may][: a feeler of {l} reaches the shank].", "Replace the rivet.",
        "sheets apart[: {m}][, feeler {l}]";
    GapUnderManufacturedHead = 155, "gap-under-manufactured-head", "There is a gap under the manufactured head: none is accepted.",
        "gap under the manufactured head.", "Replace the rivet.",
        "gap under mfd head";
    SheetsApartAtEdge = 156, "sheets-apart-at-edge", "The sheets are apart at the edge, not as far as the shank.",
        "sheets apart at the edge[: a feeler of {m} goes in, not as far as the shank][; there none of {l} may].", "Try the feeler from every side.",
        "apart at the edge[: {m}]";
    HeadProud = 89, "head-proud", "The flush head is further above the surface than allowed.",
        "flush head proud[: {m}][, most {l}].", "<Shave it, or replace the rivet.|It may stay.>",
        "head proud[: {m}][, max {l}]";
    HeadBelowSurface = 90, "head-below-surface", "The flush head is further below the surface than allowed.",
        "flush head below the surface[: {m}][, most {l}].", "Replace the rivet.",
        "below surface[: {m}][, max {l}]";
    HeadShavedTooFar = 91, "head-shaved-too-far", "The flush head was shaved to less than its least diameter.",
        "flush head shaved too far[: {m} across][, least {l}].", "Replace the rivet.",
        "shaved[: {m}][, min {l}]";
    RivetLoose = 92, "rivet-loose", "The rivet is loose.",
        "the rivet is loose.", "Replace it.",
        "rivet loose";
    SheetDamaged = 93, "sheet-damaged", "The sheet is damaged beside the rivet.",
        "the sheet is damaged beside the rivet.", "Ask for its repair.",
        "sheet damaged beside it";
    ShankNotched = 94, "shank-notched", "The shank is notched: the holes did not line up.",
        "the shank is notched: the holes did not line up.", "Take the next larger rivet.",
        "shank notched";
    SampleRejects = 20, "sample-rejects", "A sample has rejected rivets: look at the rest too.",
        "rejected in a sample[: {m} of {l}].", "Look at every rivet of the row.",
        "[{m} of {l} ]rejected: look at all";
    DrivenWhereReferred = 21, "driven-where-referred", "A rivet was driven in a hole that the plan refers.",
        "a rivet was driven in a referred hole.", "Refer it.",
        "driven in a referred hole";
    SqueezeOutsideTests = 22, "squeeze-outside-tests", "The head or the rivet is outside the tests behind the squeeze force.",
        "outside the tests behind the squeeze force[: {m}, tested to {l}].", "Try one on scrap.",
        "squeeze not tested[: {m}, to {l}]";
    // holes
    HoleOverLimit = 23, "hole-over-limit", "The hole is larger than the rivet allows.",
        "hole[ {m}] is too large for [this rivet, greatest {l}|every rivet to be had].", "[{l?}|Ask the holder of the type's data for this hole.]",
        "hole too large[: {m}][, max {l}]";
    HoleAboveDrill = 95, "hole-above-drill", "The hole is larger than its drill makes it, and still within the limits.",
        "hole[ {m}] is larger than its drill makes it, and within the limits[, greatest {l}].", "It may stay.",
        "above its drill[: {m}][, max {l}]";
    HoleUnderLimit = 24, "hole-under-limit", "The hole is smaller than the rivet needs.",
        "hole[ {m}] is too small for this rivet[, least {l}].", "Open it up.",
        "hole too small[: {m}][, min {l}]";
    HoleDamaged = 25, "hole-damaged", "The hole is damaged, and the damage has to come out.",
        "the hole is damaged.", "Clean it up until the damage is out, or refer.",
        "hole damaged";
    HoleCracked = 26, "hole-cracked", "The hole is cracked.",
        "the hole is cracked.", "Stop, and ask the holder of the type's data for a repair of the sheet.",
        "hole cracked";
    DamageComesOut = 130, "damage-comes-out", "The hole is drilled until its damage is out: how much the drill takes off the wall.",
        "the drill takes[ {m}] off the wall, and the damage with it.", "Look again: all of it has to be out.",
        "drill takes[ {m}] off: look again";
    SeatForNewHead = 131, "seat-for-new-head", "The seat is cut for the new flush head, also where the hole stays as it is.",
        "new flush head.", "Cut its seat[ in {layer}][, {l} across].",
        "cut the new seat[, {l} across]";
    NoLargerRivet = 27, "no-larger-rivet", "The series has no larger rivet.",
        "no larger rivet in this series.", "Take the next step, or refer.",
        "no larger rivet";
    StepNeedsApproval = 28, "step-needs-approval", "Opening a hole in this member needs approved data.",
        "opening a hole in this member needs approved data.", "Ask the holder of the type's data.",
        "needs approved data";
    TooManySteps = 29, "too-many-steps", "More holes of one pattern are opened for larger rivets than the limit allows.",
        "too many holes opened in one pattern[: {m}, most {l}].", "Refer the others.",
        "too many opened[: {m}, most {l}]";
    NeighboursStepped = 30, "neighbours-stepped", "More neighbours are opened for larger rivets than the limit allows.",
        "too many neighbours opened[: {m}, most {l}].", "Refer the others.",
        "neighbours opened[: {m}, most {l}]";
    StretchCrowded = 96, "stretch-crowded", "More holes in one stretch of a row are opened for larger rivets than the limit allows.",
        "too many holes opened in one stretch of the row[: {m}, most {l}].", "Refer the others.",
        "stretch crowded[: {m}, most {l}]";
    StepTooLarge = 97, "step-too-large", "The next size is a larger step than the limit allows without approval.",
        "step to the next size too large[: {m}][, most {l}].", "Ask the holder of the type's data.",
        "step too large[: {m}][, max {l}]";
    PatternFull = 31, "pattern-full", "The hole needs a larger rivet, but its pattern takes no more of them.",
        "this hole needs a larger rivet, and its pattern takes no more.", "Refer.",
        "pattern full";
    CountersinkTooDeep = 32, "countersink-too-deep", "The sheet is too thin for the countersink.",
        "{sheet}: too thin for this countersink[, needs {l}].", "<Dimple it, or refer.|Cut no deeper than the head.>",
        "[{layer} ]too thin to csk[, needs {l}]";
    DimpleTooThick = 33, "dimple-too-thick", "The sheet is thicker than dimpling suits.",
        "{sheet}: too thick to dimple[, at most {l}].", "Countersink it, or try a dimple on scrap.",
        "[{layer} ]too thick to dimple[, max {l}]";
    FlushHeadWithoutSeat = 71, "flush-head-without-seat", "The head is flush, but no layer is countersunk or dimpled for it.",
        "flush head, but no layer is countersunk or dimpled.", "Say which layer takes the head, or take a protruding head.",
        "flush head: no layer is csk";
    SeatWithoutFlushHead = 72, "seat-without-flush-head", "A layer is countersunk or dimpled, but the head is not flush.",
        "[{layer}: ]countersunk or dimpled under a protruding head.", "Take a flush head.",
        "[{layer} ]csk, but head not flush";
    SeatInWrongLayer = 73, "seat-in-wrong-layer", "A layer is countersunk or dimpled under one that has a plain hole.",
        "[{layer}: ]countersunk or dimpled under a plain hole.", "Countersink or dimple from the head side down.",
        "[{layer} ]csk under a plain hole";
    // damage beside the holes
    DamageOverLimit = 34, "damage-over-limit", "The damage is beyond the shop's limit.",
        "damage[ {m}] is beyond the shop's limit[, {l}].", "Refer.",
        "damage[ {m}] over limit[ {l}]";
    DamageNotLimited = 35, "damage-not-limited", "No document on file gives a limit for this damage.",
        "no limit on file for this damage[, {m}].", "Refer it[, or enter the shop's {l} in the limits file].",
        "no limit on file for this damage";
    DamageNotMeasured = 36, "damage-not-measured", "The shop limits this damage, but it was not measured.",
        "the damage is not measured[, the shop's limit is {l}].", "Measure it.",
        "measure damage[, limit {l}]";
    DamageWithinLimit = 37, "damage-within-limit", "The damage is within the shop's limit: repair it as the document says.",
        "damage[ {m}] is within the shop's limit[, {l}].", "Repair it as the document says.",
        "damage[ {m}] within limit[ {l}]";
    StopDrill = 38, "stop-drill", "Stop drill each end of a crack.",
        "stop drill each end of the crack[ with {m}][ to {l}], where the repair asks for it.", "",
        "stop drill[ {m}][ to {l}]";
    // layout
    EdgeDistanceShort = 39, "edge-distance-short", "The edge distance is less than allowed.",
        "edge distance[ {m}] is short[, needs {l}].", "<Refer.|Leave the hole as built.>",
        "edge short[: {m}, needs {l}]";
    EdgeDistanceLong = 40, "edge-distance-long", "The edge distance is more than usual.",
        "edge distance[ {m}] is more than usual[, {l}].", "Check it.",
        "edge long[: {m}, usual {l}]";
    EdgeBelowPreferred = 41, "edge-below-preferred", "The edge distance leaves no room to open the hole later.",
        "edge distance[ {m}] leaves no room to open the hole later[, needs {l}].", "Drill with care.",
        "no room to open[: {m}, needs {l}]";
    EdgeAsBuilt = 74, "edge-as-built", "The edge distance is less than allowed for new work, as the maker built it.",
        "edge distance[ {m}] is as built, short[ of {l}] for new work.", "Leave the hole as built.",
        "edge as built[: {m}, new {l}]";
    PitchAsBuilt = 75, "pitch-as-built", "Pitch or row spacing is less than allowed for new work, as the maker built it.",
        "spacing[ {m}] is as built, short[ of {l}] for new work.", "Leave the holes as built.",
        "pitch as built[: {m}, new {l}]";
    PitchShort = 42, "pitch-short", "The pitch is less than allowed.",
        "pitch[ {m}] is short[, needs {l}].", "<Refer.|Leave the holes as built.>",
        "pitch short[: {m}, needs {l}]";
    PitchLong = 43, "pitch-long", "The pitch is more than usual.",
        "pitch[ {m}] is more than usual[, {l}].", "Check it.",
        "pitch long[: {m}, usual {l}]";
    TransversePitchShort = 44, "transverse-pitch-short", "The row spacing is less than allowed.",
        "row spacing[ {m}] is short[, needs {l}].", "<Refer.|Leave the rows as built.>",
        "rows close[: {m}, needs {l}]";
    HoleBeyondCut = 45, "hole-beyond-cut", "The hole is past the ends of the cut, or on its other side.",
        "holes <on the other side of this edge|past the stations>[: {m}].", "<Check the stations and the points.|Measure the edge there.>",
        "<holes across the cut|holes past the stations>[: {m}]";
    // strength
    EdgeMarginBelowTable = 46, "edge-margin-below-table", "The edge margin is less than in the tests behind the strength: 1.5 in plain sheet, 2.0 of a flush joint, or as entered.",
        "[{layer}: ]no published strength at this edge distance[, {m} D; table starts at {l} D].",
        "[Enter {key} in the limits file, or refer.|Refer.]",
        "[{layer} ]edge [{m} D, table {l} D|off table]";
    SheetTooThinForTable = 47, "sheet-too-thin-for-table", "The sheet is thinner than the published strength covers.",
        "[{layer}: ]sheet too thin for the published strength[, {m} D; table starts at {l} D].",
        "[Enter {key} in the limits file, or refer.|Refer.]",
        "[{layer} ]sheet [{m} D, table {l} D|off table]";
    BearingOutsideTests = 111, "bearing-outside-tests", "A sheet is thinner or thicker beside its hole than those in which bearing was tested; its published stress is used all the same.",
        "[{layer}: ]outside the bearing tests[, {m} D; tests ended at {l} D].", "",
        "[{layer} ]off tests[: {m} D, {l} D]";
    WetBearing = 116, "wet-bearing", "Sealant lies in the pack, and the published bearing strengths are for dry holes.",
        "[{layer}: ]sealant: the published bearing strength is for dry holes, wet at least 10 % lower.", "Reduce it where the joint is set wet.",
        "[{layer} ]wet: bearing 10 % lower";
    ShimInPack = 76, "shim-in-pack", "A shim lies in the pack, which no published strength covers.",
        "[{layer}: ]a shim[ of {m}] is not covered by the published strength.", "Check the joint against approved data.",
        "[{layer} ]is a shim: strength off";
    UnequalSheets = 77, "unequal-sheets", "The outer sheets in double shear are of different thickness and do not share the load alike.",
        "outer sheets[ {m} and {l}] do not share the load alike.", "Check the thinner one.",
        "outer sheets differ[: {m}, {l}]";
    StrengthNotPublished = 48, "strength-not-published", "No published strength covers this case.",
        "[{layer}: ]no published strength[: {m} is counted].", "<[Enter {l} in the limits file, or refer.]|Check it against approved data.>",
        "[{layer} ]no published strength";
    HoleAboveNominal = 49, "hole-above-nominal", "The hole is larger than the strength tables count; their value is used.",
        "hole[ {m}] adds no strength[: the table counts {l}].", "",
        "hole counts no more[ than {l}]";
    MarginNegative = 50, "margin-negative", "The joint does not carry the load.",
        "the joint does not carry the load[: margin {m}].", "Refer.",
        "margin negative[: {m}]";
    YieldsAtLimit = 110, "yields-at-limit", "The joint yields under its limit load.",
        "the joint yields under its limit load[: margin at yield {m}].", "Refer.",
        "yields at limit[: {m}]";
    RowOverUltimate = 114, "row-over-ultimate", "One row takes more under the limit load than its rivets carry at failure.",
        "one row takes[ {m}] a rivet under the limit load, more than a rivet carries[, {l}].", "Make the rows alike, or refer.",
        "end row over[: {m}, carries {l}]";
    DensityNotKnown = 154, "density-not-known", "The mass of a sheet is not known: its density is not on file.",
        "mass not known: no density on file.", "[Enter {l} in the limits file.]",
        "mass not known";
    SharesNotKnown = 115, "shares-not-known", "How the rows share the load cannot be worked out: a modulus or a sheet is missing.",
        "[{layer}: ]how the rows share the load is not known.", "[Enter {l} in the limits file, or refer.|Shares are known for two sheets, or three in double shear, of named materials. Otherwise refer.]",
        "row shares not known";
    RivetsTouch = 113, "rivets-touch", "Two rivets are closer than their heads are wide.",
        "rivets[ {m}] apart touch[: their heads are {l} wide].", "Check the points and the distances.",
        "rivets touch[: {m}, head {l}]";
    MarginShort = 100, "margin-short", "The joint carries the load with less margin than wanted.",
        "less margin[, {m},] than wanted[, {l}].", "Refer.",
        "margin[ {m}] short[ of {l}]";
    AsStrongAsBefore = 78, "as-strong-as-before", "The same rivet in the same sheets: as strong as before.",
        "as strong as before: same rivet, same sheets.", "",
        "as strong as before";
    WeakerThanBefore = 51, "weaker-than-before", "The new joint is weaker than the one it replaces.",
        "weaker than as installed[: {m}, was {l}].", "Refer.",
        "weaker[: {m}, was {l}| than before]";
    ShankSmaller = 112, "shank-smaller", "The planned shank is smaller than the installed one: it does not fill the hole that is there.",
        "shank[ {m}] is smaller than the one it replaces[, {l}]: it does not fill that hole.", "Take the same size or the next larger.",
        "shank smaller[: {m}, was {l}]";
    SubstituteTooSmall = 52, "substitute-too-small", "The substitute alloy needs a larger diameter.",
        "this alloy needs a larger diameter in place of the old one[: {l/}, not {m/}].", "Take the larger.",
        "alloy needs larger[: {l/}, not {m/}]";
    SubstituteNotNamed = 53, "substitute-not-named", "No document on file lets this alloy take the place of the other in this size.",
        "no document lets this alloy replace the old one<|, though it is stronger>.", "<Refer.|It is harder to drive: check it first.>",
        "alloy is no named substitute";
    ElasticSharesOnly = 54, "elastic-shares-only", "The shares are elastic: no published method on file gives them at failure.",
        "elastic shares only: no published method on file gives the shares at failure.",
        "Ask again after every change: a rivet more can load another more.",
        "elastic shares only";
    BucklesBetweenRivets = 55, "buckles-between-rivets", "The sheet buckles between its rivets under this stress.",
        "the sheet buckles between its rivets[: loaded to {m}, buckles at {l}].", "Close the pitch, or refer.",
        "buckles[: {m}, limit {l}| between rivets]";
    BucklingNotElastic = 56, "buckling-not-elastic", "The stress is above what the elastic buckling formula covers: use the tangent-modulus curve of the material.",
        "stress[ {m}] is above what the buckling formula covers[, {l}].", "Use the tangent-modulus curve of the material.",
        "past buckling formula[ {l}]";
    SpliceDevelops = 117, "splice-develops", "How much of the whole sheet the splice carries as laid out.",
        "the splice develops[ at least {m} %] of the sheet.", "[More rows develop more: at least {l} %.]",
        "develops[ {m} %] of sheet";
    // repairs
    NoPublishedMethod = 61, "no-published-method", "No published method on file sizes a repair in this place.",
        "no published method sizes a repair here.", "Ask the holder of the type's data.",
        "no method here";
    NoSpliceTable = 62, "no-splice-table", "The splice tables have no count for this sheet and rivet.",
        "the splice tables have no count[: {l/} rivet in {m} sheet| for this sheet and rivet].", "<Refer.|>",
        "no table count[: {l/} in {m}]";
    RepairTooThin = 63, "repair-too-thin", "The repair sheet is too thin beside what it replaces.",
        "repair sheet[ {m}] is too thin[ beside {l}].", "Take a heavier gauge.",
        "too thin[: {m}, beside {l}]";
    RepairTooStrong = 64, "repair-too-strong", "The repair sheet is heavier than the next gauge: stiffer than needed.",
        "repair sheet[ {m}] is stiffer than needed[, {l} is enough].", "Take the lighter gauge.",
        "too stiff[: {m}, enough {l}]";
    SpliceAreaShort = 65, "splice-area-short", "The splice plate has no more area than the leg it splices.",
        "splice plate[: {m} of the leg's area| is no larger than its leg], needs more than all of it.", "Widen or thicken it.",
        "plate area[ {m}] short";
    SpliceTooShort = 66, "splice-too-short", "The splice plate is too short.",
        "splice plate[ {m}] is too short[, needs more than {l}].", "Lengthen it.",
        "plate short[: {m}, over {l}]";
    MajorRepair = 67, "major-repair", "The repair is on the list of major repairs.",
        "a major repair[: {m} of damage, over {l}].", "Get it approved before work begins.",
        "major repair[: {m}]";
    MemberTooNear = 68, "member-too-near", "A member or seam stands too near for a patch of the skin alone.",
        "member too near[: {m} of skin beside it, needs {l}].", "Carry the patch over the member: ask the holder of the type's data how.",
        "member near[: {m}, needs {l}]";
    BendTooTight = 101, "bend-too-tight", "The bend is tighter than the table's least radius.",
        "bend[ of {m}] is too tight[, needs {l}].", "Take a larger radius.",
        "bend tight[: {m}, min {l}]";
    SeamsDiffer = 69, "seams-differ", "The factory seams differ: the stronger one is copied.",
        "the factory seams differ.", "Copy the stronger[: number {m}].",
        "seams differ[: copy {m}]";
    // access
    MustBeSolid = 57, "must-be-solid", "Only driven solid rivets may go here, and no position lets them be bucked.",
        "only driven solid rivets may go here, and no position lets them be bucked.", "Plan another position, or refer.",
        "solid rivets only: no room to buck";
    CannotBuck = 58, "cannot-buck", "There is not enough room behind this row to buck it.",
        "[{m} behind this row: not enough|no room to buck this row][, tail and bar need {l}].", "",
        "cannot buck[: {m}][, needs {l}]";
    NoPositionServes = 59, "no-position-serves", "There is no position in which every row can be bucked that takes driven rivets only.",
        "no position lets every row be bucked[, nor a mix of the first {l} of {m}].", "[{l?}Put the likely positions first in the job|Plan another position], or refer.",
        "no position works";
    BlindNeedsApproval = 60, "blind-needs-approval", "No position lets this row be bucked, and a blind rivet here needs the type's manual.",
        "no position lets this row be bucked, and a blind rivet needs the type's manual.", "Plan another position, or refer.",
        "no room to buck; blind: needs manual";
}
