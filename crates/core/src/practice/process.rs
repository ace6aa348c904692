//! Limits of the process specification.
//!
//! MIL-R-47196A(MI), Rivets, Buck Type, Preparation for and Installation of, 6 September 1977, read whole. A column here is a printed
//! column, from 1/16 to 13/32 in. Misprints stand as printed, and their basis says so. The sizes 7/32, 9/32, 11/32 and 13/32 are
//! those of rivets that replace a smaller one.

use super::common::*;
use super::{HeadScope, Name};
use crate::basis::Basis;
use crate::material::RivetAlloy;

/// What holds in this practice only: the handbooks answer the same questions in their own way.
#[rustfmt::skip]
pub(super) const LIMITS: &[Row] = &[
    // driven heads; the table holds for every alloy, and gives no greatest diameter
    sizes(Name::HeadDiameterLeast, ANY, &[810, 1220, 1630, 2030, 2440, 2850, 3250, 3650, 4060, 4500, 4880, 5300], Basis::SPEC_47196_TABLE_3),
    diameters(Name::HeadDiameterLeast, ANY, 13, 10, Basis::HDBK5H_DRIVEN_HEADS),
    sizes(Name::HeadHeightLeast, ANY, &[250, 380, 500, 620, 750, 870, 1000, 1130, 1250, 1370, 1500, 1650], Basis::SPEC_47196_TABLE_3),
    diameters(Name::HeadHeightLeast, ANY, 2, 5, Basis::SPEC_47196_TABLE_3_PATTERN),
    diameters(Name::CrackFreeCircle, ANY, 11, 10, Basis::SPEC_47196_CRACKS),
    count(Name::CracksGreatest, ANY, 4, Basis::SPEC_47196_CRACKS),
    count(Name::CracksGreatest, of_alloy(RivetAlloy::Al2024), 0, Basis::SPEC_47196_CRACKS_2024),
    diameters(Name::ManufacturedCrackFreeCircle, PROTRUDING, 14, 10, Basis::SPEC_47196_MANUFACTURED_CRACKS),
    // holes; a step from 3/16 to 1/4 is over it
    sixty_fourths(Name::StepGreatest, of_size(2), 2, Basis::SPEC_47196_STEP),
    sixty_fourths(Name::StepGreatest, of_size(3), 2, Basis::SPEC_47196_STEP),
    sixty_fourths(Name::StepGreatest, of_size(4), 2, Basis::SPEC_47196_STEP),
    sixty_fourths(Name::StepGreatest, of_size(5), 2, Basis::SPEC_47196_STEP),
    sixty_fourths(Name::StepGreatest, of_size(6), 2, Basis::SPEC_47196_STEP),
    sixty_fourths(Name::StepGreatest, of_size(7), 2, Basis::SPEC_47196_STEP),
    sixty_fourths(Name::StepGreatest, ANY, 4, Basis::SPEC_47196_STEP),
    // layout after a step up; of the two flush columns of the margins the one for an edge in sight, which is the wider
    sizes(Name::EdgeDistanceLeast, stepped(HeadScope::Protruding), &[940, 1560, 2190, 2810, 3440, 4060, 4380, 5000, 5630, 6250, 6880, 7500], Basis::SPEC_47196_TABLE_8_AB),
    sizes(Name::EdgeDistanceLeast, stepped(HeadScope::Flush), &[1560, 2190, 2810, 3440, 3750, 4380, 5000, 5630, 6250, 6880, 7500, 8120], Basis::SPEC_47196_TABLE_8_CD),
    sizes(Name::PitchLeast, stepped(HeadScope::Protruding), &[2500, 3750, 5000, 5630, 6880, 7810, 8750, 10000, 11250, 12500, 13440, 14690], Basis::SPEC_47196_TABLE_7),
    sizes(Name::PitchLeast, stepped(HeadScope::Flush), &[3130, 4380, 5310, 6250, 7500, 8750, 0, 11250, 12500, 13750, 15000, 16250], Basis::SPEC_47196_TABLE_7),
    // out of order: 9/32 is 1.125
    length(Name::PitchLeast, RowScope { dash: 8, ..stepped(HeadScope::Flush) }, 13750, Basis::SPEC_47196_TABLE_7_MISPRINT),
    sizes(Name::PitchLeast, stepped(HeadScope::Dimpled), &[3750, 5630, 6250, 6880, 7500, 8750, 9380, 11250, 12500, 13750, 15000, 16250], Basis::SPEC_47196_TABLE_7),
    thousandths(Name::TransversePitchShare, RowScope { stepped: true, ..ANY }, 866, Basis::SPEC_47196_ROWS),
];

