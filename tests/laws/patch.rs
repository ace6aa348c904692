//! Laws of a patch as it is laid out: rows and pitch from the rivets an inch, places from rows and pitch, what it weighs, how its rows share.

use std::collections::BTreeSet;

use proptest::prelude::*;
use shophead::finding::Code;
use shophead::joint::flexibility::Formula;
use shophead::joint::strength::Shear;
use shophead::layout::Point;
use shophead::length::Length;
use shophead::practice::{Case, Name};
use shophead::quantity::Force;
use shophead::repair::patch::{
    MOST_ROWS, Patch, PatchError, PatchHole, Pattern, STEP, SkinDamage, Style, Taper, Ways, patch,
};
use shophead::rivet::mass::mass_each;
use shophead_tests::prelude::nm;

use crate::common::config;
use crate::repair::{Asked, asked, hole, made, size};

/// A place is halved, and halved again.
pub(crate) const ROUNDING: i64 = 2;
/// Of a sum of floating figures.
const HAIR: f64 = 1e-9;

pub(crate) fn of(length: Length) -> i64 {
    length.nanometres()
}

/// The least and the greatest pitch of so many rows.
fn pitches(asked: &Asked, found: &Patch, rows: u8) -> (i64, i64) {
    let case = Case::of(found.rivet.series().head, found.rivet.alloy(), found.rivet.size()).in_rows(rows);
    let limit = |name| asked.practice().length(name, &case).map(|limit| of(limit.value));
    (limit(Name::PitchLeast).expect("known"), limit(Name::PitchGreatest).unwrap_or(i64::MAX))
}

/// A side as seen from the opening: how far its rows are out, and where a rivet stands along its row.
fn seen(hole: &PatchHole, at_ends: bool) -> (i64, i64) {
    let (x, y) = (of(hole.at.x), of(hole.at.y));
    if at_ends { (x, y) } else { (y, x) }
}

