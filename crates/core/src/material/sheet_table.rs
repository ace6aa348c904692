//! Design mechanical properties of aluminium alloy sheet and plate.
//!
//! MIL-HDBK-5J (31 January 2003), tables 3.2.3.0(b1) to 3.7.6.0(c2): every column that was read, in printed order; its heading names the
//! place. Thickness in ten-thousandths of an inch, strengths in hundreds of psi, moduli in tens of thousands of psi (primary moduli for
//! clad sheet), density in thousandths of a pound per cubic inch: so every printed figure is a whole number, and a column takes 40 bytes.

use super::Guarantee::{A, B, S};
use super::{Guarantee, SheetHeading, SheetProperties};
use crate::basis::Basis;

/// A cell that the table leaves empty.
const NO: u16 = 0;

const fn column(
    heading: &'static SheetHeading,
    t_min: u16,
    t_max: u16,
    guarantee: Guarantee,
    strengths: [u16; 11],
    moduli: [u16; 4],
) -> SheetProperties {
    SheetProperties::new(heading, (t_min, t_max), guarantee, strengths, moduli)
}

// One heading for all columns under which the same words stand.

#[rustfmt::skip]
static A2024_T3_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T3", form: "sheet", clad: false, specification: "AMS 4037; AMS-QQ-A-250/4",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_2_3_0_B1,
};
#[rustfmt::skip]
static A2024_T351_PLATE: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T351", form: "plate", clad: false, specification: "AMS 4037; AMS-QQ-A-250/4",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_2_3_0_B1,
};
#[rustfmt::skip]
static A2024_T361_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T361", form: "sheet", clad: false, specification: "AMS-QQ-A-250/4",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_2_3_0_B1,
};
#[rustfmt::skip]
static A2024_T4_COILED_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T4", form: "coiled sheet", clad: false, specification: "AMS-QQ-A-250/4",
    poisson_hundredths: NO, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec, G, Poisson: table refers to 3.2.3.0(d), not read",
    basis: Basis::HDBK5J_T3_2_3_0_B2,
};
#[rustfmt::skip]
static A2024_T42_FLAT_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T42", form: "flat sheet", clad: false, specification: "AMS 4035; AMS-QQ-A-250/4",
    poisson_hundredths: NO, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec, G, Poisson: table refers to 3.2.3.0(d), not read",
    basis: Basis::HDBK5J_T3_2_3_0_B2,
};
#[rustfmt::skip]
static A2024_T42_PLATE: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T42", form: "plate", clad: false, specification: "AMS 4035; AMS-QQ-A-250/4",
    poisson_hundredths: NO, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec, G, Poisson: table refers to 3.2.3.0(d), not read",
    basis: Basis::HDBK5J_T3_2_3_0_B2,
};
#[rustfmt::skip]
static A2024_T62_FLAT_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T62", form: "flat sheet", clad: false, specification: "AMS-QQ-A-250/4",
    poisson_hundredths: NO, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec, G, Poisson: table refers to 3.2.3.0(d), not read",
    basis: Basis::HDBK5J_T3_2_3_0_B2,
};
#[rustfmt::skip]
static A2024_T81_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T81", form: "sheet", clad: false, specification: "AMS-QQ-A-250/4",
    poisson_hundredths: NO, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec, G, Poisson: table refers to 3.2.3.0(d), not read",
    basis: Basis::HDBK5J_T3_2_3_0_B3,
};
#[rustfmt::skip]
static CLAD_A2024_T3_FLAT_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T3", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E1,
};
#[rustfmt::skip]
static CLAD_A2024_T351_PLATE: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T351", form: "plate", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E1,
};
#[rustfmt::skip]
static CLAD_A2024_T361_FLAT_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T361", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E2,
};
#[rustfmt::skip]
static CLAD_A2024_T4_COILED_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T4", form: "coiled sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E2,
};
#[rustfmt::skip]
static CLAD_A2024_T42_FLAT_SHEET_1: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T42", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: None, note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E3,
};
#[rustfmt::skip]
static CLAD_A2024_T42_FLAT_SHEET_2: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T42", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E3,
};
#[rustfmt::skip]
static CLAD_A2024_T42_PLATE: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T42", form: "plate", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E3,
};
#[rustfmt::skip]
static CLAD_A2024_T62_FLAT_SHEET_1: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T62", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: None, note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E3,
};
#[rustfmt::skip]
static CLAD_A2024_T62_FLAT_SHEET_2: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T62", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E3,
};
#[rustfmt::skip]
static CLAD_A2024_T81_FLAT_SHEET: SheetHeading = SheetHeading {
    alloy: "2024", temper: "T81", form: "flat sheet", clad: true, specification: "AMS-QQ-A-250/5",
    poisson_hundredths: 33, density_thousandths: 100, bearing_dry_pin: None, note: "E, Ec are primary moduli",
    basis: Basis::HDBK5J_T3_2_3_0_E4,
};
#[rustfmt::skip]
static A5052_O_SHEET_AND_PLATE: SheetHeading = SheetHeading {
    alloy: "5052", temper: "O", form: "sheet and plate", clad: false, specification: "AMS 4015",
    poisson_hundredths: 33, density_thousandths: 97, bearing_dry_pin: None, note: "",
    basis: Basis::HDBK5J_T3_5_1_0_B1,
};
#[rustfmt::skip]
static A5052_H32_SHEET_AND_PLATE: SheetHeading = SheetHeading {
    alloy: "5052", temper: "H32", form: "sheet and plate", clad: false, specification: "AMS 4016",
    poisson_hundredths: 33, density_thousandths: 97, bearing_dry_pin: None, note: "",
    basis: Basis::HDBK5J_T3_5_1_0_B1,
};
#[rustfmt::skip]
static A5052_H34_SHEET_AND_PLATE: SheetHeading = SheetHeading {
    alloy: "5052", temper: "H34", form: "sheet and plate", clad: false, specification: "AMS 4017",
    poisson_hundredths: 33, density_thousandths: 97, bearing_dry_pin: None, note: "",
    basis: Basis::HDBK5J_T3_5_1_0_B1,
};
#[rustfmt::skip]
static A5052_H36_SHEET: SheetHeading = SheetHeading {
    alloy: "5052", temper: "H36", form: "sheet", clad: false, specification: "AMS-QQ-A-250/8",
    poisson_hundredths: 33, density_thousandths: 97, bearing_dry_pin: None, note: "Fty L comes from another publication (table footnote)",
    basis: Basis::HDBK5J_T3_5_1_0_B1,
};
#[rustfmt::skip]
static A5052_H38_SHEET: SheetHeading = SheetHeading {
    alloy: "5052", temper: "H38", form: "sheet", clad: false, specification: "AMS-QQ-A-250/8",
    poisson_hundredths: 33, density_thousandths: 97, bearing_dry_pin: None, note: "Fty L comes from another publication (table footnote)",
    basis: Basis::HDBK5J_T3_5_1_0_B1,
};
#[rustfmt::skip]
static A6061_T4_SHEET: SheetHeading = SheetHeading {
    alloy: "6061", temper: "T4", form: "sheet", clad: false, specification: "AMS 4026; AMS-QQ-A-250/11",
    poisson_hundredths: 33, density_thousandths: 98, bearing_dry_pin: None, note: "",
    basis: Basis::HDBK5J_T3_6_2_0_B1,
};
#[rustfmt::skip]
static A6061_T42_SHEET: SheetHeading = SheetHeading {
    alloy: "6061", temper: "T42", form: "sheet", clad: false, specification: "AMS-QQ-A-250/11",
    poisson_hundredths: 33, density_thousandths: 98, bearing_dry_pin: None, note: "",
    basis: Basis::HDBK5J_T3_6_2_0_B1,
};
#[rustfmt::skip]
static A6061_T6_T62_SHEET: SheetHeading = SheetHeading {
    alloy: "6061", temper: "T6 and T62", form: "sheet", clad: false, specification: "AMS 4025; AMS 4027; AMS-QQ-A-250/11",
    poisson_hundredths: 33, density_thousandths: 98, bearing_dry_pin: None, note: "",
    basis: Basis::HDBK5J_T3_6_2_0_B1,
};
#[rustfmt::skip]
static A7075_T6_T62_SHEET: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T6 and T62", form: "sheet", clad: false, specification: "AMS 4045; AMS-QQ-A-250/12",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_7_6_0_B1,
};
#[rustfmt::skip]
static A7075_T651_PLATE: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T651", form: "plate", clad: false, specification: "AMS 4045; AMS-QQ-A-250/12",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_7_6_0_B1,
};
#[rustfmt::skip]
static A7075_T73_SHEET: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T73", form: "sheet", clad: false, specification: "AMS-QQ-A-250/12",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_7_6_0_B3,
};
#[rustfmt::skip]
static A7075_T76_SHEET: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T76", form: "sheet", clad: false, specification: "AMS-QQ-A-250/24",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "",
    basis: Basis::HDBK5J_T3_7_6_0_B4,
};
#[rustfmt::skip]
static CLAD_A7075_T6_SHEET_1: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T6", form: "sheet", clad: true, specification: "AMS 4049",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli; secondary block assigned to thickness by order of print",
    basis: Basis::HDBK5J_T3_7_6_0_C1,
};
#[rustfmt::skip]
static CLAD_A7075_T6_SHEET_2: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T6", form: "sheet", clad: true, specification: "AMS 4049",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli; secondary block assigned to thickness by order of print; Ftu LT is the S value",
    basis: Basis::HDBK5J_T3_7_6_0_C1,
};
#[rustfmt::skip]
static CLAD_A7075_T6_T62_SHEET_1: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T6 and T62", form: "sheet", clad: true, specification: "AMS-QQ-A-250/13",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli; secondary block assigned to thickness by order of print",
    basis: Basis::HDBK5J_T3_7_6_0_C2,
};
#[rustfmt::skip]
static CLAD_A7075_T6_T62_SHEET_2: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T6 and T62", form: "sheet", clad: true, specification: "AMS-QQ-A-250/13",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli; secondary block assigned to thickness by order of print; Ftu LT is the S value",
    basis: Basis::HDBK5J_T3_7_6_0_C2,
};
#[rustfmt::skip]
static CLAD_A7075_T6_T62_SHEET_3: SheetHeading = SheetHeading {
    alloy: "7075", temper: "T6 and T62", form: "sheet", clad: true, specification: "AMS-QQ-A-250/13",
    poisson_hundredths: 33, density_thousandths: 101, bearing_dry_pin: Some(true), note: "E, Ec are primary moduli; secondary block assigned to thickness by order of print; Ftu LT and Fty LT are S values",
    basis: Basis::HDBK5J_T3_7_6_0_C2,
};

