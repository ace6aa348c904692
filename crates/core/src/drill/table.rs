//! Twist drills of the number, letter and fraction series.
//!
//! Number and letter drills: public tables of drill sizes, which agree with one another; ANSI/ASME B94.11M, the standard behind
//! them, was not seen. Printed in ten-thousandths of an inch. Fraction drills: 1/64 in to 1/2 in, exact by their names, counted in
//! sixty-fourths. In rising order of diameter, as a combined drill chart prints them; a fraction stands before a letter of the same
//! diameter.

use super::{Drill, fraction, letter, number};
use crate::length::Length;

/// Every drill.
#[rustfmt::skip]
pub(super) const DRILLS: &[Drill] = &[
    number(80, 135), number(79, 145), fraction(1), number(78, 160), number(77, 180), number(76, 200),
    number(75, 210), number(74, 225), number(73, 240), number(72, 250), number(71, 260), number(70, 280),
    number(69, 292), number(68, 310), fraction(2), number(67, 320), number(66, 330), number(65, 350),
    number(64, 360), number(63, 370), number(62, 380), number(61, 390), number(60, 400), number(59, 410),
    number(58, 420), number(57, 430), number(56, 465), fraction(3), number(55, 520), number(54, 550),
    number(53, 595), fraction(4), number(52, 635), number(51, 670), number(50, 700), number(49, 730),
    number(48, 760), fraction(5), number(47, 785), number(46, 810), number(45, 820), number(44, 860),
    number(43, 890), number(42, 935), fraction(6), number(41, 960), number(40, 980), number(39, 995),
    number(38, 1015), number(37, 1040), number(36, 1065), fraction(7), number(35, 1100), number(34, 1110),
    number(33, 1130), number(32, 1160), number(31, 1200), fraction(8), number(30, 1285), number(29, 1360),
    number(28, 1405), fraction(9), number(27, 1440), number(26, 1470), number(25, 1495), number(24, 1520),
    number(23, 1540), fraction(10), number(22, 1570), number(21, 1590), number(20, 1610), number(19, 1660),
    number(18, 1695), fraction(11), number(17, 1730), number(16, 1770), number(15, 1800), number(14, 1820),
    number(13, 1850), fraction(12), number(12, 1890), number(11, 1910), number(10, 1935), number(9, 1960),
    number(8, 1990), number(7, 2010), fraction(13), number(6, 2040), number(5, 2055), number(4, 2090),
    number(3, 2130), fraction(14), number(2, 2210), number(1, 2280), letter('A', 2340), fraction(15),
    letter('B', 2380), letter('C', 2420), letter('D', 2460), fraction(16), letter('E', 2500), letter('F', 2570),
    letter('G', 2610), fraction(17), letter('H', 2660), letter('I', 2720), letter('J', 2770), letter('K', 2810),
    fraction(18), letter('L', 2900), letter('M', 2950), fraction(19), letter('N', 3020), fraction(20),
    letter('O', 3160), letter('P', 3230), fraction(21), letter('Q', 3320), letter('R', 3390), fraction(22),
    letter('S', 3480), letter('T', 3580), fraction(23), letter('U', 3680), fraction(24), letter('V', 3770),
    letter('W', 3860), fraction(25), letter('X', 3970), letter('Y', 4040), fraction(26), letter('Z', 4130),
    fraction(27), fraction(28), fraction(29), fraction(30), fraction(31), fraction(32),
];

/// Drill numbers for which one of the lists prints another diameter.
///
/// Number 69: 0.02925 in one list, 0.0292 in all others (a list in millimetres has 0.741 68 mm, which is 0.0292 in).
pub(super) const OTHER_READINGS: &[(u8, Option<Length>)] = &[(69, Length::from_nanometres(742_950))];