proptest! {
    #![proptest_config(config())]

    /// The fewest rows that hold so many rivets an inch, and the widest pitch in 64ths at which they do.
    #[test]
    fn rows_and_pitch_are_the_fewest_and_the_widest_that_hold_the_count(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let wanted = found.rate.per_inch.expect("laid out");
        let (rows, pitch) = (found.across.rows, found.pitch.nanometres());
        let holds = |rows: u8, pitch: i64| f64::from(rows) * 25_400_000.0 / pitch as f64 >= wanted * (1.0 - HAIR);
        let (least, greatest) = pitches(&asked, &found, rows);
        prop_assert!(holds(rows, pitch) && least <= pitch && pitch <= greatest);
        prop_assert_eq!(least, of(found.least_pitch.value));
        let step = of(STEP);
        let widened = if pitch % step == 0 { pitch + step } else { pitch + 3 };
        prop_assert!(!holds(rows, widened) || widened > greatest, "{} is not the widest", found.pitch);
        // Where there is a 64th between the limits the pitch is one.
        prop_assert!(pitch % step == 0 || pitch / step * step < least);
        prop_assert!((1..rows).all(|fewer| !holds(fewer, pitches(&asked, &found, fewer).0)), "fewer rows do");
        prop_assert!(rows <= MOST_ROWS);
        prop_assert_eq!(found.along.rows, if asked.ways == Ways::Both { rows } else { 1 });
        prop_assert_eq!(found.along.needed.is_some(), asked.ways == Ways::Both);
    }

    /// A row is as wide as the opening taken up to whole pitches, two at least.
    #[test]
    fn a_side_is_spread_over_whole_pitches(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let staggered = asked.pattern == Pattern::Staggered;
        for (side, width) in [(found.across, found.opening.across), (found.along, found.opening.along)] {
            prop_assert_eq!(side.width, width);
            let (pitch, spread) = (of(found.pitch), of(side.spread));
            prop_assert_eq!(spread, pitch * i64::from(side.per_row));
            prop_assert!(side.per_row >= 2 && spread >= of(width));
            prop_assert!(side.per_row == 2 || spread - pitch < of(width), "a rivet too many");
            // Every second row stands in the gaps and has one more, at either end.
            prop_assert_eq!(side.counted, side.per_row * u32::from(side.rows) + if staggered { u32::from(side.rows) / 2 } else { 0 });
        }
    }

    /// Each row: as many pitches out as its number says, evenly spaced, and as far as the corner allows but no further.
    #[test]
    fn every_rivet_of_a_side_stands_where_its_row_has_it(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let (edge, pitch, apart) = (of(found.edge.value), of(found.pitch), of(found.apart));
        let holes: Vec<PatchHole> = found.holes().collect();
        let corners = 4 * usize::from(found.across.rows.min(found.along.rows));
        prop_assert!(holes[holes.len() - corners..].iter().all(|hole| !hole.counts));
        let on_sides = &holes[..holes.len() - corners];
        for (own, other, at_ends) in [(found.across, found.along, true), (found.along, found.across, false)] {
            for row in 0..own.rows {
                let out = of(other.spread) / 2 + edge + apart * i64::from(row);
                for sign in [1, -1] {
                    let mut along: Vec<i64> = on_sides
                        .iter()
                        .filter(|hole| hole.row == row + 1)
                        .map(|hole| seen(hole, at_ends))
                        .filter(|seen| (seen.0 - sign * out).abs() <= ROUNDING)
                        .map(|seen| seen.1)
                        .collect();
                    // Rivets of the other sides may stand on the same line, beyond this row's corner.
                    let corner = of(own.spread) / 2 + edge + apart * i64::from(row);
                    along.retain(|along| along.abs() < corner + ROUNDING || row + 1 > other.rows);
                    along.sort_unstable();
                    prop_assert!(along.windows(2).all(|pair| (pair[1] - pair[0] - pitch).abs() <= ROUNDING), "{:?}", along);
                    let (first, last) = (along[0], along[along.len() - 1]);
                    prop_assert!((first + last).abs() <= ROUNDING, "not in the middle");
                    // Into the gaps or behind: a rivet in the middle, or none.
                    let shifted = asked.pattern == Pattern::Staggered && row % 2 == 1;
                    // Those over the opening count, where the side carries; a row in the gaps has one more.
                    let over = |hole: &&PatchHole| {
                        let seen = seen(hole, at_ends);
                        hole.row == row + 1 && (seen.0 - sign * out).abs() <= ROUNDING && seen.1.abs() <= of(own.spread) / 2 + ROUNDING
                    };
                    let counted = on_sides.iter().filter(over).filter(|hole| hole.counts).count();
                    let wanted = own.per_row + u32::from(shifted);
                    prop_assert_eq!(counted, if own.needed.is_some() { wanted as usize } else { 0 });
                    let odd = (own.per_row % 2 == 1) != shifted;
                    prop_assert_eq!(along.iter().any(|along| along.abs() <= ROUNDING), odd);
                    let least = of(found.least_pitch.value);
                    let reach = if row < other.rows {
                        corner - least
                    } else {
                        of(own.spread) / 2 + edge + apart * i64::from(other.rows - 1)
                    };
                    prop_assert!(last <= reach + ROUNDING || along.len() as u32 <= own.per_row + 1, "beyond its corner");
                    prop_assert!(last + pitch > reach - ROUNDING, "room for another");
                }
            }
        }
    }

    /// The plate ends an edge distance beyond the outermost rivets, and has one at each corner of every row.
    #[test]
    fn the_plate_ends_an_edge_distance_beyond_its_rivets(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let most = |of_hole: fn(&Point) -> Length| found.holes().map(|hole| of(of_hole(&hole.at)).abs()).max().expect("rivets");
        let edge = of(found.edge.value);
        prop_assert!((of(found.plate.along) / 2 - most(|at| at.x) - edge).abs() <= ROUNDING);
        prop_assert!((of(found.plate.across) / 2 - most(|at| at.y) - edge).abs() <= ROUNDING);
        let (along, across) = found.run_out();
        prop_assert!((2 * of(along) + of(found.opening.along) - of(found.plate.along)).abs() <= ROUNDING);
        prop_assert!((2 * of(across) + of(found.opening.across) - of(found.plate.across)).abs() <= ROUNDING);
        let places: BTreeSet<(i64, i64)> = found.holes().map(|hole| (of(hole.at.x), of(hole.at.y))).collect();
        prop_assert_eq!(places.len() as u32, found.rivets(), "two rivets in one hole");
        for row in 0..found.across.rows.min(found.along.rows) {
            let out = |spread: Length| of(spread) / 2 + edge + of(found.apart) * i64::from(row);
            let (x, y) = (out(found.along.spread), out(found.across.spread));
            for corner in [(x, y), (x, -y), (-x, y), (-x, -y)] {
                let is_there = places.iter().any(|place| (place.0 - corner.0).abs() <= ROUNDING && (place.1 - corner.1).abs() <= ROUNDING);
                prop_assert!(is_there, "{:?}", corner);
            }
        }
    }

    /// Mirrored, turned by half and, with load both ways, by a quarter: the same rivets.
    #[test]
    fn a_mirrored_or_turned_patch_is_the_same(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let key = |x: i64, y: i64, hole: &PatchHole| (x / 16, y / 16, hole.row, hole.counts);
        let mut plain: Vec<_> = found.holes().map(|hole| key(of(hole.at.x).abs(), of(hole.at.y).abs(), &hole)).collect();
        plain.sort_unstable();
        // Each as often as there are ways to mirror it.
        for signs in [(1, 1), (1, -1), (-1, 1), (-1, -1)] {
            let in_it = found.holes().filter(|hole| of(hole.at.x) * signs.0 > ROUNDING && of(hole.at.y) * signs.1 > ROUNDING);
            let other = found.holes().filter(|hole| of(hole.at.x) > ROUNDING && of(hole.at.y) > ROUNDING);
            prop_assert_eq!(in_it.count(), other.count());
        }
        if asked.ways == Ways::Both {
            let turned = made(&asked, hole((size.1, size.0))).expect("as before");
            let mut there: Vec<_> = turned.holes().map(|hole| key(of(hole.at.y).abs(), of(hole.at.x).abs(), &hole)).collect();
            there.sort_unstable();
            prop_assert_eq!(plain, there);
            prop_assert_eq!((turned.plate.along, turned.plate.across), (found.plate.across, found.plate.along));
// The ring of a filler begins at the end of it, so that it may have another rivet when it is turned.
            prop_assert!(turned.mass.zip(found.mass).is_none_or(|(one, other)| found.filler.is_some() || (one.lb() - other.lb()).abs() < HAIR));
        }
    }

    /// A sheet with round corners part by part: a cross of two rectangles and a disc.
    #[test]
    fn a_patch_weighs_its_plates_and_rivets_less_what_was_cut_out(asked in asked(), size in size(), cracked in any::<bool>()) {
        let damage = if cracked { SkinDamage::Crack { along: nm(size.0), across: nm(size.1) } } else { hole(size) };
        let Some(found) = made(&asked, damage) else { return Ok(()) };
        let density = |thickness| asked.practice().sheet(asked.material, thickness).density_lb_in3().map(|(density, _)| density);
        if density(asked.thickness).is_none() || density(found.plate.thickness).is_none() {
            prop_assert!(found.mass.is_none() && found.findings.has(Code::DensityNotKnown));
            return Ok(());
        }
        let weighs = |along: Length, across: Length, radius: Length, thickness: Length| {
            let [a, b, r] = [along, across, radius].map(|side| side.to_inches_f64());
            let area = a * (b - 2.0 * r) + 2.0 * r * (a - 2.0 * r) + core::f64::consts::PI * r * r;
            area * thickness.to_inches_f64() * density(thickness).expect("asked above")
        };
        let plate = weighs(found.plate.along, found.plate.across, found.plate.radius, found.plate.thickness);
        prop_assert!((found.plate.mass.expect("known").lb() - plate).abs() < 1e-9);
        let opening = found.opening;
        let cut = weighs(opening.along, opening.across, opening.radius, asked.thickness);
        prop_assert_eq!(found.filler.is_some(), asked.style == Style::Flush && !cracked);
        prop_assert_eq!(opening.stop_hole.is_some(), cracked);
        let rivets = found.rivets() + found.filler_holes().count() as u32;
        let each = found.rivet.alloy().density_lb_in3().and_then(|(density, _)| mass_each(&found.rivet, density));
        let wanted = each.map(|each| {
            let taken = if cracked { 0.0 } else { cut };
            plate + if found.filler.is_some() { cut } else { 0.0 } - taken + each.lb() * f64::from(rivets)
        });
        prop_assert_eq!(found.mass.is_some(), wanted.is_some());
        if let Some((found, wanted)) = found.mass.zip(wanted) {
            prop_assert!((found.lb() - wanted).abs() < 1e-9 * (1.0 + wanted), "{} {}", found.lb(), wanted);
        }
    }

    /// What a side carries over what the skin does, and the limit load of what comes over: no more than the skin.
    #[test]
    fn the_share_is_that_of_the_skin_without_holes(asked in asked(), size in size()) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let ftu = asked.practice().sheet(asked.material, asked.thickness).ftu();
        let carried = found.row.strength.per_inch.map(|carried| carried.force.lbf());
        prop_assert_eq!(found.share.is_some(), ftu.is_some() && carried.is_some());
        if let (Some(share), Some(ftu), Some(carried)) = (found.share, ftu, carried) {
            let skin = ftu.psi() * asked.thickness.to_inches_f64();
            prop_assert!((share * skin - carried).abs() < 1e-9 * carried);
        }
    }

    /// Whatever the taper, the rows together take what comes over; a plate that thins out to all of its thickness is a plain one.
    #[test]
    fn the_rows_together_take_what_comes_over(asked in asked(), size in size(), load in 50.0_f64..2_000.0, thinned in 0.2_f64..1.0) {
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let whole = found.plate.thickness;
        let first = nm((of(whole) as f64 * thinned) as i64);
        let shares = |formula, taper| {
            let shares = found.shares(Force::from_lbf(load), formula, taper).ok()?;
            Some(shares.rows().map(|row| row.a_fastener.lbf()).collect::<Vec<f64>>())
        };
        for formula in Formula::for_rivets(Shear::Single) {
            let modulus = |thickness| asked.material.properties(thickness).is_some_and(|sheet| sheet.e().is_some());
            let is_known = modulus(asked.thickness) && modulus(whole);
            let Some(plain) = shares(formula, Taper::Plain).filter(|_| is_known) else {
                prop_assert!(!is_known, "{:?}", found.shares(Force::from_lbf(load), formula, Taper::Plain));
                continue;
            };
            for taper in [Taper::Plain, Taper::Feathered(first), Taper::Stepped(first)] {
                let each = shares(formula, taper).expect("as the plain one");
                prop_assert_eq!(each.len(), usize::from(found.across.rows));
                let (sum, over) = (each.iter().sum::<f64>(), load * found.pitch.to_inches_f64());
                prop_assert!((sum - over).abs() < 1e-6 * over, "{} {}", sum, over);
                if each.len() > 1 && taper != Taper::Plain {
                    prop_assert!(each[0] < plain[0] + HAIR, "a plate that is thinner there takes less there");
                }
            }
            for taper in [Taper::Feathered(whole), Taper::Stepped(whole), Taper::Feathered(Length::INCH), Taper::Stepped(Length::INCH)] {
                let each = shares(formula, taper).expect("as the plain one");
                prop_assert!(each.iter().zip(&plain).all(|(one, other)| (one - other).abs() < 1e-6 * load), "{:?} {:?}", each, plain);
            }
        }
        // More than its rivets carry: the most of any row by any formula, under the limit load.
        let limit = found.row.strength.per_inch.map(|carried| carried.force.lbf() / found.share.unwrap_or(1.0).max(1.0) / 1.5);
        let Some((limit, allowable)) = limit.zip(found.row.strength.joint.allowable) else { return Ok(()) };
        let most = |taper| {
            let at_limit = |formula| Some(found.shares(Force::from_lbf(limit), formula, taper).ok()?.rows().map(|row| row.a_fastener.lbf().abs()).fold(0.0, f64::max));
            Formula::for_rivets(Shear::Single).filter_map(at_limit).reduce(f64::max)
        };
        for taper in [Taper::Plain, Taper::Stepped(first)] {
            let over = most(taper).is_some_and(|most| found.across.rows > 1 && most > allowable.force.lbf());
            prop_assert_eq!(found.row_over_ultimate(taper).is_some(), over);
        }
    }

    /// A ring an edge distance inside the rim: every rivet on it, evenly spaced, and not one less than there is room for.
    #[test]
    fn a_filler_is_held_by_an_even_ring(asked in asked(), size in size()) {
        let asked = Asked { style: Style::Flush, ..asked };
        let Some(found) = made(&asked, hole(size)) else { return Ok(()) };
        let filler = found.filler.expect("a flush patch has one");
        let inches = |length: Length| length.to_inches_f64();
        let edge = inches(found.edge.value);
        // Exactly, so that a ring without a width is one.
        let inside = |side: Length| (of(side) - 2 * of(found.edge.value)) as f64 / 50_800_000.0;
        let (x, y) = (inside(filler.along), inside(filler.across));
        let places: Vec<(f64, f64)> = found.filler_holes().map(|at| (inches(at.x), inches(at.y))).collect();
        if x < 0.0 || y < 0.0 {
            prop_assert!(places.is_empty());
            return Ok(());
        }
        let radius = (inches(filler.radius) - edge).max(0.0).min(x).min(y);
        // How far round a place is, counted from the middle of the end towards greater y; and how far off the ring.
        let bend = core::f64::consts::FRAC_PI_2 * radius;
        let (lx, ly) = (x - radius, y - radius);
        let around = 4.0 * (lx + ly + bend);
        let gone = |(px, py): (f64, f64)| {
            let corner = |from: f64, cx: f64, cy: f64, angle: f64| (from + angle * radius, ((px - cx).hypot(py - cy) - radius).abs());
            let tau = core::f64::consts::TAU;
            let angle = |cx: f64, cy: f64, start: f64| ((py - cy).atan2(px - cx) - start).rem_euclid(tau);
            if px > lx && py > ly && radius > 0.0 { corner(ly, lx, ly, angle(lx, ly, 0.0)) }
            else if px < -lx && py > ly && radius > 0.0 { corner(ly + bend + 2.0 * lx, -lx, ly, angle(-lx, ly, tau / 4.0)) }
            else if px < -lx && py < -ly && radius > 0.0 { corner(3.0 * ly + 2.0 * bend + 2.0 * lx, -lx, -ly, angle(-lx, -ly, tau / 2.0)) }
            else if px > lx && py < -ly && radius > 0.0 { corner(3.0 * ly + 3.0 * bend + 4.0 * lx, lx, -ly, angle(lx, -ly, tau * 0.75)) }
            else if (px - x).abs() < 1e-6 { (py.rem_euclid(around), 0.0) }
            else if (py - y).abs() < 1e-6 { (ly + bend + lx - px, 0.0) }
            else if (px + x).abs() < 1e-6 { (2.0 * ly + 2.0 * bend + 2.0 * lx - py, 0.0) }
            else { (3.0 * ly + 3.0 * bend + 3.0 * lx + px, (py + y).abs()) }
        };
        let count = places.len();
        if count > 1 {
            for (index, place) in places.iter().enumerate() {
                let (way, off) = gone(*place);
                prop_assert!(off < 1e-6, "{:?} is off the ring by {}", place, off);
                let wanted = around * index as f64 / count as f64;
                // A ring without a width goes out and back on one line.
                let is_line = x.min(y) < 1e-6;
                prop_assert!(is_line || (way - wanted).abs() < 1e-5 || (way - wanted).abs() > around - 1e-5, "{} {}", way, wanted);
            }
            prop_assert!(around / count as f64 > inches(found.pitch) * (1.0 - 1e-6));
        } else {
            prop_assert_eq!(places, [(0.0, 0.0)]);
        }
        // On a ring that is nearly straight between two rivets the pitch alone decides.
        if radius < 1e-6 && lx.min(ly) > 2.0 * inches(found.pitch) && inches(found.pitch) > 1.5 * inches(found.least_pitch.value) {
            prop_assert!(around / (count + 1) as f64 <= inches(found.pitch) * (1.0 + 1e-6));
        }
    }

    /// So many rows as are asked for, where they hold the count; a row fewer than the fewest is refused and the fewest named.
    #[test]
    fn rows_that_are_given_are_laid_out_or_refused(asked in asked(), size in size(), rows in 0_u8..9) {
        let Some(fewest) = made(&asked, hole(size)).map(|found| found.across.rows) else { return Ok(()) };
        let found = patch(&asked.query(hole(size)).rows(Some(rows)));
        match found {
            Ok(found) => prop_assert!(found.across.rows == rows && (fewest..=MOST_ROWS).contains(&rows)),
            Err(PatchError::TooFewRows { rows: named }) => {
                prop_assert_eq!(named, fewest);
                prop_assert!(rows < fewest || rows > MOST_ROWS, "{}", rows);
            }
            Err(other) => prop_assert!(false, "{other:?}"),
        }
    }
}