/// What holds in the other practice too, where the handbooks are silent.
#[rustfmt::skip]
pub(super) const TABLES: &[Row] = &[
    // driven heads
    sizes(Name::HeadHeightGreatest, ANY, &[400, 500, 700, 920, 1050, 1100, 1300, 1400, 1580, 1700, 1900, 2000], Basis::SPEC_47196_TABLE_3),
    midway(Name::HeadHeightGreatest, &[450, 600, 810, 985, 1075, 1200, 1350, 1490, 1640, 1800, 1950], Basis::SPEC_47196_TABLE_3_MIDWAY),
    fraction(Name::OutOfRoundGreatest, ANY, 3, 2, Basis::SPEC_47196_OUT_OF_ROUND),
    length(Name::GapUnderHeadGreatest, ANY, 20, Basis::SPEC_47196_GAPS),
    fraction(Name::GapRimShare, ANY, 2, 5, Basis::SPEC_47196_GAPS),
    length(Name::GapBetweenSheets, ANY, 20, Basis::SPEC_47196_SHEETS_APART),
    sizes(Name::FlattenedHeadHeightLeast, PROTRUDING, &[220, 320, 420, 520, 620, 720, 830, 930, 1040, 1140, 1250, 1350], Basis::SPEC_47196_TABLE_2),
    length(Name::FlushHeadAboveGreatest, FLUSH, 100, Basis::SPEC_47196_FLUSHNESS),
    length(Name::FlushHeadBelowGreatest, FLUSH, 50, Basis::SPEC_47196_FLUSHNESS),
    sizes(Name::FlushHeadProudGreatest, FLUSH, &[50, 60, 70, 90, 100, 110, 120, 130, 140, 150, 160, 170], Basis::SPEC_47196_TABLE_4),
    sizes(Name::ShavedHeadDiameterLeast, FLUSH, &[950, 1610, 2040, 2620, 3260, 3830, 4430, 4900, 5260, 5880, 6500, 7120], Basis::SPEC_47196_TABLE_4),
    // holes: the drill is the smaller one where two are printed (#20 for 5/32, #10 for 3/16), by its diameter of four places
    sizes(Name::HoleDrill, ANY, &[670, 980, 1285, 1590, 1910, 2280, 2570, 2900, 3160, 3480, 3770, 4130], Basis::SPEC_47196_TABLE_1),
    sizes(Name::HoleLeast, ANY, &[620, 930, 1250, 1560, 1870, 2180, 2500, 2810, 3120, 3430, 3750, 4060], Basis::SPEC_47196_TABLE_1),
    sizes(Name::HoleGreatest, ANY, &[720, 1030, 1350, 1710, 2020, 2330, 2650, 2960, 3270, 3580, 3900, 4210], Basis::SPEC_47196_TABLE_1),
    sizes(Name::CountersinkDiameter, FLUSH, &[1100, 1760, 2220, 2840, 3510, 4110, 4740, 5220, 5600, 6250, 6900, 7560], Basis::SPEC_47196_TABLE_6),
    fraction(Name::PatternStepsShare, ANY, 1, 5, Basis::SPEC_47196_PATTERN),
    count(Name::PatternStepsCount, ANY, 10, Basis::SPEC_47196_PATTERN),
    count(Name::NeighboursStepped, ANY, 2, Basis::SPEC_47196_PATTERN),
    sixty_fourths(Name::PatternStretch, ANY, 10 * 64, Basis::SPEC_47196_PATTERN),
    fraction(Name::PatternStretchShare, ANY, 1, 2, Basis::SPEC_47196_PATTERN),
];
