//! Every built-in basis: what it is called in the code, how well it is supported, the document, the place in it, and the rule that stands
//! there where no table of figures cites it.

use super::{Basis, Status};
#[cfg(feature = "words")]
use super::{Rule, Topic};

/// One line a basis: constant, status, document, place, then topic and subject of each rule that stands there.
macro_rules! bases {
    ($( $name:ident = $status:ident $document:literal, $place:literal $(, $topic:ident $subject:literal )*; )+) => {
        /// The places of the table, counted from 0.
        #[allow(non_camel_case_types, reason = "a place is called like its constant")]
        #[allow(clippy::upper_case_acronyms, reason = "a place is called like its constant")]
        enum Place { $( $name, )+ }

        /// The built-in bases.
        impl Basis {
            $(
                #[doc = concat!($document, ": ", $place)]
                pub const $name: Basis = Basis::at(Status::$status, 1 + Place::$name as u16);
            )+

            /// Every built-in basis, in the order of the table.
            pub const ALL: &'static [Basis] = &[$( Basis::$name, )+];
        }

        /// Document and place of each, in the same order.
        #[cfg(feature = "words")]
        pub(super) static TEXTS: &[(&str, &str)] = &[$( ($document, $place), )+];

        /// Every rule that stands in a document and not in a table of figures, by topic.
        #[cfg(feature = "words")]
        pub static RULES: &[Rule] = &[$( $( Rule { topic: Topic::$topic, subject: $subject, basis: Basis::$name }, )* )+];
    };
}

