//! The built-in part standards, one row each: number, head, letters, sizes, and where each figure stands.
//!
//! What is not known of a series is left out of its row. From the row come its part numbers, dimensions, lengths and what it supersedes; a new
//! series is a row more.

use super::HalfMark::{Five, Point};
use super::NumberForm::{DiameterFirst, MaterialFirst};
use super::{Finish, Head, HeadSize, LengthTolerance, MaterialLetter, Series, Size, StandardPlaces};
use crate::basis::Basis;
use crate::length::{Interval, Length};
use crate::material::RivetAlloy::{self, *};

/// One row a series.
macro_rules! series {
    ($( $(#[$doc:meta])+ $name:ident = $row:expr; )+) => {
        $( $(#[$doc])+ pub static $name: Series<'static> = $row; )+

        /// Every built-in series. Where two have the same head and alloy, the commoner one stands first.
        pub static CATALOGUE: &[&Series<'static>] = &[$( &$name, )+];

        /// The names of [`CATALOGUE`], in its order: by them a series is found without every series being linked into whatever names one.
        pub(crate) const NAMES: &[&str] = &[$( stringify!($name), )+];
    };
}

#[rustfmt::skip]
series! {
    /// MS20470, universal head.
    ///
    /// Dimensions as recalled: the document was not seen. Head 2 D wide, ±5 %; 0.43 D high, +.010 -0. Shank +.003 -.001, over 1/4 in +.004; there
    /// the largest shank is doubtful, since the drills of the process specification would not let it pass. The shortest lengths are those of the
    /// AN470 table (diameter-length table, secondary quotation); MS20470 allows others in steps of 1/16 in. Letters in the order of the sheet,
    /// which names A, AD, B and E and keeps D and DD out of new designs.
    MS20470 = Series::new("MS20470", Head::Universal, MaterialFirst, &[
        material("A",  Al1100, Basis::NAVY_14315_T3_1),
        material("AD", Al2117, Basis::NAVY_14315_T3_1),
        material("B",  Al5056, Basis::NAVY_14315_T3_1),
        material("E",  Al7050, Basis::MS20470_DESCRIPTION_SHEET),
        material("D",  Al2017, Basis::MS20470_DESCRIPTION_SHEET).new_design(false),
        material("DD", Al2024, Basis::MS20470_DESCRIPTION_SHEET).new_design(false),
    ], &[
        //            dash shank      head diameter       head height
        shank( 2,  61,  65, round([125, 119, 131], [ 27,  27,  37]), Basis::MS20470_DIMENSIONS).shortest_tabulated(FROM_3),
        shank( 3,  93,  97, round([187, 178, 196], [ 40,  40,  50]), Basis::MS20470_DIMENSIONS).shortest_tabulated(FROM_3),
        shank( 4, 124, 128, round([250, 238, 262], [ 54,  54,  64]), Basis::MS20470_DIMENSIONS).shortest_tabulated(FROM_3),
        shank( 5, 155, 159, round([312, 296, 328], [ 67,  67,  77]), Basis::MS20470_DIMENSIONS),
        shank( 6, 186, 190, round([375, 356, 394], [ 80,  80,  90]), Basis::MS20470_DIMENSIONS),
        shank( 8, 249, 253, round([500, 475, 525], [107, 107, 117]), Basis::MS20470_DIMENSIONS),
        shank(10, 311, 316, round([625, 594, 656], [134, 134, 144]), Basis::MS20470_DOUBTFUL),
        shank(12, 374, 379, round([750, 713, 787], [161, 161, 171]), Basis::MS20470_DOUBTFUL),
    ], Basis::AC43_UNIVERSAL)
    .also(&["NASM20470"])
    .supersedes(&["AN430", "AN442", "AN455", "AN456", "AN470"])
    .length_tolerance(Some(LengthTolerance { either_way: thousandths(10), basis: Basis::MS20470_LENGTH_TOLERANCE }))
    .half_lengths(Some(Point))
    .oversize_series(Some(&NAS1242))
    .unknown(StandardPlaces::new(Basis::MS20470_HEAD_DIMENSIONS, Basis::MS20470_SHANK_LIMITS, Basis::MS20470_FIT));

    /// MS20426, 100 degree flush head.
    ///
    /// Dimensions and letters as recalled: the document was not seen. The height is a reference value. Shank +.003 -.001, over 1/4 in +.004; there
    /// the largest shank is doubtful, since the drills of the process specification would not let it pass.
    MS20426 = Series::new("MS20426", Head::Flush, MaterialFirst, &[
        material("A",  Al1100, Basis::AC43_T4_8_LETTERS),
        material("AD", Al2117, Basis::AC43_T4_8_LETTERS),
        material("B",  Al5056, Basis::AC43_T4_8_LETTERS),
        material("D",  Al2017, Basis::AC43_T4_8_LETTERS),
        material("DD", Al2024, Basis::AC43_T4_8_LETTERS),
        material("E",  Al7050, Basis::MS20426_MATERIAL_LETTERS),
    ], &[
        // dash shank          head diameter   height
        shank( 2,  61,  65, flush([114, 110, 118],  22), Basis::MS20426_DIMENSIONS),
        shank( 3,  93,  97, flush([179, 175, 183],  36), Basis::MS20426_DIMENSIONS),
        shank( 4, 124, 128, flush([225, 221, 229],  42), Basis::MS20426_DIMENSIONS),
        shank( 5, 155, 159, flush([286, 282, 290],  55), Basis::MS20426_DIMENSIONS),
        shank( 6, 186, 190, flush([353, 349, 357],  70), Basis::MS20426_DIMENSIONS),
        shank( 8, 249, 253, flush([476, 472, 480],  95), Basis::MS20426_DIMENSIONS),
        shank(10, 311, 316, flush([566, 562, 570], 106), Basis::MS20426_DOUBTFUL),
        shank(12, 374, 379, flush([695, 691, 699], 134), Basis::MS20426_DOUBTFUL),
    ], Basis::AC43_FLUSH)
    .also(&["NASM20426"])
    .supersedes(&["AN426"])
    .length_tolerance(Some(LengthTolerance { either_way: thousandths(10), basis: Basis::MS20426_LENGTH_TOLERANCE }))
    .half_lengths(Some(Point))
    .oversize_series(Some(&NAS1241))
    .unknown(StandardPlaces::new(Basis::MS20426_HEAD_DIMENSIONS, Basis::MS20426_SHANK_LIMITS, Basis::MS20426_FIT));

    /// NAS1097, 100 degree flush head of reduced size.
    ///
    /// Dimensions as recalled: the document was not seen, and the confidence is low (dash 3 is also recalled as .146 by .022). No tolerance of
    /// head or length is known.
    NAS1097 = Series::new("NAS1097", Head::ReducedFlush, MaterialFirst, &[
        material("AD", Al2117, Basis::NAS1097_PART_NUMBERS),
        material("D",  Al2017, Basis::NAS1097_MATERIAL_LETTERS),
        material("DD", Al2024, Basis::NAS1097_MATERIAL_LETTERS),
        material("KE", Al7050, Basis::NAS1097_MATERIAL_LETTERS),
    ], &[
        // dash shank        head
        shank( 3,  93,  97, nominal(141, 20), Basis::NAS1097_DIMENSIONS),
        shank( 4, 124, 128, nominal(192, 28), Basis::NAS1097_DIMENSIONS),
        shank( 5, 155, 159, nominal(243, 36), Basis::NAS1097_DIMENSIONS),
        shank( 6, 186, 190, nominal(297, 46), Basis::NAS1097_DIMENSIONS),
        shank( 8, 249, 253, nominal(393, 60), Basis::NAS1097_DIMENSIONS),
    ], Basis::NAS1097_PART_NUMBERS)
    .half_lengths(Some(Point))
    .oversize_series(Some(&NAS1241))
    .unknown(StandardPlaces::new(Basis::NAS1097_HEAD_DIMENSIONS, Basis::NAS1097_SHANK_LIMITS, Basis::NAS1097_FIT));

    /// NAS1241, 100 degree flush head, shank 1/64 in over the standard size: the step up from MS20426 and NAS1097.
    ///
    /// As recalled: the document was not seen. Which dash numbers and lengths it tabulates, whether it has half lengths, and the dimensions of its
    /// head are not known. Shank: nominal and 1/64 in, with the tolerance of the standard shank. Other alloys exist; their letters are not known.
    NAS1241 = Series::new("NAS1241", Head::Flush, MaterialFirst, &[
        material("AD", Al2117, Basis::NAS1241_MATERIAL_LETTERS),
    ], &[
        oversize(3, Basis::NAS1241_OVERSIZE),
        oversize(4, Basis::NAS1241_OVERSIZE),
        oversize(5, Basis::NAS1241_OVERSIZE),
        oversize(6, Basis::NAS1241_OVERSIZE),
        oversize(8, Basis::NAS1241_OVERSIZE),
    ], Basis::NAS1241_SHEET)
    .oversize(OVERSIZE_STEP)
    .standard_sizes(MS20426.sizes)
    .unknown(StandardPlaces::new(Basis::NAS1241_HEAD_DIMENSIONS, Basis::NAS1241_SHANK_LIMITS, Basis::NAS1241_FIT));

    /// NAS1242, universal head, shank 1/64 in over the standard size: the step up from MS20470.
    ///
    /// As recalled: the document was not seen. Which dash numbers and lengths it tabulates, whether it has half lengths, and the dimensions of its
    /// head are not known. Shank: nominal and 1/64 in, with the tolerance of the standard shank. Other alloys exist; their letters are not known.
    NAS1242 = Series::new("NAS1242", Head::Universal, MaterialFirst, &[
        material("AD", Al2117, Basis::NAS1242_MATERIAL_LETTERS),
    ], &[
        oversize(3, Basis::NAS1242_OVERSIZE),
        oversize(4, Basis::NAS1242_OVERSIZE),
        oversize(5, Basis::NAS1242_OVERSIZE),
        oversize(6, Basis::NAS1242_OVERSIZE),
        oversize(8, Basis::NAS1242_OVERSIZE),
    ], Basis::NAS1242_SHEET)
    .oversize(OVERSIZE_STEP)
    .standard_sizes(MS20470.sizes)
    .unknown(StandardPlaces::new(Basis::NAS1242_HEAD_DIMENSIONS, Basis::NAS1242_SHANK_LIMITS, Basis::NAS1242_FIT));

    /// NAS9313, 100 degree flush head, close tolerance.
    ///
    /// From the text of the sheet (2011) without its dimension table: letters, finishes and half lengths (note 4). Of the diameters it names 2, 3,
    /// and "4 and larger". The finishes are for aluminium; chemical film is not allowed on 2024.
    NAS9313 = Series::new("NAS9313", Head::Flush, MaterialFirst, &[
        material("AD", Al2117, Basis::NAS9313_TEXT),
        material("B",  Al5056, Basis::NAS9313_TEXT),
        material("D",  Al2017, Basis::NAS9313_TEXT),
        material("DD", Al2024, Basis::NAS9313_TEXT),
        material("KE", Al7050, Basis::NAS9313_TEXT),
        material("T",  Ti45Cb, Basis::NAS9313_TEXT),
    ], &[
        bare(2, Basis::NAS9313_TEXT),
        bare(3, Basis::NAS9313_TEXT),
        bare(4, Basis::NAS9313_TEXT),
        bare(5, Basis::NAS9313_LARGER),
        bare(6, Basis::NAS9313_LARGER),
        bare(8, Basis::NAS9313_LARGER),
    ], Basis::NAS9313_NOTE_4)
    .finishes(&[
        finish(Some('A'), "anodize, clear",          ALUMINIUM,    Basis::NAS9313_TEXT),
        finish(Some('D'), "anodize, dichromate",     ALUMINIUM,    Basis::NAS9313_TEXT),
        finish(Some('S'), "chemical film, clear",    BUT_NOT_2024, Basis::NAS9313_TEXT),
        finish(None,      "chemical film, coloured", BUT_NOT_2024, Basis::NAS9313_TEXT),
    ])
    .half_lengths(Some(Five))
    .unknown(StandardPlaces::new(Basis::NAS9313_HEAD_DIMENSIONS, Basis::NAS9313_SHANK_LIMITS, Basis::NAS9313_FIT));

    /// MS20427, 100 degree flush head, of steel, nickel-copper or copper.
    ///
    /// As recalled: the document was not seen. Its dimensions are not known.
    MS20427 = Series::new("MS20427", Head::Flush, MaterialFirst, &[
        material("",  CarbonSteel, Basis::AC43_T4_8_LETTERS),
        material("F", CorrosionResistantSteel, Basis::AC43_T4_8_LETTERS),
        material("M", NickelCopper, Basis::AC43_T4_8_LETTERS),
        material("C", Copper, Basis::AC43_T4_8_LETTERS),
    ], &bare_all(Basis::MS20427_SHEET), Basis::MS20427_SHEET)
    .supersedes(&["AN427"])
    .unknown(StandardPlaces::new(Basis::MS20427_HEAD_DIMENSIONS, Basis::MS20427_SHANK_LIMITS, Basis::MS20427_FIT));

    /// MS20615, universal head, of nickel-copper or copper.
    ///
    /// As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of its
    /// sister standards.
    MS20615 = Series::new("MS20615", Head::Universal, DiameterFirst, &[
        material("M", NickelCopper, Basis::MS20615_SHEET),
        material("CU", Copper, Basis::MS20615_SHEET),
    ], &bare_all(Basis::MS20615_DIAMETERS), Basis::MS20615_SHEET)
    .unknown(StandardPlaces::new(Basis::MS20615_HEAD_DIMENSIONS, Basis::MS20615_SHANK_LIMITS, Basis::MS20615_FIT));

    /// MS20613, universal head, of steel.
    ///
    /// As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of its
    /// sister standards.
    MS20613 = Series::new("MS20613", Head::Universal, DiameterFirst, &[
        material("P", CarbonSteel, Basis::MS20613_SHEET),
        material("C", CorrosionResistantSteel, Basis::MS20613_SHEET),
    ], &bare_all(Basis::MS20613_DIAMETERS), Basis::MS20613_SHEET)
    .unknown(StandardPlaces::new(Basis::MS20613_HEAD_DIMENSIONS, Basis::MS20613_SHANK_LIMITS, Basis::MS20613_FIT));

    /// NAS1198, universal head, of A-286.
    ///
    /// As recalled: the document was not seen. Its dimensions are not known, nor which diameters it tabulates; the ones here are those of its
    /// sister standards.
    NAS1198 = Series::new("NAS1198", Head::Universal, DiameterFirst, &[
        material("", A286, Basis::NAS1198_SHEET),
    ], &bare_all(Basis::NAS1198_DIAMETERS), Basis::NAS1198_SHEET)
    .unknown(StandardPlaces::new(Basis::NAS1198_HEAD_DIMENSIONS, Basis::NAS1198_SHANK_LIMITS, Basis::NAS1198_FIT));
}

const ALUMINIUM: &[RivetAlloy] = &[Al2117, Al5056, Al2017, Al2024, Al7050];

const BUT_NOT_2024: &[RivetAlloy] = &[Al2117, Al5056, Al2017, Al7050];

/// The shortest length of the AN470 table for diameters 2, 3 and 4.
const FROM_3: Option<Length> = Some(Length::from_64ths(12));

const OVERSIZE_STEP: Length = Length::from_64ths(1);

/// Thousandths of an inch, as the tables print them.
const fn thousandths(count: u16) -> Length {
    Length::from_ten_thousandths(count.saturating_mul(10))
}

const fn between(min: u16, max: u16) -> Option<Interval> {
    match Interval::new(thousandths(min), thousandths(max)) {
        Ok(limits) => Some(limits),
        Err(_) => None,
    }
}

const fn material(code: &'static str, alloy: RivetAlloy, basis: Basis) -> MaterialLetter<'static> {
    MaterialLetter::new(code, alloy, basis)
}

const fn finish(
    letter: Option<char>,
    name: &'static str,
    alloys: &'static [RivetAlloy],
    basis: Basis,
) -> Finish<'static> {
    Finish::new(letter, name, alloys, basis)
}

/// A size of which only the dash number is known.
const fn bare(dash: u8, basis: Basis) -> Size {
    Size::new(dash, basis)
}

/// Every size of the common series, of which only the dash number is known.
const fn bare_all(basis: Basis) -> [Size; 8] {
    [
        bare(2, basis),
        bare(3, basis),
        bare(4, basis),
        bare(5, basis),
        bare(6, basis),
        bare(8, basis),
        bare(10, basis),
        bare(12, basis),
    ]
}

/// A size with the limits of its shank in thousandths, and its head; both stand in one place.
const fn shank(dash: u8, min: u16, max: u16, head: HeadSize, basis: Basis) -> Size {
    bare(dash, basis).shank(between(min, max)).head(Some(HeadSize { basis, ..head }))
}

/// A size of an oversize series: the standard diameter and 1/64 in, with the tolerance of the standard shank, +.003 -.001.
const fn oversize(dash: u8, basis: Basis) -> Size {
    let standard = bare(dash, basis);
    let nominal = standard.shank_nominal.plus(OVERSIZE_STEP);
    let limits = Interval::of(nominal.minus(thousandths(1)), nominal.plus(thousandths(3)));
    standard.shank_nominal(nominal).shank(Some(limits))
}

/// A protruding head in thousandths of an inch: nominal, least and greatest diameter, then height.
const fn round(diameter: [u16; 3], [height, lowest, highest]: [u16; 3]) -> HeadSize {
    flush(diameter, height).height(between(lowest, highest))
}

/// A flush head in thousandths of an inch: nominal, least and greatest diameter; its height for reference.
const fn flush([diameter, narrowest, widest]: [u16; 3], height: u16) -> HeadSize {
    nominal(diameter, height).diameter(between(narrowest, widest))
}

/// A head in thousandths of an inch, without tolerances. Its source is that of its size.
const fn nominal(diameter: u16, height: u16) -> HeadSize {
    HeadSize::new(thousandths(diameter), thousandths(height), Basis::AS_GIVEN)
}
