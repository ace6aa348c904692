#![no_main]
//! Any bytes in every member of the structures that C hands over.
#![allow(unsafe_code, reason = "stands for the C program")]

use std::ffi::c_char;
use std::mem::MaybeUninit;

use shophead_ffi::border::{In, Out, Plain};
use shophead_ffi::finding::{SHOPHEAD_MAX_FINDINGS, shophead_finding};
use shophead_ffi::{head, hole, joint, layout, part, practice, select, splice, stack, window};

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Some((which, rest)) = bytes.split_first() else { return };
    let mut from = Bytes(rest);
    let mut findings = Room::<shophead_finding>::of(SHOPHEAD_MAX_FINDINGS);
    match which % 11 {
        0 | 1 => {
            let practice = from.practice();
            let layers: [stack::shophead_layer; 3] = [from.take(), from.take(), from.take()];
            let mut query: select::shophead_length_query = from.take();
            query.practice = practice;
            let (mut choice, mut serving, mut ranges, mut count) =
                (Room::of(1), Room::of(4), Room::of(4), Room::<usize>::of(1));
            let mut driving = Room::of(1);
            let _ = select::shophead_length_choose(of(&query), choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
            let _ = window::shophead_length_choose_through(of(&query), all(&layers), 3, choice.out(), findings.out(), SHOPHEAD_MAX_FINDINGS);
            let _ = window::shophead_head_window(of(&query), all(&layers), 2, driving.out());
            let _ = window::shophead_length_serves(of(&query), all(&layers), 1, serving.out(), 4, count.out());
            let _ = window::shophead_length_by_hole(of(&query), all(&layers), 2, ranges.out(), 4, count.out());
            let mut predicted = Room::of(1);
            let nm: i64 = query.hole.nominal_nm;
            let _ = head::shophead_head_predict(of(&query), nm, predicted.out());
        }
        2 | 3 => {
            let practice = from.practice();
            let layers: [stack::shophead_layer; 3] = [from.take(), from.take(), from.take()];
            let found: hole::shophead_hole = from.take();
            let mut query: hole::shophead_hole_query = from.take();
            query.practice = practice;
            query.layers = all(&layers);
            query.layer_count %= 4;
            let (mut judged, mut steps) = (Room::of(1), Room::of(hole::SHOPHEAD_MAX_STEPS));
            let mut findings = Room::of(hole::SHOPHEAD_MAX_HOLE_FINDINGS);
            let _ = hole::shophead_hole_judge(
                of(&query),
                of(&found),
                judged.out(),
                steps.out(),
                hole::SHOPHEAD_MAX_STEPS,
                findings.out(),
                hole::SHOPHEAD_MAX_HOLE_FINDINGS,
            );
        }
        4 | 5 => {
            let layers: [stack::shophead_layer; 3] = [from.take(), from.take(), from.take()];
            let mut asked: joint::shophead_joint = from.take();
            asked.layers = all(&layers);
            asked.layer_count %= 4;
            let (mut strength, mut sheets) = (Room::of(1), Room::of(3));
            let _ = joint::shophead_strength_find(of(&asked), strength.out(), sheets.out(), 3, findings.out(), SHOPHEAD_MAX_FINDINGS);
        }
        6 => {
            let practice = from.practice();
            let (row, rivet): (layout::shophead_row, part::shophead_part) = (from.take(), from.take());
            let mut span = Room::of(1);
            let _ = layout::shophead_row_check(of(&row), of(&rivet), 1, of(&practice), findings.out(), SHOPHEAD_MAX_FINDINGS, span.out());
            let (mut changed, mut dimensions) = (Room::of(1), Room::of(1));
            let _ = part::shophead_part_with_length(of(&rivet), row.edge_nm, changed.out());
            let _ = part::shophead_part_dimensions(of(&rivet), dimensions.out());
        }
        7 => {
            let rivet: part::shophead_part = from.take();
            let load: joint::shophead_load = from.take();
            let mut margin = Room::of(1);
            let _ = joint::shophead_margin_find(load.lbf, of(&load), margin.out());
            let mut count = Room::of(1);
            let _ = splice::shophead_splice_needed(load.lbf, rivet.length_nm, rivet.length_nm, load.lbf, count.out());
            let mut per_inch = Room::of(1);
            let _ = splice::shophead_splice_per_inch(rivet.series, rivet.length_nm, of(&rivet), per_inch.out());
            let mut laid = Room::of(1);
            let _ = splice::shophead_splice_lay(rivet.dash, rivet.finish, rivet.length_nm, laid.out());
        }
        8 => {
            let finding: shophead_finding = {
                // Without the pointers of its basis.
                let mut finding: shophead_finding = from.take();
                finding.basis.document.length = 0;
                finding.basis.place.length = 0;
                finding
            };
            let mut text = Room::<c_char>::of(64);
            let mut length = Room::<usize>::of(1);
            let which: [u8; 2] = [rest.first().copied().unwrap_or(0), rest.last().copied().unwrap_or(0)];
            let _ = shophead_ffi::finding::shophead_finding_say(
                of(&finding),
                u32::from(which[0]),
                u32::from(which[1]),
                text.out(),
                64,
                length.out(),
            );
        }
        9 => {
            let layers: [stack::shophead_layer; 8] = std::array::from_fn(|_| from.take());
            let mut grip = Room::of(1);
            let _ = stack::shophead_stack_grip(all(&layers), usize::from(rest.first().copied().unwrap_or(0) % 9), grip.out());
        }
        _ => {
            let practice = from.practice();
            let (first, second) = rest.split_at(rest.len() / 2);
            let chars = |bytes: &[u8]| bytes.iter().map(|byte| *byte as c_char).collect::<Vec<c_char>>();
            let (rivet, layers) = (chars(first), chars(second));
            let mut fitted = Room::of(1);
            let _ = select::shophead_length_fit(
                all(&rivet),
                rivet.len(),
                all(&layers),
                layers.len(),
                of(&practice),
                fitted.out(),
                findings.out(),
                SHOPHEAD_MAX_FINDINGS,
            );
        }
    }
});