#[rustfmt::skip]
bases! {
    // rules of lengths
    LEAST_HEAD_AND_LONGEST_TAIL = Practice "common practice", "least driven head and longest tail", Lengths "lengths need limits of head and tail";
    RULE_OF_THUMB = Practice "common practice", "rule of thumb and rounding", Lengths "the usual length needs a rule of thumb";
    AC43_HALF_LENGTHS = Published "AC 43.13-1B", "para 4-57a: half lengths, as in MS20470AD4-3.5", Lengths "half lengths";
    NASA_RIVETS_TRIMMED = Published "NASA process specification for solid and blind rivets", "revision D (2007), section 6.2, from its revision notes: the length may be trimmed for a better driven head", Lengths "rivets cut to length";
    DIMPLED_PACK = Practice "worked out here", "dimpled layers: below the head the hole is as long as the metal is thick, less the head where the dimple nests in a countersink; no document at hand has it", Lengths "tail of a dimpled pack";
    DIAMETER_FOR_SHEET = Practice "common practice", "rivet diameter for a sheet", Lengths "a diameter for a sheet needs a rule";
    LARGEST_OF_SERIES = Practice "common practice", "largest diameter of the series", Lengths "sheet too thick for any rivet of a series";
    OVERSIZE_HEAD_BETWEEN = Memory "worked out here", "the head of an oversize flush rivet is between those of the standard one of its size and of the next, from recalled heads", Lengths "oversize flush heads that are not known";
    SHANK_FOR_HOLE = Practice "common practice", "no hole is known for this rivet; one as wide as its shank is assumed", Lengths "hole of a rivet that has none";
    // rules of driven heads
    ARMY_240_CONTACT = Published "US Army TM 1-1520-240-BD", "para 2-4: a flush head flush, in contact all round", DrivenHeads "flushness without a limit";
    SPEC_47196_TIPPED = Published "MIL-R-47196A(MI)", "p 6, 4.2.1a: a bevelled head by its least and greatest height", DrivenHeads "a tipped head is judged by both heights";
    SPEC_47196_CLINCHED = Published "MIL-R-47196A(MI)", "p 6, 4.2.1b: offset, clinched, bent or clubbed", DrivenHeads "clinched, bent and buckled rivets are rejected";
    SPEC_47196_STEPPED = Published "MIL-R-47196A(MI)", "p 7, 4.2.1c: a stepped head by both heights; its high part may be removed", DrivenHeads "a stepped head is judged by both heights";
    SPEC_47196_LOOSE = Published "MIL-R-47196A(MI)", "p 7, 4.2.1f", DrivenHeads "a loose rivet is rejected";
    SPEC_47196_FLUSH_HEADS = Published "MIL-R-47196A(MI)", "p 7, 4.2.1i; MIL-STD-403C para 5.2.7.5 says the same", DrivenHeads "a flush head is not cracked, cut or ringed";
    SPEC_47196_SHEET_DAMAGE = Published "MIL-R-47196A(MI)", "p 7 to 8, 4.2.1n to 4.2.1p", DrivenHeads "a sheet deformed, cut or marred beside the rivet is referred";
    FLATTENED_HEADS = Practice "common practice", "flattened heads: look in the process specification", DrivenHeads "flattened heads without a limit";
    SHAVED_HEADS = Practice "common practice", "shaved heads: look in the process specification", DrivenHeads "shaved heads without a limit";
    GAPS_UNDER_HEADS = Practice "common practice", "gaps under heads: look in the process specification", DrivenHeads "gaps without a limit";
    LEAST_DRIVEN_HEAD = Practice "common practice", "least driven head", DrivenHeads "a head is judged by the least allowed";
    CRACK_LIMIT = Practice "common practice", "cracked heads: look in the process specification", DrivenHeads "cracks without a limit";
    FAA_31B_NOTCHED_SHANK = Published "FAA-H-8083-31B", "p 4-91: a joggled shank in holes that are offset takes the next larger rivet", DrivenHeads "a notched shank takes the next size";
    REPLACE_OUTSIDE_LIMITS = Practice "common practice", "a driven head outside its limits comes out, and another rivet goes in", DrivenHeads "a head outside its limits is replaced";
    NOTHING_TO_JUDGE_BY = Practice "common practice", "what no document limits is referred", DrivenHeads "without a limit it is referred";
    SAMPLE_OF_A_ROW = Practice "common practice", "one rejected rivet in a sample: look at every rivet of the row", DrivenHeads "one reject in a sample";
    SQUEEZE_TESTS = Memory "Materials 17 (2024) 2756", "results table; the power law was fitted to it and is not printed there", DrivenHeads "squeeze force of aluminium rivets";
    HEAD_NOT_MEASURED = Practice "not given", "both measures of the head", DrivenHeads "a head that was not measured";
    REFERRED_NOT_DRIVEN = Practice "common practice", "what the plan refers is not riveted until the referral is answered", DrivenHeads "a rivet where the plan refers";
    NOBODY_LOOKED = Practice "common practice", "the driven rivets: nobody looked at any", DrivenHeads "driven rivets that nobody looked at";
    // rules of holes
    AC43_NEXT_SIZE = Published "AC 43.13-1B", "para 4-57b: next larger size by drill or reamer; edge distance and spacing not under the minima of 4-57c", Holes "stepping up a hole";
    AC43_APPROVAL = Published "AC 43.13-1B", "para 4-52a(2): oversize holes in spar caps, stringers and highly stressed members", Holes "stepping up a hole in a main member";
    AC43_SOUND_HOLES = Published "AC 43.13-1B", "para 4-58: holes round, straight, free of cracks", Holes "holes must be sound";
    NO_HOLE = Practice "common practice", "drill and largest hole for this rivet", Holes "hole of a rivet without a limit";
    PATTERN_FULL = Practice "common practice", "limits of the pattern", Holes "a pattern that is full";
    NOT_GIVEN = Practice "not given", "facts that the answer needs", Holes "what was not given is not checked";
    SEAT = Practice "common practice", "a flush head lies in a countersink or dimple that begins at the first layer", Holes "layers that take a flush head";
    // rules of damage and cuts
    AC43_STOP_DRILL = Published "AC 43.13-1B", "para 4-59a: at both ends of a crack", DamageAndCuts "stop drilling: 3/32 or 1/8";
    NAVY_14018_STOP_DRILL = Published "NAVEDTRA 14018", "ch 13, fig 13-58 and 13-59: at each end of the crack", DamageAndCuts "stop drilling: #40 or #30";
    DAMAGE_NOT_LIMITED = Practice "common practice", "what no document at hand limits is referred", DamageAndCuts "damage without a limit";
    MONOTONE_INTERPOLATION = Memory "Monotone Piecewise Cubic Interpolation", "SIAM Journal on Numerical Analysis 17 (1980), p 238", DamageAndCuts "how an edge is drawn between its stations";
    ONE_SIDE_OF_EDGE = Practice "common practice", "the holes of a panel lie on one side of its edge", DamageAndCuts "holes of a panel beside its edge";
    BEYOND_STATIONS = Practice "common practice", "beyond the stations nobody measured the edge", DamageAndCuts "holes beyond the stations of an edge";
    // rules of joint strength
    SHANK_COUNTS = Practice "common practice", "nominal shank diameter counted where table 8.1.2(a) of MIL-HDBK-5 has no hole for the rivet", JointStrength "diameter counted without a tabulated hole";
    HDBK5H_HOLE_CAPPED = Published "MIL-HDBK-5H", "section 8.1.2, p 8-9", JointStrength "a hole above the nominal one adds nothing";
    TEAR_OUT = Published "aircraft structures text", "eq. (11.4)", JointStrength "tear-out to the edge";
    TEAR_OUT_WITH_RELIEF = Memory "aircraft structures practice", "tear-out from 40 degrees off the axis of the hole", JointStrength "tear-out that stops at the side of the hole";
    SHIM = Practice "common practice", "a shim between the sheets bends the rivet; the published strengths are for sheets that touch", JointStrength "shims between sheets";
    UNEQUAL_SHEETS = Practice "common practice", "outer sheets share alike in double shear only where they are alike", JointStrength "unequal sheets in double shear";
    HDBK5J_BEARING_BETWEEN = Published "MIL-HDBK-5J", "1.4.7.1, between e/D 1.5 and 2.0: linear", JointStrength "bearing between the edge margins";
    HDBK5J_BEARING_ABOVE = Memory "MIL-HDBK-5J", "section 1.4.7, above e/D 2.0", JointStrength "bearing above the edge margins";
    HDBK5J_BEARING_BELOW = Published "MIL-HDBK-5J", "1.4.7.1: tests needed below e/D 1.5", JointStrength "bearing below the edge margins";
    BEARING_INDICATED = Practice "common practice", "bearing below e/D 1.5 in proportion to the edge distance", JointStrength "bearing below the edge margins, as an indication";
    HDBK5_FLUSH_RIVETS = Memory "MIL-HDBK-5", "section 8.1.2.2, joints with flush rivets", JointStrength "joints with flush rivets";
    HDBK5J_CHAPTER_3 = Published "MIL-HDBK-5J", "chapter 3, design mechanical properties", JointStrength "strengths of sheet";
    HDBK5J_T8_1_2B = Memory "MIL-HDBK-5J", "table 8.1.2(b)", JointStrength "shear strengths of rivets";
    DOUBLE_SHEAR = Published "Machine design textbook", "ch. 9 Riveted Joints: twice single shear; older rules take 1.75 or 1.875 times", JointStrength "double shear";
    HDBK5_FLUSH_EDGE = Memory "MIL-HDBK-5", "section 8.1.2.2, flush joints tested at e/D 2; no reduction below it is published", JointStrength "flush joints below the edge margin of their tests";
    HDBK5J_BEARING_RANGE = Published "MIL-HDBK-5J", "1.4.7.1: tests between t/D 0.25 and 0.50; section 8.1.2.1 takes riveted joints from 0.18 on and names no upper end", JointStrength "sheets outside the bearing tests";
    HDBK5J_WET_PIN = Published "MIL-HDBK-5J", "1.4.7 and 1.4.7.1: dry pin values; wet at least 10 % lower", JointStrength "bearing with wet sealant";
    AC43_SHANK_NOT_SMALLER = Published "AC 43.13-1B", "para 4-57b: same size and strength, next larger size where a hole is enlarged", JointStrength "a shank smaller than the one before";
    HDBK5F_FLUSH_HEADS = Published "MIL-HDBK-5F", "flush-head table, secondary quotation", JointStrength "flush joints, as quoted";
    HDBK5_FLUSH_JOINTS = Memory "MIL-HDBK-5", "section 8.1.2.2, MS20426AD in machine-countersunk sheet", JointStrength "flush joints, as recalled";
    HDBK5F_KNIFE_EDGE = Published "MIL-HDBK-5F", "flush-head table, 3/32 rivet in 0.032 in sheet, secondary quotation", JointStrength "knife edges in the flush joint table";
    STRONGER_SHEET = Practice "common practice", "a flush joint table also holds for sheet that is stronger in tension and bearing than its own", JointStrength "flush joints in stronger sheet";
    ZIGZAG_NET_WIDTH = Memory "steel construction practice", "net width with s²/4g", JointStrength "zigzag net section";
    COUNTERSINK_CARRIES_NOTHING = Practice "common practice", "what a countersink cuts away carries nothing", JointStrength "what a countersink takes off";
    RIVET_IN_TENSION = Published "textbook on flight vehicle structures, 3rd ed. (2019)", "section 12.2.3.2: a head through its sheet", JointStrength "rivet in tension, head through the sheet";
    TENSION_SHARE = Published "textbook on flight vehicle structures, 3rd ed. (2019)", "sections 12.2.2 and 12.2.3.2: at most 20 % of the ultimate shear", JointStrength "rivet in tension, the most";
    CFR14_25_305 = Memory "14 CFR", "25.305(a): limit loads without permanent deformation that does harm", JointStrength "margin at yield";
    AC43_NOT_WEAKER = Published "AC 43.13-1B", "para 4-57b", JointStrength "a replacement must not be weaker", RowsAndGroups "a row as planned must not be weaker";
    // rules of rows and groups
    COUNTERSINK_AT_LARGEST_HEAD = Practice "common practice", "the countersink is counted at the largest head of the rivet", RowsAndGroups "countersink of a row";
    ROWS_OF_UNEQUAL_NUMBER = Published "Machine design textbook", "ch. 9 Riveted Joints, examples of rows of unequal number", RowsAndGroups "net section of rows behind others";
    ROWS_OF_UNLIKE_RIVETS = Practice "common practice", "rivets of different size each carry their full strength at failure", RowsAndGroups "rows of different rivets at failure";
    GROUP_ALIKE = Published "Handbook of Civil Engineering Calculations, 2nd ed.", "p 1.84, eccentric load on a rivet group", RowsAndGroups "eccentric load on a group, rivets alike";
    GROUP_WEIGHTED = Memory "elastic vector method", "positions and shares weighted by shank area", RowsAndGroups "eccentric load on a group, rivets of different size";
    STRENGTHS_OF_GROUP = Practice "common practice", "a margin of a group needs the strength of every rivet in it", RowsAndGroups "margin of a group";
    SHEAR_AND_TENSION_RIVETS = Memory "aircraft structures texts", "rivets in shear and tension, Rs² + Rt² = 1", RowsAndGroups "shear and tension together, rivets";
    SHEAR_AND_TENSION_BOLTS = Memory "MIL-HDBK-5", "section 8.1, bolts in shear and tension, Rs³ + Rt² = 1", RowsAndGroups "shear and tension together, bolts";
    AC43_NO_TENSION = Published "AC 43.13-1B", "para 4-57g(3): no rivets where the load pulls the heads off", RowsAndGroups "rivets in tension";
    FLEXIBILITY_SEC_8 = Published "guide to fastener flexibility", "sec 8, secondary quotation", RowsAndGroups "load sharing along rows";
    DOUBLER_CHAIN = Memory "spring chain", "plate B without load at both ends", RowsAndGroups "load sharing of a doubler";
    FLEXIBILITY_SEC_2 = Published "guide to fastener flexibility", "sec 2, equal sharing at failure, secondary quotation", RowsAndGroups "equal shares at failure";
    LAYERS_CHAIN = Memory "spring chain", "several plates, one spring a rivet between each two", RowsAndGroups "load sharing of more than two layers";
    FLEXIBILITY_SEC_7 = Published "guide to fastener flexibility", "sec 7 example 3, aluminium rivet, secondary quotation", RowsAndGroups "modulus of an aluminium rivet";
    BUCKLING_COLUMN = Published "aircraft structures text", "inter-rivet buckling as effective length, secondary quotation", RowsAndGroups "buckling between rivets, column form";
    BUCKLING_PLATE = Memory "aircraft structures practice", "inter-rivet buckling, plate form", RowsAndGroups "buckling between rivets, plate form";
    BUCKLING_FIGURES = Practice "common practice", "the sheet's modulus and compression yield stress are needed", RowsAndGroups "what buckling between rivets needs";
    // rules of splices
    SPLICE_DEVELOPS = Published "aircraft structures text", "eq. (11.5): the least mode over b t Ftu", Splices "how much of the sheet a splice develops";
    AN3_DIAMETER = Memory "AN3", "nominal diameter 0.190 in", Splices "AN-3 bolt";
    // rules of repairs
    AC43_SETBACK = Published "AC 43.13-1B", "para 4-56a and b: K (bend radius + thickness)", Repairs "setback of a bend";
    AC43_T4_6 = Published "AC 43.13-1B", "para 4-55c, table 4-6", Repairs "least bend radius";
    AC43_NEXT_TABULATED = Published "AC 43.13-1B", "para 4-58m(1): next tabulated thickness", Repairs "thickness between two gauges";
    AC43_SPLICES_DASH = Published "AC 43.13-1B", "tables 4-9 to 4-11: a dash offers no such rivet", Repairs "a dash in a splice table";
    AC43_SPLICES_SCOPE = Published "AC 43.13-1B", "tables 4-9 to 4-11: 2117 rivets, protruding heads, the sheets named in their headings", Repairs "what the splice tables are for";
    AC43_GAUGES = Published "AC 43.13-1B", "tables 4-9 to 4-11, thickness column";
    HDBK5J_GAUGES = Memory "MIL-HDBK-5J", "table 8.1.2.1(a), sheet thickness";
    LENGTH_NOT_KNOWN = Practice "common practice", "a rivet whose length cannot be worked out", Repairs "rivets of a repair without a length";
    AC43_STRONGER_SEAM = Published "AC 43.13-1B", "para 4-58e: where the seams differ, the stronger", Repairs "the stronger of two factory seams";
    AC43_CAP_HOLES = Published "AC 43.13-1B", "para 4-52a(2): oversize holes in spar caps", Repairs "holes in a cap under a seam";
    SEAMS_NOT_COMPARED = Practice "common practice", "seams without published strength, of different rivet or pattern", Repairs "factory seams that cannot be compared";
    FAA_31B_SAME_OR_NEXT = Published "FAA-H-8083-31B", "p 4-93, p 4-96 fig 4-174: same gage or one heavier", Repairs "gauge of an outside patch";
    FAA_31B_ONE_HEAVIER = Published "FAA-H-8083-31B", "p 4-90, p 4-96 Flush Patch: one gage heavier", Repairs "gauge of an inside doubler";
    FAA_31B_NOT_THINNER = Published "FAA-H-8083-31B", "p 4-86, p 4-92: never a lighter gage, even in a stronger alloy", Repairs "a doubler is no thinner than its sheet";
    AC43_NOT_STRONGER = Published "AC 43.13-1B", "para 4-37b, 4-50b: equal strength, no stronger", Repairs "a repair is no stronger than the sheet";
    FAA_31B_CUT_CORNER = Published "FAA-H-8083-31B", "p 4-86: corners of a rectangular cut-out 1/2 in, round or oval preferred", Repairs "corners of an opening";
    FAA_31B_PLATE_CORNER = Published "FAA-H-8083-31B", "p 4-96: corners of a rectangular lap patch 1/4 in", Repairs "corners of a patch";
    AC43_STOP_HOLES = Published "AC 43.13-1B", "para 4-59a: 3/32 or 1/8; FAA-H-8083-31B fig 4-174: 3/32", Repairs "stop holes of a patched crack";
    ROWS_OF_PATCH_APART = Practice "common practice", "rows at least as far apart as the rivets of a single row, so that any two keep that distance", Repairs "rows of a patch apart";
    FAA_31B_MAJOR = Published "FAA-H-8083-31B", "p 4-93: over 6 in in any direction", Repairs "damage that makes a major repair";
    FAA_31_MEMBER_NEAR = Published "FAA-H-8083-31", "ch 4, Typical Repairs, Outside the Member: 8.5 D of sound material beside a member", Repairs "sound skin beside a member";
    FAA_31B_FIGURE_4_174 = Published "FAA-H-8083-31B", "p 4-96, fig 4-174: 1/8 rivets up to .032 skin, 5/32 above", Repairs "rivets of a lap patch";
    ROWS_OF_PATCH = Practice "common practice", "rows of a patch", Repairs "how many rows a patch has at most";
    AC43_P4_58E_AND_F = Published "AC 43.13-1B", "para 4-58e and f";
    AC43_P4_58J_4 = Published "AC 43.13-1B", "para 4-58j(4)";
    AC43_HULLS = Published "AC 43.13-1B", "para 4-57f(2), 9-9a";
    AC43_TANKS = Published "AC 43.13-1B", "para 8-32, 4-57f(1)";
    AC43_HEAVILY_STRESSED = Published "AC 43.13-1B", "para 4-57f(2)";
    AC43_SPAR_CAPS = Published "AC 43.13-1B", "para 4-52a(2): spar caps need the maker's data or approval";
    AC43_P4_36A = Published "AC 43.13-1B", "para 4-36a: its balance must not change";
    AC43_P4_60 = Published "AC 43.13-1B", "para 4-60: a damaged fitting is replaced";
    AC43_P4_58C = Published "AC 43.13-1B", "para 4-58c: figures 4-13 and 4-14 or the maker's method";
    AC43_P4_58D = Published "AC 43.13-1B", "para 4-58d: figure 4-15";
    AC43_P4_51_4_58A = Published "AC 43.13-1B", "para 4-51, 4-58a";
    AC43_P4_61 = Published "AC 43.13-1B", "para 4-61: replace it";
    NO_METHOD_CABIN = Practice "common practice", "no handbook at hand sizes a repair of a pressure cabin";
    NO_METHOD_FATIGUE = Practice "common practice", "no handbook at hand sizes a repair for fatigue";
    AC43_DIAMETER_IN_LEG = Published "AC 43.13-1B", "para 4-58l: 2 to 3 times the leg's thickness", Repairs "rivet diameter in a leg";
    AC43_DIAMETER_OF_WIDTH = Published "AC 43.13-1B", "para 4-58l: at most a quarter of the leg's width", Repairs "greatest rivet diameter in a leg";
    AC43_SPLICE_AREA = Published "AC 43.13-1B", "para 4-58k: more area than the leg it splices", Repairs "area of a splice plate";
    AC43_FRAME_PLATE = Published "AC 43.13-1B", "para 4-58n, figure 4-20: thicker than the frame", Repairs "thickness of a frame's splice plate";
    AC43_FRAME_LENGTH = Published "AC 43.13-1B", "para 4-58n, figure 4-20: longer than twice the web", Repairs "length of a frame's splice plate";
    ARMY_0992_FOUR_WIDTHS = Published "US Army AL0992", "p 84, Summary: four leg widths each side", Repairs "length of a stringer's splice plate";
    AC43_END_RIVETS = Published "AC 43.13-1B", "para 4-58j(2), 4-58l: end rivets as the skin's", Repairs "end rivets of a lower-surface splice";
    AC43_BULB_BOLTS = Published "AC 43.13-1B", "para 4-58m(2): AN-3 bolts in a bulbed leg", Repairs "bolts in a bulbed leg";
    AC43_P4_57G_4_58J = Published "AC 43.13-1B", "para 4-57g, 4-58j";
    FAA_31B_P_4_91 = Published "FAA-H-8083-31B", "p 4-91";
    AC43_P4_52 = Published "AC 43.13-1B", "para 4-52";
    FAA_31B_P_4_93 = Published "FAA-H-8083-31B", "p 4-93";
    FAA_31B_P_4_86 = Published "FAA-H-8083-31B", "p 4-86";
    FAA_31B_P_4_92 = Published "FAA-H-8083-31B", "p 4-92";
    AC43_P4_57E_4_57F_CAUTION = Published "AC 43.13-1B", "para 4-57e, 4-57f caution";
    AC43_P4_58J_F_4_19 = Published "AC 43.13-1B", "para 4-58j, figure 4-19";
    AC43_P10_1 = Published "AC 43.13-1B", "para 10-1";
    AC43_P4_50B_4_37B = Published "AC 43.13-1B", "para 4-50b, 4-37b";
    AC43_P4_38 = Published "AC 43.13-1B", "para 4-38";
    AC43_P4_50C = Published "AC 43.13-1B", "para 4-50c";
    AC43_P4_50C_4_53_4_58B = Published "AC 43.13-1B", "para 4-50c, 4-53, 4-58b";
    AC43_P4_53A = Published "AC 43.13-1B", "para 4-53a";
    AC43_P4_53B = Published "AC 43.13-1B", "para 4-53b";
    AC43_P4_58B = Published "AC 43.13-1B", "para 4-58b";
    AC43_P4_57G_3 = Published "AC 43.13-1B", "para 4-57g(3)";
    AC43_P4_38A = Published "AC 43.13-1B", "para 4-38a";
    AC43_P4_38B = Published "AC 43.13-1B", "para 4-38b";
    AC43_P4_57C = Published "AC 43.13-1B", "para 4-57c";
    AC43_P4_58E = Published "AC 43.13-1B", "para 4-58e";
    ARMY_0992_P84 = Published "US Army AL0992", "p 84, Summary: filler of a splice";
    AC43_P4_58G = Published "AC 43.13-1B", "para 4-58g";
    AC43_P4_57F_1_2 = Published "AC 43.13-1B", "para 4-57f(1), 4-57f(2)";
    AC43_P4_58F = Published "AC 43.13-1B", "para 4-58f";
    AC43_P4_59B = Published "AC 43.13-1B", "para 4-59b";
    AC43_P4_58J_1 = Published "AC 43.13-1B", "para 4-58j(1)";
    AC43_P4_58J = Published "AC 43.13-1B", "para 4-58j";
    AC43_P4_58J_2 = Published "AC 43.13-1B", "para 4-58j(2)";
    AC43_P4_58J_3 = Published "AC 43.13-1B", "para 4-58j(3)";
    AC43_P4_58N = Published "AC 43.13-1B", "para 4-58n";
    AC43_P4_58M_2 = Published "AC 43.13-1B", "para 4-58m(2)";
    AC43_P4_55B = Published "AC 43.13-1B", "para 4-55b";
    AC43_P4_59A = Published "AC 43.13-1B", "para 4-59a";
    FAA_31B_P_4_96_FIG_4_174 = Published "FAA-H-8083-31B", "p 4-96, fig 4-174";
    AC43_P4_54_4_54A = Published "AC 43.13-1B", "para 4-54, 4-54a";
    AC43_P4_54B = Published "AC 43.13-1B", "para 4-54b";
    AC43_P4_58I = Published "AC 43.13-1B", "para 4-58i";
    AC43_P6_91C = Published "AC 43.13-1B", "para 6-91c";
    AC43_P4_52A_1_4_58 = Published "AC 43.13-1B", "para 4-52a(1), 4-58";
    AC43_P6_134E = Published "AC 43.13-1B", "para 6-134e";
    FAA_31B_P_4_96_FIG_4_175 = Published "FAA-H-8083-31B", "p 4-96, fig 4-175";
    FAA_31B_P_4_96_FLUSH_PATCH = Published "FAA-H-8083-31B", "p 4-96, Flush Patch";
    AC43_P4_58 = Published "AC 43.13-1B", "para 4-58";
    AC43_P6_134D = Published "AC 43.13-1B", "para 6-134d";
    AC43_P6_136J = Published "AC 43.13-1B", "para 6-136j";
    AC43_P6_29 = Published "AC 43.13-1B", "para 6-29";
    AC43_P6_134C_6_134F = Published "AC 43.13-1B", "para 6-134c, 6-134f";
    AC43_P6_134G = Published "AC 43.13-1B", "para 6-134g";
    AC43_P6_134H = Published "AC 43.13-1B", "para 6-134h";
    AC43_P8_32 = Published "AC 43.13-1B", "para 8-32";
    AC43_P9_9A_2 = Published "AC 43.13-1B", "para 9-9a(2)";
    ARMY_0992_P_62_STRESS_INTENSITY = Published "US Army AL0992", "p 62, Stress Intensity";
    // rules of access and removal
    PRIMARY_STRUCTURE = Practice "common practice", "rows on primary structure take driven solid rivets", AccessAndRemoval "driven rivets only: primary structure";
    SPAR_LINES = Practice "common practice", "spar and longeron lines take driven solid rivets", AccessAndRemoval "driven rivets only: spar and longeron lines";
    NO_BAR = Practice "common practice", "no bar thickness is given", AccessAndRemoval "room behind a row without a bar thickness";
    AC43_REMOVAL = Published "AC 43.13-1B", "para 4-52b: support, drilling out, no chisel, a look at the neighbours", AccessAndRemoval "taking a panel off";
    ARMY_OLD_SKIN = Published "US Army AL0992", "Measuring, Cutting and Aligning: the old skin is the template", AccessAndRemoval "fitting a new skin";
    SHOP_SEQUENCE = Practice "common practice", "order of the work on a panel", AccessAndRemoval "order of the work on a panel";
    BAR_WEIGHT = Memory "airframe handbooks", "weight of a bucking bar by rivet diameter", AccessAndRemoval "weight of a bucking bar";
    REMOVAL_MEMBER = Practice "common practice", "the hole of a member that stays is saved before the skin's", AccessAndRemoval "a cap behind the skin when rivets come out";
    REMOVAL_TAB = Practice "common practice", "a tab bends under the punch", AccessAndRemoval "a tab under the driven head when rivets come out";
    AC43_REMOVAL_DEPTH = Published "AC 43.13-1B", "para 4-52b: to the base of the head only", AccessAndRemoval "how deep a head is drilled";
    // driven solid rivets only
    AC43_FLUID_TIGHT = Published "AC 43.13-1B", "para 4-57f(1); FAA-H-8083-31 ch 4";
    AC43_BELOW_WATER = Published "AC 43.13-1B", "para 4-57f(2), 9-9a note; FAA-H-8083-31 ch 4, Typical Repairs, Floats";
    // limits
    SPEC_47196_PATTERN = Published "MIL-R-47196A(MI)", "p 5, 3.4.3, which 3.4.1 calls 3.5.3 by a misprint";
    NAVY_14018_SPACING = Published "NAVEDTRA 14018", "ch 13, Spacing and Edge Distance";
    FAA_31B_DIAMETER = Published "FAA-H-8083-31B", "p 4-86: three times the sheet, then the next larger size; AC 43.13-1B para 4-58g(2)(a) works the same example";
    TAIL_FOLDS_OVER = Practice "common practice", "a tail of more than about 2 D folds over; forging rules allow 3 D gathered in one blow";
    NAVY_14018_SMALLEST = Published "NAVEDTRA 14018", "ch 13, smallest rivet in structure: 3/32 in";
    FAA_31_SOLID_SHANK = Published "FAA-H-8083-31", "ch 4, Solid Shank Rivet";
    AC43_F4_6A = Published "AC 43.13-1B", "figure 4-6(a), secondary quotation";
    STD_403C_TOOL_MARKS = Published "MIL-STD-403C", "para 5.2.7.5, secondary quotation";
    SMALLEST_CLEARING_DRILL = Memory "computed", "the smallest drill that clears the largest shank, from recalled shanks";
    AC65_HOLES = Memory "AC 65-15A", "ch 5, rivet holes: 2 to 4 thousandths over the shank, here over the largest";
    DAMAGE_OUT = Practice "common practice", "a thousandth, which gauges tell apart: less takes nothing out";
    AC65_COUNTERSINK = Published "AC 65-15A", "ch 5, secondary quotation: the sheet is thicker than the head";
    STRAIGHT_LAND = Practice "common practice", "two thirds of the sheet, so that a straight land is left";
    AC65_F5_47 = Published "AC 65-15A", "ch 5 fig 5-47, secondary quotation";
    FAA_31B_ROWS = Published "FAA-H-8083-31B", "about p 4-33, secondary quotation";
    TN3785_PROTRUDING = Memory "NACA TN 3785", "p 15, brazier heads, taken for every protruding head";
    TN3785_COUNTERSUNK = Memory "NACA TN 3785", "p 15, countersunk heads";
    BUCKLING_ELASTIC = Memory "aircraft structures practice", "elastic below about half of the compression yield stress";
    LEAST_BAR = Practice "common practice", "the least bar that is worth holding; measure your own";
    QUESTION_BANK_REMOVAL = Published "FAA airframe question bank", "rivet removal, as reprinted; AC 43.13-1B para 4-52b prints the rivet's diameter";
    LONG_SHANK = Practice "common practice", "a long shank sits tight and turns in its hole";
    MANY_LAYERS = Practice "common practice", "burrs and shifts between many layers hold the shank";
    THIN_FAR_SIDE = Practice "common practice", "thin metal under the driven head bends when the shank is punched out";
    AC43_EDGE = Published "AC 43.13-1B", "para 4-57c(1): new patterns, and where a deficiency is suspected; otherwise the original is copied";
    AC43_COPY_ORIGINAL = Published "AC 43.13-1B", "para 4-57c: edge distance and spacing duplicate the original unless a deficiency is suspected", Holes "a pattern as the maker built it";
    ARMY_240_EDGE = Published "US Army TM 1-1520-240-BD", "para 2-4 to 2-6: under 1.5 D the rivet may not stay";
    FAA_31_LAYOUT = Memory "FAA-H-8083-31", "ch 4, rivet layout figures";
    ARMY_0992_LAYOUT = Published "US Army AL0992", "Rivet Selection, Rivet Spacing and Edge Distance";
    HDBK5H_DRIVEN_HEADS = Published "MIL-HDBK-5H", "para 8.1.2, p 8-9";
    FAA_31_F4_76 = Published "FAA-H-8083-31", "ch 4 fig 4-76; also NAVEDTRA 14018 ch 13; MIL-R-47196A(MI) prints no rule for lengths";
    QUESTION_BANK_LENGTH = Published "FAA airframe question bank", "rivet length for two sheets of .032, as reprinted";
    AC43_TWO_ROWS = Published "AC 43.13-1B", "para 4-58g(2)(c), derived from its example";
    SPEC_47196_TABLE_1 = Published "MIL-R-47196A(MI)", "p 9, table I";
    SPEC_47196_TABLE_2 = Published "MIL-R-47196A(MI)", "p 10, table II";
    SPEC_47196_TABLE_3 = Published "MIL-R-47196A(MI)", "p 11, table III";
    SPEC_47196_TABLE_3_PATTERN = Practice "MIL-R-47196A(MI)", "table III: its least heights are 0.40 D, taken for a shank between two of its sizes";
    SPEC_47196_TABLE_3_MIDWAY = Practice "MIL-R-47196A(MI)", "table III: midway between two of its sizes, for an oversize shank";
    SPEC_47196_TABLE_4 = Published "MIL-R-47196A(MI)", "p 12, table IV: one of H and D is enough for aluminium";
    SPEC_47196_TABLE_6 = Published "MIL-R-47196A(MI)", "p 12, table VI, which 3.3.6 calls table IV by a misprint";
    SPEC_47196_TABLE_7 = Published "MIL-R-47196A(MI)", "p 13, table VII: repair with oversize rivets only";
    SPEC_47196_TABLE_7_MISPRINT = Published "MIL-R-47196A(MI)", "p 13, table VII: repair with oversize rivets only; out of order, probably a misprint for 1.000: ask before going below it";
    SPEC_47196_TABLE_8_AB = Published "MIL-R-47196A(MI)", "p 14, table VIII, A and B: repair with oversize rivets only";
    SPEC_47196_TABLE_8_CD = Published "MIL-R-47196A(MI)", "p 14, table VIII, C and D: repair with oversize rivets only; for a countersunk head at a hidden edge it prints less";
    SPEC_47196_ROWS = Published "MIL-R-47196A(MI)", "p 4, 3.4.1: row spacing 0.866 of the drawing's pitch along a repair with the next size";
    SPEC_47196_STEP = Published "MIL-R-47196A(MI)", "p 5, 3.4.2: the next diameter of the standard, not over 1/32 in up to 1/4 in and 1/16 in above", JointStrength "next larger size of a substitute";
    SPEC_47196_FLUSHNESS = Published "MIL-R-47196A(MI)", "p 4, 3.3.6";
    SPEC_47196_SHEETS_APART = Published "MIL-R-47196A(MI)", "p 7, 4.2.1g";
    SPEC_47196_CRACKS_2024 = Published "MIL-R-47196A(MI)", "p 7, 4.2.1h: in 24S, now 2024";
    SPEC_47196_OUT_OF_ROUND = Published "MIL-R-47196A(MI)", "p 7, 4.2.1j(3)";
    SPEC_47196_CRACKS = Published "MIL-R-47196A(MI)", "p 7, 4.2.1k: none inside the circle, none crossing, fewer than five";
    SPEC_47196_MANUFACTURED_CRACKS = Published "MIL-R-47196A(MI)", "p 7, 4.2.1l";
    SPEC_47196_GAPS = Published "MIL-R-47196A(MI)", "p 7, 4.2.1m: none under the manufactured head, none in a continuous 60 % under the driven one";
    AC43_CRACKED_RIVETS = Published "AC 43.13-1B", "para 4-58: finished rivets free of cracks";
    FAA_31B_CRACKED_HEADS = Published "FAA-H-8083-31B", "p 4-92: depth under D/8, width under D/16, inside a circle of at most 1.25 D, none meeting another";
    TRAINING_SHEET = Published "training sheet on solid rivets", "largest driven head; issuer not named";
    TRAINING_SHEET_PATTERN = Practice "training sheet on solid rivets", "the least multiples of its largest heads, for a size that it leaves out";
    // drills
    DRILL_TABLES = Published "public tables of number and letter drills", "all agree; ANSI/ASME B94.11M itself not seen";
    FRACTION_DRILLS = Practice "common practice", "a fraction drill has the diameter that it is named for";
    // part standards
    AC43_UNIVERSAL = Published "AC 43.13-1B", "para 4-57a(3) and (4), table 4-8; para 7-1a";
    AC43_FLUSH = Published "AC 43.13-1B", "para 4-57a(4), table 4-8; para 7-1e";
    AC43_T4_8_LETTERS = Published "AC 43.13-1B", "table 4-8, letters in the part number";
    AC43_T4_8_SUPERSEDED = Published "AC 43.13-1B", "para 4-57, table 4-8";
    AC43_BLIND = Published "AC 43.13-1B", "para 7-2j and its caution";
    MS20426_DIMENSIONS = Memory "MS20426", "dimensions";
    MS20426_DOUBTFUL = Memory "MS20426", "dimensions; above 1/4 in the largest shank is doubtful: the drills of MIL-R-47196A(MI) table I would not pass it";
    MS20426_MATERIAL_LETTERS = Memory "MS20426", "material letters beyond those of AC 43.13-1B table 4-8";
    MS20426_LENGTH_TOLERANCE = Memory "MS20426", "length tolerance";
    MS20426_HEAD_DIMENSIONS = Memory "MS20426", "head dimensions";
    MS20426_SHANK_LIMITS = Memory "MS20426", "shank limits";
    MS20426_FIT = Memory "MS20426", "dimensions that fit this pack";
    MS20427_SHEET = Memory "MS20427", "";
    MS20427_HEAD_DIMENSIONS = Memory "MS20427", "head dimensions";
    MS20427_SHANK_LIMITS = Memory "MS20427", "shank limits";
    MS20427_FIT = Memory "MS20427", "dimensions that fit this pack";
    MS20470_DIMENSIONS = Memory "MS20470", "dimensions";
    MS20470_DOUBTFUL = Memory "MS20470", "dimensions; above 1/4 in the largest shank is doubtful: the drills of MIL-R-47196A(MI) table I would not pass it";
    MS20470_DESCRIPTION_SHEET = Published "MS20470", "description sheet, secondary quotation";
    MS20470_LENGTH_TOLERANCE = Memory "MS20470", "length tolerance";
    MS20470_HEAD_DIMENSIONS = Memory "MS20470", "head dimensions";
    MS20470_SHANK_LIMITS = Memory "MS20470", "shank limits";
    MS20470_FIT = Memory "MS20470", "dimensions that fit this pack";
    MS20613_SHEET = Memory "MS20613", "";
    MS20613_DIAMETERS = Memory "MS20613", "which diameters it tabulates";
    MS20613_HEAD_DIMENSIONS = Memory "MS20613", "head dimensions";
    MS20613_SHANK_LIMITS = Memory "MS20613", "shank limits";
    MS20613_FIT = Memory "MS20613", "dimensions that fit this pack";
    MS20615_SHEET = Memory "MS20615", "";
    MS20615_DIAMETERS = Memory "MS20615", "which diameters it tabulates";
    MS20615_HEAD_DIMENSIONS = Memory "MS20615", "head dimensions";
    MS20615_SHANK_LIMITS = Memory "MS20615", "shank limits";
    MS20615_FIT = Memory "MS20615", "dimensions that fit this pack";
    NAS1097_DIMENSIONS = Memory "NAS1097", "dimensions, confidence low";
    NAS1097_MATERIAL_LETTERS = Memory "NAS1097", "material letters";
    NAS1097_PART_NUMBERS = Published "NAS1097", "part numbers AD3-3.5 and AD4-3.5, secondary quotation";
    NAS1097_HEAD_DIMENSIONS = Memory "NAS1097", "head dimensions";
    NAS1097_SHANK_LIMITS = Memory "NAS1097", "shank limits";
    NAS1097_FIT = Memory "NAS1097", "dimensions that fit this pack";
    NAS1198_SHEET = Memory "NAS1198", "";
    NAS1198_DIAMETERS = Memory "NAS1198", "which diameters it tabulates";
    NAS1198_HEAD_DIMENSIONS = Memory "NAS1198", "head dimensions";
    NAS1198_SHANK_LIMITS = Memory "NAS1198", "shank limits";
    NAS1198_FIT = Memory "NAS1198", "dimensions that fit this pack";
    NAS1241_OVERSIZE = Memory "NAS1241", "shank = standard + 1/64 in";
    NAS1241_SHEET = Memory "NAS1241", "";
    NAS1241_MATERIAL_LETTERS = Memory "NAS1241", "material letters";
    NAS1241_HEAD_DIMENSIONS = Memory "NAS1241", "head dimensions";
    NAS1241_SHANK_LIMITS = Memory "NAS1241", "shank limits";
    NAS1241_FIT = Memory "NAS1241", "dimensions that fit this pack";
    NAS1242_OVERSIZE = Memory "NAS1242", "shank = standard + 1/64 in";
    NAS1242_SHEET = Memory "NAS1242", "";
    NAS1242_MATERIAL_LETTERS = Memory "NAS1242", "material letters";
    NAS1242_HEAD_DIMENSIONS = Memory "NAS1242", "head dimensions";
    NAS1242_SHANK_LIMITS = Memory "NAS1242", "shank limits";
    NAS1242_FIT = Memory "NAS1242", "dimensions that fit this pack";
    NAS9313_TEXT = Published "NAS9313 (2011)", "text of the sheet";
    NAS9313_NOTE_4 = Published "NAS9313 (2011)", "note 4";
    NAS9313_LARGER = Memory "NAS9313 (2011)", "which diameters are larger than 4";
    NAS9313_HEAD_DIMENSIONS = Memory "NAS9313", "head dimensions";
    NAS9313_SHANK_LIMITS = Memory "NAS9313", "shank limits";
    NAS9313_FIT = Memory "NAS9313", "dimensions that fit this pack";
    // rivet alloys
    NAVY_14315_T3_1 = Published "NAVEDTRA 14315", "ch 3, table 3-1";
    FAA_30_HEAT_TREATMENT = Published "FAA-H-8083-30", "Heat Treatment of Aluminum Alloy Rivets";
    FAA_30_HEAT_TREATMENT_QUOTED = Published "FAA-H-8083-30", "Heat Treatment of Aluminum Alloy Rivets, secondary quotation";
    FAA_30B_P296 = Published "FAA-H-8083-30B", "p 296, secondary quotation";
    EUROPEAN_NOTES = Published "European course notes of modules 6 and 11", "authorship unknown; secondary quotation, lowest rank";
    AC43_P4_57D = Published "AC 43.13-1B", "para 4-57d";
    AC43_AS_RECEIVED = Published "AC 43.13-1B", "para 4-57d, 7-2a";
    AC43_T4_8 = Published "AC 43.13-1B", "table 4-8, its columns put together again by their order";
    HDBK5_T8_1_2B = Memory "MIL-HDBK-5", "table 8.1.2(b)";
    HDBK5_PLACE_NOT_KNOWN = Memory "MIL-HDBK-5", "place not known";
    HEAD_MARKS_FAINT = Memory "part standards", "head marks, recalled with low confidence";
    MATERIALS_QUOTED = Published "materials data", "secondary quotation";
    MATERIALS_RECALLED = Memory "materials data", "place not known";
    MS20470_DESCRIPTION = Published "MS20470", "description, secondary quotation";
    NOT_NAMED = Published "document not named", "secondary quotation";
    FAA_30_PLACE_NOT_KNOWN = Memory "FAA-H-8083-30", "place not known";
    AC43_P7_2C = Published "AC 43.13-1B", "para 7-2c";
    AC43_P7_2A = Published "AC 43.13-1B", "para 7-2a";
    AC43_P7_2D = Published "AC 43.13-1B", "para 7-2d";
    AC43_P7_2B = Published "AC 43.13-1B", "para 7-2b";
    AC43_P7_2E = Published "AC 43.13-1B", "para 7-2e";
    AC43_P7_2F = Published "AC 43.13-1B", "para 7-2f";
    AC43_P7_2G = Published "AC 43.13-1B", "para 7-2g";
    // sheet
    HDBK5J_T3_2_3_0_B1 = Published "MIL-HDBK-5J", "table 3.2.3.0(b1), p 3-71";
    HDBK5J_T3_2_3_0_B2 = Published "MIL-HDBK-5J", "table 3.2.3.0(b2), p 3-72";
    HDBK5J_T3_2_3_0_B3 = Published "MIL-HDBK-5J", "table 3.2.3.0(b3), p 3-73";
    HDBK5J_T3_2_3_0_E1 = Published "MIL-HDBK-5J", "table 3.2.3.0(e1), p 3-75";
    HDBK5J_T3_2_3_0_E2 = Published "MIL-HDBK-5J", "table 3.2.3.0(e2), p 3-76";
    HDBK5J_T3_2_3_0_E3 = Published "MIL-HDBK-5J", "table 3.2.3.0(e3), p 3-77";
    HDBK5J_T3_2_3_0_E4 = Published "MIL-HDBK-5J", "table 3.2.3.0(e4), p 3-78";
    HDBK5J_T3_5_1_0_B1 = Published "MIL-HDBK-5J", "table 3.5.1.0(b1), p 3-220";
    HDBK5J_T3_6_2_0_B1 = Published "MIL-HDBK-5J", "table 3.6.2.0(b1), p 3-264";
    HDBK5J_T3_7_6_0_B1 = Published "MIL-HDBK-5J", "table 3.7.6.0(b1), p 3-371";
    HDBK5J_T3_7_6_0_B3 = Published "MIL-HDBK-5J", "table 3.7.6.0(b3), p 3-373";
    HDBK5J_T3_7_6_0_B4 = Published "MIL-HDBK-5J", "table 3.7.6.0(b4), p 3-374";
    HDBK5J_T3_7_6_0_C1 = Published "MIL-HDBK-5J", "table 3.7.6.0(c1), p 3-375";
    HDBK5J_T3_7_6_0_C2 = Published "MIL-HDBK-5J", "table 3.7.6.0(c2), p 3-376";
    // tables and formulas of joints
    TN3785_P15 = Memory "NACA TN 3785", "p 15";
    STRUCTURES_C7_12 = Published "aircraft structures text", "section C7.12, secondary quotation";
    AGAINST_C7_12 = Published "aircraft structures practice", "secondary quotation against section C7.12";
    EFFECTIVE_LENGTH_05 = Published "aircraft structures text", "effective length 0.5, secondary quotation";
    EFFECTIVE_LENGTH_065 = Published "aircraft structures text", "effective length 0.65, secondary quotation";
    STP927_RIVETED = Published "ASTM STP 927", "1986, riveted metal, secondary quotation";
    STP927_BOLTED = Published "ASTM STP 927", "1986, bolted metal, secondary quotation";
    STP486 = Published "ASTM STP 486", "1971, secondary quotation";
    FLEXIBILITY_SEC_9_4 = Published "guide to fastener flexibility", "sec 9.4, secondary quotation; publication not named";
    FLEXIBILITY_SEC_9_3 = Published "guide to fastener flexibility", "sec 9.3, secondary quotation; original unpublished";
    TN1051 = Published "NACA TN 1051", "1946, secondary quotation";
    HDBK5J_T8_1_2A = Memory "MIL-HDBK-5J", "table 8.1.2(a)";
    CFR14_25_303 = Published "14 CFR", "25.303 and 23.2230(b)";
    CFR14_25_625 = Published "14 CFR", "25.625(a)";
    HDBK5_EARLIER_T8_1_2B = Memory "MIL-HDBK-5, earlier editions", "table 8.1.2(b); not certain to stand in 5H or 5J";
    AC43_T4_9 = Published "AC 43.13-1B", "table 4-9, p 4-37";
    AC43_T4_10 = Published "AC 43.13-1B", "table 4-10, p 4-38";
    EXTRUSION_2024 = Memory "AMS-QQ-A-200/3", "2024 extrusions and their tempers";
    EXTRUSION_7075 = Memory "AMS-QQ-A-200/11", "7075 extrusions and their tempers";
    SHEET_4130 = Memory "AMS 6350", "4130 sheet";
    AC43_T4_11 = Published "AC 43.13-1B", "table 4-11, p 4-39";
    AC43_T4_9_NOTE_B = Published "AC 43.13-1B", "table 4-9 note b, p 4-37";
    AC43_T4_10_CELLS = Memory "AC 43.13-1B", "table 4-10 note b, p 4-38; from the cells";
    AC43_T4_11_NOTE_B = Published "AC 43.13-1B", "table 4-11 note b, p 4-39";
    AC43_T4_11_CELLS = Memory "AC 43.13-1B", "table 4-11, p 4-39; from the cells";
    AC43_T4_10_NOTE_B = Published "AC 43.13-1B", "table 4-10 note b, p 4-38";
    AC43_SPLICES = Published "AC 43.13-1B", "tables 4-9 to 4-11, p 4-37 to 4-39";
    AC43_SPLICES_NOTE_A = Published "AC 43.13-1B", "tables 4-9 to 4-11 note a, p 4-37 to 4-39";
    AC43_SPLICES_NOTE_B = Published "AC 43.13-1B", "tables 4-9 to 4-11 note b, p 4-37 to 4-39";
    AC43_SPLICES_NOTE_C = Published "AC 43.13-1B", "tables 4-9 to 4-11 note c, p 4-37 to 4-39";
    NAVY_14018_SELECTION = Published "NAVEDTRA 14018", "chapter 13, rivet selection";
    NAVY_14315_CHAPTER_3 = Published "NAVEDTRA 14315", "chapter 3, table 3-1";
    HDBK5H_LEAST_RATIO = Published "MIL-HDBK-5H", "section 8.1.2.1, p 8-9";
    HDBK5J_T8_1_2_1B = Published "MIL-HDBK-5J", "table 8.1.2.1(b), secondary copies of the table: its 65 cells within .002";
    SPEC_47196_DRILLS = Published "MIL-R-47196A(MI)", "p 9, table I, recommended drills";
    MANUAL_1940S_DRILLS = Published "US service repair manual of the 1940s", "para 14 to 16, drills for rivets, secondary transcription";
    HDBK5F_FLUSH_CAP = Published "MIL-HDBK-5F", "flush-head table, dimpled 1/8 rivet: the most that it carries, secondary quotation";
    MMPDS_T8_1_2B = Published "MMPDS-09", "table 8.1.2(b), secondary quotation";
    // what a question brings itself: no document of the product
    HOLE_AS_MEASURED = Shop "job file", "hole as measured";
    AS_GIVEN = Shop "as given", "";
    SAFETY_AS_GIVEN = Shop "as given", "factor of safety";
    FITTING_AS_GIVEN = Shop "as given", "fitting factor";
}