/// Every column that was read.
#[rustfmt::skip]
pub(super) const SHEETS: &[SheetProperties] = &[
    // heading, t min, t max, guarantee, [Ftu L, Ftu LT, Fty L, Fty LT, Fcy L, Fcy LT, Fsu, Fbru 1.5, Fbru 2.0, Fbry 1.5, Fbry 2.0],
    // [E, E secondary, Ec, G]
    column(&A2024_T3_SHEET, 80, 90, S, [640, 630, 470, 420, 390, 450, 390, 1040, 1290, 730, 880], [1050, NO, 1070, 400]),
    column(&A2024_T3_SHEET, 100, 1280, A, [640, 630, 470, 420, 390, 450, 390, 1040, 1290, 730, 880], [1050, NO, 1070, 400]),
    column(&A2024_T3_SHEET, 100, 1280, B, [650, 640, 480, 430, 400, 460, 400, 1060, 1310, 750, 900], [1050, NO, 1070, 400]),
    column(&A2024_T3_SHEET, 1290, 2490, A, [650, 640, 470, 420, 390, 450, 400, 1060, 1310, 730, 880], [1050, NO, 1070, 400]),
    column(&A2024_T3_SHEET, 1290, 2490, B, [660, 650, 480, 430, 400, 460, 410, 1070, 1330, 750, 900], [1050, NO, 1070, 400]),
    column(&A2024_T351_PLATE, 2500, 4990, A, [640, 640, 480, 420, 390, 450, 380, 970, 1190, 720, 860], [1070, NO, 1090, 400]),
    column(&A2024_T351_PLATE, 2500, 4990, B, [660, 660, 500, 440, 410, 470, 390, 1000, 1220, 760, 900], [1070, NO, 1090, 400]),
    column(&A2024_T361_SHEET, 200, 620, S, [680, 670, 560, 500, 470, 530, 420, 1110, 1370, 820, 970], [1050, NO, 1070, 400]),
    column(&A2024_T361_SHEET, 630, 2490, S, [690, 680, 560, 510, 480, 540, 420, 1120, 1390, 840, 990], [1050, NO, 1070, 400]),
    column(&A2024_T4_COILED_SHEET, 100, 2490, A, [620, 620, 400, 400, 400, 400, 370, 930, 1180, 560, 640], [NO, NO, NO, NO]),
    column(&A2024_T4_COILED_SHEET, 100, 2490, B, [640, 640, 420, 420, 420, 420, 380, 960, 1220, 590, 670], [NO, NO, NO, NO]),
    column(&A2024_T42_FLAT_SHEET, 100, 2490, S, [620, 620, 380, 380, 420, 410, 370, 990, 1230, 670, 800], [NO, NO, NO, NO]),
    column(&A2024_T42_PLATE, 2500, 4990, S, [620, 620, 380, 380, 420, 410, 370, 980, 1230, 670, 800], [NO, NO, NO, NO]),
    column(&A2024_T62_FLAT_SHEET, 100, 2490, S, [630, 640, 500, 500, 520, 530, 380, 1030, 1340, 800, 950], [NO, NO, NO, NO]),
    column(&A2024_T81_SHEET, 100, 2490, A, [670, 670, 590, 580, 590, 580, 400, 1000, 1270, 830, 940], [NO, NO, NO, NO]),
    column(&A2024_T81_SHEET, 100, 2490, B, [680, 680, 610, 600, 610, 600, 410, 1020, 1290, 860, 970], [NO, NO, NO, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 80, 90, A, [590, 580, 440, 390, 360, 420, 370, 960, 1190, 680, 820], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 80, 90, B, [600, 590, 450, 400, 370, 430, 370, 970, 1210, 700, 840], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 100, 620, A, [600, 590, 440, 390, 360, 420, 370, 970, 1210, 680, 820], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 100, 620, B, [610, 600, 450, 400, 370, 430, 380, 990, 1230, 700, 840], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 630, 1280, A, [620, 610, 450, 400, 370, 430, 380, 1010, 1250, 700, 840], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 630, 1280, B, [630, 620, 470, 420, 390, 450, 390, 1020, 1270, 730, 880], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 1290, 2490, A, [630, 620, 450, 400, 370, 430, 390, 1020, 1270, 700, 840], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T3_FLAT_SHEET, 1290, 2490, B, [640, 630, 470, 420, 390, 450, 400, 1040, 1290, 730, 880], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T351_PLATE, 2500, 4990, A, [620, 620, 460, 400, 370, 430, 370, 940, 1150, 690, 820], [1070, 1020, 1090, NO]),
    column(&CLAD_A2024_T351_PLATE, 2500, 4990, B, [640, 640, 480, 420, 390, 450, 380, 970, 1190, 720, 860], [1070, 1020, 1090, NO]),
    column(&CLAD_A2024_T361_FLAT_SHEET, 200, 620, S, [620, 610, 530, 470, 440, 500, 380, 1010, 1250, 780, 920], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T361_FLAT_SHEET, 630, 2490, S, [650, 640, 530, 480, 450, 510, 400, 1050, 1310, 790, 940], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T4_COILED_SHEET, 100, 620, A, [580, 580, 360, 360, 360, 360, 370, 960, 1190, 630, 760], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T4_COILED_SHEET, 100, 620, B, [590, 590, 380, 380, 380, 380, 370, 970, 1210, 660, 800], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T4_COILED_SHEET, 630, 1280, A, [610, 610, 380, 380, 380, 380, 380, 1010, 1250, 660, 800], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T4_COILED_SHEET, 630, 1280, B, [620, 620, 390, 390, 390, 390, 390, 1020, 1270, 680, 820], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T42_FLAT_SHEET_1, 80, 90, A, [550, 550, 340, 340, 380, 370, 330, 880, 1090, 600, 720], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T42_FLAT_SHEET_1, 80, 90, B, [570, 570, 350, 350, 390, 380, 340, 910, 1130, 610, 740], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T42_FLAT_SHEET_1, 100, 620, A, [570, 570, 340, 340, 380, 370, 340, 910, 1130, 600, 720], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T42_FLAT_SHEET_1, 100, 620, B, [590, 590, 350, 350, 390, 380, 350, 940, 1170, 610, 740], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T42_FLAT_SHEET_2, 630, 2490, A, [600, 600, 360, 360, 400, 390, 360, 960, 1190, 630, 760], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T42_FLAT_SHEET_2, 630, 2490, B, [620, 620, 380, 380, 420, 410, 370, 990, 1230, 670, 800], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T42_PLATE, 2500, 4990, S, [600, 600, 360, 360, 390, 390, 360, 950, 1190, 630, 760], [1070, 1020, 1090, NO]),
    column(&CLAD_A2024_T62_FLAT_SHEET_1, 100, 620, S, [600, 600, 470, 470, 490, 490, 350, 970, 1260, 750, 890], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T62_FLAT_SHEET_2, 630, 2490, S, [620, 620, 490, 490, 510, 520, 360, 1000, 1300, 790, 930], [1050, 1000, 1070, NO]),
    column(&CLAD_A2024_T81_FLAT_SHEET, 100, 620, S, [640, 620, 570, 540, 550, 550, 380, 960, 1220, 780, 900], [1050, 950, 1070, NO]),
    column(&CLAD_A2024_T81_FLAT_SHEET, 630, 2490, S, [670, 650, 590, 560, 570, 570, 390, 1000, 1270, 830, 940], [1050, 1000, 1070, NO]),
    column(&A5052_O_SHEET_AND_PLATE, 60, 30000, S, [250, NO, 95, NO, NO, NO, 160, NO, NO, NO, NO], [1010, NO, 1020, 385]),
    column(&A5052_H32_SHEET_AND_PLATE, 170, 20000, S, [310, 310, 230, 220, 220, 230, 190, 500, 650, 320, 370], [1010, NO, 1020, 385]),
    column(&A5052_H34_SHEET_AND_PLATE, 90, 10000, S, [340, 340, 260, 250, 250, 260, 200, 540, 710, 370, 410], [1010, NO, 1020, 385]),
    column(&A5052_H36_SHEET, 60, 1620, S, [370, 370, 290, 290, NO, NO, 220, 590, 780, 410, 460], [1010, NO, 1020, 385]),
    column(&A5052_H38_SHEET, 60, 1280, S, [390, 390, 320, 320, NO, NO, 230, 620, 820, 440, 510], [1010, NO, 1020, 385]),
    column(&A6061_T4_SHEET, 100, 2490, A, [NO, 300, NO, 160, NO, 160, 200, 480, 630, 220, 260], [990, NO, 1010, 380]),
    column(&A6061_T4_SHEET, 100, 2490, B, [NO, 320, NO, 180, NO, 180, 210, 510, 670, 250, 290], [990, NO, 1010, 380]),
    column(&A6061_T42_SHEET, 100, 2490, S, [NO, 300, NO, 140, NO, NO, NO, NO, NO, NO, NO], [990, NO, 1010, 380]),
    column(&A6061_T6_T62_SHEET, 100, 2490, A, [420, 420, 360, 350, 350, 360, 270, 670, 880, 500, 580], [990, NO, 1010, 380]),
    column(&A6061_T6_T62_SHEET, 100, 2490, B, [430, 430, 380, 370, 370, 380, 280, 690, 900, 530, 610], [990, NO, 1010, 380]),
    column(&A7075_T6_T62_SHEET, 80, 110, S, [NO, 740, NO, 630, NO, NO, NO, NO, NO, NO, NO], [1030, NO, 1050, 390]),
    column(&A7075_T6_T62_SHEET, 120, 390, A, [760, 760, 690, 670, 680, 710, 460, 1180, 1520, 1000, 1170], [1030, NO, 1050, 390]),
    column(&A7075_T6_T62_SHEET, 120, 390, B, [780, 780, 720, 700, 710, 740, 470, 1210, 1560, 1050, 1220], [1030, NO, 1050, 390]),
    column(&A7075_T6_T62_SHEET, 400, 1250, A, [780, 780, 700, 680, 690, 720, 470, 1210, 1560, 1020, 1190], [1030, NO, 1050, 390]),
    column(&A7075_T6_T62_SHEET, 400, 1250, B, [800, 800, 720, 700, 710, 740, 480, 1240, 1600, 1050, 1220], [1030, NO, 1050, 390]),
    column(&A7075_T6_T62_SHEET, 1260, 2490, A, [780, 780, 710, 690, 700, 730, 470, 1210, 1560, 1030, 1210], [1030, NO, 1050, 390]),
    column(&A7075_T6_T62_SHEET, 1260, 2490, B, [800, 800, 730, 710, 720, 750, 480, 1240, 1600, 1060, 1240], [1030, NO, 1050, 390]),
    column(&A7075_T651_PLATE, 2500, 4990, A, [770, 780, 690, 670, 670, 710, 430, 1170, 1450, 970, 1140], [1030, NO, 1060, 390]),
    column(&A7075_T651_PLATE, 2500, 4990, B, [790, 800, 710, 690, 690, 730, 440, 1200, 1480, 1000, 1180], [1030, NO, 1060, 390]),
    column(&A7075_T73_SHEET, 400, 2490, S, [670, 670, 560, 560, 550, 580, 380, 1050, 1340, 840, 1020], [1030, NO, 1050, 390]),
    column(&A7075_T76_SHEET, 630, 2490, S, [720, 730, 620, 620, 610, 650, 420, 1120, 1450, 880, 1020], [1030, NO, 1050, 390]),
    column(&CLAD_A7075_T6_SHEET_1, 80, 110, S, [NO, 680, NO, 580, NO, NO, NO, NO, NO, NO, NO], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 120, 390, A, [710, 710, 620, 600, 610, 640, 420, 1100, 1420, 900, 1050], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 120, 390, B, [740, 740, 650, 630, 640, 670, 440, 1150, 1480, 940, 1100], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 400, 620, A, [710, 710, 630, 610, 620, 650, 420, 1100, 1420, 910, 1060], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 400, 620, B, [750, 750, 660, 640, 650, 680, 450, 1160, 1500, 960, 1120], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_2, 630, 1870, A, [740, 740, 660, 640, 650, 680, 440, 1150, 1480, 960, 1120], [1030, 980, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 630, 1870, B, [770, 770, 690, 670, 680, 710, 460, 1190, 1540, 1000, 1170], [1030, 980, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 1880, 2490, A, [750, 750, 660, 640, 650, 680, 450, 1160, 1500, 960, 1120], [1030, 1000, 1050, NO]),
    column(&CLAD_A7075_T6_SHEET_1, 1880, 2490, B, [770, 770, 680, 660, 670, 700, 460, 1190, 1540, 990, 1150], [1030, 1000, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 80, 110, S, [NO, 680, NO, 580, NO, NO, NO, NO, NO, NO, NO], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_2, 120, 390, A, [700, 700, 620, 600, 610, 640, 420, 1080, 1400, 900, 1050], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 120, 390, B, [740, 740, 650, 630, 640, 670, 440, 1150, 1480, 940, 1100], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 400, 620, A, [710, 710, 630, 610, 620, 650, 420, 1100, 1420, 910, 1060], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 400, 620, B, [750, 750, 660, 640, 650, 680, 450, 1160, 1500, 960, 1120], [1030, 950, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_3, 630, 1870, A, [730, 730, 650, 630, 640, 670, 440, 1130, 1460, 940, 1100], [1030, 980, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 630, 1870, B, [770, 770, 690, 670, 680, 710, 460, 1190, 1540, 1000, 1170], [1030, 980, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 1880, 2490, A, [750, 750, 660, 640, 650, 680, 450, 1160, 1500, 960, 1120], [1030, 1000, 1050, NO]),
    column(&CLAD_A7075_T6_T62_SHEET_1, 1880, 2490, B, [770, 770, 680, 660, 670, 700, 460, 1190, 1540, 990, 1150], [1030, 1000, 1050, NO]),
];