/// Takes structures off the front of the bytes, zeroes where they end.
struct Bytes<'b>(&'b [u8]);

impl Bytes<'_> {
    fn take<T: Plain>(&mut self) -> T {
        let mut value = MaybeUninit::<T>::zeroed();
        let (taken, rest) = self.0.split_at(self.0.len().min(size_of::<T>()));
        self.0 = rest;
        // SAFETY: room for as many bytes as are copied; of a `Plain` type any bytes that are set are a value.
        unsafe {
            std::ptr::copy_nonoverlapping(taken.as_ptr(), value.as_mut_ptr().cast::<u8>(), taken.len());
            value.assume_init()
        }
    }

    /// A practice without entries of the caller's: pointers are never made of bytes.
    fn practice(&mut self) -> practice::shophead_practice {
        // SAFETY: a structure of numbers and of pointers that may be NULL.
        let mut empty: practice::shophead_practice = unsafe { MaybeUninit::zeroed().assume_init() };
        let (first, rest) = self.0.split_first().unwrap_or((&0, &[]));
        self.0 = rest;
        empty.built_in = u32::from(*first);
        empty
    }
}

fn of<T>(value: &T) -> In<T> {
    // SAFETY: one value, borrowed for longer than the call.
    unsafe { In::new(value) }
}

fn all<T>(values: &[T]) -> In<T> {
    // SAFETY: every call says how many.
    unsafe { In::new(values.as_ptr()) }
}

/// Places that a function may write to; the sanitizer watches their ends.
struct Room<T>(Vec<MaybeUninit<T>>);

impl<T> Room<T> {
    fn of(count: usize) -> Room<T> {
        Room((0..count).map(|_| MaybeUninit::zeroed()).collect())
    }

    fn out(&mut self) -> Out<T> {
        // SAFETY: as many places as every call says, used for nothing else.
        unsafe { Out::new(self.0.as_mut_ptr().cast()) }
    }
}
